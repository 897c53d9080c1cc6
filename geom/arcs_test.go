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

// quarter is the bulge of a quarter circle.
var quarter = math.Tan(math.Pi / 8)

// TestAnyOutline draws points on a small grid with all sorts of arcs between
// them. Most cross and are refused; what is taken must have a sound mesh, at a
// coarse chord too, and the moments of that mesh.
func TestAnyOutline(t *testing.T) {
	taken := 0
	bulge := rapid.SampledFrom([]float64{0, 0, 0, 1, -1, quarter, -quarter, 1e-10, 1e-8, -1e-6, 1e-3, 0.1, -0.1, 2, -5, 1e4, 1e5, math.NaN()})
	rapid.Check(t, func(t *rapid.T) {
		grid := rapid.IntRange(0, 6)
		scale := rapid.SampledFrom([]float64{1, 1.0 / 3, 1e-3, 100 / 7.0}).Draw(t, "scale")
		draw := func(name string) Outline {
			outline := make(Outline, rapid.IntRange(0, 6).Draw(t, name))
			for i := range outline {
				at := mgl64.Vec2{float64(grid.Draw(t, "x")), float64(grid.Draw(t, "y"))}
				outline[i] = Vertex{at.Mul(scale), bulge.Draw(t, "bulge")}
			}
			return outline
		}
		outline, holes := draw("outline"), []Outline{draw("hole")}
		s, err := NewExtrusion(outline, holes, scale)
		if err != nil {
			if s, err = NewExtrusion(outline, nil, scale); err != nil {
				var shape *ShapeError
				require.ErrorAs(t, err, &shape)
				return
			}
		}
		taken++
		for _, chord := range []float64{0, 0.01, 1, math.Inf(1)} {
			m := s.Mesh(chord)
			requireClosed(t, m)
			require.Positive(t, m.Moments().Volume)
		}
		m := s.Mesh(0)
		nearMoments(t, s.Moments(), m.Moments(), 1.01*s.section.chord*m.Area(), s.section.size+20*scale)
		if r, err := NewRevolve(outline, 1); err == nil {
			requireClosed(t, r.Mesh(0.1*scale))
		}
	})
	assert.Greater(t, taken, 5, "too few figures were sound to tell anything")
}

// An arc that stands off the axis by 5 nm is put onto it: the mesh of a part of a
// turn, and of a whole one, is closed.
func TestAnArcBesideTheAxis(t *testing.T) {
	outline := Outline{{mgl64.Vec2{0, 1}, 0}, {mgl64.Vec2{0, 2}, 0}, {mgl64.Vec2{1, 5}, 0}, {mgl64.Vec2{0, 0}, 1e-8}}
	for _, angle := range []float64{1, fullTurn} {
		s := made(NewRevolve(outline, angle))
		m := s.Mesh(0.01)
		requireClosed(t, m)
		assert.InEpsilon(t, s.Moments().Volume, m.Moments().Volume, 0.02)
	}
}

// TestStraightExtrusionIsAPolygon: without arcs both give the same.
func TestStraightExtrusionIsAPolygon(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p := drawPolygon(t)
		var holes []Outline
		for _, hole := range p.rings[1:] {
			holes = append(holes, Straight(hole))
		}
		e := made(NewExtrusion(Straight(p.rings[0]), holes, p.length))
		size := p.size + 10
		nearMoments(t, p.Moments(), e.Moments(), 1e-14*size*size*size, size)
		assert.Equal(t, p.Mesh(0), e.Mesh(0.1))
		dir := drawVec(t, "dir", 1)
		assert.InDelta(t, p.Reach(dir), e.Reach(dir), 1e-14*size)
	})
}

