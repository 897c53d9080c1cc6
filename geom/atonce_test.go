package geom

import (
	"sync/atomic"
	"testing"

	"github.com/stretchr/testify/require"
)

// All are called, and a panic in one comes out where it can be caught.
func TestAtOnce(t *testing.T) {
	var sum atomic.Int64
	AtOnce(100, func(i int) { sum.Add(int64(i)) })
	require.EqualValues(t, 4950, sum.Load())
	AtOnce(0, func(int) { t.Error("called") })
	for _, n := range []int{1, 8} {
		sum.Store(0)
		require.PanicsWithValue(t, "bad facet", func() {
			AtOnce(n, func(i int) {
				sum.Add(1)
				if i == n-1 {
					panic("bad facet")
				}
			})
		})
		require.EqualValues(t, n, sum.Load(), "the others have ended")
	}
}
