package geom

import (
	"encoding/binary"
	"fmt"
	"io"
	"math"
	"runtime"
	"sync"
	"sync/atomic"
)

const (
	// A chunk of 250 kB stays in the second-level cache of one core: read
	// there and summed there it is quicker than a mapped file, whose page
	// faults cost more than the copy (measured while this was designed).
	chunkTriangles = 5000
	blockTriangles = 500 // summed plainly; blocks are added with compensation
	mostRuns       = 1024
	mostWorkers    = 16 // 4 MB of buffers
)

// MeasureOptions says how MeasureSTL works. The zero value is the default.
type MeasureOptions struct {
	Limits      Limits
	Workers     int  // readers at the same time; default one for each core, at most 16
	SkipClosure bool // leave Closed false, in about two thirds of the time
}

// Measured is what a binary STL file encloses, in the unit of the file.
type Measured struct {
	Triangles int
	Origin    Vec     // first vertex of the file
	About     Moments // about Origin, axes unchanged
	Box       Extent
	Spacing   float64 // between neighbouring float32 numbers at the largest coordinate: what the file cannot tell apart
	Closed    bool    // each edge is run along as often one way as the other; see fingerprint
}

// MeasureSTL measures a binary STL file without keeping it: one pass of large
// reads, by several workers, in under 8 MB however long the file is.
//
// The integrals are those of [Mesh.MomentsAbout], taken from the first vertex,
// so that a part drawn far from its datum keeps its digits. The result is the
// same to the last bit for any number of workers: the file is cut into runs by
// its length alone, and the sums of the runs are added in their order.
//
// It takes r as binary STL and refuses it where its length is not 84 + 50·n or
// a coordinate is not a number within ±1e12. Every error is a *FileError. A
// surface that is not Closed has no volume: find out why with [Examine].
func MeasureSTL(r io.ReaderAt, size int64, opt MeasureOptions) (Measured, error) {
	m := measuring{r: r, opt: opt}
	if err := m.head(size); err != nil {
		return Measured{}, err
	}
	chunks := (m.triangles + chunkTriangles - 1) / chunkTriangles
	m.runLength = (chunks + mostRuns - 1) / mostRuns
	m.runs = make([]stlSums, (chunks+m.runLength-1)/m.runLength)
	m.work()
	total := newSTLSums()
	for i := range m.runs {
		if m.runs[i].err != nil {
			return Measured{}, m.runs[i].err
		}
		total.add(&m.runs[i])
	}
	return total.measured(m.triangles, m.origin, !opt.SkipClosure), nil
}

type measuring struct {
	r         io.ReaderAt
	opt       MeasureOptions
	triangles int
	origin    Vec
	runLength int       // chunks in a run
	runs      []stlSums // by the number of the run
}

// head checks the length against the count and takes the first vertex.
func (m *measuring) head(size int64) error {
	lim := m.opt.Limits.orDefault()
	if size > lim.Bytes {
		return &FileError{Msg: fmt.Sprintf("the file is larger than the limit of %d bytes", lim.Bytes),
			Fix: "export it with a coarser tolerance, or in several files"}
	}
	body := size - binaryHeader
	if body < binaryTriangle {
		return &FileError{Msg: fmt.Sprintf("not a binary STL file with a triangle: %d bytes", size), Fix: fixExport}
	}
	var start [binaryHeader + binaryTriangle]byte
	if n, err := m.r.ReadAt(start[:], 0); n < len(start) {
		return readFault(err)
	}
	promised := binary.LittleEndian.Uint32(start[binaryHeader-4:])
	switch {
	case body != binaryTriangle*int64(promised):
		return miscounted(promised, body/binaryTriangle, body%binaryTriangle)
	case int64(promised) > int64(lim.Triangles):
		return tooManyTriangles(lim.Triangles)
	}
	m.triangles = int(promised)
	for axis := range m.origin {
		m.origin[axis] = coordinate(start[binaryHeader:], 12+4*axis)
	}
	return nil
}

// work lets each worker take the next run that nobody has, until none is left.
func (m *measuring) work() {
	workers := m.opt.Workers
	if workers <= 0 {
		workers = runtime.GOMAXPROCS(0)
	}
	workers = min(workers, mostWorkers, len(m.runs))
	var next atomic.Int64
	var all sync.WaitGroup
	for range workers {
		all.Go(func() {
			buffer := make([]byte, min(chunkTriangles, m.triangles)*binaryTriangle)
			for i := int(next.Add(1)) - 1; i < len(m.runs); i = int(next.Add(1)) - 1 {
				m.runs[i] = m.run(i, buffer)
			}
		})
	}
	all.Wait()
}

// run sums the chunks of one run in their order.
func (m *measuring) run(i int, buffer []byte) stlSums {
	s := newSTLSums()
	first := i * m.runLength * chunkTriangles
	last := min(first+m.runLength*chunkTriangles, m.triangles)
	for at := first; at < last; at += chunkTriangles {
		part := buffer[:min(chunkTriangles, last-at)*binaryTriangle]
		if n, err := m.r.ReadAt(part, binaryHeader+binaryTriangle*int64(at)); n < len(part) {
			s.err = readFault(err)
			return s
		}
		for b := 0; b < len(part); b += blockTriangles * binaryTriangle {
			block := part[b:min(b+blockTriangles*binaryTriangle, len(part))]
			s.block(block, m.origin)
			if !m.opt.SkipClosure {
				s.edges += fingerprint(block)
			}
		}
		if !s.finite() {
			s.err = badTriangle(part, at)
			return s
		}
	}
	return s
}

// badTriangle looks again for the coordinate that is out of bounds.
func badTriangle(part []byte, before int) error {
	for i := 0; i < len(part)/binaryTriangle; i++ {
		for k := range 9 {
			c := coordinate(part[i*binaryTriangle:], 12+4*k)
			if fault := coordinateFault(c); fault != "" {
				return &FileError{Triangle: before + i + 1,
					Msg: fmt.Sprintf("%c of vertex %d %s", "xyz"[k%3], k/3+1, fault),
					Fix: "repair that facet or export the file again; if every triangle is like this, it is not a binary STL file"}
			}
		}
	}
	return &FileError{Msg: "the sums over the file are not finite", Fix: fixExport}
}

// coordinate reads a float32 at the given byte of a triangle.
func coordinate(triangle []byte, at int) float64 {
	return float64(math.Float32frombits(binary.LittleEndian.Uint32(triangle[at:])))
}
