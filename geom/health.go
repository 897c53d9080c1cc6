package geom

import "math"

const mostPlaces = 5 // a reader looks at one or two

// Health is what Examine finds. Lengths are in the mesh's own unit: examine a
// mesh as it was read, before scaling, and places are those of the file.
//
// Edge counts are of undirected edges, and a facet that is there twice counts
// once in them.
type Health struct {
	Triangles int

	OpenEdges        int // used by one facet: the rim of a hole
	MisorientedEdges int // used by two facets that run the same way: one of them faces the wrong side
	OverusedEdges    int // used by more than two facets
	UnbalancedEdges  int // of those, used more often in one direction than in the other
	Holes            int // connected rims of all edges whose directions do not cancel

	Degenerate int // facets with two equal vertices or without area; harmless
	Duplicate  int // facets that repeat an earlier one, facing the same way

	Shells          int  // connected surfaces
	InsideOutShells int  // closed shells that face the wrong way beside shells that don't
	NestedShells    int  // closed shells in the material of another: counted twice
	Inverted        bool // the whole is inside out: its volume is negative
	Flat            bool // it has area but encloses nothing

	Volume float64 // with its sign, as Mesh.Moments gives it
	Area   float64

	AsSolid, AsHollow float64       // volumes where there are NestedShells: if these are pieces set into others, and if they bound hollows
	Overlap           OverlapVolume // set where surfaces overlap in part or pass through themselves
	Gross             float64       // what the closed shells enclose without their signs, where hardly any volume is left of it
	Welded            float64       // set where the surface is closed only if vertices up to this far apart are one: counts are as after that
	Gap               float64       // set where an open surface would close at this distance, too wide for rounding

	// VolumeDoubt is an indication, not a bound, of how far Volume may be from
	// the volume of the part that was meant; 0 when nothing is wrong. The volume of
	// an open surface depends on where it is measured from: by A·Δr/3, with A the
	// vector area that is missing. For each hole this is added up with a fan from
	// its middle as A and the size of the box as Δr: closing the hole with
	// that fan changes the volume by no more; closing it with what was really
	// there, a dished end or half the part, may change it by more. Added are the
	// volumes of duplicate facets (seen from the middle of the box), twice those
	// of shells inside out, what nested shells may count too much (whichever of
	// their readings is further away), and what overlaps with three standard
	// errors.
	VolumeDoubt float64

	FacetBias float64 // see [FacetBias]; 0 where the surface is not closed

	Where []Vec // up to five places of the first fault that has a place: largest holes first
}

// Examine looks for what would make the volume of a mesh meaningless: an open
// surface, facets that face the wrong way, surfaces inside out or there twice.
//
// A surface that is open only because points on its rims differ by rounding,
// 1e-6 of the diagonal of its box, is judged as if they were one (Welded).
//
// The surface is closed when every edge is run along once in each direction,
// by two facets; then, and also when more facets use an edge but as often one
// way as the other (parts that touch along it), the volume does not depend on
// where it is measured from. Equal vertices count as one, without tolerance.
//
// A facet with two equal vertices runs along an edge and back and is left out.
// A facet with three different vertices on a line is kept: it has no area,
// but without it the edges beside it would not meet.
//
// A shell that faces inward inside one that faces outward is a void, and fine.
// Nesting is judged by a ray along z from one point of each closed shell.
//
// Whether surfaces overlap in part or pass through themselves, and count the
// common volume twice or with the wrong sign, is sampled: see [Overlap].
//
// Source: that the volume needs a boundary of zero is the divergence theorem.
func Examine(m Mesh) Health {
	m = welded(m)
	h, rims := examine(m)
	if h.OpenEdges > 0 {
		return h.afterWelding(m, rims)
	}
	return h
}

