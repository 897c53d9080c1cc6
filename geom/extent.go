package geom

// Extent is a box along the axes that something fits in. The zero value is
// the single point at the origin.
type Extent struct{ Min, Max Vec } // m

// Center returns the middle of the box.
func (e Extent) Center() Vec {
	return e.Min.Add(e.Max).Mul(0.5)
}

// Size returns the lengths of the box along x, y and z.
func (e Extent) Size() Vec {
	return e.Max.Sub(e.Min)
}

// Diagonal returns the distance between opposite corners: "the size" that
// tolerances are a fraction of.
func (e Extent) Diagonal() float64 {
	return e.Size().Len()
}

// Union returns the smallest box that holds both.
func (e Extent) Union(f Extent) Extent {
	for i := range e.Min {
		e.Min[i] = min(e.Min[i], f.Min[i])
		e.Max[i] = max(e.Max[i], f.Max[i])
	}
	return e
}

// Corners returns the eight corners. Bits 0, 1 and 2 of a corner's number say
// whether it is at the greatest (1) or least (0) x, y and z: corner 0 is Min,
// corner 1 differs from it in x, 2 in y, 4 in z, and corner 7 is Max.
func (e Extent) Corners() [8]Vec {
	var corners [8]Vec
	for n := range corners {
		corners[n] = e.Min
		for i := range axes {
			if n&(1<<i) != 0 {
				corners[n][i] = e.Max[i]
			}
		}
	}
	return corners
}

// ExtentOf returns the box along the outer axes that the solid s in pose p
// just fits in: exact for curved solids too, as it asks the solid how far it
// reaches.
func ExtentOf(s Solid, p Pose) Extent {
	var e Extent
	back := p.Turn.Transpose()
	for i, axis := range axes {
		own := back.Mul3x1(axis)
		e.Max[i] = p.Move[i] + s.Reach(own)
		e.Min[i] = p.Move[i] - s.Reach(own.Mul(-1))
	}
	return e
}
