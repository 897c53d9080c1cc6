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

// kN in kg at standard gravity, to write weights of round newtons into files.
func kN(n float64) string { return fmt.Sprintf("%.6f kg", n*1000/9.80665) }

// barred is a load of so many kN at a place, with the picks and the rig given.
func barred(weight float64, at, picks, rig string) string {
	return fmt.Sprintf("\nload: block\nunits: m\nparts:\n  - {name: block, weight: %s, at: %s, tolerance: 0.000001 %%}\npicks: %s\nrig:\n  bar: %s\n", kN(weight), at, picks, rig)
}

func barLegs(t *testing.T, file string) lift.Hung {
	t.Helper()
	h, err := lift.Legs(read(t, file), lift.Options{})
	require.NoError(t, err)
	require.True(t, h.Solved, h.Verdict.Reasons)
	return h
}

const endPicks = "[{name: A, at: [-2, 0, -2]}, {name: B, at: [2, 0, -2]}]"

// Spreader of 5 kN and 4 m on two top legs of 4 m (60°), drops of 2 m, load of
// 100 kN, CG 0.3 m off and 0.5 m below the picks. By hand (derived here), moments
// about the hook: tan φ = W·e/(W·(h + d) + W_bar·h) with h = 2·tan 60° =
// 3.464102: 30/(396.4102 + 17.3205) = 0.0725108, φ = 4.14731°. Plumb drops, the
// lever: 50·(1 ± (0.3 − 0.5·tan φ)/2) = 56.5936 and 43.4064 kN. Top legs, law of
// sines on 105 kN: 105·sin(30° ± φ)/sin 60° = 68.057 and 52.871 kN. Along the bar
// at the low end 68.057·cos 60° less 56.5936·sin φ: 29.937 kN presses.
func TestSpreaderOffCentreByHand(t *testing.T) {
	h := barLegs(t, barred(100, "[0.3, 0, -2.5]", endPicks, "{kind: spreader, weight: "+kN(5)+", length: 4, height: 2, top: 4, holds: [A, B]}"))
	assert.InDelta(t, 4.14731, h.TiltDeg, 1e-4)
	require.Len(t, h.Bars, 1)
	assert.InDelta(t, 4.14731, h.Bars[0].TiltDeg, 1e-4)
	assert.InDelta(t, 43.4064, h.Legs[0].TensionKN, 1e-3)
	assert.InDelta(t, 56.5936, h.Legs[1].TensionKN, 1e-3)
	require.Len(t, h.UpperLegs, 2)
	assert.Equal(t, "hook–spreader 1", h.UpperLegs[0].Name)
	assert.InDelta(t, 52.871, h.UpperLegs[0].TensionKN, 2e-3)
	assert.InDelta(t, 68.057, h.UpperLegs[1].TensionKN, 2e-3)
	assert.InDelta(t, 60-4.14731, min(h.UpperLegs[0].FromHorizontalDeg, h.UpperLegs[1].FromHorizontalDeg), 1e-3)
	assert.InDelta(t, 29.937, h.Bars[0].CompressionKN, 5e-3)
	assert.Equal(t, "B", h.Governing)
	assert.Equal(t, "hook–spreader 2", h.UpperGoverning)
	assert.InDelta(t, 0, h.Squeeze["A"], 1e-9, "plumb drops do not squeeze the load")
	assert.Nil(t, h.Stability.FirstSlackShiftM)
	// The load swings about the line of its two picks: 0.5 m above its CG.
	assert.InDelta(t, 0.5, h.Stability.MarginM, 1e-3)
}

// Centred each end holds 50 kN and half the bar: V/tan θ = 52.5/tan 60° = 30.311
// kN presses the spreader (derived here: a leg's T·sin θ = V, T·cos θ presses).
func TestCompressionOfASpreaderByHand(t *testing.T) {
	h := barLegs(t, barred(100, "[0, 0, -2.5]", endPicks, "{kind: spreader, weight: "+kN(5)+", length: 4, height: 2, hook: 3.4641016, holds: [A, B]}"))
	assert.InDelta(t, 0, h.TiltDeg, 1e-4)
	assert.InDelta(t, 30.311, h.Bars[0].CompressionKN, 1e-3)
	assert.InDelta(t, 2.5, h.Bars[0].MomentKNM, 1e-3, "its own 1.25 kN/m over 4 m: wL²/8")
	assert.InDelta(t, 60.622, h.UpperLegs[0].TensionKN, 1e-3)
}

