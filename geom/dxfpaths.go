package geom

import (
	"fmt"
	"math"

	"github.com/go-gl/mathgl/mgl64"
)

// dxfPath is one thing drawn as straight pieces and arcs of no more than half
// a circle, one after the other.
type dxfPath struct {
	from   dxfEntity // without its groups
	points []mgl64.Vec2
	bulges []float64 // of the piece from each point to the next; of a closed path the last goes to the first
	closed bool
	height float64
}

// add adds a point and the piece that goes on from it.
func (p *dxfPath) add(at mgl64.Vec2, bulge float64) {
	p.points, p.bulges = append(p.points, at), append(p.bulges, bulge)
}

// keep takes a path that is complete, seen from above.
func (d *dxfReader) keep(e dxfEntity, p dxfPath) error {
	p.split()
	if d.pieces += len(p.points); d.pieces > d.most {
		return e.fault(fmt.Sprintf("is one too many: more than %d lines and arcs are no outline", d.most), "save the outline alone")
	}
	below, err := e.below()
	if err != nil {
		return err
	}
	if below {
		p.height = -p.height
		for i := range p.points {
			p.points[i][0], p.bulges[i] = -p.points[i][0], -p.bulges[i]
		}
	}
	p.from = dxfEntity{kind: e.kind, line: e.line, layer: e.layer}
	d.paths = append(d.paths, p)
	return nil
}

// below tells whether an entity is drawn as seen from below, its x to the left.
func (e dxfEntity) below() (bool, error) {
	if e.kind == "LINE" { // its points are those of the drawing in any case
		return false, nil
	}
	var n Vec
	for axis, otherwise := range []float64{0, 0, 1} {
		var err error
		if n[axis], err = e.optional(210+10*axis, otherwise); err != nil {
			return false, err
		}
	}
	if !(math.Hypot(n[0], n[1]) <= 1e-9*math.Abs(n[2])) || n[2] == 0 {
		return false, e.fault("is drawn in a plane that is not parallel to x and y", "draw the outline in the x-y plane, as seen from above")
	}
	return n[2] < 0, nil
}

// split cuts arcs of more than half a circle in two at their middle, which
// stands off the chord by bulge·chord/2 to the right.
func (p *dxfPath) split() {
	points, bulges := p.points, p.bulges
	p.points, p.bulges = nil, nil
	for i, at := range points {
		b, last := bulges[i], i+1 == len(points)
		if math.Abs(b) <= 1 || last && !p.closed {
			p.add(at, b)
			continue
		}
		chord := points[(i+1)%len(points)].Sub(at)
		half := math.Tan(math.Atan(b) / 2)
		p.add(at, half)
		p.add(at.Add(chord.Mul(0.5)).Add(mgl64.Vec2{chord[1], -chord[0]}.Mul(b/2)), half)
	}
}

func (d *dxfReader) line(e dxfEntity) error {
	var n [4]float64
	var z [2]float64
	var err error
	for i, code := range []int{10, 20, 11, 21} {
		if n[i], err = e.number(code, [...]string{"x of its start", "y of its start", "x of its end", "y of its end"}[i]); err != nil {
			return err
		}
	}
	for i, code := range []int{30, 31} {
		if z[i], err = e.optional(code, 0); err != nil {
			return err
		}
	}
	p := dxfPath{height: z[0]}
	p.add(mgl64.Vec2{n[0], n[1]}, 0)
	p.add(mgl64.Vec2{n[2], n[3]}, 0)
	if math.Abs(z[1]-z[0]) > 1e-6*p.points[1].Sub(p.points[0]).Len() {
		return e.fault("rises from one end to the other: an outline is flat", "draw the outline in the x-y plane, as seen from above")
	}
	return d.keep(e, p)
}

// arc reads an arc or a circle.
func (d *dxfReader) arc(e dxfEntity) error {
	var n [3]float64
	var err error
	for i, code := range []int{10, 20, 40} {
		if n[i], err = e.number(code, [...]string{"x of its centre", "y of its centre", "radius"}[i]); err != nil {
			return err
		}
	}
	p := dxfPath{closed: e.kind == "CIRCLE"}
	if p.height, err = e.optional(30, 0); err != nil {
		return err
	}
	if !(n[2] > 0) {
		return e.fault(fmt.Sprintf("has the radius %g, which is not above zero", n[2]), fixDXF)
	}
	start, sweep := 0.0, 360.0
	if !p.closed {
		if start, sweep, err = e.angles(); err != nil {
			return err
		}
	}
	parts := 2.0
	if sweep < 180 {
		parts = 1
	}
	for i := range int(parts) + 1 {
		if p.closed && i == 2 {
			break
		}
		sin, cos := sincosDegrees(start + sweep/parts*float64(i))
		p.add(mgl64.Vec2{n[0] + n[2]*cos, n[1] + n[2]*sin}, math.Tan(sweep/parts/4*math.Pi/180))
	}
	return d.keep(e, p)
}

// angles returns where an arc starts and how far it runs, anticlockwise, in
// degrees.
func (e dxfEntity) angles() (start, sweep float64, err error) {
	if start, err = e.number(50, "start angle"); err != nil {
		return 0, 0, err
	}
	end, err := e.number(51, "end angle")
	if err != nil {
		return 0, 0, err
	}
	if sweep = math.Mod(end-start, 360); sweep <= 0 {
		sweep += 360
	}
	return math.Mod(start, 360), sweep, nil
}

// sincosDegrees is exact at the quarters of a turn.
func sincosDegrees(angle float64) (sin, cos float64) {
	sin, cos = math.Sincos(angle * math.Pi / 180)
	if math.Mod(angle, 90) == 0 {
		sin, cos = math.Round(sin), math.Round(cos)
	}
	return sin, cos
}
