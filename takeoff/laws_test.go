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
)

// someParts are parts of several kinds; each has a place to fill in, in mm.
var someParts = []string{
	"box: 300 x 200 x 100",
	"tube: {outside: 200, wall: 5, height: 400}\n  along: y",
	"cone: {bottom: 300, top: 100, height: 150}\n  turn: [x 30, z 45]",
	"prism: {base: 200, top: 50, height: 100, length: 300}\n  turn: [y 90]",
	"polygon: {outline: [[0, 0], [400, 0], [0, 300]], length: 50}",
	"sphere: {diameter: 250, wall: 10}",
	"weight: 80 kg\n  status: catalogue",
	"weight: 80 kg\n  box: 100 x 200 x 300\n  tolerance: -5 % / +12 %",
}

// drawLoad writes a load of some parts, all moved by the same vector (mm).
func drawLoad(t *rapid.T) func(by [3]int) string {
	n := rapid.IntRange(1, 5).Draw(t, "parts")
	coordinate := rapid.IntRange(-4000, 4000)
	var kinds []string
	var places [][3]int
	for range n {
		kinds = append(kinds, rapid.SampledFrom(someParts).Draw(t, "kind"))
		places = append(places, [3]int{coordinate.Draw(t, "x"), coordinate.Draw(t, "y"), coordinate.Draw(t, "z")})
	}
	count := rapid.IntRange(1, 6).Draw(t, "count")
	return func(by [3]int) string {
		var b strings.Builder
		b.WriteString(head)
		for i, k := range kinds {
			p := places[i]
			fmt.Fprintf(&b, "- name: p%d\n  %s\n  at: [%d, %d, %d]\n  count: %d\n  step: [700, -300, 50]\n",
				i, k, p[0]+by[0], p[1]+by[1], p[2]+by[2], count)
		}
		return b.String()
	}
}

func weigh(t require.TestingT, text string) Weighed {
	l, err := readText(text, nil)
	require.NoError(t, err)
	w, err := l.Weigh()
	require.NoError(t, err)
	return w
}

func TestMovingTheDatumMovesTheCGAndNothingElse(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		load := drawLoad(t)
		// 10 m to 9 km: far from the datum no digits may be lost.
		by := [3]int{rapid.IntRange(-9e6, 9e6).Draw(t, "bx"), rapid.IntRange(-9e6, 9e6).Draw(t, "by"), rapid.IntRange(-9e6, 9e6).Draw(t, "bz")}
		a, b := weigh(t, load([3]int{})), weigh(t, load(by))
		moved := geom.Vec{float64(by[0]), float64(by[1]), float64(by[2])}.Mul(0.001)
		assert.InEpsilon(t, float64(a.Best), float64(b.Best), 1e-12)
		assert.InEpsilon(t, float64(a.High), float64(b.High), 1e-12)
		for i := range 3 {
			assert.InDelta(t, a.CG[i]+moved[i], b.CG[i], 1e-9)
			assert.InDelta(t, a.Range.Min[i]+moved[i], b.Range.Min[i], 1e-9)
			assert.InDelta(t, a.Range.Max[i]+moved[i], b.Range.Max[i], 1e-9)
		}
		for i := range 9 {
			assert.InDelta(t, a.Inertia[i], b.Inertia[i], 1e-8*a.Inertia.Trace())
		}
	})
}

func TestBestLiesWithinItsRange(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		w := weigh(t, drawLoad(t)([3]int{}))
		assert.LessOrEqual(t, w.Low, w.Best)
		assert.LessOrEqual(t, w.Best, w.High)
		for i := range 3 {
			assert.LessOrEqual(t, w.Range.Min[i], w.CG[i]+1e-12)
			assert.GreaterOrEqual(t, w.Range.Max[i], w.CG[i]-1e-12)
			assert.GreaterOrEqual(t, w.Range.Min[i], w.Extent.Min[i]-1e-12, "a CG lies within the load")
			assert.LessOrEqual(t, w.Range.Max[i], w.Extent.Max[i]+1e-12, "a CG lies within the load")
		}
	})
}

func TestCopiesAreAsGoodAsParts(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		kind := rapid.SampledFrom(someParts).Draw(t, "kind")
		n := rapid.IntRange(1, 7).Draw(t, "count")
		step := [3]int{rapid.IntRange(1, 900).Draw(t, "sx"), rapid.IntRange(-900, 900).Draw(t, "sy"), rapid.IntRange(-900, 900).Draw(t, "sz")}
		cut := "\n  cuts: [{sphere: {diameter: 40}, center: [10, 20, 50]}]"
		if kind != someParts[0] {
			cut = ""
		}
		var many strings.Builder
		many.WriteString(head)
		for k := range n {
			c := strings.Replace(cut, "[10, 20, 50]", fmt.Sprintf("[%d, %d, %d]", 10+k*step[0], 20+k*step[1], 50+k*step[2]), 1)
			fmt.Fprintf(&many, "- name: p%d\n  %s\n  at: [%d, %d, %d]%s\n", k, kind, k*step[0], k*step[1], k*step[2], c)
		}
		one := fmt.Sprintf("%s- name: p\n  %s\n  at: [0, 0, 0]%s\n  count: %d\n  step: [%d, %d, %d]\n", head, kind, cut, n, step[0], step[1], step[2])
		a, b := weigh(t, many.String()), weigh(t, one)
		assert.InEpsilon(t, float64(a.Best), float64(b.Best), 1e-12)
		if a.Volume > 0 {
			assert.InEpsilon(t, a.Volume, b.Volume, 1e-12)
		}
		for i := range 3 {
			assert.InDelta(t, a.CG[i], b.CG[i], 1e-12)
			assert.InDelta(t, a.Range.Max[i], b.Range.Max[i], 1e-12)
			assert.InDelta(t, a.Extent.Max[i], b.Extent.Max[i], 1e-12)
			assert.InDelta(t, a.Extent.Min[i], b.Extent.Min[i], 1e-12)
		}
		for i := range 9 {
			assert.InDelta(t, a.Inertia[i], b.Inertia[i], 1e-11*(1+a.Inertia.Trace()))
		}
	})
}

