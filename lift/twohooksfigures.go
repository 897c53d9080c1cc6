package lift

import (
	"cmp"
	"fmt"
	"math"
	"slices"

	"plumbhook/rig"
	"plumbhook/units"
)

// notChecked is what the figures of two hooks leave out.
const notChecked = "speeding up and stopping, wind, cranes that travel or slew, the side load that a line out of plumb puts on a boom, the ground under the cranes, and whether slings, bars and booms clear the load as it turns"

// curveStep in degrees is that of the printed curve; 0027/ND Rev 11, 6.2.5 asks
// for enough intermediate angles in upending.
const curveStep = 5

// figures works out curve, events and the worst.
func (t *onTwo) figures() (Hanging, twoWorst, error) {
	best := t.cases[0]
	best.load.Weight = float64(t.weight.planning())
	f := Hanging{Solved: true, SizingKg: t.weight.Weight.SizingKg, PlanningKg: t.weight.Weight.PlanningKg,
		Lengths: t.lengthsText(), Legs: []Leg{}}
	two := &TwoHooks{FromDeg: degrees(t.from), ToDeg: degrees(t.to), Out: t.out(), NotChecked: notChecked, Events: []HookEvent{}, HandOverDeg: []float64{}}
	if err := t.curve(two, best.load); err != nil {
		return f, twoWorst{}, err
	}
	start, end := t.handOvers()
	for _, over := range []*handOver{start, end} {
		if over != nil {
			two.HandOverDeg = append(two.HandOverDeg, degrees(over.at))
		}
	}
	worst, err := t.worst(start, end)
	if err != nil {
		return f, worst, err
	}
	two.Head = t.hook(t.head, worst.head)
	two.Tail = t.hook(t.tail, worst.tail)
	for _, c := range two.Curve {
		two.Head.most(c.HeadKN, c.TurnedDeg)
		two.Tail.most(c.TailKN, c.TurnedDeg)
	}
	f.TwoHooks = two
	t.rolling(two)
	f.Legs = append(t.legsOf(t.head, best, worst.head), t.legsOf(t.tail, best, worst.tail)...)
	f.Legs = t.inOrder(f.Legs)
	return f, worst, nil
}

// curve fills in the shares at the best CG, in steps and at each event.
func (t *onTwo) curve(two *TwoHooks, load rig.TwoHooks) error {
	events, err := load.Limits(t.from, t.to)
	if err != nil {
		return fmt.Errorf("%w: %w", ErrProgram, err)
	}
	angles := []float64{t.from, t.to}
	low, high := min(t.from, t.to), max(t.from, t.to)
	for deg := math.Ceil(degrees(low)/curveStep) * curveStep; units.Radians(deg) < high; deg += curveStep {
		angles = append(angles, units.Radians(deg))
	}
	past := t.cases[0].slack.past(t)
	for _, e := range events {
		if past(e.Angle) || t.from == t.to && e.Kind > rig.PicksPlumb {
			continue
		}
		angles = append(angles, e.Angle)
		two.Events = append(two.Events, HookEvent{TurnedDeg: degrees(e.Angle), Kind: e.Kind.String(), Text: t.eventText(e), Through: e.Through, CG: t.cases[0].name})
	}
	two.Events = append(two.Events, t.earliest()...)
	if two.Curve, err = sharesAt(load, t.inTurn(angles, past)); err != nil {
		return err
	}
	two.fine, err = sharesAt(load, t.inTurn(append(angles, t.angles()...), past))
	return err
}

// inTurn puts angles in the order of the turn, each once, without those past its
// end.
func (t *onTwo) inTurn(angles []float64, past func(float64) bool) []float64 {
	angles = slices.DeleteFunc(slices.Clone(angles), past)
	slices.SortFunc(angles, func(a, b float64) int { return cmp.Compare(math.Abs(a-t.from), math.Abs(b-t.from)) })
	return slices.CompactFunc(angles, func(a, b float64) bool { return math.Abs(a-b) < 1e-6 })
}

// sharesAt are the shares at some angles.
func sharesAt(load rig.TwoHooks, angles []float64) ([]HookShare, error) {
	var out []HookShare
	for _, a := range angles {
		s, err := load.At(a)
		if err != nil {
			return nil, fmt.Errorf("%w: %w", ErrProgram, err)
		}
		out = append(out, HookShare{TurnedDeg: degrees(a), HeadKN: s.Head / 1000, TailKN: s.Tail / 1000,
			HeadPart: s.Head / load.Weight, RiseM: s.Rise, ApartM: math.Abs(s.HeadLever + s.TailLever)})
	}
	return out, nil
}

