package lift

import (
	"fmt"
	"math"
	"strings"

	"github.com/go-gl/mathgl/mgl64"

	"plumbhook/geom"
)

// marks draws all but the parts: lines first, then the labels in what room is
// left, those with least choice first.
func (b *board) marks(title string) {
	b.titles(title)
	b.axes()
	b.scaleBar()
	if b.elevation() && !b.hung {
		b.ground()
	}
	b.region()
	b.rigging()
	b.cg()
	labels := b.sizes()
	if b.hung && b.elevation() {
		labels = append(labels, b.hangingLines()...)
	}
	labels = append(labels, b.pickLabels()...)
	labels = append(labels, b.cgLabel())
	labels = append(labels, b.legLabels()...)
	b.placeAll(labels)
}

func (b *board) titles(title string) {
	at := mgl64.Vec2{4, b.high - 6}
	b.add(Mark{Kind: "text", Of: ofTitle, At: []mgl64.Vec2{at}, Text: title, Size: heading, Align: "left"})
	for i, note := range b.notes {
		b.write(mgl64.Vec2{at[0], at[1] - 4.8 - 3.6*float64(i)}, note, ofNote, "left")
	}
}

// noteTexts say what the view shows and what it does not.
func (b *board) noteTexts() []string {
	var out []string
	if len(b.across) > 0 {
		out = append(out, "Distances are from the load's outermost edges, heights from its underside.")
	}
	if b.hung && b.elevation() {
		out = append(out, "Heights are from the lowest corner of the load's box.")
	}
	switch {
	case b.legs.TwoHooks != nil:
		out = append(out, "It hangs on two hooks: which pick is on which, and what each carries at each angle, the table of the hooks tells.")
	case !b.legs.Solved:
		out = append(out, "No pose was found in which it hangs: no legs are drawn.")
	case !b.asItHangs() && b.legs.Attitude != nil:
		out = append(out, "Hook and legs are shown as seen from the load; it hangs "+b.legs.Attitude.Text+": see the views as it hangs.")
	case !b.asItHangs():
		out = append(out, fmt.Sprintf("Hook and legs are shown as seen from the load; it hangs tilted %.1f°: see the views as it hangs.", b.legs.TiltDeg))
	}
	if b.asItHangs() {
		out = append(out, "Legs: worst tension over all that is in doubt; angles with the CG at its best place.")
	}
	return out
}

// axes draws the directions of the load's axes, small, in the lower left corner.
func (b *board) axes() {
	const long = 7.0
	var ends [3]mgl64.Vec2
	low := mgl64.Vec2{}
	for i := range ends {
		var axis geom.Vec
		axis[i] = long
		ends[i] = b.view.On(axis)
		low = mgl64.Vec2{min(low[0], ends[i][0]), min(low[1], ends[i][1])}
	}
	from := mgl64.Vec2{5, 3}.Sub(low)
	for i, name := range []string{"x", "y", "z"} {
		size := ends[i].Len()
		if size < 2 {
			continue // it points to the eye
		}
		tip := from.Add(ends[i])
		way := ends[i].Mul(1 / size)
		side := mgl64.Vec2{-way[1], way[0]}.Mul(0.5)
		b.line(ofAxis, from, tip)
		b.add(Mark{Kind: "area", Of: ofAxis, At: []mgl64.Vec2{tip, tip.Sub(way.Mul(1.8)).Add(side), tip.Sub(way.Mul(1.8)).Sub(side)}})
		at := tip.Add(way.Mul(1.8)).Sub(mgl64.Vec2{0, 0.8})
		b.field.tabulate()
		for b.field.sum(textArea(Mark{At: []mgl64.Vec2{at}, Text: name, Size: letters, Align: "middle"})) > onText/4 {
			at = at.Add(mgl64.Vec2{1, 0}) // another axis has its name there
		}
		b.write(at, name, ofAxis, "middle")
	}
}

// scaleBar draws a bar of a round length in the lower right corner.
func (b *board) scaleBar() {
	m := drawingScale(b.scale / 1000 * 20) // about 20 mm on paper
	long := m * 1000 / b.scale
	right, y := b.wide-6, 4.0
	b.line(ofScale, mgl64.Vec2{right - long, y + 1.2}, mgl64.Vec2{right - long, y}, mgl64.Vec2{right, y}, mgl64.Vec2{right, y + 1.2})
	b.write(mgl64.Vec2{right - long - 1.5, y}, "Scale "+ratio(b.scale)+", the bar is "+b.length(m), ofScale, "right")
}

