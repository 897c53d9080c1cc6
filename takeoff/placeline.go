package takeoff

import (
	"fmt"
	"math"

	"github.com/go-gl/mathgl/mgl64"
	"go.yaml.in/yaml/v3"

	"plumbhook/geom"
	"plumbhook/units"
)

const aDirection = "a direction: x, y, z, -x, -y, -z or [x, y, z]"

// directions are the words for a direction.
var directions = map[string]geom.Vec{"x": {1, 0, 0}, "y": {0, 1, 0}, "z": {0, 0, 1}, "-x": {-1, 0, 0}, "-y": {0, -1, 0}, "-z": {0, 0, -1}}

// direction returns a direction, of length 1. In a list the numbers are plain:
// only their proportion counts.
func (r *reader) direction(n *yaml.Node) (geom.Vec, bool) {
	var v geom.Vec
	if n.Kind != yaml.SequenceNode {
		w, ok := r.word(n, "x", "y", "z", "-x", "-y", "-z")
		return directions[w], ok
	}
	if len(n.Content) != 3 {
		r.bad(n, fmt.Sprintf("%d numbers where 3 are needed", len(n.Content)), "write "+aDirection)
		return v, false
	}
	for i, one := range n.Content {
		x, ok := quantity(r, one, aNumber, units.ParseNumber)
		if !ok {
			return v, false
		}
		v[i] = x
	}
	l := v.Len()
	if !(l >= 1e-6 && l <= 1e6) {
		r.bad(n, fmt.Sprintf("%s is no direction", written(n)), "write "+aDirection)
		return v, false
	}
	return v.Mul(1 / l), true
}

// directionKey is a key with a direction.
func directionKey(name string, field func(*placing) **geom.Vec) key[draft] {
	return key[draft]{name: name, takes: aDirection, read: func(r *reader, n *yaml.Node, d *draft) {
		v, ok := r.direction(n)
		*field(&d.placing) = &v
		d.placing.nodes[name] = n
		d.placing.bad = d.placing.bad || !ok
	}}
}

// belongs refuses the placing keys that say nothing of this kind of thing.
func (r *reader) belongs(k kind, d draft) bool {
	before := r.faults
	p := d.placing
	refuse := func(name, text, fix string) {
		if n := p.nodes[name]; n != nil {
			r.bad(n, text, fix)
		}
	}
	if d.length != nil && !k.named {
		r.bad(d.length, fmt.Sprintf("`length` beside a %s", k.name), "write it among the sizes of the solid; only a section or a pipe has it beside")
	}
	switch laid := p.from != nil || p.turned == "along"; {
	case !k.deep:
		refuse("up", fmt.Sprintf("a %s has no depth for `up` to point along", k.name), "take `up` away; sections, prisms and polygons take it")
	case !laid:
		refuse("up", "`up` without a line that the solid lies along", "place it by `from` and `to`, or add `along`; else use `turn` alone")
	}
	if !k.deep || p.from == nil {
		refuse("line", "`line` says which line of a section `from` and `to` are on", "take `line` away, or place a section by `from` and `to`")
	}
	if !k.bends {
		const fix = "take it away; a solid is laid by `along`, `turn`, or `from` and `to`"
		refuse("heading", fmt.Sprintf("a %s has no `heading`: a bend has", k.name), fix)
		refuse("toward", fmt.Sprintf("a %s has no `toward`: a bend has", k.name), fix)
	}
	if k.name != "weld" {
		refuse("on", fmt.Sprintf("a %s can't be spread on a part: a weld can", k.name), "take `on` away, and place it by `at`, `center` or `corner`")
	}
	return r.faults == before
}

