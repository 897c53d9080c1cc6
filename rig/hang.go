package rig

import (
	"errors"
	"fmt"
	"math"
	"slices"

	"plumbhook/geom"
)

// Hang is how the load hangs when it is lifted from the attitude drawn.
type Hang struct {
	Pose
	Stability

	// Drawn: the attitude drawn is itself a balance of forces.
	Drawn bool
	// Leaned: the forces balance as drawn, but the load does not stay so: it
	// leans over until a leg that was loose takes hold. Which way is chance:
	// Other is how it hangs if it goes the other way.
	Leaned bool
	Other  *Pose
	// RollsOver: the load cannot stay near the attitude drawn: it is not
	// stable there, and comes to rest only more than rollover away from it.
	RollsOver bool
	// Rest is where an unstable load ends up; nil if stable, or not found.
	Rest *Pose

	First FirstSlack
}

// rollover in radians is how far a load may settle from the drawn attitude
// before that is called rolling over, not tilting. A convention: 45°.
const rollover = math.Pi / 4

// ErrDisagree: the search downhill and the geometry of Equilibria do not find
// the same pose, so neither is to be trusted.
var ErrDisagree = errors.New("the two methods that solve the hanging pose disagree: no tension is given")

// ReachError: the legs can't all come together at one hook.
type ReachError struct {
	Legs     []int      // the two whose picks are too far apart; empty: all of them together
	Lengths  [2]float64 // m, of the two
	Apart    float64    // m, between their picks
	Msg, Fix string
}

func (e *ReachError) Error() string { return e.Msg }

// Hang lets the load go in the attitude drawn, hook plumb over the CG and as
// high as the legs allow, and returns how it comes to rest. If the forces
// balance as drawn but the load would roll over, the pose drawn is returned
// as not stable, with Rest telling where it would go.
//
// Errors: *InputError, *ReachError, or ErrDisagree.
func (r Rig) Hang() (Hang, error) {
	if err := r.Check(); err != nil {
		return Hang{}, err
	}
	start, reached := r.drawnHook()
	switch {
	case !reached:
		start = r.above()
	case start[2]-r.CG[2] <= 1e-6*r.size():
		return Hang{}, &ReachError{nil, [2]float64{}, 0, "the legs let the hook no higher than the load's centre of gravity: it can't hang this way up",
			"use longer legs, or picks higher up on the load"}
	default:
		if p, ok := r.pose(start); ok {
			if r.Stiffness == nil {
				if _, err := r.confirm(p.Hook); err != nil {
					return Hang{}, err
				}
			}
			h := r.fall(p)
			h.Drawn = !h.Leaned
			return h, nil
		}
	}
	if err := r.checkPairs(); err != nil {
		return Hang{}, err
	}
	p, err := r.rest(start)
	if err != nil {
		return Hang{}, r.whyNot(err)
	}
	return r.fall(p), nil
}

// judge describes a balanced pose.
func (r Rig) judge(p Pose) Hang {
	return Hang{Pose: p, Stability: r.stability(p), First: r.firstSlack(p), RollsOver: p.Tilt() > rollover}
}

// fall judges a balanced pose, and where it does not hold nudges the load both
// ways, which are alike to first order, and goes by the farther fall. A leg
// that is taut without pulling may bar one of them.
func (r Rig) fall(p Pose) Hang {
	h := r.judge(p)
	if h.Stable || h.Neutral {
		return h
	}
	var other *Pose
	for _, way := range []float64{1e-3, -1e-3} {
		rest, err := r.rest(p.Hook.Add(h.Toward.Mul(way * r.size())))
		switch {
		case err != nil:
		case h.Rest == nil || rest.Tilt() > h.Rest.Tilt():
			h.Rest, other = &rest, h.Rest
		default:
			other = &rest
		}
	}
	if h.Rest != nil && h.Rest.Tilt() <= rollover {
		// It only leans over until a leg that was loose takes hold.
		h = r.judge(*h.Rest)
		h.Leaned, h.Other = true, other
		return h
	}
	h.RollsOver = h.RollsOver || h.Rest != nil
	return h
}

