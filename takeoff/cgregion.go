package takeoff

import (
	"math"
	"sort"

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
// and every other its least. With the pieces in the order of cᵢ·d there is one
// place where low changes to high. The places are tried in turn from the far
// end: as long as the next piece lies beyond the quotient so far, making it
// heavy raises the quotient; from the first one that does not, none does.
//
// Exact but for rounding. Masses and places are taken to vary each on its own:
// the widest range, and so the safe one. Source: derived here; the problem is a
// fractional-linear program over a box.
func (s spots) reach(d geom.Vec) float64 {
	if len(s) == 0 {
		return 0
	}
	// From a place within the load, so that a far datum costs no digits.
	from := s[0].at.Dot(d)
	far := make([]float64, len(s))
	order := make([]int, len(s))
	var mass, moment float64
	for i, one := range s {
		far[i], order[i] = one.reach(d)-from, i
		mass += one.low
		moment += one.low * far[i]
	}
	sort.SliceStable(order, func(i, j int) bool { return far[order[i]] > far[order[j]] })
	for _, i := range order {
		if far[i]*mass <= moment {
			break
		}
		mass += s[i].high - s[i].low
		moment += (s[i].high - s[i].low) * far[i]
	}
	return from + moment/mass
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
