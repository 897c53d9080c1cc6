package sling

import (
	"fmt"
	"slices"
	"strings"

	"plumbhook/units"
)

// Stretch is how much longer slings of a family are at their rated load, as parts
// of their length. Steel stretches less than that is known of: rows are for fibre.
type Stretch struct {
	Family, Material string
	Low, High        float64
	cite             cite
}

// Name is the family with its material, in plain words.
func (s Stretch) Name() string { return strings.ReplaceAll(s.Family, "_", " ") + ", " + s.Material }

// Cite says where the figures come from.
func (s Stretch) Cite() string { return s.cite.String() }

// StretchOf returns what is known of the stretch of a family under a rule set, or
// under either; of all its materials where none is named. It returns the names of
// all families of which something is known too.
func StretchOf(rules Rules, family, material string) (found []Stretch, known []string, err error) {
	rows, err := stretches()
	if err != nil {
		return nil, nil, err
	}
	for _, r := range rows {
		if rules != "" && r.rules != rules {
			continue
		}
		if name := r.Family + ", " + r.Material; !slices.Contains(known, name) {
			known = append(known, name)
			if r.Family == family && (material == "" || r.Material == material) {
				found = append(found, r.Stretch)
			}
		}
	}
	return found, known, nil
}

type stretchRow struct {
	rules Rules
	Stretch
}

// stretches reads stretch.csv; its percents run from more than nothing.
func stretches() ([]stretchRow, error) {
	records, err := readTable("stretch", "rules", "family", "material", "low", "high", "source", "basis", "note")
	if err != nil {
		return nil, err
	}
	var rows []stretchRow
	for _, r := range records {
		low, err := r.number("low")
		if err != nil {
			return nil, err
		}
		high, err := r.number("high")
		if err != nil {
			return nil, err
		}
		if !(low > 0 && high >= low && high < 50) {
			return nil, fmt.Errorf("%s: stretch of %g to %g %%", r.at, low, high)
		}
		rows = append(rows, stretchRow{Rules(r.cells["rules"]), Stretch{r.cells["family"], r.cells["material"], low / 100, high / 100, r.cite()}})
	}
	return rows, nil
}

// SizeOf returns the rated load of the smallest size of a family that serves a
// need; false where none does, or the family may not be used.
func SizeOf(n Need, s Stretch) (units.Mass, bool, error) {
	a, err := Choose(n)
	if err != nil {
		return 0, false, err
	}
	for _, v := range a.Families {
		if v.Family == s.Family && v.Material == s.Material && v.Choice != nil {
			return v.Choice.Rated, true, nil
		}
	}
	return 0, false, nil
}
