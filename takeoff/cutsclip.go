package takeoff

import (
	"cmp"
	"math"
	"slices"

	"github.com/go-gl/mathgl/mgl64"

	"plumbhook/geom"
)

// mostFlats is how many triangles a solid with flat sides may have to be
// clipped in closed form.
const mostFlats = 200

// flatSided tells whether the mesh of a solid is the solid itself, not only
// near to it.
func flatSided(s geom.Solid) bool {
	switch s.(type) {
	case geom.Box, geom.Prism, geom.Wedge, geom.Pyramid, geom.Polygon, geom.Body:
		return true
	}
	return false
}

// plane holds the points r with r·normal ≤ far on its inner side.
type plane struct {
	normal geom.Vec
	far    float64
}

// convexPlanes returns the planes of a mesh's faces, false where the mesh is not
// convex or has too many.
func convexPlanes(m geom.Mesh) ([]plane, bool) {
	if len(m.Faces) > mostFlats {
		return nil, false
	}
	var planes []plane
	hair := 1e-9 * m.Extent().Diagonal()
	for i := range m.Faces {
		a, b, c := m.Triangle(i)
		n := b.Sub(a).Cross(c.Sub(a))
		if n.Len() <= hair*hair {
			continue
		}
		n = n.Normalize()
		p := plane{n, n.Dot(a)}
		for _, v := range m.Vertices {
			if v.Dot(n) > p.far+hair {
				return nil, false
			}
		}
		planes = append(planes, p)
	}
	return planes, true
}

// clipFlat returns what a cut and its host have in common, in the frame of the
// host, where both are convex and have flat sides: exact but for rounding.
func clipFlat(cut, host *solidAt) (geom.Moments, bool) {
	if !flatSided(cut.solid) || !flatSided(host.solid) {
		return geom.Moments{}, false
	}
	planes, ok := convexPlanes(host.mesh())
	if !ok {
		return geom.Moments{}, false
	}
	mesh := cut.seen(host.pose)
	if _, ok = convexPlanes(mesh); !ok {
		return geom.Moments{}, false
	}
	var faces [][]geom.Vec
	for i := range mesh.Faces {
		a, b, c := mesh.Triangle(i)
		faces = append(faces, []geom.Vec{a, b, c})
	}
	for _, p := range planes {
		faces = p.clip(faces, 1e-12*(host.own.Diagonal()+cut.own.Diagonal()))
	}
	return fans(faces).Moments(), true
}

// clip cuts a convex body, given by its faces, down to the inner side of the
// plane and closes it there. What is within hair of the plane lies on it.
func (p plane) clip(faces [][]geom.Vec, hair float64) [][]geom.Vec {
	var kept [][]geom.Vec
	var rim []geom.Vec
	beyond := false
	for _, f := range faces {
		in, ends, some := p.clipFace(f, hair)
		if len(in) >= 3 {
			kept = append(kept, in)
		}
		rim = append(rim, ends...)
		beyond = beyond || some
	}
	if !beyond || len(rim) < 3 {
		return kept
	}
	return append(kept, p.lid(rim))
}

// clipFace returns what of a face is on the inner side, its corners on the
// plane, and whether anything lies beyond.
func (p plane) clipFace(f []geom.Vec, hair float64) (in, ends []geom.Vec, beyond bool) {
	height := func(v geom.Vec) float64 {
		if h := v.Dot(p.normal) - p.far; math.Abs(h) > hair {
			return h
		}
		return 0
	}
	for i, a := range f {
		b := f[(i+1)%len(f)]
		ha, hb := height(a), height(b)
		beyond = beyond || ha > 0
		if ha <= 0 {
			in = append(in, a)
		}
		if ha == 0 {
			ends = append(ends, a)
		}
		if ha*hb < 0 {
			at := a.Add(b.Sub(a).Mul(ha / (ha - hb)))
			in, ends = append(in, at), append(ends, at)
		}
	}
	return in, ends, beyond
}

// lid orders the corners of a convex face on the plane anticlockwise as seen
// from outside.
func (p plane) lid(rim []geom.Vec) []geom.Vec {
	var mid geom.Vec
	for _, v := range rim {
		mid = mid.Add(v.Mul(1 / float64(len(rim))))
	}
	u := geom.Vec{}
	for _, v := range rim {
		if w := v.Sub(mid); w.Len() > u.Len() {
			u = w
		}
	}
	w := p.normal.Cross(u)
	angle := func(v geom.Vec) float64 { return math.Atan2(v.Sub(mid).Dot(w), v.Sub(mid).Dot(u)) }
	slices.SortStableFunc(rim, func(a, b geom.Vec) int { return cmp.Compare(angle(a), angle(b)) })
	return rim
}

