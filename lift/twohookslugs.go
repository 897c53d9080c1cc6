package lift

import (
	"fmt"
	"math"

	"plumbhook/geom"
	"plumbhook/takeoff"
	"plumbhook/units"
)

// hookEnd is one hook and what it holds.
type hookEnd struct {
	name  string // head or tail
	lugs  []Pick // one, or two side by side
	at    geom.Vec
	crane *takeoff.HookCrane

	apart   float64   // m, between two lugs
	sides   []float64 // of each lug: +1 or -1 along the axis that the load turns about
	lengths []float64 // m, of the slings; 0: not stated
	height  float64   // m, of the hook over the middle of two lugs; 0: not stated
}

func (e hookEnd) pair() bool { return len(e.lugs) == 2 }

// end gathers one hook of the load file.
func (t *onTwo) end(name string, given takeoff.OneHook) hookEnd {
	e := hookEnd{name: name, crane: given.Crane}
	for _, pick := range given.Picks {
		for _, p := range t.picks {
			if p.Name == pick {
				e.lugs = append(e.lugs, p)
				e.at = e.at.Add(p.AtM)
			}
		}
	}
	e.at = e.at.Mul(1 / float64(len(e.lugs)))
	return e
}

// mostAskew in rad is how far two lugs may be from side by side. A convention
// of this program.
var mostAskew = units.Radians(2)

// settle sees that two lugs are side by side, along the axis that the load turns
// about, and that their slings reach one hook.
func (e *hookEnd) settle(axis geom.Vec, slings map[string]float64) (text, fix string) {
	for _, lug := range e.lugs {
		e.lengths = append(e.lengths, slings[lug.Name])
	}
	if !e.pair() {
		e.sides = []float64{0}
		return "", ""
	}
	a, b := e.lugs[0], e.lugs[1]
	run := b.AtM.Sub(a.AtM)
	names := fmt.Sprintf("picks %s and %s", a.Name, b.Name)
	if e.apart = run.Len(); e.apart < 1e-3 {
		return names + " are in one place", "give each lug its own place"
	}
	along := run.Dot(axis) / e.apart
	if math.Abs(along) < math.Cos(mostAskew) {
		return fmt.Sprintf("%s, both on the %s hook, are not side by side: the line between them is %.1f° from level and square to the line from tail to head",
			names, e.name, degrees(math.Acos(math.Min(1, math.Abs(along))))), "place them side by side, or give the hook one pick where its bridle turns"
	}
	e.sides = []float64{-math.Copysign(1, along), math.Copysign(1, along)}
	return e.reach(names)
}

// reach settles where two slings meet over the middle of their lugs.
func (e *hookEnd) reach(names string) (text, fix string) {
	s, other := e.lengths[0], e.lengths[1]
	switch {
	case s == 0 && other == 0:
		return "", ""
	case s == 0 || other == 0:
		return "of " + names + " only one has a length of sling", "give both, or none"
	case math.Abs(s-other) > 1e-6:
		return "the slings to " + names + " differ in length, so that the load hangs rolled, and that is not worked out", "give both one length"
	case s <= e.apart/2:
		return fmt.Sprintf("the slings to %s are too short to meet at one hook: the picks are %s apart", names, units.Length(e.apart).Format(units.Both)), "use longer slings"
	}
	e.height = math.Sqrt(s*s - e.apart*e.apart/4)
	return "", ""
}

// angle is that of the slings from horizontal: plumb, but for two that are
// known to meet at the hook.
func (e hookEnd) angle() units.FromHorizontal {
	if e.height == 0 {
		return math.Pi / 2
	}
	return units.FromHorizontal(math.Atan2(e.height, e.apart/2))
}

// lugPulls are the pulls in N in the slings of a hook that pulls with so much.
// Two lugs share by levers, with the CG a way q off the middle:
//
//	V·(1/2 ± q/B)         with lugs side by side at both hooks,
//	V/2 ± W·q/B           where only this hook can hold the load from rolling,
//
// over the sine of the slings' angle. The first is that of 0027/ND Rev 11,
// appendix B.1.2, the second moments about the line of picks, derived here.
//
// On a bridle of height H the load rolls until its CG is plumb below the line
// between the hooks, D above it there: tan(roll) = q/D, which puts
// V·sin(roll)/(2·sin(β)) more into the nearer sling, at β from plumb: no more
// than the levers have it while D ≥ H, and no more than H/D times that below.
// Derived here.
func (t *onTwo) lugPulls(e hookEnd, c oneCase, pull, depth float64) []float64 {
	out := make([]float64, len(e.lugs))
	for i := range out {
		out[i] = pull
		if !e.pair() {
			continue
		}
		moment := c.load.Weight * c.across
		if t.head.pair() && t.tail.pair() {
			moment = pull * c.across
		}
		if depth > 0 && e.height > depth { // else the load rolls over, and that is refused
			moment *= e.height / depth
		}
		// Past all of the load on one lug the other is slack: see takePull.
		upright := min(pull/2+e.sides[i]*moment/e.apart, max(pull, c.load.Weight))
		out[i] = upright / math.Sin(float64(e.angle()))
	}
	return out
}

// hangDepth is how far in m the CG is plumb below the straight line between the
// hooks, where slings of known length hold two lugs; else it is below the picks.
func (t *onTwo) hangDepth(c oneCase, angle float64) float64 {
	s, err := c.load.At(angle)
	span := s.HeadLever + s.TailLever
	if err != nil || span <= 0 {
		return math.Inf(1) // picks plumb over each other: it hangs from the upper
	}
	line := t.tail.height + s.TailLever/span*(s.Rise+t.head.height-t.tail.height)
	return line - c.load.CG.Sub(c.load.Tail).Dot(s.Up)
}
