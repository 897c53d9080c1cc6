package lift

import (
	"plumbhook/geom"
	"plumbhook/rig"
)

// Clash is a leg that touches a part of the load, or, among near misses, passes
// it closely.
type Clash struct {
	Pick   string   `json:"pick"`
	With   string   `json:"with"`    // the part
	AtM    geom.Vec `json:"at_m"`    // on the part, in the load's axes
	AlongM float64  `json:"along_m"` // along the leg from its pick
	GapM   float64  `json:"gap_m"`   // between the leg's side and the part; negative: how deep
	Case   string   `json:"case"`    // of the CG; empty: the best
	Box    bool     `json:"box"`     // it is the box that stands for a bought-in part
}

// Clearing is how the hung legs pass the load.
type Clearing struct {
	Clashes     []Clash  `json:"clashes"`
	NearMisses  []Clash  `json:"near_misses"`
	Looked      int      `json:"clash_parts"` // parts that were looked at; 0: none, and nothing is told
	NotLooked   []string `json:"clash_parts_left"`
	ThicknessM  float64  `json:"leg_thickness_m"` // 0: not stated, the line alone
	FittingsM   float64  `json:"leg_fittings_m"`
	LeastHookM  *float64 `json:"least_hook_m,omitempty"` // above the highest pick, for all legs to clear
	LeastBars   []Bar    `json:"least_bars,omitempty"`   // bars with plumb drops that clear
	ThroughCuts []Clash  `json:"through_cuts"`           // a leg that passes a hole
}

// Bar is a bar over two picks.
type Bar struct {
	Picks   [2]string `json:"picks"`
	LengthM float64   `json:"length_m"`
}

// closeBy in m is how near a leg may pass the load without a word: a load swings
// and a sling is never quite straight. Common practice, no source.
const closeBy = 0.025

// clashing is the look at one lift.
type clashing struct {
	*plan
	picks    []Pick // in the load's own axes, in which its parts are
	body     *obstacles
	side     float64  // m, of a leg from its line
	fittings float64  // m
	stated   bool     // the load file says how far the fittings reach
	others   []string // what else than legs to the picks is looked at: legs above bars, and bars
	out      *Clearing
}

// clash looks for legs that touch the load in the hung pose, and wherever in its
// region the CG may be. A pose that the load rolls over into is not looked at.
func (p *plan) clash(f *Hanging, r rig.Rig, best rig.Hang, h *Header) {
	f.Clearing = noClearing()
	if best.RollsOver && !best.Drawn {
		return
	}
	c, ok := p.clashing(&f.Clearing, h)
	if !ok {
		return
	}
	c.look(r, best.Hook)
	if len(c.out.Clashes) > 0 && p.stance == nil && !p.tried { // heights and bars are told of a load that hangs as drawn
		c.mend(best.Hook)
	}
	c.judge(h)
}

// noClearing is what there is to tell before anything was looked at.
func noClearing() Clearing {
	return Clearing{Clashes: []Clash{}, NearMisses: []Clash{}, ThroughCuts: []Clash{}, NotLooked: []string{}}
}

// clashing readies the look; not ok: there is nothing to look at.
func (p *plan) clashing(out *Clearing, h *Header) (clashing, bool) {
	body := p.weight.body
	if body == nil {
		return clashing{}, false
	}
	body.prepare()
	if body.err != nil {
		h.warn("clash-unchecked", "whether legs touch the load was not looked at: "+body.err.Error(), "see to it by eye, or use a coarser mesh")
		return clashing{}, false
	}
	if len(body.parts) == 0 {
		return clashing{}, false
	}
	legs := p.load.Rigging.Legs
	c := clashing{plan: p, picks: p.ownPicks(), body: body, side: legs.Thickness / 2, fittings: legs.Fittings, stated: legs.Fittings > 0, out: out}
	if c.fittings == 0 {
		c.fittings = usualFittings
	}
	out.Looked, out.ThicknessM, out.FittingsM = len(body.parts), legs.Thickness, c.fittings
	out.NotLooked = append(out.NotLooked, body.left...)
	return c, true
}

// ownPicks are the picks in the load's own axes.
func (p *plan) ownPicks() []Pick {
	var out []Pick
	for _, pick := range p.picks {
		out = append(out, Pick{pick.Name, p.stance.own(pick.AtM)})
	}
	return out
}

// round says that the sling of a leg is choked or a basket: it lies round what it
// holds.
func (c *clashing) round(leg int) bool {
	kind := c.load.Rigging.HitchOf(c.picks[leg].Name).Kind
	return kind == "choker" || kind == "basket"
}

func (c *clashing) anyRound() bool {
	for leg := range c.picks {
		if c.round(leg) {
			return true
		}
	}
	return false
}

// hookCase is where the hook comes to stand.
type hookCase struct {
	hook geom.Vec
	name string
}

// hooks are the places of the hook for each place of the CG, the legs as stated.
func (c *clashing) hooks(r rig.Rig, best geom.Vec) []hookCase {
	cases := []hookCase{{hook: best}}
	for _, place := range c.doubt().CGs {
		one := r
		one.CG = place.At
		pose, err := one.Hang()
		if err != nil || !pose.Stable || pose.RollsOver {
			continue // refused for that
		}
		cases = append(cases, hookCase{pose.Hook, place.Name})
	}
	return cases
}

// look goes through legs and parts. No point of a leg moves farther than the
// hook, so a part that is farther from it than that is looked at once.
func (c *clashing) look(r rig.Rig, best geom.Vec) {
	cases := c.hooks(r, best)
	for i := range cases {
		cases[i].hook = c.stance.own(cases[i].hook)
	}
	for leg, pick := range c.picks {
		c.lookAlong(leg, pick.AtM, cases)
	}
}

