package report

import (
	"strings"

	"plumbhook/lift"
	"plumbhook/units"
)

// sideForces prints what wind and tag line do.
func (p *page) sideForces(s *lift.SideForces) {
	if s == nil {
		return
	}
	title := "WIND AND TAG LINE"
	switch {
	case s.TagLine == nil:
		title = "WIND"
	case s.Wind == nil:
		title = "TAG LINE"
	}
	p.sub(title)
	if w := s.Wind; w != nil {
		text := "from " + w.From + ": " + units.Pressure(w.PressureNM2).Format(p.opt.Show)
		if w.SpeedMS > 0 {
			text += " at " + units.Speed(w.SpeedMS).Format(p.opt.Show)
		}
		p.field("Wind", text+" × "+factor(w.ShapeFactor)+" × "+units.Area(w.AreaM2).Format(p.opt.Show)+" ("+w.Area+") = up to "+p.forceUp(w.ForceKN)+", level, at "+p.place(w.CentreM))
		p.field("", "½ × 1.25 kg/m³ × speed²; EN 1991-1-4"+p.mark("from memory"))
	}
	if t := s.TagLine; t != nil {
		p.field("Tag line", "pulled level toward "+t.Toward+" with "+p.forceUp(t.PullKN)+", at "+p.place(t.AtM))
	}
	p.field("Out of plumb", "hoist line, hook and load hang up to "+turn(tenthUp(s.LeanDeg))+" out of plumb: to the side by "+
		tenthPercentUp(s.SwingPerM)+" of the height from load to boom head")
	p.field("Tilt", "up to "+turn(tenthUp(s.MoreTiltDeg))+" more than in calm air")
	p.field("Tensions", "side forces add "+p.sideLegs(s.Legs)+"; in the worst tensions and angles above")
	p.holding(s)
	if s.CraneFactor != nil {
		p.field("Crane", "area × shape factor is "+fourFigures(s.SailM2PerT)+glue+"m² a tonne, more than 1.2 (EN 13000"+p.mark("from memory")+"): its wind speed limit falls, see the warnings")
	}
	p.field("", "Steady, not a gust that sets it swinging, which goes further out. The crane's own wind limit governs; stop at it, or at what is planned here.")
}

// sideLegs lists what is added to each leg.
func (p *page) sideLegs(legs []lift.SideLeg) string {
	var all []string
	for _, l := range legs {
		all = append(all, glued(l.Pick)+glue+p.forceUp(l.MoreKN))
	}
	return strings.Join(all, ", ")
}

// holding prints what it takes to hold the load against the wind.
func (p *page) holding(s *lift.SideForces) {
	if s.Wind == nil {
		return
	}
	text := p.forceUp(s.HoldPullKN) + " level against the wind, at the height of the area's centre, to hold it where it hangs in calm air"
	switch {
	case s.TurnPullKN != nil:
		text += "; " + p.forceUp(*s.TurnPullKN) + " at the stated place, square to its lever of " + p.length(s.TurnLeverM) + ", to keep it from turning"
	case s.TurnKNM > 1e-6:
		text += "; against turning " + p.forceUp(s.TurnKNM) + " at a lever of " + p.length(1) + " about the plumb line, less at a longer one"
	}
	p.field("To hold it", text)
}

// liftOff prints what is carried until the load lets go.
func (p *page) liftOff(o *lift.LiftOff, legs []lift.Leg) {
	if o == nil {
		return
	}
	p.sub("LIFT-OFF")
	p.field("Held down", "by "+o.Kind+": "+units.Pressure(o.PressureNM2).Format(p.opt.Show)+" × "+units.Area(o.AreaM2).Format(p.opt.Show)+" = "+p.forceUp(o.PullKN)+", at "+p.place(o.CentreM))
	var all []string
	for _, l := range legs {
		all = append(all, glued(l.Pick)+glue+p.forceUp(o.Tension[l.Pick]))
	}
	p.field("Legs", "sizing weight and pull together, at worst, in calm air: "+strings.Join(all, ", "))
	p.field("Hook", "load and pull come to "+p.massUp(o.HookKg)+" until it lets go; block and rigging on top")
	p.field("Sizing", sizingAtLiftOff(o))
}

