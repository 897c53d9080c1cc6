package lift

import (
	"math"

	"plumbhook/geom"
	"plumbhook/takeoff"
)

// Where a bar stands over what it holds, so that all hangs level.

// middle is the middle of all picks below an end.
func (d *drawing) middle(h takeoff.Held) geom.Vec {
	var sum geom.Vec
	parts := h.Picks
	if h.Bar != nil {
		for _, one := range h.Bar.Holds {
			sum = sum.Add(d.middle(one).Mul(1 / float64(len(h.Bar.Holds))))
		}
		return sum
	}
	for _, name := range parts {
		sum = sum.Add(d.pick(name).Mul(1 / float64(len(parts))))
	}
	return sum
}

// sameSpot is how near in m two places in plan count as one.
const sameSpot = 1e-6

// direct finds the direction that a bar runs along: as written, or along the
// line of what hangs from it. Where one end holds a single pick that line goes
// from it through the CG, or the bar could not hang level.
func (d *drawing) direct(bar *drawnBar, at geom.Vec) error {
	holds := bar.Holds
	from, to := d.middle(holds[0]), d.middle(holds[1])
	way := to.Sub(from)
	if bar.Kind == takeoff.Frame {
		way = way.Add(d.middle(holds[2]).Sub(d.middle(holds[3])))
	}
	way[2] = 0
	if way.Len() < sameSpot {
		return d.fault(bar.Bar, "the "+bar.Kind+" "+bar.Name+" holds both its ends over one place: it has no direction",
			"let its ends hold picks that are apart; the corners of a frame go round, the first two along its length")
	}
	switch {
	case bar.Along == "x":
		bar.axis = geom.Vec{math.Copysign(1, way[0]), 0, 0}
	case bar.Along == "y":
		bar.axis = geom.Vec{0, math.Copysign(1, way[1]), 0}
	default:
		bar.axis = way.Normalize()
		if bar.Kind != takeoff.Frame {
			bar.axis = throughCG(holds, from, to, at, bar.axis)
		}
	}
	if math.Abs(way.Normalize().Dot(bar.axis)) < 0.1 {
		return d.fault(bar.Bar, "the "+bar.Kind+" "+bar.Name+" runs across what hangs from its ends", "write `along` the way that they are apart, or leave it out")
	}
	bar.across = plumb.Cross(bar.axis)
	if bar.Kind == takeoff.Frame && d.middle(holds[3]).Sub(from).Dot(bar.across) < 0 {
		bar.across = bar.across.Mul(-1) // the corners go round the other way
	}
	return nil
}

// throughCG turns the direction of a bar so that it passes over the CG, where
// just one end is free to.
func throughCG(holds []takeoff.Held, from, to, at, axis geom.Vec) geom.Vec {
	single := func(h takeoff.Held) bool { return len(h.Picks) == 1 }
	way := axis
	switch {
	case single(holds[0]) && !single(holds[1]):
		way = at.Sub(from)
	case single(holds[1]) && !single(holds[0]):
		way = to.Sub(at)
	}
	way[2] = 0
	if way.Len() < sameSpot || way.Normalize().Dot(axis) < 0.5 {
		return axis // the CG is not between the ends
	}
	return way.Normalize()
}

// anchors are what each end or corner holds in the level rig, by levers.
func (d *drawing) anchors(bar drawnBar, at geom.Vec, load float64) []pull {
	holds := bar.Holds
	if bar.Kind == takeoff.Frame {
		return d.frameAnchors(bar, at, load)
	}
	if len(holds[0].Picks) == 1 && len(holds[1].Picks) == 1 {
		// Two picks: what is off their line swings below it.
		from := d.middle(holds[0])
		at = from.Add(bar.axis.Mul(at.Sub(from).Dot(bar.axis)))
	}
	one, two := d.crossing(holds[0], at, bar.axis), d.crossing(holds[1], at, bar.axis)
	left, right := at.Sub(one).Dot(bar.axis), two.Sub(at).Dot(bar.axis)
	if left+right < sameSpot {
		return []pull{{one, load / 2}, {two, load / 2}}
	}
	return []pull{{one, max(0, load*right/(left+right))}, {two, max(0, load*left/(left+right))}}
}

// crossing is where the line of what an end holds, of two picks or of the ends
// of a lower bar, passes through the plumb plane that the bar hangs in: what
// they pull together goes through there. Other ends hold by their middle.
func (d *drawing) crossing(h takeoff.Held, at, axis geom.Vec) geom.Vec {
	var ends []geom.Vec
	for _, name := range h.Picks {
		ends = append(ends, d.pick(name))
	}
	if h.Bar != nil {
		for _, one := range h.Bar.Holds {
			ends = append(ends, d.middle(one))
		}
	}
	across := plumb.Cross(axis)
	if len(ends) == 2 {
		line := ends[1].Sub(ends[0])
		if slope := line.Dot(across); math.Abs(slope) > 1e-3*line.Len() {
			return ends[0].Add(line.Mul(at.Sub(ends[0]).Dot(across) / slope))
		}
	}
	return d.middle(h)
}

