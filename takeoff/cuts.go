package takeoff

import (
	"fmt"
	"math"

	"go.yaml.in/yaml/v3"

	"plumbhook/geom"
	"plumbhook/units"
)

// cutSlack is how far a cut may reach out of its part before it counts, in
// metres: what is left of rounding when inches are turned into millimetres.
const cutSlack = 1e-6

// cutAway reads the cuts of a part, and sees that what they take away is
// there to be taken, once.
func (r *reader) cutAway(d draft, p *Part) {
	if d.cuts == nil {
		return
	}
	list := r.list(d.cuts, "a list of solids, each beginning with '- '")
	if r.cuts += len(list); r.cuts > mostCuts {
		r.bad(d.cuts, fmt.Sprintf("the load has more than %d cuts", mostCuts), "give parts with many cuts as meshes")
		return
	}
	before := r.faults
	var nodes []*yaml.Node
	for _, n := range list {
		if c, ok := r.oneCut(n); ok && r.inside(n, *p, c) {
			p.Cuts, nodes = append(p.Cuts, c), append(nodes, n)
		}
	}
	r.cutsApart(p.Cuts, nodes)
	if near := p.Pose.Move; r.faults == before && !(p.one(near).Volume > 1e-9*p.Solid.Moments().Volume) {
		r.bad(d.cuts, "the cuts take the whole part away", "leave the part out, or correct the cuts")
	}
}

// cutsApart sees that no two cuts of a part take the same metal away.
func (r *reader) cutsApart(cuts []Cut, nodes []*yaml.Node) {
	var boxes []geom.Extent
	for i, c := range cuts {
		boxes = append(boxes, geom.ExtentOf(c.Solid, c.Pose))
		for j := range i {
			if overlap(cuts[j], c, boxes[j], boxes[i]) {
				r.bad(nodes[i], fmt.Sprintf("this cut and the one on line %d overlap: what they share would be taken away twice", nodes[j].Line),
					"move or shorten one of them so that they only touch")
			}
		}
	}
}

// oneCut reads one cut.
func (r *reader) oneCut(n *yaml.Node) (Cut, bool) {
	before := r.faults
	d := newDraft()
	if !walk(r, n, "a cut", cutKeys(), &d) {
		return Cut{}, false
	}
	switch {
	case len(d.shapes) == 0 && r.reportedIn(n):
		return Cut{}, false
	case len(d.shapes) != 1:
		r.bad(n, fmt.Sprintf("a cut is one solid; this has %d", len(d.shapes)), "write one solid and its place for each entry of `cuts`")
		return Cut{}, false
	}
	d.bad = !r.onePlace(n, d.placing)
	s, pose, text, ok := r.stand(n, d)
	return Cut{Solid: s, Pose: pose, Written: text}, ok && r.faults == before
}

// inside reports whether a cut lies within its part. The points that are
// tried are the corners of the cut's mesh and an even spread through it: a cut
// that leaves the part by less than their spacing can be missed.
func (r *reader) inside(n *yaml.Node, p Part, c Cut) bool {
	points := samples(c, pointsFor(p.Solid))
	var in, out []geom.Vec // in the frame of the part
	for _, v := range points {
		own := p.Pose.Back(v)
		if near(p.Solid, own) {
			in = append(in, own)
		} else {
			out = append(out, own)
		}
	}
	switch {
	case len(out) == 0:
		return true
	case len(in) == 0:
		e := geom.ExtentOf(p.Solid, p.Pose)
		r.bad(n, "the cut misses its part: they have no point in common",
			fmt.Sprintf("place it in the load's axes; the part reaches from %s to %s", r.spell(e.Min), r.spell(e.Max)))
	default:
		by := ""
		if far := stray(p.Solid, out); far > 0 {
			by = fmt.Sprintf(" by about %s", metres(far))
		}
		r.bad(n, fmt.Sprintf("the cut sticks out of its part, or crosses a hollow of it%s; the weight taken off would be too much", by),
			"end it at the part's surface")
	}
	return false
}

// spell writes a place as the file would.
func (r *reader) spell(v geom.Vec) string {
	u := r.bare
	if u.Metres == 0 {
		u = units.LengthUnit{Name: "m", Metres: 1}
	}
	return fmt.Sprintf("[%.6g, %.6g, %.6g] %s", v[0]/u.Metres, v[1]/u.Metres, v[2]/u.Metres, u.Name)
}

