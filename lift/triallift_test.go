package lift_test

import (
	"math"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"plumbhook/lift"
)

// By hand: 3000 kg ± 10 % at x = 0.2 between picks at ∓1, legs all plumb but for a
// part in a million: B reads 0.6 of the weight.
func TestTrialLiftReadings(t *testing.T) {
	h, err := lift.Legs(read(t, `
load: beam
units: m
parts:
  - {name: beam, weight: 3000 kg, center: [0.2, 0, -0.5], tolerance: 10 %, box: 4 x 1 x 1}
picks:
  - {name: A, at: [-1, 0, 0]}
  - {name: B, at: [1, 0, 0]}
hook: {above: picks, height: 1000}
legs: {lengths: level}
`), lift.Options{})
	require.NoError(t, err)
	trial := h.TrialLift
	require.NotNil(t, trial)
	assert.InDelta(t, 3000, trial.BestKg, 1e-6)
	assert.InDelta(t, 2700, trial.LowKg, 1e-6)
	assert.InDelta(t, 3300, trial.HighKg, 1e-6)
	assert.Equal(t, trial.HighKg, trial.StopAboveKg)
	assert.False(t, trial.Indeterminate)
	b := trial.Legs[1]
	assert.InEpsilon(t, 0.6*3000*9.80665/1000, b.BestKN, 1e-4)
	assert.InEpsilon(t, 0.6*2700*9.80665/1000, b.LowKN, 1e-4)
	assert.InEpsilon(t, 0.6*3300*9.80665/1000, b.HighKN, 1e-4)
	assert.Empty(t, trial.FirstCorner, "level: all at once")
	require.Len(t, trial.Tight, 2)
	assert.InDelta(t, 0, trial.Tight[1].RiseM, 1e-9)
}

// Two equal legs with the CG 0.1 m off toward +x: hook over the middle, the load
// hangs with +x down by atan(0.1/(hook to CG)). So the −x side leaves first, the +x
// side last, when the other is 4·sin of that higher. Over the CG, the leg that spans
// more level comes tight later... as A does by √(L² − 0.9²) against √(L² − 1.1²).
func TestLiftOffOrder(t *testing.T) {
	h, err := lift.Legs(read(t, `
load: beam
units: m
parts:
  - {name: beam, weight: 3000 kg, center: [0.1, 0, -0.5], tolerance: 0.0001 %}
  - {name: box, weight: 0.001 kg, center: [0, 0, -0.5], box: 4 x 1 x 1}
picks:
  - {name: A, at: [-1, 0, 0]}
  - {name: B, at: [1, 0, 0]}
legs: {lengths: 2}
limits: {tilt: 9}
`), lift.Options{})
	require.NoError(t, err)
	trial := h.TrialLift
	require.NotNil(t, trial)
	tilt := math.Atan(0.1 / (math.Sqrt(3) + 0.5))
	assert.InDelta(t, tilt*180/math.Pi, trial.TiltDeg, 1e-4)
	assert.Equal(t, "side −x", trial.FirstCorner)
	assert.Equal(t, "side +x", trial.LastCorner)
	assert.InDelta(t, 4*math.Sin(tilt), trial.DropM, 1e-4)
	require.Len(t, trial.Tight, 2)
	assert.Equal(t, "A", trial.Tight[0].Pick, "its pick is further off, so it reaches lower")
	assert.InDelta(t, math.Sqrt(4-0.9*0.9)-math.Sqrt(4-1.1*1.1), trial.Tight[1].RiseM, 1e-4)
}

// With more legs than statics can settle it is said that a cell may read anything.
func TestTrialLiftOnFourLegs(t *testing.T) {
	h, err := lift.Legs(read(t, crate("")), lift.Options{})
	require.NoError(t, err)
	assert.True(t, h.TrialLift.Indeterminate)
	h, err = lift.Legs(read(t, strings.Replace(crate(""), "  - {name: D, at: [2, -1, 1]}\n", "", 1)), lift.Options{})
	require.NoError(t, err)
	assert.False(t, h.TrialLift != nil && h.TrialLift.Indeterminate)
}
