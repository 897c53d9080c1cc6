package takeoff

import (
	"cmp"
	"fmt"
	"math"
	"slices"

	"plumbhook/geom"
	"plumbhook/units"
)

// Overlap is a space that two parts both fill, so that it is weighed twice.
type Overlap struct {
	Parts  [2]string // the same name twice: copies of one part
	Places int       // how many of their pieces meet
	Volume float64   // m³, of all places
	Doubt  float64   // m³, ±; 0: exact
	Weight units.Mass
	Spread units.Mass // ± on Weight, from Doubt
	Whole  bool       // a piece of the one lies wholly within the other
}

// Text says in one line what was found.
func (o Overlap) Text() string {
	what := fmt.Sprintf("%q and %q overlap", o.Parts[0], o.Parts[1])
	if o.Parts[0] == o.Parts[1] {
		what = fmt.Sprintf("copies of %q overlap each other", o.Parts[0])
	}
	if o.Places > 1 {
		what += fmt.Sprintf(" in %d places", o.Places)
	}
	if o.Whole {
		what += ", a piece of the one lying wholly within the other"
	}
	sure := "exact"
	if o.Doubt > 0 {
		sure = "sampled along rays, ±" + o.Spread.Format(units.Both)
	}
	return fmt.Sprintf("%s: %.3g m³ are weighed twice, %s of the lighter material (%s)", what, o.Volume, o.Weight.Format(units.Both), sure)
}

// OverlapFix is what to do about an overlap.
const OverlapFix = "correct a size or place; give the one a cut where the other is; or, where the one sits in the other, write `displaces:` on it with the other's name: the weight then counts once"

const (
	// An overlap is told of by each command when it is more than this part of
	// the load's weight; else only by the check of the take-off.
	muchOverlap = 0.005
	// Less than this part of the smaller piece, or this volume in m³, is no
	// overlap: rounding, and what the meshes of round solids leave open.
	leastOverlap     = 1e-4
	leastOverlapping = 1e-9
	// mostWork bounds what is spent on overlaps: triangles and rays looked at.
	mostWork = 60_000_000
	// mostKept is how many triangles of meshes are kept to be used again.
	mostKept = 2_000_000
	// Copies are shown to be apart by boxes first, and by rays through meshes
	// of this fineness then; see meshFineness.
	overlapFineness = 2e-4
)

// piece is one copy of a part.
type piece struct {
	part, copy int
	box        geom.Extent
}

// overlapper looks for overlaps among the parts of a load.
type overlapper struct {
	parts  []Part
	base   []*solidAt // first copies, with their meshes where made
	cuts   [][]*solidAt
	budget int // of work, see mostWork
	work   int // done so far
	kept   int
	missed int // pairs that were not looked at any more
	found  map[[2]int]*Overlap
}

// overlaps finds the spaces that two parts of a load both fill: pairs of boxes
// by a sweep along x, then the bodies themselves. Known weights take no part:
// their box is only an extent. No more than a certain work is done; left is how many pairs were not looked at as it
// would have taken too long.
func overlaps(parts []Part, work int) (list []Overlap, left int) {
	o := &overlapper{parts: parts, budget: work, base: make([]*solidAt, len(parts)), cuts: make([][]*solidAt, len(parts)), found: map[[2]int]*Overlap{}}
	var active []piece
	for _, p := range pieces(parts) {
		active = slices.DeleteFunc(active, func(q piece) bool { return q.box.Max[0] <= p.box.Min[0]+cutSlack })
		for _, q := range active {
			if p.box.Max[1] > q.box.Min[1] && q.box.Max[1] > p.box.Min[1] && thick(shared(p.box, q.box), cutSlack) && !displacing(parts[p.part], parts[q.part]) {
				o.pair(q, p)
			}
		}
		active = append(active, p)
	}
	for _, one := range o.found {
		list = append(list, *one)
	}
	slices.SortFunc(list, func(a, b Overlap) int {
		return cmp.Or(cmp.Compare(b.Weight, a.Weight), slices.Compare(a.Parts[:], b.Parts[:]))
	})
	return list, o.missed
}

// bodily tells whether it is known where the metal of a part is: not of a known
// weight, of a bar or a weld that is known by its mass, or of pieces that were
// given by their common centre alone.
func (p Part) bodily() bool {
	return p.Solid != nil && !p.weight() && p.Kind != "bar" && p.Kind != "weld" && p.Kind != "surface" && !p.Together
}

