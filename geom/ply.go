package geom

import (
	"bufio"
	"encoding/binary"
	"fmt"
	"io"
)

// ReadPLY reads a text or binary PLY file (of either byte order) into a mesh,
// in the units of the file (PLY has none of its own) and unscaled.
//
// Read are x, y and z of the element "vertex", whatever the type of number,
// and the list "vertex_indices" or "vertex_index" of the element "face"; what
// else the header announces is passed over, but triangle strips are refused.
// A face of more than three corners is cut into triangles as in [ReadOBJ]. The
// order of the corners says which side is outside. The file must hold what its
// header promises and nothing more. In a text file each vertex and each face
// stands on a line of its own. Vertices that are equal become one, without
// tolerance; those that no face uses are left out.
//
// Every error is a *FileError, with its line in the head and in a text file,
// with the number of the face (as Triangle) in a binary one, and then the mesh
// is empty.
func ReadPLY(r io.Reader, lim Limits) (Mesh, MeshInfo, error) {
	lim = lim.orDefault()
	in := bufio.NewReaderSize(&limitedReader{r: r, left: lim.Bytes, most: lim.Bytes}, 64<<10)
	build := newMeshBuilder()
	p := plyReader{words: newWordReader(in), most: lim.Triangles,
		vertexList: vertexList{build: build, most: mostVerticesEach * lim.Triangles},
		cut:        polygonCutter{build: build, most: lim.Triangles}}
	if err := p.read(); err != nil {
		return Mesh{}, MeshInfo{}, err
	}
	kind := "text PLY"
	if p.order != nil {
		kind = "binary PLY"
	}
	return build.mesh(), MeshInfo{Kind: kind, Solids: 1, Triangles: len(build.faces), Notes: p.cut.notes()}, nil
}

type plyReader struct {
	words    *wordReader
	most     int              // triangles
	order    binary.ByteOrder // nil: text
	elements []plyElement
	cut      polygonCutter
	vertexList
	corners []int
	element string // the present one
	number  int    // of the present piece of it, from 1
}

const fixPLY = "export the file again, as PLY or binary STL, and copy it whole"

func (r *plyReader) read() error {
	if err := r.head(); err != nil {
		return err
	}
	for _, e := range r.elements {
		if err := r.readElement(e); err != nil {
			return err
		}
	}
	r.element = ""
	switch {
	case r.words.skipBlanks():
		return r.fault("there is something after the last of what the header promises", fixPLY)
	case r.words.err != nil:
		return r.words.err
	case len(r.cut.build.faces) == 0:
		return &FileError{Msg: "the file has no faces: points alone have no volume", Fix: "export the part again as a mesh of polygons"}
	}
	return nil
}

func (r *plyReader) readElement(e plyElement) error {
	r.element, r.number = e.name, 0
	for int64(r.number) < e.count {
		if !r.begins() {
			if r.words.err != nil {
				return r.words.err
			}
			return r.fault(fmt.Sprintf("the header promises %d of %q and the file ends after %d: it is cut off", e.count, e.name, r.number), fixPLY)
		}
		r.number++
		var err error
		switch e.name {
		case "vertex":
			err = r.vertex(e)
		case "face":
			err = r.face(e)
		default:
			for i := 0; i < len(e.properties) && err == nil; i++ {
				err = r.pass(e.properties[i])
			}
		}
		if err == nil {
			err = r.ends()
		}
		if err != nil {
			return err
		}
	}
	return nil
}

// begins goes to the next piece of an element; false at the end of the file.
func (r *plyReader) begins() bool {
	if r.order == nil {
		return r.words.skipBlanks()
	}
	_, more := r.words.peek()
	return more
}

// ends asks that a line of text holds no more.
func (r *plyReader) ends() error {
	if r.order != nil {
		return nil
	}
	if word := r.words.wordOnLine(); word != nil {
		return r.fault(fmt.Sprintf("%s stands after the last number that the header announces for %q", quoted(word), r.element), fixPLY)
	}
	return r.words.err
}

func (r *plyReader) vertex(e plyElement) error {
	var v Vec
	for _, p := range e.properties {
		axis := p.axis()
		if p.list || axis < 0 {
			if err := r.pass(p); err != nil {
				return err
			}
			continue
		}
		c, err := r.coordinate(p.kind, axis)
		if err != nil {
			return err
		}
		v[axis] = c
	}
	if msg := r.add(v); msg != "" {
		return r.fault(msg, fixCoarser)
	}
	return nil
}

func (r *plyReader) face(e plyElement) error {
	for _, p := range e.properties {
		if !p.isCorners() {
			if err := r.pass(p); err != nil {
				return err
			}
			continue
		}
		if err := r.readCorners(p); err != nil {
			return err
		}
	}
	fault := r.cut.add(r.corners, func() string { return fmt.Sprintf("face %d", r.number) })
	if fault == nil {
		return nil
	}
	return r.fault(fault.Msg, fault.Fix)
}

func (r *plyReader) readCorners(p plyProperty) error {
	n, err := r.integer(p.length)
	switch {
	case err != nil:
		return err
	case n < 3:
		return r.fault(fmt.Sprintf("a face has three corners or more; this one has %d", n), fixPLY)
	case n > r.most+2:
		return r.fault(tooManyTriangles(r.most).Msg, fixCoarser)
	}
	r.corners = r.corners[:0]
	for range n {
		at, err := r.integer(p.kind)
		if err != nil {
			return err
		}
		if at < 0 || at >= len(r.points) {
			return r.fault(fmt.Sprintf("vertex %d is not there: the file has %s, numbered from 0", at, count(len(r.points), "vertex", "vertices")), fixPLY)
		}
		r.corners = append(r.corners, r.use(at))
	}
	return nil
}

// fault is an error at the present place.
func (r *plyReader) fault(msg, fix string) error {
	fault := &FileError{Msg: msg, Fix: fix}
	switch {
	case r.order == nil:
		fault.Line = r.words.line
	case r.element == "face":
		fault.Triangle = max(r.number, 1)
	case r.element != "":
		fault.Msg = fmt.Sprintf("%s %d: %s", printable(r.element), max(r.number, 1), msg)
	}
	return fault
}
