package report

import (
	"plumbhook/lift"
)

func (p *page) hung(r lift.Hung) {
	p.refusal(r.Verdict)
	p.title("Leg loads", "", r.Header)
	p.verdict(r.Verdict)
	p.warnings(r.Warnings)
	p.heading("HOW IT HANGS")
	p.hanging(r.Hanging)
	if r.Posed != nil {
		p.working(r.Working)
	}
	p.assumptions(r.Assumptions)
	p.legend()
}

const noPose = "No pose was found in which the load hangs, so there are no tensions and no angles: see the reasons at the top."

// hanging prints the pose, the legs and the ways of counting.
func (p *page) hanging(h lift.Hanging) {
	if !h.Solved {
		p.hang("  ", noPose)
		p.field("Legs", h.Lengths)
		p.legStates(h.States)
		return
	}
	if h.TwoHooks != nil {
		p.twoHooks(h)
		return
	}
	p.pose(h)
	p.legs(h.Legs)
	p.gap()
	p.hang("  ", "Length: bearing to bearing, hardware in"+unloaded(h)+". Tension: at the planning weight of "+p.mass(h.PlanningKg)+" and the best CG. Worst: at the sizing weight of "+
		p.massUp(h.SizingKg)+", over all that is in doubt, "+plural(h.CasesSolved, "pose", "poses")+" solved.")
	p.gap()
	p.field("Governs", "leg "+h.Governing+": "+h.GoverningCase)
	p.field("Basis", h.Basis)
	p.sharing(h)
	p.gear(h.Gear)
	p.squeeze(h)
	p.stack(h.Stack)
	p.sideForces(h.SideForces)
	p.liftOff(h.LiftOff, h.Legs)
	p.trialLift(h.TrialLift, h.LiftOff)
	p.stretched(h.Stretch)
	p.hitches(h.Legs)
	p.clearing(h)
	p.bending(h.Bending, h.Attitude)
	p.bars(h)
	p.levelWays(h.Level)
	p.influences(h.Influences, h.InfluenceOn)
	p.legStates(h.States)
}

// pose prints where the hook is and how the load stands under it.
func (p *page) pose(h lift.Hanging) {
	p.field("Hook", p.place(h.HookM)+", from the datum")
	if h.HeadroomM < 0 {
		p.field("Headroom", "none: the hook is "+p.length(-h.HeadroomM)+" below the top of the load")
	} else {
		p.field("Headroom", p.length(h.HeadroomM)+" from the top of the load up to the hook, "+p.length(h.HeadroomWorstM)+" at worst")
	}
	p.field("Legs", h.Lengths)
	p.attitude(h.Attitude)
	p.field("Tilt", turn(h.TiltDeg)+" at the best CG, "+turn(tenthUp(h.TiltWorstDeg))+" at worst"+outOf(h.Attitude)+inWind(h.SideForces)+lowCorner(p, h))
	p.field("Least angle", "limit "+fromHorizontal(h.LeastAngleDeg)+" ("+fromVertical(h.LeastAngleDeg)+")")
	p.between(h.Between)
	if h.Liquid != nil {
		p.field("Free liquid", h.Liquid.Text)
	}
	p.field("Stability", standing(h))
	p.field("", h.Stability.Text)
	p.otherPoses(h.Others, h.Attitude)
	if to := h.Stability.Toward; to != nil && !h.Stable {
		p.field("Rolls toward", direction(*to)+", or the opposite way")
	}
	p.gap()
}

// lowCorner is how much lower one corner hangs; nothing of a load without size.
func lowCorner(p *page, h lift.Hanging) string {
	if h.LowCornerDropM == 0 && h.TiltDeg > 0.05 {
		return ""
	}
	return "; lowest corner " + p.length(h.LowCornerDropM) + " below the highest of the underside"
}

func stable(yes bool) string {
	if yes {
		return "stable"
	}
	return "NOT STABLE"
}

// legs prints the table of legs.
func (p *page) legs(legs []lift.Leg) { p.legTable("Leg to pick", legs) }

