package lift_test

import (
	"fmt"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"plumbhook/geom"
	"plumbhook/lift"
	"plumbhook/units"
)

// turnedBy is how far about y the loads of these tests are to hang from how they
// are drawn.
const turnedBy = 25.0

// twoWays writes one lift twice: drawn level and wanted in an attitude, and drawn
// in that attitude. Places and directions of the load go through %s, in the order
// given. By Newton the two are one lift.
func twoWays(t *testing.T, text string, places ...geom.Vec) (wanted, drawn lift.Hung) {
	t.Helper()
	turn := geom.TurnAbout(1, units.Radians(turnedBy))
	var own, turned []any
	for _, at := range places {
		now := turn.Mul3x1(at)
		own = append(own, fmt.Sprintf("[%.12g, %.12g, %.12g]", at[0], at[1], at[2]))
		turned = append(turned, fmt.Sprintf("[%.12g, %.12g, %.12g]", now[0], now[1], now[2]))
	}
	const head = "\nload: turned\nunits: m\nrules: EN\n"
	wanted = legsOf(t, head+fmt.Sprintf(text, own...)+fmt.Sprintf("\nlegs: {lengths: attitude, attitude: {about: y, by: %g}}\n", turnedBy))
	drawn = legsOf(t, head+fmt.Sprintf(text, turned...)+"\nlegs: {lengths: level}\n")
	require.True(t, wanted.Solved, wanted.Verdict.Reasons)
	require.True(t, drawn.Solved, drawn.Verdict.Reasons)
	return wanted, drawn
}

func sameLift(t *testing.T, wanted, drawn lift.Hung) {
	t.Helper()
	assert.Equal(t, drawn.Verdict.Acceptable, wanted.Verdict.Acceptable, "%v\n%v", drawn.Verdict.Reasons, wanted.Verdict.Reasons)
	assert.InDelta(t, drawn.TiltDeg, wanted.TiltDeg, 1e-5)
	for i, leg := range drawn.Legs {
		assert.InDelta(t, leg.TensionKN, wanted.Legs[i].TensionKN, 1e-5, leg.Pick)
		assert.InDelta(t, leg.WorstTensionKN, wanted.Legs[i].WorstTensionKN, 1e-3, leg.Pick)
	}
}

const (
	slabPart  = "parts: [{name: slab, weight: 9 t, at: %s, tolerance: 0.0001 %%}]\n"
	slabPicks = "picks: [{name: A, at: %s}, {name: B, at: %s}, {name: C, at: %s}]\nhook: {above: picks, height: 4}\n"
)

var slabAt = []geom.Vec{{0.1, 0, -0.6}, {-2, -1, 0}, {2, -1, 0}, {0, 1.5, 0}}

// Wind and a tag line act at places of the load, wherever it is turned to.
func TestSideForcesOnALoadThatIsTurned(t *testing.T) {
	wanted, drawn := twoWays(t, slabPart+slabPicks+"wind: {speed: 12 m/s, area: 10 m2, at: %s, from: y}\ntag line: {pull: 300 N, toward: x, at: %s}",
		append(slabAt, geom.Vec{0.8, 0.2, -1.5}, geom.Vec{2, 1, -1})...)
	sameLift(t, wanted, drawn)
	require.NotNil(t, wanted.SideForces)
	require.NotNil(t, drawn.SideForces)
	assert.InDelta(t, drawn.SideForces.MoreTiltDeg, wanted.SideForces.MoreTiltDeg, 1e-4)
	assert.InDelta(t, drawn.SideForces.TurnKNM, wanted.SideForces.TurnKNM, 1e-4)
	assert.InDelta(t, drawn.SideForces.TurnLeverM, wanted.SideForces.TurnLeverM, 1e-6)
	for i, leg := range drawn.SideForces.Legs {
		assert.InDelta(t, leg.MoreKN, wanted.SideForces.Legs[i].MoreKN, 1e-4, leg.Pick)
	}
	assert.InDelta(t, 0, wanted.SideForces.Wind.CentreM.Sub(geom.Vec{0.8, 0.2, -1.5}).Len(), 1e-9, "told in the load's own axes")
}

