package geom

// Pyramid is a block between two level rectangles, the top straight above the
// middle of the bottom: a pyramid with its point cut off, or with its point
// if the top is zero. The sides are flat, but bottom and top need not have the
// same proportions (an obelisk): a hopper, a transition, a foundation block.
type Pyramid struct{ obelisk }

// NewPyramid returns a pyramid with the given sizes along x and y of its
// bottom and of its top, and its height, in metres. One or both sizes of the
// top may be zero, and the top may be the larger end.
func NewPyramid(bottomX, bottomY, topX, topY, height float64) (Pyramid, error) {
	err := checkSizes(size{"bottom along x", bottomX}, size{"bottom along y", bottomY}, size{"height", height})
	if err != nil {
		return Pyramid{}, err
	}
	for _, s := range []size{{"top along x", topX}, {"top along y", topY}} {
		if err := checkSize(s, true); err != nil {
			return Pyramid{}, err
		}
	}
	return Pyramid{obelisk{bottomX, bottomY, topX, topY, height}}, nil
}

// Moments returns, for a bottom a x b, a top c x d and height h:
//
//	V = h/6·(a·b + (a + c)·(b + d) + c·d)
//	centroid on the axis, h·(a·b + a·d + c·b + 3·c·d)/(2·(2·a·b + a·d + c·b + 2·c·d)) above the bottom
//	∫z² dV = h³/60·(2·a·b + 3·a·d + 3·b·c + 12·c·d)
//	∫x² dV = h/240·(b·(4a³ + 3a²c + 2ac² + c³) + d·(a³ + 2a²c + 3ac² + 4c³))
//	∫y² dV = h/240·(a·(4b³ + 3b²d + 2bd² + d³) + c·(b³ + 2b²d + 3bd² + 4d³))
//
// Source: volume and centroid of the obelisk standard geometry, from memory;
// the second moments derived here by adding up rectangles.
func (s Pyramid) Moments() Moments { return s.obelisk.Moments() }
