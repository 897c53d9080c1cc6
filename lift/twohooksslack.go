package lift

import (
	"math"

	"plumbhook/rig"
	"plumbhook/units"
)

// nearEnd in rad is how near the end of a turn a hook may be let go, and how
// near a hook that goes slack is warned of. A convention of this program.
var nearEnd = units.Radians(5)

// slack is a hook that carries nothing, from an angle on or up to it.
type slack struct {
	angle   float64 // rad
	head    bool    // the head hook; else the tail hook
	through bool    // the CG is over the pick of the other hook: the load falls through
}

// slacks are those of one case.
type slacks struct {
	start *slack // a hook is slack at the start and takes up at that angle
	going *slack // the first that goes slack on the way and does not take up

	// before and after are those within nearEnd beyond the ends of the turn,
	// where the hooks are not slack there.
	before, after *slack
}

// past says of an angle that it is no longer reached by hoisting and lowering, a
// hook having gone slack before it.
func (s slacks) past(t *onTwo) func(angle float64) bool {
	ended := math.Inf(1)
	if s.going != nil {
		ended = math.Abs(s.going.angle-t.from) + 1e-9
	}
	return func(angle float64) bool { return math.Abs(angle-t.from) > ended }
}

// findSlack finds where a hook carries nothing on the way and just beyond.
func (t *onTwo) findSlack(load rig.TwoHooks) (slacks, error) {
	found, err := findSlack(load, t.from, t.to)
	if err != nil {
		return found, err
	}
	if found.going == nil {
		found.after, err = t.beyond(load, t.to, t.way())
	}
	if err == nil && found.start == nil && (found.going == nil || found.going.angle != t.from) {
		found.before, err = t.beyond(load, t.from, -t.way())
	}
	return found, err
}

// beyond finds where a hook goes slack within nearEnd of an end of the turn.
func (t *onTwo) beyond(load rig.TwoHooks, from, way float64) (*slack, error) {
	to := max(-2*math.Pi, min(2*math.Pi, from+way*nearEnd))
	if to == from {
		return nil, nil
	}
	found, err := findSlack(load, from, to)
	return found.going, err
}

func findSlack(load rig.TwoHooks, from, to float64) (slacks, error) {
	var found slacks
	events, err := load.Limits(from, to)
	if err != nil {
		return found, err
	}
	first, err := load.At(from)
	if err != nil {
		return found, err
	}
	before := first.HeadSlack || first.TailSlack
	if before && from == to {
		found.going = newSlack(first)
		return found, nil
	}
	for _, e := range events {
		if !(e.HeadSlack || e.TailSlack) || e.Kind > rig.PicksPlumb {
			continue
		}
		after, err := load.At(e.Angle + math.Copysign(1e-6, to-from))
		if err != nil {
			return found, err
		}
		loose := e.Angle == to || after.HeadSlack || after.TailSlack
		if before && !loose && found.start == nil && found.going == nil {
			found.start = newSlack(first)
			found.start.angle = e.Angle
		}
		if loose && !before && found.going == nil {
			found.going = newSlack(e.Share)
		}
		before = loose
	}
	if found.start == nil && (first.HeadSlack || first.TailSlack) {
		found.going = newSlack(first)
	}
	return found, nil
}

func newSlack(s rig.Share) *slack { return &slack{s.Angle, s.HeadSlack, s.Through} }

// letGo and takesUp are the slack hook at the end and at the start of a turn, in
// it or just beyond, that the load hangs quietly below the other by; nil: none.
func (t *onTwo) letGo(s slacks) *slack {
	if t.quietEnd(s.going) {
		return s.going
	}
	if t.quietEnd(s.after) {
		return s.after
	}
	return nil
}

func (t *onTwo) takesUp(s slacks) *slack {
	if t.quietStart(s.start) {
		return s.start
	}
	if t.from != t.to && t.quietStart(s.before) {
		return s.before
	}
	return nil
}

// quietEnd says that a hook is let go so near the end of the turn that it is
// meant, and that the load then hangs below the other.
func (t *onTwo) quietEnd(s *slack) bool {
	return s != nil && !s.through && t.from != t.to && math.Abs(s.angle-t.to) <= nearEnd+1e-9
}

// quietStart says the same of a hook that takes up as the turn begins.
func (t *onTwo) quietStart(s *slack) bool {
	return s != nil && !s.through && math.Abs(s.angle-t.from) <= nearEnd+1e-9
}

// handOver is a stretch of the turn in which one hook is let go or takes up.
// Close to plumb the levers are so short that hooks a little out of place can
// put all of the load on either: the one that keeps it is sized for all of it.
type handOver struct {
	from, to float64 // rad, from the lesser
	at       float64 // rad, the end that is inside the turn
	keeps    string  // head or tail, the hook that has all of it
}

func (o *handOver) holds(angle float64) bool {
	return o != nil && angle >= o.from-1e-12 && angle <= o.to+1e-12
}

// handOvers finds the stretches at both ends of the turn, over all places of
// the CG: see reach.
func (t *onTwo) handOvers() (start, end *handOver) {
	way := t.way()
	for _, c := range t.cases {
		if s := t.takesUp(c.slack); s != nil {
			start = widen(start, *s, t.from, t.reach(c, s.angle, way), t)
		}
		if s := t.letGo(c.slack); s != nil {
			end = widen(end, *s, t.to, t.reach(c, s.angle, -way), t)
		}
	}
	return start, end
}

// reach is how far a hand-over reaches from the angle at which a hook is slack:
// nearEnd, and on by what hooks out of height turn the load.
func (t *onTwo) reach(c oneCase, slack, way float64) float64 {
	near := slack + way*nearEnd
	if t.given.HookHeights == nil {
		return near + way*hooksTilt
	}
	rise := func(angle float64) float64 {
		s, err := c.load.At(angle)
		if err != nil {
			return math.Inf(1) // more than once round: no further
		}
		return s.Rise
	}
	at, angle := rise(near), near
	for math.Abs(rise(angle)-at) < *t.given.HookHeights*(1-1e-9) {
		angle += way * step
	}
	return angle
}

// widen makes a stretch reach from an end of the turn to an angle.
func widen(o *handOver, s slack, fixed, reach float64, t *onTwo) *handOver {
	reach = max(min(t.from, t.to), min(max(t.from, t.to), reach))
	if o == nil {
		o = &handOver{from: fixed, to: fixed, at: reach, keeps: "head"}
		if s.head {
			o.keeps = "tail"
		}
	}
	o.from, o.to = min(o.from, reach), max(o.to, reach)
	if math.Abs(reach-fixed) > math.Abs(o.at-fixed) {
		o.at = reach
	}
	return o
}
