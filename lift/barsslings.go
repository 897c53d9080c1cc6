package lift

import (
	"fmt"
	"maps"
	"slices"

	"plumbhook/sling"
	"plumbhook/takeoff"
	"plumbhook/units"
)

// SlingSet is a set of legs that take one size: the drops, or the legs that
// hold the bars of one tier.
type SlingSet struct {
	Name      string             `json:"name"`
	Required  map[string]float64 `json:"required_kg"`
	Governing Governing          `json:"governing"`
	Factors   []Factor           `json:"factors"`
	Families  []Family           `json:"families"`
}

// RatingOf is the rating in kg that a leg needs in a vertical hitch, under bars
// those above the bars too; 0 where nothing is sized.
func (s *Sizing) RatingOf(leg string) float64 {
	if s == nil {
		return 0
	}
	for _, set := range s.Sets {
		if kg := set.Required[leg]; kg > 0 {
			return kg
		}
	}
	return s.Required[leg]
}

// barsKg is what the bars of a load file weigh.
func barsKg(l *takeoff.Load) float64 {
	if l.Rigging.Bar == nil {
		return 0
	}
	return float64(l.Rigging.Bar.Mass())
}

// sizeBars chooses slings for each set of legs of a load under bars. The figures
// of the sizing are those of the drops.
func (w line) sizeBars(l *takeoff.Load, s Sizing, o Options, h *Header) (Sizing, error) {
	for _, set := range w.barSets(l, h) {
		flat := false
		for _, leg := range set.need.Legs {
			if units.Degrees(leg.Angle) < 1 {
				h.refuse("leg %s stands as good as level: no sling is sized for it", leg.Name)
				flat = true
			}
		}
		if flat || len(set.need.Legs) == 0 {
			continue
		}
		one, err := w.sizeSet(set, o, h)
		if err != nil {
			return s, err
		}
		s.Sets = append(s.Sets, one)
		if set.drops {
			s.Required, s.Governing, s.Factors, s.Families = one.Required, one.Governing, one.Factors, one.Families
		}
	}
	noHardware(l, h)
	w.gross(l, &s, h)
	s.Gross.use(h)
	return s, nil
}

// barSet is what a set of legs needs.
type barSet struct {
	name  string
	drops bool
	need  sling.Need
	rules []Factor // that raised what legs from one point are reckoned with
}

// barSets are the drops, then the legs that hold the bars, tier by tier from the
// hook down.
func (w line) barSets(l *takeoff.Load, h *Header) []barSet {
	drops := w.need(l, h)
	drops.Apart = true
	set := barSet{"drops", true, drops, nil}
	for end := range len(w.legs.Legs) {
		var at []int
		up := 0.0
		for i, leg := range drops.Legs {
			for _, hung := range w.legs.Legs {
				if hung.Pick == leg.Name && hung.end == end {
					at, up = append(at, i), up+hung.verticalN
				}
			}
		}
		w.bridle(&set, at, up)
	}
	sets := []barSet{set}
	for tier := 0; ; tier++ {
		set, some := w.tierSet(tier, drops)
		if !some {
			return sets
		}
		sets = append(sets, set)
	}
}

// tierSet is the set of the legs that hold the bars of a tier, and whether there
// are any: those to the hook are a set on it, those between bars are bridles.
func (w line) tierSet(tier int, need sling.Need) (set barSet, some bool) {
	need.Legs = nil
	set = barSet{"legs from hook to bar", false, need, nil}
	if tier > 0 {
		set.name = fmt.Sprintf("legs between bars, tier %d", tier+1)
	}
	bars, up := map[int][]int{}, map[int]float64{}
	for _, leg := range w.legs.UpperLegs {
		if leg.tier != tier {
			continue
		}
		some = true
		if leg.WorstTensionKN == 0 {
			continue
		}
		bars[leg.bar], up[leg.bar] = append(bars[leg.bar], len(set.need.Legs)), up[leg.bar]+leg.verticalN
		set.need.Legs = append(set.need.Legs, sling.Leg{Name: leg.Name, Tension: units.Force(leg.WorstTensionKN * 1000),
			Angle: units.FromHorizontal(units.Radians(leg.WorstFromHorizontalDeg)), Length: leg.LengthM, Hitch: "vertical"})
	}
	if tier == 0 {
		set.need.Apart, set.need.Weight = false, w.weight.sizing()+units.Mass(w.legs.BarsKg).Weight()
		return set, some
	}
	for _, bar := range slices.Sorted(maps.Keys(bars)) {
		w.bridle(&set, bars[bar], up[bar])
	}
	return set, some
}

// bridle raises the tension of those legs of a set that hang from one point to
// what the rule set reckons for a set that holds up so many newtons, where that is
// more: the check of the set, leg by leg. The rule is noted.
func (w line) bridle(set *barSet, at []int, up float64) {
	if len(at) < 2 || !(up > 0) {
		return
	}
	legs := set.need.Legs
	flattest := legs[at[0]].Angle
	for _, i := range at {
		flattest = min(flattest, legs[i].Angle)
	}
	share, rule, ok := sling.SetShare(w.plan.rules, units.Force(up), len(at), flattest)
	if !ok {
		return
	}
	raised := false
	for _, i := range at {
		raised = raised || share > legs[i].Tension
		legs[i].Tension = max(legs[i].Tension, share)
	}
	one := Factor(rule)
	one.Name = "bridle on a bar: " + rule.Name
	if raised && !slices.Contains(set.rules, one) {
		set.rules = append(set.rules, one)
	}
}

// sizeSet chooses slings for one set.
func (w line) sizeSet(set barSet, o Options, h *Header) (SlingSet, error) {
	s := SlingSet{Name: set.name, Required: map[string]float64{}, Families: []Family{}}
	answer, err := sling.Choose(set.need)
	if err != nil {
		return s, fmt.Errorf("%w: %w", ErrProgram, err)
	}
	if set.drops {
		for _, leg := range w.legs.Legs {
			s.Required[leg.Pick] = 0 // loose, unless it is sized
		}
	}
	for name, kg := range answer.Required {
		s.Required[name] = float64(kg)
	}
	s.Governing = Governing{Pick: answer.Governing, RequiredKg: float64(answer.RequiredMass)}
	s.Governing.TensionKN = w.legs.worstOf(answer.Governing)
	s.Factors = append(factors(answer.Factors), set.rules...)
	for _, v := range answer.Families {
		if o.Family == "" || o.Family == v.Family {
			s.Families = append(s.Families, family(v))
		}
	}
	for _, text := range answer.Warnings {
		if text != w.plan.limit.Warning {
			h.warn("slings", text, "allow for it, or have a qualified person decide")
		}
	}
	for _, reason := range answer.Reasons {
		h.refuse("%s: %s", set.name, reason)
	}
	return s, nil
}

// worstOf is the worst tension in kN of the leg of that name.
func (h Hanging) worstOf(name string) float64 {
	for _, leg := range h.Legs {
		if leg.Pick == name {
			return leg.WorstTensionKN
		}
	}
	for _, leg := range h.UpperLegs {
		if leg.Name == name {
			return leg.WorstTensionKN
		}
	}
	return 0
}
