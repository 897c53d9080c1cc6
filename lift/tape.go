package lift

// Tape is where the CG is along one axis of the load, as it is measured with a
// tape: from the edges of the load's own box.
type Tape struct {
	Axis  string
	LowM  float64 // from the edge on the side of the smaller coordinates
	HighM float64 // from the other edge
	LessM float64 // how far it may be nearer to the first edge
	MoreM float64 // how far it may be farther from it
}

// Tapes are the distances from the load's edges to its CG.
func (w Weight) Tapes() []Tape {
	var out []Tape
	for i, axis := range []string{"x", "y", "z"} {
		out = append(out, Tape{axis, w.CGM[i] - w.BoxM.Min[i], w.BoxM.Max[i] - w.CGM[i], w.CGM[i] - w.CGRangeM.Min[i], w.CGRangeM.Max[i] - w.CGM[i]})
	}
	return out
}

// Use is the worst tension of a leg as a part of that in the leg that governs; all
// legs of a set are rated for that one.
func (h Hanging) Use(leg Leg) float64 {
	most := 0.0
	for _, l := range h.Legs {
		most = max(most, l.WorstTensionKN)
	}
	if most == 0 {
		return 0
	}
	return leg.WorstTensionKN / most
}
