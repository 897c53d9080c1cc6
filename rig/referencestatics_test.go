package rig

import (
	"math"
	"math/bits"
	"slices"

	"github.com/go-gl/mathgl/mgl64"

	"plumbhook/geom"
)

func (r slowRig) pose(h geom.Vec) (Pose, bool) {
	n := len(r.Picks)
	up, ok := unit(h.Sub(r.CG))
	p := Pose{Hook: h, Up: up, Pull: make([]geom.Vec, n), Taut: make([]bool, n), Near: make([]bool, n)}
	if !ok {
		return p, false
	}
	k := make([]float64, n)
	tol := sameLength * r.size()
	for i, pick := range r.Picks {
		line := h.Sub(pick)
		p.Pull[i], ok = unit(line)
		p.Taut[i] = ok && line.Len() >= r.Lengths[i]-tol
		p.Near[i] = ok && line.Len() >= r.Lengths[i]*(1-NearlyTaut)
		k[i] = r.stiffness(i)
	}
	load := up.Mul(r.Weight)
	if r.Stiffness != nil {
		p.Tension = r.springs(h)
		p.Greatest = slowAnyLegSlack(p.Pull, p.Near, load)
		for i, t := range p.Tension {
			p.Greatest[i] = max(p.Greatest[i], t)
		}
		return p, slowBalanced(p.Pull, p.Tension, load)
	}
	p.Tension = slowElasticShare(p.Pull, k, p.Taut, load)
	if p.Tension == nil {
		return p, false
	}
	p.Greatest = slowAnyLegSlack(p.Pull, p.Near, load)
	for i, t := range p.Tension {
		p.Greatest[i] = max(p.Greatest[i], t)
	}
	return p, true
}

func (r slowRig) springs(h geom.Vec) []float64 {
	e := slowEnergy{rig: r, stiffness: r.Stiffness, lambda: make([]float64, len(r.Picks))}
	t := make([]float64, len(r.Picks))
	for i := range t {
		t[i], _, _ = e.tension(i, h)
	}
	return t
}

func (r slowRig) Equilibria(near geom.Vec) []Pose {
	n := len(r.Picks)
	var places []geom.Vec
	for a := range n {
		places = append(places, r.onOne(a)...)
		for b := range a {
			places = append(places, r.onTwo(a, b, near)...)
			for c := range b {
				places = append(places, r.onThree(a, b, c)...)
			}
		}
	}
	var found []Pose
	for _, h := range places {
		if !r.reaches(h) || slices.ContainsFunc(found, func(p Pose) bool {
			return p.Hook.Sub(h).Len() <= 1e-9*r.size()
		}) {
			continue
		}
		if p, ok := r.pose(h); ok {
			found = append(found, p)
		}
	}
	return found
}

func (r slowRig) reaches(h geom.Vec) bool {
	for i, p := range r.Picks {
		if h.Sub(p).Len() > r.Lengths[i]+sameLength*r.size() {
			return false
		}
	}
	return true
}

func (r slowRig) onOne(a int) []geom.Vec {
	away, ok := unit(r.Picks[a].Sub(r.CG))
	if !ok {
		return nil
	}
	return []geom.Vec{
		r.Picks[a].Add(away.Mul(r.Lengths[a])), // CG below the pick
		r.Picks[a].Sub(away.Mul(r.Lengths[a])), // CG above it, on a knife's edge
	}
}

func (r slowRig) circle(a, b int) (centre, axis geom.Vec, radius float64, ok bool) {
	span := r.Picks[b].Sub(r.Picks[a])
	apart := span.Len()
	axis, ok = unit(span)
	if !ok {
		return
	}
	along := (apart + (r.Lengths[a]-r.Lengths[b])*(r.Lengths[a]+r.Lengths[b])/apart) / 2
	rest := (r.Lengths[a] - along) * (r.Lengths[a] + along)
	if rest < -1e-12*r.size()*r.size() {
		return centre, axis, 0, false
	}
	return r.Picks[a].Add(axis.Mul(along)), axis, math.Sqrt(max(0, rest)), true
}

