package report

import "fmt"

// The ways by which the sheet of the legs comes to the tensions.
const (
	byOneLeg  = "One leg pulls: T = W (u·d)."
	byTwoLegs = "Two legs pull: T₁ = (W(d·u₁) − a W(d·u₂)) ÷ (1 − a²), a = u₁·u₂, the balance of forces in their plane; T₂ alike."
	byShare   = "T = k (u·x), M x = W d, M = sum of k u uᵀ: of all tensions that balance the load those of least sum of T² ÷ 2k, legs of the same EA, each as long as it should be. Three legs have only this one answer, whatever k."
	byStretch = "T = EA × (length − length without load) ÷ length without load."
	byProgram = "Values: the program's."
	byGear    = "Values: gear between legs makes them pull alike, see the lift sheet."
	tooPlanar = 1e-5 // det M over (⅓ trace M)³ below which the legs lie too nearly in one plane to solve it so
	settled   = 3    // legs up to which statics alone settle what they carry
)

// solve fills in the tensions and says by which way.
func (l *legTable) solve() string {
	switch {
	case l.h.Sharing.Equalised != nil:
		return l.asFound(byGear)
	case len(l.taut) == 1:
		l.zero()
		l.formula("D", l.pulls+l.taut[0], asForce, "%s*%s", l.force, l.dot(l.taut[0]))
		return byOneLeg
	case len(l.taut) == 2:
		return l.twoLegs()
	case len(l.taut) > settled && l.h.Stretch != nil:
		return l.byEA()
	case len(l.taut) == 0:
		return l.asFound(byProgram)
	}
	return l.share()
}

// zero is the tension of slack legs.
func (l *legTable) zero() {
	for i, leg := range l.h.Legs {
		if leg.Slack {
			l.formula("D", l.pulls+i, asForce, "0*%s", at("B", l.pulls+i))
		}
	}
}

// asFound puts the program's tensions in as values.
func (l *legTable) asFound(why string) string {
	for i, leg := range l.h.Legs {
		l.number("D", l.pulls+i, leg.TensionKN, asForce)
	}
	return why
}

// twoLegs balances two legs in their plane.
func (l *legTable) twoLegs() string {
	l.zero()
	one, two := l.taut[0], l.taut[1]
	row := l.matrix
	l.text("A", row, "a = u₁·u₂", "bold")
	l.formula("B", row, asRatio, "I%[1]d*I%[2]d+J%[1]d*J%[2]d+K%[1]d*K%[2]d", l.first+one, l.first+two)
	l.text("A", row+1, "W (d·u₁), kN", "bold")
	l.formula("B", row+1, asForce, "%s*%s", l.force, l.dot(one))
	l.text("A", row+2, "W (d·u₂), kN", "bold")
	l.formula("B", row+2, asForce, "%s*%s", l.force, l.dot(two))
	for i, leg := range l.taut {
		l.formula("D", l.pulls+leg, asForce, "(B%[1]d-B%[3]d*B%[2]d)/(1-B%[3]d^2)", row+1+i, row+2-i, row)
	}
	return byTwoLegs
}

// byEA follows from the stretch of each leg.
func (l *legTable) byEA() string {
	l.text("A", l.matrix, "EA of a leg, kN", "bold")
	l.number("B", l.matrix, l.h.Stretch.StiffKN, asForce)
	for i := range l.h.Legs {
		row := l.first + i
		l.formula("D", l.pulls+i, asForce, "B%[1]d*%[2]s*(H%[3]d-P%[3]d)/P%[3]d", l.pulls+i, pinned("B", l.matrix), row)
	}
	return byStretch
}

// share solves three equations by Cramer's rule in cells.
func (l *legTable) share() string {
	top, last, lines := l.matrix, l.pulls+len(l.h.Legs)-1, l.first+len(l.h.Legs)-1
	l.heads(top, "A", "M", "x", "y", "z", "W d, kN", "x, kN·m")
	weights := fmt.Sprintf("$C$%d:$C$%d", l.pulls, last)
	for i := range 3 {
		row := top + 1 + i
		l.text("A", row, []string{"x", "y", "z"}[i], "bold")
		for j := range 3 {
			l.formula(letter(j+1), row, asRatio, "SUMPRODUCT(%[1]s,$%[2]s$%[4]d:$%[2]s$%[5]d,$%[3]s$%[4]d:$%[3]s$%[5]d)",
				weights, letter(i+8), letter(j+8), l.first, lines)
		}
		l.formula("E", row, asForce, "%s*%s", l.force, l.plumb[i])
	}
	l.text("A", top+4, "det M", "bold")
	det := l.formula("B", top+4, asLeft, "%s", determinant(top+1, -1))
	third := l.formula("D", top+4, asRatio, "(B%d+C%d+D%d)/3", top+1, top+2, top+3)
	l.text("C", top+4, "⅓ trace M", "bold")
	if !(det > tooPlanar*third*third*third) {
		return l.asFound(byProgram + " The legs lie too nearly in one plane for M to be solved.")
	}
	for i := range 3 {
		l.formula("F", top+1+i, asForce, "(%s)/%s", determinant(top+1, i), pinned("B", top+4))
	}
	for i := range l.h.Legs {
		l.formula("D", l.pulls+i, asForce, "C%[1]d*(I%[2]d*%[3]s+J%[2]d*%[4]s+K%[2]d*%[5]s)", l.pulls+i, l.first+i,
			pinned("F", top+1), pinned("F", top+2), pinned("F", top+3))
	}
	return byShare
}

// determinant of the matrix whose first row stands there, one of its columns
// changed for W d; -1: none.
func determinant(row, changed int) string {
	c := [3]string{"B", "C", "D"}
	if changed >= 0 {
		c[changed] = "E"
	}
	a, b, d := c[0], c[1], c[2]
	return fmt.Sprintf("%[4]s%[1]d*(%[5]s%[2]d*%[6]s%[3]d-%[6]s%[2]d*%[5]s%[3]d)-%[5]s%[1]d*(%[4]s%[2]d*%[6]s%[3]d-%[6]s%[2]d*%[4]s%[3]d)+%[6]s%[1]d*(%[4]s%[2]d*%[5]s%[3]d-%[5]s%[2]d*%[4]s%[3]d)",
		row, row+1, row+2, a, b, d)
}
