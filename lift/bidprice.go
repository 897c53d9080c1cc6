package lift

import (
	"fmt"
	"math"

	"plumbhook/takeoff"
	"plumbhook/units"
)

// BidTotals are the sums of a bid. Prices are in the currency of the rates.
type BidTotals struct {
	Currency   string  `json:"currency,omitempty"`
	Lifts      int     `json:"lifts"`
	Hours      float64 `json:"hours"` // of the crane under hook
	Days       int     `json:"days"`
	Crew       int     `json:"crew"`
	CrewDays   int     `json:"crew_days"`
	Priced     bool    `json:"priced"`   // rates were given
	Complete   bool    `json:"complete"` // no rate is missing and every piece is in it
	Gear       float64 `json:"gear_price"`
	Crane      float64 `json:"crane_price"`
	RiggerEach float64 `json:"rigger_each_price"` // one for the job
	Riggers    float64 `json:"riggers_price"`     // crew × that
	Total      float64 `json:"total_price"`       // gear + crane + riggers
	Exact      bool    `json:"gear_exact"`        // no cheaper set of the gear listed covers all lifts
	GearBound  float64 `json:"gear_bound"`        // no set of it costs less
	AtBest     float64 `json:"total_at_best_weights"`
	OfDoubt    float64 `json:"price_of_doubt"` // total − total at best weights: what the spread of the weights costs
	Alone      float64 `json:"gear_bought_per_piece"`
	AloneWhole bool    `json:"gear_bought_per_piece_complete"`
}

// CraneLine is the crane class for the whole job.
type CraneLine struct {
	Size       string   `json:"size"`
	CapacityKg float64  `json:"capacity_kg"` // at the radius of the lifts, as the rates state
	GrossKg    float64  `json:"gross_kg"`    // the heaviest hook load
	Mark       string   `json:"mark"`        // of the piece that is
	Used       float64  `json:"used"`
	Limit      float64  `json:"limit"`
	Way        string   `json:"way"`
	Price      float64  `json:"price"`
	LeadDays   float64  `json:"lead_days"`
	SmallerKg  float64  `json:"smaller_class_kg,omitempty"` // the next smaller class of the rates
	Chance     *float64 `json:"chance_smaller_is_too_small,omitempty"`
	RateRow    int      `json:"rate_row"`
}

// price settles days and crew, matches the gear and adds up.
func (b *BidResult) price(o BidOptions) {
	t := b.schedule(o)
	full := func(BidRow) float64 { return 1 }
	if o.Rates == nil {
		b.Totals = t
		return
	}
	b.assume("gear of the set may be larger than a piece needs, and then weighs more than the load on the hook counts; slings are set or made to the lengths of the legs, bearing to bearing; a family that asks for care may be in the set where it is the cheapest")
	t.Priced, t.Currency = true, o.Rates.Currency
	rows := o.Rates.Rows
	t.Gear, t.GearBound, t.Exact, t.AloneWhole = 0, 0, true, true
	for _, kind := range []string{"sling", "shackle", "bar"} {
		m := match(b.Pieces, kind, rows, t.Days, full)
		b.take(m, kind, &t)
	}
	b.Crane, t.Crane = b.craneLine(rows, &t, full)
	b.secondCranes()
	t.Riggers = b.riggers(rows, &t)
	t.Total = t.Gear + t.Crane + t.Riggers
	t.Complete = len(b.Missing) == 0
	for _, p := range b.Pieces {
		t.Complete = t.Complete && p.Error == "" && p.Sling != nil
	}
	t.AtBest = b.atBest(rows, t)
	t.OfDoubt = t.Total - t.AtBest
	b.Totals = t
}

// schedule is how long the job takes: one lift after the other with one crane.
func (b *BidResult) schedule(o BidOptions) BidTotals {
	t := BidTotals{Crew: o.Crew}
	for _, p := range b.Pieces {
		if p.Error == "" {
			t.Lifts += p.Quantity
		}
	}
	perLift, perDay := o.HoursPerLift, o.HoursPerDay
	if perLift == 0 {
		perLift = usualHoursPerLift
		b.assume("%g hours a lift, from rigging to letting go (common practice, no source)", perLift)
	}
	if perDay == 0 {
		perDay = usualHoursPerDay
		b.assume("%g working hours a day (common practice, no source)", perDay)
	}
	if t.Crew == 0 {
		t.Crew = usualCrew
		b.assume("a crew of %d beside the crane's own (common practice, no source)", t.Crew)
	}
	t.Hours = float64(t.Lifts) * perLift
	if t.Days = o.Days; t.Days == 0 {
		t.Days = int(math.Ceil(t.Hours/perDay - 1e-9))
	}
	t.CrewDays = t.Crew * t.Days
	b.assume("one lift after the other, with one crane and one set of gear; a week of hire is %d working days", daysInWeek)
	return t
}

// take puts the matched gear of one kind in.
func (b *BidResult) take(m matched, kind string, t *BidTotals) {
	b.Gear = append(b.Gear, m.lines...)
	b.Missing = append(b.Missing, m.missing...)
	for _, line := range m.lines {
		t.Gear += line.Price
	}
	t.GearBound += m.bound
	t.Exact = t.Exact && m.exact
	i := 0
	for r := range b.Pieces {
		row := &b.Pieces[r]
		for _, d := range row.demands {
			if d.kind != kind {
				continue
			}
			if m.alone[i] < 0 {
				t.AloneWhole, row.aloneGap, row.PriceAlone = false, true, nil
			} else if t.Alone += m.alone[i]; !row.aloneGap {
				sum := m.alone[i]
				if row.PriceAlone != nil {
					sum += *row.PriceAlone
				}
				row.PriceAlone = &sum
			}
			i++
		}
	}
}

