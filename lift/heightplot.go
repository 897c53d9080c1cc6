package lift

import (
	"fmt"
	"math"
	"strings"

	"github.com/go-gl/mathgl/mgl64"

	"plumbhook/units"
)

// heightPlot draws the worst tension of any leg against the height of the hook:
// where a size of sling is saved, which heights won't do, and where the lift is
// planned. Nil where fewer than two heights were worked out.
//
// Between the heights worked out the line is straight. At one load, W/(n·sin θ)
// bends upward over the height, h/√(h² + r²) being sin θ, so that the line lies
// above it (derived here).
func heightPlot(c *HeightCurve, legs Hanging, show units.Show) []Drawing {
	if c == nil || len(c.Rows) < 2 {
		return nil
	}
	p, force, height := newHeightPlot(c, show)
	var line curve
	for i, row := range c.Rows {
		at := mgl64.Vec2{row.HookM / height, row.WorstTensionKN * 1000 / force}
		line.at = append(line.at, at)
		shape := "ring"
		if !row.Acceptable {
			shape = "cross"
		}
		p.spots = append(p.spots, spot{at: at, shape: shape})
		if i == 0 || row.Size != c.Rows[i-1].Size {
			p.sizeFrom(c, i, height, show)
		}
	}
	p.curves = []curve{line}
	p.planned(legs, force, height, show)
	p.keyOf()
	p.note = "legs cut to suit; sizes of " + strings.TrimRight(strings.ReplaceAll(c.Family, "_", " ")+", "+c.Material, ", ")
	first, last := c.Rows[0], c.Rows[len(c.Rows)-1]
	p.words = fmt.Sprintf("With the hook %s over the highest pick a leg carries up to %s; at %s up to %s. %s", units.Length(first.HookM).Format(show),
		units.Force(first.WorstTensionKN*1000).FormatUp(show), units.Length(last.HookM).Format(show), units.Force(last.WorstTensionKN*1000).FormatUp(show), p.words)
	return []Drawing{p.draw()}
}

// newHeightPlot has the axes: newtons and metres that one of their units is.
func newHeightPlot(c *HeightCurve, show units.Show) (p plot, force, height float64) {
	p = plot{title: "Worst tension of a leg against the height of the hook", fitted: true,
		across: "hook over the highest pick, m", upward: "worst leg, kN (axis not from 0)"}
	if show == units.US {
		p.across, p.upward = "hook over the highest pick, ft", "worst leg, lbf (axis not from 0)"
		return p, float64(units.PoundForce), float64(units.Foot)
	}
	if show == units.Both {
		p.across = "hook over the highest pick"
		p.under = &otherUnit{per: float64(units.Foot), name: "ft", first: "m"}
		p.right = &otherUnit{per: float64(units.PoundForce) / 1000, name: "lbf"}
	}
	return p, 1000, 1
}

// sizeFrom marks the height from which another size of sling does.
func (p *plot) sizeFrom(c *HeightCurve, i int, height float64, show units.Show) {
	row := c.Rows[i]
	text, at := row.Size, units.Length(row.HookM).Format(show)
	switch {
	case row.Size == "":
		text = "no size is large enough"
	case i > 0 && c.Rows[i-1].Size != "":
		text += " in place of " + c.Rows[i-1].Size
	}
	p.words += fmt.Sprintf("From %s on: %s. ", at, text)
	p.rules = append(p.rules, rule{at: row.HookM / height, of: ofLimit, lines: []string{text + ",", "from " + at}})
}

// planned marks the height and the tension of the lift as it is described.
func (p *plot) planned(legs Hanging, force, height float64, show units.Show) {
	if !legs.Solved || legs.Posed == nil {
		return
	}
	over, worst := math.Inf(1), 0.0
	for i, leg := range legs.Legs {
		over = min(over, legs.HookM.Sub(leg.AtM).Dot(legs.Up))
		worst = max(worst, legs.atLiftOff(i))
	}
	at, tension := units.Length(over).Format(show), units.Force(worst*1000).FormatUp(show)
	p.rules = append(p.rules, rule{at: over / height, of: ofPlumb})
	p.spots = append(p.spots, spot{at: mgl64.Vec2{over / height, worst * 1000 / force}, shape: "diamond", lines: []string{"as planned: " + tension, "at " + at}})
	p.words += fmt.Sprintf("As planned: %s over the highest pick, %s. ", at, tension)
}

// keyOf says what the shapes mean, of those that are there.
func (p *plot) keyOf() {
	for _, k := range []keyed{{"ring", "worked out, straight between"}, {"cross", "not acceptable there"}, {"diamond", "as planned"}} {
		for _, s := range p.spots {
			if s.shape == k.shape {
				p.key = append(p.key, k)
				break
			}
		}
	}
}
