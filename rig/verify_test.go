package rig

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"plumbhook/geom"
)

// Every pose is found again from another start.
func TestVerifyAgrees(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		r := drawRig(t)
		h := hang(t, r)
		if err := r.Verify(h); err != nil {
			t.Fatalf("%v: %+v", err, r)
		}
	})
}

// What is spoiled is caught: a hook a tenth of a millimetre off, a tension
// wrong by a hundred-thousandth, a pose called stable that is not.
func TestVerifyCatches(t *testing.T) {
	r := rectangle(geom.Vec{0.3, -0.1, -0.5})
	good, err := r.Hang()
	require.NoError(t, err)
	require.NoError(t, r.Verify(good))
	spoil := func(by func(h *Hang)) error {
		h := good
		h.Tension = append([]float64{}, good.Tension...)
		by(&h)
		return r.Verify(h)
	}
	assert.ErrorIs(t, spoil(func(h *Hang) { h.Hook[0] += 1e-4 }), ErrDisagree)
	assert.ErrorIs(t, spoil(func(h *Hang) { h.Tension[2] *= 1 + 1e-5 }), ErrDisagree)
	assert.ErrorIs(t, spoil(func(h *Hang) { h.Tension[2] = math.NaN() }), ErrDisagree)

	edge := Rig{Weight: 100, CG: geom.Vec{0, 0, 0.4}, Picks: []geom.Vec{{-1, 0, 0}, {1, 0, 0}}}
	edge.Lengths = LevelLengths(edge.Picks, geom.Vec{0, 0, 2})
	h, err := edge.Hang()
	require.NoError(t, err)
	h.Stable, h.RollsOver = true, false
	assert.ErrorIs(t, edge.Verify(h), ErrDisagree, "let go beside the edge it does not come back")
}

// The most that a leg can carry, proved from the other side: by the duality of
// linear programs the greatest Tᵢ over Σ T·u = load, T ≥ 0 is the least of
// y·load over all y with y·uⱼ ≥ 0 and y·uᵢ ≥ 1. Any such y is a bound; the
// least over the corners of that set, found by trying all triples, must be
// reached. Source: strong duality, "Numerical Optimization" (Nocedal and
// Wright), 2nd ed., theorem 13.1 (from memory).
func TestAnyLegSlackByDuality(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		r := rectangle(geom.Vec{rapid.Float64Range(-1.5, 1.5).Draw(t, "x"), rapid.Float64Range(-0.7, 0.7).Draw(t, "y"), -0.5})
		h := hang(t, r)
		load := h.Up.Mul(r.Weight)
		for leg := range h.Pull {
			bound := math.Inf(1)
			for a := range h.Pull {
				for b := range a {
					for c := range b {
						y, ok := corner(h.Pull, [3]int{a, b, c}, leg)
						if ok {
							bound = min(bound, y.Dot(load))
						}
					}
				}
			}
			if math.Abs(bound-h.Greatest[leg]) > 1e-6*r.Weight {
				t.Fatalf("leg %d: %v N, its bound %v N", leg+1, h.Greatest[leg], bound)
			}
		}
	})
}

// corner is the y at which three of the constraints hold with equality, if it
// keeps the others.
func corner(pull []geom.Vec, three [3]int, leg int) (geom.Vec, bool) {
	want := func(j int) float64 {
		if j == leg {
			return 1
		}
		return 0
	}
	p, q, s := pull[three[0]], pull[three[1]], pull[three[2]]
	det := p.Dot(q.Cross(s))
	if math.Abs(det) < 1e-9 {
		return geom.Vec{}, false
	}
	y := q.Cross(s).Mul(want(three[0])).Add(s.Cross(p).Mul(want(three[1]))).Add(p.Cross(q).Mul(want(three[2]))).Mul(1 / det)
	for j, u := range pull {
		if y.Dot(u) < want(j)-1e-9 {
			return y, false
		}
	}
	return y, true
}

