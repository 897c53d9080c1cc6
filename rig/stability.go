package rig

import (
	"math"

	"github.com/go-gl/mathgl/mgl64"

	"plumbhook/geom"
)

// Stability says whether a pose holds by itself when it is nudged.
type Stability struct {
	Stable bool
	// Neutral: it neither comes back nor goes on. Not stable.
	Neutral bool

	// Margin in metres is how far the CG could rise towards the hook (or the
	// picks sink) before the load rolls. Negative: how far it must come down.
	// For three legs that fix the hook it is the whole way up to the hook.
	Margin float64

	// Toward is the level direction, in the load's axes, in which the load
	// swings out or rolls most easily; its opposite is as good. Zero where
	// taut legs allow no movement.
	Toward geom.Vec
}

// stability judges a pose by the second derivative of the energy in the
// directions that the pulling legs leave free. For two legs with the hook H
// above the line of the picks and the CG a below that line it is
// W/H − W/(H+a), so that the load is stable only if a > 0.
//
// With rigid legs Σ Tᵢ/Lᵢ·(1 − uᵢuᵢᵀ) − W/ρ·(1 − d·dᵀ) must be positive on
// the directions square to all uᵢ that pull, ρ the way from CG to hook; a
// taut leg that pulls nothing is not counted on. With springs the term
// Σ kᵢuᵢuᵢᵀ comes in and every direction is free. W = ρ·λ solved for ρ gives
// the margin, which for rigid legs holds no stiffness.
func (r Rig) stability(p Pose) Stability {
	var resist, held mgl64.Mat3
	for i, u := range p.Pull {
		if p.Slack(i) {
			continue
		}
		across(&resist, p.Tension[i]/p.Hook.Sub(r.Picks[i]).Len(), u)
		if r.Stiffness != nil {
			outer(&resist, r.Stiffness[i], u)
			continue
		}
		outer(&held, 1, u)
	}
	rho := p.Hook.Sub(r.CG).Len()
	free := r.free(p, held)
	if len(free) == 0 {
		return Stability{Stable: true, Margin: rho}
	}
	weakest, toward := weakest(resist, free, r.Stiffness != nil)
	s := Stability{Margin: math.Inf(-1), Toward: toward}
	if weakest > 0 {
		s.Margin = rho - r.Weight/weakest
	}
	tol := 1e-9 * r.size()
	s.Stable, s.Neutral = s.Margin > tol, math.Abs(s.Margin) <= tol
	s.Margin = max(s.Margin, -1e6*r.size())
	return s
}

// free returns unit vectors square to one another and to all legs that hold,
// along which the hook can move. For springs: those square to up, since along
// up they only stretch.
func (r Rig) free(p Pose, held mgl64.Mat3) []geom.Vec {
	if r.Stiffness != nil {
		x := square(p.Up)
		return []geom.Vec{x, p.Up.Cross(x)}
	}
	var free []geom.Vec
	hold := divide(&held, 1e-12)
	for i, a := range hold.axes {
		if !hold.full && !hold.kept[i] {
			free = append(free, a.along)
		}
	}
	return free
}

// weakest returns the least resistance in N/m of the symmetric matrix over the
// span of one or two free directions, and the direction of it. With givesWay
// the direction square to both is not held but moves along as it must.
func weakest(resist mgl64.Mat3, free []geom.Vec, givesWay bool) (float64, geom.Vec) {
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

// FirstSlack is how little the CG need move for a leg to go slack.
type FirstSlack struct {
	Leg    int
	Shift  float64  // m, level in the hung pose; +Inf: no such shift
	Toward geom.Vec // unit vector in the load's axes
}

// firstSlack finds the nearest level shift of the CG at which a leg that pulls
// stops pulling, the legs' lengths unchanged. As long as the same legs are
// taut the hook stays where it is in the load, so each tension is
// Tᵢ = kᵢ·uᵢ·M⁺·(h − c)·W/ρ with M = Σ kᵢuᵢuᵢᵀ: it vanishes where c crosses a
// plane through the hook. A CG z above picks that lie H below the hook so
// magnifies its offset by H/(H − z).
func (r Rig) firstSlack(p Pose) FirstSlack {
	if r.Stiffness != nil {
		return r.firstSlackOfSprings(p)
	}
	first := FirstSlack{Leg: -1, Shift: math.Inf(1)}
	var m mgl64.Mat3
	for i, u := range p.Pull {
		if !p.Slack(i) {
			outer(&m, r.stiffness(i), u)
		}
	}
	hold := divide(&m, 1e-12)
	arm := p.Hook.Sub(r.CG)
	for i, u := range p.Pull {
		if p.Slack(i) {
			continue
		}
		g := hold.solve(u)
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
