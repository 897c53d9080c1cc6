package takeoff

import (
	"math"

	"github.com/go-gl/mathgl/mgl64"

	"plumbhook/geom"
)

// solid keeps a failed constructor from handing out a solid.
func solid[S geom.Solid](s S, err error) (geom.Solid, error) {
	if err != nil {
		return nil, err
	}
	return s, nil
}

func buildBox(d dims) (geom.Solid, error) {
	return solid(geom.NewBox(d.size[0], d.size[1], d.size[2]))
}

func buildWedge(d dims) (geom.Solid, error) {
	return solid(geom.NewWedge(d.named["base"], d.named["depth"], d.named["height"], d.named["top"]))
}

func buildPrism(d dims) (geom.Solid, error) {
	return solid(geom.NewPrism(d.named["base"], d.named["top"], d.named["height"], d.named["length"]))
}

// buildPlate makes a plate of three sizes, or of an outline and a thickness.
func buildPlate(d dims) (geom.Solid, error) {
	if d.size != nil {
		return buildBox(d)
	}
	return d.extruded(d.named["thickness"])
}

func buildPolygon(d dims) (geom.Solid, error) { return d.extruded(d.named["length"]) }

// extruded draws the outline and its holes out along z.
func (d dims) extruded(length float64) (geom.Solid, error) {
	if !d.straight() {
		return solid(geom.NewExtrusion(d.outline, d.holes, length))
	}
	var holes [][]mgl64.Vec2
	for _, h := range d.holes {
		holes = append(holes, points(h))
	}
	return solid(geom.NewPolygon(points(d.outline), holes, length))
}

func buildRevolve(d dims) (geom.Solid, error) {
	angle := 2 * math.Pi
	if d.has("angle") {
		angle = d.named["angle"]
	}
	return solid(geom.NewRevolve(d.outline, angle))
}

func buildCylinder(d dims) (geom.Solid, error) {
	return solid(geom.NewCylinder(d.named["diameter"], d.named["height"]))
}

func buildTube(d dims) (geom.Solid, error) {
	outside := d.named["outside"]
	switch {
	case d.has("outside") && d.has("inside"):
		return nil, &geom.ShapeError{Msg: "a tube with an outside and an inside diameter", Fix: "give one of the two; the wall gives the other"}
	case d.has("inside"):
		outside = d.named["inside"] + 2*d.named["wall"]
	case !d.has("outside"):
		return nil, &geom.ShapeError{Msg: "a tube without a diameter", Fix: "write `outside:` or `inside:` with its diameter"}
	}
	return solid(geom.NewTube(outside, d.named["wall"], d.named["height"]))
}

func buildCone(d dims) (geom.Solid, error) {
	if d.named["wall"] > 0 || d.named["offset"] > 0 {
		bottom, top, height, offset := d.named["bottom"], d.named["top"], d.named["height"], d.named["offset"]
		wall := geom.LevelWall(bottom, top, height, offset, d.named["wall"])
		return solid(geom.NewConeShell(bottom, top, height, wall, offset))
	}
	return solid(geom.NewCone(d.named["bottom"], d.named["top"], d.named["height"]))
}

func buildPyramid(d dims) (geom.Solid, error) {
	bottom, top := d.pairs["bottom"], d.pairs["top"]
	if top == nil { // it ends in a point
		top = []float64{0, 0}
	}
	return solid(geom.NewPyramid(bottom[0], bottom[1], top[0], top[1], d.named["height"]))
}

func buildSphere(d dims) (geom.Solid, error) {
	return solid(geom.NewSphere(d.named["diameter"], d.named["wall"]))
}

func buildHemisphere(d dims) (geom.Solid, error) {
	return solid(geom.NewHemisphere(d.named["diameter"], d.named["wall"]))
}

func buildCap(d dims) (geom.Solid, error) {
	return solid(geom.NewCap(d.named["sphere"], d.named["height"]))
}

func buildRing(d dims) (geom.Solid, error) {
	return solid(geom.NewRing(d.named["mean"], d.named["thickness"]))
}

func buildBend(d dims) (geom.Solid, error) {
	outside, wall := d.named["outside"], d.named["wall"]
	switch pipe := d.section.Name != ""; {
	case pipe && (outside > 0 || wall > 0):
		return nil, &geom.ShapeError{Msg: "a bend with a pipe, and with an outside diameter or a wall of its own", Fix: "give `pipe`, or `outside` and `wall`"}
	case pipe:
		outside, wall = d.section.Depth, d.section.Wall
	case outside == 0:
		return nil, &geom.ShapeError{Msg: "a bend without a diameter", Fix: "write `outside` and `wall`, or `pipe:` with a designation"}
	}
	return solid(geom.NewBend(outside, wall, d.named["radius"], d.named["angle"]))
}

func buildSection(d dims) (geom.Solid, error) { return sectionSolid(d.section, d.named["length"]) }
