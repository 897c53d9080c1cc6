package takeoff

import (
	"bytes"
	"crypto/sha256"
	"encoding/hex"
	"fmt"
	"math"
	"strings"
	"testing"
	"testing/fstest"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"plumbhook/geom"
	"plumbhook/units"
)

// cubeSTL writes a cube from the origin to (side, side, side) as a text STL.
func cubeSTL(name string, side float64) string { return meshSTL(name, cube(side)) }

func cube(side float64) geom.Mesh {
	box, err := geom.NewBox(side, side, side)
	if err != nil {
		panic(err)
	}
	return box.Mesh(1).Posed(geom.Still().Shifted(geom.Vec{side / 2, side / 2, 0}))
}

func meshSTL(name string, m geom.Mesh) string {
	var b strings.Builder
	fmt.Fprintf(&b, "solid %s\n", name)
	for i := range m.Faces {
		b.WriteString("facet normal 0 0 0\nouter loop\n")
		p, q, r := m.Triangle(i)
		for _, v := range []geom.Vec{p, q, r} {
			fmt.Fprintf(&b, "vertex %g %g %g\n", v[0], v[1], v[2])
		}
		b.WriteString("endloop\nendfacet\n")
	}
	fmt.Fprintf(&b, "endsolid %s\n", name)
	return b.String()
}

func file(text string) *fstest.MapFile { return &fstest.MapFile{Data: []byte(text)} }

const meshPart = "- name: bracket\n  mesh: meshes/a.stl\n  units: mm\n  at: [1000, 0, 0]\n"

func TestMeshPart(t *testing.T) {
	stl := cubeSTL("a", 1000)
	text := head + meshPart + "  count: 2\n  step: [0, 2000, 0]\n- name: again\n  mesh: ./meshes/a.stl\n  units: mm\n  center: [0, 0, 0]\n  along: x\n"
	fsys := fstest.MapFS{"job/load.yaml": file(text), "job/meshes/a.stl": file(stl)}
	l, err := Read(fsys, "job/load.yaml", Options{})
	require.NoError(t, err)
	w, err := l.Weigh()
	require.NoError(t, err)
	// A cubic metre of steel is 7850 kg at the nominal density of EN 10365.
	assert.InDelta(t, 3*7850, float64(w.Best), 1e-6)
	near3(t, geom.Vec{1.5, 1.5, 0.5}, w.Parts[0].CG, 1e-12, "CG, its own origin at 1000, 0, 0")
	near3(t, geom.Vec{}, w.Parts[1].CG, 1e-12, "CG, centred")
	sum := sha256.Sum256([]byte(text + stl)) // the mesh once, although it is named twice
	assert.Equal(t, hex.EncodeToString(sum[:]), l.SHA256)
}

func TestMeshWithoutUnit(t *testing.T) {
	_, err := readText(head+"- {name: a, mesh: a.stl, at: [0, 0, 0]}\n", fstest.MapFS{"a.stl": file(cubeSTL("a", 100))})
	var p Problems
	require.ErrorAs(t, err, &p)
	require.Len(t, p, 1)
	assert.Equal(t, 5, p[0].Line)
	assert.Contains(t, p[0].Text, "no unit")
	assert.Contains(t, p[0].Fix, "`units: mm`")
}

