package lift

import (
	"fmt"
	"slices"
	"strings"

	"plumbhook/sling"
	"plumbhook/takeoff"
	"plumbhook/units"
)

// SlingStock is what the user's own list of slings gives for the lift.
type SlingStock struct {
	File       string     `json:"file"`
	Inspection string     `json:"inspection"` // what the last inspections were held against, or why they were not
	Sets       []StockSet `json:"sets"`       // complete ones first
}

// StockSet is what the list has of one family and material.
type StockSet struct {
	Family      string      `json:"family"`
	Material    string      `json:"material"` // empty: the list names none
	Use         string      `json:"use"`      // yes, care or no
	Complete    bool        `json:"complete"` // every leg has its sling
	Size        string      `json:"size"`
	RatedKg     float64     `json:"rated_kg"`
	RequiredKg  float64     `json:"required_kg"`
	Utilisation float64     `json:"utilisation"`
	WeightKg    float64     `json:"weight_kg"` // of the slings without fittings; 0: not known
	Marks       []StockMark `json:"marks"`
	Missing     []string    `json:"missing"`
	Reasons     []string    `json:"reasons"`
}

// StockMark is the sling that goes to a pick.
type StockMark struct {
	Pick    string  `json:"pick"`
	Mark    string  `json:"mark"`
	LengthM float64 `json:"length_m"` // of the sling alone
	Steps   int     `json:"steps"`    // that a shortener takes off it
}

// checkStock sees that the families and materials of the list are known ones.
func checkStock(l *takeoff.Load) error {
	if l.Rigging.Stock == nil {
		return nil
	}
	var problems takeoff.Problems
	last := 0
	for _, s := range l.Rigging.Stock.Slings {
		if s.Row == last { // of several under one mark
			continue
		}
		last = s.Row
		if p := stockFault(s); p != nil {
			problems = append(problems, *p)
		}
	}
	if len(problems) == 0 {
		return nil
	}
	return problems
}

// stockFault is what is wrong with a sling's family or material; nil: nothing.
func stockFault(s takeoff.StockSling) *takeoff.Problem {
	column, is, family, names := "family", s.Family, familyAs(s.Family), sling.FamilyNames()
	if slices.Contains(names, family) {
		column, is, names = "material", s.Material, sling.MaterialNames(family)
		if is == "" || slices.ContainsFunc(names, func(name string) bool { return strings.EqualFold(name, is) }) {
			return nil
		}
	}
	fix := "write one of: " + strings.Join(names, "; ")
	if column == "material" {
		fix += "; or leave it blank, to be judged by the worst of the family"
	}
	if near := units.Nearest(is, names); len(near) > 0 {
		fix = fmt.Sprintf("did you mean `%s`? %s", near[0], fix)
	}
	p := s.Problem(column, fmt.Sprintf("%q is not a %s of slings that is known here", is, column), fix)
	return &p
}

// familyAs puts the name of a family as the tables have it.
func familyAs(text string) string {
	return strings.NewReplacer(" ", "_", "-", "_").Replace(strings.ToLower(text))
}

// leastMatch in m is the least difference in length that is not looked at: the
// last digit of a list in millimetres. Common practice, no source.
const leastMatch = 0.001

// stock puts the list into the sling package's terms.
func (w line) stock(l *takeoff.Load, o Options, h *Header) *sling.Stock {
	list := l.Rigging.Stock
	if list == nil || l.Rigging.TwoHooks != nil {
		return nil
	}
	day, _ := lifted(o)
	legs := l.Rigging.Legs
	out := &sling.Stock{Fitted: legs.Mode == "stock", Step: legs.Shortener.Step, Steps: legs.Shortener.Most}
	for _, s := range list.Slings {
		out.Items = append(out.Items, sling.StockItem{Mark: s.Mark, Family: familyAs(s.Family), Material: s.Material, Size: s.Size,
			Length: s.Length, Rated: s.Rated, Barred: outOfDate(s.Inspected, day)})
	}
	for i, leg := range w.legs.Legs {
		length, parts, exact := slingLength(leg, l.Rigging.HitchOf(leg.Pick))
		out.AtLeast = out.AtLeast || !exact
		out.Legs = append(out.Legs, sling.StockLeg{Name: leg.Pick, Length: length - legs.Hardware,
			Tolerance: max(leastMatch, parts*w.plan.lengthError(w.plan.lengths[i]))})
	}
	if out.AtLeast && !oneLength(w.legs.Legs, l.Rigging) {
		h.warn("stock-not-used", "legs of unlike length, or straight ones beside others, and how much of a sling goes round the load is not known: nothing is chosen from "+list.File,
			"give the body that each basket goes round (`around`), or use lugs; a choker takes what it takes: measure it")
		return nil
	}
	if legs.Hardware == 0 {
		h.assume("no `hardware` in `legs`: the slings of %s are held against the whole lengths of the legs, bearing to bearing", list.File)
	}
	return out
}

