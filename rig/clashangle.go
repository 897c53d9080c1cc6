package rig

import (
	"math"

	"plumbhook/geom"
)

// IncludedAngle is the angle at the hook between two legs.
type IncludedAngle struct {
	Legs  [2]int  // from 0, the lower first
	Angle float64 // rad
}

// IncludedAngles returns the angle at the hook between each two legs, in the
// order of the legs. With u and v along them it is atan2(|u × v|, u·v), which,
// unlike the arc cosine, loses no digits near 0 and 180°. A pick at the hook has
// no direction: an *InputError.
func IncludedAngles(hook geom.Vec, picks []geom.Vec) ([]IncludedAngle, error) {
	legs := make([]geom.Vec, len(picks))
	for i, p := range picks {
		leg, ok := unit(p.Sub(hook))
		if !ok || !finite(leg) {
			return nil, &InputError{"a leg from the hook has no direction", "give picks and hook at different places"}
		}
		legs[i] = leg
	}
	var angles []IncludedAngle
	for i := range legs {
		for j := i + 1; j < len(legs); j++ {
			angles = append(angles, IncludedAngle{[2]int{i, j}, between(legs[i], legs[j])})
		}
	}
	return angles, nil
}

// between returns the angle in rad between two directions, 0 to π.
func between(u, v geom.Vec) float64 { return math.Atan2(u.Cross(v).Len(), u.Dot(v)) }

// LugAngles returns how a leg pulls at a lug, in radians. pull is along the leg
// from the pick to the hook, normal is square to the lug's plate, axis the way
// from the lug's foot to its hole (Up for a lug that stands); all may have any
// length, and axis is taken in the plate.
//
//	out of plane = asin(|u·n|), 0 to 90°: 0 is a pull in the plate
//	in plane     = the angle between the axis and u − (u·n)·n, 0 to 180°
//
// u and n of length one. Derived here. A pull square to the plate has no
// direction in it: in plane it counts as 0.
func LugAngles(pull, normal, axis geom.Vec) (inPlane, outOfPlane float64, err error) {
	u, pulls := unit(pull)
	n, faces := unit(normal)
	e, stands := unit(axis)
	if !pulls || !faces || !stands || !finite(u) || !finite(n) || !finite(e) {
		return 0, 0, &InputError{"pull, plate or axis of a lug has no direction", "give three vectors that are not zero"}
	}
	across := e.Sub(n.Mul(e.Dot(n)))
	if across.Len() < 1e-9 {
		return 0, 0, &InputError{"the axis of a lug is square to its plate", "give the way from the lug's foot to its hole"}
	}
	in := u.Sub(n.Mul(u.Dot(n)))
	outOfPlane = math.Atan2(math.Abs(u.Dot(n)), in.Len())
	if in.Len() < 1e-9 {
		return 0, outOfPlane, nil
	}
	return between(across, in), outOfPlane, nil
}
