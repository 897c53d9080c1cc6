package geom

import (
	"encoding/binary"
	"fmt"
	"math"
	"strings"
	"unicode"
)

const (
	binaryHeader   = 84 // 80 bytes of free text and the number of triangles
	binaryTriangle = 50 // normal and three vertices as float32, and two bytes that nobody agrees on

	// A run of 250 kB stays in the second-level cache of one core: read there
	// and summed there it is quicker than a mapped file, whose page faults cost
	// more than the copy (measured while this was designed).
	runTriangles = 5000
)

// readBinary checks the count against the length of the file, and reads it.
func (f stlFile) readBinary(lim Limits) (Mesh, STLInfo, error) {
	n, err := f.binaryCount(lim)
	if err != nil {
		return Mesh{}, STLInfo{}, err
	}
	mesh, err := weldFacets(binaryFacets{f, n})
	if err != nil {
		return Mesh{}, STLInfo{}, err
	}
	name, _, _ := strings.Cut(string(f.head[:binaryHeader-4]), "\x00")
	return mesh, STLInfo{Binary: true, Solids: 1, Name: printable(name), Triangles: n}, nil
}

// binaryCount is the number of triangles, as promised and as the length has it.
func (f stlFile) binaryCount(lim Limits) (int, error) {
	promised, body := binary.LittleEndian.Uint32(f.head[binaryHeader-4:]), f.size-binaryHeader
	switch {
	case body != binaryTriangle*int64(promised):
		return 0, f.badCount(promised, body, lim)
	case int64(promised) > int64(lim.Triangles):
		return 0, tooManyTriangles(lim.Triangles)
	case promised == 0:
		return 0, &FileError{Msg: "a binary head that promises no triangles, and none are there", Fix: fixExport}
	}
	return int(promised), nil
}

// badCount tells what is wrong with a file whose length does not fit its count:
// a bad coordinate before its end says more than the length.
func (f stlFile) badCount(promised uint32, body int64, lim Limits) error {
	if n := min(body/binaryTriangle, int64(promised), int64(lim.Triangles)); n > 0 {
		src, buffer := binaryFacets{f, int(n)}, facetBuffer{}
		for i := range src.runs() {
			if _, _, err := src.run(i, &buffer); err != nil {
				return err
			}
		}
	}
	return f.notBinary(miscounted(promised, body/binaryTriangle, body%binaryTriangle))
}

// miscounted is the error for a file that is not 84 + 50·n bytes long.
func miscounted(promised uint32, found, over int64) *FileError {
	msg := fmt.Sprintf("the file promises %d triangles and holds %d", promised, found)
	if over > 0 {
		msg += fmt.Sprintf(" and %d bytes more", over)
	}
	if found < int64(promised) {
		msg += ": it is cut off, or not an STL file"
	} else {
		msg += ": there is something after its end, or it is not an STL file"
	}
	return &FileError{Msg: msg, Fix: fixExport}
}

// binaryFacets are the first triangles of a binary file.
type binaryFacets struct {
	file  stlFile
	count int
}

func (b binaryFacets) facets() int { return b.count }
func (b binaryFacets) runs() int   { return (b.count + runTriangles - 1) / runTriangles }

// raw reads one run as it stands in the file.
func (b binaryFacets) raw(i int, buffer *facetBuffer) (first int, part []byte, err error) {
	if buffer.bytes == nil {
		buffer.bytes = make([]byte, min(runTriangles, b.count)*binaryTriangle)
	}
	first = i * runTriangles
	part = buffer.bytes[:min(runTriangles, b.count-first)*binaryTriangle]
	if n, err := b.file.in.ReadAt(part, binaryHeader+binaryTriangle*int64(first)); n < len(part) {
		return 0, nil, readFault(err)
	}
	return first, part, nil
}

func (b binaryFacets) run(i int, buffer *facetBuffer) (first int, facets [][3]Vec, err error) {
	first, part, err := b.raw(i, buffer)
	if err != nil {
		return 0, nil, err
	}
	facets = buffer.facets[:0]
	sound := true
	for ; len(part) >= binaryTriangle; part = part[binaryTriangle:] {
		var f [3]Vec
		p := (*[binaryTriangle]byte)(part)
		for k := range 9 {
			c := float64(single(p[12+4*k:]))
			f[k/3][k%3] = c
			sound = sound && math.Abs(c) <= mostCoordinate // NaN fails too
		}
		facets = append(facets, f)
	}
	buffer.facets = facets
	if !sound {
		return 0, nil, b.badTriangle(facets, first)
	}
	return first, facets, nil
}

// badTriangle finds the coordinate that is out of bounds.
func (b binaryFacets) badTriangle(facets [][3]Vec, first int) error {
	for i, f := range facets {
		for corner, v := range f {
			for axis, c := range v {
				if fault := coordinateFault(c); fault != "" {
					return &FileError{Triangle: first + i + 1,
						Msg: fmt.Sprintf("%c of vertex %d %s (the file promises %d triangles)", "xyz"[axis], corner+1, fault,
							binary.LittleEndian.Uint32(b.file.head[binaryHeader-4:])),
						Fix: "repair that facet or export the file again; if every triangle is like this, it is not a binary STL file"}
				}
			}
		}
	}
	return &FileError{Msg: "the sums over the file are not finite", Fix: fixExport}
}

func single(b []byte) float32 { return math.Float32frombits(binary.LittleEndian.Uint32(b)) }

// printable drops control characters and broken encoding from a name, which
// goes to terminals and reports.
func printable(name string) string {
	name = strings.ToValidUTF8(name, "")
	return strings.TrimSpace(strings.Map(func(c rune) rune {
		if !unicode.IsPrint(c) {
			return -1
		}
		return c
	}, name))
}