// examine takes a mesh whose vertices are all different.
func examine(m Mesh) (Health, []rim) {
	h := Health{Triangles: len(m.Faces), Area: m.Area()}
	if h.Triangles == 0 {
		return h, nil
	}
	box := m.Extent()
	h.Volume = m.MomentsAbout(box.Center()).Volume
	h.Flat = isFlat(h.Volume, h.Area, box.Diagonal())
	h.Inverted = h.Volume < 0 && !h.Flat

	table := newEdgeTable(m)
	repeated, count := table.duplicates()
	h.Duplicate = count
	h.doubtDuplicates(m, repeated, box.Center())
	s := newSurvey(table, repeated)
	s.count(&h)
	h.judgeHoles(m, s.rims, box)
	shells := s.closedShells(box.Center())
	h.judgeShells(shells, m, box)
	h.judgeReadings(shells, m, repeated, box)
	if len(h.Where) == 0 {
		h.Where = s.crowdedPlaces()
	}
	if h.Closed() {
		h.FacetBias = table.facetBias(h.Volume)
	}
	return h, s.rims
}

// isFlat reports whether a surface encloses nothing. A tilted sheet in float32
// seems to enclose about 1e-8 of its area times its size; a foil of 0.1 mm that
// is 12 m long really does 4e-6.
func isFlat(volume, area, size float64) bool { return math.Abs(volume) <= 1e-7*area*size }

// Closed reports whether the directions of all edges cancel, so that the
// surface encloses a definite volume, if perhaps with the wrong sign.
func (h Health) Closed() bool {
	return h.Triangles > 0 && h.OpenEdges+h.MisorientedEdges+h.UnbalancedEdges == 0
}

// Sound reports whether the volume can be weighed as it is. Faults may still
// have something to say about a sound mesh, marked Harmless.
func (h Health) Sound() bool {
	return h.Closed() && !h.Flat && !h.Inverted && h.Duplicate+h.InsideOutShells+h.NestedShells == 0 && !h.overlaps()
}

// doubtDuplicates looks at facets that are there twice, and at those without area.
func (h *Health) doubtDuplicates(m Mesh, repeated []bool, origin Vec) {
	for _, n := range blocks(len(m.Faces), func(from, to int) (n int) {
		for i := from; i < to; i++ {
			a, b, c := m.Triangle(i)
			if !distinct(m.Faces[i]) || isSliver(a, b, c) {
				n++
			}
		}
		return n
	}) {
		h.Degenerate += n
	}
	twice := 0.0
	for i, again := range repeated {
		if again {
			a, b, c := m.Triangle(i)
			twice += tetrahedron(origin, a, b, c)
			if len(h.Where) < mostPlaces {
				h.Where = append(h.Where, a.Add(b).Add(c).Mul(1.0/3))
			}
		}
	}
	h.VolumeDoubt += math.Abs(twice)
}

// isSliver reports whether a triangle has no area to speak of: a height of
// less than 1e-12 of its longest side.
func isSliver(a, b, c Vec) bool {
	longest := max(b.Sub(a).LenSqr(), c.Sub(b).LenSqr(), a.Sub(c).LenSqr())
	return b.Sub(a).Cross(c.Sub(a)).LenSqr() <= 1e-24*longest*longest
}

// tetrahedron is the signed volume between a facet and the origin.
func tetrahedron(origin, a, b, c Vec) float64 {
	a, b, c = a.Sub(origin), b.Sub(origin), c.Sub(origin)
	return a.Dot(b.Cross(c)) / 6
}

// judgeHoles says how much the missing surface matters, and where it is.
func (h *Health) judgeHoles(m Mesh, rims []rim, box Extent) {
	if len(rims) == 0 {
		return
	}
	holes := holesOf(m, rims)
	h.Holes = len(holes)
	size := box.Size()
	var largest []hole
	for _, hole := range holes {
		for axis := range size {
			h.VolumeDoubt += size[axis] * hole.missing[axis] / 3
		}
		largest = keepLargest(largest, hole)
	}
	h.Where = nil
	for _, hole := range largest {
		h.Where = append(h.Where, hole.place)
	}
}
