package lift

import (
	"errors"
	"fmt"
	"math"

	"plumbhook/geom"
	"plumbhook/rig"
	"plumbhook/takeoff"
	"plumbhook/units"
)

// hangBars solves a load under bars, judges it, and fills in the figures.
func hangBars(l *takeoff.Load, w Weight, picks []Pick, o Options, h *Header) (plan, Hanging, error) {
	p := plan{load: l, weight: w, drawn: w, picks: picks, rules: rules(l, o), cg: w.CGM}
	var err error
	if p.limit, err = leastAngle(l, p.rules); err != nil {
		return p, unsolved(w), fmt.Errorf("%w: %w", ErrProgram, err)
	}
	if p.limit.Warning != "" {
		h.warn("angle-limit", p.limit.Warning, "state 30° or more, or have it allowed")
	}
	b, err := p.drawBars()
	if err != nil {
		return p, unsolved(w), err
	}
	p.levelBars(&b)
	best, err := p.floatBars(b, h)
	if err != nil {
		return p, unsolved(w), p.barsCannotHang(b, err, h)
	}
	best, leans := leaned(best)
	if err := b.with(p.best()).Verify(best); err != nil {
		return p, unsolved(w), p.barsCannotHang(b, err, h)
	}
	p.how = p.barLengths(best)
	if leans {
		h.warn("leans", "load and bars are balanced as drawn but do not stay so: they lean over until a loose leg takes hold", "lengthen or shorten the legs so that all are taut")
	}
	worst, err := p.worstBars(b, h)
	if err != nil {
		return p, unsolved(w), p.barsCannotHang(b, err, h)
	}
	if math.IsInf(worst.most, 0) { // no case came to rest: what there is is the best
		worst.add(b, b.with(p.best()), best, tensions(best), "best CG, legs as stated, at the planning weight")
		corners := p.weight.extent().Corners()
		worst.most = headroomOf(b.with(p.best()), best, corners[:])
		worst.least = worst.most
	}
	f, err := p.barFigures(b, best, worst)
	if err != nil {
		return p, unsolved(w), p.barsCannotHang(b, err, h)
	}
	p.barStability(b, best, &f)
	p.leastHook(b, best, &f)
	p.judgeBars(b, &f, worst, h)
	p.clashBars(&f, b, best, h)
	p.notLookedAt("under bars", "whether legs, bars and hook clear what is around them, or whether the load could come to rest in another pose too,", h)
	return p, f, nil
}

// best is the case that figures are first given for.
func (p *plan) best() barCase {
	return barCase{cg: rig.Place{At: p.cg, Name: "best CG"}, weight: float64(p.weight.planning())}
}

// floatBars hangs the load at its best, with the liquid in it where it runs to.
// The statics see the liquid's weight at its metacentre, about whichever axis that
// is higher: a load under bars may tilt about any. See float.
func (p *plan) floatBars(b barRig, h *Header) (rig.TreePose, error) {
	a, err := newAfloat(p.load, p.weight, p.picks)
	if err != nil {
		return rig.TreePose{}, err
	}
	if a == nil {
		return b.with(p.best()).Hang()
	}
	a.across = geom.Vec{} // no axis in particular: the worst
	p.free = &FreeLiquid{Parts: a.names}
	if p.rise, p.riseAny, err = a.worstRise(p.weight); err != nil {
		return rig.TreePose{}, fmt.Errorf("%w: %w", ErrProgram, err)
	}
	up := plumb
	for range mostTurns {
		moved, rise, along, err := a.lies(up)
		if err != nil {
			return rig.TreePose{}, fmt.Errorf("%w: %w", ErrProgram, err)
		}
		p.free.CGM, p.free.RiseM, p.free.along = p.weight.CGM.Add(moved), rise, along
		p.cg = p.free.CGM.Add(up.Mul(rise))
		tree := b.with(p.best())
		pose, err := tree.Hang()
		if err != nil {
			return pose, err
		}
		now := pose.Bodies[0].Place.Turn.Transpose().Mul3x1(plumb)
		if now.Sub(up).Len() < 1e-8 || !holds(pose) {
			p.settled(a, pose.Bodies[0].Onto(tree.Hook))
			h.warn("free-liquid", p.free.Text, "drain it or fill it up; or baffle it, and say `baffled: true`; keep people clear until the load hangs still")
			return pose, nil
		}
		up = now
	}
	return rig.TreePose{}, &rig.ReachError{Msg: "the load and the liquid in it find no rest near the attitude drawn", Fix: "drain it or fill it up"}
}

