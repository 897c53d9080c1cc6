package geom

// Head is the end of a round vessel on its own: the metal of a dished or flat
// end and of its straight flange. It stands on its open end, the rim of the
// flange around the origin, its dome up; the tangent line, where the dome
// begins, is at z = flange.
type Head struct{ walled }

// HeadSize is what a head is made from, in metres.
type HeadSize struct {
	Form            HeadForm
	Inside, Outside float64 // diameters of the straight flange: one of the two, the other zero
	Wall            float64 // nominal thickness, the same all over; forming thins a real one
	Flange          float64 // length of the straight part below the tangent line; may be zero
}

// NewHead returns the head of the given size.
//
// The wall is the same everywhere, measured square to the inside: a
// torispherical head's outside has crown and knuckle radius greater by the
// wall, an ellipsoidal head's outside is the surface parallel to its inside,
// which is no ellipsoid. (An ellipsoid with half axes greater by the wall
// would be a wall that gets thinner in between: 3.4 % less metal in a thin
// 2:1 head.)
func NewHead(s HeadSize) (Head, error) {
	inside, err := bore(s.Inside, s.Outside, s.Wall)
	if err != nil {
		return Head{}, err
	}
	if err := checkSize(size{"flange", s.Flange}, true); err != nil {
		return Head{}, err
	}
	inner, outer, err := s.Form.domes(inside, s.Wall, inside+2*s.Wall)
	if err != nil {
		return Head{}, err
	}
	body := func(radius float64, end dome) dished {
		return dished{radius: radius, straight: s.Flange, lower: disc{radius: radius}, upper: end}
	}
	return Head{walled{body(inside/2+s.Wall, outer), body(inside/2, inner), true}}, nil
}

// Depth returns the inside depth of the dome, from the tangent line to the
// inside of the crown, in metres: without flange and wall.
func (s Head) Depth() float64 { return s.inside.upper.depth() }

// Moments returns the moments of what the outside holds less those of what the
// inside holds. Each is a cylinder, the flange, and a dome on top of it:
//
//	half an ellipsoid, half axes a and b: V = 2π/3·a²·b, centroid 3/8·b above the tangent line
//	torispherical, radius r, crown R, knuckle a, c = r − a, depth h = R − √((R − a)² − c²):
//	    V = π/3·(2·h·R² − (2·a² + c² + 2·a·R)·(R − h) + 3·a²·c·asin((R − h)/(R − a)))
//	flat: a disc
//
// The other moments of a torispherical dome, and those of the outside of an
// ellipsoidal one, are integrals along its profile, summed by Gauss's rule to
// an error of 1e-14 of their size. For a wall that is a part x of the radius the difference
// of both keeps about 15 + log₁₀ x digits.
//
// Source: standard geometry, from memory; the torispherical volume read in
// public collections of formulas.
func (s Head) Moments() Moments { return s.walled.Moments() }
