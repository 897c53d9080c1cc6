package geom_test

import (
	"archive/zip"
	"bytes"
	"fmt"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"plumbhook/geom"
)

func read3MF(in []byte) (geom.Mesh, geom.MeshInfo, error) {
	return geom.Read3MF(bytes.NewReader(in), geom.Limits{})
}

// The units are those of the specification's table; inch and foot are exact.
func TestUnitsOf3MF(t *testing.T) {
	for unit, metres := range map[string]float64{
		"": 0.001, ` unit="micron"`: 1e-6, ` unit="millimeter"`: 0.001, ` unit="centimeter"`: 0.01,
		` unit="meter"`: 1, ` unit="inch"`: 0.0254, ` unit="foot"`: 0.3048,
	} {
		mesh, info, err := read3MF(package3MF(t, modelXML(unit, cube20.meshXML(1), `<item objectid="1"/>`)))
		require.NoError(t, err, unit)
		assert.Equal(t, metres, info.Unit, unit)
		assert.Equal(t, 8000.0, mesh.Moments().Volume, "unscaled")
	}
}

// A part with a corner piece on one side, so that it has a hand: a cube of 20
// and, on the positive side of x, a cube of 10 at one corner.
var handed = cube20.and(cube(10).shifted(geom.Vec{20, 0, 0}))

// Placed by hand: wants are volumes and boxes that can be seen from the matrix.
func TestTransformsOf3MF(t *testing.T) {
	tests := []struct {
		name, transform string
		volume          float64
		low, high       geom.Vec
	}{
		{"none", "", 9000, geom.Vec{0, 0, 0}, geom.Vec{30, 20, 20}},
		{"moved", "1 0 0 0 1 0 0 0 1 5 6 7", 9000, geom.Vec{5, 6, 7}, geom.Vec{35, 26, 27}},
		{"quarter turn about z", "0 1 0 -1 0 0 0 0 1 0 0 0", 9000, geom.Vec{-20, 0, 0}, geom.Vec{0, 30, 20}},
		{"mirrored in x", "-1 0 0 0 1 0 0 0 1 0 0 0", 9000, geom.Vec{-30, 0, 0}, geom.Vec{0, 20, 20}},
		{"mirrored in all axes and moved", "-1 0 0 0 -1 0 0 0 -1 30 20 20", 9000, geom.Vec{0, 0, 0}, geom.Vec{30, 20, 20}},
		{"twice as large", "2 0 0 0 2 0 0 0 2 0 0 0", 72000, geom.Vec{0, 0, 0}, geom.Vec{60, 40, 40}},
		{"stretched along z", "1 0 0 0 1 0 0 0 3 0 0 1", 27000, geom.Vec{0, 0, 1}, geom.Vec{30, 20, 61}},
		{"skewed: z moves x", "1 0 0 0 1 0 1 0 1 0 0 0", 9000, geom.Vec{0, 0, 0}, geom.Vec{40, 20, 20}},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			item := `<item objectid="1" transform="` + tt.transform + `"/>`
			component := `<object id="2"><components><component objectid="1" transform="` + tt.transform + `"/></components></object>`
			for name, model := range map[string]string{
				"item":      modelXML("", handed.meshXML(1), item),
				"component": modelXML("", handed.meshXML(1)+component, `<item objectid="2"/>`),
			} {
				mesh, info, err := read3MF(package3MF(t, model))
				require.NoError(t, err, name)
				assert.Equal(t, 24, info.Triangles)
				assert.Equal(t, geom.Extent{Min: tt.low, Max: tt.high}, mesh.Extent(), name)
				h := geom.Examine(mesh)
				assert.True(t, h.Sound(), "%s: %v", name, h.Faults())
				assert.InDelta(t, tt.volume, h.Volume, 1e-10, name)
			}
		})
	}
}

