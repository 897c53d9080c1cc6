package takeoff

import (
	"fmt"
	"slices"
	"strings"

	"go.yaml.in/yaml/v3"

	"plumbhook/geom"
	"plumbhook/units"
)

const (
	aShare = "a percentage, such as 1.5 %"
	anOf   = "all, the name of a part, or the name of a material"

	mostAllowances = 1000
)

// Where an allowance has no `low` or `high`, it is taken from half to one and a
// half times its figure. Common practice, no source.
const (
	lowUnsaid  = 0.5
	highUnsaid = 1.5
)

// allowanceDraft is an allowance while its keys are read.
type allowanceDraft struct {
	name                               string
	word                               *yaml.Node // the name as it stands
	of, material, low, high, share, at *yaml.Node
	figures                            [4]*yaml.Node // by amounts
}

// amount is a way to say how much an allowance is.
type amount struct {
	name, takes string
	kind        allowanceKind
	most        float64 // of the figure, in SI
	mostText    string
	parse       func(r *reader, n *yaml.Node) (float64, bool)
}

// amounts are the ways to say it: just one of them is written.
var amounts = [4]amount{
	{"add", aShare + " of the mass of what it is of", partOfMass, 1, "100 %", func(r *reader, n *yaml.Node) (float64, bool) {
		return quantity(r, n, aShare, units.ParsePercent)
	}},
	{"thickness", "the thickness of a layer on the surface of what it is of, with `material` beside it", layer, 2, "2 m", (*reader).length},
	{"per area", aPerArea, layer, 1e4, "10 t/m²", func(r *reader, n *yaml.Node) (float64, bool) {
		return quantity(r, n, aPerArea, func(s string) (float64, error) { return parseRate(s, areasBelow, aPerArea) })
	}},
	{"weight", aMass, knownWeight, heaviest, "1e9 kg", func(r *reader, n *yaml.Node) (float64, bool) {
		m, ok := quantity(r, n, aMass, units.ParseMass)
		return float64(m), ok
	}},
}

// thicknessAmount is the one whose figure is a length until its material is
// known.
const thicknessAmount = 1

// keepIn is a key of an allowance whose value is read once its kind is known.
func keepIn(name, takes string, field func(*allowanceDraft) **yaml.Node) key[allowanceDraft] {
	return key[allowanceDraft]{name: name, takes: takes, read: func(_ *reader, n *yaml.Node, d *allowanceDraft) { *field(d) = n }}
}

// allowanceKeys are the keys of an allowance.
func allowanceKeys() []key[allowanceDraft] {
	keys := []key[allowanceDraft]{
		{name: "name", takes: aText, must: true, read: func(r *reader, n *yaml.Node, d *allowanceDraft) { d.name, _ = r.text(n); d.word = n }},
		keepIn("of", anOf, func(d *allowanceDraft) **yaml.Node { return &d.of }),
	}
	for i, m := range amounts {
		keys = append(keys, keepIn(m.name, m.takes, func(d *allowanceDraft) **yaml.Node { return &d.figures[i] }))
	}
	return append(keys,
		keepIn("low", "the least that it may be, in the same kind as the figure itself", func(d *allowanceDraft) **yaml.Node { return &d.low }),
		keepIn("high", "the most that it may be, in the same kind as the figure itself", func(d *allowanceDraft) **yaml.Node { return &d.high }),
		keepIn("material", aMaterial+", of a layer with a thickness", func(d *allowanceDraft) **yaml.Node { return &d.material }),
		keepIn("share", "a percentage: how much of the surface a layer covers", func(d *allowanceDraft) **yaml.Node { return &d.share }),
		keepIn("at", aPlace+" of a known weight", func(d *allowanceDraft) **yaml.Node { return &d.at }),
	)
}

