package lift

import (
	"cmp"
	"errors"
	"fmt"
	"math"
	"slices"
	"strings"

	"plumbhook/takeoff"
	"plumbhook/units"
)

// gearDemand is what one set of a piece's legs, its shackles or its bars ask of a
// kind of gear.
type gearDemand struct {
	row     int
	slot    int    // number among those of its kind that hang under the load at once: gear of one is not free for another
	kind    string // sling, shackle or bar
	count   int
	lengths []float64          // m, sorted; of shackles none
	needs   map[string]float64 // kg, rating by family|material; of shackles and bars by ""
	barred  []string           // families of which some material may not be used here
	words   string             // what the row shows of it, where no rate fits
}

// problemsOf lists the problems of an error; none for nil.
func problemsOf(err error) []Problem {
	if err == nil {
		return nil
	}
	return Fail(err).Errors
}

func isProgram(err error) bool { return errors.Is(err, ErrProgram) }

// bidRow weighs and rigs one piece. It never ends the program: a fault of it is
// that of its row.
func bidRow(p BidPiece, b BidOptions) (row BidRow) {
	o := b.Options
	row = BidRow{Mark: p.Mark, Quantity: max(1, p.Quantity), File: p.File, Rough: p.Rough, Reasons: []string{}, Warned: []string{}, LengthsM: []float64{},
		Assumed: slices.Clone(p.Assumed), Inputs: p.Inputs}
	defer func() {
		if fault := recover(); fault != nil {
			row.fail(fmt.Errorf("%w: %v", ErrProgram, fault))
		}
	}()
	l, err := p.Open()
	if err != nil {
		row.fail(err)
		return row
	}
	row.Name, row.Drawing, row.SHA256 = l.Name, l.Drawing, l.SHA256
	if rules(l, o) == "" {
		row.fail(bad(l, 0, "no rule set is chosen, and slings are rated by one", "write `rules: US` or `rules: EN` in the load file, or give --rules"))
		return row
	}
	o.tried = true // what would mend a lift is told by its own sheet
	l, h, way, err := followStates(l, o)
	if err == nil {
		var s Sizing
		if s, err = way.sizeStates(l, o, &h); err == nil {
			if b.Strict {
				h.Strict()
			}
			row.fill(way, s, h)
		}
	}
	if err != nil {
		row.fail(err)
	}
	return row
}

// fail puts a fault in the row, in one line.
func (r *BidRow) fail(err error) {
	r.fault, r.Acceptable = err, false
	r.Error = strings.Join(strings.Fields(err.Error()), " ")
	var problems takeoff.Problems
	if errors.As(err, &problems) && len(problems) > 0 {
		p := problems[0]
		p.Excerpt = ""
		r.Error = strings.Join(strings.Fields(p.String()), " ")
		if more := len(problems) - 1; more > 0 {
			r.Error += fmt.Sprintf(" (and %d more)", more)
		}
	}
}

// fill takes the figures of the piece over.
func (r *BidRow) fill(w line, s Sizing, h Header) {
	r.Acceptable, r.Reasons, r.Warnings = h.Verdict.Acceptable, h.Verdict.Reasons, len(h.Warnings)
	for _, w := range h.Warnings {
		r.Warned = append(r.Warned, w.Text)
	}
	r.Assumed = append(r.Assumed, h.Assumptions...)
	r.Weight, r.CGM = w.weight.Weight, [3]float64(w.weight.CGM)
	r.GrossKg, r.OfCrane = max(s.Gross.TotalKg, s.Gross.LiftOffKg), s.Gross.Used
	r.Bars = 0
	if w.legs.Posed != nil {
		r.Bars = len(w.legs.Bars)
	}
	lengths := map[string]float64{}
	r.FlattestDeg = 90
	for _, leg := range w.legs.Legs {
		lengths[leg.Pick] = leg.LengthM
		r.LengthsM = append(r.LengthsM, leg.LengthM)
		if leg.WorstTensionKN > 0 {
			r.FlattestDeg = min(r.FlattestDeg, leg.WorstFromHorizontalDeg)
		}
	}
	r.Legs = len(w.legs.Legs)
	if w.legs.Posed != nil {
		for _, leg := range w.legs.UpperLegs {
			lengths[leg.Name] = leg.LengthM
		}
		r.barDemand(w.legs.Bars, s.Gross.TotalKg)
	}
	r.takeHooks(s)
	r.slingDemands(s, lengths)
	r.shackleDemand(s.Hardware)
	r.Risk = newRisk(s.Rules, r)
	slots := map[string]int{}
	for i := range r.demands {
		d := &r.demands[i]
		d.slot = slots[d.kind]
		slots[d.kind]++
	}
}

