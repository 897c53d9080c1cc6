package geom

import (
	"math"

	"github.com/go-gl/mathgl/mgl64"
)

// Hemisphere is half a ball, solid or hollow, standing on its flat face, which
// is around the origin. A hollow one is a bowl turned over: open below.
type Hemisphere struct{ radius, wall float64 } // wall = radius if solid

// NewHemisphere returns half a ball with the given outside diameter and wall
// thickness in metres; wall 0 makes it solid. The hollow does not belong to it.
func NewHemisphere(diameter, wall float64) (Hemisphere, error) {
	ball, err := NewSphere(diameter, wall)
	return Hemisphere(ball), err
}

// hollow returns the inside radius, zero for a solid one.
func (s Hemisphere) hollow() float64 { return s.radius - s.wall }

// Moments returns, for outside radius R, wall t and inside radius r = R − t
// (0 if solid):
//
//	V = 2π/3·(R³ − r³) = 2π/3·t·(R² + R·r + r²)
//	∫z dV = π/4·(R⁴ − r⁴) = π/4·t·(R + r)·(R² + r²), so 3/8·R above the flat face if solid
//	∫x² dV = ∫y² dV = ∫z² dV = 2π/15·(R⁵ − r⁵)
//
// The second forms lose no digits for a thin wall.
// Source: standard geometry, from memory; the second moments are half of the
// ball's.
func (s Hemisphere) Moments() Moments {
	R, r := s.radius, s.hollow()
	half := 2 * math.Pi / 15 * s.wall * (R*R*R*R + R*R*R*r + R*R*r*r + R*r*r*r + r*r*r*r)
	return Moments{
		Volume: 2 * math.Pi / 3 * s.wall * (R*R + R*r + r*r),
		First:  Vec{0, 0, math.Pi / 4 * s.wall * (R + r) * (R*R + r*r)},
		Second: symmetric(half, half, half, 0, 0, 0),
	}
}

// Reach returns the greatest r·dir over the solid, which is on the dome, or on
// its rim where dir points below the level.
func (s Hemisphere) Reach(dir Vec) float64 {
	return s.radius * Vec{dir[0], dir[1], max(dir[2], 0)}.Len()
}

// Contains tells whether p is in the material or on it; a point in the hollow
// is not.
func (s Hemisphere) Contains(p Vec) bool {
	tol := surfaceTolerance * math.Sqrt(5) * s.radius
	return p[2] >= -tol && within(p.Len(), s.hollow(), s.radius, tol)
}

// Mesh returns the half ball with its dome cut along meridians and bands, each
// to half of the chord; see [Segments]. Both faces of a hollow one are cut alike.
func (s Hemisphere) Mesh(chord float64) Mesh {
	n := domeSegments(s.radius, chord/2) / 4
	quarter := math.Tan(math.Pi / 8) // the bulge of a quarter circle
	profile := append(span{mgl64.Vec2{s.radius, 0}, mgl64.Vec2{0, s.radius}, quarter}.appendPoints(nil, n),
		mgl64.Vec2{0, s.radius})
	if r := s.hollow(); r > 0 {
		profile = span{mgl64.Vec2{0, r}, mgl64.Vec2{r, 0}, -quarter}.appendPoints(profile, n)
		profile = append(profile, mgl64.Vec2{r, 0})
	} else {
		profile = append(profile, mgl64.Vec2{})
	}
	return revolved(profile, roundNet(s.radius, chord/2))
}
