package takeoff

import (
	"fmt"
	"slices"
	"strings"

	"plumbhook/units"
)

// State is a way in which a load may be lifted: which parts and contents are
// there. Names are those of parts, of contents ('tank contents'), or of a
// sub-assembly, which stands for all its parts. Without may name allowances too.
type State struct {
	Name          string
	Without, Only []string        // of which one may be given; neither: all parts
	Contents      []StateContents // in place of what is in these parts as drawn
	Line          int
}

// StateContents are the contents of a part in a state.
type StateContents struct {
	Host  string
	Parts []Part
}

// In returns the load in one of its states: the same load, rigging and
// allowances, with the parts of that state. Allowances on what is not there or
// that it is without, and overlaps with what is not there, are left out.
func (l *Load) In(name string) (*Load, error) {
	var names []string
	for _, s := range l.States {
		names = append(names, s.Name)
		if s.Name == name {
			return l.in(s)
		}
	}
	switch near := units.Nearest(name, names); {
	case len(names) == 0:
		return nil, fmt.Errorf("the load %q has no states, so none called %q: write them under `states:` in its file", l.Name, name)
	case len(near) > 0:
		return nil, fmt.Errorf("the load %q has no state called %q; did you mean %q? It has: %s", l.Name, name, near[0], strings.Join(names, ", "))
	}
	return nil, fmt.Errorf("the load %q has no state called %q; it has: %s", l.Name, name, strings.Join(names, ", "))
}

// in returns the load in a state.
func (l *Load) in(s State) (*Load, error) {
	out := *l
	out.Drawn = l
	out.State, out.Parts, out.Overlaps, out.Allowances = s.Name, s.parts(l.Parts), nil, nil
	if len(out.Parts) == 0 {
		return nil, fmt.Errorf("the state %q leaves nothing of the load %q", s.Name, l.Name)
	}
	for _, o := range l.Overlaps {
		if out.has(o.Parts[0]) && out.has(o.Parts[1]) {
			out.Overlaps = append(out.Overlaps, o)
		}
	}
	for _, a := range l.Allowances {
		if s.leavesOut(a) {
			continue
		}
		if a.kind == knownWeight && a.of == (partsOf{}) || slices.ContainsFunc(out.Parts, a.of.holds) {
			out.Allowances = append(out.Allowances, a)
		}
	}
	out.Warnings = slices.DeleteFunc(slices.Clone(l.Warnings), func(w Warning) bool {
		return w.Code == "vessel-empty" && slices.ContainsFunc(s.Contents, func(c StateContents) bool { return c.Host == w.Part })
	})
	return &out, nil
}

// has tells whether a part of the load has a name.
func (l *Load) has(name string) bool {
	return slices.ContainsFunc(l.Parts, func(p Part) bool { return p.Name == name })
}

// parts returns those of the parts of a load that are there in the state, each
// with its contents after it.
func (s State) parts(all []Part) []Part {
	var out []Part
	for _, p := range all {
		here := s.keeps(p)
		i := slices.IndexFunc(s.Contents, func(c StateContents) bool { return p.Liquid == nil && c.Host == p.Name })
		replaced := p.Liquid != nil && slices.ContainsFunc(s.Contents, func(c StateContents) bool { return c.Host == p.Host })
		if here && !replaced {
			out = append(out, p)
		}
		if here && i >= 0 {
			out = append(out, s.Contents[i].Parts...)
		}
	}
	return out
}

// keeps tells whether a part of the load is there in the state, whatever is in it.
func (s State) keeps(p Part) bool {
	if s.Only != nil {
		return slices.ContainsFunc(s.Only, p.called)
	}
	return !slices.ContainsFunc(s.Without, func(name string) bool {
		return p.called(name) || p.Host != "" && under(p.Host, name)
	})
}

// called tells whether a name in a state means the part: its own name, that of
// contents in any of their copies, or that of the sub-assembly it belongs to.
func (p Part) called(name string) bool {
	return under(p.Name, name) || p.Host != "" && p.Host+contentsWord == name
}

// under tells whether a part's name is a given one, or that of a part within the
// sub-assembly of that name.
func under(part, name string) bool {
	return part == name || strings.HasPrefix(part, name+" / ")
}
