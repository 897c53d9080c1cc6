package lift

import (
	"math"
	"strings"

	"plumbhook/geom"
	"plumbhook/units"
)

// CGSum is the sum of the CG with its numbers put in: Σ m·c / Σ m.
type CGSum struct {
	Lines     []MomentLine
	MassKg    float64
	MomentKgM geom.Vec // Σ m·c
	CGM       geom.Vec
}

// MomentLine is one line of the take-off in that sum.
type MomentLine struct {
	Name      string
	MassKg    float64
	CGM       geom.Vec
	MomentKgM geom.Vec
}

// CGSum sums parts and allowances at their best weights, for a checker to follow.
func (w Weight) CGSum() CGSum {
	var s CGSum
	add := func(name string, kg float64, at geom.Vec) {
		line := MomentLine{name, kg, at, at.Mul(kg)}
		s.Lines = append(s.Lines, line)
		s.MassKg += kg
		s.MomentKgM = s.MomentKgM.Add(line.MomentKgM)
	}
	for _, p := range w.Parts {
		add(p.Name, p.MassKg, p.CGM)
	}
	for _, a := range w.Allowances {
		add("allowance: "+a.Name, a.BestKg, a.CGM)
	}
	if s.MassKg != 0 {
		s.CGM = s.MomentKgM.Mul(1 / s.MassKg)
	}
	return s
}

// FromEdges is how far in m the CG lies from the least and from the greatest of
// the load's own box, along each axis: what a tape shows.
func (w Weight) FromEdges() (least, greatest geom.Vec) {
	return w.CGM.Sub(w.BoxM.Min), w.BoxM.Max.Sub(w.CGM)
}

// ForceSum is the balance of the legs with its numbers put in, at the planning
// weight and the best CG: Σ T·(run / length) = weight, straight up.
type ForceSum struct {
	Lines    []LegForce
	SumKN    geom.Vec
	WeightKN float64
	Up       geom.Vec // from the CG to the hook, in the load's axes
	UpKN     geom.Vec // weight × Up: what the sum has to be
}

// LegForce is one leg in that sum.
type LegForce struct {
	Pick      string
	RunM      geom.Vec // from pick to hook
	DistanceM float64  // its length
	RiseM     float64  // how much of it is upward, as the load hangs
	TensionKN float64
	ForceKN   geom.Vec // on the hook's side: T × run / length
}

// offBalance is how far, as a part of the weight, the sum may be off for it to be
// shown: legs that do not all run to the hook, or not straight, are another sum.
const offBalance = 1e-6

// ForceSum sums the legs; false where they do not all run straight from pick to
// hook, and there is no such sum to show.
func (s LiftSheet) ForceSum() (ForceSum, bool) {
	if s.Legs.Posed == nil || len(s.Legs.Bars) > 0 {
		return ForceSum{}, false
	}
	up := s.Legs.HookM.Sub(s.Weigh.CGM)
	if up.Len() == 0 {
		return ForceSum{}, false
	}
	f := ForceSum{WeightKN: float64(units.Mass(s.Legs.PlanningKg).Weight()) / 1000, Up: up.Normalize()}
	f.UpKN = f.Up.Mul(f.WeightKN)
	for _, leg := range s.Legs.Legs {
		l := LegForce{Pick: leg.Pick, RunM: s.Legs.HookM.Sub(leg.AtM), TensionKN: leg.TensionKN}
		l.DistanceM, l.RiseM = l.RunM.Len(), l.RunM.Dot(f.Up)
		if l.DistanceM == 0 {
			return ForceSum{}, false
		}
		l.ForceKN = l.RunM.Mul(l.TensionKN / l.DistanceM)
		f.Lines, f.SumKN = append(f.Lines, l), f.SumKN.Add(l.ForceKN)
	}
	off := f.SumKN.Sub(f.UpKN).Len()
	return f, off <= offBalance*f.WeightKN && !math.IsNaN(off)
}

// HookAbovePicksM is how high in m the hook is above the highest pick, as the load
// hangs; false where there is no pose.
func (s LiftSheet) HookAbovePicksM() (float64, bool) {
	if s.Legs.Posed == nil || len(s.Legs.Legs) == 0 {
		return 0, false
	}
	up := s.Legs.HookM.Sub(s.Weigh.CGM)
	if up.Len() == 0 {
		return 0, false
	}
	up = up.Normalize()
	least := math.Inf(1)
	for _, leg := range s.Legs.Legs {
		least = min(least, s.Legs.HookM.Sub(leg.AtM).Dot(up))
	}
	return least, true
}

// OfCapacity is the gross load as a part of what the crane lifts there; false
// where no crane is stated.
func (g Gross) OfCapacity() (float64, bool) {
	if g.CapacityKg <= 0 {
		return 0, false
	}
	return max(g.TotalKg, g.LiftOffKg) / g.CapacityKg, true
}

// Counted is the greatest tension with the common factors in, kN, which as a mass
// is the rating that the governing leg needs; false where that follows from the
// set as a whole, and the factors alone do not give it.
func (s Sizing) Counted() (kN float64, ok bool) {
	kN = s.Governing.TensionKN
	for _, f := range s.Factors {
		switch kind, _, _ := strings.Cut(f.Name, ":"); {
		case kind == "dynamic":
			kN *= f.Value
		case strings.HasPrefix(kind, "mode"), strings.HasPrefix(kind, "choke"):
		default:
			kN /= f.Value
		}
	}
	needed := float64(units.Mass(s.Governing.RequiredKg).Weight()) / 1000
	return kN, math.Abs(kN-needed) <= 1e-9*needed
}
