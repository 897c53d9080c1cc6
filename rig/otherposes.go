package rig

import (
	"cmp"
	"math"
	"slices"

	"plumbhook/geom"
)

// apart in radians is how differently a load must hang for two poses to count as
// two: less is the play of legs that are a little long or short, which
// [Pose.Greatest] and the length tolerances cover. A convention: 0.1°.
const apart = 0.1 * math.Pi / 180

// OtherPoses returns the other poses near the attitude drawn in which the load
// stays where it is, the most level first: up to 45° from the drawing and more
// than 0.1° from h and from one another. It hangs in h when it is let go as drawn;
// a knock, or a leg that catches, may let it settle in one of these instead.
//
// Legs that stretch give none: all poses of legs that do not are found by
// geometry (see Equilibria), and no such list is known for springs.
func (r Rig) OtherPoses(h Hang) []Hang {
	if r.Stiffness != nil {
		return nil
	}
	var others []Hang
	known := []geom.Vec{h.Up}
	if h.Other != nil {
		known = append(known, h.Other.Up) // told already
	}
	poses := r.Equilibria(h.Hook)
	slices.SortStableFunc(poses, func(a, b Pose) int { return cmp.Compare(a.Tilt(), b.Tilt()) })
	for _, p := range poses {
		near := slices.ContainsFunc(known, func(up geom.Vec) bool { return between(up, p.Up) <= apart })
		if near || p.Tilt() > rollover || !r.stability(p).Stable {
			continue
		}
		known = append(known, p.Up)
		others = append(others, r.judge(p))
	}
	return others
}
