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

// contentsIn returns the contents among the parts of a load.
func contentsIn(l *Load) []Part {
	var out []Part
	for _, p := range l.Parts {
		if p.Liquid != nil {
			out = append(out, p)
		}
	}
	return out
}

// theContents reads a load that must be right and have contents of one part.
func theContents(t *testing.T, text string) Part {
	t.Helper()
	all := contentsIn(good(t, text))
	require.Len(t, all, 1)
	return all[0]
}

// lying is a vessel of 2 m inside and 6 m from tangent line to tangent line, on
// its side, its axis 1.5 m up.
func lyingVessel(heads, contents string) string {
	return head + "- {name: tank, vessel: {inside: 2000, wall: 12, length: 6000, heads: " + heads + "}, along: x, center: [4000, 0, 1500], contents: {fluid: water, " + contents + "}}\n"
}

// A lying vessel, 2 m inside and 6 m long between tangent lines, filled to a
// depth: volumes, and how far the liquid's centroid is below the axis. The round
// shell is a circular segment, the 2:1 heads V_full·(h/D)²·(3 − 2h/D) (both as in
// tables of mensuration), the dished heads an integral of segment areas along their
// axis; all worked outside the program.
func TestPartlyFilledVesselByTheLoadFile(t *testing.T) {
	type level struct{ depth, volume, below float64 }
	shell := []level{{500, 3.685109, 0.705020}, {1000, 9.424778, 0.424413}, {1500, 15.164447, 0.171327}}
	tests := []struct {
		heads  string
		levels []level // both heads together
	}{
		{"ellipsoidal 2:1", []level{{500, 0.327249, 0.675}, {1000, 1.047198, 0.375}, {1500, 1.767146, 0.125}}},
		{"torispherical, crown: 2000, knuckle: 120", []level{{500, 2 * 0.097148, 0.67410}, {1000, 2 * 0.323996, 0.36790}, {1500, 2 * 0.550844, 0.11889}}},
		{"torispherical, crown: 2000, knuckle: 200", []level{{500, 2 * 0.123950, 0.67808}, {1000, 2 * 0.395864, 0.37575}, {1500, 2 * 0.667778, 0.12586}}},
		{"torispherical, crown: 1600, knuckle: 308", []level{{500, 2 * 0.163787, 0.67728}, {1000, 2 * 0.523087, 0.37561}, {1500, 2 * 0.882387, 0.12571}}},
	}
	for _, tt := range tests {
		for i, h := range tt.levels {
			p := theContents(t, lyingVessel(tt.heads, fmt.Sprintf("depth: %g", h.depth)))
			volume := shell[i].volume + h.volume
			below := (shell[i].volume*shell[i].below + h.volume*h.below) / volume
			what := fmt.Sprintf("heads %s, %g mm deep", tt.heads, h.depth)
			best, _, _ := p.Mass()
			// The mesh of the inside leaves out less than 2 in 10 000.
			assert.InEpsilon(t, 1000*volume, float64(best), 2e-4, what)
			near3(t, geom.Vec{4, 0, 1.5 - below}, p.CG(), 2e-4, what)
			assert.Equal(t, "tank contents", p.Name)
			assert.Equal(t, "tank", p.Host)
		}
	}
}

// Half of what a lying 2:1 vessel holds is half its depth: one amount said in four
// ways. It holds π·6 m³ in the shell and π·2³/12 in both heads.
func TestFourWaysToSayHowMuch(t *testing.T) {
	half := (6*math.Pi + 8*math.Pi/12) / 2
	for _, amount := range []string{
		"depth: 1000", "fill: 50 %", fmt.Sprintf("volume: %.6f m3", half), fmt.Sprintf("mass: %.3f kg", 1000*half), fmt.Sprintf("volume: %.3f l", 1000*half),
	} {
		p := theContents(t, lyingVessel("ellipsoidal 2:1", amount))
		assert.InEpsilon(t, 1000*half, float64(p.Given), 2e-4, amount)
		// Segment and heads as above: −(9.424778·0.424413 + 1.047198·0.375)/10.471976.
		near3(t, geom.Vec{4, 0, 1.5 - 0.419472}, p.CG(), 3e-4, amount)
	}
}

