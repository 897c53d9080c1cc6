package rig

import (
	"cmp"
	"math"
	"slices"

	"plumbhook/geom"
)

// Seat is a place where a leg may take hold of the load.
type Seat struct {
	At   geom.Vec // m
	Edge float64  // m, to the edge of the material as far as was looked; +Inf: not asked, as for a lug that is there
}

// Search is what sets of picks are sought for. The legs are level ones: the
// hook plumb over the CG, each leg as long as that takes.
type Search struct {
	CG    geom.Vec
	CGs   []geom.Vec // where else the CG may be
	Seats []Seat
	// Hook returns how high the hook would be for a set, in m as a z, and the
	// tilt in rad that lengths which are not cut for the set would give; false
	// where the legs can't reach.
	Hook func(picks []geom.Vec) (z, tilt float64, ok bool)

	Top        float64 // m, z of the highest point of the load
	Size       float64 // m, of the load: the diagonal of its box
	LeastAngle float64 // rad from horizontal
	Headroom   float64 // m, the most there is over Top; 0: no limit
	MostTilt   float64 // rad
	LeastDrop  float64 // m, how far the CG must hang below the line of two picks
	Apart      float64 // m, how far picks of one set must be apart

	// Wide is how long and broad the load is in m along x and y, for seats that
	// stand on a lattice. Drawn as if it were square, four picks stand at least
	// fourTurn apart around the CG; else two of them are as good as one. Zero for
	// seats that stand anywhere, such as lugs: of those every set is tried.
	Wide [2]float64
}

// Proposal is a set of picks with the figures that it is compared by.
type Proposal struct {
	Seats  []int // of the search, in the order around the CG
	Picks  []geom.Vec
	Marks  Marks
	Score  float64
	Within bool // it keeps the limits of the search, as far as the closed form tells
}

// Marks are the figures by which sets of picks are compared.
type Marks struct {
	Pull     float64 // the greatest tension that one leg can have to carry, over the weight
	Spare    float64 // m, how far the CG may be out beyond its range before a leg goes slack; see spare for two picks
	Tilt     float64 // rad, at worst over the range of the CG
	Headroom float64 // m, hook to the top of the load
	Edge     float64 // m, of the pick that is nearest to an edge
	Uneven   float64 // 0 to 1: the shortest leg is shorter than the longest by that part of it
}

// Score is from 0 to 1, the more the better: the product of six parts, each of
// them 1 at its best,
//
//	(1/3)/pull                    three plumb legs that share evenly
//	spare/(spare + size/10)       the CG may be out by a tenth of the load: 1/2
//	1/(1 + tilt/2°)               2° out of level: 1/2
//	1/(1 + headroom/(4·size))     a hook 4 lengths of the load up: 1/2
//	edge/(edge + 20 mm)           20 mm from the edge: 1/2
//	1/(1 + uneven)                the shortest leg half as long as the longest: 2/3
//
// so that sharing and angle of the legs count for most, and width is worth less
// the more of it there is. It is a convention of this program, to put sets in
// order with; it says nothing of strength.
func (m Marks) Score(size float64) float64 {
	if !(m.Pull > 0) {
		return 0
	}
	score := min(1, 1/(3*m.Pull)) / (1 + m.Tilt/(2*math.Pi/180)) / (1 + max(0, m.Headroom)/(4*size)) / (1 + m.Uneven)
	score *= max(0, m.Spare) / (max(0, m.Spare) + size/10)
	if !math.IsInf(m.Edge, 1) {
		score *= m.Edge / (m.Edge + 0.020)
	}
	return score
}

// fourTurn in rad, see Search; corners of a square are 90° apart.
const fourTurn = 40 * math.Pi / 180

// LevelTolerance in metres is how far picks of one set may be apart in height
// and still be called level.
const LevelTolerance = 0.001

// How many seats are tried together, each with each, so that it stays about
// 10⁵ sets of a number; of more, those that are spread widest.
var mostTogether = map[int]int{2: 400, 3: 80, 4: 40}

