package lift

import (
	"fmt"
	"strings"

	"plumbhook/geom"
	"plumbhook/rig"
	"plumbhook/units"
)

// liftOff solves the legs for the load and what holds it down together: weight and
// pull, at the CG of both, over all that is in doubt. The dynamic factor is of the
// free load; it is not taken on top unless the load file says so: the greater of
// the two governs each leg.
func (p *plan) liftOff(f *Hanging, h *Header) error {
	o := p.load.Rigging.LiftOff
	if o == nil {
		return nil
	}
	box := p.weight.extent()
	size, centre := box.Size(), box.Center()
	out := LiftOff{Kind: "suction", PressureNM2: float64(o.Pull), AreaM2: float64(o.Area), WithDynamic: o.WithDynamic,
		CentreM: p.stance.own(geom.Vec{centre[0], centre[1], box.Min[2]}), Tension: Forces{}}
	if o.Adhesion {
		out.Kind = "adhesion"
	}
	if o.Area == 0 {
		out.AreaM2 = size[0] * size[1]
		h.assume("the area of %s is taken as that of the underside of the load's box", out.Kind)
	}
	switch {
	case o.At != nil:
		out.CentreM = *o.At
	case box.Diagonal() < 1e-6, out.AreaM2 == 0:
		return bad(p.load, o.Line, "the load has no underside for "+out.Kind+" to act on", "give the `area` and its centre `at`, or the weights a `box`")
	}
	pull := out.PressureNM2 * out.AreaM2
	out.PullKN, out.HookKg = pull/1000, p.weight.Weight.SizingKg+pull/units.Gravity
	worst, err := p.heldDown(pull, p.stance.stand(out.CentreM))
	if err != nil {
		h.refuse("at lift-off, with %s of %s, no pose was found that the legs can hold: %s", out.Kind, units.Force(pull).FormatUp(units.Both), p.named(err.Error()))
		return nil
	}
	out.perLeg = make([]float64, len(p.picks))
	for i, pick := range p.picks {
		kn := worst.Tension[i] / 1000
		out.Tension[pick.Name] = kn
		out.perLeg[i] = kn / p.inPlaceOf(o.WithDynamic)
		out.Governs = out.Governs || out.perLeg[i] > f.Legs[i].WorstTensionKN*(1+1e-9)
	}
	p.judgeLiftOff(out, h)
	p.judgeComesUp(f, out, worst, h)
	f.LiftOff = &out
	return nil
}

// inPlaceOf is the dynamic factor that the lift-off is held against: what is sized
// is multiplied by it later.
func (p *plan) inPlaceOf(withDynamic bool) float64 {
	if withDynamic {
		return 1
	}
	return max(1, p.load.Rigging.Dynamic)
}

// heldDown is the worst of the legs with a pull in N down at a place besides the
// sizing weight.
func (p *plan) heldDown(pull float64, at geom.Vec) (rig.Worst, error) {
	r := p.rig(p.weight.sizing())
	both := r.Weight + pull
	middle := func(cg geom.Vec) geom.Vec { return cg.Mul(r.Weight).Add(at.Mul(pull)).Mul(1 / both) }
	doubt := p.doubt()
	for i := range doubt.CGs {
		doubt.CGs[i].At = middle(doubt.CGs[i].At)
	}
	r.Weight, r.CG = both, middle(r.CG)
	return r.Worst(doubt)
}

// judgeLiftOff holds the crane against load and pull together, and warns of what
// happens when the load lets go.
func (p *plan) judgeLiftOff(o LiftOff, h *Header) {
	if crane := p.crane(); crane != nil {
		free := p.weight.Weight.SizingKg + float64(crane.Beside())
		if total := o.HookKg + float64(crane.Beside()); free <= float64(crane.Capacity) && total > float64(crane.Capacity) {
			h.refuse("over capacity at lift-off: load, %s and %s pull with %s before any rigging, the crane lifts %s there",
				beside(crane), o.Kind, units.Mass(total).FormatUp(units.Both), crane.Capacity.FormatDown(units.Both))
		}
	}
	if o.PullKN*1000 > 0.1*float64(p.weight.planning()) {
		h.warn("sudden-release", fmt.Sprintf("%s holds the load with up to %s until it lets go; then it jumps and swings, and what hung on the crane is off it at once", o.Kind, units.Force(o.PullKN*1000).FormatUp(units.Both)),
			"break it loose first: jacks, wedges, water or air under it; take the load up slowly, people clear")
	}
}

// atLiftOff is the tension in kN that a leg is sized on: worst of the hung load, or
// at lift-off what the dynamic factor, taken later, makes the same.
func (h Hanging) atLiftOff(leg int) float64 {
	kn := h.Legs[leg].WorstTensionKN
	if h.Posed != nil && h.LiftOff != nil {
		kn = max(kn, h.LiftOff.perLeg[leg])
	}
	return kn
}

// grossAtLiftOff holds the crane against all that hangs and holds, rigging in.
func (w line) grossAtLiftOff(s *Sizing, h *Header) {
	if w.legs.Posed == nil || w.legs.LiftOff == nil {
		return
	}
	o := w.legs.LiftOff
	s.Gross.LiftOffKg = s.Gross.TotalKg + o.PullKN*1000/units.Gravity
	limit := s.Gross.CapacityKg
	crane := w.plan.crane()
	said := crane != nil && o.HookKg+float64(crane.Beside()) > limit // by judgeLiftOff
	if limit > 0 && !said && s.Gross.TotalKg <= limit && s.Gross.LiftOffKg > limit {
		h.refuse("over capacity at lift-off: %s pulls on the hook, the crane lifts %s there",
			units.Mass(s.Gross.LiftOffKg).FormatUp(units.Both), units.Mass(limit).FormatDown(units.Both))
	}
}

// assumeCalm says what of the outside is not taken into account.
func (p *plan) assumeCalm(h *Header) {
	g := p.load.Rigging
	var none []string
	if g.Wind == nil {
		none = append(none, "no wind")
	}
	if g.LiftOff == nil {
		none = append(none, "no suction or adhesion at lift-off")
	}
	if len(none) > 0 {
		h.assume("%s taken into account (`wind`, `lift-off`)", strings.Join(none, " and "))
	}
	if g.LiftOff != nil {
		return
	}
	for _, part := range p.weight.Parts {
		if strings.Contains(part.Material, "concrete") {
			h.assume("concrete lifted out of its form sticks to it: about 1 to 3 kN/m² of area, by form and release agent (PCI Design Handbook; CEN/TR 15728; from memory): state it as `lift-off: {adhesion: ...}` if this lift does so")
			return
		}
	}
}
