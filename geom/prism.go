package geom

import (
	"math"

	"github.com/go-gl/mathgl/mgl64"
)

// Prism is a bar of trapezoid section, or of right-triangle section if its
// top is zero. The section lies in the x-y plane and is drawn out along z:
//
//	y ↑   ├─ top ─┤
//	      ┌───────╲       the left side is square to base and top
//	      │        ╲      height
//	      └─────────╲
//	      ├── base ──┤  → x
//
// Its origin is the middle of the section's bounding box, at z = 0.
type Prism struct{ base, top, height, length float64 }

// NewPrism returns a prism with the given base, top and height of its section
// and its length along z, in metres. The top may be zero, and may be longer
// than the base.
func NewPrism(base, top, height, length float64) (Prism, error) {
	if err := checkSizes(size{"base", base}, size{"height", height}, size{"length", length}); err != nil {
		return Prism{}, err
	}
	if err := checkSize(size{"top", top}, true); err != nil {
		return Prism{}, err
	}
	return Prism{base, top, height, length}, nil
}

// corner returns the place of the section's lower left corner.
func (s Prism) corner() mgl64.Vec2 {
	return mgl64.Vec2{-max(s.base, s.top) / 2, -s.height / 2}
}

// Moments returns, for base a, top b, height h of the section and length L,
// with x and y measured from the section's lower left corner:
//
//	A = h·(a + b)/2    V = A·L
//	∫y dA = h²·(a + 2b)/6    so the centroid is h/3·(a + 2b)/(a + b) above the base
//	∫x dA = h·(a² + a·b + b²)/6
//	∫y² dA = h³·(a + 3b)/12
//	∫x² dA = h·(a³ + a²·b + a·b² + b³)/12
//	∫xy dA = h²·(a² + 2·a·b + 3·b²)/24
//
// For a triangle, b = 0: A = a·h/2, centroid at a/3, h/3 from the right angle.
// Source: area and centroid standard geometry, from memory; the rest derived
// here by adding up strips of width a + (b − a)·y/h.
func (s Prism) Moments() Moments {
	a, b, h := s.base, s.top, s.height
	section := flat{
		area: h * (a + b) / 2,
		x:    h * (a*a + a*b + b*b) / 6,
		y:    h * h * (a + 2*b) / 6,
		xx:   h * (a*a*a + a*a*b + a*b*b + b*b*b) / 12,
		yy:   h * h * h * (a + 3*b) / 12,
		xy:   h * h * (a*a + 2*a*b + 3*b*b) / 24,
	}
	return section.extruded(s.length).Posed(Still().Shifted(s.corner().Vec3(0)))
}

// section returns the corners of the section, anticlockwise: three or four.
func (s Prism) section() []mgl64.Vec2 {
	c := s.corner()
	corners := []mgl64.Vec2{c, {c[0] + s.base, c[1]}, {c[0] + s.top, -c[1]}, {c[0], -c[1]}}
	if s.top == 0 {
		return corners[:3]
	}
	return corners
}

// Reach returns the greatest r·dir over the prism, which is at a corner.
func (s Prism) Reach(dir Vec) float64 {
	reach := math.Inf(-1)
	for _, c := range s.section() {
		reach = max(reach, c[0]*dir[0]+c[1]*dir[1])
	}
	return reach + max(s.length*dir[2], 0)
}

// Contains tells whether p is in the prism or on it.
func (s Prism) Contains(p Vec) bool {
	tol := surfaceTolerance * Vec{max(s.base, s.top), s.height, s.length}.Len()
	c := s.corner()
	x, y := p[0]-c[0], p[1]-c[1]
	// Distance from the slanted side, square to it: negative inside.
	grow := s.top - s.base
	out := ((x-s.base)*s.height - grow*y) / math.Hypot(s.height, grow)
	return x >= -tol && out <= tol && within(y, 0, s.height, tol) && within(p[2], 0, s.length, tol)
}

// Mesh returns the prism as 8 or 12 triangles; chord does not matter.
func (s Prism) Mesh(float64) Mesh {
	section := s.section()
	ends := [][3]int{{0, 1, 2}, {0, 2, 3}}
	return extrudedMesh([][]mgl64.Vec2{section}, ends[:len(section)-2], s.length)
}
