package takeoff

import (
	"bytes"
	"encoding/csv"
	"errors"
	"fmt"
	"io"
	"slices"
	"strings"
	"unicode/utf8"

	"github.com/xuri/excelize/v2"
)

// Limits on a take-off sheet, far above any.
const (
	mostSheetColumns = 64
	mostCellText     = 2000 // characters
	longestRow       = mostSheetColumns * mostCellText * utf8.UTFMax
)

// grid is the cells of a sheet, as text. Rows are numbered as a spreadsheet
// numbers them; blank ones may be left out.
type grid []gridRow

type gridRow struct {
	number int
	cells  []string
}

// blank tells whether nothing stands in a row.
func (g gridRow) blank() bool {
	return !slices.ContainsFunc(g.cells, func(s string) bool { return s != "" })
}

// cell names a cell as a spreadsheet does, such as B7.
func cell(column, row int) string {
	name, err := excelize.CoordinatesToCellName(max(column, 1), max(row, 1))
	if err != nil {
		return fmt.Sprintf("row %d", row)
	}
	return name
}

// csvGrid cuts a text into cells. The separator is the one of comma, semicolon
// and tab by which most columns of a header are found.
func (r *reader) csvGrid(data []byte, known []column) grid {
	data = bytes.TrimPrefix(data, []byte("\uFEFF"))
	if !r.checkText(data) {
		return nil
	}
	r.lines = splitLines(string(data))
	for i, line := range r.lines {
		if len(line) > longestRow {
			r.at(i+1, 1, fmt.Sprintf("the line has more than %d bytes, more than %d columns can hold", longestRow, mostSheetColumns), "take away what is not part of the take-off")
			return nil
		}
	}
	text := strings.Join(r.lines, "\n")
	var best grid
	var fault *csv.ParseError
	most := -1
	for _, separator := range []rune{',', ';', '\t'} {
		g, err := cutCSV(text, separator, r.source.opt.mostParts())
		if err != nil {
			if fault == nil {
				errors.As(err, &fault)
			}
			continue
		}
		if _, found := g.header(known); found > most {
			best, most = g, found
		}
	}
	if most <= 0 && fault != nil { // what can't be cut may be what was meant
		r.at(fault.Line, fault.Column, "not readable as CSV: "+fault.Err.Error(),
			"put a cell that holds a quote in quotes, and double each quote within it: \"12\"\" plate\"")
		return nil
	}
	return r.inBounds(best)
}

// cutCSV cuts a text into cells at one separator, and stops after the row that is
// one too many.
func cutCSV(text string, separator rune, most int) (grid, error) {
	in := csv.NewReader(strings.NewReader(text))
	in.Comma, in.FieldsPerRecord = separator, -1
	g := grid{}
	row, line, read := 0, 1, 0 // the last row; the line after it, and where that begins
	for {
		record, err := in.Read()
		if errors.Is(err, io.EOF) {
			return g, nil
		}
		if err != nil {
			return nil, err
		}
		// A blank line is a row too, which the library skips. A cell of
		// several lines is one row.
		first, _ := in.FieldPos(0)
		row += 1 + first - line
		end := int(in.InputOffset())
		line += strings.Count(text[read:end], "\n")
		read = end
		g = append(g, trimmed(row, record))
		if g.tooLarge(most) {
			return g, nil // reported as such
		}
	}
}

// trimmed takes the blanks around each cell, and the blank cells at the end.
func trimmed(number int, cells []string) gridRow {
	out := make([]string, len(cells))
	last := 0
	for i, c := range cells {
		if out[i] = oneLine(c); out[i] != "" {
			last = i + 1
		}
	}
	return gridRow{number, out[:last]}
}

// tooLarge tells whether the last row is out of bounds.
func (g grid) tooLarge(most int) bool {
	return len(g) > most || len(g) > 0 && len(g[len(g)-1].cells) > mostSheetColumns
}

