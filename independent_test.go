package plumbhook_test

import (
	"bytes"
	"crypto/sha256"
	"encoding/binary"
	"encoding/csv"
	"encoding/hex"
	"flag"
	"math"
	"os"
	"path/filepath"
	"strconv"
	"strings"
	"testing"

	"github.com/go-gl/mathgl/mgl64"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"plumbhook/geom"
	"plumbhook/takeoff"
)

// Two libraries for solids, manifold-3d and @jscad/modeling, have measured the
// files that are read here; see the README.md in this folder.
const meshVolume = "testdata/independent/mesh-volume/"

var writeMeshes = flag.Bool("write-meshes", false, "write "+meshVolume+"meshes/ anew; its results.csv must then be made anew too")

const chord = 0.004 // m, of the meshes

// measured is what a library found in a file: by library and by what.
type measured map[string]map[string]float64

// is returns one figure, and fails where there is none.
func (m measured) is(t *testing.T, library, what string) float64 {
	t.Helper()
	v, ok := m[library][what]
	require.True(t, ok, "results.csv has no %s by %s: run run.mjs again", what, library)
	return v
}

// vec returns three figures, such as those of "centroid x", y and z.
func (m measured) vec(t *testing.T, library, what, bound string) (v geom.Vec) {
	t.Helper()
	for i, axis := range []string{" x", " y", " z"} {
		v[i] = m.is(t, library, what+axis+bound)
	}
	return v
}

// results reads results.csv and holds the files against their hashes: each
// file of the folder must be there, as it was when it was measured.
func results(t *testing.T, folder string) map[string]measured {
	t.Helper()
	text, err := os.ReadFile(meshVolume + "results.csv")
	require.NoError(t, err)
	rows, err := csv.NewReader(bytes.NewReader(text)).ReadAll()
	require.NoError(t, err)
	require.Equal(t, []string{"name", "what", "value", "unit", "library", "version", "input_sha256", "source", "basis"}, rows[0])
	names, err := filepath.Glob(meshVolume + folder + "/*")
	require.NoError(t, err)
	require.NotEmpty(t, names)
	all := map[string]measured{}
	for _, path := range names {
		name, m := filepath.Base(path), measured{}
		content, err := os.ReadFile(path)
		require.NoError(t, err)
		sum := sha256.Sum256(content)
		for _, row := range rows[1:] {
			if row[0] != name {
				continue
			}
			require.Equal(t, hex.EncodeToString(sum[:]), row[6], "%s is not the file that was measured: run run.mjs again", path)
			v, err := strconv.ParseFloat(row[2], 64)
			require.NoError(t, err, row)
			if m[row[4]] == nil {
				m[row[4]] = map[string]float64{}
			}
			m[row[4]][row[1]] = v
		}
		require.NotEmpty(t, m, "results.csv has no rows for %s: run run.mjs", name)
		all[name] = m
	}
	return all
}

// meshed are the solids whose own meshes the libraries have measured.
func meshed(t *testing.T) map[string]geom.Solid {
	t.Helper()
	made := map[string]geom.Solid{}
	add := func(name string, s geom.Solid, err error) {
		require.NoError(t, err, name)
		made[name+".stl"] = s
	}
	box, err := geom.NewBox(2.4, 1.2, 0.02)
	add("box", box, err)
	cylinder, err := geom.NewCylinder(0.3, 0.8)
	add("cylinder", cylinder, err)
	tube, err := geom.NewTube(0.5, 0.02, 1.5)
	add("tube", tube, err)
	cone, err := geom.NewCone(0.6, 0.25, 0.5)
	add("cone", cone, err)
	leaning, err := geom.NewConeShell(0.6, 0.3, 0.5, 0.03, 0.15)
	add("cone-shell", leaning, err)
	ball, err := geom.NewSphere(0.4, 0.05)
	add("hollow-ball", ball, err)
	half, err := geom.NewHemisphere(0.4, 0.08)
	add("hemisphere", half, err)
	pyramid, err := geom.NewPyramid(0.8, 0.5, 0.3, 0.4, 0.6)
	add("pyramid", pyramid, err)
	prism, err := geom.NewPrism(0.6, 0.2, 0.4, 0.9)
	add("prism", prism, err)
	ring, err := geom.NewRing(0.5, 0.12)
	add("ring", ring, err)
	bend, err := geom.NewBend(0.22, 0.02, 0.3, math.Pi/3)
	add("bend", bend, err)
	head, err := geom.NewHead(geom.HeadSize{Form: geom.Ellipsoidal(2), Inside: 0.5, Wall: 0.03, Flange: 0.05})
	add("head", head, err)
	plate, err := geom.NewExtrusion(geom.Straight([]mgl64.Vec2{{0, 0}, {0.9, 0}, {0.9, 0.2}, {0.3, 0.25}, {0.2, 0.7}, {0, 0.7}}),
		[]geom.Outline{geom.Circle(mgl64.Vec2{0.1, 0.5}, 0.1), geom.Circle(mgl64.Vec2{0.6, 0.1}, 0.12)}, 0.03)
	add("gusset", plate, err)
	wheel, err := geom.NewRevolve(geom.Straight([]mgl64.Vec2{{0.05, 0}, {0.3, 0.02}, {0.3, 0.1}, {0.12, 0.08}, {0.05, 0.2}}), 1.5*math.Pi)
	add("revolve", wheel, err)
	return made
}

// askew stands a solid turned about all axes and away from the datum.
var askew = geom.Pose{
	Turn: geom.TurnAbout(2, 0.5).Mul3(geom.TurnAbout(1, -0.8)).Mul3(geom.TurnAbout(0, 0.3)),
	Move: geom.Vec{1.5, -0.7, 2.25},
}

