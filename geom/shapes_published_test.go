package geom

import (
	"math"
	"testing"

	"github.com/go-gl/mathgl/mgl64"
	"github.com/stretchr/testify/assert"
)

// elbow is the check value of a bend of 200 x 10 mm pipe to a radius of 300.
const elbow = "theorem of Pappus; centroid derived here, checked by numerical integration"

// TestTabledShapes holds volume and centroid to the check values of a centroid
// table, as TestTabledCentroids.
func TestTabledShapes(t *testing.T) {
	tests := []struct {
		name     string
		got      Moments
		volume   float64
		centroid Vec
	}{
		{"wedge", made(NewWedge(4, 3, 5, 2)).Moments(), 25, Vec{0, 0, 1.5}},
		{"obelisk", made(NewPyramid(4, 3, 2, 1, 5)).Moments(), 31.666667, Vec{0, 0, 1.842105}},
		{"frustum of a square pyramid", made(NewPyramid(4, 4, 2, 2, 3)).Moments(), 28, Vec{0, 0, 1.178571}},
		{"pyramid, A·H/3 and H/4", made(NewPyramid(3, 4, 0, 0, 5)).Moments(), 20, Vec{0, 0, 1.25}},
		{"eccentric reducer, solid", made(NewConeShell(2, 1.2, 1.5, 0, 0.4)).Moments(), 3.078761, Vec{0.167347, 0, 0.627551}},
		{"hemisphere", made(NewHemisphere(2, 0)).Moments(), 2.094395, Vec{0, 0, 0.375}},
		{"hollow hemisphere", made(NewHemisphere(2, 0.1)).Moments(), 0.567581, Vec{0, 0, 0.475876}},
		{"spherical cap", made(NewCap(4, 0.7)).Moments(), 2.719572, Vec{0, 0, 0.241038}},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			const tol = 1e-6 // the table has six decimals
			assert.InDelta(t, tt.volume, tt.got.Volume, tol, standard)
			nearVec(t, tt.centroid, tt.got.Centroid(), tol, standard)
		})
	}
}

// TestThinConeShell: a wall w measured level is a plate of w·H/s, s the slant
// height, so volume over that is the area of the side, π·(r₁ + r₂)·s.
func TestThinConeShell(t *testing.T) {
	const wall = 1e-7
	m := made(NewConeShell(2, 1, 2, wall, 0)).Moments()
	assert.InDelta(t, 9.714839, m.Volume/(wall*2/math.Hypot(2, 0.5)), 2e-6, "π·1.5·√4.25")
	assert.InDelta(t, 0.888889, m.Centroid()[2], 1e-6, standard)
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

// TestPappus are worked examples of solids of revolution.
func TestPappus(t *testing.T) {
	profile := func(points ...mgl64.Vec2) float64 {
		return made(NewRevolve(Straight(points), fullTurn)).Moments().Volume
	}
	tests := []struct {
		name   string
		got    float64
		want   float64
		tol    float64
		source string
	}{
		{"cone on a cylinder, m3: 6π", profile(mgl64.Vec2{0, 0}, mgl64.Vec2{1.5, 0}, mgl64.Vec2{1.5, 2}, mgl64.Vec2{0, 4}),
			18.8, 0.05, hibbeler + "F9-13 (answer seen; dimensions from memory)"},
		{"ring of rectangle and triangle, m3: 7.21π", profile(mgl64.Vec2{1.5, 0}, mgl64.Vec2{2.4, 0}, mgl64.Vec2{2.4, 1.5}, mgl64.Vec2{1.5, 2.7}) / math.Pi,
			7.21, 0.005, hibbeler + "F9-14 (answer seen; dimensions from memory)"},
		{"triangle 3 x 10 ft, ft3", profile(mgl64.Vec2{0, 0}, mgl64.Vec2{3, 0}, mgl64.Vec2{0, 10}),
			94.2, 0.05, hibbeler + "sec. 9.3 example, triangle revolved (seen)"},
		{"pulley rim of steel, kg", 7850 * profile(mgl64.Vec2{0.35, 0}, mgl64.Vec2{0.4, 0}, mgl64.Vec2{0.4, 0.1}, mgl64.Vec2{0.35, 0.1}, mgl64.Vec2{0.35, 0.08},
			mgl64.Vec2{0.38, 0.08}, mgl64.Vec2{0.38, 0.02}, mgl64.Vec2{0.35, 0.02}), 60.0, 0.1, beer},
		{"ring of mean radius 2, bar 1: 2π²·2·0.25", made(NewRing(4, 1)).Moments().Volume, 9.869604, 5e-7, "theorem of Pappus, standard geometry"},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) { assert.InDelta(t, tt.want, tt.got, tt.tol, tt.source) })
	}
}

