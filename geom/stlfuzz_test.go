package geom_test

import (
	"bytes"
	"fmt"
	"math"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"plumbhook/geom"
)

// FuzzReadSTL reads anything: never a panic, every error a *FileError with
// words and a remedy, no figure that is not a number, and what was read can be
// written by the reference library and read again, facet for facet.
func FuzzReadSTL(f *testing.F) {
	for _, s := range []soup{cube20, icosphere(0), cube20.without(3), tetrahedronOfTonon()} {
		f.Add(s.file(f, "seed", false))
		f.Add(s.file(f, "solid seed", false))
		f.Add(s.file(f, "seed", true))
	}
	f.Add(cube20.file(f, "cube", false)[:200])
	f.Add(head("huge", math.MaxUint32))
	f.Add([]byte("solid\n" + oneFacet + "endsolid\rSOLID two\r\n" + strings.ToUpper(oneFacet) + "ENDSOLID"))
	f.Add([]byte("solid a\nfacet normal nan inf 1.#IND\nouter loop\nvertex 1e999 -0 0x1p3"))
	f.Fuzz(func(t *testing.T, in []byte) {
		const most = 1 << 14
		lim := geom.Limits{Bytes: 1 << 20, Triangles: most}
		mesh, info, err := geom.ReadSTL(bytes.NewReader(in), lim)
		second, err2 := geom.MeasureSTL(bytes.NewReader(in), geom.MeasureOptions{Limits: lim, CountEdges: true})
		require.Equal(t, err == nil, err2 == nil, "%v; %v", err, err2)
		if err != nil {
			asFileError(t, err)
			asFileError(t, err2)
			require.Zero(t, mesh)
			return
		}
		require.Empty(t, second.Against(mesh, geom.Examine(mesh)))
		require.Len(t, mesh.Faces, info.Triangles)
		require.NotZero(t, info.Solids)
		require.LessOrEqual(t, info.Triangles, most)
		h := geom.Examine(mesh)
		for _, figure := range []float64{h.Volume, h.Area, h.VolumeDoubt} {
			require.False(t, math.IsNaN(figure) || math.IsInf(figure, 0), "%+v", h)
		}
		require.Equal(t, h.Sound(), allHarmless(h.Faults()))
		for _, text := range []bool{false, true} {
			again, info2, err := readSTL(facetsOf(mesh).file(t, info.Name, text))
			require.NoError(t, err)
			require.Equal(t, info.Triangles, info2.Triangles)
			require.Len(t, again.Faces, len(mesh.Faces))
		}
	})
}

func allHarmless(faults []geom.Fault) bool {
	for _, fault := range faults {
		if !fault.Harmless {
			return false
		}
	}
	return true
}

func facetsOf(m geom.Mesh) soup {
	var s soup
	for i := range m.Faces {
		a, b, c := m.Triangle(i)
		s = append(s, [3]geom.Vec{a, b, c})
	}
	return s
}

func BenchmarkReadSTL(b *testing.B) {
	s := torus(3, 1, 400, 250) // 200 000 facets
	for _, bench := range []struct {
		name string
		file []byte
	}{
		{"binary", s.file(b, "torus", false)},
		{"text of 9 digits", s.file(b, "torus", true)},
		{"text of 17 digits", s.text()},
	} {
		b.Run(bench.name, func(b *testing.B) {
			b.ReportAllocs()
			b.SetBytes(int64(len(bench.file)))
			for b.Loop() {
				_, _, err := readSTL(bench.file)
				require.NoError(b, err)
			}
		})
	}
}

func BenchmarkExamine(b *testing.B) {
	for _, n := range []int{100, 1000} {
		whole := torus(3, 1, n, n/2)
		mesh, _, err := readSTL(whole.text())
		require.NoError(b, err)
		torn, _, err := readSTL(whole.without(0, 500, 3000).text())
		require.NoError(b, err)
		for name, m := range map[string]geom.Mesh{"sound": mesh, "torn": torn} {
			b.Run(fmt.Sprintf("%s/facets=%d", name, len(m.Faces)), func(b *testing.B) {
				b.ReportAllocs()
				for b.Loop() {
					geom.Examine(m)
				}
				b.ReportMetric(float64(len(m.Faces))*float64(b.N)/b.Elapsed().Seconds(), "facets/s")
			})
		}
	}
}
