package report

import (
	"fmt"
	"io"
	"strings"

	"github.com/xuri/excelize/v2"

	"plumbhook/lift"
)

// BidXLSX writes a bid as a workbook: prices and sums are formulas, so that another
// price or another number of pieces of gear gives another sum at once. What comes
// from take-offs and statics stands as values, and so do days and what hire comes to. The same bid gives the same bytes.
//
// An error wraps [lift.ErrProgram] where a formula can't be worked out.
func BidXLSX(w io.Writer, b lift.BidResult, opt Options) error {
	book := &workbook{file: excelize.NewFile(), styles: map[look]int{}, wide: map[string]float64{}, high: map[string]float64{}}
	tabs := map[string]tab{}
	for i, name := range []string{"Bid", "Pieces", "Gear", "Notes"} {
		if i == 0 {
			book.try(book.file.SetSheetName("Sheet1", name))
		} else {
			_, err := book.file.NewSheet(name)
			book.try(err)
		}
		tabs[name] = tab{book, name}
	}
	gear := tabs["Gear"].bidGear(b)
	tabs["Bid"].bidSums(b, tabs["Gear"], gear, opt)
	tabs["Pieces"].bidPieces(b, tabs["Bid"])
	tabs["Notes"].bidNotes(b)
	head := lift.LiftSheet{Header: b.Header}
	book.papers(head, opt)
	book.properties(head)
	return book.write(w)
}

// capacityRow is where the sheet Bid has the capacity of the crane.
const capacityRow = 18

// bidSums is the first sheet.
func (t tab) bidSums(b lift.BidResult, gear tab, lastGear int, opt Options) {
	t.widths(34, 16, 60)
	t.text("A", 1, "Bid", "title")
	t.across(2, "C", "Cells on grey are worked by formula: change the price or number of a kind of gear, the crane's price or the crew, and the sums follow. Which gear serves, days, hire, weights and ratings do not: for those make the bid again.", "text", 100)
	s := b.Totals
	row := 4
	put := func(name string, value float64, format, note string) {
		t.text("A", row, name, "")
		t.number("B", row, value, format)
		t.text("C", row, note, "text")
		row++
	}
	put("Lifts", float64(s.Lifts), asCount, "")
	put("Hours of the crane", s.Hours, "0.0#", "")
	put("Days", float64(s.Days), asCount, "")
	put("Crew", float64(s.Crew), asCount, "beside the crane's own")
	t.text("A", row, "Crew days", "")
	t.formula("B", row, asCount, "B6*B7")
	row += 2
	if s.Priced {
		t.bidMoney(b, gear, lastGear, row)
	}
	if c := b.Crane; c != nil {
		t.text("A", capacityRow, "Crane class: capacity, kg", "")
		t.number("B", capacityRow, c.CapacityKg, asMass)
		t.text("C", capacityRow, c.Size+", at the radius of the lifts as the rates state", "text")
	}
	if opt.Version != "" {
		t.text("A", capacityRow+2, "plumbhook "+opt.Version, "")
	}
	if g := b.Governing; g != nil {
		t.text("A", capacityRow+3, "Governs", "bold")
		t.text("B", capacityRow+3, g.Mark, "")
		t.text("C", capacityRow+3, g.Why, "text")
	}
}

// bidMoney are the prices, from a row on.
func (t tab) bidMoney(b lift.BidResult, gear tab, lastGear, row int) {
	s := b.Totals
	const asMoney = "#,##0.00"
	t.text("A", row, "Gear", "")
	if lastGear > 0 {
		t.formula("B", row, asMoney, "SUM('%s'!G5:G%d)", gear.name, lastGear)
	} else {
		t.number("B", row, 0, asMoney)
	}
	t.text("C", row, s.Currency, "")
	t.text("A", row+5, "One rigger for the job", "")
	t.number("B", row+5, s.RiggerEach, asMoney)
	t.text("A", row+1, "Crane", "")
	t.number("B", row+1, s.Crane, asMoney)
	t.text("A", row+2, "Riggers", "")
	t.formula("B", row+2, asMoney, "B7*B%d", row+5)
	t.text("A", row+3, "Total", "bold")
	t.formula("B", row+3, asMoney, "SUM(B%d:B%d)", row, row+2)
	if !s.Complete {
		t.text("C", row+3, "WITHOUT what has no rate or is not in the figures: see Notes", "bold")
	}
	t.text("A", row+4, "Total at best weights", "")
	t.number("B", row+4, s.AtBest, asMoney)
	t.text("C", row+4, "if every load weighed what its take-off says at best", "text")
}

