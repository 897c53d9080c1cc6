package geom

import (
	"fmt"
	"math"

	"github.com/go-gl/mathgl/mgl64"
)

// joinGap is how far apart two ends may be that meet, as a fraction of the
// diagonal of the drawing.
const joinGap = 1e-6

// pathEnd is the start (0) or the end (1) of an open path.
type pathEnd struct{ path, end int }

// chainer joins paths end to end.
type chainer struct {
	paths []dxfPath
	gap   float64
	nodes []int      // for each end, 2·path + end, the node that it is at
	at    []pathNode // by number of the node
	used  []bool
}

// pathNode is a place where ends meet.
type pathNode struct {
	place mgl64.Vec2
	ends  []pathEnd
}

// chain makes loops of all that was drawn.
func (d *dxfReader) chain() ([]Loop, error) {
	if len(d.paths) == 0 {
		return nil, &FileError{Msg: "the drawing has no lines, arcs or circles in its model", Fix: fixDXF}
	}
	box := Extent{d.paths[0].points[0].Vec3(0), d.paths[0].points[0].Vec3(0)}
	for _, p := range d.paths {
		for _, at := range p.points {
			box = box.Union(Extent{at.Vec3(0), at.Vec3(0)})
		}
	}
	c := chainer{gap: joinGap * box.Diagonal()}
	var loops []Loop
	for _, p := range d.paths {
		if math.Abs(p.height-d.paths[0].height) > c.gap {
			return nil, p.from.fault(fmt.Sprintf("is drawn at the height z = %.6g, and what comes before at %.6g: an outline is flat", p.height, d.paths[0].height), "draw the outline in the x-y plane, as seen from above")
		}
		p.shorten(c.gap)
		switch {
		case len(p.points) < 2: // nothing is left of it
		case p.closed:
			loops = append(loops, p.loop())
		default:
			c.paths = append(c.paths, p)
		}
	}
	if err := c.meet(box); err != nil {
		return nil, err
	}
	return append(loops, c.walk()...), nil
}

// shorten leaves out pieces that are no longer than the gap.
func (p *dxfPath) shorten(gap float64) {
	points, bulges := p.points, p.bulges
	p.points, p.bulges = nil, nil
	for i, at := range points {
		if n := len(p.points); n > 0 && at.Sub(p.points[n-1]).Len() <= gap {
			p.bulges[n-1] = bulges[i]
			continue
		}
		p.add(at, bulges[i])
	}
	for n := len(p.points); p.closed && n > 1 && p.points[n-1].Sub(p.points[0]).Len() <= gap; n-- {
		p.points, p.bulges = p.points[:n-1], p.bulges[:n-1]
	}
}

func (p dxfPath) loop() Loop {
	l := Loop{Bulge: p.bulges}
	for _, at := range p.points {
		l.Points = append(l.Points, at)
	}
	return l
}

// end returns the first or the last point.
func (p dxfPath) end(end int) mgl64.Vec2 { return p.points[end*(len(p.points)-1)] }

// meet finds which ends meet, and asks that they do so two and two.
func (c *chainer) meet(box Extent) error {
	grid := pointGrid{low: box.Min, cell: 2 * c.gap, first: map[[3]int64]int32{}}
	c.nodes, c.used = make([]int, 2*len(c.paths)), make([]bool, len(c.paths))
	for i, p := range c.paths {
		for end := range 2 {
			node := grid.nearest(p.end(end).Vec3(0), c.gap)
			if node < 0 {
				node = len(c.at)
				grid.add(p.end(end).Vec3(0), node)
				c.at = append(c.at, pathNode{place: p.end(end)})
			}
			c.nodes[2*i+end] = node
			c.at[node].ends = append(c.at[node].ends, pathEnd{i, end})
		}
	}
	var open []pathEnd
	for _, node := range c.at {
		if len(node.ends) == 1 {
			open = append(open, node.ends[0])
		}
	}
	if err := c.twice(); err != nil {
		return err
	}
	if len(open) > 0 {
		return c.openFault(open)
	}
	for _, node := range c.at {
		if len(node.ends) > 2 {
			return c.branchFault(node)
		}
	}
	return nil
}

// walk goes along the paths from end to end, when every end meets one other.
func (c *chainer) walk() []Loop {
	var loops []Loop
	for i := range c.paths {
		if c.used[i] {
			continue
		}
		var loop dxfPath
		for at := (pathEnd{i, 0}); !c.used[at.path]; at = c.other(at) {
			c.used[at.path] = true
			c.append(&loop, at)
		}
		loops = append(loops, loop.loop())
	}
	return loops
}

// other returns where a walk that enters a path at one end goes on.
func (c *chainer) other(entered pathEnd) pathEnd {
	left := pathEnd{entered.path, 1 - entered.end}
	ends := c.at[c.nodes[2*left.path+left.end]].ends
	if ends[0] == left {
		return ends[1]
	}
	return ends[0]
}

// append adds a path that is entered at one end, without the point at its other.
func (c *chainer) append(loop *dxfPath, entered pathEnd) {
	p := c.paths[entered.path]
	n := len(p.points)
	for i := range n - 1 {
		if entered.end == 0 {
			loop.add(p.points[i], p.bulges[i])
		} else {
			loop.add(p.points[n-1-i], -p.bulges[n-2-i])
		}
	}
}
