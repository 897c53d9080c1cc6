package geom_test

import (
	"bytes"
	"encoding/binary"
	"errors"
	"io"
	"math"
	"runtime"
	"strings"
	"testing"
	"testing/iotest"

	"github.com/hschendel/stl"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"plumbhook/geom"
)

func readSTL(in []byte) (geom.Mesh, geom.STLInfo, error) {
	return geom.ReadSTL(bytes.NewReader(in), geom.Limits{})
}

// What we read must be, facet by facet, what the reference library reads.
func TestReadsWhatTheReferenceReads(t *testing.T) {
	for name, s := range map[string]soup{"cube": cube(20), "sphere": icosphere(3).shifted(geom.Vec{100, -3, 0.1}), "torus": torus(3, 1, 32, 16)} {
		for _, text := range []bool{false, true} {
			file := s.file(t, name, text)
			want, err := stl.ReadAll(bytes.NewReader(file))
			require.NoError(t, err)

			mesh, info, err := readSTL(file)
			require.NoError(t, err, name)
			assert.Equal(t, geom.STLInfo{Binary: !text, Solids: 1, Name: name, Triangles: len(s)}, info)
			require.Len(t, mesh.Faces, len(want.Triangles), name)
			for i, triangle := range want.Triangles {
				for corner, v := range triangle.Vertices {
					got := mesh.Vertices[mesh.Faces[i][corner]]
					assert.Equal(t, v, stl.Vec3{float32(got[0]), float32(got[1]), float32(got[2])}, "%s, text %v, facet %d", name, text, i)
				}
			}
			h := geom.Examine(mesh)
			assert.True(t, h.Sound(), "%s: %v", name, h.Faults())
			assert.Empty(t, h.Faults())
		}
	}
}

func TestVerticesAreWeldedExactly(t *testing.T) {
	mesh, _, err := readSTL(cube(20).file(t, "cube", false))
	require.NoError(t, err)
	assert.Len(t, mesh.Vertices, 8)
	assert.Len(t, mesh.Faces, 12)

	apart := cube(20)
	apart[0][0][0] = math.Nextafter(0, 1)
	mesh, _, err = readSTL(apart.text())
	require.NoError(t, err)
	assert.Len(t, mesh.Vertices, 9, "the least difference keeps two vertices apart")

	zeros := cube(20)
	zeros[0][0][0] = math.Copysign(0, -1)
	mesh, _, err = readSTL(zeros.text())
	require.NoError(t, err)
	assert.Len(t, mesh.Vertices, 8, "−0 is 0")
	for _, v := range mesh.Vertices {
		assert.False(t, math.Signbit(v[0]))
	}
}

// Text keeps what float32 would lose: 1/3 to its last bit, far from the origin.
func TestTextKeepsDoublePrecision(t *testing.T) {
	far := geom.Vec{1e6 + 1.0/3, 0, 0}
	mesh, _, err := readSTL(cube(1).shifted(far).text())
	require.NoError(t, err)
	assert.Equal(t, 1e6+1.0/3, mesh.Extent().Min[0])
}

// A binary file is one by its length, whatever its header says.
func TestBinaryThatBeginsWithSolid(t *testing.T) {
	for _, name := range []string{"solid", "solid bracket", "SOLID facet normal vertex endsolid", " solid\n"} {
		file := cube(20).file(t, name, false)
		mesh, info, err := readSTL(file)
		require.NoError(t, err, name)
		assert.True(t, info.Binary)
		assert.Len(t, mesh.Faces, 12)
	}
	padded := cube(20).file(t, "solid bracket"+strings.Repeat(" ", 67), false) // no zero byte in the header
	_, info, err := readSTL(padded)
	require.NoError(t, err)
	assert.True(t, info.Binary)
	assert.Equal(t, "solid bracket", info.Name)
}

const oneFacet = "facet normal 0 0 1\nouter loop\nvertex 0 0 0\nvertex 1 0 0\nvertex 0 1 0\nendloop\nendfacet\n"

