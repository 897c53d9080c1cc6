package geom

import (
	"math"

	"github.com/go-gl/mathgl/mgl64"
)

// Sphere is a ball, solid or hollow, that rests on the origin: its centre is
// at half its diameter up the z axis.
type Sphere struct{ radius, wall float64 } // wall = radius for a solid ball

// NewSphere returns a ball with the given outside diameter and wall thickness
// in metres; wall 0 makes it solid. The hollow does not belong to it.
func NewSphere(diameter, wall float64) (Sphere, error) {
	if err := checkSizes(size{"diameter", diameter}); err != nil {
		return Sphere{}, err
	}
	if err := checkSize(size{"wall", wall}, true); err != nil {
		return Sphere{}, err
	}
	if err := checkWall("diameter", diameter, wall, "no wall at all"); err != nil {
		return Sphere{}, err
	}
	if wall == 0 {
		wall = diameter / 2
	}
	return Sphere{diameter / 2, wall}, nil
}

// hollow returns the inside radius, zero for a solid ball.
func (s Sphere) hollow() float64 { return s.radius - s.wall }

// Moments returns, for outside radius R, wall t and inside radius r = R − t
// (0 if solid):
//
//	V = 4π/3·(R³ − r³) = 4π/3·t·(R² + R·r + r²)
//	centroid (0, 0, R), the centre
//	∫x² dV about the centre, the same for y and z: 4π/15·(R⁵ − r⁵)
//	    = 4π/15·t·(R⁴ + R³·r + R²·r² + R·r³ + r⁴)
//
// The second forms lose no digits for a thin wall.
// Source: standard geometry, from memory.
func (s Sphere) Moments() Moments {
	R, r := s.radius, s.hollow()
	v := 4 * math.Pi / 3 * s.wall * (R*R + R*r + r*r)
	own := 4 * math.Pi / 15 * s.wall * (R*R*R*R + R*R*R*r + R*R*r*r + R*r*r*r + r*r*r*r)
	centred := Moments{Volume: v, Second: symmetric(own, own, own, 0, 0, 0)}
	return centred.Posed(Still().Shifted(Vec{0, 0, R}))
}

// Reach returns the greatest r·dir over the ball.
func (s Sphere) Reach(dir Vec) float64 {
	return s.radius * (dir.Len() + dir[2])
}

// Contains tells whether p is in the material of the ball or on it; a point
// in the hollow is not.
func (s Sphere) Contains(p Vec) bool {
	distance := p.Sub(Vec{0, 0, s.radius}).Len()
	return within(distance, s.hollow(), s.radius, surfaceTolerance*2*s.radius)
}

// Mesh returns the ball cut along n meridians and n/2 bands, n at most 256
// (a chord of 1.5e-4 of the radius). A hollow ball has a second shell inside, cut
// alike and facing inward, so that the two cannot meet however thin the wall.
func (s Sphere) Mesh(chord float64) Mesh {
	n := sphereSegments(s.radius, chord)
	mesh := ball(s.radius, s.radius, n)
	if s.hollow() > 0 {
		mesh = mesh.joined(ball(s.radius, s.hollow(), n).reversed())
	}
	return mesh
}

// ball returns a sphere of radius r around height z on the axis.
func ball(z, r float64, n int) Mesh {
	profile := make([]mgl64.Vec2, n/2+1)
	unit := circle(n)
	for i := range profile {
		p := unit[(i+n*3/4)%n] // from the lowest point up
		profile[i] = mgl64.Vec2{r * p[0], z + r*p[1]}
	}
	profile[0][0], profile[n/2][0] = 0, 0 // the poles, exactly on the axis
	return revolved(profile, n)
}
