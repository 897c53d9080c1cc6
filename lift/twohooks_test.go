package lift_test

import (
	"errors"
	"fmt"
	"math"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"plumbhook/lift"
	"plumbhook/takeoff"
	"plumbhook/testdata/published/inprint"
)

// hundred is a load of 100 kN: 10 197.162 kg at 9.80665 m/s², its CG at a place.
func hundred(cg, rest string) string {
	return "load: column\nunits: m\nparts:\n  - {name: shaft, weight: 10197.162 kg, at: " + cg + ", tolerance: 0.0001 %, box: 22 x 1 x 1}\n" + rest
}

// upended is the column of 20 m between picks with its CG 8 m from the tail,
// trunnions on both sides of the head, its tail pick some metres up.
func upended(tailUp, turn, more string) string {
	return hundred("[8, 0, 0]", "picks:\n  - {name: A, at: [20, 0.6, 0]}\n  - {name: B, at: [20, -0.6, 0]}\n  - {name: C, at: [0, 0, "+tailUp+"]}\n"+
		"rig: {two hooks: {head: [A, B], tail: C, hook heights: 0, plumb: 0"+turn+more+"}}\n")
}

func onTwo(t *testing.T, yaml string) lift.Hung {
	t.Helper()
	h, err := lift.Legs(read(t, yaml), lift.Options{})
	require.NoError(t, err)
	require.NotNil(t, h.TwoHooks)
	require.True(t, h.Solved)
	return h
}

func codesOf(h lift.Header) []string {
	var out []string
	for _, w := range h.Warnings {
		out = append(out, w.Code)
	}
	return out
}

// Shares by hand, moments about the tail pick: with that v above the axis, head
// = (8·cos + v·sin)/(20·cos + v·sin). The whole way from the load file.
func TestUpendingFromTheLoadFile(t *testing.T) {
	for _, tt := range []struct {
		tailUp string
		head   map[float64]float64 // % by degrees, to 0.005
	}{
		{"0", map[float64]float64{0: 40, 30: 40, 45: 40, 60: 40, 75: 40, 85: 40, 90: 100}},
		{"1.5", map[float64]float64{0: 40, 30: 42.49, 45: 44.19, 60: 46.90, 75: 53.12, 85: 67.69, 90: 100}},
		{"-1.5", map[float64]float64{0: 40, 30: 37.28, 45: 35.14, 60: 31.04, 75: 16.68}},
	} {
		h := onTwo(t, upended(tt.tailUp, ", turn: {to: 90}", ""))
		found := 0
		for _, c := range h.TwoHooks.Curve {
			want, ok := tt.head[math.Round(c.TurnedDeg*1e6)/1e6]
			if !ok {
				continue
			}
			found++
			assert.InDelta(t, want, c.HeadKN, 0.006, "tail pick %s m up, turned %g°: kN of 100, statics by hand", tt.tailUp, c.TurnedDeg)
			assert.InDelta(t, 100-want, c.TailKN, 0.006, "tail pick %s m up, turned %g°", tt.tailUp, c.TurnedDeg)
		}
		assert.Equal(t, len(tt.head), found, "angles of the curve with the tail pick %s m up", tt.tailUp)
	}
}

