package rig

import (
	"math"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"plumbhook/geom"
)

// Four picks ±1 by ±1, the diagonal through (1, 1) on legs of 3 m and the other
// two 50 mm longer, the CG 1.6 m above the picks and 7 mm off that diagonal. On
// the two short legs alone it rolls about their line, since the CG is above it,
// until a third leg takes hold, on the one side or on the other.
func TestALoadThatRocksBetweenTwoPoses(t *testing.T) {
	r := Rig{Weight: 1000, CG: geom.Vec{0.005, -0.005, 1.6},
		Picks:   []geom.Vec{{1, 1, 0}, {-1, 1, 0}, {-1, -1, 0}, {1, -1, 0}},
		Lengths: []float64{3, 3.05, 3, 3.05}}
	h, err := r.Hang()
	require.NoError(t, err)
	require.Nil(t, h.Other)
	others := r.OtherPoses(h)
	require.Len(t, others, 1)
	o := others[0]
	assert.True(t, o.Stable)
	assert.Greater(t, between(o.Up, h.Up), apart)
	// The third leg that holds is the opposite one.
	assert.NotEqual(t, h.Slack(1), o.Slack(1))
	assert.NotEqual(t, h.Slack(3), o.Slack(3))
}

func TestNoOtherPoseOfACommonRig(t *testing.T) {
	r := benchRig(4, true)
	h, err := r.Hang()
	require.NoError(t, err)
	assert.Empty(t, r.OtherPoses(h))
}

// rocker is a load on four legs of which two opposite ones are shorter, its CG
// as high as its picks or higher.
func rocker(dice *rand.Rand) Rig {
	a, b := 1+dice.Float64(), 1+dice.Float64()
	r := Rig{Weight: 1000, CG: geom.Vec{0.4 * (dice.Float64() - 0.5), 0.4 * (dice.Float64() - 0.5), 2 * dice.Float64()},
		Picks: []geom.Vec{{a, b, 0}, {-a, b, 0}, {-a, -b, 0}, {a, -b, 0}}}
	long := math.Hypot(a, b) * (1.3 + dice.Float64())
	r.Lengths = []float64{long, long * (1 + 0.1*dice.Float64()), long, long * (1 + 0.1*dice.Float64())}
	return r
}

// Each other pose is one in which the load stays when it is kicked with all six
// freedoms, and no random start within 45° comes to rest in a pose that is not
// listed.
func TestOtherPosesAreAllThereAre(t *testing.T) {
	dice := rand.New(rand.NewPCG(5, 1))
	kicked, found := 0, 0
	for i := range 3000 {
		r := randomRig(dice)
		if i%2 == 0 {
			r = rocker(dice)
		}
		h, err := r.Hang()
		if err != nil {
			continue
		}
		others := r.OtherPoses(h)
		for _, o := range others {
			if o.First.Shift > 0.05*r.size() && o.Margin > 0.05*r.size() && !nearlyHeld(r, o) {
				assert.NoError(t, r.stays(o), "%+v", r)
				kicked++
			}
		}
		known := []geom.Vec{h.Up}
		if h.Other != nil {
			known = append(known, h.Other.Up)
		}
		for _, o := range others {
			known = append(known, o.Up)
		}
		for range 4 {
			start := h.Hook.Add(geom.Vec{dice.NormFloat64(), dice.NormFloat64(), dice.NormFloat64()}.Mul(0.3 * r.size()))
			p, err := r.rest(start)
			if err != nil || p.Tilt() > rollover-0.01 || !r.stability(p).Stable {
				continue
			}
			found++
			nearest := math.Inf(1)
			for _, up := range known {
				nearest = min(nearest, between(up, p.Up))
			}
			assert.LessOrEqual(t, nearest, 2*apart, "rests in a pose that is not listed: %+v", r)
		}
	}
	assert.Greater(t, kicked, 20)
	assert.Greater(t, found, 3000)
}
