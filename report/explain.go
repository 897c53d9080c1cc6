package report

import (
	"math"
	"strings"

	"plumbhook/lift"
	"plumbhook/units"
)

// working prints the working by hand: each line can be gone over with a pocket
// calculator, and every figure on it is in the result.
func (p *page) working(w *lift.Working) {
	if w == nil {
		return
	}
	p.heading("WORKING BY HAND, LEG " + strings.ToUpper(w.Statics.Pick))
	p.statics(w.Statics)
	if w.Sizing != nil {
		p.rating(*w.Sizing)
	}
	for _, f := range w.Chosen {
		p.familyWorking(f)
	}
	p.gap()
	text := "Figures are printed rounded; the program counts with all digits, so the last one may be out by one."
	if p.opt.Show == units.Both {
		text += " In SI; `--show us` works in pounds and feet."
	}
	p.hang("  ", text)
}

func (p *page) statics(s lift.StaticsWorking) {
	p.field("Case", s.Case)
	p.field("Load", "W = "+p.plainMass(s.LoadKg)+p.massToForce()+" = "+p.plainForce(s.LoadKN))
	p.field("Who carries", s.How)
	p.gap()
	cols := []column{{"Leg to pick", 0, false}, {"x", 7, true}, {"y", 7, true}, {"Out", 7, true}, {"Rise", 7, true}, {"Angle", 7, true}, {"V, " + p.forceUnit(), 7, true}, {"T, " + p.forceUnit(), 7, true}}
	p.titles(cols)
	for _, l := range s.Legs {
		p.row(cols, l.Pick, p.plainLength(l.XM), p.plainLength(l.YM), p.plainLength(l.OutM), p.plainLength(l.RiseM), plain(l.Deg, 2)+"°", p.bareForce(l.VerticalKN), p.bareForce(l.TensionKN))
	}
	p.gap()
	p.hang("  ", "x, y: the pick, level from the plumb line through the hook and the CG. Out and rise: level and upright way from pick to hook, in "+p.lengthUnit()+". Angle from horizontal. V: the upright part of the pull; T = V ÷ sin(angle).")
	p.gap()
	if v := s.Levers; v != nil {
		p.field("Levers", "out ÷ rise: "+s.Pick+" "+plain(v.Own, 4)+", the other "+plain(v.Other, 4))
		p.field("", "V = "+p.plainForce(s.LoadKN)+" × "+plain(v.Other, 4)+" ÷ ("+plain(v.Own, 4)+" + "+plain(v.Other, 4)+") = "+p.plainForce(v.VerticalKN))
	}
	for _, l := range s.Legs {
		if l.Pick == s.Pick {
			p.field("Leg", "T = "+p.plainForce(l.VerticalKN)+" ÷ "+plain(l.Sine, 4)+" = "+p.plainForce(l.TensionKN))
		}
	}
	var parts []string
	for _, l := range s.Legs {
		parts = append(parts, p.bareForce(l.VerticalKN))
	}
	p.field("Check", "upright parts "+strings.Join(parts, " + ")+" = "+p.plainForce(s.SumKN)+", the load "+p.plainForce(s.LoadKN))
	p.field("", "level pulls, each V × x ÷ rise and V × y ÷ rise, leave "+p.plainForce(tiny(s.LevelXKN, s.LoadKN))+" and "+p.plainForce(tiny(s.LevelYKN, s.LoadKN)))
	if s.MoreKN > 0 {
		p.field("On top", p.plainForce(s.TensionKN)+" + "+p.plainForce(s.MoreKN)+" = "+p.plainForce(s.WorstKN)+": "+s.MoreBecause)
	}
}

// tiny prints what rounding leaves as nothing.
func tiny(x, of float64) float64 {
	if math.Abs(x) < 1e-9*of {
		return 0
	}
	return x
}