// inBounds refuses a sheet that is larger than any take-off.
func (r *reader) inBounds(g grid) grid {
	r.cells = true
	most := r.source.opt.mostParts()
	for i, row := range g {
		switch {
		case i >= most:
			r.at(row.number, 1, fmt.Sprintf("the sheet has more than %d rows", most), "split the load into several sheets, "+raiseParts)
			return nil
		case len(row.cells) > mostSheetColumns:
			r.at(row.number, mostSheetColumns+1, fmt.Sprintf("the sheet has more than %d columns", mostSheetColumns), "take away what is not part of the take-off")
			return nil
		}
		for j, c := range row.cells {
			if len([]rune(c)) > mostCellText {
				r.at(row.number, j+1, fmt.Sprintf("the cell has more than %d characters", mostCellText), "shorten it")
				return nil
			}
		}
	}
	return g
}

// noFormulas refuses cells that are formulas, or the errors of formulas. In an
// .xlsx file a formula has a value beside it, which is read; in CSV it has
// none, and a spreadsheet that opens the file would run it. What is returned
// is without the rows that hold them.
func (r *reader) noFormulas(g grid) grid {
	faults := []string{"#REF!", "#N/A", "#VALUE!", "#DIV/0!", "#NAME?", "#NUM!", "#NULL!", "#SPILL!", "#CALC!"}
	kept := grid{}
	for _, row := range g {
		before := r.faults
		for i, c := range row.cells {
			switch {
			case strings.HasPrefix(c, "="):
				r.at(row.number, i+1, fmt.Sprintf("the cell begins with =: %q is a formula, not a value", short(c)), "write the value that it comes to")
			case slices.Contains(faults, c):
				r.at(row.number, i+1, fmt.Sprintf("the cell holds %s, an error of the spreadsheet", c), "mend the formula there and save again")
			}
		}
		if r.faults == before {
			kept = append(kept, row)
		}
	}
	return kept
}

// xlsxGrid reads the cells of a workbook: values as they are stored, not as
// they are shown, so that no digit is lost to a number format; dates and per
// cents, which are stored as other numbers, as they are shown.
func (r *reader) xlsxGrid(data []byte, tab string) (g grid) {
	const fix = xlsxFix
	defer func() { // a user's file must never end the program
		if e := recover(); e != nil {
			r.bad0(fmt.Sprintf("not readable as .xlsx: the reader gave up: %v", e), fix)
			g = nil
		}
	}()
	if f := r.source.opt.unpackable(data); f != nil {
		r.bad0("not readable as .xlsx: "+f.text, f.fix)
		return nil
	}
	most := r.source.opt.unpacked()
	f, err := excelize.OpenReader(bytes.NewReader(data), excelize.Options{RawCellValue: true, UnzipSizeLimit: most, UnzipXMLSizeLimit: most})
	if err != nil {
		r.bad0("not readable as .xlsx: "+err.Error(), fix)
		return nil
	}
	defer f.Close()
	name, ok := r.oneSheet(f, tab)
	if !ok {
		return nil
	}
	rows, err := f.Rows(name)
	if err != nil {
		r.bad0("not readable as .xlsx: "+err.Error(), fix)
		return nil
	}
	defer rows.Close()
	g = grid{}
	for number := 1; rows.Next(); number++ {
		cells, err := rows.Columns()
		if err != nil {
			r.bad0("not readable as .xlsx: "+err.Error(), fix)
			return nil
		}
		if row := trimmed(number, cells); len(row.cells) > 0 {
			g = append(g, row)
		}
		if g.tooLarge(r.source.opt.mostParts()) {
			break // reported as such
		}
	}
	if err := rows.Error(); err != nil {
		r.bad0("not readable as .xlsx: "+err.Error(), fix)
		return nil
	}
	if g = r.inBounds(g); g == nil {
		return nil
	}
	if err := asShown(f, name, g); err != nil {
		r.bad0("not readable as .xlsx: "+err.Error(), fix)
		return nil
	}
	return g
}

// oneSheet finds the sheet of a workbook that is to be read: the only one, or
// the one that is called so.
func (r *reader) oneSheet(f *excelize.File, tab string) (string, bool) {
	names := f.GetSheetList()
	for _, name := range names {
		if len(names) == 1 || plainName(name) == plainName(tab) {
			return name, true
		}
	}
	r.bad0(fmt.Sprintf("the workbook has %d sheets: %s", len(names), short(strings.Join(names, ", "))), "call the one to be read `"+tab+"`")
	return "", false
}
