package geom

import (
	"fmt"
	"math"

	"github.com/go-gl/mathgl/mgl64"
)

// unevenPart is how far the corners of a face may be from a plane, as a
// fraction of the face's size, before the planner is told. Below it is what
// six digits in a text file leave.
const unevenPart = 1e-5

// mostNotched is the most corners of a face that is not convex: cutting it up
// takes a time that can grow with their third power, a second for so many.
const mostNotched = 2000

// polygonCutter adds the faces of a file to a mesh, cut into triangles.
type polygonCutter struct {
	build *meshBuilder
	most  int // triangles

	uneven int     // faces whose corners are in no plane
	worst  float64 // how far the corners of the worst of them are from it
	where  string  // the place of that one in the file
	doubt  float64 // what other cuts could change the volume by
}

// add adds one face, its corners numbered as in the mesh, or says why not, in
// an error without a place. The place is for a note on the face.
func (c *polygonCutter) add(corners []int, place func() string) *FileError {
	if len(c.build.faces)+len(corners)-2 > c.most {
		return tooManyTriangles(c.most)
	}
	if len(corners) == 3 {
		c.build.faces = append(c.build.faces, [3]int(corners))
		return nil
	}
	corners = withoutRepeats(corners)
	if len(corners) < 3 { // it has no area, but is counted
		last := corners[len(corners)-1]
		c.build.faces = append(c.build.faces, [3]int{corners[0], last, last})
		return nil
	}
	normal, size := c.normal(corners)
	if normal.Len() <= noArea*size*size {
		return c.line(corners, size)
	}
	c.look(corners, normal, size, place)
	flat := c.project(corners, normal)
	if isConvex(flat, 1) || len(corners) > mostNotched && isConvex(flat, 0) {
		c.fan(corners)
		return nil
	}
	return c.clip(corners, flat)
}

// noArea is the part of the square of its size below which a face has no area.
const noArea = 1e-12

// line takes a face of no area, whose corners must be on a line.
func (c *polygonCutter) line(corners []int, size float64) *FileError {
	first := c.build.vertices[corners[0]]
	for i := 2; i < len(corners); i++ {
		p, q := c.build.vertices[corners[i-1]].Sub(first), c.build.vertices[corners[i]].Sub(first)
		if p.Cross(q).Len() > noArea*size*size {
			return crossedFace()
		}
	}
	c.fan(corners)
	return nil
}

// withoutRepeats leaves out corners that are the same as the one before.
func withoutRepeats(corners []int) []int {
	kept := corners[:0]
	for i, corner := range corners {
		if i == 0 || corner != kept[len(kept)-1] {
			kept = append(kept, corner)
		}
	}
	for len(kept) > 1 && kept[0] == kept[len(kept)-1] {
		kept = kept[:len(kept)-1]
	}
	return kept
}

// normal returns the vector area of a face, twice, and the size of its box.
// Source: the sum over the sides is Newell's, from memory; for a flat face it
// is twice its area along its normal.
func (c *polygonCutter) normal(corners []int) (normal Vec, size float64) {
	first := c.build.vertices[corners[0]]
	box := Extent{first, first}
	for i, corner := range corners {
		p, q := c.build.vertices[corner], c.build.vertices[corners[(i+1)%len(corners)]]
		normal = normal.Add(p.Sub(first).Cross(q.Sub(first)))
		box = box.Union(Extent{p, p})
	}
	return normal, box.Diagonal()
}

// look notes a face that is not flat: its volume depends on how it is cut,
// by no more than its area times the height that its corners differ by.
func (c *polygonCutter) look(corners []int, normal Vec, size float64, place func() string) {
	unit, first := normal.Mul(1/normal.Len()), c.build.vertices[corners[0]]
	low, high := 0.0, 0.0
	for _, corner := range corners {
		height := c.build.vertices[corner].Sub(first).Dot(unit)
		low, high = min(low, height), max(high, height)
	}
	if high-low <= unevenPart*size {
		return
	}
	c.uneven++
	c.doubt += normal.Len() / 2 * (high - low)
	if high-low > c.worst {
		c.worst, c.where = high-low, place()
	}
}

