package sling

import (
	"fmt"
	"slices"
	"strings"

	"plumbhook/units"
)

// Stock is what hangs in the rack, and the lengths that are asked of it.
type Stock struct {
	Items []StockItem
	Legs  []StockLeg // every leg of the set, a loose one too
	// AtLeast: the lengths are the least that will do, since a choker or a basket
	// also goes round the load; all slings of a set are then of one length.
	AtLeast bool
	Fitted  bool    // the legs' lengths were chosen among those of a rack
	Step    float64 // m, that one step of a shortener takes off a chain; 0: there is none
	Steps   int     // most steps
}

// StockItem is one sling of the user's own.
type StockItem struct {
	Mark, Family, Material, Size string
	Length                       float64    // m, of the sling alone
	Rated                        units.Mass // of one sling, straight, by its tag
	Barred                       string     // why it may not be chosen; empty: it may
}

// StockLeg is one leg and the length in m of the sling that it takes.
type StockLeg struct {
	Name      string
	Length    float64
	Tolerance float64 // plus or minus
}

// StockSet is what the rack has of one family and material.
type StockSet struct {
	Family, Material string
	Use              string // yes, care or no
	Size             string // of the set, or of what comes nearest to one; empty: there is none
	Rated            units.Mass
	Required         units.Mass // kg, rating that one sling of it must have, all factors in
	Utilisation      float64
	Weight           units.Mass // kg, of the set without fittings; 0: not known
	Marks            []StockMark
	Missing          []string // what keeps it from being a set
	Reasons          []string // what speaks against it or asks for care, and slings that may not be chosen
}

// Complete tells whether every leg has its sling.
func (s StockSet) Complete() bool { return len(s.Marks) > 0 && len(s.Missing) == 0 && s.Use != No }

// StockMark is the sling that goes to a leg.
type StockMark struct {
	Leg, Mark string
	Length    float64 // m
	Steps     int     // that a shortener takes off it
}

// MaterialNames returns the materials of a family under either rule set.
func MaterialNames(family string) []string {
	b, err := openBook()
	if err != nil {
		return nil // Choose says why
	}
	var out []string
	for _, f := range b.families {
		if f.family == family && !slices.Contains(out, f.material) {
			out = append(out, f.material)
		}
	}
	return out
}

// stockSets looks through the rack, family by family and material by material.
// Sets come first, those that may be used without care before the others.
func (l *lift) stockSets() []StockSet {
	stock := l.need.Stock
	if stock == nil {
		return nil
	}
	var order []string
	groups := map[string][]StockItem{}
	for _, item := range stock.Items {
		key := item.Family + "|" + tidy(item.Material)
		if groups[key] == nil {
			order = append(order, key)
		}
		groups[key] = append(groups[key], item)
	}
	var out []StockSet
	for _, key := range order {
		out = append(out, l.stockSet(groups[key]))
	}
	rank := func(s StockSet) int {
		if !s.Complete() {
			return len(severity)
		}
		return slices.Index(severity, s.Use)
	}
	slices.SortStableFunc(out, func(a, b StockSet) int { return rank(a) - rank(b) })
	return out
}

// rack is the slings of one family and material under the lift: rows are the
// materials that they may be, one where the list names it.
type rack struct {
	*lift
	rows     []familyRow
	own      []fit // of rows
	opinions []*opinion
}

// stockSet finds the smallest matched set of one family and material, or what is
// missing from it.
func (l *lift) stockSet(items []StockItem) StockSet {
	set := StockSet{Family: items[0].Family, Material: items[0].Material, Use: Yes, Reasons: []string{}}
	r := rack{lift: l}
	for _, f := range l.book.under(l.need.Rules) {
		if f.family == set.Family && (set.Material == "" || tidy(f.material) == tidy(set.Material)) {
			r.rows = append(r.rows, f)
		}
	}
	if len(r.rows) == 0 {
		set.Use = No
		set.Reasons = append(set.Reasons, fmt.Sprintf("%s has no %s: nothing is known here of what it may bear", l.need.Rules, set.Material))
		return set
	}
	for _, f := range r.rows {
		o := &opinion{use: Yes}
		r.own, r.opinions = append(r.own, l.judge(f, o)), append(r.opinions, o)
	}
	if o := r.worst(); o.use == No {
		set.Use, set.Reasons = No, r.reasons(o)
		return set
	}
	r.choose(items, &set)
	set.Reasons = append(set.Reasons, barred(items)...)
	return set
}

