package geom

import (
	"maps"
	"math"
	"slices"
	"sync"
	"testing"

	"github.com/go-gl/mathgl/mgl64"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

// filledUp takes the pair that [NewInside] returns, for a sound solid.
func filledUp(in Inside, err error) Inside {
	if err != nil {
		panic(err)
	}
	return in
}

// contents returns what a vessel holds.
func contents(size VesselSize) Inside {
	s, _ := made(NewVessel(size)).Inside()
	return filledUp(NewInside(s, 0))
}

// byMesh returns the solid as an inside of facets, whatever its shape.
func byMesh(s Solid, chord float64) Inside {
	whole := s.Moments()
	return Inside{whole: whole, form: fitted(s.Mesh(chord), whole)}
}

// insides are round ones, flat ones, ones with bores, steps and hollows.
var insides = sync.OnceValue(func() map[string]Inside {
	all := map[string]Inside{
		"box":           filledUp(NewInside(made(NewBox(1, 2, 3)), 0)),
		"tube":          filledUp(NewInside(made(NewTube(1, 0.2, 0.8)), 5e-3)),
		"hollow sphere": filledUp(NewInside(made(NewSphere(1, 0.2)), 5e-3)),
		"ring":          filledUp(NewInside(made(NewRing(0.8, 0.4)), 5e-3)),
		"wedge":         filledUp(NewInside(made(NewWedge(1, 0.8, 0.7, 0.4)), 0)),
		"two pockets":   filledUp(NewInside(uShape(), 0)),
		"cylinder":      filledUp(NewInside(made(NewCylinder(1, 2)), 0)),
		"flat cylinder": filledUp(NewInside(made(NewCylinder(2, 0.1)), 0)),
		"sphere":        filledUp(NewInside(made(NewSphere(2, 0)), 0)),
		"cone":          filledUp(NewInside(made(NewCone(1, 0, 1)), 0)),
		"hopper":        filledUp(NewInside(made(NewCone(0.2, 1, 1)), 0)),
		"half ball":     filledUp(NewInside(made(NewHemisphere(1, 0)), 0)),
		"2:1 heads":     contents(VesselSize{Inside: 2, Wall: 0.01, Length: 6, Heads: Ellipsoidal(2)}),
		"dished heads":  contents(VesselSize{Inside: 1, Wall: 0.01, Length: 1, Heads: DIN28011()}),
		"flat ends":     contents(VesselSize{Inside: 1, Wall: 0.01, Length: 1, Heads: FlatHead()}),
		"capsule":       contents(VesselSize{Inside: 1, Wall: 0.01, Length: 1, Heads: Hemispherical()}),
	}
	return all
})

// uShape has two legs of different height on a common floor.
func uShape() Solid {
	ring := []mgl64.Vec2{{0, 0}, {3, 0}, {3, 3}, {2, 3}, {2, 1}, {1, 1}, {1, 2}, {0, 2}}
	return made(NewPolygon(ring, nil, 1))
}

func drawInside(t *rapid.T) Inside {
	all := insides()
	return all[rapid.SampledFrom(slices.Sorted(maps.Keys(all))).Draw(t, "inside")]
}

// drawUp draws any direction, those along the axes and next to them too, at
// any length.
func drawUp(t *rapid.T) Vec {
	up := axes[rapid.IntRange(0, 2).Draw(t, "axis")]
	switch rapid.IntRange(0, 3).Draw(t, "sort of up") {
	case 0:
		up = up.Mul(-1)
	case 1:
		up = up.Add(drawVec(t, "next to it", 1e-6))
	default:
		up = drawTurn(t).Col(2)
	}
	return up.Mul(rapid.Float64Range(0.1, 10).Draw(t, "length of up"))
}

// Horizontal and upright vessels, inside diameter 2 m, 6 m from tangent line
// to tangent line: circular segment in closed form, 2:1 heads V_full (h/D)²
// (3 − 2h/D), dished heads by an integral of segment areas (all worked outside
// the program).
func TestDepthsOfVessels(t *testing.T) {
	type level struct{ depth, volume, below float64 } // of both heads
	shell := []level{{0.5, 3.685109, 0.705020}, {1.0, 9.424778, 0.424413}, {1.5, 15.164447, 0.171327}}
	for _, f := range []struct {
		heads  HeadForm
		levels []level
	}{
		{FlatHead(), []level{{depth: 0.5}, {depth: 1}, {depth: 1.5}}},
		{Ellipsoidal(2), []level{{0.5, 0.327249, 0.675000}, {1.0, 1.047198, 0.375000}, {1.5, 1.767146, 0.125000}}},
		{Torispherical(2, 0.12), []level{{0.5, 2 * 0.097148, 0.67410}, {1.0, 2 * 0.323996, 0.36790}, {1.5, 2 * 0.550844, 0.11889}}},
		{Torispherical(2, 0.2), []level{{0.5, 2 * 0.123950, 0.67808}, {1.0, 2 * 0.395864, 0.37575}, {1.5, 2 * 0.667778, 0.12586}}},
		{Torispherical(1.6, 0.308), []level{{0.5, 2 * 0.163787, 0.67728}, {1.0, 2 * 0.523087, 0.37561}, {1.5, 2 * 0.882387, 0.12571}}},
	} {
		in := contents(VesselSize{Inside: 2, Wall: 0.01, Length: 6, Heads: f.heads})
		for i, heads := range f.levels {
			got, err := in.AtDepth(heads.depth, Vec{0, 3, 0})
			require.NoError(t, err)
			volume := shell[i].volume + heads.volume
			assert.InDelta(t, volume, got.Moments.Volume, 3e-6, "%v, %g deep", f.heads, heads.depth)
			below := (shell[i].volume*shell[i].below + heads.volume*heads.below) / volume
			assert.InDelta(t, -below, got.Moments.Centroid()[1], 3e-6, "%v, %g deep", f.heads, heads.depth)
		}
	}
}

// Cylindrical hoof: a plane through a diameter of the base, r = 1, rising to
// h = 2: V = 2r²h/3, centroid 3πr/16 from the diameter and 3πh/32 up (tables of
// mensuration). Its surface is half an ellipse of half axes r and √(r² + h²):
// area π/2·a·b, centroid 4a/(3π) from the diameter.
func TestHoof(t *testing.T) {
	got := filledUp(NewInside(made(NewCylinder(2, 5)), 0)).AtLevel(0, Vec{-2, 0, 1}) // under z = 2x
	assert.InDelta(t, 4.0/3, got.Moments.Volume, 1e-8)
	nearVec(t, Vec{3 * math.Pi / 16, 0, 6 * math.Pi / 32}, got.Moments.Centroid(), 1e-7)
	// ∫x²·2x dA, ∫y²·2x dA, ∫(2x)³/3 dA and ∫x·(2x)²/2 dA over half a disc, by hand.
	want := symmetric(8.0/15, 4.0/15, 32.0/45, 0, 0, 8.0/15)
	assert.InDeltaSlice(t, want[:], got.Moments.Second[:], 1e-7)
	a := math.Sqrt(5)
	assert.InDelta(t, math.Pi/2*a, got.Surface.Area, 1e-7)
	nearVec(t, Vec{1, 0, 2}.Mul(4/(3*math.Pi)), got.Surface.Centroid, 1e-7)
	// About the diameter π·a³·b/8, across it π·a·b³/8; from tables of mensuration.
	along := math.Pi/8*a*a*a - math.Pi/2*a*math.Pow(4*a/(3*math.Pi), 2)
	assert.InDelta(t, math.Pi/8*a, got.Surface.Second.At(1, 1), 1e-7)
	assert.InDelta(t, along, got.Surface.Second.Trace()-math.Pi/8*a, 1e-7)
}

// Spherical cap: V = π·h²·(3r − h)/3, centroid 3(2r − h)²/(4(3r − h)) from the
// centre, surface a disc of radius √(2rh − h²) (tables of mensuration); the
// attitude does not matter.
func TestSphereInAnyAttitude(t *testing.T) {
	in := filledUp(NewInside(made(NewSphere(2, 0)), 0))
	for _, up := range []Vec{{0, 0, 1}, {0, 0, -1}, {1, 0, 0}, {1, 1e-9, 1e-9}, {1e-9, 0, 1}, {1, 2, 3}, {-1, 0.5, -0.1}} {
		unit := up.Normalize()
		for _, h := range []float64{1e-3, 0.3, 1, 1.7, 1.999} {
			got, err := in.AtDepth(h, up)
			require.NoError(t, err)
			volume := math.Pi * h * h * (3 - h) / 3
			assert.InDelta(t, volume, got.Moments.Volume, 1e-7, "%v %g", up, h)
			centre := Vec{0, 0, 1}.Sub(unit.Mul(3 * (2 - h) * (2 - h) / (4 * (3 - h))))
			nearVec(t, centre.Mul(volume), got.Moments.First, 1e-7, up, h)
			a2 := 2*h - h*h
			assert.InDelta(t, math.Pi*a2, got.Surface.Area, 1e-7, "%v %g", up, h)
			disc := mgl64.Ident3().Sub(unit.OuterProd3(unit)).Mul(math.Pi / 4 * a2 * a2)
			assert.InDelta(t, 0, disc.Sub(got.Surface.Second).Mul3(disc.Sub(got.Surface.Second)).Trace(), 1e-14, "%v %g", up, h)
		}
	}
}

// Rectangular tank a × b, tilted about y by the angle θ: the level meets both
// sides, so the surface is a × b/cos θ, and the centroid moves by
// a²·tan θ/(12·h) to the low side and rises by half of that times tan θ: the
// trapezium of mensuration, worked by hand.
func TestTiltedBox(t *testing.T) {
	const a, b, h, θ = 2.0, 3.0, 1.0, 0.4
	in := filledUp(NewInside(made(NewBox(a, b, 4)), 0))
	up := Vec{math.Sin(θ), 0, math.Cos(θ)}
	got, err := in.AtVolume(a*b*h, up)
	require.NoError(t, err)
	shift := a * a * math.Tan(θ) / (12 * h)
	nearVec(t, Vec{-shift, 0, h/2 + shift*math.Tan(θ)/2}, got.Moments.Centroid(), 1e-12)
	assert.InDelta(t, a*b/math.Cos(θ), got.Surface.Area, 1e-12)
	nearVec(t, Vec{0, 0, h}, got.Surface.Centroid, 1e-12)
	assert.InDelta(t, a*b*b*b/12/math.Cos(θ), got.Surface.Second.At(1, 1), 1e-12)
	assert.InDelta(t, h*math.Cos(θ), got.Level, 1e-12)
	assert.Zero(t, in.Error())
}

// Two pockets over one floor: the level stands in both, in two pieces; a level
// on a flat shelf counts it as wetted. Worked by hand.
func TestSeparatePiecesAndShelves(t *testing.T) {
	in := filledUp(NewInside(uShape(), 0)) // in the x-y plane, 1 m along z
	up := Vec{0, 1, 0}
	for _, want := range []struct{ level, volume, area, x, second float64 }{
		{0.5, 1.5, 3, 1.5, 2.25},
		{1, 3, 2, 1.5, 1.0/6 + 2},    // the floor of the gap just covered
		{1.5, 4, 2, 1.5, 1.0/6 + 2},  // two squares, 1 m each from the middle
		{2, 5, 1, 2.5, 1.0 / 12},     // the short leg is full to its top
		{2.5, 5.5, 1, 2.5, 1.0 / 12}, // the long leg alone
	} {
		got := in.AtLevel(want.level, up)
		assert.InDelta(t, want.volume, got.Moments.Volume, 1e-12, "%v", want)
		assert.InDelta(t, want.area, got.Surface.Area, 1e-12, "%v", want)
		nearVec(t, Vec{want.x, want.level, 0.5}, got.Surface.Centroid.Add(Vec{0, 0, 0.5 - got.Surface.Centroid[2]}), 1e-12, want)
		assert.InDelta(t, want.second, got.Surface.Second.At(0, 0), 1e-12, "%v", want)
		again, err := in.AtVolume(want.volume, up)
		require.NoError(t, err)
		assert.InDelta(t, want.level, again.Level, 1e-12, "%v", want)
	}
}

func TestEmptyAndFull(t *testing.T) {
	for name, in := range insides() {
		for _, up := range []Vec{{0, 0, 1}, {0, -2, 0}, {1, 2, -3}} {
			low, high := in.form.span(up.Normalize())
			empty, err := in.AtVolume(0, up)
			require.NoError(t, err)
			assert.Equal(t, Liquid{Level: low}, empty, name)
			full, err := in.AtVolume(in.Volume(), up)
			require.NoError(t, err)
			assert.Equal(t, Liquid{Moments: in.whole, Level: high, Depth: high - low}, full, name)
			assert.Equal(t, empty, in.AtLevel(math.Inf(-1), up), name)
			assert.Equal(t, full, in.AtLevel(math.Inf(1), up), name)
			table := in.DipTable(up, 7)
			require.Len(t, table, 8)
			assert.Equal(t, []Liquid{empty, full}, []Liquid{table[0], table[7]}, name)
			almost := in.AtLevel(high-1e-9*(high-low), up)
			assert.InDelta(t, in.Volume(), almost.Moments.Volume, 1e-7*in.Volume(), name)
			nearVec(t, in.whole.First, almost.Moments.First, 1e-6*in.Volume(), name)
		}
	}
}

func TestLiquidThatDoesNotFit(t *testing.T) {
	in := filledUp(NewInside(made(NewBox(1, 1, 1)), 0))
	up := Vec{0, 0, 1}
	for _, bad := range []float64{-0.1, 1.1, math.NaN(), math.Inf(1)} {
		_, err := in.AtVolume(bad, up)
		assert.ErrorContains(t, err, "from 0 to 1 m³")
		_, err = in.AtDepth(bad, up)
		assert.ErrorContains(t, err, "from 0 to 1000 mm")
	}
	for _, nowhere := range []Vec{{}, {math.NaN(), 0, 1}, {math.Inf(1), 0, 0}} {
		_, err := in.AtVolume(0.5, nowhere)
		assert.ErrorContains(t, err, "points nowhere")
		assert.Zero(t, in.AtLevel(0.5, nowhere))
		assert.Nil(t, in.DipTable(nowhere, 3))
	}
	assert.Zero(t, in.AtLevel(math.NaN(), up))
	_, err := Inside{}.AtVolume(0, up)
	assert.ErrorContains(t, err, "NewInside")
}

func TestInsidesThatHoldNothing(t *testing.T) {
	box := made(NewBox(1, 1, 1)).Mesh(0)
	_, err := NewInside(NewBody(Mesh{Vertices: box.Vertices, Faces: box.Faces[2:]}), 0)
	assert.ErrorContains(t, err, "not sound")
	_, err = NewInside(NewBody(box.reversed()), 0)
	assert.ErrorContains(t, err, "without volume")
	_, err = NewInside(made(NewTube(1, 0.1, 1)), math.NaN())
	assert.ErrorContains(t, err, "chord")
}

// A mesh is good to the error that it states, held to a much finer one, and
// its full figures are those of the closed form.
func TestChosenChord(t *testing.T) {
	for name, s := range map[string]Solid{
		"tube": made(NewTube(1, 0.2, 0.8)), "elbow": made(NewBend(0.4, 0, 0.4, 2)), "ring": made(NewRing(0.8, 0.4)),
	} {
		in, finest := filledUp(NewInside(s, 0)), byMesh(s, 1e-5)
		assert.Less(t, in.Error(), 1e-4, name)
		assert.NotZero(t, in.Error(), name)
		form := in.form.(faceted)
		full := form.mesh.Moments().Posed(Still().Shifted(form.middle))
		assert.InEpsilon(t, s.Moments().Volume, full.Volume, 1e-12, name)
		nearVec(t, s.Moments().First, full.First, 1e-12, name)
		for _, up := range []Vec{{0, 0, 1}, {1, 0, 0}, {1, 2, 3}, {-3, 1, 0.2}} {
			for _, want := range finest.DipTable(up, 11)[1:11] {
				got := in.AtLevel(want.Level, up)
				assert.InDelta(t, want.Moments.Volume, got.Moments.Volume, 2e-4*in.Volume(), "%s %v %g", name, up, want.Level)
			}
		}
	}
}

func BenchmarkAtVolume(b *testing.B) {
	up := Vec{0.3, 0.1, 0.9}
	for name, in := range map[string]Inside{
		"box":    filledUp(NewInside(made(NewBox(1, 2, 3)), 0)),
		"vessel": contents(VesselSize{Inside: 2, Wall: 0.01, Length: 6, Heads: Ellipsoidal(2)}),
		"dished": contents(VesselSize{Inside: 2, Wall: 0.01, Length: 6, Heads: DIN28011()}),
		"elbow":  filledUp(NewInside(made(NewBend(0.4, 0, 0.4, 2)), 0)),
	} {
		b.Run(name, func(b *testing.B) {
			b.ReportAllocs()
			for b.Loop() {
				if _, err := in.AtVolume(0.4*in.Volume(), up); err != nil {
					b.Fatal(err)
				}
			}
		})
	}
}
