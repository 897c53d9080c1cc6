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
	for _, tt := range slices.Concat(badLines, badKinds, badStock) {
		f.Add(head + tt.file)
	}
	for _, p := range someParts {
		f.Add(head + "- name: a\n  " + p + "\n  at: [0, 0, 0]\n  count: 3\n  step: [1, 2, 3]\n")
	}
	f.Add(head + handed + "  count: 2\n  step: [0, 0, 100]\n  around: {axis: y, through: [1, 2, 3], count: 3, angle: 40}\n  mirror: {across: z, at: 900}\n")
	f.Add(head + "- {name: a, load: pump.yaml, corner: [0, 0, 0], along: -y, count: 3, step: [9 m, 0, 0], mirror: {across: x, at: -1 m}}\n")
	files := fstest.MapFS{"bracket.stl": file(cubeSTL("a", 100)), "pump.yaml": file(pump), "circle.yaml": file(head + "- {load: circle.yaml, at: [0, 0, 0]}\n")}
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

func checkFigures(t *testing.T, l *Load) {
	w, err := l.Weigh()
	if err != nil {
		t.Fatalf("a load that was read can't be weighed: %v", err)
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
