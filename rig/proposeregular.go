package rig

import (
	"math"
	"slices"
)

// lattice is seats that stand at the crossings of lines along x and y, as places
// on a load's top do. Sets of them are looked for that a man can mark out square.
type lattice struct {
	search Search
	lines  [2][]float64 // m, ascending
	sides  [2]sides
	mirror [2][][2]int // lines that stand even about the CG, below and above
	at     map[[2]float64]int
	found  *shortlist
}

// sides are the lines below, on and above the CG.
type sides struct{ below, on, above []int }

// mostBeside is how many lines on each side of the CG are tried with each other.
const mostBeside = 13

// onLine in m: lines that are no further apart are one.
const onLine = 1e-6

func (s Search) newLattice(seats []int, found *shortlist) lattice {
	l := lattice{search: s, at: map[[2]float64]int{}, found: found}
	for _, i := range seats {
		at := s.Seats[i].At
		l.at[[2]float64{at[0], at[1]}] = i
		for axis := range l.lines {
			l.lines[axis] = append(l.lines[axis], at[axis])
		}
	}
	for axis := range l.lines {
		slices.Sort(l.lines[axis])
		l.lines[axis] = slices.Compact(l.lines[axis])
		l.sides[axis] = split(l.lines[axis], s.CG[axis])
		for _, below := range l.sides[axis].below {
			for _, above := range l.sides[axis].above {
				if math.Abs(l.lines[axis][below]+l.lines[axis][above]-2*s.CG[axis]) <= onLine {
					l.mirror[axis] = append(l.mirror[axis], [2]int{below, above})
				}
			}
		}
	}
	return l
}

// split sorts lines by side, of each side no more than mostBeside, evenly.
func split(lines []float64, at float64) sides {
	var s sides
	for i, v := range lines {
		switch {
		case math.Abs(v-at) <= onLine:
			s.on = append(s.on, i)
		case v < at:
			s.below = append(s.below, i)
		default:
			s.above = append(s.above, i)
		}
	}
	slices.Reverse(s.above) // the outermost first, on both sides
	s.below, s.above = evenly(s.below), evenly(s.above)
	return s
}

func evenly(list []int) []int {
	if len(list) <= mostBeside {
		return list
	}
	kept := make([]int, mostBeside)
	for i := range kept {
		kept[i] = list[i*len(list)/mostBeside]
	}
	return kept
}

// offer puts seats at crossings to the shortlist; across is 1 where the first of
// each crossing is a line of y.
func (l lattice) offer(across int, crossings ...[2]int) {
	seats := make([]int, len(crossings))
	for i, c := range crossings {
		if across == 1 {
			c[0], c[1] = c[1], c[0]
		}
		seat, ok := l.at[[2]float64{l.lines[0][c[0]], l.lines[1][c[1]]}]
		if !ok {
			return
		}
		seats[i] = seat
	}
	l.found.offer(l.search.set(seats))
}

// twos tries every pair in line with the CG along x or y.
func (l lattice) twos() {
	for across := range 2 {
		for _, on := range l.sides[1-across].on {
			for _, a := range l.sides[across].below {
				for _, b := range l.sides[across].above {
					l.offer(across, [2]int{a, on}, [2]int{b, on})
				}
			}
		}
	}
}

// threes tries every triangle with a side along x or y whose third corner is in
// line with the CG.
func (l lattice) threes() {
	for across := range 2 {
		x, y := l.sides[across], l.sides[1-across]
		for _, a := range x.below {
			for _, b := range x.above {
				for _, on := range y.on {
					for _, front := range y.below {
						for _, back := range y.above {
							l.offer(across, [2]int{a, front}, [2]int{a, back}, [2]int{b, on})
							l.offer(across, [2]int{b, front}, [2]int{b, back}, [2]int{a, on})
						}
					}
				}
			}
		}
	}
}

// fours tries every rectangle along x and y, and every trapezium that is even
// about the CG.
func (l lattice) fours() {
	for _, a := range l.sides[0].below {
		for _, b := range l.sides[0].above {
			for _, front := range l.sides[1].below {
				for _, back := range l.sides[1].above {
					l.offer(0, [2]int{a, front}, [2]int{b, front}, [2]int{b, back}, [2]int{a, back})
				}
			}
		}
	}
	for across := range 2 {
		for _, a := range l.sides[across].below {
			for _, b := range l.sides[across].above {
				for _, m := range l.mirror[1-across] {
					for _, n := range l.mirror[1-across] {
						l.offer(across, [2]int{a, m[0]}, [2]int{b, n[0]}, [2]int{b, n[1]}, [2]int{a, m[1]})
					}
				}
			}
		}
	}
}