// A component that is mirrored within an item that is mirrored: turned twice.
// The item's own transform comes after that of the component.
func TestTransformsOf3MFFollowEachOther(t *testing.T) {
	resources := handed.meshXML(1) + `<object id="2"><components>` +
		`<component objectid="1"/><component objectid="1" transform="-1 0 0 0 1 0 0 0 1 100 0 0"/></components></object>`
	mesh, info, err := read3MF(package3MF(t, modelXML("", resources,
		`<item objectid="2" transform="0 1 0 -1 0 0 0 0 1 0 0 0"/><item objectid="2" transform="1 0 0 0 -1 0 0 0 2 0 -500 0"/>`)))
	require.NoError(t, err)
	assert.Equal(t, 4, info.Solids)
	assert.Equal(t, 4*24, info.Triangles)
	h := geom.Examine(mesh)
	assert.True(t, h.Sound(), h.Faults())
	assert.InDelta(t, 2*9000.0+2*18000, h.Volume, 1e-9)
	// The first item turns x to y: pieces at y 0 to 30 and 70 to 100. The second
	// mirrors y and puts it at −500: y −520 to −500.
	assert.Equal(t, geom.Extent{Min: geom.Vec{-20, -520, 0}, Max: geom.Vec{100, 100, 40}}, mesh.Extent())
}

// What is built counts, not what is only there; supports are left out and
// told; metadata gives the name.
func TestBuildOf3MF(t *testing.T) {
	resources := `<m:colorgroup xmlns:m="http://schemas.example.org/3dmanufacturing/material/2015/02" id="9"><m:color color="#ff0000"/></m:colorgroup>` +
		cube20.meshXML(1) + strings.Replace(cube(5).meshXML(2), `type="model"`, `type="support"`, 1) + cube(7).meshXML(3)
	model := modelXML("", resources, `<item objectid="1" partnumber="A"/><item objectid="2"/>`)
	model = strings.Replace(model, "<resources>", `<metadata name="Designer">nobody</metadata><metadata name="Title">Lifting &amp; <!-- a --> lug</metadata><resources>`, 1)
	mesh, info, err := read3MF(package3MF(t, model))
	require.NoError(t, err)
	assert.Equal(t, geom.MeshInfo{Kind: "3MF", Unit: 0.001, Solids: 1, Name: "Lifting &  lug", Triangles: 12,
		Notes: []string{`left out: 1 object of the type "support"`}}, info)
	assert.InDelta(t, 8000.0, mesh.Moments().Volume, 1e-11)
}

// Objects in another model part of the package, as the production extension
// allows.
func TestOtherModelPartsOf3MF(t *testing.T) {
	root := strings.Replace(modelXML("", `<object id="1"><components><component objectid="1" p:path="/3D/Objects/piece.model" transform="1 0 0 0 1 0 0 0 1 1 2 3"/></components></object>`, `<item objectid="1"/>`),
		"<model", `<model requiredextensions="p" xmlns:p="http://schemas.example.org/3dmanufacturing/production/2015/06"`, 1)
	piece := modelXML("", cube20.meshXML(1), `<item objectid="1"/>`)
	mesh, info, err := read3MF(packed(t, "[Content_Types].xml", "<Types/>", "3D/3dmodel.model", root, "3d/objects/PIECE.model", piece))
	require.NoError(t, err)
	assert.Equal(t, 1, info.Solids)
	assert.Equal(t, geom.Extent{Min: geom.Vec{1, 2, 3}, Max: geom.Vec{21, 22, 23}}, mesh.Extent())

	_, _, err = read3MF(packed(t, "[Content_Types].xml", "<Types/>", "3D/3dmodel.model", root))
	assert.Contains(t, asFileError(t, err).Msg, "refers to the part \"/3D/Objects/piece.model\", which is not there")
	_, _, err = read3MF(packed(t, "[Content_Types].xml", "<Types/>", "3D/3dmodel.model", root, "3D/Objects/piece.model", modelXML(` unit="inch"`, cube20.meshXML(1), "")))
	assert.Contains(t, asFileError(t, err).Msg, "have different units")
	_, _, err = read3MF(packed(t, "[Content_Types].xml", "<Types/>", "3D/3dmodel.model", root, "3D/Objects/piece.model", strings.Replace(root, "piece.model", "other.model", 1)))
	assert.Contains(t, asFileError(t, err).Msg, "refers to another model part, which only the first model may do")
}

