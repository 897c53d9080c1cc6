package takeoff

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"plumbhook/geom"
	"plumbhook/units"
)

// sameLoad holds two ways to write one load against each other, to 1e-9 of
// its size.
func sameLoad(t require.TestingT, a, b Weighed) {
	assert.InEpsilon(t, float64(a.Best), float64(b.Best), 1e-12, "best")
	assert.InEpsilon(t, float64(a.Low), float64(b.Low), 1e-12, "low")
	assert.InEpsilon(t, float64(a.High), float64(b.High), 1e-12, "high")
	assert.InDelta(t, a.Volume, b.Volume, 1e-12*(1+a.Volume), "volume")
	size := 1e-9 * (1 + a.Extent.Diagonal())
	for i, axis := range "xyz" {
		assert.InDelta(t, a.CG[i], b.CG[i], size, "CG %c", axis)
		assert.InDelta(t, a.Range.Min[i], b.Range.Min[i], size, "range from %c", axis)
		assert.InDelta(t, a.Range.Max[i], b.Range.Max[i], size, "range to %c", axis)
		assert.InDelta(t, a.Extent.Min[i], b.Extent.Min[i], size, "box from %c", axis)
		assert.InDelta(t, a.Extent.Max[i], b.Extent.Max[i], size, "box to %c", axis)
	}
	for i := range 9 {
		assert.InDelta(t, a.Inertia[i], b.Inertia[i], 1e-9*(1e-3+a.Inertia.Trace()), "inertia")
	}
}

// turnable are parts with the turns that they have before they are repeated.
var turnable = []struct{ what, turns string }{
	{"box: 300 x 200 x 100", ""},
	{"tube: {outside: 200, wall: 5, height: 400}", "x -90, "},
	{"cone: {bottom: 300, top: 100, height: 150}", "x 30, z 45, "},
	{"prism: {base: 200, top: 50, height: 100, length: 300}", "y 90, "},
	{"polygon: {outline: [[0, 0], [400, 0], [0, 300]], length: 50}", ""},
	{"weight: 80 kg\n  box: 100 x 200 x 300", "z 20, "},
}

// writtenAt is a part at a place in mm, with its turns.
func writtenAt(what, turns string, at geom.Vec) string {
	if turns = strings.TrimSuffix(turns, ", "); turns != "" {
		turns = "  turn: [" + turns + "]\n"
	}
	return fmt.Sprintf("- name: a\n  %s\n  at: [%.9f, %.9f, %.9f]\n%s", what, at[0], at[1], at[2], turns)
}

func TestCopiesAroundAreAsGoodAsPartsPlacedByHand(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		kind := rapid.SampledFrom(turnable).Draw(t, "kind")
		axis := rapid.IntRange(0, 2).Draw(t, "axis")
		n := rapid.IntRange(1, 9).Draw(t, "count")
		c := rapid.IntRange(-4000, 4000)
		place := func(name string) geom.Vec {
			return geom.Vec{float64(c.Draw(t, name+"x")), float64(c.Draw(t, name+"y")), float64(c.Draw(t, name+"z"))}
		}
		at, through := place("at "), place("through ")
		if off := at.Sub(through); math.Hypot(off[(axis+1)%3], off[(axis+2)%3]) < 500 {
			t.Skip("copies could lie on each other")
		}
		angle, say := 360/float64(n), ""
		if rapid.Bool().Draw(t, "part of the circle") {
			angle = rapid.Float64Range(-359, 359).Draw(t, "angle") / float64(n)
			if math.Abs(angle) < 0.1 {
				t.Skip("too near")
			}
			say = fmt.Sprintf(", angle: %.12f", angle)
		}
		var byHand strings.Builder
		for k := range n {
			degrees := float64(k) * angle
			sin, cos := math.Sincos(degrees * math.Pi / 180)
			i, j := (axis+1)%3, (axis+2)%3
			there, off := at, at.Sub(through)
			there[i], there[j] = through[i]+cos*off[i]-sin*off[j], through[j]+sin*off[i]+cos*off[j]
			byHand.WriteString(writtenAt(kind.what, fmt.Sprintf("%s%c %.12f", kind.turns, "xyz"[axis], degrees), there))
		}
		pattern := fmt.Sprintf("  around: {axis: %c, through: [%g, %g, %g], count: %d%s}\n", "xyz"[axis], through[0], through[1], through[2], n, say)
		sameLoad(t, weigh(t, head+byHand.String()), weigh(t, head+writtenAt(kind.what, kind.turns, at)+pattern))
	})
}

// A bolt circle by hand: six weights of 10 kg on a circle of 1 m about x = 2 m,
// y = 1 m. About its own centre each 10 kg counts with r² = 1 m²: 60 kg·m²
// about the axis and half of it across (Steiner's theorem, any textbook of
// mechanics; by symmetry).
func TestBoltCircle(t *testing.T) {
	w := weighed(t, head+"- {name: bolt, weight: 10 kg, at: [3000, 1000, 500], around: {axis: z, through: [2000, 1000, 0], count: 6}}\n")
	assert.InDelta(t, 60, float64(w.Best), 1e-12)
	near3(t, geom.Vec{2, 1, 0.5}, w.CG, 1e-12, "CG")
	assert.InDelta(t, 60, w.Inertia.At(2, 2), 1e-12)
	assert.InDelta(t, 30, w.Inertia.At(0, 0), 1e-12)
	assert.InDelta(t, 30, w.Inertia.At(1, 1), 1e-12)
	assert.InDelta(t, 0, w.Inertia.At(0, 1), 1e-12)
	assert.Equal(t, 6, w.Parts[0].Count)
}