// Tail pick under the load: at tan(angle) = 8/1.5 the CG stands over it.
func TestFallThroughIsNotAcceptable(t *testing.T) {
	h := onTwo(t, upended("-1.5", ", turn: {to: 90}", ""))
	assert.False(t, h.Verdict.Acceptable)
	require.NotEmpty(t, h.Verdict.Reasons)
	assert.Contains(t, h.Verdict.Reasons[0], "falls through: turned 79.4° the head hook goes slack")
	last := h.TwoHooks.Events[len(h.TwoHooks.Events)-1]
	assert.InDelta(t, math.Atan2(8, 1.5)*180/math.Pi, last.TurnedDeg, 1e-9, "79.38°: statics by hand")
	through := false
	for _, e := range h.TwoHooks.Events {
		through = through || e.Through
		assert.LessOrEqual(t, e.TurnedDeg, 79.4, "what is no longer reached is not told: %v", e)
	}
	assert.True(t, through)
	assert.False(t, h.Stable)
	assert.False(t, h.StableWorst)
	assert.InDelta(t, 100, h.TwoHooks.Tail.WorstKN, 1e-3, "all of it, once the head hook is slack")

	h = onTwo(t, upended("-1.5", ", turn: {to: 70}", ""))
	assert.True(t, h.Verdict.Acceptable, h.Verdict.Reasons)
	assert.NotContains(t, codesOf(h.Header), "near-slack", "9.4° away")
	h = onTwo(t, upended("-1.5", ", turn: {to: 76}", ""))
	assert.True(t, h.Verdict.Acceptable, h.Verdict.Reasons)
	require.Contains(t, codesOf(h.Header), "near-slack", "3.4° away")
	assert.Contains(t, fmt.Sprint(h.Warnings), "turned only 3.4° further than meant the head hook goes slack, and the load falls through")

	h = onTwo(t, upended("-1.5", ", turn: {from: 82, to: 0}", ""))
	assert.False(t, h.Verdict.Acceptable, "it can't be laid down so either")
	assert.Contains(t, h.Verdict.Reasons[0], "falls through: as the turn begins")
}

// Turned over by half round, its tail goes slack upright, and no hoisting brings
// it further: what would come after is not told and does not count.
func TestTurnedOverInOneGoIsNotAcceptable(t *testing.T) {
	h := onTwo(t, upended("1.5", ", turn: {to: 180}", ""))
	assert.False(t, h.Verdict.Acceptable)
	require.Len(t, h.Verdict.Reasons, 1)
	assert.Contains(t, h.Verdict.Reasons[0], "slack hook: turned 90.0°, short of the 180.0° meant, the tail hook goes slack")
	assert.InDelta(t, 90, h.TwoHooks.Curve[len(h.TwoHooks.Curve)-1].TurnedDeg, 1e-9)
	assert.InDelta(t, 60, h.TwoHooks.Tail.WorstKN, 1e-3)
	assert.Positive(t, *h.TwoHooks.RollMarginM)
}

// With the CG anywhere within 0.5 m of its place each way it stands over the pick
// earlier, at tan(angle) = 7.5/2: 75.07°.
func TestFallsThroughEarlierAtTheWorstCG(t *testing.T) {
	yaml := strings.Replace(upended("-1.5", ", turn: {to: 79}", ""), "box: 22 x 1 x 1", "box: 22 x 1 x 1, position: 0.5", 1)
	h := onTwo(t, yaml)
	assert.False(t, h.Verdict.Acceptable)
	assert.Contains(t, fmt.Sprint(h.Verdict.Reasons), "falls through at worst over the range of the CG (CG ")
	assert.True(t, h.Stable, "at the best CG it is 0.4° short of it")
	last := h.TwoHooks.Events[len(h.TwoHooks.Events)-1]
	assert.True(t, last.Through)
	assert.InDelta(t, 75.0686, last.TurnedDeg, 1e-3)
	assert.Contains(t, last.Text, "soonest over the range of the CG (CG ")
	assert.NotEqual(t, "best CG", last.CG)
	assert.False(t, h.StableWorst)
}

