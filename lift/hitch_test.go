package lift_test

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"plumbhook/lift"
)

// pipe is a plain pipe of 610 across in two bights, 4 m apart and 4 m from the
// hook each: an even triangle, so that the legs stand at 60° from horizontal and
// lean 30° along the pipe.
func pipe(hitch, more string) string {
	return `
load: pipe
units: m
material: {name: steel, density: 7850 kg/m3, tolerance: 0.001 %}
parts:
  - {name: pipe, tube: {outside: 0.61, wall: 0.0127, height: 9}, along: x, center: [0, 0, 0], tolerance: 0.001 %}
picks:
  - {name: A, at: [-2, 0, 0]}
  - {name: B, at: [2, 0, 0]}
legs: {lengths: 4}
rules: US
surroundings: {temperature: 20 C, chemicals: [none], edges: none}
hitch: ` + hitch + "\n" + more
}

func hungOf(t *testing.T, yaml string) lift.Hung {
	h, err := lift.Legs(read(t, yaml), lift.Options{})
	require.NoError(t, err)
	require.True(t, h.Solved, h.Verdict.Reasons)
	return h
}

func warningsOf(h lift.Header) (codes []string, text string) {
	for _, w := range h.Warnings {
		codes, text = append(codes, w.Code), text+w.Text+"\n"
	}
	return codes, text
}

// A bridle of baskets at 60° from horizontal needs a friction of tan 30° = 0.577
// along the pipe, by hand; 0.2 holds 11.3°.
func TestBridleOfBasketsSlides(t *testing.T) {
	h := hungOf(t, pipe("{kind: basket, around: 0.61, along: x, friction: 0.2}", ""))
	assert.False(t, h.Verdict.Acceptable)
	assert.Contains(t, strings.Join(h.Verdict.Reasons, "\n"), "the bight of leg A slides: it pulls 30.0° along the body at worst and needs a friction of 0.58; 0.20 stated is 0.3 times that")
	hold := h.Legs[0].Hold
	require.NotNil(t, hold)
	assert.InDelta(t, 30, hold.LeanWorstDeg, 1e-6)
	assert.InDelta(t, 0.5773503, *hold.FrictionNeeded, 1e-7)
	assert.InDelta(t, 0.2/0.5773503, *hold.SlipSafety, 1e-6)
	// Parts: sin(half) = 0.305/4; each carries T/(2·cos(half)).
	half := math.Asin(0.305 / 4)
	assert.InDelta(t, 2*half*180/math.Pi, *hold.PartsIncludedDeg, 1e-9)
	// The CG counts as 305/50 = 6.1 mm from the line of the centres, so that one part
	// carries 6.1/305 = 2 % more than half.
	assert.InDelta(t, 1.02*h.Legs[0].WorstTensionKN/2/math.Cos(half), *hold.WorstPartTensionKN, 1e-9)
	assert.InDelta(t, 2*math.Sqrt(16-0.305*0.305)+0.305*(math.Pi+2*half), *hold.SlingLengthM, 1e-9)
	assert.Equal(t, 0.61, hold.ContactM)
	codes, _ := warningsOf(h.Header)
	assert.Contains(t, codes, "bight-slides")

	// Enough friction, twice what is needed: acceptable, and never plainly stable.
	h = hungOf(t, pipe("{kind: basket, around: 0.61, along: x, friction: 1}", ""))
	assert.True(t, h.Verdict.Acceptable, h.Verdict.Reasons)
	assert.True(t, h.Stable)
	assert.Equal(t, "the bight does not slide and the load does not turn in the bight", h.Stability.Condition)
	assert.True(t, strings.HasPrefix(h.Stability.Text, "stable if the bight does not slide"), h.Stability.Text)
	codes, text := warningsOf(h.Header)
	assert.Contains(t, codes, "bight-slides")
	assert.Contains(t, codes, "bight-rolls")
	assert.Contains(t, text, "Along the body it needs, at worst, A 0.58 (1.00 stated), B 0.58 (1.00 stated)")
	assert.Contains(t, h.Legs[0].Hold.Text, "1.00 stated is 1.7 times that")
}

// Friction not stated: slip is not checked, and that is said.
func TestFrictionNotStated(t *testing.T) {
	h := hungOf(t, pipe("{kind: basket, around: 0.61, along: x}", ""))
	codes, text := warningsOf(h.Header)
	assert.Contains(t, codes, "bight-slides")
	assert.Contains(t, codes, "little-friction")
	assert.Contains(t, text, "A 0.58, B 0.58; friction not stated of A, B: slip not checked")
	assert.Contains(t, h.Legs[0].Hold.Text, "needs a friction of 0.58; friction not stated: slip not checked")
	assert.Nil(t, h.Legs[0].Hold.SlipSafety)
	// Which way the pipe runs not stated either: the most that a leg can lean.
	h = hungOf(t, pipe("basket", ""))
	assert.InDelta(t, 30, h.Legs[0].Hold.LeanWorstDeg, 1e-6)
	assert.Contains(t, h.Legs[0].Hold.Text, "basket round a body whose size is not stated; angle between its parts not stated")
	assert.Contains(t, h.Legs[0].Hold.Text, "which way it runs is not stated")
}

