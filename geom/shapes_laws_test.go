package geom

import (
	"math"
	"testing"

	"github.com/go-gl/mathgl/mgl64"
	"github.com/stretchr/testify/assert"
	"pgregory.net/rapid"
)

// TestOneShapeTwoWays holds each closed form to the sums along an outline that
// draws the same solid, and to simpler solids that are special cases.
func TestOneShapeTwoWays(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		a, b, h := drawSize(t, "a"), drawSize(t, "b"), drawSize(t, "h")
		share, angle := rapid.Float64Range(0.02, 0.98).Draw(t, "share"), drawAngle(t)
		turn := func(o Outline, angle float64) Solid { return made(NewRevolve(o, angle)) }
		wall := share * a / 2
		bowl := Outline{{mgl64.Vec2{a/2 - wall, 0}, 0}, {mgl64.Vec2{a / 2, 0}, quarter}, {mgl64.Vec2{0, a / 2}, 0}, {mgl64.Vec2{0, a/2 - wall}, -quarter}}
		ball := Outline{{mgl64.Vec2{0, 0}, 1}, {mgl64.Vec2{0, a}, 0}}
		cut := a * share // height of a cap of a ball of diameter a
		rim := math.Sqrt(cut * (a - cut))
		dome := Outline{{mgl64.Vec2{0, 0}, 0}, {mgl64.Vec2{rim, 0}, cut / (rim + math.Hypot(rim, cut))}, {mgl64.Vec2{0, cut}, 0}}
		outer, inner := Circle(mgl64.Vec2{a, 0}, a*share), Circle(mgl64.Vec2{a, 0}, a*share*share)
		toBend := made(NewBend(a*share, 0, a, angle)).pose()
		for _, c := range []struct {
			name      string
			got, want Moments
		}{
			{"bowl", turn(bowl, fullTurn).Moments(), made(NewHemisphere(a, wall)).Moments()},
			{"ball", turn(ball, fullTurn).Moments(), made(NewSphere(a, 0)).Moments()},
			{"cap", turn(dome, fullTurn).Moments(), made(NewCap(a, cut)).Moments()},
			{"ring", turn(outer, fullTurn).Moments().Posed(at(0, 0, a*share/2)), made(NewRing(2*a, a*share)).Moments()},
			{"bend", turn(outer, angle).Moments().Posed(toBend), made(NewBend(a*share, 0, a, angle)).Moments()},
			{"pipe bend", turn(outer, angle).Moments().Minus(turn(inner, angle).Moments()).Posed(toBend),
				made(NewBend(a*share, a*share*(1-share)/2, a, angle)).Moments()},
			{"tube", turn(Straight(rectangle(a/2-wall, 0, wall, h)), fullTurn).Moments(), made(NewTube(a, wall, h)).Moments()},
			{"cone", turn(Straight([]mgl64.Vec2{{0, 0}, {a / 2, 0}, {b / 2, h}, {0, h}}), fullTurn).Moments(), made(NewCone(a, b, h)).Moments()},
			{"cone shell without wall", made(NewConeShell(a, b, h, 0, 0)).Moments(), made(NewCone(a, b, h)).Moments()},
			{"cone shell, both ends alike", made(NewConeShell(a, a, h, wall, 0)).Moments(), made(NewTube(a, wall, h)).Moments()},
			{"pyramid, both ends alike", made(NewPyramid(a, b, a, b, h)).Moments(), made(NewBox(a, b, h)).Moments()},
			{"wedge, both edges alike", made(NewWedge(a, b, h, a)).Moments().Posed(Pose{TurnAbout(1, -math.Pi/2), Vec{}}),
				twoTriangles(b, h, a)},
			{"ellipsoidal 1:1", head(Ellipsoidal(1), a, wall), made(NewHemisphere(a+2*wall, wall)).Moments()},
			{"hemispherical", head(Hemispherical(), a, wall), made(NewHemisphere(a+2*wall, wall)).Moments()},
		} {
			// No more than 1e-12 of the solid itself, thin walls or not.
			reach := math.Sqrt(c.want.Second.Trace() / c.want.Volume)
			nearMoments(t, c.want, c.got, 1e-12*c.want.Volume, reach, c.name)
		}
	})
}

