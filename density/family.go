package density

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"plumbhook/units"
)

// family is one table of rolled sections, in the units that it is printed in.
type family struct {
	file, standard string
	shape          Shape
	us             bool // inches and pounds per foot
}

var families = []family{
	{"ipe.csv", "EN 10365", IShape, false},
	{"hea.csv", "EN 10365", IShape, false},
	{"heb.csv", "EN 10365", IShape, false},
	{"hem.csv", "EN 10365", IShape, false},
	{"upn.csv", "EN 10365", TaperedChannel, false},
	{"upe.csv", "EN 10365", Channel, false},
	{"angles_equal.csv", "EN 10056-1", Angle, false},
	{"angles_unequal.csv", "EN 10056-1", Angle, false},
	{"tees.csv", "EN 10055", Tee, false},
	{"w.csv", "ASTM A6", IShape, true},
	{"hp.csv", "ASTM A6", IShape, true},
	{"s.csv", "ASTM A6", IShape, true},
	{"c.csv", "ASTM A6", TaperedChannel, true},
	{"mc.csv", "ASTM A6", TaperedChannel, true},
	{"l.csv", "ASTM A6", Angle, true},
}

// The columns of a family's table: nine of dimensions, area and mass, two of
// the centroid, each in the unit that its name says.
var (
	metricHeader = strings.Split("name,synonyms,depth_mm,width_mm,web_mm,flange_mm,root_mm,toe_mm,slope,"+
		"area_cm2,mass_kg_m,x_cm,y_cm,source,basis,note", ",")
	usHeader = strings.Split("name,synonyms,depth_in,width_in,web_in,flange_in,root_in,toe_in,slope,"+
		"area_in2,weight_lb_ft,x_in,y_in,source,basis,note", ",")
)

func (f family) header() []string {
	if f.us {
		return usHeader
	}
	return metricHeader
}

// section reads one row and refuses what an engineer could not check.
func (f family) section(row []string) (Section, error) {
	length, area, mass, centroid, steel := 1e-3, 1e-4, 1.0, 1e-2, metricSteel
	if f.us {
		length, area, mass, centroid, steel = 0.0254, 0.0254*0.0254, poundPerFoot, 0.0254, usSteel
	}
	var x [11]float64
	for i, text := range row[2:13] {
		if text == "" {
			continue
		}
		var err error
		if x[i], err = units.ParseNumber(text); err != nil {
			return Section{}, fmt.Errorf("%s: %w", f.header()[i+2], err)
		}
		if x[i] < 0 {
			return Section{}, fmt.Errorf("%s: %s is negative", f.header()[i+2], text)
		}
	}
	s := Section{Name: row[0], Standard: f.standard, Shape: f.shape,
		Depth: x[0] * length, Width: x[1] * length, Web: x[2] * length, Flange: x[3] * length,
		Root: x[4] * length, Toe: x[5] * length, Slope: x[6], Area: x[7] * area, PerLength: x[8] * mass,
		CentroidX: x[9] * centroid, CentroidY: x[10] * centroid, Source: row[13], Basis: row[14], Note: row[15]}
	if row[1] != "" {
		s.Synonyms = strings.Split(row[1], ";")
	}
	return s, s.check(steel)
}

// check refuses a row whose dimensions, area and mass do not agree, or that
// does not say where it is from.
func (s Section) check(steel float64) error {
	switch {
	case strings.TrimSpace(s.Source) == "":
		return fmt.Errorf("no source")
	case !slices.Contains(bases, s.Basis):
		return fmt.Errorf("basis %q, want one of %s", s.Basis, strings.Join(bases, ", "))
	case s.Depth <= 0 || s.Width <= 0 || s.Web <= 0 || s.Flange <= 0 || s.Area <= 0 || s.PerLength <= 0:
		return fmt.Errorf("depth, width, web, flange, area and mass must all be above 0")
	case s.Web >= s.Width || s.Flange >= s.Depth || s.Slope >= 1:
		return fmt.Errorf("web and flange must be thinner than the section, and the slope below 1")
	case s.Shape == Angle && s.Web != s.Flange:
		return fmt.Errorf("an angle has legs of one thickness")
	case s.CentroidX >= s.Width || s.CentroidY >= s.Depth:
		return fmt.Errorf("the centroid is outside the section")
	}
	return s.checkFigures(steel)
}

// The printed figures may differ by rounding, the nominal weights of the US
// tables by more. Fillets that a table does not print make the area greater
// than the outline, never less.
const (
	areaOff     = 0.015
	filletsOff  = 0.025
	metricOff   = 0.01
	nominalsOff = 0.025
)

func (s Section) checkFigures(steel float64) error {
	more := areaOff
	if s.Root == 0 {
		more = filletsOff
	}
	if off := s.Area/s.outlineArea() - 1; !(off <= more && off >= -areaOff) {
		return fmt.Errorf("the area is %.1f %% off that of the dimensions", off*100)
	}
	most := metricOff
	if steel == usSteel {
		most = nominalsOff
	}
	if off := s.PerLength/(s.Area*steel) - 1; !(math.Abs(off) <= most) {
		return fmt.Errorf("the mass is %.1f %% off that of the area", off*100)
	}
	return nil
}
