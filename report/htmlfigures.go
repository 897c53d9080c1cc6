package report

import (
	"math"
	"strconv"

	"plumbhook/lift"
	"plumbhook/units"
)

// htmlFigure is one box of the form: a figure, and what has to be known of it.
type htmlFigure struct {
	Name  string
	Lines []string // the figure
	Note  string
}

// htmlLeg is one row of the table of legs.
type htmlLeg struct {
	Pick, Note             string
	Length, Level, Plumb   []string
	LevelWorst, PlumbWorst string
	Tension, Worst, Rating []string
	Use                    string
	Bar                    int    // percent, of the leg that governs
	Kind                   string // governs, part or slack: how its bar is filled
}

// htmlFigures are the figures that a crew looks for first.
func (p *page) htmlFigures(s lift.LiftSheet) []htmlFigure {
	w := s.Weigh.Weight
	list := []htmlFigure{
		{"Weight, best", p.cell(p.stackedMass(w.BestKg)), ""},
		{"Weight, range", p.cell(p.stackedMassDown(w.LowKg)), "to " + p.massUp(w.HighKg)},
		{"Planning weight", p.cell(p.stackedMass(w.PlanningKg)), clean(w.Rule)},
		{"Sizing weight", p.cell(p.stackedMassUp(w.SizingKg)), "the greater of planning and high: rigging is sized on it"},
	}
	if s.Slings != nil && s.Slings.Gross.TotalKg > 0 {
		list = append(list, p.grossFigure("Gross load on the hook", s.Slings.Gross))
	}
	if s.Slings != nil {
		for _, one := range s.Slings.ByHook {
			list = append(list, p.grossFigure("Gross load on the "+one.Hook+" hook", one.Gross))
		}
	}
	switch {
	case s.Legs.Posed != nil:
		list = append(list, p.hungFigures(s.Legs)...)
	case s.Legs.TwoHooks != nil:
		list = append(list, p.hookFigures(*s.Legs.TwoHooks)...)
	}
	if s.Slings != nil && s.Slings.Governing.RequiredKg > 0 {
		g := s.Slings.Governing
		list = append(list, htmlFigure{"Each leg rated, vertical", p.cell(p.stackedMassUp(g.RequiredKg)),
			"leg " + clean(g.Pick) + " governs; families with factors of their own need more: see Slings"})
	}
	return list
}

func (p *page) grossFigure(name string, g lift.Gross) htmlFigure {
	f := htmlFigure{name, p.cell(p.stackedMassUp(g.TotalKg)), "no crane is stated"}
	if g.CapacityKg > 0 {
		f.Note = "the crane lifts " + p.massDown(g.CapacityKg) + " there, as stated"
	}
	return f
}

// hungFigures are those of the pose.
func (p *page) hungFigures(h lift.Hanging) []htmlFigure {
	headroom := htmlFigure{"Headroom", p.cell(p.stackedLength(h.HeadroomM)), "top of the load up to the hook; " + p.length(h.HeadroomWorstM) + " at worst"}
	if h.HeadroomM < 0 {
		headroom = htmlFigure{"Headroom", []string{"none"}, "the hook is " + p.length(-h.HeadroomM) + " below the top of the load"}
	}
	worst := 0.0
	pick := h.Governing
	for _, l := range h.Legs {
		if l.Pick == h.Governing {
			worst = l.WorstTensionKN
		}
	}
	return []htmlFigure{
		headroom,
		{"Hook, from the datum", p.cell("z" + glue + p.stackedLength(h.HookM[2])), "x" + glue + p.length(h.HookM[0]) + ", y" + glue + p.length(h.HookM[1])},
		{"Tilt", []string{turn(h.TiltDeg)}, turn(tenthUp(h.TiltWorstDeg)) + " at worst" + outOf(h.Attitude) + inWind(h.SideForces)},
		{"Worst leg tension", p.cell(p.stackedForceUp(worst)), "leg " + clean(pick)},
		{"Stability", []string{stable(h.Stable && h.StableWorst)}, clean(standing(h))},
	}
}

// hookFigures are what each of two hooks carries at worst.
func (p *page) hookFigures(two lift.TwoHooks) []htmlFigure {
	var list []htmlFigure
	for _, hook := range []struct {
		name string
		lift.Hook
	}{{"Head hook, at worst", two.Head}, {"Tail hook, at worst", two.Tail}} {
		list = append(list, htmlFigure{hook.name, p.cell(p.stackedMassUp(hook.WorstKg)), "slings and block not in it; at every angle: see How it hangs"})
	}
	return list
}

// cell is a stacked figure as lines.
func (p *page) cell(stacked string) []string { return cellLines([]string{stacked})[0] }