// Variants of text that programs write and that the reference library refuses.
func TestTextVariants(t *testing.T) {
	tests := []struct {
		name, in string
		want     geom.STLInfo
	}{
		{"plain", "solid a b\n" + oneFacet + "endsolid a b\n", geom.STLInfo{Solids: 1, Name: "a b", Triangles: 1}},
		{"upper case", strings.ToUpper("solid a\n" + oneFacet + "endsolid a\n"), geom.STLInfo{Solids: 1, Name: "A", Triangles: 1}},
		{"no name", "solid\n" + oneFacet + "endsolid\n", geom.STLInfo{Solids: 1, Triangles: 1}},
		{"no name, no last line end", "solid\n" + oneFacet + "endsolid", geom.STLInfo{Solids: 1, Triangles: 1}},
		{"leading blanks", "\n \t solid a\n" + oneFacet + "endsolid\n", geom.STLInfo{Solids: 1, Name: "a", Triangles: 1}},
		{"byte order mark", "\xef\xbb\xbfsolid a\n" + oneFacet + "endsolid\n", geom.STLInfo{Solids: 1, Name: "a", Triangles: 1}},
		{"CR only", strings.ReplaceAll("solid a\n"+oneFacet+"endsolid a\n", "\n", "\r"), geom.STLInfo{Solids: 1, Name: "a", Triangles: 1}},
		{"CR LF", strings.ReplaceAll("solid a\n"+oneFacet+"endsolid a\n", "\n", "\r\n"), geom.STLInfo{Solids: 1, Name: "a", Triangles: 1}},
		{"facet on one line", "solid a\n" + strings.ReplaceAll(oneFacet, "\n", " ") + "\nendsolid a\n", geom.STLInfo{Solids: 1, Name: "a", Triangles: 1}},
		{"a million blank lines", "solid a\n" + strings.Repeat("\n", 1e6) + oneFacet + "endsolid\n", geom.STLInfo{Solids: 1, Name: "a", Triangles: 1}},
		{"two solids", "solid\n" + oneFacet + "endsolid\nsolid b\n" + oneFacet + "endsolid\n", geom.STLInfo{Solids: 2, Name: "b", Triangles: 2}},
		{"an empty solid does not count", "solid a\nendsolid\nsolid b\n" + oneFacet + "endsolid\n", geom.STLInfo{Solids: 1, Name: "a", Triangles: 1}},
		{"name in another encoding", "solid d\xfcse\n" + oneFacet + "endsolid\n", geom.STLInfo{Solids: 1, Name: "dse", Triangles: 1}},
		{"very long name", "solid " + strings.Repeat("n", 2e5) + "\n" + oneFacet + "endsolid\n", geom.STLInfo{Solids: 1, Name: strings.Repeat("n", 1023), Triangles: 1}},
		{"normal of a facet without area", "solid\n" + strings.Replace(oneFacet, "0 0 1", "-nan(ind) NaN 1.#QNAN", 1) + "endsolid\n", geom.STLInfo{Solids: 1, Triangles: 1}},
		{"exponents", "solid\n" + strings.Replace(oneFacet, "vertex 1 0 0", "vertex +1.0E+00 -0.e-3 .0", 1) + "endsolid\n", geom.STLInfo{Solids: 1, Triangles: 1}},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			mesh, info, err := readSTL([]byte(tt.in))
			require.NoError(t, err)
			assert.Equal(t, tt.want, info)
			assert.Len(t, mesh.Faces, tt.want.Triangles)
			assert.Equal(t, 0.5*float64(tt.want.Triangles), mesh.Area())
		})
	}
}

