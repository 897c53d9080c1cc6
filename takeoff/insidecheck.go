package takeoff

import (
	"fmt"
	"math"

	"go.yaml.in/yaml/v3"

	"plumbhook/geom"
)

// What of a written inside is pointed out. Common practice, no source: drawings
// give walls to the millimetre.
const (
	mostOutside = 0.001 // m, that it may stick out of its part, and this part of its own size
	mostInMetal = 0.01  // of the inside, in the material of its part
	mostLonger  = 5     // times as long as its part: a slip of units is ten times or more
)

// writtenInside is the space of contents as the file gives it.
type writtenInside struct {
	node  *yaml.Node
	host  Part
	space *solidAt
}

// seeInsides holds each inside that the file writes against its part, once all
// parts are known. A part that is too small to have it round it may be one of
// several, a floor between walls.
func (r *reader) seeInsides(parts []Part) {
	for _, in := range r.insides {
		if in.host.Solid == nil || in.host.Kind == "weld" || in.host.Kind == "bar" {
			continue // where it is is not known
		}
		own := geom.ExtentOf(in.host.Solid, in.host.Pose)
		if gap := between(own, in.space.box); gap > looseGap {
			r.bad(in.node, fmt.Sprintf("the inside lies %s from %q, whose contents it is to hold", metres(gap), in.host.Name),
				"place `inside` in the axes of the load, as the part itself is, not from the part's own corner")
			continue
		}
		r.insideFits(in, own, parts)
		r.insideInMetal(in, own)
	}
}

// insideFits tells of an inside that reaches out of its part, or is larger.
func (r *reader) insideFits(in writtenInside, own geom.Extent, parts []Part) {
	holds, room, of := in.space.volume(), boxVolume(own), ""
	box := own
	larger := holds > room*(1+leastFill)
	if larger {
		box, of = in.around(own, parts), " of all the parts around it"
	}
	by, way := furthestOut(in.space.box, box)
	if by <= mostOutside+mostOutside*in.space.box.Diagonal() {
		return
	}
	code, fix := "contents-outside", "correct the sizes or the place of `inside`, or those of the part"
	name := in.host.Name
	switch {
	case in.space.box.Diagonal() > mostLonger*box.Diagonal():
		r.bad(in.node, fmt.Sprintf("the inside is %s times as long as the box of %q", four(in.space.box.Diagonal()/box.Diagonal()), name), "look at the unit of its sizes; "+fix)
	case larger && box == own:
		r.warn(code, name, fmt.Sprintf("the inside that is written on line %d is larger than the box of %q, %s in %s", in.node.Line, name, cubicMetres(holds), cubicMetres(room)), fix)
	default:
		if !larger {
			of = fmt.Sprintf(" of the box of %q", name)
		}
		r.warn(code, name, fmt.Sprintf("the inside that is written on line %d sticks out%s by %s along %s", in.node.Line, of, metres(by), way), fix)
	}
}

// around returns the box of the part and of all others that the inside meets.
func (in writtenInside) around(own geom.Extent, parts []Part) geom.Extent {
	for _, p := range parts {
		if p.Solid == nil || p.Liquid != nil {
			continue
		}
		for _, b := range p.boxes(geom.Still()) {
			if between(b, in.space.box) <= looseGap {
				own = own.Union(b)
			}
		}
	}
	return own
}

// furthestOut returns how far one box reaches out of another, and on which side.
func furthestOut(in, box geom.Extent) (by float64, way string) {
	for i, name := range "xyz" {
		if d := in.Max[i] - box.Max[i]; d > by {
			by, way = d, "+"+string(name)
		}
		if d := box.Min[i] - in.Min[i]; d > by {
			by, way = d, "-"+string(name)
		}
	}
	return by, way
}

func boxVolume(e geom.Extent) float64 { s := e.Size(); return s[0] * s[1] * s[2] }

// insideInMetal warns of contents that stand where the part itself is.
func (r *reader) insideInMetal(in writtenInside, own geom.Extent) {
	if !in.host.bodily() || !thick(shared(own, in.space.box), cutSlack) {
		return
	}
	body := placed(in.host.Solid, in.host.Pose)
	body.fineness, in.space.fineness = overlapFineness, overlapFineness
	var cuts []*solidAt
	for _, c := range in.host.Cuts {
		cut := placed(c.Solid, c.Pose)
		cut.fineness = overlapFineness
		cuts = append(cuts, cut)
	}
	var o overlapper
	volume, doubt := o.common(body, in.space, cuts, nil)
	if least := volume - doubt; !(least > mostInMetal*in.space.volume()) {
		return
	}
	r.warn("contents-in-metal", in.host.Name, fmt.Sprintf("%s of the inside that is written on line %d, %s, lies in the material of %q: that place is weighed twice",
		percent(math.Round(1000*volume/in.space.volume())/1000), in.node.Line, cubicMetres(volume), in.host.Name),
		"give the part a cut where its contents are, or correct `inside`")
}
