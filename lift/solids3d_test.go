package lift

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"plumbhook/geom"
)

// sphereOf is the surface of a sphere of 1 m radius to a chord in m.
func sphereOf(t *testing.T, name string, chord float64) Solid3D {
	t.Helper()
	s, err := geom.NewSphere(2, 0)
	require.NoError(t, err)
	return appendSolid(nil, Solid3D{Part: name}, []geom.Mesh{s.Mesh(chord).Posed(geom.Still().Shifted(geom.Vec{0, 0, -1}))})[0] // it stands on z = 0
}

func (s Solid3D) mesh() geom.Mesh { return geom.Mesh{Vertices: s.Vertices, Faces: s.Faces} }

// TestManyTrianglesAreThinned: two spheres of too many triangles come to no more
// than the most, stay where they are and nearly as large, and the page says so.
// Volume of a sphere: 4π/3 r³.
func TestManyTrianglesAreThinned(t *testing.T) {
	ball := sphereOf(t, "ball", 0.00002)
	require.Greater(t, 2*len(ball.Faces), mostTriangles)
	other := ball
	other.Part = "other"
	list, note := thinned([]Solid3D{ball, other})
	require.Len(t, list, 2)
	assert.LessOrEqual(t, len(list[0].Faces)+len(list[1].Faces), mostTriangles)
	assert.Greater(t, len(list[0].Faces), mostTriangles/8, "no coarser than it has to be")
	assert.Contains(t, note, "ball, other")
	assert.InDelta(t, 4*math.Pi/3, list[0].mesh().Moments().Volume, 0.02*4*math.Pi/3)
	for _, v := range list[0].Vertices {
		assert.InDelta(t, 1, v.Len(), 0.03, "m from the middle")
	}
}

// TestFewTrianglesAreKept: what is few enough stays as it is.
func TestFewTrianglesAreKept(t *testing.T) {
	ball := sphereOf(t, "ball", 0.01)
	list, note := thinned([]Solid3D{ball})
	assert.Equal(t, []Solid3D{ball}, list)
	assert.Empty(t, note)
}

// TestCoarsestIsABox: where cells would be as large as the part itself it is drawn
// as its box.
func TestCoarsestIsABox(t *testing.T) {
	box := sphereOf(t, "ball", 0.001).coarser(boxFaces)
	assert.Len(t, box.Faces, boxFaces)
	extent := box.mesh().Extent()
	for i := range 3 {
		assert.InDelta(t, -1, extent.Min[i], 0.002)
		assert.InDelta(t, 1, extent.Max[i], 0.002)
	}
}

// TestSolidsAreRounded: to a tenth of a millimetre, equal corners being one corner,
// and no triangle without a face left over.
func TestSolidsAreRounded(t *testing.T) {
	s := appendSolid(nil, Solid3D{Part: "a"}, []geom.Mesh{
		{Vertices: []geom.Vec{{0, 0, 0}, {1.00004, 0, 0}, {0, 1, -0.00001}}, Faces: [][3]int{{0, 1, 2}}},
		{Vertices: []geom.Vec{{0, 0, 0}, {1, 0.00002, 0}, {0, 0, 1}, {0.00003, 0, 0}}, Faces: [][3]int{{0, 1, 2}, {0, 3, 2}}},
	})
	require.Len(t, s, 1)
	assert.Equal(t, []geom.Vec{{0, 0, 0}, {1, 0, 0}, {0, 1, 0}, {0, 0, 1}}, s[0].Vertices)
	assert.Equal(t, [][3]int{{0, 1, 2}, {0, 1, 3}}, s[0].Faces)
	assert.False(t, math.Signbit(s[0].Vertices[2][2]), "no −0")
}

// TestTapes: by hand: a box from (1, 2, 3) to (3, 6, 9) with its CG at (1.5, 3, 7),
// out by 0.1 less and 0.2 more at most.
func TestTapes(t *testing.T) {
	w := Weight{CGM: geom.Vec{1.5, 3, 7}, BoxM: Box{geom.Vec{1, 2, 3}, geom.Vec{3, 6, 9}}, CGRangeM: Box{geom.Vec{1.4, 2.9, 6.9}, geom.Vec{1.7, 3.2, 7.2}}}
	for i, want := range []Tape{{"x", 0.5, 1.5, 0.1, 0.2}, {"y", 1, 3, 0.1, 0.2}, {"z", 4, 2, 0.1, 0.2}} {
		got := w.Tapes()[i]
		assert.Equal(t, want.Axis, got.Axis)
		assert.InDeltaSlice(t, []float64{want.LowM, want.HighM, want.LessM, want.MoreM}, []float64{got.LowM, got.HighM, got.LessM, got.MoreM}, 1e-12)
	}
}
