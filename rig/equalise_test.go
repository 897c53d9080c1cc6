package rig

import (
	"errors"
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"plumbhook/geom"
)

// offCentred is the four-leg example of which the vertical parts are V₀ + t·(1, −1,
// 1, −1) with V₀ = 37.5, 22.5, 15, 25: picks 4 × 2, hook 3 up, CG at (0.5, 0.2),
// W 100 (derived here: levers).
func offCentred() (Rig, geom.Vec) {
	r := Rig{Weight: 100, CG: geom.Vec{0.5, 0.2, -1}, Picks: []geom.Vec{{2, 1, 0}, {-2, 1, 0}, {-2, -1, 0}, {2, -1, 0}}}
	hook := geom.Vec{0.5, 0.2, 3}
	r.Lengths = LevelLengths(r.Picks, hook)
	return r, hook
}

// By hand: legs 1 and 4 pull alike, T = V·L/3 with L = 3.448188, 3.986226, 4.085340,
// 3.562303, where (37.5 + t)·3.448188 = (25 − t)·3.562303, so t = −5.74132, and V =
// 31.75868, 28.24132, 9.25868, 30.74132.
func TestTwoLegsOnABalanceBeam(t *testing.T) {
	r, hook := offCentred()
	e, err := r.Equalise([][]int{{0, 3}}, hook)
	require.NoError(t, err)
	assert.InDeltaSlice(t, []float64{36.5033, 37.5254, 12.6083, 36.5033}, e.Tension, 6e-5)
	assert.InDelta(t, 0, e.Tilt(), 1e-9)
}

// Legs that stand opposite settle nothing: on a rectangle both gain and lose
// together.
func TestOppositeLegsSettleNothing(t *testing.T) {
	r := rectangle(geom.Vec{0, 0, -0.5})
	_, err := r.Equalise([][]int{{0, 2}}, geom.Vec{0, 0, 3})
	var input *InputError
	require.ErrorAs(t, err, &input)
	assert.Contains(t, input.Fix, "side by side")
	for name, groups := range map[string][][]int{"none": nil, "two pairs": {{0, 1}, {2, 3}}, "a leg twice": {{0, 0}}, "no such leg": {{0, 7}}} {
		_, err := r.Equalise(groups, geom.Vec{0, 0, 3})
		assert.ErrorAs(t, err, &input, name)
	}
}

// With the CG far toward legs 1 and 2, 4 long and 0.9 of 1 toward that side, legs 2
// and 3 pulling alike would want leg 4 to push: V₂ ≈ V₃, V₁ + V₂ = 95, V₃ + V₄ = 5.
func TestGearThatWouldHaveToPush(t *testing.T) {
	r := rectangle(geom.Vec{0, 0.9, -0.5})
	r.Lengths = LevelLengths(r.Picks, geom.Vec{0, 0.9, 3})
	_, err := r.Equalise([][]int{{1, 2}}, geom.Vec{0, 0.9, 3})
	var push *ErrPush
	require.ErrorAs(t, err, &push)
	assert.Equal(t, []int{3}, push.Legs)
}

// With gear the forces balance, no leg pushes, legs of a group pull alike and
// the sum of their lengths holds.
func TestGearLaws(t *testing.T) {
	solved := 0
	rapid.Check(t, func(t *rapid.T) {
		r, hook := offCentred()
		r.CG = r.CG.Add(geom.Vec{rapid.Float64Range(-1, 0.5).Draw(t, "x"), rapid.Float64Range(-0.5, 0.3).Draw(t, "y"), 0})
		for i := range r.Lengths {
			r.Lengths[i] += rapid.Float64Range(-0.05, 0.05).Draw(t, "out")
		}
		i := rapid.IntRange(0, 3).Draw(t, "leg")
		pair := []int{i, (i + 1) % 4}
		e, err := r.Equalise([][]int{pair}, hook)
		var push *ErrPush
		if errors.As(err, &push) {
			return
		}
		if err != nil {
			t.Fatal(err)
		}
		solved++
		sum := e.Up.Mul(-r.Weight)
		gap := 0.0
		for j, tension := range e.Tension {
			sum = sum.Add(e.Pull[j].Mul(tension))
			if out := e.Hook.Sub(r.Picks[j]).Len() - r.Lengths[j]; slices.Contains(pair, j) {
				gap += out
			} else if out > 1e-9 || out < -1e-9 {
				t.Fatalf("leg %d is %v m out", j+1, out)
			}
		}
		if slices.Min(e.Tension) < 0 || sum.Len() > 1e-9*r.Weight || gap > 1e-9 || gap < -1e-9 || e.Tension[pair[0]] != e.Tension[pair[1]] {
			t.Fatalf("tensions %v leave %v N, lengths %v m", e.Tension, sum.Len(), gap)
		}
	})
	assert.Positive(t, solved)
}