// A plain pipe is neutral in its bights: it stays however it is turned, and is not
// stable unless friction, stated, holds it. By hand: half of 0.2 on 305 mm holds
// 0.305·tanh(0.1·π/2) = 47.5 mm; the CG is on the axis, and counts as 6.1 mm off.
func TestPlainPipeTurnsUnlessFrictionHoldsIt(t *testing.T) {
	free := hungOf(t, pipe(`{kind: basket, around: 0.61, along: x, restrained: "cleats welded both sides"}`, ""))
	assert.False(t, free.Verdict.Acceptable)
	assert.Contains(t, strings.Join(free.Verdict.Reasons, "\n"), "neutral")
	codes, _ := warningsOf(free.Header)
	assert.NotContains(t, codes, "bight-slides", "restrained")
	assert.Contains(t, codes, "bight-rolls")

	for _, kind := range []string{"basket", "choker"} {
		held := hungOf(t, pipe(`{kind: `+kind+`, around: 0.61, along: x, friction: 0.2, restrained: "cleats welded both sides"}`, ""))
		assert.True(t, held.Verdict.Acceptable, "%s: %v", kind, held.Verdict.Reasons)
		assert.InDelta(t, 0.305*math.Tanh(0.1*math.Pi/2)-0.0061, held.Stability.MarginM, 1e-9)
		assert.Equal(t, "the load does not turn in the bight", held.Stability.Condition)
		assert.InDelta(t, free.Legs[0].TensionKN, held.Legs[0].TensionKN, 1e-6, "the pull of the legs is the same")
		assert.InDelta(t, held.PlanningKg*9.80665e-3/(2*math.Sin(math.Pi/3)), held.Legs[1].TensionKN, 1e-6)
	}

	// A lug of 300 kg on its side, 355 mm out, brings the CG 300·0.355/(1684 + 300)
	// = 53.7 mm off the line: more than is held, and it turns until it hangs below.
	lug := "  - {name: motor, weight: 300 kg, at: [0, 0.355, 0], status: weighed}\npicks:"
	h := hungOf(t, strings.Replace(pipe(`{kind: basket, around: 0.61, along: x, friction: 0.2, restrained: cleats}`, ""), "picks:", lug, 1))
	assert.False(t, h.Verdict.Acceptable)
	assert.InDelta(t, 90, h.TiltDeg, 0.1, "the CG beside the line comes under it")

	// Friction that is used up along the pipe does not keep it from turning.
	h = hungOf(t, pipe("{kind: basket, around: 0.61, along: x, friction: 0.5776}", ""))
	assert.Contains(t, strings.Join(h.Verdict.Reasons, "\n"), "the load turns in the bight of leg A")
}

// A CG above the line of the bights is not stable, whatever friction is stated.
func TestHighCGInBights(t *testing.T) {
	tower := "  - {name: tank, weight: 900 kg, at: [0, 0, 0.8], status: weighed}\npicks:"
	h := hungOf(t, strings.Replace(pipe(`{kind: basket, around: 0.61, along: x, friction: 0.3, restrained: cleats}`, ""), "picks:", tower, 1))
	assert.False(t, h.Stable)
	assert.False(t, h.Verdict.Acceptable)
	_, text := warningsOf(h.Header)
	assert.Contains(t, text, "not counted on")
}

// The pick of a basket is the centre of the body; where a lug would be, on top, the
// load would look steadier than it is by half the body.
func TestPickOnTopOfTheBodyIsRefused(t *testing.T) {
	onTop := strings.NewReplacer("[-2, 0, 0]", "[-2, 0, 0.305]", "[2, 0, 0]", "[2, 0, 0.305]")
	h := hungOf(t, onTop.Replace(pipe("{kind: basket, around: 0.61, along: x, friction: 1}", "")))
	assert.False(t, h.Verdict.Acceptable)
	assert.Contains(t, strings.Join(h.Verdict.Reasons, "\n"), "pick A is at the top of the load, not at the centre of a body 610 mm (2' 0\") across")
	h = hungOf(t, onTop.Replace(pipe("basket", "")))
	codes, _ := warningsOf(h.Header)
	assert.Contains(t, codes, "bight-pick")
}

// A wide flat body on short legs turns about a point below its centre: (1²/0.5) −
// 0.1 = 1.9 m below, by hand, for 2 m wide and 0.2 m deep, the hook 0.6 m over its
// centre. Its CG is 0.25 m below, which no pick at its centre would warn of.
func TestWideFlatBodyRollsInItsBight(t *testing.T) {
	yaml := `
load: mat
units: m
material: steel
parts:
  - {name: mat, box: 2 x 2 x 0.2, center: [0, 0, 0]}
  - {name: ballast, weight: 20 t, at: [0, 0, -0.3], status: weighed}
picks: [{name: A, at: [0, 0, 0]}]
legs: {lengths: 0.6}
limits: {tilt: 20}
hitch: {kind: basket, around: 2 x 0.2, edge radius: 0.01, along: x, included angle: 10}
`
	h := hungOf(t, yaml)
	reasons := strings.Join(h.Verdict.Reasons, "\n")
	assert.Contains(t, reasons, "the load rolls in its bights")
	assert.Contains(t, reasons, "turns about a point 1.900 m")
	assert.Contains(t, reasons, "the flatter part of its basket", "parts of 26.6° from horizontal")
	codes, _ := warningsOf(h.Header)
	assert.Contains(t, codes, "parts-angle", "10° stated, 126.9° from one hook")
	assert.Contains(t, codes, "one-basket")
	short := hungOf(t, strings.Replace(yaml, "0.6}", "0.1}", 1))
	assert.Contains(t, strings.Join(short.Verdict.Reasons, "\n"), "does not reach round a body of 2.000 m")
}

