package lift

import (
	"plumbhook/rig"
	"plumbhook/takeoff"
	"plumbhook/units"
)

// nothingToPropose says that there are no picks at all.
const nothingToPropose = "no picks are given and none could be proposed: of the places where picks may be, no two, three or four have the CG between them with legs that reach"

// Picks proposes where to pick the load up: up to three sets of two, three or
// four places, the best first, on lugs that the load file lists or on the load's
// own top. Picks of the load file come first, judged like the others.
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
		p.refuse(nothingToPropose)
		return p, nil
	}
	compare(p.Proposals)
	if err := p.inOtherStates(l, o); err != nil {
		return Picked{}, err
	}
	for _, reason := range p.Proposals[0].Verdict.Reasons {
		p.refuse("%s", reason) // beside what is against the load itself
	}
	for _, w := range p.Proposals[0].Warns {
		p.warn(w.Code, w.Text, w.Fix)
	}
	if why := whyNoneProposed(l); why != "" {
		p.assume("no other picks are proposed %s: those of the load file are judged alone", why)
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

// propose returns up to three sets of picks: the best of two, three and four,
// those that may be lifted on first, then by score; where a number has none that
// may, another good set of the others instead.
func propose(l *takeoff.Load, w Weight, o Options) ([]Proposal, error) {
	if whyNoneProposed(l) != "" {
		return nil, nil // what is said by the name of a pick fits no other picks; places are sought for a level load
	}
	if l.Rigging.Legs.Stretch.Family != "" {
		if _, err := familyOf(l, o); err != nil {
			return nil, err
		}
	}
	p, err := newProposer(l, w, o)
	if err != nil {
		return nil, err
	}
	if err := p.gather(); err != nil {
		return nil, err
	}
	chosen := p.choose()
	return chosen, p.inFull(chosen)
}

// nearestPicks in m is how near two picks of a set may be on a load that is not small:
// nearer, they are as good as one. Common practice, no source.
const nearestPicks = 0.3

// searchFor puts the limits of the load file to the search.
func (p *proposer) searchFor() rig.Search {
	limits, size := p.load.Rigging.Limits, p.weight.extent().Diagonal()
	s := rig.Search{
		CG: p.weight.CGM, CGs: p.weight.takeoff.Corners(), Hook: p.hook,
		Top: p.weight.extent().Max[2], Size: max(size, 1e-3),
		LeastAngle: float64(p.plan.limit.Least), MostTilt: units.Radians(greatestTilt), LeastDrop: max(0.005, size/200),
	}
	if limits.Tilt != nil {
		s.MostTilt = float64(*limits.Tilt)
	}
	if limits.Headroom != nil {
		s.Headroom = *limits.Headroom
	}
	if len(p.load.Rigging.Candidates.Lugs) == 0 {
		box := p.weight.extent().Size()
		s.Apart, s.Wide = min(size/10, nearestPicks), [2]float64{max(box[0], 1e-3), max(box[1], 1e-3)}
	}
	s.Seats, p.names = seats(p.load.Rigging.Candidates, p.surface, s.CG)
	return s
}
