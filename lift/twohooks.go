package lift

import (
	"errors"
	"fmt"
	"math"
	"strings"

	"plumbhook/geom"
	"plumbhook/rig"
	"plumbhook/takeoff"
	"plumbhook/units"
)

// onTwo is a load on two hooks while it is worked out.
type onTwo struct {
	plan
	given      *takeoff.TwoHooks
	head, tail hookEnd
	axis       geom.Vec // that it turns about; lugs side by side lie along it
	from, to   float64  // rad
	lean       float64  // rad, that lines may be out of plumb
	cases      []oneCase
}

// oneCase is the load with its CG at one place.
type oneCase struct {
	name   string
	cg     geom.Vec // m, in the load's axes
	across float64  // m, of the CG from the plane of the picks, along the axis
	load   rig.TwoHooks
	margin float64 // m, the least roll margin on the way; NaN where there is none
	slack  slacks
}

// hangOnTwo works out the load on two hooks.
func hangOnTwo(l *takeoff.Load, w Weight, o Options, h *Header) (plan, Hanging, error) {
	t := onTwo{plan: plan{load: l, weight: w, drawn: w, picks: givenPicks(l), rules: rules(l, o), cg: w.CGM}, given: l.Rigging.TwoHooks}
	var err error
	if t.limit, err = leastAngle(l, t.rules); err != nil {
		return t.plan, unsolved(w), fmt.Errorf("%w: %w", ErrProgram, err)
	}
	if t.limit.Warning != "" {
		h.warn("angle-limit", t.limit.Warning, "state 30° or more, or have it allowed")
	}
	liquid, err := newAfloat(l, w, nil)
	if err != nil {
		return t.plan, unsolved(w), err
	}
	if liquid != nil {
		h.refuse("liquid that can run (%s) moves the CG as the load turns on two hooks, and that is not worked out: drain it, fill it up, or baffle it and say so", strings.Join(liquid.names, ", "))
		return t.plan, unsolved(w), nil
	}
	if err := t.settle(h); err != nil {
		return t.plan, unsolved(w), err
	}
	f, worst, err := t.figures()
	if err != nil {
		return t.plan, unsolved(w), err
	}
	t.judge(&f, worst, h)
	t.notLookedAt("on two hooks", "whether legs, bars and hook clear the load, each other and what is around them", h)
	return t.plan, f, nil
}

// settle puts hooks, axis and the places of the CG into the terms of the
// statics.
func (t *onTwo) settle(h *Header) error {
	t.from, t.to = float64(t.given.From), float64(t.given.To)
	t.head, t.tail = t.end("head", t.given.Head), t.end("tail", t.given.Tail)
	t.settleOut(h)
	about := map[string]geom.Vec{"x": {1, 0, 0}, "y": {0, 1, 0}, "-x": {-1, 0, 0}, "-y": {0, -1, 0}}[t.given.About]
	best := rig.TwoHooks{Weight: float64(t.weight.planning()), CG: t.weight.CGM, Head: t.head.at, Tail: t.tail.at, About: about}
	if err := best.Check(); err != nil {
		var input *rig.InputError
		if errors.As(err, &input) {
			return bad(t.load, t.given.Line, "two hooks: "+input.Msg, input.Fix)
		}
		return fmt.Errorf("%w: %w", ErrProgram, err)
	}
	if t.axis = about; about == (geom.Vec{}) {
		t.axis = t.head.at.Sub(t.tail.at).Cross(plumb).Normalize()
	}
	for _, end := range []*hookEnd{&t.head, &t.tail} {
		if text, fix := end.settle(t.axis, t.given.Slings); text != "" {
			return bad(t.load, t.given.Line, text, fix)
		}
	}
	all := append([]rig.Place{{At: t.weight.CGM, Name: "best CG"}}, t.edges()...)
	for _, place := range all {
		c, err := t.newCase(place, best)
		if err != nil {
			return fmt.Errorf("%w: %w", ErrProgram, err)
		}
		t.cases = append(t.cases, c)
		if len(t.cases) == 1 || t.held() || math.Abs(c.across) < 1e-9 {
			continue
		}
		if c, err = t.unrolled(c, place, best); err != nil {
			return fmt.Errorf("%w: %w", ErrProgram, err)
		}
		t.cases = append(t.cases, c)
	}
	return nil
}

