package takeoff

import (
	"fmt"
	"math"
	"strings"

	"plumbhook/units"
)

// mostDiffers is how far a weight that a sheet gives may be from what size and
// material come to before it is pointed out: 3 %, about what mills and
// rounding account for. Common practice, no source.
const mostDiffers = 0.03

// mostTimes is how many times one figure may be the other: beyond it one of
// them is wrong, a unit or a quantity, and no range between them is of use.
// Common practice, no source.
const mostTimes = 2

// said is a weight as the row says it.
func (s *sheet) said(w *sheetRow, name string) string {
	return strings.TrimSpace(s.withUnit(w.cells[name], name).Value)
}

// sure tells whether the row's weight is better than what its size and
// material come to: it was weighed, or its maker states it.
func (p *Part) sure() bool { return p.Status == "weighed" || p.Status == "catalogue" }

// reconcile holds the weights that a row gives against each other and against
// what its size comes to, and settles which of them is used.
func (s *sheet) reconcile(p *Part, w *sheetRow) {
	if p.weight() {
		s.sharedBasis(p, w)
		if w.cells["weight"] != nil {
			s.compare(p, w, "total weight", float64(w.given), "its weight for one", true)
		}
		return
	}
	if !w.weighs() {
		return
	}
	computed := float64(p.massOfOne())
	if p.sure() {
		s.takeGiven(p, w)
	}
	s.compare(p, w, "weight", computed, "its size and material", !p.sure())
	switch {
	case p.sure() && w.cells["weight"] != nil:
		s.compare(p, w, "total weight", float64(w.given), "its weight for one", true)
	default:
		s.compare(p, w, "total weight", computed, "its size and material", !p.sure())
	}
}

// sharedBasis says where the weight of one piece is from, if it is a share.
func (s *sheet) sharedBasis(p *Part, w *sheetRow) {
	if w.cells["weight"] == nil && w.quantity > 1 {
		p.Basis = strings.Replace(p.Basis, massText(w.given), s.givenAs(w), 1)
	}
}

// givenAs is the weight that the row gives, in its words.
func (s *sheet) givenAs(w *sheetRow) string {
	switch {
	case w.cells["weight"] != nil:
		return s.said(w, "weight")
	case w.quantity > 1:
		return fmt.Sprintf("%s in all for %d", s.said(w, "total weight"), w.quantity)
	}
	return s.said(w, "total weight")
}

// takeGiven makes the given weight that of the part. Shape and centre stay:
// the density is the one with which the shape comes to that weight.
func (s *sheet) takeGiven(p *Part, w *sheetRow) {
	p.Material.Density *= units.Density(w.given / p.massOfOne())
	row := s.tolerances[p.Status]
	allowed, why := row.span, row.meaning+" ("+row.source+")"
	if w.cells["tolerance"] != nil {
		allowed, why = span{p.Low, p.High}, "as written"
	}
	p.Low, p.High = allowed.low, allowed.high
	p.Basis = fmt.Sprintf("given as %s; %s: %s; its size says only where the weight is", s.givenAs(w), allowed, why)
}

// compare holds the weight in a column against another figure for one piece.
// Where they are far apart it warns, and the range comes to reach both; where
// they are too far apart to be of one thing it is an error.
func (s *sheet) compare(p *Part, w *sheetRow, name string, other float64, from string, usesOther bool) {
	n := w.cells[name]
	if n == nil || !(other > 0) {
		return
	}
	given, pieces, of := float64(w.given), 1.0, "for one"
	if name == "total weight" {
		pieces, of = float64(w.quantity), "in all"
		given = float64(w.total) / pieces
	}
	by := signed(given/other - 1)
	comes := fmt.Sprintf("%s comes to %s", from, units.Mass(other*pieces).Format(units.Both))
	text := fmt.Sprintf("the sheet gives %s %s, %s", s.said(w, name), of, comes)
	if max(given/other, other/given) > mostTimes {
		s.bad(n, fmt.Sprintf("%s: %s (%s): they differ by more than a factor of %d", p.Name, text, by, mostTimes),
			"correct one of the two: the weight or its unit, or the size, length, quantity or material")
		return
	}
	far := math.Abs(given/other-1) > mostDiffers
	note := fmt.Sprintf("; %s (%s)", text, by)
	if !usesOther { // the basis begins with what the sheet gives
		note = fmt.Sprintf("; %s (%s)", comes, by)
	}
	if far {
		note += "; the range reaches it"
	}
	if far || from == "its size and material" {
		p.Basis += note
	}
	if !far {
		return
	}
	used := "first"
	if usesOther {
		used = "second"
	}
	p.reach(given)
	p.reach(other)
	s.warn("weight-differs", p.Name, fmt.Sprintf("%s (%s): %s: the %s is used, and the range reaches both", p.Name, cell(s.at["mark"], p.Line), text+" ("+by+")", used),
		"find which is wrong: size, length, quantity, material, or the weight and its unit")
}

// reach widens the range of a part to a mass of one piece in kg.
func (p *Part) reach(mass float64) {
	off := mass/float64(p.massOfOne()) - 1
	p.Low, p.High = min(p.Low, off), max(p.High, off)
}

// signed prints a fraction as a percentage with its sign; nothing has none.
func signed(f float64) string {
	text := fmt.Sprintf("%+.1f %%", 100*f)
	if text == "+0.0 %" || text == "-0.0 %" {
		return "0.0 %"
	}
	return text
}

// trulyWeighed refuses a row that says weighed and gives no weight: the figure
// would be one by size and material, and its range that of a weighing.
func (s *sheet) trulyWeighed(w *sheetRow) {
	n := w.cells["status"]
	if n != nil && strings.EqualFold(strings.TrimSpace(n.Value), "weighed") && w.cells["size"] != nil && !w.weighs() {
		s.bad(n, "the row says weighed and gives no weight: what it comes to is computed from size and material",
			"write what was read in the column `weight` or `total weight`, or leave the status blank, or `calculated`")
	}
}
