package takeoff

import (
	"fmt"

	"go.yaml.in/yaml/v3"
)

// Candidates is where picks may be proposed: on lugs that the load has, or on
// its own top. The zero value leaves it to the program: on the top.
type Candidates struct {
	Lugs []Pick  // none: on the top
	Grid float64 // m, from place to place, counted from the datum; 0: not stated
	Edge float64 // m, the least distance of a place from the edge of the top; 0: not stated
	Line int
}

// mostLugs is how many lugs are tried, each with each: about 10⁵ sets.
const mostLugs = 40

var candidateKeys = []key[Candidates]{
	{name: "lugs", takes: "a list of {name, at}: the lugs that there are, of which the best two, three or four are proposed", read: readLugs},
	{name: "grid", takes: "a length: places on the load's top that far apart, counted from the datum (every second or third where there would be more than 100 lines each way)", read: func(r *reader, n *yaml.Node, c *Candidates) { c.Grid, _ = r.positive(n) }},
	{name: "edge", takes: "a length: no place on the load's top nearer to an edge or a hole than that", read: func(r *reader, n *yaml.Node, c *Candidates) { c.Edge, _ = r.positive(n) }},
}

func readCandidates(r *reader, n *yaml.Node, l *Load) {
	c := Candidates{Line: n.Line}
	before := r.faults
	if walk(r, n, "`candidates`", candidateKeys, &c) && r.faults == before && len(c.Lugs) > 0 && (c.Grid > 0 || c.Edge > 0) {
		r.bad(n, "`lugs` beside `grid` or `edge`: those are of places on the load's top", "give the lugs alone, or leave them out")
		return
	}
	l.Rigging.Candidates = c
}

func readLugs(r *reader, n *yaml.Node, c *Candidates) {
	list := r.list(n, "a list of {name, at}")
	switch {
	case len(list) > mostLugs:
		r.bad(n, fmt.Sprintf("%d lugs; at most %d are tried together", len(list), mostLugs), "leave out those that can't be meant")
		return
	case len(list) == 1:
		r.bad(n, "one lug leaves nothing to choose", "give two or more, or write it as `picks`")
		return
	}
	for _, one := range list {
		p := Pick{Line: one.Line}
		if !walk(r, one, "a pick", pickKeys, &p) {
			continue
		}
		for _, q := range c.Lugs {
			if q.Name == p.Name && p.Name != "" {
				r.bad(one, fmt.Sprintf("the lug %q is here twice, first on line %d", p.Name, q.Line), "give each lug its own name")
			}
		}
		c.Lugs = append(c.Lugs, p)
	}
}
