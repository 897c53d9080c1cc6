package geom

import (
	"math"

	"github.com/go-gl/mathgl/mgl64"
)

// Pose is where a solid stands: it is turned about its own origin, then moved,
// r' = Turn·r + Move. Turn must be a rotation, or a rotation with a mirror (its
// columns of length 1 and square to each other); nothing here checks that. The
// zero value is not a pose: start from [Still].
type Pose struct {
	Turn mgl64.Mat3
	Move Vec // m
}

// Still returns the pose that changes nothing.
func Still() Pose {
	return Pose{Turn: mgl64.Ident3()}
}

// Point returns where the point v of the solid's own frame comes to lie.
func (p Pose) Point(v Vec) Vec {
	return p.Turn.Mul3x1(v).Add(p.Move)
}

// Direction returns where the direction v of the solid's own frame points.
func (p Pose) Direction(v Vec) Vec {
	return p.Turn.Mul3x1(v)
}

// Back is the inverse of Point: the place in the solid's own frame of a point
// v of the outer frame.
func (p Pose) Back(v Vec) Vec {
	return p.Turn.Transpose().Mul3x1(v.Sub(p.Move))
}

// Shifted returns the pose moved further by a vector of the outer frame.
func (p Pose) Shifted(by Vec) Pose {
	return Pose{p.Turn, p.Move.Add(by)}
}

// After returns the pose that does q first and then p.
func (p Pose) After(q Pose) Pose {
	return Pose{p.Turn.Mul3(q.Turn), p.Point(q.Move)}
}

// Mirrored tells whether the pose turns a right hand into a left one.
func (p Pose) Mirrored() bool {
	return p.Turn.Det() < 0
}

// TurnAbout returns the right-handed rotation by angle (rad) about the axis
// 0 (x), 1 (y) or 2 (z) through the origin. A quarter turn is exact, so that a
// box laid on its side keeps its sizes to the last digit.
func TurnAbout(axis int, angle float64) mgl64.Mat3 {
	sin, cos := math.Sincos(angle)
	if quarter := angle / (math.Pi / 2); math.Abs(quarter-math.Round(quarter)) < 1e-14 {
		sin, cos = math.Round(sin), math.Round(cos)
	}
	turn := mgl64.Ident3()
	i, j := (axis+1)%3, (axis+2)%3
	turn.Set(i, i, cos)
	turn.Set(j, j, cos)
	turn.Set(i, j, -sin)
	turn.Set(j, i, sin)
	return turn
}
