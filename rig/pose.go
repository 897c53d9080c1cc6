package rig

import (
	"math"

	"github.com/go-gl/mathgl/mgl64"

	"plumbhook/geom"
)

// Pose is one way in which the load hangs, in the load's own axes.
type Pose struct {
	Hook     geom.Vec   // m
	Up       geom.Vec   // unit vector from the CG to the hook: up, while it hangs so
	Pull     []geom.Vec // unit vector from each pick to the hook
	Taut     []bool     // the leg is just as long as the way from pick to hook, or stretched to it
	Near     []bool     // taut, or so nearly that a usual error of length makes it so
	Tension  []float64  // N; the elastic share where statics can't settle it
	Greatest []float64  // N; each leg's most in this pose, whichever others are slack
}

// NearlyTaut is the part of a leg's length by which it may be longer than the
// way from pick to hook and still be counted as one that may come to carry:
// slings of one nominal length differ by about as much. Common practice, no
// source.
const NearlyTaut = 0.005

// pose describes the rig with its hook at h, where the forces balance. It
// returns false where no pull of the taut legs can balance the load.
func (r Rig) pose(h geom.Vec) (Pose, bool) {
	n := len(r.Picks)
	up, ok := unit(h.Sub(r.CG))
	flags := make([]bool, 2*n)
	p := Pose{Hook: h, Up: up, Pull: make([]geom.Vec, n), Taut: flags[:n:n], Near: flags[n:]}
	if !ok {
		return p, false
	}
	var k [Most]float64
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
		p.Greatest = p.mostOf(load)
		return p, balanced(p.Pull, p.Tension, load)
	}
	p.Tension = elasticShare(p.Pull, k[:], p.Taut, load)
	if p.Tension == nil {
		return p, false
	}
	p.Greatest = p.mostOf(load)
	return p, true
}

// mostOf is the greatest tension in N that each leg can have in this pose,
// whichever others are slack, and never less than it has. Legs of a stated
// stretch have it too: what is stated is not what hangs there, and a leg a little
// longer than stated takes nothing.
func (p Pose) mostOf(load geom.Vec) []float64 {
	most := anyLegSlack(p.Pull, p.Near, load)
	for i, t := range p.Tension {
		most[i] = max(most[i], t)
	}
	return most
}

// balances says whether pull of the taut legs alone can balance the load with
// the hook at h: all that decides whether a place is a pose of rigid legs.
func (r Rig) balances(h geom.Vec, size float64) bool {
	up, ok := unit(h.Sub(r.CG))
	if !ok {
		return false
	}
	var pull [Most]geom.Vec
	var k [Most]float64
	var taut [Most]bool
	tol := sameLength * size
	for i, pick := range r.Picks {
		line := h.Sub(pick)
		pull[i], ok = unit(line)
		taut[i] = ok && line.Len() >= r.Lengths[i]-tol
		k[i] = r.stiffness(i)
	}
	n := len(r.Picks)
	_, ok = leastOfAll(pull[:n], k[:], taut[:n], up.Mul(r.Weight))
	return ok
}

// springs returns the tensions in N of legs that stretch, with the hook at h.
func (r Rig) springs(h geom.Vec) []float64 {
	e := energy{rig: r}
	copy(e.stiffness[:], r.Stiffness)
	t := make([]float64, len(r.Picks))
	for i := range t {
		t[i], _, _ = e.tension(i, h)
	}
	return t
}

// Indeterminate says that statics can't settle the sharing: more legs are taut,
// or nearly, than the balance of forces has equations for them.
func (p Pose) Indeterminate() bool {
	var m mgl64.Mat3
	legs := 0
	for i, u := range p.Pull {
		if p.Near[i] {
			outer(&m, 1, u)
			legs++
		}
	}
	_, rank := solveSymmetric(m, geom.Vec{}, 1e-12)
	return legs > rank
}

// FromHorizontal is the angle in radians of leg i up from the horizontal.
func (p Pose) FromHorizontal(i int) float64 {
	return math.Atan2(p.Pull[i].Dot(p.Up), level(p.Pull[i], p.Up).Len())
}

// Tilt is the angle in radians between the load as it hangs and as drawn.
func (p Pose) Tilt() float64 {
	return math.Atan2(level(p.Up, Up).Len(), p.Up.Dot(Up))
}

// Squeeze is the horizontal pull in N of leg i on its pick, with which the
// legs press the load together.
func (p Pose) Squeeze(i int) float64 {
	return p.Tension[i] * level(p.Pull[i], p.Up).Len()
}

// Drop returns how much lower the lowest of the points hangs than the highest
// of them, in metres. Of points that are level on the drawing this is how far
// out of level the load is.
func (p Pose) Drop(points []geom.Vec) float64 {
	low, high := math.Inf(1), math.Inf(-1)
	for _, q := range points {
		z := q.Dot(p.Up)
		low, high = min(low, z), max(high, z)
	}
	return max(0, high-low)
}

// Headroom is the height in metres of the hook over the highest of the points
// as they hang.
func (p Pose) Headroom(points []geom.Vec) float64 {
	top := math.Inf(-1)
	for _, q := range points {
		top = max(top, q.Dot(p.Up))
	}
	return p.Hook.Dot(p.Up) - top
}

// Slack says that leg i carries nothing: it hangs loose, or is just taut
// without pulling.
func (p Pose) Slack(i int) bool {
	most := 0.0
	for _, t := range p.Tension {
		most = max(most, t)
	}
	return p.Tension[i] <= 1e-9*most
}
