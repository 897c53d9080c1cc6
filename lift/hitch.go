package lift

import (
	"fmt"
	"math"
	"strings"

	"plumbhook/geom"
	"plumbhook/rig"
	"plumbhook/takeoff"
	"plumbhook/units"
)

// Hold is how the sling of a leg takes hold of the load. The legs' solution
// takes each pick as a fixed point, the centre of the body that a basket or
// choker goes round; whether the bight stays there is told here.
type Hold struct {
	Kind     string  `json:"kind"`      // vertical, choker or basket
	ContactM float64 `json:"contact_m"` // diameter that the sling bends round or, vertical, of the pin in its eye; 0: not stated
	// Of a basket: its two parts, null where neither their angle nor the body is stated.
	PartsIncludedDeg   *float64 `json:"parts_included_deg"`
	WorstPartTensionKN *float64 `json:"worst_part_tension_kn"` // of the one that carries more
	Uneven             float64  `json:"parts_uneven"`          // what that one carries beside half; 1: the same
	SlingLengthM       *float64 `json:"sling_length_m"`        // end to end, along the surface of the body
	ChokeDeg           *float64 `json:"choke_deg"`             // angle of choke as stated; null: not stated
	// How far the leg pulls along the body, and the friction that this takes;
	// null where no friction would hold.
	LeanDeg        float64  `json:"lean_along_body_deg"`
	LeanWorstDeg   float64  `json:"lean_along_body_worst_deg"`
	FrictionNeeded *float64 `json:"friction_needed"`
	Friction       *float64 `json:"friction"`      // as stated; null: not stated, and slip is not checked
	SlipSafety     *float64 `json:"slip_safety"`   // friction stated over friction needed
	HeldOffsetM    *float64 `json:"held_offset_m"` // how far out of plumb under the centre friction may hold the CG, in a basket; null: not known
	Restrained     string   `json:"restrained,omitempty"`
	Text           string   `json:"text"`
}

// bight is a leg that goes round the load, as it is judged.
type bight struct {
	name  string
	hitch takeoff.Hitch
	loop  *rig.Bight // nil: the body is not stated, or the leg is a choker
	hold  *Hold
}

// leastUsual is the least of the friction that is usual of slings on dry steel;
// mostFriction is more than any. Common practice, no source.
const (
	leastUsual   = 0.15
	mostFriction = 1.0
)

const usualFriction = "0.15 to 0.25 is usual of slings on dry steel (common practice, no source)"

// fairSlip is the least ratio of friction stated to friction needed that needs no
// second warning: no figure of friction is surer than that. A convention of this
// program.
const fairSlip = 2.0

// hitches tells how each leg takes hold, and judges the bights.
func (p *plan) hitches(f *Hanging, best rig.Hang, worst rig.Worst, h *Header) {
	var bights []bight
	for i := range f.Legs {
		leg := &f.Legs[i]
		hitch := p.load.Rigging.HitchOf(leg.Pick)
		if !hitch.Bight() {
			if hitch.Pin > 0 {
				leg.Hold = &Hold{Kind: hitch.Kind, ContactM: hitch.Pin, Uneven: 1, Text: "vertical on a pin of " + both(hitch.Pin)}
			}
			continue
		}
		b := bight{name: leg.Pick, hitch: hitch, hold: &Hold{Kind: hitch.Kind, Restrained: hitch.Restrained, Uneven: 1}}
		leg.Hold = b.hold
		if !p.around(&b, leg, h) {
			f.Stability.Condition = "its slings reach round it"
			continue
		}
		p.lean(&b, i, best, worst)
		if b.hold.Text = b.text(); leg.WorstTensionKN > 0 {
			bights = append(bights, b)
		}
	}
	if len(bights) > 0 {
		p.judgeBightPicks(h)
		slides(bights, f, h)
		p.rolls(bights, f, best, h)
	}
	if rest, ok := strings.CutPrefix(f.Stability.Text, "stable: "); ok && f.Stability.Condition != "" {
		f.Stability.Text = "stable if " + f.Stability.Condition + ": " + rest
	}
}

func both(m float64) string { return units.Length(m).Format(units.Both) }

// around fills in what follows from the body that the sling goes round; false
// if the leg does not reach round it.
func (p *plan) around(b *bight, leg *Leg, h *Header) bool {
	hitch, hold := b.hitch, b.hold
	switch {
	case hitch.Round:
		hold.ContactM = hitch.Across
	case hitch.EdgeRadius != nil:
		hold.ContactM = 2 * *hitch.EdgeRadius
	}
	if hitch.Choke != nil {
		choke := units.Degrees(*hitch.Choke)
		hold.ChokeDeg = &choke
	}
	return hitch.Kind != "basket" || p.basket(b, leg, h)
}

