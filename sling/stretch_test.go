package sling

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// Each row is of a family that there is; the figures as the trade tells them: at
// rated load nylon 8 to 10 %, polyester 3 to 7 % (from memory).
func TestStretchOfFamilies(t *testing.T) {
	rows, err := stretches()
	require.NoError(t, err)
	for _, r := range rows {
		found := false
		for _, f := range tables(t).families {
			found = found || f.rules == r.rules && f.family == r.Family && f.material == r.Material
		}
		assert.True(t, found, "%s %s is no family", r.rules, r.Name())
	}
	for _, tt := range []struct {
		rules            Rules
		family, material string
		low, high        float64
	}{{US, "synthetic_web", "nylon", 0.08, 0.10}, {EN, "synthetic_web", "polyamide", 0.08, 0.10}, {"", "round_sling", "", 0.03, 0.07}} {
		got, _, err := StretchOf(tt.rules, tt.family, tt.material)
		require.NoError(t, err)
		require.Len(t, got, 1, tt.family)
		assert.Equal(t, [2]float64{tt.low, tt.high}, [2]float64{got[0].Low, got[0].High})
	}
	got, known, err := StretchOf(US, "wire_rope", "")
	require.NoError(t, err)
	assert.Empty(t, got, "how little steel stretches is not known here")
	assert.Contains(t, known, "synthetic_web, nylon")
}
