package takeoff

import (
	"errors"
	"fmt"

	"go.yaml.in/yaml/v3"

	"plumbhook/geom"
	"plumbhook/units"
)

// solidPart makes a part with a shape of its own.
func (r *reader) solidPart(n *yaml.Node, d draft, p *Part) {
	k := d.shapes[0].kind
	m, known := r.stuffOf(n, d, k.byMass, p)
	size, text, ok := r.sizesOf(k, d)
	p.Written = text
	if size.density = steel; known {
		size.density = float64(m.Density)
	}
	if ok && d.on != nil && k.name == "weld" {
		if known && r.belongs(k, d) {
			r.spreadWeld(d, k, size, m, p)
		}
		return
	}
	if ok && k.name == "weld" && d.from == nil && d.turned == "" {
		if known && r.belongs(k, d) {
			r.placedWeld(d, k, size, m, p)
		}
		return
	}
	if ok {
		p.Solid, p.Pose, ok = r.standAs(n, k, &size, d)
	}
	switch {
	case !known:
	case ok && k.named:
		r.weighSection(size, d, m, p)
	case ok && k.byMass:
		r.weighStock(k, size, d, m, p)
	default:
		r.solidTolerance(d, m, p, rolledWall(k, size))
	}
	switch {
	case k.byMass && d.cuts != nil:
		r.bad(d.cuts, fmt.Sprintf("a %s is known by its mass: it has no shape to cut from", k.name), "give the mass that is left, and take `cuts` away")
	case ok:
		r.cutAway(d, p)
	}
	if ok {
		r.warnDrawn(size, d.placing, p.Solid, p.Name)
		r.frown(k, size, d.placing, *p)
		p.hollow = cavityOf(k, size, p.Solid)
	}
	if ok && d.contents == nil {
		r.warnEmpty(k.name, *p)
	}
}

// stand makes the solid of a cut, or of the box of a weight, and puts it in
// its place. It also returns its size as it was written.
func (r *reader) stand(n *yaml.Node, d draft) (geom.Solid, geom.Pose, string, bool) {
	k := d.shapes[0].kind
	size, text, ok := r.sizesOf(k, d)
	if ok && k.byMass {
		r.bad(n, fmt.Sprintf("a %s is known by its mass: it has no shape to cut away", k.name), "give the solid that is taken away")
		ok = false
	}
	if !ok {
		return nil, geom.Pose{}, text, false
	}
	s, pose, ok := r.standAs(n, k, &size, d)
	return s, pose, text, ok
}

// sizesOf reads the sizes of a solid, and the words that they were written in.
func (r *reader) sizesOf(k kind, d draft) (dims, string, bool) {
	size, text, ok := r.dims(k, d.shapes[0].node)
	ok = ok && r.fetchOutline(&size, d.meshUnit)
	return size, text, r.lengthBeside(k, d, size, &text) && ok && !d.bad
}

// standAs makes a solid of its sizes and puts it in its place.
func (r *reader) standAs(n *yaml.Node, k kind, size *dims, d draft) (geom.Solid, geom.Pose, bool) {
	if size.has("per area") {
		k.long = "" // its size is known
	}
	size.drawn = size.named[k.long]
	k.deep = k.deep || size.outline != nil // a plate with an outline is laid as a polygon is
	if !r.belongs(k, d) || !r.fitBetween(n, k, *size, d.placing) {
		return nil, geom.Pose{}, false
	}
	if d.from != nil && k.byMass { // spread over the line, whatever its length
		size.named[k.long] = d.to.Sub(*d.from).Len()
	}
	if size.drawn == 0 {
		size.drawn = size.named[k.long]
	}
	s, err := k.build(*size)
	if !r.shaped(d.shapes[0].node, err) {
		return nil, geom.Pose{}, false
	}
	pose, ok := r.lay(n, k, *size, d.placing, s)
	return s, pose, ok
}

// shaped turns the error of a solid's constructor into a problem.
func (r *reader) shaped(n *yaml.Node, err error) bool {
	if err == nil {
		return true
	}
	text, fix := err.Error(), "correct its sizes"
	if s := (*geom.ShapeError)(nil); errors.As(err, &s) {
		text, fix = s.Msg, s.Fix
	}
	r.bad(n, text, fix)
	return false
}

// madeOf settles material, tolerance and basis of a part with a volume.
func (r *reader) madeOf(n *yaml.Node, d draft, p *Part) {
	if m, ok := r.stuffOf(n, d, false, p); ok {
		r.solidTolerance(d, m, p, r.surfaceThickness(d.thickness))
	}
}

// stuffOf settles what a part is made of. A part whose mass is known needs no
// material: it is taken as steel.
func (r *reader) stuffOf(n *yaml.Node, d draft, byMass bool, p *Part) (stuff, bool) {
	switch {
	case d.material != nil:
		m, ok := r.material(d.material)
		p.Material = m.Material
		return m, ok
	case r.fallback != nil:
		p.MaterialDefault, p.Material = true, r.fallback.Material
		return *r.fallback, true
	case r.fallbackBad: // reported where it stands
	case byMass:
		m, f := r.findMaterial("carbon steel")
		if f != nil {
			r.bad(n, f.text, f.fix)
		}
		p.Material = m.Material
		return m, f == nil
	default:
		r.bad(n, "this part has no material", "write `material:` on the part, or once at the top for all parts that name none")
	}
	return stuff{}, false
}

