package lift

import (
	"fmt"

	"plumbhook/geom"
	"plumbhook/rig"
	"plumbhook/sling"
	"plumbhook/takeoff"
	"plumbhook/units"
)

// usual is the angle from horizontal at which legs are drawn when the load file
// says nothing of hook and legs: common practice, no source.
var usual = units.FromHorizontal(units.Radians(60))

// plan is a load with its picks and the lengths of its legs settled.
type plan struct {
	load    *takeoff.Load
	weight  Weight
	picks   []Pick
	lengths []float64 // m; without load, where legs stretch
	how     string    // how the lengths were come by
	limit   sling.Limit
	rules   sling.Rules

	cg          geom.Vec    // m, as the statics see it: free liquid counts at its metacentre
	rise        float64     // m, the most that free liquid raises the CG in effect, about the line of the picks
	riseAny     float64     // m, and about the worst axis
	swings      bool        // liquid that runs along the picks turns the load over
	stretch     float64     // how much more an offset of the CG along the picks counts for liquid that runs there; 1 or 0: no more
	hook, along geom.Vec    // m and a direction: what stretch is measured from
	free        *FreeLiquid // nil: none

	elastic *elastic // how legs stretch; nil: not stated
	stance  *stance  // how the load is to hang; nil: as drawn. Picks, weight and CG stand so
	geared  *geared  // what gear between legs makes of the pose; nil: there is none
	drawn   Weight   // the weight in the load's own axes
	swing   float64  // m, of the load out from under the crane in wind
	poses   *poses   // as solved, for the working by hand
	grip    *grip    // nil: friction does not keep the load from turning in its bights
	tried   bool     // see Options
}

// rules returns the rule set of the command line or of the load file; empty if
// none was chosen.
func rules(l *takeoff.Load, o Options) sling.Rules {
	if o.Rules != "" {
		return sling.Rules(o.Rules)
	}
	return sling.Rules(l.Rigging.Rules)
}

// givenPicks are the picks of the load file.
func givenPicks(l *takeoff.Load) []Pick {
	var picks []Pick
	for _, p := range l.Rigging.Picks {
		picks = append(picks, Pick{p.Name, p.At})
	}
	return picks
}

func places(picks []Pick) []geom.Vec {
	at := make([]geom.Vec, len(picks))
	for i, p := range picks {
		at[i] = p.AtM
	}
	return at
}

// newPlan settles limit and lengths for picks.
func newPlan(l *takeoff.Load, w Weight, picks []Pick, o Options, h *Header, on *elastic) (plan, error) {
	s := newStance(l)
	p := plan{load: l, weight: s.weight(l, w), picks: s.picks(picks), rules: rules(l, o), cg: s.stand(w.CGM), elastic: on, stance: s, drawn: w, tried: o.tried}
	err := s.canStand(l)
	if err != nil {
		return p, err
	}
	if s != nil {
		h.assume("the load is %s, and hangs free so: how it comes up into that attitude from the ground is not reckoned", s.wanted.Text)
		if l.Rigging.Wind != nil || l.Rigging.TagLine != nil {
			h.assume("wind and tag line are level as the load hangs: their x and y are those of the load before it is turned, their places are in the load's own axes")
		}
	}
	if p.limit, err = leastAngle(l, p.rules); err != nil {
		return p, fmt.Errorf("%w: %w", ErrProgram, err)
	}
	if p.limit.Warning != "" {
		h.warn("angle-limit", p.limit.Warning, "state 30° or more, or have it allowed")
	}
	if p.settleLengths(h); p.lengths == nil {
		return p, nil // there are none, and why is among the reasons
	}
	p.cutForStretch(h)
	if err = p.float(w, h); err == nil {
		p.grip = p.gripped()
	}
	return p, err
}

// leastAngle is the limit on leg angles: the rule set's and the load file's.
// Without a rule set it is 30° or what is stated, since both sets have 30°.
func leastAngle(l *takeoff.Load, set sling.Rules) (sling.Limit, error) {
	var stated units.FromHorizontal
	if a := l.Rigging.Limits.LeastFromHorizontal; a != nil {
		stated = *a
	}
	if set != "" {
		return sling.LeastAngle(set, stated)
	}
	limit, err := sling.LeastAngle(sling.EN, stated) // the stricter on a stated limit below 30°
	if units.Degrees(limit.Least) < 30+1e-6 && stated != limit.Least {
		limit.Who = "30° where no rule set is chosen: both have it"
	}
	if limit.Warning != "" {
		limit.Warning = fmt.Sprintf("the stated least angle of %.4g° from horizontal is below 30°, and no rule set is chosen that allows it: not used", units.Degrees(stated))
	}
	return limit, err
}

