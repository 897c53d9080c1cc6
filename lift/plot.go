package lift

import (
	"math"
	"strconv"
	"strings"

	"github.com/go-gl/mathgl/mgl64"
)

// plot is a picture of one or two curves, made of the same marks as a drawing.
type plot struct {
	title, words   string
	note           string // above the curves
	across, upward string // what the axes count, with the unit
	curves         []curve
	fitted         bool       // the axes begin where the curves do, and not at zero
	turns          bool       // across are degrees
	under, right   *otherUnit // of the axes, in another unit
	spots          []spot
	rules          []rule
	key            []keyed
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
	step = drawingScale((high - low) / 12)
	return math.Floor(low/step+1e-9) * step, math.Ceil(high/step-1e-9) * step, step
}

// plotFrame is where the axes of a plot lie on paper, and what they count.
type plotFrame struct {
	area         // mm
	low, high    mgl64.Vec2
	across, upto float64 // from tick to tick
}

// on is where values fall on paper.
func (f plotFrame) on(q mgl64.Vec2) mgl64.Vec2 {
	return mgl64.Vec2{f.left + (q[0]-f.low[0])/(f.high[0]-f.low[0])*(f.right-f.left),
		f.foot + (q[1]-f.low[1])/(f.high[1]-f.low[1])*(f.top-f.foot)}
}

// frame finds axes that hold all that is shown; zero as well, unless they are
// fitted.
func (p plot) frame() plotFrame {
	var low, high mgl64.Vec2
	if p.fitted {
		low, high = mgl64.Vec2{math.Inf(1), math.Inf(1)}, mgl64.Vec2{math.Inf(-1), math.Inf(-1)}
	}
	for _, q := range p.shown() {
		low = mgl64.Vec2{min(low[0], q[0]), min(low[1], q[1])}
		high = mgl64.Vec2{max(high[0], q[0]), max(high[1], q[1])}
	}
	for _, r := range p.rules {
		axis := 0
		if r.level {
			axis = 1
		}
		low[axis], high[axis] = min(low[axis], r.at), max(high[axis], r.at)
	}
	f := plotFrame{area: area{plotLeft, plotFoot, plotWide - plotRight, plotFoot + plotHigh - plotFoot - plotTop}}
	if p.under != nil {
		f.foot, f.top = f.foot+underHigh, f.top+underHigh
	}
	if p.right != nil {
		f.right -= rightWide
	}
	f.low[0], f.high[0], f.across = scaleOf(low[0], high[0])
	if p.turns {
		f.low[0], f.high[0], f.across = turnScale(low[0], high[0])
	}
	f.low[1], f.high[1], f.upto = scaleOf(low[1], high[1])
	return f
}

// shown are all places that the axes must hold.
func (p plot) shown() []mgl64.Vec2 {
	var all []mgl64.Vec2
	for _, c := range p.curves {
		all = append(all, c.at...)
	}
	for _, s := range p.spots {
		all = append(all, s.at)
	}
	return all
}

// draw puts the plot on paper.
func (p plot) draw() Drawing {
	f := p.frame()
	high := f.top + plotTop
	b := &board{paper: paper{wide: plotWide, high: high}, field: newField(plotWide, high)}
	b.titles(p.title)
	p.axes(b, f)
	b.keepWithin(f.area)
	p.curvesOn(b, f)
	b.cutLines()
	return Drawing{View: "plot", Title: p.title, Alt: p.title + ". " + p.words, Wide: b.wide, High: b.high, Marks: b.out}
}

// refused says on a plot that the lift is not acceptable, as on a drawing.
func (d Drawing) refused() Drawing {
	title := "NOT ACCEPTABLE: " + d.Title
	d.Alt = title + strings.TrimPrefix(d.Alt, d.Title)
	for i, m := range d.Marks {
		if m.Of == ofTitle {
			d.Marks[i].Text = title
		}
	}
	d.Title = title
	return d
}

// axes draws the grid, and writes what it counts.
func (p plot) axes(b *board, f plotFrame) {
	for i := 0.0; f.low[0]+i*f.across <= f.high[0]+f.across/2; i++ {
		at := f.on(mgl64.Vec2{f.low[0] + i*f.across, f.low[1]})
		b.grid(at, mgl64.Vec2{at[0], f.top})
		b.write(at.Sub(mgl64.Vec2{0, 4}), tick(f.low[0]+i*f.across), ofScale, "middle")
	}
	for i := 0.0; f.low[1]+i*f.upto <= f.high[1]+f.upto/2; i++ {
		at := f.on(mgl64.Vec2{f.low[0], f.low[1] + i*f.upto})
		b.grid(at, mgl64.Vec2{f.right, at[1]})
		b.write(at.Sub(mgl64.Vec2{1.5, 1}), tick(f.low[1]+i*f.upto), ofScale, "right")
	}
	b.line(ofScale, mgl64.Vec2{f.left, f.top}, mgl64.Vec2{f.left, f.foot}, mgl64.Vec2{f.right, f.foot})
	p.otherUnits(b, f)
	b.write(mgl64.Vec2{(f.left + f.right) / 2, plotFoot - 9}, p.across, ofScale, "middle")
	b.write(mgl64.Vec2{4, f.top + 3.5}, p.upward, ofScale, "left")
	if p.note != "" {
		b.write(mgl64.Vec2{f.right, f.top + 3.5}, p.note, ofScale, "right")
	}
}

// grid draws a line that a text may stand on.
func (b *board) grid(from, to mgl64.Vec2) {
	b.out = append(b.out, Mark{Kind: "line", Of: ofSize, At: []mgl64.Vec2{from, to}})
	b.field.line(from, to, onEdge)
}

// keepWithin keeps what is placed from now on within an area.
func (b *board) keepWithin(a area) {
	for _, out := range []area{{0, 0, a.left, b.high}, {a.right, 0, b.wide, b.high}, {0, 0, b.wide, a.foot}, {0, a.top, b.wide, b.high}} {
		b.field.cover(out, onText)
	}
}

// curvesOn draws the curves and what is marked on them, and then the names
// beside them.
func (p plot) curvesOn(b *board, f plotFrame) {
	names := p.rulesOn(b, f)
	for i, c := range p.curves {
		l := label{lines: []string{c.name}, of: ofScale}
		var line []mgl64.Vec2
		for k, q := range c.at {
			line = append(line, f.on(q))
			if k > 0 {
				l.to = append(l.to, line[k-1].Add(line[k]).Mul(0.5))
			}
		}
		b.line([]string{ofCurve, ofSecond}[min(i, 1)], line...)
		if c.name != "" {
			names = append(names, l)
		}
	}
	b.placeAll(append(names, p.spotsOn(b, f)...))
}

// tick prints the figure at a tick.
func tick(x float64) string { return strconv.FormatFloat(math.Round(x*1e9)/1e9, 'f', -1, 64) }
