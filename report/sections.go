package report

import (
	"math"
	"strconv"
	"strings"

	"plumbhook/density"
	"plumbhook/lift"
	"plumbhook/units"
)

// Sections is the table of sections and pipes, a part of it, or one row.
type Sections struct {
	Schema string    `json:"schema"`
	Rows   []Section `json:"rows"`
}

// Section is one row.
type Section struct {
	Name     string        `json:"name"`
	Synonyms []string      `json:"synonyms"`
	Shape    string        `json:"shape"`
	Standard string        `json:"standard"`
	Values   SectionValues `json:"values"`
	Source   string        `json:"source"`
	Basis    string        `json:"basis"`
	Note     string        `json:"note"`
}

// SectionValues are the figures of a row. A dimension that the shape does not
// have, or its table does not print, is 0.
type SectionValues struct {
	PerLength     float64        `json:"mass_kg_m"`
	Tolerance     *MassTolerance `json:"mass_tolerance"` // null where its standard's is not known
	Area          float64        `json:"area_m2"`
	Depth         float64        `json:"depth_m"`
	Width         float64        `json:"width_m"`
	Web           float64        `json:"web_m"`
	Flange        float64        `json:"flange_m"`
	Root          float64        `json:"root_radius_m"`
	Toe           float64        `json:"toe_radius_m"`
	Wall          float64        `json:"wall_m"`
	OuterRadius   float64        `json:"outer_radius_m"`
	InnerRadius   float64        `json:"inner_radius_m"`
	Slope         float64        `json:"flange_slope"`
	FromBack      float64        `json:"centroid_from_back_m"` // along the width; of an angle from its heel
	FromHeelOrTop float64        `json:"centroid_from_heel_m"` // along the depth; of a tee from the top of its flange
}

// MassTolerance is how far the mass may be off, as parts of it.
type MassTolerance struct {
	Low    float64 `json:"low"`
	High   float64 `json:"high"`
	Source string  `json:"source"`
	Basis  string  `json:"basis"`
}

// NewSections puts rows of the tables into the form that is printed.
func NewSections(list ...density.Section) Sections {
	out := Sections{Schema: lift.Schema, Rows: []Section{}}
	for _, s := range list {
		row := Section{Name: s.Name, Synonyms: []string{}, Shape: s.Shape.String(), Standard: s.Standard,
			Source: s.Source, Basis: s.Basis, Note: s.Note,
			Values: SectionValues{PerLength: s.PerLength, Area: s.Area, Depth: s.Depth, Width: s.Width, Web: s.Web, Flange: s.Flange,
				Root: s.Root, Toe: s.Toe, Wall: s.Wall, OuterRadius: s.OuterRadius, InnerRadius: s.InnerRadius, Slope: s.Slope,
				FromBack: s.CentroidX, FromHeelOrTop: s.CentroidY}}
		row.Synonyms = append(row.Synonyms, s.Synonyms...)
		if t, ok := s.MassTolerance(); ok {
			row.Values.Tolerance = &MassTolerance{t.Low, t.High, t.Source, t.Basis}
		}
		out.Rows = append(out.Rows, row)
	}
	return out
}

// sections prints rows of the tables, or all that is known of a single one.
// The source stands once, above the rows that have it.
func (p *page) sections(s Sections) {
	if len(s.Rows) == 1 {
		p.section(s.Rows[0])
		p.legend()
		return
	}
	p.line("SECTIONS AND PIPES")
	cols := []column{{"Name", 0, false}, {"Mass by length", 30, false}, {"Depth x width", 22, false}}
	source := ""
	for _, row := range s.Rows {
		from := row.Source
		if !strings.HasPrefix(from, row.Standard) {
			from = row.Standard + "; " + from
		}
		if from != source {
			source = from
			p.gap()
			p.hang("  ", from)
			p.titles(cols)
		}
		p.row(cols, row.Name, p.perLength(row.Values.PerLength)+p.mark(row.Basis), p.across(row.Values))
	}
	p.legend()
	p.gap()
	p.hang("  ", "Hollow sections, pipes and bars of other sizes are computed when they are named: SHS 100x100x5, HSS4x4x1/4, CHS 168.3x5.6, round 20, flat 100x10. `plumbhook sections NAME` shows all dimensions of one.")
}

func (p *page) section(row Section) {
	v := row.Values
	p.line(row.Name)
	p.gap()
	p.field("Shape", row.Shape+", "+row.Standard)
	p.field("Mass", p.perLength(v.PerLength)+p.mark(row.Basis))
	if t := v.Tolerance; t != nil {
		p.field("Off by", signed(t.Low)+" to "+signed(t.High)+p.mark(t.Basis)+" of the mass: "+t.Source)
	}
	for _, one := range []struct {
		name  string
		value float64
	}{
		{"Depth", v.Depth}, {"Width", v.Width}, {"Web", v.Web}, {"Flange", v.Flange}, {"Root radius", v.Root}, {"Toe radius", v.Toe},
		{"Wall", v.Wall}, {"Corner", v.OuterRadius}, {"CG from back", v.FromBack}, {"CG from heel", v.FromHeelOrTop},
	} {
		if one.value > 0 {
			p.field(one.name, p.fine(one.value))
		}
	}
	if v.Slope > 0 {
		p.field("Flange slope", percent(v.Slope))
	}
	p.field("Also called", strings.Join(row.Synonyms, ", "))
	p.field("Source", row.Source)
	p.field("Basis", row.Basis)
	p.field("Note", row.Note)
}

// perLength prints a mass by length.
func (p *page) perLength(kgm float64) string {
	return p.inUnits(four(kgm)+" kg/m", four(kgm/float64(units.Pound)*float64(units.Foot))+" lb/ft")
}

// across prints depth and width, or diameter and wall, in the table's one
// line: in inches where US units are shown alone.
func (p *page) across(v SectionValues) string {
	size := func(m float64) string { return hundredth(m * 1000) }
	unit := "mm"
	if p.opt.Show == units.US {
		size, unit = func(m float64) string { return four(m / float64(units.Inch)) }, "in"
	}
	if v.Wall > 0 && v.OuterRadius == 0 {
		return glued(size(v.Depth) + " " + unit + ", wall " + size(v.Wall))
	}
	return glued(size(v.Depth) + " x " + size(v.Width) + " " + unit)
}

// four prints a number of at most four digits, hundredth one to a hundredth.
func four(x float64) string      { return strconv.FormatFloat(x, 'g', 4, 64) }
func hundredth(x float64) string { return strconv.FormatFloat(math.Round(x*100)/100, 'f', -1, 64) }

// signed prints a part of a whole in percent with its sign.
func signed(part float64) string {
	if part < 0 {
		return "-" + percent(-part)
	}
	return "+" + percent(part)
}

// fine prints a small length to the hundredth of a millimetre.
func (p *page) fine(metres float64) string {
	return p.inUnits(hundredth(metres*1000)+" mm", four(metres/float64(units.Inch))+" in")
}

// inUnits prints what is shown in metric, in US units, or in both.
func (p *page) inUnits(metric, us string) string {
	switch p.opt.Show {
	case units.Metric:
		return glued(metric)
	case units.US:
		return glued(us)
	}
	return glued(metric + " (" + us + ")")
}