// A reading settles all: T + x·n. The centred rectangle has 31.1805 in each leg at
// best (0.25·100·L/3, L = √14), from 0 to 62.3610, and each N of the reading moves
// every other leg by one.
func TestSettingsOfACentredLoad(t *testing.T) {
	r := rectangle(geom.Vec{0, 0, -0.5})
	h, err := r.Hang()
	require.NoError(t, err)
	all := r.Settings(h.Pose)
	require.Len(t, all, 4)
	assert.Equal(t, 0, all[0].Leg)
	for _, s := range all {
		assert.InDelta(t, 31.1805, s.Reading, 1e-3)
		assert.InDelta(t, 0, s.Low, 1e-6)
		assert.InDelta(t, 62.3610, s.High, 5e-5)
		for _, per := range s.PerN {
			assert.InDelta(t, 1, max(per, -per), 1e-9)
		}
	}
}

// Whatever the reading set, between its bounds the legs balance the load; off
// centre the reading with the least greatest tension is no worse than the elastic
// share.
func TestSettingsBalance(t *testing.T) {
	r, _ := offCentred()
	h, err := r.Hang()
	require.NoError(t, err)
	for _, s := range r.Settings(h.Pose) {
		for _, reading := range []float64{s.Low, s.Reading, s.High} {
			sum := h.Up.Mul(-r.Weight)
			for j, u := range h.Pull {
				sum = sum.Add(u.Mul(s.Tension[j] + s.PerN[j]*(reading-s.Reading)))
			}
			assert.InDelta(t, 0, sum.Len(), 1e-7)
		}
		assert.LessOrEqual(t, slices.Max(s.Tension), slices.Max(h.Tension)+1e-9)
	}
}

// Another method: the gear as one long spring over both its legs, the others as
// springs of their own, and the energy followed downhill by small steps,
//
//	U(h) = Σ ½ K·max(0, Σ|h − pᵢ| − ΣLᵢ)² − W·|h − c|
//
// with K = 10⁵ W/m, so that nothing gives more than some hundredths of a millimetre.
func TestGearByEnergy(t *testing.T) {
	r, hook := offCentred()
	r.Lengths[1] += 0.02 // not as drawn: the gear gives, and the load tilts
	groups := [][]int{{0, 3}, {1}, {2}}
	e, err := r.Equalise(groups[:1], hook)
	require.NoError(t, err)
	k := 1e5 * r.Weight
	energy := func(h geom.Vec) (u float64, pull [3]float64) {
		u = -r.Weight * h.Sub(r.CG).Len()
		for g, legs := range groups {
			out := 0.0
			for _, i := range legs {
				out += h.Sub(r.Picks[i]).Len() - r.Lengths[i]
			}
			pull[g] = k * max(0, out)
			u += pull[g] * max(0, out) / 2
		}
		return u, pull
	}
	h := hook
	least, _ := energy(h)
	for step := 0.01; step > 1e-11; {
		better := false
		for axis := range 3 {
			for _, way := range []float64{step, -step} {
				to := h
				to[axis] += way
				for range 1000 { // as far as it goes down this way
					u, _ := energy(to)
					if u >= least {
						break
					}
					h, least, better = to, u, true
					to[axis] += way
				}
			}
		}
		if !better {
			step /= 2
		}
	}
	_, pull := energy(h)
	assert.InDelta(t, 0, h.Sub(e.Hook).Len(), 1e-4)
	assert.InDelta(t, e.Tension[0], pull[0], 0.05)
	assert.InDelta(t, e.Tension[1], pull[1], 0.05)
	assert.InDelta(t, e.Tension[2], pull[2], 0.05)
	assert.Greater(t, e.Tilt(), 1e-4)
}
