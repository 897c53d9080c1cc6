package takeoff

import (
	"crypto/sha256"
	"encoding/hex"
	"fmt"
	"slices"
	"strings"
	"testing"
	"testing/fstest"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"plumbhook/geom"
	"plumbhook/units"
)

// pump is a sub-assembly in other units and of another material than the loads
// that it stands in, 2 in off its own datum.
const pump = `load: Pump set
drawing: P-7 rev A
units: in
material: concrete
parts:
- {name: base, box: 40 x 20 x 4, corner: [2, 0, 0], cuts: [{cylinder: {diameter: 5, height: 4}, at: [10, 10, 0]}]}
- {name: motor, weight: 200 lb, center: [30, 10, 12], box: 10 x 10 x 16, tolerance: 5 %}
- {name: anchor, rod: {diameter: 1, height: 8}, at: [4, 2, 4], material: carbon steel, count: 2, step: [36, 0, 0]}
`

// readFiles reads load.yaml from a folder.
func readFiles(files map[string]string) (*Load, error) {
	folder := fstest.MapFS{}
	for name, text := range files {
		folder[name] = file(text)
	}
	return Read(folder, "load.yaml", Options{})
}

// problemsIn reads load.yaml from a folder; it must be wrong.
func problemsIn(t *testing.T, files map[string]string) Problems {
	t.Helper()
	_, err := readFiles(files)
	require.Error(t, err)
	require.IsType(t, Problems{}, err)
	return err.(Problems)
}

func place(p Problem) string { return fmt.Sprintf("%s:%d:%d", p.File, p.Line, p.Column) }

// The pump set stands twice, a quarter turn about z, its origin at 100 in, 0
// and 100 in, 50 in. By hand: what lay at x, y lies at 100 − y, x inches.
func TestSubAssemblyIsAsGoodAsItsPartsWrittenOut(t *testing.T) {
	const byHand = `load: by hand
units: in
material: concrete
parts:
- {name: base, box: 20 x 40 x 4, corner: [80, 2, 0], cuts: [{cylinder: {diameter: 5, height: 4}, at: [90, 10, 0]}], count: 2, step: [0, 50, 0]}
- {name: motor, weight: 200 lb, center: [90, 30, 12], box: 10 x 10 x 16, tolerance: 5 %, count: 2, step: [0, 50, 0]}
- {name: anchors west, rod: {diameter: 1, height: 8}, at: [98, 4, 4], material: carbon steel, count: 2, step: [0, 36, 0]}
- {name: anchors east, rod: {diameter: 1, height: 8}, at: [98, 54, 4], material: carbon steel, count: 2, step: [0, 36, 0]}
`
	l, err := readFiles(map[string]string{"load.yaml": head + `- name: north and south
  load: parts/pump.yaml
  at: [2540, 0, 0]
  turn: [z 90]
  count: 2
  step: [0, 1270, 0]
`, "parts/pump.yaml": pump})
	require.NoError(t, err)
	w, err := l.Weigh()
	require.NoError(t, err)
	sameLoad(t, weighed(t, byHand), w)

	require.Len(t, l.Parts, 3)
	anchor := l.Parts[2]
	assert.Equal(t, "north and south / anchor", anchor.Name)
	assert.Equal(t, 4, anchor.Count)
	assert.Equal(t, "parts/pump.yaml", anchor.From)
	assert.Equal(t, 8, anchor.Line, "in the file of the pump set")
	assert.Contains(t, anchor.Basis, "; in parts/pump.yaml, drawing P-7 rev A")
}

