package takeoff

import (
	"fmt"
	"strings"

	"go.yaml.in/yaml/v3"

	"plumbhook/geom"
	"plumbhook/units"
)

const aContents = "{fluid: water, depth: 1000}, or `fill`, `volume` or `mass` for `depth`"

// filling is what is said of the contents of a part, while it is read.
type filling struct {
	fluid, inside     *yaml.Node
	amounts           []howMuch // depth, fill, volume or mass: one of them
	tolerance         *span
	baffled, measured bool
}

// howMuch is one way to say how much there is.
type howMuch struct {
	word string
	node *yaml.Node
}

var contentsKeys = []key[filling]{
	{name: "fluid", takes: aMaterial, must: true, read: func(_ *reader, n *yaml.Node, f *filling) { f.fluid = n }},
	amountKey("depth", aLength+", from the lowest point of the inside up, as drawn"),
	amountKey("fill", "a percentage of what the inside holds, such as 60 %"),
	amountKey("volume", aVolume),
	amountKey("mass", aMass),
	{name: "tolerance", takes: aPercent, read: func(r *reader, n *yaml.Node, f *filling) {
		if s, ok := r.tolerance(n); ok {
			f.tolerance = &s
		}
	}},
	{name: "baffled", takes: aYesOrNo, read: func(r *reader, n *yaml.Node, f *filling) { f.baffled, _ = r.yesOrNo(n) }},
	{name: "measured", takes: aYesOrNo, read: func(r *reader, n *yaml.Node, f *filling) { f.measured, _ = r.yesOrNo(n) }},
	{name: "inside", takes: "the space that is filled, a solid and its place, where the part is not hollow itself", read: func(_ *reader, n *yaml.Node, f *filling) { f.inside = n }},
}

func amountKey(name, takes string) key[filling] {
	return key[filling]{name: name, takes: takes, read: func(_ *reader, n *yaml.Node, f *filling) {
		f.amounts = append(f.amounts, howMuch{name, n})
	}}
}

// contentsOf reads the contents of a part, as parts of their own. Of a part that
// is not sound only the keys of its contents are looked at.
func (r *reader) contentsOf(d draft, host Part, sound bool) []Part {
	switch {
	case d.contents == nil || host.Kind == "load": // refused there
		return nil
	case !sound:
		walk(r, d.contents, "`contents`", contentsKeys, &filling{})
		return nil
	}
	return r.fill(d.contents, host, nil)
}

// fill makes contents of a group of keys. Before is what was in the part: it
// knows the inside of a part that is not hollow itself; nil if there was nothing.
func (r *reader) fill(n *yaml.Node, host Part, before *Liquid) []Part {
	faults := r.faults
	var f filling
	if !walk(r, n, "`contents`", contentsKeys, &f) || r.faults > faults {
		return nil
	}
	fluid, known := r.material(f.fluid)
	space, ok := r.space(n, f, host, before)
	p := Part{
		Name: host.Name + contentsWord, Host: host.Name, Kind: "contents", Written: written(n), Line: n.Line,
		Places: host.Places, Together: host.Together, Position: host.Position, Material: fluid.Material, within: host.within,
	}
	if !known || !ok || !r.pour(n, f, fluid, space, &p) {
		return nil
	}
	parts, err := p.leveled()
	if !r.shaped(n, err) {
		return nil
	}
	r.pieces += len(p.Places)
	return parts
}

// contentsWord makes the name of contents of that of their part.
const contentsWord = " contents"

// space returns the inside that is filled, still empty.
func (r *reader) space(n *yaml.Node, f filling, host Part, before *Liquid) (Liquid, bool) {
	var solid geom.Solid
	space := Liquid{Pose: host.Pose, Baffled: f.baffled, Measured: f.measured}
	switch {
	case f.inside != nil:
		c, places, ok := r.oneCut(f.inside)
		if ok && len(places) != 1 {
			r.bad(f.inside, fmt.Sprintf("an inside of %d pieces", len(places)), "write one solid; give each space that is filled on its own to a part of its own")
			ok = false
		}
		if !ok {
			return space, false
		}
		solid, space.Pose = c.Solid, c.Pose
	case before != nil:
		space.Inside, space.Pose, space.note = before.Inside, before.Pose, before.note
		return space, true
	case host.hollow != nil:
		solid, space.Pose = host.hollow.solid, host.Pose.After(host.hollow.pose)
		if !host.hollow.closed {
			space.note = fmt.Sprintf("; the %s taken as closed where it is open", host.Kind)
		}
	default:
		r.bad(n, fmt.Sprintf("a %s is not hollow by itself: where its contents are is not known", host.Kind),
			"write `inside:` among its contents, the space that is filled as a solid in its place, such as `inside: {box: 1000 x 800 x 600, corner: [0, 0, 10]}`")
		return space, false
	}
	in, err := geom.NewInside(solid, 0)
	if err == nil && f.inside != nil {
		r.insides = append(r.insides, writtenInside{f.inside, host, placed(solid, space.Pose)})
	}
	space.Inside = in
	return space, r.shaped(n, err)
}

