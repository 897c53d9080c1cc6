package sling

import (
	"fmt"
	"slices"

	"plumbhook/units"
)

// How far a hole may be larger than the pin in it before the pin bears on a line:
// the greater of the two. Common practice, no source (2 to 3 mm, or 1/16 to 1/8 in;
// of large pins 6 %).
const (
	mostClearance     units.Length = 0.003
	mostClearancePart float64      = 0.06
)

// Seat is how a pin sits in a hole.
type Seat int

// The ways a pin sits: the hole is not stated, or the pin is no size; as it should;
// loosely; not at all.
const (
	SeatUnknown Seat = iota
	Snug
	Slack
	TooLarge
)

// SeatOf tells how a pin sits in a hole.
func SeatOf(pin, hole units.Length) Seat {
	const noise = 1e-7 // m
	switch {
	case !(pin > 0) || !(hole > 0):
		return SeatUnknown
	case pin > hole+noise:
		return TooLarge
	case hole-pin > max(mostClearance, units.Length(mostClearancePart)*pin)+noise:
		return Slack
	}
	return Snug
}

// ShacklesIn returns of each grade the smallest shackle that holds the pull and
// whose pin sits well in a hole; where there is none, that whose pin goes through
// it with the least play; else the smallest that holds. A hole of 0 is not stated:
// then the smallest. why says why there is none at all.
func ShacklesIn(p Pull, hole units.Length) (fits []Fitting, why string, err error) {
	p.Kind = Shackle
	smallest, why, err := Fittings(p)
	if err != nil || hole == 0 {
		return smallest, why, err
	}
	b, rows, err := p.rows()
	if err != nil {
		return nil, "", err
	}
	for _, best := range smallest {
		for _, row := range rows { // smallest first
			f, barred := p.hold(b, row)
			if row.grade != best.Grade || barred != "" || f.Utilisation > 1+1e-9 {
				continue
			}
			now, before := SeatOf(f.Pin, hole), SeatOf(best.Pin, hole)
			if now == Snug && before != Snug || now == Slack && before != Snug {
				best = f // of slack ones the largest, so the last
			}
		}
		fits = append(fits, best)
	}
	return fits, why, nil
}

// EyePin returns the least diameter of what a soft eye of a chosen size may hang
// on, by the family's table; ok is false where the table says nothing of it.
func EyePin(rules Rules, family, material, size string) (least units.Length, source Factor, ok bool) {
	b, err := openBook()
	if err != nil {
		return 0, Factor{}, false
	}
	l := lift{book: b}
	for _, f := range b.under(rules) {
		if f.family != family || f.material != material {
			continue
		}
		sizes := b.sizes(f)
		at := slices.IndexFunc(sizes, func(r rating) bool { return r.size == size })
		if at < 0 {
			return 0, Factor{}, false
		}
		d, row, ok := l.leastPin(f, &sizes[at])
		return units.Length(d), row.as(fmt.Sprintf("eye on at least %g × the rope", row.valid.low)), ok
	}
	return 0, Factor{}, false
}

// HoldsMarked holds hardware that is marked with its own rating, in line, against
// the pull: the mark takes the place of the table's rating. A pull off the axis
// counts as for the size in the table; for a size that is not there by the rules for
// all sizes, and where there are none it is not allowed.
func (p Pull) HoldsMarked(size string, rated units.Mass) (f Fitting, why string, err error) {
	b, rows, err := p.rows()
	if err != nil {
		return f, "", err
	}
	row := fittingRow{rules: p.Rules, kind: p.Kind, grade: "grade not known", size: size}
	for _, known := range rows {
		if tidy(known.size) == tidy(size) {
			row = known
			break
		}
	}
	if row.at45 > 0 {
		row.at45 *= rated / row.rated
	}
	row.rated = rated
	f, why = p.hold(b, row)
	f.Source, f.Basis, f.Note = "the mark on it, as stated", "stated", ""
	return f, why, nil
}

// KnownElsewhere returns the rule set other than the pull's own under which a size
// of the kind is known; empty if there is none.
func (p Pull) KnownElsewhere(size string) Rules {
	for _, rules := range []Rules{US, EN} {
		q := p
		q.Rules = rules
		if rules != p.Rules && slices.ContainsFunc(q.Sizes(), func(s string) bool { return tidy(s) == tidy(size) }) {
			return rules
		}
	}
	return ""
}
