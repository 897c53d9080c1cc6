package rig

import (
	"fmt"
	"math"

	"github.com/go-gl/mathgl/mgl64"

	"plumbhook/geom"
)

// slowRig is the solver in its first form, every step spelled out and every
// small matrix diagonalised: slow, and what the quicker form is held to.
type slowRig Rig

func (r slowRig) size() float64 { return Rig(r).size() }

func (r slowRig) stiffness(i int) float64 { return Rig(r).stiffness(i) }

func (r slowRig) drawnHook() (geom.Vec, bool) { return Rig(r).drawnHook() }

func (r slowRig) Check() error { return Rig(r).Check() }

func (r slowRig) Hang() (Hang, error) {
	if err := r.Check(); err != nil {
		return Hang{}, err
	}
	start, reached := r.drawnHook()
	switch {
	case !reached:
		start = r.above()
	case start[2]-r.CG[2] <= 1e-6*r.size():
		return Hang{}, &ReachError{nil, [2]float64{}, 0, "the legs let the hook no higher than the load's centre of gravity: it can't hang this way up",
			"use longer legs, or picks higher up on the load"}
	default:
		if p, ok := r.pose(start); ok {
			if r.Stiffness == nil {
				if _, err := r.confirm(p.Hook); err != nil {
					return Hang{}, err
				}
			}
			h := r.fall(p)
			h.Drawn = !h.Leaned
			return h, nil
		}
	}
	if err := r.checkReach(); err != nil {
		return Hang{}, err
	}
	p, err := r.rest(start)
	if err != nil {
		return Hang{}, err
	}
	return r.fall(p), nil
}

func (r slowRig) judge(p Pose) Hang {
	return Hang{Pose: p, Stability: r.stability(p), First: r.firstSlack(p), RollsOver: p.Tilt() > rollover}
}

func (r slowRig) fall(p Pose) Hang {
	h := r.judge(p)
	if h.Stable || h.Neutral {
		return h
	}
	var other *Pose
	for _, way := range []float64{1e-3, -1e-3} {
		rest, err := r.rest(p.Hook.Add(h.Toward.Mul(way * r.size())))
		switch {
		case err != nil:
		case h.Rest == nil || rest.Tilt() > h.Rest.Tilt():
			h.Rest, other = &rest, h.Rest
		default:
			other = &rest
		}
	}
	if h.Rest != nil && h.Rest.Tilt() <= rollover {
		// It only leans over until a leg that was loose takes hold.
		h = r.judge(*h.Rest)
		h.Leaned, h.Other = true, other
		return h
	}
	h.RollsOver = h.RollsOver || h.Rest != nil
	return h
}

func (r slowRig) above() geom.Vec {
	var middle geom.Vec
	mean := 0.0
	for i, p := range r.Picks {
		middle = middle.Add(p)
		mean += r.Lengths[i]
	}
	n := float64(len(r.Picks))
	return middle.Add(Up.Mul(mean)).Mul(1 / n)
}

func (r slowRig) rest(start geom.Vec) (Pose, error) {
	at, ok := r.settle(start)
	if !ok {
		return Pose{}, ErrDisagree
	}
	if r.Stiffness == nil {
		return r.confirm(at)
	}
	if p, ok := r.pose(at); ok {
		return p, nil
	}
	return Pose{}, ErrDisagree
}

func (r slowRig) confirm(h geom.Vec) (Pose, error) {
	nearest, found := 1e-4*r.size(), Pose{}
	for _, q := range r.Equilibria(h) {
		way := q.Hook.Sub(h).Len()
		same := way <= 1e-6*r.size() || r.sameDepth(q.Hook, h)
		if same && way <= nearest {
			nearest, found = way, q
		}
	}
	if found.Pull == nil {
		return found, ErrDisagree
	}
	return found, nil
}

func (r slowRig) sameDepth(a, b geom.Vec) bool {
	return math.Abs(a.Sub(r.CG).Len()-b.Sub(r.CG).Len()) <= 1e-7*r.size()
}

