package takeoff

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"plumbhook/geom"
	"plumbhook/units"
)

// skidToWeigh is a load of two known weights, for tests of its weighings.
const skidToWeigh = `load: skid
units: mm
parts:
- {name: frame, weight: 800 kg, at: [1000, 500, 200], tolerance: 10 %, status: calculated}
- {name: cover, weight: 200 kg, at: [2000, 500, 1200], tolerance: 10 %, status: calculated}
weighings:
`

func TestAWeighingIsRead(t *testing.T) {
	l := good(t, skidToWeigh+`
- name: shop, 20 November
  accuracy: 0.5 %
  supports:
  - {name: A, at: [0, 0, 0], reads: 400 kg}
  - {name: B, at: [2400, 0, 0], reads: 410 kg, accuracy: 5 kg}
  - {name: C, at: [2400, 1000, 0], reads: -1 kg, accuracy: 2 kg}
  - {name: D, at: [0, 1000, 0], reads: 1 kg}
  tare: 35 kg
  places: 2
  without: [cover]
  tilt: {about: y, by: 30, accuracy: 0.1}
- cells: [{name: hook, at: [0, 0, 0], reads: 1000 lb, accuracy: 1 %}]
`)
	require.Len(t, l.Weighings, 2)
	w := l.Weighings[0]
	assert.Equal(t, "shop, 20 November", w.Name)
	require.Len(t, w.Cells, 4)
	assert.Equal(t, Reading{Name: "B", At: geom.Vec{2.4, 0, 0}, Reads: 410, Accuracy: 5}, w.Cells[1])
	assert.InDelta(t, 2, float64(w.Cells[0].Accuracy), 1e-12, "0.5 % of 400 kg")
	assert.InDelta(t, 0.10125, float64(w.Cells[3].Accuracy), 1e-12, "0.5 % of a tenth of the average, 810 kg / 4")
	assert.Equal(t, units.Mass(35), w.Tare)
	assert.Equal(t, 0.002, w.Places)
	assert.Equal(t, []string{"cover"}, w.Without)
	assert.InDelta(t, 0.1*3.14159265/180, w.TiltAccuracy, 1e-9)
	// Turned right-handed by 30° about y, the load's x dips: up is then at
	// −sin 30° along x of the load, cos 30° along z.
	near3(t, geom.Vec{-0.5, 0, 0.8660254}, w.Up, 1e-7, "up")
	assert.Equal(t, "weighing 2", l.Weighings[1].Name)
	assert.Equal(t, geom.Vec{0, 0, 1}, l.Weighings[1].Up)
	assert.InDelta(t, 4.5359237, float64(l.Weighings[1].Cells[0].Accuracy), 1e-9, "1 % of 1000 lb")
}

// TestUpTurnsAgainstTheLoad turns the load's up back with the load: it must
// stand plumb.
func TestUpTurnsAgainstTheLoad(t *testing.T) {
	for i, about := range []string{"x", "y", "-x", "-y"} {
		l := good(t, skidToWeigh+"- {cells: [{name: A, at: [0, 0, 0], reads: 900 kg, accuracy: 1 %}], tilt: {about: "+about+", by: 20}}\n")
		turn := geom.TurnAbout(i%2, units.Radians([]float64{20, 20, -20, -20}[i]))
		near3(t, geom.Vec{0, 0, 1}, turn.Mul3x1(l.Weighings[0].Up), 1e-12, about)
	}
}

// TestTakeOffAndCellsTogether folds a weighing of the skid in. The cells: 1030
// kg at x = (515·0 + 515·2.4)/1030 = 1.2 m, as the take-off has it:
// (800·1 + 200·2)/1000 = 1.2 m. Both parts then grow alike, by what their
// variances share: 3 % of (80² + 20²)/3 kg².
func TestTakeOffAndCellsTogether(t *testing.T) {
	l := good(t, skidToWeigh+"- {name: shop, cells: [{name: A, at: [0, 500, 0], reads: 515 kg, accuracy: 1 kg}, {name: B, at: [2400, 500, 0], reads: 515 kg, accuracy: 1 kg}]}\n")
	w, err := l.Weigh()
	require.NoError(t, err)
	out, ok, err := l.AsWeighed(w)
	require.NoError(t, err)
	require.True(t, ok)
	assert.InDelta(t, 1030, float64(out.Weight), 0.05)
	assert.InDelta(t, 1.2, out.CG[0], 1e-3)
	assert.Less(t, float64(out.WeightSigma), 0.9, "two cells of 1 kg: √(2/3) kg and less")
	assert.False(t, out.Conflict)
	assert.Contains(t, out.Text, "shop: weight 30.00 kg more than the take-off, 0.6 sigmas")
	assert.Contains(t, out.Text, "Taken as exact: the places of the cells (shop)")
	assert.Contains(t, out.Text, "agree within 3 sigmas")

	// What is offered as a weighed load can be read, and is that load.
	require.NotEmpty(t, out.Lines)
	again := weighed(t, "load: again\nunits: in\nparts:\n"+strings.Join(out.Lines, "\n")+"\n")
	assert.InDelta(t, float64(out.Weight), float64(again.Best), 0.05)
	near3(t, out.CG, again.CG, 1e-4, "CG")
	assert.GreaterOrEqual(t, float64(again.High), float64(out.Weight+3*out.WeightSigma)-0.05)
	assert.LessOrEqual(t, float64(again.Low), float64(out.Weight-3*out.WeightSigma)+0.05)
	assert.Equal(t, "weighed", again.Parts[0].Status)
	for k := range 3 {
		assert.GreaterOrEqual(t, again.Range.Max[k], out.CG[k]+3*out.CGSigma[k]-1e-4)
	}
}

