package lift

import (
	"fmt"
	"math"

	"plumbhook/rig"
	"plumbhook/units"
)

// ownersShare is the part of its chart that many owners let a crane carry when
// two lift together: common practice, no source.
const ownersShare = 0.75

// judge says what about two hooks is not acceptable, and warns of what an expert
// would frown at.
func (t *onTwo) judge(f *Hanging, worst twoWorst, h *Header) {
	before := len(h.Verdict.Reasons)
	t.judgeSlack(worst, h)
	t.judgeRoll(f.TwoHooks, h)
	f.Stable = t.cases[0].stays(t)
	f.StableWorst = f.Stable && worst.loose == nil && len(worst.head.loose)+len(worst.tail.loose) == 0
	for _, c := range t.cases {
		f.StableWorst = f.StableWorst && c.stays(t)
	}
	for _, loose := range [][]string{worst.head.loose, worst.tail.loose} {
		for _, text := range loose {
			h.refuse("%s", text)
		}
	}
	if len(h.Verdict.Reasons) == before {
		t.warnNear(h)
	}
	t.judgeCrane("head", f.TwoHooks.Head.Crane, h)
	t.judgeCrane("tail", f.TwoHooks.Tail.Crane, h)
	t.judgeOnLoad(h)
	t.judgeSlings(h)
	if t.from != t.to {
		h.assume("two hooks: looked at every %.1f°, shown every %d° and where something happens (0027/ND Rev 11, 6.2.5, asks for enough intermediate angles)", degrees(step), curveStep)
	}
}

// stays says that the load stays as it is held all the way.
func (c oneCase) stays(t *onTwo) bool {
	_, over := t.topples(c)
	return !over && (c.margin > 0 || t.held() || math.IsNaN(c.margin)) && (c.slack.going == nil || t.quietEnd(c.slack.going)) && (c.slack.start == nil || t.quietStart(c.slack.start))
}

// judgeSlack refuses a turn on which a hook goes slack, and warns of one that is
// let go at the end.
func (t *onTwo) judgeSlack(worst twoWorst, h *Header) {
	refused := t.refuseSlack(t.cases[0], "", h)
	early, found := oneCase{}, false
	for _, c := range t.cases[1:] {
		if c.badSlack(t) && (!found || t.sooner(c, early)) {
			early, found = c, true
		}
	}
	if found && (!refused || t.sooner(early, t.cases[0])) {
		t.refuseSlack(early, fmt.Sprintf(" at worst over the range of the CG (%s)", early.name), h)
	}
	if refused || found {
		return
	}
	if worst.loose != nil {
		h.refuse("turned %s, with %s, a hook can go slack (%s): the other has all of it then", units.Turn(worst.loose.angle).Format(), t.out(), worst.looseText)
	}
	start, end := t.handOvers()
	t.warnHandOver(start, "takes up", "up to", h)
	t.warnHandOver(end, "is let go", "from", h)
}

// longHandOver in rad is more of the turn than a hook may be let go over. A
// convention of this program.
var longHandOver = units.Radians(20)

func (t *onTwo) warnHandOver(o *handOver, what, when string, h *Header) {
	if o == nil {
		return
	}
	loose := "tail"
	if o.keeps == "tail" {
		loose = "head"
	}
	if long := o.to - o.from; long > longHandOver {
		h.refuse("hooks as far out of height as stated (%s) can put all of the load on either for %.0f° of the turn, %s %s: that is no hand-over; hold the heights closer", t.out(), math.Ceil(degrees(long)), when, units.Turn(o.at).Format())
		return
	}
	h.warn("hand-over", fmt.Sprintf("the %s hook %s near plumb: %s %s hooks a little out of place can put all of the load on either; the %s hook is sized for all of it, the %s hook is not",
		loose, what, when, units.Turn(o.at).Format(), o.keeps, loose),
		fmt.Sprintf("keep the %s line no tighter than it has to be there, and watch both load readings", loose))
}

// badSlack says that a hook goes slack where it must not.
func (c oneCase) badSlack(t *onTwo) bool {
	return c.slack.start != nil && !t.quietStart(c.slack.start) || c.slack.going != nil && !t.quietEnd(c.slack.going)
}

// slackAt is where, in rad from the start of the turn.
func (c oneCase) slackAt(t *onTwo) float64 {
	if c.slack.start != nil && !t.quietStart(c.slack.start) {
		return 0
	}
	return math.Abs(c.slack.going.angle - t.from)
}

func (t *onTwo) sooner(a, b oneCase) bool { return a.slackAt(t) < b.slackAt(t)-1e-9 }

