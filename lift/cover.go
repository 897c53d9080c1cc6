package lift

import (
	"cmp"
	"math"
	"slices"
)

// mostExact is the number of kinds of gear up to which the cheapest set is found
// for certain.
const mostExact = 12

// coverKind is something that can be had at a cost and covers some of the needs, by
// number, in rising order.
type coverKind struct {
	id     int
	cost   float64
	covers []int
}

// cover is the answer to: which kinds cover all needs at the least cost?
type cover struct {
	chosen []int // ids, rising
	cost   float64
	exact  bool
	bound  float64 // no set is cheaper; the cost itself where exact
}

// cheapestCover covers the needs 0 to n-1. Kinds that another makes needless
// (covers at least the same and costs no more) are dropped first; with up to
// mostExact left the answer is the cheapest of all sets (branch and bound), above
// that it is greedy, the least cost per need still open, without what that has made
// needless, and with a lower bound.
//
// The bound (derived here, by duality): let each need pay the least share, cost
// over needs covered, among the kinds that cover it. A kind's needs then pay
// together no more than its cost, so that all needs pay no more than any set
// costs.
//
// Each need must be covered by some kind.
func cheapestCover(n int, kinds []coverKind) cover {
	if n == 0 {
		return cover{exact: true}
	}
	kinds = undominated(kinds)
	if len(kinds) <= mostExact {
		return exactCover(n, kinds)
	}
	return greedyCover(n, kinds)
}

// undominated drops the kinds that another makes needless; of equal ones the
// first by cost, then by id, stays.
func undominated(kinds []coverKind) []coverKind {
	kinds = slices.Clone(kinds)
	slices.SortStableFunc(kinds, func(a, b coverKind) int {
		return cmp.Or(cmp.Compare(a.cost, b.cost), cmp.Compare(len(b.covers), len(a.covers)), cmp.Compare(a.id, b.id))
	})
	var kept []coverKind
	by := map[int][]int{} // kept kinds by each need
	for _, k := range kinds {
		if len(k.covers) == 0 {
			continue
		}
		if slices.ContainsFunc(by[k.covers[0]], func(i int) bool { return holdsAll(kept[i].covers, k.covers) }) {
			continue
		}
		for _, need := range k.covers {
			by[need] = append(by[need], len(kept))
		}
		kept = append(kept, k)
	}
	return kept
}

// holdsAll tells whether all numbers of a rising list are in another.
func holdsAll(all, some []int) bool {
	i := 0
	for _, x := range some {
		for i < len(all) && all[i] < x {
			i++
		}
		if i == len(all) || all[i] != x {
			return false
		}
	}
	return true
}

// exactCover tries, for the need that fewest kinds cover, each of them in turn.
func exactCover(n int, kinds []coverKind) cover {
	best := cover{cost: math.Inf(1), exact: true}
	covered := make([]int, n) // by how many of the chosen
	var try func(chosen []int, cost float64)
	try = func(chosen []int, cost float64) {
		if cost >= best.cost {
			return
		}
		need := firstOpen(covered, kinds)
		if need < 0 {
			best.chosen, best.cost = slices.Clone(chosen), cost
			return
		}
		for i, k := range kinds {
			if _, has := slices.BinarySearch(k.covers, need); !has {
				continue
			}
			for _, c := range k.covers {
				covered[c]++
			}
			try(append(chosen, i), cost+k.cost)
			for _, c := range k.covers {
				covered[c]--
			}
		}
	}
	try(nil, 0)
	return best.named(kinds)
}

// firstOpen is the open need that fewest kinds cover; -1: none is open.
func firstOpen(covered []int, kinds []coverKind) int {
	options := make([]int, len(covered))
	for _, k := range kinds {
		for _, c := range k.covers {
			options[c]++
		}
	}
	at := -1
	for need, times := range covered {
		if times == 0 && (at < 0 || options[need] < options[at]) {
			at = need
		}
	}
	return at
}

func greedyCover(n int, kinds []coverKind) cover {
	open := make([]bool, n)
	share := make([]float64, n)
	for i := range open {
		open[i], share[i] = true, math.Inf(1)
	}
	for _, k := range kinds {
		for _, c := range k.covers {
			share[c] = min(share[c], k.cost/float64(len(k.covers)))
		}
	}
	var out cover
	for _, s := range share {
		out.bound += s
	}
	for left := n; left > 0; {
		best, gain, least := -1, 0, math.Inf(1)
		for i, k := range kinds {
			fresh := 0
			for _, c := range k.covers {
				if open[c] {
					fresh++
				}
			}
			if fresh > 0 && k.cost/float64(fresh) < least {
				best, gain, least = i, fresh, k.cost/float64(fresh)
			}
		}
		if best < 0 {
			break // a need that nothing covers: the caller has seen to it
		}
		for _, c := range kinds[best].covers {
			open[c] = false
		}
		left -= gain
		out.chosen, out.cost = append(out.chosen, best), out.cost+kinds[best].cost
	}
	out.drop(n, kinds)
	bound := min(out.bound, out.cost)
	out = out.named(kinds)
	out.bound = bound
	return out
}

// drop takes out, the dearest first, what the rest has made needless.
func (c *cover) drop(n int, kinds []coverKind) {
	times := make([]int, n)
	for _, i := range c.chosen {
		for _, need := range kinds[i].covers {
			times[need]++
		}
	}
	slices.SortFunc(c.chosen, func(a, b int) int {
		return cmp.Or(cmp.Compare(kinds[b].cost, kinds[a].cost), cmp.Compare(a, b))
	})
	c.chosen = slices.DeleteFunc(c.chosen, func(i int) bool {
		if slices.ContainsFunc(kinds[i].covers, func(need int) bool { return times[need] < 2 }) {
			return false
		}
		for _, need := range kinds[i].covers {
			times[need]--
		}
		c.cost -= kinds[i].cost
		return true
	})
}

// named puts the ids of the kinds in the place of their numbers.
func (c cover) named(kinds []coverKind) cover {
	for i, k := range c.chosen {
		c.chosen[i] = kinds[k].id
	}
	slices.Sort(c.chosen)
	c.bound = c.cost
	return c
}
