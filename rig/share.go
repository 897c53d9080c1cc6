package rig

import (
	"math"
	"math/bits"
	"slices"

	"github.com/go-gl/mathgl/mgl64"

	"plumbhook/geom"
)

// Whatever the sharing, the legs must balance the load: Σ Tᵢuᵢ = W·d, with uᵢ
// from pick to hook, d up, and no leg pushing. With more legs than statics can
// settle there are many such sets of tensions; each function here picks its own.

// balanced says whether tensions in N balance the load vector, to 1e-9 of it.
func balanced(pull []geom.Vec, tension []float64, load geom.Vec) bool {
	rest := load
	for i, t := range tension {
		rest = rest.Sub(pull[i].Mul(t))
	}
	return rest.Len() <= 1e-9*load.Len()
}

// elasticShare returns the tensions in N that legs of stiffness k (only ratios
// matter) take when the load is rigid and each leg is just as long as it
// should be: of all that balance the load, those of least Σ Tᵢ²/2kᵢ (least
// work). It returns nil where legs that only pull can't balance the load.
//
// Source: Castigliano's theorem of least work, e.g. "Strength of Materials",
// Part I (Timoshenko), chapter 11 (from memory).
func elasticShare(pull []geom.Vec, k []float64, taut []bool, load geom.Vec) []float64 {
	share, ok := leastOfAll(pull, k, taut, load)
	if !ok {
		return nil
	}
	return slices.Clone(share[:len(pull)])
}

// tensions are those of the legs in N, in the order of the picks.
type tensions [Most]float64

// leastOfAll is elasticShare, and false where the load can't be balanced.
func leastOfAll(pull []geom.Vec, k []float64, taut []bool, load geom.Vec) (tensions, bool) {
	all := setOf(taut)
	if t, ok := leastWork(pull, k, all, load); ok {
		return t, true
	}
	// Some leg would have to push, so it hangs loose: the least work among the
	// sets of fewer legs is the answer, and eight legs have only 255 sets.
	var best tensions
	least := math.Inf(1)
	for set := all & -all; set != 0; set = (set - all) & all { // all parts of it
		t, ok := leastWork(pull, k, set, load)
		if !ok {
			continue
		}
		work := 0.0
		for i := range pull {
			work += t[i] * t[i] / (2 * k[i])
		}
		if work < least {
			best, least = t, work
		}
	}
	return best, !math.IsInf(least, 1)
}

// leastWork is the least-work answer if every leg of the set pulls, else
// false. Up to three legs that stand well apart have but one answer, whatever
// their stiffness, and need no matrix.
func leastWork(pull []geom.Vec, k []float64, set uint, load geom.Vec) (tensions, bool) {
	t, ok := outright(pull, set, load)
	if !ok {
		t = weighed(pull, k, set, load)
	}
	rest, least := load, -1e-10*load.Len()
	for i, u := range pull {
		if set>>i&1 == 0 {
			continue
		}
		if t[i] < least {
			return t, false
		}
		t[i] = max(0, t[i])
		rest = rest.Sub(u.Mul(t[i]))
	}
	return t, rest.Dot(rest) <= 1e-18*load.Dot(load)
}

// wellApart, in sin² of the angle between two legs or det² of three directions, is
// how far legs must stand apart to be solved outright.
const wellApart = 1e-6

// outright returns the tensions with which one, two or three legs come nearest
// to balancing the load, by Cramer's rule, and false for more of them or where
// they stand too nearly in one line or plane.
func outright(pull []geom.Vec, set uint, load geom.Vec) (t tensions, ok bool) {
	var legs [3]int
	n := 0
	for i := range pull {
		if set>>i&1 == 0 {
			continue
		}
		if n == 3 {
			return t, false
		}
		legs[n] = i
		n++
	}
	a, b, c := legs[0], legs[1], legs[2]
	switch n {
	case 1:
		t[a] = pull[a].Dot(load) / pull[a].Dot(pull[a])
		return t, true
	case 2:
		u, v := pull[a], pull[b]
		normal := u.Cross(v)
		area := normal.Dot(normal)
		t[a], t[b] = load.Cross(v).Dot(normal)/area, u.Cross(load).Dot(normal)/area
		return t, area > wellApart*u.Dot(u)*v.Dot(v)
	case 3:
		u, v, w := pull[a], pull[b], pull[c]
		vw := v.Cross(w)
		det := u.Dot(vw)
		t[a], t[b], t[c] = load.Dot(vw)/det, load.Dot(w.Cross(u))/det, load.Dot(u.Cross(v))/det
		return t, det*det > wellApart*u.Dot(u)*v.Dot(v)*w.Dot(w)
	}
	return t, false
}

// weighed returns the tensions of least work with which legs of any number
// come nearest to balancing the load.
func weighed(pull []geom.Vec, k []float64, set uint, load geom.Vec) (t tensions) {
	var m mgl64.Mat3
	for i, u := range pull {
		if set>>i&1 == 1 {
			outer(&m, k[i], u)
		}
	}
	s := divide(&m, 1e-12)
	x := s.solve(load)
	for i, u := range pull {
		if set>>i&1 == 1 {
			t[i] = k[i] * u.Dot(x)
		}
	}
	return t
}

