package geom

import (
	"math"
	"slices"
)

// crossing is where a ray passes through a face: t in lengths of the ray's
// direction, out is 1 where it leaves the solid and -1 where it enters.
type crossing struct {
	t   float64
	out int
}

// Hits returns the places, in ascending order and in lengths of dir from
// from, where the ray passes through a face, at t ≥ 0. On a closed mesh a ray
// through an edge or a corner that two or more faces share counts as it
// should: once where it passes through, twice or not at all where it grazes.
// Faces that lie along the ray do not count. A dir of zero gives none.
//
// Source: the method of S. Woop, C. Benthin, I. Wald, "Watertight
// Ray/Triangle Intersection", J. Computer Graphics Techniques 2(1), 2013 (from
// memory); ties are broken here as if the ray were moved aside by an
// infinitely small step, which is the same for all faces.
func (m Mesh) Hits(from, dir Vec) []float64 {
	crossings := m.crossings(from, dir)
	hits := make([]float64, 0, len(crossings))
	for _, c := range crossings {
		hits = append(hits, c.t)
	}
	slices.Sort(hits)
	return hits
}

// crossings returns the crossings at t ≥ 0 in the order of the faces.
func (m Mesh) crossings(from, dir Vec) []crossing {
	r, ok := newRay(from, dir)
	if !ok {
		return nil
	}
	var found []crossing
	for _, f := range m.Faces {
		if c, ok := r.through(m.Vertices[f[0]], m.Vertices[f[1]], m.Vertices[f[2]]); ok && c.t >= 0 {
			found = append(found, c)
		}
	}
	return found
}

// through returns where the line of the ray passes through the triangle a, b, c.
func (r ray) through(a, b, c Vec) (crossing, bool) {
	a, b, c = r.seen(a), r.seen(b), r.seen(c)
	u, v := across(b, c), across(c, a)
	out := u.sign
	if out == 0 || v.sign != out {
		return crossing{}, false
	}
	w := across(a, b)
	if w.sign != out {
		return crossing{}, false
	}
	t := (a[2] + b[2] + c[2]) / 3 // for a face so small that its area vanishes
	if whole := u.size + v.size + w.size; whole != 0 {
		t = (u.size*a[2] + v.size*b[2] + w.size*c[2]) / whole
	}
	return crossing{t, out}, true
}

// ray looks along a direction: its axis z, the greatest part of the
// direction, is scaled to t, and x and y are sheared so that the ray is the
// line x = y = 0.
type ray struct {
	from    Vec
	x, y, z int
	shear   Vec
}

func newRay(from, dir Vec) (ray, bool) {
	z := 0
	for i := range dir {
		if math.Abs(dir[i]) > math.Abs(dir[z]) {
			z = i
		}
	}
	if dir[z] == 0 {
		return ray{}, false
	}
	x, y := (z+1)%3, (z+2)%3
	if dir[z] < 0 {
		x, y = y, x // so that left and right stay what they are
	}
	return ray{from, x, y, z, Vec{dir[x] / dir[z], dir[y] / dir[z], 1 / dir[z]}}, true
}

// seen returns p as the ray sees it. The conversions forbid fused
// multiplication, so a shared corner is the same from all of its faces.
func (r ray) seen(p Vec) Vec {
	v := p.Sub(r.from)
	return Vec{
		v[r.x] - float64(r.shear[0]*v[r.z]),
		v[r.y] - float64(r.shear[1]*v[r.z]),
		r.shear[2] * v[r.z],
	}
}

// edge is on which side of an edge the ray passes, and by how much.
type edge struct {
	size float64 // twice the area between ray and edge, signed
	sign int     // never 0 but for an edge that the ray sees as a point
}

// across judges the edge from p to q. Swapping p and q changes the sign and
// nothing else, so the two faces at an edge agree on who has the ray. A ray
// through the edge is judged as if moved by (ε, ε²). Two products that round to
// the same are judged by what rounding left of them, or a corner whose faces are
// all seen from the side would have the ray pass it on both.
func across(p, q Vec) edge {
	one, other := float64(p[0]*q[1]), float64(q[0]*p[1])
	size := one - other
	if size == 0 {
		if left := math.FMA(p[0], q[1], -one) - math.FMA(q[0], p[1], -other); left != 0 {
			return edge{size, int(math.Copysign(1, left))}
		}
	}
	for _, judge := range [3]float64{size, p[1] - q[1], q[0] - p[0]} {
		if judge > 0 {
			return edge{size, 1}
		}
		if judge < 0 {
			return edge{size, -1}
		}
	}
	return edge{size, 0}
}
