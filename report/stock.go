package report

import (
	"strings"

	"plumbhook/lift"
)

// stock prints what the user's own slings give, before the sizes of the tables.
func (p *page) stock(s *lift.SlingStock) {
	if s == nil {
		return
	}
	p.gap()
	p.hang("  ", "From your own list of slings, "+s.File)
	p.gap()
	p.hang("  ", "Inspection: "+strings.TrimPrefix(s.Inspection, "inspection "))
	p.gap()
	for _, set := range s.Sets {
		p.stockSet(set)
	}
	if len(s.Sets) == 0 {
		p.hang("  ", "none of this family")
	}
	p.hang("  ", "Rated as the list has it: hold each tag against the list, and see that the tag is of the rule set. What may be bought or hired instead stands below.")
}

// stockSet prints a matched set with the mark for each leg, or what is missing.
func (p *page) stockSet(s lift.StockSet) {
	word, head := "no", "no set"
	switch {
	case s.Complete:
		word, head = s.Use, "a matched set"
	case s.Use != "no":
		word, head = "-", "no set"
	}
	lead := "  " + p.ink(padded(word, 6, false), word)
	for _, l := range wrap(familyName(lift.Family{Family: s.Family, Material: s.Material})+": "+head, 0, p.opt.Width-len(familyIndent)) {
		p.line(lead + l)
		lead = familyIndent
	}
	if s.Complete {
		text := s.Size + ", needs " + p.massUp(s.RequiredKg) + ", rated " + p.massDown(s.RatedKg) + ", " + percentUp(s.Utilisation) + " used"
		if s.WeightKg > 0 {
			text += "; the slings together weigh " + p.massUp(s.WeightKg)
		}
		p.hang(familyIndent, text)
		p.stockMarks(s.Marks)
	}
	for _, missing := range s.Missing {
		p.hang(familyIndent+"? ", missing)
	}
	for _, reason := range s.Reasons {
		p.hang(familyIndent+"- ", reason)
	}
	p.gap()
}

// stockMarks prints which sling goes where.
func (p *page) stockMarks(marks []lift.StockMark) {
	for _, m := range marks {
		text := "leg " + m.Pick + ": " + glued(m.Mark) + ", " + p.length(m.LengthM)
		if m.Steps > 0 {
			text += ", shortened by " + plural(m.Steps, "step", "steps")
		}
		p.hang(familyIndent+"> ", text)
	}
}
