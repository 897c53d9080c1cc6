package takeoff

import (
	"fmt"
	"slices"
	"strings"

	"go.yaml.in/yaml/v3"

	"plumbhook/geom"
	"plumbhook/units"
)

// Rigging is what the load file says of the lift. What it does not say has
// the zero value: nothing is assumed here.
type Rigging struct {
	Picks          []Pick
	Candidates     Candidates
	Hook           *Hook
	Legs           Legs
	Hitch          Hitch  // of all legs, but those whose pick has its own
	Rules          string // US, EN, or not stated
	Surroundings   Surroundings
	Dynamic        float64 // factor of at least 1; 0: not stated
	PlanningFactor float64 // factor of at least 1; 0: not stated
	Limits         Limits
	Sharing        *Sharing
	Outside
	TwoHooks *TwoHooks   // nil: the legs go to one hook
	Bar      *Bar        // the topmost bar under the hook; nil: legs straight to the picks
	Stock    *SlingStock // nil: no list of slings is named
}

// Pick is a point where a leg takes hold of the load.
type Pick struct {
	Name string
	At   geom.Vec // m
	Lug  *Lug     // nil: not stated
	Line int

	Hitch   *Hitch    // nil: that of all legs
	Plate   *LugPlate // of the lug; nil: not stated
	Fitting *Fitting  // nil: not stated
}

// Hook is where the hook is to be: so high above the highest pick, plumb over
// the centre of gravity, or at a place.
type Hook struct {
	Above  string    // "picks", or empty with At
	Height float64   // m
	At     *geom.Vec // m
}

// Legs says how long the legs are, bearing to bearing.
type Legs struct {
	Mode          string             // "level", "attitude", "equal", "given", "stock", or not stated
	Equal         float64            // m, with mode equal
	Given         map[string]float64 // m by pick, with mode given
	Stock         []float64          // m, with mode stock: slings in the rack, alone
	Hardware      float64            // m, with mode stock: what link and shackle add to each leg
	Shortener     Shortener          // with mode stock; zero: none
	Tolerance     float64            // m, plus or minus; 0: none stated
	TolerancePart float64            // fraction, plus or minus; 0: none stated
	Stretch       Stretch            // zero: none stated
	Up            *geom.Vec          // the load's direction that is to point up; nil: as drawn
	Thickness     float64            // m, diameter of the line and its fittings; 0: not stated
	Fittings      float64            // m, how far from the pick the lug, shackle or hook reaches; 0: not stated
	Link          units.Mass         // what the link that gathers them is rated for; 0: not stated
}

// Sharing is a basis for sharing the load among legs below the governing one.
type Sharing struct {
	Basis     string     // "elastic", "three of four" or "equalised"
	Because   string     // why it may be used
	Equalised [][]string // names of picks, with basis equalised: the legs of each group pull alike
}

// mostPicks is how many legs the statics takes.
const mostPicks = 8

var pickKeys = []key[Pick]{
	{name: "name", takes: aText, must: true, read: func(r *reader, n *yaml.Node, p *Pick) { p.Name, _ = r.text(n) }},
	{name: "at", takes: aPlace, must: true, read: func(r *reader, n *yaml.Node, p *Pick) { p.At, _ = r.place(n) }},
	{name: "hitch", takes: aHitch, read: readPickHitch},
	{name: "lug", takes: aLug, read: readLug},
	{name: "fitting", takes: aFitting, read: readFitting},
}

func readPicks(r *reader, n *yaml.Node, l *Load) {
	list := r.list(n, "a list of {name, at}")
	if len(list) > mostPicks {
		r.bad(n, fmt.Sprintf("%d picks; a hook takes 1 to %d legs here", len(list), mostPicks), "leave out picks, or rig the load from bars")
		return
	}
	for _, one := range list {
		p := Pick{Line: one.Line}
		if !walk(r, one, "a pick", pickKeys, &p) {
			continue
		}
		for _, q := range l.Rigging.Picks {
			if q.Name == p.Name && p.Name != "" {
				r.bad(one, fmt.Sprintf("the pick %q is here twice, first on line %d", p.Name, q.Line), "give each pick its own name")
			}
		}
		l.Rigging.Picks = append(l.Rigging.Picks, p)
	}
}

var hookKeys = []key[Hook]{
	{name: "above", takes: "`picks`", read: func(r *reader, n *yaml.Node, h *Hook) { h.Above, _ = r.word(n, "picks") }},
	{name: "height", takes: aLength, read: func(r *reader, n *yaml.Node, h *Hook) { h.Height, _ = r.positive(n) }},
	{name: "at", takes: aPlace, read: func(r *reader, n *yaml.Node, h *Hook) {
		if v, ok := r.place(n); ok {
			h.At = &v
		}
	}},
}

