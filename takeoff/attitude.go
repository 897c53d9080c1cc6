package takeoff

import (
	"strings"

	"github.com/go-gl/mathgl/mgl64"
	"go.yaml.in/yaml/v3"

	"plumbhook/geom"
	"plumbhook/units"
)

// attitudeDraft is an attitude as it is written: a turn, or what points up.
type attitudeDraft struct {
	turn  tilt
	given bool // by is there
	up    geom.Vec
}

const attitudeFix = "write `attitude: {about: y, by: 30}`, or `attitude: {up: [-0.5, 0, 0.866]}` with the load's direction that is to point up"

var attitudeKeys = []key[attitudeDraft]{
	{name: "about", takes: "x, y, -x or -y", read: func(r *reader, n *yaml.Node, a *attitudeDraft) { a.turn.about, _ = r.word(n, "x", "y", "-x", "-y") }},
	{name: "by", takes: anAngle + ", that the load is turned from how it is drawn", read: func(r *reader, n *yaml.Node, a *attitudeDraft) {
		a.turn.by, a.given = r.angle(n, -180, 180)
	}},
	{name: "up", takes: "the load's direction that is to point up, [x, y, z]", read: readUp},
}

// readUp reads a direction: plain numbers, of any length but none.
func readUp(r *reader, n *yaml.Node, a *attitudeDraft) {
	if n.Kind != yaml.SequenceNode || len(n.Content) != 3 {
		r.notThis(n, "a direction [x, y, z]")
		return
	}
	var up geom.Vec
	for i, one := range n.Content {
		x, ok := quantity(r, one, aNumber, units.ParseNumber)
		if !ok {
			return
		}
		up[i] = x
	}
	length := up.Len()
	if !(length > 1e-6 && length < 1e9) {
		r.bad(n, "a direction must have some length", "write the load's direction that is to point up, such as [0, 0, 1] for level")
		return
	}
	a.up = up.Mul(1 / length)
}

// readAttitude reads how the load is to hang. A load is turned by an angle, so
// that up as the load sees it turns the other way.
func readAttitude(r *reader, n *yaml.Node, l *Legs) {
	before := r.faults
	var a attitudeDraft
	if !walk(r, n, "attitude", attitudeKeys, &a) || r.faults > before {
		return
	}
	turned, pointed := a.given || a.turn.about != "", a.up != geom.Vec{}
	switch {
	case turned == pointed:
		r.bad(n, "an attitude is a turn or the direction that is to point up, one of the two", attitudeFix)
		return
	case turned && (!a.given || a.turn.about == ""):
		r.bad(n, "a turn needs both `about` and `by`", attitudeFix)
		return
	case turned:
		axis, by := strings.Index("xy", strings.TrimPrefix(a.turn.about, "-")), units.Radians(a.turn.by)
		if a.turn.about[0] == '-' {
			by = -by
		}
		a.up = geom.TurnAbout(axis, -by).Mul3x1(geom.Vec{0, 0, 1})
	}
	l.Up = &a.up
}

// attitudeFits sees that the attitude goes with lengths, hook and picks; it
// reports whether there was nothing to say.
func (r *reader) attitudeFits(n *yaml.Node, g Rigging) bool {
	before := r.faults
	switch {
	case g.Legs.Mode == "attitude" && g.Legs.Up == nil:
		r.bad(n, "legs cut for an attitude, and it is not said which", attitudeFix)
	case g.Legs.Up == nil:
	case g.Legs.Mode == "level":
		r.bad(n, "legs cut for level, and an `attitude` beside them", "write `lengths: attitude`, or take `attitude` away")
	case len(g.Picks) == 0:
		r.bad(n, "an `attitude`, but no `picks`: picks are proposed for a level load only", "write `picks: [{name: A, at: [x, y, z]}, ...]`")
	case g.Hook != nil && g.Hook.At != nil:
		r.bad(n, "a hook at a place beside an `attitude`, which gives the hook's line", "write `hook: {above: picks, height: 1200}`: above the pick that is the highest as the load hangs")
	}
	return r.faults == before
}

// ExtentTurned is the box of all parts, in metres, along the axes of a load that
// is turned about its origin.
func (l *Load) ExtentTurned(turn mgl64.Mat3) geom.Extent {
	return l.extent(geom.Pose{Turn: turn})
}
