package units

import (
	"math/big"
	"strconv"
	"strings"
)

// Length is a distance or coordinate in metres.
type Length float64

// The inch is 25.4 mm and the foot 0.3048 m, both exact.
//
// Source: international yard and pound agreement, 1959; NIST SP 811 (2008),
// appendix B.8.
const (
	Inch Length = 0.0254
	Foot Length = 0.3048
)

// LengthUnit is a unit of length. The zero value means that no unit was given.
type LengthUnit struct {
	Name   string  // mm, cm, m, in or ft
	Metres float64 // of one such unit
}

var lengths = quantity{
	name: "length",
	units: []unit{
		{name: "mm", also: []string{"millimetre", "millimetres", "millimeter", "millimeters"}, num: "0.001"},
		{name: "cm", also: []string{"centimetre", "centimetres", "centimeter", "centimeters"}, num: "0.01"},
		{name: "m", also: []string{"metre", "metres", "meter", "meters"}, num: "1"},
		{name: "in", also: []string{"inch", "inches", `"`, "in."}, num: "0.0254"},
		{name: "ft", also: []string{"foot", "feet", "'", "ft."}, num: "0.3048"},
	},
	fix: `write mm, cm, m, in or ft after it, or feet and inches as 12' 6-1/2"`,
}

// ParseLengthUnit reads the name of a unit of length: mm, cm, m, in or ft, or
// the same spelled out. Anything else is a *[ParseError].
func ParseLengthUnit(s string) (LengthUnit, error) {
	written := strings.TrimSpace(s)
	if written == "" {
		return LengthUnit{}, wrong(s, "empty unit of length", "write mm, cm, m, in or ft")
	}
	u, ok := lengths.find(written)
	if !ok {
		alone := lengths // no number stands before it
		alone.fix = "write mm, cm, m, in or ft"
		return LengthUnit{}, alone.unknown(written, written)
	}
	metres, _ := u.value().Float64()
	return LengthUnit{Name: u.name, Metres: metres}, nil
}

// ParseLength reads a length or coordinate: 3.2 m, 150 mm, 1/2", 6 1/2 in,
// 12' 6-1/2", 3 ft 6 in. A bare number takes the unit bare; with the zero
// LengthUnit a bare number is an error. A minus in front applies to the whole,
// feet and inches alike. The error is a *[ParseError].
func ParseLength(text string, bare LengthUnit) (Length, error) {
	if n, ok := bareDecimal(text, bare); ok {
		return n, nil
	}
	clean, err := tidy(text, "length")
	if err != nil {
		return 0, err
	}
	n, err := exactLength(clean, bare)
	if err != nil {
		return 0, err
	}
	f, err := toFloat(clean, n)
	return Length(f), err
}

// bareDecimal reads what nearly all lengths in a load file are, a few digits in a
// decimal unit: both are exact in float64, so that their one quotient is rounded
// once, as the exact way below does.
func bareDecimal(text string, bare LengthUnit) (Length, bool) {
	ones := 1 / bare.Metres
	if ones != 1 && ones != 100 && ones != 1000 || len(text) == 0 || len(text) > 12 {
		return 0, false
	}
	point := strings.IndexByte(text, '.')
	if point == 0 || point == len(text)-1 || text[0] == '0' && point != 1 && len(text) > 1 {
		return 0, false // doubtful ways to write a number: told of below
	}
	digits := 0
	for i := range len(text) {
		if c := text[i]; c >= '0' && c <= '9' {
			digits = 10*digits + int(c-'0')
		} else if i != point {
			return 0, false
		}
		if point >= 0 && i > point {
			ones *= 10
		}
	}
	return Length(float64(digits) / ones), true
}

// exactLength reads a tidy length into metres without rounding.
func exactLength(clean string, bare LengthUnit) (*big.Rat, error) {
	if n, err := feetInches(clean); n != nil || err != nil {
		return n, err
	}
	number, written := splitUnit(clean)
	if written != "" {
		if number == "" {
			return nil, wrong(clean, "no number before the unit", lengths.fix)
		}
		if u, ok := lengths.find(written); ok {
			return scaled(clean, number, u.name, u.value())
		}
		if strings.ContainsAny(written, "0123456789") {
			return nil, wrong(clean, "not one length: a number with a unit, and more behind it",
				`write one number with its unit (2.5 m), or feet and inches as 12' 6-1/2"`)
		}
		return nil, lengths.unknown(clean, written)
	}
	if bare.Metres == 0 {
		if _, err := mixedNumber(clean, number); err != nil {
			return nil, err
		}
		return nil, wrong(clean, "no unit on the length", lengths.fix)
	}
	// The shortest decimal of the factor is the one that was written: 0.0254.
	metres, ok := new(big.Rat).SetString(strconv.FormatFloat(bare.Metres, 'g', -1, 64))
	if !ok || metres.Sign() <= 0 {
		return nil, wrong(clean, "no such unit of length as "+bare.Name, lengths.fix)
	}
	return scaled(clean, number, bare.Name, metres)
}

// scaled multiplies the number, a fraction only for feet and inches, by the
// metres of its unit.
func scaled(clean, number, name string, metres *big.Rat) (*big.Rat, error) {
	n, err := mixedNumber(clean, number)
	if err != nil {
		return nil, err
	}
	if strings.Contains(number, "/") && name != "in" && name != "ft" {
		return nil, wrong(clean, "a fraction of "+name, "write "+name+" with a decimal point, for example 0.5 "+name)
	}
	return n.Mul(n, metres), nil
}