// basket fills in what follows for a basket: its loop, where the body is stated,
// and its parts.
func (p *plan) basket(b *bight, leg *Leg, h *Header) bool {
	hitch, hold := b.hitch, b.hold
	var included *float64
	if hitch.Included != nil {
		stated := float64(*hitch.Included)
		included = &stated
	}
	if hitch.Across > 0 {
		loop := rig.Bight{Round: hitch.Round, Across: hitch.Across, Deep: hitch.Deep, Leg: leg.LengthM}
		if !loop.Clear() {
			hold.Text = hold.Kind + " round " + girth(hitch) + ": the leg does not reach round it"
			h.refuse("leg %s, %s from the hook to the centre of the body, does not reach round a body of %s", leg.Pick, both(leg.LengthM), girth(hitch))
			return false
		}
		b.loop = &loop
		length, apart := loop.Length(), loop.Included()
		hold.SlingLengthM = &length
		if included != nil && *included < apart-units.Radians(1) {
			h.warn("parts-angle", fmt.Sprintf("basket %s: %.1f° between its parts is stated, but from one hook over this body they stand %.1f° apart: that is taken",
				leg.Pick, degrees(*included), degrees(apart)), "look at `included angle`, `around` and the leg's length")
		}
		if included == nil || *included < apart {
			included = &apart
		}
		if hitch.Friction > 0 {
			held := loop.Held(hitch.Friction)
			hold.HeldOffsetM = &held
		}
	}
	hold.Uneven = p.uneven(hitch, hold.HeldOffsetM)
	if included != nil {
		p.parts(hold, leg, *included, h)
	}
	return true
}

// parts fills in what the two parts of a basket carry, and judges how flat they
// may stand: the leg's angle less half the angle between them, as if the leg
// leaned the way that its parts spread.
func (p *plan) parts(hold *Hold, leg *Leg, included float64, h *Header) {
	angle, pull := degrees(included), rig.PartTension(leg.WorstTensionKN, included)*hold.Uneven
	hold.PartsIncludedDeg, hold.WorstPartTensionKN = &angle, &pull
	flattest := units.FromHorizontal(units.Radians(leg.WorstFromHorizontalDeg))
	if leg.WorstTensionKN == 0 || p.limit.Judge(leg.Pick, flattest) != "" {
		return // loose, or said already
	}
	if reason := p.limit.Judge(leg.Pick+", the flatter part of its basket,", flattest-units.FromHorizontal(included/2)); reason != "" {
		h.refuse("%s", reason)
	}
}

// bodies are the ways that the bodies run which the legs' slings go round, zero
// where that is not stated; nil where no sling goes round the load.
func (p *plan) bodies() []geom.Vec {
	along, some := make([]geom.Vec, len(p.picks)), false
	for i, pick := range p.picks {
		hitch := p.load.Rigging.HitchOf(pick.Name)
		if some = some || hitch.Bight(); hitch.Along != nil {
			along[i] = p.stance.stand(*hitch.Along)
		}
	}
	if !some {
		return nil
	}
	return along
}

// lean fills in how far the leg pulls along the body, and what that takes.
func (p *plan) lean(b *bight, i int, best rig.Hang, worst rig.Worst) {
	now := rig.LeanAlong(best.Pull[i], p.bodies()[i])
	most := max(now, worst.Lean[i])
	b.hold.LeanDeg, b.hold.LeanWorstDeg = degrees(now), degrees(most)
	if needed := math.Tan(most); most < units.Radians(89) {
		b.hold.FrictionNeeded = &needed
	}
	friction := b.hitch.Friction
	if friction == 0 {
		return
	}
	b.hold.Friction = &friction
	if needed := b.hold.FrictionNeeded; needed != nil && *needed > 1e-9 {
		safety := friction / *needed
		b.hold.SlipSafety = &safety
	}
}

// judgeBightPicks looks for picks at the top of the body that the sling goes
// round, where a lug would be: the body turns in its bight about its centre, and
// taken about a higher point the load would look steadier than it is.
func (p *plan) judgeBightPicks(h *Header) {
	const fix = "write the centre of the body at the sling as the pick"
	h.assume("a basket or choker is taken to hold the body that it goes round at its centre, which is where the pick must be")
	if len(p.load.Rigging.Picks) == 0 {
		h.warn("bight-pick", "proposed picks are places on top of the load: a basket or choker turns about the centre of the body that it goes round, which is lower", fix)
		return
	}
	surface := newSurface(p.load, p.drawn.extent())
	var high []string
	for _, pick := range p.ownPicks() {
		hitch := p.load.Rigging.HitchOf(pick.Name)
		top, ok := surface.top(pick.AtM[0], pick.AtM[1])
		switch {
		case !hitch.Bight() || !ok || pick.AtM[2] < top-max(0.25*hitch.Deep, 0.005):
		case hitch.Across > 0:
			h.refuse("pick %s is at the top of the load, not at the centre of a body %s: a %s turns about that centre, and the load would hang less steady than shown", pick.Name, girth(hitch), hitch.Kind)
		default:
			high = append(high, pick.Name)
		}
	}
	if len(high) > 0 {
		h.warn("bight-pick", fmt.Sprintf("pick %s is at the top of the load: a basket or choker turns about the centre of the body that it goes round, which is lower, so that the load hangs less steady than shown",
			strings.Join(high, ", ")), fix)
	}
}

