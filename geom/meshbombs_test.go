package geom_test

import (
	"archive/zip"
	"bytes"
	"encoding/binary"
	"fmt"
	"runtime"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"plumbhook/geom"
)

// allocated is how many bytes a piece of work takes from the heap in all, given back
// in between or not: a figure that does not hang on the speed of a machine.
func allocated(work func()) int64 {
	var before, after runtime.MemStats
	runtime.GC()
	runtime.ReadMemStats(&before)
	work()
	runtime.ReadMemStats(&after)
	return int64(after.TotalAlloc - before.TotalAlloc)
}

// TestMeshBombs: small files that promise or unfold to what no memory holds are
// refused, in words that say how a limit is raised, and in little memory.
func TestMeshBombs(t *testing.T) {
	const megabyte = 1 << 20
	var nested strings.Builder
	nested.WriteString(icosphere(1).meshXML(1))
	for id := 2; id <= 10; id++ {
		apart := ""
		for i := range 10 {
			apart += fmt.Sprintf(`<component objectid="%d" transform="1 0 0 0 1 0 0 0 1 %d 0 0"/>`, id-1, i*id*id)
		}
		fmt.Fprintf(&nested, `<object id="%d"><components>%s</components></object>`, id, apart)
	}
	var many bytes.Buffer
	z := zip.NewWriter(&many)
	for i := range 150_000 {
		_, err := z.CreateRaw(&zip.FileHeader{Name: fmt.Sprint(i)})
		require.NoError(t, err)
	}
	require.NoError(t, z.Close())
	promised := append(make([]byte, 80), 0xff, 0xff, 0xff, 0x7f)
	plyHead := "ply\nformat ascii 1.0\nelement vertex 2000000000\nproperty float x\nproperty float y\nproperty float z\nelement face 2000000000\nproperty list int int vertex_indices\nend_header\n"
	list := "ply\nformat binary_little_endian 1.0\nelement vertex 1\nproperty float x\nproperty float y\nproperty float z\nelement face 1\nproperty list int int vertex_indices\nend_header\n"
	for name, tt := range map[string]struct {
		ending    string
		data      []byte
		says, fix string
		most      int64
	}{
		"3MF, copies of copies":        {".3mf", package3MF(t, modelXML("", nested.String(), `<item objectid="10"/>`)), "more triangles than the limit of 2000000", "--most-triangles", 1200 * megabyte},
		"3MF of many files":            {".3mf", many.Bytes(), "packed of more than 100000 files", "export", 60 * megabyte},
		"STL that promises all":        {".stl", promised, "2147483647", "export", 20 * megabyte},
		"text STL of one long word":    {".stl", []byte("solid " + strings.Repeat("a", 8*megabyte)), "", "", 20 * megabyte},
		"PLY that promises all":        {".ply", []byte(plyHead), "", "", 20 * megabyte},
		"PLY, a face without end":      {".ply", append([]byte(list), append(make([]byte, 12), binary.LittleEndian.AppendUint32(nil, 0x7fffffff)...)...), "", "", 20 * megabyte},
		"PLY, a head without end":      {".ply", []byte("ply\nformat ascii 1.0\n" + strings.Repeat("comment\n", megabyte)), "", "", 20 * megabyte},
		"OBJ, a line without end":      {".obj", []byte("v 0 0 0\nf \\" + strings.Repeat("\n\\", 4*megabyte)), "", "", 20 * megabyte},
		"OBJ, a vertex that is far on": {".obj", []byte("v 0 0 0\nf 1 2 2000000000\n"), "", "", 20 * megabyte},
	} {
		t.Run(name, func(t *testing.T) {
			var err error
			took := allocated(func() { _, _, err = geom.ReadMesh(bytes.NewReader(tt.data), tt.ending, geom.Limits{}) })
			fault := asFileError(t, err)
			assert.Contains(t, fault.Msg, tt.says)
			assert.Contains(t, fault.Fix, tt.fix)
			assert.Less(t, len(fault.Error()), 2000)
			assert.Less(t, took, tt.most)
		})
	}
}

// TestLimitsAreNamed: a file beyond a limit is told how to raise it.
func TestLimitsAreNamed(t *testing.T) {
	for name, data := range cube20.files(t) {
		_, ending, _ := strings.Cut(name, ".")
		_, _, err := geom.ReadMesh(bytes.NewReader(data), ending, geom.Limits{Triangles: 11})
		fault := asFileError(t, err)
		assert.Contains(t, fault.Msg+fault.Fix, "limit", name)
		assert.Contains(t, fault.Fix, "--most-triangles", name)
		_, _, err = geom.ReadMesh(bytes.NewReader(data), ending, geom.Limits{Bytes: int64(len(data)) - 1})
		assert.Contains(t, asFileError(t, err).Fix, "--largest-file", name)
		_, _, err = geom.ReadMesh(bytes.NewReader(data), ending, geom.Limits{Triangles: 12, Bytes: int64(len(data)) + 10_000})
		require.NoError(t, err, name)
	}
	_, _, err := geom.ReadDXF(strings.NewReader(drawing(circleAt(60, 60, 20))), geom.Limits{Bytes: 20})
	assert.Contains(t, asFileError(t, err).Fix, "--largest-file")
}
