package geom

import (
	"math"
	"testing"

	"github.com/go-gl/mathgl/mgl64"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

// TestClosedFormAgainstMesh holds every solid, of any size in any pose, to the
// signed tetrahedra of its own mesh: two methods with nothing in common.
//
// Tolerance: the mesh lies within chord of the surface, so the volume between
// the two is at most chord·area; the area of the mesh is itself short by less
// than 1 % at this chord. A first moment differs by that volume times the
// distance of its points from the origin, a second one by its square. For flat
// solids only rounding is left: 1e-13 of area·distance.
func TestClosedFormAgainstMesh(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s, p := drawSolid(t), drawPose(t)
		box := ExtentOf(s, p)
		reach := max(box.Min.Len(), box.Max.Len()) + box.Diagonal()
		chord := 2e-4 * ExtentOf(s, Still()).Size()[0]
		m := s.Mesh(chord)
		surface := 1e-13 * m.Area() * reach
		if isRound(s) {
			surface += 1.01 * chord * m.Area()
		}
		nearMoments(t, s.Moments().Posed(p), m.Posed(p).Moments(), surface, reach, s)
	})
}

// TestMeshesAreClosed at any chord.
func TestMeshesAreClosed(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := drawSolid(t)
		chord := math.Pow(10, rapid.Float64Range(-2.5, 1).Draw(t, "chord"))
		m := s.Mesh(chord * ExtentOf(s, Still()).Diagonal())
		requireClosed(t, m)
		require.Positive(t, m.Moments().Volume, "faces outward")
	})
}

func isRound(s Solid) bool {
	switch s.(type) {
	case Box, Prism, Polygon, Wedge, Pyramid, Body:
		return false
	}
	return true
}

// TestRoundSolidsAgainstTheirPolygon is the same without the chord error. An
// n-sided section has the area of its circle times k = sin θ/θ, θ = 2π/n, and
// the second moment of area times k·(2 + cos θ)/3 (standard geometry of the
// regular polygon, from memory). So a bar's mesh must give the closed form
// with those factors, to rounding.
func TestRoundSolidsAgainstTheirPolygon(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		a, b, h := drawSize(t, "a"), drawSize(t, "b"), drawSize(t, "h")
		part := rapid.Float64Range(0.001, 0.49).Draw(t, "part")
		solids := []Solid{made(NewCylinder(a, h)), made(NewTube(a, part*a, h)), made(NewCone(a, b, h)),
			made(NewCone(a, 0, h)), made(NewCone(0, a, h))}
		s := rapid.SampledFrom(solids).Draw(t, "solid")
		chord := a * math.Pow(10, rapid.Float64Range(-6, -1).Draw(t, "chord"))
		r := a / 2
		if c, ok := s.(Cone); ok {
			r = max(c.bottom, c.top)
		}
		θ := 2 * math.Pi / float64(Segments(r, chord))
		k := math.Sin(θ) / θ
		want, got := s.Moments(), s.Mesh(chord).Moments()
		want.Second = mgl64.Diag3(Vec{want.Second.At(0, 0) * (2 + math.Cos(θ)) / 3,
			want.Second.At(1, 1) * (2 + math.Cos(θ)) / 3, want.Second.At(2, 2)})
		want = want.Times(k)
		size := math.Hypot(2*r, h)
		nearMoments(t, want, got, 1e-13*size*size*size, size, s)
	})
}

// TestSphereAgainstItsMesh: a ball and its hollow are cut alike, so the mesh
// of a hollow ball falls short by the same part as that of a solid one.
func TestSphereAgainstItsMesh(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		d := drawSize(t, "diameter")
		wall := d * rapid.Float64Range(0.001, 0.49).Draw(t, "wall")
		chord := d * math.Pow(10, rapid.Float64Range(-3, -1).Draw(t, "chord"))
		hollow, solid := made(NewSphere(d, wall)), made(NewSphere(d, 0))
		short := solid.Mesh(chord).Moments().Volume / solid.Moments().Volume
		got := hollow.Mesh(chord).Moments()
		assert.InEpsilon(t, short*hollow.Moments().Volume, got.Volume, 1e-11)
		nearVec(t, Vec{0, 0, d / 2}, got.Centroid(), 1e-11*d)
	})
}

