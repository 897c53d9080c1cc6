package takeoff

import (
	"encoding/json"
	"fmt"
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"go.yaml.in/yaml/v3"
	"pgregory.net/rapid"

	"plumbhook/geom"
)

// oneCube is a cube of steel of 1 m: 7850 kg ± 0.5 %, 6 m² of surface.
const oneCube = "- {name: cube, box: 1000 x 1000 x 1000, corner: [0, 0, 0]}\n"

// Masses by hand, in kg. Where no low and high are written they are half and
// one and a half times the figure: common practice, no source.
func TestAllowancesByHand(t *testing.T) {
	tests := []struct {
		name, parts, allowance string
		low, best, high        float64
		tol                    float64 // relative, of the best
		source                 string
	}{
		{"part of the mass", oneCube, "{name: weld metal, of: structural steel, add: 1.5 %, low: 0.8 %, high: 2.5 %}",
			0.008 * 7850 * 0.995, 117.75, 0.025 * 7850 * 1.005, 1e-12, "by hand"},
		{"another name of the material", oneCube, "{name: weld metal, of: mild steel, add: 2 %}", 0.01 * 7850 * 0.995, 157, 0.03 * 7850 * 1.005, 1e-12, "by hand"},
		{"weights count", oneCube + "- {name: motor, weight: 1 t, at: [0, 0, 0], tolerance: 0 %}\n", "{name: bolts, add: 1 %, low: 1 %, high: 1 %}",
			0.01 * (7850*0.995 + 1000), 88.5, 0.01 * (7850*1.005 + 1000), 1e-12, "by hand"},
		{"of a part", oneCube + "- {name: motor, weight: 1 t, at: [0, 0, 0], tolerance: 0 %}\n", "{name: bolts, of: motor, add: 1 %, low: 0 %, high: 1 %}",
			0, 10, 10, 1e-12, "by hand"},
		{"a layer by its mass", "- {name: b, box: 2000 x 1000 x 500, at: [0, 0, 0]}\n", "{name: paint, per area: 0.4 kg/m2, low: 0.3 kg/m2, high: 0.5 kg/m2}",
			2.1, 2.8, 3.5, 1e-12, "7 m² by hand"},
		{"paint", oneCube, "{name: paint, thickness: 0.25, material: {name: dry film, density: 1500 kg/m3, tolerance: 0 %}}",
			3 * 0.375, 6 * 0.375, 9 * 0.375, 1e-12, "250 µm dry at 1500 kg/m³ is 0.375 kg/m² (densities from memory)"},
		{"galvanizing", oneCube, "{name: zinc coat, per area: 0.61 kg/m2, low: 0.61 kg/m2, high: 0.61 kg/m2}",
			3.66, 3.66, 3.66, 1e-12, "ISO 1461 Table 3, 610 g/m² for 85 µm (from memory)"},
		{"lining with its doubts", oneCube, "{name: lining, of: cube, thickness: 20, low: 15, high: 25, material: {name: gunite, density: 2000 kg/m3, tolerance: 10 %}, share: 50 %}",
			3 * 15 * 1.8, 3 * 20 * 2.0, 3 * 25 * 2.2, 1e-12, "by hand: 3 m²"},
		{"round", "- {name: rod, rod: {diameter: 1000, height: 2000}, at: [0, 0, 0], count: 2, step: [3000, 0, 0]}\n", "{name: paint, per area: 1 kg/m2}",
			2.5 * math.Pi, 5 * math.Pi, 7.5 * math.Pi, 2e-4, "two cylinders of π·d·h + 2·π·d²/4"},
		{"both faces of a tube", "- {name: shell, tube: {outside: 1000, wall: 10, height: 2000}, at: [0, 0, 0]}\n", "{name: paint, per area: 1 kg/m2}",
			0.5 * (3.96*math.Pi + math.Pi/2*(1-0.98*0.98)), 3.96*math.Pi + math.Pi/2*(1-0.98*0.98), 1.5 * (3.96*math.Pi + math.Pi/2*(1-0.98*0.98)), 2e-4, "by hand"},
		{"ball", "- {name: ball, sphere: {diameter: 1000}, at: [0, 0, 0]}\n", "{name: paint, per area: 1 kg/m2}",
			math.Pi / 2, math.Pi, 1.5 * math.Pi, 4e-4, "π·d²"},
		{"known weight", oneCube, "{name: bolts, weight: 120 kg, low: 100 kg, high: 150 kg}", 100, 120, 150, 1e-12, "as given"},
		{"one side only", oneCube, "{name: bolts, weight: 120 kg, high: 130 kg}", 60, 120, 130, 1e-12, "half the figure below"},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			w := weighed(t, head+tt.parts+"allowances:\n- "+tt.allowance+"\n")
			require.Len(t, w.Allowances, 1)
			a := w.Allowances[0]
			tol := tt.tol * tt.best
			assert.InDelta(t, tt.low, float64(a.Low), tol, "low, kg (%s)", tt.source)
			assert.InDelta(t, tt.best, float64(a.Best), tol, "best, kg (%s)", tt.source)
			assert.InDelta(t, tt.high, float64(a.High), tol, "high, kg (%s)", tt.source)
			low, best, high := float64(a.Low), float64(a.Best), float64(a.High)
			for _, p := range w.Parts {
				low, best, high = low+float64(p.Low), best+float64(p.Best), high+float64(p.High)
			}
			assert.InDelta(t, low, float64(w.Low), 1e-9)
			assert.InDelta(t, best, float64(w.Best), 1e-9)
			assert.InDelta(t, high, float64(w.High), 1e-9)
		})
	}
}