func head(form HeadForm, inside, wall float64) Moments {
	return made(NewHead(HeadSize{Form: form, Inside: inside, Wall: wall})).Moments()
}

// twoTriangles is a ridge roof of prisms: base b along y, height h along −x,
// length l along z, turned as the wedge is.
func twoTriangles(b, h, l float64) Moments {
	roof := []mgl64.Vec2{{0, -b / 2}, {0, b / 2}, {-h, 0}}
	return made(NewPolygon(roof, nil, l)).Moments().Posed(at(0, 0, -l/2))
}

// TestShapesCutInTwo: parts add up to the whole, as TestCutInTwo.
func TestShapesCutInTwo(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		a, b, h := drawSize(t, "a"), drawSize(t, "b"), drawSize(t, "h")
		share := rapid.Float64Range(0.02, 0.98).Draw(t, "share")
		low := h * share
		angle := rapid.Float64Range(0.1, fullTurn).Draw(t, "angle")
		first := angle * share
		upsideDown := Pose{TurnAbout(0, math.Pi), Vec{0, 0, a}}
		outline := Straight([]mgl64.Vec2{{a, 0}, {a + b, h / 3}, {a + b/2, h}})
		between := func(x, y float64) float64 { return x + (y-x)*share }
		sin, cos := math.Sincos(first)
		ahead := Pose{TurnAbout(1, first), Vec{a * (1 - cos), 0, a * sin}}
		wall := 0.05 * min(a, b)
		for _, c := range []struct {
			name         string
			whole, first Solid
			second       Solid
			pose         Pose
		}{
			{"wedge", made(NewWedge(a, b, h, a/2)), made(NewPyramid(a, b, between(a, a/2), between(b, 0), low)),
				made(NewWedge(between(a, a/2), between(b, 0), h-low, a/2)), at(0, 0, low)},
			{"eccentric shell", made(NewConeShell(a, b, h, wall, b)), made(NewConeShell(a, between(a, b), low, wall, b*share)),
				made(NewConeShell(between(a, b), b, h-low, wall, b*(1-share))), at(b*share, 0, low)},
			{"ball into caps", made(NewSphere(a, 0)), made(NewCap(a, a*(1-share))), made(NewCap(a, a*share)), upsideDown},
			{"bend", made(NewBend(a*0.8, a*0.1, a, angle)), made(NewBend(a*0.8, a*0.1, a, first)), made(NewBend(a*0.8, a*0.1, a, angle-first)), ahead},
			{"revolve", made(NewRevolve(outline, angle)), made(NewRevolve(outline, first)), made(NewRevolve(outline, angle-first)),
				Pose{TurnAbout(2, first), Vec{}}},
		} {
			whole := c.whole.Moments()
			reach := math.Sqrt(whole.Second.Trace() / whole.Volume)
			lower := Still()
			if c.name == "ball into caps" { // the first stands on the cut
				lower = at(0, 0, a*share)
				c.pose.Move[2] = a * share
			}
			sum := c.first.Moments().Posed(lower).Plus(c.second.Moments().Posed(c.pose))
			// A shell with a wall of 1e-4 of its radius, the difference of two
			// cones, loses four digits.
			nearMoments(t, whole, sum, 1e-10*whole.Volume, reach, c.name)
		}
	})
}