// refuseSlack gives the reason, if there is one.
func (t *onTwo) refuseSlack(c oneCase, at string, h *Header) bool {
	if !c.badSlack(t) {
		return false
	}
	s := c.slack.going
	if c.slackAt(t) == 0 {
		if s == nil || c.slack.start != nil {
			s = c.slack.start
		}
		loose, other := looseAndOther(s)
		if s.through {
			h.refuse("falls through%s: as the turn begins the %s hook carries nothing and the CG is over the pick of the %s hook", at, loose, other)
		} else {
			h.refuse("slack hook%s: as the lift begins the %s hook carries nothing, and the %s hook has it all: the CG is not between the hooks", at, loose, other)
		}
		return true
	}
	loose, other := looseAndOther(s)
	angle := units.Turn(s.angle).Format()
	if s.through {
		h.refuse("falls through%s: turned %s the %s hook goes slack with the CG over the pick of the %s hook; turned further the load goes over and drops until it hangs below it", at, angle, loose, other)
	} else {
		h.refuse("slack hook%s: turned %s, short of the %s meant, the %s hook goes slack; the load then hangs from the %s hook and hoisting turns it no further", at, angle, units.Turn(t.to).Format(), loose, other)
	}
	return true
}

func looseAndOther(s *slack) (loose, other string) {
	if s.head {
		return "head", "tail"
	}
	return "tail", "head"
}

// warnNear warns of a hook that goes slack just beyond the turn.
func (t *onTwo) warnNear(h *Header) {
	start, end := t.handOvers()
	for _, beyond := range []struct {
		handed bool // said already
		from   float64
		of     func(slacks) *slack
		words  string
	}{
		{end != nil, t.to, func(s slacks) *slack { return s.after }, "further"},
		{start != nil, t.from, func(s slacks) *slack { return s.before }, "less"},
	} {
		var nearest *slack
		name := ""
		for _, c := range t.cases {
			s := beyond.of(c.slack)
			if s != nil && (nearest == nil || math.Abs(s.angle-beyond.from) < math.Abs(nearest.angle-beyond.from)) {
				nearest, name = s, c.name
			}
		}
		if beyond.handed || nearest == nil {
			continue
		}
		loose, _ := looseAndOther(nearest)
		then := ""
		if nearest.through {
			then = ", and the load falls through"
		}
		h.warn("near-slack", fmt.Sprintf("turned only %s %s than meant the %s hook goes slack%s (%s)",
			units.Turn(math.Abs(nearest.angle-beyond.from)).Format(), beyond.words, loose, then, name), "stop the turn earlier, or move a pick")
	}
}

// rolling fills in how the load rolls about the line of the picks.
func (t *onTwo) rolling(two *TwoHooks) {
	two.RollHeld = t.held()
	best, worst := t.cases[0].margin, math.NaN()
	for _, c := range t.cases {
		if !(c.margin > worst) && !math.IsNaN(c.margin) {
			worst = c.margin
		}
	}
	if math.IsNaN(best) {
		two.RollText = "a hook is slack all the way: see the reasons at the top"
		return
	}
	two.RollMarginM, two.RollMarginWorstM = &best, &worst
	two.RollDeg = t.rolls(t.cases[0])
	where := fmt.Sprintf("the CG is %s the line through the picks, %s at worst", aboveOrBelow(best), aboveOrBelow(worst))
	switch {
	case two.RollHeld && worst <= 0:
		two.RollText = where + ": only the lugs side by side keep the load from rolling over, as long as both slings of a pair are tight"
	case two.RollHeld:
		two.RollText = where + "; lugs side by side hold it as well"
	case worst <= 0:
		two.RollText = where + ": with one lug at each hook the load ROLLS OVER about that line"
	case two.RollDeg > 0.05:
		two.RollText = fmt.Sprintf("%s; the CG is off to one side, so that the load rolls %.1f° until it is plumb below that line", where, two.RollDeg)
	default:
		two.RollText = where
	}
}

func aboveOrBelow(margin float64) string {
	text := units.Length(math.Abs(margin)).Format(units.Both)
	if margin < 0 {
		return text + " above"
	}
	return text + " below"
}

// rolls is by how many degrees the load rolls in a case.
func (t *onTwo) rolls(c oneCase) float64 {
	if t.held() || !(c.margin > 0) {
		return 0
	}
	drawn := rig.TwoHooks{Weight: c.load.Weight, CG: c.cg, Head: t.head.at, Tail: t.tail.at, About: c.load.About}
	_, by, err := drawn.Rolled()
	if err != nil {
		return 0
	}
	return degrees(math.Abs(by))
}

