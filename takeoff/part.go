package takeoff

import (
	"fmt"
	"slices"
	"strings"

	"github.com/go-gl/mathgl/mgl64"
	"go.yaml.in/yaml/v3"

	"plumbhook/geom"
)

// mostCuts is how many cuts a load may have, far above any take-off.
const mostCuts = 2000

// draft is a part or a cut while its keys are read.
type draft struct {
	placing
	shapes    []shape // the kinds of solid that were found
	name      string
	tolerance *span
	status    string
	// Values that are read once the kind of part is known; nil: not there.
	mesh, surface, thickness, weight, load, meshUnit, material, count, step, around, mirror, cuts, length, displaces, form, contents *yaml.Node
	position                                                                                                                         float64 // m
}

// shape is a kind of solid and what stands after it.
type shape struct {
	kind kind
	node *yaml.Node
}

func newDraft() draft {
	return draft{placing: placing{turn: mgl64.Ident3(), nodes: map[string]*yaml.Node{}}}
}

// shapeKeys makes a key of each kind of solid.
func shapeKeys() []key[draft] {
	var keys []key[draft]
	for _, k := range solidKinds {
		keys = append(keys, key[draft]{name: k.name, takes: k.takes, read: func(_ *reader, n *yaml.Node, d *draft) {
			d.shapes = append(d.shapes, shape{k, n})
		}})
	}
	return keys
}

// keep is a key whose value is read later, once the kind of part is known.
func keep(name, takes string, field func(*draft) **yaml.Node) key[draft] {
	return key[draft]{name: name, takes: takes, read: func(_ *reader, n *yaml.Node, d *draft) { *field(d) = n }}
}

// cutKeys are the keys of a cut: a solid that has a shape, its place, and how
// it is repeated.
func cutKeys() []key[draft] {
	var keys []key[draft]
	for i, k := range shapeKeys() {
		if solidKinds[i].byMass {
			k.refuse = fmt.Sprintf("a %s is known by its mass: it has no shape to cut away; give the solid that is taken away", k.name)
		}
		keys = append(keys, k)
	}
	return append(append(keys, placeKeys...), patternKeys()...)
}

// partKeys are the keys of a part.
func partKeys() []key[draft] {
	keys := []key[draft]{
		{name: "name", takes: aText, read: func(r *reader, n *yaml.Node, d *draft) { d.name, _ = r.text(n) }},
	}
	keys = append(keys, shapeKeys()...)
	keys = append(keys,
		keep("mesh", "the name of a mesh file", func(d *draft) **yaml.Node { return &d.mesh }),
		keep("surface", "the name of a mesh file, with `thickness` beside it", func(d *draft) **yaml.Node { return &d.surface }),
		keep("thickness", aLength+", of a surface", func(d *draft) **yaml.Node { return &d.thickness }),
		keep("weight", aMass, func(d *draft) **yaml.Node { return &d.weight }),
		keep("load", "the name of a load file", func(d *draft) **yaml.Node { return &d.load }),
	)
	keys = append(append(keys, placeKeys...), patternKeys()...)
	return append(keys, onKey,
		keep("material", aMaterial, func(d *draft) **yaml.Node { return &d.material }),
		keep("cuts", "a list of solids to take away", func(d *draft) **yaml.Node { return &d.cuts }),
		keep("displaces", aDisplaced, func(d *draft) **yaml.Node { return &d.displaces }),
		keep("form", aForm, func(d *draft) **yaml.Node { return &d.form }),
		positionKey,
		key[draft]{name: "tolerance", takes: aPercent, read: func(r *reader, n *yaml.Node, d *draft) {
			if s, ok := r.tolerance(n); ok {
				d.tolerance = &s
			}
		}},
		key[draft]{name: "status", takes: strings.Join(statuses, ", "), read: func(r *reader, n *yaml.Node, d *draft) {
			d.status, _ = r.word(n, statuses...)
		}},
		keep("units", "the unit of the mesh file, or of the outline's drawing: mm, cm, m, in or ft", func(d *draft) **yaml.Node { return &d.meshUnit }),
		keep("contents", aContents, func(d *draft) **yaml.Node { return &d.contents }),
		key[draft]{name: "density", refuse: "write `material: {name: ..., density: ...}`"},
	)
}