// unrolled is the case of a CG in the plane of the picks, below or above a corner
// of its region: a load rolls less with its CG inside the region than at the
// corners, and its CG is then nearer to the line of picks. The levers do not see
// how it lies across that plane.
func (t *onTwo) unrolled(c oneCase, place rig.Place, load rig.TwoHooks) (oneCase, error) {
	load.CG, load.Weight = place.At, c.load.Weight
	c.load, c.name = load, place.Name+", but in the plane of the picks"
	var err error
	c.slack, err = t.findSlack(load)
	return c, err
}

// newCase is the load at its sizing weight with the CG at a place. With nothing
// to hold it a load rolls until that is plumb below the line of picks.
func (t *onTwo) newCase(place rig.Place, load rig.TwoHooks) (oneCase, error) {
	load.CG, load.Weight = place.At, float64(t.weight.sizing())
	c := oneCase{name: place.Name, cg: place.At, across: place.At.Sub(t.tail.at).Dot(t.axis), load: load, margin: math.NaN()}
	var err error
	if c.slack, err = t.findSlack(load); err != nil {
		return c, err
	}
	past := c.slack.past(t)
	for _, angle := range t.angles() {
		s, err := load.At(angle)
		if err != nil {
			return c, err
		}
		if !past(angle) && !s.HeadSlack && !s.TailSlack && !(s.RollMargin > c.margin) {
			c.margin = s.RollMargin
		}
	}
	if !t.held() && c.margin > 0 {
		if c.load, _, err = load.Rolled(); err != nil {
			return c, err
		}
	}
	c.slack, err = t.findSlack(c.load)
	return c, err
}

// held says that lugs side by side hold the load from rolling.
func (t *onTwo) held() bool { return t.head.pair() || t.tail.pair() }

// step in rad is that of the angles at which the worst is looked for. Between
// the angles at which lines cross the pull of a line only rises or only falls:
// it is the quotient of two levers that are each A·cos(θ + φ). So the ends of
// a stretch hold its worst, and the steps only find where a hook goes slack.
var step = units.Radians(0.5)

// angles are those of the turn, in its order, both ends with it.
func (t *onTwo) angles() []float64 {
	n := int(math.Ceil(math.Abs(t.to-t.from)/step - 1e-9))
	out := make([]float64, n+1)
	for i := range out {
		out[i] = t.from
		if n > 0 {
			out[i] += (t.to - t.from) * float64(i) / float64(n)
		}
	}
	return out
}

// way is +1 where the angle grows on the way, -1 where it falls.
func (t *onTwo) way() float64 {
	if t.to < t.from {
		return -1
	}
	return 1
}

// usualTilt of hooks and usualLean of lines are taken where the load file does
// not state how far they may be out. The first is from "Guidelines for marine
// lifting and lowering operations", 0027/ND Rev 11, appendix B.1.2; the second a
// convention of this program.
var (
	hooksTilt = units.Radians(3)
	usualLean = units.Radians(1)
)

// settleOut settles how far the lines may lean, and says what is assumed.
func (t *onTwo) settleOut(h *Header) {
	if t.given.HookHeights == nil {
		h.assume("no `hook heights` in the load file: hooks out of the heights meant turn the load by %s either way (0027/ND Rev 11, B.1.2; for hooks on one vessel it has ±1.0 m as well)", units.Turn(hooksTilt).Format())
	}
	t.lean = usualLean
	if t.given.Plumb == nil {
		h.assume("no `plumb` in the load file: lines are taken up to %s out of plumb (a convention of this program, no source)", units.Turn(usualLean).Format())
	} else {
		t.lean = float64(*t.given.Plumb)
	}
}

// out says in words how far hooks and lines may be out.
func (t *onTwo) out() string {
	heights := fmt.Sprintf("hooks out of height by what turns the load %s either way", units.Turn(hooksTilt).Format())
	if t.given.HookHeights != nil {
		heights = fmt.Sprintf("one hook higher or lower against the other than meant by up to %s", units.Length(*t.given.HookHeights).Format(units.Both))
	}
	return fmt.Sprintf("%s; lines out of plumb by up to %s, each its own way", heights, units.Turn(t.lean).Format())
}
