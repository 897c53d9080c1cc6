package report

import (
	"slices"
	"strings"

	"plumbhook/lift"
)

func (p *page) slung(r lift.Slung) {
	p.refusal(r.Verdict)
	p.title("Slings", "", r.Header)
	p.verdict(r.Verdict)
	p.warnings(r.Warnings)
	p.heading("REQUIRED RATING")
	p.sized(r.Sizing)
	p.hardware("HARDWARE", r.Hardware)
	p.working(r.Working)
	p.assumptions(r.Assumptions)
	p.legend()
}

// sized prints the sizing of one set of slings, of those under bars, or of those of
// two hooks.
func (p *page) sized(s lift.Sizing) {
	switch {
	case len(s.ByHook) > 0:
		p.slingsByHook(s.ByHook)
	case len(s.Sets) > 0:
		p.slingSets(s)
		p.gross(s.Gross)
	default:
		p.required(s)
		p.stock(s.Stock)
		p.families(s.Families)
		p.heights(s.Heights)
		p.gross(s.Gross)
	}
	p.advice(s.Advice)
}

// bySet says that the check of the set asks for more than the leg that governs.
func bySet(s lift.Sizing) string {
	if s.Set == nil || s.Governing.RequiredKg > s.Set.RequiredKg*(1+noise) {
		return ""
	}
	return " (by the check of the set, more than that leg alone)"
}

// required prints what each leg must be rated for, and how that came about.
func (p *page) required(s lift.Sizing) {
	if len(s.Required) == 0 {
		p.hang("  ", "There is no pose to size slings for: see the reasons at the top.")
		return
	}
	p.field("Rule set", s.Rules)
	p.field("Governs", "leg "+s.Governing.Pick+inState(s.Governing.State)+": "+p.governingTension(s.Governing)+
		", rating needed in a vertical hitch "+p.massUp(s.Governing.RequiredKg)+bySet(s)+"; all legs of the set take it. "+
		"Temperature, bend and edge differ by family: they come on top, and what each family needs stands with it")
	p.field("How", workingLine(s.Factors))
	for _, f := range s.Factors {
		p.factor(f)
	}
	p.gap()
	cols := []column{{"Leg to pick", 0, false}, {"Rating needed, vertical hitch", 30, true}}
	p.titles(cols)
	names := make([]string, 0, len(s.Required))
	for name := range s.Required {
		names = append(names, name)
	}
	slices.Sort(names)
	for _, name := range names {
		p.row(cols, name, p.massUp(s.Required[name]))
	}
}

// inState names the state that a leg is sized in, where it is not the one shown.
func inState(state string) string {
	if state == "" {
		return ""
	}
	return " in the state " + state + ", which needs more than the one whose legs are shown"
}

// governingTension says which tension the size follows from.
func (p *page) governingTension(g lift.Governing) string {
	text := "worst tension " + p.forceUp(g.TensionKN)
	switch {
	case g.LiftOffKN == 0:
		return text
	case g.LiftOffKN > g.TensionKN*(1+noise):
		return "tension at lift-off " + p.forceUp(g.LiftOffKN) + ", on which no dynamic factor is taken, so that it counts as a " + text
	}
	return "tension at lift-off, as " + text
}

// workingLine writes out what is done with the common factors.
func workingLine(factors []lift.Factor) string {
	text, set := "worst tension", ""
	for _, f := range factors {
		switch kind, _, _ := strings.Cut(f.Name, ":"); {
		case kind == "dynamic":
			text += " × dynamic" + glue + factor(f.Value)
		case strings.HasPrefix(kind, "mode"):
			set = "; and for the set as a whole no less than sizing weight × dynamic ÷ mode" + glue + factor(f.Value)
		case strings.HasPrefix(kind, "bridle"):
			set += "; and for legs from one point of a bar no less than the rule set's share of what hangs there"
		case strings.HasPrefix(kind, "choke"):
			set += " ÷ choke" + glue + factor(f.Value)
		default:
			text += " ÷ " + f.Name + glue + factor(f.Value)
		}
	}
	return text + ", as a mass at standard gravity" + set
}

// factor prints one factor with its source and basis.
func (p *page) factor(f lift.Factor) {
	p.hang("    "+padded(factor(f.Value), 7, false), f.Name+p.mark(f.Basis)+": "+f.Source)
}

// uses are the answers in the order in which they are printed.
var uses = []string{"yes", "care", "no"}

