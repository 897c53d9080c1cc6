package lift_test

import (
	"math"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"plumbhook/lift"
)

// By hand: the hook is 3 m over the top of a crate 1 m high that hangs level, so
// its underside is 4 m below the hook. Derived here.
func TestStackUpByHand(t *testing.T) {
	for _, tt := range []struct {
		limits                     string
		hook, underside, over, set float64
		reason                     string
	}{
		{"hook height: 9", 9, 5, 0, 0, ""},
		{"hook height: 9, obstacle: {height: 4, clearance: 0.3}, set down on: 1.2", 9, 5, 0.7, 3.8, ""},
		{"obstacle: {height: 4, clearance: 0.3}, crane: {capacity: 9 t, tip height: 11, block height: 2}", 9, 5, 0.7, 0, ""},
		{"hook height: 8.2, obstacle: {height: 4, clearance: 0.3}, set down on: 1.2", 8.2, 4.2, -0.1, 3, "too low over the obstacle"},
		{"hook height: 5, set down on: 1.2", 5, 1, 0, -0.2, "can't be lifted as high as what it is set down on"},
		{"hook height: 3.5", 3.5, -0.5, 0, 0, "would not leave the ground"},
	} {
		h, err := lift.Legs(read(t, crate("limits: {"+tt.limits+"}\n")), lift.Options{})
		require.NoError(t, err, tt.limits)
		s := h.Stack
		require.NotNil(t, s, tt.limits)
		near := func(want, got float64) { t.Helper(); assert.InDelta(t, want, got, 1e-4, tt.limits) }
		near(tt.hook, s.HookM)
		near(3, s.LegsM)
		near(1, s.LoadM)
		near(tt.underside, s.UndersideM)
		left := tt.underside
		if strings.Contains(tt.limits, "obstacle") {
			near(tt.over, *s.OverM)
			left = min(left, tt.over)
		}
		if strings.Contains(tt.limits, "set down") {
			near(tt.set, *s.SetDownM)
			left = min(left, tt.set)
		}
		near(left, s.LeftM)
		near(tt.hook-left, s.HookNeededM)
		assert.Equal(t, tt.reason == "", h.Verdict.Acceptable, "%s: %v", tt.limits, h.Verdict.Reasons)
		assert.Contains(t, strings.Join(h.Verdict.Reasons, "\n"), tt.reason)
	}
	h, err := lift.Legs(read(t, crate("")), lift.Options{})
	require.NoError(t, err)
	assert.Nil(t, h.Stack, "no height of the hook is stated")
}

// A load that hangs out of level needs more height: never less than the way from
// the hook to the lowest corner of its box in the pose at the best CG.
func TestStackHoldsTheLowestCorner(t *testing.T) {
	h, err := lift.Legs(read(t, `
load: crate
units: m
parts: [{name: crate, weight: 2000 kg, center: [0.3, 0.1, 0.5], tolerance: 5 %, box: 4 x 2 x 1}]
picks: [{name: A, at: [2, 1, 1]}, {name: B, at: [-2, 1, 1]}, {name: C, at: [-2, -1, 1]}, {name: D, at: [2, -1, 1]}]
legs: {lengths: {A: 3.6, B: 3.5, C: 3.5, D: 3.6}, length tolerance: 5 mm}
limits: {hook height: 12, tilt: 10}
`), lift.Options{})
	require.NoError(t, err)
	require.True(t, h.Solved, h.Verdict.Reasons)
	s := h.Stack
	assert.InDelta(t, math.Hypot(4, 2)*math.Sin(h.TiltWorstDeg*math.Pi/180), s.DropM, 1e-9)
	assert.Greater(t, s.DropM, 0.05)
	// The pose from its own figures: up is from the CG to the hook.
	up := h.HookM
	up[0] -= 0.3
	up[1] -= 0.1
	up[2] -= 0.5
	up = up.Mul(1 / up.Len())
	lowest := 0.0
	for _, x := range []float64{-2, 2} {
		for _, y := range []float64{-1, 1} {
			for _, z := range []float64{0, 1} {
				lowest = max(lowest, h.HookM.Dot(up)-(x*up[0]+y*up[1]+z*up[2]))
			}
		}
	}
	assert.GreaterOrEqual(t, s.LegsM+s.LoadM+s.DropM, lowest)
}

const twoLegs = `
load: block
units: m
parts: [{name: block, weight: 2000 kg, center: [0, 0, -1], tolerance: 0.0001 %, box: 2 x 1 x 1, status: weighed}]
picks: [{name: A, at: [-1, 0, 0]}, {name: B, at: [1, 0, 0]}]
hook: {above: picks, height: 1.5}
legs: {lengths: level}
rules: US
surroundings: {temperature: 20 C, chemicals: [none], edges: none, surface: rough, outdoors: false}
`

