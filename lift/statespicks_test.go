package lift_test

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"plumbhook/lift"
)

// As drawn the CG is midway at x = −250, between the picks; with the body off it is that
// of the gear, at −2 500, two metres beyond pick A: nothing hangs so.
func TestPicksAreRefusedForAnyState(t *testing.T) {
	l := read(t, `
load: body and gear
units: mm
parts:
  - {name: body, weight: 6000 kg, box: 4000 x 1000 x 1000, center: [2000, 500, 500], tolerance: 0 %, status: weighed}
  - {name: gear, weight: 6000 kg, box: 4000 x 1000 x 1000, center: [-2500, 500, 500], tolerance: 0 %, status: weighed}
states: {body off: {without: [body]}}
picks: [{name: A, at: [-500, 500, 1000]}, {name: B, at: [3500, 500, 1000]}]
hook: {above: picks, height: 5000}
legs: {lengths: level}
`)
	p, err := lift.Picks(l, lift.Options{})
	require.NoError(t, err)
	assert.False(t, p.Verdict.Acceptable)
	assert.Contains(t, strings.Join(p.Verdict.Reasons, "\n"), `in the state "body off": CG outside the picks`)
	assert.False(t, p.Proposals[0].Verdict.Acceptable)

	p, err = lift.Picks(l, lift.Options{State: "as drawn"})
	require.NoError(t, err)
	assert.True(t, p.Verdict.Acceptable, "that state alone was asked for: %v", p.Verdict.Reasons)
}

// What is against the load itself, here a weighing that contradicts the take-off, is
// against picks that would do.
func TestPicksAreRefusedForTheLoad(t *testing.T) {
	l := read(t, `
load: body
units: mm
parts: [{name: body, weight: 4000 kg, box: 4000 x 2000 x 1000, center: [2000, 1000, 500], tolerance: 2 %, status: calculated}]
weighings:
  - name: floor
    accuracy: 0.5 %
    cells:
      - {name: a, at: [0, 1000, 0], reads: 3000 kg}
      - {name: b, at: [4000, 1000, 0], reads: 3000 kg}
picks: [{name: A, at: [500, 200, 1000]}, {name: B, at: [3500, 200, 1000]}, {name: C, at: [2000, 1800, 1000]}]
hook: {above: picks, height: 5000}
legs: {lengths: level}
`)
	p, err := lift.Picks(l, lift.Options{})
	require.NoError(t, err)
	assert.False(t, p.Verdict.Acceptable)
	assert.Contains(t, strings.Join(p.Verdict.Reasons, "\n"), "standard deviations apart")
}
