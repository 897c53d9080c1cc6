package rig

import (
	"errors"
	"math"
	"math/rand/v2"
	"testing"

	"github.com/go-gl/mathgl/mgl64"
	"github.com/stretchr/testify/assert"

	"plumbhook/geom"
)

// sixFree is the whole load as a rigid body with its six freedoms, hung on
// one-sided springs from a hook that stays where it is:
//
//	E(x, w) = W·z_cg + Σ ½·k·max(0, |hook − R(w)·pᵢ − x| − Lᵢ)²
//
// It shares no code and no idea with the solver, which moves the hook over a
// load held still. Metres and newtons; the hook is the origin, z is up.
type sixFree struct {
	rig  Rig
	turn mgl64.Mat3 // that brings the load's axes to the room's, at w = 0
	k    float64    // N/m
}

// freedoms are the CG's place and a turn, as a vector of turning in rad.
type freedoms [6]float64

func (s sixFree) turned(q freedoms) mgl64.Mat3 {
	w := geom.Vec{q[3], q[4], q[5]}
	if w.Len() == 0 {
		return s.turn
	}
	return mgl64.HomogRotate3D(w.Len(), w.Mul(1/w.Len())).Mat3().Mul3(s.turn)
}

func (s sixFree) energy(q freedoms) float64 {
	turn := s.turned(q)
	at := geom.Vec{q[0], q[1], q[2]}
	e := s.rig.Weight * at[2]
	for i, p := range s.rig.Picks {
		stretch := at.Add(turn.Mul3x1(p.Sub(s.rig.CG))).Len() - s.rig.Lengths[i]
		e += 0.5 * s.k * math.Pow(max(0, stretch), 2)
	}
	return e
}

// slope is the gradient by central differences: nothing to get wrong.
func (s sixFree) slope(q freedoms) freedoms {
	var g freedoms
	for i := range q {
		const step = 1e-6
		a, b := q, q
		a[i] -= step
		b[i] += step
		g[i] = (s.energy(b) - s.energy(a)) / (2 * step)
	}
	return g
}

// descend goes downhill by BFGS and returns where it ends, and the slope that is
// left there, in weights.
// Source: "Numerical Optimization" (Nocedal and Wright), 2nd ed., section 6.1
// (from memory).
func (s sixFree) descend(q freedoms) (freedoms, float64) {
	var inverse [6][6]float64
	reset := func() {
		inverse = [6][6]float64{}
		for i := range inverse {
			inverse[i][i] = 1 / s.k
		}
	}
	reset()
	g, e, fresh := s.slope(q), s.energy(q), true
	for range 5000 {
		var step freedoms
		down := 0.0
		for i := range step {
			for j := range g {
				step[i] -= inverse[i][j] * g[j]
			}
			down += step[i] * g[i]
		}
		t, next, lower := 1.0, q, e
		for ; t > 1e-12; t /= 2 {
			for i := range q {
				next[i] = q[i] + t*step[i]
			}
			if lower = s.energy(next); lower < e+1e-4*t*down {
				break
			}
		}
		if !(lower < e) {
			if fresh {
				break
			}
			reset()
			fresh = true
			continue
		}
		fresh = false
		after := s.slope(next)
		inverse = bfgs(inverse, q, next, g, after)
		q, g, e = next, after, lower
	}
	left := 0.0
	for i, slope := range g {
		if i >= 3 {
			slope /= s.rig.size()
		}
		left = max(left, math.Abs(slope)/s.rig.Weight)
	}
	return q, left
}

// bfgs corrects the inverse of the second derivative.
func bfgs(h [6][6]float64, from, to, before, after freedoms) [6][6]float64 {
	var s, y, hy freedoms
	sy, yhy := 0.0, 0.0
	for i := range s {
		s[i], y[i] = to[i]-from[i], after[i]-before[i]
		sy += s[i] * y[i]
	}
	if sy <= 0 {
		return h
	}
	for i := range hy {
		for j := range y {
			hy[i] += h[i][j] * y[j]
		}
		yhy += y[i] * hy[i]
	}
	for i := range h {
		for j := range h {
			h[i][j] += (1+yhy/sy)*s[i]*s[j]/sy - (hy[i]*s[j]+s[i]*hy[j])/sy
		}
	}
	return h
}

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
	low, left := s.descend(q)
	assert.Less(t, left, 1e-3, "the descent has not come to rest: %+v", r)
	up := s.turned(low).Transpose().Mul3x1(geom.Vec{0, 0, 1})
	return math.Atan2(up.Cross(h.Up).Len(), up.Dot(h.Up))
}

// uprightTurn turns the load so that its direction up points up in the room.
func uprightTurn(up geom.Vec) mgl64.Mat3 {
	x := square(up)
	y := up.Cross(x)
	return mgl64.Mat3FromRows(x, y, up)
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
		clear := h.First.Shift > 0.05*size && math.Abs(h.Margin) > 0.05*size && !nearlyHeld(r, h)
		switch {
		case !clear:
		case h.Stable && !h.RollsOver:
			off := nudged(t, r, h, 2e-3, dice)
			assert.Less(t, off, 0.02, "called stable, margin %.3g m of %.3g m, but it ended %.3g rad away: %+v", h.Margin, size, off, r)
			came++
		case !h.Stable && !h.Neutral:
			off := nudged(t, r, h, 2e-3, dice)
			assert.Greater(t, off, 0.1, "called unstable, margin %.3g m of %.3g m, but it came back: %+v", h.Margin, size, r)
			left++
		}
	}
	assert.Greater(t, came, 1200)
	assert.Greater(t, left, 50)
}

// nearlyHeld says that a leg that carries nothing is nearly taut: it may hold
// the load after a little movement, which the verdict does not count on.
func nearlyHeld(r Rig, h Hang) bool {
	for i := range h.Taut {
		if h.Slack(i) && h.Hook.Sub(r.Picks[i]).Len() > r.Lengths[i]-0.05*r.size() {
			return true
		}
	}
	return false
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
