package lift

import (
	"fmt"
	"strings"

	"plumbhook/geom"
	"plumbhook/takeoff"
)

// MeshHealth is what a mesh given by itself was found to be. Area, volume and
// box are in the file's own unit, whatever that is.
type MeshHealth struct {
	Triangles   int             `json:"triangles"`
	Solids      int             `json:"solids"`
	Shells      int             `json:"shells"`
	Closed      bool            `json:"closed"`
	Sound       bool            `json:"sound"` // it can be weighed as it is, once its unit is known
	OpenEdges   int             `json:"open_edges"`
	Holes       int             `json:"holes"`
	Box         Box             `json:"box_in_file_units"`
	Area        float64         `json:"area_in_file_units"`
	Volume      float64         `json:"volume_in_file_units"`       // with its sign: negative is inside out
	VolumeDoubt float64         `json:"volume_doubt_in_file_units"` // an indication, not a bound
	FacetBias   float64         `json:"facet_bias"`                 // part of the volume that flat facets leave out of round sides; negative: fill in hollows
	Mending     []string        `json:"mending"`                    // what --accept-mesh would mend
	Mended      bool            `json:"mended_is_sound"`
	Material    string          `json:"material"`
	Candidates  []MeshCandidate `json:"candidates"`
}

// MeshCandidate is what the mesh comes to in one unit.
type MeshCandidate struct {
	Unit     string   `json:"unit"`
	Metres   float64  `json:"metres"`
	SizeM    geom.Vec `json:"size_m"`
	VolumeM3 float64  `json:"volume_m3"`
	WeightKg float64  `json:"weight_kg"`
}

// CheckMesh reports on a mesh given by itself. Its errors are what keeps it
// from being weighed: faults, and a unit that is not known.
func CheckMesh(m *takeoff.MeshFile) Checked {
	c := Checked{Header: newHeader(&takeoff.Load{Name: m.Name, SHA256: m.SHA256}), Findings: []Finding{}, Parts: []Seat{}, Mesh: newMeshHealth(m)}
	for _, f := range m.Faults {
		c.Findings = append(c.Findings, Finding{Code: f.Code, Text: f.Text, Fix: f.Fix, Part: m.Name, WeightEffectKg: c.Mesh.inDoubt(m)})
		c.mustMend(m.Name, f.Text, f.Fix)
	}
	if m.Unit.Metres == 0 {
		c.mustMend(m.Name, "the mesh has no unit: such a file has none of its own", "compare the sizes below with the drawing and give the unit, such as `--units mm`")
	}
	if m.MaterialDefault {
		c.assume("no material was given: weights are those of %s", m.Material.Name)
	}
	for _, f := range m.Remarks {
		c.Findings = append(c.Findings, Finding{Code: f.Code, Text: f.Text, Fix: f.Fix, Part: m.Name})
		c.warn(f.Code, f.Text, f.Fix)
	}
	for _, note := range m.Notes {
		c.Findings = append(c.Findings, Finding{Code: "mesh-note", Text: note, Fix: "see that the part is drawn as it is to be weighed", Part: m.Name})
	}
	if f, told := facetFinding(m.Name, m.Faceted, 0); told {
		if m.Unit.Metres > 0 {
			f.WeightEffectKg = c.Mesh.Candidates[0].WeightKg * m.Faceted / (1 - m.Faceted)
		}
		c.Findings = append(c.Findings, f)
	}
	return c
}

// mustMend records what is wrong with the input.
func (c *Checked) mustMend(file, text, fix string) {
	c.Errors = append(c.Errors, Problem{File: file, Text: text, Fix: fix})
	c.refuse("%s", text)
}

func newMeshHealth(m *takeoff.MeshFile) *MeshHealth {
	h := m.Health
	out := &MeshHealth{
		Triangles: h.Triangles, Solids: m.Solids, Shells: h.Shells, Closed: h.Closed(), Sound: len(m.Faults) == 0,
		OpenEdges: h.OpenEdges, Holes: h.Holes, Box: Box(m.Box), Area: h.Area, Volume: h.Volume, VolumeDoubt: h.VolumeDoubt,
		FacetBias: m.Faceted, Mending: append([]string{}, m.Mending...), Mended: m.Mended, Material: m.Material.Name,
	}
	for _, c := range m.Candidates {
		out.Candidates = append(out.Candidates, MeshCandidate{c.Unit, c.Metres, c.Size, c.Volume, c.Volume * float64(m.Material.Density)})
	}
	return out
}

// inDoubt is how far in kg the weight may be off, as an indication; 0 where the
// unit is not known, or nothing is left to weigh.
func (h *MeshHealth) inDoubt(m *takeoff.MeshFile) float64 {
	if m.Unit.Metres == 0 {
		return 0
	}
	u := m.Unit.Metres
	return h.VolumeDoubt * u * u * u * float64(m.Material.Density)
}

// leastFacets is the part of the volume above which flat facets in place of a
// curve are a finding.
const leastFacets = 0.001

// facetFinding tells what flat facets do to the weight, in kg.
func facetFinding(part string, bias, kg float64) (Finding, bool) {
	f := Finding{Code: "mesh-facets", Part: part, WeightEffectKg: kg, Fix: "export the part with finer facets, or let the range stand"}
	switch {
	case bias > leastFacets:
		f.Text = fmt.Sprintf("its flat facets leave out about %s of the volume of its round sides: the true weight lies higher", percent(bias))
	case bias < -leastFacets:
		f.Text = fmt.Sprintf("its flat facets fill its round hollows by about %s of the volume: the true weight lies lower", percent(-bias))
	default:
		return Finding{}, false
	}
	return f, true
}

func percent(part float64) string {
	return strings.TrimSuffix(fmt.Sprintf("%.2g", 100*part), ".") + " %"
}
