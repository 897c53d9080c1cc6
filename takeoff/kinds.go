package takeoff

import (
	"fmt"
	"strings"

	"github.com/go-gl/mathgl/mgl64"
	"go.yaml.in/yaml/v3"

	"plumbhook/geom"
)

// kind is one kind of thing that a part or a cut can be. A new kind is a new
// row of the table: the walker and the help on wrong keys come from it.
type kind struct {
	name   string
	takes  string      // what stands after the name, in words
	sizes  int         // it takes so many sizes, `a x b x c`
	fields []key[dims] // or it takes a group of these fields
	long   string      // the field that `from` and `to` may give in its place
	build  func(d dims) (geom.Solid, error)
	later  bool // part of the format, not read by this edition
}

// dims are the sizes of one solid as they were read, in metres.
type dims struct {
	size    []float64
	named   map[string]float64
	outline []mgl64.Vec2
	holes   [][]mgl64.Vec2
}

// has tells whether a field was written (or filled in from `from` and `to`).
func (d dims) has(name string) bool { _, ok := d.named[name]; return ok }

// solidKinds is the table of solids with a shape of their own. `mesh` and
// `weight`, which only a part can be, have keys of their own in partKeys.
var solidKinds = []kind{
	{name: "box", takes: aSize, sizes: 3, build: buildBox},
	{name: "plate", takes: aSize + " (the thickness last)", sizes: 3, build: buildBox},
	{name: "cylinder", takes: "{diameter, height}", fields: roundFields, long: "height", build: buildCylinder},
	{name: "rod", takes: "{diameter, height}", fields: roundFields, long: "height", build: buildCylinder},
	{name: "tube", takes: "{outside or inside, wall, height}", long: "height", build: buildTube,
		fields: []key[dims]{size("outside"), size("inside"), must(size("wall")), size("height", "length")}},
	{name: "cone", takes: "{bottom, top, height}", long: "height", build: buildCone,
		fields: []key[dims]{must(sizeOrZero("bottom")), must(sizeOrZero("top")), size("height", "length")}},
	{name: "sphere", takes: "{diameter, wall}", build: buildSphere,
		fields: []key[dims]{must(size("diameter")), size("wall")}},
	{name: "prism", takes: "{base, top, height, length}", build: buildPrism,
		fields: []key[dims]{must(size("base")), must(sizeOrZero("top")), must(size("height")), must(size("length"))}},
	{name: "polygon", takes: "{outline, holes, length}", build: buildPolygon,
		fields: []key[dims]{outlineKey, holesKey, must(size("length"))}},
	{name: "wedge", later: true}, {name: "revolve", later: true}, {name: "pyramid", later: true},
	{name: "hemisphere", later: true}, {name: "cap", later: true}, {name: "ring", later: true},
	{name: "bend", later: true}, {name: "head", later: true}, {name: "vessel", later: true},
	{name: "section", later: true}, {name: "pipe", later: true}, {name: "weld", later: true},
	{name: "bar", later: true}, {name: "surface", later: true}, {name: "load", later: true},
}

var roundFields = []key[dims]{must(size("diameter")), size("height", "length")}

// size is a field with a length above zero.
func size(name string, also ...string) key[dims] {
	return key[dims]{name: name, also: also, takes: aLength, read: func(r *reader, n *yaml.Node, d *dims) {
		if l, ok := r.positive(n); ok {
			d.named[name] = l
		}
	}}
}

// sizeOrZero is a field with a length that may be zero.
func sizeOrZero(name string) key[dims] {
	return key[dims]{name: name, takes: aLength + ", or 0", read: func(r *reader, n *yaml.Node, d *dims) {
		l, ok := r.length(n)
		if ok && l < 0 {
			r.bad(n, fmt.Sprintf("the length %s is below zero", short(n.Value)), "write "+aLength+", or 0")
		} else if ok {
			d.named[name] = l
		}
	}}
}

// must marks a field that may not be left out.
func must(k key[dims]) key[dims] { k.must = true; return k }

const (
	anOutline   = "a list of corners [[x, y], ...] in order around it"
	mostCorners = 2000
)

var outlineKey = key[dims]{name: "outline", takes: anOutline, must: true, read: func(r *reader, n *yaml.Node, d *dims) {
	d.outline, _ = r.corners(n)
}}

