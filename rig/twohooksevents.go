package rig

import (
	"cmp"
	"fmt"
	"math"
	"slices"
)

// Turning is a kind of thing that happens while a load turns on two hooks.
type Turning int

const (
	// HeadSlack: the CG comes plumb with the tail pick, so that the head hook
	// has nothing to carry.
	HeadSlack Turning = iota + 1
	// TailSlack: the CG comes plumb with the head pick.
	TailSlack
	// PicksPlumb: one pick is plumb over the other. All goes onto the upper
	// hook, and the lines change sides.
	PicksPlumb
	// EqualShare: both hooks carry half the load.
	EqualShare
	// MostHead and MostTail: the greatest share of that hook, the first time
	// that it has it.
	MostHead
	MostTail
)

// String names the kind in words.
func (k Turning) String() string {
	names := []string{"head hook slack", "tail hook slack", "picks plumb", "equal shares", "most on the head hook", "most on the tail hook"}
	if k < HeadSlack || k > MostTail {
		return fmt.Sprintf("Turning(%d)", int(k))
	}
	return names[k-HeadSlack]
}

// Event is one thing that happens while the load turns.
type Event struct {
	Kind Turning
	// Share as it happens. Share.Through of a slack hook: the CG stands over
	// the pick of the other, and turned on the load falls through.
	Share
	// TakesUp: turned on, the hook that is slack here comes to carry.
	TakesUp bool
}

// Limits returns what happens between two angles in radians in the order in
// which it happens, turning from the first to the second: where a hook goes
// slack or takes up, where the picks are plumb, where the shares are equal,
// and the greatest share of each hook. What holds at every angle is told once,
// at the first. What comes after a slack hook that does not take up again is
// no longer reached by hoisting and lowering.
//
// The angles are exact. Levers are A·cos(θ + φ), so their zeros are known; and
// of f, the head hook's part, df/dθ has the sign of
// (line × arm) in the plane at every θ, so that f only rises or only falls
// between the angles where the picks are plumb, and each share is greatest at
// the ends or where the other goes slack. Derived here.
func (t TwoHooks) Limits(from, to float64) ([]Event, error) {
	p, err := t.plane()
	if err != nil {
		return nil, err
	}
	if err := checkTurn(from, to); err != nil {
		return nil, err
	}
	toHead := p.line.less(p.arm)
	var events []Event
	for _, a := range p.plumbAngles(p.arm, noLever, from, to) {
		if s := p.at(a); !s.crossing(p) {
			events = append(events, Event{HeadSlack, s, p.rises(from, to)})
		}
	}
	for _, a := range p.plumbAngles(toHead, noLever, from, to) {
		if s := p.at(a); !s.crossing(p) {
			events = append(events, Event{TailSlack, s, p.rises(to, from)})
		}
	}
	for _, a := range p.plumbAngles(p.line, samePlace, from, to) {
		events = append(events, Event{Kind: PicksPlumb, Share: p.at(a)})
	}
	ends := []Share{p.at(from), p.at(to)}
	for _, e := range events {
		ends = append(ends, e.Share)
	}
	for _, a := range p.plumbAngles(p.arm.less(toHead), noLever, from, to) {
		if s := p.at(a); !s.crossing(p) {
			events = append(events, Event{Kind: EqualShare, Share: s})
		}
	}
	inOrder := func(a, b Share) int { return cmp.Compare(math.Abs(a.Angle-from), math.Abs(b.Angle-from)) }
	slices.SortStableFunc(ends, inOrder)
	events = append(events,
		Event{Kind: MostHead, Share: firstMost(ends, func(s Share) float64 { return s.Head })},
		Event{Kind: MostTail, Share: firstMost(ends, func(s Share) float64 { return s.Tail })})
	slices.SortStableFunc(events, func(a, b Event) int { return inOrder(a.Share, b.Share) })
	return events, nil
}

// rises says that the head hook's part grows when the load is turned from one
// angle to another.
func (p plane) rises(from, to float64) bool {
	return (p.arm.along*p.line.up-p.arm.up*p.line.along)*(to-from) > 0
}

// plumbAngles returns the angles from one to another at which the way f stands
// plumb, to a part of the load's size: all alike, told once, if it is no
// longer than that.
func (p plane) plumbAngles(f flat, part, from, to float64) []float64 {
	length := math.Hypot(f.along, f.up)
	if length <= part*p.size {
		return []float64{from}
	}
	rounding := part * p.size / length // rad that At would not tell from plumb
	low, high := min(from, to), max(from, to)
	first := math.Pi/2 - math.Atan2(f.up, f.along)
	var angles []float64
	for k := math.Ceil((low - rounding - first) / math.Pi); first+k*math.Pi <= high+rounding; k++ {
		angles = append(angles, max(low, min(high, first+k*math.Pi)))
	}
	return angles
}

// firstMost returns the first share in which the load on a hook in N is the
// greatest, but for rounding.
func firstMost(shares []Share, on func(Share) float64) Share {
	best := shares[0]
	for _, s := range shares[1:] {
		if on(s) > on(best)*(1+1e-12) {
			best = s
		}
	}
	return best
}
