package geom

import (
	"math"

	"github.com/go-gl/mathgl/mgl64"
)

// Tube is a round tube, open at both ends, standing on its base. Its bore
// does not belong to it.
type Tube struct{ radius, wall, height float64 }

// NewTube returns a tube with the given outside diameter, wall thickness and
// height in metres. The wall must be less than half the outside diameter.
func NewTube(outside, wall, height float64) (Tube, error) {
	err := checkSizes(size{"outside diameter", outside}, size{"wall", wall}, size{"height", height})
	if err != nil {
		return Tube{}, err
	}
	if err := checkWall("outside", outside, wall, "use a cylinder"); err != nil {
		return Tube{}, err
	}
	return Tube{outside / 2, wall, height}, nil
}

// bore returns the inside radius.
func (s Tube) bore() float64 { return s.radius - s.wall }

// Moments returns, for outside radius R, wall t, inside radius r = R − t and
// height h:
//
//	V = π·(R² − r²)·h = π·t·(R + r)·h
//	centroid (0, 0, h/2)
//	∫x² dV = ∫y² dV = V·(R² + r²)/4    ∫z² dV = V·h²/3
//
// The second form of V loses no digits for a thin wall.
// Source: standard geometry, from memory.
func (s Tube) Moments() Moments {
	R, r, h := s.radius, s.bore(), s.height
	v := math.Pi * s.wall * (R + r) * h
	side := v * (R*R + r*r) / 4
	return Moments{
		Volume: v,
		First:  Vec{0, 0, v * h / 2},
		Second: symmetric(side, side, v*h*h/3, 0, 0, 0),
	}
}

// Reach returns the greatest r·dir over the tube, which is on the outer rim
// of one of its ends.
func (s Tube) Reach(dir Vec) float64 {
	return Cylinder{s.radius, s.height}.Reach(dir)
}

// Contains tells whether p is in the metal of the tube or on it; a point in
// the bore is not.
func (s Tube) Contains(p Vec) bool {
	tol := surfaceTolerance * math.Hypot(2*s.radius, s.height)
	return within(math.Hypot(p[0], p[1]), s.bore(), s.radius, tol) && within(p[2], 0, s.height, tol)
}

// Mesh returns the tube with both its faces cut into the same number of flat
// strips, see [Segments]: so the bore keeps inside the outer face however
// thin the wall is, and the metal's section shrinks by one factor.
func (s Tube) Mesh(chord float64) Mesh {
	R, r, h := s.radius, s.bore(), s.height
	return revolved([]mgl64.Vec2{{R, 0}, {R, h}, {r, h}, {r, 0}}, Segments(R, chord))
}