// The range by hand: amount and density are off together.
func TestRangeOfContents(t *testing.T) {
	const tank = "- {name: tank, tube: {outside: 1000, wall: 10, height: 1000}, at: [0, 0, 0], contents: {fluid: {name: brine, density: 1200 kg/m3, tolerance: 2 %}, "
	tests := []struct {
		name, amount string
		low, high    float64
		basis        string
	}{
		{"taken, common practice", "fill: 60 %}}", 0.95*0.98 - 1, 1.05*1.02 - 1, "common practice"},
		{"as written", "depth: 500, tolerance: -1 % / +3 %}}", 0.99*0.98 - 1, 1.03*1.02 - 1, "as written"},
		{"no more than full", "fill: 98 %}}", 0.95*0.98 - 1, 1.02/0.98 - 1, "no more than full"},
		{"full", "fill: 100 %, tolerance: 3 %}}", 0.97*0.98 - 1, 0.02, "100 % of what the inside holds"},
		{"its mass is known", "mass: 300 kg, tolerance: 1 %}}", -0.01, 0.01, "the tube taken as closed"},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			p := theContents(t, head+tank+tt.amount+"\n")
			assert.InDelta(t, tt.low, p.Low, 1e-12)
			assert.InDelta(t, tt.high, p.High, 1e-12)
			assert.Contains(t, p.Basis, tt.basis)
			assert.Equal(t, "brine", p.Material.Name)
		})
	}
}

// A standing round tank of 980 mm inside, 500 mm deep: V = π/4·D²·h, its CG
// half way up, off by 2.5 % of the depth as the amount is by 5 %.
func TestWhereContentsMayBe(t *testing.T) {
	p := theContents(t, head+"- {name: tank, tube: {outside: 1000, wall: 10, height: 1000}, at: [1000, 0, 200], contents: {fluid: water, depth: 500}}\n")
	assert.InEpsilon(t, 1000*math.Pi/4*0.98*0.98*0.5, float64(p.Given), 1e-4)
	near3(t, geom.Vec{1, 0, 0.45}, p.CG(), 1e-6, "CG")
	near3(t, geom.Vec{0, 0, 0.0125}, p.contentsRange(), 1e-6, "half range")
	assert.Zero(t, Part{}.contentsRange())
}

// Copies hold as much as the first, each level in its own attitude. Two half full
// vessels with flat ends, 1 m inside and 2 m long, the second upside down above the
// first: each has its liquid's CG 0.5 m above its own bottom.
func TestEachCopyHasItsOwnContents(t *testing.T) {
	const tank = "- {name: tank, vessel: {inside: 1000, wall: 10, length: 2000, heads: flat}, at: [0, 0, 0], contents: {fluid: water, fill: 50 %}, "
	step := theContents(t, head+tank+"count: 3, step: [2000, 0, 0]}\n")
	best, _, _ := step.Mass()
	assert.Equal(t, 3, step.Count)
	assert.InEpsilon(t, 3*1000*math.Pi/4, float64(best), 1e-4)
	near3(t, geom.Vec{2, 0, 0.51}, step.CG(), 1e-6, "three in a row")
	require.Len(t, step.Liquids(), 3)
	at, _, err := step.Liquids()[2].At(geom.Vec{0, 0, 1})
	require.NoError(t, err)
	near3(t, geom.Vec{4, 0, 0.51}, at, 1e-6, "the third")

	both := contentsIn(good(t, head+tank+"mirror: {across: z, at: 3000}}\n"))
	require.Len(t, both, 2)
	assert.Equal(t, []string{"tank contents", "tank contents, copy 2"}, []string{both[0].Name, both[1].Name})
	near3(t, geom.Vec{0, 0, 0.51}, both[0].CG(), 1e-6, "as drawn")
	near3(t, geom.Vec{0, 0, 6 - 2.01 + 0.5}, both[1].CG(), 1e-6, "upside down")
	assert.InDelta(t, float64(both[0].Given), float64(both[1].Given), 1e-9)
}