// fans makes triangles of convex faces.
func fans(faces [][]geom.Vec) geom.Mesh {
	var m geom.Mesh
	for _, f := range faces {
		start := len(m.Vertices)
		m.Vertices = append(m.Vertices, f...)
		for i := 2; i < len(f); i++ {
			m.Faces = append(m.Faces, [3]int{start, start + i - 1, start + i})
		}
	}
	return m
}

// drawn tells whether a solid is one section drawn out along z from 0.
func drawn(s geom.Solid) bool {
	switch s.(type) {
	case geom.Box, geom.Cylinder, geom.Tube, geom.Prism, geom.Polygon, geom.Extrusion:
		return true
	}
	return false
}

// clipEnds returns what a cut and its host have in common, in the frame of the
// cut, where the cut is a section drawn out and the host's surface ends it by
// planes square to its length: a bore that sticks out of both faces of its
// plate, or runs through two flanges and the gap between them. Exact, but that
// it is tried by rays: a break in the plate narrower than the space between
// them is not seen.
func clipEnds(cut, host *solidAt) (geom.Moments, bool) {
	if !drawn(cut.solid) {
		return geom.Moments{}, false
	}
	frame, box := cut.frame(2)
	bundle, seen := lattice(box, middle), host.seen(frame)
	hair := 1e-9 * box.Diagonal()
	var pieces stretches
	inHost := bundle.through(seen)
	for i, in := range bundle.through(cut.seen(frame)) {
		if len(in) == 0 {
			continue
		}
		both := in.common(inHost[i]).over(hair)
		if pieces == nil {
			pieces = both
		}
		if len(both) == 0 || !alike(both, pieces, hair) {
			return geom.Moments{}, false
		}
	}
	if pieces == nil || !rimIn(cut, frame, host, seen, pieces) {
		return geom.Moments{}, false
	}
	var sum geom.Moments
	for _, s := range pieces {
		sum = sum.Plus(pieceOf(cut.solid.Moments(), cut.own.Size()[2], s.from-box.Min[2], s.to-box.Min[2]))
	}
	return sum, true
}

// alike tells whether two lists hold the same stretches.
func alike(s, t stretches, hair float64) bool {
	return slices.EqualFunc(s, t, func(a, b stretch) bool {
		return math.Abs(a.from-b.from) <= hair && math.Abs(a.to-b.to) <= hair
	})
}

// rimIn tells whether the pieces lie in the host also along the rim of the
// cut, between the rays.
func rimIn(cut *solidAt, frame geom.Pose, host *solidAt, seen geom.Mesh, pieces stretches) bool {
	rim := rays{box: seen.Extent()}
	for _, v := range cut.seen(frame).Vertices {
		for _, s := range pieces {
			for _, z := range []float64{s.from, s.to} {
				if !host.isMesh() && !near(host.solid, host.pose.Back(frame.Point(geom.Vec{v[0], v[1], z}))) {
					return false
				}
			}
		}
		rim.at = append(rim.at, v.Vec2().Mul(1-1e-6)) // just inside
	}
	if !host.isMesh() {
		return true
	}
	slices.SortFunc(rim.at, func(a, b mgl64.Vec2) int { return cmp.Compare(a[0], b[0]) })
	for _, in := range rim.through(seen) {
		if !alike(in.common(pieces), pieces, cutSlack) {
			return false
		}
	}
	return true
}

// pieceOf returns the moments of the piece from a to b of a section that is
// drawn out from 0 to h, given those of the whole: with A = V/h and so on, what
// holds no z goes with b − a, what holds it once with (b² − a²)/2, and ∫z² is
// A·(b³ − a³)/3. Source: derived here.
func pieceOf(whole geom.Moments, h, a, b float64) geom.Moments {
	per := whole.Times(1 / h)
	one, two, three := b-a, (b*b-a*a)/2, (b*b*b-a*a*a)/3
	out := per.Times(one)
	out.First[2] = per.Volume * two
	for i := range 2 {
		out.Second.Set(i, 2, per.First[i]*two)
		out.Second.Set(2, i, per.First[i]*two)
	}
	out.Second.Set(2, 2, per.Volume*three)
	return out
}
