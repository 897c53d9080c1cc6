package lift_test

import (
	"fmt"
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"plumbhook/geom"
	"plumbhook/lift"
)

// weights writes a load of four weights on three picks.
func weights(masses []float64, tolerances []float64, at []geom.Vec) string {
	text := "load: weights\nunits: mm\nparts:\n"
	for i, m := range masses {
		text += fmt.Sprintf("  - {name: w%d, weight: %.12f kg, at: [%g, %g, %g], tolerance: %.9f %%}\n", i, m, at[i][0], at[i][1], at[i][2], tolerances[i])
	}
	return text + `picks: [{name: A, at: [-2000, -1000, 900]}, {name: B, at: [2000, -1000, 900]}, {name: C, at: [0, 1500, 900]}]
legs: {lengths: 3500}
`
}

// Influences are the differences that the whole program finds when one line is
// a little heavier and a little lighter: to 1e-4 of the largest.
func TestInfluencesEqualDifferences(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		mass := rapid.Float64Range(100, 1000)
		place := rapid.Float64Range(-400, 400)
		var m, tol []float64
		var at []geom.Vec
		for range 4 {
			m = append(m, mass.Draw(t, "mass"))
			tol = append(tol, rapid.Float64Range(1, 20).Draw(t, "tolerance"))
			at = append(at, geom.Vec{math.Round(place.Draw(t, "x")), math.Round(place.Draw(t, "y")), math.Round(place.Draw(t, "z"))})
		}
		base, err := lift.Legs(read(t, weights(m, tol, at)), lift.Options{})
		require.NoError(t, err)
		require.True(t, base.Solved)
		require.Len(t, base.Influences, 4)
		one := base.Influences[rapid.IntRange(0, 3).Draw(t, "line")]
		var n int
		fmt.Sscanf(one.Name, "w%d", &n)
		span := 2 * m[n] * tol[n] / 100
		assert.InEpsilon(t, span, one.RangeKg, 1e-6)
		ends := func(part float64) (geom.Vec, float64) {
			changed := append([]float64{}, m...)
			changed[n] *= 1 + part
			l := read(t, weights(changed, tol, at))
			w, err := l.Weigh()
			require.NoError(t, err)
			h, err := lift.Legs(l, lift.Options{})
			require.NoError(t, err)
			for _, leg := range h.Legs {
				if leg.Pick == base.InfluenceOn {
					return w.CG, leg.TensionKN
				}
			}
			t.Fatal("no such leg")
			return geom.Vec{}, 0
		}
		const d = 1e-5
		cgHigh, legHigh := ends(d)
		cgLow, legLow := ends(-d)
		scale := tol[n] / 100 / d
		assert.InDelta(t, 0, cgHigh.Sub(cgLow).Mul(scale).Sub(one.CGShiftM).Len(), 1e-4*one.CGShiftM.Len()+1e-7, "CG")
		assert.InDelta(t, (legHigh-legLow)*scale, one.LegKN, 1e-4*math.Abs(one.LegKN)+1e-5, "leg")
	})
}
