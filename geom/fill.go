package geom

import "math"

// Below returns the moments, about the frame's origin, of the part of a closed
// mesh that lies on the far side of a plane from its normal: with the normal
// up, what a liquid fills up to a level. The plane goes through a point; the
// normal need not be of length 1. A normal of zero gives nothing.
//
// Each face is cut by the plane and the pieces below are summed as tetrahedra
// with their fourth corner on the plane, so that the level itself, whose
// tetrahedra are flat, need not be built: exact for the mesh, whatever its
// shape or attitude. Of a round solid the mesh leaves out what Mesh's chord
// says.
//
// Source: signed tetrahedra as in [Mesh.Moments]; derived here.
func (m Mesh) Below(point, normal Vec) Moments {
	length := normal.Len()
	if !(length > 0) || math.IsInf(length, 0) {
		return Moments{}
	}
	up := normal.Mul(1 / length)
	height := make([]float64, len(m.Vertices))
	for i, v := range m.Vertices {
		height[i] = v.Sub(point).Dot(up)
	}
	cut := Mesh{Vertices: m.Vertices[:len(m.Vertices):len(m.Vertices)]}
	for _, f := range m.Faces {
		cut.belowFace(f, height)
	}
	return cut.MomentsAbout(point).Posed(Pose{Turn: Still().Turn, Move: point})
}

// belowFace adds the part of a face that lies below height 0: a triangle, or
// two where one corner is cut off.
func (m *Mesh) belowFace(face [3]int, height []float64) {
	var ring []int
	for i, a := range face {
		b := face[(i+1)%3]
		if height[a] <= 0 {
			ring = append(ring, a)
		}
		if height[a] < 0 && height[b] > 0 || height[a] > 0 && height[b] < 0 {
			part := height[a] / (height[a] - height[b])
			on := m.Vertices[a].Add(m.Vertices[b].Sub(m.Vertices[a]).Mul(part))
			m.Vertices = append(m.Vertices, on)
			ring = append(ring, len(m.Vertices)-1)
		}
	}
	for i := 2; i < len(ring); i++ {
		m.Faces = append(m.Faces, [3]int{ring[0], ring[i-1], ring[i]})
	}
}
