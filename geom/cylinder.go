package geom

import (
	"math"

	"github.com/go-gl/mathgl/mgl64"
)

// Cylinder is a solid round bar or disk, standing on its base.
type Cylinder struct{ radius, height float64 }

// NewCylinder returns a cylinder with the given diameter and height in metres.
func NewCylinder(diameter, height float64) (Cylinder, error) {
	if err := checkSizes(size{"diameter", diameter}, size{"height", height}); err != nil {
		return Cylinder{}, err
	}
	return Cylinder{diameter / 2, height}, nil
}

// Moments returns, for radius r and height h:
//
//	V = π·r²·h
//	centroid (0, 0, h/2)
//	∫x² dV = ∫y² dV = V·r²/4    ∫z² dV = V·h²/3
//
// Source: standard geometry, from memory.
func (s Cylinder) Moments() Moments {
	r, h := s.radius, s.height
	v := math.Pi * r * r * h
	return Moments{
		Volume: v,
		First:  Vec{0, 0, v * h / 2},
		Second: symmetric(v*r*r/4, v*r*r/4, v*h*h/3, 0, 0, 0),
	}
}

// Reach returns the greatest r·dir over the cylinder, which is on the rim of
// one of its ends.
func (s Cylinder) Reach(dir Vec) float64 {
	return s.radius*math.Hypot(dir[0], dir[1]) + max(s.height*dir[2], 0)
}

// Contains tells whether p is in the cylinder or on it.
func (s Cylinder) Contains(p Vec) bool {
	tol := surfaceTolerance * math.Hypot(2*s.radius, s.height)
	return math.Hypot(p[0], p[1]) <= s.radius+tol && within(p[2], 0, s.height, tol)
}

// Mesh returns the cylinder with its side cut into flat strips, its corners
// on the circle; see [Segments].
func (s Cylinder) Mesh(chord float64) Mesh {
	r, h := s.radius, s.height
	return revolved([]mgl64.Vec2{{0, 0}, {r, 0}, {r, h}, {0, h}}, Segments(r, chord))
}
