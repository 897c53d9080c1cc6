package takeoff

import (
	"fmt"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"plumbhook/geom"
	"plumbhook/testdata/published/inprint"
	"plumbhook/units"
)

// TestPublishedFilletWelds: printed to 0.01 lb/ft, with steel of 490 lb/ft³.
func TestPublishedFilletWelds(t *testing.T) {
	page := inprint.Of(t, "takeoff")
	for _, v := range page.Rows() {
		leg := strings.TrimPrefix(v.Item, "leg of ")
		w := weighed(t, head+"- {weld: {leg: "+leg+", length: 10 ft}, at: [0, 0, 0], material: {name: steel, density: 490 lb/ft3}}\n")
		page.Is(v.Item, v.Quantity, float64(w.Best/units.Pound)/10)
	}
}

// TestWeldAlongALine: its CG is in the middle of the line, and its length is
// that of the metal: 3 m of stitches along 5 m, or both sides of a plate. An
// area of 30 mm² is 30e-6 × 7850 = 0.2355 kg/m.
func TestWeldAlongALine(t *testing.T) {
	for _, tt := range []struct {
		weld string
		want float64
	}{
		{"{area: 30 mm2}", 1.1775},
		{"{area: 30 mm2, length: 3000}", 0.7065},
		{"{area: 30 mm2, length: 10 m}", 2.355},
	} {
		w := weighed(t, head+"- {weld: "+tt.weld+", from: [0, 0, 100], to: [5000, 0, 100]}\n")
		assert.InDelta(t, tt.want, float64(w.Best), 1e-9, "kg of %s", tt.weld)
		near3(t, geom.Vec{2.5, 0, 0.1}, w.CG, 1e-9, "CG")
	}
}

// TestWeldSpreadOnAPart: it sits at the CG of the part, all copies of it,
// wherever it stands in the list. A fillet of 10 over 2 m: 0.010²/2 × 1.5 × 2
// × 7850 = 1.1775 kg.
func TestWeldSpreadOnAPart(t *testing.T) {
	w := weighed(t, head+`- {name: seams, weld: {leg: 10, length: 2 m}, on: web plates}
- {name: web plates, box: 1000 x 10 x 500, center: [500, 0, 250], count: 2, step: [0, 600, 0]}
`)
	assert.InDelta(t, 1.1775, float64(w.Parts[0].Best), 1e-9)
	near3(t, geom.Vec{0.5, 0.3, 0.25}, w.Parts[0].CG, 1e-9, "CG of the weld")
	near3(t, w.Parts[1].CG, w.CG, 1e-9, "CG of the load")
	assert.Contains(t, w.Parts[0].Basis, "Iowa DOT IM 569")
	assert.Contains(t, w.Parts[0].Basis, "at the centre of gravity of web plates")
}

// TestBarsByTheirMass: 3.77 kg/m over 2 m; 62.8 kg/m² is 8 mm of steel of 7850
// kg/m³; 20.4 lb/ft² over 10 ft x 5 ft.
func TestBarsByTheirMass(t *testing.T) {
	rail := weighed(t, head+"- {bar: {per length: 3.77 kg/m}, from: [0, 0, 50], to: [2000, 0, 50]}\n")
	assert.InDelta(t, 7.54, float64(rail.Best), 1e-9)
	near3(t, geom.Vec{1, 0, 0.05}, rail.CG, 1e-9, "CG")
	plate := weighed(t, head+"- {bar: {per area: 62.8 kg/m2, size: 1000 x 500}, corner: [0, 0, 0]}\n")
	assert.InDelta(t, 31.4, float64(plate.Best), 1e-9)
	near3(t, geom.Vec{1, 0.5, 0.008}, plate.Extent.Max, 1e-9, "its box")
	us := weighed(t, head+"- {bar: {per area: 20.4 lb/ft2, size: 10 ft x 5 ft}, at: [0, 0, 0]}\n")
	assert.InDelta(t, 1020, float64(us.Best/units.Pound), 1e-9)

	// No material anywhere: the mass is known all the same.
	none := weighed(t, "load: a\nunits: mm\nparts:\n- {bar: {per length: 3.77 kg/m, length: 2000}, at: [0, 0, 0]}\n- {weld: {leg: 10, length: 2000}, at: [0, 0, 0]}\n")
	assert.InDelta(t, 7.54+1.1775, float64(none.Best), 1e-9, "weld metal as steel, 7850 kg/m³")
}

