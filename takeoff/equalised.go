package takeoff

import (
	"fmt"
	"slices"
	"strings"

	"go.yaml.in/yaml/v3"
)

const equalisedFix = "write `equalised: [[A, B]]` with the picks of two legs that stand side by side"

// readEqualised reads groups of picks whose legs are made to pull alike.
func readEqualised(r *reader, n *yaml.Node, s *Sharing) {
	for _, one := range r.list(n, "a list of groups of picks, such as [[A, B]]") {
		var group []string
		if one.Kind == yaml.ScalarNode {
			r.notThis(one, "a group of picks, such as [A, B]")
			return
		}
		for _, name := range r.list(one, "a group of picks, such as [A, B]") {
			if text, ok := r.text(name); ok {
				group = append(group, text)
			}
		}
		s.Equalised = append(s.Equalised, group)
	}
}

// sharingFits sees that a lower basis is stated in one way, and that gear goes
// with the picks. It reports whether there was nothing to say.
func (r *reader) sharingFits(n *yaml.Node, s *Sharing, g Rigging) bool {
	before := r.faults
	switch {
	case s.Basis == "" && s.Equalised == nil:
		r.bad(n, "`sharing` has neither a `basis` nor legs that are `equalised`", "write `basis: elastic`, or "+strings.TrimPrefix(equalisedFix, "write "))
	case s.Basis != "" && s.Equalised != nil:
		r.bad(n, "`sharing` has both a `basis` and legs that are `equalised`", "keep the one that is so")
	case s.Equalised != nil:
		s.Basis = "equalised"
		r.gearFits(n, s.Equalised, g)
	}
	return r.faults == before
}

// gearFits sees that the groups name picks, each once, and leave three pulls,
// which is what statics settles.
func (r *reader) gearFits(n *yaml.Node, groups [][]string, g Rigging) {
	var names []string
	for _, p := range g.Picks {
		names = append(names, p.Name)
	}
	if len(names) == 0 {
		r.bad(n, "legs that are equalised, but no `picks`", "write `picks: [{name: A, at: [x, y, z]}, ...]`")
		return
	}
	pulls, used := len(names), []string{}
	for _, group := range groups {
		if len(group) < 2 {
			r.bad(n, fmt.Sprintf("the group %s has one leg: it takes two to pull alike", strings.Join(group, ", ")), equalisedFix)
			return
		}
		for _, name := range group {
			switch {
			case !slices.Contains(names, name):
				r.bad(n, fmt.Sprintf("%q in `equalised` is no pick", short(name)), "the picks are "+strings.Join(names, ", "))
				return
			case slices.Contains(used, name):
				r.bad(n, fmt.Sprintf("the leg to %s is in `equalised` twice", name), "name each leg once")
				return
			}
			used = append(used, name)
		}
		pulls -= len(group) - 1
	}
	if pulls != 3 {
		r.bad(n, fmt.Sprintf("%d legs equalised so make %d pulls; statics settles three, no more, and fewer leave the load free to roll", len(names), pulls),
			"equalise so many legs that three pulls are left: of four legs two")
	}
}
