package geom

import "math"

// Body is a closed mesh used as a solid, in the mesh's own frame.
type Body struct {
	mesh    Mesh
	moments Moments
	extent  Extent
}

// NewBody returns the mesh as a solid. The mesh is kept, not copied: do not
// change it afterwards. Whether it is closed and faces out is for [Examine]
// to say; an unsound mesh gives the figures that its faces come to.
func NewBody(m Mesh) Body {
	return Body{m, m.Moments(), m.Extent()}
}

// Moments returns the moments of what the faces enclose; see [Mesh.Moments].
func (b Body) Moments() Moments { return b.moments }

// Reach returns the greatest r·dir over the vertices, 0 for an empty mesh.
func (b Body) Reach(dir Vec) float64 {
	if len(b.mesh.Vertices) == 0 {
		return 0
	}
	for i, axis := range axes { // asked most often
		switch dir {
		case axis:
			return b.extent.Max[i]
		case axis.Mul(-1):
			return -b.extent.Min[i]
		}
	}
	reach := b.mesh.Vertices[0].Dot(dir)
	for _, v := range b.mesh.Vertices {
		reach = max(reach, v.Dot(dir))
	}
	return reach
}

// Mesh returns the mesh that the body was made of, whatever the chord.
func (b Body) Mesh(float64) Mesh { return b.mesh }

// skewed are directions that no side of a thing drawn square lies along.
var skewed = [3]Vec{{0.5377, 0.3183, 0.7807}, {-0.6931, 0.5772, 0.4321}, {0.2713, -0.8414, 0.4669}}

// Contains tells whether p is inside the body or on its surface. Inside is
// where the surface winds round the point: a ray leaves the solid more often
// than it enters it, or for an inverted mesh less often. Where a defect of the
// mesh lets two rays disagree a third one decides.
func (b Body) Contains(p Vec) bool {
	tol := surfaceTolerance * b.extent.Diagonal()
	for i, x := range p {
		if !within(x, b.extent.Min[i], b.extent.Max[i], tol) {
			return false
		}
	}
	if b.mesh.touches(p, tol) {
		return true
	}
	votes := 0
	for i, dir := range skewed {
		if i == 2 && votes != 1 {
			break // the first two agree
		}
		if b.mesh.winds(p, dir) {
			votes++
		}
	}
	return votes >= 2
}

// winds tells whether a ray from p leaves the solid more or less often than it
// enters it.
func (m Mesh) winds(p, dir Vec) bool {
	turns := 0
	for _, c := range m.crossings(p, dir) {
		turns += c.out
	}
	return turns != 0
}

// touches tells whether p is no further than tol from a face.
func (m Mesh) touches(p Vec, tol float64) bool {
	for i := range m.Faces {
		a, b, c := m.Triangle(i)
		if nearTriangle(p, a, b, c, tol) && distanceToTriangle(p, a, b, c) <= tol {
			return true
		}
	}
	return false
}

// nearTriangle is a quick test, that p is no further than tol from the box
// around a triangle.
func nearTriangle(p, a, b, c Vec, tol float64) bool {
	for k, x := range p {
		if x+tol < min(a[k], b[k], c[k]) || x-tol > max(a[k], b[k], c[k]) {
			return false
		}
	}
	return true
}

// distanceToTriangle returns the distance in m of p from the triangle a, b, c.
func distanceToTriangle(p, a, b, c Vec) float64 {
	normal := b.Sub(a).Cross(c.Sub(a))
	corners := [3]Vec{a, b, c}
	over, least := true, p.Sub(a).Len()
	for i, from := range corners {
		along, to := corners[(i+1)%3].Sub(from), p.Sub(from)
		over = over && normal.Cross(along).Dot(to) >= 0
		t := 0.0
		if length := along.LenSqr(); length > 0 {
			t = min(max(to.Dot(along)/length, 0), 1)
		}
		least = min(least, to.Sub(along.Mul(t)).Len())
	}
	if length := normal.Len(); over && !isNeedle(length*length, a, b, c) {
		least = min(least, math.Abs(p.Sub(a).Dot(normal)/length))
	}
	return least
}
