package lift

import (
	"cmp"
	"fmt"
	"math"
	"slices"
	"strings"

	"github.com/go-gl/mathgl/mgl64"

	"plumbhook/geom"
)

// tape is a distance from an edge, and what it leads to.
type tape struct {
	m     float64
	names []string
	at    mgl64.Vec2 // m, in the view: the place that its extension line comes from
}

// text is the figure of a distance with what it leads to.
func (b *board) text(t tape) string {
	names := t.names
	if all := len(b.legs.Legs); all > 2 && len(names) >= all && !slices.ContainsFunc(b.legs.Legs, func(leg Leg) bool { return !slices.Contains(names, leg.Pick) }) {
		rest := slices.DeleteFunc(slices.Clone(names), func(name string) bool {
			return slices.ContainsFunc(b.legs.Legs, func(leg Leg) bool { return leg.Pick == name })
		})
		names = append(rest, "all picks")
	}
	text := strings.Join(names, ", ") + " " + b.length(math.Abs(t.m))
	if t.m < 0 {
		text += " out"
	}
	return text
}

// addTape adds a distance, or the name to one that is as good as the same. Of
// two places the nearer to the edge's end is kept.
func addTape(list []tape, name string, m float64, at mgl64.Vec2, along int) []tape {
	const same = 0.0005 // m: half of the millimetre that is printed
	for i, t := range list {
		if math.Abs(t.m-m) < same {
			list[i].names = append(t.names, name)
			if at[along] < t.at[along] {
				list[i].at = at
			}
			return list
		}
	}
	return append(list, tape{m, []string{name}, at})
}

// elevation says that the view is level: heights are true in it.
func (b *board) elevation() bool { return b.name == "front" || b.name == "side" }

// asItHangs says that legs and hook stand in this view as they do in the lift.
func (b *board) asItHangs() bool { return b.legs.Solved && (b.hung || !b.tilted) }

// box is the corner of the load's box that sizes count from, and the other, m in
// the view.
func (b *board) box() (low, high mgl64.Vec2) {
	ext := b.weight.extent()
	all := ext.Corners()
	corners := all[:]
	if b.hung {
		corners = b.legs.corners
	}
	low, high = b.view.On(corners[0]), b.view.On(corners[0])
	for _, c := range corners {
		q := b.view.On(c)
		low = mgl64.Vec2{min(low[0], q[0]), min(low[1], q[1])}
		high = mgl64.Vec2{max(high[0], q[0]), max(high[1], q[1])}
	}
	return low, high
}

// planSizes chooses which distances the view shows: in plan the CG and the picks
// from both edges, in an elevation heights, as it hangs what the crane must clear.
func (b *board) planSizes() {
	low, high := b.box()
	across := func(name string, p geom.Vec) {
		q := b.view.On(p)
		b.across = addTape(b.across, name, q[0]-low[0], q, 1)
	}
	upward := func(name string, p geom.Vec) {
		q := b.view.On(p)
		b.upward = addTape(b.upward, name, q[1]-low[1], q, 0)
	}
	switch {
	case b.name == "isometric", b.hung && b.name == "plan":
		return
	case b.hung:
		upward("hook", b.legs.HookM)
	default:
		across("CG", b.weight.CGM)
		upward("CG", b.weight.CGM)
		for _, leg := range b.legs.Legs {
			if b.name == "plan" {
				across(leg.Pick, leg.AtM)
			}
			upward(leg.Pick, leg.AtM)
		}
		if b.elevation() && b.asItHangs() {
			upward("hook", b.legs.HookM)
		}
		b.across = addTape(b.across, "overall", high[0]-low[0], mgl64.Vec2{high[0], low[1]}, 1)
		if b.name == "plan" {
			b.upward = addTape(b.upward, "overall", high[1]-low[1], mgl64.Vec2{low[0], high[1]}, 0)
		}
	}
	for _, list := range [][]tape{b.across, b.upward} {
		slices.SortStableFunc(list, func(s, t tape) int { return cmp.Compare(s.m, t.m) })
	}
}

// clearOf is how far an extension line keeps from what it comes from, mm.
const clearOf = 2.4

// sizes draws the distances as dimensions, each in a row of its own from a common
// edge, the shortest next to the load: so none crosses the figure of another.
// Method: parallel dimensioning of ISO 129-1 (from memory). Figures that don't fit
// between the arrows are returned.
func (b *board) sizes() []label {
	low, _ := b.box()
	corner := b.on(low)
	var outside []label
	edge := math.Inf(1)
	for i, t := range b.across {
		if math.Abs(t.m) < 0.0005 {
			continue // at the edge itself
		}
		y, to := corner[1]-rowFirst-rowApart*float64(i), b.on(t.at)
		b.line(ofSize, mgl64.Vec2{to[0], to[1] - b.clear(t)}, mgl64.Vec2{to[0], y - 1.2})
		outside = b.dimension(mgl64.Vec2{corner[0], y}, mgl64.Vec2{to[0], y}, b.text(t), outside)
		edge = y
	}
	if !math.IsInf(edge, 1) { // there are sizes, and not all of them nothing
		b.line(ofSize, mgl64.Vec2{corner[0], corner[1] - 1}, mgl64.Vec2{corner[0], edge - 1.2})
	}
	edge = math.Inf(1)
	for i, t := range b.upward {
		if math.Abs(t.m) < 0.0005 {
			continue
		}
		x, to := b.columns()-rowApart*float64(i), b.on(t.at)
		b.line(ofSize, mgl64.Vec2{to[0] - b.clear(t), to[1]}, mgl64.Vec2{x - 1.2, to[1]})
		outside = b.dimension(mgl64.Vec2{x, corner[1]}, mgl64.Vec2{x, to[1]}, b.text(t), outside)
		edge = x
	}
	if !math.IsInf(edge, 1) {
		b.line(ofSize, mgl64.Vec2{corner[0] - 1, corner[1]}, mgl64.Vec2{edge - 1.2, corner[1]})
	}
	if b.elevation() {
		outside = b.heights(outside)
	}
	return outside
}

