package report

import (
	"strings"

	"plumbhook/density"
	"plumbhook/lift"
	"plumbhook/units"
)

// Materials is the table of materials, or one row of it.
type Materials struct {
	Schema string     `json:"schema"`
	Rows   []Material `json:"rows"`
}

// Material is one row.
type Material struct {
	Name     string         `json:"name"`
	Synonyms []string       `json:"synonyms"`
	Values   MaterialValues `json:"values"`
	Source   string         `json:"source"`
	Basis    string         `json:"basis"`
	Note     string         `json:"note"`
}

// MaterialValues are the figures of a row.
type MaterialValues struct {
	Density   float64 `json:"density_kg_m3"`
	Tolerance float64 `json:"tolerance"` // ± part of the density
	Low       float64 `json:"low_kg_m3"` // lowest and highest in print
	High      float64 `json:"high_kg_m3"`
}

// NewMaterials puts rows of the table into the form that is printed.
func NewMaterials(list ...density.Material) Materials {
	m := Materials{Schema: lift.Schema, Rows: []Material{}}
	for _, d := range list {
		row := Material{Name: d.Name, Synonyms: []string{}, Source: d.Source, Basis: d.Basis, Note: d.Note,
			Values: MaterialValues{float64(d.Density), d.Tolerance, float64(d.Published[0]), float64(d.Published[1])}}
		row.Synonyms = append(row.Synonyms, d.Synonyms...)
		m.Rows = append(m.Rows, row)
	}
	return m
}

// materials prints the table, or all that is known of a single row.
func (p *page) materials(m Materials) {
	if len(m.Rows) == 1 {
		p.material(m.Rows[0])
		p.legend()
		return
	}
	p.line("MATERIALS")
	p.gap()
	cols := []column{{"Name", 0, false}, {"Density", 33, false}, {"Tolerance", 9, true}}
	p.titles(cols)
	for _, row := range m.Rows {
		p.row(cols, row.Name, p.density(row.Values.Density)+p.mark(row.Basis), "±"+percent(row.Values.Tolerance))
		p.hang("      ", row.Source)
	}
	p.legend()
	p.gap()
	p.hang("  ", "The tolerance is of the density alone; dimensions have their own. `plumbhook materials NAME` shows other names and the range in print.")
}

func (p *page) material(row Material) {
	p.line(strings.ToUpper(row.Name))
	p.gap()
	p.field("Density", p.density(row.Values.Density)+p.mark(row.Basis)+", ±"+percent(row.Values.Tolerance)+" on the density alone")
	p.field("In print", "from "+p.density(row.Values.Low)+" to "+p.density(row.Values.High))
	p.field("Also called", strings.Join(row.Synonyms, ", "))
	p.field("Source", row.Source)
	p.field("Basis", row.Basis)
	p.field("Note", row.Note)
}

func (p *page) density(kgm3 float64) string { return glued(units.Density(kgm3).Format(p.opt.Show)) }
