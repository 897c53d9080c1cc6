package geom

import (
	"math"

	"github.com/go-gl/mathgl/mgl64"
)

// Below returns the moments, about the frame's origin, of the part of a closed
// mesh that lies on the far side of a plane from its normal: with the normal
// up, what a liquid fills up to a level. The plane goes through a point; the
// normal need not be of length 1. A normal of zero gives nothing.
//
// Each face is cut by the plane and the pieces below are summed as tetrahedra
// with their fourth corner on the plane, so that the level itself, whose
// tetrahedra are flat, need not be built: exact for the mesh, whatever its
// shape or attitude. Of a round solid the mesh leaves out what Mesh's chord
// says; [Inside] mends most of that.
//
// Source: signed tetrahedra as in [Mesh.Moments]; derived here.
func (m Mesh) Below(point, normal Vec) Moments {
	up, ok := direction(normal)
	if !ok {
		return Moments{}
	}
	below, _ := m.cut(point, up)
	return below.MomentsAbout(point).Posed(Still().Shifted(point))
}

// direction returns the vector at length 1, false where it points nowhere.
func direction(v Vec) (Vec, bool) {
	length := v.Len()
	if !(length > 0) || math.IsInf(length, 0) {
		return Vec{}, false
	}
	return v.Mul(1 / length), true
}

// cut returns the faces below a plane through the point, across up, and the
// rim of the level: stretches of line from one point to the next, which run
// anticlockwise around the level as seen from above, and clockwise around its
// holes. What lies on the plane counts as below it, so that a flat face on the
// level is wetted and the level is that just above it.
func (m Mesh) cut(point, up Vec) (below Mesh, rim [][2]Vec) {
	height := make([]float64, len(m.Vertices))
	for i, v := range m.Vertices {
		height[i] = v.Sub(point).Dot(up)
	}
	below.Vertices = m.Vertices[:len(m.Vertices):len(m.Vertices)]
	below.Faces = make([][3]int, 0, len(m.Faces))
	for _, f := range m.Faces {
		switch wet := wetCorners(f, height); wet {
		case 0:
		case 3:
			below.Faces = append(below.Faces, f)
		default:
			rim = append(rim, below.cutFace(f, height))
		}
	}
	return below, rim
}

func wetCorners(f [3]int, height []float64) int {
	wet := 0
	for _, a := range f {
		if height[a] <= 0 {
			wet++
		}
	}
	return wet
}

// cutFace adds the wet part of a face that the level crosses: a triangle, or
// two where one corner is cut off. It returns the stretch of rim along it.
func (m *Mesh) cutFace(face [3]int, height []float64) (rim [2]Vec) {
	var ring [4]int
	n := 0
	add := func(vertex int) {
		ring[n] = vertex
		n++
	}
	for i, a := range face {
		b := face[(i+1)%3]
		if height[a] <= 0 {
			add(a)
		}
		if (height[a] <= 0) == (height[b] <= 0) {
			continue
		}
		part := height[a] / (height[a] - height[b])
		on := m.Vertices[a].Add(m.Vertices[b].Sub(m.Vertices[a]).Mul(part))
		m.Vertices = append(m.Vertices, on)
		add(len(m.Vertices) - 1)
		if height[a] <= 0 { // the face leaves the liquid here: the level's rim, which runs the other way, ends
			rim[1] = on
		} else {
			rim[0] = on
		}
	}
	for i := 2; i < n; i++ {
		m.Faces = append(m.Faces, [3]int{ring[0], ring[i-1], ring[i]})
	}
	return rim
}

// levelled returns the figures of a level from its rim, by the sums over the
// edges p to q of a polygon in its own plane, with c = p × q:
//
//	A = Σ c/2    ∫s dA = Σ c·(p + q)/6    ∫s sᵀ dA = Σ c·(p pᵀ + q qᵀ + (p + q)(p + q)ᵀ)/24
//
// Several pieces and holes add up, as the rim goes around each its own way.
// They are measured from a point on the level that should be near to it. A
// sliver, of less area than 1e-10 of its spread, has no second moments.
// Source: Green's theorem, standard geometry; derived here as for [Polygon].
func levelled(rim [][2]Vec, point, up Vec) Surface {
	var area, spread float64
	var first, corners Vec
	var second mgl64.Mat3
	for _, edge := range rim {
		p, q := edge[0].Sub(point), edge[1].Sub(point)
		p, q = p.Sub(up.Mul(p.Dot(up))), q.Sub(up.Mul(q.Dot(up)))
		c, sum := p.Cross(q).Dot(up), p.Add(q)
		area += c / 2
		spread += p.LenSqr()
		corners = corners.Add(p)
		first = first.Add(sum.Mul(c / 6))
		second = second.Add(p.OuterProd3(p).Add(q.OuterProd3(q)).Add(sum.OuterProd3(sum)).Mul(c / 24))
	}
	if !(area > 0) {
		return Surface{}
	}
	// Of a sliver rounding leaves no more than where its rim is.
	if area <= 1e-10*spread {
		return Surface{Area: area, Centroid: point.Add(corners.Mul(1 / float64(len(rim))))}
	}
	centre := first.Mul(1 / area)
	return Surface{area, point.Add(centre), second.Sub(centre.OuterProd3(centre).Mul(area))}
}
