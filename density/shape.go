package density

import "math"

// Shape is the outline of a section. It says what the dimensions of a
// [Section] mean and which formula gives the area.
type Shape int

// The shapes. An I section of the S series and a tapered channel have flanges
// that grow thicker towards the web; their flange thickness is the mean one.
const (
	IShape Shape = iota
	Channel
	TaperedChannel
	Angle
	Tee
	RectangularHollow // square ones too
	RoundHollow       // pipe too
	Round
	Square
	Flat
)

var shapeNames = [...]string{"I section", "channel", "tapered channel", "angle", "tee",
	"rectangular hollow section", "round hollow section", "round bar", "square bar", "flat bar"}

// String returns the name in words: I section, tapered channel, round bar.
func (s Shape) String() string {
	if s < 0 || int(s) >= len(shapeNames) {
		return "unknown shape"
	}
	return shapeNames[s]
}

// outlineArea returns the area in m² that the dimensions give. Radii that the
// table does not print are left out.
//
// Source: plane geometry; for hollow sections EN 10219-2:2006 and EN
// 10210-2:2006, annex on sectional properties (from memory).
func (s Section) outlineArea() float64 {
	h, b, tw, tf := s.Depth, s.Width, s.Web, s.Flange
	square := corner(math.Pi / 2)
	slanted := corner(math.Pi/2 + math.Atan(s.Slope))
	switch s.Shape {
	case IShape:
		return 2*b*tf + (h-2*tf)*tw + 4*slanted*(sq(s.Root)-sq(s.Toe))
	case Channel, TaperedChannel:
		return h*tw + 2*(b-tw)*s.overhang() + 2*slanted*(sq(s.Root)-sq(s.Toe))
	case Angle:
		return tw*(h+b-tw) + square*(sq(s.Root)-2*sq(s.Toe))
	case Tee:
		return s.teeArea()
	case RectangularHollow:
		return 2*s.Wall*(h+b-2*s.Wall) - 4*square*(sq(s.OuterRadius)-sq(s.InnerRadius))
	case RoundHollow:
		return math.Pi * (h - s.Wall) * s.Wall
	case Round:
		return math.Pi / 4 * h * h
	}
	return h * b
}

// overhang returns the mean thickness in metres of a channel's flange beside
// its web. EN 10365 measures the flange of a UPN up to 300 (slope 8 %) at half
// its width, which is not quite the middle of the overhang; above (5 %), and in
// the US tables, it is the mean.
func (s Section) overhang() float64 {
	const steep = 0.08
	if s.Slope == steep {
		return s.Flange - s.Slope*s.Web/2
	}
	return s.Flange
}

// teeArea is the area of a tee whose flange and web taper by Slope, measured at
// a quarter of the width and half the depth (EN 10055). The edge of the web has
// half the toe radius.
func (s Section) teeArea() float64 {
	h, b, tw, tf := s.Depth, s.Width, s.Web, s.Flange
	taper := s.Slope * ((h-tf)*tf + (b-tw)*tw/4)
	alpha := math.Atan(s.Slope)
	root := 2 * corner(math.Pi/2+2*alpha) * sq(s.Root)
	toes := 2 * corner(math.Pi/2+alpha) * (sq(s.Toe) + sq(s.Toe/2))
	return b*tf + (h-tf)*tw - taper + root - toes
}

// corner is the area between a circle of radius 1 and two lines that it
// touches, which meet at the angle in rad.
func corner(angle float64) float64 {
	return 1/math.Tan(angle/2) - (math.Pi-angle)/2
}

func sq(x float64) float64 { return x * x }
