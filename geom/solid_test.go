package geom

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

// refused asks for a ShapeError with the message; its fix may not be empty.
func refused(t *testing.T, msg string, s Solid, err error) {
	t.Helper()
	var shape *ShapeError
	require.ErrorAs(t, err, &shape, "%+v", s)
	assert.Equal(t, msg, shape.Msg)
	assert.NotEmpty(t, shape.Fix)
	assert.Equal(t, shape.Msg+": "+shape.Fix, err.Error())
}

func TestSizesThatMakeNoSense(t *testing.T) {
	nan, inf := math.NaN(), math.Inf(1)
	tests := []struct {
		want string
		make func() (Solid, error)
	}{
		{"size along x 0 mm is not above zero", func() (Solid, error) { return NewBox(0, 1, 1) }},
		{"size along y -3 mm is not above zero", func() (Solid, error) { return NewBox(1, -0.003, 1) }},
		{"size along z is not a finite number", func() (Solid, error) { return NewBox(1, 1, nan) }},
		{"size along z is not a finite number", func() (Solid, error) { return NewBox(1, 1, -inf) }},
		{"size along x 2000000000 mm is more than 1000 km", func() (Solid, error) { return NewBox(2e6, 1, 1) }},
		{"size along x 1e-07 mm is smaller than anything that is built", func() (Solid, error) { return NewBox(1e-10, 1, 1) }},
		{"diameter 0 mm is not above zero", func() (Solid, error) { return NewCylinder(0, 1) }},
		{"height is not a finite number", func() (Solid, error) { return NewCylinder(1, inf) }},
		{"wall 12 mm does not fit inside outside 20 mm", func() (Solid, error) { return NewTube(0.020, 0.012, 1) }},
		{"wall 10 mm does not fit inside outside 20 mm", func() (Solid, error) { return NewTube(0.020, 0.010, 1) }},
		{"wall 0 mm is not above zero", func() (Solid, error) { return NewTube(0.020, 0, 1) }},
		{"outside diameter -20.125 mm is not above zero", func() (Solid, error) { return NewTube(-0.020125, 0.001, 1) }},
		{"height 0 mm is not above zero", func() (Solid, error) { return NewTube(1, 0.1, 0) }},
		{"bottom and top diameter are both zero", func() (Solid, error) { return NewCone(0, 0, 1) }},
		{"bottom diameter -1000 mm is not above zero", func() (Solid, error) { return NewCone(-1, 0, 1) }},
		{"top diameter is not a finite number", func() (Solid, error) { return NewCone(1, nan, 1) }},
		{"height 0 mm is not above zero", func() (Solid, error) { return NewCone(1, 0, 0) }},
		{"diameter 0 mm is not above zero", func() (Solid, error) { return NewSphere(0, 0) }},
		{"wall -1 mm is not above zero", func() (Solid, error) { return NewSphere(1, -0.001) }},
		{"wall 500 mm does not fit inside diameter 1000 mm", func() (Solid, error) { return NewSphere(1, 0.5) }},
		{"base 0 mm is not above zero", func() (Solid, error) { return NewPrism(0, 1, 1, 1) }},
		{"top -1 mm is not above zero", func() (Solid, error) { return NewPrism(1, -0.001, 1, 1) }},
		{"length is not a finite number", func() (Solid, error) { return NewPrism(1, 0, 1, inf) }},
	}
	for _, tt := range tests {
		t.Run(tt.want, func(t *testing.T) {
			s, err := tt.make()
			refused(t, tt.want, s, err)
		})
	}
}

func TestFixesAreSpelledOut(t *testing.T) {
	_, err := NewTube(0.020, 0.012, 1)
	assert.EqualError(t, err, "wall 12 mm does not fit inside outside 20 mm: "+
		"write a wall below half of it, 10 mm, or use a cylinder if it is solid")
	_, err = NewCone(0, 0, 1)
	assert.EqualError(t, err, "bottom and top diameter are both zero: write at least one of them above zero")
}

func TestPointsOfCones(t *testing.T) {
	for _, s := range []Solid{made(NewCone(2, 0, 3)), made(NewCone(0, 2, 3))} {
		requireClosed(t, s.Mesh(0.1))
		nearVec(t, Vec{2, 2, 3}, ExtentOf(s, Still()).Size(), 0)
	}
	// Either way up it is the same cone.
	up, down := made(NewCone(2, 0, 3)), made(NewCone(0, 2, 3))
	turned := down.Moments().Posed(Pose{TurnAbout(0, math.Pi), Vec{0, 0, 3}})
	nearMoments(t, up.Moments(), turned, 1e-15, 3)
}

