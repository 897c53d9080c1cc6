package lift

import (
	"math"

	"github.com/go-gl/mathgl/mgl64"
)

// otherUnit counts an axis in another unit, with ticks of its own.
type otherUnit struct {
	per   float64 // of the axis's unit, one of these
	name  string
	first string // the axis's own unit, where the two stand one under the other
}

// Room for the other units, mm.
const (
	underHigh = 9.0
	rightWide = 9.0
)

// spot is a place on a plot that has a meaning of its own.
type spot struct {
	at    mgl64.Vec2 // in the units of the axes
	shape string     // ring, cross or diamond: told apart without colour
	lines []string   // written beside it; none: the key says what it is
}

// rule is a line across the plot at one value, with what is so there.
type rule struct {
	level bool // at a value of the upward axis; false: of the one across
	at    float64
	of    string
	lines []string
}

// keyed is a line of the key: what a shape means.
type keyed struct{ shape, text string }

// spotRadius is half the size of a shape, mm.
const spotRadius = 0.9

// turnScale is the axis of a turn: ticks at angles that people count in.
func turnScale(low, high float64) (from, to, step float64) {
	for _, step = range []float64{1, 2, 5, 10, 15, 30, 45} {
		if (high-low)/step <= 10+1e-9 {
			break
		}
	}
	return math.Floor(low/step+1e-9) * step, math.Ceil(high/step-1e-9) * step, step
}

// otherUnits counts the axes in other units too: under the first, or to the
// right.
func (p plot) otherUnits(b *board, f plotFrame) {
	if u := p.under; u != nil {
		y := f.foot - underHigh
		b.line(ofScale, mgl64.Vec2{f.left, y}, mgl64.Vec2{f.right, y})
		for _, v := range u.ticks(f.low[0], f.high[0]) {
			at := mgl64.Vec2{f.on(mgl64.Vec2{v * u.per, 0})[0], y}
			b.line(ofScale, at, at.Add(mgl64.Vec2{0, 1}))
			b.write(at.Sub(mgl64.Vec2{0, 3.4}), tick(v), ofScale, "middle")
		}
		b.write(mgl64.Vec2{f.left - 7, f.foot - 4}, u.first, ofScale, "right")
		b.write(mgl64.Vec2{f.left - 7, y - 3.4}, u.name, ofScale, "right")
	}
	if u := p.right; u != nil {
		b.line(ofScale, mgl64.Vec2{f.right, f.top}, mgl64.Vec2{f.right, f.foot})
		for _, v := range u.ticks(f.low[1], f.high[1]) {
			at := mgl64.Vec2{f.right, f.on(mgl64.Vec2{0, v * u.per})[1]}
			b.line(ofScale, at, at.Add(mgl64.Vec2{1, 0}))
			b.write(at.Add(mgl64.Vec2{1.8, -1}), tick(v), ofScale, "left")
		}
		b.write(mgl64.Vec2{f.right + rightWide + plotRight - 2, f.top + 3.5}, u.name, ofScale, "right")
	}
}

// ticks are the values from low to high, in the axis's unit, at which the other
// unit is round.
func (u otherUnit) ticks(low, high float64) []float64 {
	var out []float64
	from, _, step := scaleOf(low/u.per, high/u.per)
	for i := 0.0; (from+i*step)*u.per <= high+1e-9*(high-low); i++ {
		if v := from + i*step; v*u.per >= low-1e-9*(high-low) {
			out = append(out, v)
		}
	}
	return out
}

// rulesOn draws the lines across the plot; their names can stand anywhere along
// them.
func (p plot) rulesOn(b *board, f plotFrame) []label {
	var names []label
	for _, r := range p.rules {
		from, to := f.on(mgl64.Vec2{r.at, f.low[1]}), f.on(mgl64.Vec2{r.at, f.high[1]})
		if r.level {
			from, to = f.on(mgl64.Vec2{f.low[0], r.at}), f.on(mgl64.Vec2{f.high[0], r.at})
		}
		b.line(r.of, from, to)
		l := label{lines: r.lines, of: ofScale}
		for i := range 17 {
			l.to = append(l.to, from.Add(to.Sub(from).Mul((float64(i)+2)/20)))
		}
		if len(r.lines) > 0 {
			names = append(names, l)
		}
	}
	return names
}

