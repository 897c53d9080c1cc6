package lift

import (
	"fmt"
	"slices"
	"strings"

	"plumbhook/sling"
	"plumbhook/takeoff"
	"plumbhook/units"
)

// Slings sizes the slings for the legs as they hang.
//
// Errors: those of Legs, and takeoff.Problems where no rule set was chosen.
func Slings(l *takeoff.Load, o Options) (Slung, error) {
	if rules(l, o) == "" {
		return Slung{}, bad(l, 0, "no rule set is chosen, and slings are rated by one", "write `rules: US` or `rules: EN` in the load file, or give --rules")
	}
	l, h, way, err := followStates(l, o)
	if err != nil {
		return Slung{}, err
	}
	s, err := way.sizeStates(l, o, &h)
	if err == nil {
		s.Heights, err = way.heightCurve(l, s, o)
	}
	if err == nil && o.Explain {
		s.Working, err = way.explain(s, o)
		h.unexplained(s.Working == nil && way.legs.Solved)
	}
	return Slung{h, s}, err
}

// size chooses slings for the hung legs. Where there is no pose there is
// nothing to size.
func (w line) size(l *takeoff.Load, o Options, h *Header) (Sizing, error) {
	if err := checkStock(l); err != nil {
		return Sizing{}, err
	}
	s := Sizing{Rules: string(w.plan.rules), Required: map[string]float64{}, Hitch: map[string]float64{}, Factors: []Factor{}, Families: []Family{}, Advice: []string{}}
	if !w.legs.Solved {
		return s, nil
	}
	if l.Rigging.Stock != nil && (w.legs.TwoHooks != nil || l.Rigging.Bar != nil) {
		h.warn("stock-not-used", "the list of slings is worked out for legs straight to one hook: under bars and on two hooks nothing is chosen from it", "choose from it by the ratings printed")
	}
	if w.legs.TwoHooks != nil {
		return w.sizeTwo(l, o, h)
	}
	if l.Rigging.Bar != nil {
		return w.sizeBars(l, s, o, h)
	}
	need := w.need(l, h)
	need.Stock = w.stock(l, o, h)
	for _, leg := range w.legs.Legs {
		s.Required[leg.Pick] = 0 // loose, unless it is sized below
		if leg.WorstTensionKN > 0 && leg.WorstFromHorizontalDeg < 1 {
			h.refuse("leg %s stands as good as level: no sling is sized for it", leg.Pick)
			noHardware(l, h)
			w.gross(l, &s, h)
			s.Gross.use(h)
			return s, nil
		}
	}
	answer, err := sling.Choose(need)
	if err != nil {
		return s, fmt.Errorf("%w: %w", ErrProgram, err)
	}
	for name, kg := range answer.Required {
		s.Required[name] = float64(kg)
	}
	s.Governing = Governing{Pick: answer.Governing, RequiredKg: float64(answer.RequiredMass)}
	for i, leg := range w.legs.Legs {
		if leg.Pick == answer.Governing {
			s.Governing.TensionKN = w.legs.atLiftOff(i)
			if s.Governing.TensionKN > leg.WorstTensionKN {
				s.Governing.LiftOffKN = w.legs.LiftOff.Tension[leg.Pick]
			}
		}
	}
	s.Factors, s.working, s.Hitch = factors(answer.Factors), &answer.Working, answer.Hitch
	if answer.SetFactor > 0 {
		s.Set = &SetCheck{float64(need.Weight.Mass()), answer.SetFactor, float64(answer.SetRequired)}
	}
	for _, v := range answer.Families {
		if o.Family == "" || o.Family == v.Family {
			s.Families = append(s.Families, family(v))
		}
	}
	s.Stock = stockOf(l, answer.Stock, o, h)
	for _, text := range answer.Warnings {
		if text != w.plan.limit.Warning {
			h.warn("slings", text, "allow for it, or have a qualified person decide")
		}
	}
	for _, reason := range answer.Reasons {
		h.refuse("%s", reason)
	}
	if s.Hardware, err = w.hardware(l, &s, h); err != nil {
		return s, err
	}
	w.gross(l, &s, h)
	w.grossAtLiftOff(&s, h)
	s.Gross.use(h)
	return s, nil
}