// barred tells which slings may not be chosen and why, each reason once.
func barred(items []StockItem) []string {
	const most = 10
	var order []string
	marks := map[string][]string{}
	for _, item := range items {
		if item.Barred == "" {
			continue
		}
		if marks[item.Barred] == nil {
			order = append(order, item.Barred)
		}
		marks[item.Barred] = append(marks[item.Barred], item.Mark)
	}
	var out []string
	for i, why := range order {
		if i == most {
			return append(out, fmt.Sprintf("and %d more such reasons", len(order)-most))
		}
		of := marks[why]
		if more := len(of) - most; more > 0 {
			of = append(of[:most], fmt.Sprintf("and %d more", more))
		}
		out = append(out, strings.Join(of, ", ")+": "+why)
	}
	return out
}

// worst is the opinion that decides: what the list leaves open is judged by the
// worst that it may be.
func (r rack) worst() *opinion {
	worst := r.opinions[0]
	for _, o := range r.opinions[1:] {
		if slices.Index(severity, o.use) > slices.Index(severity, worst.use) {
			worst = o
		}
	}
	return worst
}

// reasons are what speaks against the slings, or asks for care.
func (r rack) reasons(worst *opinion) []string {
	reasons := []string{}
	if len(r.rows) > 1 {
		name := r.rows[slices.Index(r.opinions, worst)].material
		reasons = append(reasons, "the list names no material: judged by the worst of the family, here "+name)
	}
	return append(reasons, worst.against...)
}

// choose fills in the smallest lot with a sling for every leg, or the one that
// comes nearest to it and what is missing.
func (r rack) choose(items []StockItem, set *StockSet) {
	var near *lot
	var given []StockMark
	lots := r.lots(items)
	for _, o := range lots {
		if !o.fit.ok() {
			continue
		}
		marks := r.assign(o)
		if near == nil || len(marks) > len(given) {
			near, given = o, marks
		}
		if len(marks) == len(r.need.Stock.Legs) {
			break
		}
	}
	if near == nil {
		r.tooSmall(lots, set)
		return
	}
	r.take(near, given, set)
	if len(given) < len(r.need.Stock.Legs) {
		set.Missing = r.missing(near, given)
	}
}

// tooSmall says why no sling of the family will do.
func (r rack) tooSmall(lots []*lot, set *StockSet) {
	o := r.worst()
	set.Use, set.Reasons = o.use, r.reasons(o)
	best := lots[0]
	for _, other := range lots {
		if other.fit.barred != "" {
			set.Reasons = append(set.Reasons, fmt.Sprintf("%s: %s", other.items[0].Mark, other.fit.barred))
		} else if best.fit.barred != "" || other.fit.use < best.fit.use {
			best = other
		}
	}
	if best.fit.barred != "" {
		set.Missing = []string{"none of them may be used so"}
		return
	}
	first := best.items[0]
	set.Missing = []string{fmt.Sprintf("none is rated high enough: the best, %s of %s, is rated %s and would be used to %.3g of what it may carry",
		first.Mark, first.Size, first.Rated.FormatDown(units.Both), best.fit.use)}
}

// take writes a lot down as the set.
func (r rack) take(o *lot, marks []StockMark, set *StockSet) {
	first := o.items[0]
	size, over := r.rated(r.rows[0], first)
	for i, f := range r.rows {
		one, _ := r.rated(f, first)
		r.touch(f, &one, r.opinions[i])
		if over != "" {
			r.opinions[i].add(Care, "%s", over)
		}
	}
	if r.need.Stock.AtLeast {
		for _, opinion := range r.opinions {
			opinion.add(Care, "the length that goes round the load is not known here: the slings are of one length and no shorter than the legs; see that they reach")
		}
	}
	worst := r.worst()
	set.Use, set.Reasons = worst.use, r.reasons(worst)
	set.Size, set.Rated, set.Marks = first.Size, first.Rated, marks
	set.Required, set.Utilisation = first.Rated*units.Mass(o.fit.use), min(o.fit.use, 1)
	for _, f := range o.fit.factors {
		if f.Value == 1 {
			continue
		}
		set.Reasons = append(set.Reasons, fmt.Sprintf("its rating counts × %.3g: %s (%s)", f.Value, f.Name, f.Source))
	}
	if len(r.rows) > 1 {
		return // what a metre of it weighs depends on the material
	}
	for _, mark := range marks {
		set.Weight += size.perMetre * units.Mass(mark.Length)
	}
}
