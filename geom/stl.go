package geom

import (
	"bytes"
	"errors"
	"fmt"
	"io"
	"math"
)

const (
	// DefaultBytes is the largest file that ReadSTL reads when no limit is given: 2 GiB.
	DefaultBytes int64 = 2 << 30
	// DefaultTriangles is the greatest number of triangles that ReadSTL reads when no limit is given.
	DefaultTriangles = 20_000_000

	// Above any limit asked for: the corners of more triangles cannot be numbered in 31 bits.
	mostTriangles       = (1<<31 - 1) / 3
	mostBytes     int64 = 1 << 50

	// mostCoordinate bounds a coordinate in either format. In the smallest unit in use, the
	// micrometre, it is 1000 km: beyond it is a damaged file, and the integrals of a solid
	// (the fifth power of its size) stay far inside float64.
	mostCoordinate = 1e12

	fixExport = "export the file again from the drawing program, binary STL if it gives a choice, and copy it whole"
)

// Limits bounds what one file may make the program read. The zero value of a
// field means its default.
type Limits struct {
	Bytes     int64 // greatest size of the file in bytes; default DefaultBytes
	Triangles int   // greatest number of triangles; default DefaultTriangles
}

func (l Limits) orDefault() Limits {
	if l.Bytes <= 0 {
		l.Bytes = DefaultBytes
	}
	if l.Triangles <= 0 {
		l.Triangles = DefaultTriangles
	}
	l.Bytes, l.Triangles = min(l.Bytes, mostBytes), min(l.Triangles, mostTriangles)
	return l
}

// STLInfo says what kind of file a mesh came from.
type STLInfo struct {
	Binary    bool
	Solids    int    // solids that hold at least one facet; more than 1 only in a text file
	Name      string // the first name in the file that is not blank, without control characters
	Triangles int    // all of the file, degenerate facets included
}

// FileError is what is wrong with a mesh file, in words for the person who
// made it. Line is set for a fault in a text file, Triangle for one in a
// binary file, each counted from 1; neither for a fault of the file as a whole.
type FileError struct {
	Line, Triangle int
	Msg            string // what is wrong and what was expected
	Fix            string // how to mend it
	cause          error  // what the reader below us said, if anything
}

// Error gives the place, what is wrong and, on a second line, how to mend it.
func (e *FileError) Error() string {
	place := ""
	switch {
	case e.Line > 0:
		place = fmt.Sprintf("line %d: ", e.Line)
	case e.Triangle > 0:
		place = fmt.Sprintf("triangle %d: ", e.Triangle)
	}
	return place + e.Msg + "\n\tfix: " + e.Fix
}

// Unwrap gives the error of the reader, such as a failing disk, or nil.
func (e *FileError) Unwrap() error { return e.cause }

// ReadSTL reads a binary or text STL file into an indexed mesh, in the units
// of the file (STL has none of its own) and unscaled.
//
// Binary or text is decided by what the file holds, not by the word "solid",
// which many programs also write at the head of a binary file. Text begins
// with that word and holds no control characters in its first 84 bytes; a
// binary file has its triangle count there, whose last byte is one for every
// count below 150 million. A binary file must be exactly 84 + 50·n bytes long.
// One that begins with "solid", speaks of facets and is not of that length is
// refused as neither.
//
// Read strictly: nothing is skipped or repaired. Text is read with the full
// precision of float64, in any case of letters, with any line ends, with or
// without names, all solids of the file into one mesh (STLInfo.Solids says how
// many); every solid must end with "endsolid". Normals in the file are not
// used: the order of the vertices says which side is outside. Vertices that
// are equal bit for bit (−0 and +0 count as equal) become one; no tolerance.
// Facets without area are kept, so that the edges around them still match.
// A file without a facet is an error.
//
// Every error is a *FileError, and then the mesh is empty.
func ReadSTL(r io.Reader, lim Limits) (Mesh, STLInfo, error) {
	lim = lim.orDefault()
	file, err := openSTL(r, lim)
	if err != nil {
		return Mesh{}, STLInfo{}, err
	}
	return file.read(lim)
}

func (f stlFile) read(lim Limits) (Mesh, STLInfo, error) {
	if f.text {
		return f.readText(lim)
	}
	return f.readBinary(lim)
}

// stlFile is an STL file that can be read at any place.
type stlFile struct {
	in   io.ReaderAt
	size int64
	head []byte // its first bytes, as many as there are up to 4 KiB
	text bool
	run  int64 // bytes of text that are read at a time
}

// openSTL tells whether a file is text or binary.
func openSTL(r io.Reader, lim Limits) (stlFile, error) {
	in, size, err := whole(r, lim)
	if err != nil {
		return stlFile{}, err
	}
	f := stlFile{in: in, size: size, head: make([]byte, min(size, 4<<10)), run: quickRun}
	if n, err := in.ReadAt(f.head, 0); n < len(f.head) {
		return stlFile{}, readFault(err)
	}
	head := f.head[:min(len(f.head), binaryHeader)]
	blank := len(bytes.TrimLeft(head, blanks)) == 0
	f.text = blank || beginsSolid(head) && isText(head) // 84 blanks: text after many empty lines
	switch {
	case blank && len(head) < binaryHeader:
		return stlFile{}, &FileError{Msg: "the file is empty", Fix: fixExport}
	case !f.text && len(head) < binaryHeader:
		return stlFile{}, &FileError{
			Msg: fmt.Sprintf("not an STL file: %d bytes, which is less than the %d-byte head of a binary file, and it does not begin with the word \"solid\" as a text file does", len(head), binaryHeader),
			Fix: fixExport}
	}
	return f, nil
}

