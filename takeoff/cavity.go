package takeoff

import (
	"math"

	"plumbhook/density"
	"plumbhook/geom"
)

// cavity is the inside of a hollow solid, to be filled.
type cavity struct {
	solid  geom.Solid
	pose   geom.Pose // in the frame of the solid
	closed bool      // all around: else an end is open and taken as closed
}

// cavityOf returns the inside of a solid of a kind, with its sizes; nil where it
// is not hollow, or its hollow is not one that is known here.
func cavityOf(k kind, d dims, s geom.Solid) *cavity {
	wall := d.named["wall"]
	if around, ok := s.(interface{ Inside() (geom.Solid, bool) }); ok { // a vessel or a head
		if in, ok := around.Inside(); ok {
			return &cavity{solid: in, pose: geom.Still(), closed: k.name == "vessel"}
		}
		return nil
	}
	c := &cavity{pose: geom.Still()}
	var err error
	switch {
	case k.named && d.section.Shape == density.RoundHollow:
		c.solid, err = geom.NewCylinder(d.section.Depth-2*d.section.Wall, d.named["length"])
	case k.named || wall == 0:
		return nil
	case k.name == "tube":
		bore := d.named["inside"]
		if d.has("outside") {
			bore = d.named["outside"] - 2*wall
		}
		c.solid, err = geom.NewCylinder(bore, d.named["height"])
	case k.name == "sphere":
		c.solid, err = geom.NewSphere(d.named["diameter"]-2*wall, 0)
		c.pose.Move[2], c.closed = wall, true
	case k.name == "hemisphere":
		c.solid, err = geom.NewHemisphere(d.named["diameter"]-2*wall, 0)
	case k.name == "bend":
		c.solid, err = geom.NewBend(d.named["outside"]-2*wall, 0, d.named["radius"], d.named["angle"])
	case k.name == "cone":
		c.solid, c.pose, err = coneBore(d.named["bottom"], d.named["top"], d.named["height"], d.named["offset"], wall)
	default:
		return nil
	}
	if err != nil { // the bore of a solid that could be made is too small to be one
		return nil
	}
	return c
}

// coneBore returns the bore of a conical shell, in the frame of the shell: at each
// height a circle around the same centre, smaller in radius by the level wall w.
// Where the narrow end is narrower than 2w the bore ends in a point before it: the
// part (w − r)/|R₂ − R₁| of the height h is without a bore. Source: derived here,
// elementary geometry.
func coneBore(bottom, top, height, offset, plate float64) (geom.Solid, geom.Pose, error) {
	w := geom.LevelWall(bottom, top, height, offset, plate)
	pose, long := geom.Still(), height
	if narrow := min(bottom, top); narrow < 2*w {
		long = height * (1 - (2*w-narrow)/math.Abs(top-bottom))
		if bottom < top {
			pose.Move = geom.Vec{offset, 0, height}.Mul((height - long) / height)
		}
	}
	bottom, top, offset = max(0, bottom-2*w), max(0, top-2*w), offset*long/height
	if offset == 0 { // cut as it is, not as a mesh
		s, err := solid(geom.NewCone(bottom, top, long))
		return s, pose, err
	}
	s, err := solid(geom.NewConeShell(bottom, top, long, 0, offset))
	return s, pose, err
}
