package lift_test

import (
	"math"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"plumbhook/units"
)

const windyPipe = `
load: pipe
units: m
parts: [{name: pipe, weight: 1019.716 kg, box: 6 x 0.5 x 0.5, center: [3, 0, 0], tolerance: 0.0001 %, status: weighed}]
picks: [{name: left, at: [1.8, 0, 0]}, {name: right, at: [4.2, 0, 0]}]
legs: {lengths: 6}
hitch: {kind: basket, around: 0.5, along: x, friction: 0.3, restrained: stops}
limits: {tilt: 5}
`

// By hand: 10 kN of pipe, 0.3 kN of wind across it 0.25 m above its axis turn it as a CG
// 0.3·0.25/10 = 7.5 mm out would; with the 5 mm that no take-off is surer than, 12.5 mm.
// Half the friction holds 0.25·tanh(0.15·π/2) = 57.8 mm. It leans with its slings, by
// atan(0.03) = 1.718°, and no further. At 2 m above the axis it is 60 mm, and it turns.
func TestWindOnAPipeHeldByFriction(t *testing.T) {
	h := legsOf(t, windyPipe+"wind: {pressure: 100 N/m2, shape factor: 1, area: 3 m2, from: y, at: [3, 0, 0.25]}\n")
	require.NotNil(t, h.SideForces)
	assert.True(t, h.Verdict.Acceptable, h.Verdict.Reasons)
	assert.InDelta(t, units.Degrees(math.Atan(0.03)), h.TiltWorstDeg, 1e-3)
	holds := 0.25 * math.Tanh(0.15*math.Pi/2)
	assert.InDelta(t, holds-0.0125, h.Stability.MarginM, 2e-4)
	assert.InDelta(t, 1+0.0125/0.25, h.Legs[0].Hold.Uneven, 1e-3, "one part of each basket carries what turns it")

	h = legsOf(t, windyPipe+"wind: {pressure: 100 N/m2, shape factor: 1, area: 3 m2, from: y, at: [3, 0, 2]}\n")
	assert.False(t, h.Verdict.Acceptable)
	assert.Contains(t, strings.Join(h.Verdict.Reasons, "\n"), "the load turns in its bights with a side force on it")
}

// A pipe with a valve under it, hung on a slope in two baskets of slings that stretch,
// in wind from any side, comes to rest: what holds it from turning is soft, and rounding
// must not pass for a load that finds no pose.
func TestWindOnAPipeOnASlopeOnLegsThatStretch(t *testing.T) {
	h := legsOf(t, `
load: pipe
units: mm
material: structural steel
parts:
  - {name: pipe, tube: {outside: 508, wall: 12.7, height: 6000}, along: x, center: [3000, 0, 0]}
  - {name: valve, weight: 60 kg, box: 200 x 200 x 200, at: [4000, 0, -350], status: catalogue}
picks: [{name: left, at: [1800, 0, 0]}, {name: right, at: [4200, 0, 0]}]
hook: {above: picks, height: 9000}
legs: {lengths: attitude, attitude: {about: -y, by: 8}, stretch: {percent: 3 %, at: 2 t}, length tolerance: 5 mm}
hitch: {kind: basket, around: 508, along: x, friction: 0.5}
wind: {speed: 8 m/s}
`)
	require.NotNil(t, h.SideForces)
	assert.True(t, h.Verdict.Acceptable, h.Verdict.Reasons)
}
