package takeoff

import (
	"fmt"
	"slices"
	"strings"

	"go.yaml.in/yaml/v3"

	"plumbhook/units"
)

// ownName refuses the name of a part, of a sub-assembly or of contents for an
// allowance: states, weighings and influences tell them apart by name.
func (r *reader) ownName(n *yaml.Node, name string, parts []Part) {
	const fix = "give the allowance another name: states and weighings leave out by name"
	for _, p := range parts {
		host := p.Name
		if p.Liquid != nil {
			host = p.Host
		}
		switch {
		case name == host+contentsWord || strings.HasPrefix(name, host+contentsWord+", copy "):
			r.bad(n, fmt.Sprintf("the allowance has the name of the contents of %q", short(host)), fix)
			return
		case p.called(name):
			r.bad(n, fmt.Sprintf("the allowance has the name of a part, %q", short(name)), fix)
			return
		}
	}
}

// allowanceNames are the names of the load's allowances, and of those that its
// sub-assemblies hand it.
func (r *reader) allowanceNames(l *Load) []string {
	var names []string
	for _, a := range append(slices.Clone(l.Allowances), r.handed...) {
		names = append(names, a.Name)
	}
	return names
}

// namesWithout reads names of parts, contents or allowances that a state is
// without.
func (r *reader) namesWithout(nodes []*yaml.Node, l *Load) []string {
	allowances := r.allowanceNames(l)
	var out []string
	for _, n := range nodes {
		name, ok := r.text(n)
		switch {
		case !ok:
		case slices.Contains(allowances, name):
			out = append(out, name)
		case len(allowances) > 0 && !slices.ContainsFunc(l.Parts, func(p Part) bool { return p.called(name) }):
			r.notThere(n, name, l, allowances)
		default:
			out = append(out, r.partNames([]*yaml.Node{n}, l)...)
		}
	}
	return out
}

// notThere says that neither a part nor an allowance has a name.
func (r *reader) notThere(n *yaml.Node, name string, l *Load, allowances []string) {
	for _, p := range l.Parts {
		allowances = append(allowances, p.Name)
	}
	fix := "write the name of a part or of an allowance as it stands after its `name`; the contents of a part `tank` are called `tank" + contentsWord + "`"
	if near := units.Nearest(name, allowances); len(near) > 0 {
		fix = fmt.Sprintf("did you mean %q? %s", near[0], fix)
	}
	r.bad(n, fmt.Sprintf("there is no part or allowance called %q", short(name)), fix)
}

// leavesOut tells whether a state is without an allowance.
func (s State) leavesOut(a Allowance) bool { return slices.Contains(s.Without, a.Name) }

// AllowancesLeftOut lists the allowances that the load is without because its
// state says so, in the order of the file; none as drawn.
func (l *Load) AllowancesLeftOut() []string {
	if l.Drawn == nil {
		return nil
	}
	var out []string
	for _, s := range l.Drawn.States {
		if s.Name != l.State {
			continue
		}
		for _, a := range l.Drawn.Allowances {
			if s.leavesOut(a) {
				out = append(out, a.Name)
			}
		}
	}
	return out
}
