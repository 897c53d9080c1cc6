package report

import (
	"fmt"

	"plumbhook/lift"
)

// legCells are where the other sheets find what the legs carry.
type legCells struct {
	solved         bool
	gravity, force string
	hook           [3]string
	length, angle  []string
	tension, worst []string
}

// legTable is where the rows of the legs are, as they are worked out.
type legTable struct {
	tab
	h      lift.Hanging
	first  int       // row of the first leg in the table of lines
	pulls  int       // row of the first leg in the table of tensions
	taut   []int     // numbers of the legs that pull
	force  string    // cell of the planning weight as a force, kN
	plumb  [3]string // cells of the direction up
	matrix int       // row of the matrix
}

// legs works out lines, angles and tensions of the hung legs.
func (t tab) legs(s lift.LiftSheet, w weightCells) legCells {
	t.widths(24, 12, 12, 12, 12, 12, 12, 12, 12, 12, 12, 12, 12, 12, 12, 12)
	t.begin("Legs", s)
	if !s.Legs.Solved {
		t.text("A", 4, noPose, "bold")
		t.printed("P", 6, 0)
		return legCells{}
	}
	if s.Legs.Posed == nil || len(s.Legs.Bars) > 0 {
		t.legValues(4, s.Legs)
		return legCells{}
	}
	l := &legTable{tab: t, h: s.Legs}
	cells := legCells{solved: true, gravity: t.of("B", 4), force: t.of("B", 6)}
	l.given(s, w, &cells)
	l.lines(&cells)
	l.tensions(&cells)
	last := l.atWorst(&cells)
	t.printed("P", last, 0)
	return cells
}

// legValues lists legs of a load under bars or on two hooks as the program found
// them: many bodies, or many attitudes, are no sum that cells could follow.
func (t tab) legValues(row int, h lift.Hanging) {
	t.text("A", row, "Values of the program: of a load under bars, or on two hooks, the working is not written out in cells", "bold")
	row += 2
	t.heads(row, "A", "Leg to pick", "Length, m", "Angle from horizontal, °", "Angle from vertical, °", "Flattest at worst, °", "Tension, kN", "Worst tension, kN")
	put := func(name string, length, horizontal, vertical, flattest, now, worst float64) {
		row++
		t.text("A", row, name, "text")
		t.number("B", row, length, asLength)
		t.number("C", row, horizontal, asAngle)
		t.number("D", row, vertical, asAngle)
		t.number("E", row, flattest, asAngle)
		t.number("F", row, now, asForce)
		t.number("G", row, worst, asForce)
	}
	for _, l := range h.Legs {
		put(l.Pick, l.LengthM, l.FromHorizontalDeg, l.FromVerticalDeg, l.WorstFromHorizontalDeg, l.TensionKN, l.WorstTensionKN)
	}
	if h.Posed != nil {
		for _, l := range h.UpperLegs {
			put(l.Name, l.LengthM, l.FromHorizontalDeg, l.FromVerticalDeg, l.WorstFromHorizontalDeg, l.TensionKN, l.WorstTensionKN)
		}
	}
	t.printed("P", row, 0)
}

