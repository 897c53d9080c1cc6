package takeoff

import (
	"errors"
	"math"
	"slices"
	"strings"
	"testing"
	"testing/fstest"
)

// FuzzRead reads anything: it must end without a panic, with figures that are
// figures or with problems that say where, what and how to mend it.
func FuzzRead(f *testing.F) {
	f.Add(housing)
	f.Add(blockAndWedge)
	for _, tt := range badFiles {
		if text, whole := strings.CutPrefix(tt.file, "FILE"); whole {
			f.Add(text)
		} else {
			f.Add(head + text)
		}
	}
	for _, tt := range slices.Concat(badLines, badKinds, badStock, badContents, badWeighings, badTwoHooks) {
		f.Add(head + tt.file)
	}
	for _, p := range someParts {
		f.Add(head + "- name: a\n  " + p + "\n  at: [0, 0, 0]\n  count: 3\n  step: [1, 2, 3]\n")
	}
	f.Add(head + handed + "  count: 2\n  step: [0, 0, 100]\n  around: {axis: y, through: [1, 2, 3], count: 3, angle: 40}\n  mirror: {across: z, at: 900}\n")
	f.Add(head + "- {name: a, load: pump.yaml, corner: [0, 0, 0], along: -y, count: 3, step: [9 m, 0, 0], mirror: {across: x, at: -1 m}}\n")
	f.Add(tankInStates)
	f.Add(withRack + "picks: [{name: A, at: [0, 0, 0]}]\nlegs: {lengths: 2660, hardware: 160}\n")
	files := fstest.MapFS{"bracket.stl": file(cubeSTL("a", 100)), "pump.yaml": file(pump), "flange.dxf": file(flangeDXF(4, 0)), "rack.csv": file(rackCSV), "circle.yaml": file(head + "- {load: circle.yaml, at: [0, 0, 0]}\n")}
	f.Fuzz(func(t *testing.T, text string) {
		l, err := ReadFrom(strings.NewReader(text), "load.yaml", files, Options{As: "yaml"})
		if err == nil {
			checkFigures(t, l)
			return
		}
		var problems Problems
		if !errors.As(err, &problems) || len(problems) == 0 || problems.Error() == "" {
			t.Fatalf("error of another kind: %v", err)
		}
		for _, p := range problems {
			if p.Line < 1 || p.Column < 1 || p.Text == "" || p.Fix == "" {
				t.Fatalf("problem without a place, a text or a fix: %+v", p)
			}
		}
	})
}

// tankInStates has contents, allowances, states and weighings.
const tankInStates = `load: tank
units: mm
material: steel
parts:
- {name: tank, vessel: {inside: 800, wall: 10, heads: ellipsoidal 2:1}, from: [0, 0, 900], to: [2000, 0, 900], contents: {fluid: water, fill: 40 %}}
- {name: pit, weight: 300 kg, box: 500 x 500 x 500, corner: [0, 0, 0], position: 20, form: bought-in, status: weighed,
   contents: {fluid: {name: oil, density: 870 kg/m3}, depth: 200, baffled: true, inside: {box: 400 x 400 x 400, corner: [50, 50, 50]}}, count: 2, step: [900, 0, 0]}
- {name: plate, plate: {outline: flange.dxf, thickness: 20}, at: [0, 0, 0], form: EN 10029 class B}
- {name: skin, surface: bracket.stl, thickness: 3, units: mm, at: [0, 0, 0]}
allowances:
- {name: weld, of: steel, add: 1.5 %}
- {name: paint, of: all, per area: 0.4 kg/m2, share: 50 %}
- {name: lining, of: tank, thickness: 20, material: concrete, low: 15, high: 30}
- {name: bolts, weight: 12 kg, at: [1, 2, 3]}
states:
  dry: {without: [tank contents, pit contents]}
  test: {contents: {tank: {fluid: water, fill: 100 %}}}
  bare: {only: [tank]}
weighings:
- {name: a, without: [pit], accuracy: 1 %, places: 5, cells: [{name: A, at: [0, 0, 0], reads: 400 kg}, {name: B, at: [2000, 0, 0], reads: 410 kg, accuracy: 5 kg}]}
- {name: b, tilt: {about: y, by: 8}, accuracy: 1 %, cells: [{name: A, at: [0, 0, 0], reads: 700 kg}, {name: B, at: [2000, 0, 0], reads: 410 kg}]}
`

func checkFigures(t *testing.T, l *Load) {
	for _, s := range l.States {
		in, err := l.In(s.Name)
		if err != nil {
			t.Fatalf("a state that was read is none: %v", err)
		}
		in.States, in.Weighings = nil, nil
		checkFigures(t, in)
	}
	w, err := l.Weigh()
	if err != nil {
		t.Fatalf("a load that was read can't be weighed: %v", err)
	}
	if r, ok, err := l.AsWeighed(w); ok && err == nil && (math.IsNaN(float64(r.Weight)) || math.IsNaN(r.CG.Len())) {
		t.Fatalf("not a figure: %+v", r)
	}
	figures := append([]float64{float64(w.Best), float64(w.Low), float64(w.High), w.Volume}, w.Inertia[:]...)
	for i := range 3 {
		figures = append(figures, w.CG[i], w.Range.Min[i], w.Range.Max[i], w.Extent.Min[i], w.Extent.Max[i])
	}
	for _, v := range figures {
		if math.IsNaN(v) || math.IsInf(v, 0) {
			t.Fatalf("not a figure in %+v", w)
		}
	}
	if !(0 < w.Low && w.Low <= w.Best && w.Best <= w.High) {
		t.Fatalf("want 0 < low <= best <= high, got %g, %g, %g", float64(w.Low), float64(w.Best), float64(w.High))
	}
	size := 1e-6 * (1 + w.Extent.Diagonal() + w.CG.Len())
	for i := range 3 {
		if w.CG[i] < w.Range.Min[i]-size || w.CG[i] > w.Range.Max[i]+size {
			t.Fatalf("CG %v outside its range %v", w.CG, w.Range)
		}
	}
}
