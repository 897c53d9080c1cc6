package lift_test

import (
	"math"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"plumbhook/lift"
	"plumbhook/takeoff"
	"plumbhook/units"
)

// sloped is the panel of 100 kN hung on its slope; see TestPanelHungOnItsSlope.
const sloped = panel + "hook: {above: picks, height: 3}\nlegs: {lengths: attitude, attitude: {about: y, by: 30}}\n"

// Places of wind and tag line are in the load's own axes, as all places are. A push
// through the CG turns all that hangs by atan(F/W) about the boom head and no further:
// 1.6 kN on 100 kN, 0.9167°, in the attitude wanted as in any other. Derived here.
func TestWindOnALoadInAnAttitude(t *testing.T) {
	for name, outside := range map[string]string{
		"wind along the load": "wind: {pressure: 200 N/m2, shape factor: 1, area: 8 m2, from: x, at: [0, 0, -0.5]}",
		"wind across it":      "wind: {pressure: 200 N/m2, shape factor: 1, area: 8 m2, from: y, at: [0, 0, -0.5]}",
		"tag line":            "tag line: {pull: 1.6 kN, toward: x, at: [0, 0, -0.5]}",
	} {
		h := legsOf(t, sloped+outside+"\n")
		require.NotNil(t, h.SideForces, name)
		want := units.Degrees(math.Atan(0.016))
		assert.InDelta(t, want, h.SideForces.LeanDeg, 1e-4, name)
		assert.InDelta(t, want, h.SideForces.MoreTiltDeg, 1e-4, name)
		if h.SideForces.Wind != nil {
			assert.InDelta(t, -0.5, h.SideForces.Wind.CentreM[2], 1e-9, "%s: told in the load's own axes", name)
		}
	}
	h := legsOf(t, sloped+"wind: {pressure: 200 N/m2}\n")
	assert.InDelta(t, -0.5, h.SideForces.Wind.CentreM[2], 1e-9, "the middle of the box, in the load's own axes")
}

// By hand: with A at (−1.73205, 1), B at (1.73205, −1) and the hook at (−0.25, 4) the
// body runs along (0.86603, −0.5). A's leg, (1.48205, 3)/3.34611, has 0.06470 of
// itself along the body: 3.71°, friction 0.0648. B's, (−1.98205, 5)/5.37852, has
// 0.78395: 51.62°, friction 1.2628, which no sling has.
func TestBightsOnASlopeNeedMoreFriction(t *testing.T) {
	h := legsOf(t, sloped+"hitch: {kind: choker, along: x, friction: 0.5}\n")
	require.Len(t, h.Legs, 2)
	require.NotNil(t, h.Legs[0].Hold)
	assert.InDelta(t, 3.71, h.Legs[0].Hold.LeanDeg, 0.005)
	assert.InDelta(t, 51.62, h.Legs[1].Hold.LeanDeg, 0.005)
	require.NotNil(t, h.Legs[1].Hold.FrictionNeeded)
	assert.InDelta(t, 1.2628, *h.Legs[1].Hold.FrictionNeeded, 0.02, "at worst over the lengths of the legs")
	assert.GreaterOrEqual(t, *h.Legs[1].Hold.FrictionNeeded, 1.2628)
	assert.Contains(t, strings.Join(h.Verdict.Reasons, " "), "the bight of leg B slides")
}

// A plain pipe in two baskets is held from turning by friction on a slope too, and
// its picks are at its centre whichever way it hangs.
func TestPipeInBasketsOnASlope(t *testing.T) {
	h := legsOf(t, `
load: pipe
units: mm
material: structural steel
parts: [{name: pipe, tube: {outside: 508, wall: 12.7, height: 6000}, along: x, center: [3000, 0, 0]}]
picks: [{name: left, at: [1800, 0, 0]}, {name: right, at: [4200, 0, 0]}]
hook: {above: picks, height: 9000}
legs: {lengths: attitude, attitude: {about: -y, by: 10}}
hitch: {kind: basket, around: 508, along: x, friction: 0.5}
`)
	assert.True(t, h.Verdict.Acceptable, h.Verdict.Reasons)
	assert.Equal(t, "the bight does not slide and the load does not turn in the bight", h.Stability.Condition)
}

// The ground holds a load as it lies there, not as it is to hang.
func TestLiftOffIntoAnAttitudeIsRefused(t *testing.T) {
	l := read(t, sloped+"lift-off: {suction: 1 kN/m2, area: 4 m2}\n")
	_, err := lift.Legs(l, lift.Options{})
	var problems takeoff.Problems
	require.ErrorAs(t, err, &problems)
	assert.Contains(t, problems[0].Text, "how it comes up into the attitude is not reckoned")
}

// By hand: the panel is drawn 4 m long, 1 m wide, and hangs turned 30° about y, its −x
// end up: from lying as drawn that end comes up first, by 4·sin 30° = 2 m when the
// other leaves. The hook plumb over the CG, 2 m from both picks, A's shorter leg, 3.346 m,
// comes tight at a hook √(3.346² − 2²) = 2.683 m up, B's, 5.379 m, at 4.993 m: 2.310 m later.
func TestTrialLiftOfALoadThatComesUpIntoAnAttitude(t *testing.T) {
	h := legsOf(t, sloped)
	require.NotNil(t, h.TrialLift)
	assert.Equal(t, "side −x", h.TrialLift.FirstCorner)
	assert.Equal(t, "side +x", h.TrialLift.LastCorner)
	assert.InDelta(t, 2, h.TrialLift.DropM, 1e-6)
	assert.InDelta(t, 2, h.LowCornerDropM, 1e-6)
	require.Len(t, h.TrialLift.Tight, 2)
	assert.Equal(t, "A", h.TrialLift.Tight[0].Pick)
	assert.InDelta(t, 2.310, h.TrialLift.Tight[1].RiseM, 1e-3)
}
