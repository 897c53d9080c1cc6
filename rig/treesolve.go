package rig

import "math"

// dense is a symmetric n × n matrix, row after row.
type dense struct {
	n int
	v []float64
}

func newDense(n int) dense { return dense{n, make([]float64, n*n)} }

func (m dense) at(i, j int) float64     { return m.v[i*m.n+j] }
func (m dense) add(i, j int, x float64) { m.v[i*m.n+j] += x }

// times returns m·x.
func (m dense) times(x []float64) []float64 {
	y := make([]float64, m.n)
	for i := range y {
		y[i] = dot(m.v[i*m.n:(i+1)*m.n], x)
	}
	return y
}

// outer adds k·a·aᵀ to m.
func (m dense) outer(k float64, a []float64) {
	for i, ai := range a {
		if ai == 0 {
			continue
		}
		for j, aj := range a {
			m.v[i*m.n+j] += k * ai * aj
		}
	}
}

func dot(a, b []float64) float64 {
	s := 0.0
	for i, x := range a {
		s += x * b[i]
	}
	return s
}

func norm(a []float64) float64 { return math.Sqrt(dot(a, a)) }

// addTo adds k·b to a.
func addTo(a []float64, k float64, b []float64) {
	for i, x := range b {
		a[i] += k * x
	}
}

// solve returns x with (m + shift·1)·x = b by Cholesky's method, and false
// where the matrix is not safely positive definite.
// Source: "Numerical Recipes", 3rd ed., section 2.9 (from memory).
func (m dense) solve(shift float64, b []float64) ([]float64, bool) {
	n, most := m.n, 0.0
	for i := range n {
		most = max(most, math.Abs(m.at(i, i)))
	}
	l := newDense(n)
	for i := range n {
		for j := 0; j <= i; j++ {
			s := m.at(i, j) - dot(l.v[i*n:i*n+j], l.v[j*n:j*n+j])
			if i != j {
				l.v[i*n+j] = s / l.at(j, j)
				continue
			}
			if s += shift; !(s > 1e-13*(most+shift)) {
				return nil, false
			}
			l.v[i*n+i] = math.Sqrt(s)
		}
	}
	x := make([]float64, n)
	for i := range n {
		x[i] = (b[i] - dot(l.v[i*n:i*n+i], x[:i])) / l.at(i, i)
	}
	for i := n - 1; i >= 0; i-- {
		for j := i + 1; j < n; j++ {
			x[i] -= l.at(j, i) * x[j]
		}
		x[i] /= l.at(i, i)
	}
	return x, true
}

// eigen returns the eigenvalues of m with unit eigenvectors as rows, in no
// order, by Jacobi rotations. Source: "Numerical Recipes", 3rd ed., section
// 11.1 (from memory).
func (m dense) eigen() (values []float64, vectors [][]float64) {
	n := m.n
	a := dense{n, append([]float64{}, m.v...)}
	v := newDense(n) // eigenvectors as rows
	for i := range n {
		v.v[i*n+i] = 1
	}
	for range 40 {
		off := 0.0
		for p := range n {
			for q := p + 1; q < n; q++ {
				off += math.Abs(a.at(p, q))
				a.rotate(v, p, q)
			}
		}
		if off == 0 {
			break
		}
	}
	for i := range n {
		values = append(values, a.at(i, i))
		vectors = append(vectors, v.v[i*n:(i+1)*n])
	}
	return values, vectors
}

// rotate turns a in the plane of axes p and q so that its (p, q) entry
// vanishes, and turns the rows of v with it.
func (a dense) rotate(v dense, p, q int) {
	n, apq := a.n, a.at(p, q)
	if apq == 0 {
		return
	}
	if math.Abs(apq) <= 1e-18*(math.Abs(a.at(p, p))+math.Abs(a.at(q, q))) {
		a.v[p*n+q], a.v[q*n+p] = 0, 0
		return
	}
	theta := (a.at(q, q) - a.at(p, p)) / (2 * apq)
	t := math.Copysign(1/(math.Abs(theta)+math.Sqrt(theta*theta+1)), theta)
	c := 1 / math.Sqrt(t*t+1)
	s := t * c
	for k := range n {
		x, y := a.at(k, p), a.at(k, q)
		a.v[k*n+p], a.v[k*n+q] = c*x-s*y, s*x+c*y
	}
	for _, m := range []dense{a, v} {
		rp, rq := m.v[p*n:(p+1)*n], m.v[q*n:(q+1)*n]
		for k := range n {
			x, y := rp[k], rq[k]
			rp[k], rq[k] = c*x-s*y, s*x+c*y
		}
	}
	a.v[p*n+q], a.v[q*n+p] = 0, 0
}

// span is a symmetric, positive semidefinite matrix taken apart: the
// eigenvectors that it acts along, and those that it leaves free.
type span struct {
	values []float64
	along  [][]float64
	free   [][]float64
}

// apart counts eigenvalues under tol times the greatest as nothing.
func (m dense) apart(tol float64) span {
	values, vectors := m.eigen()
	most := 0.0
	for _, x := range values {
		most = max(most, x)
	}
	var s span
	for i, x := range values {
		if x > tol*most {
			s.values, s.along = append(s.values, x), append(s.along, vectors[i])
		} else {
			s.free = append(s.free, vectors[i])
		}
	}
	return s
}

// solve returns the shortest x with m·x nearest to b.
func (s span) solve(b []float64) []float64 {
	x := make([]float64, len(b))
	for i, a := range s.along {
		addTo(x, dot(a, b)/s.values[i], a)
	}
	return x
}
