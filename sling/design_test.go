package sling

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// Design factors, by family. Sources: ASME B30.9 (from memory; chain 4, all else 5),
// 29 CFR 1926.251 (read; wire rope 5), EN 818-4 (from memory, 4), EN 13414-1 (as
// reprinted, 5), EN 1492-1, -2 and -4 (from memory, 7).
func TestDesignFactors(t *testing.T) {
	want := map[Rules]map[string]float64{
		US: {"alloy_chain": 4, "wire_rope": 5, "metal_mesh": 5, "synthetic_web": 5, "round_sling": 5, "two_path_round_sling": 5, "synthetic_rope": 5},
		EN: {"alloy_chain": 4, "wire_rope": 5, "synthetic_web": 7, "round_sling": 7, "synthetic_rope": 7},
	}
	for rules, families := range want {
		a, err := Choose(one(rules, kilograms(500)))
		require.NoError(t, err)
		for _, v := range a.Families {
			if factor, known := families[v.Family]; known {
				require.NotNil(t, v.Design, "%s %s", rules, v.Family)
				assert.Equal(t, factor, v.Design.Value, "%s %s", rules, v.Family)
			} else {
				assert.Nil(t, v.Design, "%s %s: none is known", rules, v.Family)
			}
		}
	}
}

// What one leg holds up at an angle is its rating × sin(angle from horizontal):
// 0.866, 0.707 and 0.5 (OSHA Guidance on Safe Sling Use, the load-angle factors
// turned over). Grade 80 chain of 3/8 in, 7100 lb (OSHA, Table 1): two legs at 60°
// are printed 12 300, so 6 150 a leg, at 45° 5 000, at 30° 3 550; printed to the
// hundred.
func TestOneLegAtTheUsualAngles(t *testing.T) {
	a, err := Choose(one(US, pounds(7000)))
	require.NoError(t, err)
	v := find(a, "alloy_chain", "grade 80")
	require.Equal(t, "3/8 in", v.Choice.Size)
	for i, printed := range []float64{6150, 5000, 3550} {
		assert.InDelta(t, printed, in(t, v.Choice.AtAngles[i].Holds, "lb"), 50)
	}
}
