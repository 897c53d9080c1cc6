package takeoff

import (
	"fmt"
	"math"
	"slices"
	"strings"
	"testing"
	"testing/fstest"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"plumbhook/geom"
)

// cutPart reads a part with cuts and returns it with what was warned of its cuts.
func cutPart(t *testing.T, part, cuts string) (Part, []Warning) {
	t.Helper()
	l := good(t, "load: test\nunits: mm\nmaterial: {name: m, density: 1000 kg/m3, tolerance: 0 %}\nparts:\n- name: a\n  "+part+"\n  cuts: ["+cuts+"]\n")
	return l.Parts[0], slices.DeleteFunc(l.Warnings, func(w Warning) bool { return w.Code == "material-default" })
}

// Cuts that stick out are ended at the part's surface. Volumes and centres of
// gravity by hand.
func TestCutsEndAtThePartExactly(t *testing.T) {
	for _, tt := range []struct {
		name, part, cuts string
		volume           float64 // m³
		cg               geom.Vec
	}{
		{"a bore out of both faces", "box: 1000 x 1000 x 20\n  corner: [0, 0, 0]", "{rod: {diameter: 100, height: 40}, at: [500, 500, -10]}",
			0.019842920367, geom.Vec{0.5, 0.5, 0.01}}, // 0.02 − π·0.05²·0.02
		{"a bore out of one face", "box: 1000 x 1000 x 20\n  corner: [0, 0, 0]", "{rod: {diameter: 100, height: 40}, at: [500, 500, 10]}",
			0.019921460184, geom.Vec{0.5, 0.5, 0.0099802879}}, // half of that, centred 15 above the underside
		{"a corner of a box", "box: 400 x 300 x 200\n  corner: [0, 0, 0]", "{box: 200 x 200 x 200, corner: [300, 200, 100]}",
			0.023, geom.Vec{0.1934782609, 0.1456521739, 0.0978260870}},
		{"a chamfer", "box: 1000 x 1000 x 1000\n  corner: [0, 0, 0]", "{box: 200 x 200 x 1200, turn: [z 45], center: [1000, 1000, 500]}",
			0.99, geom.Vec{0.4954256611, 0.4954256611, 0.5}}, // a triangle of 0.01 m², 1 − √0.02/3 from the faces
		{"a bore through two flanges", "polygon: {outline: [[0, 0], [200, 0], [200, 10], [10, 10], [10, 190], [200, 190], [200, 200], [0, 200]], length: 500}\n  at: [0, 0, 0]",
			"{rod: {diameter: 20}, from: [100, -50, 250], to: [100, 250, 250]}", 0.002893716815, geom.Vec{0.0704532249, 0.1, 0.25}}, // 0.0058·0.5 − 2·π·0.01²·0.01
		{"a tube", "box: 1000 x 1000 x 100\n  corner: [0, 0, 0]", "{tube: {outside: 200, wall: 50, height: 500}, at: [500, 500, -100]}",
			0.097643805510, geom.Vec{0.5, 0.5, 0.05}}, // 0.1 − π·(0.1² − 0.05²)·0.1
	} {
		p, warnings := cutPart(t, tt.part, tt.cuts)
		assert.InDelta(t, tt.volume, p.Moments().Volume, 1e-12, tt.name)
		near3(t, tt.cg, p.CG(), 1e-9, tt.name)
		assert.Zero(t, p.High, "%s: exact, so no tolerance is added", tt.name)
		assert.Contains(t, p.Basis, "ended at the part's surface (exact)", tt.name)
		require.Len(t, warnings, 1, tt.name)
		assert.Equal(t, "cut-sticks-out", warnings[0].Code, tt.name)
	}
}

