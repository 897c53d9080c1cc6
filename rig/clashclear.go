package rig

import (
	"fmt"
	"math"

	"plumbhook/geom"
)

// stride is the least step in m of a search for where it begins to clear: of a
// hook more than 10 m up as many times more. What clashes or clears over less
// than this is not seen.
const stride = 1e-3

// exactness is how well in m the height or length where it clears is found.
const exactness = 1e-7

// LeastHeight returns how high in metres above the highest pick the hook, plumb
// over the CG, must at least be for the legs to clear the body, as [Clashes]
// sees it, there and at every height above up to most. 0 means that they always
// clear. It returns false where they clash at the height most.
//
// The lengths are then those of [LevelLengths]. A hook so low that a leg passes
// below a part of the body does not count as clear.
//
// Derived here: where the hook comes down, the point of a leg at the fraction f
// of its length comes down by f times as much, so a piece up to there meets
// nothing before the hook has come down by its gap over f. It comes down by the
// least of these, again and again, until a leg touches; there the height is
// halved in.
func LeastHeight(picks []geom.Vec, cg geom.Vec, body Obstacles, radius []float64, free, most float64) (height float64, ok bool, err error) {
	legs := clearing{picks, radius, body, free}
	if err := legs.check(); err != nil {
		return 0, false, err
	}
	if !placed(cg) {
		return 0, false, &InputError{"the centre of gravity is at no place", notPlaced}
	}
	if !(most > 0 && most <= farthest) {
		return 0, false, &InputError{fmt.Sprintf("a hook up to %g m above the picks", most), "give the greatest height, more than 0 and at most 1000 km"}
	}
	for leg := range picks {
		room := func(h float64) float64 { return legs.room(leg, HookAbove(cg, picks, h)) }
		if room(most) <= 0 {
			return 0, false, nil
		}
		height = comeDown(room, height, most)
	}
	return height, true, nil
}

// room returns how far in metres the hook may surely come down before the leg
// touches, 0 where it touches. Pieces near the pick are looked at by themselves,
// as the body is near to them always and they hardly move.
func (c clearing) room(leg int, hook geom.Vec) float64 {
	length := hook.Sub(c.picks[leg]).Len()
	least := math.Inf(1)
	for to := 1.0; to*length > c.free; to /= 2 {
		from := to / 2
		if to < 0.05 || from*length < c.free {
			from = c.free / length
		}
		for _, g := range c.gapsBetween(leg, hook, from, to) {
			if g.Gap <= touching {
				return 0
			}
			least = min(least, g.Gap/to)
		}
		if to < 0.05 {
			break
		}
	}
	return least
}

// comeDown returns the least height from low to high above which there is room
// everywhere. There is at high.
func comeDown(room func(float64) float64, low, high float64) float64 {
	left := room(high)
	for high > low {
		next := max(low, high-max(left, stride*max(1, high/10)))
		if left = room(next); left <= 0 {
			return halve(func(h float64) bool { return room(h) > 0 }, next, high)
		}
		high = next
	}
	return low
}

// halve returns where between clash and clear, which may be the greater or the
// smaller, it begins to be clear, on the clear side.
func halve(clears func(float64) bool, clash, clear float64) float64 {
	for math.Abs(clear-clash) > exactness {
		middle := (clash + clear) / 2
		if middle == clash || middle == clear {
			break
		}
		if clears(middle) {
			clear = middle
		} else {
			clash = middle
		}
	}
	return clear
}

// LeastBar returns the least length in metres of a bar, its middle over the
// middle of two picks, from whose ends drops that hang plumb clear the body. It
// is no less than the picks are apart, level; if it is more, plumb drops need
// picks that far out. The drops are radius metres thick to each side; they are
// looked at from free metres above the height of their pick to above the body.
// It returns false where no bar up to the length most does.
//
// Derived here: the depth of a plumb line in the body, as it moves level, changes
// by no more than the way, so a drop that goes out by less than its depth is not
// clear yet.
func LeastBar(picks [2]geom.Vec, body Obstacles, radius, free, most float64) (length float64, ok bool, err error) {
	drops := clearing{picks[:], []float64{radius, radius}, body, free}
	if err := drops.check(); err != nil {
		return 0, false, err
	}
	apart := picks[1].Sub(picks[0])
	apart[2] = 0
	along, ok := unit(apart)
	if !ok {
		return 0, false, &InputError{"the picks of the bar are plumb over each other", "give two picks that are apart"}
	}
	if !(most > 0 && most <= farthest) {
		return 0, false, &InputError{fmt.Sprintf("a bar up to %g m long", most), "give the greatest length, more than 0 and at most 1000 km"}
	}
	spacing := apart.Len()
	gap := func(length float64) float64 { return drops.plumbGap(along.Mul((length - spacing) / 2)) }
	clash := math.NaN()
	for length = spacing; length <= most; {
		g := gap(length)
		if g > touching {
			if !math.IsNaN(clash) {
				length = halve(func(l float64) bool { return gap(l) > touching }, clash, length)
			}
			return length, true, nil
		}
		clash = length
		length += 2 * max(-g, stride/2)
	}
	return 0, false, nil
}

// plumbGap returns the least gap in m of two drops that hang plumb beside
// their picks: the second by out, the first by as much the other way.
func (c clearing) plumbGap(out geom.Vec) float64 {
	gap := math.Inf(1)
	for i, sign := range [2]float64{-1, 1} {
		drop := c
		drop.picks = []geom.Vec{c.picks[i].Add(out.Mul(sign))}
		drop.radius = c.radius[i : i+1]
		top := drop.picks[0]
		top[2] = max(c.body.top, top[2]+c.free) + c.radius[i] + stride
		gap = min(gap, leastGap(drop.gaps(0, top)))
	}
	return gap
}
