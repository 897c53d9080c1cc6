package rig

import (
	"errors"
	"fmt"
	"math"

	"plumbhook/geom"
)

// SideForce is a level push or pull on the load, such as of wind or of a tag
// line.
type SideForce struct {
	At    geom.Vec // m, where it acts on the load
	Force geom.Vec // N, in the plan of the load as drawn; it stays level as the load tilts
}

// SideHang is how the load hangs while side forces act on it. The load is held
// from turning about the plumb line, as tag lines hold it; Couple is what that
// takes. Hook, legs and load lean out as one under the point that the hoist
// line comes from. Up is up as it is, not along the hoist line.
type SideHang struct {
	Pose
	Forces []geom.Vec // N, the side forces as they act on the hung load, in its own axes
	Side   geom.Vec   // N, their sum
	Lean   float64    // rad, of the hoist line out of plumb
	CGOut  float64    // m, how far the CG hangs to the lee of the hook
	Couple float64    // N·m, of the side forces about the plumb line through the hook, right-handed about up
	Stable bool
}

// mostSide is the greatest sum of side forces, as a part of the weight, that is
// solved for: the hoist line is then out of plumb by 27°, and no lift is made so.
const mostSide = 0.5

// sideTurns is how many times pose and side forces are found in turn.
const sideTurns = 200

// atRest in rad is how far the last of them may still turn the load: a soft way to
// turn, as that of a pipe in its bights, keeps the digits that the pose is solved to
// from dying out. The sums are taken anew all the same.
const atRest = 1e-10

// ErrRollsAside: with the side force the load does not stay near the attitude drawn.
var ErrRollsAside = errors.New("with the side force the load rolls over")

// HangAside is Hang with side forces.
//
// Of the weight W at c and level forces Fⱼ at aⱼ, with g the unit vector down,
// the moments about the level axes through the hook h vanish where
//
//	W·(h − c) = −Σ (aⱼ − c)·g Fⱼ + (h − c)·g ΣFⱼ   (the level parts of both sides)
//
// which is a line along W·g + ΣFⱼ through the point e = c − Σ ((aⱼ − c)·g) Fⱼ/W. So
// the load hangs as one of weight |W·g + ΣFⱼ| with its CG at e, plumb along that
// resultant. As e and the level plane depend on the pose they are found in turn.
// What moments are left are about the plumb line: Couple. Derived here.
//
// Stability: against a turn across the forces W works at its own depth below the
// hook; against one along them a force that acts to windward of the hook takes
// ΣF·(aⱼ − h)/W off that depth; and a force beside the hook couples the two turns by no
// more than Couple/W. All of it is taken off the margin.
//
// Errors: those of Hang, ErrRollsAside, and *InputError for forces beyond half the
// weight.
func (r Rig) HangAside(sides []SideForce) (SideHang, error) {
	still, err := r.Hang()
	if err != nil {
		return SideHang{}, err
	}
	return r.asideFrom(still, sides)
}

// asideFrom is HangAside for a rig that is solved without side forces.
func (r Rig) asideFrom(still Hang, sides []SideForce) (SideHang, error) {
	down := still.Up.Mul(-1)
	_, sum := swung(sides, down)
	if push := sum.Len(); !(push <= mostSide*r.Weight) {
		return SideHang{}, &InputError{fmt.Sprintf("a side force of %.4g N on a load of %.4g N", push, r.Weight), "wind and tag lines may be up to half the weight here; no lift is made in more"}
	}
	at, before, last := r, still, 0.0
	for range sideTurns {
		forces, sum := swung(sides, down)
		at.Weight, at.CG = math.Hypot(r.Weight, sum.Len()), r.CG
		for j, f := range forces {
			at.CG = at.CG.Sub(f.Mul(sides[j].At.Sub(r.CG).Dot(down) / r.Weight))
		}
		hung, err := at.hangBeside(&before)
		if err != nil {
			return SideHang{}, err
		}
		turned, ok := downOf(hung.Up.Mul(-at.Weight), sides, down)
		if !ok || hung.RollsOver {
			return SideHang{}, ErrRollsAside
		}
		last = turned.Sub(down).Len()
		settled := last <= 1e-13
		before, down = hung, turned
		if settled {
			s := r.aside(hung, sides, down)
			return s, r.sumsUpAside(s, sides)
		}
	}
	if last <= atRest {
		s := r.aside(before, sides, down)
		return s, r.sumsUpAside(s, sides)
	}
	return SideHang{}, fmt.Errorf("%w: with a side force", ErrDisagree)
}

