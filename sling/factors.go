package sling

import "fmt"

// factorRow is one row of factors.csv: a value that holds for a rule set, a
// family and a material (or any), in a case, over a range. The unit is that of
// the range. The value multiplies a capacity; 0 means not allowed.
type factorRow struct {
	cite
	rules                          Rules
	family, material, factor, when string
	valid                          interval
	unit                           string
	value                          float64
}

// factorKey finds the rows of one factor in one case under one rule set.
type factorKey struct {
	rules        Rules
	factor, when string
}

// anyOne is the wildcard in the family and material columns.
const anyOne = "any"

func readFactors() (map[factorKey][]factorRow, error) {
	records, err := readTable("factors", "rules", "family", "material", "factor", "case", "range", "unit", "value", "source", "basis", "note")
	if err != nil {
		return nil, err
	}
	out := map[factorKey][]factorRow{}
	for _, r := range records {
		c := r.cells
		f := factorRow{cite: r.cite(), rules: Rules(c["rules"]), family: c["family"], material: c["material"],
			factor: c["factor"], when: c["case"], unit: c["unit"]}
		if f.valid, err = parseInterval(c["range"]); err != nil {
			return nil, fmt.Errorf("%s: %w", r.at, err)
		}
		if f.value, err = r.number("value"); err != nil {
			return nil, err
		}
		if !(f.value >= 0) {
			return nil, fmt.Errorf("%s: value %g, want 0 or more", r.at, f.value)
		}
		key := factorKey{f.rules, f.factor, f.when}
		out[key] = append(out[key], f)
	}
	return out, nil
}

// as gives the row as a factor of the answer, under a name that a reader knows.
func (f factorRow) as(name string) Factor {
	source := f.source
	if f.note != "" {
		source += "; " + f.note
	}
	return Factor{Name: name, Value: f.value, Source: source, Basis: f.basis}
}

// rows returns the rows of a factor in a case, for a family under its rule set,
// in the order of the table.
func (b *book) rows(f familyRow, factor, when string) []factorRow {
	var out []factorRow
	for _, row := range b.factors[factorKey{f.rules, factor, when}] {
		if (row.family == f.family || row.family == anyOne) && (row.material == f.material || row.material == anyOne) {
			out = append(out, row)
		}
	}
	return out
}

// at returns the row whose range holds x; ok is false where the table has none.
func (b *book) at(f familyRow, factor, when string, x float64) (row factorRow, ok bool) {
	for _, row := range b.rows(f, factor, when) {
		if row.valid.holds(x) {
			return row, true
		}
	}
	return factorRow{}, false
}
