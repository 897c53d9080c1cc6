package geom_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"

	"plumbhook/geom"
)

// roundBar is a prism of n sides with its corners on a circle.
func roundBar(radius float64, n int, length float64) soup {
	at := func(i int, z float64) geom.Vec {
		sin, cos := math.Sincos(2 * math.Pi * float64(i%n) / float64(n))
		return geom.Vec{radius * cos, radius * sin, z}
	}
	var s soup
	for i := range n {
		s = append(s, [3]geom.Vec{at(i, 0), at(i+1, 0), at(i+1, length)}, [3]geom.Vec{at(i, 0), at(i+1, length), at(i, length)},
			[3]geom.Vec{{}, at(i+1, 0), at(i, 0)}, [3]geom.Vec{{0, 0, length}, at(i, length), at(i+1, length)})
	}
	return s
}

// The deficit of an inscribed regular polygon, 1 − sin(2π/n)/(2π/n), in per
// cent and the height of its chord, r·(1 − cos(π/n)), as a part of r: tabled
// (derived here, elementary geometry). Rule: deficit about 4/3 of that height.
func TestFacetBiasOfRoundBars(t *testing.T) {
	for _, tt := range []struct {
		n              int
		deficit, chord float64 // %, part of the radius
	}{
		{8, 9.968, 0.07612}, {12, 4.507, 0.03407}, {16, 2.551, 0.01922}, {24, 1.138, 0.00856}, {32, 0.641, 0.00482},
		{48, 0.285, 0.00214}, {64, 0.161, 0.00121}, {96, 0.071, 0.00054}, {128, 0.040, 0.00030},
	} {
		bar := roundBar(150, tt.n, 700)
		bias := 100 * geom.FacetBias(bar.mesh())
		assert.InDelta(t, tt.deficit, bias, 0.0006, "%d sides", tt.n)
		assert.InEpsilon(t, 100*4.0/3*tt.chord, bias, 0.03, "%d sides, by the rule of 4/3", tt.n)
		assert.InDelta(t, bias, 100*geom.FacetBias(bar.turned().mesh()), 1e-9, "inside out")
		// A tube of the same number of sides outside and inside has the same deficit.
		tube := bar.and(roundBar(120, tt.n, 600).turned().shifted(geom.Vec{0, 0, 50}))
		hollow := math.Pi * (150*150*700 - 120*120*600)
		assert.InDelta(t, 100*(1-geom.Examine(tube.mesh()).Volume/hollow), 100*geom.FacetBias(tube.mesh()), 1e-3, "%d sides, hollow", tt.n)
	}
}

// Surfaces that are round both ways, against their volumes in closed form:
// sphere of radius 1, 4/3·π; torus 3, 1, 2·π²·3. The deficits in per cent are
// tabled (derived here). The estimate is short by no more than a tenth of
// itself where there are a few hundred facets, a fiftieth for thousands.
func TestFacetBiasOfSpheresAndTori(t *testing.T) {
	for _, tt := range []struct {
		name         string
		in           soup
		deficit, tol float64 // %, part of the deficit
	}{
		{"sphere of 80", icosphere(1), 12.65, 0.1},
		{"sphere of 320", icosphere(2), 3.384, 0.08},
		{"sphere of 1280", icosphere(3), 0.861, 0.05},
		{"sphere of 5120", icosphere(4), 0.216, 0.025},
		{"sphere of 20480", icosphere(5), 0.054, 0.02},
		{"torus of 16 x 8", torus(3, 1, 16, 8), 12.26, 0.04},
		{"torus of 64 x 32", torus(3, 1, 64, 32), 0.801, 0.01},
		{"torus of 128 x 64", torus(3, 1, 128, 64), 0.201, 0.01},
	} {
		assert.InEpsilon(t, tt.deficit, 100*geom.FacetBias(tt.in.mesh()), tt.tol, tt.name)
	}
}

// What the solids' own meshes lack, of many kinds and patterns of facets.
func TestFacetBiasOfTheSolids(t *testing.T) {
	cylinder, _ := geom.NewCylinder(1, 2)
	tube, _ := geom.NewTube(1, 0.1, 2)
	cone, _ := geom.NewCone(1, 0.4, 2)
	sphere, _ := geom.NewSphere(1, 0)
	bowl, _ := geom.NewSphere(1, 0.1)
	for name, s := range map[string]geom.Solid{"cylinder": cylinder, "tube": tube, "cone": cone, "sphere": sphere, "hollow sphere": bowl} {
		mesh := s.Mesh(0.002)
		lack := 1 - mesh.Moments().Volume/s.Moments().Volume
		assert.Positive(t, lack, name)
		assert.InEpsilon(t, lack, geom.FacetBias(mesh), 0.03, name)
	}
}

func TestFacetBiasOfFlatSides(t *testing.T) {
	assert.Zero(t, geom.FacetBias(cube20.mesh()))
	assert.Zero(t, geom.FacetBias(roundBar(1, 6, 1).mesh()), "six sides are no circle")
	assert.Zero(t, geom.FacetBias(geom.Mesh{}))
	assert.Zero(t, geom.FacetBias(cube20.only(topOf...).mesh()))
	assert.Negative(t, geom.FacetBias(cube(500).and(roundBar(150, 32, 300).turned().shifted(geom.Vec{250, 250, 100})).mesh()), "a bore in facets leaves too much metal")
}

// A plate of 1000 x 400 whose edges are rounded with r = 10 in eight chords
// each quarter: large flat sides beside small chords. Lacking, by hand: for
// each of four edges a quarter of the deficit of a circle of 32 chords, in all
// (π − 32/2·sin(2π/32))·10².
func TestFacetBiasOfRoundedEdges(t *testing.T) {
	var outline [][2]float64
	for i := range 36 {
		corner := i / 9
		sin, cos := math.Sincos(math.Pi / 2 * (float64(corner) + float64(i%9)/8))
		x, y := [4]float64{990, 10, 10, 990}[corner], [4]float64{390, 390, 10, 10}[corner]
		outline = append(outline, [2]float64{x + 10*cos, y + 10*sin})
	}
	var s soup
	middle := [2]float64{500, 200}
	at := func(p [2]float64, z float64) geom.Vec { return geom.Vec{p[0], p[1], z} }
	for i, p := range outline {
		q := outline[(i+1)%len(outline)]
		s = append(s, [3]geom.Vec{at(p, 0), at(q, 0), at(q, 20)}, [3]geom.Vec{at(p, 0), at(q, 20), at(p, 20)},
			[3]geom.Vec{at(middle, 0), at(q, 0), at(p, 0)}, [3]geom.Vec{at(middle, 20), at(p, 20), at(q, 20)})
	}
	lack := (math.Pi - 16*math.Sin(2*math.Pi/32)) * 100
	whole := 1000*400 - (4-math.Pi)*100
	assert.InEpsilon(t, lack/whole, geom.FacetBias(s.mesh()), 0.01)
}
