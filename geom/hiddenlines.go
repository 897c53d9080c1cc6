package geom

import (
	"cmp"
	"math"
	"slices"

	"github.com/go-gl/mathgl/mgl64"
)

// View is the way a drawing looks at a load: unit vectors, square to one another,
// that on the paper go right, go up, and come toward the eye.
type View struct{ Right, Up, Toward Vec }

// The views of a drawing. Isometric is the eye over the corner that is least in
// y and greatest in x: all three axes are shortened alike.
var (
	FromAbove = View{Vec{1, 0, 0}, Vec{0, 1, 0}, Vec{0, 0, 1}}
	FromFront = View{Vec{1, 0, 0}, Vec{0, 0, 1}, Vec{0, -1, 0}}
	FromRight = View{Vec{0, 1, 0}, Vec{0, 0, 1}, Vec{1, 0, 0}}
	Isometric = View{
		Vec{1, 1, 0}.Mul(math.Sqrt2 / 2),
		Vec{-1, 1, 2}.Mul(1 / math.Sqrt(6)),
		Vec{1, -1, 1}.Mul(1 / math.Sqrt(3)),
	}
)

// On returns where a point falls on the paper, in metres.
func (v View) On(p Vec) mgl64.Vec2 { return mgl64.Vec2{p.Dot(v.Right), p.Dot(v.Up)} }

// Turned returns the view of a load that has been turned: the eye stays, the load
// turns by the matrix.
func (v View) Turned(turn mgl64.Mat3) View {
	back := turn.Transpose()
	return View{back.Mul3x1(v.Right), back.Mul3x1(v.Up), back.Mul3x1(v.Toward)}
}

// Seen is a piece of an edge that the eye sees, in metres on the paper.
type Seen struct {
	From, To mgl64.Vec2
	Mesh     int // which of the meshes it is of
}

// crease is the least angle between two faces whose common edge is drawn: less is
// taken for the facets of a round surface. Common practice in drawing, no source.
const crease = 25 * math.Pi / 180

// Sight is closed meshes made ready to be looked at from any side: which faces
// meet in which edge is found once for all views.
type Sight struct {
	meshes []Mesh
	solid  int
	edges  [][]meetingFaces // by mesh
}

// meetingFaces is an edge and the unit normals of the faces that meet in it.
type meetingFaces struct {
	from, to      Vec
	first, second Vec
	open          bool // there is no second face
}

// NewSight readies meshes. Those from the number solid on are only lines on the
// others (the outlines of holes): they hide nothing.
func NewSight(meshes []Mesh, solid int) Sight {
	s := Sight{meshes: meshes, solid: min(solid, len(meshes))}
	for _, m := range meshes {
		s.edges = append(s.edges, edgesOf(m))
	}
	return s
}

// Edges returns the edges that are seen in a view: creases, and the rims where a
// surface turns away from the eye.
//
// What hides is drawn into a field of depths, cells across its longer side, and
// an edge is seen where no more than a cell beside it lies nearer to the eye: right
// to about one cell, and quick for any number of faces. An edge that is seen for
// less than two cells is left out. Method: the depth buffer of every text on
// computer graphics (from memory).
func (s Sight) Edges(view View, cells int) []Seen {
	f := newDepths(s.meshes, view, cells)
	for _, m := range s.meshes[:s.solid] {
		f.fill(m)
	}
	var seen []Seen
	for i, edges := range s.edges {
		for _, e := range edges {
			if !e.isDrawn(view.Toward) {
				continue
			}
			for _, piece := range f.pieces(e.from, e.to) {
				seen = append(seen, Seen{piece[0], piece[1], i})
			}
		}
	}
	return seen
}

// edgesOf are the edges of a mesh that some view may show: those between faces
// that lie in one plane are left out.
func edgesOf(m Mesh) []meetingFaces {
	m = welded(m)
	type side struct {
		edge uint64 // its two corners, the lower number first
		face int
	}
	sides := make([]side, 0, 3*len(m.Faces))
	for i, f := range m.Faces {
		for k := range f {
			low, high := min(f[k], f[(k+1)%3]), max(f[k], f[(k+1)%3])
			sides = append(sides, side{uint64(low)<<32 | uint64(high), i})
		}
	}
	slices.SortFunc(sides, func(a, b side) int {
		return cmp.Or(cmp.Compare(a.edge, b.edge), cmp.Compare(a.face, b.face))
	})
	var out []meetingFaces
	for i := 0; i < len(sides); {
		last := i
		for last+1 < len(sides) && sides[last+1].edge == sides[i].edge {
			last++
		}
		e := meetingFaces{from: m.Vertices[sides[i].edge>>32], to: m.Vertices[uint32(sides[i].edge)], open: last == i,
			first: faceNormal(m, sides[i].face), second: faceNormal(m, sides[last].face)}
		if e.open || e.first.Cross(e.second).Len() > 1e-9 || e.first.Dot(e.second) < 0 {
			out = append(out, e)
		}
		i = last + 1
	}
	return out
}

// faceNormal is the unit normal of a face, zero where it has no area.
func faceNormal(m Mesh, face int) Vec {
	a, b, c := m.Triangle(face)
	n := b.Sub(a).Cross(c.Sub(a))
	if n.Len() > 0 {
		return n.Normalize()
	}
	return Vec{}
}

