package takeoff

import (
	"math"

	"github.com/go-gl/mathgl/mgl64"

	"plumbhook/geom"
)

// HalfSpace is one side of a region: its points r have r·Toward ≤ Far.
type HalfSpace struct {
	Toward geom.Vec // of length 1
	Far    float64  // m
}

// CGRegion returns where the centre of gravity can be, as half-spaces: to both
// sides of each axis and of the diagonals in plan. Each side is as near as it
// can be (see [Weighed.CGReach]); the region that they bound together is no
// smaller than the true one, which is the safe side.
func (w Weighed) CGRegion() []HalfSpace {
	const h = math.Sqrt2 / 2
	var sides []HalfSpace
	for _, d := range []geom.Vec{{1, 0, 0}, {0, 1, 0}, {0, 0, 1}, {h, h, 0}, {h, -h, 0}} {
		for _, toward := range []geom.Vec{d, d.Mul(-1)} {
			sides = append(sides, HalfSpace{toward, w.CGReach(toward)})
		}
	}
	return sides
}

// planSides is how many sides the region of the CG is drawn with in plan: one
// every 5°.
const planSides = 72

// CGPlan returns the corners of the region of the CG in plan, anticlockwise, in
// metres: those of a polygon that holds it, of planSides sides or fewer.
func (w Weighed) CGPlan() []mgl64.Vec2 {
	lines := make([]mgl64.Vec3, planSides) // cos, sin, far
	for i := range lines {
		sin, cos := math.Sincos(2 * math.Pi * float64(i) / planSides)
		lines[i] = mgl64.Vec3{cos, sin, w.CGReach(geom.Vec{cos, sin, 0})}
	}
	return corners(lines)
}

// Corners returns the corners of the region of [Weighed.CGRegion]: those of its
// outline in plan, at its least and at its greatest height.
func (w Weighed) Corners() []geom.Vec {
	const h = math.Sqrt2 / 2
	var lines []mgl64.Vec3
	for _, d := range []mgl64.Vec2{{1, 0}, {h, h}, {0, 1}, {-h, h}, {-1, 0}, {-h, -h}, {0, -1}, {h, -h}} {
		lines = append(lines, mgl64.Vec3{d[0], d[1], w.CGReach(geom.Vec{d[0], d[1], 0})})
	}
	var out []geom.Vec
	low, high := -w.CGReach(geom.Vec{0, 0, -1}), w.CGReach(geom.Vec{0, 0, 1})
	for _, c := range corners(lines) {
		out = append(out, geom.Vec{c[0], c[1], low})
		if high-low > sameCorner {
			out = append(out, geom.Vec{c[0], c[1], high})
		}
	}
	return out
}

// sameCorner is how near in m two corners are one: far below what is measured.
const sameCorner = 1e-9

// corners returns the corners of the convex polygon that is bounded by lines
// cos·x + sin·y = far, given anticlockwise by their direction. Each line is a
// support of the region that it bounds, so each touches it and neighbours meet
// at a corner; where several run through one corner it is given once.
func corners(lines []mgl64.Vec3) []mgl64.Vec2 {
	var out []mgl64.Vec2
	for i, a := range lines {
		b := lines[(i+1)%len(lines)]
		turn := a[0]*b[1] - a[1]*b[0]
		c := mgl64.Vec2{(a[2]*b[1] - b[2]*a[1]) / turn, (a[0]*b[2] - b[0]*a[2]) / turn}
		if len(out) == 0 || c.Sub(out[len(out)-1]).Len() > sameCorner {
			out = append(out, c)
		}
	}
	if last := len(out) - 1; last > 0 && out[last].Sub(out[0]).Len() <= sameCorner {
		out = out[:last]
	}
	return out
}
