package takeoff

import (
	"math"
	"sync"

	"github.com/go-gl/mathgl/mgl64"

	"plumbhook/density"
	"plumbhook/geom"
)

// sectionSolid draws a section out along z from its start. Its own origin is
// the centroid of the section there, its depth lies along y and its width
// along x: an angle stands as the letter L, a channel as [, a tee as T, seen
// against z. Radii that do not fit the printed dimensions are left out.
func sectionSolid(s density.Section, length float64) (geom.Solid, error) {
	switch s.Shape {
	case density.Round:
		return solid(geom.NewCylinder(s.Depth, length))
	case density.RoundHollow:
		return solid(geom.NewTube(s.Depth, s.Wall, length))
	}
	made, err := oneMetre(s)
	if err != nil {
		return nil, err
	}
	return solid(made.OfLength(length))
}

// metresOf are the sections that were already made, by what gives their shape, each
// a metre long:
// a frame has few sections and many lengths.
var metresOf sync.Map

// oneMetre makes a metre of a section.
func oneMetre(s density.Section) (geom.Extrusion, error) {
	shape := [...]float64{float64(s.Shape), s.Depth, s.Width, s.Web, s.Flange, s.Root, s.Toe, s.Wall, s.OuterRadius, s.InnerRadius, s.Slope}
	if made, ok := metresOf.Load(shape); ok {
		return made.(geom.Extrusion), nil
	}
	outer, inner := sectionOutline(s)
	made, err := centred(outer, inner)
	if err != nil {
		s.Root, s.Toe, s.OuterRadius, s.InnerRadius = 0, 0, 0, 0
		outer, inner = sectionOutline(s)
		made, err = centred(outer, inner)
	}
	if err == nil {
		metresOf.Store(shape, made)
	}
	return made, err
}

// centred extrudes an outline by a metre, with its centroid on the z axis.
func centred(outer, inner geom.Outline) (geom.Extrusion, error) {
	var holes []geom.Outline
	if inner != nil {
		holes = []geom.Outline{inner}
	}
	off, err := geom.NewExtrusion(outer, holes, 1)
	if err != nil {
		return off, err
	}
	c := off.Moments().Centroid().Vec2()
	for i := range outer {
		outer[i].At = outer[i].At.Sub(c)
	}
	for i := range inner {
		inner[i].At = inner[i].At.Sub(c)
	}
	return geom.NewExtrusion(outer, holes, 1)
}

// sectionOutline returns the outline of a section with straight sides, and of
// its hollow.
func sectionOutline(s density.Section) (outer, inner geom.Outline) {
	h, b := s.Depth, s.Width
	switch s.Shape {
	case density.IShape:
		return rounded(iCorners(s)), nil
	case density.Channel, density.TaperedChannel:
		return rounded(channelCorners(s)), nil
	case density.Angle:
		return rounded([]corner{{0, 0, 0}, {b, 0, 0}, {b, s.Flange, s.Toe}, {s.Web, s.Flange, s.Root}, {s.Web, h, s.Toe}, {0, h, 0}}), nil
	case density.Tee:
		return rounded(teeCorners(s)), nil
	case density.RectangularHollow:
		return rectangle(b, h, s.OuterRadius), rectangle(b-2*s.Wall, h-2*s.Wall, s.InnerRadius)
	}
	return rectangle(b, h, 0), nil
}

func rectangle(b, h, radius float64) geom.Outline {
	return rounded([]corner{{-b / 2, -h / 2, radius}, {b / 2, -h / 2, radius}, {b / 2, h / 2, radius}, {-b / 2, h / 2, radius}})
}

// iCorners are the corners of an I section. The printed thickness of a tapered
// flange is that in the middle of its overhang.
func iCorners(s density.Section) []corner {
	x, y, web := s.Width/2, s.Depth/2, s.Web/2
	rise := s.Slope * (x - web) / 2
	edge, root := y-(s.Flange-rise), y-(s.Flange+rise)
	right := []corner{{x, -y, 0}, {x, -edge, s.Toe}, {web, -root, s.Root}, {web, root, s.Root}, {x, edge, s.Toe}, {x, y, 0}}
	return append(right, mirrored(right)...)
}