// readAllowances reads the list of allowances. The parts have been read before.
func readAllowances(r *reader, n *yaml.Node, l *Load) {
	list := r.list(n, "a list of allowances, each beginning with '- '")
	if len(list) > mostAllowances {
		r.bad(n, fmt.Sprintf("the load has more than %d allowances", mostAllowances), "join small ones into one")
		return
	}
	sound := r.faults == 0 // else the part that one is of may be missing
	for _, one := range list {
		before := r.faults
		var d allowanceDraft
		if !walk(r, one, "an allowance", allowanceKeys(), &d) || r.faults > before {
			continue
		}
		a := Allowance{Name: d.name, Of: "all", Line: one.Line, share: 1, copies: 1}
		r.ownName(d.word, a.Name, l.Parts)
		r.figures(one, d, &a)
		if sound {
			r.belongsTo(d, &a, l.Parts)
		}
		if r.faults == before {
			l.Allowances = append(l.Allowances, a)
		}
	}
}

// figures reads how much an allowance is.
func (r *reader) figures(n *yaml.Node, d allowanceDraft, a *Allowance) {
	which, ok := r.oneAmount(n, d)
	if !ok {
		return
	}
	m, node := amounts[which], d.figures[which]
	a.kind = m.kind
	a.Written = m.name + " " + oneLine(node.Value)
	if a.figure, ok = m.parse(r, node); !ok {
		return
	}
	if !(a.figure > 0 && a.figure <= m.most) {
		r.bad(node, fmt.Sprintf("`%s: %s` must be more than zero and at most %s", m.name, short(node.Value), m.mostText), "write "+m.takes)
		return
	}
	r.rangeOf(m, d, a)
	r.layerOf(n, which == thicknessAmount, d, a)
	if d.at == nil {
		return
	}
	if m.kind != knownWeight {
		r.bad(d.at, "only a known weight has a place: "+m.name+" is spread over what it is of", "take `at` away, or give the allowance as a `weight`")
	} else if at, ok := r.place(d.at); ok {
		a.at = []geom.Vec{at}
	}
}

// oneAmount returns which of the amounts is written.
func (r *reader) oneAmount(n *yaml.Node, d allowanceDraft) (int, bool) {
	var found []int
	var names, all []string
	for i, m := range amounts {
		all = append(all, "`"+m.name+"`")
		if d.figures[i] != nil {
			found, names = append(found, i), append(names, "`"+m.name+"`")
		}
	}
	switch len(found) {
	case 1:
		return found[0], true
	case 0:
		r.bad(n, "the allowance does not say how much it is", "write one of "+strings.Join(all, ", ")+", such as `add: 1.5 %`")
	default:
		r.bad(d.figures[found[1]], "the allowance says how much it is in several ways: "+strings.Join(names, ", "), "keep one; make an allowance of each")
	}
	return 0, false
}

// rangeOf reads the least and the most of an allowance, or takes them.
func (r *reader) rangeOf(m amount, d allowanceDraft, a *Allowance) {
	a.low, a.high = lowUnsaid*a.figure, highUnsaid*a.figure
	low, high := percent(lowUnsaid)+" of that", percent(highUnsaid)+" of that"
	for _, side := range []struct {
		name  string
		node  *yaml.Node
		value *float64
		text  *string
		fits  func(x float64) bool
	}{
		{"low", d.low, &a.low, &low, func(x float64) bool { return x >= 0 && x <= a.figure }},
		{"high", d.high, &a.high, &high, func(x float64) bool { return x >= a.figure && x <= 10*m.most }},
	} {
		if side.node == nil {
			continue
		}
		x, ok := m.parse(r, side.node)
		if ok && !side.fits(x) {
			r.bad(side.node, fmt.Sprintf("`%s: %s` does not fit `%s`", side.name, short(side.node.Value), a.Written),
				"low may be from zero to the figure, high from the figure to ten times "+m.mostText)
		}
		a.Written += ", " + side.name + " " + oneLine(side.node.Value)
		*side.value, *side.text = x, oneLine(side.node.Value)
	}
	a.why = fmt.Sprintf("from %s to %s", low, high)
	switch {
	case d.low == nil && d.high == nil:
		a.why += ": common practice, no source"
	case d.low == nil:
		a.why += ", the low side common practice, no source"
	case d.high == nil:
		a.why += ", the high side common practice, no source"
	default:
		a.why += " as written"
	}
}

