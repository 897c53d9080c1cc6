package geom

import "hash/maphash"

// meshBuilder makes an indexed mesh of triangles as they come. Vertices that
// are equal become one; their order is that of first use, so the same file
// always gives the same mesh.
type meshBuilder struct {
	vertices []Vec
	faces    [][3]int
	table    []uint32 // open addressing, linear probing: 1 + index into vertices, 0 where free
	seed     maphash.Seed
}

func newMeshBuilder() *meshBuilder {
	return &meshBuilder{table: make([]uint32, 1<<8), seed: maphash.MakeSeed()}
}

func (b *meshBuilder) add(corners [3]Vec) {
	b.faces = append(b.faces, [3]int{b.vertex(corners[0]), b.vertex(corners[1]), b.vertex(corners[2])})
}

func (b *meshBuilder) mesh() Mesh { return Mesh{Vertices: b.vertices, Faces: b.faces} }

// vertex returns the index of v, which must be finite.
func (b *meshBuilder) vertex(v Vec) int {
	for axis, c := range v {
		if c == 0 {
			v[axis] = 0 // −0 becomes +0
		}
	}
	slot := b.slot(v)
	if found := b.table[slot]; found != 0 {
		return int(found) - 1
	}
	b.vertices = append(b.vertices, v)
	b.table[slot] = uint32(len(b.vertices))
	if 2*len(b.vertices) > len(b.table) {
		b.grow()
	}
	return len(b.vertices) - 1
}

// slot is where v is in the table, or the free place where it belongs. The
// hash is seeded anew each time, so no file can be made that is slow to read.
func (b *meshBuilder) slot(v Vec) uint64 {
	mask := uint64(len(b.table) - 1)
	for slot := maphash.Comparable(b.seed, v) & mask; ; slot = (slot + 1) & mask {
		if found := b.table[slot]; found == 0 || b.vertices[found-1] == v {
			return slot
		}
	}
}

func (b *meshBuilder) grow() {
	b.table = make([]uint32, 4*len(b.table))
	for i, v := range b.vertices {
		b.table[b.slot(v)] = uint32(i + 1)
	}
}

// welded returns m with equal vertices made one, and m itself, not a copy,
// when there are none. Vertices that no facet uses are kept.
func welded(m Mesh) Mesh {
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