const hookFix = "write `hook: {above: picks, height: 1200}`, or `hook: {at: [x, y, z]}`"

func readHook(r *reader, n *yaml.Node, l *Load) {
	before := r.faults
	var h Hook
	if !walk(r, n, "a hook", hookKeys, &h) || r.faults > before {
		l.Rigging.Hook = &h // there, if wrong: what needs one need not complain
		return
	}
	switch {
	case h.At != nil && (h.Above != "" || h.Height != 0):
		r.bad(n, "the hook is placed twice, by `at` and by a height above the picks", hookFix)
	case h.At == nil && h.Above == "":
		r.bad(n, "the hook has no place", hookFix)
	case h.At == nil && h.Height == 0:
		r.bad(n, "the hook has no `height` above the picks", hookFix)
	}
	l.Rigging.Hook = &h
}

var legKeys = []key[Legs]{
	{name: "lengths", takes: "`level`, `attitude`, one length for all, {A: 2800, B: 3000} or {stock: [2500, 3000, 3500]}", must: true, read: readLengths},
	{name: "length tolerance", takes: "5 mm or 0.2 %", read: readLengthTolerance},
	{name: "hardware", takes: "the length that link and shackle add to a sling from stock, such as 240", read: func(r *reader, n *yaml.Node, l *Legs) { l.Hardware, _ = r.positive(n) }},
	{name: "thickness", takes: "the diameter of sling line and fittings, such as 40: what a leg needs beside the load", read: func(r *reader, n *yaml.Node, l *Legs) { l.Thickness, _ = r.positive(n) }},
	{name: "fittings", takes: "how far from the pick the shackle or hook on the lug reaches, such as 120: so far a leg may touch the lug", read: func(r *reader, n *yaml.Node, l *Legs) { l.Fittings, _ = r.positive(n) }},
	{name: "shortener", takes: "{step: 32, most: 20}: what one step takes off a leg, and how many there are", read: readShortener},
	{name: "stretch", takes: "{EA: 40 MN}, {percent: 3 %, at: 10 t} or {family: synthetic_web, material: nylon}", read: readStretch},
	{name: "attitude", takes: "{about: y, by: 30} or {up: [x, y, z]}: how the load is to hang, where not as drawn", read: readAttitude},
	linkKey,
}

func readLegs(r *reader, n *yaml.Node, l *Load) {
	before := r.faults
	if walk(r, n, "`legs`", legKeys, &l.Rigging.Legs) && r.faults == before {
		r.legsFit(n, l.Rigging)
	}
}

func readLengths(r *reader, n *yaml.Node, l *Legs) {
	switch {
	case n.Kind == yaml.MappingNode:
		l.Mode, l.Given = "given", map[string]float64{}
		for i := 0; i+1 < len(n.Content); i += 2 {
			name, value := n.Content[i], n.Content[i+1]
			pick := oneLine(name.Value) // as r.text reads the pick's name
			if pick == "stock" && value.Kind == yaml.SequenceNode {
				r.stock(name, value, len(n.Content) == 2, l)
				return
			} else if isEmpty(value) {
				r.bad(name, fmt.Sprintf("the leg to %q has no length", pick), "write "+aLength)
			} else if length, ok := r.positive(value); ok {
				l.Given[pick] = length
			}
		}
	case strings.TrimSpace(n.Value) == "level" || strings.TrimSpace(n.Value) == "attitude":
		l.Mode = strings.TrimSpace(n.Value)
	default:
		l.Mode = "equal"
		if near := units.Nearest(n.Value, []string{"level", "attitude"}); len(near) > 0 {
			r.bad(n, fmt.Sprintf("%q is neither a length nor `level`", short(n.Value)), fmt.Sprintf("did you mean `%s`?", near[0]))
			return
		}
		l.Equal, _ = r.positive(n)
	}
}

// mostStock is how many lengths a rack may have: far above any.
const mostStock = 200

// stock reads the lengths of the slings in the rack.
func (r *reader) stock(name, list *yaml.Node, alone bool, l *Legs) {
	l.Mode, l.Given = "stock", nil
	if !alone {
		r.bad(name, "`stock` beside lengths of legs", "write either {stock: [2500, 3000]} or a length for each pick")
		return
	}
	if len(list.Content) > mostStock {
		r.bad(list, fmt.Sprintf("more than %d lengths", mostStock), "leave out those that are far from what is needed")
		return
	}
	for _, one := range r.list(list, "a list of lengths, such as [2500, 3000, 3500]") {
		if length, ok := r.positive(one); ok {
			l.Stock = append(l.Stock, length)
		}
	}
}

