package takeoff

import (
	"fmt"

	"go.yaml.in/yaml/v3"

	"plumbhook/geom"
	"plumbhook/units"
)

// Outside is what acts on the load beside gravity and the legs. nil: not stated.
type Outside struct {
	Wind    *Wind
	TagLine *TagLine
	LiftOff *LiftOff
}

// Wind is the wind that the lift is planned for: a speed or a pressure.
type Wind struct {
	Speed       units.Speed    // 0: the pressure is given
	Pressure    units.Pressure // 0: the speed is given
	From        *geom.Vec      // level, of length 1; nil: from any side
	ShapeFactor float64        // 0: not stated
	Area        units.Area     // across the wind; 0: that of the load's box
	At          *geom.Vec      // m, the centre of that area; nil: that of the box
	Line        int
}

// TagLine is a line that people on the ground hold the load by.
type TagLine struct {
	Pull   units.Force // 0: not stated
	Toward *geom.Vec   // level, of length 1
	At     geom.Vec    // m, where it is made fast to the load
	Line   int
}

// LiftOff is what holds the load down until it is off the ground.
type LiftOff struct {
	Pull        units.Pressure // of suction or adhesion
	Adhesion    bool           // else suction
	Area        units.Area     // 0: that of the box's underside
	At          *geom.Vec      // m, the centre of that area; nil: that of the box's underside
	WithDynamic bool           // the dynamic factor is taken on top of it
	Line        int
}

const (
	aSpeed    = "a speed of the wind with its unit, such as 10 m/s or 20 mph"
	aPressure = "a force on an area with its unit, such as 100 N/m2 or 2 psf"
	aForce    = "a force with its unit, such as 300 N or 70 lbf"
	aWindArea = "an area with its unit, such as 6 m2 or 65 ft2"
	aLevel    = "a level direction: x, y, -x, -y or [x, y, 0]"
)

// Bounds on what is taken for meant: a hurricane, the weight of the air, more
// than a crowd can pull, a field.
const (
	mostWind     = units.Speed(60)
	mostPressure = units.Pressure(3000)
	mostSuction  = units.Pressure(100e3)
	mostPull     = units.Force(100e3)
	mostArea     = units.Area(10e3)
)

// within0 reads a quantity that is more than nothing and no more than most.
func within0[T ~float64](r *reader, n *yaml.Node, takes string, most T, show string, parse func(string) (T, error)) T {
	x, ok := quantity(r, n, takes, parse)
	if ok && !(x > 0 && x <= most) {
		r.bad(n, fmt.Sprintf("%s must be more than zero and at most %s", short(n.Value), show), "write "+takes)
		return 0
	}
	return x
}

func (r *reader) forceOf(n *yaml.Node) units.Force {
	return within0(r, n, aForce, mostPull, "100 kN", units.ParseForce)
}

func (r *reader) areaOf(n *yaml.Node) units.Area {
	return within0(r, n, aWindArea, mostArea, "10000 m2", units.ParseArea)
}

func (r *reader) suction(n *yaml.Node) units.Pressure {
	return within0(r, n, aPressure, mostSuction, "100 kN/m2, the weight of the air", units.ParsePressure)
}

// levelWay reads a level direction.
func (r *reader) levelWay(n *yaml.Node) *geom.Vec {
	v, ok := r.direction(n)
	if ok && (v[2] > 1e-9 || v[2] < -1e-9) {
		r.bad(n, "a direction that is not level", "write "+aLevel)
		return nil
	}
	return &v
}

func (r *reader) somewhere(n *yaml.Node) *geom.Vec {
	v, ok := r.place(n)
	if !ok {
		return nil
	}
	return &v
}

var windKeys = []key[Wind]{
	{name: "speed", takes: aSpeed, read: func(r *reader, n *yaml.Node, w *Wind) {
		w.Speed = within0(r, n, aSpeed, mostWind, "60 m/s", units.ParseSpeed)
	}},
	{name: "pressure", takes: aPressure, read: func(r *reader, n *yaml.Node, w *Wind) {
		w.Pressure = within0(r, n, aPressure, mostPressure, "3 kN/m2", units.ParsePressure)
	}},
	{name: "from", takes: aLevel, read: func(r *reader, n *yaml.Node, w *Wind) { w.From = r.levelWay(n) }},
	{name: "shape factor", takes: "a plain number, such as 1.2", read: func(r *reader, n *yaml.Node, w *Wind) {
		w.ShapeFactor = within0(r, n, "a plain number, such as 1.2", 4.0, "4", units.ParseNumber)
	}},
	{name: "area", takes: aWindArea, read: func(r *reader, n *yaml.Node, w *Wind) { w.Area = r.areaOf(n) }},
	{name: "at", takes: "the centre of the area, [x, y, z]", read: func(r *reader, n *yaml.Node, w *Wind) { w.At = r.somewhere(n) }},
}

