package takeoff

import (
	"fmt"
	"math"
	"strconv"

	"github.com/go-gl/mathgl/mgl64"
	"go.yaml.in/yaml/v3"

	"plumbhook/geom"
	"plumbhook/units"
)

// A part is repeated in this order: a row of copies a step apart, all of the
// row turned about an axis, all of that mirrored in a plane. Each makes places
// of the places before it, and each keeps them first, so that the first copy
// stands where the part was put.

const (
	anAround = "{axis: z, through: [x, y, z], count: 6}"
	aMirror  = "{across: x, at: 1200}"
)

// circle is the copies that stand around an axis.
type circle struct {
	axis    int // 0, 1 or 2
	through geom.Vec
	count   int
	angle   float64 // degrees between neighbours; 0: evenly round the full circle
}

var aroundKeys = []key[circle]{
	{name: "axis", takes: "x, y or z", must: true, read: func(r *reader, n *yaml.Node, c *circle) { c.axis = r.axis(n) }},
	{name: "through", takes: "a place [x, y, z] that the axis runs through", must: true, read: func(r *reader, n *yaml.Node, c *circle) {
		c.through, _ = r.place(n)
	}},
	{name: "count", takes: aWhole, must: true, read: func(r *reader, n *yaml.Node, c *circle) { c.count, _ = r.copies(n) }},
	{name: "angle", takes: "the degrees from one copy to the next, where they do not fill the circle", read: func(r *reader, n *yaml.Node, c *circle) {
		a, ok := r.angle(n, -360, 360)
		if ok && !(math.Abs(a) >= leastAngle) {
			r.bad(n, "the angle from one copy to the next is zero", "write the degrees between two copies, or take `angle` away: they then fill the circle evenly")
		}
		c.angle = a
	}},
}

// leastAngle is the least angle between copies, in degrees: at 10 m from the
// axis it moves them by 0.2 mm.
const leastAngle = 0.001

// mirrorPlane is what a part is mirrored in.
type mirrorPlane struct {
	across int     // 0, 1 or 2: the axis that is square to it
	at     float64 // m, along that axis
}

var mirrorKeys = []key[mirrorPlane]{
	{name: "across", takes: "x, y or z: the axis square to the plane", must: true, read: func(r *reader, n *yaml.Node, p *mirrorPlane) { p.across = r.axis(n) }},
	{name: "at", takes: "where the plane stands on that axis, such as 1200", must: true, read: func(r *reader, n *yaml.Node, p *mirrorPlane) {
		p.at, _ = r.length(n)
	}},
}

// axis returns the number of an axis of the load.
func (r *reader) axis(n *yaml.Node) int {
	w, ok := r.word(n, "x", "y", "z")
	if !ok {
		return 0
	}
	return int(w[0] - 'x')
}

// patternKeys repeat a part, or a cut.
func patternKeys() []key[draft] {
	return []key[draft]{
		keep("count", aWhole, func(d *draft) **yaml.Node { return &d.count }),
		keep("step", "the way [dx, dy, dz] from one copy to the next", func(d *draft) **yaml.Node { return &d.step }),
		keep("around", anAround, func(d *draft) **yaml.Node { return &d.around }),
		keep("mirror", aMirror, func(d *draft) **yaml.Node { return &d.mirror }),
	}
}

// pattern reads how a part is repeated: step, then around, then mirror.
func (r *reader) pattern(d draft, p *Part) {
	p.Places = r.steps(d)
	if d.around != nil {
		p.Places = r.turned(d.around, p.Places)
	}
	if d.mirror != nil {
		p.Places = r.mirrored(d.mirror, p.Places)
	}
	p.Count = len(p.Places)
}

// steps reads count and step.
func (r *reader) steps(d draft) []geom.Pose {
	count := 1
	if d.count != nil {
		if c, ok := r.copies(d.count); ok {
			count = c
		}
	}
	var step geom.Vec
	switch {
	case d.step == nil && count > 1:
		fix := "write `step: [dx, dy, dz]`, the way from one copy to the next"
		if d.around != nil {
			fix += "; the number around an axis is written in `around`"
		}
		r.bad(d.count, fmt.Sprintf("%d copies in one place", count), fix)
		count = 1
	case d.step != nil && d.count == nil:
		r.bad(d.step, "`step` without `count`", "write `count:` with how many there are, the first included")
	case d.step != nil:
		s, ok := r.place(d.step)
		if ok && count > 1 && !(s.Len() >= thinnest) {
			r.bad(d.step, "the step from one copy to the next is zero", "write `step: [dx, dy, dz]` with the distance between two copies")
		}
		step = s
	}
	var places []geom.Pose
	for k := range count {
		places = append(places, geom.Still().Shifted(step.Mul(float64(k))))
	}
	return places
}

