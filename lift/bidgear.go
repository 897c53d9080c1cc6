package lift

import (
	"fmt"
	"math"
	"slices"
	"sort"
	"strings"

	"plumbhook/sling"
	"plumbhook/takeoff"
	"plumbhook/units"
)

// GearLine is one line of the matched set: so many of one kind of gear, which serve
// the pieces named one after the other.
type GearLine struct {
	Kind          string    `json:"kind"`
	Family        string    `json:"family,omitempty"`
	Material      string    `json:"material,omitempty"`
	Size          string    `json:"size"`
	RatedKg       float64   `json:"rated_kg"`
	LengthsM      []float64 `json:"lengths_m"`           // made so; none: adjustable, or it has none
	AdjustsM      []float64 `json:"adjusts_m,omitempty"` // shortest and longest
	Count         int       `json:"count"`               // pieces of gear
	Way           string    `json:"way"`                 // buy, hire or per lift
	Unit          float64   `json:"unit_price"`          // of one, for the job
	Price         float64   `json:"price"`               // count × unit
	Buy           *float64  `json:"buy_price"`           // of one; null: no rate
	Hire          *float64  `json:"hire_price"`          // of one for the days of the job; null: no rate
	BreakEvenDays *int      `json:"break_even_days"`     // the first day of hire on which buying is no dearer; null: one of them has no rate, or beyond ten years
	LeadDays      float64   `json:"lead_days"`
	Serves        []string  `json:"serves"`
	RateRow       int       `json:"rate_row"`
}

// MissingRate is what the bid needs and the rates do not have.
type MissingRate struct {
	Kind string   `json:"kind"`
	What string   `json:"what"`
	For  []string `json:"for"`
}

// checkRates sees that families and materials of the rates are known ones.
func checkRates(rates *takeoff.Rates) error {
	if rates == nil {
		return nil
	}
	var problems takeoff.Problems
	for _, r := range rates.Rows {
		if r.Kind != "sling" {
			continue
		}
		column, is, names := "family", r.Family, sling.FamilyNames()
		if slices.Contains(names, r.Family) {
			column, is, names = "material", r.Material, sling.MaterialNames(r.Family)
			if is == "" {
				continue
			}
		}
		if slices.ContainsFunc(names, func(name string) bool { return strings.EqualFold(name, is) }) {
			continue
		}
		fix := "write one of: " + strings.Join(names, "; ")
		if near := units.Nearest(is, names); len(near) > 0 {
			fix = fmt.Sprintf("did you mean `%s`? %s", near[0], fix)
		}
		problems = append(problems, r.Problem(column, fmt.Sprintf("%q is not a %s of slings that is known here", is, column), fix))
	}
	if len(problems) > 0 {
		return problems
	}
	return nil
}

// hire is what so many days of hire of one cost: whole weeks of five working days,
// single days, or both, whichever is least, and never less than the minimum. False:
// it is not let by the day or week.
func hire(r takeoff.Rate, days int) (float64, bool) {
	least := math.Inf(1)
	if r.Day != nil {
		least = float64(days) * *r.Day
	}
	if r.Week != nil {
		for weeks := 1; weeks <= (days+daysInWeek-1)/daysInWeek; weeks++ {
			left := max(0, days-weeks*daysInWeek)
			switch {
			case left == 0:
				least = min(least, float64(weeks)**r.Week)
			case r.Day != nil:
				least = min(least, float64(weeks)**r.Week+float64(left)**r.Day)
			}
		}
	}
	if math.IsInf(least, 1) {
		return 0, false
	}
	if r.Minimum != nil {
		least = max(least, *r.Minimum)
	}
	return least, true
}

// breakEven is the first day of hire on which buying is no dearer than hiring so
// long; false where one of the two has no rate, or not within ten years.
func breakEven(r takeoff.Rate) (int, bool) {
	const within = 10 * 52 * daysInWeek
	if r.Buy == nil {
		return 0, false
	}
	day := sort.Search(within, func(i int) bool {
		cost, ok := hire(r, i+1)
		return !ok || cost >= *r.Buy
	}) + 1
	_, lets := hire(r, 1)
	return day, lets && day <= within
}

