package takeoff

import (
	"cmp"
	"fmt"
	"io"
	"path"
	"slices"
	"strings"

	"go.yaml.in/yaml/v3"

	"plumbhook/units"
)

var craneRowKeys = []key[CraneRow]{
	{name: "radius", takes: aLength, must: true, read: func(r *reader, n *yaml.Node, c *CraneRow) { c.Radius, _ = r.positive(n) }},
	{name: "capacity", takes: aMass, must: true, read: func(r *reader, n *yaml.Node, c *CraneRow) { c.Capacity, _ = r.mass(n) }},
}

// readCraneTable reads the rows, in any order, from the load file or from a sheet
// beside it.
func readCraneTable(r *reader, n *yaml.Node, c *craneDraft) {
	c.table = n
	if n.Kind == yaml.ScalarNode {
		r.craneSheet(n, c)
		return
	}
	for _, one := range r.list(n, "a list of {radius, capacity}, or a file such as crane.csv") {
		before, row := r.faults, CraneRow{}
		if walk(r, one, "a crane row", craneRowKeys, &row) && r.faults == before {
			c.put(r, one, "", row)
		}
	}
}

// put takes a row up. One that lifts more farther out is a slip of the pen or a
// row of another set-up.
func (c *craneDraft) put(r *reader, n *yaml.Node, where string, row CraneRow) {
	for _, other := range c.Table {
		near, far := row, other
		if near.Radius > far.Radius {
			near, far = far, near
		}
		switch {
		case near.Radius == far.Radius:
			r.bad(n, where+"the crane's table has this radius twice", "keep the row of the crane as it will stand")
			return
		case near.Capacity < far.Capacity:
			r.bad(n, fmt.Sprintf("%sthe crane would lift more at %s than at %s", where, units.Length(far.Radius).Format(units.Metric), units.Length(near.Radius).Format(units.Metric)),
				"look at both rows and their units: a crane lifts less farther out; where its table says otherwise, write the lesser capacity for both")
			return
		}
	}
	c.Table = append(c.Table, row)
	slices.SortStableFunc(c.Table, func(a, b CraneRow) int { return cmp.Compare(a.Radius, b.Radius) })
}

const (
	mostCraneRows = 500
	craneSheetFix = "write a line `radius m,capacity t`, and under it a line for each radius, such as `8,22`"
)

// craneSheet reads the table from a CSV file: a column whose head begins with
// radius and one that begins with capacity, the unit in the head or in each cell.
func (r *reader) craneSheet(n *yaml.Node, c *craneDraft) {
	name, ok := r.text(n)
	if !ok {
		return
	}
	full, f := r.source.path(name, "crane.csv")
	if f == nil && strings.ToLower(path.Ext(full)) != ".csv" {
		f = &fault{"its ending is not .csv", "save the crane's table as CSV, or write its rows [{radius: 8 m, capacity: 22 t}]"}
	}
	var data []byte
	if f == nil {
		var wrong *fault
		f, _ = r.source.use(full, func(in io.Reader) error {
			data, wrong = r.source.opt.all(in, mostCraneBytes, "keep nothing in it but the crane's table")
			return nil
		})
		f = cmp.Or(wrong, f)
	}
	switch {
	case f != nil:
		r.bad(n, fmt.Sprintf("the crane's table %q: %s", short(name), f.text), f.fix)
	default:
		r.craneCells(n, strings.TrimPrefix(string(data), "\uFEFF"), c)
	}
}

// craneCells finds the two columns and reads the rows under them.
func (r *reader) craneCells(n *yaml.Node, text string, c *craneDraft) {
	for _, separator := range []rune{',', ';', '\t'} {
		g, err := cutCSV(strings.ReplaceAll(text, "\r\n", "\n"), separator, mostCraneRows)
		if err != nil || len(g) > mostCraneRows {
			continue
		}
		for at, head := range g {
			radius, capacity := columnOf(head, "radius"), columnOf(head, "capacity")
			if radius < 0 || capacity < 0 {
				continue
			}
			for _, row := range g[at+1:] {
				if !row.blank() && !r.craneLine(n, head, row, radius, capacity, c) {
					return
				}
			}
			if len(c.Table) == 0 {
				r.bad(n, "the crane's table has no rows under its head", craneSheetFix)
			}
			return
		}
	}
	r.bad(n, "the crane's table has no line with the heads radius and capacity", craneSheetFix)
}

// columnOf finds the column whose head begins with a word.
func columnOf(head gridRow, word string) int {
	return slices.IndexFunc(head.cells, func(s string) bool { return strings.HasPrefix(strings.ToLower(s), word) })
}

// craneLine reads one row of the sheet.
func (r *reader) craneLine(n *yaml.Node, head, row gridRow, radius, capacity int, c *craneDraft) bool {
	where := fmt.Sprintf("row %d of the crane's table: ", row.number)
	var one CraneRow
	length, err := units.ParseLength(withUnit(head, row, radius), units.LengthUnit{})
	if err == nil {
		one.Capacity, err = units.ParseMass(withUnit(head, row, capacity))
		one.Radius = float64(length)
	}
	switch {
	case err != nil:
		r.bad(n, where+err.Error(), craneSheetFix)
		return false
	case !(one.Radius > 0 && one.Radius < longest && one.Capacity > 0 && one.Capacity < heaviest):
		r.bad(n, where+"a radius and a capacity must be more than zero", craneSheetFix)
		return false
	}
	before := r.faults
	c.put(r, n, where, one)
	return r.faults == before
}

// withUnit is a cell with the unit of its column's head, where it has none itself.
func withUnit(head, row gridRow, column int) string {
	if column >= len(row.cells) {
		return ""
	}
	text := row.cells[column]
	if strings.ContainsFunc(text, func(c rune) bool { return c >= 'a' && c <= 'z' || c >= 'A' && c <= 'Z' || c == '\'' }) {
		return text
	}
	words := strings.FieldsFunc(head.cells[column], func(c rune) bool { return strings.ContainsRune(" ()[],", c) })
	if len(words) < 2 {
		return text
	}
	return text + " " + words[len(words)-1]
}
