package geom

import (
	"math"

	"github.com/go-gl/mathgl/mgl64"
)

// torisphere is a dished end of two arcs: the crown, part of a ball around a
// centre on the axis, and the knuckle, part of a torus that leads from the
// crown into the shell. Both have the same tangent where they meet.
type torisphere struct{ radius, crown, knuckle float64 } // of the tangent line; of the arcs

// knee returns the radius c at which the knuckle's centres lie, on the level of
// the tangent line: c = radius − knuckle.
func (d torisphere) knee() float64 { return d.radius - d.knuckle }

// below returns how far the crown's centre is below the tangent line:
// √((R − a)² − c²).
func (d torisphere) below() float64 {
	return math.Sqrt((d.crown - d.knuckle + d.knee()) * (d.crown - d.knuckle - d.knee()))
}

// half returns the angle of the crown from the axis to the knuckle:
// sin β = c/(R − a). The knuckle turns through the rest of a quarter turn.
func (d torisphere) half() float64 { return math.Atan2(d.knee(), d.below()) }

func (d torisphere) depth() float64 { return d.crown - d.below() }

// joint returns the point where knuckle and crown meet.
func (d torisphere) joint() mgl64.Vec2 {
	sin, cos := math.Sincos(d.half())
	return mgl64.Vec2{d.knee() + d.knuckle*sin, d.knuckle * cos}
}

// arcs returns the profile from the tangent line to the axis.
func (d torisphere) arcs() [2]span {
	joint, β := d.joint(), d.half()
	return [2]span{
		{mgl64.Vec2{d.radius, 0}, joint, math.Tan((math.Pi/2 - β) / 4)},
		{joint, mgl64.Vec2{0, d.depth()}, math.Tan(β / 4)},
	}
}

// moments returns, for radius r of the tangent line, crown R, knuckle a,
// c = r − a and depth h = R − √((R − a)² − c²),
//
//	V = π/3·(2·h·R² − (2·a² + c² + 2·a·R)·(R − h) + 3·a²·c·asin((R − h)/(R − a)))
//
// and the like for the others: all by the integrals of [cubic.add] along the
// two arcs, each in quarter turns or less by twelve points, to rounding.
// Source: the closed form of V standard, read in public collections of
// formulas; the tests hold the sum to it.
func (d torisphere) moments() Moments {
	var c cubic // the straight sides lie along lines through the origin: they add nothing
	for _, s := range d.arcs() {
		s.addTo(&c, mgl64.Vec2{})
	}
	return c.turned(fullTurn)
}

func (d torisphere) reach(across, up float64) float64 {
	up = max(up, 0)
	if d.onCrown(across, up) {
		return d.crown*math.Hypot(across, up) - d.below()*up
	}
	return d.knee()*across + d.knuckle*math.Hypot(across, up)
}

// onCrown tells whether a direction, or a point as seen from the crown's
// centre, is within the angle of the crown.
func (d torisphere) onCrown(across, up float64) bool {
	return across*d.below() <= up*d.knee()
}

func (d torisphere) out(r, z float64) float64 {
	if d.onCrown(r, z+d.below()) {
		return math.Hypot(r, z+d.below()) - d.crown
	}
	return math.Hypot(r-d.knee(), z) - d.knuckle
}

func (d torisphere) flattest() float64 { return d.crown }

func (d torisphere) profile(n int) []mgl64.Vec2 {
	var points []mgl64.Vec2
	for _, s := range d.arcs() {
		points = s.appendPoints(points, max(2, int(math.Ceil(s.arc().sweep*float64(n)/math.Pi))))
	}
	return append(points, mgl64.Vec2{0, d.depth()})
}
