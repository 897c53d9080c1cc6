package lift

import (
	"math"

	"plumbhook/geom"
	"plumbhook/rig"
	"plumbhook/takeoff"
)

// seat in m is how far round a pick the top must be flat for it to sit there:
// enough for a lug's foot or a shackle. Common practice, no source.
const seat = 0.020

// surface finds the top of the load under a plumb ray.
type surface struct {
	bodies []body
	chord  float64 // m, to which round solids are cut into facets
}

// body is one copy of a part with the solids cut out of it.
type body struct {
	name   string
	faces  geom.BoxTree
	cuts   []geom.BoxTree
	box    geom.Extent
	given  bool // a bought-in weight or contents: it covers what is under it, but is no place for a pick
	liquid bool // legs may dip into it
}

// newSurface puts the meshes of a load into boxes, to a chord that is small
// beside it.
func newSurface(l *takeoff.Load, box geom.Extent) *surface {
	s := &surface{chord: max(box.Diagonal()/4000, 1e-4)}
	for _, p := range l.Parts {
		for k, m := range p.Meshes(s.chord) {
			b := body{name: p.Name, faces: geom.NewBoxTree(m), given: p.Kind == "weight"}
			b.box = b.faces.Extent()
			for _, c := range p.Cuts {
				b.cuts = append(b.cuts, geom.NewBoxTree(c.Solid.Mesh(s.chord).Posed(p.Places[k].After(c.Pose))))
			}
			s.bodies = append(s.bodies, b)
		}
		for _, one := range p.Liquids() {
			s.bodies = append(s.bodies, contentsBody(p.Name, one.Inside.Extent(one.Pose)))
		}
	}
	return s
}

// contentsBody is the box around contents, whatever their level: nobody rigs below it.
func contentsBody(name string, box geom.Extent) body {
	corners := box.Corners()
	cube, _ := geom.NewBox(1, 1, 1)
	m := geom.Mesh{Vertices: corners[:], Faces: cube.Mesh(0).Faces}
	return body{name: name, faces: geom.NewBoxTree(m), box: box, given: true, liquid: true}
}

// top is the height of the upper surface at a place in plan, false where there
// is none or where a bought-in part covers it.
func (s *surface) top(x, y float64) (float64, bool) {
	best, ok := math.Inf(-1), false
	for i := range s.bodies {
		b := &s.bodies[i]
		if x < b.box.Min[0] || x > b.box.Max[0] || y < b.box.Min[1] || y > b.box.Max[1] || b.box.Max[2] <= best {
			continue
		}
		if z, hit := b.first(x, y); hit && z > best {
			best, ok = z, !b.given
		}
	}
	return best, ok
}

// first is the height at which the material of a body begins under a plumb ray:
// the top of its first stretch inside the mesh that no cut takes away.
func (b *body) first(x, y float64) (float64, bool) {
	inside := b.faces.Column(x, y)
	if len(b.cuts) == 0 {
		if len(inside) == 0 {
			return 0, false
		}
		return inside[0][0], true
	}
	var cuts [][2]float64
	for _, c := range b.cuts {
		cuts = append(cuts, c.Column(x, y)...)
	}
	const hair = 1e-9
	for _, in := range inside {
		at := in[0]
		for moved := true; moved; {
			moved = false
			for _, c := range cuts {
				if c[0] >= at-hair && c[1] < at-hair {
					at, moved = c[1], true
				}
			}
		}
		if at > in[1]+hair {
			return at, true
		}
	}
	return 0, false
}

// flat is the top at a place if it is level for a seat all round.
func (s *surface) flat(x, y float64) (float64, bool) {
	z, ok := s.top(x, y)
	if !ok {
		return 0, false
	}
	if !s.ring(x, y, z, seat/2, rig.LevelTolerance) || !s.ring(x, y, z, seat, rig.LevelTolerance) {
		return 0, false
	}
	return z, true
}

// The way to the nearest edge is looked for on rings a seat apart, out to the
// last. A hole smaller than a seat may be missed beyond the first.
const ringsMost = 5

// edge returns the way in m from a place of the top at height z to the nearest
// edge that was found, at most that to the outermost ring. It is looked for along
// 64 rays within the first ring that meets one: to a straight edge it is at most
// 0.2 % too long.
func (s *surface) edge(x, y, z float64) float64 {
	for ring := 1; ring <= ringsMost; ring++ {
		r := float64(ring) * seat
		if s.clear(x, y, z, r) {
			continue
		}
		least := r
		for _, d := range planRays(64) {
			low, high := r-seat, least
			if s.goesOn(x+high*d[0], y+high*d[1], z, slopeOf(high)) {
				continue
			}
			for high-low > 1e-4 {
				if m := (low + high) / 2; s.goesOn(x+m*d[0], y+m*d[1], z, slopeOf(m)) {
					low = m
				} else {
					high = m
				}
			}
			least = high
		}
		return least
	}
	return ringsMost * seat
}

// slopeOf is how far in m the top may rise or fall on a way: 1 in 10.
func slopeOf(way float64) float64 { return rig.LevelTolerance + way/10 }

// clear tells whether the top goes on, at no more than a slope of 1 in 10, on a
// ring round a place.
func (s *surface) clear(x, y, z, radius float64) bool {
	return s.ring(x, y, z, radius, slopeOf(radius))
}

// planRays are so many directions in plan.
func planRays(n int) [][2]float64 {
	out := make([][2]float64, n)
	for i := range out {
		sin, cos := math.Sincos(2 * math.Pi * float64(i) / float64(n))
		out[i] = [2]float64{cos, sin}
	}
	return out
}

// goesOn tells whether there is a top at a place, within so many metres of z.
func (s *surface) goesOn(x, y, z, within float64) bool {
	near, ok := s.top(x, y)
	return ok && math.Abs(near-z) <= within
}

// ring tells whether the top goes on all round a place, within so many metres
// of z. It is looked at 16 times, or a seat apart on a wide ring.
func (s *surface) ring(x, y, z, radius, within float64) bool {
	for _, d := range planRays(max(16, int(math.Ceil(2*math.Pi*radius/seat)))) {
		if !s.goesOn(x+radius*d[0], y+radius*d[1], z, within) {
			return false
		}
	}
	return true
}

// obstacles are the bodies as legs may run into them. Cuts are not taken off,
// which is on the safe side.
func (s *surface) obstacles() rig.Obstacles {
	var parts []rig.BoxedObstacle
	for _, b := range s.bodies {
		if b.liquid {
			continue
		}
		parts = append(parts, rig.BoxedObstacle{Name: b.name, Faces: b.faces, Chord: s.chord})
	}
	return rig.ObstaclesOf(parts)
}
