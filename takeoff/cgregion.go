package takeoff

import (
	"math"

	"plumbhook/geom"
)

// spot is a piece of the load as the CG range sees it: where it may be and a
// range of mass. Each copy of a part is a spot of its own.
type spot struct {
	at, half  geom.Vec // m: anywhere within half of at along each axis
	low, high float64  // kg, above zero
}

// reach returns how far the piece's own centre of gravity can lie in a
// direction: the support of the box that it may be in.
func (s spot) reach(d geom.Vec) float64 {
	far := s.at.Dot(d)
	for i, half := range s.half {
		far += half * math.Abs(d[i])
	}
	return far
}

// spots are all pieces of a load.
type spots []spot

// reach returns the greatest value of
//
//	Σ mᵢ (cᵢ·d) / Σ mᵢ    with each mᵢ anywhere in [lowᵢ, highᵢ]
//
// and each cᵢ anywhere in its box, which is how far the centre of gravity can lie in direction d, in metres for
// a d of length 1.
//
// Whatever the masses, the quotient grows with each cᵢ·d, so that every piece
// stands at the far end of its box. The best choice of masses then is a
// threshold: raising mᵢ moves the quotient towards cᵢ·d,
// so at the maximum every piece that lies beyond the quotient weighs its most
// and every other its least. Begun with all at their least, the quotient with the
// pieces beyond the last one heavy can only rise, and where it rises no more it is
// the maximum: a few rounds.
//
// Exact but for rounding. Masses and places are taken to vary each on its own:
// the widest range, and so the safe one. Source: derived here; the problem is a
// fractional-linear program over a box, the rounds W. Dinkelbach, "On Nonlinear
// Fractional Programming", Management Science 13(7), 1967 (from memory).
func (s spots) reach(d geom.Vec) float64 {
	if len(s) == 0 {
		return 0
	}
	// From a place within the load, so that a far datum costs no digits.
	from := s[0].at.Dot(d)
	far := make([]float64, len(s))
	for i, one := range s {
		far[i] = one.reach(d) - from
	}
	at := s.heavyBeyond(far, math.Inf(1))
	if math.IsNaN(at) { // nothing need weigh anything
		at = s.heavyBeyond(far, math.Inf(-1))
	}
	for {
		next := s.heavyBeyond(far, at)
		if !(next > at) {
			return from + at
		}
		at = next
	}
}

// heavyBeyond is moment over mass where the pieces that are further than a limit
// weigh their most and the others their least.
func (s spots) heavyBeyond(far []float64, limit float64) float64 {
	var mass, moment float64
	for i := range s {
		m := s[i].low
		if far[i] > limit {
			m = s[i].high
		}
		mass += m
		moment += m * far[i]
	}
	return moment / mass
}

// box returns the smallest box along the axes that holds every place where
// the centre of gravity can be.
func (s spots) box() geom.Extent {
	var e geom.Extent
	for i := range 3 {
		var d geom.Vec
		d[i] = 1
		e.Max[i] = s.reach(d)
		e.Min[i] = -s.reach(d.Mul(-1))
	}
	return e
}
