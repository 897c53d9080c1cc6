package takeoff

import (
	"fmt"
	"math"

	"plumbhook/geom"
	"plumbhook/units"
)

// conflictSigmas is how far take-off and cells may be from each other: three
// standard deviations, that 99.7 % of normal errors keep within.
const conflictSigmas = 3

// FoldIn brings a take-off and weighings together by weighted least squares.
//
// A load at rest on cells that push straight up, u in its own axes, with the
// readings Rᵢ at pᵢ, is in balance when
//
//	Σ Rᵢ = W    and    Σ Rᵢ (pᵢ · e) = W (c · e)    for each e square to u,
//
// three equations a weighing. They are linear in the masses mⱼ of the parts,
// W = Σ mⱼ and W c = Σ mⱼ rⱼ, and, where a part may stand off its place, in its
// moment mⱼ·δ. Beforehand each mass is the take-off's best, with the mean
// square deviation of a mass spread evenly from its low to its high; likewise
// the place, within its ± half. A cell's reading is off by anything within its
// accuracy, evenly: variance accuracy²/3. Then, with H the equations, P the
// variances beforehand and N those of the readings,
//
//	S = H P Hᵀ + N,   d = readings − H·best,   m = best + P Hᵀ S⁻¹ d,   var = P − P Hᵀ S⁻¹ H P
//
// Masses and errors are taken to vary each on its own: the same fault in all
// cells, or in all parts, is not found by this, and a sigma says nothing of it.
// Cells at one place tell the weight alone, cells on a line tell the CG along
// that line alone: supports may be edges. The tare counts as onCells at the
// CG: each reading is lowered by the same part.
//
// Source: balance of forces and moments; evenly spread limits as JCGM 100:2008,
// 4.3.7 (from memory); the update is linear Bayesian estimation, textbook.
func FoldIn(items []item, weighings []Weighing) (WeighingResult, error) {
	f, err := newFold(items, weighings)
	if err != nil {
		return WeighingResult{}, err
	}
	var out WeighingResult
	whole := sum{one: 1, about: f.from}
	weight, variance := f.after(whole)
	if !(weight > 0) {
		return out, fmt.Errorf("the weighings and the take-off have nothing in common: together they come to %g kg; look at the unit and the tare of the readings, and at the parts that were on", weight)
	}
	out.Weight, out.WeightSigma = units.Mass(weight), units.Mass(math.Sqrt(variance))
	for k := range 3 {
		along := axis(k)
		moment, _ := f.after(sum{along: along, about: f.from})
		out.CG[k] = f.from[k] + moment/weight
		_, variance = f.after(sum{along: along, about: axis(k).Mul(out.CG[k])})
		out.CGSigma[k] = math.Sqrt(variance) / weight
	}
	for j, one := range items {
		after, variance := f.afterOf(j)
		const slack = 1e-9 // of the mass: rounding
		out.Parts = append(out.Parts, PartUpdate{one.name, units.Mass(one.best), units.Mass(after), units.Mass(math.Sqrt(variance)),
			after < one.low-slack*one.best || after > one.high+slack*one.best})
	}
	f.check(&out)
	out.Shown = f.shown()
	out.Text = f.text(out)
	out.Lines = weighedLines(out)
	return out, nil
}

// axis is the direction of an axis of the load.
func axis(k int) geom.Vec {
	var v geom.Vec
	v[k] = 1
	return v
}

// fold is the least squares of a take-off and its weighings.
type fold struct {
	items     []item
	weighings []onCells
	from      geom.Vec // the CG of the take-off: from there, a far datum costs no digits
	rows      []row
	beside    []float64 // d, of each row
	sigmas    []float64 // of d: √S of each row
	root      lower     // of S
	solved    []float64 // S⁻¹ d
}

// sum is the sum over the parts that are on of mⱼ·(one + along·(rⱼ − about)).
type sum struct {
	one          float64
	along, about geom.Vec
	on           []bool // nil: all
}