func TestAllowanceSaysWhatItTook(t *testing.T) {
	l := good(t, head+oneCube+`allowances:
- {name: weld metal, of: mild steel, add: 1.5 %}
- {name: paint, per area: 0.4 kg/m2, high: 0.5 kg/m2}
- {name: bolts, weight: 12 kg, low: 10 kg, high: 15 kg, at: [0, 0, 0]}
`)
	w, err := l.Weigh()
	require.NoError(t, err)
	assert.Equal(t, "add 1.5 %", w.Allowances[0].Written)
	assert.Contains(t, w.Allowances[0].Basis, "1.5 % of the 7")
	assert.Contains(t, w.Allowances[0].Basis, "from 50 % of that to 150 % of that: common practice, no source")
	assert.Contains(t, w.Allowances[0].Basis, "anywhere in the box of mild steel")
	assert.Equal(t, "per area 0.4 kg/m2, high 0.5 kg/m2", w.Allowances[1].Written)
	assert.Contains(t, w.Allowances[1].Basis, "cuts and contact between parts not regarded")
	assert.Contains(t, w.Allowances[1].Basis, "the low side common practice, no source")
	assert.Contains(t, w.Allowances[2].Basis, "as given; from 10 kg to 15 kg as written")
	assert.True(t, w.Allowances[2].Placed)
	assert.Equal(t, []int{7, 8, 9}, []int{l.Allowances[0].Line, l.Allowances[1].Line, l.Allowances[2].Line}, "counted by hand")
	for _, warning := range l.Warnings {
		assert.Equal(t, "material-default", warning.Code)
	}
}

// A weight of 100 kg with a box of 2 x 1 x 1 m about the origin, known exactly.
const exactBlock = "- {name: block, weight: 100 kg, box: 2000 x 1000 x 1000, at: [0, 0, 0], tolerance: 0 %}\n"

