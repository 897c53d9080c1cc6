package sling

import (
	"fmt"

	"plumbhook/units"
)

// setCheck is what EN asks of the set as a whole: its rating in the mode that it
// is used in must cover the load.
type setCheck struct {
	load  units.Mass // load × dynamic
	when  string     // two_leg or three_four_leg, as in the tables
	parts int
	angle float64 // degrees from vertical, of the flattest leg
	hitch string  // choker if any leg chokes, else vertical
}

// newSet returns the check of the set, nil where there is none: US, a single
// leg, or legs that hang apart. It is void, see [setCheck.valid], beyond four legs (a basket counts as two)
// and for legs flatter than the table goes.
func newSet(need Need, load units.Mass) *setCheck {
	if need.Rules != EN || need.Apart || (len(need.Legs) < 2 && !spread(need)) {
		return nil
	}
	s := &setCheck{load: load, hitch: vertical, when: "two_leg"}
	for _, leg := range need.Legs {
		s.parts++
		switch hitchOf(leg) {
		case basket:
			s.parts++
		case choker:
			s.hitch = choker
		}
		s.angle = max(s.angle, units.Degrees(flatter(leg).FromVertical()))
	}
	if s.parts > 2 {
		s.when = "three_four_leg"
	}
	return s
}

// sideBySide in degrees from vertical is how far a basket's parts may stand to
// count as parallel. Source: EN 1492-1 and -2 (from memory).
const sideBySide = 7

// spread reports a single basket whose parts stand apart: EN counts them as the
// two legs of a set.
func spread(need Need) bool {
	leg := need.Legs[0]
	return hitchOf(leg) == basket && leg.Included != nil && units.Degrees(flatter(leg).FromVertical()) > sideBySide+1e-6
}

// flatter returns the least angle that a leg, or one of a basket's two parts, can
// stand at: that of the leg less half the angle between the parts, as if the leg
// leaned the way that its parts spread.
func flatter(leg Leg) units.FromHorizontal {
	if hitchOf(leg) != basket || leg.Included == nil {
		return leg.Angle
	}
	return leg.Angle - units.FromHorizontal(*leg.Included/2)
}

// valid reports whether the mode factors cover the set.
func (s *setCheck) valid(l *lift) bool {
	if s == nil || s.parts > 4 {
		return false
	}
	_, ok := l.book.at(l.book.under(l.need.Rules)[0], "mode", s.when, s.angle)
	return ok
}

// use returns required/rated of the set for a size, both by the mode factor and,
// where the table prints one, by the rating of the set, which is rounded to
// preferred numbers and may be the lower. rest is the least of the family's
// other factors over the legs.
func (s *setCheck) use(l *lift, f familyRow, size rating, rest float64) float64 {
	mode, ok := l.book.at(f, "mode", s.when, s.angle)
	if !ok {
		return 0
	}
	rated := float64(size.vertical) * mode.value
	column := fmt.Sprintf("%s_%g_%g", s.when, mode.valid.low, mode.valid.high)
	if printed := size.printed[column]; printed > 0 {
		rated = min(rated, float64(printed))
	}
	return float64(s.load) / (rated * rest * l.hitch(f, s.hitch).value)
}

// required returns the rating of one leg that the check of the set asks for by
// the common factors, with those factors.
func (s *setCheck) required(l *lift) (units.Mass, factorRow) {
	mode := l.common(func(f familyRow) (factorRow, bool) { return l.book.at(f, "mode", s.when, s.angle) })
	choke := l.commonHitch(s.hitch)
	return s.load / units.Mass(mode.value*choke.value), mode
}
