package lift

import (
	"fmt"
	"math"
	"strings"

	"plumbhook/geom"
	"plumbhook/units"
)

// compare says of each proposal what it gains and what it costs beside the
// first.
func compare(all []Proposal) {
	for i := range all {
		all[i].TradeOff = ""
		if i == 0 || all[i].Legs.Posed == nil || all[0].Legs.Posed == nil {
			continue
		}
		gains, costs := all[i].against(all[0])
		than := "beside the first proposal: "
		if all[0].Given {
			than = "beside the picks of the load file: "
		}
		switch {
		case len(gains) > 0 && len(costs) > 0:
			than += strings.Join(gains, ", ") + "; but " + strings.Join(costs, ", ")
		case len(gains) > 0:
			than += strings.Join(gains, ", ")
		case len(costs) > 0:
			than += "nothing better, and " + strings.Join(costs, ", ")
		default:
			than += "much the same"
		}
		all[i].TradeOff = than
	}
}

// tradeFigure is one that proposals are compared by.
type tradeFigure struct {
	of     func(p Proposal) float64
	least  float64 // a difference that is worth a word
	more   bool    // the more the better
	words  string  // with %s for how much, and %s for more or less
	less   string  // the word for less
	format func(difference float64) string
}

var tradeFigures = []tradeFigure{
	{func(p Proposal) float64 { return float64(len(p.Picks)) }, 0.5, false, "%s %s", "fewer", func(d float64) string { return countOf(int(math.Round(d)), "leg") }},
	{Proposal.wide, 0.05, true, "%s %s between the outermost picks", "less", lengthText},
	{func(p Proposal) float64 { return p.Legs.HeadroomWorstM }, 0.05, false, "%s %s headroom", "less", lengthText},
	{Proposal.worstLeg, 0, false, "%s %s in the leg that carries most", "less", func(d float64) string { return units.Force(d * 1000).Format(units.Both) }},
	{func(p Proposal) float64 { return p.Legs.TiltWorstDeg }, 0.2, false, "%s %s tilt at worst", "less", func(d float64) string { return fmt.Sprintf("%.1f°", d) }},
	{Proposal.uneven, 0.02, false, "%s %s between the longest and the shortest leg", "less", lengthText},
	{Proposal.room, 0.02, true, "%s %s room for the CG to be out beyond its range", "less", lengthText},
}

// against says in words what a set has over another and what it costs. What
// differs by less than a twentieth goes without a word.
func (p Proposal) against(q Proposal) (gains, costs []string) {
	for _, f := range tradeFigures {
		a, b := f.of(p), f.of(q)
		if d := math.Abs(a - b); d <= max(f.least, 0.05*max(math.Abs(a), math.Abs(b))) {
			continue
		}
		word := f.less
		if a > b {
			word = "more"
		}
		text := fmt.Sprintf(f.words, f.format(math.Abs(a-b)), word)
		if (a > b) == f.more {
			gains = append(gains, text)
		} else {
			costs = append(costs, text)
		}
	}
	return gains, costs
}

func countOf(n int, word string) string {
	if n == 1 {
		return "1 " + word
	}
	return fmt.Sprintf("%d %ss", n, word)
}

// worstLeg is the greatest tension in kN that any leg has at worst.
func (p Proposal) worstLeg() float64 {
	most := 0.0
	for _, leg := range p.Legs.Legs {
		most = max(most, leg.WorstTensionKN)
	}
	return most
}

// uneven is how much longer in m the longest leg is than the shortest.
func (p Proposal) uneven() float64 {
	shortest, longest := math.Inf(1), math.Inf(-1)
	for _, leg := range p.Legs.Legs {
		shortest, longest = min(shortest, leg.LengthM), max(longest, leg.LengthM)
	}
	return longest - shortest
}

// room is how far in m the CG at worst stands from a side of the picks; for two
// also how far it may rise before the load rolls.
func (p Proposal) room() float64 {
	if p.Legs.Between == nil {
		return 0
	}
	if len(p.Picks) == 2 {
		return min(p.Legs.Between.WorstM, p.Legs.Stability.MarginM)
	}
	return p.Legs.Between.WorstM
}

// wide is how far in m the picks stand apart in plan, at their widest.
func (p Proposal) wide() float64 {
	most := 0.0
	for i, a := range p.Picks {
		for _, b := range p.Picks[:i] {
			most = max(most, geom.Vec{a.AtM[0] - b.AtM[0], a.AtM[1] - b.AtM[1], 0}.Len())
		}
	}
	return most
}
