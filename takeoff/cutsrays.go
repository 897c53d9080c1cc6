package takeoff

import (
	"cmp"
	"math"
	"slices"
	"sort"

	"github.com/go-gl/mathgl/mgl64"

	"plumbhook/geom"
)

// rays are a bundle of parallel lines along the z axis of a frame, each of
// which stands for the same area. What solids have in common is found along
// each of them without error, and added up.
type rays struct {
	at   []mgl64.Vec2 // where they pass, in the order of x, m
	cell float64      // m², the area that one stands for
	box  geom.Extent  // m, no ray passes outside its x-y sides
}

// Sizes of a lattice: numbers of Fibonacci, each with the one before it.
var (
	coarse = [2]int{987, 610}
	middle = [2]int{4181, 2584}
	fine   = [2]int{10946, 6765}
	finest = [2]int{46368, 28657}
)

// lattice spreads rays over the x-y sides of a box, evenly and always alike.
// Along a straight edge it errs far less than a square grid, which puts whole
// rows of lines on one side of it.
//
// Source: the Fibonacci lattice rule, S. K. Zaremba, Ann. Mat. Pura Appl. 73,
// 1966 (from memory).
func lattice(box geom.Extent, size [2]int) rays {
	n, g := size[0], size[1]
	sides := box.Size()
	r := rays{at: make([]mgl64.Vec2, n), cell: sides[0] * sides[1] / float64(n), box: box}
	for i := range r.at {
		x, y := (float64(i)+0.5)/float64(n), (float64(i*g%n)+0.5)/float64(n)
		r.at[i] = mgl64.Vec2{box.Min[0] + sides[0]*x, box.Min[1] + sides[1]*y}
	}
	return r
}

// crossing is where a ray passes through a surface.
type crossing struct {
	ray  int
	z    float64
	into int // 1 where it enters the solid going up, -1 where it leaves
}

// through returns the stretches of each ray that lie inside a mesh, given in
// the frame of the rays. Inside is where the surface winds round.
func (r rays) through(m geom.Mesh) []stretches {
	var found []crossing
	for i := range m.Faces {
		a, b, c := m.Triangle(i)
		found = r.pierce(found, a, b, c)
	}
	out := make([]stretches, len(r.at))
	for i, hits := range byRay(found, len(r.at)) {
		out[i] = within(hits)
	}
	return out
}

// byRay sorts crossings into those of each ray.
func byRay(found []crossing, n int) [][]crossing {
	ends := make([]int, n+1)
	for _, c := range found {
		ends[c.ray+1]++
	}
	for i := range n {
		ends[i+1] += ends[i]
	}
	sorted, next := make([]crossing, len(found)), slices.Clone(ends)
	for _, c := range found {
		sorted[next[c.ray]] = c
		next[c.ray]++
	}
	out := make([][]crossing, n)
	for i := range out {
		out[i] = sorted[ends[i]:ends[i+1]]
	}
	return out
}

// within returns the stretches between the crossings of one ray that lie inside.
func within(hits []crossing) stretches {
	slices.SortFunc(hits, func(a, b crossing) int {
		if a.z != b.z {
			return cmp.Compare(a.z, b.z)
		}
		return cmp.Compare(b.into, a.into)
	})
	var in stretches
	depth, from := 0, 0.0
	for _, c := range hits {
		before := depth
		depth += c.into
		switch {
		case before <= 0 && depth > 0:
			from = c.z
		case before > 0 && depth <= 0:
			in = in.and(stretch{from, c.z})
		}
	}
	return in
}

