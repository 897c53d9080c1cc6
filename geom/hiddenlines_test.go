package geom

import (
	"fmt"
	"math"
	"testing"

	"github.com/go-gl/mathgl/mgl64"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// seenLength is the length in metres of all that is seen of a mesh.
func seenLength(edges []Seen, mesh int) float64 {
	sum := 0.0
	for _, e := range edges {
		if e.Mesh == mesh {
			sum += e.To.Sub(e.From).Len()
		}
	}
	return sum
}

func boxMesh(t testing.TB, low, high Vec) Mesh {
	b, err := NewBox(high[0]-low[0], high[1]-low[1], high[2]-low[2])
	require.NoError(t, err)
	middle := low.Add(high).Mul(0.5)
	return b.Mesh(0.001).Posed(Still().Shifted(Vec{middle[0], middle[1], low[2]}))
}

// Of the twelve edges of a cube an isometric view shows nine, each √(2/3) long;
// a view along an axis shows the four of the near face, and the far ones behind
// them, which lie on the same lines.
func TestEdgesOfACube(t *testing.T) {
	cube := boxMesh(t, Vec{0, 0, 0}, Vec{1, 1, 1})
	const cells = 800
	tol := 30.0 / cells // m: each end of an edge is right to about a cell
	iso := NewSight([]Mesh{cube}, 1).Edges(Isometric, cells)
	assert.InDelta(t, 9*math.Sqrt(2.0/3), seenLength(iso, 0), tol)
	for _, v := range []View{FromAbove, FromFront, FromRight} {
		flat := NewSight([]Mesh{cube}, 1).Edges(v, cells)
		assert.InDelta(t, 4, seenLength(flat, 0), tol, "the far face's edges are not drawn over those of the near one")
	}
}

// A small box in front of a large one hides what lies behind it: seen from the
// front a 1 × 1 face is crossed by a plate 0.5 high in its middle. Of the two
// uprights 0.5 stays, of level edges all.
func TestWhatIsInFrontHides(t *testing.T) {
	far := boxMesh(t, Vec{0, 2, 0}, Vec{1, 3, 1})
	near := boxMesh(t, Vec{-0.5, 0, 0.25}, Vec{1.5, 0.1, 0.75})
	edges := NewSight([]Mesh{far, near}, 2).Edges(FromFront, 1000)
	tol := 20 * 2.0 / 1000
	assert.InDelta(t, 2+2*0.5, seenLength(edges, 0), tol)
	assert.InDelta(t, 2*2+2*0.5, seenLength(edges, 1), tol)
	back := NewSight([]Mesh{far, near}, 2).Edges(View{Vec{-1, 0, 0}, Vec{0, 0, 1}, Vec{0, 1, 0}}, 1000)
	assert.InDelta(t, 4, seenLength(back, 0), tol, "from behind the far one is in front")
	assert.InDelta(t, 2*2+2*0.5-2*1, seenLength(back, 1), tol)
}

// A cylinder seen from the side is a rectangle, its facets not drawn; from above
// its rim, a polygon just short of the circle.
func TestRimsOfACylinder(t *testing.T) {
	c, err := NewCylinder(1, 2)
	require.NoError(t, err)
	m := c.Mesh(1e-4)
	side := NewSight([]Mesh{m}, 1).Edges(FromFront, 1000)
	assert.InDelta(t, 2*1+2*2, seenLength(side, 0), 0.03)
	above := NewSight([]Mesh{m}, 1).Edges(FromAbove, 1000)
	assert.InDelta(t, math.Pi, seenLength(above, 0), 0.05)
}

// The outline of a hole is drawn where it lies on a surface that is seen, and not
// on the far side.
func TestOutlinesOfHoles(t *testing.T) {
	plate := boxMesh(t, Vec{0, 0, 0}, Vec{2, 2, 0.1})
	c, err := NewCylinder(0.5, 0.1)
	require.NoError(t, err)
	hole := c.Mesh(1e-4).Posed(Still().Shifted(Vec{1, 1, 0}))
	edges := NewSight([]Mesh{plate, hole}, 1).Edges(FromAbove, 1000)
	assert.InDelta(t, math.Pi*0.5, seenLength(edges, 1), 0.05)
	assert.InDelta(t, 8, seenLength(edges, 0), 0.05, "a hole's outline hides nothing")
}

// A load that has been turned is seen as if its own mesh had been.
func TestTurnedViewIsTheTurnedLoad(t *testing.T) {
	b := boxMesh(t, Vec{0, 0, 0}, Vec{3, 2, 1})
	turn := mgl64.Rotate3DX(0.3).Mul3(mgl64.Rotate3DY(-0.2))
	want := NewSight([]Mesh{b.Posed(Pose{Turn: turn})}, 1).Edges(FromFront, 500)
	got := NewSight([]Mesh{b}, 1).Edges(FromFront.Turned(turn), 500)
	require.Equal(t, len(want), len(got))
	for i := range want {
		assert.InDelta(t, 0, got[i].From.Sub(want[i].From).Len(), 1e-9)
		assert.InDelta(t, 0, got[i].To.Sub(want[i].To).Len(), 1e-9)
	}
	assert.Empty(t, NewSight(nil, 0).Edges(FromFront, 100))
}

func BenchmarkSeenEdges(b *testing.B) {
	s, err := NewSphere(1, 0)
	require.NoError(b, err)
	for _, chord := range []float64{1e-3, 1e-5} {
		m := s.Mesh(chord)
		b.Run(fmt.Sprint(len(m.Faces), " faces"), func(b *testing.B) {
			for b.Loop() {
				NewSight([]Mesh{m}, 1).Edges(Isometric, 1500)
			}
		})
	}
}
