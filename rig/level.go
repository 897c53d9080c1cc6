package rig

import (
	"math"

	"plumbhook/geom"
)

// Up is the direction that is up on the drawing.
var Up = geom.Vec{0, 0, 1}

// HookAbove returns the hook plumb over the CG, height metres above the
// highest pick.
func HookAbove(cg geom.Vec, picks []geom.Vec, height float64) geom.Vec {
	top := math.Inf(-1)
	for _, p := range picks {
		top = max(top, p[2])
	}
	return geom.Vec{cg[0], cg[1], top + height}
}

// HookAtAngle returns the hook plumb over the CG at the height in metres at
// which the flattest leg stands at the angle in radians from the horizontal.
func HookAtAngle(cg geom.Vec, picks []geom.Vec, angle float64) geom.Vec {
	z := math.Inf(-1)
	for _, p := range picks {
		run := math.Hypot(p[0]-cg[0], p[1]-cg[1])
		z = max(z, p[2]+run*math.Tan(angle))
	}
	return geom.Vec{cg[0], cg[1], z}
}

// LevelLengths returns the length in metres of each leg that reaches from its
// pick to the hook. With the hook plumb over the CG these are the lengths on
// which the load hangs as drawn, if it hangs there at all.
func LevelLengths(picks []geom.Vec, hook geom.Vec) []float64 {
	lengths := make([]float64, len(picks))
	for i, p := range picks {
		lengths[i] = hook.Sub(p).Len()
	}
	return lengths
}

// drawnHook returns the hook plumb over the CG of the load as drawn, as high
// as the legs let it go, which may be below the CG, and false where no height
// reaches: some leg is shorter than its pick's distance from the plumb line.
func (r Rig) drawnHook() (geom.Vec, bool) {
	rise := math.Inf(1)
	for i, p := range r.Picks {
		run := math.Hypot(p[0]-r.CG[0], p[1]-r.CG[1])
		if run > r.Lengths[i] {
			return geom.Vec{}, false
		}
		// (L−run)(L+run) keeps the digits that L²−run² loses.
		leg := math.Sqrt((r.Lengths[i] - run) * (r.Lengths[i] + run))
		rise = min(rise, p[2]-r.CG[2]+leg)
	}
	return r.CG.Add(Up.Mul(rise)), true
}
