package rig

import (
	"math"
	"slices"

	"github.com/go-gl/mathgl/mgl64"

	"plumbhook/geom"
)

type slowEnergy struct {
	rig       slowRig
	stiffness []float64 // kᵢ, N/m
	lambda    []float64 // λᵢ, N
	size      float64   // m, what steps and tolerances are measured by
}

func (e *slowEnergy) tension(i int, h geom.Vec) (t float64, pull geom.Vec, length float64) {
	line := h.Sub(e.rig.Picks[i])
	length = line.Len()
	pull, ok := unit(line)
	if !ok { // hook on the pick: the leg hangs loose and pulls nowhere
		return 0, pull, length
	}
	return max(0, e.stiffness[i]*(length-e.rig.Lengths[i])+e.lambda[i]), pull, length
}

func (e *slowEnergy) at(h geom.Vec) (u float64, gradient geom.Vec, hessian mgl64.Mat3) {
	for i := range e.rig.Picks {
		t, pull, length := e.tension(i, h)
		if t == 0 {
			continue
		}
		u += t * t / (2 * e.stiffness[i])
		gradient = gradient.Add(pull.Mul(t))
		slowOuter(&hessian, e.stiffness[i], pull)
		slowAcross(&hessian, t/length, pull)
	}
	arm := h.Sub(e.rig.CG)
	rho := arm.Len()
	u -= e.rig.Weight * rho
	if up, ok := unit(arm); ok {
		gradient = gradient.Sub(up.Mul(e.rig.Weight))
		slowAcross(&hessian, -e.rig.Weight/rho, up)
	}
	return u, gradient, hessian
}

func (e *slowEnergy) descend(h geom.Vec) (geom.Vec, bool) {
	settled := 1e-13 * e.rig.Weight * (1 + e.steepest()*e.size/e.rig.Weight*1e-2)
	u, gradient, hessian := e.at(h)
	for range 3000 {
		if gradient.Len() <= settled {
			return h, true
		}
		step := slowNewtonStep(gradient, hessian)
		if n := step.Len(); n > e.size/20 {
			step = step.Mul(e.size / 5 / n)
		}
		moved := false
		for range 50 {
			to := h.Add(step)
			u2, g2, hess2 := e.at(to)
			falls := u2 <= u+1e-4*gradient.Dot(step)
			// So near the bottom that U no longer shows it, the balance does.
			balances := step.Len() < 1e-5*e.size && g2.Len() < 0.9*gradient.Len()
			if falls || balances {
				h, u, gradient, hessian, moved = to, u2, g2, hess2, true
				break
			}
			step = step.Mul(0.5)
		}
		if !moved {
			break
		}
	}
	return h, gradient.Len() <= 1e-8*e.rig.Weight
}

func (e *slowEnergy) steepest() float64 {
	k := 0.0
	for _, ki := range e.stiffness {
		k = max(k, ki)
	}
	return k
}

func slowNewtonStep(gradient geom.Vec, hessian mgl64.Mat3) geom.Vec {
	axes := slowEigen(hessian)
	most := max(math.Abs(axes[0].value), math.Abs(axes[2].value))
	var step geom.Vec
	for _, a := range axes {
		curve := max(math.Abs(a.value), 1e-9*most)
		step = step.Sub(a.along.Mul(a.along.Dot(gradient) / curve))
	}
	return step
}

func (r slowRig) settle(start geom.Vec) (geom.Vec, bool) {
	e := slowEnergy{rig: r, size: r.size(), lambda: make([]float64, len(r.Picks)), stiffness: r.Stiffness}
	if r.Stiffness != nil {
		return e.descend(start)
	}
	// Soft at first, so that the way down is smooth; stiffer where a round gains
	// too little, as with legs nearly in one plane, which hold the hook weakly
	// across it.
	e.stiffness = make([]float64, len(r.Picks))
	stiffen := func(k float64) {
		for i := range e.stiffness {
			e.stiffness[i] = k * r.Weight / e.size
		}
	}
	k, before := 300.0, math.Inf(1)
	stiffen(k)
	// The first leg to come taut carries all at first: begin with it stretched
	// so far, not on the edge of slack where a rounding decides.
	h := start.Add(Up.Mul(e.size / k))
	for range 100 {
		var ok bool
		if h, ok = e.descend(h); !ok {
			return h, false
		}
		worst := 0.0
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
			if _, balanced := r.pose(at); balanced && r.reaches(at) {
				return at, true
			}
		}
	}
	return h, false
}

