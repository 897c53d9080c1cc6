package takeoff

import (
	"fmt"
	"maps"
	"slices"
	"strings"

	"go.yaml.in/yaml/v3"

	"plumbhook/units"
)

// The kinds of bars.
const (
	Spreader    = "spreader"     // held at its ends by legs that lean in, and so pressed
	LiftingBeam = "lifting beam" // held in its middle, and so bent
	Frame       = "frame"        // four corners, held and holding
)

// Bar is a bar of the rigging and what hangs from it. A length of 0 is not
// stated.
type Bar struct {
	Name     string
	Kind     string
	Weight   units.Mass
	Length   float64   // m, between the points that legs hang from
	Width    float64   // m, of a frame the same across
	Depth    float64   // m, of the points that it is held by above those
	HeldAt   []float64 // m from the middle toward the second end; nil: at the middle
	Along    string    // x, y, or empty: along the line of what hangs from it
	CGOffset float64   // m, of its own CG from the middle toward the second end
	Height   float64   // m, of the points that legs hang from above the highest point that it holds
	Hook     float64   // m, of the hook above the points that it is held by
	Drops    Lengths   // down to the picks
	Top      Lengths   // up to the hook, or to the bar above
	Error    Tolerance // of the lengths of drops and top legs
	Holds    []Held    // end by end; round the corners of a frame, the first two along its length
	Line     int
	tier     int // 0: the topmost
	node     *yaml.Node
}

// Lengths are lengths of legs as given, in m: one for all, or each. Zero: not
// given.
type Lengths struct {
	All  float64
	Pick map[string]float64
	Each []float64
}

// Given says that there are lengths.
func (l Lengths) Given() bool { return l.All > 0 || l.Pick != nil || l.Each != nil }

// Tolerance is how far a length may be out, plus or minus.
type Tolerance struct {
	Plain float64 // m
	Part  float64 // fraction
}

// Held is what hangs from one end of a bar: picks, or another bar.
type Held struct {
	Picks []string
	Bar   *Bar
}

// TopLegs is how many legs hold a bar.
func (b *Bar) TopLegs() int {
	switch {
	case b.Kind == Frame:
		return 4
	case b.Kind == Spreader:
		return 2
	}
	return max(1, len(b.HeldAt))
}

// All lists a bar and those that hang from it, from the top down.
func (b *Bar) All() []*Bar {
	all := []*Bar{b}
	for _, h := range b.Holds {
		if h.Bar != nil {
			all = append(all, h.Bar.All()...)
		}
	}
	return all
}

// Mass is what a bar and those that hang from it weigh.
func (b *Bar) Mass() units.Mass {
	var m units.Mass
	for _, one := range b.All() {
		m += one.Weight
	}
	return m
}

const (
	aBar      = "a spreader, lifting beam or frame, and what hangs from it"
	someHolds = "[A, B], or for each end a list of picks or another bar: [[A, D], {bar: {...}}]"
	someDrops = "a length for all, or {A: 2000, B: 2100}"
	someTop   = "a length for all, or one for each: [3000, 3100]"
	someHeld  = "a length from the bar's middle toward its second end, such as 0 or 150, or two: [-400, 400]"
)

