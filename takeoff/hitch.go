package takeoff

import (
	"fmt"
	"strings"

	"go.yaml.in/yaml/v3"

	"plumbhook/geom"
	"plumbhook/units"
)

// Hitch is how a sling takes hold. What is not stated has the zero value.
type Hitch struct {
	Kind string  // vertical, choker, basket, or not stated
	Pin  float64 // m, diameter of the pin in the eye of a vertical hitch; 0: not stated

	// The body that a choker or basket goes round. Its centre is the pick.
	Round        bool
	Across, Deep float64   // m: the diameter twice, or the sides of a square body, level and plumb; 0: not stated
	EdgeRadius   *float64  // m, of the corners of a square body; nil: not stated
	Along        *geom.Vec // the way the body runs, of length 1; nil: not stated
	Friction     float64   // between sling and body; 0: not stated

	Included   *units.Turn // rad, between the two parts of a basket; nil: not stated
	Choke      *units.Turn // rad, angle of choke; nil: not stated
	Restrained string      // what keeps the bight from running; empty: nothing
}

// Bight reports whether the sling goes round the load.
func (h Hitch) Bight() bool { return h.Kind == "choker" || h.Kind == "basket" }

// HitchOf is the hitch at a pick: its own, or that for all.
func (g Rigging) HitchOf(pick string) Hitch {
	for _, p := range g.Picks {
		if p.Name == pick && p.Hitch != nil {
			return *p.Hitch
		}
	}
	return g.Hitch
}

const (
	aHitch    = "vertical, choker or basket, or {kind, around, along, friction, ...}"
	aGirth    = "the diameter of a round body, such as 300, or the sides of a square one, level x plumb, such as 300 x 200"
	aFriction = "a plain number above 0 and up to 1, such as 0.15"
)

// hitchDraft is a hitch while it is read: which keys are there.
type hitchDraft struct {
	Hitch
	nodes map[string]*yaml.Node
}

// hitchKey is a key of a hitch that remembers where it stands.
func hitchKey(name, takes string, must bool, read func(r *reader, n *yaml.Node, h *Hitch)) key[hitchDraft] {
	return key[hitchDraft]{name: name, takes: takes, must: must, read: func(r *reader, n *yaml.Node, d *hitchDraft) {
		d.nodes[name] = n
		read(r, n, &d.Hitch)
	}}
}

const whichParts = "write `included angle: 60`, between the two parts; parts at 60° from horizontal under a plumb leg have 60° between them, parts at 45° have 90°"

var hitchKeys = []key[hitchDraft]{
	hitchKey("kind", "vertical, choker or basket", true, func(r *reader, n *yaml.Node, h *Hitch) { h.Kind, _ = r.word(n, hitches...) }),
	hitchKey("pin", aLength+": the pin in the eye of a vertical hitch", false, func(r *reader, n *yaml.Node, h *Hitch) { h.Pin, _ = r.positive(n) }),
	hitchKey("around", aGirth, false, readAround),
	hitchKey("edge radius", aLength+", of the corners of a square body; 0 if sharp", false, readCornerRadius),
	hitchKey("along", aDirection+", the way the body runs", false, func(r *reader, n *yaml.Node, h *Hitch) {
		if v, ok := r.direction(n); ok {
			h.Along = &v
		}
	}),
	hitchKey("friction", aFriction, false, readFriction),
	hitchKey("included angle", anAngle+", between the two parts of a basket", false, func(r *reader, n *yaml.Node, h *Hitch) {
		h.Included = r.opening(n, 0, 150, "from 0 (side by side) to 150")
	}),
	hitchKey("choke angle", anAngle+": the angle of choke, 180 with both parts in line", false, func(r *reader, n *yaml.Node, h *Hitch) {
		h.Choke = r.opening(n, 1e-9, 180, "more than 0 and at most 180")
	}),
	hitchKey("restrained", "what keeps the bight from running along the body, such as \"cleats welded both sides\"", false, func(r *reader, n *yaml.Node, h *Hitch) {
		if w, ok := r.text(n); ok && (w == "true" || w == "yes" || w == "false" || w == "no") {
			r.bad(n, fmt.Sprintf("`restrained` says %s, not by what", w), "write what keeps the bight in its place, such as \"cleats welded both sides\", or take the key away")
		} else {
			h.Restrained = w
		}
	}),
	{name: "parts angle", also: []string{"angle", "sling angle"}, refuse: whichParts},
}

