package geom

import (
	"bytes"
	"encoding/binary"
	"math"
	"math/rand/v2"
	"slices"
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

// damaged takes facets away, turns them over, doubles them, and moves corners.
func damaged(rt *rapid.T, file []byte) []byte {
	file = slices.Clone(file)
	for range rapid.IntRange(0, 6).Draw(rt, "damages") {
		body := file[binaryHeader:]
		n := len(body) / binaryTriangle
		at := rapid.IntRange(0, n-1).Draw(rt, "facet")
		facet := body[at*binaryTriangle:][:binaryTriangle]
		switch rapid.SampledFrom([]string{"drop", "turn", "double", "move", "collapse", "other"}).Draw(rt, "damage") {
		case "drop":
			copy(facet, body[(n-1)*binaryTriangle:])
			file = file[:len(file)-binaryTriangle]
		case "turn":
			a := slices.Clone(facet[12:24])
			copy(facet[12:24], facet[24:36])
			copy(facet[24:36], a)
		case "double":
			file = append(file, facet...)
		case "move":
			copy(facet[36:48], body[:12])
		case "collapse":
			copy(facet[36:48], facet[12:24])
		case "other": // a fin on an edge
			fin := slices.Clone(facet)
			binary.LittleEndian.PutUint32(fin[36:], math.Float32bits(9))
			file = append(file, fin...)
		}
	}
	binary.LittleEndian.PutUint32(file[80:], uint32((len(file)-binaryHeader)/binaryTriangle))
	return file
}

// Whatever is wrong with a file, the two ways find the same; and the edges are
// counted as Examine counts them, in any order of facets.
func TestTwoWaysAgree(t *testing.T) {
	whole := binarySTL(ringMesh(600), Vec{3, 4, 5})
	rapid.Check(t, func(rt *rapid.T) {
		file := damaged(rt, whole)
		mesh, info, err := ReadMesh(bytes.NewReader(file), "stl", Limits{})
		require.NoError(t, err)
		h := Examine(mesh)
		require.Empty(t, info.Streamed.Against(mesh, h))
		again, err := MeasureSTL(bytes.NewReader(shuffled(file)), MeasureOptions{CountEdges: true})
		require.NoError(t, err)
		require.Equal(t, info.Streamed.Edges, again.Edges)
		require.Equal(t, again.Closed, again.Edges == nil)
		if h.Duplicate == 0 && h.Welded == 0 && !again.Closed {
			require.Equal(t, EdgeCounts{h.OpenEdges, h.MisorientedEdges, h.OverusedEdges, h.UnbalancedEdges}, *again.Edges)
		}
	})
}

// Each thing that can go wrong between the two ways is told.
func TestTwoWaysDisagree(t *testing.T) {
	file := binarySTL(ringMesh(600), Vec{3, 4, 5})
	mesh, info, err := ReadMesh(bytes.NewReader(file), "stl", Limits{})
	require.NoError(t, err)
	whole := Examine(mesh)
	require.Empty(t, info.Streamed.Against(mesh, whole))
	for want, wrong := range map[string]func(m *Mesh, h *Health, d *Measured){
		"facets in the file":  func(_ *Mesh, h *Health, _ *Measured) { h.Triangles-- },
		"the box of the file": func(m *Mesh, _ *Health, _ *Measured) { m.Vertices[0][0] = 99 },
		"a volume of":         func(_ *Mesh, _ *Health, d *Measured) { d.About.Volume *= 1 + 1e-9 },
		"the moments":         func(_ *Mesh, _ *Health, d *Measured) { d.About.Second[4] *= 1 + 1e-9 },
		"the file is closed":  func(_ *Mesh, h *Health, _ *Measured) { h.OpenEdges = 1 },
		"edges that do not fit": func(_ *Mesh, h *Health, d *Measured) {
			h.OpenEdges, d.Closed, d.Edges = 2, false, &EdgeCounts{Open: 1}
		},
	} {
		m, h, d := Mesh{Vertices: slices.Clone(mesh.Vertices), Faces: mesh.Faces}, whole, *info.Streamed
		wrong(&m, &h, &d)
		require.Contains(t, d.Against(m, h), want)
	}
}

// The memory of the edge count, all that was ever allocated: 28 bytes a triangle,
// and what two workers keep beside.
func TestEdgeCountMemory(t *testing.T) {
	file := binarySTL(ringMesh(400_000), Vec{})
	f, err := openSTL(bytes.NewReader(file), Limits{}.orDefault())
	require.NoError(t, err)
	src := binaryFacets{f, (len(file) - binaryHeader) / binaryTriangle}
	used := testing.Benchmark(func(b *testing.B) {
		b.ReportAllocs()
		for b.Loop() {
			_, err = src.edges()
		}
	}).AllocedBytesPerOp()
	require.NoError(t, err)
	beside := int64(workersFor(src.runs())) * (edgeBuckets*(edgeBlock*8+24*8) + 1<<20)
	require.Less(t, used, 28*int64(src.count)+beside)
}

// Needles and facets without area, where nothing but rounding is left to sum.
func TestTwoWaysAgreeOnNeedles(t *testing.T) {
	dice := rand.New(rand.NewPCG(4, 9))
	for _, thick := range []float64{0, 1e-9, 1e-5} {
		m := Mesh{}
		for i := range 30_000 {
			x, y := dice.Float64()*1000, dice.Float64()*1000
			for _, at := range []float64{x, y, (x + y) / 3} {
				m.Vertices = append(m.Vertices, Vec{at, 0.37*at + thick*dice.Float64(), -1.1*at + thick*dice.Float64()})
			}
			m.Faces = append(m.Faces, [3]int{3 * i, 3*i + 1, 3*i + 2})
		}
		for _, file := range [][]byte{binarySTL(m, Vec{1e6, 3, -1e5}), textSTL(m, "%.17g")} {
			mesh, info, err := ReadMesh(bytes.NewReader(file), "stl", Limits{})
			require.NoError(t, err)
			require.Empty(t, info.Streamed.Against(mesh, Examine(mesh)))
		}
	}
}
