package sling

import "fmt"

// heat judges the stated temperature and returns the factor on the rating; ok is
// false when none is stated. Outside every row of the table the family is out.
func (l *lift) heat(f familyRow, o *opinion) (factor Factor, ok bool) {
	stated := l.need.Surroundings.Temperature
	if stated == nil {
		o.add(Care, "not stated: temperature")
		return Factor{}, false
	}
	rows := l.book.rows(f, "temperature", "")
	here := fmt.Sprintf("%.4g °C (%.4g °F)", *stated, inScale(*stated, "F"))
	coldest, hottest := rows[0], rows[0]
	for _, row := range rows {
		if row.valid.holds(inScale(*stated, row.unit)) {
			if row.value == 1 {
				o.add(Yes, "%s is within %s °%s (%s)", here, row.valid, row.unit, row.cite)
			} else {
				o.add(Care, "at %s the rating counts %.2f (%s)", here, row.value, row.cite)
			}
			return row.as("temperature, " + here), true
		}
		if row.valid.low < coldest.valid.low {
			coldest = row
		}
		if row.valid.high > hottest.valid.high {
			hottest = row
		}
	}
	near := hottest
	if inScale(*stated, coldest.unit) <= coldest.valid.low {
		near = coldest
	}
	o.add(No, "%s is not within its limits, %g to %g °%s (%s)", here, coldest.valid.low, hottest.valid.high, near.unit, near.cite)
	return Factor{}, false
}

// inScale converts °C to the scale of a table: C or F. Source of the factor and
// the zero: NIST SP 811 (2008), appendix B.8.
func inScale(celsius float64, scale string) float64 {
	if scale == "F" {
		return celsius*9/5 + 32
	}
	return celsius
}
