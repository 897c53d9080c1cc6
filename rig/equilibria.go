package rig

import (
	"math"
	"slices"

	"plumbhook/geom"
)

// Equilibria returns every pose in which the load can stand still on legs that
// do not stretch, by geometry alone: the second method, sharing nothing with
// the search downhill but the sum of forces.
//
// With rigid legs the hook can be anywhere that lies within each leg's length
// of its pick, and gravity draws it as far from the CG as it can. So it comes
// to rest on one leg in line with the CG, on the circle that two taut legs
// leave at its nearest or farthest place from the CG, or at a point that three
// taut legs fix. All of them are tried; those within reach of all legs and
// balanced by pull alone are equilibria, stable or not. Where a whole circle
// is one (CG on the line of two picks), its place nearest to near is given.
func (r Rig) Equilibria(near geom.Vec) []Pose {
	n := len(r.Picks)
	var places []geom.Vec
	for a := range n {
		places = append(places, r.onOne(a)...)
		for b := range a {
			places = append(places, r.onTwo(a, b, near)...)
			for c := range b {
				places = append(places, r.onThree(a, b, c)...)
			}
		}
	}
	var found []Pose
	for _, h := range places {
		if !r.reaches(h) || slices.ContainsFunc(found, func(p Pose) bool {
			return p.Hook.Sub(h).Len() <= 1e-9*r.size()
		}) {
			continue
		}
		if p, ok := r.pose(h); ok {
			found = append(found, p)
		}
	}
	return found
}

// reaches says whether every leg is long enough for the hook to be at h.
func (r Rig) reaches(h geom.Vec) bool {
	for i, p := range r.Picks {
		if h.Sub(p).Len() > r.Lengths[i]+sameLength*r.size() {
			return false
		}
	}
	return true
}

// onOne is the hook on one leg, in line with its pick and the CG.
func (r Rig) onOne(a int) []geom.Vec {
	away, ok := unit(r.Picks[a].Sub(r.CG))
	if !ok {
		return nil
	}
	return []geom.Vec{
		r.Picks[a].Add(away.Mul(r.Lengths[a])), // CG below the pick
		r.Picks[a].Sub(away.Mul(r.Lengths[a])), // CG above it, on a knife's edge
	}
}

// circle returns centre, unit axis and radius of the circle of places that are
// just as far from two picks as their legs are long.
func (r Rig) circle(a, b int) (centre, axis geom.Vec, radius float64, ok bool) {
	span := r.Picks[b].Sub(r.Picks[a])
	apart := span.Len()
	axis, ok = unit(span)
	if !ok {
		return
	}
	along := (apart + (r.Lengths[a]-r.Lengths[b])*(r.Lengths[a]+r.Lengths[b])/apart) / 2
	rest := (r.Lengths[a] - along) * (r.Lengths[a] + along)
	if rest < -1e-12*r.size()*r.size() {
		return centre, axis, 0, false
	}
	return r.Picks[a].Add(axis.Mul(along)), axis, math.Sqrt(max(0, rest)), true
}

// onTwo is the hook on two legs, in the plane of both picks and the CG.
func (r Rig) onTwo(a, b int, near geom.Vec) []geom.Vec {
	centre, axis, radius, ok := r.circle(a, b)
	if !ok {
		return nil
	}
	side := level(r.CG.Sub(centre), axis)
	if side.Len() <= 1e-12*r.size() { // any place on the circle balances
		if side, ok = unit(level(near.Sub(centre), axis)); !ok {
			side = square(axis)
		}
	} else {
		side, _ = unit(side)
	}
	return []geom.Vec{centre.Sub(side.Mul(radius)), centre.Add(side.Mul(radius))}
}

// onThree is the hook where three legs fix it: two places, one on each side of
// the plane of the picks.
func (r Rig) onThree(a, b, c int) []geom.Vec {
	centre, axis, radius, ok := r.circle(a, b)
	if !ok {
		return nil
	}
	out := level(r.Picks[c].Sub(centre), axis)
	away := out.Len()
	x, ok := unit(out)
	if !ok || away <= 1e-9*r.size() { // picks in one line: two of them say it all
		return nil
	}
	axial := r.Picks[c].Sub(centre).Dot(axis)
	// The third leg's sphere cuts the circle's plane in a circle of this radius².
	third := (r.Lengths[c] - axial) * (r.Lengths[c] + axial)
	along := (away + (radius*radius-third)/away) / 2
	rest := (radius - along) * (radius + along)
	if rest < -1e-12*r.size()*r.size() {
		return nil
	}
	rise := axis.Cross(x).Mul(math.Sqrt(max(0, rest)))
	foot := centre.Add(x.Mul(along))
	return []geom.Vec{foot.Add(rise), foot.Sub(rise)}
}
