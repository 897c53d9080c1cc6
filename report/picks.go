package report

import (
	"fmt"

	"plumbhook/lift"
)

func (p *page) picked(r lift.Picked) {
	p.refusal(r.Verdict)
	p.title("Pick points", "", r.Header)
	p.verdict(r.Verdict)
	p.warnings(r.Warnings)
	if len(r.Proposals) == 0 {
		p.heading("PICKS")
		p.line("  none could be proposed: see the reasons at the top")
	}
	number := 0
	for i, set := range r.Proposals {
		if set.Given {
			p.heading("PICKS OF THE LOAD FILE")
		} else {
			number++
			p.heading("PROPOSAL " + plainInt(number) + ": " + plural(len(set.Picks), "PICK", "PICKS"))
		}
		p.proposal(set)
		if i > 0 { // the first is what the verdict and warnings at the top are of
			p.ownVerdict(set)
		}
		p.gap()
		if !set.Legs.Solved {
			p.hang("  ", noPose)
			continue
		}
		if set.Legs.TwoHooks != nil {
			p.twoHooks(set.Legs)
			continue
		}
		p.pose(set.Legs)
		p.legs(set.Legs.Legs)
		p.bars(set.Legs)
	}
	p.assumptions(r.Assumptions)
	p.legend()
}

const geometryOnly = "proposed; geometry only: strength of load and lug not checked"

// proposal prints one set of picks.
func (p *page) proposal(set lift.Proposal) {
	if !set.Given {
		p.hang("  ", geometryOnly)
		p.gap()
	}
	cols := []column{{"Pick, from the datum", 0, false}, {"x", 14, true}, {"y", 14, true}, {"z", 14, true}}
	p.titles(cols)
	for _, pick := range set.Picks {
		p.row(cols, pick.Name, p.stackedLength(pick.AtM[0]), p.stackedLength(pick.AtM[1]), p.stackedLength(pick.AtM[2]))
	}
	p.gap()
	if !set.Given {
		p.field("Score", fmt.Sprintf("%.2f of 1, for comparing proposals; the more the better", set.Score))
	}
	for _, reason := range set.Reasons {
		p.hang("  - ", reason)
	}
	if set.TradeOff != "" {
		p.hang("  ", set.TradeOff)
	}
}

// ownVerdict prints how one set of picks was judged.
func (p *page) ownVerdict(set lift.Proposal) {
	p.gap()
	use := "yes"
	text := "acceptable as described"
	if !set.Verdict.Acceptable {
		use, text = "no", "not acceptable with these picks:"
	}
	p.line("  " + p.ink(text, use))
	p.numbered(set.Verdict.Reasons)
	for _, w := range set.Warns {
		p.hang("  warning: ", w.Text)
		p.hang("      fix: ", w.Fix)
	}
}
