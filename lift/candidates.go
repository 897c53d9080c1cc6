package lift

import (
	"cmp"
	"math"
	"slices"

	"plumbhook/geom"
	"plumbhook/rig"
	"plumbhook/takeoff"
)

// mostLines is how many lines the lattice of possible picks has each way on
// each side of the CG; mostOfGrid, how many lines each way a stated grid may have.
const (
	mostLines  = 12
	mostOfGrid = 100
)

// seats are where picks may be: the lugs of the load file, else places on the
// load's top, at the crossings of lines along x and y. The names are those of
// the lugs; places on the top have none.
func seats(c takeoff.Candidates, s *surface, cg geom.Vec) (found []rig.Seat, names []string) {
	if len(c.Lugs) > 0 {
		for _, lug := range c.Lugs {
			found, names = append(found, rig.Seat{At: lug.At, Edge: math.Inf(1)}), append(names, lug.Name)
		}
		return found, names
	}
	lines := s.lines(cg, c.Edge)
	if c.Grid > 0 {
		lines = s.grid(c.Grid, cg)
	}
	for _, x := range lines[0] {
		for _, y := range lines[1] {
			z, ok := s.flat(x, y)
			if !ok || c.Edge > 0 && !s.keepsOff(x, y, z, c.Edge) {
				continue
			}
			found = append(found, rig.Seat{At: geom.Vec{x, y, z}, Edge: s.edge(x, y, z)})
		}
	}
	return found, nil
}

// keepsOff tells whether a place is so far in m from every edge: on rings no
// farther apart than a seat, out to that.
func (s *surface) keepsOff(x, y, z, edge float64) bool {
	const hair = 1e-6 // m: a place just that far in from an edge keeps off it
	rings := math.Ceil(min(edge/seat, 50))
	for k := rings; k >= 1; k-- {
		if !s.clear(x, y, z, edge*k/rings-hair) {
			return false
		}
	}
	return true
}

// grid lays lines a step apart, counted from the datum, and one through the CG
// so that two picks can have it between them. More lines than mostOfGrid are
// thinned: every second, every third.
func (s *surface) grid(step float64, cg geom.Vec) (lines [2][]float64) {
	for axis := range lines {
		low, high := s.reach(axis)
		if low > high {
			continue
		}
		every := step * max(1, math.Ceil((high-low)/step/mostOfGrid))
		for n := math.Ceil(low / every); n*every <= high; n++ {
			lines[axis] = append(lines[axis], n*every)
		}
		lines[axis] = append(lines[axis], cg[axis])
		slices.Sort(lines[axis])
		lines[axis] = slices.CompactFunc(lines[axis], func(a, b float64) bool { return math.Abs(b-a) < 1e-6 })
	}
	return lines
}

// reach is how far along an axis there is something to pick up by; from +Inf to
// -Inf where there is nothing.
func (s *surface) reach(axis int) (low, high float64) {
	low, high = math.Inf(1), math.Inf(-1)
	for _, b := range s.bodies {
		if !b.given {
			low, high = min(low, b.box.Min[axis]), max(high, b.box.Max[axis])
		}
	}
	return low, high
}

// lines lays lines over the load at the places that parts suggest (near their
// sides and through their middles) and at the edges of the top, their mirror
// images about the CG so that even sets can be found, through the CG itself, and
// on each side of it at each quarter of the way out.
func (s *surface) lines(cg geom.Vec, edge float64) (lines [2][]float64) {
	for axis := range lines {
		around := []float64{cg[axis]}
		add := func(v float64) { around = append(around, v, 2*cg[axis]-v) }
		for _, b := range s.bodies {
			if b.given {
				continue
			}
			low, high := b.box.Min[axis], b.box.Max[axis]
			in := insetOf(high-low, edge)
			add(low + in)
			add((low + high) / 2)
			add(high - in)
		}
		low, high := s.reach(axis)
		edges := s.edges(axis, cg)
		slices.Sort(edges)
		for i, e := range edges {
			in := insetOf(high-low, edge)
			add(e - in)
			add(e + in)
			if i > 0 && e-edges[i-1] < 2*in {
				add((e + edges[i-1]) / 2) // along the middle of what is narrow, such as a rim
			}
		}
		if in := insetOf(high-low, edge); low+in < cg[axis] && cg[axis] < high-in {
			for quarter := 1.0; quarter <= 4; quarter++ {
				add(cg[axis] + (high-in-cg[axis])*quarter/4)
				add(cg[axis] + (low+in-cg[axis])*quarter/4)
			}
		}
		lines[axis] = thin(around, cg[axis])
	}
	return lines
}

