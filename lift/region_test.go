package lift_test

import (
	"math"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"plumbhook/geom"
	"plumbhook/lift"
	"plumbhook/rig"
)

// Whatever each part weighs within its range, no leg of three carries more, none
// stands flatter and the load hangs no further out of level than the worst that
// is told: the statics solved again for the masses drawn, at their own weight.
func TestWorstHoldsForAnyMassesInTheirRanges(t *testing.T) {
	const gravity = 9.80665
	rapid.Check(t, func(t *rapid.T) {
		var masses, tolerances []float64
		var at []geom.Vec
		for range 4 {
			masses = append(masses, rapid.Float64Range(100, 1000).Draw(t, "mass"))
			tolerances = append(tolerances, rapid.Float64Range(1, 40).Draw(t, "tolerance"))
			at = append(at, geom.Vec{
				float64(rapid.IntRange(-500, 500).Draw(t, "x")), float64(rapid.IntRange(-400, 400).Draw(t, "y")), float64(rapid.IntRange(-900, 400).Draw(t, "z"))})
		}
		h, err := lift.Legs(read(t, weights(masses, tolerances, at)), lift.Options{})
		require.NoError(t, err)
		if !h.Solved || !h.StableWorst {
			t.Skip("it does not hang")
		}
		rnd := rand.New(rand.NewPCG(rapid.Uint64().Draw(t, "seed"), 0))
		for range 40 {
			var total float64
			var moment geom.Vec
			for i, m := range masses {
				m *= 1 + tolerances[i]/100*(2*rnd.Float64()-1)
				total, moment = total+m, moment.Add(at[i].Mul(m/1000))
			}
			r := rig.Rig{Weight: total * gravity, CG: moment.Mul(1 / total)}
			for _, leg := range h.Legs {
				r.Picks, r.Lengths = append(r.Picks, leg.AtM), append(r.Lengths, leg.LengthM)
			}
			hang, err := r.Hang()
			require.NoError(t, err)
			for i, leg := range h.Legs {
				assert.LessOrEqual(t, hang.Tension[i]/1000, leg.WorstTensionKN*(1+1e-6)+1e-9, "leg %s", leg.Pick)
				if hang.Tension[i] > 1e-6*r.Weight {
					assert.GreaterOrEqual(t, hang.FromHorizontal(i)*180/math.Pi, leg.WorstFromHorizontalDeg-1e-6, "leg %s", leg.Pick)
				}
			}
			assert.LessOrEqual(t, hang.Tilt()*180/math.Pi, h.TiltWorstDeg+1e-6)
		}
	})
}
