package geom_test

import (
	"encoding/binary"
	"math"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"plumbhook/geom"
)

func readPLY(in string) (geom.Mesh, geom.MeshInfo, error) {
	return geom.ReadPLY(strings.NewReader(in), geom.Limits{})
}

// textPLY is a cube of side 1 with square faces, and lines that are passed over.
const textPLY = `ply
format ascii 1.0
comment a cube
obj_info by hand
element vertex 8
property float x
property float y
property uchar red
property float z
element face 6
property list uchar int vertex_index
property float quality
element edge 1
property int vertex1
property int vertex2
end_header
0 0 9 0
1 0 9 0
1 1 9 0
0 1 9 0
0 0 9 1
1 0 9 1
1 1 9 1
0 1 9 1
4 3 2 1 0 0.5
4 4 5 6 7 0.5
4 0 1 5 4 0.5
4 2 3 7 6 0.5
4 0 4 7 3 0.5
4 1 2 6 5 0.5
0 1
`

func TestPLYVariants(t *testing.T) {
	edited := func(old, by string) string { return strings.ReplaceAll(textPLY, old, by) }
	for name, in := range map[string]string{
		"plain":                  textPLY,
		"CR LF":                  edited("\n", "\r\n"),
		"CR":                     edited("\n", "\r"),
		"no last line end":       strings.TrimSpace(textPLY),
		"blank lines and blanks": edited("\n4 ", " \n\n  4\t"),
		"vertex_indices":         edited("vertex_index", "vertex_indices"),
		"long names of types":    strings.NewReplacer("uchar", "uint8", " int ", " int32 ", " float ", " float64 ").Replace(textPLY),
		"whole numbers":          strings.NewReplacer("float x", "short x", "float y", "uchar y", "float z", "int z").Replace(textPLY),
	} {
		mesh, info, err := readPLY(in)
		require.NoError(t, err, name)
		assert.Equal(t, geom.MeshInfo{Kind: "text PLY", Solids: 1, Triangles: 12}, info, name)
		assert.Len(t, mesh.Vertices, 8, name)
		assert.Empty(t, geom.Examine(mesh).Faults(), name)
		assert.InDelta(t, 1.0, mesh.Moments().Volume, 1e-15, name)
	}
}

// All types of numbers in a binary file, and both byte orders. The head ends
// in each of the ways that a line can end; the first byte after it may look
// like the end of a line.
func TestPLYBinaryTypes(t *testing.T) {
	type vertex struct {
		Before uint16
		X      int8
		Y      float32
		Z      float64
		List   uint8
		A, B   uint16
	}
	head := "ply\nformat %s 1.0\nelement vertex 8\nproperty ushort before\nproperty char x\nproperty float y\nproperty double z\nproperty list uchar ushort l\n" +
		"element face 6\nproperty uint flags\nproperty list uchar uchar vertex_indices\nproperty short after\nend_header\n"
	for name, order := range map[string]binary.ByteOrder{"binary_little_endian": binary.LittleEndian, "binary_big_endian": binary.BigEndian} {
		for _, end := range []string{"\n", "\r\n", "\r"} {
			var out strings.Builder
			out.WriteString(strings.ReplaceAll(strings.Replace(head, "%s", name, 1), "\n", end))
			for _, at := range []geom.Vec{{0, 0, 0}, {1, 0, 0}, {1, 1, 0}, {0, 1, 0}, {0, 0, 1}, {1, 0, 1}, {1, 1, 1}, {0, 1, 1}} {
				require.NoError(t, binary.Write(&out, order, vertex{0x0a0a, int8(at[0]), float32(at[1]), at[2], 2, 7, 7}))
			}
			for _, f := range [][4]uint8{{3, 2, 1, 0}, {4, 5, 6, 7}, {0, 1, 5, 4}, {2, 3, 7, 6}, {0, 4, 7, 3}, {1, 2, 6, 5}} {
				require.NoError(t, binary.Write(&out, order, struct {
					Flags   uint32
					Length  uint8
					Corners [4]uint8
					After   int16
				}{1, 4, f, -1}))
			}
			mesh, info, err := readPLY(out.String())
			require.NoError(t, err, "%s, head ending in %q", name, end)
			assert.Equal(t, geom.MeshInfo{Kind: "binary PLY", Solids: 1, Triangles: 12}, info)
			assert.InDelta(t, 1.0, mesh.Moments().Volume, 1e-15)
		}
	}
}

