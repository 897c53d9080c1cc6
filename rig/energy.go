package rig

import (
	"math"

	"github.com/go-gl/mathgl/mgl64"

	"plumbhook/geom"
)

// energy is the energy of a hook and its legs,
//
//	U(h) = Σ ½ kᵢ · max(0, |h − pᵢ| − Lᵢ + λᵢ/kᵢ)² − W · |h − c|
//
// in joules. With λ = 0 the legs are springs. With λ the tensions themselves,
// stretch vanishes at the minimum and the legs are rigid: augmented Lagrangian,
// with k only a help to get there. Source: "Numerical Optimization" (Nocedal
// and Wright), 2nd ed., section 17.3 (from memory).
type energy struct {
	rig       Rig
	stiffness [Most]float64 // kᵢ, N/m
	lambda    [Most]float64 // λᵢ, N
	size      float64       // m, what steps and tolerances are measured by
}

// tension is the force in leg i in newtons with the hook at h, the direction
// from pick to hook, and the length of the line between them in metres.
func (e *energy) tension(i int, h geom.Vec) (t float64, pull geom.Vec, length float64) {
	line := h.Sub(e.rig.Picks[i])
	length = math.Sqrt(line.Dot(line))
	if !(length > 1e-300) { // hook on the pick: the leg hangs loose and pulls nowhere
		return 0, pull, length
	}
	pull = line.Mul(1 / length)
	return max(0, e.stiffness[i]*(length-e.rig.Lengths[i])+e.lambda[i]), pull, length
}

// at returns U in J, its gradient in N and its second derivatives in N/m.
func (e *energy) at(h geom.Vec) (u float64, gradient geom.Vec, hessian mgl64.Mat3) {
	for i := range e.rig.Picks {
		t, pull, length := e.tension(i, h)
		if t == 0 {
			continue
		}
		u += t * t / (2 * e.stiffness[i])
		gradient = gradient.Add(pull.Mul(t))
		turn := t / length // square to the leg; along it, its stiffness
		outer(&hessian, e.stiffness[i]-turn, pull)
		hessian[0], hessian[4], hessian[8] = hessian[0]+turn, hessian[4]+turn, hessian[8]+turn
	}
	arm := h.Sub(e.rig.CG)
	rho := arm.Len()
	u -= e.rig.Weight * rho
	if up, ok := unit(arm); ok {
		gradient = gradient.Sub(up.Mul(e.rig.Weight))
		across(&hessian, -e.rig.Weight/rho, up)
	}
	return u, gradient, hessian
}

// descend follows U downhill from h to a place where the forces balance, by
// Newton's method with negative curvature turned round, steps of at most a
// twentieth of the rig's size, so that it does not leap into another valley,
// and halving until U falls.
func (e *energy) descend(h geom.Vec) (geom.Vec, bool) {
	settled := 1e-13 * e.rig.Weight * (1 + e.steepest()*e.size/e.rig.Weight*1e-2)
	u, gradient, hessian := e.at(h)
	for range 3000 {
		if gradient.Len() <= settled {
			return h, true
		}
		step := newtonStep(gradient, hessian)
		if n := step.Len(); n > e.size/20 {
			step = step.Mul(e.size / 5 / n)
		}
		moved := false
		part := 1.0
		for range 50 {
			to := h.Add(step)
			u2, g2, hess2 := e.at(to)
			falls := u2 <= u+1e-4*gradient.Dot(step)
			// So near the bottom that U no longer shows it, the balance does; by
			// little where a leg comes taut after a small part of the step.
			balances := step.Len() < 1e-5*e.size && g2.Len() < (1-0.1*part)*gradient.Len()
			if falls || balances {
				h, u, gradient, hessian, moved = to, u2, g2, hess2, true
				break
			}
			step, part = step.Mul(0.5), part/2
		}
		if !moved {
			break
		}
	}
	return h, gradient.Len() <= 1e-8*e.rig.Weight
}

// steepest is the greatest stiffness of a leg in N/m.
func (e *energy) steepest() float64 {
	k := 0.0
	for _, ki := range e.stiffness {
		k = max(k, ki)
	}
	return k
}

// newtonStep is −|H|⁻¹·g: downhill along every eigenvector of H.
func newtonStep(gradient geom.Vec, hessian mgl64.Mat3) geom.Vec {
	if bowl, ok := ldl(&hessian); ok {
		return bowl.solve(gradient).Mul(-1)
	}
	axes := eigen(hessian)
	most := max(math.Abs(axes[0].value), math.Abs(axes[2].value))
	var step geom.Vec
	for _, a := range axes {
		curve := max(math.Abs(a.value), 1e-9*most)
		step = step.Sub(a.along.Mul(a.along.Dot(gradient) / curve))
	}
	return step
}

