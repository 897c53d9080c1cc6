package sling

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"plumbhook/units"
)

// partsOf returns what a basket's two parts hold together beside parts that run
// side by side and carry the same: cos(half the angle between them), which for a
// plumb leg is the sine of the parts' angle from horizontal, over what the one
// that carries more carries beside half. 1 where nothing is stated.
//
// Source: statics; the capacity factors sin a of ASME B30.9 (from memory).
func partsOf(leg Leg) float64 {
	if hitchOf(leg) != basket || leg.Included == nil {
		return 1
	}
	return math.Cos(float64(*leg.Included)/2) / max(1, leg.Uneven)
}

// chokeOf returns the stated angle of choke in degrees, 0 for none.
func chokeOf(leg Leg) float64 {
	if hitchOf(leg) != choker || leg.Choke == nil {
		return 0
	}
	return units.Degrees(*leg.Choke)
}

// spread returns the factor of the parts of each basket whose angle is stated,
// those that are alike together.
func (l *lift) spread() []Factor {
	var out []Factor
	legs := map[string][]string{} // by the parts in words
	for _, leg := range l.need.Legs {
		parts := partsOf(leg)
		if parts == 1 {
			continue
		}
		like := leg.Included.Format() + " between them"
		if more := math.Ceil((leg.Uneven-1)*100 - 1e-6); more > 0 {
			like += fmt.Sprintf(", one carrying %.0f %% more than half", more)
		}
		if legs[like] = append(legs[like], leg.Name); len(legs[like]) > 1 {
			i := slices.IndexFunc(out, func(f Factor) bool { return f.Name == like })
			out[i].Value = min(out[i].Value, parts)
			continue
		}
		out = append(out, Factor{Name: like, Value: parts, Source: "statics: cos of half the angle between the two parts, over what the one carries more", Basis: "computed"})
	}
	for i, f := range out {
		out[i].Name = fmt.Sprintf("parts of basket %s, %s", strings.Join(legs[f.Name], ", "), f.Name)
	}
	return out
}

// leastChoke in degrees is the angle of choke above which a choker holds its
// full rating: ASME B30.9 (as reprinted).
const leastChoke = 120

// chokeRow returns the factor of a stated angle of choke for a family; ok is
// false where its table has none.
func (l *lift) chokeRow(f familyRow, leg demand) (factorRow, bool) {
	if leg.choke == 0 {
		return factorRow{}, false
	}
	return l.book.at(f, "choke angle", choker, leg.choke)
}

// chokes gives no to a family that has no factor for an angle of choke as tight
// as is stated.
func (l *lift) chokes(f familyRow, o *opinion) {
	for _, leg := range l.legs {
		if _, ok := l.chokeRow(f, leg); !ok && leg.choke > 0 && leg.choke <= leastChoke {
			o.add(No, "leg %s: angle of choke of %.4g°: %s has no factor for it at %d° or less; ask the sling's maker", leg.name, leg.choke, l.need.Rules, leastChoke)
		}
	}
}
