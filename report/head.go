package report

import (
	"strings"

	"plumbhook/lift"
)

const notAcceptable = "NOT ACCEPTABLE"

// refusal begins the page of a lift that is not acceptable.
func (p *page) refusal(v lift.Verdict) {
	if v.Acceptable {
		return
	}
	p.line(p.ink(notAcceptable, "no"))
	p.numbered(v.Reasons)
	p.gap()
}

// title is the block that says what this is about.
func (p *page) title(what, date string, h lift.Header) {
	p.titleLine(strings.ToUpper(what))
	p.gap()
	p.field("Load", h.Load)
	p.field("State", h.State)
	p.field("Drawing", h.Drawing)
	p.field("Datum", orElse(h.Datum, "not stated: coordinates count from the origin of the load file"))
	p.field("Input", shortHash(h.InputSHA256))
	if p.opt.Version != "" {
		p.field("Program", "plumbhook "+p.opt.Version)
	}
	p.field("Date", date)
}

func orElse(text, other string) string {
	if text == "" {
		return other
	}
	return text
}

// shortHash is enough of a fingerprint to tell inputs apart by eye.
func shortHash(hash string) string {
	if hash == "" {
		return ""
	}
	return "sha256 " + hash[:min(16, len(hash))]
}

// verdict says in the title block how the lift was judged.
func (p *page) verdict(v lift.Verdict) {
	if v.Acceptable {
		p.line(padded("  Verdict", labelled, false) + p.ink("acceptable as described, at the worst over the ranges stated", "yes"))
		return
	}
	p.line(padded("  Verdict", labelled, false) + p.ink(notAcceptable, "no") + ", for the reasons above")
}

// warnings are printed in full, with what to do.
func (p *page) warnings(list []lift.Warning) {
	if len(list) == 0 {
		return
	}
	p.heading("WARNINGS")
	for i, w := range list {
		p.noted(i+1, w.Text, w.Fix)
	}
}

// noted prints one numbered remark and what to do about it.
func (p *page) noted(number int, text, fix string) {
	p.hang(padded(plainInt(number)+". ", 6, true), text)
	if fix != "" {
		p.hang("      fix: ", fix)
	}
}

// assumptions are the defaults that were taken.
func (p *page) assumptions(list []string) {
	if len(list) == 0 {
		return
	}
	p.heading("ASSUMED")
	p.numbered(list)
}