// Best returns the best sets of two, three or four picks, best first: as many as
// are asked for, then as many again of the best that are not neighbours of one
// another. The picks of a set stand around the CG in plan; of four, none is
// within the other three.
//
// Every set of the seats is scored in closed form. Where there are more seats
// than can be tried each with each, the best sets are bettered by moving one
// pick at a time to any other seat, as long as that helps. Of seats on a lattice
// (see Search.Wide) only sets that can be marked out square are looked at, unless
// none of those keeps the limits.
func (s Search) Best(number, most int) []Proposal {
	near := s.inReach()
	if s.Wide != [2]float64{} {
		if found := s.regular(near, number, most); len(found) > 0 && found[0].Within {
			return found
		}
	}
	found := s.bestOf(near, number, most)
	if len(found) == 0 && len(near) < len(s.Seats) {
		found = s.bestOf(firstNumbers(len(s.Seats)), number, most)
	}
	return found
}

// regular is Best of the sets that can be marked out square.
func (s Search) regular(seats []int, number, most int) []Proposal {
	found := s.newShortlist(most)
	l := s.newLattice(seats, &found)
	switch number {
	case 2:
		l.twos()
	case 3:
		l.threes()
	case 4:
		l.fours()
	}
	return found.list()
}

// inReach returns the seats from which a leg can keep the limits on angle and
// headroom, by itself or with another at the place that brings the hook highest or
// lowest: no set keeps them from the rest, and of too many seats those are not worth
// a place.
func (s Search) inReach() []int {
	alone := make([]float64, len(s.Seats)) // m, z of the hook; NaN: the leg can't reach
	lowest, highest := -1, -1
	for i := range s.Seats {
		alone[i] = s.hookOver(i)
		if math.IsNaN(alone[i]) {
			continue
		}
		if lowest < 0 || alone[i] < alone[lowest] {
			lowest = i
		}
		if highest < 0 || alone[i] > alone[highest] {
			highest = i
		}
	}
	return slices.DeleteFunc(firstNumbers(len(s.Seats)), func(i int) bool {
		if math.IsNaN(alone[i]) {
			return true
		}
		low, high := alone[i], alone[i]
		for _, with := range []int{lowest, highest} {
			if z := s.hookOver(i, with); !math.IsNaN(z) {
				low, high = min(low, z), max(high, z)
			}
		}
		return s.flattest([]geom.Vec{s.Seats[i].At}, high) < s.LeastAngle-1e-9 || s.Headroom > 0 && low-s.Top > s.Headroom+1e-9
	})
}

// hookOver is how high in m the hook stands over some seats; NaN where their legs
// can't reach.
func (s Search) hookOver(seats ...int) float64 {
	picks := make([]geom.Vec, len(seats))
	for k, i := range seats {
		picks[k] = s.Seats[i].At
	}
	z, _, ok := s.Hook(picks)
	if !ok {
		return math.NaN()
	}
	return z
}

// firstNumbers are those from 0 to n-1.
func firstNumbers(n int) []int {
	all := make([]int, n)
	for i := range all {
		all[i] = i
	}
	return all
}

// bestOf is Best of some of the seats.
func (s Search) bestOf(seats []int, number, most int) []Proposal {
	c := s.newCompass(s.spread(seats, mostTogether[number]))
	found := s.newShortlist(most)
	switch number {
	case 2:
		c.twos(&found)
	case 3:
		c.threes(&found)
	case 4:
		c.fours(&found)
	}
	if len(seats) > mostTogether[number] {
		for _, p := range slices.Clone(found.best[:min(4, len(found.best))]) {
			s.polish(p, seats, &found)
		}
	}
	return found.list()
}

// compass is the seats in the order in which they stand around the CG, and for
// each two of them what sets of more are put together from.
type compass struct {
	search Search
	seats  []int
	turn   [][]float64 // m², twice the area of the triangle CG, i, j: above 0 where j is less than half a turn on
	side   [][]float64 // m, how far the range of the CG stays inside the side from i to j
}

