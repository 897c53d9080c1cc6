package takeoff

import (
	"fmt"
	"math"
	"strings"
	"testing"
	"testing/fstest"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"plumbhook/geom"
)

// flangeDXF is a round flange with a bore and four holes on a bolt circle, as
// a drawing in text. Unit 4 is mm, 0 none. It stands dx to the right of 0,0.
func flangeDXF(unit int, dx float64) string {
	circle := func(x, y, radius float64) string {
		return fmt.Sprintf("0\nCIRCLE\n8\nCUT\n10\n%g\n20\n%g\n30\n0\n40\n%g\n", x+dx, y, radius)
	}
	text := fmt.Sprintf("0\nSECTION\n2\nHEADER\n9\n$INSUNITS\n70\n%d\n0\nENDSEC\n0\nSECTION\n2\nENTITIES\n", unit)
	text += circle(0, 0, 200) + circle(0, 0, 80)
	for _, at := range [][2]float64{{140, 0}, {0, 140}, {-140, 0}, {0, -140}} {
		text += circle(at[0], at[1], 13)
	}
	return text + "0\nENDSEC\n0\nEOF\n"
}

// A flange of 400 with a bore of 160 and four holes of 26, 20 thick, by hand:
// π/4·(400² − 160² − 4·26²)·20 = 2 068 645 mm³, 16.24 kg of steel.
func TestPlateFromADrawing(t *testing.T) {
	volume := math.Pi / 4 * (0.4*0.4 - 0.16*0.16 - 4*0.026*0.026) * 0.02
	for _, tt := range []struct{ name, part, drawing string }{
		{"unit in the drawing", "plate: {outline: cut/flange.dxf, thickness: 20}", flangeDXF(4, 0)},
		{"unit in the braces", "plate: {outline: cut/flange.dxf, thickness: 20, units: mm}", flangeDXF(0, 0)},
		{"unit on the part", "{plate: {outline: cut/flange.dxf, thickness: 20}, units: mm", flangeDXF(0, 0)},
		{"polygon", "polygon: {outline: cut/flange.dxf, length: 20}", flangeDXF(4, 0)},
		{"in inches", "plate: {outline: cut/flange.dxf, thickness: 20, units: in}", flangeInInches()},
	} {
		part := "- {" + strings.TrimPrefix(tt.part, "{") + ", at: [1000, 0, 50]}\n"
		l, err := readText(head+part, fstest.MapFS{"cut/flange.dxf": file(tt.drawing)})
		require.NoError(t, err, tt.name)
		w, err := l.Weigh()
		require.NoError(t, err, tt.name)
		assert.InEpsilon(t, volume, w.Volume, 1e-9, tt.name)
		assert.InEpsilon(t, 7850*volume, float64(w.Best), 1e-9, tt.name)
		near3(t, geom.Vec{1, 0, 0.06}, w.CG, 1e-9, tt.name)
		assert.Empty(t, frowns(l), tt.name)
	}
}

func flangeInInches() string {
	text := "0\nSECTION\n2\nENTITIES\n"
	for _, c := range [][3]float64{{0, 0, 200}, {0, 0, 80}, {140, 0, 13}, {0, 140, 13}, {-140, 0, 13}, {0, -140, 13}} {
		text += fmt.Sprintf("0\nCIRCLE\n10\n%.17g\n20\n%.17g\n40\n%.17g\n", c[0]/25.4, c[1]/25.4, c[2]/25.4)
	}
	return text + "0\nENDSEC\n0\nEOF\n"
}

// frowns lists what a load warns of, but for the default material.
func frowns(l *Load) (list []string) {
	for _, w := range l.Warnings {
		if w.Code != "material-default" {
			list = append(list, w.Code)
		}
	}
	return list
}