func TestWithoutWeighingsThereIsNothingToFoldIn(t *testing.T) {
	l := good(t, head+sound)
	w, err := l.Weigh()
	require.NoError(t, err)
	_, ok, err := l.AsWeighed(w)
	assert.NoError(t, err)
	assert.False(t, ok)
}

// TestAConflictNamesWhatWouldExplainIt: the cells read 1200 kg where the
// take-off has 1000, with one sigma √(80² + 20²)/√3 = 47.6 kg: 4.2 sigmas.
func TestAConflictNamesWhatWouldExplainIt(t *testing.T) {
	l := good(t, skidToWeigh+"- {name: shop, cells: [{name: A, at: [0, 500, 0], reads: 400 kg, accuracy: 1 kg}, {name: B, at: [2400, 500, 0], reads: 800 kg, accuracy: 1 kg}]}\n")
	w, err := l.Weigh()
	require.NoError(t, err)
	out, _, err := l.AsWeighed(w)
	require.NoError(t, err)
	assert.True(t, out.Conflict)
	assert.Empty(t, out.Lines)
	assert.InDelta(t, 200/47.6, out.Apart[0].Sigmas, 0.01)
	// CG from the cells: 800·2.4/1200 = 1.6 m, of the take-off 1.2 m.
	assert.Contains(t, out.Text, "CONFLICT")
	assert.Contains(t, out.Text, "CG along x 400 mm more than the take-off")
	assert.Contains(t, out.Text, "would explain it: cell B (shop) reads", "the likeliest comes first")
	assert.Contains(t, out.Text, "cover weighs")
	assert.NotContains(t, out.Text, "frame weighs", "it stands on the other side of the CG")
	assert.True(t, out.Parts[1].Beyond, "the cover can't weigh that much")
}

func TestWeighingsWithAnAllowanceAndASubAssembly(t *testing.T) {
	l := good(t, skidToWeigh+"- {cells: [{name: A, at: [0, 0, 0], reads: 830 kg, accuracy: 1 kg}], without: [cover, bolts]}\nallowances: [{name: bolts, weight: 20 kg, low: 10 kg, high: 30 kg}]\n")
	w, err := l.Weigh()
	require.NoError(t, err)
	out, _, err := l.AsWeighed(w)
	require.NoError(t, err)
	require.Len(t, out.Parts, 3)
	assert.Equal(t, "bolts", out.Parts[2].Name)
	assert.InDelta(t, 20, float64(out.Parts[2].After), 1e-9)
	assert.InDelta(t, 830, float64(out.Parts[0].After), 0.1)
	known := weighedNames(&Load{Parts: []Part{{Name: "skid / pump / motor"}, {Name: "frame"}}})
	assert.Equal(t, map[string]bool{"skid / pump / motor": true, "skid": true, "skid / pump": true, "frame": true}, known)
}

