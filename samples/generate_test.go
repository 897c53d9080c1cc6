package samples_test

import (
	"bytes"
	"flag"
	"math"
	"os"
	"testing"

	"github.com/go-gl/mathgl/mgl64"
	"github.com/hschendel/stl"
	"github.com/stretchr/testify/require"

	"plumbhook/geom"
)

var update = flag.Bool("update", false, "rewrite the files that are made here")

// TestGearboxHousingIsAsGenerated makes the mesh of the gearbox sample and
// compares it with the file in this folder, byte for byte.
func TestGearboxHousingIsAsGenerated(t *testing.T) {
	const name = "gearbox-housing.stl"
	file := binarySTL(t, housing(t))
	if *update {
		require.NoError(t, os.WriteFile(name, file, 0o644))
	}
	committed, err := os.ReadFile(name)
	require.NoError(t, err)
	require.True(t, bytes.Equal(file, committed), "%s is not as generated: run go test ./samples -update and look at the difference", name)
}

// TestGearboxHousingIsSound looks at the committed file as any mesh is looked at.
func TestGearboxHousingIsSound(t *testing.T) {
	f, err := os.Open("gearbox-housing.stl")
	require.NoError(t, err)
	defer f.Close()
	mesh, info, err := geom.ReadSTL(f, geom.Limits{})
	require.NoError(t, err)
	require.True(t, info.Binary)
	health := geom.Examine(mesh)
	require.True(t, health.Sound(), "%v", health.Faults())
	require.Equal(t, 1, health.Shells)
}

// housing is a frame with feet, open at both ends, drawn out 420 mm along the
// shafts (y). Its section, in mm from the underside of the feet: a body of
// 960 × 620 on feet of 1100 × 60, around a hollow that is 500 high between two
// half circles 360 apart.
func housing(t *testing.T) geom.Mesh {
	outline := []mgl64.Vec2{{0, 0}, {1100, 0}, {1100, 60}, {1030, 60}, {1030, 680}, {70, 680}, {70, 60}, {0, 60}}
	section, err := geom.NewPolygon(outline, [][]mgl64.Vec2{hollow()}, 420)
	require.NoError(t, err)
	// Stood up, the section's y is z and its length runs along −y from the
	// back face: the pose brings the front face to y = 0.
	stood := geom.Pose{Turn: geom.TurnAbout(0, math.Pi/2), Move: geom.Vec{0, 420, 0}}
	return section.Mesh(0).Posed(stood)
}

// hollow goes round the inside: two half circles of 24 sides each, radius 250,
// about (370, 370) and (730, 370). Thousandths of a millimetre are enough, and
// give the same file on every machine.
func hollow() []mgl64.Vec2 {
	const sides, radius = 24, 250
	var ring []mgl64.Vec2
	for i := range sides + 1 {
		sin, cos := math.Sincos(math.Pi * (float64(i)/sides - 0.5))
		ring = append(ring, mgl64.Vec2{730 + thousandths(radius*cos), 370 + thousandths(radius*sin)})
	}
	for _, right := range ring {
		ring = append(ring, mgl64.Vec2{1100 - right[0], 740 - right[1]})
	}
	return ring
}

func thousandths(x float64) float64 { return math.Round(x*1000) / 1000 }

// binarySTL writes a mesh in mm as binary STL.
func binarySTL(t *testing.T, m geom.Mesh) []byte {
	var s stl.Solid
	s.SetBinaryHeader([]byte("gearbox housing, mm"))
	for face := range m.Faces {
		a, b, c := m.Triangle(face)
		normal := b.Sub(a).Cross(c.Sub(a)).Normalize()
		s.AppendTriangle(stl.Triangle{Normal: single(normal), Vertices: [3]stl.Vec3{single(a), single(b), single(c)}})
	}
	var out bytes.Buffer
	require.NoError(t, s.WriteAll(&out))
	return out.Bytes()
}

// single rounds to thousandths, so that no machine's last digit is in the file,
// and has no negative zero.
func single(v geom.Vec) stl.Vec3 {
	var out stl.Vec3
	for i := range out {
		out[i] = float32(thousandths(v[i])) + 0
	}
	return out
}
