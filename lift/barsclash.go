package lift

import (
	"plumbhook/geom"
	"plumbhook/rig"
)

// barsPose is how load and bars hang in one case.
type barsPose struct {
	rig.TreePose
	name string
}

// clashBars looks for drops, bars and legs above them that touch the load, as they
// hang with the CG at its best and all round its region. A bar counts as the line
// through its lower points: how deep it is the file does not say.
func (p *plan) clashBars(f *Hanging, b barRig, best rig.TreePose, h *Header) {
	f.Clearing = noClearing()
	if !holds(best) {
		return
	}
	c, ok := p.clashing(&f.Clearing, h)
	if !ok {
		return
	}
	poses := p.barPoses(b, best)
	for leg, pick := range c.picks {
		var cases []hookCase
		for _, pose := range poses {
			cases = append(cases, hookCase{pose.Bodies[0].Onto(pose.Links[leg].Ends[0]), pose.name})
		}
		c.lookAlong(leg, pick.AtM, cases)
	}
	var found []Clash
	for i := len(c.picks); i < len(b.links); i++ {
		name := "leg " + b.links[i].name
		for _, pose := range poses {
			load, ends := pose.Bodies[0], pose.Links[i].Ends
			found = c.line(found, name, load.Onto(ends[1]), load.Onto(ends[0]), c.side, pose.name)
		}
		c.others = append(c.others, name)
	}
	for i, bar := range b.bars {
		name := "bar " + bar.Name
		for _, pose := range poses {
			ends := b.hungEnds(i, pose.TreePose)
			for k := range ends[:len(ends)-1] {
				found = c.line(found, name, ends[k], ends[k+1], 0, pose.name)
			}
		}
		c.others = append(c.others, name)
	}
	for _, one := range found {
		if one.GapM <= touches {
			c.out.Clashes = append(c.out.Clashes, one)
		} else {
			c.out.NearMisses = append(c.out.NearMisses, one)
		}
	}
	c.judge(h)
	h.assume("bars that touch the load are looked for as lines through their lower points: how deep a bar is is not stated; whether legs and bars clear one another is not looked at")
}

// barPoses are the pose at the best CG, and those all round its region that hold.
func (p *plan) barPoses(b barRig, best rig.TreePose) []barsPose {
	poses := []barsPose{{best, ""}}
	for _, place := range p.raised(p.edges()) {
		pose, err := b.with(barCase{cg: place, weight: float64(p.weight.planning())}).HangBeside(&best)
		if pose, _ = leaned(pose); err != nil || !holds(pose) {
			continue // refused for that
		}
		poses = append(poses, barsPose{pose, place.Name})
	}
	return poses
}

// hungEnds are the lower points of a bar as it hangs, in the axes of the load; of a
// frame round to the first again.
func (b barRig) hungEnds(bar int, pose rig.TreePose) []geom.Vec {
	var ends []geom.Vec
	for _, at := range b.bars[bar].low {
		ends = append(ends, pose.Bodies[0].Onto(pose.Bodies[bar+1].Place.Point(b.tree.Bodies[bar+1].Points[at])))
	}
	if len(ends) > 2 {
		ends = append(ends, ends[0])
	}
	return ends
}

// lookAlong looks along one leg whose upper end comes to stand at several places.
func (c *clashing) lookAlong(leg int, pick geom.Vec, cases []hookCase) {
	best, moves := cases[0].hook, 0.0
	for _, one := range cases {
		moves = max(moves, one.hook.Sub(best).Len())
	}
	toward := best.Sub(pick)
	if toward.Len() < 1e-6 {
		return
	}
	toward = toward.Normalize()
	for i := range c.body.parts {
		o := &c.body.parts[i]
		if _, near := o.within(pick, best, c.side+closeBy+moves, 0); !near || c.round(leg) && o.holds(pick) {
			continue
		}
		c.worst(leg, o, o.seating(pick, toward, c.fittings, c.side+closeBy), cases)
	}
}

// line looks along a line that takes hold of nothing, and adds what it passes closely
// to what was found before.
func (c *clashing) line(list []Clash, name string, from, to geom.Vec, side float64, of string) []Clash {
	for i := range c.body.parts {
		o := &c.body.parts[i]
		if found, ok := o.within(from, to, side+closeBy, 0); ok {
			list = keepWorst(list, Clash{Pick: name, With: o.name, Box: o.given, AtM: found.At, AlongM: found.Along, GapM: found.Gap - side, Case: of})
		}
	}
	return list
}

// keepWorst adds a clash to a list, or puts it in the place of a lesser one of the same
// two.
func keepWorst(list []Clash, one Clash) []Clash {
	for i, was := range list {
		if was.Pick == one.Pick && was.With == one.With {
			if one.GapM < was.GapM-1e-9 {
				list[i] = one
			}
			return list
		}
	}
	return append(list, one)
}
