package lift_test

import (
	"fmt"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"plumbhook/lift"
)

// A square pan of 4 x 4 x 1 m, 1000 kg, 3 m below two picks: with h of water
// ρI/M is 1000·4·4³/12/(1000 + 16000·h), 1.3 m nearly full and 5.1 m at 0.2 m,
// more than the 3 m below the picks. The level is not measured: it may be there.
func TestWorstLevelIsNotTheOneStated(t *testing.T) {
	pan := func(more string) lift.Hung {
		h, err := lift.Legs(read(t, fmt.Sprintf(`
load: pan
units: mm
parts:
  - {name: pan, weight: 1000 kg, box: 4000 x 4000 x 1000, at: [0, 0, 0], tolerance: 0 %%,
     contents: {fluid: {name: w, density: 1000 kg/m3, tolerance: 0 %%}, fill: 95 %%, tolerance: 0 %%%s, inside: {box: 4000 x 4000 x 1000, center: [0, 0, 0]}}}
picks: [{name: A, at: [-2000, 0, 3000]}, {name: B, at: [2000, 0, 3000]}]
hook: {above: picks, height: 4000}
`, more)), lift.Options{})
		require.NoError(t, err)
		return h
	}
	h := pan("")
	assert.False(t, h.StableWorst)
	assert.False(t, h.Verdict.Acceptable)
	assert.Greater(t, h.Liquid.RiseWorstM, 4.5)
	assert.Len(t, h.Verdict.Reasons, 1, "said once")
	assert.True(t, pan(", measured: true").Verdict.Acceptable)
}

// A trough of 8 m half full, hung on two picks along it: ρI/M along is 1000·8³/12
// /6500 = 6.56 m. With its motor 1 m off centre, which its place allows, it hangs
// by hand iteration at 2.1° and its worse leg carries 38.24 kN (solved by the
// program for the motor there, agreeing with levers of the tilted load); the worst
// told for the motor anywhere must not be less.
func TestLiquidAlongThePicksLoadsTheLeg(t *testing.T) {
	trough := func(x, position, legs string) lift.Hung {
		h, err := lift.Legs(read(t, `
load: trough
units: mm
parts:
  - {name: trough, weight: 2000 kg, box: 8000 x 1000 x 1000, corner: [-4000, -500, 0], tolerance: 0 %,
     contents: {fluid: {name: w, density: 1000 kg/m3, tolerance: 0 %}, fill: 50 %, tolerance: 0 %, measured: true, inside: {box: 8000 x 1000 x 1000, corner: [-4000, -500, 0]}}}
  - {name: motor, weight: 500 kg, at: [`+x+`, 0, 500], position: `+position+`, tolerance: 0 %}
picks: [{name: A, at: [-3000, 0, 3000]}, {name: B, at: [3000, 0, 3000]}]
`+legs), lift.Options{})
		require.NoError(t, err)
		require.True(t, h.Solved, h.Verdict.Reasons)
		return h
	}
	there := trough("1000", "0", "legs: {lengths: 6708.204}\n")
	anywhere := trough("0", "1000", "hook: {above: picks, height: 6000}\n")
	worst, told := 0.0, 0.0
	for i := range there.Legs {
		worst, told = max(worst, there.Legs[i].TensionKN), max(told, anywhere.Legs[i].WorstTensionKN)
	}
	assert.InDelta(t, 38.24, worst, 0.02)
	assert.GreaterOrEqual(t, told, worst*0.998, "to first order in the tilt")
	assert.GreaterOrEqual(t, anywhere.TiltWorstDeg, there.TiltDeg*0.98)
	assert.InDelta(t, 6.56, anywhere.Liquid.RiseAlongM, 0.01)
}

