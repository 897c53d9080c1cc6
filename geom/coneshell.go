package geom

import (
	"math"

	"github.com/go-gl/mathgl/mgl64"
)

// ConeShell is a hollow cone, an eccentric one, or both: a reducer, a hopper, a
// conical roof. It stands on its bottom circle, around the origin; the top
// circle is level, its centre moved along +x by the offset. The wall is
// measured level, square to the axis: at every height the bore is a circle
// around the same centre, smaller in radius by the wall. For the wall of a plate
// see [LevelWall].
type ConeShell struct{ bottom, top, height, wall, offset float64 } // radii

// NewConeShell returns a cone with the given outside diameters at the bottom
// and the top, height, wall thickness (level, square to the axis) and offset
// of the top along +x, in metres. Wall 0 makes it solid. One diameter may be
// zero; where the radius is less than the wall there is no bore. For a solid
// cone without offset see [NewCone]: it is the same.
func NewConeShell(bottom, top, height, wall, offset float64) (ConeShell, error) {
	if _, err := NewCone(bottom, top, height); err != nil {
		return ConeShell{}, err
	}
	if err := checkSize(size{"wall", wall}, true); err != nil {
		return ConeShell{}, err
	}
	if wall >= max(bottom, top)/2 {
		return ConeShell{}, &ShapeError{
			"wall " + millimetres(wall) + " leaves no bore in a cone of bottom " + millimetres(bottom) + " and top " + millimetres(top),
			"write a wall below half of the larger, " + millimetres(max(bottom, top)/2) + ", or no wall at all if it is solid",
		}
	}
	if !(math.Abs(offset) <= greatestSize) { // true for NaN too
		return ConeShell{}, &ShapeError{"offset is not a number within 1000 km", "write how far the top is moved, as a plain length"}
	}
	return ConeShell{bottom / 2, top / 2, height, wall, offset}, nil
}

// LevelWall returns the wall, measured level, of a cone that is rolled from
// plate: the thickness of the plate is square to its face, t, and
//
//	w = t·mean of √(1 + ((R₂ − R₁ + e·cos θ)/h)²) around the cone
//
// with the radii R₁ and R₂ of its ends, the height h and the offset e. Without an
// offset that is t/cos φ, φ the angle from the axis: exact for walls of parallel
// faces. With one it is exact for the volume of a thin plate; the plate is taken
// as thick all round as it is on average, so that the centroid may be out
// sideways by some thousandths of the diameter.
//
// Source: derived here, elementary geometry.
func LevelWall(bottom, top, height, offset, plate float64) float64 {
	const n = 360 // a mean over a full turn of a smooth function converges at once
	sum := 0.0
	for i := range n {
		sum += math.Hypot(1, ((top-bottom)/2+offset*math.Cos(2*math.Pi*float64(i)/n))/height)
	}
	return plate * sum / n
}

// outer returns the whole cone, without bore and offset.
func (s ConeShell) outer() Cone { return Cone{s.bottom, s.top, s.height} }

// bore returns the hollow, without offset, and how far up it starts.
func (s ConeShell) bore() (hollow Cone, from float64) {
	// How much of the height has no bore, at the narrow end.
	solid := 0.0
	if narrow := min(s.bottom, s.top); narrow < s.wall {
		solid = s.height * (s.wall - narrow) / math.Abs(s.top-s.bottom)
	}
	hollow = Cone{max(s.bottom-s.wall, 0), max(s.top-s.wall, 0), s.height - solid}
	if s.bottom < s.top {
		from = solid
	}
	return hollow, from
}

// shear moves every level circle to its place.
func (s ConeShell) shear() Pose {
	p := Still()
	p.Turn.Set(0, 2, s.offset/s.height)
	return p
}

// Moments returns those of the outer cone less those of the bore, both as for
// [Cone.Moments], then sheared by the offset e over the height h:
//
//	x' = x + z·e/h    V' = V    ∫r' dV = H·∫r dV    ∫r' r'ᵀ dV = H·(∫r rᵀ dV)·Hᵀ
//
// with H the matrix of the shear. So the centroid stays as high as it was, and
// moves along x by e/h times that height. For a wall that is a part x of the
// radius the difference keeps about 15 + log₁₀ x digits.
//
// Source: cone and shift of the centroid standard geometry, from memory; the
// rest derived here: a shear keeps every volume.
func (s ConeShell) Moments() Moments {
	m := s.outer().Moments()
	if s.wall > 0 {
		hollow, from := s.bore()
		m = m.Minus(hollow.Moments().Posed(Still().Shifted(Vec{0, 0, from})))
	}
	return m.Posed(s.shear())
}

// Reach returns the greatest r·dir over the cone, which is on the outer rim of
// one of its ends.
func (s ConeShell) Reach(dir Vec) float64 {
	across := math.Hypot(dir[0], dir[1])
	return max(s.bottom*across, s.top*across+s.offset*dir[0]+s.height*dir[2])
}

// Contains tells whether p is in the material or on it; the bore is not.
func (s ConeShell) Contains(p Vec) bool {
	tol := surfaceTolerance * Vec{2*max(s.bottom, s.top) + math.Abs(s.offset), 0, s.height}.Len()
	if !within(p[2], 0, s.height, tol) {
		return false
	}
	x := p[0] - s.offset*p[2]/s.height
	across := math.Hypot(x, p[1])
	// How much the distance from the side, measured level, is more than square.
	slope := s.top - s.bottom
	if across > 0 {
		slope += s.offset * x / across
	}
	steep := math.Hypot(1, slope/s.height)
	radius := s.bottom + (s.top-s.bottom)*p[2]/s.height
	if across-radius > tol*steep {
		return false
	}
	inside := radius - s.wall // of the bore, if it is above zero
	return s.wall == 0 || inside <= 0 || across-inside >= -tol*steep
}

// Mesh returns the cone with its faces cut into the same number of flat strips,
// their corners on the circles; see [Segments].
func (s ConeShell) Mesh(chord float64) Mesh {
	var profile []mgl64.Vec2
	corner := func(r, z float64) {
		p := mgl64.Vec2{r, z}
		if n := len(profile); n == 0 || profile[n-1] != p {
			profile = append(profile, p)
		}
	}
	hollow, from := s.bore()
	pierced := s.wall > 0
	if !pierced || hollow.bottom == 0 {
		corner(0, 0)
	}
	corner(s.bottom, 0)
	corner(s.top, s.height)
	if !pierced || hollow.top == 0 {
		corner(0, s.height)
	}
	if pierced {
		corner(hollow.top, from+hollow.height)
		corner(hollow.bottom, from)
	}
	m := revolved(profile, Segments(max(s.bottom, s.top), chord))
	for i, v := range m.Vertices {
		m.Vertices[i][0] += s.offset * v[2] / s.height
	}
	return m
}
