package sling

import (
	"fmt"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"plumbhook/testdata/published/inprint"
	"plumbhook/units"
)

// Facts of the trade, common practice, no source: what a seasoned rigger says of
// each family. Rows of suitability.csv with a standard behind them stand beside.
func TestFactsOfTheTrade(t *testing.T) {
	for _, fact := range []struct {
		family, material     string
		temperature          string
		chemical, use, about string
	}{
		{"wire_rope", eips, "390 F", "none", Yes, "steel-core wire rope up to 400 °F"},
		{"wire_rope", eips, "401 F", "none", No, "steel-core wire rope not above 400 °F"},
		{"wire_rope", eips, "-41 F", "none", No, "steel-core wire rope not below -40 °F"},
		{"synthetic_web", "nylon", "195 F", "none", No, "nylon not above 194 °F"},
		{"synthetic_web", "polyester", "195 F", "none", No, "polyester not above 194 °F"},
		{"synthetic_web", "nylon", "-41 F", "none", No, "nylon not below -40 °F"},
		{"synthetic_web", "polyester", "-41 F", "none", No, "polyester not below -40 °F"},
		{"round_sling", "polyester", "195 F", "none", No, "polyester not above 194 °F"},
		{"synthetic_rope", "nylon, three-strand", "195 F", "none", No, "nylon not above 194 °F"},
		{"synthetic_web", "nylon", "70 F", "acid", No, "nylon never in acids"},
		{"synthetic_web", "nylon", "70 F", "bleach", No, "nor in bleach"},
		{"synthetic_web", "nylon", "70 F", "alkali", Yes, "nylon is fine with alkalis"},
		{"synthetic_web", "nylon", "70 F", "oil", Yes, "and oils"},
		{"synthetic_rope", "nylon, three-strand", "70 F", "acid", No, "nylon never in acids"},
		{"synthetic_web", "polyester", "70 F", "acid", Care, "polyester suits acids, cold and dilute"},
		{"synthetic_web", "polyester", "70 F", "bleach", Care, "polyester suits bleach, cold and dilute"},
		{"round_sling", "polyester", "70 F", "bleach", Care, "polyester suits bleach, cold and dilute"},
		{"synthetic_web", "polyester", "70 F", "alkali", No, "polyester never in alkalis"},
		{"round_sling", "polyester", "70 F", "alkali", No, "polyester never in alkalis"},
		{"synthetic_rope", "polyester, three-strand", "70 F", "alkali", No, "polyester never in alkalis"},
		{"two_path_round_sling", "high-performance yarn", "180 F", "none", Care, "high-performance round slings up to 180 °F"},
		{"two_path_round_sling", "high-performance yarn", "181 F", "none", No, "and no more unless made for 300 °F"},
		{"alloy_chain", "grade 80", "70 F", "acid", No, "alloy chain not in acid or its fumes"},
		{"alloy_chain", "grade 100", "70 F", "acid fumes", No, "alloy chain not in acid or its fumes"},
		{"metal_mesh", "heavy duty, bare", "500 F", "none", Yes, "bare metal mesh takes heat"},
	} {
		need := one(US, kilograms(500))
		c, err := units.ParseTemperature(fact.temperature)
		require.NoError(t, err)
		need.Surroundings.Temperature = celsius(float64(c))
		need.Surroundings.Chemicals = []string{fact.chemical}
		a, err := Choose(need)
		require.NoError(t, err)
		v := find(a, fact.family, fact.material)
		assert.Equal(t, fact.use, v.Use, "%s (%s, %s): %v", fact.about, fact.family, fact.material, v.Reasons)
	}
}

