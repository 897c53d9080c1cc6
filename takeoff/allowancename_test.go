package takeoff

import (
	"fmt"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// A block of 1 m³ at 1000 kg/m³ with 2 % of weld metal and 30 kg of bolts, bolted
// on site: what is left out is not added. By hand: 1000 + 20 + 30 kg.
func TestStateWithoutAnAllowance(t *testing.T) {
	const block = "- {name: block, box: 1000 x 1000 x 1000, corner: [0, 0, 0], material: {name: m, density: 1000 kg/m3, tolerance: 1 %}}\n"
	l := good(t, head+block+`allowances:
- {name: weld metal, add: 2 %}
- {name: bolts, weight: 30 kg, at: [0, 0, 0]}
states:
  unbolted: {without: bolts}
  bare: {without: [bolts, weld metal]}
`)
	for state, want := range map[string]float64{"unbolted": 1020, "bare": 1000} {
		s, err := l.In(state)
		require.NoError(t, err)
		w, err := s.Weigh()
		require.NoError(t, err)
		assert.InDelta(t, want, float64(w.Best), 1e-9, state)
	}
	s, err := l.In("bare")
	require.NoError(t, err)
	assert.Equal(t, []string{"weld metal", "bolts"}, s.AllowancesLeftOut())
	assert.Empty(t, l.AllowancesLeftOut(), "as drawn all are there")
	assert.Len(t, l.Allowances, 2)
}

// The allowances of a sub-assembly's file go by its name in the load.
func TestStateWithoutAnAllowanceOfASubAssembly(t *testing.T) {
	l, err := readFiles(map[string]string{
		"pump.yaml": "load: pump\nunits: mm\nparts:\n- {name: body, weight: 100 kg, at: [0, 0, 0], status: weighed}\nallowances: [{name: paint, weight: 7 kg}]\n",
		"load.yaml": "load: test\nunits: mm\nparts:\n- {name: pump, load: pump.yaml, at: [0, 0, 0]}\nstates: {bare: {without: pump / paint}}\n" +
			"weighings: [{name: shop, without: [pump / paint], accuracy: 1 kg, cells: [{name: A, at: [0, 0, 0], reads: 100 kg}]}]\n"})
	require.NoError(t, err)
	s, err := l.In("bare")
	require.NoError(t, err)
	w, err := s.Weigh()
	require.NoError(t, err)
	assert.InDelta(t, 100, float64(w.Best), 1e-9)
}

// An allowance is told from parts and contents by its name.
func TestBadAllowanceNames(t *testing.T) {
	const parts = head + "- {name: a, weight: 1 t, at: [0, 0, 0], status: weighed}\n- {name: tank, tube: {outside: 500, wall: 5, height: 900}, at: [0, 0, 0], contents: {fluid: water, fill: 50 %}}\n"
	for _, tt := range []struct{ name, rest, at, text, fix string }{
		{"of a part", "allowances: [{name: a, weight: 5 kg}]\n", "7:21", `the allowance has the name of a part, "a"`, "another name"},
		{"of contents", "allowances: [{name: tank contents, weight: 5 kg}]\n", "7:21", `the allowance has the name of the contents of "tank"`, "another name"},
		{"of contents that a state may have", "allowances: [{name: a contents, weight: 5 kg}]\n", "7:21", `the contents of "a"`, "another name"},
		{"in only", "allowances: [{name: paint, weight: 5 kg}]\nstates: {x: {only: [a, paint]}}\n", "8:24", `"paint" is an allowance`, "`without`"},
		{"misspelt", "allowances: [{name: paint, weight: 5 kg}]\nstates: {x: {without: pint}}\n", "8:23", `no part or allowance called "pint"`, `did you mean "paint"?`},
	} {
		t.Run(tt.name, func(t *testing.T) {
			p := problemsOf(t, parts+tt.rest)
			require.Len(t, p, 1, "want this problem alone:\n%v", p)
			assert.Equal(t, tt.at, fmt.Sprintf("%d:%d", p[0].Line, p[0].Column), "place of %v", p[0])
			assert.Contains(t, p[0].Text, tt.text)
			assert.Contains(t, p[0].Fix, tt.fix)
		})
	}
}