// bidGear is the matched set; it returns the last row, 0 for none.
func (t tab) bidGear(b lift.BidResult) int {
	t.widths(12, 40, 14, 12, 9, 13, 14, 13, 13, 11, 50)
	t.text("A", 1, "Gear for all lifts", "title")
	t.heads(4, "ABCDK", "Kind", "What", "Rated, kg", "Way", "Number", "Each", "Price", "To buy, each", "Hire, each", "Buy from day", "For")
	row := 4
	for _, g := range b.Gear {
		row++
		t.text("A", row, g.Kind, "")
		t.text("B", row, strings.Join([]string{strings.ReplaceAll(g.Family, "_", " "), g.Material, g.Size}, " "), "text")
		t.number("C", row, g.RatedKg, asMass)
		t.text("D", row, g.Way, "")
		t.number("E", row, float64(g.Count), asCount)
		t.number("F", row, g.Unit, "#,##0.00")
		t.formula("G", row, "#,##0.00", "E%d*F%d", row, row)
		for i, price := range []*float64{g.Buy, g.Hire} {
			if price != nil {
				t.number(letter(7+i), row, *price, "#,##0.00")
			}
		}
		if g.BreakEvenDays != nil {
			t.number("J", row, float64(*g.BreakEvenDays), asCount)
		}
		t.text("K", row, strings.Join(g.Serves, ", "), "text")
	}
	if row == 4 {
		return 0
	}
	return row
}

// bidPieces is one row a piece.
func (t tab) bidPieces(b lift.BidResult, sums tab) {
	t.widths(16, 9, 13, 13, 13, 18, 14, 44, 13, 11, 26, 13, 9, 60)
	t.text("A", 1, "Pieces", "title")
	t.heads(4, "AFHKN", "Mark", "Number", "Weight best, kg", "low, kg", "high, kg", "Governing leg", "Rating needed, kg", "Slings", "Rated, kg", "Used", "Lengths, m", "On the hook, kg", "Of class", "To be looked at")
	for i, r := range b.Pieces {
		row := 5 + i
		t.text("A", row, r.Mark, "")
		t.number("B", row, float64(r.Quantity), asCount)
		if r.Error != "" {
			t.text("N", row, "FAULT: "+r.Error, "text")
			continue
		}
		t.number("C", row, r.Weight.BestKg, asMass)
		t.number("D", row, r.Weight.LowKg, asMass)
		t.number("E", row, r.Weight.HighKg, asMass)
		t.number("G", row, r.RequiredKg, asMass)
		t.number("L", row, r.GrossKg, asMass)
		t.text("F", row, r.Leg, "")
		if s := r.Sling; s != nil {
			t.text("H", row, strings.ReplaceAll(s.Family, "_", " ")+", "+s.Material+" "+s.Size, "text")
			t.number("I", row, s.RatedKg, asMass)
			t.number("J", row, s.Utilisation, asPart)
		}
		t.text("K", row, lengthsOf(r), "text")
		if b.Crane != nil {
			t.formula("M", row, asPart, "L%d/%s", row, sums.of("B", capacityRow))
		}
		if !r.Acceptable {
			t.text("N", row, "NOT ACCEPTABLE: "+strings.Join(r.Reasons, "; "), "text")
		} else if r.Rough {
			t.text("N", row, "rough: no take-off", "text")
		}
	}
}

func lengthsOf(r lift.BidRow) string {
	var words []string
	for _, l := range r.LengthsM {
		words = append(words, fmt.Sprintf("%.3f", l))
	}
	return strings.Join(words, "; ")
}

// bidNotes is what has no rate, what was assumed and what is left out.
func (t tab) bidNotes(b lift.BidResult) {
	t.widths(110)
	row := 1
	list := func(title string, lines []string) {
		if len(lines) == 0 {
			return
		}
		t.text("A", row, title, "bold")
		for _, line := range lines {
			row++
			t.text("A", row, line, "text")
		}
		row += 2
	}
	var missing []string
	for _, m := range b.Missing {
		missing = append(missing, m.Kind+": "+m.What+forWhom(m.For))
	}
	list("No rate for", missing)
	list("Not acceptable", b.Verdict.Reasons)
	list("Assumed", b.Assumptions)
	list("Not in it", b.Exclusions)
}

// forWhom names the pieces that something is for; empty: none.
func forWhom(marks []string) string {
	if len(marks) == 0 {
		return ""
	}
	return ", for " + few(marks, 8)
}
