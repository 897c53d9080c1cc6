package rig

import (
	"math"

	"plumbhook/geom"
)

// Unloaded returns the length in metres that each leg of the stiffness EA in
// newtons must have without load for the rig to hang, under its load, in the pose
// that its lengths give, and false where that is no pose.
//
// Derived here: a leg L long under the tension T was L₀ before with
// L = L₀·(1 + T/EA). With k = EA/L₀ such a leg pulls k·(L − L₀) = T again, so
// that the pose of the lengths under load is in balance for any tensions that
// balance the load; taken are those of least work, as legs of one EA share.
func (r Rig) Unloaded(hook geom.Vec, ea float64) ([]float64, bool) {
	r.Stiffness = nil
	p, ok := r.pose(hook)
	if !ok || !positive(ea) {
		return nil, false
	}
	lengths := make([]float64, len(r.Lengths))
	for i, l := range r.Lengths {
		lengths[i] = l / (1 + p.Tension[i]/ea)
	}
	return lengths, true
}

// Elongation returns by how many metres each leg of stated Stiffness is longer in
// the pose than without load.
func (r Rig) Elongation(p Pose) []float64 {
	longer := make([]float64, len(r.Picks))
	for i := range longer {
		longer[i] = p.Tension[i] / r.stiffness(i)
	}
	return longer
}

// Travel returns how far in metres the hook rises from where the first leg comes
// taut, hook plumb over the CG and the load standing as drawn, until the load
// hangs clear of the ground with the lowest of the body's points just off it. It
// is false where no such start is.
//
// Derived here: the hook's height over the lowest of the points, after and before.
func (r Rig) Travel(p Pose, body []geom.Vec) (float64, bool) {
	start, ok := r.drawnHook()
	if !ok || len(body) == 0 {
		return 0, false
	}
	over := func(hook, up geom.Vec) float64 {
		low := math.Inf(1)
		for _, q := range body {
			low = min(low, q.Dot(up))
		}
		return hook.Dot(up) - low
	}
	return over(p.Hook, p.Up) - over(start, Up), true
}

// firstSlackOfSprings is firstSlack for legs that stretch: the tensions' first
// derivatives by the place of the CG, see Sensitivity, followed until one of them
// is nothing. The hook moves with the CG here, so this is to first order. A pose
// that does not hold has none.
func (r Rig) firstSlackOfSprings(p Pose) FirstSlack {
	first := FirstSlack{Leg: -1, Shift: math.Inf(1)}
	if !r.stability(p).Stable {
		return first
	}
	a := answering{rig: r, pose: p}
	a.prepare()
	for i, g := range a.all().TensionCG {
		slope := level(g, p.Up)
		toward, ok := unit(slope.Mul(-1))
		if p.Slack(i) || !ok || slope.Len()*r.size() <= 1e-9*r.Weight {
			continue // no level shift takes its load away
		}
		if shift := p.Tension[i] / slope.Len(); shift < first.Shift {
			first = FirstSlack{i, shift, toward}
		}
	}
	return first
}

// looseFor returns the legs that carry nothing when leg i has the most that it
// can have in the pose; none where that is what it has.
func (p Pose) looseFor(i int) []int {
	if p.Greatest[i] <= p.Tension[i]*(1+1e-9) {
		return nil
	}
	set := mostSet(p.Pull, p.Near, p.load(), i)
	var loose []int
	for j := range p.Pull {
		if set>>j&1 == 0 {
			loose = append(loose, j)
		}
	}
	return loose
}
