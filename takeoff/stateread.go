package takeoff

import (
	"fmt"
	"slices"
	"strings"

	"go.yaml.in/yaml/v3"

	"plumbhook/units"
)

// stateDraft is a state while its keys are read.
type stateDraft struct {
	without, only []*yaml.Node // names
	contents      *yaml.Node
}

const aListOfParts = "a list of names of parts"

var stateKeys = []key[stateDraft]{
	{name: "without", takes: aListOfParts + ", contents or allowances that are not there", read: func(r *reader, n *yaml.Node, d *stateDraft) { d.without = r.oneOrMore(n) }},
	{name: "only", takes: aListOfParts + " and contents: no others are there", read: func(r *reader, n *yaml.Node, d *stateDraft) { d.only = r.oneOrMore(n) }},
	{name: "contents", takes: "names of parts, each with what is in it, such as {tank: {fluid: water, fill: 100 %}}", read: func(_ *reader, n *yaml.Node, d *stateDraft) { d.contents = n }},
}

// oneOrMore returns the nodes of a list of names, or of one name without a list.
func (r *reader) oneOrMore(n *yaml.Node) []*yaml.Node {
	if n.Kind == yaml.ScalarNode {
		return []*yaml.Node{n}
	}
	return r.list(n, aListOfParts)
}

// readStates reads the states of a load. The parts have been read; where one of
// them is wrong, names of parts are not looked up, as it may be missing.
func readStates(r *reader, n *yaml.Node, l *Load) {
	sound := r.faults == 0
	if !r.isGroup(n, "`states`", []string{"a name for each state"}) {
		return
	}
	for i := 0; i+1 < len(n.Content); i += 2 {
		word, value := n.Content[i], n.Content[i+1]
		before := r.faults
		name, ok := r.text(word)
		var d stateDraft
		if !ok || !walk(r, value, "a state", stateKeys, &d) || r.faults > before || !sound {
			continue
		}
		s := State{Name: name, Line: word.Line, Without: r.namesWithout(d.without, l), Only: r.partNames(d.only, l)}
		if len(d.without) > 0 && len(d.only) > 0 {
			r.bad(word, fmt.Sprintf("the state %q has both `without` and `only`", short(name)), "write one of the two: `only` leaves out all that it does not name")
		}
		if d.contents != nil {
			r.stateContents(d.contents, l, &s)
		}
		if r.faults == before && len(s.parts(l.Parts)) == 0 {
			r.bad(word, fmt.Sprintf("the state %q leaves nothing of the load", short(name)), "leave some part in it")
		}
		if host := s.unheld(l.Parts); r.faults == before && host != "" {
			r.bad(word, fmt.Sprintf("the state %q has what is in %q without the part that holds it", short(name), host), "name that part in it too, or leave its contents out")
		}
		if name == drawnState {
			r.bad(word, fmt.Sprintf("%q is what the load is called with all that its file lists", name), "give the state another name")
		}
		if r.faults == before {
			l.States = append(l.States, s)
		}
	}
}

// partNames reads names that parts or contents must have.
func (r *reader) partNames(nodes []*yaml.Node, l *Load) []string {
	var out []string
	for _, n := range nodes {
		name, ok := r.text(n)
		if !ok {
			continue
		}
		switch {
		case slices.ContainsFunc(l.Parts, func(p Part) bool { return p.called(name) }):
		case slices.Contains(r.allowanceNames(l), name):
			r.bad(n, fmt.Sprintf("%q is an allowance, and `only` names parts", short(name)), "take it away: allowances of what is there stay; to leave one out, name it in `without`, with the parts that are not there")
		default:
			r.noPart(n, name, l.Parts, func(Part) bool { return true })
		}
		out = append(out, name)
	}
	return out
}

// noPart says that no part has a name, and which of those that would do come near.
func (r *reader) noPart(n *yaml.Node, name string, parts []Part, would func(Part) bool) {
	var names []string
	for _, p := range parts {
		if would(p) {
			names = append(names, p.Name)
		}
	}
	fix := "write the name of a part as it stands after its `name`; the contents of a part `tank` are called `tank" + contentsWord + "`"
	if near := units.Nearest(name, names); len(near) > 0 {
		fix = fmt.Sprintf("did you mean %q? %s", near[0], fix)
	}
	r.bad(n, fmt.Sprintf("there is no part called %q", short(name)), fix)
}

// stateContents reads what is in parts in a state.
func (r *reader) stateContents(n *yaml.Node, l *Load, s *State) {
	if !r.isGroup(n, "`contents` of a state", []string{"the name of a part, with what is in it"}) {
		return
	}
	for i := 0; i+1 < len(n.Content); i += 2 {
		word, value := n.Content[i], n.Content[i+1]
		name, ok := r.text(word)
		if !ok {
			continue
		}
		host, before, ok := r.filledPart(word, name, l.Parts)
		if !ok {
			continue
		}
		if !s.keeps(host) {
			r.bad(word, fmt.Sprintf("%q is not there in the state %q, and can hold nothing", short(name), short(s.Name)), "leave it in the state, or take its contents away")
			continue
		}
		s.Contents = append(s.Contents, StateContents{Host: name, Parts: r.fill(value, host, before)})
	}
}

// filledPart finds the part that contents are for, and what is in it as drawn.
func (r *reader) filledPart(n *yaml.Node, name string, parts []Part) (host Part, before *Liquid, ok bool) {
	count := 0
	for _, p := range parts {
		switch {
		case p.Liquid != nil && p.Host == name && before == nil:
			before = p.Liquid
		case p.Liquid == nil && p.Name == name:
			host = p
			count++
		}
	}
	switch {
	case count == 0:
		r.noPart(n, strings.TrimSuffix(name, contentsWord), parts, func(p Part) bool { return p.Liquid == nil })
	case count > 1:
		r.bad(n, fmt.Sprintf("%d parts are called %q", count, short(name)), "give each part its own name")
	}
	return host, before, count == 1
}

// drawnState is what the load is called with everything in its file.
const drawnState = "as drawn"

// unheld returns a part that is not there while its contents are; "" for none.
func (s State) unheld(all []Part) string {
	here := s.parts(all)
	for _, p := range here {
		if p.Liquid != nil && !slices.ContainsFunc(here, func(q Part) bool { return q.Name == p.Host }) {
			return p.Host
		}
	}
	return ""
}
