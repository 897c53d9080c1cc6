package geom

import (
	"fmt"
	"math"
	"strings"
)

// dxfPassed is what draws no outline.
const dxfPassed = " TEXT MTEXT ATTDEF ATTRIB DIMENSION ARC_DIMENSION LARGE_RADIAL_DIMENSION LEADER MLEADER MULTILEADER" +
	" TOLERANCE POINT HATCH XLINE RAY VIEWPORT IMAGE WIPEOUT OLEFRAME OLE2FRAME ACAD_TABLE LIGHT SUN" +
	" PDFUNDERLAY DWFUNDERLAY DGNUNDERLAY SECTION CAMERA GEOPOSITIONMARKER SEQEND "

// dxfEntity is one thing drawn, with its groups.
type dxfEntity struct {
	kind   string
	line   int
	layer  string
	paper  bool
	groups []dxfGroup
}

// entity reads the groups of an entity up to the next.
func (d *dxfReader) entity(start dxfGroup) (dxfEntity, error) {
	e := dxfEntity{kind: start.value, line: start.line}
	for {
		g, err := d.next()
		switch {
		case err != nil:
			return e, err
		case g.code == 0:
			d.held = &g
			return e, nil
		case g.code == 8:
			e.layer = g.value
		case g.code == 67 && g.value == "1":
			e.paper = true
		case listed(dxfPassed, e.kind) || g.code >= 1000 || g.code == 999:
			continue // texts can be long
		}
		if len(e.groups) > 16*d.most {
			return e, e.fault("has too many numbers to be part of an outline", fixDXF)
		}
		e.groups = append(e.groups, g)
	}
}

// entities reads what is drawn.
func (d *dxfReader) entities() error {
	return d.section(func(g dxfGroup) error {
		if g.code != 0 {
			return nil
		}
		e, err := d.entity(g)
		if err != nil {
			return err
		}
		if e.kind == "POLYLINE" {
			return d.polyline(e)
		}
		if e.paper || listed(dxfPassed, e.kind) {
			return nil
		}
		return d.draw(e)
	})
}

func (d *dxfReader) draw(e dxfEntity) error {
	switch e.kind {
	case "LINE":
		return d.line(e)
	case "ARC", "CIRCLE":
		return d.arc(e)
	case "LWPOLYLINE":
		return d.lightPolyline(e)
	case "VERTEX":
		return e.fault("stands outside a POLYLINE", fixDXF)
	case "INSERT":
		return d.insert(e)
	case "SPLINE", "ELLIPSE", "HELIX":
		return e.fault("is a curve that is not read: only straight lines and arcs of circles are",
			"replace it by lines and arcs in the drawing program (to the accuracy that the plate is cut to), and save again")
	}
	return e.fault("is not read", "take it out if it is not part of the outline, or replace it by lines and arcs, and save again")
}

// insert lets a block pass that holds no lines, such as the texts of a frame.
func (d *dxfReader) insert(e dxfEntity) error {
	name := ""
	for _, g := range e.groups {
		if g.code == 2 {
			name = g.value
		}
	}
	if drawn, known := d.blocks[strings.ToUpper(name)]; known && !drawn {
		return nil
	}
	return e.fault(fmt.Sprintf("puts in the block %s, which is not read", quotedText(name)),
		"explode the block into its lines in the drawing program, or take it out, and save again")
}

// fault is an error that names the entity.
func (e dxfEntity) fault(msg, fix string) *FileError {
	kind := e.kind
	if e.layer != "" {
		kind += " on layer " + quotedText(e.layer)
	}
	return &FileError{Line: e.line, Msg: printable(kind) + " " + msg, Fix: fix}
}

func quotedText(s string) string { return quoted([]byte(printable(s))) }

// number returns the value of a group; the last where there are more.
func (e dxfEntity) number(code int, what string) (float64, error) {
	for i := len(e.groups) - 1; i >= 0; i-- {
		if e.groups[i].code == code {
			return e.groups[i].number(e)
		}
	}
	return 0, e.fault(fmt.Sprintf("has no %s (group %d)", what, code), fixDXF)
}

// optional returns the value of a group, or another where there is none.
func (e dxfEntity) optional(code int, otherwise float64) (float64, error) {
	for _, g := range e.groups {
		if g.code == code {
			return e.number(code, "")
		}
	}
	return otherwise, nil
}

func (g dxfGroup) number(e dxfEntity) (float64, error) {
	c, msg := parseCoordinate([]byte(g.value))
	if msg != "" {
		fault := e.fault(fmt.Sprintf("has, as group %d, %s, which %s", g.code, quoted([]byte(g.value)), msg), fixNumber)
		fault.Line = g.line
		return 0, fault
	}
	return c, nil
}

// flags returns the bits of group 70.
func (e dxfEntity) flags() (int, error) {
	f, err := e.optional(70, 0)
	if err == nil && (f < 0 || f > 1<<15 || f != math.Trunc(f)) {
		err = e.fault("has flags (group 70) that are no small whole number", fixDXF)
	}
	return int(f), err
}
