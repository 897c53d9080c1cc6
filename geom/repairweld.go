package geom

import "math"

// roundingGap is how far apart points may be, as a fraction of the diagonal of
// the mesh's box, that are the same but for rounding: six digits in a text
// file, or float32 a hundred sizes away from the origin.
const roundingGap = 1e-6

// Weld returns m with vertices that are no more than tol apart (in the mesh's
// unit) made one. Each vertex goes to the nearest of those kept before it, so
// none is moved by more than tol; a row of points, each near the next, does
// not shrink to one. Facets are neither dropped nor added: one that loses an
// edge is kept, with two equal vertices. Vertices that no facet uses are left
// out. With a tol of zero or less only equal vertices are made one.
func Weld(m Mesh, tol float64) Mesh {
	w, _ := weldSome(m, tol, nil)
	return w
}

// weldSome welds the vertices that are marked, or all for a nil list, and tells
// how many were moved.
func weldSome(m Mesh, tol float64, only []bool) (Mesh, int) {
	box := m.Extent()
	if !(tol > 0) || box.Diagonal()/tol > 1<<50 { // nothing that digits can hold lies between
		return compact(m), 0
	}
	kept := pointGrid{low: box.Min, cell: 2 * tol, first: map[[3]int64]int32{}}
	to, moved := make([]int, len(m.Vertices)), 0
	for i, v := range m.Vertices {
		to[i] = i
		if only != nil && !only[i] {
			continue
		}
		if near := kept.nearest(v, tol); near >= 0 {
			to[i] = near
			if m.Vertices[near] != v {
				moved++
			}
			continue
		}
		kept.add(v, i)
	}
	w := Mesh{Vertices: m.Vertices, Faces: make([][3]int, len(m.Faces))}
	for i, f := range m.Faces {
		w.Faces[i] = [3]int{to[f[0]], to[f[1]], to[f[2]]}
	}
	return compact(w), moved
}

// pointGrid sorts points into cubes, so that near ones are found quickly. No
// two of them may be nearer than half the side of a cube.
type pointGrid struct {
	low    Vec
	cell   float64
	first  map[[3]int64]int32 // 1 + the last point of a cube, as an index into points
	points []gridPoint
}

type gridPoint struct {
	at   Vec
	id   int
	next int32
}

// cube is the cube that v is in and, for each axis, the side on which the next
// cube is nearer.
func (g *pointGrid) cube(v Vec) (cube, beside [3]int64) {
	for axis := range v {
		part := (v[axis] - g.low[axis]) / g.cell
		whole := math.Floor(part)
		cube[axis], beside[axis] = int64(whole), 1
		if part-whole < 0.5 {
			beside[axis] = -1
		}
	}
	return cube, beside
}

func (g *pointGrid) add(v Vec, id int) {
	cube, _ := g.cube(v)
	g.points = append(g.points, gridPoint{v, id, g.first[cube]})
	g.first[cube] = int32(len(g.points))
}

// nearest returns the id of the nearest point within reach, which is half a
// cube at most, or −1.
func (g *pointGrid) nearest(v Vec, reach float64) int {
	cube, beside := g.cube(v)
	id := -1
	for corner := range 8 {
		at := cube
		for axis := range at {
			if corner&(1<<axis) != 0 {
				at[axis] += beside[axis]
			}
		}
		for n := g.first[at]; n != 0; n = g.points[n-1].next {
			p := g.points[n-1]
			if far := p.at.Sub(v).Len(); far <= reach && (id < 0 || far < reach) {
				id, reach = p.id, far
			}
		}
	}
	return id
}