// above is a place for the hook over the middle of the picks, to start from
// where the plumb line over the CG is out of the legs' reach.
func (r Rig) above() geom.Vec {
	var middle geom.Vec
	mean := 0.0
	for i, p := range r.Picks {
		middle = middle.Add(p)
		mean += r.Lengths[i]
	}
	n := float64(len(r.Picks))
	return middle.Add(Up.Mul(mean)).Mul(1 / n)
}

// rest follows the hook downhill from start to where it comes to rest. Legs
// that do not stretch are then placed to the last digit by geometry, which
// must find a balance within 1e-6 of the rig's size of the same place.
func (r Rig) rest(start geom.Vec) (Pose, error) {
	at, ok := r.settle(start)
	if !ok {
		return Pose{}, ErrDisagree
	}
	if r.Stiffness == nil {
		var err error
		if at, err = r.confirm(at); err != nil {
			return Pose{}, err
		}
	}
	if p, ok := r.pose(at); ok {
		return p, nil
	}
	return Pose{}, ErrDisagree
}

// confirm finds by the second method the equilibrium that the first found at h.
func (r Rig) confirm(h geom.Vec) (geom.Vec, error) {
	var room placeRoom
	return r.confirmAmong(r.places(room[:0], h), h)
}

// confirmAmong is confirm where the places are known.
func (r Rig) confirmAmong(places []geom.Vec, h geom.Vec) (geom.Vec, error) {
	size := r.size()
	var room [4]geom.Vec
	near := room[:0] // balanced places as near as that; seldom more than two
	nearest, at := acrossPlane*size, geom.Vec{}
	for _, q := range places {
		way := q.Sub(h).Len()
		if way > nearest || !r.sameHook(q, h) {
			continue
		}
		again := slices.ContainsFunc(near, func(p geom.Vec) bool { return p.Sub(q).Len() <= 1e-9*size })
		if again || !r.stands(q, size) {
			continue
		}
		near = append(near, q)
		nearest, at = way, q
	}
	if len(near) == 0 {
		return h, ErrDisagree
	}
	return at, nil
}

// acrossPlane, in parts of the rig's size, is how far the hook may move across the
// plane of legs that all lie in one, with their lengths right to sameLength. Derived
// here: at y from the plane legs of length L are longer by y²/2L; from sameLength too
// short to as much too long, on both sides of the plane, that is 2·√(4e-8) = 4e-4 of
// the size for legs as long as it.
const acrossPlane = 5e-4

// sameHook says that two places of the hook on legs that do not stretch are one: they
// are within 1e-6 of the rig's size; or within acrossPlane, with the CG hanging as
// low to nearlySame.
func (r Rig) sameHook(a, b geom.Vec) bool {
	size, way := r.size(), a.Sub(b).Len()
	return way <= 1e-6*size || way <= acrossPlane*size && math.Abs(a.Sub(r.CG).Len()-b.Sub(r.CG).Len()) <= nearlySame*size
}

// checkPairs returns a *ReachError if two legs can't meet at one hook.
func (r Rig) checkPairs() error {
	for i, p := range r.Picks {
		for j := range i {
			apart, legs := p.Sub(r.Picks[j]).Len(), r.Lengths[i]+r.Lengths[j]
			if apart > legs {
				return &ReachError{
					[]int{j, i}, [2]float64{r.Lengths[j], r.Lengths[i]}, apart,
					fmt.Sprintf("legs %d and %d are %.3f m and %.3f m long but their picks are %.3f m apart: they can't meet at one hook", j+1, i+1, r.Lengths[j], r.Lengths[i], apart),
					"use longer legs, or picks closer together",
				}
			}
		}
	}
	return nil
}

// whyNot tells why no pose was found: a *ReachError if there is no place for
// the hook within reach of all legs, else what the solver said.
func (r Rig) whyNot(err error) error {
	if r.Stiffness == nil && !r.canStand() {
		return &ReachError{nil, [2]float64{}, 0, "there is no place for the hook that every leg reaches: the legs are too short for their picks",
			"use longer legs, or picks closer together"}
	}
	return err
}