func TestUnsoundMeshIsRefusedUnlessAccepted(t *testing.T) {
	open := cube(1000)
	open.Faces = open.Faces[1:]
	inside := cube(1000)
	for i, f := range inside.Faces {
		inside.Faces[i] = [3]int{f[0], f[2], f[1]}
	}
	turned := cube(1000) // one facet faces the wrong side, and one is there twice
	turned.Faces[3][0], turned.Faces[3][1] = turned.Faces[3][1], turned.Faces[3][0]
	turned.Faces = append(turned.Faces, turned.Faces[5])
	flat := cube(1000)
	flat.Faces = flat.Faces[:2]
	two := cubeSTL("a", 1000) + meshSTL("b", cube(1000).Posed(geom.Still().Shifted(geom.Vec{2000, 0, 0})))
	tests := []struct {
		name, stl, fault string
		accepted         float64 // kg, if accepted; 0: never
		mended           string  // what is told of the mending, if it makes the mesh sound
	}{
		{"open", meshSTL("a", open), "not closed", 7850, ""},
		{"inside out", meshSTL("a", inside), "inside out", 7850, "1 of 1 surface was turned over"},
		{"facets turned and double", meshSTL("a", turned), "folded", 7850, "1 facet was left out that repeated another; 1 facet was turned over"},
		{"flat", meshSTL("a", flat), "no volume", 0, ""},
		{"two solids", two, "holds 2 solids", 2 * 7850, ""},
		{"cut short", cubeSTL("a", 1000)[:400], "can't be read: line", 0, ""},
		{"no mesh", "hello", "can't be read", 0, ""},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			files := fstest.MapFS{"meshes/a.stl": file(tt.stl)}
			_, err := readText(head+meshPart, files)
			var p Problems
			require.ErrorAs(t, err, &p)
			assert.Equal(t, 6, p[0].Line, "at the mesh")
			assert.Contains(t, p[0].Text, tt.fault)
			assert.NotEmpty(t, p[0].Fix)
			assert.Equal(t, tt.mended != "", strings.Contains(p[0].Fix, "with --accept-mesh it is mended"), p[0].Fix)
			assert.Contains(t, p[0].Fix, tt.mended)

			l, err := ReadFrom(strings.NewReader(head+meshPart), "load.yaml", files, Options{As: "yaml", AcceptMesh: true})
			if tt.accepted == 0 {
				require.Error(t, err)
				return
			}
			require.NoError(t, err)
			w, err := l.Weigh()
			require.NoError(t, err)
			if tt.mended != "" {
				assert.Empty(t, l.Parts[0].Suspect)
				assert.Contains(t, codes(l.Warnings), "mesh-mended")
				assert.Contains(t, l.Warnings[0].Text, tt.mended)
				assert.InDelta(t, tt.accepted, float64(w.Best), 1e-6)
				return
			}
			assert.Contains(t, l.Parts[0].Suspect, tt.fault)
			assert.Contains(t, codes(l.Warnings), "mesh-unsound")
			if tt.name == "open" { // the missing half side is worth 1/12 of the cube to either side
				assert.InDelta(t, tt.accepted, float64(w.Best), tt.accepted/6)
				assert.Greater(t, float64(w.High), tt.accepted)
				assert.Contains(t, l.Parts[0].Basis, "doubt about the mesh")
				return
			}
			assert.InDelta(t, tt.accepted, float64(w.Best), 1e-6)
		})
	}
}

func TestOddSizeOfAMesh(t *testing.T) {
	for unit, want := range map[string]string{
		"mm": "the largest side of the mesh is 2 mm",
		"cm": "",
		"m":  "",
		"ft": "",
	} {
		text := strings.Replace(head+meshPart, "units: mm\n  at", "units: "+unit+"\n  at", 1)
		l, err := readText(text, fstest.MapFS{"meshes/a.stl": file(cubeSTL("a", 2))})
		require.NoError(t, err)
		if want == "" {
			assert.NotContains(t, codes(l.Warnings), "mesh-size", unit)
			continue
		}
		require.Contains(t, codes(l.Warnings), "mesh-size", unit)
		assert.Contains(t, l.Warnings[0].Text, want)
		assert.Contains(t, l.Warnings[0].Text, `2.000 m (6' 6-3/4") if in m`)
	}
	_, err := readText(strings.Replace(head+meshPart, "units: mm\n  at", "units: ft\n  at", 1), fstest.MapFS{"meshes/a.stl": file(cubeSTL("a", 1e6))})
	assert.ErrorContains(t, err, "look at its unit")
}

func TestMeshByItself(t *testing.T) {
	fsys := fstest.MapFS{"in/cube.STL": file(cubeSTL("a", 1000))}
	mm, err := units.ParseLengthUnit("mm")
	require.NoError(t, err)
	opt := Options{Material: "steel", MeshUnits: mm}
	l, err := Read(fsys, "in/cube.STL", opt)
	require.NoError(t, err)
	assert.Equal(t, "cube.STL", l.Name)
	w, err := l.Weigh()
	require.NoError(t, err)
	assert.InDelta(t, 7850, float64(w.Best), 1e-6)
	near3(t, geom.Vec{0.5, 0.5, 0.5}, w.CG, 1e-12, "CG")

	opt.As = "stl"
	again, err := ReadFrom(bytes.NewReader(fsys["in/cube.STL"].Data), "-", nil, opt)
	require.NoError(t, err)
	assert.Equal(t, l.SHA256, again.SHA256)

	_, err = Read(fsys, "in/cube.STL", Options{})
	assert.ErrorContains(t, err, "--units mm")
	assert.ErrorContains(t, err, "--material")
	_, err = Read(fsys, "in/cube.STL", Options{Material: "stel", MeshUnits: mm})
	assert.ErrorContains(t, err, "did you mean steel")
	fsys["bad.stl"] = file(cubeSTL("a", 1000)[:300])
	_, err = Read(fsys, "bad.stl", opt)
	assert.ErrorContains(t, err, "bad.stl:")
}

