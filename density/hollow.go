package density

import (
	"cmp"
	"fmt"
	"math"
	"slices"
	"strconv"
	"strings"

	"plumbhook/units"
)

var sizesHeader = []string{"series", "depth", "width", "walls", "standard", "source", "basis"}

// listedHollow reads one row of sizes.csv, an outside size with its walls, and
// computes a section for each wall.
func listedHollow(row []string) ([]Section, error) {
	if strings.TrimSpace(row[5]) == "" {
		return nil, fmt.Errorf("no source")
	}
	if !slices.Contains(bases, row[6]) {
		return nil, fmt.Errorf("basis %q, want one of %s", row[6], strings.Join(bases, ", "))
	}
	outside := row[1]
	if row[2] != "" {
		outside += "x" + row[2]
	}
	var made []Section
	for _, wall := range strings.Split(row[3], ";") {
		name := row[0] + " " + outside + "x" + wall
		if row[0] == "SHS" || row[0] == "RHS" {
			name += " " + row[4]
		}
		s, ok, err := computedSection(name)
		if err != nil {
			return nil, err
		}
		if !ok {
			return nil, fmt.Errorf("series %q, want SHS, RHS, CHS or HSS", row[0])
		}
		if !strings.HasPrefix(s.Standard, row[4]) {
			return nil, fmt.Errorf("standard %q, but %s is to %s", row[4], s.Name, s.Standard)
		}
		s.Source = row[5] + "; " + s.Source
		made = append(made, s)
	}
	return made, nil
}

// The two rules for the corners of square and rectangular hollow sections.
const (
	coldFormed  = "EN 10219-2"
	hotFinished = "EN 10210-2"
)

// rectangular computes a square or rectangular hollow section; lengths in m.
//
// Source: EN 10219-2:2006 and EN 10210-2:2006, annex on sectional properties:
// outside corner radius for calculation, inside radius, area; 7850 kg/m³.
func rectangular(name, standard string, h, b, t float64) (Section, error) {
	s := Section{Standard: standard, Shape: RectangularHollow, Depth: h, Width: b, Wall: t,
		Basis: "computed", Source: standard + ":2006, area and mass by its formulas"}
	switch {
	case standard == hotFinished:
		s.OuterRadius, s.InnerRadius = 1.5*t, t
	case t <= 0.006:
		s.OuterRadius, s.InnerRadius = 2*t, t
	case t <= 0.010:
		s.OuterRadius, s.InnerRadius = 2.5*t, 1.5*t
	default:
		s.OuterRadius, s.InnerRadius = 3*t, 2*t
	}
	if err := s.fits(name); err != nil {
		return Section{}, err
	}
	series := "RHS"
	if h == b {
		series = "SHS"
	}
	s.Name = fmt.Sprintf("%s %sx%sx%s %s", series, millimetres(h), millimetres(b), millimetres(t), standard)
	s.Area = s.outlineArea()
	s.PerLength = s.Area * metricSteel
	return s, nil
}

// fits refuses a wall that leaves no room for the corners or no hole.
func (s Section) fits(name string) error {
	least := min(s.Depth, s.Width)
	switch {
	case s.Wall <= 0 || least <= 0:
		return &SizeError{name, "a size of 0", "write the outside size, then the wall"}
	case s.Shape == RoundHollow && 2*s.Wall >= s.Depth:
		return &SizeError{name, "the wall fills the diameter", "write the outside diameter, then the wall; for a solid bar: round 20"}
	case s.Shape == RectangularHollow && (2*s.OuterRadius > least || 2*s.Wall >= least):
		return &SizeError{name, "the wall is too thick for the corners of this size", "write the outside size, then the wall: RHS 200x100x8"}
	}
	return nil
}

// roomFor tells whether a square section of that side can have that wall: one
// that fills it is a second side, and the wall was left out.
func roomFor(side, wall float64) bool { return 2*wall < side/2 }

// millimetres prints a length in m without idle zeros.
func millimetres(x float64) string {
	return strconv.FormatFloat(math.Round(x*1e7)/1e4, 'f', -1, 64)
}

// metricHollow computes SHS, RHS and CHS.
func metricHollow(r request) (Section, error) {
	n := 3
	if r.round() || strings.Count(r.sizes, "x") == 1 {
		n = 2
	}
	size, err := r.parse(units.LengthUnit{Name: "mm", Metres: 0.001}, n)
	if err != nil {
		return Section{}, err
	}
	if slices.Min(size) < 0.0005 || size[0] < 0.009 {
		return Section{}, &SizeError{r.name, "a size in millimetres that is too small to be meant", "metric sizes are in mm; for inches: HSS4x4x1/4"}
	}
	if slices.Max(size) > 10 {
		return Section{}, &SizeError{r.name, "a size of more than 10 m", "write the sizes in mm: SHS 100x100x5"}
	}
	if r.round() {
		return roundHollow(r, size[0], size[1])
	}
	if n == 2 && (strings.HasSuffix(r.word, "rhs") || !roomFor(size[0], size[1])) {
		return Section{}, &SizeError{r.name, "the wall is missing", "write both sides, then the wall: RHS 200x100x8; a square one may be SHS 100x5"}
	}
	if n == 2 { // SHS 100x5
		size = []float64{size[0], size[0], size[1]}
	}
	if strings.HasSuffix(r.word, "shs") && size[0] != size[1] {
		return Section{}, &SizeError{r.name, "a square section with unequal sides", "write RHS before unequal sides"}
	}
	if r.standard != "" {
		return rectangular(r.name, r.standard, size[0], size[1], size[2])
	}
	s, err := rectangular(r.name, coldFormed, size[0], size[1], size[2])
	if err != nil {
		return Section{}, err
	}
	hot, err := rectangular(r.name, hotFinished, size[0], size[1], size[2])
	if err != nil {
		return Section{}, err
	}
	s.Note = fmt.Sprintf("taken as cold formed, %s; hot finished to %s is %.1f %% heavier", coldFormed, hotFinished,
		100*(hot.PerLength/s.PerLength-1))
	s.Name = strings.TrimSuffix(s.Name, " "+coldFormed)
	return s, nil
}

// roundHollow computes a metric tube; lengths in m.
//
// Source: EN 10220:2002: mass 0.0246615 (D − T) T kg/m, in mm; the same in EN
// 10210-2 and EN 10219-2.
func roundHollow(r request, d, t float64) (Section, error) {
	s := Section{Standard: cmp.Or(r.standard, "EN 10220"), Shape: RoundHollow, Depth: d, Width: d, Wall: t,
		Basis: "computed", Source: "mass by the formula of EN 10220, EN 10210-2 and EN 10219-2"}
	if err := s.fits(r.name); err != nil {
		return Section{}, err
	}
	s.Name = fmt.Sprintf("CHS %sx%s", millimetres(d), millimetres(t))
	s.Area = s.outlineArea()
	s.PerLength = pipeKilograms * (d - t) * t * 1e6
	return s, nil
}