// What slings are asked for follows the hitch of each leg: the basket's parts, the
// choker's table, the body's corners.
func TestSlingsFollowTheHitchOfEachLeg(t *testing.T) {
	l := read(t, strings.NewReplacer("{name: A, at: [-2, 0, 0]}", `{name: A, at: [-2, 0, 0], hitch: {kind: choker, around: 0.61, along: x, choke angle: 100, restrained: cleats}}`,
		"{name: B, at: [2, 0, 0]}", `{name: B, at: [2, 0, 0], hitch: {kind: basket, around: 0.61, along: x, included angle: 60, restrained: cleats}}`).Replace(pipe("vertical", "")))
	s, err := lift.Slings(l, lift.Options{})
	require.NoError(t, err)
	kg := s.Required
	tension := 1000 / 9.80665
	h, err := lift.Legs(l, lift.Options{})
	require.NoError(t, err)
	assert.InDelta(t, h.Legs[0].WorstTensionKN*tension/0.75, kg["A"], 1e-6)
	assert.InDelta(t, h.Legs[1].WorstTensionKN*tension/(2*math.Cos(math.Pi/6)), kg["B"], 1e-6)
	found := false
	for _, f := range s.Families {
		if f.Family == "alloy_chain" {
			assert.Equal(t, "no", f.Use, "no factor of chain at 100°")
		}
		for _, factor := range f.Factors {
			found = found || factor.Name == "angle of choke 100°" && factor.Value == 0.87
		}
	}
	assert.True(t, found)

	// A square body has edges, whatever the surroundings say of the rest.
	for radius, want := range map[string]string{"edge radius: 0": "edge radius 0 mm cuts it", "friction: 0.2": "not stated: edges"} {
		l = read(t, pipe("{kind: basket, around: 0.61 x 0.61, along: x, "+radius+"}", ""))
		s, err = lift.Slings(l, lift.Options{})
		require.NoError(t, err)
		for _, f := range s.Families {
			if f.Family == "synthetic_web" {
				assert.Contains(t, fmt.Sprint(f.Reasons), want)
			}
		}
	}
	// The pin of a vertical hitch.
	l = read(t, strings.Replace(strings.Replace(pipe("{kind: vertical, pin: 0.005}", ""), "[-2, 0, 0]", "[-2, 0, 0.305]", 1), "[2, 0, 0]", "[2, 0, 0.305]", 1))
	s, err = lift.Slings(l, lift.Options{})
	require.NoError(t, err)
	assert.Contains(t, fmt.Sprint(s.Families), "pin of 5 mm, want at least")
}

// A single basket, by hand: the CG of a beam 0.4 m below its centre and 0.06 m out
// tips it by atan(0.15), so that the bight needs 0.15; at 0.2 it slides with the CG
// 0.2 × 0.4 = 80 mm out.
func TestSingleBasketTipsUntilItSlides(t *testing.T) {
	yaml := `
load: beam with a keel
units: m
parts:
  - {name: all, weight: 2 t, at: [0.06, 0, -0.4], status: weighed, tolerance: 0.001 %, box: 3 x 0.3 x 0.3}
picks: [{name: A, at: [0, 0, 0], hitch: {kind: basket, around: 0.3 x 0.3, along: x, friction: 0.2}}]
legs: {lengths: 3}
`
	h := hungOf(t, yaml)
	hold := h.Legs[0].Hold
	assert.InDelta(t, 0.15, math.Tan(hold.LeanDeg*math.Pi/180), 1e-9)
	assert.InDelta(t, 0.15, *hold.FrictionNeeded, 1e-4)
	_, text := warningsOf(h.Header)
	assert.Contains(t, text, "with the CG 80 mm")
	h = hungOf(t, strings.Replace(yaml, "[0.06,", "[0.09,", 1))
	assert.Contains(t, strings.Join(h.Verdict.Reasons, "\n"), "the bight of leg A slides: it pulls 12.7° along the body")
}

// The leg just reaches round the body: parts in one line, told as too flat, and no
// failure of the program.
func TestBasketThatBarelyReaches(t *testing.T) {
	l := read(t, strings.Replace(pipe("{kind: basket, around: 3.9999999, along: x, friction: 0.2}", ""), "lengths: 4", "lengths: 2.0001", 1))
	s, err := lift.Slings(l, lift.Options{})
	require.NoError(t, err)
	assert.False(t, s.Verdict.Acceptable)
}
