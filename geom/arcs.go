package geom

import (
	"fmt"
	"math"

	"github.com/go-gl/mathgl/mgl64"
)

// Outline is a closed line of straight sides and arcs in a plane, its points
// in metres. The last point is joined to the first by the last point's side.
type Outline []Vertex

// Vertex is a point of an [Outline] and the side that leaves it. Bulge is 0
// for a straight side, else as in a DXF polyline tan(θ/4), θ the angle of the
// arc: positive where the arc runs anticlockwise, and so bows out to the right
// of the way to the next point. A bulge of 1 or −1 is a half circle.
type Vertex struct {
	At    mgl64.Vec2
	Bulge float64
}

// Straight returns the outline with straight sides between the points.
func Straight(points []mgl64.Vec2) Outline {
	outline := make(Outline, len(points))
	for i, p := range points {
		outline[i].At = p
	}
	return outline
}

// Circle returns a circle as an outline of two half circles, or a hole.
func Circle(centre mgl64.Vec2, diameter float64) Outline {
	side := mgl64.Vec2{diameter / 2, 0}
	return Outline{{centre.Sub(side), 1}, {centre.Add(side), 1}}
}

// Bulge returns the bulge of the arc of the given radius (m) between two
// points, of the two such arcs the shorter. It bows out to the left of the way
// from one to the other, or else to the right. A radius of half the distance,
// or short of it by no more than 1e-6 as rounded sizes are, is a half circle; a
// smaller one makes no arc and is refused.
func Bulge(from, to mgl64.Vec2, radius float64, left bool) (float64, error) {
	if err := checkSizes(size{"radius", radius}, size{"distance between the ends of an arc", to.Sub(from).Len()}); err != nil {
		return 0, err
	}
	part := to.Sub(from).Len() / 2 / radius // sin(θ/2)
	if part > 1+1e-6 {                      // sizes as drawn are rounded
		return 0, &ShapeError{
			"radius " + millimetres(radius) + " is too small for an arc from " + place(from) + " to " + place(to),
			"write a radius of at least half their distance, " + millimetres(part*radius),
		}
	}
	part = min(part, 1)
	// tan(θ/4) from sin(θ/2): tan(x/2) = sin x/(1 + cos x).
	bulge := part / (1 + math.Sqrt((1-part)*(1+part)))
	if left {
		return -bulge, nil
	}
	return bulge, nil
}

// A bulge out of this range is a straight line (its arc stands off by less
// than half of 1e-9 of the chord), or a whole circle and no arc.
const (
	leastBulge    = 1e-9
	greatestBulge = 1e4
)

// opened returns a copy of the outline without a last point that repeats the
// first.
func (o Outline) opened() Outline {
	if n := len(o); n > 1 && o[0].At == o[n-1].At {
		o = o[:n-1]
	}
	return append(Outline(nil), o...)
}

// spans returns the sides of the outline or hole of the given name, after a
// look at its points: how the sides lie is not checked here.
func (o Outline) spans(name string) ([]span, error) {
	o = o.opened()
	points, arcs := make([]mgl64.Vec2, len(o)), 0
	for i, v := range o {
		points[i] = v.At
		if !(math.Abs(v.Bulge) <= greatestBulge) { // true for NaN too
			return nil, &ShapeError{
				fmt.Sprintf("the bulge %g after point %d of %s is not between -%g and %g", v.Bulge, i+1, name, float64(greatestBulge), float64(greatestBulge)),
				"write tan(angle of the arc/4): 0 for a straight side, 1 for a half circle",
			}
		}
		if math.Abs(v.Bulge) > leastBulge {
			arcs++
		}
	}
	check := checkPoints
	if arcs > 0 && len(points) == 2 {
		check = checkCoordinates // two points and an arc are a figure
	}
	if err := check(name, points); err != nil {
		return nil, err
	}
	sides := make([]span, len(o))
	for i, v := range o {
		sides[i] = span{p: v.At, q: o[(i+1)%len(o)].At}
		if math.Abs(v.Bulge) > leastBulge {
			sides[i].bulge = v.Bulge
		}
	}
	return sides, nil
}
