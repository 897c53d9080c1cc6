package takeoff

import "plumbhook/geom"

// areaChord is how fine a solid is cut into facets for its surface, as a part
// of the least side of its box: the area of a cylinder comes out 0.01 % low, of
// a sphere 0.03 %, of what is flat exactly.
const areaChord = 1e-4

// hasSurface tells whether the part has a surface that a layer can lie on. A
// weight has none: its box says how far it reaches. Nor has a weld, which lies
// on other parts.
func (p Part) hasSurface() bool { return p.Solid != nil && !p.weight() && p.Kind != "weld" }

// surface returns the area of the solid of all copies, inside and outside, in
// m², and the middle of that area, in m; cuts not regarded.
//
// The area of a triangle a, b, c is |(b − a) × (c − a)|/2, its middle (a + b + c)/3.
// Source: standard geometry, from memory.
func (p Part) surface() (float64, geom.Vec) {
	mesh, faces := p.surfaceMesh()
	var area float64
	var moment geom.Vec // from a corner, so that a far datum costs no digits
	var from geom.Vec
	for i := range mesh.Faces {
		a, b, c := mesh.Triangle(i)
		if i == 0 {
			from = a
		}
		one := b.Sub(a).Cross(c.Sub(a)).Len() / 2
		area += one
		moment = moment.Add(a.Sub(from).Add(b.Sub(from)).Add(c.Sub(from)).Mul(one / 3))
	}
	if !(area > 0) {
		return 0, p.CG()
	}
	first := p.Pose.Point(from.Add(moment.Mul(1 / area)))
	var sum geom.Vec
	for _, c := range p.Places {
		sum = sum.Add(c.Point(first).Sub(first))
	}
	n := float64(len(p.Places))
	return faces * area * n, first.Add(sum.Mul(1 / n))
}

// surfaceMesh returns facets whose area is that of a part's surface over faces: of
// a plate along a surface the middle, which has two faces; its edges are left out.
func (p Part) surfaceMesh() (mesh geom.Mesh, faces float64) {
	if skin, ok := p.Solid.(geom.Skin); ok {
		return skin.Surface(), 2
	}
	side := geom.ExtentOf(p.Solid, geom.Still()).Size()
	return p.Solid.Mesh(areaChord * min(side[0], side[1], side[2])), 1
}
