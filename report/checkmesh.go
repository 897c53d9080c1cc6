package report

import (
	"fmt"
	"strings"

	"plumbhook/geom"
	"plumbhook/lift"
	"plumbhook/units"
)

// unweighable begins the page of a mesh that can't be weighed as it is.
func (p *page) unweighable(v lift.Verdict) {
	if v.Acceptable {
		return
	}
	p.line(p.ink("CAN'T BE WEIGHED AS IT IS", "no"))
	p.numbered(v.Reasons)
	p.gap()
}

// meshHealth prints what a mesh given by itself was found to be.
func (p *page) meshHealth(m lift.MeshHealth) {
	p.heading("THE MESH, IN THE FILE'S OWN UNIT")
	p.field("Facets", fmt.Sprintf("%s in %s", plainInt(m.Triangles), surfaces(m.Shells)))
	p.field("Surface", closedness(m))
	p.field("Area", fourFigures(m.Area))
	p.field("Volume", fourFigures(m.Volume)+doubtOf(m))
	size := geom.Extent(m.Box).Size()
	p.field("Size", fmt.Sprintf("%s × %s × %s along x, y and z", fourFigures(size[0]), fourFigures(size[1]), fourFigures(size[2])))
	if len(m.Mending) > 0 {
		p.gap()
		p.line("  What --accept-mesh would mend, without a guess at the shape:")
		p.numbered(m.Mending)
		p.hang("  ", mendedText(m.Mended))
	}
	p.candidates(m)
}

func surfaces(n int) string { return several(n, "connected surface") }
func holes(n int) string    { return several(n, "hole") }

func several(n int, what string) string {
	if n == 1 {
		return "1 " + what
	}
	return plainInt(n) + " " + what + "s"
}

func closedness(m lift.MeshHealth) string {
	if m.Closed {
		return "closed"
	}
	return fmt.Sprintf("not closed: %s open edges around %s", plainInt(m.OpenEdges), holes(m.Holes))
}

func doubtOf(m lift.MeshHealth) string {
	if m.VolumeDoubt == 0 {
		return ""
	}
	return ", in doubt by about " + fourFigures(m.VolumeDoubt) + " (an indication, not a bound)"
}

func mendedText(sound bool) string {
	if sound {
		return "It would then be sound."
	}
	return "It would still not be sound."
}

// candidates prints size and weight in the unit of the file, or in each that
// it may be.
func (p *page) candidates(m lift.MeshHealth) {
	if len(m.Candidates) == 1 {
		p.heading("SIZE AND WEIGHT, AS " + m.Material)
	} else {
		p.heading("IF THE FILE IS IN ..., AS " + m.Material)
	}
	cols := []column{{title: "Unit", width: 4}, {title: "Size along x, y and z", width: 0}, {title: "Volume", width: 14, right: true}, {title: "Weight", width: 18, right: true}}
	p.titles(cols)
	for _, c := range m.Candidates {
		name := c.Unit
		if len(name) > cols[0].width { // the file's own, told in words
			name = "own"
		}
		size := func(s units.Show) string {
			var sides []string
			for _, side := range c.SizeM {
				sides = append(sides, units.Length(side).Format(s))
			}
			return strings.Join(sides, " × ")
		}
		p.row(cols, name, p.stacked(size), p.stackedVolume(c.VolumeM3), p.stackedMass(c.WeightKg))
	}
}
