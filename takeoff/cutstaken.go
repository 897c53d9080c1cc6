package takeoff

import (
	"fmt"
	"math"
	"strings"

	"plumbhook/geom"
)

// taken is what a cut takes away from its part.
type taken struct {
	moments geom.Moments // in the frame of the part
	how     string       // one of the ways below
	doubt   float64      // m³, how far its volume may be out
	outside float64      // m³ of the cut that lie outside the part
	by      float64      // m, about how far it sticks out
	again   bool         // it crosses cuts before it: their metal is gone already
}

// The ways in which it is known what a cut takes away.
const (
	cutWhole   = "whole"   // it lies inside: its closed form
	cutClipped = "clipped" // ended at the part's surface, closed form
	cutSampled = "sampled" // added up along rays
)

// A cutter takes cuts away from one part in their order.
type cutter struct {
	host *solidAt
	cuts []*solidAt // so far

	sampled *int // cuts of the load that were sampled so far
}

// mostSampled is how many cuts of a load are sampled with many rays. The ones
// after it get fewer, and a greater doubt.
const mostSampled = 40

// take returns what the next cut takes away. It can be nothing: the cut misses
// the part, or all of it has been taken.
func (k *cutter) take(c Cut) taken {
	cut := placed(c.Solid, c.Pose)
	t, known := k.alone(cut)
	rivals := k.rivals(cut)
	k.cuts = append(k.cuts, cut)
	switch {
	case !known && !meet(cut, k.host):
		t = taken{how: cutSampled, outside: cut.volume()}
	case !known:
		var inside float64
		t.moments, inside, t.doubt = sampled(cut, k.host, rivals, nil, k.quick())
		t.how, t.outside = cutSampled, max(0, cut.volume()-inside)
	case len(rivals) > 0 && t.moments.Volume > 0:
		full := t.moments
		t.moments, _, t.doubt = sampled(cut, k.host, rivals, &full, k.quick())
		t.how = cutSampled
	}
	t.again = len(rivals) > 0
	if t.how != cutWhole && t.outside > 0 {
		t.by = sticksOut(cut, k.host)
	}
	return t
}

// quick counts one more cut to be sampled and tells whether few rays must do.
func (k *cutter) quick() bool {
	*k.sampled++
	return *k.sampled > mostSampled
}

// alone returns what the cut would take from the whole part, false where no
// closed form tells.
func (k *cutter) alone(cut *solidAt) (taken, bool) {
	if inside(cut, k.host) {
		return taken{moments: cut.solid.Moments().Posed(from(k.host.pose, cut.pose)), how: cutWhole}, true
	}
	m, ok := clipFlat(cut, k.host)
	if !ok {
		if m, ok = clipEnds(cut, k.host); ok {
			m = m.Posed(from(k.host.pose, cut.pose))
		}
	}
	return taken{moments: m, how: cutClipped, outside: max(0, cut.volume()-m.Volume)}, ok
}

// rivals returns the cuts so far that have a body in common with the next one.
func (k *cutter) rivals(cut *solidAt) []*solidAt {
	var out []*solidAt
	for _, c := range k.cuts {
		if common := shared(c.box, cut.box); thick(common, cutSlack) && meet(cut, c) {
			out = append(out, c)
		}
	}
	return out
}

// meet tells whether two solids have a body in common that is thicker than
// rounding. Between the rays a sliver may be missed.
func meet(a, b *solidAt) bool {
	for _, axis := range []int{2, 0} {
		frame, box := a.frame(axis)
		seen := b.seen(frame)
		bundle := lattice(shared(box, seen.Extent()), coarse)
		if bundle.cell <= 0 {
			continue
		}
		both := each(bundle.through(a.seen(frame)), bundle.through(seen), stretches.common)
		for i, in := range both {
			for _, s := range in.over(cutSlack) {
				p := bundle.at[i].Vec3((s.from + s.to) / 2)
				if really(a, frame.Point(p)) && really(b, frame.Point(p)) {
					return true
				}
			}
		}
	}
	return false
}

// really tells whether a place that the mesh of a solid holds is in the solid:
// the sides that stand for the wall of a round bore reach into the bore.
func really(s *solidAt, place geom.Vec) bool {
	return s.isMesh() || s.solid.Contains(s.pose.Back(place))
}

// inside tells whether a cut lies within its part. For a part with a shape of
// its own points are tried: the corners of the cut's mesh and an even spread
// through it; a cut that leaves the part by less than their spacing can be
// missed. For a mesh, where each point would take long, rays are.
func inside(cut, host *solidAt) bool {
	if !host.isMesh() && !cut.isMesh() {
		for _, v := range samples(cut) {
			if !near(host.solid, host.pose.Back(v)) {
				return false
			}
		}
		return true
	}
	for _, axis := range []int{2, 0} {
		frame, box := cut.frame(axis)
		bundle := lattice(box, middle)
		inHost := bundle.through(host.seen(frame))
		for i, in := range bundle.through(cut.seen(frame)) {
			if len(in.without(inHost[i]).over(cutSlack)) > 0 {
				return false
			}
		}
	}
	return true
}

// sticksOut returns about how far a cut reaches out of its part, in metres:
// along each of its axes the longest way outside, and of these the shortest.
func sticksOut(cut, host *solidAt) float64 {
	least := math.Inf(1)
	for axis := range 3 {
		frame, box := cut.frame(axis)
		bundle := lattice(box, coarse)
		inHost, most := bundle.through(host.seen(frame)), 0.0
		for i, in := range bundle.through(cut.seen(frame)) {
			most = max(most, in.without(inHost[i]).longest())
		}
		least = min(least, most)
	}
	return least
}

