package geom

import "fmt"

// vertexList holds the vertices that a file lists before its faces, and the
// numbers that those in use have in the mesh.
type vertexList struct {
	build  *meshBuilder
	most   int
	points []Vec
	ids    []uint32 // 1 + the number in the mesh, 0 while no face uses the vertex
}

func (l *vertexList) add(v Vec) (fault string) {
	if len(l.points) >= l.most {
		return fmt.Sprintf("more vertices than the limit of %d", l.most)
	}
	l.points = append(l.points, v)
	return ""
}

// use returns the number in the mesh of vertex i of the file, from 0, which
// must be there.
func (l *vertexList) use(i int) int {
	for len(l.ids) < len(l.points) {
		l.ids = append(l.ids, make([]uint32, len(l.points)-len(l.ids))...)
	}
	if l.ids[i] == 0 {
		l.ids[i] = uint32(l.build.vertex(l.points[i])) + 1
	}
	return int(l.ids[i]) - 1
}

// face reads the corners of a face, each V, V/T, V//N or V/T/N.
func (r *objReader) face() error {
	line := r.words.line
	r.corners = r.corners[:0]
	for word := r.word(); word != nil; word = r.word() {
		if len(r.corners) >= r.most+2 {
			return r.fault(tooManyTriangles(r.most).Msg, fixCoarser)
		}
		index, ok := cornerIndex(word)
		if !ok {
			return r.fault(fmt.Sprintf("%s is not the corner of a face", quoted(word)),
				"write the number of a vertex, such as 7, or with those of texture and normal, such as 7/3/5")
		}
		n := len(r.points)
		at := index - 1
		if index < 0 {
			at = n + index
		}
		if index == 0 || at < 0 || at >= n {
			return r.fault(fmt.Sprintf("vertex %d is not there: %s before this face, numbered from 1 or back from -1", index, count(n, "vertex comes", "vertices come")),
				"the file is damaged or its vertices follow its faces: "+fixOBJ)
		}
		r.corners = append(r.corners, r.use(at))
	}
	switch {
	case r.words.err != nil:
		return r.words.err
	case len(r.corners) < 3:
		return r.fault(fmt.Sprintf("a face has three corners or more; here are %d", len(r.corners)), "correct this line, or export the file again")
	}
	if fault := r.cut.add(r.corners, func() string { return fmt.Sprintf("on line %d", line) }); fault != nil {
		fault.Line = line
		return fault
	}
	r.objects[r.object] = true
	return nil
}

// cornerIndex returns the vertex of a corner. The numbers of texture and
// normal must be numbers, or left out, and are not used.
func cornerIndex(word []byte) (index int, ok bool) {
	for part := 0; ; part++ {
		end := 0
		for end < len(word) && word[end] != '/' {
			end++
		}
		n, isNumber := parseIndex(word[:end])
		last := end == len(word)
		if part > 2 || !isNumber && (end > 0 || part == 0 || last) {
			return 0, false
		}
		if part == 0 {
			index = n
		}
		if last {
			return index, true
		}
		word = word[end+1:]
	}
}

// parseIndex reads a whole number of at most nine digits.
func parseIndex(word []byte) (n int, ok bool) {
	sign := 1
	if len(word) > 0 && word[0] == '-' {
		sign, word = -1, word[1:]
	}
	if len(word) == 0 || len(word) > 9 {
		return 0, false
	}
	for _, c := range word {
		if c < '0' || c > '9' {
			return 0, false
		}
		n = 10*n + int(c-'0')
	}
	return sign * n, true
}
