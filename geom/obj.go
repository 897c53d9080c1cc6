package geom

import (
	"bufio"
	"bytes"
	"fmt"
	"io"
	"strings"
)

// mostVerticesEach is how many vertices a file may list for each triangle that
// the limit allows: a mesh can use no more than three.
const mostVerticesEach = 3

// ReadOBJ reads the polygons of an OBJ file into a mesh, in the units of the
// file (OBJ has none of its own) and unscaled.
//
// Read are vertices (v) and faces (f) with indices from 1 or, counted back,
// from −1, with or without the numbers of texture and normal. A face of more
// than three corners is cut into triangles: a convex one as a fan, one with
// notches by cutting off corners. Faces that are not flat are told in
// MeshInfo.Notes. The order of the corners says which side is outside; normals
// in the file are not used. Objects (o) count as solids, groups (g) do not:
// they are often patches of one surface. Points, lines, materials and display
// statements are passed over. Free-form curves and surfaces are refused, and
// so is any word that the format does not have. Vertices that are equal become
// one, without tolerance; those that no face uses are left out.
//
// Every error is a *FileError with its line, and then the mesh is empty.
func ReadOBJ(r io.Reader, lim Limits) (Mesh, MeshInfo, error) {
	lim = lim.orDefault()
	in := bufio.NewReaderSize(&limitedReader{r: r, left: lim.Bytes, most: lim.Bytes}, 64<<10)
	build := newMeshBuilder()
	o := objReader{words: newWordReader(in), most: lim.Triangles, objects: map[string]bool{},
		vertexList: vertexList{build: build, most: mostVerticesEach * lim.Triangles},
		cut:        polygonCutter{build: build, most: lim.Triangles}}
	if err := o.read(); err != nil {
		return Mesh{}, MeshInfo{}, err
	}
	return build.mesh(), MeshInfo{Kind: "OBJ", Solids: len(o.objects), Name: o.name,
		Triangles: len(build.faces), Notes: o.cut.notes()}, nil
}

type objReader struct {
	words *wordReader
	most  int // triangles
	cut   polygonCutter
	vertexList
	corners []int // of the present face
	goesOn  bool  // the line ends in a backslash
	name    string
	object  string          // the present one
	objects map[string]bool // that have faces
}

// Words that say nothing of the volume, and words for what is not read.
const (
	objPassed  = " vt vn vp s mg usemtl mtllib usemap maplib bevel c_interp d_interp lod shadow_obj trace_obj p l "
	objRefused = " cstype deg bmat step curv curv2 surf parm trim hole scrv sp end con ctech stech bsp bzp cdc cdp res call csh "
)

func (r *objReader) read() error {
	for more := true; more; {
		if err := r.statement(); err != nil {
			return err
		}
		more = r.words.skipLine()
	}
	switch {
	case r.words.err != nil:
		return r.words.err
	case len(r.points) == 0 && len(r.cut.build.faces) == 0:
		return &FileError{Msg: "the file has no vertices and no faces", Fix: fixOBJ}
	case len(r.cut.build.faces) == 0:
		return &FileError{Line: r.words.line, Msg: "the file ends and has no face: points and lines alone have no volume", Fix: fixOBJ}
	}
	return nil
}

const fixOBJ = "export the part again as a mesh of polygons, and copy the file whole"

// statement reads one line, with those that it goes on in.
func (r *objReader) statement() error {
	r.goesOn = false
	keyword := string(r.word())
	switch {
	case r.words.err != nil:
		return r.words.err
	case keyword == "":
		return nil
	case keyword == "v":
		return r.vertex()
	case keyword == "f" || keyword == "fo": // "fo" in old files
		return r.face()
	case keyword == "o" || keyword == "g":
		return r.grouping(keyword)
	case listed(objPassed, keyword):
		for r.word() != nil { // to the end, where the line goes on
		}
		return nil
	case listed(objRefused, keyword):
		return r.fault(fmt.Sprintf("%q belongs to free-form curves and surfaces or to a command, which are not read: only polygons have a definite volume", keyword),
			"turn the surfaces into polygons in the drawing program and export again, as OBJ or binary STL")
	}
	return r.fault(fmt.Sprintf("%s is not a word of an OBJ file", quoted([]byte(keyword))),
		"correct the line or take it out; if there are many, the file is of another kind: "+fixOBJ)
}

// listed tells whether a word is in a list of words with blanks around them.
func listed(list, word string) bool { return strings.Contains(list, " "+word+" ") }

// word returns the next word of the statement, or nil at its end. A word that
// begins with # begins a comment.
func (r *objReader) word() []byte {
	for {
		word := r.words.wordOnLine()
		switch {
		case word == nil && r.goesOn:
			r.goesOn = false
			if !r.words.skipLine() {
				return nil
			}
		case word != nil && word[0] == '#':
			return nil
		case bytes.HasSuffix(word, []byte(`\`)):
			r.goesOn = true
			if word = word[:len(word)-1]; len(word) > 0 {
				return word
			}
		default:
			return word
		}
	}
}

func (r *objReader) grouping(keyword string) error {
	name := printable(string(r.words.restOfLine()))
	if r.name == "" {
		r.name = name
	}
	if keyword == "o" {
		r.object = name
	}
	return nil
}

// vertex reads x, y and z. A weight or a colour may follow.
func (r *objReader) vertex() error {
	var v Vec
	numbers := 0
	for word := r.word(); word != nil; word = r.word() {
		if numbers < 3 {
			c, msg := parseCoordinate(word)
			if msg != "" {
				return r.fault(fmt.Sprintf("%c of a vertex, %s, %s", "xyz"[numbers], quoted(word), msg), fixNumber)
			}
			v[numbers] = c
		} else if !isNormalNumber(word) {
			return r.fault(fmt.Sprintf("%s after a vertex is not a number", quoted(word)), fixNumber)
		}
		numbers++
	}
	switch {
	case r.words.err != nil:
		return r.words.err
	case numbers != 3 && numbers != 4 && numbers != 6 && numbers != 7:
		return r.fault(fmt.Sprintf("a vertex has three numbers, or four with a weight, or six or seven with a colour; here are %d", numbers),
			"correct this line, or export the file again")
	}
	if msg := r.add(v); msg != "" {
		return r.fault(msg, fixCoarser)
	}
	return nil
}

const (
	fixNumber = "write a plain decimal number such as 12.5 or 1.25e+01, or export the file again"
)

func (r *objReader) fault(msg, fix string) error {
	return &FileError{Line: r.words.line, Msg: msg, Fix: fix}
}
