package geom

import "math"

// Skin is a plate of even thickness along a surface of facets, open or closed,
// whichever way they face. The surface is the middle of the plate.
type Skin struct {
	surface   Mesh
	thickness float64
	moments   Moments
	extent    Extent
}

// NewSkin returns the plate with the given middle surface and its thickness in
// metres. Facets without area are left out; if none has any it is refused. The
// mesh is kept, not copied: do not change it afterwards.
func NewSkin(m Mesh, thickness float64) (Skin, error) {
	if err := checkSizes(size{"thickness", thickness}); err != nil {
		return Skin{}, err
	}
	s := Skin{surface: m, thickness: thickness}
	for i := range m.Faces {
		s.moments = s.moments.Plus(s.slab(i))
	}
	if !(s.moments.Volume > 0) || math.IsInf(s.moments.Volume, 0) {
		return Skin{}, &ShapeError{"a surface without area", "save it again as facets with area"}
	}
	s.extent = ExtentOf(s, Still())
	return s, nil
}

// facet returns the corners of a facet and its unit normal, false where it has
// no area.
func (s Skin) facet(face int) (a, b, c, normal Vec, ok bool) {
	a, b, c = s.surface.Triangle(face)
	cross := b.Sub(a).Cross(c.Sub(a))
	length := cross.Len()
	if isSliver(a, b, c) || !(length > 0) {
		return a, b, c, Vec{}, false
	}
	return a, b, c, cross.Mul(1 / length), true
}

// slab returns the moments of one facet, drawn out by half the thickness t to
// each side along its normal n:
//
//	V = A·t    ∫r dV = V·m
//	∫r rᵀ dV = V·(m mᵀ + (a aᵀ + b bᵀ + c cᵀ − 3 m mᵀ)/12 + t²/12·n nᵀ)
//
// with the corners a, b, c and their middle m. Where facets meet at an angle
// their slabs overlap on the inner side as much as they gape on the outer one,
// so that area times thickness is the volume of a plate bent about its middle.
//
// Source: second moments of a triangle by its corners, standard mechanics;
// checked against the slab's own mesh.
func (s Skin) slab(face int) Moments {
	a, b, c, n, ok := s.facet(face)
	if !ok {
		return Moments{}
	}
	volume := b.Sub(a).Cross(c.Sub(a)).Len() / 2 * s.thickness
	m := a.Add(b).Add(c).Mul(1.0 / 3)
	spread := a.OuterProd3(a).Add(b.OuterProd3(b)).Add(c.OuterProd3(c)).Sub(m.OuterProd3(m).Mul(3))
	second := m.OuterProd3(m).Add(spread.Mul(1.0 / 12)).Add(n.OuterProd3(n).Mul(s.thickness * s.thickness / 12))
	return Moments{Volume: volume, First: m.Mul(volume), Second: second.Mul(volume)}
}

// Surface returns the middle surface of the plate, as it was given.
func (s Skin) Surface() Mesh { return s.surface }

// Moments returns the moments of all facets' slabs.
func (s Skin) Moments() Moments { return s.moments }

// Reach returns the greatest r·dir over the slabs.
func (s Skin) Reach(dir Vec) float64 {
	reach := math.Inf(-1)
	for i := range s.surface.Faces {
		if a, b, c, n, ok := s.facet(i); ok {
			reach = max(reach, max(a.Dot(dir), b.Dot(dir), c.Dot(dir))+s.thickness/2*math.Abs(n.Dot(dir)))
		}
	}
	return reach
}

// Contains tells whether p is in the slab of any facet.
func (s Skin) Contains(p Vec) bool {
	tol := surfaceTolerance * s.extent.Diagonal()
	for i, x := range p {
		if !within(x, s.extent.Min[i], s.extent.Max[i], tol) {
			return false
		}
	}
	for i := range s.surface.Faces {
		if s.inSlab(i, p, tol) {
			return true
		}
	}
	return false
}

func (s Skin) inSlab(face int, p Vec, tol float64) bool {
	a, b, c, n, ok := s.facet(face)
	if !ok || math.Abs(p.Sub(a).Dot(n)) > s.thickness/2+tol {
		return false
	}
	for _, side := range [][2]Vec{{a, b}, {b, c}, {c, a}} {
		along := side[1].Sub(side[0])
		if p.Sub(side[0]).Dot(n.Cross(along)) < -tol*along.Len() {
			return false
		}
	}
	return true
}

// Mesh returns the closed surfaces of all slabs, whatever the chord.
func (s Skin) Mesh(float64) Mesh {
	var m Mesh
	for i := range s.surface.Faces {
		a, b, c, n, ok := s.facet(i)
		if !ok {
			continue
		}
		up, at := n.Mul(s.thickness/2), len(m.Vertices)
		m.Vertices = append(m.Vertices, a.Sub(up), b.Sub(up), c.Sub(up), a.Add(up), b.Add(up), c.Add(up))
		for _, f := range slabFaces {
			m.Faces = append(m.Faces, [3]int{at + f[0], at + f[1], at + f[2]})
		}
	}
	return m
}

// slabFaces are the outward facets of a slab, its lower corners first.
var slabFaces = [][3]int{{0, 2, 1}, {3, 4, 5}, {0, 1, 4}, {0, 4, 3}, {1, 2, 5}, {1, 5, 4}, {2, 0, 3}, {2, 3, 5}}
