package lift

import (
	"fmt"
	"math"
	"strings"

	"plumbhook/geom"
	"plumbhook/takeoff"
	"plumbhook/units"
)

// Marking is what to paint on the load, so that whoever lifts it next knows what
// this sheet knows.
type Marking struct {
	WeightKg float64       `json:"weight_kg"` // the one that rigging is sized on
	CG       MarkedPlace   `json:"cg"`
	Picks    []MarkedPlace `json:"picks"`
	Lines    []string      `json:"lines"` // what to paint, a line for each
	Notes    []string      `json:"notes"` // how to, and what stands behind it
}

// MarkedPlace is a place by tape, from the load's outermost edges of least x and
// least y and from its underside, as it is drawn.
type MarkedPlace struct {
	Name  string   `json:"name"`
	FromM geom.Vec `json:"from_least_edges_m"`
}

// paintedFrom is the gross weight in kg from which a package that goes by sea
// must be marked with it: ILO Convention 27, 1929, article 1 (from memory).
const paintedFrom = 1000

// newMarking says what to paint. Picks of a lift that may not be made are not to
// be painted on.
func newMarking(l *takeoff.Load, w Weight, legs Hanging, v Verdict) *Marking {
	m := &Marking{WeightKg: w.Weight.SizingKg, CG: w.marked("CG", w.CGM), Picks: []MarkedPlace{}}
	weight := "WEIGHT " + units.Mass(m.WeightKg).FormatUp(units.Both)
	if l.State != "" {
		weight += fmt.Sprintf(" in the state %q", l.State)
	}
	m.Lines = []string{weight, "CG " + m.CG.tape()}
	m.Notes = []string{
		fmt.Sprintf("The weight is the one that rigging is sized on, rounded up; best %s, range %s to %s.", units.Mass(w.Weight.BestKg).Format(units.Both),
			units.Mass(w.Weight.LowKg).FormatDown(units.Both), units.Mass(w.Weight.HighKg).FormatUp(units.Both)),
		"The CG's mark goes on two sides at right angles to each other, at its height. It is at its best place: " + w.reachText() + ".",
		"Distances are along the load's own axes, from its outermost edges and its underside as drawn.",
	}
	if m.WeightKg >= paintedFrom {
		m.Notes = append(m.Notes, "A package of a tonne or more that goes by sea must bear its gross weight, plainly and durably: ILO Convention 27, 1929 (from memory).")
	}
	if !v.Acceptable || !legs.Solved {
		m.Notes = append(m.Notes, "No picks are to be painted on: the lift as described is not acceptable.")
		return m
	}
	for _, leg := range legs.Legs {
		p := w.marked(leg.Pick, leg.AtM)
		m.Picks = append(m.Picks, p)
		m.Lines = append(m.Lines, "PICK "+leg.Pick+" "+p.tape())
	}
	return m
}

func (w Weight) marked(name string, at geom.Vec) MarkedPlace {
	return MarkedPlace{name, at.Sub(w.BoxM.Min)}
}

// reachText says how far the CG may be from its best place along each axis.
func (w Weight) reachText() string {
	var words []string
	for i, axis := range []string{"x", "y", "z"} {
		out := max(w.CGRangeM.Max[i]-w.CGM[i], w.CGM[i]-w.CGRangeM.Min[i], 0)
		words = append(words, fmt.Sprintf("%s in %s", units.Length(math.Ceil(out*1000-1e-6)/1000).Format(units.Both), axis))
	}
	return "it may be off by up to " + strings.Join(words, ", ")
}

// tape says where a place is, to the millimetre.
func (p MarkedPlace) tape() string {
	var words []string
	for i, edge := range []string{"from the edge of least x", "from the edge of least y", "above the underside"} {
		from := math.Round(p.FromM[i]*1000) / 1000
		if from < 0 {
			edge = [3]string{"out past the edge of least x", "out past the edge of least y", "below the underside"}[i]
		}
		words = append(words, units.Length(math.Abs(from)).Format(units.Both)+" "+edge)
	}
	return strings.Join(words, ", ")
}