// A half full tube that stands in its own file and lies in the load: as much liquid,
// its level anew. Half a circle of radius r has its centroid 4r/3π from the middle.
func TestContentsOfASubAssemblyFindTheirLevel(t *testing.T) {
	const inner = "load: drum\nunits: mm\nmaterial: carbon steel\nparts:\n- {name: shell, tube: {outside: 1020, wall: 10, height: 3000}, at: [0, 0, 0], contents: {fluid: water, fill: 50 %}}\n"
	l, err := readFiles(map[string]string{"drum.yaml": inner,
		"load.yaml": "load: test\nunits: mm\nparts:\n- {name: drum, load: drum.yaml, at: [0, 0, 1000], turn: [y 90]}\nstates:\n  dry: {without: drum / shell contents}\n  off: {only: drum}\n"})
	require.NoError(t, err)
	p := contentsIn(l)
	require.Len(t, p, 1)
	assert.Equal(t, "drum / shell contents", p[0].Name)
	assert.Equal(t, "drum / shell", p[0].Host)
	assert.InEpsilon(t, 1000*math.Pi/4*3/2, float64(p[0].Given), 1e-4)
	near3(t, geom.Vec{1.5, 0, 1 - 4*0.5/(3*math.Pi)}, p[0].CG(), 1e-4, "lying")
	for state, parts := range map[string]int{"dry": 1, "off": 2} {
		s, err := l.In(state)
		require.NoError(t, err)
		assert.Len(t, s.Parts, parts, state)
	}
}

// A pit of 1000 × 800 × 600 in a block of 1200 × 1000 × 800, half full.
func TestInsideOfWhatIsNotHollow(t *testing.T) {
	const block = "- name: block\n  box: 1200 x 1000 x 800\n  corner: [0, 0, 0]\n"
	const pit = "box: 1000 x 800 x 600, corner: [100, 100, 200]"
	const contents = "  contents: {fluid: water, fill: 50 %, inside: {" + pit + "}}\n"
	l := good(t, head+block+"  cuts: [{"+pit+"}]\n"+contents)
	p := contentsIn(l)[0]
	assert.InEpsilon(t, 240.0, float64(p.Given), 1e-9)
	near3(t, geom.Vec{0.6, 0.5, 0.35}, p.CG(), 1e-9, "CG")
	assert.Equal(t, []string{"material-default"}, codes(l.Warnings))
	assert.Contains(t, codes(good(t, head+block+contents).Warnings), "contents-in-metal")

	w := weighed(t, head+block+"  cuts: [{"+pit+"}]\n"+contents)
	steel := 7850 * (1.2*1.0*0.8 - 0.48)
	assert.InEpsilon(t, steel+240, float64(w.Best), 1e-9)
	assert.InDelta(t, (7850*(0.96*0.4-0.48*0.5)+240*0.35)/(steel+240), w.CG[2], 1e-9)
}

func TestVesselWithContentsIsNotEmpty(t *testing.T) {
	assert.NotContains(t, codes(good(t, lyingVessel("flat", "fill: 10 %")).Warnings), "vessel-empty")
	assert.Contains(t, codes(good(t, strings.Replace(lyingVessel("flat", "fill: 10 %"), ", contents: {fluid: water, fill: 10 %}", "", 1)).Warnings), "vessel-empty")
}