// Let go within 5° of the end, the load hanging below the other hook: that is
// how an upending ends. The hook that keeps it is sized for all of it.
func TestTailIsLetGoAtTheEnd(t *testing.T) {
	for _, turn := range []string{", turn: {to: 90}", ", turn: {from: 90, to: 0}"} {
		h := onTwo(t, upended("1.5", turn, ""))
		assert.True(t, h.Verdict.Acceptable, h.Verdict.Reasons)
		assert.Contains(t, codesOf(h.Header), "hand-over")
		require.Len(t, h.TwoHooks.HandOverDeg, 1)
		assert.InDelta(t, 85, h.TwoHooks.HandOverDeg[0], 1e-6)
		assert.InDelta(t, 100, h.TwoHooks.Head.WorstKN, 1e-3)
		assert.InDelta(t, 60, h.TwoHooks.Tail.WorstKN, 1e-3)
		assert.InDelta(t, 50, h.Legs[0].WorstTensionKN, 1e-3, "half of it on each trunnion")
	}
	// Head pick 2 m above the axis: the CG is plumb below it at
	// atan(12/2) = 80.5°, more than 5° short of 90°.
	h := onTwo(t, hundred("[8, 0, 0]", "picks: [{name: A, at: [20, 0, 2]}, {name: C, at: [0, 0, 2]}]\nrig: {two hooks: {head: A, tail: C, hook heights: 0, plumb: 0, turn: {to: 90}}}\n"))
	assert.False(t, h.Verdict.Acceptable)
	assert.Contains(t, h.Verdict.Reasons[0], "slack hook: turned 80.5°, short of the 90.0° meant, the tail hook goes slack")
}

// "Guidelines for marine lifting and lowering operations", 0027/ND Rev 11,
// appendix B.1.2: two hooks, 3° of tilt, the CG anywhere within 0.9 × 0.6 × 0.8 m;
// here at the corners of that which are worst. Its formula was read; its printed
// results were not, so the wanted figures are that formula worked by hand. The 3° are what is taken where the load file gives no hook heights.
func TestPublishedTwoHooksFromTheLoadFile(t *testing.T) {
	page := inprint.Of(t, "lift")
	for _, tt := range []struct {
		cg   string
		hook func(lift.TwoHooks) lift.Hook
		lug  int
	}{
		{"[0.9, -0.6, -0.8]", func(two lift.TwoHooks) lift.Hook { return two.Head }, 0},
		{"[0.9, 0.6, -0.8]", func(two lift.TwoHooks) lift.Hook { return two.Head }, 1},
		{"[-0.9, -0.6, -0.8]", func(two lift.TwoHooks) lift.Hook { return two.Tail }, 2},
		{"[-0.9, 0.6, -0.8]", func(two lift.TwoHooks) lift.Hook { return two.Tail }, 3},
	} {
		h := onTwo(t, hundred(tt.cg, `picks:
  - {name: LP1, at: [12, -11, 10]}
  - {name: LP4, at: [12, 9, 10]}
  - {name: LP2, at: [-13, -11, 14]}
  - {name: LP3, at: [-13, 9, 14]}
rig: {two hooks: {head: [LP1, LP4], tail: [LP2, LP3], plumb: 0}}
`))
		require.Len(t, h.TwoHooks.Curve, 1, "not turned")
		page.Is(tt.cg, "hook", tt.hook(*h.TwoHooks).WorstKN) // the load weighs 100 kN
		page.Is(tt.cg, "lift point", h.Legs[tt.lug].WorstTensionKN)
		assert.Equal(t, 90.0, h.Legs[tt.lug].FromHorizontalDeg)
		assert.Contains(t, tt.hook(*h.TwoHooks).WorstCase, "3.0°")
		assert.Contains(t, fmt.Sprint(h.Assumptions), "0027/ND")
	}
}

// Out of height by 1.0 m in 25 m turns level picks by 2.29° (the same source),
// so that a CG 1 m below them, 12 m from the tail, moves 1·tan 2.29° toward the
// head: (12 + 0.04003)/25 of 100 kN.
func TestHookHeightsFromTheLoadFile(t *testing.T) {
	h := onTwo(t, hundred("[12, 0, -1]", "picks: [{name: A, at: [25, 0, 0]}, {name: C, at: [0, 0, 0]}]\nrig: {two hooks: {head: A, tail: C, hook heights: 1, plumb: 0}}\n"))
	assert.InDelta(t, 48.160, h.TwoHooks.Head.WorstKN, 1e-3)
	assert.InDelta(t, 52.160, h.TwoHooks.Tail.WorstKN, 1e-3)
	assert.Contains(t, h.TwoHooks.Head.WorstCase, "2.3°")
	assert.InDelta(t, 1, *h.TwoHooks.RollMarginM, 1e-9)
	assert.Empty(t, h.Verdict.Reasons)
}

