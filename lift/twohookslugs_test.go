package lift_test

import (
	"fmt"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"plumbhook/lift"
)

// One lug at each hook: CG above their line rolls over; to one side below it the
// load rolls until it is plumb below, atan(0.1/2) = 2.86°.
func TestRollAboutTheLineOfPicks(t *testing.T) {
	picks := "picks: [{name: A, at: [10, 0, 0]}, {name: C, at: [0, 0, 0]}]\nrig: {two hooks: {head: A, tail: C, hook heights: 0, plumb: 0}}\n"
	h := onTwo(t, hundred("[5, 0, 0.3]", picks))
	assert.False(t, h.Verdict.Acceptable)
	assert.Contains(t, h.Verdict.Reasons[0], "rolls over: the CG is 300 mm")
	assert.False(t, h.Stable)
	h = onTwo(t, hundred("[5, 0.1, -2]", picks))
	assert.True(t, h.Verdict.Acceptable, h.Verdict.Reasons)
	assert.InDelta(t, 2.8624, h.TwoHooks.RollDeg, 1e-4)
	assert.Contains(t, codesOf(h.Header), "tilt")
	h = onTwo(t, hundred("[5, 0.5, -2]", picks))
	assert.Contains(t, fmt.Sprint(h.Verdict.Reasons), "rolls up to 14.0°")
	h = onTwo(t, hundred("[5, 0, -0.05]", picks))
	assert.Contains(t, fmt.Sprint(h.Verdict.Reasons), "as good as unstable")
	h = onTwo(t, hundred("[12, 0, -1]", picks))
	assert.Contains(t, h.Verdict.Reasons[0], "slack hook: as the lift begins the tail hook carries nothing")
	h = onTwo(t, hundred("[9.95, 0, -1]", picks))
	assert.Contains(t, codesOf(h.Header), "near-slack", "5 cm from the plumb line, 1 m below")
}

// Two lugs 1.2 m apart, the CG 0.1 m off the middle, W 100 kN, level, head pull
// 40 kN. With a pair at one hook that alone holds the load: 40/2 ± 100·0.1/1.2 =
// 28.333 and 11.667 kN. On slings of 1 m to one hook they stand at acos 0.6 =
// 53.13° from horizontal, sine 0.8: 35.417 kN.
func TestLugsSideBySideShare(t *testing.T) {
	file := func(more string) string {
		return strings.Replace(upended("0", "", more), "[8, 0, 0]", "[8, 0.1, -0.3]", 1)
	}
	h := onTwo(t, file(""))
	assert.InDelta(t, 28.3333, h.Legs[0].TensionKN, 1e-3)
	assert.InDelta(t, 11.6667, h.Legs[1].TensionKN, 1e-3)
	assert.InDelta(t, 60, h.Legs[2].TensionKN, 1e-3)
	assert.Contains(t, codesOf(h.Header), "slings-plumb")
	h = onTwo(t, file(", slings: {A: 1, B: 1}"))
	assert.InDelta(t, 53.1301, h.Legs[0].FromHorizontalDeg, 1e-4)
	// The hook is 0.8 m above the head picks; at the CG, 8/20 of the way, the line
	// from hook to tail pick is 0.32 m up and 0.62 m above the CG: of less than
	// the 0.8 m, so that the moment counts 0.8/0.62 times:
	// (20 + 100·0.1/1.2·0.8/0.62)/0.8
	assert.InDelta(t, 38.4409, h.Legs[0].TensionKN, 1e-3)
	assert.NotContains(t, codesOf(h.Header), "slings-plumb")
	assert.True(t, h.Verdict.Acceptable, h.Verdict.Reasons)

	// CG 0.3 m out: 20 − 100·0.3/1.2 is below zero.
	h = onTwo(t, strings.Replace(file(""), "[8, 0.1, -0.3]", "[8, 0.3, -0.3]", 1))
	assert.Contains(t, fmt.Sprint(h.Verdict.Reasons), "the sling to B goes slack")
	assert.False(t, h.StableWorst)
	// CG 0.4 m up: the line from hook to hook is 0.32 m up there.
	h = onTwo(t, strings.Replace(file(", slings: {A: 1, B: 1}"), "[8, 0.1, -0.3]", "[8, 0, 0.4]", 1))
	assert.Contains(t, fmt.Sprint(h.Verdict.Reasons), "rolls over: turned 0.0° the CG is above the straight line from hook to hook")
	assert.False(t, h.Stable)
	// Slings of 0.65 m stand at acos(0.6/0.65) = 22.6°.
	h = onTwo(t, file(", slings: {A: 0.65, B: 0.65}"))
	assert.Contains(t, fmt.Sprint(h.Verdict.Reasons), "22.6")
}

