package lift

import (
	"slices"

	"plumbhook/takeoff"
)

// matched is the cheapest gear of one kind for all pieces.
type matched struct {
	lines   []GearLine
	missing []MissingRate
	cover
	serving map[int]int // demand → line
	alone   []float64   // by demand: its cheapest gear bought for it alone; below zero: none has a price
}

// match finds the cheapest set of one kind of gear that serves every piece, one
// lift after the other.
func match(rows []BidRow, kind string, rates []takeoff.Rate, days int, scale func(BidRow) float64) matched {
	var demands []gearDemand
	for i, row := range rows {
		for _, d := range row.demands {
			if d.kind == kind {
				d.row = i
				demands = append(demands, d)
			}
		}
	}
	m := matched{serving: map[int]int{}}
	var kinds []coverKind
	all := candidates(rates, demands)
	m.alone = make([]float64, len(demands))
	for i := range m.alone {
		m.alone[i] = -1
	}
	for id, c := range all {
		k := coverKind{id: id}
		lifts := 0
		for i, d := range demands {
			if !c.serves(d, scale(rows[d.row])) {
				continue
			}
			k.covers = append(k.covers, i)
			lifts += rows[d.row].Quantity
			if c.rate.Buy != nil {
				if cost := float64(d.count) * *c.rate.Buy; m.alone[i] < 0 || cost < m.alone[i] {
					m.alone[i] = cost
				}
			}
		}
		unit, way := unitPrice(c.rate, days, lifts)
		if k.cost = float64(c.count) * unit; way != "" && len(k.covers) > 0 {
			kinds = append(kinds, k)
		}
	}
	m.settle(rows, demands, all, kinds, days)
	return m
}

// settle leaves out what nothing serves, covers the rest and writes the lines.
func (m *matched) settle(rows []BidRow, demands []gearDemand, all []candidate, kinds []coverKind, days int) {
	number := make([]int, len(demands)) // among those that can be served, from 1
	n := 0
	for _, k := range kinds {
		for _, c := range k.covers {
			number[c] = 1
		}
	}
	for i, d := range demands {
		if number[i] == 0 {
			m.miss(d, rows[d.row].Mark)
			continue
		}
		n++
		number[i] = n
	}
	lifts, covers := map[int]int{}, map[int][]int{}
	for i := range kinds {
		covers[kinds[i].id] = kinds[i].covers
		renumbered := make([]int, len(kinds[i].covers))
		for j, c := range kinds[i].covers {
			renumbered[j] = number[c] - 1
			lifts[kinds[i].id] += rows[demands[c].row].Quantity
		}
		kinds[i].covers = renumbered
	}
	m.cover = cheapestCover(n, kinds)
	for _, id := range m.chosen {
		line := gearLine(all[id], days, lifts[id])
		for _, c := range covers[id] {
			if _, has := m.serving[c]; !has {
				m.serving[c] = len(m.lines)
			}
			if mark := rows[demands[c].row].Mark; !slices.Contains(line.Serves, mark) {
				line.Serves = append(line.Serves, mark)
			}
		}
		m.lines = append(m.lines, line)
	}
}

// miss lists what no rate serves, once for all pieces that ask the same.
func (m *matched) miss(d gearDemand, mark string) {
	for i := range m.missing {
		if m.missing[i].What == d.words {
			m.missing[i].For = append(m.missing[i].For, mark)
			return
		}
	}
	m.missing = append(m.missing, MissingRate{d.kind, d.words, []string{mark}})
}

func gearLine(c candidate, days, lifts int) GearLine {
	r := c.rate
	unit, way := unitPrice(r, days, lifts)
	line := GearLine{Kind: r.Kind, Family: r.Family, Material: r.Material, Size: r.Size, RatedKg: float64(r.Rated), LengthsM: []float64{},
		Count: c.count, Way: way, Unit: unit, Price: float64(c.count) * unit, Buy: r.Buy, LeadDays: r.LeadDays, Serves: []string{}, RateRow: r.Row}
	if r.AdjustFrom > 0 {
		line.AdjustsM = []float64{r.AdjustFrom, r.Length}
	} else {
		line.LengthsM = append(line.LengthsM, c.lengths...)
	}
	if cost, ok := hire(r, days); ok {
		line.Hire = &cost
	}
	if day, ok := breakEven(r); ok {
		line.BreakEvenDays = &day
	}
	return line
}
