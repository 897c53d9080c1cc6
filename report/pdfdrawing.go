package report

import (
	"fmt"
	"math"
	"slices"

	"github.com/go-gl/mathgl/mgl64"
	"github.com/go-pdf/fpdf"

	"plumbhook/lift"
)

// markPen is how the outline of a mark is drawn, in mm on paper. No two differ by
// colour: a copy in black and white says the same.
type markPen struct {
	wide   float64
	dashes []float64
}

var markPens = map[string]markPen{
	"part": {0.25, nil}, "hole": {0.18, []float64{1, 0.7}}, "leg": {0.5, nil}, "pick": {0.3, nil},
	"hook": {0.6, nil}, "cg": {0.3, nil}, "region": {0.2, nil}, "plumb": {0.18, []float64{3, 0.8, 0.6, 0.8}},
	"size": {0.13, nil}, "scale": {0.4, nil}, "label": {0.1, nil}, "axis": {0.13, nil}, "ground": {0.7, nil}, "bar": {1, nil},
	"curve": {0.5, nil}, "second": {0.5, []float64{2.4, 1.2}}, "point": {0.3, nil}, "limit": {0.3, []float64{0.5, 0.9}},
}

// placed is a drawing on a page: reduced by a factor, its lower left corner there.
type placed struct {
	x, y   float64 // mm from the upper left corner of the page
	factor float64
	low    mgl64.Vec2 // what of the drawing falls on that corner, mm
}

func (at placed) on(p mgl64.Vec2) fpdf.PointType {
	return fpdf.PointType{X: at.x + (p[0]-at.low[0])*at.factor, Y: at.y - (p[1]-at.low[1])*at.factor}
}

// drawing renders the marks: lines first, texts on top of them.
func (d *leaf) drawing(g lift.Drawing, at placed) {
	for _, m := range g.Marks {
		if m.Kind != "text" {
			d.mark(m, at)
		}
	}
	for _, m := range g.Marks {
		if m.Kind == "text" {
			d.lettering(m, at)
		}
	}
	d.stroke(0.2)
}

func (d *leaf) mark(m lift.Mark, at placed) {
	stroke, known := markPens[m.Of]
	if !known {
		stroke = markPen{wide: 0.2}
	}
	wide := stroke.wide
	if m.Of == "part" || m.Of == "hole" {
		wide *= max(min(at.factor, 1), 0.5) // edges that come closer get finer
	}
	d.stroke(wide)
	d.f.SetDashPattern(stroke.dashes, 0)
	var places []fpdf.PointType
	for _, p := range m.At {
		places = append(places, at.on(p))
	}
	switch m.Kind {
	case "circle":
		d.f.SetFillColor(255, 255, 255)
		d.f.Circle(places[0].X, places[0].Y, m.Radius*max(at.factor, leastCircle), "FD")
	case "area":
		d.area(m, places)
	default:
		d.polyline(places)
		if m.Arrows && len(places) > 1 {
			d.arrow(places[1], places[0])
			d.arrow(places[len(places)-2], places[len(places)-1])
		}
	}
}

func (d *leaf) polyline(places []fpdf.PointType) {
	if len(places) < 2 {
		return
	}
	d.f.SetLineJoinStyle("round")
	d.f.MoveTo(places[0].X, places[0].Y)
	for _, p := range places[1:] {
		d.f.LineTo(p.X, p.Y)
	}
	d.f.DrawPath("D")
}

// leastCircle is as far as circles are reduced with their drawing.
const leastCircle = 0.6

// area fills the mark of the CG, and hatches any other.
func (d *leaf) area(m lift.Mark, places []fpdf.PointType) {
	if len(places) < 3 {
		return
	}
	if m.Of == "cg" || m.Of == "axis" || m.Of == "size" || m.Of == "point" {
		d.f.Polygon(places, "F")
		return
	}
	const step = 1.0 // mm
	low, high := places[0], places[0]
	for _, p := range places {
		low = fpdf.PointType{X: min(low.X, p.X), Y: min(low.Y, p.Y)}
		high = fpdf.PointType{X: max(high.X, p.X), Y: max(high.Y, p.Y)}
	}
	d.f.ClipPolygon(places, false)
	d.f.SetLineWidth(0.1)
	tall := high.Y - low.Y
	for x := low.X - tall; x < high.X; x += step {
		d.f.Line(x, high.Y, x+tall, low.Y)
	}
	d.f.ClipEnd()
	d.f.SetLineWidth(markPens["region"].wide)
	d.f.Polygon(places, "D")
}

