package geom

import (
	"math"

	"github.com/go-gl/mathgl/mgl64"
)

// Cone is a solid round cone or a frustum of one, standing on its bottom.
type Cone struct{ bottom, top, height float64 } // radii, height

// NewCone returns a frustum with the given diameters at the bottom and the
// top and its height in metres. One of the diameters may be zero: a full cone
// with its point up or down.
func NewCone(bottom, top, height float64) (Cone, error) {
	for _, s := range []size{{"bottom diameter", bottom}, {"top diameter", top}} {
		if err := checkSize(s, true); err != nil {
			return Cone{}, err
		}
	}
	if bottom == 0 && top == 0 {
		return Cone{}, &ShapeError{"bottom and top diameter are both zero", "write at least one of them above zero"}
	}
	if err := checkSizes(size{"height", height}); err != nil {
		return Cone{}, err
	}
	return Cone{bottom / 2, top / 2, height}, nil
}

// Moments returns, for radius a at the bottom, b at the top and height h:
//
//	V = π·h/3·(a² + a·b + b²)
//	centroid on the axis, h/4·(a² + 2·a·b + 3·b²)/(a² + a·b + b²) above the bottom
//	∫z² dV = π·h³/30·(a² + 3·a·b + 6·b²)
//	∫x² dV = ∫y² dV = π·h/20·(a⁴ + a³·b + a²·b² + a·b³ + b⁴)
//
// Source: volume and centroid standard geometry, from memory; the second
// moments derived here by adding up disks of radius a + (b − a)·z/h, with
// area π·r² and second moment of area π·r⁴/4.
func (s Cone) Moments() Moments {
	a, b, h := s.bottom, s.top, s.height
	side := math.Pi * h / 20 * (a*a*a*a + a*a*a*b + a*a*b*b + a*b*b*b + b*b*b*b)
	return Moments{
		Volume: math.Pi * h / 3 * (a*a + a*b + b*b),
		First:  Vec{0, 0, math.Pi * h * h / 12 * (a*a + 2*a*b + 3*b*b)},
		Second: symmetric(side, side, math.Pi*h*h*h/30*(a*a+3*a*b+6*b*b), 0, 0, 0),
	}
}

// Reach returns the greatest r·dir over the cone, which is on the rim of one
// of its ends.
func (s Cone) Reach(dir Vec) float64 {
	across := math.Hypot(dir[0], dir[1])
	return max(s.bottom*across, s.top*across+s.height*dir[2])
}

// Contains tells whether p is in the cone or on it.
func (s Cone) Contains(p Vec) bool {
	tol := surfaceTolerance * math.Hypot(2*max(s.bottom, s.top), s.height)
	// Distance from the slanted side, square to it: negative inside.
	grow := s.top - s.bottom
	out := (math.Hypot(p[0], p[1]) - s.bottom) * s.height
	out = (out - grow*p[2]) / math.Hypot(s.height, grow)
	return out <= tol && within(p[2], 0, s.height, tol)
}

// Mesh returns the cone with its side cut into flat strips, its corners on
// the circles; see [Segments].
func (s Cone) Mesh(chord float64) Mesh {
	profile := []mgl64.Vec2{{0, 0}}
	if s.bottom > 0 {
		profile = append(profile, mgl64.Vec2{s.bottom, 0})
	}
	if s.top > 0 {
		profile = append(profile, mgl64.Vec2{s.top, s.height})
	}
	profile = append(profile, mgl64.Vec2{0, s.height})
	return revolved(profile, Segments(max(s.bottom, s.top), chord))
}
