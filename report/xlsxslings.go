package report

import (
	"strings"

	"plumbhook/lift"
	"plumbhook/units"
)

// slingCells are where the summary finds what the legs must be rated for.
type slingCells struct {
	required                    []string // by leg
	governing, rigging, onCrane string
}

// slings works out what each leg must be rated for and what hangs on the crane.
func (t tab) slings(s lift.LiftSheet, opt Options, w weightCells, legs legCells) slingCells {
	t.widths(36, 12, 12, 14, 12, 14, 14, 14, 60)
	t.begin("Slings", s)
	if s.Slings == nil || len(s.Slings.Hitch) == 0 || !legs.solved {
		text := "No sling is sized: see the reasons on Sheet."
		switch {
		case s.Slings != nil && (len(s.Slings.Sets) > 0 || len(s.Slings.ByHook) > 0):
			text = "The slings are sized set by set: see the lift sheet as text or as PDF."
		case s.Slings == nil:
			text = "No rule set was chosen, so the slings are not sized."
		}
		t.text("A", 4, text, "bold")
		t.printed("I", 6, 0)
		return slingCells{}
	}
	dynamic, floor := t.commonFactors(*s.Slings)
	row, cells := t.required(s, legs, dynamic, floor)
	row, first := t.families(row+3, *s.Slings, opt.Show)
	row = t.gross(row+2, s, w, legs, first, &cells)
	t.printed("I", row, 0)
	return cells
}

// commonFactors lists the factors with their sources; it returns the cells of the
// dynamic factor and of what the check of the set asks, empty where there is none.
func (t tab) commonFactors(z lift.Sizing) (dynamic, floor string) {
	t.text("A", 4, "Rule set "+z.Rules, "bold")
	t.heads(5, "ADE", "Factor", "", "Value", "Basis", "Source")
	row := 5
	for _, f := range z.Factors {
		row++
		t.text("A", row, f.Name, "")
		t.number("C", row, f.Value, asFactor)
		t.text("D", row, f.Basis, "")
		t.text("E", row, f.Source, "")
		if f.Name == "dynamic" {
			dynamic = pinned("C", row)
		}
	}
	if z.Set == nil {
		return dynamic, ""
	}
	t.text("A", row+1, "Check of the set: load, kg", "bold")
	t.number("C", row+1, z.Set.LoadKg, asMass)
	t.text("A", row+2, "its factor", "bold")
	t.number("C", row+2, z.Set.Factor, asFactor)
	t.text("A", row+3, "each leg: load × dynamic ÷ factor, kg", "bold")
	t.formula("C", row+3, asMass, "%s*%s/%s", at("C", row+1), dynamic, at("C", row+2))
	return dynamic, pinned("C", row+3)
}

// required works out the rating of each leg.
func (t tab) required(s lift.LiftSheet, legs legCells, dynamic, floor string) (int, slingCells) {
	var cells slingCells
	row := len(s.Slings.Factors) + 11
	t.text("A", row-1, "Rating needed, vertical hitch: worst tension × dynamic ÷ hitch, as a mass; no less than the check of the set asks. What a family adds, temperature, bend and edge, stands with it", "")
	t.heads(row, "A", "Leg to pick", "", "Worst tension, kN", "Tension at lift-off, kN", "Sized on, kN", "Factor of hitch and parts", "By its tension, kg", "Rating needed, kg")
	top := row + 1
	for i, leg := range s.Legs.Legs {
		row++
		t.text("A", row, leg.Pick, "text")
		t.formula("C", row, asForce, "%s", legs.worst[i])
		sized := at("C", row)
		if o := s.Legs.LiftOff; o != nil {
			t.number("D", row, o.Tension[leg.Pick], asForce)
			sized = "MAX(" + sized + "," + at("D", row) + "/" + dynamic + ")"
			if o.WithDynamic {
				sized = strings.TrimSuffix(sized, "/"+dynamic+")") + ")"
			}
		}
		t.formula("E", row, asForce, "%s", sized)
		hitch, used := s.Slings.Hitch[leg.Pick]
		if !used {
			t.number("H", row, 0, asMass)
			cells.required = append(cells.required, t.of("H", row))
			continue
		}
		t.number("F", row, hitch, asFactor)
		t.formula("G", row, asMass, "%s*%s/%s*1000/%s", at("E", row), dynamic, at("F", row), legs.gravity)
		need := at("G", row)
		if floor != "" {
			need = "MAX(" + need + "," + floor + ")"
		}
		t.formula("H", row, asMass, "%s", need)
		cells.required = append(cells.required, t.of("H", row))
	}
	row++
	t.text("A", row, "Governs: leg "+s.Slings.Governing.Pick+"; all legs of the set take it", "bold")
	t.formula("H", row, asMass, "MAX(%s:%s)", at("H", top), at("H", row-1))
	cells.governing = t.of("H", row)
	return row, cells
}