func TestBad3MFFiles(t *testing.T) {
	cube := cube20.meshXML(1)
	item := `<item objectid="1"/>`
	model := modelXML("", cube, item)
	edit := func(old, by string) []byte {
		return package3MF(t, strings.Replace(model, old, by, 1))
	}
	place := func(transform string) []byte {
		return package3MF(t, modelXML("", cube, `<item objectid="1" transform="`+transform+`"/>`))
	}
	whole := package3MF(t, model)
	tests := []struct {
		name string
		in   []byte
		want string
	}{
		{"empty", nil, "not a 3MF file, which is a zip archive, or cut off"},
		{"no zip", []byte("solid cube"), "not a 3MF file, which is a zip archive, or cut off"},
		{"cut off", whole[:len(whole)-10], "not a 3MF file, which is a zip archive, or cut off"},
		{"another zip", packed(t, "word/document.xml", "<a/>"), "a zip archive, but not a 3MF file: it has no part [Content_Types].xml"},
		{"no model", packed(t, "[Content_Types].xml", "<Types/>"), "the package has no model: there is no part \"3d/3dmodel.model\""},
		{"a part twice", packed(t, "[Content_Types].xml", "<Types/>", "3D/3dmodel.model", model, "3d/3DMODEL.model", model), "the archive holds \"3d/3dmodel.model\" twice"},
		{"not XML", package3MF(t, "solid cube"), "ends too early"},
		{"other XML", package3MF(t, "<svg/>"), "begins with the element \"svg\", not with \"model\""},
		{"other namespace", edit("core/2015/02", "core/2025/02"), "expected one that ends in /3dmanufacturing/core/2015/02"},
		{"cut off in the model", package3MF(t, model[:len(model)/2]), "can't be read: XML syntax error"},
		{"two roots", package3MF(t, model+"<model/>"), "has something after its end"},
		{"unknown unit", edit("<model", `<model unit="cubit"`), "has the unit \"cubit\"; expected micron, millimeter, centimeter, meter, inch or foot"},
		{"unknown extension", edit("<model", `<model requiredextensions="b" xmlns:b="http://schemas.example.org/3dmanufacturing/beamlattice/2017/02"`), "needs the extension \"http://schemas.example.org/3dmanufacturing/beamlattice/2017/02\", which is not read"},
		{"lattice", edit("</triangles>", "</triangles><beamlattice/>"), "has an element \"beamlattice\" in an object, which is not read"},
		{"shape", edit("<mesh>", "<booleanshape/><mesh>"), "has an element \"booleanshape\" in an object"},
		{"document type", edit("<model", "<!DOCTYPE model SYSTEM \"http://example.org/x.dtd\"><model"), "has a document type declaration (DTD), which a 3MF file may not have"},
		{"entity from outside", edit("<model", "<!DOCTYPE model [<!ENTITY x SYSTEM \"file:///etc/passwd\">]><model"), "has a document type declaration (DTD)"},
		{"unknown entity", edit(`name="piece 1"`, `name="&x;"`), "invalid character entity &x;"},
		{"UTF-16", edit("UTF-8", "UTF-16"), "can't be read: xml: encoding \"UTF-16\" declared"},
		{"nothing built", package3MF(t, modelXML("", cube, "")), "builds nothing: its build lists no item"},
		{"only an empty object built", package3MF(t, modelXML("", `<object id="1"/>`, item)), "builds no solid with facets"},
		{"unknown object", edit(`<item objectid="1"`, `<item objectid="7"`), "refers to object \"7\", which is not there, or not before it"},
		{"object within itself", package3MF(t, modelXML("", `<object id="1"><components><component objectid="1"/></components></object>`, item)), "refers to object \"1\", which is not there, or not before it"},
		{"object twice", package3MF(t, modelXML("", cube+cube, item)), "has an object whose id \"1\" is missing or there twice"},
		{"object without id", edit(`id="1"`, ""), "has an object whose id \"\" is missing"},
		{"no x", edit(` x="0"`, ""), "has a vertex whose x, \"\", is not a number"},
		{"nan", edit(`y="0"`, `y="nan"`), "has a vertex whose y, \"nan\", is not a finite number"},
		{"vertex that is not there", edit(`v2="1"`, `v2="36"`), "has a triangle whose v2, \"36\", is none of the 36 vertices, numbered from 0"},
		{"negative vertex", edit(`v2="1"`, `v2="-1"`), "has a triangle whose v2, \"-1\", is none of"},
		{"eleven numbers", place("1 0 0 0 1 0 0 0 1 0 0"), "has a transform that has 11 numbers, not 12"},
		{"no number", place("1 0 0 0 1 0 0 0 1 0 0 x"), "has a transform that has the number \"x\", which is not a number"},
		{"flattened", place("1 0 0 0 1 0 0 0 0 0 0 0"), "has a transform that flattens the object: its determinant is 0"},
		{"flattened though turned", place("1 1 0 2 2 0 0 0 1 0 0 0"), "flattens the object"},
		{"beyond any drawing", place("1e11 0 0 0 1 0 0 0 1 0 0 0"), "places a vertex of object \"1\" where its x is 2e+12, beyond any drawing"},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			mesh, info, err := read3MF(tt.in)
			fault := asFileError(t, err)
			assert.Contains(t, fault.Msg, tt.want)
			assert.Zero(t, mesh)
			assert.Zero(t, info)
		})
	}
	_, _, err := read3MF(edit(`v2="1"`, `v2="36"`))
	assert.Equal(t, 42, asFileError(t, err).Line, "the line in the model: 5 before the vertices, 36 of them, the triangles' own")
}

