package sling

import (
	"cmp"
	"fmt"
	"math"
	"slices"

	"plumbhook/units"
)

// The kinds of hardware that hardware.csv has sizes of.
const (
	Shackle    = "shackle"
	Eyebolt    = "eyebolt"
	HoistRing  = "swivel hoist ring"
	Turnbuckle = "turnbuckle"
)

// fittingRow is one row of hardware.csv: one size of a kind.
type fittingRow struct {
	cite
	rules             Rules
	kind, grade, size string
	body, pin         units.Length // 0: it has none
	rated             units.Mass   // in line
	at45              units.Mass   // at up to 45° from the bolt; 0: not printed
	weight            units.Mass   // 0: not known
	weightCite        cite
}

func readHardware() ([]fittingRow, error) {
	records, err := readTable("hardware", "rules", "kind", "grade", "size", "body", "pin", "length_unit", "rated", "unit", "at_45",
		"weight", "weight_unit", "weight_source", "weight_basis", "source", "basis", "note")
	if err != nil {
		return nil, err
	}
	var out []fittingRow
	for _, r := range records {
		row, err := readFitting(r)
		if err != nil {
			return nil, fmt.Errorf("%s (%s): %w", r.at, r.cells["size"], err)
		}
		out = append(out, row)
	}
	return out, nil
}

func readFitting(r record) (row fittingRow, err error) {
	c := r.cells
	row = fittingRow{cite: r.cite(), rules: Rules(c["rules"]), kind: c["kind"], grade: c["grade"], size: c["size"],
		weightCite: cite{source: c["weight_source"], basis: c["weight_basis"]}}
	if row.rated, err = units.ParseMass(c["rated"] + " " + c["unit"]); err != nil {
		return row, err
	}
	if !(row.rated > 0) {
		return row, fmt.Errorf("rated %q, want more than 0", c["rated"])
	}
	for _, cell := range []struct {
		text, unit string
		to         *units.Mass
	}{{c["at_45"], c["unit"], &row.at45}, {c["weight"], c["weight_unit"], &row.weight}} {
		if cell.text == "" {
			continue
		}
		if *cell.to, err = units.ParseMass(cell.text + " " + cell.unit); err != nil {
			return row, err
		}
	}
	for _, cell := range []struct {
		text string
		to   *units.Length
	}{{c["body"], &row.body}, {c["pin"], &row.pin}} {
		if cell.text == "" {
			continue
		}
		if *cell.to, err = units.ParseLength(cell.text+" "+c["length_unit"], units.LengthUnit{}); err != nil {
			return row, err
		}
	}
	return row, nil
}

// Pull is what a fitting must hold.
type Pull struct {
	Rules   Rules
	Kind    string      // Shackle, Eyebolt, HoistRing or Turnbuckle
	Tension units.Force // N, worst static
	Dynamic float64     // factor, 1 or more; 0: none stated, 1 is taken
	// Off in rad is how far the pull is out of line: for a shackle from the plane
	// of its bow, for an eyebolt or a hoist ring from the axis of its bolt.
	Off units.Turn
}

// Fitting is a size of hardware held against a pull.
type Fitting struct {
	Kind, Grade, Size string
	Rated             units.Mass // kg, in line
	Required          units.Mass // kg, in line: load × dynamic ÷ the factors
	Utilisation       float64    // required over rated
	Pin, Body         units.Length
	Weight            units.Mass // kg of one; 0: not known
	Factors           []Factor
	Source, Basis     string
	Note              string
}

// check refuses a pull that cannot be answered.
func (p Pull) check() error {
	switch {
	case p.Rules != US && p.Rules != EN:
		return fmt.Errorf("sling: rule set %q, want US or EN: state the rules, there is no default", p.Rules)
	case !within(float64(p.Tension), 0, greatest):
		return fmt.Errorf("sling: tension %g N, want 0 to %g N", float64(p.Tension), greatest)
	case p.Dynamic != 0 && !(p.Dynamic >= 1 && p.Dynamic < 100):
		return fmt.Errorf("sling: dynamic factor %g, want 1 to 100: leave it out where none is taken", p.Dynamic)
	case !within(float64(p.Off), 0, math.Pi):
		return fmt.Errorf("sling: pull %g rad out of line, want 0 to 180°", float64(p.Off))
	}
	return nil
}

// Fittings returns the smallest size of each grade of the kind that holds the
// pull, in the order of the table; none where no size does, with why.
func Fittings(p Pull) (fits []Fitting, why string, err error) {
	b, rows, err := p.rows()
	if err != nil || len(rows) == 0 {
		return nil, fmt.Sprintf("no sizes of %s are known under %s", withArticle(p.Kind), p.Rules), err
	}
	var grades []string
	for _, row := range rows {
		if slices.Contains(grades, row.grade) {
			continue
		}
		f, barred := p.hold(b, row)
		switch {
		case barred != "":
			why = barred
		case f.Utilisation <= 1+1e-9:
			grades = append(grades, row.grade)
			fits = append(fits, f)
		default:
			why = fmt.Sprintf("no size of %s is large enough: the largest of the table, %s, is rated %s and %s is needed", withArticle(p.Kind), row.size,
				row.rated.FormatDown(units.Both), f.Required.FormatUp(units.Both))
		}
	}
	if len(fits) > 0 {
		why = ""
	}
	return fits, why, nil
}