// Wherever a sub-assembly stands, its weight stays and its CG and inertia go
// with it as those of a rigid body.
func TestSubAssemblyIsARigidBody(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		inner := drawLoad(t)([3]int{})
		c, a := rapid.IntRange(-9000, 9000), rapid.IntRange(-180, 180)
		at := [3]int{c.Draw(t, "x"), c.Draw(t, "y"), c.Draw(t, "z")}
		about, by := rapid.IntRange(0, 2).Draw(t, "axis"), a.Draw(t, "degrees")
		l, err := readFiles(map[string]string{"sub.yaml": inner, "load.yaml": head +
			fmt.Sprintf("- {name: a, load: sub.yaml, at: [%d, %d, %d], turn: [%c %d]}\n", at[0], at[1], at[2], "xyz"[about], by)})
		require.NoError(t, err)
		got, err := l.Weigh()
		require.NoError(t, err)
		alone := weigh(t, inner)
		assert.InEpsilon(t, float64(alone.Best), float64(got.Best), 1e-12)
		assert.InEpsilon(t, float64(alone.High), float64(got.High), 1e-12)
		stand := geom.Pose{Turn: geom.TurnAbout(about, units.Radians(float64(by))), Move: geom.Vec{float64(at[0]), float64(at[1]), float64(at[2])}.Mul(0.001)}
		cg := stand.Point(alone.CG)
		inertia := stand.Turn.Mul3(alone.Inertia).Mul3(stand.Turn.Transpose())
		for i := range 3 {
			assert.InDelta(t, cg[i], got.CG[i], 1e-9, "CG")
		}
		for i := range 9 {
			assert.InDelta(t, inertia[i], got.Inertia[i], 1e-9*(1e-3+alone.Inertia.Trace()), "inertia")
		}
	})
}

// A pattern within a pattern: each bracket is a mirrored pair, four pairs stand
// around, and the whole is mirrored: the same as two pairs of rings.
func TestPatternsOfASubAssemblyWithPatterns(t *testing.T) {
	pair := head + handed + "  mirror: {across: x, at: 200}\n"
	l, err := readFiles(map[string]string{"pair.yaml": pair, "load.yaml": head + `- name: ring
  load: pair.yaml
  corner: [1000, -200, 0]
  along: -x
  around: {axis: z, through: [0, 0, 0], count: 4}
  mirror: {across: z, at: 2000}
`})
	require.NoError(t, err)
	p := l.Parts[0]
	require.Equal(t, 16, p.Count)
	w, err := l.Weigh()
	require.NoError(t, err)
	assert.InEpsilon(t, 16*float64(good(t, head+handed).Parts[0].massOfOne()), float64(w.Best), 1e-12)
	near3(t, geom.Vec{0, 0, 2}, w.CG, 1e-12, "CG: on the axis and in the plane")
	near3(t, geom.Vec{1, -0.2, 0}, geom.ExtentOf(p.Solid, p.Pose).Union(geom.ExtentOf(p.Solid, p.Places[1].After(p.Pose))).Min, 1e-12, "corner of the first pair")
	mirrored := 0
	for _, c := range p.Places {
		if c.Mirrored() {
			mirrored++
		}
	}
	assert.Equal(t, 8, mirrored)
}

func TestWhatASubAssemblyWarnsOf(t *testing.T) {
	sub := pump + "- {name: guess, weight: 5 kg, at: [0, 0, 0]}\npicks: [{name: A, at: [0, 0, 10]}]\n"
	l, err := readFiles(map[string]string{"pump.yaml": sub, "load.yaml": head +
		"- {load: pump.yaml, at: [0, 0, 0]}\n- {name: second, load: ./pump.yaml, at: [9000, 0, 0]}\n- {name: own, box: 9 x 9 x 9, at: [0, 0, 0]}\n"})
	require.NoError(t, err)
	l.Warnings = slices.DeleteFunc(l.Warnings, func(w Warning) bool { return w.Code == "cg-of-box" })
	var got []string
	for _, w := range l.Warnings {
		got = append(got, w.Code+" of "+w.Part)
	}
	assert.Equal(t, []string{"status-default of Pump set / guess", "material-default of ", "load-rigging of Pump set",
		"status-default of second / guess", "material-default of "}, got)
	assert.Contains(t, l.Warnings[1].Text, "pump.yaml: parts that name no material took the load's, plain concrete (written: concrete): base")
	assert.Contains(t, l.Warnings[4].Text, "carbon steel (written: structural steel): own", "not the pump's")
	assert.Equal(t, Rigging{}, l.Rigging)
}