// The drawing is part of the fingerprint, once however often it is named, and
// may give the outline of a cut too.
func TestDrawingOfACut(t *testing.T) {
	part := "- name: p\n  plate: 1000 x 1000 x 20\n  at: [0, 0, 0]\n  cuts:\n  - {plate: {outline: flange.dxf, thickness: 20}, at: [0, 0, 0]}\n"
	folder := fstest.MapFS{"flange.dxf": file(flangeDXF(4, 0))}
	l, err := readText(head+part, folder)
	require.NoError(t, err)
	volume := 0.02 - math.Pi/4*(0.4*0.4-0.16*0.16-4*0.026*0.026)*0.02
	assert.InEpsilon(t, volume, l.Parts[0].Moments().Volume, 1e-9)
	other, err := readText(head+part, fstest.MapFS{"flange.dxf": file(flangeDXF(4, 0.001))})
	require.NoError(t, err)
	assert.NotEqual(t, l.SHA256, other.SHA256)
}

func TestDrawingWarnings(t *testing.T) {
	folder := fstest.MapFS{"far.dxf": file(flangeDXF(4, 5000)), "flange.dxf": file(flangeDXF(0, 0))}
	l, err := readText(head+"- {plate: {outline: far.dxf, thickness: 20}, at: [0, 0, 0]}\n", folder)
	require.NoError(t, err)
	assert.Contains(t, frowns(l), "drawing-origin")
	l, err = readText(head+"- {plate: {outline: far.dxf, thickness: 20}, center: [0, 0, 0]}\n", folder)
	require.NoError(t, err)
	assert.Empty(t, frowns(l))
	l, err = readText(head+"- {plate: {outline: flange.dxf, thickness: 20, units: m}, at: [0, 0, 0]}\n", folder)
	require.NoError(t, err)
	assert.Contains(t, frowns(l), "drawing-size")
}

func TestBadDrawings(t *testing.T) {
	gap := "0\nSECTION\n2\nENTITIES\n0\nLINE\n10\n0\n20\n0\n11\n100\n21\n0\n0\nLINE\n10\n100\n20\n0\n11\n100\n21\n50\n0\nENDSEC\n0\nEOF\n"
	folder := fstest.MapFS{"f.dxf": file(flangeDXF(4, 0)), "none.dxf": file(flangeDXF(0, 0)), "gap.dxf": file(gap), "f.svg": file("x")}
	for _, tt := range []struct{ name, part, text, fix string }{
		{"no unit", "plate: {outline: none.dxf, thickness: 20}", "no unit", "`units: mm`"},
		{"another unit", "plate: {outline: f.dxf, thickness: 20, units: in}", "the file says", "leave `units` out"},
		{"no such file", "plate: {outline: g.dxf, thickness: 20}", "there is no such file", "g.dxf"},
		{"not a drawing", "plate: {outline: f.svg, thickness: 20}", "not .dxf", "DXF in text"},
		{"leaves the folder", "plate: {outline: ../f.dxf, thickness: 20}", "leaves the folder", "drawings/flange.dxf"},
		{"gap", "plate: {outline: gap.dxf, thickness: 20, units: mm}", "gap.dxf can't be read", ""},
		{"no thickness", "plate: {outline: f.dxf}", "no `thickness`", ""},
		{"holes beside it", "plate: {outline: f.dxf, thickness: 20, holes: [[[0, 0], [1, 0], [1, 1]]]}", "stand in the drawing", "`cuts`"},
		{"unit of corners", "plate: {outline: [[0, 0], [100, 0], [100, 100]], thickness: 20, units: mm}", "not taken from one", "take it away"},
	} {
		_, err := readText(head+"- {"+tt.part+", at: [0, 0, 0]}\n", folder)
		var p Problems
		require.ErrorAs(t, err, &p, tt.name)
		assert.Equal(t, 5, p[0].Line, tt.name)
		assert.Contains(t, p[0].Text, tt.text, tt.name)
		assert.Contains(t, p[0].Fix, tt.fix, tt.name)
	}
}

// An outline of corners with an arc: half of a disc of 400, 10 thick.
func TestPlateWithCorners(t *testing.T) {
	l, err := readText(head+"- {plate: {outline: [[200, 0], {to: [-200, 0], bulge: 1}], thickness: 10}, at: [0, 0, 0]}\n", nil)
	require.NoError(t, err)
	assert.InEpsilon(t, math.Pi/8*0.4*0.4*0.01, l.Parts[0].Moments().Volume, 1e-12)
	// Centroid of a half disc: 4r/3π from its side (tables of mensuration).
	assert.InEpsilon(t, 4*0.2/(3*math.Pi), l.Parts[0].CG()[1], 1e-12)
}

