package lift

import (
	"errors"
	"fmt"
	"math"
	"strings"

	"plumbhook/geom"
	"plumbhook/rig"
	"plumbhook/sling"
	"plumbhook/takeoff"
	"plumbhook/units"
)

// Legs solves how the load hangs on the picks of the load file, or on the best
// proposed ones if it gives none.
//
// Errors: takeoff.Problems for a rigging that makes no sense, ErrProgram where
// the two methods that solve the pose disagree.
func Legs(l *takeoff.Load, o Options) (Hung, error) {
	_, h, line, err := followStates(l, o)
	if err != nil {
		return Hung{}, err
	}
	if o.Explain && line.legs.Posed != nil {
		line.legs.Working = line.explainLegs()
	}
	h.unexplained(o.Explain && line.legs.Solved && (line.legs.Posed == nil || line.legs.Working == nil))
	return Hung{h, line.legs}, nil
}

// line is the way from weight to legs, for the questions that follow on.
type line struct {
	weight  Weight
	plan    plan
	legs    Hanging
	chosen  Proposal // the picks that the legs are on
	planned bool     // false: there are no picks to hang the load from
	others  []otherState
}

// follow weighs the load, settles its picks and hangs it.
func follow(l *takeoff.Load, o Options) (Header, line, error) {
	h := newHeader(l)
	w, err := weigh(l, &h)
	if err != nil {
		return h, line{}, err
	}
	chosen := Proposal{Given: true, Picks: givenPicks(l), Reasons: []string{"given by the load file"}}
	if len(chosen.Picks) == 0 {
		found, err := propose(l, w, o)
		if err != nil {
			return h, line{}, err
		}
		if len(found) == 0 {
			h.refuse(nothingToPropose)
			return h, line{weight: w, legs: unsolved(w)}, nil
		}
		chosen = found[0]
		h.assume("no picks in the load file: the best proposal is used (geometry only: strength of load and lug not checked)")
	}
	p, legs, err := hang(l, w, chosen.Picks, o, &h)
	chosen.Legs, chosen.Verdict, chosen.Warns = legs, h.Verdict, h.Warnings
	return h, line{weight: w, plan: p, legs: legs, chosen: chosen, planned: true}, err
}

// unsolved is what is left to show when no pose was found.
func unsolved(w Weight) Hanging {
	return Hanging{SizingKg: w.Weight.SizingKg, PlanningKg: w.Weight.PlanningKg, Legs: []Leg{}}
}

// hang solves the pose on the picks, judges it, and fills in the figures.
func hang(l *takeoff.Load, w Weight, picks []Pick, o Options, h *Header) (plan, Hanging, error) {
	if l.Rigging.Legs.Stretch.Family != "" {
		return hangFamily(l, w, picks, o, h)
	}
	on := stretchOf(l)
	if on == nil {
		assumeRigid(l, h)
	}
	return hangOn(l, w, picks, o, h, on)
}

// hangOn hangs the load on legs of a stiffness; nil: they do not stretch. It solves
// the pose at its best and at its worst, fills in the figures, each way of sharing
// and what wind and ground add, and then judges them: a figure must stand before
// what judges it, and a judgement is made once.
func hangOn(l *takeoff.Load, w Weight, picks []Pick, o Options, h *Header, on *elastic) (plan, Hanging, error) {
	if err := tooHeavy(l, w); err != nil {
		return plan{}, unsolved(w), err
	}
	if l.Rigging.TwoHooks != nil {
		return hangOnTwo(l, w, o, h)
	}
	if l.Rigging.Bar != nil {
		return hangBars(l, w, picks, o, h)
	}
	p, err := newPlan(l, w, picks, o, h, on)
	if err != nil {
		return p, unsolved(w), err
	}
	if p.lengths == nil {
		return p, unsolved(w), nil
	}
	rig := p.rig(w.planning())
	best, err := rig.Hang()
	if err == nil {
		err = rig.Verify(best)
	}
	if err != nil {
		return p, unsolved(w), p.cannotHang(err, "", h)
	}
	worst, err := p.worst(h)
	if err != nil {
		return p, unsolved(w), err
	}
	best = p.withGear(best, h)
	after, follows := rig.AfterSlack(best)
	if !follows {
		after.RollsOver = false
	}
	p.withLiquid(&best, &worst, h)
	p.withGrip(&best)
	f := p.figures(best, worst)
	f.Level = p.levelWays(rig, best)
	p.stretched(&f, rig, best, h)
	f.Gear = p.gearWays(rig, best)
	p.share(&f, best, worst, h)
	p.otherPoses(&f, rig, best, h)
	f.TrialLift = p.trialLift(best, worst)
	p.assumeCalm(h)
	if err := p.sideForces(&f, best, h); err != nil {
		return p, unsolved(w), err
	}
	p.withGrip(&best) // side forces take from it
	if err := p.liftOff(&f, h); err != nil {
		return p, unsolved(w), err
	}
	p.stability(&f, best, after, follows)
	p.judge(&f, best, worst, h)
	p.stack(&f, h)
	p.poses = &poses{best, worst}
	p.hitches(&f, best, worst, h)
	p.clash(&f, rig, best, h)
	p.angles(&f, rig, best, h)
	p.bending(&f)
	p.judgeMargins(best, follows && (after.RollsOver || !after.Stable), h)
	return p, f, nil
}

