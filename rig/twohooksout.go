package rig

import (
	"fmt"
	"math"
)

// Out is the most that each hook gets when hooks are not at the heights meant
// and lines are not plumb.
type Out struct {
	Head, Tail HookOut
	Slack      bool // in some case a hook goes slack, and the other has it all
}

// HookOut is the worst case for one hook.
type HookOut struct {
	Pull     float64 // N, along the line
	Factor   float64 // Pull for each N that the hook carries with nothing out
	Angle    float64 // rad, how the load is turned then
	HeadLean float64 // rad, how far the head line leans outward, away from the other hook
	TailLean float64 // rad
}

// Out returns the greatest pull in each line, of the load turned by an angle
// in radians, where one hook may be higher or lower by heightError metres than
// the other should have it, and each line leads or lags by up to plumbError
// radians, each on its own.
//
// A height error δ turns a line of picks of length L that stands ψ up from
// level to sin ψ' = sin ψ ± δ/L. A line that leans outward by α from a pick h
// above the CG meets the CG's level h·tan α nearer to the CG, which is the
// lever then:
//
//	a = lever − h·tan α,  Head = W · a_tail / (a_head + a_tail) / cos α_head
//
// and alike for the tail. What is left over of the level pulls is taken to act
// at the CG: the load's own inertia while hooks start, stop or drift. Each
// variable moves the shares one way only, so the corners of what is in doubt
// hold the worst. Derived here; that the load is turned by the height error:
// "Guidelines for marine lifting and lowering operations", 0027/ND Rev 11,
// appendix B.1.2, which has asin(δ/L) for level picks.
//
// Errors: *InputError, also where a hook is slack with nothing out.
func (t TwoHooks) Out(angle, heightError, plumbError float64) (Out, error) {
	p, err := t.plane()
	if err != nil {
		return Out{}, err
	}
	if err := checkTurn(angle); err != nil {
		return Out{}, err
	}
	drawn := p.at(angle)
	switch {
	case !(heightError >= 0) || math.IsInf(heightError, 0):
		return Out{}, &InputError{fmt.Sprintf("hooks out by %g m of height", heightError), "give 0 or more"}
	case !(plumbError >= 0 && plumbError <= math.Pi/4):
		return Out{}, &InputError{fmt.Sprintf("lines out of plumb by %g rad", plumbError), "give 0 to π/4"}
	case drawn.HeadSlack || drawn.TailSlack:
		return Out{}, &InputError{"the load does not hang on both hooks at this angle", "ask at an angle between those where a hook goes slack"}
	}
	var out Out
	for _, height := range []float64{0, -heightError, heightError} {
		turned := p.outOfHeight(angle, height)
		for _, headLean := range []float64{0, -plumbError, plumbError} {
			for _, tailLean := range []float64{0, -plumbError, plumbError} {
				head, tail, slack := p.leaning(angle, turned, headLean, tailLean)
				out.Slack = out.Slack || slack
				out.Head.take(HookOut{head, head / drawn.Head, turned, headLean, tailLean})
				out.Tail.take(HookOut{tail, tail / drawn.Tail, turned, headLean, tailLean})
			}
		}
	}
	return out, nil
}

// take keeps the worse of two cases, the first of those that are alike.
func (o *HookOut) take(other HookOut) {
	if other.Pull > o.Pull*(1+1e-12) {
		*o = other
	}
}

// outOfHeight returns the angle that the load is turned to where the head hook
// is higher by some metres than it should be at the angle given: plumb, where
// that is more than the line of picks allows.
func (p plane) outOfHeight(angle, higher float64) float64 {
	line := p.line.turned(angle)
	sine := func(rise float64) float64 { return max(-1, min(1, rise/math.Hypot(line.along, line.up))) }
	turn := math.Asin(sine(line.up+higher)) - math.Asin(sine(line.up))
	return angle + math.Copysign(turn, line.along*turn)
}

// leaning returns the pulls in N with the load turned on from one angle to
// another, with lines that lean outward, and whether one of them is slack.
func (p plane) leaning(drawn, turned, headLean, tailLean float64) (head, tail float64, slack bool) {
	side := math.Copysign(1, p.line.turned(drawn).along)
	arm := p.arm.turned(turned)
	toHead := p.line.turned(turned).less(arm)
	headLever := side*toHead.along - toHead.up*math.Tan(headLean)
	tailLever := side*arm.along + arm.up*math.Tan(tailLean)
	none := noLever * p.size
	switch {
	case headLever > none && tailLever > none:
		head = p.weight * (tailLever / (headLever + tailLever))
		tail = p.weight * (headLever / (headLever + tailLever))
	default: // the CG is outside of one line, or of both once they have crossed
		slack = true
		if headLever <= none {
			head = p.weight
		}
		if tailLever <= none {
			tail = p.weight
		}
	}
	return head / math.Cos(headLean), tail / math.Cos(tailLean), slack
}
