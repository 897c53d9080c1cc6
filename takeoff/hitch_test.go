package takeoff

import (
	"fmt"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"plumbhook/geom"
	"plumbhook/units"
)

func TestHitchesForAllAndPerPick(t *testing.T) {
	g := good(t, head+sound+`
picks:
  - {name: A, at: [0, 0, 0], hitch: {kind: choker, around: 300 x 200, edge radius: 5, along: [2, 0, 0], choke angle: 100, restrained: "cleats  welded"}}
  - {name: B, at: [1000, 0, 0], hitch: choker}
  - {name: C, at: [0, 900, 0]}
  - {name: D, at: [0, 900, 0], hitch: {kind: vertical, pin: 1 in}}
hitch: {kind: basket, around: 12 in, friction: 0.2, included angle: 60, along: y}
`).Rigging
	radius, choke, apart := 0.005, units.Turn(units.Radians(100)), units.Turn(units.Radians(60))
	x, y := geom.Vec{1, 0, 0}, geom.Vec{0, 1, 0}
	assert.Equal(t, Hitch{Kind: "choker", Across: 0.3, Deep: 0.2, EdgeRadius: &radius, Along: &x, Choke: &choke, Restrained: "cleats welded"}, g.HitchOf("A"))
	assert.Equal(t, Hitch{Kind: "choker"}, g.HitchOf("B"), "a pick's own hitch takes nothing of that for all")
	assert.Equal(t, Hitch{Kind: "basket", Round: true, Across: 0.3048, Deep: 0.3048, Friction: 0.2, Included: &apart, Along: &y}, g.HitchOf("C"))
	assert.Equal(t, Hitch{Kind: "vertical", Pin: 0.0254}, g.HitchOf("D"))
	assert.Equal(t, g.Hitch, g.HitchOf("a proposed pick"))
	for pick, bight := range map[string]bool{"A": true, "B": true, "C": true, "D": false} {
		assert.Equal(t, bight, g.HitchOf(pick).Bight(), pick)
	}
	assert.False(t, Hitch{}.Bight(), "not stated")
}

