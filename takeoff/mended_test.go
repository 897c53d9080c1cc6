package takeoff

import (
	"fmt"
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"plumbhook/geom"
)

// A flange of 500 with eight holes of 26 on a circle of 400, one cut repeated
// around; and a row of five holes in a bar, one cut repeated by step. By hand.
func TestCutsInPatterns(t *testing.T) {
	flange := weighed(t, head+`- cylinder: {diameter: 500, height: 40}
  at: [1000, 0, 0]
  cuts:
  - {cylinder: {diameter: 26, height: 40}, at: [1200, 0, 0], around: {axis: z, through: [1000, 0, 0], count: 8}}
`)
	assert.InEpsilon(t, math.Pi/4*(0.5*0.5-8*0.026*0.026)*0.04, flange.Volume, 1e-12)
	near3(t, geom.Vec{1, 0, 0.02}, flange.CG, 1e-12, "CG")
	bar := weighed(t, head+`- plate: 1000 x 100 x 20
  corner: [0, 0, 0]
  cuts:
  - {cylinder: {diameter: 30, height: 20}, at: [100, 50, 0], count: 5, step: [100, 0, 0]}
`)
	assert.InEpsilon(t, 0.1*0.02-5*math.Pi/4*0.03*0.03*0.02, bar.Volume, 1e-12)
	// Moments about x = 0: plate 0.5, holes in the middle of 0.1 to 0.5.
	hole := 5 * math.Pi / 4 * 0.03 * 0.03 * 0.02
	assert.InEpsilon(t, (0.002*0.5-hole*0.3)/(0.002-hole), bar.CG[0], 1e-12)

	_, err := readText(head+`- plate: 1000 x 100 x 20
  corner: [0, 0, 0]
  cuts:
  - {cylinder: {diameter: 30, height: 20}, at: [900, 50, 0], count: 3, step: [200, 0, 0]}
`, nil)
	assert.ErrorContains(t, err, "load.yaml:8:5: the cut misses its part")
}

// A bolt hole through both walls of a hollow section, drawn flush, crosses the
// hollow and is no slip.
func TestCutAcrossAHollowIsNoSlip(t *testing.T) {
	l, err := readText(head+"- {section: SHS 100x100x5, from: [0, 0, 0], to: [1000, 0, 0], cuts: [{cylinder: {diameter: 20, height: 100}, at: [500, 0, -50]}]}\n", nil)
	require.NoError(t, err)
	assert.Empty(t, frowns(l))
	l, err = readText(head+"- {section: SHS 100x100x5, from: [0, 0, 0], to: [1000, 0, 0], cuts: [{cylinder: {diameter: 20, height: 120}, at: [500, 0, -60]}]}\n", nil)
	require.NoError(t, err)
	assert.Equal(t, []string{"cut-sticks-out"}, frowns(l))
}

// The tangent lines of a vessel stand at its ends: 2:1 heads of 2000 inside.
func TestVesselBetweenItsTangentLines(t *testing.T) {
	const vessel = "- {vessel: {inside: 2000, wall: 12, heads: ellipsoidal 2:1}, from: [1000, 0, 500], to: [6000, 0, 500]}\n"
	w := weighed(t, head+vessel)
	near3(t, geom.Vec{3.5, 0, 0.5}, w.CG, 1e-9, "midway between the tangent lines")
	assert.InDelta(t, 1-0.5-0.012, w.Extent.Min[0], 1e-9, "a head is a quarter of its diameter deep, and its wall")
	same := weighed(t, head+"- {vessel: {inside: 2000, wall: 12, length: 5000, heads: ellipsoidal 2:1}, along: x, center: [3500, 0, 500]}\n")
	assert.InEpsilon(t, float64(same.Best), float64(w.Best), 1e-12)
}

// A bend of a pipe by its designation is the bend of its diameter and wall:
// NPS 6 sch 40 is 168.3 x 7.11 (ASME B36.10M).
func TestBendOfAPipe(t *testing.T) {
	const at = "from: [0, 0, 0], heading: x, toward: z}\n"
	a := weighed(t, head+"- {bend: {pipe: NPS 6 sch 40, radius: 229, angle: 90}, "+at)
	b := weighed(t, head+"- {bend: {outside: 168.3, wall: 7.11, radius: 229, angle: 90}, "+at)
	assert.InEpsilon(t, float64(b.Best), float64(a.Best), 1e-3)
	for _, bad := range []string{"pipe: NPS 6 sch 40, outside: 100, ", ""} {
		_, err := readText(head+"- {bend: {"+bad+"radius: 229, angle: 90}, "+at, nil)
		assert.ErrorContains(t, err, "a bend with")
	}
}

