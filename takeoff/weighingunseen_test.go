package takeoff

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// unseen are readings of 100 kg each on cells at these places.
func unseen(t *testing.T, places ...string) string {
	t.Helper()
	var cells []string
	for i, at := range places {
		cells = append(cells, fmt.Sprintf("{name: %c, at: %s, reads: 100 kg}", 'A'+i, at))
	}
	l := good(t, head+fmt.Sprintf("- {name: a, weight: %d kg, box: 2000 x 1000 x 500, corner: [0, 0, 0], position: 500, tolerance: 20 %%}\n", 100*len(places))+
		"weighings: [{name: shop, accuracy: 1 kg, cells: ["+strings.Join(cells, ", ")+"]}]\n")
	w, err := l.Weigh()
	require.NoError(t, err)
	r, ok, err := l.AsWeighed(w)
	require.NoError(t, err)
	require.True(t, ok)
	return r.Text
}

// What cells cannot see are the readings t with Σt = 0, Σt·x = 0 and Σt·y = 0. By
// hand: on the corners of a rectangle +1 −1 +1 −1 around; of three in a line, the
// middle one half way, +1 −2 +1, whatever a fourth beside the line reads; on a
// trapezoid with parallel sides of 2 and 1 the ends of the short side take twice as
// much as those of the long one; three at corners leave nothing open.
func TestWhatCellsCannotSee(t *testing.T) {
	const say = "Not seen by the cells (shop): "
	for _, tt := range []struct {
		name   string
		places []string
		want   string
	}{
		{"three", []string{"[0, 0, 0]", "[2000, 0, 0]", "[0, 1000, 0]"}, ""},
		{"a rectangle", []string{"[0, 0, 0]", "[2000, 0, 0]", "[2000, 1000, 0]", "[0, 1000, 0]"}, say + "A and C reading more and B and D less, all by as much (uneven support: the sum along a diagonal), leaves weight and CG as they are, and nothing here finds it."},
		{"two at one place", []string{"[0, 0, 0]", "[0, 0, 0]"}, say + "A reading more and B less, all by as much"},
		{"in a line", []string{"[0, 0, 0]", "[1000, 0, 0]", "[2000, 0, 0]"}, say + "A and C reading more and B less, as 1 : 1 to 2"},
		{"a line and one beside it", []string{"[0, 0, 0]", "[1000, 0, 0]", "[1500, 1000, 0]", "[2000, 0, 0]"}, say + "A and D reading more and B less, as 1 : 1 to 2"},
		{"a trapezoid", []string{"[0, 0, 0]", "[2000, 0, 0]", "[1500, 1000, 0]", "[500, 1000, 0]"}, say + "A and C reading more and B and D less, as 1 : 2 to 1 : 2"},
		{"five", []string{"[0, 0, 0]", "[2000, 0, 0]", "[2000, 1000, 0]", "[0, 1000, 0]", "[1000, 500, 0]"}, say + "2 ways in which A, B, C, D, E can share the load otherwise"},
	} {
		t.Run(tt.name, func(t *testing.T) {
			text := unseen(t, tt.places...)
			assert.Contains(t, text, tt.want)
			if tt.want == "" {
				assert.NotContains(t, text, "Not seen")
			}
		})
	}
}

// The pattern that cells cannot see is one: it changes neither weight nor moment.
func TestTheUnseenChangesNothing(t *testing.T) {
	w := onCells{Weighing: Weighing{Up: axis(2)}}
	for i, at := range [][2]float64{{0.1, 0.2}, {2.3, 0.1}, {1.9, 1.2}, {0.4, 0.8}} {
		w.Cells = append(w.Cells, Reading{Name: string(rune('A' + i)), At: axis(0).Mul(at[0]).Add(axis(1).Mul(at[1]))})
	}
	shares, ways := w.unseen()
	require.Equal(t, 1, ways)
	var sum, x, y float64
	for i, c := range w.Cells {
		sum, x, y = sum+shares[i], x+shares[i]*c.At[0], y+shares[i]*c.At[1]
	}
	assert.Less(t, math.Abs(sum)+math.Abs(x)+math.Abs(y), 1e-12)
}
