package density_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"plumbhook/density"
)

func TestPlateTolerancesAsPrinted(t *testing.T) {
	const seen, recalled = "EN 10029:1991 Table 1", "EN 10029:2010 Table 1 (from memory)"
	tests := []struct {
		class      string
		thickness  float64 // mm
		minus, sum float64 // mm, as printed: below and above
		source     string
	}{
		{"A", 4, -0.4, 0.8, seen}, {"A", 6, -0.4, 1.1, seen}, {"A", 10, -0.5, 1.2, seen}, {"A", 20, -0.6, 1.3, seen},
		{"A", 30, -0.8, 1.4, seen}, {"A", 50, -1.0, 1.8, seen}, {"A", 100, -1.0, 2.2, seen}, {"A", 200, -1.2, 2.4, seen},
		{"", 10, -0.5, 1.2, seen}, {"class C", 20, 0, 1.9, seen}, {"B", 20, -0.3, 1.6, "class A with minus 0.3"},
		{"A 2010", 4, -0.3, 0.7, recalled}, {"A 2010", 10, -0.5, 0.9, recalled}, {"a-2010", 100, -1.1, 2.1, recalled},
		{"A6", 12.7, -0.254, 0.762, "ASTM A6 Table 1: 0.03 in over, 0.01 in under"},
		{"A6", 38.1, -0.254, 1.524, "ASTM A6 Table 1: 0.06 in over"},
		// On the edge of two bands the wider side counts.
		{"A", 8, -0.5, 1.2, seen}, {"A", 40, -1.0, 1.8, seen}, {"A6", 19.05, -0.254, 1.524, "ASTM A6 Table 1"},
	}
	for _, tt := range tests {
		got, err := density.PlateTolerance(tt.thickness/1000, tt.class)
		require.NoError(t, err, "%q %g mm", tt.class, tt.thickness)
		assert.InDelta(t, tt.minus/tt.thickness, got.Low, 1e-9, "%q %g mm below (%s)", tt.class, tt.thickness, tt.source)
		assert.InDelta(t, tt.sum/tt.thickness, got.High, 1e-9, "%q %g mm above (%s)", tt.class, tt.thickness, tt.source)
		assert.NotEmpty(t, got.Source)
		assert.NotEmpty(t, got.Basis)
	}
}

// What the table does not cover is an error, not a guess.
func TestPlateToleranceRefuses(t *testing.T) {
	for _, mm := range []float64{-1, 0, 2, 251, math.NaN(), math.Inf(1)} {
		_, err := density.PlateTolerance(mm/1000, "A")
		var size *density.SizeError
		require.ErrorAs(t, err, &size, "%g mm", mm)
		assert.Contains(t, size.Error(), "no tolerance for a thickness")
		assert.Contains(t, size.Fix(), "from 3 to 250 mm")
	}
	_, err := density.PlateTolerance(0.01, "D")
	var unknown *density.UnknownError
	require.ErrorAs(t, err, &unknown)
	assert.Contains(t, unknown.Fix(), "A 2010")
}

func TestMassTolerancesAsPrinted(t *testing.T) {
	tests := []struct {
		section   string
		low, high float64 // %
		source    string
	}{
		{"HEA 200", -4, 4, "EN 10034:1993"}, {"IPE 80", -4, 4, "EN 10034:1993"},
		{"SHS 100x100x5 cold formed", -6, 6, "EN 10219-2:2006"}, {"SHS 100x100x5 hot finished", -6, 8, "EN 10210-2:2006, seamless"},
		{"CHS 168.3x5.6", -6, 8, "EN 10210-2:2006, seamless, the widest of the standards"},
		{"L 40x40x4", -6, 6, "EN 10056-2 (from memory)"}, {"L 100x100x10", -4, 4, "EN 10056-2 (from memory)"},
		{"UPN 120", -6, 6, "EN 10279 (from memory)"}, {"UPE 200", -4, 4, "EN 10279 (from memory)"},
		{"W12x26", -2.5, 2.5, "ASTM A6 (from memory)"}, {"L4x4x1/4", -2.5, 2.5, "ASTM A6 (from memory)"},
		{"HSS4x4x1/4", -10, 10, "ASTM A500 (from memory)"}, {"NPS 6 sch 40", -10, 10, "ASTM A53 (from memory)"},
		{"NPS 6 sch 10S", -12.5, 12.5, "EN 10216-1, ASTM A530 (from memory)"},
	}
	for _, tt := range tests {
		s, err := density.FindSection(tt.section)
		require.NoError(t, err, tt.section)
		got, ok := s.MassTolerance()
		require.True(t, ok, tt.section)
		assert.InDelta(t, tt.low/100, got.Low, 1e-12, "%s (%s)", tt.section, tt.source)
		assert.InDelta(t, tt.high/100, got.High, 1e-12, "%s (%s)", tt.section, tt.source)
	}
	for _, name := range []string{"round 20", "flat 4 x 1/2 in", "T 50"} {
		s, err := density.FindSection(name)
		require.NoError(t, err, name)
		_, ok := s.MassTolerance()
		assert.False(t, ok, name)
	}
}

func TestProductsAreOneSided(t *testing.T) {
	p, err := density.FindProduct("en 10029 class a")
	require.NoError(t, err)
	assert.Equal(t, "thickness", p.By)
	// Rolled plate runs thick: the reason that the two sides are kept apart.
	rapid.Check(t, func(t *rapid.T) {
		thickness := rapid.Float64Range(0.003, 0.25).Draw(t, "m")
		got, err := p.Tolerance(thickness)
		if err != nil || got.High <= -got.Low || got.Low < -0.14 || got.High > 0.27 {
			t.Fatalf("%g m: %+v (%v)", thickness, got, err)
		}
	})
	_, err = density.FindProduct("chanels")
	var unknown *density.UnknownError
	require.ErrorAs(t, err, &unknown)
	assert.Equal(t, []string{"channels"}, unknown.Near)
	assert.Equal(t, `unknown product form "chanels"`, unknown.Error())
	assert.Contains(t, unknown.Fix(), "tolerance: 5 %")
}

// A caller cannot change the table.
func TestProductsAreCopies(t *testing.T) {
	density.Products()[0].Bands[0].High = 99
	p, err := density.FindProduct("I and H sections")
	require.NoError(t, err)
	assert.Equal(t, 4.0, p.Bands[0].High)
	p.Synonyms[0] = "spoilt"
	assert.NotContains(t, density.Products()[0].Synonyms, "spoilt")
}
