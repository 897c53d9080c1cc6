package rig

import (
	"fmt"
	"math"

	"plumbhook/geom"
)

// TwoHooks is a load on two hooks, one pick each, that is carried level,
// upended, laid down or turned over while both hoist lines hang plumb. Where a
// hook holds a bridle, a beam or a pair of lugs, its pick is where that turns.
//
// The load turns in the upright plane through both picks. How the CG lies
// across that plane does not come into the levers: see Rolled.
type TwoHooks struct {
	Weight     float64  // N
	CG         geom.Vec // m, in the load's axes
	Head, Tail geom.Vec // m, the two picks in the load's axes

	// About is the level axis that the load turns about: its right-handed turns
	// are positive. The zero vector stands for the axis square to the line of
	// picks that lifts the head with positive turns. It must be given where one
	// pick is drawn plumb over the other.
	About geom.Vec
}

// Share is what the hooks carry in one attitude, as statics has it: nothing
// for lines out of plumb, for speeding up or for the hooks' own weight.
type Share struct {
	Angle      float64 // rad turned from the attitude drawn
	Head, Tail float64 // N; of a load that hangs on one hook, all of it and 0

	// HeadSlack, TailSlack: that hook carries nothing. The CG then stands plumb
	// with the other pick or outside both, and the load does not stay in this
	// attitude but swings on the other hook.
	HeadSlack, TailSlack bool
	// Through: one hook is slack and the CG is higher than the pick of the
	// other: the load goes over and falls through until it hangs below it.
	Through bool

	HeadLever, TailLever float64  // m, level from the CG to each plumb line; negative: the CG is outside of it
	Rise                 float64  // m, how much higher the head pick is than the tail pick
	Up                   geom.Vec // unit vector in the load's axes

	// RollMargin in m is how far the CG is below the line through the picks,
	// measured square to it. Negative: above, so that the load rolls over about
	// that line unless lugs on both sides or a bridle hold it. 0 where the
	// picks are plumb over each other. No use where a hook is slack.
	RollMargin float64
}

const (
	samePlace = 1e-9  // the part of a load's size below which two places are one
	noLever   = 1e-12 // the part of it below which a lever is none: what rounding leaves
)

// Check returns an *InputError for a load that makes no sense: a weight that
// is not positive, picks in one place, or an axis that is not level and square
// to the line of picks.
func (t TwoHooks) Check() error {
	_, err := t.plane()
	return err
}

// At returns the shares with the load turned by an angle in radians from the
// attitude drawn, at most one whole turn either way. Each hook carries
//
//	W · lever of the other hook / sum of the levers
//
// with levers level from the CG to the plumb lines: moments about one pick,
// derived here.
func (t TwoHooks) At(angle float64) (Share, error) {
	p, err := t.plane()
	if err != nil {
		return Share{}, err
	}
	if err := checkTurn(angle); err != nil {
		return Share{}, err
	}
	return p.at(angle), nil
}

// MostSteps is the greatest number of steps of a Curve.
const MostSteps = 100_000

// Curve returns the shares in equal steps from one angle to another in
// radians, both with them.
func (t TwoHooks) Curve(from, to float64, steps int) ([]Share, error) {
	p, err := t.plane()
	if err != nil {
		return nil, err
	}
	if err := checkTurn(from, to); err != nil {
		return nil, err
	}
	if steps < 1 || steps > MostSteps {
		return nil, &InputError{fmt.Sprintf("a curve of %d steps", steps), fmt.Sprintf("give 1 to %d", MostSteps)}
	}
	curve := make([]Share, steps+1)
	for i := range curve {
		part := float64(i) / float64(steps)
		curve[i] = p.at(from*(1-part) + to*part)
	}
	return curve, nil
}

// Rolled returns the load as it hangs, in the attitude drawn, once it has
// rolled to rest about the line of picks with nothing to hold it, the CG below
// that line, and by how many radians it rolled. The CG is then in the upright
// plane through both picks, and At balances moments about every axis. Positions
// are told in axes that stay upright, so no longer the load's own.
//
// The angle is atan2(q, p), with q across the plane and p below the line, the
// CG after it √(p² + q²) below: derived here.
func (t TwoHooks) Rolled() (TwoHooks, float64, error) {
	p, err := t.plane()
	if err != nil {
		return t, 0, err
	}
	line, _ := unit(t.Head.Sub(t.Tail))
	arm := t.CG.Sub(t.Tail)
	foot := t.Tail.Add(line.Mul(arm.Dot(line)))
	beside := t.CG.Sub(foot)
	below := p.axis.Cross(line) // square to the line, in the plane
	switch {
	case math.Abs(below[2]) <= samePlace: // picks plumb over each other: either side will do
		if beside.Dot(below) < 0 {
			below = below.Mul(-1)
		}
	case below[2] > 0:
		below = below.Mul(-1)
	}
	off, depth := math.Abs(beside.Dot(p.axis)), beside.Dot(below)
	t.CG = foot.Add(below.Mul(math.Hypot(off, depth)))
	if math.Hypot(off, depth) <= samePlace*p.size {
		return t, 0, nil
	}
	return t, math.Atan2(off, depth), nil
}