// handed is a plate that is no mirror image of itself, with a hole in a
// corner, and the same plate drawn with the other hand.
const (
	handed = "- name: bracket\n  polygon: {outline: [[0, 0], [400, 0], [0, 300]], length: 20}\n  at: [500, 100, 0]\n" +
		"  cuts: [{cylinder: {diameter: 40, height: 20}, at: [550, 140, 0]}]\n"
	otherHand = "- name: bracket\n  polygon: {outline: [[0, 0], [-400, 0], [0, 300]], length: 20}\n  at: [-100, 100, 0]\n" +
		"  cuts: [{cylinder: {diameter: 40, height: 20}, at: [-150, 140, 0]}]\n"
)

func TestMirrorMakesAHandedPair(t *testing.T) {
	pair := weighed(t, head+handed+otherHand)
	sameLoad(t, pair, weighed(t, head+handed+"  mirror: {across: x, at: 200}\n"))
	sameLoad(t, pair, weighed(t, head+otherHand+"  mirror: {across: x, at: 200}\n"))
	for axis := range 3 {
		m := mirror(axis, 0.7)
		assert.Equal(t, geom.Still(), m.After(m), "mirrored twice: nothing has changed")
		assert.True(t, m.Mirrored())
	}
}

// A row of 2; that row and it again a quarter turn about the origin; all of it
// mirrored in y = 1.5 m. Places by hand, in metres.
func TestPatternsInTheirOrder(t *testing.T) {
	p := good(t, head+`- name: a
  weight: 10 kg
  at: [1000, 0, 0]
  count: 2
  step: [1500, 0, 0]
  around: {axis: z, through: [0, 0, 77], count: 2, angle: 90}
  mirror: {across: y, at: 1500}
`).Parts[0]
	want := []geom.Vec{{1, 0, 0}, {2.5, 0, 0}, {0, 1, 0}, {0, 2.5, 0}, {1, 3, 0}, {2.5, 3, 0}, {0, 2, 0}, {0, 0.5, 0}}
	require.Equal(t, 8, p.Count)
	for k, c := range p.centers() {
		near3(t, want[k], c, 1e-15, fmt.Sprintf("copy %d", k+1))
	}
}

func TestCutsGoWithEveryCopy(t *testing.T) {
	l := good(t, head+handed+"  count: 3\n  step: [0, 0, 100]\n  around: {axis: x, through: [0, -500, 0], count: 5}\n  mirror: {across: x, at: 200}\n")
	p := l.Parts[0]
	require.Len(t, p.Places, 30)
	assert.Equal(t, geom.Still(), p.Places[0])
	var sum geom.Moments
	for _, m := range p.Meshes(1) {
		sum = sum.Plus(m.Moments())
	}
	hole := p.Cuts[0].Solid.Moments()
	for _, c := range p.Places {
		sum = sum.Minus(hole.Posed(c.After(p.Cuts[0].Pose)))
	}
	got := p.Moments()
	assert.InEpsilon(t, sum.Volume, got.Volume, 1e-12)
	near3(t, sum.Centroid(), got.Centroid(), 1e-12, "centroid")
	near3(t, sum.Centroid(), p.CG(), 1e-12, "CG")
	for i := range 9 {
		assert.InDelta(t, sum.Second[i], got.Second[i], 1e-12)
	}
	e := p.Meshes(1)[0].Extent()
	for _, m := range p.Meshes(1) {
		e = e.Union(m.Extent())
	}
	near3(t, e.Min, p.Extent().Min, 1e-12, "box from")
	near3(t, e.Max, p.Extent().Max, 1e-12, "box to")
}

func TestTurningThePatternTurnsTheLoad(t *testing.T) {
	// Seven copies evenly around look the same from every seventh of a turn:
	// the inertia across the axis is the same in all directions.
	w := weighed(t, head+handed+"  around: {axis: z, through: [0, 0, 0], count: 7}\n")
	near3(t, geom.Vec{0, 0, 0.01}, w.CG, 1e-12, "CG on the axis")
	assert.InDelta(t, w.Inertia.At(0, 0), w.Inertia.At(1, 1), 1e-9)
	assert.InDelta(t, 0, w.Inertia.At(0, 1), 1e-9)
	assert.InDelta(t, w.CGReach(geom.Vec{1, 0, 0}),
		w.CGReach(geom.Vec{math.Cos(units.Radians(360.0 / 7)), math.Sin(units.Radians(360.0 / 7)), 0}), 1e-12, "and so does the reach of its CG")
}

func TestPatternsFarFromTheDatumLoseNoDigits(t *testing.T) {
	for _, far := range []int{0, 9_000_000} {
		w := weighed(t, head+fmt.Sprintf("- name: a\n  box: 300 x 200 x 100\n  at: [%d, %d, 0]\n  around: {axis: z, through: [%d, %d, 0], count: 4}\n", far+1000, far, far, far))
		// 300 x 200 x 100 mm of steel at 7850 kg/m³ is 47.1 kg; four of them a
		// metre out. Each about its own middle, z: m(a² + b²)/12 = 0.51025.
		assert.InDelta(t, 188.4, float64(w.Best), 1e-9)
		assert.InDelta(t, 188.4+4*0.51025, w.Inertia.At(2, 2), 1e-6, "datum %d mm off", far)
		near3(t, geom.Vec{float64(far) / 1000, float64(far) / 1000, 0.05}, w.CG, 1e-9, "CG")
	}
}