// TestArcsAreExact holds outlines of arcs to the round solids that they are.
func TestArcsAreExact(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		d, h, part := drawSize(t, "d"), drawSize(t, "h"), rapid.Float64Range(0.01, 0.4).Draw(t, "part")
		hole := Circle(mgl64.Vec2{}, d-2*part*d)
		turn := rapid.Float64Range(0, 6).Draw(t, "turn")
		// The outside in three or more arcs of any length, either way round.
		var outside Outline
		for _, share := range []float64{0, 0.1, 0.55, 0.6} {
			sin, cos := math.Sincos(turn + fullTurn*share)
			outside = append(outside, Vertex{At: mgl64.Vec2{d / 2 * cos, d / 2 * sin}})
		}
		for i, share := range []float64{0.1, 0.45, 0.05, 0.4} {
			outside[i].Bulge = math.Tan(fullTurn * share / 4)
		}
		if rapid.Bool().Draw(t, "clockwise") {
			outside = backward(outside)
		}
		got := made(NewExtrusion(outside, []Outline{hole}, h))
		want := made(NewTube(d, part*d, h))
		size := math.Hypot(d, h)
		nearMoments(t, want.Moments(), got.Moments(), 1e-14*size*size*size, size)
		for range 10 {
			dir, p := drawVec(t, "dir", 1), drawVec(t, "p", 0.6)
			assert.InDelta(t, want.Reach(dir), got.Reach(dir), 1e-14*size)
			sameInside(t, want, got, Vec{p[0] * d, p[1] * d, 0.5 * h})
		}
		assert.False(t, got.Contains(Vec{0, 0, h / 2}), "the middle, on the chord of both halves of the hole")
	})
}

// backward returns the outline run the other way round.
func backward(o Outline) Outline {
	back := slices.Clone(o)
	slices.Reverse(back)
	for i := range back {
		back[i].Bulge = -o[(2*len(o)-2-i)%len(o)].Bulge
	}
	return back
}

// TestWindingOfArcs: the way round and a repeated first point do not matter.
func TestWindingOfArcs(t *testing.T) {
	e := formed()["extrusion"].(Extrusion)
	var outline Outline
	for _, s := range e.section.rings[0] {
		outline = append(outline, Vertex{s.p, s.bulge})
	}
	whole := made(NewExtrusion(outline, nil, 2))
	for _, o := range []Outline{backward(outline), append(slices.Clone(outline), outline[0]), append(outline[2:], outline[:2]...)} {
		got := made(NewExtrusion(o, nil, 2))
		nearMoments(t, whole.Moments(), got.Moments(), 1e-14, 1)
		requireClosed(t, got.Mesh(0.01))
	}
}

// TestPointsOnChords: the chord of an arc is no side; points on it are in or
// out as they would be beside it, however the chord lies.
func TestPointsOnChords(t *testing.T) {
	for turn := range 8 {
		θ := float64(turn) * math.Pi / 4
		spot := func(x, y float64) mgl64.Vec2 {
			sin, cos := math.Sincos(θ)
			if turn%2 == 0 {
				sin, cos = math.Round(sin), math.Round(cos)
			}
			return mgl64.Vec2{x*cos - y*sin, x*sin + y*cos}
		}
		// Two squares side by side in one outline, an arc out of the one and into the other.
		e := made(NewExtrusion(Outline{{spot(0, 0), 1}, {spot(2, 0), -1}, {spot(4, 0), 0}, {spot(4, 3), 0}, {spot(0, 3), 0}}, nil, 2))
		for _, at := range []struct {
			x, y float64
			want bool
		}{
			{1, 0, true}, {0.5, 0, true}, {1, -0.9, true}, {1, -1.1, false}, {2, 0, true}, {-0.1, 0, false},
			{3, 0, false}, {2.5, 0, false}, {3, 0.9, false}, {3, 1.1, true}, {4.1, 0, false},
		} {
			p := spot(at.x, at.y).Vec3(1)
			assert.Equal(t, at.want, e.Contains(p), "%v turned by %d eighths", at, turn)
		}
	}
}