func TestMeshPathsStayInTheFolder(t *testing.T) {
	fsys := fstest.MapFS{"a.stl": file(cubeSTL("a", 1000)), "job/dir.stl/x": file("")}
	for _, path := range []string{"../a.stl", "/a.stl", "x/../../a.stl", ".", "''", "..", "none.stl", "dir.stl"} {
		fsys["job/load.yaml"] = file(head + "- {name: a, mesh: " + path + ", units: mm, at: [0, 0, 0]}\n")
		_, err := Read(fsys, "job/load.yaml", Options{})
		var p Problems
		require.ErrorAs(t, err, &p, path)
		assert.Equal(t, 5, p[0].Line, path)
	}
	_, err := readText(head+meshPart, nil)
	assert.ErrorContains(t, err, "load.yaml:6:9")
	_, err = ReadFrom(strings.NewReader(head+meshPart), "-", nil, Options{As: "yaml"})
	assert.ErrorContains(t, err, "no folder to read it from")
}

func TestCutsInAMesh(t *testing.T) {
	files := fstest.MapFS{"meshes/a.stl": file(cubeSTL("a", 1000))} // from 1000, 0, 0 to 2000, 1000, 1000
	l, err := readText(head+meshPart+"  cuts: [{box: 500 x 500 x 1000, corner: [1000, 0, 0]}, {rod: {diameter: 400}, from: [1500, 700, 0], to: [1500, 700, 1000]}]\n", files)
	require.NoError(t, err)
	w, err := l.Weigh()
	require.NoError(t, err)
	assert.InDelta(t, 1-0.25-0.1256637, w.Volume, 1e-6, "m³; 0.04π = 0.1256637")
	l, err = readText(head+meshPart+"  cuts: [{box: 500 x 500 x 1001, corner: [1000, 0, 0]}]\n", files)
	require.NoError(t, err)
	require.Equal(t, "cut-sticks-out", l.Warnings[0].Code)
	assert.Contains(t, l.Warnings[0].Text, "0.1 % of it lies outside")
	assert.InDelta(t, 0.75, l.Parts[0].Moments().Volume, 1e-12, "m³: the cut ends at the mesh")
	_, err = readText(head+meshPart+"  cuts: [{box: 500 x 500 x 500, corner: [2000, 0, 0]}]\n", files)
	assert.ErrorContains(t, err, "load.yaml:9:10: the cut misses its part")
}

// A round bar of 32 flat sides, 150 in radius: 0.641 % of the round is missing
// (1 − sin(2π/n)/(2π/n), elementary geometry), so that the true weight is on the
// high side only.
func TestFacetsRaiseTheHighSideOnly(t *testing.T) {
	round, err := geom.NewCylinder(300, 700)
	require.NoError(t, err)
	const n = 32
	bar := round.Mesh(150 * (1 - math.Cos(math.Pi/n)) * 1.001)
	l, err := readText(head+"- {mesh: bar.stl, units: mm, at: [0, 0, 0]}\n", fstest.MapFS{"bar.stl": file(meshSTL("bar", bar))})
	require.NoError(t, err)
	p := l.Parts[0]
	missing := 1 - bar.Moments().Volume/round.Moments().Volume
	assert.InDelta(t, missing, p.Faceted, 1e-5)
	assert.InDelta(t, -0.005, p.Low, 1e-12, "spread of the density alone")
	assert.InDelta(t, 1.005/(1-missing)-1, p.High, 2e-5)
	assert.Contains(t, p.Basis, "flat facets leave out about 0.64 %")
	best, _, high := p.Mass()
	assert.Greater(t, float64(high), 7850*round.Moments().Volume*1e-9*1.005*0.9999, "the round bar at its densest")
	assert.Less(t, float64(best), 7850*round.Moments().Volume*1e-9)
}
