package rig

import (
	"fmt"
	"math"

	"plumbhook/geom"
)

// TreePose is one way in which a tree hangs.
type TreePose struct {
	Bodies []BodyPose
	Links  []LinkPose
	Drawn  bool    // the attitude drawn is itself a balance
	Force  float64 // N, what is left over on the worst body: nothing but rounding
	Moment float64 // N·m, the same about its CG

	// Stable: it comes back when nudged. Neutral: it neither comes back nor
	// goes on. Turning about a plumb line, which tilts nothing, is not counted.
	Stable, Neutral bool
	// Least is the resistance in N/m to the easiest movement that the pulling
	// legs leave free, with turns counted as the tree's size (its longest leg
	// or arm) times the angle. Below 0 it is what drives it on. Zero and stable
	// where nothing is free to move.
	Least float64
	// Rest is where an unstable tree ends up; nil if it holds, or not found.
	Rest *TreePose
}

// BodyPose is how a body hangs.
type BodyPose struct {
	Place geom.Pose // from where it is drawn to where it hangs
	CG    geom.Vec  // m, as it hangs
	Tilt  float64   // rad, between the body as it hangs and as drawn
}

// LinkPose is a leg as it hangs.
type LinkPose struct {
	Tension        float64     // N
	FromHorizontal float64     // rad, of the leg upward from its To end
	Pull           geom.Vec    // unit vector from its To end to its From end
	Ends           [2]geom.Vec // m, From and To
	Taut           bool        // just as long as the way between its ends, or stretched to it
}

// Squeeze is the level pull in N of the leg at its ends.
func (l LinkPose) Squeeze() float64 { return l.Tension * math.Cos(l.FromHorizontal) }

// Hang lets all bodies go as drawn and returns how the tree comes to rest. A
// tree that balances as drawn but does not hold so is returned as not stable,
// with Rest telling where it would go.
//
// Errors: *InputError, *ReachError, or ErrDisagree.
func (t Tree) Hang() (TreePose, error) {
	if err := t.Check(); err != nil {
		return TreePose{}, err
	}
	m, s := t.model()
	at, drawn := m.still(s)
	var err error
	if !drawn {
		if at, err = t.fall(m, s); err != nil {
			return TreePose{}, err
		}
	}
	p, toward, err := t.pose(m, at)
	if err != nil {
		return p, err
	}
	p.Drawn = drawn
	for _, way := range []float64{1e-2, -1e-2} {
		if p.Stable || p.Neutral || !drawn {
			break
		}
		if to, err := t.fall(m, at.nudged(way, toward)); err == nil {
			if q, _, err := t.pose(m, to); err == nil && (p.Rest == nil || q.steepest() > p.Rest.steepest()) {
				p.Rest = &q
			}
		}
	}
	return p, nil
}

// fall returns where bodies let go at s come to rest. A balance on a knife's
// edge on the way down, which a symmetric tree may come upon, is left behind.
func (t Tree) fall(m *model, s state) (state, error) {
	var err error
	for range 5 {
		if s, err = t.rest(m, s); err != nil {
			return s, err
		}
		p, toward, err := t.pose(m, s)
		if err != nil || p.Stable || p.Neutral {
			return s, err
		}
		to := s.nudged(1e-2, toward)
		// A leg that is taut without pulling may bar one of both ways.
		if back := s.nudged(-1e-2, toward); m.slack(back) < m.slack(to) {
			to = back
		}
		s = to
	}
	return s, ErrDisagree
}

func (s state) nudged(way float64, toward []float64) state {
	step := make([]float64, len(toward))
	addTo(step, way, toward)
	return s.moved(step)
}

// slack returns by how much the rigid leg that is most too short is so.
func (m *model) slack(s state) float64 {
	short := 0.0
	for i, rigid := range m.rigid {
		if rigid {
			short = max(short, m.gap(s, i))
		}
	}
	return short
}

// steepest is the greatest tilt of a body in radians.
func (p TreePose) steepest() float64 {
	tilt := 0.0
	for _, b := range p.Bodies {
		tilt = max(tilt, b.Tilt)
	}
	return tilt
}

// still returns the balance at s, and whether there is one.
func (m *model) still(s state) (state, bool) {
	if m.springs() == 0 && m.reaches(s) {
		if _, shared := m.share(s); shared {
			return s, true
		}
	}
	taut := make([]bool, len(m.links))
	for i, rigid := range m.rigid {
		taut[i] = rigid && m.gap(s, i) >= -sameLength
	}
	at, ok := m.sharpen(s, taut)
	if !ok || !at.near(s) || !m.reaches(at) {
		return at, false
	}
	_, shared := m.share(at)
	return at, shared
}

// rest returns the state in which bodies let go at s come to rest.
func (t Tree) rest(m *model, s state) (state, error) {
	at, stretch, ok := m.settle(s)
	switch {
	case ok:
		return at, nil
	case stretch > 1e-4:
		return at, &ReachError{nil, [2]float64{}, 0,
			fmt.Sprintf("the legs do not reach: with all bodies drawn together one is still %.3f m too short", stretch*m.size),
			"use longer legs, or points closer together"}
	}
	return at, ErrDisagree
}