// TestFlatArcs: an arc whose centre is far away is as good as any other. Its
// segment has about the area 2/3·chord·sagitta, off by a fifth of the bulge
// squared (standard geometry of the flat segment).
func TestFlatArcs(t *testing.T) {
	for _, bulge := range []float64{1e-8, 1e-6, 1e-4, 1e-2} {
		s := span{mgl64.Vec2{1000, 1000}, mgl64.Vec2{1001, 1000}, bulge}
		var c cubic
		s.addTo(&c, mgl64.Vec2{1000.5, 1000})
		sagitta := bulge / 2
		assert.InEpsilon(t, 2.0/3*sagitta, c.area, bulge*bulge+1e-12)
		assert.InEpsilon(t, -4.0/15*sagitta*sagitta, c.y, bulge*bulge+1e-12)
		assert.InEpsilon(t, 1000-sagitta, -s.reach(mgl64.Vec2{0, -1}), 1e-15)
		assert.InDelta(t, 0.01, s.distance(mgl64.Vec2{1000.5, 1000 - sagitta - 0.01}), 1e-12)
		assert.InDelta(t, 0.01, s.distance(mgl64.Vec2{1000.5, 1000 - sagitta + 0.01}), 1e-12)
		assert.True(t, s.cuts(mgl64.Vec2{1000.5, 1000 - sagitta*0.99}))
		assert.False(t, s.cuts(mgl64.Vec2{1000.5, 1000 - sagitta*1.01}))
	}
}

// TestBulge is the arc by its radius, on either side.
func TestBulge(t *testing.T) {
	from, to := mgl64.Vec2{1, 0}, mgl64.Vec2{0, 1}
	for _, tt := range []struct {
		radius float64
		left   bool
		want   float64
	}{
		{1, false, 0.41421356}, // around the origin: tan 22.5°
		{1, true, -0.41421356},
		{math.Sqrt2 / 2, false, 1},
		{math.Sqrt2 / 2 * (1 - 1e-7), true, -1}, // a drawing's rounded half circle
		{1e6, false, 3.5355339e-7},
	} {
		got, err := Bulge(from, to, tt.radius, tt.left)
		require.NoError(t, err)
		assert.InEpsilon(t, tt.want, got, 1e-8, "radius %g", tt.radius)
	}
	_, err := Bulge(from, to, 0.7, false)
	assert.EqualError(t, err, "radius 700 mm is too small for an arc from (1000 mm, 0 mm) to (0 mm, 1000 mm): "+
		"write a radius of at least half their distance, 707.107 mm")
	_, err = Bulge(from, from, 1, false)
	assert.ErrorContains(t, err, "distance between the ends of an arc 0 mm is not above zero")
	_, err = Bulge(from, to, math.NaN(), false)
	assert.ErrorContains(t, err, "radius is not a finite number")
}

// TestCoarseChordsStaySound: where coarse chords of two arcs would cross, at a
// thin wall, the mesh is finer than asked for.
func TestCoarseChordsStaySound(t *testing.T) {
	askew := Outline{{mgl64.Vec2{0.6, 0.8}.Mul(0.999), 1}, {mgl64.Vec2{-0.6, -0.8}.Mul(0.999), 1}}
	for name, e := range map[string]Extrusion{
		"thin wall, chords askew": made(NewExtrusion(Circle(mgl64.Vec2{}, 2), []Outline{askew}, 1)),
		"thin wall, off centre":   made(NewExtrusion(Circle(mgl64.Vec2{}, 2), []Outline{Circle(mgl64.Vec2{0.0004, 0}, 1.999)}, 1)),
		"hole near the edge":      made(NewExtrusion(Circle(mgl64.Vec2{}, 2), []Outline{Circle(mgl64.Vec2{0.2, 0.885}, 0.18)}, 1)),
	} {
		m := e.Mesh(0.3)
		requireClosed(t, m)
		assert.InEpsilon(t, 1, m.Moments().Volume/e.Moments().Volume, 0.1, name)
	}
	many := make([]Outline, 100)
	for i := range many {
		many[i] = Circle(mgl64.Vec2{float64(i%10) + 0.5, float64(i/10) + 0.5}, 0.9)
	}
	sieve := made(NewExtrusion(Straight(rectangle(0, 0, 10, 10)), many, 1))
	assert.InDelta(t, 100-25*math.Pi*0.81, sieve.Moments().Volume, 1e-12)
	requireClosed(t, sieve.Mesh(0))
}
