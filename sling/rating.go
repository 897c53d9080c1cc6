package sling

import (
	"cmp"
	"fmt"
	"slices"
	"strings"
	"sync"

	"plumbhook/units"
)

// book is all the tables, read once.
type book struct {
	families  []familyRow
	ratings   map[string][]rating // by family, in the order of the file
	factors   map[factorKey][]factorRow
	chemicals []chemicalRow
	cautions  []cautionRow

	surroundings []surroundingRow
	hardware     []fittingRow
}

// openBook reads the embedded tables on first use.
var openBook = sync.OnceValues(readBook)

// familyRow is one row of families.csv: a family in one material.
type familyRow struct {
	cite
	rules            Rules
	family, material string
	body             string // how it bends and bears: rope, chain, mesh or textile
	substance        string // what chemicals meet, a key of chemicals.csv
	byTag            bool   // no table of capacities is published: only its tag tells
}

// rating is one row of a capacity table: one size.
type rating struct {
	cite
	rules          Rules
	material, size string
	diameter       units.Length          // of rope or chain material; 0 where it has none
	vertical       units.Mass            // rating of one leg in a vertical hitch
	printed        map[string]units.Mass // further printed ratings by column: choker, basket, two_leg_0_45, ...
	termination    float64               // efficiency of the end that vertical contains; 0: not a rope
	perMetre       units.Mass            // own weight, kg per m; 0: not known
	perMetreCite   cite
}

// printedColumns are ratings that are checked besides the vertical one.
var printedColumns = []string{"choker", "basket", "two_leg_0_45", "two_leg_45_60", "three_four_leg_0_45", "three_four_leg_45_60"}

func readBook() (*book, error) {
	b := &book{ratings: map[string][]rating{}}
	records, err := readTable("families", "rules", "family", "material", "body", "substance", "capacity", "source", "basis", "note")
	if err != nil {
		return nil, err
	}
	for _, r := range records {
		c := r.cells
		b.families = append(b.families, familyRow{r.cite(), Rules(c["rules"]), c["family"], c["material"], c["body"], c["substance"], c["capacity"] == "tag"})
		if b.ratings[c["family"]] == nil && c["capacity"] == "table" {
			if b.ratings[c["family"]], err = readRatings(c["family"]); err != nil {
				return nil, err
			}
		}
	}
	if b.factors, err = readFactors(); err != nil {
		return nil, err
	}
	if b.chemicals, err = readChemicals(); err != nil {
		return nil, err
	}
	if b.surroundings, err = readSurroundings(); err != nil {
		return nil, err
	}
	if b.cautions, err = readCautions(); err != nil {
		return nil, err
	}
	if b.hardware, err = readHardware(); err != nil {
		return nil, err
	}
	return b, b.complete()
}

// complete refuses tables that leave a family without a size, a hitch factor or
// temperature limits, or a rule set without a least angle.
func (b *book) complete() error {
	for _, f := range b.families {
		missing := ""
		for _, hitch := range []string{vertical, choker, basket} {
			if len(b.rows(f, "hitch", hitch)) != 1 {
				missing = "one hitch factor for " + hitch
			}
		}
		switch {
		case (len(b.sizes(f)) == 0) != f.byTag:
			missing = "sizes, or none and the capacity by tag"
		case len(b.rows(f, "temperature", "")) == 0:
			missing = "temperature limits"
		case len(b.rows(f, "leg angle", "")) != 1:
			missing = "one least leg angle"
		case !slices.Contains([]string{"rope", "chain", "mesh", "textile"}, f.body):
			missing = "a body out of rope, chain, mesh, textile"
		default:
			if text := b.placed(f); text != "" {
				missing = text
			}
		}
		if missing != "" {
			return fmt.Errorf("%s %s, %s: want %s in the tables", f.rules, f.family, f.material, missing)
		}
	}
	return nil
}

func readRatings(family string) ([]rating, error) {
	columns := slices.Concat([]string{"rules", "material", "size", "diameter", "diameter_unit", "vertical", "unit"}, printedColumns,
		[]string{"termination", "termination_source", "own_weight", "own_weight_unit", "own_weight_source", "own_weight_basis", "source", "basis", "note"})
	records, err := readTable(family, columns...)
	if err != nil {
		return nil, err
	}
	var out []rating
	for _, r := range records {
		row, err := readRating(r)
		if err != nil {
			return nil, fmt.Errorf("%s (%s): %w", r.at, r.cells["size"], err)
		}
		out = append(out, row)
	}
	return out, nil
}

func readRating(r record) (row rating, err error) {
	c := r.cells
	row = rating{cite: r.cite(), rules: Rules(c["rules"]), material: c["material"], size: c["size"], printed: map[string]units.Mass{}}
	if row.vertical, err = units.ParseMass(c["vertical"] + " " + c["unit"]); err != nil {
		return row, err
	}
	if row.vertical <= 0 {
		return row, fmt.Errorf("vertical rating %q, want more than 0", c["vertical"])
	}
	for _, column := range printedColumns {
		if c[column] == "" {
			continue
		}
		if row.printed[column], err = units.ParseMass(c[column] + " " + c["unit"]); err != nil {
			return row, err
		}
	}
	if c["diameter"] != "" {
		if row.diameter, err = units.ParseLength(c["diameter"]+" "+c["diameter_unit"], units.LengthUnit{}); err != nil {
			return row, err
		}
	}
	if c["termination"] != "" {
		if row.termination, err = r.number("termination"); err != nil {
			return row, err
		}
		if !(row.termination > 0 && row.termination <= 1) || c["termination_source"] == "" {
			return row, fmt.Errorf("termination %q: want above 0 to 1, and its source", c["termination"])
		}
	}
	if c["own_weight"] != "" {
		row.perMetreCite = cite{source: c["own_weight_source"], basis: c["own_weight_basis"]}
		row.perMetre, err = parsePerMetre(c["own_weight"], c["own_weight_unit"])
	}
	return row, err
}

// parsePerMetre reads an own weight in kg/m or lb/ft.
func parsePerMetre(value, unit string) (units.Mass, error) {
	mass, length, _ := strings.Cut(unit, "/")
	m, err := units.ParseMass(value + " " + mass)
	if err != nil {
		return 0, err
	}
	l, err := units.ParseLength("1 "+length, units.LengthUnit{})
	if err != nil {
		return 0, err
	}
	return m / units.Mass(l), nil
}

// sizes returns the sizes of a family and material, smallest rating first;
// equal ratings stay in the order of the table.
func (b *book) sizes(f familyRow) []rating {
	var out []rating
	for _, row := range b.ratings[f.family] {
		if row.rules == f.rules && (row.material == f.material || row.material == anyOne) {
			out = append(out, row)
		}
	}
	slices.SortStableFunc(out, func(p, q rating) int { return cmp.Compare(p.vertical, q.vertical) })
	return out
}

// under returns the families of a rule set, in the order of the table.
func (b *book) under(rules Rules) []familyRow {
	var out []familyRow
	for _, f := range b.families {
		if f.rules == rules {
			out = append(out, f)
		}
	}
	return out
}

// FamilyNames returns the names of all families, in the order of the table.
func FamilyNames() []string {
	b, err := openBook()
	if err != nil {
		return nil // Choose says why
	}
	var out []string
	for _, f := range b.families {
		if !slices.Contains(out, f.family) {
			out = append(out, f.family)
		}
	}
	return out
}
