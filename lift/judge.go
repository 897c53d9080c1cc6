package lift

import (
	"fmt"
	"math"
	"strings"

	"plumbhook/geom"
	"plumbhook/rig"
	"plumbhook/units"
)

// stability fills in how well the pose holds at the best CG, and says it in
// words.
func (p *plan) stability(f *Hanging, best, after rig.Hang, follows bool) {
	s := Stability{MarginM: best.Margin}
	if first := best.First; first.Leg >= 0 && !math.IsInf(first.Shift, 1) {
		toward := p.stance.own(first.Toward)
		s.FirstSlackShiftM, s.FirstSlackPick, s.Toward = &first.Shift, p.picks[first.Leg].Name, &toward
	}
	if best.Toward != (geom.Vec{}) && !best.Stable {
		toward := p.stance.own(best.Toward)
		s.Toward = &toward
	}
	s.Text = p.stabilityText(best, s)
	if follows && best.Stable && p.geared == nil {
		tilt := degrees(after.Tilt())
		s.AfterSlackTiltDeg = &tilt
		switch {
		case after.RollsOver || !after.Stable:
			s.Text += ", and past that the load rolls over"
		default:
			s.Text += fmt.Sprintf("; just past that it still hangs, %.1f° out of %s", tilt, p.level())
		}
	}
	f.Stability = s
}

func (p *plan) stabilityText(best rig.Hang, s Stability) string {
	margin := units.Length(math.Abs(best.Margin)).Format(units.Both)
	switch {
	case p.free != nil && p.free.swings:
		return fmt.Sprintf("not stable: liquid that runs along the load acts as if the CG were %s higher, no lower than the hook: the load swings over",
			units.Length(p.free.along).Format(units.Both))
	case best.RollsOver && best.Rest != nil && best.Margin < 0:
		return fmt.Sprintf("not stable: the CG is %s too high; the load rolls until it hangs %.0f° from level", margin, degrees(best.Rest.Tilt()))
	case best.RollsOver:
		return fmt.Sprintf("not stable as drawn: the load rolls over and comes to rest %.0f° from level", degrees(best.Tilt()))
	case best.Neutral:
		return "neutral: the CG is level with the line of the picks, so the load stays however it is turned; count it as not stable"
	case !best.Stable:
		return fmt.Sprintf("not stable: the CG is %s too high", margin)
	case s.FirstSlackShiftM == nil:
		return "stable: " + p.room(best.Margin)
	}
	text := "stable: "
	if best.Toward != (geom.Vec{}) { // free to swing or roll about the legs
		text += p.room(best.Margin) + "; "
	}
	return text + fmt.Sprintf("leg %s goes slack if the CG is %s out toward %s",
		s.FirstSlackPick, units.Length(*s.FirstSlackShiftM).Format(units.Both), p.toward(best.First.Toward))
}

// compass names a direction by the axes of the load that it goes along, in
// plan: +x, −y, or +x and +y.
func compass(v geom.Vec) string {
	most := math.Max(math.Abs(v[0]), math.Abs(v[1]))
	var words string
	for i, axis := range []string{"x", "y"} {
		if math.Abs(v[i]) < 0.25*most || most == 0 {
			continue
		}
		sign := "+"
		if v[i] < 0 {
			sign = "−"
		}
		if words != "" {
			words += " and "
		}
		words += sign + axis
	}
	return words
}

// judge says what about the hung pose is not acceptable, and warns of what an
// expert would frown at.
func (p *plan) judge(f *Hanging, best rig.Hang, worst rig.Worst, h *Header) {
	switch {
	case !f.Stable:
		h.refuse("unstable: %s", f.Stability.Text)
	case !worst.Stable && worst.Unstable != "":
		h.refuse("unstable at worst over the ranges: with %s the load does not stay where it is", p.caseName(worst.Unstable))
	}
	p.judgePlan(h)
	for _, leg := range f.Legs {
		if leg.WorstTensionKN == 0 {
			continue // it hangs loose in every case
		}
		if reason := p.limit.Judge(leg.Pick, units.FromHorizontal(units.Radians(leg.WorstFromHorizontalDeg))); reason != "" {
			h.refuse("%s (worst case%s)", reason, f.aside())
		}
	}
	for _, leg := range f.Legs {
		if leg.Slack {
			h.warn("leg-slack", fmt.Sprintf("leg %s carries nothing as the load hangs at the best CG", leg.Pick), "change its length, or leave it out")
		}
	}
	p.judgeHeight(h)
	p.judgeOnLoad(h)
	p.judgeLimits(f, worst, h)
	if best.Leaned {
		h.warn("leans", "the load is balanced as drawn but does not stay so: it leans over until a loose leg takes hold", "lengthen or shorten the legs so that all are taut")
	}
	if len(p.picks) == 1 {
		h.warn("one-leg", "a load on one leg turns freely about it", "use a tag line, or more legs")
	}
}

