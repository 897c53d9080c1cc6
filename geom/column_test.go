package geom

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

// Two blocks, one in a box 1 m high on the datum, the other 1 m over it; by hand.
func TestColumnThroughTwoBlocks(t *testing.T) {
	block := made(NewBox(1, 1, 1)).Mesh(0)
	tree := NewBoxTree(block.joined(block.Posed(Still().Shifted(Vec{0.25, 0, 2}))))
	assert.Equal(t, [][2]float64{{3, 2}, {1, 0}}, tree.Column(0.1, 0.1))
	assert.Equal(t, [][2]float64{{1, 0}}, tree.Column(-0.4, 0.1))
	assert.Equal(t, [][2]float64{{3, 2}}, tree.Column(0.6, 0.1))
	assert.Empty(t, tree.Column(0.1, 0.6))
	assert.Empty(t, NewBoxTree(Mesh{}).Column(0, 0))
	overlapping := NewBoxTree(block.joined(block.Posed(Still().Shifted(Vec{0, 0, 0.5}))))
	assert.Equal(t, [][2]float64{{1.5, 0}}, overlapping.Column(0.1, 0.1), "one body")
}

// A law: a column is what all faces, looked at one by one, say.
func TestColumnAgreesWithHits(t *testing.T) {
	m := ringMesh(3000)
	tree := NewBoxTree(m)
	above := m.Extent().Max[2] + 1
	rapid.Check(t, func(t *rapid.T) {
		x, y := rapid.Float64Range(-4.2, 4.2).Draw(t, "x"), rapid.Float64Range(-4.2, 4.2).Draw(t, "y")
		hits := m.Hits(Vec{x, y, above}, Vec{0, 0, -1})
		column := tree.Column(x, y)
		require.Len(t, hits, 2*len(column))
		for i, c := range column {
			require.InDelta(t, above-hits[2*i], c[0], 1e-12)
			require.InDelta(t, above-hits[2*i+1], c[1], 1e-12)
		}
	})
}

func BenchmarkColumn(b *testing.B) {
	tree := NewBoxTree(ringMesh(1e6))
	i := 0
	for b.Loop() {
		i++
		tree.Column(2.5+float64(i%997)/997, 0.3)
	}
}