// lay returns where a solid comes to stand.
func (r *reader) lay(n *yaml.Node, k kind, size dims, p placing, s geom.Solid) (geom.Pose, bool) {
	switch {
	case p.heading != nil || p.toward != nil:
		return r.layBend(n, p)
	case k.name == "cone" && p.from != nil && size.named["offset"] > 0:
		r.bad(n, "a cone with an offset can't be placed by `from` and `to`: they don't say where to the top is offset", "use `at` with `turn`; the offset is along its own +x")
		return geom.Pose{}, false
	case k.name == "vessel" && p.from != nil: // its tangent lines, not its heads, are at the ends
		pose := p.pose(s)
		if v, ok := s.(geom.Vessel); ok {
			lower, _ := v.TangentLines()
			pose.Move = pose.Move.Sub(pose.Turn.Mul3x1(geom.Vec{0, 0, lower}))
		}
		return pose, true
	case !k.deep:
		return p.pose(s), true
	case p.from != nil:
		return r.layBetween(n, size, p, s)
	case p.turned == "along" && (p.up != nil || k.named && p.along[2] == 0):
		turn, ok := r.upright(n, size, p, p.along)
		p.turn = turn
		return p.pose(s), ok
	}
	return p.pose(s), true
}

// layBetween lays a solid with a depth so that a line of it runs between two
// ends.
func (r *reader) layBetween(n *yaml.Node, size dims, p placing, s geom.Solid) (geom.Pose, bool) {
	way := p.to.Sub(*p.from)
	at, ok := r.lineAt(size, s, p)
	if !ok {
		return geom.Pose{}, false
	}
	turn := turnTo(way)
	if !size.round() || p.line != nil || p.up != nil {
		if turn, ok = r.upright(n, size, p, way); !ok {
			return geom.Pose{}, false
		}
	}
	return geom.Pose{Turn: turn, Move: p.from.Sub(turn.Mul3x1(at))}, true
}

// leastSlant is how far from the line the direction `up` must be: nearer, it
// does not say how the section is turned.
const leastSlant = 5 // degrees

// upright returns the rotation that lays own +z along a line and own +y, the
// depth, as near to `up` as it goes. Own +x is then to the left of the way.
func (r *reader) upright(n *yaml.Node, size dims, p placing, way geom.Vec) (mgl64.Mat3, bool) {
	along := way.Mul(1 / way.Len())
	up := geom.Vec{0, 0, 1}
	such := "z"
	if math.Abs(along[2]) > 0.7 {
		such = "y"
	}
	fix := "write `up:` with the direction that its depth points to, such as `up: " + such + "`"
	steep := func(v geom.Vec) bool {
		return math.Asin(min(1, along.Cross(v).Len())) < units.Radians(leastSlant)
	}
	switch {
	case p.up != nil && steep(*p.up):
		r.bad(p.nodes["up"], fmt.Sprintf("`up` points along the line itself, or within %d degrees of it", leastSlant), "write the direction, square to the line, that its depth points to")
		return mgl64.Ident3(), false
	case p.up != nil:
		up = *p.up
	case !size.twoAxes():
		r.bad(n, "this section is not symmetric about two axes, and nothing says how it is turned about its line: `up` is missing", fix)
		return mgl64.Ident3(), false
	case steep(up):
		r.bad(n, fmt.Sprintf("the line is within %d degrees of vertical, and nothing says how the section is turned about it: `up` is missing", leastSlant), fix)
		return mgl64.Ident3(), false
	}
	return frame(along, up), true
}

// frame returns the rotation with own +z along a direction of length 1 and own
// +y in the plane of it and of another direction.
func frame(z, up geom.Vec) mgl64.Mat3 {
	y := up.Sub(z.Mul(z.Dot(up)))
	y = y.Mul(1 / y.Len())
	return mgl64.Mat3FromCols(y.Cross(z), y, z)
}

// layBend places a bend: its first end, the direction there, and the side that
// it turns to, own +x.
func (r *reader) layBend(n *yaml.Node, p placing) (geom.Pose, bool) {
	if p.heading == nil || p.toward == nil || p.from == nil {
		r.bad(n, "a bend is placed by `from`, `heading` and `toward` together", "write the centre of its first end, the direction there, and the side that it turns to")
		return geom.Pose{}, false
	}
	side := p.heading.Cross(*p.toward)
	if math.Asin(min(1, side.Len())) < units.Radians(leastSlant) {
		r.bad(p.nodes["toward"], fmt.Sprintf("`toward` is `heading` itself, or within %d degrees of it or its opposite", leastSlant), "write the side that the bend turns to, square to `heading`")
		return geom.Pose{}, false
	}
	y := side.Mul(1 / side.Len())
	return geom.Pose{Turn: mgl64.Mat3FromCols(y.Cross(*p.heading), y, *p.heading), Move: *p.from}, true
}
