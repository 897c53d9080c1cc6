package lift

import (
	"fmt"
	"math"
	"strings"

	"plumbhook/geom"
	"plumbhook/rig"
	"plumbhook/units"
)

// outOfLevel is the tilt in degrees above which ways to hang the load level are
// told: what a man beside it sees. Common practice, no source.
const outOfLevel = 0.5

// LevelWay is one way to hang the load level, or nearer to it, and what it comes
// to, each solved again.
type LevelWay struct {
	Way     string  `json:"way"` // lengths, counterweight or lug
	Text    string  `json:"text"`
	TiltDeg float64 `json:"tilt_deg"` // that is left
}

// levelWays tells how a load that hangs out of level could be made to hang level:
// by other lengths of its legs, by a counterweight on a corner of its box, by
// moving one lug. Nothing is told of a load that is only tried, hangs level, does not hold, or
// has liquid that runs.
func (p *plan) levelWays(r rig.Rig, best rig.Hang) []LevelWay {
	ways := []LevelWay{}
	if p.tried || degrees(best.Tilt()) <= outOfLevel || !best.Stable || best.RollsOver || p.free != nil {
		return ways
	}
	if s, err := r.HookShift(); err == nil {
		var legs []string
		lengths, _ := p.unloaded(s.Lengths)
		for i, l := range lengths {
			legs = append(legs, p.picks[i].Name+" "+units.Length(l).Format(units.Both))
		}
		ways = append(ways, LevelWay{"lengths", fmt.Sprintf("legs of other lengths: %s; that moves the hook %s toward %s",
			strings.Join(legs, ", "), units.Length(s.Shift.Len()).Format(units.Both), p.toward(s.Shift)), degrees(s.After)})
	}
	if i, c, err := r.BestCounterweight(p.corners()); err == nil && c.By > 0 {
		at := p.stance.own(p.corners()[i])
		ways = append(ways, LevelWay{"counterweight", fmt.Sprintf("a counterweight of %s at x %s, y %s, z %s: it is on the hook too",
			units.Mass(c.By/float64(units.Mass(1).Weight())).Format(units.Both), units.Length(at[0]).Format(units.Both), units.Length(at[1]).Format(units.Both), units.Length(at[2]).Format(units.Both)), degrees(c.After)})
	}
	if way, ok := p.lugWay(r, best); ok {
		ways = append(ways, way)
	}
	for i, way := range ways {
		if most := p.load.Rigging.Limits.Tilt; most != nil && way.TiltDeg > units.Degrees(*most)+1e-9 {
			ways[i].Text += "; that is over the limit on the tilt"
		}
	}
	return ways
}

// corners are the upper corners of the load's box.
func (p *plan) corners() []geom.Vec {
	box := p.weight.extent()
	var top []geom.Vec
	for _, c := range box.Corners() {
		if c[2] == box.Max[2] {
			top = append(top, c)
		}
	}
	return top
}

// lugWay is the lug that serves best when it alone is moved, along x or y.
func (p *plan) lugWay(r rig.Rig, best rig.Hang) (LevelWay, bool) {
	found, name, along := rig.Correction{After: math.Inf(1)}, "", ""
	for i, pick := range p.picks {
		for axis, word := range []string{"x", "y"} {
			var way geom.Vec
			way[axis] = 1
			c, err := r.MoveLug(i, p.stance.stand(way))
			if err == nil && (c.After < found.After-1e-9 || c.After <= rig.Level && math.Abs(c.By) < math.Abs(found.By)) {
				found, name, along = c, pick.Name, word
			}
		}
	}
	if name == "" || found.After >= best.Tilt() {
		return LevelWay{}, false
	}
	sign := "+"
	if found.By < 0 {
		sign = "−"
	}
	return LevelWay{"lug", fmt.Sprintf("lug %s moved %s toward %s%s, the legs as they are", name, units.Length(math.Abs(found.By)).Format(units.Both), sign, along), degrees(found.After)}, true
}