// TestCircularSegments are an arc and its chord, cut from a circle of radius
// 1: area, and how far the centroid is from the circle's centre.
func TestCircularSegments(t *testing.T) {
	for _, tt := range []struct{ depth, area, centroid float64 }{
		{0.5, 0.614185, 0.705020}, {1, 1.570796, 0.424413}, {1.5, 2.527408, 0.171327},
	} {
		half := math.Sqrt(tt.depth * (2 - tt.depth))
		segment := Outline{{mgl64.Vec2{half, 0}, tt.depth / half}, {mgl64.Vec2{-half, 0}, 0}} // sagitta = bulge·chord/2
		m := made(NewExtrusion(segment, nil, 1)).Moments()
		assert.InDelta(t, tt.area, m.Volume, 5e-7, standard)
		assert.InDelta(t, tt.centroid, m.Centroid()[1]+1-tt.depth, 5e-7, standard)
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

// TestRolledSections draws sections with their radii and holds area and second
// moments of area to the tables. A figure is right to half of its last digit.
// Areas as carried in an open dataset of section tables (seen), second moments
// from memory.
func TestRolledSections(t *testing.T) {
	tests := []struct {
		name              string
		outline           Outline
		holes             []Outline
		area, areaTol     float64 // cm²
		deep, flat, inTol float64 // cm⁴, about the level and the upright axis
		source            string
	}{
		{"IPE 200", beam(200, 100, 5.6, 8.5, 12), nil, 28.5, 0.05, 1943, 142.4, 0.5, "EN 10365"},
		{"IPE 300", beam(300, 150, 7.1, 10.7, 15), nil, 53.8, 0.05, 8356, 603.8, 0.5, "EN 10365"},
		{"HE 200 A", beam(190, 200, 6.5, 10, 18), nil, 53.8, 0.05, 3692, 1336, 0.6, "EN 10365"},
		{"L 100 x 100 x 10", angle, nil, 19.2, 0.05, 177, 177, 0.5, "EN 10056-1"},
		{"SHS 100 x 100 x 5, cold formed", rounded(100, 10), []Outline{rounded(90, 5)}, 18.4, 0.05, 271, 271, 0.5, "EN 10219-2"},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			m := made(NewExtrusion(tt.outline, tt.holes, 1)).Moments()
			second := m.Central()
			assert.InDelta(t, tt.area, m.Volume/100, tt.areaTol, tt.source)
			assert.InDelta(t, tt.deep, second.At(1, 1)/1e4, tt.inTol, tt.source)
			assert.InDelta(t, tt.flat, second.At(0, 0)/1e4, tt.inTol, tt.source)
		})
	}
}

// TestCentroidOfAngle is how far the centroid is from the back of the leg.
func TestCentroidOfAngle(t *testing.T) {
	c := made(NewExtrusion(angle, nil, 1)).Moments().Centroid()
	assert.InDelta(t, 28.2, c[0], 0.05, "mm, EN 10056-1 (figure from memory)")
	assert.InDelta(t, c[0], c[1], 1e-12)
}

// TestTabledInertiaOfShapes as TestTabledInertia, about axes through the
// centroid. Typed for density 1.
func TestTabledInertiaOfShapes(t *testing.T) {
	const source = "table of mass moments of inertia of homogeneous solids (formula from memory)"
	tests := []struct {
		name             string
		got              Moments
		across, alongown float64
		formula          string
	}{
		{"hemisphere r 1", made(NewHemisphere(2, 0)).Moments(), 0.5432337, 0.8377580, "83/320·m r², 2/5·m r²; m = 2π/3"},
		{"ring 2 and 0.5", made(NewRing(4, 1)).Moments(), 21.2813345, 41.3289684, "m (4R² + 5r²)/8, m (4R² + 3r²)/4; m = π²"},
		{"square pyramid, base 2, h 3", made(NewPyramid(2, 2, 0, 0, 3)).Moments(), 2.15, 1.6, "m (4a² + 3h²)/80, m a²/10; m = 4"},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			got := Inertia(tt.got.Central())
			want := mgl64.Diag3(Vec{tt.across, tt.across, tt.alongown})
			for i := range want {
				assert.InDelta(t, want[i], got[i], 1e-6, "%s: %s", source, tt.formula)
			}
		})
	}
}
