package lift_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"plumbhook/lift"
)

// Two equal legs over a CG that is 300 nearer to A hang the load askew. By hand:
// level with the hook as high over the CG as it hangs now; or with a weight Q at
// the corner x = 1200 so that (1000·300 → Q·1200) the CG of both is in the middle,
// Q = 1000·300/(1200 − 0) = 250 kg; or with lug B moved until the picks are even.
func TestWaysToHangItLevel(t *testing.T) {
	h, err := lift.Legs(read(t, `
load: block
units: mm
parts: [{name: block, weight: 1000 kg, box: 1800 x 400 x 400, center: [-300, 0, 0], tolerance: 0.1 %}]
picks: [{name: A, at: [-900, 0, 200]}, {name: B, at: [900, 0, 200]}]
legs: {lengths: 1800}
limits: {tilt: 30}
`), lift.Options{})
	require.NoError(t, err)
	require.Len(t, h.Level, 3)
	assert.Equal(t, "lengths", h.Level[0].Way)
	assert.Less(t, h.Level[0].TiltDeg, 1e-6)
	assert.Equal(t, "counterweight", h.Level[1].Way)
	assert.Equal(t, "lug", h.Level[2].Way)
	for _, w := range h.Level {
		assert.Less(t, w.TiltDeg, h.TiltDeg, w.Text)
	}
	// The hook hangs on the middle plane of equal legs; to be over the CG it moves
	// 300 toward A in a load that hangs level at the same legs' height.
	assert.Contains(t, h.Level[0].Text, "toward −x")
	assert.Greater(t, h.TiltDeg, 180/math.Pi*math.Atan2(0.3, 2.2))

	level, err := lift.Legs(read(t, `
load: block
units: mm
parts: [{name: block, weight: 1000 kg, at: [0, 0, 0], tolerance: 0.1 %}]
picks: [{name: A, at: [-900, 0, 200]}, {name: B, at: [900, 0, 200]}]
legs: {lengths: 1800}
`), lift.Options{})
	require.NoError(t, err)
	assert.Empty(t, level.Level)
}