// unitPrice is the least that one costs for the job, and by which way. Per lift it
// is charged for all lifts that it can serve, the safe side.
func unitPrice(r takeoff.Rate, days, lifts int) (price float64, way string) {
	price = math.Inf(1)
	if r.Buy != nil {
		price, way = *r.Buy, "buy"
	}
	if cost, ok := hire(r, days); ok && cost < price {
		price, way = cost, "hire"
	}
	if r.Lift != nil {
		cost := float64(lifts) * *r.Lift
		if r.Minimum != nil {
			cost = max(cost, *r.Minimum)
		}
		if cost < price {
			price, way = cost, "per lift"
		}
	}
	return price, way
}

// candidate is so many of one rate row, in certain lengths if it is not adjustable.
type candidate struct {
	rate    takeoff.Rate
	count   int
	lengths []float64
	slot    int
}

// serves tells whether a candidate covers a demand. With scale below 1 the demand is
// that of a lighter load.
func (c candidate) serves(d gearDemand, scale float64) bool {
	if c.rate.Kind != d.kind || c.count < d.count || c.slot != d.slot {
		return false
	}
	if !c.reaches(d.lengths) || c.rate.Material == "" && slices.Contains(d.barred, c.rate.Family) {
		return false
	}
	for key, kg := range d.needs {
		family, material, _ := strings.Cut(key, "|")
		fits := d.kind != "sling" || family == c.rate.Family && (c.rate.Material == "" || strings.EqualFold(material, c.rate.Material))
		if fits && kg*scale <= float64(c.rate.Rated)*(1+1e-9) {
			if d.kind != "sling" || c.rate.Material != "" || d.worstOf(family)*scale <= float64(c.rate.Rated)*(1+1e-9) {
				return true
			}
		}
	}
	return false
}

// worstOf is the greatest rating that any material of a family needs: a rate that
// names no material is held to it.
func (d gearDemand) worstOf(family string) (most float64) {
	for key, kg := range d.needs {
		if of, _, _ := strings.Cut(key, "|"); of == family {
			most = max(most, kg)
		}
	}
	return most
}

// reaches holds the lengths that a candidate can have against those asked for.
func (c candidate) reaches(lengths []float64) bool {
	switch {
	case len(lengths) == 0:
		return true
	case lengths[0] <= 0: // not known
		return false
	case c.rate.AdjustFrom > 0:
		return lengths[0] >= c.rate.AdjustFrom-leastMatch && lengths[len(lengths)-1] <= c.rate.Length+leastMatch
	case len(lengths) != len(c.lengths):
		return false
	}
	for i, l := range lengths {
		if math.Abs(l-c.lengths[i]) > leastMatch || c.rate.Length > 0 && l > c.rate.Length+leastMatch {
			return false
		}
	}
	return true
}

// candidates are the rows of rates in the numbers and lengths that are asked for.
// Sets that hang under one load at once, such as the drops and the legs above a
// bar, are sets of their own.
func candidates(rates []takeoff.Rate, demands []gearDemand) (all []candidate) {
	bySlot := map[int][]gearDemand{}
	for _, d := range demands {
		bySlot[d.slot] = append(bySlot[d.slot], d)
	}
	for _, slot := range sortedKeys(bySlot) {
		all = append(all, inSlot(rates, bySlot[slot])...)
	}
	return all
}

func inSlot(rates []takeoff.Rate, demands []gearDemand) (all []candidate) {
	counts, cut := map[int]bool{}, map[string][]float64{}
	for _, d := range demands {
		counts[d.count] = true
		cut[fmt.Sprintf("%.3f", d.lengths)] = d.lengths
	}
	slot := demands[0].slot
	for _, r := range rates {
		if r.Kind != demands[0].kind {
			continue
		}
		if r.AdjustFrom > 0 || r.Kind == "shackle" {
			for _, n := range sortedKeys(counts) {
				all = append(all, candidate{rate: r, count: n, slot: slot})
			}
			continue
		}
		for _, key := range sortedKeys(cut) {
			all = append(all, candidate{rate: r, count: max(1, len(cut[key])), lengths: cut[key], slot: slot})
		}
	}
	return all
}

func sortedKeys[K int | string, V any](m map[K]V) []K {
	var keys []K
	for k := range m {
		keys = append(keys, k)
	}
	slices.Sort(keys)
	return keys
}