// need puts the hung legs and their surroundings into the sling package's terms.
func (w line) need(l *takeoff.Load, h *Header) sling.Need {
	g := l.Rigging
	n := sling.Need{Rules: w.plan.rules, Weight: w.weight.sizing(), Dynamic: g.Dynamic}
	if a := g.Limits.LeastFromHorizontal; a != nil {
		n.LeastAngle = *a
	}
	if w.legs.Posed != nil && w.legs.LiftOff != nil {
		o := w.legs.LiftOff
		n.Weight = max(n.Weight, units.Mass(o.HookKg/w.plan.inPlaceOf(o.WithDynamic)).Weight())
	}
	for i, leg := range w.legs.Legs {
		if leg.WorstTensionKN == 0 {
			continue
		}
		n.Legs = append(n.Legs, held(sling.Leg{
			Name: leg.Pick, Tension: units.Force(w.legs.atLiftOff(i) * 1000), Length: leg.LengthM, Hitch: g.HitchOf(leg.Pick).Kind,
			Angle: units.FromHorizontal(units.Radians(leg.WorstFromHorizontalDeg)),
		}, g.HitchOf(leg.Pick), leg.Hold))
	}
	n.Surroundings = around(g.Surroundings, h)
	corners(g, &n, h)
	if g.Surroundings.Conditions["shock"] && g.Dynamic == 0 {
		h.warn("shock-without-allowance", "a shock is expected, and no dynamic factor is stated: nothing of it is in the tensions", "plan the lift without a shock, or state what it comes to: `factors: {dynamic: 1.5}`")
	}
	if slices.ContainsFunc(n.Legs, func(leg sling.Leg) bool { return leg.Hitch == "" }) {
		h.assume("no hitch in the load file: vertical (a straight leg from hook to pick)")
	}
	if g.Dynamic == 0 {
		h.assume("no dynamic factor in the load file: no dynamic allowance taken")
	}
	return n
}

// around puts the surroundings into the sling package's terms; what is not stated
// stays so, and is said.
func around(at takeoff.Surroundings, h *Header) sling.Surroundings {
	s := sling.Surroundings{
		Chemicals: at.Chemicals, ChemicalsStated: at.ChemicalsStated,
		EdgeRadius: at.EdgeRadius, EdgesNone: at.EdgesNone, EdgesStated: at.EdgesStated,
		Surface: at.Surface, Outdoors: at.Outdoors, EdgeProtection: at.EdgeProtection, Conditions: at.Conditions,
	}
	if open := s.Unstated(); len(open) > 0 {
		h.assume("not stated under `surroundings`, and so not judged for any sling: %s", strings.Join(open, ", "))
	}
	if at.ChemicalsStated && len(at.Chemicals) == 0 {
		s.Chemicals = []string{"none"}
	}
	if at.EdgesStated && at.EdgeRadius == nil && !at.EdgesNone {
		// Rounded, but not how much: no worse than not knowing.
		s.EdgesStated = false
		h.assume("edges stated as rounded without a radius are counted as not stated")
	}
	if at.Temperature != nil {
		c := float64(*at.Temperature)
		s.Temperature = &c
	}
	return s
}

func factors(in []sling.Factor) []Factor {
	out := []Factor{}
	for _, f := range in {
		out = append(out, Factor(f))
	}
	return out
}

func family(v sling.Verdict) Family {
	f := Family{Family: v.Family, Material: v.Material, Use: v.Use, Reasons: v.Reasons, Against: v.Against, Factors: factors(v.Factors), Cautions: v.Cautions, ByTag: v.ByTag}
	if v.Design != nil {
		f.Design = &factors([]sling.Factor{*v.Design})[0]
	}
	if f.Cautions == nil {
		f.Cautions = []string{}
	}
	if f.Reasons == nil {
		f.Reasons = []string{}
	}
	if c := v.Choice; c != nil {
		f.Choice = &Choice{c.Size, float64(c.Rated), float64(c.Required), c.Utilisation, float64(c.Weight), []AtAngle{}, c.Source, c.Basis, c.Note, c.Working}
		for _, a := range c.AtAngles {
			f.Choice.AtAngles = append(f.Choice.AtAngles, AtAngle{units.Degrees(a.Angle), units.Degrees(a.Angle.FromVertical()), float64(a.Holds)})
		}
	}
	return f
}

// families are those of each set of legs.
func (s *Sizing) families() [][]Family {
	if len(s.Sets) == 0 {
		return [][]Family{s.Families}
	}
	var all [][]Family
	for _, set := range s.Sets {
		all = append(all, set.Families)
	}
	return all
}