// rolledWall is the thickness in m of the plate that a solid is rolled or pressed
// from; zero for what is not made so.
func rolledWall(k kind, size dims) float64 {
	switch k.name {
	case "vessel", "head", "cone":
		return size.named["wall"]
	}
	return 0
}

// solidTolerance takes the written tolerance, or the spread of the density, the
// mills' limits on what is made of plate, and what the status says of the sizes,
// whichever is wider. Plate is the thickness of the plate that a part is made of,
// in m; zero where it is none, or a flat plate itself.
func (r *reader) solidTolerance(d draft, m stuff, p *Part, plate float64) {
	p.Material = m.Material
	why := "spread of the density alone, sizes taken as exact"
	if m.Source == ownSource {
		why = "as the load file says of the material"
		if m.Note != "" { // it says nothing, and a default was taken
			why = m.Note
		}
	}
	s, why := r.byForm(d, m, p, gaugeOf(p, plate), span{-m.Tolerance, m.Tolerance}, why)
	s, why = r.spread(d, s, why)
	p.Low, p.High = s.low, s.high
	p.Basis = fmt.Sprintf("volume × %s of %s; %s: %s", m.Density.Format(units.Both), m, s, why)
}

// spread returns the written tolerance, else the wider of a tolerance and that
// of the status, and why.
func (r *reader) spread(d draft, s span, why string) (span, string) {
	if row, ok := r.tolerances[d.status]; ok && s.wider(row.span) != s {
		told := row.meaning + " (" + row.source + ")"
		if s = s.wider(row.span); s != row.span { // wider on one side only
			told = why + ", and " + told
		}
		why = told
	}
	if d.tolerance != nil {
		s, why = *d.tolerance, "as written"
	}
	return s, why
}

// weightPart makes a part that is a known weight at a place.
func (r *reader) weightPart(n *yaml.Node, d draft, p *Part) {
	p.Given, _ = r.mass(d.weight)
	p.Written = oneLine(d.weight.Value)
	if d.cuts != nil {
		r.bad(d.cuts, "a weight has nothing to cut from", "give the weight that is left, and take `cuts` away")
	}
	if d.material != nil {
		r.bad(d.material, "a known weight needs no material", "take `material` away, or describe the part as a solid")
	}
	r.weightTolerance(d, p)
	switch {
	case d.bad:
		return
	case d.from != nil:
		r.bad(n, "a weight can't be placed by `from` and `to`", "write `at:` with its centre of gravity")
	case len(d.shapes) == 1:
		// The CG is taken as the middle of the box, and `at` is the CG.
		if d.at != nil {
			d.center, d.at = d.at, nil
		}
		if s, pose, text, ok := r.stand(n, d); ok {
			p.Solid, p.Pose, p.Written = s, pose, p.Written+", box "+text
			p.GivenAt = geom.ExtentOf(s, pose).Center()
			if d.position == 0 {
				r.note("cg-of-box", p.Name, "its centre of gravity was taken as the middle of its box, exactly there", "see its data sheet; write `position:` with how far it may be off, such as 100")
			}
		}
	case d.turned != "" || d.corner != nil:
		r.bad(n, "a weight without a box is a point: it has no corner and can't be turned", "write `at:` with its centre of gravity, or add `box:` with its sizes")
	case d.center != nil:
		p.GivenAt = *d.center
	default:
		p.GivenAt = *d.at
	}
	if p.Solid == nil {
		p.Pose = geom.Still().Shifted(p.GivenAt)
	}
}

// weightTolerance takes the written tolerance, or that of the status. A weight
// of which nothing is known is taken as estimated.
func (r *reader) weightTolerance(d draft, p *Part) {
	if d.tolerance != nil {
		p.Low, p.High = d.tolerance.low, d.tolerance.high
		p.Basis = fmt.Sprintf("given as %s; %s: as written", p.Written, d.tolerance)
		return
	}
	if p.Status == "" {
		p.Status = "estimated"
		r.warn("status-default", p.Name, fmt.Sprintf("nothing is said of how the weight %s is known: taken as estimated, %s", p.Written, r.tolerances[p.Status].span),
			"write `status: weighed`, `catalogue`, `calculated` or `estimated`, or `tolerance:`")
	}
	row := r.tolerances[p.Status]
	p.Low, p.High = row.span.low, row.span.high
	p.Basis = fmt.Sprintf("given as %s; %s: %s (%s)", p.Written, row.span, row.meaning, row.source)
}

// readMaterial reads the material for parts that name none.
func readMaterial(r *reader, n *yaml.Node, _ *Load) {
	if m, ok := r.material(n); ok {
		r.fallback = &m
	} else {
		r.fallbackBad = true
	}
}
