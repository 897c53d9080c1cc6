package report

import (
	"math"

	"plumbhook/lift"
)

// between fills what is left of the page: drawings, slings, warnings, as much of
// each as goes.
func (d *leaf) between(foot float64) {
	room := foot - d.y
	warned := worstFirst(d.s.Warnings)
	wants := 6.0
	for _, w := range warned {
		wants += float64(len(d.lines(w.Text, textWide-6, faceSmall))) * faceSmall.high()
	}
	if len(warned) == 0 {
		wants = 0
	}
	slings := d.usable()
	slingsWant := d.usableHigh(slings)
	warnGet := min(wants, max(0.3*room, 14))
	slingsGet := min(slingsWant, max(0.27*room, 20))
	pictures := 0.0
	if len(d.s.Drawings) > 0 {
		pictures = min(120, room-warnGet-slingsGet-2)
	}
	d.pictures(pictures)
	room = foot - d.y
	warnGet = min(wants, max(warnGet, room-slingsWant))
	slingsGet = min(slingsWant, room-warnGet)
	d.slingTable(slings, d.y+slingsGet)
	if len(warned) > 0 {
		d.small("WARNINGS, what to do about them: page "+plainInt(d.warningsOn), d.left, textWide)
		var texts []string
		for _, w := range warned {
			texts = append(texts, w.Text)
		}
		d.listed(texts, d.left, textWide, foot, "warning", "warnings", faceSmall)
	}
}

// pictures sets the plan, and the elevation that shows most, as the load hangs.
func (d *leaf) pictures(high float64) {
	if high < 25 {
		return // they follow in full
	}
	box := d.s.Weigh.BoxM
	side := "front"
	if box.Max[1]-box.Min[1] > box.Max[0]-box.Min[0] {
		side = "side"
	}
	var drawn []lift.Drawing
	for _, view := range []string{"plan", side} {
		if g, ok := d.shown(view, view != "plan"); ok {
			drawn = append(drawn, g)
		}
	}
	high -= captionHigh
	var shown []briefed
	least, deep := 0.0, 0.0
	for _, g := range drawn {
		b := d.reduced(g, leafHalf, high, 0)
		shown, least = append(shown, b), math.Max(least, b.scale)
	}
	for i, b := range shown {
		if b.scale*1.6 > least { // one scale for both, where it makes neither too small
			shown[i] = d.reduced(drawn[i], leafHalf, high, least)
		}
		deep = math.Max(deep, shown[i].size[1])
	}
	for i, b := range shown {
		d.setBrief(b, d.left+float64(i)*(leafHalf+6), d.y+deep, leafHalf)
	}
	d.y += deep + captionHigh + 2
}

// shown finds a view, as the load hangs if that is asked for and differs.
func (d *leaf) shown(view string, hung bool) (found lift.Drawing, ok bool) {
	for _, g := range d.s.Drawings {
		if g.View == view && (!g.Hung || hung) {
			found, ok = g, true // those as it hangs come last
		}
	}
	return found, ok
}