// slides judges whether the bights run along the body, and takes the plain word
// stable from a load that hangs by friction.
func slides(bights []bight, f *Hanging, h *Header) {
	var said, unsaid, slim []string
	for _, b := range bights {
		needed := b.hold.FrictionNeeded
		switch {
		case b.hold.Restrained != "":
			continue
		case b.runs():
			h.refuse("the bight of leg %s slides: %s; restrain it, or let the leg stand square to the body", b.name, b.slip())
		case b.hold.SlipSafety != nil && *b.hold.SlipSafety < fairSlip,
			b.hold.Friction == nil && (needed == nil || *needed > leastUsual):
			slim = append(slim, b.name)
		}
		said = append(said, b.name+" "+b.needs())
		if b.hold.Friction == nil {
			unsaid = append(unsaid, b.name)
		}
	}
	if len(said) == 0 {
		return
	}
	f.Stability.Condition = "the bight does not slide"
	text := "a bight is no fixed pick: only friction keeps it in its place. Along the body it needs, at worst, " + strings.Join(said, ", ")
	if len(unsaid) > 0 {
		text += "; friction not stated of " + strings.Join(unsaid, ", ") + ": slip not checked"
	}
	h.warn("bight-slides", text,
		"restrain it and say how (`restrained: \"cleats welded both sides\"`), or use lugs; lift a hand's breadth and look")
	if len(slim) > 0 {
		h.warn("little-friction", fmt.Sprintf("the bight of leg %s needs more than half of the friction stated, or where none is stated more than %.2f: no friction is known so well; %s",
			strings.Join(slim, ", "), leastUsual, usualFriction), "restrain the bight, or let the leg stand square to the body")
	}
}

// runs reports whether a bight is shown to slide: by the friction stated, or
// because the leg pulls so far along the body, whose way is stated, that none holds.
func (b bight) runs() bool {
	needed := b.hold.FrictionNeeded
	if safety := b.hold.SlipSafety; safety != nil && *safety < 1 {
		return true
	}
	return (needed == nil || *needed > mostFriction) && (b.hitch.Along != nil || b.hitch.Friction > 0)
}

// rolls judges whether the load turns in its bights: where all legs are bights
// and the legs leave the load free to roll, nothing but a CG below the centres
// of the bodies keeps it upright.
func (p *plan) rolls(bights []bight, f *Hanging, best rig.Hang, h *Header) {
	if len(bights) < len(f.Legs) || best.Toward == (geom.Vec{}) {
		return
	}
	if p.grip != nil {
		p.gripLeft(bights, h)
		if f.Stability.Condition != "" {
			f.Stability.Condition += " and "
		}
		f.Stability.Condition += "the load does not turn in the bight"
		h.warn("bight-rolls", p.grip.text(), "restrain it from turning, or pick it up by lugs; keep the slings dry and clean")
		return
	}
	sinks, held := 0.0, 0.0
	for _, b := range bights {
		if b.loop != nil {
			sinks = max(sinks, b.loop.Sinks())
		}
		if b.hold.HeldOffsetM != nil {
			held = max(held, *b.hold.HeldOffsetM)
		}
	}
	if len(bights) == 1 {
		h.warn("one-basket", "one sling round the load: nothing but a CG below the centre of the body keeps it from tipping end over end, and the sling runs along it when it tips"+p.tips(bights[0]), "use two, well apart")
	}
	friction := "how far friction holds it is not known"
	if held > 0 {
		friction = fmt.Sprintf("friction may hold it turned with the CG up to %s out of plumb, and then let go", both(held))
	}
	switch {
	case !f.Stable:
		h.warn("bight-rolls", "nothing shown keeps the load from turning in its bights; "+friction+", and is not counted on",
			"state `friction` and `along`: two round bodies in line with the picks are held where friction is enough, as those of a plain pipe; or use lugs")
	case best.Margin <= sinks:
		h.refuse("the load rolls in its bights: the CG is %s below the centre of the body, but with legs this short a body this wide turns about a point %s below it; use longer legs, or restrain it from turning", both(best.Margin), both(sinks))
	default:
		h.warn("bight-rolls", fmt.Sprintf("the load can turn in its bights: only its CG, %s below where it turns, brings it back; %s", both(best.Margin-sinks), friction),
			"restrain it from turning, or pick it up by lugs")
	}
}