// cautionsOfTheTrade are the words that must stand with a family and material
// under every rule set, typed from the sources.
var cautionsOfTheTrade = []struct{ family, material, words, source string }{
	{"metal_mesh", "any", "one broken wire", "29 CFR 1910.184 as repeated in a state code, read; common practice"},
	{"metal_mesh", "any", "it must lie flat", "common practice, no source"},
	{"alloy_chain", "any", "any measurable stretch takes it out of service", "common practice, no source"},
	{"alloy_chain", "any", "15 to 20 %", "common practice, no source"},
	{"alloy_chain", "any", "must not hang in acid or its fumes", "ASME B30.9, EN 818-6, from memory"},
	{"wire_rope", "any", "wire by wire", "29 CFR 1910.184, from memory"},
	{"wire_rope", "any", "wear gloves", "common practice, no source"},
	{"synthetic_web", "any", "a cut, a snag, melting or a broken stitch", "29 CFR 1910.184, read"},
	{"round_sling", "any", "a cut cover that shows core yarn", "WSTDA RS-1, read"},
	{"two_path_round_sling", "any", "the loss of one load path", "WSTDA RS-1HP, from memory"},
	{"two_path_round_sling", "any", "about a tenth", "common practice, no source"},
	{"synthetic_rope", "any", "about an eighth", "common practice, no source"},
	{"synthetic_rope", "any", "frozen when wet", "29 CFR 1910.184, from memory"},
	{"synthetic_web", "nylon", "8 to 10 %", "common practice, no source"},
	{"synthetic_web", "polyamide", "8 to 10 %", "common practice, no source"},
	{"synthetic_rope", "HMPE", "creeps under long load", "common practice, no source"},
	{"synthetic_web", "any", "three times as long as the pin", "WSTDA WS-1, EN 1492-1, from memory"},
	{"synthetic_web", "any", "0.75 of its width", "EN 1492-1, from memory"},
	{"round_sling", "any", "7000 psi (48 MPa): load", "WSTDA RS-1, from memory"},
	{"two_path_round_sling", "any", "7000 psi (48 MPa)", "WSTDA RS-1HP, from memory"},
	{"synthetic_rope", "any", "twice its own diameter", "29 CFR 1910.184, from memory"},
	{"metal_mesh", "any", "end fittings bear on a pin", "common practice, no source"},
}

// missingCautions says which of them a book does not give.
func missingCautions(b *book) (missing []string) {
	for _, c := range cautionsOfTheTrade {
		seen := 0
		for _, f := range b.families {
			if f.family != c.family || (c.material != anyOne && f.material != c.material) {
				continue
			}
			if seen++; !strings.Contains(strings.Join(b.warnings(f), "\n"), c.words) {
				missing = append(missing, fmt.Sprintf("%s %s, %s: %s (%s)", f.rules, f.family, f.material, c.words, c.source))
			}
		}
		if seen == 0 {
			missing = append(missing, "no such family: "+c.family+" "+c.material)
		}
	}
	return missing
}

func TestCautionsOfTheTrade(t *testing.T) {
	assert.Empty(t, missingCautions(tables(t)))
}

// What has no published table is never a yes and never has a size.
func TestByTagNeverYes(t *testing.T) {
	for _, rules := range []Rules{US, EN} {
		a, err := Choose(one(rules, kilograms(1)))
		require.NoError(t, err)
		tags := 0
		for _, v := range a.Families {
			if v.ByTag {
				tags++
				assert.NotEqual(t, Yes, v.Use, "%s %s", v.Family, v.Material)
				assert.Nil(t, v.Choice, "%s %s", v.Family, v.Material)
				assert.Contains(t, strings.Join(v.Reasons, "\n"), "only the tag of the sling says", "%s %s", v.Family, v.Material)
			}
		}
		assert.GreaterOrEqual(t, tags, 5, rules)
	}
}

// A strand-laid grommet has two parts round pins of five body diameters: 2 ×
// strength × 0.77 / 5. The table here lies at or below what was printed for fibre
// core, within 3 %.
func TestPublishedGrommets(t *testing.T) {
	page := inprint.Of(t, "sling")
	for _, v := range page.Rows() {
		got := in(t, ofRow(t, v.Item).vertical, v.Unit)
		page.Is(v.Item, v.Quantity, got)
		assert.LessOrEqual(t, got, v.Printed*1.0001, v.Item)
	}
}

// Synthetic rope: new-rope strength × 0.9 for the splice / 5, rounded down.
func TestPublishedRopeStrengths(t *testing.T) {
	page := inprint.Of(t, "sling")
	for _, v := range page.Rows() {
		material, size, _ := strings.Cut(v.Item, "; ")
		got := in(t, row(t, US, "synthetic_rope", material, size).vertical, v.Unit) * 5 / 0.9
		page.Is(v.Item, v.Quantity, got)
		assert.LessOrEqual(t, got, v.Printed+1e-6, "%s is rounded down", v.Item)
	}
}
