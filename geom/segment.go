package geom

import "math"

// lineSegment is the straight line from one point to another; both may be one.
type lineSegment struct {
	from, along Vec // along: from one end to the other
	lengthSqr   float64
}

func newLineSegment(from, to Vec) lineSegment {
	along := to.Sub(from)
	return lineSegment{from, along, along.LenSqr()}
}

// at returns the point at t: 0 is one end, 1 the other.
func (s lineSegment) at(t float64) Vec { return s.from.Add(s.along.Mul(t)) }

// meeting is where a segment and something else come nearest to each other.
type meeting struct {
	gap float64 // m
	t   float64 // along the segment, 0 to 1
	at  Vec     // on the other thing
}

// nearer returns the meeting with the smaller gap, the first of two equal ones.
func (m meeting) nearer(n meeting) meeting {
	if n.gap < m.gap {
		return n
	}
	return m
}

// toTriangle returns where the segment is nearest to the triangle a, b, c. It
// is where the segment passes through it, else over or under an end of the
// segment, else at an edge. A triangle without area is its edges, and so is a
// needle: see isNeedle.
//
// Source: the cases of C. Ericson, "Real-Time Collision Detection", 2005,
// section 5.1.10 (from memory).
func (s lineSegment) toTriangle(a, b, c Vec) meeting {
	best := s.toSegment(a, b).nearer(s.toSegment(b, c)).nearer(s.toSegment(c, a))
	normal := b.Sub(a).Cross(c.Sub(a))
	area := normal.LenSqr()
	if isNeedle(area, a, b, c) {
		return best
	}
	begin, end := s.from.Sub(a).Dot(normal), s.at(1).Sub(a).Dot(normal)
	if begin != end && min(begin, end) <= 0 && max(begin, end) >= 0 {
		t := begin / (begin - end)
		if p := s.at(t); overTriangle(p, normal, a, b, c) {
			return meeting{0, t, p}
		}
	}
	for t, height := range [2]float64{begin, end} {
		p := s.at(float64(t))
		if gap := math.Abs(height) / math.Sqrt(area); gap < best.gap && overTriangle(p, normal, a, b, c) {
			best = meeting{gap, float64(t), p.Sub(normal.Mul(height / area))}
		}
	}
	return best
}

// isNeedle tells whether a triangle, whose normal has a length of √area, is less
// than 1e-8 of its longest side high. The direction of its normal is then lost in
// rounding by as much, and the triangle is as good as its edges: to 1e-8 of its size
// either way.
func isNeedle(area float64, a, b, c Vec) bool {
	longest := max(b.Sub(a).LenSqr(), c.Sub(b).LenSqr(), a.Sub(c).LenSqr())
	return area <= 1e-16*longest*longest
}

// overTriangle tells whether p is straight over, under or on the triangle.
func overTriangle(p, normal, a, b, c Vec) bool {
	return normal.Cross(b.Sub(a)).Dot(p.Sub(a)) >= 0 &&
		normal.Cross(c.Sub(b)).Dot(p.Sub(b)) >= 0 &&
		normal.Cross(a.Sub(c)).Dot(p.Sub(c)) >= 0
}

// toSegment returns where the segment is nearest to the one from a to b. With
// d and e along the two and r from a to the beginning of the first, the lines
// are nearest at
//
//	t = (d × e)·(e × r) / |d × e|²
//
// Derived here: the difference r + t·d − u·e is square to d and to e, and u is
// put away with (p×q)·(r×s) = (p·r)(q·s) − (p·s)(q·r). In this form lines that
// are nearly parallel lose no digits of the distance.
func (s lineSegment) toSegment(a, b Vec) meeting {
	edge := newLineSegment(a, b)
	if s.lengthSqr == 0 {
		return s.settle(edge, 0)
	}
	cross := s.along.Cross(edge.along)
	if size := cross.LenSqr(); size > 1e-28*s.lengthSqr*edge.lengthSqr {
		t := cross.Dot(edge.along.Cross(s.from.Sub(a))) / size
		return s.settle(edge, min(max(t, 0), 1))
	}
	return s.settle(edge, 0).nearer(s.settle(edge, 1))
}

// settle returns the meeting with the other segment that begins from t: to the
// nearest point there, and from that back to the nearest here.
func (s lineSegment) settle(other lineSegment, t float64) meeting {
	p := other.at(other.nearest(s.at(t)))
	t = s.nearest(p)
	return meeting{s.at(t).Sub(p).Len(), t, p}
}

// nearest returns where on the segment, 0 to 1, it is nearest to p.
func (s lineSegment) nearest(p Vec) float64 {
	if s.lengthSqr == 0 {
		return 0
	}
	return min(max(p.Sub(s.from).Dot(s.along)/s.lengthSqr, 0), 1)
}

// fromBox returns a length in m that the segment is at least away from the box,
// nearly always just the distance, and 0 where they meet.
//
// Derived here: the square of the distance of a point from the box is convex
// along the line and in each stretch of it a parabola, so a few Newton steps
// find its least value. From wherever they end, the plane square to the nearest
// way over to the box stands between the box and all that is beyond it.
func (s lineSegment) fromBox(box Extent) float64 {
	t := s.nearest(box.Center())
	for range 4 {
		slope, bend := 0.0, 0.0
		p := s.at(t)
		for i, x := range p {
			if out := beyond(x, box.Min[i], box.Max[i]); out != 0 {
				slope += out * s.along[i]
				bend += s.along[i] * s.along[i]
			}
		}
		if bend == 0 {
			break
		}
		next := min(max(t-slope/bend, 0), 1)
		if next == t {
			break
		}
		t = next
	}
	return s.beyondPlane(s.at(t), box)
}

// beyondPlane returns how far the segment is beyond the plane that touches the
// box where it is nearest to p, 0 if not at all.
func (s lineSegment) beyondPlane(p Vec, box Extent) float64 {
	var over, touch Vec
	for i, x := range p {
		over[i] = beyond(x, box.Min[i], box.Max[i])
		touch[i] = x - over[i]
	}
	size := over.LenSqr()
	if size == 0 {
		return 0
	}
	begin := s.from.Sub(touch).Dot(over)
	return max(0, min(begin, begin+s.along.Dot(over))/math.Sqrt(size))
}

// beyond returns how far x is above high, or (negative) below low.
func beyond(x, low, high float64) float64 {
	return max(x-high, 0) + min(x-low, 0)
}