// ground draws the level that the load stands on as it is drawn.
func (b *board) ground() {
	low, high := b.box()
	left, right := b.on(low).Sub(mgl64.Vec2{4, 0}), b.on(mgl64.Vec2{high[0], low[1]}).Add(mgl64.Vec2{4, 0})
	b.line(ofGround, left, right)
	for x := left[0] + 2; x <= right[0]; x += 3 {
		b.line(ofAxis, mgl64.Vec2{x, left[1]}, mgl64.Vec2{x - 1.5, left[1] - 1.5})
	}
}

// region hatches where the CG may be, where that is larger than the CG's mark.
func (b *board) region() {
	if b.hung || b.name == "isometric" {
		return
	}
	var ring []mgl64.Vec2
	if b.name == "plan" {
		for _, c := range b.weight.CGRegion.PlanM {
			ring = append(ring, b.at(geom.Vec{c[0], c[1], b.weight.CGM[2]}))
		}
	} else {
		low, high := b.at(b.weight.CGRangeM.Min), b.at(b.weight.CGRangeM.Max)
		ring = []mgl64.Vec2{low, {high[0], low[1]}, high, {low[0], high[1]}}
	}
	far := 0.0
	for _, q := range ring {
		far = max(far, q.Sub(b.at(b.weight.CGM)).Len())
	}
	if len(ring) < 3 || far < cgRadius+0.6 {
		return
	}
	b.line(ofRegion, append(ring, ring[0])...)
	for _, stroke := range hatch(ring, 1.2) {
		b.line(ofRegion, stroke[:]...)
	}
}

// hatch returns strokes at 45° across a convex ring, so far apart.
func hatch(ring []mgl64.Vec2, apart float64) [][2]mgl64.Vec2 {
	off := func(q mgl64.Vec2) float64 { return (q[1] - q[0]) / math.Sqrt2 }
	low, high := math.Inf(1), math.Inf(-1)
	for _, q := range ring {
		low, high = min(low, off(q)), max(high, off(q))
	}
	var out [][2]mgl64.Vec2
	for at := low + apart/2; at < high; at += apart {
		var cut []mgl64.Vec2
		for i, p := range ring {
			q := ring[(i+1)%len(ring)]
			if from, to := off(p)-at, off(q)-at; from < 0 != (to < 0) {
				cut = append(cut, p.Add(q.Sub(p).Mul(from/(from-to))))
			}
		}
		if len(cut) == 2 {
			out = append(out, [2]mgl64.Vec2{cut[0], cut[1]})
		}
	}
	return out
}

// rigging draws legs, hook and the plumb line below it, and the picks.
func (b *board) rigging() {
	if !b.legs.Solved {
		b.picks()
		return
	}
	hook, cg := b.at(b.legs.HookM), b.at(b.weight.CGM)
	for _, leg := range b.legs.Legs {
		b.leg(b.at(leg.AtM), b.legTop(leg), leg.Pick)
	}
	b.bars()
	if b.elevation() {
		end := cg
		if b.hung { // on to the level through the lowest corner
			low, _ := b.box()
			end = mgl64.Vec2{hook[0], b.on(low)[1] - 3}
		}
		b.line(ofPlumb, hook, end)
	}
	b.picks()
	if b.name == "plan" && hook.Sub(cg).Len() < cgRadius {
		return // the CG's own mark stands there
	}
	b.add(Mark{Kind: "circle", Of: ofHook, At: []mgl64.Vec2{hook}, Radius: 1.4})
}

// picks marks the picks.
func (b *board) picks() {
	for _, leg := range b.legs.Legs {
		b.add(Mark{Kind: "circle", Of: ofPick, At: []mgl64.Vec2{b.at(leg.AtM)}, Radius: 0.9, Part: leg.Pick})
	}
}

// leg draws one leg.
func (b *board) leg(from, to mgl64.Vec2, name string) {
	b.add(Mark{Kind: "line", Of: ofLeg, At: []mgl64.Vec2{from, to}, Part: name})
	b.thick = append(b.thick, [2]mgl64.Vec2{from, to})
}

// legTop is where the upper end of a leg falls: the hook, or an end of a bar.
func (b *board) legTop(leg Leg) mgl64.Vec2 {
	if leg.upper != nil {
		return b.at(*leg.upper)
	}
	return b.at(b.legs.HookM)
}

// bars draws bars, end by end, and the legs that hold them.
func (b *board) bars() {
	for _, leg := range b.legs.UpperLegs {
		b.leg(b.at(leg.ends[1]), b.at(leg.ends[0]), leg.Name)
	}
	for _, bar := range b.legs.Bars {
		var ends []mgl64.Vec2
		for _, e := range bar.Ends {
			ends = append(ends, b.at(e.AtM))
		}
		if len(ends) > 2 {
			ends = append(ends, ends[0])
		}
		b.add(Mark{Kind: "line", Of: ofBar, At: ends, Part: bar.Name})
	}
}