// A weld that is placed by a point has its centre of gravity there, whatever
// its length: 60 m of a 6 mm fillet, 6²/2·1.5 mm² of 7850 kg/m³, 12.717 kg.
func TestWeldAtAPoint(t *testing.T) {
	l, err := readText(head+"- {box: 1000 x 1000 x 100, corner: [0, 0, 0]}\n- {name: w, weld: {leg: 6, length: 60 m}, at: [500, 500, 100]}\n", nil)
	require.NoError(t, err)
	w, err := l.Weigh()
	require.NoError(t, err)
	assert.InDelta(t, 12.717, float64(w.Parts[1].Best), 1e-9)
	near3(t, geom.Vec{0.5, 0.5, 0.1}, w.Parts[1].CG, 1e-12, "CG")
	_, err = readText(head+"- {weld: {leg: 6, length: 60 m}, corner: [500, 500, 100]}\n", nil)
	assert.ErrorContains(t, err, "a weld has no corner")
}

// What an expert would look at twice.
func TestFrowns(t *testing.T) {
	for _, tt := range []struct{ code, part string }{
		{"plate-on-edge", "{plate: 20 x 500 x 1000, corner: [0, 0, 0]}"},
		{"", "{plate: 500 x 1000 x 20, corner: [0, 0, 0]}"},
		{"", "{box: 20 x 500 x 1000, corner: [0, 0, 0]}"},
		{"wedge-point", "{wedge: {base: 300, depth: 100, height: 200, top: 0}, corner: [0, 0, 0]}"},
		{"", "{wedge: {base: 300, depth: 100, height: 200, top: 300}, corner: [0, 0, 0]}"},
		{"section-long", "{section: HEA 200, length: 31 m, along: x, up: z, corner: [0, 0, 0]}"},
		{"section-turned", "{section: UPN 200, length: 3000, corner: [0, 0, 0]}"},
		{"", "{section: UPN 200, length: 3000, turn: [z 90], corner: [0, 0, 0]}"},
		{"", "{section: HEA 200, length: 3000, corner: [0, 0, 0]}"},
		{"part-large", "{box: 101 m x 1 m x 1 m, corner: [0, 0, 0]}"},
		{"material-light", "{box: 1000 x 1000 x 1000, corner: [0, 0, 0], material: {name: odd, density: 7.85 kg/m3, tolerance: 1 %}}"},
	} {
		l, err := readText(head+"- "+tt.part+"\n", nil)
		require.NoError(t, err, tt.part)
		if tt.code == "" {
			assert.Empty(t, frowns(l), tt.part)
			continue
		}
		assert.Equal(t, []string{tt.code}, frowns(l), tt.part)
	}
}

// The density of reinforced concrete has its bars in it.
func TestBarsInReinforcedConcrete(t *testing.T) {
	const slab = "- {box: 6000 x 1000 x 200, corner: [0, 0, 0], material: %s}\n- {bar: {per length: 3.85 kg/m, length: 5900}, along: x, at: [50, 500, 100]}\n"
	for material, want := range map[string][]string{"reinforced concrete": {"bars-twice"}, "plain concrete": nil} {
		l, err := readText(head+fmt.Sprintf(slab, material), nil)
		require.NoError(t, err)
		assert.Equal(t, want, frowns(l), material)
	}
}

// Small overlaps are judged together, and a part wholly inside another always.
func TestOverlapsAreSummed(t *testing.T) {
	posts := ""
	for i := range 100 {
		posts += fmt.Sprintf("- {name: post %d, box: 100 x 100 x 520, corner: [%d, 0, 0]}\n", i, 200*i)
	}
	l, err := readText(head+"- {name: deck, box: 20000 x 3000 x 20, corner: [0, 0, 500]}\n"+posts, nil)
	require.NoError(t, err)
	require.Equal(t, []string{"overlap"}, frowns(l))
	assert.Contains(t, l.Warnings[len(l.Warnings)-1].Text, "100 overlaps that are small each come to 157")
	l, err = readText(head+"- {name: block, box: 5000 x 5000 x 1000, corner: [0, 0, 0]}\n- {name: lost, box: 500 x 500 x 500, corner: [1000, 1000, 100]}\n", nil)
	require.NoError(t, err)
	assert.Equal(t, []string{"overlap"}, frowns(l))
	assert.Contains(t, l.Overlaps[0].Text(), "wholly within the other")
}

// Parts that touch nothing.
func TestLoose(t *testing.T) {
	l, err := readText(head+"- {name: a, box: 1000 x 500 x 20, corner: [0, 0, 0]}\n- {name: b, box: 100 x 100 x 20, corner: [0, 0, 900]}\n- {name: c, box: 100 x 100 x 20, corner: [0, 0, 20], count: 2, step: [5000, 0, 0]}\n", nil)
	require.NoError(t, err)
	loose := l.Loose()
	require.Len(t, loose, 2)
	assert.Equal(t, Loose{"b", 1, loose[0].Gap, "c"}, loose[0])
	assert.InDelta(t, 0.86, loose[0].Gap, 1e-9)
	assert.Equal(t, Loose{"c", 1, loose[1].Gap, "a"}, loose[1])
	assert.InDelta(t, math.Hypot(4, 0), loose[1].Gap, 1e-9)
}

// Each kind of part is told of in the reference page.
func TestEveryKindIsDescribed(t *testing.T) {
	names := partKinds()
	for _, name := range names {
		assert.NotEmpty(t, abouts[name], name)
	}
	assert.Len(t, abouts, len(names))
}
