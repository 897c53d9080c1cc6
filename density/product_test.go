package density_test

import (
	"math"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"plumbhook/density"
	"plumbhook/testdata/published/inprint"
)

// Each item is the class and the thickness in mm. On the edge of two bands (8, 40 and
// 19.05 mm) the wider side counts.
func TestPublishedPlateTolerances(t *testing.T) {
	page := inprint.Of(t, "density")
	for _, item := range page.Items() {
		class, text, _ := strings.Cut(item, ", ")
		thickness, err := strconv.ParseFloat(text, 64)
		require.NoError(t, err, item)
		if class == "no class named" {
			class = ""
		}
		got, err := density.PlateTolerance(thickness/1000, class)
		require.NoError(t, err, item)
		page.Is(item, "below", got.Low*thickness)
		page.Is(item, "above", got.High*thickness)
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

func TestPublishedMassTolerances(t *testing.T) {
	page := inprint.Of(t, "density")
	for _, name := range page.Items() {
		got, ok := section(t, name).MassTolerance()
		require.True(t, ok, name)
		page.Is(name, "below", 100*got.Low)
		page.Is(name, "above", 100*got.High)
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