// pierce adds the crossings of the rays with one triangle. Neighbours agree on
// which of them has a ray that passes through their common edge.
func (r rays) pierce(found []crossing, a, b, c geom.Vec) []crossing {
	least, most := min(a[0], b[0], c[0]), max(a[0], b[0], c[0])
	low, high := min(a[1], b[1], c[1]), max(a[1], b[1], c[1])
	if least > r.box.Max[0] || most < r.box.Min[0] || low > r.box.Max[1] || high < r.box.Min[1] {
		return found
	}
	for i := sort.Search(len(r.at), func(i int) bool { return r.at[i][0] >= least }); i < len(r.at) && r.at[i][0] <= most; i++ {
		p := r.at[i]
		if p[1] < low || p[1] > high {
			continue
		}
		u, side := across(p, b, c)
		v, same := across(p, c, a)
		if side == 0 || same != side {
			continue
		}
		w, same := across(p, a, b)
		if same != side {
			continue
		}
		z := (a[2] + b[2] + c[2]) / 3 // for a triangle so small that its area vanishes
		if whole := u + v + w; whole != 0 {
			z = (u*a[2] + v*b[2] + w*c[2]) / whole
		}
		found = append(found, crossing{i, z, -side})
	}
	return found
}

// across returns twice the area between a ray and an edge from p to q as seen
// along the ray, and on which side of the edge the ray passes; one through the
// edge as if it were moved aside by an infinitely small step, the same for all
// edges. The conversions forbid fused multiplication, so that an edge is judged
// alike from both of its faces. See [geom.Mesh.Hits].
func across(ray mgl64.Vec2, p, q geom.Vec) (area float64, side int) {
	px, py, qx, qy := p[0]-ray[0], p[1]-ray[1], q[0]-ray[0], q[1]-ray[1]
	area = float64(px*qy) - float64(qx*py)
	for _, judge := range [3]float64{area, py - qy, qx - px} {
		if judge != 0 {
			return area, cmp.Compare(judge, 0)
		}
	}
	return area, 0
}

// sum adds up the moments of what the stretches stand for.
func (r rays) sum(list []stretches) geom.Moments {
	var v, x, y, z, xx, yy, zz, xy, yz, zx float64
	for i, in := range list {
		p := r.at[i]
		for _, s := range in {
			l, l2, l3 := s.to-s.from, (s.to*s.to-s.from*s.from)/2, (s.to*s.to*s.to-s.from*s.from*s.from)/3
			v, x, y, z = v+l, x+p[0]*l, y+p[1]*l, z+l2
			xx, yy, zz = xx+p[0]*p[0]*l, yy+p[1]*p[1]*l, zz+l3
			xy, yz, zx = xy+p[0]*p[1]*l, yz+p[1]*l2, zx+p[0]*l2
		}
	}
	return geom.Moments{
		Volume: v, First: geom.Vec{x, y, z},
		Second: mgl64.Mat3FromRows(geom.Vec{xx, xy, zx}, geom.Vec{xy, yy, yz}, geom.Vec{zx, yz, zz}),
	}.Times(r.cell)
}

// stretch is a piece of a ray, in m along it.
type stretch struct{ from, to float64 }

// stretches are pieces of one ray in their order, apart from each other.
type stretches []stretch

// and adds a stretch at the end; one that touches the last is joined to it.
func (s stretches) and(t stretch) stretches {
	if n := len(s); n > 0 && t.from <= s[n-1].to {
		s[n-1].to = max(s[n-1].to, t.to)
		return s
	}
	return append(s, t)
}

// common returns what lies in both.
func (s stretches) common(t stretches) stretches {
	var out stretches
	for i, j := 0, 0; i < len(s) && j < len(t); {
		if from, to := max(s[i].from, t[j].from), min(s[i].to, t[j].to); to > from {
			out = append(out, stretch{from, to})
		}
		if s[i].to < t[j].to {
			i++
		} else {
			j++
		}
	}
	return out
}

// without returns what of s is not in t.
func (s stretches) without(t stretches) stretches {
	if len(t) == 0 {
		return s
	}
	var out stretches
	for _, one := range s {
		from := one.from
		for _, c := range t {
			if c.to <= from || c.from >= one.to {
				continue
			}
			if c.from > from {
				out = append(out, stretch{from, c.from})
			}
			from = c.to
		}
		if one.to > from {
			out = append(out, stretch{from, one.to})
		}
	}
	return out
}