// pour settles how much there is, in all its ranges.
func (r *reader) pour(n *yaml.Node, f filling, fluid stuff, space Liquid, p *Part) bool {
	space.Density = float64(fluid.Density)
	p.Pose = space.Pose
	row := r.tolerances["contents"]
	s, why := row.span, row.source
	if f.tolerance != nil {
		s, why = *f.tolerance, "as written"
	}
	if !r.amountOf(n, f, &space) {
		return false
	}
	loose, holds := fluid.Tolerance, space.Inside.Volume()
	p.Given = units.Mass(space.Volume * space.Density)
	if weighed := f.amounts[0].word == "mass"; weighed {
		// Its mass is known, how much room that takes is not.
		space.Low, space.High = space.Volume*(1+s.low)/(1+loose), min(holds, space.Volume*(1+s.high)/(1-loose))
		p.Low, p.High = s.low, min(s.high, holds/space.Volume*(1+loose)-1)
	} else {
		space.Low, space.High = space.Volume*(1+s.low), min(holds, space.Volume*(1+s.high))
		p.Low, p.High = (1+s.low)*(1-loose)-1, space.High/space.Volume*(1+loose)-1
	}
	p.Liquid = &space
	p.Basis = fmt.Sprintf("%s × %s of %s, %s of what the inside holds; %s: amount %s (%s), density ±%s, no more than full%s",
		cubicMetres(space.Volume), fluid.Density.Format(units.Both), fluid, percent(space.Volume/holds),
		span{p.Low, p.High}, s, why, percent(loose), space.note)
	return true
}

// amountOf settles the volume at the best, in m³.
func (r *reader) amountOf(n *yaml.Node, f filling, space *Liquid) bool {
	if len(f.amounts) != 1 {
		var words []string
		for _, a := range f.amounts {
			words = append(words, a.word)
		}
		found := "nothing says how much there is"
		if words != nil {
			found = "several things say how much there is: " + strings.Join(words, ", ")
		}
		r.bad(n, found, "write one of `depth`, `fill`, `volume` and `mass`")
		return false
	}
	a, holds := f.amounts[0], space.Inside.Volume()
	var ok bool
	switch a.word {
	case "depth":
		return r.toDepth(a.node, space)
	case "fill":
		var part float64
		part, ok = quantity(r, a.node, "a percentage, such as 60 %", units.ParsePercent)
		space.Volume = part * holds
	case "volume":
		space.Volume, ok = quantity(r, a.node, aVolume, parseVolume)
	case "mass":
		var m units.Mass
		m, ok = r.mass(a.node)
		space.Volume = float64(m) / space.Density
	}
	switch {
	case !ok:
	case !(space.Volume > leastFill*holds):
		r.bad(a.node, fmt.Sprintf("%s is nothing, or next to nothing", short(a.node.Value)), "write how much there is, or take `contents` away if it is empty")
	case space.Volume > holds*(1+leastFill):
		r.bad(a.node, fmt.Sprintf("%s is more than the inside holds", short(a.node.Value)), "at most "+r.full(*space)+" fit")
	default:
		space.Volume = min(space.Volume, holds)
		return true
	}
	return false
}

// leastFill is the least part of an inside that is contents, and by how much
// rounding may go over what it holds.
const leastFill = 1e-9

// toDepth fills a space up to a depth, level as drawn.
func (r *reader) toDepth(n *yaml.Node, space *Liquid) bool {
	depth, ok := r.positive(n)
	if !ok {
		return false
	}
	up := space.own(upDrawn)
	full, err := space.Inside.AtVolume(space.Inside.Volume(), up)
	if !r.shaped(n, err) {
		return false
	}
	if depth > full.Depth+cutSlack {
		r.bad(n, fmt.Sprintf("a depth of %s in an inside that is %s deep as drawn", short(n.Value), metres(full.Depth)), "at most "+r.full(*space)+" fit")
		return false
	}
	lies, err := space.Inside.AtDepth(min(depth, full.Depth), up)
	space.Volume = min(lies.Moments.Volume, space.Inside.Volume())
	return r.shaped(n, err)
}

// full says what fits in a space.
func (r *reader) full(space Liquid) string {
	v := space.Inside.Volume()
	return fmt.Sprintf("%s or %s", cubicMetres(v), units.Mass(v*space.Density).Format(units.Both))
}