// channelCorners are the corners of a channel, its back on x = 0. See
// meanFlange for where the thickness of a tapered flange is measured.
func channelCorners(s density.Section) []corner {
	y := s.Depth / 2
	mean, rise := meanFlange(s), channelSlope(s)*(s.Width-s.Web)/2
	edge, root := y-(mean-rise), y-(mean+rise)
	return []corner{{0, -y, 0}, {s.Width, -y, 0}, {s.Width, -edge, s.Toe}, {s.Web, -root, s.Root},
		{s.Web, root, s.Root}, {s.Width, edge, s.Toe}, {s.Width, y, 0}, {0, y, 0}}
}

// meanFlange returns the thickness of a channel's flange in the middle of its
// overhang. EN 10365 measures that of a UPN up to 300, whose slope is 8 %, at
// half the width of the flange instead.
func meanFlange(s density.Section) float64 {
	const steep = 0.08
	if s.Slope == steep {
		return s.Flange - s.Slope*s.Web/2
	}
	return s.Flange
}

// channelSlope returns the slope of a channel's flanges. Where the table prints
// none, as for MC channels, it is the one that brings the centroid to the
// printed distance x from the back: with L = b − w beside a web w, and mean
// thickness m,
//
//	x·(h·w + 2·L·m) = h·w²/2 + 2·(L·m·(w + b)/2 − slope·L³/12)
//
// Without it the centroid of an MC13x31.8 would be 3.5 mm off. Source: derived
// here.
func channelSlope(s density.Section) float64 {
	if s.Shape != density.TaperedChannel || s.Slope > 0 || s.CentroidX == 0 {
		return s.Slope
	}
	h, b, w, m := s.Depth, s.Width, s.Web, s.Flange
	l := b - w
	slope := 6 / (l * l * l) * (h*w*w/2 + l*m*(w+b) - s.CentroidX*(h*w+2*l*m))
	return min(max(slope, 0), m/l) // the edge keeps half of the thickness at least
}

// teeCorners are the corners of a tee, the top of its flange on y = 0. Flange
// and web taper by the slope; their thicknesses are those at a quarter of the
// width and at half the depth, and the edge of the web has half the toe radius
// (EN 10055, from memory).
func teeCorners(s density.Section) []corner {
	x, web := s.Width/2, s.Web/2
	edge := s.Flange - s.Slope*s.Width/4 // thickness of the flange at its edge
	// Where the inner faces meet: x = web + slope·(h/2 − d), d = edge + slope·(b/2 − x).
	meetX := (web + s.Slope*(s.Depth/2-edge-s.Slope*x)) / (1 - s.Slope*s.Slope)
	meetY := edge + s.Slope*(x-meetX)
	foot := web - s.Slope*s.Depth/2
	right := []corner{{foot, -s.Depth, s.Toe / 2}, {meetX, -meetY, s.Root}, {x, -edge, s.Toe}, {x, 0, 0}}
	return append(right, mirrored(right)...)
}

// mirrored returns the left half of a section whose right half runs up.
func mirrored(right []corner) []corner {
	var left []corner
	for i := len(right) - 1; i >= 0; i-- {
		left = append(left, corner{-right[i].x, right[i].y, right[i].radius})
	}
	return left
}

// corner is a corner of an outline, rounded by a radius; all in metres.
type corner struct{ x, y, radius float64 }

// rounded turns corners, in order around a section, into an outline in which
// each radius touches both of its sides.
func rounded(corners []corner) geom.Outline {
	var out geom.Outline
	for i, c := range corners {
		at := mgl64.Vec2{c.x, c.y}
		if c.radius == 0 {
			out = append(out, geom.Vertex{At: at})
			continue
		}
		before, after := corners[(i+len(corners)-1)%len(corners)], corners[(i+1)%len(corners)]
		in := at.Sub(mgl64.Vec2{before.x, before.y}).Normalize()
		on := mgl64.Vec2{after.x, after.y}.Sub(at).Normalize()
		turn := math.Atan2(in[0]*on[1]-in[1]*on[0], in.Dot(on))
		back := c.radius * math.Tan(math.Abs(turn)/2)
		out = append(out, geom.Vertex{At: at.Sub(in.Mul(back)), Bulge: math.Tan(turn / 4)}, geom.Vertex{At: at.Add(on.Mul(back))})
	}
	return joined(out)
}

// joined leaves out sides of no length, as between two radii that meet.
func joined(o geom.Outline) geom.Outline {
	const least = 1e-9 // m
	var out geom.Outline
	for i, v := range o {
		if v.At.Sub(o[(i+1)%len(o)].At).Len() < least && v.Bulge == 0 {
			continue
		}
		out = append(out, v)
	}
	return out
}
