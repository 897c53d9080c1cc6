package geom

import (
	"cmp"
	"fmt"
	"math"
	"slices"

	"github.com/go-gl/mathgl/mgl64"
)

// greatestPoints limits the points of an outline and its holes together: the
// triangles of its ends take a time that grows with their square.
const greatestPoints = 10000

// A side is one edge of the outline (ring 0) or of hole number ring.
type side struct {
	ring, from int
	p, q       mgl64.Vec2
}

// checkRings refuses what has no clear inside: too few points, points that
// are no numbers, rings that cross or touch themselves or each other, holes
// outside the outline or inside another hole.
func checkRings(rings [][]mgl64.Vec2) error {
	for i, ring := range rings {
		if err := checkPoints(ringName(i), ring); err != nil {
			return err
		}
	}
	return checkPlaces(rings, func(_, point int) int { return point })
}

// checkPlaces is the rest of checkRings: how the rings lie. Errors name a
// point of a ring by the number, from 0, that the planner knows it by.
func checkPlaces(rings [][]mgl64.Vec2, number func(ring, point int) int) error {
	points := 0
	for _, ring := range rings {
		points += len(ring)
	}
	if points > greatestPoints {
		return &ShapeError{
			fmt.Sprintf("outline and holes have %d points, more than %d", points, greatestPoints),
			"leave out points, or cut the part in two",
		}
	}
	if err := checkTouches(rings, number); err != nil {
		return err
	}
	return checkNesting(rings)
}

func ringName(ring int) string {
	if ring == 0 {
		return "the outline"
	}
	return fmt.Sprintf("hole %d", ring)
}

func place(p mgl64.Vec2) string {
	return "(" + millimetres(p[0]) + ", " + millimetres(p[1]) + ")"
}

func checkPoints(name string, ring []mgl64.Vec2) error {
	if len(ring) < 3 {
		return &ShapeError{
			fmt.Sprintf("%s has %d different points", name, len(ring)),
			"give at least three",
		}
	}
	return checkCoordinates(name, ring)
}

func checkCoordinates(name string, ring []mgl64.Vec2) error {
	for i, p := range ring {
		for _, x := range p {
			if math.IsNaN(x) || math.Abs(x) > greatestSize { // true for infinity too
				return &ShapeError{
					fmt.Sprintf("point %d of %s is not within 1000 km of its origin", i+1, name),
					"write both coordinates as plain lengths and check their unit",
				}
			}
		}
		if next := (i + 1) % len(ring); p == ring[next] {
			return &ShapeError{
				fmt.Sprintf("points %d and %d of %s are the same, %s", i+1, next+1, name, place(p)),
				"leave one of them out",
			}
		}
	}
	return nil
}

// checkTouches finds sides that meet where they should not. The sides are
// taken from left to right, so only those that overlap in x are compared.
func checkTouches(rings [][]mgl64.Vec2, number func(ring, point int) int) error {
	var sides []side
	for i, ring := range rings {
		for j, p := range ring {
			sides = append(sides, side{i, j, p, ring[(j+1)%len(ring)]})
		}
	}
	left := func(s side) float64 { return min(s.p[0], s.q[0]) }
	slices.SortStableFunc(sides, func(a, b side) int { return cmp.Compare(left(a), left(b)) })
	for i, a := range sides {
		right := max(a.p[0], a.q[0])
		for _, b := range sides[i+1:] {
			if left(b) > right {
				break
			}
			if at, yes := a.meets(b, len(rings[a.ring])); yes {
				return touchError(a, b, at, number)
			}
		}
	}
	return nil
}

// meets tells whether two sides meet in a point that is not the corner that
// they share as neighbours in a ring of n points.
func (s side) meets(o side, n int) (at mgl64.Vec2, yes bool) {
	if min(s.p[1], s.q[1]) > max(o.p[1], o.q[1]) || max(s.p[1], s.q[1]) < min(o.p[1], o.q[1]) {
		return at, false
	}
	if s.ring == o.ring {
		switch {
		case (s.from+1)%n == o.from:
			return s.q, foldsBack(s.p, s.q, o.q)
		case (o.from+1)%n == s.from:
			return o.q, foldsBack(o.p, o.q, s.q)
		}
	}
	return touching(s.p, s.q, o.p, o.q)
}

// foldsBack tells whether the path a, b, c turns straight back at b.
func foldsBack(a, b, c mgl64.Vec2) bool {
	return orientation(a, b, c) == 0 && ((a[0] > b[0]) == (c[0] > b[0]) && a[0] != b[0] ||
		(a[1] > b[1]) == (c[1] > b[1]) && a[1] != b[1])
}

func touchError(a, b side, at mgl64.Vec2, number func(ring, point int) int) error {
	if b.ring < a.ring || (b.ring == a.ring && b.from < a.from) {
		a, b = b, a
	}
	if a.ring == b.ring {
		return &ShapeError{
			fmt.Sprintf("%s crosses or touches itself near %s: the sides that start at its points %d and %d meet there",
				ringName(a.ring), place(at), number(a.ring, a.from)+1, number(b.ring, b.from)+1),
			"give the points in order around the shape, each once",
		}
	}
	return &ShapeError{
		fmt.Sprintf("%s crosses or touches %s near %s", ringName(b.ring), ringName(a.ring), place(at)),
		"keep holes apart and off the outline; draw a notch as part of the outline, and holes that overlap as one",
	}
}

// checkNesting takes rings that do not touch, so one point tells for all.
func checkNesting(rings [][]mgl64.Vec2) error {
	for i, hole := range rings[1:] {
		name := ringName(i + 1)
		if !inside(rings[0], hole[0]) {
			return &ShapeError{name + " lies outside the outline, at " + place(hole[0]), "move it inside or leave it out"}
		}
		for j, other := range rings[1:] {
			if i != j && inside(other, hole[0]) {
				return &ShapeError{
					name + " lies inside " + ringName(j+1) + ", at " + place(hole[0]),
					"leave it out, or make the island a part of its own",
				}
			}
		}
	}
	return nil
}
