package geom

import "math"

// Candidate is what a mesh comes to if its file was drawn in a unit.
type Candidate struct {
	Unit   string  // mm, cm, m, in, ft
	Metres float64 // in one unit
	Size   Vec     // of the box along x, y and z, m
	Volume float64 // m³, as the facets add it up, without its sign
}

// UnitCandidates returns what a mesh, in its file's own unit, comes to in each
// of the units that drawings are made in. It chooses none: a file without a
// unit has none, and in inches the same part is 16 387 times as heavy as in
// millimetres. The planner compares the sizes with the drawing.
//
// Source: inch and foot are exact, International yard and pound agreement 1959.
func UnitCandidates(m Mesh) []Candidate {
	size, volume := m.Extent().Size(), enclosed(m)
	var list []Candidate
	for _, unit := range []struct {
		name   string
		metres float64
	}{{"mm", 0.001}, {"cm", 0.01}, {"m", 1}, {"in", 0.0254}, {"ft", 0.3048}} {
		list = append(list, candidateIn(size, volume, unit.name, unit.metres))
	}
	return list
}

// CandidateIn returns what a mesh comes to in one unit of so many metres.
func CandidateIn(m Mesh, unit string, metres float64) Candidate {
	return candidateIn(m.Extent().Size(), enclosed(m), unit, metres)
}

func candidateIn(size Vec, volume float64, unit string, metres float64) Candidate {
	return Candidate{unit, metres, size.Mul(metres), volume * metres * metres * metres}
}

// enclosed is the volume of a mesh without its sign.
func enclosed(m Mesh) float64 { return math.Abs(m.MomentsAbout(m.Extent().Center()).Volume) }
