package geom

import (
	"fmt"
	"math"

	"github.com/go-gl/mathgl/mgl64"
)

// checkAngle refuses an angle (rad) that is not above zero and at most a whole
// turn, and returns one that is a whole turn but for rounding as just that.
func checkAngle(angle float64) (float64, error) {
	if math.Abs(angle-fullTurn) < 1e-12 {
		return fullTurn, nil
	}
	if angle >= 1e-6 && angle < fullTurn { // written so that NaN is refused too
		return angle, nil
	}
	return 0, &ShapeError{
		fmt.Sprintf("angle %.6g° is not above 0° and at most 360°", angle*180/math.Pi),
		"write the angle of the turn, 360° for all the way round",
	}
}

// greatestCosine returns the greatest cosine between dir, as seen along z, and
// the directions from 0 (along x) to angle (rad, towards y).
func greatestCosine(dir Vec, angle float64) float64 {
	to := azimuth(dir)
	if to <= angle {
		return 1
	}
	return max(math.Cos(to), math.Cos(to-angle))
}

// azimuth returns the angle of v about z from x towards y, 0 to 2π.
func azimuth(v Vec) float64 {
	to := math.Atan2(v[1], v[0])
	if to < 0 {
		to += fullTurn
	}
	return to
}

// inSector tells whether p is between the half planes through z at 0 and at
// angle, or no further than tol (m) from one of them.
func inSector(p Vec, angle, tol float64) bool {
	to, r := azimuth(p), math.Hypot(p[0], p[1])
	if to <= angle || r <= tol {
		return true
	}
	past := min(to-angle, fullTurn-to)
	return past < math.Pi/2 && r*math.Sin(past) <= tol
}

// sectorMesh turns a plane figure about z from 0 to angle: its rings have the
// material on their left as seen with the radius to the right and z up, ends
// are its triangles. The turn is made in the given number of steps.
func sectorMesh(rings [][]mgl64.Vec2, ends [][3]int, angle float64, steps int) Mesh {
	if angle >= fullTurn {
		var m Mesh
		for _, ring := range rings {
			m = m.joined(revolved(ring, steps))
		}
		return m
	}
	m, columns := Mesh{}, steps+1
	var first []int   // the vertex of each point at angle 0
	var points []bool // whether the point is on the axis
	for _, ring := range rings {
		start := len(first)
		for _, p := range ring {
			first, points = append(first, len(m.Vertices)), append(points, p[0] == 0)
			m.Vertices = appendArc(m.Vertices, p, angle, columns)
		}
		for i := range ring {
			a, b := start+i, start+(i+1)%len(ring)
			m.Faces = appendBand(m.Faces, first[a], first[b], points[a], points[b], columns, steps)
		}
	}
	last := func(i int) int {
		if points[i] {
			return first[i]
		}
		return first[i] + steps
	}
	for _, f := range ends {
		m.Faces = append(m.Faces, [3]int{first[f[0]], first[f[1]], first[f[2]]}, [3]int{last(f[0]), last(f[2]), last(f[1])})
	}
	return m
}

// appendArc adds the places of a point (radius, z) from 0 to angle; a point on
// the axis has only one.
func appendArc(vertices []Vec, p mgl64.Vec2, angle float64, columns int) []Vec {
	if p[0] == 0 {
		return append(vertices, Vec{0, 0, p[1]})
	}
	for k := range columns {
		sin, cos := math.Sincos(angle * float64(k) / float64(columns-1))
		vertices = append(vertices, Vec{p[0] * cos, p[0] * sin, p[1]})
	}
	return vertices
}

// sectorSteps returns in how many steps a turn by angle is made so that a
// circle of the given radius is no further than chord (m) from its chords; see
// [Segments]. A part of a turn may have as many steps as a whole one.
func sectorSteps(radius, chord, angle float64) int {
	if angle >= fullTurn {
		return Segments(radius, chord)
	}
	half := min(2*math.Asin(math.Sqrt(min(max(chord/(2*radius), 0), 1))), math.Pi/leastSegments)
	if !(half*roundSegments > angle/2) { // written so that NaN gets the finest too
		return roundSegments
	}
	return max(1, int(math.Ceil(angle/2/half)))
}
