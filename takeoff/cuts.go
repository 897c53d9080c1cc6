package takeoff

import (
	"fmt"
	"strconv"

	"go.yaml.in/yaml/v3"

	"plumbhook/geom"
	"plumbhook/units"
)

// cutSlack is how far a cut may reach out of its part before it counts, in
// metres: what is left of rounding when inches are turned into millimetres.
const cutSlack = 1e-6

// cutAway reads the cuts of a part and settles what each takes away: what of
// it lies in the part, and no metal twice.
func (r *reader) cutAway(d draft, p *Part) {
	if d.cuts == nil {
		return
	}
	before := r.faults
	k := cutter{host: placed(p.Solid, p.Pose), sampled: &r.sampled}
	for _, n := range r.list(d.cuts, "a list of solids, each beginning with '- '") {
		c, places, ok := r.oneCut(n)
		if r.cuts += len(places); r.cuts > mostCuts {
			r.bad(d.cuts, fmt.Sprintf("the load has more than %d cuts", mostCuts), "give parts with many cuts as meshes")
			return
		}
		if ok {
			r.cutCopies(n, &k, c, places, p)
		}
	}
	if r.faults > before {
		return
	}
	left, doubt := p.one(p.Pose.Move).Volume, p.cutDoubt()
	if !(left > 1e-9*p.Solid.Moments().Volume+doubt) {
		r.bad(d.cuts, "the cuts take the whole part away", "leave the part out, or correct the cuts")
		return
	}
	p.Low, p.High = max(p.Low-doubt/left, -0.95), p.High+doubt/left
	p.Basis += p.cutNote()
}

// cutCopies takes each copy of a cut away. What is wrong with one is said once.
func (r *reader) cutCopies(n *yaml.Node, k *cutter, c Cut, places []geom.Pose, p *Part) {
	said := len(r.warnings)
	for i, place := range places {
		one := c
		one.Pose = place.After(c.Pose)
		t := k.take(one)
		if !r.cutJudged(n, *p, one, t) {
			return
		}
		if i > 0 && len(r.warnings) > said+1 {
			r.warnings = r.warnings[:said+1]
		}
		if t.how != cutWhole {
			one.taken = &t
		}
		p.Cuts = append(p.Cuts, one)
	}
}

// cutJudged reports whether a cut can stand, and warns where it is not all that
// was written.
func (r *reader) cutJudged(n *yaml.Node, p Part, c Cut, t taken) bool {
	volume := c.Solid.Moments().Volume
	const nothing = 1e-9 // of the cut
	switch {
	case t.moments.Volume <= nothing*volume && t.outside >= (1-nothing)*volume:
		e := geom.ExtentOf(p.Solid, p.Pose)
		r.bad(n, "the cut misses its part: they have no body in common",
			fmt.Sprintf("place it in the load's axes; the part reaches from %s to %s", r.spell(e.Min), r.spell(e.Max)))
		return false
	case t.again && t.moments.Volume <= nothing*volume+t.doubt:
		r.warn("cut-takes-nothing", p.Name, fmt.Sprintf("the cut on line %d takes nothing away: the cuts before it have taken that metal", n.Line),
			"see that it is not written twice or in the wrong place")
	}
	if t.outside > nothing*volume && !withinBox(c, p) {
		sure := "exact"
		if t.how == cutSampled {
			sure = fmt.Sprintf("sampled along rays, ±%s of the cut", roughly(t.doubt/volume))
		}
		off := units.Mass(t.moments.Volume) * units.Mass(p.Material.Density)
		r.warn("cut-sticks-out", p.Name, fmt.Sprintf("the cut on line %d (%s) sticks out of its part by about %s: %s of it lies outside. Only what lies inside is taken off, %s (%s)",
			n.Line, c.Written, metres(t.by), percent2(t.outside/volume), off.Format(units.Both), sure),
			"if that is not meant, correct its size or place; a cut that ends at the part's surface is not warned of")
	}
	return true
}

// withinBox tells whether a cut stays within the box of its part, along the
// part's own axes: what of it is outside then crosses a hollow or a gap of the
// part, as a bolt hole through both walls of a tube does, and is meant to.
func withinBox(c Cut, p Part) bool {
	host := geom.ExtentOf(p.Solid, geom.Still())
	cut := geom.ExtentOf(c.Solid, from(p.Pose, c.Pose))
	for i := range host.Min {
		if cut.Min[i] < host.Min[i]-cutSlack || cut.Max[i] > host.Max[i]+cutSlack {
			return false
		}
	}
	return true
}

// percent2 prints a fraction in percent to two digits.
func percent2(f float64) string { return strconv.FormatFloat(100*f, 'g', 2, 64) + " %" }

// oneCut reads one cut, and where its copies are.
func (r *reader) oneCut(n *yaml.Node) (Cut, []geom.Pose, bool) {
	before := r.faults
	d := newDraft()
	if !walk(r, n, "a cut", cutKeys(), &d) {
		return Cut{}, nil, false
	}
	switch {
	case len(d.shapes) == 0 && r.reportedIn(n):
		return Cut{}, nil, false
	case len(d.shapes) != 1:
		r.bad(n, fmt.Sprintf("a cut is one solid; this has %d", len(d.shapes)), "write one solid and its place for each entry of `cuts`")
		return Cut{}, nil, false
	}
	d.bad = !r.onePlace(n, d.placing)
	s, pose, text, ok := r.stand(n, d)
	var copies Part
	r.pattern(d, &copies)
	return Cut{Solid: s, Pose: pose, Written: text}, copies.Places, ok && r.faults == before
}

// spell writes a place as the file would.
func (r *reader) spell(v geom.Vec) string {
	u := r.bare
	if u.Metres == 0 {
		u = units.LengthUnit{Name: "m", Metres: 1}
	}
	return fmt.Sprintf("[%.6g, %.6g, %.6g] %s", v[0]/u.Metres, v[1]/u.Metres, v[2]/u.Metres, u.Name)
}

// samples returns points of a cut in the load's axes: corners of its mesh, and
// as many points again spread through it.
func samples(c *solidAt) []geom.Vec {
	const most = 4000
	corners := c.solid.Mesh(c.own.Diagonal() / 2000).Vertices
	var points []geom.Vec
	stride := 1 + len(corners)/most
	for i := 0; i < len(corners); i += stride {
		points = append(points, c.pose.Point(corners[i]))
	}
	for i := range most {
		if v := spread(c.own, i); c.solid.Contains(v) {
			points = append(points, c.pose.Point(v))
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