// insetOf is how far in m from an edge a line is laid: as stated, else a tenth of
// the way across but no more than 100 mm.
func insetOf(across, stated float64) float64 {
	if stated > 0 {
		return stated
	}
	return min(max(0.1*across, 1.5*seat), 0.1)
}

// How the edges of the top are looked for: along so many rows, each in so many
// steps, and how many edges are kept.
const (
	scanRows  = 12
	scanSteps = 200
	mostEdges = 6
)

// edges are the places along an axis where the top ends or steps, those that
// most rows meet in the same place: the straight ones.
func (s *surface) edges(axis int, cg geom.Vec) []float64 {
	across := 1 - axis
	low, high := s.reach(axis)
	from, to := s.reach(across)
	if low > high {
		return nil
	}
	rows := []float64{cg[across]}
	for i := range scanRows {
		rows = append(rows, from+(to-from)*(float64(i)+0.5)/scanRows)
	}
	var all []float64
	for _, row := range rows {
		all = append(all, s.breaks(axis, row, low, high)...)
	}
	slices.Sort(all)
	type edge struct {
		at   float64
		rows int
	}
	var found []edge
	for i, at := range all {
		if i > 0 && at-all[i-1] < 1e-3 {
			found[len(found)-1].rows++
			continue
		}
		found = append(found, edge{at, 1})
	}
	slices.SortStableFunc(found, func(a, b edge) int { return cmp.Compare(b.rows, a.rows) })
	var kept []float64
	for _, e := range found[:min(mostEdges, len(found))] {
		kept = append(kept, e.at)
	}
	return kept
}

// breaks are the places along a row where the top ends or steps.
func (s *surface) breaks(axis int, row, low, high float64) []float64 {
	look := func(v float64) (float64, bool) {
		at := [2]float64{row, row}
		at[axis] = v
		return s.top(at[0], at[1])
	}
	step := (high - low) / scanSteps
	alike := func(a, b float64, okA, okB bool, way float64) bool {
		return okA == okB && (!okA || math.Abs(a-b) <= rig.LevelTolerance+way) // no steeper than 45°
	}
	var found []float64
	before, had := look(low - step/2)
	for i := range scanSteps + 1 {
		a, b := low+(float64(i)-0.5)*step, low+(float64(i)+0.5)*step
		z, has := look(b)
		if !alike(before, z, had, has, step) {
			for begin := a; b-a > 1e-9; {
				middle := (a + b) / 2
				if m, ok := look(middle); alike(before, m, had, ok, middle-begin) {
					a = middle
				} else {
					b = middle
				}
			}
			found = append(found, (a+b)/2)
		}
		before, had = z, has
	}
	return found
}

// thin sorts lines, drops those within a millimetre of another, and keeps at
// most mostLines on each side of the CG, the outermost among them.
func thin(lines []float64, cg float64) []float64 {
	slices.Sort(lines)
	var below, above []float64
	for _, v := range lines {
		switch {
		case v < cg-1e-3 && (len(below) == 0 || v-below[len(below)-1] > 1e-3):
			below = append(below, v)
		case v > cg+1e-3 && (len(above) == 0 || v-above[len(above)-1] > 1e-3):
			above = append(above, v)
		}
	}
	slices.Reverse(above) // outermost first, as below is
	below, above = some(below), some(above)
	slices.Reverse(above)
	return append(append(below, cg), above...)
}

// some keeps mostLines of a list, evenly through it, the first always.
func some(list []float64) []float64 {
	if len(list) <= mostLines {
		return list
	}
	kept := make([]float64, mostLines)
	for i := range kept {
		kept[i] = list[i*len(list)/mostLines]
	}
	return kept
}
