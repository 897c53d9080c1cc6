package rig

import (
	"cmp"
	"maps"
	"math"
	"slices"

	"plumbhook/geom"
)

// shortlist keeps the best sets that it is offered.
type shortlist struct {
	most  int
	cell  float64            // m
	best  []Proposal         // best first, no more than most
	apart map[cells]Proposal // the best whose picks are in the same cells, so that neighbours are one
}

// cells are the cells of space that the picks of a set are in, in order.
type cells [4][3]int32

func (s Search) newShortlist(most int) shortlist {
	return shortlist{most: most, cell: s.Size / 8, apart: map[cells]Proposal{}}
}

// offer takes a set, if it is one.
func (l *shortlist) offer(p Proposal, ok bool) {
	if !ok {
		return
	}
	key := l.cellsOf(p.Picks)
	if known, ok := l.apart[key]; !ok || Better(p, known) < 0 {
		l.apart[key] = p
	}
	if len(l.best) == l.most && Better(p, l.best[l.most-1]) >= 0 {
		return
	}
	at, again := slices.BinarySearchFunc(l.best, p, Better)
	if again {
		return // met again on another way
	}
	if len(l.best) == l.most {
		l.best = l.best[:l.most-1]
	}
	l.best = slices.Insert(l.best, at, p)
}

func (l *shortlist) cellsOf(picks []geom.Vec) (key cells) {
	for i, p := range picks {
		for k, x := range p {
			key[i][k] = int32(math.Floor(min(max(x/l.cell, -1e9), 1e9)))
		}
	}
	slices.SortFunc(key[:len(picks)], func(a, b [3]int32) int { return slices.Compare(a[:], b[:]) })
	return key
}

// list returns the best, then the best of those apart that are not among them.
func (l *shortlist) list() []Proposal {
	out := slices.Clone(l.best)
	others := slices.SortedFunc(maps.Values(l.apart), Better)
	for _, p := range others {
		if len(out) == 2*l.most {
			break
		}
		if _, among := slices.BinarySearchFunc(l.best, p, Better); !among {
			out = append(out, p)
		}
	}
	return out
}

// Better puts sets in order: those that keep the limits first, then by score to
// nine digits, so that rounding decides nothing, then by place.
func Better(a, b Proposal) int {
	if a.Within != b.Within {
		if a.Within {
			return -1
		}
		return 1
	}
	if c := cmp.Compare(nineDigits(b.Score), nineDigits(a.Score)); c != 0 {
		return c
	}
	return slices.Compare(a.Seats, b.Seats)
}

func nineDigits(x float64) float64 { return math.Round(x * 1e9) }

// polish moves one pick of a set at a time to the seat that is best for it, as
// long as that betters the set.
func (s Search) polish(p Proposal, among []int, found *shortlist) {
	for better := true; better; {
		better = false
		for i := range p.Seats {
			for _, k := range among {
				seats := slices.Clone(p.Seats)
				if slices.Contains(seats, k) {
					continue
				}
				seats[i] = k
				if q, ok := s.set(seats); ok && nineDigits(q.Score) > nineDigits(p.Score) && (q.Within || !p.Within) {
					p, better = q, true
				}
			}
		}
	}
	found.offer(p, true)
}

// set scores seats in any order, false where the CG is not between them.
func (s Search) set(seats []int) (Proposal, bool) {
	if len(seats) == 2 {
		return s.two(seats[0], seats[1])
	}
	slices.SortStableFunc(seats, func(i, j int) int { return cmp.Compare(s.bearing(i), s.bearing(j)) })
	var ways [4]geom.Vec
	n := len(seats)
	for i, k := range seats {
		ways[i] = s.Seats[k].At.Sub(s.CG)
	}
	spare := math.Inf(1)
	for i := range n {
		p, q, r := ways[i], ways[(i+1)%n], ways[(i+2)%n]
		if planTurn(p, q) <= someTurn || planTurn(p, q)+planTurn(q, r)+planTurn(r, p) <= someTurn {
			return Proposal{}, false
		}
	}
	for i := range n {
		spare = min(spare, s.inside(ways[i], ways[(i+1)%n]))
	}
	return s.more(spare, seats...)
}

// spread returns at most so many of the seats, all if there are no more: the one
// farthest from the CG in plan, then again and again the one farthest from all
// that are taken.
func (s Search) spread(seats []int, most int) []int {
	if len(seats) <= most {
		return seats
	}
	near := make([]float64, len(seats)) // m, to the nearest that is taken
	next := 0
	for i, k := range seats {
		near[i] = math.Inf(1)
		if planLength(s.Seats[k].At.Sub(s.CG)) > planLength(s.Seats[seats[next]].At.Sub(s.CG)) {
			next = i
		}
	}
	var taken []int
	for len(taken) < most {
		taken = append(taken, seats[next])
		last := s.Seats[seats[next]].At
		for i, k := range seats {
			near[i] = min(near[i], s.Seats[k].At.Sub(last).Len())
			if near[i] > near[next] {
				next = i
			}
		}
	}
	return taken
}

// planLength is the level length of v.
func planLength(v geom.Vec) float64 { return math.Hypot(v[0], v[1]) }
