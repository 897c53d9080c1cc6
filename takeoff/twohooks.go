package takeoff

import (
	"fmt"
	"maps"
	"slices"
	"strings"

	"go.yaml.in/yaml/v3"

	"plumbhook/units"
)

// TwoHooks says how a load hangs on two hooks, and how it is turned there. What
// the file does not say is nil or has the zero value.
type TwoHooks struct {
	Head, Tail  OneHook
	From, To    units.Turn          // from the attitude drawn, the head going up
	About       string              // x, y, -x or -y, the axis that it turns about; empty: square to the line of picks
	HookHeights *float64            // m, how far one hook may lead or lag the other in height
	Plumb       *units.FromVertical // how far the lines may be out of plumb, each way
	Slings      map[string]float64  // m by pick, hook to pick
	Line        int
}

// OneHook is one of the two.
type OneHook struct {
	Picks []string // one, or two side by side
	Crane *HookCrane
}

// HookCrane is what there is to lift with on one of two hooks.
type HookCrane struct {
	Capacity units.Mass // at the greatest radius of the lift
	Block    units.Mass // 0: not stated
	Share    float64    // of the capacity that may be used, up to 1; 0: not stated
}

const (
	aPickOrTwo = "the name of a pick, or [A, B] for two lugs side by side"
	aTurn      = "{from: 0, to: 90}, in degrees from the attitude drawn, the head going up"
	twoCranes  = "{head: {capacity: 40 t, block: 500 kg, share: 75 %}, tail: {capacity: 25 t}}"
	hookSlings = "lengths from hook to pick, such as {A: 3000, B: 4000}"
)

// mostLean in degrees is more than any line may be out of plumb, and mostTurned
// the most that a load is turned over.
const (
	mostLean   = 15
	mostTurned = 180
)

var twoHooksKeys = []key[TwoHooks]{
	{name: "head", takes: aPickOrTwo, must: true, read: func(r *reader, n *yaml.Node, t *TwoHooks) { t.Head.Picks = r.pickOrTwo(n) }},
	{name: "tail", takes: aPickOrTwo, must: true, read: func(r *reader, n *yaml.Node, t *TwoHooks) { t.Tail.Picks = r.pickOrTwo(n) }},
	{name: "turn", takes: aTurn, read: func(r *reader, n *yaml.Node, t *TwoHooks) { walk(r, n, "a turn on two hooks", turnKeys, t) }},
	{name: "hook heights", takes: "how far one hook may lead or lag the other in height, such as 50", read: func(r *reader, n *yaml.Node, t *TwoHooks) {
		if l, ok := r.length(n); ok && l < 0 {
			r.bad(n, fmt.Sprintf("the length %s must not be below zero: it counts both ways", short(n.Value)), "write "+aLength+", or 0")
		} else if ok {
			t.HookHeights = &l
		}
	}},
	{name: "plumb", takes: "degrees that the lines may be out of plumb, each way, such as 3", read: func(r *reader, n *yaml.Node, t *TwoHooks) {
		if a, ok := r.degrees(n, 0, mostLean); ok {
			lean := units.FromVertical(units.Radians(a))
			t.Plumb = &lean
		}
	}},
	{name: "cranes", takes: twoCranes, read: func(r *reader, n *yaml.Node, t *TwoHooks) { walk(r, n, "`cranes`", cranesKeys, t) }},
	{name: "slings", takes: hookSlings, read: readHookSlings},
}

var turnKeys = []key[TwoHooks]{
	{name: "from", takes: anAngle, read: func(r *reader, n *yaml.Node, t *TwoHooks) { t.From = r.turnedBy(n) }},
	{name: "to", takes: anAngle, must: true, read: func(r *reader, n *yaml.Node, t *TwoHooks) { t.To = r.turnedBy(n) }},
	{name: "about", takes: "x, y, -x or -y, right-handed: only where one pick is drawn plumb over the other", read: func(r *reader, n *yaml.Node, t *TwoHooks) {
		t.About, _ = r.word(n, "x", "y", "-x", "-y")
	}},
}

var cranesKeys = []key[TwoHooks]{
	{name: "head", takes: "{capacity: 40 t, block: 500 kg, share: 75 %}", read: func(r *reader, n *yaml.Node, t *TwoHooks) { t.Head.Crane = r.hookCrane(n) }},
	{name: "tail", takes: "{capacity: 40 t, block: 500 kg, share: 75 %}", read: func(r *reader, n *yaml.Node, t *TwoHooks) { t.Tail.Crane = r.hookCrane(n) }},
}

const aPartUsed = "the part of the capacity that may be used, such as 75 %"

var hookCraneKeys = []key[HookCrane]{
	{name: "capacity", takes: aMass, must: true, read: func(r *reader, n *yaml.Node, c *HookCrane) { c.Capacity, _ = r.mass(n) }},
	{name: "block", takes: aMass, read: func(r *reader, n *yaml.Node, c *HookCrane) { c.Block, _ = r.mass(n) }},
	{name: "share", takes: aPartUsed, read: func(r *reader, n *yaml.Node, c *HookCrane) {
		s, ok := quantity(r, n, aPartUsed, units.ParsePercent)
		if ok && !(s > 0 && s <= 1) {
			r.bad(n, fmt.Sprintf("the share %s must be more than 0 and at most 100 %%", short(n.Value)), "write "+aPartUsed)
			return
		}
		c.Share = s
	}},
}

func (r *reader) hookCrane(n *yaml.Node) *HookCrane {
	var c HookCrane
	walk(r, n, "a crane of two", hookCraneKeys, &c)
	return &c
}

