package rig

import (
	"fmt"
	"math"
	"slices"
)

// Beam is a slender load along x, told by what it weighs where. It knows no
// section: what moment it bears is for others to say.
type Beam struct {
	Line  []LineWeight
	Point []PointWeight
}

// LineWeight is a weight spread evenly from one place to another. Where several
// lie over one another they add up.
type LineWeight struct {
	From, To float64 // m
	Each     float64 // N/m
}

// PointWeight is a weight at one place.
type PointWeight struct {
	At     float64 // m
	Weight float64 // N
}

// Bending is how a beam on two picks bends under its own weight.
type Bending struct {
	Reaction [2]float64 // N, upward at the picks as given
	Greatest float64    // N·m, the greater of the two below
	At       float64    // m, where
	Sagging  Moment     // belly down, below in tension; zero: nowhere
	Hogging  Moment     // back up, above in tension; zero: nowhere
}

// Moment is a greatest bending moment, as a figure without sign.
type Moment struct {
	Moment float64 // N·m
	At     float64 // m
}

// Bending returns the greatest bending moments of the beam hung at x1 and x2 in
// metres by plumb pulls, level and at rest. Legs that slope also press the beam
// along its length, and off its axis if the picks stand on top: that is not in
// here (Pose.Squeeze tells the pull).
//
// Statics: the moment at x is that of all that stands to the left of it. It is
// greatest at a pick, at a point weight or where the shear passes through
// nothing, so these are all tried. Source: standard beam formulas in textbooks
// of the strength of materials (from memory); an even beam bends least, by
// 0.0214·w·L² over picks and in the middle alike, on picks at 0.2071·L from the
// ends.
//
// Error: *InputError; also where the CG is not between the picks.
func (b Beam) Bending(x1, x2 float64) (Bending, error) {
	if err := b.check(x1, x2); err != nil {
		return Bending{}, err
	}
	weight, about := 0.0, 0.0 // N; N·m about x1
	for _, l := range b.Line {
		w := l.Each * (l.To - l.From)
		weight += w
		about += w * ((l.From+l.To)/2 - x1)
	}
	for _, p := range b.Point {
		weight += p.Weight
		about += p.Weight * (p.At - x1)
	}
	if !positive(weight) {
		return Bending{}, &InputError{fmt.Sprintf("the beam weighs %g N", weight), "give what it weighs along its length"}
	}
	second := about / (x2 - x1)
	bent := Bending{Reaction: [2]float64{weight - second, second}}
	if min(weight-second, second) < -1e-9*weight {
		return Bending{}, &InputError{fmt.Sprintf("the centre of gravity, at %.3f m, is not between the picks at %.3f m and %.3f m: one of them would have to push",
			x1+about/weight, x1, x2), "put the picks on both sides of it"}
	}
	pulls := []PointWeight{{x1, -bent.Reaction[0]}, {x2, -bent.Reaction[1]}}
	all := Beam{b.Line, append(pulls, b.Point...)}
	nothing := 1e-12 * weight * math.Abs(x2-x1) // what rounding leaves
	for _, x := range all.turns() {
		m := all.moment(x)
		if math.Abs(m) <= nothing {
			continue
		}
		if m > bent.Sagging.Moment {
			bent.Sagging = Moment{m, x}
		}
		if -m > bent.Hogging.Moment {
			bent.Hogging = Moment{-m, x}
		}
	}
	worst := bent.Sagging
	if bent.Hogging.Moment > worst.Moment {
		worst = bent.Hogging
	}
	bent.Greatest, bent.At = worst.Moment, worst.At
	return bent, nil
}

func (b Beam) check(x1, x2 float64) error {
	if !(math.Abs(x1-x2) > 0) || math.IsInf(x1-x2, 0) {
		return &InputError{fmt.Sprintf("picks at %g m and %g m", x1, x2), "give two places apart"}
	}
	for i, l := range b.Line {
		if !(l.To > l.From) || math.IsInf(l.To-l.From, 0) || !(l.Each >= 0) || math.IsInf(l.Each, 0) {
			return &InputError{fmt.Sprintf("weight %d along the beam is %g N/m from %g m to %g m", i+1, l.Each, l.From, l.To),
				"give a weight of 0 or more, from a lesser place to a greater"}
		}
	}
	for i, p := range b.Point {
		if math.IsNaN(p.At) || math.IsInf(p.At, 0) || !(p.Weight >= 0) || math.IsInf(p.Weight, 0) {
			return &InputError{fmt.Sprintf("point weight %d is %g N at %g m", i+1, p.Weight, p.At), "give a weight of 0 or more and a place"}
		}
	}
	return nil
}

// turns returns the places in metres at which the moment may be greatest, in
// order: between two neighbouring places where something begins, ends or pulls
// the shear is a straight line, and has at most one zero.
func (b Beam) turns() []float64 {
	var places []float64
	for _, l := range b.Line {
		places = append(places, l.From, l.To)
	}
	for _, p := range b.Point {
		places = append(places, p.At)
	}
	slices.Sort(places)
	turns := slices.Clone(places)
	for i, to := range places[1:] {
		from := places[i]
		each := b.each((from + to) / 2)
		if each == 0 {
			continue
		}
		if x := from + b.shear(from)/each; x > from && x < to {
			turns = append(turns, x)
		}
	}
	slices.Sort(turns)
	return turns
}

// each is what the beam weighs at x in N/m.
func (b Beam) each(x float64) float64 {
	sum := 0.0
	for _, l := range b.Line {
		if l.From <= x && x <= l.To {
			sum += l.Each
		}
	}
	return sum
}

// shear in N just right of x: what is left of it pulls up more than it weighs.
func (b Beam) shear(x float64) float64 {
	sum := 0.0
	for _, l := range b.Line {
		sum -= l.Each * max(0, min(x, l.To)-l.From)
	}
	for _, p := range b.Point {
		if p.At <= x {
			sum -= p.Weight
		}
	}
	return sum
}

// moment in N·m at x of all that stands left of it, sagging positive.
func (b Beam) moment(x float64) float64 {
	sum := 0.0
	for _, l := range b.Line {
		if part := min(x, l.To) - l.From; part > 0 {
			sum -= l.Each * part * (x - l.From - part/2)
		}
	}
	for _, p := range b.Point {
		sum -= p.Weight * max(0, x-p.At)
	}
	return sum
}
