package lift

import (
	"fmt"

	"plumbhook/geom"
	"plumbhook/rig"
	"plumbhook/takeoff"
)

// obstacles is the load's body as legs may run into it, part by part. It is made
// when it is first asked for, since a large mesh takes its time.
type obstacles struct {
	load  *takeoff.Load
	made  bool
	parts []obstacle
	left  []string // parts that are not looked at, and why
	err   error
}

// obstacle is one part, all its copies.
type obstacle struct {
	name   string
	given  bool // a bought-in weight: its box stands for it
	body   rig.Obstacles
	mesh   geom.Mesh
	box    geom.Extent
	cuts   []posedCut
	chord  float64
	copies []carved // for a look at the cuts
}

// posedCut is a cut where it stands.
type posedCut struct {
	solid geom.Solid
	pose  geom.Pose
}

// mostFaces is how many triangles are looked at: more would take too long.
const mostFaces = 8_000_000

// facets in m is how far the facets of a round part may lie within it; legs are
// held to clear the round, so a gap may be told too small by as much.
const facets = 2e-4

// prepare makes the meshes.
func (o *obstacles) prepare() {
	if o.made {
		return
	}
	o.made = true
	faces := 0
	for _, p := range o.load.Parts {
		switch {
		case p.Solid == nil:
			continue // a bare weight, or contents, which are no body
		case p.Together:
			o.left = append(o.left, p.Name+" (where each piece is is not stated)")
			continue
		case p.Kind == "bar" || p.Kind == "weld":
			o.left = append(o.left, p.Name+" (known by its mass: it has no true shape)")
			continue
		}
		one := newObstacle(p, facets)
		if faces += len(one.mesh.Faces); faces > mostFaces {
			o.err = fmt.Errorf("the parts come to more than %d triangles", mostFaces)
			return
		}
		made, err := rig.NewObstacles([]rig.Obstacle{{Name: p.Name, Mesh: one.mesh, Chord: one.chord}})
		if err != nil {
			o.left = append(o.left, p.Name+" ("+err.Error()+")")
			continue
		}
		one.body = made
		o.parts = append(o.parts, one)
	}
}

// newObstacle joins the copies of a part. Sides that stay flat however fine the
// mesh is made are exact.
func newObstacle(p takeoff.Part, chord float64) obstacle {
	o := obstacle{name: p.Name, given: p.Kind == "weight", chord: chord}
	meshes := p.Meshes(chord)
	if len(meshes) > 0 && len(p.Solid.Mesh(chord/4).Faces) == len(meshes[0].Faces) {
		o.chord = 0
	}
	for k, m := range meshes {
		first := len(o.mesh.Vertices)
		o.mesh.Vertices = append(o.mesh.Vertices, m.Vertices...)
		for _, f := range m.Faces {
			o.mesh.Faces = append(o.mesh.Faces, [3]int{f[0] + first, f[1] + first, f[2] + first})
		}
		if len(p.Cuts) == 0 {
			continue
		}
		b := carved{mesh: m, box: m.Extent()}
		for _, c := range p.Cuts {
			pose := p.Places[k].After(c.Pose)
			o.cuts = append(o.cuts, posedCut{c.Solid, pose})
			b.cuts = append(b.cuts, c.Solid.Mesh(chord).Posed(pose))
		}
		o.copies = append(o.copies, b)
	}
	o.box = o.mesh.Extent()
	return o
}

// holds says whether a place is in the box of the part, or as good as on it.
func (o *obstacle) holds(at geom.Vec) bool {
	for i, x := range at {
		if x < o.box.Min[i]-slackDrawn || x > o.box.Max[i]+slackDrawn {
			return false
		}
	}
	return true
}

// within says whether a straight line from a place comes as near as that to the
// part, and how: the gap counts from the line.
func (o *obstacle) within(from, to geom.Vec, reach, start float64) (rig.Clash, bool) {
	if near := reach + o.chord + 2*touches; o.beyond(from, to, near) {
		return rig.Clash{}, false
	}
	found, err := rig.Clashes(to, []geom.Vec{from}, []float64{reach}, o.body, start)
	if err != nil || len(found) == 0 {
		return rig.Clash{}, false
	}
	found[0].Gap += reach
	return found[0], true
}

// beyond says that a line's box is farther from that of the part, which most are.
func (o *obstacle) beyond(from, to geom.Vec, near float64) bool {
	for i := range from {
		if min(from[i], to[i])-near > o.box.Max[i] || max(from[i], to[i])+near < o.box.Min[i] {
			return true
		}
	}
	return false
}

// inCut says whether a place is in a hole that a cut makes.
func (o *obstacle) inCut(at geom.Vec) bool {
	for _, c := range o.cuts {
		if c.solid.Contains(c.pose.Back(at)) {
			return true
		}
	}
	return false
}
