package lift

import (
	"errors"
	"fmt"
	"math"
	"slices"

	"plumbhook/geom"
	"plumbhook/rig"
	"plumbhook/takeoff"
	"plumbhook/units"
)

// barWorst is the worst of a rig with bars over all that is in doubt, the pose
// solved again in each case.
type barWorst struct {
	tension, vertical, flattest []float64 // by leg: N, N and rad while it pulls
	cases                       []string  // in which a leg has its most
	tilt                        float64   // rad, of the load
	bars                        []worstBar
	most, least                 float64 // m, hook over the highest point of the load
	stable                      bool
	unstable                    string // the first case in which it is not
	solved                      int
	open                        bool          // statics leaves sharing open in some case
	before                      *rig.TreePose // of the case before; nil: none that holds
}

// worstBar is the worst of one bar.
type worstBar struct {
	tilt                  float64 // rad
	pressed, across, bent float64 // N, N, N·m
	pressedCase, bentCase string
}

// barCase is one case of what is in doubt.
type barCase struct {
	cg     rig.Place
	weight float64
	errors []float64 // m, added to the lengths; nil: none
	name   string
}

func newBarWorst(b barRig) barWorst {
	n := len(b.links)
	w := barWorst{tension: make([]float64, n), vertical: make([]float64, n), flattest: make([]float64, n), cases: make([]string, n),
		bars: make([]worstBar, len(b.bars)), most: math.Inf(-1), least: math.Inf(1), stable: true}
	for i := range w.flattest {
		w.flattest[i] = math.Pi / 2
	}
	return w
}

// with returns the tree in a case.
func (b barRig) with(c barCase) rig.Tree {
	t := b.tree
	t.Bodies = append([]rig.Body{}, t.Bodies...)
	t.Bodies[0].CG, t.Bodies[0].Weight = c.cg.At, c.weight
	if c.errors != nil {
		t.Links = append([]rig.Link{}, t.Links...)
		for i := range t.Links {
			t.Links[i].Length += c.errors[i]
		}
	}
	return t
}

// rolled is the tilt in radians of load or bar from which on it has turned over.
const rolled = math.Pi / 4

// holds says that a pose is one that lasts, near to what is drawn.
func holds(p rig.TreePose) bool {
	if !p.Stable {
		return false
	}
	for _, b := range p.Bodies {
		if b.Tilt > rolled {
			return false
		}
	}
	return true
}

// leaned is the pose that a rig takes which is balanced as it is drawn but does not
// stay so: it leans until a loose leg takes hold, and lasts there. Others are left
// as they are.
func leaned(p rig.TreePose) (rig.TreePose, bool) {
	if !p.Stable && p.Rest != nil && holds(*p.Rest) {
		return *p.Rest, true
	}
	return p, false
}

// worstBars solves the rig with the CG at each corner of its region, at the
// sizing and at the least weight, then at those corners that were the worst for
// some figure with the legs long and short in the ways of lengthErrors.
func (p *plan) worstBars(b barRig, h *Header) (barWorst, error) {
	w := newBarWorst(b)
	places := append([]rig.Place{{At: p.cg, Name: "best CG"}}, p.raised(p.edges())...)
	if p.rise > 0 {
		places = append(places, rig.Place{At: p.weight.CGM.Add(plumb.Mul(p.rise)), Name: "best CG, free liquid at its worst level"})
	}
	at := make([]int, len(w.figures())) // the corner at which each figure is worst
	for i, place := range places {
		before := w.figures()
		c := barCase{place, float64(p.weight.sizing()), nil, place.Name + ", legs as stated, at the sizing weight"}
		if err := p.addCase(&w, b, c); err != nil {
			return w, err
		}
		w.worse(before, at, i)
		c.weight, c.name = float64(units.Mass(p.weight.Weight.LowKg).Weight()), place.Name+", legs as stated, at the least weight"
		if err := p.addCase(&w, b, c); err != nil {
			return w, err
		}
	}
	for _, e := range p.lengthErrors(b, w.open, h) {
		for i, place := range places {
			if i > 0 && !slices.Contains(at, i) {
				continue
			}
			c := barCase{place, float64(p.weight.sizing()), e.by, place.Name + ", " + e.name + ", at the sizing weight"}
			if err := p.addCase(&w, b, c); err != nil {
				return w, err
			}
		}
	}
	return w, nil
}