const fourPicks = "[{name: A, at: [-2, -1, 0]}, {name: B, at: [-2, 1, 0]}, {name: C, at: [2, -1, 0]}, {name: D, at: [2, 1, 0]}]"

func twoTiers(top, low string) string {
	lower := func(name, picks string) string {
		return fmt.Sprintf("{bar: {name: %s, kind: spreader, weight: %s, length: 2, height: 2, %s holds: %s}}", name, kN(1), low, picks)
	}
	return fmt.Sprintf("{name: upper, kind: spreader, weight: %s, length: 4, height: 1, %s, holds: [%s, %s]}", kN(3), top, lower("left", "[A, B]"), lower("right", "[C, D]"))
}

// One bar over two: 60 kN, bars of 3, 1 and 1 kN. By hand: drops 15 kN; legs
// between the bars at 45°, (15 + 0.5)/sin 45° = 21.920 kN; top legs at 60°,
// (31 + 1.5)/sin 60° = 37.528 kN. Upper bar: what top legs press less nothing of
// the plumb pulls below, 32.5/tan 60° = 18.764 kN; lower: 15.5/tan 45° = 15.5 kN.
func TestTwoTiersByHand(t *testing.T) {
	h := barLegs(t, barred(60, "[0, 0, -0.5]", fourPicks, twoTiers("hook: 3.4641016", "")))
	assert.InDelta(t, 0, h.TiltDeg, 1e-4)
	for _, leg := range h.Legs {
		assert.InDelta(t, 15, leg.TensionKN, 1e-3, leg.Pick)
	}
	want := map[string]float64{"hook–upper 1": 37.528, "hook–upper 2": 37.528, "upper–left 1": 21.920, "upper–left 2": 21.920, "upper–right 1": 21.920, "upper–right 2": 21.920}
	require.Len(t, h.UpperLegs, len(want))
	for _, leg := range h.UpperLegs {
		assert.InDelta(t, want[leg.Name], leg.TensionKN, 1e-3, leg.Name)
	}
	require.Len(t, h.Bars, 3)
	assert.InDelta(t, 18.764, h.Bars[0].CompressionKN, 2e-3)
	assert.InDelta(t, 15.5, h.Bars[1].CompressionKN, 2e-3)
	assert.InDelta(t, 5000/9.80665, h.BarsKg, 1e-3)
}

// CG 0.2 m off along the upper bar, legs of the lengths of the level rig: load
// and upper bar tilt as one, the lower bars plumb below the upper one's ends. By
// hand: tan φ = 60·0.2/(60·(3.464102 + 0.5) + (2 + 3)·3.464102), 2.69253°, and
// 15·(1 ± (0.2 − 0.5·tan φ)/2) = 16.3236 and 13.6764 kN.
func TestTwoTiersOffCentreByHand(t *testing.T) {
	h := barLegs(t, barred(60, "[0.2, 0, -0.5]", fourPicks, twoTiers("top: 4", "top: 1.41421356,")))
	assert.InDelta(t, 2.69253, h.TiltDeg, 1e-3)
	assert.InDelta(t, 2.69253, h.Bars[0].TiltDeg, 1e-3)
	assert.InDelta(t, 13.6764, h.Legs[0].TensionKN, 2e-3)
	assert.InDelta(t, 16.3236, h.Legs[3].TensionKN, 2e-3)
}

