package geom_test

import (
	"math/rand"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"plumbhook/geom"
)

func TestRepair(t *testing.T) {
	inner := cube(4).shifted(geom.Vec{8, 8, 8})
	tests := []struct {
		name   string
		in     soup
		told   []string
		volume float64
		sound  bool
	}{
		{"nothing to do", cube20, nil, 8000, true},
		{"nothing at all", nil, nil, 0, false},
		{"two facets turned", cube20.turned(0, 5), []string{"2 facets were turned over to face the same side as its neighbours"}, 8000, true},
		{"most facets turned", cube20.turned(0, 1, 2, 3, 4, 5, 6), []string{"5 facets were turned over to face the same side as its neighbours", "1 of 1 surface was turned over that faced the wrong side"}, 8000, true},
		{"inside out", cube20.turned(), []string{"1 of 1 surface was turned over that faced the wrong side"}, 8000, true},
		{"one of two inside out", cube20.and(beside.turned()), []string{"1 of 2 surfaces was turned over that faced the wrong side"}, 9000, true},
		{"hollow", cube20.and(void), nil, 7000, true},
		{"hollow, all inside out", cube20.and(void).turned(), []string{"2 of 2 surfaces were turned over that faced the wrong side"}, 7000, true},
		{"hollow and a loose piece, all inside out", cube20.and(void, inner).turned(), []string{"3 of 3 surfaces were turned over that faced the wrong side"}, 7064, true},
		{"loose piece in a hollow, inside out", cube20.and(void, inner.turned()), []string{"1 of 3 surfaces was turned over that faced the wrong side"}, 7064, true},
		{"void with a facet turned", cube20.and(void.turned(3)), []string{"1 facet was turned over to face the same side as its neighbours"}, 7000, true},
		{"void facing outward stays", cube20.and(void.turned()), nil, 9000, false},
		{"one facet twice", cube20.and(cube20.only(0)), []string{"1 facet was left out that repeated another"}, 8000, true},
		{"all twice", cube20.and(cube20), []string{"12 facets were left out that repeated another"}, 8000, true},
		{"facet with two equal corners", cube20.and(soup{{{0, 0, 0}, {0, 0, 0}, {20, 0, 0}}}), []string{"1 facet was left out that had two equal corners"}, 8000, true},
		{"hole stays", cube20.without(0), nil, 8000.0 * 11 / 12, false},
		{"hole, a facet turned", cube20.without(0).turned(4), []string{"1 facet was turned over to face the same side as its neighbours"}, 8000.0 * 11 / 12, false},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			mended, told := geom.Repair(tt.in.mesh())
			assert.Equal(t, tt.told, told)
			h := geom.Examine(mended)
			assert.InDelta(t, tt.volume, h.Volume, 1e-9)
			assert.Equal(t, tt.sound, h.Sound(), h.Faults())
			again, toldAgain := geom.Repair(mended)
			assert.Nil(t, toldAgain, "mended once, nothing is left to do")
			assert.Equal(t, mended, again)
		})
	}
}

// Points of rims that rounding has parted are joined.
func TestRepairJoinsPoints(t *testing.T) {
	in := cube20.turned() // a copy
	in = in.turned()
	in[0][0][0] += 1e-6
	in[3][1][2] -= 1e-6
	mended, told := geom.Repair(in.mesh())
	assert.Equal(t, []string{"2 points were joined to a neighbour that lay no more than 3.5e-05 away in the file's units"}, told)
	assert.Len(t, mended.Vertices, 8)
	assert.Empty(t, geom.Examine(mended).Faults())

	in[0][0][0] += 0.01 // too far
	mended, told = geom.Repair(in.mesh())
	assert.Len(t, told, 1, "only the other")
	assert.NotZero(t, geom.Examine(mended).OpenEdges)
}

