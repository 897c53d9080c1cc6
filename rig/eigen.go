package rig

import (
	"math"
	"slices"

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
		off := math.Abs(m.At(0, 1)) + math.Abs(m.At(0, 2)) + math.Abs(m.At(1, 2))
		if off == 0 {
			break
		}
		for p := range 2 {
			for q := p + 1; q < 3; q++ {
				jacobi(&m, &v, p, q)
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

// jacobi turns m in the plane of axes p and q so that its (p, q) entry
// vanishes, and turns v with it.
func jacobi(m, v *mgl64.Mat3, p, q int) {
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

// outer adds k·a·aᵀ to m.
func outer(m *mgl64.Mat3, k float64, a geom.Vec) {
	for row := range 3 {
		for col := range 3 {
			m.Set(row, col, m.At(row, col)+k*a[row]*a[col])
		}
	}
}

// across adds k·(1 − a·aᵀ) to m, a a unit vector: what acts square to a.
func across(m *mgl64.Mat3, k float64, a geom.Vec) {
	outer(m, -k, a)
	for i := range 3 {
		m.Set(i, i, m.At(i, i)+k)
	}
}

// solveSymmetric returns the shortest x with m·x = b for a symmetric, positive
// semidefinite m: parts of b along eigenvectors whose eigenvalue is under tol
// times the greatest are left out. It also returns the rank found.
func solveSymmetric(m mgl64.Mat3, b geom.Vec, tol float64) (x geom.Vec, rank int) {
	axes := eigen(m)
	for _, a := range axes {
		if a.value > tol*axes[2].value {
			x = x.Add(a.along.Mul(a.along.Dot(b) / a.value))
			rank++
		}
	}
	return x, rank
}
