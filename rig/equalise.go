package rig

import (
	"cmp"
	"fmt"
	"math"
	"slices"

	"github.com/go-gl/mathgl/mgl64"

	"plumbhook/geom"
)

// Equalised is how a load hangs with gear between some of its legs that makes
// them pull alike: a balance beam, or one line run through a block.
type Equalised struct {
	Pose
	First FirstSlack
}

// ErrPush: with the gear described a leg would have to push.
type ErrPush struct {
	Legs []int // those that would
}

func (e *ErrPush) Error() string {
	return fmt.Sprintf("the gear can't hold the load: leg %d would have to push", e.Legs[0]+1)
}

// hooking is how often Equalise betters the place of the hook at most.
const hooking = 50

// Equalise returns how the load hangs near the hook given when the legs of each
// group pull alike, each other leg for itself. The groups and the legs by
// themselves must be three together: what three pulls are statics settles.
//
// Derived here: gear lets its legs trade length, so that only the sum of their
// lengths holds, Σ|h − pᵢ| = ΣLᵢ over each group. Its derivative is Σuᵢ, the way
// in which the group pulls. Three groups so give the hook by Newton's method, and
// the balance Σ t·Σuᵢ = W·d gives the three tensions t. No leg can be spared.
//
// Errors: *InputError where the groups do not settle the sharing, *ErrPush.
func (r Rig) Equalise(groups [][]int, near geom.Vec) (Equalised, error) {
	all, err := r.threePulls(groups)
	if err != nil {
		return Equalised{}, err
	}
	h := near
	for range hooking {
		ways, gap := r.waysOf(all, h)
		step, ok := ways.solve(gap)
		if !ok || !finite(step) {
			return Equalised{}, notSettled()
		}
		h = h.Sub(step)
		if step.Len() <= 1e-13*r.size() {
			return r.equalisedAt(all, h)
		}
	}
	return Equalised{}, &InputError{"the gear finds no place for the hook at these lengths", "use longer legs, or legs nearer to those for a level load"}
}

func notSettled() error {
	return &InputError{"legs that are made to pull alike there leave the sharing or the hook free", "equalise two legs that stand side by side"}
}

// threePulls returns the groups and the legs by themselves.
func (r Rig) threePulls(groups [][]int) ([][]int, error) {
	if err := r.Check(); err != nil {
		return nil, err
	}
	all := slices.Clone(groups)
	seen := map[int]bool{}
	for _, g := range groups {
		for _, i := range g {
			if i < 0 || i >= len(r.Picks) || seen[i] {
				return nil, &InputError{fmt.Sprintf("leg %d can't be equalised so", i+1), "name each leg once"}
			}
			seen[i] = true
		}
	}
	for i := range r.Picks {
		if !seen[i] {
			all = append(all, []int{i})
		}
	}
	if len(all) != 3 {
		return nil, &InputError{fmt.Sprintf("equalised so, %d legs make %d pulls", len(r.Picks), len(all)), "three pulls can be settled by statics: equalise so many legs that three are left"}
	}
	return all, nil
}

// three are the ways in which three groups pull.
type three [3]geom.Vec

// waysOf returns Σuᵢ of each group with the hook at h, and by how much the legs
// of each are out in length.
func (r Rig) waysOf(groups [][]int, h geom.Vec) (ways three, gap geom.Vec) {
	for g, legs := range groups {
		for _, i := range legs {
			line := h.Sub(r.Picks[i])
			u, _ := unit(line)
			ways[g] = ways[g].Add(u)
			gap[g] += line.Len() - r.Lengths[i]
		}
	}
	return ways, gap
}

// apart tells whether the three ways stand in no plane, and their determinant.
func (w three) apart() (float64, bool) {
	det := w[0].Dot(w[1].Cross(w[2]))
	return det, det*det > wellApart*w[0].Dot(w[0])*w[1].Dot(w[1])*w[2].Dot(w[2])
}

// solve returns x with w[g]·x = b[g].
func (w three) solve(b geom.Vec) (geom.Vec, bool) {
	det, ok := w.apart()
	x := w[1].Cross(w[2]).Mul(b[0]).Add(w[2].Cross(w[0]).Mul(b[1])).Add(w[0].Cross(w[1]).Mul(b[2]))
	return x.Mul(1 / det), ok
}

// equalisedAt is the balance with the hook at h.
func (r Rig) equalisedAt(groups [][]int, h geom.Vec) (Equalised, error) {
	n := len(r.Picks)
	ways, _ := r.waysOf(groups, h)
	up, ok := unit(h.Sub(r.CG))
	det, apart := ways.apart()
	if !ok || !apart {
		return Equalised{}, notSettled()
	}
	e := Equalised{First: FirstSlack{Leg: -1, Shift: math.Inf(1)}}
	e.Pose = Pose{Hook: h, Up: up, Pull: make([]geom.Vec, n), Taut: make([]bool, n), Near: make([]bool, n), Tension: make([]float64, n)}
	push := &ErrPush{}
	for g, legs := range groups {
		// The group's share of the load: t = (b × c)·W·d/det, in which only the
		// arm from CG to hook moves with the CG.
		part := ways[(g+1)%3].Cross(ways[(g+2)%3]).Mul(1 / det)
		t := part.Dot(up) * r.Weight
		if t < -1e-9*r.Weight {
			push.Legs = append(push.Legs, legs...)
		}
		e.First.nearer(legs[0], part, up, h.Sub(r.CG))
		for _, i := range legs {
			e.Pull[i], _ = unit(h.Sub(r.Picks[i]))
			e.Taut[i], e.Near[i], e.Tension[i] = true, true, max(0, t)
		}
	}
	e.Greatest = e.Tension
	if len(push.Legs) > 0 {
		return e, push
	}
	return e, r.sumsUp(e.Pose)
}

