package lift

import (
	"math"
	"slices"

	"plumbhook/geom"
	"plumbhook/rig"
	"plumbhook/takeoff"
)

// seat in m is how far round a pick the top must be flat for it to sit there:
// enough for a lug's foot or a shackle. Common practice, no source.
const seat = 0.020

// mostLines is how many lines the lattice of possible picks has each way on
// each side of the CG.
const mostLines = 8

// surface finds the top of the load under a plumb ray.
type surface struct {
	bodies []body
	above  float64 // m, a height over the whole load
}

// body is one copy of a part with the solids cut out of it.
type body struct {
	mesh  geom.Mesh
	cuts  []geom.Mesh
	box   geom.Extent
	given bool // a bought-in weight: it covers what is under it, but is no place for a pick
}

// newSurface makes the meshes of a load, to a chord that is small beside it.
func newSurface(l *takeoff.Load, box geom.Extent) *surface {
	chord := max(box.Diagonal()/4000, 1e-4)
	s := &surface{above: box.Max[2] + 1}
	for _, p := range l.Parts {
		for k, m := range p.Meshes(chord) {
			b := body{mesh: m, box: m.Extent(), given: p.Kind == "weight"}
			for _, c := range p.Cuts {
				b.cuts = append(b.cuts, c.Solid.Mesh(chord).Posed(p.Places[k].After(c.Pose)))
			}
			s.bodies = append(s.bodies, b)
		}
	}
	return s
}

// top is the height of the upper surface at a place in plan, false where there
// is none or where a bought-in part covers it.
func (s *surface) top(x, y float64) (float64, bool) {
	from, down := geom.Vec{x, y, s.above}, geom.Vec{0, 0, -1}
	best, ok := math.Inf(-1), false
	for _, b := range s.bodies {
		if x < b.box.Min[0] || x > b.box.Max[0] || y < b.box.Min[1] || y > b.box.Max[1] || b.box.Max[2] <= best {
			continue
		}
		if depth, hit := b.first(from, down); hit && s.above-depth > best {
			best, ok = s.above-depth, !b.given
		}
	}
	return best, ok
}

// first is how far along the ray the material of a body begins: the start of
// its first stretch inside the mesh that no cut takes away.
func (b body) first(from, dir geom.Vec) (float64, bool) {
	var cuts [][2]float64
	for _, c := range b.cuts {
		cuts = append(cuts, stretches(c.Hits(from, dir))...)
	}
	const hair = 1e-9
	for _, in := range stretches(b.mesh.Hits(from, dir)) {
		at := in[0]
		for moved := true; moved; {
			moved = false
			for _, c := range cuts {
				if c[0] <= at+hair && c[1] > at+hair {
					at, moved = c[1], true
				}
			}
		}
		if at < in[1]-hair {
			return at, true
		}
	}
	return 0, false
}

// stretches pairs the crossings of a closed surface into ways in and out.
func stretches(hits []float64) [][2]float64 {
	var in [][2]float64
	for i := 0; i+1 < len(hits); i += 2 {
		in = append(in, [2]float64{hits[i], hits[i+1]})
	}
	return in
}

// flat is the top at a place if it is level for a seat all round.
func (s *surface) flat(x, y float64) (float64, bool) {
	z, ok := s.top(x, y)
	for _, d := range [][2]float64{{seat, 0}, {-seat, 0}, {0, seat}, {0, -seat}} {
		if !ok {
			return 0, false
		}
		var near float64
		near, ok = s.top(x+d[0], y+d[1])
		ok = ok && math.Abs(near-z) <= rig.LevelTolerance
	}
	return z, ok
}

// lattice lays lines over the load at the places that parts suggest (near
// their sides and through their middles), their mirror images about the CG so
// that even sets can be found, and through the CG itself.
func (s *surface) lattice(cg geom.Vec) rig.Lattice {
	var lines [2][]float64
	for axis := range 2 {
		around := []float64{cg[axis]}
		for _, b := range s.bodies {
			if b.given {
				continue
			}
			low, high := b.box.Min[axis], b.box.Max[axis]
			inset := min(max(0.1*(high-low), 1.5*seat), 0.1)
			for _, v := range []float64{low + inset, (low + high) / 2, high - inset} {
				around = append(around, v, 2*cg[axis]-v)
			}
		}
		lines[axis] = thin(around, cg[axis])
	}
	l := rig.Lattice{X: lines[0], Y: lines[1]}
	tops := map[[2]int]struct {
		z  float64
		ok bool
	}{}
	for i, x := range l.X {
		for j, y := range l.Y {
			t := tops[[2]int{i, j}]
			t.z, t.ok = s.flat(x, y)
			tops[[2]int{i, j}] = t
		}
	}
	l.Top = func(i, j int) (float64, bool) { t := tops[[2]int{i, j}]; return t.z, t.ok }
	return l
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