// notes tells of faces that are not flat.
func (c *polygonCutter) notes() []string {
	if c.uneven == 0 {
		return nil
	}
	return []string{fmt.Sprintf(
		"%s not flat; the worst, %s, by %.3g in the file's units. Cut into triangles in another way than here, the volume could be different by up to %.3g in the file's units",
		count(c.uneven, "face is", "faces are"), c.where, c.worst, c.doubt)}
}

// project leaves out the axis that the face looks along most, so that the face
// runs anticlockwise: coordinates keep all their digits, and what is convex
// stays so.
func (c *polygonCutter) project(corners []int, normal Vec) []mgl64.Vec2 {
	along := 0
	for axis := range normal {
		if math.Abs(normal[axis]) > math.Abs(normal[along]) {
			along = axis
		}
	}
	x, y := (along+1)%3, (along+2)%3
	if normal[along] < 0 {
		x, y = y, x
	}
	flat := make([]mgl64.Vec2, len(corners))
	for i, corner := range corners {
		v := c.build.vertices[corner]
		flat[i] = mgl64.Vec2{v[x], v[y]}
	}
	return flat
}

// isConvex tells whether the ring turns to the left all the way (least 1), or
// to the left and straight on (least 0), and goes round once.
func isConvex(ring []mgl64.Vec2, least int) bool {
	n, reversals, up := len(ring), 0, 0
	for i := range ring {
		a, b := ring[i], ring[(i+1)%n]
		if orientation(a, b, ring[(i+2)%n]) < least {
			return false
		}
		now := up
		if b[1] != a[1] {
			now = int(math.Copysign(1, b[1]-a[1]))
		}
		if up != 0 && now != up {
			reversals++
		}
		up = now
	}
	return reversals <= 2
}

func (c *polygonCutter) fan(corners []int) {
	for i := 2; i < len(corners); i++ {
		c.build.faces = append(c.build.faces, [3]int{corners[0], corners[i-1], corners[i]})
	}
}

// clip cuts a face with notches. Corners that are there twice, as where a hole
// is tied to the outline by a double side, are one point of the walk.
func (c *polygonCutter) clip(corners []int, flat []mgl64.Vec2) *FileError {
	if len(corners) > mostNotched {
		return &FileError{Msg: fmt.Sprintf("a face with notches has %d corners, more than %d", len(corners), mostNotched), Fix: fixFace}
	}
	clip := clipper{points: flat, walk: make([]int, len(corners))}
	number := make(map[int]int, len(corners))
	for i, corner := range corners {
		if _, again := number[corner]; !again {
			number[corner] = i
		}
		clip.walk[i] = number[corner]
	}
	faces, err := clip.clip()
	if err != nil {
		return crossedFace()
	}
	area, sum := ringArea(flat), 0.0
	for _, f := range faces {
		sum += ringArea([]mgl64.Vec2{flat[f[0]], flat[f[1]], flat[f[2]]})
		c.build.faces = append(c.build.faces, [3]int{corners[f[0]], corners[f[1]], corners[f[2]]})
	}
	if math.Abs(sum-area) > 1e-9*math.Abs(area) {
		return crossedFace()
	}
	return nil
}

const fixFace = "draw this face as triangles, or export the file again as triangles"

func crossedFace() *FileError {
	return &FileError{Msg: "the sides of this face cross, so that it has no clear inside", Fix: fixFace}
}

// ringArea is the area of a ring with straight sides, negative if it runs
// clockwise.
func ringArea(ring []mgl64.Vec2) float64 {
	area := 0.0
	for i, p := range ring {
		p, q := p.Sub(ring[0]), ring[(i+1)%len(ring)].Sub(ring[0])
		area += p[0]*q[1] - q[0]*p[1]
	}
	return area / 2
}
