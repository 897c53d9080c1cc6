package report

import (
	"math"
	"strings"

	"plumbhook/lift"
	"plumbhook/units"
)

// bars prints the bars of the rigging and the legs that hold them.
func (p *page) bars(h lift.Hanging) {
	if len(h.Bars) == 0 {
		return
	}
	p.gap()
	p.legTable("Leg above the bars", upper(h.UpperLegs))
	p.gap()
	p.field("Governs", "leg "+h.UpperGoverning+": "+h.UpperCase)
	for _, b := range h.Bars {
		p.gap()
		p.bar(b)
	}
	p.gap()
	p.hang("  ", "Bars: not checked are the strength of the bars, and whether bars and drops clear the load. The rating plate of each bar governs, in the way that it is held and loaded here. What is pressed and bent is at the sizing weight, over all that is in doubt, without a dynamic factor.")
}

// upper are the legs above the bars as the table of legs takes them.
func upper(legs []lift.UpperLeg) []lift.Leg {
	var out []lift.Leg
	for _, l := range legs {
		name := strings.Replace(l.Name, "–", "– ", 1) // a place to break the line at
		out = append(out, lift.Leg{Pick: name, LengthM: l.LengthM, FromHorizontalDeg: l.FromHorizontalDeg, FromVerticalDeg: l.FromVerticalDeg,
			WorstFromHorizontalDeg: l.WorstFromHorizontalDeg, TensionKN: l.TensionKN, WorstTensionKN: l.WorstTensionKN, Slack: l.Slack})
	}
	return out
}

// bar prints one bar.
func (p *page) bar(b lift.HungBar) {
	var ends []string
	for _, e := range b.Ends {
		ends = append(ends, strings.Join(e.Holds, ", "))
	}
	kind := ""
	if b.Name != b.Kind {
		kind = b.Kind + ", "
	}
	p.hang("  ", title(b.Name)+": "+kind+p.mass(b.WeightKg)+"; its ends hold "+strings.Join(ends, " | "))
	p.field("  at", "middle of its lower points as drawn: "+p.place(b.AtM)+"; along "+direction(b.Along))
	p.field("  tilt", turn(b.TiltDeg)+" at the best CG, "+turn(tenthUp(b.TiltWorstDeg))+" at worst")
	whole := ""
	if b.Kind == "frame" {
		whole = " (of all its members together: statics does not tell what each takes)"
	}
	switch {
	case b.AcrossKN > 0:
		p.field("  pressed", "at worst "+p.forceUp(b.CompressionKN)+" along and "+p.forceUp(b.AcrossKN)+" across"+whole)
	case b.CompressionKN > 0:
		p.field("  pressed", "along it, at worst "+p.forceUp(b.CompressionKN)+": "+b.CompressionCase)
	}
	if b.MomentKNM > 0 {
		p.field("  bent", "at worst "+p.moment(b.MomentKNM)+", its own weight in"+whole+": "+b.MomentCase)
	}
	if b.LeastHookM != nil && b.HookM != nil {
		p.field("  hook", p.length(*b.HookM)+" above it; below "+p.length(*b.LeastHookM)+" load or bars would roll, with the CG at its highest")
	}
	if b.HoldAtM != nil {
		p.field("  level", p.holdAt(*b.HoldAtM, b))
	}
}

// holdAt says where a lifting beam would have to be held for it to hang level.
func (p *page) holdAt(m float64, b lift.HungBar) string {
	if math.Abs(m) < 0.0005 {
		return "it hangs level if it is held at its middle"
	}
	end := b.Ends[len(b.Ends)-1]
	if m < 0 {
		end = b.Ends[0]
	}
	return "it hangs level if it is held " + p.length(math.Abs(m)) + " from its middle, toward the end that holds " + strings.Join(end.Holds, ", ")
}

// title begins with a capital.
func title(s string) string {
	r := []rune(s)
	return strings.ToUpper(string(r[:1])) + string(r[1:])
}

// newtonMetresALbfFt is a pound-force foot: 4.4482216152605 N × 0.3048 m, exact
// by NIST SP 811 (2008), appendix B.8.
const newtonMetresALbfFt = 4.4482216152605 * 0.3048

// moment prints a bending moment, rounded up to four figures.
func (p *page) moment(kNm float64) string {
	metric := upTo4(kNm) + glue + "kN·m"
	us := upTo4(kNm*1000/newtonMetresALbfFt) + glue + "lbf·ft"
	switch p.opt.Show {
	case units.Metric:
		return metric
	case units.US:
		return us
	}
	return metric + glue + "(" + us + ")"
}

// upTo4 rounds up to four significant figures.
func upTo4(x float64) string {
	if !(x > 0) {
		return "0"
	}
	if x < 1e-3 {
		return "under 0.001"
	}
	step := math.Pow(10, math.Floor(math.Log10(x))-3)
	return fourFigures(math.Ceil(x/step-noise*1e4) * step)
}

// slingSets prints the sizing of each set of legs, where there is more than one.
func (p *page) slingSets(s lift.Sizing) {
	for _, set := range s.Sets {
		p.sub("For the " + set.Name)
		p.required(lift.Sizing{Rules: s.Rules, Required: set.Required, Governing: set.Governing, Factors: set.Factors})
		p.families(set.Families)
	}
}
