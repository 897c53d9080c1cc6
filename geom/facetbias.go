package geom

import "math"

// smoothTurn is the greatest angle between two facets that are taken for a
// facetted curve: a circle of eight sides turns by 45° from one to the next.
const smoothTurn = 46 * math.Pi / 180

// FacetBias estimates how much of the volume of a round part is missing from
// its mesh because flat facets cut the corners of its curves, as a fraction of
// the volume with the curves: 0.0064 for a cylinder of 32 sides. It is negative
// where more is added in hollows (bores, fillets) than missing on the outside.
//
// At an edge of length ℓ that turns by the angle θ, outward or (negative)
// inward, between facets of areas A and B,
//
//	missing = ⅔·(A² + A·B + B²)·(θ − sin θ)/(4·ℓ·sin²(θ/2)) ≈ A²·θ/(3·ℓ) for A = B
//
// is added up. For the sides of a regular prism or pyramid this is the sum of
// the segments between arc and chord, exactly; for a surface curved both ways
// it is the volume under a parabola, for any regular pattern of facets, so good
// where they are small. Where one facet is more than four times as large as the
// other, as a flat side beside a rounded edge, the smaller counts for both.
//
// It assumes that the corners of the facets lie on the true surface, as
// drawing programs place them; that edges turning by no more than 46° belong
// to curves, so that a real chamfer of 45° or an eight-sided bar is taken for
// round; and that the mesh is closed. It corrects nothing: it
// says on which side the true volume lies, and about how far. About 4/3 of the
// chord height over the radius for a convex round.
//
// Source: derived here from the area of a circular segment.
func FacetBias(m Mesh) float64 {
	m = welded(m)
	return newEdgeTable(m).facetBias(m.MomentsAbout(m.Extent().Center()).Volume)
}

// facetBias is FacetBias where the volume is known.
func (t edgeTable) facetBias(volume float64) float64 {
	missing := 0.0
	for _, part := range blocks(len(t.mesh.Vertices), func(from, to int) (sum float64) {
		t.within(from, to, func(low, high int, uses []uint64) {
			if len(uses) == 2 {
				sum += t.mesh.missingAt(low, high, facetOf(uses[0]), facetOf(uses[1]))
			}
		})
		return sum
	}) {
		missing += part
	}
	if volume < 0 { // inside out: outward is inward
		volume, missing = -volume, -missing
	}
	if whole := volume + missing; whole > 0 && volume > 0 {
		return missing / whole
	}
	return 0
}

// missingAt is what an edge between two facets adds to the sum.
func (m Mesh) missingAt(low, high, f, g int) float64 {
	a, b, c := m.Triangle(f)
	n := b.Sub(a).Cross(c.Sub(a))
	a, b, c = m.Triangle(g)
	o := b.Sub(a).Cross(c.Sub(a))
	cross, along := n.Cross(o).LenSqr(), n.Dot(o)
	if !(cross > 0 && along > 0) { // in one plane, or turning by a right angle and more
		return 0
	}
	turn := angleOf(math.Sqrt(cross) / along)
	length := m.Vertices[high].Sub(m.Vertices[low]).Len()
	if !(turn <= smoothTurn && length > 0) {
		return 0
	}
	small, large := min(n.Len(), o.Len())/2, max(n.Len(), o.Len())/2
	if large > 4*small {
		large = small
	}
	part := turn / 6 * (1 + turn*turn/30) // of (θ − sin θ)/(4 sin²(θ/2)), where that would lose digits
	if turn > 0.01 {
		half := math.Sin(turn / 2)
		part = (turn - math.Sin(turn)) / (4 * half * half)
	}
	missing := 2.0 / 3 * (small*small + small*large + large*large) * part / length
	// Convex where the far corner of one facet is below the plane of the other.
	if opposite := m.thirdCorner(g, low, high); opposite.Sub(m.Vertices[low]).Dot(n) > 0 {
		return -missing
	}
	return missing
}

// angleOf is the arc tangent, by its series where that holds to 1e-12.
func angleOf(t float64) float64 {
	if t > 0.01 {
		return math.Atan(t)
	}
	s := t * t
	return t * (1 - s*(1.0/3-s*(1.0/5-s*(1.0/7))))
}

// thirdCorner is the corner of a facet that is not on the edge.
func (m Mesh) thirdCorner(face, low, high int) Vec {
	f := m.Faces[face]
	return m.Vertices[f[0]+f[1]+f[2]-low-high]
}
