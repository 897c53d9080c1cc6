package rig

import (
	"math"
	"slices"

	"plumbhook/geom"
)

// Lattice is where picks may go: places at the crossings of lines x = X[i] and
// y = Y[j], in metres.
type Lattice struct {
	X, Y []float64 // ascending
	// Top returns the height in metres of the load's upper surface there, and
	// false where there is none that a pick could sit on.
	Top func(i, j int) (z float64, ok bool)
}

// Proposal is a set of picks on one level.
type Proposal struct {
	Picks []geom.Vec
	Score float64 // m, see Propose
	Reach float64 // m, level way from the CG to the nearest side of the picks; along the line for two
	Share float64 // of the weight: the most that one pick can have to carry, whichever leg is slack
}

// Propose returns the best four, three and two picks on the lattice, best
// first, at most one of each number. All picks of a set are at one height with
// the CG between them, and none is further than reach metres from the CG's
// plumb line in plan (which keeps angle and headroom); reach 0 sets no limit.
//
// The score is the way that the CG may be out before it leaves the picks,
// divided by the greatest share that one pick can have to carry. For two picks
// the way is no more than the CG lies below them, since only that holds the
// load upright, and counts half; pairs with the CG above them are not
// proposed. The score is a convention of this program: it prefers wide, even
// sets.
func Propose(cg geom.Vec, on Lattice, reach float64) []Proposal {
	s := search{cg: cg, on: on, reach: reach}
	s.x = split(on.X, cg[0])
	s.y = split(on.Y, cg[1])
	s.fours()
	s.threes()
	s.twos()
	found := slices.DeleteFunc([]Proposal{s.best[4], s.best[3], s.best[2]}, func(p Proposal) bool { return p.Picks == nil })
	slices.SortStableFunc(found, func(a, b Proposal) int {
		switch {
		case a.Score > b.Score:
			return -1
		case a.Score < b.Score:
			return 1
		}
		return 0
	})
	return found
}

// LevelTolerance in metres is how far picks of one set may be apart in height
// and still be called level.
const LevelTolerance = 0.001

// search holds what Propose has found so far.
type search struct {
	cg    geom.Vec
	on    Lattice
	reach float64
	x, y  sides
	best  [5]Proposal // by number of picks
}

// sides are the lines of the lattice below, on and above the CG.
type sides struct{ below, on, above []int }

func split(lines []float64, at float64) sides {
	var s sides
	for i, v := range lines {
		switch {
		case math.Abs(v-at) <= 1e-6:
			s.on = append(s.on, i)
		case v < at:
			s.below = append(s.below, i)
		default:
			s.above = append(s.above, i)
		}
	}
	return s
}

// place is the pick at a crossing, if there is one within reach.
func (s *search) place(i, j int) (geom.Vec, bool) {
	z, ok := s.on.Top(i, j)
	p := geom.Vec{s.on.X[i], s.on.Y[j], z}
	if s.reach > 0 && math.Hypot(p[0]-s.cg[0], p[1]-s.cg[1]) > s.reach {
		return p, false
	}
	return p, ok
}

// set gathers picks on one level; nil where one is missing or off the level.
func (s *search) set(crossings ...[2]int) []geom.Vec {
	picks := make([]geom.Vec, 0, len(crossings))
	for _, c := range crossings {
		p, ok := s.place(c[0], c[1])
		if !ok || len(picks) > 0 && math.Abs(p[2]-picks[0][2]) > LevelTolerance {
			return nil
		}
		picks = append(picks, p)
	}
	return picks
}

// fours tries every rectangle along the axes that has the CG inside.
func (s *search) fours() {
	for _, left := range s.x.below {
		for _, right := range s.x.above {
			for _, front := range s.y.below {
				for _, back := range s.y.above {
					s.offer(s.set([2]int{left, front}, [2]int{right, front}, [2]int{right, back}, [2]int{left, back}))
				}
			}
		}
	}
}

// threes tries every triangle with one side along an axis and its third corner
// in line with the CG.
func (s *search) threes() {
	for _, a := range s.x.below {
		for _, b := range s.x.above {
			for _, on := range s.x.on {
				for _, front := range s.y.below {
					for _, back := range s.y.above {
						s.offer(s.set([2]int{a, front}, [2]int{b, front}, [2]int{on, back}))
						s.offer(s.set([2]int{b, back}, [2]int{a, back}, [2]int{on, front}))
					}
				}
			}
			for _, on := range s.y.on {
				for _, front := range s.y.below {
					for _, back := range s.y.above {
						s.offer(s.set([2]int{a, front}, [2]int{b, on}, [2]int{a, back}))
						s.offer(s.set([2]int{b, back}, [2]int{a, on}, [2]int{b, front}))
					}
				}
			}
		}
	}
}

// twos tries every pair in line with the CG along an axis.
func (s *search) twos() {
	for _, j := range s.y.on {
		for _, a := range s.x.below {
			for _, b := range s.x.above {
				s.offer(s.set([2]int{a, j}, [2]int{b, j}))
			}
		}
	}
	for _, i := range s.x.on {
		for _, a := range s.y.below {
			for _, b := range s.y.above {
				s.offer(s.set([2]int{i, a}, [2]int{i, b}))
			}
		}
	}
}

// offer scores a set and keeps it if it is the best of its number.
func (s *search) offer(picks []geom.Vec) {
	if picks == nil {
		return
	}
	p := Proposal{Picks: picks, Reach: clearance(picks, s.cg)}
	if p.Reach*3 <= s.best[len(picks)].Score { // no pick carries less than a third
		return
	}
	p.Share = greatestShare(picks, s.cg)
	p.Score = p.Reach / p.Share
	if len(picks) == 2 {
		p.Score = min(p.Reach, picks[0][2]-s.cg[2]) / p.Share / 2
	}
	if p.Score > s.best[len(picks)].Score*(1+1e-9) {
		s.best[len(picks)] = p
	}
}

// clearance is the level way in metres from the CG to the nearest side of the
// polygon of picks; for two picks, to the nearer of them.
func clearance(picks []geom.Vec, cg geom.Vec) float64 {
	near := math.Inf(1)
	if len(picks) == 2 {
		for _, p := range picks {
			near = min(near, math.Hypot(p[0]-cg[0], p[1]-cg[1]))
		}
		return near
	}
	for i, p := range picks {
		q := picks[(i+1)%len(picks)]
		dx, dy := q[0]-p[0], q[1]-p[1]
		near = min(near, (dx*(cg[1]-p[1])-dy*(cg[0]-p[0]))/math.Hypot(dx, dy))
	}
	return near
}

// greatestShare is the most of the weight that one pick can have to carry
// while the load hangs level: of all sets of two or three picks that can carry
// it alone, by the levers of each.
func greatestShare(picks []geom.Vec, cg geom.Vec) float64 {
	pull := make([]geom.Vec, len(picks))
	taut := make([]bool, len(picks))
	for i, p := range picks {
		pull[i] = geom.Vec{p[0] - cg[0], p[1] - cg[1], 1}
		taut[i] = true
	}
	most := 0.0
	for _, v := range anyLegSlack(pull, taut, Up) {
		most = max(most, v)
	}
	return most
}