// A lifting beam of 6 kN and 3 m, held 0.4 m above its ends' line, its own CG
// 0.2 m above it; 80 kN, CG 0.05 m off and 0.3 m below the picks. By hand (the
// closed form of one bar on drops, derived here): tan φ = 80·0.05/(80·(0.4 + 0.3)
// + 6·0.2) = 4/57.2, 4.00018°. It hangs level held 80·0.05/86 = 46.51 mm from its
// middle. Centred, it is bent by 40 kN at 1.5 m and its own 2 kN/m over 1.5 m:
// 60 + 2.25 kN·m.
func TestLiftingBeamOnOneShackleByHand(t *testing.T) {
	const picks = "[{name: A, at: [-1.5, 0, -1]}, {name: B, at: [1.5, 0, -1]}]"
	beam := "{kind: lifting beam, weight: " + kN(6) + ", length: 3, depth: 0.4, drops: 1, hook: 1, %s holds: [A, B]}"
	h := barLegs(t, barred(80, "[0.05, 0, -1.3]", picks, fmt.Sprintf(beam, "")))
	assert.InDelta(t, 4.00018, h.TiltDeg, 1e-3)
	require.NotNil(t, h.Bars[0].HoldAtM)
	assert.InDelta(t, 0.04651, *h.Bars[0].HoldAtM, 1e-5)
	assert.Contains(t, strings.Join(h.Assumptions, "\n"), "held at its middle")
	assert.InDelta(t, 86, h.UpperLegs[0].TensionKN, 1e-3)

	level := barLegs(t, barred(80, "[0.05, 0, -1.3]", picks, fmt.Sprintf(beam, "held at: 0.0465116,")))
	assert.InDelta(t, 0, level.TiltDeg, 0.01, "as it says, so it hangs")

	// Other lengths would not help it, and none odd are made up.
	drawn := barLegs(t, barred(80, "[0.05, 0, -1.3]", picks, strings.Replace(fmt.Sprintf(beam, ""), "drops: 1,", "height: 1,", 1)))
	assert.InDelta(t, 4.00018, drawn.TiltDeg, 1e-3)
	assert.InDelta(t, 1, drawn.Legs[0].LengthM, 1e-9)
	assert.Contains(t, drawn.Lengths, "see the tilt")

	centred := barLegs(t, barred(80, "[0, 0, -1.3]", picks, fmt.Sprintf(beam, "")))
	assert.InDelta(t, 62.25, centred.Bars[0].MomentKNM, 0.01)
}

func frameOver(weight, above, hook float64) string {
	return barred(weight, fmt.Sprintf("[0, 0, %g]", above), "[{name: A, at: [-2, -1, 0]}, {name: B, at: [2, -1, 0]}, {name: C, at: [2, 1, 0]}, {name: D, at: [-2, 1, 0]}]",
		fmt.Sprintf("{kind: frame, weight: %s, length: 4 x 2, height: 3, hook: %g, holds: [A, B, C, D]}", kN(20), hook))
}

// A frame of 20 kN over plumb drops, 100 kN with the CG 1.8 m above the picks:
// it holds while h₁·(W + W_bar) > a·W, so from h₁ = 1.8·100/120 = 1.5 m on (the
// metacentric check of bars on drops, derived in rig.OnDrops). At 2 m the CG could
// rise 2·1.2 − 1.8 = 0.6 m.
func TestMetacentricHeightOfAFrame(t *testing.T) {
	h := barLegs(t, frameOver(100, 1.8, 2))
	assert.True(t, h.Stable)
	assert.InDelta(t, 0.6, h.Stability.MarginM, 1e-3)
	require.NotNil(t, h.Bars[0].LeastHookM)
	assert.InDelta(t, 1.5, *h.Bars[0].LeastHookM, 2e-3)
	assert.InDelta(t, 2, *h.Bars[0].HookM, 1e-12)
	codes := ""
	for _, w := range h.Warnings {
		codes += w.Code + " "
	}
	assert.Contains(t, codes, "cg-above-pick")

	low := barLegs(t, frameOver(100, 1.8, 1.4))
	assert.False(t, low.Stable)
	assert.False(t, low.Verdict.Acceptable)
	assert.Contains(t, strings.Join(low.Verdict.Reasons, "\n"), "unstable")
	assert.InDelta(t, 1.4*1.2-1.8, low.Stability.MarginM, 1e-3)
	require.NotNil(t, low.Bars[0].LeastHookM)
	assert.InDelta(t, 1.5, *low.Bars[0].LeastHookM, 2e-3)
}

// Four drops from a frame share as they like: with two opposite ones loose each
// of the others carries a half, 50 kN, and of the top legs with 120 kN below at
// atan(3/√5) = 53.3008°, 60/sin = 74.833 kN. By statics.
func TestDropsOfAFrameAtTheirMost(t *testing.T) {
	h := barLegs(t, frameOver(100, -1, 3))
	for _, leg := range h.Legs {
		assert.InDelta(t, 25, leg.TensionKN, 1e-3)
		assert.InDelta(t, 50, h.Sharing.AnyLegSlack[leg.Pick], 1e-3)
		assert.GreaterOrEqual(t, leg.WorstTensionKN, 50-1e-3)
	}
	for _, leg := range h.UpperLegs {
		assert.InDelta(t, 30/math.Sin(math.Atan(3/math.Sqrt(5))), leg.TensionKN, 1e-3)
		assert.GreaterOrEqual(t, leg.WorstTensionKN, 74.833-1e-3)
	}
	assert.Contains(t, h.Basis, "any leg slack")
	assert.Contains(t, strings.Join(h.Assumptions, "\n"), "0.25 % longer or shorter")
}

