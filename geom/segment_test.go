package geom

import (
	"math"
	"strconv"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

// Wants by hand, on the triangle with corners at the origin, 4 m along x and
// 4 m along y.
func TestSegmentToTriangle(t *testing.T) {
	a, b, c := Vec{}, Vec{4, 0, 0}, Vec{0, 4, 0}
	tests := []struct {
		name     string
		from, to Vec
		gap, t   float64
		at       Vec
	}{
		{"through it", Vec{1, 1, 3}, Vec{1, 1, -1}, 0, 0.75, Vec{1, 1, 0}},
		{"ends on it", Vec{1, 1, 3}, Vec{1, 1, 0}, 0, 1, Vec{1, 1, 0}},
		{"ends 1 mm over it", Vec{2, 1, 3}, Vec{1, 1, 0.001}, 0.001, 1, Vec{1, 1, 0}},
		{"begins 1 mm under it", Vec{1, 1, -0.001}, Vec{1, 1, -2}, 0.001, 0, Vec{1, 1, 0}},
		{"passes an edge at right angles", Vec{2, -3, -5}, Vec{2, -3, 5}, 3, 0.5, Vec{2, 0, 0}},
		{"passes the long edge", Vec{4, 4, -1}, Vec{4, 4, 1}, math.Sqrt(8), 0.5, Vec{2, 2, 0}},
		{"beside a corner", Vec{-3, -4, 0}, Vec{-30, -40, 7}, 5, 0, Vec{}},
		{"in its plane, across", Vec{1, -1, 0}, Vec{1, 9, 0}, 0, 0.1, Vec{1, 0, 0}},
		{"in its plane, beside", Vec{-1, 1, 0}, Vec{-2, 1, 0}, 1, 0, Vec{0, 1, 0}},
		{"a point over it", Vec{1, 1, 2}, Vec{1, 1, 2}, 2, 0, Vec{1, 1, 0}},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			got := newLineSegment(tt.from, tt.to).toTriangle(a, b, c)
			assert.InDelta(t, tt.gap, got.gap, 1e-15)
			assert.InDelta(t, tt.t, got.t, 1e-15)
			nearVec(t, tt.at, got.at, 1e-15)
		})
	}
	assert.InDelta(t, 5, newLineSegment(Vec{3, 4, -1}, Vec{3, 4, 1}).toTriangle(a, a, a).gap, 1e-15, "a point for a triangle")
	// Found by drawing at random: a needle of 1e-16 m whose normal is noise.
	p, q := Vec{1, 1, 0.5}, Vec{0.5000009536743164, -1.03125, 3}
	r := p.Add(q.Sub(p).Mul(0.4)).Add(Vec{2.9103830456733704e-17, 5.820766091346741e-17, 2.3283064365386963e-16})
	beyond := q.Add(r.Sub(p)) // off the end of the needle by 0.4 of it
	assert.InDelta(t, r.Sub(p).Len(), newLineSegment(beyond, beyond).toTriangle(p, q, r).gap, 1e-12, "a needle")
	assert.InDelta(t, 3, newLineSegment(Vec{2, 3, -1}, Vec{2, 3, 1}).toTriangle(a, b, a).gap, 1e-15, "a line for a triangle")
}

// drawLine draws a line near to or through the triangle, of any slope to it,
// often in its plane or along an edge.
func drawLine(t *rapid.T, a, b, c Vec) (from, to Vec) {
	place := func(name string) Vec {
		u, v := rapid.Float64Range(-1, 2).Draw(t, name+" u"), rapid.Float64Range(-1, 2).Draw(t, name+" v")
		p := a.Add(b.Sub(a).Mul(u)).Add(c.Sub(a).Mul(v))
		off := rapid.SampledFrom([]float64{0, 1e-9, 1e-3, 1, 5}).Draw(t, name+" off")
		return p.Add(drawVec(t, name, 1).Mul(off))
	}
	return place("from"), place("to")
}

// drawTriangle draws a triangle of metres, sometimes a sliver.
func drawTriangle(t *rapid.T) (a, b, c Vec) {
	a, b, c = drawVec(t, "a", 3), drawVec(t, "b", 3), drawVec(t, "c", 3)
	if rapid.Bool().Draw(t, "sliver") {
		c = a.Add(b.Sub(a).Mul(0.4)).Add(c.Mul(1e-6))
	}
	return a, b, c
}

