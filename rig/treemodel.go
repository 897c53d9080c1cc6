package rig

import (
	"math"

	"github.com/go-gl/mathgl/mgl64"

	"plumbhook/geom"
)

// model is a Tree as the solver sees it: lengths in parts of its size, forces
// in parts of its weight, the hook at the origin. A body has six unknowns, the
// move of its CG and its turn about the CG as a rotation vector from where it
// is, and its energy is
//
//	U = Σ w·z + Σ ½ kᵢ · max(0, ℓᵢ − Lᵢ + λᵢ/kᵢ)²
//
// over bodies and legs, z up, ℓᵢ from end to end. As with a load on a hook
// (see energy), λ = 0 makes springs of the legs, and λ = the tensions themselves
// makes them rigid.
type model struct {
	size, whole float64 // m, N: what is divided by
	weight      []float64
	arms        [][]geom.Vec // from the CG to the body's points, in drawn axes
	idle        []mgl64.Mat3 // Σ a·aᵀ of axes about which a turn moves no point
	links       []Link
	length      []float64
	rigid       []bool
	stiffness   []float64 // of springs as given, of rigid legs only a help
	lambda      []float64
}

// state is where the bodies of a model are: their CGs and turns.
type state struct {
	at   []geom.Vec
	turn []mgl64.Mat3
}

// model returns the tree in its own measure, and the bodies as drawn.
func (t Tree) model() (*model, state) {
	m := &model{size: t.size(), whole: t.Weight(), links: t.Links, lambda: make([]float64, len(t.Links))}
	var s state
	for _, b := range t.Bodies {
		arms := make([]geom.Vec, len(b.Points))
		var inertia mgl64.Mat3
		for i, p := range b.Points {
			arms[i] = p.Sub(b.CG).Mul(1 / m.size)
			if u, ok := unit(arms[i]); ok {
				across(&inertia, arms[i].LenSqr(), u)
			}
		}
		m.arms = append(m.arms, arms)
		m.weight = append(m.weight, b.Weight/m.whole)
		m.idle = append(m.idle, idle(inertia))
		s.at = append(s.at, b.CG.Sub(t.Hook).Mul(1/m.size))
		s.turn = append(s.turn, mgl64.Ident3())
	}
	for _, l := range t.Links {
		m.length = append(m.length, l.Length/m.size)
		m.rigid = append(m.rigid, l.Stiffness == 0)
		m.stiffness = append(m.stiffness, l.Stiffness*m.size/m.whole)
	}
	return m, s
}

// idle returns Σ a·aᵀ over the axes through the CG on which all points lie: one
// for a bar with its points in line with its CG, all three for a ring, whose
// points are one with it. Such a turn neither shows nor matters, and is stopped.
func idle(inertia mgl64.Mat3) (sum mgl64.Mat3) {
	for _, a := range eigen(inertia) {
		if a.value <= 1e-14 {
			outer(&sum, 1, a.along)
		}
	}
	return sum
}

// end returns where an end is, and the arm from its body's CG to it.
func (m *model) end(s state, e End) (at, arm geom.Vec) {
	if e.Body == OnHook {
		return
	}
	arm = s.turn[e.Body].Mul3x1(m.arms[e.Body][e.Point])
	return s.at[e.Body].Add(arm), arm
}

// line returns the direction of leg i from its lower to its upper end, and the
// way between them.
func (m *model) line(s state, i int) (pull geom.Vec, length float64) {
	upper, _ := m.end(s, m.links[i].From)
	lower, _ := m.end(s, m.links[i].To)
	way := upper.Sub(lower)
	pull, _ = unit(way)
	return pull, way.Len()
}

// gap is how much longer the way is than leg i: over 0 it is too short.
func (m *model) gap(s state, i int) float64 {
	_, length := m.line(s, i)
	return length - m.length[i]
}

// column is how the lower end of a leg moves towards, or away from, its upper
// end with one of the unknowns.
type column struct {
	unknown int
	way     geom.Vec
}

// columns returns those of leg i that are not zero.
func (m *model) columns(s state, i int) []column {
	all := make([]column, 0, 12)
	for side, e := range []End{m.links[i].From, m.links[i].To} {
		if e.Body == OnHook {
			continue
		}
		_, arm := m.end(s, e)
		sign := 1 - 2*float64(side)
		for axis := range 3 {
			var d geom.Vec
			d[axis] = sign
			all = append(all, column{6*e.Body + axis, d}, column{6*e.Body + 3 + axis, d.Cross(arm)})
		}
	}
	return all
}

