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

// HEA 200 is 190 deep and 200 wide (EN 10365).
func TestDepthPointsUp(t *testing.T) {
	for _, tt := range []struct {
		place string
		size  geom.Vec // m
	}{
		{"from: [0, 0, 0], to: [2400, 0, 0]", geom.Vec{2.4, 0.2, 0.19}},
		{"from: [0, 0, 0], to: [2400, 0, 0], up: y", geom.Vec{2.4, 0.19, 0.2}},
		{"from: [0, 0, 0], to: [2400, 0, 0], up: [0, -3, 0]", geom.Vec{2.4, 0.19, 0.2}},
		{"from: [0, 0, 0], to: [0, 2400, 0]", geom.Vec{0.2, 2.4, 0.19}},
		{"from: [0, 0, 0], to: [0, 0, 2400], up: x", geom.Vec{0.19, 0.2, 2.4}},
		{"from: [0, 0, 2400], to: [0, 0, 0], up: -y", geom.Vec{0.2, 0.19, 2.4}},
		{"length: 2400, at: [0, 0, 0], along: x", geom.Vec{2.4, 0.2, 0.19}},
		{"length: 2400, at: [0, 0, 0], along: -y", geom.Vec{0.2, 2.4, 0.19}},
		{"length: 2400, at: [0, 0, 0], along: x, up: y", geom.Vec{2.4, 0.19, 0.2}},
		{"length: 2400, corner: [0, 0, 0]", geom.Vec{0.2, 0.19, 2.4}},
		{"length: 2400, at: [0, 0, 0], turn: [x 90]", geom.Vec{0.2, 2.4, 0.19}},
	} {
		w := weighed(t, head+"- {section: HEA 200, "+tt.place+"}\n")
		near3(t, tt.size, w.Extent.Size(), 1e-9, tt.place)
		assert.InDelta(t, 101.52, float64(w.Best), 1e-9, "the mass is the same however it lies")
	}
}

// TestObliqueBeam: a beam along a space diagonal keeps its CG in the middle of
// its line, its length, and half its depth of 190 above the line along `up`.
func TestObliqueBeam(t *testing.T) {
	l := good(t, head+"- {section: HEA 200, from: [100, 200, 300], to: [1100, 1200, 1300]}\n")
	w, err := l.Weigh()
	require.NoError(t, err)
	near3(t, geom.Vec{0.6, 0.7, 0.8}, w.CG, 1e-9, "CG")
	assert.InDelta(t, 42.3*1.7320508, float64(w.Best), 0.001, "1 m along each axis is √3 m")

	reach := func(dir geom.Vec) float64 {
		far := math.Inf(-1)
		for _, v := range l.Parts[0].Meshes(0.0001)[0].Vertices {
			far = max(far, v.Sub(w.CG).Dot(dir.Normalize()))
		}
		return far
	}
	assert.InDelta(t, 0.095, reach(geom.Vec{-1, -1, 2}), 1e-9, "square to the line, as near to +z as it goes: half the depth")
	assert.InDelta(t, 0.100, reach(geom.Vec{1, -1, 0}), 1e-9, "level: half the width")
	assert.InDelta(t, 0.8660254, reach(geom.Vec{1, 1, 1}), 1e-7, "half the length")
}

// TestASectionLiesOnItsLine is a law: whichever way a section lies, its CG is in
// the middle of the line through its centroids, and it weighs the same.
func TestASectionLiesOnItsLine(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		name := rapid.SampledFrom([]string{"IPE 300", "UPN 200", "L 150x100x10", "T 50", "RHS 200x100x8", "W12x26", "C15x50"}).Draw(t, "name")
		at := func(label string) (v geom.Vec) {
			for i := range v {
				v[i] = float64(rapid.IntRange(-5000, 5000).Draw(t, label))
			}
			return v
		}
		from, to, up := at("from"), at("to"), at("up")
		way := to.Sub(from)
		if way.Len() < 100 || way.Cross(up).Len() < 0.1*way.Len()*up.Len() || up.Len() < 1 {
			t.Skip("no line, or up along it")
		}
		l, err := readText(fmt.Sprintf("%s- {section: %s, from: %s, to: %s, up: %s}\n", head, name, list(from), list(to), list(up)), nil)
		require.NoError(t, err)
		w, err := l.Weigh()
		require.NoError(t, err)
		middle := from.Add(to).Mul(0.0005)
		require.InDelta(t, 0, w.CG.Sub(middle).Len(), 1e-9, "m from the middle of the line")
		one, err := readText(fmt.Sprintf("%s- {section: %s, length: 1 m, at: [0, 0, 0]}\n", head, name), nil)
		require.NoError(t, err)
		perMetre, err := one.Weigh()
		require.NoError(t, err)
		require.InEpsilon(t, float64(perMetre.Best)*way.Len()/1000, float64(w.Best), 1e-9, "kg")
	})
}

