package takeoff

import (
	"math"

	"plumbhook/geom"
)

// Loose is a part of which pieces touch no other piece of the load.
type Loose struct {
	Part    string
	Pieces  int     // of it
	Gap     float64 // m, the widest to what is nearest, by boxes along the axes
	Nearest string  // the part that is nearest there
}

const (
	looseGap   = 0.010 // m, less is a weld gap or a gasket: common practice, no source
	mostPaired = 3000  // pieces that are looked at by pairs
)

// Loose lists the parts that touch nothing: a wrong corner, a wrong sign or a
// zero too few shows so first. Boxes along the axes are compared, so a part that
// only stands within the box of another is not found. A load of a single piece
// has none, and one of more than 3000 pieces is not looked at.
func (l *Load) Loose() []Loose {
	type one struct {
		part int
		box  geom.Extent
	}
	var all []one
	for i, p := range l.Parts {
		if p.Liquid != nil {
			continue // it is where its host is
		}
		for _, box := range p.boxes(geom.Still()) {
			all = append(all, one{i, box})
		}
	}
	if len(all) < 2 || len(all) > mostPaired {
		return nil
	}
	found := map[int]*Loose{}
	var order []int
	for i, a := range all {
		gap, nearest := math.Inf(1), 0
		for j, b := range all {
			if g := between(a.box, b.box); i != j && g < gap {
				gap, nearest = g, b.part
			}
		}
		if gap <= looseGap {
			continue
		}
		f := found[a.part]
		if f == nil {
			f = &Loose{Part: l.Parts[a.part].Name}
			found[a.part], order = f, append(order, a.part)
		}
		if f.Pieces++; gap > f.Gap {
			f.Gap, f.Nearest = gap, l.Parts[nearest].Name
		}
	}
	var list []Loose
	for _, i := range order {
		list = append(list, *found[i])
	}
	return list
}

// between is how far two boxes are apart, in metres; 0 where they meet.
func between(a, b geom.Extent) float64 {
	var gap geom.Vec
	for i := range gap {
		gap[i] = max(0, a.Min[i]-b.Max[i], b.Min[i]-a.Max[i])
	}
	return gap.Len()
}