// turned reads `around` and turns all places about its axis.
func (r *reader) turned(n *yaml.Node, places []geom.Pose) []geom.Pose {
	before := r.faults
	var c circle
	if !walk(r, n, "`around`", aroundKeys, &c) || r.faults > before {
		return places
	}
	if c.angle == 0 {
		c.angle = 360 / float64(c.count)
	}
	switch round := math.Abs(c.angle) * float64(c.count-1); {
	case !(round <= 360-leastAngle):
		r.bad(n, fmt.Sprintf("%d copies %g° apart go more than once around", c.count, c.angle), "write fewer, or a smaller `angle`; without `angle` they fill the circle evenly")
		return places
	case r.tooMany(n, c.count*len(places)):
		return places
	}
	var out []geom.Pose
	for k := range c.count {
		turn := about(c.axis, c.through, units.Radians(c.angle*float64(k)))
		for _, p := range places {
			out = append(out, turn.After(p))
		}
	}
	return out
}

// mirrored reads `mirror` and adds the mirror image of all places.
func (r *reader) mirrored(n *yaml.Node, places []geom.Pose) []geom.Pose {
	before := r.faults
	var m mirrorPlane
	if !walk(r, n, "`mirror`", mirrorKeys, &m) || r.faults > before || r.tooMany(n, 2*len(places)) {
		return places
	}
	out, image := places, mirror(m.across, m.at)
	for _, p := range places {
		out = append(out, image.After(p))
	}
	return out
}

// tooMany reports whether a pattern makes more copies than a part may have.
func (r *reader) tooMany(n *yaml.Node, copies int) bool {
	if copies <= r.source.opt.mostCopies() {
		return false
	}
	r.badCopies(n, strconv.Itoa(copies))
	return true
}

func (r *reader) badCopies(n *yaml.Node, copies string) {
	r.bad(n, fmt.Sprintf("%s copies of one part; at most %d are read", copies, r.source.opt.mostCopies()),
		"join small parts into one `weight`, make several parts of it, "+raiseParts)
}

// copies reads how many of one part there are.
func (r *reader) copies(n *yaml.Node) (int, bool) {
	f, ok := quantity(r, n, aWhole, units.ParseNumber)
	if ok && f > float64(r.source.opt.mostCopies()) {
		r.badCopies(n, short(n.Value))
		return 0, false
	}
	if !ok {
		return 0, false
	}
	return r.whole(n, r.source.opt.mostCopies())
}

// about returns the right-handed turn by an angle (rad) about an axis of the
// load's direction 0 (x), 1 (y) or 2 (z) through a place.
func about(axis int, through geom.Vec, angle float64) geom.Pose {
	turn := geom.TurnAbout(axis, angle)
	return geom.Pose{Turn: turn, Move: through.Sub(turn.Mul3x1(through))}
}

// mirror returns the motion that mirrors in the plane square to an axis at a
// place on it (m).
func mirror(axis int, at float64) geom.Pose {
	image := geom.Pose{Turn: mgl64.Ident3()}
	image.Turn.Set(axis, axis, -1)
	image.Move[axis] = 2 * at
	return image
}

// sameSpot is how near two copies lie to each other when they are one and the
// same, in metres.
const sameSpot = 1e-6

// apart sees that no two copies of a part fill the same place: a turn about
// the part's own axis, or a mirror through its middle. Copies that overlap
// otherwise are for the check of the whole load.
func (r *reader) apart(d draft, centers []geom.Vec, boxes func() []geom.Extent) {
	n := d.mirror
	if d.around != nil {
		n = d.around
	}
	if n == nil { // copies a step apart can't
		return
	}
	var all []geom.Extent // asked for only where centres of gravity coincide
	for i := range centers {
		for j := range i {
			if !(centers[i].Sub(centers[j]).Len() <= sameSpot) {
				continue
			}
			if all == nil {
				all = boxes()
			}
			a, b := all[i], all[j]
			if a.Min.Sub(b.Min).Len() <= sameSpot && a.Max.Sub(b.Max).Len() <= sameSpot {
				r.bad(n, fmt.Sprintf("copies %d and %d of the part lie in the same place: it would be weighed twice there", j+1, i+1),
					"move the axis or the plane away from the part's middle, or take fewer copies")
				return
			}
		}
	}
}

// centers returns the centre of gravity of each copy.
func (p Part) centers() []geom.Vec {
	first := p.firstCG()
	var out []geom.Vec
	for _, c := range p.Places {
		out = append(out, c.Point(first))
	}
	return out
}
