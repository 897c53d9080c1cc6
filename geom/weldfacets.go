package geom

// facetSource is a file of triangles in runs that can be read at the same time.
type facetSource interface {
	facets() int
	runs() int
	// run gives the facets of one run and the number of the first of them. They
	// are valid until the next call with the same buffer.
	run(i int, buffer *facetBuffer) (first int, facets [][3]Vec, err error)
}

// facetBuffer is what one reader of a source keeps from run to run.
type facetBuffer struct {
	bytes  []byte
	facets [][3]Vec
}

// weldFacets makes the mesh that a meshBuilder would make of the same facets.
//
// Each worker reads all of them and numbers the points whose hash is its own, so
// that no two share a table; then the numbers are put into the order of first use.
func weldFacets(src facetSource) (Mesh, error) {
	parts := make([]weldPart, workersFor(src.runs()))
	faces := make([][3]int, src.facets())
	AtOnce(len(parts), func(w int) {
		parts[w] = weldPart{vertexSet: newVertexSet(), own: uint64(w), of: uint64(len(parts))}
		parts[w].read(src, faces)
	})
	written := 0
	for i := range parts { // a disk may fail for one and not for another
		if parts[i].err != nil {
			return Mesh{}, parts[i].err
		}
		written += parts[i].written
	}
	if written != 3*len(faces) { // a corner was nobody's, or two workers': they did not read the same
		return Mesh{}, &FileError{Msg: "the file changed while it was read", Fix: "wait until it is written, and try again"}
	}
	m := Mesh{Vertices: make([]Vec, totalOf(parts)), Faces: faces, distinct: true}
	ranks := make([][]int32, len(parts))
	AtOnce(len(parts), func(w int) {
		ranks[w] = rank(parts, w)
		for i, v := range parts[w].vertices {
			m.Vertices[ranks[w][i]] = v
		}
	})
	AtOnce(len(parts), func(w int) {
		for i := w * len(faces) / len(parts); i < (w+1)*len(faces)/len(parts); i++ {
			for corner, id := range faces[i] {
				faces[i][corner] = int(ranks[id%len(parts)][id/len(parts)])
			}
		}
	})
	return m, nil
}

// weldPart numbers the points whose hash falls into its own part of the range.
type weldPart struct {
	vertexSet
	own, of uint64
	written int      // corners
	used    []uint32 // for each point the corner of the file that used it first
	err     error
}

// read writes for each of its own corners the number of its point, times the
// number of workers, plus its own. They are written a run at a time, so that two
// processors seldom want the same piece of memory.
func (p *weldPart) read(src facetSource, faces [][3]int) {
	var buffer facetBuffer
	var corners, ids []int32
	for i := range src.runs() {
		first, facets, err := src.run(i, &buffer)
		if err != nil {
			p.err = err
			return
		}
		corners, ids = corners[:0], ids[:0]
		for f := range facets {
			for c := range 3 {
				v := plusZero(facets[f][c])
				hash := vertexHash(v)
				if hash&0xffff*p.of>>16 != p.own {
					continue
				}
				id := p.hashed(v, hash)
				if id == len(p.used) {
					p.used = append(p.used, uint32(3*(first+f)+c))
				}
				corners, ids = append(corners, int32(3*f+c)), append(ids, int32(id))
			}
		}
		p.written += len(corners)
		for k, corner := range corners {
			faces[first+int(corner)/3][corner%3] = int(ids[k])*int(p.of) + int(p.own)
		}
	}
}

func totalOf(parts []weldPart) int {
	n := 0
	for i := range parts {
		n += len(parts[i].vertices)
	}
	return n
}

// rank gives the place of each point of one worker among the points of all, in
// the order of first use.
func rank(parts []weldPart, own int) []int32 {
	ranks := make([]int32, len(parts[own].used))
	for i := range ranks {
		ranks[i] = int32(i)
	}
	for w := range parts {
		if w == own {
			continue
		}
		other, before := parts[w].used, 0
		for i, corner := range parts[own].used {
			for before < len(other) && other[before] < corner {
				before++
			}
			ranks[i] += int32(before)
		}
	}
	return ranks
}
