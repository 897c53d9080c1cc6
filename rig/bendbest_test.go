package rig

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

// An even beam: picks at L·(√2 − 1)/2 = 0.2071·L from its ends, the moment
// w·L²·(3 − 2√2)/8 = 0.02145·w·L². Derived here from a²/2 = L²/8 − L·a/2; the
// 0.207 of it is a rule of the trade.
func TestBestPicksOfAnEvenBeam(t *testing.T) {
	const from, long, each = 3.0, 12.0, 500.0
	x1, x2, bent, err := Beam{Line: []LineWeight{{from, from + long, each}}}.BestPicks(from, from+long)
	require.NoError(t, err)
	assert.InDelta(t, from+long*(math.Sqrt2-1)/2, x1, 1e-6)
	assert.InDelta(t, from+long-long*(math.Sqrt2-1)/2, x2, 1e-6)
	assert.InDelta(t, each*long*long*(3-2*math.Sqrt2)/8, bent.Greatest, 1e-3)
	assert.InDelta(t, bent.Sagging.Moment, bent.Hogging.Moment, 1e-3)
}

// No pair of picks on a fine grid bends the beam less.
func TestBestPicksAgainstAllTried(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		var b Beam
		for range rapid.IntRange(1, 4).Draw(t, "lines") {
			from := rapid.Float64Range(0, 9).Draw(t, "from")
			b.Line = append(b.Line, LineWeight{from, from + rapid.Float64Range(0.1, 10-from).Draw(t, "long"), rapid.Float64Range(1, 100).Draw(t, "each")})
		}
		for range rapid.IntRange(0, 3).Draw(t, "points") {
			b.Point = append(b.Point, PointWeight{rapid.Float64Range(0, 10).Draw(t, "at"), rapid.Float64Range(1, 300).Draw(t, "weight")})
		}
		cg, weight := b.balance()
		if cg < 0.05 || cg > 9.95 {
			t.Skip("its CG is at an end")
		}
		x1, x2, best, err := b.BestPicks(0, 10)
		require.NoError(t, err)
		require.True(t, 0 <= x1 && x1 < cg && cg < x2 && x2 <= 10)
		for i := range 60 {
			for j := range 60 {
				one, two := cg*float64(i)/60, 10-(10-cg)*float64(j)/60
				bent, err := b.Bending(one, two)
				require.NoError(t, err)
				require.GreaterOrEqual(t, bent.Greatest, best.Greatest-1e-6*weight, "picks at %g and %g", one, two)
			}
		}
	})
}

func TestBestPicksRefused(t *testing.T) {
	var input *InputError
	_, _, _, err := Beam{}.BestPicks(0, 1)
	assert.ErrorAs(t, err, &input)
	_, _, _, err = Beam{Point: []PointWeight{{2, 5}}}.BestPicks(0, 1)
	assert.ErrorAs(t, err, &input)
}
