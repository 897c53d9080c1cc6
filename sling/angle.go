package sling

import (
	"fmt"
	"math"
	"strings"

	"plumbhook/units"
)

// ruleAngle returns the least angle of a rule set in degrees from horizontal,
// and its row, which may count from vertical; [book.complete] has seen it there.
func (b *book) ruleAngle(rules Rules) (least float64, row factorRow) {
	row = b.rows(anyFamily(rules), "leg angle", "")[0]
	if row.unit == "deg from vertical" {
		return 90 - row.valid.high, row
	}
	return row.valid.low, row
}

// Limit is the least angle that a leg may have.
type Limit struct {
	Least   units.FromHorizontal
	Who     string // who sets it, with source
	Warning string // about a stated limit laxer than the rule set's; may be empty
}

// LeastAngle returns the least angle from horizontal that a leg may have under
// a rule set: the planner's stated one, which may be stricter than the rule's;
// a laxer one counts under US only, with a warning. stated 0: none.
func LeastAngle(rules Rules, stated units.FromHorizontal) (Limit, error) {
	b, err := openBook()
	if err != nil {
		return Limit{}, fmt.Errorf("sling: tables: %w", err)
	}
	if rules != US && rules != EN {
		return Limit{}, fmt.Errorf("sling: rule set %q, want US or EN: state the rules, there is no default", rules)
	}
	rule, row := b.ruleAngle(rules)
	least, angle := units.FromHorizontal(units.Radians(rule)), units.Degrees(stated)
	l := Limit{Least: least, Who: fmt.Sprintf("%s: %s", rules, row.cite)}
	switch {
	case stated == 0:
	case angle >= rule-1e-6:
		l.Least, l.Who = stated, "the stated limit"
	case rules == US:
		l.Least, l.Who = stated, "the stated limit"
		l.Warning = fmt.Sprintf("the stated least angle of %.4g° from horizontal is below %.4g°: "+
			"the slings' maker or a qualified person must allow it (%s)", angle, rule, row.cite)
	default:
		l.Warning = fmt.Sprintf("the stated least angle of %.4g° from horizontal is below %.4g°, "+
			"which %s does not allow: not used (%s)", angle, rule, rules, row.cite)
	}
	return l, nil
}

// Judge returns why a leg is too flat, empty if it is not.
func (limit Limit) Judge(leg string, angle units.FromHorizontal) string {
	if units.Degrees(angle) >= units.Degrees(limit.Least)-1e-6 {
		return ""
	}
	// Down to a tenth, so that 44.9996° is not shown as the 45° that it is not.
	down := math.Floor(units.Degrees(angle)*10) / 10
	return fmt.Sprintf("leg %s at %.1f° from horizontal (%.1f° from vertical), want at least %.4g° from horizontal (%s): use longer slings or raise the hook",
		leg, down, 90-down, units.Degrees(limit.Least), limit.Who)
}

// angles judges every leg against the least angle.
func (l *lift) angles(a *Answer) error {
	limit, err := LeastAngle(l.need.Rules, l.need.LeastAngle)
	if err != nil {
		return err
	}
	if limit.Warning != "" {
		a.Warnings = append(a.Warnings, limit.Warning)
	}
	for _, leg := range l.need.Legs {
		if reason := limit.Judge(leg.Name, leg.Angle); reason != "" {
			a.TooFlat = append(a.TooFlat, reason)
		} else if reason := limit.Judge(leg.Name+", the flatter part of its basket,", flatter(leg)); reason != "" {
			a.TooFlat = append(a.TooFlat, reason)
		}
	}
	return nil
}

// caution adds the warnings that angles and hitches call for.
func (l *lift) caution(a *Answer) {
	flattest, steepest := l.need.Legs[0], l.need.Legs[0]
	hitches := map[string][]string{} // of which no angle of choke or parts is stated
	for _, leg := range l.need.Legs {
		if leg.Angle < flattest.Angle {
			flattest = leg
		}
		if leg.Angle > steepest.Angle {
			steepest = leg
		}
		if leg.Included == nil && leg.Choke == nil {
			hitches[hitchOf(leg)] = append(hitches[hitchOf(leg)], leg.Name)
		}
	}
	warn := func(format string, args ...any) { a.Warnings = append(a.Warnings, fmt.Sprintf(format, args...)) }
	for _, row := range l.book.rows(anyFamily(l.need.Rules), "preferred angle", "") {
		if !row.valid.holds(units.Degrees(flattest.Angle)) {
			warn("leg %s at %s: prefer at least %g° from horizontal (%s)", flattest.Name, bothAngles(flattest.Angle), row.valid.low, row.cite)
		}
	}
	for _, row := range l.book.rows(anyFamily(l.need.Rules), "balance", "") {
		if len(l.need.Legs) > 1 && !l.need.Apart && units.Degrees(steepest.Angle.FromVertical()) < row.valid.low-1e-6 {
			warn("leg %s at %s: less than %g° from vertical (%s)", steepest.Name, bothAngles(steepest.Angle), row.valid.low, row.cite)
		}
	}
	for _, row := range l.book.rows(anyFamily(l.need.Rules), "choke angle", choker) {
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
