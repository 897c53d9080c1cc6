package takeoff

import (
	"fmt"
	"math"

	"plumbhook/geom"
	"plumbhook/units"
)

// shown takes the weighings of each set of parts together, without the
// take-off.
func (f *fold) shown() []Shown {
	var order []string
	sets := map[string][]int{}
	for i, w := range f.weighings {
		key := fmt.Sprint(w.on)
		if sets[key] == nil {
			order = append(order, key)
		}
		sets[key] = append(sets[key], i)
	}
	var out []Shown
	for _, key := range order {
		out = append(out, f.shownOf(sets[key]))
	}
	return out
}

// shownOf weighs each weighing by how well it is known: the mean of the
// weights, and for the CG the least squares of e·c = e·middle.
func (f *fold) shownOf(set []int) Shown {
	first := f.weighings[set[0]]
	out := Shown{Without: first.Without}
	var sure, weight, span float64
	var rows []row
	for _, i := range set {
		w := f.weighings[i]
		out.Of = append(out.Of, w.Name)
		for _, r := range f.rows {
			if r.weighing != i {
				continue
			}
			if r.what == weightItself {
				s := 1 / f.noise(r, r)
				sure, weight = sure+s, weight+s*w.weight
				continue
			}
			r.about = w.middle // an error of the weight then leaves the CG alone
			rows = append(rows, r)
		}
		for _, c := range w.Cells {
			span = max(span, c.At.Sub(w.Cells[0].At).Len())
		}
	}
	out.Read, out.ReadSigma = units.Mass(weight/sure), units.Mass(1/math.Sqrt(sure))
	if len(rows) > 0 {
		f.solveCG(rows, first.middle, span, &out)
	}
	return out
}

// solveCG solves e·c = e·middle. What the cells don't tell is held by a belief
// a thousand times as wide as they stand apart; an axis along which the CG is
// then known to less than that width is one that they do tell.
func (f *fold) solveCG(rows []row, from geom.Vec, span float64, out *Shown) {
	noise := square(len(rows))
	values := make([]float64, len(rows))
	for i, a := range rows {
		w := f.weighings[a.weighing]
		values[i] = a.along.Dot(w.middle.Sub(from))
		for j, b := range rows {
			noise[i][j] = f.noise(a, b) / (w.weight * f.weighings[b.weighing].weight)
		}
	}
	root, ok := factor(noise)
	if !ok {
		return
	}
	sure, told := square(3), make([]float64, 3)
	sureValues := root.solve(values)
	for k := range 3 {
		column := make([]float64, len(rows))
		for i, r := range rows {
			column[i] = r.along[k]
			told[k] += r.along[k] * sureValues[i]
		}
		for i, x := range root.solve(column) {
			for m := range 3 {
				sure[k][m] += x * rows[i].along[m]
			}
		}
		sure[k][k] += 1 / (1e6 * span * span)
	}
	if root, ok = factor(sure); !ok {
		return
	}
	cg := root.solve(told)
	for k := range 3 {
		e := axis(k)
		sigma := math.Sqrt(root.solve(e[:])[k])
		if out.Known[k] = sigma < span; out.Known[k] {
			out.ReadCG[k], out.ReadCGSigma[k] = from[k]+cg[k], sigma
		}
	}
}
