package lift

import (
	"fmt"
	"math"

	"plumbhook/geom"
	"plumbhook/rig"
	"plumbhook/takeoff"
	"plumbhook/units"
)

// barRig is the tree of a load under bars, and what its bodies and legs are.
// Body 0 is the load, its points the picks in their order; legs 0 and on are
// the drops to the picks, those after them hold the bars.
type barRig struct {
	tree  rig.Tree
	bars  []drawnBar // body i+1
	links []barLink  // as in the tree
}

// drawnBar is a bar where it is drawn.
type drawnBar struct {
	*takeoff.Bar
	axis, across geom.Vec // level unit vectors: along it, and square to that
	tier         int      // 0: under the hook
	low, tops    []int    // points that legs hang from, and that it is held by
}

// barLink is a leg of the tree, in words.
type barLink struct {
	name string
	tier int // of the bar that it holds; of a drop -1
	end  int // drops from one end of one bar have the same; of top legs the bar that they hold
	err  takeoff.Tolerance

	given bool // its length, by the file
}

// drawing is a barRig while it is drawn.
type drawing struct {
	barRig
	plan *plan
	drop []rig.Link // by pick
	name []barLink  // of those
	top  []rig.Link
	tops []barLink
	ends int
}

// pull is what hangs on a point in the level rig: the line that it pulls along
// goes through at.
type pull struct {
	at     geom.Vec // m
	weight float64  // N
}

// drawBars draws the tree so that it hangs level as far as the file leaves
// that open: bars where their drops are plumb, or all point to one place plumb
// over the CG that they hold; the hook plumb over the CG of load and bars. Three
// forces that hold a body balance only if they meet in one point, and of the
// load's own the line is plumb through its CG.
func (p *plan) drawBars() (barRig, error) {
	at := places(p.picks)
	d := drawing{plan: p, drop: make([]rig.Link, len(at)), name: make([]barLink, len(at))}
	d.tree.Bodies = []rig.Body{{Name: "load", Weight: float64(p.weight.planning()), CG: p.weight.CGM, Points: at}}
	top := p.load.Rigging.Bar
	body, on, err := d.bar(top, 0, p.weight.CGM, float64(p.weight.planning()))
	if err != nil {
		return d.barRig, err
	}
	d.hook(top, body, on)
	d.tree.Links, d.links = append(d.drop, d.top...), append(d.name, d.tops...)
	return d.barRig, nil
}

// hook puts the hook over what hangs on it, and the topmost bar's legs to it.
func (d *drawing) hook(b *takeoff.Bar, body int, on pull) {
	points := d.tree.Bodies[body].Points
	first := points[d.bars[body-1].tops[0]]
	height := b.Hook
	if b.Top.Given() {
		long := b.Top.All
		if b.Top.Each != nil {
			long = b.Top.Each[0]
		}
		level := math.Hypot(first[0]-on.at[0], first[1]-on.at[1])
		height = math.Sqrt(max(long*long-level*level, long*long/25)) // too short is for the statics to find
	}
	d.tree.Hook = geom.Vec{on.at[0], on.at[1], first[2] + height}
	d.hold(b, body, rig.End{Body: rig.OnHook}, d.tree.Hook, "hook")
}

// hold draws the top legs of a bar up to a point.
func (d *drawing) hold(b *takeoff.Bar, body int, from rig.End, at geom.Vec, above string) {
	bar := d.bars[body-1]
	for i, point := range bar.tops {
		length := at.Sub(d.tree.Bodies[body].Points[point]).Len()
		switch {
		case b.Top.All > 0:
			length = b.Top.All
		case b.Top.Each != nil:
			length = b.Top.Each[i]
		}
		d.top = append(d.top, rig.Link{From: from, To: rig.End{Body: body, Point: point}, Length: length})
		name := above + "–" + b.Name
		if len(bar.tops) > 1 {
			name += fmt.Sprintf(" %d", i+1)
		}
		d.tops = append(d.tops, barLink{name, bar.tier, body, b.Error, b.Top.Given()})
	}
}

