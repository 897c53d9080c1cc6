package lift_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// By hand: 1 000 kg ± 10 % at x = 11 and 1 000 kg at x = 13 have their CG at 12, at most
// 1·0.05/1.05 = 0.0476 m to −x (1 100 at 11: 12 − 0.0476) or 0.0526 m to +x. Which case
// governs is told by that, however far from the datum the load is.
func TestCasesUnderABarAreCountedFromTheCG(t *testing.T) {
	h := legsOf(t, `
load: far from its datum
units: m
parts:
  - {name: left, weight: 1000 kg, box: 2 x 2 x 1, center: [11, 1, 0.5], tolerance: 10 %, status: weighed}
  - {name: right, weight: 1000 kg, box: 2 x 2 x 1, center: [13, 1, 0.5], tolerance: 0 %, status: weighed}
picks: [{name: A, at: [10.5, 1, 1]}, {name: B, at: [13.5, 1, 1]}]
rig: {bar: {kind: spreader, weight: 100 kg, length: 3, height: 1, hook: 2.5, holds: [A, B]}}
`)
	require.True(t, h.Solved)
	require.NotEmpty(t, h.UpperLegs)
	for _, leg := range h.UpperLegs {
		assert.NotRegexp(t, `CG [0-9.]+ m out`, leg.Case)
	}
	assert.Regexp(t, `CG (47\.62|52\.63) mm out toward [+−]x`, h.GoverningCase)
}
