package report

import "plumbhook/lift"

// stretched prints what the stretch of the legs does.
func (p *page) stretched(s *lift.Stretched) {
	if s == nil {
		return
	}
	p.sub("Stretch of the legs, at the planning weight and the best CG")
	p.field("Stretch", s.Text)
	cols := []column{{"Leg to pick", 0, false}, {"Length without load", 14, true}, {"Length under load", 14, true}, {"Elongation", 14, true}}
	p.titles(cols)
	for _, l := range s.Legs {
		p.row(cols, l.Pick, p.stackedLength(l.UnloadedM), p.stackedLength(l.LoadedM), p.stackedLength(l.LongerM))
	}
	p.gap()
	if s.RigidDeg != nil {
		p.field("Without it", "tilt "+turn(*s.RigidDeg)+" if legs of the same lengths did not stretch")
	}
	if s.TravelM != nil {
		p.field("Hook travel", "the hook rises "+p.length(*s.TravelM)+" from the first leg coming taut until the load hangs clear")
	}
}

// unloaded says that the lengths in the table of legs are those without load.
func unloaded(h lift.Hanging) string {
	if h.Stretch == nil {
		return ""
	}
	return ", without load"
}

// elasticShare says what the elastic share takes of the legs.
func elasticShare(h lift.Hanging) string {
	if h.Stretch == nil {
		return "Elastic share: legs of the same make, each cut to its length."
	}
	return "Elastic share: legs of the lengths and the stretch stated."
}

// attitude prints how the load is to hang where that is not as drawn.
func (p *page) attitude(a *lift.Attitude) {
	if a != nil {
		p.field("Attitude", "wanted: "+a.Text)
	}
}

// outOf says what the tilt counts from where that is not level.
func outOf(a *lift.Attitude) string {
	if a == nil {
		return ""
	}
	return ", out of the attitude wanted"
}

// gear prints the gear that would settle the sharing.
func (p *page) gear(ways []lift.GearWay) {
	for i, w := range ways {
		lead := "  Settled by   "
		if i > 0 {
			lead = "  or by        "
		}
		p.hang(lead, w.Text+".")
	}
}
