package lift

import (
	"math"

	"plumbhook/geom"
)

// Where a leg takes hold it touches the load by its nature: through a lug's hole
// a shackle reaches over the edge of the lug, and a pick may be drawn some way
// under a surface. Common practice, no source, all of them.
const (
	usualFittings = 0.100 // m, how far lug and shackle reach along the leg where nothing is stated
	slackDrawn    = 0.020 // m, how far off the surface of its part a pick may be drawn
	mostShackle   = 0.500 // m, how far a shackle may reach from a hole to the edge of its plate
	holeAround    = 0.100 // m, how far from the pick the sides of a hole may be
	mostJaw       = 0.150 // m, how far to each side of a leg a shackle reaches round a plate
)

// seating is how a leg leaves one part at its pick.
type seating struct {
	from float64 // m along the leg, from where on it must be clear of the part
	hole bool    // the pick is in a hole of the part
	on   bool    // the pick is on the part
}

// seating finds how a leg leaves the part. Toward is of length 1, side is what
// the leg needs to each side.
func (o *obstacle) seating(pick, toward geom.Vec, fittings, side float64) seating {
	s := seating{from: fittings}
	near, ok := o.within(pick, pick.Add(toward.Mul(1e-4)), holeAround, 0)
	if !ok {
		return s
	}
	cut := o.inCut(pick)
	s.hole = (cut || near.Gap > 0 && o.surrounds(pick)) && o.straddled(pick, toward)
	s.on = near.Gap <= slackDrawn
	if !s.hole && !s.on {
		return s
	}
	if out := o.leaves(pick, toward, cut && s.hole, s.hole, fittings); out > 0 {
		s.from = max(fittings, out+2*side)
	}
	return s
}

// leaves is how far along the leg it leaves the part that it takes hold of, 0
// where it is out of it at once or goes on in it.
func (o *obstacle) leaves(pick, toward geom.Vec, cut, hole bool, fittings float64) float64 {
	hits := o.mesh.Hits(pick, toward)
	switch inside := len(hits)%2 == 1; {
	case cut && inside && hits[0] <= mostShackle:
		return hits[0]
	case hole && !inside && len(hits) > 1 && hits[1] <= max(fittings, mostShackle/2):
		return hits[1] // out of the hole into its rim, and out of that
	}
	last := 0.0
	for _, hit := range hits {
		if hit <= fittings {
			last = hit
		}
	}
	return last
}

// surrounds says whether a place lies in a hole of the part's own shape: the part
// is near on both sides along four of the thirteen lines to neighbours in a grid.
func (o *obstacle) surrounds(at geom.Vec) bool {
	both := 0
	for code := 14; code < 27; code++ {
		dir := geom.Vec{float64(code/9 - 1), float64(code/3%3 - 1), float64(code%3 - 1)}
		dir = dir.Mul(holeAround / dir.Len())
		_, ahead := o.within(at, at.Add(dir), 0, 0)
		_, behind := o.within(at, at.Sub(dir), 0, 0)
		if ahead && behind {
			both++
		}
	}
	return both >= 4
}

// straddled says whether a shackle reaches round the part: along some line square
// to the leg there is room on both sides of it. A pocket in a thick part has none.
func (o *obstacle) straddled(pick, toward geom.Vec) bool {
	across, other := squareTo(toward)
	reach := toward.Mul(holeAround)
	for i := range 8 {
		sin, cos := math.Sincos(math.Pi * float64(i) / 8)
		beside := across.Mul(cos).Add(other.Mul(sin)).Mul(mostJaw)
		_, left := o.within(pick.Add(beside), pick.Add(beside).Add(reach), 0, 0)
		_, right := o.within(pick.Sub(beside), pick.Sub(beside).Add(reach), 0, 0)
		if !left && !right {
			return true
		}
	}
	return false
}

// squareTo returns two directions square to one and to each other.
func squareTo(along geom.Vec) (across, other geom.Vec) {
	across = along.Cross(geom.Vec{0, 0, 1})
	if across.Len() < 1e-6*along.Len() {
		across = geom.Vec{1, 0, 0}
	}
	across = across.Mul(1 / across.Len())
	other = along.Cross(across)
	return across, other.Mul(1 / other.Len())
}

// throughCuts says whether a leg, so thick to each side, passes the part without
// its material where the cuts are taken away: along lines beside the leg's own.
func (o *obstacle) throughCuts(from, to geom.Vec, side float64) bool {
	if len(o.cuts) == 0 {
		return false
	}
	along := to.Sub(from)
	across, other := squareTo(along)
	for _, ring := range []struct {
		part  float64
		lines int
	}{{0, 1}, {1. / 3, 8}, {2. / 3, 16}, {1, 36}} {
		for i := range ring.lines {
			sin, cos := math.Sincos(2 * math.Pi * float64(i) / float64(ring.lines))
			beside := across.Mul(cos).Add(other.Mul(sin)).Mul(ring.part * side)
			for _, c := range o.copies {
				if c.meets(from.Add(beside), along) {
					return false
				}
			}
		}
	}
	return true
}

// carved is one copy of a part with the solids cut out of it.
type carved struct {
	mesh geom.Mesh
	cuts []geom.Mesh
	box  geom.Extent
}

// stretches pairs the crossings of a line with a closed surface.
func stretches(hits []float64) [][2]float64 {
	var in [][2]float64
	for i := 0; i+1 < len(hits); i += 2 {
		in = append(in, [2]float64{hits[i], hits[i+1]})
	}
	return in
}

// meets says whether the line from a place along a way meets the body's material.
func (b carved) meets(from, along geom.Vec) bool {
	const hair = 1e-9
	back := math.Ceil((b.box.Diagonal()+b.box.Center().Sub(from).Len())/along.Len()) + 1 // from outside, so that crossings pair up
	start := from.Sub(along.Mul(back))
	var cuts [][2]float64
	for _, c := range b.cuts {
		cuts = append(cuts, stretches(c.Hits(start, along))...)
	}
	for _, in := range stretches(b.mesh.Hits(start, along)) {
		at, end := max(in[0], back), min(in[1], back+1)
		for moved := true; moved; {
			moved = false
			for _, c := range cuts {
				if c[0] <= at+hair && c[1] > at+hair {
					at, moved = c[1], true
				}
			}
		}
		if at < end-hair {
			return true
		}
	}
	return false
}
