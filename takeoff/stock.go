package takeoff

import (
	"fmt"
	"math"

	"go.yaml.in/yaml/v3"

	"plumbhook/geom"
	"plumbhook/units"
)

// realFillet is the metal of a fillet weld as it is laid, over the triangle
// that is drawn.
//
// Source: Iowa DOT IM 569, weights of fillet welds "including 1.5 times the
// theoretical".
const realFillet = 1.5

// weldMetal is the row of tolerances.csv for welds.
const weldMetal = "weld metal"

// weldArea returns the area in m² that a weld is weighed with.
func (d dims) weldArea() float64 {
	if d.has("area") {
		return d.named["area"]
	}
	return realFillet * d.named["leg"] * d.named["leg"] / 2
}

// checkWeld refuses a weld with both a leg and an area, or none.
func (d dims) checkWeld() error {
	if d.has("leg") == d.has("area") {
		return &geom.ShapeError{Msg: "a weld takes its leg or its area", Fix: "write {leg: 6, length: 1200} for a fillet, else {area: 30 mm2, length: 1200}"}
	}
	return nil
}

// buildWeld makes a round bar with the metal of the weld. Between two ends
// that are nearer than the weld is long (both sides of a plate, several runs),
// or farther (stitches), the metal is spread evenly.
func buildWeld(d dims) (geom.Solid, error) {
	if err := d.checkWeld(); err != nil {
		return nil, err
	}
	return rodOf(d.weldArea()*d.drawn/d.named["length"], d.named["length"])
}

// buildBar makes a round bar, or a plate, whose thickness gives the mass.
func buildBar(d dims) (geom.Solid, error) {
	perLength, perArea, size := d.has("per length"), d.has("per area"), d.pairs["size"]
	switch {
	case perLength && !perArea && size == nil && d.has("length"):
		return rodOf(d.named["per length"]/d.density, d.named["length"])
	case perArea && !perLength && size != nil && !d.has("length"):
		return solid(geom.NewBox(size[0], size[1], d.named["per area"]/d.density))
	}
	return nil, &geom.ShapeError{Msg: "a bar takes its mass by length, or its mass by area",
		Fix: "write {per length: 3.77 kg/m, length: 6 m}, or {per area: 62.8 kg/m2, size: 2000 x 1000}"}
}

func rodOf(area, length float64) (geom.Solid, error) {
	return solid(geom.NewCylinder(2*math.Sqrt(area/math.Pi), length))
}

// weighStock says where the mass of a bar or a weld comes from.
func (r *reader) weighStock(k kind, size dims, d draft, m stuff, p *Part) {
	s, why, of := span{-m.Tolerance, m.Tolerance}, "that of its material", ""
	switch {
	case k.name == "weld":
		row := r.tolerances[weldMetal]
		s, why, of = row.span, row.meaning+" ("+row.source+")", size.weldBasis(m)
	case size.has("per length"):
		of = fmt.Sprintf("%s × %s", kgPerMetre(size.named["per length"]), metres(size.named["length"]))
	default:
		of = fmt.Sprintf("%s × %s × %s", kgPerSquareMetre(size.named["per area"]), metres(size.pairs["size"][0]), metres(size.pairs["size"][1]))
	}
	s, why = r.spread(d, s, why)
	p.Low, p.High = s.low, s.high
	p.Basis = fmt.Sprintf("%s; %s: %s", of, s, why)
}

// weldBasis says how a weld was weighed.
func (d dims) weldBasis(m stuff) string {
	what := fmt.Sprintf("area as given × %s", metres(d.drawn))
	if d.has("leg") {
		what = fmt.Sprintf("leg²/2 × %g for the real profile (Iowa DOT IM 569) × %s", realFillet, metres(d.drawn))
	}
	return fmt.Sprintf("%s × %s of %s", what, m.Density.Format(units.Both), m)
}

// spreadWeld makes a part of a weld that lies all over another one: a weight
// at that part's centre of gravity, which is put in once all parts are known.
func (r *reader) spreadWeld(d draft, k kind, size dims, m stuff, p *Part) {
	for _, copies := range []*yaml.Node{d.count, d.step, d.around, d.mirror} {
		if copies != nil {
			r.bad(copies, "a weld that is spread on a part has no copies", "write the whole length of it as `length`")
			return
		}
	}
	if r.lumpWeld(d, k, size, m, p) {
		p.on = d.on
		p.Basis += "; at the centre of gravity of " + oneLine(d.on.Value)
	}
}

// placedWeld makes a part of a weld that is placed by a point and not laid
// along a line: a weight with its centre of gravity there.
func (r *reader) placedWeld(d draft, k kind, size dims, m stuff, p *Part) {
	switch {
	case d.bad:
		return
	case d.corner != nil:
		r.bad(d.shapes[0].node, "a weld has no corner", "write `at:` with its centre of gravity, `from` and `to`, or `on:` with the part that it is spread over")
		return
	}
	if !r.lumpWeld(d, k, size, m, p) {
		return
	}
	at := d.at
	if at == nil {
		at = d.center
	}
	p.GivenAt = *at
	p.Pose = geom.Still().Shifted(p.GivenAt)
	p.Basis += "; its centre of gravity where it is placed"
}

// lumpWeld gives a weld without a line its mass.
func (r *reader) lumpWeld(d draft, k kind, size dims, m stuff, p *Part) bool {
	node := d.shapes[0].node
	switch {
	case d.cuts != nil:
		r.bad(d.cuts, "a weld is known by its mass: it has no shape to cut from", "take `cuts` away")
		return false
	case !size.has("length"):
		r.bad(node, "a weld has no `length`", "write `length:` with "+aLength)
		return false
	case !r.shaped(node, size.checkWeld()):
		return false
	}
	size.drawn = size.named["length"]
	p.Given = units.Mass(size.weldArea() * size.drawn * float64(m.Density))
	r.weighStock(k, size, d, m, p)
	return true
}

// placeWelds puts each weld that is spread on a part to the centre of gravity
// of that part, all its copies.
func (r *reader) placeWelds(parts []Part) {
	for i, p := range parts {
		if p.on == nil {
			continue
		}
		if part, ok := r.weldHost(p.on, parts); ok {
			parts[i].GivenAt = part.CG()
			parts[i].Pose = geom.Still().Shifted(parts[i].GivenAt)
		}
		parts[i].on = nil
	}
}

// weldHost returns the part that a weld is spread on. Another such weld has no
// place of its own, and is none.
func (r *reader) weldHost(n *yaml.Node, parts []Part) (Part, bool) {
	name, ok := r.text(n)
	if !ok {
		return Part{}, false
	}
	var found []Part
	var names []string
	for _, p := range parts {
		if p.Kind == "weld" && p.Solid == nil {
			continue
		}
		names = append(names, p.Name)
		if p.Name == name {
			found = append(found, p)
		}
	}
	switch {
	case len(found) == 1:
		return found[0], true
	case len(found) > 1:
		r.bad(n, fmt.Sprintf("%d parts are called %q", len(found), short(name)), "give each part its own name")
		return Part{}, false
	}
	fix := "write the name of a part of this load that is not itself such a weld"
	if near := units.Nearest(name, names); len(near) > 0 {
		fix = fmt.Sprintf("did you mean %q? %s", near[0], fix)
	}
	r.bad(n, fmt.Sprintf("no part is called %q", short(name)), fix)
	return Part{}, false
}
