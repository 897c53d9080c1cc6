package geom

// sides sorts the facets of each connected surface by the side that they face:
// a facet's group is its surface, and its flip says whether it faces the other
// way than the facet that the group is named by.
type sides struct {
	parent  []int32
	flip    []bool // against the parent
	twisted map[int]bool
	area    map[int][2]float64 // of a group, by flip
}

// newSides joins facets over the edges that two of them share: they agree when
// they run along it in opposite directions.
func newSides(table edgeTable) sides {
	m := table.mesh
	s := sides{parent: newForest(len(m.Faces)), flip: make([]bool, len(m.Faces)), twisted: map[int]bool{}, area: map[int][2]float64{}}
	table.each(func(low, _ int, uses []uint64) {
		if len(uses) == 2 {
			same := table.direction(uses[0], low) == table.direction(uses[1], low)
			s.join(facetOf(uses[0]), facetOf(uses[1]), same)
		}
	})
	for i := range m.Faces {
		root, flip := s.root(i)
		a, b, c := m.Triangle(i)
		sums := s.area[root]
		sums[side01(flip)] += b.Sub(a).Cross(c.Sub(a)).Len() / 2
		s.area[root] = sums
	}
	return s
}

func side01(flip bool) int {
	if flip {
		return 1
	}
	return 0
}

// root names the group of a facet and tells whether the facet faces the other
// way than it. The way there is made short for the next time.
func (s *sides) root(i int) (root int, flip bool) {
	at := i
	for s.parent[at] != int32(at) {
		flip = flip != s.flip[at]
		at = int(s.parent[at])
	}
	for turned := flip; s.parent[i] != int32(i); {
		next, own := int(s.parent[i]), s.flip[i]
		s.parent[i], s.flip[i] = int32(at), turned
		turned = turned != own
		i = next
	}
	return at, flip
}

// join makes one group of two; other tells that the facets face different sides.
func (s *sides) join(i, j int, other bool) {
	a, flipA := s.root(i)
	b, flipB := s.root(j)
	between := (flipA != flipB) != other
	if a == b {
		if between {
			s.twisted[a] = true
		}
		return
	}
	low, high := min(a, b), max(a, b)
	s.parent[high], s.flip[high] = int32(low), between
	if s.twisted[high] {
		delete(s.twisted, high)
		s.twisted[low] = true
	}
}

// wrong tells whether a facet belongs to the smaller area of its surface.
func (s *sides) wrong(i int) bool {
	root, flip := s.root(i)
	area := s.area[root]
	return !s.twisted[root] && flip == (area[0] >= area[1])
}

func (s *sides) twistedSurfaces() int { return len(s.twisted) }
