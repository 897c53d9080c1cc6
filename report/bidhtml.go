package report

import (
	"bytes"
	_ "embed"
	"fmt"
	"html/template"
	"io"
	"net/url"
	"path"
	"strings"

	"plumbhook/lift"
)

var (
	//go:embed bid.html.tmpl
	bidTemplate string

	bidPage = template.Must(template.Must(sheetPage.Clone()).New("bid").Parse(bidTemplate))
)

// htmlBid is what the template lays out.
type htmlBid struct {
	Title, Units, Hash, Version, Policy string
	Style                               template.CSS
	Reasons                             []string
	Sections                            []htmlSection
	Links                               []htmlLink
}

// htmlLink is a link to the lift sheet of a piece.
type htmlLink struct{ Name, To string }

// BidHTML writes a bid as one page that needs no network, in the looks of the lift
// sheet. Given the folder of the pieces' sheets, as a path from the page, it links
// each of them: NAME.html for the load file NAME.yaml.
func BidHTML(w io.Writer, b lift.BidResult, sheets string, opt Options) error {
	p := newPage(opt)
	page := htmlBid{Title: plural(len(b.Pieces), "piece", "pieces") + " to lift", Units: shownIn[opt.Show], Hash: shortHash(b.InputSHA256), Version: clean(opt.Version),
		Reasons: cleanAll(b.Verdict.Reasons), Sections: p.bidSections(b), Links: bidLinks(b, sheets)}
	page.Style = template.CSS(sheetStyle)
	page.Policy = "default-src 'none'; base-uri 'none'; form-action 'none'; style-src " + fingerprint(string(page.Style))
	var out bytes.Buffer
	if err := bidPage.ExecuteTemplate(&out, "bid", page); err != nil {
		return fmt.Errorf("report: %w", err)
	}
	_, err := w.Write(out.Bytes())
	return err
}

// bidSections are laid out by the code that lays out the text.
func (p *page) bidSections(b lift.BidResult) []htmlSection {
	var all []htmlSection
	add := func(id, title string, fill func()) {
		blocks := &htmlParts{}
		p.set = blocks
		fill()
		p.set = nil
		parts := blocks.list
		if len(parts) == 0 {
			return
		}
		if parts[0].Title != "" {
			title, parts[0].Title = parts[0].Title, ""
		}
		all = append(all, htmlSection{id, title, title, captioned(parts, title)})
	}
	add("price", "Price", func() { p.bidSums(b) })
	if b.Changes != nil {
		add("changed", "Changed", func() { p.bidChanges(*b.Changes) })
	}
	add("pieces", "Pieces", func() { p.bidPieces(b) })
	if len(b.Gear) > 0 {
		add("gear", "Gear", func() { p.bidGear(b) })
	}
	add("missing", "No rate for", func() { p.bidMissing(b.Missing) })
	add("risk", "Risk", func() { p.bidRisk(b) })
	add("assumed", "Assumed", func() { p.assumptions(b.Assumptions) })
	add("out", "Not in it", func() { p.heading("NOT IN IT"); p.numbered(b.Exclusions) })
	return all
}

// bidLinks are those to the sheets of pieces that have a load file.
func bidLinks(b lift.BidResult, sheets string) []htmlLink {
	var links []htmlLink
	for _, r := range b.Pieces {
		if sheets == "" || r.Rough || r.Error != "" {
			continue
		}
		name := path.Base(strings.ReplaceAll(r.File, `\`, "/"))
		name = strings.TrimSuffix(name, path.Ext(name)) + ".html"
		to := url.URL{Path: path.Join(strings.ReplaceAll(sheets, `\`, "/"), name)}
		links = append(links, htmlLink{clean(r.Mark), to.String()})
	}
	return links
}
