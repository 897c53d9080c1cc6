package rig

import (
	"fmt"

	"github.com/go-gl/mathgl/mgl64"

	"plumbhook/geom"
)

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