// aside describes the pose that was found.
func (r Rig) aside(hung Hang, sides []SideForce, down geom.Vec) SideHang {
	s := SideHang{Pose: hung.Pose}
	s.Up = down.Mul(-1)
	s.Forces, s.Side = swung(sides, down)
	s.Lean = math.Atan2(s.Side.Len(), r.Weight)
	windward := 0.0
	for j, f := range s.Forces {
		arm := sides[j].At.Sub(hung.Hook)
		s.Couple += arm.Cross(f).Dot(s.Up)
		windward += arm.Dot(f) / r.Weight
	}
	if lee, ok := unit(s.Side); ok {
		s.CGOut = r.CG.Sub(hung.Hook).Dot(lee)
	}
	margin := hung.Margin + min(0, windward) - math.Abs(s.Couple)/r.Weight
	s.Stable = hung.Stable && !hung.RollsOver && margin > 1e-9*r.size()
	return s
}

// sumsUpAside sums the forces, and the moments about the CG, on a load with side
// forces anew: what is left may only be the couple about the plumb line.
func (r Rig) sumsUpAside(s SideHang, sides []SideForce) error {
	force, moment := s.Side.Sub(s.Up.Mul(r.Weight)), s.Up.Mul(-s.Couple)
	for j, f := range s.Forces {
		moment = moment.Add(sides[j].At.Sub(r.CG).Cross(f))
	}
	for i, pick := range r.Picks {
		if s.Tension[i] == 0 {
			continue
		}
		line := s.Hook.Sub(pick)
		pull := line.Mul(s.Tension[i] / line.Len())
		force, moment = force.Add(pull), moment.Add(pick.Sub(r.CG).Cross(pull))
	}
	if !(force.Len() <= 1e-8*r.Weight) || !(moment.Len() <= 1e-8*r.Weight*r.size()) {
		return fmt.Errorf("%w: with a side force %g N and %g N·m are left over", ErrDisagree, force.Len(), moment.Len())
	}
	return nil
}

// swung returns the side forces with the load tilted so that down is down: each
// goes with the level plane, by the shortest turn from the attitude drawn.
func swung(sides []SideForce, down geom.Vec) ([]geom.Vec, geom.Vec) {
	out := make([]geom.Vec, len(sides))
	var sum geom.Vec
	half := down.Sub(Up) // drawn down + down
	for j, s := range sides {
		f := geom.Vec{s.Force[0], s.Force[1], 0}
		out[j] = f.Sub(half.Mul(f.Dot(down) / (1 - down.Dot(Up))))
		sum = sum.Add(out[j])
	}
	return out, sum
}

// downOf returns down of a load on which weight and side forces come to a
// resultant: the resultant without the forces, which are level to it. It returns
// false where the load is turned further than is called tilting.
func downOf(resultant geom.Vec, sides []SideForce, down geom.Vec) (geom.Vec, bool) {
	for range sideTurns {
		_, sum := swung(sides, down)
		next, ok := unit(resultant.Sub(sum))
		if !ok || next.Dot(Up) > -math.Cos(rollover) {
			return down, false
		}
		if next.Sub(down).Len() <= 1e-15 {
			return next, true
		}
		down = next
	}
	return down, true // to rounding
}