// pieces lists the copies of all parts that have a body, in the order of x.
func pieces(parts []Part) []piece {
	var all []piece
	for i, p := range parts {
		if !p.bodily() {
			continue
		}
		for k, box := range p.boxes(geom.Still()) {
			all = append(all, piece{i, k, box})
		}
	}
	slices.SortStableFunc(all, func(a, b piece) int { return cmp.Compare(a.box.Min[0], b.box.Min[0]) })
	return all
}

// pair looks at two pieces whose boxes meet.
func (o *overlapper) pair(a, b piece) {
	if a.part > b.part || a.part == b.part && a.copy > b.copy {
		a, b = b, a
	}
	if o.work > o.budget {
		o.missed++
		return
	}
	p, q := o.parts[a.part], o.parts[b.part]
	s, t := o.at(a), o.at(b)
	o.work += 50
	if separate(s, t) {
		return
	}
	volume, doubt := o.common(s, t, o.cutsAt(a), o.cutsAt(b))
	if volume <= max(leastOverlap*min(p.one(p.Pose.Move).Volume, q.one(q.Pose.Move).Volume), leastOverlapping) {
		return
	}
	one := o.found[[2]int{a.part, b.part}]
	if one == nil {
		one = &Overlap{Parts: [2]string{p.Name, q.Name}}
		o.found[[2]int{a.part, b.part}] = one
	}
	light := units.Mass(min(p.Material.Density, q.Material.Density))
	one.Places++
	small := min(p.one(p.Pose.Move).Volume, q.one(q.Pose.Move).Volume)
	one.Whole = one.Whole || volume > 0.9*small && volume+doubt >= 0.999*small
	one.Volume, one.Doubt = one.Volume+volume, one.Doubt+doubt
	one.Weight, one.Spread = light*units.Mass(one.Volume), light*units.Mass(one.Doubt)
}

// at returns a piece where it stands. Copies share the mesh of their part.
func (o *overlapper) at(c piece) *solidAt {
	p := o.parts[c.part]
	if o.base[c.part] == nil {
		o.base[c.part] = placed(p.Solid, p.Pose)
		o.base[c.part].fineness = overlapFineness
	}
	s := *o.base[c.part]
	s.pose, s.box, s.first = p.Places[c.copy].After(p.Pose), c.box, o.base[c.part]
	return &s
}

// cutsAt returns the cuts of a piece where they are.
func (o *overlapper) cutsAt(c piece) []*solidAt {
	p := o.parts[c.part]
	if o.cuts[c.part] == nil {
		for _, one := range p.Cuts {
			s := placed(one.Solid, one.Pose)
			s.fineness = overlapFineness
			o.cuts[c.part] = append(o.cuts[c.part], s)
		}
	}
	var out []*solidAt
	for _, first := range o.cuts[c.part] {
		s := *first
		s.pose, s.first = p.Places[c.copy].After(first.pose), first
		s.box = geom.ExtentOf(s.solid, s.pose)
		if thick(shared(s.box, c.box), 0) {
			out = append(out, &s)
		}
	}
	return out
}

// common returns the volume that two pieces have in common, and its doubt.
func (o *overlapper) common(s, t *solidAt, sCuts, tCuts []*solidAt) (volume, doubt float64) {
	if t.volume() < s.volume() {
		s, t, sCuts, tCuts = t, s, tCuts, sCuts
	}
	if len(sCuts)+len(tCuts) == 0 {
		if m, ok := clipFlat(s, t); ok {
			o.work += 1000
			return m.Volume, 0
		}
	}
	cuts := append(slices.Clone(sCuts), tCuts...)
	var thin, full [2]float64
	for i, axis := range []int{2, 0} {
		thin[i] = o.along(s, t, cuts, axis, coarse)
	}
	if max(thin[0], thin[1]) == 0 {
		return 0, 0
	}
	for i, axis := range []int{2, 0} {
		full[i] = o.along(s, t, cuts, axis, middle)
	}
	best := 0
	if math.Abs(full[1]-thin[1]) < math.Abs(full[0]-thin[0]) {
		best = 1
	}
	volume = full[best]
	for _, v := range append(thin[:], full[:]...) {
		doubt = max(doubt, 2*math.Abs(v-volume))
	}
	return volume, doubt + (1e-4+max(s.roundness(), t.roundness()))*volume
}

