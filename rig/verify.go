package rig

import (
	"fmt"

	"plumbhook/geom"
)

// Verify is [Rig.FoundAgain], and for a load that is said to be stable, hung on stiff
// springs and free to move in all six ways, that it stays when it is kicked.
func (r Rig) Verify(h Hang) error {
	if err := r.FoundAgain(h); err != nil || !h.Stable || h.RollsOver {
		return err
	}
	return r.stays(h)
}

// FoundAgain finds a hung pose again by ways that the first did not go, and returns
// ErrDisagree if they end elsewhere: the forces and moments on the load are summed
// anew, pick by pick about the CG, to 1e-8 of weight and size; and a stable pose is
// left downhill from a hook one part in a hundred of the rig's size away, in three
// directions, and must come back to the same place.
func (r Rig) FoundAgain(h Hang) error {
	if err := r.sumsUp(h.Pose); err != nil {
		return err
	}
	if !h.Stable || h.RollsOver || h.First.Shift < 0.05*r.size() {
		return nil // it need not come back from so far: it is not said to hold
	}
	x := square(h.Up)
	for _, away := range []geom.Vec{h.Up, h.Up.Add(x), h.Up.Sub(h.Up.Cross(x))} {
		at, ok := r.settle(h.Hook.Add(away.Mul(0.01 * r.size())))
		same := at.Sub(h.Hook).Len() <= 1e-4*r.size()
		if r.Stiffness == nil {
			same = r.sameHook(at, h.Hook)
		}
		if !ok || !same {
			return fmt.Errorf("%w (hook at %v, again at %v)", ErrDisagree, h.Hook, at)
		}
	}
	return nil
}

// sumsUp sums forces and moments on the load.
func (r Rig) sumsUp(p Pose) error {
	force := p.Up.Mul(-r.Weight)
	var moment geom.Vec
	for i, pick := range r.Picks {
		line := p.Hook.Sub(pick)
		pull := line.Mul(p.Tension[i] / line.Len())
		force = force.Add(pull)
		moment = moment.Add(pick.Sub(r.CG).Cross(pull))
	}
	if !(force.Len() <= 1e-8*r.Weight) || !(moment.Len() <= 1e-8*r.Weight*r.size()) {
		return fmt.Errorf("%w (force left over %g N, moment %g N·m)", ErrDisagree, force.Len(), moment.Len())
	}
	return nil
}
