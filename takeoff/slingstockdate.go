package takeoff

import (
	"errors"
	"fmt"
	"regexp"
	"strconv"

	"go.yaml.in/yaml/v3"
)

// Date is a day of the calendar; the zero value is none.
type Date struct{ Year, Month, Day int }

const aDay = "a day as 2026-05-04: year, month, day"

var isoDay = regexp.MustCompile(`^(\d{4})-(\d{2})-(\d{2})$`)

// ParseDate reads a day in the only form that reads the same everywhere.
//
// Source: ISO 8601, calendar date in extended format; leap years by the
// Gregorian calendar.
func ParseDate(text string) (Date, error) {
	m := isoDay.FindStringSubmatch(text)
	if m == nil {
		return Date{}, errors.New("not written as 2026-05-04")
	}
	var d Date
	for i, to := range []*int{&d.Year, &d.Month, &d.Day} {
		*to, _ = strconv.Atoi(m[i+1]) // digits alone, few
	}
	if d.Month < 1 || d.Month > 12 || d.Day < 1 || d.Day > daysOf(d.Year, d.Month) {
		return Date{}, errors.New("no day of the calendar")
	}
	return d, nil
}

func daysOf(year, month int) int {
	switch month {
	case 2:
		if year%4 == 0 && (year%100 != 0 || year%400 == 0) {
			return 29
		}
		return 28
	case 4, 6, 9, 11:
		return 30
	}
	return 31
}

func (d Date) String() string { return fmt.Sprintf("%04d-%02d-%02d", d.Year, d.Month, d.Day) }

// After tells whether a day comes later than another.
func (d Date) After(other Date) bool {
	if d.Year != other.Year {
		return d.Year > other.Year
	}
	if d.Month != other.Month {
		return d.Month > other.Month
	}
	return d.Day > other.Day
}

// date reads a day from a cell.
func (r *reader) date(n *yaml.Node) Date {
	d, err := ParseDate(n.Value)
	switch {
	case err != nil:
		r.bad(n, fmt.Sprintf("the date %q is %v", short(n.Value), err), "write "+aDay+"; 04/05/2026 is read in two ways")
	case d.Year < 1950 || d.Year > 2200:
		r.bad(n, fmt.Sprintf("the year of %s is not one of this or the last century", d), "write "+aDay)
	}
	return d
}
