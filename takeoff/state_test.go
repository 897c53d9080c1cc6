package takeoff

import (
	"fmt"
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"plumbhook/geom"
)

// filledSkid is a frame, a tank of 1 m inside and 2 m high that is a quarter full, and a
// cover. Lines 5 to 7.
const filledSkid = `- {name: frame, weight: 1000 kg, at: [0, 0, 0], status: weighed}
- {name: tank, tube: {outside: 1020, wall: 10, height: 2000}, at: [0, 0, 100], contents: {fluid: water, fill: 25 %}}
- {name: cover, weight: 50 kg, at: [0, 0, 2200], status: weighed}
`

const skidStates = `states:
  shipping: {without: [tank contents, cover]}
  test: {contents: {tank: {fluid: water, fill: 100 %}}}
  bare: {only: [frame, tank]}
  unlidded: {without: tank}
  filled with oil: {without: cover, contents: {tank: {fluid: diesel, depth: 1000}}}
`

func namesOfParts(l *Load) []string {
	var names []string
	for _, p := range l.Parts {
		names = append(names, p.Name)
	}
	return names
}

// Sums by hand: the tank's steel is 7850·π·(0.51² − 0.5²)·2 kg at 1.1 m, it holds
// π/4·2 m³.
func TestStatesAreSumsByHand(t *testing.T) {
	l := good(t, head+filledSkid+skidStates)
	steel, holds := 7850*math.Pi*(0.51*0.51-0.25)*2, math.Pi/2
	tests := []struct {
		state        string
		parts        []string
		mass, moment float64 // kg, kg·m above the datum
	}{
		{"shipping", []string{"frame", "tank"}, 1000 + steel, steel * 1.1},
		{"test", []string{"frame", "tank", "tank contents", "cover"}, 1000 + steel + 1000*holds + 50, steel*1.1 + 1000*holds*1.1 + 50*2.2},
		{"bare", []string{"frame", "tank"}, 1000 + steel, steel * 1.1},
		{"unlidded", []string{"frame", "cover"}, 1050, 50 * 2.2},
		{"filled with oil", []string{"frame", "tank", "tank contents"}, 1000 + steel + 835*holds/2, steel*1.1 + 835*holds/2*0.6},
	}
	require.Len(t, l.States, len(tests))
	for i, tt := range tests {
		t.Run(tt.state, func(t *testing.T) {
			assert.Equal(t, tt.state, l.States[i].Name, "in the order of the file")
			s, err := l.In(tt.state)
			require.NoError(t, err)
			assert.Equal(t, tt.parts, namesOfParts(s))
			assert.Equal(t, tt.state, s.State)
			assert.Equal(t, "test", s.Name)
			w, err := s.Weigh()
			require.NoError(t, err)
			assert.InEpsilon(t, tt.mass, float64(w.Best), 1e-7)
			assert.InEpsilon(t, tt.moment/tt.mass, w.CG[2], 1e-7)
		})
	}
	assert.Equal(t, []string{"frame", "tank", "tank contents", "cover"}, namesOfParts(l), "the load itself stays as drawn")
	assert.Empty(t, l.State)
}

// What belongs to the load as a whole stays; what is said of parts that are gone
// goes with them.
func TestStateKeepsTheRest(t *testing.T) {
	const rest = `- {name: a, box: 100 x 100 x 100, corner: [0, 0, 0]}
- {name: b, box: 100 x 100 x 100, corner: [50, 0, 0]}
- {name: tank, vessel: {inside: 500, wall: 10, length: 500, heads: flat}, at: [2000, 0, 0]}
allowances:
- {name: paint, of: all, add: 1 %}
- {name: weld metal, of: b, add: 2 %}
picks: [{name: A, at: [0, 0, 0]}]
states:
  part: {without: b}
  wet: {contents: {tank: {fluid: water, fill: 10 %}}}
`
	l := good(t, head+rest)
	require.Len(t, l.Overlaps, 1)
	require.Len(t, l.Allowances, 2)
	part, err := l.In("part")
	require.NoError(t, err)
	assert.Empty(t, part.Overlaps)
	require.Len(t, part.Allowances, 1)
	assert.Equal(t, "paint", part.Allowances[0].Name)
	assert.Equal(t, l.Rigging, part.Rigging)
	assert.Equal(t, l.Warnings, part.Warnings)
	_, err = part.Weigh()
	require.NoError(t, err)

	wet, err := l.In("wet")
	require.NoError(t, err)
	assert.Len(t, wet.Overlaps, 1)
	assert.Contains(t, codes(l.Warnings), "vessel-empty")
	assert.NotContains(t, codes(wet.Warnings), "vessel-empty")
}

