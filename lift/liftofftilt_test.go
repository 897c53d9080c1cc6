package lift_test

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

const slab = `
load: slab
units: m
parts: [{name: slab, weight: 4000 kg, box: 4 x 2 x 1, center: [2, 1, 0.5], tolerance: 0 %, status: weighed}]
hook: {above: picks, height: 3}
legs: {lengths: level}
`

const (
	slabFour = "picks: [{name: A, at: [0.5, 0.2, 1]}, {name: B, at: [3.5, 0.2, 1]}, {name: C, at: [3.5, 1.8, 1]}, {name: D, at: [0.5, 1.8, 1]}]\n"
	slabTwo  = "picks: [{name: A, at: [0.5, 1, 1]}, {name: B, at: [3.5, 1, 1]}]\n"
)

// By hand: 40 kN of suction, 0.5 m to one side of the line of two picks and 1 m below
// it, and 39.227 kN of weight, 0.5 m below it, have their centre 40·0.5/79.227 = 0.2524 m
// to the side and (40·1 + 39.227·0.5)/79.227 = 0.7524 m below: 18.54° for it to be plumb.
func TestSuctionToOneSideOfTwoPicksIsRefused(t *testing.T) {
	h := legsOf(t, slab+slabTwo+"lift-off: {suction: 5 kN/m2, area: 8 m2, at: [2, 1.5, 0]}\n")
	require.NotNil(t, h.LiftOff)
	assert.False(t, h.Verdict.Acceptable)
	assert.Contains(t, strings.Join(h.Verdict.Reasons, "\n"), "tilt by 18.5° to be in balance")

	h = legsOf(t, slab+slabTwo+"lift-off: {suction: 5 kN/m2, area: 8 m2, at: [2, 1, 0]}\n")
	assert.True(t, h.Verdict.Acceptable, "in line with the picks: %v", h.Verdict.Reasons)
}

// Six times the weight, at a corner outside the picks: nothing balances that.
func TestSuctionOutsideThePicksIsRefused(t *testing.T) {
	h := legsOf(t, slab+slabFour+"lift-off: {suction: 60 kN/m2, area: 4 m2, at: [3.9, 1.9, 0]}\n")
	assert.False(t, h.Verdict.Acceptable)
	assert.Contains(t, strings.Join(h.Verdict.Reasons, "\n"), "at lift-off")

	h = legsOf(t, slab+slabFour+"lift-off: {suction: 1 kN/m2, area: 8 m2}\n")
	assert.True(t, h.Verdict.Acceptable, h.Verdict.Reasons)
	assert.False(t, warned(h.Warnings, "tilt-at-lift-off"))
}
