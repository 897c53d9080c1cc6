package takeoff

import (
	"fmt"
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"plumbhook/geom"
	"plumbhook/testdata/published/inprint"
	"plumbhook/units"
)

// level is a weighing with up as drawn and cells at so many places, accurate to
// half a kilogram.
func level(name string, cells ...Reading) Weighing {
	for i := range cells {
		if cells[i].Accuracy == 0 {
			cells[i].Accuracy = 0.5
		}
		if cells[i].Name == "" {
			cells[i].Name = string(rune('A' + i))
		}
	}
	return Weighing{Name: name, Cells: cells, Up: geom.Vec{0, 0, 1}}
}

// vague is a load of which next to nothing is known: what comes out is then
// what the cells say.
func vague() []item {
	return []item{
		{name: "one", cg: geom.Vec{0, 0, 0}, half: geom.Vec{9, 9, 9}, best: 1000, low: 100, high: 9000},
		{name: "two", cg: geom.Vec{1, 1, 1}, half: geom.Vec{9, 9, 9}, best: 1000, low: 100, high: 9000},
	}
}

func TestWeighingsByHand(t *testing.T) {
	tests := []struct {
		name, source string
		weighings    []Weighing
		read         float64
		cg           geom.Vec
		known        [3]bool
		tol          float64 // m
	}{
		{"two supports", "levers: 4 of 10 t on the support 5 m away, 5 m · 4/10",
			[]Weighing{level("beam", Reading{At: geom.Vec{1, 0, 0}, Reads: 6000}, Reading{At: geom.Vec{6, 0, 0}, Reads: 4000})},
			10000, geom.Vec{3, 0, 0}, [3]bool{true, false, false}, 1e-6},
		{"two supports across the axes", "the same along a line at 3:4:5, of which no axis shows by itself",
			[]Weighing{level("beam", Reading{At: geom.Vec{0, 0, 0}, Reads: 6000}, Reading{At: geom.Vec{3, 4, 0}, Reads: 4000})},
			10000, geom.Vec{}, [3]bool{}, 1e-6},
		{"three points", "x = 3·3/10, y = 5·2/10: balance of moments",
			[]Weighing{level("jacks", Reading{At: geom.Vec{0, 0, 0}, Reads: 2000}, Reading{At: geom.Vec{3, 0, 0}, Reads: 3000}, Reading{At: geom.Vec{0, 2, 0}, Reads: 5000})},
			10000, geom.Vec{0.9, 1, 0}, [3]bool{true, true, false}, 1e-6},
		{"hook scale", "weight alone", []Weighing{level("hook", Reading{At: geom.Vec{0, 0, 5}, Reads: 1234})}, 1234, geom.Vec{}, [3]bool{}, 1e-6},
		{"tare", "100 kg of 10.1 t, at the CG: the same as without", func() []Weighing {
			w := level("beam", Reading{At: geom.Vec{1, 0, 0}, Reads: 6060}, Reading{At: geom.Vec{6, 0, 0}, Reads: 4040})
			w.Tare = 100
			return []Weighing{w}
		}(), 10000, geom.Vec{3, 0, 0}, [3]bool{true, false, false}, 1e-6},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			out, err := FoldIn(vague(), tt.weighings)
			require.NoError(t, err)
			require.Len(t, out.Shown, 1)
			s := out.Shown[0]
			assert.InEpsilon(t, tt.read, float64(s.Read), 1e-9, tt.source)
			assert.Equal(t, tt.known, s.Known, tt.source)
			near3(t, tt.cg, s.ReadCG, tt.tol, tt.source)
		})
	}
}

// TestPublishedWeighing is an aeroplane on a nose wheel and two main wheels. The main
// wheels' 830 and 836 lb and their track are from memory; the sum and the CG need neither.
func TestPublishedWeighing(t *testing.T) {
	const in, lb = 0.0254, 0.45359237
	out, err := FoldIn(vague(), []Weighing{level("scales", Reading{At: geom.Vec{-78 * in, 0, 0}, Reads: 340 * lb},
		Reading{At: geom.Vec{0, 1, 0}, Reads: 830 * lb}, Reading{At: geom.Vec{0, -1, 0}, Reads: 836 * lb})})
	require.NoError(t, err)
	s := out.Shown[0]
	const name = "aeroplane on a nose wheel and two main wheels"
	page := inprint.Of(t, "takeoff")
	page.Is(name, "weight", float64(s.Read)/lb)
	page.Is(name, "CG ahead of the main wheels", -s.ReadCG[0]/in)
	assert.Equal(t, [3]bool{true, true, false}, s.Known)
	assert.InDelta(t, -6.0/2006, s.ReadCG[1], 1e-6, "balance of the two, by hand")
}