// readParts reads the list of parts.
func readParts(r *reader, n *yaml.Node, l *Load) {
	keys := partKeys()
	lines, sound := map[string]int{}, r.faults
	list := r.list(n, "a list of parts, each beginning with '- '")
	l.Parts = slices.Grow(l.Parts, len(list))
	for i, one := range list {
		before := r.faults
		d := newDraft()
		if !walk(r, one, "a part", keys, &d) {
			continue
		}
		p := Part{Name: d.name, Line: one.Line}
		var made []Part
		if r.oneKind(one, d, i+1, &p) {
			made = r.part(one, d, &p)
		}
		if first, twice := lines[p.Name]; twice && p.Name != "" {
			r.warn("name-twice", p.Name, fmt.Sprintf("two parts are called %q, on lines %d and %d", p.Name, first, p.Line), "give each part its own name")
		}
		lines[p.Name] = p.Line
		if most := r.source.opt.mostParts(); r.pieces > most {
			r.bad(one, fmt.Sprintf("the load has more than %d pieces", most), "join small parts into one `weight`, "+raiseParts)
			return
		}
		if r.faults == before {
			l.Parts = append(l.Parts, made...)
		}
	}
	if r.faults == sound { // else the part that a weld names may be missing
		r.placeWelds(l.Parts)
	}
}

// oneKind settles what a part is, and its name if it has none. Only a weight
// may have a box beside it, for its extent.
func (r *reader) oneKind(n *yaml.Node, d draft, number int, p *Part) bool {
	kinds := d.kinds()
	switch {
	case d.weight != nil && len(kinds) == 2 && kinds[0] == "box":
		p.Kind = "weight"
	case len(kinds) == 1:
		p.Kind = kinds[0]
	case len(kinds) == 0:
		if !r.reportedIn(n) { // a kind that is not read yet has been reported
			r.bad(n, "this part has no solid and no weight", "write what it is, such as `box: 2400 x 1200 x 20` or `weight: 260 kg`")
		}
		return false
	default:
		r.bad(n, fmt.Sprintf("this part is several things at once: %s", strings.Join(kinds, ", ")),
			"make a part of each; only a `weight` may have a `box` beside it, for its extent")
		return false
	}
	if p.Name == "" {
		p.Name = fmt.Sprintf("part %d (%s)", number, p.Kind)
	}
	return true
}

// kinds lists what a draft says that it is: solids, then mesh, surface, weight, load.
func (d draft) kinds() []string {
	var kinds []string
	for _, s := range d.shapes {
		kinds = append(kinds, s.kind.name)
	}
	if d.mesh != nil {
		kinds = append(kinds, "mesh")
	}
	if d.surface != nil {
		kinds = append(kinds, "surface")
	}
	if d.weight != nil {
		kinds = append(kinds, "weight")
	}
	if d.load != nil {
		kinds = append(kinds, "load")
	}
	return kinds
}

// reportedIn tells whether a key of this group has been found wrong.
func (r *reader) reportedIn(n *yaml.Node) bool {
	for i := 0; i+1 < len(n.Content); i += 2 {
		for _, p := range r.problems {
			if p.Line == n.Content[i].Line && p.Column == n.Content[i].Column {
				return true
			}
		}
	}
	return false
}

// part makes a part of its draft, or the parts of a sub-assembly. Whatever is
// wrong goes to the problems.
func (r *reader) part(n *yaml.Node, d draft, p *Part) []Part {
	before := r.faults
	p.Status, p.Position = d.status, d.position
	d.bad = !r.onePlace(n, d.placing)
	r.displacedBy(d, p)
	r.pattern(d, p)
	r.belongsBeside(d, p.Kind)
	r.formBelongs(d, p.Kind)
	if len(d.shapes) == 0 && !r.belongs(kind{name: p.Kind}, d) {
		d.bad = true
	}
	switch p.Kind {
	case "load":
		return r.assembly(n, d, p)
	case "weight":
		r.weightPart(n, d, p)
	case "mesh":
		r.meshPart(n, d, p)
	case "surface":
		r.surfacePart(n, d, p)
	default:
		r.solidPart(n, d, p)
	}
	if r.faults == before && p.on == nil {
		r.apart(d, p.centers(), func() []geom.Extent { return p.boxes(geom.Still()) })
	}
	r.frownWeighed(*p)
	r.pieces += len(p.Places)
	return append([]Part{*p}, r.contentsOf(d, *p, r.faults == before)...)
}

// belongsBeside refuses keys beside a kind of part that they say nothing of.
func (r *reader) belongsBeside(d draft, kind string) {
	drawn := len(d.shapes) == 1 && drawnOutline(d.shapes[0].node)
	if d.meshUnit != nil && kind != "mesh" && kind != "surface" && !drawn {
		r.bad(d.meshUnit, "`units` on a part is the unit of its mesh file or drawing, and this part has none",
			"take it away: bare lengths take the `units` at the top; a single length may carry its own")
	}
	if d.thickness != nil && kind != "surface" {
		r.bad(d.thickness, fmt.Sprintf("a %s takes no `thickness` beside it: a surface does", kind), "take it away, or write it within the braces of a plate with an outline")
	}
}