// Lines 3° out of plumb, picks 2 m above the CG in the middle of 10 m: the lines
// meet its level 2·tan 3° to one side, head = 100·(5 + 2·tan 3°)/10/cos 3° =
// 51.118 kN.
func TestPlumbFromTheLoadFile(t *testing.T) {
	h := onTwo(t, hundred("[5, 0, -2]", "picks: [{name: A, at: [10, 0, 0]}, {name: C, at: [0, 0, 0]}]\nrig: {two hooks: {head: A, tail: C, hook heights: 0, plumb: 3}}\n"))
	assert.InDelta(t, 51.118, h.TwoHooks.Head.WorstKN, 1e-3)
	assert.InDelta(t, 51.118, h.TwoHooks.Tail.WorstKN, 1e-3)
}

// What has no meaning on two hooks is a fault of the input, at its line.
func TestTwoHooksThatMakeNoSense(t *testing.T) {
	for _, tt := range []struct{ picks, rig, text string }{
		{"{name: A, at: [20, 0, 0]}, {name: C, at: [20, 0, 0]}", "head: A, tail: C", "both hooks hold one place"},
		{"{name: A, at: [20, 0, 9]}, {name: C, at: [20, 0, 0]}", "head: A, tail: C", "one pick is drawn plumb over the other"},
		{"{name: A, at: [20, 0, 0]}, {name: C, at: [0, 0, 0]}", "head: A, tail: C, turn: {to: 5, about: x}", "from square to the line of picks"},
		{"{name: A, at: [20, 0, 0]}, {name: B, at: [19, 1, 0]}, {name: C, at: [0, 0, 0]}", "head: [A, B], tail: C", "not side by side"},
		{"{name: A, at: [20, 0, 0]}, {name: B, at: [20, 0, 0]}, {name: C, at: [0, 0, 0]}", "head: [A, B], tail: C", "are in one place"},
		{"{name: A, at: [20, 1, 0]}, {name: B, at: [20, -1, 0]}, {name: C, at: [0, 0, 0]}", "head: [A, B], tail: C, slings: {A: 2}", "only one has a length"},
		{"{name: A, at: [20, 1, 0]}, {name: B, at: [20, -1, 0]}, {name: C, at: [0, 0, 0]}", "head: [A, B], tail: C, slings: {A: 2, B: 3}", "differ in length"},
		{"{name: A, at: [20, 1, 0]}, {name: B, at: [20, -1, 0]}, {name: C, at: [0, 0, 0]}", "head: [A, B], tail: C, slings: {A: 1, B: 1}", "too short to meet"},
	} {
		_, err := lift.Legs(read(t, hundred("[8, 0, -1]", "picks: ["+tt.picks+"]\nrig: {two hooks: {"+tt.rig+"}}\n")), lift.Options{})
		var problems takeoff.Problems
		require.True(t, errors.As(err, &problems), "%s: %v", tt.rig, err)
		assert.Contains(t, problems[0].Text, tt.text)
		assert.Equal(t, 6, problems[0].Line)
		assert.NotEmpty(t, problems[0].Fix)
	}
}

