package geom

import (
	"errors"
	"io"
	"math"
)

const (
	blockTriangles = 500  // summed plainly; blocks are added with compensation
	mostSums       = 1024 // sums that are kept apart until the end
)

// MeasureOptions says how MeasureSTL works. The zero value is the default.
type MeasureOptions struct {
	Limits      Limits
	Workers     int  // readers at the same time; default one for each core, at most 16
	SkipClosure bool // leave Closed false, in about two thirds of the time
	CountEdges  bool // where a binary file is not closed, count its faulty edges: 24 bytes and some 70 ns for each triangle
}

// Measured is what an STL file encloses, in the unit of the file.
type Measured struct {
	Triangles int
	Origin    Vec     // first vertex of the file
	About     Moments // about Origin, axes unchanged
	Box       Extent
	Spacing   float64 // between neighbouring float32 numbers at the largest coordinate: what a binary file cannot tell apart; 0 of text
	Closed    bool    // each edge is run along as often one way as the other; see fingerprint
	Edges     *EdgeCounts
}

// MeasureSTL measures an STL file without keeping it: one pass of large reads, by
// several workers, in a few MB however long the file is.
//
// The integrals are those of [Mesh.MomentsAbout], taken from the first vertex,
// so that a part drawn far from its datum keeps its digits. The result is the
// same to the last bit for any number of workers: the file is cut into runs by
// its length alone, and the sums of the runs are added in their order.
//
// What [ReadSTL] refuses is refused. Every error is a *FileError. A surface that
// is not Closed has no volume: find out why with [Examine].
func MeasureSTL(r io.Reader, opt MeasureOptions) (Measured, error) {
	lim := opt.Limits.orDefault()
	f, err := openSTL(r, lim)
	if err != nil {
		return Measured{}, err
	}
	return f.measure(lim, opt)
}

func (f stlFile) measure(lim Limits, opt MeasureOptions) (Measured, error) {
	if f.text {
		return f.measureText(lim, opt)
	}
	m, err := f.measureBinary(lim, opt)
	if err == nil && opt.CountEdges && !opt.SkipClosure && !m.Closed {
		m.Edges = new(EdgeCounts)
		*m.Edges, err = binaryFacets{f, m.Triangles}.edges()
	}
	return m, err
}

func (f stlFile) measureBinary(lim Limits, opt MeasureOptions) (Measured, error) {
	n, err := f.binaryCount(lim)
	if err != nil {
		return Measured{}, err
	}
	src := binaryFacets{f, n}
	_, first, err := (binaryFacets{f, 1}).run(0, &facetBuffer{})
	if err != nil {
		return Measured{}, err
	}
	m := measuring{src: src, judge: !opt.SkipClosure, origin: first[0][0]}
	m.together = (src.runs() + mostSums - 1) / mostSums
	m.sums, m.errs = make([]stlSums, (src.runs()+m.together-1)/m.together), make([]error, mostSums)
	ShareOut(len(m.sums), meshWorkers(opt.Workers), m.begin)
	for _, err := range m.errs {
		if err != nil {
			return Measured{}, err
		}
	}
	found := total(m.sums).measured(n, m.origin, m.judge)
	found.Spacing = singleSpacing(found.Box)
	return found, nil
}

func total(sums []stlSums) *stlSums {
	all := newSTLSums()
	for i := range sums {
		all.add(&sums[i])
	}
	return &all
}

type measuring struct {
	src      binaryFacets
	judge    bool
	origin   Vec
	together int // runs that are summed together
	sums     []stlSums
	errs     []error
}

// begin is what one worker does its sums with.
func (m *measuring) begin() func(int) {
	var buffer facetBuffer
	return func(i int) {
		m.sums[i] = newSTLSums()
		for run := i * m.together; run < min((i+1)*m.together, m.src.runs()) && m.errs[i] == nil; run++ {
			m.errs[i] = m.sum(run, &m.sums[i], &buffer)
		}
	}
}

// sum takes in one run.
func (m *measuring) sum(run int, s *stlSums, buffer *facetBuffer) error {
	_, part, err := m.src.raw(run, buffer)
	if err != nil {
		return err
	}
	for b := 0; b < len(part); b += blockTriangles * binaryTriangle {
		block := part[b:min(b+blockTriangles*binaryTriangle, len(part))]
		s.raw(block, m.origin)
		if m.judge {
			s.edges += rawFingerprint(block)
		}
	}
	if !s.finite() {
		_, _, err = m.src.run(run, buffer) // finds it again, and its place
		return err
	}
	return nil
}

// measureText measures plain text by several workers, other text word by word.
func (f stlFile) measureText(lim Limits, opt MeasureOptions) (Measured, error) {
	origin, err := f.firstVertex()
	var info STLInfo
	var sums []stlSums
	take := func(s *stlSums) func([][3]Vec) {
		*s = newSTLSums()
		return func(facets [][3]Vec) {
			if len(facets) == 0 {
				return
			}
			s.block(facets, origin)
			if !opt.SkipClosure {
				s.edges += fingerprint(facets)
			}
		}
	}
	if err == nil {
		info, err = f.quickText(lim, opt.Workers, func(runs int) { sums = make([]stlSums, runs) }, func(run int) func([][3]Vec) { return take(&sums[run]) })
	}
	if errors.Is(err, errNotPlain) {
		sums = make([]stlSums, 1)
		info, err = f.strictText(lim, &origin, take(&sums[0]))
	}
	if err != nil {
		return Measured{}, err
	}
	return total(sums).measured(info.Triangles, origin, !opt.SkipClosure), nil
}

// strictText reads word by word and hands on the facets in blocks; origin becomes
// the first vertex.
func (f stlFile) strictText(lim Limits, origin *Vec, give func([][3]Vec)) (STLInfo, error) {
	block := make([][3]Vec, 0, blockTriangles)
	started := false
	info, err := readText(io.NewSectionReader(f.in, 0, f.size), lim, func(corners [3]Vec) {
		if !started {
			*origin, started = corners[0], true
		}
		if block = append(block, corners); len(block) == blockTriangles {
			give(block)
			block = block[:0]
		}
	})
	give(block)
	return info, err
}

// firstVertex is the first of a text file, if that is plain.
func (f stlFile) firstVertex() (Vec, error) {
	text := append(f.head[:len(f.head):len(f.head)], make([]byte, quickPad)...)
	end := len(f.head)
	for end > 0 && !isBlank(text[end-1]) { // a word may be cut off there
		end--
	}
	first := Vec{math.NaN()}
	q := quickParser{text: text, end: end, facets: make([][3]Vec, 0, quickFacets), give: func(facets [][3]Vec) { first = facets[0][0] }}
	q.parse()
	q.handOn()
	if math.IsNaN(first[0]) {
		return Vec{}, errNotPlain
	}
	return first, nil
}
