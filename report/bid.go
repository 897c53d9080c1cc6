package report

import (
	"fmt"
	"strings"

	"plumbhook/lift"
	"plumbhook/units"
)

// bid prints a bid: what changed since a former one first, then the pieces, the
// gear, the price, the risk and what all of it stands on.
func (p *page) bid(b lift.BidResult) {
	p.refusal(b.Verdict)
	p.line("BID")
	p.gap()
	t := b.Totals
	p.field("Pieces", plural(len(b.Pieces), "piece", "pieces"))
	p.field("Input", shortHash(b.InputSHA256))
	if p.opt.Version != "" {
		p.field("Program", "plumbhook "+p.opt.Version)
	}
	p.field("Rates", orElse(b.RatesFile, "none given: nothing is priced"))
	if g := b.Governing; g != nil {
		p.field("Governs", g.Mark+": "+g.Why)
	}
	p.bidSums(b)
	if b.Changes != nil {
		p.bidChanges(*b.Changes)
	}
	p.bidPieces(b)
	if t.Priced {
		p.bidGear(b)
	}
	p.bidMissing(b.Missing)
	p.bidRisk(b)
	p.assumptions(b.Assumptions)
	p.heading("NOT IN IT")
	p.numbered(b.Exclusions)
}

// money prints an amount with thousands apart.
func money(amount float64) string { return grouped(fmt.Sprintf("%.2f", amount)) }

// inTable is the system of units of a table that has room for one.
func (p *page) inTable() units.Show {
	if p.opt.Show == units.Both {
		return units.Metric
	}
	return p.opt.Show
}

// wholePercent prints a chance: whole percent, and never 0 or 100 for what may
// be or fail.
func wholePercent(part float64) string {
	switch {
	case part > 0 && part < 0.01:
		return "< 1" + glue + "%"
	case part < 1 && part > 0.99:
		return "> 99" + glue + "%"
	}
	return fmt.Sprintf("%.0f", 100*part) + glue + "%"
}

// bidSums are the sums, on the first page.
func (p *page) bidSums(b lift.BidResult) {
	t := b.Totals
	p.heading("PRICE")
	p.field("Time", fmt.Sprintf("%s in %g hours, %s; crew of %d, %s", plural(t.Lifts, "lift", "lifts"), t.Hours, plural(t.Days, "day", "days"), t.Crew, plural(t.CrewDays, "crew day", "crew days")))
	if !t.Priced {
		p.field("Price", "none: give your own rates with --rates")
		return
	}
	with := func(amount float64) string { return money(amount) + glue + t.Currency }
	p.field("Gear", with(t.Gear)+p.gearHow(t))
	if c := b.Crane; c != nil {
		p.field("Crane", fmt.Sprintf("%s, %s, %s: %s", with(c.Price), c.Size, c.Way, p.craneUse(*c)))
	}
	p.field("Riggers", with(t.Riggers))
	if !t.Complete {
		p.field("Total", with(t.Total)+", WITHOUT what has no rate or is not in the figures, see below")
	} else {
		p.field("Total", with(t.Total))
	}
	p.field("At best", fmt.Sprintf("%s if every load weighed what its take-off says at best: the spread of the weights costs %s", with(t.AtBest), with(t.OfDoubt)))
	if t.AloneWhole {
		p.field("Alone", fmt.Sprintf("%s for the gear, were it bought for each piece by itself", with(t.Alone)))
	} else {
		p.field("Alone", "not known what gear bought for each piece would cost: some of it has no price to buy")
	}
}

func (p *page) gearHow(t lift.BidTotals) string {
	if t.Exact {
		return ", the cheapest set of the rates that serves all lifts one after the other"
	}
	return fmt.Sprintf(", found step by step; no set of the rates costs less than %s", money(t.GearBound))
}

func (p *page) craneUse(c lift.CraneLine) string {
	text := fmt.Sprintf("%s of %s used by %s", percentUp(c.Used), p.massDown(c.CapacityKg), c.Mark)
	if c.Chance != nil {
		text += fmt.Sprintf("; the class below, %s, is too small with a chance of %s", p.massDown(c.SmallerKg), wholePercent(*c.Chance))
	}
	return text
}

// bidPieces is the table of pieces, and beneath it what is to be said of each.
func (p *page) bidPieces(b lift.BidResult) {
	p.heading("PIECES")
	cols := []column{{title: "Mark", width: 14}, {title: "Weight, low to high", width: 12}, {title: "Rating of its worst leg", width: 13}, {title: "Slings"}, {title: "On the hook", width: 10, right: true}, {title: "Of crane", width: 5, right: true}}
	p.titles(cols)
	show := p.inTable()
	for _, r := range b.Pieces {
		mark := r.Mark
		if r.Quantity > 1 {
			mark += fmt.Sprintf("\n× %d", r.Quantity)
		}
		if r.Error != "" {
			p.row(cols, mark, "-", "-", "fault, below", "-", "-")
			continue
		}
		if !r.Acceptable {
			mark += "\nNOT OK"
		}
		weight := units.Mass(r.Weight.BestKg).Format(show) + "\n" + units.Mass(r.Weight.LowKg).Format(show) + " to\n" + units.Mass(r.Weight.HighKg).Format(show)
		needs := units.Mass(r.RequiredKg).FormatUp(show) + "\n" + r.Leg
		p.row(cols, mark, weight, needs, p.bidSling(r), units.Mass(r.GrossKg).FormatUp(show), ofCrane(r))
	}
	p.bidFlags(b)
}

