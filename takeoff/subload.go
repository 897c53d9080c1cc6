package takeoff

import (
	"bytes"
	"fmt"
	"io"
	"path"
	"reflect"
	"slices"
	"strings"

	"go.yaml.in/yaml/v3"

	"plumbhook/geom"
)

// mostNested is how many load files may lie one within the other below the
// first.
const mostNested = 8

// subLoad is a load file that another one names, as it was read.
type subLoad struct {
	load   *Load // nil: it can't be used, and why is among the problems
	pieces int   // of it, copies counted
	below  int   // load files one within the other below it
	told   bool  // what it warns of as a whole has been handed on
}

// assembly makes the parts of a load file that this one names, placed and
// repeated as the part says. The file is read as if it were alone: by its own
// units and materials, from its own folder.
func (r *reader) assembly(n *yaml.Node, d draft, p *Part) []Part {
	r.onlyPlaced(n)
	name, ok := r.text(d.load)
	if !ok {
		return nil
	}
	sub, f := r.subLoad(name)
	if f != nil {
		r.bad(d.load, fmt.Sprintf("the load file %s can't be read: %s", short(name), f.text), f.fix)
		return nil
	}
	r.below = max(r.below, sub.below+1)
	if d.from != nil && d.to != nil {
		r.bad(n, "a sub-assembly can't be placed by `from` and `to`", "use `at` (where the file's own origin goes), `center` or `corner`")
		return nil
	}
	if sub.load == nil || d.bad {
		return nil
	}
	if r.pieces += sub.pieces * len(p.Places); r.pieces > r.source.opt.mostParts() {
		return nil
	}
	if d.name == "" {
		p.Name = sub.load.Name
	}
	r.handOn(sub, p.Name)
	stand := d.stand(sub.load)
	r.assembliesApart(d, sub.load, stand, p.Places)
	var out []Part
	rooms, whole := map[*displaced]*displaced{}, newStay(p, stand)
	for _, one := range sub.load.Parts {
		one.Name = p.Name + " / " + one.Name
		if one.Host != "" {
			one.Host = p.Name + " / " + one.Host
		}
		placed, err := whole.part(one.in(stand, p.Places).inRooms(rooms)).leveled()
		if !r.shaped(d.load, err) {
			return nil
		}
		out = append(out, placed...)
	}
	r.handed = append(r.handed, whole.allowances(sub.load)...)
	return out
}

// onlyPlaced refuses what a sub-assembly can't be given from outside.
func (r *reader) onlyPlaced(n *yaml.Node) {
	for i := 0; i+1 < len(n.Content); i += 2 {
		switch k := n.Content[i]; k.Value {
		case "material", "tolerance", "status", "cuts", "contents":
			r.bad(k, fmt.Sprintf("a sub-assembly takes no `%s`: its own file says that of each of its parts", k.Value), "write it in that file, or take it away")
		}
	}
}

// stand returns where a sub-assembly comes to stand.
func (p placing) stand(l *Load) geom.Pose {
	stand := geom.Pose{Turn: p.turn}
	switch {
	case p.at != nil:
		stand.Move = *p.at
	case p.center != nil:
		stand.Move = p.center.Sub(l.extent(stand).Center())
	case p.corner != nil:
		stand.Move = p.corner.Sub(l.extent(stand).Min)
	}
	return stand
}

// extent returns the box of all parts after a motion of the whole load.
func (l *Load) extent(after geom.Pose) geom.Extent {
	all := l.Parts[0].extent(after)
	for _, p := range l.Parts[1:] {
		all = all.Union(p.extent(after))
	}
	return all
}

// assembliesApart is apart for a sub-assembly as a whole.
func (r *reader) assembliesApart(d draft, l *Load, stand geom.Pose, places []geom.Pose) {
	if len(places) == 1 {
		return
	}
	w, err := l.Weigh()
	if err != nil { // its parts have been read, and have a weight
		r.bad(d.load, err.Error(), "look at the sizes and weights of its parts")
		return
	}
	var centers []geom.Vec
	for _, c := range places {
		centers = append(centers, c.Point(stand.Point(w.CG)))
	}
	r.apart(d, centers, func() []geom.Extent {
		var boxes []geom.Extent
		for _, c := range places {
			boxes = append(boxes, l.extent(c.After(stand)))
		}
		return boxes
	})
}

// in returns a part of a sub-assembly as a part of the load that the assembly
// stands in, once for each place of the assembly.
func (p Part) in(stand geom.Pose, places []geom.Pose) Part {
	var cuts []Cut
	for _, c := range p.Cuts {
		c.Pose = stand.After(c.Pose)
		cuts = append(cuts, c)
	}
	var all []geom.Pose
	for _, outer := range places {
		for _, inner := range p.Places {
			all = append(all, outer.After(seen(stand, inner)))
		}
	}
	p.Pose, p.GivenAt, p.Cuts = stand.After(p.Pose), stand.Point(p.GivenAt), cuts
	p.Places, p.Count = all, len(all)
	p.on = nil // its own load has placed it
	return p
}

