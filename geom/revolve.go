package geom

import (
	"math"

	"github.com/go-gl/mathgl/mgl64"
)

// fullTurn is a whole turn, rad.
const fullTurn = 2 * math.Pi

// A full circle is drawn with no fewer and no more segments than these; the
// greatest numbers keep a tiny chord from filling the memory.
const (
	leastSegments   = 12
	roundSegments   = 1024 // round solids: the chord is then 4.7e-6 of the radius
	sphereMeridians = 256  // spheres, 256 x 128 facets: 1.5e-4 of the radius
)

// Segments returns into how many equal sides a circle of the given radius (m)
// is cut so that no side is further than chord (m) from the arc: the sagitta
// r·(1 − cos(π/n)) ≤ chord. The number is a multiple of 4, so that the
// corners meet the axes, and from 12 to 1024: a smaller chord, zero included,
// gets 1024, which is a sagitta of 4.7e-6·r.
// Source: standard geometry, the sagitta of a chord.
func Segments(radius, chord float64) int {
	return segments(math.Acos(1-min(chord/radius, 1)), roundSegments)
}

// sphereSegments is the like for a sphere that is cut into n meridians and
// n/2 bands. Its facets are flat trapezoids whose plane is nowhere nearer to
// the centre than r·cos²(π/n), which gives r·sin²(π/n) ≤ chord.
// Source: derived here; the plane of the trapezoid between two latitudes cuts
// the meridian plane in a chord of an ellipse of half axes r·cos(π/n) and r.
func sphereSegments(radius, chord float64) int {
	return segments(math.Asin(math.Sqrt(min(max(chord/radius, 0), 1))), sphereMeridians)
}

// segments returns the number of sides with the given half angle at most.
func segments(half float64, most int) int {
	if !(half > math.Pi/float64(most)) { // written so that NaN gets the finest too
		return most
	}
	n := int(math.Ceil(math.Pi / half))
	return max(leastSegments, (n+3)/4*4)
}

// circle returns n points of the unit circle from +x on, anticlockwise; n is
// a multiple of 4. The quarters are exact copies, so a round mesh is exactly
// symmetric.
func circle(n int) []mgl64.Vec2 {
	points := make([]mgl64.Vec2, n)
	quarter := n / 4
	for i := range quarter {
		sin, cos := math.Sincos(2 * math.Pi * float64(i) / float64(n))
		points[i] = mgl64.Vec2{cos, sin}
		points[i+quarter] = mgl64.Vec2{-sin, cos}
		points[i+2*quarter] = mgl64.Vec2{-cos, -sin}
		points[i+3*quarter] = mgl64.Vec2{sin, -cos}
	}
	return points
}

// revolved turns a profile of points (radius, z) about the z axis into a
// closed surface with n sides. The profile runs anticlockwise around the
// material as seen with the radius to the right and z up. It starts and ends
// on the axis (radius 0), or else it is joined to its own start.
func revolved(profile []mgl64.Vec2, n int) Mesh {
	var m Mesh
	unit := circle(n)
	first := make([]int, len(profile))
	for i, p := range profile {
		first[i] = len(m.Vertices)
		if p[0] == 0 {
			m.Vertices = append(m.Vertices, Vec{0, 0, p[1]})
			continue
		}
		for _, u := range unit {
			m.Vertices = append(m.Vertices, Vec{p[0] * u[0], p[0] * u[1], p[1]})
		}
	}
	for i := range profile {
		j := (i + 1) % len(profile)
		m.Faces = appendBand(m.Faces, first[i], first[j], profile[i][0] == 0, profile[j][0] == 0, n, n)
	}
	return m
}

// appendBand adds the faces of the given number of steps between two rings of
// n vertices that start at low and high; n steps close the rings. A ring that
// is a point on the axis has one vertex only.
func appendBand(faces [][3]int, low, high int, lowPoint, highPoint bool, n, steps int) [][3]int {
	for i := range steps {
		next := (i + 1) % n
		switch {
		case lowPoint && highPoint:
			return faces // along the axis: no surface
		case lowPoint:
			faces = append(faces, [3]int{low, high + next, high + i})
		case highPoint:
			faces = append(faces, [3]int{low + i, low + next, high})
		default:
			faces = append(faces, [3]int{low + i, low + next, high + next}, [3]int{low + i, high + next, high + i})
		}
	}
	return faces
}