// nearer takes a leg's share g·arm if a smaller level shift of the CG takes it
// away than is known.
func (f *FirstSlack) nearer(leg int, g, up, arm geom.Vec) {
	toward, ok := unit(level(g, up))
	if !ok || level(g, up).Len() <= 1e-9*g.Len() {
		return
	}
	if shift := g.Dot(arm) / g.Dot(toward); shift < f.Shift {
		*f = FirstSlack{leg, shift, toward}
	}
}

// WorstEqualised is Worst with gear: each leg's greatest tension, the tilt, angles
// and headroom over all that is in doubt. It begins from the hook given.
func (r Rig) WorstEqualised(doubt Doubt, groups [][]int, near geom.Vec) (Worst, error) {
	n := len(r.Picks)
	w := Worst{Tension: make([]float64, n), Elastic: make([]float64, n), FromHorizontal: make([]float64, n), Stable: true,
		MostHeadroom: math.Inf(-1), LeastHeadroom: math.Inf(1)}
	for i := range w.FromHorizontal {
		w.FromHorizontal[i] = math.Pi / 2
	}
	for _, place := range append([]Place{{r.CG, "best CG"}}, doubt.CGs...) {
		for _, lengths := range r.lengthCases(doubt.Lengths) {
			c := r
			c.CG, c.Lengths = place.At, lengths.lengths
			e, err := c.Equalise(groups, near)
			if err != nil {
				return w, fmt.Errorf("%s, %s: %w", place.Name, lengths.name, err)
			}
			w.add(e.Pose, place.Name+", "+lengths.name, doubt.Body)
			w.Solved++
		}
	}
	return w, nil
}

// Setting is a leg whose tension is set to a reading, by a turnbuckle or a chain
// hoist under a load cell, in a pose that leaves one tension open.
type Setting struct {
	Leg       int
	Reading   float64   // N, with which the greatest of the tensions is least
	Low, High float64   // N, from where to where every leg pulls
	Tension   []float64 // N of each leg at that reading
	PerN      []float64 // N by which each leg's tension moves with one of the reading
}

// Settings returns one setting for each leg that settles the sharing of four legs
// when it is set, the one whose error moves the other legs least first; nil where
// the pose leaves none or more than one tension open.
//
// Derived here: all tensions that balance the load are T + x·n, with n the one
// answer of Σnᵢuᵢ = 0, by Cramer's rule. Between the x at which legs go slack the
// greatest tension has one valley, at an end or where two legs are equal.
func (r Rig) Settings(p Pose) []Setting {
	n, ok := p.open()
	if !ok {
		return nil
	}
	low, high := math.Inf(-1), math.Inf(1)
	for i, t := range p.Tension {
		switch {
		case n[i] > 0:
			low = max(low, -t/n[i])
		case n[i] < 0:
			high = min(high, -t/n[i])
		}
	}
	if !(low < high) || math.IsInf(low, 0) || math.IsInf(high, 0) {
		return nil
	}
	at := func(x float64) []float64 {
		t := slices.Clone(p.Tension)
		for i := range t {
			t[i] = max(0, t[i]+x*n[i])
		}
		return t
	}
	x := golden(low, high, func(x float64) float64 { return slices.Max(at(x)) })
	var all []Setting
	for i := range n {
		if math.Abs(n[i]) < 0.1 {
			continue // its reading says little of the others
		}
		s := Setting{Leg: i, Tension: at(x), Reading: at(x)[i], Low: at(low)[i], High: at(high)[i]}
		if s.Low > s.High {
			s.Low, s.High = s.High, s.Low
		}
		for j := range n {
			s.PerN = append(s.PerN, n[j]/n[i])
		}
		all = append(all, s)
	}
	slices.SortStableFunc(all, func(a, b Setting) int {
		by := math.Abs(n[b.Leg]) - math.Abs(n[a.Leg])
		if math.Abs(by) < 1e-9 {
			return 0 // alike: in the order of the legs
		}
		return cmp.Compare(by, 0)
	})
	return all
}

// open returns the unit vector n with Σnᵢuᵢ = 0 of four legs that are all taut or
// nearly so, false where there is none or more than one.
func (p Pose) open() ([4]float64, bool) {
	var n mgl64.Vec4
	if len(p.Pull) != 4 || slices.Contains(p.Near, false) {
		return n, false
	}
	u := p.Pull
	n = mgl64.Vec4{
		u[1].Dot(u[2].Cross(u[3])), -u[0].Dot(u[2].Cross(u[3])),
		u[0].Dot(u[1].Cross(u[3])), -u[0].Dot(u[1].Cross(u[2])),
	}
	length := n.Len()
	return n.Mul(1 / max(length, 1e-300)), length*length > wellApart
}

// Neighbours returns the pairs of legs that stand side by side around the load.
func (p Pose) Neighbours() [][]int {
	order := around(p)
	var pairs [][]int
	for i, a := range order {
		pair := []int{a, order[(i+1)%len(order)]}
		slices.Sort(pair)
		pairs = append(pairs, pair)
	}
	return pairs
}