func TestAnyReaderGivesTheSame(t *testing.T) {
	for _, text := range []bool{false, true} {
		file := icosphere(2).file(t, "sphere", text)
		want, wantInfo, err := readSTL(file)
		require.NoError(t, err)
		for name, r := range map[string]io.Reader{
			"a byte at a time": iotest.OneByteReader(bytes.NewReader(file)),
			"half reads":       iotest.HalfReader(bytes.NewReader(file)),
			"end with data":    iotest.DataErrReader(bytes.NewReader(file)),
		} {
			mesh, info, err := geom.ReadSTL(r, geom.Limits{})
			require.NoError(t, err, name)
			assert.Equal(t, want, mesh, name)
			assert.Equal(t, wantInfo, info, name)
		}
	}
}

type silentReader struct{}

func (silentReader) Read([]byte) (int, error) { return 0, nil }

func TestFailingReaderIsReported(t *testing.T) {
	broken := errors.New("disk on fire")
	for _, text := range []bool{false, true} {
		file := icosphere(4).file(t, "sphere", text)
		for _, at := range []int{0, 50, 84, 100, 70_000} {
			for name, rest := range map[string]io.Reader{"broken": iotest.ErrReader(broken), "silent": silentReader{}} {
				_, _, err := geom.ReadSTL(io.MultiReader(bytes.NewReader(file[:at]), rest), geom.Limits{})
				fault := asFileError(t, err)
				assert.Contains(t, fault.Msg, "can't be read", "%s at %d", name, at)
				if name == "broken" {
					assert.ErrorIs(t, err, broken)
				} else {
					assert.ErrorIs(t, err, io.ErrNoProgress)
				}
			}
		}
	}
}

func TestLimits(t *testing.T) {
	for _, text := range []bool{false, true} {
		file := cube(20).file(t, "cube", text)
		size := int64(len(file))
		_, _, err := geom.ReadSTL(bytes.NewReader(file), geom.Limits{Bytes: size, Triangles: 12})
		require.NoError(t, err, "exactly at the limits")
		_, _, err = geom.ReadSTL(bytes.NewReader(file), geom.Limits{Bytes: size - 1})
		assert.Contains(t, asFileError(t, err).Msg, "larger than the limit of")
		_, _, err = geom.ReadSTL(bytes.NewReader(file), geom.Limits{Triangles: 11})
		assert.Contains(t, asFileError(t, err).Msg, "more triangles than the limit of 11")
	}
}

// asFileError requires what every error of ReadSTL must be.
func asFileError(t testing.TB, err error) *geom.FileError {
	t.Helper()
	var fault *geom.FileError
	require.ErrorAs(t, err, &fault)
	require.NotEmpty(t, fault.Msg)
	require.NotEmpty(t, fault.Fix)
	return fault
}

// head is a binary head with the given text and count.
func head(text string, count uint32) []byte {
	out := make([]byte, 84)
	copy(out, text)
	binary.LittleEndian.PutUint32(out[80:], count)
	return out
}

// withFloat puts a float into vertex v (1 to 3), axis (0 to 2) of facet n (from 1).
func withFloat(file []byte, n, v, axis int, value float64) []byte {
	out := bytes.Clone(file)
	binary.LittleEndian.PutUint32(out[84+50*(n-1)+12*v+4*axis:], math.Float32bits(float32(value)))
	return out
}

