package lift

import (
	"math"
	"testing"

	"github.com/go-gl/mathgl/mgl64"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// strokesOf are the pieces of a line through places.
func strokesOf(at ...mgl64.Vec2) []stroke {
	var out []stroke
	for i := 1; i < len(at); i++ {
		out = append(out, stroke{a: placeOf(at[i-1]), b: placeOf(at[i])})
	}
	return out
}

// TestPiecesThatMeetAreOneLine: a square in pieces, out of order and turned about,
// is one closed line, and places on its sides are left out.
func TestPiecesThatMeetAreOneLine(t *testing.T) {
	s := strokesOf(mgl64.Vec2{0, 0}, mgl64.Vec2{3, 0}, mgl64.Vec2{10, 0}, mgl64.Vec2{10, 10}, mgl64.Vec2{0, 10}, mgl64.Vec2{0, 0})
	s[0], s[3] = s[3], s[0]
	s[2].a, s[2].b = s[2].b, s[2].a
	lines := chained(s)
	require.Len(t, lines, 1)
	assert.Equal(t, lines[0][0], lines[0][len(lines[0])-1], "closed")
	length, at := 0.0, straightened(lines[0])
	for i := 1; i < len(at); i++ {
		length += at[i].Sub(at[i-1]).Len()
	}
	assert.InDelta(t, 40, length, 1e-9, "mm")
	assert.LessOrEqual(t, len(at), 6)
}

// TestNoLineTwice: an edge that two parts share is drawn once, whichever way it
// runs, and a piece of a line that is there is not drawn again; one beside it is.
func TestNoLineTwice(t *testing.T) {
	drawn := covers{}
	line := func(a, b mgl64.Vec2) bool { return drawn.add(strokesOf(a, b)[0]) }
	assert.True(t, line(mgl64.Vec2{0, 5}, mgl64.Vec2{20, 5}))
	assert.False(t, line(mgl64.Vec2{20, 5}, mgl64.Vec2{0, 5}))
	assert.False(t, line(mgl64.Vec2{3, 5}, mgl64.Vec2{9, 5}))
	assert.True(t, line(mgl64.Vec2{15, 5}, mgl64.Vec2{25, 5}), "it goes on")
	assert.True(t, line(mgl64.Vec2{0, 5.5}, mgl64.Vec2{20, 5.5}))
	assert.True(t, line(mgl64.Vec2{10, 0}, mgl64.Vec2{10, 20}))
}

// TestScales are those of ISO 5455 (from memory), and 1 : 25.
func TestScales(t *testing.T) {
	for least, want := range map[float64]float64{0.3: 0.5, 1: 1, 1.01: 2, 2.2: 2.5, 7: 10, 11: 20, 24.9: 25, 26: 50, 51: 100, 120: 200} {
		assert.InDelta(t, want, drawingScale(least), 1e-9, "%g", least)
	}
	assert.Equal(t, "1 : 50", ratio(50))
	assert.Equal(t, "2 : 1", ratio(0.5))
}

// TestHatchFillsAConvexRing: strokes at 45°, a millimetre apart, as long together
// as the area is large.
func TestHatchFillsAConvexRing(t *testing.T) {
	sum := 0.0
	for _, s := range hatch([]mgl64.Vec2{{0, 0}, {30, 0}, {30, 20}, {0, 20}}, 1) {
		way := s[1].Sub(s[0])
		sum += way.Len()
		assert.InDelta(t, 1, math.Abs(way[1]/way[0]), 1e-9)
	}
	assert.InDelta(t, 600, sum, 6, "mm at 1 mm apart")
}
