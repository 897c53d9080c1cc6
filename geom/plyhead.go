package geom

import (
	"encoding/binary"
	"fmt"
	"slices"
	"strconv"
	"strings"
)

// plyElement is what the header announces: so many pieces, each with these
// properties in this order.
type plyElement struct {
	name       string
	count      int64 // a claim: nothing is allocated for it
	properties []plyProperty
}

// plyProperty is a number, or a list of numbers with its length before it.
type plyProperty struct {
	name         string
	list         bool
	length, kind plyType
}

// axis is 0 for x, 1 for y, 2 for z, another number for what is none of them.
func (p plyProperty) axis() int { return slices.Index([]string{"x", "y", "z"}, p.name) }

func (p plyProperty) isCorners() bool {
	return p.list && (p.name == "vertex_indices" || p.name == "vertex_index")
}

// plyType is a type of number in a binary file.
type plyType struct {
	size          int // bytes
	signed, float bool
}

var plyTypes = map[string]plyType{
	"char": {1, true, false}, "int8": {1, true, false},
	"uchar": {1, false, false}, "uint8": {1, false, false},
	"short": {2, true, false}, "int16": {2, true, false},
	"ushort": {2, false, false}, "uint16": {2, false, false},
	"int": {4, true, false}, "int32": {4, true, false},
	"uint": {4, false, false}, "uint32": {4, false, false},
	"float": {4, true, true}, "float32": {4, true, true},
	"double": {8, true, true}, "float64": {8, true, true},
}

// mostHeadLines is more than any header needs.
const mostHeadLines = 10_000

// head reads the header, which is text in every PLY file.
func (r *plyReader) head() error {
	first, _, _ := r.words.wholeLine()
	if r.words.err != nil {
		return r.words.err
	}
	if first != "ply" {
		return &FileError{Line: 1, Msg: "not a PLY file: its first line is not \"ply\"", Fix: fixPLY}
	}
	pair := r.words.carriage && r.words.nextIs('\n') // CR LF ends its lines
	hasFormat := false
	for {
		line, number, ok := r.words.wholeLine()
		fields := strings.Fields(line)
		switch {
		case !ok && r.words.err != nil:
			return r.words.err
		case !ok || number > mostHeadLines:
			return &FileError{Line: number, Msg: "the header has no \"end_header\"", Fix: fixPLY}
		case len(fields) == 0 || fields[0] == "comment" || fields[0] == "obj_info":
			continue
		case fields[0] == "end_header":
			if pair && r.words.carriage && r.words.nextIs('\n') {
				r.words.from++
			}
			r.words.carriage = false
			return r.checkHead(number, hasFormat)
		}
		if msg := r.headLine(fields, &hasFormat); msg != "" {
			return &FileError{Line: number, Msg: msg, Fix: fixPLY}
		}
	}
}

// headLine reads a line of the header, or says what is wrong with it.
func (r *plyReader) headLine(fields []string, hasFormat *bool) string {
	switch {
	case fields[0] == "format" && len(fields) == 3 && !*hasFormat && len(r.elements) == 0:
		*hasFormat = true
		return r.format(fields[1], fields[2])
	case fields[0] == "element" && len(fields) == 3:
		n, err := strconv.ParseInt(fields[2], 10, 64)
		if err != nil || n < 0 {
			return fmt.Sprintf("%s is not a number of elements", quoted([]byte(fields[2])))
		}
		r.elements = append(r.elements, plyElement{name: fields[1], count: n})
		return ""
	case fields[0] == "property" && (len(fields) == 3 || len(fields) == 5 && fields[1] == "list"):
		return r.property(fields)
	}
	return fmt.Sprintf("%s does not belong in the header of a PLY file, or not here", quoted([]byte(strings.Join(fields, " "))))
}

func (r *plyReader) format(name, version string) string {
	switch {
	case version != "1.0":
		return fmt.Sprintf("version %s of the format is not known, only 1.0", quoted([]byte(version)))
	case name == "binary_little_endian":
		r.order = binary.LittleEndian
	case name == "binary_big_endian":
		r.order = binary.BigEndian
	case name != "ascii":
		return fmt.Sprintf("the format %s is not known: expected ascii, binary_little_endian or binary_big_endian", quoted([]byte(name)))
	}
	return ""
}

func (r *plyReader) property(fields []string) string {
	if len(r.elements) == 0 {
		return "a property stands before the first element"
	}
	p := plyProperty{name: fields[len(fields)-1], list: len(fields) == 5}
	names := fields[len(fields)-2 : len(fields)-1]
	if p.list {
		names = fields[2:4]
	}
	for _, name := range names {
		if _, known := plyTypes[name]; !known {
			return fmt.Sprintf("%s is not a type of number", quoted([]byte(name)))
		}
	}
	p.kind = plyTypes[names[len(names)-1]]
	if p.list {
		p.length = plyTypes[names[0]]
	}
	if p.length.float || p.isCorners() && p.kind.float {
		return "the length of a list, and the numbers of vertices, must be whole numbers"
	}
	last := &r.elements[len(r.elements)-1]
	last.properties = append(last.properties, p)
	return ""
}

// checkHead asks for what a mesh needs.
func (r *plyReader) checkHead(line int, hasFormat bool) error {
	bad := func(format string, args ...any) error {
		return &FileError{Line: line, Msg: "the header " + fmt.Sprintf(format, args...), Fix: fixPLY}
	}
	if !hasFormat {
		return bad("has no line \"format\"")
	}
	at := map[string]int{}
	for i, e := range r.elements {
		_, again := at[e.name]
		switch {
		case again:
			return bad("has the element %s twice", quoted([]byte(e.name)))
		case len(e.properties) == 0 && e.count > 0:
			return bad("gives the element %s no properties", quoted([]byte(e.name)))
		case e.name == "tristrips" && e.count > 0:
			return bad("announces triangle strips (tristrips), which are not read, only faces")
		}
		at[e.name] = i
	}
	vertex, hasVertex := at["vertex"]
	face, hasFace := at["face"]
	switch {
	case !hasVertex || !hasFace:
		return bad("must announce the elements vertex and face")
	case face < vertex:
		return bad("announces the faces before the vertices")
	case r.elements[face].count > 0 && !slices.ContainsFunc(r.elements[face].properties, plyProperty.isCorners):
		return bad("gives faces no list vertex_indices")
	}
	for axis, name := range []string{"x", "y", "z"} {
		here := func(p plyProperty) bool { return !p.list && p.axis() == axis }
		if r.elements[vertex].count > 0 && !slices.ContainsFunc(r.elements[vertex].properties, here) {
			return bad("gives vertices no %s", name)
		}
	}
	return nil
}
