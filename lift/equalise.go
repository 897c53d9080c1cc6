package lift

import (
	"errors"
	"fmt"
	"math"
	"slices"
	"strings"

	"plumbhook/rig"
	"plumbhook/units"
)

// GearWay is gear that would settle what four legs carry, where statics can't.
type GearWay struct {
	Way        string   `json:"way"` // reading or beam
	Picks      []string `json:"picks"`
	GreatestKN float64  `json:"greatest_kn"`          // tension in any leg, at the planning weight and the best CG
	ReadingKN  *float64 `json:"reading_kn,omitempty"` // what the load cell has to show
	Text       string   `json:"text"`
}

// gearWays tells by which gear the sharing of four legs would be settled: one leg
// set to a reading, or two neighbours made to pull alike. Nothing where the
// load file states a lower basis already.
func (p *plan) gearWays(r rig.Rig, best rig.Hang) []GearWay {
	ways := []GearWay{}
	if p.load.Rigging.Sharing != nil || !best.Indeterminate() || !best.Stable || best.RollsOver || len(p.picks) != 4 {
		return ways
	}
	if all := r.Settings(best.Pose); len(all) > 0 {
		ways = append(ways, p.readingWay(all[0]))
	}
	if r.Stiffness != nil {
		return ways // gear on legs that stretch is not solved
	}
	if way, ok := p.beamWay(r, best); ok {
		ways = append(ways, way)
	}
	return ways
}

// readingWay is a leg that is set to a reading.
func (p *plan) readingWay(s rig.Setting) GearWay {
	var move []string
	for j, per := range s.PerN {
		word := "more"
		if per < 0 {
			word = "less"
		}
		if j != s.Leg {
			move = append(move, fmt.Sprintf("%s %.2f %s", p.picks[j].Name, math.Abs(per), word))
		}
	}
	reading := s.Reading / 1000
	name := p.picks[s.Leg].Name
	return GearWay{"reading", []string{name}, slices.Max(s.Tension) / 1000, &reading, fmt.Sprintf(
		"a turnbuckle or chain hoist with a load cell in leg %s, set to %s with the load just off the ground: then no leg carries more than %s, at the planning weight and the best CG. All legs pull while it reads from %s to %s; for each kN that it reads more the others carry, in kN: %s. Legs are sized on any leg slack all the same",
		name, units.Force(s.Reading).Format(units.Both), units.Force(slices.Max(s.Tension)).FormatUp(units.Both),
		units.Force(s.Low).Format(units.Both), units.Force(s.High).Format(units.Both), strings.Join(move, ", "))}
}

// beamWay is the pair of neighbours that is best made to pull alike.
func (p *plan) beamWay(r rig.Rig, best rig.Hang) (GearWay, bool) {
	var way GearWay
	for _, pair := range best.Neighbours() {
		e, err := r.Equalise([][]int{pair}, best.Hook)
		if err != nil || slices.Min(e.Tension) <= 0 {
			continue
		}
		most := slices.Max(e.Tension)
		if way.Picks != nil && most/1000 > way.GreatestKN*(1-1e-9) {
			continue
		}
		a, b := p.picks[pair[0]].Name, p.picks[pair[1]].Name
		way = GearWay{"beam", []string{a, b}, most / 1000, nil, fmt.Sprintf(
			"a balance beam, or one line run through a block, between legs %s and %s, which makes them pull alike: %s each, and no leg carries more than %s; say so by `sharing: {equalised: [[%s, %s]], because: ...}`",
			a, b, units.Force(e.Tension[pair[0]]).Format(units.Both), units.Force(most).FormatUp(units.Both), a, b)}
	}
	return way, way.Picks != nil
}

// groups are the legs that the load file has pull alike, by number.
func (p *plan) groups() [][]int {
	var groups [][]int
	for _, names := range p.load.Rigging.Sharing.Equalised {
		var group []int
		for _, name := range names {
			group = append(group, slices.IndexFunc(p.picks, func(k Pick) bool { return k.Name == name }))
		}
		groups = append(groups, group)
	}
	return groups
}

// geared is what gear between legs makes of the pose.
type geared struct {
	fixed rig.Hang  // as it would hang if each leg kept its own length
	worst rig.Worst // with the gear
}

// withGear is the pose with the gear of the load file. Where the gear can't hold the
// load the pose without it stays, and the lift as described is refused.
func (p *plan) withGear(best rig.Hang, h *Header) rig.Hang {
	s := p.load.Rigging.Sharing
	switch {
	case s == nil || s.Equalised == nil:
		return best
	case p.elastic != nil:
		h.refuse("legs that are equalised and stretch too are not solved by this edition: state the one or the other")
		return best
	}
	now, err := p.rig(p.weight.planning()).Equalise(p.groups(), best.Hook)
	var worst rig.Worst
	if err == nil {
		worst, err = p.rig(p.weight.sizing()).WorstEqualised(p.doubt(), p.groups(), best.Hook)
	}
	if err != nil {
		h.refuse("%s can't be made to pull alike so: %s", p.gear(), p.whyNoGear(err))
		return best
	}
	h.assume("the gear between %s is taken to move freely: friction is not counted, nor its weight", p.gear())
	p.geared = &geared{best, worst}
	best.Pose, best.First = now.Pose, now.First
	return best
}

// shareEqualised takes the tensions that gear gives, for which the load file gives
// a reason.
func (p *plan) shareEqualised(f *Hanging) {
	fixed, worst := p.geared.fixed, p.geared.worst
	f.Sharing.Equalised, f.Sharing.Elastic, f.Sharing.AnyLegSlack = f.Sharing.Elastic, p.forces(fixed.Tension), p.forces(fixed.Greatest)
	for i := range f.Legs {
		leg := &f.Legs[i]
		leg.WorstTensionKN = worst.Tension[i] / 1000
		leg.WorstFromHorizontalDeg = min(leg.WorstFromHorizontalDeg, degrees(worst.FromHorizontal[i]))
	}
	f.TiltWorstDeg = max(f.TiltWorstDeg, degrees(worst.Tilt))
	f.Governing, f.GoverningCase = p.picks[worst.Leg].Name, p.caseName(worst.Case)
	f.CasesSolved += worst.Solved
	f.Influences, f.InfluenceOn = p.drawn.influences(nil), ""
	f.Basis = fmt.Sprintf("%s pull alike, so that statics settles all; below the governing basis (any leg slack), because the load file says: %s", p.gear(), p.load.Rigging.Sharing.Because)
}

// gear names the legs that are made to pull alike.
func (p *plan) gear() string {
	var words []string
	for _, names := range p.load.Rigging.Sharing.Equalised {
		words = append(words, strings.Join(names, " and "))
	}
	return "legs " + strings.Join(words, ", and ")
}

// whyNoGear tells why gear can't be.
func (p *plan) whyNoGear(err error) string {
	var push *rig.ErrPush
	var input *rig.InputError
	switch {
	case errors.As(err, &push):
		at, ok := strings.CutSuffix(err.Error(), ": "+push.Error())
		if !ok {
			at = "best CG, legs as stated"
		}
		return fmt.Sprintf("leg %s would have to push (%s)", p.picks[push.Legs[0]].Name, strings.TrimSuffix(p.caseName(at), ", at the sizing weight"))
	case errors.As(err, &input):
		return p.named(input.Error())
	}
	return p.named(err.Error())
}