func list(v geom.Vec) string { return fmt.Sprintf("[%g, %g, %g]", v[0], v[1], v[2]) }

// TestLinesOfASection: HEA 200 with its top flange at 115 has its CG at 115 −
// 190/2 = 20; SHS 100 on its bottom at 50 + 0 = 50.
func TestLinesOfASection(t *testing.T) {
	top := weighed(t, head+"- {section: HEA 200, from: [0, 500, 115], to: [2400, 500, 115], line: top}\n")
	near3(t, geom.Vec{1.2, 0.5, 0.020}, top.CG, 1e-9, "by its top")
	bottom := weighed(t, head+"- {section: SHS 100x100x5, from: [0, 0, 0], to: [2400, 0, 0], line: bottom}\n")
	near3(t, geom.Vec{1.2, 0, 0.050}, bottom.CG, 1e-9, "by its bottom")
	pipe := weighed(t, head+"- {pipe: CHS 168.3x7.1, from: [0, 0, 0], to: [2400, 0, 0], line: bottom}\n")
	near3(t, geom.Vec{1.2, 0, 0.08415}, pipe.CG, 1e-9, "a pipe on the ground")
}

// TestPrismAndPolygonBetweenTwoEnds: the line runs through the centroids. Of a
// right triangle that is a third of base and height from the right angle.
func TestPrismAndPolygonBetweenTwoEnds(t *testing.T) {
	for _, shape := range []string{
		"prism: {base: 300, top: 0, height: 150}",
		"polygon: {outline: [[0, 0], [300, 0], [0, 150]]}",
	} {
		w := weighed(t, head+"- {"+shape+", from: [0, 0, 0], to: [2000, 0, 0], up: z}\n")
		near3(t, geom.Vec{1, 0, 0}, w.CG, 1e-9, shape)
		near3(t, geom.Vec{0, -0.1, -0.05}, w.Extent.Min, 1e-9, shape)
		near3(t, geom.Vec{2, 0.2, 0.1}, w.Extent.Max, 1e-9, shape)
		assert.InDelta(t, 353.25, float64(w.Best), 1e-6, "0.3 × 0.15 / 2 × 2 × 7850")
	}
}

// TestBendByHeading: an elbow of 168.3 and radius 229 that comes along +x and
// turns down ends at x 229, z -229; its outside reaches half a pipe further.
func TestBendByHeading(t *testing.T) {
	w := weighed(t, head+"- {bend: {outside: 168.3, wall: 7.11, radius: 229, angle: 90}, from: [0, 0, 0], heading: x, toward: -z}\n")
	near3(t, geom.Vec{0, -0.08415, -0.229}, w.Extent.Min, 1e-9, "least")
	near3(t, geom.Vec{0.31315, 0.08415, 0.08415}, w.Extent.Max, 1e-9, "greatest")
	// Pappus: π/2 × 0.229 m of 28.26 kg/m pipe (ASME B36.10M, from memory).
	assert.InDelta(t, 10.165, float64(w.Best), 0.01, "kg")
}