func TestMomentsOfAPartAreThoseOfItsMeshes(t *testing.T) {
	l := good(t, head+"- name: a\n  box: 300 x 200 x 100\n  turn: [x 30, z 45]\n  corner: [1000, 0, 0]\n  count: 3\n  step: [500, 10, 20]\n")
	p := l.Parts[0]
	var sum geom.Moments
	for _, m := range p.Meshes(1) {
		sum = sum.Plus(m.Moments())
	}
	got := p.Moments()
	assert.InEpsilon(t, sum.Volume, got.Volume, 1e-12)
	near3(t, sum.Centroid(), got.Centroid(), 1e-12, "centroid")
	for i := range 9 {
		assert.InDelta(t, sum.Second[i], got.Second[i], 1e-12)
	}
}

func TestFourQuarterTurnsAreNone(t *testing.T) {
	for _, axis := range []string{"x", "y", "z"} {
		turn := fmt.Sprintf("turn: [%[1]s 90, %[1]s 90, %[1]s 90, %[1]s 90]", axis)
		l := good(t, head+"- name: a\n  box: 300 x 200 x 100\n  at: [1, 2, 3]\n  "+turn+"\n")
		assert.Equal(t, geom.Still().Turn, l.Parts[0].Pose.Turn, axis)
		l = good(t, head+"- name: a\n  box: 300 x 200 x 100\n  at: [1, 2, 3]\n  turn: "+axis+" 360\n")
		assert.Equal(t, geom.Still().Turn, l.Parts[0].Pose.Turn, axis)
	}
}

func TestTurnsAreInTheirOrderAboutTheLoadsAxes(t *testing.T) {
	// x first: the axis of the rod, +z, goes to -y; then z takes -y to +x.
	l := good(t, head+"- {name: a, rod: {diameter: 10, height: 100}, at: [0, 0, 0], turn: [x 90, z 90]}\n")
	near3(t, geom.Vec{0.05, 0, 0}, l.Parts[0].CG(), 1e-15, "CG")
	l = good(t, head+"- {name: a, rod: {diameter: 10, height: 100}, at: [0, 0, 0], turn: [z 90, x 90]}\n")
	near3(t, geom.Vec{0, -0.05, 0}, l.Parts[0].CG(), 1e-15, "CG")
}

func TestAlongLaysTheAxisDown(t *testing.T) {
	for along, want := range map[string]geom.Vec{"x": {1, 0, 0}, "-x": {-1, 0, 0}, "y": {0, 1, 0}, "-y": {0, -1, 0}, "z": {0, 0, 1}, "-z": {0, 0, -1}} {
		l := good(t, head+"- {name: a, rod: {diameter: 10, height: 2000}, at: [0, 0, 0], along: "+along+"}\n")
		near3(t, want, l.Parts[0].CG(), 1e-15, along)
		assert.InDelta(t, 1, l.Parts[0].Pose.Turn.Det(), 1e-15, "a turn, not a mirror")
	}
}

func TestFromAndToAreTheEnds(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		c := rapid.Float64Range(-5, 5)
		from, to := geom.Vec{c.Draw(t, "a"), c.Draw(t, "b"), c.Draw(t, "c")}, geom.Vec{c.Draw(t, "d"), c.Draw(t, "e"), c.Draw(t, "f")}
		if rapid.Bool().Draw(t, "upright") {
			to[0], to[1] = from[0], from[1]
		}
		if to.Sub(from).Len() < 0.01 {
			t.Skip("no length")
		}
		text := fmt.Sprintf("load: a\nunits: m\nmaterial: steel\nparts:\n- {name: a, cone: {bottom: 0.2, top: 0.1}, from: [%.12f, %.12f, %.12f], to: [%.12f, %.12f, %.12f]}\n",
			from[0], from[1], from[2], to[0], to[1], to[2])
		l, err := readText(text, nil)
		require.NoError(t, err)
		p := l.Parts[0]
		length := to.Sub(from).Len()
		for i := range 3 {
			assert.InDelta(t, from[i], p.Pose.Point(geom.Vec{})[i], 1e-9)
			assert.InDelta(t, to[i], p.Pose.Point(geom.Vec{0, 0, length})[i], 1e-9)
		}
		turn := p.Pose.Turn
		product := turn.Mul3(turn.Transpose())
		for i := range 9 {
			assert.InDelta(t, geom.Still().Turn[i], product[i], 1e-12, "a turn: %v", turn)
		}
		assert.InDelta(t, 1, turn.Det(), 1e-12)
	})
}

