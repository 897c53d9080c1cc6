package lift

import (
	"fmt"

	"plumbhook/geom"
	"plumbhook/takeoff"
	"plumbhook/units"
)

// Checked answers: is my take-off sound?
type Checked struct {
	Header
	Findings []Finding   `json:"findings"`
	Parts    []Seat      `json:"parts"`
	Mesh     *MeshHealth `json:"mesh,omitempty"` // of a mesh given by itself
}

// Finding is one thing to look at in a take-off.
type Finding struct {
	Code           string  `json:"code"`
	Text           string  `json:"text"`
	Fix            string  `json:"fix"`
	Part           string  `json:"part"`
	WeightEffectKg float64 `json:"weight_effect_kg"` // 0: none, or not known
}

// Seat is where a part came to stand, so that a slip in placing shows.
type Seat struct {
	Name     string   `json:"name"`
	Kind     string   `json:"kind"`
	Written  string   `json:"written"`
	Count    int      `json:"count"`
	Material string   `json:"material"`
	MassKg   float64  `json:"mass_kg"`
	CGM      geom.Vec `json:"cg_m"` // of all copies
	BoxM     Box      `json:"box_m"`
}

// Check looks over a take-off that could be read.
func Check(l *takeoff.Load) (Checked, error) {
	c := Checked{Header: newHeader(l), Findings: []Finding{}}
	if _, err := weigh(l, &c.Header); err != nil {
		return c, err
	}
	if err := checkStock(l); err != nil {
		return c, err
	}
	for _, o := range l.Overlaps {
		c.Findings = append(c.Findings, Finding{"overlap", o.Text(), takeoff.OverlapFix, o.Parts[0], float64(o.Weight)})
	}
	for _, w := range l.Warnings {
		if w.Code == "overlap" {
			continue // said above, with the small ones
		}
		c.Findings = append(c.Findings, Finding{w.Code, w.Text, w.Fix, w.Part, 0})
	}
	for _, o := range l.Loose() {
		c.Findings = append(c.Findings, Finding{Code: "loose", Part: o.Part, Text: looseText(o),
			Fix: "look at its place; if it is held by something that is not in the take-off, add that"})
	}
	for _, p := range l.Parts {
		best, low, high := p.Mass()
		c.Parts = append(c.Parts, Seat{p.Name, p.Kind, p.Written, p.Count, p.Material.Name, float64(best), p.CG(), Box(p.Extent())})
		for i := range c.Findings {
			if f := &c.Findings[i]; f.Code == "mesh-unsound" && f.Part == p.Name {
				f.WeightEffectKg = float64(high - low)
			}
		}
		if f, told := facetFinding(p.Name, p.Faceted, float64(best)*p.Faceted/(1-p.Faceted)); told {
			c.Findings = append(c.Findings, f)
		}
	}
	return c, nil
}

// looseText tells of a part that touches nothing.
func looseText(o takeoff.Loose) string {
	gap := units.Length(o.Gap).Format(units.Both)
	if o.Pieces > 1 {
		return fmt.Sprintf("%d pieces of it touch no other part: %q is nearest, up to %s away", o.Pieces, o.Nearest, gap)
	}
	return fmt.Sprintf("it touches no other part: %q is nearest, %s away", o.Nearest, gap)
}