func (p *page) rating(r lift.RatingWorking) {
	p.sub("Rating needed, vertical")
	p.field("Dynamic", p.plainForce(r.TensionKN)+" × "+factor(r.Dynamic.Value)+" = "+p.plainForce(r.DynamicKN)+"; "+r.Dynamic.Source+p.mark(r.Dynamic.Basis))
	p.field("As a mass", p.plainForce(r.DynamicKN)+p.forceToMass()+" = "+p.plainMass(r.LoadKg))
	by := factor(r.Hitch.Value)
	if r.Parts != 1 {
		by += " ÷ " + factor(r.Parts)
	}
	p.field("By the leg", p.plainMass(r.LoadKg)+" ÷ "+by+" = "+p.plainMass(r.ByLegKg)+"; "+r.Hitch.Name+p.mark(r.Hitch.Basis)+": "+r.Hitch.Source)
	if r.Parts != 1 {
		p.field("", factor(r.Parts)+" basket: cos of half the angle between its parts, over what the one carries more (statics)")
	}
	if r.Mode != nil {
		by, rest := factor(r.Mode.Value), ""
		if r.Choke.Value != 1 {
			by += " ÷ " + factor(r.Choke.Value)
			rest = "; choke: " + r.Choke.Source + p.mark(r.Choke.Basis)
		}
		p.field("By the set", p.plainMass(r.SetLoadKg)+" ÷ "+by+" = "+p.plainMass(r.BySetKg)+"; load × dynamic ÷ mode factor"+p.mark(r.Mode.Basis)+": "+r.Mode.Source+rest)
	}
	p.field("Needed", p.plainMass(r.RequiredKg)+", the greatest of these")
}

func (p *page) familyWorking(f lift.FamilyWorking) {
	p.sub("Size: " + familyName(lift.Family{Family: f.Family, Material: f.Material}))
	p.hang("    "+padded(factor(f.Hitch.Value), 7, false), f.Hitch.Name+p.mark(f.Hitch.Basis)+": "+f.Hitch.Source)
	by := factor(f.Hitch.Value)
	if f.Parts != 1 {
		p.hang("    "+padded(factor(f.Parts), 7, false), "parts of the basket: statics")
		by += " × " + factor(f.Parts)
	}
	for _, x := range f.Factors {
		p.factor(x)
		by += " × " + factor(x.Value)
	}
	p.field("Product", by+" = "+factor(f.Product))
	p.field("By factors", p.plainMass(f.LoadKg)+" ÷ "+factor(f.Product)+" = "+p.plainMass(f.ByFactorsKg)+", leg "+f.Leg)
	if f.More != "" {
		p.field("More", p.plainMass(f.RequiredKg)+": "+f.More)
	}
	p.field("Row chosen", f.Size+", rated "+p.plainMass(f.RatedKg)+p.mark(f.Basis)+": "+f.Source)
	p.field("Used", p.plainMass(f.RequiredKg)+" ÷ "+p.plainMass(f.RatedKg)+" = "+plain(f.Utilisation, 4))
}

// The working is in one system of units, four figures or the tenth of a kilogram:
// what is printed in both can't be gone over.
func (p *page) inUS() bool { return p.opt.Show == units.US }

func (p *page) forceUnit() string {
	if p.inUS() {
		return "lbf"
	}
	return "kN"
}

func (p *page) lengthUnit() string {
	if p.inUS() {
		return "ft"
	}
	return "m"
}

func (p *page) bareForce(kN float64) string {
	if p.inUS() {
		return fourFigures(kN * 1000 / (float64(units.PoundForce)))
	}
	return fourFigures(kN)
}

func (p *page) plainForce(kN float64) string { return p.bareForce(kN) + glue + p.forceUnit() }

func (p *page) plainMass(kg float64) string {
	if p.inUS() {
		return grouped(plain(kg/float64(units.Pound), 1)) + glue + "lb"
	}
	return grouped(plain(kg, 1)) + glue + "kg"
}

func (p *page) plainLength(m float64) string {
	if p.inUS() {
		return plain(m/float64(units.Foot), 3)
	}
	return plain(m, 3)
}

// massToForce and forceToMass are the steps between weight and pull: a pound pulls
// with a pound-force.
func (p *page) massToForce() string {
	if p.inUS() {
		return ""
	}
	return " × 9.80665 ÷ 1000"
}

func (p *page) forceToMass() string {
	if p.inUS() {
		return ""
	}
	return " × 1000 ÷ 9.80665"
}