// barKeys are those of a bar. What others depend on comes first.
func barKeys() []key[Bar] {
	return []key[Bar]{
		{name: "name", takes: aText, read: func(r *reader, n *yaml.Node, b *Bar) { b.Name, _ = r.text(n) }},
		{name: "kind", takes: "spreader, lifting beam or frame", must: true, read: func(r *reader, n *yaml.Node, b *Bar) {
			b.Kind, _ = r.word(n, Spreader, LiftingBeam, Frame)
		}},
		{name: "weight", takes: aMass, must: true, read: func(r *reader, n *yaml.Node, b *Bar) { b.Weight, _ = r.mass(n) }},
		{name: "length", takes: "the length between the points that legs hang from, such as 3000; of a frame 3000 x 1600", must: true, read: readBarLength},
		{name: "depth", takes: "how far the points that it is held by stand above those that legs hang from", read: barLength(func(b *Bar) *float64 { return &b.Depth })},
		{name: "held at", takes: someHeld, read: readHeldAt},
		{name: "along", takes: "x or y", read: func(r *reader, n *yaml.Node, b *Bar) { b.Along, _ = r.word(n, "x", "y") }},
		{name: "cg offset", takes: "how far its own CG is from its middle, toward its second end", read: func(r *reader, n *yaml.Node, b *Bar) { b.CGOffset, _ = r.length(n) }},
		{name: "height", takes: "the height of its lower points above the highest point that it holds", read: barLength(func(b *Bar) *float64 { return &b.Height })},
		{name: "hook", takes: "the height of the hook above the points that it is held by", read: barLength(func(b *Bar) *float64 { return &b.Hook })},
		{name: "drops", takes: someDrops, read: readDrops},
		{name: "top", takes: someTop, read: readTop},
		{name: "length tolerance", takes: "5 mm or 0.2 %", read: func(r *reader, n *yaml.Node, b *Bar) {
			var l Legs
			readLengthTolerance(r, n, &l)
			b.Error = Tolerance{l.Tolerance, l.TolerancePart}
		}},
		{name: "holds", takes: someHolds, must: true, read: readHolds},
	}
}

// barLength reads a length that is more than nothing.
func barLength(of func(*Bar) *float64) func(*reader, *yaml.Node, *Bar) {
	return func(r *reader, n *yaml.Node, b *Bar) { *of(b), _ = r.positive(n) }
}

func readBarLength(r *reader, n *yaml.Node, b *Bar) {
	switch b.Kind {
	case "": // said already
	case Frame:
		if s, ok := r.sizes(n, 2); ok {
			b.Length, b.Width = s[0], s[1]
		}
	default:
		b.Length, _ = r.positive(n)
	}
}

// lengths reads one length, or a list of so many.
func (r *reader) lengths(n *yaml.Node, takes string, read func(*yaml.Node) (float64, bool)) []float64 {
	list := []*yaml.Node{n}
	if n.Kind != yaml.ScalarNode {
		list = r.list(n, takes)
	}
	var out []float64
	for _, one := range list {
		if v, ok := read(one); ok {
			out = append(out, v)
		}
	}
	return out
}

func readHeldAt(r *reader, n *yaml.Node, b *Bar) {
	b.HeldAt = r.lengths(n, someHeld, r.length)
	switch {
	case b.Kind != LiftingBeam && b.Kind != "":
		r.bad(n, fmt.Sprintf("`held at` in a %s, which is held at its ends", b.Kind), "take it away, or write `kind: lifting beam`")
	case len(b.HeldAt) > 2:
		r.bad(n, fmt.Sprintf("a lifting beam held at %d points", len(b.HeldAt)), "write "+someHeld)
	case len(b.HeldAt) == 2 && b.HeldAt[1]-b.HeldAt[0] < thinnest:
		r.bad(n, "the two points that the beam is held at are not in order", "write the one nearer to its first end first, such as [-400, 400]")
	}
	for _, at := range b.HeldAt {
		if at < -b.Length/2 || at > b.Length/2 {
			r.bad(n, fmt.Sprintf("the beam is held %s from its middle, which is beyond its ends", units.Length(at).Format(units.Metric)), "write "+someHeld)
			break
		}
	}
}

func readDrops(r *reader, n *yaml.Node, b *Bar) {
	if n.Kind != yaml.MappingNode {
		b.Drops.All, _ = r.positive(n)
		return
	}
	b.Drops.Pick = map[string]float64{}
	for i := 0; i+1 < len(n.Content); i += 2 {
		if length, ok := r.positive(n.Content[i+1]); ok {
			b.Drops.Pick[oneLine(n.Content[i].Value)] = length
		}
	}
}

func readTop(r *reader, n *yaml.Node, b *Bar) {
	if n.Kind == yaml.ScalarNode {
		b.Top.All, _ = r.positive(n)
		return
	}
	b.Top.Each = r.lengths(n, someTop, r.positive)
	if b.Kind != "" && len(b.Top.Each) != b.TopLegs() && len(n.Content) > 0 {
		r.bad(n, fmt.Sprintf("%d lengths of top legs; this %s has %d", len(n.Content), b.Kind, b.TopLegs()), "write "+someTop)
	}
}

