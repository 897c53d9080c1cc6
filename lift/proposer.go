package lift

import (
	"cmp"
	"errors"
	"fmt"
	"math"
	"slices"

	"plumbhook/geom"
	"plumbhook/rig"
	"plumbhook/takeoff"
)

// How many of the best sets of each number are solved, and how many more where
// none of them may be lifted on; with liquid and on legs from
// stock, which take far longer, fewer.
const (
	solvedFirst  = 24
	solvedMore   = 100
	solvedLiquid = 6
	solvedStock  = 2
)

// What legs are taken for where they are looked at for a clash with the load:
// half as thick, and how far from the pick they are not looked at. Common
// practice, no source.
const (
	pickLegRadius = 0.020 // m
	pickLegFree   = 0.150 // m, lug and shackle
)

// proposer looks for picks for one load.
type proposer struct {
	load    *takeoff.Load
	weight  Weight
	options Options
	plan    plan // without picks: for the limits
	surface *surface
	body    rig.Obstacles
	search  rig.Search
	names   []string // of the seats that are lugs; nil: places on the top

	solved int
	ranked [5][]rig.Proposal // by number of picks, solved, best first
	hung   [5][]Proposal     // by number: those that were hung and judged, best first
}

func newProposer(l *takeoff.Load, w Weight, o Options) (*proposer, error) {
	p := &proposer{load: l, weight: w, options: o, plan: plan{load: l, weight: w, drawn: w, rules: rules(l, o)}}
	var err error
	if p.plan.limit, err = leastAngle(l, p.plan.rules); err != nil {
		return nil, fmt.Errorf("%w: %w", ErrProgram, err)
	}
	p.surface = newSurface(l, w.extent())
	p.body = p.surface.obstacles()
	p.search = p.searchFor()
	return p, nil
}

// hook is where the hook would be for picks, by the load file, and how far in
// rad lengths that are not cut for the picks may tilt the load: as the heights
// differ at which each leg alone would reach the plumb line.
func (p *proposer) hook(picks []geom.Vec) (z, tilt float64, ok bool) {
	cg, r := p.weight.CGM, p.load.Rigging
	switch {
	case r.Legs.Mode == "equal":
		low, high, wide := math.Inf(1), math.Inf(-1), 0.0
		for _, at := range picks {
			run := math.Hypot(at[0]-cg[0], at[1]-cg[1])
			if run >= r.Legs.Equal {
				return 0, 0, false
			}
			rise := at[2] + math.Sqrt(r.Legs.Equal*r.Legs.Equal-run*run)
			low, high, wide = min(low, rise), max(high, rise), max(wide, run)
		}
		return low, math.Atan2(high-low, 2*wide), true
	case r.Hook != nil && r.Hook.At != nil:
		off := math.Hypot(r.Hook.At[0]-cg[0], r.Hook.At[1]-cg[1])
		return r.Hook.At[2], math.Atan2(off, max(r.Hook.At[2]-cg[2], 1e-9)), true
	case r.Hook != nil:
		return rig.HookAbove(cg, picks, r.Hook.Height)[2], 0, true
	}
	return p.plan.hookAtAngle(picks, cg)[2], 0, true
}

// gather ranks the best sets of each number by their solved figures and hangs
// them until one may be lifted on and clears the load. Where there is none of
// any number it looks at more of them.
func (p *proposer) gather() error {
	most := solvedFirst
	switch {
	case p.load.Rigging.Legs.Mode == "stock":
		most = solvedStock
	case slices.ContainsFunc(p.load.Parts, func(part takeoff.Part) bool { return part.Liquid != nil }):
		most = solvedLiquid
	}
	if err := p.rank(most); err != nil || p.anyGood() || most < solvedFirst || p.beyondHelp() {
		return err
	}
	if err := p.rank(solvedMore); err != nil || p.anyGood() || p.search.Wide == [2]float64{} {
		return err
	}
	ranked, hung, solved := p.ranked, p.hung, p.solved
	p.search.Wide = [2]float64{} // sets that can't be marked out square, then
	err := p.rank(solvedFirst)
	if !p.anyGood() {
		p.ranked, p.hung, p.solved = ranked, hung, solved
	}
	return err
}

func (p *proposer) anyGood() bool {
	return slices.ContainsFunc(slices.Concat(p.hung[2:]...), func(one Proposal) bool { return one.Verdict.Acceptable })
}

// beyondHelp tells whether the load is too heavy for the crane on any picks.
func (p *proposer) beyondHelp() bool {
	crane := p.load.Rigging.Limits.Crane
	return crane != nil && p.weight.Weight.SizingKg+float64(crane.Block) > float64(crane.Capacity)
}

