package report

import (
	"math"
	"slices"
	"strings"

	"github.com/go-gl/mathgl/mgl64"
	"github.com/go-pdf/fpdf"

	"plumbhook/lift"
)

// Drawings on page 1 are reduced. Their names are set anew, in letters that can be
// read; forces and angles stand in the tables beside them.
const nameSize = 2.2 // mm, of letters

// reduced chooses the largest usual scale at which a drawing fits in a room,
// without what it leaves round it for longer labels, and no larger than 1 : least.
func (d *leaf) reduced(g lift.Drawing, wide, high, least float64) briefed {
	for scale := max(g.Scale, least); ; scale = nextScale(scale) {
		b := d.briefed(g, g.Scale/scale)
		b.scale = scale
		if b.size[0] <= wide && b.size[1] <= high || scale > g.Scale*1e4 {
			return b
		}
	}
}

// captionHigh is how high what stands under a reduced drawing is, mm.
var captionHigh = 2*faceSmall.high() + 1

// setBrief sets a reduced drawing on the line y, and its title and scale under it.
func (d *leaf) setBrief(b briefed, x, y, wide float64) {
	d.drawing(b.Drawing, placed{x: x + (wide-b.size[0])/2, y: y, factor: b.factor, low: b.low})
	y += 0.5
	d.put(x, y, wide, b.Title, faceSmall, "C")
	y += faceSmall.high()
	text := ratio(b.scale) + "    " + b.barText
	long := b.bar * b.factor
	start := x + (wide-long-2-d.width(text, faceSmall))/2
	d.put(start, y, wide, text, faceSmall, "L")
	start += d.width(text, faceSmall) + 2
	d.stroke(markPens["scale"].wide)
	d.polyline([]fpdf.PointType{{X: start, Y: y + 1.2}, {X: start, Y: y + 2.2}, {X: start + long, Y: y + 2.2}, {X: start + long, Y: y + 1.2}})
}

// scaleBar is how long the scale bar of a drawing is, mm, and what it stands for.
func scaleBar(g lift.Drawing) (long float64, length string) {
	for _, m := range g.Marks {
		switch {
		case m.Of != "scale":
		case m.Kind == "text":
			_, length, _ = strings.Cut(m.Text, "the bar is ")
		default:
			least, most := m.At[0][0], m.At[0][0]
			for _, p := range m.At {
				least, most = min(least, p[0]), max(most, p[0])
			}
			long = most - least
		}
	}
	return long, length
}

// briefed is a drawing with the short names of page 1.
type briefed struct {
	lift.Drawing
	factor, scale float64
	low, size     mgl64.Vec2 // lower left corner in the drawing's mm; size on paper
	bar           float64    // of the scale, mm before it is reduced, and what it stands for
	barText       string
	taken         [][4]float64
}

// notBriefed are the marks that a reduced drawing has no room for.
// Sizes can't be read so small: they stand on the drawings that follow.
var notBriefed = []string{"scale", "label", "title", "note", "axis", "size"}

// briefed leaves out scale bar, sizes, long labels and the lines that lead to them, and
// sets the names of picks, hook and CG where there is room for them.
func (d *leaf) briefed(g lift.Drawing, factor float64) briefed {
	b := briefed{Drawing: g, factor: factor}
	b.Marks = nil
	b.bar, b.barText = scaleBar(g)
	var names []lift.Mark
	for _, m := range g.Marks {
		switch {
		case slices.Contains(notBriefed, m.Of):
		case m.Kind == "text" && m.Of == "leg": // it has the name of its pick; what it carries stands in the table
		case m.Kind == "text":
			if i := slices.IndexFunc(names, func(n lift.Mark) bool { return n.Of == m.Of && n.Part == m.Part }); i < 0 {
				names = append(names, m) // the first line of a label, the rest stands in the tables
			}
		default:
			b.Marks = append(b.Marks, m)
			if m.Kind == "circle" { // no name over it
				p, r := m.At[0].Mul(factor), m.Radius*max(factor, leastCircle)
				b.taken = append(b.taken, [4]float64{p[0] - r, p[1] - r, p[0] + r, p[1] + r})
			}
		}
	}
	for _, m := range names {
		b.name(d, m)
	}
	b.extent(d)
	return b
}

func (b *briefed) add(d *leaf, m lift.Mark) {
	b.Marks, b.taken = append(b.Marks, m), append(b.taken, b.room(d, m))
}

// room is what a text takes up on paper: left, foot, right and top in mm.
func (b *briefed) room(d *leaf, m lift.Mark) [4]float64 {
	p := m.At[0].Mul(b.factor)
	long := d.width(m.Text, face{sans, "", m.Size / point})
	switch m.Align {
	case "right":
		p[0] -= long
	case "middle":
		p[0] -= long / 2
	}
	return [4]float64{p[0], p[1] - 0.25*m.Size, p[0] + long, p[1] + 0.85*m.Size}
}

// name sets a name at the first of several places at which it covers no other
// text; if there is none it is left out, as the drawing follows at its own scale.
func (b *briefed) name(d *leaf, m lift.Mark) {
	m.Size = nameSize
	for _, at := range b.anchors(m) {
		for k := range 8 {
			sin, cos := math.Sincos(math.Pi/4*float64(k) + 0.4)
			try := m
			try.At = []mgl64.Vec2{at.Add(mgl64.Vec2{cos * 2, sin*2.4 - nameSize*0.35}.Mul(1 / b.factor))}
			try.Align = "left"
			if cos < 0 {
				try.Align = "right"
			}
			if !b.covered(b.room(d, try)) {
				b.add(d, try)
				return
			}
		}
	}
}

// anchors are the places that a name may stand beside: the mark that it names.
func (b *briefed) anchors(m lift.Mark) []mgl64.Vec2 {
	for _, other := range b.Marks {
		if other.Of == m.Of && other.Part == m.Part && other.Kind == "circle" {
			return other.At
		}
	}
	return m.At
}

func (b *briefed) covered(a [4]float64) bool {
	return slices.ContainsFunc(b.taken, func(t [4]float64) bool {
		return a[0] < t[2] && t[0] < a[2] && a[1] < t[3] && t[1] < a[3]
	})
}

// extent finds what the drawing takes up.
func (b *briefed) extent(d *leaf) {
	least, most := mgl64.Vec2{math.Inf(1), math.Inf(1)}, mgl64.Vec2{math.Inf(-1), math.Inf(-1)}
	reach := func(left, foot, right, top float64) {
		least = mgl64.Vec2{min(least[0], left), min(least[1], foot)}
		most = mgl64.Vec2{max(most[0], right), max(most[1], top)}
	}
	for _, m := range b.Marks {
		if m.Kind == "text" {
			r := b.room(d, m)
			reach(r[0], r[1], r[2], r[3])
			continue
		}
		for _, p := range m.At {
			p = p.Mul(b.factor)
			reach(p[0]-m.Radius, p[1]-m.Radius, p[0]+m.Radius, p[1]+m.Radius)
		}
	}
	b.low, b.size = least.Mul(1/b.factor), most.Sub(least)
}
