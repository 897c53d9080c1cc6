package lift

import (
	"math"
	"slices"

	"plumbhook/takeoff"
)

// mostRounds bounds the search for the worst levels, which ends after a few.
const mostRounds = 100

// worstRise is the most by which free liquid can raise the CG in effect, about
// the line of the picks and about the worst axis, against the CG as drawn, each
// liquid standing at whichever of its levels is worst with the others.
func (a *afloat) worstRise(w Weight) (across, any float64, err error) {
	var all [][]takeoff.Level
	for _, one := range a.liquids {
		levels, err := one.Levels(plumb, a.across)
		if err != nil {
			return 0, 0, err
		}
		levels = slices.DeleteFunc(levels, func(l takeoff.Level) bool { return l.Mass == 0 }) // nothing runs; the empty load is a state of its own
		all = append(all, levels)
	}
	for _, first := range all[0] { // one by one, so that the bound k of what follows is close
		with := append([][]takeoff.Level{{first}}, all[1:]...)
		across = max(across, a.highest(w, with, func(l takeoff.Level) float64 { return l.Across }))
		any = max(any, a.highest(w, with, func(l takeoff.Level) float64 { return l.Any }))
	}
	return across, any, nil
}

// highest returns the greatest rise over all levels of all liquids. With D the
// mass of what can't run, Z that of the CG as drawn, and mᵢ, zᵢ, Sᵢ the mass, the
// CG and the ρI of liquid i at a level, the rise is
//
//	(Σ over all of m·(z − Z) + k·Σ Sᵢ) / (D + Σ mᵢ),
//
// so that less in one tank makes the surfaces in all others count for more: the
// levels are chosen together. The sum over what can't run is −Σ m·(z − Z) of the
// liquids as drawn. The surfaces count against the least weight D' of what can't
// run: k = (D + Σ least mᵢ)/(D' + Σ least mᵢ), no less than at any other level.
//
// A ratio of sums of which each term is chosen on its own is greatest for the
// choice that is greatest in numerator − ratio·denominator, the ratio being that
// of the choice before, until it grows no more. Source: W. Dinkelbach, "On
// nonlinear fractional programming", Management Science 13, 1967 (from memory).
func (a *afloat) highest(w Weight, all [][]takeoff.Level, surface func(takeoff.Level) float64) float64 {
	const least = 0.01 // of the weight is never liquid
	still, lightest, moment, drops := a.mass, w.Weight.LowKg, 0.0, 0.0
	for i, one := range a.liquids {
		mass := one.Volume * one.Density
		still, lightest = still-mass, lightest-one.Low*one.Density
		moment -= mass * (a.drawn[i][2] - w.CGM[2])
		drop := math.Inf(1)
		for _, l := range all[i] {
			drop = min(drop, l.Mass)
		}
		drops += drop
	}
	still, lightest = max(still, least*a.mass), max(lightest, least*w.Weight.LowKg)
	k := max(1, (still+drops)/(lightest+drops))
	lifts := func(l takeoff.Level) float64 { return l.Mass*(l.CG[2]-w.CGM[2]) + k*surface(l) }
	ratio := math.Inf(-1)
	for range mostRounds {
		top, mass := moment, still
		for _, levels := range all {
			best := levels[0]
			for _, l := range levels {
				if !math.IsInf(ratio, 0) && lifts(l)-ratio*l.Mass > lifts(best)-ratio*best.Mass {
					best = l
				}
			}
			top, mass = top+lifts(best), mass+best.Mass
		}
		if top/mass <= ratio {
			break
		}
		ratio = top / mass
	}
	return ratio
}