// heaviestHook is the greatest load on the hook, each load scaled.
func (b *BidResult) heaviestHook(scale func(BidRow) float64) (kg float64, at int) {
	at = -1
	for i, p := range b.Pieces {
		if p.Error != "" {
			continue
		}
		hook := p.GrossKg - p.Weight.SizingKg*(1-scale(p))
		if p.Hooks > 1 { // each hook has its share of the load
			hook = p.GrossKg * scale(p)
		}
		if hook > kg {
			kg, at = hook, i
		}
	}
	return kg, at
}

// craneLine is the cheapest class that lifts the heaviest hook load within the part
// of its capacity above which a lift counts as critical.
func (b *BidResult) craneLine(rates []takeoff.Rate, t *BidTotals, scale func(BidRow) float64) (*CraneLine, float64) {
	kg, at := b.heaviestHook(scale)
	if at < 0 {
		return nil, 0
	}
	var best *CraneLine
	for _, r := range rates {
		if r.Kind != "crane" || kg > nearCapacity*float64(r.Rated) {
			continue
		}
		price, way := peoplePrice(r, t)
		if way != "" && (best == nil || price < best.Price) {
			best = &CraneLine{Size: r.Size, CapacityKg: float64(r.Rated), GrossKg: kg, Mark: b.Pieces[at].Mark, Used: kg / float64(r.Rated), Limit: nearCapacity, Way: way, Price: price, LeadDays: r.LeadDays, RateRow: r.Row}
		}
	}
	if best == nil {
		b.Missing = append(b.Missing, MissingRate{"crane", fmt.Sprintf("a crane that lifts %s within %.0f %% of its capacity", units.Mass(kg).FormatUp(units.Both), 100*nearCapacity), []string{b.Pieces[at].Mark}})
		return nil, 0
	}
	for i := range b.Pieces {
		if p := &b.Pieces[i]; p.Error == "" {
			used := p.GrossKg / best.CapacityKg
			p.OfClass = &used
		}
	}
	for _, r := range rates {
		if r.Kind == "crane" && float64(r.Rated) < best.CapacityKg {
			best.SmallerKg = max(best.SmallerKg, float64(r.Rated))
		}
	}
	if p := b.Pieces[at]; best.SmallerKg > 0 && p.Hooks < 2 {
		chance := chanceAbove(p.Weight, best.SmallerKg*nearCapacity-(p.GrossKg-p.Weight.SizingKg))
		best.Chance = &chance
	}
	return best, best.Price
}

// secondCranes lists the second crane of pieces on two hooks: one crane is priced.
func (b *BidResult) secondCranes() {
	for _, p := range b.Pieces {
		if p.Hooks > 1 {
			b.Missing = append(b.Missing, MissingRate{"crane", "a second crane: the piece hangs on two hooks, and one crane is priced", []string{p.Mark}})
		}
	}
}

// peoplePrice is the least that a crane, or one rigger, costs for the job: by the
// hour under hook, by the lift, or by days and weeks, never less than the minimum.
func peoplePrice(r takeoff.Rate, t *BidTotals) (float64, string) {
	price, way := math.Inf(1), ""
	take := func(cost float64, name string) {
		if r.Minimum != nil {
			cost = max(cost, *r.Minimum)
		}
		if cost < price {
			price, way = cost, name
		}
	}
	if r.Hour != nil {
		take(t.Hours**r.Hour, "per hour")
	}
	if r.Lift != nil {
		take(float64(t.Lifts)**r.Lift, "per lift")
	}
	if cost, ok := hire(r, t.Days); ok {
		take(cost, "hire")
	}
	return price, way
}

// riggers is what the crew costs.
func (b *BidResult) riggers(rates []takeoff.Rate, t *BidTotals) float64 {
	best := math.Inf(1)
	for _, r := range rates {
		if r.Kind == "rigger" {
			if price, way := peoplePrice(r, t); way != "" {
				best = min(best, price)
			}
		}
	}
	if math.IsInf(best, 1) {
		if t.Lifts > 0 {
			b.Missing = append(b.Missing, MissingRate{"rigger", fmt.Sprintf("a crew of %d for %d days", t.Crew, t.Days), nil})
		}
		return 0
	}
	t.RiggerEach = best
	return best * float64(t.Crew)
}

// atBest is the total if every load weighed what its take-off says at best: the
// pull of a sling taken as in proportion to the weight.
func (b *BidResult) atBest(rates []takeoff.Rate, t BidTotals) float64 {
	scale := func(p BidRow) float64 {
		if p.Weight.SizingKg == 0 {
			return 1
		}
		return p.Weight.BestKg / p.Weight.SizingKg
	}
	total := t.Riggers
	for _, kind := range []string{"sling", "shackle", "bar"} {
		total += match(b.Pieces, kind, rates, t.Days, scale).cost
	}
	then := BidResult{Pieces: append([]BidRow(nil), b.Pieces...)}
	_, crane := then.craneLine(rates, &t, scale)
	return total + crane
}
