package takeoff

import (
	"errors"
	"fmt"
	"math"

	"go.yaml.in/yaml/v3"

	"plumbhook/density"
	"plumbhook/geom"
	"plumbhook/units"
)

const (
	aSection = "a designation, such as HEA 200 or W12x26, with `length` or `from` and `to` beside it"
	aPipe    = "a designation, such as NPS 6 sch 40, with `length` or `from` and `to` beside it"
)

// steel is the density that the masses of the section tables stand for, in
// kg/m³; a material within steelSpan of it, as one of 490 lb/ft³, is steel.
const (
	steel     = 7850.0
	steelSpan = 0.0005

	lightSection = 0.9 // a section this much lighter than steel is asked about, if its material is the default
)

// pipeField is the pipe that a bend is made of.
var pipeField = key[dims]{name: "pipe", takes: "a designation, such as NPS 6 sch 40", read: func(r *reader, n *yaml.Node, d *dims) {
	d.section, _ = r.section(kind{name: "pipe"}, n)
}}

// section looks up a designation.
func (r *reader) section(k kind, n *yaml.Node) (density.Section, bool) {
	if n.Kind == yaml.MappingNode {
		r.bad(n, fmt.Sprintf("a `%s` is named by its designation alone; this is a group of keys", k.name),
			"write `"+k.name+": HEA 200`, and `length:` or `from:` and `to:` beside it")
		return density.Section{}, false
	}
	name, ok := r.text(n)
	if !ok {
		return density.Section{}, false
	}
	s, err := density.FindSection(name)
	if err != nil {
		fix := "`plumbhook sections` lists the designations"
		if u := (*density.UnknownError)(nil); errors.As(err, &u) {
			fix = u.Fix() + "; " + fix
		} else if u := (*density.SizeError)(nil); errors.As(err, &u) {
			fix = u.Fix()
		}
		r.bad(n, err.Error(), fix)
		return density.Section{}, false
	}
	if k.name == "pipe" && s.Shape != density.RoundHollow {
		r.bad(n, fmt.Sprintf("%s is not a pipe but a %s", s.Name, s.Shape), "write it as `section: "+s.Name+"`, or name a pipe, such as NPS 6 sch 40")
		return density.Section{}, false
	}
	return s, true
}

// lengthBeside reads the length that stands beside a designation.
func (r *reader) lengthBeside(k kind, d draft, size dims, text *string) bool {
	if !k.named || d.length == nil {
		return true
	}
	l, ok := r.positive(d.length)
	size.named["length"] = l
	*text += ", length " + written(d.length)
	return ok
}

// weighSection gives a part the density with which the outline of its section
// comes to the mass in the table, so that cuts and inertia agree with it: the
// outline differs where the table leaves out radii, or rounds.
func (r *reader) weighSection(size dims, d draft, m stuff, p *Part) {
	s, length := size.section, size.named["length"]
	area := p.Solid.Moments().Volume / length
	scale, of := 1.0, ""
	if math.Abs(float64(m.Density)/steel-1) > steelSpan {
		scale = float64(m.Density) / steel
		of = fmt.Sprintf(" × %s / %g of %s", four(float64(m.Density)), steel, m)
	}
	if p.MaterialDefault && scale < lightSection {
		r.warn("section-not-steel", p.Name, fmt.Sprintf("%s is a section of steel, and took the load's material: its mass by the table is multiplied by %s / %g for %s",
			s.Name, four(float64(m.Density)), steel, m), "write `material:` on the part")
	}
	p.Material.Density = units.Density(s.PerLength * scale / area)
	allowed, why := span{-m.Tolerance, m.Tolerance}, "spread of the density alone, sizes taken as exact"
	if t, ok := s.MassTolerance(); ok {
		why = t.Source
		if t.Basis == "from memory" {
			why += ", from memory"
		}
		if table := (span{t.Low, t.High}); scale == 1 {
			allowed = table
		} else {
			allowed = table.wider(allowed)
		}
	}
	allowed, why = r.byForm(d, m, p, gauge{thickness: max(s.Web, s.Wall), depth: s.Depth}, allowed, why)
	allowed, why = r.spread(d, allowed, why)
	p.Low, p.High = allowed.low, allowed.high
	p.Basis = fmt.Sprintf("%s of %s %s (%s)%s × %s; %s: %s", kgPerMetre(s.PerLength), s.Standard, s.Name, s.Basis, of, metres(length), allowed, why)
	if s.Note != "" && scale == 1 {
		p.Basis += "; " + s.Note
	}
}

// twoAxes tells whether a section looks the same when it is turned half round.
// Prisms and polygons are taken as if it does not.
func (d dims) twoAxes() bool {
	switch d.section.Shape {
	case density.Channel, density.TaperedChannel, density.Angle, density.Tee:
		return false
	}
	return d.section.Name != ""
}

// round tells whether a section looks the same however it is turned.
func (d dims) round() bool {
	return d.section.Shape == density.Round || d.section.Shape == density.RoundHollow
}

// lines are where a line of a section can run, with the shapes that have it.
const someLines = "top, bottom, back (of a channel) or heel (of an angle)"

// lineAt returns where a line of a section passes through its own x-y plane,
// in metres: that of its centroids, unless another is named.
func (r *reader) lineAt(size dims, s geom.Solid, p placing) (geom.Vec, bool) {
	at := s.Moments().Centroid()
	at[2] = 0
	if p.line == nil {
		return at, true
	}
	shape := size.section.Shape
	channel := shape == density.Channel || shape == density.TaperedChannel
	switch w, ok := r.word(p.line, "top", "bottom", "back", "heel"); {
	case !ok:
		return at, false
	case w == "top":
		at[1] = s.Reach(geom.Vec{0, 1, 0})
	case w == "bottom":
		at[1] = -s.Reach(geom.Vec{0, -1, 0})
	case w == "back" && channel:
		at[0] = -s.Reach(geom.Vec{-1, 0, 0})
	case w == "heel" && shape == density.Angle:
		at[0], at[1] = -s.Reach(geom.Vec{-1, 0, 0}), -s.Reach(geom.Vec{0, -1, 0})
	default:
		r.bad(p.line, fmt.Sprintf("this has no `%s`: a channel has a back, an angle a heel", w), "write top or bottom, or leave `line` out for the line through its centroids")
		return at, false
	}
	return at, true
}
