package rig

import (
	"fmt"
	"math"
	"slices"

	"github.com/go-gl/mathgl/mgl64"

	"plumbhook/geom"
)

// AttitudeLengths returns the length in metres of each leg on which the load
// hangs with the load's direction up pointing up (stairs on their slope, a
// roof panel), and the hook, plumb over the CG in that attitude and hookHeight
// metres above the pick that is then highest. Level is up = z. Whether the load
// stays so is for Hang to say.
//
// Derived here: gravity puts the CG straight below the hook, so the hook is on
// the line through the CG along up, and each leg is the way from pick to hook.
func AttitudeLengths(picks []geom.Vec, cg, up geom.Vec, hookHeight float64) ([]float64, geom.Vec, error) {
	fail := func(msg, fix string) ([]float64, geom.Vec, error) {
		return nil, geom.Vec{}, &InputError{msg, fix}
	}
	along, ok := unit(up)
	switch {
	case !ok || !finite(along):
		return fail(fmt.Sprintf("%v is no direction", up), "give the load's direction that is to point up, such as 0, 0, 1 for level")
	case len(picks) == 0 || len(picks) > Most:
		return fail(fmt.Sprintf("%d legs to one hook", len(picks)), fmt.Sprintf("give 1 to %d", Most))
	case !finite(cg):
		return fail("the centre of gravity is not a number", "check the positions of the parts")
	case !(hookHeight >= 0) || math.IsInf(hookHeight, 0):
		return fail(fmt.Sprintf("hook %g m above the highest pick", hookHeight), "give a height of 0 m or more")
	}
	top := math.Inf(-1)
	for i, p := range picks {
		if !finite(p) {
			return fail(fmt.Sprintf("pick %d is not a place", i+1), "give three coordinates")
		}
		top = max(top, p.Sub(cg).Dot(along))
	}
	hook := cg.Add(along.Mul(top + hookHeight))
	lengths := LevelLengths(picks, hook)
	size := hook.Sub(cg).Len() + slices.Max(lengths)
	if top+hookHeight <= 1e-6*size {
		return fail(fmt.Sprintf("in that attitude the hook would be %.3f m below the centre of gravity", -top-hookHeight),
			"put the hook higher, or the picks higher up on the load")
	}
	for i, l := range lengths {
		if l <= 1e-9*size {
			return fail(fmt.Sprintf("pick %d is where the hook would be", i+1), "put the hook higher")
		}
	}
	return lengths, hook, nil
}

// turned returns the rig as drawn with the load's direction up pointing up,
// turned about the origin, and the turn back.
func (r Rig) turned(up geom.Vec) (Rig, mgl64.Quat) {
	turn := mgl64.QuatBetweenVectors(up, Up)
	t := r
	t.CG = turn.Rotate(r.CG)
	t.Picks = make([]geom.Vec, len(r.Picks))
	for i, p := range r.Picks {
		t.Picks[i] = turn.Rotate(p)
	}
	return t, turn.Conjugate()
}

// turned returns the pose in a frame turned by q.
func (p Pose) turned(q mgl64.Quat) Pose {
	p.Hook, p.Up = q.Rotate(p.Hook), q.Rotate(p.Up)
	pull := make([]geom.Vec, len(p.Pull))
	for i, u := range p.Pull {
		pull[i] = q.Rotate(u)
	}
	p.Pull = pull
	return p
}

// FitLimits is what a set of legs from stock must keep to. Zero values set no
// limit.
type FitLimits struct {
	LeastAngle   float64 // rad, of each leg that pulls from the horizontal, as the load hangs
	MostHeadroom float64 // m, of the hook over the highest point of Body, as the load hangs
	MostTilt     float64 // rad, from the attitude wanted

	Up   geom.Vec   // the load's direction that is to point up; zero: level, z
	Body []geom.Vec // points of the load; nil: its picks
}

