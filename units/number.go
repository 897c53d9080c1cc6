package units

import (
	"math"
	"math/big"
	"regexp"
	"strings"
)

// longest is the longest quantity that is read, in bytes. Nobody writes a
// longer one, and it bounds the work done on a hostile file.
const longest = 200

var (
	plainNumber  = regexp.MustCompile(`^[+-]?([0-9]+(\.[0-9]+)?|\.[0-9]+)(?:[eE]([+-]?)0*([0-9]+))?$`)
	notFinite    = regexp.MustCompile(`(?i)(^|[^a-z])\.?(nan|inf|infinity)($|[^a-z])`)
	hexadecimal  = regexp.MustCompile(`(?i)(^|[^0-9a-z.])0x[0-9a-f.]`)
	underscore   = regexp.MustCompile(`[0-9]_|_[0-9]`)
	zeroFirst    = regexp.MustCompile(`(^[+-]?|[^0-9.eE+-]|[^eE][+-])(0[0-9]+)`)
	commaGroups  = regexp.MustCompile(`(?:^|[^0-9])[1-9][0-9]{0,2}(,[0-9]{3})+([^0-9,]|$)`)
	commaDecimal = regexp.MustCompile(`[0-9],[0-9]+`)
	spaceGroups  = regexp.MustCompile(`[0-9]( [0-9]{3})+(\.[0-9]|[^0-9/.]|$)`)
	quoteGroups  = regexp.MustCompile(`[0-9]'[0-9]{3}`)
	manyPoints   = regexp.MustCompile(`[0-9]*\.[0-9]*\.[0-9.]*`)
	endsInPoint  = regexp.MustCompile(`[0-9]\.($|[^0-9])`)
)

// ParseNumber reads a plain number: an optional sign, digits, an optional
// decimal point, an optional power of ten (1e3). Everything that could be read
// in two ways, or as no number, is refused with a *[ParseError].
func ParseNumber(text string) (float64, error) {
	clean, err := tidy(text, "number")
	if err != nil {
		return 0, err
	}
	n, err := exactNumber(clean)
	if err != nil {
		return 0, err
	}
	return toFloat(clean, n)
}

// tidy replaces the typographic forms that mean one thing only (a true minus,
// prime marks, a fraction in one character, odd spaces) by plain ones, and
// refuses what no quantity may contain. kind names the quantity in messages.
func tidy(text, kind string) (string, error) {
	if len(text) > longest {
		return "", wrong(text[:20]+"...", "too long for a "+kind, "write the "+kind+" in at most 200 characters")
	}
	clean := strings.Join(strings.Fields(plainForms.Replace(text)), " ")
	if clean == "" {
		return "", wrong(text, "empty value where a "+kind+" is expected", "write the "+kind+", or leave the line out")
	}
	if err := refuse(clean); err != nil {
		return "", err
	}
	return clean, nil
}

var plainForms = strings.NewReplacer("−", "-", "′", "'", "’", "'", "″", `"`, "”", `"`, "''", `"`,
	"½", " 1/2", "¼", " 1/4", "¾", " 3/4", "⅛", " 1/8", "⅜", " 3/8", "⅝", " 5/8", "⅞", " 7/8")

// refuse returns an error for a number written in a doubtful way anywhere in a
// quantity, or nil. Each fault has its own words: the fix differs.
func refuse(text string) error {
	switch {
	case notFinite.MatchString(text):
		return wrong(text, "not a finite number", "write a number in digits")
	case hexadecimal.MatchString(text):
		return wrong(text, "hexadecimal number", "write the number in decimal digits")
	case underscore.MatchString(text):
		return wrong(text, "underscore in a number", "write "+strings.ReplaceAll(text, "_", "")+", digits without a separator")
	case commaGroups.MatchString(text):
		plain, point := strings.ReplaceAll(text, ",", ""), strings.ReplaceAll(text, ",", ".")
		if strings.Contains(text, ".") || strings.Count(text, ",") > 1 {
			return wrong(text, "thousands separator in a number", "write "+plain+", digits without a separator")
		}
		return wrong(text, "comma in a number: a decimal comma or a thousands separator",
			"write "+plain+" or "+point+", whichever is meant")
	case commaDecimal.MatchString(text):
		return wrong(text, "decimal comma", "write "+strings.ReplaceAll(text, ",", ".")+", with a decimal point")
	case spaceGroups.MatchString(text):
		return wrong(text, "thousands separator in a number", "write the digits without a space between them")
	case quoteGroups.MatchString(text):
		return wrong(text, "thousands separator in a number", "write "+strings.ReplaceAll(text, "'", "")+", digits without a separator")
	case manyPoints.MatchString(text):
		return wrong(text, "more than one point in a number", "write one decimal point and no thousands separator")
	case endsInPoint.MatchString(text):
		return wrong(text, "nothing after the decimal point", "write the digits after the point, or no point")
	}
	if zeroFirst.MatchString(text) {
		return wrong(text, "zero before another digit", "leave the zero out (12), or put back a lost decimal point (0.12)")
	}
	return nil
}

// exactNumber reads a tidy number without rounding.
func exactNumber(text string) (*big.Rat, error) {
	m := plainNumber.FindStringSubmatch(text)
	if m == nil {
		return nil, wrong(text, "not a number", "write digits with a decimal point, for example 12.5")
	}
	if sign, power := m[3], m[4]; len(power) > 3 { // a billion digits would be made of 1e999999999
		if sign == "-" {
			return nil, tooSmall(text)
		}
		return nil, tooLarge(text)
	}
	n, ok := new(big.Rat).SetString(text)
	if !ok {
		return nil, wrong(text, "not a number", "write digits with a decimal point, for example 12.5")
	}
	return n, nil
}

// toFloat rounds an exact value to the nearest float64 and refuses one that
// would become infinite, or zero without being zero.
func toFloat(text string, n *big.Rat) (float64, error) {
	f, _ := n.Float64()
	switch {
	case math.IsInf(f, 0):
		return 0, tooLarge(text)
	case f == 0 && n.Sign() != 0:
		return 0, tooSmall(text)
	}
	return f, nil
}

func tooLarge(text string) *ParseError {
	return wrong(text, "number too large", "write a number below 1e300")
}

func tooSmall(text string) *ParseError {
	return wrong(text, "number too small", "write 0, or a number above 1e-300")
}