// On two legs alike T = W / (2 sin a), and the leg is h / sin a long, at every
// height (statics).
func TestHeightAgainstTensionByHand(t *testing.T) {
	s, err := lift.Slings(read(t, twoLegs), lift.Options{})
	require.NoError(t, err)
	c := s.Heights
	require.NotNil(t, c)
	require.Len(t, c.Rows, 9)
	for i, row := range c.Rows {
		sine := row.HookM / math.Hypot(1, row.HookM)
		assert.InEpsilon(t, 2000*9.80665/1000/2/sine, row.WorstTensionKN, 1e-4)
		assert.InEpsilon(t, row.HookM/sine, row.LongestM, 1e-9)
		assert.InDelta(t, math.Asin(sine)*180/math.Pi, row.FlattestDeg, 1e-6)
		assert.True(t, row.Acceptable, row.Reasons)
		if i > 0 {
			before := c.Rows[i-1]
			assert.Greater(t, row.HookM, before.HookM)
			assert.Less(t, row.WorstTensionKN, before.WorstTensionKN, "more height, less tension")
			assert.LessOrEqual(t, row.RequiredKg, before.RequiredKg)
			assert.Equal(t, row.Size != before.Size, row.Saves)
		}
	}
	assert.GreaterOrEqual(t, c.Rows[0].WorstFlattestDeg, 30-1e-6)
	assert.InDelta(t, 30, c.Rows[0].WorstFlattestDeg, 0.1, "from the flattest allowed")
	assert.InDelta(t, 75, c.Rows[8].FlattestDeg, 1e-6)
	four, err := lift.Slings(read(t, crate("")), lift.Options{})
	require.NoError(t, err)
	for i, row := range four.Heights.Rows[1:] {
		assert.Less(t, row.WorstTensionKN, four.Heights.Rows[i].WorstTensionKN, "four legs: more height, less tension")
	}
	// At the height of the load file the curve and the sizing are the same.
	again, err := lift.Slings(read(t, strings.Replace(twoLegs, "height: 1.5", "height: "+shown(c.Rows[3].HookM), 1)), lift.Options{})
	require.NoError(t, err)
	assert.InEpsilon(t, c.Rows[3].WorstTensionKN, again.Governing.TensionKN, 1e-6)
}

// What ends the heights is the least of the headroom stated and what the stack-up
// leaves.
func TestHeightsEndAtTheHeadroom(t *testing.T) {
	for _, tt := range []struct {
		limits string
		most   float64 // m of hook over the picks, which are 0.5 m over the top of the block
		top    string
	}{
		{"headroom: 2.5", 2, "the headroom stated"},
		{"hook height: 6, set down on: 2", 2.5, "the greatest height of the hook"}, // 6 − 2 − 1 of block − 0.5
		{"headroom: 2.2, hook height: 6, set down on: 2", 1.7, "the headroom stated"},
	} {
		s, err := lift.Slings(read(t, twoLegs+"limits: {"+tt.limits+"}\n"), lift.Options{})
		require.NoError(t, err)
		require.NotNil(t, s.Heights)
		rows := s.Heights.Rows
		assert.InDelta(t, tt.most, rows[len(rows)-1].HookM, 0.01, tt.limits)
		assert.Contains(t, s.Heights.Top, tt.top)
		for _, row := range rows {
			assert.True(t, row.Acceptable, "%g m: %v", row.HookM, row.Reasons)
		}
	}
	s, err := lift.Slings(read(t, strings.Replace(twoLegs, "height: 1.5", "height: 0.7", 1)+"limits: {headroom: 0.9, least angle from horizontal: 45}\n"), lift.Options{})
	require.NoError(t, err)
	assert.Empty(t, s.Heights.Rows)
	assert.Contains(t, s.Heights.Text, "no height keeps both")
}

// Slings from the rack are chosen so that the load passes: 3.6 m legs stand the
// hook 2.83 m over picks 2.236 m out, 2.9 m ones 1.85 m (Pythagoras).
func TestStockKeepsTheStackUp(t *testing.T) {
	const rack = "legs: {lengths: {stock: [2.9, 3.6]}}\n"
	with := func(limits string) lift.Hung {
		yaml := strings.Replace(crate(limits), "hook: {above: picks, height: 3}\nlegs: {lengths: level}\n", rack, 1)
		h, err := lift.Legs(read(t, yaml), lift.Options{})
		require.NoError(t, err)
		return h
	}
	free := with("limits: {tilt: 3}\n")
	low := with("limits: {tilt: 3, hook height: 4.5, set down on: 1.5}\n")
	assert.InDelta(t, 3.6, free.Legs[0].LengthM, 1e-9, "the nearest to 60°: %v", free.Verdict.Reasons)
	assert.InDelta(t, 2.9, low.Legs[0].LengthM, 1e-9, low.Verdict.Reasons)
	assert.Positive(t, low.Stack.LeftM)
	none := with("limits: {tilt: 3, hook height: 3.5, set down on: 1.5}\n")
	assert.Contains(t, strings.Join(none.Verdict.Reasons, "\n"), "no legs from stock")
}