// Fit is one set of legs made from stock, and how the load hangs on it.
type Fit struct {
	Legs     []Made  // what each leg is made of
	Pose     Pose    // as it hangs, solved, in the load's axes
	Tilt     float64 // rad, from the attitude wanted
	Loose    float64 // m, by how much the loosest leg is longer than the way to the hook
	Headroom float64 // m, of the hook over the highest point of the body

	// Score in radians, least first: Tilt + Loose/ρ with ρ from CG to hook, so
	// that a leg left hanging loose counts like the tilt that taking it up
	// would cost. A convention of this program. With up to three legs that all
	// pull it is the tilt.
	Score float64
}

// Best is how many fits FitStock returns at most.
const Best = 5

// solves is how many poses FitStock solves at most.
const solves = 6000

// FitStock returns the sets of legs from stock on which the load hangs nearest
// to the attitude wanted, best first. The rig's own lengths are not used.
// Every pose is solved as by Hang and must be stable, with the hook above all
// picks, and keep to the limits.
//
// want are the wanted lengths in metres, as from AttitudeLengths: of the
// lengths that stock can make for a leg the 200 nearest to it are tried. The
// height of the hook may come out different from what they were made for.
//
// Up to 6000 sets are all solved, and the answer is then the best there is. Of
// more, the 6000 are solved on which the legs, each by itself,
// most nearly agree how high the hook is over the CG, at a height that the
// limits allow give or take a twentieth; the best is then very likely among
// them, not certainly.
//
// Legs that stretch are solved so; the lengths are those unloaded. Stiffness is that
// of legs of the wanted lengths, and a leg of another length has the same EA.
//
// Errors: *InputError where the input makes no sense, or no set of legs keeps
// to the limits.
func (r Rig) FitStock(want []float64, s Stock, limits FitLimits) ([]Fit, error) {
	return r.fitStock(want, s, limits, solves)
}

func (r Rig) fitStock(want []float64, s Stock, limits FitLimits, most int) ([]Fit, error) {
	r.Lengths = want
	if err := r.Check(); err != nil {
		return nil, err
	}
	limits, err := limits.check()
	if err != nil {
		return nil, err
	}
	made, err := s.lengths()
	if err != nil {
		return nil, err
	}
	f := fitting{stock: s, limits: limits, want: want, choices: make([][]Made, len(want))}
	f.rig, f.back = r.turned(limits.Up)
	f.limits.Body = make([]geom.Vec, len(limits.Body))
	for i, p := range limits.Body {
		f.limits.Body[i] = f.back.Conjugate().Rotate(p)
	}
	if len(limits.Body) == 0 {
		f.limits.Body = f.rig.Picks
	}
	for i, w := range want {
		f.choices[i] = nearest(made, w)
	}
	for _, set := range f.candidates(most) {
		f.try(set)
	}
	if len(f.best) == 0 {
		return nil, &InputError{"no set of legs from this stock will do: " + f.refused(), "add to the stock, or widen the limits"}
	}
	for i := range f.best {
		f.best[i].Pose = f.best[i].Pose.turned(f.back)
	}
	return f.best, nil
}

// check returns the limits with what was left out filled in.
func (l FitLimits) check() (FitLimits, error) {
	if l.Up == (geom.Vec{}) {
		l.Up = Up
	}
	up, ok := unit(l.Up)
	switch {
	case !ok || !finite(up):
		return l, &InputError{fmt.Sprintf("%v is no direction", l.Up), "give the load's direction that is to point up, such as 0, 0, 1 for level"}
	case !(l.LeastAngle >= 0 && l.LeastAngle < math.Pi/2):
		return l, &InputError{fmt.Sprintf("least angle of a leg %g rad from the horizontal", l.LeastAngle), "give 0 to less than a right angle"}
	case !(l.MostHeadroom >= 0):
		return l, &InputError{fmt.Sprintf("headroom of %g m at most", l.MostHeadroom), "give metres above 0, or 0 for no limit"}
	case !(l.MostTilt >= 0):
		return l, &InputError{fmt.Sprintf("tilt of %g rad at most", l.MostTilt), "give an angle above 0, or 0 for no limit"}
	}
	for i, p := range l.Body {
		if !finite(p) {
			return l, &InputError{fmt.Sprintf("point %d of the body is not a place", i+1), "give three coordinates"}
		}
	}
	l.Up = up
	return l, nil
}