func TestTurnToIsATurnAlsoCloseToTheAxis(t *testing.T) {
	for _, z := range []float64{1, -1} {
		for _, off := range []float64{0, 1e-200, 1e-120, 1e-60, 1e-12, 1e-3} {
			turn := turnTo(geom.Vec{off, -off / 2, z})
			for i := range 9 {
				require.False(t, math.IsNaN(turn[i]), "%g", off)
			}
			assert.InDelta(t, 1, turn.Det(), 1e-14)
			near3(t, geom.Vec{off, -off / 2, z}, turn.Mul3x1(geom.Vec{0, 0, geom.Vec{off, -off / 2, z}.Len()}), 1e-15, "the axis")
		}
	}
}

func TestPlacingAfterTurning(t *testing.T) {
	// A box of 300 x 200 x 100 on its side: 100 along x, 200 along y, 300 along z.
	for place, want := range map[string]geom.Extent{
		"corner: [0, 0, 0]": {Max: geom.Vec{0.1, 0.2, 0.3}},
		"center: [0, 0, 0]": {Min: geom.Vec{-0.05, -0.1, -0.15}, Max: geom.Vec{0.05, 0.1, 0.15}},
		"centre: [0, 0, 0]": {Min: geom.Vec{-0.05, -0.1, -0.15}, Max: geom.Vec{0.05, 0.1, 0.15}},
		"at: [0, 0, 0]":     {Min: geom.Vec{0, -0.1, -0.15}, Max: geom.Vec{0.1, 0.1, 0.15}},
	} {
		e := good(t, head+"- {name: a, box: 300 x 200 x 100, along: x, "+place+"}\n").Parts[0].Extent()
		near3(t, want.Min, e.Min, 1e-15, place)
		near3(t, want.Max, e.Max, 1e-15, place)
	}
}

func TestCutsThatAreRight(t *testing.T) {
	for name, tt := range map[string]struct{ part, cuts string }{
		"through a plate":     {"box: 400 x 400 x 20", "{cylinder: {diameter: 100, height: 20}, at: [0, 0, 0]}"},
		"to the edge":         {"box: 400 x 400 x 20", "{box: 100 x 100 x 20, corner: [-200, -200, 0]}"},
		"as wide as the rod":  {"rod: {diameter: 100, height: 300}", "{cylinder: {diameter: 100, height: 50}, at: [0, 0, 250]}"},
		"side by side":        {"box: 400 x 400 x 20", "{box: 100 x 100 x 20, corner: [0, 0, 0]}, {box: 100 x 100 x 20, corner: [100, 0, 0]}, {cylinder: {diameter: 100, height: 20}, at: [50, 150, 0]}"},
		"touching along":      {"box: 400 x 400 x 20", "{cylinder: {diameter: 100, height: 20}, at: [0, 0, 0]}, {cylinder: {diameter: 100, height: 20}, at: [70.71067812, 70.71067812, 0]}"},
		"in a tube's wall":    {"tube: {outside: 500, wall: 50, height: 500}", "{sphere: {diameter: 50}, center: [225, 0, 250]}"},
		"a groove in a bore":  {"tube: {outside: 500, wall: 50, height: 500}", "{tube: {inside: 400, wall: 10, height: 100}, at: [0, 0, 200]}"},
		"in inches":           {"box: 16 in x 16 in x 1/2 in", `{cylinder: {diameter: 100, height: 12.7}, at: [0, 0, 0]}`},
		"in a hollow sphere":  {"sphere: {diameter: 500, wall: 100}", "{cylinder: {diameter: 20, height: 50}, at: [0, 0, 20]}"},
		"of a turned prism":   {"prism: {base: 400, top: 0, height: 400, length: 100}\n  turn: [x 90]", "{cylinder: {diameter: 50}, from: [-120, 0, -100], to: [-120, -100, -100]}"},
		"in a polygon's foot": {"polygon: {outline: [[0, 0], [400, 0], [400, 50], [50, 50], [50, 400], [0, 400]], length: 20}", "{box: 50 x 50 x 20, corner: [350, 0, 0]}"},
	} {
		text := head + "- name: a\n  " + tt.part + "\n  at: [0, 0, 0]\n  cuts: [" + tt.cuts + "]\n"
		_, err := readText(text, nil)
		assert.NoError(t, err, name)
	}
}

func TestHandMadeLoadsThatAreNone(t *testing.T) {
	_, err := (&Load{Name: "none"}).Weigh()
	assert.ErrorContains(t, err, "no parts")
	_, err = (&Load{Name: "none", Parts: []Part{{Name: "a", Kind: "box", Count: 1}}}).Weigh()
	assert.ErrorContains(t, err, `part "a" comes to 0 kg`)
}
