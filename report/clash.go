package report

import (
	"strings"

	"plumbhook/lift"
)

// clearing prints how the legs pass the load, at the hook and at their lugs.
func (p *page) clearing(h lift.Hanging) {
	p.gap()
	if h.Included.Deg > 0 {
		text := turn(tenthUp(h.Included.Deg)) + " included at the best CG, " + turn(tenthUp(h.Included.WorstDeg)) + " at worst, the greatest between two legs: " +
			h.Included.Picks[0] + " and " + h.Included.Picks[1]
		if len(h.Legs) > 2 {
			text += ". More than two legs go in a link or a shackle, not straight on the hook (common practice, no source)"
		}
		p.field("At the hook", text)
	}
	switch {
	case h.Looked == 0:
	case len(h.Clashes) > 0:
		p.field("Clash", plural(len(h.Clashes), "place", "places")+" where a leg or bar touches the load; "+p.clears(h.Clearing, len(h.Bars) > 0))
	default:
		p.field("Clash", "none: "+plural(h.Looked, "part", "parts")+" looked at, nothing touches")
	}
	p.clashes(h)
	p.lugs(h.Lugs)
}

// clears tells what would clear.
func (p *page) clears(c lift.Clearing, bars bool) string {
	var ways []string
	if c.LeastHookM != nil {
		ways = append(ways, "least height of the hook above the highest pick "+p.length(*c.LeastHookM))
	}
	for _, b := range c.LeastBars {
		ways = append(ways, "least bar over "+b.Picks[0]+" and "+b.Picks[1]+" "+p.length(b.LengthM))
	}
	if len(ways) == 0 && bars {
		return "hang the bars higher, or move the picks"
	}
	if len(ways) == 0 {
		return "no higher hook was found that clears"
	}
	return "to clear: " + strings.Join(ways, "; ")
}

// clashes prints the places where a leg touches the load or passes it closely.
func (p *page) clashes(h lift.Hanging) {
	if len(h.Clashes)+len(h.NearMisses)+len(h.ThroughCuts) == 0 {
		return
	}
	p.sub("Where legs touch the load, or pass it closely")
	cols := []column{{"Leg or bar, and part", 0, false}, {"Along it from its lower end", 13, true}, {"At", 26, true}, {"Gap", 11, true}}
	p.titles(cols)
	for _, set := range []struct {
		found []lift.Clash
		note  string
	}{{h.Clashes, "CLASH"}, {h.NearMisses, "close"}, {h.ThroughCuts, "in a hole"}} {
		for _, c := range set.found {
			gap, note := p.stackedLength(c.GapM), set.note
			if set.note == "in a hole" {
				gap = "-"
			}
			if c.Case != "" {
				note += ", with the " + c.Case
			}
			at := "x" + glue + p.length(c.AtM[0]) + "\ny" + glue + p.length(c.AtM[1]) + "\nz" + glue + p.length(c.AtM[2])
			p.row(cols, c.Pick+", "+c.With+"\n"+note, p.stackedLength(c.AlongM), at, gap)
		}
	}
	p.gap()
	p.hang("  ", "Gap: from the side of the leg, or the line of the bar, to the part; a minus says how deep.")
}

// lugs prints how the legs pull at their lugs.
func (p *page) lugs(lugs []lift.LugPull) {
	if len(lugs) == 0 {
		return
	}
	p.sub("Pull at the lugs")
	cols := []column{{"Lug at pick", 0, false}, {"In the plate, from the lug's axis", 18, true}, {"Out of the plate", 14, true}, {"Side pull, worst", 14, true}}
	p.titles(cols)
	for _, l := range lugs {
		p.row(cols, l.Pick, turn(l.InDeg)+"\nworst "+turn(tenthUp(l.WorstInDeg)), turn(l.OutDeg)+"\nworst "+turn(tenthUp(l.WorstOutDeg)), p.stackedForceUp(l.SideKN))
	}
	p.gap()
	p.hang("  ", "The strength of lugs, welds and what they stand on is not checked.")
}