// anyLegSlack returns for each leg the greatest tension in N that it can have
// in this pose, whichever of the others hangs loose: the greatest Tᵢ with
// Σ Tᵢuᵢ = load and T ≥ 0. The greatest of a linear function over such a set
// is at a corner of it, where at most three legs pull, so all sets of up to
// three legs are tried.
//
// Source: fundamental theorem of linear programming, e.g. "Numerical
// Optimization" (Nocedal and Wright), 2nd ed., theorem 13.2 (from memory).
func anyLegSlack(pull []geom.Vec, carry []bool, load geom.Vec) []float64 {
	most := make([]float64, len(pull))
	alike := [Most]float64{1, 1, 1, 1, 1, 1, 1, 1}
	all := setOf(carry)
	for set := all & -all; set != 0; set = (set - all) & all { // all parts of it
		if bits.OnesCount(set) > 3 {
			continue
		}
		t, ok := leastWork(pull, alike[:], set, load)
		if !ok {
			continue
		}
		for i := range most {
			most[i] = max(most[i], t[i])
		}
	}
	return most
}

// mostSet is the set of legs with which leg i has its greatest tension of
// anyLegSlack.
func mostSet(pull []geom.Vec, carry []bool, load geom.Vec, i int) (set uint) {
	alike := [Most]float64{1, 1, 1, 1, 1, 1, 1, 1}
	all, most := setOf(carry), 0.0
	for s := all & -all; s != 0; s = (s - all) & all {
		if bits.OnesCount(s) > 3 {
			continue
		}
		if t, ok := leastWork(pull, alike[:], s, load); ok && t[i] > most*(1+1e-9) {
			most, set = t[i], s
		}
	}
	return set
}

// setOf has bit i set for each leg i that is taut.
func setOf(taut []bool) (set uint) {
	for i, t := range taut {
		if t {
			set |= 1 << i
		}
	}
	return set
}

// steepEnough is the least rise of a leg for its length at which its vertical
// share still says something of its tension, about 0.6° from horizontal.
const steepEnough = 0.01

// Diagonal is the share of four legs when one pair of opposite legs carries all.
type Diagonal struct {
	Legs    [2]int     // the pair
	Tension [2]float64 // N; negative where the CG lies beyond that pick's partner
	Off     float64    // m, how far the CG's plumb line passes from the diagonal
}

// TwoOpposite returns both diagonals of four legs: the load split by the law
// of the lever along the diagonal, with the CG dropped square onto it. Where
// the CG is off the diagonal this is a convention, not an equilibrium. A
// diagonal with a leg as good as horizontal is left out.
//
// Source: the trade rule that a rigid load may hang on two of four legs, "U.S.
// Navy Steelworker Volume 2", NAVEDTRA 14251, chapter 6; lever split derived.
func (r Rig) TwoOpposite(p Pose) []Diagonal {
	if len(r.Picks) != 4 {
		return nil
	}
	order := around(p)
	var both []Diagonal
	for _, pair := range [][2]int{{order[0], order[2]}, {order[1], order[3]}} {
		slices.Sort(pair[:])
		a, b := pair[0], pair[1]
		line := level(r.Picks[b].Sub(r.Picks[a]), p.Up)
		along, ok := unit(line)
		if !ok || p.Pull[a].Dot(p.Up) < steepEnough || p.Pull[b].Dot(p.Up) < steepEnough {
			continue
		}
		toCG := level(r.CG.Sub(r.Picks[a]), p.Up)
		part := toCG.Dot(along) / line.Len()
		both = append(both, Diagonal{
			Legs: pair,
			Tension: [2]float64{
				r.Weight * (1 - part) / p.Pull[a].Dot(p.Up),
				r.Weight * part / p.Pull[b].Dot(p.Up),
			},
			Off: toCG.Sub(along.Mul(toCG.Dot(along))).Len(),
		})
	}
	return both
}

// level is the part of v square to up.
func level(v, up geom.Vec) geom.Vec { return v.Sub(up.Mul(v.Dot(up))) }

// square returns some unit vector square to the unit vector v.
func square(v geom.Vec) geom.Vec {
	least := 0
	for i := range v {
		if math.Abs(v[i]) < math.Abs(v[least]) {
			least = i
		}
	}
	var axis geom.Vec
	axis[least] = 1
	across, _ := unit(level(axis, v)) // at least 0.8 long, so never too short
	return across
}

// around returns the legs in the order in which they stand round the plumb line.
func around(p Pose) []int {
	x, ok := unit(level(p.Pull[0], p.Up))
	if !ok { // the first leg is plumb: any level direction will do to count from
		x = square(p.Up)
	}
	y := p.Up.Cross(x)
	order := make([]int, len(p.Pull))
	for i := range order {
		order[i] = i
	}
	turn := func(i int) float64 { return math.Atan2(-p.Pull[i].Dot(y), -p.Pull[i].Dot(x)) }
	slices.SortStableFunc(order, func(a, b int) int {
		switch ta, tb := turn(a), turn(b); {
		case ta < tb:
			return -1
		case ta > tb:
			return 1
		}
		return 0
	})
	return order
}
