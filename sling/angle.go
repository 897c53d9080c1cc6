package sling

import (
	"fmt"
	"strings"

	"plumbhook/units"
)

// ruleAngle returns the least angle of the rule set in degrees from horizontal,
// and its row, which may count from vertical; [book.complete] has seen it there.
func (l *lift) ruleAngle() (least float64, row factorRow) {
	row = l.book.rows(l.anyFamily(), "leg angle", "")[0]
	if row.unit == "deg from vertical" {
		return 90 - row.valid.high, row
	}
	return row.valid.low, row
}

// angles judges every leg against the least angle: the planner's, which may be
// stricter than the rule's; a laxer one counts under US only, with a warning.
func (l *lift) angles(a *Answer) {
	rule, row := l.ruleAngle()
	least, who := rule, fmt.Sprintf("%s: %s", l.need.Rules, row.cite)
	if l.need.LeastAngle > 0 {
		stated := units.Degrees(l.need.LeastAngle)
		switch {
		case stated >= rule-1e-6:
			least, who = stated, "the stated limit"
		case l.need.Rules == US:
			least, who = stated, "the stated limit"
			a.Warnings = append(a.Warnings, fmt.Sprintf("the stated least angle of %.4g° from horizontal is below %.4g°: "+
				"the slings' maker or a qualified person must allow it (%s)", stated, rule, row.cite))
		default:
			a.Warnings = append(a.Warnings, fmt.Sprintf("the stated least angle of %.4g° from horizontal is below %.4g°, "+
				"which %s does not allow: not used (%s)", stated, rule, l.need.Rules, row.cite))
		}
	}
	for _, leg := range l.need.Legs {
		if angle := units.Degrees(leg.Angle); angle < least-1e-6 {
			a.Reasons = append(a.Reasons, fmt.Sprintf("leg %s at %s, want at least %.4g° from horizontal (%s): "+
				"use longer slings or raise the hook", leg.Name, bothAngles(leg.Angle), least, who))
		}
	}
}

// caution adds the warnings that angles and hitches call for.
func (l *lift) caution(a *Answer) {
	flattest, steepest := l.need.Legs[0], l.need.Legs[0]
	hitches := map[string][]string{}
	for _, leg := range l.need.Legs {
		if leg.Angle < flattest.Angle {
			flattest = leg
		}
		if leg.Angle > steepest.Angle {
			steepest = leg
		}
		hitches[hitchOf(leg)] = append(hitches[hitchOf(leg)], leg.Name)
	}
	warn := func(format string, args ...any) { a.Warnings = append(a.Warnings, fmt.Sprintf(format, args...)) }
	for _, row := range l.book.rows(l.anyFamily(), "preferred angle", "") {
		if !row.valid.holds(units.Degrees(flattest.Angle)) {
			warn("leg %s at %s: prefer at least %g° from horizontal (%s)", flattest.Name, bothAngles(flattest.Angle), row.valid.low, row.cite)
		}
	}
	for _, row := range l.book.rows(l.anyFamily(), "balance", "") {
		if len(l.need.Legs) > 1 && units.Degrees(steepest.Angle.FromVertical()) < row.valid.low-1e-6 {
			warn("leg %s at %s: less than %g° from vertical (%s)", steepest.Name, bothAngles(steepest.Angle), row.valid.low, row.cite)
		}
	}
	for _, row := range l.book.rows(l.anyFamily(), "choke angle", choker) {
		if legs := hitches[choker]; len(legs) > 0 {
			warn("choker %s: an angle of choke over %g° is taken; a tighter choke has a lower rating (%s)",
				strings.Join(legs, ", "), row.valid.low, row.cite)
		}
	}
	if l.set != nil && l.set.parts > 4 {
		warn("no check of the set: its %d parts are more than the mode factors of %s cover", l.set.parts, l.need.Rules)
	}
	if legs := hitches[basket]; len(legs) > 0 {
		warn("basket %s: its two parts are taken as vertical; parts at an angle hold 2 × sin(angle from horizontal) times the vertical rating",
			strings.Join(legs, ", "))
	}
}

func bothAngles(a units.FromHorizontal) string {
	return fmt.Sprintf("%.4g° from horizontal (%.4g° from vertical)", units.Degrees(a), units.Degrees(a.FromVertical()))
}
