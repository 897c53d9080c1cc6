package sling

import (
	"math"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"plumbhook/units"
)

// drawNeed draws a lift that can be answered, of every rule set and hitch.
func drawNeed(t *rapid.T) Need {
	n := Need{Rules: rapid.SampledFrom([]Rules{US, EN}).Draw(t, "rules"), Surroundings: kind()}
	legs := rapid.IntRange(1, 5).Draw(t, "legs")
	hitch := rapid.SampledFrom([]string{vertical, choker, basket, ""}).Draw(t, "hitch")
	contact := rapid.SampledFrom([]float64{0, 0.01, 0.03, 0.1, 1}).Draw(t, "contact")
	for i := range legs {
		n.Legs = append(n.Legs, Leg{Name: string(rune('A' + i)), Tension: units.Force(rapid.Float64Range(1, 4e5).Draw(t, "tension")),
			Angle: degrees(rapid.Float64Range(20, 90).Draw(t, "angle")), Length: rapid.Float64Range(0, 20).Draw(t, "length"), Hitch: hitch, Contact: contact})
	}
	n.Weight = units.Force(rapid.Float64Range(1, 1e6).Draw(t, "weight"))
	n.Dynamic = rapid.SampledFrom([]float64{0, 1, 1.1, 1.5}).Draw(t, "dynamic")
	if rapid.Bool().Draw(t, "temperature stated") {
		n.Surroundings.Temperature = celsius(rapid.Float64Range(-60, 600).Draw(t, "temperature"))
	}
	if rapid.Bool().Draw(t, "edges") {
		r := rapid.Float64Range(0, 0.1).Draw(t, "radius")
		n.Surroundings.EdgeRadius, n.Surroundings.EdgesNone = &r, false
	}
	return n
}

// TestMoreLoadNeverASmallerSling scales all tensions and the weight up.
func TestMoreLoadNeverASmallerSling(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		light := drawNeed(t)
		by := rapid.Float64Range(1, 4).Draw(t, "by")
		heavy := light
		heavy.Legs = append([]Leg(nil), light.Legs...)
		for i := range heavy.Legs {
			heavy.Legs[i].Tension *= units.Force(by)
		}
		heavy.Weight *= units.Force(by)
		a, err := Choose(light)
		require.NoError(t, err)
		b, err := Choose(heavy)
		require.NoError(t, err)
		for i, v := range b.Families {
			if v.Choice == nil {
				continue
			}
			require.NotNil(t, a.Families[i].Choice, "%s %s holds the heavier load", v.Family, v.Material)
			require.LessOrEqual(t, a.Families[i].Choice.Rated, v.Choice.Rated, "%s %s", v.Family, v.Material)
		}
	})
}

// TestChosenSizeHolds checks every choice by the sentence it must satisfy,
// worked out here from the answer alone: tension × dynamic ≤ rated × hitch × the
// listed factors, and under EN load × dynamic ≤ rated × mode × the same.
func TestChosenSizeHolds(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		n := drawNeed(t)
		a, err := Choose(n)
		require.NoError(t, err)
		for _, v := range a.Families {
			if v.Choice == nil {
				continue
			}
			hitch, mode, rest := 1.0, 0.0, 1.0
			for _, f := range a.Factors {
				if strings.HasPrefix(f.Name, "hitch") {
					hitch = f.Value
				}
				if strings.HasPrefix(f.Name, "mode") {
					mode = f.Value
				}
			}
			for _, f := range v.Factors {
				if strings.HasPrefix(f.Name, "hitch") {
					hitch = f.Value
				} else {
					rest *= f.Value
				}
			}
			holds := float64(v.Choice.Rated) * rest * units.Gravity * (1 + 1e-8)
			for _, leg := range n.Legs {
				require.LessOrEqual(t, float64(leg.Tension)*max(1, n.Dynamic), holds*hitch, "%s %s %s", v.Family, v.Material, v.Choice.Size)
			}
			if mode > 0 {
				choke := min(hitch, 1)
				require.LessOrEqual(t, float64(n.Weight)*max(1, n.Dynamic), holds*choke*mode, "set of %s %s %s", v.Family, v.Material, v.Choice.Size)
			}
			require.LessOrEqual(t, v.Choice.Utilisation, 1.0)
		}
	})
}

// TestChosenSizePassesFedBack: loaded until the chosen size is used to the full,
// the same size is chosen.
func TestChosenSizePassesFedBack(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		n := drawNeed(t)
		a, err := Choose(n)
		require.NoError(t, err)
		i := rapid.IntRange(0, len(a.Families)-1).Draw(t, "family")
		c := a.Families[i].Choice
		if c == nil || c.Utilisation < 1e-3 {
			t.Skip("no size")
		}
		for k := range n.Legs {
			n.Legs[k].Tension /= units.Force(c.Utilisation)
		}
		n.Weight /= units.Force(c.Utilisation)
		b, err := Choose(n)
		require.NoError(t, err)
		require.NotNil(t, b.Families[i].Choice)
		require.Equal(t, c.Rated, b.Families[i].Choice.Rated)
		require.InDelta(t, 1, b.Families[i].Choice.Utilisation, 1e-8)
	})
}

