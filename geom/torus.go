package geom

import (
	"math"

	"github.com/go-gl/mathgl/mgl64"
)

// torus is a round section turned about z, all the way round or part of it:
// its middle goes from (radius, 0, 0) towards y. Ring and Bend are made of it.
type torus struct {
	tube   float64 // outside radius of the section
	wall   float64 // = tube for a solid one
	radius float64 // of the section's middle about z
	angle  float64 // rad
}

// bore returns the inside radius of the section, zero if it is solid.
func (s torus) bore() float64 { return s.tube - s.wall }

// Moments returns what a ring of area A = π·(R² − r²) and second moment
// I = A·(R² + r²)/4, its middle at the radius ρ, comes to when it is turned;
// with A written as π·t·(R + r), no digits are lost for a thin wall t:
//
//	∫ρ' dA = ρ·A    ∫ρ'² dA = ρ²·A + I    ∫ρ'³ dA = ρ³·A + 3·ρ·I    ∫ρ'·z² dA = ρ·I
//
// Source: standard geometry, from memory; derived here from a circle's moments
// about its own middle, where those of odd degree are zero.
func (s torus) Moments() Moments {
	area := math.Pi * s.wall * (s.tube + s.bore())
	own := area * (s.tube*s.tube + s.bore()*s.bore()) / 4
	section := cubic{flat: flat{area: area, xx: own, yy: own}}
	return section.shifted(s.radius).turned(s.angle)
}

// Reach returns the greatest r·dir: of the circle through the section's middle,
// and of the section there.
func (s torus) Reach(dir Vec) float64 {
	across := math.Hypot(dir[0], dir[1]) * greatestCosine(dir, s.angle)
	return s.radius*across + s.tube*math.Hypot(across, dir[2])
}

// Contains tells whether p is in the material or on it.
func (s torus) Contains(p Vec) bool {
	tol := surfaceTolerance * 2 * math.Hypot(s.radius+s.tube, s.tube)
	off := math.Hypot(math.Hypot(p[0], p[1])-s.radius, p[2])
	return within(off, s.bore(), s.tube, tol) && inSector(p, s.angle, tol)
}

// Mesh returns the surface with section and turn cut into chords, each to half
// of the given chord; the bore is cut like the outside, so that they cannot meet.
func (s torus) Mesh(chord float64) Mesh {
	n := min(Segments(s.tube, chord/2), sphereMeridians)
	outside := make([]mgl64.Vec2, n)
	inside := make([]mgl64.Vec2, n)
	for i, u := range circle(n) {
		outside[i] = mgl64.Vec2{s.radius + s.tube*u[0], s.tube * u[1]}
		inside[n-1-i] = mgl64.Vec2{s.radius + s.bore()*u[0], s.bore() * u[1]}
	}
	rings, ends := [][]mgl64.Vec2{outside}, fanned(n)
	if s.bore() > 0 {
		rings, ends = append(rings, inside), between(n)
	}
	return sectorMesh(rings, ends, s.angle, sectorSteps(s.radius+s.tube, chord/2, s.angle))
}

// fanned returns the triangles of a convex ring of n points.
func fanned(n int) [][3]int {
	ends := make([][3]int, 0, n-2)
	for i := 2; i < n; i++ {
		ends = append(ends, [3]int{0, i - 1, i})
	}
	return ends
}

// between returns the triangles between a ring of n points and a like ring
// inside it that runs the other way.
func between(n int) [][3]int {
	ends := make([][3]int, 0, 2*n)
	for i := range n {
		next := (i + 1) % n
		in, inNext := 2*n-1-i, 2*n-1-next
		ends = append(ends, [3]int{i, next, inNext}, [3]int{i, inNext, in})
	}
	return ends
}
