package report

import "plumbhook/lift"

// hitches prints how each sling takes hold, for legs of which it is said.
func (p *page) hitches(legs []lift.Leg) {
	name := "Hitches"
	for _, l := range legs {
		if l.Hold == nil {
			continue
		}
		if name != "" {
			p.gap()
		}
		p.field(name, glued(l.Pick)+": "+l.Hold.Text)
		name = ""
	}
}

// standing says whether the load is stable, at best and at worst, and on what
// condition: never the plain word where there is one.
func standing(h lift.Hanging) string {
	const best, worst = " at the best CG", " at the worst of the ranges"
	condition := ""
	if h.Posed != nil && h.Stability.Condition != "" {
		condition = " if " + h.Stability.Condition
	}
	switch {
	case condition == "" || !h.Stable && !h.StableWorst:
		return stable(h.Stable) + best + "; " + stable(h.StableWorst) + worst
	case h.Stable && h.StableWorst:
		return "stable" + condition + "," + best + " and" + worst
	}
	return "stable" + condition + "," + best + "; " + stable(h.StableWorst) + worst
}