// of is the share of a kilogram at a place.
func (s sum) of(place geom.Vec) float64 { return s.one + s.along.Dot(place.Sub(s.about)) }

// has tells whether a part is on.
func (s sum) has(j int) bool { return s.on == nil || s.on[j] }

// row is one equation: a sum over the parts, as a weighing read it.
type row struct {
	sum
	weighing int
	reads    float64 // kg, or kg·m
	what     string
}

// variance is the mean square of the mass about its best, kg², spread evenly
// from low to high. With a = best − low and c = high − best it is
//
//	(1/(a+c)) ∫ x² dx from −a to c = (a² − a·c + c²)/3,
//
// a²/3 where both are alike. Derived here.
func (i item) variance() float64 {
	a, c := i.best-i.low, i.high-i.best
	return (a*a - a*c + c*c) / 3
}

// best is a sum as the take-off has it.
func (f *fold) best(s sum) float64 {
	var total float64
	for j, one := range f.items {
		if s.has(j) {
			total += one.best * s.of(one.cg)
		}
	}
	return total
}

// spread is the covariance of two sums beforehand.
func (f *fold) spread(s, t sum) float64 {
	var total float64
	for j, one := range f.items {
		if !s.has(j) || !t.has(j) {
			continue
		}
		total += one.variance() * s.of(one.cg) * t.of(one.cg)
		for k, half := range one.half {
			total += one.best * one.best * half * half / 3 * s.along[k] * t.along[k]
		}
	}
	return total
}

// after is a sum as take-off and cells have it together, and its variance.
func (f *fold) after(s sum) (value, variance float64) {
	shares := make([]float64, len(f.rows))
	for i, r := range f.rows {
		shares[i] = f.spread(s, r.sum)
	}
	return f.updated(f.best(s), f.spread(s, s), shares)
}

// afterOf is after for the mass of one part, whose covariance with an equation
// is that of its own kilograms.
func (f *fold) afterOf(j int) (value, variance float64) {
	one := f.items[j]
	shares := f.columnOf(j)
	for i := range shares {
		shares[i] *= one.variance()
	}
	return f.updated(one.best, one.variance(), shares)
}

// updated moves a value from its best by its covariances with the equations.
func (f *fold) updated(best, before float64, shares []float64) (value, variance float64) {
	value, variance = best, before
	for i, x := range f.root.solve(shares) {
		value += shares[i] * f.solved[i]
		variance -= shares[i] * x
	}
	return value, max(variance, 0) // below zero by rounding only
}

// newFold sets the equations up and solves them.
func newFold(items []item, weighings []Weighing) (*fold, error) {
	if err := soundItems(items); err != nil {
		return nil, err
	}
	if len(weighings) == 0 {
		return nil, fmt.Errorf("no weighings to fold into the take-off")
	}
	f := &fold{items: items}
	f.from = f.middle(nil)
	for i, w := range weighings {
		s, err := f.stand(w)
		if err != nil {
			return nil, fmt.Errorf("weighing %q: %w", w.Name, err)
		}
		f.weighings = append(f.weighings, s)
		f.rows = append(f.rows, s.rows(i)...)
	}
	all := square(len(f.rows))
	for i, a := range f.rows {
		f.beside = append(f.beside, a.reads-f.best(a.sum))
		for j, b := range f.rows[:i+1] {
			all[i][j] = f.spread(a.sum, b.sum) + f.noise(a, b)
			all[j][i] = all[i][j]
		}
		f.sigmas = append(f.sigmas, math.Sqrt(all[i][i]))
	}
	var ok bool
	if f.root, ok = factor(all); !ok {
		return nil, fmt.Errorf("the cells are said to be more exact than can be reckoned with beside so wide a take-off: give their accuracy as it is, such as 0.5 %%")
	}
	f.solved = f.root.solve(f.beside)
	return f, nil
}

