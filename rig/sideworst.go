package rig

import (
	"cmp"
	"fmt"
	"math"
	"slices"

	"plumbhook/geom"
)

// SideCase is a set of side forces that may act at once, and its name in words.
type SideCase struct {
	Forces []SideForce
	Name   string
}

// SideWorst is the most that side forces add, over their cases and over where
// the CG may be, with the legs at their stated lengths.
type SideWorst struct {
	More      []float64 // N for each leg, on the greatest of elastic share and any leg slack
	Case      []string  // for each leg, the case in which it is so
	MoreTilt  float64   // rad, on the tilt
	LessAngle []float64 // rad for each leg that pulls, off its angle from horizontal
	Slack     []string  // for each leg that goes slack by them, the first case in which it does; empty: none
	Lean      float64   // rad, the greatest of the hoist line out of plumb
	Couple    float64   // N·m, the greatest about the plumb line
	Unstable  string    // the first case in which the load does not hold; empty: none
	Solved    int
}

// SideWorst solves the rig at its own CG and at each of the places, in calm air
// and in each case of side forces.
func (r Rig) SideWorst(places []Place, cases []SideCase) (SideWorst, error) {
	n := len(r.Picks)
	w := SideWorst{More: make([]float64, n), Case: make([]string, n), LessAngle: make([]float64, n), Slack: make([]string, n)}
	var before *Hang
	for _, place := range append([]Place{{r.CG, "best CG"}}, places...) {
		c := r
		c.CG = place.At
		still, err := c.hangBeside(before)
		if err != nil {
			return w, fmt.Errorf("%s: %w", place.Name, err)
		}
		before = &still
		for _, one := range cases {
			name := one.Name + ", " + place.Name
			s, err := c.asideFrom(still, one.Forces)
			if err != nil {
				return w, fmt.Errorf("%s: %w", name, err)
			}
			w.add(still, s, name)
		}
	}
	return w, nil
}

// add takes the worse of w and of one case.
func (w *SideWorst) add(still Hang, s SideHang, name string) {
	w.Solved++
	for i, t := range s.Greatest {
		if more := t - still.Greatest[i]; more > w.More[i] {
			w.More[i], w.Case[i] = more, name
		}
		switch {
		case s.Slack(i) && !still.Slack(i):
			if w.Slack[i] == "" {
				w.Slack[i] = name
			}
		case !still.Slack(i):
			w.LessAngle[i] = max(w.LessAngle[i], still.FromHorizontal(i)-s.FromHorizontal(i))
		}
	}
	w.MoreTilt = max(w.MoreTilt, s.Tilt()-still.Tilt())
	w.Lean = max(w.Lean, s.Lean)
	w.Couple = max(w.Couple, math.Abs(s.Couple))
	if !s.Stable && w.Unstable == "" {
		w.Unstable = name
	}
}

// Readings are the least and the greatest elastic tension in N of each leg, with
// the CG at its own place and at each of the others, legs at their stated
// lengths: what load cells in the legs read.
func (r Rig) Readings(places []Place) (least, most []float64, err error) {
	n := len(r.Picks)
	least, most = make([]float64, n), make([]float64, n)
	for i := range least {
		least[i] = math.Inf(1)
	}
	var before *Hang
	for _, place := range append([]Place{{r.CG, "best CG"}}, places...) {
		c := r
		c.CG = place.At
		h, err := c.hangBeside(before)
		if err != nil {
			return nil, nil, fmt.Errorf("%s: %w", place.Name, err)
		}
		before = &h
		for i, t := range h.Tension {
			least[i], most[i] = min(least[i], t), max(most[i], t)
		}
	}
	return least, most, nil
}

// Taut is when a leg comes tight as the hook is raised over a load that stands.
type Taut struct {
	Leg  int
	Rise float64 // m, how much higher the hook is than when the first leg comes tight
}

// TautOrder returns in which order the legs come tight as the hook rises along
// a plumb line over a load that stands as drawn: leg i does where the hook is
// √(Lᵢ² − plan distance²) above its pick. A leg that does not reach is tight from
// the start. Plane geometry.
func (r Rig) TautOrder(over geom.Vec) []Taut {
	order := make([]Taut, len(r.Picks))
	for i, p := range r.Picks {
		level := math.Hypot(over[0]-p[0], over[1]-p[1])
		order[i] = Taut{i, p[2] + math.Sqrt(max(0, r.Lengths[i]*r.Lengths[i]-level*level))}
	}
	slices.SortStableFunc(order, func(a, b Taut) int { return cmp.Compare(a.Rise, b.Rise) })
	first := order[0].Rise
	for i := range order {
		order[i].Rise -= first
	}
	return order
}