// A twisted band has no sides to choose from: it is left alone, in words.
func TestRepairLeavesATwistedBand(t *testing.T) {
	var band soup
	at := func(i, side int) geom.Vec {
		if i == 5 {
			i, side = 0, 1-side
		}
		return geom.Vec{float64(i * (5 - i)), float64(i), float64(side) + 0.1*float64(i)}
	}
	for i := range 5 {
		band = append(band, [3]geom.Vec{at(i, 0), at(i+1, 0), at(i+1, 1)}, [3]geom.Vec{at(i, 0), at(i+1, 1), at(i, 1)})
	}
	mended, told := geom.Repair(band.mesh())
	assert.Equal(t, []string{"1 surface has one side only, like a twisted band, and stays as it is"}, told)
	assert.Len(t, mended.Faces, 10)
}

// Any facets turned, doubled, and any order: mended to the whole, and never
// more facets than before.
func TestRepairOfASpoiledHollow(t *testing.T) {
	small := soup(nil)
	for _, f := range icosphere(1) {
		for i := range f {
			f[i] = f[i].Mul(0.5)
		}
		small = append(small, f)
	}
	whole := icosphere(1).and(small.turned())
	want := geom.Examine(whole.mesh()).Volume
	rapid.Check(t, func(t *rapid.T) {
		facet := rapid.IntRange(0, 159)
		// Fewer than half of each sphere's 80, so that the larger area is right.
		turned := rapid.SliceOfNDistinct(facet, 0, 30, rapid.ID[int]).Draw(t, "turned")
		doubled := rapid.SliceOfNDistinct(facet, 0, 30, rapid.ID[int]).Draw(t, "doubled")
		in := whole.turned(append(turned, 0, 0)...) // 0 twice changes nothing
		in = in.and(in.only(doubled...))
		random := rand.New(rand.NewSource(rapid.Int64().Draw(t, "seed")))
		random.Shuffle(len(in), func(i, j int) { in[i], in[j] = in[j], in[i] })
		mended, _ := geom.Repair(in.mesh())
		require.LessOrEqual(t, len(mended.Faces), len(in))
		h := geom.Examine(mended)
		assert.True(t, h.Sound(), h.Faults())
		assert.InEpsilon(t, want, h.Volume, 1e-12)
	})
}

func TestWeld(t *testing.T) {
	in := cube20.turned().turned()
	in[0][0][0] += 0.01
	for tol, vertices := range map[float64]int{0: 9, -1: 9, 0.009: 9, 0.0101: 8, 1e-300: 9} {
		w := geom.Weld(in.mesh(), tol)
		assert.Len(t, w.Vertices, vertices, "tolerance %g", tol)
		assert.Len(t, w.Faces, 12, "no facet is dropped")
	}
	// Points in a row, each 1 from the next: none moves by more than 1.
	var row geom.Mesh
	for i := range 9 {
		row.Vertices = append(row.Vertices, geom.Vec{float64(i), 0, 0})
	}
	for i := range 7 {
		row.Faces = append(row.Faces, [3]int{i, i + 1, i + 2})
	}
	w := geom.Weld(row, 1)
	assert.Equal(t, [][3]int{{0, 0, 1}, {0, 1, 1}, {1, 1, 2}, {1, 2, 2}, {2, 2, 3}, {2, 3, 3}, {3, 3, 4}}, w.Faces)
}

// Against a search through all pairs.
func TestWeldKeepsWithinItsTolerance(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		tol := rapid.Float64Range(0.001, 2).Draw(t, "tolerance")
		points := rapid.SliceOfN(rapid.Custom(func(t *rapid.T) geom.Vec {
			c := rapid.Float64Range(-3, 3)
			return geom.Vec{c.Draw(t, "x"), c.Draw(t, "y"), c.Draw(t, "z")}
		}), 3, 40).Draw(t, "points")
		m := geom.Mesh{Vertices: points}
		for i := range points {
			m.Faces = append(m.Faces, [3]int{i, (i + 1) % len(points), (i + 2) % len(points)})
		}
		w := geom.Weld(m, tol)
		for i, f := range w.Faces {
			require.LessOrEqual(t, w.Vertices[f[0]].Sub(points[i]).Len(), tol, "no further than the tolerance")
		}
		used := map[int]bool{}
		for _, f := range w.Faces {
			used[f[0]] = true
		}
		for i := range used {
			for j := range used {
				require.True(t, i == j || w.Vertices[i].Sub(w.Vertices[j]).Len() > tol, "no two kept are nearer")
			}
		}
	})
}
