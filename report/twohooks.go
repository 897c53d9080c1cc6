package report

import (
	"math"
	"strings"

	"plumbhook/lift"
	"plumbhook/units"
)

// twoHooks prints what two hooks carry while the load turns.
func (p *page) twoHooks(h lift.Hanging) {
	two := h.TwoHooks
	turned := "not turned: a level lift on two hooks"
	if two.FromDeg != two.ToDeg {
		turned = "from " + turn(two.FromDeg) + " to " + turn(two.ToDeg) + ", counted from the attitude drawn, the head going up"
	}
	p.field("Turned", turned)
	p.field("Slings", h.Lengths)
	p.field("May be out", two.Out)
	p.field("Stability", stable(h.Stable)+" at the best CG; "+stable(h.StableWorst)+" at the worst of the ranges")
	p.field("Roll", two.RollText)
	p.shareCurve(two.Curve)
	p.gap()
	p.hang("  ", "At the planning weight of "+p.mass(h.PlanningKg)+" and the best CG, lines plumb. Bar: "+headMark+" the head hook's part, "+tailMark+
		" the tail hook's. Head higher: by how much the head pick is higher than the tail pick. Apart: level, between the hoist lines.")
	p.hookEvents(two.Events)
	p.worstOfHooks(h)
	p.gap()
	p.field("Not in it", two.NotChecked)
	p.twoStates(h.States)
}

const (
	headMark = "█"
	tailMark = "░"
	barWidth = 12
)

// shareCurve prints the share of each hook against the angle.
func (p *page) shareCurve(curve []lift.HookShare) {
	p.sub("What each hook carries")
	lengths, under := 13, "\n"
	if p.opt.Show == units.Metric { // then there is room for the bar beside it
		lengths, under = 9, glue
	}
	cols := []column{{"Turned", 7, true}, {"Head hook", 11, true}, {"Tail hook", 11, true}, {"Head has", 0, false}, {"Head higher", lengths, true}, {"Apart", lengths, true}}
	p.titles(cols)
	for _, c := range curve {
		head := int(math.Round(c.HeadPart * barWidth))
		bar := strings.Repeat(headMark, head) + strings.Repeat(tailMark, barWidth-head)
		p.row(cols, turn(c.TurnedDeg), p.stackedForceUp(c.HeadKN), p.stackedForceUp(c.TailKN),
			percent1(c.HeadPart)+under+bar, p.stackedLength(c.RiseM), p.stackedLength(c.ApartM))
	}
}

// hookEvents prints what happens on the way.
func (p *page) hookEvents(list []lift.HookEvent) {
	if len(list) == 0 {
		return
	}
	p.sub("On the way, at the best CG where nothing else is said")
	for _, e := range list {
		p.hang("  "+padded(turn(e.TurnedDeg), 8, true)+"  ", e.Text)
	}
}

// worstOfHooks prints what governs each hook, and its crane.
func (p *page) worstOfHooks(h lift.Hanging) {
	p.sub("What each hook must be good for, at the sizing weight of " + p.massUp(h.SizingKg))
	cols := []column{{"Hook", 0, false}, {"Most at the best CG", 16, true}, {"Worst", 16, true}, {"As a mass", 16, true}}
	p.titles(cols)
	hooks := []struct {
		name string
		lift.Hook
	}{{"head", h.TwoHooks.Head}, {"tail", h.TwoHooks.Tail}}
	for _, hook := range hooks {
		p.row(cols, hook.name+": "+strings.Join(hook.Picks, ", "), p.stackedForceUp(hook.MostKN), p.stackedForceUp(hook.WorstKN), p.stackedMassUp(hook.WorstKg))
	}
	p.gap()
	for _, hook := range hooks {
		p.field("Governs "+hook.name, hook.WorstCase)
		if c := hook.Crane; c != nil {
			text := p.massUp(c.LoadKg) + " with its block and without slings, " + percentUp(c.Used) + " of the " + p.massDown(c.CapacityKg) + " that it lifts"
			if c.ShareLimit > 0 {
				text += "; limit " + percent(c.ShareLimit)
			}
			p.field("Crane "+hook.name, text)
		}
	}
	p.slingsOfHooks(h)
}

// slingsOfHooks prints the sling to each lug, where a hook holds two.
func (p *page) slingsOfHooks(h lift.Hanging) {
	if len(h.Legs) == 2 {
		return
	}
	p.sub("Slings")
	cols := []column{{"Sling to pick", 0, false}, {"From horizontal", 15, true}, {"Most at the best CG", 16, true}, {"Worst", 16, true}}
	p.titles(cols)
	for _, l := range h.Legs {
		p.row(cols, l.Pick, plainAngle(l.FromHorizontalDeg), p.stackedForceUp(l.TensionKN), p.stackedForceUp(l.WorstTensionKN))
	}
}

// twoStates prints how the load hangs on two hooks in each of its states.
func (p *page) twoStates(list []lift.StateLegs) {
	if len(list) == 0 {
		return
	}
	p.sub("In each state")
	p.hang("  ", "The figures above are those of the state that governs.")
	p.gap()
	cols := []column{{"State", 0, false}, {"Sizing weight", 14, true}, {"Worst sling", 14, true}, {"Verdict", 14, false}}
	p.titles(cols)
	for _, s := range list {
		verdict, leg := "acceptable", "-"
		if !s.Acceptable {
			verdict = notAcceptable
		}
		if s.Pick != "" {
			leg = p.stackedForceUp(s.WorstTensionKN) + "\nto " + s.Pick
		}
		p.row(cols, governing(s.Governs, s.Name), p.stackedMassUp(s.SizingKg), leg, verdict)
	}
}

// slingsByHook prints the sizing of each hook's slings.
func (p *page) slingsByHook(list []lift.HookSizing) {
	for i, one := range list {
		if i > 0 {
			p.rule()
		}
		p.sub(strings.ToUpper(one.Hook) + " HOOK")
		p.required(one.Sizing)
		p.families(one.Families)
		p.gross(one.Gross)
	}
}
