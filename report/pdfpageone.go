package report

import (
	"fmt"
	"strings"

	"plumbhook/lift"
	"plumbhook/units"
)

// Page 1 is what a crew reads. It is one page whatever the load: what has to be on
// it goes first, and what finds no room is counted and stands on a page that is
// named.

var (
	faceTitle  = face{sans, "B", 14}
	faceLoud   = face{sans, "B", 12}
	faceFine   = face{sans, "", 7}
	faceBanner = face{sans, "B", 9}
)

// The two columns of the figures, and of the drawings, mm.
const (
	leftWide  = 100.0
	rightWide = textWide - leftWide - 5
	leafHalf  = (textWide - 6) / 2
)

func (d *leaf) pageOne() {
	d.y = leafTop
	d.f.Bookmark("Lift sheet", 0, 0)
	d.title()
	d.verdict()
	d.figures()
	fine := d.finePrint()
	bottom := d.end - signHigh - float64(len(fine))*faceFine.high() - 2.5
	d.legTable(bottom - 36) // what follows has room to say where it stands
	d.between(bottom)
	d.y = bottom + 1.2
	for _, line := range fine {
		d.put(d.left, d.y, textWide, line, faceFine, "L")
		d.y += faceFine.high()
	}
	d.signOff()
}

// short sets a text in a room, no more than so many lines of it: what is cut off
// ends in dots and stands in full in the working.
func (d *leaf) short(x, y, room float64, text string, s face, most int) float64 {
	return d.block(x, y, room, d.cutOff(text, room, s, most), s)
}

func (d *leaf) cutOff(text string, room float64, s face, most int) string {
	lines := d.lines(text, room, s)
	if len(lines) > most {
		last := lines[most-1] + " …"
		for length(last) > 3 && d.width(last, s) > room {
			r := []rune(last)
			last = string(r[:len(r)-3]) + " …"
		}
		lines = append(lines[:most-1:most-1], last)
	}
	return strings.Join(lines, "\n")
}

// title says what is lifted.
func (d *leaf) title() {
	const right = 62.0
	d.put(d.left, d.y, textWide, "LIFT SHEET", faceBanner, "L")
	y := d.y
	state := d.s.State
	if n := len(d.s.Legs.States); n > 0 {
		state += fmt.Sprintf(", which governs among %d", n)
	}
	for _, named := range [][2]string{{"Drawing", d.s.Drawing}, {"State", state}, {"Date", d.s.Date}} {
		if named[1] != "" {
			x := d.left + textWide - right
			d.put(x, y, 14, named[0], faceTight, "L")
			y += d.short(x+14, y, right-14, named[1], faceSmall, 2)
		}
	}
	under := d.y + faceBanner.high() + 0.5
	under += d.short(d.left, under, textWide-right-4, d.s.Load, faceTitle, 2)
	d.y = max(y, under) + 0.5
	d.y += d.short(d.left, d.y, textWide, "Datum: "+orElse(d.s.Datum, "not stated: coordinates count from the origin of the load file"), faceFine, 2) + 1
}

// verdict is the first thing that is read: white on black where the lift may not
// be made, with the reasons.
func (d *leaf) verdict() {
	high := faceLoud.high() + 2.4
	v := d.s.Verdict
	d.stroke(0.6)
	if v.Acceptable {
		d.f.Rect(d.left, d.y, textWide, high, "D")
		text := "ACCEPTABLE AS DESCRIBED, at the worst over the ranges stated"
		if n := len(d.s.Warnings); n > 0 {
			text += "; " + plural(n, "warning", "warnings")
		}
		d.put(d.left, d.y+1.2, textWide, text, face{sans, "B", 10.5}, "C")
		d.y += high + 2
		return
	}
	d.f.Rect(d.left, d.y, textWide, high, "F")
	d.f.SetTextColor(255, 255, 255)
	d.put(d.left, d.y+1.2, textWide, notAcceptable, faceLoud, "C")
	d.f.SetTextColor(0, 0, 0)
	from := d.y
	d.y += high + 1
	const most = 42.0 // mm, for the reasons
	d.listed(v.Reasons, d.left+2, textWide-4, d.y+most, "reason", "reasons", faceBody)
	d.y += 0.5
	d.stroke(0.6)
	d.f.Rect(d.left, from, textWide, d.y-from, "D")
	d.y += 2
}