// Ten kilograms that may lie anywhere in the box: the CG may lie 10/110 of its
// half sides off. At a known place 1 m off it lies there for sure. By hand.
func TestAllowanceWithoutAPlaceMayBeAnywhere(t *testing.T) {
	w := weighed(t, head+exactBlock+"allowances: [{name: bolts, weight: 10 kg, low: 10 kg, high: 10 kg}]\n")
	near3(t, geom.Vec{}, w.CG, 1e-12, "best: at the CG of what it is of")
	near3(t, geom.Vec{10.0 / 110, 5.0 / 110, 5.0 / 110}, w.Range.Max, 1e-12, "farthest")
	near3(t, geom.Vec{-10.0 / 110, -5.0 / 110, -5.0 / 110}, w.Range.Min, 1e-12, "nearest")
	assert.InDelta(t, (10+5)/(110*math.Sqrt2), w.CGReach(geom.Vec{math.Sqrt2 / 2, math.Sqrt2 / 2, 0}), 1e-12, "at a corner of the box")

	w = weighed(t, head+exactBlock+"allowances: [{name: bolts, weight: 10 kg, low: 10 kg, high: 10 kg, at: [1000, 0, 0]}]\n")
	near3(t, geom.Vec{10.0 / 110, 0, 0}, w.CG, 1e-12, "where it is")
	near3(t, w.CG, w.Range.Max, 1e-12, "no range")
	// 100 kg of a box: m·(1² + 1²)/12 about x, m·(2² + 1²)/12 about z; the 10 kg a
	// point: reduced mass 1000/110 at 1 m. Standard tables, from memory.
	assert.InDelta(t, 100*2.0/12, w.Inertia.At(0, 0), 1e-9)
	assert.InDelta(t, 100*5.0/12+1000.0/110, w.Inertia.At(2, 2), 1e-9)
}

// A coat on cubes of 1 m and 2 m, 10 m apart: areas 6 and 24 m², so that its
// middle lies at 8 m, while their CG lies at 80/9 m. By hand.
func TestCoatLiesInTheMiddleOfTheSurface(t *testing.T) {
	w := weighed(t, head+"- {name: small, box: 1000 x 1000 x 1000, center: [0, 0, 0]}\n- {name: big, box: 2000 x 2000 x 2000, center: [10000, 0, 0]}\n"+
		"- {name: motor, weight: 5 t, at: [50000, 0, 0], tolerance: 0 %}\n"+
		"allowances: [{name: coat, per area: 1 kg/m2}, {name: welds, of: structural steel, add: 1 %}]\n")
	near3(t, geom.Vec{8, 0, 0}, w.Allowances[0].CG, 1e-12, "coat")
	near3(t, geom.Vec{80.0 / 9, 0, 0}, w.Allowances[1].CG, 1e-12, "welds")
	near3(t, geom.Vec{11, 1, 1}, w.Allowances[0].Box.Max, 1e-12, "the motor has no surface")
	near3(t, geom.Vec{-0.5, -1, -1}, w.Allowances[0].Box.Min, 1e-12, "box")
}

// An allowance of a part of the mass of all leaves the CG and scales weight and
// inertia.
func TestPartOfAllMassOnlyScales(t *testing.T) {
	parts := oneCube + "- {name: rod, rod: {diameter: 100, height: 2000}, at: [3000, 500, 0], count: 3, step: [0, 1000, 200]}\n"
	bare, with := weighed(t, head+parts), weighed(t, head+parts+"allowances: [{name: extras, add: 10 %}]\n")
	near3(t, bare.CG, with.CG, 1e-12, "CG")
	assert.InEpsilon(t, 1.1*float64(bare.Best), float64(with.Best), 1e-12)
	for i := range bare.Inertia {
		assert.InDelta(t, 1.1*bare.Inertia[i], with.Inertia[i], 1e-9*bare.Inertia.At(0, 0))
	}
}

// Two weights of 100 kg that may each stand 5 mm off: the CG may stand 5 mm
// off along the axes, and √2 as much along a diagonal in plan.
func TestPositionTolerance(t *testing.T) {
	w := weighed(t, head+"- {name: a, weight: 100 kg, at: [0, 0, 0], tolerance: 0 %, position: 5, count: 2, step: [1000, 0, 0]}\n")
	near3(t, geom.Vec{0.505, 0.005, 0.005}, w.Range.Max, 1e-12, "farthest")
	assert.InDelta(t, 0.5*math.Sqrt2/2+0.005*math.Sqrt2, w.CGReach(geom.Vec{math.Sqrt2 / 2, math.Sqrt2 / 2, 0}), 1e-12)
	assert.Equal(t, 0.005, good(t, head+"- {name: a, box: 1 x 1 x 1, at: [0, 0, 0], position: 5}\n").Parts[0].Position)
}

