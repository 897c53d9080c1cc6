package takeoff

import "plumbhook/geom"

// warnEmpty warns of a part that can hold liquid, closed all round, and says
// nothing of what is in it: a vessel, a hollow sphere, a solid with a cut that lies
// within it.
func (r *reader) warnEmpty(kind string, p Part) {
	const fix = "see that it is, or write `contents:` with what is in it"
	switch {
	case kind == "vessel" || p.hollow != nil && p.hollow.closed:
		r.warn("vessel-empty", p.Name, "the "+kind+" has no `contents`: assumed empty and drained", fix)
	case p.cutWithin():
		r.warn("vessel-empty", p.Name, "a cut lies within the "+kind+", which has no `contents`: assumed empty and drained", fix)
	}
}

// cutWithin tells whether a cut lies within the part with metal all round: just
// outside the middle of each facet of the cut is the part. That holds for a cut on
// its own: where another one opens it, it can hold liquid all the same.
func (p Part) cutWithin() bool {
	const beyond = 1e-5 // m, more than rounding and less than any wall
	for _, c := range p.Cuts {
		sides := geom.ExtentOf(c.Solid, geom.Still()).Size()
		mesh := c.Solid.Mesh(0.02 * min(sides[0], sides[1], sides[2])).Posed(from(p.Pose, c.Pose))
		within := true
		for i := 0; within && i < len(mesh.Faces); i++ {
			a, b, d := mesh.Triangle(i)
			out := b.Sub(a).Cross(d.Sub(a))
			if out.Len() > 0 {
				within = p.Solid.Contains(a.Add(b).Add(d).Mul(1.0 / 3).Add(out.Normalize().Mul(beyond)))
			}
		}
		if within {
			return true
		}
	}
	return false
}

// OpenAndEmpty lists the parts that are hollow, open at an end, and say nothing
// of what is in them: they are weighed as empty. What is closed all round is
// warned of.
func (l *Load) OpenAndEmpty() []string {
	filled := map[string]bool{}
	for _, of := range []*Load{l, l.Drawn} {
		for i := 0; of != nil && i < len(of.Parts); i++ {
			filled[of.Parts[i].Host] = true
		}
	}
	var out []string
	for _, p := range l.Parts {
		if p.hollow != nil && !p.hollow.closed && !filled[p.Name] {
			out = append(out, p.Name)
		}
	}
	return out
}
