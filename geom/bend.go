package geom

import "github.com/go-gl/mathgl/mgl64"

// Bend is a bent pipe or round bar: an elbow. It starts with the centre of its
// first end at the origin, heads along +z and bends towards +x: the centre of
// the bend is at (radius, 0, 0), and a bend of 90° ends at (radius, 0,
// radius), heading along +x.
type Bend struct{ body torus }

// NewBend returns a bend with the given outside diameter and wall thickness,
// the radius of its centre line, in metres, and its angle (rad, above 0 to
// 2π). Wall 0 makes it a solid bar. The bore does not belong to it.
func NewBend(outside, wall, radius, angle float64) (Bend, error) {
	if err := checkSizes(size{"outside diameter", outside}, size{"radius", radius}); err != nil {
		return Bend{}, err
	}
	if err := checkSize(size{"wall", wall}, true); err != nil {
		return Bend{}, err
	}
	if err := checkWall("outside", outside, wall, "no wall at all"); err != nil {
		return Bend{}, err
	}
	if radius <= outside/2 {
		return Bend{}, &ShapeError{
			"radius " + millimetres(radius) + " is too tight for outside " + millimetres(outside),
			"write the radius of the centre line, above " + millimetres(outside/2),
		}
	}
	angle, err := checkAngle(angle)
	if err != nil {
		return Bend{}, err
	}
	if wall == 0 {
		wall = outside / 2
	}
	return Bend{torus{outside / 2, wall, radius, angle}}, nil
}

// pose puts the middle of the first end at the origin: what runs outward from
// the bend's centre there becomes −x, what runs along the pipe +z.
func (s Bend) pose() Pose {
	return Pose{mgl64.Mat3FromCols(Vec{-1, 0, 0}, Vec{0, 0, 1}, Vec{0, 1, 0}), Vec{s.body.radius, 0, 0}}
}

// Moments returns, for outside radius R, inside radius r (0 if solid), radius ρ
// of the centre line and angle α, with A = π·(R² − r²) and I = A·(R² + r²)/4:
//
//	V = α·ρ·A
//	centroid in the plane of the bend, on the bisector of its angle,
//	    (ρ + (R² + r²)/(4·ρ))·sin(α/2)/(α/2) from the bend's centre
//	about the bend's centre, u from there to the first end, v along the pipe there:
//	∫u² dV = (α + sin α·cos α)/2·(ρ³·A + 3·ρ·I)    ∫uv dV = sin²α/2·(ρ³·A + 3·ρ·I)
//	∫v² dV = (α − sin α·cos α)/2·(ρ³·A + 3·ρ·I)
//	∫w² dV = α·ρ·I square to the plane of the bend, and no products with w
//
// The second term of the centroid is what the thin line forgets: 14 mm for a
// pipe of 200 bent to a radius of 300.
// Source: V is the theorem of Pappus; the rest derived here, see
// [cubic.turned].
func (s Bend) Moments() Moments { return s.body.Moments().Posed(s.pose()) }

// Reach returns the greatest r·dir over the bend.
func (s Bend) Reach(dir Vec) float64 {
	pose := s.pose()
	return s.body.Reach(pose.Turn.Transpose().Mul3x1(dir)) + pose.Move.Dot(dir)
}

// Contains tells whether p is in the material or on it; the bore is not.
func (s Bend) Contains(p Vec) bool { return s.body.Contains(s.pose().Back(p)) }

// Mesh returns the bend with its section and its way round cut into chords; see
// [Segments]. The section has no more than 256 sides.
func (s Bend) Mesh(chord float64) Mesh { return s.body.Mesh(chord).Posed(s.pose()) }
