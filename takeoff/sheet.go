package takeoff

import (
	"fmt"
	"io"
	"slices"
	"strings"

	"go.yaml.in/yaml/v3"

	"plumbhook/units"
)

// sheet is a take-off sheet while it is read. Its rows become the parts of a
// load file, each value at the place of its cell, and are read by the same
// walker: what a load file refuses, a sheet refuses too.
type sheet struct {
	*reader
	columns  []column // that it may have
	grid     grid
	head     int            // index of the header in grid
	at       map[string]int // where each column is, from 1
	unit     map[string]string
	bare     units.LengthUnit // of lengths whose column names no unit
	gathered int
	rows     map[int]*sheetRow // by number
	names    map[string]bool
	heads    []string // rows that are no parts
}

// sheetFile reads a take-off sheet, CSV or XLSX.
func (r *reader) sheetFile(in io.Reader, kind string, l *Load) {
	data, f := r.source.opt.all(in, mostSheetBytes, "keep nothing in it but the take-off")
	if f != nil {
		r.bad0(f.text, f.fix)
		return
	}
	r.source.sum.Write(data)
	var g grid
	if kind == "csv" {
		g = r.csvGrid(data, columns)
	} else {
		g = r.xlsxGrid(data, "take-off")
	}
	if g == nil || !r.givenMaterial() {
		return
	}
	s := &sheet{reader: r, columns: columns, grid: r.noFormulas(g), at: map[string]int{}, unit: map[string]string{}, bare: r.source.opt.MeshUnits,
		rows: map[int]*sheetRow{}, names: map[string]bool{}}
	if !s.readHeader(takeoffHeader) || !s.columnsThere(s.grid[s.head].number) {
		return
	}
	root := s.top()
	parts := s.parts()
	if len(parts.Content) > 0 {
		put(root, "parts", parts)
	} else if r.faults == 0 {
		r.at(s.grid[s.head].number, 1, "no parts under the header", "write a row for each part")
	}
	walk(r, root, "a take-off sheet", s.keys(len(parts.Content) > 0), l)
	if r.faults == 0 {
		s.settle(l)
		r.warnDefault(l.Parts)
	}
}

// above are the keys of a load file that may stand above the header.
var above = []string{"load", "drawing", "datum", "material", "hitch", "rules", "factors"}

// aboveFactors are the keys of `factors`, each of which may stand there by itself.
var aboveFactors = []string{"dynamic", "planning"}

// keys are the keys of a load file that a sheet has.
func (s *sheet) keys(parts bool) []key[Load] {
	return slices.DeleteFunc(topKeys(), func(k key[Load]) bool {
		return !slices.Contains(above, k.name) && !(parts && k.name == "parts")
	})
}

// top gathers what stands above the header: a word in one cell, its value in
// the next one that is not blank. Other text there is for the reader's eyes.
func (s *sheet) top() *yaml.Node {
	root := &yaml.Node{Kind: yaml.MappingNode, Tag: "!!map", Line: 1, Column: 1}
	seen := map[string]bool{}
	factors := &yaml.Node{Kind: yaml.MappingNode, Tag: "!!map"}
	for _, row := range s.grid[:s.head] {
		i := slices.IndexFunc(row.cells, func(c string) bool { return c != "" })
		if i < 0 {
			continue
		}
		word := plainHeader(row.cells[i])
		if word == "unit" {
			word = "units"
		}
		factor := slices.Contains(aboveFactors, word)
		if word == "factors" || !slices.Contains(above, word) && word != "units" && !factor {
			continue
		}
		value := text("", row.number, i+1)
		if j := slices.IndexFunc(row.cells[i+1:], func(c string) bool { return c != "" }); j >= 0 {
			value = text(row.cells[i+1+j], row.number, i+j+2)
		}
		switch {
		case seen[word]:
			s.reader.at(row.number, i+1, fmt.Sprintf("`%s` is here twice", word), "keep one of the two")
		case factor:
			if factors.Line == 0 {
				factors.Line, factors.Column = value.Line, value.Column
				put(root, "factors", factors)
			}
			put(factors, word, value)
		case word != "units":
			put(root, word, value)
		case isEmpty(value):
			s.bad(value, "`units` has no value", "write "+aUnit+" in the next cell")
		default:
			s.bare = s.reader.unit(value)
		}
		seen[word] = true
	}
	if !seen["load"] {
		put(root, "load", text(strings.TrimPrefix(s.file, "./"), 1, 1))
	}
	return root
}

// text makes a value of what stands in a cell.
func text(value string, row, column int) *yaml.Node {
	return &yaml.Node{Kind: yaml.ScalarNode, Tag: "!!str", Value: value, Line: row, Column: column}
}

