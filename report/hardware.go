package report

import (
	"strconv"
	"strings"

	"plumbhook/lift"
)

// hardware prints what the legs need between load and hook beside the slings.
func (p *page) hardware(title string, h *lift.Hardware) {
	if h == nil {
		return
	}
	p.heading(title)
	p.hang("  ", "Counted for the worst tension × dynamic of each leg. The mark on the hardware governs, not the table; jaw widths are not known here: measure them against the lug.")
	p.shackles(h)
	p.fittings(h.Fittings)
	p.link(h.Link)
	p.lugOutlines(h.Lugs)
}

// shackles prints the smallest shackle of each grade for each leg.
func (p *page) shackles(h *lift.Hardware) {
	if len(h.Shackles) == 0 {
		return
	}
	p.sub("Shackles at the load: the smallest of each grade")
	for _, s := range h.Shackles {
		text := "pulls " + p.forceUp(s.PullKN) + " at worst"
		if len(s.Choices) > 0 {
			text += ", " + offLine(s.OffDeg, "out of the plate of its lug")
		}
		if s.HoleM > 0 {
			text += "; hole of the lug " + p.length(s.HoleM)
		}
		p.hang("  ", s.Pick+": "+text)
		if s.Text != "" {
			p.hang("      ", s.Text)
		}
		for _, c := range s.Choices {
			p.hang("      - ", c.Grade+": "+glued(c.Size)+", needs "+p.massUp(c.RequiredKg)+", rated "+p.massDown(c.RatedKg)+p.mark(c.Basis)+", "+percentUp(c.Utilisation)+" used; pin "+
				p.length(c.PinM)+", bow "+p.length(c.BowM)+seated(c.Seat)+p.weighs(c.WeightKg))
		}
	}
	p.gap()
	p.field("Source", strings.Join(sources(h), "; "))
	p.field("They weigh", p.known(h.WeightKg)+h.Weight)
	p.eyes(h.Eyes)
}

// offLine says how far a pull is out of line.
func offLine(deg *float64, outOf string) string {
	switch {
	case deg == nil:
		return "taken in line: how the lug or eye stands is not stated"
	case *deg < angleNoise:
		return "in line"
	}
	return turn(*deg) + " " + outOf
}

// seated says how a pin sits in its hole.
func seated(seat string) string {
	return map[string]string{
		"snug": "; the pin sits well in the hole", "slack": "; the pin sits loosely in the hole",
		"too large": "; THE PIN DOES NOT GO THROUGH THE HOLE",
	}[seat]
}

func (p *page) weighs(kg float64) string {
	if kg == 0 {
		return ""
	}
	return "; weighs " + p.massUp(kg)
}

// known prints a weight in front of what is said of it, if it is known.
func (p *page) known(kg float64) string {
	if kg == 0 {
		return ""
	}
	return p.massUp(kg) + ", "
}

// sources are those of the shackles, each once.
func sources(h *lift.Hardware) []string {
	var out []string
	seen := map[string]bool{}
	for _, s := range h.Shackles {
		for _, c := range s.Choices {
			if !seen[c.Source] {
				seen[c.Source] = true
				out = append(out, c.Source)
			}
		}
	}
	return out
}

// eyes prints whether the bow of a shackle is thick enough for the eyes of the
// slings that may be used.
func (p *page) eyes(list []lift.EyeOnPin) {
	if len(list) == 0 {
		return
	}
	p.gap()
	p.hang("  ", "Soft eyes of wire rope on the thinnest of these bows, "+p.length(list[0].BowM)+"; what they hang on at the hook needs as much:")
	for _, e := range list {
		text := "enough"
		if !e.Enough {
			text = "TOO THIN: a thimble in the eye, or a larger shackle"
		}
		p.hang("  - ", familyName(lift.Family{Family: e.Family, Material: e.Material})+", "+glued(e.Size)+": at least "+p.length(e.LeastM)+p.mark(e.Basis)+" ("+e.Source+"): "+text)
	}
}