// families puts the families side by side; it returns the last row and the first
// one.
func (t tab) families(row int, z lift.Sizing, show units.Show) (last, first int) {
	t.text("A", row-1, "The families, as the program judges them. The tag on the sling governs the lift, not the table", "bold")
	pounds := "Rated, lb"
	if show == units.Metric {
		pounds = ""
	}
	t.heads(row, "ABGI", "Use: family", "Smallest size", "Rated, kg", "Needed, kg", "Used", "All legs weigh, kg", "Basis", pounds, "Why, and the source of the rating")
	first = row + 1
	for _, use := range uses {
		for _, f := range z.Families {
			if f.Use != use {
				continue
			}
			row++
			t.text("A", row, f.Use+": "+familyName(f), "text")
			why := strings.Join(f.Against, "; ")
			c := f.Choice
			switch {
			case c == nil && f.ByTag && f.Use != "no":
				t.text("B", row, "by its tag", "text")
			case c == nil && f.Use != "no":
				t.text("B", row, "none large enough", "text")
			case c != nil:
				t.text("B", row, c.Size, "text")
				t.number("C", row, c.RatedKg, asMass)
				t.number("D", row, c.RequiredKg, asMass)
				t.formula("E", row, asPart, "%s/%s", at("D", row), at("C", row))
				if pounds != "" {
					t.formula("H", row, us["kg"].format, "%s/%v", at("C", row), us["kg"].makes)
				}
				if c.WeightKg > 0 {
					t.number("F", row, c.WeightKg, asMass)
				}
				t.text("G", row, c.Basis, "text")
				why = strings.TrimPrefix(why+"; "+c.Source, "; ")
			}
			t.text("I", row, why, "text")
		}
	}
	return max(row, first), first
}

// gross adds up what hangs on the crane's hook.
func (t tab) gross(row int, s lift.LiftSheet, w weightCells, legs legCells, first int, cells *slingCells) int {
	end, g := row-2, s.Slings.Gross
	t.text("A", row, "On the crane's hook", "title")
	t.text("A", row+1, g.Note, "")
	row += 2
	top := row
	for i, rung := range g.Ladder {
		t.text("A", row, rung.Name+", kg", "bold")
		switch {
		case i == 0:
			t.formula("C", row, asMass, "%s", w.sizing)
		case i == 1 && s.Slings.Stock == nil:
			t.formula("C", row, asMass, "MAX(%s:%s)", at("F", first), at("F", end))
		default:
			t.number("C", row, rung.Kg, asMass)
		}
		if i == 1 {
			cells.rigging = t.of("C", row)
		}
		row++
	}
	t.text("A", row, "Gross load, kg", "bold")
	t.formula("C", row, asMass, "SUM(%s:%s)", at("C", top), at("C", row-1))
	cells.onCrane = t.of("C", row)
	if o := s.Legs.LiftOff; o != nil {
		t.text("A", row+1, "Pull of what holds it down, kN", "bold")
		t.number("C", row+1, o.PullKN, asForce)
		t.text("A", row+2, "Gross load at lift-off, kg", "bold")
		t.formula("C", row+2, asMass, "%s+%s*1000/%s", at("C", row), at("C", row+1), legs.gravity)
		row += 2
	}
	if g.CapacityKg > 0 {
		t.text("A", row+1, "Crane lifts there, kg", "bold")
		t.number("C", row+1, g.CapacityKg, asMass)
		t.text("A", row+2, "Used", "bold")
		t.formula("C", row+2, asPart, "%s/%s", at("C", row), at("C", row+1))
		row += 2
	}
	return row
}