var badContents = []struct{ name, file, at, text, fix string }{
	{"word for contents", "contents: water}\n", "6:13", "`contents` must be a group of keys", "`contents` takes: fluid, depth"},
	{"no fluid", "contents: {depth: 500}}\n", "6:13", "`contents` has no `fluid`", "the name of a material"},
	{"unknown fluid", "contents: {fluid: watr, depth: 500}}\n", "6:21", "watr", "water"},
	{"no amount", "contents: {fluid: water}}\n", "6:13", "nothing says how much", "`depth`, `fill`, `volume` and `mass`"},
	{"two amounts", "contents: {fluid: water, depth: 500, fill: 50 %}}\n", "6:13", "several things say how much there is: depth, fill", "one of"},
	{"too deep", "contents: {fluid: water, depth: 1001}}\n", "6:35", "a depth of 1001 in an inside that is 1.000 m", "at most 0.7854 m³"},
	{"over full", "contents: {fluid: water, fill: 101 %}}\n", "6:34", "101 % is more than the inside holds", "785.4 kg"},
	{"over its volume", "contents: {fluid: water, volume: 786 l}}\n", "6:36", "786 l is more than", "0.7854 m³"},
	{"over its mass", "contents: {fluid: water, mass: 790 kg}}\n", "6:34", "790 kg is more than", "785.4 kg"},
	{"nothing in it", "contents: {fluid: water, fill: 0 %}}\n", "6:34", "0 % is nothing", "take `contents` away"},
	{"fill without per cent", "contents: {fluid: water, fill: 0.6}}\n", "6:34", "0.6", "%"},
	{"volume without a unit", "contents: {fluid: water, volume: 2}}\n", "6:36", "a volume without a unit", "2 m3"},
	{"some gallons", "contents: {fluid: water, volume: 20 gal}}\n", "6:36", "a US or an imperial gallon", "`US gal`"},
	{"unit of another thing", "contents: {fluid: water, volume: 20 kg}}\n", "6:36", `"kg" is not a unit of volume`, "500 l"},
	{"negative depth", "contents: {fluid: water, depth: -5}}\n", "6:35", "must be more than zero", "a length"},
	{"two insides", "contents: {fluid: water, fill: 5 %, inside: {box: 1 x 1 x 1, at: [0, 0, 0], count: 2, step: [5, 0, 0]}}}\n", "6:47", "an inside of 2 pieces", "one solid"},
}

func TestBadContentsSayWhereWhatAndHowToMend(t *testing.T) {
	const tube = "- {name: tank, tube: {outside: 1020, wall: 10, height: 1000}, at: [0, 0, 0],\n  "
	for _, tt := range badContents {
		t.Run(tt.name, func(t *testing.T) {
			p := problemsOf(t, head+tube+tt.file)
			require.Len(t, p, 1, "want this problem alone:\n%v", p)
			assert.Equal(t, tt.at, fmt.Sprintf("%d:%d", p[0].Line, p[0].Column), "place of %v", p[0])
			assert.Contains(t, p[0].Text, tt.text)
			assert.Contains(t, p[0].Fix, tt.fix)
		})
	}
	p := problemsOf(t, head+"- {name: a, weight: 3 t, at: [0, 0, 0], status: weighed, contents: {fluid: water, depth: 500}}\n")
	assert.Contains(t, p[0].Text, "a weight is not hollow by itself")
	assert.Contains(t, p[0].Fix, "`inside:`")
	p = problemsOf(t, head+"- {name: a, sphere: {diameter: 500}, at: [0, 0, 0], contents: {fluid: water, depth: 50}}\n")
	assert.Contains(t, p[0].Text, "a sphere is not hollow by itself")
}

// Gallons: 1 US gal = 3.785412 l, 1 imp gal = 4.54609 l; 1 ft³ = 28.316847 l (NIST
// SP 811 (2008), appendix B, from memory).
func TestVolumes(t *testing.T) {
	for text, litres := range map[string]float64{"2 m3": 2000, "500 l": 500, "1 US gal": 3.785412, "10 imp gal": 45.4609, "1 ft3": 28.316847, "1000 in3": 16.387064, "5 dm³": 5} {
		v, err := parseVolume(text)
		require.NoError(t, err, text)
		assert.InEpsilon(t, litres/1000, v, 1e-6, text)
	}
}

