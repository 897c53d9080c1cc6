package geom

import "slices"

// edgeTable lists, edge by edge, the facets that use it. An edge is named by
// its two vertices, the lower index first. Counting sort by the lower vertex,
// then a small sort for each: no hash table, and always the same order.
type edgeTable struct {
	mesh  Mesh
	first []int    // uses of edges whose lower vertex is v: uses[first[v]:first[v+1]]
	uses  []uint64 // higher vertex << 32 | half-edge, which is 3·facet + corner that it starts at
}

// newEdgeTable leaves out facets with two equal vertices: they run along an
// edge and back, so the count of directed edges is the same without them.
//
// Each worker goes through all facets and takes the edges whose lower vertex is
// in its own part of the vertices.
func newEdgeTable(m Mesh) edgeTable {
	t := edgeTable{mesh: m, first: make([]int, len(m.Vertices)+1)}
	workers := workersFor(len(m.Faces) / 4096)
	AtOnce(workers, func(w int) {
		t.edgesOf(w, workers, func(low, _, _ int) { t.first[low+1]++ })
	})
	for v := range m.Vertices {
		t.first[v+1] += t.first[v]
	}
	t.uses = make([]uint64, t.first[len(m.Vertices)])
	AtOnce(workers, func(w int) {
		from, to := share(len(m.Vertices), w, workers)
		next := slices.Clone(t.first[from:to])
		t.edgesOf(w, workers, func(low, high, half int) {
			t.uses[next[low-from]] = uint64(high)<<32 | uint64(half)
			next[low-from]++
		})
		for v := from; v < to; v++ {
			slices.Sort(t.uses[t.first[v]:t.first[v+1]])
		}
	})
	return t
}

// edgesOf visits the half-edges whose lower vertex is in the share of one worker.
func (t edgeTable) edgesOf(worker, workers int, visit func(low, high, half int)) {
	from, to := share(len(t.mesh.Vertices), worker, workers)
	for i, f := range t.mesh.Faces {
		if !distinct(f) {
			continue
		}
		for corner := range f {
			a, b := f[corner], f[(corner+1)%3]
			if low := min(a, b); low >= from && low < to {
				visit(low, max(a, b), 3*i+corner)
			}
		}
	}
}

// share is the part of n things that one of several workers takes.
func share(n, worker, workers int) (from, to int) {
	return worker * n / workers, (worker + 1) * n / workers
}

func distinct(f [3]int) bool { return f[0] != f[1] && f[1] != f[2] && f[2] != f[0] }

// each calls visit for every edge with its uses, in order of facets.
func (t edgeTable) each(visit func(low, high int, uses []uint64)) {
	t.within(0, len(t.mesh.Vertices), visit)
}

// within is each for the edges whose lower vertex is in a part of the vertices.
func (t edgeTable) within(from, to int, visit func(low, high int, uses []uint64)) {
	for low := from; low < to; low++ {
		uses := t.uses[t.first[low]:t.first[low+1]]
		for len(uses) > 0 {
			high, n := uses[0]>>32, 1
			for n < len(uses) && uses[n]>>32 == high {
				n++
			}
			visit(low, int(high), uses[:n])
			uses = uses[n:]
		}
	}
}

func facetOf(use uint64) int { return int(uint32(use)) / 3 }

// direction is +1 for a facet that runs along the edge from its lower vertex
// to its higher, and −1 for one that runs back.
func (t edgeTable) direction(use uint64, low int) int {
	half := int(uint32(use))
	if t.mesh.Faces[half/3][half%3] == low {
		return 1
	}
	return -1
}

// duplicates marks the facets whose three vertices, in the same sense of
// turning, are those of an earlier facet. Each facet is compared on one edge
// only, that which leaves its lowest vertex.
func (t edgeTable) duplicates() (marked []bool, count int) {
	marked = make([]bool, len(t.mesh.Faces))
	workers := workersFor(len(marked) / 4096)
	counts := make([]int, workers)
	AtOnce(workers, func(w int) {
		from, to := share(len(t.mesh.Vertices), w, workers)
		counts[w] = t.markRepeats(from, to, marked)
	})
	for _, n := range counts {
		count += n
	}
	return marked, count
}

func (t edgeTable) markRepeats(from, to int, marked []bool) (count int) {
	var same []uint64 // third vertex << 32 | facet
	t.within(from, to, func(low, high int, uses []uint64) {
		if len(uses) < 2 {
			return
		}
		same = same[:0]
		for _, use := range uses {
			f := t.mesh.Faces[facetOf(use)]
			third := f[0] + f[1] + f[2] - low - high
			if third > low && t.direction(use, low) > 0 {
				same = append(same, uint64(third)<<32|uint64(facetOf(use)))
			}
		}
		if len(same) < 2 {
			return
		}
		slices.Sort(same)
		for i := 1; i < len(same); i++ {
			if same[i]>>32 == same[i-1]>>32 {
				marked[uint32(same[i])] = true
				count++
			}
		}
	})
	return count
}

// forest is a set of disjoint groups of things numbered from 0.
type forest []int32

func newForest(n int) forest {
	f := make(forest, n)
	for i := range f {
		f[i] = int32(i)
	}
	return f
}

// root names the group of i.
func (f forest) root(i int) int {
	for f[i] != int32(i) {
		f[i] = f[f[i]]
		i = int(f[i])
	}
	return i
}

// join makes one group of two, named by the lower number.
func (f forest) join(i, j int) {
	i, j = f.root(i), f.root(j)
	f[max(i, j)] = int32(min(i, j))
}