// Tail 60 kN is 6118.3 kg; with a block of 200 kg 6318.3 kg.
func TestCranesOfTwoHooks(t *testing.T) {
	for _, tt := range []struct {
		crane, reason, code string
	}{
		{"{capacity: 8.5 t, block: 200 kg}", "", ""}, // 74.3 %
		{"{capacity: 8.4 t, block: 200 kg}", "", "tandem-share"},
		{"{capacity: 8.4 t, block: 200 kg, share: 75 %}", "over the share of its crane: the tail hook", ""},
		{"{capacity: 6.3 t, block: 200 kg}", "over capacity: the tail hook", ""},
	} {
		h := onTwo(t, upended("0", "", ", cranes: {tail: "+tt.crane+"}"))
		assert.Equal(t, tt.reason == "", h.Verdict.Acceptable, "%s: %v", tt.crane, h.Verdict.Reasons)
		assert.Contains(t, fmt.Sprint(h.Verdict.Reasons), tt.reason)
		assert.Equal(t, tt.code != "", strings.Contains(fmt.Sprint(codesOf(h.Header)), "tandem-share"), tt.crane)
		assert.InDelta(t, 6318.3, h.TwoHooks.Tail.Crane.LoadKg, 0.1)
	}
}

// Each hook is a set of its own: one sling for 60 kN, 6118.3 kg × 1.1 = 6730 kg.
func TestSlingsOfTwoHooks(t *testing.T) {
	yaml := "rules: EN\nfactors: {dynamic: 1.1}\n" + upended("0", "", ", slings: {C: 4}, cranes: {tail: {capacity: 8.5 t, block: 200 kg, share: 75 %}}")
	s, err := lift.Slings(read(t, yaml), lift.Options{})
	require.NoError(t, err)
	require.Len(t, s.ByHook, 2)
	assert.Equal(t, "tail", s.ByHook[1].Hook)
	assert.InDelta(t, 6730.1, s.Required["C"], 0.1)
	assert.InDelta(t, 6730.1, s.ByHook[1].Governing.RequiredKg, 0.1)
	// Head: 40 kN on two, 2243.4 kg each; as a set under EN 40 kN/9.80665·1.1/1.4
	// = 3204.8 kg (mode factor of two legs: EN 818-4).
	assert.InDelta(t, 3204.8, s.Required["A"], 0.1)
	assert.Equal(t, "C", s.Governing.Pick)
	// 6318.3 kg of load and block are 74.3 % of 8.5 t; with a chain of 4 m, over
	// 75 % once it weighs more than 56.7 kg; here it does not.
	assert.Greater(t, s.ByHook[1].Gross.TotalKg, 6318.3)
	assert.Equal(t, s.ByHook[1].Gross.TotalKg <= 6375, s.Verdict.Acceptable, s.Verdict.Reasons)

	sheet, err := lift.Sheet(read(t, yaml), lift.Options{})
	require.NoError(t, err)
	require.Len(t, sheet.Picks.Proposals, 1)
	assert.True(t, sheet.Picks.Proposals[0].Given)
	assert.Len(t, sheet.Slings.ByHook, 2)
	picks, err := lift.Picks(read(t, yaml), lift.Options{})
	require.NoError(t, err)
	assert.Len(t, picks.Proposals, 1, "those of the load file, and none proposed")
}
