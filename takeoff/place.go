package takeoff

import (
	"fmt"
	"math"
	"strings"

	"github.com/go-gl/mathgl/mgl64"
	"go.yaml.in/yaml/v3"

	"plumbhook/geom"
	"plumbhook/units"
)

// placing is where the file puts a solid: one of at, center, corner, or from
// and to; turned first by along or turn. A weld may be spread on a part.
type placing struct {
	at, center, corner, from, to *geom.Vec
	up, heading, toward          *geom.Vec // of length 1
	line, on                     *yaml.Node
	turn                         mgl64.Mat3
	along                        geom.Vec              // where `along` lays its axis
	turned                       string                // the key that turns it, or ""
	bad                          bool                  // a key of it was wrong: already reported
	words                        []string              // the placing keys that were found
	nodes                        map[string]*yaml.Node // of the keys that not every kind takes
}

// placeKeys are the keys that place a solid: parts and cuts share them.
var placeKeys = []key[draft]{
	placeKey("at", func(p *placing) **geom.Vec { return &p.at }),
	placeKey("center", func(p *placing) **geom.Vec { return &p.center }, "centre"),
	placeKey("corner", func(p *placing) **geom.Vec { return &p.corner }),
	placeKey("from", func(p *placing) **geom.Vec { return &p.from }),
	placeKey("to", func(p *placing) **geom.Vec { return &p.to }),
	{name: "along", takes: "x, y, z, -x, -y or -z", read: readAlong},
	{name: "turn", takes: "turns such as [x 90, z 30]", read: readTurns},
	directionKey("up", func(p *placing) **geom.Vec { return &p.up }),
	{name: "line", takes: someLines, read: func(_ *reader, n *yaml.Node, d *draft) { d.line, d.nodes["line"] = n, n }},
	directionKey("heading", func(p *placing) **geom.Vec { return &p.heading }),
	directionKey("toward", func(p *placing) **geom.Vec { return &p.toward }),
	{name: "length", takes: aLength + ", of a section or a pipe", read: func(_ *reader, n *yaml.Node, d *draft) { d.length = n }},
}

// onKey is the key that spreads a weld on a part.
var onKey = key[draft]{name: "on", takes: "the name of the part that a weld is spread over", read: func(_ *reader, n *yaml.Node, d *draft) {
	d.on, d.nodes["on"] = n, n
	d.words = append(d.words, "on")
}}

func placeKey(name string, field func(*placing) **geom.Vec, also ...string) key[draft] {
	return key[draft]{name: name, also: also, takes: aPlace, read: func(r *reader, n *yaml.Node, d *draft) {
		v, ok := r.place(n)
		*field(&d.placing) = &v
		d.placing.words = append(d.placing.words, name)
		d.placing.bad = d.placing.bad || !ok
	}}
}

// alongs are the turns that lay a solid's own axis, +z, along a direction of
// the load: about the one axis that is square to both, and about x for -z.
var alongs = map[string]struct {
	axis    int
	degrees float64
}{"z": {0, 0}, "x": {1, 90}, "-x": {1, -90}, "y": {0, -90}, "-y": {0, 90}, "-z": {0, 180}}

func readAlong(r *reader, n *yaml.Node, d *draft) {
	w, ok := r.word(n, "x", "y", "z", "-x", "-y", "-z")
	if !ok {
		d.placing.bad = true
		return
	}
	d.placing.turned = "along"
	d.placing.turn = geom.TurnAbout(alongs[w].axis, units.Radians(alongs[w].degrees))
	d.placing.along = directions[w]
}

const someTurns = "turns such as [x 90, z 30]: an axis and degrees each"

func readTurns(r *reader, n *yaml.Node, d *draft) {
	if d.placing.turned != "" {
		r.bad(n, "`along` and `turn` are both here", "keep one of the two")
		return
	}
	steps := []*yaml.Node{n}
	if n.Kind != yaml.ScalarNode {
		steps = r.list(n, someTurns)
	}
	d.placing.turned, d.placing.bad = "turn", d.placing.bad || len(steps) == 0
	for _, step := range steps {
		m, ok := r.oneTurn(step)
		d.placing.turn = m.Mul3(d.placing.turn)
		d.placing.bad = d.placing.bad || !ok
	}
}

// oneTurn reads an axis and an angle, such as `x 90`: right-handed, about an
// axis parallel to the load's.
func (r *reader) oneTurn(n *yaml.Node) (mgl64.Mat3, bool) {
	s, ok := r.scalar(n, someTurns)
	if !ok {
		return mgl64.Ident3(), false
	}
	axis, angle, _ := strings.Cut(s, " ")
	i := strings.Index("xyz", axis)
	if len(axis) != 1 || i < 0 {
		r.bad(n, fmt.Sprintf("%q is not a turn: it must begin with x, y or z and a space", short(s)), "write "+someTurns)
		return mgl64.Ident3(), false
	}
	degrees, err := units.ParseDegrees(angle)
	if !r.parsed(n, err) {
		return mgl64.Ident3(), false
	}
	if !(math.Abs(degrees) <= mostTurn) {
		r.bad(n, fmt.Sprintf("the turn %s is more than %d degrees", short(s), mostTurn), "write an angle from -360 to 360")
		return mgl64.Ident3(), false
	}
	return geom.TurnAbout(i, units.Radians(math.Mod(degrees, 360))), true
}