// hitches are the ways a sling takes hold.
var hitches = []string{"vertical", "choker", "basket"}

// only says which keys belong to which kinds of hitch.
var only = map[string][]string{
	"pin": {"vertical"}, "around": {"choker", "basket"}, "edge radius": {"choker", "basket"}, "along": {"choker", "basket"},
	"friction": {"choker", "basket"}, "restrained": {"choker", "basket"}, "included angle": {"basket"}, "choke angle": {"choker"},
}

func readHitch(r *reader, n *yaml.Node, l *Load) {
	if h, ok := r.hitch(n); ok {
		l.Rigging.Hitch = h
	}
}

func readPickHitch(r *reader, n *yaml.Node, p *Pick) {
	if h, ok := r.hitch(n); ok {
		p.Hitch = &h
	}
}

// hitch reads a hitch: a word, or a group with more about it.
func (r *reader) hitch(n *yaml.Node) (Hitch, bool) {
	if n.Kind != yaml.MappingNode {
		w, ok := r.word(n, hitches...)
		return Hitch{Kind: w}, ok
	}
	before := r.faults
	d := hitchDraft{nodes: map[string]*yaml.Node{}}
	if !walk(r, n, "hitch", hitchKeys, &d) || r.faults > before {
		return Hitch{}, false
	}
	r.hitchFits(d)
	return d.Hitch, r.faults == before
}

// hitchFits refuses keys that say nothing of this kind of hitch, and the corners
// of a round body.
func (r *reader) hitchFits(d hitchDraft) {
	for _, k := range hitchKeys {
		n, kinds := d.nodes[k.name], only[k.name]
		if n == nil || kinds == nil {
			continue
		}
		fits := false
		for _, kind := range kinds {
			fits = fits || kind == d.Kind
		}
		if !fits {
			r.bad(n, fmt.Sprintf("`%s` says nothing of a %s hitch", k.name, d.Kind), fmt.Sprintf("take it away; it goes with %s", strings.Join(kinds, " and ")))
		}
	}
	if n := d.nodes["edge radius"]; n != nil && d.Bight() {
		switch {
		case d.Across == 0:
			r.bad(n, "an `edge radius` without the square body that it is of", "write `around: 300 x 200` beside it")
		case d.Round:
			r.bad(n, "an `edge radius`, and `around` is the diameter of a round body", "write `around: 300 x 200` for a square body, or take `edge radius` away")
		case 2**d.EdgeRadius > min(d.Across, d.Deep)*(1+1e-9):
			r.bad(n, "the corners are rounder than the body is wide", "look at `edge radius` and `around`")
		}
	}
}

// readAround reads the body that the sling goes round: one length for a round
// body, two for a square one.
func readAround(r *reader, n *yaml.Node, h *Hitch) {
	s, ok := r.scalar(n, aGirth)
	if !ok {
		return
	}
	if !strings.ContainsAny(s, "xX×") {
		h.Across, _ = r.positive(n)
		h.Round, h.Deep = true, h.Across
		return
	}
	if sides, ok := r.sizes(n, 2); ok {
		h.Across, h.Deep = sides[0], sides[1]
	}
}

func readCornerRadius(r *reader, n *yaml.Node, h *Hitch) {
	if l, ok := r.length(n); ok && l < 0 {
		r.bad(n, fmt.Sprintf("the radius %s is below zero", short(n.Value)), "write "+aLength+", or 0 for a sharp edge")
	} else if ok {
		h.EdgeRadius = &l
	}
}

func readFriction(r *reader, n *yaml.Node, h *Hitch) {
	f, ok := quantity(r, n, aFriction, units.ParseNumber)
	if ok && !(f > 0 && f <= 1) {
		r.bad(n, fmt.Sprintf("the friction %s must be above 0 and at most 1", short(n.Value)), "write "+aFriction+"; leave it out where it is not known")
		return
	}
	h.Friction = f
}

// opening reads an angle between two parts of a sling.
func (r *reader) opening(n *yaml.Node, least, most float64, want string) *units.Turn {
	a, ok := quantity(r, n, anAngle, units.ParseDegrees)
	if !ok {
		return nil
	}
	if !(a >= least && a <= most) {
		r.bad(n, fmt.Sprintf("the angle %s must be %s degrees", short(n.Value), want), "write "+anAngle)
		return nil
	}
	t := units.Turn(units.Radians(a))
	return &t
}