// The distance of a triangle from a point that runs along a line is a convex
// function: thirds close in on its least value.
func TestSegmentToTriangleByThirds(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		a, b, c := drawTriangle(t)
		from, to := drawLine(t, a, b, c)
		got := newLineSegment(from, to).toTriangle(a, b, c)
		distance := func(at float64) float64 {
			return distanceToTriangle(from.Add(to.Sub(from).Mul(at)), a, b, c)
		}
		low, high := 0.0, 1.0
		for range 200 {
			third := (high - low) / 3
			if distance(low+third) < distance(high-third) {
				high -= third
			} else {
				low += third
			}
		}
		least := min(distance(low), distance(0), distance(1))
		const close = 1e-7 // needles: see isNeedle
		require.InDelta(t, least, got.gap, close, "line %v to %v, triangle %v %v %v", from, to, a, b, c)
		require.InDelta(t, got.gap, from.Add(to.Sub(from).Mul(got.t)).Sub(got.at).Len(), close, "its two points are as far apart as it says")
		require.InDelta(t, 0, distanceToTriangle(got.at, a, b, c), close, "the point is on the triangle")
	})
}

// No pair of many points, one on the line and one on the triangle, is nearer;
// some pair is as near as they lie close.
func TestSegmentToTriangleBySampling(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		a, b, c := drawTriangle(t)
		from, to := drawLine(t, a, b, c)
		got := newLineSegment(from, to).toTriangle(a, b, c).gap
		const n = 24
		least := math.Inf(1)
		for i := range n + 1 {
			for j := range n + 1 - i {
				p := a.Add(b.Sub(a).Mul(float64(i) / n)).Add(c.Sub(a).Mul(float64(j) / n))
				for k := range n + 1 {
					least = min(least, from.Add(to.Sub(from).Mul(float64(k)/n)).Sub(p).Len())
				}
			}
		}
		step := (b.Sub(a).Len() + c.Sub(a).Len() + to.Sub(from).Len()) / n
		require.GreaterOrEqual(t, least, got-1e-12)
		require.LessOrEqual(t, least, got+step)
	})
}

// drawSoup draws triangles without order, some of them twice.
func drawSoup(t *rapid.T) Mesh {
	var m Mesh
	for i := range rapid.IntRange(1, 60).Draw(t, "triangles") {
		if i > 0 && rapid.IntRange(0, 4).Draw(t, "again") == 0 {
			m.Faces = append(m.Faces, m.Faces[i-1])
			continue
		}
		at, n := drawVec(t, "at", 5), len(m.Vertices)
		for range 3 {
			m.Vertices = append(m.Vertices, at.Add(drawVec(t, "corner", 1)))
		}
		m.Faces = append(m.Faces, [3]int{n, n + 1, n + 2})
	}
	return m
}

// The boxes leave nothing out: bit for bit what looking at every face gives.
func TestBoxTreeIsBruteForce(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		m := drawSoup(t)
		if rapid.Bool().Draw(t, "solid") {
			m = drawMesh(t).Posed(drawPose(t))
		}
		line := newLineSegment(drawVec(t, "from", 8), drawVec(t, "to", 8))
		want, face := meeting{gap: math.Inf(1)}, -1
		for i := range m.Faces {
			if got := line.toTriangle(m.Triangle(i)); got.gap < want.gap {
				want, face = got, i
			}
		}
		tree := NewBoxTree(m)
		found := tree.meet(line)
		require.Equal(t, want, found.best)
		require.Equal(t, int32(face), found.face)
	})
}

func TestBoxTreeOfNothing(t *testing.T) {
	_, ok := NewBoxTree(Mesh{}).Nearest(Vec{}, Vec{1, 0, 0})
	assert.False(t, ok)
	assert.Equal(t, Extent{}, NewBoxTree(Mesh{}).Extent())
}

// A box 2 × 2 × 2 m on the origin, by hand.
func TestNearestToABox(t *testing.T) {
	box := made(NewBox(2, 2, 2)).Mesh(0)
	tests := []struct {
		name            string
		from, to        Vec
		distance, along float64
	}{
		{"1 mm over the top", Vec{-3, 0.3, 2.001}, Vec{3, 0.2, 2.001}, 0.001, math.NaN()},
		{"past an edge, 1 m out on both sides", Vec{2, 5, 3}, Vec{2, -5, 3}, math.Sqrt2, math.NaN()},
		{"level through it, 1 mm below the top", Vec{-3, 0, 1.999}, Vec{3, 0, 1.999}, -0.001, math.NaN()},
		{"level through it, 0.4 m below the top", Vec{-3, 0.1, 1.6}, Vec{3, 0.1, 1.6}, -0.4, math.NaN()},
		{"through the middle", Vec{0, 0, 5}, Vec{0, 0, -5}, -1, 4},
		{"corner to corner", Vec{-2, -2, -1}, Vec{2, 2, 3}, -1, 2 * math.Sqrt(3)},
		{"ends inside", Vec{0, 0.1, 1.7}, Vec{0.1, 0, 5}, -0.3, 0},
		{"wholly inside", Vec{0, 0, 0.5}, Vec{0, 0, 0.6}, -0.6, 0.1},
		{"a point inside", Vec{0, 0.5, 1}, Vec{0, 0.5, 1}, -0.5, 0},
		{"a point outside", Vec{0, 0, 4}, Vec{0, 0, 4}, 2, 0},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			for name, m := range map[string]Mesh{"as drawn": box, "inside out": box.reversed()} {
				got, ok := NewBoxTree(m).Nearest(tt.from, tt.to)
				require.True(t, ok)
				// The box is √12 m across: 35 µm and a thousandth may be missing of a depth.
				assert.InDelta(t, tt.distance, got.Distance, 3.5e-5+max(0, -0.001*tt.distance), name)
				assert.LessOrEqual(t, tt.distance, got.Distance+1e-12, "never deeper than it is")
				if !math.IsNaN(tt.along) {
					assert.InDelta(t, tt.along, got.Along, 0.01, name)
				}
			}
		})
	}
}

