package lift_test

import (
	"fmt"
	"math"
	"strings"
	"testing"
	"testing/fstest"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"plumbhook/geom"
	"plumbhook/lift"
	"plumbhook/takeoff"
)

// hangs makes a load of its parts and rigging, in mm, and hangs it.
func hangs(t require.TestingT, parts, rigging string) lift.Hung {
	return hangsWith(t, nil, parts, rigging)
}

func hangsWith(t require.TestingT, files fstest.MapFS, parts, rigging string) lift.Hung {
	fs := fstest.MapFS{"load.yaml": {Data: []byte("load: test\nunits: mm\nmaterial: structural steel\nparts:\n" + parts + "\n" + rigging)}}
	for name, file := range files {
		fs[name] = file
	}
	l, err := takeoff.Read(fs, "load.yaml", takeoff.Options{})
	require.NoError(t, err)
	h, err := lift.Legs(l, lift.Options{})
	require.NoError(t, err)
	require.True(t, h.Solved, "%v", h.Verdict.Reasons)
	return h
}

// stlOf writes a mesh in m as a text STL in mm.
func stlOf(m geom.Mesh) *fstest.MapFile {
	var b strings.Builder
	b.WriteString("solid test\n")
	for i := range m.Faces {
		b.WriteString("facet normal 0 0 0\nouter loop\n")
		p, q, r := m.Triangle(i)
		for _, v := range []geom.Vec{p, q, r} {
			fmt.Fprintf(&b, "vertex %.9g %.9g %.9g\n", v[0]*1000, v[1]*1000, v[2]*1000)
		}
		b.WriteString("endloop\nendfacet\n")
	}
	b.WriteString("endsolid test\n")
	return &fstest.MapFile{Data: []byte(b.String())}
}

// Two lugs 0.2 m out from the sides of a body 2 m high, 0.5 m below its top, the
// legs 30 mm thick. By hand: from a lug the edge is √0.29 m away at atan 2.5 from
// level, so a line at θ passes it by √0.29·sin(θ − atan 2.5), which is to be the
// leg's half thickness and the gap; the hook is then 1.2·tan θ above the lugs. A
// gap that is stated as g comes out as g, for a round body less its facets' 0.2 mm.
func TestLegsPastAnEdgeByAMillimetre(t *testing.T) {
	box, err := geom.NewBox(2, 2, 2)
	require.NoError(t, err)
	mesh := fstest.MapFS{"body.stl": stlOf(box.Mesh(0))}
	for _, body := range []struct {
		name, part string
		facets     float64 // m
	}{
		{"box", "- {name: body, box: 2000 x 2000 x 2000, corner: [-1000, -1000, 0]}", 1e-9},
		{"cylinder", "- {name: body, cylinder: {diameter: 2000, height: 2000}, at: [0, 0, 0]}", 0.00021},
		{"mesh", "- {name: body, mesh: body.stl, units: mm, at: [0, 0, 0]}", 1e-9},
		{"box turned into place", "- {name: body, box: 2000 x 2000 x 2000, turn: [x 90, z 90], corner: [-1000, -1000, 0]}", 1e-9},
	} {
		for _, gap := range []float64{0.001, 0, -0.001} {
			t.Run(fmt.Sprintf("%s %+g mm", body.name, gap*1000), func(t *testing.T) {
				height := 1.2 * math.Tan(math.Atan(2.5)+math.Asin((0.015+gap)/math.Sqrt(0.29)))
				h := hangsWith(t, mesh, body.part, fmt.Sprintf(`picks:
  - {name: left, at: [-1200, 0, 1500]}
  - {name: right, at: [1200, 0, 1500]}
hook: {above: picks, height: %.9f}
legs: {lengths: level, thickness: 30}
`, height*1000))
				found := h.NearMisses
				if gap <= 0 {
					found = h.Clashes
				}
				require.Len(t, found, 2, "%+v", h.Clearing)
				assert.Equal(t, gap > 0, len(h.Clashes) == 0)
				assert.Equal(t, gap > 0, h.Verdict.Acceptable, h.Verdict.Reasons)
				for i, c := range found {
					assert.Equal(t, []string{"left", "right"}[i], c.Pick)
					assert.Equal(t, "body", c.With)
					assert.LessOrEqual(t, c.GapM, gap+1e-8)
					assert.GreaterOrEqual(t, c.GapM, gap-body.facets)
					assert.InDelta(t, 2*float64(i)-1, c.AtM[0], 1e-6, "at the edge")
					assert.InDelta(t, 2, c.AtM[2], 1e-6)
					assert.InDelta(t, math.Sqrt(0.29-0.016*0.016), c.AlongM, 0.001)
				}
				if gap > 0 {
					return
				}
				// By the same triangle, without a gap.
				least := 1.2 * math.Tan(math.Atan(2.5)+math.Asin(0.015/math.Sqrt(0.29)))
				require.NotNil(t, h.LeastHookM)
				assert.InDelta(t, least, *h.LeastHookM, 0.006)
				assert.Greater(t, *h.LeastHookM, least)
				require.Len(t, h.LeastBars, 1)
				assert.InDelta(t, 2.4015, h.LeastBars[0].LengthM, 6e-4, "the lugs are outside: drops of their spacing clear")
				assert.Contains(t, h.Verdict.Reasons[len(h.Verdict.Reasons)-1], "would clear the load")
			})
		}
	}
}

