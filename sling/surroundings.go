package sling

import (
	"fmt"
	"slices"
	"strings"

	"plumbhook/units"
)

// The conditions of a place that are stated by a plain yes or no, in the order in
// which they are judged. What is not stated is not judged: that each of them were
// care until somebody denies it would make every family care for ever. It is
// named instead, in one line, see [Surroundings.Unstated].
var conditions = []string{"shock", "people near", "repeated use", byHand, "hard to inspect", "abrasive", "weld spatter"}

const (
	// byHand is judged by the weight of a leg: a row of factors.csv.
	byHand = "carried by hand"
	// edgeProtection is a condition of the table that a stated protection asks for.
	edgeProtection = "edge protection"
)

// Conditions returns the names that Surroundings.Conditions may hold.
func Conditions() []string { return slices.Clone(conditions) }

// Unstated returns the conditions that were neither stated nor denied.
func (s Surroundings) Unstated() []string {
	var out []string
	for _, c := range conditions {
		if _, stated := s.Conditions[c]; !stated {
			out = append(out, c)
		}
	}
	return out
}

// surroundingRow is one row of surroundings.csv: what a condition means for its
// subject, which is a family, a substance, a body (rope, chain, mesh, textile) or
// any. All rows that are about a family count.
type surroundingRow struct {
	cite
	rules                           Rules
	subject, condition, use, reason string
}

func readSurroundings() ([]surroundingRow, error) {
	records, err := readTable("surroundings", "rules", "subject", "condition", "use", "reason", "source", "basis")
	if err != nil {
		return nil, err
	}
	var out []surroundingRow
	for _, r := range records {
		row := surroundingRow{r.cite(), Rules(r.cells["rules"]), r.cells["subject"], r.cells["condition"], r.cells["use"], r.cells["reason"]}
		if err := row.check(); err != nil {
			return nil, fmt.Errorf("%s: %w", r.at, err)
		}
		out = append(out, row)
	}
	return out, nil
}

func (r surroundingRow) check() error {
	strength, chemical, _ := strings.Cut(r.condition, " ")
	name, ofChemical := chemicalNamed(chemical)
	ofChemical = ofChemical && name == chemical && slices.Contains([]string{weak, strong}, strength)
	switch {
	case !slices.Contains(severity, r.use) || r.reason == "":
		return fmt.Errorf("want use yes, care or no, and a reason")
	case !ofChemical && r.condition != edgeProtection && !slices.Contains(conditions, r.condition):
		return fmt.Errorf("condition %q is not one that is judged", r.condition)
	case r.use == Yes && (ofChemical || r.condition == edgeProtection || r.condition == "shock"):
		return fmt.Errorf("%s can be no better than care", r.condition)
	}
	return nil
}

// about reports whether a row is about a family.
func (r surroundingRow) about(f familyRow) bool {
	return r.rules == f.rules && slices.Contains([]string{f.family, f.substance, f.body, anyOne}, r.subject)
}

// meet judges a condition by every row that is about the family; words stand
// before the reason.
func (l *lift) meet(f familyRow, condition, words string, o *opinion) {
	for _, row := range l.book.surroundings {
		if row.condition == condition && row.about(f) {
			o.add(row.use, "%s: %s (%s)", words, row.reason, row.cite)
		}
	}
}

// conditions judges what is stated of the place by a plain yes.
func (l *lift) conditions(f familyRow, o *opinion) {
	for _, c := range conditions {
		if l.need.Surroundings.Conditions[c] && c != byHand {
			l.meet(f, c, c, o)
		}
	}
}

// protection says what a stated protection of the edge must do. It is asked for
// only where the edge speaks against the family, which it leaves at care.
func (l *lift) protection(f familyRow, o *opinion) {
	if p := l.need.Surroundings.EdgeProtection; p != "" {
		l.meet(f, edgeProtection, p+" on the edge", o)
	}
}

// carried judges the weight of the heaviest leg where the slings are carried by
// hand; size is nil where none was chosen. A weight that is not known is care,
// unless a row of the table says that a chain of the same rating is heavier and
// that one is light enough.
func (l *lift) carried(f familyRow, size *rating, o *opinion) {
	if !l.need.Surroundings.Conditions[byHand] {
		return
	}
	perMetre, weighs, light := units.Mass(0), "a leg weighs", Yes
	if size != nil {
		perMetre = size.perMetre
		if at := slices.IndexFunc(l.book.surroundings, func(r surroundingRow) bool { return r.condition == byHand && r.about(f) }); perMetre == 0 && at >= 0 {
			row := l.book.surroundings[at]
			perMetre, light = l.chainOf(f.rules, size.vertical), row.use
			weighs = fmt.Sprintf("%s (%s), of which a leg weighs", row.reason, row.cite)
		}
	}
	heaviest, known := units.Mass(0), perMetre > 0
	for _, leg := range l.legs {
		known = known && leg.length > 0
		heaviest = max(heaviest, perMetre*units.Mass(leg.lines()*leg.length))
	}
	for _, row := range l.book.rows(f, byHand, "") {
		switch most := units.Mass(row.valid.high); {
		case !known:
			o.add(Care, "%s: the own weight of a leg is not known; one person carries up to %s (%s)", byHand, most.FormatDown(units.Both), row.cite)
		case row.valid.holds(float64(heaviest)):
			o.add(light, "%s: %s %s without end fittings (%s)", byHand, weighs, heaviest.FormatUp(units.Both), row.cite)
		default:
			o.add(Care, "%s: %s %s without end fittings, more than %s (%s)", byHand, weighs, heaviest.FormatUp(units.Both), most.FormatDown(units.Both), row.cite)
		}
	}
}

// chainOf returns the own weight in kg per m of the smallest chain of a rating;
// 0 where there is none of it.
func (l *lift) chainOf(rules Rules, rated units.Mass) units.Mass {
	for _, f := range l.book.under(rules) {
		for _, size := range l.book.sizes(f) {
			if f.body == "chain" && size.vertical >= rated && size.perMetre > 0 {
				return size.perMetre
			}
		}
	}
	return 0
}

// lines is the number of parts of a leg that are as long as it.
func (d demand) lines() float64 {
	if d.hitch == basket {
		return 2
	}
	return 1
}

// placed refuses tables that leave a family without an answer to a condition.
func (b *book) placed(f familyRow) (missing string) {
	for _, c := range append([]string{edgeProtection}, conditions...) {
		answered := slices.ContainsFunc(b.surroundings, func(r surroundingRow) bool { return r.condition == c && r.about(f) })
		if c == byHand {
			answered = len(b.rows(f, byHand, "")) == 1
		}
		if !answered {
			return "an answer to " + c
		}
	}
	return ""
}