func (p *page) legTable(name string, legs []lift.Leg) {
	cols := []column{{name, 0, false}, {"Length", 12, true}, {"Angle from horizontal", 12, true},
		{"Angle from vertical", 11, true}, {"Tension", 12, true}, {"Worst tension", 12, true}}
	p.titles(cols)
	for _, l := range legs {
		flattest := tenthDown(l.WorstFromHorizontalDeg)
		name := l.Pick
		if l.Slack {
			name += "\nSLACK"
		}
		p.row(cols, name, p.stackedLength(l.LengthM),
			plainAngle(l.FromHorizontalDeg)+"\nworst "+plainAngle(flattest),
			plainAngle(l.FromVerticalDeg)+"\nworst "+plainAngle(90-flattest),
			p.stackedForceUp(l.TensionKN), p.stackedForceUp(l.WorstTensionKN))
	}
}

// sharing prints the ways of counting side by side, those that apply.
func (p *page) sharing(h lift.Hanging) {
	cols := []column{{"Leg to pick", 0, false}}
	var ways []lift.Forces
	for _, way := range []struct {
		name   string
		forces lift.Forces
	}{
		{"Elastic share", h.Sharing.Elastic}, {"Any leg slack", h.Sharing.AnyLegSlack},
		{"Two opposite legs carry all", h.Sharing.TwoOpposite}, {"Rule set", h.Sharing.RuleSet},
		{"Equalised", h.Sharing.Equalised},
	} {
		if way.forces != nil {
			cols = append(cols, column{way.name, 14, true})
			ways = append(ways, way.forces)
		}
	}
	if len(ways) < 2 {
		return // statics alone: there is nothing to hold side by side
	}
	p.sub("Tension by each way of counting, at the planning weight and the best CG")
	p.titles(cols)
	for _, l := range h.Legs {
		cells := []string{l.Pick}
		for _, forces := range ways {
			if kN, ok := forces[l.Pick]; ok {
				cells = append(cells, p.stackedForceUp(kN))
			} else {
				cells = append(cells, "-")
			}
		}
		p.row(cols, cells...)
	}
	p.ways(h)
}

// ways explains the ways of counting.
func (p *page) ways(h lift.Hanging) {
	p.gap()
	p.hang("  ", elasticShare(h)+" Any leg slack: the most that a leg can carry in this pose, whichever others carry nothing.")
	for _, d := range h.Diagonals {
		text := "Two opposite legs, " + d.Picks[0] + " and " + d.Picks[1] + ": "
		if d.AnEquilibrium {
			text += "the CG is on the line between them."
		} else {
			text += "not an equilibrium; the CG passes " + p.length(d.OffM) + " from the line between them. A convention, for comparison: it does not govern."
		}
		p.hang("  ", text)
	}
	if h.Sharing.RuleSet != nil {
		p.hang("  ", "Rule set: "+h.Sharing.Rule+".")
	}
}

// squeeze prints the level pull on each pick.
func (p *page) squeeze(h lift.Hanging) {
	if len(h.Squeeze) == 0 {
		return
	}
	p.gap()
	text := ""
	for _, l := range h.Legs {
		if kN, ok := h.Squeeze[l.Pick]; ok {
			text += ", " + glued(l.Pick) + glue + p.forceUp(kN)
		}
	}
	p.field("Squeeze", "level pull of the legs on the load, at the planning weight: "+text[min(2, len(text)):])
}

// otherPoses prints where else the load can come to rest.
func (p *page) otherPoses(others []lift.OtherPose, wanted *lift.Attitude) {
	for _, o := range others {
		text := turn(o.TiltDeg) + " out of level"
		if wanted != nil {
			text = turn(o.TiltDeg) + " out of the attitude wanted"
		}
		for i, pick := range o.Slack {
			text += []string{", leg ", " and "}[min(i, 1)] + glued(pick)
		}
		if len(o.Slack) > 0 {
			text += " loose"
		}
		p.field("Or it rests", text)
	}
}
