package lift_test

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"plumbhook/lift"
	"plumbhook/takeoff"
)

// fourStiff is a load of 100 kN (10 197.16 kg) on picks 4 × 2 m, CG midway: for a
// hook 3 m up each leg is √14 = 3.741657 m long.
const fourStiff = `
load: block
units: m
parts: [{name: block, weight: 10197.16 kg, at: [0, 0, -0.5], box: 4 x 2 x 1, tolerance: 0.0001 %}]
picks:
  - {name: A, at: [2, 1, 0]}
  - {name: B, at: [-2, 1, 0]}
  - {name: C, at: [-2, -1, 0]}
  - {name: D, at: [2, -1, 0]}
`

func legsOf(t require.TestingT, yaml string) lift.Hung {
	h, err := lift.Legs(read(t, yaml), lift.Options{})
	require.NoError(t, err)
	return h
}

func tensions(h lift.Hung) (kN []float64) {
	for _, leg := range h.Legs {
		kN = append(kN, leg.TensionKN)
	}
	return kN
}

// One leg 10 mm short of 3.74 m nearly makes two legs of four: 31.18 ± k·d/4 =
// 57.91 and 4.45 kN for EA 40 000 kN; by the energy of a rigid body on four springs
// that only pull, six free coordinates, 57.90, 4.46, 57.95, 4.40 kN (derived here).
func TestStretchFromLoadFileToTension(t *testing.T) {
	h := legsOf(t, fourStiff+"legs: {lengths: {A: 3.731657, B: 3.741657, C: 3.741657, D: 3.741657}, stretch: {EA: 40000 kN}}\n")
	require.NotNil(t, h.Stretch)
	assert.InDeltaSlice(t, []float64{57.90, 4.46, 57.95, 4.40}, tensions(h), 0.015)
	// A pulls 57.90 kN: it is 57.90/40 000 of 3.7317 m longer, 5.40 mm.
	assert.InDelta(t, 0.00540, h.Stretch.Legs[0].LongerM, 5e-6)
	// What is sized on is not below any leg slack: a diagonal pair carries 62.36 kN.
	for _, leg := range h.Legs {
		assert.InDelta(t, 62.36, leg.WorstTensionKN, 0.1)
	}
	assert.Contains(t, h.Basis, "any leg slack")
}

// The same by a stated basis and a length tolerance of 5 mm: the worst of the
// combinations is one pair of opposite legs 5 mm short, the other 5 mm long, which
// is 20 mm of k·d/4 on each: k = 40 000/3.7417 kN/m gives 31.18 + 53.5, far past
// the slack of the others: two legs carry all, 62.4 kN.
func TestStretchWithLengthsInDoubt(t *testing.T) {
	h := legsOf(t, fourStiff+"legs: {lengths: 3.741657, length tolerance: 5 mm, stretch: {EA: 40000 kN}}\nsharing: {basis: elastic, because: \"slings measured under load\"}\n")
	for _, leg := range h.Legs {
		assert.InDelta(t, 62.4, leg.WorstTensionKN, 0.3)
	}
	assert.Contains(t, h.Basis, "slings measured under load")
	// Of soft legs, a tenth of the stiffness, the same errors move 5.35 kN.
	h = legsOf(t, fourStiff+"legs: {lengths: 3.741657, length tolerance: 5 mm, stretch: {EA: 4000 kN}}\nsharing: {basis: elastic, because: \"slings measured under load\"}\n")
	for _, leg := range h.Legs {
		assert.InDelta(t, 31.18+5.35, leg.WorstTensionKN, 0.4)
	}
}

// Two legs for level, by hand: picks 6 m apart, hook 4 m up, 100 kN: each leg is 5 m
// long and pulls 62.5 kN. With 3 % at 10 t, EA = 98.0665/0.03 = 3268.88 kN, it is
// cut to 5/(1 + 62.5/3268.88) = 4.906195 m, 93.805 mm shorter. Before it stretched
// the hook stood √(4.906195² − 9) = 3.882107 m up: 0.117893 m of hook travel.
func TestLegsCutForTheirStretch(t *testing.T) {
	load := "load: block\nunits: m\nparts: [{name: block, weight: 10197.16 kg, at: [0, 0, -0.5], box: 6 x 1 x 1, tolerance: 0.0001 %}]\n" +
		"picks: [{name: A, at: [-3, 0, 0]}, {name: B, at: [3, 0, 0]}]\n"
	h := legsOf(t, load+"hook: {above: picks, height: 4}\nlegs: {lengths: level, stretch: {percent: 3 %, at: 10 t}}\n")
	require.True(t, h.Solved)
	assert.InDeltaSlice(t, []float64{62.5, 62.5}, tensions(h), 1e-3)
	for i, leg := range h.Stretch.Legs {
		assert.InDelta(t, 4.906195, h.Legs[i].LengthM, 2e-6)
		assert.InDelta(t, 5, leg.LoadedM, 1e-9)
		assert.InDelta(t, 0.093805, leg.LongerM, 2e-6)
	}
	assert.InDelta(t, 0.117893, *h.Stretch.TravelM, 3e-6)
	assert.InDelta(t, 4, h.HookM[2], 1e-9)
	assert.Contains(t, h.Lengths, "cut shorter by what they stretch")
	// Legs stated at those lengths hang it so too.
	given := legsOf(t, load+"legs: {lengths: 4.906195, stretch: {percent: 3 %, at: 10 t}}\n")
	assert.InDelta(t, 4, given.HookM[2], 1e-5)
	assert.Contains(t, given.Lengths, "without load")
	// Slings that carry 62.5 kN are not of 5 t.
	over := legsOf(t, load+"legs: {lengths: 4.906195, stretch: {percent: 3 %, at: 5 t}}\n")
	assert.Contains(t, over.Warnings[0].Text, "more than the rated load of 5 000 kg")
}

