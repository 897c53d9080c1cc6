package takeoff

import (
	"github.com/go-gl/mathgl/mgl64"
	"go.yaml.in/yaml/v3"

	"plumbhook/density"
	"plumbhook/geom"
	"plumbhook/units"
)

// Load is what is lifted: its parts, and the rigging that its file describes.
// All places are in metres in the load's own axes, z up.
type Load struct {
	Name, Drawing, Datum string
	Parts                []Part
	Allowances           []Allowance
	Rigging              Rigging
	Weighings            []Weighing
	States               []State // which parts and contents there may be, in the order of the file
	State                string  // the state that this is; empty: as drawn
	Drawn                *Load   // in a state: the load as drawn
	Warnings             []Warning
	Overlaps             []Overlap // spaces that two parts fill, the heaviest first
	SHA256               string    // of the load file's bytes, then of each file that it names, once, in order
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

	// Places are the motions that bring the first copy to each copy, in the
	// load's axes; the first is geom.Still. A motion may mirror.
	Places []geom.Pose
	Count  int // of Places

	// Together: of several copies only the common centre is known, and all
	// stand there. Their weight and CG are right, where each one is is not.
	Together bool

	Material        density.Material // none for a weight
	MaterialDefault bool             // it named no material and took the load's
	Given           units.Mass       // of one, for a weight
	GivenAt         geom.Vec         // CG of the first copy, for a weight
	Liquid          *Liquid          // of the first copy, for contents of a part; nil: it is no contents
	Host            string           // the part that contents are in
	hollow          *cavity          // its own inside, to be filled; nil: it has none

	Form      string      // the product form as it was written, such as casting; empty: none was
	Position  float64     // m: how far it may stand off its place, each way along x, y and z
	Low, High float64     // fractional tolerance, such as -0.05 and +0.05
	Status    string      // estimated, calculated, catalogue, weighed, or not stated
	Basis     string      // one line that says where the weight and its tolerance come from
	From      string      // the load file of the sub-assembly that it belongs to; empty: the load's own file
	Line      int         // in that file
	within    []*assembly // the sub-assemblies that it stands in, each within the one before
	on        *yaml.Node  // the part that a weld is spread on
	Suspect   string      // what is wrong with a mesh that was weighed knowingly
	Faceted   float64     // part of its volume that the flat facets of a mesh leave out, or (negative) add; see geom.FacetBias

	displacing *yaml.Node   // the names of the parts that make room for it, until they are looked up
	displaces  []*displaced // those parts
	room       *displaced   // what it lost to the parts that displace it; nil: nothing
}

// Cut is a solid taken away from a part, placed in the load's axes.
type Cut struct {
	Solid   geom.Solid
	Pose    geom.Pose
	Written string
	taken   *taken // what it takes away, where that is not the solid in its place
}

// weight tells whether the part is a known weight and not a solid: a weld that
// is spread on a part too.
func (p Part) weight() bool { return p.Kind == "weight" || p.Given > 0 }

// one returns the moments of the first copy about a point, cuts taken off.
// Measured from a near point, what is far from the datum loses no digits.
func (p Part) one(about geom.Vec) geom.Moments {
	if p.Solid == nil {
		return geom.Moments{}
	}
	sum := p.Solid.Moments().Posed(p.Pose.Shifted(about.Mul(-1)))
	for _, c := range p.Cuts {
		sum = sum.Minus(p.cutMoments(c, about))
	}
	if p.room != nil {
		sum = sum.Minus(p.room.moments.Posed(p.Pose.Shifted(about.Mul(-1))))
	}
	return sum
}

// copies returns the moments of all copies about a point, exactly, from those
// of the first copy about a point near it.
func (p Part) copies(first geom.Moments, near, about geom.Vec) geom.Moments {
	var sum geom.Moments
	for _, c := range p.Places {
		sum = sum.Plus(first.Posed(geom.Pose{Turn: c.Turn, Move: c.Point(near).Sub(about)}))
	}
	return sum
}

// Moments returns the moments of the material of all copies in the load's
// axes, about the datum, cuts taken off. A weight has none, with or without a
// box: the box says how far it reaches, not what it is made of.
func (p Part) Moments() geom.Moments {
	if p.weight() {
		return geom.Moments{}
	}
	return p.copies(p.one(p.Pose.Move), p.Pose.Move, geom.Vec{})
}

// Mass returns the mass of all copies: best, and lowest and highest within
// the tolerance, all copies being off the same way.
func (p Part) Mass() (best, low, high units.Mass) {
	best = p.massOfOne() * units.Mass(len(p.Places))
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
	first := p.firstCG()
	var sum geom.Vec // from the first, so that a far datum costs no digits
	for _, c := range p.Places {
		sum = sum.Add(c.Point(first).Sub(first))
	}
	return first.Add(sum.Mul(1 / float64(max(1, len(p.Places)))))
}

// Extent returns the box along the load's axes that all copies fit in, cuts
// not regarded. A weight without a box is a point.
func (p Part) Extent() geom.Extent { return p.extent(geom.Still()) }

// extent returns the box of all copies after a motion of the whole part.
func (p Part) extent(after geom.Pose) geom.Extent {
	boxes := p.boxes(after)
	if len(boxes) == 0 {
		at := after.Point(p.GivenAt)
		return geom.Extent{Min: at, Max: at}
	}
	all := boxes[0]
	for _, b := range boxes[1:] {
		all = all.Union(b)
	}
	return all
}

// boxes returns the box of each copy after a motion of the whole part. Copies
// that are turned alike are as large: the solid is asked once for them all,
// which tells with a mesh.
func (p Part) boxes(after geom.Pose) []geom.Extent {
	own := map[mgl64.Mat3]geom.Extent{} // of the solid in its own place, turned only
	var out []geom.Extent
	for _, c := range p.Places {
		c = after.After(c)
		if p.Solid == nil {
			at := c.Point(p.GivenAt)
			out = append(out, geom.Extent{Min: at, Max: at})
			continue
		}
		pose := c.After(p.Pose)
		e, known := own[pose.Turn]
		if !known {
			e = geom.ExtentOf(p.Solid, geom.Pose{Turn: pose.Turn})
			own[pose.Turn] = e
		}
		out = append(out, geom.Extent{Min: e.Min.Add(pose.Move), Max: e.Max.Add(pose.Move)})
	}
	return out
}

// Meshes returns the surface of each copy where it stands, cuts not carved;
// none for a weight without a box.
func (p Part) Meshes(chord float64) []geom.Mesh {
	if p.Solid == nil {
		return nil
	}
	own := p.Solid.Mesh(chord)
	var out []geom.Mesh
	for _, c := range p.Places {
		out = append(out, own.Posed(c.After(p.Pose)))
	}
	return out
}

// CutMeshes returns the surface of each cut where it stands, for each copy.
func (p Part) CutMeshes(chord float64) []geom.Mesh {
	var out []geom.Mesh
	for _, cut := range p.Cuts {
		own := cut.Solid.Mesh(chord)
		for _, c := range p.Places {
			out = append(out, own.Posed(c.After(cut.Pose)))
		}
	}
	return out
}