// worst solves the rig over all that is in doubt. Where some case can't hang
// at all that is a reason against the lift, and the worst is that of the rest.
func (p *plan) worst(h *Header) (rig.Worst, error) {
	r := p.rig(p.weight.sizing())
	worst, err := p.worstOf(r, p.doubt())
	if err == nil {
		return worst, nil
	}
	if err := p.cannotHang(err, "at worst over the ranges: ", h); err != nil {
		return worst, err
	}
	only := p.doubt()
	only.CGs, only.Lengths = nil, nil
	worst, err = p.worstOf(r, only)
	worst.Stable, worst.Unstable = false, "" // what can't hang does not hold; why has been said
	if err != nil {
		return worst, fmt.Errorf("%w: %w", ErrProgram, err)
	}
	return worst, nil
}

// cannotHang turns an error of the statics into a reason, a fault of the input
// or a fault of the program.
func (p *plan) cannotHang(err error, when string, h *Header) error {
	var input *rig.InputError
	var reach *rig.ReachError
	switch {
	case errors.As(err, &input):
		return bad(p.load, p.line(), p.named(input.Msg), input.Fix)
	case errors.As(err, &reach) && p.free != nil && len(reach.Legs) == 0:
		h.refuse("%sunstable: liquid that can run acts as if the CG of the load were up to %s higher, and that is no lower than the hook: the load would swing over; drain it or fill it up, baffle it, or use longer legs",
			when, units.Length(p.rise).Format(units.Both))
		return nil
	case errors.As(err, &reach):
		msg := reach.Msg
		if len(reach.Legs) == 2 {
			a, b := reach.Legs[0], reach.Legs[1]
			msg = fmt.Sprintf("legs %s and %s, %s and %s long, are too short to meet at one hook: their picks are %s apart",
				p.picks[a].Name, p.picks[b].Name, units.Length(reach.Lengths[0]).Format(units.Both),
				units.Length(reach.Lengths[1]).Format(units.Both), units.Length(reach.Apart).Format(units.Both))
		}
		h.refuse("%slegs that cannot reach: %s; %s", when, msg, reach.Fix)
		return nil
	}
	return fmt.Errorf("%w: %w", ErrProgram, err)
}

// line is where the load file's picks begin; 0 for proposed ones.
func (p *plan) line() int {
	if len(p.load.Rigging.Picks) == 0 {
		return 0
	}
	return p.load.Rigging.Picks[0].Line
}

// named replaces "pick 2" and "leg 2" by the names of the picks.
func (p *plan) named(text string) string {
	for i := len(p.picks); i >= 1; i-- {
		for _, word := range []string{"pick", "leg"} {
			text = strings.ReplaceAll(text, fmt.Sprintf("%s %d ", word, i), fmt.Sprintf("%s %s ", word, p.picks[i-1].Name))
		}
	}
	return text
}

