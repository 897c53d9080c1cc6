package takeoff

import (
	"fmt"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"plumbhook/units"
)

// threeLugs takes lines 5 to 11; what is under test begins on line 12.
const threeLugs = sound + `picks:
- {name: A, at: [2000, 0, 10]}
- {name: B, at: [0, 0, 10]}
- {name: C, at: [0, 1000, 10]}
`

func TestTwoHooksAreRead(t *testing.T) {
	l := good(t, head+threeLugs+`rig:
  two hooks:
    head: A
    tail: [B, C]
    turn: {from: 10, to: -80 deg, about: -y}
    hook heights: 50
    plumb: 3°
    cranes: {head: {capacity: 40 t, block: 500 kg, share: 75 %}, tail: {capacity: 25 t}}
    slings: {A: 3 m, C: 2500, B: 2500}
`)
	two := l.Rigging.TwoHooks
	require.NotNil(t, two)
	assert.Equal(t, OneHook{[]string{"A"}, &HookCrane{40000, 500, 0.75}}, two.Head)
	assert.Equal(t, OneHook{[]string{"B", "C"}, &HookCrane{Capacity: 25000}}, two.Tail)
	assert.InDelta(t, 10, units.Degrees(two.From), 1e-9)
	assert.InDelta(t, -80, units.Degrees(two.To), 1e-9)
	assert.Equal(t, "-y", two.About)
	assert.Equal(t, 0.05, *two.HookHeights)
	assert.InDelta(t, 3, units.Degrees(*two.Plumb), 1e-9)
	assert.Equal(t, map[string]float64{"A": 3, "B": 2.5, "C": 2.5}, two.Slings)

	l = good(t, head+threeLugs+"rig: {two hooks: {head: A, tail: [B, C], hook heights: 0, plumb: 0}}\n")
	two = l.Rigging.TwoHooks
	assert.Zero(t, *two.HookHeights, "stated as right, which is not the same as not stated")
	assert.Zero(t, *two.Plumb)
	assert.Zero(t, two.To)
	assert.Nil(t, two.Head.Crane)
}