// listed sets numbered texts down to a limit, and says how many found no room.
func (d *leaf) listed(texts []string, x, wide, limit float64, one, many string, s face) {
	for i, text := range texts {
		lines := d.lines(text, wide-6, s)
		last := 0.0
		if i < len(texts)-1 {
			last = s.high()
		}
		if d.y+float64(len(lines))*s.high()+last > limit+1e-9 {
			d.put(x, d.y, wide, fmt.Sprintf("%s more: page %d", plural(len(texts)-i, one, many), d.warningsOn), face{s.family, "B", s.size}, "L")
			d.y += s.high()
			return
		}
		d.put(x, d.y, 5, plainInt(i+1)+".", s, "L")
		d.y += d.block(x+6, d.y, wide-6, text, s)
	}
}

// figures sets weight and CG to the left, how it hangs to the right.
func (d *leaf) figures() {
	y := d.y
	d.small("WEIGHT AND CENTRE OF GRAVITY (CG)", d.left, leftWide)
	w, p := d.s.Weigh.Weight, d.p
	d.fact(d.left, "Best", p.mass(w.BestKg)+", from "+p.massDown(w.LowKg)+" to "+p.massUp(w.HighKg))
	d.fact(d.left, "Planning", p.mass(w.PlanningKg)+": "+w.Rule)
	d.fact(d.left, "Sized on", p.massUp(w.SizingKg)+": the greater of planning and high")
	d.tape()
	d.onTheDay()
	low := d.y
	d.y = y
	d.hangs(d.left + textWide - rightWide)
	d.y = max(low, d.y) + 1.5
}

// small is a heading on page 1.
func (d *leaf) small(text string, x, wide float64) {
	d.put(x, d.y, wide, text, faceTight, "L")
	d.y += faceTight.high() + 0.3
	d.stroke(0.25)
	d.f.Line(x, d.y, x+wide, d.y)
	d.y += 0.8
}

// fact sets a named value in one of the two columns.
func (d *leaf) fact(x float64, name, value string) {
	if value == "" {
		return
	}
	const in = 19.0
	wide := leftWide
	if x > d.left {
		wide = rightWide
	}
	d.put(x, d.y, in, name, faceTight, "L")
	d.y += d.short(x+in, d.y, wide-in, value, faceSmall, 4) + 0.3
}

// tape sets where the CG is, from the datum and from the edges as a tape shows it.
func (d *leaf) tape() {
	w := d.s.Weigh
	least, greatest := w.FromEdges()
	const first = 9.0
	const each = (leftWide - first) / 3
	d.y += 0.5
	for i, name := range []string{"from the datum", "from the least edge", "from the greatest"} {
		d.put(d.left+first+float64(i)*each, d.y, each, name, faceFine, "R")
	}
	d.y += faceFine.high()
	for i, axis := range []string{"x", "y", "z"} {
		d.put(d.left, d.y, first, "CG "+axis, faceTight, "L")
		for k, m := range []float64{w.CGM[i], least[i], greatest[i]} {
			text := d.p.length(m)
			if k > 0 && least[i]+greatest[i] < 1e-9 {
				text = "no size stated"
			}
			d.put(d.left+first+float64(k)*each, d.y, each, text, faceSmall, "R")
		}
		d.y += faceSmall.high()
	}
}

// onTheDay sets what is looked at when the load is lifted.
func (d *leaf) onTheDay() {
	h, p := d.s.Legs, d.p
	if h.Posed == nil {
		return
	}
	d.y += 0.8
	if t := h.TrialLift; t != nil {
		d.fact(d.left, "Trial lift", "a load cell reads "+p.mass(t.BestKg)+" for the load alone; stop above "+p.massUp(t.StopAboveKg)+", or below "+p.massDown(t.LowKg)+" with the load clear")
	}
	if o := h.LiftOff; o != nil {
		d.fact(d.left, "Lift-off", "held down by "+o.Kind+": up to "+p.massUp(o.HookKg)+" until it lets go, which may be sudden")
	}
	s := h.SideForces
	if s == nil {
		d.fact(d.left, "Wind", "none taken into account")
		return
	}
	if w := s.Wind; w != nil && w.SpeedMS > 0 {
		d.fact(d.left, "Wind", "no more than the "+units.Speed(w.SpeedMS).Format(p.opt.Show)+" stated, or the crane's own limit; out of plumb up to "+turn(tenthUp(s.LeanDeg)))
	} else if w != nil {
		d.fact(d.left, "Wind", "no more than the "+units.Pressure(w.PressureNM2).Format(p.opt.Show)+" stated, or the crane's own limit; out of plumb up to "+turn(tenthUp(s.LeanDeg)))
	}
	if t := s.TagLine; t != nil {
		d.fact(d.left, "Tag line", "toward "+t.Toward+" with no more than "+newtons(t.PullKN).Format(p.opt.Show))
	}
}