func (r slowRig) checkReach() error {
	for i, p := range r.Picks {
		for j := range i {
			apart, legs := p.Sub(r.Picks[j]).Len(), r.Lengths[i]+r.Lengths[j]
			if apart > legs {
				return &ReachError{
					[]int{j, i}, [2]float64{r.Lengths[j], r.Lengths[i]}, apart,
					fmt.Sprintf("legs %d and %d are %.3f m and %.3f m long but their picks are %.3f m apart: they can't meet at one hook", j+1, i+1, r.Lengths[j], r.Lengths[i], apart),
					"use longer legs, or picks closer together",
				}
			}
		}
	}
	if r.Stiffness == nil && len(r.Equilibria(r.above())) == 0 {
		return &ReachError{nil, [2]float64{}, 0, "there is no place for the hook that every leg reaches: the legs are too short for their picks",
			"use longer legs, or picks closer together"}
	}
	return nil
}

func (r slowRig) stability(p Pose) Stability {
	var resist, held mgl64.Mat3
	for i, u := range p.Pull {
		if p.Slack(i) {
			continue
		}
		slowAcross(&resist, p.Tension[i]/p.Hook.Sub(r.Picks[i]).Len(), u)
		if r.Stiffness != nil {
			slowOuter(&resist, r.Stiffness[i], u)
			continue
		}
		slowOuter(&held, 1, u)
	}
	rho := p.Hook.Sub(r.CG).Len()
	free := r.free(p, held)
	if len(free) == 0 {
		return Stability{Stable: true, Margin: rho}
	}
	weakest, toward := slowWeakest(resist, free, r.Stiffness != nil)
	s := Stability{Margin: math.Inf(-1), Toward: toward}
	if weakest > 0 {
		s.Margin = rho - r.Weight/weakest
	}
	tol := 1e-9 * r.size()
	s.Stable, s.Neutral = s.Margin > tol, math.Abs(s.Margin) <= tol
	s.Margin = max(s.Margin, -1e6*r.size())
	return s
}

func (r slowRig) free(p Pose, held mgl64.Mat3) []geom.Vec {
	if r.Stiffness != nil {
		x := square(p.Up)
		return []geom.Vec{x, p.Up.Cross(x)}
	}
	var free []geom.Vec
	axes := slowEigen(held)
	for _, a := range axes {
		if a.value <= 1e-12*axes[2].value {
			free = append(free, a.along)
		}
	}
	return free
}

func slowWeakest(resist mgl64.Mat3, free []geom.Vec, givesWay bool) (float64, geom.Vec) {
	if len(free) == 1 {
		return free[0].Dot(resist.Mul3x1(free[0])), free[0]
	}
	third := free[0].Cross(free[1])
	stiff := third.Dot(resist.Mul3x1(third))
	at := func(a, b geom.Vec) float64 {
		v := a.Dot(resist.Mul3x1(b))
		if givesWay && stiff > 0 {
			v -= a.Dot(resist.Mul3x1(third)) * b.Dot(resist.Mul3x1(third)) / stiff
		}
		return v
	}
	a, b, c := at(free[0], free[0]), at(free[1], free[1]), at(free[0], free[1])
	mean, half := (a+b)/2, math.Hypot((a-b)/2, c)
	turn := math.Atan2(c, (a-b)/2)/2 + math.Pi/2 // across the stiffest
	return mean - half, free[0].Mul(math.Cos(turn)).Add(free[1].Mul(math.Sin(turn)))
}

func (r slowRig) firstSlack(p Pose) FirstSlack {
	first := FirstSlack{Leg: -1, Shift: math.Inf(1)}
	var m mgl64.Mat3
	for i, u := range p.Pull {
		if !p.Slack(i) {
			slowOuter(&m, r.stiffness(i), u)
		}
	}
	arm := p.Hook.Sub(r.CG)
	for i, u := range p.Pull {
		if p.Slack(i) {
			continue
		}
		g, _ := slowSolveSymmetric(m, u, 1e-12)
		toward, ok := unit(level(g, p.Up))
		if !ok || level(g, p.Up).Len() <= 1e-9*g.Len() {
			continue // a single plumb leg: no shift takes its load away
		}
		if shift := g.Dot(arm) / g.Dot(toward); shift < first.Shift {
			first = FirstSlack{i, shift, toward}
		}
	}
	return first
}
