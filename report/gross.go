package report

import (
	"strconv"

	"plumbhook/lift"
)

// gross prints what hangs on the crane's hook, item by item.
func (p *page) gross(g lift.Gross) {
	if g.TotalKg == 0 {
		return
	}
	p.sub("Gross load on the hook")
	p.hang("  ", "The load alone: "+p.mass(g.LowKg)+" at least, "+p.mass(g.BestKg)+" at best, "+p.massUp(g.HighKg)+" at most; planning weight "+
		p.massUp(g.PlanningKg)+p.extras(g)+". Counted is the greater of the planning weight and the most.")
	p.gap()
	cols := []column{{"", 0, false}, {"", 12, true}}
	for _, rung := range g.Ladder {
		text := rung.Open
		if rung.Open == "" {
			text = p.stackedMassUp(rung.Kg)
		}
		p.row(cols, rung.Name, text)
	}
	p.rule()
	p.row(cols, "On the hook", p.stackedMassUp(g.TotalKg))
	if g.LiftOffKg > 0 {
		p.row(cols, "At lift-off, with what holds the load down", p.stackedMassUp(g.LiftOffKg))
	}
	p.capacity(cols, g)
	p.gap()
	p.hang("  ", "Counted: "+g.Note+".")
}

func (p *page) extras(g lift.Gross) string {
	if g.ExtrasKg == 0 {
		return ""
	}
	return "; allowances of " + p.mass(g.ExtrasKg) + " are in it"
}

// capacity holds the total against the crane.
func (p *page) capacity(cols []column, g lift.Gross) {
	c := g.Crane
	if c == nil {
		return
	}
	if c.RowM > 0 || g.CapacityKg == 0 {
		p.row(cols, "Radius of this lift, as stated", p.stackedLength(c.RadiusM))
		if c.ToleranceM > 0 {
			p.row(cols, "+ how far out it may be", p.stackedLength(c.ToleranceM))
		}
		if c.SwingM > 0 {
			p.row(cols, "+ swing in wind on the stated hoist rope", p.stackedLength(c.SwingM))
		}
	}
	switch {
	case g.CapacityKg == 0:
		p.row(cols, "The crane's table ends before that", "no capacity")
		return
	case c.RowM > 0:
		p.row(cols, "The crane lifts there, by the row of its table for "+p.length(c.RowM)+", the next at or beyond", p.stackedMassDown(g.CapacityKg))
	case c.RadiusM > 0:
		p.row(cols, "The crane lifts at "+p.length(c.RadiusM)+", as stated", p.stackedMassDown(g.CapacityKg))
	default:
		p.row(cols, "The crane lifts there, as stated", p.stackedMassDown(g.CapacityKg))
	}
	if g.Used != nil {
		p.row(cols, "Used of that", percentUp(*g.Used))
	}
	if g.Trigger > 0 {
		p.row(cols, "Counts as critical above, as stated", percent(g.Trigger))
	}
}

// stack prints the heights from the hook down, and what is left.
func (p *page) stack(s *lift.Stack) {
	if s == nil {
		return
	}
	p.sub("Headroom, from the hook at its highest down, each at its worst")
	cols := []column{{"", 0, false}, {"", 12, true}}
	if s.TipM > 0 {
		p.row(cols, "What the block hangs from, over ground", p.stackedLength(s.TipM))
		p.row(cols, "− block, down to the bowl of the hook", p.stackedLength(s.BlockM))
		p.rule()
	}
	p.row(cols, "Bowl of the hook at its highest, over ground", p.stackedLength(s.HookM))
	p.row(cols, "− legs, from the hook down to the top of the load", p.stackedLength(s.LegsM))
	p.row(cols, "− height of the load", p.stackedLength(s.LoadM))
	p.row(cols, "− drop of its lowest corner, by the tilt at worst", p.stackedLength(s.DropM))
	p.rule()
	p.row(cols, "Underside of the load at its lowest, over ground", p.stackedLength(s.UndersideM))
	if s.OverM != nil {
		p.row(cols, "− obstacle "+p.length(*s.ObstacleM)+" high, and "+p.length(s.ClearanceM)+" clear of it: left", p.left(*s.OverM))
	}
	if s.SetDownM != nil {
		p.row(cols, "− what it is set down on, "+p.length(*s.SetDownOnM)+" high: left", p.left(*s.SetDownM))
	}
	p.gap()
	p.field("Left", p.leftInWords(*s)+" The hook has to come to "+p.length(s.HookNeededM)+" over ground at least.")
}

// left prints a height that is left, or wanting.
func (p *page) left(m float64) string {
	text := p.stackedLength(m)
	if m < 0 {
		text += "\nWANTING"
	}
	return text
}

func (p *page) leftInWords(s lift.Stack) string {
	if s.LeftM < 0 {
		return "nothing: " + p.length(-s.LeftM) + " are wanting."
	}
	return p.length(s.LeftM) + " at the tightest."
}

// heights prints what the hook's height does to tension and size.
func (p *page) heights(c *lift.HeightCurve) {
	if c == nil {
		return
	}
	p.sub("Height against tension: the hook so high over the picks, legs cut to suit")
	p.hang("  ", "Sizes of "+familyName(lift.Family{Family: c.Family, Material: c.Material})+". Each height hung again over all that is in doubt.")
	if len(c.Rows) > 0 {
		p.gap()
		cols := []column{{"Hook over picks", 13, true}, {"Longest leg", 13, true}, {"Flattest at worst", 8, true}, {"Worst tension", 12, true}, {"Rating needed", 11, true}, {"Size", 0, false}}
		p.titles(cols)
		for _, row := range c.Rows {
			p.row(cols, p.stackedLength(row.HookM), p.stackedLength(row.LongestM), plainAngle(tenthDown(row.WorstFlattestDeg)), p.stackedForceUp(row.WorstTensionKN), p.neededAt(row), p.sizeAt(row, len(bad(c.Rows)) < len(c.Rows)))
		}
	}
	p.gap()
	p.field("Steps", c.Text+". The heights end at "+c.Top+".")
	p.notAt(c.Rows)
}

// bad are the heights that are not acceptable.
func bad(rows []lift.HeightRow) (out []lift.HeightRow) {
	for _, row := range rows {
		if !row.Acceptable && len(row.Reasons) > 0 {
			out = append(out, row)
		}
	}
	return out
}

// notAt says why heights are not acceptable; once where none is.
func (p *page) notAt(rows []lift.HeightRow) {
	not := bad(rows)
	if len(not) > 1 && len(not) == len(rows) {
		p.field("Not at", "any of these heights; at the last: "+not[len(not)-1].Reasons[0])
		return
	}
	for _, row := range not {
		p.field("Not at", p.length(row.HookM)+": "+row.Reasons[0])
	}
}

func (p *page) neededAt(row lift.HeightRow) string {
	if row.RequiredKg == 0 {
		return "-"
	}
	return p.stackedMassUp(row.RequiredKg)
}

// sizeAt marks a height that is not acceptable where others are.
func (p *page) sizeAt(row lift.HeightRow, marked bool) string {
	text := row.Size
	if text == "" {
		text = "none large enough"
	}
	if row.Saves {
		text += "\nsmaller"
	}
	if !row.Acceptable && marked {
		text += "\nNOT ACCEPTABLE"
	}
	return text
}

// decimals prints a plain figure.
func plain(x float64, places int) string { return strconv.FormatFloat(x, 'f', places, 64) }