// Shortener takes a step, 0 to Most times, off a leg.
type Shortener struct {
	Step float64 // m
	Most int
}

var shortenerKeys = []key[Shortener]{
	{name: "step", takes: aLength, must: true, read: func(r *reader, n *yaml.Node, s *Shortener) { s.Step, _ = r.positive(n) }},
	{name: "most", takes: aWhole, must: true, read: func(r *reader, n *yaml.Node, s *Shortener) { s.Most, _ = r.whole(n, 200) }},
}

func readShortener(r *reader, n *yaml.Node, l *Legs) {
	walk(r, n, "shortener", shortenerKeys, &l.Shortener)
}

func readLengthTolerance(r *reader, n *yaml.Node, l *Legs) {
	s, ok := r.scalar(n, "5 mm or 0.2 %")
	if !ok {
		return
	}
	if !strings.Contains(s, "%") && !strings.Contains(s, "cent") {
		l.Tolerance, _ = r.positive(n)
		return
	}
	p, ok := quantity(r, n, "5 mm or 0.2 %", units.ParsePercent)
	if ok && !(p > 0 && p <= 0.2) {
		r.bad(n, fmt.Sprintf("the tolerance %s must be more than 0 and at most 20 %%", short(s)), "write 5 mm or 0.2 %")
		return
	}
	l.TolerancePart = p
}

// legsFit sees that lengths, hook and picks go together.
func (r *reader) legsFit(n *yaml.Node, g Rigging) {
	cut := g.Legs.Mode == "level" || g.Legs.Mode == "attitude" // for a hook
	switch {
	case !r.attitudeFits(n, g):
	case cut && g.Hook == nil:
		r.bad(n, "legs that make the load hang level need a hook to hang from", hookFix)
	case !cut && g.Hook != nil:
		r.bad(n, "a `hook` beside given leg lengths: with given lengths the hook's place is a result",
			"take `hook` away, or write `lengths: level` and let the hook give the lengths")
	case g.Legs.Mode != "stock" && g.Stock == nil && (g.Legs.Hardware > 0 || g.Legs.Shortener.Most > 0):
		r.bad(n, "`hardware` and `shortener` go with lengths from stock: other lengths are bearing to bearing, with all that is in the leg",
			"take them away, or write `lengths: {stock: [2500, 3000]}`, or name your own slings with `sling stock`")
	case g.Legs.Mode == "given":
		r.lengthsFit(n, g)
	}
}

// lengthsFit sees that each pick has a length and each length a pick.
func (r *reader) lengthsFit(n *yaml.Node, g Rigging) {
	var names, without, strange []string
	for _, p := range g.Picks {
		names = append(names, p.Name)
		if _, ok := g.Legs.Given[p.Name]; !ok {
			without = append(without, p.Name)
		}
	}
	for name := range g.Legs.Given {
		if !slices.Contains(names, name) {
			strange = append(strange, name)
		}
	}
	slices.Sort(strange)
	switch {
	case len(names) == 0:
		r.bad(n, "leg lengths by pick, but no `picks`", "write `picks: [{name: A, at: [x, y, z]}, ...]`")
	case len(strange) > 0:
		r.bad(n, fmt.Sprintf("a leg length for %s, which is no pick", strings.Join(strange, ", ")), "the picks are "+strings.Join(names, ", "))
	case len(without) > 0:
		r.bad(n, fmt.Sprintf("no leg length for %s", strings.Join(without, ", ")), "write a length for each pick, or one length for all")
	}
}

var sharingKeys = []key[Sharing]{
	{name: "basis", takes: "`elastic` or `three of four`", read: func(r *reader, n *yaml.Node, s *Sharing) {
		s.Basis, _ = r.word(n, "elastic", "three of four")
	}},
	{name: "equalised", also: []string{"equalized"}, takes: "groups of picks whose legs gear makes pull alike, such as [[A, B]]", read: readEqualised},
	{name: "because", takes: "the reason, such as \"equalising beam\"", must: true, read: func(r *reader, n *yaml.Node, s *Sharing) {
		s.Because, _ = r.text(n)
	}},
}

func readSharing(r *reader, n *yaml.Node, l *Load) {
	var s Sharing
	before := r.faults
	if walk(r, n, "`sharing`", sharingKeys, &s) && r.faults == before && r.sharingFits(n, &s, l.Rigging) {
		l.Rigging.Sharing = &s
	}
}