// degrees returns an angle from one to another, both with them.
func (r *reader) degrees(n *yaml.Node, least, most float64) (float64, bool) {
	a, ok := quantity(r, n, anAngle, units.ParseDegrees)
	if ok && !(a >= least && a <= most) {
		r.bad(n, fmt.Sprintf("the angle %s must be from %g to %g degrees", short(n.Value), least, most), "write "+anAngle)
		return 0, false
	}
	return a, ok
}

func (r *reader) turnedBy(n *yaml.Node) units.Turn {
	a, _ := r.degrees(n, -mostTurned, mostTurned)
	return units.Turn(units.Radians(a))
}

// pickOrTwo returns the names of the picks of one hook.
func (r *reader) pickOrTwo(n *yaml.Node) []string {
	list := []*yaml.Node{n}
	if n.Kind == yaml.SequenceNode {
		list = r.list(n, aPickOrTwo)
	}
	if len(list) > 2 {
		r.bad(n, fmt.Sprintf("%d picks on one hook: one, or two side by side, are taken", len(list)), "write "+aPickOrTwo)
		return nil
	}
	var names []string
	for _, one := range list {
		if name, ok := r.text(one); ok {
			names = append(names, name)
		}
	}
	return names
}

func readHookSlings(r *reader, n *yaml.Node, t *TwoHooks) {
	if n.Kind != yaml.MappingNode || len(n.Content) == 0 {
		r.notThis(n, hookSlings)
		return
	}
	t.Slings = map[string]float64{}
	for i := 0; i+1 < len(n.Content); i += 2 {
		name, value := n.Content[i], n.Content[i+1]
		if isEmpty(value) {
			r.bad(name, fmt.Sprintf("the sling to %q has no length", short(name.Value)), "write "+aLength)
		} else if length, ok := r.positive(value); ok {
			t.Slings[oneLine(name.Value)] = length
		}
	}
}

// readTwoHooks reads two hooks and sees that they fit what was read before
// them: picks and what is said of one hook.
func readTwoHooks(r *reader, n *yaml.Node, g *Rigging) {
	before := r.faults
	t := TwoHooks{Line: n.Line}
	if !walk(r, n, "`two hooks`", twoHooksKeys, &t) || r.faults > before {
		return
	}
	g.TwoHooks = &t
	if text, fix := g.besideTwoHooks(); text != "" {
		r.bad(n, text, fix)
	} else if text, fix := g.picksOfTwoHooks(); text != "" {
		r.bad(n, text, fix)
	}
}

// besideTwoHooks says what is stated of a lift on one hook and has no meaning
// for two.
func (g *Rigging) besideTwoHooks() (text, fix string) {
	switch {
	case g.Limits.Crane != nil:
		return "`limits` has one `crane`, and there are two hooks", "write `cranes: " + twoCranes + "` in `two hooks`"
	case g.Hook != nil || g.Legs.Mode != "":
		return "`hook` and `legs` are those of a lift on one hook, and there are two", "take them away; lengths of slings go under `slings` in `two hooks`"
	case g.Sharing != nil:
		return "`sharing` is that of legs on one hook, and there are two", "take it away: statics settles what two hooks carry"
	case g.Limits.Headroom != nil || g.Limits.Tilt != nil:
		return "`headroom` and `tilt` in `limits` are those of a lift on one hook: beside two hooks they are not looked at", "take them away"
	case g.Wind != nil || g.TagLine != nil || g.LiftOff != nil:
		return "`wind`, `tag line` and `lift-off` are worked out for a lift on one hook: beside two hooks they are not looked at", "take them away"
	}
	if kind := g.slides(); kind != "" {
		return fmt.Sprintf("a %s hitch slides round a load that turns, so that it is no fixed pick; on two hooks it is not worked out", kind),
			"pick it up by lugs or trunnions, with `hitch: vertical`"
	}
	return "", ""
}

// slides names the first hitch that is choked or a basket; empty: none is.
func (g *Rigging) slides() string {
	all := []Hitch{g.Hitch}
	for _, p := range g.Picks {
		if p.Hitch != nil {
			all = append(all, *p.Hitch)
		}
	}
	for _, h := range all {
		if h.Kind == "choker" || h.Kind == "basket" {
			return h.Kind
		}
	}
	return ""
}

// picksOfTwoHooks says what is wrong with the names of the picks.
func (g *Rigging) picksOfTwoHooks() (text, fix string) {
	var names []string
	for _, p := range g.Picks {
		names = append(names, p.Name)
	}
	if len(names) == 0 {
		return "two hooks, but no `picks`: none are proposed for two hooks", "write `picks: [{name: A, at: [x, y, z]}, ...]`"
	}
	used := map[string]bool{}
	for _, name := range slices.Concat(g.TwoHooks.Head.Picks, g.TwoHooks.Tail.Picks) {
		switch {
		case !slices.Contains(names, name):
			return fmt.Sprintf("%q is no pick", name), "the picks are " + strings.Join(names, ", ")
		case used[name]:
			return fmt.Sprintf("the pick %q is named twice", name), "give each hook picks of its own"
		}
		used[name] = true
	}
	for _, name := range names {
		if !used[name] {
			return fmt.Sprintf("the pick %q is on neither hook", name), "name it under `head` or `tail`, or take it away"
		}
	}
	for _, name := range slices.Sorted(maps.Keys(g.TwoHooks.Slings)) {
		if !used[name] {
			return fmt.Sprintf("a sling to %q, which is no pick", name), "the picks are " + strings.Join(names, ", ")
		}
	}
	return "", ""
}