// judgeRoll refuses a load that rolls over about the line of the picks.
func (t *onTwo) judgeRoll(two *TwoHooks, h *Header) {
	if two.RollMarginM == nil {
		return
	}
	size := t.weight.extent().Diagonal()
	least, fair := max(0.005, size/200), max(0.020, size/50) // as for one hook, see judgeMargins
	worst := *two.RollMarginWorstM
	switch {
	case t.held():
		t.judgeHeld(worst, h)
		return
	case worst <= 0:
		h.refuse("rolls over: %s; give a hook two lugs side by side, or pick the load up higher", two.RollText)
		return
	case worst < least:
		h.refuse("as good as unstable: the CG need rise only %s for the load to roll over about the line through the picks", units.Length(worst).Format(units.Both))
	case worst < fair:
		h.warn("small-margin", fmt.Sprintf("the CG need rise only %s for the load to roll over about the line through the picks", units.Length(worst).Format(units.Both)), "pick the load up higher, or give a hook two lugs side by side")
	}
	most := 0.0
	for _, c := range t.cases {
		most = max(most, t.rolls(c))
	}
	switch {
	case most > greatestTilt:
		h.refuse("the load rolls up to %.1f° about the line through the picks: more than %g° is not taken as meant", most, greatestTilt)
	case most > usualTilt:
		h.warn("tilt", fmt.Sprintf("the load rolls up to %.1f° about the line through the picks, as its CG is off to one side", most), "move the picks over the CG")
	}
}

// judgeHeld looks at a load that lugs side by side hold from rolling.
func (t *onTwo) judgeHeld(worst float64, h *Header) {
	if worst <= 0 {
		h.warn("cg-above-pick", fmt.Sprintf("the CG may be %s the line through the picks: only the lugs side by side keep the load from rolling over",
			aboveOrBelow(worst)), "see that both slings of a pair stay tight, or pick the load up higher")
	}
	for _, c := range t.cases {
		if angle, over := t.topples(c); over {
			h.refuse("rolls over: turned %s the CG is above the straight line from hook to hook (%s); use longer slings, or pick the load up higher", units.Turn(angle).Format(), c.name)
			return
		}
	}
}

// topples says at which angle the CG of a load that slings of known length hold
// from rolling is above the line from hook to hook. What slings without a length
// hang from is not known, and that is said.
func (t *onTwo) topples(c oneCase) (angle float64, over bool) {
	if t.head.height == 0 && t.tail.height == 0 {
		return 0, false
	}
	past := c.slack.past(t)
	for _, angle := range t.angles() {
		if !past(angle) && t.hangDepth(c, angle) <= 0 {
			return angle, true
		}
	}
	return 0, false
}

// judgeCrane holds a hook against its crane.
func (t *onTwo) judgeCrane(name string, c *HookCrane, h *Header) {
	if c == nil {
		return
	}
	load := units.Mass(c.LoadKg).FormatUp(units.Both)
	lifts := units.Mass(c.CapacityKg).FormatDown(units.Both)
	switch {
	case c.Used > 1+1e-9:
		h.refuse("over capacity: the %s hook with its block comes to %s at worst before any rigging, its crane lifts %s", name, load, lifts)
	case c.ShareLimit > 0 && c.Used > c.ShareLimit+1e-9:
		h.refuse("over the share of its crane: the %s hook with its block comes to %s at worst before any rigging, %.1f %% of the %s that its crane lifts; the limit is %.4g %%",
			name, load, math.Ceil(c.Used*1000)/10, lifts, c.ShareLimit*100)
	case c.Used > ownersShare+1e-9:
		h.warn("tandem-share", fmt.Sprintf("the %s hook with its block comes to %.1f %% of what its crane lifts: many owners allow %g %% where two cranes lift together (common practice, no source)",
			name, math.Ceil(c.Used*1000)/10, ownersShare*100), "ask the cranes' owners, and state `share` in `cranes`")
	}
}

// judgeSlings looks at slings to two lugs.
func (t *onTwo) judgeSlings(h *Header) {
	for _, e := range []hookEnd{t.head, t.tail} {
		if !e.pair() {
			continue
		}
		if e.height == 0 {
			h.warn("slings-plumb", fmt.Sprintf("the two slings of the %s hook are taken as plumb: two that meet at one hook stand at an angle and carry more", e.name),
				"state their lengths under `slings`, or hang them from a bar")
			continue
		}
		for _, lug := range e.lugs {
			if reason := t.limit.Judge(lug.Name, e.angle()); reason != "" {
				h.refuse("%s", reason)
			}
		}
	}
	if t.head.crane == nil || t.tail.crane == nil {
		h.assume("a hook without a crane under `cranes`: whether there is a crane that carries it is not looked at")
	}
}
