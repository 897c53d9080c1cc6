package takeoff

import (
	"fmt"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// rigged is a file with four picks on line 8, and a rig on line 9.
func rigged(rig string) string {
	return head + sound + "picks: [{name: A, at: [0, 0, 0]}, {name: B, at: [9, 0, 0]}, {name: C, at: [9, 9, 0]}, {name: D, at: [0, 9, 0]}]\n" + rig + "\n"
}

// spreaderOf is a spreader with more keys in it. The bar's group begins at 9:12.
func spreaderOf(more string) string {
	return rigged("rig: {bar: {kind: spreader, weight: 90 kg, length: 9, " + more + "}}")
}

// Files with one fault in their bars each; the places were counted by hand.
var badBars = []struct {
	name, file string
	at         string // line:column
	text, fix  string // pieces of what must be said
}{
	{"a bar without a kind", rigged("rig: {bar: {weight: 90 kg, length: 9, height: 5, hook: 5, holds: [[A, D], [B, C]]}}"), "9:12", "has no `kind`", "spreader, lifting beam or frame"},
	{"a strange kind", rigged("rig: {bar: {kind: spreder, weight: 90 kg, length: 9, height: 5, hook: 5, holds: [[A, D], [B, C]]}}"), "9:19", `"spreder"`, "did you mean `spreader`?"},
	{"a bar of no weight", rigged("rig: {bar: {kind: spreader, length: 9, height: 5, hook: 5, holds: [[A, D], [B, C]]}}"), "9:12", "has no `weight`", "260 kg"},
	{"a key that is none", spreaderOf("height: 5, hook: 5, hods: [[A, D], [B, C]]"), "9:75", `unknown key "hods" in a rigging bar`, "did you mean `holds`?"},
	{"a word in place of a bar", rigged("rig: {bar: spreader}"), "9:12", `a rigging bar must be a group of keys; this is "spreader"`, "`key: value`"},
	{"a frame of one length", rigged("rig: {bar: {kind: frame, weight: 90 kg, length: 9, height: 5, hook: 5, holds: [A, B, C, D]}}"), "9:49", "where 2 are expected", "x"},
	{"a frame with two ends", rigged("rig: {bar: {kind: frame, weight: 90 kg, length: 9 x 9, height: 5, hook: 5, holds: [[A, D], [B, C]]}}"), "9:83", "2 lists of what hangs from a frame that has four corners", "from each"},
	{"three ends", spreaderOf("height: 5, hook: 5, holds: [A, B, [C, D]]"), "9:82", "3 lists of what hangs from a spreader that has two ends", "from each"},
	{"a hook twice", spreaderOf("height: 5, hook: 5, top: 9, holds: [[A, D], [B, C]]"), "9:12", "its top legs twice", "keep one"},
	{"no hook", spreaderOf("height: 5, holds: [[A, D], [B, C]]"), "9:12", "has no hook", "`hook: 2500`"},
	{"drops twice", spreaderOf("height: 5, drops: 5, hook: 5, holds: [[A, D], [B, C]]"), "9:12", "its drops twice", "keep one"},
	{"no height", spreaderOf("hook: 5, holds: [[A, D], [B, C]]"), "9:12", "has no height", "`height: 1500`"},
	{"height below nothing", spreaderOf("height: -5, hook: 5, holds: [[A, D], [B, C]]"), "9:63", "must be more than zero", "a length"},
	{"a spreader held in its middle", spreaderOf("held at: 0, height: 5, hook: 5, holds: [[A, D], [B, C]]"), "9:64", "`held at` in a spreader", "`kind: lifting beam`"},
	{"a beam held beyond its end", rigged("rig: {bar: {kind: lifting beam, weight: 90 kg, length: 9, depth: 1, held at: 5, height: 5, hook: 5, holds: [[A, D], [B, C]]}}"), "9:78", "beyond its ends", "0 or 150"},
	{"a beam held at two points in one", rigged("rig: {bar: {kind: lifting beam, weight: 90 kg, length: 9, depth: 1, held at: [2, 2], height: 5, hook: 5, holds: [[A, D], [B, C]]}}"), "9:78", "not in order", "[-400, 400]"},
	{"a beam without depth", rigged("rig: {bar: {kind: lifting beam, weight: 90 kg, length: 9, height: 5, hook: 5, holds: [[A, D], [B, C]]}}"), "9:12", "does not right itself", "write `depth`"},
	{"its CG off its end", spreaderOf("cg offset: 5, height: 5, hook: 5, holds: [[A, D], [B, C]]"), "9:12", "its own CG beyond its ends", "from its middle"},
	{"along z", spreaderOf("along: z, height: 5, hook: 5, holds: [[A, D], [B, C]]"), "9:62", `"z"`, "x or y"},
	{"three top legs", spreaderOf("height: 5, top: [5, 5, 5], holds: [[A, D], [B, C]]"), "9:71", "3 lengths of top legs; this spreader has 2", "one for each"},
	{"a pick that is none", spreaderOf("height: 5, hook: 5, holds: [[A, D], [B, C, E]]"), "9:12", `"E" hangs from a bar and is no pick`, "the picks are A, B, C, D"},
	{"a pick that hangs loose", spreaderOf("height: 5, hook: 5, holds: [A, [B, C]]"), "9:12", "no bar holds D", "leave it out"},
	{"a pick twice", spreaderOf("height: 5, hook: 5, holds: [[A, D], [B, C, A]]"), "9:12", `the pick "A" hangs from bars twice`, "from one end"},
	{"a drop that has no length", spreaderOf("drops: {A: 5, B: 5, C: 5}, hook: 5, holds: [[A, D], [B, C]]"), "9:12", `no length of the drop to "D"`, "{A: 2000, B: 2100}"},
	{"a drop to elsewhere", spreaderOf("drops: {A: 5, B: 5, C: 5, D: 5, E: 5}, hook: 5, holds: [[A, D], [B, C]]"), "9:12", `a drop to "E", which does not hang from this bar`, "{A: 2000, B: 2100}"},
	{"a hook in a lower bar", spreaderOf("height: 5, hook: 5, holds: [[A, D], {bar: {name: low, kind: spreader, weight: 9 kg, length: 9, height: 5, hook: 5, holds: [B, C]}}]"),
		"9:97", "`hook` in the bar \"low\", which hangs from another bar", "the `height` of the bar above"},
	{"two bars of one name", spreaderOf("height: 5, hook: 5, holds: [[A, D], {bar: {kind: spreader, weight: 9 kg, length: 9, height: 5, holds: [B, C]}}]"),
		"9:97", `two bars are called "spreader"`, "of its own"},
	{"a hook beside a bar", rigged("hook: {above: picks, height: 5}\nrig: {bar: {kind: spreader, weight: 90 kg, length: 9, height: 5, hook: 5, holds: [[A, D], [B, C]]}}"), "10:12", "`hook` or `legs` beside a bar", "take `hook` and `legs` away"},
	{"sharing beside a bar", rigged("sharing: {basis: elastic, because: so}\nrig: {bar: {kind: spreader, weight: 90 kg, length: 9, height: 5, hook: 5, holds: [[A, D], [B, C]]}}"), "10:12", "`sharing` beside a bar", "take `sharing` away"},
	{"a bar without picks", head + sound + "rig: {bar: {kind: spreader, weight: 90 kg, length: 9, height: 5, hook: 5, holds: [A, B]}}\n", "8:12", "a bar, but no `picks`", "`picks:"},
	{"an empty rig", rigged("rig: {}"), "9:6", "`rig` must be a group of keys", "bar"},
}

func TestBadBarsSayWhereWhatAndHowToMend(t *testing.T) {
	for _, tt := range badBars {
		t.Run(tt.name, func(t *testing.T) {
			p := problemsOf(t, tt.file)
			require.Len(t, p, 1, "want this problem alone:\n%v", p)
			assert.Equal(t, tt.at, fmt.Sprintf("%d:%d", p[0].Line, p[0].Column), "place of %v", p[0])
			assert.Contains(t, p[0].Text, tt.text)
			assert.Contains(t, p[0].Fix, tt.fix)
		})
	}
}

// What is written is what is read, lower bars and all.
func TestBarsAsWritten(t *testing.T) {
	l := good(t, rigged(`rig:
  bar:
    {name: top, kind: lifting beam, weight: 90 kg, length: 9 m, depth: 300, held at: [-400, 400], height: 2 m, hook: 1500, cg offset: 20, along: x, length tolerance: 0.2 %,
     holds: [[A, D], {bar: {name: low, kind: spreader, weight: 30 kg, length: 5 m, drops: {B: 800, C: 900}, top: [2 m, 2100], length tolerance: 5 mm, holds: [B, C]}}]}`))
	b := l.Rigging.Bar
	require.NotNil(t, b)
	assert.Equal(t, "top", b.Name)
	assert.Equal(t, LiftingBeam, b.Kind)
	assert.InDelta(t, 90, float64(b.Weight), 1e-12)
	assert.InDelta(t, 120, float64(b.Mass()), 1e-12)
	assert.Equal(t, []float64{-0.4, 0.4}, b.HeldAt)
	assert.InDeltaSlice(t, []float64{9, 0.3, 2, 1.5, 0.02, 0.002}, []float64{b.Length, b.Depth, b.Height, b.Hook, b.CGOffset, b.Error.Part}, 1e-12)
	assert.Equal(t, []string{"A", "D"}, b.Holds[0].Picks)
	low := b.Holds[1].Bar
	require.NotNil(t, low)
	assert.Equal(t, map[string]float64{"B": 0.8, "C": 0.9}, low.Drops.Pick)
	assert.Equal(t, []float64{2, 2.1}, low.Top.Each)
	assert.InDelta(t, 0.005, low.Error.Plain, 1e-12)
	assert.Len(t, b.All(), 2)
	assert.Equal(t, 2, b.TopLegs())
}
