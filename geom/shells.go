package geom

import (
	"math"
	"slices"
)

// Shells returns the closed surfaces that a mesh consists of, each as a mesh
// of its own, in the order of their first facets. Surfaces that are parted by
// a double wall, or close only together, are one; surfaces that are not closed
// are left out, and so are facets that repeat another.
//
// A shell that faces inward within one that faces outward is the wall of a
// void and has a negative volume, so the volumes of all shells add up to that
// of the mesh. Equal vertices count as one, without tolerance.
func Shells(m Mesh) []Mesh {
	m = welded(m)
	table := newEdgeTable(m)
	repeated, _ := table.duplicates()
	closed := newSurvey(table, repeated).closedShells(m.Extent().Center())
	builders := make([]*meshBuilder, len(closed.list))
	for i := range m.Faces {
		n := closed.of[i]
		if n < 0 {
			continue
		}
		if builders[n] == nil {
			builders[n] = newMeshBuilder()
		}
		a, b, c := m.Triangle(i)
		builders[n].add([3]Vec{a, b, c})
	}
	meshes := make([]Mesh, len(builders))
	for i, b := range builders {
		meshes[i] = b.mesh()
	}
	return meshes
}

// readings returns what the shells fill if each place counts once, so that a
// shell in the material of another adds nothing; and if every second surface
// on the way inward bounds a hollow. The sense is −1 for a mesh that is inside
// out as a whole.
//
// A shell of volume v that n others wind round changes the count of its inside
// from n to n ± 1, and the volume by v times what that change means.
func (s shells) readings(sense int) (solid, hollow float64) {
	for _, shell := range s.list {
		before := shell.winding * sense
		after := before + sense
		if shell.volume < 0 {
			after = before - sense
		}
		volume := math.Abs(shell.volume)
		solid += volume * (oneIf(after > 0) - oneIf(before > 0))
		hollow += volume * (oneIf(after%2 != 0) - oneIf(before%2 != 0))
	}
	return solid, hollow
}

func oneIf(yes bool) float64 {
	if yes {
		return 1
	}
	return 0
}

// sums returns the volumes of all shells added up, and added up without their
// signs, those that enclose nothing left out.
func (s shells) sums(size float64) (signed, gross float64) {
	for _, shell := range s.list {
		signed += shell.volume
		if !isFlat(shell.volume, shell.area, size) {
			gross += math.Abs(shell.volume)
		}
	}
	return signed, gross
}

const (
	// nearlyCancelled is how small a part of what its shells enclose may be
	// left of a mesh before the planner is told.
	nearlyCancelled = 1e-3
	// leastOverlap is the part of the volume that surfaces may have in common
	// by rounding.
	leastOverlap = 1e-6
	// harmlessOverlap is the part of the volume below which an overlap is told
	// but lets the mesh be weighed: less than the weight of its paint.
	harmlessOverlap = 5e-4
)

// judgeReadings says what the mesh may mean where shells lie in one another,
// where they overlap in part, or where their volumes cancel.
func (h *Health) judgeReadings(s shells, m Mesh, repeated []bool, box Extent) {
	sense := 1
	if h.Volume < 0 {
		sense = -1
	}
	signed, gross := s.sums(box.Diagonal())
	if math.Abs(h.Volume) < nearlyCancelled*gross {
		h.Gross = gross
	}
	solid, hollow := s.readings(sense)
	rest := math.Abs(h.Volume) - signed*float64(sense) // of shells that are not closed, and facets that are there twice
	if h.NestedShells > 0 {
		h.AsSolid, h.AsHollow = rest+solid, rest+hollow
		h.VolumeDoubt += math.Abs(h.Volume) - min(h.AsSolid, h.AsHollow)
	}
	if h.Closed() && !h.Flat {
		h.judgeOverlap(without(m, repeated), box, solid)
	}
}

// without returns the mesh without the facets that are marked.
func without(m Mesh, marked []bool) Mesh {
	if !slices.Contains(marked, true) {
		return m
	}
	left := Mesh{Vertices: m.Vertices, distinct: m.distinct}
	for i, f := range m.Faces {
		if !marked[i] {
			left.Faces = append(left.Faces, f)
		}
	}
	return left
}

// judgeOverlap looks for surfaces that pass through each other or themselves:
// there the space that is filled is not what the shells come to one by one.
func (h *Health) judgeOverlap(m Mesh, box Extent, solid float64) {
	volume := h.Volume
	if h.Duplicate > 0 { // they were left out
		volume = m.MomentsAbout(box.Center()).Volume
	}
	o := overlapIn(m, box, volume, overlapLines)
	off := math.Abs(o.Union - solid)
	tolerance := leastOverlap * o.Sum
	if math.Abs(solid-o.Sum) > tolerance { // nested shells are in the sample too, with its error
		tolerance = max(4*o.Error, harmlessOverlap*o.Sum)
	}
	if off <= tolerance {
		return
	}
	h.Overlap = o
	if h.overlaps() && h.NestedShells > 0 { // it only seemed so from the point that was looked at
		h.VolumeDoubt -= math.Abs(h.Volume) - min(h.AsSolid, h.AsHollow)
		h.NestedShells, h.AsSolid, h.AsHollow = 0, 0, 0
	}
	h.VolumeDoubt += math.Abs(o.Sum-o.Union) + 3*o.Error
	if len(h.Where) == 0 {
		h.Where = []Vec{o.At}
	}
}

// overlaps tells whether an overlap was found that matters to the weight.
func (h Health) overlaps() bool {
	return math.Abs(h.Overlap.Sum-h.Overlap.Union) > harmlessOverlap*h.Overlap.Sum
}
