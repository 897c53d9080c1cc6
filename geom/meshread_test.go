package geom_test

import (
	"archive/zip"
	"bytes"
	"encoding/binary"
	"errors"
	"fmt"
	"io"
	"math"
	"runtime"
	"strings"
	"testing"
	"testing/iotest"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"plumbhook/geom"
)

func readMesh(ending string, in []byte) (geom.Mesh, geom.MeshInfo, error) {
	return geom.ReadMesh(bytes.NewReader(in), ending, geom.Limits{})
}

// obj writes the soup as an OBJ file, each facet with vertices of its own,
// counted from the front or from the back.
func (s soup) obj(back bool) []byte {
	var out strings.Builder
	out.WriteString("o soup\n")
	for i, f := range s {
		for _, v := range f {
			fmt.Fprintf(&out, "v %.17g %.17g %.17g\n", v[0], v[1], v[2])
		}
		if back {
			out.WriteString("f -3 -2 -1\n")
		} else {
			fmt.Fprintf(&out, "f %d %d %d\n", 3*i+1, 3*i+2, 3*i+3)
		}
	}
	return []byte(out.String())
}

func plyHead(format string, vertices, faces int) string {
	return fmt.Sprintf("ply\nformat %s 1.0\ncomment by hand\nelement vertex %d\nproperty double x\nproperty double y\nproperty double z\nelement face %d\nproperty list uchar int vertex_indices\nend_header\n", format, vertices, faces)
}

// ply writes the soup as a PLY file: text for no order.
func (s soup) ply(order binary.ByteOrder) []byte {
	var out bytes.Buffer
	switch order {
	case nil:
		out.WriteString(plyHead("ascii", 3*len(s), len(s)))
		for _, f := range s {
			for _, v := range f {
				fmt.Fprintf(&out, "%.17g %.17g %.17g\n", v[0], v[1], v[2])
			}
		}
		for i := range s {
			fmt.Fprintf(&out, "3 %d %d %d\n", 3*i, 3*i+1, 3*i+2)
		}
		return out.Bytes()
	case binary.LittleEndian:
		out.WriteString(plyHead("binary_little_endian", 3*len(s), len(s)))
	default:
		out.WriteString(plyHead("binary_big_endian", 3*len(s), len(s)))
	}
	for _, f := range s {
		for _, v := range f {
			_ = binary.Write(&out, order, v[:])
		}
	}
	for i := range s {
		out.WriteByte(3)
		_ = binary.Write(&out, order, []int32{int32(3 * i), int32(3*i + 1), int32(3*i + 2)})
	}
	return out.Bytes()
}

const core3MF = "http://schemas.example.org/3dmanufacturing/core/2015/02"

// meshXML is the soup as a 3MF object.
func (s soup) meshXML(id int) string {
	var out strings.Builder
	fmt.Fprintf(&out, "<object id=\"%d\" type=\"model\" name=\"piece %d\"><mesh><vertices>\n", id, id)
	for _, f := range s {
		for _, v := range f {
			fmt.Fprintf(&out, "<vertex x=\"%.17g\" y=\"%.17g\" z=\"%.17g\"/>\n", v[0], v[1], v[2])
		}
	}
	out.WriteString("</vertices><triangles>\n")
	for i := range s {
		fmt.Fprintf(&out, "<triangle v1=\"%d\" v2=\"%d\" v3=\"%d\"/>\n", 3*i, 3*i+1, 3*i+2)
	}
	out.WriteString("</triangles></mesh></object>\n")
	return out.String()
}

// modelXML is a model part with the given resources and build.
func modelXML(unit, resources, build string) string {
	return `<?xml version="1.0" encoding="UTF-8"?>` + "\n" + `<model` + unit + ` xmlns="` + core3MF + `">` +
		"\n<resources>\n" + resources + "</resources>\n<build>\n" + build + "</build>\n</model>\n"
}