// fittings prints the hardware that the load file states.
func (p *page) fittings(list []lift.FittingCheck) {
	if len(list) == 0 {
		return
	}
	p.sub("Hardware that is there, as stated")
	for _, f := range list {
		outOf := "from the axis of the bolt"
		if f.Kind == "shackle" {
			outOf = "out of the plane of its bow"
		}
		text := f.Kind + " " + glued(f.Size) + " (" + f.Grade + "), rated " + p.massDown(f.RatedKg) + " in line" + p.mark(f.Basis) + "; pulled with " + p.forceUp(f.PullKN) + " at worst, " + offLine(f.OffDeg, outOf)
		switch {
		case f.Utilisation == 0:
		case f.Holds:
			text += ": needs " + p.massUp(f.RequiredKg) + " in line, " + percentUp(f.Utilisation) + " used"
		default:
			text += ": needs " + p.massUp(f.RequiredKg) + " in line"
		}
		p.hang("  ", f.Pick+": "+text)
		if !f.Holds {
			p.hang("      ", "DOES NOT HOLD: "+f.Why)
		}
		for _, x := range f.Factors {
			p.hang("      × ", factor(x.Value)+glue+x.Name+p.mark(x.Basis)+": "+x.Source)
		}
		for _, c := range f.Cautions {
			p.hang("      ! ", c)
		}
		p.hang("      ", joined(f.Source, f.Note))
	}
}

// link prints what gathers the legs.
func (p *page) link(k *lift.Link) {
	if k == nil {
		return
	}
	p.sub("At the hook")
	p.field("Gathering", k.Text)
	p.field("Link", "rated "+p.massUp(k.RequiredKg)+" or more (sizing weight × dynamic)"+p.statedLink(k.StatedKg)+"; weight and sizes not known here")
	if k.IntermediateKg > 0 {
		p.field("Between", "each intermediate link rated "+p.massUp(k.IntermediateKg)+" or more: 1.6 times what one leg is rated for, so more where a larger sling is taken")
	}
	p.field("Widest angle", turn(tenthUp(k.IncludedDeg))+" between two of them at worst; at most "+plainAngle(k.HookDeg)+" straight on a hook, "+plainAngle(k.ShackleDeg)+" in the bow of a shackle"+p.mark(k.Basis)+" ("+k.Source+")")
}

func (p *page) statedLink(kg float64) string {
	if kg == 0 {
		return "; none is stated"
	}
	return "; stated: " + p.massDown(kg)
}

// lugOutlines prints the outline of each lug whose plate is stated.
func (p *page) lugOutlines(list []lift.LugCheck) {
	if len(list) == 0 {
		return
	}
	p.sub("Lugs: an outline, to be verified by an engineer")
	for _, c := range list {
		text := "pulled with " + p.forceUp(c.PullKN) + ", dynamic factor in"
		if c.OutDeg != nil && *c.OutDeg >= angleNoise {
			text += ", " + turn(*c.OutDeg) + " out of its plate at worst, WHICH THE OUTLINE DOES NOT COVER"
		}
		if c.Within == nil {
			p.hang("  ", c.Pick+": "+text+". No outline; not stated: "+strings.Join(c.Missing, ", "))
			continue
		}
		verdict := "more than the outline allows: LOOK AT IT"
		if *c.Within {
			verdict = "in its plane within the outline"
		}
		p.hang("  ", c.Pick+": "+text+"; hole "+p.length(c.HoleM)+", thinnest pin "+p.length(c.PinM)+", category "+c.Category+", design factor "+strconv.FormatFloat(c.Nd, 'f', 1, 64)+": "+verdict)
		for _, l := range c.Limits {
			governs := ""
			if l.Name == c.Governs {
				governs = ", governs"
			}
			p.hang("      - ", l.Name+": may carry "+p.forceDown(l.AllowedKN)+", "+percentUp(l.Utilisation)+" used"+governs)
		}
	}
	p.gap()
	p.hang("  ", "This is an "+list[0].Covers+". It makes no lift acceptable. Formulas: "+list[0].Source+".")
}

func (p *page) forceDown(kN float64) string { return glued(newtons(kN).FormatDown(p.opt.Show)) }
