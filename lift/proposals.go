package lift

import (
	"fmt"
	"math"
	"slices"

	"plumbhook/rig"
	"plumbhook/units"
)

// mostProposals is how many sets are proposed.
const mostProposals = 3

// choose takes the best of each number of picks that is as good as the best of
// all: one that may be lifted on and clears the load; if there is none, one that
// may be lifted on; if there is none, any. What is left of three places goes to
// other sets of that kind that are no neighbours of those. A score of less than a
// quarter of the best is not worth a word.
func (p *proposer) choose() []Proposal {
	var chosen, rest []Proposal
	kind := proposalRefused
	for _, one := range slices.Concat(p.hung[2:]...) {
		kind = min(kind, one.kind())
	}
	least := worthAWord * p.bestScore(kind)
	for _, hung := range p.hung {
		for i, one := range hung {
			switch {
			case one.kind() != kind || one.Score < least:
			case i == 0:
				chosen = append(chosen, one)
			default:
				rest = append(rest, one)
			}
		}
	}
	slices.SortStableFunc(rest, Proposal.before)
	for _, one := range rest {
		if len(chosen) < mostProposals && p.apart(one, chosen) && (kind == proposalRefused || one.gainsOn(chosen)) {
			chosen = append(chosen, one)
		}
	}
	if kind == proposalGood && p.load.Rigging.Legs.Mode != "stock" {
		chosen = p.others(chosen, least)
	}
	if kind == proposalRefused {
		for i := range chosen {
			chosen[i].Reasons = append(chosen[i].Reasons, fmt.Sprintf("none of the %d best sets of two, three and four places may be lifted on as described; this is among the best of them", p.solved))
		}
	}
	slices.SortStableFunc(chosen, Proposal.before)
	compare(chosen)
	return chosen
}

// inFull hangs the sets that are shown once more, with what would mend each.
func (p *proposer) inFull(chosen []Proposal) error {
	for i := range chosen {
		reasons := chosen[i].Reasons
		if err := chosen[i].hang(p.load, p.weight, p.options); err != nil {
			return err
		}
		chosen[i].Reasons = reasons
	}
	return nil
}

// worthAWord is the part of the best score that another proposal must have.
const worthAWord = 0.25

// bestScore is the greatest of a kind that was hung.
func (p *proposer) bestScore(kind int) float64 {
	best := 0.0
	for _, one := range slices.Concat(p.hung[2:]...) {
		if one.kind() == kind {
			best = max(best, one.Score)
		}
	}
	return best
}

// others adds sets that may be lifted on to those chosen until there are three:
// down the ranks of each number, the best score first, neighbours left out.
func (p *proposer) others(chosen []Proposal, least float64) []Proposal {
	ranked := slices.Concat(p.ranked[2:]...)
	slices.SortStableFunc(ranked, rig.Better)
	tried := 0
	for _, set := range ranked {
		if len(chosen) >= mostProposals || tried == solvedFirst || set.Within && set.Score < least {
			break
		}
		if !set.Within || !p.apart(Proposal{Picks: p.picksOf(set)}, chosen) {
			continue
		}
		tried++
		if one, ok, err := p.judged(set); err == nil && ok && one.kind() == proposalGood && one.gainsOn(chosen) {
			chosen = append(chosen, one)
		}
	}
	return chosen
}

// gainsOn tells whether a set has something over each of those chosen.
func (p Proposal) gainsOn(chosen []Proposal) bool {
	return !slices.ContainsFunc(chosen, func(c Proposal) bool {
		gains, _ := p.against(c)
		return len(gains) == 0
	})
}

// apart tells whether a set is no neighbour of any of those chosen: a neighbour
// has as many picks, each within an eighth of the load of one of the other's.
func (p *proposer) apart(one Proposal, chosen []Proposal) bool {
	near := p.search.Size / 8
	if p.names != nil {
		near = 1e-6 // other lugs are another set, however near
	}
	for _, c := range chosen {
		if len(c.Picks) != len(one.Picks) {
			continue
		}
		far := slices.ContainsFunc(one.Picks, func(a Pick) bool {
			return !slices.ContainsFunc(c.Picks, func(b Pick) bool { return a.AtM.Sub(b.AtM).Len() <= near })
		})
		if !far {
			return false
		}
	}
	return true
}

// reasons say what speaks for a set of picks and what against it.
func (p *proposer) reasons(one Proposal) []string {
	m, w := one.marks, p.weight
	lowest, highest := math.Inf(1), math.Inf(-1)
	for _, pick := range one.Picks {
		lowest, highest = min(lowest, pick.AtM[2]), max(highest, pick.AtM[2])
	}
	how, on := "level", "on the load's own top"
	if highest-lowest > rig.LevelTolerance {
		how = "at heights up to " + lengthText(highest-lowest) + " apart"
	}
	if p.names != nil {
		on = "of the lugs of the load file"
	}
	where := fmt.Sprintf("the CG lies %s below the picks", lengthText(lowest-w.CGM[2]))
	switch {
	case w.CGM[2] > highest:
		where = fmt.Sprintf("the CG stands %s above the picks: see the stability figures", lengthText(w.CGM[2]-highest))
	case w.CGM[2] > lowest:
		where = fmt.Sprintf("the CG stands %s above the lowest pick: see the stability figures", lengthText(w.CGM[2]-lowest))
	case highest-lowest > rig.LevelTolerance:
		where = fmt.Sprintf("the CG lies %s below the lowest pick", lengthText(lowest-w.CGM[2]))
	}
	spare := fmt.Sprintf("over its range the CG keeps %s away from where a leg goes slack", lengthText(max(0, m.Spare)))
	if len(one.Picks) == 2 {
		spare = fmt.Sprintf("over its range the CG keeps %s away from rolling about the line of the picks or passing a pick", lengthText(max(0, 2*m.Spare)))
	}
	out := []string{
		fmt.Sprintf("%d picks, %s, %s", len(one.Picks), how, on), spare,
		fmt.Sprintf("no leg can have to carry more than %.0f %% of the weight, its slant counted", math.Ceil(m.Pull*100-1e-6)), where,
	}
	if !math.IsInf(m.Edge, 1) {
		far := "about " + units.Length(math.Round(m.Edge*1000)/1000).Format(units.Both)
		if m.Edge >= ringsMost*seat {
			far = lengthText(ringsMost*seat) + " or more"
		}
		out = append(out, far+" from the nearest edge or hole")
	}
	return out
}

// clashReasons say what the legs run into, or that they clear the load.
func (p *proposer) clashReasons(one Proposal, clashes []rig.Clash) []string {
	if len(clashes) == 0 {
		return []string{fmt.Sprintf("the legs, taken as %s thick, clear the load beyond %s from the pick", lengthText(2*pickLegRadius), lengthText(pickLegFree))}
	}
	var out []string
	for _, c := range clashes {
		out = append(out, fmt.Sprintf("against it: leg %s, taken as %s thick, touches %s %s up from the pick", one.Picks[c.Leg].Name, lengthText(2*pickLegRadius), c.With, lengthText(c.Along)))
	}
	return out
}

func lengthText(m float64) string { return units.Length(m).Format(units.Both) }