// families prints each family: what may be used first.
func (p *page) families(list []lift.Family) {
	if len(list) == 0 {
		return
	}
	p.compared(list)
	if p.brief {
		p.whyNot(list)
		return
	}
	p.sub("Each family: may it be used here, in which size, and why")
	for _, use := range uses {
		for _, f := range list {
			if f.Use == use {
				p.family(f)
			}
		}
	}
	p.hang("  ", "Sizes are the smallest that are large enough. The tag on the sling governs the lift, not the table. Not priced, not checked for being in stock.")
}

// compared puts the families side by side.
func (p *page) compared(list []lift.Family) {
	p.sub("The families side by side")
	cols := []column{{"Use", 4, false}, {"Family", 0, false}, {"Smallest size", 18, false}, {"Rated", 11, true}, {"Used", 5, true}, {"All legs weigh", 11, true}}
	p.titles(cols)
	for _, use := range uses {
		for _, f := range list {
			if f.Use != use {
				continue
			}
			size, rated, used, weight := "-", "-", "-", "-"
			switch c := f.Choice; {
			case c != nil:
				size, rated, used = c.Size+p.mark(c.Basis), p.stackedMassDown(c.RatedKg), percentUp(c.Utilisation)
				if c.WeightKg > 0 {
					weight = p.stackedMassUp(c.WeightKg)
				}
			case f.Use != "no" && f.ByTag:
				size = "by its tag"
			case f.Use != "no":
				size = "none large enough"
			}
			p.row(cols, f.Use, familyName(f), size, rated, used, weight)
		}
	}
}

// whyNot prints what speaks against the families that are not a plain yes, each
// reason once with the families that it is about.
func (p *page) whyNot(list []lift.Family) {
	var reasons []string
	about := map[string][]string{}
	for _, f := range list {
		if f.Use == "yes" {
			continue
		}
		for _, reason := range f.Against {
			if about[reason] == nil {
				reasons = append(reasons, reason)
			}
			about[reason] = append(about[reason], familyName(f))
		}
	}
	if len(reasons) > 0 {
		p.sub("What speaks against a family, or asks for care")
		for _, reason := range reasons {
			p.hang("  - ", reason+": "+strings.Join(about[reason], "; "))
		}
	}
	p.gap()
	p.hang("  ", "Sizes are the smallest that are large enough. The tag on the sling governs the lift, not the table. All reasons, factors and sources: `plumbhook slings`.")
}

func familyName(f lift.Family) string {
	name := strings.ReplaceAll(strings.Replace(f.Family, "two_path", "two-path", 1), "_", " ")
	if f.Material != "" {
		name += ", " + f.Material
	}
	return name
}

// joined puts what is not empty side by side.
func joined(a, b string) string {
	if a == "" || b == "" {
		return a + b
	}
	return a + "; " + b
}

const familyIndent = "        "

// atAngles prints what one leg holds up, each angle by both names.
func (p *page) atAngles(list []lift.AtAngle) {
	var parts []string
	for _, a := range list {
		parts = append(parts, p.massDown(a.HoldsKg)+" at "+fromHorizontal(a.FromHorizontalDeg)+" ("+fromVertical(a.FromHorizontalDeg)+")")
	}
	if len(parts) > 0 {
		p.hang(familyIndent, "one leg holds up "+strings.Join(parts, ", "))
	}
}

func (p *page) family(f lift.Family) {
	for i, l := range wrap(familyName(f), 0, p.opt.Width-len(familyIndent)) {
		lead := familyIndent
		if i == 0 {
			lead = "  " + p.ink(padded(f.Use, 6, false), f.Use)
		}
		p.line(lead + l)
	}
	if c := f.Choice; c != nil {
		text := "smallest: " + c.Size + ", needs " + p.massUp(c.RequiredKg) + ", rated " + p.massDown(c.RatedKg) + p.mark(c.Basis) + ", " + percentUp(c.Utilisation) + " used"
		if c.WeightKg > 0 {
			text += "; all legs together weigh " + p.massUp(c.WeightKg)
		}
		p.hang(familyIndent, text)
		p.hang(familyIndent+"  ", joined(c.Source, c.Note))
		p.atAngles(c.AtAngles)
	} else if f.Use != "no" {
		p.hang(familyIndent, "no size is chosen")
	}
	if d := f.Design; d != nil {
		p.hang(familyIndent, "design factor "+factor(d.Value)+p.mark(d.Basis)+": what breaks it when new, over its rating ("+d.Source+")")
	}
	for _, x := range f.Factors {
		p.hang(familyIndent+"× ", factor(x.Value)+glue+x.Name+p.mark(x.Basis)+": "+x.Source)
	}
	for _, reason := range f.Reasons {
		p.hang(familyIndent+"- ", reason)
	}
	if f.Use != "no" {
		for _, caution := range f.Cautions {
			p.hang(familyIndent+"! ", caution)
		}
	}
	p.gap()
}