// bar draws a bar that holds load newtons whose pull goes through at, and all
// that hangs from it; it returns the bar's body and what that hangs by.
func (d *drawing) bar(b *takeoff.Bar, tier int, at geom.Vec, load float64) (int, pull, error) {
	d.tree.Bodies, d.bars = append(d.tree.Bodies, rig.Body{}), append(d.bars, drawnBar{})
	body := len(d.tree.Bodies) - 1
	bar := drawnBar{Bar: b, tier: tier}
	if err := d.direct(&bar, at); err != nil {
		return body, pull{}, err
	}
	anchors := d.anchors(bar, at, load)
	lower := make([]int, len(anchors))
	top := math.Inf(-1) // of what it holds
	for i, h := range b.Holds {
		if h.Bar == nil {
			for _, pick := range h.Picks {
				top = max(top, d.pick(pick)[2])
			}
			continue
		}
		var err error
		if lower[i], anchors[i], err = d.bar(h.Bar, tier+1, anchors[i].at, anchors[i].weight); err != nil {
			return body, pull{}, err
		}
		top = max(top, anchors[i].at[2])
	}
	height := b.Height
	if height == 0 {
		height = longest(b.Drops)
	}
	low, on, err := d.corners(bar, anchors, top+height)
	if err != nil {
		return body, pull{}, err
	}
	on = d.place(&bar, body, low, on)
	for i, h := range b.Holds {
		from := rig.End{Body: body, Point: i}
		if h.Bar != nil {
			d.hold(h.Bar, lower[i], from, low[i], b.Name)
			continue
		}
		d.drops(b, h, from, low[i])
	}
	return body, on, nil
}

func longest(l takeoff.Lengths) float64 {
	most := l.All
	for _, length := range l.Pick {
		most = max(most, length)
	}
	return most
}

// place makes a body of a bar whose lower points are known. Its own CG is taken
// midway between the levels of its points. It returns what the bar hangs by.
func (d *drawing) place(bar *drawnBar, body int, low []geom.Vec, on pull) pull {
	var middle geom.Vec
	for i, p := range low {
		middle = middle.Add(p.Mul(1 / float64(len(low))))
		bar.low = append(bar.low, i)
	}
	up := plumb.Mul(bar.Depth)
	tops := low
	if bar.Kind == takeoff.LiftingBeam {
		tops = []geom.Vec{middle}
		if len(bar.HeldAt) > 0 {
			tops = nil
		}
		for _, at := range bar.HeldAt {
			tops = append(tops, middle.Add(bar.axis.Mul(at)))
		}
	}
	points := append([]geom.Vec{}, low...)
	for _, p := range tops {
		bar.tops = append(bar.tops, len(points))
		points = append(points, p.Add(up))
	}
	weight := float64(bar.Weight.Weight())
	cg := middle.Add(bar.axis.Mul(bar.CGOffset)).Add(up.Mul(0.5))
	d.tree.Bodies[body] = rig.Body{Name: bar.Name, Weight: weight, CG: cg, Points: points}
	d.bars[body-1] = *bar
	all := pull{on.at.Mul(on.weight).Add(cg.Mul(weight)).Mul(1 / (on.weight + weight)), on.weight + weight}
	if len(bar.tops) == 1 { // all hangs from this one point, whatever the CG
		all.at = points[bar.tops[0]]
	}
	all.at[2] = points[bar.tops[0]][2]
	return all
}

// drops draws the legs from one end of a bar to its picks.
func (d *drawing) drops(b *takeoff.Bar, h takeoff.Held, from rig.End, at geom.Vec) {
	for _, name := range h.Picks {
		i := d.number(name)
		length := at.Sub(d.plan.picks[i].AtM).Len()
		switch {
		case b.Drops.All > 0:
			length = b.Drops.All
		case b.Drops.Pick != nil:
			length = b.Drops.Pick[name]
		}
		d.drop[i] = rig.Link{From: from, To: rig.End{Body: 0, Point: i}, Length: length}
		d.name[i] = barLink{name, -1, d.ends, b.Error, b.Drops.Given()}
	}
	d.ends++
}

func (d *drawing) number(name string) int {
	for i, p := range d.plan.picks {
		if p.Name == name {
			return i
		}
	}
	return 0 // the reader has seen to it that each is there
}

func (d *drawing) pick(name string) geom.Vec { return d.plan.picks[d.number(name)].AtM }

// fault is a bar that can't be drawn.
func (d *drawing) fault(b *takeoff.Bar, text, fix string) error {
	return bad(d.plan.load, b.Line, text, fix)
}

// barLengths says in words how the lengths were come by.
func (p *plan) barLengths(best rig.TreePose) string {
	top, drawn := p.load.Rigging.Bar, true
	for _, b := range top.All() {
		drawn = drawn && !b.Drops.Given() && !b.Top.Given()
	}
	if !drawn {
		return "as given with the bars; those that are not given are cut for the bars to hang level"
	}
	level := "for load and bars to hang level"
	if degrees(tiltOf(best)) > outOfLevel {
		level = "as near to level as this rig goes (see the tilt)"
	}
	return fmt.Sprintf("drops and top legs cut %s, hook %s above the points that the %s is held by",
		level, units.Length(top.Hook).Format(units.Both), top.Name)
}
