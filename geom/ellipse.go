package geom

import (
	"math"

	"github.com/go-gl/mathgl/mgl64"
)

// ellipse is an ellipsoidal end of half axes a (level) and b (along z), or the
// surface that runs outside it at the distance off: that of a plate of
// constant thickness.
type ellipse struct{ a, b, off float64 }

func (e ellipse) depth() float64 { return e.b + e.off }

// point returns the point whose normal rises at the angle up, and the radius
// of curvature there:
//
//	(a²·cos up, b²·sin up)/s + off·(cos up, sin up)    a²·b²/s³ + off
//
// with s = √(a²·cos² up + b²·sin² up). Source: standard geometry of the
// ellipse and of parallel curves, from memory.
func (e ellipse) point(up float64) (p mgl64.Vec2, curvature float64) {
	sin, cos := math.Sincos(up)
	s := math.Hypot(e.a*cos, e.b*sin)
	p = mgl64.Vec2{(e.a*e.a/s + e.off) * cos, (e.b*e.b/s + e.off) * sin}
	return p, e.a*e.a*e.b*e.b/(s*s*s) + e.off
}

// moments returns, for the half ellipsoid itself (off = 0),
//
//	V = 2π/3·a²·b    ∫z dV = π/4·a²·b²
//	∫z² dV = 2π/15·a²·b³    ∫x² dV = ∫y² dV = 2π/15·a⁴·b
//
// and for the surface at a distance the integrals along its profile of
// [cubic.add], by twelve points in each of at least four pieces per unit of
// a/b: their error is below 1e-14 of the sum.
// Source: standard geometry, from memory; the pieces tried here.
func (e ellipse) moments() Moments {
	if e.off == 0 {
		a, b := e.a, e.b
		side := 2 * math.Pi / 15 * a * a * a * a * b
		return Moments{
			Volume: 2 * math.Pi / 3 * a * a * b,
			First:  Vec{0, 0, math.Pi / 4 * a * a * b * b},
			Second: symmetric(side, side, 2*math.Pi/15*a*a*b*b*b, 0, 0, 0),
		}
	}
	var c cubic // the straight sides lie along lines through the origin: they add nothing
	pieces := 4 * int(math.Ceil(e.a/e.b))
	half := math.Pi / 4 / float64(pieces)
	for i := range pieces {
		for _, g := range gauss12 {
			up := half * (float64(2*i+1) + g.at)
			p, curvature := e.point(up)
			sin, cos := math.Sincos(up)
			c.add(p, mgl64.Vec2{-sin, cos}.Mul(curvature*half*g.weight))
		}
	}
	return c.turned(fullTurn)
}

func (e ellipse) reach(across, up float64) float64 {
	up = max(up, 0)
	return math.Hypot(e.a*across, e.b*up) + e.off*math.Hypot(across, up)
}

func (e ellipse) out(r, z float64) float64 {
	return distanceFromEllipse(e.a, e.b, math.Abs(r), math.Abs(z)) - e.off
}

func (e ellipse) flattest() float64 { return e.a*e.a/e.b + e.off }

func (e ellipse) profile(n int) []mgl64.Vec2 {
	points := []mgl64.Vec2{{e.a + e.off, 0}}
	for i := 1; i < n/4; i++ {
		p, _ := e.point(math.Pi / 2 * float64(i) / float64(n/4))
		points = append(points, p)
	}
	return append(points, mgl64.Vec2{0, e.b + e.off})
}

// distanceFromEllipse returns how far the point (x, y), neither below zero, is
// outside the ellipse of half axes a and b; inside it, a negative distance
// that is right near the ellipse.
//
// The nearest point is (a²·x/(t + a²), b²·y/(t + b²)) for the t ≥ 0 that puts
// it on the ellipse. Newton's steps from t = 0 come up to it from one side, as
// the sum of squares falls and is convex in t.
// Source: D. Eberly, "Distance from a Point to an Ellipse, an Ellipsoid, or a
// Hyperellipsoid", 2013 (from memory).
func distanceFromEllipse(a, b, x, y float64) float64 {
	level := math.Hypot(x/a, y/b)
	if level <= 1 {
		steep := math.Hypot(x/(a*a), y/(b*b))
		if steep == 0 {
			return -min(a, b)
		}
		return (level - 1) * level / steep
	}
	t := 0.0
	for range 100 {
		u, v := a*x/(t+a*a), b*y/(t+b*b)
		excess := u*u + v*v - 1
		step := excess / (2 * (u*u/(t+a*a) + v*v/(t+b*b)))
		t += step
		if step <= 1e-16*(t+b*b) {
			break
		}
	}
	return math.Hypot(x*t/(t+a*a), y*t/(t+b*b))
}
