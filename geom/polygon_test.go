package geom

import (
	"math"
	"slices"
	"testing"

	"github.com/go-gl/mathgl/mgl64"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

type ring = []mgl64.Vec2

func rectangle(x, y, w, h float64) ring {
	return ring{{x, y}, {x + w, y}, {x + w, y + h}, {x, y + h}}
}

func TestOutlinesThatMakeNoSense(t *testing.T) {
	nan, inf := math.NaN(), math.Inf(1)
	plate := rectangle(0, 0, 1, 1)
	many := make(ring, 10001)
	for i := range many {
		sin, cos := math.Sincos(2 * math.Pi * float64(i) / float64(len(many)))
		many[i] = mgl64.Vec2{cos, sin}
	}
	tests := []struct {
		name    string
		outline ring
		holes   []ring
		want    string
	}{
		{"nothing", nil, nil, "the outline has 0 different points"},
		{"two points, closed", ring{{0, 0}, {1, 0}, {0, 0}}, nil, "the outline has 2 different points"},
		{"no number", ring{{0, 0}, {1, nan}, {1, 1}}, nil, "point 2 of the outline is not within 1000 km of its origin"},
		{"infinite", ring{{0, 0}, {1, 0}, {-inf, 1}}, nil, "point 3 of the outline is not within 1000 km of its origin"},
		{"wrong unit", ring{{0, 0}, {2e6, 0}, {1, 1}}, nil, "point 2 of the outline is not within 1000 km of its origin"},
		{"point twice", ring{{0, 0}, {1, 0}, {1, 0}, {1, 1}}, nil, "points 2 and 3 of the outline are the same, (1000 mm, 0 mm)"},
		{"bow tie", ring{{0, 0}, {1, 1}, {1, 0}, {0, 1}}, nil,
			"the outline crosses or touches itself near (500 mm, 500 mm): the sides that start at its points 1 and 3 meet there"},
		{"spike", ring{{0, 0}, {1, 0}, {1, 1}, {1, -1}, {0, -1}}, nil,
			"the outline crosses or touches itself near (1000 mm, 0 mm): the sides that start at its points 1 and 3 meet there"},
		{"straight back", ring{{0, 0}, {1, 0}, {2, 0}}, nil,
			"the outline crosses or touches itself near (0 mm, 0 mm): the sides that start at its points 1 and 3 meet there"},
		{"corner on a side, between sides 3 and 4", ring{{0, 0}, {2, 0}, {2, 2}, {1, 0}, {0, 2}}, nil,
			"the outline crosses or touches itself near (1000 mm, 0 mm): the sides that start at its points 1 and 4 meet there"},
		{"round twice", slices.Concat(plate, ring{{0, 0.5}, {-1, 0.5}}, plate), nil, ""},
		{"hole over the edge", plate, []ring{rectangle(0.5, 0.5, 1, 0.1)},
			"hole 1 crosses or touches the outline near (1000 mm, 500 mm)"},
		{"hole at the edge", plate, []ring{rectangle(0.5, 0.5, 0.5, 0.1)}, "hole 1 crosses or touches the outline near (1000 mm, 500 mm)"},
		{"hole with a corner on the edge", plate, []ring{{{0.5, 0.5}, {1, 0.6}, {0.5, 0.7}}},
			"hole 1 crosses or touches the outline near (1000 mm, 600 mm)"},
		{"hole outside", plate, []ring{rectangle(0.1, 0.1, 0.1, 0.1), rectangle(2, 2, 1, 1)},
			"hole 2 lies outside the outline, at (2000 mm, 2000 mm)"},
		{"hole around the outline", plate, []ring{rectangle(-1, -1, 3, 3)}, "hole 1 lies outside the outline, at (-1000 mm, -1000 mm)"},
		{"hole in a hole", plate, []ring{rectangle(0.4, 0.4, 0.1, 0.1), rectangle(0.3, 0.3, 0.4, 0.4)},
			"hole 1 lies inside hole 2, at (400 mm, 400 mm)"},
		{"holes that touch", plate, []ring{rectangle(0.1, 0.1, 0.1, 0.1), rectangle(0.2, 0.1, 0.1, 0.1)},
			"hole 2 crosses or touches hole 1 near (200 mm, 100 mm)"},
		{"hole with two points", plate, []ring{{{0.5, 0.5}, {0.6, 0.6}}}, "hole 1 has 2 different points"},
		{"hole that crosses itself", plate, []ring{{{0.1, 0.1}, {0.2, 0.2}, {0.2, 0.1}, {0.1, 0.2}}},
			"hole 1 crosses or touches itself near (150 mm, 150 mm): the sides that start at its points 1 and 3 meet there"},
		{"too many points", many, nil, "outline and holes have 10001 points, more than 10000"},
		{"too small", rectangle(1, 1, 1e-12, 2), nil, "size of the outline along x 1e-09 mm is smaller than anything that is built"},
		{"no area", ring{{0, 0}, {1, 0.1}, {2, 0.2 + 1e-14}}, nil, "the outline is so narrow that it has no area to speak of"},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			s, err := NewPolygon(tt.outline, tt.holes, 1)
			if tt.want == "" {
				require.Error(t, err)
				return
			}
			refused(t, tt.want, s, err)
		})
	}
	s, err := NewPolygon(plate, nil, -0.02)
	refused(t, "length -20 mm is not above zero", s, err)
}