// Bodies in bights turn with the load that they are of: how far a leg pulls along
// them, and whether friction keeps a round one from turning.
func TestBightsOfALoadThatIsTurned(t *testing.T) {
	for _, kind := range []string{"basket", "choker"} {
		wanted, drawn := twoWays(t, "parts: [{name: pipe, weight: 2 t, at: %s, tolerance: 0.0001 %%}]\npicks: [{name: A, at: %s}, {name: B, at: %s}]\nhook: {above: picks, height: 6}\n"+
			"hitch: {kind: "+kind+", around: 0.6, along: %s, friction: 0.9}", geom.Vec{}, geom.Vec{-1, 0, 0}, geom.Vec{1, 0, 0}, geom.Vec{1, 0, 0})
		sameLift(t, wanted, drawn)
		for i := range drawn.Legs {
			assert.InDelta(t, drawn.Legs[i].Hold.LeanWorstDeg, wanted.Legs[i].Hold.LeanWorstDeg, 1e-4, "%s %s", kind, drawn.Legs[i].Pick)
		}
		assert.Equal(t, drawn.Stability.Condition, wanted.Stability.Condition)
		assert.InDelta(t, drawn.Stability.MarginM, wanted.Stability.MarginM, 1e-9)
	}
}

// A pick at the top of the body, drawn level, is refused in an attitude too.
func TestPickAtTheTopOfABodyThatIsTurned(t *testing.T) {
	h := legsOf(t, `
load: pipe
units: m
material: structural steel
parts: [{name: pipe, tube: {outside: 0.61, wall: 0.0127, height: 9}, along: x, center: [0, 0, 0]}]
picks: [{name: A, at: [-2, 0, 0.305]}, {name: B, at: [2, 0, 0.305]}]
hook: {above: picks, height: 8}
legs: {lengths: attitude, attitude: {about: y, by: 25}}
hitch: {kind: choker, around: 0.61, along: x, friction: 0.5}
`)
	require.False(t, h.Verdict.Acceptable)
	assert.Contains(t, fmt.Sprint(h.Verdict.Reasons), "is at the top of the load, not at the centre of a body")
}

// Derived here: a beam that hangs on a slope of 25° is bent by the part of its
// weight square to it, cos 25° of what bends it level; one drawn upright and hung
// level is bent by all of it, and one that hangs steeper than 60° is not told.
func TestBendingOfABeamThatIsTurned(t *testing.T) {
	const beam = `
load: beam
units: m
parts: [{name: beam, weight: 1200 kg, box: %s, at: [0, 0, 0], tolerance: 0.0001 %%}]
picks: [{name: A, at: %s}, {name: B, at: %s}]
hook: {above: picks, height: 9}
legs: {lengths: %s}
`
	lying := func(legs string) lift.Hung {
		return legsOf(t, fmt.Sprintf(beam, "12 x 0.3 x 0.4", "[-4, 0, 0.2]", "[4, 0, 0.2]", legs))
	}
	level := lying("level")
	require.NotNil(t, level.Bending)
	sloped := lying("attitude, attitude: {about: y, by: 25}")
	require.NotNil(t, sloped.Bending)
	assert.InDelta(t, level.Bending.Sagging.KNm*0.9063078, sloped.Bending.Sagging.KNm, 1e-4)
	assert.InDelta(t, level.Bending.BestKNm*0.9063078, sloped.Bending.BestKNm, 1e-4)
	assert.Nil(t, lying("attitude, attitude: {about: y, by: 65}").Bending)

	upright := legsOf(t, fmt.Sprintf(beam, "0.4 x 0.3 x 12", "[-0.2, 0, -4]", "[-0.2, 0, 4]", "attitude, attitude: {about: y, by: 90}"))
	require.NotNil(t, upright.Bending)
	assert.Equal(t, "z", upright.Bending.Axis)
	assert.InDelta(t, level.Bending.Sagging.KNm, upright.Bending.Sagging.KNm, 1e-4)
}