// onePlace reports whether a solid is placed in exactly one way, and says
// what is wrong if it is not.
func (r *reader) onePlace(n *yaml.Node, p placing) bool {
	if p.bad {
		return false
	}
	const fix = "give one: `at` (centre of its base), `center` or `corner` (of its bounding box), or `from` and `to`"
	var ways []string
	for _, w := range p.words {
		if w != "to" || p.from == nil {
			ways = append(ways, "`"+w+"`")
		}
	}
	switch {
	case len(ways) == 0:
		r.bad(n, "this has no place in the load", fix)
	case len(ways) > 1:
		r.bad(n, fmt.Sprintf("this is placed %d times: by %s", len(ways), strings.Join(ways, " and ")), fix)
	case (p.from == nil) != (p.to == nil) && p.heading == nil:
		r.bad(n, fmt.Sprintf("%s stands alone", ways[0]), "write both `from` and `to`, the two ends; for a bend `from`, `heading` and `toward`")
	default:
		return true
	}
	return false
}

// mostGap is how far a written length may be from the distance between `from`
// and `to`, in metres: half a millimetre, the last digit of most drawings.
const mostGap = 0.0005

// fitBetween fills in the length of a long solid from its two ends, or checks
// the length that was written against them.
func (r *reader) fitBetween(n *yaml.Node, k kind, d dims, p placing) bool {
	if p.from == nil {
		if k.long != "" && !d.has(k.long) {
			r.bad(n, fmt.Sprintf("a %s has no `%s`", k.name, k.long), fmt.Sprintf("write `%s:` with %s, or place it by `from` and `to`", k.long, aLength))
			return false
		}
		return true
	}
	if p.turned != "" {
		r.bad(n, fmt.Sprintf("`from` and what goes with it already say how it lies; `%s` does so too", p.turned), "take `"+p.turned+"` away")
		return false
	}
	if k.bends && p.to == nil {
		return true
	}
	if k.long == "" {
		r.bad(n, fmt.Sprintf("a %s can't be placed by `from` and `to`", k.name), "use `at`, `center` or `corner`, with `along` or `turn`")
		return false
	}
	between := p.to.Sub(*p.from).Len()
	switch {
	case !(between >= thinnest):
		r.bad(n, "`from` and `to` are the same place", "write the two ends of the line through its centroids")
		return false
	case !(between <= longest):
		r.bad(n, fmt.Sprintf("`from` and `to` are more than %d m apart", longest), "look at their unit")
		return false
	case d.has(k.long) && !k.byMass && math.Abs(d.named[k.long]-between) > mostGap:
		r.bad(n, fmt.Sprintf("its %s is %s, but `from` and `to` are %s apart", k.long, metres(d.named[k.long]), metres(between)),
			fmt.Sprintf("correct one of them, or leave `%s` out", k.long))
		return false
	case !d.has(k.long):
		d.named[k.long] = between
	}
	return true
}

// metres prints a length for a message.
func metres(l float64) string { return units.Length(l).Format(units.Both) }

// pose returns where a solid comes to stand.
func (p placing) pose(s geom.Solid) geom.Pose {
	turned := geom.Pose{Turn: p.turn}
	switch {
	case p.at != nil:
		turned.Move = *p.at
	case p.center != nil:
		turned.Move = p.center.Sub(geom.ExtentOf(s, turned).Center())
	case p.corner != nil:
		turned.Move = p.corner.Sub(geom.ExtentOf(s, turned).Min)
	case p.from != nil:
		turned = geom.Pose{Turn: turnTo(p.to.Sub(*p.from)), Move: *p.from}
	}
	return turned
}

// turnTo returns the rotation that lays +z along a direction by the shortest
// way, for a solid that is round about its axis. Rodrigues' formula with the
// axis z × d: exact where d is along z or -z too.
func turnTo(d geom.Vec) mgl64.Mat3 {
	d = d.Mul(1 / d.Len())
	if math.Hypot(d[0], d[1]) < 1e-100 { // its square would be lost
		if d[2] > 0 {
			return mgl64.Ident3()
		}
		return geom.TurnAbout(0, math.Pi)
	}
	cos, x, y := d[2], d[0], d[1]
	k := 0.0 // (1 − cos) / sin², written so that it stays exact near ±z
	if cos >= 0 {
		k = 1 / (1 + cos)
	} else {
		k = (1 - cos) / (x*x + y*y)
	}
	return mgl64.Mat3FromCols(
		geom.Vec{1 - k*x*x, -k * x * y, -x},
		geom.Vec{-k * x * y, 1 - k*y*y, -y},
		geom.Vec{x, y, cos})
}
