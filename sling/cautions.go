package sling

import "slices"

// cautionRow is one row of cautions.csv: what goes with a family wherever it is
// used, under both rule sets.
type cautionRow struct {
	cite
	family, material, text string
}

func readCautions() ([]cautionRow, error) {
	records, err := readTable("cautions", "family", "material", "caution", "source", "basis")
	if err != nil {
		return nil, err
	}
	var out []cautionRow
	for _, r := range records {
		out = append(out, cautionRow{r.cite(), r.cells["family"], r.cells["material"], r.cells["caution"]})
	}
	return out, nil
}

// warnings returns the cautions of a family, each with where it comes from.
func (b *book) warnings(f familyRow) []string {
	var out []string
	for _, c := range b.cautions {
		if c.family == f.family && slices.Contains([]string{f.material, anyOne}, c.material) {
			out = append(out, c.text+" ("+c.cite.String()+")")
		}
	}
	return out
}