// htmlTape is where the CG is from the load's edges, as a tape shows it.
func (p *page) htmlTape(w lift.Weight) *htmlTable {
	t := &htmlTable{Caption: "Centre of gravity (CG), from the edges of the load", Head: true, Cols: []htmlColumn{{"Along", false},
		{"from the edge at the smaller figure", true}, {"from the other edge", true}, {"may be less by", true}, {"or more by", true}, {"from the datum", true}}}
	for i, a := range w.Tapes() {
		t.Rows = append(t.Rows, htmlRow{Cells: cellLines([]string{a.Axis, p.stackedLength(a.LowM), p.stackedLength(a.HighM),
			p.stackedLength(a.LessM), p.stackedLength(a.MoreM), p.stackedLength(w.CGM[i])})})
	}
	return t
}

// htmlPicks are the places where the legs take hold.
func (p *page) htmlPicks(picks lift.SheetPicks) *htmlTable {
	if len(picks.Proposals) == 0 {
		return nil
	}
	set := picks.Proposals[0]
	t := &htmlTable{Caption: "Picks, from the datum", Head: true, Cols: []htmlColumn{{"Pick", false}, {"x", true}, {"y", true}, {"z", true}}}
	if !set.Given {
		t.Caption += " (" + geometryOnly + ")"
	}
	for _, pick := range set.Picks {
		t.Rows = append(t.Rows, htmlRow{Cells: cellLines([]string{pick.Name, p.stackedLength(pick.AtM[0]), p.stackedLength(pick.AtM[1]), p.stackedLength(pick.AtM[2])})})
	}
	return t
}

func (p *page) htmlLegs(s lift.LiftSheet) []htmlLeg {
	if s.Legs.Posed == nil {
		return nil // on two hooks the tables of how it hangs say what each sling carries
	}
	return append(p.htmlLegRows(s, s.Legs, s.Legs.Governing), p.htmlLegRows(s, aboveBars(s.Legs), s.Legs.UpperGoverning)...)
}

// aboveBars are the legs above the bars, as legs by themselves.
func aboveBars(h lift.Hanging) lift.Hanging {
	legs := upper(h.UpperLegs)
	for i := range legs {
		legs[i].Pick = h.UpperLegs[i].Name
	}
	return lift.Hanging{Legs: legs}
}

// htmlLegRows are the rows of the legs to the picks, or of those above the bars.
func (p *page) htmlLegRows(s lift.LiftSheet, h lift.Hanging, governing string) []htmlLeg {
	var out []htmlLeg
	for _, l := range h.Legs {
		flattest := tenthDown(l.WorstFromHorizontalDeg)
		row := htmlLeg{Pick: clean(l.Pick), Length: p.cell(p.stackedLength(l.LengthM)),
			Level: []string{plainAngle(l.FromHorizontalDeg)}, LevelWorst: plainAngle(flattest),
			Plumb: []string{plainAngle(l.FromVerticalDeg)}, PlumbWorst: plainAngle(90 - flattest),
			Tension: p.cell(p.stackedForceUp(l.TensionKN)), Worst: p.cell(p.stackedForceUp(l.WorstTensionKN)), Rating: []string{"-"}}
		use := h.Use(l)
		row.Use, row.Bar, row.Kind = percentUp(use), int(math.Round(100*use)), legKind(l, use)
		switch {
		case l.Slack:
			row.Note = "slack"
		case l.Pick == governing:
			row.Note = "governs"
		}
		if kg := s.Slings.RatingOf(l.Pick); kg > 0 {
			row.Rating = p.cell(p.stackedMassUp(kg))
		}
		out = append(out, row)
	}
	return out
}

// legKind is how the bar of a leg is filled: never by colour alone.
func legKind(l lift.Leg, use float64) string {
	switch {
	case l.Slack:
		return "slack"
	case use >= 0.9:
		return "governs"
	}
	return "part"
}

func (p *page) htmlLegNote(h lift.Hanging) string {
	switch {
	case !h.Solved:
		return noPose
	case h.Posed == nil:
		return "On two hooks: what each hook and each sling carries while the load turns stands under How it hangs."
	}
	return "Length: bearing to bearing, hardware in" + unloaded(h) + ". Tension: at the planning weight of " + p.mass(h.PlanningKg) +
		" and the best CG. Worst: at the sizing weight of " + p.massUp(h.SizingKg) + ", over all that is in doubt. Share: of the worst tension in the leg that governs; all legs are rated for that one."
}

// legText labels a leg in the view.
func (p *page) legText(h lift.Hanging, l lift.Leg) string {
	if l.Slack {
		return clean(l.Pick) + ": slack"
	}
	return clean(l.Pick) + ": " + units.Force(l.WorstTensionKN*1000).FormatUp(p.opt.Show) + ", " + strconv.Itoa(int(math.Ceil(100*h.Use(l)-1e-9))) + glue + "%"
}