// settleLengths finds the length of each leg, bearing to bearing.
func (p *plan) settleLengths(h *Header) {
	at, legs, cg := places(p.picks), p.load.Rigging.Legs, p.weight.CGM
	switch {
	case legs.Mode == "equal":
		p.how = fmt.Sprintf("given: all legs %s", units.Length(legs.Equal).Format(units.Both))
		for range at {
			p.lengths = append(p.lengths, legs.Equal)
		}
	case legs.Mode == "given":
		p.how = "given for each leg"
		for _, pick := range p.picks {
			p.lengths = append(p.lengths, legs.Given[pick.Name])
		}
	case legs.Mode == "stock":
		p.fromStock(h)
	default:
		hook := p.drawnHook(at, cg, h)
		p.lengths = rig.LevelLengths(at, hook)
	}
}

// drawnHook is where the load file puts the hook, or where the legs stand at
// the usual angle.
func (p *plan) drawnHook(at []geom.Vec, cg geom.Vec, h *Header) geom.Vec {
	switch hook := p.load.Rigging.Hook; {
	case hook != nil && hook.At != nil:
		p.how = "cut to reach the hook where the load file puts it"
		return *hook.At
	case hook != nil:
		p.how = fmt.Sprintf("cut for the load to hang %s, hook %s above the highest pick", p.asWanted(), units.Length(hook.Height).Format(units.Both))
		return rig.HookAbove(cg, at, hook.Height)
	}
	p.how = fmt.Sprintf("cut for the load to hang level, the flattest leg at %s", p.drawnAngle().Format())
	h.assume("no hook and no legs in the load file: hook plumb over the CG, legs cut for the load to hang level, the flattest at %s", p.drawnAngle().Format())
	return p.hookAtAngle(at, cg)
}

// drawnAngle is the angle from horizontal that the flattest leg is drawn at where
// nothing gives the hook's height.
func (p *plan) drawnAngle() units.FromHorizontal {
	if stated := p.load.Rigging.Limits.LeastFromHorizontal; stated != nil {
		return max(*stated, p.limit.Least)
	}
	return usual
}

// hookAtAngle is a hook plumb over the CG with the flattest leg at that angle.
func (p *plan) hookAtAngle(at []geom.Vec, cg geom.Vec) geom.Vec {
	if spread(at, cg) < 1e-6 { // a single pick over the CG: any height will do
		return rig.HookAbove(cg, at, 1)
	}
	return rig.HookAtAngle(cg, at, float64(p.drawnAngle()))
}

// rig is the plan at a weight in N, on legs that stretch as is stated, if it is.
func (p *plan) rig(weight units.Force) rig.Rig {
	if p.elastic != nil {
		return rig.Rig{Weight: float64(weight), CG: p.grip.seen(p.cg), Picks: places(p.picks), Lengths: p.lengths, Stiffness: p.stiffness(p.elastic.ea, p.lengths)}
	}
	return rig.Rig{Weight: float64(weight), CG: p.grip.seen(p.cg), Picks: places(p.picks), Lengths: p.lengths}
}

// doubt is where else the CG may be, and how far out the legs' lengths may be.
func (p *plan) doubt() rig.Doubt {
	var d rig.Doubt
	d.CGs = p.raised(p.edges())
	if p.rise > 0 {
		d.CGs = append(d.CGs, rig.Place{At: p.weight.CGM.Add(plumb.Mul(p.rise)), Name: "best CG, free liquid at its worst level"})
	}
	for i, place := range d.CGs {
		d.CGs[i].At = p.grip.seen(place.At)
	}
	corners := p.weight.extent().Corners()
	d.Body, d.Along = corners[:], p.bodies()
	for _, l := range p.lengths {
		d.Lengths = append(d.Lengths, p.lengthError(l))
	}
	return d
}

// usualError is the part of its length by which a leg is taken to be wrong where
// the load file states no tolerance and the CG is above a pick, so that a leg
// gone slack may roll the load. Common practice, no source.
const usualError = 0.0025

// lengthError is how far in m a leg's length may be out.
func (p *plan) lengthError(length float64) float64 {
	legs := p.load.Rigging.Legs
	if legs.Tolerance == 0 && legs.TolerancePart == 0 && p.high() {
		return usualError * length
	}
	return legs.Tolerance + legs.TolerancePart*length
}

// high says that the CG may be above a pick.
func (p *plan) high() bool {
	for _, pick := range p.picks {
		if p.weight.CGRangeM.Max[2] > pick.AtM[2]+1e-9 {
			return true
		}
	}
	return false
}
