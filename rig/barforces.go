package rig

import (
	"fmt"
	"math"
	"slices"

	"plumbhook/geom"
)

// Station is what a straight bar carries at one place along it: the greater of
// just before and just beyond, where a leg takes hold.
type Station struct {
	At          float64 // m along the bar, from its CG
	Compression float64 // N along the bar; negative: it is pulled
	Shear       float64 // N square to the bar
	Bending     float64 // N·m
	Torsion     float64 // N·m about the bar's axis through its CG
}

// Along returns what a bar carries at each of its points and at its CG, in the
// pose given, from one end to the other. The bar is one straight member along
// axis, as drawn, through its CG; legs that take hold beside that line bend it
// by their arm. Its own weight is spread evenly as far on both sides of its CG
// as its farthest point. For a frame, whose members share in a way that statics
// does not tell, this is the whole of the section across axis.
//
// Derived here: the forces beyond a section and their moment about it.
func (t Tree) Along(p TreePose, body int, axis geom.Vec) ([]Station, error) {
	if body < 0 || body >= len(t.Bodies) || body >= len(p.Bodies) || len(p.Links) != len(t.Links) {
		return nil, &InputError{fmt.Sprintf("the tree has no body %d in this pose", body+1), "ask for a body of the tree that was hung"}
	}
	along, ok := unit(axis)
	if !ok || !finite(axis) {
		return nil, &InputError{"the bar's axis has no direction", "give the direction from one of its ends to the other"}
	}
	on := t.loads(p, body)
	stations := []float64{0}
	reach := 0.0
	for _, f := range on {
		s := f.arm.Dot(along)
		stations = append(stations, s)
		reach = max(reach, math.Abs(s))
	}
	if reach <= 1e-9*t.size() {
		return nil, &InputError{t.Bodies[body].Name + ": no leg takes hold away from its centre of gravity along this axis", "give the axis along the bar"}
	}
	slices.Sort(stations)
	same := 1e-9 * reach
	stations = slices.CompactFunc(stations, func(a, b float64) bool { return math.Abs(b-a) <= same })
	down := p.Bodies[body].Place.Turn.Transpose().Mul3x1(Up.Mul(-t.Bodies[body].Weight))
	var all []Station
	for _, s := range stations {
		before, beyond := section(on, along, down, reach, s-same), section(on, along, down, reach, s+same)
		all = append(all, before.greater(beyond, s))
	}
	return all, nil
}

// load is a pull on a body, in its drawn axes.
type load struct {
	arm   geom.Vec // m, from the CG
	force geom.Vec // N
}

// loads returns the pulls of all legs on a body.
func (t Tree) loads(p TreePose, body int) []load {
	var on []load
	for i, l := range t.Links {
		for side, e := range []End{l.From, l.To} {
			if e.Body != body {
				continue
			}
			pull := p.Links[i].Pull.Mul(p.Links[i].Tension * (2*float64(side) - 1))
			on = append(on, load{t.Bodies[body].Points[e.Point].Sub(t.Bodies[body].CG),
				p.Bodies[body].Place.Turn.Transpose().Mul3x1(pull)})
		}
	}
	return on
}

// section sums what acts beyond s metres along the bar.
func section(on []load, along, weight geom.Vec, reach, s float64) Station {
	cut := along.Mul(s)
	var force, moment geom.Vec
	for _, f := range on {
		if f.arm.Dot(along) > s {
			force = force.Add(f.force)
			moment = moment.Add(f.arm.Sub(cut).Cross(f.force))
		}
	}
	if length := min(reach-s, 2*reach); length > 0 {
		part := weight.Mul(length / (2 * reach))
		force = force.Add(part)
		moment = moment.Add(along.Mul(reach - length/2 - s).Cross(part))
	}
	return Station{s, -force.Dot(along), level(force, along).Len(), level(moment, along).Len(), moment.Dot(along)}
}

// greater takes the greater of each, at s.
func (a Station) greater(b Station, s float64) Station {
	torsion := a.Torsion
	if math.Abs(b.Torsion) > math.Abs(torsion) {
		torsion = b.Torsion
	}
	compression := a.Compression
	if math.Abs(b.Compression) > math.Abs(compression) {
		compression = b.Compression
	}
	return Station{s, compression, max(a.Shear, b.Shear), max(a.Bending, b.Bending), torsion}
}
