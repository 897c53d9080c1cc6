package takeoff

import (
	"fmt"
	"math"
	"strings"

	"go.yaml.in/yaml/v3"

	"plumbhook/geom"
	"plumbhook/units"
)

const meshUnitFix = "write `units: mm` (or cm, m, in, ft) on the part, whichever the file was drawn in"

// meshPart makes a part of a mesh file.
func (r *reader) meshPart(n *yaml.Node, d draft, p *Part) {
	r.madeOf(n, d, p)
	var said units.LengthUnit
	if d.meshUnit != nil {
		if said = r.unit(d.meshUnit); said.Metres == 0 {
			return
		}
	}
	name, ok := r.text(d.mesh)
	if !ok {
		return
	}
	p.Written = name
	m := r.source.mesh(name)
	if m.fault != nil {
		r.bad(d.mesh, fmt.Sprintf("the mesh %s can't be read: %s", short(name), m.fault.text), m.fault.fix)
		return
	}
	unit, f := m.unit(said)
	if f != nil {
		at := n
		if d.meshUnit != nil {
			at = d.meshUnit
		}
		r.bad(at, f.text, f.fix)
		return
	}
	report := func(f fault) { r.bad(d.mesh, fmt.Sprintf("the mesh %s: %s", short(name), f.text), f.fix) }
	if !r.useMesh(m, unit, p, report) {
		return
	}
	if d.from != nil {
		r.bad(n, "a mesh can't be placed by `from` and `to`", "use `at` (where the file's own origin goes), `center` or `corner`")
		return
	}
	if !d.bad {
		p.Pose = d.pose(p.Solid)
		r.cutAway(d, p)
	}
}

// useMesh makes the solid of a part from a mesh, if it is sound or was
// accepted knowingly. What is wrong goes to report.
func (r *reader) useMesh(m readMesh, unit units.LengthUnit, p *Part, report func(fault)) bool {
	faults := m.faults()
	if len(faults) > 0 && !r.source.opt.AcceptMesh {
		for _, f := range faults {
			report(f)
		}
		return false
	}
	s := m.body(unit)
	if s == nil {
		report(fault{"it encloses no volume, so there is nothing to weigh", "export the part again as a closed solid, or enter it as a known `weight`"})
		return false
	}
	if e := geom.ExtentOf(s, geom.Still()); !(farthest(e) <= longest) {
		report(fault{fmt.Sprintf("it reaches to %s from its own origin", metres(farthest(e))), "look at its unit"})
		return false
	}
	p.Solid = s
	if len(faults) > 0 {
		var texts []string
		for _, f := range faults {
			texts = append(texts, f.text)
		}
		p.Suspect = strings.Join(texts, "; ")
		wide := m.doubt(span{p.Low, p.High})
		if wide.high != p.High {
			p.Basis += fmt.Sprintf("; widened to %s for the doubt about the mesh", wide)
		}
		p.Low, p.High = wide.low, wide.high
		r.warn("mesh-unsound", p.Name, "weighed although "+p.Suspect, "repair the mesh, or enter the part as solids or as a known weight")
	}
	for _, note := range m.info.Notes {
		r.warn("mesh-note", p.Name, note, "see that the part is drawn as it is to be weighed")
	}
	for _, f := range m.health.Faults() {
		if f.Harmless {
			r.warn(f.Code, p.Name, f.Text, f.Fix)
		}
	}
	if text := oddSize(s, unit); text != "" {
		r.warn("mesh-size", p.Name, text, "look at the unit of the mesh")
	}
	return true
}

// farthest returns the greatest coordinate of a box, in metres.
func farthest(e geom.Extent) float64 {
	far := 0.0
	for i := range e.Min {
		far = max(far, math.Abs(e.Min[i]), math.Abs(e.Max[i]))
	}
	return far
}

// unit reads a unit of length; zero where it is none.
func (r *reader) unit(n *yaml.Node) units.LengthUnit {
	u, _ := quantity(r, n, aUnit, units.ParseLengthUnit)
	return u
}