// given are weight, hook and CG, and the direction up between them.
func (l *legTable) given(s lift.LiftSheet, w weightCells, cells *legCells) {
	l.text("A", 4, "Gravity, m/s²", "bold")
	l.number("B", 4, 9.80665, asRatio)
	l.text("C", 4, "standard gravity, 3rd CGPM, 1901", "")
	l.text("A", 5, "Planning weight, kg", "bold")
	l.formula("B", 5, asMass, "%s", w.planning)
	l.text("A", 6, "as a force W, kN", "bold")
	l.formula("B", 6, asForce, "B5*B4/1000")
	l.force = "$B$6"
	l.heads(8, "A", "", "x, m", "y, m", "z, m", "Length, m")
	l.text("A", 9, "Hook", "bold")
	l.text("A", 10, "CG", "bold")
	l.text("A", 11, "From CG to hook", "bold")
	l.text("A", 12, "Up d: that over its length", "bold")
	own := nearly(l.h.StaticsCGM, s.Weigh.CGM)
	if !own {
		l.text("F", 10, "as the statics see it: free liquid counts at its metacentre, and a round body that friction holds in its bights under their line", "")
	}
	for axis := range 3 {
		name := letter(axis + 1)
		l.number(name, 9, l.h.HookM[axis], asLength)
		cells.hook[axis] = l.of(name, 9)
		if own {
			l.formula(name, 10, asLength, "%s", w.cg[axis])
		} else {
			l.number(name, 10, l.h.StaticsCGM[axis], asLength)
		}
		l.formula(name, 11, asLength, "%s-%s", at(name, 9), at(name, 10))
	}
	l.formula("E", 11, asLength, "SQRT(B11^2+C11^2+D11^2)")
	for axis := range 3 {
		name := letter(axis + 1)
		l.formula(name, 12, asRatio, "%s/$E$11", at(name, 11))
		l.plumb[axis] = pinned(name, 12)
	}
	l.text("A", 13, l.h.Lengths, "")
}

// nearly says that two places are the same but for the last digits.
func nearly(a, b [3]float64) bool {
	for i := range a {
		if d := a[i] - b[i]; d > noise || d < -noise {
			return false
		}
	}
	return true
}

// lines are the legs as they stand: from pick to hook.
func (l *legTable) lines(cells *legCells) {
	const top = 15
	stated := "Length as stated, m"
	if l.h.Stretch != nil {
		stated = "Length without load, m"
	}
	l.heads(top, "A", "Leg to pick", "Pick x, m", "y, m", "z, m", "To hook x, m", "y, m", "z, m", "Length, m", "Unit vector u x", "y", "z",
		"Rise, m", "Level run, m", "Angle from horizontal, °", "Angle from vertical, °", stated)
	l.first = top + 1
	for i, leg := range l.h.Legs {
		row := l.first + i
		l.text("A", row, leg.Pick, "text")
		for axis := range 3 {
			l.number(letter(axis+1), row, leg.AtM[axis], asLength)
			l.formula(letter(axis+4), row, asLength, "%s-%s", pinned(letter(axis+1), 9), at(letter(axis+1), row))
		}
		l.formula("H", row, asLength, "SQRT(E%[1]d^2+F%[1]d^2+G%[1]d^2)", row)
		for axis := range 3 {
			l.formula(letter(axis+8), row, asRatio, "%s/%s", at(letter(axis+4), row), at("H", row))
		}
		x, y, z := l.plumb[0], l.plumb[1], l.plumb[2]
		l.formula("L", row, asLength, "E%[1]d*%[2]s+F%[1]d*%[3]s+G%[1]d*%[4]s", row, x, y, z)
		l.formula("M", row, asLength, "SQRT((F%[1]d*%[4]s-G%[1]d*%[3]s)^2+(G%[1]d*%[2]s-E%[1]d*%[4]s)^2+(E%[1]d*%[3]s-F%[1]d*%[2]s)^2)", row, x, y, z)
		l.formula("N", row, asAngle, "DEGREES(ATAN2(M%[1]d,L%[1]d))", row)
		l.formula("O", row, asAngle, "90-N%d", row)
		l.number("P", row, leg.LengthM, asLength)
		cells.length, cells.angle = append(cells.length, l.of("H", row)), append(cells.angle, l.of("N", row))
		if !leg.Slack {
			l.taut = append(l.taut, i)
		}
	}
}

// dot is the product of two directions, u of a leg and up, as a formula.
func (l *legTable) dot(leg int) string {
	row := l.first + leg
	return fmt.Sprintf("(I%[1]d*%[2]s+J%[1]d*%[3]s+K%[1]d*%[4]s)", row, l.plumb[0], l.plumb[1], l.plumb[2])
}

