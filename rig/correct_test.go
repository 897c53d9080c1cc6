package rig

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"plumbhook/geom"
)

// out is a load of 1000 N on three legs made for a CG at the origin, which is
// out by the way given.
func out(x, y float64) Rig {
	r := Rig{Weight: 1000, CG: geom.Vec{0, 0, -1}, Picks: []geom.Vec{{2, 0, 0}, {-1, 1.5, 0}, {-1, -1.5, 0}}}
	r.Lengths = LevelLengths(r.Picks, HookAbove(r.CG, r.Picks, 2))
	r.CG = geom.Vec{x, y, -1}
	return r
}

// By hand: the hook stays over the origin as long as the three legs pull, so
// tan(tilt) = e/h with e = 0.2 m and h = 3 m, and 1000 N at 0.2 m is held even
// by 250 N at 0.8 m on the other side.
func TestCounterweightByHand(t *testing.T) {
	r := out(0.2, 0)
	c, err := r.Counterweight(geom.Vec{-0.8, 0, -1})
	require.NoError(t, err)
	assert.InDelta(t, 250, c.By, 1e-4)
	assert.InDelta(t, math.Atan(0.2/3), c.Before, 1e-9)
	assert.InDelta(t, 0, c.After, 1e-6)
	// Each newton moves the CG by (0.2 + 0.8)/1000 m at first; d(atan(e/h)) = h/(h²+e²)·de.
	assert.InDelta(t, -3/(9+0.04)*1e-3, c.Slope, 1e-8)
}

// Off the line it leaves some tilt: the CG gets to the foot of the square from
// the plumb line onto the way from CG to counterweight, to first order.
func TestCounterweightOffTheLine(t *testing.T) {
	r := out(0.2, 0)
	c, err := r.Counterweight(geom.Vec{-0.8, 0.5, -1})
	require.NoError(t, err)
	foot := 0.2 * 0.5 / math.Hypot(1, 0.5)
	assert.InDelta(t, math.Atan(foot/3), c.After, 1e-6)
}

func TestCounterweightFedBackHangsLevel(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		r := out(rapid.Float64Range(-0.3, 0.3).Draw(t, "x"), rapid.Float64Range(-0.3, 0.3).Draw(t, "y"))
		off := math.Hypot(r.CG[0], r.CG[1])
		if off < 0.01 {
			t.Skip("as good as level")
		}
		times := rapid.Float64Range(1.5, 5).Draw(t, "times as far out")
		at := geom.Vec{-times * r.CG[0], -times * r.CG[1], rapid.Float64Range(-2, 0).Draw(t, "z")}
		c, err := r.Counterweight(at)
		if err != nil {
			t.Fatal(err)
		}
		if want := r.Weight / times; math.Abs(c.By-want) > 1e-3*want {
			t.Fatalf("%v N, want %v N by the lever", c.By, want)
		}
		both := r.Weight + c.By
		r.CG = r.CG.Mul(r.Weight / both).Add(at.Mul(c.By / both))
		r.Weight = both
		if h := hang(t, r); h.Tilt() > 1e-6 || math.Abs(h.Tilt()-c.After) > 1e-7 { // Hang takes lengths right to 1e-8 as right
			t.Fatalf("fed back it hangs %v rad out, said %v", h.Tilt(), c.After)
		}
	})
}

func TestBestCounterweight(t *testing.T) {
	r := out(0.2, 0)
	i, c, err := r.BestCounterweight([]geom.Vec{{-0.5, 0.5, -1}, {-0.5, 0, -1}, {-1, 0, -1}, {1, 0, -1}})
	require.NoError(t, err)
	assert.Equal(t, 2, i, "in line, and the longest arm")
	assert.InDelta(t, 200, c.By, 1e-3)
	_, _, err = r.BestCounterweight(nil)
	require.Error(t, err)
	// On the heavy side nothing helps.
	c, err = r.Counterweight(geom.Vec{1, 0, -1})
	require.NoError(t, err)
	assert.Zero(t, c.By)
	assert.Positive(t, c.Slope)
}

// By hand: legs of √5 m on picks 2 m apart put the hook 2 m over the middle, 3 m
// over the CG. With pick 2 moved to 1 + s the hook stands over the new middle,
// s/2, so that a CG at 0.1 m needs s = 0.2 m.
func TestMoveLugByHand(t *testing.T) {
	r := Rig{Weight: 1000, CG: geom.Vec{0.1, 0, -1}, Picks: []geom.Vec{{-1, 0, 0}, {1, 0, 0}}, Lengths: []float64{math.Sqrt(5), math.Sqrt(5)}}
	c, err := r.MoveLug(1, geom.Vec{3, 0, 0})
	require.NoError(t, err)
	assert.InDelta(t, 0.2, c.By, 1e-6)
	assert.InDelta(t, math.Atan(0.1/3), c.Before, 1e-9)
	assert.InDelta(t, 0, c.After, 1e-6)
	r.Picks[1][0] += c.By
	h, err := r.Hang()
	require.NoError(t, err)
	assert.InDelta(t, c.After, h.Tilt(), 1e-9)

	_, err = r.MoveLug(2, geom.Vec{1, 0, 0})
	require.ErrorContains(t, err, "no pick 3")
	_, err = r.MoveLug(0, geom.Vec{})
	require.ErrorContains(t, err, "no direction")
}

// The slope against the tilt of the load hung with the pick a little moved.
func TestMoveLugSlope(t *testing.T) {
	r := out(0.2, 0.1)
	c, err := r.MoveLug(0, geom.Vec{1, 0, 0})
	require.NoError(t, err)
	at := func(by float64) float64 {
		m := r
		m.Picks = []geom.Vec{{2 + by, 0, 0}, r.Picks[1], r.Picks[2]}
		h, err := m.Hang()
		require.NoError(t, err)
		return h.Tilt()
	}
	assert.InDelta(t, (at(1e-3)-at(-1e-3))/2e-3, c.Slope, 1e-5)
	assert.Less(t, c.After, c.Before)
	assert.InDelta(t, at(c.By), c.After, 1e-9)
}

func TestHookShiftHangsLevel(t *testing.T) {
	s, err := out(0.2, -0.1).HookShift()
	require.NoError(t, err)
	assert.InDelta(t, 0, s.Shift.Sub(geom.Vec{0.2, -0.1, 0}).Len(), 1e-9)
	assert.InDelta(t, 0, s.After, 1e-9)
	assert.InDelta(t, math.Atan(math.Hypot(0.2, 0.1)/3), s.Before, 1e-9)
}

func TestNoCorrectionForALoadThatRolls(t *testing.T) {
	r := Rig{Weight: 1000, CG: geom.Vec{0, 0, 0.5}, Picks: []geom.Vec{{-1, 0, 0}, {1, 0, 0}}, Lengths: []float64{2, 2}}
	_, err := r.Counterweight(geom.Vec{1, 0, 0})
	require.ErrorContains(t, err, "does not stay")
}
