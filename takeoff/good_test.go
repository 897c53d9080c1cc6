package takeoff

import (
	_ "embed"
	"math"
	"strings"
	"testing"
	"testing/fstest"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"plumbhook/geom"
	"plumbhook/units"
)

//go:embed testdata/housing.yaml
var housing string

// TestHousing reads a file that uses every key and looks at what became of it.
func TestHousing(t *testing.T) {
	l, err := readText(housing, fstest.MapFS{"bracket.stl": {Data: []byte(cubeSTL("bracket", 100))}})
	require.NoError(t, err)

	assert.Equal(t, "Filter housing on skid", l.Name)
	assert.Equal(t, "FH-118 sheet 2 rev B", l.Drawing)
	assert.Equal(t, "skid underside, north-west corner", l.Datum)
	assert.Len(t, l.SHA256, 64)

	var names, kinds []string
	for _, p := range l.Parts {
		names, kinds = append(names, p.Name), append(kinds, p.Kind)
	}
	assert.Equal(t, []string{"base plate", "shell", "cone", "part 4 (rod)", "gusset", "pad", "float", "drive", "panel", "bracket"}, names)
	assert.Equal(t, []string{"plate", "tube", "cone", "rod", "prism", "polygon", "sphere", "weight", "weight", "mesh"}, kinds)

	base := l.Parts[0]
	assert.Equal(t, "2400 x 1200 x 20", base.Written)
	assert.Equal(t, 12, base.Line)
	assert.False(t, base.MaterialDefault)
	require.Len(t, base.Cuts, 1)
	assert.Equal(t, "diameter: 300, height: 20", base.Cuts[0].Written)
	assert.True(t, l.Parts[1].MaterialDefault)
	assert.InDelta(t, -0.01, l.Parts[1].Low, 1e-12)
	assert.InDelta(t, 0.03, l.Parts[1].High, 1e-12)

	rod := l.Parts[3]
	assert.Equal(t, 3, rod.Count)
	near3(t, geom.Vec{0.6, 0.6, 0.4}, rod.CG(), 1e-12, "CG of the rods")

	drive := l.Parts[7]
	assert.Equal(t, units.Mass(260), drive.Given)
	assert.InDelta(t, 0.05, drive.High, 1e-12, "catalogue")
	assert.Contains(t, drive.Basis, "stated by its maker")
	panel := l.Parts[8]
	near3(t, geom.Vec{1.25, 0.3, 1}, panel.GivenAt, 1e-12, "the middle of its box")
	near3(t, geom.Vec{1, 0.2, 0.5}, panel.Extent().Min, 1e-12, "its box")

	g := l.Rigging
	require.Len(t, g.Picks, 4)
	assert.Equal(t, Pick{Name: "B", At: geom.Vec{1.624, 0.176, 2.01}, Line: 57}, g.Picks[1])
	assert.Equal(t, &Hook{Above: "picks", Height: 1.2}, g.Hook)
	assert.Equal(t, Legs{Mode: "level", Tolerance: 0.005}, g.Legs)
	assert.Equal(t, Hitch{Kind: "vertical"}, g.Hitch)
	assert.Equal(t, "EN", g.Rules)
	assert.Equal(t, 1.1, g.Dynamic)
	assert.Equal(t, 1.05, g.PlanningFactor)
	s := g.Surroundings
	assert.True(t, s.Stated && s.ChemicalsStated && s.EdgesStated && !s.EdgesNone && *s.Outdoors)
	assert.Empty(t, s.Chemicals)
	assert.Equal(t, units.Temperature(20), *s.Temperature)
	assert.Equal(t, 0.005, *s.EdgeRadius)
	assert.Equal(t, "finished", s.Surface)
	assert.InDelta(t, math.Pi/4, float64(*g.Limits.LeastFromHorizontal), 1e-15)
	assert.Equal(t, 4.0, *g.Limits.Headroom)
	assert.InDelta(t, 2*math.Pi/180, float64(*g.Limits.Tilt), 1e-15)
	assert.Equal(t, &Crane{Capacity: 20000, Radius: 8, Block: 350}, g.Limits.Crane)
	assert.Equal(t, &Sharing{Basis: "elastic", Because: "equalising beam"}, g.Sharing)
	assert.Equal(t, []string{"vessel-empty", "cg-of-box", "material-default"}, codes(l.Warnings), "the sphere is hollow")

	w, err := l.Weigh()
	require.NoError(t, err)
	assert.Len(t, w.Parts, 10)
}

func codes(ws []Warning) []string {
	var out []string
	for _, w := range ws {
		out = append(out, w.Code)
	}
	return out
}

