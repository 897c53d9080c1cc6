package takeoff

import (
	"errors"
	"fmt"
	"math"
	"strings"

	"go.yaml.in/yaml/v3"

	"plumbhook/density"
	"plumbhook/geom"
	"plumbhook/units"
)

const aForm = "a product form: casting, forging, concrete, timber, bought-in, plate, or one of those of steel, such as EN 10029 class B"

// ownForms are the product forms that have a row in tolerances.csv: how far
// the sizes of such a part may be off, as a part of its mass. Those of steel
// with published limits are in package density.
var ownForms = []string{"casting", "forging", "concrete", "timber", "bought-in"}

// Rows of tolerances.csv for plate that its standard does not reach.
const thinPlate = "thin plate"

// The thicknesses that EN 10029 reaches, in m.
const (
	thinnestPlate = 0.003
	thickestPlate = 0.250
)

// Materials between these densities are steel, carbon or stainless, for which
// the mills' limits on plate are taken: 7700 to 8000 kg/m³ in the table of
// materials, with 490 lb/ft³ and 8.03 g/cm³ as it is also given.
const (
	lightestSteel = 7690 // kg/m³
	heaviestSteel = 8060 // kg/m³
)

func isSteel(m density.Material) bool {
	return m.Density >= lightestSteel && m.Density <= heaviestSteel
}

// gauge are the sizes that limits on products go by, in m; zero: not known.
type gauge struct {
	thickness, depth float64
	made             bool // it is made of plate of that thickness
}

// gaugeOf returns the sizes of a part that its product form may go by: the
// least side of its own box.
func gaugeOf(p *Part, thickness float64) gauge {
	if thickness > 0 || p.Solid == nil {
		return gauge{thickness: thickness, made: thickness > 0}
	}
	side := geom.ExtentOf(p.Solid, geom.Still()).Size()
	return gauge{thickness: min(side[0], side[1], side[2])}
}

// byForm returns how far the mass of a part may be off by the product form of
// its material: as it is written, else that of plate for a plate of steel.
// Where there is none, what was handed in comes back.
//
// A limit on sizes, thickness or wall is one on the volume, and the spread of
// the density comes on top: (1 + a)(1 + b) − 1. A limit on the mass holds both.
func (r *reader) byForm(d draft, m stuff, p *Part, g gauge, s span, why string) (span, string) {
	form, rolled := "plate", g.made
	switch {
	case d.form != nil:
		text, ok := r.text(d.form)
		if !ok {
			return s, why
		}
		form, p.Form = text, text
	case p.Kind != "plate" && !rolled:
		return s, why
	case !isSteel(m.Material):
		return s, why + "; the mills' limits on plate are those of steel"
	}
	t, of, err := r.formLimits(form, m, g, p.Kind)
	if err != nil {
		if d.form != nil && (p.Solid != nil || p.Kind == "mesh" || p.Kind == "surface") { // else its sizes have been found wrong
			r.bad(d.form, err.text, err.fix)
		}
		return s, why
	}
	if of == "mass" {
		return span{t.Low, t.High}, "mass of " + form + " (" + sourceOf(t) + ")"
	}
	both := span{(1+t.Low)*(1-m.Tolerance) - 1, (1+t.High)*(1+m.Tolerance) - 1}
	return both, fmt.Sprintf("%s of %s %s (%s), with ±%s of the density", of, form, span{t.Low, t.High}, sourceOf(t), percent(m.Tolerance))
}

// sourceOf says where a limit stands, and that it was not read there.
func sourceOf(t density.Tolerance) string {
	if t.Basis == "from memory" && !strings.Contains(t.Source, t.Basis) {
		return t.Source + ", " + t.Basis
	}
	return t.Source
}

// formLimits looks up how far a form may be off, and what of it.
func (r *reader) formLimits(form string, m stuff, g gauge, kind string) (density.Tolerance, string, *fault) {
	for _, own := range ownForms {
		if plainName(form) == plainName(own) {
			return r.limits(own), "sizes", nil
		}
	}
	product, err := density.FindProduct(form)
	if err != nil {
		return density.Tolerance{}, "", unknownForm(form, kind)
	}
	if !isSteel(m.Material) {
		return density.Tolerance{}, "", &fault{fmt.Sprintf("the limits of %s are those of steel, and this is %s", product.Name, m),
			"take `form` away, and write `tolerance:` if its sizes are not exact"}
	}
	size := g.thickness
	if product.By == "depth" {
		size = g.depth
	}
	if product.By != "" && !(size > 0) {
		return density.Tolerance{}, "", &fault{fmt.Sprintf("the limits of %s go by the %s, and this part has none that is known", product.Name, product.By), "write `tolerance:` instead"}
	}
	if product.Of == "thickness" && size > 0 && size < thinnestPlate {
		return r.limits(thinPlate), "thickness", nil
	}
	over := product.Of == "thickness" && size > thickestPlate
	if over { // by agreement there: no worse, as a part of it, than the thickest that is listed
		size = thickestPlate
	}
	t, err := product.Tolerance(size)
	if s := (*density.SizeError)(nil); errors.As(err, &s) {
		return t, "", &fault{s.Error(), "write `tolerance:` instead; " + s.Fix()}
	} else if err != nil {
		return t, "", &fault{err.Error(), "write `tolerance:` instead"}
	}
	if over {
		t.Source += fmt.Sprintf(", the part of %s carried on: common practice, no source", metres(thickestPlate))
	}
	return t, product.Of, nil
}

// limits returns a row of tolerances.csv.
func (r *reader) limits(name string) density.Tolerance {
	row := r.tolerances[name]
	return density.Tolerance{Low: row.span.low, High: row.span.high, Source: row.source, Basis: row.basis}
}

// formBelongs refuses a form beside a kind of part that is not weighed by its
// sizes.
func (r *reader) formBelongs(d draft, kind string) {
	if d.form == nil {
		return
	}
	switch kind {
	case "weight":
		r.bad(d.form, "a known weight has no product form", "write `status: catalogue`, `calculated`, `estimated` or `weighed`, or `tolerance:`")
	case "load":
		r.bad(d.form, "a sub-assembly takes no `form`: its own file says that of each of its parts", "write it in that file, or take it away")
	case "weld", "bar":
		r.bad(d.form, fmt.Sprintf("a %s is known by its mass: it has no product form", kind), "write `tolerance:`, or take it away")
	}
}

// positionKey is how far a part may stand off its place.
var positionKey = key[draft]{name: "position", takes: aLength + ": how far it may stand off its place, each way along x, y and z", read: readPosition}

func readPosition(r *reader, n *yaml.Node, d *draft) {
	l, ok := r.length(n)
	if ok && !(l >= 0) {
		r.bad(n, fmt.Sprintf("the position tolerance %s is below zero", short(n.Value)), "write how far it may be off each way, such as 5 mm")
		return
	}
	if ok {
		d.position = math.Abs(l) // -0 is 0
	}
}

// surfaceThickness returns the thickness beside a surface, in m; zero where it
// can't be read, which is reported elsewhere.
func (r *reader) surfaceThickness(n *yaml.Node) float64 {
	if n == nil || n.Kind != yaml.ScalarNode {
		return 0
	}
	l, err := units.ParseLength(strings.TrimSpace(n.Value), r.bare)
	if err != nil {
		return 0
	}
	return float64(l)
}