// A column drawn upright, its head pick plumb over its tail pick, is laid down
// about the axis that is given. Levers by hand with the CG 8 m from the tail on
// the line of picks: 40 and 60 kN until it lies. About y, right-handed, its top
// goes toward +x.
func TestLaidDownFromUpright(t *testing.T) {
	h := onTwo(t, hundred("[0, 0, 8]", "picks: [{name: A, at: [0, 0.6, 20]}, {name: B, at: [0, -0.6, 20]}, {name: C, at: [0, 0, 0]}]\n"+
		"rig: {two hooks: {head: [A, B], tail: C, hook heights: 0, plumb: 0, turn: {from: 0, to: 90, about: y}}}\n"))
	assert.True(t, h.Verdict.Acceptable, h.Verdict.Reasons)
	last := h.TwoHooks.Curve[len(h.TwoHooks.Curve)-1]
	assert.InDelta(t, 40, last.HeadKN, 1e-3)
	assert.InDelta(t, 60, last.TailKN, 1e-3)
	assert.InDelta(t, 20, last.ApartM, 1e-9)
	assert.InDelta(t, 20, h.TwoHooks.Curve[0].RiseM, 1e-9)
	assert.Contains(t, codesOf(h.Header), "hand-over")
	assert.InDelta(t, 100, h.TwoHooks.Head.WorstKN, 1e-3)
}

// Liquid that can run is not worked out, and says so; baffled it is taken as it
// lies.
func TestLiquidOnTwoHooks(t *testing.T) {
	file := func(more string) string {
		return `
load: tank
units: m
material: structural steel
parts:
  - name: tank
    tube: {outside: 2, wall: 0.01, height: 4}
    along: x
    at: [0, 0, 0]
    contents: {fluid: water, depth: 0.5` + more + `}
picks: [{name: A, at: [4, 0, 1]}, {name: C, at: [0, 0, 1]}]
rig: {two hooks: {head: A, tail: C}}
`
	}
	l, err := lift.Legs(read(t, file("")), lift.Options{})
	require.NoError(t, err)
	assert.False(t, l.Verdict.Acceptable)
	assert.False(t, l.Solved)
	assert.Contains(t, l.Verdict.Reasons[0], "liquid that can run (tank contents)")
	assert.Contains(t, onTwo(t, file(", baffled: true")).Lengths, "one line, plumb")
}

// A column on trunnions on its axis, 20 m between picks: hooks 0.1 m out of height
// may stand it upright from asin(1 − 0.1/20) = 84.3° on. That is the hand-over,
// not a hook that goes slack on the way.
func TestHookHeightsNearUpright(t *testing.T) {
	h := onTwo(t, strings.Replace(upended("0", ", turn: {to: 90}", ""), "hook heights: 0", "hook heights: 0.1", 1))
	assert.True(t, h.Verdict.Acceptable, h.Verdict.Reasons)
	require.Len(t, h.TwoHooks.HandOverDeg, 1)
	assert.Less(t, h.TwoHooks.HandOverDeg[0], 84.3)
	// 2 m out: upright from asin(1 − 2/20) = 64° on, which is no hand-over.
	h = onTwo(t, strings.Replace(upended("0", ", turn: {to: 90}", ""), "hook heights: 0", "hook heights: 2", 1))
	assert.Contains(t, fmt.Sprint(h.Verdict.Reasons), "that is no hand-over")
	// The default, 3° either way, on top of 5°.
	h = onTwo(t, strings.Replace(upended("0", ", turn: {to: 90}", ""), "hook heights: 0, ", "", 1))
	assert.True(t, h.Verdict.Acceptable, h.Verdict.Reasons)
	assert.InDelta(t, 82, h.TwoHooks.HandOverDeg[0], 1e-6)
}

