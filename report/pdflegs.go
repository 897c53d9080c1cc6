package report

import (
	"fmt"

	"plumbhook/lift"
)

// legColumns are those of the legs on page 1.
var legColumns = []column{{"Leg to pick", 0, false}, {"Length", 12, true}, {"Angle from horizontal; at worst", 7, true},
	{"Angle from vertical; at worst", 7, true}, {"Tension", 11, true}, {"WORST TENSION", 11, true}, {"Rating needed, vertical hitch", 11, true}}

// legTable sets picks and legs, down to a limit.
func (d *leaf) legTable(limit float64) {
	d.small("PICKS AND LEGS", d.left, textWide)
	h := d.s.Legs
	if !h.Solved || len(h.Legs) == 0 {
		d.y += d.block(d.left, d.y, textWide, "There is no pose, and so no tension to go by.", faceBody) + 1
		return
	}
	d.cells(legColumns, columnTitles(legColumns), faceTight, true)
	d.rule()
	style := d.legFace()
	for i, l := range h.Legs {
		if d.y > limit {
			d.put(d.left, d.y, textWide, fmt.Sprintf("%s more: page %d", plural(len(h.Legs)-i, "leg", "legs"), d.legsOn), faceTight, "L")
			d.y += faceTight.high()
			break
		}
		cells := d.legCells(l)
		cells[0] = d.cutOff(cells[0], widths(legColumns)[0], style, 2)
		d.cells(legColumns, cells, style, false)
	}
	if sets := d.s.Picks.Proposals; len(sets) > 0 && !sets[0].Given {
		d.y += 0.5
		d.y += d.block(d.left, d.y, textWide, "Picks: "+geometryOnly+".", faceTight)
	}
	d.y += 1.5
}

// legFace is small enough for no figure to be broken.
func (d *leaf) legFace() face {
	style := faceSmall
	for _, l := range d.s.Legs.Legs {
		for i, cell := range d.legCells(l)[1:] {
			for style.size > 5.5 && d.width(cell, style) > widths(legColumns)[i+1] {
				style.size -= 0.5
			}
		}
	}
	return style
}

func (d *leaf) legCells(l lift.Leg) []string {
	p, flattest := d.p, tenthDown(l.WorstFromHorizontalDeg)
	name, need := l.Pick, "not sized"
	if l.Slack {
		name = "SLACK: " + name
	}
	if d.s.Slings != nil {
		if kg, ok := d.s.Slings.Required[l.Pick]; ok {
			need = p.massUp(kg)
		}
	}
	long := "not stated"
	if l.LengthM > 0 {
		long = p.length(l.LengthM)
	}
	return []string{name, long, plainAngle(l.FromHorizontalDeg) + "; " + plainAngle(flattest),
		plainAngle(l.FromVerticalDeg) + "; " + plainAngle(90-flattest), p.forceUp(l.TensionKN), p.forceUp(l.WorstTensionKN), need}
}

func columnTitles(cols []column) []string {
	var all []string
	for _, c := range cols {
		all = append(all, c.title)
	}
	return all
}