// worst takes down how a leg passes a part where it passes it worst.
func (c *clashing) worst(leg int, o *obstacle, s seating, cases []hookCase) {
	var worst, cut *Clash
	for _, at := range cases {
		found, ok := c.passes(leg, o, s, at.hook)
		if !ok {
			continue
		}
		found.Case = at.name
		from := c.start(leg, s, at.hook)
		if found.GapM <= touches && o.throughCuts(from, at.hook, c.side+o.chord) {
			if cut == nil {
				cut = &found
			}
			continue
		}
		if worst == nil || found.GapM < worst.GapM-1e-9 {
			worst = &found
		}
	}
	switch {
	case worst != nil && worst.GapM <= touches:
		c.out.Clashes = append(c.out.Clashes, *worst)
	case cut != nil:
		c.out.ThroughCuts = append(c.out.ThroughCuts, *cut)
	case worst != nil:
		c.out.NearMisses = append(c.out.NearMisses, *worst)
	}
}

// touches in m is the gap up to which a leg counts as touching.
const touches = 1e-6

// start is from where on a leg must be clear of a part: from its pick if it does
// not take hold there.
func (c *clashing) start(leg int, s seating, hook geom.Vec) geom.Vec {
	pick := c.picks[leg].AtM
	if !s.on && !s.hole {
		return pick
	}
	along := hook.Sub(pick)
	return pick.Add(along.Mul(min(1, s.from/along.Len())))
}

// passes tells how a leg to the hook passes a part if it does so closely: beyond
// its fittings, and with them where it goes through the part. A pick that is drawn a
// little under the surface of its part is no clash, nor is a lug's own plate, nor
// what fittings of a stated reach take hold of, such as a trunnion.
func (c *clashing) passes(leg int, o *obstacle, s seating, hook geom.Vec) (Clash, bool) {
	pick := c.picks[leg].AtM
	found, ok := o.within(pick, hook, c.side+closeBy, s.from)
	if !s.hole {
		toward := hook.Sub(pick)
		end := pick.Add(toward.Mul(min(1, c.fittings/toward.Len())))
		begins, in := o.within(pick, end, 0, 0)
		deep := in && (begins.Gap < -slackDrawn && !c.stated || !s.on)
		if deep && (!ok || begins.Gap < found.Gap-c.side) {
			found, ok = begins, true
			found.Gap += c.side // taken off again below
		}
	}
	return Clash{Pick: c.picks[leg].Name, With: o.name, Box: o.given, AtM: found.At, AlongM: found.Along, GapM: found.Gap - c.side}, ok
}

// mend finds the least height of the hook and the least bars that clear, and
// tells only what clears when it is looked at again.
func (c *clashing) mend(hook geom.Vec) {
	at, cg := places(c.picks), c.weight.CGM
	var all []rig.Obstacles
	for i := range c.body.parts {
		all = append(all, c.body.parts[i].body)
	}
	joined, side := rig.Join(all...), make([]float64, len(at))
	free := c.fittings
	for i, pick := range at {
		side[i] = c.side
		for k := range c.body.parts {
			way := hook.Sub(pick)
			free = max(free, c.body.parts[k].seating(pick, way.Mul(1/way.Len()), c.fittings, c.side+closeBy).from)
		}
	}
	now := hook[2] - highest(at)
	most := max(4*now, 3*c.weight.extent().Diagonal())
	if height, ok, err := rig.LeastHeight(at, cg, joined, side, free, most); err == nil && ok && height > now && c.clearAt(rig.HookAbove(cg, at, height+spare)) {
		height = up(height + spare)
		c.out.LeastHookM = &height
	}
	if !c.anyRound() { // the parts of a sling round the load hang beside it
		c.out.LeastBars = c.bars(joined, free, most)
	}
}

func highest(at []geom.Vec) float64 {
	top := at[0][2]
	for _, p := range at {
		top = max(top, p[2])
	}
	return top
}

// clearAt says whether no leg touches anything with the hook there.
func (c *clashing) clearAt(hook geom.Vec) bool {
	for leg, pick := range c.picks {
		toward := hook.Sub(pick.AtM)
		toward = toward.Mul(1 / toward.Len())
		for i := range c.body.parts {
			o := &c.body.parts[i]
			if c.round(leg) && o.holds(pick.AtM) {
				continue
			}
			s := o.seating(pick.AtM, toward, c.fittings, c.side+closeBy)
			if found, ok := c.passes(leg, o, s, hook); ok && found.GapM <= touches {
				return false
			}
		}
	}
	return true
}

// bars are the least bars from whose ends plumb drops clear the load: one over two
// picks, two over four, paired so that the longer one is shortest.
func (c *clashing) bars(body rig.Obstacles, free, most float64) []Bar {
	var best []Bar
	longest := most
	for _, pairs := range map[int][][][2]int{2: {{{0, 1}}}, 4: {{{0, 1}, {2, 3}}, {{0, 2}, {1, 3}}, {{0, 3}, {1, 2}}}}[len(c.picks)] {
		var bars []Bar
		long := 0.0
		for _, pair := range pairs {
			a, b := c.picks[pair[0]], c.picks[pair[1]]
			length, ok, err := rig.LeastBar([2]geom.Vec{a.AtM, b.AtM}, body, c.side, free, most)
			if err != nil || !ok {
				long = most
				break
			}
			bars, long = append(bars, Bar{[2]string{a.Name, b.Name}, up(length + spare)}), max(long, length)
		}
		if long < longest {
			best, longest = bars, long
		}
	}
	return best
}