// TestReachTwoWays holds the reach of round solids to that of the outlines
// that draw them, and asks both about points.
func TestReachTwoWays(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		a := drawSize(t, "a")
		share, angle := rapid.Float64Range(0.02, 0.98).Draw(t, "share"), drawAngle(t)
		cut := a * share
		rim := math.Sqrt(cut * (a - cut))
		dome := Outline{{mgl64.Vec2{0, 0}, 0}, {mgl64.Vec2{rim, 0}, cut / (rim + math.Hypot(rim, cut))}, {mgl64.Vec2{0, cut}, 0}}
		half := Outline{{mgl64.Vec2{0, 0}, 0}, {mgl64.Vec2{a / 2, 0}, quarter}, {mgl64.Vec2{0, a / 2}, 0}}
		bend := made(NewBend(a*share, 0, a, angle))
		for _, c := range []struct {
			name  string
			solid Solid
			drawn Outline
			angle float64
			pose  Pose // of the drawn one
		}{
			{"cap", made(NewCap(a, cut)), dome, fullTurn, Still()},
			{"hemisphere", made(NewHemisphere(a, 0)), half, fullTurn, Still()},
			{"ring", made(NewRing(2*a, a*share)), Circle(mgl64.Vec2{a, 0}, a*share), fullTurn, at(0, 0, a*share/2)},
			{"bend", bend, Circle(mgl64.Vec2{a, 0}, a*share), angle, bend.pose()},
		} {
			drawn := made(NewRevolve(c.drawn, c.angle))
			for range 5 {
				dir, p := drawVec(t, "dir", 1), drawVec(t, "p", 1.5*a)
				reach := drawn.Reach(c.pose.Turn.Transpose().Mul3x1(dir)) + c.pose.Move.Dot(dir)
				assert.InDelta(t, reach, c.solid.Reach(dir), 1e-14*10*a, "%s along %v", c.name, dir)
				sameInside(t, posed{c.solid, c.pose}, drawn, c.pose.Back(p), c.name)
			}
		}
	})
}

// posed is a solid as seen from a frame that stands in the pose.
type posed struct {
	Solid
	pose Pose
}

func (s posed) Contains(p Vec) bool { return s.Solid.Contains(s.pose.Point(p)) }

// TestThinSlice: a turn by next to nothing does not reach to the other side.
func TestThinSlice(t *testing.T) {
	s := made(NewRevolve(Straight(rectangle(0, 0, 1, 1)), 1e-6))
	assert.True(t, s.Contains(Vec{0.5, 0, 0.5}))
	assert.False(t, s.Contains(Vec{0.5, 0.00001, 0.5}))
	assert.False(t, s.Contains(Vec{-0.001, 0, 0.5}))
	requireClosed(t, s.Mesh(0.1))
}

// TestOnALeaningSide: a point counts as on a side that leans by three in one
// as far from it, measured square to it, as anywhere else: 1e-9 of the size.
func TestOnALeaningSide(t *testing.T) {
	s := made(NewConeShell(2, 2, 1, 0.5, 3))
	size := Vec{2 + 3, 0, 1}.Len()
	out := Vec{1, 0, -3}.Normalize()
	for _, p := range []Vec{{1 + 1.5, 0, 0.5}, {-1 + 1.5, 0, 0.5}, {0.5 + 1.5, 0, 0.5}, {-0.5 + 1.5, 0, 0.5}} {
		sign := 1.0
		if p[0] == 0.5 || p[0] == 2 { // the far side, and the bore on the near side
			sign = -1
		}
		assert.True(t, s.Contains(p.Add(out.Mul(sign*0.99e-9*size))), "%v", p)
		assert.False(t, s.Contains(p.Add(out.Mul(sign*1.01e-9*size))), "%v", p)
	}
}

// TestShearKeepsVolume: the offset of a cone moves its centroid along x by its
// part of the height, and nothing else of volume and height.
func TestShearKeepsVolume(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		a, b, h := drawSize(t, "a"), drawSize(t, "b"), drawSize(t, "h")
		offset := rapid.Float64Range(-5, 5).Draw(t, "offset")
		upright, leaning := made(NewConeShell(a, b, h, 0.1*a, 0)).Moments(), made(NewConeShell(a, b, h, 0.1*a, offset)).Moments()
		c := upright.Centroid()
		assert.InEpsilon(t, upright.Volume, leaning.Volume, 1e-14)
		nearVec(t, Vec{offset * c[2] / h, 0, c[2]}, leaning.Centroid(), 1e-13*(h+5))
	})
}

// TestGaussPoints sum a polynomial of the degree that they are good for.
func TestGaussPoints(t *testing.T) {
	for _, rule := range []struct {
		points []sample
		degree int
	}{{gauss2, 3}, {gauss12, 23}} {
		for n := 0; n <= rule.degree; n++ {
			sum, want := 0.0, 0.0
			for _, g := range rule.points {
				sum += g.weight * math.Pow(g.at, float64(n))
			}
			if n%2 == 0 {
				want = 2 / float64(n+1) // ∫xⁿ dx from −1 to 1
			}
			assert.InDelta(t, want, sum, 1e-15, "degree %d by %d points", n, len(rule.points))
		}
	}
}
