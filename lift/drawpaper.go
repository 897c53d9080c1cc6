package lift

import (
	"math"
	"strconv"
	"strings"

	"github.com/go-gl/mathgl/mgl64"

	"plumbhook/geom"
)

// The paper of a drawing, mm: across the text of an A4 or Letter page, and no
// higher than lets two stand on one.
const (
	paperWide = 180.0
	paperHigh = 136.0
	stripHigh = 11.0 // strip of the axes and the scale bar
	rowApart  = 5.6  // between dimension lines
	rowFirst  = 8.0  // from the load to the first of them
)

// paper is where a view stands on the paper.
type paper struct {
	scale      float64
	wide, high float64    // mm
	low, top   mgl64.Vec2 // m, in the view: the corners of all that is drawn to scale
	left, foot float64    // mm, where low falls
}

// on returns where a place in the view falls on the paper, mm.
func (p paper) on(q mgl64.Vec2) mgl64.Vec2 {
	by := 1000 / p.scale
	return mgl64.Vec2{p.left + (q[0]-p.low[0])*by, p.foot + (q[1]-p.low[1])*by}
}

// at is where a place in the load's axes falls on the paper.
func (b *board) at(p geom.Vec) mgl64.Vec2 { return b.on(b.view.On(p)) }

// reach takes a place into what is drawn.
func (p *paper) reach(q mgl64.Vec2) {
	p.low = mgl64.Vec2{min(p.low[0], q[0]), min(p.low[1], q[1])}
	p.top = mgl64.Vec2{max(p.top[0], q[0]), max(p.top[1], q[1])}
}

// layOut chooses scale and height of the paper: the largest scale at which load,
// rigging, sizes and notes fit.
func (b *board) layOut(edges []geom.Seen) {
	b.low, b.top = mgl64.Vec2{math.Inf(1), math.Inf(1)}, mgl64.Vec2{math.Inf(-1), math.Inf(-1)}
	for _, e := range edges {
		b.reach(e.From)
		b.reach(e.To)
	}
	for _, leg := range b.legs.Legs {
		b.reach(b.view.On(leg.AtM))
		if leg.upper != nil {
			b.reach(b.view.On(*leg.upper))
		}
	}
	if b.legs.Solved {
		b.reach(b.view.On(b.legs.HookM))
	}
	b.reach(b.view.On(b.weight.CGM))
	b.planSizes()
	left, right := 12+rowApart*float64(len(b.upward)), 26.0
	if b.elevation() {
		left += 10 // for labels of legs beyond the dimension lines
	}
	below := stripHigh + 3
	if len(b.across) > 0 {
		below += rowFirst + rowApart*float64(len(b.across)-1) + 2
	}
	b.notes = wrapped(strings.Join(b.noteTexts(), " "), paperWide-8, letters)
	above := 11 + 3.6*float64(len(b.notes)) + 5
	size := b.top.Sub(b.low)
	wide, tall := max(size[0], 1e-3), max(size[1], 1e-3)
	b.scale = drawingScale(max(wide*1000/(paperWide-left-right-6), tall*1000/(paperHigh-below-above)))
	b.wide, b.high = paperWide, max(tall*1000/b.scale+below+above, 60)
	b.left = left + (paperWide-left-right-wide*1000/b.scale)/2
	b.foot = below
	b.field = newField(b.wide, b.high)
}

// drawingScale is the least of 1, 2, 5, 10, 20 … that is no less than what is
// needed: the scales of ISO 5455, carried on both ways (from memory), and 1 : 25
// between them (common practice, no source).
func drawingScale(least float64) float64 {
	power := math.Pow(10, math.Floor(math.Log10(max(least, 1e-9))))
	for _, step := range []float64{1, 2, 2.5, 5, 10} {
		if power*step >= least*(1-1e-9) {
			return power * step
		}
	}
	return power * 10
}

// ratio prints a scale.
func ratio(scale float64) string {
	if scale < 1 {
		return strconv.FormatFloat(1/scale, 'g', 4, 64) + " : 1"
	}
	return "1 : " + strconv.FormatFloat(scale, 'g', 6, 64)
}