// notBinary says what a file of the wrong length may be instead of binary STL.
func (f stlFile) notBinary(fault *FileError) *FileError {
	solid, plain := beginsSolid(f.head[:binaryHeader]), isText(f.head[:binaryHeader])
	start := bytes.ToLower(f.head)
	switch speaks := bytes.Contains(start, []byte("facet")) && bytes.Contains(start, []byte("vertex")); {
	case solid && speaks:
		return &FileError{
			Msg: "can't tell whether this is text or binary: it begins with \"solid\" and speaks of facets and vertices as text does, but holds control characters near its start that text never has; and as binary, " + fault.Msg,
			Fix: "export it again; if it is text, remove the control characters from its first line"}
	case plain && !solid:
		return &FileError{
			Msg: "not an STL file: text that does not begin with the word \"solid\"; and as binary, " + fault.Msg,
			Fix: fixExport}
	}
	return fault
}

// whole returns what r still holds as a file that can be read at any place, and
// its length: the file itself where it is one, else what was read from it.
func whole(r io.Reader, lim Limits) (io.ReaderAt, int64, error) {
	if in := Anywhere(r); in != nil {
		if in.Size() > lim.Bytes {
			return nil, 0, tooLarge(lim.Bytes)
		}
		return in, in.Size(), nil
	}
	all, err := io.ReadAll(&limitedReader{r: r, left: lim.Bytes, most: lim.Bytes})
	if err != nil {
		return nil, 0, readFault(err)
	}
	return bytes.NewReader(all), int64(len(all)), nil
}

// Anywhere is what is left of a file, to be read at any place while r itself stays
// where it is; nil where r can be read but once, such as a pipe, or has no end.
func Anywhere(r io.Reader) *io.SectionReader {
	file, ok := r.(interface {
		io.ReaderAt
		io.Seeker
	})
	if !ok {
		return nil
	}
	from, err := file.Seek(0, io.SeekCurrent)
	if err != nil {
		return nil
	}
	end, err := file.Seek(0, io.SeekEnd)
	if _, back := file.Seek(from, io.SeekStart); err != nil || back != nil || end <= from { // a device has no end
		return nil
	}
	return io.NewSectionReader(file, from, end-from)
}

var byteOrderMark = []byte("\xef\xbb\xbf") // some editors put it before UTF-8 text

// beginsSolid reports whether the first word is "solid", in any case.
func beginsSolid(head []byte) bool {
	head = bytes.TrimLeft(bytes.TrimPrefix(head, byteOrderMark), blanks)
	word, rest := head[:min(5, len(head))], head[min(5, len(head)):]
	return isWord(word, "solid") && (len(rest) == 0 || isBlank(rest[0]))
}

// isText reports whether no byte is a control character other than a blank.
// Bytes above 0x7f are fine: names are written in many encodings.
func isText(head []byte) bool {
	for _, c := range head {
		if (c < ' ' && !isBlank(c)) || c == 0x7f {
			return false
		}
	}
	return true
}

const blanks = " \t\n\v\f\r"

func isBlank(c byte) bool { return c == ' ' || (c >= '\t' && c <= '\r') }

// limitedReader gives an error, not an end of file, when the file is longer
// than allowed, so that a cut-off file is never taken for a whole one.
type limitedReader struct {
	r          io.Reader
	left, most int64
	idle       int // reads in a row that gave nothing
}

func (l *limitedReader) Read(p []byte) (int, error) {
	if l.left < 0 {
		return 0, tooLarge(l.most)
	}
	if int64(len(p)) > l.left+1 { // one more shows that there is more
		p = p[:l.left+1]
	}
	n, err := l.r.Read(p)
	if l.idle++; n > 0 {
		l.idle = 0
	}
	if l.idle > 100 && err == nil {
		err = io.ErrNoProgress
	}
	if l.left -= int64(n); l.left < 0 {
		return n - 1, nil
	}
	return n, err
}

// readFault turns an error of the reader below into a *FileError.
func readFault(err error) *FileError {
	var fault *FileError
	if errors.As(err, &fault) {
		return fault
	}
	return &FileError{Msg: "the file can't be read: " + err.Error(),
		Fix: "check that the file is there, whole and readable, and try again", cause: err}
}

func tooLarge(most int64) *FileError {
	return &FileError{Msg: fmt.Sprintf("the file is larger than the limit of %d bytes", most),
		Fix: fixSmaller}
}

func tooManyTriangles(most int) *FileError {
	return &FileError{Msg: fmt.Sprintf("more triangles than the limit of %d", most),
		Fix: fixCoarser}
}

// coordinateFault says in words why a coordinate is refused; "" if it is fine.
func coordinateFault(c float64) string {
	switch {
	case math.IsNaN(c):
		return "is not a number (NaN)"
	case math.IsInf(c, 0):
		return "is infinite"
	case math.Abs(c) > mostCoordinate:
		return fmt.Sprintf("is %.3g, beyond any drawing (greatest accepted: %.0e)", c, mostCoordinate)
	}
	return ""
}
