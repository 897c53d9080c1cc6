package rig

import (
	"math"

	"plumbhook/geom"
)

// All here is in closed form, for the load hanging level. With the hook plumb
// over the CG at the height hᵢ over pick i, the pulls Tᵢ along legs of length Lᵢ
// balance the load W where, with μᵢ = Tᵢ/Lᵢ and pᵢ from the CG in plan,
//
//	Σ μᵢ pᵢ = 0    Σ μᵢ hᵢ = W
//
// so that for three legs μᵢ is as the area of the triangle of the CG and the two
// others. Derived here.

// more returns the set of three or four seats, in order around the CG, of whose
// sides the CG keeps at least spare metres inside.
func (s Search) more(spare float64, seats ...int) (Proposal, bool) {
	if len(seats) == 4 && s.Wide != [2]float64{} && !s.fourAround(seats) {
		return Proposal{}, false
	}
	p, z, tilt, ok := s.drawn(seats)
	if !ok {
		return p, false
	}
	lowest, arm := math.Inf(1), z-s.CG[2]
	for _, at := range p.Picks {
		lowest = min(lowest, at[2])
	}
	// A leg goes slack where the CG crosses the plane through the hook and a
	// side of the picks: sooner than in plan where the CG is above them.
	p.Marks.Spare = spare * max(0, arm-s.rise()) / (z - lowest)
	p.Marks.Tilt = tilt + math.Atan2(s.farthest(), arm)
	p.Marks.Pull = s.pull(p.Picks, z)
	return s.finish(p, z), true
}

// fourAround tells whether four seats, in order around the CG, stand apart.
func (s Search) fourAround(seats []int) bool {
	var at [4]float64
	for i, k := range seats {
		way := s.Seats[k].At.Sub(s.CG)
		at[i] = math.Atan2(way[1]/s.Wide[1], way[0]/s.Wide[0])
	}
	for i := range at {
		on := at[(i+1)%4] - at[i]
		if on < 0 {
			on += 2 * math.Pi
		}
		if on < fourTurn {
			return false
		}
	}
	return true
}

// farthest is how far in m in plan the CG may be from its best place.
func (s Search) farthest() float64 {
	far := 0.0
	for _, at := range s.CGs {
		far = max(far, math.Hypot(at[0]-s.CG[0], at[1]-s.CG[1]))
	}
	return far
}

// rise is how far in m the CG may be above its best place.
func (s Search) rise() float64 {
	rise := 0.0
	for _, at := range s.CGs {
		rise = max(rise, at[2]-s.CG[2])
	}
	return rise
}

// two returns the pair of seats. Its spare is half of the least of two ways: of
// the CG along the line to the nearer pick, and up to the line, which alone holds
// the load upright.
func (s Search) two(a, b int) (Proposal, bool) {
	a, b = min(a, b), max(a, b)
	from, to := s.Seats[a].At.Sub(s.CG), s.Seats[b].At.Sub(s.CG)
	run := to.Sub(from)
	length := math.Hypot(run[0], run[1])
	if length < 1e-3 {
		return Proposal{}, false
	}
	along, across := geom.Vec{run[0] / length, run[1] / length}, geom.Vec{-run[1] / length, run[0] / length}
	before, after := -from.Dot(along), to.Dot(along)
	if before <= 1e-6 || after <= 1e-6 || math.Abs(from.Dot(across)) > s.Size/20 {
		return Proposal{}, false
	}
	p, z, tilt, ok := s.drawn([]int{a, b})
	if !ok {
		return p, false
	}
	line := p.Picks[0][2] + (p.Picks[1][2]-p.Picks[0][2])*before/length // m, z of the line over the CG
	way, roll, swing := min(before, after), math.Inf(1), 0.0
	for i := -1; i < len(s.CGs); i++ {
		var g geom.Vec
		if i >= 0 {
			g = s.CGs[i].Sub(s.CG)
		}
		drop := line - s.CG[2] - g[2]
		way, roll = min(way, before+g.Dot(along), after-g.Dot(along)), min(roll, drop)
		swing = max(swing, math.Hypot(math.Atan2(math.Abs(g.Sub(from).Dot(across)), max(drop, 1e-9)), math.Atan2(math.Abs(g.Dot(along)), z-s.CG[2]-g[2])))
	}
	p.Marks.Spare, p.Marks.Tilt = min(way, roll)/2, tilt+swing
	p.Marks.Pull = s.pull(p.Picks, z)
	p = s.finish(p, z)
	p.Within = p.Within && roll >= s.LeastDrop
	return p, roll > 0
}

