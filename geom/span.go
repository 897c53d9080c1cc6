package geom

import (
	"math"

	"github.com/go-gl/mathgl/mgl64"
)

// span is one side of an outline, from p to q: a straight line, or an arc
// with the bulge of a DXF polyline, tan(angle of the arc/4), which is positive
// where the arc runs anticlockwise. An arc stands off its chord by
// bulge·chord/2.
//
// Whatever can be is worked out from the chord, not from the centre, so that
// a flat arc with its centre far away loses no digits.
type span struct {
	p, q  mgl64.Vec2
	bulge float64
}

// arc is a span as seen from its chord: u runs along the chord from its
// middle, w square to it towards the arc.
type arc struct {
	middle, u, w mgl64.Vec2
	half         float64 // half the chord, m
	radius       float64 // m
	back         float64 // the centre is at −back along w, m
	sweep        float64 // half the angle of the arc, rad
}

// arc returns the span's arc; it must have a bulge.
func (s span) arc() arc {
	chord, b := s.q.Sub(s.p), math.Abs(s.bulge)
	length := chord.Len()
	u := chord.Mul(1 / length)
	w := mgl64.Vec2{u[1], -u[0]} // to the right
	if s.bulge < 0 {
		w = mgl64.Vec2{-u[1], u[0]}
	}
	half := length / 2
	return arc{
		middle: s.p.Add(s.q).Mul(0.5), u: u, w: w, half: half,
		radius: half * (1 + b*b) / (2 * b),
		back:   half * (1 - b*b) / (2 * b),
		sweep:  2 * math.Atan(b),
	}
}

// point returns the point of the arc whose radius makes the angle t with w,
// from −sweep at its start to sweep at its end.
func (a arc) point(t float64) mgl64.Vec2 {
	along := a.radius * math.Sin(t)
	up := 2 * a.radius * math.Sin((a.sweep+t)/2) * math.Sin((a.sweep-t)/2) // radius·cos t − back
	return a.middle.Add(a.u.Mul(along)).Add(a.w.Mul(up))
}

// forward returns the direction of the arc at t times its radius.
func (a arc) forward(t float64) mgl64.Vec2 {
	sin, cos := math.Sincos(t)
	return a.u.Mul(a.radius * cos).Sub(a.w.Mul(a.radius * sin))
}

// local returns a point's place along u and w.
func (a arc) local(v mgl64.Vec2) (u, w float64) {
	to := v.Sub(a.middle)
	return to.Dot(a.u), to.Dot(a.w)
}

// above returns how far a point at u, w is outside the arc's whole circle:
// negative inside.
func (a arc) above(u, w float64) float64 {
	// (distance² − radius²)/(distance + radius), with what cancels left out
	return (u*u + w*w - a.half*a.half + 2*w*a.back) / (math.Hypot(u, w+a.back) + a.radius)
}

// addTo counts the span in, measured from the given point: a line by two
// samples, which is exact, an arc by twelve in every quarter turn.
func (s span) addTo(c *cubic, about mgl64.Vec2) {
	s.p, s.q = s.p.Sub(about), s.q.Sub(about)
	if s.bulge == 0 {
		middle, half := s.p.Add(s.q).Mul(0.5), s.q.Sub(s.p).Mul(0.5)
		for _, g := range gauss2 {
			c.add(middle.Add(half.Mul(g.at)), half.Mul(g.weight))
		}
		return
	}
	a := s.arc()
	pieces := math.Ceil(a.sweep / (math.Pi / 4))
	half := a.sweep / pieces
	for i := range int(pieces) {
		middle := -a.sweep + half*float64(2*i+1)
		for _, g := range gauss12 {
			t := middle + half*g.at
			c.add(a.point(t), a.forward(t).Mul(half*g.weight))
		}
	}
}

// reach returns the greatest r·dir over the span.
func (s span) reach(dir mgl64.Vec2) float64 {
	reach := max(s.p.Dot(dir), s.q.Dot(dir))
	if s.bulge == 0 {
		return reach
	}
	a := s.arc()
	if t := math.Atan2(dir.Dot(a.u), dir.Dot(a.w)); math.Abs(t) < a.sweep {
		reach = max(reach, a.point(t).Dot(dir))
	}
	return reach
}

// distance returns how far v is from the span, m.
func (s span) distance(v mgl64.Vec2) float64 {
	if s.bulge == 0 {
		return distanceToSegment(v, s.p, s.q)
	}
	a := s.arc()
	u, w := a.local(v)
	if math.Abs(math.Atan2(u, w+a.back)) <= a.sweep {
		return math.Abs(a.above(u, w))
	}
	return min(v.Sub(s.p).Len(), v.Sub(s.q).Len())
}

// cuts tells whether v is between the arc and its chord. A point on the chord
// goes the way that [inside] takes it to be of the chord.
func (s span) cuts(v mgl64.Vec2) bool {
	if s.bulge == 0 {
		return false
	}
	side := orientation(s.p, s.q, v)
	if side == 0 {
		side = -1
		if s.p[1] == s.q[1] && s.q[0] > s.p[0] {
			side = 1
		}
	}
	if (side < 0) != (s.bulge > 0) {
		return false
	}
	a := s.arc()
	return a.above(a.local(v)) < 0
}

// reversed returns the span run from q to p.
func (s span) reversed() span {
	return span{s.q, s.p, -s.bulge}
}

// facets returns into how many equal chords the span is cut so that none is
// further than chord (m) from it: a line into one, an arc into two to 1024,
// and no fewer than makes 12 of a whole circle.
func (s span) facets(chord float64) int {
	if s.bulge == 0 {
		return 1
	}
	a := s.arc()
	half := min(2*math.Asin(math.Sqrt(min(max(chord/(2*a.radius), 0), 1))), math.Pi/leastSegments)
	if !(half*roundSegments > a.sweep) { // written so that NaN gets the finest too
		return roundSegments
	}
	return max(2, int(math.Ceil(a.sweep/half*(1-1e-12))))
}

// appendPoints adds the span's start and the corners of its n chords but for
// its end.
func (s span) appendPoints(points []mgl64.Vec2, n int) []mgl64.Vec2 {
	points = append(points, s.p)
	if n == 1 {
		return points
	}
	a := s.arc()
	for i := 1; i < n; i++ {
		points = append(points, a.point(a.sweep*(2*float64(i)/float64(n)-1)))
	}
	return points
}
