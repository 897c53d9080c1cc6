package report

import (
	"fmt"
	"io"
	"math"
	"strings"

	"github.com/xuri/excelize/v2"

	"plumbhook/lift"
)

// XLSX writes the lift sheet as a workbook in which a checker can follow the
// figures cell by cell: take-off, CG, legs and slings are formulas, with their
// values beside them. What comes from many poses solved again, the worst of each
// leg, stands as a value. The same sheet gives the same bytes.
//
// An error wraps [lift.ErrProgram] where a formula can't be worked out.
func XLSX(w io.Writer, s lift.LiftSheet, opt Options) error {
	b := &workbook{file: excelize.NewFile(), styles: map[look]int{}, wide: map[string]float64{}, high: map[string]float64{}}
	tabs := map[string]tab{}
	for i, name := range []string{"Sheet", "Take-off", "Legs", "Slings"} {
		if i == 0 {
			b.try(b.file.SetSheetName("Sheet1", name))
		} else {
			_, err := b.file.NewSheet(name)
			b.try(err)
		}
		tabs[name] = tab{b, name}
	}
	off := tabs["Take-off"].takeoff(s)
	legs := tabs["Legs"].legs(s, off)
	sized := tabs["Slings"].slings(s, opt, off, legs)
	tabs["Sheet"].summary(s, opt, off, legs, sized)
	b.papers(s, opt)
	b.properties(s)
	return b.write(w)
}

// properties are those of the file. Its times are fixed, so that the same sheet
// gives the same bytes.
func (w *workbook) properties(s lift.LiftSheet) {
	const fixed = "2000-01-01T00:00:00Z"
	yes := true
	w.try(w.file.SetDocProps(&excelize.DocProperties{Title: "Lift sheet: " + s.Load, Creator: "plumbhook", LastModifiedBy: "plumbhook", Created: fixed, Modified: fixed}))
	w.try(w.file.SetAppProps(&excelize.AppProperties{Application: "plumbhook"}))
	w.try(w.file.SetCalcProps(&excelize.CalcPropsOptions{FullCalcOnLoad: &yes}))
}

// papers sets how the sheets are printed: Letter where the slings are those of the
// US rules, else A4; each on one page across, the first upright.
func (w *workbook) papers(s lift.LiftSheet, opt Options) {
	size := 9 // A4 in the list of ISO/IEC 29500-1, 18.3.1.63
	if s.Slings != nil && s.Slings.Rules == "US" {
		size = 1 // Letter
	}
	across, down, fit := 1, 0, true
	side, edge, band := 0.4, 0.75, 0.35 // inches: 10, 19 and 9 mm
	middle := ""
	if !s.Verdict.Acceptable {
		middle = notAcceptable + ": see the reasons on Sheet"
	}
	program := "plumbhook"
	if opt.Version != "" {
		program += " " + opt.Version
	}
	for i, name := range w.file.GetSheetList() {
		lie := "landscape"
		if i == 0 {
			lie = "portrait"
		}
		w.try(w.file.SetPageLayout(name, &excelize.PageLayoutOptions{Size: &size, Orientation: &lie, FitToWidth: &across, FitToHeight: &down}))
		w.try(w.file.SetSheetProps(name, &excelize.SheetPropsOptions{FitToPage: &fit}))
		w.try(w.file.SetPageMargins(name, &excelize.PageLayoutMarginsOptions{Left: &side, Right: &side, Top: &edge, Bottom: &edge, Header: &band, Footer: &band}))
		w.try(w.file.SetHeaderFooter(name, &excelize.HeaderFooterOptions{
			OddHeader: "&L" + onPaper(s.Load, 60) + "&C" + middle + "&R" + onPaper(s.Date, 30),
			OddFooter: "&L" + onPaper(shortHash(s.InputSHA256), 30) + "&C" + onPaper(program, 60) + "&R" + name + ", page &P of &N",
		}))
	}
}

// onPaper makes words fit for the head or foot of a page, which takes & for the
// start of a code and 255 characters in all: no more than so many letters.
func onPaper(words string, most int) string {
	if letters := []rune(words); len(letters) > most {
		words = string(letters[:most-1]) + "…"
	}
	return strings.ReplaceAll(words, "&", "&&")
}

// printed sets what of a sheet is printed, and which of its top rows stay in
// sight and are printed on each page; 0: none.
func (t tab) printed(right string, last, top int) {
	t.try(t.file.SetDefinedName(&excelize.DefinedName{Name: "_xlnm.Print_Area", Scope: t.name,
		RefersTo: fmt.Sprintf("'%s'!$A$1:%s", t.name, pinned(right, last))}))
	if top == 0 {
		return
	}
	t.try(t.file.SetDefinedName(&excelize.DefinedName{Name: "_xlnm.Print_Titles", Scope: t.name,
		RefersTo: fmt.Sprintf("'%s'!$1:$%d", t.name, top)}))
	t.try(t.file.SetPanes(t.name, &excelize.Panes{Freeze: true, YSplit: top, TopLeftCell: at("A", top+1), ActivePane: "bottomLeft"}))
}

// widths sets the widths of columns, from the first on, in characters.
func (t tab) widths(widths ...float64) {
	for i, width := range widths {
		t.wide[t.name+letter(i)] = width
		t.try(t.file.SetColWidth(t.name, letter(i), letter(i), width))
	}
}

// across puts words over several columns of a row, on as many lines as they need.
func (t tab) across(row int, last, words, kind string, letters float64) {
	t.text("A", row, words, kind)
	t.try(t.file.MergeCell(t.name, at("A", row), at(last, row)))
	t.high[at(t.name, row)] = 0 // what one column alone would have needed
	lines := math.Ceil(float64(1+len([]rune(words))) / letters)
	if kind == "title" {
		lines *= 1.5
	}
	t.lines(row, lines)
}

// begin is the title of a sheet and what its grey cells are.
func (t tab) begin(title string, s lift.LiftSheet) {
	t.text("A", 1, title+": "+s.Load, "title")
	t.text("A", 2, "Cells on grey are worked by formula from the others, which stand as the load file or the program gives them. Cells hold all digits and show them rounded to the nearest. Values do not follow a change of a cell: for another load change the load file.", "")
}
