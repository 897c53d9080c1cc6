package geom

import (
	"math"
	"slices"
)

// walled is the metal of a head or a vessel: what is in its outside and not in
// its inside.
type walled struct {
	outside, inside dished
	open            bool // below: a head; else a vessel
}

// Moments returns those of the whole less those of the inside.
func (s walled) Moments() Moments { return s.outside.Moments().Minus(s.inside.Moments()) }

// Reach returns the greatest r·dir over the outside.
func (s walled) Reach(dir Vec) float64 { return s.outside.Reach(dir) }

// Contains tells whether p is in the metal or on it; a point in the inside is
// not.
func (s walled) Contains(p Vec) bool {
	tol := s.outside.tolerance()
	inside := s.inside
	if s.open {
		inside.lower = disc{inside.radius, inside.radius} // nothing closes it below
	}
	return s.outside.holds(p, tol) && inside.out(p) >= -tol
}

// Inside returns what fills the inside, in the same frame as the metal, so
// that one pose places both: it does not stand on the origin. False where
// there is no inside: a flat head without a flange.
func (s walled) Inside() (Solid, bool) {
	return s.inside, s.inside.height() > 0
}

// Mesh returns the metal with its ends cut along meridians and bands, each to
// half of the chord; see [Segments]. No more than 512 chords make up a round
// of an end's profile, and 256 the round of the shell. Inside and outside are
// cut alike, so that they cannot meet however thin the wall is.
func (s walled) Mesh(chord float64) Mesh {
	n, around := s.outside.segments(chord)
	outside, inside := s.outside.profile(n), s.inside.profile(n)
	if !s.open {
		return revolved(outside, around).joined(revolved(inside, around).reversed())
	}
	// One line around the metal: up the outside to the axis, down the inside.
	line := slices.Clone(outside[1:])
	for i := len(inside) - 1; i > 0; i-- {
		line = append(line, inside[i])
	}
	return revolved(line, around)
}

// bore returns the inside diameter of a round thing of which one diameter is
// given, the other zero.
func bore(inside, outside, wall float64) (float64, error) {
	switch {
	case math.IsNaN(inside) || math.IsNaN(outside) || (inside == 0) == (outside == 0):
		return 0, &ShapeError{"it needs either an inside or an outside diameter", "give one of the two; the wall gives the other"}
	case outside == 0:
		return inside, checkSizes(size{"inside diameter", inside}, size{"wall", wall})
	}
	if err := checkSizes(size{"outside diameter", outside}, size{"wall", wall}); err != nil {
		return 0, err
	}
	if err := checkWall("outside", outside, wall, "use another kind of part"); err != nil {
		return 0, err
	}
	return outside - 2*wall, nil
}
