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