// drawTank draws a hollow part in any attitude, without contents.
func drawTank(t *rapid.T) string {
	kind := rapid.SampledFrom([]string{
		"vessel: {inside: 800, wall: 10, length: 1500, heads: ellipsoidal 2:1}",
		"vessel: {inside: 800, wall: 10, length: 500, heads: flat}",
		"tube: {outside: 600, wall: 10, height: 900}",
		"head: {kind: hemispherical, inside: 800, wall: 12, flange: 100}",
	}).Draw(t, "kind")
	turn := rapid.IntRange(-180, 180)
	return fmt.Sprintf("- {name: tank, %s, at: [500, 0, 200], turn: [x %d, y %d], contents: ", kind, turn.Draw(t, "x"), turn.Draw(t, "y"))
}

// A dip-stick table begins with nothing and ends full, everything in it grows with
// the depth, and each of its lines is what a load file with that depth comes to.
func TestDipStickTable(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		tank := drawTank(t)
		read := func(amount string) Part {
			l, err := readText(head+tank+"{fluid: diesel, "+amount+"}}\n", nil)
			require.NoError(t, err)
			return contentsIn(l)[0]
		}
		p := read("fill: 40 %")
		rows, err := p.Dip(12)
		require.NoError(t, err)
		require.Len(t, rows, 13)
		assert.InDelta(t, 0, rows[0].Volume, 1e-12)
		assert.InDelta(t, 1, rows[12].Fill, 1e-9)
		for i, row := range rows[1:] {
			before := rows[i]
			assert.Greater(t, row.Volume, before.Volume, "line %d", i+1)
			assert.Greater(t, row.CG[2], before.CG[2], "line %d", i+1)
			assert.InDelta(t, rows[12].Depth/12, row.Depth-before.Depth, 1e-9)
			assert.InDelta(t, rows[0].Level+row.Depth, row.Level, 1e-9)
			assert.InEpsilon(t, 835*row.Volume, float64(row.Mass), 1e-12, "diesel, 835 kg/m³")
			assert.Less(t, row.CG[2], row.Level)
		}
		i := rapid.IntRange(1, 11).Draw(t, "line")
		same := read(fmt.Sprintf("depth: %.9f", 1000*rows[i].Depth))
		assert.InEpsilon(t, float64(rows[i].Mass), float64(same.Given), 1e-6)
		assert.Less(t, rows[i].CG.Sub(same.CG()).Len(), 1e-6)
	})
}

func TestDipStickTableOfNothing(t *testing.T) {
	p := theContents(t, lyingVessel("flat", "fill: 10 %"))
	for _, steps := range []int{0, -3, 1_000_000} {
		_, err := p.Dip(steps)
		assert.ErrorContains(t, err, "ask for 1 to")
	}
	_, err := Part{Name: "plate"}.Dip(5)
	assert.ErrorContains(t, err, `"plate" is no contents`)
	assert.Empty(t, Part{}.Liquids())
}