func TestJSONIsReadToo(t *testing.T) {
	json := `{
	"load": "cube", "units": "mm", "material": "steel",
	"parts": [
		{"name": "cube", "box": "1000 x 1000 x 1000", "at": [0, 0, 0]}
	]
}`
	l, err := Read(fstest.MapFS{"a/cube.json": {Data: []byte(json)}}, "a/cube.json", Options{})
	require.NoError(t, err)
	w, err := l.Weigh()
	require.NoError(t, err)
	// One cubic metre of steel at 7850 kg/m³, the nominal density of EN 10365.
	assert.InDelta(t, 7850, float64(w.Best), 1e-9)
}

func TestLineEndsAndByteOrderMark(t *testing.T) {
	text := head + sound
	for name, other := range map[string]string{
		"Windows": strings.ReplaceAll(text, "\n", "\r\n"),
		"old Mac": strings.ReplaceAll(text, "\n", "\r"),
		"marked":  "\uFEFF" + text,
	} {
		_, err := readText(other, nil)
		assert.NoError(t, err, name)
		p := problemsOf(t, strings.Replace(other, "10", "l0", 1))
		assert.Equal(t, 6, p[0].Line, name)
	}
}

func TestOtherWaysToSayIt(t *testing.T) {
	l := good(t, head+sound+`
picks: [{name: A, at: [0, 0, 10]}, {name: B b, at: [1 m, 2' 6", 0]}]
legs: {lengths: {A: 2800, B  b: 3 m}, length tolerance: 0.2 %}
surroundings: {chemicals: [sulphuric acid, chlorine], edges: sharp, outdoors: no}
limits: {greatest angle from vertical: 30}
`)
	g := l.Rigging
	assert.Equal(t, Legs{Mode: "given", Given: map[string]float64{"A": 2.8, "B b": 3}, TolerancePart: 0.002}, g.Legs)
	assert.Equal(t, geom.Vec{1, 0.762, 0}, g.Picks[1].At, "2 ft 6 in is 0.762 m, exact: 30 x 25.4 mm")
	assert.Equal(t, []string{"sulphuric acid", "chlorine"}, g.Surroundings.Chemicals)
	assert.Equal(t, 0.0, *g.Surroundings.EdgeRadius)
	assert.False(t, *g.Surroundings.Outdoors)
	assert.InDelta(t, 60, units.Degrees(*g.Limits.LeastFromHorizontal), 1e-12)

	g = good(t, head+sound+"legs: {lengths: 3000}\nhitch: choker\nsurroundings: {edges: rounded}\n").Rigging
	assert.Equal(t, Legs{Mode: "equal", Equal: 3}, g.Legs)
	assert.True(t, g.Surroundings.EdgesStated)
	assert.Nil(t, g.Surroundings.EdgeRadius, "rounded, radius not stated")
	g = good(t, head+sound+"hook: {at: [0, 0, 5 m]}\nlegs: {lengths: level}\nsurroundings: {edges: none}\n").Rigging
	assert.Equal(t, &geom.Vec{0, 0, 5}, g.Hook.At)
	assert.True(t, g.Surroundings.EdgesNone)
	g = good(t, head+sound).Rigging
	assert.Equal(t, Rigging{}, g, "nothing is assumed")
	g = good(t, head+sound+"surroundings: {edges: {radius: 0, protection: corner pads}, shock load: no, people near: yes, hot work: true, chemicals: [cold dilute acid]}\n").Rigging
	assert.Equal(t, "corner pads", g.Surroundings.EdgeProtection)
	assert.Equal(t, map[string]bool{"shock": false, "people near": true, "weld spatter": true}, g.Surroundings.Conditions)
	assert.Equal(t, []string{"cold dilute acid"}, g.Surroundings.Chemicals)
	g = good(t, head+sound+"surroundings: {edges: {radius: 5, protection: none}}\n").Rigging
	assert.Empty(t, g.Surroundings.EdgeProtection)
}

func TestWarnings(t *testing.T) {
	l := good(t, `load: test
units: mm
material: concrete
materials: [{name: carbon steel, density: 7800 kg/m3}]
parts:
- {name: a, box: 100 x 100 x 100, at: [0, 0, 0]}
- {name: a, weight: 20 kg, at: [0, 0, 0]}
`)
	assert.Equal(t, []string{"material-replaced", "status-default", "name-twice", "material-default"}, codes(l.Warnings))
	assert.Equal(t, "estimated", l.Parts[1].Status)
	assert.InDelta(t, 0.25, l.Parts[1].High, 1e-12)
	for _, w := range l.Warnings {
		assert.NotEmpty(t, w.Text)
		assert.NotEmpty(t, w.Fix)
	}
}

