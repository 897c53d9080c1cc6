package sling

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"plumbhook/testdata/published/inprint"
)

// limit is between which temperatures in °C a family may be offered, from the sources and
// not from the tables. 1000 °F = 537.8 °C, 400 °F = 204.4 °C, 180 °F = 82.2 °C, 194 °F =
// 90 °C, -40 °F = -40 °C.
type limit struct {
	item                 string
	rules                Rules
	family, material     string
	low, high            float64
	offered              bool
	lowestFor, highestOf float64 // at which it was found to be offered
}

// limits are those in print, one for every family.
func limits(t *testing.T) []limit {
	t.Helper()
	values, err := inprint.All()
	require.NoError(t, err)
	var all []limit
	for _, v := range values {
		switch {
		case v.Test != "TestPublishedTemperatureLimits":
		case v.Quantity == "lowest":
			words := strings.Split(v.Item, "; ")
			all = append(all, limit{item: v.Item, rules: Rules(words[0]), family: words[1], material: words[2], low: v.Printed})
		default: // the highest of the same family stands in the row below
			require.Equal(t, all[len(all)-1].item, v.Item)
			all[len(all)-1].high = v.Printed
		}
	}
	require.Len(t, all, len(tables(t).families), "limits for every family")
	return all
}

// TestPublishedTemperatureLimits walks -120 to 620 °C in half degrees: no family is
// offered outside its temperatures, and each is inside them.
func TestPublishedTemperatureLimits(t *testing.T) {
	page := inprint.Of(t, "sling")
	all := limits(t)
	for c := -120.0; c <= 620; c += 0.5 {
		answers := map[Rules]Answer{}
		for _, rules := range []Rules{US, EN} {
			need := one(rules, kilograms(200))
			need.Surroundings.Temperature = celsius(c)
			a, err := Choose(need)
			require.NoError(t, err)
			answers[rules] = a
		}
		for i, k := range all {
			v := find(answers[k.rules], k.family, k.material)
			inside := c >= k.low && c <= k.high
			require.Equal(t, inside, v.Use == Yes || v.Use == Care, "%s at %g °C: %s", k.item, c, v.Use)
			require.Equal(t, inside && !byTag(t, k.rules, k.family, k.material), v.Choice != nil, "%s at %g °C", k.item, c)
			if inside && !k.offered {
				all[i].offered, all[i].lowestFor = true, c
			}
			if inside {
				all[i].highestOf = c
			}
		}
	}
	for _, k := range all {
		page.Is(k.item, "lowest", k.lowestFor)
		page.Is(k.item, "highest", k.highestOf)
	}
}

// byTag says that a family's capacities stand on its tag alone.
func byTag(t *testing.T, rules Rules, family, material string) bool {
	for _, f := range tables(t).families {
		if f.rules == rules && f.family == family && f.material == material {
			return f.byTag
		}
	}
	t.Fatalf("no family %s %s %s", rules, family, material)
	return false
}

// TestUnstatedNeverYes tries everything that can be left out, in every hitch.
func TestUnstatedNeverYes(t *testing.T) {
	for _, rules := range []Rules{US, EN} {
		for _, hitch := range []string{vertical, choker, basket} {
			for left := 0; left < 8; left++ {
				need := one(rules, kilograms(500))
				need.Legs[0].Hitch, need.Legs[0].Contact = hitch, 0.5
				if left&1 != 0 {
					need.Surroundings.Temperature = nil
				}
				if left&2 != 0 {
					need.Surroundings.Chemicals, need.Surroundings.ChemicalsStated = nil, left&1 != 0
				}
				if left&4 != 0 {
					need.Surroundings.EdgesNone, need.Surroundings.EdgesStated = false, false
				}
				a, err := Choose(need)
				require.NoError(t, err)
				for _, v := range a.Families {
					assert.Equal(t, left == 0 && hitch != basket && !byTag(t, rules, v.Family, v.Material), v.Use == Yes, "%s %s %s, left out %03b: %v", rules, v.Family, hitch, left, v.Reasons)
				}
			}
		}
	}
}

// TestChemicalWords: case, blanks and hyphens do not matter; a word that no
// table knows makes every family care and says so.
func TestChemicalWords(t *testing.T) {
	for word, want := range map[string]string{"Acid": "acid", " sea-water ": "sea water", "Salt  Water": "sea water", "LYE": "alkali", "grease": "oil",
		"acetic acid": "acid", "potassium hydroxide": "alkali", "chlorine bleach": "bleach", "oxidizer": "bleach", "phenol": "phenolics", "solvent": "organic solvent"} {
		got, ok := chemicalNamed(word)
		assert.True(t, ok, word)
		assert.Equal(t, want, got, word)
	}
	for _, unknown := range []string{"treacle", "", "acid free", "pine oil"} {
		_, ok := chemicalNamed(unknown)
		assert.False(t, ok, unknown)
	}
	need := one(US, kilograms(500))
	need.Surroundings.Chemicals = []string{"none", "acid"}
	a, err := Choose(need)
	require.NoError(t, err)
	assert.Equal(t, No, find(a, "synthetic_web", "nylon").Use, "none beside acid is acid")
	for _, b := range tables(t).families {
		seen := map[string]bool{}
		for _, c := range tables(t).chemicals {
			if c.rules == b.rules && c.substance == b.substance {
				assert.False(t, seen[c.chemical], "%s %s listed twice", b.substance, c.chemical)
				seen[c.chemical] = true
			}
		}
		assert.Len(t, seen, len(vocabulary)+1, "%s %s: every chemical and sunlight", b.rules, b.substance)
	}
}

// TestEdgesWithoutRadius: edges stated with no radius are taken as sharp.
func TestEdgesWithoutRadius(t *testing.T) {
	need := one(EN, kilograms(500))
	need.Surroundings.EdgesNone = false
	a, err := Choose(need)
	require.NoError(t, err)
	assert.Equal(t, No, find(a, "synthetic_web", "polyester").Use)
	v := find(a, "alloy_chain", "grade 8")
	assert.Equal(t, Care, v.Use)
	assert.Equal(t, 0.5, v.Factors[len(v.Factors)-1].Value, "EN 818-6 (from memory): R not above d")
}
