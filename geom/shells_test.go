package geom_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"plumbhook/geom"
)

func TestShells(t *testing.T) {
	for name, tt := range map[string]struct {
		in      soup
		volumes []float64
	}{
		"cube":                        {cube20, []float64{8000}},
		"hollow":                      {cube20.and(void), []float64{8000, -1000}},
		"void first":                  {void.and(cube20), []float64{-1000, 8000}},
		"side by side, one torn":      {cube20.and(beside.without(0), cube(2).shifted(geom.Vec{0, 0, 90})), []float64{8000, 8}},
		"parted by a double wall":     {cube20.and(cube20.shifted(geom.Vec{0, 0, 20})), []float64{16000}},
		"touching along an edge":      {cube20.and(cube20.shifted(geom.Vec{20, 20, 0})), []float64{8000, 8000}},
		"one facet twice":             {cube20.and(cube20.only(0)), []float64{8000}},
		"nothing closed":              {cube20.without(0), nil},
		"nothing":                     {nil, nil},
		"a piece loose in the hollow": {cube20.and(void, cube(2).shifted(geom.Vec{9, 9, 9})), []float64{8000, -1000, 8}},
	} {
		var volumes []float64
		for _, shell := range geom.Shells(tt.in.mesh()) {
			h := geom.Examine(shell)
			assert.True(t, h.Closed(), name)
			volumes = append(volumes, math.Round(h.Volume*1e9)/1e9)
		}
		assert.Equal(t, tt.volumes, volumes, name)
	}
}

// Shells in shells that all face outward, three deep. Each cube of side 20, 10,
// 4: counted as they stand 8000 + 1000 + 64; solid in solid 8000; hollow and
// loose piece in turn 8000 − 1000 + 64.
func TestBothReadingsOfNestedShells(t *testing.T) {
	in := cube20.and(cube(10).shifted(geom.Vec{5, 5, 5}), cube(4).shifted(geom.Vec{8, 8, 8}))
	h := geom.Examine(in.mesh())
	assert.Equal(t, 2, h.NestedShells)
	assert.InDelta(t, 9064, h.Volume, 1e-9)
	assert.InDelta(t, 8000, h.AsSolid, 1e-9)
	assert.InDelta(t, 7064, h.AsHollow, 1e-9)
	assert.InDelta(t, 2000, h.VolumeDoubt, 1e-9, "to the further of the two")
	require.Len(t, h.Faults(), 1)
	fault := h.Faults()[0]
	assert.Equal(t, "mesh-nested", fault.Code)
	assert.Contains(t, fault.Text, "The volume is 7064 if it bounds a hollow, 8000 if it is a piece set into the other, in the file's units; as the facets stand, 9064")

	inverted := geom.Examine(in.turned().mesh())
	assert.InDelta(t, -9064, inverted.Volume, 1e-9)
	assert.InDelta(t, 8000, inverted.AsSolid, 1e-9, "judged as if it were turned")
	assert.InDelta(t, 7064, inverted.AsHollow, 1e-9)
}

func TestShellsThatCancel(t *testing.T) {
	equal := geom.Examine(cube20.and(cube20.shifted(geom.Vec{30, 0, 0}).turned()).mesh())
	assert.True(t, equal.Flat)
	require.NotEmpty(t, equal.Faults())
	assert.Equal(t, "mesh-cancels", equal.Faults()[0].Code)
	assert.Contains(t, equal.Faults()[0].Text, "enclose 1.6e+04 in the file's units, but their volumes cancel out")
	assert.False(t, equal.Sound())

	foil := geom.Examine(cube20.and(brick(geom.Vec{.001, .001, .001}, geom.Vec{19.999, 19.999, 19.999}).turned()).mesh())
	require.Len(t, foil.Faults(), 1)
	assert.Equal(t, "mesh-cancels", foil.Faults()[0].Code)
	assert.Contains(t, foil.Faults()[0].Text, "a thin wall")
	assert.True(t, foil.Faults()[0].Harmless)
	assert.True(t, foil.Sound())
}

