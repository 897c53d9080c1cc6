package rig

import (
	"fmt"
	"math"

	"plumbhook/geom"
)

// Correction is a change of one quantity that brings the load nearest to level
// on the legs it has, and what it gains. Both tilts are of solved poses.
type Correction struct {
	By            float64 // how much: N of a counterweight, m of a pick's move
	Before, After float64 // rad, tilt
	// Slope is the change of tilt for a first small step: rad/N or rad/m. Zero
	// where the load hangs level already, since any step then makes it worse.
	Slope float64
}

// Level is the tilt in radians up to which a load is called level: 0.01°, what
// a good spirit level can show. Common practice, no source.
const Level = 0.01 * math.Pi / 180

// Counterweight returns the weight in newtons, from nothing to the load's own,
// that brings the load nearest to level when it is put at the place given, and
// the tilt that is left: a place in line with the fault in plan takes it all
// away, others a part of it.
//
// Derived here: weight Q at a moves the CG to c + (a − c)·Q/(W + Q). The hanging
// pose is solved for each Q tried.
func (r Rig) Counterweight(at geom.Vec) (Correction, error) {
	if !finite(at) {
		return Correction{}, &InputError{"the counterweight's place is not a place", "give three coordinates"}
	}
	with := func(part float64) Rig {
		c := r
		c.CG = r.CG.Add(at.Sub(r.CG).Mul(part))
		c.Weight = r.Weight / (1 - part)
		return c
	}
	c, err := r.correct(0, 0.5, with)
	c.By = r.Weight * c.By / (1 - c.By)
	c.Slope /= r.Weight // part = Q/W to first order
	return c, err
}

// BestCounterweight returns which of the places serves best, from 0: of those
// that make the load level the one of the least weight, else the one that
// leaves the least tilt. Places where the load can't be solved are passed over.
func (r Rig) BestCounterweight(places []geom.Vec) (int, Correction, error) {
	if len(places) == 0 {
		return 0, Correction{}, &InputError{"no place for a counterweight", "give one or more"}
	}
	best, found := -1, Correction{}
	var failed error
	for i, at := range places {
		c, err := r.Counterweight(at)
		switch {
		case err != nil:
			failed = err
		case best < 0 || better(c, found):
			best, found = i, c
		}
	}
	if best < 0 {
		return 0, Correction{}, failed
	}
	return best, found, nil
}

func better(a, b Correction) bool {
	if a.After <= Level && b.After <= Level {
		return a.By < b.By
	}
	return a.After < b.After
}

// MoveLug returns by how many metres pick i must move along a direction, the
// legs as they are, to bring the load nearest to level: up to half the longest
// of the legs and the ways from CG to pick, either way (a negative figure is
// against the direction).
func (r Rig) MoveLug(i int, along geom.Vec) (Correction, error) {
	if i < 0 || i >= len(r.Picks) {
		return Correction{}, &InputError{fmt.Sprintf("there is no pick %d", i+1), fmt.Sprintf("give 1 to %d", len(r.Picks))}
	}
	way, ok := unit(along)
	if !ok || !finite(way) {
		return Correction{}, &InputError{fmt.Sprintf("%v is no direction", along), "give a direction of some length"}
	}
	with := func(by float64) Rig {
		c := r
		c.Picks = append([]geom.Vec(nil), r.Picks...)
		c.Picks[i] = r.Picks[i].Add(way.Mul(by))
		return c
	}
	return r.correct(-r.size()/2, r.size()/2, with)
}

// HookShift is how far the hook would have to be moved over the load for it to
// hang level.
type HookShift struct {
	Shift         geom.Vec  // m, level in the load's axes
	Hook          geom.Vec  // m, where it would be
	Lengths       []float64 // m, legs that put it there
	Before, After float64   // rad, tilt; the second solved with those legs
}

// HookShift returns how far the hook stands from plumb over the CG of the load
// as drawn, at the height at which it hangs now, and the legs on which it would
// hang level there.
func (r Rig) HookShift() (HookShift, error) {
	h, err := r.Hang()
	if err != nil {
		return HookShift{}, err
	}
	to := geom.Vec{r.CG[0], r.CG[1], h.Hook[2]}
	s := HookShift{Shift: to.Sub(h.Hook), Hook: to, Lengths: LevelLengths(r.Picks, to), Before: h.Tilt()}
	r.Lengths, r.Stiffness = s.Lengths, nil // lengths as under load
	if h, err = r.Hang(); err != nil {
		return HookShift{}, err
	}
	s.After = h.Tilt()
	return s, nil
}

// correct finds the least tilt of the rigs that with makes of a figure from low
// to high, both finite, with 0 among them: a look at places spread evenly, then
// the golden section between the neighbours of the best.
//
// Source: golden section search, e.g. "Numerical Recipes", 3rd ed., 10.2 (from
// memory).
func (r Rig) correct(low, high float64, with func(float64) Rig) (Correction, error) {
	now, err := r.Hang()
	if err != nil {
		return Correction{}, err
	}
	if !now.Stable || now.RollsOver {
		return Correction{}, &InputError{"the load does not stay as it hangs", "make it stable first: picks above the centre of gravity, or longer legs"}
	}
	c := Correction{Before: now.Tilt(), After: now.Tilt()}
	last := now // each figure is near the one before it, and so is the pose
	tilt := func(x float64) float64 {
		h, err := with(x).hangBeside(&last)
		if err != nil || !h.Stable {
			return math.Inf(1) // no use as a correction
		}
		last = h
		return h.Tilt()
	}
	const looks = 64
	step := (high - low) / looks
	best := 0.0
	for i := range looks + 1 {
		x := low + float64(i)*step
		if left := tilt(x); left < c.After {
			best, c.After = x, left
		}
	}
	x := golden(max(low, best-step), min(high, best+step), tilt)
	if left := tilt(x); left < c.After {
		best, c.After = x, left
	}
	c.By = best
	if c.Before > Level {
		c.Slope = tiltSlope(low, step, c.Before, tilt)
	}
	return c, nil
}

// tiltSlope returns the change of tilt for a small step from 0: by both sides,
// unless one of them is not allowed or can't be solved.
func tiltSlope(low, step, before float64, tilt func(float64) float64) float64 {
	small := 1e-4 * step
	up, down := tilt(small), math.Inf(1)
	if low < 0 {
		down = tilt(-small)
	}
	switch upFails, downFails := math.IsInf(up, 1), math.IsInf(down, 1); {
	case upFails && downFails:
		return 0
	case downFails:
		return (up - before) / small
	case upFails:
		return (before - down) / small
	}
	return (up - down) / (2 * small)
}

// golden returns where f is least between low and high, if it has one valley
// there, to 1e-10 of the way between them: 48 steps of 0.618.
func golden(low, high float64, f func(float64) float64) float64 {
	ratio := (math.Sqrt(5) - 1) / 2
	a, b := high-ratio*(high-low), low+ratio*(high-low)
	fa, fb := f(a), f(b)
	for range 48 {
		if fa < fb {
			high, b, fb = b, a, fa
			a = high - ratio*(high-low)
			fa = f(a)
		} else {
			low, a, fa = a, b, fb
			b = low + ratio*(high-low)
			fb = f(b)
		}
	}
	return (low + high) / 2
}
