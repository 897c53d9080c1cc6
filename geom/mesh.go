package geom

// Mesh is a surface of triangles. Each face names three vertices, in
// anticlockwise order as seen from outside the solid.
type Mesh struct {
	Vertices []Vec    // m, unless it was read from a file that has not been scaled yet
	Faces    [][3]int // indices into Vertices

	distinct bool // no two vertices are equal: known where a meshBuilder made it
}

// Triangle returns the three corners of a face.
func (m Mesh) Triangle(face int) (a, b, c Vec) {
	f := m.Faces[face]
	return m.Vertices[f[0]], m.Vertices[f[1]], m.Vertices[f[2]]
}

// Moments returns the moments about the mesh's own origin of what its surface
// encloses. They are measured from the middle of the mesh and then shifted,
// so a part drawn far from its datum loses no digits of volume and centroid;
// see [Mesh.MomentsAbout] for the formula.
func (m Mesh) Moments() Moments {
	middle := m.Extent().Center()
	return m.MomentsAbout(middle).Posed(Still().Shifted(middle))
}

// MomentsAbout returns the moments about the given point (axes unchanged) by
// summing signed tetrahedra from that point to each face a, b, c. With
// d = a·(b × c) and s = a + b + c:
//
//	V = Σ d / 6
//	∫r dV = Σ d·s / 24
//	∫r rᵀ dV = Σ d·(s·sᵀ + a·aᵀ + b·bᵀ + c·cᵀ) / 120
//
// The volume has a sign: a surface that faces inward has a negative one, an
// inward shell inside another is a hollow, and an overlap counts twice. A
// surface that is not closed gives figures that depend on the point: they
// are no volume (see [Examine]).
//
// Source: the method in general B. Mirtich, "Fast and Accurate Computation of
// Polyhedral Mass Properties", J. Graphics Tools 1(2), 1996 (from memory); the
// terms derived here from the moments of a tetrahedron with one corner at the
// origin.
func (m Mesh) MomentsAbout(point Vec) Moments {
	// A sum of sums over blocks of faces: a plain sum over a million faces
	// loses four digits to rounding, this one loses none. The blocks are added
	// in their order, so the result is the same for any number of workers.
	var sum tally
	for _, part := range blocks(len(m.Faces), func(from, to int) tally { return m.tally(point, m.Faces[from:to]) }) {
		for i := range part {
			sum[i] += part[i]
		}
	}
	return sum.moments()
}

// blocks calls sum for each block of 512 of n things, several at a time, and
// returns what it gave in the order of the blocks.
func blocks[T any](n int, sum func(from, to int) T) []T {
	const block, together = 512, 64
	out := make([]T, (n+block-1)/block)
	ShareOut((len(out)+together-1)/together, meshWorkers(0), func() func(int) {
		return func(job int) {
			for k := job * together; k < min((job+1)*together, len(out)); k++ {
				out[k] = sum(k*block, min((k+1)*block, n))
			}
		}
	})
	return out
}

// tally holds 6V, 24∫(x, y, z) and 120∫(xx, yy, zz, xy, yz, zx).
type tally [10]float64

func (m Mesh) tally(point Vec, faces [][3]int) tally {
	var t tally
	for _, f := range faces {
		t.add(m.Vertices[f[0]].Sub(point), m.Vertices[f[1]].Sub(point), m.Vertices[f[2]].Sub(point))
	}
	return t
}

// add takes in the tetrahedron from the point to one face. It is written out axis
// by axis, since a loop over the axes takes twice as long.
func (t *tally) add(a, b, c Vec) {
	ax, ay, az, bx, by, bz, cx, cy, cz := a[0], a[1], a[2], b[0], b[1], b[2], c[0], c[1], c[2]
	d := ax*(by*cz-bz*cy) + ay*(bz*cx-bx*cz) + az*(bx*cy-by*cx)
	sx, sy, sz := ax+bx+cx, ay+by+cy, az+bz+cz
	t[0] += d
	t[1] += d * sx
	t[2] += d * sy
	t[3] += d * sz
	t[4] += d * (sx*sx + ax*ax + bx*bx + cx*cx)
	t[5] += d * (sy*sy + ay*ay + by*by + cy*cy)
	t[6] += d * (sz*sz + az*az + bz*bz + cz*cz)
	t[7] += d * (sx*sy + ax*ay + bx*by + cx*cy)
	t[8] += d * (sy*sz + ay*az + by*bz + cy*cz)
	t[9] += d * (sz*sx + az*ax + bz*bx + cz*cx)
}

func (t tally) moments() Moments {
	return Moments{
		Volume: t[0] / 6,
		First:  Vec{t[1], t[2], t[3]}.Mul(1.0 / 24),
		Second: symmetric(t[4], t[5], t[6], t[7], t[8], t[9]).Mul(1.0 / 120),
	}
}

// Area returns the area of all faces together, m².
func (m Mesh) Area() float64 {
	area := 0.0
	for _, part := range blocks(len(m.Faces), m.areaOf) {
		area += part
	}
	return area
}

func (m Mesh) areaOf(from, to int) float64 {
	area := 0.0
	for i := from; i < to; i++ {
		a, b, c := m.Triangle(i)
		area += b.Sub(a).Cross(c.Sub(a)).Len() / 2
	}
	return area
}

// Extent returns the box along the axes that holds every vertex; the zero
// Extent for a mesh without any.
func (m Mesh) Extent() Extent {
	if len(m.Vertices) == 0 {
		return Extent{}
	}
	low, high := m.Vertices[0], m.Vertices[0]
	for _, v := range m.Vertices {
		for i, x := range v {
			low[i], high[i] = min(low[i], x), max(high[i], x)
		}
	}
	return Extent{low, high}
}

// Posed returns the mesh turned and moved. A pose that mirrors also turns the
// faces over, so that they face outward still.
func (m Mesh) Posed(p Pose) Mesh {
	posed := Mesh{Vertices: make([]Vec, len(m.Vertices)), Faces: m.Faces}
	for i, v := range m.Vertices {
		posed.Vertices[i] = p.Point(v)
	}
	if p.Mirrored() {
		return posed.reversed()
	}
	return posed
}

// Scaled returns the mesh with all its coordinates multiplied by s, which
// must be above zero: 0.001 makes metres of millimetres.
func Scaled(m Mesh, s float64) Mesh {
	scaled := Mesh{Vertices: make([]Vec, len(m.Vertices)), Faces: m.Faces}
	for i, v := range m.Vertices {
		scaled.Vertices[i] = v.Mul(s)
	}
	return scaled
}

// reversed returns the mesh with every face turned over.
func (m Mesh) reversed() Mesh {
	turned := Mesh{Vertices: m.Vertices, Faces: make([][3]int, len(m.Faces))}
	for i, f := range m.Faces {
		turned.Faces[i] = [3]int{f[0], f[2], f[1]}
	}
	return turned
}

// joined returns both surfaces as one mesh.
func (m Mesh) joined(n Mesh) Mesh {
	both := Mesh{Vertices: append([]Vec(nil), m.Vertices...), Faces: append([][3]int(nil), m.Faces...)}
	both.Vertices = append(both.Vertices, n.Vertices...)
	for _, f := range n.Faces {
		shift := len(m.Vertices)
		both.Faces = append(both.Faces, [3]int{f[0] + shift, f[1] + shift, f[2] + shift})
	}
	return both
}