// A load whose CG is off centre hangs level on legs cut for level, stretch or not,
// and out of level on legs cut for level without stretch: the leg that pulls more
// gives more.
func TestStretchTiltsLegsCutForNone(t *testing.T) {
	load := func(legs string) lift.Hung {
		return legsOf(t, "load: block\nunits: m\nparts: [{name: block, weight: 10 t, at: [1, 0, -0.5], box: 6 x 1 x 1, tolerance: 0.0001 %}]\n"+
			"picks: [{name: A, at: [-3, 0, 0]}, {name: B, at: [3, 0, 0]}]\n"+legs)
	}
	h := load("hook: {above: picks, height: 4}\nlegs: {lengths: level, stretch: {percent: 8 %, at: 10 t}}\n")
	assert.InDelta(t, 0, h.TiltDeg, 1e-6)
	a, b := math.Hypot(4, 4), math.Hypot(2, 4)
	h = load(fmt.Sprintf("legs: {lengths: {A: %.9f, B: %.9f}, stretch: {percent: 8 %%, at: 10 t}}\n", a, b))
	assert.InDelta(t, 0, *h.Stretch.RigidDeg, 1e-6)
	assert.Greater(t, h.TiltDeg, 0.03)
}

// A family's stretch is a range: nylon is 8 to 10 % at its rated load. Of 10 t that
// is EA of 980.665 and 1225.83 kN, and 98.0665/0.09 = 1089.63 kN between.
func TestStretchOfAFamily(t *testing.T) {
	legs := func(at string) string {
		return fourStiff + "rules: US\nlegs: {lengths: 3.741657, length tolerance: 20 mm, stretch: {family: synthetic_web, material: nylon" + at + "}}\n"
	}
	h := legsOf(t, legs(", at: 10 t"))
	assert.InDelta(t, 1089.63, h.Stretch.StiffKN, 0.01)
	assert.InDelta(t, 980.665, h.Stretch.LeastKN, 0.01)
	assert.InDelta(t, 1225.83, h.Stretch.MostKN, 0.01)
	assert.Contains(t, h.Stretch.Text, "from memory")
	// Both ends are solved: stated lengths and 2⁴ of them in error, twice, at the
	// sizing and the least weight.
	assert.Positive(t, h.CasesSolved)
	assert.Zero(t, h.CasesSolved%(4*17))

	// With the size open it is that which the legs so hung need, and stays.
	open := read(t, legs(""))
	sized, err := lift.Slings(open, lift.Options{})
	require.NoError(t, err)
	found, err := lift.Legs(open, lift.Options{})
	require.NoError(t, err)
	for _, f := range sized.Families {
		if f.Family == "synthetic_web" && f.Material == "nylon" {
			require.NotNil(t, f.Choice)
			assert.InDelta(t, f.Choice.RatedKg*9.80665e-3/0.09, found.Stretch.StiffKN, 1e-6)
		}
	}
}

// Families that are not known, or can't be sized, are refused with what to write.
func TestStretchOfNoFamily(t *testing.T) {
	for name, tt := range map[string]struct{ legs, text, fix string }{
		"unknown":      {"rules: US\nlegs: {lengths: 3.8, stretch: {family: wire_rope}}\n", "no stretch is known here of", "synthetic_web, nylon"},
		"two of them":  {"rules: US\nlegs: {lengths: 3.8, stretch: {family: synthetic_web}}\n", "no stretch is known here of", "synthetic_web, polyester"},
		"no rules":     {"legs: {lengths: 3.8, stretch: {family: synthetic_web, material: nylon}}\n", "no rule set", "`at:`"},
		"other system": {"rules: EN\nlegs: {lengths: 3.8, stretch: {family: synthetic_web, material: nylon}}\n", "no stretch is known here of", "polyamide"},
	} {
		_, err := lift.Legs(read(t, fourStiff+tt.legs), lift.Options{})
		var problems takeoff.Problems
		require.ErrorAs(t, err, &problems, name)
		assert.Contains(t, problems[0].Text, tt.text, name)
		assert.Contains(t, problems[0].Fix, tt.fix, name)
	}
}