// The sub-assembly's own allowances come with it, once for each standing, and
// are of its own parts alone though another is called the same.
func TestAllowancesOfASubAssembly(t *testing.T) {
	const sub = "load: frame\nunits: m\nparts:\n- {name: beam, weight: 100 kg, at: [1, 0, 0], tolerance: 0 %, position: 0.01}\n" +
		"allowances:\n- {name: welds, of: beam, add: 10 %, low: 10 %, high: 10 %}\n- {name: bolts, weight: 5 kg, low: 5 kg, high: 5 kg, at: [2, 0, 0]}\n"
	const whole = "load: whole\nunits: m\nparts:\n- {load: frame.yaml, at: [0, 0, 0], turn: [z 90], count: 3, step: [10, 0, 0]}\n" +
		"- {load: frame.yaml, at: [0, 0, 5], turn: [z 45], position: 0.02}\n- {name: beam, weight: 1 t, at: [0, 0, 0], tolerance: 0 %}\n"
	l, err := readFiles(map[string]string{"load.yaml": whole, "frame.yaml": sub})
	require.NoError(t, err)
	w, err := l.Weigh()
	require.NoError(t, err)
	require.Len(t, w.Allowances, 4)
	assert.InDelta(t, 30, float64(w.Allowances[0].Best), 1e-12, "three frames of 100 kg")
	assert.InDelta(t, 15, float64(w.Allowances[1].Best), 1e-12, "bolts of three frames")
	assert.InDelta(t, 10, float64(w.Allowances[2].Best), 1e-12, "the frame on the skew")
	assert.InDelta(t, 1400+60, float64(w.Best), 1e-9)
	near3(t, geom.Vec{10, 2, 0}, w.Allowances[1].CG, 1e-12, "bolts, a quarter turn, the middle one of three")
	near3(t, geom.Vec{math.Sqrt2, math.Sqrt2, 5}, w.Allowances[3].CG, 1e-12, "bolts on the skew")
	assert.Equal(t, "frame / welds", w.Allowances[0].Name)
	assert.Contains(t, w.Allowances[0].Basis, "in frame.yaml")
	assert.InDelta(t, 0.01, l.Parts[0].Position, 1e-15, "a quarter turn")
	assert.InDelta(t, 0.01*math.Sqrt2+0.02, l.Parts[1].Position, 1e-12, "the cube of the skew one, and the frame's own")

	outer := "load: outer\nunits: m\nparts:\n- {load: load.yaml, at: [0, 0, 0]}\n- {load: load.yaml, at: [0, 50, 0]}\n"
	l, err = readFiles(map[string]string{"load.yaml": outer, "frame.yaml": sub, "deep/load.yaml": whole, "deep/frame.yaml": sub})
	require.Error(t, err, "a file that names itself")
	require.Nil(t, l)
	outer = "load: outer\nunits: m\nparts:\n- {load: deep/whole.yaml, at: [0, 0, 0]}\n- {load: deep/whole.yaml, at: [0, 50, 0]}\n"
	l, err = readFiles(map[string]string{"load.yaml": outer, "deep/whole.yaml": whole, "deep/frame.yaml": sub})
	require.NoError(t, err)
	w, err = l.Weigh()
	require.NoError(t, err)
	assert.Len(t, w.Allowances, 8)
	assert.InDelta(t, 2*1460, float64(w.Best), 1e-9, "two of the whole")
}

// An allowance of what a load no longer has is nothing.
func TestAllowanceOfNothing(t *testing.T) {
	l := good(t, head+oneCube+exactBlock+"allowances: [{name: paint, of: cube, per area: 1 kg/m2}]\n")
	l.Parts = l.Parts[1:]
	w, err := l.Weigh()
	require.NoError(t, err)
	assert.Zero(t, w.Allowances[0].Best)
	assert.Contains(t, w.Allowances[0].Basis, "nothing of what it is of is here")
	near3(t, geom.Vec{}, w.Range.Max, 1e-12, "the block alone")
	assert.InDelta(t, 100, float64(w.Best), 1e-12)
}

