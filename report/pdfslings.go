package report

import (
	"fmt"

	"plumbhook/lift"
)

// slingColumns are those of the slings on page 1.
var slingColumns = []column{{"Use", 3, false}, {"Family", 0, false}, {"Smallest size", 15, false}, {"Rated, vertical", 11, true}, {"Used", 4, true}, {"All legs weigh", 11, true}}

const slingHead = 9.0 // mm: heading, titles and rule

// usableHigh is how high the table of slings would be with all families.
func (d *leaf) usableHigh(list []lift.Family) float64 {
	if len(list) == 0 {
		return slingHead
	}
	high := slingHead + faceSmall.high()
	for _, f := range list {
		high += d.deep(d.slingCells(f))
	}
	return high
}

// deep is how high a row of the slings is, mm.
func (d *leaf) deep(cells []string) float64 {
	n := 1
	for i, wide := range widths(slingColumns) {
		n = max(n, len(d.lines(cells[i], wide, faceSmall)))
	}
	return float64(n) * faceSmall.high()
}

func (d *leaf) slingCells(f lift.Family) []string {
	c, p := f.Choice, d.p
	weight := "-"
	if c.WeightKg > 0 {
		weight = p.massUp(c.WeightKg)
	}
	return []string{f.Use, familyName(f), c.Size + p.mark(c.Basis), p.massDown(c.RatedKg), percentUp(c.Utilisation), weight}
}

// slingTable sets one line a family that may be used, down to a limit.
func (d *leaf) slingTable(list []lift.Family, limit float64) {
	s := d.s.Slings
	if s == nil {
		d.small("SLINGS", d.left, textWide)
		d.y += d.block(d.left, d.y, textWide, "No rule set was chosen, so the slings are not sized.", faceBody) + 1
		return
	}
	what := "SLINGS that may be used here, rules " + s.Rules + "; all legs of the set alike; the tag on the sling governs"
	if !d.s.Verdict.Acceptable {
		what = "SLINGS for these tensions, rules " + s.Rules + "; not for use while the lift is " + notAcceptable
	}
	d.small(what, d.left, textWide)
	if len(list) == 0 {
		d.y += d.block(d.left, d.y, textWide, fmt.Sprintf("None has a size that is large enough and may be used: page %d.", d.familiesOn), faceStrong) + 1
		return
	}
	d.cells(slingColumns, columnTitles(slingColumns), faceTight, true)
	d.rule()
	for i, f := range list {
		cells := d.slingCells(f)
		if d.y+d.deep(cells)+faceSmall.high() > limit {
			d.put(d.left, d.y, textWide, fmt.Sprintf("%s more, and why not others: page %d", plural(len(list)-i, "family", "families"), d.familiesOn), faceTight, "L")
			d.y += faceSmall.high() + 1.5
			return
		}
		d.cells(slingColumns, cells, faceSmall, false)
	}
	d.y += 1.5
}

// usable are the families that may be used, those without a but first.
func (d *leaf) usable() []lift.Family {
	var list []lift.Family
	if d.s.Slings == nil {
		return nil
	}
	for _, use := range uses[:2] {
		for _, f := range d.s.Slings.Families {
			if f.Use == use && f.Choice != nil {
				list = append(list, f)
			}
		}
	}
	return list
}

func (d *leaf) needsLegend() bool {
	for _, f := range d.usable() {
		if marks[f.Choice.Basis] != "" {
			return true
		}
	}
	return false
}