// plane is the load seen along the axis it turns about.
type plane struct {
	weight float64  // N
	size   float64  // m, the farther of the head pick and the CG from the tail pick
	axis   geom.Vec // unit vector
	ahead  geom.Vec // unit vector, level as drawn; turning lifts what lies ahead
	line   flat     // from the tail pick to the head pick
	arm    flat     // from the tail pick to the CG
}

// flat is a way in the plane, in metres.
type flat struct{ along, up float64 }

func (f flat) less(g flat) flat { return flat{f.along - g.along, f.up - g.up} }

func (f flat) turned(angle float64) flat {
	sin, cos := math.Sincos(angle)
	return flat{f.along*cos - f.up*sin, f.along*sin + f.up*cos}
}

// plane checks the load and lays it flat.
func (t TwoHooks) plane() (plane, error) {
	line, arm := t.Head.Sub(t.Tail), t.CG.Sub(t.Tail)
	size := max(line.Len(), arm.Len())
	switch {
	case !positive(t.Weight):
		return plane{}, &InputError{fmt.Sprintf("weight %g N", t.Weight), "a load must weigh something"}
	case !finite(t.CG):
		return plane{}, &InputError{"the centre of gravity is not a number", "check the positions of the parts"}
	case !finite(t.Head) || !finite(t.Tail) || math.IsInf(size, 0):
		return plane{}, &InputError{"a pick is not a place", "give three coordinates for each of the two"}
	case line.Len() <= samePlace*size || !positive(size):
		return plane{}, &InputError{"both hooks hold one place", "give two picks, or lift it on one hook"}
	}
	axis, err := t.axis(line)
	if err != nil {
		return plane{}, err
	}
	ahead := Up.Cross(axis)
	in := func(v geom.Vec) flat { return flat{v.Dot(ahead), v.Dot(Up)} }
	return plane{t.Weight, size, axis, ahead, in(line), in(arm)}, nil
}

// axis returns the unit vector that the load turns about.
func (t TwoHooks) axis(line geom.Vec) (geom.Vec, error) {
	usual := line.Cross(Up)
	plumb := usual.Len() <= 1e-6*line.Len()
	usual, _ = unit(usual)
	if t.About == (geom.Vec{}) {
		if plumb {
			return usual, &InputError{"one pick is drawn plumb over the other, so that nothing tells which way the load turns", "give the level axis that it turns about"}
		}
		return usual, nil
	}
	about, ok := unit(t.About)
	switch {
	case !finite(t.About) || !ok:
		return about, &InputError{"the axis that the load turns about is not a direction", "give three coordinates, or leave it out"}
	case math.Abs(about[2]) > 1e-6:
		return about, &InputError{fmt.Sprintf("the axis that the load turns about is %.3g° out of level", math.Asin(min(1, math.Abs(about[2])))*180/math.Pi), "give a level axis, or leave it out"}
	case !plumb && math.Abs(about.Dot(usual)) < 1-1e-12: // 1e-6 rad
		return about, &InputError{fmt.Sprintf("the axis that the load turns about is %.3g° from square to the line of picks", math.Acos(min(1, math.Abs(about.Dot(usual))))*180/math.Pi),
			"on plumb lines the load turns square to the line of picks: leave the axis out, or move a pick"}
	case plumb:
		return about, nil
	case about.Dot(usual) < 0:
		return usual.Mul(-1), nil
	}
	return usual, nil
}

// checkTurn refuses angles in radians of more than one whole turn.
func checkTurn(angles ...float64) error {
	for _, a := range angles {
		if !(math.Abs(a) <= 2*math.Pi) {
			return &InputError{fmt.Sprintf("a load turned by %g rad", a), "give an angle within one whole turn of the attitude drawn"}
		}
	}
	return nil
}

// at is At of a load that makes sense.
func (p plane) at(angle float64) Share {
	line, arm := p.line.turned(angle), p.arm.turned(angle)
	toHead := line.less(arm)
	sin, cos := math.Sincos(angle)
	s := Share{Angle: angle, Rise: line.up, Up: p.ahead.Mul(sin).Add(Up.Mul(cos))}
	side := 1.0
	if line.along < 0 { // the load is turned past plumb: the hooks have changed sides
		side = -1
	}
	s.HeadLever, s.TailLever = side*toHead.along, side*arm.along
	if s.crossing(p) {
		s.HeadSlack, s.TailSlack = line.up < 0, line.up >= 0 // all on the upper hook
	} else {
		s.HeadSlack, s.TailSlack = s.TailLever <= noLever*p.size, s.HeadLever <= noLever*p.size
		s.RollMargin = side * (line.up*arm.along - line.along*arm.up) / math.Hypot(line.along, line.up)
	}
	span := s.HeadLever + s.TailLever
	switch {
	case s.HeadSlack:
		s.Tail, s.Through = p.weight, arm.up > samePlace*p.size
	case s.TailSlack:
		s.Head, s.Through = p.weight, -toHead.up > samePlace*p.size
	default:
		s.Head, s.Tail = p.weight*(s.TailLever/span), p.weight*(s.HeadLever/span)
	}
	return s
}

// crossing says that the plumb lines are in one place: the levers settle
// nothing, and the hooks would be in each other's way.
func (s Share) crossing(p plane) bool { return s.HeadLever+s.TailLever <= samePlace*p.size }
