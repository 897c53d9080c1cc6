package takeoff

import (
	"fmt"

	"go.yaml.in/yaml/v3"

	"plumbhook/geom"
	"plumbhook/units"
)

// Fitting is hardware that is there at a pick: what the leg pulls on.
type Fitting struct {
	Kind string   // eyebolt, swivel hoist ring, shackle or turnbuckle
	Size string   // by its name in the trade, as written
	Axis geom.Vec // of length 1, the way an eyebolt or a hoist ring stands out of the load
	Line int

	Rated units.Mass // as marked on it, in line; 0: not stated, and the table is gone by
}

const aFitting = "hardware that is there, by its size: {eyebolt: M20}, {swivel hoist ring: 1 in}, {shackle: 3/4 in} or {turnbuckle: 1 in}; with `rated` what is marked on it"

// fittingDraft is a fitting while it is read: which keys are there.
type fittingDraft struct {
	Fitting
	kinds []*yaml.Node
	axis  *yaml.Node
}

// fittingKey is a key of a fitting that names a kind with a size.
func fittingKey(kind, takes string) key[fittingDraft] {
	return key[fittingDraft]{name: kind, takes: takes, read: func(r *reader, n *yaml.Node, f *fittingDraft) {
		f.Kind = kind
		f.Size, _ = r.text(n)
		f.kinds = append(f.kinds, n)
	}}
}

var fittingKeys = []key[fittingDraft]{
	fittingKey("eyebolt", "the thread of an eyebolt with a shoulder, such as M20 or 3/4 in"),
	fittingKey("swivel hoist ring", "the thread of a swivel hoist ring, such as M20 or 3/4 in"),
	fittingKey("shackle", "the size of a shackle: its body, such as 3/4 in, or under EN what it is rated for, such as 4.75 t"),
	fittingKey("turnbuckle", "the thread of a turnbuckle in the leg, such as 1 in"),
	{name: "rated", takes: aMass + ", as marked on it for a pull in line: it is taken in place of the table's", read: func(r *reader, n *yaml.Node, f *fittingDraft) { f.Rated, _ = r.mass(n) }},
	{name: "axis", takes: aDirection + ", the way the bolt stands out of the load; z if it is left out", read: func(r *reader, n *yaml.Node, f *fittingDraft) {
		f.Axis, _ = r.direction(n)
		f.axis = n
	}},
}

// readFitting reads the hardware at a pick.
func readFitting(r *reader, n *yaml.Node, p *Pick) {
	before := r.faults
	f := fittingDraft{Fitting: Fitting{Axis: geom.Vec{0, 0, 1}, Line: n.Line}}
	if !walk(r, n, "a fitting", fittingKeys, &f) || r.faults > before {
		return
	}
	switch {
	case len(f.kinds) == 0:
		r.bad(n, "the fitting has no kind", "write "+aFitting)
	case len(f.kinds) > 1:
		r.bad(f.kinds[1], "two kinds of fitting at one pick", "write the weaker of the two")
	case f.axis != nil && f.Kind != "eyebolt" && f.Kind != "swivel hoist ring":
		r.bad(f.axis, fmt.Sprintf("`axis` says nothing of a %s", f.Kind), "take it away: it is the way the bolt of an eyebolt or a hoist ring stands; the plate of a lug is `lug: {normal: y}`")
	default:
		p.Fitting = &f.Fitting
	}
}

// linkKey is the master link that gathers the legs.
var linkKey = key[Legs]{name: "link", takes: aMass + ": what the master link that gathers the legs is rated for", read: func(r *reader, n *yaml.Node, l *Legs) { l.Link, _ = r.mass(n) }}
