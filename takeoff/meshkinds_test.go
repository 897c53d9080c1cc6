package takeoff

import (
	"archive/zip"
	"bytes"
	"fmt"
	"strings"
	"testing"
	"testing/fstest"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"plumbhook/units"
)

// corners and sides of a cube with side 2, whatever the unit.
var (
	cubeCorners = [][3]int{{0, 0, 0}, {2, 0, 0}, {2, 2, 0}, {0, 2, 0}, {0, 0, 2}, {2, 0, 2}, {2, 2, 2}, {0, 2, 2}}
	cubeSides   = [][4]int{{0, 3, 2, 1}, {4, 5, 6, 7}, {0, 1, 5, 4}, {1, 2, 6, 5}, {2, 3, 7, 6}, {3, 0, 4, 7}}
)

func cubeOBJ() []byte {
	var b strings.Builder
	for _, v := range cubeCorners {
		fmt.Fprintf(&b, "v %d %d %d\n", v[0], v[1], v[2])
	}
	for _, f := range cubeSides {
		fmt.Fprintf(&b, "f %d %d %d %d\n", f[0]+1, f[1]+1, f[2]+1, f[3]+1)
	}
	return []byte(b.String())
}

func cubePLY() []byte {
	var b strings.Builder
	b.WriteString("ply\nformat ascii 1.0\nelement vertex 8\nproperty float x\nproperty float y\nproperty float z\n" +
		"element face 6\nproperty list uchar int vertex_indices\nend_header\n")
	for _, v := range cubeCorners {
		fmt.Fprintf(&b, "%d %d %d\n", v[0], v[1], v[2])
	}
	for _, f := range cubeSides {
		fmt.Fprintf(&b, "4 %d %d %d %d\n", f[0], f[1], f[2], f[3])
	}
	return []byte(b.String())
}

func cube3MF(t *testing.T, unit string) []byte {
	var b strings.Builder
	fmt.Fprintf(&b, `<?xml version="1.0"?><model unit="%s" xmlns="http://example.org/3dmanufacturing/core/2015/02"><resources><object id="1" type="model"><mesh><vertices>`, unit)
	for _, v := range cubeCorners {
		fmt.Fprintf(&b, `<vertex x="%d" y="%d" z="%d"/>`, v[0], v[1], v[2])
	}
	b.WriteString(`</vertices><triangles>`)
	for _, f := range cubeSides {
		fmt.Fprintf(&b, `<triangle v1="%d" v2="%d" v3="%d"/><triangle v1="%d" v2="%d" v3="%d"/>`, f[0], f[1], f[2], f[0], f[2], f[3])
	}
	b.WriteString(`</triangles></mesh></object></resources><build><item objectid="1"/></build></model>`)
	var out bytes.Buffer
	z := zip.NewWriter(&out)
	for name, text := range map[string]string{
		"[Content_Types].xml": `<?xml version="1.0"?><Types xmlns="http://schemas.openxmlformats.org/package/2006/content-types"/>`,
		"3D/3dmodel.model":    b.String(),
	} {
		w, err := z.Create(name)
		require.NoError(t, err)
		_, err = w.Write([]byte(text))
		require.NoError(t, err)
	}
	require.NoError(t, z.Close())
	return out.Bytes()
}

// A cube of side 2 in each format: 8 cubic feet or inches or whatever its unit
// is, at 7850 kg/m³. Volumes by hand: 8 ft³ = 0.226535 m³, 1778.3 kg; 8 in³ =
// 1.31097e-4 m³, 1.02911 kg.
func TestMeshesOfEveryKind(t *testing.T) {
	files := fstest.MapFS{
		"cube.obj": {Data: cubeOBJ()}, "cube.ply": {Data: cubePLY()}, "cube.3mf": {Data: cube3MF(t, "inch")},
	}
	load := func(mesh, units string) (*Load, error) {
		files["load.yaml"] = &fstest.MapFile{Data: []byte("load: cube\nmaterial: structural steel\nparts:\n  - {name: cube, mesh: " + mesh + units + ", at: [0 m, 0 m, 0 m]}\n")}
		return Read(files, "load.yaml", Options{})
	}
	for _, tt := range []struct {
		mesh, units string
		want        float64
	}{
		{"cube.obj", ", units: ft", 1778.3}, {"cube.ply", ", units: ft", 1778.3},
		{"cube.3mf", "", 1.02911}, {"cube.3mf", ", units: in", 1.02911},
	} {
		l, err := load(tt.mesh, tt.units)
		require.NoError(t, err, tt.mesh)
		w, err := l.Weigh()
		require.NoError(t, err)
		assert.InEpsilon(t, tt.want, float64(w.Best), 2e-5, "%s%s", tt.mesh, tt.units)
	}
	for _, tt := range []struct{ mesh, units, text string }{
		{"cube.obj", "", "the mesh has no unit"},
		{"cube.3mf", ", units: mm", "the file says that one unit is"},
	} {
		_, err := load(tt.mesh, tt.units)
		var problems Problems
		require.ErrorAs(t, err, &problems)
		require.Len(t, problems, 1)
		assert.Contains(t, problems[0].Text, tt.text)
		assert.Equal(t, 4, problems[0].Line)
	}
}

// The same straight from the command line: a 3MF knows its unit, an OBJ does not.
func TestLoneMeshesOfEveryKind(t *testing.T) {
	files := fstest.MapFS{"cube.obj": {Data: cubeOBJ()}, "cube.3mf": {Data: cube3MF(t, "foot")}}
	l, err := Read(files, "cube.3mf", Options{Material: "steel"})
	require.NoError(t, err)
	w, err := l.Weigh()
	require.NoError(t, err)
	assert.InEpsilon(t, 1778.3, float64(w.Best), 2e-5)
	_, err = Read(files, "cube.obj", Options{Material: "steel"})
	assert.ErrorContains(t, err, "--units")
	feet, err := units.ParseLengthUnit("ft")
	require.NoError(t, err)
	l, err = Read(files, "cube.obj", Options{Material: "steel", MeshUnits: feet})
	require.NoError(t, err)
	w, err = l.Weigh()
	require.NoError(t, err)
	assert.InEpsilon(t, 1778.3, float64(w.Best), 2e-5)
}
