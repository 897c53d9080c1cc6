package report

import (
	"bytes"
	"crypto/sha256"
	_ "embed"
	"encoding/base64"
	"fmt"
	"html/template"
	"io"
	"strings"

	"plumbhook/lift"
)

var (
	//go:embed sheet.html.tmpl
	sheetTemplate string
	//go:embed sheet.css
	sheetStyle string
	//go:embed view3d.js
	viewScript string

	sheetPage = template.Must(template.New("sheet").Parse(sheetTemplate))
)

// htmlSheet is what the template lays out: texts, in the order in which they
// stand on the page.
type htmlSheet struct {
	lift.Header
	Title    string
	Date     string
	Version  string
	Hash     string
	Units    string
	Policy   string
	Style    template.CSS
	Script   template.JS // empty: no shape is known, and so no view
	ViewData template.JS
	View     htmlView
	Figures  []htmlFigure
	Tape     *htmlTable
	Picks    *htmlTable
	Legs     []htmlLeg
	Rated    bool // the legs have a rating that they need
	LegNote  string
	Drawings []htmlDrawings
	Plots    []htmlDrawing
	Sections []htmlSection
	Legend   []htmlField
	NotDone  []string
	Cautions []string
}

// htmlSection is one numbered section; its parts have headings of their own.
type htmlSection struct {
	ID    string
	Short string // for the list of sections
	Title string
	Parts []htmlPart
}

// htmlDrawings are the drawings of one pose.
type htmlDrawings struct {
	Title   string
	Figures []htmlDrawing
}

type htmlDrawing struct {
	Title string
	SVG   template.HTML
}

// HTML writes the lift sheet as one page that needs nothing but itself: no
// network, no scripts, for the screen and for paper. Its policy lets no script and
// no style run but its own.
func HTML(w io.Writer, s lift.LiftSheet, opt Options) error {
	p := newPage(opt)
	page := p.htmlSheet(s)
	if err := page.view(p, s); err != nil {
		return err
	}
	page.Style = template.CSS(sheetStyle + markStyle + page.running())
	page.Policy = "default-src 'none'; base-uri 'none'; form-action 'none'; style-src " + fingerprint(string(page.Style))
	if page.Script != "" {
		page.Policy += "; script-src " + fingerprint(string(page.Script))
	}
	var b bytes.Buffer
	if err := sheetPage.Execute(&b, page); err != nil {
		return fmt.Errorf("report: %w", err)
	}
	_, err := w.Write(b.Bytes())
	return err
}

// fingerprint is the source of a Content-Security-Policy that allows just this
// text.
//
// Source: W3C, Content Security Policy Level 2, section 4.2.5 (from memory).
func fingerprint(text string) string {
	sum := sha256.Sum256([]byte(text))
	return "'sha256-" + base64.StdEncoding.EncodeToString(sum[:]) + "'"
}

// running is what each printed page says at its foot.
func (s *htmlSheet) running() string {
	return fmt.Sprintf("\n@page {\n\t@bottom-left { content: \"%s\"; }\n}\n", cssText(strings.Join(kept("plumbhook "+s.Version, s.Hash), " · ")))
}

// kept are the texts that are not empty.
func kept(texts ...string) []string {
	var out []string
	for _, t := range texts {
		if t = strings.TrimSpace(t); t != "" {
			out = append(out, t)
		}
	}
	return out
}

// cssText makes a text fit to stand in quotes in a style.
func cssText(text string) string {
	return strings.Map(func(r rune) rune {
		if strings.ContainsRune("\"\\<\n", r) {
			return ' '
		}
		return r
	}, text)
}

func (p *page) htmlSheet(s lift.LiftSheet) *htmlSheet {
	page := &htmlSheet{Header: cleanHeader(s.Header), Title: clean(orElse(s.Load, "Load without a name")), Date: clean(s.Date),
		Version: clean(p.opt.Version), Hash: shortHash(s.InputSHA256), Units: shownIn[p.opt.Show]}
	page.Figures = p.htmlFigures(s)
	page.Tape, page.Picks = p.htmlTape(s.Weigh), p.htmlPicks(s.Picks)
	page.Legs, page.Rated, page.LegNote = p.htmlLegs(s), s.Slings != nil && len(s.Slings.Required) > 0, p.htmlLegNote(s.Legs)
	page.Drawings = htmlDrawn(s.Drawings)
	for i, plot := range s.Plots {
		page.Plots = append(page.Plots, htmlDrawing{clean(plot.Title), template.HTML(svgTitled(plot, fmt.Sprintf("plot-%d", i+1)))})
	}
	page.Sections = p.htmlSections(s)
	for _, l := range legends {
		if p.marks[l.basis] {
			page.Legend = append(page.Legend, htmlField{marks[l.basis], []string{l.text}})
		}
	}
	for _, c := range s.Cautions {
		if rest, not := strings.CutPrefix(c, "Not checked here: "); not {
			page.NotDone = append(page.NotDone, clean(rest))
		} else {
			page.Cautions = append(page.Cautions, clean(c))
		}
	}
	return page
}

