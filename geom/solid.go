package geom

import "math"

// A Solid is a shape with a definite volume, in its own frame: it stands on
// the centre of its base at the origin, its axis along +z. [Polygon],
// [Extrusion], [Revolve] and [Body] keep the origin that they were drawn with,
// and a [Bend] starts there.
type Solid interface {
	// Moments returns volume, first and second moments about the own origin.
	Moments() Moments
	// Reach returns the greatest r·dir over the points r of the solid. It is
	// exact; with a dir of length 1 it is the distance in metres that the
	// solid reaches that way from its origin.
	Reach(dir Vec) float64
	// Contains tells whether p is in the solid or on its surface, to 1e-9 of
	// the solid's size. A bore and a hollow do not belong to the solid.
	Contains(p Vec) bool
	// Mesh returns the solid's surface as triangles, closed and facing out.
	// Its corners lie on the surface and no facet is further from it than
	// chord (m); how fine it can get is limited, see [Segments].
	Mesh(chord float64) Mesh
}

// Sizes out of this range are taken for a slip of the pen or of the unit.
const (
	leastSize    = 1e-9 // m
	greatestSize = 1e6  // m
)

// surfaceTolerance is how near to the surface counts as on it, as a fraction
// of the solid's size.
const surfaceTolerance = 1e-9

// ShapeError says why a solid cannot have the sizes that it was given.
type ShapeError struct {
	Msg string // what is wrong, lengths in mm
	Fix string // what to write instead
}

// Error returns what is wrong and how to mend it in one line.
func (e *ShapeError) Error() string {
	return e.Msg + ": " + e.Fix
}

// size is a length under the name that the user knows it by.
type size struct {
	name   string
	metres float64
}

// checkSizes refuses the first size that is not a proper length above zero.
func checkSizes(sizes ...size) error {
	for _, s := range sizes {
		if err := checkSize(s, false); err != nil {
			return err
		}
	}
	return nil
}

// checkSize refuses a size that is not a proper length. It returns a plain
// error so that no typed nil can get out.
func checkSize(s size, zeroIsFine bool) error {
	switch m := s.metres; {
	case math.IsNaN(m) || math.IsInf(m, 0):
		return &ShapeError{s.name + " is not a finite number", "write " + s.name + " as a plain length"}
	case m == 0 && zeroIsFine:
		return nil
	case m <= 0:
		return &ShapeError{s.name + " " + millimetres(m) + " is not above zero", "write a " + s.name + " above zero"}
	case m < leastSize:
		return &ShapeError{s.name + " " + millimetres(m) + " is smaller than anything that is built", "check the unit of " + s.name}
	case m > greatestSize:
		return &ShapeError{s.name + " " + millimetres(m) + " is more than 1000 km", "check the unit of " + s.name}
	}
	return nil
}

// checkWall refuses a wall that leaves no hollow in a round solid.
func checkWall(outsideName string, outside, wall float64, solid string) error {
	if wall < outside/2 {
		return nil
	}
	return &ShapeError{
		"wall " + millimetres(wall) + " does not fit inside " + outsideName + " " + millimetres(outside),
		"write a wall below half of it, " + millimetres(outside/2) + ", or " + solid + " if it is solid",
	}
}
