package report

import "plumbhook/lift"

// weightCells are where the other sheets find the weight and the CG.
type weightCells struct {
	best, low, high, planning, sizing string
	cg                                [3]string
}

// firstPart is the row of the first part.
const firstPart = 4

// takeoff lists the parts and sums them.
func (t tab) takeoff(s lift.LiftSheet) weightCells {
	t.widths(4, 20, 26, 7, 10, 9, 11, 7, 7, 11, 11, 9, 9, 9, 11, 11, 11, 40)
	t.begin("Take-off", s)
	t.heads(firstPart-1, "BCR", "No", "Part", "As written", "Count", "Volume of all, m³", "Density, kg/m³", "Mass of all, kg",
		"Low by", "High by", "Low, kg", "High, kg", "CG x, m", "CG y, m", "CG z, m", "Mass × x, kg·m", "Mass × y, kg·m", "Mass × z, kg·m", "Known from")
	row := firstPart
	for i, p := range s.Weigh.Parts {
		t.number("A", row, float64(i+1), asCount)
		t.part(row, p)
		row++
	}
	for _, a := range s.Weigh.Allowances {
		t.text("B", row, "allowance: "+a.Name, "text")
		t.text("C", row, "of "+a.Of+", "+a.Written, "text")
		t.number("G", row, a.BestKg, asMass)
		t.number("J", row, a.LowKg, asMass)
		t.number("K", row, a.HighKg, asMass)
		t.place(row, a.CGM)
		t.text("R", row, a.Basis, "text")
		row++
	}
	t.text("B", row, "Sum", "bold")
	for _, name := range []string{"E", "G", "J", "K", "O", "P", "Q"} {
		format := asMass
		if name == "E" {
			format = asVolume
		}
		t.formula(name, row, format, "SUM(%s:%s)", at(name, firstPart), at(name, row-1))
	}
	cells := t.weights(row, s.Weigh)
	t.printed("R", row+9, firstPart-1)
	return cells
}

// part is one line of the take-off.
func (t tab) part(row int, p lift.Part) {
	t.text("B", row, p.Name, "text")
	t.text("C", row, p.Kind+" "+p.Written, "text")
	t.number("D", row, float64(p.Count), asCount)
	if p.Density > 0 {
		t.number("E", row, p.VolumeM3, asVolume)
		t.number("F", row, p.Density, asMass)
		t.formula("G", row, asMass, "%s*%s", at("E", row), at("F", row))
	} else {
		t.number("G", row, p.MassKg, asMass)
	}
	t.number("H", row, p.LowBy, asPart)
	t.number("I", row, p.HighBy, asPart)
	t.formula("J", row, asMass, "%s*(1+%s)", at("G", row), at("H", row))
	t.formula("K", row, asMass, "%s*(1+%s)", at("G", row), at("I", row))
	t.place(row, p.CGM)
	t.text("R", row, p.Basis, "text")
}

// place puts a CG into a row, and its products with the mass.
func (t tab) place(row int, cg [3]float64) {
	for axis, x := range cg {
		t.number(letter(axis+11), row, x, asLength)
		t.formula(letter(axis+14), row, asMoment, "%s*%s", at("G", row), at(letter(axis+11), row))
	}
}

// weights works out CG and weights from the sums of a row.
func (t tab) weights(sum int, w lift.Weight) weightCells {
	var cells weightCells
	row := sum + 1
	t.text("B", row, "CG: sum of mass × place, over sum of mass", "bold")
	for axis := range 3 {
		name := letter(axis + 11)
		t.formula(name, row, asLength, "%s/%s", at(letter(axis+14), sum), at("G", sum))
		cells.cg[axis] = t.of(name, row)
	}
	row++
	line := func(what, note, formula string, args ...any) string {
		row++
		t.text("B", row, what, "bold")
		t.text("H", row, note, "")
		t.formula("G", row, asMass, formula, args...)
		return at("G", row)
	}
	stated := func(what, format string, value float64) string {
		row++
		t.text("B", row, what, "bold")
		t.number("G", row, value, format)
		return at("G", row)
	}
	best := line("Best, kg", "", "%s", at("G", sum))
	low := line("Low, kg", "every part off the same way", "%s", at("J", sum))
	high := line("High, kg", "", "%s", at("K", sum))
	factor := stated("Planning factor", asFactor, w.Weight.Factor)
	planning := line("Planning, kg", w.Weight.Rule, "%s*%s", best, factor)
	greatest := planning + "," + high
	if w.Weight.SizingKg > max(w.Weight.PlanningKg, w.Weight.HighKg)*(1+noise) {
		greatest += "," + stated("By the weighing at most, kg", asMass, w.Weight.SizingKg)
	}
	sizing := line("Sizing, kg", "the greatest of these: rigging is sized on it", "MAX(%s)", greatest)
	here := "'" + t.name + "'!"
	cells.best, cells.low, cells.high, cells.planning, cells.sizing = here+best, here+low, here+high, here+planning, here+sizing
	return cells
}