// hangs sets how the load hangs, and what the crane has to lift.
func (d *leaf) hangs(x float64) {
	d.small("HOW IT HANGS", x, rightWide)
	h, p := d.s.Legs, d.p
	switch {
	case h.Solved && h.TwoHooks != nil:
		for _, hook := range []struct {
			name string
			lift.Hook
		}{{"Head hook", h.TwoHooks.Head}, {"Tail hook", h.TwoHooks.Tail}} {
			d.fact(x, hook.name, "up to "+p.massUp(hook.WorstKg)+", slings and block not in it; at every angle: see HOW IT HANGS")
		}
	case h.Posed == nil:
		d.y += d.block(x, d.y, rightWide, noPose, faceSmall)
	default:
		if m, ok := d.s.HookAbovePicksM(); ok {
			d.fact(x, "Hook", p.length(m)+" above the highest pick")
		}
		if h.HeadroomM < 0 {
			d.fact(x, "Headroom", "none: the hook is "+p.length(-h.HeadroomM)+" below the top of the load")
		} else {
			d.fact(x, "Headroom", p.length(h.HeadroomM)+" from the top of the load to the hook, "+p.length(h.HeadroomWorstM)+" at worst")
		}
		d.fact(x, "Legs", h.Lengths)
		d.fact(x, "Tilt", turn(h.TiltDeg)+", "+turn(tenthUp(h.TiltWorstDeg))+" at worst"+outOf(h.Attitude)+inWind(h.SideForces))
		d.fact(x, "Stability", standing(h))
		d.fact(x, "Governs", "leg "+h.Governing)
		d.fact(x, "Basis", h.Basis)
	}
	d.crane(x)
}

// crane sets what hangs on the hook.
func (d *leaf) crane(x float64) {
	s, p := d.s.Slings, d.p
	if s != nil && len(s.ByHook) > 0 {
		for _, one := range s.ByHook {
			d.fact(x, "On the "+one.Hook, p.massUp(one.Gross.TotalKg)+" with slings and what is stated of the block")
		}
		return
	}
	if s == nil || s.Gross.TotalKg == 0 {
		d.fact(x, "On the hook", "not counted: slings are not sized")
		return
	}
	text := p.massUp(s.Gross.TotalKg) + " with slings and block"
	if s.Gross.BlockKg == 0 {
		text = p.massUp(s.Gross.TotalKg) + " with slings, no block counted"
	}
	if s.Gross.LiftOffKg > 0 {
		text += "; " + p.massUp(s.Gross.LiftOffKg) + " at lift-off"
	}
	d.fact(x, "On the hook", text)
	if part, ok := s.Gross.OfCapacity(); ok {
		d.fact(x, "Crane", percentUp(part)+" of the "+p.massDown(s.Gross.CapacityKg)+" that it lifts there, as stated")
	} else {
		d.fact(x, "Crane", "not stated")
	}
}

const signHigh = 15.0 // mm, of the block for names and dates

// signOff sets the block for names and dates at the foot.
func (d *leaf) signOff() {
	const wide = textWide / 3
	y := d.end - signHigh
	d.stroke(0.25)
	for i, name := range []string{"Prepared", "Checked", "Approved"} {
		x := d.left + float64(i)*wide
		d.f.Rect(x, y, wide, signHigh, "D")
		d.put(x+1, y+0.7, wide, name, faceTight, "L")
		for k, line := range []string{"Name, signature", "Date"} {
			down := y + float64(k)*5
			d.put(x+1, down+5.2, wide, line, faceFine, "L")
			d.stroke(0.13)
			d.f.Line(x+2.5+d.width(line, faceFine), down+8, x+wide-2, down+8)
			d.stroke(0.25)
		}
	}
}

// finePrint is the cautions, line by line.
func (d *leaf) finePrint() []string {
	text := strings.Join(d.s.Cautions, " ")
	if d.needsLegend() {
		text += " [m], [c]: a figure from memory, or by common practice: see the last page."
	}
	return d.lines(text, textWide, faceFine)
}
