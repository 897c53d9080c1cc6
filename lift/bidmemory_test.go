package lift

import (
	"fmt"
	"runtime"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// Loads are read when they are worked and let go after it: what stays of a piece is
// its row, some tens of kilobytes, however large its take-off.
func TestWhatStaysOfAPieceIsItsRow(t *testing.T) {
	const n = 60
	var pieces []BidPiece
	for i := range n {
		pieces = append(pieces, bidPiece(fmt.Sprintf("P%02d", i), skid(10, 500+float64(i))))
	}
	held := func() uint64 {
		runtime.GC()
		var m runtime.MemStats
		runtime.ReadMemStats(&m)
		return m.HeapAlloc
	}
	_, err := Bid(pieces[:2], BidOptions{}) // tables are read
	require.NoError(t, err)
	before := held()
	b, err := Bid(pieces, BidOptions{})
	require.NoError(t, err)
	after := held()
	runtime.KeepAlive(b)
	perPiece := (float64(after) - float64(before)) / n
	assert.Less(t, perPiece, 50e3, "bytes a piece")
}
