package takeoff

import (
	"fmt"
	"strings"
	"unicode"

	"plumbhook/units"
)

const aVolume = "a volume with its unit, such as 2 m3, 500 l, 70 ft3 or 300 US gal"

// volumes are the units of volume in m³. A US gallon is 231 in³, an imperial one
// 4.54609 l, both exactly. Source: NIST SP 811 (2008), appendix B (from memory).
var volumes = map[string]float64{
	"m3": 1, "m³": 1, "l": 1e-3, "L": 1e-3, "litre": 1e-3, "litres": 1e-3, "liter": 1e-3, "liters": 1e-3, "dm3": 1e-3, "dm³": 1e-3,
	"cm3": 1e-6, "cm³": 1e-6, "ft3": foot * foot * foot, "ft³": foot * foot * foot, "in3": inch * inch * inch, "in³": inch * inch * inch,
	"US gal": 231 * inch * inch * inch, "imp gal": 4.54609e-3,
}

// parseVolume reads a volume, in m³.
func parseVolume(text string) (float64, error) {
	i := strings.IndexFunc(text, unicode.IsLetter)
	if i < 0 {
		return 0, &units.ParseError{Got: text, Msg: "a volume without a unit", Fix: "write " + aVolume}
	}
	word := strings.TrimSpace(text[i:])
	unit, known := volumes[word]
	switch {
	case word == "gal" || word == "gallon" || word == "gallons":
		return 0, &units.ParseError{Got: text, Msg: fmt.Sprintf("%q may be a US or an imperial gallon", word), Fix: "write `US gal` or `imp gal`"}
	case !known:
		return 0, &units.ParseError{Got: text, Msg: fmt.Sprintf("%q is not a unit of volume", word), Fix: "write " + aVolume}
	}
	x, err := units.ParseNumber(strings.TrimSpace(text[:i]))
	return x * unit, err
}

// cubicMetres prints a volume in m³ and ft³.
func cubicMetres(v float64) string {
	return fmt.Sprintf("%s m³ (%s ft³)", four(v), four(v/volumes["ft3"]))
}
