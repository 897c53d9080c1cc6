package lift_test

import (
	"fmt"
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"plumbhook/lift"
)

// Two level legs for a CG 400 from A and 800 from B, hook 1500 above: √(400² +
// 1500²) = 1552 and √(800² + 1500²) = 1700 mm. A rack that has just these, less
// 200 of hardware, hangs it level; a rack of 1400 and 1450 alone does not; one
// of 300 can't reach.
func TestLegsFromStock(t *testing.T) {
	legs := func(stock string) lift.Hung {
		h, err := lift.Legs(read(t, fmt.Sprintf(`
load: block
units: mm
parts: [{name: block, weight: 1000 kg, at: [0, 0, 0], tolerance: 0.1 %%}]
picks: [{name: A, at: [-400, 0, 500]}, {name: B, at: [800, 0, 500]}]
legs: {lengths: {stock: %s
limits: {tilt: 5}
`, stock)), lift.Options{})
		require.NoError(t, err)
		return h
	}
	a, b := 1000*math.Hypot(0.4, 1.5), 1000*math.Hypot(0.8, 1.5)
	h := legs(fmt.Sprintf("[1000, %.6f, %.6f, 2500]}, hardware: 200}", a-200, b-200))
	require.True(t, h.Solved, h.Verdict.Reasons)
	assert.InDelta(t, a/1000, h.Legs[0].LengthM, 1e-8)
	assert.InDelta(t, b/1000, h.Legs[1].LengthM, 1e-8)
	assert.Less(t, h.TiltDeg, 1e-4)
	assert.Contains(t, h.Lengths, "hardware of 200 mm")

	h = legs("[1500, 1600]}, shortener: {step: 25, most: 6}}")
	require.True(t, h.Solved, h.Verdict.Reasons)
	assert.Less(t, h.TiltDeg, 1.0, "shortened by whole steps: %s", h.Lengths)
	assert.Contains(t, h.Lengths, "shortened by")

	h = legs("[300]}}")
	assert.False(t, h.Solved)
	assert.False(t, h.Verdict.Acceptable)
	assert.Contains(t, h.Verdict.Reasons[0], "no legs from stock")
}
