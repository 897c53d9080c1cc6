package lift

import (
	"fmt"
	"math"

	"plumbhook/geom"
	"plumbhook/rig"
	"plumbhook/takeoff"
	"plumbhook/units"
)

// A round body in two bights turns freely but for friction, so that a plain pipe,
// its CG at its centre, is neutral: it stays however it is turned. Friction holds
// the CG up to some way out of plumb under the centre. Where it nowhere in its
// range is that far from the line of the centres, the body can't turn in its
// bights in any attitude, and is taken as held. Half of what is stated counts.

// gripPart is the part of a stated friction that is counted on to keep a body
// from turning in its bights: no friction is known better than that. A
// convention of this program.
const gripPart = 0.5

// grip is a round body held from turning in its two bights by friction.
type grip struct {
	from, along geom.Vec // m and a direction: the line of its centres
	out         float64  // m, the most that the CG may be from that line
	holds       float64  // m, how far from it friction holds it
	below       float64  // m, how far below the line the statics then see the CG
	aside       string   // that side forces count in out; empty: there are none
}

// gripped finds whether friction holds the load from turning in its bights: two,
// round bodies on one line with the picks, with the friction stated.
func (p *plan) gripped() *grip {
	if len(p.picks) != 2 || p.lengths == nil || p.free != nil {
		return nil
	}
	from, along, ok := p.centres()
	if !ok {
		return nil
	}
	g := &grip{from: from, along: along, holds: math.Inf(1)}
	radius := math.Inf(1)
	for i, pick := range p.picks {
		hitch := p.load.Rigging.HitchOf(pick.Name)
		if !hitch.Bight() || !hitch.Round || hitch.Friction == 0 || hitch.Along == nil || math.Abs(p.stance.stand(*hitch.Along).Dot(g.along)) < math.Cos(units.Radians(2)) {
			return nil
		}
		if p.lengths[i] <= hitch.Across/2*(1+1e-9) {
			return nil
		}
		radius = min(radius, hitch.Across/2)
		g.holds = min(g.holds, rig.HeldRound(hitch.Across/2, gripPart*hitch.Friction))
	}
	// No take-off is surer than this of where the CG is across a round body.
	g.out = max(0.005, radius/50, p.farthest(g.off))
	if g.out > g.holds {
		return nil
	}
	g.below = radius / 10
	return g
}

// centres is the line of the centres of the bodies in two bights, or in one that
// says which way its body runs; false for other rigs.
func (p *plan) centres() (from, along geom.Vec, ok bool) {
	for _, pick := range p.picks {
		if !p.load.Rigging.HitchOf(pick.Name).Bight() {
			return from, along, false
		}
	}
	switch from = p.picks[0].AtM; len(p.picks) {
	case 1:
		if way := p.load.Rigging.HitchOf(p.picks[0].Name).Along; way != nil {
			return from, p.stance.stand(*way), true
		}
	case 2:
		if along = p.picks[1].AtM.Sub(from); along.Len() > 1e-3 {
			return from, along.Normalize(), true
		}
	}
	return from, along, false
}

// farthest is the most of a distance over the range of the CG.
func (p *plan) farthest(distance func(geom.Vec) float64) float64 {
	most := distance(p.cg)
	for _, place := range p.edges() {
		most = max(most, distance(place.At))
	}
	return most
}

// uneven is how much more than half one part of a basket may carry, as a factor:
// with the CG r from the line of the centres and friction against turning, the
// pulls differ by r/(½·across) of their sum, up to all in one. Friction holds no
// more than held, where it is known; what it may be where it is not stated is the
// whole of r. Derived here, from moments about the centre, plumb parts.
func (p *plan) uneven(hitch takeoff.Hitch, held *float64) float64 {
	from, along, ok := p.centres()
	if !ok || hitch.Across == 0 {
		return 1
	}
	line := &grip{from: from, along: along}
	out := p.farthest(line.off)
	if p.grip != nil {
		out = p.grip.out
	}
	if held != nil {
		out = min(out, *held)
	}
	return 1 + min(1, out/(hitch.Across/2))
}

// unevenText says in words that the parts do not carry the same.
func (h *Hold) unevenText() string {
	if h.Uneven < 1.005 {
		return ""
	}
	return fmt.Sprintf(", %.0f %% more than half, as friction lets the CG be out from under the centre", math.Ceil((h.Uneven-1)*100-1e-9))
}

// off is how far in m a place is from the line of the centres.
func (g *grip) off(at geom.Vec) float64 { return at.Sub(g.on(at)).Len() }

// on is the place on that line beside another.
func (g *grip) on(at geom.Vec) geom.Vec {
	return g.from.Add(g.along.Mul(at.Sub(g.from).Dot(g.along)))
}

// seen is where the statics see the CG of a load that is held from turning: on
// the line of the centres, as friction takes what it turns with, and a little
// below so that the load hangs; that little is nothing beside the height of the
// hook, by which it tilts along the line.
func (g *grip) seen(at geom.Vec) geom.Vec {
	if g == nil {
		return at
	}
	return g.on(at).Sub(plumb.Mul(g.below))
}

// text tells what keeps the body from turning.
func (g *grip) text() string {
	return fmt.Sprintf("friction alone keeps the load from turning in its bights: its CG may be up to %s from the line of the centres%s, and half the friction stated holds it to %s",
		both(g.out), g.aside, both(g.holds))
}

// withGrip puts in place of how far the CG could rise, which is nothing that the
// statics know of a load held by friction, how much farther from the line of the
// centres it could be.
func (p *plan) withGrip(best *rig.Hang) {
	if p.grip != nil {
		best.Margin = p.grip.holds - p.grip.out
	}
}

// room says in words what the stability margin is.
func (p *plan) room(margin float64) string {
	if p.grip != nil {
		return fmt.Sprintf("the CG could be %s farther from the line of the centres before the load turns in its bights", both(math.Abs(margin)))
	}
	return fmt.Sprintf("the CG could rise %s before the load rolls", both(math.Abs(margin)))
}

// gripLeft refuses a load whose bights use up, against running along the body,
// the friction that is to keep it from turning: the two pull square to each
// other, so that √(stated² − needed²) is left.
func (p *plan) gripLeft(bights []bight, h *Header) {
	for _, b := range bights {
		if b.runs() && b.hold.Restrained == "" {
			continue // refused for that already
		}
		left := b.hitch.Friction
		if needed := b.hold.FrictionNeeded; b.hold.Restrained == "" && needed != nil {
			left = math.Sqrt(max(0, left*left-*needed**needed))
		}
		if holds := rig.HeldRound(b.hitch.Across/2, gripPart*left); holds < p.grip.out {
			h.refuse("the load turns in the bight of leg %s: beside what keeps it from running along, the friction stated holds the CG to %s from the line of the centres, by half, and it may be %s from it",
				b.name, both(holds), both(p.grip.out))
		}
	}
}
