package rig

import (
	"fmt"
	"math"

	"plumbhook/geom"
)

// Obstacle is a part of the load's body that legs may run into.
type Obstacle struct {
	Name  string
	Mesh  geom.Mesh // in the load's axes, closed
	Chord float64   // m, how far the true surface may stand out of the facets; 0 for flat sides
}

// Obstacles is the body of a load, prepared for many questions.
type Obstacles struct {
	parts []obstacle
	top   float64 // m, z of the highest point
}

type obstacle struct {
	name  string
	chord float64
	faces geom.BoxTree
}

// NewObstacles prepares the parts of a body; it may have none. The meshes are
// kept, not copied: do not change them afterwards.
func NewObstacles(parts []Obstacle) (Obstacles, error) {
	body := Obstacles{top: math.Inf(-1)}
	for _, p := range parts {
		if err := p.check(); err != nil {
			return Obstacles{}, err
		}
		o := obstacle{p.Name, p.Chord, geom.NewBoxTree(p.Mesh)}
		body.parts = append(body.parts, o)
		body.top = max(body.top, o.faces.Extent().Max[2]+p.Chord)
	}
	return body, nil
}

func (o Obstacle) check() error {
	if len(o.Mesh.Faces) == 0 {
		return &InputError{fmt.Sprintf("%q has no faces", o.Name), "leave it out or give its mesh"}
	}
	if !(o.Chord >= 0) || math.IsInf(o.Chord, 1) {
		return &InputError{fmt.Sprintf("the facets of %q are off by %g m", o.Name, o.Chord), "give 0 or more"}
	}
	for i, v := range o.Mesh.Vertices {
		if !placed(v) {
			return &InputError{fmt.Sprintf("vertex %d of %q is no place", i+1, o.Name), notPlaced}
		}
	}
	for i, f := range o.Mesh.Faces {
		if min(f[0], f[1], f[2]) < 0 || max(f[0], f[1], f[2]) >= len(o.Mesh.Vertices) {
			return &InputError{fmt.Sprintf("face %d of %q names a vertex that is not there", i+1, o.Name), "mend the mesh"}
		}
	}
	return nil
}

// farthest is the greatest coordinate in m that is taken for a place.
const farthest = 1e6

// notPlaced mends a place that is none.
const notPlaced = "give three coordinates within 1000 km of the datum; check the units"

func placed(v geom.Vec) bool {
	return finite(v) && max(math.Abs(v[0]), math.Abs(v[1]), math.Abs(v[2])) <= farthest
}

// touching is the gap in m up to which a leg counts as touching.
const touching = 1e-6

// Clash is a leg that touches a part of the body or runs through it.
type Clash struct {
	Leg   int      // from 0
	With  string   // the part's name
	At    geom.Vec // m, the nearest point on the body
	Along float64  // m, how far from the pick along the leg
	Gap   float64  // m, between the leg's side and the body; negative: how deep
}

// Clashes returns where legs from the picks to the hook touch the body, by leg
// and then by part: one clash, the deepest, of each leg with each part. All is
// in the load's axes, so the hook is that of the pose (see [Hang]). A leg is
// round, radius metres to each side of its line, with a round end; the first
// free metres from the pick, the lug and the shackle, are not looked at. A leg
// not longer than that has no clash.
//
// The gap is the distance of the leg's line from the facets, less the radius
// and the part's chord. Where the line is inside, it is negative by the depth of
// the line's deepest point and the radius. Up to 1 µm counts as touching.
func Clashes(hook geom.Vec, picks []geom.Vec, radius []float64, body Obstacles, free float64) ([]Clash, error) {
	legs := clearing{picks, radius, body, free}
	if err := legs.check(); err != nil {
		return nil, err
	}
	if !placed(hook) {
		return nil, &InputError{"the hook is at no place", notPlaced}
	}
	var found []Clash
	for i := range picks {
		for _, c := range legs.gaps(i, hook) {
			if c.Gap <= touching {
				found = append(found, c)
			}
		}
	}
	return found, nil
}

// clearing are legs and what they must clear.
type clearing struct {
	picks  []geom.Vec
	radius []float64
	body   Obstacles
	free   float64
}

func (c clearing) check() error {
	switch {
	case len(c.picks) < 1:
		return &InputError{"no legs", "give at least one pick"}
	case len(c.radius) != len(c.picks):
		return &InputError{fmt.Sprintf("%d picks but %d radii", len(c.picks), len(c.radius)), "give one radius for each pick"}
	case !(c.free >= 0) || math.IsInf(c.free, 1):
		return &InputError{fmt.Sprintf("%g m of the legs are not looked at", c.free), "give 0 or more: the length of lug and shackle"}
	}
	for i, p := range c.picks {
		if !placed(p) {
			return &InputError{fmt.Sprintf("pick %d is no place", i+1), notPlaced}
		}
		if r := c.radius[i]; !(r >= 0) || math.IsInf(r, 1) {
			return &InputError{fmt.Sprintf("leg %d is %g m thick to each side", i+1, r), "give 0 or more"}
		}
	}
	return nil
}

// gaps returns the gap between a leg to the hook and each part, none for a leg
// that has no length to look at.
func (c clearing) gaps(leg int, hook geom.Vec) []Clash {
	length := hook.Sub(c.picks[leg]).Len()
	if length <= c.free || length == 0 {
		return nil
	}
	return c.gapsBetween(leg, hook, c.free/length, 1)
}

// gapsBetween returns the gaps of a piece of a leg, from and to in lengths of
// the leg, which is not 0.
func (c clearing) gapsBetween(leg int, hook geom.Vec, from, to float64) []Clash {
	pick, pull := c.picks[leg], hook.Sub(c.picks[leg])
	begin, end := pick.Add(pull.Mul(from)), pick.Add(pull.Mul(to))
	gaps := make([]Clash, 0, len(c.body.parts))
	for _, part := range c.body.parts {
		near, ok := part.faces.Nearest(begin, end)
		if !ok {
			continue
		}
		along := from*pull.Len() + near.Along
		gaps = append(gaps, Clash{leg, part.name, near.At, along, near.Distance - c.radius[leg] - part.chord})
	}
	return gaps
}

// leastGap returns the least of the gaps in m, +Inf for none.
func leastGap(gaps []Clash) float64 {
	gap := math.Inf(1)
	for _, g := range gaps {
		gap = min(gap, g.Gap)
	}
	return gap
}
