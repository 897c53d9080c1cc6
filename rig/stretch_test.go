package rig

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"plumbhook/geom"
)

// Two legs, by hand: picks 6 m apart, hook 4 m up, so each leg is 5 m long under
// load, and pulls 100 kN/2 · 5/4 = 62.5 kN. With EA = 1 MN it stretches by a
// factor of 1.0625 and was 5/1.0625 = 4.705882 m before, 0.294118 m less.
func TestTwoLegsCutShort(t *testing.T) {
	picks := []geom.Vec{{-3, 0, 0}, {3, 0, 0}}
	r := Rig{Weight: 100e3, CG: geom.Vec{0, 0, -1}, Picks: picks, Lengths: []float64{5, 5}}
	cut, ok := r.Unloaded(geom.Vec{0, 0, 4}, 1e6)
	require.True(t, ok)
	assert.InDeltaSlice(t, []float64{4.705882, 4.705882}, cut, 1e-6)
	r.Lengths, r.Stiffness = cut, []float64{1e6 / cut[0], 1e6 / cut[1]}
	h, err := r.Hang()
	require.NoError(t, err)
	assert.InDelta(t, 4, h.Hook[2], 1e-9)
	assert.InDeltaSlice(t, []float64{62.5e3, 62.5e3}, h.Tension, 1e-3)
	assert.InDeltaSlice(t, []float64{0.294118, 0.294118}, r.Elongation(h.Pose), 1e-6)
	// Unstretched the hook stands √(4.705882² − 3²) = 3.625649 m up: 0.374351 m
	// of hook travel until the load hangs clear.
	rise, ok := r.Travel(h.Pose, []geom.Vec{{-3, 0, -2}, {3, 0, -2}})
	assert.True(t, ok)
	assert.InDelta(t, 0.374351, rise, 1e-6)
}

// Legs cut for their stretch hang the load as drawn, whatever the rig.
func TestCutLegsHangAsDrawn(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		r := drawRig(t)
		hook, ok := r.drawnHook()
		if !ok {
			return // the legs do not reach
		}
		ea := r.Weight * rapid.Float64Range(20, 5000).Draw(t, "EA")
		cut, ok := r.Unloaded(hook, ea)
		if !ok {
			return // it does not hang as drawn
		}
		c := r
		c.Lengths, c.Stiffness = cut, nil
		for _, l := range cut {
			c.Stiffness = append(c.Stiffness, ea/l)
		}
		p, ok := c.pose(hook)
		if !ok {
			t.Fatalf("no balance at the drawn hook: %+v", c)
		}
		var sum geom.Vec
		for i, tension := range p.Tension {
			if tension < 0 {
				t.Fatalf("leg %d pushes with %v N", i+1, tension)
			}
			sum = sum.Add(p.Pull[i].Mul(tension))
		}
		if sum.Sub(p.Up.Mul(r.Weight)).Len() > 1e-8*r.Weight {
			t.Fatalf("the forces leave %v N", sum.Sub(p.Up.Mul(r.Weight)).Len())
		}
	})
}

// The shift at which a leg that stretches goes slack, counted by the first
// derivatives, against the pose solved with the CG there: one leg 10 mm short of
// 3.74 m, where two legs are near slack already and the rule for legs cut to
// length would be far off.
func TestFirstSlackOfSprings(t *testing.T) {
	r := rectangle(geom.Vec{0, 0, -0.5})
	r.Weight = 100e3
	r.Lengths[0] -= 0.010
	for _, l := range r.Lengths {
		r.Stiffness = append(r.Stiffness, 40e6/l)
	}
	h, err := r.Hang()
	require.NoError(t, err)
	require.GreaterOrEqual(t, h.First.Leg, 0)
	at := func(part float64) float64 {
		c := r
		c.CG = r.CG.Add(h.First.Toward.Mul(part * h.First.Shift))
		moved, err := c.Hang()
		require.NoError(t, err)
		return moved.Tension[h.First.Leg]
	}
	assert.Greater(t, at(0.95), 0.0)
	assert.InDelta(t, 0, at(1.05), 1e-6)
	r.Stiffness, r.Lengths[0] = nil, r.Lengths[1]
	even, err := r.Hang()
	require.NoError(t, err)
	assert.Less(t, h.First.Shift, 0.5*even.First.Shift)
}

// What is named as slack at the worst is a set of legs without which the others
// carry the load: of a centred rectangle the two beside the leg.
func TestLooseLegsAreNamed(t *testing.T) {
	r := rectangle(geom.Vec{0, 0, -0.5})
	w, err := r.Worst(Doubt{})
	require.NoError(t, err)
	require.Len(t, w.Loose, 2)
	for _, j := range w.Loose {
		assert.Equal(t, 1, (j-w.Leg+4)%2, "legs beside leg %d", w.Leg+1)
	}
	assert.False(t, math.IsNaN(w.Tension[w.Leg]))
}