// Holds holds one size of the kind against the pull, whether it is large enough
// or not. known is false for a size that the table has not; why is why such a pull
// is not allowed at all.
func (p Pull) Holds(size string) (f Fitting, known bool, why string, err error) {
	b, rows, err := p.rows()
	if err != nil {
		return f, false, "", err
	}
	for _, row := range rows { // of two grades the weaker, which stands first
		if tidy(row.size) == tidy(size) {
			f, why = p.hold(b, row)
			return f, true, why, nil
		}
	}
	return f, false, "", nil
}

// Sizes returns the names of the sizes of the kind, smallest first.
func (p Pull) Sizes() []string {
	_, rows, err := p.rows()
	if err != nil {
		return nil
	}
	var out []string
	for _, row := range rows {
		if !slices.Contains(out, row.size) {
			out = append(out, row.size)
		}
	}
	return out
}

// rows are those of the kind under the rule set, smallest rating first.
func (p Pull) rows() (*book, []fittingRow, error) {
	if err := p.check(); err != nil {
		return nil, nil, err
	}
	b, err := openBook()
	if err != nil {
		return nil, nil, fmt.Errorf("sling: tables: %w", err)
	}
	var rows []fittingRow
	for _, row := range b.hardware {
		if row.rules == p.Rules && row.kind == p.Kind {
			rows = append(rows, row)
		}
	}
	slices.SortStableFunc(rows, func(x, y fittingRow) int { return cmp.Compare(x.rated, y.rated) })
	return b, rows, nil
}

// hold is what a size is used to: load × dynamic ÷ (rated × the factor of a pull
// out of line). barred is why it is not allowed at all.
func (p Pull) hold(b *book, row fittingRow) (f Fitting, barred string) {
	dynamic := Factor{"dynamic", max(1, p.Dynamic), "stated", "stated"}
	if p.Dynamic == 0 {
		dynamic = Factor{"dynamic", 1, "no dynamic allowance taken", "assumed"}
	}
	f = Fitting{Kind: row.kind, Grade: row.grade, Size: row.size, Rated: row.rated, Pin: row.pin, Body: row.body, Weight: row.weight,
		Factors: []Factor{dynamic}, Source: row.source, Basis: row.basis, Note: row.note}
	off, barred := p.outOfLine(b, row)
	if barred != "" {
		return f, barred
	}
	f.Factors = append(f.Factors, off)
	f.Required = units.Force(float64(p.Tension)*dynamic.Value).Mass() / units.Mass(off.Value)
	f.Utilisation = float64(f.Required / row.rated)
	return f, ""
}

// outOfLine is the factor of a pull that is not in line.
func (p Pull) outOfLine(b *book, row fittingRow) (Factor, string) {
	degrees := units.Degrees(p.Off)
	name := map[string]string{Shackle: "side load", Eyebolt: "pull", HoistRing: "pull"}[row.kind]
	if name == "" {
		if degrees > 5+1e-6 {
			return Factor{}, fmt.Sprintf("%s is pulled in line only, not %.1f° out of it", withArticle(row.kind), degrees)
		}
		return Factor{"in line", 1, "a " + row.kind + " is pulled in line", "common practice"}, ""
	}
	if row.at45 > 0 && degrees > 5+1e-6 && degrees <= 45+1e-6 {
		return Factor{fmt.Sprintf("pull %.1f° from the bolt", degrees), float64(row.at45 / row.rated), row.source + ": rated at up to 45°", row.basis}, ""
	}
	kind := familyRow{rules: p.Rules, family: row.kind, material: anyOne}
	factor, ok := b.at(kind, name, "", degrees)
	if !ok {
		return Factor{}, fmt.Sprintf("what %s of this size holds %.1f° out of line is not known here", withArticle(row.kind), degrees)
	}
	if factor.value == 0 {
		return Factor{}, fmt.Sprintf("%s may not be pulled %.1f° out of line (%s)", withArticle(row.kind), degrees, factor.cite)
	}
	return factor.as(fmt.Sprintf("%s, %.1f°", name, degrees)), ""
}

// IncludedLimit returns the greatest angle in rad between two legs in the bowl of
// a hook, or in the bow of a shackle, with its source.
func IncludedLimit(rules Rules, kind string) (units.Turn, Factor, bool) {
	b, err := openBook()
	if err != nil {
		return 0, Factor{}, false
	}
	rows := b.rows(familyRow{rules: rules, family: kind, material: anyOne}, "included angle", "")
	if len(rows) != 1 {
		return 0, Factor{}, false
	}
	return units.Turn(units.Radians(rows[0].valid.high)), rows[0].as("included angle"), true
}

// LinkNeeds returns what the link that gathers a set of legs must be rated for: the
// load × dynamic; and, under EN, what each intermediate link of a three- or
// four-leg set must be, 1.6 times the rating of one leg.
func LinkNeeds(rules Rules, load units.Force, dynamic float64, legs int, oneLeg units.Mass) (master, intermediate units.Mass, source Factor, err error) {
	b, err := openBook()
	if err != nil {
		return 0, 0, Factor{}, fmt.Errorf("sling: tables: %w", err)
	}
	master = units.Force(float64(load) * max(1, dynamic)).Mass()
	rows := b.rows(familyRow{rules: rules, family: "intermediate link", material: anyOne}, "rating", "")
	if legs > 2 && len(rows) == 1 {
		return master, oneLeg * units.Mass(rows[0].value), rows[0].as("intermediate link"), nil
	}
	return master, 0, Factor{}, nil
}

// withArticle is a kind of hardware with its article.
func withArticle(kind string) string {
	if kind == Eyebolt {
		return "an " + kind
	}
	return "a " + kind
}
