package takeoff

import (
	"plumbhook/density"
	"plumbhook/geom"
	"plumbhook/units"
)

// Load is what is lifted: its parts, and the rigging that its file describes.
// All places are in metres in the load's own axes, z up.
type Load struct {
	Name, Drawing, Datum string
	Parts                []Part
	Rigging              Rigging
	Warnings             []Warning
	SHA256               string // of the load file's bytes, then of each file that it names, once, in order
	File                 string
}

// Part is one line of the take-off: a solid with its material, or a known
// weight, and how many there are of it.
type Part struct {
	Name    string
	Kind    string     // box, tube, mesh, weight, ...
	Written string     // the size as the planner wrote it, such as 2400 x 1200 x 20
	Solid   geom.Solid // nil for a weight without a box
	Pose    geom.Pose  // of the first copy
	Cuts    []Cut      // taken away from the first copy, and likewise from each
	Count   int        // copies, the first included
	Step    geom.Vec   // m, from one copy to the next

	Material        density.Material // none for a weight
	MaterialDefault bool             // it named no material and took the load's
	Given           units.Mass       // of one, for a weight
	GivenAt         geom.Vec         // CG of the first copy, for a weight

	Low, High float64 // fractional tolerance, such as -0.05 and +0.05
	Status    string  // estimated, calculated, catalogue, weighed, or not stated
	Basis     string  // one line that says where the weight and its tolerance come from
	Line      int     // in the load file
	Suspect   string  // what is wrong with a mesh that was weighed knowingly
}

// Cut is a solid taken away from a part, placed in the load's axes.
type Cut struct {
	Solid   geom.Solid
	Pose    geom.Pose
	Written string
}

// weight tells whether the part is a known weight and not a solid.
func (p Part) weight() bool { return p.Kind == "weight" }

// one returns the moments of the first copy about a point, cuts taken off.
// Measured from a near point, what is far from the datum loses no digits.
func (p Part) one(about geom.Vec) geom.Moments {
	if p.Solid == nil {
		return geom.Moments{}
	}
	sum := p.Solid.Moments().Posed(p.Pose.Shifted(about.Mul(-1)))
	for _, c := range p.Cuts {
		sum = sum.Minus(c.Solid.Moments().Posed(c.Pose.Shifted(about.Mul(-1))))
	}
	return sum
}

// copies turns the moments of the first copy into those of all, exactly. With
// n copies a step s apart, Σk = n(n−1)/2 and Σk² = n(n−1)(2n−1)/6 for k = 0
// to n−1:
//
//	V' = nV    F' = nF + V·s·Σk    S' = nS + (F·sᵀ + s·Fᵀ)·Σk + V·s·sᵀ·Σk²
//
// Source: derived here, the sum of the moments of a solid moved by k·s.
func (p Part) copies(one geom.Moments) geom.Moments {
	n := float64(p.Count)
	k, kk := n*(n-1)/2, n*(n-1)*(2*n-1)/6
	cross := one.First.OuterProd3(p.Step)
	all := one.Times(n)
	all.First = all.First.Add(p.Step.Mul(one.Volume * k))
	all.Second = all.Second.Add(cross.Add(cross.Transpose()).Mul(k)).
		Add(p.Step.OuterProd3(p.Step).Mul(one.Volume * kk))
	return all
}

// Moments returns the moments of the material of all copies in the load's
// axes, about the datum, cuts taken off. A weight has none, with or without a
// box: the box says how far it reaches, not what it is made of.
func (p Part) Moments() geom.Moments {
	if p.weight() {
		return geom.Moments{}
	}
	return p.copies(p.one(geom.Vec{}))
}

// Mass returns the mass of all copies: best, and lowest and highest within
// the tolerance, all copies being off the same way.
func (p Part) Mass() (best, low, high units.Mass) {
	best = p.massOfOne() * units.Mass(p.Count)
	return best, best * units.Mass(1+p.Low), best * units.Mass(1+p.High)
}

// massOfOne returns the best mass of one copy.
func (p Part) massOfOne() units.Mass {
	if p.weight() {
		return p.Given
	}
	return units.Mass(p.one(p.Pose.Move).Volume * float64(p.Material.Density))
}

// firstCG returns the centre of gravity of the first copy.
func (p Part) firstCG() geom.Vec {
	if p.weight() {
		return p.GivenAt
	}
	near := p.Pose.Move
	return near.Add(p.one(near).Centroid())
}

// CG returns the centre of gravity of all copies, in metres.
func (p Part) CG() geom.Vec {
	return p.firstCG().Add(p.Step.Mul(float64(p.Count-1) / 2))
}

// Extent returns the box along the load's axes that all copies fit in, cuts
// not regarded. A weight without a box is a point.
func (p Part) Extent() geom.Extent {
	first := geom.Extent{Min: p.GivenAt, Max: p.GivenAt}
	if p.Solid != nil {
		first = geom.ExtentOf(p.Solid, p.Pose)
	}
	far := p.Step.Mul(float64(p.Count - 1))
	return first.Union(geom.Extent{Min: first.Min.Add(far), Max: first.Max.Add(far)})
}

// Meshes returns the surface of each copy where it stands, cuts not carved;
// none for a weight without a box.
func (p Part) Meshes(chord float64) []geom.Mesh {
	if p.Solid == nil {
		return nil
	}
	own := p.Solid.Mesh(chord)
	var out []geom.Mesh
	for k := range p.Count {
		out = append(out, own.Posed(p.Pose.Shifted(p.Step.Mul(float64(k)))))
	}
	return out
}
