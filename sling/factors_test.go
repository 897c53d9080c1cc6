package sling

import (
	"fmt"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// TestHitchFactors. Sources: ASME B30.9 and EN 818-4, EN 13414-1, EN 1492 (from
// memory); wire rope choker under US is the ratio of printed columns (computed).
func TestHitchFactors(t *testing.T) {
	for _, f := range tables(t).families {
		l := newLift(one(f.rules, kilograms(1)), tables(t))
		choke := 0.80
		switch {
		case f.rules == US && (f.family == "wire_rope" || f.family == "synthetic_rope"):
			choke = 0.75
		case f.rules == US && f.family == "metal_mesh":
			choke = 1 // 29 CFR 1910.184 Table N-184-15 prints one figure for vertical and choker (from memory)
		}
		assert.Equal(t, 1.0, l.hitch(f, vertical).value, "%s %s vertical", f.rules, f.family)
		assert.Equal(t, choke, l.hitch(f, choker).value, "%s %s choker", f.rules, f.family)
		assert.Equal(t, 2.0, l.hitch(f, basket).value, "%s %s basket", f.rules, f.family)
	}
}

// TestPrintedHitchColumns holds printed choker and basket ratings against the
// factor: two figures in wire rope tables, the hundred in textile tables.
//
// Source: ASME B30.9, WSTDA WS-1 and RS-1 (from memory).
func TestPrintedHitchColumns(t *testing.T) {
	for _, p := range []struct {
		family, size, unit        string
		choker, basket, tolerance float64
	}{
		{"wire_rope", "1/2 in", "short ton", 1.9, 5.1, 0.1},
		{"wire_rope", "3/4 in", "short ton", 4.1, 11, 0.2},
		{"wire_rope", "1 in", "short ton", 7.2, 20, 0.5},
		{"wire_rope", "2 in", "short ton", 28, 73, 1},
		{"synthetic_web", "class 5, 1 ply, 2 in", "lb", 1760, 4400, 1},
		{"synthetic_web", "class 7, 2 ply, 4 in", "lb", 8800, 22000, 50},
		{"synthetic_web", "class 7, 1 ply, 3 in", "lb", 3800, 9400, 50},
		{"round_sling", "size 2", "lb", 4200, 10600, 50},
		{"round_sling", "size 13", "lb", 72000, 180000, 50},
	} {
		r := row(t, US, p.family, map[string]string{"wire_rope": eips}[p.family], p.size)
		factor := map[string]float64{"wire_rope": 0.75}[p.family]
		if factor == 0 {
			factor = 0.80
		}
		assert.InDelta(t, p.choker, in(t, r.printed[choker], p.unit), 1e-9, p.size)
		assert.InDelta(t, p.basket, in(t, r.printed[basket], p.unit), 1e-9, p.size)
		assert.InDelta(t, p.choker, factor*in(t, r.vertical, p.unit), p.tolerance, "%s choker", p.size)
		assert.InDelta(t, p.basket, 2*in(t, r.vertical, p.unit), p.tolerance, "%s basket", p.size)
	}
}

// TestBendFactors. Source: 0027/ND Guidelines for marine lifting Rev 11, 7.8
// (read): bending factor 1/E by D/d, printed to two decimals.
func TestBendFactors(t *testing.T) {
	rope := row(t, EN, "wire_rope", "steel core, steel ferrule", "20 mm")
	l := newLift(one(EN, kilograms(1000)), tables(t))
	f := l.book.under(EN)[2]
	require.Equal(t, "wire_rope", f.family)
	for ratio, want := range map[float64]float64{1: 2.00, 1.5: 1.69, 2: 1.55, 3: 1.41, 4: 1.33, 5: 1.29, 6: 1.26, 7: 1.23} {
		b := l.bearing(f, demand{hitch: basket, contact: ratio * 0.020}, rope)
		require.Empty(t, b.barred)
		// The factor is E over the end's efficiency, 0.9 (EN 13414-1, as
		// reprinted), which the printed rating contains already.
		assert.InDelta(t, want, 1/(b.value*0.9), 0.005, "D/d %g", ratio)
	}
	b := l.bearing(f, demand{hitch: basket, contact: 0.0199}, rope)
	assert.NotEmpty(t, b.barred, "the body must never bend round less than its own diameter (same source)")
	b = l.bearing(f, demand{hitch: basket, contact: 2}, rope)
	assert.Equal(t, 1.0, b.value, "E = 0.95 at D/d 100 is above the end's 0.9, so that nothing more is lost")
	assert.Equal(t, 1.0, l.bearing(f, demand{hitch: vertical, contact: 0.02}, rope).value, "a pin in an eye does not bend the body")
}

// TestChainBends. Sources: ASME B30.9 by D/d for baskets (from memory); EN 818-6
// by R/d (above 2 as reprinted, else from memory).
func TestChainBends(t *testing.T) {
	chain := row(t, US, "alloy_chain", "grade 80", "3/8 in") // 10 mm
	us := newLift(one(US, kilograms(1000)), tables(t))
	for mm, want := range map[float64]float64{20: 0.6, 29: 0.6, 30: 0.7, 40: 0.8, 50: 0.9, 59.9: 0.9, 60: 1, 500: 1} {
		assert.Equal(t, want, us.bearing(us.book.under(US)[0], demand{hitch: basket, contact: mm / 1000}, chain).value, "D/d %g", mm/10)
	}
	assert.NotEmpty(t, us.bearing(us.book.under(US)[0], demand{hitch: basket, contact: 0.0199}, chain).barred)
	for mm, want := range map[float64]float64{0: 0.5, 5: 0.5, 10: 0.5, 10.1: 0.7, 20: 0.7, 20.1: 1, 100: 1} {
		need := one(EN, kilograms(1000))
		r := mm / 1000
		need.Surroundings.EdgeRadius, need.Surroundings.EdgesNone = &r, false
		en := newLift(need, tables(t))
		assert.Equal(t, want, en.bearing(en.book.under(EN)[0], demand{hitch: vertical}, chain).value, "edge R/d %g", mm/10)
	}
}

// TestTemperatureRows. Sources: ASME B30.9 Table 9-1.8.1-1 (as reprinted; between
// rows the next higher temperature counts), EN 818-4 grade 8 (as reprinted), EN
// 13414-1 (from memory).
func TestTemperatureRows(t *testing.T) {
	type point struct{ at, want float64 } // want 0: not allowed
	for _, table := range []struct {
		rules            Rules
		family, material string
		scale            string
		points           []point
	}{
		{US, "alloy_chain", "grade 80", "F", []point{{-40, 0}, {-39, 1}, {399, 1}, {400, 0.90}, {401, 0.85}, {500, 0.85}, {600, 0.80}, {700, 0.70},
			{800, 0.60}, {900, 0.50}, {901, 0.40}, {1000, 0.40}, {1001, 0}}},
		{US, "alloy_chain", "grade 100", "F", []point{{-40, 0}, {-39, 1}, {399, 1}, {400, 0.85}, {500, 0.75}, {600, 0.70}, {700, 0.60},
			{800, 0.50}, {900, 0.40}, {1000, 0.30}, {1001, 0}}},
		{US, "wire_rope", "EIPS IWRC, mechanical splice", "F", []point{{-41, 0}, {-40, 1}, {400, 1}, {401, 0}}},
		{EN, "alloy_chain", "grade 8", "C", []point{{-41, 0}, {-40, 1}, {200, 1}, {200.1, 0.90}, {300, 0.90}, {301, 0.75}, {400, 0.75}, {401, 0}}},
		{EN, "wire_rope", "steel core, steel ferrule", "C", []point{{150, 1}, {151, 0.90}, {200, 0.90}, {300, 0.75}, {400, 0.65}, {401, 0}}},
		{EN, "wire_rope", "steel core, aluminium ferrule", "C", []point{{150, 1}, {151, 0}}},
	} {
		for _, p := range table.points {
			need := one(table.rules, kilograms(100))
			need.Surroundings.Temperature = celsius(p.at)
			if table.scale == "F" {
				need.Surroundings.Temperature = fahrenheit(p.at)
			}
			a, err := Choose(need)
			require.NoError(t, err)
			v := find(a, table.family, table.material)
			at := fmt.Sprintf("%s %s %s at %g %s: %v", table.rules, table.family, table.material, p.at, table.scale, v.Reasons)
			if p.want == 0 {
				assert.Equal(t, No, v.Use, at)
				assert.Nil(t, v.Choice, at)
				continue
			}
			require.NotEmpty(t, v.Factors, at)
			assert.Equal(t, p.want, v.Factors[0].Value, at)
			assert.Equal(t, p.want == 1, v.Use == Yes, at)
		}
	}
}

// TestModeFactors. Sources: EN 818-4, EN 13414-1 (as reprinted), EN 1492 (from
// memory). They are 2 or 3 over the load-angle factor of the flattest angle (OSHA
// Guidance on Safe Sling Use: 1.414 at 45°, 2.000 at 30° from horizontal), cut to
// one decimal.
func TestModeFactors(t *testing.T) {
	for _, f := range tables(t).under(EN) {
		for _, p := range []struct {
			when  string
			angle float64 // from vertical
			want  float64
			legs  float64
			print float64
		}{
			{"two_leg", 0, 1.4, 2, 1.414}, {"two_leg", 45, 1.4, 2, 1.414}, {"two_leg", 45.01, 1.0, 2, 2}, {"two_leg", 60, 1.0, 2, 2},
			{"three_four_leg", 30, 2.1, 3, 1.414}, {"three_four_leg", 45, 2.1, 3, 1.414}, {"three_four_leg", 60, 1.5, 3, 2},
		} {
			r, ok := tables(t).at(f, "mode", p.when, p.angle)
			require.True(t, ok, "%s %s %g°", f.family, p.when, p.angle)
			assert.Equal(t, p.want, r.value, "%s %s %g°", f.family, p.when, p.angle)
			assert.InDelta(t, p.legs/p.print, r.value, 0.05, "%s %s %g°", f.family, p.when, p.angle)
		}
		_, ok := tables(t).at(f, "mode", "two_leg", 60.01)
		assert.False(t, ok, "never above 60° from vertical")
	}
}