func TestBadTextPLYFiles(t *testing.T) {
	edit := func(old, by string) string { return strings.Replace(textPLY, old, by, 1) }
	tests := []struct {
		name, in string
		line     int
		want     string
	}{
		{"empty", "", 1, "not a PLY file: its first line is not \"ply\""},
		{"no PLY", "solid a\n", 1, "not a PLY file"},
		{"only a head", textPLY[:strings.Index(textPLY, "end_header")], 16, "the header has no \"end_header\""},
		{"no format", edit("format ascii 1.0\n", ""), 15, "the header has no line \"format\""},
		{"version", edit("1.0", "2.0"), 2, "version \"2.0\" of the format is not known, only 1.0"},
		{"unknown format", edit("ascii", "utf8"), 2, "the format \"utf8\" is not known"},
		{"no vertices", edit("element vertex", "element point"), 16, "the header must announce the elements vertex and face"},
		{"no faces", edit("element face", "element cell"), 16, "the header must announce the elements vertex and face"},
		{"no z", edit("float z", "float w"), 16, "the header gives vertices no z"},
		{"list as x", edit("float x", "list uchar float x"), 16, "the header gives vertices no x"},
		{"no corners", edit("vertex_index", "corners"), 16, "the header gives faces no list vertex_indices"},
		{"corners that are no list", edit("list uchar int vertex_index", "int vertex_index"), 16, "the header gives faces no list vertex_indices"},
		{"corners in fractions", edit("uchar int", "uchar float"), 11, "the length of a list, and the numbers of vertices, must be whole numbers"},
		{"length in fractions", edit("uchar int", "double int"), 11, "must be whole numbers"},
		{"unknown type", edit("float x", "real x"), 6, "\"real\" is not a type of number"},
		{"negative count", edit("vertex 8", "vertex -8"), 5, "\"-8\" is not a number of elements"},
		{"property first", edit("element vertex 8\n", ""), 5, "a property stands before the first element"},
		{"element without properties", edit("element edge", "element idle 5\nelement edge"), 17, "the header gives the element \"idle\" no properties"},
		{"element twice", edit("element edge", "element face"), 16, "the header has the element \"face\" twice"},
		{"strips", edit("element edge", "element tristrips"), 16, "the header announces triangle strips (tristrips), which are not read"},
		{"faces first", "ply\nformat ascii 1.0\nelement face 1\nproperty list uchar int vertex_indices\nelement vertex 3\nproperty float x\nproperty float y\nproperty float z\nend_header\n", 9, "the header announces the faces before the vertices"},
		{"unknown word", edit("comment", "remark"), 3, "\"remark a cube\" does not belong in the header of a PLY file"},
		{"cut off in vertices", textPLY[:strings.Index(textPLY, "1 1 9 1\n")], 23, "the header promises 8 of \"vertex\" and the file ends after 6: it is cut off"},
		{"cut off in faces", textPLY[:strings.Index(textPLY, "4 2 3")], 28, "the header promises 6 of \"face\" and the file ends after 3"},
		{"cut off in a face", textPLY[:strings.Index(textPLY, " 7 6 0.5")], 28, "the line ends before the last number that the header announces for \"face\""},
		{"two numbers", edit("1 1 9 0\n", "1 1\n"), 19, "the line ends before the last number that the header announces for \"vertex\""},
		{"too many numbers", edit("1 1 9 0\n", "1 1 9 0 7\n"), 19, "\"7\" stands after the last number that the header announces for \"vertex\""},
		{"nan", edit("1 1 9 0\n", "1 nan 9 0\n"), 19, "y of a vertex, \"nan\", is not a finite number"},
		{"two corners", edit("4 4 5 6 7", "2 4 5"), 26, "a face has three corners or more; this one has 2"},
		{"vertex that is not there", edit("4 4 5 6 7", "4 4 5 6 8"), 26, "vertex 8 is not there: the file has 8 vertices, numbered from 0"},
		{"negative vertex", edit("4 4 5 6 7", "4 4 5 6 -1"), 26, "vertex -1 is not there"},
		{"fraction as vertex", edit("4 4 5 6 7", "4 4 5 6 7.0"), 26, "\"7.0\" is not a whole number"},
		{"crossed face", edit("4 4 5 6 7", "4 4 5 7 6"), 26, "the sides of this face cross"},
		{"something after the end", textPLY + "0 1\n", 32, "there is something after the last of what the header promises"},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			mesh, info, err := readPLY(tt.in)
			fault := asFileError(t, err)
			assert.Contains(t, fault.Msg, tt.want)
			assert.Equal(t, tt.line, fault.Line)
			assert.Zero(t, mesh)
			assert.Zero(t, info)
		})
	}
}

func TestBadBinaryPLYFiles(t *testing.T) {
	file := string(cube20.ply(binary.LittleEndian))
	start := strings.Index(file, "end_header\n") + len("end_header\n")
	faces := start + 36*24 // 36 vertices of three doubles
	patched := func(at int, by ...byte) string { return file[:at] + string(by) + file[at+len(by):] }
	nan := binary.LittleEndian.AppendUint64(nil, math.Float64bits(math.NaN()))
	tests := []struct {
		name, in string
		triangle int
		want     string
	}{
		{"cut off between vertices", file[:start+24*7], 0, "vertex 7: the header promises 36 of \"vertex\" and the file ends after 7: it is cut off"},
		{"cut off in a vertex", file[:start+24*7+3], 0, "vertex 8: the file ends within it: it is cut off"},
		{"cut off in a face", file[:faces+13+5], 2, "the file ends within it: it is cut off"},
		{"cut off between faces", file[:faces+13*5], 5, "the header promises 12 of \"face\" and the file ends after 5"},
		{"NaN", patched(start+24*4+8, nan...), 0, "vertex 5: y is not a number (NaN)"},
		{"vertex that is not there", patched(faces+13*2+1, 36), 3, "vertex 36 is not there: the file has 36 vertices, numbered from 0"},
		{"negative vertex", patched(faces+13*2+1, 255, 255, 255, 255), 3, "vertex -1 is not there"},
		{"face of 200", patched(faces, 200), 1, "vertex 771 is not there"},
		{"face of nothing", patched(faces, 0), 1, "a face has three corners or more; this one has 0"},
		{"something after the end", file + "end", 0, "there is something after the last of what the header promises"},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			_, _, err := readPLY(tt.in)
			fault := asFileError(t, err)
			assert.Contains(t, fault.Msg, tt.want)
			assert.Equal(t, tt.triangle, fault.Triangle)
			assert.Zero(t, fault.Line)
		})
	}
}

// Points without faces have no volume.
func TestPLYOfPointsIsRefused(t *testing.T) {
	_, _, err := readPLY("ply\nformat ascii 1.0\nelement vertex 1\nproperty float x\nproperty float y\nproperty float z\nelement face 0\nproperty list uchar int vertex_indices\nend_header\n1 2 3\n")
	assert.EqualError(t, err, "the file has no faces: points alone have no volume\n\tfix: export the part again as a mesh of polygons")
}