func TestToleranceByWhatIsKnown(t *testing.T) {
	l := good(t, head+`
- {name: steel, box: 100 x 100 x 100, at: [0, 0, 0]}
- {name: rough, box: 100 x 100 x 100, at: [0, 0, 0], status: estimated}
- {name: own, box: 100 x 100 x 100, at: [0, 0, 0], material: {name: mix, density: 2 t/m3}}
- {name: sure, box: 100 x 100 x 100, at: [0, 0, 0], material: {name: mix, density: 2 t/m3, tolerance: 0 %}}
- {name: scales, weight: 100 kg, at: [0, 0, 0], status: weighed}
- {name: sum, weight: 100 kg, at: [0, 0, 0], status: calculated}
- {name: said, weight: 100 kg, at: [0, 0, 0], status: calculated, tolerance: -1 % / +2 %}
`)
	// steel: the proposal of the table of materials, density alone. weighed:
	// DNV-OS-H102, 1.03; calculated: 0001/ND section 8.3, 1.10 (both from
	// memory). estimated 25 %, a density without tolerance 3 %: common
	// practice, no source.
	want := map[string]span{"steel": {-0.005, 0.005}, "rough": {-0.25, 0.25}, "own": {-0.03, 0.03}, "sure": {},
		"scales": {-0.03, 0.03}, "sum": {-0.10, 0.10}, "said": {-0.01, 0.02}}
	for _, p := range l.Parts {
		assert.InDelta(t, want[p.Name].low, p.Low, 1e-12, p.Name)
		assert.InDelta(t, want[p.Name].high, p.High, 1e-12, p.Name)
		assert.NotEmpty(t, p.Basis)
	}
	assert.Contains(t, l.Parts[0].Basis, "carbon steel (written: structural steel)")
	assert.Contains(t, l.Parts[0].Basis, "±0.5 %: spread of the density alone")
	assert.Contains(t, l.Parts[6].Basis, "-1 % / +2 %: as written")
}

func TestToleranceTableHasSources(t *testing.T) {
	rows, err := tolerances()
	require.NoError(t, err)
	for _, status := range append([]string{ownMaterial}, statuses...) {
		assert.Contains(t, rows, status)
		assert.Contains(t, []string{"read", "from memory", "computed", "common practice"}, rows[status].basis)
	}
}

func TestErrorPrintsTwentyAndCountsTheRest(t *testing.T) {
	p := problemsOf(t, head+strings.Repeat("- name: x\n", 25))
	require.Len(t, p, 25)
	text := p.Error()
	assert.Equal(t, 20, strings.Count(text, "fix: "))
	assert.True(t, strings.HasSuffix(text, "… and 5 more"), text[len(text)-40:])
}

func TestProblemIsPrintedWithItsLine(t *testing.T) {
	p := problemsOf(t, head+"- name: tab\n  box: \t[1]\n  at: [0, 0, 0]\n")
	want := "load.yaml:6:9: expected sizes along x, y and z, such as 2400 x 1200 x 20, found a list\n" +
		"      box: \t[1]\n" +
		"           \t^\n" +
		"  fix: write sizes along x, y and z, such as 2400 x 1200 x 20"
	assert.Equal(t, want, p.Error())
}

func TestExcerptOfALongLine(t *testing.T) {
	got := excerpt(strings.Repeat("a", 200)+"B"+strings.Repeat("c", 200)+"\x1b", 201)
	line, caret, _ := strings.Cut(got, "\n")
	assert.Equal(t, strings.Index(line, "B"), strings.Index(caret, "^")+len("…")-1, got)
	assert.LessOrEqual(t, len([]rune(line)), longestExcerpt+2)
	assert.Equal(t, "\uFFFD[31m\n^", excerpt("\x1b[31m", 1), "nothing that steers a terminal")
	assert.Empty(t, excerpt("  ", 1))
}