// columns is where the first upright dimension line stands: left of all.
func (b *board) columns() float64 { return b.on(b.low)[0] - rowFirst }

// clear is what an extension line keeps from its place.
func (b *board) clear(t tape) float64 {
	if t.names[0] == "overall" {
		return 1
	}
	return clearOf
}

// heights draws, right of an elevation, the load's own height and the headroom.
func (b *board) heights(outside []label) []label {
	low, high := b.box()
	x := b.on(b.top)[0] + rowFirst
	ends := []mgl64.Vec2{low, high}
	texts := []string{"load " + b.length(high[1]-low[1])}
	if b.asItHangs() {
		ends = append(ends, b.view.On(b.legs.HookM))
		texts = append(texts, "headroom "+b.length(b.legs.HeadroomM))
		if b.legs.HeadroomWorstM > b.legs.HeadroomM+0.0005 {
			texts[1] += ", at most " + b.upTo(b.legs.HeadroomWorstM)
		}
	}
	from := []mgl64.Vec2{{high[0], low[1]}, {high[0], high[1]}, ends[len(ends)-1]}
	for i, end := range ends {
		y := b.on(end)[1]
		b.line(ofSize, mgl64.Vec2{b.on(from[i])[0] + clearOf, y}, mgl64.Vec2{x + 1.2, y})
		if i > 0 {
			outside = b.dimension(mgl64.Vec2{x, b.on(ends[i-1])[1]}, mgl64.Vec2{x, y}, texts[i-1], outside)
		}
	}
	return outside
}

// dimension draws one dimension line with its figure along it, on the upper or
// the left side; a figure that does not fit joins those that are placed later.
func (b *board) dimension(from, to mgl64.Vec2, text string, outside []label) []label {
	long := to.Sub(from).Len()
	if long < 0.3 { // too small to be drawn
		return append(outside, label{to: []mgl64.Vec2{to}, lines: []string{text}, of: ofSize})
	}
	b.add(Mark{Kind: "line", Of: ofSize, At: []mgl64.Vec2{from, to}, Arrows: long > 6})
	mid := from.Add(to).Mul(0.5)
	if long <= 6 { // too short for arrows: strokes across its ends
		for _, end := range []mgl64.Vec2{from, to} {
			b.line(ofSize, end.Sub(mgl64.Vec2{0.8, 0.8}), end.Add(mgl64.Vec2{0.8, 0.8}))
		}
	}
	wide, upright := textWidth(text, letters), math.Abs(to[0]-from[0]) < math.Abs(to[1]-from[1])
	if wide > long-5 {
		if left := min(from[0], to[0]) - 2; !upright && left-wide > 1.5 { // nothing crosses the row there
			b.write(mgl64.Vec2{left, from[1] - 0.3*letters}, text, ofSize, "right")
			return outside
		}
		return append(outside, label{to: []mgl64.Vec2{mid, from.Mul(0.3).Add(to.Mul(0.7)), from.Mul(0.7).Add(to.Mul(0.3))}, lines: []string{text}, of: ofSize})
	}
	if upright {
		b.add(Mark{Kind: "text", Of: ofSize, At: []mgl64.Vec2{{mid[0] - 0.9, mid[1]}}, Text: text, Size: letters, Align: "middle", Turn: 90})
		return outside
	}
	b.write(mid.Add(mgl64.Vec2{0, 0.9}), text, ofSize, "middle")
	return outside
}

// hangingLines draws what shows the tilt: the plumb line through hook and CG, the
// level through the lowest corner of the load's box, and how much lower that is.
func (b *board) hangingLines() []label {
	low, high := b.box()
	left, right := b.on(low), b.on(mgl64.Vec2{high[0], low[1]})
	b.line(ofPlumb, left.Sub(mgl64.Vec2{4, 0}), right.Add(mgl64.Vec2{4, 0}))
	tilt := []string{fmt.Sprintf("tilt %.1f°, at worst %.1f°", b.legs.TiltDeg, tenthUp(b.legs.TiltWorstDeg))}
	if b.legs.Attitude == nil {
		axis := map[string]geom.Vec{"front": {1, 0, 0}, "side": {0, 1, 0}}[b.name]
		seen := degrees(math.Atan2(axis.Dot(b.view.Up), axis.Dot(b.view.Right)))
		tilt = append(tilt, fmt.Sprintf("(in this view %.1f°)", math.Abs(seen)))
	}
	out := []label{{to: []mgl64.Vec2{left.Mul(0.3).Add(right.Mul(0.7)), left.Mul(0.6).Add(right.Mul(0.4))}, lines: tilt, of: ofPlumb}}
	if b.legs.LowCornerDropM < 0.0005 {
		return out
	}
	lowest, highest := math.Inf(1), mgl64.Vec2{0, math.Inf(-1)}
	for _, c := range b.legs.corners[:4] {
		if q := b.view.On(c); q[1] > highest[1] {
			highest = q
		}
		lowest = min(lowest, b.view.On(c)[1])
	}
	end := b.on(highest)
	from := mgl64.Vec2{end[0], b.on(mgl64.Vec2{0, lowest})[1]}
	return b.dimension(from, end, "low corner "+b.length(b.legs.LowCornerDropM)+" lower", out)
}