// A line that leaves by a missing face has no inside, whatever else it runs
// into, but that it passes through the surface is told. Elsewhere the rest of the
// surface closes.
func TestNearestToAnOpenMesh(t *testing.T) {
	box := made(NewBox(2, 2, 2)).Mesh(0)
	a, b, c := box.Triangle(0)
	middle := Vec{0, 0, 1}
	gap := a.Add(b).Add(c).Mul(1.0 / 3).Sub(middle)
	box.Faces = box.Faces[1:]
	beyond := middle.Add(gap.Mul(4))
	second := made(NewBox(0.5, 0.5, 0.5)).Mesh(0).Posed(Still().Shifted(beyond.Sub(Vec{0, 0, 0.25})))
	for _, tt := range []struct {
		name     string
		mesh     Mesh
		dir      Vec
		distance float64
	}{
		{"by the gap", box, gap, 0},
		{"by the gap into a second body", box.joined(second), gap, 0},
		{"elsewhere", box, gap.Cross(Vec{0.3, 0.5, 0.7}), -1},
	} {
		near, ok := NewBoxTree(tt.mesh).Nearest(middle.Sub(tt.dir.Mul(9)), middle.Add(tt.dir.Mul(9)))
		require.True(t, ok)
		assert.InDelta(t, tt.distance, near.Distance, 1.035e-3, tt.name)
	}
}

// The deepest of many points on the line, each asked whether it is inside and
// how far from the surface, is as deep.
func TestDepthBySampling(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		m := drawMesh(t).Posed(drawPose(t))
		tree, body := NewBoxTree(m), NewBody(m)
		middle, size := m.Extent().Center(), m.Extent().Diagonal()
		from := middle.Add(drawVec(t, "from", size))
		to := middle.Add(drawVec(t, "to", size))
		if rapid.Bool().Draw(t, "through the middle") {
			to = middle.Mul(2).Sub(from)
		}
		got, ok := tree.Nearest(from, to)
		require.True(t, ok)
		const n = 100
		deepest := 0.0
		for i := range n + 1 {
			p := from.Add(to.Sub(from).Mul(float64(i) / n))
			if d := m.distance(p); d > deepest && body.Contains(p) {
				deepest = d
			}
		}
		depth := max(0, -got.Distance)
		require.GreaterOrEqual(t, depth, 0.999*deepest-1.01e-5*size)
		require.LessOrEqual(t, depth, deepest+to.Sub(from).Len()/(2*n)+1e-9*size)
	})
}

// globe is a sphere of 2 m in about as many triangles.
func globe(triangles int) Mesh {
	around := int(math.Sqrt(float64(triangles)))
	var m Mesh
	for i := range around/2 + 1 {
		for j := range around {
			s, c := math.Sincos(math.Pi * float64(i) / float64(around/2))
			y, x := math.Sincos(2 * math.Pi * float64(j) / float64(around))
			m.Vertices = append(m.Vertices, Vec{s * x, s * y, c})
		}
	}
	for i := range around / 2 {
		for j := range around {
			a, b := i*around+j, i*around+(j+1)%around
			m.Faces = append(m.Faces, [3]int{a, a + around, b}, [3]int{b, a + around, b + around})
		}
	}
	return m
}

func BenchmarkNewBoxTree(b *testing.B) {
	for _, n := range []int{1e4, 1e6} {
		m := globe(n)
		b.Run("triangles="+strconv.Itoa(n), func(b *testing.B) {
			b.ReportAllocs()
			for b.Loop() {
				NewBoxTree(m)
			}
		})
	}
}

func BenchmarkNearest(b *testing.B) {
	lines := []struct {
		name     string
		from, to Vec
	}{{"past", Vec{1.2, 0.1, 0}, Vec{0.3, 0, 4}}, {"far", Vec{5, 5, 0}, Vec{0, 0, 20}}, {"through", Vec{1.2, 0.1, 0}, Vec{-1, 0, 1.4}}}
	for _, n := range []int{1e4, 1e6} {
		tree := NewBoxTree(globe(n))
		for _, l := range lines {
			b.Run("triangles="+strconv.Itoa(n)+"/"+l.name, func(b *testing.B) {
				for b.Loop() {
					tree.Nearest(l.from, l.to)
				}
			})
		}
	}
}