// Without a thickness the line alone must clear, and what passes within 25 mm is
// told.
func TestLegsOfNoStatedThickness(t *testing.T) {
	height := 1.2 * math.Tan(math.Atan(2.5)+math.Asin(0.010/math.Sqrt(0.29)))
	h := hangs(t, "- {name: body, box: 2000 x 2000 x 2000, corner: [-1000, -1000, 0]}", fmt.Sprintf(`picks:
  - {name: left, at: [-1200, 0, 1500]}
  - {name: right, at: [1200, 0, 1500]}
hook: {above: picks, height: %.9f}
legs: {lengths: level}
`, height*1000))
	assert.True(t, h.Verdict.Acceptable)
	assert.Contains(t, codes(h.Warnings), "clash-near")
	require.Len(t, h.NearMisses, 2)
	assert.InDelta(t, 0.010, h.NearMisses[0].GapM, 1e-8)
	assert.Contains(t, strings.Join(h.Assumptions, "\n"), "of no thickness")
}

func codes(all []lift.Warning) []string {
	var out []string
	for _, w := range all {
		out = append(out, w.Code)
	}
	return out
}

// How a leg leaves the part that it takes hold of is no clash; what goes through
// the part is. All on a beam 6 m long, 0.3 m square, its top at z 300.
func TestLegsWhereTheyTakeHold(t *testing.T) {
	const beam = "- {name: beam, box: 6000 x 300 x 300, corner: [0, -150, 0]}\n"
	lug := func(more string) string {
		return beam + "- {name: lug, plate: 240 x 30 x 200, corner: [880, -15, 300]" + more + "}\n"
	}
	bored, err := geom.NewTube(0.2, 0.07, 0.04) // 200 outside, bore 60
	require.NoError(t, err)
	ring := stlOf(bored.Mesh(1e-4))
	for _, tt := range []struct {
		name    string
		parts   string
		pick    string // left; the right one stands on the top at x 5000
		clashes bool
	}{
		{"on the top", beam, "[1000, 0, 300]", false},
		{"drawn 15 mm under the top", beam, "[1000, 0, 285]", false},
		{"drawn in the middle of the beam", beam, "[1000, 0, 150]", true},
		{"on the underside", beam, "[1000, 0, 0]", true},
		{"over the top, lug not drawn", beam, "[1000, 0, 380]", false},
		{"at the end face, 80 mm below the top, pulling inward", beam, "[0, 0, 220]", true},
		{"in the hole of a lug", lug(", cuts: [{cylinder: {diameter: 50, height: 30}, along: y, at: [1000, -15, 420]}]"), "[1000, 0, 420]", false},
		{"in a lug without its hole", lug(""), "[1000, 0, 420]", false},
		{"in the hole of a wide plate, far below its edge",
			beam + "- {name: plate, plate: 3000 x 30 x 1500, corner: [500, -15, 300], cuts: [{cylinder: {diameter: 50, height: 30}, along: y, at: [1000, -15, 420]}]}\n", "[1000, 0, 420]", true},
		{"in the bore of a ring", beam + "- {name: ring, tube: {outside: 200, wall: 70, height: 40}, along: y, at: [1000, -20, 400]}\n", "[1000, 0, 400]", false},
		{"in the bore of a ring that is a mesh", beam + "- {name: ring, mesh: ring.stl, units: mm, along: y, at: [1000, -20, 400]}\n", "[1000, 0, 400]", false},
		{"a thin shelf just over the pick", beam + "- {name: shelf, plate: 400 x 400 x 5, corner: [900, -200, 350]}\n", "[1000, 0, 300]", true},
		{"a thin shelf just over the pick, its hole elsewhere",
			beam + "- {name: shelf, plate: 400 x 400 x 5, corner: [900, -200, 350], cuts: [{cylinder: {diameter: 50, height: 5}, at: [1200, 100, 350]}]}\n", "[1000, 0, 300]", true},
		{"a thin shelf just over the pick, its hole there",
			beam + "- {name: shelf, plate: 400 x 400 x 5, corner: [900, -200, 350], cuts: [{cylinder: {diameter: 100, height: 5}, at: [1025, 0, 350]}]}\n", "[1000, 0, 300]", false},
		{"on the floor of a wide pocket",
			"- {name: beam, box: 6000 x 600 x 600, corner: [0, -300, -300], cuts: [{box: 600 x 200 x 200, corner: [800, -100, 100]}]}\n", "[1000, 0, 100]", false},
		{"on the floor of a narrow pocket, against its wall",
			"- {name: beam, box: 6000 x 600 x 600, corner: [0, -300, -300], cuts: [{box: 100 x 200 x 200, corner: [930, -100, 100]}]}\n", "[1000, 0, 100]", true},
		{"a contents is no body", "- {name: beam, box: 6000 x 300 x 300, corner: [0, -150, 0]}\n- {name: tray, tube: {outside: 800, wall: 10, height: 400}, at: [1000, 0, 300], contents: {fluid: water, depth: 200, baffled: true, inside: {cylinder: {diameter: 780, height: 400}, at: [1000, 0, 300]}}}\n", "[1000, 0, 310]", false},
	} {
		t.Run(tt.name, func(t *testing.T) {
			h := hangsWith(t, fstest.MapFS{"ring.stl": ring}, tt.parts, fmt.Sprintf(`picks:
  - {name: left, at: %s}
  - {name: right, at: [5000, 0, 300]}
legs: {lengths: 4500, thickness: 40}
`, tt.pick))
			assert.Equal(t, tt.clashes, len(h.Clashes) > 0, "%+v", h.Clearing)
			assert.Equal(t, tt.clashes, strings.Contains(strings.Join(h.Verdict.Reasons, "\n"), "leg left runs into"))
			for _, c := range h.Clashes {
				assert.Equal(t, "left", c.Pick)
			}
		})
	}
}

