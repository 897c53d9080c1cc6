package takeoff

import (
	"fmt"
	"strconv"
	"strings"
	"unicode"

	"go.yaml.in/yaml/v3"

	"plumbhook/units"
)

const (
	aPerLength = "a mass by length, such as 3.77 kg/m or 2.5 lb/ft"
	aPerArea   = "a mass by area, such as 62.8 kg/m2 or 20.4 lb/ft2"
	anArea     = "an area with its unit, such as 18 mm2 or 0.03 in2"
)

var (
	metre, foot, inch = 1.0, float64(units.Foot), float64(units.Inch)

	lengthsBelow = map[string]float64{"m": metre, "ft": foot, "in": inch}
	areasBelow   = map[string]float64{"m2": metre, "m²": metre, "ft2": foot * foot, "ft²": foot * foot, "in2": inch * inch, "in²": inch * inch}
	areas        = map[string]float64{"mm2": 1e-6, "mm²": 1e-6, "cm2": 1e-4, "cm²": 1e-4, "m2": metre, "m²": metre,
		"in2": inch * inch, "in²": inch * inch}
)

var perLengthField = key[dims]{name: "per length", takes: aPerLength, read: func(r *reader, n *yaml.Node, d *dims) {
	r.positiveInto(n, d, "per length", aPerLength, func(s string) (float64, error) { return parseRate(s, lengthsBelow, aPerLength) })
}}

var perAreaField = key[dims]{name: "per area", takes: aPerArea, read: func(r *reader, n *yaml.Node, d *dims) {
	r.positiveInto(n, d, "per area", aPerArea, func(s string) (float64, error) { return parseRate(s, areasBelow, aPerArea) })
}}

var areaField = key[dims]{name: "area", takes: anArea, read: func(r *reader, n *yaml.Node, d *dims) {
	r.positiveInto(n, d, "area", anArea, parseArea)
}}

// positiveInto reads a quantity that must be more than nothing.
func (r *reader) positiveInto(n *yaml.Node, d *dims, name, takes string, parse func(string) (float64, error)) {
	const least, most = 1e-12, 1e6
	x, ok := quantity(r, n, takes, parse)
	switch {
	case ok && !(x >= least && x <= most):
		r.bad(n, fmt.Sprintf("%s must be more than zero, and of a size that can be lifted", short(n.Value)), "write "+takes)
	case ok:
		d.named[name] = x
	}
}

// parseRate reads a mass over a length or an area, in kg/m or kg/m².
func parseRate(text string, below map[string]float64, takes string) (float64, error) {
	i := strings.LastIndex(text, "/")
	if i < 0 {
		return 0, &units.ParseError{Got: text, Msg: "not a mass over a length or an area", Fix: "write " + takes}
	}
	per, known := below[strings.TrimSpace(text[i+1:])]
	if !known {
		return 0, &units.ParseError{Got: text, Msg: fmt.Sprintf("%q can't stand below the line here", strings.TrimSpace(text[i+1:])), Fix: "write " + takes}
	}
	m, err := units.ParseMass(strings.TrimSpace(text[:i]))
	return float64(m) / per, err
}

// parseArea reads an area, in m².
func parseArea(text string) (float64, error) {
	i := strings.IndexFunc(text, unicode.IsLetter)
	if i < 0 {
		return 0, &units.ParseError{Got: text, Msg: "an area without a unit", Fix: "write " + anArea}
	}
	unit, known := areas[strings.TrimSpace(text[i:])]
	if !known {
		return 0, &units.ParseError{Got: text, Msg: fmt.Sprintf("%q is not a unit of area", strings.TrimSpace(text[i:])), Fix: "write " + anArea}
	}
	x, err := units.ParseNumber(strings.TrimSpace(text[:i]))
	return x * unit, err
}

// kgPerMetre prints a mass by length in both units.
func kgPerMetre(x float64) string {
	return fmt.Sprintf("%s kg/m (%s lb/ft)", four(x), four(x/float64(units.Pound)*foot))
}

// kgPerSquareMetre prints a mass by area in both units.
func kgPerSquareMetre(x float64) string {
	return fmt.Sprintf("%s kg/m² (%s lb/ft²)", four(x), four(x/float64(units.Pound)*foot*foot))
}

// four prints a number of four digits.
func four(x float64) string { return strconv.FormatFloat(x, 'g', 4, 64) }
