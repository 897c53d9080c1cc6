package geom

import (
	"bufio"
	"encoding/binary"
	"errors"
	"fmt"
	"io"
	"math"
	"strings"
	"unicode"

	"github.com/hschendel/stl"
)

const (
	binaryHeader   = 84 // 80 bytes of free text and the number of triangles
	binaryTriangle = 50 // normal and three vertices as float32, and two bytes that nobody agrees on
)

// readBinary streams a binary file whose first 84 bytes are buffered in `in`.
// Decoding is the library's; what it takes on trust is checked here: the count
// against the bytes that really come, the end of the file, every coordinate.
func readBinary(in *bufio.Reader, lim Limits, build *meshBuilder) (STLInfo, error) {
	src := &binarySource{in: in}
	if _, err := io.ReadFull(in, src.head[:]); err != nil {
		return STLInfo{}, readFault(err)
	}
	promised := binary.LittleEndian.Uint32(src.head[binaryHeader-4:])
	if int64(promised) > int64(lim.Triangles) {
		return STLInfo{}, overCount(in, promised, lim)
	}
	src.size = binaryHeader + binaryTriangle*int64(promised)
	sink := &binarySink{build: build, promised: promised}
	src.stop = func() error { return sink.err }

	err := stl.CopyAll(src, sink)
	switch {
	case sink.err != nil:
		return STLInfo{}, sink.err
	case src.err != nil:
		return STLInfo{}, readFault(src.err)
	case len(build.faces) < int(promised):
		return STLInfo{}, miscounted(promised, int64(len(build.faces)), (src.at-binaryHeader)%binaryTriangle)
	case err != nil:
		return STLInfo{}, readFault(err)
	}
	if extra, err := io.Copy(io.Discard, in); err != nil {
		return STLInfo{}, readFault(err)
	} else if extra > 0 {
		return STLInfo{}, miscounted(promised, int64(promised)+extra/binaryTriangle, extra%binaryTriangle)
	}
	if promised == 0 {
		return STLInfo{}, &FileError{Msg: "a binary head that promises no triangles, and none are there", Fix: fixExport}
	}
	return STLInfo{Binary: true, Solids: 1, Name: printable(sink.name), Triangles: int(promised)}, nil
}

// overCount tells a file that is too large from one whose count is wrong.
func overCount(in *bufio.Reader, promised uint32, lim Limits) error {
	body, err := io.Copy(io.Discard, in)
	if err != nil {
		return readFault(err)
	}
	if body != binaryTriangle*int64(promised) {
		return miscounted(promised, body/binaryTriangle, body%binaryTriangle)
	}
	return tooManyTriangles(lim.Triangles)
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

// binarySource is what the library reads from. The library wants to seek, to
// compare the size with the count; that is settled here, so the stream
// answers with the size that the count asks for, can be rewound once the head
// is read, and ends there: too few bytes then show as an early end, too many
// stay in `in`.
type binarySource struct {
	in       *bufio.Reader
	head     [binaryHeader]byte
	at, size int64
	stop     func() error // why the sink wants no more
	err      error        // of the reader below
}

func (s *binarySource) Seek(offset int64, whence int) (int64, error) {
	switch {
	case whence == io.SeekEnd && offset == 0:
		return s.size, nil
	case whence == io.SeekStart && offset == 0 && s.at <= binaryHeader:
		s.at = 0
		return 0, nil
	}
	return 0, errors.New("this stream can only be rewound while in its head")
}

func (s *binarySource) Read(p []byte) (int, error) {
	if s.at < binaryHeader {
		n := copy(p, s.head[s.at:])
		s.at += int64(n)
		return n, nil
	}
	if err := s.stop(); err != nil {
		return 0, err
	}
	if s.at >= s.size {
		return 0, io.EOF
	}
	// Peek, unlike Read, gives up on a reader that returns nothing for ever.
	if _, err := s.in.Peek(1); err != nil {
		if !errors.Is(err, io.EOF) {
			s.err = err
		}
		return 0, err
	}
	n, err := s.in.Read(p[:min(int64(len(p)), s.size-s.at)])
	s.at += int64(n)
	return n, err
}

// binarySink takes the triangles that the library decodes. It can't return an
// error, so it keeps the first one, and the source stops the stream.
type binarySink struct {
	build    *meshBuilder
	promised uint32
	name     string
	err      error
}

func (s *binarySink) SetName(name string)       { s.name = name }
func (s *binarySink) SetBinaryHeader([]byte)    {}
func (s *binarySink) SetASCII(bool)             {}
func (s *binarySink) SetTriangleCount(_ uint32) {} // a claim, so nothing is allocated for it

func (s *binarySink) AppendTriangle(t stl.Triangle) {
	if s.err != nil {
		return
	}
	var corners [3]Vec
	for i, v := range t.Vertices {
		for axis, c := range v {
			corners[i][axis] = float64(c)
			if !(math.Abs(corners[i][axis]) <= mostCoordinate) { // NaN fails too
				s.err = &FileError{Triangle: len(s.build.faces) + 1,
					Msg: fmt.Sprintf("%c of vertex %d %s (the file promises %d triangles)", "xyz"[axis], i+1, coordinateFault(corners[i][axis]), s.promised),
					Fix: "repair that facet or export the file again; if every triangle is like this, it is not a binary STL file"}
				return
			}
		}
	}
	s.build.add(corners)
}

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
