package sling

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"plumbhook/testdata/published/inprint"
)

// Design factors, by rule set and family; of a family not in print none is known.
func TestPublishedDesignFactors(t *testing.T) {
	page := inprint.Of(t, "sling")
	for _, rules := range []Rules{US, EN} {
		a, err := Choose(one(rules, kilograms(500)))
		require.NoError(t, err)
		for _, v := range a.Families {
			item := string(rules) + "; " + v.Family
			if !page.Has(item, "design factor") {
				assert.Nil(t, v.Design, "%s: none is known", item)
				continue
			}
			require.NotNil(t, v.Design, item)
			page.Is(item, "design factor", v.Design.Value)
		}
	}
}

// What one leg holds up at an angle is its rating × sin(angle from horizontal):
// 0.866, 0.707 and 0.5 (OSHA Guidance on Safe Sling Use, the load-angle factors
// turned over). Two legs of this chain at 60° are printed 12 300, so 6 150 a leg;
// printed to the hundred.
func TestPublishedOneLegAtTheUsualAngles(t *testing.T) {
	page := inprint.Of(t, "sling")
	a, err := Choose(one(US, pounds(7000)))
	require.NoError(t, err)
	v := find(a, "alloy_chain", "grade 80")
	require.Equal(t, "3/8 in", v.Choice.Size)
	for i, angle := range []string{"60", "45", "30"} {
		page.Is("3/8 in grade 80 chain; "+angle+"° from horizontal", "one leg", in(t, v.Choice.AtAngles[i].Holds, "lb"))
	}
}