// Where the file leaves the lengths open all hangs level, wherever the CG is: fed
// back through the statics.
func TestDrawnForLevelHangsLevel(t *testing.T) {
	const uneven = "[{name: A, at: [-2, -1, 0]}, {name: B, at: [-2.2, 1, 0]}, {name: C, at: [2, -1, 0.4]}, {name: D, at: [2.1, 1, 0.4]}]"
	bar := "{kind: spreader, weight: 80 kg, length: %g, depth: 0.1, height: 2, hook: 3, cg offset: 0.1, holds: %s}"
	for name, file := range map[string]string{
		"shorter than the picks are apart": barred(50, "[0.5, 0, -1]", endPicks, fmt.Sprintf(bar, 3.0, "[A, B]")),
		"longer":                           barred(50, "[-0.7, 0, -3]", endPicks, fmt.Sprintf(bar, 5.0, "[A, B]")),
		"pairs, not square, not level":     barred(50, "[0.3, 0.2, -1]", uneven, fmt.Sprintf(bar, 3.6, "[[A, B], [C, D]]")),
		"one and two":                      barred(50, "[0.3, 0.15, -1]", "[{name: A, at: [-2, 0, 0]}, {name: B, at: [2, -1, 0]}, {name: C, at: [2, 1, 0]}]", fmt.Sprintf(bar, 4.0, "[A, [B, C]]")),
		"frame":                            barred(50, "[0.4, -0.2, -1]", fourPicks, "{kind: frame, weight: 300 kg, length: 3 x 1.6, height: 2, hook: 3, holds: [A, C, D, B]}"),
		"frame over picks in no rectangle": barred(50, "[0.2, -0.2, -1]", "[{name: A, at: [-1.5, -1, 0]}, {name: B, at: [2.2, -0.8, 0.2]}, {name: C, at: [1.8, 1.3, 0]}, {name: D, at: [-2, 0.9, -0.1]}]",
			"{kind: frame, weight: 300 kg, length: 3 x 1.6, height: 2, hook: 3, holds: [A, B, C, D]}"),
		"two tiers, the upper bar too short": barred(60, "[0.3, 0.2, -0.5]", fourPicks, strings.Replace(twoTiers("hook: 3", ""), "length: 4", "length: 3.4", 1)),
		"beam at two points":                 barred(50, "[0.3, 0, -3]", endPicks, "{kind: lifting beam, weight: 80 kg, length: 4, depth: 0.2, held at: [-0.5, 0.5], height: 1, hook: 2, holds: [A, B]}"),
		"two tiers":                          barred(60, "[0.3, 0.2, -0.5]", fourPicks, twoTiers("hook: 3", "")),
		"a bar at one end alone": barred(60, "[0.3, 0, -0.5]", "[{name: A, at: [-2, 0, 0]}, {name: B, at: [2, -1, 0]}, {name: C, at: [2, 1, 0]}]",
			"{name: up, kind: spreader, weight: 80 kg, length: 4, height: 1, hook: 3, holds: [A, {bar: {name: low, kind: spreader, weight: 40 kg, length: 2, height: 1, holds: [B, C]}}]}"),
	} {
		t.Run(name, func(t *testing.T) {
			h, near := barLegs(t, file), 0.01
			if strings.Contains(name, "too short") {
				near = 0.1 // lower bars whose legs lean: the rounds come to rest a little beside it
			}
			assert.InDelta(t, 0, h.TiltDeg, near)
			for _, b := range h.Bars {
				assert.InDelta(t, 0, b.TiltDeg, near, b.Name)
			}
			assert.InDelta(t, 0, h.LowCornerDropM, 1e-3)
		})
	}
}

