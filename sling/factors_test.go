package sling

import (
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"plumbhook/testdata/published/inprint"
	"plumbhook/units"
)

// TestPublishedHitchFactors: every family has a row for its choker and its basket.
func TestPublishedHitchFactors(t *testing.T) {
	page := inprint.Of(t, "sling")
	for _, f := range tables(t).families {
		l, item := newLift(one(f.rules, kilograms(1)), tables(t)), string(f.rules)+"; "+f.family
		page.Is(item, "choker", l.hitch(f, choker).value)
		page.Is(item, "basket", l.hitch(f, basket).value)
		assert.Equal(t, 1.0, l.hitch(f, vertical).value, item)
	}
}

// TestPublishedHitchColumns holds printed choker and basket ratings against the
// factor: two figures in wire rope tables, the hundred in textile tables. The tables
// have the printed figure itself.
func TestPublishedHitchColumns(t *testing.T) {
	page := inprint.Of(t, "sling")
	for _, v := range page.Rows() {
		r := ofRow(t, v.Item)
		factor := map[string]float64{choker: 0.80, basket: 2}[v.Quantity]
		if v.Quantity == choker && strings.Contains(v.Item, "wire_rope") {
			factor = 0.75
		}
		page.Is(v.Item, v.Quantity, factor*in(t, r.vertical, v.Unit))
		assert.InDelta(t, v.Printed, in(t, r.printed[v.Quantity], v.Unit), 1e-9, "%s %s", v.Item, v.Quantity)
	}
}

// lastNumber is the number at the end of an item, such as that of "wire rope, D/d 1.5".
func lastNumber(t *testing.T, item string) float64 {
	t.Helper()
	x, err := strconv.ParseFloat(item[strings.LastIndex(item, " ")+1:], 64)
	require.NoError(t, err, item)
	return x
}

// TestPublishedBendFactors: bending factor 1/E by D/d, printed to two decimals.
func TestPublishedBendFactors(t *testing.T) {
	rope := row(t, EN, "wire_rope", "steel core, steel ferrule", "20 mm")
	l := newLift(one(EN, kilograms(1000)), tables(t))
	f := l.book.under(EN)[2]
	require.Equal(t, "wire_rope", f.family)
	page := inprint.Of(t, "sling")
	for _, v := range page.Rows() {
		b := l.bearing(f, demand{hitch: basket, contact: lastNumber(t, v.Item) * 0.020}, rope)
		require.Empty(t, b.barred)
		// The factor is E over the end's efficiency, 0.9 (EN 13414-1, as
		// reprinted), which the printed rating contains already.
		page.Is(v.Item, v.Quantity, 1/(b.value*0.9))
	}
	b := l.bearing(f, demand{hitch: basket, contact: 0.0199}, rope)
	assert.NotEmpty(t, b.barred, "the body must never bend round less than its own diameter (same source)")
	b = l.bearing(f, demand{hitch: basket, contact: 2}, rope)
	assert.Equal(t, 1.0, b.value, "E = 0.95 at D/d 100 is above the end's 0.9, so that nothing more is lost")
	assert.Equal(t, 1.0, l.bearing(f, demand{hitch: vertical, contact: 0.02}, rope).value, "a pin in an eye does not bend the body")
}

// TestPublishedChainBends: by D/d for baskets under US, by R/d of an edge under EN.
func TestPublishedChainBends(t *testing.T) {
	chain := row(t, US, "alloy_chain", "grade 80", "3/8 in") // 10 mm
	us := newLift(one(US, kilograms(1000)), tables(t))
	page := inprint.Of(t, "sling")
	for _, v := range page.Rows() {
		r := lastNumber(t, v.Item) * 0.010
		if strings.HasPrefix(v.Item, "US") {
			page.Is(v.Item, v.Quantity, us.bearing(us.book.under(US)[0], demand{hitch: basket, contact: r}, chain).value)
			continue
		}
		need := one(EN, kilograms(1000))
		need.Surroundings.EdgeRadius, need.Surroundings.EdgesNone = &r, false
		en := newLift(need, tables(t))
		page.Is(v.Item, v.Quantity, en.bearing(en.book.under(EN)[0], demand{hitch: vertical}, chain).value)
	}
	assert.NotEmpty(t, us.bearing(us.book.under(US)[0], demand{hitch: basket, contact: 0.0199}, chain).barred)
}

// TestPublishedTemperatureFactors: 0 is not allowed. The items end in the temperature.
func TestPublishedTemperatureFactors(t *testing.T) {
	page := inprint.Of(t, "sling")
	for _, v := range page.Rows() {
		words := strings.Split(v.Item, "; ")
		rules, family, material, at := Rules(words[0]), words[1], words[2], words[3]
		need := one(rules, kilograms(100))
		c, err := units.ParseTemperature(at)
		require.NoError(t, err, v.Item)
		need.Surroundings.Temperature = celsius(float64(c))
		a, err := Choose(need)
		require.NoError(t, err)
		f := find(a, family, material)
		if v.Printed == 0 {
			page.Is(v.Item, v.Quantity, 0)
			assert.Equal(t, No, f.Use, "%s: %v", v.Item, f.Reasons)
			assert.Nil(t, f.Choice, v.Item)
			continue
		}
		require.NotEmpty(t, f.Factors, "%s: %v", v.Item, f.Reasons)
		page.Is(v.Item, v.Quantity, f.Factors[0].Value)
		assert.Equal(t, v.Printed == 1, f.Use == Yes, "%s: %v", v.Item, f.Reasons)
	}
}

// TestPublishedModeFactors holds them to the prints, and to what they are: 2 or 3 over
// the load-angle factor of the flattest angle (OSHA Guidance on Safe Sling Use: 1.414
// at 45°, 2.000 at 30° from horizontal), cut to one decimal.
func TestPublishedModeFactors(t *testing.T) {
	page := inprint.Of(t, "sling")
	for _, v := range page.Rows() {
		words := strings.Split(v.Item, "; ")
		text, _, _ := strings.Cut(words[2], "°")
		angle, err := strconv.ParseFloat(text, 64)
		require.NoError(t, err, v.Item)
		legs, flattest := map[string]float64{"two_leg": 2, "three_four_leg": 3}[words[1]], 1.414
		if angle > 45 {
			flattest = 2
		}
		for _, f := range tables(t).under(EN) {
			if f.family != words[0] {
				continue
			}
			r, ok := tables(t).at(f, "mode", words[1], angle)
			require.True(t, ok, "%s %s", f.material, v.Item)
			page.Is(v.Item, v.Quantity, r.value)
			assert.InDelta(t, legs/flattest, r.value, 0.05, v.Item)
		}
	}
	for _, f := range tables(t).under(EN) {
		_, ok := tables(t).at(f, "mode", "two_leg", 60.01)
		assert.False(t, ok, "never above 60° from vertical")
	}
}