// Overlaps whose common volume is a box, so exact by hand.
func TestOverlap(t *testing.T) {
	shifted := func(x, y, z float64) soup { return cube20.shifted(geom.Vec{x, y, z}) }
	tests := []struct {
		name       string
		in         soup
		sum, union float64
	}{
		{"one cube", cube20, 8000, 8000},
		{"apart", cube20.and(shifted(25, 0, 0)), 16000, 16000},
		{"touching", cube20.and(shifted(20, 3, 5)), 16000, 16000},
		{"overlapping", cube20.and(shifted(15, 3, 7)), 16000, 16000 - 5*17*13},
		{"inside out", cube20.and(shifted(15, 3, 7)).turned(), 16000, 16000 - 5*17*13},
		{"three at one place", cube20.and(shifted(10, 0, 0), shifted(0, 10, 0)), 24000, 8000 + 4000 + 4000 - 0},
		{"within", cube20.and(void.turned()), 9000, 8000},
		{"hollow", cube20.and(void), 7000, 7000},
		{"two tetrahedra in a unit cube", stellaOctangula(), 2.0 / 3, 0.5},
		{"a void that pokes out", cube20.and(void.shifted(geom.Vec{0, 0, 8})), 7000, 8000 - 10*10*7},
	}
	for _, tt := range tests {
		o := geom.Overlap(tt.in.mesh(), 8192)
		assert.InEpsilon(t, tt.sum, o.Sum, 1e-12, tt.name)
		assert.InDelta(t, tt.union, o.Union, 4*o.Error+1e-9*tt.sum, "%s: %+v", tt.name, o)
		assert.Less(t, o.Error, 0.01*tt.union, tt.name)
		if math.Abs(tt.sum-tt.union) < 1e-9 {
			assert.Less(t, o.Error, 1e-9*tt.sum, "%s: no overlap, no error", tt.name)
		}
		assert.Equal(t, o, geom.Overlap(tt.in.mesh(), 8192), "the same every time")
	}
	assert.Equal(t, 64, geom.Overlap(cube20.mesh(), 0).Lines)
	assert.Equal(t, 1_000_000, geom.Overlap(cube20.mesh(), math.MaxInt).Lines)
	assert.Zero(t, geom.Overlap(geom.Mesh{}, 100).Union)
}

// The standard error is honest: it is that of lines at random places, and these
// lines are spread evenly, so the estimate is nearer than three of it.
func TestErrorOfOverlapIsHonest(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		by := rapid.Float64Range(1, 14) // what is common then has many lines
		x, y, z := by.Draw(t, "x"), by.Draw(t, "y"), by.Draw(t, "z")
		o := geom.Overlap(cube20.and(cube20.shifted(geom.Vec{x, y, z})).mesh(), 1000)
		assert.LessOrEqual(t, math.Abs(o.Union-(16000-(20-x)*(20-y)*(20-z))), 3*o.Error)
		assert.Less(t, o.Error, 200.0)
	})
}

func TestPartOverlapIsAFault(t *testing.T) {
	h := geom.Examine(cube20.and(cube20.shifted(geom.Vec{15, 3, 7})).mesh())
	assert.Zero(t, h.NestedShells)
	assert.False(t, h.Sound())
	require.Len(t, h.Faults(), 1)
	assert.Equal(t, "mesh-overlap", h.Faults()[0].Code)
	assert.Contains(t, h.Faults()[0].Text, "surfaces overlap in part or pass through each other, near (")
	assert.Contains(t, h.Faults()[0].Text, "The facets add up to 16000; the space that they fill is 149")
	assert.Contains(t, h.Faults()[0].Text, "(one standard error, sampled along 8100 lines)")
	assert.InDelta(t, 5*17*13, h.VolumeDoubt, 200)
	require.Len(t, h.Where, 1)
	for axis, c := range h.Where[0] {
		assert.True(t, c >= []float64{15, 3, 7}[axis] && c <= 20, "in what is common: %v", h.Where[0])
	}

	// The point that stands for the small cube is in the large one, but not all of it.
	h = geom.Examine(cube20.and(cube(10).shifted(geom.Vec{5, 5, -5})).mesh())
	assert.Zero(t, h.NestedShells)
	require.Len(t, h.Faults(), 1)
	assert.Equal(t, "mesh-overlap", h.Faults()[0].Code)

	// A weld bead of 1 x 1 x 20 sunk by 0.1: 2 of 8020 is told, but does no harm.
	h = geom.Examine(cube20.and(brick(geom.Vec{0, 5, 19.9}, geom.Vec{20, 6, 20.9})).mesh())
	require.Len(t, h.Faults(), 1)
	assert.Equal(t, "mesh-overlap", h.Faults()[0].Code)
	assert.True(t, h.Faults()[0].Harmless)
	assert.True(t, h.Sound())
}