// tilted is a weighing of two axles 3 m apart with the far one, at x = 3 m,
// raised by so many degrees.
func tilted(degrees float64, near, far units.Mass) Weighing {
	w := level("tilted", Reading{At: geom.Vec{0, -1, 0}, Reads: near / 2}, Reading{At: geom.Vec{0, 1, 0}, Reads: near / 2},
		Reading{At: geom.Vec{3, -1, 0}, Reads: far / 2}, Reading{At: geom.Vec{3, 1, 0}, Reads: far / 2})
	w.Up = geom.TurnAbout(1, units.Radians(degrees)).Mul3x1(geom.Vec{0, 0, 1})
	w.About[1] = 1
	return w
}

// TestCGHeightByTilting: of a body on two axles L apart, CG b from the near one
// and h above them, the far axle raised by θ carries R = W (b − h·tan θ)/L, so
// that
//
//	h = (b − L·R/W) cot θ
//
// Source: lecture notes on vehicle statics, "The height above ground of CG",
// equation 2 (openbooks.link, read); elementary statics, as derived here: the
// lever of W is b·cos θ − h·sin θ, that of R is L·cos θ.
func TestCGHeightByTilting(t *testing.T) {
	// W = 1000 kg, L = 3 m, b = 1.2 m, h = 0.8 m: level 400 kg on the far axle;
	// raised by 10°, tan = 0.176327: 1000 · (1.2 − 0.141062)/3 = 352.979 kg.
	even, raised := tilted(0, 600, 400), tilted(10, 647.0205, 352.9795)
	even.Name = "level"
	out, err := FoldIn(vague(), []Weighing{even, raised})
	require.NoError(t, err)
	require.Len(t, out.Shown, 1)
	assert.Equal(t, [3]bool{true, true, true}, out.Shown[0].Known)
	assert.Equal(t, []string{"level", "tilted"}, out.Shown[0].Of)
	near3(t, geom.Vec{1.2, 0, 0.8}, out.Shown[0].ReadCG, 1e-5, "from the cells")
	near3(t, geom.Vec{1.2, 0, 0.8}, out.CG, 1e-3, "with a take-off that says next to nothing")
	assert.InDelta(t, 1000, float64(out.Weight), 0.1)
	assert.False(t, out.Conflict, out.Text)

	// The tilt alone tells a line and no height.
	out, err = FoldIn(vague(), []Weighing{raised})
	require.NoError(t, err)
	assert.Equal(t, [3]bool{false, true, false}, out.Shown[0].Known)
	assert.Contains(t, out.Apart[1].What, "[0.98, 0.00, -0.17]")

	// How well: both far axles' readings off by 1 kg, of the two independent
	// errors of 1 kg on 4 cells: dh = L·cot θ·√(dR² + dR²)/W, dR the error of the
	// far axle's share, each weighing: derived here from the formula above.
	for _, w := range []*Weighing{&even, &raised} {
		for i := range w.Cells {
			w.Cells[i].Accuracy = units.Mass(math.Sqrt(3)) // sigma 1 kg
		}
	}
	out, err = FoldIn(vague(), []Weighing{even, raised})
	require.NoError(t, err)
	// A share s = R_far/W of 1 kg cells: σ² = 2·(1−s)² + 2·s² (kg²).
	s := func(s float64) float64 { return 2*(1-s)*(1-s) + 2*s*s }
	x := math.Sqrt(s(0.4)+s(0.353)) * 3 / 1000 / math.Tan(units.Radians(10))
	assert.InEpsilon(t, x, out.Shown[0].ReadCGSigma[2], 0.002)
}

// TestWhereTheTiltIsNotWellKnown: the plumb line through the cells' balance
// turns by the error τ of the tilt, and with it the CG by height · τ.
func TestWhereTheTiltIsNotWellKnown(t *testing.T) {
	sure := []item{{name: "one", cg: geom.Vec{1.2, 0, 0.8}, best: 1000, low: 999.9, high: 1000.1}}
	w := tilted(0, 600, 400)
	for i := range w.Cells {
		w.Cells[i].Accuracy = 1e-3
	}
	w.TiltAccuracy = 0.01 * math.Sqrt(3) // sigma 0.01 rad: 8 mm at 0.8 m
	out, err := FoldIn(sure, []Weighing{w})
	require.NoError(t, err)
	assert.InEpsilon(t, 0.008, out.Shown[0].ReadCGSigma[0], 1e-3, "along x, about y")
	assert.Less(t, out.Shown[0].ReadCGSigma[1], 1e-4, "along y")

	w.TiltAccuracy, w.Places = 0, 0.01*math.Sqrt(3)
	out, err = FoldIn(sure, []Weighing{w})
	require.NoError(t, err)
	// Σ (Rᵢσ/W)²: readings of 300, 300, 200, 200 of 1000 kg, σ 10 mm:
	// 10 mm · √(0.09 + 0.09 + 0.04 + 0.04) = 5.099 mm.
	assert.InDelta(t, 0.005099, out.Shown[0].ReadCGSigma[0], 1e-6)
	assert.InDelta(t, 0.005099, out.Shown[0].ReadCGSigma[1], 1e-6)
}

