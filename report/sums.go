package report

import (
	"strconv"

	"plumbhook/geom"
	"plumbhook/lift"
	"plumbhook/units"
)

// inUnits are the units of a sum that is set with its numbers put in: one system,
// so that a checker can add them up. Both systems: metric.
type inUnits struct {
	mass, length, force             float64 // one of them in SI
	massName, lengthName, forceName string
	g                               string
}

func (p *page) sumUnits() inUnits {
	if p.opt.Show == units.US {
		return inUnits{float64(units.Pound), float64(units.Foot), float64(units.PoundForce) / 1000, "lb", "ft", "lbf", "a pound weighs a pound-force"}
	}
	return inUnits{1, 1, 1, "kg", "m", "kN", "g = 9.80665 m/s²"}
}

// decimals sets a figure with so many decimals: more than the sheet needs, for a
// checker to come to the same sum.
func decimals(x float64, n int) string {
	text := strconv.FormatFloat(x, 'f', n, 64)
	if zero, _ := strconv.ParseFloat(text, 64); zero == 0 {
		text = strconv.FormatFloat(0, 'f', n, 64) // without a sign
	}
	if text[0] == '-' {
		return "−" + grouped(text[1:])
	}
	return grouped(text)
}

// cgSum sets the sum of the CG with its numbers put in.
func (p *page) cgSum(s lift.CGSum) {
	if len(s.Lines) == 0 {
		return
	}
	u := p.sumUnits()
	moment := u.massName + "·" + u.lengthName
	p.heading("THE SUM OF THE CG: Σ m·c ÷ Σ m")
	p.hang("  ", "Best weights m in "+u.massName+", their places c in "+u.lengthName+" from the datum, moments m·c in "+moment+".")
	p.gap()
	cols := []column{{"No", 1, true}, {"Part or allowance", 0, false}, {"m", 7, true}}
	for _, name := range []string{"x", "y", "z"} {
		cols = append(cols, column{name, 5, true})
	}
	for _, name := range []string{"m·x", "m·y", "m·z"} {
		cols = append(cols, column{name, 7, true})
	}
	p.titles(cols)
	for i, l := range s.Lines {
		cells := []string{plainInt(i + 1), l.Name, decimals(l.MassKg/u.mass, 3)}
		cells = append(cells, three(l.CGM, u.length, 4)...)
		p.row(cols, append(cells, three(l.MomentKgM, u.mass*u.length, 3)...)...)
	}
	p.rule()
	p.row(cols, append([]string{"", "Σ", decimals(s.MassKg/u.mass, 3), "", "", ""}, three(s.MomentKgM, u.mass*u.length, 3)...)...)
	p.gap()
	for i, axis := range []string{"x", "y", "z"} {
		p.field("CG "+axis, decimals(s.MomentKgM[i]/u.mass/u.length, 3)+" "+moment+" ÷ "+decimals(s.MassKg/u.mass, 3)+" "+u.massName+" = "+
			decimals(s.CGM[i]/u.length, 4)+" "+u.lengthName+", that is "+p.length(s.CGM[i]))
	}
}

// three sets the parts of a vector.
func three(v geom.Vec, unit float64, n int) []string {
	return []string{decimals(v[0]/unit, n), decimals(v[1]/unit, n), decimals(v[2]/unit, n)}
}

// forceSum sets the balance of the legs with its numbers put in.
func (p *page) forceSum(h lift.Hanging, f lift.ForceSum) {
	u := p.sumUnits()
	p.heading("THE BALANCE OF THE LEGS: Σ T·run ÷ length = weight")
	p.hang("  ", "At the planning weight of "+p.mass(h.PlanningKg)+", which pulls with "+decimals(f.WeightKN/u.force, 4)+" "+u.forceName+" ("+u.g+"), and the best CG. Run: from pick to hook along the load's axes, in "+u.lengthName+
		"; rise: how much of it is upward as the load hangs; sin θ = rise ÷ length, θ from horizontal. T and its parts in "+u.forceName+".")
	p.gap()
	cols := []column{{"Leg to pick", 0, false}}
	for _, name := range []string{"run x", "run y", "run z", "length", "rise", "θ"} {
		cols = append(cols, column{name, 5, true})
	}
	for _, name := range []string{"T", "T x", "T y", "T z"} {
		cols = append(cols, column{name, 5, true})
	}
	p.titles(cols)
	for i, l := range f.Lines {
		cells := append([]string{l.Pick}, three(l.RunM, u.length, 4)...)
		cells = append(cells, decimals(l.DistanceM/u.length, 4), decimals(l.RiseM/u.length, 4), plainAngle(h.Legs[i].FromHorizontalDeg), decimals(l.TensionKN/u.force, 3))
		p.row(cols, append(cells, three(l.ForceKN, u.force, 3)...)...)
	}
	p.rule()
	blank := []string{"", "", "", "", "", "", ""}
	p.row(cols, append(append([]string{"Σ"}, blank...), three(f.SumKN, u.force, 3)...)...)
	p.row(cols, append(append([]string{"Weight, upward"}, blank...), three(f.UpKN, u.force, 3)...)...)
	p.gap()
	p.hang("  ", "All legs meet at the hook, which is plumb over the CG: their moments about it are nil.")
}
