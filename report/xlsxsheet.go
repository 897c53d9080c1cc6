package report

import (
	"fmt"
	"strings"

	"plumbhook/lift"
	"plumbhook/units"
)

// lettersAcross is how many letters fit on a line over all columns of the first
// sheet.
const lettersAcross = 135

// summary is the first page: what is lifted, whether it may be, and the figures,
// each taken from the sheet where it is worked out.
func (t tab) summary(s lift.LiftSheet, opt Options, w weightCells, legs legCells, sized slingCells) {
	t.widths(34, 16, 16, 16, 16, 16, 16)
	row := t.headings(s, opt)
	row = t.asWritten(row+1, s, w, legs)
	row = t.figures(row+1, s, opt, w, legs, sized)
	row = t.legRows(row+1, s, legs, sized)
	row = t.list(row, "How it hangs", hangsSo(s.Legs))
	row = t.list(row, "Assumed", s.Assumptions)
	row = t.list(row, "Cautions", s.Cautions)
	row += 2
	t.text("A", row, "Prepared ____________________", "")
	t.text("C", row, "Checked ____________________", "")
	t.text("E", row, "Date ____________________", "")
	t.printed("G", row, 0)
}

// headings are the title block, the verdict and the warnings.
func (t tab) headings(s lift.LiftSheet, opt Options) int {
	t.across(1, "G", "Lift sheet: "+s.Load, "title", 90)
	row := 1
	say := func(what, words string) {
		if words == "" {
			return
		}
		row++
		t.across(row, "G", what+words, "text", lettersAcross)
	}
	if s.Verdict.Acceptable {
		row++
		t.across(row, "G", "Acceptable as described, at the worst over the ranges stated", "bold", lettersAcross)
	} else {
		row++
		t.across(row, "G", notAcceptable, "title", 90)
		row = t.list(row, "", s.Verdict.Reasons)
	}
	say("State: ", s.State)
	say("Drawing: ", s.Drawing)
	say("Datum: ", orElse(s.Datum, "not stated: coordinates count from the origin of the load file"))
	say("Date: ", s.Date)
	say("Input: ", shortHash(s.InputSHA256))
	if opt.Version != "" {
		say("Program: ", "plumbhook "+opt.Version)
	}
	var warnings []string
	for _, one := range s.Warnings {
		text := one.Text
		if one.Fix != "" {
			text += "; fix: " + one.Fix
		}
		warnings = append(warnings, text)
	}
	return t.list(row, "Warnings", warnings)
}

// hangsSo says in words how sure the hung load is.
func hangsSo(h lift.Hanging) []string {
	if !h.Solved || h.Posed == nil {
		return nil
	}
	said := []string{strings.ReplaceAll(standing(h), glue, " "), h.Stability.Text, "governs: leg " + h.Governing + ": " + h.GoverningCase, "basis: " + h.Basis}
	if h.Liquid != nil {
		said = append(said, "free liquid: "+h.Liquid.Text)
	}
	return said
}

// unchanged shows a figure that is 0 while no cell was changed as words.
const unchanged = `"CHANGED";"CHANGED";"as the program wrote them"`

// asWritten tells a reader who changes a cell that what stands as a value does not
// follow: weight, CG and tensions are held against those of the program.
func (t tab) asWritten(row int, s lift.LiftSheet, w weightCells, legs legCells) int {
	off := fmt.Sprintf("ABS(%s/%.9f-1)", w.sizing, s.Weigh.Weight.SizingKg)
	for i, cell := range w.cg {
		off += fmt.Sprintf("+ABS(%s-(%.9f))", cell, s.Weigh.CGM[i])
	}
	for i, cell := range legs.tension {
		off += fmt.Sprintf("+ABS(%s-(%.9f))/%s", cell, s.Legs.Legs[i].TensionKN, legs.force)
	}
	t.text("A", row, "Cells of this workbook", "bold")
	t.formula("B", row, unchanged, "ROUND(%s,6)", off)
	t.try(t.file.MergeCell(t.name, at("B", row), at("C", row)))
	t.text("D", row, "says CHANGED once a cell differs: worst tensions do not follow", "")
	return row
}

