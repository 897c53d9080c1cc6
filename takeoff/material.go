package takeoff

import (
	"errors"
	"fmt"
	"strings"

	"go.yaml.in/yaml/v3"

	"plumbhook/density"
	"plumbhook/units"
)

// Densities out of this range are a slip of the unit: the lightest foams are
// above it, the heaviest metals below it.
const (
	leastDensity    = 1      // kg/m³
	greatestDensity = 25_000 // kg/m³
)

// ownKeys are the keys of a material that the planner gives.
var ownKeys = []key[density.Material]{
	{name: "name", takes: aText, must: true, read: func(r *reader, n *yaml.Node, m *density.Material) {
		m.Name, _ = r.text(n)
	}},
	{name: "density", takes: "a density with its unit, such as 490 lb/ft3", must: true, read: readDensity},
	{name: "tolerance", takes: "a percentage, such as 1 %", read: readSpread},
}

func readDensity(r *reader, n *yaml.Node, m *density.Material) {
	d, ok := quantity(r, n, "a density with its unit, such as 490 lb/ft3", units.ParseDensity)
	if ok && !(d >= leastDensity && d <= greatestDensity) {
		r.bad(n, fmt.Sprintf("the density %s is not between %d and %d kg/m³", short(n.Value), leastDensity, greatestDensity), "look at its unit")
		return
	}
	m.Density = d
}

func readSpread(r *reader, n *yaml.Node, m *density.Material) {
	p, ok := quantity(r, n, "a percentage, such as 1 %", units.ParsePercent)
	if ok && !(p >= 0 && p <= 0.9) {
		r.bad(n, fmt.Sprintf("the tolerance %s must be from 0 to 90 %%", short(n.Value)), "write a percentage, such as 1 %")
		return
	}
	m.Tolerance = p
	m.Basis = stated // the tolerance was written
}

const (
	stated    = "stated"
	ownSource = "given in the load file"
)

// own reads a material that the planner gives.
func (r *reader) own(n *yaml.Node) (density.Material, bool) {
	before := r.faults
	var m density.Material
	if !walk(r, n, "a material", ownKeys, &m) || r.faults > before {
		return density.Material{}, false
	}
	if m.Density < leastReal {
		r.warn("material-light", "", fmt.Sprintf("%s has a density of %s, lighter than any foam", m.Name, m.Density.Format(units.Both)), "look at its unit: steel is 7850 kg/m3, or 7.85 g/cm3")
	}
	m.Source = ownSource
	if m.Basis != stated {
		row := r.tolerances[ownMaterial]
		m.Tolerance, m.Note = row.span.high, row.meaning+": "+row.source
	}
	m.Basis = "read"
	return m, true
}

// readMaterials reads the planner's own materials at the top of the file.
func readMaterials(r *reader, n *yaml.Node, _ *Load) {
	for _, one := range r.list(n, "a list of {name, density, tolerance}") {
		m, ok := r.own(one)
		if !ok {
			continue
		}
		id := plainName(m.Name)
		if _, twice := r.owned[id]; twice {
			r.bad(one, fmt.Sprintf("the material %q is given twice", m.Name), "give each material its own name")
			continue
		}
		if _, err := density.Find(m.Name); err == nil {
			r.warn("material-replaced", "", fmt.Sprintf("the file's own %q replaces the material of that name in the tables", m.Name),
				"give it a name of its own if both are meant")
		}
		r.owned[id] = m
	}
}

// plainName makes names that differ only in case, spaces or hyphens the same.
func plainName(s string) string { return strings.ToLower(withoutGaps.Replace(s)) }

var withoutGaps = strings.NewReplacer(" ", "", "-", "", "_", "")

// stuff is what something is made of, with the name that the planner wrote.
type stuff struct {
	density.Material
	written string
}

// String names the material as the tables do, and as it was written where
// that is another name.
func (s stuff) String() string {
	if plainName(s.written) == plainName(s.Name) {
		return s.Name
	}
	return fmt.Sprintf("%s (written: %s)", s.Name, s.written)
}

// material reads what something is made of: a name from the file's own list
// or from the tables, or a material given in place.
func (r *reader) material(n *yaml.Node) (stuff, bool) {
	if n.Kind == yaml.MappingNode {
		m, ok := r.own(n)
		return stuff{m, m.Name}, ok
	}
	if _, ok := r.scalar(n, aMaterial); !ok {
		return stuff{}, false
	}
	s, ok := r.text(n)
	if !ok {
		return stuff{}, false
	}
	m, err := r.findMaterial(s)
	if err != nil {
		r.bad(n, err.text, err.fix)
	}
	return m, err == nil
}

// fault is a problem that does not know its place yet.
type fault struct{ text, fix string }

// findMaterial looks a name up.
func (r *reader) findMaterial(name string) (stuff, *fault) {
	if m, ok := r.owned[plainName(name)]; ok {
		return stuff{m, name}, nil
	}
	m, err := density.Find(name)
	if err == nil {
		return stuff{m, name}, nil
	}
	f := &fault{err.Error(), "`plumbhook materials` lists the names; or give it as {name, density, tolerance}"}
	if u := (*density.UnknownError)(nil); errors.As(err, &u) {
		f.fix = u.Fix()
	}
	return stuff{}, f
}
