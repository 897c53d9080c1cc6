package rig

import (
	"math"

	"github.com/go-gl/mathgl/mgl64"

	"plumbhook/geom"
)

// axis is one eigenvalue of a symmetric 3 × 3 matrix with its unit eigenvector.
type axis struct {
	value float64
	along geom.Vec
}

// eigen returns the eigenvalues of the symmetric matrix m, least first, with
// eigenvectors square to one another, by Jacobi rotations: slow and sure, and
// right to the last digits also where eigenvalues are equal.
//
// Source: "Numerical Recipes", 3rd ed., section 11.1 (from memory).
func eigen(m mgl64.Mat3) [3]axis {
	v := mgl64.Ident3()
	for range 30 {
		if m[3] == 0 && m[6] == 0 && m[7] == 0 {
			break
		}
		jacobi(&m, &v, 0, 1)
		jacobi(&m, &v, 0, 2)
		jacobi(&m, &v, 1, 2)
	}
	a, b, c := axis{m[0], v.Col(0)}, axis{m[4], v.Col(1)}, axis{m[8], v.Col(2)}
	if b.value < a.value {
		a, b = b, a
	}
	if c.value < b.value {
		b, c = c, b
	}
	if b.value < a.value {
		a, b = b, a
	}
	return [3]axis{a, b, c}
}

// jacobi turns m in the plane of axes p and q so that its (p, q) entry
// vanishes, and turns v with it.
func jacobi(m, v *mgl64.Mat3, p, q int) {
	pp, qq, pq := 4*p, 4*q, p+3*q
	if math.Abs(m[pq]) <= 1e-30*(math.Abs(m[pp])+math.Abs(m[qq])) {
		m[pq], m[q+3*p] = 0, 0
		return
	}
	theta := (m[qq] - m[pp]) / (2 * m[pq])
	t := 1 / (math.Abs(theta) + math.Sqrt(theta*theta+1))
	if theta < 0 {
		t = -t
	}
	c := 1 / math.Sqrt(t*t+1)
	s := t * c
	m[pp] -= t * m[pq]
	m[qq] += t * m[pq]
	m[pq], m[q+3*p] = 0, 0
	other := 3 - p - q
	a, b := m[other+3*p], m[other+3*q]
	a, b = c*a-s*b, s*a+c*b
	m[other+3*p], m[p+3*other] = a, a
	m[other+3*q], m[q+3*other] = b, b
	for i := range 3 {
		v[i+3*p], v[i+3*q] = c*v[i+3*p]-s*v[i+3*q], s*v[i+3*p]+c*v[i+3*q]
	}
}

// outer adds k·a·aᵀ to m.
func outer(m *mgl64.Mat3, k float64, a geom.Vec) {
	x, y, z := k*a[0], k*a[1], k*a[2]
	m[0] += x * a[0]
	m[4] += y * a[1]
	m[8] += z * a[2]
	xy, xz, yz := x*a[1], x*a[2], y*a[2]
	m[1] += xy
	m[3] += xy
	m[2] += xz
	m[6] += xz
	m[5] += yz
	m[7] += yz
}

// across adds k·(1 − a·aᵀ) to m, a a unit vector: what acts square to a.
func across(m *mgl64.Mat3, k float64, a geom.Vec) {
	outer(m, -k, a)
	m[0] += k
	m[4] += k
	m[8] += k
}

// divided is a symmetric 3 × 3 matrix made ready to solve with. Where it is
// plainly positive definite that is L·D·Lᵀ; else its eigenvectors.
type divided struct {
	full          bool    // L·D·Lᵀ
	l10, l20, l21 float64 // L below its diagonal of ones
	d             geom.Vec
	axes          [3]axis // where not full
	kept          [3]bool // whose eigenvalue counts
}

// plain is the least λ₁/Σλ, by its lower bound 4·det/(Σλ)³, at which L·D·Lᵀ is
// used. It is far above any tolerance of a rank, and keeps ten digits.
const plain = 1e-6

// divide makes m ready. Eigenvectors whose eigenvalue is not more than tol
// times the greatest are not kept.
//
// The bound is derived here: λ₁ = det/(λ₂λ₃), and λ₂λ₃ ≤ (Σλ/2)². L·D·Lᵀ needs
// no exchange of rows for a positive definite matrix: "Matrix Computations"
// (Golub and Van Loan), section 4.2 (from memory).
func divide(m *mgl64.Mat3, tol float64) divided {
	if s, ok := ldl(m); ok {
		return s
	}
	s := divided{axes: eigen(*m)}
	for i, a := range s.axes {
		s.kept[i] = a.value > tol*s.axes[2].value
	}
	return s
}

// ldl returns L·D·Lᵀ of m, and false where m is not plainly positive definite.
func ldl(m *mgl64.Mat3) (s divided, ok bool) {
	s.full = true
	s.d[0] = m[0]
	s.l10, s.l20 = m[1]/m[0], m[2]/m[0]
	s.d[1] = m[4] - s.l10*m[1]
	e := m[5] - s.l20*m[1]
	s.l21 = e / s.d[1]
	s.d[2] = m[8] - s.l20*m[2] - s.l21*e
	trace := m[0] + m[4] + m[8]
	ok = s.d[0] > 0 && s.d[1] > 0 && 4*s.d[0]*s.d[1]*s.d[2] > plain*trace*trace*trace
	return s, ok
}

// solve returns the shortest x with m·x = b, parts of b along eigenvectors
// that are not kept left out.
func (s *divided) solve(b geom.Vec) (x geom.Vec) {
	if s.full {
		y1 := b[1] - s.l10*b[0]
		y2 := b[2] - s.l20*b[0] - s.l21*y1
		x[2] = y2 / s.d[2]
		x[1] = y1/s.d[1] - s.l21*x[2]
		x[0] = b[0]/s.d[0] - s.l10*x[1] - s.l20*x[2]
		return x
	}
	for i, a := range s.axes {
		if s.kept[i] {
			x = x.Add(a.along.Mul(a.along.Dot(b) / a.value))
		}
	}
	return x
}

// rank is how many directions are kept.
func (s *divided) rank() int {
	if s.full {
		return 3
	}
	rank := 0
	for _, kept := range s.kept {
		if kept {
			rank++
		}
	}
	return rank
}

// solveSymmetric returns the shortest x with m·x = b for a symmetric, positive
// semidefinite m: parts of b along eigenvectors whose eigenvalue is under tol
// times the greatest are left out. It also returns the rank found.
func solveSymmetric(m mgl64.Mat3, b geom.Vec, tol float64) (x geom.Vec, rank int) {
	s := divide(&m, tol)
	return s.solve(b), s.rank()
}
