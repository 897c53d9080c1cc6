package lift_test

import (
	"fmt"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"plumbhook/geom"
	"plumbhook/lift"
	"plumbhook/rig"
	"plumbhook/takeoff"
	"plumbhook/units"
)

// panel is 100 kN on two picks 4 m apart, CG midway and 0.5 m below them.
const panel = `
load: panel
units: m
parts: [{name: panel, weight: 10197.16 kg, at: [0, 0, -0.5], box: 4 x 1 x 1, tolerance: 0.0001 %}]
picks: [{name: A, at: [-2, 0, 0]}, {name: B, at: [2, 0, 0]}]
`

// By hand: turned 30° about y, A stands at (−1.73205, 1), B at (1.73205, −1), the CG
// at (−0.25, −0.43301) in x and z. The hook 3 m above A is at (−0.25, 4): A's leg runs
// 1.48205 and rises 3, B's 1.98205 and 5, so they are 3.346113 and 5.378524 m long.
// Level: V_A·1.48205/3 = V_B·1.98205/5, V_A + V_B = 100: V_A = 44.520, V_B = 55.480, T_A
// = 49.656, T_B = 59.680 kN.
func TestPanelHungOnItsSlope(t *testing.T) {
	h := legsOf(t, panel+"hook: {above: picks, height: 3}\nlegs: {lengths: attitude, attitude: {about: y, by: 30}}\nlimits: {tilt: 0.5}\n")
	require.True(t, h.Solved)
	assert.InDelta(t, 3.346113, h.Legs[0].LengthM, 1e-6)
	assert.InDelta(t, 5.378524, h.Legs[1].LengthM, 1e-6)
	assert.InDeltaSlice(t, []float64{49.656, 59.680}, tensions(h), 2e-3)
	assert.InDelta(t, 0, h.TiltDeg, 1e-6)
	assert.True(t, h.Verdict.Acceptable, "a limit on the tilt counts from the attitude wanted: %v", h.Verdict.Reasons)
	require.NotNil(t, h.Attitude)
	assert.InDelta(t, 30, h.Attitude.Deg, 1e-9)
	assert.InDelta(t, -2, h.Legs[0].AtM[0], 1e-12, "in the load's own axes")

	// The hook in the load's own axes, by the lengths for an attitude of rig.
	lengths, hook, err := rig.AttitudeLengths([]geom.Vec{{-2, 0, 0}, {2, 0, 0}}, geom.Vec{0, 0, -0.5}, geom.Vec{-0.5, 0, 0.8660254037844386}, 3)
	require.NoError(t, err)
	assert.InDelta(t, lengths[0], h.Legs[0].LengthM, 1e-9)
	assert.InDelta(t, 0, hook.Sub(h.HookM).Len(), 1e-6)
}

// The same attitude by what is to point up, and from stock that has just the lengths.
func TestPanelFromStockOnItsSlope(t *testing.T) {
	up := "attitude: {up: [-1, 0, 1.7320508]}"
	h := legsOf(t, panel+"hook: {above: picks, height: 3}\nlegs: {lengths: attitude, "+up+"}\n")
	assert.InDelta(t, 3.346113, h.Legs[0].LengthM, 1e-6)
	h = legsOf(t, panel+"legs: {lengths: {stock: [2, 3.346113, 4, 5.378524]}, "+up+"}\n")
	require.True(t, h.Solved, h.Verdict.Reasons)
	assert.InDelta(t, 3.346113, h.Legs[0].LengthM, 1e-9)
	assert.InDelta(t, 5.378524, h.Legs[1].LengthM, 1e-9)
	assert.Less(t, h.TiltDeg, 1e-4)
	assert.Contains(t, h.Lengths, "most nearly in the attitude wanted")
	// Equal legs hang it level, so 30° out of what is wanted.
	h = legsOf(t, panel+"legs: {lengths: 5, "+up+"}\n")
	assert.InDelta(t, 30, h.TiltDeg, 1e-6)
	assert.False(t, h.Verdict.Acceptable)
}

// Liquid that would lie another way is refused, and picks are not proposed.
func TestAttitudeOfWhatIsNotReckoned(t *testing.T) {
	_, err := lift.Legs(read(t, `
load: tank
units: mm
material: structural steel
parts:
  - name: tank
    vessel: {inside: 1000, wall: 10, length: 2000, heads: flat, head wall: 10}
    along: x
    center: [0, 0, 0]
    contents: {fluid: water, depth: 500}
picks: [{name: A, at: [-900, 0, 510]}, {name: B, at: [900, 0, 510]}]
hook: {above: picks, height: 2000}
legs: {lengths: attitude, attitude: {about: y, by: 10}}
`), lift.Options{})
	var problems takeoff.Problems
	require.ErrorAs(t, err, &problems)
	assert.Contains(t, problems[0].Text, "would lie another way")
	p, err := lift.Picks(read(t, panel+"legs: {lengths: 5, attitude: {about: y, by: 3}}\n"), lift.Options{})
	require.NoError(t, err)
	assert.Len(t, p.Proposals, 1, "those of the load file alone")
}

// A load that is to hang turned hangs as one that is drawn turned does.
func TestAttitudeIsADrawingTurned(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		axis := rapid.IntRange(0, 1).Draw(t, "axis")
		deg := rapid.Float64Range(-60, 60).Draw(t, "by")
		cg := geom.Vec{rapid.Float64Range(-0.5, 0.5).Draw(t, "x"), rapid.Float64Range(-0.2, 0.2).Draw(t, "y"), -1}
		picks := []geom.Vec{{2, 1, 0}, {-2, 1, 0}, {-2, -1, 0}, {2, -1, 0}}
		load := func(turn func(geom.Vec) geom.Vec, legs string) lift.Hung {
			text := "load: box\nunits: m\nparts: [{name: box, weight: 10 t, at: " + at(turn(cg)) + ", tolerance: 0.01 %}]\npicks:\n"
			for i, p := range picks {
				text += fmt.Sprintf("  - {name: %c, at: %s}\n", 'A'+i, at(turn(p)))
			}
			return legsOf(t, text+"hook: {above: picks, height: 3}\nlegs: {"+legs+"}\n")
		}
		turned := geom.TurnAbout(axis, units.Radians(deg))
		wanted := load(func(v geom.Vec) geom.Vec { return v }, fmt.Sprintf("lengths: attitude, attitude: {about: %c, by: %.9f}", "xy"[axis], deg))
		drawn := load(func(v geom.Vec) geom.Vec { return turned.Mul3x1(v) }, "lengths: level")
		if wanted.Solved != drawn.Solved || wanted.Stable != drawn.Stable {
			t.Fatalf("solved %t %t, stable %t %t", wanted.Solved, drawn.Solved, wanted.Stable, drawn.Stable)
		}
		for i := range wanted.Legs {
			a, b := wanted.Legs[i], drawn.Legs[i]
			if d := a.TensionKN - b.TensionKN; d > 1e-4 || d < -1e-4 {
				t.Fatalf("leg %s: %v kN, drawn so %v", a.Pick, a.TensionKN, b.TensionKN)
			}
			if d := a.WorstTensionKN - b.WorstTensionKN; d > 1e-2 || d < -1e-2 {
				t.Fatalf("leg %s: worst %v kN, drawn so %v", a.Pick, a.WorstTensionKN, b.WorstTensionKN)
			}
		}
	})
}

func at(v geom.Vec) string { return fmt.Sprintf("[%.9f, %.9f, %.9f]", v[0], v[1], v[2]) }
