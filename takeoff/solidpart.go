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
	var ok bool
	if p.Solid, p.Pose, p.Written, ok = r.stand(n, d); ok {
		r.cutAway(d, p)
	}
	r.madeOf(n, d, p)
}

// stand makes the solid of a part or a cut and puts it in its place. It also
// returns its size as it was written.
func (r *reader) stand(n *yaml.Node, d draft) (geom.Solid, geom.Pose, string, bool) {
	k, node := d.shapes[0].kind, d.shapes[0].node
	size, text, ok := r.dims(k, node)
	if !ok || d.bad || !r.fitBetween(n, k, size, d.placing) {
		return nil, geom.Pose{}, text, false
	}
	s, err := k.build(size)
	if !r.shaped(node, err) {
		return nil, geom.Pose{}, text, false
	}
	return s, d.pose(s), text, true
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
	switch {
	case d.material != nil:
		if m, ok := r.material(d.material); ok {
			r.solidTolerance(d, m, p)
		}
	case r.fallback != nil:
		p.MaterialDefault = true
		r.solidTolerance(d, *r.fallback, p)
	case r.fallbackBad: // reported where it stands
	default:
		r.bad(n, "this part has no material", "write `material:` on the part, or once at the top for all parts that name none")
	}
}

// solidTolerance takes the written tolerance, or the spread of the density and
// what the status says of the sizes, whichever is wider.
func (r *reader) solidTolerance(d draft, m stuff, p *Part) {
	p.Material = m.Material
	s := span{-m.Tolerance, m.Tolerance}
	why := "spread of the density alone, sizes taken as exact"
	if m.Source == ownSource {
		why = "as the load file says of the material"
		if m.Note != "" { // it says nothing, and a default was taken
			why = m.Note
		}
	}
	if row, ok := r.tolerances[d.status]; ok && row.span.high > s.high {
		s, why = s.wider(row.span), row.meaning+" ("+row.source+")"
	}
	if d.tolerance != nil {
		s, why = *d.tolerance, "as written"
	}
	p.Low, p.High = s.low, s.high
	p.Basis = fmt.Sprintf("volume × %s of %s; %s: %s", m.Density.Format(units.Both), m, s, why)
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
