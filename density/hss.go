package density

import (
	"fmt"
	"math"
	"strconv"
	"strings"

	"plumbhook/units"
)

// hss computes a hollow structural section to ASTM A500. Its tabulated weight is
// on the nominal wall, with outside corners of twice the wall, at 490 lb/ft³;
// its tabulated area is on the design wall, 0.93 of the nominal. Area times
// density is therefore 5 to 7 % below the weight.
//
// Source: AISC Steel Construction Manual Part 1, Tables 1-11 to 1-13 (rule from
// memory; the tests hold it to printed weights and areas).
func hss(r request) (Section, error) {
	n := 3
	if strings.Count(r.sizes, "x") == 1 {
		n = 2
	}
	size, err := r.parse(units.LengthUnit{Name: "in", Metres: 0.0254}, n)
	if err != nil {
		return Section{}, err
	}
	for i := range size {
		size[i] /= 0.0254
	}
	wall := size[n-1]
	// The thickest wall of the round ones in the table is 1 in, and just above a
	// tenth of the diameter: one far beyond that is a second side.
	if n == 2 && (wall > 1 || wall >= size[0]/8) {
		return Section{}, &SizeError{r.name, "the wall is missing", "write both sides, then the wall: HSS4x4x1/4; a round one: HSS6.625x0.280"}
	}
	if size[0] < 0.5 || wall < 0.04 || wall > 2 || size[0] > 100 {
		return Section{}, &SizeError{r.name, "not a size of such sections in inches", "write inches: HSS4x4x1/4, HSS6.625x0.280; for millimetres SHS, RHS or CHS"}
	}
	s := Section{Standard: "ASTM A500", Basis: "computed", Source: "AISC Manual Part 1: weight on the nominal wall, area on the design wall",
		Note: "the area is that of the design wall, 0.93 of the nominal; the weight stands on the nominal one"}
	printed := wall
	wall = sixteenth(wall)
	if n == 2 {
		s.Name = fmt.Sprintf("HSS%.3fx%.3f", size[0], printed)
		s.Shape, size = RoundHollow, []float64{size[0], size[0]}
	} else {
		s.Name = "HSS" + inches(size[0]) + "x" + inches(size[1]) + "x" + inches(wall)
		s.Shape = RectangularHollow
	}
	weigh := s.hssOutline(size, wall)
	if err := weigh.fits(r.name); err != nil {
		return Section{}, err
	}
	s.Depth, s.Width, s.Wall = weigh.Depth, weigh.Width, weigh.Wall
	s.OuterRadius, s.InnerRadius = weigh.OuterRadius, weigh.InnerRadius
	s.PerLength = weigh.outlineArea() * usSteel
	s.Area = s.hssOutline(size, math.Round(wall*930)/1000).outlineArea()
	return s, nil
}

// hssOutline returns s with the outside sizes and the wall in inches.
func (s Section) hssOutline(size []float64, wall float64) Section {
	s.Depth, s.Width, s.Wall = size[0]*0.0254, size[1]*0.0254, wall*0.0254
	if s.Shape == RectangularHollow {
		s.OuterRadius, s.InnerRadius = 2*s.Wall, s.Wall
	}
	return s
}

// sixteenth returns the sixteenth of an inch that a wall of three decimals is
// printed for in the weights: 0.188 is 3/16, and 0.313 is 5/16. (0.312 and
// 0.438 are weighed as they stand.)
func sixteenth(wall float64) float64 {
	for _, w := range []struct{ printed, exact float64 }{{0.188, 0.1875}, {0.313, 0.3125}, {0.063, 0.0625}} {
		if math.Abs(wall-w.printed) < 1e-6 {
			return w.exact
		}
	}
	return wall
}

// inches prints a number of inches as the designations do: 3-1/2, 1/4, 5.563.
func inches(x float64) string {
	n := math.Round(x * 16)
	if math.Abs(x*16-n) > 1e-6 {
		return strconv.FormatFloat(math.Round(x*1e4)/1e4, 'f', -1, 64)
	}
	whole, part, of := int(n)/16, int(n)%16, 16
	for part != 0 && part%2 == 0 {
		part, of = part/2, of/2
	}
	switch {
	case part == 0:
		return strconv.Itoa(whole)
	case whole == 0:
		return fmt.Sprintf("%d/%d", part, of)
	}
	return fmt.Sprintf("%d-%d/%d", whole, part, of)
}