// takeHooks takes of two hooks the one that carries more.
func (r *BidRow) takeHooks(s Sizing) {
	r.Hooks = max(1, len(s.ByHook))
	for _, hook := range s.ByHook {
		g := hook.Sizing.Gross
		r.GrossKg = max(r.GrossKg, g.TotalKg, g.LiftOffKg)
		if g.Used != nil && (r.OfCrane == nil || *g.Used > *r.OfCrane) {
			r.OfCrane = g.Used
		}
	}
}

// slingDemands are those of each set of legs; the row shows that which needs most.
func (r *BidRow) slingDemands(s Sizing, lengths map[string]float64) {
	for _, hook := range s.ByHook {
		r.slingDemand(hook.Sizing.Required, hook.Sizing.Governing, hook.Sizing.Families, lengths)
	}
	for _, set := range s.Sets {
		r.slingDemand(set.Required, set.Governing, set.Families, lengths)
	}
	if len(s.ByHook) == 0 && len(s.Sets) == 0 && len(s.Required) > 0 {
		r.slingDemand(s.Required, s.Governing, s.Families, lengths)
	}
}

func (r *BidRow) slingDemand(required map[string]float64, g Governing, families []Family, lengths map[string]float64) {
	if len(required) == 0 {
		return
	}
	d := gearDemand{kind: "sling", count: len(required), needs: map[string]float64{}}
	for leg := range required {
		d.lengths = append(d.lengths, lengths[leg])
	}
	slices.Sort(d.lengths)
	best := preferred(families)
	for _, f := range families {
		if f.Use == "no" {
			d.barred = append(d.barred, f.Family)
		}
		if f.Use != "no" && f.Choice != nil {
			d.needs[f.Family+"|"+f.Material] = f.Choice.RequiredKg
		}
	}
	long := "of a length that is not stated"
	if d.lengths[0] > 0 {
		long = "of up to " + units.Length(d.longest()).Format(units.Both)
	}
	d.words = fmt.Sprintf("%d slings %s", d.count, long)
	if best != nil {
		d.words += fmt.Sprintf(", such as %s, %s %s (or another family that may be used)", strings.ReplaceAll(best.Family, "_", " "), best.Material, best.Size)
	}
	r.demands = append(r.demands, d)
	if g.RequiredKg >= r.RequiredKg {
		r.RequiredKg, r.Leg, r.TensionKN, r.Sling = g.RequiredKg, g.Pick, g.TensionKN, best
	}
}

func (d gearDemand) longest() float64 {
	if len(d.lengths) == 0 {
		return 0
	}
	return d.lengths[len(d.lengths)-1]
}

// preferred is the family that a row shows before prices are known: one that may be
// used without care before others, a rating that was read before one that was not,
// then the order of the tables.
func preferred(families []Family) *BidSling {
	rank := func(f Family) int {
		n := 0
		if f.Use != "yes" {
			n += 2
		}
		if f.Choice.Basis != "read" {
			n++
		}
		return n
	}
	var fit []Family
	for _, f := range families {
		if f.Use != "no" && f.Choice != nil {
			fit = append(fit, f)
		}
	}
	if len(fit) == 0 {
		return nil
	}
	f := slices.MinFunc(fit, func(a, b Family) int { return cmp.Compare(rank(a), rank(b)) })
	return &BidSling{f.Family, f.Material, f.Use, f.Choice.Size, f.Choice.RatedKg, f.Choice.RequiredKg, f.Choice.Utilisation, f.Choice.Basis}
}

// shackleDemand is one shackle at each leg, of the rating that the worst needs.
func (r *BidRow) shackleDemand(h *Hardware) {
	if h == nil || len(h.Shackles) == 0 {
		return
	}
	d := gearDemand{kind: "shackle", count: len(h.Shackles), needs: map[string]float64{}}
	size := ""
	for _, leg := range h.Shackles {
		for _, c := range leg.Choices {
			if c.RequiredKg > d.needs[""] {
				d.needs[""], size = c.RequiredKg, c.Size
			}
		}
	}
	if d.needs[""] == 0 {
		return
	}
	d.words = fmt.Sprintf("%d shackles rated %s or more, such as %s", d.count, units.Mass(d.needs[""]).FormatUp(units.Both), size)
	r.demands = append(r.demands, d)
}

// barDemand is the bars: each is asked to carry all that hangs on the crane, the
// safe side for a bar lower down.
func (r *BidRow) barDemand(bars []HungBar, gross float64) {
	for _, b := range bars {
		span := 0.0
		for _, end := range b.Ends {
			for _, other := range b.Ends {
				span = math.Max(span, end.AtM.Sub(other.AtM).Len())
			}
		}
		r.demands = append(r.demands, gearDemand{kind: "bar", count: 1, lengths: []float64{span}, needs: map[string]float64{"": gross},
			words: fmt.Sprintf("one bar %q of %s between its ends for %s", b.Name, units.Length(span).Format(units.Both), units.Mass(gross).FormatUp(units.Both))})
	}
}