// A load that flops over to either side has the worst of both: here the side
// that leans less loads its leg more.
func TestBothFallsOfALean(t *testing.T) {
	r := Rig{Weight: 9806.65, CG: geom.Vec{0, 0, 0.5954}, Picks: []geom.Vec{{1, 1, 0}, {-1, 1, 0}, {-1, -1, 0}, {1, -1, 0}},
		Lengths: []float64{2.45, 2.749, 2.45, 2.823}}
	h, err := r.Hang()
	require.NoError(t, err)
	require.True(t, h.Leaned)
	require.NotNil(t, h.Other)
	w, err := r.Worst(Doubt{})
	require.NoError(t, err)
	// The other side found by itself, with the CG half a millimetre over there.
	r.CG = geom.Vec{-0.0005, 0.0005, 0.5954}
	other, err := r.Hang()
	require.NoError(t, err)
	assert.InDelta(t, 4760, other.Tension[0], 10, "statics of that pose, worked outside the program")
	assert.InDelta(t, other.Tension[0], w.Tension[0], 20)
	assert.Greater(t, w.Tension[1], 2000.0, "a leg slack on one side carries on the other")
}

// Rigs for which the two methods were once held to disagree: their legs are all but
// taut together, or lie all but in one plane with the CG. Both methods find a pose,
// and Verify finds it again.
func TestLegsAllButTautTogether(t *testing.T) {
	for name, r := range map[string]Rig{
		"four, 40 nm wrong": {Weight: 100, CG: geom.Vec{-0.001953125, -0.001953125, -1},
			Picks:   []geom.Vec{{2, 1, 0}, {-2, 1, 0}, {-2, -1, 0}, {2, -1, 0}},
			Lengths: []float64{3.7432240873672984, 3.7411364510847758, 3.740091994138345, 3.7421803769720015}},
		"three in one plane, two just beside": {Weight: 1000, CG: geom.Vec{1, 0, 0.031},
			Picks:   []geom.Vec{{1, 1, 0.5}, {3, 0.001, 0.5}, {1, 1.5, 0.5}, {0.25, 0, 0.016}, {-0.75, 0, 0.25}},
			Lengths: []float64{1.4142135623730951, 2.2360682011065762, 1.8027756377319946, 1.6627555442698123, 2.1505813167606567}},
		"three in one plane": {Weight: 1000, CG: geom.Vec{1, -0.001, -1},
			Picks:   []geom.Vec{{1.25, 0, 0.5}, {1, 1, 0.5}, {-1, 0, 0.5}, {1, 1.5, 0.5}, {0.5, 0, 0.25}},
			Lengths: []float64{1.7677672358090586, 2.0160607629731797, 2.6575366413278294, 2.3055370307154033, 2.061553055344441}},
		"a leg that is just taut beside two": {Weight: 1000, CG: geom.Vec{0.594, 0, 0.001},
			Picks:   []geom.Vec{{1, 0, 0.002}, {1, 1, 0.25}, {-1, 0, 0.002}},
			Lengths: []float64{0.8510816647067424, 1.189468788997845, 1.760778237030433}},
		"three in one plane, two far from it": {Weight: 1000, CG: geom.Vec{0, 0.75, 0.031},
			Picks:   []geom.Vec{{-1, 1, 0.25}, {-1, 1.5, -0.5}, {0, 3, -0.5}, {0, 1.5, 0.063}, {0, -1, 0.063}},
			Lengths: LevelLengths([]geom.Vec{{-1, 1, 0.25}, {-1, 1.5, -0.5}, {0, 3, -0.5}, {0, 1.5, 0.063}, {0, -1, 0.063}}, geom.Vec{0, 0.75, 0.75})},
	} {
		h, err := r.Hang()
		require.NoError(t, err, name)
		assert.NoError(t, r.Verify(h), name)
	}
}
