package lift

import (
	"math"
	"slices"

	"plumbhook/geom"
)

// outside returns how far in m the CG stands in plan beyond the outermost
// picks, below 0 where it is between them, and the side that is nearest. With
// two picks it is measured along their line, since across it the load only
// rolls; with one there is no outside.
func outside(picks []Pick, cg geom.Vec) (float64, string) {
	ring := hull(picks)
	switch len(ring) {
	case 0, 1:
		return math.Inf(-1), ""
	case 2:
		return beyond(ring[0], ring[1], cg)
	}
	worst, side := math.Inf(-1), ""
	for i, a := range ring {
		b := ring[(i+1)%len(ring)]
		run := b.AtM.Sub(a.AtM)
		out := -(run[0]*(cg[1]-a.AtM[1]) - run[1]*(cg[0]-a.AtM[0])) / math.Hypot(run[0], run[1])
		if out > worst {
			worst, side = out, a.Name+"–"+b.Name
		}
	}
	return worst, side
}

// beyond is how far the CG stands past either end of a line of picks.
func beyond(a, b Pick, cg geom.Vec) (float64, string) {
	x, y := b.AtM[0]-a.AtM[0], b.AtM[1]-a.AtM[1]
	run := math.Hypot(x, y)
	along := ((cg[0]-a.AtM[0])*x + (cg[1]-a.AtM[1])*y) / run
	if -along > along-run {
		return -along, "of pick " + a.Name
	}
	return along - run, "of pick " + b.Name
}

// hull returns the outermost picks in plan, anticlockwise; two for picks in one
// line, one for picks above one another.
//
// Source: the monotone chain; A. M. Andrew, "Another efficient algorithm for
// convex hulls in two dimensions", Inf. Proc. Letters 9(5), 1979 (from memory).
func hull(picks []Pick) []Pick {
	sorted := slices.Clone(picks)
	slices.SortFunc(sorted, func(a, b Pick) int {
		switch {
		case a.AtM[0] != b.AtM[0]:
			return sign(a.AtM[0] - b.AtM[0])
		default:
			return sign(a.AtM[1] - b.AtM[1])
		}
	})
	sorted = slices.CompactFunc(sorted, func(a, b Pick) bool {
		return math.Hypot(a.AtM[0]-b.AtM[0], a.AtM[1]-b.AtM[1]) < 1e-9
	})
	if len(sorted) < 3 {
		return sorted
	}
	half := func(in []Pick) []Pick {
		var out []Pick
		for _, p := range in {
			for len(out) > 1 && turn(out[len(out)-2], out[len(out)-1], p) <= 0 {
				out = out[:len(out)-1]
			}
			out = append(out, p)
		}
		return out[:len(out)-1]
	}
	lower := half(sorted)
	slices.Reverse(sorted)
	return append(lower, half(sorted)...)
}

// turn is the way in m by which c lies to the left of the line from a to b,
// nothing where that is under a micrometre.
func turn(a, b, c Pick) float64 {
	x, y := b.AtM[0]-a.AtM[0], b.AtM[1]-a.AtM[1]
	left := (x*(c.AtM[1]-a.AtM[1]) - y*(c.AtM[0]-a.AtM[0])) / math.Hypot(x, y)
	if math.Abs(left) < 1e-6 {
		return 0
	}
	return left
}

func sign(x float64) int {
	if x < 0 {
		return -1
	}
	return 1
}

// spread is the way in m in plan from the CG to the farthest place.
func spread(at []geom.Vec, cg geom.Vec) float64 {
	far := 0.0
	for _, p := range at {
		far = max(far, math.Hypot(p[0]-cg[0], p[1]-cg[1]))
	}
	return far
}