const cgRadius = 1.8

// cg draws the mark of the CG: a circle, two opposite quarters of it filled.
func (b *board) cg() {
	c := b.at(b.weight.CGM)
	b.add(Mark{Kind: "circle", Of: ofCG, At: []mgl64.Vec2{c}, Radius: cgRadius})
	for _, from := range []float64{0, math.Pi} {
		quarter := []mgl64.Vec2{c}
		for i := range 7 {
			sin, cos := math.Sincos(from + math.Pi/2*float64(i)/6)
			quarter = append(quarter, c.Add(mgl64.Vec2{cos, sin}.Mul(cgRadius)))
		}
		b.add(Mark{Kind: "area", Of: ofCG, At: quarter})
	}
}

// cgLabel says what the view does not show of where the CG is, and how far it may
// be out.
func (b *board) cgLabel() label {
	cg, box := b.weight.CGM.Sub(b.weight.BoxM.Min), b.weight.CGRangeM
	l := label{to: []mgl64.Vec2{b.at(b.weight.CGM)}, lines: []string{"CG"}, of: ofCG}
	if b.hung {
		return l
	}
	out := box.Max.Sub(box.Min)
	switch b.name {
	case "plan":
		l.lines = []string{"CG, " + b.length(cg[2]) + " up"}
		if max(out[0], out[1]) > 0.0001 {
			l.lines = append(l.lines, "range "+b.upTo(out[0])+" in x", "range "+b.upTo(out[1])+" in y")
		}
		if b.asItHangs() {
			l.lines = append([]string{"hook, plumb over"}, l.lines...)
		}
	case "front":
		l.lines = []string{"CG, " + b.length(cg[1]) + " in y"}
	case "side":
		l.lines = []string{"CG, " + b.length(cg[0]) + " in x"}
	default:
		l.lines = []string{"CG: x " + b.length(cg[0]), "y " + b.length(cg[1]), "z " + b.length(cg[2])}
	}
	return l
}

// pickLabels are the names of picks, those at one place on paper together, and
// of the hook.
func (b *board) pickLabels() []label {
	var out []label
	for _, group := range b.together() {
		l := label{to: []mgl64.Vec2{b.at(group[0].AtM)}, of: ofPick, part: group[0].Pick}
		var names []string
		for _, leg := range group {
			names = append(names, leg.Pick)
		}
		l.lines = []string{strings.Join(names, ", ")}
		out = append(out, l)
	}
	if b.legs.Solved && b.name != "plan" {
		out = append(out, label{to: []mgl64.Vec2{b.at(b.legs.HookM)}, lines: []string{"hook"}, of: ofHook})
	}
	return out
}

// together are the legs, those that lie on one another on paper in one group.
func (b *board) together() [][]Leg {
	var out [][]Leg
next:
	for _, leg := range b.legs.Legs {
		for i, group := range out {
			if b.at(group[0].AtM).Sub(b.at(leg.AtM)).Len() < 0.5 {
				out[i] = append(group, leg)
				continue next
			}
		}
		out = append(out, []Leg{leg})
	}
	return out
}

// legLabels say what each leg carries at worst, and in an elevation how it stands.
func (b *board) legLabels() []label {
	if !b.legs.Solved {
		return nil
	}
	var out []label
	for _, group := range b.together() {
		hook := b.legTop(group[0])
		l := label{of: ofLeg, part: group[0].Pick}
		from := b.at(group[0].AtM)
		for _, t := range []float64{0.5, 0.4, 0.6, 0.3, 0.7} {
			l.to = append(l.to, from.Add(hook.Sub(from).Mul(t)))
		}
		for i, leg := range group {
			text := leg.Pick + " ≤ " + b.force(leg.WorstTensionKN)
			if leg.Slack {
				text += ", slack in this pose"
			}
			l.lines = append(l.lines, text)
			alike := i+1 < len(group) && math.Abs(group[i+1].FromHorizontalDeg-leg.FromHorizontalDeg) < 0.05
			if b.elevation() && b.asItHangs() && !alike {
				l.lines = append(l.lines, fmt.Sprintf("%.1f° from horizontal", leg.FromHorizontalDeg), fmt.Sprintf("%.1f° from vertical", leg.FromVerticalDeg))
			}
		}
		out = append(out, l)
	}
	return out
}
