package takeoff

import (
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"plumbhook/geom"
)

// Two weights of 100 kg ± 10 % a metre apart: the CG is at 90/200 to 110/200 of
// the way, by hand. The region is a line: two corners.
func TestRegionOfTwoWeights(t *testing.T) {
	l, err := readText(head+"- {weight: 100 kg, at: [0, 0, 0], tolerance: 10 %}\n- {weight: 100 kg, at: [1000, 0, 0], tolerance: 10 %}\n", nil)
	require.NoError(t, err)
	w, err := l.Weigh()
	require.NoError(t, err)
	assert.Len(t, w.Corners(), 2)
	plan := w.CGPlan()
	low, high := 1.0, 0.0
	for _, c := range plan {
		low, high = min(low, c[0]), max(high, c[0])
		assert.InDelta(t, 0, c[1], 1e-9)
	}
	assert.InDelta(t, 0.45, low, 1e-9)
	assert.InDelta(t, 0.55, high, 1e-9)
}

// Whatever the masses within their ranges, the CG is within every side of the
// region and within its outline in plan, and both outlines touch the true
// region.
func TestRegionHoldsEveryCG(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		at := rapid.Float64Range(-3, 3)
		var w Weighed
		for range rapid.IntRange(1, 6).Draw(t, "pieces") {
			low := rapid.Float64Range(1, 100).Draw(t, "low")
			w.spots = append(w.spots, spot{at: geom.Vec{at.Draw(t, "x"), at.Draw(t, "y"), at.Draw(t, "z")},
				low: low, high: low * rapid.Float64Range(1, 2).Draw(t, "spread")})
		}
		sides, plan := w.CGRegion(), w.CGPlan()
		rnd := rand.New(rand.NewPCG(rapid.Uint64().Draw(t, "seed"), 1))
		for range 200 {
			var mass float64
			var moment geom.Vec
			for _, s := range w.spots {
				m := s.low + rnd.Float64()*(s.high-s.low)
				mass, moment = mass+m, moment.Add(s.at.Mul(m))
			}
			cg := moment.Mul(1 / mass)
			for _, side := range sides {
				assert.LessOrEqual(t, cg.Dot(side.Toward), side.Far+1e-9)
			}
			for i, a := range plan {
				b := plan[(i+1)%len(plan)]
				left := (b[0]-a[0])*(cg[1]-a[1]) - (b[1]-a[1])*(cg[0]-a[0])
				assert.GreaterOrEqual(t, left, -1e-9)
			}
		}
		for _, c := range w.Corners() {
			for _, side := range sides {
				assert.LessOrEqual(t, c.Dot(side.Toward), side.Far+1e-8, "corners bound the region of the half-spaces")
			}
		}
	})
}