// shownIn says in which units the figures are, by units.Show.
var shownIn = []string{"metric, US in brackets or below", "metric", "US"}

func cleanHeader(h lift.Header) lift.Header {
	h.Load, h.State, h.Drawing = clean(h.Load), clean(h.State), clean(h.Drawing)
	h.Datum = clean(orElse(h.Datum, "not stated: coordinates count from the origin of the load file"))
	h.Verdict.Reasons, h.Assumptions = cleanAll(h.Verdict.Reasons), cleanAll(h.Assumptions)
	var warnings []lift.Warning
	for _, w := range h.Warnings {
		warnings = append(warnings, lift.Warning{Code: w.Code, Text: clean(w.Text), Fix: clean(w.Fix)})
	}
	h.Warnings = warnings
	return h
}

func cleanAll(texts []string) []string {
	var out []string
	for _, t := range texts {
		out = append(out, clean(t))
	}
	return out
}

// htmlDrawn puts the drawings of each pose together.
func htmlDrawn(list []lift.Drawing) []htmlDrawings {
	var out []htmlDrawings
	for i, d := range list {
		title := "As drawn"
		if d.Hung {
			title = "As it hangs"
		}
		if len(out) == 0 || out[len(out)-1].Title != title {
			out = append(out, htmlDrawings{Title: title})
		}
		last := &out[len(out)-1]
		last.Figures = append(last.Figures, htmlDrawing{clean(d.Title), template.HTML(svgTitled(d, fmt.Sprintf("drawing-%d", i+1)))})
	}
	return out
}

// htmlSections is the working, laid out by the code that lays out the text. What
// the crew needs stands first, and is not said again.
func (p *page) htmlSections(s lift.LiftSheet) []htmlSection {
	var all []htmlSection
	said := map[string]bool{}
	add := func(id, short string, fill func()) {
		title := short
		blocks := &htmlParts{}
		p.set = blocks
		fill()
		var parts []htmlPart
		for _, part := range blocks.list {
			if part.Title == "" || !said[part.Title] {
				parts = append(parts, part)
			}
			said[part.Title] = part.Title != ""
		}
		if len(parts) == 1 && parts[0].Title != "" { // one heading is enough
			title, parts[0].Title = parts[0].Title, ""
		}
		if len(parts) > 0 {
			all = append(all, htmlSection{id, short, title, captioned(parts, title)})
		}
		p.set = nil
	}
	if s.Legs.Posed != nil {
		add("trial", "Trial lift", func() { p.trialLift(s.Legs.TrialLift, s.Legs.LiftOff) })
	}
	add("marking", "Marking", func() { p.marking(s.Marking) })
	add("slings", "Slings", func() { p.sheetSlings(s.Slings) })
	if s.Slings != nil {
		add("hardware", "Hardware", func() { p.hardware("", s.Slings.Hardware) })
	}
	add("hangs", "How it hangs", func() { p.hanging(s.Legs) })
	add("weight", "Weight and centre of gravity", func() { p.weight(s.Weigh) })
	add("takeoff", "Take-off", func() { p.takeoff(s.Weigh); p.asWeighed(s.Weigh.AsWeighed) })
	add("picks", "Picks", func() { p.sheetPicks(s.Picks) })
	add("sums", "Working", func() { p.sums(s) })
	return all
}

// sums are the working with its numbers put in.
func (p *page) sums(s lift.LiftSheet) {
	p.cgSum(s.Weigh.CGSum())
	if sum, ok := s.ForceSum(); ok {
		p.forceSum(s.Legs, sum)
	}
	if s.Slings != nil {
		p.working(s.Slings.Working)
	}
}

// captioned gives tables without a heading of their own the section's.
func captioned(parts []htmlPart, title string) []htmlPart {
	for _, part := range parts {
		for _, b := range part.Blocks {
			if b.Table != nil && b.Table.Caption == "" {
				b.Table.Caption = title
			}
		}
	}
	return parts
}
