package geom

import (
	"cmp"
	"math"
	"slices"
)

// Nearness is how a straight line from one point to another passes a body.
type Nearness struct {
	Distance float64 // m, to the nearest face; negative: how deep the line is inside, at its deepest
	Along    float64 // m, from the beginning of the line
	At       Vec     // the point of the surface
}

// Nearest returns how the line passes the body that the faces enclose, and
// false if there are no faces. Outside, the distance is exact (to rounding).
// Inside, it is that of the deepest point of the line from the nearest face, short
// of the true one by no more than a thousandth of it and a hundred-thousandth of
// the body's size. Where several shells overlap, faces inside count too.
//
// Inside is where the surface winds round the line. A mesh whose surface is not
// closed where the line runs has no inside there: a line through it has the
// distance 0.
func (b BoxTree) Nearest(from, to Vec) (Nearness, bool) {
	line := newLineSegment(from, to)
	found := b.meet(line)
	if found.face < 0 {
		return Nearness{}, false
	}
	length := math.Sqrt(line.lengthSqr)
	near := Nearness{found.best.gap, found.best.t * length, found.best.at}
	d := diving{tree: &b, line: line, tolerance: 1e-5 * b.Extent().Diagonal()}
	for _, span := range b.inside(line) {
		d.dive(span[0], span[1])
	}
	if d.deepest.gap > 0 {
		return Nearness{-d.deepest.gap, d.deepest.t * length, d.deepest.at}, true
	}
	return near, true
}

// inside returns the parts of the segment, as t from and to, that are inside.
func (b *BoxTree) inside(line lineSegment) [][2]float64 {
	dir, last := line.along, 1.0
	if line.lengthSqr == 0 {
		dir, last = skewed[0], 0 // a point: any line through it tells
	}
	// The whole line is looked at, from before the body to behind it, for its
	// crossings must come out even.
	box, size := b.Extent(), dir.Len()
	reach := (box.Diagonal() + b.slack) / size
	begin := box.Center().Sub(line.from).Dot(dir)/(size*size) - reach
	start := line.from.Add(dir.Mul(begin))
	whole := newLineSegment(start, start.Add(dir.Mul(2*reach)))
	crossings := b.crossings(nil, 0, whole, dir)
	slices.SortStableFunc(crossings, func(p, q crossing) int { return cmp.Compare(p.t, q.t) })
	var spans [][2]float64
	turns := 0
	for i, c := range crossings {
		turns -= c.out
		if turns == 0 || i+1 == len(crossings) {
			continue
		}
		if from, to := max(0, begin+c.t), min(last, begin+crossings[i+1].t); from <= to {
			spans = append(spans, [2]float64{from, to})
		}
	}
	if turns != 0 {
		return nil
	}
	return spans
}

// crossings adds the crossings of the ray from the segment's beginning along
// dir with the faces of a node. The order is that of the tree.
func (b *BoxTree) crossings(found []crossing, node int32, line lineSegment, dir Vec) []crossing {
	n := &b.nodes[node]
	if line.fromBox(n.box) > 1e3*(b.slack+1e-12*line.from.Len()) {
		return found
	}
	if n.count > 0 {
		leaf := Mesh{Vertices: b.mesh.Vertices, Faces: b.mesh.Faces[n.first : n.first+n.count]}
		return append(found, leaf.crossings(line.from, dir)...)
	}
	found = b.crossings(found, node+1, line, dir)
	return b.crossings(found, n.first, line, dir)
}

// diving looks for the point of a segment that is deepest inside.
type diving struct {
	tree      *BoxTree
	line      lineSegment
	tolerance float64 // m
	deepest   meeting
}

// dive looks between t = from and to. It leaves a part alone that cannot be
// deeper than what is known: the distance from one face is a convex function
// along the line, so between two points it is no more than at the greater of
// them, and the distance from all faces is no more than that from one.
func (d *diving) dive(from, to float64) {
	middle := (from + to) / 2
	p := d.line.at(middle)
	found := d.tree.meet(newLineSegment(p, p))
	if found.best.gap > d.deepest.gap {
		d.deepest = meeting{found.best.gap, middle, found.best.at}
	}
	a, b, c := d.tree.mesh.Triangle(found.leaf)
	most := max(distanceToTriangle(d.line.at(from), a, b, c), distanceToTriangle(d.line.at(to), a, b, c))
	most = min(most, found.best.gap+(to-from)/2*math.Sqrt(d.line.lengthSqr))
	if !(most > 1.001*d.deepest.gap+d.tolerance) || middle <= from || middle >= to {
		return
	}
	d.dive(from, middle)
	d.dive(middle, to)
}