// drawn begins a set: its picks and the height of its hook.
func (s Search) drawn(seats []int) (p Proposal, z, tilt float64, ok bool) {
	p.Seats, p.Picks, p.Marks.Edge = seats, make([]geom.Vec, len(seats)), math.Inf(1)
	for i, k := range seats {
		p.Picks[i] = s.Seats[k].At
		p.Marks.Edge = min(p.Marks.Edge, s.Seats[k].Edge)
		for j := range i {
			if p.Picks[i].Sub(p.Picks[j]).Len() < max(s.Apart, 1e-3) { // two lugs in one place are one
				return p, 0, 0, false
			}
		}
	}
	z, tilt, ok = s.Hook(p.Picks)
	for _, at := range p.Picks {
		ok = ok && z-at[2] > 1e-6
	}
	return p, z, tilt, ok && z-s.CG[2] > 1e-6
}

// finish scores the set and holds it against the limits.
func (s Search) finish(p Proposal, z float64) Proposal {
	p.Marks.Headroom = z - s.Top
	p.Marks.Uneven = s.uneven(p.Picks, z)
	p.Score = p.Marks.Score(s.Size)
	p.Within = s.Keeps(p.Marks) && s.flattest(p.Picks, z) >= s.LeastAngle-1e-9
	return p
}

// Keeps tells whether a set with such marks keeps the limits on tilt and
// headroom, and the CG stays between the picks.
func (s Search) Keeps(m Marks) bool {
	return m.Spare > 1e-6 && m.Tilt <= s.MostTilt && m.Headroom > 0 && (s.Headroom == 0 || m.Headroom <= s.Headroom+1e-9)
}

// flattest returns the angle of the flattest leg from horizontal, rad.
func (s Search) flattest(picks []geom.Vec, z float64) float64 {
	least := math.Pi / 2
	for _, at := range picks {
		least = min(least, math.Atan2(z-at[2], math.Hypot(at[0]-s.CG[0], at[1]-s.CG[1])))
	}
	return least
}

// uneven returns by what part of the longest leg the shortest is shorter.
func (s Search) uneven(picks []geom.Vec, z float64) float64 {
	shortest, longest := math.Inf(1), 0.0
	for _, at := range picks {
		l := geom.Vec{at[0] - s.CG[0], at[1] - s.CG[1], at[2] - z}.Len()
		shortest, longest = min(shortest, l), max(longest, l)
	}
	return 1 - shortest/longest
}

// pull returns the most that one leg can have to carry, over the weight,
// whichever of four hangs slack: a pair by levers, else the worst of every three
// legs that can carry the load alone.
func (s Search) pull(picks []geom.Vec, z float64) float64 {
	var way [4]geom.Vec // from the CG in plan, and the rise to the hook
	for i, at := range picks {
		way[i] = geom.Vec{at[0] - s.CG[0], at[1] - s.CG[1], z - at[2]}
	}
	if len(picks) == 2 {
		a, b := math.Hypot(way[0][0], way[0][1]), math.Hypot(way[1][0], way[1][1])
		whole := b*way[0][2] + a*way[1][2]
		return max(b*way[0].Len(), a*way[1].Len()) / whole
	}
	most := 0.0
	for i := range picks {
		for j := range i {
			for k := range j {
				most = max(most, pullOfThree(way[k], way[j], way[i]))
			}
		}
	}
	return most
}

// pullOfThree is the greatest pull of three legs over the weight, 0 where the
// CG is not between them.
func pullOfThree(a, b, c geom.Vec) float64 {
	u, v, w := planTurn(b, c), planTurn(c, a), planTurn(a, b)
	const edge = 1e-9 // m²: on a side counts as between, as two of the legs carry it then
	if min(u, v, w) < -edge {
		return 0
	}
	u, v, w = max(0, u), max(0, v), max(0, w)
	whole := u*a[2] + v*b[2] + w*c[2]
	if whole <= 0 {
		return 0
	}
	return max(u*a.Len(), v*b.Len(), w*c.Len()) / whole
}