// The inertia of what is left is that of the part with the cut as it would be
// drawn to end at the surface.
func TestClippedCutsHaveTheRightSecondMoments(t *testing.T) {
	long, _ := cutPart(t, "box: 600 x 500 x 40\n  turn: [x 20, y 30]\n  at: [100, 200, 300]", "{rod: {diameter: 100, height: 140}, turn: [x 20, y 30], at: [100, 200, 300]}")
	fit, none := cutPart(t, "box: 600 x 500 x 40\n  turn: [x 20, y 30]\n  at: [100, 200, 300]", "{rod: {diameter: 100, height: 40}, turn: [x 20, y 30], at: [100, 200, 300]}")
	assert.Empty(t, none)
	assert.InDelta(t, fit.Moments().Volume, long.Moments().Volume, 1e-12)
	for i, want := range fit.Moments().Second {
		assert.InDelta(t, want, long.Moments().Second[i], 1e-12)
	}
}

// Shapes that no closed form here tells are sampled, and come within what is
// said of them. The volumes are standard geometry, from memory: an eighth of a
// ball; the solid common to two crossing cylinders, 16·r³/3 (Steinmetz); the
// rest of a ball with a bore, 4π/3·(R² − r²)^(3/2).
func TestSampledCutsAgainstClosedForms(t *testing.T) {
	for _, tt := range []struct {
		name, part, cuts, basis string
		volume                  float64 // m³
		codes                   int
	}{
		{"ball in a corner", "box: 1000 x 1000 x 1000\n  corner: [0, 0, 0]", "{sphere: {diameter: 400}, center: [1000, 1000, 1000]}", "1 sampled (±", 0.995811209800, 1},
		{"bores that cross", "box: 300 x 300 x 300\n  center: [0, 0, 0]", "{rod: {diameter: 100}, from: [-150, 0, 0], to: [150, 0, 0]}, {rod: {diameter: 100}, from: [0, -150, 0], to: [0, 150, 0]}",
			"taken off once", 0.022954277687, 0},
		{"bores that cross and stick out", "box: 300 x 300 x 300\n  center: [0, 0, 0]", "{rod: {diameter: 100}, from: [-170, 0, 0], to: [150, 0, 0]}, {rod: {diameter: 100}, from: [0, -150, 0], to: [0, 190, 0]}",
			"taken off once", 0.022954277687, 2},
		{"turned down", "rod: {diameter: 100, height: 300}\n  at: [0, 0, 0]", "{tube: {outside: 120, wall: 20, height: 50}, at: [0, 0, 100]}", "1 sampled (±", 0.002214822821, 1},
		{"ball with a bore", "sphere: {diameter: 500}\n  center: [0, 0, 0]", "{rod: {diameter: 300, height: 600}, center: [0, 0, 0]}", "1 sampled (±", 0.033510321638, 1},
	} {
		p, warnings := cutPart(t, tt.part, tt.cuts)
		got, doubt := p.Moments().Volume, p.cutDoubt()
		assert.InDelta(t, tt.volume, got, doubt, "%s: within the doubt that is stated", tt.name)
		assert.InDelta(t, tt.volume, got, 1e-3*tt.volume, tt.name)
		assert.InDelta(t, doubt/got, p.High, 1e-12, "%s: the doubt widens the tolerance", tt.name)
		assert.InDelta(t, -doubt/got, p.Low, 1e-12, tt.name)
		assert.Contains(t, p.Basis, tt.basis, tt.name)
		assert.Len(t, warnings, tt.codes, tt.name)
	}
	p, _ := cutPart(t, "sphere: {diameter: 500}\n  center: [0, 0, 0]", "{rod: {diameter: 300, height: 600}, center: [0, 0, 0]}")
	near3(t, geom.Vec{}, p.CG(), 1e-5, "CG in the middle")
}