// wellKnown is the doubt about a sampled cut, as a part of it, that is taken
// without sending more rays.
const wellKnown = 1e-3

// sampled returns what a cut takes from its host after its rivals, in the frame
// of the host; the volume that it has in common with the host; and how far the
// first may be out. What it has in common with the host is given as full where
// it is known. Where quick will do, fewer rays are sent.
func sampled(cut, host *solidAt, rivals []*solidAt, full *geom.Moments, quick bool) (m geom.Moments, inside, doubt float64) {
	if quick {
		return compared(cut, host, rivals, full, coarse, middle)
	}
	m, inside, doubt = compared(cut, host, rivals, full, middle, fine)
	if doubt > wellKnown*cut.volume() {
		m, inside, doubt = compared(cut, host, rivals, full, fine, finest)
	}
	return m, inside, doubt
}

// compared sends four bundles of rays, a thin and a full one along the cut and
// the same across it. The result is that of the way in which the two agree
// better. The doubt is twice the greatest difference of any from it, and no less
// than 0.01 % of the cut, and what the meshes leave out of round solids.
func compared(cut, host *solidAt, rivals []*solidAt, full *geom.Moments, thin, thick [2]int) (m geom.Moments, inside, doubt float64) {
	apart := math.Inf(1)
	var volumes []float64
	for _, axis := range []int{2, 0} {
		a, _ := bundled(cut, host, rivals, full, axis, thin)
		b, in := bundled(cut, host, rivals, full, axis, thick)
		volumes = append(volumes, a.Volume, b.Volume)
		if d := math.Abs(a.Volume - b.Volume); d < apart {
			m, inside, apart = b, in, d
		}
	}
	for _, v := range volumes[1:] {
		doubt = max(doubt, 2*math.Abs(v-m.Volume))
	}
	most := max(cut.roundness(), host.roundness())
	for _, r := range rivals {
		most = max(most, r.roundness())
	}
	return m, inside, doubt + 1e-4*cut.volume() + most*m.Volume
}

// bundled is one bundle of [sampled]. The rays also add up something whose
// moments are known, the cut or what of it lies in the host, and the result is
// mended by what they are out on it.
func bundled(cut, host *solidAt, rivals []*solidAt, full *geom.Moments, axis int, size [2]int) (m geom.Moments, inside float64) {
	frame, box := cut.frame(axis)
	seen := host.seen(frame)
	window := shared(box, seen.Extent())
	toHost := from(host.pose, frame)
	if !thick(window, 0) {
		return geom.Moments{}, 0
	}
	whole := area(window) > area(box)/2
	if whole {
		window = box
	}
	bundle := lattice(window, size)
	inCut := bundle.through(cut.seen(frame))
	both := each(inCut, bundle.through(seen), stretches.common)
	left := both
	for _, r := range rivals {
		left = each(left, bundle.through(r.seen(frame)), stretches.without)
	}
	mend := func(got, ref, exact geom.Moments) geom.Moments {
		if !(ref.Volume > 0) {
			return got
		}
		return got.Plus(exact.Minus(ref).Times(got.Volume / ref.Volume))
	}
	all, got := bundle.sum(both).Posed(toHost), bundle.sum(left).Posed(toHost)
	if full != nil {
		return mend(got, all, *full), full.Volume
	}
	if !whole {
		return got, all.Volume
	}
	ref, exact := bundle.sum(inCut).Posed(toHost), cut.solid.Moments().Posed(from(host.pose, cut.pose))
	return mend(got, ref, exact), mend(all, ref, exact).Volume
}

// area returns the area of the x-y side of a box.
func area(e geom.Extent) float64 {
	sides := e.Size()
	return sides[0] * sides[1]
}

// cutMoments returns what a cut of the part takes away, about a point.
func (p Part) cutMoments(c Cut, about geom.Vec) geom.Moments {
	if c.taken == nil {
		return c.Solid.Moments().Posed(c.Pose.Shifted(about.Mul(-1)))
	}
	return c.taken.moments.Posed(p.Pose.Shifted(about.Mul(-1)))
}

// cutDoubt returns how far the volume that the cuts take away may be out, in m³.
func (p Part) cutDoubt() float64 {
	sum := 0.0
	for _, c := range p.Cuts {
		if c.taken != nil {
			sum += c.taken.doubt
		}
	}
	return sum
}

// cutNote says in one line how the cuts of a part were taken, "" where each is
// as written.
func (p Part) cutNote() string {
	var whole, clipped, along int
	worst, again := 0.0, false
	for _, c := range p.Cuts {
		switch {
		case c.taken == nil:
			whole++
			continue
		case c.taken.how == cutClipped:
			clipped++
		default:
			along, worst = along+1, max(worst, c.taken.doubt/c.Solid.Moments().Volume)
		}
		again = again || c.taken.again
	}
	var parts []string
	if whole > 0 {
		parts = append(parts, fmt.Sprintf("%d as written", whole))
	}
	if clipped > 0 {
		parts = append(parts, fmt.Sprintf("%d ended at the part's surface (exact)", clipped))
	}
	if along > 0 {
		parts = append(parts, fmt.Sprintf("%d sampled (±%s of the cut)", along, roughly(worst)))
	}
	if again {
		parts = append(parts, "what cuts have in common taken off once")
	}
	if clipped+along == 0 {
		return ""
	}
	return "; cuts: " + strings.Join(parts, ", ")
}

// roughly prints a small fraction in percent, to two digits and rounded up.
func roughly(f float64) string {
	if f <= 1e-6 {
		return "0.0001 %"
	}
	step := math.Pow(10, math.Floor(math.Log10(f))-1)
	return percent(math.Ceil(f/step) * step)
}
