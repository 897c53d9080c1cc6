package takeoff

import (
	"fmt"
	"io"
	"math"
	"path"
	"strings"

	"github.com/go-gl/mathgl/mgl64"
	"go.yaml.in/yaml/v3"

	"plumbhook/geom"
	"plumbhook/units"
)

const (
	anOutline   = "a list of corners [[x, y], ...] in order around it, or the name of a DXF drawing"
	aProfile    = "a list of points [[r, z], ...] in order around it"
	mostCorners = 2000
)

// outlineFields give the outline of a plate or a bar: its corners, or the
// drawing that they stand in.
var outlineFields = []key[dims]{
	{name: "outline", takes: anOutline, must: true, read: func(r *reader, n *yaml.Node, d *dims) {
		if n.Kind == yaml.ScalarNode {
			d.drawing = n
			return
		}
		d.outline, _ = r.corners(n, anOutline)
	}},
	{name: "holes", takes: "a list of outlines [[[x, y], ...], ...]", read: func(r *reader, n *yaml.Node, d *dims) {
		d.holesAt = n
		for _, hole := range r.list(n, "a list of outlines [[[x, y], ...], ...]") {
			if corners, ok := r.corners(hole, anOutline); ok {
				d.holes = append(d.holes, corners)
			}
		}
	}},
	{name: "units", takes: "the unit of the DXF drawing, if it names none: mm, cm, m, in or ft", read: func(_ *reader, n *yaml.Node, d *dims) { d.drawnIn = n }},
}

var profileKey = key[dims]{name: "outline", takes: aProfile, must: true, read: func(r *reader, n *yaml.Node, d *dims) {
	d.outline, _ = r.corners(n, aProfile)
}}

// corners returns the corners of an outline, in metres, and the arcs between
// them.
func (r *reader) corners(n *yaml.Node, takes string) (geom.Outline, bool) {
	list := r.list(n, takes)
	if len(list) > mostCorners {
		r.bad(n, fmt.Sprintf("%d corners; an outline has at most %d", len(list), mostCorners), "draw it with fewer corners, or give it as a mesh")
		return nil, false
	}
	var out geom.Outline
	arcs := make([]arc, len(list))
	for i, one := range list {
		var at mgl64.Vec2
		var ok bool
		if one.Kind == yaml.MappingNode {
			arcs[i], ok = r.arc(one)
			at = arcs[i].to
		} else {
			var xy []float64
			if xy, ok = r.tuple(one, 2, "a corner [x, y]"); ok {
				at = mgl64.Vec2{xy[0], xy[1]}
			}
		}
		if !ok {
			return nil, false
		}
		out = append(out, geom.Vertex{At: at})
	}
	return out, r.bow(out, arcs, list) && len(out) > 0
}

// readDrawing is a DXF drawing as it was read, in its own unit, or why it
// can't be.
type readDrawing struct {
	loops []geom.Loop
	unit  float64 // m, 0 where the drawing names none
	fault *fault
}

// drawnOutline tells whether a solid takes its outline from a drawing.
func drawnOutline(n *yaml.Node) bool {
	for i := 0; i+1 < len(n.Content); i += 2 {
		if n.Content[i].Value == "outline" && n.Content[i+1].Kind == yaml.ScalarNode {
			return true
		}
	}
	return false
}

// fetchOutline takes the outline and the holes of a solid from the drawing
// that it names.
func (r *reader) fetchOutline(d *dims, beside *yaml.Node) bool {
	if d.drawnIn == nil {
		d.drawnIn = beside
	}
	switch {
	case d.drawing == nil && d.drawnIn != nil && d.drawnIn != beside:
		r.bad(d.drawnIn, "`units` here is the unit of a DXF drawing, and the outline is not taken from one",
			"take it away: bare lengths take the `units` at the top; a single length may carry its own")
		return false
	case d.drawing == nil:
		return true
	case d.holesAt != nil:
		r.bad(d.holesAt, "the holes of an outline that is taken from a drawing stand in the drawing", "take `holes` away, or cut them by `cuts`")
		return false
	}
	name, ok := r.text(d.drawing)
	if !ok {
		return false
	}
	drawing := r.source.drawing(name)
	if drawing.fault != nil {
		r.bad(d.drawing, fmt.Sprintf("the drawing %s can't be read: %s", short(name), drawing.fault.text), drawing.fault.fix)
		return false
	}
	var said units.LengthUnit
	if d.drawnIn != nil {
		if said = r.unit(d.drawnIn); said.Metres == 0 {
			return false
		}
	}
	unit, f := settleUnit("drawing", drawing.unit, said)
	if f != nil {
		r.bad(d.drawing, f.text, f.fix)
		return false
	}
	d.outline = drawing.loops[0].Outline(unit.Metres)
	for _, hole := range drawing.loops[1:] {
		d.holes = append(d.holes, hole.Outline(unit.Metres))
	}
	d.drawnUnit = unit
	return true
}

// drawing reads a DXF drawing named by the load file, by the rules for meshes.
func (s *source) drawing(name string) readDrawing {
	full, f := s.path(name, "drawings/flange.dxf")
	if f == nil && strings.ToLower(path.Ext(full)) != ".dxf" {
		f = &fault{"its ending is not .dxf", "save the outline as DXF in text (ASCII), or write its corners [[x, y], ...]"}
	}
	if f != nil {
		return readDrawing{fault: f}
	}
	d, again := s.drawings[full]
	if again {
		return d
	}
	d.fault, _ = s.use(full, func(in io.Reader) (err error) {
		d.loops, d.unit, err = geom.ReadDXF(in, s.opt.Limits)
		return err
	})
	s.drawings[full] = d
	return d
}

// warnDrawn warns of an outline from a drawing that is oddly large or small, or
// lies far from the drawing's own origin, which is what `at` places.
func (r *reader) warnDrawn(d dims, placed placing, s geom.Solid, part string) {
	if d.drawing == nil {
		return
	}
	if text := oddSize("outline", s, d.drawnUnit); text != "" {
		r.warn("drawing-size", part, text, "look at the unit of the drawing")
	}
	box := geom.ExtentOf(s, geom.Still())
	middle, size := box.Center(), box.Size()
	away := math.Max(math.Abs(middle[0]), math.Abs(middle[1]))
	if placed.at != nil && away > 2*max(size[0], size[1]) {
		r.warn("drawing-origin", part, fmt.Sprintf("`at` puts the drawing's own origin, 0,0, in its place, and the outline lies %s from there", metres(away)),
			"see that this is meant, or place it by `corner` or `center`")
	}
}