// figures are those that need no judgement.
func (p *plan) figures(best rig.Hang, worst rig.Worst) Hanging {
	box := p.weight.extent()
	corners := box.Corners()
	f := Hanging{
		Solved: true, SizingKg: p.weight.Weight.SizingKg, PlanningKg: p.weight.Weight.PlanningKg, Lengths: p.how,
		Stable: best.Stable && !best.RollsOver, StableWorst: worst.Stable,
		Posed: &Posed{
			HookM: p.stance.own(best.Hook), StaticsCGM: p.stance.own(p.grip.seen(p.cg)), Up: p.stance.own(best.Up), HeadroomM: best.Headroom(corners[:]), HeadroomWorstM: worst.MostHeadroom,
			TiltDeg: degrees(best.Tilt()), TiltWorstDeg: degrees(worst.Tilt),
			LowCornerDropM: best.Drop(p.stance.standAll(bottom(p.drawn.extent()))),
			Governing:      p.picks[worst.Leg].Name, GoverningCase: p.caseOf(worst),
			LeastAngleDeg: units.Degrees(p.limit.Least), Squeeze: Forces{}, Diagonals: []Diagonal{}, CasesSolved: worst.Solved,
			corners: p.stance.ownAll(corners[:]),
		},
	}
	f.Liquid = p.free
	if p.stance != nil {
		f.Attitude = &p.stance.wanted
	}
	if b, ok := p.between(); ok {
		f.Between = &b
	}
	p.influences(&f, best)
	for i, pick := range p.picks {
		angle := units.FromHorizontal(best.FromHorizontal(i))
		f.Legs = append(f.Legs, Leg{
			Pick: pick.Name, AtM: p.stance.own(pick.AtM), LengthM: p.lengths[i],
			FromHorizontalDeg: units.Degrees(angle), FromVerticalDeg: units.Degrees(angle.FromVertical()),
			WorstFromHorizontalDeg: worstAngle(angle, worst, i),
			TensionKN:              best.Tension[i] / 1000, WorstTensionKN: worst.Tension[i] / 1000, Slack: best.Slack(i),
		})
		f.Squeeze[pick.Name] = best.Squeeze(i) / 1000
	}
	return f
}

// worstAngle is the flattest in degrees that a leg stands while it pulls; that
// of the pose for a leg that never does.
func worstAngle(now units.FromHorizontal, worst rig.Worst, leg int) float64 {
	if worst.Tension[leg] == 0 {
		return units.Degrees(now)
	}
	return degrees(worst.FromHorizontal[leg])
}

// bottom is the four lower corners of a box.
func bottom(box geom.Extent) []geom.Vec {
	var low []geom.Vec
	for _, c := range box.Corners() {
		if c[2] == box.Min[2] {
			low = append(low, c)
		}
	}
	return low
}

func degrees(rad float64) float64 { return units.Degrees(rad) }

// share shows the ways of counting side by side and picks the governing one.
func (p *plan) share(f *Hanging, best rig.Hang, worst rig.Worst, h *Header) {
	f.Sharing.Elastic = p.forces(best.Tension)
	if p.geared != nil {
		p.shareEqualised(f)
		h.warn("lower-basis", "the tensions are those of gear: "+f.Basis, "see that the gear is rigged as stated and free to move before the load leaves the ground")
		return
	}
	if !best.Indeterminate() {
		f.Basis = "statics alone: the taut legs leave nothing to sharing"
		p.shareByRule(f, false, best, h)
		return
	}
	f.Sharing.AnyLegSlack = p.forces(best.Greatest)
	for _, d := range p.rig(p.weight.planning()).TwoOpposite(best.Pose) {
		f.Diagonals = append(f.Diagonals, Diagonal{
			Picks: [2]string{p.picks[d.Legs[0]].Name, p.picks[d.Legs[1]].Name},
			OffM:  d.Off, AnEquilibrium: d.Off <= 1e-6 && d.Tension[0] >= 0 && d.Tension[1] >= 0,
		})
		if f.Sharing.TwoOpposite == nil {
			f.Sharing.TwoOpposite = Forces{}
		}
		for i, leg := range d.Legs {
			f.Sharing.TwoOpposite[p.picks[leg].Name] = max(0, d.Tension[i]/1000)
		}
	}
	f.Basis = "any leg slack: each leg's most in the hung pose, whichever others carry nothing"
	if s := p.load.Rigging.Sharing; s != nil && s.Equalised == nil {
		p.shareBelow(f, worst)
		h.warn("lower-basis", "tensions are taken on a lower basis: "+f.Basis, "see that what the reason says is so before the load leaves the ground")
	} else {
		p.shareByRule(f, true, best, h)
	}
}