// isDrawn says whether the edge is a line of the drawing. Faces that look away, or
// are seen edge on, are at the back.
func (e meetingFaces) isDrawn(toward Vec) bool {
	if e.open {
		return true
	}
	const edgeOn = 1e-9
	switch front, other := e.first.Dot(toward) > edgeOn, e.second.Dot(toward) > edgeOn; {
	case !front && !other:
		return false
	case front != other:
		return true
	}
	return math.Atan2(e.first.Cross(e.second).Len(), e.first.Dot(e.second)) > crease
}

// depths is a field of how near to the eye the nearest surface is.
type depths struct {
	view       View
	low        mgl64.Vec2 // m, its lower left corner
	cell       float64    // m
	wide, high int
	near       []float64 // m along View.Toward; -Inf where there is nothing
}

func newDepths(meshes []Mesh, view View, cells int) depths {
	low, high := mgl64.Vec2{math.Inf(1), math.Inf(1)}, mgl64.Vec2{math.Inf(-1), math.Inf(-1)}
	for _, m := range meshes {
		for _, v := range m.Vertices {
			p := view.On(v)
			low = mgl64.Vec2{min(low[0], p[0]), min(low[1], p[1])}
			high = mgl64.Vec2{max(high[0], p[0]), max(high[1], p[1])}
		}
	}
	d := depths{view: view}
	if !(high[0] >= low[0]) {
		return d // nothing to draw
	}
	d.cell = max(high[0]-low[0], high[1]-low[1], 1e-9) / float64(max(cells, 8))
	d.low = mgl64.Vec2{low[0] - 2*d.cell, low[1] - 2*d.cell}
	d.wide, d.high = int((high[0]-low[0])/d.cell)+5, int((high[1]-low[1])/d.cell)+5
	d.near = make([]float64, d.wide*d.high)
	for i := range d.near {
		d.near[i] = math.Inf(-1)
	}
	return d
}

// at returns a point in cells, with its depth in metres.
func (d depths) at(p Vec) (x, y, z float64) {
	q := d.view.On(p)
	return (q[0] - d.low[0]) / d.cell, (q[1] - d.low[1]) / d.cell, p.Dot(d.view.Toward)
}

// fill draws the faces of a mesh, at the middle of each cell.
func (d depths) fill(m Mesh) {
	for i := range m.Faces {
		a, b, c := m.Triangle(i)
		d.face(a, b, c)
	}
}

func (d depths) face(a, b, c Vec) {
	ax, ay, az := d.at(a)
	bx, by, bz := d.at(b)
	cx, cy, cz := d.at(c)
	area := (bx-ax)*(cy-ay) - (cx-ax)*(by-ay)
	if area == 0 {
		return // seen edge on
	}
	for y := max(0, int(min(ay, by, cy)-0.5)); y <= min(d.high-1, int(max(ay, by, cy))); y++ {
		for x := max(0, int(min(ax, bx, cx)-0.5)); x <= min(d.wide-1, int(max(ax, bx, cx))); x++ {
			px, py := float64(x)+0.5, float64(y)+0.5
			u := ((bx-px)*(cy-py) - (cx-px)*(by-py)) / area
			v := ((cx-px)*(ay-py) - (ax-px)*(cy-py)) / area
			if w := 1 - u - v; u >= 0 && v >= 0 && w >= 0 {
				z := u*az + v*bz + w*cz
				d.near[y*d.wide+x] = max(d.near[y*d.wide+x], z)
			}
		}
	}
}

// pieces returns the pieces of an edge that are seen, on the paper.
func (d depths) pieces(from, to Vec) [][2]mgl64.Vec2 {
	ax, ay, az := d.at(from)
	bx, by, bz := d.at(to)
	steps := int(math.Ceil(math.Hypot(bx-ax, by-ay)))
	if steps == 0 {
		return nil
	}
	paper := func(t float64) mgl64.Vec2 {
		return d.view.On(from.Add(to.Sub(from).Mul(t)))
	}
	var out [][2]mgl64.Vec2
	start := -1
	for i := 0; i <= steps; i++ {
		t := (float64(i) + 0.5) / float64(steps)
		seen := i < steps && d.clear(ax+t*(bx-ax), ay+t*(by-ay), az+t*(bz-az))
		switch {
		case seen && start < 0:
			start = i
		case !seen && start >= 0:
			if i-start >= min(2, steps) {
				out = append(out, [2]mgl64.Vec2{paper(float64(start) / float64(steps)), paper(float64(i) / float64(steps))})
			}
			start = -1
		}
	}
	return out
}

// clear says whether nothing hides a point: in one of the nine cells about it
// nothing is nearer to the eye than it, by more than a hair.
func (d depths) clear(x, y, z float64) bool {
	hair := 1e-6 * d.cell * float64(d.wide+d.high)
	for j := int(y) - 1; j <= int(y)+1; j++ {
		for i := int(x) - 1; i <= int(x)+1; i++ {
			if i < 0 || j < 0 || i >= d.wide || j >= d.high || d.near[j*d.wide+i] <= z+hair {
				return true
			}
		}
	}
	return false
}
