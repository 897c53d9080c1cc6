package geom

import (
	"cmp"
	"math"
	"slices"
)

// around lists for each shell those that enclose its point, the innermost
// last.
func (s shells) around(m Mesh, box Extent) [][]int32 {
	turns := make([]map[int32]int, len(s.list))
	plan := newGrid(s.list, box)
	for i, f := range m.Faces {
		if s.of[i] < 0 {
			continue
		}
		a, b, c := m.Triangle(i)
		plan.under(a, b, c, func(j int32) {
			if turn := s.turnOver(m, f, s.of[i], j, 1e-9*box.Diagonal()); turn != 0 {
				if turns[j] == nil {
					turns[j] = map[int32]int{}
				}
				turns[j][s.of[i]] += turn
			}
		})
	}
	lists := make([][]int32, len(s.list))
	for j, byShell := range turns {
		for i, turn := range byShell {
			if turn != 0 {
				lists[j] = append(lists[j], i)
			}
		}
		slices.SortFunc(lists[j], func(a, b int32) int {
			return cmp.Or(cmp.Compare(math.Abs(s.list[b].volume), math.Abs(s.list[a].volume)), cmp.Compare(a, b))
		})
	}
	return lists
}

// toTurn tells which shells must be turned over.
func (s shells) toTurn(m Mesh, box Extent) []bool {
	around := s.around(m, box)
	over := make([]bool, len(s.list))
	order := make([]int, len(s.list))
	for i := range order {
		order[i] = i
	}
	slices.SortStableFunc(order, func(a, b int) int { return cmp.Compare(len(around[a]), len(around[b])) })
	for _, i := range order { // from the outside inward
		if isFlat(s.list[i].volume, s.list[i].area, box.Diagonal()) {
			continue
		}
		count := 0
		for _, outer := range around[i] {
			count += s.side(int(outer), over)
			over[i] = over[outer] // the innermost is the last
		}
		if s.side(i, over) < 0 && count <= 0 {
			over[i] = !over[i]
		}
	}
	return over
}

// side is 1 for a shell that faces outward once those marked are turned over,
// −1 for one that faces inward.
func (s shells) side(i int, over []bool) int {
	if (s.list[i].volume > 0) != over[i] {
		return 1
	}
	return -1
}
