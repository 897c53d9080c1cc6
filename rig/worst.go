package rig

import (
	"errors"
	"fmt"
	"math"
	"slices"

	"plumbhook/geom"
)

// Doubt is what is not known for certain about a rig.
type Doubt struct {
	CGs []Place // where else the CG may be
	// Lengths is how many metres each leg may be longer or shorter than stated;
	// nil: they are as stated.
	Lengths []float64
	// Body are points of the load, such as the corners of its box, over the
	// highest of which the hook's height is measured.
	Body []geom.Vec
	// Along is the way that the body runs which each leg's sling goes round, of
	// length 1; zero: not known, and plumb to the load is taken. nil: none.
	Along []geom.Vec
}

// Place is a possible CG and how to name it in words.
type Place struct {
	At   geom.Vec // m
	Name string
}

// Worst is the worst of a rig over all that is in doubt, the pose solved again
// in each case.
type Worst struct {
	Tension        []float64 // N for each leg: greatest of elastic share and any leg slack
	Elastic        []float64 // N for each leg: greatest elastic share alone
	FromHorizontal []float64 // rad, the flattest that each leg stands while it pulls
	Lean           []float64 // rad, the most that each leg leans along its body while it pulls, see [Lean]
	Tilt           float64   // rad
	MostHeadroom   float64   // m, the greatest height of the hook over the highest point of the body
	LeastHeadroom  float64   // m
	Stable         bool      // stable in every case, without rolling over
	Unstable       string    // the first case in which it is not
	Leg            int       // the leg with the greatest tension of all
	Case           string    // the case in which that leg has it
	Of             []WorstOf // of each leg, the case in which it has its greatest tension
	Loose          []int     // the legs that carry nothing there while that leg has it; empty: it is the elastic share
	Solved         int       // how many poses were solved
}

// Worst solves the rig at its own CG and at each place where the CG may be,
// with each leg at its stated length, then with every combination of legs long
// and short by their tolerance. Each case is sought from the one before it, and
// from the drawing where that could end elsewhere.
//
// A case in which the legs can't reach, or that can't be solved, is an error:
// the worst is then not known.
func (r Rig) Worst(doubt Doubt) (Worst, error) {
	n := len(r.Picks)
	w := Worst{Tension: make([]float64, n), Elastic: make([]float64, n), FromHorizontal: make([]float64, n), Lean: make([]float64, n), Stable: true,
		MostHeadroom: math.Inf(-1), LeastHeadroom: math.Inf(1)}
	for i := range w.FromHorizontal {
		w.FromHorizontal[i] = math.Pi / 2
	}
	cases := r.lengthCases(doubt.Lengths)
	var before *Hang
	for _, place := range append([]Place{{r.CG, "best CG"}}, doubt.CGs...) {
		for _, lengths := range cases {
			c := r
			c.CG, c.Lengths = place.At, lengths.lengths
			h, err := c.hangBeside(before)
			if err != nil {
				return w, fmt.Errorf("%s, %s: %w", place.Name, lengths.name, err)
			}
			name := place.Name + ", " + lengths.name
			w.add(h.Pose, name, doubt.Body)
			w.leans(h.Pose, doubt.Along)
			if h.Other != nil {
				w.add(*h.Other, name+", leaning the other way", doubt.Body)
				w.leans(*h.Other, doubt.Along)
			}
			w.Solved++
			before = &h
			if w.Stable && (!h.Stable || h.RollsOver) {
				w.Stable, w.Unstable = false, name
			}
		}
	}
	return w, nil
}

// WorstOf is the case in which a leg has its greatest tension.
type WorstOf struct {
	Pose
	Case string
}

// add takes the worse of w and of one pose.
func (w *Worst) add(p Pose, name string, body []geom.Vec) {
	if w.Of == nil {
		w.Of = make([]WorstOf, len(p.Greatest))
	}
	most := slices.Max(p.Greatest)
	for i, t := range p.Greatest {
		if t > w.Tension[w.Leg]*(1+1e-9) {
			w.Leg, w.Case, w.Loose = i, name, p.looseFor(i)
		}
		if t > w.Tension[i]*(1+1e-9) {
			w.Of[i] = WorstOf{p, name}
		}
		w.Tension[i] = max(w.Tension[i], t)
		w.Elastic[i] = max(w.Elastic[i], p.Tension[i])
		if t > 1e-9*most { // not what rounding leaves on a leg that hangs loose
			w.FromHorizontal[i] = min(w.FromHorizontal[i], p.FromHorizontal(i))
		}
	}
	w.Tilt = max(w.Tilt, p.Tilt())
	if len(body) > 0 {
		rise := p.Headroom(body)
		w.MostHeadroom, w.LeastHeadroom = max(w.MostHeadroom, rise), min(w.LeastHeadroom, rise)
	}
}

// leans takes the worse of w and of one pose as to how the legs lean along the
// bodies that their slings go round.
func (w *Worst) leans(p Pose, along []geom.Vec) {
	for i, axis := range along {
		if p.Greatest[i] > 1e-9*slices.Max(p.Greatest) {
			w.Lean[i] = max(w.Lean[i], LeanAlong(p.Pull[i], axis))
		}
	}
}

type lengthCase struct {
	lengths []float64
	name    string
}

// lengthCases returns the stated lengths, then each combination of legs long
// and short; all long and all short are among them.
func (r Rig) lengthCases(tolerance []float64) []lengthCase {
	cases := []lengthCase{{r.Lengths, "legs as stated"}}
	some := false
	for _, t := range tolerance {
		some = some || t > 0
	}
	if !some {
		return cases
	}
	for set := range 1 << len(r.Lengths) {
		lengths := make([]float64, len(r.Lengths))
		name := "long:"
		for i, l := range r.Lengths {
			if set>>i&1 == 1 {
				lengths[i] = l + tolerance[i]
				name += fmt.Sprintf(" %d", i+1)
			} else {
				lengths[i] = l - tolerance[i]
			}
		}
		switch set {
		case 0:
			name = "all legs short"
		case 1<<len(r.Lengths) - 1:
			name = "all legs long"
		default:
			name = "legs " + name + ", the others short"
		}
		cases = append(cases, lengthCase{lengths, name})
	}
	return cases
}

// AfterSlack is the pose after the CG has moved just far enough for the first
// leg to go slack (a hundredth further, and a thousandth of the rig's size).
// It returns false where no shift makes a leg slack or no pose follows.
func (r Rig) AfterSlack(h Hang) (Hang, bool) {
	if math.IsInf(h.First.Shift, 1) || h.First.Leg < 0 {
		return Hang{}, false
	}
	r.CG = r.CG.Add(h.First.Toward.Mul(1.01*h.First.Shift + 1e-3*r.size()))
	after, err := r.Hang()
	var input *InputError
	if err != nil && !errors.As(err, &input) {
		return Hang{}, false
	}
	return after, err == nil
}
