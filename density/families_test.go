package density_test

import (
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"plumbhook/density"
	"plumbhook/testdata/published/inprint"
)

// Masses of further families: HEM, UPE, unequal angles, tees (all sizes of the
// standard), US angles. All from memory, so that they stand against tables that came
// another way.
func TestPublishedFurtherFamilies(t *testing.T) {
	page := inprint.Of(t, "density")
	for _, v := range page.Rows() {
		unit := map[string]float64{"kg/m": 1, "lb/ft": poundPerFoot}[v.Unit]
		page.Is(v.Item, v.Quantity, section(t, v.Item).PerLength/unit)
	}
}

// The weight in lb/ft is part of the name of a US shape (ASTM A6), and its area
// in square inches times 3.4028 lb/ft (490 lb/ft³, the AISC Manual) is that weight
// to the rounding of both, 2.1 % at most (MC10x6.5, 1.95 in²): every row of each family, a dozen at least.
func TestUSShapesWeighWhatTheirNameSays(t *testing.T) {
	count := map[string]int{}
	for _, family := range []string{"W", "S", "C", "MC", "HP"} {
		for _, s := range density.Sections(family) {
			letters := strings.TrimRight(s.Name[:strings.IndexAny(s.Name, "0123456789")], " ")
			if letters != family || s.Standard != "ASTM A6" {
				continue
			}
			count[family]++
			weight, err := strconv.ParseFloat(s.Name[strings.LastIndex(s.Name, "x")+1:], 64)
			require.NoError(t, err, s.Name)
			assert.InDelta(t, weight, s.PerLength/poundPerFoot, 1e-9, s.Name)
			assert.InEpsilon(t, weight, s.Area/squareInch*490/144, 0.021, s.Name)
		}
	}
	for family, n := range count {
		assert.GreaterOrEqual(t, n, 12, family)
	}
	assert.Len(t, count, 5)
}