// badAllowances are files with one fault each; the allowance is line 8, the
// parts a box on 5 to 7. The places were counted by hand.
var badAllowances = []struct{ name, allowance, at, text, fix string }{
	{"nothing said", "- {name: paint}", "8:3", "does not say how much", "`add: 1.5 %`"},
	{"twice said", "- {name: paint, add: 1 %, weight: 3 kg}", "8:35", "in several ways: `add`, `weight`", "keep one"},
	{"no name", "- {add: 1 %}", "8:3", "has no `name`", "a text"},
	{"unknown key", "- {name: paint, ad: 1 %}", "8:17", "unknown key \"ad\"", "did you mean `add`"},
	{"of no part", "- {name: paint, of: plat, add: 1 %}", "8:21", "no part is called \"plat\"", "did you mean \"plate\"?"},
	{"of a material of no part", "- {name: paint, of: concrete, add: 1 %}", "8:21", "no part is called \"concrete\" or made of it", "the name of a material"},
	{"bare percentage", "- {name: paint, add: 1.5}", "8:22", "1.5", "%"},
	{"more than all", "- {name: paint, add: 150 %}", "8:22", "more than zero and at most 100 %", "1.5 %"},
	{"none", "- {name: paint, add: 0 %}", "8:22", "more than zero", "1.5 %"},
	{"low above the figure", "- {name: paint, add: 1 %, low: 2 %}", "8:32", "`low: 2 %` does not fit `add 1 %`", "from zero to the figure"},
	{"high below the figure", "- {name: paint, weight: 9 kg, high: 8 kg}", "8:37", "`high: 8 kg` does not fit `weight 9 kg`", "from the figure to ten times 1e9 kg"},
	{"high beyond all", "- {name: paint, add: 1 %, high: 5000 %}", "8:33", "`high: 5000 %` does not fit", "ten times 100 %"},
	{"low of another kind", "- {name: paint, weight: 9 kg, low: 80 %}", "8:36", "80 %", "kg"},
	{"layer without a material", "- {name: coat, thickness: 1}", "8:3", "has no material", "`material:`"},
	{"material of a weight", "- {name: coat, weight: 1 kg, material: concrete}", "8:40", "only a layer with a `thickness`", "take `material` away"},
	{"share of a weight", "- {name: coat, weight: 1 kg, share: 50 %}", "8:37", "only a layer has a `share`", "take it away"},
	{"share of more than all", "- {name: coat, per area: 1 kg/m2, share: 150 %}", "8:42", "at most 100 %", "50 %"},
	{"place of a layer", "- {name: coat, per area: 1 kg/m2, at: [0, 0, 0]}", "8:39", "only a known weight has a place", "`weight`"},
	{"layer too thick", "- {name: coat, thickness: 3 m, material: concrete}", "8:27", "at most 2 m", "thickness"},
	{"a list it is not", "  name: coat", "8:3", "expected a list of allowances", "'- '"},
}

func TestBadAllowances(t *testing.T) {
	for _, tt := range badAllowances {
		t.Run(tt.name, func(t *testing.T) {
			p := problemsOf(t, "load: test\nunits: mm\nmaterial: structural steel\nparts:\n- name: plate\n  box: 9 x 9 x 9\n  at: [0, 0, 0]\nallowances:\n"+tt.allowance+"\n")
			require.Len(t, p, 1, "want this problem alone:\n%v", p)
			line := 9 // `allowances:` stands on line 8 and the list below it
			assert.Equal(t, tt.at, fmt.Sprintf("%d:%d", p[0].Line-line+8, p[0].Column), "place of %v", p[0])
			assert.Contains(t, p[0].Text, tt.text)
			assert.Contains(t, p[0].Fix, tt.fix)
		})
	}
	p := problemsOf(t, head+"- {name: water, box: 1 x 1 x 1, at: [0, 0, 0], material: water}\nallowances: [{name: a, of: water, add: 1 %}]\n")
	assert.Contains(t, p[0].Text, "both a part and a material")
	p = problemsOf(t, head+exactBlock+"allowances: [{name: paint, per area: 1 kg/m2}]\n")
	assert.Contains(t, p[0].Text, "no surface")
	p = problemsOf(t, head+"- {name: a, box: 1 x 1 x 1, at: [0, 0, 0], position: -5}\n")
	assert.Contains(t, p[0].Text, "below zero")
}

