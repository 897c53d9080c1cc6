package density

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"plumbhook/units"
)

// Plain-end mass of steel pipe: pounds per foot from inches, and kilograms per
// metre from millimetres, each times (D − t)·t.
//
// Source: ASME B36.10M (from memory) for both; EN 10220 for the metric one.
// They are π times 490 lb/ft³ over 144, and π times 7850e-6, rounded.
const (
	pipePounds    = 10.69
	pipeKilograms = 0.0246615
)

var pipeHeader = strings.Split("nps,dn,schedules,outside_in,wall_in,outside_mm,wall_mm,standard,source,basis,note", ",")

// pipes reads one row of pipe.csv into two sections: by NPS in inches, and by
// DN in millimetres.
func pipes(row []string) ([]Section, error) {
	var x [4]float64 // outside and wall in inches, outside and wall in mm
	for i, text := range row[3:7] {
		var err error
		if x[i], err = units.ParseNumber(text); err != nil {
			return nil, fmt.Errorf("%s: %w", pipeHeader[i+3], err)
		}
	}
	if err := checkPipe(row, x); err != nil {
		return nil, err
	}
	s := Section{Standard: row[7], Shape: RoundHollow, Basis: "computed", Note: row[10]}
	nps, dn := s, s
	nps.Depth, nps.Wall = x[0]*0.0254, x[1]*0.0254
	nps.PerLength = pipePounds * (x[0] - x[1]) * x[1] * poundPerFoot
	nps.Source = row[8] + "; mass by 10.69 (D - t) t lb/ft"
	nps.named(npsSizes(row[0]), row[2])
	dn.Depth, dn.Wall = x[2]/1000, x[3]/1000
	dn.PerLength = pipeKilograms * (x[2] - x[3]) * x[3]
	dn.Source = row[8] + "; mass by 0.0246615 (D - t) t kg/m"
	dn.named([]string{"DN " + row[1]}, row[2])
	return []Section{nps, dn}, nil
}

// checkPipe refuses a row that an engineer could not check.
func checkPipe(row []string, x [4]float64) error {
	switch {
	case strings.TrimSpace(row[0]) == "" || strings.TrimSpace(row[1]) == "" || strings.TrimSpace(row[2]) == "":
		return fmt.Errorf("no size or no schedule")
	case strings.TrimSpace(row[7]) == "" || strings.TrimSpace(row[8]) == "":
		return fmt.Errorf("no standard or no source")
	case !slices.Contains(bases, row[9]):
		return fmt.Errorf("basis %q, want one of %s", row[9], strings.Join(bases, ", "))
	case x[1] <= 0 || x[3] <= 0 || 2*x[1] >= x[0] || 2*x[3] >= x[2]:
		return fmt.Errorf("want a wall above 0 and below half the outside diameter")
	case math.Abs(x[0]*25.4-x[2]) > 0.6 || math.Abs(x[1]*25.4-x[3]) > 0.013:
		return fmt.Errorf("inches and millimetres do not agree")
	}
	return nil
}

// named gives a pipe its names, each size with each schedule of a list as
// 40;STD, and what follows from its diameter and wall.
func (s *Section) named(sizes []string, schedules string) {
	for _, size := range sizes {
		for _, schedule := range strings.Split(schedules, ";") {
			s.Synonyms = append(s.Synonyms, size+" sch "+schedule)
		}
	}
	s.Name, s.Synonyms = s.Synonyms[0], s.Synonyms[1:]
	s.Width, s.Area = s.Depth, s.outlineArea()
}

// npsSizes returns NPS 1-1/2 and, for sizes with a fraction, NPS 1.5.
func npsSizes(size string) []string {
	sizes := []string{"NPS " + size}
	if l, err := units.ParseLength(size, units.LengthUnit{Name: "in", Metres: 1}); err == nil && strings.Contains(size, "/") {
		sizes = append(sizes, fmt.Sprintf("NPS %g", float64(l)))
	}
	return sizes
}

// pipeKey brings the spellings of a pipe's designation to that of the table:
// 6" XS pipe is nps6schxs. It says whether the name may be of a pipe at all;
// else it is the key as it stands.
func pipeKey(name string) (string, bool) {
	key := sectionKey(name)
	k := strings.NewReplacer(`"`, "", "inches", "", "inch", "", "pipe", "").Replace(key)
	if at := strings.Index(k, "in"); at > 0 && isNumeral(rune(k[at-1])) {
		k = k[:at] + k[at+len("in"):]
	}
	scheduled := strings.Contains(k, "sch") || strings.HasSuffix(k, "xs") || strings.HasSuffix(k, "std")
	if k != "" && isNumeral(rune(k[0])) && scheduled {
		k = "nps" + k
	}
	if !strings.HasPrefix(k, "nps") && !strings.HasPrefix(k, "dn") {
		return key, false
	}
	for _, schedule := range []string{"xxs", "xs", "std"} {
		if size, ok := strings.CutSuffix(k, schedule); ok && !strings.Contains(k, "sch") {
			return size + "sch" + schedule, true
		}
	}
	return k, true
}
