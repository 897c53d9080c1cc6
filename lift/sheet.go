package lift

import (
	"plumbhook/takeoff"
	"plumbhook/units"
)

// Sheet goes the whole line from weight to slings. Without a rule set the
// slings are left out, with a warning.
//
// Errors are those of Legs.
func Sheet(l *takeoff.Load, o Options) (LiftSheet, error) {
	l, h, way, err := followStates(l, o)
	if err != nil {
		return LiftSheet{}, err
	}
	way.weight.Statistics = newStatistics(way.weight.takeoff.Statistics())
	s := LiftSheet{Date: o.Date, Weigh: way.weight, Legs: way.legs, Cautions: cautions, Picks: SheetPicks{[]Proposal{}}}
	if way.planned {
		s.Picks.Proposals = append(s.Picks.Proposals, way.chosen)
	}
	if rules(l, o) == "" {
		h.warn("no-rules", "no rule set is chosen: the slings are not sized", "write `rules: US` or `rules: EN` in the load file, or give --rules")
	} else {
		sizing, err := way.sizeStates(l, o, &h)
		if err == nil {
			sizing.Heights, err = way.heightCurve(l, sizing, o)
		}
		if err == nil && o.Explain {
			sizing.Working, err = way.explain(sizing, o)
			h.unexplained(sizing.Working == nil && way.legs.Solved)
		}
		if err != nil {
			return LiftSheet{}, err
		}
		s.Slings = &sizing
	}
	s.Marking = newMarking(l, way.weight, way.legs, h.Verdict)
	if o.Draw {
		s.draw(l, way, h.Verdict, o.Show)
	}
	if o.Solids {
		s.Solids, s.Coarser = solids(l, way.weight)
	}
	s.Header = h
	return s, nil
}

// draw makes the drawings and the plots.
func (s *LiftSheet) draw(l *takeoff.Load, way line, v Verdict, show units.Show) {
	s.Drawings = drawings(l, way.weight, way.legs, v, show)
	if s.Tilts = way.plan.tiltCurves(way.legs); len(s.Tilts) > 0 {
		s.Plots = append(s.Plots, tiltPlot(s.Tilts, show))
	}
	if s.Slings != nil {
		s.Plots = append(s.Plots, heightPlot(s.Slings.Heights, way.legs, show)...)
	}
	s.Plots = append(s.Plots, sharePlot(way.legs, show)...)
	for i, d := range s.Plots {
		if !v.Acceptable {
			s.Plots[i] = d.refused()
		}
	}
}

// cautions are printed on every sheet. In our own words, after ASME B30.9 and
// P30.1, 29 CFR 1910.184, and OSHA Guidance on Safe Sling Use (partly from
// memory).
var cautions = []string{
	"This sheet helps a qualified person plan a lift; it does not replace that person, local codes, or the makers' instructions.",
	"The tag on each sling and the marking on each piece of hardware govern. A sling without a legible tag must not be used.",
	"Know the weight. Where the margin is small, weigh the load. Lift a hand's breadth, stop, look at level, hitch and brakes, then go on.",
	"The hook goes plumb over the CG: off it, the load swings until it is. Do not count on legs sharing evenly unless they are equalised.",
	"Pad every edge. Keep slings off welds, heat and chemicals that they are not made for. No knots, no twists, no shock load.",
	"Nobody on or under the load. Hands clear of slings as they come tight. Use tag lines.",
	"Check every part in the path of the load: hook, link, shackle, sling, lug, weld, bar, crane, ground.",
	"Not checked here: that the picks sit on sound metal, that the legs clear what is not drawn, lugs and welds (of a lug at most an outline), strength of the load, the hook and links (what a link must be rated for is said), crane set-up, ground, weather, and wind where none is stated.",
}