// A trunnion is taken hold of at its axis, 150 mm under its surface: with the reach
// of the fittings stated that is no clash. A basket lies round what it holds.
func TestTrunnionAndBasket(t *testing.T) {
	const parts = "- {name: vessel, cylinder: {diameter: 2000, height: 6000}, along: x, center: [3000, 0, 0]}\n- {name: trunnions, cylinder: {diameter: 300, height: 2600}, along: y, center: [3000, 0, 600]}"
	const picks = "picks: [{name: A, at: [3000, 1150, 600]}, {name: B, at: [3000, -1150, 600]}]\nhook: {above: picks, height: 9000}\nlegs: {lengths: level%s}\n%s"
	h := hangs(t, parts, fmt.Sprintf(picks, "", ""))
	assert.Len(t, h.Clashes, 2, "nothing says that it is a trunnion")
	assert.Contains(t, strings.Join(h.Verdict.Reasons, "\n"), "how far the `fittings` reach")
	h = hangs(t, parts, fmt.Sprintf(picks, ", fittings: 200", ""))
	assert.Empty(t, h.Clashes)
	h = hangs(t, parts, fmt.Sprintf(picks, ", fittings: 100", ""))
	assert.Len(t, h.Clashes, 2, "shorter than the trunnion is thick")
	h = hangs(t, parts, fmt.Sprintf(picks, "", "hitch: basket\n"))
	assert.Empty(t, h.Clashes)
	assert.Contains(t, strings.Join(h.Assumptions, "\n"), "basket sling lies round")
}

