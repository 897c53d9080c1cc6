package geom

import (
	"math"

	"github.com/go-gl/mathgl/mgl64"
)

// Cap is what a level cut leaves of the top of a solid ball. It stands on the
// cut, a circle around the origin.
type Cap struct{ radius, height float64 } // of the ball; of the cap

// NewCap returns the cap of the given height of a ball with the given
// diameter, in metres. The height may be more than half the ball, and must be
// less than all of it.
func NewCap(sphere, height float64) (Cap, error) {
	if err := checkSizes(size{"sphere diameter", sphere}, size{"height", height}); err != nil {
		return Cap{}, err
	}
	if height >= sphere {
		return Cap{}, &ShapeError{
			"height " + millimetres(height) + " is not less than the sphere's diameter " + millimetres(sphere),
			"write the height of the cap from its flat face, or use a sphere",
		}
	}
	return Cap{sphere / 2, height}, nil
}

// base returns the radius of the flat face: √(h·(2·R − h)).
func (s Cap) base() float64 { return math.Sqrt(s.height * (2*s.radius - s.height)) }

// centre returns the height of the ball's centre.
func (s Cap) centre() Vec { return Vec{0, 0, s.height - s.radius} }

// Moments returns, for radius R of the ball and height h of the cap:
//
//	V = π·h²·(3·R − h)/3
//	∫z dV = π·h³·(4·R − h)/12, so 3·(2·R − h)²/(4·(3·R − h)) from the ball's centre
//	∫z² dV = π·h⁴·(5·R − h)/30
//	∫x² dV = ∫y² dV = π·h³·(20·R² − 15·R·h + 3·h²)/60
//
// Source: volume and centroid standard geometry, from memory; the rest derived
// here by adding up disks of radius √(w·(2·R − w)) at the depth w below the top.
func (s Cap) Moments() Moments {
	R, h := s.radius, s.height
	across := math.Pi * h * h * h * (20*R*R - 15*R*h + 3*h*h) / 60
	return Moments{
		Volume: math.Pi * h * h * (3*R - h) / 3,
		First:  Vec{0, 0, math.Pi * h * h * h * (4*R - h) / 12},
		Second: symmetric(across, across, math.Pi*h*h*h*h*(5*R-h)/30, 0, 0, 0),
	}
}

// Reach returns the greatest r·dir over the cap: on the ball where its
// furthest point belongs to the cap, else on the rim.
func (s Cap) Reach(dir Vec) float64 {
	length := dir.Len()
	if length > 0 && s.height-s.radius+s.radius*dir[2]/length >= 0 {
		return s.centre().Dot(dir) + s.radius*length
	}
	return s.base() * math.Hypot(dir[0], dir[1])
}

// Contains tells whether p is in the cap or on it.
func (s Cap) Contains(p Vec) bool {
	tol := surfaceTolerance * math.Hypot(2*s.base(), s.height)
	// Measured so that a flat cap of a huge ball loses no digits:
	// distance² − R² = x² + y² + z² + 2·z·(R − h) − base².
	to := p.Sub(s.centre()).Len()
	beyond := p.LenSqr() + 2*p[2]*(s.radius-s.height) - s.base()*s.base()
	return p[2] >= -tol && beyond <= tol*(to+s.radius)
}

// Mesh returns the cap with its dome cut along meridians and bands, each to
// half of the chord; see [Segments].
func (s Cap) Mesh(chord float64) Mesh {
	b, h := s.base(), s.height
	dome := span{mgl64.Vec2{b, 0}, mgl64.Vec2{0, h}, h / (b + math.Hypot(b, h))} // tan of half of atan(h/b)
	profile := append(dome.appendPoints(nil, min(dome.facets(chord/2), domeSides/4)), mgl64.Vec2{0, h}, mgl64.Vec2{})
	widest := b
	if h > s.radius {
		widest = s.radius
	}
	return revolved(profile, roundNet(widest, chord/2))
}
