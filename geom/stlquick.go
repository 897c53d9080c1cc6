package geom

import (
	"errors"
	"io"
	"sync/atomic"
)

const (
	quickRun   = 1 << 20  // bytes of text that one worker reads at a time
	quickSlack = 16 << 10 // more than a facet and a name are long
	quickPad   = 64       // zero bytes behind the text, so that no step needs to look for its end
)

// errNotPlain is met by text that only the strict reader can judge.
var errNotPlain = errors.New("not plain")

// readText reads a text file: by several workers where it is plain, else word by
// word, which also finds the place of what is wrong.
func (f stlFile) readText(lim Limits) (Mesh, STLInfo, error) {
	src := textFacets{}
	info, err := f.quickText(lim, 0, func(runs int) { src.list = make([][][3]Vec, runs) }, func(run int) func([][3]Vec) {
		return func(facets [][3]Vec) { src.list[run] = append(src.list[run], facets...) }
	})
	if err == nil {
		src.settle()
		mesh, err := weldFacets(src)
		return mesh, info, err
	}
	if !errors.Is(err, errNotPlain) {
		return Mesh{}, STLInfo{}, err
	}
	build := newMeshBuilder()
	if info, err = readText(io.NewSectionReader(f.in, 0, f.size), lim, build.add); err != nil {
		return Mesh{}, STLInfo{}, err
	}
	return build.mesh(), info, nil
}

// textFacets are the facets of a text file, by run.
type textFacets struct {
	list  [][][3]Vec
	first []int // number of the first facet of each run, and of all
}

func (t *textFacets) settle() {
	t.first = make([]int, len(t.list)+1)
	for i, run := range t.list {
		t.first[i+1] = t.first[i] + len(run)
	}
}

func (t textFacets) facets() int { return t.first[len(t.list)] }
func (t textFacets) runs() int   { return len(t.list) }
func (t textFacets) run(i int, _ *facetBuffer) (int, [][3]Vec, error) {
	return t.first[i], t.list[i], nil
}

// quickText reads plain text in runs, several at a time. A run goes from the first
// line that begins with "facet" at or after its place in the file to that of the
// next run, so it holds whole facets; such a line always begins a facet, since a
// name ends with its line. begin is told how many runs there are, and to gives
// for each the place for its facets.
//
// It returns errNotPlain where anything is out of the ordinary.
func (f stlFile) quickText(lim Limits, workers int, begin func(runs int), to func(run int) func([][3]Vec)) (STLInfo, error) {
	runs := make([]quickParser, (f.size+f.run-1)/f.run)
	begin(len(runs))
	var stop atomic.Bool
	var count atomic.Int64
	ShareOut(len(runs), meshWorkers(workers), func() func(int) {
		buffer := make([]byte, f.run+quickSlack+quickPad)
		facets := make([][3]Vec, 0, quickFacets)
		return func(i int) {
			if stop.Load() {
				return
			}
			runs[i].facets, runs[i].give = facets, to(i)
			runs[i].read(f, i, buffer)
			if runs[i].err == nil && count.Add(int64(runs[i].count)) > int64(lim.Triangles) {
				runs[i].err = errNotPlain // and no more of it is kept
			}
			if runs[i].err != nil {
				stop.Store(true)
			}
		}
	})
	return joinRuns(runs, lim)
}

// joinRuns adds up what the runs found, if they fit together.
func joinRuns(runs []quickParser, lim Limits) (STLInfo, error) {
	info, inside := STLInfo{}, false
	for i := range runs {
		run := &runs[i]
		switch {
		case run.err != nil:
			return STLInfo{}, run.err
		case run.empty:
			continue
		case run.began != inside:
			return STLInfo{}, errNotPlain
		}
		inside = run.inside
		info.Triangles += run.count
		info.Solids += run.solids
		if info.Name == "" {
			info.Name = run.name
		}
	}
	if inside || info.Triangles == 0 || info.Triangles > lim.Triangles {
		return STLInfo{}, errNotPlain
	}
	return info, nil
}

// read finds the text of run i and reads it.
func (q *quickParser) read(f stlFile, i int, buffer []byte) {
	from := int64(i) * f.run
	want := min(int64(len(buffer)-quickPad), f.size-from)
	if n, err := f.in.ReadAt(buffer[:want], from); int64(n) < want {
		q.err = readFault(err)
		return
	}
	clear(buffer[want : want+quickPad])
	start, end, ended := 0, int(want), from+want == f.size
	if i > 0 {
		start = facetLine(buffer[:want+quickPad], 0, ended)
	}
	if from+f.run < f.size {
		end = facetLine(buffer[:want+quickPad], int(f.run), ended)
	}
	switch {
	case end < 0 && ended: // no further line is to come
		end = int(want)
	case end < 0, start < 0 && !ended:
		q.err = errNotPlain
		return
	}
	if start < 0 || start >= end {
		q.empty = true
		return
	}
	q.began, q.inside = i > 0, i > 0
	q.text, q.at, q.end = buffer[:end+quickPad], start, end
	if !q.parse() {
		q.err = errNotPlain
	}
	q.text, q.facets = nil, nil
}

// facetLine is where the first line that begins at or behind a line end from the
// given place on has "facet" as its first word; −1 where there is none, or where the
// text ends with that word and the file goes on: it may be a longer one.
func facetLine(text []byte, from int, ended bool) int {
	for end := len(text) - quickPad; from < end; from++ {
		if text[from] != '\n' && text[from] != '\r' {
			continue
		}
		at := from + 1
		for at < end && isBlank(text[at]) {
			at++
		}
		if at < end && wordFacet.stands(text, at) && (ended || at+wordFacet.length < end) {
			return at
		}
		from = at - 1
	}
	return -1
}
