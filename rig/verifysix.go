package rig

import (
	"fmt"
	"math"
	"slices"

	"github.com/go-gl/mathgl/mgl64"

	"plumbhook/geom"
)

// comesBack kicks a load that was found stable, all six freedoms of it free, and
// lets it go: it must come to rest where it hung, else ErrDisagree. The legs give a
// little here, by a three-thousandth of the size at most, and are cut shorter by it;
// allowed are 0.02 rad and five times what that give over the distance of the picks
// could turn the load by.
//
// Asked only where the answer does not hang on a little movement: margin and first
// slack more than a twentieth of the rig's size away, no loose leg nearly taut,
// legs that do not stretch, picks not so close together that more than 0.1 rad would
// have to be allowed.
func (r Rig) comesBack(h Hang) error {
	clear := h.First.Shift > 0.05*r.size() && h.Margin > 0.05*r.size() && !r.nearlyHeld(h)
	if !clear || r.Stiffness != nil {
		return nil
	}
	const kick, give = 2e-3, 1.0 / 3000 // rad, and of the size; of the size
	size := r.size()
	allowed := 0.02 + 5*give*size/r.closest()
	if allowed > 0.1 {
		return nil
	}
	s := sixFree{rig: r, k: max(r.Weight, slices.Max(h.Tension)) / (give * size), turn: uprightTurn(h.Up)}
	s.rig.Lengths = slices.Clone(r.Lengths)
	for i, pull := range h.Tension { // so cut that they are as long as stated where it hangs
		s.rig.Lengths[i] -= pull / s.k
	}
	kicked := freedoms{kick * size, -0.6 * kick * size, 0.4*kick*size - h.Hook.Sub(r.CG).Len(), -0.8 * kick, kick, 0.7 * kick}
	up, left := s.restsAt(kicked)
	if off := angleBetween(up, h.Up); left <= 1e-4 && off > allowed {
		return fmt.Errorf("%w (kicked and let go, the load comes to rest %.3g rad away from where it hung)", ErrDisagree, off)
	}
	return nil
}

// closest is the least distance between two picks.
func (r Rig) closest() float64 {
	least := math.Inf(1)
	for i, p := range r.Picks {
		for _, q := range r.Picks[:i] {
			least = min(least, p.Sub(q).Len())
		}
	}
	return least
}

// restsAt goes downhill from a place and returns which way of the load then is up,
// and the slope that is left, in weights.
func (s sixFree) restsAt(from freedoms) (up geom.Vec, left float64) {
	low, left := s.descend(from)
	return s.turned(low).Transpose().Mul3x1(geom.Vec{0, 0, 1}), left
}

func angleBetween(a, b geom.Vec) float64 { return math.Atan2(a.Cross(b).Len(), a.Dot(b)) }

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
		t, next, lower := s.within(step), q, e
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

// within is the part of a step that moves the load by no more than a fiftieth of
// the size and turns it by no more than 0.02 rad: a leap could land it elsewhere.
func (s sixFree) within(step freedoms) float64 {
	const most = 0.02
	far := geom.Vec{step[0], step[1], step[2]}.Len() / s.rig.size()
	turn := geom.Vec{step[3], step[4], step[5]}.Len()
	return min(1, most/max(far, turn, most))
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

// uprightTurn turns the load so that its direction up points up in the room.
func uprightTurn(up geom.Vec) mgl64.Mat3 {
	x := square(up)
	y := up.Cross(x)
	return mgl64.Mat3FromRows(x, y, up)
}

// nearlyHeld says that a leg that carries nothing is nearly taut: it may hold
// the load after a little movement, which the verdict does not count on.
func (r Rig) nearlyHeld(h Hang) bool {
	for i := range h.Taut {
		if h.Slack(i) && h.Hook.Sub(r.Picks[i]).Len() > r.Lengths[i]-0.05*r.size() {
			return true
		}
	}
	return false
}
