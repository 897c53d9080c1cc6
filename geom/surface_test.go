package geom

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
)

// facet returns the middle of a face and its outward normal of length 1.
func (m Mesh) facet(face int) (middle, normal Vec) {
	a, b, c := m.Triangle(face)
	return a.Add(b).Add(c).Mul(1.0 / 3), b.Sub(a).Cross(c.Sub(a)).Normalize()
}

// TestFacetsAreWithinTheChord: stepping through a facet, square to it, from a
// chord inside to a chord outside goes through the true surface.
func TestFacetsAreWithinTheChord(t *testing.T) {
	for name, s := range formed() {
		for _, chord := range []float64{0.003, 0.001} { // the thinnest wall is 0.03, a step 0.01
			m := s.Mesh(chord)
			wrong := 0
			for i := range m.Faces {
				middle, normal := m.facet(i)
				step := normal.Mul(1.001 * chord)
				if !s.Contains(middle.Sub(step)) || s.Contains(middle.Add(step)) {
					wrong++
				}
			}
			assert.Zero(t, wrong, "%s: of %d facets at chord %g", name, len(m.Faces), chord)
		}
	}
}

// TestJustInAndOut steps through the true surface by a hair, at corners of the
// mesh that lie on a smooth part of it: all faces there look the same way
// within 15°.
func TestJustInAndOut(t *testing.T) {
	const hair = 1e-6
	tried := 0
	for name, s := range formed() {
		m := s.Mesh(0.001)
		normals, least := m.cornerNormals()
		for i, v := range m.Vertices {
			if least[i] < math.Cos(degrees(15)) {
				continue
			}
			tried++
			step := normals[i].Mul(hair)
			assert.True(t, s.Contains(v), "%s: on it at %v", name, v)
			assert.True(t, s.Contains(v.Sub(step)), "%s: just in it at %v", name, v)
			assert.False(t, s.Contains(v.Add(step)), "%s: just out of it at %v", name, v)
		}
	}
	assert.Greater(t, tried, 10000)
}

// cornerNormals returns for each vertex the mean normal of its faces, and the
// least cosine between it and one of them.
func (m Mesh) cornerNormals() (normals []Vec, least []float64) {
	normals, least = make([]Vec, len(m.Vertices)), make([]float64, len(m.Vertices))
	for i, f := range m.Faces {
		_, normal := m.facet(i)
		for _, v := range f {
			normals[v] = normals[v].Add(normal)
		}
	}
	for i, n := range normals {
		normals[i], least[i] = n.Normalize(), 1
	}
	for i, f := range m.Faces {
		_, normal := m.facet(i)
		for _, v := range f {
			least[v] = min(least[v], normal.Dot(normals[v]))
		}
	}
	return normals, least
}

// TestReachIsExact: along directions all around, the furthest corner of a fine
// mesh comes to within the chord of the reach and never past it. Flat ends and
// rims come to within rounding where the mesh has a corner that way.
func TestReachIsExact(t *testing.T) {
	const chord = 1e-4
	for name, s := range formed() {
		body := NewBody(s.Mesh(chord))
		for i := range 40 {
			// Directions spread evenly over the ball by the golden angle.
			z := (float64(i) + 0.5) / 20
			sin, cos := math.Sincos(2.399963 * float64(i))
			dir := Vec{math.Sqrt(z*(2-z)) * cos, math.Sqrt(z*(2-z)) * sin, 1 - z}
			reach, found := s.Reach(dir), body.Reach(dir)
			assert.True(t, within(found, reach-chord, reach, 1e-14), "%s: %g along %v, mesh %g", name, reach, dir, found)
		}
	}
}
