package takeoff

import (
	"fmt"
	"math"

	"go.yaml.in/yaml/v3"

	"plumbhook/geom"
	"plumbhook/units"
)

// Lug is how the plate of a lug stands at a pick.
type Lug struct {
	Normal geom.Vec // of length 1, square to the plate
	Axis   geom.Vec // of length 1, from the lug's foot to its hole
}

// LugPlate is what is known of the plate of a lug round its hole. What is not
// stated has the zero value.
type LugPlate struct {
	Hole, Thickness float64 // m
	Width           float64 // m, of the whole plate across the pull, the hole in its middle
	Edge            float64 // m, from the centre of the hole to the edge the way the leg pulls
	Yield, Tensile  units.Strength
	Category        string // A or B of ASME BTH-1
}

const aLug = "{normal: y, axis: z}: the direction square to the lug's plate, and the way from its foot to its hole; and of its hole {hole: 40, thickness: 25, width, edge, yield, tensile, category}"

// lugDraft is a lug while it is read: which keys are there.
type lugDraft struct {
	Lug
	LugPlate
	nodes map[string]*yaml.Node
}

// lugKey is a key of a lug that remembers where it stands.
func lugKey(name, takes string, read func(r *reader, n *yaml.Node, l *lugDraft)) key[lugDraft] {
	return key[lugDraft]{name: name, takes: takes, read: func(r *reader, n *yaml.Node, l *lugDraft) {
		l.nodes[name] = n
		read(r, n, l)
	}}
}

const (
	aStrength = "a strength with its unit, such as 355 MPa"
	aCategory = "the design category of ASME BTH-1, A or B"
)

var lugKeys = []key[lugDraft]{
	lugKey("normal", aDirection, func(r *reader, n *yaml.Node, l *lugDraft) { l.Normal, _ = r.direction(n) }),
	lugKey("axis", aDirection+"; z if it is left out", func(r *reader, n *yaml.Node, l *lugDraft) { l.Axis, _ = r.direction(n) }),
	lugKey("hole", aLength+": the diameter of the hole", func(r *reader, n *yaml.Node, l *lugDraft) { l.Hole, _ = r.positive(n) }),
	lugKey("thickness", aLength+", cheek plates left out", func(r *reader, n *yaml.Node, l *lugDraft) { l.Thickness, _ = r.positive(n) }),
	lugKey("width", aLength+", of the whole plate at the hole, across the pull", func(r *reader, n *yaml.Node, l *lugDraft) { l.Width, _ = r.positive(n) }),
	lugKey("edge", aLength+", from the centre of the hole to the nearest edge that the leg pulls toward", func(r *reader, n *yaml.Node, l *lugDraft) { l.Edge, _ = r.positive(n) }),
	lugKey("yield", aStrength+": the least yield stress of the plate", func(r *reader, n *yaml.Node, l *lugDraft) { l.Yield = r.strength(n) }),
	lugKey("tensile", aStrength+": its least tensile strength", func(r *reader, n *yaml.Node, l *lugDraft) { l.Tensile = r.strength(n) }),
	lugKey("category", aCategory, func(r *reader, n *yaml.Node, l *lugDraft) { l.Category, _ = r.word(n, "A", "B") }),
}

// Bounds on the strength of a plate: soft aluminium to the hardest steel plate.
const (
	leastStrength = 20e6  // N/m²
	mostStrength  = 2.5e9 // N/m²
)

func (r *reader) strength(n *yaml.Node) units.Strength {
	s, ok := quantity(r, n, aStrength, units.ParseStrength)
	if ok && !(s >= leastStrength && s <= mostStrength) {
		r.bad(n, fmt.Sprintf("a strength of %s must be from 20 MPa to 2500 MPa", short(n.Value)), "write "+aStrength+": look at its unit")
		return 0
	}
	return s
}

// mostOffPlate in degrees is how far out of its plate the axis of a lug may be
// written: more is a slip.
const mostOffPlate = 5

// readLug reads how the lug at a pick stands, and what its plate is.
func readLug(r *reader, n *yaml.Node, p *Pick) {
	before := r.faults
	d := lugDraft{Lug: Lug{Axis: geom.Vec{0, 0, 1}}, nodes: map[string]*yaml.Node{}}
	if !walk(r, n, "a lug", lugKeys, &d) || r.faults > before {
		return
	}
	if d.nodes["normal"] != nil {
		if out := math.Asin(min(1, math.Abs(d.Normal.Dot(d.Axis)))) * 180 / math.Pi; out > mostOffPlate {
			r.bad(n, fmt.Sprintf("the lug's axis stands %.0f° out of its plate", out),
				"write as `axis` the way from the lug's foot to its hole (z if it is left out), and as `normal` the direction square to the plate")
			return
		}
		p.Lug = &d.Lug
	} else if d.nodes["axis"] != nil {
		r.bad(n, "a lug has no `normal`: its `axis` says nothing without the plate that it is in", "write `normal:`, square to the plate, beside it: "+aDirection)
		return
	}
	if r.plateFits(d); d.LugPlate != (LugPlate{}) {
		p.Plate = &d.LugPlate
	}
}

// plateFits sees that the sizes of a lug go together.
func (r *reader) plateFits(d lugDraft) {
	for _, name := range []string{"thickness", "width", "edge", "yield", "tensile", "category"} {
		if n := d.nodes[name]; n != nil && d.Hole == 0 {
			r.bad(n, fmt.Sprintf("`%s` of a lug without its hole", name), "write `hole:` with the diameter of the hole beside it")
			return
		}
	}
	switch {
	case d.Width > 0 && !(d.Width > d.Hole):
		r.bad(d.nodes["width"], fmt.Sprintf("the lug is %s wide and its hole %s: nothing is left beside the hole", metres(d.Width), metres(d.Hole)), "look at `width` and `hole`")
	case d.Edge > 0 && !(d.Edge > d.Hole/2):
		r.bad(d.nodes["edge"], fmt.Sprintf("the edge is %s from the centre of a hole of %s: nothing is left before the hole", metres(d.Edge), metres(d.Hole)), "write as `edge` the distance from the centre of the hole to the edge")
	case d.Yield > 0 && d.Tensile > 0 && d.Yield > d.Tensile:
		r.bad(d.nodes["yield"], "the yield stress is more than the tensile strength", "look at `yield` and `tensile`")
	}
}
