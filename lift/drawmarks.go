package lift

import (
	"fmt"
	"math"
	"strings"

	"github.com/go-gl/mathgl/mgl64"

	"plumbhook/geom"
	"plumbhook/units"
)

// board puts marks on one drawing, and keeps labels off one another.
type board struct {
	paper
	scene
	view  geom.View
	out   []Mark
	taken []area // of labels that stand
}

// area is a rectangle on paper, mm.
type area struct{ left, foot, right, top float64 }

func (a area) meets(b area) bool {
	return a.left < b.right && b.left < a.right && a.foot < b.top && b.foot < a.top
}

// at is where a place in the load's axes falls on the paper.
func (b *board) at(p geom.Vec) mgl64.Vec2 { return b.on(b.view.On(p)) }

func (b *board) add(m Mark) { b.out = append(b.out, m) }

// marks draws all but the parts.
func (b *board) marks(name string, hung bool) {
	b.region(name, hung)
	b.rigging(name)
	b.cg()
	b.picks()
	if !hung && name != "isometric" {
		b.sizes(name)
	}
	b.scaleBar()
}

// region draws where the CG can be, in plan, if it is large enough to be seen.
func (b *board) region(name string, hung bool) {
	if name != "plan" || hung || len(b.weight.CGRegion.PlanM) < 3 {
		return
	}
	var ring []mgl64.Vec2
	for _, c := range b.weight.CGRegion.PlanM {
		ring = append(ring, b.at(geom.Vec{c[0], c[1], b.weight.CGM[2]}))
	}
	b.add(Mark{Kind: "area", Of: ofRegion, At: ring})
}

// rigging draws legs and hook, with what each leg carries.
func (b *board) rigging(name string) {
	if !b.legs.Solved {
		return
	}
	hook := b.at(b.legs.HookM)
	for _, leg := range b.legs.Legs {
		from := b.at(leg.AtM)
		b.add(Mark{Kind: "line", Of: ofLeg, At: []mgl64.Vec2{from, hook}, Part: leg.Pick})
	}
	b.add(Mark{Kind: "circle", Of: ofHook, At: []mgl64.Vec2{hook}, Radius: 1.6})
	if name != "plan" {
		b.add(Mark{Kind: "line", Of: ofPlumb, At: []mgl64.Vec2{hook, b.at(b.weight.CGM)}})
		b.label(hook, "hook", ofHook, "")
	}
	for _, leg := range b.legs.Legs {
		from := b.at(leg.AtM)
		text := fmt.Sprintf("%s %s", leg.Pick, units.Force(leg.WorstTensionKN*1000).FormatUp(b.show))
		if leg.Slack {
			text = leg.Pick + " slack"
		}
		if name == "front" || name == "side" {
			text += fmt.Sprintf(", %.1f° from horizontal (%.1f° from vertical)", leg.FromHorizontalDeg, leg.FromVerticalDeg)
		}
		b.label(from.Mul(0.55).Add(hook.Mul(0.45)), text, ofLeg, leg.Pick)
	}
}

// cg draws the mark of the CG: a circle, two opposite quarters of it filled.
func (b *board) cg() {
	c := b.at(b.weight.CGM)
	const radius = 2.2
	b.add(Mark{Kind: "circle", Of: ofCG, At: []mgl64.Vec2{c}, Radius: radius})
	for _, from := range []float64{0, math.Pi} {
		quarter := []mgl64.Vec2{c}
		for i := range 7 {
			sin, cos := math.Sincos(from + math.Pi/2*float64(i)/6)
			quarter = append(quarter, c.Add(mgl64.Vec2{cos, sin}.Mul(radius)))
		}
		b.add(Mark{Kind: "area", Of: ofCG, At: quarter})
	}
	b.label(c, "CG", ofCG, "")
}

// picks draws the places where the legs take hold.
func (b *board) picks() {
	for _, leg := range b.legs.Legs {
		p := b.at(leg.AtM)
		b.add(Mark{Kind: "circle", Of: ofPick, At: []mgl64.Vec2{p}, Radius: 1.1, Part: leg.Pick})
	}
}

// sizes draws tape distances from the load's outer edges to the CG and to each
// pick: below and to the left in plan, to the left in an elevation.
func (b *board) sizes(name string) {
	box := b.weight.BoxM
	corner := b.at(geom.Vec{box.Min[0], box.Min[1], box.Min[2]})
	across := map[string]int{"plan": 0, "front": 0, "side": 1}[name]
	up := map[string]int{"plan": 1, "front": 2, "side": 2}[name]
	var level, tall []float64 // from the edge, m
	for _, p := range append([]geom.Vec{b.weight.CGM}, b.pickPlaces()...) {
		level = addNew(level, p[across]-box.Min[across])
		tall = addNew(tall, p[up]-box.Min[up])
	}
	by := 1000 / b.scale
	for i, m := range level[:min(len(level), 3)] {
		y := corner[1] - 6 - 4.6*float64(i)
		b.size(mgl64.Vec2{corner[0], y}, mgl64.Vec2{corner[0] + m*by, y}, m, false)
	}
	for i, m := range tall[:min(len(tall), 3)] {
		x := corner[0] - 5 - 4.6*float64(i)
		b.size(mgl64.Vec2{x, corner[1]}, mgl64.Vec2{x, corner[1] + m*by}, m, true)
	}
}

