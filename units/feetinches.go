package units

import (
	"math"
	"math/big"
	"regexp"
	"strconv"
	"strings"
)

// A fraction has a denominator that a tape has; another is taken for a slip.
var tapeFractions = map[string]bool{"2": true, "4": true, "8": true, "16": true, "32": true, "64": true}

var (
	feetAndInches = regexp.MustCompile(`(?i)^([+-] ?)?([0-9.]+) ?(?:'|ft\.?|feet|foot) ?-? ?([0-9.][0-9./ -]*?) ?("|in\.?|inch|inches)?$`)
	mixed         = regexp.MustCompile(`^([+-] ?)?(?:([0-9]+)(?: | ?- ?))?([0-9]+) ?/ ?([0-9]+)$`)
)

// feetInches reads a tidy length of feet and inches into metres without
// rounding. It returns nil and no error for a length that is none.
func feetInches(clean string) (*big.Rat, error) {
	m := feetAndInches.FindStringSubmatch(clean)
	if m == nil {
		return nil, nil
	}
	sign, feetText, inchText, mark := strings.TrimSpace(m[1]), m[2], m[3], m[4]
	if mark == "" {
		return nil, wrong(clean, "no mark on the inches", "write "+clean+`", with the mark of inches`)
	}
	if strings.Contains(feetText, ".") {
		return nil, wrong(clean, "a decimal point in feet that have inches beside them",
			`write whole feet and inches (12' 6-1/2"), or decimal feet alone (12.54 ft)`)
	}
	feet, err := exactNumber(feetText)
	if err != nil {
		return nil, quoting(clean, err)
	}
	inches, err := mixedNumber(clean, inchText)
	if err != nil {
		return nil, err
	}
	twelve := big.NewRat(12, 1)
	if inches.Cmp(twelve) >= 0 {
		return nil, wrong(clean, "inches beside feet are not under 12", `carry them into the feet: 3' 14" is 4' 2"`)
	}
	total := feet.Mul(feet, twelve)
	total.Add(total, inches).Mul(total, big.NewRat(254, 10000))
	if sign == "-" {
		total.Neg(total)
	}
	return total, nil
}

// mixedNumber reads a number or a fraction without rounding: 6.5, 1/2, 6 1/2,
// 6-1/2. A minus in front applies to the whole. clean is quoted in the error.
func mixedNumber(clean, text string) (*big.Rat, error) {
	if !strings.Contains(text, "/") {
		if sign := text[:min(1, len(text))]; sign == "-" || sign == "+" {
			text = sign + strings.TrimSpace(text[1:])
		}
		n, err := exactNumber(text)
		if err != nil {
			return nil, quoting(clean, err)
		}
		return n, nil
	}
	m := mixed.FindStringSubmatch(text)
	if m == nil {
		return nil, wrong(clean, "not a fraction", `write it as 6-1/2, 6 1/2 or 1/2`)
	}
	if !tapeFractions[m[4]] {
		return nil, wrong(clean, "a fraction in parts of "+m[4], "write halves to sixty-fourths (1/2, 3/16), or a decimal point")
	}
	fraction, ok := new(big.Rat).SetString(m[3] + "/" + m[4])
	if !ok {
		return nil, wrong(clean, "not a fraction", `write it as 6-1/2, 6 1/2 or 1/2`)
	}
	if m[2] != "" {
		if fraction.Cmp(big.NewRat(1, 1)) >= 0 {
			return nil, wrong(clean, "a fraction of one or more beside a whole number", "carry it into the whole number: 6 5/4 is 7-1/4")
		}
		whole, err := exactNumber(m[2])
		if err != nil {
			return nil, err
		}
		fraction.Add(fraction, whole)
	}
	if strings.HasPrefix(m[1], "-") {
		fraction.Neg(fraction)
	}
	return fraction, nil
}

// FeetInches prints a length to the nearest sixteenth of an inch, which is
// within 0.8 mm: 12' 6-1/2". A half sixteenth is rounded away from zero, and
// sixteen sixteenths are carried. Under a foot there are inches alone;
// above, the inches are always there: 12' 0".
func FeetInches(l Length) string {
	inches := math.Abs(float64(l)) / float64(Inch)
	if math.IsNaN(inches) || inches > 1e9 {
		return figures(float64(l/Foot), nearest, 4) + " ft" // out of the world's range
	}
	// The small addition keeps a half sixteenth a half after conversion.
	sixteenths := int64(math.Floor(inches*16 + 0.5 + 1e-9))
	sign := ""
	if l < 0 && sixteenths > 0 {
		sign = "-"
	}
	feet, rest := sixteenths/192, sixteenths%192
	if feet == 0 {
		return sign + inchText(rest) + `"`
	}
	inch := inchText(rest)
	if 0 < rest && rest < 16 {
		inch = "0-" + inch // 4' 0-5/8", so that no figure seems lost
	}
	return sign + strconv.FormatInt(feet, 10) + "' " + inch + `"`
}

// inchText writes sixteenths of an inch as whole inches and a fraction in
// lowest terms.
func inchText(sixteenths int64) string {
	whole, over, under := sixteenths/16, sixteenths%16, int64(16)
	if over == 0 {
		return strconv.FormatInt(whole, 10)
	}
	for over%2 == 0 {
		over, under = over/2, under/2
	}
	fraction := strconv.FormatInt(over, 10) + "/" + strconv.FormatInt(under, 10)
	if whole == 0 {
		return fraction
	}
	return strconv.FormatInt(whole, 10) + "-" + fraction
}