// shareByRule puts the rule set's figure beside the others. Where statics can't
// settle the sharing it governs each leg for which it is the greater; where it
// can, the rule set's check of the set is left to the sizing of the slings.
func (p *plan) shareByRule(f *Hanging, governs bool, best rig.Hang, h *Header) {
	flattest := math.Pi / 2
	for _, leg := range f.Legs {
		if leg.WorstTensionKN > 0 {
			flattest = min(flattest, units.Radians(leg.WorstFromHorizontalDeg))
		}
	}
	now, rule, ok := sling.SetShare(p.rules, p.weight.planning(), len(p.picks), units.FromHorizontal(flattest))
	if !ok {
		return
	}
	sized, _, _ := sling.SetShare(p.rules, p.weight.sizing(), len(p.picks), units.FromHorizontal(flattest))
	p.warnOfRule(float64(sized), rule.Name, best, h)
	f.Sharing.RuleSet = Forces{}
	f.Sharing.Rule = fmt.Sprintf("%s: %s (%s)", p.rules, rule.Name, rule.Source)
	for i, pick := range p.picks {
		f.Sharing.RuleSet[pick.Name] = float64(now) / 1000
		if !governs {
			continue
		}
		f.raise(i, float64(sized)/1000, f.Sharing.Rule)
	}
}

// warnOfRule warns where a leg carries more, each leg at its stated length and
// the CG at its best place, than the rule set's figure for the set: the rule takes
// the load as even about the picks, and here it is not.
func (p *plan) warnOfRule(newtons float64, rule string, best rig.Hang, h *Header) {
	for i, t := range best.Tension {
		t *= p.weight.Weight.SizingKg / p.weight.Weight.PlanningKg
		if t > newtons*(1+1e-9) {
			h.warn("rule-undersizes", fmt.Sprintf("leg %s carries %s where the rule set's %s (%s) gives %s: the rule takes the CG as midway between the picks, and it is not; rigging is sized on the greater",
				p.picks[i].Name, units.Force(t).FormatUp(units.Both), rule, p.rules, units.Force(newtons).FormatUp(units.Both)), "size by the leg loads, not by the rule")
			return
		}
	}
}

// raise lets a leg's worst tension be at least kn, and names the case if that
// makes it the greatest of all.
func (f *Hanging) raise(leg int, kn float64, why string) {
	if kn <= f.Legs[leg].WorstTensionKN {
		return
	}
	f.Legs[leg].WorstTensionKN = kn
	for _, other := range f.Legs {
		if other.WorstTensionKN > kn {
			return
		}
	}
	f.Governing, f.GoverningCase = f.Legs[leg].Pick, why
}

// shareBelow takes a lower basis, for which the load file gives a reason.
func (p *plan) shareBelow(f *Hanging, worst rig.Worst) {
	s := p.load.Rigging.Sharing
	for i := range f.Legs {
		f.Legs[i].WorstTensionKN = 0
	}
	for i := range f.Legs {
		kn := worst.Elastic[i] / 1000
		if s.Basis == "three of four" && f.Legs[i].WorstFromHorizontalDeg > 1 {
			// Three legs carry it all, each the same: V = W/3, T = V / sin a.
			kn = max(kn, float64(p.weight.sizing())/1000/(3*math.Sin(units.Radians(f.Legs[i].WorstFromHorizontalDeg))))
		}
		f.raise(i, kn, fmt.Sprintf("sharing taken as %s, at the sizing weight", s.Basis))
	}
	f.Basis = fmt.Sprintf("%s, below the governing basis (any leg slack), because the load file says: %s", s.Basis, s.Because)
}

func (p *plan) forces(newtons []float64) Forces {
	f := Forces{}
	for i, pick := range p.picks {
		f[pick.Name] = newtons[i] / 1000
	}
	return f
}
