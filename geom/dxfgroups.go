package geom

import (
	"fmt"
	"strconv"
	"strings"
)

// dxfGroup is a pair of lines: a number that says what the value is, and the
// value.
type dxfGroup struct {
	code  int
	value string
	line  int // of the value
}

type dxfReader struct {
	words  *wordReader
	held   *dxfGroup // read ahead
	unit   float64
	blocks map[string]bool // by name: whether there is something drawn in it that is not passed over
	most   int             // pieces
	pieces int
	paths  []dxfPath
}

// next returns the next group.
func (d *dxfReader) next() (dxfGroup, error) {
	if g := d.held; g != nil {
		d.held = nil
		return *g, nil
	}
	text, line, ok := d.words.wholeLine()
	if !ok {
		return dxfGroup{}, d.cutOff()
	}
	code, err := strconv.Atoi(text)
	if err != nil || code < -10 || code > 10_000 {
		return dxfGroup{}, &FileError{Line: line, Msg: fmt.Sprintf("expected the number of a group, found %s: not a DXF file, or damaged", quoted([]byte(text))), Fix: fixDXF}
	}
	value, line, ok := d.words.wholeLine()
	if !ok {
		return dxfGroup{}, d.cutOff()
	}
	return dxfGroup{code, value, line}, nil
}

func (d *dxfReader) cutOff() error {
	if d.words.err != nil {
		return d.words.err
	}
	return &FileError{Line: d.words.line, Msg: "the file ends without its last line, \"EOF\": it is cut off, or not a DXF file", Fix: fixDXF}
}

// nextOutside returns the next group that is not a comment.
func (d *dxfReader) nextOutside() (dxfGroup, error) {
	for {
		if g, err := d.next(); err != nil || g.code != 999 {
			return g, err
		}
	}
}

// read goes through the sections of the drawing.
func (d *dxfReader) read() error {
	for {
		g, err := d.nextOutside()
		switch {
		case err != nil:
			return err
		case g.code == 0 && g.value == "EOF":
			return nil
		case g.code != 0 || g.value != "SECTION":
			return &FileError{Line: g.line, Msg: fmt.Sprintf("expected a section of the drawing, found %s", quoted([]byte(g.value))), Fix: fixDXF}
		}
		name, err := d.next()
		if err != nil {
			return err
		}
		switch name.value {
		case "HEADER":
			err = d.header()
		case "BLOCKS":
			err = d.readBlocks()
		case "ENTITIES":
			err = d.entities()
		default:
			err = d.section(func(dxfGroup) error { return nil })
		}
		if err != nil {
			return err
		}
	}
}

// section calls visit for every group up to the end of the section.
func (d *dxfReader) section(visit func(dxfGroup) error) error {
	for {
		g, err := d.next()
		if err != nil {
			return err
		}
		if g.code == 0 && g.value == "ENDSEC" {
			return nil
		}
		if err := visit(g); err != nil {
			return err
		}
	}
}

// unitsDXF are what $INSUNITS may name, in metres, from 0: none, inch, foot,
// mile, millimetre, centimetre, metre, kilometre, microinch, thousandth of an
// inch, yard, ångström, nanometre, micrometre, decimetre, decametre, hectometre.
// Source: the public DXF reference, header variables (read).
var unitsDXF = []float64{0, 0.0254, 0.3048, 1609.344, 0.001, 0.01, 1, 1000, 2.54e-8, 2.54e-5, 0.9144, 1e-10, 1e-9, 1e-6, 0.1, 10, 100}

// header looks for the unit.
func (d *dxfReader) header() error {
	name := ""
	return d.section(func(g dxfGroup) error {
		if g.code == 9 {
			name = g.value
			return nil
		}
		if name != "$INSUNITS" || g.code != 70 {
			return nil
		}
		n, err := strconv.Atoi(g.value)
		if err != nil || n < 0 || n >= len(unitsDXF) {
			return &FileError{Line: g.line, Msg: fmt.Sprintf("the unit of the drawing ($INSUNITS) is %s, which is none that parts are drawn in", quoted([]byte(g.value))), Fix: "set the unit of the drawing to millimetres, metres, inches or feet and save it again"}
		}
		d.unit = unitsDXF[n]
		return nil
	})
}

// readBlocks notes which blocks hold lines: only their use makes them count.
func (d *dxfReader) readBlocks() error {
	block, named := "", false
	return d.section(func(g dxfGroup) error {
		switch {
		case g.code == 0 && g.value == "BLOCK":
			block, named = "", false
		case g.code == 2 && !named:
			block, named = strings.ToUpper(g.value), true
			d.blocks[block] = false
		case g.code == 0 && named && g.value != "ENDBLK" && !listed(dxfPassed, g.value):
			d.blocks[block] = true
		}
		return nil
	})
}