// soundItems refuses parts that are no parts.
func soundItems(items []item) error {
	if len(items) == 0 {
		return fmt.Errorf("no parts to fold the weighings into")
	}
	for _, i := range items {
		if !(0 < i.best && i.low <= i.best && i.best <= i.high && i.high <= heaviest) || !(i.cg.Len() < 10*longest) || !(i.half.Len() < 10*longest) {
			return fmt.Errorf("%s: want 0 < best and low <= best <= high, got %g from %g to %g kg at %v", i.name, i.best, i.low, i.high, i.cg)
		}
	}
	return nil
}

// middle is the CG of some parts as the take-off has it. It is measured from
// the first part, so that a far datum costs no digits.
func (f *fold) middle(on []bool) geom.Vec {
	from := f.items[0].cg
	weight := f.best(sum{one: 1, on: on})
	var moment geom.Vec
	for k := range 3 {
		moment[k] = f.best(sum{along: axis(k), about: from, on: on})
	}
	return from.Add(moment.Mul(1 / weight))
}

// check holds the take-off against the cells.
func (f *fold) check(out *WeighingResult) {
	for i, r := range f.rows {
		w := f.weighings[r.weighing]
		a := Apart{Weighing: w.Name, What: r.what, By: f.beside[i], Sigmas: f.beside[i] / f.sigmas[i]}
		if r.what != weightItself {
			a.By /= w.weight
		}
		out.Apart = append(out.Apart, a)
		out.Sigmas = max(out.Sigmas, math.Abs(a.Sigmas))
	}
	for i, w := range f.weighings {
		for _, c := range w.Cells {
			sigmas, off := f.alone(f.columnAt(i, c.At))
			out.Cells = append(out.Cells, CellCheck{w.Name, c.Name, units.Mass(off), sigmas})
			out.Sigmas = max(out.Sigmas, math.Abs(sigmas))
		}
	}
	out.Together = f.together()
	out.Sigmas = max(out.Sigmas, out.Together)
	out.Conflict = !(out.Sigmas <= conflictSigmas)
}

// together tests all n equations at once: χ² = dᵀS⁻¹d, which finds what no single
// one shows, as two weighings that each agree with the take-off and not with each
// other. It is told as the normal deviation that is as rare,
//
//	z = ((χ²/n)^⅓ − (1 − 2/(9n)))·√(9n/2)
//
// Source: E. B. Wilson and M. M. Hilferty, "The distribution of chi-square", Proc.
// Nat. Acad. Sci. 17, 1931 (from memory).
func (f *fold) together() float64 {
	var squares float64
	for i, d := range f.beside {
		squares += d * f.solved[i]
	}
	n := float64(len(f.rows))
	return (math.Cbrt(squares/n) - (1 - 2/(9*n))) * math.Sqrt(9*n/2)
}

// alone tests whether one fault alone explains how take-off and cells differ:
// a kilogram of it changes the equations by a column a. Its likeliest size and
// that size in its own standard deviations are
//
//	off = aᵀS⁻¹d / aᵀS⁻¹a,   sigmas = aᵀS⁻¹d / √(aᵀS⁻¹a)
//
// Source: the test of single observations of a geodetic network, Netherlands
// Geodetic Commission, Publications on Geodesy 2 (5), 1968 (from memory).
func (f *fold) alone(column []float64) (sigmas, off float64) {
	var size float64
	for i, x := range f.root.solve(column) {
		size += column[i] * x
		off += column[i] * f.solved[i]
	}
	if !(size > 0) {
		return 0, 0
	}
	return off / math.Sqrt(size), off / size
}

// columnAt is what a kilogram more on one cell does to the equations.
func (f *fold) columnAt(weighing int, place geom.Vec) []float64 {
	column := make([]float64, len(f.rows))
	for i, r := range f.rows {
		if r.weighing == weighing {
			column[i] = f.weighings[weighing].net * r.of(place)
		}
	}
	return column
}

// columnOf is what a kilogram more of a part does to the equations.
func (f *fold) columnOf(j int) []float64 {
	column := make([]float64, len(f.rows))
	for i, r := range f.rows {
		if r.has(j) {
			column[i] = r.of(f.items[j].cg)
		}
	}
	return column
}