// settle lets the hook go from start and returns where it comes to rest.
// Legs that do not stretch are held to 1e-4 of the rig's size by a few rounds
// of the augmented Lagrangian, and then to the last digits by sharpen.
func (r Rig) settle(start geom.Vec) (geom.Vec, bool) {
	e := energy{rig: r, size: r.size()}
	if r.Stiffness != nil {
		copy(e.stiffness[:], r.Stiffness)
		return e.descend(start)
	}
	// Soft at first, so that the way down is smooth; stiffer where a round gains
	// too little, as with legs nearly in one plane, which hold the hook weakly
	// across it.
	stiffen := func(k float64) {
		for i := range r.Picks {
			e.stiffness[i] = k * r.Weight / e.size
		}
	}
	k, before, worst := 300.0, math.Inf(1), 0.0
	stiffen(k)
	// The first leg to come taut carries all at first: begin with it stretched
	// so far, not on the edge of slack where a rounding decides.
	h := start.Add(Up.Mul(e.size / k))
	for range 100 {
		var ok bool
		if h, ok = e.descend(h); !ok {
			return h, false
		}
		worst = 0
		for i := range r.Picks {
			t, _, length := e.tension(i, h)
			if t > 0 { // taut: the leg must be as long as it is, no more, no less
				worst = max(worst, math.Abs(length-r.Lengths[i]))
			}
			e.lambda[i] = t
		}
		if worst > before/10 && k < 1e5 {
			k *= 4
			stiffen(k)
		}
		before = worst
		if worst > 1e-4*e.size {
			continue
		}
		if at, ok := e.sharpen(h); ok {
			// A leg let go may turn out too short: then the rounds go on.
			if r.stands(at, e.size) {
				return at, true
			}
		}
	}
	// Legs that are all but taut together, so that which of them to let go is
	// decided by less than a length is known to: the rounds have come near enough
	// for geometry to find the place.
	return h, worst <= nearlySame*e.size
}

// sameLength, in parts of the rig's size, is how nearly a leg must be as long
// as the way from pick to hook to be taut: a hundredth of a micrometre a metre,
// finer than any length is known.
const sameLength = 1e-8

// nearlySame, in parts of the rig's size, is how nearly lengths and depths must
// agree between the two methods.
const nearlySame = 1e-7

// sharpen starts where the legs that pull are nearly as long as they should be
// and ends where the hook no longer moves, to 1e-12 of the rig's size, with
// the forces in balance and the lengths right: Newton's method on both at once,
// the shortest step that mends the lengths and then, along what directions the
// legs leave free, the step that mends the balance. A leg that turns out to
// push, or the loosest of legs that can't all be taut together, is let go.
// Source: sequential quadratic programming with an active set, "Numerical
// Optimization" (Nocedal and Wright), 2nd ed., chapter 18 (from memory).
func (e *energy) sharpen(h geom.Vec) (geom.Vec, bool) {
	var pulls [Most]bool
	for i, t := range e.lambda[:len(e.rig.Picks)] {
		pulls[i] = t > 1e-9*e.rig.Weight
	}
	for range 60 {
		step, worst, drop, ok := e.mend(h, &pulls)
		if !ok || step.Len() > 0.05*e.size {
			return h, false // too far off for this method
		}
		h = h.Add(step)
		if step.Len() > 1e-12*e.size {
			continue
		}
		if drop < 0 && worst <= sameLength*e.size {
			return h, true
		}
		if drop < 0 {
			return h, false
		}
		pulls[drop] = false
	}
	return h, false
}

// mend is one step of sharpen: the step, the greatest error of length in m, and
// the leg to let go once the steps have become nothing, -1 for none.
func (e *energy) mend(h geom.Vec, pulls *[Most]bool) (step geom.Vec, worst float64, drop int, ok bool) {
	up, ok := unit(h.Sub(e.rig.CG))
	var held, curve mgl64.Mat3
	var over geom.Vec
	loosest, most := -1, 0.0
	for i, on := range pulls {
		if !on {
			continue
		}
		_, pull, length := e.tension(i, h)
		gap := length - e.rig.Lengths[i]
		worst = max(worst, math.Abs(gap))
		if gap < most {
			loosest, most = i, gap
		}
		outer(&held, 1, pull)
		over = over.Add(pull.Mul(gap))
	}
	// The tensions that balance the load best, and of those the least.
	hold := divide(&held, 1e-8)
	x := hold.solve(up.Mul(e.rig.Weight))
	force, push, least := geom.Vec{}, -1, -1e-9*e.rig.Weight
	for i, on := range pulls {
		if !on {
			continue
		}
		_, pull, length := e.tension(i, h)
		t := pull.Dot(x)
		if t < least {
			push, least = i, t
		}
		force = force.Add(pull.Mul(t))
		across(&curve, t/length, pull)
	}
	across(&curve, -e.rig.Weight/h.Sub(e.rig.CG).Len(), up)
	step = hold.solve(over).Mul(-1)
	left := force.Sub(up.Mul(e.rig.Weight)).Add(curve.Mul3x1(step))
	for _, a := range hold.axes { // all zero where the legs hold every way
		bend := a.along.Dot(curve.Mul3x1(a.along))
		if a.value > 1e-8 || math.Abs(bend) < 1e-7*e.rig.Weight/e.size {
			continue // held; or neutral, so that it stays wherever it is put
		}
		step = step.Sub(a.along.Mul(a.along.Dot(left) / bend))
	}
	switch {
	case worst > sameLength*e.size:
		drop = loosest
	default:
		drop = push
	}
	return step, worst, drop, ok
}
