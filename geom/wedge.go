package geom

// Wedge is a block that narrows to an edge: its base is a rectangle, base
// along x and depth along y, and straight above the middle of it, at the
// wedge's height, runs the top edge, parallel to x. A top of the base's
// length makes a ridge roof, a shorter one a hipped roof, a top of zero a
// pyramid; a top longer than the base is fine too.
type Wedge struct{ obelisk }

// NewWedge returns a wedge with the given base (along x), depth (along y),
// height and length of its top edge in metres. The top may be zero.
func NewWedge(base, depth, height, top float64) (Wedge, error) {
	if err := checkSizes(size{"base", base}, size{"depth", depth}, size{"height", height}); err != nil {
		return Wedge{}, err
	}
	if err := checkSize(size{"top", top}, true); err != nil {
		return Wedge{}, err
	}
	return Wedge{obelisk{a: base, b: depth, c: top, height: height}}, nil
}

// Moments returns, for base a, depth b, top edge c and height h:
//
//	V = b·h·(2·a + c)/6
//	centroid on the axis, h·(a + c)/(2·(2·a + c)) above the base
//	∫z² dV = b·h³·(2·a + 3·c)/60
//	∫x² dV = b·h·(4·a³ + 3·a²·c + 2·a·c² + c³)/240
//	∫y² dV = b³·h·(4·a + c)/240
//
// It is a [Pyramid] whose top has no width.
// Source: volume and centroid standard geometry, from memory; the second
// moments derived here by adding up rectangles.
func (s Wedge) Moments() Moments { return s.obelisk.Moments() }
