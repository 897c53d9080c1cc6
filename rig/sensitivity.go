package rig

import (
	"fmt"

	"github.com/go-gl/mathgl/mgl64"

	"plumbhook/geom"
)

// Sensitivity is how a hung load answers to small changes, in the load's own
// axes: first derivatives at the pose, good as long as the same legs pull.
type Sensitivity struct {
	// TensionCG is for each leg the N by which its tension grows for each metre
	// that the CG moves along x, y and z.
	TensionCG []geom.Vec
	// TensionLength[i][j] is the N by which leg i's tension grows for each metre
	// that leg j is longer. nil where legs that do not stretch share by more
	// than statics settles: the least error of length then leaves one of them
	// slack, and only their Stiffness tells how soon.
	TensionLength [][]float64
	// HookCG times a small move of the CG is the move of the hook, m/m.
	HookCG mgl64.Mat3
}

// Sensitivity returns how the pose h of this rig answers to small changes. It
// knows the legs that pull; one that is taut without pulling is not counted
// on, as in Stability.
//
// Derived here. The forces balance at the hook, Σ Tᵢuᵢ − W·d = 0. With
//
//	K = Σ Tᵢ/ℓᵢ·(1 − uᵢuᵢᵀ) − W/ρ·(1 − d·dᵀ)
//
// the balance after small changes, by the implicit function theorem, is
//
//	K·dh + Σ uᵢ·dTᵢ = −W/ρ·(1 − d·dᵀ)·dc
//
// and the legs add uᵢ·dh = dLᵢ if they do not stretch, dTᵢ = kᵢ·(uᵢ·dh − dLᵢ)
// if they do. In the second case K + Σ kᵢuᵢuᵢᵀ is the second derivative of
// the energy. In the first dh is what the lengths ask and, along the
// directions that the legs leave free, what the balance asks; the rest of the
// balance gives dT, of least work where statics can't settle it.
// Source of the theorem and of such equations: "Numerical Optimization"
// (Nocedal and Wright), 2nd ed., theorem A.2 and section 16.1 (from memory).
//
// Errors: *InputError for a pose that is not of this rig or does not hold, or
// for legs in one plane that share by more than statics settles.
func (r Rig) Sensitivity(h Hang) (Sensitivity, error) {
	if err := r.Check(); err != nil {
		return Sensitivity{}, err
	}
	n := len(r.Picks)
	if len(h.Pull) != n || len(h.Tension) != n {
		return Sensitivity{}, &InputError{fmt.Sprintf("a pose of %d legs for a rig of %d", len(h.Pull), n), "give the pose of this rig"}
	}
	if !h.Stable {
		return Sensitivity{}, &InputError{"the load does not hold in this pose, so that a small change may move it far", "give a stable pose"}
	}
	a := answering{rig: r, pose: h.Pose}
	a.prepare()
	if r.Stiffness == nil && a.legs > a.hold.rank() && a.hold.rank() < 3 {
		return Sensitivity{}, &InputError{fmt.Sprintf("%d legs that pull in one plane or line share by more than statics settles", a.legs), "give the stiffness of the legs"}
	}
	return a.all(), nil
}

// answering solves for the answer of one pose to changes.
type answering struct {
	rig   Rig
	pose  Pose
	pulls [Most]bool
	legs  int        // that pull
	shift mgl64.Mat3 // W/ρ·(1 − d·dᵀ), N/m
	turn  mgl64.Mat3 // K, N/m
	hold  divided    // Σ kᵢuᵢuᵢᵀ; with springs and K
	free  []geom.Vec // directions that legs that do not stretch leave free
}

// prepare sums the matrices.
func (a *answering) prepare() {
	r, p := a.rig, a.pose
	var held mgl64.Mat3
	for i, u := range p.Pull {
		if p.Slack(i) {
			continue
		}
		a.pulls[i] = true
		a.legs++
		across(&a.turn, p.Tension[i]/p.Hook.Sub(r.Picks[i]).Len(), u)
		outer(&held, r.stiffness(i), u)
	}
	across(&a.shift, r.Weight/p.Hook.Sub(r.CG).Len(), p.Up)
	a.turn = a.turn.Sub(a.shift)
	if r.Stiffness != nil {
		held = held.Add(a.turn)
	} else {
		a.free = r.free(p, held)
	}
	a.hold = divide(&held, 1e-12)
}

// all asks for the answer to a move of the CG along each axis and to a change
// of each leg.
func (a *answering) all() Sensitivity {
	n := len(a.pose.Pull)
	s := Sensitivity{TensionCG: make([]geom.Vec, n)}
	for axis := range 3 {
		move, tension := a.to(a.shift.Col(axis).Mul(-1), tensions{})
		s.HookCG.SetCol(axis, move)
		for i := range n {
			s.TensionCG[i][axis] = tension[i]
		}
	}
	if a.rig.Stiffness == nil && a.legs > a.hold.rank() {
		return s
	}
	s.TensionLength = make([][]float64, n)
	for i := range n {
		s.TensionLength[i] = make([]float64, n)
	}
	for j := range n {
		if !a.pulls[j] {
			continue
		}
		longer := tensions{}
		longer[j] = 1
		_, tension := a.to(geom.Vec{}, longer)
		for i := range n {
			s.TensionLength[i][j] = tension[i]
		}
	}
	return s
}

// to returns dh and dT for a force in N that comes to the balance's right side
// and for changes of the legs' lengths in m.
func (a *answering) to(force geom.Vec, longer tensions) (move geom.Vec, tension tensions) {
	asked := geom.Vec{} // Σ kᵢuᵢ·dLᵢ
	for i, u := range a.pose.Pull {
		if a.pulls[i] {
			asked = asked.Add(u.Mul(a.rig.stiffness(i) * longer[i]))
		}
	}
	var x geom.Vec // dTᵢ = kᵢ·(uᵢ·x − dLᵢ if it stretches)
	if a.rig.Stiffness != nil {
		move = a.hold.solve(force.Add(asked))
		x = move
	} else {
		move = a.hold.solve(asked)
		move = move.Add(a.along(force.Sub(a.turn.Mul3x1(move))))
		x, longer = a.hold.solve(force.Sub(a.turn.Mul3x1(move))), tensions{}
	}
	for i, u := range a.pose.Pull {
		if a.pulls[i] {
			tension[i] = a.rig.stiffness(i) * (u.Dot(x) - longer[i])
		}
	}
	return move, tension
}

// along returns the move in the free directions whose turning of the legs
// takes up the force.
func (a *answering) along(force geom.Vec) geom.Vec {
	at := func(u, v geom.Vec) float64 { return u.Dot(a.turn.Mul3x1(v)) }
	switch len(a.free) {
	case 1:
		z := a.free[0]
		return z.Mul(z.Dot(force) / at(z, z))
	case 2:
		y, z := a.free[0], a.free[1]
		yy, zz, yz := at(y, y), at(z, z), at(y, z)
		fy, fz := y.Dot(force), z.Dot(force)
		det := yy*zz - yz*yz
		return y.Mul((fy*zz - fz*yz) / det).Add(z.Mul((fz*yy - fy*yz) / det))
	}
	return geom.Vec{}
}
