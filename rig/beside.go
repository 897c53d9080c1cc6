package rig

import (
	"slices"

	"plumbhook/geom"
)

// hangBeside is Hang for a rig a little different from one that is solved: the
// search begins at that one's hook with its tensions, not at the drawing. What
// it finds is taken only where the load let go as drawn could come to rest
// nowhere else; in all other cases it is left to Hang.
//
// Derived here: let go from the drawn hook the CG only sinks, so it ends in an
// equilibrium at least as far below its hook as it was. Equilibria are all
// known by geometry; where just one is as low, that is the one.
func (r Rig) hangBeside(before *Hang) (Hang, error) {
	if before == nil || r.Stiffness != nil || !before.Stable || before.Leaned || before.RollsOver || r.Check() != nil {
		return r.Hang()
	}
	size := r.size()
	start, reached := r.drawnHook()
	if !reached || start[2]-r.CG[2] <= 1e-6*size || r.balances(start, size) {
		return r.Hang()
	}
	at, ok := r.slide(before, size)
	if !ok {
		return r.Hang()
	}
	var room placeRoom
	places := r.places(room[:0], at)
	at, err := r.confirmAmong(places, at)
	if err != nil || r.elsewhere(places, at, start) {
		return r.Hang()
	}
	p, ok := r.pose(at)
	if !ok {
		return r.Hang()
	}
	if h := r.judge(p); h.Stable && !h.RollsOver {
		return h, nil
	}
	return r.Hang()
}

// slide finds a balance beside one that is solved: on the legs that pulled
// there, or else on those of all legs that turn out to pull here.
func (r Rig) slide(before *Hang, size float64) (geom.Vec, bool) {
	e := energy{rig: r, size: size}
	copy(e.lambda[:], before.Tension)
	if at, ok := e.sharpen(before.Hook); ok && r.stands(at, size) {
		return at, true
	}
	for i := range r.Picks {
		e.lambda[i] = r.Weight
	}
	at, ok := e.sharpen(before.Hook)
	return at, ok && r.stands(at, size)
}

// elsewhere says whether one of the places, away from at, is an equilibrium in
// which the CG hangs as low as below start.
func (r Rig) elsewhere(places []geom.Vec, at, start geom.Vec) bool {
	size := r.size()
	tol := 1e-6 * size
	least := start.Sub(r.CG).Len() - tol
	return slices.ContainsFunc(places, func(h geom.Vec) bool {
		return h.Sub(r.CG).Len() >= least && h.Sub(at).Len() > tol && r.stands(h, size)
	})
}
