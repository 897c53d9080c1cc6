package lift

import (
	"fmt"
	"slices"

	"plumbhook/takeoff"
	"plumbhook/units"
)

// sizeTwo sizes the slings of each of two hooks as a set of its own.
func (w line) sizeTwo(l *takeoff.Load, o Options, h *Header) (Sizing, error) {
	s := Sizing{Rules: string(w.plan.rules), Required: map[string]float64{}, Factors: []Factor{}, Families: []Family{}, Advice: []string{}, Gross: Gross{Note: "of each hook: see by_hook"}}
	two := w.legs.TwoHooks
	for _, hook := range []struct {
		name string
		Hook
		crane *takeoff.HookCrane
	}{{"head", two.Head, l.Rigging.TwoHooks.Head.Crane}, {"tail", two.Tail, l.Rigging.TwoHooks.Tail.Crane}} {
		own := w.onHook(hook.Hook)
		if !own.pulls() {
			for _, pick := range hook.Picks {
				s.Required[pick] = 0
			}
			continue
		}
		one := *l
		one.Rigging.Stock = nil // said already that nothing is chosen from it
		if hook.crane != nil {
			one.Rigging.Limits.Crane = &takeoff.Crane{Capacity: hook.crane.Capacity, Block: hook.crane.Block}
		}
		of := Header{Verdict: Verdict{Acceptable: true}}
		sizing, err := own.size(&one, o, &of)
		if err != nil {
			return s, err
		}
		if hook.crane != nil {
			judgeShare(sizing, hook.crane.Share, &of)
		}
		h.takeOf(hook.name, of)
		s.ByHook = append(s.ByHook, HookSizing{hook.name, sizing})
		s.governedBy(sizing)
	}
	return s, nil
}

// onHook is the way to the legs of one hook alone, with what it pulls for the
// weight.
func (w line) onHook(hook Hook) line {
	w.weight.Weight.SizingKg = hook.WorstKg
	all := w.legs.Legs
	w.legs.Legs, w.legs.TwoHooks = nil, nil
	for _, leg := range all {
		if slices.Contains(hook.Picks, leg.Pick) {
			w.legs.Legs = append(w.legs.Legs, leg)
			// A lug may carry what its neighbour takes off it.
			w.weight.Weight.SizingKg = max(w.weight.Weight.SizingKg, float64(units.Force(leg.WorstTensionKN*1000).Mass()))
		}
	}
	return w
}

func (w line) pulls() bool {
	return slices.ContainsFunc(w.legs.Legs, func(l Leg) bool { return l.WorstTensionKN > 0 })
}

// governedBy takes in the sizing of one hook: the one that needs more governs.
func (s *Sizing) governedBy(one Sizing) {
	for pick, kg := range one.Required {
		s.Required[pick] = kg
	}
	if one.Governing.RequiredKg > s.Governing.RequiredKg {
		s.Governing, s.Factors, s.Families = one.Governing, one.Factors, one.Families
	}
}

// judgeShare holds a hook with its slings against the share of its crane; what
// is over it without slings has been said.
func judgeShare(s Sizing, share float64, h *Header) {
	g := s.Gross
	limit := share * g.CapacityKg
	unknown := slices.ContainsFunc(s.Families, func(f Family) bool { return f.Choice != nil && f.Choice.WeightKg == 0 })
	if share > 0 && unknown && g.TotalKg > closeToCapacity*limit && g.TotalKg <= limit {
		h.warn("sling-weight-unknown", "the own weight of some of the slings is not known and not in the gross load, which is near the share of the crane that may be used",
			"ask for it, or leave more below that share")
	}
	if share > 0 && g.TotalKg > limit*(1+1e-9) && g.SizingKg+g.BlockKg <= limit*(1+1e-9) {
		h.refuse("over the share of its crane: %s on the hook with its slings, and %s is the limit",
			units.Mass(g.TotalKg).FormatUp(units.Both), units.Mass(limit).FormatDown(units.Both))
	}
}

// takeOf takes in what was said of one hook.
func (h *Header) takeOf(hook string, of Header) {
	for _, reason := range of.Verdict.Reasons {
		h.refuse("%s hook: %s", hook, reason)
	}
	for _, w := range of.Warnings {
		h.warn(w.Code, fmt.Sprintf("%s hook: %s", hook, w.Text), w.Fix)
	}
	for _, text := range of.Assumptions {
		if !slices.Contains(h.Assumptions, text) {
			h.Assumptions = append(h.Assumptions, text)
		}
	}
}
