package takeoff

import (
	"fmt"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

const unitHead = "load: test\nunits: mm\nmaterial: {name: m, density: 1000 kg/m3, tolerance: 0 %}\nparts:\n"

// Volumes by hand; the ball's eighth is standard geometry.
func TestOverlapsAreFound(t *testing.T) {
	for _, tt := range []struct {
		name, parts string
		volume      float64 // m³
		exact       bool
		places      int
	}{
		{"two boxes", "- {name: a, box: 400 x 300 x 200, corner: [0, 0, 0]}\n- {name: b, box: 200 x 200 x 200, corner: [300, 200, 100]}\n", 0.001, true, 1},
		{"boxes turned", "- {name: a, box: 1000 x 1000 x 1000, corner: [0, 0, 0]}\n- {name: b, box: 200 x 200 x 1200, turn: [z 45], center: [1000, 1000, 500]}\n", 0.01, true, 1},
		{"a box within", "- {name: a, box: 1000 x 1000 x 1000, corner: [0, 0, 0]}\n- {name: b, box: 100 x 100 x 100, corner: [100, 100, 100]}\n", 0.001, true, 1},
		{"ball in a corner", "- {name: a, box: 1000 x 1000 x 1000, corner: [0, 0, 0]}\n- {name: b, sphere: {diameter: 400}, center: [1000, 1000, 1000]}\n", 0.0041887902, false, 1},
		{"two places", "- {name: a, box: 1000 x 100 x 100, corner: [0, 0, 0]}\n- {name: b, box: 100 x 100 x 100, corner: [0, 0, 90], count: 3, step: [600, 0, 0]}\n", 0.0002, true, 2},
		{"beyond the cut", "- {name: a, box: 200 x 200 x 20, at: [0, 0, 0], cuts: [{rod: {diameter: 100, height: 20}, at: [0, 0, 0]}]}\n- {name: b, rod: {diameter: 120, height: 100}, at: [0, 0, 0]}\n", 0.0000691150384, false, 1},
	} {
		l := good(t, unitHead+tt.parts)
		require.Len(t, l.Overlaps, 1, tt.name)
		o := l.Overlaps[0]
		assert.Equal(t, [2]string{"a", "b"}, o.Parts, tt.name)
		assert.Equal(t, tt.places, o.Places, tt.name)
		assert.InDelta(t, tt.volume, o.Volume, o.Doubt+1e-12, tt.name)
		assert.Less(t, o.Doubt, 0.05*tt.volume, tt.name)
		assert.Equal(t, tt.exact, o.Doubt == 0, tt.name)
		assert.InDelta(t, 1000*o.Volume, float64(o.Weight), 1e-12, tt.name)
	}
}

func TestCopiesThatOverlap(t *testing.T) {
	l := good(t, unitHead+"- {name: a, box: 100 x 100 x 100, at: [0, 0, 0], count: 3, step: [90, 0, 0]}\n")
	require.Len(t, l.Overlaps, 1)
	assert.InDelta(t, 0.0002, l.Overlaps[0].Volume, 1e-12)
	assert.Contains(t, l.Overlaps[0].Text(), `copies of "a" overlap each other in 2 places`)
	require.NotEmpty(t, l.Warnings)
	assert.Equal(t, "overlap", l.Warnings[len(l.Warnings)-1].Code)
}

// Of two materials the lighter is taken off, and what is little is left to the
// check of the take-off.
func TestOverlapTakesTheLighterMaterial(t *testing.T) {
	l := good(t, unitHead+"- {name: a, box: 1000 x 1000 x 1000, corner: [0, 0, 0]}\n- {name: b, box: 100 x 100 x 100, corner: [0, 0, 990], material: {name: s, density: 8000 kg/m3, tolerance: 0 %}}\n")
	require.Len(t, l.Overlaps, 1)
	assert.InDelta(t, 0.1, float64(l.Overlaps[0].Weight), 1e-9)
	for _, w := range l.Warnings {
		assert.NotEqual(t, "overlap", w.Code, "0.1 kg of 1008 is not told by each command")
	}
}

func TestWhatOnlyTouchesDoesNotOverlap(t *testing.T) {
	for name, parts := range map[string]string{
		"boxes":               "- {name: a, box: 100 x 100 x 100, corner: [0, 0, 0]}\n- {name: b, box: 100 x 100 x 100, corner: [100, 0, 0]}\n- {name: c, box: 100 x 100 x 100, corner: [0, 50, 100]}\n",
		"boxes turned":        "- {name: a, box: 100 x 100 x 100, turn: [z 30], at: [0, 0, 0]}\n- {name: b, box: 100 x 100 x 100, turn: [z 30], at: [86.60254038, 50, 0]}\n",
		"rod in its tube":     "- {name: a, tube: {inside: 100, wall: 1, height: 300}, at: [0, 0, 0]}\n- {name: b, rod: {diameter: 100, height: 400}, turn: [z 17], at: [0, 0, 0]}\n",
		"rod in its bore":     "- {name: a, box: 200 x 200 x 100, at: [0, 0, 0], cuts: [{rod: {diameter: 100, height: 100}, at: [0, 0, 0]}]}\n- {name: b, rod: {diameter: 100, height: 300}, turn: [z 17], at: [0, 0, -50]}\n",
		"rods side by side":   "- {name: a, rod: {diameter: 100, height: 300}, at: [0, 0, 0]}\n- {name: b, rod: {diameter: 100, height: 300}, at: [100, 0, 0]}\n",
		"ball in a pipe":      "- {name: a, tube: {inside: 100, wall: 5, height: 300}, at: [0, 0, 0]}\n- {name: b, sphere: {diameter: 100}, center: [0, 0, 150]}\n",
		"a bought thing":      "- {name: a, box: 100 x 100 x 100, at: [0, 0, 0]}\n- {name: b, weight: 5 kg, box: 100 x 100 x 100, center: [0, 0, 50], status: weighed}\n",
		"a known bar":         "- {name: a, box: 100 x 100 x 100, at: [0, 0, 0]}\n- {name: b, bar: {per length: 3 kg/m}, from: [0, 0, 0], to: [0, 0, 100]}\n",
		"in inches and in mm": "- {name: a, box: 1 in x 1 in x 1 in, corner: [0, 0, 0]}\n- {name: b, box: 25.4 x 25.4 x 25.4, corner: [25.4, 0, 0]}\n",
		"crossed rods apart":  "- {name: a, rod: {diameter: 50}, from: [-200, -200, 0], to: [200, 200, 0]}\n- {name: b, rod: {diameter: 50}, from: [-200, 200, 50], to: [200, -200, 50]}\n",
	} {
		assert.Empty(t, good(t, unitHead+parts).Overlaps, name)
	}
}

// A part that displaces another weighs with it as their union.
func TestDisplacedMaterialCountsOnce(t *testing.T) {
	const block = "- {name: block, box: 1000 x 1000 x 1000, corner: [0, 0, 0]}\n"
	const steel = ", material: {name: s, density: 8000 kg/m3, tolerance: 0 %}"
	for _, tt := range []struct {
		name, bar string
		weight    float64 // kg
		cg        float64 // m, its height
	}{
		// 1000 + 8000·V − 1000·(what of V is in the block)
		{"half in", "- {name: bar, box: 100 x 100 x 1000, corner: [200, 200, 500]" + steel + ", displaces: block}\n", 1075, 0.5360465116},
		{"wholly in", "- {name: bar, box: 100 x 100 x 500, corner: [200, 200, 0]" + steel + ", displaces: [block]}\n", 1035, 0.4915458937},
		{"two of them", "- {name: bar, box: 100 x 100 x 1000, corner: [200, 200, 500]" + steel + ", count: 2, step: [300, 0, 0], displaces: block}\n", 1150, 0.5673913043},
		{"a hollow one", "- {name: bar, box: 100 x 100 x 1000, corner: [200, 200, 0]" + steel + ", displaces: block, cuts: [{box: 80 x 80 x 1000, corner: [210, 210, 0]}]}\n", 1025.2, 0.5},
	} {
		w := weighed(t, unitHead+tt.bar+block)
		doubt := w.Parts[1].High - w.Parts[1].Best
		assert.InDelta(t, tt.weight, float64(w.Best), 1e-9+float64(doubt), tt.name)
		assert.Less(t, float64(doubt), 0.1, tt.name)
		assert.InDelta(t, tt.cg, w.CG[2], 1e-4, tt.name)
		assert.Contains(t, w.Parts[1].Basis, "displaced by bar", tt.name)
		assert.Empty(t, good(t, unitHead+tt.bar+block).Overlaps, tt.name)
	}
}

func TestManyPartsTakeNoTimeToSpeakOf(t *testing.T) {
	var b strings.Builder
	b.WriteString(unitHead)
	for i := range 10_000 { // a lattice of rods that touch end to end and cross at a distance
		fmt.Fprintf(&b, "- {name: r%d, rod: {diameter: 50, height: 1000}, at: [%d, %d, %d]}\n", i, i%100*60, i/100%10*60, i/1000*1000)
	}
	start := time.Now()
	l := good(t, b.String())
	assert.Empty(t, l.Overlaps)
	assert.Less(t, time.Since(start), 20*time.Second)
}

func TestSearchCutShortSaysSo(t *testing.T) {
	l := good(t, unitHead+"- {name: a, box: 100 x 100 x 100, at: [0, 0, 0], count: 30, step: [10, 0, 0]}\n")
	found, left := overlaps(l.Parts, 10_000)
	assert.NotEmpty(t, found)
	assert.Positive(t, left)
	_, left = overlaps(l.Parts, mostWork)
	assert.Zero(t, left)
}