// A leg through a hole that is cut in a cover over the pick: by hand, the leg from
// (300, 500) at 2000 up on 700 along stands 175 mm in from the pick at the cover's
// underside 500 mm above it, 178.5 at the top of 10 mm. Square to the hole's rim
// its 30 mm thickness takes 15/cos 19.29° = 15.9 mm each way. The hole round
// x 475 needs at least that and the slope's 3.5 mm.
func TestLegThroughAHole(t *testing.T) {
	for _, tt := range []struct {
		diameter float64
		clashes  bool
	}{{400, false}, {42, false}, {34, true}, {20, true}} {
		t.Run(fmt.Sprint(tt.diameter), func(t *testing.T) {
			h := hangs(t, fmt.Sprintf(`
- {name: block, box: 2000 x 1000 x 500, corner: [0, 0, 0]}
- name: cover
  plate: 2000 x 1000 x 10
  corner: [0, 0, 1000]
  cuts:
    - {cylinder: {diameter: %[1]g, height: 10}, at: [476.8, 500, 1000]}
    - {cylinder: {diameter: %[1]g, height: 10}, at: [1523.2, 500, 1000]}
`, tt.diameter), `picks:
  - {name: left, at: [300, 500, 500]}
  - {name: right, at: [1700, 500, 500]}
hook: {above: picks, height: 2000}
legs: {lengths: level, thickness: 30}
`)
			assert.Equal(t, tt.clashes, len(h.Clashes) > 0, "%+v", h.Clearing)
			assert.Equal(t, !tt.clashes, len(h.ThroughCuts) == 2)
			assert.Equal(t, !tt.clashes, strings.Contains(strings.Join(codes(h.Warnings), " "), "clash-hole"))
			assert.Equal(t, !tt.clashes, h.Verdict.Acceptable, h.Verdict.Reasons)
		})
	}
}

// The least height of the hook that is told, fed back, is clear; 5 mm lower a leg
// touches.
func TestLeastHookFedBack(t *testing.T) {
	body := "- {name: body, box: 2000 x 1400 x 1600, corner: [-1000, -700, 0]}\n- {name: drum, cylinder: {diameter: 900, height: 500}, at: [100, 0, 1600]}"
	told := 0
	for _, lugs := range [][2]int{{60, 150}, {150, 600}, {400, 150}, {250, 300}} {
		for _, height := range []float64{1000, 1900} {
			rigging := func(height float64) string {
				return fmt.Sprintf(`picks:
  - {name: A, at: [%[1]d, -500, %[2]d]}
  - {name: B, at: [-%[1]d, -500, %[2]d]}
  - {name: C, at: [-%[1]d, 500, %[2]d]}
  - {name: D, at: [%[1]d, 500, %[2]d]}
hook: {above: picks, height: %.6[3]f}
legs: {lengths: level, thickness: 40}
`, 1000+lugs[0], 1600-lugs[1], height)
			}
			h := hangs(t, body, rigging(height))
			if h.LeastHookM == nil {
				assert.Empty(t, h.Clashes)
				continue
			}
			told++
			assert.NotEmpty(t, h.Clashes)
			assert.Empty(t, hangs(t, body, rigging(*h.LeastHookM*1000)).Clashes, "hook %g m above the picks", *h.LeastHookM)
			assert.NotEmpty(t, hangs(t, body, rigging(*h.LeastHookM*1000-5)).Clashes, "5 mm below %g m", *h.LeastHookM)
		}
	}
	assert.GreaterOrEqual(t, told, 5)
}

// A bought-in part is its box, and the verdict says so.
func TestClashWithABoughtInPart(t *testing.T) {
	h := hangs(t, "- {name: bed, box: 2000 x 1000 x 200, corner: [0, 0, 0]}\n- {name: motor, weight: 100 kg, box: 400 x 400 x 900, center: [600, 500, 650]}", `picks:
  - {name: left, at: [100, 500, 200]}
  - {name: right, at: [1900, 500, 200]}
hook: {above: picks, height: 1000}
legs: {lengths: level}
`)
	require.Len(t, h.Clashes, 1)
	assert.False(t, h.Verdict.Acceptable)
	assert.Contains(t, strings.Join(h.Verdict.Reasons, "\n"), "leg left runs into the box of motor")
}

// Lugs 1.6 m apart on a body 2 m wide that stands up beside them: plumb drops clear it
// only outside it, 2 m apart, where no lug is. The advice says so.
func TestBarLongerThanThePicksAreApartIsToldAsMoved(t *testing.T) {
	h := legsOf(t, `
load: box
units: m
parts: [{name: body, weight: 4000 kg, box: 4 x 2 x 1, center: [2, 1, 0.5], tolerance: 0 %, status: weighed}]
picks: [{name: A, at: [2, 0.2, 0.1]}, {name: B, at: [2, 1.8, 0.1]}]
hook: {above: picks, height: 3}
legs: {lengths: level}
`)
	assert.Contains(t, strings.Join(h.Verdict.Reasons, "\n"), "long over A and B, which are to be moved out as far (now they are 1.600 m")
}