// put adds a key and its value to a group, the key at the place of the value.
func put(group *yaml.Node, word string, value *yaml.Node) {
	group.Content = append(group.Content, text(word, value.Line, value.Column), value)
}

// header finds the row that names most columns among the first rows, and how
// many columns it names.
func (g grid) header(known []column) (at, columns int) {
	const within, least = 60, 3
	for i, row := range g[:min(len(g), within)] {
		found := map[string]bool{}
		for _, text := range row.cells {
			if c, _, ok := headerOf(known, text); ok {
				found[c.name] = true
			}
		}
		if len(found) > columns {
			at, columns = i, len(found)
		}
	}
	if columns < least {
		return 0, 0
	}
	return at, columns
}

const takeoffHeader = "write a row with the names of the columns: mark, quantity, size, material, length, x, y, z, weight; `plumbhook new --sheet` makes an empty sheet"

// readHeader finds the columns and their units.
func (s *sheet) readHeader(fix string) bool {
	var found int
	if s.head, found = s.grid.header(s.columns); found == 0 {
		s.reader.at(1, 1, "no header row was found: none of the first rows names three columns or more", fix)
		return false
	}
	row := s.grid[s.head]
	sure := true
	for i, name := range row.cells {
		if name != "" && !isRemark(name) {
			sure = s.oneHeader(name, row.number, i+1) && sure
		}
	}
	return sure && s.unitsRow()
}

// oneHeader reads the header of one column. It reports whether the rows can be
// read all the same: a column of another kind is no loss, a misspelt one is.
func (s *sheet) oneHeader(name string, row, column int) bool {
	c, unit, ok := headerOf(s.columns, name)
	switch {
	case !ok:
		fix := "a sheet has: " + strings.Join(columnNames(s.columns), ", ") + "; begin the header of any other with `note`, and it is not read"
		near := units.Nearest(plainHeader(name), columnNames(s.columns))
		if len(near) > 0 {
			fix = fmt.Sprintf("did you mean `%s`? %s", near[0], fix)
		}
		s.reader.at(row, column, fmt.Sprintf("unknown column %q", short(name)), fix)
		return len(near) == 0
	case s.at[c.name] != 0:
		s.reader.at(row, column, fmt.Sprintf("the column `%s` is here twice, first in %s", c.name, cell(s.at[c.name], row)), "keep one of the two")
	case unit != "" && !c.measures(unit):
		s.reader.at(row, column, fmt.Sprintf("%q is not a unit of the column `%s`", short(unit), c.name), "write "+c.unitsOf())
	default:
		s.at[c.name], s.unit[c.name] = column, unit
		return true
	}
	return false
}

// unitsRow takes the units of the row below the header, if all that stands
// there are units. The row is then no part. It reports whether they agree with
// the header.
func (s *sheet) unitsRow() bool {
	if s.head+1 >= len(s.grid) {
		return true
	}
	row := s.grid[s.head+1]
	found := map[string]string{}
	for _, c := range s.columns {
		switch unit := s.text(row, c.name); {
		case unit == "":
		case !c.measures(unit):
			return true
		default:
			found[c.name] = unit
		}
	}
	if len(found) == 0 {
		return true
	}
	before := s.faults
	s.grid = slices.Delete(slices.Clone(s.grid), s.head+1, s.head+2)
	for name, unit := range found {
		if there := s.unit[name]; there != "" && there != unit {
			s.reader.at(row.number, s.at[name], fmt.Sprintf("the unit %s, but the header of the column says %s", unit, there), "keep one of the two")
		}
		s.unit[name] = unit
	}
	return s.faults == before
}

// columnsThere sees that a take-off can be made of the columns.
func (s *sheet) columnsThere(row int) bool {
	before := s.faults
	miss := func(what, fix string) { s.reader.at(row, 1, "the sheet has no column "+what, fix) }
	if s.at["mark"] == 0 && s.at["description"] == 0 {
		miss("`mark` and no `description`", "say in one of them what each row is")
	}
	if s.at["size"] == 0 && s.at["weight"] == 0 && s.at["total weight"] == 0 {
		miss("`size` and no `weight`", "give each part a size and a material, or its weight")
	}
	for _, axis := range []string{"x", "y", "z"} {
		if s.at[axis] == 0 {
			miss("`"+axis+"`", "give the centre of each part: without it the centre of gravity is not known, and nothing can be rigged by it")
		}
	}
	return s.faults == before
}

// text returns what stands in a column of a row.
func (s *sheet) text(row gridRow, name string) string {
	if i := s.at[name]; i > 0 && i <= len(row.cells) {
		return row.cells[i-1]
	}
	return ""
}

// node returns the cell of a column in a row as a value; nil where it is blank.
func (s *sheet) node(row gridRow, name string) *yaml.Node {
	value := s.text(row, name)
	if value == "" {
		return nil
	}
	return text(value, row.number, s.at[name])
}
