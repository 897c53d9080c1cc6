package sling

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

func TestSurroundingRowsAreRefused(t *testing.T) {
	for want, r := range map[string]surroundingRow{
		"want use yes, care or no":               {condition: "shock", use: "ok", reason: "x"},
		"and a reason":                           {condition: "shock", use: Care},
		`condition "thunder" is not one`:         {condition: "thunder", use: Care, reason: "x"},
		`condition "strong lye" is not one`:      {condition: "strong lye", use: Care, reason: "x"},
		"shock can be no better than care":       {condition: "shock", use: Yes, reason: "x"},
		"strong acid can be no better than care": {condition: "strong acid", use: Yes, reason: "x"},
		"weak bleach can be no better than care": {condition: "weak bleach", use: Yes, reason: "x"},
		"edge protection can be no better than":  {condition: edgeProtection, use: Yes, reason: "x"},
	} {
		assert.ErrorContains(t, r.check(), want)
	}
	assert.NoError(t, surroundingRow{condition: "abrasive", use: Yes, reason: "x"}.check())
}

// TestEveryConditionIsAnswered: tables without an answer for some family are
// refused when they are read.
func TestEveryConditionIsAnswered(t *testing.T) {
	b := *tables(t)
	require.NoError(t, b.complete())
	b.surroundings = nil
	assert.ErrorContains(t, b.complete(), "an answer to "+edgeProtection)
	need := one(US, kilograms(500))
	need.Surroundings.Conditions = map[string]bool{"thunder": true}
	_, err := Choose(need)
	assert.ErrorContains(t, err, `condition "thunder", want shock, people near`)
}

func TestStrengthOf(t *testing.T) {
	for words, want := range map[string][2]string{
		"acid": {"acid", ""}, "Dilute Acid": {"acid", weak}, "hot, concentrated sulphuric acid": {"sulphuric acid", strong},
		"cold and dilute bleach": {"bleach", weak}, "hot dilute acid": {"acid", strong}, "acid, hot": {"acid", strong},
		"sea water": {"sea water", ""}, "hot": {"", strong}, "": {"", ""},
	} {
		name, strength := strengthOf(words)
		assert.Equal(t, want, [2]string{name, strength}, words)
	}
}

func TestUnstatedConditions(t *testing.T) {
	assert.Equal(t, Conditions(), Surroundings{}.Unstated())
	assert.Equal(t, []string{"shock", "repeated use", "carried by hand", "hard to inspect", "abrasive"},
		Surroundings{Conditions: map[string]bool{"people near": false, "weld spatter": true}}.Unstated())
}

// TestMoreConditionsNeverBetter: what is expected besides never makes a family
// better; and protecting the edge never makes a sharp one a plain yes for a
// textile sling, nor any edge worse.
func TestMoreConditionsNeverBetter(t *testing.T) {
	rank := map[string]int{Yes: 0, Care: 1, No: 2}
	rapid.Check(t, func(t *rapid.T) {
		n := drawNeed(t)
		n.Surroundings.Conditions = map[string]bool{}
		for _, c := range conditions {
			if rapid.Bool().Draw(t, c) {
				n.Surroundings.Conditions[c] = rapid.Bool().Draw(t, "it is so")
			}
		}
		before, err := Choose(n)
		require.NoError(t, err)
		more := n
		more.Surroundings.Conditions = map[string]bool{rapid.SampledFrom(conditions).Draw(t, "also"): true}
		for c, so := range n.Surroundings.Conditions {
			more.Surroundings.Conditions[c] = so || more.Surroundings.Conditions[c]
		}
		after, err := Choose(more)
		require.NoError(t, err)
		protected := n
		protected.Surroundings.EdgeProtection = "corner pads"
		covered, err := Choose(protected)
		require.NoError(t, err)
		_, edged := n.Surroundings.edge()
		for i, v := range before.Families {
			require.GreaterOrEqual(t, rank[after.Families[i].Use], rank[v.Use], "%s %s", v.Family, v.Material)
			c := covered.Families[i]
			require.LessOrEqual(t, rank[c.Use], rank[v.Use], "%s %s", v.Family, v.Material)
			require.False(t, edged && v.Use == No && c.Use == Yes, "%s %s", v.Family, v.Material)
		}
	})
}

// TestFittingsAreOfSteel: limits of shackles from ASME B30.26-2010 26-1.6.1
// (read): -40 °F to 400 °F, and EN 13889 (from memory): -20 °C to 200 °C; acid
// attacks steel (ASME B30.9, EN 13414-2, from memory).
func TestFittingsAreOfSteel(t *testing.T) {
	for _, c := range []struct {
		rules    Rules
		celsius  float64
		chemical string
		want     string
	}{
		{US, 204, "oil", ""}, {US, -40, "none", ""}, {EN, 200, "lye", ""}, {EN, -20, "none", ""},
		{US, 205, "none", "not within their limits, -40 to 400 °F"}, {US, -41, "none", "not within their limits"},
		{EN, 201, "none", "not within their limits, -20 to 200 °C"}, {EN, -21, "none", "not within their limits"},
		{US, 20, "dilute nitric acid", "dilute nitric acid: shackles, hooks and links"}, {EN, 20, "acid fumes", "which it attacks"},
	} {
		need := one(c.rules, kilograms(500))
		need.Surroundings.Temperature, need.Surroundings.Chemicals = &c.celsius, []string{c.chemical}
		a, err := Choose(need)
		require.NoError(t, err)
		if c.want == "" {
			assert.NotContains(t, strings.Join(a.Warnings, "\n"), "shackles", "%+v", c)
		} else {
			assert.Contains(t, strings.Join(a.Warnings, "\n"), c.want, "%+v", c)
		}
	}
}
