package geom

import (
	"fmt"
	"math"
	"testing"

	"github.com/go-gl/mathgl/mgl64"
	"github.com/stretchr/testify/assert"

	"plumbhook/testdata/published/inprint"
)

// elbow is the check value of a bend of 200 x 10 mm pipe to a radius of 300.
const elbow = "theorem of Pappus; centroid derived here, checked by numerical integration"

// TestThinConeShell: a wall w measured level is a plate of w·H/s, s the slant
// height, so volume over that is the area of the side, π·(r₁ + r₂)·s.
func TestThinConeShell(t *testing.T) {
	const wall = 1e-7
	m := made(NewConeShell(2, 1, 2, wall, 0)).Moments()
	assert.InDelta(t, 9.714839, m.Volume/(wall*2/math.Hypot(2, 0.5)), 2e-6, "π·1.5·√4.25")
	assert.InDelta(t, 0.888889, m.Centroid()[2], 1e-6, "standard centroid table (from memory); figure derived here by numerical integration")
}

// TestConeOfPlate: a roof of 20 m, 1 m high, of 6 mm plate, and a hopper of 45°
// of 10 mm, outside diameters: π·(r₁ + r₂ − w)·s·t by hand, the level wall w = t·s/h.
func TestConeOfPlate(t *testing.T) {
	for _, tt := range []struct{ bottom, top, height, plate, volume float64 }{
		{20, 0, 1, 0.006, math.Pi * (10 - 0.006*math.Hypot(10, 1)) * math.Hypot(10, 1) * 0.006}, // less the tip, of no account
		{0.3, 2.3, 1, 0.01, math.Pi * (0.15 + 1.15 - 0.01*math.Sqrt2) * math.Sqrt2 * 0.01},
	} {
		m := made(NewConeShell(tt.bottom, tt.top, tt.height, LevelWall(tt.bottom, tt.top, tt.height, 0, tt.plate), 0)).Moments()
		assert.InEpsilon(t, tt.volume, m.Volume, 3e-5)
	}
	// Eccentric: the area of the thin side by an independent sum of its flat strips.
	const n = 20000
	area := 0.0
	at := func(i int, r, e, z float64) Vec {
		sin, cos := math.Sincos(2 * math.Pi * float64(i) / n)
		return Vec{e + r*cos, r * sin, z}
	}
	for i := range n {
		a, b, c, d := at(i, 1, 0, 0), at(i+1, 1, 0, 0), at(i+1, 0.6, 0.4, 1.5), at(i, 0.6, 0.4, 1.5)
		area += c.Sub(a).Cross(d.Sub(b)).Len() / 2
	}
	m := made(NewConeShell(2, 1.2, 1.5, LevelWall(2, 1.2, 1.5, 0.4, 1e-7), 0.4)).Moments()
	assert.InEpsilon(t, area, m.Volume/1e-7, 1e-6)
}

// TestElbow: the bend of the table. The thin line would put its centroid at
// 0.270095 from the centre of the bend, 14 mm off.
func TestElbow(t *testing.T) {
	s := made(NewBend(0.2, 0.01, 0.3, math.Pi/2))
	m := s.Moments()
	assert.InDelta(t, 0.00281284, m.Volume, 5e-9, elbow)
	fromCentre := m.Centroid().Sub(Vec{0.3, 0, 0})
	assert.InDelta(t, 0.283675, fromCentre.Len(), 5e-7, elbow)
	assert.InDelta(t, -fromCentre[0], fromCentre[2], 1e-12, "on the bisector")
	assert.InDelta(t, 0, fromCentre[1], 1e-15)
	// Its ends: the first around the origin looking down, the second at (R, 0, R).
	nearVec(t, Vec{-0.1, -0.1, 0}, ExtentOf(s, Still()).Min, 1e-15)
	nearVec(t, Vec{0.3, 0.1, 0.4}, ExtentOf(s, Still()).Max, 1e-15)
	assert.True(t, s.Contains(Vec{0.095, 0, 0}))
	assert.False(t, s.Contains(Vec{}), "in the bore")
	assert.True(t, s.Contains(Vec{0.3, 0, 0.395}))
	assert.False(t, s.Contains(Vec{0.31, 0, 0.395}), "past the second end")
}

// TestPublishedPappus are worked examples of solids of revolution.
func TestPublishedPappus(t *testing.T) {
	profile := func(points ...mgl64.Vec2) Moments {
		return made(NewRevolve(Straight(points), fullTurn)).Moments()
	}
	holdVolumes(t, map[string]solid{
		"cone on a cylinder":             {profile(mgl64.Vec2{0, 0}, mgl64.Vec2{1.5, 0}, mgl64.Vec2{1.5, 2}, mgl64.Vec2{0, 4}), 1},
		"ring of rectangle and triangle": {profile(mgl64.Vec2{1.5, 0}, mgl64.Vec2{2.4, 0}, mgl64.Vec2{2.4, 1.5}, mgl64.Vec2{1.5, 2.7}), 1 / math.Pi},
		"triangle 3 x 10 ft":             {profile(mgl64.Vec2{0, 0}, mgl64.Vec2{3, 0}, mgl64.Vec2{0, 10}), 1},
		"pulley rim of steel": {profile(mgl64.Vec2{0.35, 0}, mgl64.Vec2{0.4, 0}, mgl64.Vec2{0.4, 0.1}, mgl64.Vec2{0.35, 0.1}, mgl64.Vec2{0.35, 0.08},
			mgl64.Vec2{0.38, 0.08}, mgl64.Vec2{0.38, 0.02}, mgl64.Vec2{0.35, 0.02}), 7850},
		"ring of mean radius 2, bar 1": {made(NewRing(4, 1)).Moments(), 1},
	})
}

