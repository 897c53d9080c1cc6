package rig

import (
	"math"

	"plumbhook/geom"
)

// A sling passed round a body takes hold of it by friction alone: the bight can
// run along the body, and the body can turn in the bight. What follows is the
// statics of that, for a thin sling that bends freely.

// PartTension returns what each of the two parts of a basket carries, in the
// unit of the tension that the leg pulls with along the line that halves the
// angle between them:
//
//	t = T / (2·cos(included/2))
//
// For a plumb leg the parts stand at 90° − included/2 from horizontal, and this
// is W/(2·sin a). Infinite for parts in one line. Source: derived here, from the
// balance of forces at the bight; equal pull in both parts.
func PartTension(tension, included float64) float64 {
	if !(included < math.Pi) {
		return math.Inf(1)
	}
	return tension / (2 * math.Cos(included/2))
}

// Capstan returns the greatest ratio of the pulls at the two ends of a sling
// that lies round a body over a wrap in radians, before it slips:
//
//	T₁/T₂ = e^(μφ)
//
// It holds for any shape that turns the sling by φ, corners too. Source: belt
// friction, in every textbook of statics (from memory).
func Capstan(friction, wrap float64) float64 { return math.Exp(friction * wrap) }

// Bight is a sling passed under a body, both its ends at the hook.
type Bight struct {
	Round  bool
	Across float64 // m, level; the diameter of a round body
	Deep   float64 // m, plumb; the diameter of a round body
	Leg    float64 // m, from the hook to the centre of the body
}

// Clear reports whether the hook is over the body and not in it.
func (b Bight) Clear() bool {
	return b.Across > 0 && b.Deep > 0 && b.Leg > b.Deep/2*(1+1e-9)
}

// over is how far in m the hook is above the body's upper corners.
func (b Bight) over() float64 { return b.Leg - b.Deep/2 }

// Included returns the angle in radians between the two parts. On a round body
// they touch it, sin(half) = R/leg; on a square one they pass its upper
// corners, tan(half) = ½·across/over. Source: geometry, derived here.
func (b Bight) Included() float64 {
	if b.Round {
		return 2 * math.Asin(b.Across/2/b.Leg)
	}
	return 2 * math.Atan2(b.Across/2, b.over())
}

// Wrap returns the angle in radians that the sling turns through on the body:
// half a turn, and the angle between the parts.
func (b Bight) Wrap() float64 { return math.Pi + b.Included() }

// Length returns the length in m of the sling, end to end, along its own line
// on the body's surface; half its thickness all round is not in it.
func (b Bight) Length() float64 {
	if b.Round {
		r := b.Across / 2
		return 2*math.Sqrt(b.Leg*b.Leg-r*r) + r*b.Wrap()
	}
	return 2*math.Hypot(b.Across/2, b.over()) + 2*b.Deep + b.Across
}

// Sinks returns how far in m below the centre of the body the point lies about
// which it turns in the bight when nothing but the sling's length holds it, the
// friction being nil. A CG above that point lets the body roll over.
//
// The loop has one length, so that the hook moves about the body on a curve:
// round a round body a circle about its centre, whatever the angle of the parts.
// Over the corners of a square one it is an ellipse with the upper corners as
// foci, ½·across apart from its middle and `over` high, and the curve's centre
// of curvature lies (½·across)²/over below these corners. With parts as good as
// plumb that is the corners themselves, but a small roll brings the lower corner
// into play, and then the body turns about its centre; so no point above the
// centre is returned. Source: derived here.
func (b Bight) Sinks() float64 {
	if b.Round {
		return 0
	}
	half := b.Across / 2
	return max(0, half*half/b.over()-b.Deep/2)
}

// Held returns how far in m the CG may be to one side of the centre of the body,
// level, before the body turns in the bight against the friction. With the pulls
// at k = e^(μφ), the resultant through the hook leaves the line to the centre by
//
//	tan ψ = tan(half)·(k − 1)/(k + 1)
//
// and passes the centre at leg·sin ψ; for plumb parts ½·across·tanh(μφ/2).
// Source: derived here, from [Capstan] and the balance of forces at the hook.
func (b Bight) Held(friction float64) float64 {
	half := math.Tan(b.Included() / 2)
	k := Capstan(friction, b.Wrap())
	return b.Leg * math.Sin(math.Atan(half*(k-1)/(k+1)))
}

// Lean returns the angle in radians, 0 to ½π, by which a leg leans along a body:
// how far its pull is from square to the body's axis. Both are directions of
// length 1. The bight stays if tan(lean) is not more than the friction: the pull
// square to the axis presses the sling on, the pull along it drags. The wrap
// presses more than that, half π times for plumb parts; it is not counted on.
// Source: derived here, as for a block on a slope.
func Lean(pull, axis geom.Vec) float64 {
	return math.Asin(min(1, math.Abs(pull.Dot(axis))))
}

// LeanAlong is [Lean], or where the way of the body is not known (zero) how far
// the pull is from plumb to the load: the most that it can be for a body that
// lies level in the load.
func LeanAlong(pull, axis geom.Vec) float64 {
	if axis == (geom.Vec{}) {
		return math.Acos(max(-1, min(1, pull[2])))
	}
	return Lean(pull, axis)
}

// NaturalChoke returns the angle of choke in radians, between the leg and the
// body part of the sling at the eye (½ turn: in line), that a choker takes by
// itself when the sling runs freely through its eye. Round the body friction
// takes e^(−μφ) off the pull, so that the eye is pulled by T·e^(−μφ) against the
// leg and the body part at T each:
//
//	2·cos(choke/2) = e^(−μφ)
//
// Without friction the three pulls are alike and stand at 120°; friction opens
// it. A sling that binds in its eye may stay at less. Source: derived here; the
// trade's 120° to 135° is common practice, no source.
func NaturalChoke(friction, wrap float64) float64 {
	return 2 * math.Acos(math.Exp(-friction*wrap)/2)
}

// HeldRound returns how far in m the CG may be to one side of the centre of a
// round body before it turns in its bight, at least, whatever the angle of a
// basket's parts, or in a choker:
//
//	R·(k − 1)/(k + 1) = R·tanh(μπ/2), k = e^(μπ)
//
// It is [Bight.Held] for plumb parts; parts at an angle wrap more and hold more.
// Of a choker that runs freely through its eye the body part pulls with T and
// the eye with T·e^(−μφ) or more, which turns the body by R·(1 − e^(−μφ)) times
// the pull, φ over π: more than that too. Source: derived here, from [Capstan].
func HeldRound(radius, friction float64) float64 {
	k := Capstan(friction, math.Pi)
	return radius * (k - 1) / (k + 1)
}
