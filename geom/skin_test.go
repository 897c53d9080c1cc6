package geom

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

// openCylinder is the wall of a round shell of n facets, without ends, of
// which the corners lie on the circle.
func openCylinder(radius, height float64, n int) Mesh {
	var m Mesh
	for i := range n {
		sin, cos := math.Sincos(2 * math.Pi * float64(i) / float64(n))
		m.Vertices = append(m.Vertices, Vec{radius * cos, radius * sin, 0}, Vec{radius * cos, radius * sin, height})
		a, b := 2*i, 2*((i+1)%n)
		m.Faces = append(m.Faces, [3]int{a, b, b + 1}, [3]int{a, b + 1, a + 1})
	}
	return m
}

// A flat skin is a plate: the closed form of a box.
func TestSkinOfASheetIsAPlate(t *testing.T) {
	sheet := Mesh{Vertices: []Vec{{1, 0, 0}, {3, 0, 0}, {3, 1, 0}, {1, 1, 0}}, Faces: [][3]int{{0, 1, 2}, {0, 2, 3}}}
	skin := made(NewSkin(sheet, 0.02))
	plate := made(NewBox(2, 1, 0.02)).Moments().Posed(at(2, 0.5, -0.01))
	nearMoments(t, plate, skin.Moments(), 1e-15, 3)
	e := ExtentOf(skin, Still())
	nearVec(t, Vec{1, 0, -0.01}, e.Min, 1e-15)
	nearVec(t, Vec{3, 1, 0.01}, e.Max, 1e-15)
	assert.True(t, skin.Contains(Vec{1.5, 0.5, 0.0099}))
	assert.False(t, skin.Contains(Vec{1.5, 0.5, 0.0101}))
	assert.False(t, skin.Contains(Vec{3.01, 0.5, 0}))
}

// The wall of a tube is 2·π·r·h·t about its middle radius, exactly (Pappus); an
// open facetted one has the perimeter of its polygon, 2·n·r·sin(π/n).
func TestSkinOfARoundShell(t *testing.T) {
	const n = 96
	skin := made(NewSkin(openCylinder(0.6, 1.8, n), 0.012))
	assert.InEpsilon(t, 2*n*0.6*math.Sin(math.Pi/n)*1.8*0.012, skin.Moments().Volume, 1e-12)
	tube := made(NewTube(1.212, 0.012, 1.8)).Moments()
	assert.InEpsilon(t, tube.Volume, skin.Moments().Volume, 2e-4)
	nearVec(t, Vec{0, 0, 0.9}, skin.Moments().Centroid(), 1e-12)
}

// Closed form against the skin's own mesh, whatever the facets.
func TestSkinAgainstItsMesh(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		coordinate := rapid.Float64Range(-2, 2)
		var m Mesh
		for range rapid.IntRange(1, 8).Draw(t, "facets") {
			for range 3 {
				m.Vertices = append(m.Vertices, Vec{coordinate.Draw(t, "x"), coordinate.Draw(t, "y"), coordinate.Draw(t, "z")})
			}
			at := len(m.Vertices)
			m.Faces = append(m.Faces, [3]int{at - 3, at - 2, at - 1})
		}
		skin, err := NewSkin(m, rapid.Float64Range(0.001, 0.1).Draw(t, "thickness"))
		if err != nil {
			t.Skip("no area")
		}
		requireClosed(t, skin.Mesh(0))
		nearMoments(t, skin.Mesh(0).Moments(), skin.Moments(), 1e-10, 4)
		for i, side := range skin.Mesh(0).Extent().Max {
			assert.InDelta(t, side, ExtentOf(skin, Still()).Max[i], 1e-12)
		}
	})
}

func TestSkinWithoutArea(t *testing.T) {
	line := Mesh{Vertices: []Vec{{}, {1, 0, 0}, {2, 0, 0}}, Faces: [][3]int{{0, 1, 2}}}
	_, err := NewSkin(line, 0.01)
	require.ErrorContains(t, err, "without area")
	_, err = NewSkin(Mesh{}, 0.01)
	require.ErrorContains(t, err, "without area")
	_, err = NewSkin(openCylinder(1, 1, 8), 0)
	require.Error(t, err)
}