// deepest is how many tiers of bars there may be.
const deepest = 4

func readHolds(r *reader, n *yaml.Node, b *Bar) {
	for _, one := range r.list(n, someHolds) {
		b.Holds = append(b.Holds, r.held(one, b.tier))
	}
	want := 2
	if b.Kind == Frame {
		want = 4
	}
	if b.Kind != "" && len(b.Holds) != want && len(b.Holds) > 0 {
		r.bad(n, fmt.Sprintf("%d lists of what hangs from a %s that has %s", len(b.Holds), b.Kind, ends(b.Kind)),
			"write what hangs from each: "+someHolds)
	}
}

func ends(kind string) string {
	if kind == Frame {
		return "four corners"
	}
	return "two ends"
}

// heldKeys are those of what hangs from an end where it is a bar of that tier.
func heldKeys(tier int) []key[Held] {
	return []key[Held]{
		{name: "bar", takes: aBar, must: true, read: func(r *reader, n *yaml.Node, h *Held) { h.Bar = r.bar(n, tier) }},
	}
}

// held reads what hangs from one end of a bar of some tier.
func (r *reader) held(n *yaml.Node, tier int) Held {
	if n.Kind == yaml.SequenceNode && len(n.Content) == 1 && n.Content[0].Kind == yaml.MappingNode {
		n = n.Content[0] // [{bar: ...}]
	}
	var h Held
	if n.Kind == yaml.MappingNode {
		walk(r, n, "an end of a bar", heldKeys(tier+1), &h)
		return h
	}
	list := []*yaml.Node{n}
	if n.Kind != yaml.ScalarNode {
		list = r.list(n, "a pick, a list of picks, or {bar: {...}}")
	}
	for _, one := range list {
		if name, ok := r.text(one); ok {
			h.Picks = append(h.Picks, name)
		}
	}
	return h
}

// bar reads a bar of some tier, the topmost being 0.
func (r *reader) bar(n *yaml.Node, tier int) *Bar {
	b := &Bar{Line: n.Line, tier: tier, node: n}
	if tier == deepest {
		r.bad(n, fmt.Sprintf("more than %d tiers of bars", deepest), "hang picks from this bar")
		return b
	}
	before := r.faults
	if walk(r, n, "a rigging bar", barKeys(), b) && r.faults == before {
		if b.Name == "" {
			b.Name = b.Kind // two of one kind must be told apart
		}
		r.barFits(n, b)
	}
	return b
}

const (
	heightFix = "write `height: 1500`, its lower points above the highest point that it holds; or `drops:` with lengths"
	hookFixes = "write `hook: 2500`, the hook above the points that the bar is held by; or `top:` with lengths"
)

// barFits sees that what a bar says goes together.
func (r *reader) barFits(n *yaml.Node, b *Bar) {
	picks, tier := false, b.tier
	for _, h := range b.Holds {
		picks = picks || h.Bar == nil
	}
	half := b.Length / 2
	switch {
	case tier == 0 && b.Hook > 0 && b.Top.Given():
		r.bad(n, fmt.Sprintf("the bar %q has its top legs twice, by `hook` and by `top`", b.Name), "keep one of the two")
	case tier == 0 && b.Hook == 0 && !b.Top.Given():
		r.bad(n, fmt.Sprintf("the bar %q has no hook", b.Name), hookFixes)
	case tier > 0 && b.Hook > 0:
		r.bad(n, fmt.Sprintf("`hook` in the bar %q, which hangs from another bar", b.Name), "take it away: the `height` of the bar above says how far down it hangs")
	case b.Drops.Given() && b.Height > 0:
		r.bad(n, fmt.Sprintf("the bar %q has its drops twice, by `height` and by `drops`", b.Name), "keep one of the two")
	case !b.Drops.Given() && b.Height == 0:
		r.bad(n, fmt.Sprintf("the bar %q has no height", b.Name), heightFix)
	case b.Drops.Given() && !picks:
		r.bad(n, fmt.Sprintf("`drops` in the bar %q, from which only bars hang", b.Name), "write `height`; what the lower bars hang by is their `top`")
	case b.CGOffset < -half || b.CGOffset > half:
		r.bad(n, fmt.Sprintf("the bar %q has its own CG beyond its ends", b.Name), "measure `cg offset` from its middle")
	case b.Kind == LiftingBeam && len(b.HeldAt) < 2 && b.Depth == 0:
		r.bad(n, fmt.Sprintf("the lifting beam %q has no `depth`: held at one point in line with its ends it does not right itself", b.Name),
			"write `depth`, the point that it is held by above those that legs hang from")
	case len(b.All()) > mostBars:
		r.bad(n, "more bars than the statics takes", fmt.Sprintf("use at most %d", mostBars))
	}
}

