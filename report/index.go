package report

import (
	"bytes"
	_ "embed"
	"fmt"
	"html/template"
	"io"
	"net/url"
	"strconv"
	"strings"

	"plumbhook/lift"
)

var (
	//go:embed index.html.tmpl
	indexTemplate string
	//go:embed index.css
	indexStyle string

	indexPage = template.Must(template.New("index").Parse(indexTemplate))
)

// Indexed is one load of an index page, with its sheet or with why there is none.
type Indexed struct {
	Input    string         // the file that the load was read from, as it was named
	File     string         // of its sheet, beside the index; empty: none was written
	Sheet    lift.LiftSheet // its figures; without a file they are not looked at
	Problems []lift.Problem // why no sheet was written
	Old      string         // a file that an earlier sheet of that name is left in
}

// indexHTML is what the template lays out.
type indexHTML struct {
	Date, Version, Units string
	Policy               string
	Style                template.CSS
	Rows                 []indexRow
	Good, Bad, None      int // sheets that are acceptable, that are not, and that there are none of
}

// indexRow is one load; its cells are lines of text.
type indexRow struct {
	Name, Input, Link, Verdict   string
	Kind                         string // good, bad or none: how the verdict is set
	Weight, Leg, Tension, Rating []string
	Gross                        []string
	WeightNote, RatingNote       string
	GrossNote                    string
	Warnings                     string
	Notes                        []string // reasons against the lift, or what is wrong with the input
}

// Index writes a page that leads to the sheets of several loads, in the order
// given. Like them it needs nothing but itself.
func Index(w io.Writer, list []Indexed, date string, opt Options) error {
	p := newPage(opt)
	page := indexHTML{Date: clean(date), Version: clean(opt.Version), Units: shownIn[opt.Show], Style: template.CSS(indexStyle)}
	page.Policy = "default-src 'none'; base-uri 'none'; form-action 'none'; style-src " + fingerprint(indexStyle)
	for _, one := range list {
		row := p.indexRow(one)
		switch row.Kind {
		case "good":
			page.Good++
		case "bad":
			page.Bad++
		default:
			page.None++
		}
		page.Rows = append(page.Rows, row)
	}
	var b bytes.Buffer
	if err := indexPage.Execute(&b, page); err != nil {
		return fmt.Errorf("report: %w", err)
	}
	_, err := w.Write(b.Bytes())
	return err
}

func (p *page) indexRow(one Indexed) indexRow {
	row := indexRow{Name: clean(one.Input), Verdict: "NO SHEET", Kind: "none"}
	if one.File == "" {
		for _, problem := range one.Problems {
			row.Notes = append(row.Notes, problemText(problem))
		}
		if one.Old != "" {
			row.Notes = append(row.Notes, one.Old+" is left from before: it is not of this input, and must not be used for it")
		}
		row.Notes = cleanAll(row.Notes)
		return row
	}
	s := one.Sheet
	row.Name, row.Input, row.Link = clean(orElse(s.Load, "Load without a name")), clean(one.Input), "./"+url.PathEscape(one.File)
	if s.State != "" {
		row.Input += ", state " + clean(s.State)
	}
	row.Verdict, row.Kind = "acceptable", "good"
	if !s.Verdict.Acceptable {
		row.Verdict, row.Kind, row.Notes = notAcceptable, "bad", cleanAll(s.Verdict.Reasons)
	}
	row.Weight = p.cell(p.stackedMass(s.Weigh.Weight.BestKg))
	row.WeightNote = p.massDown(s.Weigh.Weight.LowKg) + " to" + glue + p.massUp(s.Weigh.Weight.HighKg)
	row.Warnings = strconv.Itoa(len(s.Warnings))
	p.indexLegs(&row, s.Legs)
	p.indexSlings(&row, s.Slings)
	return row
}

// problemText is what is wrong with an input on one line, its place first.
func problemText(problem lift.Problem) string {
	text := problem.Text
	switch {
	case problem.File == "":
	case problem.Cell != "":
		text = problem.File + ":" + problem.Cell + ": " + text
	case problem.Line == 0:
		text = problem.File + ": " + text
	case problem.Column == 0:
		text = fmt.Sprintf("%s:%d: %s", problem.File, problem.Line, text)
	default:
		text = fmt.Sprintf("%s:%d:%d: %s", problem.File, problem.Line, problem.Column, text)
	}
	if problem.Fix != "" {
		text += ". What to do: " + problem.Fix
	}
	return text
}

// indexLegs says what the leg that governs carries at worst, or each of two
// hooks.
func (p *page) indexLegs(row *indexRow, h lift.Hanging) {
	switch {
	case !h.Solved:
		row.Leg = []string{"no pose was found"}
	case h.TwoHooks != nil:
		row.Leg = []string{"two hooks"}
		head, tail := h.TwoHooks.Head, h.TwoHooks.Tail
		row.Tension = p.cell("head " + p.stackedForceUp(head.WorstKN) + "\ntail " + p.stackedForceUp(tail.WorstKN))
		row.Gross = p.cell("head " + p.stackedMassUp(head.WorstKg) + "\ntail " + p.stackedMassUp(tail.WorstKg))
		row.GrossNote = "without blocks and rigging"
	case h.Posed != nil:
		row.Leg = []string{clean(h.Governing)}
		for _, l := range h.Legs {
			if l.Pick == h.Governing {
				row.Tension = p.cell(p.stackedForceUp(l.WorstTensionKN))
			}
		}
	}
}

// indexSlings says what a leg must be rated for, and what hangs on the hook.
func (p *page) indexSlings(row *indexRow, s *lift.Sizing) {
	if s == nil {
		row.Rating = []string{"no rule set"}
		return
	}
	if g := s.Governing; g.RequiredKg > 0 {
		row.Rating = p.cell(p.stackedMassUp(g.RequiredKg))
		if g.State != "" {
			row.RatingNote = "in the state " + clean(g.State)
		}
	}
	if s.Gross.TotalKg <= 0 {
		return
	}
	row.Gross = p.cell(p.stackedMassUp(s.Gross.TotalKg))
	var notes []string
	if s.Gross.LiftOffKg > 0 {
		notes = append(notes, p.massUp(s.Gross.LiftOffKg)+" at lift-off")
	}
	if s.Gross.Used != nil {
		notes = append(notes, percentUp(*s.Gross.Used)+" of the crane's "+p.massDown(s.Gross.CapacityKg))
	}
	row.GrossNote = strings.Join(notes, "; ")
}