// TestEitherWindingAndClosing: the way round and a repeated first point do
// not matter, and what was given is left alone.
func TestEitherWindingAndClosing(t *testing.T) {
	outline, hole := rectangle(1, 2, 4, 3), rectangle(2, 3, 1, 1)
	want := made(NewPolygon(outline, []ring{hole}, 2))
	assert.Equal(t, 22.0, want.Moments().Volume)
	assert.InDelta(t, 2*11+2*(14+4), want.Mesh(0).Area(), 1e-12, "two ends and the sides")
	for n := range 8 {
		o, h := slices.Clone(outline), slices.Clone(hole)
		if n&1 != 0 {
			slices.Reverse(o)
		}
		if n&2 != 0 {
			slices.Reverse(h)
		}
		if n&4 != 0 {
			o, h = append(o, o[0]), append(h, h[0])
		}
		before := slices.Clone(o)
		got := made(NewPolygon(o, []ring{h}, 2))
		assert.Equal(t, before, o)
		nearMoments(t, want.Moments(), got.Moments(), 1e-13, 5)
		requireClosed(t, got.Mesh(0))
	}
}

// checkTriangles asks that the section's triangles are whole: closed with the
// sides, none turned over, and together the area of the section.
func checkTriangles(t require.TestingT, s Polygon) {
	m := s.Mesh(0)
	requireClosed(t, m)
	points := slices.Concat(s.rings...)
	for _, f := range s.ends {
		require.Equal(t, 1, orientation(points[f[0]], points[f[1]], points[f[2]]), "triangle %v", f)
	}
	require.Len(t, s.ends, len(points)-2+2*(len(s.rings)-1), "Euler: a bridge adds two corners")
	size := s.size + points[0].Len()
	nearMoments(t, s.Moments(), m.Moments(), 1e-13*size*size*size, size)
}

// TestTriangulateOnAGrid draws plates with holes on a small grid, where many
// points are in line or level with each other: the worst case for cutting.
func TestTriangulateOnAGrid(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		whole := rapid.IntRange(1, 19)
		plate := ring{{0, 0}, {10, 0}, {20, 0}, {20, 20}, {5, 20}, {0, 20}, {0, 7}}
		var holes []ring
		for range rapid.IntRange(1, 12).Draw(t, "holes") {
			x, y := float64(whole.Draw(t, "x")), float64(whole.Draw(t, "y"))
			w, h := float64(rapid.IntRange(1, 6).Draw(t, "w")), float64(rapid.IntRange(1, 6).Draw(t, "h"))
			shapes := []ring{rectangle(x, y, w, h), {{x, y}, {x + w, y + h}, {x, y + h}},
				{{x + w, y}, {x + 2*w, y + h}, {x + w, y + 2*h}, {x, y + h}},
				{{x, y}, {x + 3*w, y}, {x + 3*w, y + 3*h}, {x + 2*w, y + 3*h}, {x + 2*w, y + h}, {x, y + h}}}
			hole := rapid.SampledFrom(shapes).Draw(t, "shape")
			if _, err := NewPolygon(plate, append(holes, hole), 1); err == nil {
				holes = append(holes, hole)
			}
		}
		checkTriangles(t, made(NewPolygon(plate, holes, 1)))
	})
}

// TestTriangulateRoundedStars rounds stars to a grid, which puts corners on
// one line, and moves them off by a third, which makes the line inexact.
func TestTriangulateRoundedStars(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		outline := drawStar(t, mgl64.Vec2{}, 3, 12)
		shift := rapid.SampledFrom([]float64{0, 1.0 / 3, 1e5 / 7}).Draw(t, "shift")
		for i, p := range outline {
			outline[i] = mgl64.Vec2{math.Round(p[0])/3 + shift, math.Round(p[1])/3 + shift}
		}
		s, err := NewPolygon(outline, nil, 1)
		if err != nil {
			t.Skip("rounding made it cross itself")
		}
		checkTriangles(t, s)
	})
}

