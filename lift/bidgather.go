package lift

import (
	"fmt"
	"slices"
	"strings"

	"plumbhook/units"
)

// govern names the piece whose governing leg needs the greatest rating, and why it
// is not always the heaviest.
func (b *BidResult) govern() {
	at, heaviest := -1, -1
	for i, p := range b.Pieces {
		if p.Error != "" {
			continue
		}
		if at < 0 || p.RequiredKg > b.Pieces[at].RequiredKg {
			at = i
		}
		if heaviest < 0 || p.Weight.SizingKg > b.Pieces[heaviest].Weight.SizingKg {
			heaviest = i
		}
	}
	if at < 0 {
		return
	}
	p, h := b.Pieces[at], b.Pieces[heaviest]
	g := &BidGoverning{Mark: p.Mark, Heaviest: h.Mark}
	g.Why = fmt.Sprintf("its leg %s needs the greatest rating of all: %s, vertical", p.Leg, units.Mass(p.RequiredKg).FormatUp(units.Both))
	if g.Mark == g.Heaviest {
		g.Why += "; it is the heaviest too"
	} else {
		g.Why += fmt.Sprintf("; %s is the heaviest, %s against %s, and needs %s", h.Mark, units.Mass(h.Weight.SizingKg).Format(units.Both),
			units.Mass(p.Weight.SizingKg).Format(units.Both), units.Mass(h.RequiredKg).FormatUp(units.Both))
		g.Why += fmt.Sprintf(": of its weight the worst leg needs %.0f %%, of that of %s %.0f %%", 100*h.share(), p.Mark, 100*p.share())
		g.Why += fmt.Sprintf(" (%d legs, the flattest at %.1f° from horizontal, against %d at %.1f°)", h.Legs, h.FlattestDeg, p.Legs, p.FlattestDeg)
	}
	b.Governing = g
}

// share is the rating that the worst leg needs over the weight.
func (r BidRow) share() float64 {
	if r.Weight.SizingKg == 0 {
		return 0
	}
	return r.RequiredKg / r.Weight.SizingKg
}

// gather lists what was assumed, each thing once with the pieces that it is of, and
// what the price leaves out.
func (b *BidResult) gather(o BidOptions) {
	said := newSaid()
	for _, p := range b.Pieces {
		for _, text := range p.Assumed {
			said.add(text, p.Mark)
		}
		if p.Sling != nil && p.Sling.Basis != "read" && p.Sling.Basis != "computed" {
			said.add("the rating of the sling shown is "+p.Sling.Basis+", a placeholder until the tag is read", p.Mark)
		}
	}
	b.Assumptions = append(b.Assumptions, said.lines(len(b.Pieces))...)
	b.exclude(o)
}

// exclude lists what is not in the price, or not in the figures.
func (b *BidResult) exclude(o BidOptions) {
	said := newSaid()
	for _, p := range b.Pieces {
		switch {
		case p.Error != "":
			said.add("not in the figures: the piece can't be read or rigged", p.Mark)
		case !p.Acceptable:
			said.add("in the figures, though not acceptable as described: what mends it is not priced", p.Mark)
		}
		if p.Error == "" && p.Rough {
			said.add("no take-off: a rough piece, its weight and CG in a wide band", p.Mark)
		}
		if p.Error == "" && p.Sling == nil {
			said.add("no sling of the tables is large enough or may be used: none is priced", p.Mark)
		}
		if p.Bars > 0 {
			said.add("design, proof and transport of bars; a bar is asked to carry the whole hook load", p.Mark)
		}
	}
	b.Exclusions = append(b.Exclusions, said.lines(0)...)
	b.Exclusions = append(b.Exclusions, "lugs and lifting points, and the strength of the loads",
		"crane set-up, mats, permits, road closures, escorts and transport",
		"waiting for weather, for other trades and for access", "links and hooks at the top of the slings, edge protection, tag lines",
		"taxes, insurance, overhead and margin")
	if o.Rates == nil {
		b.Exclusions = append(b.Exclusions, "all prices: no list of rates was given")
	}
}

// saidOf keeps texts in the order in which they were first said, each with the
// pieces that it is of.
type saidOf struct {
	order []string
	of    map[string][]string
}

func newSaid() *saidOf { return &saidOf{of: map[string][]string{}} }

func (s *saidOf) add(text, mark string) {
	if s.of[text] == nil {
		s.order = append(s.order, text)
	}
	if !slices.Contains(s.of[text], mark) {
		s.of[text] = append(s.of[text], mark)
	}
}

// lines are the texts with their pieces; those of all pieces say so.
func (s *saidOf) lines(all int) (out []string) {
	const most = 8
	for _, text := range s.order {
		marks := s.of[text]
		who := strings.Join(marks[:min(most, len(marks))], ", ")
		if more := len(marks) - most; more > 0 {
			who += fmt.Sprintf(" and %d more", more)
		}
		if len(marks) == all && all > 1 {
			who = "all pieces"
		}
		out = append(out, who+": "+text)
	}
	return out
}
