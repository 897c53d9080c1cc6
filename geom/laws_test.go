package geom

import (
	"math"
	"math/rand/v2"
	"slices"
	"testing"

	"github.com/go-gl/mathgl/mgl64"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

// The laws of moments, on solids and on meshes. rounding is the volume that
// double precision can lose on a solid of this size and distance.
func rounding(m Mesh, reach float64) float64 { return 1e-13 * m.Area() * reach }

func drawMesh(t *rapid.T) Mesh {
	s := drawSolid(t)
	return s.Mesh(0.02 * ExtentOf(s, Still()).Diagonal())
}

// TestPosedAlike: turning and moving the mesh's corners and putting the pose
// into the formula of the moments are the same.
func TestPosedAlike(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		m, p := drawMesh(t), drawPose(t)
		if rapid.Bool().Draw(t, "mirrored") {
			p.Turn = p.Turn.Mul3(mgl64.Diag3(Vec{1, -1, 1}))
		}
		moved := m.Posed(p)
		reach := 50.0
		nearMoments(t, m.Moments().Posed(p), moved.Moments(), rounding(m, reach), reach)
		require.Positive(t, moved.Moments().Volume, "a mirrored solid faces outward still")
	})
}

// TestPosesCombine: a pose after another, and a pose undone.
func TestPosesCombine(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p, q, v := drawPose(t), drawPose(t), drawVec(t, "v", 10)
		nearVec(t, p.Point(q.Point(v)), p.After(q).Point(v), 1e-13*100)
		nearVec(t, v, p.Back(p.Point(v)), 1e-13*100)
		nearVec(t, v, Still().Point(v), 0)
		nearVec(t, p.Point(v).Add(Vec{1, 2, 3}), p.Shifted(Vec{1, 2, 3}).Point(v), 1e-13*100)
		nearVec(t, p.Direction(v), p.Point(v).Sub(p.Point(Vec{})), 1e-13*100)
		require.False(t, p.Mirrored())
		m := Moments{2, v, symmetric(1, 2, 3, 0.1, 0.2, 0.3)}
		nearMoments(t, m.Posed(q).Posed(p), m.Posed(p.After(q)), 1e-12, 100)
	})
}

// TestQuarterTurnsAreExact: a solid laid on its side keeps its sizes to the
// last digit, and turns are right-handed: x goes to y about z.
func TestQuarterTurnsAreExact(t *testing.T) {
	for axis := range axes {
		i, j := (axis+1)%3, (axis+2)%3
		for n := -4; n <= 4; n++ {
			turn := TurnAbout(axis, float64(n)*math.Pi/2)
			want := axes[i]
			for range (n + 4) % 4 {
				want = Vec(axes[axis].Cross(want))
			}
			assert.Equal(t, 0.0, turn.Mul3x1(axes[i]).Sub(want).Len(), "axis %d, %d quarters", axis, n)
			assert.Equal(t, axes[axis], turn.Mul3x1(axes[axis]))
		}
		half := TurnAbout(axis, math.Pi/6).Mul3x1(axes[i])
		assert.InDelta(t, 0.5, half[j], 1e-15)
	}
	bar := made(NewCylinder(0.1, 3.3))
	lying := ExtentOf(bar, Pose{TurnAbout(1, math.Pi/2), Vec{}})
	assert.Equal(t, Vec{3.3, 0.1, 0.1}, lying.Size())
}

// TestScaling: s times as large is s³ in volume, s⁴ and s⁵ in the moments.
func TestScaling(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		m := drawMesh(t)
		s := math.Pow(10, rapid.Float64Range(-3, 3).Draw(t, "s"))
		before, after := m.Moments(), Scaled(m, s).Moments()
		want := Moments{before.Volume * s * s * s, before.First.Mul(s * s * s * s), before.Second.Mul(s * s * s * s * s)}
		reach := 50 * s
		nearMoments(t, want, after, rounding(Scaled(m, s), reach), reach)
	})
}

// TestReversedFacesFlipTheSign, and the order of the faces does not matter.
func TestReversedFacesFlipTheSign(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		m := drawMesh(t)
		want := m.Moments()
		nearMoments(t, want.Times(-1), m.reversed().Moments(), rounding(m, 50), 50)
		require.Negative(t, m.reversed().Moments().Volume)
		shuffled := Mesh{Vertices: m.Vertices, Faces: slices.Clone(m.Faces)}
		random := rand.New(rand.NewPCG(1, rapid.Uint64().Draw(t, "seed")))
		random.Shuffle(len(m.Faces), func(i, j int) {
			shuffled.Faces[i], shuffled.Faces[j] = shuffled.Faces[j], shuffled.Faces[i]
		})
		nearMoments(t, want, shuffled.Moments(), rounding(m, 50), 50)
		nearMoments(t, want.Times(2), m.joined(m).Moments(), 2*rounding(m, 50), 50, "a second shell doubles")
	})
}

