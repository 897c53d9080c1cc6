package report

import (
	"plumbhook/lift"
)

// sheet prints the lift sheet. Its order is fixed: what is lifted and whether
// it may be, what to be warned of, then the figures in the order of the work.
func (p *page) sheet(s lift.LiftSheet) {
	p.refusal(s.Verdict)
	p.title("Lift sheet", s.Date, s.Header)
	p.verdict(s.Verdict)
	p.warnings(s.Warnings)
	p.heading("1  WEIGHT AND CENTRE OF GRAVITY (CG)")
	p.weight(s.Weigh)
	p.heading("2  TAKE-OFF")
	p.takeoff(s.Weigh)
	p.asWeighed(s.Weigh.AsWeighed)
	p.heading("3  PICKS")
	p.sheetPicks(s.Picks)
	if len(s.Picks.Proposals) > 0 {
		p.planView(s.Weigh, s.Picks.Proposals[0].Picks)
	}
	p.heading("4  HOW IT HANGS")
	p.hanging(s.Legs)
	p.heading("5  SLINGS")
	p.sheetSlings(s.Slings)
	if s.Slings != nil {
		p.hardware("6  HARDWARE", s.Slings.Hardware)
	}
	p.marking(s.Marking)
	p.assumptions(s.Assumptions)
	p.heading("CAUTIONS")
	for _, c := range s.Cautions {
		p.hang("  - ", c)
	}
	p.legend()
	p.gap()
	p.gap()
	p.line("  Prepared __________________ Checked __________________ Date ________________")
}

func (p *page) sheetPicks(picks lift.SheetPicks) {
	if len(picks.Proposals) == 0 {
		p.line("  none: see the reasons at the top")
		return
	}
	p.proposal(picks.Proposals[0])
}

func (p *page) sheetSlings(s *lift.Sizing) {
	if s == nil {
		p.hang("  ", "No rule set was chosen, so the slings are not sized.")
		return
	}
	p.brief = true
	p.sized(*s)
}
