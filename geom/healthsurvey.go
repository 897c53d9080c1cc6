package geom

import (
	"math"
	"slices"
)

// rim is an edge whose uses do not cancel, and by how much: +1 when one facet
// too many runs from low to high. The facet is one of its one or two facets,
// or −1 where there are more.
type rim struct{ low, high, net, facet int }

// survey sorts the edges of a mesh into kinds, and its facets into shells.
type survey struct {
	table    edgeTable
	skip     []bool // facets that repeat another
	shells   forest // of facets
	rims     []rim
	crowded  []crowd
	open     int // edges with one use
	turned   int // edges with two uses the same way
	lopsided int // crowded edges whose directions do not cancel
}

// crowd is an edge with more than two uses.
type crowd struct {
	low, high int
	uses      []uint64
}

func newSurvey(table edgeTable, skip []bool) *survey {
	s := &survey{table: table, skip: skip, shells: newForest(len(table.mesh.Faces))}
	var kept []uint64
	table.each(func(low, high int, uses []uint64) {
		kept = kept[:0]
		for _, use := range uses {
			if !skip[facetOf(use)] {
				kept = append(kept, use)
			}
		}
		s.edge(low, high, kept)
	})
	s.joinUnbalanced()
	return s
}

// edge files one edge. Two facets are neighbours where they are the only ones:
// parts that touch along an edge then stay apart.
func (s *survey) edge(low, high int, uses []uint64) {
	net, facet := 0, facetOf(uses[0]) // of facets that repeat each other the first is kept, so there is one
	for _, use := range uses {
		net += s.table.direction(use, low)
	}
	switch {
	case len(uses) == 1:
		s.open++
	case len(uses) == 2:
		s.shells.join(facet, facetOf(uses[1]))
		if net != 0 {
			s.turned++
		}
	default:
		facet = -1
		s.crowded = append(s.crowded, crowd{low, high, slices.Clone(uses)})
		if net != 0 {
			s.lopsided++
		}
	}
	if net != 0 {
		s.rims = append(s.rims, rim{low, high, net, facet})
	}
}

// unbalanced gives the shells that do not cancel among themselves at a crowded edge.
func (s *survey) unbalanced(c crowd) []int {
	type step struct{ shell, direction int }
	steps := make([]step, len(c.uses))
	for i, use := range c.uses {
		steps[i] = step{s.shells.root(facetOf(use)), s.table.direction(use, c.low)}
	}
	slices.SortFunc(steps, func(a, b step) int { return a.shell - b.shell })
	var shells []int
	for i := 0; i < len(steps); {
		shell, net := steps[i].shell, 0
		for ; i < len(steps) && steps[i].shell == shell; i++ {
			net += steps[i].direction
		}
		if net != 0 {
			shells = append(shells, shell)
		}
	}
	return shells
}

// joinUnbalanced makes one shell of surfaces that close only together, such as
// two boxes with a double wall between them.
func (s *survey) joinUnbalanced() {
	joined := slices.Clone(s.shells) // all are judged by themselves before any are joined
	for _, c := range s.crowded {
		shells := s.unbalanced(c)
		for i := 1; i < len(shells); i++ {
			joined.join(shells[0], shells[i])
		}
	}
	s.shells = joined
}

// count writes the counts of edges and shells.
func (s *survey) count(h *Health) {
	h.OpenEdges, h.MisorientedEdges = s.open, s.turned
	h.OverusedEdges, h.UnbalancedEdges = len(s.crowded), s.lopsided
	for i, f := range s.table.mesh.Faces {
		if s.counts(i, f) && s.shells.root(i) == i {
			h.Shells++
		}
	}
}

// counts reports whether a facet belongs to a shell: not one that repeats
// another, and not one with two equal vertices.
func (s *survey) counts(i int, f [3]int) bool { return !s.skip[i] && distinct(f) }

// crowdedPlaces gives the middles of up to five edges with more than two uses.
func (s *survey) crowdedPlaces() []Vec {
	var places []Vec
	for _, c := range s.crowded[:min(len(s.crowded), mostPlaces)] {
		places = append(places, middle(s.table.mesh, c.low, c.high))
	}
	return places
}

func middle(m Mesh, i, j int) Vec { return m.Vertices[i].Add(m.Vertices[j]).Mul(0.5) }

// hole is a connected rim: what closes it is missing, or faces the wrong way.
type hole struct {
	middle  Vec // mean of its rim, each edge counted once
	edges   int
	missing Vec // area of a fan from the middle to the rim, as seen along x, y and z
	place   Vec // the middle of one edge of the rim
}

// holesOf joins rims that share a vertex.
func holesOf(m Mesh, rims []rim) []hole {
	joined := newForest(len(m.Vertices))
	for _, r := range rims {
		joined.join(r.low, r.high)
	}
	var holes []hole
	number := make([]int32, len(m.Vertices)) // 1 + the number of the hole, at the root of its vertices
	at := func(r rim) *hole { return &holes[number[joined.root(r.low)]-1] }
	for _, r := range rims {
		place := middle(m, r.low, r.high)
		if root := joined.root(r.low); number[root] == 0 {
			holes = append(holes, hole{place: place})
			number[root] = int32(len(holes))
		}
		h := at(r)
		h.edges++
		h.middle = h.middle.Add(place.Sub(h.middle).Mul(1 / float64(h.edges)))
	}
	for _, r := range rims {
		h := at(r)
		p, q := m.Vertices[r.low].Sub(h.middle), m.Vertices[r.high].Sub(h.middle)
		area := p.Cross(q).Mul(float64(r.net) / 2)
		for axis := range area {
			h.missing[axis] += math.Abs(area[axis])
		}
	}
	return holes
}

// keepLargest inserts a hole into a list of the largest few, largest first.
func keepLargest(largest []hole, h hole) []hole {
	at := len(largest)
	for at > 0 && largest[at-1].missing.LenSqr() < h.missing.LenSqr() {
		at--
	}
	if at == mostPlaces {
		return largest
	}
	largest = slices.Insert(largest, at, h)
	return largest[:min(len(largest), mostPlaces)]
}
