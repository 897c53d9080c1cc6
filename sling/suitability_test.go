package sling

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// limits of temperature in °C, inside which each family may be offered; typed
// from the sources, not read from the tables. 1000 °F = 537.8 °C, 400 °F = 204.4
// °C, 180 °F = 82.2 °C, 194 °F = 90 °C, -40 °F = -40 °C.
type limit struct {
	rules            Rules
	family, material string
	low, high        float64
	source           string
}

var limits = []limit{
	{US, "alloy_chain", "grade 80", -39.99, 537.77, "ASME B30.9 Table 9-1.8.1-1 (as reprinted): at -40 or below ask the maker"},
	{US, "alloy_chain", "grade 100", -39.99, 537.77, "ASME B30.9 Table 9-1.8.1-1 (as reprinted): at -40 or below ask the maker"},
	{US, "wire_rope", "EIPS IWRC, mechanical splice", -40, 204.4, "ASME B30.9 (from memory), 29 CFR 1910.184 (read)"},
	{US, "synthetic_web", "nylon", -40, 82.2, "ASME B30.9, 29 CFR 1910.184 (from memory)"},
	{US, "synthetic_web", "polyester", -40, 82.2, "ASME B30.9, 29 CFR 1910.184 (from memory)"},
	{US, "round_sling", "polyester", -40, 90, "ASME B30.9 (from memory)"},
	{US, "wire_rope", "EEIPS IWRC, mechanical splice", -40, 204.4, "ASME B30.9 (from memory), 29 CFR 1910.184 (read)"},
	{US, "wire_rope", "IPS IWRC, hand-tucked splice", -40, 204.4, "ASME B30.9 (from memory), 29 CFR 1910.184 (read)"},
	{US, "wire_rope", "IPS IWRC, mechanical splice", -40, 204.4, "ASME B30.9 (from memory), 29 CFR 1910.184 (read)"},
	{US, "wire_rope", "IPS IWRC, swaged or poured socket", -40, 204.4, "ASME B30.9 (from memory), 29 CFR 1910.184 (read)"},
	{US, "wire_rope", "IPS fibre core, mechanical splice", -40, 82.2, "ASME B30.9 (from memory): 180 F; 29 CFR 1910.184 (read): 200 F"},
	{US, "wire_rope", "IPS fibre core, strand-laid grommet", -40, 82.2, "ASME B30.9 (from memory): 180 F; 29 CFR 1910.184 (read): 200 F"},
	{US, "wire_rope", "braided, six or eight parts", -40, 82.2, "as fibre core, the narrowest"},
	{US, "wire_rope", "cable-laid", -40, 82.2, "as fibre core, the narrowest"},
	{US, "metal_mesh", "heavy duty, bare", -28.8, 287.7, "29 CFR 1910.184 as repeated in a state code (read): -20 F to 550 F"},
	{US, "metal_mesh", "medium duty, bare", -28.8, 287.7, "29 CFR 1910.184 as repeated in a state code (read): -20 F to 550 F"},
	{US, "metal_mesh", "light duty, bare", -28.8, 287.7, "29 CFR 1910.184 as repeated in a state code (read): -20 F to 550 F"},
	{US, "metal_mesh", "heavy duty, filled with PVC or neoprene", -17.7, 93.3, "29 CFR 1910.184 as repeated in a state code (read): 0 F to 200 F"},
	{US, "metal_mesh", "medium duty, filled with PVC or neoprene", -17.7, 93.3, "29 CFR 1910.184 as repeated in a state code (read): 0 F to 200 F"},
	{US, "metal_mesh", "light duty, filled with PVC or neoprene", -17.7, 93.3, "29 CFR 1910.184 as repeated in a state code (read): 0 F to 200 F"},
	{US, "synthetic_web", "nylon, endless", -40, 82.2, "ASME B30.9, 29 CFR 1910.184 (from memory)"},
	{US, "synthetic_web", "polyester, endless", -40, 82.2, "ASME B30.9, 29 CFR 1910.184 (from memory)"},
	{US, "two_path_round_sling", "high-performance yarn", -40, 82.2, "common practice, no source: 180 F unless made for 300 F"},
	{US, "synthetic_rope", "nylon, three-strand", -28.8, 82.2, "29 CFR 1910.184 (read): -20 F to 180 F"},
	{US, "synthetic_rope", "polyester, three-strand", -28.8, 82.2, "29 CFR 1910.184 (read): -20 F to 180 F"},
	{US, "synthetic_rope", "polypropylene, three-strand", -28.8, 60, "29 CFR 1910.184 (read), ASME B30.9 (from memory): 140 F"},
	{US, "synthetic_rope", "HMPE", -28.8, 60, "29 CFR 1910.184 (read), ASME B30.9 (from memory): 140 F"},
	{US, "synthetic_rope", "aramid", -28.8, 82.2, "29 CFR 1910.184 (read): -20 F to 180 F"},
	{EN, "alloy_chain", "grade 8", -40, 400, "EN 818-4 (as reprinted)"},
	{EN, "alloy_chain", "grade 10", -40, 200, "common practice, no source"},
	{EN, "wire_rope", "steel core, aluminium ferrule", -40, 150, "EN 13414-1 (from memory)"},
	{EN, "wire_rope", "steel core, steel ferrule", -40, 400, "EN 13414-1 (from memory)"},
	{EN, "synthetic_web", "polyester", -40, 100, "EN 1492-1 scope (read)"},
	{EN, "synthetic_web", "polyamide", -40, 100, "EN 1492-1 scope (read)"},
	{EN, "round_sling", "polyester", -40, 100, "EN 1492-2 scope (read)"},
	{EN, "wire_rope", "fibre core, aluminium or steel ferrule", -40, 100, "EN 13414-1 (from memory)"},
	{EN, "wire_rope", "cable-laid", -40, 100, "as fibre core, the narrowest"},
	{EN, "metal_mesh", "steel", -18, 93, "common practice, no source: as filled mesh, the narrowest"},
	{EN, "synthetic_web", "polypropylene", -40, 80, "EN 1492-1 scope (read)"},
	{EN, "two_path_round_sling", "high-performance yarn", -40, 82, "common practice, no source: 180 F unless made for 300 F"},
	{EN, "synthetic_rope", "polyamide", -40, 100, "EN 1492-4 (from memory)"},
	{EN, "synthetic_rope", "polyester", -40, 100, "EN 1492-4 (from memory)"},
	{EN, "synthetic_rope", "polypropylene", -40, 80, "EN 1492-4 (from memory)"},
	{EN, "synthetic_rope", "HMPE", -40, 60, "common practice, no source"},
	{EN, "synthetic_rope", "aramid", -40, 82, "common practice, no source"},
}

// TestNoFamilyOutsideItsTemperature walks -120 to 620 °C in half degrees.
func TestNoFamilyOutsideItsTemperature(t *testing.T) {
	require.Len(t, limits, len(tables(t).families), "one line of limits for every family")
	for c := -120.0; c <= 620; c += 0.5 {
		answers := map[Rules]Answer{}
		for _, rules := range []Rules{US, EN} {
			need := one(rules, kilograms(200))
			need.Surroundings.Temperature = celsius(c)
			a, err := Choose(need)
			require.NoError(t, err)
			answers[rules] = a
		}
		for _, k := range limits {
			v := find(answers[k.rules], k.family, k.material)
			inside := c >= k.low && c <= k.high
			require.Equal(t, inside, v.Use == Yes || v.Use == Care, "%s %s %s at %g °C: %s (%s)", k.rules, k.family, k.material, c, v.Use, k.source)
			require.Equal(t, inside && !byTag(t, k.rules, k.family, k.material), v.Choice != nil, "%s %s %s at %g °C", k.rules, k.family, k.material, c)
		}
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