var holesKey = key[dims]{name: "holes", takes: "a list of outlines [[[x, y], ...], ...]", read: func(r *reader, n *yaml.Node, d *dims) {
	for _, hole := range r.list(n, "a list of outlines [[[x, y], ...], ...]") {
		if corners, ok := r.corners(hole); ok {
			d.holes = append(d.holes, corners)
		}
	}
}}

// corners returns the corners of an outline, in metres.
func (r *reader) corners(n *yaml.Node) ([]mgl64.Vec2, bool) {
	list := r.list(n, anOutline)
	if len(list) > mostCorners {
		r.bad(n, fmt.Sprintf("%d corners; an outline has at most %d", len(list), mostCorners), "draw it with fewer corners, or give it as a mesh")
		return nil, false
	}
	var out []mgl64.Vec2
	for _, one := range list {
		if one.Kind == yaml.MappingNode {
			r.bad(one, "arcs in an outline are not read by this edition yet", "write corners [x, y] along the arc, close enough for its area")
			return nil, false
		}
		xy, ok := r.tuple(one, 2, "a corner [x, y]")
		if !ok {
			return nil, false
		}
		out = append(out, mgl64.Vec2{xy[0], xy[1]})
	}
	return out, len(out) > 0
}

func buildBox(d dims) (geom.Solid, error) { return solid(geom.NewBox(d.size[0], d.size[1], d.size[2])) }

func buildCylinder(d dims) (geom.Solid, error) {
	return solid(geom.NewCylinder(d.named["diameter"], d.named["height"]))
}

func buildTube(d dims) (geom.Solid, error) {
	outside := d.named["outside"]
	switch {
	case d.has("outside") && d.has("inside"):
		return nil, &geom.ShapeError{Msg: "a tube with an outside and an inside diameter", Fix: "give one of the two; the wall gives the other"}
	case d.has("inside"):
		outside = d.named["inside"] + 2*d.named["wall"]
	case !d.has("outside"):
		return nil, &geom.ShapeError{Msg: "a tube without a diameter", Fix: "write `outside:` or `inside:` with its diameter"}
	}
	return solid(geom.NewTube(outside, d.named["wall"], d.named["height"]))
}

func buildCone(d dims) (geom.Solid, error) {
	return solid(geom.NewCone(d.named["bottom"], d.named["top"], d.named["height"]))
}

func buildSphere(d dims) (geom.Solid, error) {
	return solid(geom.NewSphere(d.named["diameter"], d.named["wall"]))
}

func buildPrism(d dims) (geom.Solid, error) {
	return solid(geom.NewPrism(d.named["base"], d.named["top"], d.named["height"], d.named["length"]))
}

func buildPolygon(d dims) (geom.Solid, error) {
	return solid(geom.NewPolygon(d.outline, d.holes, d.named["length"]))
}

// solid keeps a failed constructor from handing out a solid.
func solid[S geom.Solid](s S, err error) (geom.Solid, error) {
	if err != nil {
		return nil, err
	}
	return s, nil
}

// dims reads the sizes of a solid and returns them with the words they were
// written in. It reports whether they can be used.
func (r *reader) dims(k kind, n *yaml.Node) (dims, string, bool) {
	before := r.faults
	d := dims{named: map[string]float64{}}
	if k.sizes > 0 {
		if n.Kind == yaml.MappingNode && len(n.Content) > 0 && n.Content[0].Value == "outline" {
			r.bad(n, fmt.Sprintf("a `%s` with an outline is not read by this edition yet", k.name), "write it as `polygon: {outline, holes, length}`")
			return d, "", false
		}
		size, ok := r.sizes(n, k.sizes)
		d.size = size
		return d, written(n), ok
	}
	ok := walk(r, n, "a "+k.name, k.fields, &d)
	return d, written(n), ok && r.faults == before
}

// written gives a group of keys back in one line, as the planner wrote it.
func written(n *yaml.Node) string {
	switch n.Kind {
	case yaml.ScalarNode:
		return oneLine(n.Value)
	case yaml.SequenceNode:
		var parts []string
		for _, c := range n.Content {
			parts = append(parts, written(c))
		}
		return "[" + strings.Join(parts, ", ") + "]"
	}
	var parts []string
	for i := 0; i+1 < len(n.Content); i += 2 {
		parts = append(parts, n.Content[i].Value+": "+written(n.Content[i+1]))
	}
	return strings.Join(parts, ", ")
}
