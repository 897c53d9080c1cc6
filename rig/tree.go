package rig

import (
	"fmt"

	"plumbhook/geom"
)

// OnHook as the Body of an [End] is the hook itself.
const OnHook = -1

// Tree is a load hung from one hook with bars between: hook, top legs, a
// spreader, lifting beam or frame, drops, the load; in as many tiers as there
// are. All places are those of one drawing, up along z: it is the attitude from
// which everything is let go. Legs need not be as long on the drawing as they
// are: bodies drawn too near or too far come down, or up, to where they hang.
type Tree struct {
	Hook   geom.Vec // m
	Bodies []Body
	Links  []Link
}

// Body is a rigid body of the tree: a bar, or the load.
type Body struct {
	Name   string
	Weight float64    // N; 0 for a bar whose own weight is left out
	CG     geom.Vec   // m
	Points []geom.Vec // m, where legs take hold of it
}

// End is where a leg ends: a point of a body, or the hook.
type End struct{ Body, Point int }

// Link is a leg between two ends, drawn from the upper to the lower.
type Link struct {
	From, To  End
	Length    float64 // m, bearing to bearing, as under load
	Stiffness float64 // EA/L in N/m; 0: it does not stretch
}

// The most that one tree may hold.
const (
	MostBodies = 12
	MostLinks  = 48
)

// Check returns an *InputError for a tree that makes no sense: no bodies or
// too many, weights that are negative or come to nothing, ends that are not
// there, or a body that no legs lead to from the hook.
func (t Tree) Check() error {
	switch {
	case len(t.Bodies) < 1 || len(t.Bodies) > MostBodies:
		return &InputError{fmt.Sprintf("%d bodies under one hook", len(t.Bodies)), fmt.Sprintf("give 1 to %d", MostBodies)}
	case len(t.Links) < 1 || len(t.Links) > MostLinks:
		return &InputError{fmt.Sprintf("%d legs under one hook", len(t.Links)), fmt.Sprintf("give 1 to %d", MostLinks)}
	case !finite(t.Hook):
		return &InputError{"the hook is not a place", "give three coordinates"}
	}
	for _, b := range t.Bodies {
		if err := b.check(); err != nil {
			return err
		}
	}
	if !positive(t.Weight()) {
		return &InputError{fmt.Sprintf("the bodies weigh %g N in all", t.Weight()), "something in the tree must weigh"}
	}
	for i, l := range t.Links {
		if err := t.checkLink(i, l); err != nil {
			return err
		}
	}
	return t.checkHeld()
}

func (b Body) check() error {
	if !(b.Weight == 0 || positive(b.Weight)) {
		return &InputError{fmt.Sprintf("%s weighs %g N", b.Name, b.Weight), "a weight must be 0 or more"}
	}
	if !finite(b.CG) {
		return &InputError{b.Name + ": the centre of gravity is not a place", "give three coordinates"}
	}
	for i, p := range b.Points {
		if !finite(p) {
			return &InputError{fmt.Sprintf("%s: point %d is not a place", b.Name, i+1), "give three coordinates"}
		}
	}
	return nil
}

func (t Tree) checkLink(i int, l Link) error {
	for _, e := range []End{l.From, l.To} {
		if e.Body < OnHook || e.Body >= len(t.Bodies) ||
			e.Body >= 0 && (e.Point < 0 || e.Point >= len(t.Bodies[e.Body].Points)) {
			return &InputError{fmt.Sprintf("leg %d ends at point %d of body %d, which is not there", i+1, e.Point+1, e.Body+1),
				"let it end at the hook or at a point of a body"}
		}
	}
	switch {
	case l.From.Body == l.To.Body:
		return &InputError{fmt.Sprintf("leg %d begins and ends on the same body", i+1), "a leg joins two bodies, or a body and the hook"}
	case !positive(l.Length):
		return &InputError{fmt.Sprintf("leg %d is %g m long", i+1, l.Length), "a leg's length must be more than 0"}
	case !(l.Stiffness == 0 || positive(l.Stiffness)):
		return &InputError{fmt.Sprintf("leg %d has stiffness %g N/m", i+1, l.Stiffness), "EA/L must be more than 0, or 0 for a leg that does not stretch"}
	}
	return nil
}

// checkHeld walks down from the hook and complains of a body not come by.
func (t Tree) checkHeld() error {
	held := make([]bool, len(t.Bodies)+1) // the hook is last
	held[len(t.Bodies)] = true
	place := func(e End) int {
		if e.Body == OnHook {
			return len(t.Bodies)
		}
		return e.Body
	}
	for range t.Bodies {
		for _, l := range t.Links {
			a, b := place(l.From), place(l.To)
			held[a], held[b] = held[a] || held[b], held[a] || held[b]
		}
	}
	for i, b := range t.Bodies {
		if !held[i] {
			return &InputError{fmt.Sprintf("%s hangs on nothing: no legs lead to it from the hook", b.Name), "add a leg, or leave the body out"}
		}
	}
	return nil
}

// Weight is what hangs on the hook in N, the legs' own weight not counted.
func (t Tree) Weight() float64 {
	w := 0.0
	for _, b := range t.Bodies {
		w += b.Weight
	}
	return w
}

// size is a length in metres to measure tolerances by: the longest leg, or the
// farthest point from the CG of its body.
func (t Tree) size() float64 {
	s := 0.0
	for _, b := range t.Bodies {
		for _, p := range b.Points {
			s = max(s, p.Sub(b.CG).Len())
		}
	}
	for _, l := range t.Links {
		s = max(s, l.Length)
	}
	return s
}
