package sling

import (
	"fmt"
	"math"

	"plumbhook/units"
)

// SetShare returns what a rule set reckons each leg of a set of two to four to
// be loaded with, in N, under a load of the given weight, and the rule; false
// where the rule set has no such figure. US rates four legs as three,
// W / (3 sin a) with a the flattest leg's angle from horizontal. EN divides by
// the mode factor, which has the angle in it: 1.4 for two and 2.1 for three and
// four legs up to 45° from vertical, 1.0 and 1.5 up to 60°. Both take the load
// as symmetric: with the CG off centre the true share can be greater.
func SetShare(rules Rules, weight units.Force, legs int, flattest units.FromHorizontal) (units.Force, Factor, bool) {
	if legs < 2 || legs > 4 || !(units.Degrees(flattest) > 1) { // flatter than any rule goes
		return 0, Factor{}, false
	}
	switch {
	case rules == US && legs == 4:
		return units.Force(float64(weight) / (3 * math.Sin(float64(flattest)))),
			Factor{"load on three of the four legs", 3, "29 CFR 1926.251 Table H-1: quadruple sling rated as triple (2007 edition); ASME B30.9", "read"}, true
	case rules == EN:
		b, err := openBook()
		if err != nil {
			return 0, Factor{}, false
		}
		when := "three_four_leg"
		if legs == 2 {
			when = "two_leg"
		}
		mode, ok := b.at(b.under(EN)[0], "mode", when, units.Degrees(flattest.FromVertical()))
		if !ok {
			return 0, Factor{}, false
		}
		return units.Force(float64(weight) / mode.value), mode.as(fmt.Sprintf("load ÷ mode factor %g", mode.value)), true
	}
	return 0, Factor{}, false
}
