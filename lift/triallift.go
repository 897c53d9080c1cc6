package lift

import (
	"fmt"
	"math"

	"plumbhook/geom"
	"plumbhook/rig"
)

// sameHeight in m is how near in height corners leave the ground together.
const sameHeight = 0.001

// trialLift fills in what to look for when the load is lifted a hand's breadth.
// All of it is in calm air, once nothing holds the load down.
func (p *plan) trialLift(best rig.Hang, worst rig.Worst) *TrialLift {
	w := p.weight.Weight
	r := p.rig(p.weight.planning())
	least, most, err := r.Readings(p.doubt().CGs)
	if err != nil {
		return nil // some case can't hang: that is among the reasons
	}
	t := TrialLift{BestKg: w.BestKg, LowKg: w.LowKg, HighKg: w.HighKg, StopAboveKg: w.HighKg,
		TiltDeg: degrees(best.Tilt()), TiltWorstDeg: degrees(worst.Tilt), Indeterminate: best.Indeterminate()}
	for i, pick := range p.picks {
		part := 1 / w.PlanningKg / 1000 // tension of rigid legs goes with the weight
		t.Legs = append(t.Legs, Reading{pick.Name, best.Tension[i] * w.BestKg * part, least[i] * w.LowKg * part, most[i] * w.HighKg * part})
	}
	// It stands on the ground as it is drawn, however it is to hang.
	r.Picks = places(p.ownPicks())
	over := p.stance.own(p.cg)
	t.HookOver = "the CG"
	if hook := p.load.Rigging.Hook; hook != nil && hook.At != nil {
		over, t.HookOver = *hook.At, "its place in the load file"
	}
	for _, leg := range r.TautOrder(over) {
		t.Tight = append(t.Tight, Tight{p.picks[leg.Leg].Name, leg.Rise})
	}
	t.corners(p.drawn.extent(), p.stance.own(best.Up))
	return &t
}

// corners finds which corner of the underside leaves level ground first, and which
// last: the highest and the lowest as the load hangs, since it tips about what
// still stands until it hangs free.
func (t *TrialLift) corners(box geom.Extent, up geom.Vec) {
	low := bottom(box)
	least, most := math.Inf(1), math.Inf(-1)
	for _, c := range low {
		least, most = min(least, c.Dot(up)), max(most, c.Dot(up))
	}
	t.DropM = max(0, most-least)
	if box.Diagonal() < 1e-6 || t.DropM <= sameHeight {
		return
	}
	t.FirstCorner, t.LastCorner = along(low, box, up, most), along(low, box, up, least)
}

// along names the corners of the underside at one height: a corner or a side.
func along(low []geom.Vec, box geom.Extent, up geom.Vec, height float64) string {
	var off geom.Vec
	n := 0
	for _, c := range low {
		if math.Abs(c.Dot(up)-height) <= sameHeight {
			off, n = off.Add(c.Sub(box.Center())), n+1
		}
	}
	size := box.Size()
	for i := range 2 {
		off[i] /= max(size[i], 1e-9) // by the sides of the box, not their lengths
	}
	if n == 1 {
		return fmt.Sprintf("corner %s", compass(off))
	}
	return fmt.Sprintf("side %s", compass(off))
}