// The inside that the load file gives for a part counts in its states too.
func TestStateKnowsTheInsideOfWhatIsNotHollow(t *testing.T) {
	l := good(t, head+`- {name: pit, weight: 500 kg, at: [0, 0, 0], status: weighed, contents: {fluid: water, depth: 100, inside: {box: 1000 x 1000 x 500, corner: [0, 0, 0]}}}
states: {full: {contents: {pit: {fluid: water, fill: 100 %}}}}
`)
	s, err := l.In("full")
	require.NoError(t, err)
	best, _, _ := s.Parts[1].Mass()
	assert.InEpsilon(t, 500.0, float64(best), 1e-9)
	near3(t, geom.Vec{0.5, 0.5, 0.25}, s.Parts[1].CG(), 1e-9, "CG")
}

func TestUnknownStates(t *testing.T) {
	l := good(t, head+filledSkid+skidStates)
	_, err := l.In("shiping")
	assert.ErrorContains(t, err, `did you mean "shipping"? It has: shipping, test`)
	_, err = l.In("on the moon")
	assert.ErrorContains(t, err, `no state called "on the moon"; it has: shipping, test`)
	_, err = good(t, head+filledSkid).In("test")
	assert.ErrorContains(t, err, "write them under `states:`")
}

func TestBadStatesSayWhereWhatAndHowToMend(t *testing.T) {
	tests := []struct{ name, states, at, text, fix string }{
		{"no group", "shipping", "8:9", "`states` must be a group of keys", "a name for each state"},
		{"word for a state", "{a: tank}", "8:13", "a state must be a group of keys", "without, only, contents"},
		{"unknown key", "{a: {with: tank}}", "8:14", `unknown key "with" in a state`, "without, only, contents"},
		{"no such part", "{a: {without: [covr]}}", "8:24", `no part called "covr"`, `did you mean "cover"?`},
		{"no such contents", "{a: {without: cover contents}}", "8:23", `no part called "cover contents"`, "`tank contents`"},
		{"both", "{a: {without: cover, only: tank}}", "8:10", "both `without` and `only`", "write one of the two"},
		{"nothing left", "{a: {without: [frame, tank, cover]}}", "8:10", `"a" leaves nothing of the load`, "leave some part"},
		{"contents of nothing", "{a: {contents: {tnak: {fluid: water, fill: 5 %}}}}", "8:25", `no part called "tnak"`, `did you mean "tank"?`},
		{"contents of what is gone", "{a: {without: tank, contents: {tank: {fluid: water, fill: 5 %}}}}", "8:40", `"tank" is not there in the state "a"`, "leave it in"},
		{"too full", "{a: {contents: {tank: {fluid: water, fill: 500 %}}}}", "8:52", "more than the inside holds", "1.571 m³"},
		{"contents in a weight", "{a: {contents: {frame: {fluid: water, fill: 5 %}}}}", "8:32", "a weight is not hollow by itself", "`inside:`"},
		{"contents in a word", "{a: {contents: tank}}", "8:24", "`contents` of a state must be a group of keys", "the name of a part"},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			p := problemsOf(t, head+filledSkid+"states: "+tt.states+"\n")
			require.Len(t, p, 1, "want this problem alone:\n%v", p)
			assert.Equal(t, tt.at, fmt.Sprintf("%d:%d", p[0].Line, p[0].Column), "place of %v", p[0])
			assert.Contains(t, p[0].Text, tt.text)
			assert.Contains(t, p[0].Fix, tt.fix)
		})
	}
}

// What a state leaves out and what it leaves in make the load.
func TestWithoutAndOnlyMakeTheLoad(t *testing.T) {
	whole := weighed(t, head+filledSkid).Best
	rapid.Check(t, func(t *rapid.T) {
		some := rapid.SliceOfNDistinct(rapid.SampledFrom([]string{"frame", "tank, tank contents", "cover"}), 1, 2, rapid.ID[string]).Draw(t, "names")
		list := "["
		for _, name := range some {
			list += name + ", "
		}
		l, err := readText(head+filledSkid+"states: {a: {without: "+list+"]}, b: {only: "+list+"]}}\n", nil)
		require.NoError(t, err)
		sum := 0.0
		for _, state := range []string{"a", "b"} {
			s, err := l.In(state)
			require.NoError(t, err)
			w, err := s.Weigh()
			require.NoError(t, err)
			sum += float64(w.Best)
		}
		assert.InEpsilon(t, float64(whole), sum, 1e-12)
	})
}
