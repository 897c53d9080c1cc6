package geom

import (
	"cmp"
	"math"
	"math/rand/v2"
	"slices"
)

// OverlapVolume compares what the facets of a closed mesh add up to with the
// space that they fill.
type OverlapVolume struct {
	Sum   float64 // the volume as the facets add it up, turned to be positive
	Union float64 // an estimate of the space that is filled, each part of it counted once
	Error float64 // the standard error of Union
	Lines int     // how many lines the mesh was sampled along
	At    Vec     // the middle of the longest stretch found that does not count once
}

// overlapLines is the number of lines that [Examine] takes.
const overlapLines = 90 * 90

// Overlap estimates how much space a closed mesh fills, where its shells
// overlap in part or its surface passes through itself: there the facets add
// up the common volume twice, or with the wrong sign.
//
// The mesh is cut along about the given number of lines parallel to z (at
// least 64, at most a million). Along each, the lengths that count once, more
// than once or as negative are exact; only the places of the lines are a
// sample: one line in each rectangle of the base, at a place drawn by a
// generator that starts the same every time, so that the same mesh gives the
// same figures. Union is Sum less the excess found, so without overlap it is
// Sum and Error is 0. Error is that of as many lines at random places; lines
// that are spread evenly like these do better.
//
// An overlap that is narrower than the distance between lines can be missed;
// Error then tells nothing of it. A mesh that is not closed gives no figures of
// any use.
//
// Source: W. G. Cochran, "Sampling Techniques", ch. 2 for the standard error of
// a random sample and ch. 5 for strata (from memory).
func Overlap(m Mesh, lines int) OverlapVolume {
	m = welded(m)
	box := m.Extent()
	return overlapIn(m, box, m.MomentsAbout(box.Center()).Volume, lines)
}

// overlapIn is Overlap where box and volume are known.
func overlapIn(m Mesh, box Extent, volume float64, lines int) OverlapVolume {
	o := OverlapVolume{Sum: volume}
	sense := 1
	if o.Sum < 0 {
		o.Sum, sense = -o.Sum, -1
	}
	s := newScan(m, box, lines)
	o.Lines = s.side * s.side
	sum, squares, longest := 0.0, 0.0, 0.0
	for _, l := range s.lines {
		over, stretch := l.excess(sense)
		sum += over
		squares += over * over
		if stretch.length > longest {
			longest, o.At = stretch.length, Vec{l.at[0], l.at[1], stretch.middle}
		}
	}
	n, size := float64(o.Lines), box.Size()
	base := size[0] * size[1]
	o.Union = o.Sum - base*sum/n
	o.Error = base * math.Sqrt(max(squares-sum*sum/n, 0)/(n-1)/n)
	return o
}

// scan is the base of a box with its lines, in rows along x.
type scan struct {
	box   Extent
	side  int // rows, and lines in a row
	cells Vec // in one unit of length, along x and y
	lines []scanLine
}

// scanLine is a line along z and the facets that it passes.
type scanLine struct {
	at   Vec
	hits []scanHit
}

type scanHit struct {
	z    float64
	turn int // 1 where the facet looks up, −1 where it looks down
}

func newScan(m Mesh, box Extent, lines int) scan {
	side := int(math.Sqrt(float64(min(max(lines, 8*8), 1000*1000))))
	size := box.Size()
	s := scan{box: box, side: side, lines: make([]scanLine, side*side)}
	for axis := range s.cells {
		s.cells[axis] = float64(side) / size[axis]
	}
	random := rand.New(rand.NewPCG(1, 2))
	for i := range s.lines {
		for axis, cell := range [2]int{i % side, i / side} {
			s.lines[i].at[axis] = box.Min[axis] + (float64(cell)+random.Float64())/float64(side)*size[axis]
		}
	}
	workers := workersFor(min(side, len(m.Faces)/4096))
	AtOnce(workers, func(w int) {
		from, to := share(side, w, workers)
		for _, f := range m.Faces {
			s.pass(m, f, from, to-1)
		}
	})
	return s
}

