package lift_test

import (
	"fmt"
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"plumbhook/lift"
)

// tank is a dead weight and an open-topped space of 2000 x 1000 x 1000 with water
// of 500 in it, on one leg: it hangs from its pick, 2000 above the datum.
func tank(off float64, more string) string {
	return fmt.Sprintf(`
load: tank
units: mm
parts:
  - {name: frame, weight: 1500 kg, box: 2200 x 1200 x 1000, center: [%g, 0, 500], tolerance: 0.1 %%,
     contents: {fluid: {name: water, density: 1000 kg/m3, tolerance: 0.1 %%}, depth: 500, tolerance: 0.1 %%, inside: {box: 2000 x 1000 x 1000, corner: [-1000, -500, 0]}%s}}
picks: [{name: A, at: [0, 0, 2000]}]
legs: {lengths: 2000}
limits: {tilt: 40}
`, off, more)
}

// Water in a rectangular tank that tilts by φ, its surface clear of bottom and
// top: with breadth B and depth d it moves by B²·tan φ/12d to the low side and
// rises by B²·tan²φ/24d (elementary statics of a trapezoid). The load hangs where
// its CG is plumb below the pick, found here by halving the interval.
func exactTilt(off float64) float64 {
	const (
		b, d, pick    = 2.0, 0.5, 2.0
		water, weight = 1000.0, 1500.0
	)
	out := func(phi float64) float64 { // of the CG from the plumb line, pick on the left of up
		t := math.Tan(phi)
		x := (weight*off + water*b*b*t/(12*d)) / (weight + water)
		z := (weight*0.5 + water*(d/2+b*b*t*t/(24*d))) / (weight + water)
		return x*math.Cos(phi) - (pick-z)*math.Sin(phi)
	}
	low, high := 0.0, 0.4
	for range 100 {
		if mid := (low + high) / 2; out(mid) > 0 {
			low = mid
		} else {
			high = mid
		}
	}
	return low
}

func TestFreeLiquidTiltsTheLoadFurther(t *testing.T) {
	for _, off := range []float64{0.01, 0.1, 0.3} {
		h, err := lift.Legs(read(t, tank(1000*off, "")), lift.Options{})
		require.NoError(t, err)
		require.True(t, h.Solved, h.Verdict.Reasons)
		assert.InDelta(t, 180/math.Pi*exactTilt(off), h.TiltDeg, 1e-5, "off by %g m", off)

		// First order: tan φ = e/(H − ρI/M), H from pick to CG, e the CG's offset
		// level as drawn, I = 1·2³/12 (naval architecture's free-surface effect,
		// textbooks, from memory; I of a rectangle, handbooks).
		const rise = 1000 * (1.0 * 8 / 12) / 2500
		e, lever := 1500*off/2500, 2-(1500*0.5+1000*0.25)/2500
		assert.InEpsilon(t, e/(lever-rise), math.Tan(h.TiltDeg*math.Pi/180), 0.02*off+1e-4)
		assert.InEpsilon(t, rise, h.Liquid.RiseM, 0.2*off+1e-6, "the surface is longer when it slopes")
		assert.GreaterOrEqual(t, h.Liquid.RiseWorstM, rise*(1-1e-9), "at the lightest")

		stuck, err := lift.Legs(read(t, tank(1000*off, ", baffled: true")), lift.Options{})
		require.NoError(t, err)
		assert.Nil(t, stuck.Liquid)
		assert.InDelta(t, 180/math.Pi*math.Atan2(e, lever), stuck.TiltDeg, 1e-9)
		assert.InDelta(t, stuck.Stability.MarginM-h.Liquid.RiseM, h.Stability.MarginM, 0.02*off+1e-6, "what the surface takes off the margin")
	}
}

// Four legs hold the load as one with the hook, and it can still swing about the
// hook: with the surface's rise, ρI/M, above the way from CG to hook it swings
// over. Water 100 deep in a tank of 4 x 1 m, 40 kg of tank: M = 440, I = 4³/12,
// ρI/M = 12.1 m, on a hook 1.5 m above.
func TestLiquidThatSwingsAPyramidOver(t *testing.T) {
	h, err := lift.Legs(read(t, `
load: tray
units: mm
parts:
  - {name: tray, weight: 40 kg, box: 4000 x 1000 x 300, center: [0, 0, 150], tolerance: 1 %,
     contents: {fluid: {name: water, density: 1000 kg/m3, tolerance: 0.1 %}, depth: 100, measured: true, inside: {box: 4000 x 1000 x 300, corner: [-2000, -500, 0]}}}
picks: [{name: A, at: [-1800, -450, 300]}, {name: B, at: [1800, -450, 300]}, {name: C, at: [1800, 450, 300]}, {name: D, at: [-1800, 450, 300]}]
hook: {above: picks, height: 1500}
`), lift.Options{})
	require.NoError(t, err)
	assert.False(t, h.Verdict.Acceptable)
	require.NotEmpty(t, h.Verdict.Reasons)
	assert.Contains(t, h.Verdict.Reasons[0], "unstable: liquid that can run acts as if the CG of the load were up to 12.")
	assert.Contains(t, h.Verdict.Reasons[0], "no lower than the hook")
}
