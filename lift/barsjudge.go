package lift

import (
	"fmt"
	"math"

	"plumbhook/geom"
	"plumbhook/rig"
	"plumbhook/takeoff"
	"plumbhook/units"
)

// barStability says how well the load holds at its best: how far its CG could
// rise, or has to come down, by halving with the pose solved anew each time.
func (p *plan) barStability(b barRig, best rig.TreePose, f *Hanging) {
	holdsAt := func(rise float64) bool {
		c := p.best()
		c.cg.At = c.cg.At.Add(plumb.Mul(rise))
		pose, err := b.with(c).Hang()
		return err == nil && holds(pose)
	}
	height := b.tree.Hook[2] - p.cg[2]
	low, high := 0.0, max(height, 0)
	if !f.Stable {
		low, high = -max(1, math.Abs(height))-p.weight.extent().Diagonal(), 0
		if !holdsAt(low) {
			f.Stability.MarginM = low
			f.Stability.Text = "not stable: it would not hold with any lower CG either" + restsAt(best)
			return
		}
	}
	for high-low > 1e-6 {
		if middle := (low + high) / 2; holdsAt(middle) {
			low = middle
		} else {
			high = middle
		}
	}
	f.Stability.MarginM = low
	margin := units.Length(math.Abs(low)).Format(units.Both)
	if f.Stable {
		f.Stability.Text = fmt.Sprintf("stable: the CG of the load could rise %s before load or bars roll", margin)
		return
	}
	f.Stability.Text = fmt.Sprintf("not stable: the CG of the load is %s too high%s", margin, restsAt(best))
}

// restsAt says where an unstable rig ends up, if that is known.
func restsAt(p rig.TreePose) string {
	rest := &p
	if !p.Stable {
		rest = p.Rest
	}
	if rest == nil {
		return ""
	}
	return fmt.Sprintf("; the load rolls until it hangs %.0f° from level", degrees(rest.Bodies[0].Tilt))
}

// leastHook finds how high the hook must at least stand above the topmost bar
// for load and bars not to roll, at the highest CG and the sizing weight: the
// metacentric check of bars on drops, h₁·(W + W_bar) > a·W for plumb drops, with
// the pose solved for each height. A beam held at one point swings about that
// point, whatever the hook: there it is told by its own depth.
func (p *plan) leastHook(b barRig, best rig.TreePose, f *Hanging) {
	top := b.bars[0]
	p.holdLevel(b, f)
	if len(top.tops) < 2 || top.Top.Given() || !p.high() {
		return
	}
	c := p.best()
	c.weight = float64(p.weight.sizing())
	c.cg.At[2] += p.weight.CGRangeM.Max[2] - p.weight.CGM[2] + max(0, p.rise-p.freeRise())
	level := b.tree.Bodies[1].Points[top.tops[0]][2]
	holdsAt := func(height float64) bool {
		tree := b.with(c)
		tree.Links = append([]rig.Link{}, tree.Links...)
		tree.Hook[2] = level + height
		for i, l := range tree.Links {
			if l.From.Body == rig.OnHook {
				tree.Links[i].Length = tree.Hook.Sub(tree.Bodies[l.To.Body].Points[l.To.Point]).Len()
			}
		}
		pose, err := tree.Hang()
		return err == nil && holds(pose)
	}
	there := top.Hook
	low, high := there/20, 10*max(there, top.Length)
	if holdsAt(low) || !holdsAt(high) {
		return // there is far more than is needed, or another height would not help
	}
	for high-low > 1e-4 {
		if middle := (low + high) / 2; holdsAt(middle) {
			high = middle
		} else {
			low = middle
		}
	}
	f.Bars[0].LeastHookM, f.Bars[0].HookM = &high, &there
}

func (p *plan) freeRise() float64 {
	if p.free == nil {
		return 0
	}
	return p.free.RiseM
}

// holdLevel says where a lifting beam that is held at one point would have to be
// held for it to hang level: under all that hangs on it. Only for the topmost.
func (p *plan) holdLevel(b barRig, f *Hanging) {
	top := b.bars[0]
	if len(top.tops) != 1 {
		return
	}
	moment, weight := 0.0, 0.0
	for _, body := range b.with(p.best()).Bodies {
		moment += body.Weight * body.CG.Sub(f.Bars[0].AtM).Dot(top.axis)
		weight += body.Weight
	}
	at := moment / weight
	f.Bars[0].HoldAtM = &at
}

// judgeBars says what about load and bars is not acceptable, and warns of what
// an expert would frown at.
func (p *plan) judgeBars(b barRig, f *Hanging, worst barWorst, h *Header) {
	switch {
	case !f.Stable:
		h.refuse("unstable: %s", f.Stability.Text)
	case !worst.stable:
		h.refuse("unstable at worst over the ranges: with %s load or bars do not stay where they are", worst.unstable)
	}
	p.judgePlan(h)
	p.judgeBarAngles(f, h)
	p.judgeHeight(h)
	p.judgeOnLoad(h)
	p.judgeLimits(f, rig.Worst{MostHeadroom: worst.most, LeastHeadroom: worst.least}, h)
	p.judgeBarPlaces(b, f, h)
	p.judgeBarMargin(b, f, h)
	h.assume("the strength of the bars is not checked: the rating plate of each bar governs, in the way that it is held and loaded here")
	for _, bar := range f.Bars {
		if bar.HoldAtM != nil && len(p.load.Rigging.Bar.HeldAt) == 0 {
			h.assume("the %s is held at its middle, since the load file does not say where", bar.Name)
		}
	}
}

