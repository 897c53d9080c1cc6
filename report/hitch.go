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

// standing says whether the load is stable, and on what condition.
func standing(yes bool, condition string) string {
	if yes && condition != "" {
		return "stable if " + condition
	}
	return stable(yes)
}