// packed is a zip archive of the given parts, name after name and text.
func packed(t require.TestingT, parts ...string) []byte {
	var out bytes.Buffer
	w := zip.NewWriter(&out)
	for i := 0; i < len(parts); i += 2 {
		f, err := w.Create(parts[i])
		require.NoError(t, err)
		_, err = io.WriteString(f, parts[i+1])
		require.NoError(t, err)
	}
	require.NoError(t, w.Close())
	return out.Bytes()
}

// package3MF is a package with one model.
func package3MF(t require.TestingT, model string) []byte {
	return packed(t, "[Content_Types].xml", "<Types/>",
		"_rels/.rels", `<Relationships><Relationship Type="http://schemas.example.org/3dmanufacturing/2013/01/3dmodel" Target="/3D/3dmodel.model" Id="r"/></Relationships>`,
		"3D/3dmodel.model", model)
}

// files is the soup in every format that keeps float64.
func (s soup) files(t require.TestingT) map[string][]byte {
	return map[string][]byte{
		"text STL.stl":       s.text(),
		"OBJ.obj":            s.obj(false),
		"OBJ, from back.OBJ": s.obj(true),
		"text PLY.ply":       s.ply(nil),
		"little PLY.ply":     s.ply(binary.LittleEndian),
		"big PLY.ply":        s.ply(binary.BigEndian),
		"3MF.3mf":            package3MF(t, modelXML(` unit="millimeter"`, s.meshXML(1), `<item objectid="1"/>`)),
	}
}

// One solid through every format: the same facets, and volumes known in closed
// form. The cube is exact; the sphere of 1280 facets 4.152741 is from the
// table of inscribed polyhedra (derived here).
func TestEveryFormatGivesTheSame(t *testing.T) {
	for name, tt := range map[string]struct {
		in          soup
		volume, tol float64
	}{"cube": {cube20, 8000, 1e-14}, "sphere": {icosphere(3), 4.152741, 2e-7}} {
		var first geom.Mesh
		for file, bytes := range tt.in.files(t) {
			ending := file[strings.LastIndex(file, "."):]
			mesh, info, err := readMesh(ending, bytes)
			require.NoError(t, err, file)
			assert.Equal(t, len(tt.in), info.Triangles, file)
			assert.Equal(t, 1, info.Solids, file)
			assert.Nil(t, info.Notes, file)
			assert.Empty(t, geom.Examine(mesh).Faults(), file)
			volume := mesh.Moments().Volume
			assert.InEpsilon(t, tt.volume, volume, tt.tol, "%s, %s", name, file)
			if first.Faces == nil {
				first = mesh
			}
			assert.Equal(t, first.Faces, mesh.Faces, file)
			assert.Equal(t, first.Vertices, mesh.Vertices, file)
			assert.InEpsilon(t, first.Moments().Volume, volume, 1e-12, file)
		}
	}
}

func TestMeshInfoOfEachKind(t *testing.T) {
	want := map[string]geom.MeshInfo{
		"text STL.stl":       {Kind: "text STL", Solids: 1, Name: "soup", Triangles: 12},
		"OBJ.obj":            {Kind: "OBJ", Solids: 1, Name: "soup", Triangles: 12},
		"OBJ, from back.OBJ": {Kind: "OBJ", Solids: 1, Name: "soup", Triangles: 12},
		"text PLY.ply":       {Kind: "text PLY", Solids: 1, Triangles: 12},
		"little PLY.ply":     {Kind: "binary PLY", Solids: 1, Triangles: 12},
		"big PLY.ply":        {Kind: "binary PLY", Solids: 1, Triangles: 12},
		"3MF.3mf":            {Kind: "3MF", Unit: 0.001, Solids: 1, Name: "piece 1", Triangles: 12},
	}
	for file, in := range cube20.files(t) {
		_, info, err := readMesh(file[strings.LastIndex(file, ".")+1:], in)
		require.NoError(t, err, file)
		assert.Equal(t, strings.Contains(info.Kind, "STL"), info.Streamed != nil, file)
		info.Streamed = nil
		assert.Equal(t, want[file], info, file)
	}
	_, info, err := readMesh(".stl", cube20.file(t, "cube", false))
	require.NoError(t, err)
	info.Streamed = nil
	assert.Equal(t, geom.MeshInfo{Kind: "binary STL", Solids: 1, Name: "cube", Triangles: 12}, info)
}