// badWeighings have one fault each; they stand after skidToWeigh, from line 7 on.
var badWeighings = []struct{ name, file, at, text, fix string }{
	{"no list", "  shop\n", "7:3", `expected a list of {name, cells}`, "write a list"},
	{"no cells", "- {name: shop}\n", "7:3", "a weighing has no `cells`", "{name, at, reads, accuracy}"},
	{"empty cells", "- {cells: []}\n", "7:11", "an empty list", "{name, at, reads, accuracy}"},
	{"two spellings", "- {cells: [{name: A, at: [0, 0, 0], reads: 9 kg, accuracy: 1 %}], supports: []}\n", "7:67", "means the same as", "keep one"},
	{"no reading", "- {cells: [{name: A, at: [0, 0, 0], accuracy: 1 %}]}\n", "7:12", "a cell has no `reads`", "write `reads:`"},
	{"no accuracy", "- {cells: [{name: A, at: [0, 0, 0], reads: 9 kg}]}\n", "7:12", `the cell "A" has no ` + "`accuracy`", "0.5 % or 5 kg"},
	{"accuracy of nothing", "- {cells: [{name: A, at: [0, 0, 0], reads: 9 kg, accuracy: 0 %}]}\n", "7:60", "from 0.0001 % to 50 %", "0.5 % or 5 kg"},
	{"accuracy without a unit", "- {cells: [{name: A, at: [0, 0, 0], reads: 9 kg, accuracy: 5}]}\n", "7:60", "5", "kg"},
	{"reading without a unit", "- {cells: [{name: A, at: [0, 0, 0], reads: 9, accuracy: 1 kg}]}\n", "7:44", "9", "kg"},
	{"reading far too great", "- {cells: [{name: A, at: [0, 0, 0], reads: 2000000 t, accuracy: 1 kg}]}\n", "7:44", "more than 1e+09 kg", "unit"},
	{"below zero", "- {cells: [{name: A, at: [0, 0, 0], reads: -9 kg, accuracy: 1 kg}, {name: B, at: [0, 0, 0], reads: 90 kg, accuracy: 1 kg}]}\n", "7:12", "below zero by more than its accuracy", "zero"},
	{"less than the tare", "- {tare: 9 kg, cells: [{name: A, at: [0, 0, 0], reads: 9 kg, accuracy: 1 kg}]}\n", "7:3", "nothing is left for the load", "tare"},
	{"cell twice", "- {accuracy: 1 %, cells: [{name: A, at: [0, 0, 0], reads: 9 kg}, {name: A, at: [1, 0, 0], reads: 9 kg}]}\n", "7:66", `the cell "A" is here twice, first on line 7`, "its own name"},
	{"weighing twice", "- {name: a, cells: [{name: A, at: [0, 0, 0], reads: 9 kg, accuracy: 1 %}]}\n- {name: a, cells: [{name: A, at: [0, 0, 0], reads: 9 kg, accuracy: 1 %}]}\n", "8:3", `the weighing "a" is here twice, first on line 7`, "its own name"},
	{"unknown part", "- {without: [covr], cells: [{name: A, at: [0, 0, 0], reads: 9 kg, accuracy: 1 %}]}\n", "7:14", `no part or allowance is called "covr"`, "did you mean `cover`?"},
	{"strange part", "- {without: [engine room], cells: [{name: A, at: [0, 0, 0], reads: 9 kg, accuracy: 1 %}]}\n", "7:14", `no part or allowance is called "engine room"`, "there are: cover, frame"},
	{"nothing on", "- {without: [cover, frame], cells: [{name: A, at: [0, 0, 0], reads: 9 kg, accuracy: 1 %}]}\n", "7:3", "no part of the load was on", "without"},
	{"tilt about z", "- {tilt: {about: z, by: 8}, cells: [{name: A, at: [0, 0, 0], reads: 9 kg, accuracy: 1 %}]}\n", "7:18", `"z" is not one of the words`, "x, y, -x or -y"},
	{"tilt without an angle", "- {tilt: {about: y}, cells: [{name: A, at: [0, 0, 0], reads: 9 kg, accuracy: 1 %}]}\n", "7:10", "tilt has no `by`", "30"},
	{"tilt too far", "- {tilt: {about: y, by: 400}, cells: [{name: A, at: [0, 0, 0], reads: 9 kg, accuracy: 1 %}]}\n", "7:25", "between -360 and 360", "30"},
}

func TestBadWeighings(t *testing.T) {
	for _, tt := range badWeighings {
		t.Run(tt.name, func(t *testing.T) {
			p := problemsOf(t, skidToWeigh+tt.file)
			require.Len(t, p, 1, "want this problem alone:\n%v", p)
			assert.Equal(t, tt.at, fmt.Sprintf("%d:%d", p[0].Line, p[0].Column), "place of %v", p[0])
			assert.Contains(t, p[0].Text, tt.text)
			assert.Contains(t, p[0].Fix, tt.fix)
		})
	}
}

// FuzzWeighings reads any weighings of a load: what comes of them are figures,
// or an error that says something.
func FuzzWeighings(f *testing.F) {
	for _, tt := range badWeighings {
		f.Add(tt.file)
	}
	f.Add("- {cells: [{name: A, at: [0, 500, 0], reads: 515 kg, accuracy: 1 kg}, {name: B, at: [2400, 500, 0], reads: 515 kg, accuracy: 1 kg}]}\n" +
		"- {cells: [{name: A, at: [0, 0, 9], reads: 1 t, accuracy: 1 %}], tare: 3 kg, without: [cover], places: 3, tilt: {about: -x, by: 90, accuracy: 1}}\n")
	f.Fuzz(func(t *testing.T, text string) {
		l, err := readText(skidToWeigh+text, nil)
		if err != nil {
			return
		}
		w, err := l.Weigh()
		require.NoError(t, err)
		out, ok, err := l.AsWeighed(w)
		if err != nil {
			require.NotEmpty(t, err.Error())
			return
		}
		if !ok {
			return
		}
		figures := []float64{float64(out.Weight), float64(out.WeightSigma), out.Sigmas, out.CG.Len(), out.CGSigma.Len()}
		for _, s := range out.Shown {
			figures = append(figures, float64(s.Read), float64(s.ReadSigma), s.ReadCG.Len(), s.ReadCGSigma.Len())
		}
		for _, p := range out.Parts {
			figures = append(figures, float64(p.After), float64(p.Sigma))
		}
		for _, c := range out.Cells {
			figures = append(figures, float64(c.Off), c.Sigmas)
		}
		for _, v := range figures {
			require.False(t, math.IsNaN(v) || math.IsInf(v, 0), "not a figure in %+v", out)
		}
	})
}
