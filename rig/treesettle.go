package rig

import "math"

// unsettled is what a round may leave over and the next still begin: a leg just
// on the edge of slack makes the way to the last digits long, and sharpen goes
// it at once.
const unsettled = 1e-5

// descend follows U downhill to a place where the forces balance to within
// settled, by Newton's method, the second derivatives stiffened until they
// curve upward, no step over a twentieth of the tree's size, and halved until U
// falls.
func (m *model) descend(s state, settled float64) (state, bool) {
	u := m.energy(s)
	gradient, hessian := m.slope(s)
	before := math.Inf(1)
	for round := range 4000 {
		left := norm(gradient)
		if left <= settled {
			return s, true
		}
		if round%20 == 0 {
			if left <= unsettled && left > before/2 {
				break
			}
			before = left
		}
		step := downhill(gradient, hessian)
		moved := false
		for range 40 {
			to := s.moved(step)
			u2 := m.energy(to)
			// So near the bottom that U no longer shows it, the balance does.
			if falls := u2 <= u+1e-4*dot(gradient, step); falls || norm(step) < 1e-5 {
				g2, h2 := m.slope(to)
				if falls || norm(g2) < 0.9*norm(gradient) {
					s, u, gradient, hessian, moved = to, u2, g2, h2, true
					break
				}
			}
			for i := range step {
				step[i] /= 2
			}
		}
		if !moved {
			break
		}
	}
	return s, norm(gradient) <= unsettled
}

// downhill is Newton's step on a matrix made safely positive by what it lacks.
// Source: "Numerical Optimization" (Nocedal and Wright), 2nd ed., algorithm 3.3
// (from memory).
func downhill(gradient []float64, hessian dense) []float64 {
	back := make([]float64, len(gradient))
	addTo(back, -1, gradient)
	step, ok := hessian.solve(0, back)
	for shift := 1e-7; !ok && shift < 1e9; shift *= 4 {
		step, ok = hessian.solve(shift, back)
	}
	if !ok {
		step = back
	}
	if n := norm(step); n > 0.05 {
		for i := range step {
			step[i] *= 0.05 / n
		}
	}
	return step
}

// settle lets all bodies go and returns where they come to rest: rounds of the
// augmented Lagrangian until rigid legs are right to 1e-4 of the tree's size,
// then sharpen. stretch is what the worst leg still lacks where that fails.
func (m *model) settle(s state) (rest state, stretch float64, ok bool) {
	k, before := 300.0, math.Inf(1)
	m.stiffen(k)
	for i := range m.lambda {
		m.lambda[i] = 0
	}
	for range 100 {
		if s, ok = m.descend(s, 1e-10*(1+m.steepest()*1e-2)); !ok {
			return s, 0, false
		}
		worst := 0.0
		pulls := make([]bool, len(m.links))
		for i := range m.links {
			if !m.rigid[i] {
				continue
			}
			t := m.tension(s, i)
			if t > 0 { // taut: the leg must be as long as it is, no more, no less
				worst = max(worst, math.Abs(m.gap(s, i)))
			}
			m.lambda[i], pulls[i] = t, t > 1e-9
		}
		if worst > before/10 && k < 1e5 {
			k *= 4
			m.stiffen(k)
		}
		before = worst
		if worst > 1e-4 {
			continue
		}
		// A leg let go may turn out too short: then the rounds go on.
		if at, sharp := m.sharpen(s, pulls); sharp && m.reaches(at) {
			if _, shared := m.share(at); shared {
				return at, 0, true
			}
		}
	}
	return s, before, false
}

// stiffen sets the help that rigid legs are given.
func (m *model) stiffen(k float64) {
	for i, rigid := range m.rigid {
		if rigid {
			m.stiffness[i] = k
		}
	}
}

func (m *model) steepest() float64 {
	k := 0.0
	for _, ki := range m.stiffness {
		k = max(k, ki)
	}
	return k
}

// reaches says whether every rigid leg is long enough.
func (m *model) reaches(s state) bool {
	for i, rigid := range m.rigid {
		if rigid && m.gap(s, i) > sameLength {
			return false
		}
	}
	return true
}

