package lift

import (
	"fmt"
	"slices"

	"plumbhook/takeoff"
	"plumbhook/units"
)

// otherState is the way to the legs in a state that does not govern them.
type otherState struct {
	load   *takeoff.Load
	way    line
	sizing Sizing
}

// sizeStates sizes the slings in every state and takes of each set of legs the
// state that needs most: the greatest tension of all need not be in the same state
// as the greatest in each set, nor as the greatest weight, by which rule sets check.
func (w line) sizeStates(l *takeoff.Load, o Options, h *Header) (Sizing, error) {
	s, err := w.size(l, o, h)
	if err != nil {
		return s, err
	}
	for i := range w.others {
		other := &w.others[i]
		of := Header{Verdict: Verdict{Acceptable: true}}
		if other.sizing, err = other.way.size(other.load, o, &of); err != nil {
			return s, fmt.Errorf("in the state %q: %w", stateName(other.load), err)
		}
		h.takeState(stateName(other.load), of)
		for _, what := range s.atLeast(other.sizing, stateName(other.load)) {
			h.assume("%s", what)
		}
	}
	if len(w.others) > 0 && s.Stock != nil {
		h.assume("what is chosen from the list of slings has the lengths of one state; legs cut for another state take other slings: see `--state`")
	}
	s.Advice, err = w.advise(l, s, o)
	return s, err
}

// takeState takes in what was said of the slings in another state, and is not said
// of the governing one.
func (h *Header) takeState(state string, of Header) {
	for _, reason := range of.Verdict.Reasons {
		if !slices.Contains(h.Verdict.Reasons, reason) {
			h.refuse("in the state %q: %s", state, reason)
		}
	}
	for _, w := range of.Warnings {
		if !h.warned(w.Code, w.Text) {
			h.warn(w.Code, fmt.Sprintf("in the state %q: %s", state, w.Text), w.Fix)
		}
	}
}

// atLeast raises a sizing to what another state needs where that is more, and says
// of which legs.
func (s *Sizing) atLeast(other Sizing, state string) (said []string) {
	for i := range s.ByHook {
		for _, hook := range other.ByHook {
			if hook.Hook == s.ByHook[i].Hook {
				for _, text := range s.ByHook[i].Sizing.atLeast(hook.Sizing, state) {
					said = append(said, hook.Hook+" hook: "+text)
				}
			}
		}
	}
	for _, set := range other.Sets {
		if text := s.setAtLeast(set, state); text != "" {
			said = append(said, text)
		}
	}
	raiseAll(s.Required, other.Required)
	if len(other.ByHook) == 0 && other.Gross.TotalKg > s.Gross.TotalKg {
		s.Gross = other.Gross
	}
	if more(other.Governing, s.Governing) {
		if len(other.Sets)+len(other.ByHook) == 0 {
			said = append(said, governedIn("the legs", other.Governing, state))
		}
		s.Governing, s.Factors, s.Families, s.Stock = other.Governing.in(state), other.Factors, other.Families, other.Stock
	}
	return said
}

// setAtLeast raises the set of that name to what another state needs.
func (s *Sizing) setAtLeast(other SlingSet, state string) string {
	i := slices.IndexFunc(s.Sets, func(set SlingSet) bool { return set.Name == other.Name })
	if i < 0 {
		s.Sets = append(s.Sets, other)
		i = len(s.Sets) - 1
		s.Sets[i].Governing = other.Governing.in(state)
		return governedIn(other.Name, other.Governing, state)
	}
	set := &s.Sets[i]
	raiseAll(set.Required, other.Required)
	if !more(other.Governing, set.Governing) {
		return ""
	}
	set.Governing, set.Factors, set.Families = other.Governing.in(state), other.Factors, other.Families
	return governedIn(other.Name, other.Governing, state)
}

// more tells that a leg needs more than another, by more than rounding.
func more(a, b Governing) bool { return a.RequiredKg > b.RequiredKg*(1+1e-9) }

// in says in which state it governs, unless that is known already.
func (g Governing) in(state string) Governing {
	if g.State == "" {
		g.State = state
	}
	return g
}

func governedIn(what string, g Governing, state string) string {
	return fmt.Sprintf("the slings of %s are sized in the state %q, which needs more than the others: %s by leg %s",
		what, state, units.Mass(g.RequiredKg).FormatUp(units.Both), g.Pick)
}

func raiseAll(to, from map[string]float64) {
	for pick, kg := range from {
		to[pick] = max(to[pick], kg)
	}
}
