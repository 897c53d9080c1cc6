package geom

import (
	"fmt"
	"math"

	"github.com/go-gl/mathgl/mgl64"
)

// lightPolyline reads an LWPOLYLINE: its points follow each other in one
// entity.
func (d *dxfReader) lightPolyline(e dxfEntity) error {
	flags, err := e.flags()
	if err != nil {
		return err
	}
	p := dxfPath{closed: flags&1 != 0}
	if p.height, err = e.optional(38, 0); err != nil {
		return err
	}
	for _, g := range e.groups {
		if g.code != 10 && g.code != 20 && g.code != 42 {
			continue
		}
		c, err := g.number(e)
		if err != nil {
			return err
		}
		last := len(p.points) - 1
		switch {
		case g.code == 10:
			p.add(mgl64.Vec2{c, math.NaN()}, 0)
		case last < 0:
			return e.fault(fmt.Sprintf("has group %d before its first point", g.code), fixDXF)
		case g.code == 20:
			p.points[last][1] = c
		default:
			p.bulges[last] = c
		}
	}
	for i, at := range p.points {
		if math.IsNaN(at[1]) {
			return e.fault(fmt.Sprintf("has no y of its point %d (group 20)", i+1), fixDXF)
		}
	}
	return d.keepPolyline(e, p)
}

func (d *dxfReader) keepPolyline(e dxfEntity, p dxfPath) error {
	if len(p.points) < 2 {
		return e.fault(fmt.Sprintf("has %s, and needs two", count(len(p.points), "point", "points")), fixDXF)
	}
	return d.keep(e, p)
}

// Bits of group 70 of a POLYLINE and of its VERTEX.
const (
	polylineClosed = 1
	polylineSpace  = 8        // its points have heights of their own
	polylineSpline = 4        // its points are on a spline, or steer it
	polylineMesh   = 16 | 64  // it is a surface
	vertexOfSpline = 8 | 16   // on the spline, or steering it
	vertexOfFace   = 64 | 128 // of a surface
)

// polyline reads an old POLYLINE: its points are entities of their own, up to a
// SEQEND.
func (d *dxfReader) polyline(e dxfEntity) error {
	flags, err := e.flags()
	if err != nil {
		return err
	}
	passed := e.paper
	switch {
	case passed:
	case flags&polylineSpline != 0:
		return e.fault("is a spline, which is not read", "replace it by lines and arcs in the drawing program, and save again")
	case flags&polylineMesh != 0:
		return e.fault("is a surface, which is not read as an outline", "save the outline alone, as lines and arcs")
	}
	p := dxfPath{closed: flags&polylineClosed != 0}
	if p.height, err = e.optional(30, 0); err != nil {
		return err
	}
	for first := true; ; first = false {
		g, err := d.next()
		if err != nil {
			return err
		}
		v, err := d.entity(g)
		switch {
		case err != nil:
			return err
		case v.kind == "SEQEND" && passed:
			return nil
		case v.kind == "SEQEND":
			return d.keepPolyline(e, p)
		case g.code != 0 || v.kind != "VERTEX":
			return e.fault(fmt.Sprintf("has no SEQEND: after its points comes %s", quoted([]byte(v.kind))), fixDXF)
		case len(p.points) > d.most:
			return e.fault(fmt.Sprintf("has more than %d points", d.most), "save the outline alone")
		}
		if passed {
			continue
		}
		if first && flags&polylineSpace != 0 {
			if p.height, err = v.optional(30, 0); err != nil {
				return err
			}
		}
		if err := p.addVertex(v, flags&polylineSpace != 0); err != nil {
			return err
		}
	}
}

func (p *dxfPath) addVertex(v dxfEntity, inSpace bool) error {
	flags, err := v.flags()
	if err != nil {
		return err
	}
	if flags&(vertexOfSpline|vertexOfFace) != 0 {
		return v.fault("belongs to a spline or a surface, which is not read", "replace it by lines and arcs in the drawing program, and save again")
	}
	var n [4]float64
	for i, code := range []int{10, 20} {
		if n[i], err = v.number(code, [...]string{"x", "y"}[i]); err != nil {
			return err
		}
	}
	for i, code := range []int{30, 42} {
		if n[2+i], err = v.optional(code, 0); err != nil {
			return err
		}
	}
	if inSpace && n[2] != p.height {
		return v.fault("is higher or lower than the first point: an outline is flat", "draw the outline in the x-y plane, as seen from above")
	}
	p.add(mgl64.Vec2{n[0], n[1]}, n[3])
	return nil
}
