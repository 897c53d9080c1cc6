package lift

import (
	"errors"
	"fmt"
	"math"

	"plumbhook/rig"
	"plumbhook/takeoff"
	"plumbhook/units"
)

// Picks proposes where to pick the load up: two, three or four places at one
// level on its top. Picks of the load file come first, judged like the others.
//
// Errors are those of Legs.
func Picks(l *takeoff.Load, o Options) (Picked, error) {
	l, err := inState(l, o)
	if err != nil {
		return Picked{}, err
	}
	h := newHeader(l)
	w, err := weigh(l, &h)
	if err != nil {
		return Picked{}, err
	}
	p := Picked{Header: h, SheetPicks: SheetPicks{[]Proposal{}}}
	if given := givenPicks(l); len(given) > 0 {
		own := Proposal{Given: true, Picks: given, Reasons: []string{"given by the load file"}}
		if err := own.hang(l, w, o); err != nil {
			return Picked{}, err
		}
		p.Proposals = append(p.Proposals, own)
	}
	found, err := propose(l, w, o)
	if err != nil {
		return Picked{}, err
	}
	p.Proposals = append(p.Proposals, found...)
	if len(p.Proposals) == 0 {
		p.refuse("no picks are given and none could be proposed: no level places on the load's top with the CG between them within the limits")
		return p, nil
	}
	p.Verdict = p.Proposals[0].Verdict
	for _, w := range p.Proposals[0].Warns {
		p.warn(w.Code, w.Text, w.Fix)
	}
	if len(found) > 0 {
		p.assume("proposed picks: geometry only; strength of load and lug not checked")
	}
	return p, nil
}

// hang solves and judges the proposal on its own.
func (p *Proposal) hang(l *takeoff.Load, w Weight, o Options) error {
	h := Header{Verdict: Verdict{Acceptable: true, Reasons: []string{}}, Warnings: []Warning{}}
	_, legs, err := hang(l, w, p.Picks, o, &h)
	p.Legs, p.Verdict, p.Warns = legs, h.Verdict, h.Warnings
	if text := bendingReason(legs); text != "" {
		p.Reasons = append(p.Reasons, text)
	}
	return err
}

// propose returns the best sets of picks on the load's top, those that may be
// lifted on first, then by score.
func propose(l *takeoff.Load, w Weight, o Options) ([]Proposal, error) {
	if l.Rigging.Legs.Mode == "given" || l.Rigging.Legs.Up != nil || l.Rigging.TwoHooks != nil || l.Rigging.Bar != nil {
		return nil, nil // what is said by the name of a pick fits no other picks; places are sought for a level load
	}
	if l.Rigging.Legs.Stretch.Family != "" {
		if _, err := familyOf(l, o); err != nil {
			return nil, err
		}
	}
	reach, err := reachOf(l, o)
	if err != nil {
		return nil, fmt.Errorf("%w: %w", ErrProgram, err)
	}
	top := newSurface(l, w.extent())
	var good, rest []Proposal
	for _, set := range rig.Propose(w.CGM, top.lattice(w.CGM), reach) {
		p := Proposal{Score: set.Score, Reasons: reasons(set, w)}
		for i, at := range set.Picks {
			p.Picks = append(p.Picks, Pick{string(rune('A' + i)), at})
		}
		var problems takeoff.Problems
		switch err := p.hang(l, w, o); {
		case errors.As(err, &problems):
			continue // a set that can't be rigged is no proposal
		case err != nil:
			return nil, err
		case p.Verdict.Acceptable:
			good = append(good, p)
		default:
			rest = append(rest, p)
		}
	}
	return append(good, rest...), nil
}

// reachOf is how far in m in plan a pick may be from the CG for angle, headroom
// and hook or legs of the load file to be kept; 0: as far as it likes.
func reachOf(l *takeoff.Load, o Options) (float64, error) {
	limit, err := leastAngle(l, rules(l, o))
	if err != nil {
		return 0, err
	}
	reach, angle := math.Inf(1), float64(limit.Least)
	switch g := l.Rigging; {
	case g.Legs.Mode == "equal":
		reach = g.Legs.Equal * math.Cos(angle)
	case g.Hook != nil && g.Hook.At == nil:
		reach = g.Hook.Height / math.Tan(angle)
	case g.Hook == nil && g.Limits.LeastFromHorizontal == nil:
		angle = float64(usual)
	}
	if room := l.Rigging.Limits.Headroom; room != nil {
		reach = min(reach, *room/math.Tan(angle))
	}
	if math.IsInf(reach, 1) {
		return 0, nil
	}
	return reach, nil
}

// reasons say what speaks for a set of picks.
func reasons(set rig.Proposal, w Weight) []string {
	drop := set.Picks[0][2] - w.CGM[2]
	where := fmt.Sprintf("the CG lies %s below the picks", units.Length(drop).Format(units.Both))
	if drop < 0 {
		where = fmt.Sprintf("the CG stands %s above the picks: see the stability figures", units.Length(-drop).Format(units.Both))
	}
	way := "to the nearest side of the picks"
	if len(set.Picks) == 2 {
		way = "to the nearer pick"
	}
	return []string{
		fmt.Sprintf("%d picks, level, on the load's own top", len(set.Picks)),
		fmt.Sprintf("%s from the CG %s", units.Length(set.Reach).Format(units.Both), way),
		fmt.Sprintf("no pick can have to carry more than %.0f %% of the weight", math.Ceil(set.Share*100-1e-6)),
		where,
	}
}