// badTwoHooks have one fault each; two hooks stand on line 12.
var badTwoHooks = []struct{ name, file, at, text, fix string }{
	{"nothing under rig", threeLugs + "rig:\n", "12:1", "`rig` has no value", "two hooks"},
	{"no tail", threeLugs + "rig: {two hooks: {head: A}}\n", "12:18", "`two hooks` has no `tail`", "the name of a pick"},
	{"misspelt", threeLugs + "rig: {two hooks: {head: A, tail: [B, C], plum: 3}}\n", "12:42", "unknown key \"plum\" in `two hooks`", "did you mean `plumb`?"},
	{"pick that is not there", threeLugs + "rig: {two hooks: {head: D, tail: [B, C]}}\n", "12:18", `"D" is no pick`, "the picks are A, B, C"},
	{"pick on both hooks", threeLugs + "rig: {two hooks: {head: [A, B], tail: [B, C]}}\n", "12:18", `the pick "B" is named twice`, "of its own"},
	{"pick on no hook", threeLugs + "rig: {two hooks: {head: A, tail: B}}\n", "12:18", `the pick "C" is on neither hook`, "`head` or `tail`"},
	{"three on one hook", threeLugs + "rig: {two hooks: {head: A, tail: [A, B, C]}}\n", "12:34", "3 picks on one hook", "[A, B]"},
	{"group for a pick", threeLugs + "rig: {two hooks: {head: {name: A}, tail: [B, C]}}\n", "12:25", "expected a text, found a group", "write"},
	{"no picks", sound + "rig: {two hooks: {head: A, tail: B}}\n", "8:18", "no `picks`", "picks: [{name: A"},
	{"turned too far", threeLugs + "rig: {two hooks: {head: A, tail: [B, C], turn: {to: 181}}}\n", "12:53", "the angle 181 must be from -180 to 180 degrees", "an angle"},
	{"turned to nowhere", threeLugs + "rig: {two hooks: {head: A, tail: [B, C], turn: {from: 5}}}\n", "12:48", "a turn on two hooks has no `to`", "an angle"},
	{"turned about z", threeLugs + "rig: {two hooks: {head: A, tail: [B, C], turn: {to: 5, about: z}}}\n", "12:63", `"z" is not one of the words`, "x, y, -x or -y"},
	{"heights below zero", threeLugs + "rig: {two hooks: {head: A, tail: [B, C], hook heights: -5}}\n", "12:56", "the length -5 must not be below zero", "or 0"},
	{"lines far out of plumb", threeLugs + "rig: {two hooks: {head: A, tail: [B, C], plumb: 16}}\n", "12:49", "the angle 16 must be from 0 to 15 degrees", "an angle"},
	{"plumb not an angle", threeLugs + "rig: {two hooks: {head: A, tail: [B, C], plumb: .nan}}\n", "12:49", "not a finite number", "digits"},
	{"crane without capacity", threeLugs + "rig: {two hooks: {head: A, tail: [B, C], cranes: {head: {block: 500 kg}}}}\n", "12:57", "a crane of two has no `capacity`", "a weight"},
	{"share without a sign", threeLugs + "rig: {two hooks: {head: A, tail: [B, C], cranes: {head: {capacity: 5 t, share: 75}}}}\n", "12:80", "75", "%"},
	{"share of nothing", threeLugs + "rig: {two hooks: {head: A, tail: [B, C], cranes: {head: {capacity: 5 t, share: 0 %}}}}\n", "12:80", "the share 0 % must be more than 0", "75 %"},
	{"slings as a list", threeLugs + "rig: {two hooks: {head: A, tail: [B, C], slings: [3, 4]}}\n", "12:50", "found a list", "{A: 3000, B: 4000}"},
	{"sling to no pick", threeLugs + "rig: {two hooks: {head: A, tail: [B, C], slings: {E: 3}}}\n", "12:18", `a sling to "E", which is no pick`, "A, B, C"},
	{"sling without length", threeLugs + "rig: {two hooks: {head: A, tail: [B, C], slings: {A: }}}\n", "12:51", `the sling to "A" has no length`, "a length"},
	{"sling of nothing", threeLugs + "rig: {two hooks: {head: A, tail: [B, C], slings: {A: 0}}}\n", "12:54", "must be more than zero", "a length"},
	{"one crane for two hooks", threeLugs + "limits: {crane: {capacity: 9 t}}\nrig: {two hooks: {head: A, tail: [B, C]}}\n", "13:18", "one `crane`, and there are two hooks", "cranes: {head:"},
	{"legs beside two hooks", threeLugs + "legs: {lengths: 3000}\nrig: {two hooks: {head: A, tail: [B, C]}}\n", "13:18", "`hook` and `legs` are those of a lift on one hook", "slings"},
	{"tilt beside two hooks", threeLugs + "limits: {tilt: 2}\nrig: {two hooks: {head: A, tail: [B, C]}}\n", "13:18", "`headroom` and `tilt`", "take them away"},
	{"sharing beside two hooks", threeLugs + "sharing: {basis: elastic, because: a}\nrig: {two hooks: {head: A, tail: [B, C]}}\n", "13:18", "`sharing`", "statics"},
	{"choker on a load that turns", threeLugs + "hitch: choker\nrig: {two hooks: {head: A, tail: [B, C]}}\n", "13:18", "a choker hitch slides", "lugs or trunnions"},
}

func TestBadTwoHooksSayWhereWhatAndHowToMend(t *testing.T) {
	for _, tt := range badTwoHooks {
		t.Run(tt.name, func(t *testing.T) {
			p := problemsOf(t, head+tt.file)
			require.Len(t, p, 1, "want this problem alone:\n%v", p)
			assert.Equal(t, tt.at, fmt.Sprintf("%d:%d", p[0].Line, p[0].Column), "place of %v", p[0])
			assert.Contains(t, p[0].Text, tt.text)
			assert.Contains(t, p[0].Fix, tt.fix)
		})
	}
}