func TestTriangulateStars(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) { checkTriangles(t, drawPolygon(t)) })
}

// TestTriangulateKnownShapes are the shapes that cutting corners has gone
// wrong on, elsewhere.
func TestTriangulateKnownShapes(t *testing.T) {
	var comb, spiral ring
	for i := range 200 {
		comb = append(comb, mgl64.Vec2{float64(i), 0}, mgl64.Vec2{float64(i) + 0.5, 30 + float64(i%7)})
		sin, cos := math.Sincos(float64(i) / 8)
		spiral = append(spiral, mgl64.Vec2{float64(i+20) * cos, float64(i+20) * sin})
	}
	comb = append(comb, mgl64.Vec2{200, 0}, mgl64.Vec2{200, -1}, mgl64.Vec2{0, -1})
	for i := 199; i >= 0; i-- {
		sin, cos := math.Sincos(float64(i) / 8)
		spiral = append(spiral, mgl64.Vec2{float64(i+45) * cos, float64(i+45) * sin})
	}
	var sieve []ring
	for i := range 8 {
		for j := range 8 {
			sieve = append(sieve, regular(12, 0.9))
			for k, p := range sieve[len(sieve)-1] {
				sieve[len(sieve)-1][k] = p.Add(mgl64.Vec2{float64(i) + 0.5, float64(j) + 0.5})
			}
		}
	}
	for name, s := range map[string]Polygon{
		"comb":                        made(NewPolygon(comb, nil, 1)),
		"spiral":                      made(NewPolygon(spiral, nil, 1)),
		"sieve, holes all in line":    made(NewPolygon(rectangle(0, 0, 8, 8), sieve, 1)),
		"hair's breadth between":      made(NewPolygon(rectangle(0, 0, 1, 1), []ring{rectangle(0.5, 0.1, 0.5-1e-12, 0.1), rectangle(0.4, 0.1, 0.1-1e-12, 0.1)}, 1)),
		"far away and small":          made(NewPolygon(rectangle(9e5, -9e5, 0.001, 0.002), []ring{rectangle(9e5+0.0005, -9e5+0.0005, 0.0001, 0.0001)}, 1)),
		"points along straight sides": made(NewPolygon(ring{{0, 0}, {1, 0}, {2, 0}, {3, 0}, {3, 1}, {3, 2}, {2, 2}, {1, 2}, {0, 2}, {0, 1}}, nil, 1)),
	} {
		t.Run(name, func(t *testing.T) { checkTriangles(t, s) })
	}
}

// TestOrientationIsExact where a plain determinant is wrong: points that step
// by one bit across a line (the classic case of robust predicates).
func TestOrientationIsExact(t *testing.T) {
	b, c := mgl64.Vec2{12, 12}, mgl64.Vec2{24, 24}
	for i := range 64 {
		for j := range 64 {
			a := mgl64.Vec2{0.5 + float64(i)*0x1p-53, 0.5 + float64(j)*0x1p-53}
			want := 0
			if a[0] > a[1] { // below the diagonal b–c: to its right
				want = -1
			} else if a[0] < a[1] {
				want = 1
			}
			require.Equal(t, want, orientation(b, c, a), "%d, %d", i, j)
			require.Equal(t, -want, orientation(c, b, a), "%d, %d", i, j)
		}
	}
	assert.Equal(t, 1, orientation(mgl64.Vec2{0, 0}, mgl64.Vec2{1e-200, 0}, mgl64.Vec2{0, 1e-200}), "products that underflow")
}

// TestPolygonHoleIsEmpty and its edge is not.
func TestPolygonHoleIsEmpty(t *testing.T) {
	s := made(NewPolygon(rectangle(0, 0, 4, 4), []ring{rectangle(1, 1, 2, 2)}, 1))
	assert.False(t, s.Contains(Vec{2, 2, 0.5}))
	assert.True(t, s.Contains(Vec{1, 2, 0.5}))
	assert.True(t, s.Contains(Vec{0.5, 2, 0.5}))
	assert.True(t, s.Contains(Vec{4, 4, 1}))
	assert.False(t, s.Contains(Vec{0.5, 2, 1.01}))
	assert.False(t, s.Contains(Vec{-0.01, 2, 0.5}))
}
