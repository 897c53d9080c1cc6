package lift_test

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"plumbhook/lift"
)

// What is worked out for one hook alone is never left out without a word.
func TestWhatIsNotLookedAtIsSaid(t *testing.T) {
	const beam = `
load: beam
units: m
parts: [{name: beam, weight: 1000 kg, box: 4 x 0.3 x 0.3, center: [2, 0, 0], tolerance: 0 %, status: weighed}]
picks: [{name: A, at: [0.5, 0, 0.15], lug: {normal: x}}, {name: B, at: [3.5, 0, 0.15]}]
candidates: {grid: 0.5}
`
	for where, rig := range map[string]string{
		"under bars":   "rig: {bar: {kind: spreader, weight: 100 kg, length: 3, height: 1, hook: 2, holds: [A, B]}}\n",
		"on two hooks": "rig: {two hooks: {head: A, tail: B, turn: {from: 0, to: 20}}}\n",
	} {
		h := legsOf(t, beam+rig)
		assert.True(t, warned(h.Warnings, "lug-not-used"), where)
		assert.Contains(t, strings.Join(h.Assumptions, "\n"), where+": whether legs, bars and hook")
		p, err := lift.Picks(read(t, beam+rig), lift.Options{})
		require.NoError(t, err)
		assert.Contains(t, strings.Join(p.Assumptions, "\n"), "no other picks are proposed "+where)
	}
	h := legsOf(t, beam+"hook: {above: picks, height: 3}\nlegs: {lengths: level}\n")
	assert.False(t, warned(h.Warnings, "lug-not-used"))
}

// A slip of a unit in the weight of a bar must end as a problem of the file, and not
// as a fault where slings are sized; a bar that is merely odd is asked about.
func TestBarsOfOddWeight(t *testing.T) {
	under := func(weight string) string {
		return `
load: slab
units: m
rules: EN
parts: [{name: slab, weight: 6280 kg, box: 4 x 2 x 0.1, center: [0, 0, 0.05], tolerance: 0 %}]
picks: [{name: left, at: [-1.5, 0, 0.1]}, {name: right, at: [1.5, 0, 0.1]}]
rig: {bar: {kind: spreader, weight: ` + weight + `, length: 3, height: 1, hook: 2, holds: [left, right]}}
`
	}
	for _, weight := range []string{"1e9 kg", "1e7 kg"} {
		_, err := lift.Sheet(read(t, under(weight)), lift.Options{})
		require.Error(t, err, weight)
		assert.NotErrorIs(t, err, lift.ErrProgram, weight)
		assert.ErrorContains(t, err, "load and bars come to 1", weight)
		assert.ErrorContains(t, err, "look at the units of the bars' weights", weight)
	}
	assert.True(t, warned(legsOf(t, under("40 t")).Warnings, "bar-heavy"))
	assert.False(t, warned(legsOf(t, under("20 t")).Warnings, "bar-heavy"))
	_, err := lift.Legs(read(t, strings.Replace(under("100 kg"), "6280 kg", "1.1e7 kg", 1)), lift.Options{})
	assert.ErrorContains(t, err, "the load comes to 11 000 000 kg")
}
