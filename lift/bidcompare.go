package lift

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"plumbhook/takeoff"
	"plumbhook/units"
)

// BidChanges is what a bid has become since a former one.
type BidChanges struct {
	Against string        `json:"against"`
	Pieces  []PieceChange `json:"pieces"` // those that changed
	Same    int           `json:"unchanged"`
	Total   *PriceChange  `json:"total_price,omitempty"`
}

// Compared answers: what became of these lifts from one revision to the next?
type Compared struct {
	Header
	BidChanges
}

// PriceChange is a price then and now, in one currency.
type PriceChange struct {
	Old float64 `json:"old"`
	New float64 `json:"new"`
	By  float64 `json:"by"`
}

// PieceChange is what became of one piece: the inputs that changed, which are the
// cause, and the figures that followed.
type PieceChange struct {
	Mark    string        `json:"mark"`
	What    string        `json:"what"` // added, removed or changed
	Inputs  []InputChange `json:"inputs"`
	Figures []Change      `json:"figures"`
	Text    []string      `json:"text"` // the same in words, cause first
}

// InputChange is one thing that the input says otherwise; empty: it said nothing.
type InputChange struct {
	Path string `json:"path"`
	Old  string `json:"old"`
	New  string `json:"new"`
}

// Change is one figure that is another now.
type Change struct {
	Name string `json:"name"`
	Old  string `json:"old"`
	New  string `json:"new"`
	Text string `json:"text"`
}

// Compare holds a bid against a former one, piece by piece by their marks.
func Compare(was, now BidResult, against string) BidChanges {
	out := BidChanges{Against: against, Pieces: []PieceChange{}}
	before := map[string]BidRow{}
	for _, p := range was.Pieces {
		before[p.Mark] = p
	}
	for _, p := range now.Pieces {
		old, had := before[p.Mark]
		delete(before, p.Mark)
		switch {
		case !had:
			out.Pieces = append(out.Pieces, PieceChange{p.Mark, "added", []InputChange{}, []Change{}, []string{"new: " + p.inShort()}})
		default:
			if c := changed(old, p); len(c.Inputs)+len(c.Figures) > 0 {
				out.Pieces = append(out.Pieces, c)
			} else {
				out.Same++
			}
		}
	}
	for _, mark := range sortedKeys(before) {
		out.Pieces = append(out.Pieces, PieceChange{mark, "removed", []InputChange{}, []Change{}, []string{"gone: it was " + before[mark].inShort()}})
	}
	if was.Totals.Priced && now.Totals.Priced && was.Totals.Currency == now.Totals.Currency {
		out.Total = &PriceChange{was.Totals.Total, now.Totals.Total, now.Totals.Total - was.Totals.Total}
	}
	return out
}

// inShort is a piece in a few words.
func (r BidRow) inShort() string {
	if r.Error != "" {
		return r.Error
	}
	text := units.Mass(r.Weight.BestKg).Format(units.Both)
	if r.Sling != nil {
		text += ", slings " + r.Sling.name()
	}
	return text
}

func (s *BidSling) name() string {
	if s == nil {
		return "none"
	}
	return strings.ReplaceAll(s.Family, "_", " ") + ", " + s.Material + " " + s.Size
}

// changed lists what of a piece is another now.
func changed(old, now BidRow) PieceChange {
	c := PieceChange{Mark: now.Mark, What: "changed", Inputs: inputChanges(old.Inputs, now.Inputs), Figures: figureChanges(old, now), Text: []string{}}
	if old.SHA256 != now.SHA256 && len(c.Inputs) == 0 && len(c.Figures) > 0 {
		c.Text = append(c.Text, "cause: a file that the take-off names is another (a mesh, a sub-assembly or a drawing)")
	}
	for _, in := range c.Inputs {
		c.Text = append(c.Text, "cause: "+in.inWords())
	}
	if len(c.Inputs) == 0 && len(c.Figures) > 0 && len(c.Text) == 0 {
		c.Text = append(c.Text, "cause: not in its own input: the rates, options or the program are others")
	}
	for _, f := range c.Figures {
		c.Text = append(c.Text, f.Text)
	}
	return c
}