// over drops the stretches that are no longer than hair.
func (s stretches) over(hair float64) stretches {
	return slices.DeleteFunc(slices.Clone(s), func(t stretch) bool { return t.to-t.from <= hair })
}

// longest returns the length of the longest stretch.
func (s stretches) longest() float64 {
	most := 0.0
	for _, t := range s {
		most = max(most, t.to-t.from)
	}
	return most
}

// each puts two lists of the same rays together, ray by ray.
func each(a, b []stretches, join func(s, t stretches) stretches) []stretches {
	out := make([]stretches, len(a))
	for i := range a {
		out[i] = join(a[i], b[i])
	}
	return out
}

// solidAt is a solid where it stands, with its mesh, which is made when it is
// asked for.
type solidAt struct {
	solid geom.Solid
	pose  geom.Pose
	own   geom.Extent // of the solid, in its own frame
	box   geom.Extent // along the load's axes
	made  *geom.Mesh

	fineness float64  // of its mesh; 0: meshFineness
	first    *solidAt // the copy that keeps the mesh for all; nil: this one
}

// meshFineness is the chord of the meshes that rays are sent through, as a
// part of the least side of the solid's box. A round bar gets 350 sides.
const meshFineness = 2e-5

func placed(s geom.Solid, p geom.Pose) *solidAt {
	return &solidAt{solid: s, pose: p, own: geom.ExtentOf(s, geom.Still()), box: geom.ExtentOf(s, p)}
}

// mesh returns the surface in the solid's own frame.
func (s *solidAt) mesh() geom.Mesh {
	if s.first != nil {
		return s.first.mesh()
	}
	if s.made == nil {
		sides, fineness := s.own.Size(), meshFineness
		if s.fineness > 0 {
			fineness = s.fineness
		}
		m := s.solid.Mesh(min(sides[0], sides[1], sides[2]) * fineness)
		s.made = &m
	}
	return *s.made
}

// seen returns the mesh in a frame.
func (s *solidAt) seen(frame geom.Pose) geom.Mesh { return s.mesh().Posed(from(frame, s.pose)) }

// isMesh tells whether the solid was given as a mesh.
func (s *solidAt) isMesh() bool {
	_, mesh := s.solid.(geom.Body)
	return mesh
}

// volume returns the volume of the solid in m³.
func (s *solidAt) volume() float64 { return s.solid.Moments().Volume }

// frame returns a frame in the middle of the solid whose z axis is the solid's
// axis 0 (x), 1 (y) or 2 (z), and the box of the solid in it.
func (s *solidAt) frame(axis int) (geom.Pose, geom.Extent) {
	half := s.own.Size().Mul(0.5)
	half = geom.Vec{half[(axis+1)%3], half[(axis+2)%3], half[axis]}
	turn := mgl64.Mat3{}
	for i := range 3 {
		turn.Set((axis+1+i)%3, i, 1)
	}
	return geom.Pose{Turn: s.pose.Turn.Mul3(turn), Move: s.pose.Point(s.own.Center())}, geom.Extent{Min: half.Mul(-1), Max: half}
}

// roundness is how much of the volume the solid's mesh leaves out, as a part.
func (s *solidAt) roundness() float64 {
	whole := s.volume()
	return math.Abs(whole-s.mesh().Moments().Volume) / whole
}

// from returns a pose as it is seen from a frame.
func from(frame, p geom.Pose) geom.Pose {
	return geom.Pose{Turn: frame.Turn.Transpose().Mul3(p.Turn), Move: frame.Back(p.Move)}
}

// shared returns the box that both have in common; its sides may be below zero.
func shared(a, b geom.Extent) geom.Extent {
	for i := range a.Min {
		a.Min[i], a.Max[i] = max(a.Min[i], b.Min[i]), min(a.Max[i], b.Max[i])
	}
	return a
}

// thick tells whether each side of a box is longer than hair.
func thick(e geom.Extent, hair float64) bool {
	sides := e.Size()
	return min(sides[0], sides[1], sides[2]) > hair
}