// badLines are the ways to say wrongly how a thing lies; line 5 on.
var badLines = []struct{ name, file, at, text, fix string }{
	{"angle without up", "- section: L 100x100x10\n  from: [0, 0, 0]\n  to: [2000, 0, 0]\n", "5:3", "not symmetric about two axes, and nothing says how it is turned", "write `up:`"},
	{"channel along x without up", "- section: UPN 200\n  length: 1000\n  at: [0, 0, 0]\n  along: x\n", "5:3", "`up` is missing", "`up: z`"},
	{"prism without up", "- prism: {base: 3, top: 0, height: 2}\n  from: [0, 0, 0]\n  to: [2000, 0, 0]\n", "5:3", "`up` is missing", "`up: z`"},
	{"vertical without up", "- section: HEA 200\n  from: [0, 0, 0]\n  to: [80, 0, 1000]\n", "5:3", "within 5 degrees of vertical", "`up: y`"},
	{"up along the line", "- section: HEA 200\n  from: [0, 0, 0]\n  to: [1000, 0, 0]\n  up: x\n", "8:7", "`up` points along the line itself", "square to the line"},
	{"up that is no direction", "- section: HEA 200\n  from: [0, 0, 0]\n  to: [1000, 0, 0]\n  up: [0, 0, 0]\n", "8:7", "[0, 0, 0] is no direction", "x, y, z, -x"},
	{"up of two numbers", "- section: HEA 200\n  from: [0, 0, 0]\n  to: [1000, 0, 0]\n  up: [0, 1]\n", "8:7", "2 numbers where 3 are needed", "[x, y, z]"},
	{"up in words", "- section: HEA 200\n  from: [0, 0, 0]\n  to: [1000, 0, 0]\n  up: above\n", "8:7", `"above" is not one of the words`, "write x, y, z"},
	{"up of a rod", "- rod: {diameter: 30}\n  from: [0, 0, 0]\n  to: [1000, 0, 0]\n  up: z\n", "8:7", "a rod has no depth", "take `up` away"},
	{"up without a line", "- section: HEA 200\n  length: 1000\n  at: [0, 0, 0]\n  up: x\n", "8:7", "`up` without a line", "`along`"},
	{"line without from and to", "- section: HEA 200\n  length: 1000\n  at: [0, 0, 0]\n  line: top\n", "8:9", "which line of a section `from` and `to` are on", "take `line` away"},
	{"line of a weight", "- weight: 20 kg\n  at: [0, 0, 0]\n  line: top\n", "7:9", "which line of a section", "take `line` away"},
	{"back of a beam", "- section: HEA 200\n  from: [0, 0, 0]\n  to: [1000, 0, 0]\n  line: back\n", "8:9", "this has no `back`", "write top or bottom"},
	{"heel of a channel", "- section: UPN 200\n  from: [0, 0, 0]\n  to: [1000, 0, 0]\n  up: z\n  line: heel\n", "9:9", "this has no `heel`", "write top or bottom"},
	{"a line there is not", "- section: HEA 200\n  from: [0, 0, 0]\n  to: [1000, 0, 0]\n  line: topp\n", "8:9", `"topp" is not one of the words`, "did you mean `top`?"},
	{"length beside a box", "- box: 1 x 1 x 1\n  at: [0, 0, 0]\n  length: 3\n", "7:11", "`length` beside a box", "among the sizes"},
	{"length that disagrees", "- section: HEA 200\n  length: 2500\n  from: [0, 0, 0]\n  to: [2400, 0, 0]\n", "5:3", "its length is 2.500 m", "leave `length` out"},
	{"no length", "- section: HEA 200\n  at: [0, 0, 0]\n", "5:3", "a section has no `length`", "place it by `from` and `to`"},
	{"heading of a tube", "- tube: {outside: 9, wall: 1, height: 8}\n  at: [0, 0, 0]\n  heading: x\n", "7:12", "a tube has no `heading`", "`along`"},
	{"bend without toward", "- bend: {outside: 20, wall: 2, radius: 50, angle: 90}\n  from: [0, 0, 0]\n  heading: x\n", "5:3", "`from`, `heading` and `toward` together", "the side that it turns to"},
	{"bend that turns nowhere", "- bend: {outside: 20, wall: 2, radius: 50, angle: 90}\n  from: [0, 0, 0]\n  heading: x\n  toward: -x\n", "8:11", "`toward` is `heading` itself", "square to `heading`"},
	{"bend between two ends", "- bend: {outside: 20, wall: 2, radius: 50, angle: 90}\n  from: [0, 0, 0]\n  to: [50, 0, 50]\n", "5:3", "a bend can't be placed by `from` and `to`", "`at`"},
	{"offset cone between two ends", "- cone: {bottom: 500, top: 300, offset: 50, wall: 5}\n  from: [0, 0, 0]\n  to: [0, 0, 400]\n", "5:3", "a cone with an offset can't be placed", "`turn`"},
}

func TestBadLinesSayWhereWhatAndHowToMend(t *testing.T) {
	for _, tt := range badLines {
		t.Run(tt.name, func(t *testing.T) {
			p := problemsOf(t, head+tt.file)
			require.Len(t, p, 1, "want this problem alone:\n%v", p)
			assert.Equal(t, tt.at, fmt.Sprintf("%d:%d", p[0].Line, p[0].Column), "place of %v", p[0])
			assert.Contains(t, p[0].Text, tt.text)
			assert.Contains(t, p[0].Fix, tt.fix)
		})
	}
}
