package geom

import (
	"math"
	"math/rand/v2"
	"testing"

	"github.com/go-gl/mathgl/mgl64"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

// TestHitsOnABox shoots at places where a careless test counts a facet twice
// or not at all. The box is 2 x 2 x 2 on the origin; each side is two facets.
func TestHitsOnABox(t *testing.T) {
	box := made(NewBox(2, 2, 2)).Mesh(0)
	tests := []struct {
		name      string
		from, dir Vec
		want      []float64
	}{
		{"through the middle of two sides, where the facets meet", Vec{-3, 0, 1}, Vec{1, 0, 0}, []float64{2, 4}},
		{"backwards", Vec{3, 0, 1}, Vec{-1, 0, 0}, []float64{2, 4}},
		{"direction of length two", Vec{-3, 0.2, 1.1}, Vec{2, 0, 0}, []float64{1, 2}},
		{"down the axis", Vec{0, 0, 5}, Vec{0, 0, -1}, []float64{3, 5}},
		{"corner to corner", Vec{-2, -2, -1}, Vec{1, 1, 1}, []float64{1, 3}},
		{"from inside", Vec{0, 0, 1}, Vec{0, 1, 0}, []float64{1}},
		{"from inside at an edge", Vec{0, 0, 1}, Vec{1, 1, 0}, []float64{1}},
		{"from inside at a corner", Vec{0, 0, 1}, Vec{-1, 1, 1}, []float64{1}},
		{"away from it", Vec{3, 0, 1}, Vec{1, 0, 0}, []float64{}},
		{"past it", Vec{-3, 0, 2.1}, Vec{1, 0, 0}, []float64{}},
		{"no direction", Vec{-3, 0, 1}, Vec{}, []float64{}},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) { assert.Equal(t, tt.want, box.Hits(tt.from, tt.dir)) })
	}
	for _, graze := range [][2]Vec{
		{{-3, 1, 0}, {1, 0, 0}}, {{-3, 1, 2}, {1, 0, 0}}, {{-3, 1, 1}, {1, 0, 0}}, // along edges and a side
		{{-3, -1, 1}, {1, 1, 0}}, {{0, -2, 2}, {0, 1, 0}}, {{2, 0, 1}, {-1, 1, 0}}, // at an edge, along the top
	} {
		assert.Zero(t, len(box.Hits(graze[0], graze[1]))%2, "grazing %v: twice or not at all", graze)
	}
}

// TestHitsAtCorners aims rays at corners, edges and facets of closed meshes:
// one that starts outside leaves as often as it enters, one that starts inside
// a convex solid leaves once.
func TestHitsAtCorners(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		m := drawMesh(t).Posed(drawPose(t))
		a, b, c := m.Triangle(rapid.IntRange(0, len(m.Faces)-1).Draw(t, "face"))
		aim := rapid.SampledFrom([]Vec{a, a.Add(b).Mul(0.5), b.Add(c).Mul(0.5), a.Add(b).Add(c).Mul(1.0 / 3)}).Draw(t, "aim")
		from := drawVec(t, "from", 100).Add(Vec{200, 0, 0})
		balance := 0
		crossings := m.crossings(from, aim.Sub(from))
		for _, c := range crossings {
			balance += c.out
		}
		require.Zero(t, balance)
		require.Zero(t, len(crossings)%2)
	})
}

// A cap that a ray sees from its edge: all its corners lie in one line with the ray
// but for what rounding leaves, and still it leaves as often as it enters.
func TestHitsSeenFromTheEdge(t *testing.T) {
	dice := rand.New(rand.NewPCG(1, 1))
	m := made(NewCylinder(1, 1)).Mesh(0.05)
	for range 20_000 {
		turn := mgl64.Rotate3DX(2 * math.Pi * dice.Float64())
		at := Vec{dice.Float64(), dice.Float64() * 1e-13, dice.Float64() * 1e-13}
		seen := m.Posed(Pose{Turn: turn, Move: at})
		plane := turn.Mul3x1(Vec{0, 0, float64(dice.IntN(2))}) // of its plane
		from := at.Add(Vec{200 + dice.Float64(), 0, 0}).Add(plane)
		aim := seen.Vertices[dice.IntN(len(seen.Vertices))]
		balance := 0
		for _, c := range seen.crossings(from, aim.Sub(from)) {
			balance += c.out
		}
		require.Zero(t, balance, "from %v to %v", from, aim)
	}
}

func TestHitsFromInsideConvex(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		d, h := drawSize(t, "d"), drawSize(t, "h")
		s := rapid.SampledFrom([]Solid{made(NewBox(d, d, h)), made(NewCylinder(d, h)), made(NewSphere(d, 0)),
			made(NewCone(d, 0, h)), made(NewPrism(d, 0, h, d))}).Draw(t, "solid")
		p := drawPose(t)
		m := s.Mesh(0.05 * d).Posed(p)
		from := p.Point(s.Moments().Centroid())
		a, b, c := m.Triangle(rapid.IntRange(0, len(m.Faces)-1).Draw(t, "face"))
		for _, aim := range []Vec{a, b, c, a.Add(b).Mul(0.5), a.Add(b).Add(c).Mul(1.0 / 3)} {
			hits := m.Hits(from, aim.Sub(from))
			require.Len(t, hits, 1)
			require.InDelta(t, 1, hits[0], 1e-6)
			require.Equal(t, 1, m.crossings(from, aim.Sub(from))[0].out, "it leaves")
		}
	})
}

// TestBodiesThatAreNotSound still tell inside from outside as well as their
// faces allow.
func TestBodiesThatAreNotSound(t *testing.T) {
	box := made(NewBox(2, 2, 2)).Mesh(0)
	inside, outside := Vec{0.1, 0.2, 1.3}, Vec{0.1, 0.2, 2.3}
	for name, m := range map[string]Mesh{
		"inside out":        box.reversed(),
		"each facet twice":  box.joined(box),
		"one facet missing": {Vertices: box.Vertices, Faces: box.Faces[1:]},
	} {
		body := NewBody(m)
		assert.True(t, body.Contains(inside), name)
		assert.False(t, body.Contains(outside), name)
		assert.False(t, body.Contains(Vec{0.1, 0.2, 1000}), name)
	}
	overlap := NewBody(box.joined(box.Posed(at(1, 0, 0))))
	assert.True(t, overlap.Contains(Vec{0.5, 0.1, 1}), "where two shells overlap")
	assert.Equal(t, 16.0, overlap.Moments().Volume, "an overlap counts twice, as documented")
}

func TestDistanceToTriangle(t *testing.T) {
	a, b, c := Vec{}, Vec{4, 0, 0}, Vec{0, 4, 0}
	for _, tt := range []struct {
		p    Vec
		want float64
	}{
		{Vec{1, 1, 3}, 3}, {Vec{1, 1, -3}, 3}, {Vec{-3, -4, 0}, 5}, {Vec{2, -3, 4}, 5}, {Vec{4, 4, 0}, math.Sqrt(8)}, {Vec{1, 1, 0}, 0},
	} {
		assert.InDelta(t, tt.want, distanceToTriangle(tt.p, a, b, c), 1e-15, "%v", tt.p)
	}
	assert.InDelta(t, 5, distanceToTriangle(Vec{3, 4, 0}, a, a, a), 0, "a point for a triangle")
}