// earliest is the first hook to go slack with the CG anywhere in its region,
// where that is sooner than at the best CG; nothing if none is.
func (t *onTwo) earliest() []HookEvent {
	first := t.cases[0]
	for _, c := range t.cases[1:] {
		if s := c.slack.going; s != nil && (first.slack.going == nil || math.Abs(s.angle-t.from) < math.Abs(first.slack.going.angle-t.from)-1e-9) {
			first = c
		}
	}
	if first.name == t.cases[0].name {
		return nil
	}
	s, kind := first.slack.going, rig.TailSlack
	if s.head {
		kind = rig.HeadSlack
	}
	e := rig.Event{Kind: kind, Share: rig.Share{Angle: s.angle, HeadSlack: s.head, TailSlack: !s.head, Through: s.through}}
	return []HookEvent{{TurnedDeg: degrees(s.angle), Kind: kind.String(), Through: s.through, CG: first.name,
		Text: fmt.Sprintf("soonest over the range of the CG (%s): %s", first.name, t.eventText(e))}}
}

// eventText says in words what happens.
func (t *onTwo) eventText(e rig.Event) string {
	loose, other := "head", "tail"
	if e.TailSlack {
		loose, other = "tail", "head"
	}
	switch {
	case e.Kind == rig.EqualShare:
		return "both hooks carry half"
	case e.Kind == rig.MostHead:
		return "the head hook carries its most"
	case e.Kind == rig.MostTail:
		return "the tail hook carries its most"
	case e.Through:
		return fmt.Sprintf("the %s hook goes slack with the CG over the pick of the %s hook: the load goes over and FALLS THROUGH", loose, other)
	case e.TakesUp:
		return fmt.Sprintf("the %s hook takes up", loose)
	}
	return fmt.Sprintf("the %s hook goes slack; the load hangs from the %s hook, its CG plumb below the pick", loose, other)
}

// hook fills in the worst of one hook.
func (t *onTwo) hook(e hookEnd, w hookWorst) Hook {
	h := Hook{WorstKN: w.pull / 1000, WorstKg: float64(units.Force(w.pull).Mass()), WorstAtDeg: degrees(w.angle), WorstCase: w.text,
		LugsApartM: e.apart, SlingAngled: e.height > 0}
	for _, lug := range e.lugs {
		h.Picks = append(h.Picks, lug.Name)
	}
	if c := e.crane; c != nil {
		load := h.WorstKg + float64(c.Block)
		h.Crane = &HookCrane{CapacityKg: float64(c.Capacity), BlockKg: float64(c.Block), ShareLimit: c.Share, LoadKg: load, Used: load / float64(c.Capacity)}
	}
	return h
}

// most keeps the greatest of the curve, the first time that it is there.
func (h *Hook) most(kn, atDeg float64) {
	if kn > h.MostKN*(1+1e-9) {
		h.MostKN, h.MostAtDeg = kn, atDeg
	}
}

// legsOf are the slings of one hook: the most on the way at the best CG, and
// the worst.
func (t *onTwo) legsOf(e hookEnd, best oneCase, w hookWorst) []Leg {
	var legs []Leg
	angle := e.angle()
	most := make([]float64, len(e.lugs))
	for _, at := range t.angles() {
		s, err := best.load.At(at)
		if err != nil || best.slack.past(t)(at) {
			continue // no error: the same load has been asked at these angles
		}
		pull := s.Head
		if e.name == t.tail.name {
			pull = s.Tail
		}
		for i, newtons := range t.lugPulls(e, best, pull, t.hangDepth(best, at)) {
			most[i] = max(most[i], newtons)
		}
	}
	for i, lug := range e.lugs {
		legs = append(legs, Leg{Pick: lug.Name, AtM: lug.AtM, LengthM: e.lengths[i],
			FromHorizontalDeg: units.Degrees(angle), FromVerticalDeg: units.Degrees(angle.FromVertical()), WorstFromHorizontalDeg: units.Degrees(angle),
			TensionKN: most[i] / 1000, WorstTensionKN: max(w.lugs[i], most[i]) / 1000, Slack: most[i] <= 0})
	}
	return legs
}

// inOrder puts legs in the order of the picks.
func (t *onTwo) inOrder(legs []Leg) []Leg {
	at := func(name string) int {
		return slices.IndexFunc(t.picks, func(p Pick) bool { return p.Name == name })
	}
	slices.SortFunc(legs, func(a, b Leg) int { return at(a.Pick) - at(b.Pick) })
	return legs
}

// lengthsText says how slings stand.
func (t *onTwo) lengthsText() string {
	return fmt.Sprintf("head: %s; tail: %s", t.head.slingText(), t.tail.slingText())
}

func (e hookEnd) slingText() string {
	switch {
	case !e.pair():
		return "one line, plumb"
	case e.height == 0:
		return "two slings taken as plumb, as from a bar"
	}
	return fmt.Sprintf("two slings of %s to one hook, %s", units.Length(e.lengths[0]).Format(units.Both), e.angle().Format())
}
