package lift

import (
	"math"
	"strconv"

	"github.com/go-gl/mathgl/mgl64"
)

// plot is a picture of one or two curves, made of the same marks as a drawing.
type plot struct {
	title, words   string
	across, upward string // what the axes count, with the unit
	curves         []curve
}

// curve is a line through points; the second of a plot is dashed.
type curve struct {
	name string
	at   []mgl64.Vec2 // in the units of the axes
}

// The paper of a plot, mm.
const (
	plotWide, plotHigh = 180.0, 84.0
	plotLeft, plotFoot = 20.0, 15.0
	plotRight, plotTop = 12.0, 19.0
)

// scaleOf is the axis of a plot: where it begins and ends, and how far its ticks
// stand apart, all round numbers.
func scaleOf(low, high float64) (from, to, step float64) {
	if !(high > low) {
		high = low + 1
	}
	step = drawingScale((high - low) / 8)
	return math.Floor(low/step+1e-9) * step, math.Ceil(high/step-1e-9) * step, step
}

// draw puts the plot on paper. The axes hold zero.
func (p plot) draw() Drawing {
	var low, high mgl64.Vec2
	for _, c := range p.curves {
		for _, q := range c.at {
			low = mgl64.Vec2{min(low[0], q[0]), min(low[1], q[1])}
			high = mgl64.Vec2{max(high[0], q[0]), max(high[1], q[1])}
		}
	}
	b := &board{paper: paper{wide: plotWide, high: plotHigh}, field: newField(plotWide, plotHigh)}
	left, right, acrossStep := scaleOf(low[0], high[0])
	foot, top, upStep := scaleOf(low[1], high[1])
	on := func(q mgl64.Vec2) mgl64.Vec2 {
		return mgl64.Vec2{plotLeft + (q[0]-left)/(right-left)*(plotWide-plotLeft-plotRight),
			plotFoot + (q[1]-foot)/(top-foot)*(plotHigh-plotFoot-plotTop)}
	}
	b.titles(p.title)
	for i := 0.0; left+i*acrossStep <= right+acrossStep/2; i++ {
		at := on(mgl64.Vec2{left + i*acrossStep, foot})
		b.line(ofSize, at, mgl64.Vec2{at[0], plotHigh - plotTop})
		b.write(at.Sub(mgl64.Vec2{0, 4}), tick(left+i*acrossStep), ofScale, "middle")
	}
	for i := 0.0; foot+i*upStep <= top+upStep/2; i++ {
		at := on(mgl64.Vec2{left, foot + i*upStep})
		b.line(ofSize, at, mgl64.Vec2{plotWide - plotRight, at[1]})
		b.write(at.Sub(mgl64.Vec2{1.5, 1}), tick(foot+i*upStep), ofScale, "right")
	}
	b.line(ofScale, mgl64.Vec2{plotLeft, plotHigh - plotTop}, mgl64.Vec2{plotLeft, plotFoot}, mgl64.Vec2{plotWide - plotRight, plotFoot})
	b.write(mgl64.Vec2{(plotLeft + plotWide - plotRight) / 2, plotFoot - 9}, p.across, ofScale, "middle")
	b.write(mgl64.Vec2{4, plotHigh - plotTop + 3.5}, p.upward, ofScale, "left")
	p.curvesOn(b, on)
	return Drawing{View: "plot", Title: p.title, Alt: p.title + ". " + p.words, Wide: b.wide, High: b.high, Marks: b.out}
}

// curvesOn draws the curves, and then their names beside them.
func (p plot) curvesOn(b *board, on func(mgl64.Vec2) mgl64.Vec2) {
	var names []label
	for i, c := range p.curves {
		l := label{lines: []string{c.name}, of: ofScale}
		var line []mgl64.Vec2
		for k, q := range c.at {
			line = append(line, on(q))
			if k > 0 {
				l.to = append(l.to, line[k-1].Add(line[k]).Mul(0.5))
			}
		}
		b.line([]string{ofCurve, ofSecond}[min(i, 1)], line...)
		names = append(names, l)
	}
	b.placeAll(names)
}

// tick prints the figure at a tick.
func tick(x float64) string { return strconv.FormatFloat(math.Round(x*1e9)/1e9, 'g', 6, 64) }