// addNew adds a distance unless one as good as the same is there.
func addNew(list []float64, m float64) []float64 {
	for _, have := range list {
		if math.Abs(have-m) < 0.0005 {
			return list
		}
	}
	return append(list, m)
}

func (b *board) pickPlaces() []geom.Vec {
	var out []geom.Vec
	for _, leg := range b.legs.Legs {
		out = append(out, leg.AtM)
	}
	return out
}

// size draws one distance, with arrows and its figure.
func (b *board) size(from, to mgl64.Vec2, m float64, upright bool) {
	if to.Sub(from).Len() < 0.5 {
		return
	}
	b.add(Mark{Kind: "line", Of: ofSize, At: []mgl64.Vec2{from, to}, Arrows: true})
	text := units.Length(m).Format(b.show)
	if upright {
		at := mgl64.Vec2{from[0] - 1, (from[1] + to[1]) / 2}
		b.write(at, text, ofSize, "", "right")
		return
	}
	b.write(mgl64.Vec2{to[0] + 1.5, to[1] - letters/2 + 0.3}, text, ofSize, "", "left")
}

// scaleBar draws a bar of a round length in the lower right corner.
func (b *board) scaleBar() {
	m := niceScale(b.scale / 1000 * 20) // about 20 mm on paper
	long := m * 1000 / b.scale
	right, y := b.wide-6, 5.0
	b.add(Mark{Kind: "line", Of: ofScale, At: []mgl64.Vec2{{right - long, y + 1}, {right - long, y}, {right, y}, {right, y + 1}}})
	b.write(mgl64.Vec2{right - long - 1.5, y}, fmt.Sprintf("1 : %g   %s", b.scale, units.Length(m).Format(b.show)), ofScale, "", "right")
}

// width of a text on paper, mm: letters of the sheet's face are about half as wide
// as they are high.
func width(text string) float64 { return 0.52 * letters * float64(len([]rune(text))) }

func textArea(at mgl64.Vec2, text, align string) area {
	left := at[0]
	switch align {
	case "right":
		left -= width(text)
	case "middle":
		left -= width(text) / 2
	}
	return area{left, at[1] - 0.3*letters, left + width(text), at[1] + letters}
}

// write puts a text where it is said to stand.
func (b *board) write(at mgl64.Vec2, text, of, part, align string) {
	b.taken = append(b.taken, textArea(at, text, align))
	b.add(Mark{Kind: "text", Of: of, At: []mgl64.Vec2{at}, Text: text, Size: letters, Align: align, Part: part})
}

// label puts a text near a place, the nearest of several places at which it meets
// no other text and stays on the paper, with a thin line back if it is far off.
func (b *board) label(to mgl64.Vec2, text, of, part string) {
	best, bestAlign, bestCost := to, "left", math.Inf(1)
	for ring := 0; ring < 7; ring++ {
		away := 3 + 4*float64(ring)
		for k := range 8 {
			sin, cos := math.Sincos(math.Pi/4*float64(k) + 0.3)
			at := to.Add(mgl64.Vec2{cos, sin}.Mul(away))
			align := "left"
			if cos < 0 {
				align = "right"
			}
			if cost := b.cost(textArea(at, text, align)) + away/100; cost < bestCost {
				best, bestAlign, bestCost = at, align, cost
			}
		}
	}
	if best.Sub(to).Len() > 8 {
		b.add(Mark{Kind: "line", Of: ofLabel, At: []mgl64.Vec2{to, best}})
	}
	b.write(best, text, of, part, bestAlign)
}

// cost of a label there: texts that it would cover, and what is off the paper.
func (b *board) cost(a area) float64 {
	cost := 0.0
	for _, t := range b.taken {
		if a.meets(t) {
			cost++
		}
	}
	if a.left < 1 || a.foot < 1 || a.right > b.wide-1 || a.top > b.high-1 {
		cost += 2
	}
	return cost
}

// words tells the drawing to those who can't see it.
func (b *board) words(title, name string) string {
	text := title + fmt.Sprintf(", scale 1 to %g. The load is %s long in x, %s in y and %s high. The CG is %s, %s and %s from its least corner.", b.scale,
		b.length(b.weight.BoxM.Max[0]-b.weight.BoxM.Min[0]), b.length(b.weight.BoxM.Max[1]-b.weight.BoxM.Min[1]), b.length(b.weight.BoxM.Max[2]-b.weight.BoxM.Min[2]),
		b.length(b.weight.CGM[0]-b.weight.BoxM.Min[0]), b.length(b.weight.CGM[1]-b.weight.BoxM.Min[1]), b.length(b.weight.CGM[2]-b.weight.BoxM.Min[2]))
	var legs []string
	for _, leg := range b.legs.Legs {
		legs = append(legs, fmt.Sprintf("%s %s at worst", leg.Pick, units.Force(leg.WorstTensionKN*1000).FormatUp(b.show)))
	}
	if len(legs) > 0 {
		text += " Legs: " + strings.Join(legs, ", ") + "."
	}
	return text
}

func (b *board) length(m float64) string { return units.Length(m).Format(b.show) }