// A CG that is anywhere within 0.3 m may be in the plane of the picks, so that
// nothing rolls, as well as beside it. Picks 10 m apart and 1 m above it, the
// head up by 30°: the tail has most with the CG 5.3 m from the head and 0.7 m
// below the line, (5.3·cos 30° − 0.7·sin 30°)/(10·cos 30°) = 48.958 kN of 100.
// Rolled from 0.3 m beside it hangs lower, 0.762 m, and leaves it 48.603.
func TestCGInThePlaneOfThePicks(t *testing.T) {
	yaml := hundred("[5, 0, -1]", "picks: [{name: A, at: [10, 0, 0]}, {name: C, at: [0, 0, 0]}]\nrig: {two hooks: {head: A, tail: C, hook heights: 0, plumb: 0, turn: {from: 30, to: 40}}}\n")
	h := onTwo(t, strings.Replace(yaml, "box: 22 x 1 x 1", "position: 0.3", 1))
	assert.InDelta(t, 48.958, h.TwoHooks.Tail.WorstKN, 1e-3)
}

// The CG 9.9 m from the tail of 10 m and 1 m below the picks: a line 6° out of
// plumb moves 0.105 m, past it, so that the tail may go slack.
func TestHooksOutMayLeaveOneSlack(t *testing.T) {
	h := onTwo(t, hundred("[9.9, 0, -1]", "picks: [{name: A, at: [10, 0, 0]}, {name: C, at: [0, 0, 0]}]\nrig: {two hooks: {head: A, tail: C, hook heights: 0, plumb: 6}}\n"))
	assert.False(t, h.Verdict.Acceptable)
	assert.Contains(t, h.Verdict.Reasons[0], "a hook can go slack (best CG)")
	assert.True(t, h.Stable)
	assert.False(t, h.StableWorst)
}

// Laws: the hooks carry the load, the worst is no less than the curve, more in
// doubt is never less, and a load mirrored end to end is the same load.
func TestLawsOfTwoHooks(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		number := func(name string, low, high float64) float64 {
			return math.Round(rapid.Float64Range(low, high).Draw(t, name)*1000) / 1000
		}
		x, z, tail, to := number("x", 3, 17), number("z", -4, -2), number("tail", -1, 1), number("to", 0, 40)
		doubt := number("doubt", 0.001, 0.3)
		file := func(sign, heights, plumb float64) string {
			return fmt.Sprintf("load: a\nunits: m\nparts: [{name: a, weight: 10 t, at: [%g, 0, %g], position: %g, tolerance: 3 %%}]\n"+
				"picks: [{name: A, at: [%g, 0, 0]}, {name: B, at: [0, 0, %g]}]\n"+
				"rig: {two hooks: {head: A, tail: B, hook heights: %g, plumb: %g, turn: {to: %g}}}\n", sign*x, z, doubt, sign*20, tail, heights, plumb, to)
		}
		hang := func(yaml string) lift.Hung {
			h, err := lift.Legs(read(t, yaml), lift.Options{})
			require.NoError(t, err)
			return h
		}
		plain, out := hang(file(1, 0, 0)), hang(file(1, 0.2, 2))
		weight := plain.PlanningKg * 9.80665 / 1000
		for _, c := range plain.TwoHooks.Curve {
			require.InDelta(t, weight, c.HeadKN+c.TailKN, 1e-9*weight)
			require.LessOrEqual(t, c.HeadKN, plain.TwoHooks.Head.WorstKN*(1+1e-12))
			require.LessOrEqual(t, c.TailKN, plain.TwoHooks.Tail.WorstKN*(1+1e-12))
		}
		require.LessOrEqual(t, plain.TwoHooks.Head.WorstKN, out.TwoHooks.Head.WorstKN*(1+1e-9))
		require.LessOrEqual(t, plain.TwoHooks.Tail.WorstKN, out.TwoHooks.Tail.WorstKN*(1+1e-9))
		if !plain.Verdict.Acceptable {
			require.False(t, out.Verdict.Acceptable, "more in doubt never mends it")
		}
		mirrored := hang(file(-1, 0.2, 2))
		require.InDelta(t, out.TwoHooks.Head.WorstKN, mirrored.TwoHooks.Head.WorstKN, 1e-9*weight, "the head goes up at either end")
		require.Equal(t, out.Verdict.Acceptable, mirrored.Verdict.Acceptable)
	})
}