// What may not be lifted says so, with its figures where there are any.
func TestBarsNotAcceptable(t *testing.T) {
	bar := func(more string) string {
		return barred(50, "[0, 0, -3]", endPicks, "{kind: spreader, weight: 100 kg, length: 4, height: 2, "+more+", holds: [A, B]}")
	}
	for _, tt := range []struct{ name, file, reason string }{
		{"top legs too short", bar("top: 1.9"), "legs that cannot reach"},
		{"flat top legs", bar("hook: 1"), "leg hook–spreader 1 at 26"},
		{"headroom", bar("hook: 3") + "limits: {headroom: 4}\n", "headroom of"},
		{"crane", bar("hook: 3") + "limits: {crane: {capacity: 5.2 t, block: 50 kg}}\n", "over capacity: load, bars and block weigh 5 249 kg"},
		{"tilt", barred(50, "[0.3, 0, -3]", endPicks, "{kind: spreader, weight: 100 kg, length: 4, height: 2, top: 4, holds: [A, B]}") + "limits: {tilt: 1}\n", "tilt of 3"},
		{"CG above two picks", barred(50, "[0, 0, -1.5]", endPicks, "{kind: spreader, weight: 100 kg, length: 4, height: 2, hook: 3, holds: [A, B]}"), "unstable"},
		{"CG outside", barred(50, "[2.5, 0, -3]", endPicks, "{kind: spreader, weight: 100 kg, length: 4, height: 2, hook: 3, holds: [A, B]}"), "CG outside the picks"},
		{"a hair to one side", barred(50, "[1.995, 0, 1]", "[{name: A, at: [-2, -1, 0]}, {name: B, at: [2, -1, 0]}, {name: C, at: [2, 1, 0]}, {name: D, at: [-2, 1, 0]}]",
			"{kind: frame, weight: 300 kg, length: 4 x 2, height: 3, hook: 3, holds: [A, B, C, D]}"), "as good as unstable: with the CG only"},
		{"a hair from rolling", barred(50, "[0, 0, -2.003]", endPicks, "{kind: spreader, weight: 100 kg, length: 4, height: 2, hook: 3, holds: [A, B]}"), "as good as unstable: the CG need rise only"},
	} {
		t.Run(tt.name, func(t *testing.T) {
			_, err := lift.Sheet(read(t, tt.file+"rules: EN\n"), lift.Options{})
			require.NoError(t, err, "a lift that may not be made is no fault of the program")
			h, err := lift.Legs(read(t, tt.file), lift.Options{})
			require.NoError(t, err)
			assert.False(t, h.Verdict.Acceptable)
			assert.Contains(t, strings.Join(h.Verdict.Reasons, "\n"), tt.reason)
		})
	}
}

// The range of the weight and of the CG goes into legs, drops and bars: 10 % on
// the weight alone is at least 10 % on each drop.
func TestBarsAtTheWorst(t *testing.T) {
	file := barred(50, "[0, 0, -3]", endPicks, "{kind: spreader, weight: 100 kg, length: 4, height: 2, hook: 3, length tolerance: 20 mm, holds: [A, B]}")
	loose := barLegs(t, strings.Replace(file, "0.000001 %", "10 %", 1))
	assert.GreaterOrEqual(t, loose.Legs[0].WorstTensionKN, 27.5-1e-6)
	// One drop 20 mm long and the other short tilts the load by atan(0.04/4) =
	// 0.573° against the bar, and top legs of √13 m as far out tilt the bar as well.
	assert.Greater(t, loose.TiltWorstDeg, 0.573)
	assert.Less(t, loose.TiltWorstDeg, 3.0)
	assert.Greater(t, loose.Bars[0].TiltWorstDeg, 0.1)
	assert.Greater(t, loose.CasesSolved, 10)
}

