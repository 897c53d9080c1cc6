package lift_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"plumbhook/lift"
)

const inAir = `
rules: EN
surroundings: {temperature: 15 C, chemicals: [none], edges: none, surface: painted, outdoors: true}
`

// By hand: as drawn 10 000 kg midway between two picks, 5 000 kg plumb on each; in
// the state "part" 8 000 kg with the CG at x = (6 000·2 000 − 2 000·500)/8 000 = 1 375,
// so that A takes 8 000·(3 500 − 1 375)/3 000 = 5 667 kg, more than 5 000. But for the
// set EN has 10 000/1.4 = 7 143 kg as drawn, and 8 000/1.4 = 5 714 kg in that state.
func TestSlingsAreSizedInTheStateThatNeedsMost(t *testing.T) {
	l := read(t, `
load: two machines
units: mm
parts:
  - {name: body, weight: 6000 kg, box: 4000 x 1000 x 2000, center: [2000, 500, 500], tolerance: 0 %, status: weighed}
  - {name: left, weight: 2000 kg, box: 500 x 500 x 500, center: [-500, 500, 400], tolerance: 0 %, status: weighed}
  - {name: right, weight: 2000 kg, box: 500 x 500 x 500, center: [4500, 500, 400], tolerance: 0 %, status: weighed}
states: {part: {without: [right]}}
picks: [{name: A, at: [500, 500, 1500]}, {name: B, at: [3500, 500, 1500]}]
hook: {above: picks, height: 8000}
legs: {lengths: level}
limits: {crane: {capacity: 10050 kg}}
`+inAir)
	s, err := lift.Slings(l, lift.Options{})
	require.NoError(t, err)
	assert.Equal(t, "part", s.State, "the greatest tension is in this state")
	assert.InDelta(t, 10000/1.4, s.Governing.RequiredKg, 1)
	assert.Equal(t, "as drawn", s.Governing.State)
	assert.InDelta(t, 10000/1.4, s.Required["A"], 1)
	for _, f := range s.Families {
		if f.Choice != nil {
			assert.GreaterOrEqual(t, f.Choice.RatedKg, 10000/1.4, f.Family)
		}
	}
	assert.Greater(t, s.Gross.TotalKg, 10050.0)
	assert.False(t, s.Verdict.Acceptable, "load and slings as drawn are more than the crane lifts")

	sheet, err := lift.Sheet(l, lift.Options{})
	require.NoError(t, err)
	assert.InDelta(t, 10000/1.4, sheet.Slings.Governing.RequiredKg, 1)
}

// By hand: with the head gear the CG is at 7 200, and upright the head hook has all
// 10 000 kg; without it the body's 6 000 kg put (9 000 − 5 000)/8 500 of themselves, 2 824
// kg, on the tail hook, with it 10 000·(9 000 − 7 200)/8 500 = 2 118 kg. Each hook has its
// own governing state; here one that its crane can't lift must not hide the other.
func TestEachHookIsSizedInTheStateThatNeedsMost(t *testing.T) {
	l := read(t, `
load: column
units: mm
parts:
  - {name: body, weight: 6000 kg, box: 10000 x 500 x 500, center: [5000, 0, 0], tolerance: 0 %, status: weighed}
  - {name: head gear, weight: 4000 kg, box: 500 x 500 x 500, center: [10500, 0, 0], tolerance: 0 %, status: weighed}
states: {bare: {without: [head gear]}}
picks: [{name: H, at: [9000, 0, 300]}, {name: T, at: [500, 0, 300]}]
rig: {two hooks: {head: H, tail: T, turn: {from: 0, to: 80}, slings: {H: 3000, T: 3000}, cranes: {head: {capacity: 12 t}, tail: {capacity: 2.5 t}}}}
`+inAir)
	s, err := lift.Slings(l, lift.Options{})
	require.NoError(t, err)
	assert.Equal(t, "bare", s.State, "its tail crane lifts less")
	require.Len(t, s.ByHook, 2)
	assert.GreaterOrEqual(t, s.ByHook[0].Governing.RequiredKg, 10000.0)
	assert.Equal(t, "as drawn", s.ByHook[0].Governing.State)
	assert.GreaterOrEqual(t, s.ByHook[1].Governing.RequiredKg, 2823.0)
	assert.Empty(t, s.ByHook[1].Governing.State)
	assert.GreaterOrEqual(t, s.Required["H"], 10000.0)
}

// By hand: as drawn each end of the bar holds 3 000 kg and the hook 6 000 kg and the
// bar's 200; without the overhang the right end holds 3 500 of 5 000 kg. The drops
// are governed by that state, the set of the two legs to the hook by the heavier: EN
// has 6 200/1.4 = 4 429 kg for it, 5 200/1.4 = 3 714 kg in the other.
func TestEachSetUnderABarIsSizedInTheStateThatNeedsMost(t *testing.T) {
	l := read(t, `
load: frame
units: mm
parts:
  - {name: body, weight: 1000 kg, box: 6000 x 1000 x 300, center: [3000, 500, 150], tolerance: 0 %, status: weighed}
  - {name: left, weight: 1000 kg, box: 800 x 800 x 200, center: [1000, 500, 150], tolerance: 0 %, status: weighed}
  - {name: right, weight: 3000 kg, box: 800 x 800 x 200, center: [5000, 500, 150], tolerance: 0 %, status: weighed}
  - {name: overhang, weight: 1000 kg, box: 800 x 800 x 200, center: [-1000, 500, 150], tolerance: 0 %, status: weighed}
states: {bare: {without: [overhang]}}
picks: [{name: A, at: [1000, 0, 300]}, {name: B, at: [5000, 0, 300]}, {name: C, at: [5000, 1000, 300]}, {name: D, at: [1000, 1000, 300]}]
rig: {bar: {kind: spreader, weight: 200 kg, length: 4000, height: 3000, hook: 3000, holds: [[A, D], [B, C]]}}
`+inAir)
	s, err := lift.Slings(l, lift.Options{})
	require.NoError(t, err)
	require.Len(t, s.Sets, 2)
	assert.Equal(t, "bare", s.State)
	assert.Empty(t, s.Sets[0].Governing.State)
	assert.GreaterOrEqual(t, s.Sets[0].Governing.RequiredKg, 1750.0)
	assert.Equal(t, "as drawn", s.Sets[1].Governing.State)
	assert.InDelta(t, 6200/1.4, s.Sets[1].Governing.RequiredKg, 1)
	assert.InDelta(t, 6200, s.Gross.SizingKg+s.Gross.BarsKg, 1e-6)
}