// sharpen starts where the rigid legs that pull are nearly as long as they
// should be and ends where nothing moves any more, to 1e-12 of the size, with
// forces and moments in balance and the lengths right: the step that mends the
// lengths and, along what the legs leave free, the step that mends the balance.
// A leg that would push, or the loosest of legs that can't all be taut
// together, is let go. Source as for a load on a hook: see energy.sharpen.
func (m *model) sharpen(s state, pulls []bool) (state, bool) {
	pulls = append([]bool{}, pulls...)
	for range 80 {
		step, worst, drop := m.mend(s, pulls)
		n := norm(step)
		if !(n <= 0.1) {
			return s, false // too far off for this method
		}
		s = s.moved(step)
		switch {
		case n > 1e-12*(1+1e-6*m.springs()):
		case drop >= 0:
			pulls[drop] = false
		default:
			return s, worst <= sameLength
		}
	}
	return s, false
}

// mend is one step of sharpen, the greatest error of length, and the leg to let
// go once the steps have become nothing, -1 for none.
func (m *model) mend(s state, pulls []bool) (step []float64, worst float64, drop int) {
	gradient, hessian := m.loaded(s)
	held, over := newDense(hessian.n), make([]float64, hessian.n)
	rows := make([][]float64, len(pulls))
	loosest, most := -1, 0.0
	for i, on := range pulls {
		if !on {
			continue
		}
		gap := m.gap(s, i)
		worst = max(worst, math.Abs(gap))
		if gap < most {
			loosest, most = i, gap
		}
		rows[i] = m.row(s, i)
		held.outer(1, rows[i])
		addTo(over, gap, rows[i])
	}
	parts := held.apart(1e-12)
	tension, push := m.hold(rows, parts, gradient)
	for i, a := range rows {
		if a != nil {
			addTo(gradient, tension[i], a)
			m.addLink(hessian, s, i, tension[i], 0)
		}
	}
	step = parts.solve(over)
	for i := range step {
		step[i] = -step[i]
	}
	addTo(gradient, 1, hessian.times(step))
	bends, along := parts.within(hessian)
	stiff := m.springs()
	for i, bend := range bends {
		force := dot(along[i], gradient)
		// Neutral: it stays where it is put. No force but rounding: near neutral
		// it would be sent about for ever.
		if math.Abs(bend) > 1e-8*(1+1e-4*stiff) && math.Abs(force) > 4e-15*(1+stiff/10) {
			addTo(step, -force/bend, along[i])
		}
	}
	if worst > sameLength {
		return step, worst, loosest
	}
	return step, worst, push
}

// hold returns the tensions that balance the load best, and of those the least,
// and the leg that would push most, -1 for none. Where there are more legs than
// statics can settle, none need push if there is a way without.
func (m *model) hold(rows [][]float64, parts span, load []float64) (tension []float64, push int) {
	x := parts.solve(load)
	tension = make([]float64, len(rows))
	legs, least := 0, -1e-9
	push = -1
	for i, a := range rows {
		if a == nil {
			continue
		}
		legs++
		if tension[i] = -dot(a, x); tension[i] < least {
			push, least = i, tension[i]
		}
	}
	if push < 0 || legs == len(parts.along) {
		return tension, push
	}
	held := make([]float64, len(load)) // the part of the load that these legs can hold
	for _, a := range parts.along {
		addTo(held, dot(a, load), a)
	}
	w := work{held, rows, m.length}
	x = w.least(1e-11)
	if norm(w.slope(x)) > 1e-9 {
		return tension, push
	}
	for i := range tension {
		tension[i] = w.pull(i, x)
	}
	return tension, -1
}

// loaded returns what weights and springs do: gradient and second derivatives.
func (m *model) loaded(s state) ([]float64, dense) {
	gradient, hessian := m.gravity(s)
	for i, rigid := range m.rigid {
		if rigid {
			continue
		}
		if t := m.tension(s, i); t > 0 {
			addTo(gradient, t, m.row(s, i))
			m.addLink(hessian, s, i, t, m.stiffness[i])
		}
	}
	return gradient, hessian
}

// springs is the greatest stiffness of a leg that stretches.
func (m *model) springs() float64 {
	k := 0.0
	for i, rigid := range m.rigid {
		if !rigid {
			k = max(k, m.stiffness[i])
		}
	}
	return k
}

// within returns the eigenvalues and unit eigenvectors of m on the free
// directions of s.
func (s span) within(m dense) (values []float64, vectors [][]float64) {
	small := newDense(len(s.free))
	for i, a := range s.free {
		ma := m.times(a)
		for j, b := range s.free {
			small.add(i, j, dot(ma, b))
		}
	}
	values, inner := small.eigen()
	for _, v := range inner {
		full := make([]float64, m.n)
		for j, a := range s.free {
			addTo(full, v[j], a)
		}
		vectors = append(vectors, full)
	}
	return values, vectors
}