// spotsOn draws the spots and the key, and returns what is to be written beside
// the spots.
func (p plot) spotsOn(b *board, f plotFrame) []label {
	var names []label
	for _, s := range p.spots {
		at := f.on(s.at)
		b.shape(s.shape, at)
		if len(s.lines) > 0 {
			names = append(names, label{to: []mgl64.Vec2{at}, lines: s.lines, of: ofScale})
		}
	}
	x := f.right
	for i := len(p.key) - 1; i >= 0; i-- {
		k := p.key[i]
		x -= textWidth(k.text, letters)
		b.write(mgl64.Vec2{x, f.top + 8.5}, k.text, ofScale, "left")
		x -= 2.2
		b.shape(k.shape, mgl64.Vec2{x, f.top + 9.4})
		x -= 4
	}
	return names
}

// shape draws one of the shapes that tell spots apart.
func (b *board) shape(shape string, at mgl64.Vec2) {
	const r = spotRadius
	corner := func(x, y float64) mgl64.Vec2 { return at.Add(mgl64.Vec2{x, y}) }
	switch shape {
	case "ring":
		b.add(Mark{Kind: "circle", Of: ofPoint, At: []mgl64.Vec2{at}, Radius: r})
	case "cross":
		b.line(ofPoint, corner(-r, -r), corner(r, r))
		b.line(ofPoint, corner(-r, r), corner(r, -r))
	case "diamond":
		b.add(Mark{Kind: "area", Of: ofPoint, At: []mgl64.Vec2{corner(-1.5*r, 0), corner(0, 1.5*r), corner(1.5*r, 0), corner(0, -1.5*r)}})
	case "square":
		b.add(Mark{Kind: "area", Of: ofPoint, At: []mgl64.Vec2{corner(-r, -r), corner(-r, r), corner(r, r), corner(r, -r)}})
	}
}

// cutLines takes out of the grid, and of the lines across it, what runs through
// texts.
func (b *board) cutLines() {
	var texts []area
	for _, m := range b.out {
		if m.Kind == "text" {
			texts = append(texts, textArea(m).grown(0.3))
		}
	}
	var out []Mark
	for _, m := range b.out {
		if m.Kind != "line" || len(m.At) != 2 || m.Of != ofSize && m.Of != ofLimit && m.Of != ofPlumb {
			out = append(out, m)
			continue
		}
		for _, piece := range leftOf(m.At[0], m.At[1], texts) {
			out = append(out, Mark{Kind: "line", Of: m.Of, At: piece[:]})
		}
	}
	b.out = out
}

// leftOf are the pieces of a level or plumb line that no area covers.
func leftOf(from, to mgl64.Vec2, areas []area) [][2]mgl64.Vec2 {
	along := 0
	if from[0] == to[0] {
		along = 1
	}
	pieces := [][2]mgl64.Vec2{{from, to}}
	for _, a := range areas {
		low, high := mgl64.Vec2{a.left, a.foot}, mgl64.Vec2{a.right, a.top}
		if from[1-along] <= low[1-along] || from[1-along] >= high[1-along] {
			continue
		}
		var next [][2]mgl64.Vec2
		for _, p := range pieces {
			before, after := p, p
			before[1][along], after[0][along] = min(p[1][along], low[along]), max(p[0][along], high[along])
			for _, piece := range [][2]mgl64.Vec2{before, after} {
				if piece[1][along] > piece[0][along] {
					next = append(next, piece)
				}
			}
		}
		pieces = next
	}
	return pieces
}