// judgeHeight warns of a CG above any pick, wherever in its range it may be.
func (p *plan) judgeHeight(h *Header) {
	high := p.weight.CGRangeM.Max[2]
	var above []string
	most := 0.0
	for _, pick := range p.picks {
		if high > pick.AtM[2]+1e-9 {
			above = append(above, pick.Name)
			most = max(most, high-pick.AtM[2])
		}
	}
	if len(above) > 0 {
		h.warn("cg-above-pick", fmt.Sprintf("the CG may be up to %s above pick %s: a load picked up below its CG can roll over",
			units.Length(most).Format(units.Both), strings.Join(above, ", ")), "pick it up higher, or look hard at the stability figures")
	}
}

// judgeOnLoad looks for picks that are not on the load at all, as a slip of the
// unit makes them. A load of bare weights has no size to be on.
func (p *plan) judgeOnLoad(h *Header) {
	box := p.weight.extent()
	size := box.Diagonal()
	for _, pick := range p.picks {
		var off geom.Vec
		for i := range off {
			off[i] = max(0, box.Min[i]-pick.AtM[i], pick.AtM[i]-box.Max[i])
		}
		away := units.Length(off.Len()).Format(units.Both)
		switch {
		case size < 1e-6 || off.Len() <= max(0.05, size/20):
		case off.Len() > size:
			h.refuse("pick %s is %s from the load, further than the load is long: look at its units", pick.Name, away)
		default:
			h.warn("pick-off-load", fmt.Sprintf("pick %s is %s outside the box of the load's parts", pick.Name, away), "look at its place, or add the lug to the take-off")
		}
	}
}

// judgeLimits holds the pose against the limits of the load file.
func (p *plan) judgeLimits(f *Hanging, worst rig.Worst, h *Header) {
	limits := p.load.Rigging.Limits
	switch t := limits.Tilt; {
	case t != nil && f.TiltWorstDeg > units.Degrees(*t)+1e-9:
		h.refuse("tilt of %.2f° at worst%s, more than the limit of %.4g°", f.TiltWorstDeg, f.aside(), units.Degrees(*t))
	case t == nil && f.TiltWorstDeg > greatestTilt && f.Stable:
		h.refuse("tilt of %.1f° at worst%s: no limit is stated, and more than %g° is not taken as meant (state `limits: {tilt: ...}` if it is)", f.TiltWorstDeg, f.aside(), greatestTilt)
	case t == nil && f.TiltWorstDeg > usualTilt:
		h.warn("tilt", fmt.Sprintf("the load hangs up to %.1f° out of %s%s", f.TiltWorstDeg, p.level(), f.aside()),
			"cut the legs for level, or state a limit on the tilt (0027/ND Rev 11, 5.3.2: rigging is normally set for 2° or less)")
	}
	if worst.LeastHeadroom <= 0 {
		h.refuse("the hook would be %s below the top of the load: use longer legs", units.Length(-worst.LeastHeadroom).Format(units.Both))
	}
	if room := limits.Headroom; room != nil && worst.MostHeadroom > *room+1e-9 {
		h.refuse("headroom of %s from the top of the load to the hook, at worst, is more than the %s there is: use shorter legs or a bar",
			units.Length(worst.MostHeadroom).Format(units.Both), units.Length(*room).Format(units.Both))
	}
	p.judgeReach(h)
	if crane := p.crane(); crane != nil {
		what, rest, bars := "load and "+beside(crane), "rigging", barsKg(p.load)
		if bars > 0 {
			what, rest = "load, bars and "+beside(crane), "slings"
		}
		if total := p.weight.Weight.SizingKg + bars + float64(crane.Beside()); total > float64(crane.Capacity) {
			h.refuse("over capacity: %s weigh %s before any %s, the crane lifts %s there",
				what, units.Mass(total).FormatUp(units.Both), rest, crane.Capacity.FormatDown(units.Both))
		}
	}
}

// greatestTilt in degrees is the most that a load may hang out of level where
// the load file states no limit; usualTilt is the most that passes without a
// word. Conventions of this program, the second after 0027/ND Rev 11, 5.3.2.
const (
	greatestTilt = 10.0
	usualTilt    = 2.0
)

// judgeMargins refuses a load that a hair would roll, and warns of one that a
// little would: least and fair are floors on how far the CG may be out, since
// no drawing gives it to the millimetre. Conventions of this program.
func (p *plan) judgeMargins(best rig.Hang, rolls bool, h *Header) {
	size := p.weight.extent().Diagonal()
	least, fair := max(0.005, size/200), max(0.020, size/50)
	if !best.Stable || best.RollsOver {
		return // said already
	}
	if best.Toward != (geom.Vec{}) && p.grip == nil {
		switch text := units.Length(best.Margin).Format(units.Both); {
		case best.Margin < least:
			h.refuse("as good as unstable: the CG need rise only %s for the load to roll, and no take-off is as sure as that", text)
		case best.Margin < fair:
			h.warn("small-margin", fmt.Sprintf("the CG need rise only %s for the load to roll", text), "pick the load up higher")
		}
	}
	if shift := best.First.Shift; rolls {
		switch text := units.Length(shift).Format(units.Both); {
		case shift < least:
			h.refuse("as good as unstable: with the CG only %s out a leg goes slack and the load rolls over, and no take-off is as sure as that", text)
		case shift < fair:
			h.warn("small-margin", fmt.Sprintf("with the CG only %s out a leg goes slack and the load rolls over", text), "spread the picks wider, or pick the load up higher")
		}
	}
}