// Whatever legs stretch, none pushes, their vertical parts carry the load, and no
// worst is less than the tension at best.
func TestStretchLaws(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		out := func(name string) float64 { return 3.741657 + rapid.Float64Range(-0.03, 0.03).Draw(t, name) }
		h := legsOf(t, fourStiff+fmt.Sprintf("legs: {lengths: {A: %.6f, B: %.6f, C: %.6f, D: %.6f}, stretch: {EA: %.0f kN}}\n",
			out("A"), out("B"), out("C"), out("D"), rapid.Float64Range(2000, 100000).Draw(t, "EA")))
		sum := 0.0
		for i, leg := range h.Legs {
			if leg.TensionKN < 0 || leg.WorstTensionKN < leg.TensionKN-1e-9 || h.Stretch.Legs[i].LongerM < 0 {
				t.Fatalf("leg %s: %v kN, worst %v", leg.Pick, leg.TensionKN, leg.WorstTensionKN)
			}
			sum += leg.TensionKN * math.Sin(leg.FromHorizontalDeg*math.Pi/180)
		}
		if math.Abs(sum-100) > 1e-4 {
			t.Fatalf("the legs carry %v kN of 100", sum)
		}
	})
}

// From stock the set is chosen on the stretch that its own legs have: what is said
// of it is what it hangs at. A rack with just the lengths without load of the legs
// that are cut for level hangs it level.
func TestStretchingLegsFromStock(t *testing.T) {
	load := strings.Replace(fourStiff, "at: [0, 0, -0.5]", "at: [0.4, 0.1, -0.5]", 1)
	cut := legsOf(t, load+"hook: {above: picks, height: 3}\nlegs: {lengths: level, stretch: {EA: 1 MN}}\n")
	rack := "3"
	for _, leg := range cut.Legs {
		rack += fmt.Sprintf(", %.6f", leg.LengthM)
	}
	h := legsOf(t, load+"legs: {lengths: {stock: ["+rack+"]}, stretch: {EA: 1 MN}}\n")
	require.True(t, h.Solved, h.Verdict.Reasons)
	assert.Less(t, h.TiltDeg, 0.5)
	assert.Contains(t, h.Lengths, fmt.Sprintf("(%.2f°)", h.TiltDeg))
}

// Three legs that can't all reach one hook: springs always do, but no sling
// stretches so far.
func TestStretchThatNoSlingHas(t *testing.T) {
	h := legsOf(t, `
load: block
units: m
parts: [{name: block, weight: 1 t, at: [0, 0, -1], box: 4 x 4 x 1}]
picks: [{name: A, at: [2, 0, 0]}, {name: B, at: [-1, 1.732, 0]}, {name: C, at: [-1, -1.732, 0]}]
legs: {lengths: 1.8, stretch: {EA: 20 kN}}
`)
	assert.False(t, h.Verdict.Acceptable)
	assert.Contains(t, strings.Join(h.Verdict.Reasons, "; "), "no sling does")
}

// A load that may weigh half of what its legs are cut for: at 5 t they stretch half
// as much, so that half of the difference between them is left and tilts it. The
// tilt at worst knows it; the tensions do not grow.
func TestStretchAtTheLeastWeight(t *testing.T) {
	load := func(tolerance string) lift.Hung {
		return legsOf(t, "load: block\nunits: m\nparts: [{name: block, weight: 10 t, at: [1, 0, -0.5], box: 6 x 1 x 1, tolerance: "+tolerance+"}]\n"+
			"picks: [{name: A, at: [-3, 0, 0]}, {name: B, at: [3, 0, 0]}]\nhook: {above: picks, height: 4}\nlegs: {lengths: level, stretch: {percent: 8 %, at: 10 t}}\n")
	}
	even, light := load("0.01 %"), load("-50 % / +0.01 %")
	assert.Less(t, even.TiltWorstDeg, 0.3)
	assert.Greater(t, light.TiltWorstDeg, even.TiltWorstDeg+0.01)
	for i := range light.Legs {
		assert.InDelta(t, even.Legs[i].WorstTensionKN, light.Legs[i].WorstTensionKN, 0.1, "less weight never pulls more")
	}
	assert.Contains(t, light.GoverningCase, "at the sizing weight")
}

// A family of which nothing is known is said where picks are proposed too.
func TestStretchOfNoFamilyForProposedPicks(t *testing.T) {
	_, err := lift.Picks(read(t, `
load: block
units: m
material: structural steel
parts: [{name: block, box: 2 x 1 x 0.5, corner: [0, 0, 0]}]
legs: {lengths: 2, stretch: {family: wire_rope}}
rules: US
`), lift.Options{})
	var problems takeoff.Problems
	require.ErrorAs(t, err, &problems)
	assert.Contains(t, problems[0].Text, "no stretch is known here")
}
