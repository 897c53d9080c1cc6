package geom

import "math"

// faceted is an inside as a mesh, around its own middle so that an inside far
// from its datum loses no digits.
type faceted struct {
	mesh    Mesh
	middle  Vec
	volume  float64
	missing float64 // part of the volume that was not in the mesh, or too much, before it was scaled
}

// chosenMesh returns the solid as a mesh to the chord and what part of the full
// volume a partial fill may be off, or with a chord of zero a mesh that is good
// to 1e-4; see [NewInside].
func chosenMesh(s Solid, chord float64, whole Moments) (form faceted, doubt float64) {
	const good, most = 1e-4, 100_000
	if chord > 0 {
		form = fitted(s.Mesh(chord), whole)
		return form, form.doubt(fitted(s.Mesh(4*chord), whole))
	}
	chord = 0.02 * math.Cbrt(whole.Volume)
	coarse := fitted(s.Mesh(chord), whole)
	for {
		chord /= 4
		form = fitted(s.Mesh(chord), whole)
		doubt = form.doubt(coarse)
		if doubt <= good || len(form.mesh.Faces) > most || len(form.mesh.Faces) == len(coarse.mesh.Faces) {
			return form, doubt
		}
		coarse = form
	}
}

// doubt estimates the error of a mesh from one to four times its chord: as the
// error goes with the chord, a third of the greatest difference in volume, as
// a part of the full one, over levels along the three axes. Where the other
// is no coarser it is what was missing before the mesh was scaled.
func (f faceted) doubt(coarse faceted) float64 {
	if len(f.mesh.Faces) == len(coarse.mesh.Faces) {
		return f.missing
	}
	const levels = 16
	most := 0.0
	for _, up := range axes {
		low, high := f.span(up)
		fine, other := f.column(up), coarse.column(up)
		for i := range levels - 1 {
			level := low + (high-low)*float64(i+1)/levels
			a, _ := fine(level, low, high)
			b, _ := other(level, low, high)
			most = max(most, math.Abs(a-b))
		}
	}
	return most / 3 / f.volume
}

// fitted returns the mesh scaled and shifted to the volume and the first
// moments of the whole.
func fitted(m Mesh, whole Moments) faceted {
	own := m.Moments()
	scale := math.Cbrt(whole.Volume / own.Volume)
	centred := m.Posed(Still().Shifted(own.Centroid().Mul(-1)))
	return faceted{Scaled(centred, scale), whole.Centroid(), whole.Volume, math.Abs(1 - own.Volume/whole.Volume)}
}

func (f faceted) span(up Vec) (low, high float64) {
	low, high = math.Inf(1), math.Inf(-1)
	for _, v := range f.mesh.Vertices {
		height := v.Dot(up)
		low, high = min(low, height), max(high, height)
	}
	middle := f.middle.Dot(up)
	return low + middle, high + middle
}

func (f faceted) at(level float64, up Vec) (Moments, Surface) {
	point := up.Mul(level - f.middle.Dot(up)) // on the level, as seen from the middle
	below, rim := f.mesh.cut(point, up)
	moments := below.MomentsAbout(point).Posed(Still().Shifted(point.Add(f.middle)))
	surface := levelled(rim, point, up)
	if surface.Area > 0 {
		surface.Centroid = surface.Centroid.Add(f.middle)
	}
	return moments, surface
}

// column stands a pillar on every face, up to the level. A pillar over a face
// that looks down adds to the volume, over one that looks up it takes away.
// Faces that are wholly below all levels to come go into two sums, those above
// are forgotten, so that each call has fewer faces to look at.
// Source: derived here by the divergence theorem.
func (f faceted) column(up Vec) func(level, low, high float64) (volume, area float64) {
	height := make([]float64, len(f.mesh.Vertices))
	middle := f.middle.Dot(up)
	for i, v := range f.mesh.Vertices {
		height[i] = v.Dot(up) + middle
	}
	pillars := make([]pillar, 0, len(f.mesh.Faces))
	for i, face := range f.mesh.Faces {
		a, b, c := f.mesh.Triangle(i)
		plan := -b.Sub(a).Cross(c.Sub(a)).Dot(up) / 2
		if plan != 0 {
			pillars = append(pillars, newPillar(plan, height[face[0]], height[face[1]], height[face[2]]))
		}
	}
	wet := pillar{}    // the area of all that are wholly below
	moment := 0.0      // and their area times height
	base := math.NaN() // heights are taken from the first level, for the digits
	return func(level, low, high float64) (volume, area float64) {
		if math.IsNaN(base) {
			base = level
		}
		kept := pillars[:0]
		for _, p := range pillars {
			switch {
			case p.high <= low:
				wet.plan += p.plan
				moment += p.plan * (p.low + p.mid + p.high - 3*base) / 3
			case p.low < high:
				kept = append(kept, p)
			}
		}
		pillars = kept
		volume, area = wet.plan*(level-base)-moment, wet.plan
		for _, p := range pillars {
			v, a := p.below(level)
			volume, area = volume+v, area+a
		}
		return volume, area
	}
}

// pillar is a face with its area in plan, above zero where it looks down, and
// the heights of its corners.
type pillar struct{ plan, low, mid, high float64 }

func newPillar(plan, a, b, c float64) pillar {
	low, high := min(a, b, c), max(a, b, c)
	mid := max(min(a, b), min(max(a, b), c))
	return pillar{plan, low, mid, high}
}

// below returns volume and area in plan of what stands on the wet part of the
// face up to the level L. With A the whole plan and heights h₀ ≤ h₁ ≤ h₂,
//
//	up to h₁:     A·(L − h₀)³/(3·(h₁ − h₀)·(h₂ − h₀))
//	from h₁ on:   A·((L − (h₀ + h₁ + h₂)/3) + (h₂ − L)³/(3·(h₂ − h₀)·(h₂ − h₁)))
//	from h₂ on:   A·(L − (h₀ + h₁ + h₂)/3)
//
// and the area is what that changes by with L. Source: derived here by
// integrating over a triangle.
func (p pillar) below(level float64) (volume, area float64) {
	switch up, down := level-p.low, p.high-level; {
	case up <= 0:
		return 0, 0
	case down <= 0:
		return p.plan * (up + level - p.mid - down) / 3, p.plan
	case level <= p.mid:
		part := up / (p.mid - p.low) * (up / (p.high - p.low))
		return p.plan * part * up / 3, p.plan * part
	default:
		part := down / (p.high - p.low) * (down / (p.high - p.mid))
		return p.plan * (up + level - p.mid - down + part*down) / 3, p.plan * (1 - part)
	}
}
