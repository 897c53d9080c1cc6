package sling

import "fmt"

// fittings warns of the surroundings for what every set hangs by, whatever its
// slings are made of: shackles, hooks and links are of steel.
func (l *lift) fittings() (warnings []string) {
	s := l.need.Surroundings
	for _, word := range s.Chemicals {
		plain, _ := strengthOf(word)
		name, _ := chemicalNamed(plain)
		for _, row := range l.book.chemicals {
			if row.rules == l.need.Rules && row.substance == "carbon steel" && row.chemical == name && row.effect == No {
				warnings = append(warnings, fmt.Sprintf("%s: shackles, hooks and links are of steel, which it attacks whatever the slings are made of: keep them out of it and its fumes (%s)", word, row.source))
			}
		}
	}
	if s.Temperature == nil {
		return warnings
	}
	for _, row := range l.book.rows(familyRow{rules: l.need.Rules, family: "shackle"}, "temperature", "") {
		if !row.valid.holds(inScale(*s.Temperature, row.unit)) {
			warnings = append(warnings, fmt.Sprintf("%.4g °C (%.4g °F): shackles and links that are as hot or as cold are not within their limits, %s °%s (%s)",
				*s.Temperature, inScale(*s.Temperature, "F"), row.valid, row.unit, row.cite))
		}
	}
	return warnings
}
