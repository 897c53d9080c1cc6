package geom

import "math"

// shell is a closed surface of a mesh, and the point that stands for it in
// questions of nesting: the middle of its largest facet that looks up from
// what it encloses.
type shell struct {
	volume  float64 // signed
	area    float64
	point   Vec
	best    float64 // area of that facet seen from above
	winding int     // how often the other shells enclose the point, with their signs

	pointDown Vec // the same for the facet that looks down most
	bestDown  float64
}

// shells are those that are closed by themselves, and for each facet the
// number of its shell, or −1.
type shells struct {
	list []shell
	of   []int32
}

// closedShells measures each closed shell from the given point.
func (s *survey) closedShells(origin Vec) shells {
	faces := s.table.mesh.Faces
	isOpen := s.openShells()
	out := shells{of: make([]int32, len(faces))}
	for i, f := range faces {
		root := s.shells.root(i)
		switch {
		case !s.counts(i, f) || isOpen[root]:
			out.of[i] = -1
		case root == i: // the lowest facet of the shell, so met first
			out.of[i] = int32(len(out.list))
			out.list = append(out.list, shell{})
		default:
			out.of[i] = out.of[root]
		}
	}
	out.measure(s.table.mesh, origin)
	return out
}

// measure sums over the facets of each shell, in shares of the mesh that can be
// worked on at the same time and are as many whatever the machine.
func (s *shells) measure(m Mesh, origin Vec) {
	shares := 64
	if len(s.list)*shares > len(s.of) {
		shares = 1
	}
	parts := make([][]shell, shares)
	ShareOut(shares, meshWorkers(0), func() func(int) {
		return func(n int) {
			parts[n] = make([]shell, len(s.list))
			from, to := share(len(s.of), n, shares)
			for i := from; i < to; i++ {
				if s.of[i] >= 0 {
					a, b, c := m.Triangle(i)
					parts[n][s.of[i]].take(a, b, c, origin)
				}
			}
		}
	})
	for _, part := range parts {
		for i := range s.list {
			s.list[i].join(&part[i])
		}
	}
	for i := range s.list {
		s.list[i].choose()
	}
}

// openShells marks the lowest facet of each shell that has a rim.
func (s *survey) openShells() []bool {
	open := make([]bool, len(s.table.mesh.Faces))
	for _, r := range s.rims {
		if r.facet >= 0 {
			open[s.shells.root(r.facet)] = true
		}
	}
	for _, c := range s.crowded {
		for _, root := range s.unbalanced(c) {
			open[root] = true
		}
	}
	return open
}

// take adds one facet.
func (s *shell) take(a, b, c, origin Vec) {
	n := b.Sub(a).Cross(c.Sub(a))
	s.volume += a.Sub(origin).Dot(n) / 6
	s.area += n.Len() / 2
	up := n[2] / 2
	if up > s.best {
		s.best, s.point = up, a.Add(b).Add(c).Mul(1.0/3)
	}
	if -up > s.bestDown {
		s.bestDown, s.pointDown = -up, a.Add(b).Add(c).Mul(1.0/3)
	}
}

func (s *shell) join(t *shell) {
	s.volume += t.volume
	s.area += t.area
	if t.best > s.best {
		s.best, s.point = t.best, t.point
	}
	if t.bestDown > s.bestDown {
		s.bestDown, s.pointDown = t.bestDown, t.pointDown
	}
}

// choose keeps the facet that looks up from the enclosed side: down by its own
// winding in a shell that faces inward.
func (s *shell) choose() {
	if s.volume < 0 {
		s.best, s.point = s.bestDown, s.pointDown
	}
}

// judgeShells finds shells that face the wrong way for where they are. If the
// whole is inside out, it is judged as if it were turned.
func (h *Health) judgeShells(s shells, m Mesh, box Extent) {
	if len(s.list) < 2 {
		return
	}
	s.wind(m, box)
	sense := 1
	if h.Inverted {
		sense = -1
	}
	var places []Vec
	for _, shell := range s.list {
		outward, around := shell.volume*float64(sense) > 0, shell.winding*sense
		switch {
		case isFlat(shell.volume, shell.area, box.Diagonal()):
			continue
		case outward && around > 0:
			h.NestedShells++ // what that may mean for the volume: judgeReadings
		case !outward && around <= 0:
			h.InsideOutShells++
			h.VolumeDoubt += 2 * math.Abs(shell.volume)
		default:
			continue
		}
		places = append(places, shell.point)
	}
	if len(h.Where) == 0 {
		h.Where = places[:min(len(places), mostPlaces)]
	}
}