// barsCannotHang turns an error of the statics into a reason, a fault of the
// input or a fault of the program.
func (p *plan) barsCannotHang(b barRig, err error, h *Header) error {
	var input *rig.InputError
	var reach *rig.ReachError
	switch {
	case err == nil || errors.Is(err, ErrProgram):
		return err
	case errors.As(err, &input):
		return bad(p.load, p.load.Rigging.Bar.Line, input.Msg, input.Fix)
	case errors.As(err, &reach):
		h.refuse("legs that cannot reach: %s; %s", reach.Msg, reach.Fix)
		return nil
	}
	var problems takeoff.Problems
	if errors.As(err, &problems) {
		return err
	}
	return fmt.Errorf("%w: %w", ErrProgram, err)
}

// barFigures are those that need no judgement.
func (p *plan) barFigures(b barRig, best rig.TreePose, worst barWorst) (Hanging, error) {
	box := p.weight.extent()
	corners := box.Corners()
	tree := b.with(p.best())
	most, open, err := tree.Greatest(best)
	if err != nil {
		return Hanging{}, err
	}
	load := best.Bodies[0]
	f := Hanging{
		Solved: true, SizingKg: p.weight.Weight.SizingKg, PlanningKg: p.weight.Weight.PlanningKg, Lengths: p.how,
		Stable: holds(best), StableWorst: worst.stable,
		Posed: &Posed{
			HookM: load.Onto(tree.Hook), StaticsCGM: p.cg, Up: load.Place.Turn.Transpose().Mul3x1(rig.Up), HeadroomM: headroomOf(tree, best, corners[:]), HeadroomWorstM: worst.most,
			TiltDeg: degrees(load.Tilt), TiltWorstDeg: degrees(worst.tilt), LowCornerDropM: dropOf(load, bottom(box)),
			LeastAngleDeg: units.Degrees(p.limit.Least), Squeeze: Forces{}, Diagonals: []Diagonal{}, CasesSolved: worst.solved,
			Liquid: p.free, Level: []LevelWay{}, Influences: []Influence{},
			Basis: "statics alone: the taut legs leave nothing to sharing",
		},
	}
	if in, ok := p.between(); ok {
		f.Between = &in
	}
	p.barLegs(&f, b, best, worst)
	f.Sharing.Elastic = p.forces(tensions(best))
	if open || worst.open {
		f.Sharing.AnyLegSlack = p.forces(most)
		f.Basis = "any leg slack: each leg's most in the hung pose, whichever others carry nothing"
	}
	p.hungBars(&f, b, best, worst)
	return f, nil
}

func tensions(p rig.TreePose) []float64 {
	var t []float64
	for _, l := range p.Links {
		t = append(t, l.Tension)
	}
	return t
}

// dropOf is how far the lowest of the points hangs below the highest.
func dropOf(b rig.BodyPose, points []geom.Vec) float64 {
	low, high := math.Inf(1), math.Inf(-1)
	for _, c := range points {
		z := b.Place.Point(c)[2]
		low, high = min(low, z), max(high, z)
	}
	return high - low
}

// barLegs fills in the drops and the legs that hold bars.
// drawn is where an end of a leg is on the drawing.
func (b barRig) drawn(e rig.End) geom.Vec {
	if e.Body == rig.OnHook {
		return b.tree.Hook
	}
	return b.tree.Bodies[e.Body].Points[e.Point]
}

