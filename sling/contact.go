package sling

import (
	"cmp"
	"fmt"
	"math"
	"slices"

	"plumbhook/units"
)

// bearing is what bending round the load or over an edge does to one leg.
type bearing struct {
	value   float64  // on the rating
	factors []Factor // that make up the value
	barred  string   // why this size may not be used; empty if it may
}

// bearing returns the loss of a leg of a size where it bends or bears on an edge.
// Textile slings lose nothing while the maker's least diameter is kept (0027/ND
// Guidelines for marine lifting Rev 11, 7.8); their edges are judged by [lift.edges].
func (l *lift) bearing(f familyRow, leg demand, size rating) bearing {
	switch f.body {
	case "rope":
		return l.bentRope(f, leg, size)
	case "chain":
		return l.bentChain(f, leg, size)
	}
	return bearing{value: 1}
}

// roundest returns the diameter in m round which a basket of a sling of diameter
// d bends: the contact, or twice the radius of an edge, whichever is less. An
// edge sharper than d must be padded and counts as padded to a radius of d. ok
// is false when neither is stated.
func (l *lift) roundest(leg demand, d units.Length) (diameter float64, ok bool) {
	diameter = math.Inf(1)
	if leg.contact > 0 {
		diameter = leg.contact
	}
	if radius, bears := l.need.Surroundings.edge(); bears {
		diameter = min(diameter, 2*max(radius, float64(d)))
	}
	return diameter, !math.IsInf(diameter, 1)
}

// bentRope gives the bend factor of a basket, min(E, termination)/termination
// with E = 1 − 0.5/√(D/d): the printed rating already contains the end, and bend
// and end are not at one place, so that the lesser efficiency decides. The body
// must never bend round less than its own diameter.
//
// Source: 0027/ND Guidelines for marine lifting Rev 11, 7.6.1, 7.7.2 and 7.8.
func (l *lift) bentRope(f familyRow, leg demand, size rating) bearing {
	diameter, ok := l.roundest(leg, size.diameter)
	if leg.hitch != basket || !ok {
		return bearing{value: 1}
	}
	ratio := diameter / float64(size.diameter)
	row, ok := l.book.at(f, "bend loss", basket, ratio)
	if !ok || size.termination <= 0 {
		return bearing{value: 1, barred: fmt.Sprintf("contact of %s is less than the %s of a rope of %s (0027/ND Guidelines for marine lifting Rev 11, 7.8)",
			millimetres(diameter), millimetres(float64(size.diameter)), size.size)}
	}
	efficiency := 1 - row.value/math.Sqrt(ratio)
	value := min(efficiency, size.termination) / size.termination
	return bearing{value: value, factors: []Factor{{
		Name:   fmt.Sprintf("bend, D/d %.3g", ratio),
		Value:  value,
		Source: fmt.Sprintf("%s: min(%.3f, end %.3g)/end", row.source, efficiency, size.termination),
		Basis:  "computed",
	}}}
}

// bentChain gives the factor of chain round a contact (US, baskets, by D/d) or
// over an edge (EN, by R/d; a choker or basket round a body counts as an edge of
// half its diameter).
func (l *lift) bentChain(f familyRow, leg demand, size rating) bearing {
	b := bearing{value: 1}
	d := float64(size.diameter)
	if diameter, ok := l.roundest(leg, size.diameter); ok && leg.hitch == basket {
		if row, ok := l.book.at(f, "bend", basket, diameter/d); ok {
			b.apply(row, fmt.Sprintf("bend, D/d %.3g", diameter/d), size)
		}
	}
	radius, bears := l.need.Surroundings.edge()
	if leg.contact > 0 && leg.hitch != vertical {
		if half := leg.contact / 2; !bears || half < radius {
			radius, bears = half, true
		}
	}
	if bears {
		if row, ok := l.book.at(f, "edge", "", radius/d); ok {
			b.apply(row, fmt.Sprintf("edge, R/d %.3g", radius/d), size)
		}
	}
	return b
}

func (b *bearing) apply(row factorRow, name string, size rating) {
	if row.value == 0 {
		b.barred = fmt.Sprintf("%s with chain of %s (%s)", name, size.size, row.cite)
		return
	}
	b.value *= row.value
	b.factors = append(b.factors, row.as(name))
}

// touch judges what depends on the size: chain and rope on an edge, the pin in
// an eye, a basket round an unknown body. size is nil when none was chosen.
func (l *lift) touch(f familyRow, size *rating, o *opinion) {
	if f.body == "textile" || f.body == "mesh" {
		return
	}
	radius, bears := l.need.Surroundings.edge()
	if bears {
		l.overEdge(f, radius, size, o)
	}
	asked := false
	for _, leg := range l.legs {
		if leg.hitch == basket && leg.contact == 0 && !asked {
			asked = true
			text := "not stated: contact diameter of the basket"
			for _, row := range l.book.rows(f, "full basket", basket) {
				text += " (" + row.cite.String() + ")"
			}
			o.add(Care, "%s", text)
		}
		if least, row, ok := l.leastPin(f, size); ok && leg.hitch == vertical && leg.contact > 0 && leg.contact < least*(1-1e-9) {
			o.add(Care, "leg %s: pin of %s, want at least %s in a soft eye of %s: larger pin or thimble (%s)",
				leg.name, millimetres(leg.contact), millimetres(least), size.size, row.cite)
		}
	}
}

// overEdge judges chain or rope of the chosen size on an edge; without a size
// it is care.
func (l *lift) overEdge(f familyRow, radius float64, size *rating, o *opinion) {
	for _, by := range []struct {
		factor, when string
		measure      float64
	}{{"edge", "", radius}, {"bend", basket, 2 * radius}} {
		rows := l.book.rows(f, by.factor, by.when)
		if len(rows) == 0 {
			continue
		}
		if size != nil {
			if row, ok := l.book.at(f, by.factor, by.when, by.measure/float64(size.diameter)); ok && row.value == 1 {
				o.add(Yes, "edge radius %s is enough for %s (%s)", millimetres(radius), size.size, row.cite)
				return
			} else if ok {
				rows = []factorRow{row}
			}
		}
		ask := "pad the edge"
		if l.need.Surroundings.EdgeProtection != "" {
			ask = "it may bear on the protection alone"
		}
		o.add(Care, "edge radius %s: %s (%s)", millimetres(radius), ask, rows[0].cite)
		l.protection(f, o)
		return
	}
}

// leastPin returns the least diameter in m of a pin in the eye of a size: the
// greatest that the rows ask for, as a grommet needs more than ropes in general.
func (l *lift) leastPin(f familyRow, size *rating) (diameter float64, row factorRow, ok bool) {
	rows := l.book.rows(f, "pin", vertical)
	if size == nil || len(rows) == 0 {
		return 0, factorRow{}, false
	}
	row = slices.MaxFunc(rows, func(a, b factorRow) int { return cmp.Compare(a.valid.low, b.valid.low) })
	return row.valid.low * float64(size.diameter), row, true
}

func millimetres(m float64) string { return fmt.Sprintf("%.3g mm", m*1000) }