// What load cells say of the load as drawn holds in its states: heavier by 300 kg
// than the best, or a conflict.
func TestWeighingHoldsInTheStates(t *testing.T) {
	const load = `
load: block
units: mm
parts:
  - {name: a, weight: 2000 kg, box: 2000 x 2000 x 1000, center: [0, 0, 500], tolerance: 10 %%}
  - {name: b, weight: 100 kg, center: [0, 0, 500], tolerance: 0.1 %%}
states:
  bare: {without: [b]}
weighings:
  - {name: shop, accuracy: 0.1 %%, cells: [{name: A, at: [-900, -900, 0], reads: %s}, {name: B, at: [900, -900, 0], reads: %s}, {name: C, at: [900, 900, 0], reads: %s}, {name: D, at: [-900, 900, 0], reads: %s}]}
picks: [{name: A, at: [-900, 0, 1200]}, {name: B, at: [900, 0, 1200]}]
hook: {above: picks, height: 2000}
`
	with := func(kg string) *lift.Hung {
		h, err := lift.Legs(read(t, fmt.Sprintf(load, kg, kg, kg, kg)), lift.Options{State: "bare"})
		require.NoError(t, err)
		return &h
	}
	heavy := with("600 kg")
	assert.Greater(t, heavy.SizingKg, 2285.0, "2400 as weighed less the 100 kg of b, and its doubt")
	conflict := with("1000 kg")
	assert.False(t, conflict.Verdict.Acceptable)
	assert.Contains(t, conflict.Verdict.Reasons[0], "standard deviations apart")
}

// What liquid swings over is not called stable in the same breath: at a fifth the
// trough's surface acts as if the CG were 1000·8³/12/3600 = 11.85 m higher, and the
// hook is 9 m above its bottom.
func TestLiquidThatSwingsALoadOverIsSaidOnce(t *testing.T) {
	h, err := lift.Legs(read(t, `
load: trough
units: mm
parts:
  - {name: trough, weight: 2000 kg, box: 8000 x 1000 x 1000, corner: [-4000, -500, 0], tolerance: 0 %,
     contents: {fluid: {name: w, density: 1000 kg/m3, tolerance: 0 %}, fill: 20 %, tolerance: 0 %, measured: true, inside: {box: 8000 x 1000 x 1000, corner: [-4000, -500, 0]}}}
picks: [{name: A, at: [-3000, 0, 3000]}, {name: B, at: [3000, 0, 3000]}]
hook: {above: picks, height: 6000}
`), lift.Options{})
	require.NoError(t, err)
	assert.False(t, h.Stable)
	assert.False(t, h.StableWorst)
	require.Len(t, h.Verdict.Reasons, 1)
	assert.Contains(t, h.Verdict.Reasons[0], "unstable: not stable: liquid that runs along the load acts as if the CG were 11.852 m")
	assert.Contains(t, h.Stability.Text, "not stable")
	require.NotNil(t, h.Stability.Toward)
	assert.InDelta(t, 1, h.Stability.Toward[0]*h.Stability.Toward[0], 1e-9, "along the picks")
}

// A part that may stand 50 mm off its place may be weighed 10 mm off it, though
// its box, a point, does not reach there.
func TestWeighedWithinThePlacesOfTheParts(t *testing.T) {
	w, err := lift.Weigh(read(t, `
load: block
units: mm
parts: [{name: block, weight: 2000 kg, at: [0, 0, 500], position: 50, tolerance: 5 %}]
weighings:
  - {name: shop, accuracy: 0.5 %, cells: [{name: A, at: [-1000, -1000, 0], reads: 495 kg}, {name: B, at: [1000, -1000, 0], reads: 495 kg}, {name: C, at: [1000, 1000, 0], reads: 505 kg}, {name: D, at: [-1000, 1000, 0], reads: 505 kg}]}
`), lift.Options{})
	require.NoError(t, err)
	assert.True(t, w.Verdict.Acceptable, w.Verdict.Reasons)
	assert.InDelta(t, 0.010, w.AsWeighed.CGM[1], 0.001)
}

// What a crew has to see to is among the assumptions: drained in a state, baffled.
func TestDrainedAndBaffledAreAssumed(t *testing.T) {
	l := read(t, `
load: tank
units: mm
parts:
  - {name: tank, weight: 500 kg, box: 1000 x 1000 x 1000, center: [0, 0, 500], status: weighed,
     contents: {fluid: {name: w, density: 1000 kg/m3, tolerance: 1 %}, depth: 300, baffled: true, inside: {box: 1000 x 1000 x 1000, corner: [-500, -500, 0]}}}
states: {dry: {without: [tank contents]}}
`)
	w, err := lift.Weigh(l, lift.Options{})
	require.NoError(t, err)
	assert.Contains(t, w.Assumptions, "tank contents: baffled, so that it can't run, as the load file says")
	w, err = lift.Weigh(l, lift.Options{State: "dry"})
	require.NoError(t, err)
	assert.Contains(t, w.Assumptions, `tank is empty and drained in the state "dry"`)
}