// badStock are bars and welds that can't be; line 5 on.
var badStock = []struct{ name, file, at, text, fix string }{
	{"weld of two sizes", "- {weld: {leg: 6, area: 30 mm2, length: 9}, at: [0, 0, 0]}\n", "5:10", "its leg or its area", "{leg: 6, length: 1200}"},
	{"weld without a size", "- {weld: {length: 9}, at: [0, 0, 0]}\n", "5:10", "its leg or its area", "30 mm2"},
	{"weld without a length", "- {weld: {leg: 6}, at: [0, 0, 0]}\n", "5:10", "a weld has no `length`", "a length"},
	{"area without a unit", "- {weld: {area: 30, length: 9}, at: [0, 0, 0]}\n", "5:17", "an area without a unit", "18 mm2"},
	{"area in a unit that is none", "- {weld: {area: 30 sqm, length: 9}, at: [0, 0, 0]}\n", "5:17", "not a unit of area", "18 mm2"},
	{"weld on no part", "- {weld: {leg: 6, length: 9}, on: plaet}\n- {name: plate, box: 9 x 9 x 9, at: [0, 0, 0]}\n", "5:35", `no part is called "plaet"`, `did you mean "plate"?`},
	{"weld on itself", "- {name: seam, weld: {leg: 6, length: 9}, on: seam}\n- {name: plate, box: 9 x 9 x 9, at: [0, 0, 0]}\n", "5:47", `no part is called "seam"`, "not itself such a weld"},
	{"weld on a part without a length", "- {weld: {leg: 6}, on: plate}\n- {name: plate, box: 9 x 9 x 9, at: [0, 0, 0]}\n", "5:10", "a weld has no `length`", "a length"},
	{"weld on a part, in copies", "- {weld: {leg: 6, length: 9}, on: plate, count: 2, step: [1, 0, 0]}\n- {name: plate, box: 9 x 9 x 9, at: [0, 0, 0]}\n", "5:49", "has no copies", "the whole length"},
	{"weld placed twice", "- {weld: {leg: 6, length: 9}, on: plate, at: [0, 0, 0]}\n- {name: plate, box: 9 x 9 x 9, at: [0, 0, 0]}\n", "5:3", "placed 2 times", ""},
	{"box on a part", "- {box: 1 x 1 x 1, on: plate}\n- {name: plate, box: 9 x 9 x 9, at: [0, 0, 0]}\n", "5:24", "a box can't be spread on a part", "`at`"},
	{"weight on a part", "- {weight: 5 kg, on: plate}\n- {name: plate, box: 9 x 9 x 9, at: [0, 0, 0]}\n", "5:22", "a weight can't be spread on a part", "`at`"},
	{"weight with a box on a part", "- {weight: 5 kg, box: 1 x 1 x 1, status: weighed, on: plate}\n- {name: plate, box: 9 x 9 x 9, at: [0, 0, 0]}\n", "5:55", "a box can't be spread on a part", "`at`"},
	{"weight with a heading", "- {weight: 5 kg, from: [0, 0, 0], heading: x, status: weighed}\n", "5:44", "a weight has no `heading`", "`along`"},
	{"bar of both masses", "- {bar: {per length: 3 kg/m, per area: 3 kg/m2, length: 9}, at: [0, 0, 0]}\n", "5:9", "by length, or its mass by area", "{per length: 3.77 kg/m"},
	{"bar by area without a size", "- {bar: {per area: 3 kg/m2}, at: [0, 0, 0]}\n", "5:9", "by length, or its mass by area", "size: 2000 x 1000"},
	{"bar by length in kg/m2", "- {bar: {per length: 3 kg/m2, length: 9}, at: [0, 0, 0]}\n", "5:22", `"m2" can't stand below the line here`, "3.77 kg/m"},
	{"bar by a bare number", "- {bar: {per length: 3, length: 9}, at: [0, 0, 0]}\n", "5:22", "not a mass over a length", "3.77 kg/m"},
	{"bar of tons", "- {bar: {per length: 3 ton/m, length: 9}, at: [0, 0, 0]}\n", "5:22", "ton", "t"},
	{"bar of nothing", "- {bar: {per length: 0 kg/m, length: 9}, at: [0, 0, 0]}\n", "5:22", "must be more than zero", "3.77 kg/m"},
	{"cut from a bar", "- bar: {per length: 3 kg/m, length: 90}\n  at: [0, 0, 0]\n  cuts: [{box: 1 x 1 x 1, at: [0, 0, 0]}]\n", "7:9", "no shape to cut from", "the mass that is left"},
	{"bar as a cut", "- box: 9 x 9 x 9\n  at: [0, 0, 0]\n  cuts: [{bar: {per length: 3 kg/m, length: 9}, at: [0, 0, 0]}]\n", "7:11", `the key "bar" is not taken`, "no shape to cut away"},
}

func TestBadStockSaysWhereWhatAndHowToMend(t *testing.T) {
	for _, tt := range badStock {
		t.Run(tt.name, func(t *testing.T) {
			p := problemsOf(t, head+tt.file)
			require.Len(t, p, 1, "want this problem alone:\n%v", p)
			assert.Equal(t, tt.at, fmt.Sprintf("%d:%d", p[0].Line, p[0].Column), "place of %v", p[0])
			assert.Contains(t, p[0].Text, tt.text)
			assert.Contains(t, p[0].Fix, tt.fix)
		})
	}
}
