package takeoff

import "math"

// square is a square matrix of zeros.
func square(n int) [][]float64 {
	m := make([][]float64, n)
	for i := range m {
		m[i] = make([]float64, n)
	}
	return m
}

// lower is the triangle L of a symmetric matrix A = L Lᵀ.
type lower [][]float64

// factor returns the triangle of a symmetric, positive definite matrix
// (Cholesky's method, textbook). A matrix that has lost all but the last three
// digits of a pivot is not taken: ok is false.
func factor(a [][]float64) (l lower, ok bool) {
	const least = 1e-13 // of the diagonal
	l = square(len(a))
	for i := range a {
		for j := 0; j <= i; j++ {
			rest := a[i][j]
			for k := range j {
				rest -= l[i][k] * l[j][k]
			}
			switch {
			case j < i:
				l[i][j] = rest / l[j][j]
			case !(rest > least*a[i][i]):
				return nil, false
			default:
				l[i][i] = math.Sqrt(rest)
			}
		}
	}
	return l, true
}

// solve returns x of A x = b.
func (l lower) solve(b []float64) []float64 {
	x := append([]float64(nil), b...)
	for i := range l {
		for k := range i {
			x[i] -= l[i][k] * x[k]
		}
		x[i] /= l[i][i]
	}
	for i := len(l) - 1; i >= 0; i-- {
		for k := i + 1; k < len(l); k++ {
			x[i] -= l[k][i] * x[k]
		}
		x[i] /= l[i][i]
	}
	return x
}