func TestUnknownEndingIsRefused(t *testing.T) {
	assert.Equal(t, []string{".stl", ".obj", ".ply", ".3mf"}, geom.MeshEndings())
	_, _, err := readMesh(".step", nil)
	assert.EqualError(t, err, "files ending in \".step\" are not read as a mesh\n\tfix: export the part as one of .stl, .obj, .ply, .3mf")
}

// However the bytes come, and whatever the reader below does.
func TestEveryFormatWithAnyReader(t *testing.T) {
	broken := errors.New("disk on fire")
	for file, in := range icosphere(3).files(t) {
		ending := file[strings.LastIndex(file, "."):]
		want, _, err := readMesh(ending, in)
		require.NoError(t, err)
		for name, r := range map[string]io.Reader{
			"a byte at a time": iotest.OneByteReader(bytes.NewReader(in)),
			"half reads":       iotest.HalfReader(bytes.NewReader(in)),
			"end with data":    iotest.DataErrReader(bytes.NewReader(in)),
		} {
			got, _, err := geom.ReadMesh(r, ending, geom.Limits{})
			require.NoError(t, err, "%s: %s", file, name)
			assert.Equal(t, want, got, "%s: %s", file, name)
		}
		for _, at := range []int{0, 50, len(in) / 2, len(in) - 1} {
			_, _, err := geom.ReadMesh(io.MultiReader(bytes.NewReader(in[:at]), iotest.ErrReader(broken)), ending, geom.Limits{})
			asFileError(t, err)
			assert.ErrorIs(t, err, broken, "%s at %d", file, at)
		}
	}
}

func TestLimitsOfEveryFormat(t *testing.T) {
	for file, in := range cube20.files(t) {
		ending := file[strings.LastIndex(file, "."):]
		size := int64(len(in))
		_, _, err := geom.ReadMesh(bytes.NewReader(in), ending, geom.Limits{Triangles: 12})
		require.NoError(t, err, file)
		_, _, err = geom.ReadMesh(bytes.NewReader(in), ending, geom.Limits{Bytes: size - 1})
		assert.Contains(t, asFileError(t, err).Msg, "larger than the limit of", file)
		_, _, err = geom.ReadMesh(bytes.NewReader(in), ending, geom.Limits{Triangles: 11})
		assert.Contains(t, asFileError(t, err).Msg, "more ", file)
	}
}

// What a header only claims must cost nothing.
func TestClaimsAllocateNothing(t *testing.T) {
	claims := map[string][]byte{
		"vertices":          []byte(plyHead("binary_little_endian", math.MaxInt64, 1)),
		"faces":             []byte(plyHead("binary_little_endian", 0, math.MaxInt64)),
		"nothing":           []byte("ply\nformat ascii 1.0\nelement idle 9000000000000000000\nelement vertex 0\nelement face 0\nend_header\n"),
		"length of a list":  append([]byte(strings.Replace(plyHead("binary_little_endian", 0, 1), "uchar", "uint", 1)), 0xff, 0xff, 0xff, 0xff),
		"unread properties": []byte("ply\nformat binary_big_endian 1.0\nelement other 9000000000000000000\nproperty list uint float a\nelement vertex 0\nelement face 0\nend_header\n\xff\xff\xff\xff"),
	}
	for name, in := range claims {
		var before, after runtime.MemStats
		runtime.ReadMemStats(&before)
		_, _, err := readMesh(".ply", in)
		runtime.ReadMemStats(&after)
		asFileError(t, err)
		assert.Less(t, after.TotalAlloc-before.TotalAlloc, uint64(1<<20), name)
	}
}
