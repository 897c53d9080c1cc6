package geom

import (
	"math"
	"math/bits"
	"math/rand/v2"
)

// meshBuilder makes an indexed mesh of triangles as they come. Vertices that
// are equal become one; their order is that of first use, so the same file
// always gives the same mesh.
type meshBuilder struct {
	vertexSet
	faces [][3]int
}

func newMeshBuilder() *meshBuilder { return &meshBuilder{vertexSet: newVertexSet()} }

func (b *meshBuilder) add(corners [3]Vec) {
	b.faces = append(b.faces, [3]int{b.vertex(corners[0]), b.vertex(corners[1]), b.vertex(corners[2])})
}

func (b *meshBuilder) mesh() Mesh { return Mesh{Vertices: b.vertices, Faces: b.faces, distinct: true} }

// vertexSet numbers different points in the order in which they come.
//
// It is a hash table with open addressing and linear probing. A slot holds 32
// bits of the hash over 1 + the index of the point, 0 where free; the slot that a
// point belongs to are the first bits of its hash. So a table can be made larger
// by going through it once, from front to back, without looking at the points.
type vertexSet struct {
	vertices []Vec
	table    []uint64
	shift    int // of 32 bits of hash, to the bits that number the slots
}

// hashSeed is drawn anew each time the program runs, so that no file can be made
// that is slow to read.
var hashSeed = rand.Uint64()

func newVertexSet() vertexSet {
	const first = 8
	return vertexSet{table: make([]uint64, 1<<first), shift: 32 - first}
}

// vertex returns the number of v, which must be finite.
func (s *vertexSet) vertex(v Vec) int {
	v = plusZero(v)
	return s.hashed(v, vertexHash(v))
}

// hashed is vertex for a point without −0 whose hash is known.
func (s *vertexSet) hashed(v Vec, hash uint64) int {
	mask := uint64(len(s.table) - 1)
	tag := hash >> 32 << 32
	slot := hash >> 32 >> s.shift
	for ; s.table[slot] != 0; slot = (slot + 1) & mask {
		if found := s.table[slot]; found>>32<<32 == tag && s.vertices[uint32(found)-1] == v {
			return int(uint32(found)) - 1
		}
	}
	s.vertices = append(s.vertices, v)
	s.table[slot] = tag | uint64(len(s.vertices))
	if 2*len(s.vertices) > len(s.table) && s.shift > 0 {
		s.grow()
	}
	return len(s.vertices) - 1
}

func (s *vertexSet) grow() {
	larger := make([]uint64, 2*len(s.table))
	s.shift--
	mask := uint64(len(larger) - 1)
	for _, entry := range s.table {
		if entry == 0 {
			continue
		}
		slot := entry >> 32 >> s.shift
		for larger[slot] != 0 {
			slot = (slot + 1) & mask
		}
		larger[slot] = entry
	}
	s.table = larger
}

// vertexHash mixes the bits of a point without −0.
func vertexHash(v Vec) uint64 {
	x, y, z := math.Float64bits(v[0]), math.Float64bits(v[1]), math.Float64bits(v[2])
	return mixed(mixed(x^hashSeed, y^mixCorner)^z, hashSeed^mixZ)
}

// mixed folds the full product of two numbers.
func mixed(a, b uint64) uint64 {
	high, low := bits.Mul64(a, b)
	return high ^ low
}

// plusZero makes −0 of a coordinate +0, since they are the same place: in
// IEEE 754 −0 + 0 is +0, and any other number stays what it is.
func plusZero(v Vec) Vec { return Vec{v[0] + 0, v[1] + 0, v[2] + 0} }

// welded returns m with equal vertices made one, and m itself, not a copy,
// when there are none. Vertices that no facet uses are kept.
func welded(m Mesh) Mesh {
	if m.distinct {
		return m
	}
	b := newMeshBuilder()
	to := make([]int, len(m.Vertices))
	for i, v := range m.Vertices {
		to[i] = b.vertex(v)
	}
	if len(b.vertices) == len(m.Vertices) {
		return m
	}
	b.faces = make([][3]int, len(m.Faces))
	for i, f := range m.Faces {
		b.faces[i] = [3]int{to[f[0]], to[f[1]], to[f[2]]}
	}
	return b.mesh()
}
