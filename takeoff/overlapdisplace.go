package takeoff

import (
	"fmt"
	"slices"

	"go.yaml.in/yaml/v3"

	"plumbhook/geom"
	"plumbhook/units"
)

const aDisplaced = "the name of the part whose material makes room for this one (or a list of names): what both fill is taken off that part"

// displaced is a part that makes room for others.
type displaced struct {
	moments geom.Moments // in the frame of the part, what it lost
	doubt   float64      // m³
}

// displacing tells whether one of two parts makes room for the other.
func displacing(p, q Part) bool {
	return p.room != nil && slices.Contains(q.displaces, p.room) || q.room != nil && slices.Contains(p.displaces, q.room)
}

// displacedBy keeps the names of what a part displaces until all are read.
func (r *reader) displacedBy(d draft, p *Part) {
	if d.displaces == nil {
		return
	}
	switch p.Kind {
	case "weight", "load", "bar", "weld":
		r.bad(d.displaces, "only a part with a solid of its own displaces others", "take `displaces` away; a weight's box says only how far it reaches")
		return
	}
	p.displacing = d.displaces
}

// displace takes what parts displace off the parts that they name.
func (r *reader) displace(parts []Part) {
	if r.faults > 0 {
		return // a part that is named may be missing for another fault
	}
	hosts := map[int]*cutter{}
	for i := range parts {
		n := parts[i].displacing
		if n == nil {
			continue
		}
		parts[i].displacing = nil
		names := []*yaml.Node{n}
		if n.Kind == yaml.SequenceNode {
			names = r.list(n, "a list of names of parts")
		}
		for _, one := range names {
			if j, ok := r.host(one, parts, i); ok {
				if hosts[j] == nil {
					hosts[j] = parts[j].cutter(&r.sampled)
				}
				r.makeRoom(one, hosts[j], &parts[j], &parts[i])
			}
		}
	}
}

// cutter returns a cutter that has made the cuts of the part.
func (p Part) cutter(sampled *int) *cutter {
	k := &cutter{host: placed(p.Solid, p.Pose), sampled: sampled}
	for _, c := range p.Cuts {
		k.cuts = append(k.cuts, placed(c.Solid, c.Pose))
	}
	return k
}

// host finds the part that a name means.
func (r *reader) host(n *yaml.Node, parts []Part, self int) (int, bool) {
	name, ok := r.text(n)
	if !ok {
		return 0, false
	}
	var at []int
	var names []string
	for j, p := range parts {
		if j != self {
			names = append(names, p.Name)
		}
		if p.Name == name {
			at = append(at, j)
		}
	}
	switch {
	case len(at) == 0:
		fix := "write the name of a part as it stands after its `name`"
		if near := units.Nearest(name, names); len(near) > 0 {
			fix = fmt.Sprintf("did you mean %q? %s", near[0], fix)
		}
		r.bad(n, fmt.Sprintf("there is no part called %q to displace", short(name)), fix)
	case len(at) > 1:
		r.bad(n, fmt.Sprintf("%d parts are called %q", len(at), short(name)), "give each part its own name")
	case at[0] == self:
		r.bad(n, "a part can't displace itself", "write the name of the part that it sits in")
	case !parts[at[0]].bodily():
		r.bad(n, fmt.Sprintf("%q is known by its weight: where its metal is, is not known here", short(name)), "give that weight as it is with the other part in its place, and take `displaces` away")
	case len(parts[at[0]].Places) > 1:
		r.bad(n, fmt.Sprintf("there are %d of %q, and what is displaced must come off one piece", len(parts[at[0]].Places), short(name)),
			"write the piece that makes room as a part of its own, or give the part a cut")
	default:
		return at[0], true
	}
	return 0, false
}

// makeRoom takes what all copies of a part fill of its host off the host.
func (r *reader) makeRoom(n *yaml.Node, k *cutter, host, p *Part) {
	if host.room == nil {
		host.room = &displaced{}
	}
	before := host.one(host.Pose.Move).Volume
	sum, doubt := geom.Moments{}, 0.0
	for _, place := range p.Places {
		one := &cutter{host: k.host, cuts: slices.Clone(k.cuts), sampled: k.sampled}
		for _, c := range p.Cuts { // there is nothing of the part
			one.cuts = append(one.cuts, placed(c.Solid, place.After(c.Pose)))
		}
		t := one.take(Cut{Solid: p.Solid, Pose: place.After(p.Pose)})
		k.cuts = append(k.cuts, placed(p.Solid, place.After(p.Pose)))
		sum, doubt = sum.Plus(t.moments), doubt+t.doubt
	}
	host.room.moments, host.room.doubt = host.room.moments.Plus(sum), host.room.doubt+doubt
	p.displaces = append(p.displaces, host.room)
	left := before - sum.Volume
	switch {
	case sum.Volume <= 1e-9*before:
		r.bad(n, fmt.Sprintf("%q and %q have no body in common, so nothing is displaced", p.Name, host.Name), "correct a place, or take `displaces` away")
		return
	case !(left > 1e-9*before+doubt):
		r.bad(n, fmt.Sprintf("nothing of %q is left: it is displaced as a whole", host.Name), "leave that part out, or correct a size")
		return
	}
	sure := "exact"
	if doubt > 0 {
		sure = "±" + roughly(doubt/sum.Volume) + " of that"
	}
	host.Low, host.High = max(host.Low-doubt/left, -0.95), host.High+doubt/left
	host.Basis += fmt.Sprintf("; %s of it displaced by %s, %s", percent2(sum.Volume/before), p.Name, sure)
}