// inRooms keeps what the parts of one assembly displace apart from what those
// of another of the same file do.
func (p Part) inRooms(rooms map[*displaced]*displaced) Part {
	own := func(d *displaced) *displaced {
		if d != nil && rooms[d] == nil {
			room := *d
			rooms[d] = &room
		}
		return rooms[d]
	}
	p.room = own(p.room)
	var others []*displaced
	for _, d := range p.displaces {
		others = append(others, own(d))
	}
	p.displaces = others
	return p
}

// seen returns a motion within a sub-assembly as the load sees it: back to the
// assembly's own frame, the motion there, and out again. A motion that does not
// turn stays exact.
func seen(stand, inner geom.Pose) geom.Pose {
	if inner.Turn == geom.Still().Turn {
		return geom.Still().Shifted(stand.Direction(inner.Move))
	}
	back := geom.Pose{Turn: stand.Turn.Transpose(), Move: stand.Back(geom.Vec{})}
	return stand.After(inner).After(back)
}

// handOn takes over what a sub-assembly warns of. What it says of its parts
// counts for each assembly; what it says of itself is said once.
func (r *reader) handOn(sub *subLoad, name string) {
	l := sub.load
	for _, w := range l.Warnings {
		if w.Part == "" && sub.told {
			continue
		}
		if w.Part != "" {
			w.Part = name + " / " + w.Part
		}
		w.Text = l.File + ": " + w.Text
		r.warnings = append(r.warnings, w)
	}
	if !sub.told && !reflect.ValueOf(l.Rigging).IsZero() {
		r.note("load-rigging", name, l.File+": its picks, hook, legs, limits, wind and lift-off are not used where it is part of another load",
			"describe the rigging in the load file that is lifted")
	}
	if !sub.told {
		r.unusedOf(l, name)
	}
	sub.told = true
}

// subLoad returns a load file that this one names. The path is relative to
// this file and may not leave its folder.
func (r *reader) subLoad(name string) (*subLoad, *fault) {
	s := r.source
	full, f := s.path(name, "parts/pump.yaml")
	if f != nil {
		return nil, f
	}
	if endings[strings.ToLower(path.Ext(full))] != "yaml" {
		return nil, &fault{"its ending is not that of a load file", "name a .yaml, .yml or .json; a mesh is named by `mesh`"}
	}
	if i := slices.Index(s.chain, full); i >= 0 {
		return nil, &fault{"load files name each other in a circle: " + strings.Join(append(s.chain[i:len(s.chain):len(s.chain)], full), " → "),
			"take one of these names away: a load can't be a part of itself"}
	}
	sub, again := s.loads[full]
	if len(s.chain) > mostNested || again && len(s.chain)+sub.below > mostNested {
		return nil, &fault{fmt.Sprintf("more than %d load files lie one within the other: %s", mostNested, strings.Join(append(s.chain[:len(s.chain):len(s.chain)], full), " → ")),
			"write the parts of the innermost file into the one that names it"}
	}
	if !again {
		if sub, f = r.openLoad(full); f != nil {
			return nil, f
		}
		s.loads[full] = sub
	}
	return sub, nil
}

// openLoad reads a load file that this one names. What is wrong in it is told
// under its own name.
func (r *reader) openLoad(full string) (*subLoad, *fault) {
	f, err := r.source.folder.Open(full)
	var data []byte
	if err == nil {
		defer f.Close()
		data, err = io.ReadAll(io.LimitReader(f, r.source.opt.bytes(mostBytes)+1))
	}
	if err != nil {
		return nil, cantOpen(err, "look at its name; it was looked for as "+full)
	}
	s := *r.source // the same folder, fingerprint and files already read
	s.dir, s.chain = path.Dir(full), append(s.chain[:len(s.chain):len(s.chain)], full)
	in := newReader(full, &s, r.tolerances)
	l := &Load{File: full}
	in.loadFile(bytes.NewReader(data), l)
	if in.faults > 0 {
		r.faults += in.faults
		r.inner = append(r.inner, in.allProblems()...)
		r.inner = r.inner[:min(len(r.inner), mostProblems)]
		return &subLoad{}, nil
	}
	l.Warnings = in.warnings
	l.sign()
	return &subLoad{load: l, pieces: in.pieces, below: in.below}, nil
}

// sign writes on each part of a sub-assembly which file and drawing it is from.
func (l *Load) sign() {
	from := "; in " + l.File
	if l.Drawing != "" {
		from += ", drawing " + l.Drawing
	}
	for i := range l.Parts {
		if p := &l.Parts[i]; p.From == "" {
			p.From, p.Basis = l.File, p.Basis+from
		}
	}
}

// unusedOf says what of a sub-assembly's own file does not count here: its states,
// which its own user looks at, and, as a warning, what load cells read there.
func (r *reader) unusedOf(l *Load, name string) {
	var what, why []string
	if len(l.States) > 0 {
		what, why = append(what, "states"), append(why, "it stands in the load with all that it lists")
	}
	if len(l.Weighings) > 0 {
		what, why = append(what, "weighings"), append(why, "nothing of what was read there counts")
	}
	if what == nil {
		return
	}
	tell := r.note
	if len(l.Weighings) > 0 {
		tell = r.warn
	}
	tell("load-states", name, fmt.Sprintf("%s: its %s are not used here: %s", l.File, strings.Join(what, " and "), strings.Join(why, ", and ")),
		"write states and weighings that are to count into the load file that is lifted; a sub-assembly that was weighed, as one part with its weight")
}
