package takeoff

import (
	"fmt"
	"strings"

	"go.yaml.in/yaml/v3"

	"plumbhook/density"
	"plumbhook/geom"
	"plumbhook/units"
)

// kind is one kind of thing that a part or a cut can be. A new kind is a new
// row of the table: the walker and the help on wrong keys come from it.
type kind struct {
	name   string
	takes  string      // what stands after the name, in words
	sizes  int         // it takes so many sizes, `a x b x c`
	fields []key[dims] // or it takes a group of these fields; a plate takes either
	named  bool        // or it takes a designation from the section tables, with its length beside it
	long   string      // the field that `from` and `to` may give in its place
	deep   bool        // it has a depth, its own y, that `up` points along
	bends  bool        // it is placed by `from`, `heading` and `toward`
	byMass bool        // its mass is known, and its shape is a stand-in
	build  func(d dims) (geom.Solid, error)
}

// dims are the sizes of one solid as they were read, in metres.
type dims struct {
	size    []float64
	named   map[string]float64 // lengths in m, angles in rad, areas in m², kg/m and kg/m²
	pairs   map[string][]float64
	outline geom.Outline
	holes   []geom.Outline
	holesAt *yaml.Node // where holes were written

	drawing, drawnIn *yaml.Node       // the DXF drawing that the outline is taken from, and its unit as given
	drawnUnit        units.LengthUnit // and as settled

	form    *geom.HeadForm // of a head, or of both of a vessel
	radii   bool           // the form takes a crown and a knuckle radius
	section density.Section
	density float64 // kg/m³ of its material, for a stand-in
	drawn   float64 // m, the length of a weld before it was laid between two ends
}

// has tells whether a field was written (or filled in from `from` and `to`).
func (d dims) has(name string) bool { _, ok := d.named[name]; return ok }

// solidKinds is the table of solids with a shape of their own. `mesh`,
// `weight` and `load`, which only a part can be, have keys of their own in
// partKeys.
var solidKinds = []kind{
	{name: "box", takes: aSize, sizes: 3, build: buildBox},
	{name: "plate", takes: aSize + " (the thickness last), or {outline: flange.dxf, thickness}", sizes: 3, build: buildPlate,
		fields: append([]key[dims]{must(size("thickness"))}, outlineFields...)},
	{name: "wedge", takes: "{base, depth, height, top}", build: buildWedge,
		fields: []key[dims]{must(size("base")), must(size("depth")), must(size("height")), must(sizeOrZero("top"))}},
	{name: "prism", takes: "{base, top, height, length}", long: "length", deep: true, build: buildPrism,
		fields: []key[dims]{must(size("base")), must(sizeOrZero("top")), must(size("height")), size("length")}},
	{name: "polygon", takes: "{outline, holes, length}", long: "length", deep: true, build: buildPolygon,
		fields: append([]key[dims]{size("length")}, outlineFields...)},
	{name: "revolve", takes: "{outline, angle}", build: buildRevolve,
		fields: []key[dims]{profileKey, turnField("angle")}},
	{name: "cylinder", takes: "{diameter, height}", fields: roundFields, long: "height", build: buildCylinder},
	{name: "rod", takes: "{diameter, height}", fields: roundFields, long: "height", build: buildCylinder},
	{name: "tube", takes: "{outside or inside, wall, height}", long: "height", build: buildTube,
		fields: []key[dims]{size("outside"), size("inside"), must(size("wall")), size("height", "length")}},
	{name: "cone", takes: "{bottom, top, height, wall, offset}", long: "height", build: buildCone,
		fields: []key[dims]{must(sizeOrZero("bottom")), must(sizeOrZero("top")), size("height", "length"), size("wall"), sizeOrZero("offset")}},
	{name: "pyramid", takes: "{bottom: a x b, top: c x d, height}", build: buildPyramid,
		fields: []key[dims]{must(pair("bottom")), pair("top"), must(size("height"))}},
	{name: "sphere", takes: "{diameter, wall}", fields: ballFields, build: buildSphere},
	{name: "hemisphere", takes: "{diameter, wall}", fields: ballFields, build: buildHemisphere},
	{name: "cap", takes: "{sphere, height}", build: buildCap,
		fields: []key[dims]{must(size("sphere")), must(size("height"))}},
	{name: "ring", takes: "{mean, thickness}", build: buildRing,
		fields: []key[dims]{must(size("mean")), must(size("thickness"))}},
	{name: "bend", takes: "{outside, wall, radius, angle}, or {pipe: NPS 6 sch 40, radius, angle}", bends: true, build: buildBend,
		fields: []key[dims]{size("outside"), size("wall"), pipeField, must(size("radius")), must(turnField("angle"))}},
	{name: "head", takes: "{kind, inside or outside, wall, flange}", build: buildHead, fields: headFields},
	{name: "vessel", takes: "{inside or outside, wall, length, heads, head wall}", long: "length", build: buildVessel, fields: vesselFields},
	{name: "section", takes: aSection, named: true, long: "length", deep: true, build: buildSection},
	{name: "pipe", takes: aPipe, named: true, long: "length", deep: true, build: buildSection},
	{name: "weld", takes: "{leg, length} or {area, length}", long: "length", byMass: true, build: buildWeld,
		fields: []key[dims]{size("leg"), areaField, size("length")}},
	{name: "bar", takes: "{per length, length} or {per area, size: a x b}", long: "length", byMass: true, build: buildBar,
		fields: []key[dims]{perLengthField, perAreaField, size("length"), pair("size")}},
}

var (
	roundFields = []key[dims]{must(size("diameter")), size("height", "length")}
	ballFields  = []key[dims]{must(size("diameter")), size("wall")}
)

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

// pair is a field with two sizes, `a x b`.
func pair(name string) key[dims] {
	return key[dims]{name: name, takes: "two sizes, such as 2000 x 1000", read: func(r *reader, n *yaml.Node, d *dims) {
		if two, ok := r.sizes(n, 2); ok {
			d.pairs[name] = two
		}
	}}
}

// turnField is a field with an angle above 0 and up to a full turn.
func turnField(name string) key[dims] {
	return key[dims]{name: name, takes: "an angle in degrees, up to 360", read: func(r *reader, n *yaml.Node, d *dims) {
		if a, ok := r.turn(n); ok {
			d.named[name] = a
		}
	}}
}

// must marks a field that may not be left out.
func must(k key[dims]) key[dims] { k.must = true; return k }

// dims reads the sizes of a solid and returns them with the words they were
// written in. It reports whether they can be used.
func (r *reader) dims(k kind, n *yaml.Node) (dims, string, bool) {
	before := r.faults
	d := dims{named: map[string]float64{}, pairs: map[string][]float64{}}
	switch {
	case k.named:
		s, ok := r.section(k, n)
		d.section = s
		return d, written(n), ok
	case k.sizes > 0 && (n.Kind != yaml.MappingNode || k.fields == nil):
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
			one := written(c)
			if c.Kind == yaml.MappingNode {
				one = "{" + one + "}"
			}
			parts = append(parts, one)
		}
		return "[" + strings.Join(parts, ", ") + "]"
	}
	var parts []string
	for i := 0; i+1 < len(n.Content); i += 2 {
		parts = append(parts, n.Content[i].Value+": "+written(n.Content[i+1]))
	}
	return strings.Join(parts, ", ")
}