func (e *slowEnergy) sharpen(h geom.Vec) (geom.Vec, bool) {
	pulls := make([]bool, len(e.lambda))
	for i, t := range e.lambda {
		pulls[i] = t > 1e-9*e.rig.Weight
	}
	for range 60 {
		step, worst, drop, ok := e.mend(h, pulls)
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

func (e *slowEnergy) mend(h geom.Vec, pulls []bool) (step geom.Vec, worst float64, drop int, ok bool) {
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
		slowOuter(&held, 1, pull)
		over = over.Add(pull.Mul(gap))
	}
	// The tensions that balance the load best, and of those the least.
	x, _ := slowSolveSymmetric(held, up.Mul(e.rig.Weight), 1e-8)
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
		slowAcross(&curve, t/length, pull)
	}
	slowAcross(&curve, -e.rig.Weight/h.Sub(e.rig.CG).Len(), up)
	mend, _ := slowSolveSymmetric(held, over, 1e-8)
	step = mend.Mul(-1)
	left := force.Sub(up.Mul(e.rig.Weight)).Add(curve.Mul3x1(step))
	for _, a := range slowEigen(held) {
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

func slowEigen(m mgl64.Mat3) [3]axis {
	v := mgl64.Ident3()
	for range 30 {
		off := math.Abs(m.At(0, 1)) + math.Abs(m.At(0, 2)) + math.Abs(m.At(1, 2))
		if off == 0 {
			break
		}
		for p := range 2 {
			for q := p + 1; q < 3; q++ {
				slowJacobi(&m, &v, p, q)
			}
		}
	}
	var axes [3]axis
	for i := range axes {
		axes[i] = axis{m.At(i, i), v.Col(i)}
	}
	slices.SortFunc(axes[:], func(a, b axis) int {
		switch {
		case a.value < b.value:
			return -1
		case a.value > b.value:
			return 1
		}
		return 0
	})
	return axes
}

func slowJacobi(m, v *mgl64.Mat3, p, q int) {
	apq := m.At(p, q)
	if math.Abs(apq) <= 1e-30*(math.Abs(m.At(p, p))+math.Abs(m.At(q, q))) {
		m.Set(p, q, 0)
		m.Set(q, p, 0)
		return
	}
	theta := (m.At(q, q) - m.At(p, p)) / (2 * apq)
	t := 1 / (math.Abs(theta) + math.Sqrt(theta*theta+1))
	if theta < 0 {
		t = -t
	}
	c := 1 / math.Sqrt(t*t+1)
	s := t * c
	turn := mgl64.Ident3()
	turn.Set(p, p, c)
	turn.Set(q, q, c)
	turn.Set(p, q, s)
	turn.Set(q, p, -s)
	*m = turn.Transpose().Mul3(*m).Mul3(turn)
	m.Set(p, q, 0)
	m.Set(q, p, 0)
	*v = v.Mul3(turn)
}

func slowOuter(m *mgl64.Mat3, k float64, a geom.Vec) {
	for row := range 3 {
		for col := range 3 {
			m.Set(row, col, m.At(row, col)+k*a[row]*a[col])
		}
	}
}

func slowAcross(m *mgl64.Mat3, k float64, a geom.Vec) {
	slowOuter(m, -k, a)
	for i := range 3 {
		m.Set(i, i, m.At(i, i)+k)
	}
}

func slowSolveSymmetric(m mgl64.Mat3, b geom.Vec, tol float64) (x geom.Vec, rank int) {
	axes := slowEigen(m)
	for _, a := range axes {
		if a.value > tol*axes[2].value {
			x = x.Add(a.along.Mul(a.along.Dot(b) / a.value))
			rank++
		}
	}
	return x, rank
}
