package rig

import (
	"fmt"
	"slices"

	"plumbhook/geom"
)

// Verify looks at a hung tree by a way that the first did not go, and returns
// ErrDisagree if it finds something else: the forces and moments on each body are
// summed anew from where its legs end, to 1e-8 of weight and size; and a tree that is
// said to be stable is hung on stiff springs, all its bodies free in all six ways,
// and kicked, and must not go away from where it hung.
//
// The kick is asked only of legs that do not stretch, and where the resistance to the
// easiest movement is more than a thousandth of the weight over the size.
func (t Tree) Verify(p TreePose) error {
	if err := t.sumsUp(p); err != nil {
		return err
	}
	soft := p.Least != 0 && p.Least < 1e-3*t.Weight()/t.size()
	if !p.Stable || soft || slices.ContainsFunc(t.Links, func(l Link) bool { return l.Stiffness != 0 }) {
		return nil
	}
	if t.goesAway(p) {
		return fmt.Errorf("%w (kicked by a millionth of the size, bars and load do not stay where they hung)", ErrDisagree)
	}
	return nil
}

// sumsUp sums forces and moments on each body about its CG.
func (t Tree) sumsUp(p TreePose) error {
	whole, size := t.Weight(), t.size()
	for b, body := range t.Bodies {
		force, moment := Up.Mul(-body.Weight), geom.Vec{}
		for i, l := range t.Links {
			for side, end := range []End{l.From, l.To} {
				if end.Body != b {
					continue
				}
				at := p.Bodies[b].Place.Point(body.Points[end.Point])
				way := p.Links[i].Ends[1-side].Sub(at)
				on := way.Mul(p.Links[i].Tension / max(way.Len(), 1e-300))
				force, moment = force.Add(on), moment.Add(at.Sub(p.Bodies[b].CG).Cross(on))
			}
		}
		if !(force.Len() <= 1e-8*whole) || !(moment.Len() <= 1e-8*whole*size) {
			return fmt.Errorf("%w (%s: force left over %g N, moment %g N·m)", ErrDisagree, body.Name, force.Len(), moment.Len())
		}
	}
	return nil
}
