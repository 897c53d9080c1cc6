package geom

import (
	"math"
	"math/big"

	"github.com/go-gl/mathgl/mgl64"
)

// orientation tells which way the path a, b, c turns: 1 to the left
// (anticlockwise), -1 to the right, 0 straight on. The answer is exact: the
// determinant decides where rounding cannot change its sign, and rational
// arithmetic where it could. What is built on it cannot contradict itself.
//
// Source: the error bound is from J. R. Shewchuk, "Adaptive Precision
// Floating-Point Arithmetic and Fast Robust Geometric Predicates", Discrete &
// Computational Geometry 18, 1997 (from memory).
func orientation(a, b, c mgl64.Vec2) int {
	const epsilon = 0x1p-53
	ax, ay, bx, by := a[0]-c[0], a[1]-c[1], b[0]-c[0], b[1]-c[1]
	if (ax == 0 || by == 0) && (ay == 0 || bx == 0) {
		return 0
	}
	left, right := ax*by, ay*bx
	det := left - right
	switch bound := (3 + 16*epsilon) * epsilon * (math.Abs(left) + math.Abs(right)); {
	case det > bound:
		return 1
	case det < -bound:
		return -1
	}
	return exactOrientation(a, b, c)
}

func exactOrientation(a, b, c mgl64.Vec2) int {
	minus := func(p, q float64) *big.Rat {
		return new(big.Rat).Sub(new(big.Rat).SetFloat64(p), new(big.Rat).SetFloat64(q))
	}
	left := new(big.Rat).Mul(minus(a[0], c[0]), minus(b[1], c[1]))
	right := new(big.Rat).Mul(minus(a[1], c[1]), minus(b[0], c[0]))
	return left.Cmp(right)
}

// touching tells whether the closed segments p–q and r–s have a point in
// common, and about where.
func touching(p, q, r, s mgl64.Vec2) (at mgl64.Vec2, yes bool) {
	o1, o2 := orientation(p, q, r), orientation(p, q, s)
	o3, o4 := orientation(r, s, p), orientation(r, s, q)
	switch {
	case o1 == 0 && inBox(r, p, q):
		return r, true
	case o2 == 0 && inBox(s, p, q):
		return s, true
	case o3 == 0 && inBox(p, r, s):
		return p, true
	case o4 == 0 && inBox(q, r, s):
		return q, true
	case o1*o2 >= 0 || o3*o4 >= 0:
		return at, false
	}
	along, other := q.Sub(p), s.Sub(r)
	t := 0.5 // only if rounding hides the angle between them
	if det := along[0]*other[1] - along[1]*other[0]; det != 0 {
		gap := r.Sub(p)
		t = min(max((gap[0]*other[1]-gap[1]*other[0])/det, 0), 1)
	}
	return p.Add(along.Mul(t)), true
}

// inBox tells whether v is in the box along the axes between p and q.
func inBox(v, p, q mgl64.Vec2) bool {
	return within(v[0], min(p[0], q[0]), max(p[0], q[0]), 0) &&
		within(v[1], min(p[1], q[1]), max(p[1], q[1]), 0)
}

// inside tells whether p is inside the ring; a point on it may go either way.
func inside(ring []mgl64.Vec2, p mgl64.Vec2) bool {
	odd := false
	for i, a := range ring {
		b := ring[(i+1)%len(ring)]
		if (a[1] > p[1]) == (b[1] > p[1]) {
			continue // the side does not cross the level of p
		}
		if side := orientation(a, b, p); (side > 0) == (b[1] > a[1]) {
			odd = !odd // the side passes to the right of p
		}
	}
	return odd
}

// anticlockwise tells which way a ring without crossings runs round: by the
// turn at its leftmost (then lowest) point, which is always convex.
func anticlockwise(ring []mgl64.Vec2) bool {
	low := 0
	for i, p := range ring {
		if p[0] < ring[low][0] || (p[0] == ring[low][0] && p[1] < ring[low][1]) {
			low = i
		}
	}
	n := len(ring)
	return orientation(ring[(low+n-1)%n], ring[low], ring[(low+1)%n]) > 0
}

// distanceToSegment returns the distance in m of v from the segment p–q.
func distanceToSegment(v, p, q mgl64.Vec2) float64 {
	along, to := q.Sub(p), v.Sub(p)
	t := 0.0
	if length := along.Dot(along); length > 0 {
		t = min(max(to.Dot(along)/length, 0), 1)
	}
	return to.Sub(along.Mul(t)).Len()
}