func (s Search) newCompass(seats []int) compass {
	c := compass{search: s}
	way := func(i int) geom.Vec { return s.Seats[i].At.Sub(s.CG) }
	for _, i := range seats {
		if w := way(i); math.Hypot(w[0], w[1]) > 1e-6 { // a pick over the CG has no direction
			c.seats = append(c.seats, i)
		}
	}
	slices.SortStableFunc(c.seats, func(i, j int) int { return cmp.Compare(s.bearing(i), s.bearing(j)) })
	n := len(c.seats)
	c.turn, c.side = make([][]float64, n), make([][]float64, n)
	for i := range n {
		c.turn[i], c.side[i] = make([]float64, n), make([]float64, n)
		for j := range n {
			p, q := way(c.seats[i]), way(c.seats[j])
			c.turn[i][j] = planTurn(p, q)
			c.side[i][j] = s.inside(p, q)
		}
	}
	return c
}

// bearing is the direction in rad in plan from the CG to a seat.
func (s Search) bearing(seat int) float64 {
	way := s.Seats[seat].At.Sub(s.CG)
	return math.Atan2(way[1], way[0])
}

// planTurn is twice the area in m² of the triangle in plan of the CG, p and q.
func planTurn(p, q geom.Vec) float64 { return p[0]*q[1] - p[1]*q[0] }

// inside returns how far in m all places of the CG stay inside the side from p
// to q, both from the CG.
func (s Search) inside(p, q geom.Vec) float64 {
	run := q.Sub(p)
	length := math.Hypot(run[0], run[1])
	if length < 1e-6 {
		return math.Inf(-1)
	}
	least := planTurn(p, q) / length
	for _, at := range s.CGs {
		g := at.Sub(s.CG)
		least = min(least, (run[0]*(g[1]-p[1])-run[1]*(g[0]-p[0]))/length)
	}
	return least
}

// twos tries every pair with the CG between, as near to their line as the tilt
// may be.
func (c compass) twos(found *shortlist) {
	for i := range c.seats {
		for j := range i {
			found.offer(c.search.two(c.seats[j], c.seats[i]))
		}
	}
}

// someTurn in m² tells a turn from what rounding leaves of none.
const someTurn = 1e-9

func (c compass) threes(found *shortlist) {
	n := len(c.seats)
	for i := range n {
		for j := i + 1; j < n; j++ {
			if c.turn[i][j] <= someTurn {
				continue
			}
			for k := j + 1; k < n; k++ {
				if c.turn[j][k] <= someTurn || c.turn[k][i] <= someTurn {
					continue
				}
				spare := min(c.side[i][j], c.side[j][k], c.side[k][i])
				found.offer(c.search.more(spare, c.seats[i], c.seats[j], c.seats[k]))
			}
		}
	}
}

func (c compass) fours(found *shortlist) {
	n := len(c.seats)
	for i := range n {
		for j := i + 1; j < n; j++ {
			if c.turn[i][j] <= someTurn {
				continue
			}
			for k := j + 1; k < n; k++ {
				if c.turn[j][k] <= someTurn || !c.bulges(i, j, k) {
					continue
				}
				for l := k + 1; l < n; l++ {
					if c.turn[k][l] <= someTurn || c.turn[l][i] <= someTurn ||
						!c.bulges(j, k, l) || !c.bulges(k, l, i) || !c.bulges(l, i, j) {
						continue
					}
					spare := min(c.side[i][j], c.side[j][k], c.side[k][l], c.side[l][i])
					found.offer(c.search.more(spare, c.seats[i], c.seats[j], c.seats[k], c.seats[l]))
				}
			}
		}
	}
}

// bulges tells whether the way from i by j to k turns left at j, so that j is
// a corner of the picks and not within them.
func (c compass) bulges(i, j, k int) bool { return c.turn[i][j]+c.turn[j][k]+c.turn[k][i] > someTurn }
