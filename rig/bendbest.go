package rig

import "math"

// BestPicks returns the two places in metres at which the beam bends least when
// it is hung there, on both sides of its CG. Ends, from and to, is where picks may
// be.
//
// Derived here: the hogging moment over a pick is that of what overhangs, whatever
// the other pick, and grows as the pick goes in; the sagging moment between them
// shrinks. So of all pairs with no more than m over either pick those that are
// farthest in sag least, and the least m that is no less than the sag is the
// best. It is found by halving. An even beam: 0.2071·L from its ends.
func (b Beam) BestPicks(from, to float64) (x1, x2 float64, bent Bending, err error) {
	cg, weight := b.balance()
	if !positive(weight) || !(from < cg && cg < to) {
		return 0, 0, Bending{}, &InputError{"the picks of the beam can't be on both sides of its CG", "give places on both sides of it"}
	}
	pair := func(most float64) (float64, float64) {
		left := farthestIn(from, cg, func(x float64) float64 { return -b.moment(x) }, most)
		right := farthestIn(to, cg, func(x float64) float64 { return b.overhangRight(x) }, most)
		return left, right
	}
	low, high := 0.0, max(-b.moment(cg), b.overhangRight(cg))
	for range 60 {
		m := (low + high) / 2
		x1, x2 = pair(m)
		if bent, err = b.Bending(x1, x2); err != nil {
			return 0, 0, Bending{}, err
		}
		if bent.Sagging.Moment > m {
			low = m
		} else {
			high = m
		}
	}
	x1, x2 = pair(high)
	bent, err = b.Bending(x1, x2)
	return x1, x2, bent, err
}

// farthestIn is how far in from the end toward the CG a pick may go for the moment
// over it, which grows on the way, to be no more than most. It stays a little short
// of the CG.
func farthestIn(end, cg float64, over func(float64) float64, most float64) float64 {
	near, far := 0.0, 1-1e-6
	for range 60 {
		middle := (near + far) / 2
		if over(end+(cg-end)*middle) > most {
			far = middle
		} else {
			near = middle
		}
	}
	return end + (cg-end)*near
}

// balance returns the CG of the beam in m and its weight in N.
func (b Beam) balance() (cg, weight float64) {
	about := 0.0
	for _, l := range b.Line {
		w := l.Each * (l.To - l.From)
		weight, about = weight+w, about+w*(l.From+l.To)/2
	}
	for _, p := range b.Point {
		weight, about = weight+p.Weight, about+p.Weight*p.At
	}
	return about / weight, weight
}

// overhangRight is the moment in N·m at x of all that stands to the right of it.
func (b Beam) overhangRight(x float64) float64 {
	sum := 0.0
	for _, l := range b.Line {
		if from := max(x, l.From); l.To > from {
			sum += l.Each * (l.To - from) * ((from+l.To)/2 - x)
		}
	}
	for _, p := range b.Point {
		sum += p.Weight * max(0, p.At-x)
	}
	return math.Max(sum, 0)
}
