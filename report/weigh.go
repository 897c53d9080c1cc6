package report

import (
	"fmt"
	"math"
	"strings"

	"plumbhook/lift"
	"plumbhook/units"
)

func (p *page) weighed(r lift.Weighed) {
	p.refusal(r.Verdict)
	p.title("Weight and centre of gravity", "", r.Header)
	p.warnings(r.Warnings)
	p.heading("WEIGHT AND CENTRE OF GRAVITY (CG)")
	p.weight(r.Weight)
	p.planView(r.Weight, nil)
	p.inertia(r.InertiaKgm2)
	p.heading("TAKE-OFF")
	p.takeoff(r.Weight)
	p.influences(r.Influences, "")
	p.weightStates(r.States)
	p.asWeighed(r.AsWeighed)
	p.assumptions(r.Assumptions)
	p.legend()
}

// weight prints the weight, the CG and their ranges.
func (p *page) weight(w lift.Weight) {
	p.field("Best", p.mass(w.Weight.BestKg))
	p.field("Range", "from "+p.massDown(w.Weight.LowKg)+" to "+p.massUp(w.Weight.HighKg))
	p.field("Planning", p.mass(w.Weight.PlanningKg)+": "+w.Weight.Rule)
	pull := glued(units.Mass(w.Weight.SizingKg).Weight().FormatUp(p.opt.Show))
	p.field("Sizing", p.massUp(w.Weight.SizingKg)+", rounded up: the greater of planning and high, on which rigging is sized. As a force "+pull)
	p.statistics(w.Statistics)
	p.field("Volume", p.volume(w.VolumeM3)+" of material; parts of known weight have none")
	p.gap()
	cols := []column{{title: "", width: 1}, {title: "CG, from the datum", width: 23}, {title: "least", width: 23}, {title: "greatest", width: 23}}
	p.titles(cols)
	for i, axis := range []string{"x", "y", "z"} {
		p.row(cols, axis, p.length(w.CGM[i]), p.length(w.CGRangeM.Min[i]), p.length(w.CGRangeM.Max[i]))
	}
	p.region(w)
	p.gap()
	p.hang("  ", "The load's own box is from "+p.place(w.BoxM.Min)+" to "+p.place(w.BoxM.Max)+".")
}

// inertia prints the moments and products of inertia about the CG.
func (p *page) inertia(m [3][3]float64) {
	const (
		pound = float64(units.Pound)
		foot  = float64(units.Foot)
	)
	p.gap()
	p.line("  Inertia about the CG, along the load's axes; products with a minus sign")
	if p.opt.Show != units.US {
		p.products(m, 1, "kg·m²")
	}
	if p.opt.Show != units.Metric {
		p.products(m, 1/(pound*foot*foot), "lb·ft²")
	}
}

// products prints the six different terms of a symmetric matrix. What is only
// the noise of the arithmetic is printed as 0.
func (p *page) products(m [3][3]float64, scale float64, unit string) {
	least := 1e-9 * max(math.Abs(m[0][0]), math.Abs(m[1][1]), math.Abs(m[2][2]))
	term := func(name string, x float64) string {
		figure := "0"
		if math.Abs(x) >= least {
			figure = fourFigures(x * scale)
		}
		return padded(name+" "+strings.ReplaceAll(figure, glue, " ")+" "+unit, 25, false)
	}
	p.line("  " + term("xx", m[0][0]) + term("yy", m[1][1]) + term("zz", m[2][2]))
	p.line("  " + term("xy", m[0][1]) + term("yz", m[1][2]) + term("zx", m[2][0]))
}

// takeoff prints the list of parts: what was written beside what it came to.
func (p *page) takeoff(w lift.Weight) {
	cols := []column{{"No", 3, true}, {"Part, as written", 0, false}, {"Weight", 12, true}, {"Low", 12, true}, {"High", 12, true}}
	p.titles(cols)
	for i, part := range w.Parts {
		name := part.Name
		if part.Count > 1 {
			name += fmt.Sprintf(" (%d pieces)", part.Count)
		}
		p.row(cols, plainInt(i+1), name+"\n"+part.Kind+" "+part.Written,
			p.stackedMass(part.MassKg), p.stackedMassDown(part.LowKg), p.stackedMassUp(part.HighKg))
		p.hang("       CG ", p.place(part.CGM))
		p.hang("       ", part.Basis)
	}
	for _, a := range w.Allowances {
		p.row(cols, "", "allowance: "+a.Name+"\nof "+a.Of+", "+a.Written, p.stackedMass(a.BestKg), p.stackedMassDown(a.LowKg), p.stackedMassUp(a.HighKg))
		p.hang("       CG ", p.place(a.CGM))
		p.hang("       ", a.Basis)
	}
	p.rule()
	p.row(cols, "", "Load", p.stackedMass(w.Weight.BestKg), p.stackedMassDown(w.Weight.LowKg), p.stackedMassUp(w.Weight.HighKg))
}