// The schema takes every key of an allowance, and a part's form and position.
func TestSchemaTakesAllowances(t *testing.T) {
	var doc map[string]any
	require.NoError(t, json.Unmarshal(Schema(), &doc))
	for text, faults := range map[string]int{
		"{name: a, of: all, add: 1 %, low: 0 %, high: 2 %}":                          0,
		"{name: a, thickness: 3, material: {name: m, density: 2 t/m3}, share: 50 %}": 0,
		"{name: a, per area: 1 kg/m2}":                                               0,
		"{name: a, weight: 1 kg, at: [0, 0, 0]}":                                     0,
		"{weight: 1 kg, where: [0, 0, 0]}":                                           2, // no name; where
	} {
		var root yaml.Node
		require.NoError(t, yaml.Unmarshal([]byte("load: a\nparts: [{box: 1 x 1 x 1, at: [0, 0, 0], form: casting, position: 5 mm}]\nallowances: ["+text+"]\n"), &root))
		assert.Len(t, against(doc, doc, root.Content[0]), faults, text)
	}
}

// Narrower figures, tolerances and positions never widen weight or CG range.
func TestNarrowerInputNeverWidensTheLoad(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		part := rapid.Float64Range(0, 1)
		l := &Load{Name: "drawn"}
		c := rapid.Float64Range(-5, 5)
		for i := range rapid.IntRange(1, 5).Draw(t, "parts") {
			at := geom.Vec{c.Draw(t, "x"), c.Draw(t, "y"), c.Draw(t, "z")}
			l.Parts = append(l.Parts, Part{Name: fmt.Sprint(i), Kind: "weight", Given: 100, GivenAt: at, Pose: geom.Still().Shifted(at),
				Places: []geom.Pose{geom.Still()}, Low: -part.Draw(t, "low") / 2, High: part.Draw(t, "high"), Position: part.Draw(t, "off")})
		}
		figure := rapid.Float64Range(0.001, 0.2).Draw(t, "figure")
		a := Allowance{Name: "a", Of: "all", figure: figure, low: figure * part.Draw(t, "a low"), high: figure * (1 + part.Draw(t, "a high")), copies: 1}
		l.Allowances = []Allowance{a}
		wide, err := l.Weigh()
		if err != nil {
			t.Fatal(err)
		}
		for i := range l.Parts {
			p := &l.Parts[i]
			p.Low, p.High, p.Position = p.Low*part.Draw(t, "of low"), p.High*part.Draw(t, "of high"), p.Position*part.Draw(t, "of off")
		}
		// Rounding may not take them past the figure itself.
		l.Allowances[0].low = min(figure, a.low+(figure-a.low)*part.Draw(t, "of a low"))
		l.Allowances[0].high = max(figure, a.high-(a.high-figure)*part.Draw(t, "of a high"))
		narrow, err := l.Weigh()
		if err != nil {
			t.Fatal(err)
		}
		assert.InDelta(t, float64(wide.Best), float64(narrow.Best), 1e-9)
		assert.GreaterOrEqual(t, float64(narrow.Low), float64(wide.Low)-1e-9)
		assert.LessOrEqual(t, float64(narrow.High), float64(wide.High)+1e-9)
		d := drawWay(t)
		assert.LessOrEqual(t, narrow.CGReach(d), wide.CGReach(d)+1e-12)
		assert.LessOrEqual(t, wide.CG.Dot(d), wide.CGReach(d)+1e-12, "the best CG is in the region")
		was, is := wide.Statistics(), narrow.Statistics()
		assert.GreaterOrEqual(t, float64(is.RSSLow), float64(was.RSSLow)-1e-9)
		assert.LessOrEqual(t, float64(is.RSSHigh), float64(was.RSSHigh)+1e-9)
	})
}
