package lift

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"pgregory.net/rapid"

	"plumbhook/geom"
	"plumbhook/takeoff"
)

// The worst levels of two or three liquids are at least as bad as each choice of
// levels that there is, all tried one by one; and no worse than the worst of these
// where the least weight is the best.
func TestWorstLevelsAreThoseOfAllTried(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		a := &afloat{mass: rapid.Float64Range(100, 5000).Draw(t, "still")}
		still := a.mass
		w := Weight{CGM: geom.Vec{0, 0, rapid.Float64Range(-1, 1).Draw(t, "CG")}}
		var all [][]takeoff.Level
		moment := 0.0
		for range rapid.IntRange(2, 3).Draw(t, "liquids") {
			var levels []takeoff.Level
			for range rapid.IntRange(1, 6).Draw(t, "levels") {
				levels = append(levels, takeoff.Level{Mass: rapid.Float64Range(1, 3000).Draw(t, "mass"),
					CG: geom.Vec{0, 0, rapid.Float64Range(-2, 2).Draw(t, "z")}, Any: rapid.Float64Range(0, 3000).Draw(t, "surface")})
			}
			drawn := levels[0]
			a.liquids = append(a.liquids, takeoff.Liquid{Volume: drawn.Mass, Low: drawn.Mass, Density: 1})
			a.drawn, all = append(a.drawn, drawn.CG), append(all, levels)
			a.mass += drawn.Mass
			moment -= drawn.Mass * (drawn.CG[2] - w.CGM[2])
		}
		low := rapid.SampledFrom([]float64{1, 0.9}).Draw(t, "least weight of what is still")
		w.Weight.LowKg = a.mass - still*(1-low)

		worst := math.Inf(-1)
		var try func(i int, top, surfaces, mass float64)
		try = func(i int, top, surfaces, mass float64) {
			if i == len(all) {
				worst = max(worst, top/(still+mass)+surfaces/(low*still+mass))
				return
			}
			for _, l := range all[i] {
				try(i+1, top+l.Mass*(l.CG[2]-w.CGM[2]), surfaces+l.Any, mass+l.Mass)
			}
		}
		try(0, moment, 0, 0)
		got := a.highest(w, all, func(l takeoff.Level) float64 { return l.Any })
		assert.GreaterOrEqual(t, got, worst-1e-9)
		if low == 1 {
			assert.InDelta(t, worst, got, 1e-9)
		}
	})
}
