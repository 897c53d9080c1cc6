package rig

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"plumbhook/geom"
)

// Lugs at the sides of a box 2 × 2 × 2 m, 0.2 m out and 1 m below its top: in
// closed form, the leg passes the top edge with its side on it. From the lug the
// edge is at (0.2 in, 1 up), √1.04 m away at atan 5 from level; a line at θ passes
// it by √1.04·sin(θ − atan 5), which is the radius.
func TestLeastHeightPastAnEdge(t *testing.T) {
	body := bodyOf(t, boxMesh(t, 2, 2, 2, geom.Vec{}), 0)
	const radius = 0.015
	picks := []geom.Vec{{-1.2, 0, 1}, {1.2, 0, 1}}
	want := 1.2 * math.Tan(math.Atan(5)+math.Asin(radius/math.Sqrt(1.04))) // 6.49 m
	got, ok, err := LeastHeight(picks, geom.Vec{0, 0, 1}, body, []float64{radius, radius}, 0.1, 50)
	require.NoError(t, err)
	require.True(t, ok)
	// The leg must clear by a micrometre; of height that is
	// 1.2/cos²θ·1 µm/√1.04 = 36 µm.
	assert.InDelta(t, want, got, 5e-5)
}

func TestLeastHeightCases(t *testing.T) {
	box := Obstacle{"box", boxMesh(t, 2, 2, 2, geom.Vec{}), 0}
	lugs := []geom.Vec{{-1.2, 0, 1}, {1.2, 0, 1}}
	tests := []struct {
		name  string
		parts []Obstacle
		picks []geom.Vec
		most  float64
		want  float64 // m; NaN: none
		tol   float64 // m
	}{
		{"nothing in the way", nil, lugs, 9, 0, 0},
		{"not as high as allowed", []Obstacle{box}, lugs, 6, math.NaN(), 0},
		{"picks over the body", []Obstacle{box}, []geom.Vec{{-1, 0, 2.2}, {1, 0, 2.2}}, 9, 0, 0},
		{"a part plumb over a pick", []Obstacle{box, {"shelf", boxMesh(t, 0.4, 0.4, 0.1, geom.Vec{1.2, 0, 2}), 0}}, lugs, 50, math.NaN(), 0},
		// A hook below the roof would be free. Above it, legs with the roof's
		// upper edge (0.5, 7.6) on their line: h/1.2 = (7.6 − 1)/(1.2 − 0.5).
		{"a hook under a roof is not clear", []Obstacle{{"roof", boxMesh(t, 1, 1, 0.1, geom.Vec{0, 0, 7.5}), 0}}, lugs, 50, 1.2 * 6.6 / 0.7, 1e-3},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			body, err := NewObstacles(tt.parts)
			require.NoError(t, err)
			got, ok, err := LeastHeight(tt.picks, geom.Vec{}, body, []float64{0, 0}, 0.1, tt.most)
			require.NoError(t, err)
			require.Equal(t, !math.IsNaN(tt.want), ok)
			if ok {
				assert.InDelta(t, tt.want, got, tt.tol)
			}
		})
	}
}

// drawBody draws boxes round the middle, some of them turned.
func drawBody(t *rapid.T) Obstacles {
	var parts []Obstacle
	size := rapid.Float64Range(0.1, 1.5)
	for range rapid.IntRange(1, 4).Draw(t, "parts") {
		mesh := boxMesh(t, size.Draw(t, "x"), size.Draw(t, "y"), size.Draw(t, "z"), geom.Vec{})
		turn := geom.TurnAbout(rapid.IntRange(0, 2).Draw(t, "axis"), rapid.Float64Range(-1, 1).Draw(t, "turn"))
		parts = append(parts, Obstacle{"part", mesh.Posed(geom.Pose{Turn: turn, Move: drawPoint(t, "move", 0.7)}), 0})
	}
	body, err := NewObstacles(parts)
	require.NoError(t, err)
	return body
}