// frameAnchors shares the load among four corners, by levers along and across.
func (d *drawing) frameAnchors(bar drawnBar, at geom.Vec, load float64) []pull {
	var all []pull
	var mean geom.Vec
	for _, h := range bar.Holds {
		all = append(all, pull{at: d.middle(h)})
		mean = mean.Add(d.middle(h).Mul(0.25))
	}
	var along, across float64
	for _, one := range all {
		arm := one.at.Sub(mean)
		along, across = along+sq(arm.Dot(bar.axis)), across+sq(arm.Dot(bar.across))
	}
	off := at.Sub(mean)
	for i := range all {
		arm, share := all[i].at.Sub(mean), 0.25
		if along > 0 {
			share += off.Dot(bar.axis) * arm.Dot(bar.axis) / along
		}
		if across > 0 {
			share += off.Dot(bar.across) * arm.Dot(bar.across) / across
		}
		all[i].weight = max(0, share*load)
	}
	return all
}

func sq(x float64) float64 { return x * x }

// corners returns the points of a bar that legs hang from, at height z, and the
// pull of all that it holds. The anchors go up along lines that meet plumb over
// that pull; where the lines are plumb they meet nowhere.
func (d *drawing) corners(bar drawnBar, anchors []pull, z float64) ([]geom.Vec, pull, error) {
	var on pull
	for _, a := range anchors {
		on.at, on.weight = on.at.Add(a.at.Mul(a.weight)), on.weight+a.weight
	}
	on.at = on.at.Mul(1 / on.weight)
	if bar.Kind == takeoff.Frame {
		low, err := d.frameCorners(bar, anchors, on.at, z)
		return low, on, err
	}
	s := [2]float64{anchors[0].at.Sub(on.at).Dot(bar.axis), anchors[1].at.Sub(on.at).Dot(bar.axis)}
	h := [2]float64{z - anchors[0].at[2], z - anchors[1].at[2]}
	if s[1]-s[0] < sameSpot {
		return nil, on, d.fault(bar.Bar, "the "+bar.Kind+" "+bar.Name+" holds both its ends over one place", "let its ends hold picks that are apart along it")
	}
	ends := meeting(s, h, bar.Length)
	var low []geom.Vec
	for _, end := range ends {
		p := on.at.Add(bar.axis.Mul(end))
		p[2] = z
		low = append(low, p)
	}
	return low, on, nil
}

// meeting returns where along a bar of that length its ends are, from plumb over
// the pull that they hold, for anchors s from there and h below: e = s/(1 + h·u),
// 1/u how far above the bar the lines from anchor to end meet. Derived here:
// three forces in balance meet in one point.
func meeting(s, h [2]float64, length float64) [2]float64 {
	if !(s[0] < 0 && s[1] > 0 && h[0] > 0 && h[1] > 0) { // the CG is outside: any place is as good
		middle := (s[0] + s[1]) / 2
		return [2]float64{middle - length/2, middle + length/2}
	}
	at := func(u float64) [2]float64 { return [2]float64{s[0] / (1 + h[0]*u), s[1] / (1 + h[1]*u)} }
	most := max(h[0], h[1])
	low, high := -1/most, 1/most
	for e := at(high); e[1]-e[0] > length && high < 1e12/most; e = at(high) {
		high *= 2
	}
	for range 200 {
		u := (low + high) / 2
		if e := at(u); e[1]-e[0] > length {
			low = u
		} else {
			high = u
		}
	}
	return at(high)
}

// frameCorners does along and across, each by itself, what meeting does for a
// bar: exact where the anchors are a rectangle.
func (d *drawing) frameCorners(bar drawnBar, anchors []pull, on geom.Vec, z float64) ([]geom.Vec, error) {
	var mean geom.Vec
	for _, a := range anchors {
		mean = mean.Add(a.at.Mul(0.25))
	}
	var along, across float64
	for _, a := range anchors {
		along += math.Abs(a.at.Sub(mean).Dot(bar.axis)) / 4
		across += math.Abs(a.at.Sub(mean).Dot(bar.across)) / 4
	}
	if along < sameSpot || across < sameSpot {
		return nil, d.fault(bar.Bar, "the frame "+bar.Name+" holds its corners over one line", "hang a spreader instead, or picks that are apart both ways")
	}
	off := mean.Sub(on)
	middle := on.Add(bar.axis.Mul(off.Dot(bar.axis) * bar.Length / 2 / along)).Add(bar.across.Mul(off.Dot(bar.across) * bar.Width / 2 / across))
	middle[2] = z
	half, side := bar.axis.Mul(bar.Length/2), bar.across.Mul(bar.Width/2)
	return []geom.Vec{middle.Sub(half).Sub(side), middle.Add(half).Sub(side), middle.Add(half).Add(side), middle.Sub(half).Add(side)}, nil
}