// near says that two states are the same to 1e-6.
func (s state) near(o state) bool {
	for b := range s.at {
		turn := s.turn[b].Sub(o.turn[b])
		off := s.at[b].Sub(o.at[b]).Len()
		for _, x := range turn {
			off = max(off, math.Abs(x))
		}
		if off > 1e-6 {
			return false
		}
	}
	return true
}

// left returns the greatest force and moment left over on a body: the sums
// anew, body by body about its CG.
func (m *model) left(s state, tension []float64) (force, moment float64) {
	f, mo := make([]geom.Vec, len(s.at)), make([]geom.Vec, len(s.at))
	for b, w := range m.weight {
		f[b][2] = -w
	}
	for i, t := range tension {
		pull, _ := m.line(s, i)
		for side, e := range []End{m.links[i].From, m.links[i].To} {
			if e.Body == OnHook {
				continue
			}
			_, arm := m.end(s, e)
			on := pull.Mul(t * (2*float64(side) - 1))
			f[e.Body] = f[e.Body].Add(on)
			mo[e.Body] = mo[e.Body].Add(arm.Cross(on))
		}
	}
	for b := range f {
		force, moment = max(force, f[b].Len()), max(moment, mo[b].Len())
	}
	return force, moment
}

// pose describes a state of rest, and the step by which it gives way most
// easily.
func (t Tree) pose(m *model, s state) (TreePose, []float64, error) {
	tension, ok := m.share(s)
	force, moment := m.left(s, tension)
	p := TreePose{Force: force * m.whole, Moment: moment * m.whole * m.size}
	if !ok {
		return p, nil, fmt.Errorf("%w (force left over %g N, moment %g N·m)", ErrDisagree, p.Force, p.Moment)
	}
	for b := range t.Bodies {
		cg := s.at[b].Mul(m.size).Add(t.Hook)
		up := s.turn[b].Mul3x1(Up)
		p.Bodies = append(p.Bodies, BodyPose{
			Place: geom.Pose{Turn: s.turn[b], Move: cg.Sub(s.turn[b].Mul3x1(t.Bodies[b].CG))},
			CG:    cg,
			Tilt:  math.Atan2(level(up, Up).Len(), up.Dot(Up)),
		})
	}
	for i, l := range t.Links {
		pull, _ := m.line(s, i)
		from, _ := m.end(s, l.From)
		to, _ := m.end(s, l.To)
		p.Links = append(p.Links, LinkPose{
			Tension: tension[i] * m.whole, Pull: pull, Taut: m.gap(s, i) >= -sameLength,
			FromHorizontal: math.Atan2(pull.Dot(Up), level(pull, Up).Len()),
			Ends:           [2]geom.Vec{from.Mul(m.size).Add(t.Hook), to.Mul(m.size).Add(t.Hook)},
		})
	}
	least, toward := m.weakest(s, tension)
	p.Least = least * m.whole / m.size
	tol := 1e-9 * (1 + 1e-4*m.springs())
	p.Neutral = toward != nil && math.Abs(least) <= tol || m.spins(s) && !(least < -tol)
	p.Stable = !p.Neutral && least >= 0
	return p, toward, nil
}

// weakest returns the least resistance to movement along what the pulling legs
// leave free, and that movement; nil where there is none that tilts a body.
func (m *model) weakest(s state, tension []float64) (float64, []float64) {
	_, hessian := m.loaded(s)
	held := newDense(hessian.n)
	for i, t := range tension {
		if m.rigid[i] && t > 1e-9 {
			held.outer(1, m.row(s, i))
			m.addLink(hessian, s, i, t, 0)
		}
	}
	values, vectors := held.apart(1e-12).within(hessian)
	least, toward := math.Inf(1), []float64(nil)
	tol := 1e-9 * (1 + 1e-4*m.springs())
	for i, value := range values {
		if value < least && (math.Abs(value) > tol || m.tilts(s, vectors[i])) {
			least, toward = value, vectors[i]
		}
	}
	if toward == nil {
		return 0, nil
	}
	return least, toward
}

// tilts says that a movement raises some point of a body against its CG.
func (m *model) tilts(s state, step []float64) bool {
	for b, arms := range m.arms {
		omega := geom.Vec{step[6*b+3], step[6*b+4], step[6*b+5]}
		for _, arm := range arms {
			if math.Abs(omega.Cross(s.turn[b].Mul3x1(arm))[2]) > 1e-8 {
				return true
			}
		}
	}
	return false
}

// spins says that a load, a body that nothing hangs from, is free to turn about
// a line that is not plumb: its CG lies on the line of its picks. Of a bar that
// is no matter.
func (m *model) spins(s state) bool {
	bar := make([]bool, len(m.arms))
	for _, l := range m.links {
		if l.From.Body != OnHook {
			bar[l.From.Body] = true
		}
	}
	for b, idle := range m.idle {
		stop := s.turn[b].Mul3(idle).Mul3(s.turn[b].Transpose())
		if !bar[b] && stop.At(0, 0)+stop.At(1, 1) > 1e-12 {
			return true
		}
	}
	return false
}
