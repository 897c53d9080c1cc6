package geom_test

import (
	"bytes"
	"encoding/binary"
	"math"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"plumbhook/geom"
)

// checkMesh asks of any mesh that was read: figures that are numbers, health,
// and repair that adds nothing; and that, written as OBJ, it is read again as
// it was.
func checkMesh(t *testing.T, mesh geom.Mesh, info geom.MeshInfo) {
	t.Helper()
	require.Len(t, mesh.Faces, info.Triangles)
	require.Positive(t, info.Triangles)
	require.Positive(t, info.Solids)
	for _, f := range mesh.Faces {
		for _, v := range f {
			require.True(t, v >= 0 && v < len(mesh.Vertices))
		}
	}
	mended, _ := geom.Repair(mesh)
	require.LessOrEqual(t, len(mended.Faces), len(mesh.Faces))
	for _, m := range []geom.Mesh{mesh, mended} {
		h := geom.Examine(m)
		for _, figure := range []float64{h.Volume, h.Area, h.VolumeDoubt, h.AsSolid, h.AsHollow, h.Overlap.Union, h.Overlap.Error, geom.FacetBias(m)} {
			require.False(t, math.IsNaN(figure) || math.IsInf(figure, 0), "%+v", h)
		}
		require.Equal(t, h.Sound(), allHarmless(h.Faults()), "%+v", h)
	}
	again, _, err := geom.ReadOBJ(bytes.NewReader(facetsOf(mesh).obj(false)), geom.Limits{})
	require.NoError(t, err)
	require.Equal(t, mesh.Moments().Volume, again.Moments().Volume)
}

// fuzzReader reads anything: never a panic, every error a *FileError.
func fuzzReader(f *testing.F, ending string) {
	f.Fuzz(func(t *testing.T, in []byte) {
		mesh, info, err := geom.ReadMesh(bytes.NewReader(in), ending, geom.Limits{Bytes: 1 << 20, Triangles: 1 << 12})
		if err != nil {
			asFileError(t, err)
			require.Zero(t, mesh)
			require.Zero(t, info)
			return
		}
		checkMesh(t, mesh, info)
	})
}

func FuzzReadOBJ(f *testing.F) {
	for _, s := range []soup{cube20, icosphere(0), cube20.without(3), tetrahedronOfTonon()} {
		f.Add(s.obj(false))
		f.Add(s.obj(true))
	}
	f.Add([]byte(unitCube))
	f.Add([]byte(extruded("0 0,3 0,3 3,0 3,0 0,1 1,1 2,2 2,2 1,1 1")))
	fuzzReader(f, ".obj")
}

func FuzzReadPLY(f *testing.F) {
	for _, s := range []soup{cube20, icosphere(0), cube20.without(3), tetrahedronOfTonon()} {
		f.Add(s.ply(nil))
		f.Add(s.ply(binary.LittleEndian))
		f.Add(s.ply(binary.BigEndian))
	}
	f.Add([]byte(textPLY))
	fuzzReader(f, ".ply")
}

// FuzzRead3MF takes the text of a model, which is packed here, and then the
// same bytes as if they were the archive.
func FuzzRead3MF(f *testing.F) {
	f.Add([]byte(modelXML(` unit="inch"`, cube20.meshXML(1), `<item objectid="1"/>`)))
	f.Add([]byte(modelXML("", cube20.meshXML(1)+`<object id="2"><components><component objectid="1" transform="-1 0 0 0 1 0 0 0 1 5 6 7"/></components></object>`, `<item objectid="2"/>`)))
	f.Add(package3MF(f, modelXML("", tetrahedronOfTonon().meshXML(1), `<item objectid="1"/>`)))
	f.Fuzz(func(t *testing.T, in []byte) {
		for _, file := range [][]byte{in, package3MF(t, string(in))} {
			mesh, info, err := geom.Read3MF(bytes.NewReader(file), geom.Limits{Bytes: 1 << 20, Triangles: 1 << 12})
			if err != nil {
				asFileError(t, err)
				require.Zero(t, mesh)
				continue
			}
			require.Positive(t, info.Unit)
			checkMesh(t, mesh, info)
		}
	})
}

// FuzzReadDXF reads anything. What was read can be written as polylines and
// read again, with the same areas.
func FuzzReadDXF(f *testing.F) {
	f.Add([]byte(drawing(append([]string{circleAt(60, 60, 20)}, roundedPlate...)...)))
	f.Add([]byte(drawing(oldPolyline(1, [3]float64{0, 0, 0}, [3]float64{100, 0, 1}, [3]float64{100, 100, 0}))))
	f.Add([]byte(drawing(lightPolyline(1, [3]float64{50, 0, 2.4}, [3]float64{0, -50, 0}))))
	f.Add([]byte(drawing(line(0, 0, 100, 0), line(100, 0, 0, 100), line(0, 100, 0, 0.5))))
	f.Fuzz(func(t *testing.T, in []byte) {
		loops, unit, err := geom.ReadDXF(bytes.NewReader(in), geom.Limits{Bytes: 1 << 20, Triangles: 1 << 12})
		if err != nil {
			asFileError(t, err)
			require.Nil(t, loops)
			return
		}
		require.NotEmpty(t, loops)
		require.False(t, unit < 0 || math.IsNaN(unit) || math.IsInf(unit, 0))
		var polylines []string
		for _, l := range loops {
			require.Len(t, l.Bulge, len(l.Points))
			var points [][3]float64
			for i, p := range l.Points {
				require.LessOrEqual(t, math.Abs(l.Bulge[i]), 1.0)
				points = append(points, [3]float64{p[0], p[1], l.Bulge[i]})
			}
			require.False(t, math.IsNaN(l.Area()) || math.IsInf(l.Area(), 0))
			polylines = append(polylines, lightPolyline(1, points...))
		}
		again, _, err := geom.ReadDXF(strings.NewReader(drawing(polylines...)), geom.Limits{})
		require.NoError(t, err)
		require.Len(t, again, len(loops))
		for i, l := range again {
			require.InEpsilon(t, loops[i].Area(), l.Area(), 1e-3)
		}
	})
}
