package lift

import (
	"fmt"
	"slices"

	"plumbhook/takeoff"
)

// inOtherStates hangs each proposal in the other states of the load: lugs stay
// where they are, so that what is against them in any state is against them.
func (p *Picked) inOtherStates(l *takeoff.Load, o Options) error {
	all, err := states(l, o)
	if err != nil || len(all) == 1 {
		return err
	}
	for _, in := range all[1:] {
		var silent Header
		w, err := weigh(in, &silent)
		if err != nil {
			return fmt.Errorf("in the state %q: %w", in.State, err)
		}
		for i := range p.Proposals {
			if err := p.Proposals[i].alsoIn(in, w, o); err != nil {
				return fmt.Errorf("in the state %q: %w", in.State, err)
			}
		}
	}
	p.assume("figures of the picks are those as drawn; each set is hung in every other state too, and refused for what is against it there")
	return nil
}

// alsoIn holds a proposal against another state of the load.
func (p *Proposal) alsoIn(in *takeoff.Load, w Weight, o Options) error {
	one := *in
	if len(in.Rigging.Picks) == 0 {
		one.Rigging.Picks = line{chosen: *p}.takeoffPicks(in)
	}
	there := Proposal{Picks: p.Picks}
	if err := there.hang(&one, w, o); err != nil {
		return err
	}
	h := Header{Verdict: Verdict{p.Verdict.Acceptable, slices.Clone(p.Verdict.Reasons)}, Warnings: slices.Clone(p.Warns)}
	h.takeState(in.State, Header{Verdict: there.Verdict, Warnings: there.Warns})
	p.Verdict, p.Warns = h.Verdict, h.Warnings
	return nil
}