func (in InputChange) inWords() string {
	switch {
	case in.Old == "":
		return fmt.Sprintf("%s is new: %s", in.Path, in.New)
	case in.New == "":
		return fmt.Sprintf("%s is gone: it was %s", in.Path, in.Old)
	}
	return fmt.Sprintf("%s: %s is now %s", in.Path, in.Old, in.New)
}

func inputChanges(old, now []takeoff.Input) []InputChange {
	out := []InputChange{}
	was, is := map[string]string{}, map[string]bool{}
	for _, in := range old {
		was[in.Path] = in.Value
	}
	for _, in := range now {
		is[in.Path] = true
		if was[in.Path] != in.Value {
			out = append(out, InputChange{in.Path, was[in.Path], in.Value})
		}
	}
	for _, in := range old {
		if !is[in.Path] {
			out = append(out, InputChange{in.Path, in.Value, ""})
		}
	}
	return out
}

// figureChanges lists the figures that are others now, beyond rounding.
func figureChanges(old, now BidRow) []Change {
	out := []Change{}
	say := func(name, was, is, by string) {
		if was != is {
			text := fmt.Sprintf("%s: %s is now %s", name, was, is)
			out = append(out, Change{name, was, is, text + by})
		}
	}
	up := func(m units.Mass) string { return m.FormatUp(units.Both) }
	massIn := func(name string, was, is float64, print func(units.Mass) string) {
		if math.Abs(was-is) > 1e-9*math.Max(math.Abs(was), math.Abs(is)) {
			by := ""
			if was != 0 {
				by = fmt.Sprintf(" (%+.2f %%)", 100*(is/was-1))
			}
			say(name, print(units.Mass(was)), print(units.Mass(is)), by)
		}
	}
	mass := func(name string, was, is float64) {
		massIn(name, was, is, func(m units.Mass) string { return m.Format(units.Both) })
	}
	say("fault", orNone(old.Error), orNone(now.Error), "")
	say("quantity", fmt.Sprint(old.Quantity), fmt.Sprint(now.Quantity), "")
	mass("weight at best", old.Weight.BestKg, now.Weight.BestKg)
	mass("weight at low", old.Weight.LowKg, now.Weight.LowKg)
	mass("weight at high", old.Weight.HighKg, now.Weight.HighKg)
	for i, axis := range []string{"x", "y", "z"} {
		if math.Abs(old.CGM[i]-now.CGM[i]) > 1e-6 {
			by := units.Length(now.CGM[i] - old.CGM[i]).Format(units.Both)
			say("CG, "+axis, units.Length(old.CGM[i]).Format(units.Both), units.Length(now.CGM[i]).Format(units.Both), " (by "+by+")")
		}
	}
	say("governing leg", orNone(old.Leg), orNone(now.Leg), "")
	massIn("rating that it needs", old.RequiredKg, now.RequiredKg, up)
	say("slings", old.Sling.name(), now.Sling.name(), sizeStep(old.Sling, now.Sling))
	say("lengths", lengthsIn(old.LengthsM), lengthsIn(now.LengthsM), "")
	massIn("gross load", old.GrossKg, now.GrossKg, up)
	say("judged", judged(old), judged(now), "")
	say("price of its own gear, bought", priced(old.PriceAlone), priced(now.PriceAlone), "")
	return out
}

func orNone(text string) string {
	if text == "" {
		return "none"
	}
	return text
}

// sizeStep says by how much a size is larger or smaller.
func sizeStep(old, now *BidSling) string {
	if old == nil || now == nil || old.RatedKg == now.RatedKg {
		return ""
	}
	return fmt.Sprintf(" (rated %s, was %s)", units.Mass(now.RatedKg).Format(units.Both), units.Mass(old.RatedKg).Format(units.Both))
}

func lengthsIn(lengths []float64) string {
	var words []string
	for _, l := range lengths {
		words = append(words, units.Length(l).Format(units.Metric))
	}
	return orNone(strings.Join(words, ", "))
}

func judged(r BidRow) string {
	if r.Error != "" {
		return "not at all"
	}
	if r.Acceptable {
		return "acceptable"
	}
	reasons := slices.Clone(r.Reasons)
	return "NOT ACCEPTABLE: " + strings.Join(reasons, "; ")
}

func priced(p *float64) string {
	if p == nil {
		return "no rate"
	}
	return fmt.Sprintf("%.2f", *p)
}
