package density_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"plumbhook/density"
	"plumbhook/testdata/published/inprint"
)

const (
	squareCentimetre = 1e-4            // m²
	squareInch       = 0.0254 * 0.0254 // m²
	poundPerFoot     = 0.45359237 / 0.3048
)

// section finds a section that a table prints.
func section(t *testing.T, name string) density.Section {
	t.Helper()
	s, err := density.FindSection(name)
	require.NoError(t, err, name)
	return s
}

// holds asks for what a table of sections prints: the mass is held to half of its last
// figure, the area to one (some printed areas are cut, not rounded), and as a second
// way the area of the dimensions, which times the density must be the mass as well.
func holds(t *testing.T, page *inprint.Page, area, mass, steel, massOff float64) {
	t.Helper()
	for _, v := range page.Rows("mass") {
		s := section(t, v.Item)
		page.Is(v.Item, "mass", s.PerLength/mass)
		page.Is(v.Item, "area", s.Area/area)
		if page.Has(v.Item, "area of the dimensions") {
			page.Is(v.Item, "area of the dimensions", s.OutlineArea()/area)
		}
		assert.InEpsilon(t, v.Printed*mass, s.OutlineArea()*steel, massOff, "%s: mass from the dimensions", v.Item)
	}
}

func TestPublishedISections(t *testing.T) {
	holds(t, inprint.Of(t, "density"), squareCentimetre, 1, 7850, 0.009)
}

func TestPublishedChannels(t *testing.T) {
	page := inprint.Of(t, "density")
	holds(t, page, squareCentimetre, 1, 7850, 0.007)
	for _, v := range page.Rows("back of web to centroid") {
		s := section(t, v.Item)
		page.Is(v.Item, v.Quantity, s.CentroidX*100)
		assert.Zero(t, s.CentroidY)
	}
}

func TestPublishedAngles(t *testing.T) {
	page := inprint.Of(t, "density")
	holds(t, page, squareCentimetre, 1, 7850, 0.005)
	for _, v := range page.Rows("heel to centroid") {
		s := section(t, v.Item)
		page.Is(v.Item, v.Quantity, s.CentroidX*100)
		assert.Equal(t, s.CentroidX, s.CentroidY, v.Item)
	}
	// Of an unequal angle the depth is the longer leg.
	s := section(t, "L 200x100x10")
	page.Is("L 200x100x10", "centroid along the longer leg", s.CentroidY*100)
	page.Is("L 200x100x10", "centroid along the shorter leg", s.CentroidX*100)
}

func TestPublishedWShapes(t *testing.T) {
	page := inprint.Of(t, "density")
	holds(t, page, squareInch, poundPerFoot, 490*0.45359237/(0.3048*0.3048*0.3048), 0.015)
	s := section(t, "W12x26")
	for quantity, size := range map[string]float64{"depth": s.Depth, "width": s.Width, "web": s.Web, "flange": s.Flange} {
		page.Is("W12X26", quantity, size/0.0254)
	}
	page.Is("W12X26", "metric mass", s.PerLength)
}