// stl writes a mesh as a binary STL, the normals left out.
func stl(m geom.Mesh) []byte {
	out := binary.LittleEndian.AppendUint32(make([]byte, 80), uint32(len(m.Faces)))
	for i := range m.Faces {
		out = append(out, make([]byte, 12)...)
		a, b, c := m.Triangle(i)
		for _, v := range []geom.Vec{a, b, c} {
			for _, x := range v {
				out = binary.LittleEndian.AppendUint32(out, math.Float32bits(float32(x)))
			}
		}
		out = append(out, 0, 0)
	}
	return out
}

// TestMeshesAsLibrariesMeasureThem holds the meshes' volume, area, centroid and
// extent to what two libraries find in the same files. Both read the same
// 32-bit numbers and reckon with 64 bits; what is left is rounding.
func TestMeshesAsLibrariesMeasureThem(t *testing.T) {
	solids := meshed(t)
	if *writeMeshes {
		for name, s := range solids {
			require.NoError(t, os.WriteFile(meshVolume+"meshes/"+name, stl(s.Mesh(chord).Posed(askew)), 0o644))
		}
		t.Skip("meshes written: now run run.mjs")
	}
	all := results(t, "meshes")
	require.Len(t, all, len(solids))
	for name, found := range all {
		file, err := os.Open(meshVolume + "meshes/" + name)
		require.NoError(t, err)
		m, _, err := geom.ReadSTL(file, geom.Limits{})
		require.NoError(t, err, name)
		require.NoError(t, file.Close())
		moments, extent := m.Moments(), m.Extent()
		for _, library := range []string{"manifold-3d", "@jscad/modeling"} {
			assert.InEpsilon(t, found.is(t, library, "volume"), moments.Volume, roundOff, "%s: volume, m³, %s", name, library)
			assert.InEpsilon(t, found.is(t, library, "area"), m.Area(), roundOff, "%s: area, m², %s", name, library)
		}
		apart(t, found.vec(t, "@jscad/modeling", "centroid", ""), moments.Centroid(), roundOff, name+": centroid")
		assert.Equal(t, found.vec(t, "manifold-3d", "min", ""), extent.Min, name)
		assert.Equal(t, found.vec(t, "manifold-3d", "max", ""), extent.Max, name)

		// The solid itself. Flat sides: what 32 bits leave of a plate of 20 mm
		// at 3 m from the datum. Round ones: what chords of 4 mm leave out.
		tol := 0.04
		if len(m.Faces) == 12 {
			tol = 2e-6
		}
		exact := solids[name].Moments().Posed(askew)
		assert.InEpsilon(t, found.is(t, "manifold-3d", "volume"), exact.Volume, tol, "%s: closed form, m³", name)
	}
}

// roundOff is what two orders of adding up may differ by.
const roundOff = 1e-12

// apart holds two places against each other, in metres.
func apart(t *testing.T, want, got geom.Vec, tol float64, what string) {
	t.Helper()
	for i, axis := range "xyz" {
		assert.InDelta(t, want[i], got[i], tol, "%s %c", what, axis)
	}
}

// TestCutsAndOverlapsAsALibraryCutsThem holds what cuts leave, what parts have
// in common and what they fill together to the solids that manifold-3d makes
// of the same load files. Its rounds have flat sides, so each solid was made
// twice, within the true one and around it, and the true volume lies between;
// the sampled one may be out by its stated doubt.
func TestCutsAndOverlapsAsALibraryCutsThem(t *testing.T) {
	for name, found := range results(t, "loads") {
		load, err := takeoff.Read(os.DirFS(meshVolume+"loads"), name, takeoff.Options{})
		require.NoError(t, err, name)
		w, err := load.Weigh()
		require.NoError(t, err, name)
		volume, doubt := w.Volume, float64(w.High-w.Best)/1000 // of metal of 1000 kg/m³ ± 0 %
		apiece := strings.HasPrefix(name, "overlap-")
		if apiece {
			require.Len(t, load.Overlaps, 1, name)
			o := load.Overlaps[0]
			within(t, found, "common", o.Volume, o.Doubt, 5e-3, name)
			assert.Less(t, o.Doubt, 0.05*o.Volume, "%s: the doubt says something", name)
			volume, doubt = volume-o.Volume, doubt+o.Doubt
		} else {
			require.Empty(t, load.Overlaps, name)
		}
		within(t, found, "union", volume, doubt, 1e-4, name)
		assert.Less(t, doubt, 0.002*volume, "%s: the doubt says something", name)
		if apiece {
			continue // its CG is that of both parts, the common metal counted twice
		}
		low, high := found.vec(t, "@jscad/modeling", "centroid", " low"), found.vec(t, "@jscad/modeling", "centroid", " high")
		tol := low.Sub(high).Len() + doubt/volume*w.Extent.Diagonal()
		apart(t, low.Add(high).Mul(0.5), w.CG, tol, name+": centroid")
		assert.Less(t, tol, 1e-4, name)
	}
}

// within holds a volume to the two bounds of the library, m³, and to a part of
// their middle: what was measured, and some, is far less than the doubt.
func within(t *testing.T, found measured, what string, got, doubt, part float64, name string) {
	t.Helper()
	low, high := found.is(t, "manifold-3d", what+" low"), found.is(t, "manifold-3d", what+" high")
	slack := doubt + roundOff*high
	assert.LessOrEqual(t, low-slack, got, "%s: %s", name, what)
	assert.LessOrEqual(t, got, high+slack, "%s: %s", name, what)
	assert.InEpsilon(t, (low+high)/2, got, part, "%s: %s", name, what)
}