// arrow draws a head at the end of a line.
func (d *leaf) arrow(from, to fpdf.PointType) {
	const long, half = 1.6, 0.35 // mm
	run, rise := to.X-from.X, to.Y-from.Y
	far := math.Hypot(run, rise)
	if far < 2*long {
		return
	}
	run, rise = run/far, rise/far
	x, y := to.X-run*long, to.Y-rise*long
	d.f.Polygon([]fpdf.PointType{to, {X: x - rise*half, Y: y + run*half}, {X: x + rise*half, Y: y - run*half}}, "F")
}

// lettering sets a text of a drawing on white, so that no line runs through it.
func (d *leaf) lettering(m lift.Mark, at placed) {
	text, size := m.Text, m.Size
	s := face{sans, "", size / point}
	p := at.on(m.At[0])
	wide := d.width(text, s)
	switch m.Align {
	case "right":
		p.X -= wide
	case "middle":
		p.X -= wide / 2
	}
	if m.Turn == 0 {
		p.X = max(d.left, min(p.X, d.left+textWide-wide)) // on the page, whatever it names
	} else { // it reads upward
		turned := at.on(m.At[0])
		d.f.TransformBegin()
		defer d.f.TransformEnd()
		d.f.TransformRotate(m.Turn, turned.X, turned.Y)
	}
	d.f.SetFillColor(255, 255, 255)
	d.f.Rect(p.X-0.2, p.Y-size*0.78, wide+0.4, size, "F")
	d.use(s)
	d.f.Text(p.X, p.Y, d.known(text))
}

// drawings sets all drawings at their scale, as many on a page as go there.
func (d *leaf) drawings() {
	all := slices.Concat(d.s.Drawings, d.s.Plots)
	if len(all) == 0 {
		return
	}
	d.heading("DRAWINGS")
	d.flow(0, "To the scales that they name, printed without fitting to the page; the bar tells. Forces are the worst of each leg. Sizes run from the load's outermost edges to the CG and to the picks. Hatched: where the CG may be; dashed: openings; dash and dot: the plumb line.", faceSmall)
	for _, g := range all {
		g.Marks = slices.DeleteFunc(slices.Clone(g.Marks), func(m lift.Mark) bool { return m.Of == "title" })
		foot, high := d.inked(g)
		d.need(high + faceStrong.high() + 6)
		d.y += 3
		d.use(faceStrong)
		d.f.Bookmark(d.known(g.Title), 1, d.y)
		title := g.Title
		if g.Scale > 0 {
			title += ", scale " + ratio(g.Scale)
		}
		d.flow(0, title, faceStrong)
		d.y += 2
		d.drawing(g, placed{x: d.left + (textWide-g.Wide)/2, y: d.y + high, factor: 1, low: mgl64.Vec2{0, foot}})
		d.y += high
	}
}

// inked is where the marks of a drawing begin from below, and how high they reach
// above that, mm: what it leaves blank round it needs no paper.
func (d *leaf) inked(g lift.Drawing) (foot, high float64) {
	foot, top := math.Inf(1), math.Inf(-1)
	for _, m := range g.Marks {
		for _, p := range m.At {
			foot, top = min(foot, p[1]-max(m.Radius, 0.25*m.Size)), max(top, p[1]+max(m.Radius, m.Size))
		}
	}
	if foot > top {
		return 0, 0
	}
	return foot, top - foot
}

func ratio(scale float64) string { return fmt.Sprintf("1 : %g", scale) }

// usualScales are the steps of scales, times powers of ten.
var usualScales = []float64{1, 1.25, 1.5, 2, 2.5, 3, 4, 5, 6, 7.5, 10}

// nextScale is the usual scale that is next smaller.
func nextScale(scale float64) float64 {
	power := math.Pow(10, math.Floor(math.Log10(scale*(1+1e-9))))
	for _, step := range usualScales {
		if step*power > scale*(1+1e-9) {
			return step * power
		}
	}
	return 10 * power
}