// TestHotterIsNeverBetter: above room temperature a family's rating only falls.
func TestHotterIsNeverBetter(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		n := drawNeed(t)
		cool := rapid.Float64Range(20, 600).Draw(t, "cool")
		n.Surroundings.Temperature = celsius(cool)
		a, err := Choose(n)
		require.NoError(t, err)
		n.Surroundings.Temperature = celsius(cool + rapid.Float64Range(0, 200).Draw(t, "hotter by"))
		b, err := Choose(n)
		require.NoError(t, err)
		for i, v := range b.Families {
			if v.Choice != nil {
				require.NotNil(t, a.Families[i].Choice)
				require.LessOrEqual(t, a.Families[i].Choice.Rated, v.Choice.Rated)
			}
		}
	})
}

// TestAnswerIsAlwaysWhole: whatever goes in, there is an error or an answer of
// finite numbers in which every factor and choice has a source and a basis.
func TestAnswerIsAlwaysWhole(t *testing.T) {
	odd := rapid.SampledFrom([]float64{0, -1, 1, 1e-300, 1e300, math.NaN(), math.Inf(1), 0.5, 3e4})
	rapid.Check(t, func(t *rapid.T) {
		n := drawNeed(t)
		n.Surroundings.Chemicals = rapid.SliceOf(rapid.SampledFrom([]string{"none", "acid", "lye", "", "treacle"})).Draw(t, "chemicals")
		n.Surroundings.Surface = rapid.SampledFrom([]string{"", "finished", "rough", "velvet"}).Draw(t, "surface")
		if rapid.Bool().Draw(t, "spoil") {
			n.Legs[0].Tension, n.Legs[0].Contact = units.Force(odd.Draw(t, "tension")), odd.Draw(t, "contact")
			n.Legs[0].Angle, n.Weight = units.FromHorizontal(odd.Draw(t, "angle")), units.Force(odd.Draw(t, "weight"))
			n.Dynamic = odd.Draw(t, "dynamic")
		}
		a, err := Choose(n)
		if err != nil {
			return
		}
		require.Len(t, a.Required, len(n.Legs))
		for name, m := range a.Required {
			require.True(t, within(float64(m), 0, 1e12), "%s %g", name, float64(m))
			require.LessOrEqual(t, m, a.RequiredMass*(1+1e-12))
		}
		factors := a.Factors
		for _, v := range a.Families {
			factors = append(factors, v.Factors...)
			require.NotEmpty(t, v.Reasons)
			if c := v.Choice; c != nil {
				require.NotEqual(t, No, v.Use)
				require.True(t, c.Utilisation >= 0 && c.Utilisation <= 1 && c.Weight >= 0 && !math.IsInf(float64(c.Weight), 0))
				require.NotEmpty(t, c.Source)
				require.NotEmpty(t, c.Basis)
			}
		}
		for _, f := range factors {
			require.True(t, f.Value > 0 && f.Value < 100, "%+v", f)
			require.NotEmpty(t, f.Source, "%+v", f)
			require.NotEmpty(t, f.Basis, "%+v", f)
		}
	})
}

// TestTablesAreSound: ratings rise with the diameter, a basket is not below a
// vertical nor a choker above it, a flatter set is not above a steeper one, four
// legs are not below two, and a printed set is within 5 % of mode × leg.
func TestTablesAreSound(t *testing.T) {
	for family, ratings := range tables(t).ratings {
		greatest := map[string]units.Mass{} // printed so far, by column
		for i, r := range ratings {
			p := r.printed
			if i > 0 && r.diameter > 0 && ratings[i-1].rules == r.rules && ratings[i-1].material == r.material {
				last := ratings[i-1]
				assert.Less(t, last.diameter, r.diameter, "%s %s", family, r.size)
				assert.Less(t, last.vertical, r.vertical, "%s %s", family, r.size)
				assert.LessOrEqual(t, last.perMetre, r.perMetre, "%s %s own weight", family, r.size)
			} else {
				greatest = map[string]units.Mass{}
			}
			for column, m := range p {
				if r.diameter > 0 { // webs of several classes are not in one rising order
					assert.Less(t, greatest[column], m, "%s %s %s", family, r.size, column)
				}
				greatest[column] = m
			}
			if p[choker] > 0 {
				assert.LessOrEqual(t, p[choker], r.vertical, "%s %s", family, r.size)
				assert.GreaterOrEqual(t, p[basket], r.vertical, "%s %s", family, r.size)
			}
			for column, mode := range map[string]float64{"two_leg_0_45": 1.4, "two_leg_45_60": 1, "three_four_leg_0_45": 2.1, "three_four_leg_45_60": 1.5} {
				if p[column] > 0 {
					assert.InEpsilon(t, mode*float64(r.vertical), float64(p[column]), 0.05, "%s %s %s", family, r.size, column)
				}
			}
		}
		for _, f := range tables(t).families {
			if f.family == family {
				sizes := tables(t).sizes(f)
				for i := 1; i < len(sizes); i++ {
					assert.LessOrEqual(t, sizes[i-1].vertical, sizes[i].vertical, "%s %s", family, sizes[i].size)
				}
			}
		}
	}
}