// judgeBarAngles holds all legs against the least angle.
func (p *plan) judgeBarAngles(f *Hanging, h *Header) {
	judge := func(name string, worst, flattest float64, slack bool) {
		if slack {
			h.warn("leg-slack", fmt.Sprintf("leg %s carries nothing as the load hangs at the best CG", name), "change its length, or leave it out")
		}
		if worst == 0 {
			return // it hangs loose in every case
		}
		if reason := p.limit.Judge(name, units.FromHorizontal(units.Radians(flattest))); reason != "" {
			h.refuse("%s (worst case)", reason)
		}
	}
	for _, leg := range f.UpperLegs {
		judge(leg.Name, leg.WorstTensionKN, leg.WorstFromHorizontalDeg, leg.Slack)
	}
	for _, leg := range f.Legs {
		judge(leg.Pick, leg.WorstTensionKN, leg.WorstFromHorizontalDeg, leg.Slack)
	}
}

// heavyBar is how many times the load a bar may weigh before its weight is asked
// about: common practice, no source.
const heavyBar = 5

// judgeBarPlaces looks at the bars: out of level, within the load, or of a weight that
// may be a slip.
func (p *plan) judgeBarPlaces(b barRig, f *Hanging, h *Header) {
	top := p.weight.extent().Max[2]
	for i, bar := range f.Bars {
		limit := greatestTilt
		if t := p.load.Rigging.Limits.Tilt; t != nil {
			limit = units.Degrees(*t)
		}
		if bar.TiltWorstDeg > limit+1e-9 && f.Stable {
			h.refuse("the %s tilts by %.1f° at worst, more than %.4g°", bar.Name, bar.TiltWorstDeg, limit)
		}
		if low := bar.AtM[2]; low < top-1e-9 {
			h.warn("bar-low", fmt.Sprintf("the lower points of the %s are %s below the top of the load", bar.Name, units.Length(top-low).Format(units.Both)),
				"see that bar, drops and load clear each other, or hang the bar higher; a bar is held against the load as the line through its lower points")
		}
		if kg, holds := float64(b.bars[i].Weight), float64(p.weight.sizing().Mass()); kg > heavyBar*holds {
			h.warn("bar-heavy", fmt.Sprintf("the %s weighs %s, %.0f times the load", bar.Name, units.Mass(kg).Format(units.Both), kg/holds), "look at the unit of its weight")
		}
		if b.bars[i].Kind == takeoff.LiftingBeam && b.bars[i].Depth == 0 {
			h.warn("beam-flat", fmt.Sprintf("the %s has no depth: its points are taken in one line", bar.Name), "give `depth`")
		}
	}
}

// judgeBarMargin refuses a load that a hair would roll, by a CG that is higher or
// to one side: see judgeMargins.
func (p *plan) judgeBarMargin(b barRig, f *Hanging, h *Header) {
	if !f.Stable {
		return // said already
	}
	size := p.weight.extent().Diagonal()
	least, fair := max(0.005, size/200), max(0.020, size/50)
	text := units.Length(f.Stability.MarginM).Format(units.Both)
	switch {
	case f.Stability.MarginM < least:
		h.refuse("as good as unstable: the CG need rise only %s for load or bars to roll, and no take-off is as sure as that", text)
	case f.Stability.MarginM < fair:
		h.warn("small-margin", fmt.Sprintf("the CG need rise only %s for load or bars to roll", text), "hang the bar further below the hook, or pick the load up higher")
	}
	if way := p.rollsToward(b, least); way != "" {
		h.refuse("as good as unstable: with the CG only %s out toward %s load or bars roll over, and no take-off is as sure as that", units.Length(least).Format(units.Both), way)
	} else if way := p.rollsToward(b, fair); way != "" {
		h.warn("small-margin", fmt.Sprintf("with the CG only %s out toward %s load or bars roll over", units.Length(fair).Format(units.Both), way), "spread picks and bars wider, or pick the load up higher")
	}
}

// rollsToward is the first of eight ways in plan in which a shift of the CG lets
// load or bars roll over; empty for none.
func (p *plan) rollsToward(b barRig, shift float64) string {
	for turn := range 8 {
		sin, cos := math.Sincos(float64(turn) * math.Pi / 4)
		c := p.best()
		c.cg.At = c.cg.At.Add(geom.Vec{cos, sin, 0}.Mul(shift))
		pose, err := b.with(c).Hang()
		if err == nil {
			pose, _ = leaned(pose)
		}
		if err != nil || !holds(pose) {
			return compass(geom.Vec{cos, sin, 0})
		}
	}
	return ""
}
