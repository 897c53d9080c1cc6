package takeoff

import (
	"testing"
	"testing/fstest"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"plumbhook/geom"
	"plumbhook/units"
)

func readsLoad(t *testing.T, rest string) *Load {
	t.Helper()
	fs := fstest.MapFS{"load.yaml": {Data: []byte("load: a\nunits: mm\nmaterial: concrete\nparts:\n" + rest)}}
	l, err := Read(fs, "load.yaml", Options{})
	require.NoError(t, err)
	return l
}

func TestLugsAndThickLegs(t *testing.T) {
	l := readsLoad(t, sound+`picks:
  - {name: A, at: [0, 0, 0], lug: {normal: y}}
  - {name: B, at: [1000, 0, 0], lug: {normal: [3, 4, 0], axis: -z}}
  - {name: C, at: [0, 1000, 0]}
legs: {lengths: 3000, thickness: 1-1/2", fittings: 120}
`)
	picks := l.Rigging.Picks
	assert.Equal(t, &Lug{geom.Vec{0, 1, 0}, geom.Vec{0, 0, 1}}, picks[0].Lug, "it stands where nothing is said")
	near3(t, geom.Vec{0.6, 0.8, 0}, picks[1].Lug.Normal, 1e-12, "of length 1")
	assert.Equal(t, geom.Vec{0, 0, -1}, picks[1].Lug.Axis)
	assert.Nil(t, picks[2].Lug)
	assert.InDelta(t, 0.0381, l.Rigging.Legs.Thickness, 1e-12)
	assert.InDelta(t, 0.120, l.Rigging.Legs.Fittings, 1e-12)
}

// Two boxes 2 m long, the second from 3 m on, and a weight without a box.
func TestStretchesAlongAnAxis(t *testing.T) {
	l := readsLoad(t, "- {name: a, box: 2000 x 500 x 100, corner: [0, 0, 0], count: 2, step: [3000, 0, 0]}\n- {name: b, weight: 70 kg, at: [1500, 0, 0]}\n")
	got := l.Parts[0].Along(0)
	require.Len(t, got, 2)
	best, _, _ := l.Parts[0].Mass()
	for i, s := range got {
		assert.InDelta(t, 3*float64(i), s.From, 1e-12)
		assert.InDelta(t, 3*float64(i)+2, s.To, 1e-12)
		assert.InDelta(t, 3*float64(i)+1, s.At, 1e-12)
		assert.InDelta(t, float64(best)/2, float64(s.Mass), 1e-9)
	}
	assert.Equal(t, []Span{{1.5, 1.5, 1.5, units.Mass(70)}}, l.Parts[1].Along(0))
}
