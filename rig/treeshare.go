package rig

// share returns the tensions of all legs at a place of rest, and false where
// legs that only pull can't balance the bodies. Where statics can't settle it,
// rigid legs share as legs of one EA do that are just as long as they should
// be: those of least work, as with a load on a hook (see elasticShare).
func (m *model) share(s state) ([]float64, bool) {
	load, _ := m.loaded(s)
	w := work{load: load, rows: make([][]float64, len(m.links)), length: m.length}
	for i, rigid := range m.rigid {
		if rigid && m.gap(s, i) >= -sameLength {
			w.rows[i] = m.row(s, i)
		}
	}
	x := w.least(1e-11 * (1 + 1e-3*m.springs()))
	tension := make([]float64, len(m.links))
	for i := range tension {
		if tension[i] = w.pull(i, x); !m.rigid[i] {
			tension[i] = m.tension(s, i)
		}
	}
	force, moment := m.left(s, tension)
	return tension, force <= 1e-9 && moment <= 1e-9
}

// work is the search for the least work of legs of one EA that only pull: by
// duality (derived here), Tᵢ = max(0, aᵢ·x)/Lᵢ at the lowest x of
//
//	g·x + Σ ½ max(0, aᵢ·x)²/Lᵢ
//
// aᵢ how leg i stretches with the unknowns, g the gradient that the legs must
// balance: x is the small move by which a tree of such legs takes up its load.
// The function is convex and made of parabolas.
type work struct {
	load   []float64
	rows   [][]float64 // nil for a leg that is not taut
	length []float64
}

func (w work) pull(i int, x []float64) float64 {
	if w.rows[i] == nil {
		return 0
	}
	return max(0, dot(w.rows[i], x)/w.length[i])
}

// slope is the gradient at x.
func (w work) slope(x []float64) []float64 {
	left := append([]float64{}, w.load...)
	for i, a := range w.rows {
		if t := w.pull(i, x); t > 0 {
			addTo(left, t, a)
		}
	}
	return left
}

// least returns the lowest x, its slope at most settled. Where the legs that
// pull can't balance the load, x goes along what they leave free until another
// comes taut; else to the bottom of the parabola; each time to the lowest place
// on the way.
func (w work) least(settled float64) []float64 {
	x := make([]float64, len(w.load))
	for range 200 {
		left := w.slope(x)
		if norm(left) <= settled {
			break
		}
		held := newDense(len(x))
		for i, a := range w.rows {
			if w.pull(i, x) > 0 {
				held.outer(1/w.length[i], a)
			}
		}
		parts := held.apart(1e-12)
		step := make([]float64, len(x))
		for _, a := range parts.free {
			addTo(step, dot(a, left), a)
		}
		if norm(step) <= settled {
			step = parts.solve(left)
		}
		addTo(x, -w.way(x, step), step)
	}
	return x
}

// way returns how far to go from x against step for the lowest place: the
// slope along it only rises, so its zero is bracketed and halved to. A whole
// step that ends level is taken as it is.
func (w work) way(x, step []float64) float64 {
	rise := func(scale float64) float64 {
		to := append([]float64{}, x...)
		addTo(to, -scale, step)
		return -dot(w.slope(to), step)
	}
	first := -rise(0)
	low, high := 0.0, 1.0
	for range 40 {
		r := rise(high)
		if r >= -1e-9*first && r <= 1e-9*first {
			return high
		}
		if r > 0 {
			break
		}
		low, high = high, 2*high
	}
	for range 60 {
		if middle := (low + high) / 2; rise(middle) > 0 {
			high = middle
		} else {
			low = middle
		}
	}
	return high
}
