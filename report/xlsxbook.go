package report

import (
	"archive/zip"
	"bytes"
	"fmt"
	"io"
	"math"
	"strconv"
	"strings"

	"github.com/xuri/excelize/v2"

	"plumbhook/lift"
)

// workbook is a spreadsheet in the making. A formula is worked out where it is
// put, so that a viewer that can't recalculate shows its value; it may therefore
// refer only to cells that hold something already.
type workbook struct {
	file   *excelize.File
	styles map[look]int
	live   []liveCell
	wide   map[string]float64 // columns by name, in letters
	high   map[string]float64 // rows by name, in lines of text
	err    error              // the first; after it nothing more is done
}

// liveCell is a cell whose value follows from a formula.
type liveCell struct{ sheet, cell, formula string }

// tab is one sheet of the workbook.
type tab struct {
	*workbook
	name string
}

// look is how a cell looks.
type look struct {
	format string // of numbers; empty: text
	kind   string // title, head, bold, text (over as many lines as it needs) or ""
	worked bool   // by formula: on grey
	beside bool   // words beside a figure: a little off it
	right  bool   // over figures
}

// Formats of numbers, by what is in the cell.
const (
	asMass   = "#,##0.00"
	asLength = "0.0000"
	asVolume = "0.000000"
	asForce  = "#,##0.000"
	asAngle  = "0.00"
	asRatio  = "0.00000"
	asFactor = "0.0###"
	asLeft   = "0.0E+00"
	asCount  = "0"
	asPart   = "0.0%"
	asMoment = "#,##0.00"
)

// at is the address of a cell.
func at(column string, row int) string { return column + strconv.Itoa(row) }

// fixed is an address that stays when a formula is copied.
func pinned(column string, row int) string { return "$" + column + "$" + strconv.Itoa(row) }

// of is a cell of this sheet as the other sheets name it.
func (t tab) of(column string, row int) string { return "'" + t.name + "'!" + pinned(column, row) }

func (w *workbook) try(err error) {
	if w.err == nil {
		w.err = err
	}
}

// look sets how a cell looks.
func (t tab) look(cell string, l look) {
	id, known := t.styles[l]
	if !known {
		var err error
		id, err = t.file.NewStyle(l.style())
		t.try(err)
		t.styles[l] = id
	}
	t.try(t.file.SetCellStyle(t.name, cell, cell, id))
}

func (l look) style() *excelize.Style {
	s := &excelize.Style{Font: &excelize.Font{Size: 10}, Alignment: &excelize.Alignment{Vertical: "top"}}
	if l.format != "" {
		s.CustomNumFmt = &l.format
	}
	if l.worked {
		s.Fill = excelize.Fill{Type: "pattern", Pattern: 1, Color: []string{"E8E8E8"}}
	}
	if l.beside {
		s.Alignment.Horizontal, s.Alignment.Indent = "left", 1
	}
	if l.right {
		s.Alignment.Horizontal = "right"
	}
	switch l.kind {
	case "title":
		s.Font.Size, s.Font.Bold = 14, true
	case "bold":
		s.Font.Bold = true
	case "text":
		s.Alignment.WrapText = true
	case "head":
		s.Font.Bold, s.Alignment.WrapText, s.Alignment.Vertical = true, true, "bottom"
		s.Border = []excelize.Border{{Type: "bottom", Color: "000000", Style: 2}}
	}
	return s
}

// text puts words into a cell: as text whatever they begin with, so that a name
// such as =1+1 is no formula.
func (t tab) text(column string, row int, words, kind string) {
	t.words(column, row, words, look{kind: kind, beside: column != "A"})
}

func (t tab) words(column string, row int, words string, l look) {
	if words == "" {
		return
	}
	cell := at(column, row)
	t.try(t.file.SetCellStr(t.name, cell, words))
	t.look(cell, l)
	switch wide := t.wide[t.name+column]; {
	case l.kind == "title":
		t.lines(row, 1.5)
	case wide > 0 && (l.kind == "text" || l.kind == "head"):
		t.lines(row, math.Ceil(float64(1+len([]rune(words)))/(wide*roomy)))
	}
}

// roomy is how much of a column's letters words fill before they break.
const roomy = 0.95

// lines makes a row high enough for so many lines of text.
func (t tab) lines(row int, lines float64) {
	const lineHigh = 13.5 // points
	if key := at(t.name, row); lines > t.high[key] {
		t.high[key] = lines
		t.try(t.file.SetRowHeight(t.name, row, min(lineHigh*lines, 400)))
	}
}

// heads puts the titles of columns into a row, from the first column on; words
// are the columns that hold words, the others hold figures.
func (t tab) heads(row int, words string, titles ...string) {
	for i, title := range titles {
		holdsWords := strings.Contains(words, letter(i))
		t.words(letter(i), row, title, look{kind: "head", right: !holdsWords, beside: holdsWords && i > 0})
	}
}

// letter is the name of a column, from 0.
func letter(i int) string { return string(rune('A' + i)) }

// number puts a figure of the result into a cell.
func (t tab) number(column string, row int, value float64, format string) {
	if math.IsNaN(value) || math.IsInf(value, 0) {
		t.try(fmt.Errorf("report: %s of the spreadsheet is no figure: %w", t.of(column, row), lift.ErrProgram))
		return
	}
	cell := at(column, row)
	t.try(t.file.SetCellFloat(t.name, cell, value, -1, 64))
	t.look(cell, look{format: format})
}

// formula puts a formula and its value into a cell, and returns the value.
func (t tab) formula(column string, row int, format, formula string, args ...any) float64 {
	if t.err != nil {
		return 0
	}
	cell, formula := at(column, row), fmt.Sprintf(formula, args...)
	t.try(t.file.SetCellFormula(t.name, cell, formula))
	text, err := t.file.CalcCellValue(t.name, cell, excelize.Options{RawCellValue: true})
	value, bad := strconv.ParseFloat(text, 64)
	if err != nil || bad != nil {
		t.try(fmt.Errorf("report: %s of the spreadsheet, %s, comes to %q: %w", t.of(column, row), formula, text, lift.ErrProgram))
		return 0
	}
	t.try(t.file.SetCellFloat(t.name, cell, value, -1, 64))
	t.look(cell, look{format: format, worked: true})
	t.live = append(t.live, liveCell{t.name, cell, formula})
	return value
}

// write puts the formulas in beside their values and writes the file.
func (w *workbook) write(to io.Writer) error {
	for _, c := range w.live {
		w.try(w.file.SetCellFormula(c.sheet, c.cell, c.formula))
	}
	if w.err != nil {
		return w.err
	}
	w.file.SetZipWriter(func(to io.Writer) excelize.ZipWriter { return numbersKept{zip.NewWriter(to)} })
	return w.file.Write(to)
}

// numbersKept is a zip file of a workbook in which the values of formulas are
// numbers: the library marks each cell with a formula as text.
type numbersKept struct{ *zip.Writer }

func (z numbersKept) Create(name string) (io.Writer, error) {
	file, err := z.Writer.Create(name)
	if err == nil && strings.HasPrefix(name, "xl/worksheets/") {
		return numberWriter{file}, nil
	}
	return file, err
}

// numberWriter is handed a whole sheet at once. Words of the load stand in another
// file of the workbook, so that none can look like what is replaced.
type numberWriter struct{ file io.Writer }

func (n numberWriter) Write(sheet []byte) (int, error) {
	_, err := n.file.Write(bytes.ReplaceAll(sheet, []byte(` t="str"><f>`), []byte(`><f>`)))
	return len(sheet), err
}