func TestAllBytesAreInTheFingerprint(t *testing.T) {
	stl := cubeSTL("a", 100)
	sub := head + "- {name: lug, mesh: a.stl, units: mm, at: [0, 0, 0]}\n"
	top := head + "- {name: a, load: sub/lug.yaml, at: [0, 0, 0]}\n- {name: b, load: sub/lug.yaml, at: [9, 0, 0]}\n"
	l, err := readFiles(map[string]string{"load.yaml": top, "sub/lug.yaml": sub, "sub/a.stl": stl})
	require.NoError(t, err)
	sum := sha256.Sum256([]byte(top + sub + stl))
	assert.Equal(t, hex.EncodeToString(sum[:]), l.SHA256)
}

func TestSubAssembliesThatAreWrong(t *testing.T) {
	for name, tt := range map[string]struct {
		part, sub     string // sub is sub.yaml
		at, text, fix string
	}{
		"not there":        {"load: pump.yaml, at: [0, 0, 0]", "", "load.yaml:5:19", "the load file pump.yaml can't be read: there is no such file", "looked for as pump.yaml"},
		"above":            {"load: ../sub.yaml, at: [0, 0, 0]", "", "load.yaml:5:19", "leaves the folder of the load file", "parts/pump.yaml"},
		"absolute":         {"load: /sub.yaml, at: [0, 0, 0]", "", "load.yaml:5:19", "leaves the folder", "beside the load file"},
		"a mesh":           {"load: a.stl, at: [0, 0, 0]", "", "load.yaml:5:19", "not that of a load file", "a mesh is named by `mesh`"},
		"a folder":         {"load: dir.yaml, at: [0, 0, 0]", "", "load.yaml:5:19", "can't be read", "may be read"},
		"itself":           {"load: load.yaml, at: [0, 0, 0]", "", "load.yaml:5:19", "in a circle: load.yaml → load.yaml", "a part of itself"},
		"a circle":         {"load: sub.yaml, at: [0, 0, 0]", head + "- load: load.yaml\n  at: [0, 0, 0]\n", "sub.yaml:5:9", "in a circle: load.yaml → sub.yaml → load.yaml", "take one of these names away"},
		"a bad file":       {"load: sub.yaml, at: [0, 0, 0]", head + "- {name: a, bux: 1 x 1 x 1, at: [0, 0, 0]}\n", "sub.yaml:5:13", `unknown key "bux" in a part`, "did you mean `box`?"},
		"bad YAML":         {"load: sub.yaml, at: [0, 0, 0]", "load: [", "sub.yaml:1:1", "not readable as YAML", "brackets"},
		"no material":      {"load: sub.yaml, at: [0, 0, 0]", "load: s\nunits: mm\nparts:\n- {name: a, box: 1 x 1 x 1, at: [0, 0, 0]}\n", "sub.yaml:4:3", "no material", "once at the top"},
		"no place":         {"load: sub.yaml", head + sound, "load.yaml:5:3", "no place in the load", "`at`"},
		"between two ends": {"load: sub.yaml, from: [0, 0, 0], to: [9, 0, 0]", head + sound, "load.yaml:5:3", "can't be placed by `from` and `to`", "own origin"},
		"of a material":    {"load: sub.yaml, at: [0, 0, 0], material: concrete", head + sound, "load.yaml:5:44", "takes no `material`", "in that file"},
		"of a tolerance":   {"load: sub.yaml, at: [0, 0, 0], tolerance: 5 %", head + sound, "load.yaml:5:44", "takes no `tolerance`", "in that file"},
		"with units":       {"load: sub.yaml, at: [0, 0, 0], units: mm", head + sound, "load.yaml:5:51", "the unit of its mesh file", "take it away"},
		"with a box":       {"load: sub.yaml, at: [0, 0, 0], box: 1 x 1 x 1", head + sound, "load.yaml:5:3", "several things at once: box, load", "make a part of each"},
		"no text":          {"load: [sub.yaml], at: [0, 0, 0]", head + sound, "load.yaml:5:19", "expected a text", "write a text"},
		"around itself":    {"load: sub.yaml, at: [0, 0, 0], around: {axis: z, through: [0, 0, 0], count: 2}", head + sound, "load.yaml:5:52", "lie in the same place", "away from"},
		"too many":         {"load: sub.yaml, at: [0, 0, 0], count: 201, step: [0, 0, 9]", head + sound + "  count: 100\n  step: [9, 0, 0]\n", "load.yaml:5:3", "more than 20000 pieces", "join small parts"},
	} {
		t.Run(name, func(t *testing.T) {
			files := map[string]string{"load.yaml": head + "- {name: a, " + tt.part + "}\n", "a.stl": cubeSTL("a", 1), "dir.yaml/x": ""}
			if tt.sub != "" {
				files["sub.yaml"] = tt.sub
			}
			p := problemsIn(t, files)
			require.Len(t, p, 1, "want this problem alone:\n%v", p)
			assert.Equal(t, tt.at, place(p[0]), "%v", p)
			assert.Contains(t, p[0].Text, tt.text)
			assert.Contains(t, p[0].Fix, tt.fix)
			assert.NotEmpty(t, p[0].Excerpt)
		})
	}
	_, err := ReadFrom(strings.NewReader(head+"- {name: a, load: sub.yaml, at: [0, 0, 0]}\n"), "load.yaml", nil, Options{As: "yaml"})
	assert.ErrorContains(t, err, "there is no folder to read it from")
}