// TestPublishedCircularSegments are an arc and its chord, cut from a circle of radius
// 1: area, and how far the centroid is from the circle's centre.
func TestPublishedCircularSegments(t *testing.T) {
	page := inprint.Of(t, "geom")
	for _, depth := range []float64{0.5, 1, 1.5} {
		name := fmt.Sprintf("%g deep, of a circle of radius 1", depth)
		half := math.Sqrt(depth * (2 - depth))
		segment := Outline{{mgl64.Vec2{half, 0}, depth / half}, {mgl64.Vec2{-half, 0}, 0}} // sagitta = bulge·chord/2
		m := made(NewExtrusion(segment, nil, 1)).Moments()
		page.Is(name, "area", m.Volume)
		page.Is(name, "centroid from the centre", m.Centroid()[1]+1-depth)
	}
}

// beam is a rolled section with its root radii, in mm.
func beam(h, b, tw, tf, r float64) Outline {
	var quarterOf []Vertex // the quarter up and to the right, from the web's side on
	x, y := tw/2, h/2-tf
	quarterOf = append(quarterOf, Vertex{mgl64.Vec2{x, y - r}, -quarter}, Vertex{mgl64.Vec2{x + r, y}, 0},
		Vertex{mgl64.Vec2{b / 2, y}, 0}, Vertex{mgl64.Vec2{b / 2, h / 2}, 0})
	var o Outline
	for _, sign := range [][2]float64{{1, 1}, {-1, 1}, {-1, -1}, {1, -1}} {
		part := make(Outline, 4)
		for i, v := range quarterOf {
			part[i] = Vertex{mgl64.Vec2{v.At[0] * sign[0], v.At[1] * sign[1]}, v.Bulge}
		}
		if sign[0]*sign[1] < 0 { // mirrored: the other way round
			part = Outline{part[3], part[2], {part[1].At, -quarter}, {part[0].At, 0}}
		}
		o = append(o, part...)
	}
	return o
}

// angle is a rolled angle 100 x 100 x 10 with root radius 12 and toe radius 6,
// its heel at the origin.
var angle = Outline{{mgl64.Vec2{0, 0}, 0}, {mgl64.Vec2{100, 0}, 0}, {mgl64.Vec2{100, 4}, quarter}, {mgl64.Vec2{94, 10}, 0}, {mgl64.Vec2{22, 10}, -quarter},
	{mgl64.Vec2{10, 22}, 0}, {mgl64.Vec2{10, 94}, quarter}, {mgl64.Vec2{4, 100}, 0}, {mgl64.Vec2{0, 100}, 0}}

func rounded(side, r float64) Outline {
	a, b := side/2, side/2-r
	return Outline{{mgl64.Vec2{-b, -a}, 0}, {mgl64.Vec2{b, -a}, quarter}, {mgl64.Vec2{a, -b}, 0}, {mgl64.Vec2{a, b}, quarter},
		{mgl64.Vec2{b, a}, 0}, {mgl64.Vec2{-b, a}, quarter}, {mgl64.Vec2{-a, b}, 0}, {mgl64.Vec2{-a, -b}, quarter}}
}

// TestPublishedRolledSections draws sections with their radii, in mm, and holds area
// and second moments of area to the tables. A figure is right to half of its last digit.
func TestPublishedRolledSections(t *testing.T) {
	page := inprint.Of(t, "geom")
	for name, drawn := range map[string]struct {
		outline Outline
		holes   []Outline
	}{
		"IPE 200":                        {beam(200, 100, 5.6, 8.5, 12), nil},
		"IPE 300":                        {beam(300, 150, 7.1, 10.7, 15), nil},
		"HE 200 A":                       {beam(190, 200, 6.5, 10, 18), nil},
		"L 100 x 100 x 10":               {angle, nil},
		"SHS 100 x 100 x 5, cold formed": {rounded(100, 10), []Outline{rounded(90, 5)}},
	} {
		m := made(NewExtrusion(drawn.outline, drawn.holes, 1)).Moments()
		second := m.Central()
		page.Is(name, "area", m.Volume/100)
		page.Is(name, "second moment about the level axis", second.At(1, 1)/1e4)
		page.Is(name, "second moment about the upright axis", second.At(0, 0)/1e4)
	}
}

// TestPublishedCentroidOfAngle is how far the centroid is from the back of the leg.
func TestPublishedCentroidOfAngle(t *testing.T) {
	c := made(NewExtrusion(angle, nil, 1)).Moments().Centroid()
	inprint.Of(t, "geom").Is("L 100 x 100 x 10", "heel to centroid", c[0])
	assert.InDelta(t, c[0], c[1], 1e-12)
}
