package rig

import (
	"fmt"
	"math"

	"plumbhook/geom"
)

// Most is the greatest number of legs to one hook that is solved.
const Most = 8

// Rig is a load on one hook.
type Rig struct {
	Weight  float64    // N
	CG      geom.Vec   // m
	Picks   []geom.Vec // m, where the legs take hold of the load
	Lengths []float64  // m, bearing to bearing, hardware in, as under load

	// Stiffness is EA/L of each leg in N/m. nil means legs that do not
	// stretch; where statics can't settle the sharing between them, it is then
	// that of legs of the same EA (k ∝ 1/L).
	Stiffness []float64
}

// InputError is a rig that cannot be solved because of how it is described.
type InputError struct{ Msg, Fix string }

func (e *InputError) Error() string { return e.Msg + "; " + e.Fix }

// Check returns an *InputError for a rig that makes no sense: no legs or too
// many, a weight, length or stiffness that is not positive and finite, two
// picks in one place, or a pick at the CG.
func (r Rig) Check() error {
	n := len(r.Picks)
	switch {
	case n < 1 || n > Most:
		return &InputError{fmt.Sprintf("%d legs to one hook", n), fmt.Sprintf("give 1 to %d", Most)}
	case len(r.Lengths) != n || (r.Stiffness != nil && len(r.Stiffness) != n):
		return &InputError{fmt.Sprintf("%d picks but %d lengths", n, len(r.Lengths)), "give one length for each pick"}
	case !positive(r.Weight):
		return &InputError{fmt.Sprintf("weight %g N", r.Weight), "a load must weigh something"}
	case !finite(r.CG):
		return &InputError{"the centre of gravity is not a number", "check the positions of the parts"}
	}
	together := 1e-9 * r.size()
	for i, p := range r.Picks {
		switch {
		case !finite(p):
			return &InputError{fmt.Sprintf("pick %d is not a place", i+1), "give three coordinates"}
		case !positive(r.Lengths[i]):
			return &InputError{fmt.Sprintf("leg %d is %g m long", i+1, r.Lengths[i]), "a leg's length must be more than 0"}
		case r.Stiffness != nil && !positive(r.Stiffness[i]):
			return &InputError{fmt.Sprintf("leg %d has stiffness %g N/m", i+1, r.Stiffness[i]), "EA/L must be more than 0"}
		case p.Sub(r.CG).Len() <= together:
			return &InputError{fmt.Sprintf("pick %d is at the centre of gravity", i+1), "the load would hang in no attitude of its own: move the pick"}
		}
		for j := range i {
			if p.Sub(r.Picks[j]).Len() <= together {
				return &InputError{fmt.Sprintf("picks %d and %d are in one place", j+1, i+1), "two slings on one pick are one leg: give the pick once"}
			}
		}
	}
	return nil
}

// size is a length in metres to measure tolerances by: the longest leg or the
// farthest pick from the CG.
func (r Rig) size() float64 {
	s := 0.0
	for i, p := range r.Picks {
		arm := p.Sub(r.CG)
		s = max(s, math.Sqrt(arm.Dot(arm)))
		if i < len(r.Lengths) {
			s = max(s, r.Lengths[i])
		}
	}
	return s
}

// stiffness returns kᵢ in N/m for sharing: as given, or for the same EA in all
// legs with EA = W, since only ratios matter then.
func (r Rig) stiffness(i int) float64 {
	if r.Stiffness != nil {
		return r.Stiffness[i]
	}
	return r.Weight / r.Lengths[i]
}

func positive(x float64) bool { return x > 0 && !math.IsInf(x, 0) }

func finite(v geom.Vec) bool {
	s := v[0] + v[1] + v[2]
	return !math.IsNaN(s) && !math.IsInf(s, 0)
}

// unit returns v/|v|, and false where v is too short to have a direction.
func unit(v geom.Vec) (geom.Vec, bool) {
	n := math.Sqrt(v.Dot(v))
	if !(n > 1e-300) {
		return geom.Vec{}, false
	}
	return v.Mul(1 / n), true
}
