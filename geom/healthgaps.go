package geom

import "math"

// wideGaps are the tolerances, as fractions of the diagonal of the box, that
// are tried to say how wide the gaps of an open mesh are.
var wideGaps = []float64{1e-5, 1e-4, 1e-3}

// afterWelding looks whether an open mesh closes when points on its rims that
// are near each other are taken for one. Where they are as near as rounding
// leaves them it is judged so; where they are not, Gap says how near.
func (h Health) afterWelding(m Mesh, rims []rim) Health {
	size := m.Extent().Diagonal()
	onRim := make([]bool, len(m.Vertices))
	for _, r := range rims {
		onRim[r.low], onRim[r.high] = true, true
	}
	if w, _ := weldSome(m, roundingGap*size, onRim); closes(w) {
		after, _ := examine(w)
		after.Welded = roundingGap * size
		after.VolumeDoubt += math.Abs(after.Volume - h.Volume)
		if len(after.Where) == 0 {
			after.Where = h.Where
		}
		return after
	}
	for _, part := range wideGaps {
		if w, _ := weldSome(m, part*size, onRim); closes(w) {
			h.Gap = part * size
			break
		}
	}
	return h
}

// closes tells whether a mesh has facets and no rims.
func closes(m Mesh) bool {
	table := newEdgeTable(m)
	repeated, _ := table.duplicates()
	return len(table.uses) > 0 && len(newSurvey(table, repeated).rims) == 0
}