func (p *plan) barLegs(f *Hanging, b barRig, best rig.TreePose, worst barWorst) {
	governs := 0
	weight, load := b.with(p.best()).Weight(), best.Bodies[0]
	for i, link := range b.links {
		hung := best.Links[i]
		angle := units.FromHorizontal(hung.FromHorizontal)
		flattest := units.Degrees(angle)
		if worst.tension[i] > 0 {
			flattest = degrees(worst.flattest[i])
		}
		slack := hung.Tension <= 1e-9*weight
		if link.tier >= 0 {
			f.UpperLegs = append(f.UpperLegs, UpperLeg{
				Name: link.name, LengthM: b.tree.Links[i].Length, FromHorizontalDeg: units.Degrees(angle), FromVerticalDeg: units.Degrees(angle.FromVertical()),
				WorstFromHorizontalDeg: flattest, TensionKN: hung.Tension / 1000, WorstTensionKN: worst.tension[i] / 1000,
				Slack: slack, Case: worst.cases[i], tier: link.tier, bar: link.end, verticalN: worst.vertical[i],
				EndsM: [2]geom.Vec{load.Onto(hung.Ends[0]), load.Onto(hung.Ends[1])},
				ends:  [2]geom.Vec{b.drawn(b.tree.Links[i].From), b.drawn(b.tree.Links[i].To)},
			})
			continue
		}
		top, hangs := b.drawn(b.tree.Links[i].From), load.Onto(hung.Ends[0])
		f.Legs = append(f.Legs, Leg{
			Pick: link.name, AtM: p.picks[i].AtM, LengthM: b.tree.Links[i].Length, FromHorizontalDeg: units.Degrees(angle), FromVerticalDeg: units.Degrees(angle.FromVertical()),
			WorstFromHorizontalDeg: flattest, TensionKN: hung.Tension / 1000, WorstTensionKN: worst.tension[i] / 1000,
			Slack: slack, TopM: &hangs, end: link.end, verticalN: worst.vertical[i], upper: &top,
		})
		f.Squeeze[link.name] = 0
		if n := hung.Squeeze(); n > 1e-5*weight { // a plumb drop's is what rounding leaves
			f.Squeeze[link.name] = n / 1000
		}
		if worst.tension[i] > worst.tension[governs]*(1+1e-9) { // of legs that carry alike the first
			governs = i
		}
	}
	greatest := 0.0
	for _, leg := range f.UpperLegs {
		if leg.WorstTensionKN > greatest*(1+1e-9) {
			greatest, f.UpperGoverning, f.UpperCase = leg.WorstTensionKN, leg.Name, leg.Case
		}
	}
	f.Governing, f.GoverningCase = p.picks[governs].Name, worst.cases[governs]
}

// hungBars fills in the bars.
func (p *plan) hungBars(f *Hanging, b barRig, best rig.TreePose, worst barWorst) {
	for i, bar := range b.bars {
		body, w := b.tree.Bodies[i+1], worst.bars[i]
		one := HungBar{Name: bar.Name, Kind: bar.Kind, WeightKg: float64(bar.Weight), Along: bar.axis,
			TiltDeg: degrees(best.Bodies[i+1].Tilt), TiltWorstDeg: degrees(w.tilt),
			CompressionKN: w.pressed / 1000, AcrossKN: w.across / 1000, MomentKNM: w.bent / 1000, CompressionCase: w.pressedCase, MomentCase: w.bentCase}
		for k, at := range bar.low {
			point := body.Points[at]
			one.AtM = one.AtM.Add(point.Mul(1 / float64(len(bar.low))))
			end := BarEnd{AtM: point, HangsAtM: best.Bodies[0].Onto(best.Bodies[i+1].Place.Point(point)), Holds: bar.Holds[k].Picks}
			if lower := bar.Holds[k].Bar; lower != nil {
				end.Holds = []string{lower.Name}
			}
			one.Ends = append(one.Ends, end)
		}
		f.Bars = append(f.Bars, one)
		f.BarsKg += one.WeightKg
	}
}
