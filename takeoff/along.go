package takeoff

import (
	"plumbhook/geom"
	"plumbhook/units"
)

// Span is the weight of one copy of a part along an axis of the load.
type Span struct {
	From, To float64 // m; the same for a weight without a box
	At       float64 // m, its CG
	Mass     units.Mass
}

// Along returns what each copy of the part weighs, from where to where, along
// axis 0 (x), 1 (y) or 2 (z) of the load. Copies of which only the common
// centre is known stand there.
func (p Part) Along(axis int) []Span {
	var out []Span
	mass, first := p.massOfOne(), p.firstCG()
	boxes := p.boxes(geom.Still())
	for i, place := range p.Places {
		box := boxes[i]
		out = append(out, Span{box.Min[axis], box.Max[axis], place.Point(first)[axis], mass})
	}
	return out
}
