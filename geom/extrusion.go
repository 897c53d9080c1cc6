package geom

import (
	"math"

	"github.com/go-gl/mathgl/mgl64"
)

// Extrusion is a plate or bar of any section with straight sides and arcs, with
// or without holes: an [Outline] in the x-y plane, drawn out along z from 0
// to its length. Its origin is that of the outline's coordinates. A [Polygon]
// is the same without arcs.
type Extrusion struct {
	section region
	length  float64
}

// NewExtrusion returns the solid with the given outline and holes and its
// length along z in metres. Either may run either way round, and the last
// point may repeat the first. Refused with the place: an outline or hole that
// crosses or touches itself, and holes that touch the outline or each other;
// arcs are judged by chords no further than 1e-5 of the section's size from
// them. The slices are copied. At most 10 000 points.
func NewExtrusion(outline Outline, holes []Outline, length float64) (Extrusion, error) {
	if err := checkSizes(size{"length", length}); err != nil {
		return Extrusion{}, err
	}
	section, err := newRegion(outline, holes)
	if err != nil {
		return Extrusion{}, err
	}
	return Extrusion{section, length}, nil
}

// OfLength returns the same section in another length in m.
func (s Extrusion) OfLength(length float64) (Extrusion, error) {
	if err := checkSizes(size{"length", length}); err != nil {
		return Extrusion{}, err
	}
	return Extrusion{s.section, length}, nil
}

// Moments returns, with the area moments of the section and length L:
//
//	A = ½·∮(x dy − y dx)    V = A·L
//	∫x dA = ⅓·∮x·(x dy − y dx)    ∫y dA likewise, centroid ∫x dA/A, ∫y dA/A, L/2
//	∫x² dA = ¼·∮x²·(x dy − y dx)    ∫y² dA and ∫xy dA likewise
//
// around the outline and, the other way, around the holes. Along a straight
// side the integrals are exact. Along an arc they are of products of sines and
// cosines; closed forms exist but lose digits on flat arcs, so they are summed
// by twelve points in each quarter turn, to an error of 3e-19 of their size.
// It is measured from the middle of the section and then shifted.
//
// Source: Green's theorem, standard calculus; see [Polygon.Moments] for the
// sums that straight sides come to.
func (s Extrusion) Moments() Moments {
	middle := s.section.middle()
	return s.section.own.extruded(s.length).Posed(Still().Shifted(middle.Vec3(0)))
}

// Reach returns the greatest r·dir over the solid, which is at a corner or on
// an arc of the outline.
func (s Extrusion) Reach(dir Vec) float64 {
	return s.section.reach(mgl64.Vec2{dir[0], dir[1]}) + max(s.length*dir[2], 0)
}

// Contains tells whether p is in the solid or on it; a point in a hole is not.
func (s Extrusion) Contains(p Vec) bool {
	tol := surfaceTolerance * math.Hypot(s.section.size, s.length)
	return within(p[2], 0, s.length, tol) && s.section.contains(p.Vec2(), tol)
}

// Mesh returns the solid with its arcs cut into chords. They are no finer than
// 1e-5 of the section's size, and finer than asked for where coarse ones would
// cross each other.
func (s Extrusion) Mesh(chord float64) Mesh {
	rings, ends := s.section.chords(chord)
	return extrudedMesh(rings, ends, s.length)
}