// TestOnePartOnOneCell: two values of one mass are joined in proportion to
// 1/σ². Take-off 1000 kg ± 10 %: σ² = 100²/3; cell 1060 kg ± 30: σ² = 300.
// (1000·0.0003 + 1060·0.0033333)/0.0036333 = 1055.05; σ = 1/√0.0036333 = 16.59.
// Limits to sigmas: JCGM 100:2008, 4.3.7 (from memory); the weighted mean is
// textbook.
func TestOnePartOnOneCell(t *testing.T) {
	out, err := FoldIn([]item{{name: "block", cg: geom.Vec{1, 2, 3}, best: 1000, low: 900, high: 1100}},
		[]Weighing{level("hook", Reading{Reads: 1060, Accuracy: 30})})
	require.NoError(t, err)
	assert.InDelta(t, 1055.05, float64(out.Weight), 0.01)
	assert.InDelta(t, 16.59, float64(out.WeightSigma), 0.01)
	near3(t, geom.Vec{1, 2, 3}, out.CG, 1e-12, "a single part stays in its place")
	require.Len(t, out.Parts, 1)
	assert.Equal(t, out.Weight, out.Parts[0].After)
	assert.False(t, out.Parts[0].Beyond)
	// 60 kg apart, of √(3333 + 300) = 60.3 kg.
	assert.InDelta(t, 60/60.277, out.Sigmas, 1e-4)
	assert.InDelta(t, 60, float64(out.Cells[0].Off), 1e-9)
}

// TestSpreadOfAMass holds the mean square about the best against a sum of many
// small steps.
func TestSpreadOfAMass(t *testing.T) {
	for _, i := range []item{{best: 10, low: 9, high: 11}, {best: 10, low: 10, high: 13}, {best: 10, low: 4, high: 11}} {
		const steps = 100_000
		var sum float64
		for k := range steps {
			x := i.low + (i.high-i.low)*(float64(k)+0.5)/steps - i.best
			sum += x * x / steps
		}
		assert.InEpsilon(t, sum, i.variance(), 1e-6, "%+v", i)
	}
	assert.Zero(t, item{best: 3, low: 3, high: 3}.variance())
}

// TestWhatWasNotOnIsLeftAlone: a part that was off keeps its mass, and only
// what stood on the cells is held against them.
func TestWhatWasNotOnIsLeftAlone(t *testing.T) {
	items := []item{
		{name: "frame", cg: geom.Vec{0, 0, 0}, best: 1000, low: 900, high: 1100},
		{name: "pump / motor", cg: geom.Vec{1, 0, 0}, best: 500, low: 450, high: 550},
		{name: "tank", cg: geom.Vec{2, 0, 0}, best: 100, low: 90, high: 110},
		{name: "tank contents", cg: geom.Vec{2, 0, 0}, best: 300, low: 270, high: 330},
	}
	w := level("hook", Reading{Reads: 1030})
	w.Without = []string{"pump", "tank"}
	out, err := FoldIn(items, []Weighing{w})
	require.NoError(t, err)
	assert.Equal(t, w.Without, out.Shown[0].Without)
	assert.InDelta(t, 1030, float64(out.Parts[0].After), 0.01)
	for k, want := range []units.Mass{500, 100, 300} {
		assert.InDelta(t, float64(want), float64(out.Parts[k+1].After), 1e-9, out.Parts[k+1].Name)
	}
	assert.InDelta(t, 1930, float64(out.Weight), 0.01, "the whole load: 1030 + 500 + 100 + 300")
	assert.False(t, out.Conflict)
}

// TestPieceByPiece: a load weighed in two pieces is the sum of both; each set
// of parts is shown by itself.
func TestPieceByPiece(t *testing.T) {
	items := []item{{name: "upper", cg: geom.Vec{0, 0, 4}, best: 1000, low: 700, high: 1300}, {name: "lower", cg: geom.Vec{0, 0, 1}, best: 2000, low: 1400, high: 2600}}
	a, b := level("upper on the hook", Reading{Reads: 1100, Accuracy: 1e-3}), level("lower on the hook", Reading{Reads: 2200, Accuracy: 1e-3})
	a.Without, b.Without = []string{"lower"}, []string{"upper"}
	out, err := FoldIn(items, []Weighing{a, b})
	require.NoError(t, err)
	require.Len(t, out.Shown, 2)
	assert.InDelta(t, 1100, float64(out.Shown[0].Read), 1e-9)
	assert.InDelta(t, 2200, float64(out.Shown[1].Read), 1e-9)
	assert.InDelta(t, 3300, float64(out.Weight), 1e-3)
	near3(t, geom.Vec{0, 0, 2}, out.CG, 1e-6, "(1100·4 + 2200·1)/3300")
}

