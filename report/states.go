package report

import (
	"strconv"
	"strings"

	"plumbhook/lift"
)

// statistics prints the range of the weight by other means. Nothing is sized by
// it, and it says so.
func (p *page) statistics(s *lift.Statistics) {
	if s == nil {
		return
	}
	p.field("Statistical", "from "+p.mass(s.RSSLowKg)+" to "+p.mass(s.RSSHighKg)+" by root of squares, parts of one material being off together; 5 % and 95 % of "+
		strconv.Itoa(s.Samples)+" random loads are under "+p.mass(s.P5Kg)+" and "+p.mass(s.P95Kg)+". For information: nothing is sized on it")
}

// governing marks the row of a table that governs.
func governing(yes bool, name string) string {
	if yes {
		return name + "\ngoverns"
	}
	return name
}

// weightStates prints what the load weighs in each of its states.
func (p *page) weightStates(list []lift.StateWeight) {
	if len(list) == 0 {
		return
	}
	p.sub("In each state")
	cols := []column{{"State", 0, false}, {"Best", 12, true}, {"Sizing", 12, true}, {"CG x", 12, true}, {"CG y", 12, true}, {"CG z", 12, true}}
	p.titles(cols)
	for _, s := range list {
		p.row(cols, governing(s.Governs, s.Name), p.stackedMass(s.Weight.BestKg), p.stackedMassUp(s.Weight.SizingKg),
			p.stackedLength(s.CGM[0]), p.stackedLength(s.CGM[1]), p.stackedLength(s.CGM[2]))
	}
}

// legStates prints how the load hangs in each of its states.
func (p *page) legStates(list []lift.StateLegs) {
	if len(list) == 0 {
		return
	}
	p.sub("In each state")
	p.hang("  ", "Rigged for that state. The figures above are those of the state that governs.")
	p.gap()
	cols := []column{{"State", 0, false}, {"Sizing weight", 14, true}, {"Worst tension", 14, true}, {"Tilt, worst", 11, true}, {"Verdict", 14, false}}
	p.titles(cols)
	for _, s := range list {
		verdict := "acceptable"
		if !s.Acceptable {
			verdict = notAcceptable
		}
		leg := "-"
		if s.Pick != "" {
			leg = p.stackedForceUp(s.WorstTensionKN) + "\nleg " + s.Pick
		}
		p.row(cols, governing(s.Governs, s.Name), p.stackedMassUp(s.SizingKg), leg, turn(tenthUp(s.TiltWorstDeg)), verdict)
	}
}

// asWeighed prints what load cells and the take-off come to together.
func (p *page) asWeighed(w *lift.AsWeighed) {
	if w == nil {
		return
	}
	p.heading("AS WEIGHED: LOAD CELLS AND TAKE-OFF TOGETHER")
	p.field("Weight", p.mass(w.WeightKg)+" ± "+p.mass(w.WeightSigmaKg)+" (one standard deviation)")
	for i, axis := range []string{"x", "y", "z"} {
		p.field("CG "+axis, p.length(w.CGM[i])+" ± "+p.length(w.CGSigmaM[i]))
	}
	for _, r := range w.Read {
		var cg []string
		for i, axis := range []string{"x", "y", "z"} {
			if r.CGM[i] != nil {
				cg = append(cg, axis+glue+p.length(*r.CGM[i]))
			}
		}
		text := p.mass(r.WeightKg) + " ± " + p.mass(r.SigmaKg)
		if len(cg) > 0 {
			text += "; CG " + strings.Join(cg, ", ")
		}
		if len(r.Without) > 0 {
			text += "; without " + strings.Join(r.Without, ", ")
		}
		p.field("Cells alone", text)
	}
	p.hang("  ", w.Text)
	if len(w.LoadFileLines) > 0 {
		p.sub("The load as one weighed part, for a load file")
		for _, l := range w.LoadFileLines {
			p.line("    " + l)
		}
	}
}

// dip prints a dip-stick table.
func (p *page) dip(d lift.Dip) {
	p.title("Dip-stick table of "+d.Part, "", d.Header)
	p.heading("LEVEL, VOLUME, WEIGHT, CG")
	cols := []column{{"Depth", 13, true}, {"Full", 7, true}, {"Volume", 13, true}, {"Weight", 13, true}, {"CG, from the datum", 0, false}}
	p.titles(cols)
	for _, r := range d.Rows {
		p.row(cols, p.stackedLength(r.DepthM), percent1(r.Fill), p.stackedVolume(r.VolumeM3), p.stackedMass(r.MassKg),
			"x"+glue+p.length(r.CGM[0])+"\ny"+glue+p.length(r.CGM[1])+"\nz"+glue+p.length(r.CGM[2]))
	}
	p.gap()
	p.hang("  ", "Depth: from the lowest point of the inside up to the level, the load standing as drawn.")
}

// percent1 prints a fraction in percent to a tenth.
func percent1(part float64) string { return strconv.FormatFloat(100*part, 'f', 1, 64) + glue + "%" }
