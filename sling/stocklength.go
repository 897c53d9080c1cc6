package sling

import (
	"cmp"
	"fmt"
	"math"
	"slices"
	"strconv"
	"strings"

	"plumbhook/units"
)

// steps tells whether a sling has the length that a leg takes, and how many
// steps of a shortener it needs for that. Only chain is shortened by steps.
func (r rack) steps(item StockItem, leg StockLeg) (int, bool) {
	stock := r.need.Stock
	off, tolerance := item.Length-leg.Length, leg.Tolerance+1e-9 // for the last digits of a conversion
	if stock.AtLeast {
		return 0, off >= -tolerance
	}
	if math.Abs(off) <= tolerance {
		return 0, true
	}
	if stock.Step <= 0 || off < 0 || r.rows[0].body != "chain" {
		return 0, false
	}
	steps := int(math.Round(off / stock.Step))
	return steps, steps >= 1 && steps <= stock.Steps && math.Abs(off-float64(steps)*stock.Step) <= tolerance
}

// assign gives slings of a lot to as many legs as can have one at once, each the
// nearest in length that is left: a matching of greatest number by augmenting
// paths.
//
// Source: H. W. Kuhn, The Hungarian method for the assignment problem, Naval
// Research Logistics Quarterly 2 (1955), from memory.
func (r rack) assign(o *lot) []StockMark {
	legs := r.need.Stock.Legs
	holder := map[int]int{} // leg by item
	var seat func(leg int, asked map[int]bool) bool
	seat = func(leg int, asked map[int]bool) bool {
		mine := r.candidates(o, legs[leg])
		for _, i := range mine {
			if _, taken := holder[i]; !taken {
				holder[i] = leg
				return true
			}
		}
		for _, i := range mine {
			if asked[i] {
				continue
			}
			asked[i] = true
			if seat(holder[i], asked) {
				holder[i] = leg
				return true
			}
		}
		return false
	}
	for leg := range legs {
		seat(leg, map[int]bool{})
	}
	var out []StockMark
	for leg := range legs {
		for i, item := range o.items {
			if at, taken := holder[i]; taken && at == leg {
				steps, _ := r.steps(item, legs[leg])
				out = append(out, StockMark{legs[leg].Name, item.Mark, item.Length, steps})
			}
		}
	}
	return out
}

// candidates are the slings of a lot that a leg may have, the nearest in length
// first.
func (r rack) candidates(o *lot, leg StockLeg) []int {
	var out []int
	for i, item := range o.items {
		if _, ok := r.steps(item, leg); ok && item.Barred == "" {
			out = append(out, i)
		}
	}
	off := func(i int) float64 { return math.Abs(o.items[i].Length - leg.Length) }
	slices.SortStableFunc(out, func(a, b int) int { return cmp.Compare(off(a), off(b)) })
	return out
}

// missing says what keeps a lot from being a set: how many slings, and for each
// leg without one how far the nearest is off and what would mend it.
func (r rack) missing(o *lot, given []StockMark) []string {
	legs := r.need.Stock.Legs
	first := o.items[0]
	var have []string
	got, used := map[string]bool{}, map[string]bool{}
	for _, mark := range given {
		got[mark.Leg], used[mark.Mark] = true, true
		have = append(have, mark.Mark)
	}
	text := fmt.Sprintf("needs %d of %s, rated %s, has %d", len(legs), first.Size, first.Rated.FormatDown(units.Both), len(given))
	if len(have) > 0 {
		text += " (" + strings.Join(have, ", ") + ")"
	}
	out := []string{text}
	for _, leg := range legs {
		if !got[leg.Name] {
			out = append(out, fmt.Sprintf("leg %s takes a sling of %s: %s", leg.Name, units.Length(leg.Length).Format(units.Both), r.nearest(o, leg, used)))
		}
	}
	if lengths := r.otherLengths(o); lengths != nil {
		out = append(out, "or let the load hang on what the rack has: `lengths: {stock: ["+strings.Join(lengths, ", ")+"]}` solves the pose on these slings")
	}
	return out
}

// otherLengths are the lengths of a lot that has slings enough, if not of the
// legs' lengths; nil where it has too few.
func (r rack) otherLengths(o *lot) []string {
	free := 0
	var lengths []string
	for _, item := range o.items {
		if item.Barred != "" {
			continue
		}
		free++
		if text := strconv.FormatFloat(math.Round(item.Length*1e4)/1e4, 'f', -1, 64) + " m"; !slices.Contains(lengths, text) {
			lengths = append(lengths, text)
		}
	}
	if stock := r.need.Stock; free < len(stock.Legs) || stock.AtLeast || stock.Fitted {
		return nil
	}
	return lengths
}

// farShort is the part of a leg that no shackles and links are to make up.
// Common practice, no source.
const farShort = 0.15

// nearest tells which sling that is left comes nearest to a leg's length, and
// what to do about the rest.
func (r rack) nearest(o *lot, leg StockLeg, used map[string]bool) string {
	var best *StockItem
	for i, item := range o.items {
		if item.Barred != "" || used[item.Mark] {
			continue
		}
		if best == nil || math.Abs(item.Length-leg.Length) < math.Abs(best.Length-leg.Length) {
			best = &o.items[i]
		}
	}
	if best == nil {
		return "none is left"
	}
	used[best.Mark] = true
	off := best.Length - leg.Length
	text := fmt.Sprintf("the nearest left is %s, %s, ", best.Mark, units.Length(best.Length).Format(units.Both))
	by := units.Length(math.Abs(off)).Format(units.Both)
	switch {
	case off < 0 && (r.need.Stock.AtLeast || -off > farShort*leg.Length):
		return text + by + " too short: take a longer one"
	case off < 0:
		return text + by + " too short: make that up with shackles or links of at least the same rating, or a turnbuckle"
	case r.rows[0].body == "chain" && r.need.Stock.Step > 0:
		return text + by + " too long: the stated shortener does not bring it within the length tolerance"
	case r.rows[0].body == "chain":
		return text + by + " too long: a shortener that takes that off, in steps no coarser than the length tolerance"
	}
	return text + by + " too long: it can't be shortened (no knots, no twists)"
}
