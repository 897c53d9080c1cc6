package lift

import (
	"fmt"
	"math"

	"plumbhook/rig"
	"plumbhook/takeoff"
	"plumbhook/units"
)

// What is said of a bight, in words.

// tips says how far the CG may be out along the body in a single bight before it
// slides: the body tips until its CG is under the hook, by atan(out/depth), and
// slides at tan = friction. Empty where friction or way are not stated. Derived here.
func (p *plan) tips(b bight) string {
	depth := p.picks[0].AtM[2] - p.cg[2]
	if b.hitch.Friction == 0 || b.hitch.Along == nil || math.Abs(p.stance.stand(*b.hitch.Along)[2]) > 1e-9 || depth <= 0 {
		return ""
	}
	return fmt.Sprintf("; at the friction stated, with the CG %s out from under the sling", both(b.hitch.Friction*depth))
}

// girth names what a sling goes round.
func girth(h takeoff.Hitch) string {
	switch {
	case h.Across == 0:
		return "a body whose size is not stated"
	case h.Round:
		return both(h.Across) + " across"
	}
	text := both(h.Across) + " wide and " + both(h.Deep) + " deep"
	if h.EdgeRadius == nil {
		return text + ", radius of its edges not stated"
	}
	return text + ", edges of radius " + both(*h.EdgeRadius)
}

// text tells a bight in a sentence or two.
func (b bight) text() string {
	hold := b.hold
	text := hold.Kind + " round " + girth(b.hitch)
	switch {
	case hold.Kind == "basket" && hold.PartsIncludedDeg != nil:
		text += fmt.Sprintf("; its parts %.1f° apart carry up to %s each at worst%s", *hold.PartsIncludedDeg, units.Force(*hold.WorstPartTensionKN*1000).FormatUp(units.Both), hold.unevenText())
	case hold.Kind == "basket":
		text += "; angle between its parts not stated, taken as side by side"
	case hold.ChokeDeg != nil:
		text += fmt.Sprintf("; angle of choke %.4g° as stated", *hold.ChokeDeg)
	default:
		text += fmt.Sprintf("; angle of choke not stated: drawn up with no friction in its eye it stands at %.0f° or more, and over 120° is taken", degrees(rig.NaturalChoke(b.hitch.Friction, math.Pi)))
	}
	if hold.SlingLengthM != nil {
		text += "; sling " + both(*hold.SlingLengthM) + " from eye to eye along the body"
	}
	return text + "; " + b.slip()
}

// needs is the friction that keeps the bight from running, in a word or two.
func (b bight) needs() string {
	if b.hold.FrictionNeeded == nil {
		return "more than there is"
	}
	text := fmt.Sprintf("%.2f", hundredthUp(*b.hold.FrictionNeeded))
	if b.hold.Friction != nil {
		text += fmt.Sprintf(" (%.2f stated)", *b.hold.Friction)
	}
	return text
}

func hundredthUp(x float64) float64 { return math.Ceil(x*100-1e-9) / 100 }

// slip tells what keeps the bight from running along the body.
func (b bight) slip() string {
	hold := b.hold
	text := fmt.Sprintf("it pulls %.1f° along the body at worst", math.Ceil(hold.LeanWorstDeg*10-1e-9)/10)
	if b.hitch.Along == nil {
		text += " (which way it runs is not stated: taken the way that the leg leans)"
	}
	switch {
	case hold.Restrained != "":
		return text + "; restrained, as stated: " + hold.Restrained
	case hold.FrictionNeeded == nil:
		return text + ", which no friction holds"
	}
	text += fmt.Sprintf(" and needs a friction of %.2f", hundredthUp(*hold.FrictionNeeded))
	switch {
	case hold.Friction == nil:
		return text + "; friction not stated: slip not checked"
	case hold.SlipSafety == nil:
		return text + fmt.Sprintf("; %.2f stated", *hold.Friction)
	}
	return text + fmt.Sprintf("; %.2f stated is %.1f times that", *hold.Friction, math.Floor(*hold.SlipSafety*10+1e-9)/10)
}