func TestWeighingsThatCantBeUsed(t *testing.T) {
	one := []item{{name: "block", best: 1000, low: 900, high: 1100}}
	good := level("a", Reading{Reads: 1000})
	with := func(change func(*Weighing)) []Weighing {
		w := good
		w.Cells = append([]Reading(nil), good.Cells...)
		change(&w)
		return []Weighing{w}
	}
	tests := []struct {
		name      string
		items     []item
		weighings []Weighing
		want      string
	}{
		{"no parts", nil, []Weighing{good}, "no parts"},
		{"no weighings", one, nil, "no weighings"},
		{"no cells", one, with(func(w *Weighing) { w.Cells = nil }), "no cells"},
		{"no up", one, with(func(w *Weighing) { w.Up = geom.Vec{} }), "direction of length 1"},
		{"below zero", one, with(func(w *Weighing) { w.Cells[0].Reads = -3 }), "reads -3 kg"},
		{"no accuracy", one, with(func(w *Weighing) { w.Cells[0].Accuracy = 0 }), "accuracy above zero"},
		{"not a figure", one, with(func(w *Weighing) { w.Cells[0].Reads = units.Mass(math.NaN()) }), "reads NaN"},
		{"less than the tare", one, with(func(w *Weighing) { w.Tare = 1000 }), "nothing is left"},
		{"nothing on", one, with(func(w *Weighing) { w.Without = []string{"block"} }), "no part of the load was on"},
		{"unknown part", one, with(func(w *Weighing) { w.Without = []string{"crate"} }), `no part is called "crate"`},
		{"no tilt", one, with(func(w *Weighing) { w.TiltAccuracy = -1 }), "from zero up"},
		{"low above best", []item{{name: "block", best: 1000, low: 1100, high: 1200}}, []Weighing{good}, "low <= best <= high"},
		{"nowhere", []item{{name: "block", best: 1, low: 1, high: 1, cg: geom.Vec{math.Inf(1), 0, 0}}}, []Weighing{good}, "low <= best <= high"},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			_, err := FoldIn(tt.items, tt.weighings)
			require.ErrorContains(t, err, tt.want)
		})
	}
}

// A tilt that is written with the wrong sign puts the CG as far below the pivot as
// it is above: each weighing by itself agrees with a take-off that is wide of
// both, but with the level one the tilted one does not. 2000 kg with its CG at
// x 0.8, z 1.0, on axles at ±1 and tilted by +8° about y: by moments about the
// middle the far axle reads 2000·(1 + 0.8 ± 1.0·tan 8°)/2.
func TestTiltOfTheWrongSignIsAConflict(t *testing.T) {
	load := []item{{name: "a", cg: geom.Vec{0.8, 0, 1.0}, half: geom.Vec{0.3, 0.3, 0.3}, best: 2000, low: 1800, high: 2200}}
	axles := func(name string, up geom.Vec, x float64) Weighing {
		w := Weighing{Name: name, Up: up}
		for _, side := range []float64{-1, 1} {
			reads := units.Mass(2000 * (1 + side*x) / 2 / 2)
			for _, y := range []float64{-0.5, 0.5} {
				w.Cells = append(w.Cells, Reading{Name: fmt.Sprint(side, y), At: geom.Vec{side, y, 0}, Reads: reads, Accuracy: 2})
			}
		}
		return w
	}
	up := func(degrees float64) geom.Vec {
		return geom.TurnAbout(1, -units.Radians(degrees)).Mul3x1(geom.Vec{0, 0, 1})
	}
	// Up leans toward −x in the load's axes for a turn of +8° about y: what lies z
	// high weighs as if z·tan 8° further along +x.
	shift := 1.0 * math.Tan(units.Radians(8))
	for _, tt := range []struct {
		by       float64
		conflict bool
	}{{8, false}, {-8, true}} {
		out, err := FoldIn(load, []Weighing{axles("flat", up(0), 0.8), axles("tilted", up(tt.by), 0.8+shift)})
		require.NoError(t, err)
		assert.Equal(t, tt.conflict, out.Conflict, "%g°: %s", tt.by, out.Text)
		if tt.conflict {
			assert.Greater(t, out.Together, 3.0)
			assert.Contains(t, out.Text, "sign of a tilt")
		} else {
			assert.InDelta(t, 1.0, out.CG[2], 0.02)
		}
	}
}