func (p *proposer) rank(most int) error {
	p.solved = 0
	for number := 2; number <= 4; number++ {
		p.ranked[number], p.hung[number] = nil, nil
		for _, set := range p.search.Best(number, most) {
			switch ok, err := p.solve(&set); {
			case err != nil:
				return err
			case ok:
				p.ranked[number] = append(p.ranked[number], set)
			}
		}
		p.solved += len(p.ranked[number])
		slices.SortStableFunc(p.ranked[number], rig.Better)
		if err := p.judge(number, max(2, most/2)); err != nil {
			return err
		}
	}
	return nil
}

// solve hangs a set at the best CG and all over its range and puts the figures
// of that for those of the closed form; false where it can't be rigged.
func (p *proposer) solve(set *rig.Proposal) (bool, error) {
	var silent Header
	plan, err := newPlan(p.load, p.weight, p.picksOf(*set), p.options, &silent, nil)
	if ok, err := rigged(err); err != nil || !ok || plan.lengths == nil {
		return false, err
	}
	r := plan.rig(p.weight.sizing())
	best, err := r.Hang()
	if err != nil {
		return false, nil // it can't hang from there
	}
	doubt := plan.doubt()
	doubt.Lengths = nil
	worst, err := r.Worst(doubt)
	if err != nil {
		return false, nil
	}
	m := &set.Marks
	m.Pull = slices.Max(worst.Tension) / r.Weight
	m.Tilt, m.Headroom = worst.Tilt, worst.MostHeadroom
	m.Spare = min(m.Spare, best.First.Shift)
	if len(set.Seats) == 2 {
		m.Spare = min(m.Spare, best.Margin/2)
	}
	m.Uneven = 1 - slices.Min(plan.lengths)/slices.Max(plan.lengths)
	set.Score = m.Score(p.search.Size)
	flattest := slices.Min(worst.FromHorizontal)
	set.Within = p.search.Keeps(*m) && worst.Stable && flattest >= p.search.LeastAngle-1e-9
	return true, nil
}

// rigged tells a set that can't be rigged from a fault of the program.
func rigged(err error) (bool, error) {
	var problems takeoff.Problems
	if errors.As(err, &problems) {
		return false, nil
	}
	return err == nil, err
}

// picksOf names the picks of a set: as the lugs are, else A, B, C and D.
func (p *proposer) picksOf(set rig.Proposal) []Pick {
	var picks []Pick
	for i, at := range set.Picks {
		name := string(rune('A' + i))
		if p.names != nil {
			name = p.names[set.Seats[i]]
		}
		picks = append(picks, Pick{name, at})
	}
	return picks
}

// hopeless is how many sets are hung that break a limit as solved, so that there
// is something to show where all do.
const hopeless = 2

// judge hangs the sets of a number, best first, until one may be lifted on and
// its legs clear the load; at most so many.
func (p *proposer) judge(number, most int) error {
	for _, set := range p.ranked[number][:min(most, len(p.ranked[number]))] {
		if !set.Within && len(p.hung[number]) >= hopeless {
			break // and so do all after it
		}
		one, ok, err := p.judged(set)
		if err != nil {
			return err
		}
		if !ok {
			continue
		}
		p.hung[number] = append(p.hung[number], one)
		if one.kind() == proposalGood {
			break
		}
	}
	slices.SortStableFunc(p.hung[number], Proposal.before)
	return nil
}

// judged hangs one set in full.
func (p *proposer) judged(set rig.Proposal) (Proposal, bool, error) {
	one := Proposal{Score: set.Score, marks: set.Marks, Picks: p.picksOf(set)}
	o := p.options
	o.tried = true
	if ok, err := rigged(one.hang(p.load, p.weight, o)); err != nil || !ok {
		return one, false, err
	}
	one.Reasons = p.reasons(one)
	if text := bendingReason(one.Legs); text != "" {
		one.Reasons = append(one.Reasons, text)
	}
	if !one.Legs.Solved {
		return one, true, nil
	}
	radius := make([]float64, len(set.Picks))
	for i := range radius {
		radius[i] = pickLegRadius
	}
	clashes, err := rig.Clashes(one.Legs.HookM, set.Picks, radius, p.body, pickLegFree)
	if err != nil {
		return one, false, fmt.Errorf("%w: %w", ErrProgram, err)
	}
	one.clashes = len(clashes) > 0
	one.Reasons = append(one.Reasons, p.clashReasons(one, clashes)...)
	return one, true, nil
}

// How good a proposal is, the best first.
const (
	proposalGood = iota // it may be lifted on and its legs clear the load
	proposalClashes
	proposalRefused
)

func (p Proposal) kind() int {
	switch {
	case !p.Verdict.Acceptable:
		return proposalRefused
	case p.clashes:
		return proposalClashes
	}
	return proposalGood
}

// before puts proposals in order by kind, then by score.
func (p Proposal) before(q Proposal) int {
	if a, b := p.kind(), q.kind(); a != b {
		return a - b
	}
	return cmp.Compare(math.Round(q.Score*1e9), math.Round(p.Score*1e9))
}
