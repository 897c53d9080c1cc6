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
	var room placeRoom
	var found []Pose
	size := r.size()
	same, tol := 1e-9*size, sameLength*size
	for _, h := range r.places(room[:0], near) {
		if !r.within(h, tol) || slices.ContainsFunc(found, func(p Pose) bool { return p.Hook.Sub(h).Len() <= same }) {
			continue
		}
		if p, ok := r.pose(h); ok {
			found = append(found, p)
		}
	}
	return found
}

// placeRoom holds the places of the most legs: two on each leg, on each pair
// and on each three.
type placeRoom [2*Most + Most*(Most-1) + Most*(Most-1)*(Most-2)/3]geom.Vec

// places appends to those given every place where the hook may stand still.
func (r Rig) places(to []geom.Vec, near geom.Vec) []geom.Vec {
	size := r.size()
	for a := range r.Picks {
		to = r.onOne(to, a)
		for b := range a {
			ring, ok := r.ring(a, b, size)
			if !ok {
				continue
			}
			to = r.onTwo(to, ring, near, size)
			for c := range b {
				to = r.onThree(to, ring, c, size)
			}
		}
	}
	return to
}

// canStand says whether there is any place at all where the load can hang.
func (r Rig) canStand() bool {
	var room placeRoom
	size := r.size()
	return slices.ContainsFunc(r.places(room[:0], r.above()), func(h geom.Vec) bool { return r.stands(h, size) })
}

// reaches says whether every leg is long enough for the hook to be at h.
func (r Rig) reaches(h geom.Vec) bool {
	return r.within(h, sameLength*r.size())
}

// within is reaches with a tolerance in m.
func (r Rig) within(h geom.Vec, tol float64) bool {
	for i, p := range r.Picks {
		if h.Sub(p).Len() > r.Lengths[i]+tol {
			return false
		}
	}
	return true
}

// stands says whether a place is an equilibrium of legs that do not stretch.
func (r Rig) stands(h geom.Vec, size float64) bool {
	return r.within(h, sameLength*size) && r.balances(h, size)
}

// onOne is the hook on one leg, in line with its pick and the CG.
func (r Rig) onOne(to []geom.Vec, a int) []geom.Vec {
	away, ok := unit(r.Picks[a].Sub(r.CG))
	if !ok {
		return to
	}
	return append(to,
		r.Picks[a].Add(away.Mul(r.Lengths[a])), // CG below the pick
		r.Picks[a].Sub(away.Mul(r.Lengths[a]))) // CG above it, on a knife's edge
}

// ring is the circle of places that are just as far from two picks as their
// legs are long, in metres, about a unit axis.
type ring struct {
	centre, axis geom.Vec
	radius       float64
}

// ring returns false where the two legs don't meet.
func (r Rig) ring(a, b int, size float64) (ring, bool) {
	span := r.Picks[b].Sub(r.Picks[a])
	apart := span.Len()
	axis, ok := unit(span)
	if !ok {
		return ring{}, false
	}
	along := (apart + (r.Lengths[a]-r.Lengths[b])*(r.Lengths[a]+r.Lengths[b])/apart) / 2
	rest := (r.Lengths[a] - along) * (r.Lengths[a] + along)
	if rest < -1e-12*size*size {
		return ring{}, false
	}
	return ring{r.Picks[a].Add(axis.Mul(along)), axis, math.Sqrt(max(0, rest))}, true
}

// onTwo is the hook on two legs, in the plane of both picks and the CG.
func (r Rig) onTwo(to []geom.Vec, on ring, near geom.Vec, size float64) []geom.Vec {
	side := level(r.CG.Sub(on.centre), on.axis)
	if side.Len() <= 1e-12*size { // any place on the circle balances
		var ok bool
		if side, ok = unit(level(near.Sub(on.centre), on.axis)); !ok {
			side = square(on.axis)
		}
	} else {
		side, _ = unit(side)
	}
	return append(to, on.centre.Sub(side.Mul(on.radius)), on.centre.Add(side.Mul(on.radius)))
}

// onThree is the hook where a third leg fixes it on the circle of two: two
// places, one on each side of the plane of the picks.
func (r Rig) onThree(to []geom.Vec, on ring, c int, size float64) []geom.Vec {
	arm := r.Picks[c].Sub(on.centre)
	out := level(arm, on.axis)
	away := out.Len()
	x, ok := unit(out)
	if !ok || away <= 1e-9*size { // picks in one line: two of them say it all
		return to
	}
	axial := arm.Dot(on.axis)
	// The third leg's sphere cuts the circle's plane in a circle of this radius².
	third := (r.Lengths[c] - axial) * (r.Lengths[c] + axial)
	along := (away + (on.radius*on.radius-third)/away) / 2
	rest := (on.radius - along) * (on.radius + along)
	if rest < -1e-12*size*size {
		return to
	}
	rise := on.axis.Cross(x).Mul(math.Sqrt(max(0, rest)))
	foot := on.centre.Add(x.Mul(along))
	return append(to, foot.Add(rise), foot.Sub(rise))
}
