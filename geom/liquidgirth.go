package geom

import (
	"math"

	"github.com/go-gl/mathgl/mgl64"
)

// girth is a stretch of the profile of a [round] inside, from one height to
// another: a straight line, or an arc of an ellipse.
type girth struct {
	low, high   float64 // heights, m
	bottom, top float64 // radii at low and high of a straight stretch
	arc         *oval   // nil: straight
}

// oval is the ellipse (r − knee)²/a² + (z − level)²/b² = 1, its outer side.
type oval struct{ knee, level, a, b float64 }

// girthsOf returns the profile of a solid that is round, convex and full, from
// the lowest stretch to the highest; nil for any other.
func girthsOf(s Solid) []girth {
	switch s := s.(type) {
	case Cylinder:
		return []girth{straight(0, s.height, s.radius, s.radius)}
	case Cone:
		return []girth{straight(0, s.height, s.bottom, s.top)}
	case Sphere:
		if s.hollow() == 0 {
			return []girth{{high: 2 * s.radius, arc: &oval{0, s.radius, s.radius, s.radius}}}
		}
	case Hemisphere:
		if s.hollow() == 0 {
			return []girth{{high: s.radius, arc: &oval{0, 0, s.radius, s.radius}}}
		}
	case Cap:
		return []girth{{high: s.height, arc: &oval{0, s.height - s.radius, s.radius, s.radius}}}
	case dished:
		return s.girths()
	}
	return nil
}

func straight(low, high, bottom, top float64) girth {
	return girth{low: low, high: high, bottom: bottom, top: top}
}

// girths returns the stretches of the lower end, the shell and the upper end,
// nil where an end is not one of those that make an inside.
func (s dished) girths() []girth {
	lower, ok := girthsOfDome(s.lower)
	upper, fine := girthsOfDome(s.upper)
	if !ok || !fine {
		return nil
	}
	var all []girth
	for i := range lower {
		all = append(all, lower[len(lower)-1-i].turnedOver().raised(s.base))
	}
	if s.straight > 0 {
		all = append(all, straight(s.base, s.top(), s.radius, s.radius))
	}
	for _, g := range upper {
		all = append(all, g.raised(s.top()))
	}
	return all
}

// girthsOfDome returns the stretches from the tangent line up.
func girthsOfDome(d dome) ([]girth, bool) {
	switch d := d.(type) {
	case disc:
		if d.thickness == 0 {
			return nil, true
		}
		return []girth{straight(0, d.thickness, d.radius, d.radius)}, true
	case ellipse:
		return []girth{{high: d.b, arc: &oval{0, 0, d.a, d.b}}}, d.off == 0
	case torisphere:
		joint := d.joint()[1]
		return []girth{
			{high: joint, arc: &oval{d.knee(), 0, d.knuckle, d.knuckle}},
			{low: joint, high: d.depth(), arc: &oval{0, -d.below(), d.crown, d.crown}},
		}, true
	}
	return nil, false
}

func (g girth) turnedOver() girth {
	g.low, g.high, g.bottom, g.top = -g.high, -g.low, g.top, g.bottom
	if g.arc != nil {
		g.arc = &oval{g.arc.knee, -g.arc.level, g.arc.a, g.arc.b}
	}
	return g
}

func (g girth) raised(by float64) girth {
	g.low, g.high = g.low+by, g.high+by
	if g.arc != nil {
		g.arc = &oval{g.arc.knee, g.arc.level + by, g.arc.a, g.arc.b}
	}
	return g
}

// radius returns how wide the inside is at a height of the stretch.
func (g girth) radius(z float64) float64 {
	if g.arc == nil {
		part := (z - g.low) / (g.high - g.low)
		return g.bottom + (g.top-g.bottom)*part
	}
	up := (z - g.arc.level) / g.arc.b
	return g.arc.knee + g.arc.a*math.Sqrt(max(0, (1-up)*(1+up)))
}

func (g girth) widest() float64 {
	if g.arc == nil {
		return max(g.bottom, g.top)
	}
	return g.arc.knee + g.arc.a
}

// farthest returns the point (r, z) of the stretch that is farthest along
// (across, up), across ≥ 0. On an ellipse it is where the normal points that
// way, (a²·across, b²·up)/√(a²·across² + b²·up²) from its centre, or the end of
// the stretch next to it, as the profile bulges out.
// Source: standard geometry of the ellipse.
func (g girth) farthest(across, up float64) mgl64.Vec2 {
	z := g.high
	if g.arc != nil {
		b := g.arc.b
		z = max(g.low, min(g.high, g.arc.level+b*b*up/math.Hypot(g.arc.a*across, b*up)))
	} else if across*g.bottom+up*g.low > across*g.top+up*g.high {
		z = g.low
	}
	return mgl64.Vec2{g.radius(z), z}
}
