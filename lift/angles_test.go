package lift_test

import (
	"math"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"plumbhook/lift"
)

// Four picks on a square of 2 m, the hook 1 m above: by hand, opposite legs open
// 2·atan(√2/1) = 109.47°, neighbours acos(1/3) = 70.53°. With the hook 2 m above,
// 2·atan(√2/2) = 70.53°. Two legs 60° from vertical open 120°.
func TestIncludedAngleAtTheHook(t *testing.T) {
	const block = "- {name: block, box: 2000 x 2000 x 500, corner: [-1000, -1000, 0]}"
	const four = `picks:
  - {name: A, at: [1000, 1000, 500]}
  - {name: B, at: [-1000, 1000, 500]}
  - {name: C, at: [-1000, -1000, 500]}
  - {name: D, at: [1000, -1000, 500]}
legs: {lengths: level}
`
	h := hangs(t, block, four+"hook: {above: picks, height: 1000}\n")
	assert.InDelta(t, 2*math.Atan(math.Sqrt2)*180/math.Pi, h.Included.Deg, 1e-6)
	assert.Contains(t, [][2]string{{"A", "C"}, {"B", "D"}}, h.Included.Picks)
	assert.Contains(t, codes(h.Warnings), "included-angle")
	assert.True(t, h.Verdict.Acceptable, "a warning, no more: %v", h.Verdict.Reasons)

	h = hangs(t, block, four+"hook: {above: picks, height: 2000}\n")
	assert.InDelta(t, 2*math.Atan(math.Sqrt2/2)*180/math.Pi, h.Included.Deg, 1e-6)
	assert.NotContains(t, codes(h.Warnings), "included-angle")

	h = hangs(t, block, "picks: [{name: A, at: [1000, 0, 500]}, {name: B, at: [-1000, 0, 500]}]\nhook: {above: picks, height: 570}\nlegs: {lengths: level}\n")
	assert.InDelta(t, 2*math.Atan(1/0.57)*180/math.Pi, h.Included.Deg, 1e-6)
	assert.Contains(t, strings.Join(texts(h.Warnings), "\n"), "more than the 120°")

	h = hangs(t, block, "picks: [{name: A, at: [0, 0, 500]}]\nhook: {above: picks, height: 1000}\nlegs: {lengths: level}\n")
	assert.Zero(t, h.Included.Deg, "a single leg")
}

// Two legs and the way between their picks are a triangle of three lengths, so
// wherever the CG is the angle is the same; three legs hold the hook likewise.
func TestIncludedAngleAtWorst(t *testing.T) {
	h := hangs(t, "- {name: bed, box: 2000 x 1000 x 100, corner: [0, 0, 0]}\n- {name: pump, weight: 900 kg, box: 200 x 200 x 60, center: [500, 500, 130], tolerance: 20 %}",
		"picks: [{name: A, at: [0, 500, 200]}, {name: B, at: [2000, 500, 200]}]\nhook: {above: picks, height: 1500}\nlegs: {lengths: level}\n")
	assert.Greater(t, h.TiltWorstDeg, 0.1, "the CG does move")
	assert.InDelta(t, h.Included.Deg, h.Included.WorstDeg, 1e-6)
}

// A leg from (1, 0, 0) to a hook 1 m above the middle of two picks leans 45° in the
// plane of x and z. A plate square to y holds it in its plane, 45° from the upright
// axis; one square to x has it 45° out; one square to (1, 1, 0) by asin(sin 45°·
// cos 45°) = 30°, and in the plate atan of what is left, (½, −½, 1)·… : by hand
// u = (−1, 0, 1)/√2, n = (1, 1, 0)/√2: u·n = −½; u − (u·n)n = (−0.3536, 0.3536,
// 0.7071), 0.8660 long: acos(0.7071/0.8660) = 35.26°.
func TestPullAtTheLugs(t *testing.T) {
	for _, tt := range []struct {
		lug     string
		in, out float64 // degrees
		warns   bool
	}{
		{"{normal: y}", 45, 0, false},
		{"{normal: -y, axis: z}", 45, 0, false},
		{"{normal: x}", 0, 45, true},
		{"{normal: [1, 1, 0]}", 35.2644, 30, true},
		{"{normal: y, axis: [-1, 0, 1]}", 0, 0, false}, // leans the way of the leg
		{"{normal: z, axis: x}", 180, 45, true},        // on a side, pulled back over its foot
	} {
		t.Run(tt.lug, func(t *testing.T) {
			h := hangs(t, "- {name: block, box: 2000 x 1000 x 500, corner: [-1000, -500, -500]}",
				"picks: [{name: A, at: [1000, 0, 0], lug: "+tt.lug+"}, {name: B, at: [-1000, 0, 0]}]\nhook: {above: picks, height: 1000}\nlegs: {lengths: level}\n")
			require.Len(t, h.Lugs, 1, "the other pick states none")
			l := h.Lugs[0]
			assert.Equal(t, "A", l.Pick)
			assert.InDelta(t, tt.in, l.InDeg, 1e-4)
			assert.InDelta(t, tt.out, l.OutDeg, 1e-4)
			assert.InDelta(t, h.Legs[0].WorstTensionKN*math.Sin(tt.out*math.Pi/180), l.SideKN, 1e-4)
			assert.Equal(t, tt.warns, strings.Contains(strings.Join(codes(h.Warnings), " "), "lug-side-pull"))
			assert.Contains(t, strings.Join(h.Assumptions, "\n"), "the strength of lug, weld and what they stand on is not checked")
		})
	}
}

func texts(all []lift.Warning) []string {
	var out []string
	for _, w := range all {
		out = append(out, w.Text)
	}
	return out
}
