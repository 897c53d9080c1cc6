package rig

import (
	"fmt"

	"plumbhook/geom"
)

// mostCorners is how many corners of what statics leaves open are looked at.
const mostCorners = 20_000

// Greatest returns for each leg the most in N that it can pull in the pose,
// whichever others hang slack, and whether statics leaves anything open at all;
// where it does not the most is the tension. The pose is kept: the tensions are
// T + N·t with all of them 0 or more, the columns of N what the taut legs can
// pull against each other, and each is at its most in a corner of the t that
// this leaves, where as many legs are slack as there are columns. Derived here.
//
// An *InputError says that there are too many legs to look at all corners.
func (t Tree) Greatest(p TreePose) ([]float64, bool, error) {
	m, s := t.model()
	most := make([]float64, len(t.Links))
	var taut []int
	for i, l := range p.Links {
		if most[i] = l.Tension; l.Taut {
			taut = append(taut, i)
		}
	}
	for b := range s.at {
		s.at[b], s.turn[b] = p.Bodies[b].CG.Sub(t.Hook).Mul(1/m.size), p.Bodies[b].Place.Turn
	}
	free := m.against(s, taut)
	if len(free) == 0 {
		return most, false, nil
	}
	if choices(len(taut), len(free)) > mostCorners {
		return nil, true, &InputError{fmt.Sprintf("%d legs share in %d ways that statics leaves open: too many to find the most in each", len(taut), len(free)),
			"hang the load from fewer legs, or from bars with two ends"}
	}
	subsets(len(taut), len(free), func(slack []int) {
		way, ok := rigCorner(p, taut, free, slack)
		if !ok {
			return
		}
		tension := make([]float64, len(taut))
		for k, i := range taut {
			tension[k] = p.Links[i].Tension
			for j, a := range free {
				tension[k] += way[j] * a[k]
			}
			if tension[k] < -1e-9*m.whole {
				return
			}
		}
		for k, i := range taut {
			most[i] = max(most[i], tension[k])
		}
	})
	return most, true, nil
}

// against returns the ways in which the taut legs can pull against each other
// without moving anything.
func (m *model) against(s state, taut []int) [][]float64 {
	gram := newDense(len(taut))
	rows := make([][]float64, len(taut))
	for k, i := range taut {
		rows[k] = m.row(s, i)
	}
	for k := range taut {
		for j := range taut {
			gram.add(k, j, dot(rows[k], rows[j]))
		}
	}
	return gram.apart(1e-12).free
}

// rigCorner returns the amounts of the ways in free for which the legs of slack
// carry nothing.
func rigCorner(p TreePose, taut []int, free [][]float64, slack []int) ([]float64, bool) {
	n := len(free)
	a, b := make([][]float64, n), make([]float64, n)
	for row, k := range slack {
		a[row] = make([]float64, n)
		for j := range free {
			a[row][j] = free[j][k]
		}
		b[row] = -p.Links[taut[k]].Tension
	}
	return gauss(a, b)
}

// gauss solves a few equations, by elimination with the greatest pivot.
func gauss(a [][]float64, b []float64) ([]float64, bool) {
	n := len(b)
	for c := range n {
		best := c
		for r := c; r < n; r++ {
			if abs(a[r][c]) > abs(a[best][c]) {
				best = r
			}
		}
		if abs(a[best][c]) < 1e-9 {
			return nil, false
		}
		a[c], a[best], b[c], b[best] = a[best], a[c], b[best], b[c]
		for r := range n {
			if r != c {
				f := a[r][c] / a[c][c]
				addTo(a[r], -f, a[c])
				b[r] -= f * b[c]
			}
		}
	}
	for c := range n {
		b[c] /= a[c][c]
	}
	return b, true
}

func abs(x float64) float64 { return max(x, -x) }

// choices is how many ways there are to take k of n.
func choices(n, k int) int {
	c := 1
	for i := range k {
		if c = c * (n - i) / (i + 1); c > mostCorners {
			return c
		}
	}
	return c
}

// subsets calls see with each choice of k of n.
func subsets(n, k int, see func([]int)) {
	chosen := make([]int, 0, k)
	var next func(from int)
	next = func(from int) {
		if len(chosen) == k {
			see(chosen)
			return
		}
		for i := from; i < n; i++ {
			chosen = append(chosen, i)
			next(i + 1)
			chosen = chosen[:len(chosen)-1]
		}
	}
	next(0)
}

// Onto returns the point of a body's drawing at which a place of the hung pose
// lies: where a hook is, seen from the load.
func (b BodyPose) Onto(at geom.Vec) geom.Vec {
	return b.Place.Turn.Transpose().Mul3x1(at.Sub(b.Place.Move))
}
