package geom

import (
	"cmp"
	"slices"
)

// Column returns the stretches of the plumb line through x, y that are inside
// the body that the faces enclose, from the top down: the heights in m where
// each begins and ends. Where shells overlap they count as one body; where the
// surface is not closed, the body is taken to end at the last face below.
//
// It looks at no more of the mesh than the boxes that the line passes, and takes
// ties at edges and corners as [Mesh.Hits] does.
func (b BoxTree) Column(x, y float64) [][2]float64 {
	if len(b.nodes) == 0 {
		return nil
	}
	top := b.nodes[0].box.Max[2]
	r, _ := newRay(Vec{x, y, top}, Vec{0, 0, -1})
	var room [8]crossing
	found := b.below(room[:0], 0, r, x, y)
	slices.SortStableFunc(found, func(p, q crossing) int { return cmp.Compare(p.t, q.t) })
	var inside [][2]float64
	turns := 0
	for i, c := range found {
		before := turns
		turns -= c.out
		switch {
		case before == 0:
			inside = append(inside, [2]float64{top - c.t, top - found[len(found)-1].t})
		case turns == 0 || i == len(found)-1:
			inside[len(inside)-1][1] = top - c.t
		}
	}
	return inside
}

// below adds the crossings of a plumb ray with the faces of a node. Boxes are
// of the vertices themselves, so a line outside of one in plan misses all in it.
func (b BoxTree) below(found []crossing, node int32, r ray, x, y float64) []crossing {
	n := &b.nodes[node]
	if x < n.box.Min[0] || x > n.box.Max[0] || y < n.box.Min[1] || y > n.box.Max[1] {
		return found
	}
	if n.count == 0 {
		return b.below(b.below(found, node+1, r, x, y), n.first, r, x, y)
	}
	for _, f := range b.mesh.Faces[n.first : n.first+n.count] {
		if c, ok := r.through(b.mesh.Vertices[f[0]], b.mesh.Vertices[f[1]], b.mesh.Vertices[f[2]]); ok {
			found = append(found, c)
		}
	}
	return found
}