// TestReach: no vertex of the mesh is further out than the solid reaches, and
// the furthest is short of it by no more than the chord.
func TestReach(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := drawSolid(t)
		size := ExtentOf(s, Still()).Diagonal()
		chord := size * math.Pow(10, rapid.Float64Range(-3.5, -1).Draw(t, "chord"))
		dir := drawVec(t, "dir", 1)
		reach := s.Reach(dir)
		tol := 1e-14 * (size + 20)
		furthest := NewBody(s.Mesh(chord)).Reach(dir)
		require.LessOrEqual(t, furthest, reach+tol)
		require.GreaterOrEqual(t, furthest, reach-chord*dir.Len()-tol)
		require.InEpsilon(t, 1+2.5*reach, 1+s.Reach(dir.Mul(2.5)), 1e-12, "grows with the length of dir")
	})
}

// TestExtentOf: the box holds the posed mesh and is no more than the chord
// larger.
func TestExtentOf(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s, p := drawSolid(t), drawPose(t)
		chord := 1e-3 * ExtentOf(s, Still()).Diagonal()
		got, mesh := ExtentOf(s, p), s.Mesh(chord).Posed(p).Extent()
		for i := range axes {
			assert.True(t, within(mesh.Min[i], got.Min[i], got.Min[i]+chord, 1e-12), "least %d", i)
			assert.True(t, within(mesh.Max[i], got.Max[i]-chord, got.Max[i], 1e-12), "greatest %d", i)
		}
	})
}

// TestContainsAgainstMesh asks the solid and its mesh about points in and
// around it that are not in the thin space between their surfaces.
func TestContainsAgainstMesh(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := drawSolid(t)
		e := ExtentOf(s, Still())
		chord := 1e-2 * e.Size()[0]
		m := s.Mesh(chord)
		body := NewBody(m)
		for range 10 {
			share := drawVec(t, "share", 0.6)
			p := e.Center()
			for i := range p {
				p[i] += share[i] * e.Size()[i]
			}
			if m.distance(p) > chord {
				require.Equal(t, s.Contains(p), body.Contains(p), "%v in %T", p, s)
			}
		}
		for i := range m.Faces { // the middles of facets are in a body, and corners in both
			a, b, c := m.Triangle(i)
			require.True(t, body.Contains(a.Add(b).Add(c).Mul(1.0/3)), "middle of a facet")
			require.True(t, s.Contains(a), "corner %v of %T", a, s)
			if i > 50 {
				break
			}
		}
	})
}

// TestContainsJustInAndOut steps through the surface by a hair, at the middle
// of flat facets: a millionth of the size outside is out, and inside is in.
func TestContainsJustInAndOut(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := rapid.OneOf(
			rapid.Custom(func(t *rapid.T) Solid { return made(NewBox(drawSize(t, "x"), drawSize(t, "y"), drawSize(t, "z"))) }),
			rapid.Custom(func(t *rapid.T) Solid {
				return made(NewPrism(drawSize(t, "a"), drawSize(t, "b"), drawSize(t, "h"), drawSize(t, "l")))
			}),
			rapid.Custom(func(t *rapid.T) Solid { return drawPolygon(t) }),
			rapid.Custom(shapes["wedge"]), rapid.Custom(shapes["pyramid"]),
		).Draw(t, "solid")
		m := s.Mesh(0)
		size := m.Extent().Diagonal()
		body := NewBody(m)
		for i := range m.Faces {
			a, b, c := m.Triangle(i)
			normal := b.Sub(a).Cross(c.Sub(a))
			middle := a.Add(b).Add(c).Mul(1.0 / 3)
			hair := normal.Mul(1e-6 * size / normal.Len())
			if m.distance(middle.Add(hair)) < 0.9e-6*size || m.distance(middle.Sub(hair)) < 0.9e-6*size {
				continue // a facet in a corner so sharp that its other side is as near
			}
			for _, solid := range []Solid{s, body} {
				require.True(t, solid.Contains(middle), "%T: on facet %d", solid, i)
				require.True(t, solid.Contains(middle.Sub(hair)), "%T: below facet %d", solid, i)
				require.False(t, solid.Contains(middle.Add(hair)), "%T: above facet %d", solid, i)
			}
		}
	})
}

// TestCentroidIsWithinReach: the centroid is in the convex hull of its solid.
func TestCentroidIsWithinReach(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s, dir := drawSolid(t), drawVec(t, "dir", 1)
		size := ExtentOf(s, Still()).Diagonal()
		require.LessOrEqual(t, s.Moments().Centroid().Dot(dir), s.Reach(dir)+1e-13*(size+10))
		require.Positive(t, s.Moments().Volume)
		for i := range axes {
			require.Positive(t, s.Moments().Central().At(i, i), "second moment about the own centroid")
		}
	})
}