// tensions work out what each leg carries, and hold it against the weight.
func (l *legTable) tensions(cells *legCells) {
	top := l.first + len(l.h.Legs) + 4
	l.text("A", top-3, "Tensions at the planning weight and the best CG", "title")
	l.heads(top, "A", "Leg to pick", "Pulls: 1, slack: 0", "k: pulls ÷ length, 1/m", "Tension T, kN", "Carries upward, kN", "Pulls level, kN", "T·u x, kN", "T·u y, kN", "T·u z, kN")
	l.pulls = top + 1
	for i, leg := range l.h.Legs {
		row := l.pulls + i
		pulls := 1.0
		if leg.Slack {
			pulls = 0
		}
		l.text("A", row, leg.Pick, "text")
		l.number("B", row, pulls, asCount)
		l.formula("C", row, asRatio, "%s/%s", at("B", row), at("H", l.first+i))
	}
	l.matrix = l.pulls + len(l.h.Legs) + 6
	l.text("A", top-1, l.solve(), "")
	for i := range l.h.Legs {
		row, line := l.pulls+i, l.first+i
		l.formula("E", row, asForce, "%s*%s", at("D", row), l.dot(i))
		l.formula("F", row, asForce, "%s*%s/%s", at("D", row), at("M", line), at("H", line))
		for axis := range 3 {
			l.formula(letter(axis+6), row, asForce, "%s*%s", at("D", row), at(letter(axis+8), line))
		}
		cells.tension = append(cells.tension, l.of("D", row))
	}
	l.balance()
}

// balance holds the sum of the pulls against the weight.
func (l *legTable) balance() {
	end := l.pulls + len(l.h.Legs) - 1
	sum, weight, left := end+1, end+2, end+3
	l.text("A", sum, "Sum", "bold")
	l.text("A", weight, "W·d", "bold")
	l.text("A", left, "Left over: must be as good as 0", "bold")
	l.formula("E", sum, asForce, "SUM(E%d:E%d)", l.pulls, end)
	l.formula("E", weight, asForce, "%s", l.force)
	l.formula("E", left, asLeft, "E%d-E%d", sum, weight)
	for axis := range 3 {
		name := letter(axis + 6)
		l.formula(name, sum, asForce, "SUM(%s:%s)", at(name, l.pulls), at(name, end))
		l.formula(name, weight, asForce, "%s*%s", l.force, l.plumb[axis])
		l.formula(name, left, asLeft, "%s-%s", at(name, sum), at(name, weight))
	}
}

// atWorst gives what the program found over all that is in doubt; it returns the
// last row that is used.
func (l *legTable) atWorst(cells *legCells) int {
	row := l.matrix + 8
	l.text("A", row, "At worst over all that is in doubt, at the sizing weight", "title")
	l.text("A", row+1, fmt.Sprintf("values: %s solved again, see the cases in the lift sheet. Governs: leg %s: %s", plural(l.h.CasesSolved, "pose", "poses"), l.h.Governing, l.h.GoverningCase), "")
	l.text("A", row+2, "Basis: "+l.h.Basis, "")
	row += 3
	titles := []string{"Leg to pick", "Worst tension, kN", "Flattest from horizontal, °"}
	ways := []lift.Forces{}
	for _, way := range []struct {
		title  string
		forces lift.Forces
	}{{"At planning weight, kN: any leg slack", l.h.Sharing.AnyLegSlack}, {"two opposite legs carry all", l.h.Sharing.TwoOpposite}, {"rule set", l.h.Sharing.RuleSet}, {"equalised", l.h.Sharing.Equalised}} {
		if way.forces != nil {
			titles, ways = append(titles, way.title), append(ways, way.forces)
		}
	}
	l.heads(row, "A", titles...)
	for _, leg := range l.h.Legs {
		row++
		l.text("A", row, leg.Pick, "text")
		l.number("B", row, leg.WorstTensionKN, asForce)
		l.number("C", row, leg.WorstFromHorizontalDeg, asAngle)
		for j, way := range ways {
			if kn, ok := way[leg.Pick]; ok {
				l.number(letter(j+3), row, kn, asForce)
			}
		}
		cells.worst = append(cells.worst, l.of("B", row))
	}
	return row
}
