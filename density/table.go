package density

import (
	_ "embed"
	"encoding/csv"
	"fmt"
	"io"
	"slices"
	"strings"
	"sync"

	"plumbhook/units"
)

//go:embed materials.csv
var materialsCSV string

// embedded reads the table in the program, once.
var embedded = sync.OnceValues(func() (*table, error) { return read(strings.NewReader(materialsCSV)) })

// header is the first line of the table.
var header = []string{"name", "synonyms", "density_kg_m3", "low_kg_m3", "high_kg_m3", "tolerance", "source", "basis", "note"}

var bases = []string{"read", "from memory", "computed", "common practice"}

// table holds the materials and the names that lead to them.
type table struct {
	materials []Material
	terms     []term
	byKey     map[string]int // key of a name or synonym to the place in materials
}

// term is one name or synonym.
type term struct {
	text     string
	material int
}

// read reads a table and refuses a row that an engineer could not check.
func read(r io.Reader) (*table, error) {
	rows, err := csv.NewReader(r).ReadAll()
	if err != nil {
		return nil, fmt.Errorf("materials.csv: %w", err)
	}
	if len(rows) < 2 || !slices.Equal(rows[0], header) {
		return nil, fmt.Errorf("materials.csv: want a first line %q and rows below it", strings.Join(header, ","))
	}
	t := &table{byKey: map[string]int{}}
	for i, row := range rows[1:] {
		m, err := material(row)
		if err == nil {
			err = t.add(m)
		}
		if err != nil {
			return nil, fmt.Errorf("materials.csv: row %d (%s): %w", i+2, row[0], err)
		}
	}
	return t, nil
}

// material reads one row.
func material(row []string) (Material, error) {
	m := Material{Name: row[0], Source: row[6], Basis: row[7], Note: row[8]}
	if row[1] != "" {
		m.Synonyms = strings.Split(row[1], ";")
	}
	var figures [4]float64
	for i, text := range row[2:6] {
		var err error
		if figures[i], err = units.ParseNumber(text); err != nil {
			return Material{}, fmt.Errorf("%s: %w", header[i+2], err)
		}
	}
	density, low, high := figures[0], figures[1], figures[2]
	m.Tolerance = figures[3]
	switch {
	case density <= 0:
		return Material{}, fmt.Errorf("density %g kg/m³, want it above 0", density)
	case low <= 0 || low > high:
		return Material{}, fmt.Errorf("published range %g to %g kg/m³, want 0 < low <= high", low, high)
	case m.Tolerance <= 0 || m.Tolerance >= 1:
		return Material{}, fmt.Errorf("tolerance %g, want a fraction between 0 and 1", m.Tolerance)
	case strings.TrimSpace(m.Source) == "":
		return Material{}, fmt.Errorf("no source")
	case !slices.Contains(bases, m.Basis):
		return Material{}, fmt.Errorf("basis %q, want one of %s", m.Basis, strings.Join(bases, ", "))
	}
	m.Density, m.Published = units.Density(density), [2]units.Density{units.Density(low), units.Density(high)}
	return m, nil
}

// add puts a material under its name and synonyms; a name that leads nowhere or
// to two places is refused.
func (t *table) add(m Material) error {
	for _, text := range append([]string{m.Name}, m.Synonyms...) {
		k := key(text)
		if k == "" {
			return fmt.Errorf("an empty name or synonym")
		}
		if other, ok := t.byKey[k]; ok {
			name := m.Name
			if other < len(t.materials) {
				name = t.materials[other].Name
			}
			return fmt.Errorf("%q is already a name of %s", text, name)
		}
		t.byKey[k] = len(t.materials)
		t.terms = append(t.terms, term{text, len(t.materials)})
	}
	t.materials = append(t.materials, m)
	return nil
}