func TestProblemsOfAllFilesAreToldOnceFileByFile(t *testing.T) {
	bad := "load: s\nunits: mm\nparts:\n- {name: a, box: 0 x 1 x 1}\n- {name: b, weight: 0 kg, at: [0, 0, 0]}\n"
	p := problemsIn(t, map[string]string{"bad.yaml": bad, "load.yaml": head +
		"- {name: a, load: bad.yaml, at: [0, 0, 0]}\n- {name: b, load: bad.yaml, at: [1, 0, 0]}\n- {name: c, box: 1}\n"})
	var got []string
	for _, one := range p {
		got = append(got, place(one))
	}
	assert.Equal(t, []string{"load.yaml:7:3", "load.yaml:7:18", "bad.yaml:4:3", "bad.yaml:4:3", "bad.yaml:4:18", "bad.yaml:5:21"}, got)
	assert.Contains(t, p[4].Excerpt, "box: 0 x 1 x 1")
}

// nested are load files one within the other: load.yaml names n1.yaml, and so
// on down to a plate.
func nested(levels int) map[string]string {
	files := map[string]string{"load.yaml": head + "- {name: n0, load: n1.yaml, at: [1000, 0, 0], along: x}\n"}
	for i := 1; i < levels; i++ {
		files[fmt.Sprintf("n%d.yaml", i)] = head + fmt.Sprintf("- {name: n%d, load: n%d.yaml, at: [1000, 0, 0], along: x}\n", i, i+1)
	}
	files[fmt.Sprintf("n%d.yaml", levels)] = head + sound
	return files
}

func TestLoadFilesWithinLoadFiles(t *testing.T) {
	l, err := readFiles(nested(8))
	require.NoError(t, err)
	assert.Equal(t, "n0 / n1 / n2 / n3 / n4 / n5 / n6 / n7 / plate", l.Parts[0].Name)
	// `along: x` is a quarter turn about y, x to −z and z to x. Two of them put
	// the second file at −x, four bring it back: no shift is left after four,
	// nor after eight, and the plate lies as it was drawn.
	near3(t, geom.Vec{0, 0, 0.005}, l.Parts[0].CG(), 1e-12, "CG")

	p := problemsIn(t, nested(9))
	require.Len(t, p, 1)
	assert.Equal(t, "n8.yaml:5:20", place(p[0]))
	assert.Contains(t, p[0].Text, "more than 8 load files lie one within the other: load.yaml → n1.yaml → ")

	// Nor by way of a file that has been read already from higher up.
	files := nested(9)
	files["load.yaml"] = head + "- {name: low, load: n4.yaml, at: [0, 0, 0]}\n- {name: n0, load: n1.yaml, at: [9, 0, 0]}\n"
	p = problemsIn(t, files)
	require.Len(t, p, 1)
	assert.Equal(t, "n3.yaml:5:20", place(p[0]))
}

