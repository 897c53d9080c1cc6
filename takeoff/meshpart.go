package takeoff

import (
	"fmt"
	"math"
	"strings"

	"go.yaml.in/yaml/v3"

	"plumbhook/geom"
	"plumbhook/units"
)

const drawnUnitFix = "write `units: mm` (or cm, m, in, ft) on the part, whichever the file was drawn in"

// meshPart makes a part of a mesh file.
func (r *reader) meshPart(n *yaml.Node, d draft, p *Part) {
	r.madeOf(n, d, p)
	m, unit, ok := r.fetchMesh(n, d.mesh, d, p)
	if !ok {
		return
	}
	report := func(f fault) { r.bad(d.mesh, fmt.Sprintf("the mesh %s: %s", short(p.Written), f.text), f.fix) }
	if r.useMesh(m, unit, p, report) && r.standMesh(n, d, p) {
		r.cutAway(d, p)
	}
}

// fetchMesh reads the file that a part names, and settles its unit.
func (r *reader) fetchMesh(n, file *yaml.Node, d draft, p *Part) (m readMesh, unit units.LengthUnit, ok bool) {
	var said units.LengthUnit
	if d.meshUnit != nil {
		if said = r.unit(d.meshUnit); said.Metres == 0 {
			return m, unit, false
		}
	}
	if p.Written, ok = r.text(file); !ok {
		return m, unit, false
	}
	if m = r.source.mesh(p.Written); m.fault != nil {
		r.bad(file, fmt.Sprintf("the mesh %s can't be read: %s", short(p.Written), m.fault.text), m.fault.fix)
		return m, unit, false
	}
	unit, f := settleUnit("mesh", m.info.Unit, said)
	if f != nil {
		at := n
		if d.meshUnit != nil {
			at = d.meshUnit
		}
		r.bad(at, f.text, f.fix)
	}
	return m, unit, f == nil
}

// standMesh puts the solid that was made from a mesh file in its place.
func (r *reader) standMesh(n *yaml.Node, d draft, p *Part) bool {
	if d.from != nil {
		r.bad(n, fmt.Sprintf("a %s can't be placed by `from` and `to`", p.Kind), "use `at` (where the file's own origin goes), `center` or `corner`")
		return false
	}
	if d.bad {
		return false
	}
	p.Pose = d.pose(p.Solid)
	return true
}

// surfacePart makes a plate of even thickness along the facets of a mesh file,
// open or closed.
func (r *reader) surfacePart(n *yaml.Node, d draft, p *Part) {
	r.madeOf(n, d, p)
	if d.thickness == nil {
		r.bad(n, "a surface has no `thickness`", "write `thickness:` with "+aLength)
		return
	}
	thickness, ok := r.positive(d.thickness)
	m, unit, read := r.fetchMesh(n, d.surface, d, p)
	if !ok || !read {
		return
	}
	if d.cuts != nil {
		r.bad(d.cuts, "a surface takes no `cuts`: what is left of its facets is not known", "cut the openings in the file")
		return
	}
	mesh := geom.Scaled(m.mesh, unit.Metres)
	skin, err := geom.NewSkin(mesh, thickness)
	if !r.shaped(d.surface, err) || !r.withinReach(d.surface, skin, p) {
		return
	}
	p.Solid = skin
	p.Basis = fmt.Sprintf("area %.5g m² of the file × %s, the file taken as the middle of the plate; %s", mesh.Area(), metres(thickness), p.Basis)
	p.Written += " × " + oneLine(d.thickness.Value)
	r.warnSurface(m, skin, thickness, unit, p)
	r.standMesh(n, d, p)
}

// withinReach refuses a mesh that reaches further than a load can.
func (r *reader) withinReach(n *yaml.Node, s geom.Solid, p *Part) bool {
	far := farthest(geom.ExtentOf(s, geom.Still()))
	if !(far <= longest) {
		r.bad(n, fmt.Sprintf("the mesh %s: it reaches to %s from its own origin", short(p.Written), metres(far)), "look at its unit")
		return false
	}
	return true
}

// warnSurface warns of a file that draws both faces of a plate, or facets
// twice: each would be weighed twice.
func (r *reader) warnSurface(m readMesh, skin geom.Skin, thickness float64, unit units.LengthUnit, p *Part) {
	if h := m.health; h.Closed() && !h.Flat && h.Area > 0 {
		if drawn := 2 * math.Abs(h.Volume) / h.Area * unit.Metres; drawn < 4*thickness {
			r.warn("surface-closed", p.Name, fmt.Sprintf("the file is closed and on average %s thick inside: it seems to draw both faces of a plate, and each is weighed as one of %s", metres(drawn), metres(thickness)),
				"write it as `mesh`, or save only the middle surface")
		}
	}
	if n := m.health.Duplicate; n > 0 {
		r.warn("surface-twice", p.Name, fmt.Sprintf("%d facets of the file repeat another and are weighed twice", n), "save the file again without them")
	}
	if text := oddSize("surface", skin, unit); text != "" {
		r.warn("mesh-size", p.Name, text, "look at the unit of the mesh")
	}
}

// useMesh makes the solid of a part from a mesh, if it is sound or was
// accepted knowingly: then what can be mended without a guess is mended first.
// What is wrong goes to report.
func (r *reader) useMesh(m readMesh, unit units.LengthUnit, p *Part, report func(fault)) bool {
	faults := m.faults()
	if len(faults) > 0 && !r.source.opt.AcceptMesh {
		for _, f := range m.withMending(faults) {
			report(f)
		}
		return false
	}
	if len(faults) > 0 {
		var told []string
		if m, told = m.mended(); told != nil {
			r.warn("mesh-mended", p.Name, "mended as it was read: "+strings.Join(told, "; "), "see that the part came out as drawn, or mend the file")
		}
		faults = m.faults()
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
	r.suspect(m, faults, p)
	m.raiseForFacets(p)
	r.widenForSpacing(m, p)
	r.warnMesh(m, s, unit, p)
	return true
}

// suspect marks a part whose mesh is unsound and was accepted.
func (r *reader) suspect(m readMesh, faults []fault, p *Part) {
	if len(faults) == 0 {
		return
	}
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

// raiseForFacets widens the tolerance to the side on which flat facets leave
// out some of a round part, or fill some of a round hole.
func (m readMesh) raiseForFacets(p *Part) {
	switch p.Faceted = m.health.FacetBias; {
	case p.Faceted > leastBias:
		p.High = (1+p.High)/(1-p.Faceted) - 1
		p.Basis += fmt.Sprintf("; its flat facets leave out about %.2g %% of its round sides: high is that much higher", 100*p.Faceted)
	case p.Faceted < -leastBias:
		p.Low = (1+p.Low)/(1-p.Faceted) - 1
		p.Basis += fmt.Sprintf("; its flat facets fill round hollows by about %.2g %%: low is that much lower", -100*p.Faceted)
	}
}

// leastBias is the part of the volume below which the facets of a curve are
// not worth a word.
const leastBias = 0.001

// warnMesh hands on what was seen in a mesh that is weighed.
func (r *reader) warnMesh(m readMesh, s geom.Solid, unit units.LengthUnit, p *Part) {
	for _, note := range m.info.Notes {
		r.warn("mesh-note", p.Name, note, "see that the part is drawn as it is to be weighed")
	}
	for _, f := range m.health.Faults() {
		if f.Harmless {
			r.warn(f.Code, p.Name, f.Text, f.Fix)
		}
	}
	if text := oddSize("mesh", s, unit); text != "" {
		r.warn("mesh-size", p.Name, text, "look at the unit of the mesh")
	}
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