func TestBadBinaryFiles(t *testing.T) {
	file := cube(20).file(t, "cube", false)
	spaces := strings.Repeat(" ", 80)
	tests := []struct {
		name     string
		in       []byte
		triangle int
		want     string
	}{
		{"empty", nil, 0, "the file is empty"},
		{"blank", []byte(" \r\n\n"), 0, "the file is empty"},
		{"too short for a head", []byte("abc"), 0, "not an STL file: 3 bytes, which is less than the 84-byte head"},
		{"only a head", head("cube", 0), 0, "promises no triangles, and none are there"},
		{"only a head with a count", head("cube", 12), 0, "the file promises 12 triangles and holds 0: it is cut off"},
		{"truncated", file[:84+50*7+20], 0, "the file promises 12 triangles and holds 7 and 20 bytes more: it is cut off"},
		{"truncated between triangles", file[:84+50*7], 0, "the file promises 12 triangles and holds 7: it is cut off"},
		{"count too low", append(head("cube", 11), file[84:]...), 0, "the file promises 11 triangles and holds 12: there is something after its end"},
		{"count zero", append(head("cube", 0), file[84:]...), 0, "the file promises 0 triangles and holds 12"},
		{"trailing bytes", append(bytes.Clone(file), "end"...), 0, "the file promises 12 triangles and holds 12 and 3 bytes more: there is something after its end"},
		{"huge count", append(head("cube", math.MaxUint32), file[84:]...), 0, "the file promises 4294967295 triangles and holds 12: it is cut off"},
		{"huge count, header of spaces", head(spaces, math.MaxUint32), 0, "the file promises 4294967295 triangles and holds 0"},
		{"NaN", withFloat(file, 5, 2, 1, math.NaN()), 5, "y of vertex 2 is not a number (NaN) (the file promises 12 triangles)"},
		{"infinite", withFloat(file, 12, 3, 2, math.Inf(-1)), 12, "z of vertex 3 is infinite"},
		{"beyond any drawing", withFloat(file, 1, 1, 0, 1e30), 1, "x of vertex 1 is 1e+30, beyond any drawing"},
		{"NaN before the cut", withFloat(file, 5, 2, 1, math.NaN())[:84+50*7], 5, "is not a number (NaN)"},
		{"text that is no STL", []byte(strings.Repeat("v 1.0 2.0 3.0\n", 40)), 0, "not an STL file: text that does not begin with the word \"solid\""},
		{"text with a control character", []byte("solid a\x00b\n" + oneFacet + "endsolid\n"), 0, "can't tell whether this is text or binary"},
		{"'solid' on a cut-off binary file", cube(20).file(t, "solid cube", false)[:300], 0, "the file promises 12 triangles and holds 4 and 16 bytes more"},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			mesh, info, err := readSTL(tt.in)
			fault := asFileError(t, err)
			assert.Contains(t, fault.Msg, tt.want)
			assert.Equal(t, tt.triangle, fault.Triangle)
			assert.Zero(t, fault.Line)
			assert.Zero(t, mesh)
			assert.Zero(t, info)
		})
	}
}