func TestManySubAssembliesEndSoon(t *testing.T) {
	files := map[string]string{"n7.yaml": head + sound}
	for i := range 7 {
		name := fmt.Sprintf("n%d.yaml", i)
		if i == 0 {
			name = "load.yaml"
		}
		files[name] = head + strings.Repeat(fmt.Sprintf("- {load: n%d.yaml, at: [0, 0, 0]}\n", i+1), 100)
	}
	p := problemsIn(t, files)
	assert.Contains(t, p[0].Text, "more than 20000 pieces")
	assert.Equal(t, "n4.yaml", p[0].File, "100 in n6, 10 000 in n5, too many in n4")
}

// Two assemblies of one file, and a pin that sits in a block of the one: the
// block of the other keeps its weight. By hand: a block of 1000 cm³ less a bolt
// of π/4 · 1² · 5 = 3.926990817 cm³, and in the north less a pin of 1 cm³.
func TestAssembliesOfOneFileAreDisplacedOnTheirOwn(t *testing.T) {
	l, err := readFiles(map[string]string{"sub.yaml": head + `- {name: block, box: 100 x 100 x 100, at: [0, 0, 0]}
- {name: bolt, rod: {diameter: 10, height: 50}, at: [0, 0, 50], displaces: block}
`, "load.yaml": head + `- {name: north, load: sub.yaml, at: [0, 0, 0], turn: [x 90]}
- {name: south, load: sub.yaml, at: [0, 500, 0]}
- {name: pin, box: 10 x 10 x 10, center: [20, -50, 20], displaces: north / block}
`})
	require.NoError(t, err)
	assert.InDelta(t, 995.073009183e-6, l.Parts[0].volume(), 1e-15)
	assert.InDelta(t, 996.073009183e-6, l.Parts[2].volume(), 1e-15)
	w, err := l.Weigh()
	require.NoError(t, err)
	assert.InDelta(t, 2000e-6*7850, float64(w.Best), 1e-9, "both blocks full again")
}

// States and weighings of a sub-assembly's own file count there alone, and that is
// said, once for a file.
func TestStatesOfASubAssemblyAreNotUsed(t *testing.T) {
	const body = "load: pump\nunits: mm\nparts:\n- {name: body, weight: 100 kg, at: [0, 0, 0], status: weighed}\n- {name: lid, weight: 9 kg, at: [0, 0, 0], status: weighed}\n"
	const states = "states: {bare: {without: lid}}\n"
	const weighings = "weighings: [{name: shop, accuracy: 1 kg, cells: [{name: A, at: [0, 0, 0], reads: 109 kg}]}]\n"
	for rest, want := range map[string]Warning{
		"":                 {},
		states:             {Text: "pump.yaml: its states are not used here: it stands in the load with all that it lists", Note: true},
		weighings:          {Text: "pump.yaml: its weighings are not used here: nothing of what was read there counts"},
		states + weighings: {Text: "pump.yaml: its states and weighings are not used here: it stands in the load with all that it lists, and nothing of what was read there counts"},
	} {
		l, err := readFiles(map[string]string{"pump.yaml": body + rest,
			"load.yaml": "load: test\nunits: mm\nparts:\n- {name: p, load: pump.yaml, at: [0, 0, 0]}\n- {name: q, load: pump.yaml, at: [900, 0, 0]}\n"})
		require.NoError(t, err)
		got := warnedOf(t, l, "load-states")
		assert.Equal(t, want.Text, got.Text)
		assert.Equal(t, want.Note, got.Note)
	}
}