// A wall-sided tank b wide and filled h deep, rolled by φ: its liquid's CG moves
// b²/12h·tan φ to the low side and ½·b²/12h·tan²φ up, in the tank's own axes. The
// wall-sided formula with BM = I/V, textbooks of naval architecture (from memory).
func TestLiquidOfATiltedTank(t *testing.T) {
	const b, h = 1.2, 0.5
	p := theContents(t, head+"- {name: tank, box: 2020 x 1220 x 1220, at: [0, 0, 0], cuts: [{box: 2000 x 1200 x 1200, at: [0, 0, 10]}], contents: {fluid: water, depth: 500, inside: {box: 2000 x 1200 x 1200, at: [0, 0, 10]}}}\n")
	for _, degrees := range []float64{0, 5, -12, 30} {
		sin, cos := math.Sincos(units.Radians(degrees))
		cg, surface, err := p.Liquid.At(geom.Vec{0, -3 * sin, 3 * cos}) // of any length; the side y > 0 goes down
		require.NoError(t, err)
		tan := sin / cos
		near3(t, geom.Vec{0, b * b / (12 * h) * tan, 0.01 + h/2 + b*b/(24*h)*tan*tan}, cg, 1e-6, fmt.Sprintf("%g°", degrees))
		// A rectangle of 2 m by b/cos φ.
		assert.InEpsilon(t, (b/cos)*2*2*2/12, surface.At(0, 0), 1e-5, "%g°, along", degrees)
		across := geom.Vec{0, cos, sin}
		assert.InEpsilon(t, 2*math.Pow(b/cos, 3)/12, across.Dot(surface.Mul3x1(across)), 1e-5, "%g°, across", degrees)
	}
}

// The free surface of a lying tank of length L and radius r is L by its chord
// w = 2·√(2rh − h²), and its greatest second moment w·L³/12, about the axis across.
func TestWorstFreeSurface(t *testing.T) {
	const L, r = 4.0, 0.5
	worst := func(contents string) float64 {
		p := theContents(t, head+"- {name: tank, tube: {outside: 1020, wall: 10, height: 4000}, along: x, at: [0, 0, 1000], contents: {fluid: water, "+contents+"}}\n")
		levels, err := p.Liquid.Levels(geom.Vec{0, 0, 1}, geom.Vec{})
		require.NoError(t, err)
		ρI := 0.0
		for _, l := range levels {
			ρI = max(ρI, l.Any)
		}
		return ρI
	}
	assert.InEpsilon(t, 1000*2*r*L*L*L/12, worst("depth: 100"), 2e-3, "of all levels the widest")
	assert.Zero(t, worst("depth: 100, baffled: true"))
	// Measured: the widest in its range, the level that 5 % more comes to. About
	// h = 0.25 m the segment's area 0.153546 m² (r²·acos((r−h)/r) − (r−h)·√(2rh − h²))
	// grows by the chord 0.866 m a metre: 5 % more is 8.9 mm.
	h := 0.25 + 0.05*0.153546/0.866
	assert.InEpsilon(t, 1000*2*math.Sqrt(2*r*h-h*h)*L*L*L/12, worst("depth: 250, measured: true"), 2e-3)
	h = 0.25
	assert.InEpsilon(t, 1000*2*math.Sqrt(2*r*h-h*h)*L*L*L/12, worst("depth: 250, measured: true, tolerance: 0 %"), 2e-3)
}