// figures are those that a corner of the CG's region can make worse.
func (w *barWorst) figures() []float64 {
	f := []float64{w.tilt, max(w.most, -1e9), max(-w.least, -1e9)} // no infinity, to compare
	for i := range w.tension {
		f = append(f, w.tension[i], -w.flattest[i])
	}
	for _, b := range w.bars {
		f = append(f, b.tilt, b.pressed, b.across, b.bent)
	}
	return f
}

// worse notes in at that corner i made a figure worse than it was before.
func (w *barWorst) worse(before []float64, at []int, i int) {
	for k, now := range w.figures() {
		if now > before[k]+1e-6*math.Abs(before[k]) {
			at[k] = i
		}
	}
}

// addCase solves one case and takes the worse of it. A case that can't hang, or
// finds no rest, does not hold.
func (p *plan) addCase(w *barWorst, b barRig, c barCase) error {
	tree := b.with(c)
	pose, err := tree.HangBeside(w.before)
	w.solved++
	var reach *rig.ReachError
	switch {
	case errors.As(err, &reach) || errors.Is(err, rig.ErrDisagree):
		if w.stable {
			w.stable, w.unstable = false, c.name+", where the legs do not reach or no rest is found,"
		}
		return nil
	case err != nil:
		return fmt.Errorf("%w: %s: %w", ErrProgram, c.name, err)
	}
	pose, _ = leaned(pose)
	if !holds(pose) && w.stable {
		w.stable, w.unstable = false, c.name
	}
	if w.before = nil; holds(pose) {
		w.before = &pose
	}
	most, open, err := tree.Greatest(pose)
	if err != nil {
		return err
	}
	w.open = w.open || open
	w.add(b, tree, pose, most, c.name)
	corners := p.weight.extent().Corners()
	rise := headroomOf(tree, pose, corners[:])
	w.most, w.least = max(w.most, rise), min(w.least, rise)
	return nil
}

// headroomOf is how far the hook is above the highest of the points.
func headroomOf(t rig.Tree, p rig.TreePose, points []geom.Vec) float64 {
	top := math.Inf(-1)
	for _, c := range points {
		top = max(top, p.Bodies[0].Place.Point(c)[2])
	}
	return t.Hook[2] - top
}

func (w *barWorst) add(b barRig, t rig.Tree, p rig.TreePose, most []float64, name string) {
	for i, n := range most {
		if n > w.tension[i]*(1+1e-9) {
			w.tension[i], w.cases[i] = n, name
		}
		w.vertical[i] = max(w.vertical[i], n*math.Sin(p.Links[i].FromHorizontal))
		if n > 1e-9*t.Weight() {
			w.flattest[i] = min(w.flattest[i], p.Links[i].FromHorizontal)
		}
	}
	w.tilt = max(w.tilt, p.Bodies[0].Tilt)
	for i, bar := range b.bars {
		one := &w.bars[i]
		one.tilt = max(one.tilt, p.Bodies[i+1].Tilt)
		pressed, bent := section(t, p, i+1, bar.axis)
		if pressed > one.pressed*(1+1e-9) {
			one.pressed, one.pressedCase = pressed, name
		}
		if bent > one.bent*(1+1e-9) {
			one.bent, one.bentCase = bent, name
		}
		if bar.Kind == takeoff.Frame {
			across, bentAcross := section(t, p, i+1, bar.across)
			one.across = max(one.across, across)
			if bentAcross > one.bent*(1+1e-9) {
				one.bent, one.bentCase = bentAcross, name
			}
		}
	}
}

// section returns the greatest pressure in N along a bar and the greatest
// bending in N·m.
func section(t rig.Tree, p rig.TreePose, body int, axis geom.Vec) (pressed, bent float64) {
	all, err := t.Along(p, body, axis)
	if err != nil {
		return 0, 0 // nothing takes hold away from its CG
	}
	for _, s := range all {
		pressed, bent = max(pressed, s.Compression), max(bent, s.Bending)
	}
	return pressed, bent
}