// lifted is the day of the lift, where it is given in a form that can be read;
// otherwise why there is none.
func lifted(o Options) (takeoff.Date, string) {
	if o.Date == "" {
		return takeoff.Date{}, "no date given"
	}
	day, err := takeoff.ParseDate(o.Date)
	if err != nil {
		return takeoff.Date{}, fmt.Sprintf("the date %q is %v", o.Date, err)
	}
	return day, ""
}

// outOfDate says why a sling may not be chosen by its last inspection; empty: it
// may. Without a day of the lift only one that was never inspected is out.
//
// Source: WAC 296-24-294, slings, inspected at least every 12 months (read); the
// same in ASME B30.9 (from memory).
func outOfDate(last, day takeoff.Date) string {
	none := takeoff.Date{}
	if last == none {
		return "not chosen: no last inspection is listed"
	}
	if day == none {
		return ""
	}
	due := last
	due.Year++
	switch {
	case last.After(day):
		return fmt.Sprintf("not chosen: its last inspection, %s, is after the day of the lift, %s: look at the list", last, day)
	case day.After(due):
		return fmt.Sprintf("not chosen: last inspected %s, more than 12 months before %s", last, day)
	}
	return ""
}

// stockOf is the answer about the list, and warns of what is not in order.
func stockOf(l *takeoff.Load, sets []sling.StockSet, o Options, h *Header) *SlingStock {
	if l.Rigging.Stock == nil {
		return nil
	}
	out := &SlingStock{File: l.Rigging.Stock.File, Sets: []StockSet{}}
	day, why := lifted(o)
	out.Inspection = fmt.Sprintf("held against %s: at least every 12 months (WAC 296-24-294; ASME B30.9, from memory), oftener in hard service; and looked over before each use", day)
	if why != "" {
		out.Inspection = "inspection not checked: " + why
		h.warn("inspection-not-checked", "the last inspections of the slings in "+out.File+" are not checked: "+why, "give the day of the lift, such as --date 2026-05-04")
	}
	complete := false
	for _, s := range sets {
		complete = complete || s.Complete()
		if o.Family == "" || o.Family == s.Family {
			out.Sets = append(out.Sets, stockSet(s))
		}
	}
	if !complete {
		h.warn("sling-stock", "no slings of "+out.File+" make a set for this lift: what is missing stands with each family", "get what is missing, or slings of the sizes of the tables")
	}
	return out
}

func stockSet(s sling.StockSet) StockSet {
	out := StockSet{Family: s.Family, Material: s.Material, Use: s.Use, Complete: s.Complete(), Size: s.Size, RatedKg: float64(s.Rated),
		RequiredKg: float64(s.Required), Utilisation: s.Utilisation, WeightKg: float64(s.Weight), Marks: []StockMark{}, Missing: s.Missing, Reasons: s.Reasons}
	for _, m := range s.Marks {
		out.Marks = append(out.Marks, StockMark{m.Leg, m.Mark, m.Length, m.Steps})
	}
	if out.Missing == nil {
		out.Missing = []string{}
	}
	return out
}

// intoGross counts the sets of the list among those that may be used.
func (s *SlingStock) intoGross(g *Gross, unknown *bool) {
	if s == nil {
		return
	}
	for _, set := range s.Sets {
		if set.Complete {
			g.RiggingKg = max(g.RiggingKg, set.WeightKg)
			*unknown = *unknown || set.WeightKg == 0
		}
	}
}
