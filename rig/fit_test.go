package rig

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"plumbhook/geom"
)

// drawPyramid is three or four picks round a CG below them.
func drawPyramid(t *rapid.T) Rig {
	draw := func(name string, low, high float64) float64 { return rapid.Float64Range(low, high).Draw(t, name) }
	n := rapid.IntRange(3, 4).Draw(t, "legs")
	r := Rig{Weight: 1000, CG: geom.Vec{draw("cg x", -0.3, 0.3), draw("cg y", -0.3, 0.3), draw("cg z", -1.5, -0.5)}}
	for i := range n {
		sin, cos := math.Sincos(2*math.Pi*float64(i)/float64(n) + draw("turn", -0.2, 0.2))
		out := draw("out", 1, 2)
		r.Picks = append(r.Picks, geom.Vec{out * cos, out * sin, draw("z", -0.2, 0.2)})
	}
	return r
}

// The load let go on its attitude stays there: solved in the frame in which
// that attitude is the one drawn, and let go level in its own frame.
func TestAttitudeLengthsHangSo(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		r := drawPyramid(t)
		// Less would count as drawn: Hang takes lengths right to 1e-8 as right.
		lean := rapid.Float64Range(1e-4, rad(30)).Draw(t, "lean")
		turn := rapid.Float64Range(0, 2*math.Pi).Draw(t, "toward")
		up := geom.Vec{math.Sin(lean) * math.Cos(turn), math.Sin(lean) * math.Sin(turn), math.Cos(lean)}
		height := rapid.Float64Range(1, 4).Draw(t, "hook height")
		lengths, hook, err := AttitudeLengths(r.Picks, r.CG, up.Mul(3), height)
		if err != nil {
			t.Fatal(err)
		}
		r.Lengths = lengths
		if p := (Pose{Hook: hook, Up: up}); math.Abs(p.Headroom(r.Picks)-height) > 1e-12 {
			t.Fatalf("hook %v m over the highest pick, want %v m", p.Headroom(r.Picks), height)
		}
		there, back := r.turned(up)
		h := hang(t, there)
		if !h.Drawn || !h.Stable {
			t.Skip("no pull of the legs holds it so") // the plumb line passes outside the picks
		}
		// Lengths right to the last digit leave no more than 1e-8 rad, where legs are nearly
		// in one plane.
		if off := h.Pose.turned(back).Up.Sub(up).Len(); off > 1e-8 {
			t.Fatalf("%v rad from the attitude wanted", off)
		}
		if h.First.Shift < 0.3 {
			return // near its limit it may come to rest elsewhere from a level start
		}
		if own := hang(t, r); own.Up.Sub(up).Len() > 1e-8 {
			t.Fatalf("let go level it hangs %v rad from the attitude wanted", own.Up.Sub(up).Len())
		}
	})
}

func TestLevelLengthsHangLevel(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		r := drawPyramid(t)
		var hook geom.Vec
		var err error
		r.Lengths, hook, err = AttitudeLengths(r.Picks, r.CG, Up, 2)
		if err != nil || hook.Sub(HookAbove(r.CG, r.Picks, 2)).Len() > 1e-12 {
			t.Fatalf("level is the hook plumb over the CG: %v %v", hook, err)
		}
		if h := hang(t, r); !h.Drawn || h.Tilt() > 1e-9 {
			t.Fatalf("hangs %v rad out: %+v", h.Tilt(), r)
		}
	})
}

// A flight of stairs 5 m long, drawn flat with the CG in the middle, hangs on
// its slope, 4 m along and 3 m up, the hook 2 m over the upper pick. By hand.
func TestStairsOnTheirSlope(t *testing.T) {
	picks := []geom.Vec{{-2.5, 0, 0}, {2.5, 0, 0}}
	up := geom.Vec{3.0 / 5, 0, 4.0 / 5}
	lengths, hook, err := AttitudeLengths(picks, geom.Vec{}, up, 2)
	require.NoError(t, err)
	// In the hung frame the picks are at (∓2, ∓1.5), the hook at (0, 3.5).
	assert.InDelta(t, math.Hypot(2, 5), lengths[0], 1e-12)
	assert.InDelta(t, math.Hypot(2, 2), lengths[1], 1e-12)
	assert.InDelta(t, 3.5, hook.Len(), 1e-12)
}

func TestAttitudeRefused(t *testing.T) {
	picks := []geom.Vec{{-1, 0, 0}, {1, 0, 0}}
	tests := []struct {
		name   string
		picks  []geom.Vec
		cg, up geom.Vec
		height float64
		want   string
	}{
		{"no direction", picks, geom.Vec{}, geom.Vec{}, 1, "is no direction"},
		{"not a number", picks, geom.Vec{}, geom.Vec{math.NaN(), 0, 1}, 1, "is no direction"},
		{"no picks", nil, geom.Vec{}, Up, 1, "0 legs to one hook"},
		{"hook below the CG", picks, geom.Vec{0, 0, 2}, Up, 1, "below the centre of gravity"},
		{"hook on a pick", []geom.Vec{{0, 0, 1}}, geom.Vec{}, Up, 0, "where the hook would be"},
		{"below the picks", picks, geom.Vec{}, Up, -1, "above the highest pick"},
		{"no place", []geom.Vec{{math.Inf(1), 0, 0}}, geom.Vec{}, Up, 1, "is not a place"},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			_, _, err := AttitudeLengths(tt.picks, tt.cg, tt.up, tt.height)
			var input *InputError
			require.ErrorAs(t, err, &input)
			assert.Contains(t, input.Msg, tt.want)
			assert.NotEmpty(t, input.Fix)
		})
	}
}