// bidSling is the smallest set of slings in the tables, in a few words.
func (p *page) bidSling(r lift.BidRow) string {
	if r.Sling == nil {
		return "none fits"
	}
	s := r.Sling
	text := fmt.Sprintf("%s, %s %s%s", strings.ReplaceAll(s.Family, "_", " "), s.Material, glued(s.Size), p.mark(s.Basis))
	if r.Hooks > 1 {
		text += "\ntwo hooks"
	}
	if r.Bars > 0 {
		text += "\n" + plural(r.Bars, "bar", "bars")
	}
	return text + "\n" + p.lengths(r.LengthsM)
}

// lengths puts lengths in few words: 4 × 2.41 m, or each of its own.
func (p *page) lengths(all []float64) string {
	var words []string
	for i := 0; i < len(all); {
		n := 1
		for i+n < len(all) && units.Length(all[i+n]).Format(p.inTable()) == units.Length(all[i]).Format(p.inTable()) {
			n++
		}
		word := p.shortLength(all[i])
		if n > 1 {
			word = fmt.Sprintf("%d × %s", n, word)
		}
		words = append(words, word)
		i += n
	}
	return strings.Join(words, ", ")
}

// ofCrane is the part of the crane's capacity that is used: of the class of the
// bid, else of the crane that the load file states.
func ofCrane(r lift.BidRow) string {
	switch {
	case r.OfClass != nil:
		return percentUp(*r.OfClass)
	case r.OfCrane != nil:
		return percentUp(*r.OfCrane)
	}
	return "-"
}

// bidFlags are what an estimator has to look at, piece by piece.
func (p *page) bidFlags(b lift.BidResult) {
	var lines [][2]string
	for _, r := range b.Pieces {
		var said []string
		if r.Error != "" {
			said = append(said, "FAULT: "+r.Error)
		}
		if r.Error == "" && !r.Acceptable {
			said = append(said, "NOT ACCEPTABLE: "+strings.Join(r.Reasons, "; "))
		}
		if r.Rough && r.Error == "" {
			said = append(said, "rough: no take-off")
		}
		switch {
		case r.Rough:
			said = append(said, r.Warned...)
		case r.Warnings > 0:
			said = append(said, plural(r.Warnings, "warning", "warnings")+", see its sheet")
		}
		if r.Sling != nil && r.Sling.Use == "care" {
			said = append(said, "its slings ask for care: look at what they bear on, heat and chemicals")
		}
		if len(said) > 0 {
			lines = append(lines, [2]string{r.Mark, strings.Join(said, "; ")})
		}
	}
	if len(lines) == 0 {
		return
	}
	p.sub("To be looked at")
	for _, l := range lines {
		p.hang(padded("  "+clean(l[0])+" ", labelled, false), l[1])
	}
}

// bidGear is the matched set.
func (p *page) bidGear(b lift.BidResult) {
	p.heading("GEAR FOR ALL LIFTS")
	cols := []column{{title: "No", width: 3, right: true}, {title: "What"}, {title: "Way", width: 8}, {title: "Each", width: 11, right: true}, {title: "Price", width: 12, right: true}, {title: "Buy from day", width: 8, right: true}}
	p.titles(cols)
	for _, g := range b.Gear {
		even := "-"
		if g.BreakEvenDays != nil {
			even = plainInt(*g.BreakEvenDays)
		}
		p.row(cols, plainInt(g.Count), p.gearName(g)+"\nfor "+few(g.Serves, 6), g.Way, money(g.Unit), money(g.Price), even)
	}
}

// gearName is a line of the set in words.
func (p *page) gearName(g lift.GearLine) string {
	words := []string{g.Kind}
	if g.Family != "" {
		words[0] = strings.ReplaceAll(g.Family, "_", " ")
	}
	for _, w := range []string{g.Material, g.Size} {
		if w != "" {
			words = append(words, w)
		}
	}
	text := strings.Join(words, ", ") + ", rated " + glued(units.Mass(g.RatedKg).FormatDown(p.inTable()))
	switch {
	case len(g.AdjustsM) == 2:
		text += fmt.Sprintf(", adjusts %s to %s", p.shortLength(g.AdjustsM[0]), p.shortLength(g.AdjustsM[1]))
	case len(g.LengthsM) > 0:
		text += ", " + p.lengths(g.LengthsM)
	}
	if g.LeadDays > 0 {
		text += "; " + daysToSite(g.LeadDays)
	}
	return text
}

func daysToSite(days float64) string {
	if days == 1 {
		return "1 day to site"
	}
	return fmt.Sprintf("%g days to site", days)
}

func (p *page) shortLength(m float64) string {
	if m == 0 {
		return "not stated"
	}
	return glued(units.Length(m).Format(p.inTable()))
}

// few lists names, not more than so many.
func few(names []string, most int) string {
	if more := len(names) - most; more > 0 {
		return strings.Join(names[:most], ", ") + fmt.Sprintf(" and %d more", more)
	}
	return strings.Join(names, ", ")
}

// bidMissing lists what has no rate.
func (p *page) bidMissing(list []lift.MissingRate) {
	if len(list) == 0 {
		return
	}
	p.heading("NO RATE FOR")
	for i, m := range list {
		p.hang(fmt.Sprintf("%4d. ", i+1), m.Kind+": "+m.What+forWhom(m.For))
	}
}
