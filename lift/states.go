package lift

import (
	"fmt"
	"slices"

	"plumbhook/geom"
	"plumbhook/takeoff"
)

// asDrawn names the load with everything that its file lists.
const asDrawn = "as drawn"

// StateWeight is what the load weighs in one of its states.
type StateWeight struct {
	Name     string      `json:"name"`
	Weight   WeightRange `json:"weight"`
	CGM      geom.Vec    `json:"cg_m"`
	CGRangeM Box         `json:"cg_range_m"`
	Governs  bool        `json:"governs"` // the heaviest to size for
}

// StateLegs is how the load hangs in one of its states, rigged for that state.
type StateLegs struct {
	Name           string   `json:"name"`
	SizingKg       float64  `json:"sizing_kg"`
	Acceptable     bool     `json:"acceptable"`
	Reasons        []string `json:"reasons"`
	Pick           string   `json:"pick"` // of the leg with the greatest worst tension
	WorstTensionKN float64  `json:"worst_tension_kn"`
	TiltWorstDeg   float64  `json:"tilt_worst_deg"`
	StableWorst    bool     `json:"stable_worst"`
	Governs        bool     `json:"governs"`
}

// inState is the load in the state that was asked for; as drawn if none was.
func inState(l *takeoff.Load, o Options) (*takeoff.Load, error) {
	if o.State == "" || o.State == asDrawn || l.State == o.State {
		return l, nil
	}
	in, err := l.In(o.State)
	if err != nil {
		return nil, bad(l, 0, err.Error(), "name a state of the load file")
	}
	return in, nil
}

// states are the load as drawn and in each of its states; the load alone where
// it has none, or is in one already.
func states(l *takeoff.Load, o Options) ([]*takeoff.Load, error) {
	all := []*takeoff.Load{l}
	if l.State != "" || o.State != "" {
		return all, nil
	}
	for _, s := range l.States {
		in, err := l.In(s.Name)
		if err != nil {
			return nil, bad(l, s.Line, err.Error(), "correct the state")
		}
		all = append(all, in)
	}
	return all, nil
}

func stateName(l *takeoff.Load) string {
	if l.State == "" {
		return asDrawn
	}
	return l.State
}

// weighStates weighs each state; drawn is the load as drawn, weighed already.
func weighStates(l *takeoff.Load, drawn Weight, o Options) ([]StateWeight, error) {
	all, err := states(l, o)
	if err != nil || len(all) == 1 {
		return nil, err
	}
	var list []StateWeight
	heaviest := 0
	for i, one := range all {
		w := drawn
		if i > 0 {
			var silent Header
			if w, err = weigh(one, &silent); err != nil {
				return nil, err
			}
		}
		list = append(list, StateWeight{Name: stateName(one), Weight: w.Weight, CGM: w.CGM, CGRangeM: w.CGRangeM})
		if w.Weight.SizingKg > list[heaviest].Weight.SizingKg {
			heaviest = i
		}
	}
	list[heaviest].Governs = true
	return list, nil
}

// followStates goes from weight to legs in each state and returns the governing
// one: one that may not be lifted before one that may, then the one with the
// greatest tension. Picks that are not given are proposed for the load as drawn,
// since lugs stay where they are. What is against any state is against the lift.
func followStates(l *takeoff.Load, o Options) (*takeoff.Load, Header, line, error) {
	l, err := inState(l, o)
	if err != nil {
		return l, Header{}, line{}, err
	}
	all, err := states(l, o)
	if err != nil {
		return l, Header{}, line{}, err
	}
	h, way, err := follow(l, o)
	if err != nil || len(all) == 1 {
		return l, h, way, err
	}
	governing, list := 0, []StateLegs{newStateLegs(l, h, way)}
	heads, ways := []Header{h}, []line{way}
	for i, in := range all[1:] {
		in.Rigging.Picks = way.takeoffPicks(l)
		h, one, err := follow(in, o)
		if err != nil {
			return l, h, one, fmt.Errorf("in the state %q: %w", in.State, err)
		}
		heads, ways, list = append(heads, h), append(ways, one), append(list, newStateLegs(in, h, one))
		if list[i+1].worse(list[governing]) {
			governing = i + 1
		}
	}
	list[governing].Governs = true
	h, way = heads[governing], ways[governing]
	h.State = stateName(all[governing])
	for i, s := range list {
		if i == governing {
			continue
		}
		way.others = append(way.others, otherState{load: all[i], way: ways[i]})
		for _, reason := range s.Reasons {
			if slices.Contains(list[governing].Reasons, reason) {
				continue // the same in the governing state
			}
			h.refuse("in the state %q: %s", s.Name, reason)
		}
		for _, w := range heads[i].Warnings {
			if !h.warned(w.Code, w.Text) {
				h.warn(w.Code, fmt.Sprintf("in the state %q: %s", s.Name, w.Text), w.Fix)
			}
		}
	}
	h.assume("each state is rigged for itself: legs that are cut for level are cut for the CG of that state")
	way.legs.States = list
	return all[governing], h, way, nil
}

func newStateLegs(l *takeoff.Load, h Header, way line) StateLegs {
	s := StateLegs{Name: stateName(l), SizingKg: way.weight.Weight.SizingKg, Acceptable: h.Verdict.Acceptable, Reasons: h.Verdict.Reasons, StableWorst: way.legs.StableWorst}
	if way.legs.Posed != nil {
		s.TiltWorstDeg = way.legs.TiltWorstDeg
	}
	for _, leg := range way.legs.Legs {
		if leg.WorstTensionKN > s.WorstTensionKN {
			s.Pick, s.WorstTensionKN = leg.Pick, leg.WorstTensionKN
		}
	}
	return s
}

// worse tells whether a state governs before another.
func (s StateLegs) worse(than StateLegs) bool {
	if s.Acceptable != than.Acceptable {
		return !s.Acceptable
	}
	return s.WorstTensionKN > than.WorstTensionKN
}
