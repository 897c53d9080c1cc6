package geom

import "github.com/go-gl/mathgl/mgl64"

// dome is the end of a round vessel, as a solid of revolution that stands on
// its tangent line: the circle at z = 0 where it meets the straight shell.
type dome interface {
	// depth returns how far it stands off the tangent line, m.
	depth() float64
	// moments returns those of the solid between the tangent line and the dome.
	moments() Moments
	// reach returns the greatest across·r + up·z over it, across ≥ 0.
	reach(across, up float64) float64
	// out returns how far a point with z ≥ 0 is outside the dome, m: exact
	// near its surface, negative inside.
	out(r, z float64) float64
	// flattest returns its greatest radius of curvature, m.
	flattest() float64
	// profile returns points (r, z) from the tangent line to the axis, n of
	// them for a whole turn of the normal.
	profile(n int) []mgl64.Vec2
}

// domeSides is the greatest number of chords that a whole turn of a dome's
// normal is cut into, so that a tiny chord cannot fill the memory: a sagitta of
// 1.9e-5 of the radius of curvature. It is cut along no more meridians than a
// [Sphere].
const domeSides = 512

// domeSegments returns how many chords a whole turn of the normal is cut into.
func domeSegments(flattest, chord float64) int {
	return min(Segments(flattest, chord), domeSides)
}

// roundNet returns how many meridians a solid with a dome is cut along.
func roundNet(radius, chord float64) int {
	return min(Segments(radius, chord), sphereMeridians)
}

// disc is a flat end: a plate on the tangent line. An end of no thickness
// closes a body that is open there.
type disc struct{ radius, thickness float64 }

func (d disc) depth() float64 { return d.thickness }

func (d disc) moments() Moments { return Cylinder{d.radius, d.thickness}.Moments() }

func (d disc) reach(across, up float64) float64 {
	return d.radius*across + max(d.thickness*up, 0)
}

func (d disc) out(r, z float64) float64 { return max(r-d.radius, z-d.thickness) }

func (d disc) flattest() float64 { return d.radius }

func (d disc) profile(int) []mgl64.Vec2 {
	if d.thickness == 0 {
		return []mgl64.Vec2{{d.radius, 0}, {0, 0}}
	}
	return []mgl64.Vec2{{d.radius, 0}, {d.radius, d.thickness}, {0, d.thickness}}
}