// badHitches stand after head and sound, on line 8; the places were counted by hand.
var badHitches = []struct{ name, file, at, text, fix string }{
	{"no kind", "hitch: {around: 300}\n", "8:8", "hitch has no `kind`", "vertical, choker or basket"},
	{"kind misspelt", "hitch: {kind: chocker}\n", "8:15", `"chocker"`, "did you mean `choker`?"},
	{"a list", "hitch: [basket]\n", "8:8", "found a list", "vertical, choker or basket"},
	{"which angle", "hitch: {kind: basket, parts angle: 60}\n", "8:23", `the key "parts angle" is not taken`, "`included angle: 60`"},
	{"bare angle", "hitch: {kind: basket, angle: 60}\n", "8:23", `the key "angle" is not taken`, "between the two parts"},
	{"misspelt key", "hitch: {kind: basket, arround: 300}\n", "8:23", `unknown key "arround" in hitch`, "did you mean `around`?"},
	{"body of nothing", "hitch: {kind: basket, around: 0}\n", "8:31", "must be more than zero", "a length"},
	{"three sides", "hitch: {kind: basket, around: 300 x 200 x 100}\n", "8:31", "3 lengths where 2", "x"},
	{"radius of a round body", "hitch: {kind: basket, around: 300, edge radius: 5}\n", "8:49", "the diameter of a round body", "300 x 200"},
	{"radius of no body", "hitch: {kind: basket, edge radius: 5}\n", "8:36", "without the square body", "around: 300 x 200"},
	{"radius below zero", "hitch: {kind: basket, around: 300 x 200, edge radius: -5}\n", "8:55", "below zero", "0 for a sharp edge"},
	{"rounder than it is wide", "hitch: {kind: basket, around: 300 x 200, edge radius: 101}\n", "8:55", "rounder than the body is wide", "look at"},
	{"friction as a percentage", "hitch: {kind: basket, friction: 20 %}\n", "8:33", `"20 %"`, "write"},
	{"no friction", "hitch: {kind: basket, friction: 0}\n", "8:33", "must be above 0 and at most 1", "leave it out"},
	{"friction of a slip", "hitch: {kind: basket, friction: 15}\n", "8:33", "must be above 0 and at most 1", "0.15"},
	{"parts in one line", "hitch: {kind: basket, included angle: 180}\n", "8:39", "from 0 (side by side) to 150", "degrees"},
	{"choke of nothing", "hitch: {kind: choker, choke angle: 0}\n", "8:36", "more than 0 and at most 180", "degrees"},
	{"choke beyond a line", "hitch: {kind: choker, choke angle: 190}\n", "8:36", "more than 0 and at most 180", "degrees"},
	{"choke of a basket", "hitch: {kind: basket, choke angle: 100}\n", "8:36", "`choke angle` says nothing of a basket hitch", "it goes with choker"},
	{"parts of a choker", "hitch: {kind: choker, included angle: 60}\n", "8:39", "`included angle` says nothing of a choker hitch", "it goes with basket"},
	{"body of a vertical", "hitch: {kind: vertical, around: 300}\n", "8:33", "`around` says nothing of a vertical hitch", "choker and basket"},
	{"pin of a basket", "hitch: {kind: basket, pin: 30}\n", "8:28", "`pin` says nothing of a basket hitch", "it goes with vertical"},
	{"restrained by nothing", "hitch: {kind: basket, restrained: true}\n", "8:35", "says true, not by what", "cleats welded both sides"},
	{"restrained, empty", "hitch: {kind: basket, restrained: ''}\n", "8:23", "`restrained` has no value", "cleats"},
	{"along what", "hitch: {kind: basket, along: w}\n", "8:30", `"w" is not one of the words`, "-x, -y or -z"},
	{"along nothing", "hitch: {kind: basket, along: [0, 0, 0]}\n", "8:30", "is no direction", "a direction"},
	{"at a pick", "picks: [{name: A, at: [0, 0, 0], hitch: {kind: basket, friction: 2}}]\n", "8:66", "must be above 0", "0.15"},
	{"word at a pick", "picks: [{name: A, at: [0, 0, 0], hitch: sling}]\n", "8:41", `"sling"`, "vertical, choker or basket"},
}

func TestBadHitches(t *testing.T) {
	for _, tt := range badHitches {
		t.Run(tt.name, func(t *testing.T) {
			p := problemsOf(t, head+sound+tt.file)
			require.Len(t, p, 1, "want this problem alone:\n%v", p)
			assert.Equal(t, tt.at, fmt.Sprintf("%d:%d", p[0].Line, p[0].Column), "place of %v", p[0])
			assert.Contains(t, p[0].Text, tt.text)
			assert.Contains(t, p[0].Fix, tt.fix)
		})
	}
}

// pageHitch stands in the reference page over the keys of a hitch.
const pageHitch = "`hitch: basket`" + ` alone, or with more about it; for all legs, or at a pick for its leg, which then
takes nothing of that for all. The pick of a basket or choker is the **centre of the body** that the
sling goes round: about it a round body turns in its bight, whatever the angle of the
parts, and a square one about it or lower. A leg is measured from there to the hook.

Both ends of a basket are at the hook. Its parts carry T / (2·cos(half the angle between
them)); the angle follows from ` + "`around`" + ` and the leg's length. A bight is no fixed pick:
friction keeps it in its place, at tan(angle by which the leg leans along the body), and a
load that hangs so is never called stable without that condition, unless ` + "`restrained`" + ` says
what holds the bight. Two round bodies in line with their picks, ` + "`along`" + ` and ` + "`friction`" + ` stated,
are held from turning while the CG is within R·tanh(μπ/2) of the line of the centres,
half the friction counted; else the load is judged as free to turn.

`
