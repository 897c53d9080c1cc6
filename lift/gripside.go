package lift

import (
	"math"
	"slices"

	"plumbhook/rig"
	"plumbhook/units"
)

// gripSides takes what side forces do to a body that friction keeps from turning in
// its two bights. It hangs in them as one with its slings: the forces lean all of it,
// and their moment about the line of the centres comes on top of that of a CG beside
// the line, on the friction that is counted on. Derived here.
func (p *plan) gripSides(s *sides, h *Header) {
	if p.grip == nil {
		return
	}
	most, name := 0.0, ""
	for i, c := range s.cases {
		forces, turns := slices.Clone(c.Forces), 0.0 // a tag line stands in several cases
		for k, f := range forces {
			turns += f.At.Sub(p.grip.on(f.At)).Cross(f.Force).Dot(p.grip.along)
			forces[k] = rig.SideForce{At: p.grip.seen(f.At), Force: f.Force}
		}
		s.cases[i].Forces = forces
		if math.Abs(turns) > most {
			most, name = math.Abs(turns), c.Name
		}
	}
	p.grip.out += most / float64(units.Mass(p.weight.Weight.LowKg).Weight())
	if most > 0 {
		p.grip.aside = ", what side forces turn it with counted as that"
	}
	if p.grip.out > p.grip.holds {
		h.refuse("the load turns in its bights with a side force on it (%s): that and its CG come to one up to %s from the line of the centres, and half the friction stated holds it to %s",
			name, both(p.grip.out), both(p.grip.holds))
	}
}