// Sizes by hand: the drops of a spreader are no set on one hook, so that each
// must take its own 25 kN, 2549.3 kg; the top legs at atan(3/2) = 56.310° are,
// and EN asks of the set (50 kN + 980.665 N)/1.4 = 3713.3 kg, more than the
// statics' 3124.0 kg. US has no check of two legs.
func TestSlingsUnderABarByHand(t *testing.T) {
	file := barred(50, "[0, 0, -3]", endPicks, "{kind: spreader, weight: 100 kg, length: 4, height: 2, hook: 3, holds: [A, B]}")
	en, err := lift.Slings(read(t, file), lift.Options{Rules: "EN"})
	require.NoError(t, err)
	require.Len(t, en.Sets, 2)
	assert.InDelta(t, 2549.3, en.Required["A"], 0.1)
	assert.InDelta(t, 2549.3, en.Sets[0].Required["B"], 0.1)
	assert.InDelta(t, 3713.3, en.Sets[1].Required["hook–spreader 1"], 0.1)
	us, err := lift.Slings(read(t, file), lift.Options{Rules: "US"})
	require.NoError(t, err)
	assert.InDelta(t, 3124.0, us.Sets[1].Required["hook–spreader 2"], 0.1)
	assert.InDelta(t, 100, us.Gross.BarsKg, 1e-9)
	assert.InDelta(t, us.Gross.SizingKg+100+us.Gross.RiggingKg, us.Gross.TotalKg, 1e-9)
}

// Two drops from one end are a bridle: EN counts them by its mode factor. One
// end holds 25 kN on two drops at atan(2/1) = 63.435° from horizontal: the
// statics' 13.975 kN each, EN's 25/1.4 = 17.857 kN, 1820.9 kg.
func TestBridleOnABarByHand(t *testing.T) {
	file := barred(50, "[0, 0, -1]", fourPicks, "{kind: spreader, weight: 100 kg, length: 4, height: 2, hook: 3, holds: [[A, B], [C, D]]}")
	en, err := lift.Slings(read(t, file), lift.Options{Rules: "EN"})
	require.NoError(t, err)
	assert.InDelta(t, 1820.9, en.Required["A"], 0.2)
	assert.InDelta(t, 13.975, en.Governing.TensionKN, 1e-3)
	us, err := lift.Slings(read(t, file), lift.Options{Rules: "US"})
	require.NoError(t, err)
	assert.InDelta(t, 13.9754*1000/9.80665, us.Required["A"], 0.2)
}

// Water that runs, under a spreader: the tank of exactTilt hung by two plumb
// drops from a bar h below the hook. Load and bar tilt as one, and moments about
// the hook balance where W·(x·cos φ − (h + 1 − z)·sin φ) = W_bar·h·sin φ, x and z
// the CG's place with the water where it has run to, picks 1 m above the datum.
func TestLiquidUnderABar(t *testing.T) {
	const (
		b, d, h, pick             = 2.0, 0.5, 1.7320508, 1.0
		water, weight, bar, aside = 1000.0, 1500.0, 100.0, 0.1
	)
	out := func(phi float64) float64 {
		s := math.Tan(phi)
		x := (weight*aside + water*b*b*s/(12*d)) / (weight + water)
		z := (weight*0.5 + water*(d/2+b*b*s*s/(24*d))) / (weight + water)
		return (weight+water)*(x*math.Cos(phi)-(h+pick-z)*math.Sin(phi)) - bar*h*math.Sin(phi)
	}
	low, high := 0.0, 0.4
	for range 100 {
		if mid := (low + high) / 2; out(mid) > 0 {
			low = mid
		} else {
			high = mid
		}
	}
	file := strings.Replace(tank(1000*aside, ""), "picks: [{name: A, at: [0, 0, 2000]}]\nlegs: {lengths: 2000}\n", `
picks: [{name: A, at: [-1000, 0, 1000]}, {name: B, at: [1000, 0, 1000]}]
rig: {bar: {kind: spreader, weight: 100 kg, length: 2000, height: 1000, top: 2000, holds: [A, B]}}
`, 1)
	require.Contains(t, file, "spreader")
	hung := barLegs(t, file)
	assert.InDelta(t, low*180/math.Pi, hung.TiltDeg, 1e-4)
	require.NotNil(t, hung.Liquid)
	// The surface raises the CG by ρ·I/M about the worse axis: 1·2³/12 m⁴.
	assert.InDelta(t, 1000*8.0/12/2500, hung.Liquid.RiseM, 0.01)
	assert.GreaterOrEqual(t, hung.Liquid.RiseWorstM, hung.Liquid.RiseM)
	// Frozen it tilts less, and its CG could rise further.
	frozen := barLegs(t, strings.Replace(file, "corner: [-1000, -500, 0]}}", "corner: [-1000, -500, 0]}, baffled: true}", 1))
	assert.Less(t, frozen.TiltDeg, hung.TiltDeg)
	assert.Greater(t, frozen.Stability.MarginM, hung.Stability.MarginM+0.2)
}
