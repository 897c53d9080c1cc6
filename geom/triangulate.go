package geom

import (
	"cmp"
	"slices"

	"github.com/go-gl/mathgl/mgl64"
)

// triangulate cuts the figure with the given rings into triangles without new
// points, anticlockwise, numbered through the rings. The first ring is the
// outline, anticlockwise; the others are holes, clockwise; checkRings has
// passed them.
//
// Each hole is tied to the outline by a bridge, run along both ways, which
// leaves one closed walk; then corners are cut off it as long as there are
// any. Every decision is made with the exact [orientation], so a figure that
// has passed the checks always comes out whole.
//
// Source: ear clipping after G. H. Meisters, "Polygons have ears", American
// Mathematical Monthly 82, 1975 (from memory).
func triangulate(rings [][]mgl64.Vec2) ([][3]int, error) {
	c := clipper{points: slices.Concat(rings...)}
	var holes [][]int
	start := 0
	for i, ring := range rings {
		walk := make([]int, len(ring))
		for j := range walk {
			walk[j] = start + j
		}
		start += len(ring)
		if i == 0 {
			c.walk = walk
		} else {
			holes = append(holes, c.fromRightmost(walk))
		}
	}
	// The rightmost hole first: to the right of its rightmost point there is
	// nothing but the walk, so a bridge is always found.
	slices.SortStableFunc(holes, func(a, b []int) int { return cmp.Compare(c.points[b[0]][0], c.points[a[0]][0]) })
	for i, hole := range holes {
		if !c.bridge(hole, holes[i:]) {
			return nil, errNoTriangles
		}
	}
	return c.clip()
}

// errNoTriangles cannot come up for rings that have passed the checks.
var errNoTriangles = &ShapeError{"the outline and its holes could not be cut into triangles", "draw it as several simpler parts"}

// clipper holds the points of all rings and the closed walk, as numbers of
// points, of what is left to cut.
type clipper struct {
	points []mgl64.Vec2
	walk   []int
}

func (c *clipper) turn(i, j, k int) int {
	return orientation(c.points[i], c.points[j], c.points[k])
}

// fromRightmost returns the ring's numbers starting at its rightmost point.
func (c *clipper) fromRightmost(ring []int) []int {
	right := 0
	for i := range ring {
		if c.points[ring[i]][0] > c.points[ring[right]][0] {
			right = i
		}
	}
	return slices.Concat(ring[right:], ring[:right])
}

// bridge ties the hole to the walk by a line from its first point to the
// nearest corner of the walk that can be seen from there past the walk and
// the open holes (this one among them).
func (c *clipper) bridge(hole []int, open [][]int) bool {
	from := hole[0]
	near := make([]int, len(c.walk))
	distance := make([]float64, len(c.walk))
	for i, point := range c.walk {
		near[i], distance[i] = i, c.points[point].Sub(c.points[from]).Len()
	}
	slices.SortStableFunc(near, func(i, j int) int { return cmp.Compare(distance[i], distance[j]) })
	for _, i := range near {
		if !c.faces(i, from) || !c.sees(c.walk, c.walk[i], from) {
			continue
		}
		if slices.ContainsFunc(open, func(h []int) bool { return !c.sees(h, c.walk[i], from) }) {
			continue
		}
		c.walk = slices.Concat(c.walk[:i+1], hole, []int{from}, c.walk[i:])
		return true
	}
	return false
}

// faces tells whether the corner at place i of the walk opens towards point
// p: a point of the outline that has a bridge is there more than once.
// Source: the test InCone of J. O'Rourke, "Computational Geometry in C", 2nd
// ed., ch. 1 (from memory).
func (c *clipper) faces(i, p int) bool {
	n := len(c.walk)
	before, at, after := c.walk[(i+n-1)%n], c.walk[i], c.walk[(i+1)%n]
	if c.turn(before, at, after) >= 0 {
		return c.turn(at, p, before) > 0 && c.turn(p, at, after) > 0
	}
	return c.turn(at, p, after) < 0 || c.turn(p, at, before) < 0
}

// sees tells whether the line between points p and q meets no side of the
// ring but where it ends.
func (c *clipper) sees(ring []int, p, q int) bool {
	for i, a := range ring {
		b := ring[(i+1)%len(ring)]
		switch {
		case a == p || a == q:
			if b != p && b != q && c.onLine(b, p, q) {
				return false
			}
		case b == p || b == q:
			if c.onLine(a, p, q) {
				return false
			}
		default:
			if _, yes := touching(c.points[a], c.points[b], c.points[p], c.points[q]); yes {
				return false
			}
		}
	}
	return true
}

// onLine tells whether point i lies on the line between p and q.
func (c *clipper) onLine(i, p, q int) bool {
	return c.turn(p, q, i) == 0 && inBox(c.points[i], c.points[p], c.points[q])
}

// clip cuts the walk into triangles, taking corners from all around it.
func (c *clipper) clip() ([][3]int, error) {
	n := len(c.walk)
	next, before := make([]int, n), make([]int, n)
	for i := range n {
		next[i], before[(i+1)%n] = (i+1)%n, i
	}
	var faces [][3]int
	for at, left, misses := 0, n, 0; left > 2; {
		if misses > left {
			return nil, errNoTriangles
		}
		if !c.isEar(before, at, next) {
			at, misses = next[at], misses+1
			continue
		}
		a, b := before[at], next[at]
		faces = append(faces, [3]int{c.walk[a], c.walk[at], c.walk[b]})
		next[a], before[b] = b, a
		at, left, misses = next[b], left-1, 0
	}
	return faces, nil
}

// isEar tells whether the corner at can be cut off: it is convex and no other
// corner of the walk lies in its triangle or on its sides. A point that the
// walk passes more than once does not hinder itself.
func (c *clipper) isEar(before []int, at int, next []int) bool {
	i, j, k := c.walk[before[at]], c.walk[at], c.walk[next[at]]
	if c.turn(i, j, k) <= 0 {
		return false
	}
	p, q, r := c.points[i], c.points[j], c.points[k]
	low := mgl64.Vec2{min(p[0], q[0], r[0]), min(p[1], q[1], r[1])}
	high := mgl64.Vec2{max(p[0], q[0], r[0]), max(p[1], q[1], r[1])}
	for o := next[next[at]]; o != before[at]; o = next[o] {
		v := c.walk[o]
		if v == i || v == j || v == k || !inBox(c.points[v], low, high) {
			continue
		}
		if c.turn(i, j, v) >= 0 && c.turn(j, k, v) >= 0 && c.turn(k, i, v) >= 0 {
			return false
		}
	}
	return true
}