func TestCutsThatShareTheirMetal(t *testing.T) {
	const plate = "box: 400 x 400 x 20\n  at: [0, 0, 0]"
	p, warnings := cutPart(t, plate, "{box: 100 x 100 x 20, corner: [0, 0, 0]}, {box: 100 x 100 x 20, corner: [50, 50, 0]}")
	assert.Empty(t, warnings)
	assert.InDelta(t, 0.0032-0.00035, p.Moments().Volume, p.cutDoubt(), "three and a half squares of 50")
	assert.Less(t, p.cutDoubt(), 1e-6)

	p, warnings = cutPart(t, plate, "{rod: {diameter: 100, height: 20}, at: [0, 0, 0]}, {rod: {diameter: 100, height: 20}, at: [0, 0, 0]}")
	require.Len(t, warnings, 1)
	assert.Equal(t, "cut-takes-nothing", warnings[0].Code)
	assert.InDelta(t, 0.003042920367, p.Moments().Volume, p.cutDoubt()+1e-12, "0.0032 − π·0.05²·0.02")
}

// A finely meshed ball is bored: rays, not points, so it takes no time to
// speak of. What is left of it: 4π/3·(R² − r²)^(3/2), as above.
func TestCutInAFineMesh(t *testing.T) {
	ball, err := geom.NewSphere(500, 0)
	require.NoError(t, err)
	files := fstest.MapFS{"ball.stl": file(textSTL(ball.Mesh(0.05)))}
	l, err := readText(head+"- {name: a, mesh: ball.stl, units: mm, at: [0, 0, 0], cuts: [{rod: {diameter: 300, height: 600}, center: [0, 0, 250]}]}\n", files)
	require.NoError(t, err)
	assert.InDelta(t, 0.033510321638, l.Parts[0].Moments().Volume, 3e-4*0.0335+l.Parts[0].cutDoubt(), "m³, less what the mesh leaves out")
}

// textSTL writes a mesh as a text STL.
func textSTL(m geom.Mesh) string {
	var text strings.Builder
	text.WriteString("solid a\n")
	for i := range m.Faces {
		a, b, c := m.Triangle(i)
		text.WriteString("facet normal 0 0 0\nouter loop\n")
		for _, v := range []geom.Vec{a, b, c} {
			fmt.Fprintf(&text, "vertex %v %v %v\n", v[0], v[1], v[2])
		}
		text.WriteString("endloop\nendfacet\n")
	}
	text.WriteString("endsolid a\n")
	return text.String()
}

// Of boxes and bores, for which closed forms tell, samples err by no more than
// they say.
func TestSampledDoubtIsHonest(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		side := func(name string) float64 { return rapid.Float64Range(0.1, 1).Draw(t, name) }
		at := func(name string) float64 { return rapid.Float64Range(-0.5, 0.5).Draw(t, name) }
		block, err := geom.NewBox(side("x"), side("y"), side("z"))
		require.NoError(t, err)
		pose := geom.Still().Shifted(geom.Vec{at("dx"), at("dy"), at("dz")})
		host := placed(block, geom.Still())
		var cut *solidAt
		var exact geom.Moments
		ok := true
		if rapid.Bool().Draw(t, "round") {
			bore, err := geom.NewCylinder(side("diameter"), side("height"))
			require.NoError(t, err)
			cut = placed(bore, pose)
			exact, ok = clipEnds(cut, host)
		} else {
			other, err := geom.NewBox(side("a"), side("b"), side("c"))
			require.NoError(t, err)
			for i := range 3 {
				pose.Turn = geom.TurnAbout(i, rapid.Float64Range(0, math.Pi).Draw(t, "turn")).Mul3(pose.Turn)
			}
			cut = placed(other, pose)
			exact, ok = clipFlat(cut, host)
		}
		if !ok {
			return // a bore across an edge: no closed form here
		}
		m, _, doubt := sampled(cut, host, nil, nil, true)
		assert.LessOrEqual(t, math.Abs(m.Volume-exact.Volume), doubt)
		// Of use, too: under 1 % as a rule, some more where a face of the cut is
		// flush with one of the host and few rays are sent.
		assert.LessOrEqual(t, doubt, 0.05*cut.volume())
	})
}
