package geom

// Ring is a round bar bent to a closed ring (a torus). It lies flat on the x-y
// plane with its middle over the origin.
type Ring struct{ body torus }

// NewRing returns a ring with the given mean diameter, that of the circle
// through the middle of the bar, and the bar's thickness, its diameter, in
// metres. The mean diameter must be greater, or there is no ring.
func NewRing(mean, thickness float64) (Ring, error) {
	if err := checkSizes(size{"mean diameter", mean}, size{"thickness", thickness}); err != nil {
		return Ring{}, err
	}
	if thickness >= mean {
		return Ring{}, &ShapeError{
			"thickness " + millimetres(thickness) + " leaves no hole in a ring of mean diameter " + millimetres(mean),
			"write the diameter of the circle through the middle of the bar, above its thickness",
		}
	}
	return Ring{torus{tube: thickness / 2, wall: thickness / 2, radius: mean / 2, angle: fullTurn}}, nil
}

// pose stands the ring on z = 0.
func (s Ring) pose() Pose { return Still().Shifted(Vec{0, 0, s.body.tube}) }

// Moments returns, for mean radius ρ and radius r of the bar:
//
//	V = 2·π²·ρ·r²
//	centroid (0, 0, r)
//	∫z² dV about the centre: V·r²/4
//	∫x² dV = ∫y² dV = V·(4·ρ² + 3·r²)/8
//
// Source: standard geometry, from memory (V is the theorem of Pappus).
func (s Ring) Moments() Moments { return s.body.Moments().Posed(s.pose()) }

// Reach returns the greatest r·dir over the ring.
func (s Ring) Reach(dir Vec) float64 { return s.body.Reach(dir) + s.pose().Move.Dot(dir) }

// Contains tells whether p is in the ring or on it; the hole is not.
func (s Ring) Contains(p Vec) bool { return s.body.Contains(s.pose().Back(p)) }

// Mesh returns the ring with its section and its way round cut into chords; see
// [Segments]. The section has no more than 256 sides.
func (s Ring) Mesh(chord float64) Mesh { return s.body.Mesh(chord).Posed(s.pose()) }
