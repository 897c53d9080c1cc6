package lift

import (
	"math"

	"plumbhook/geom"
	"plumbhook/rig"
	"plumbhook/takeoff"
	"plumbhook/units"
)

// Region is where the CG may be, with each weight anywhere in its range: a
// convex body, no smaller than the true one.
type Region struct {
	Sides []RegionSide `json:"sides"`  // the CG is on the near side of each
	PlanM [][2]float64 `json:"plan_m"` // corners of its outline in plan, anticlockwise
}

// RegionSide is a half-space: r·Toward ≤ FarM.
type RegionSide struct {
	Toward geom.Vec `json:"toward"`
	FarM   float64  `json:"far_m"`
}

func newRegion(t takeoff.Weighed) Region {
	r := Region{PlanM: [][2]float64{}}
	for _, s := range t.CGRegion() {
		r.Sides = append(r.Sides, RegionSide{s.Toward, s.Far})
	}
	for _, c := range t.CGPlan() {
		r.PlanM = append(r.PlanM, c)
	}
	return r
}

// Between is how far in plan the CG stands inside the outermost picks; below
// zero it stands outside. With two picks it is measured along their line.
type Between struct {
	BestM  float64 `json:"best_m"`
	WorstM float64 `json:"worst_m"` // of the whole region of the CG
	Side   string  `json:"side"`    // the side that the region comes nearest to
}

// between holds the CG and its region against the sides of the picks; false for
// a single pick.
func (p *plan) between() (Between, bool) {
	ring := hull(p.picks)
	if len(ring) < 2 {
		return Between{}, false
	}
	out, _ := outside(p.picks, p.weight.CGM)
	b := Between{BestM: -out, WorstM: math.Inf(1)}
	for _, s := range sidesOf(ring) {
		if in := s.far - p.weight.takeoff.CGReach(p.stance.own(s.toward)); in < b.WorstM {
			b.WorstM, b.Side = in, s.name
		}
	}
	return b, true
}

// pickSide is one side of the picks in plan: what is inside has r·toward ≤ far.
type pickSide struct {
	toward geom.Vec
	far    float64 // m
	name   string
}

// sidesOf returns the sides of the outermost picks, or of two picks the ends of
// the line between them.
func sidesOf(ring []Pick) []pickSide {
	var sides []pickSide
	for i, a := range ring {
		b := ring[(i+1)%len(ring)]
		run := b.AtM.Sub(a.AtM)
		length := math.Hypot(run[0], run[1])
		toward, name := geom.Vec{run[1] / length, -run[0] / length, 0}, a.Name+"–"+b.Name
		if len(ring) == 2 {
			toward, name = geom.Vec{-run[0] / length, -run[1] / length, 0}, "of pick "+a.Name
		}
		sides = append(sides, pickSide{toward, a.AtM.Dot(toward), name})
	}
	return sides
}

// judgePlan sees whether the CG stands between the picks in plan, at its best
// place and everywhere in its region.
func (p *plan) judgePlan(h *Header) {
	const edge = 1e-6 // m: on the side is not between
	b, ok := p.between()
	switch {
	case !ok:
	case b.BestM < edge:
		out, side := outside(p.picks, p.weight.CGM)
		h.refuse("CG outside the picks: %s beyond the side %s", units.Length(max(0, out)).Format(units.Both), side)
	case b.WorstM < edge:
		h.refuse("CG outside the picks at worst over its range: it may be %s beyond the side %s", units.Length(max(0, -b.WorstM)).Format(units.Both), b.Side)
	}
}

// edges are the corners of the region of the CG, as places that the statics are
// solved again with.
func (p *plan) edges() []rig.Place {
	var out []rig.Place
	for _, c := range p.weight.takeoff.Corners() {
		if c.Sub(p.drawn.CGM).Len() > 1e-9 {
			out = append(out, rig.Place{At: p.stance.stand(c), Name: p.cornerOf(c)})
		}
	}
	if off := p.weight.weighedOff; off != (geom.Vec{}) {
		out = append(out, rig.Place{At: p.weight.CGM.Add(off), Name: "CG as weighed"})
	}
	return out
}

// cornerName says in words where the CG is taken.
func cornerName(c, best geom.Vec) string {
	const noise = 1e-6 // m
	off := c.Sub(best)
	name := "CG"
	if math.Hypot(off[0], off[1]) > noise {
		name += " " + units.Length(math.Hypot(off[0], off[1])).Format(units.Metric) + " out toward " + compass(off)
	}
	switch {
	case off[2] > noise:
		name += " at its highest"
	case off[2] < -noise:
		name += " at its lowest"
	}
	return name
}
