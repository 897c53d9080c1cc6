package geom

import (
	"math"

	"github.com/go-gl/mathgl/mgl64"
)

// dished is a full round body: a straight shell around the z axis with an end
// on each side. It is the outside of a vessel or of a head, or its inside.
type dished struct {
	radius       float64 // of the shell
	base         float64 // height of the lower tangent line
	straight     float64 // length of the shell, from tangent line to tangent line
	lower, upper dome
}

// top returns the height of the upper tangent line.
func (s dished) top() float64 { return s.base + s.straight }

// height returns the height from end to end.
func (s dished) height() float64 { return s.lower.depth() + s.straight + s.upper.depth() }

// under returns where the lower end goes: its tangent line to the base, its
// depth downward.
func (s dished) under() Pose {
	return Pose{mgl64.Diag3(Vec{1, 1, -1}), Vec{0, 0, s.base}}
}

// Moments returns those of the shell and of both ends.
func (s dished) Moments() Moments {
	shell := Cylinder{s.radius, s.straight}.Moments().Posed(Still().Shifted(Vec{0, 0, s.base}))
	upper := s.upper.moments().Posed(Still().Shifted(Vec{0, 0, s.top()}))
	return shell.Plus(s.lower.moments().Posed(s.under())).Plus(upper)
}

// Reach returns the greatest r·dir over the body.
func (s dished) Reach(dir Vec) float64 {
	across := math.Hypot(dir[0], dir[1])
	return max(
		s.lower.reach(across, -dir[2])+s.base*dir[2],
		s.radius*across+max(s.base*dir[2], s.top()*dir[2]),
		s.upper.reach(across, dir[2])+s.top()*dir[2],
	)
}

// holds tells whether p is in the body or no further than tol (m) from it.
func (s dished) holds(p Vec, tol float64) bool {
	r, z := math.Hypot(p[0], p[1]), p[2]
	return r <= s.radius+tol && within(z, s.base, s.top(), tol) ||
		z <= s.base+tol && s.lower.out(r, max(s.base-z, 0)) <= tol ||
		z >= s.top()-tol && s.upper.out(r, max(z-s.top(), 0)) <= tol
}

// out returns how far a point is outside a body whose ends are as wide as its
// shell, m: exact near its surface, negative inside.
func (s dished) out(p Vec) float64 {
	r, z := math.Hypot(p[0], p[1]), p[2]
	switch {
	case z < s.base:
		return s.lower.out(r, s.base-z)
	case z > s.top():
		return s.upper.out(r, z-s.top())
	}
	// The ends count only where they are flat and so lie on the tangent line.
	return max(r-s.radius, s.base-z-s.lower.depth(), z-s.top()-s.upper.depth())
}

// tolerance returns how near to the surface counts as on it, m.
func (s dished) tolerance() float64 {
	return surfaceTolerance * math.Hypot(2*s.radius, s.height())
}

// Contains tells whether p is in the body or on it.
func (s dished) Contains(p Vec) bool { return s.holds(p, s.tolerance()) }

// segments returns how many chords the ends' profiles and the body's round are
// cut into, each to half of the given chord.
func (s dished) segments(chord float64) (profile, around int) {
	flattest := max(s.lower.flattest(), s.upper.flattest())
	return domeSegments(flattest, chord/2), roundNet(s.radius, chord/2)
}

// Mesh returns the body's surface.
func (s dished) Mesh(chord float64) Mesh {
	n, around := s.segments(chord)
	return revolved(s.profile(n), around)
}

// profile returns the points (r, z) of half a cut along the axis, from the
// lowest to the highest.
func (s dished) profile(n int) []mgl64.Vec2 {
	var points []mgl64.Vec2
	corner := func(r, z float64) {
		p := mgl64.Vec2{r, z}
		if n := len(points); n == 0 || points[n-1] != p {
			points = append(points, p)
		}
	}
	lower := s.lower.profile(n)
	for i := range lower {
		p := lower[len(lower)-1-i]
		corner(p[0], s.base-p[1])
	}
	corner(s.radius, s.base)
	corner(s.radius, s.top())
	for _, p := range s.upper.profile(n) {
		corner(p[0], s.top()+p[1])
	}
	return points
}