func (r slowRig) onTwo(a, b int, near geom.Vec) []geom.Vec {
	centre, axis, radius, ok := r.circle(a, b)
	if !ok {
		return nil
	}
	side := level(r.CG.Sub(centre), axis)
	if side.Len() <= 1e-12*r.size() { // any place on the circle balances
		if side, ok = unit(level(near.Sub(centre), axis)); !ok {
			side = square(axis)
		}
	} else {
		side, _ = unit(side)
	}
	return []geom.Vec{centre.Sub(side.Mul(radius)), centre.Add(side.Mul(radius))}
}

func (r slowRig) onThree(a, b, c int) []geom.Vec {
	centre, axis, radius, ok := r.circle(a, b)
	if !ok {
		return nil
	}
	out := level(r.Picks[c].Sub(centre), axis)
	away := out.Len()
	x, ok := unit(out)
	if !ok || away <= 1e-9*r.size() { // picks in one line: two of them say it all
		return nil
	}
	axial := r.Picks[c].Sub(centre).Dot(axis)
	// The third leg's sphere cuts the circle's plane in a circle of this radius².
	third := (r.Lengths[c] - axial) * (r.Lengths[c] + axial)
	along := (away + (radius*radius-third)/away) / 2
	rest := (radius - along) * (radius + along)
	if rest < -1e-12*r.size()*r.size() {
		return nil
	}
	rise := axis.Cross(x).Mul(math.Sqrt(max(0, rest)))
	foot := centre.Add(x.Mul(along))
	return []geom.Vec{foot.Add(rise), foot.Sub(rise)}
}

func slowBalanced(pull []geom.Vec, tension []float64, load geom.Vec) bool {
	rest := load
	for i, t := range tension {
		rest = rest.Sub(pull[i].Mul(t))
	}
	return rest.Len() <= 1e-9*load.Len()
}

func slowElasticShare(pull []geom.Vec, k []float64, taut []bool, load geom.Vec) []float64 {
	var all uint
	for i, t := range taut {
		if t {
			all |= 1 << i
		}
	}
	if t := slowLeastWork(pull, k, all, load); t != nil {
		return t
	}
	// Some leg would have to push, so it hangs loose: the least work among the
	// sets of fewer legs is the answer, and eight legs have only 255 sets.
	var best []float64
	least := math.Inf(1)
	for set := uint(1); set < 1<<len(pull); set++ {
		if set&^all != 0 {
			continue
		}
		t := slowLeastWork(pull, k, set, load)
		if t == nil {
			continue
		}
		work := 0.0
		for i := range t {
			work += t[i] * t[i] / (2 * k[i])
		}
		if work < least {
			best, least = t, work
		}
	}
	return best
}

func slowLeastWork(pull []geom.Vec, k []float64, set uint, load geom.Vec) []float64 {
	var m mgl64.Mat3
	for i, u := range pull {
		if set>>i&1 == 1 {
			slowOuter(&m, k[i], u)
		}
	}
	x, _ := slowSolveSymmetric(m, load, 1e-12)
	t := make([]float64, len(pull))
	for i, u := range pull {
		if set>>i&1 == 0 {
			continue
		}
		t[i] = k[i] * u.Dot(x)
		if t[i] < -1e-10*load.Len() {
			return nil
		}
		t[i] = max(0, t[i])
	}
	if !slowBalanced(pull, t, load) {
		return nil
	}
	return t
}

func slowAnyLegSlack(pull []geom.Vec, carry []bool, load geom.Vec) []float64 {
	most := make([]float64, len(pull))
	for set := uint(1); set < 1<<len(pull); set++ {
		if bits.OnesCount(set) > 3 || !slowWithin(set, carry) {
			continue
		}
		k := make([]float64, len(pull))
		for i := range k {
			k[i] = 1
		}
		for i, t := range slowLeastWork(pull, k, set, load) {
			most[i] = max(most[i], t)
		}
	}
	return most
}

func slowWithin(set uint, taut []bool) bool {
	for i, t := range taut {
		if !t && set>>i&1 == 1 {
			return false
		}
	}
	return true
}