// list puts numbered remarks under a title, and returns the last row.
func (t tab) list(row int, title string, remarks []string) int {
	if len(remarks) == 0 {
		return row
	}
	if title != "" {
		row += 2
		t.text("A", row, title, "bold")
	}
	for i, remark := range remarks {
		row++
		t.across(row, "G", fmt.Sprintf("%d. %s", i+1, remark), "text", lettersAcross)
	}
	return row
}

// us are the units beside the metric ones: how many of a metric unit make one, and
// how it is printed.
var us = map[string]struct {
	unit, format string
	makes        float64
}{
	"kg": {"lb", "#,##0.0", float64(units.Pound)},
	"m":  {"ft", asLength, float64(units.Foot)},
}

// figures are those of the load as a whole.
func (t tab) figures(row int, s lift.LiftSheet, opt Options, w weightCells, legs legCells, sized slingCells) int {
	titles := []string{"Figure", "Metric", "Unit"}
	if opt.Show != units.Metric {
		titles = append(titles, "US", "Unit")
	}
	t.heads(row, "ACE", titles...)
	beside := func(unit string) {
		if other, known := us[unit]; known && opt.Show != units.Metric {
			t.formula("D", row, other.format, "%s/%v", at("B", row), other.makes)
			t.text("E", row, other.unit, "")
		}
	}
	line := func(what, unit, format, formula string) {
		if formula == "" {
			return
		}
		row++
		t.text("A", row, what, "")
		t.text("C", row, unit, "")
		t.formula("B", row, format, "%s", formula)
		beside(unit)
	}
	value := func(what, unit, format string, x float64) {
		row++
		t.text("A", row, what, "")
		t.text("C", row, unit, "")
		t.number("B", row, x, format)
		beside(unit)
	}
	line("Weight, best", "kg", asMass, w.best)
	line("Weight, low", "kg", asMass, w.low)
	line("Weight, high", "kg", asMass, w.high)
	line("Planning weight", "kg", asMass, w.planning)
	line("Sizing weight: rigging is sized on it", "kg", asMass, w.sizing)
	for i, axis := range []string{"x", "y", "z"} {
		line("CG "+axis+" from the datum", "m", asLength, w.cg[i])
	}
	if legs.solved {
		for i, axis := range []string{"x", "y", "z"} {
			line("Hook "+axis+" from the datum", "m", asLength, legs.hook[i])
		}
		value("Hook above the top of the load", "m", asLength, s.Legs.HeadroomM)
		value("Hook above the top, at worst", "m", asLength, s.Legs.HeadroomWorstM)
		value("Tilt at the best CG", "°", asAngle, s.Legs.TiltDeg)
		value("Tilt at worst", "°", asAngle, s.Legs.TiltWorstDeg)
	}
	line("Rating that a leg needs, vertical hitch", "kg", asMass, sized.governing)
	line("Heaviest set of slings", "kg", asMass, sized.rigging)
	line("Gross load on the crane's hook", "kg", asMass, sized.onCrane)
	return row
}

// legRows are the figures of each leg.
func (t tab) legRows(row int, s lift.LiftSheet, legs legCells, sized slingCells) int {
	if !legs.solved {
		text := noPose
		if s.Legs.Solved {
			text = "The legs stand on the sheet Legs"
		}
		t.text("A", row+1, text, "bold")
		return row + 1
	}
	row++
	t.heads(row, "A", "Leg to pick", "Length under load, m", "Angle from horizontal, °", "Worst, °", "Tension, kN", "Worst tension, kN", "Rating needed, kg")
	for i, leg := range s.Legs.Legs {
		row++
		name := leg.Pick
		if leg.Slack {
			name += ": SLACK"
		}
		t.text("A", row, name, "text")
		t.formula("B", row, asLength, "%s", legs.length[i])
		t.formula("C", row, asAngle, "%s", legs.angle[i])
		t.number("D", row, leg.WorstFromHorizontalDeg, asAngle)
		t.formula("E", row, asForce, "%s", legs.tension[i])
		t.formula("F", row, asForce, "%s", legs.worst[i])
		if sized.governing != "" {
			t.formula("G", row, asMass, "%s", sized.required[i])
		}
	}
	return row
}