// A mesh that is closed but for rounding, one with gaps too wide for that.
func TestGapsOfRounding(t *testing.T) {
	apart := func(by float64) soup {
		s := icosphere(2)
		for i := range s {
			for corner := range s[i] {
				// Each facet has its own rounding; no two corners are alike.
				s[i][corner] = s[i][corner].Add(geom.Vec{by * math.Sin(float64(7*i+corner)), by * math.Cos(float64(3*i+corner)), by * math.Sin(float64(i*corner))})
			}
		}
		return s
	}
	const volume = 4.047045 // icosphere of 320, derived here
	h := geom.Examine(apart(5e-7).mesh())
	assert.True(t, h.Sound(), h.Faults())
	require.Len(t, h.Faults(), 1)
	assert.Equal(t, "mesh-unwelded", h.Faults()[0].Code)
	assert.True(t, h.Faults()[0].Harmless)
	assert.Contains(t, h.Faults()[0].Text, "the surface is closed only if points up to 3.5e-06 apart in the file's units (a millionth of its box) are taken for one")
	assert.InDelta(t, volume, h.Volume, 1e-5)
	assert.Less(t, h.VolumeDoubt, 1e-5)
	assert.Equal(t, 1, h.Shells)

	h = geom.Examine(apart(1e-4).mesh())
	assert.False(t, h.Sound())
	assert.Equal(t, "mesh-open", h.Faults()[0].Code)
	assert.Contains(t, h.Faults()[0].Text, ". The surface would close if points up to about 0.00035 apart were joined: gaps too wide to be rounding")

	h = geom.Examine(cube20.without(0).mesh())
	assert.Zero(t, h.Gap, "a missing facet is no gap")
}

// Two tetrahedra through each other in a unit cube fill 1/2 of it (regular
// compound of two tetrahedra, exact), but the facets count what is common
// twice: 1/3 + 1/3. That is sampled and said.
func TestSurfaceThroughItselfIsSampled(t *testing.T) {
	h := geom.Examine(stellaOctangula().mesh())
	assert.InDelta(t, 2.0/3, math.Abs(h.Volume), 1e-15)
	assert.True(t, h.Closed())
	assert.False(t, h.Sound())
	assert.InDelta(t, 2.0/3, h.Overlap.Sum, 1e-15)
	assert.InDelta(t, 0.5, h.Overlap.Union, 4*h.Overlap.Error)
	assert.Less(t, h.Overlap.Error, 0.003)
	require.Len(t, h.Faults(), 1)
	assert.Equal(t, "mesh-overlap", h.Faults()[0].Code)
}

func stellaOctangula() soup {
	a, b, c, d := geom.Vec{0, 0, 0}, geom.Vec{1, 1, 0}, geom.Vec{1, 0, 1}, geom.Vec{0, 1, 1}
	one := soup{{a, b, c}, {a, d, b}, {a, c, d}, {b, d, c}}
	other := soup(nil)
	for _, f := range one {
		for i, v := range f {
			f[i] = geom.Vec{1, 1, 1}.Sub(v)
		}
		other = append(other, f)
	}
	return one.and(other.turned()) // since it is mirrored
}
