package takeoff

import (
	"fmt"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"plumbhook/geom"
)

func TestBadCandidates(t *testing.T) {
	var many []string
	for i := range 41 {
		many = append(many, fmt.Sprintf("{name: L%d, at: [%d, 0, 10]}", i, i))
	}
	for _, tt := range []struct{ name, file, at, text, fix string }{
		{"a list", "candidates: [{name: A, at: [0, 0, 0]}]\n", "8:13", "`candidates` must be a group of keys", "takes: lugs, grid, edge"},
		{"unknown key", "candidates: {lug: [{name: A, at: [0, 0, 0]}]}\n", "8:14", "unknown key \"lug\"", "did you mean `lugs`?"},
		{"no lugs", "candidates: {lugs: []}\n", "8:20", "expected a list of {name, at}", "a list of {name, at}"},
		{"one lug", "candidates: {lugs: [{name: A, at: [0, 0, 0]}]}\n", "8:20", "one lug leaves nothing to choose", "write it as `picks`"},
		{"too many lugs", "candidates: {lugs: [" + strings.Join(many, ", ") + "]}\n", "8:20", "41 lugs; at most 40", "leave out"},
		{"lug without a place", "candidates: {lugs: [{name: A, at: [0, 0, 0]}, {name: B}]}\n", "8:47", "a pick has no `at`", "[x, y, z]"},
		{"lug twice", "candidates: {lugs: [{name: A, at: [0, 0, 0]}, {name: A, at: [9, 0, 0]}]}\n", "8:47", "the lug \"A\" is here twice, first on line 8", "its own name"},
		{"lugs and a grid", "candidates: {lugs: [{name: A, at: [0, 0, 0]}, {name: B, at: [9, 0, 0]}], grid: 100}\n", "8:13", "`lugs` beside `grid` or `edge`", "the lugs alone"},
		{"grid of nothing", "candidates: {grid: 0}\n", "8:20", "must be more than zero", ""},
		{"edge in words", "candidates: {edge: near}\n", "8:20", "no number before the unit", ""},
		{"edge without a value", "candidates: {edge: }\n", "8:14", "`edge` has no value", "a length"},
	} {
		t.Run(tt.name, func(t *testing.T) {
			p := problemsOf(t, head+sound+tt.file)
			require.Len(t, p, 1, "want this problem alone:\n%v", p)
			assert.Equal(t, tt.at, fmt.Sprintf("%d:%d", p[0].Line, p[0].Column), "place of %v", p[0])
			assert.Contains(t, p[0].Text, tt.text)
			assert.Contains(t, p[0].Fix, tt.fix)
		})
	}
}

func TestCandidatesAreRead(t *testing.T) {
	read := func(yaml string) Candidates {
		l, err := ReadFrom(strings.NewReader(head+sound+yaml), "load.yaml", nil, Options{As: "yaml"})
		require.NoError(t, err)
		return l.Rigging.Candidates
	}
	c := read("candidates: {lugs: [{name: A, at: [0, 0, 10]}, {name: B, at: [1 m, 0, 10]}]}\n")
	require.Len(t, c.Lugs, 2)
	assert.Equal(t, geom.Vec{1, 0, 0.01}, c.Lugs[1].At)
	c = read("candidates: {grid: 250, edge: 10 cm}\n")
	assert.InDelta(t, 0.25, c.Grid, 1e-12)
	assert.InDelta(t, 0.1, c.Edge, 1e-12)
	assert.Equal(t, Candidates{}, read(""))
}