// TestBoresAreEmpty: what is hollow does not belong to the solid.
func TestBoresAreEmpty(t *testing.T) {
	tube := made(NewTube(2, 0.1, 3))
	ball := made(NewSphere(2, 0.1))
	for _, s := range []Solid{tube, NewBody(tube.Mesh(1e-4))} {
		assert.False(t, s.Contains(Vec{0, 0, 1}), "in the bore")
		assert.True(t, s.Contains(Vec{0.95, 0, 1}), "in the wall")
		assert.False(t, s.Contains(Vec{1.01, 0, 1}))
		assert.False(t, s.Contains(Vec{0.95, 0, -0.01}))
	}
	for _, s := range []Solid{ball, NewBody(ball.Mesh(1e-3))} {
		assert.False(t, s.Contains(Vec{0, 0, 1}), "in the hollow")
		assert.True(t, s.Contains(Vec{0, 0, 0.05}), "in the wall")
		assert.True(t, s.Contains(Vec{}), "where it rests")
		assert.False(t, s.Contains(Vec{0, 0, -0.01}))
	}
}

// TestOnTheSurface: a nominal place on the surface counts in, with 1e-9 of
// the size to spare and no more.
func TestOnTheSurface(t *testing.T) {
	cone := made(NewCone(6, 2, 2)) // its side slopes at 45°
	assert.True(t, cone.Contains(Vec{2, 0, 1}))
	size := math.Hypot(6, 2)
	off := Vec{math.Sqrt2 / 2, 0, math.Sqrt2 / 2}
	assert.True(t, cone.Contains(Vec{2, 0, 1}.Add(off.Mul(0.99e-9*size))))
	assert.False(t, cone.Contains(Vec{2, 0, 1}.Add(off.Mul(1.01e-9*size))))
	box := made(NewBox(3, 4, 12))
	assert.True(t, box.Contains(Vec{1.5, 2, 12}))
	assert.True(t, box.Contains(Vec{1.5 + 0.99*13e-9, 0, 1}))
	assert.False(t, box.Contains(Vec{1.5 + 1.01*13e-9, 0, 1}))
}

// TestSegments: fine enough, not finer than needed, and limited.
func TestSegments(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		r := drawSize(t, "r")
		chord := r * math.Pow(10, rapid.Float64Range(-7, 1).Draw(t, "chord"))
		sagitta := func(n int) float64 { return r * (1 - math.Cos(math.Pi/float64(n))) }
		n := Segments(r, chord)
		require.Zero(t, n%4)
		if n < 1024 {
			require.LessOrEqual(t, sagitta(n), chord*(1+1e-9))
		}
		if n > 12 {
			require.Greater(t, sagitta(n-4), chord*(1-1e-9))
		}
		n = sphereSegments(r, chord)
		m := ball(0, r, n)
		for i := range m.Faces {
			a, b, c := m.Triangle(i)
			normal := b.Sub(a).Cross(c.Sub(a))
			deep := r - a.Dot(normal)/normal.Len()
			require.True(t, n == 256 || deep <= chord*(1+1e-9), "facet %d of %d is %g deep", i, n, deep)
		}
	})
	for _, chord := range []float64{0, -1, math.NaN(), 1e-300} {
		assert.Equal(t, 1024, Segments(1, chord), "chord %g", chord)
		assert.Equal(t, 256, sphereSegments(1, chord), "chord %g", chord)
	}
	assert.Equal(t, 12, Segments(1, math.Inf(1)))
	assert.Equal(t, 12, sphereSegments(1, math.Inf(1)))
}

// TestHollowMeshesKeepTheirWall: with a wall far thinner than the chord the
// two faces of the mesh still do not meet.
func TestHollowMeshesKeepTheirWall(t *testing.T) {
	for _, s := range []Solid{made(NewTube(2, 1e-5, 1)), made(NewSphere(2, 1e-5))} {
		m := s.Mesh(0.1)
		requireClosed(t, m)
		assert.InEpsilon(t, 1, m.Moments().Volume/s.Moments().Volume, 0.15) // 12 sides: 4.5 %, a ball 13 %
	}
}

func TestMillimetres(t *testing.T) {
	for metres, want := range map[float64]string{
		0.012: "12 mm", 1: "1000 mm", 0.0000125: "0.013 mm", 0.1005: "100.5 mm", 0: "0 mm", -2: "-2000 mm",
		1e-8: "1e-05 mm", 1e10: "1e+13 mm",
	} {
		assert.Equal(t, want, millimetres(metres))
	}
}
