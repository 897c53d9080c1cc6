package geom

import (
	"math"
	"slices"
	"testing"

	"github.com/stretchr/testify/require"
)

// The sums as they are built against the plain ones, which are the reference: alike
// to 1e-14 for any number of triangles, box to the bit, and a number that is none
// is found in any place. They differ where Go builds the sums for four triangles at
// a time: GOEXPERIMENT=simd go test ./geom.
func TestRawSumsAreThePlainOnes(t *testing.T) {
	whole := binarySTL(ringMesh(600), Vec{3, 4, 5})[binaryHeader:]
	for n := range 40 {
		part := whole[n*binaryTriangle:][:(2*n+1)*binaryTriangle]
		want, got := newSTLSums(), newSTLSums()
		want.rawPlainly(part, Vec{1, 2, 3})
		got.raw(part, Vec{1, 2, 3})
		require.Equal(t, want.low, got.low)
		require.Equal(t, want.high, got.high)
		size := 0.0
		for _, x := range want.sum {
			size = max(size, math.Abs(x))
		}
		for i := range want.sum {
			require.InDelta(t, want.sum[i], got.sum[i], 1e-14*size, "%d triangles", 2*n+1)
		}
		require.True(t, got.finite())
		for corner := range 9 {
			bad := slices.Clone(part)
			copy(bad[n*binaryTriangle+12+4*corner:], []byte{1, 0, 0xc0, 0x7f}) // NaN
			got := newSTLSums()
			got.raw(bad, Vec{1, 2, 3})
			require.False(t, got.finite(), "triangle %d of %d, number %d", n+1, 2*n+1, corner)
		}
	}
}
