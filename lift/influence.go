package lift

import (
	"cmp"
	"math"
	"slices"

	"plumbhook/geom"
	"plumbhook/rig"
	"plumbhook/units"
)

// Influence is how far one line of the take-off moves the figures between the
// least and the most that it may weigh, all other lines at their best.
type Influence struct {
	Name     string   `json:"name"`       // of a part or an allowance
	RangeKg  float64  `json:"range_kg"`   // of its own weight, low to high
	CGShiftM geom.Vec `json:"cg_shift_m"` // of the load's CG from its low to its high, to first order
	LegKN    float64  `json:"leg_kn"`     // of the tension of the governing leg, to first order; 0 where there is none
}

// taken is a line of the take-off as its influence is seen.
type taken struct {
	name            string
	best, low, high float64 // kg
	cg              geom.Vec
}

func (w Weight) lines() []taken {
	var lines []taken
	for _, p := range w.Parts {
		lines = append(lines, taken{p.Name, p.MassKg, p.LowKg, p.HighKg, p.CGM})
	}
	for _, a := range w.takeoff.Allowances {
		lines = append(lines, taken{a.Name, float64(a.Best), float64(a.Low), float64(a.High), a.CG})
	}
	return lines
}

// shiftPerKg is how the load's CG moves with the mass m of a line at c:
//
//	dC/dm = (c − C)/M
//
// with the load's mass M and CG C. Source: derived here, from C = Σmᵢcᵢ/Σmᵢ.
func (w Weight) shiftPerKg(c geom.Vec) geom.Vec {
	return c.Sub(w.CGM).Mul(1 / w.Weight.BestKg)
}

// influences lists the lines whose weight is in doubt, those that move the
// governing leg most first, or the weight where there is no leg: perKg is what
// the leg's tension in kN does with a kilogram at a place, nil for none.
func (w Weight) influences(perKg func(at geom.Vec) float64) []Influence {
	list := []Influence{}
	for _, l := range w.lines() {
		span := l.high - l.low
		if !(span > 0) {
			continue
		}
		one := Influence{Name: l.name, RangeKg: span, CGShiftM: w.shiftPerKg(l.cg).Mul(span)}
		if perKg != nil {
			one.LegKN = perKg(l.cg) * span
		}
		list = append(list, one)
	}
	slices.SortStableFunc(list, func(a, b Influence) int {
		return cmp.Or(cmp.Compare(math.Abs(b.LegKN), math.Abs(a.LegKN)), cmp.Compare(b.RangeKg, a.RangeKg))
	})
	return list
}

// legPerKg returns how the tension of a leg in kN moves with a kilogram more at
// a place, at the planning weight and the best CG:
//
//	dT/dm = f·g·T/W + ∇T·(c − C)/M
//
// with the planning factor f and ∇T what T does with the place of the CG, see
// [rig.Rig.Sensitivity]. It returns nil where there is no such figure: then
// nothing is told.
func (p *plan) legPerKg(leg int, best rig.Hang) func(at geom.Vec) float64 {
	r := p.rig(p.weight.planning())
	s, err := r.Sensitivity(best)
	if err != nil {
		return nil
	}
	newton := float64(units.Mass(1).Weight()) * p.weight.Weight.PlanningKg / p.weight.Weight.BestKg
	return func(at geom.Vec) float64 {
		return (newton*best.Tension[leg]/r.Weight + s.TensionCG[leg].Dot(p.stance.stand(p.drawn.shiftPerKg(at)))) / 1000
	}
}

// influences fills in what moves the leg that carries most.
func (p *plan) influences(f *Hanging, best rig.Hang) {
	leg := 0
	for i, t := range best.Tension {
		if t > best.Tension[leg]*(1+1e-9) {
			leg = i
		}
	}
	perKg := p.legPerKg(leg, best)
	if perKg != nil {
		f.InfluenceOn = p.picks[leg].Name
	}
	f.Influences = p.drawn.influences(perKg)
}