// layerOf reads what a layer is of and how much of the surface it covers, and
// turns its thickness into a mass by area: at its least thickness it is as
// light as its material can be, at its greatest as heavy.
func (r *reader) layerOf(n *yaml.Node, thick bool, d allowanceDraft, a *Allowance) {
	switch {
	case thick && d.material == nil:
		r.bad(n, "a layer with a `thickness` has no material", "write `material:` with "+aMaterial)
	case !thick && d.material != nil:
		r.bad(d.material, "only a layer with a `thickness` takes a material", "take `material` away")
	case thick:
		if m, ok := r.material(d.material); ok {
			density := float64(m.Density)
			a.why = fmt.Sprintf("%s of %s of %s, ±%s of its density; %s", metres(a.figure), m.Density.Format(units.Both), m, percent(m.Tolerance), a.why)
			a.figure *= density
			a.low *= density * (1 - m.Tolerance)
			a.high *= density * (1 + m.Tolerance)
			a.Written += " of " + m.written
		}
	}
	if d.share == nil {
		return
	}
	if a.kind != layer {
		r.bad(d.share, "only a layer has a `share` of the surface", "take it away")
		return
	}
	s, ok := quantity(r, d.share, aShare, units.ParsePercent)
	if ok && !(s > 0 && s <= 1) {
		r.bad(d.share, fmt.Sprintf("the share %s must be more than zero and at most 100 %%", short(d.share.Value)), "write how much of the surface is covered, such as 50 %")
	}
	a.share = s
	a.Written += ", share " + oneLine(d.share.Value)
}

// belongsTo settles which parts an allowance is of.
func (r *reader) belongsTo(d allowanceDraft, a *Allowance, parts []Part) {
	at, ok := d.of, true
	if d.of != nil {
		if a.Of, ok = r.text(d.of); ok && a.Of != "all" {
			ok = r.named(d.of, a, parts)
		}
	}
	if !ok || a.kind != layer {
		return
	}
	if slices.ContainsFunc(parts, func(p Part) bool { return a.of.holds(p) && p.hasSurface() }) {
		return
	}
	if at == nil {
		for _, f := range d.figures {
			if f != nil {
				at = f
			}
		}
	}
	r.bad(at, fmt.Sprintf("%s has no surface that a layer could lie on: weights and welds have none", short(a.Of)), "give the allowance as a `weight`, or name a part with a solid")
}

// named looks up what an allowance is of: a part, or what parts are made of.
func (r *reader) named(n *yaml.Node, a *Allowance, parts []Part) bool {
	byPart, byMaterial := partsOf{part: a.Of}, partsOf{material: a.Of}
	if m, f := r.findMaterial(a.Of); f == nil {
		byMaterial.material = m.Name
	}
	isPart, isMaterial := slices.ContainsFunc(parts, byPart.holds), slices.ContainsFunc(parts, byMaterial.holds)
	switch {
	case isPart && isMaterial:
		r.bad(n, fmt.Sprintf("%q is both a part and a material of parts", short(a.Of)), "call the part by another name, so that it is plain which is meant")
	case isPart:
		a.of = byPart
	case isMaterial:
		a.of = byMaterial
	default:
		fix := "write " + anOf + " of this load"
		if near := units.Nearest(a.Of, hosts(parts)); len(near) > 0 {
			fix = fmt.Sprintf("did you mean %q? %s", near[0], fix)
		}
		r.bad(n, fmt.Sprintf("no part is called %q or made of it", short(a.Of)), fix)
	}
	return isPart != isMaterial
}

// hosts lists what an allowance could be of.
func hosts(parts []Part) []string {
	names := []string{"all"}
	for _, p := range parts {
		names = append(names, p.Name)
		if m := p.Material.Name; m != "" && !slices.Contains(names, m) {
			names = append(names, m)
		}
	}
	return names
}
