package report

import (
	"math"

	"plumbhook/geom"
	"plumbhook/lift"
)

// mostInfluences is how many lines are printed of what moves the figures most.
const mostInfluences = 5

// influences prints which lines of the take-off move the figures most. Without
// a leg it tells of weight and CG alone.
func (p *page) influences(list []lift.Influence, leg string) {
	if len(list) == 0 {
		return
	}
	if leg == "" {
		p.sub("What is least sure")
	} else {
		p.sub("What moves the tension in one leg most")
	}
	p.hang("  ", "From the least to the most that each line of the take-off may weigh, all others at their best.")
	p.gap()
	cols := []column{{"Line of the take-off", 0, false}, {"Its weight", 13, true}, {"Moves the CG by", 13, true}}
	if leg != "" {
		cols = append(cols, column{"Moves leg " + leg + " by", 13, true})
	}
	p.titles(cols)
	for _, one := range list[:min(mostInfluences, len(list))] {
		cells := []string{one.Name, p.stackedMassUp(one.RangeKg), p.stackedLength(one.CGShiftM.Len())}
		if leg != "" {
			cells = append(cells, p.stackedForceUp(math.Abs(one.LegKN)))
		}
		p.row(cols, cells...)
	}
	if more := len(list) - mostInfluences; more > 0 {
		p.gap()
		p.hang("  ", plural(more, "line moves", "lines move")+" it less.")
	}
}

// between prints how far the CG stands from the sides of the picks.
func (p *page) between(b *lift.Between) {
	if b == nil {
		return
	}
	side := "the side " + b.Side
	if b.WorstM < 0 {
		best := p.length(b.BestM) + " inside the nearest"
		if b.BestM < 0 {
			best = p.length(-b.BestM) + " beyond it"
		}
		p.field("In the picks", "NO: the CG may be "+p.length(-b.WorstM)+" beyond "+side+" at worst; at its best place it is "+best)
		return
	}
	p.field("In the picks", "the CG is "+p.length(b.BestM)+" inside the nearest side of the picks in plan, "+p.length(b.WorstM)+" at worst, toward "+side)
}

// advice prints whether weighing a part would pay.
func (p *page) advice(list []string) {
	if len(list) == 0 {
		return
	}
	p.sub("Would weighing a part pay?")
	for _, text := range list {
		p.hang("  - ", text)
	}
}

// region prints how far the CG may lie from its best place, to eight sides in
// plan and up and down.
func (p *page) region(w lift.Weight) {
	if len(w.CGRegion.Sides) == 0 {
		return
	}
	text := ""
	for _, s := range w.CGRegion.Sides {
		text += ", " + side(s.Toward) + glue + p.length(s.FarM-w.CGM.Dot(s.Toward))
	}
	p.gap()
	p.hang("  ", "From its best place the CG may be out by no more than "+text[2:]+".")
}

// side names a direction by the axes that it goes along alike: +x, −x+y.
func side(v geom.Vec) string {
	text := ""
	for i, axis := range []string{"x", "y", "z"} {
		switch {
		case v[i] > 0.1:
			text += "+" + axis
		case v[i] < -0.1:
			text += "−" + axis
		}
	}
	return text
}

// levelWays prints how the load could be made to hang level.
func (p *page) levelWays(list []lift.LevelWay) {
	if len(list) == 0 {
		return
	}
	p.sub("To hang it level, one of")
	for _, w := range list {
		p.hang("  - ", w.Text+"; "+turn(w.TiltDeg)+" out of level is left")
	}
}