// row returns by how much leg i is stretched with each of the unknowns.
func (m *model) row(s state, i int) []float64 {
	a := make([]float64, 6*len(m.weight))
	pull, _ := m.line(s, i)
	for _, c := range m.columns(s, i) {
		a[c.unknown] = c.way.Dot(pull)
	}
	return a
}

// addLink adds to the second derivatives those of leg i with tension t and
// stiffness k: k·a·aᵀ of stretching, t/ℓ of swinging, and, since a point at arm
// r turned by ω moves by ω×r + ½ω×(ω×r), the terms ½(f·rᵀ + r·fᵀ) − (f·r)·1 of
// a force f at the end of an arm (derived here).
func (m *model) addLink(hessian dense, s state, i int, t, k float64) {
	pull, length := m.line(s, i)
	if length == 0 {
		return
	}
	columns := m.columns(s, i)
	for _, a := range columns {
		pa := a.way.Dot(pull)
		for _, b := range columns {
			pb := b.way.Dot(pull)
			hessian.add(a.unknown, b.unknown, k*pa*pb+t/length*(a.way.Dot(b.way)-pa*pb))
		}
	}
	for side, e := range []End{m.links[i].From, m.links[i].To} {
		if e.Body == OnHook {
			continue
		}
		_, arm := m.end(s, e)
		f := pull.Mul(t * (1 - 2*float64(side)))
		for row := range 3 {
			for col := range 3 {
				hessian.add(6*e.Body+3+row, 6*e.Body+3+col, (f[row]*arm[col]+arm[row]*f[col])/2)
			}
			hessian.add(6*e.Body+3+row, 6*e.Body+3+row, -f.Dot(arm))
		}
	}
}

// gravity starts off a gradient and second derivatives: what the weights do,
// and a stop to idle turns.
func (m *model) gravity(s state) (gradient []float64, hessian dense) {
	n := 6 * len(m.weight)
	gradient, hessian = make([]float64, n), newDense(n)
	for b, w := range m.weight {
		gradient[6*b+2] = w
		stop := s.turn[b].Mul3(m.idle[b]).Mul3(s.turn[b].Transpose())
		for row := range 3 {
			for col := range 3 {
				hessian.add(6*b+3+row, 6*b+3+col, stop.At(row, col))
			}
		}
	}
	return gradient, hessian
}

// tension is the pull of leg i in the energy.
func (m *model) tension(s state, i int) float64 {
	pull, length := m.line(s, i)
	if pull == (geom.Vec{}) {
		return 0
	}
	return max(0, m.stiffness[i]*(length-m.length[i])+m.lambda[i])
}

// energy returns U alone.
func (m *model) energy(s state) float64 {
	u := 0.0
	for b, w := range m.weight {
		u += w * s.at[b][2]
	}
	for i := range m.links {
		t := m.tension(s, i)
		u += t * t / (2 * m.stiffness[i])
	}
	return u
}

// slope returns the gradient of U, and its second derivatives.
func (m *model) slope(s state) ([]float64, dense) {
	gradient, hessian := m.gravity(s)
	for i := range m.links {
		if t := m.tension(s, i); t > 0 {
			addTo(gradient, t, m.row(s, i))
			m.addLink(hessian, s, i, t, m.stiffness[i])
		}
	}
	return gradient, hessian
}

// moved returns the state after a step: CGs moved, bodies turned by a rotation
// vector. Source: Rodrigues' formula.
func (s state) moved(step []float64) state {
	to := state{make([]geom.Vec, len(s.at)), make([]mgl64.Mat3, len(s.turn))}
	for b := range s.at {
		q := step[6*b : 6*b+6]
		to.at[b] = s.at[b].Add(geom.Vec{q[0], q[1], q[2]})
		to.turn[b] = rotation(geom.Vec{q[3], q[4], q[5]}).Mul3(s.turn[b])
	}
	return to
}

// rotation is the turn by |ω| radians about ω.
func rotation(omega geom.Vec) mgl64.Mat3 {
	angle := omega.Len()
	axis, ok := unit(omega)
	if !ok {
		return mgl64.Ident3()
	}
	sin, half := math.Sin(angle), math.Sin(angle/2)
	turn := mgl64.Ident3()
	across(&turn, -2*half*half, axis)
	return turn.Add(mgl64.Mat3FromCols(
		geom.Vec{0, axis[2], -axis[1]}, geom.Vec{-axis[2], 0, axis[0]}, geom.Vec{axis[1], -axis[0], 0}).Mul(sin))
}