func sizingAtLiftOff(o *lift.LiftOff) string {
	text := "the dynamic factor is not taken on top of it: the greater of this and the hung load × dynamic factor governs each leg; "
	if o.WithDynamic {
		text = "the dynamic factor is taken on top of it, as stated; "
	}
	if o.Governs {
		return text + "lift-off governs"
	}
	return text + "the hung load governs"
}

// trialLift prints what to look for at a hand's breadth.
func (p *page) trialLift(t *lift.TrialLift, held *lift.LiftOff) {
	if t == nil {
		return
	}
	p.sub("TRIAL LIFT: a hand's breadth, in calm air, then stop and look")
	p.field("Hook reads", p.mass(t.BestKg)+", from "+p.massDown(t.LowKg)+" to "+p.massUp(t.HighKg)+
		": the load alone; add block, slings and gear below the cell")
	p.field("Stop if", "the cell reads more than "+p.massUp(t.StopAboveKg)+" and what hangs below it besides the load, or rises on and nothing moves: the weight is not as planned, or something holds the load down. Less than "+p.massDown(t.LowKg)+" with the load clear: the weight is not as planned either")
	if held != nil {
		p.field("", "Until "+held.Kind+" lets go, up to "+p.massUp(held.HookKg)+" and what hangs below the cell; more is not as planned")
	}
	p.field("Tilt", turn(t.TiltDeg)+" expected, up to "+turn(tenthUp(t.TiltWorstDeg)))
	p.field("Off ground", p.leaves(t))
	p.field("Legs tighten", p.tighten(t.Tight, t.HookOver))
	p.readings(t)
}

// readings lists what load cells in the legs read.
func (p *page) readings(t *lift.TrialLift) {
	p.gap()
	cols := []column{{"A load cell in the leg to", 0, false}, {"reads", 14, true}, {"at least", 14, true}, {"at most", 14, true}}
	p.titles(cols)
	for _, l := range t.Legs {
		p.row(cols, l.Pick, p.stackedForce(l.BestKN), p.stackedForce(l.LowKN), p.stackedForceUp(l.HighKN))
	}
	p.gap()
	if t.Indeterminate {
		p.hang("  ", "These are elastic shares of legs as long as stated. A few millimetres shift them: any leg may read from nothing to its worst tension. What must agree is the weight, the sum of their plumb parts.")
		p.gap()
	}
}

func (p *page) leaves(t *lift.TrialLift) string {
	if t.HookOver == "" {
		return "in which order its corners leave and its legs tighten is not worked out: it does not stand on the ground in the attitude wanted"
	}
	if t.FirstCorner == "" {
		return "all corners of the underside at once, within a millimetre, at the best CG"
	}
	return "from level ground, hook plumb over the best CG: " + t.FirstCorner + " first, " + t.LastCorner + " last, when the first is " + p.length(t.DropM) + " up"
}

// tighten says in which order the legs come tight.
func (p *page) tighten(legs []lift.Tight, over string) string {
	if len(legs) < 2 {
		return ""
	}
	if last := legs[len(legs)-1]; last.RiseM < 0.0005 {
		return "all at once, as cut, the hook plumb over " + over
	}
	text := legs[0].Pick + " first"
	for _, l := range legs[1:] {
		text += ", " + l.Pick + " " + p.length(l.RiseM) + " of hook later"
	}
	return text + ", if the load stood still; the hook plumb over " + over
}

// inWind says of a worst figure that side forces are in it.
func inWind(s *lift.SideForces) string {
	if s == nil {
		return ""
	}
	return ", side forces in"
}

// tenthPercentUp prints a part as percent, rounded up to a tenth.
func tenthPercentUp(part float64) string { return percent(tenthUp(part*100) / 100) }
