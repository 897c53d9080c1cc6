// Package inprint hands tests the values in print that they hold the program to: the
// rows of testdata/published/values.csv. A test asks for its own, tells what the
// program has for each, and fails where one is off or was not asked about.
package inprint

import (
	"bytes"
	"encoding/csv"
	"flag"
	"fmt"
	"math"
	"strconv"
	"strings"
	"testing"
	"unicode/utf8"

	"plumbhook/testdata/published"
)

// Columns are those of values.csv.
var Columns = []string{"package", "test", "item", "quantity", "printed", "unit", "tolerance", "source", "basis"}

// Bases are the words for how well a value is known.
var Bases = []string{"read", "from memory", "common practice", "computed", "derived here"}

// Value is one value in print.
type Value struct {
	Package, Test string
	Item          string // what it is of: a section, a solid, a worked example
	Quantity      string
	Text          string // as printed
	Printed       float64
	Unit          string
	Tolerance     float64 // in the same unit
	Source, Basis string
}

// All reads the table; an error names the row.
func All() ([]Value, error) {
	rows, err := csv.NewReader(bytes.NewReader(published.Values)).ReadAll()
	if err != nil {
		return nil, fmt.Errorf("values.csv: %w", err)
	}
	if len(rows) < 2 || strings.Join(rows[0], ",") != strings.Join(Columns, ",") {
		return nil, fmt.Errorf("values.csv: the columns must be %s", strings.Join(Columns, ", "))
	}
	var all []Value
	seen := map[string]bool{}
	for i, row := range rows[1:] {
		v := Value{Package: row[0], Test: row[1], Item: row[2], Quantity: row[3], Text: row[4], Unit: row[5], Source: row[7], Basis: row[8]}
		var first, second error
		v.Printed, first = strconv.ParseFloat(row[4], 64)
		v.Tolerance, second = strconv.ParseFloat(row[6], 64)
		if first != nil || second != nil || !(v.Tolerance >= 0) || v.Source == "" {
			return nil, fmt.Errorf("values.csv, row %d, %s %s: a printed value, a tolerance and a source are wanted", i+2, v.Item, v.Quantity)
		}
		key := strings.Join(row[:4], "\n")
		if seen[key] {
			return nil, fmt.Errorf("values.csv, row %d: %s %s is here twice for %s", i+2, v.Item, v.Quantity, v.Test)
		}
		seen[key] = true
		all = append(all, v)
	}
	return all, nil
}

// Page is what one test is to hold.
type Page struct {
	t     testing.TB
	rows  []Value
	got   []float64
	asked []bool
}

// Of returns the rows of the running test, and sees to it that each is asked about.
// With -v they are printed at its end, with what the program has.
func Of(t testing.TB, pkg string) *Page {
	t.Helper()
	name, _, _ := strings.Cut(t.Name(), "/")
	all, err := All()
	if err != nil {
		t.Fatal(err)
	}
	p := &Page{t: t}
	for _, v := range all {
		if v.Package == pkg && v.Test == name {
			p.rows = append(p.rows, v)
		}
	}
	if len(p.rows) == 0 {
		t.Fatalf("values.csv has no rows for %s of %s", name, pkg)
	}
	p.got, p.asked = make([]float64, len(p.rows)), make([]bool, len(p.rows))
	t.Cleanup(p.close)
	return p
}

// Rows are those of a quantity, or all.
func (p *Page) Rows(quantity ...string) []Value {
	var some []Value
	for _, v := range p.rows {
		if len(quantity) == 0 || v.Quantity == quantity[0] {
			some = append(some, v)
		}
	}
	return some
}

// Items are what the rows are of, each once, in their order.
func (p *Page) Items() []string {
	var names []string
	seen := map[string]bool{}
	for _, v := range p.rows {
		if !seen[v.Item] {
			seen[v.Item] = true
			names = append(names, v.Item)
		}
	}
	return names
}

// Has says whether a value of an item is in print.
func (p *Page) Has(item, quantity string) bool {
	for _, v := range p.rows {
		if v.Item == item && v.Quantity == quantity {
			return true
		}
	}
	return false
}

// Is holds what the program has, in the unit of the print, to the printed value.
func (p *Page) Is(item, quantity string, got float64) {
	p.t.Helper()
	for i, v := range p.rows {
		if v.Item != item || v.Quantity != quantity {
			continue
		}
		p.got[i], p.asked[i] = got, true
		if !(math.Abs(got-v.Printed) <= v.Tolerance*(1+1e-9)) {
			p.t.Errorf("%s, %s: %s %s in print, %.9g here, may be %g off: %s (%s)", item, quantity, v.Text, v.Unit, got, v.Tolerance, v.Source, v.Basis)
		}
		return
	}
	p.t.Errorf("values.csv has no row %q, %q for %s", item, quantity, p.t.Name())
}

// close complains of rows that were not asked about, unless only a part of the test was
// to run, and prints the page.
func (p *Page) close() {
	part := flag.Lookup("test.run")
	whole := part == nil || !strings.Contains(part.Value.String(), "/")
	for i, v := range p.rows {
		if whole && !p.asked[i] && !p.t.Failed() {
			p.t.Errorf("%s, %s is in values.csv, but the test did not ask about it", v.Item, v.Quantity)
		}
	}
	if testing.Verbose() {
		p.t.Log("\n" + p.table())
	}
}

// table sets the rows in columns.
func (p *Page) table() string {
	var lines [][]string
	for i, v := range p.rows {
		got := "not asked"
		if p.asked[i] {
			got = strconv.FormatFloat(p.got[i], 'g', 7, 64)
		}
		lines = append(lines, []string{v.Item + ", " + v.Quantity, v.Text, got, strconv.FormatFloat(v.Tolerance, 'g', 3, 64), v.Unit, v.Source + " (" + v.Basis + ")"})
	}
	return Table(lines)
}

// Table sets lines of what, printed, here, may be off, unit and source in columns.
func Table(lines [][]string) string {
	lines = append([][]string{{"what", "printed", "here", "may be off", "unit", "source"}}, lines...)
	wide := make([]int, 6)
	for _, line := range lines {
		for i, cell := range line[:5] {
			wide[i] = max(wide[i], utf8.RuneCountInString(cell))
		}
	}
	var b strings.Builder
	for _, line := range lines {
		for i, cell := range line[:5] {
			pad := strings.Repeat(" ", wide[i]-utf8.RuneCountInString(cell))
			if i >= 1 && i <= 3 {
				b.WriteString(pad + cell + "  ")
			} else {
				b.WriteString(cell + pad + "  ")
			}
		}
		b.WriteString(line[5] + "\n")
	}
	return b.String()
}
