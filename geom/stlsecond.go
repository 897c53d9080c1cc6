package geom

import (
	"fmt"
	"math"
)

// How far two ways to sum over the same facets may differ: as a part of what the
// terms come to at most, area times size to the power of the moment; and for what
// rounding leaves of each facet, where processors round differently, as a part of
// the size alone, by the root of their number.
const (
	secondTolerance = 1e-12
	facetRounding   = 1e-14
)

// Against holds what was found from the bytes of a file against the mesh that was
// made of it and looked over, and says in what they differ, "" if in nothing. The
// two share how a number is read and, of text, the terms of one facet, which tests
// hold against a library; not the welding, nor the mesh, the order of the sums, the
// box or the edges.
func (d Measured) Against(m Mesh, h Health) string {
	size := d.Box.Diagonal()
	unit := secondTolerance*h.Area*size + facetRounding*math.Sqrt(float64(d.Triangles))*size*size*size
	about := m.MomentsAbout(d.Origin)
	far := about.First.Sub(d.About.First).Len()
	second := 0.0
	for i, x := range about.Second {
		second = max(second, math.Abs(x-d.About.Second[i]))
	}
	switch {
	case d.Triangles != h.Triangles:
		return fmt.Sprintf("%d facets in the file and %d in the mesh", d.Triangles, h.Triangles)
	case d.Box != m.Extent():
		return fmt.Sprintf("the box of the file, %v, and of the mesh, %v", d.Box, m.Extent())
	case !(math.Abs(about.Volume-d.About.Volume) <= unit):
		return fmt.Sprintf("a volume of %.15g from the file and %.15g from the mesh", d.About.Volume, about.Volume)
	case !(far <= unit*size) || !(second <= unit*size*size):
		return "the moments from the file and from the mesh"
	case h.Duplicate > 0 || h.Welded > 0: // the mesh was judged without the repeats, or with points joined
		return ""
	case d.Closed != h.Closed():
		return fmt.Sprintf("the file is closed: %v; the mesh: %v", d.Closed, h.Closed())
	}
	own := EdgeCounts{h.OpenEdges, h.MisorientedEdges, h.OverusedEdges, h.UnbalancedEdges}
	if d.Edges != nil && *d.Edges != own {
		return fmt.Sprintf("edges that do not fit: %+v from the file and %+v from the mesh", *d.Edges, own)
	}
	return ""
}
