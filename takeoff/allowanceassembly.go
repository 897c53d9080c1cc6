package takeoff

import "plumbhook/geom"

// assembly is one standing of a sub-assembly in a load: the allowances of its
// file are of its own parts alone, not of those of another that is called the
// same.
type assembly struct{ name string }

// standsIn tells whether the part belongs to a sub-assembly, or to one within it.
func (p Part) standsIn(a *assembly) bool {
	for _, one := range p.within {
		if one == a {
			return true
		}
	}
	return false
}

// stay hands parts and allowances of a sub-assembly's file on to the load
// that it stands in.
type stay struct {
	own    *assembly
	stand  geom.Pose
	places []geom.Pose
	off    float64                 // m, the position tolerance of the assembly as a whole
	inner  map[*assembly]*assembly // those within it, as this standing has them
}

func newStay(p *Part, stand geom.Pose) stay {
	return stay{&assembly{p.Name}, stand, p.Places, p.Position, map[*assembly]*assembly{}}
}

// ownOf returns an assembly within this one, apart from that of another
// standing of the same file.
func (s stay) ownOf(a *assembly) *assembly {
	if a == nil {
		return s.own
	}
	if s.inner[a] == nil {
		s.inner[a] = &assembly{a.name}
	}
	return s.inner[a]
}

// part marks a part as one of the assembly. What the assembly as a whole may be
// off its place comes on top of what the part may be within it.
func (s stay) part(p Part) Part {
	within := []*assembly{s.own}
	for _, a := range p.within {
		within = append(within, s.ownOf(a))
	}
	p.within = within
	p.Position = turnedPosition(p.Position, s.stand, s.places) + s.off
	return p
}

// allowances returns those of the assembly's file as the load has them.
func (s stay) allowances(l *Load) []Allowance {
	var out []Allowance
	for _, a := range l.Allowances {
		a.Name = s.own.name + " / " + a.Name
		a.Of = s.own.name + " / " + a.Of
		if a.of.part != "" {
			a.of.part = s.own.name + " / " + a.of.part
		}
		a.of.within = s.ownOf(a.of.within)
		a.copies *= len(s.places)
		var at []geom.Vec
		for _, c := range s.places {
			for _, one := range a.at {
				at = append(at, c.Point(s.stand.Point(one)))
			}
		}
		a.at = at
		if a.From == "" {
			a.From = l.File
		}
		out = append(out, a)
	}
	return out
}
