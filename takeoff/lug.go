package takeoff

import (
	"fmt"
	"math"

	"go.yaml.in/yaml/v3"

	"plumbhook/geom"
)

// Lug is how the plate of a lug stands at a pick.
type Lug struct {
	Normal geom.Vec // of length 1, square to the plate
	Axis   geom.Vec // of length 1, from the lug's foot to its hole
}

const aLug = "{normal: y, axis: z}: the direction square to the lug's plate, and the way from its foot to its hole"

var lugKeys = []key[Lug]{
	{name: "normal", takes: aDirection, must: true, read: func(r *reader, n *yaml.Node, l *Lug) { l.Normal, _ = r.direction(n) }},
	{name: "axis", takes: aDirection + "; z if it is left out", read: func(r *reader, n *yaml.Node, l *Lug) { l.Axis, _ = r.direction(n) }},
}

// mostOffPlate in degrees is how far out of its plate the axis of a lug may be
// written: more is a slip.
const mostOffPlate = 5

// readLug reads how the lug at a pick stands.
func readLug(r *reader, n *yaml.Node, p *Pick) {
	before := r.faults
	lug := Lug{Axis: geom.Vec{0, 0, 1}}
	if !walk(r, n, "a lug", lugKeys, &lug) || r.faults > before {
		return
	}
	if out := math.Asin(min(1, math.Abs(lug.Normal.Dot(lug.Axis)))) * 180 / math.Pi; out > mostOffPlate {
		r.bad(n, fmt.Sprintf("the lug's axis stands %.0f° out of its plate", out),
			"write as `axis` the way from the lug's foot to its hole (z if it is left out), and as `normal` the direction square to the plate")
		return
	}
	p.Lug = &lug
}
