package geom

import "math"

// BoxTree is a mesh with boxes around its faces, in larger boxes and so on up
// to one: it answers what is near to a line without looking at every face.
type BoxTree struct {
	mesh  Mesh // its faces in the order of the leaves
	order []int32
	nodes []boxNode
	slack float64 // m, what rounding may do
}

// boxNode is a leaf, with count faces from first, or has two nodes in it: the
// next one and the one numbered first.
type boxNode struct {
	box          Extent
	first, count int32
}

// facesInLeaf is the most faces that are not divided further.
const facesInLeaf = 4

// NewBoxTree puts the mesh into boxes. The vertices are kept, not copied: do
// not change them afterwards. Every coordinate must be a finite number and
// every face name vertices that exist.
func NewBoxTree(m Mesh) BoxTree {
	places := make([]facePlace, len(m.Faces))
	for i := range m.Faces {
		a, b, c := m.Triangle(i)
		places[i] = facePlace{a.Add(b).Add(c).Mul(1.0 / 3), int32(i)}
	}
	tree := BoxTree{mesh: m, nodes: make([]boxNode, 0, len(m.Faces))}
	if len(places) > 0 {
		tree.divide(places, 0)
	}
	tree.mesh.Faces, tree.order = make([][3]int, len(places)), make([]int32, len(places))
	for i, p := range places {
		tree.mesh.Faces[i], tree.order[i] = m.Faces[p.face], p.face
	}
	e := m.Extent()
	tree.slack = 1e-12 * max(e.Min.Len(), e.Max.Len())
	return tree
}

// Extent returns the box around all faces.
func (b BoxTree) Extent() Extent {
	if len(b.nodes) == 0 {
		return Extent{}
	}
	return b.nodes[0].box
}

// facePlace is a face and its middle.
type facePlace struct {
	middle Vec
	face   int32
}

// divide adds the node of the places, the first of which is number first, and
// all nodes in it. Places are split at the middle of their longest extent; where
// all are in one point, by number.
func (b *BoxTree) divide(places []facePlace, first int) Extent {
	node := len(b.nodes)
	b.nodes = append(b.nodes, boxNode{first: int32(first), count: int32(len(places))})
	if len(places) <= facesInLeaf {
		b.nodes[node].box = b.around(places)
		return b.nodes[node].box
	}
	split := splitInMiddle(places)
	box := b.divide(places[:split], first)
	right := int32(len(b.nodes))
	box = box.Union(b.divide(places[split:], first+split))
	b.nodes[node] = boxNode{box: box, first: right}
	return box
}

// around returns the box around faces; there is at least one.
func (b *BoxTree) around(places []facePlace) Extent {
	first := b.mesh.Vertices[b.mesh.Faces[places[0].face][0]]
	box := Extent{first, first}
	for _, p := range places {
		for _, v := range b.mesh.Faces[p.face] {
			corner := b.mesh.Vertices[v]
			for i, x := range corner {
				box.Min[i], box.Max[i] = min(box.Min[i], x), max(box.Max[i], x)
			}
		}
	}
	return box
}

// splitInMiddle moves the places left of the middle before the others and
// returns their number, neither 0 nor all.
func splitInMiddle(places []facePlace) int {
	low, high := places[0].middle, places[0].middle
	for i := range places {
		for k, x := range places[i].middle {
			low[k], high[k] = min(low[k], x), max(high[k], x)
		}
	}
	axis := 0
	for k := range axes {
		if high[k]-low[k] > high[axis]-low[axis] {
			axis = k
		}
	}
	middle, split := (low[axis]+high[axis])/2, 0
	for i := range places {
		if places[i].middle[axis] < middle {
			places[i], places[split] = places[split], places[i]
			split++
		}
	}
	if split == 0 || split == len(places) {
		return len(places) / 2
	}
	return split
}

// faceSearch is a search for the face that a segment is nearest to.
type faceSearch struct {
	tree  *BoxTree
	line  lineSegment
	slack float64
	best  meeting
	face  int32 // as the mesh numbered it; -1: none yet
	leaf  int   // the same face's place in the tree
}

// meet returns where the segment is nearest to a face, of equal ones the first
// of the mesh.
func (b *BoxTree) meet(line lineSegment) faceSearch {
	far := max(line.from.Len(), line.at(1).Len())
	s := faceSearch{tree: b, line: line, slack: b.slack + 1e-12*far, best: meeting{gap: math.Inf(1)}, face: -1}
	if len(b.nodes) > 0 {
		s.visit(0, s.line.fromBox(b.nodes[0].box))
	}
	return s
}

// visit looks into a node that is at least bound away.
func (s *faceSearch) visit(node int32, bound float64) {
	if bound-s.slack > s.best.gap {
		return
	}
	n := &s.tree.nodes[node]
	if n.count > 0 {
		s.try(int(n.first), int(n.first+n.count))
		return
	}
	left, right := node+1, n.first
	near, far := s.line.fromBox(s.tree.nodes[left].box), s.line.fromBox(s.tree.nodes[right].box)
	if far < near {
		left, right, near, far = right, left, far, near
	}
	s.visit(left, near)
	s.visit(right, far)
}

// try measures the faces of a leaf.
func (s *faceSearch) try(from, to int) {
	for i := from; i < to; i++ {
		found := s.line.toTriangle(s.tree.mesh.Triangle(i))
		face := s.tree.order[i]
		if found.gap < s.best.gap || found.gap == s.best.gap && face < s.face {
			s.best, s.face, s.leaf = found, face, i
		}
	}
}
