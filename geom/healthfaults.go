package geom

import (
	"fmt"
	"math"
	"strings"
)

// Fault is one thing to tell the planner about a mesh.
type Fault struct {
	Code     string // mesh-empty, mesh-flat, mesh-open, mesh-folded, mesh-duplicate, mesh-inside-out, mesh-nested, mesh-touching, mesh-cancels, mesh-overlap, mesh-unwelded
	Text     string // what was found, where, and what it means for the weight
	Fix      string // how to go on
	Harmless bool   // the volume holds nevertheless
}

const (
	fixMesh    = "repair the mesh in the drawing program and export it again; or enter the part as solids, or by a known weight and centre; or accept the mesh knowingly, with this doubt"
	fixReverse = "turn its facets over (reverse or unify normals) in the drawing program and export it again"
)

// Faults lists what was found, what spoils the weight most first; nil when
// there is nothing to say. Numbers in the texts are in the unit of the mesh.
func (h Health) Faults() []Fault {
	if h.Triangles == 0 {
		return []Fault{{Code: "mesh-empty", Text: "the mesh has no facets: there is nothing to weigh", Fix: "export the part again as a solid"}}
	}
	var faults []Fault
	for _, fault := range []Fault{
		h.flat(), h.cancels(), h.openEdges(), h.folded(), h.duplicates(), h.insideOut(), h.nested(), h.overlap(), h.touching(), h.unwelded(),
	} {
		if fault.Code != "" {
			faults = append(faults, fault)
		}
	}
	return faults
}

func (h Health) flat() Fault {
	if !h.Flat || h.Gross > 0 {
		return Fault{}
	}
	return Fault{Code: "mesh-flat",
		Text: fmt.Sprintf("the mesh encloses no volume (area %.4g, volume %.1g in the file's units): it is a sheet without thickness, or its facets cancel out, so it would weigh nothing", h.Area, h.Volume),
		Fix:  "if it stands for a plate, enter it as a surface with its thickness; else export the part again as a solid"}
}

func (h Health) openEdges() Fault {
	if h.OpenEdges == 0 {
		return Fault{}
	}
	return Fault{Code: "mesh-open",
		Text: fmt.Sprintf("the surface is not closed: %s%s. Only a closed surface has a volume to weigh; %s%s",
			count(h.OpenEdges, "open edge", "open edges"), h.near(true), h.doubt(), h.gap()),
		Fix: "close the holes in the drawing program and export it again; or, if it is a sheet, enter it as a surface with its thickness; or enter the part as solids, or by a known weight and centre; or accept the mesh knowingly, with this doubt"}
}

func (h Health) folded() Fault {
	if h.MisorientedEdges+h.UnbalancedEdges == 0 {
		return Fault{}
	}
	var kinds []string
	if h.MisorientedEdges > 0 {
		kinds = append(kinds, count(h.MisorientedEdges, "edge has", "edges have")+" both facets running the same way, so one of the two faces the wrong side")
	}
	if h.UnbalancedEdges > 0 {
		kinds = append(kinds, count(h.UnbalancedEdges, "edge is", "edges are")+" shared by more than two facets that do not pair up")
	}
	return Fault{Code: "mesh-folded",
		Text: fmt.Sprintf("the surface is folded: %s%s. Facets that face the wrong side are taken off the volume instead of added; %s",
			strings.Join(kinds, ", and "), h.near(true), h.doubt()),
		Fix: fixMesh}
}

func (h Health) duplicates() Fault {
	if h.Duplicate == 0 {
		return Fault{}
	}
	return Fault{Code: "mesh-duplicate",
		Text: fmt.Sprintf("%s there twice%s: what they enclose is counted twice; %s",
			count(h.Duplicate, "facet is", "facets are"), h.near(h.Holes == 0), h.doubt()),
		Fix: "remove the copy in the drawing program and export it again; or accept the mesh knowingly, with this doubt"}
}

func (h Health) insideOut() Fault {
	switch {
	case h.Inverted:
		return Fault{Code: "mesh-inside-out",
			Text: fmt.Sprintf("the surface is inside out: its facets face inward, so its volume is negative (%.4g in the file's units), and so would its weight be", h.Volume),
			Fix:  fixReverse}
	case h.InsideOutShells > 0:
		return Fault{Code: "mesh-inside-out",
			Text: fmt.Sprintf("%s inside out%s: what it encloses is taken off the volume instead of added; %s",
				ofAll(h.InsideOutShells, h.Shells, "is", "are"), h.near(h.Holes+h.Duplicate == 0), h.doubt()),
			Fix: fixReverse}
	}
	return Fault{}
}

func (h Health) touching() Fault {
	balanced := h.OverusedEdges - h.UnbalancedEdges
	if balanced == 0 {
		return Fault{}
	}
	return Fault{Code: "mesh-touching", Harmless: true,
		Text: fmt.Sprintf("%s shared by more than two facets, as many running each way: surfaces touch there, or a wall is drawn double. The volume is not changed by it",
			count(balanced, "edge is", "edges are")),
		Fix: "nothing to do, unless the part was meant to be one piece"}
}

// near says where to look, if the places are those of the fault in question.
func (h Health) near(its bool) string {
	if !its || len(h.Where) == 0 {
		return ""
	}
	places := make([]string, len(h.Where))
	for i, v := range h.Where {
		places[i] = fmt.Sprintf("(%.6g, %.6g, %.6g)", v[0], v[1], v[2])
	}
	around := ""
	if h.Holes > 0 {
		around = " in " + count(h.Holes, "place", "places")
	}
	return around + ", near " + strings.Join(places, ", ") + " in the file's units"
}

// doubt says what VolumeDoubt means for the weight.
func (h Health) doubt() string {
	switch part := h.VolumeDoubt / math.Abs(h.Volume); {
	case h.Flat || part >= 1:
		return "the weight can't be told from it"
	case part < 0.0005:
		return "as an indication, not a bound, the weight may be off by less than 0.05 %"
	default:
		return fmt.Sprintf("as an indication, not a bound, the weight may be off by about %.2g %%", 100*part)
	}
}

// ofAll is "1 of 3 surfaces lies", "2 of 3 surfaces lie".
func ofAll(n, all int, one, many string) string {
	if n != 1 {
		one = many
	}
	return fmt.Sprintf("%d of %s %s", n, count(all, "surface", "surfaces"), one)
}

func count(n int, one, many string) string {
	if n == 1 {
		return "1 " + one
	}
	return fmt.Sprintf("%d %s", n, many)
}
