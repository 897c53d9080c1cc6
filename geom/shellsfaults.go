package geom

import (
	"fmt"
	"math"
)

// cancels speaks of shells whose volumes take each other away.
func (h Health) cancels() Fault {
	switch {
	case h.Gross == 0:
		return Fault{}
	case h.Flat:
		return Fault{Code: "mesh-cancels",
			Text: fmt.Sprintf("the closed surfaces of the mesh enclose %.4g in the file's units, but their volumes cancel out: as many face inward as outward, or a surface is there once each way", h.Gross),
			Fix:  fixReverse}
	}
	return Fault{Code: "mesh-cancels", Harmless: true,
		Text: fmt.Sprintf("the volume, %.4g, is what is left of surfaces that enclose %.4g in the file's units: a thin wall, of which a small error in a surface is a large part", h.Volume, h.Gross),
		Fix:  "check the thickness of the wall; if in doubt, enter the part as solids"}
}

func (h Health) nested() Fault {
	if h.NestedShells == 0 {
		return Fault{}
	}
	return Fault{Code: "mesh-nested",
		Text: fmt.Sprintf("%s within the material of another and faces outward like it%s. The volume is %.6g if it bounds a hollow, %.6g if it is a piece set into the other, in the file's units; as the facets stand, %.6g, the volume there is counted twice; %s",
			ofAll(h.NestedShells, h.Shells, "lies", "lie"), h.near(h.Holes+h.Duplicate == 0), h.AsHollow, h.AsSolid, math.Abs(h.Volume), h.doubt()),
		Fix: "if it is a hollow, turn its facets over; if it is a piece set into another, cut its seat out of the other or join them in the drawing program, and export again"}
}

func (h Health) overlap() Fault {
	o := h.Overlap
	if o.Lines == 0 {
		return Fault{}
	}
	return Fault{Code: "mesh-overlap", Harmless: !h.overlaps(),
		Text: fmt.Sprintf("surfaces overlap in part or pass through each other%s: what is common is counted more than once. The facets add up to %.6g; the space that they fill is %.6g ± %.2g (one standard error, sampled along %d lines), in the file's units",
			h.near(h.Holes+h.Duplicate+h.InsideOutShells == 0), o.Sum, o.Union, o.Error, o.Lines),
		Fix: "join the bodies into one in the drawing program, or export them as files of their own and enter them as parts that don't overlap"}
}

// unwelded speaks of gaps that rounding explains.
func (h Health) unwelded() Fault {
	if h.Welded == 0 {
		return Fault{}
	}
	return Fault{Code: "mesh-unwelded", Harmless: true,
		Text: fmt.Sprintf("the surface is closed only if points up to %.2g apart in the file's units (a millionth of its box) are taken for one%s. The volume is hardly changed by it (indication: %.1g of it)",
			h.Welded, h.near(true), h.VolumeDoubt/math.Abs(h.Volume)),
		Fix: "nothing to do; joining the points in the drawing program takes the warning away"}
}

// gap speaks of gaps that are too wide for that.
func (h Health) gap() string {
	if h.Gap == 0 {
		return ""
	}
	return fmt.Sprintf(". The surface would close if points up to about %.2g apart were joined: gaps too wide to be rounding", h.Gap)
}