// wind sends a ray up from the point of each shell and adds the signs of the
// facets of larger shells that it passes: only these can be around it.
func (s shells) wind(m Mesh, box Extent) {
	tolerance := 1e-9 * box.Diagonal()
	plan := newGrid(s.list, box)
	for i, f := range m.Faces {
		if s.of[i] < 0 {
			continue
		}
		a, b, c := m.Triangle(i)
		plan.under(a, b, c, func(j int32) { s.list[j].winding += s.turnOver(m, f, s.of[i], j, tolerance) })
	}
}

// turnOver is how a facet of shell i, if it is over the point of shell j, turns
// around it; 0 if i is not larger, so its own facets count nothing.
func (s shells) turnOver(m Mesh, f [3]int, i, j int32, tolerance float64) int {
	point := s.list[j].point
	if math.Abs(s.list[i].volume) <= math.Abs(s.list[j].volume) {
		return 0
	}
	turn := turnsAround(m, f, point)
	if turn == 0 || heightAt(m.Vertices[f[0]], m.Vertices[f[1]], m.Vertices[f[2]], point) < point[2]-tolerance {
		return 0
	}
	return turn
}

// grid sorts the points of shells into squares as seen from above, about as
// many as there are shells, so that each facet meets few.
type grid struct {
	box     Extent
	side    int       // squares along x and along y
	squares [][]int32 // numbers of shells
}

func newGrid(list []shell, box Extent) grid {
	g := grid{box: box, side: int(math.Ceil(math.Sqrt(float64(len(list)))))}
	g.squares = make([][]int32, g.side*g.side)
	for i, shell := range list {
		at := g.square(shell.point, 0)*g.side + g.square(shell.point, 1)
		g.squares[at] = append(g.squares[at], int32(i))
	}
	return g
}

// square is the row that a point is in along an axis.
func (g grid) square(v Vec, axis int) int {
	size := g.box.Size()[axis]
	if size <= 0 {
		return 0
	}
	part := (v[axis] - g.box.Min[axis]) / size
	return max(0, min(g.side-1, int(part*float64(g.side))))
}

// under calls visit for the points in all squares that the facet may cover.
func (g grid) under(a, b, c Vec, visit func(shell int32)) {
	var low, high Vec
	for axis := range low {
		low[axis], high[axis] = min(a[axis], b[axis], c[axis]), max(a[axis], b[axis], c[axis])
	}
	y0, y1 := g.square(low, 1), g.square(high, 1)
	for x, last := g.square(low, 0), g.square(high, 0); x <= last; x++ {
		for y := y0; y <= y1; y++ {
			for _, shell := range g.squares[x*g.side+y] {
				visit(shell)
			}
		}
	}
}

// turnsAround is +1 if the facet, seen from above, turns anticlockwise around
// the point, −1 if clockwise, 0 if the point is beside it. A ray that meets an
// edge exactly is given to one of its two facets and no other, since both work
// with the same crossing, from the lower vertex to the higher.
func turnsAround(m Mesh, f [3]int, point Vec) int {
	turn := 0
	for corner := range f {
		i, j := f[corner], f[(corner+1)%3]
		above, aboveNext := m.Vertices[i][1] > point[1], m.Vertices[j][1] > point[1]
		if above == aboveNext {
			continue
		}
		low, high := m.Vertices[min(i, j)], m.Vertices[max(i, j)]
		crossing := low[0] + (point[1]-low[1])/(high[1]-low[1])*(high[0]-low[0])
		switch {
		case point[0] >= crossing:
		case aboveNext:
			turn++
		default:
			turn--
		}
	}
	return turn
}

// heightAt is z of the facet's plane over or under the point.
func heightAt(a, b, c, point Vec) float64 {
	n := b.Sub(a).Cross(c.Sub(a))
	if n[2] == 0 { // a sliver on edge: any of its heights will do
		return a[2]
	}
	return a[2] - (n[0]*(point[0]-a[0])+n[1]*(point[1]-a[1]))/n[2]
}