func readWind(r *reader, n *yaml.Node, l *Load) {
	const fix = "write `wind: {speed: 10 m/s}` or `wind: {pressure: 100 N/m2}`"
	before, w := r.faults, Wind{Line: n.Line}
	if !walk(r, n, "`wind`", windKeys, &w) || r.faults > before {
		return
	}
	switch {
	case w.Speed == 0 && w.Pressure == 0:
		r.bad(n, "the wind has neither a `speed` nor a `pressure`", fix)
	case w.Speed != 0 && w.Pressure != 0:
		r.bad(n, "the wind has a `speed` and a `pressure`", "keep one: half the density of the air times the speed squared is the pressure")
	case w.At != nil && w.Area == 0:
		r.bad(n, "the centre of an area without the area", "give the `area` that the wind pushes on as well")
	}
	l.Rigging.Wind = &w
}

var tagLineKeys = []key[TagLine]{
	{name: "pull", takes: aForce, read: func(r *reader, n *yaml.Node, t *TagLine) { t.Pull = r.forceOf(n) }},
	{name: "toward", takes: aLevel, read: func(r *reader, n *yaml.Node, t *TagLine) { t.Toward = r.levelWay(n) }},
	{name: "at", takes: aPlace, must: true, read: func(r *reader, n *yaml.Node, t *TagLine) { t.At, _ = r.place(n) }},
}

func readTagLine(r *reader, n *yaml.Node, l *Load) {
	before, t := r.faults, TagLine{Line: n.Line}
	if !walk(r, n, "`tag line`", tagLineKeys, &t) || r.faults > before {
		return
	}
	switch {
	case (t.Pull != 0) != (t.Toward != nil):
		r.bad(n, "a tag line's `pull` and `toward` go together", "write `tag line: {pull: 300 N, toward: y, at: [x, y, z]}`, or `at` alone")
	case t.Pull == 0 && l.Rigging.Wind == nil:
		r.bad(n, "a tag line without a `pull`, and no `wind` for it to hold the load against", "write its `pull` and `toward`, or a `wind`")
	}
	l.Rigging.TagLine = &t
}

var liftOffKeys = []key[LiftOff]{
	{name: "suction", takes: aPressure, read: func(r *reader, n *yaml.Node, o *LiftOff) { o.Pull += r.suction(n) }},
	{name: "adhesion", takes: aPressure, read: func(r *reader, n *yaml.Node, o *LiftOff) {
		if o.Pull > 0 {
			r.bad(n, "both `suction` and `adhesion`", "give one: what they come to together, if they do")
			return
		}
		o.Pull, o.Adhesion = r.suction(n), true
	}},
	{name: "area", takes: "an area with its unit, such as 3 m2, or `underside`: that of the load's box", must: true, read: func(r *reader, n *yaml.Node, o *LiftOff) {
		if n.Value != "underside" {
			o.Area = r.areaOf(n)
		}
	}},
	{name: "at", takes: "the centre of the area, [x, y, z]", read: func(r *reader, n *yaml.Node, o *LiftOff) { o.At = r.somewhere(n) }},
	{name: "with dynamic", takes: aYesOrNo, read: func(r *reader, n *yaml.Node, o *LiftOff) { o.WithDynamic, _ = r.yesOrNo(n) }},
}

func readLiftOff(r *reader, n *yaml.Node, l *Load) {
	before, o := r.faults, LiftOff{Line: n.Line}
	if !walk(r, n, "`lift-off`", liftOffKeys, &o) || r.faults > before {
		return
	}
	if o.Pull == 0 {
		r.bad(n, "`lift-off` has neither `suction` nor `adhesion`", "write `lift-off: {suction: 2 kN/m2, area: 3 m2}`")
	}
	l.Rigging.LiftOff = &o
}
