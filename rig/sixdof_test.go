package rig

import (
	"errors"
	"math"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/assert"

	"plumbhook/geom"
)

// nudged hangs the rig as the solver says, gives the load a small kick in all
// six freedoms and lets it go. It returns by how many rad the load then hangs
// away from where it was said to.
func nudged(t *testing.T, r Rig, h Hang, by float64, dice *rand.Rand) float64 {
	s := sixFree{rig: r, k: 3000 * r.Weight / r.size()}
	s.turn = uprightTurn(h.Up)
	q := freedoms{0, 0, -h.Hook.Sub(r.CG).Len()}
	for i := range q {
		size := by
		if i < 3 {
			size *= r.size()
		}
		q[i] += size * dice.NormFloat64()
	}
	off, left := s.turnsTo(q, h)
	assert.Less(t, left, 1e-3, "the descent has not come to rest: %+v", r)
	return off
}

// randomRig is a load a few metres across, on 1 to 8 legs, some cut for level
// and some of lengths of their own; its CG may be above its picks.
func randomRig(dice *rand.Rand) Rig {
	r := Rig{Weight: math.Exp(dice.Float64()*7 + 7), CG: geom.Vec{dice.Float64() - 0.5, dice.Float64() - 0.5, 3*dice.Float64() - 2}}
	for range 1 + dice.IntN(Most) {
		r.Picks = append(r.Picks, geom.Vec{6*dice.Float64() - 3, 6*dice.Float64() - 3, dice.Float64() - 0.5})
	}
	if len(r.Picks) == 2 && dice.IntN(2) == 0 { // balanced as drawn, whether it stays so or not
		f := dice.Float64()
		over := r.Picks[0].Mul(f).Add(r.Picks[1].Mul(1 - f))
		r.CG[0], r.CG[1] = over[0], over[1]
	}
	r.Lengths = LevelLengths(r.Picks, HookAbove(r.CG, r.Picks, 0.5+5*dice.Float64()))
	if dice.IntN(2) == 0 {
		for i := range r.Lengths {
			r.Lengths[i] *= 1 + 0.2*dice.Float64()
		}
	}
	return r
}

// A load that is called stable comes back when it is kicked, all six freedoms
// of it free; one that is called unstable by more than a hair does not. Where a
// centimetre would change the answer (a leg about to go slack, a small margin)
// neither is asked, since the legs here give by a few millimetres.
func TestStableLoadsComeBackWithAllSixFreedoms(t *testing.T) {
	dice := rand.New(rand.NewPCG(6, 6))
	came, left := 0, 0
	for range 6000 {
		r := randomRig(dice)
		h, err := r.Hang()
		if err != nil {
			continue
		}
		size := r.size()
		clear := h.First.Shift > 0.05*size && math.Abs(h.Margin) > 0.05*size && !r.nearlyHeld(h)
		switch {
		case !clear:
		case h.Stable && !h.RollsOver:
			assert.NoError(t, r.comesBack(h), "%+v", r)
			off := nudged(t, r, h, 2e-3, dice)
			assert.Less(t, off, 0.02, "called stable, margin %.3g m of %.3g m, but it ended %.3g rad away: %+v", h.Margin, size, off, r)
			came++
		case !h.Stable && !h.Neutral:
			claimed := h
			claimed.Stable, claimed.Margin = true, math.Abs(h.Margin)
			assert.ErrorIs(t, r.comesBack(claimed), ErrDisagree, "a false claim is found out: %+v", r)
			off := nudged(t, r, h, 2e-3, dice)
			assert.Greater(t, off, 0.1, "called unstable, margin %.3g m of %.3g m, but it came back: %+v", h.Margin, size, r)
			left++
		}
	}
	assert.Greater(t, came, 1200)
	assert.Greater(t, left, 50)
}

// ΣF to 1e-9 of the weight and ΣM to 1e-9 of weight × size on ten thousand
// rigs, none of which the two methods may disagree on.
func TestTenThousandRigsBalance(t *testing.T) {
	dice := rand.New(rand.NewPCG(10, 4))
	solved := 0
	for range 10_000 {
		r := randomRig(dice)
		h, err := r.Hang()
		var input *InputError
		var reach *ReachError
		if errors.As(err, &input) || errors.As(err, &reach) {
			continue
		}
		if err != nil {
			t.Fatalf("%v: %+v", err, r)
		}
		force := h.Up.Mul(-r.Weight)
		var moment geom.Vec // about the CG
		for i, p := range r.Picks {
			pull := h.Pull[i].Mul(h.Tension[i])
			force = force.Add(pull)
			moment = moment.Add(p.Sub(r.CG).Cross(pull))
		}
		if !(force.Len() <= 1e-9*r.Weight) || !(moment.Len() <= 1e-9*r.Weight*r.size()) {
			t.Fatalf("force left over %g N, moment %g N·m, of %g N: %+v", force.Len(), moment.Len(), r.Weight, r)
		}
		solved++
	}
	assert.Greater(t, solved, 8000)
}