// cell is the row (axis 1) or the place in a row (axis 0) of a coordinate, moved
// a little, since it is rounded.
func (s *scan) cell(c float64, axis int, moved float64) int {
	part := (c-s.box.Min[axis])*s.cells[axis] + moved
	if !(part > 0) { // true for NaN, of a box without size
		return 0
	}
	return min(int(part), s.side-1)
}

// pass notes a facet with those lines that meet it of some of the rows.
func (s *scan) pass(m Mesh, f [3]int, first, end int) {
	const little = 1e-6 // of a cell
	a, b, c := m.Vertices[f[0]], m.Vertices[f[1]], m.Vertices[f[2]]
	row, last := max(s.cell(min(a[1], b[1], c[1]), 1, -little), first), min(s.cell(max(a[1], b[1], c[1]), 1, little), end)
	if row > last {
		return
	}
	left, right := s.cell(min(a[0], b[0], c[0]), 0, -little), s.cell(max(a[0], b[0], c[0]), 0, little)
	height := s.box.Size()[1] / float64(s.side)
	for ; row <= last; row++ {
		from, to := left, right
		if to-from > 4 { // a large facet leaves much of its box empty
			edge := s.box.Min[1] + float64(row)*height
			least, most := facetBetween([3]Vec{a, b, c}, edge, edge+height)
			// One more at each end, since the ends are rounded.
			from, to = max(s.cell(least, 0, -1), left), min(s.cell(most, 0, 1), right)
		}
		for j := from; j <= to; j++ {
			line := &s.lines[row*s.side+j]
			if beside(line.at, a, b, c) {
				continue
			}
			if turn := turnsAround(m, f, line.at); turn != 0 {
				z := min(max(heightAt(a, b, c, line.at), min(a[2], b[2], c[2])), max(a[2], b[2], c[2]))
				line.hits = append(line.hits, scanHit{z, turn})
			}
		}
	}
}

// beside tells that a line along z passes outside the box of a facet.
func beside(at, a, b, c Vec) bool {
	return at[0] < min(a[0], b[0], c[0]) || at[0] > max(a[0], b[0], c[0]) || at[1] < min(a[1], b[1], c[1]) || at[1] > max(a[1], b[1], c[1])
}

// facetBetween is from where to where along x a facet, seen from above, is
// between two values of y.
func facetBetween(corners [3]Vec, low, high float64) (from, to float64) {
	from, to = math.Inf(1), math.Inf(-1)
	for i, p := range corners {
		q := corners[(i+1)%3]
		if p[1] > q[1] {
			p, q = q, p
		}
		if p[1] > high || q[1] < low {
			continue
		}
		for _, y := range [2]float64{max(p[1], low), min(q[1], high)} {
			part := 0.0
			if q[1] > p[1] {
				part = (y - p[1]) / (q[1] - p[1])
			}
			x := p[0] + part*(q[0]-p[0])
			from, to = min(from, x), max(to, x)
		}
		if p[1] == q[1] {
			from, to = min(from, q[0]), max(to, q[0])
		}
	}
	return from, to
}

type stretch struct{ length, middle float64 }

// excess returns by how much the facets count more than the line's length in
// the solid, and the longest stretch where they don't count once.
func (l scanLine) excess(sense int) (over float64, longest stretch) {
	slices.SortFunc(l.hits, func(a, b scanHit) int { return cmp.Compare(b.z, a.z) })
	inside := 0
	for i, hit := range l.hits {
		if i > 0 {
			wrong := inside
			if inside > 0 {
				wrong--
			}
			length := l.hits[i-1].z - hit.z
			over += float64(wrong) * length
			if wrong != 0 && length > longest.length {
				longest = stretch{length, hit.z + length/2}
			}
		}
		inside += sense * hit.turn
	}
	return over, longest
}