// TestCutInTwo: solids cut across add up to the whole.
func TestCutInTwo(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		a, b, h := drawSize(t, "a"), drawSize(t, "b"), drawSize(t, "h")
		share := rapid.Float64Range(0.01, 0.99).Draw(t, "share")
		between, low := a+(b-a)*share, h*share
		cuts := []struct {
			name       string
			whole      Solid
			first, top Solid
			second     Pose
		}{
			{"box", made(NewBox(a, b, h)), made(NewBox(a, b, low)), made(NewBox(a, b, h-low)), at(0, 0, low)},
			{"tube", made(NewTube(a, a/5, h)), made(NewTube(a, a/5, low)), made(NewTube(a, a/5, h-low)), at(0, 0, low)},
			{"cone", made(NewCone(a, b, h)), made(NewCone(a, between, low)), made(NewCone(between, b, h-low)), at(0, 0, low)},
			{"cone with a point", made(NewCone(a, 0, h)), made(NewCone(a, a*(1-share), low)),
				made(NewCone(a*(1-share), 0, h-low)), at(0, 0, low)},
			{"cylinder, into tube and core", made(NewCylinder(a, h)), made(NewTube(a, a/2*share, h)),
				made(NewCylinder(a-a*share, h)), Still()},
			{"ball, into shell and core", made(NewSphere(a, 0)), made(NewSphere(a, a/2*share)),
				made(NewSphere(a-a*share, 0)), at(0, 0, a/2*share)},
		}
		for _, c := range cuts {
			size := ExtentOf(c.whole, Still()).Diagonal()
			sum := c.first.Moments().Plus(c.top.Moments().Posed(c.second))
			nearMoments(t, c.whole.Moments(), sum, 1e-14*size*size*size, size, c.name)
			nearMoments(t, c.first.Moments(), c.whole.Moments().Minus(c.top.Moments().Posed(c.second)),
				1e-14*size*size*size, size, c.name)
		}
	})
}

// TestPrismIsAPolygon: a trapezoid drawn as an outline gives the same, and so
// do the box and the rectangle.
func TestPrismIsAPolygon(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		a, b, h, l := drawSize(t, "a"), drawSize(t, "b"), drawSize(t, "h"), drawSize(t, "l")
		prism := made(NewPrism(a, b, h, l))
		polygon := made(NewPolygon([]mgl64.Vec2{{0, 0}, {a, 0}, {b, h}, {0, h}}, nil, l))
		moved := polygon.Moments().Posed(at(-max(a, b)/2, -h/2, 0))
		size := Vec{a + b, h, l}.Len()
		nearMoments(t, prism.Moments(), moved, 1e-14*size*size*size, size)
		box := made(NewBox(a, h, l))
		plate := made(NewPrism(a, a, h, l))
		nearMoments(t, box.Moments(), plate.Moments(), 1e-14*size*size*size, size)
	})
}

// TestHolesAreSubtracted: a polygon with holes is the outline less the holes.
func TestHolesAreSubtracted(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := drawPolygon(t)
		want := made(NewPolygon(s.rings[0], nil, s.length)).Moments()
		for _, hole := range s.rings[1:] {
			want = want.Minus(made(NewPolygon(hole, nil, s.length)).Moments())
		}
		size := s.size + 10
		nearMoments(t, want, s.Moments(), 1e-14*size*size*size, size)
	})
}

// TestFarFromTheDatum: a part 16 384 sizes from its datum loses nothing. Its
// corners are whole multiples of 2⁻²⁰, so that moving it is exact, and so
// should the figures be but for the last bits.
func TestFarFromTheDatum(t *testing.T) {
	section := circle(32)
	for i := range section {
		section[i][0] += 3
	}
	m := revolved(section, 64)
	for i, v := range m.Vertices {
		for k := range v {
			m.Vertices[i][k] = math.Round(v[k]*(1<<20)) / (1 << 20)
		}
	}
	near := m.Moments()
	for _, far := range []float64{1 << 10, 1 << 17, 1 << 24} {
		by := Vec{far, -far / 2, far / 4}
		moved := m.Posed(Still().Shifted(by))
		got := moved.Moments()
		assert.InEpsilon(t, near.Volume, got.Volume, 1e-14, "%g m away", far)
		nearVec(t, near.Centroid(), got.Centroid().Sub(by), 1e-15*far, "rounding of the coordinate itself")
		about := moved.MomentsAbout(by)
		nearMoments(t, near, about, 1e-14*near.Volume, 1, "about a near point")
	}
}

// TestManyFaces: a million facets add no error of their own; a plain sum over
// them would be off by 9e-13.
func TestManyFaces(t *testing.T) {
	if testing.Short() {
		t.Skip("makes a large mesh")
	}
	section := circle(512)
	for i := range section {
		section[i][0] += 3
	}
	n := 1024
	got := revolved(section, n).Moments().Volume
	// Exact for this mesh: π → (n/2)·sin(2π/n) around, and the section's polygon.
	θ, φ := 2*math.Pi/float64(n), 2*math.Pi/512
	want := float64(n) * math.Sin(θ) * 3 * 512 / 2 * math.Sin(φ)
	assert.InEpsilon(t, want, got, 1e-14, "ring of %d x 512 sides", n)
}

func TestExtent(t *testing.T) {
	e := Extent{Vec{1, 2, 3}, Vec{4, 6, 15}}
	assert.Equal(t, Vec{2.5, 4, 9}, e.Center())
	assert.Equal(t, Vec{3, 4, 12}, e.Size())
	assert.Equal(t, 13.0, e.Diagonal())
	assert.Equal(t, Extent{Vec{0, 2, 3}, Vec{4, 7, 15}}, e.Union(Extent{Vec{0, 3, 4}, Vec{1, 7, 5}}))
	corners := e.Corners()
	assert.Equal(t, e.Min, corners[0])
	assert.Equal(t, Vec{4, 2, 3}, corners[1])
	assert.Equal(t, Vec{1, 6, 3}, corners[2])
	assert.Equal(t, Vec{1, 2, 15}, corners[4])
	assert.Equal(t, e.Max, corners[7])
}

func TestEmptyMoments(t *testing.T) {
	assert.Equal(t, Vec{}, Moments{}.Centroid())
	assert.Equal(t, mgl64.Mat3{}, Moments{}.Central())
	assert.Equal(t, Moments{}, Mesh{}.Moments())
	assert.Equal(t, Extent{}, Mesh{}.Extent())
	empty := NewBody(Mesh{})
	assert.Zero(t, empty.Reach(Vec{1, 0, 0}))
	assert.False(t, empty.Contains(Vec{}))
}
