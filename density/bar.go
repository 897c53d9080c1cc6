package density

import (
	"strings"

	"plumbhook/units"
)

// bar computes a round, square or flat bar of any size. Bare sizes are
// millimetres; a fraction or inch mark makes them all inches. Of a flat the first
// size is the depth, as of every section: flat 100x10 stands on its edge.
//
// Source: EN 10060, EN 10059, EN 10058: mass at 7850 kg/m³; for inches 490 lb/ft³
// (AISC Manual, from memory).
func bar(r request) (Section, error) {
	n := 1
	s := Section{Basis: "computed", Shape: Round, Standard: "EN 10060"}
	switch {
	case strings.HasPrefix(r.word, "square"):
		s.Shape, s.Standard = Square, "EN 10059"
	case strings.HasPrefix(r.word, "flat"):
		s.Shape, s.Standard, n = Flat, "EN 10058", 2
	}
	bare, steel := units.LengthUnit{Name: "mm", Metres: 0.001}, metricSteel
	inch := strings.ContainsAny(r.sizes, `/"`) || strings.Contains(r.sizes, "in")
	if inch {
		bare, steel, s.Standard = units.LengthUnit{Name: "in", Metres: 0.0254}, usSteel, "ASTM A6"
	}
	size, err := r.parse(bare, n)
	if err != nil {
		return Section{}, err
	}
	s.Depth, s.Width = size[0], size[n-1]
	if err := s.plausible(r, inch); err != nil {
		return Section{}, err
	}
	show, unit := millimetres, ""
	s.Source = "area times 7850 kg/m³"
	if inch {
		show, unit = func(x float64) string { return inches(x / 0.0254) }, " in"
		s.Source = "area times 490 lb/ft³"
	}
	s.Name = map[Shape]string{Round: "round ", Square: "square ", Flat: "flat "}[s.Shape] + show(s.Depth)
	if n == 2 {
		s.Name += "x" + show(s.Width)
	}
	s.Name += unit
	s.Area = s.outlineArea()
	s.PerLength = s.Area * steel
	return s, nil
}

// plausible refuses a bare number that may well be inches, and sizes that no
// bar has.
func (s Section) plausible(r request, inch bool) error {
	least, most := min(s.Depth, s.Width), max(s.Depth, s.Width)
	bare := !inch && !strings.Contains(r.sizes, "m")
	small := least < 0.005 && s.Shape != Flat || s.Shape == Flat && (most < 0.010 || least < 0.002)
	switch {
	case bare && small:
		return &SizeError{r.name, "a small size without a unit", "write mm or in behind it: flat 4 x 1/2 in, round 4 mm"}
	case least < 0.0005 || most > 5:
		return &SizeError{r.name, "not a size of a bar", "write mm or in behind it: round 20 mm, flat 100 x 10 mm"}
	}
	return nil
}
