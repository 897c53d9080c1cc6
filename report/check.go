package report

import (
	"fmt"
	"math"

	"plumbhook/geom"
	"plumbhook/lift"
)

func (p *page) checked(r lift.Checked) {
	what := "Take-off check"
	if r.Mesh != nil {
		what = "Mesh check"
		p.unweighable(r.Verdict)
	} else {
		p.refusal(r.Verdict)
	}
	p.title(what, "", r.Header)
	p.heading("FINDINGS")
	if len(r.Findings) == 0 {
		p.line("  none")
	}
	for i, f := range r.Findings {
		text := f.Text
		if f.WeightEffectKg != 0 {
			text += " (weight in doubt by " + p.massUp(math.Abs(f.WeightEffectKg)) + ")"
		}
		p.noted(i+1, named(f.Part, text), f.Fix)
	}
	p.warnings(Unfound(r))
	if r.Mesh != nil {
		p.meshHealth(*r.Mesh)
		p.assumptions(r.Assumptions)
		return
	}
	p.heading("WHERE EACH PART CAME TO STAND")
	p.seats(r.Parts)
	p.assumptions(r.Assumptions)
	p.legend()
}

// Unfound returns the warnings of a check that are not among its findings.
func Unfound(r lift.Checked) []lift.Warning {
	found := map[string]bool{}
	for _, f := range r.Findings {
		found[f.Code] = true
	}
	var rest []lift.Warning
	for _, w := range r.Warnings {
		if !found[w.Code] {
			rest = append(rest, w)
		}
	}
	return rest
}

// named puts the part before a text that does not begin with it.
func named(part, text string) string {
	if part == "" || len(text) >= len(part) && text[:len(part)] == part {
		return text
	}
	return part + ": " + text
}

// seats prints the box that each part takes up in the load's axes, so that a
// slip in placing shows.
func (p *page) seats(parts []lift.Seat) {
	cols := []column{{"No", 3, true}, {"Part, as written", 0, false}, {"Takes up, from the datum", 49, false}}
	p.titles(cols)
	for i, s := range parts {
		name := s.Name
		if s.Count > 1 {
			name += fmt.Sprintf(" (%d pieces)", s.Count)
		}
		name += "\n" + s.Kind + " " + s.Written
		if s.Material != "" {
			name += "\n" + s.Material
		}
		p.row(cols, plainInt(i+1), name+"\n"+p.mass(s.MassKg), p.box(s.BoxM)+"\n"+"CG"+glue+p.place(s.CGM))
	}
}

// box prints the three sides of a box, one a line.
func (p *page) box(b lift.Box) string {
	e := geom.Extent(b)
	side := func(i int, axis string) string {
		return axis + glue + glue + p.length(e.Min[i]) + " to " + p.length(e.Max[i])
	}
	return side(0, "x") + "\n" + side(1, "y") + "\n" + side(2, "z")
}
