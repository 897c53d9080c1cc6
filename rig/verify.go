package rig

import (
	"fmt"

	"github.com/go-gl/mathgl/mgl64"

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

// stays hangs a load that was found stable on stiff springs, all six freedoms of it
// free, and kicks it: it must not go away from where it hung, else ErrDisagree. See
// [freeBodies.swing].
//
// Asked only of legs that do not stretch, where the CG would have to rise by more than
// a fiftieth of the rig's size before the load rolls, and to shift by more than a
// hundredth before a leg goes slack.
func (r Rig) stays(h Hang) error {
	if size := r.size(); r.Stiffness != nil || h.Margin < 0.02*size || h.First.Shift < 0.01*size {
		return nil
	}
	if t, p := r.asTree(h); t.goesAway(p) {
		return fmt.Errorf("%w (kicked by a millionth of the size, the load does not stay where it hung)", ErrDisagree)
	}
	return nil
}

// asTree is the load as a tree of one body, turned so that the hook is plumb over its
// CG.
func (r Rig) asTree(h Hang) (Tree, TreePose) {
	t := Tree{Hook: h.Hook, Bodies: []Body{{Weight: r.Weight, CG: r.CG, Points: r.Picks}}}
	below := h.Hook.Sub(Up.Mul(h.Hook.Sub(r.CG).Len()))
	p := TreePose{Bodies: []BodyPose{{Place: geom.Pose{Turn: uprightTurn(h.Up)}, CG: below}}}
	for i, length := range r.Lengths {
		t.Links = append(t.Links, Link{From: End{OnHook, 0}, To: End{0, i}, Length: length})
		p.Links = append(p.Links, LinkPose{Tension: h.Tension[i]})
	}
	return t, p
}

// uprightTurn turns the load so that its direction up points up in the room.
func uprightTurn(up geom.Vec) mgl64.Mat3 {
	x := square(up)
	y := up.Cross(x)
	return mgl64.Mat3FromRows(x, y, up)
}
