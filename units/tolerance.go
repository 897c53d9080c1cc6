package units

import (
	"math/big"
	"strings"
)

const toleranceFix = "write 5 % for plus or minus, or -1 % / +3 % for low and high"

var percents = quantity{
	name:  "percentage",
	units: []unit{{name: "%", also: []string{"percent", "per cent"}, num: "0.01"}},
	fix:   "write the % sign after it, for example 5 %",
}

// ParsePercent reads a percentage with its sign into a fraction: 5 % is 0.05. A
// bare number is refused with a *[ParseError]: 0.05 and 5 look alike.
func ParsePercent(text string) (float64, error) { return percents.parse(text) }

// ParseTolerance reads a tolerance into fractions of the nominal value: 5 % is
// -0.05 and +0.05; -1 % / +3 % is -0.01 and +0.03. Two values need their signs,
// low first or high first. A low of -100 % or less is refused: nothing would be
// left. The error is a *[ParseError].
func ParseTolerance(text string) (low, high float64, err error) {
	clean, err := tidy(text, "tolerance")
	if err != nil {
		return 0, 0, err
	}
	for _, mark := range []string{"±", "+/-", "+-"} {
		if rest, ok := strings.CutPrefix(clean, mark); ok && !strings.ContainsAny(rest, "+-/±") {
			clean = strings.TrimSpace(rest)
		}
	}
	a, b, two := strings.Cut(clean, "/")
	first, _, err := percents.exact(a)
	if err != nil {
		return 0, 0, toleranceError(clean, err)
	}
	second := new(big.Rat).Neg(first)
	if two {
		if second, _, err = percents.exact(b); err != nil {
			return 0, 0, toleranceError(clean, err)
		}
		if !signed(a, first) || !signed(b, second) {
			return 0, 0, wrong(clean, "no sign on one side of the tolerance", toleranceFix)
		}
	} else if strings.HasPrefix(clean, "-") || strings.HasPrefix(clean, "+") {
		return 0, 0, wrong(text, "a tolerance with one side only", "write "+clean+" / 0 %, or the figure without a sign for plus or minus")
	}
	if first.Cmp(second) > 0 {
		first, second = second, first
	}
	return toleranceRange(clean, first, second)
}

// signed reports whether one side of a pair has its sign, or is zero.
func signed(side string, value *big.Rat) bool {
	side = strings.TrimSpace(side)
	return value.Sign() == 0 || strings.HasPrefix(side, "-") || strings.HasPrefix(side, "+")
}

// toleranceRange rounds the two sides and checks that they hold the nominal.
func toleranceRange(clean string, lowest, highest *big.Rat) (low, high float64, err error) {
	if lowest.Sign() > 0 || highest.Sign() < 0 {
		return 0, 0, wrong(clean, "a tolerance that leaves out the nominal value", "write a low side at or below 0 % and a high side at or above 0 %: -1 % / +3 %")
	}
	if lowest.Cmp(big.NewRat(-1, 1)) <= 0 {
		return 0, 0, wrong(clean, "a tolerance that leaves nothing", "write a low side above -100 %")
	}
	if low, err = toFloat(clean, lowest); err != nil {
		return 0, 0, err
	}
	high, err = toFloat(clean, highest)
	return low, high, err
}

// toleranceError quotes the whole tolerance and shows how one is written.
func toleranceError(clean string, err error) error {
	return wrong(clean, err.(*ParseError).Msg, toleranceFix)
}
