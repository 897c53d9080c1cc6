package report

import (
	"fmt"
	"math"

	"plumbhook/lift"
	"plumbhook/units"
)

// bidRisk says how near each piece is to another size, and what comes late.
func (p *page) bidRisk(b lift.BidResult) {
	p.heading("HOW NEAR TO ANOTHER SIZE")
	p.hang("  ", "Chances take the weight as triangular: none below its low, most at its best, none above its high. Slings are sized at the high, or the planning weight if that is more.")
	p.gap()
	cols := []column{{title: "Mark", width: 14}, {title: "Size"}, {title: "Enough up to a weight of", width: 13, right: true}, {title: "Left", width: 6, right: true}, {title: "Size below too small", width: 9, right: true}, {title: "Size at best weight", width: 12}}
	p.titles(cols)
	for _, r := range b.Pieces {
		if r.Risk == nil {
			continue
		}
		k := r.Risk
		left := fmt.Sprintf("%.0f", math.Floor(100*k.Margin)) + glue + "%"
		if k.Near {
			left += "\nnear"
		}
		chance := wholePercent(k.Chance)
		if k.SmallerSize == "" {
			chance = "smallest"
		}
		p.row(cols, r.Mark, k.Size, units.Mass(k.HoldsKg).FormatDown(p.inTable()), left, chance, k.SizeAtBest)
	}
	late := false
	for _, g := range b.Gear {
		if g.LeadDays > float64(b.Totals.Days) && g.LeadDays > 0 {
			if !late {
				p.sub("Comes late")
				late = true
			}
			p.hang("  - ", fmt.Sprintf("%s: order it in time", p.gearName(g)))
		}
	}
	if c := b.Crane; c != nil && c.LeadDays > float64(b.Totals.Days) {
		if !late {
			p.sub("Comes late")
		}
		p.hang("  - ", fmt.Sprintf("crane, %s; %s: order it in time", c.Size, daysToSite(c.LeadDays)))
	}
}

// revision prints what became of lifts from one revision to the next.
func (p *page) revision(c lift.Compared) {
	p.refusal(c.Verdict)
	p.bidChanges(c.BidChanges)
}

// changedBy prints what an amount rose or fell by.
func changedBy(amount float64) string {
	if amount < 0 {
		return "−" + money(-amount)
	}
	return "+" + money(amount)
}

// bidChanges prints what changed, piece by piece, the cause first.
func (p *page) bidChanges(c lift.BidChanges) {
	p.heading("CHANGED AGAINST " + c.Against)
	if c.Total != nil {
		p.field("Price", money(c.Total.New)+", was "+money(c.Total.Old)+": "+changedBy(c.Total.By))
	}
	p.field("Unchanged", plural(c.Same, "piece", "pieces"))
	for _, piece := range c.Pieces {
		p.sub(piece.Mark + ": " + piece.What)
		for _, line := range piece.Text {
			p.hang("  - ", line)
		}
	}
	if len(c.Pieces) == 0 {
		p.line("  Nothing changed.")
	}
}
