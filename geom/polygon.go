package geom

import (
	"math"
	"slices"

	"github.com/go-gl/mathgl/mgl64"
)

// Polygon is a plate or bar of any straight-sided section, with or without
// holes: an outline in the x-y plane, drawn out along z from 0 to its length.
// Its origin is that of the outline's coordinates.
type Polygon struct {
	rings  [][]mgl64.Vec2 // the outline anticlockwise, the holes clockwise
	ends   [][3]int       // the section in triangles, numbered through the rings
	length float64
	size   float64 // diagonal of its bounding box
}

// NewPolygon returns the polygon with the given outline and holes and its
// length along z, in metres. Either may run either way round, and the last
// point may repeat the first. Refused with the place: an outline or hole that
// crosses or touches itself, and holes that touch the outline or each other.
// The slices are copied. At most 10 000 points.
func NewPolygon(outline []mgl64.Vec2, holes [][]mgl64.Vec2, length float64) (Polygon, error) {
	if err := checkSizes(size{"length", length}); err != nil {
		return Polygon{}, err
	}
	rings := [][]mgl64.Vec2{opened(outline)}
	for _, hole := range holes {
		rings = append(rings, opened(hole))
	}
	if err := checkRings(rings); err != nil {
		return Polygon{}, err
	}
	for i, ring := range rings {
		if anticlockwise(ring) != (i == 0) {
			slices.Reverse(ring)
		}
	}
	s := Polygon{rings: rings, length: length}
	e := s.extent()
	s.size = e.Diagonal()
	err := checkSizes(size{"size of the outline along x", e.Size()[0]}, size{"size of the outline along y", e.Size()[1]})
	if err != nil {
		return Polygon{}, err
	}
	if s.section(s.middle()).area <= 1e-12*e.Size()[0]*e.Size()[1] {
		return Polygon{}, &ShapeError{"the outline is so narrow that it has no area to speak of", "check its points"}
	}
	if s.ends, err = triangulate(rings); err != nil {
		return Polygon{}, err
	}
	return s, nil
}

// opened returns a copy of the ring without a last point that repeats the
// first.
func opened(ring []mgl64.Vec2) []mgl64.Vec2 {
	ring = slices.Clone(ring)
	if n := len(ring); n > 1 && ring[0] == ring[n-1] {
		return ring[:n-1]
	}
	return ring
}

// extent returns the solid's bounding box.
func (s Polygon) extent() Extent {
	return ExtentOf(s, Still())
}

// middle returns the middle of the section's bounding box.
func (s Polygon) middle() mgl64.Vec2 {
	return s.extent().Center().Vec2()
}

// Moments returns, summed over the sides (xᵢ, yᵢ) to (xⱼ, yⱼ) of the outline
// and, run the other way round, of the holes, with c = xᵢ·yⱼ − xⱼ·yᵢ and length L:
//
//	A = Σ c/2    V = A·L
//	∫x dA = Σ c·(xᵢ + xⱼ)/6    ∫y dA likewise, centroid ∫x dA/A, ∫y dA/A, L/2
//	∫x² dA = Σ c·(xᵢ² + xᵢ·xⱼ + xⱼ²)/12    ∫y² dA likewise
//	∫xy dA = Σ c·(2·xᵢ·yᵢ + xᵢ·yⱼ + xⱼ·yᵢ + 2·xⱼ·yⱼ)/24
//
// It is measured from the middle of the outline and then shifted, so an
// outline far from its origin loses no digits.
// Source: area and centroid standard geometry, from memory; the second
// moments derived here from the triangle between a side and the origin.
func (s Polygon) Moments() Moments {
	middle := s.middle()
	return s.section(middle).extruded(s.length).Posed(Still().Shifted(middle.Vec3(0)))
}

// section returns the area moments about the given point.
func (s Polygon) section(about mgl64.Vec2) flat {
	var f flat
	for _, ring := range s.rings {
		for i := range ring {
			p, q := ring[i].Sub(about), ring[(i+1)%len(ring)].Sub(about)
			c := p[0]*q[1] - q[0]*p[1]
			f.area += c / 2
			f.x += c * (p[0] + q[0]) / 6
			f.y += c * (p[1] + q[1]) / 6
			f.xx += c * (p[0]*p[0] + p[0]*q[0] + q[0]*q[0]) / 12
			f.yy += c * (p[1]*p[1] + p[1]*q[1] + q[1]*q[1]) / 12
			f.xy += c * (2*p[0]*p[1] + p[0]*q[1] + q[0]*p[1] + 2*q[0]*q[1]) / 24
		}
	}
	return f
}

// Reach returns the greatest r·dir over the solid, which is at a corner of
// the outline.
func (s Polygon) Reach(dir Vec) float64 {
	reach := math.Inf(-1)
	for _, p := range s.rings[0] {
		reach = max(reach, p[0]*dir[0]+p[1]*dir[1])
	}
	return reach + max(s.length*dir[2], 0)
}

// Contains tells whether p is in the solid or on it; a point in a hole is not.
func (s Polygon) Contains(p Vec) bool {
	tol := surfaceTolerance * s.size
	if !within(p[2], 0, s.length, tol) {
		return false
	}
	at, in := p.Vec2(), false
	for _, ring := range s.rings {
		for i := range ring {
			if distanceToSegment(at, ring[i], ring[(i+1)%len(ring)]) <= tol {
				return true
			}
		}
		if inside(ring, at) {
			in = !in
		}
	}
	return in
}

// Mesh returns the solid in triangles; chord does not matter.
func (s Polygon) Mesh(float64) Mesh {
	return extrudedMesh(s.rings, s.ends, s.length)
}

// extrudedMesh draws a section out along z from 0 to height. The rings have
// the material on their left; ends are the section's triangles, anticlockwise,
// numbered through the rings.
func extrudedMesh(rings [][]mgl64.Vec2, ends [][3]int, height float64) Mesh {
	var m Mesh
	for _, z := range []float64{0, height} {
		for _, p := range slices.Concat(rings...) {
			m.Vertices = append(m.Vertices, p.Vec3(z))
		}
	}
	top := len(m.Vertices) / 2
	for _, f := range ends {
		m.Faces = append(m.Faces, [3]int{f[0], f[2], f[1]}, [3]int{f[0] + top, f[1] + top, f[2] + top})
	}
	start := 0
	for _, ring := range rings {
		for i := range ring {
			a, b := start+i, start+(i+1)%len(ring)
			m.Faces = append(m.Faces, [3]int{a, b, b + top}, [3]int{a, b + top, a + top})
		}
		start += len(ring)
	}
	return m
}