func TestBadTextFiles(t *testing.T) {
	edit := func(old, by string) string {
		return "solid a\n" + strings.Replace(oneFacet, old, by, 1) + "endsolid a\n"
	}
	tests := []struct {
		name, in string
		line     int
		want     string
	}{
		{"only a header", "solid a", 1, "expected \"facet\" or \"endsolid\" in the solid that begins on line 1, found the end of the file"},
		{"no facets", "solid a\nendsolid a\n", 3, "the file ends and has no facet"},
		{"no endsolid", "solid a\n" + oneFacet, 9, "found the end of the file"},
		{"cut off in a facet", "solid a\n" + oneFacet[:56], 6, "found the end of the file"},
		{"nan", edit("1 0 0", "1 nan 0"), 5, "y of a vertex, \"nan\", is not a finite number"},
		{"inf", edit("0 1 0\nendloop", "0 1 -Inf\nendloop"), 6, "z of a vertex, \"-Inf\", is not a finite number"},
		{"beyond float64", edit("1 0 0", "1e999 0 0"), 5, "x of a vertex, \"1e999\", is infinite"},
		{"beyond any drawing", edit("1 0 0", "1e13 0 0"), 5, "x of a vertex, \"1e13\", is 1e+13, beyond any drawing (greatest accepted: 1e+12)"},
		{"decimal comma", edit("1 0 0", "1,5 0 0"), 5, "x of a vertex, \"1,5\", has a comma: the decimal sign in such a file is a point"},
		{"hexadecimal", edit("1 0 0", "0x1p3 0 0"), 5, "\"0x1p3\", is not a number"},
		{"not a number", edit("1 0 0", "1-2 0 0"), 5, "\"1-2\", is not a number"},
		{"two numbers", edit("1 0 0", "1 0"), 6, "three numbers are expected for a vertex, found \"vertex\""},
		{"four numbers", edit("1 0 0", "1 0 0 0"), 5, "expected \"vertex\" in the facet that begins on line 2 (a facet has a normal and one loop of three vertices), found \"0\""},
		{"two vertices", edit("vertex 1 0 0\n", ""), 6, "expected \"vertex\" in the facet that begins on line 2 (a facet has a normal and one loop of three vertices), found \"endloop\""},
		{"four vertices", edit("endloop", "vertex 1 1 1\nendloop"), 7, "expected \"endloop\" in the facet that begins on line 2"},
		{"no normal", edit("normal 0 0 1", ""), 3, "expected \"normal\" in the facet that begins on line 2"},
		{"short normal", edit("normal 0 0 1", "normal 0 0"), 3, "three numbers are expected for the normal, found \"outer\""},
		{"misspelt", edit("vertex 0 1 0", "vertx 0 1 0"), 6, "expected \"vertex\""},
		{"CR LF lines are counted once", strings.ReplaceAll(edit("1 0 0", "1 nan 0"), "\n", "\r\n"), 5, "\"nan\""},
		{"CR lines are counted", strings.ReplaceAll(edit("1 0 0", "1 nan 0"), "\n", "\r"), 5, "\"nan\""},
		{"blank lines are counted", strings.Repeat("\n", 100_000) + edit("1 0 0", "1 nan 0"), 100_005, "\"nan\""},
		{"no solid after blank lines", strings.Repeat("\n", 100) + oneFacet, 101, "expected \"solid\" at the start of the file, found \"facet\""},
		{"nothing but blank lines", strings.Repeat("\n", 100), 101, "the file ends and has no facet"},
		{"solid within a solid", "solid a\n" + oneFacet + "solid b\n" + oneFacet + "endsolid\n", 9, "in the solid that begins on line 1, found \"solid\""},
		{"something after the end", "solid a\n" + oneFacet + "endsolid a\nthe end\n", 10, "expected \"solid\" after the end of a solid, found \"the\""},
		{"second solid cut off", "solid a\n" + oneFacet + "endsolid a\nsolid b\n" + oneFacet, 18, "in the solid that begins on line 10, found the end of the file"},
		{"endless word", edit("vertex 1", "vertex "+strings.Repeat("1", 1e6)), 5, "a word of more than 1024 characters, which begins with \"1111"},
		{"control characters are spelled out", edit("endfacet", "\x1b[31m"), 8, "found \"\\x1b[31m\""},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			mesh, info, err := readSTL([]byte(tt.in))
			fault := asFileError(t, err)
			assert.Contains(t, fault.Msg, tt.want)
			assert.Equal(t, tt.line, fault.Line)
			assert.Zero(t, fault.Triangle)
			assert.Zero(t, mesh)
			assert.Zero(t, info)
		})
	}
}

func TestFileErrorText(t *testing.T) {
	assert.EqualError(t, &geom.FileError{Line: 7, Msg: "bad", Fix: "mend"}, "line 7: bad\n\tfix: mend")
	assert.EqualError(t, &geom.FileError{Triangle: 7, Msg: "bad", Fix: "mend"}, "triangle 7: bad\n\tfix: mend")
	assert.EqualError(t, &geom.FileError{Msg: "bad", Fix: "mend"}, "bad\n\tfix: mend")
}

// A count that a file only claims must cost nothing.
func TestHugeCountAllocatesNothing(t *testing.T) {
	file := append(head("cube", 19_000_000), make([]byte, 5000)...)
	var before, after runtime.MemStats
	runtime.ReadMemStats(&before)
	_, _, err := readSTL(file)
	runtime.ReadMemStats(&after)
	require.Error(t, err)
	assert.Less(t, after.TotalAlloc-before.TotalAlloc, uint64(1<<20))
}
