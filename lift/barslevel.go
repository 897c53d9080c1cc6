package lift

import (
	"math"

	"github.com/go-gl/mathgl/mgl64"

	"plumbhook/rig"
)

const (
	levelRounds = 30
	levelEnough = 1e-5 // rad, of load and bars: a thousandth of a degree is nothing
	levelGain   = 2    // by how much less it must tilt for odd lengths to be worth cutting
)

// levelBars cuts the legs whose lengths the file leaves open so that load and bars
// hang level, where the drawing does not yet balance so: drops that lean under
// lower bars, or a frame over picks that are no rectangle. Each round takes all
// bodies where they hang, turned level on the spot, and cuts the legs to reach
// from there. Derived here; no proof that it ends level, so that the best round
// is kept, or the drawing if none is far better, and hung and judged like any other rig.
func (p *plan) levelBars(b *barRig) {
	least, first, stuck := math.Inf(1), 0.0, 0
	var best []rig.Link
	drawn := b.tree.Links
	for range levelRounds {
		tree := b.with(p.best())
		pose, err := tree.Hang()
		if err != nil || !holds(pose) {
			break
		}
		tilt := tiltOf(pose)
		if best == nil {
			first = tilt
		}
		if stuck++; tilt < 0.95*least {
			stuck = 0
		}
		if tilt < least {
			least, best = tilt, b.tree.Links
		}
		if tilt < levelEnough || stuck == 4 { // there, or no way to it with what is given
			break
		}
		b.tree.Links = b.recut(tree, pose)
	}
	if best == nil || least > first/levelGain {
		best = drawn
	}
	b.tree.Links = best
}

// tiltOf is the greatest tilt of load and bars in radians.
func tiltOf(p rig.TreePose) float64 {
	tilt := 0.0
	for _, b := range p.Bodies {
		tilt = max(tilt, b.Tilt)
	}
	return tilt
}

// recut returns the legs with those that are open cut to reach between the
// bodies where they hang, each turned level about its CG.
func (b barRig) recut(tree rig.Tree, pose rig.TreePose) []rig.Link {
	at := func(e rig.End) mgl64.Vec3 {
		if e.Body == rig.OnHook {
			return tree.Hook
		}
		body, hung := tree.Bodies[e.Body], pose.Bodies[e.Body]
		turned := hung.Place.Turn.Mul3x1(mgl64.Vec3{1, 0, 0})
		about := mgl64.Rotate3DZ(math.Atan2(turned[1], turned[0])) // as seen from above it keeps its turn
		return about.Mul3x1(body.Points[e.Point].Sub(body.CG)).Add(hung.CG)
	}
	links := append([]rig.Link{}, tree.Links...)
	for i, l := range links {
		if b.links[i].given {
			continue
		}
		if length := at(l.From).Sub(at(l.To)).Len(); length > 1e-3 {
			links[i].Length = length
		}
	}
	return links
}
