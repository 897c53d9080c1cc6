package report

import (
	"slices"
	"strings"

	"plumbhook/lift"
)

// all sets the whole document.
func (d *leaf) all() {
	d.f.AddPage()
	d.pageOne()
	d.table = nil
	d.turnOver()
	d.remarks()
	d.drawings()
	d.working()
}

// remarks sets reasons and warnings in full.
func (d *leaf) remarks() {
	d.warningsOn = d.f.PageNo()
	if !d.s.Verdict.Acceptable {
		d.heading(notAcceptable)
		d.p.numbered(d.s.Verdict.Reasons)
	}
	if len(d.s.Warnings) == 0 {
		d.heading("WARNINGS")
		d.flow(0, "None.", faceBody)
		return
	}
	d.p.warnings(d.s.Warnings)
}

// working sets how the figures came about.
func (d *leaf) working() {
	s, p := d.s, d.p
	p.heading("WEIGHT AND CENTRE OF GRAVITY (CG)")
	p.weight(s.Weigh)
	p.heading("TAKE-OFF")
	p.takeoff(s.Weigh)
	p.cgSum(s.Weigh.CGSum())
	p.asWeighed(s.Weigh.AsWeighed)
	p.heading("PICKS")
	p.sheetPicks(s.Picks)
	if len(s.Drawings) == 0 && len(s.Picks.Proposals) > 0 {
		p.planView(s.Weigh, s.Picks.Proposals[0].Picks)
	}
	p.heading("HOW IT HANGS")
	d.legsOn = d.f.PageNo()
	p.hanging(s.Legs)
	if sum, ok := s.ForceSum(); ok {
		p.forceSum(s.Legs, sum)
	}
	p.heading("SLINGS")
	d.slings(s.Slings)
	p.marking(s.Marking)
	p.assumptions(s.Assumptions)
	d.cautions()
	p.legend()
	if d.unknown {
		d.gap()
		d.hang("  � ", "stands for a letter that the faces of this sheet do not have")
	}
}

// slings sets required rating and families with their reasons, and the hardware.
func (d *leaf) slings(s *lift.Sizing) {
	d.familiesOn = d.f.PageNo()
	if s == nil {
		d.p.sheetSlings(nil)
		return
	}
	d.p.sized(*s)
	if kN, ok := s.Counted(); ok && s.Governing.RequiredKg > 0 {
		d.gap()
		d.field("In figures", d.p.forceUp(s.Governing.TensionKN)+d.factored(s.Factors)+" = "+d.p.forceUp(kN)+", which is the weight of "+d.p.massUp(s.Governing.RequiredKg)+" at 9.80665 m/s²")
	}
	d.p.hardware("HARDWARE", s.Hardware)
	d.p.working(s.Working)
}

// factored writes the common factors that are taken on a tension.
func (d *leaf) factored(factors []lift.Factor) string {
	text := ""
	for _, f := range factors {
		switch kind, _, _ := strings.Cut(f.Name, ":"); {
		case kind == "dynamic":
			text += " × " + factor(f.Value)
		case strings.HasPrefix(kind, "mode"), strings.HasPrefix(kind, "choke"):
		default:
			text += " ÷ " + factor(f.Value)
		}
	}
	return text
}

// isExclusion tells a caution that says what is not looked at.
func isExclusion(text string) bool { return strings.HasPrefix(text, "Not checked") }

// cautions sets what is not checked, and the cautions.
func (d *leaf) cautions() {
	d.heading("NOT CHECKED")
	for _, text := range d.s.Cautions {
		if isExclusion(text) {
			d.hang("  - ", text)
		}
	}
	for _, text := range d.s.Assumptions {
		if strings.Contains(text, "not checked") {
			d.hang("  - ", text)
		}
	}
	for _, set := range d.s.Picks.Proposals[:min(1, len(d.s.Picks.Proposals))] {
		if !set.Given {
			d.hang("  - ", "picks: "+geometryOnly)
		}
	}
	d.heading("CAUTIONS")
	for _, text := range d.s.Cautions {
		if !isExclusion(text) {
			d.hang("  - ", text)
		}
	}
}

// firstWarnings are those that a crew has to read before any other, by their code:
// those by which a load turns over, a leg is overloaded or something breaks loose.
var firstWarnings = []string{"cg-above-pick", "other-pose", "bight-rolls", "free-liquid", "lower-basis", "rule-undersizes", "sudden-release",
	"weighed-heavier", "weighed-off", "mesh-unsound", "no-rules", "one-leg", "leg-slack", "slack-aside", "lug-side-pull", "included-angle", "sail-area"}

// worstFirst orders warnings for page 1; those of the same weight as they were.
func worstFirst(list []lift.Warning) []lift.Warning {
	rank := func(w lift.Warning) int {
		if i := slices.Index(firstWarnings, w.Code); i >= 0 {
			return i
		}
		return len(firstWarnings)
	}
	list = slices.Clone(list)
	slices.SortStableFunc(list, func(a, b lift.Warning) int { return rank(a) - rank(b) })
	return list
}
