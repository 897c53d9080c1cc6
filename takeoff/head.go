package takeoff

import (
	"fmt"
	"strings"

	"go.yaml.in/yaml/v3"

	"plumbhook/geom"
	"plumbhook/units"
)

// aHead says what the kind of a vessel's head may be.
const aHead = "ellipsoidal 2:1, torispherical (with crown and knuckle), DIN 28011, DIN 28013, ASME flanged and dished, hemispherical or flat"

// headForms are the kinds of head that have no figures of their own.
var headForms = map[string]func() geom.HeadForm{
	"hemispherical": geom.Hemispherical, "flat": geom.FlatHead,
	"din 28011": geom.DIN28011, "din 28013": geom.DIN28013, "asme flanged and dished": geom.ASMEFlangedAndDished,
}

var radiusFields = []key[dims]{size("crown"), size("knuckle")}

var headFields = append([]key[dims]{
	must(formField("kind")), size("inside"), size("outside"), must(size("wall")), sizeOrZero("flange"),
}, radiusFields...)

var vesselFields = append([]key[dims]{
	size("inside"), size("outside"), must(size("wall")), size("length"), must(formField("heads")), size("head wall"),
}, radiusFields...)

// formField is a field with the kind of a head.
func formField(name string) key[dims] {
	return key[dims]{name: name, takes: aHead, read: func(r *reader, n *yaml.Node, d *dims) {
		s, ok := r.scalar(n, aHead)
		if !ok {
			return
		}
		name := strings.ToLower(oneLine(s))
		named := strings.TrimPrefix(name, "torispherical ")
		ratio, ellipsoidal := strings.CutPrefix(name, "ellipsoidal ")
		switch {
		case headForms[named] != nil:
			form := headForms[named]()
			d.form = &form
		case name == "torispherical":
			d.form, d.radii = &geom.HeadForm{}, true
		case ellipsoidal:
			r.ellipsoid(n, ratio, d)
		default:
			r.bad(n, fmt.Sprintf("%q is not a kind of head that is known here", short(s)), "write "+aHead)
		}
	}}
}

// ellipsoid reads the ratio of an ellipsoidal head, such as 2:1.
func (r *reader) ellipsoid(n *yaml.Node, ratio string, d *dims) {
	half, one := strings.CutSuffix(strings.ReplaceAll(ratio, " ", ""), ":1")
	h, err := units.ParseNumber(half)
	if !one || err != nil || !(h >= 1 && h <= 10) {
		r.bad(n, fmt.Sprintf("the ratio %q of an ellipsoidal head is not one from 1:1 to 10:1", short(ratio)), "write inside radius to inside depth: ellipsoidal 2:1")
		return
	}
	form := geom.Ellipsoidal(h)
	d.form = &form
}

// headForm returns the form of a head with its radii.
func (d dims) headForm() (geom.HeadForm, error) {
	crown, knuckle := d.has("crown"), d.has("knuckle")
	switch {
	case d.radii && crown && knuckle:
		return geom.Torispherical(d.named["crown"], d.named["knuckle"]), nil
	case d.radii:
		return geom.HeadForm{}, &geom.ShapeError{Msg: "a torispherical head without its radii",
			Fix: "write `crown:` and `knuckle:` with its inside radii, or a standard one: DIN 28011, DIN 28013, ASME flanged and dished"}
	case crown || knuckle:
		return geom.HeadForm{}, &geom.ShapeError{Msg: "crown and knuckle radii belong to a torispherical head", Fix: "take them away, or write the kind `torispherical`"}
	}
	return *d.form, nil
}

// oneDiameter refuses both diameters, or none.
func (d dims) oneDiameter() error {
	if d.has("inside") == d.has("outside") {
		return &geom.ShapeError{Msg: "it takes one diameter, inside or outside", Fix: "write `inside:` or `outside:`; the wall gives the other"}
	}
	return nil
}

func buildHead(d dims) (geom.Solid, error) {
	form, err := d.headForm()
	if err != nil {
		return nil, err
	}
	if err := d.oneDiameter(); err != nil {
		return nil, err
	}
	return solid(geom.NewHead(geom.HeadSize{Form: form, Inside: d.named["inside"], Outside: d.named["outside"],
		Wall: d.named["wall"], Flange: d.named["flange"]}))
}

func buildVessel(d dims) (geom.Solid, error) {
	form, err := d.headForm()
	if err != nil {
		return nil, err
	}
	if err := d.oneDiameter(); err != nil {
		return nil, err
	}
	return solid(geom.NewVessel(geom.VesselSize{Inside: d.named["inside"], Outside: d.named["outside"], Wall: d.named["wall"],
		Length: d.named["length"], Heads: form, HeadWall: d.named["head wall"]}))
}
