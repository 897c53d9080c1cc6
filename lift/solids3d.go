package lift

import (
	"fmt"
	"math"

	"plumbhook/geom"
	"plumbhook/takeoff"
)

// Solid3D is the surface of a part, of all its copies together, in the load's
// axes: for the view that can be turned.
type Solid3D struct {
	Part     string     `json:"part"`
	Hole     bool       `json:"hole,omitempty"` // the surface of what is cut out of it
	Vertices []geom.Vec `json:"vertices_m"`     // to a tenth of a millimetre
	Faces    [][3]int   `json:"faces"`
}

const (
	mostTriangles = 60_000     // of the view, of all parts together
	chordOfView   = 1.0 / 1000 // how far a surface may be off a round one, in parts of the load's size
	tenth         = 1e4        // tenths of a millimetre in a metre
)

// solids are the surfaces of the parts that have a shape, and a note where they
// are drawn coarser than they are. Liquid is inside and not seen.
func solids(l *takeoff.Load, w Weight) (list []Solid3D, note string) {
	chord := max(w.extent().Diagonal()*chordOfView, 1e-5)
	for _, p := range l.Parts {
		if p.Liquid != nil {
			continue
		}
		list = appendSolid(list, Solid3D{Part: p.Name}, p.Meshes(chord))
		list = appendSolid(list, Solid3D{Part: p.Name, Hole: true}, p.CutMeshes(chord))
	}
	return thinned(list)
}

// appendSolid joins the meshes of one part.
func appendSolid(list []Solid3D, s Solid3D, meshes []geom.Mesh) []Solid3D {
	corners := corners3D{of: map[geom.Vec]int{}}
	for _, m := range meshes {
		for _, f := range m.Faces {
			corners.face(m.Vertices[f[0]], m.Vertices[f[1]], m.Vertices[f[2]])
		}
	}
	s.Vertices, s.Faces = corners.places, corners.faces
	if len(s.Faces) == 0 {
		return list
	}
	return append(list, s)
}

// corners3D numbers the corners of triangles, those at one place alike.
type corners3D struct {
	of     map[geom.Vec]int
	places []geom.Vec
	faces  [][3]int
}

// face adds a triangle unless nothing is left of it at a tenth of a millimetre.
func (c *corners3D) face(places ...geom.Vec) {
	var f [3]int
	for i, p := range places {
		for k := range 3 {
			p[k] = math.Round(p[k]*tenth)/tenth + 0 // no −0
		}
		number, known := c.of[p]
		if !known {
			number = len(c.places)
			c.of[p], c.places = number, append(c.places, p)
		}
		f[i] = number
	}
	if f[0] != f[1] && f[1] != f[2] && f[2] != f[0] {
		c.faces = append(c.faces, f)
	}
}

// thinned draws surfaces coarser until all of them together have no more than the
// most triangles: each that has more than its share.
func thinned(list []Solid3D) ([]Solid3D, string) {
	total := 0
	for _, s := range list {
		total += len(s.Faces)
	}
	if total <= mostTriangles {
		return list, ""
	}
	left := 0
	var names []string
	for i, s := range list {
		share := int(float64(mostTriangles) * float64(len(s.Faces)) / float64(total))
		list[i] = s.coarser(max(share, boxFaces))
		left += len(list[i].Faces)
		if !s.Hole {
			names = append(names, s.Part)
		}
	}
	return list, fmt.Sprintf("The surfaces in this view are coarser than in the take-off, %d triangles in place of %d: %s. The figures are of the take-off.", left, total, listed(names))
}

// boxFaces is how many triangles a box has.
const boxFaces = 12

// coarser draws the surface with at most so many triangles, by moving the corners
// in each cell of a grid together; as its box where the cells would be as large as
// a quarter of it.
func (s Solid3D) coarser(most int) Solid3D {
	box := geom.Mesh{Vertices: s.Vertices, Faces: s.Faces}.Extent()
	area := geom.Mesh{Vertices: s.Vertices, Faces: s.Faces}.Area()
	for cell := math.Sqrt(2 * area / float64(most)); cell < box.Diagonal()/4; cell *= 1.25 {
		if out := s.clustered(box.Min, cell); len(out.Faces) <= most {
			return out
		}
	}
	return s.boxed(box)
}

// clustered moves the corners in each cell to their middle.
func (s Solid3D) clustered(from geom.Vec, cell float64) Solid3D {
	number := map[[3]int]int{}
	var sum []geom.Vec
	var count []float64
	in := make([]int, len(s.Vertices))
	for i, v := range s.Vertices {
		var key [3]int
		for k := range 3 {
			key[k] = int(math.Floor((v[k] - from[k]) / cell))
		}
		n, known := number[key]
		if !known {
			n = len(sum)
			number[key], sum, count = n, append(sum, geom.Vec{}), append(count, 0)
		}
		in[i], sum[n] = n, sum[n].Add(v)
		count[n]++
	}
	corners := corners3D{of: map[geom.Vec]int{}}
	for _, f := range s.Faces {
		a, b, c := in[f[0]], in[f[1]], in[f[2]]
		if a != b && b != c && c != a {
			corners.face(sum[a].Mul(1/count[a]), sum[b].Mul(1/count[b]), sum[c].Mul(1/count[c]))
		}
	}
	return Solid3D{s.Part, s.Hole, corners.places, corners.faces}
}

// boxed is the box of the surface; as it is where it has no box.
func (s Solid3D) boxed(box geom.Extent) Solid3D {
	size := box.Size()
	solid, err := geom.NewBox(size[0], size[1], size[2])
	if err != nil {
		return s // flat, and so of few triangles
	}
	mesh := solid.Mesh(0)
	mesh = mesh.Posed(geom.Still().Shifted(box.Center().Sub(mesh.Extent().Center())))
	return appendSolid(nil, Solid3D{Part: s.Part, Hole: s.Hole}, []geom.Mesh{mesh})[0]
}