// along returns the common volume by one bundle of rays. What the meshes have
// in common and the solids have not is left out: the sides that stand for the
// wall of a round bore reach into it, and a shaft that fits it would overlap.
func (o *overlapper) along(s, t *solidAt, cuts []*solidAt, axis int, size [2]int) float64 {
	frame, box := s.frame(axis)
	seen := t.seen(frame)
	window := shared(box, seen.Extent())
	if !thick(window, 0) {
		return 0
	}
	bundle := lattice(window, size)
	both := each(bundle.through(s.seen(frame)), bundle.through(seen), stretches.common)
	o.count(s, t)
	for _, c := range cuts {
		both = each(both, bundle.through(c.seen(frame)), stretches.without)
		o.count(c)
	}
	o.work += 2 * size[0]
	hair := cutSlack + 1e-6*box.Diagonal()
	for i := range both {
		both[i] = slices.DeleteFunc(both[i].over(hair), func(l stretch) bool {
			place := frame.Point(bundle.at[i].Vec3((l.from + l.to) / 2))
			gone := slices.ContainsFunc(cuts, func(c *solidAt) bool { return c.solid.Contains(c.pose.Back(place)) })
			return gone || !really(s, place) || !really(t, place)
		})
	}
	return bundle.sum(both).Volume
}

// count adds what was looked at, and forgets meshes where they are many.
func (o *overlapper) count(used ...*solidAt) {
	for _, s := range used {
		n := len(s.mesh().Faces)
		o.work += n
		o.kept += n
	}
	if o.kept < mostKept {
		return
	}
	o.kept = 0
	for i, b := range o.base {
		if b != nil {
			b.made = nil
		}
		for _, c := range o.cuts[i] {
			c.made = nil
		}
	}
}

// separate tells whether a plane square to an axis of one of two solids, or to
// one of each, has them on its two sides.
func separate(s, t *solidAt) bool {
	if s.isMesh() || t.isMesh() {
		return false // asking a mesh takes as long as looking
	}
	var ways []geom.Vec
	for i := range 3 {
		ways = append(ways, s.pose.Turn.Col(i), t.pose.Turn.Col(i))
		for j := range 3 {
			if w := s.pose.Turn.Col(i).Cross(t.pose.Turn.Col(j)); w.Len() > 1e-6 {
				ways = append(ways, w.Normalize())
			}
		}
	}
	between := t.pose.Move.Sub(s.pose.Move)
	for _, w := range ways {
		for _, way := range []geom.Vec{w, w.Mul(-1)} {
			if s.reach(way)+t.reach(way.Mul(-1)) <= between.Dot(way)+cutSlack {
				return true
			}
		}
	}
	return false
}

// reach returns how far the solid goes from its origin in a direction.
func (s *solidAt) reach(way geom.Vec) float64 {
	return s.solid.Reach(s.pose.Turn.Transpose().Mul3x1(way))
}

// seeOverlaps looks for overlaps and warns of those that tell in the weight.
func (r *reader) seeOverlaps(l *Load) {
	var left int
	l.Overlaps, left = overlaps(l.Parts, mostWork)
	var total units.Mass
	for _, p := range l.Parts {
		best, _, _ := p.Mass()
		total += best
	}
	r.warnOverlaps(l, total)
	if left > 0 {
		r.warn("overlap-not-all", "", fmt.Sprintf("the search for parts that overlap was cut short: %d pairs of pieces whose boxes meet were not looked at", left),
			"give repeated or finely meshed parts as plain solids, or look over these in sub-assemblies of their own")
	}
}

// warnOverlaps warns of each overlap that tells in the weight, of a part that
// lies wholly within another, and of all the others where their sum tells.
func (r *reader) warnOverlaps(l *Load, total units.Mass) {
	var rest []Overlap
	var sum units.Mass
	for _, o := range l.Overlaps {
		if o.Weight > muchOverlap*total || o.Whole {
			r.warn("overlap", o.Parts[0], o.Text(), OverlapFix)
			continue
		}
		rest, sum = append(rest, o), sum+o.Weight
	}
	if sum > muchOverlap*total {
		r.warn("overlap", rest[0].Parts[0], fmt.Sprintf("%d overlaps that are small each come to %s that is weighed twice; the heaviest: %s", len(rest), sum.Format(units.Both), rest[0].Text()), OverlapFix)
	}
}
