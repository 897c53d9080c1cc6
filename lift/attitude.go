package lift

import (
	"fmt"
	"math"
	"strings"

	"github.com/go-gl/mathgl/mgl64"

	"plumbhook/geom"
	"plumbhook/takeoff"
	"plumbhook/units"
)

// Attitude is how the load is to hang where that is not as drawn.
type Attitude struct {
	Up   geom.Vec `json:"up"`       // the load's direction that is to point up
	Deg  float64  `json:"from_deg"` // from the attitude drawn
	Text string   `json:"text"`
}

// stance turns the load from its own axes into those in which the attitude that
// is wanted is the level one. The statics and all that is judged by plan and
// height works in them; what is printed is turned back. nil: as drawn.
type stance struct {
	to, back mgl64.Mat3
	wanted   Attitude
}

// newStance is nil for a load that is to hang as drawn.
func newStance(l *takeoff.Load) *stance {
	up := l.Rigging.Legs.Up
	if up == nil {
		return nil
	}
	turn := mgl64.QuatBetweenVectors(*up, plumb).Normalize().Mat4().Mat3()
	deg := degrees(math.Atan2(up.Cross(plumb).Len(), up.Dot(plumb)))
	return &stance{turn, turn.Transpose(), Attitude{*up, deg, fmt.Sprintf("turned %.4g° from how it is drawn, the load's %s pointing up", deg, axesOf(*up))}}
}

// stand turns a place or direction of the load's axes into those of the statics.
func (s *stance) stand(v geom.Vec) geom.Vec {
	if s == nil {
		return v
	}
	return s.to.Mul3x1(v)
}

// standAll turns several.
func (s *stance) standAll(all []geom.Vec) []geom.Vec {
	var out []geom.Vec
	for _, v := range all {
		out = append(out, s.stand(v))
	}
	return out
}

// own turns a place or direction back into the load's own axes.
func (s *stance) own(v geom.Vec) geom.Vec {
	if s == nil {
		return v
	}
	return s.back.Mul3x1(v)
}

// ownAll turns places back into the load's own axes.
func (s *stance) ownAll(places []geom.Vec) []geom.Vec {
	var out []geom.Vec
	for _, v := range places {
		out = append(out, s.own(v))
	}
	return out
}

// picks are picks as they stand.
func (s *stance) picks(picks []Pick) []Pick {
	if s == nil {
		return picks
	}
	var turned []Pick
	for _, p := range picks {
		turned = append(turned, Pick{p.Name, s.stand(p.AtM)})
	}
	return turned
}

// weight is the load as it stands: its CG, the box that its CG can be in and the
// box of its parts.
func (s *stance) weight(l *takeoff.Load, w Weight) Weight {
	if s == nil {
		return w
	}
	w.CGM, w.weighedOff = s.stand(w.CGM), s.stand(w.weighedOff)
	for i := range 3 {
		var axis geom.Vec
		axis[i] = 1
		w.CGRangeM.Max[i] = w.takeoff.CGReach(s.own(axis))
		w.CGRangeM.Min[i] = -w.takeoff.CGReach(s.own(axis.Mul(-1)))
	}
	w.BoxM = Box(l.ExtentTurned(s.to))
	return w
}

// canStand refuses what is not reckoned in an attitude of its own: liquid would
// lie another way in it, and the load does not lie so on the ground.
func (s *stance) canStand(l *takeoff.Load) error {
	if s == nil {
		return nil
	}
	for _, p := range l.Parts {
		if p.Liquid != nil {
			return bad(l, p.Line, fmt.Sprintf("%s would lie another way in the attitude that is wanted, and that is not reckoned by this edition", p.Name),
				"drain it, give it as a `weight` at its place in that attitude, or take `attitude` away")
		}
	}
	if o := l.Rigging.LiftOff; o != nil {
		return bad(l, o.Line, "`lift-off` beside an `attitude`: the ground holds the load as it lies, and how it comes up into the attitude is not reckoned",
			"take `lift-off` away, and look at the lift-off in a load file of its own, without `attitude`, the load drawn as it lies")
	}
	return nil
}

// toward names a direction of the statics by the load's own axes: in plan for a
// load that hangs as drawn.
func (p *plan) toward(v geom.Vec) string {
	if p.stance == nil {
		return compass(v)
	}
	return axesOf(p.stance.own(v))
}

// axesOf names a direction by the axes that it goes along.
func axesOf(v geom.Vec) string {
	length := v.Len()
	var words []string
	for i, axis := range []string{"x", "y", "z"} {
		switch part := v[i] / max(length, 1e-300); {
		case part > 0.995:
			return "+" + axis
		case part < -0.995:
			return "−" + axis
		case part > 0.05:
			words = append(words, fmt.Sprintf("+%.2f %s", part, axis))
		case part < -0.05:
			words = append(words, fmt.Sprintf("−%.2f %s", -part, axis))
		}
	}
	return strings.Join(words, ", ")
}

// cornerOf says in words where the CG is taken; off in the load's own axes.
func (p *plan) cornerOf(at geom.Vec) string {
	off := at.Sub(p.drawn.CGM)
	if p.stance == nil {
		return cornerName(at, p.drawn.CGM)
	}
	return "CG " + units.Length(off.Len()).Format(units.Metric) + " out toward " + axesOf(off)
}

// level says what the tilt of the load counts from.
func (p *plan) level() string {
	if p.stance == nil {
		return "level"
	}
	return "the attitude wanted"
}

// asWanted is level, or as is wanted, of a load that hangs.
func (p *plan) asWanted() string {
	if p.stance == nil {
		return "level"
	}
	return "in " + p.level()
}