func TestHostileFilesEndSoon(t *testing.T) {
	deep := "load: " + strings.Repeat("[", 5000) + strings.Repeat("]", 5000)
	bomb := "a: &a [x, x, x, x, x, x, x, x, x]\n"
	for c := 'b'; c <= 'k'; c++ {
		bomb += string(c) + ": &" + string(c) + " [" + strings.Repeat("*"+string(c-1)+", ", 9) + "]\n"
	}
	for name, text := range map[string]string{
		"deep":    deep,
		"bomb":    bomb,
		"flat":    "load: [" + strings.Repeat("a,", 300_000) + "]",
		"large":   strings.Repeat("#", mostBytes+1),
		"no end":  strings.Repeat("- '", 20_000),
		"faulty":  head + strings.Repeat("- {box: 1}\n", 20_000),
		"pieces":  head + strings.Repeat("- {box: 1 x 1 x 1, at: [0, 0, 0], count: 1000, step: [1, 0, 0]}\n", 40),
		"unended": "parts: " + strings.Repeat("{", 9000),
	} {
		p := problemsOf(t, text)
		assert.LessOrEqual(t, len(p), mostProblems, name)
		assert.Less(t, len(p.Error()), 20_000, name)
	}
}

func TestOrderInTheFileDoesNotMatter(t *testing.T) {
	w := weighed(t, "parts:\n- {at: [0, 0, 0], box: 1 x 1 x 1}\nmaterial: mix\nmaterials: [{density: 2 t/m3, name: mix}]\nunits: m\nload: late\n")
	assert.InDelta(t, 2000, float64(w.Best), 1e-9)
}

func TestAnAliasIsReportedAndNothingIsReadFromIt(t *testing.T) {
	p := problemsOf(t, head+"- {name: &n a, tube: {outside: 3, wall: 1, height: 2}, at: [0, 0, 0]}\n- {name: b, tube: *n, at: *n, material: *n}\n")
	require.Len(t, p, 4, "%v", p)
	for _, one := range p[1:] {
		assert.Equal(t, 6, one.Line)
		assert.Contains(t, one.Text, "the alias *n")
	}
}

func TestDefaultMaterialFromOutside(t *testing.T) {
	text := "load: a\nunits: mm\nparts:\n" + sound
	l, err := ReadFrom(strings.NewReader(text), "-", nil, Options{As: "yaml", Material: "concrete"})
	require.NoError(t, err)
	assert.True(t, l.Parts[0].MaterialDefault)
	_, err = ReadFrom(strings.NewReader(text), "-", nil, Options{As: "yaml", Material: "concreet"})
	assert.ErrorContains(t, err, "--material")
}

func TestWhatIsNoInput(t *testing.T) {
	files := fstest.MapFS{"a.step": {Data: []byte("x")}, "b.yaml/c": {Data: []byte("x")}}
	for name, want := range map[string]string{
		"a.step":    `the ending ".step" is not that of an input`,
		"none.yaml": "there is no such file",
		"../a.yaml": "not a path within the folder",
		"b.yaml":    "fix: see that it is a file",
	} {
		_, err := Read(files, name, Options{})
		assert.ErrorContains(t, err, want, name)
		assert.IsType(t, Problems{}, err)
	}
	_, err := ReadFrom(strings.NewReader("x"), "-", nil, Options{})
	assert.ErrorContains(t, err, "--as yaml")
}

// Stretch, a wanted attitude and gear between legs as they are read. A load turned 30°
// about y sees up at (−sin 30°, 0, cos 30°).
func TestStretchAttitudeAndGearAreRead(t *testing.T) {
	g := good(t, head+fourPicks+"hook: {above: picks, height: 3000}\nlegs: {lengths: attitude, attitude: {about: y, by: 30}, stretch: {percent: 3 %, at: 10 t}}\nsharing: {equalised: [[A, D]], because: a beam}\n").Rigging
	assert.Equal(t, "attitude", g.Legs.Mode)
	assert.InDeltaSlice(t, []float64{-0.5, 0, 0.8660254}, g.Legs.Up[:], 1e-7)
	assert.InDelta(t, 0.03, g.Legs.Stretch.Part, 1e-12)
	assert.InDelta(t, 10000, float64(g.Legs.Stretch.At), 1e-9)
	assert.True(t, g.Legs.Stretch.Stated())
	assert.Equal(t, &Sharing{Basis: "equalised", Because: "a beam", Equalised: [][]string{{"A", "D"}}}, g.Sharing)
	g = good(t, head+fourPicks+"legs: {lengths: 3000, attitude: {up: [0, 3, 4]}, stretch: {EA: 40 MN}}\n").Rigging
	assert.InDeltaSlice(t, []float64{0, 0.6, 0.8}, g.Legs.Up[:], 1e-12)
	assert.InDelta(t, 40e6, g.Legs.Stretch.EA, 1e-3)
	g = good(t, head+fourPicks+"legs: {lengths: 3000, stretch: {family: synthetic_web, material: nylon}}\n").Rigging
	assert.Equal(t, Stretch{Family: "synthetic_web", Material: "nylon"}, g.Legs.Stretch)
}
