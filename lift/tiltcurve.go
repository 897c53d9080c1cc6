package lift

import (
	"fmt"
	"math"

	"github.com/go-gl/mathgl/mgl64"

	"plumbhook/geom"
	"plumbhook/rig"
	"plumbhook/units"
)

// TiltPoint is how the load hangs with its CG out level by so much.
type TiltPoint struct {
	OffM    float64 `json:"off_m"`
	TiltDeg float64 `json:"tilt_deg"`
}

// TiltCurve is the tilt against how far the CG is out along one of the load's
// axes, the legs as they are and the pose solved again at each point. It ends
// where the load would roll or no pose is found.
type TiltCurve struct {
	Along  string      `json:"along"` // x or y
	Points []TiltPoint `json:"points"`
}

// tiltSteps is the number of steps from the best CG to the greatest error shown, each
// way.
const tiltSteps = 8

// tiltCurves shows how far the load tilts for an error of its CG. None where the
// pose is not that of legs alone: on gear, in an attitude, with liquid that runs,
// or held by friction.
func (p *plan) tiltCurves(legs Hanging) []TiltCurve {
	if !legs.Solved || p.geared != nil || p.stance != nil || p.free != nil || p.grip != nil {
		return nil
	}
	var out []TiltCurve
	for axis, along := range []string{"x", "y"} {
		var way geom.Vec
		way[axis] = 1
		toward, away := p.tilts(way), p.tilts(way.Mul(-1))
		c := TiltCurve{Along: along}
		for i := len(away) - 1; i > 0; i-- {
			c.Points = append(c.Points, TiltPoint{-away[i].OffM, away[i].TiltDeg})
		}
		c.Points = append(c.Points, toward...)
		if len(c.Points) > 1 {
			out = append(out, c)
		}
	}
	return out
}

// tilts are the tilts from the best CG on, as far as the load holds.
func (p *plan) tilts(way geom.Vec) []TiltPoint {
	var out []TiltPoint
	for i := range tiltSteps + 1 {
		off := p.mostOff() * float64(i) / tiltSteps
		r := p.rig(p.weight.planning())
		r.CG = r.CG.Add(way.Mul(off))
		tilt, holds := tiltOfRig(r)
		if !holds {
			break
		}
		out = append(out, TiltPoint{off, tilt})
	}
	return out
}

func tiltOfRig(r rig.Rig) (deg float64, holds bool) {
	h, err := r.Hang()
	if err != nil || r.FoundAgain(h) != nil || !h.Stable || h.RollsOver {
		return 0, false
	}
	return degrees(h.Tilt()), true
}

// mostOff in m is the greatest error of the CG that is shown: twice what is in
// doubt, a fiftieth of the load's length at least; a round number.
func (p *plan) mostOff() float64 {
	var most float64
	size := p.weight.BoxM.Max.Sub(p.weight.BoxM.Min)
	for i := range 2 {
		most = max(most, p.weight.CGRangeM.Max[i]-p.weight.CGM[i], p.weight.CGM[i]-p.weight.CGRangeM.Min[i])
	}
	return drawingScale(max(2*most, max(size[0], size[1])/50, 0.001))
}

// tiltPlot draws the curves.
func tiltPlot(curves []TiltCurve, show units.Show) Drawing {
	per, unit := 0.001, "mm"
	if show == units.US {
		per, unit = float64(units.Inch), "in"
	}
	p := plot{title: "Tilt for an error of the CG", across: "CG out from its best place, " + unit, upward: "tilt, degrees"}
	for _, c := range curves {
		line := curve{name: "CG out along " + c.Along}
		for _, q := range c.Points {
			line.at = append(line.at, mgl64.Vec2{q.OffM / per, q.TiltDeg})
		}
		for _, end := range []TiltPoint{c.Points[0], c.Points[len(c.Points)-1]} {
			p.words += fmt.Sprintf("With the CG %s farther along %s the load hangs %.1f° out of level. ", units.Length(end.OffM).Format(show), c.Along, end.TiltDeg)
		}
		p.curves = append(p.curves, line)
	}
	if alike(curves) {
		p.curves = p.curves[:1]
		p.curves[0].name = "CG out along x or y"
	}
	return p.draw()
}

// alike says that the curves lie on one another as drawn.
func alike(curves []TiltCurve) bool {
	if len(curves) != 2 || len(curves[0].Points) != len(curves[1].Points) {
		return false
	}
	for i, q := range curves[0].Points {
		if other := curves[1].Points[i].TiltDeg; math.Abs(other-q.TiltDeg) > 0.01*max(q.TiltDeg, other) {
			return false
		}
	}
	return true
}