// Small files that would grow without end.
func TestBombsIn3MF(t *testing.T) {
	lots := strings.Repeat(" ", 80<<20)
	tag := `<object id="` + strings.Repeat("1", 2<<20) + `"/>`
	deep := strings.Repeat("<a>", 200)
	// Each object holds the one before ten times: 10^9 cubes from a few lines.
	var nested strings.Builder
	nested.WriteString(cube20.meshXML(1))
	for id := 2; id <= 10; id++ {
		fmt.Fprintf(&nested, `<object id="%d"><components>%s</components></object>`, id, strings.Repeat(fmt.Sprintf(`<component objectid="%d"/>`, id-1), 10))
	}
	var chain strings.Builder
	chain.WriteString(cube20.meshXML(1))
	for id := 2; id <= 200; id++ {
		fmt.Fprintf(&chain, `<object id="%d"><components><component objectid="%d"/></components></object>`, id, id-1)
	}
	spaced := strings.Repeat("<!-- "+strings.Repeat("x", 100_000)+" -->", 800)
	tests := []struct {
		name, model string
		lim         geom.Limits
		want        string
	}{
		{"blanks", modelXML("", lots, ""), geom.Limits{}, "has a tag or a text of more than 1048576 bytes"},
		{"comments", modelXML("", spaced, ""), geom.Limits{}, "is more than 250 times as large as its archive once it is unpacked"},
		{"one tag", modelXML("", tag, ""), geom.Limits{}, "has a tag or a text of more than 1048576 bytes"},
		{"deep tags", modelXML("", deep, ""), geom.Limits{}, "has elements more than 100 deep"},
		{"objects within objects", modelXML("", nested.String(), `<item objectid="10"/>`), geom.Limits{Triangles: 100_000}, "more triangles than the limit of 100000"},
		{"a long chain", modelXML("", chain.String(), `<item objectid="200"/>`), geom.Limits{}, "has objects within objects more than 100 deep"},
		{"empty objects within objects", modelXML("", strings.Replace(nested.String(), cube20.meshXML(1), `<object id="1"/>`, 1), `<item objectid="10"/>`), geom.Limits{}, "builds no solid with facets"},
		{"more than the limit", modelXML("", cube20.meshXML(1), `<item objectid="1"/>`), geom.Limits{Bytes: 1200}, "is larger than the limit once it is unpacked"},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			_, _, err := geom.Read3MF(bytes.NewReader(package3MF(t, tt.model)), tt.lim)
			assert.Contains(t, asFileError(t, err).Msg, tt.want)
		})
	}
}

// A part whose bytes were changed does not pass: the archive has a check sum.
func TestDamaged3MFIsRefused(t *testing.T) {
	var out bytes.Buffer
	w := zip.NewWriter(&out)
	for _, part := range [][2]string{{"[Content_Types].xml", "<Types/>"}, {"3D/3dmodel.model", modelXML("", cube20.meshXML(1), `<item objectid="1"/>`)}} {
		f, err := w.CreateHeader(&zip.FileHeader{Name: part[0], Method: zip.Store})
		require.NoError(t, err)
		_, err = f.Write([]byte(part[1]))
		require.NoError(t, err)
	}
	require.NoError(t, w.Close())
	_, _, err := read3MF(out.Bytes())
	require.NoError(t, err, "stored, not packed")
	_, _, err = read3MF(bytes.Replace(out.Bytes(), []byte(`x="20"`), []byte(`x="21"`), 1))
	assert.Contains(t, asFileError(t, err).Msg, "checksum error")
}