// A surface weighs its area times its thickness: an open box without lid, five
// sides of a cube of 1000, 6 thick: 0.03 m³, 235.5 kg of steel.
func TestSurfacePart(t *testing.T) {
	open := cube(1000)
	open.Faces = open.Faces[:0:0]
	for _, f := range cube(1000).Faces {
		a, b, c := open.Vertices[f[0]], open.Vertices[f[1]], open.Vertices[f[2]]
		if a[2] < 999 || b[2] < 999 || c[2] < 999 { // all but the lid
			open.Faces = append(open.Faces, f)
		}
	}
	folder := fstest.MapFS{"tray.stl": file(meshSTL("tray", open)), "cube.stl": file(cubeSTL("cube", 1000)), "thin.stl": file(meshSTL("thin", plateMesh(1000, 1000, 6)))}
	l, err := readText(head+"- {surface: tray.stl, thickness: 6, units: mm, at: [0, 0, 0]}\n", folder)
	require.NoError(t, err)
	w, err := l.Weigh()
	require.NoError(t, err)
	assert.InEpsilon(t, 235.5, float64(w.Best), 1e-6)
	near3(t, geom.Vec{0.5, 0.5, 0.4}, w.CG, 1e-9, "four sides at half height and a bottom: 4·0.5/5")
	assert.Contains(t, w.Parts[0].Basis, "area 5 m² of the file × 6 mm")
	assert.Empty(t, frowns(l))

	l, err = readText(head+"- {surface: thin.stl, thickness: 6, units: mm, at: [0, 0, 0]}\n", folder)
	require.NoError(t, err)
	assert.Equal(t, []string{"surface-closed"}, frowns(l))

	for _, tt := range []struct{ part, text string }{
		{"surface: tray.stl, units: mm", "no `thickness`"},
		{"surface: tray.stl, thickness: 6", "no unit"},
		{"surface: tray.stl, thickness: 0, units: mm", "more than zero"},
		{"surface: tray.stl, thickness: 6, units: mm, cuts: [{box: 1 x 1 x 1, at: [0, 0, 0]}]", "takes no `cuts`"},
		{"mesh: cube.stl, thickness: 6, units: mm", "takes no `thickness`"},
		{"box: 1 x 1 x 1, thickness: 6", "takes no `thickness`"},
	} {
		_, err := readText(head+"- {"+tt.part+", at: [0, 0, 0]}\n", folder)
		assert.ErrorContains(t, err, tt.text)
	}
}

func plateMesh(x, y, z float64) geom.Mesh {
	box, err := geom.NewBox(x, y, z)
	if err != nil {
		panic(err)
	}
	return box.Mesh(1)
}

// Paint on a surface is on both faces of it, however it is cut into facets: two
// faces of a sheet of 2 x 1 m, 4 m², at 10 kg/m²; a known weight has no surface,
// and the basis says so.
func TestPaintOnASurface(t *testing.T) {
	fine := geom.Mesh{}
	const n = 20
	for i := range n + 1 {
		for j := range n + 1 {
			fine.Vertices = append(fine.Vertices, geom.Vec{2000 * float64(i) / n, 1000 * float64(j) / n, 0})
		}
	}
	for i := range n {
		for j := range n {
			a := i*(n+1) + j
			fine.Faces = append(fine.Faces, [3]int{a, a + n + 1, a + n + 2}, [3]int{a, a + n + 2, a + 1})
		}
	}
	l, err := readText(head+"- {surface: sheet.stl, thickness: 30, units: mm, at: [0, 0, 0]}\n- {name: pump, weight: 5 kg, at: [0, 0, 0], status: weighed}\nallowances: [{name: paint, of: all, per area: 10 kg/m2}]\n",
		fstest.MapFS{"sheet.stl": file(meshSTL("sheet", fine))})
	require.NoError(t, err)
	w, err := l.Weigh()
	require.NoError(t, err)
	assert.InDelta(t, 40, float64(w.Allowances[0].Best), 1e-6)
	near3(t, geom.Vec{1, 0.5, 0}, w.Allowances[0].CG, 1e-9, "middle of the sheet")
	assert.Contains(t, w.Allowances[0].Basis, "not on what is known by its weight alone: pump")
}
