package sling

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"plumbhook/testdata/published/inprint"
	"plumbhook/units"
)

func inches(x float64) units.Length       { return units.Length(x * 0.0254) }
func ksi(x float64) units.Strength        { return units.Strength(x) * units.KSI }
func kips(f units.Force) float64          { return float64(f) / 4448.2216152605 }
func millis(x float64) units.Length       { return units.Length(x / 1000) }
func megapascal(x float64) units.Strength { return units.Strength(x * 1e6) }

// Public calculation sheets that name ASME BTH-1 and print inputs and results, in
// inches, ksi and kips. Sheet 1 (edition of 2005): t 0.75, a 3.3125, Dp 1.375, b 1.66,
// Dh 1.6875, R 4.15625, round edge, Fy 36, Fu 58, Nd 2: Cr 0.841, φ 44.815°, Z' 0.028,
// Av 5.23; Pt 49.30, Pb 68.76, Pv 88.41, Pp 23.20. Its width is 2 × 1.66 + 1.6875
// rounded: half of it is less than its R, so the edge here is rounder, Z' 0.0468, and
// Pv (by hand) 16.917 × 1.5 × (3.3125 + 0.19977 − 0.0468) = 87.9. Sheet 2 (2014):
// t 0.75, b 1.0625, R 1.5, Dp 0.75, Dh 0.875, Fy 36, Fu 58, Nd 3: Cr 0.8583533, beff
// 0.9321, φ 47.142857°; Pt 19.3343, Pb 17.0312, Fp 15 ksi. (Its Pv does not follow
// from the formula that it prints, and is not used.)
func TestPublishedLugs(t *testing.T) {
	page := inprint.Of(t, "sling")
	one := LugPlate{Hole: inches(1.6875), Pin: inches(1.375), Thickness: inches(0.75), Width: inches(2*1.66 + 1.6875),
		Edge: inches(4.15625), Yield: ksi(36), Tensile: ksi(58), Category: "A"}
	o, err := one.Outline()
	require.NoError(t, err)
	page.Is("sheet 1", "clearance factor Cr", o.Clearance)
	page.Is("sheet 1", "tension across the hole Pt", kips(o.Limits[0].Allowed))
	page.Is("sheet 1", "fracture beyond the hole Pb", kips(o.Limits[1].Allowed))
	assert.InEpsilon(t, 87.9, kips(o.Limits[2].Allowed), 1e-3)
	assert.LessOrEqual(t, kips(o.Limits[2].Allowed), 88.41)
	page.Is("sheet 1", "bearing Pp", kips(o.Limits[3].Allowed))
	assert.Equal(t, "bearing of the pin", o.Least().Name)

	two := LugPlate{Hole: inches(0.875), Pin: inches(0.75), Thickness: inches(0.75), Width: inches(3),
		Edge: inches(1.5), Yield: ksi(36), Tensile: ksi(58), Category: "B"}
	o, err = two.Outline()
	require.NoError(t, err)
	page.Is("sheet 2", "clearance factor Cr", o.Clearance)
	page.Is("sheet 2", "tension across the hole Pt", kips(o.Limits[0].Allowed))
	page.Is("sheet 2", "fracture beyond the hole Pb", kips(o.Limits[1].Allowed))
	page.Is("sheet 2", "bearing stress Fp", kips(o.Limits[3].Allowed)/(0.75*0.75))
}

// A lug of 25 mm S355 by hand: hole 42, pin 38, width 120, edge 60, Fy 345, Fu 470,
// category B. Cr = 1 − 0.275 √(1 − 38²/42²) = 0.88287; b = 39, 0.6·39·(470/345)·√(42/39)
// = 33.081 is the least of 39, 100 and it; Fu/3.6 = 130.556 N/mm²: Pt = 0.88287 ×
// 130.556 × 50 × 33.081 = 190.65 kN. Pb: 1.13 × 39 + 0.92 × 39/(1 + 39/42) = 62.674;
// × 25 × 130.556 × 0.88287 = 180.60 kN. Derived here from the same formulas.
func TestALugByHand(t *testing.T) {
	o, err := LugPlate{Hole: millis(42), Pin: millis(38), Thickness: millis(25), Width: millis(120), Edge: millis(60),
		Yield: megapascal(345), Tensile: megapascal(470), Category: "B"}.Outline()
	require.NoError(t, err)
	assert.InEpsilon(t, 190650, float64(o.Limits[0].Allowed), 2e-4)
	assert.InEpsilon(t, 180600, float64(o.Limits[1].Allowed), 2e-4)
}

// A thicker, wider, longer or stronger plate never carries less, and a category B
// lug two thirds of a category A one.
func TestMoreLugNeverCarriesLess(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		hole := rapid.Float64Range(10, 120).Draw(t, "hole")
		l := LugPlate{Hole: millis(hole), Pin: millis(hole * rapid.Float64Range(0.5, 1).Draw(t, "pin")), Thickness: millis(rapid.Float64Range(5, 80).Draw(t, "t")),
			Width: millis(hole * rapid.Float64Range(1.2, 5).Draw(t, "w")), Edge: millis(hole * rapid.Float64Range(0.6, 4).Draw(t, "e")),
			Yield: megapascal(rapid.Float64Range(100, 600).Draw(t, "fy")), Category: "A"}
		l.Tensile = l.Yield * units.Strength(rapid.Float64Range(1, 2).Draw(t, "fu"))
		o, err := l.Outline()
		require.NoError(t, err)
		least := float64(o.Least().Allowed)
		require.True(t, least > 0 && !math.IsInf(least, 0))
		more := l
		more.Thickness *= units.Length(rapid.Float64Range(1, 3).Draw(t, "thicker"))
		more.Edge *= units.Length(rapid.Float64Range(1, 3).Draw(t, "longer"))
		p, err := more.Outline()
		require.NoError(t, err)
		require.GreaterOrEqual(t, float64(p.Least().Allowed), least*(1-1e-12))
		l.Category = "B"
		q, err := l.Outline()
		require.NoError(t, err)
		require.InEpsilon(t, least*2/3, float64(q.Least().Allowed), 1e-9)
	})
}

func TestLugsThatAreNone(t *testing.T) {
	good := LugPlate{Hole: millis(42), Pin: millis(38), Thickness: millis(25), Width: millis(120), Edge: millis(60), Yield: megapascal(345), Tensile: megapascal(470), Category: "B"}
	for _, c := range []struct {
		why   string
		spoil func(*LugPlate)
	}{
		{"does not go through", func(l *LugPlate) { l.Pin = millis(43) }},
		{"want A or B", func(l *LugPlate) { l.Category = "C" }},
		{"nothing is left", func(l *LugPlate) { l.Width = millis(42) }},
		{"nothing is left", func(l *LugPlate) { l.Edge = millis(21) }},
		{"tensile no less", func(l *LugPlate) { l.Tensile = megapascal(300) }},
		{"thickness of the lug NaN", func(l *LugPlate) { l.Thickness = units.Length(math.NaN()) }},
		{"pin of the lug 0", func(l *LugPlate) { l.Pin = 0 }},
	} {
		l := good
		c.spoil(&l)
		_, err := l.Outline()
		assert.ErrorContains(t, err, c.why)
	}
}