// What hollow solids hold, and where its middle is, by textbook formulas of bodies
// of the size of the bore.
func TestWhatHollowSolidsHold(t *testing.T) {
	third := math.Pi / 3
	tests := []struct {
		part         string
		holds        float64 // m³
		above, aside float64 // m, of its centroid from the part's own origin, along z and x
	}{
		{"sphere: {diameter: 1200, wall: 100}", 4 * third * 0.125, 0.6, 0},
		{"hemisphere: {diameter: 1200, wall: 100}", 2 * third * 0.125, 3.0 / 8 * 0.5, 0},
		{"tube: {inside: 600, wall: 20, height: 2000}", math.Pi * 0.09 * 2, 1, 0},
		{"pipe: NPS 6 sch 40, length: 2000", math.Pi / 4 * 6.065 * 6.065 * 0.0254 * 0.0254 * 2, 1, 0}, // ASME B36.10M, 6.625 in by 0.280 in (from memory)
		// Pappus: α·ρ·πr², on the bisector at (ρ + r²/4ρ)·sin(α/2)/(α/2) from the centre of the bend.
		{"bend: {outside: 220, wall: 10, radius: 300, angle: 90}", math.Pi / 2 * 0.3 * math.Pi * 0.01,
			(0.3 + 0.01/1.2) * math.Sin(math.Pi/4) / (math.Pi / 4) * math.Sqrt2 / 2, 0.3 - (0.3+0.01/1.2)*math.Sin(math.Pi/4)/(math.Pi/4)*math.Sqrt2/2},
		// Plate of 8 mm at 3 : 4 : 5 is 10 mm measured level: a frustum of 1.0 and 0.4 in
		// radius, 0.8 high; V = πh/3·(R² + Rr + r²), z = h/4·(R² + 2Rr + 3r²)/(R² + Rr + r²).
		{"cone: {bottom: 2020, top: 820, height: 800, wall: 8}", third * 0.8 * (1 + 0.4 + 0.16), 0.2 * (1 + 0.8 + 0.48) / 1.56, 0},
		// The same plate to a point at the bottom: the bore begins where the cone is
		// 20 mm wide, at 1/60 of its height, and is 0.59 in radius and 59/75 high.
		{"cone: {bottom: 0, top: 1200, height: 800, wall: 8}", third * 0.59 * 0.59 * 0.59 * 4 / 3, 0.8 - 0.59*4.0/3/4, 0},
	}
	for _, tt := range tests {
		t.Run(tt.part, func(t *testing.T) {
			p := theContents(t, head+"- {name: a, "+tt.part+", at: [0, 0, 0], contents: {fluid: water, fill: 100 %}}\n")
			assert.InEpsilon(t, tt.holds, p.Liquid.Volume, 1e-4)
			near3(t, geom.Vec{tt.aside, 0, tt.above}, p.CG(), 1e-5, "middle")
			_, closed, _ := strings.Cut(p.Basis, "no more than full")
			assert.Equal(t, !strings.HasPrefix(tt.part, "sphere"), strings.Contains(closed, "taken as closed"))
		})
	}
	// An oblique bore keeps its volume; its middle is as far aside as it is high.
	p := theContents(t, head+"- {name: a, cone: {bottom: 1000, top: 600, height: 1000, wall: 10, offset: 1000}, at: [0, 0, 0], contents: {fluid: water, fill: 100 %}}\n")
	assert.InDelta(t, p.CG()[2], p.CG()[0], 1e-9)
}

// The inertia of contents is that of their shape: a space of 2 x 1 x 1 m full of
// water is a box of water (closed form of the box).
func TestInertiaOfContents(t *testing.T) {
	full := weighed(t, head+"- {weight: 1 g, box: 2000 x 1000 x 1000, corner: [0, 0, 0], status: weighed, contents: {fluid: {name: w, density: 1000 kg/m3, tolerance: 1 %}, fill: 100 %, inside: {box: 2000 x 1000 x 1000, corner: [0, 0, 0]}}}\n")
	box := weighed(t, head+"- {box: 2000 x 1000 x 1000, corner: [0, 0, 0], material: {name: w, density: 1000 kg/m3, tolerance: 1 %}}\n")
	for i := range box.Inertia {
		assert.InDelta(t, box.Inertia[i], full.Inertia[i], 0.01)
	}
}

// An allowance of all is not of what is in a tank: 10 % of 785 kg of steel and a
// tank of 500 kg.
func TestAllowanceOfAllLeavesContentsOut(t *testing.T) {
	w := weighed(t, head+"- {box: 1000 x 1000 x 100, corner: [0, 0, 0]}\n"+
		"- {weight: 500 kg, box: 1000 x 1000 x 1000, corner: [0, 0, 200], status: weighed, contents: {fluid: {name: w, density: 1000 kg/m3, tolerance: 1 %}, depth: 500, inside: {box: 1000 x 1000 x 1000, corner: [0, 0, 200]}}}\n"+
		"allowances: [{name: weld metal, of: all, add: 10 %}]\n")
	assert.InDelta(t, 128.5, float64(w.Allowances[0].Best), 1e-6)
}