// mostBars is how many bars the statics takes beside the load.
const mostBars = 11

func readTopBar(r *reader, n *yaml.Node, g *Rigging) {
	before := r.faults
	g.Bar = r.bar(n, 0)
	if r.faults > before {
		return
	}
	switch {
	case g.Hook != nil || g.Legs.Mode != "":
		r.bad(n, "`hook` or `legs` beside a bar: the bar says where the hook is and how long all legs are",
			"take `hook` and `legs` away, and write `hook` and `height` into the bar")
	case g.Sharing != nil:
		r.bad(n, "`sharing` beside a bar: it is for legs straight to one hook", "take `sharing` away")
	case g.Wind != nil || g.TagLine != nil || g.LiftOff != nil:
		r.bad(n, "`wind`, `tag line` and `lift-off` are worked out for legs straight to one hook: beside a bar they are not looked at", "take them away")
	case g.slides() != "":
		r.bad(n, fmt.Sprintf("a %s hitch under a bar: how its bight slides there is not worked out", g.slides()), "pick it up by lugs, with `hitch: vertical`")
	case len(g.Picks) == 0:
		r.bad(n, "a bar, but no `picks`", "write `picks: [{name: A, at: [x, y, z]}, ...]`")
	default:
		r.allHeld(n, *g)
	}
}

// allHeld sees that each pick hangs from one end, and bars have names of their
// own.
func (r *reader) allHeld(n *yaml.Node, g Rigging) {
	held, named := map[string]int{}, map[string]bool{}
	var picks, loose []string
	for _, b := range g.Bar.All() {
		if named[b.Name] {
			r.bad(b.node, fmt.Sprintf("two bars are called %q", b.Name), "give each bar a `name` of its own")
			return
		}
		named[b.Name] = true
		for _, h := range b.Holds {
			for _, name := range h.Picks {
				if held[name]++; held[name] > 1 {
					r.bad(b.node, fmt.Sprintf("the pick %q hangs from bars twice", name), "let each pick hang from one end")
					return
				}
			}
		}
	}
	for _, p := range g.Picks {
		picks = append(picks, p.Name)
		if held[p.Name] == 0 {
			loose = append(loose, p.Name)
		}
		delete(held, p.Name)
	}
	for _, name := range slices.Sorted(maps.Keys(held)) {
		r.bad(n, fmt.Sprintf("%q hangs from a bar and is no pick", name), "the picks are "+strings.Join(picks, ", "))
		return
	}
	if len(loose) > 0 {
		r.bad(n, fmt.Sprintf("no bar holds %s", strings.Join(loose, ", ")), "let each pick hang from an end of a bar, or leave it out")
		return
	}
	r.dropsFit(g.Bar)
}

// dropsFit sees that each drop of a bar has its length, if they have each their
// own.
func (r *reader) dropsFit(top *Bar) {
	for _, b := range top.All() {
		if b.Drops.Pick == nil {
			continue
		}
		left := map[string]bool{}
		for name := range b.Drops.Pick {
			left[name] = true
		}
		for _, h := range b.Holds {
			for _, name := range h.Picks {
				if !left[name] {
					r.bad(b.node, fmt.Sprintf("no length of the drop to %q", name), "write "+someDrops)
					return
				}
				delete(left, name)
			}
		}
		for _, name := range slices.Sorted(maps.Keys(left)) {
			r.bad(b.node, fmt.Sprintf("the length of a drop to %q, which does not hang from this bar", name), "write "+someDrops)
			return
		}
	}
}