// The least height, fed back, is clear and so are heights above it; 1 mm lower
// a leg clashes.
func TestLeastHeightFedBack(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		body, cg := drawBody(t), drawPoint(t, "cg", 0.2)
		var picks []geom.Vec
		var radius []float64
		n := rapid.IntRange(2, 4).Draw(t, "legs")
		for i := range n {
			s, c := math.Sincos(2 * math.Pi * float64(i) / float64(n))
			out := rapid.Float64Range(0.8, 2).Draw(t, "out")
			picks = append(picks, geom.Vec{out * c, out * s, rapid.Float64Range(-0.5, 0.5).Draw(t, "z")})
			radius = append(radius, rapid.Float64Range(0, 0.05).Draw(t, "radius"))
		}
		const free, most = 0.1, 40.0
		clashes := func(height float64) int {
			found, err := Clashes(HookAbove(cg, picks, height), picks, radius, body, free)
			require.NoError(t, err)
			return len(found)
		}
		height, ok, err := LeastHeight(picks, cg, body, radius, free, most)
		require.NoError(t, err)
		if !ok {
			require.Positive(t, clashes(most))
			return
		}
		for i := range 50 {
			require.Zero(t, clashes(height+(most-height)*math.Pow(float64(i)/49, 2)), "%d above %g m", i, height)
		}
		if height > 0.001 {
			require.Positive(t, clashes(height-0.001), "1 mm below %g m", height)
		}
	})
}

// A body 2 m wide below and 3 m wide above, the picks low at its sides: by
// hand, plumb drops clear it 1.5 m and their half thickness out from the middle.
func TestLeastBarByHand(t *testing.T) {
	parts := []Obstacle{
		{"foot", boxMesh(t, 2, 1, 2, geom.Vec{}), 0},
		{"head", boxMesh(t, 3, 1, 1, geom.Vec{0, 0, 2}), 0},
	}
	for _, tt := range []struct {
		name        string
		left, right geom.Vec
		most, want  float64 // m; NaN: none
	}{
		{"picks below the head", geom.Vec{-1.2, 0, 0.5}, geom.Vec{1.2, 0, 0.5}, 5, 3.04},
		{"bar not as long", geom.Vec{-1.2, 0, 0.5}, geom.Vec{1.2, 0, 0.5}, 3, math.NaN()},
		{"picks outside", geom.Vec{-1.6, 0, 0.5}, geom.Vec{1.6, 0, 0.5}, 5, 3.2},
		{"picks off the middle", geom.Vec{-1.6, 0, 0.5}, geom.Vec{1.2, 0, 0.7}, 5, 3.44}, // middle at −0.2: 2·(1.5 + 0.02 + 0.2)
		{"picks on top", geom.Vec{-1.2, 0, 3}, geom.Vec{1.2, 0, 3}, 5, 2.4},
		{"picks beside it", geom.Vec{-1.2, 0.6, 0.5}, geom.Vec{1.2, 0.6, 0.5}, 5, 2.4},
	} {
		t.Run(tt.name, func(t *testing.T) {
			body, err := NewObstacles(parts)
			require.NoError(t, err)
			got, ok, err := LeastBar([2]geom.Vec{tt.left, tt.right}, body, 0.02, 0.1, tt.most)
			require.NoError(t, err)
			require.Equal(t, !math.IsNaN(tt.want), ok)
			if ok {
				assert.InDelta(t, tt.want, got, 1e-5)
			}
		})
	}
}

// The least bar, fed back as two plumb legs, is clear; every bar shorter by
// more than 1 mm clashes, down to the distance of the picks.
func TestLeastBarFedBack(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		body := drawBody(t)
		picks := [2]geom.Vec{{-rapid.Float64Range(0.1, 1).Draw(t, "left"), 0, 0}, {rapid.Float64Range(0.1, 1).Draw(t, "right"), 0, 0}}
		radius := rapid.Float64Range(0, 0.05).Draw(t, "radius")
		apart, middle := picks[1][0]-picks[0][0], (picks[1][0]+picks[0][0])/2
		clashes := func(length float64) int {
			total := 0
			for _, x := range []float64{middle - length/2, middle + length/2} {
				found, err := Clashes(geom.Vec{x, 0, 20}, []geom.Vec{{x, 0, 0}}, []float64{radius}, body, 0.1)
				require.NoError(t, err)
				total += len(found)
			}
			return total
		}
		length, ok, err := LeastBar(picks, body, radius, 0.1, 30)
		require.NoError(t, err)
		require.True(t, ok, "30 m is past everything")
		require.Zero(t, clashes(length))
		for i := range 40 {
			if shorter := apart + (length-0.001-apart)*float64(i)/39; shorter >= apart && shorter < length {
				require.Positive(t, clashes(shorter), "%g m, of %g", shorter, length)
			}
		}
	})
}
