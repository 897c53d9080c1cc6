package takeoff

import (
	"fmt"
	"math"

	"github.com/go-gl/mathgl/mgl64"
	"go.yaml.in/yaml/v3"

	"plumbhook/geom"
	"plumbhook/units"
)

// arc is a side of an outline that is bowed, as it was written: it ends at
// `to`, and starts at the point before.
type arc struct {
	to            mgl64.Vec2
	here          bool
	bulge, radius float64
	side          string
	hasBulge      bool
}

var arcKeys = []key[arc]{
	{name: "to", takes: "the end of the arc [x, y]", must: true, read: func(r *reader, n *yaml.Node, a *arc) {
		if xy, ok := r.tuple(n, 2, "a corner [x, y]"); ok {
			a.to = mgl64.Vec2{xy[0], xy[1]}
		}
	}},
	{name: "bulge", takes: "the tangent of a quarter of its angle, positive anticlockwise", read: func(r *reader, n *yaml.Node, a *arc) {
		a.bulge, a.hasBulge = quantity(r, n, "the tangent of a quarter of its angle, positive anticlockwise", units.ParseNumber)
	}},
	{name: "radius", takes: aLength, read: func(r *reader, n *yaml.Node, a *arc) { a.radius, _ = r.positive(n) }},
	{name: "side", takes: "left or right, where it bows out to on the way", read: func(r *reader, n *yaml.Node, a *arc) {
		a.side, _ = r.word(n, "left", "right")
	}},
}

// arc reads {to, bulge} or {to, radius, side}.
func (r *reader) arc(n *yaml.Node) (arc, bool) {
	before := r.faults
	a := arc{here: true}
	if !walk(r, n, "an arc", arcKeys, &a) || r.faults > before {
		return a, false
	}
	byRadius := a.radius > 0 && a.side != ""
	if a.hasBulge == byRadius || (a.hasBulge && (a.radius > 0 || a.side != "")) {
		r.bad(n, "an arc is given by its bulge, or by its radius and side", "write {to: [x, y], bulge: 0.4142} or {to: [x, y], radius: 50, side: left}")
		return a, false
	}
	return a, true
}

// bow gives the sides of an outline the bulges of the arcs that end them.
func (r *reader) bow(out geom.Outline, arcs []arc, nodes []*yaml.Node) bool {
	for i, a := range arcs {
		from := (i + len(out) - 1) % len(out)
		switch {
		case !a.here:
		case a.hasBulge:
			out[from].Bulge = a.bulge
		default:
			b, err := geom.Bulge(out[from].At, a.to, a.radius, a.side == "left")
			if !r.shaped(nodes[i], err) {
				return false
			}
			out[from].Bulge = b
		}
	}
	return true
}

// straight tells whether an outline and its holes have no arcs.
func (d dims) straight() bool {
	for _, o := range append([]geom.Outline{d.outline}, d.holes...) {
		for _, v := range o {
			if v.Bulge != 0 {
				return false
			}
		}
	}
	return true
}

// points returns the corners of an outline.
func points(o geom.Outline) []mgl64.Vec2 {
	out := make([]mgl64.Vec2, len(o))
	for i, v := range o {
		out[i] = v.At
	}
	return out
}

// turn returns an angle in rad above 0 and up to a full turn.
func (r *reader) turn(n *yaml.Node) (float64, bool) {
	a, ok := quantity(r, n, "an angle in degrees, up to 360", units.ParseDegrees)
	if ok && !(a > 0 && a <= 360) {
		r.bad(n, fmt.Sprintf("the angle %s must be above 0 and at most 360 degrees", short(n.Value)), "write an angle in degrees, such as 90")
		return 0, false
	}
	return math.Min(units.Radians(a), 2*math.Pi), ok
}
