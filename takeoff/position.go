package takeoff

import (
	"math"

	"plumbhook/geom"
)

// slack returns how far the centre of gravity of a copy may lie off its place
// to each side along the load's axes, in metres: by its position tolerance, and
// contents also by how much there is of them.
func (p Part) slack() geom.Vec {
	return p.contentsRange().Add(geom.Vec{p.Position, p.Position, p.Position})
}

// reachable returns the box of all places that the copies may have.
func (p Part) reachable() geom.Extent {
	e, off := p.Extent(), p.slack()
	return geom.Extent{Min: e.Min.Sub(off), Max: e.Max.Add(off)}
}

// turnedPosition returns the position tolerance along the outer axes of a part
// that may be off by so much along the axes of a sub-assembly, wherever that
// stands: the half side of the cube that holds the turned cube. By quarter
// turns it stays the same.
func turnedPosition(off float64, stand geom.Pose, places []geom.Pose) float64 {
	wide := 0.0
	for _, c := range places {
		turn := c.After(stand).Turn
		for i := range 3 {
			row := math.Abs(turn.At(i, 0)) + math.Abs(turn.At(i, 1)) + math.Abs(turn.At(i, 2))
			wide = max(wide, row)
		}
	}
	if wide < 1+1e-12 { // a quarter turn, but for rounding
		wide = 1
	}
	return off * wide
}