// pointsFor is how many points are tried against a part: fewer for a mesh,
// where each try looks at every facet.
func pointsFor(s geom.Solid) int {
	const most, least, work = 4000, 60, 5_000_000
	if b, ok := s.(geom.Body); ok {
		return min(most, max(least, work/max(1, len(b.Mesh(0).Faces))))
	}
	return most
}

// samples returns points of a cut in the load's axes: corners of its mesh, and
// as many points again spread through it.
func samples(c Cut, most int) []geom.Vec {
	own := geom.ExtentOf(c.Solid, geom.Still())
	corners := c.Solid.Mesh(own.Diagonal() / 2000).Vertices
	var points []geom.Vec
	stride := 1 + len(corners)/most
	for i := 0; i < len(corners); i += stride {
		points = append(points, c.Pose.Point(corners[i]))
	}
	for i := range most {
		if v := spread(own, i); c.Solid.Contains(v) {
			points = append(points, c.Pose.Point(v))
		}
	}
	return points
}

// spread returns point i of an even, unordered and always equal spread over a
// box. Source: J. H. Halton, Numer. Math. 2, 1960 (from memory): the radical
// inverses of i to the bases 2, 3 and 5.
func spread(e geom.Extent, i int) geom.Vec {
	v, size := e.Min, e.Size()
	for axis, base := range []int{2, 3, 5} {
		part, inverse := 1.0, 0.0
		for n := i + 1; n > 0; n /= base {
			part /= float64(base)
			inverse += part * float64(n%base)
		}
		v[axis] += size[axis] * inverse
	}
	return v
}

// ways are the directions to the 26 neighbours of a cell of a grid.
var ways = func() []geom.Vec {
	var out []geom.Vec
	for i := range 27 {
		if v := (geom.Vec{float64(i%3 - 1), float64(i/3%3 - 1), float64(i/9 - 1)}); v.Len() > 0 {
			out = append(out, v.Normalize())
		}
	}
	return out
}()

// near reports whether a point is in a solid or within cutSlack of it.
func near(s geom.Solid, v geom.Vec) bool {
	if s.Contains(v) {
		return true
	}
	for _, w := range ways {
		if s.Contains(v.Add(w.Mul(cutSlack))) {
			return true
		}
	}
	return false
}

// stray returns about how far the farthest of some points lies outside a
// solid, in metres, for a message; 0 for a mesh, where it would take long.
func stray(s geom.Solid, out []geom.Vec) float64 {
	if _, mesh := s.(geom.Body); mesh {
		return 0
	}
	farthest, stride := 0.0, 1+len(out)/50
	size := geom.ExtentOf(s, geom.Still()).Diagonal()
	for i := 0; i < len(out); i += stride {
		nearest := math.Inf(1)
		for _, w := range ways {
			nearest = min(nearest, into(s, out[i], w, min(nearest, 100*size)))
		}
		if !math.IsInf(nearest, 1) {
			farthest = max(farthest, nearest)
		}
	}
	return farthest
}

// into returns how far it is from a point outside a solid into it, along a
// direction and no farther than most; infinite if it is not met.
func into(s geom.Solid, from, way geom.Vec, most float64) float64 {
	for t := cutSlack; t < most; t *= 1.1 {
		if !s.Contains(from.Add(way.Mul(t))) {
			continue
		}
		for outside := t / 1.1; t-outside > 1e-3*t; { // between the two
			if half := (outside + t) / 2; s.Contains(from.Add(way.Mul(half))) {
				t = half
			} else {
				outside = half
			}
		}
		return t
	}
	return math.Inf(1)
}

// overlap reports whether two cuts, in the boxes both and other, have a body
// in common: by points spread over the box that both reach into.
func overlap(a, b Cut, both, other geom.Extent) bool {
	for i := range both.Min {
		both.Min[i], both.Max[i] = max(both.Min[i], other.Min[i]), min(both.Max[i], other.Max[i])
		if both.Max[i]-both.Min[i] < cutSlack {
			return false
		}
	}
	for i := range 4000 {
		v := spread(both, i)
		if a.Solid.Contains(a.Pose.Back(v)) && b.Solid.Contains(b.Pose.Back(v)) {
			return true
		}
	}
	return false
}
