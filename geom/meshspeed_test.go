package geom

import (
	"encoding/binary"
	"os"
	"path/filepath"
	"runtime"
	"slices"
	"sync/atomic"
	"testing"
	"time"

	"github.com/hschendel/stl"
	"github.com/stretchr/testify/require"
)

const (
	speedFacets = 5_000_000 // of the binary file, 250 MB
	speedText   = 300_000   // of the text file, about 65 MB
	slowText    = 20_000    // of that which the library reads: it takes seconds for the other
)

// speedFile writes a file once, for the page cache to hold.
func speedFile(b *testing.B, name string, content []byte) string {
	path := filepath.Join(b.TempDir(), name)
	require.NoError(b, os.WriteFile(path, content, 0o600))
	return path
}

// medians runs the ways in turn, ten times, and gives the middle time of each.
func medians(ways ...func()) []float64 {
	times := make([][]float64, len(ways))
	for range 10 {
		for i, way := range ways {
			start := time.Now()
			way()
			times[i] = append(times[i], time.Since(start).Seconds())
		}
	}
	middle := make([]float64, len(ways))
	for i, t := range times {
		slices.Sort(t)
		middle[i] = (t[4] + t[5]) / 2
	}
	return middle
}

// plainLoop is what a program would do with the library alone.
type plainLoop struct{ volume float64 }

func (*plainLoop) SetName(string)          {}
func (*plainLoop) SetBinaryHeader([]byte)  {}
func (*plainLoop) SetASCII(bool)           {}
func (*plainLoop) SetTriangleCount(uint32) {}
func (p *plainLoop) AppendTriangle(t stl.Triangle) {
	var v [3]Vec
	for i, c := range t.Vertices {
		v[i] = Vec{float64(c[0]), float64(c[1]), float64(c[2])}
	}
	p.volume += v[0].Dot(v[1].Cross(v[2])) / 6
}

// measureFile measures a file as the program does.
func measureFile(b *testing.B, path string, opt MeasureOptions) func() {
	return func() {
		f, err := os.Open(path)
		require.NoError(b, err)
		defer f.Close()
		_, err = MeasureSTL(f, opt)
		require.NoError(b, err)
	}
}

var wordSum atomic.Uint64 // so that the compiler can't leave the sum out

// sumWords reads a file in pieces and sums its words, with as many readers as there
// are cores: the speed that nothing which looks at each byte can pass by much.
func sumWords(b *testing.B, path string) func() {
	return func() {
		f, err := os.Open(path)
		require.NoError(b, err)
		defer f.Close()
		info, err := f.Stat()
		require.NoError(b, err)
		const piece = 256 << 10
		var next atomic.Int64
		AtOnce(runtime.GOMAXPROCS(0), func(int) {
			buffer, sum := make([]byte, piece), uint64(0)
			for at := next.Add(piece) - piece; at < info.Size(); at = next.Add(piece) - piece {
				n, _ := f.ReadAt(buffer, at)
				for i := 0; i+64 <= n; i += 64 {
					p := (*[64]byte)(buffer[i:])
					sum += binary.LittleEndian.Uint64(p[0:]) + binary.LittleEndian.Uint64(p[8:]) +
						binary.LittleEndian.Uint64(p[16:]) + binary.LittleEndian.Uint64(p[24:]) +
						binary.LittleEndian.Uint64(p[32:]) + binary.LittleEndian.Uint64(p[40:]) +
						binary.LittleEndian.Uint64(p[48:]) + binary.LittleEndian.Uint64(p[56:])
				}
			}
			wordSum.Add(sum)
		})
	}
}

// BenchmarkMeshSpeed holds the ways to measure a mesh side by side, on files in the
// page cache, with all cores but where a core is named. "library-x" is how many
// times as fast as the library with a plain loop (which uses one core, and computes
// the volume alone), "read-%" what part of the speed of reading and summing.
func BenchmarkMeshSpeed(b *testing.B) {
	mesh := ringMesh(speedFacets)
	binaryFile := speedFile(b, "binary.stl", binarySTL(mesh, Vec{}))
	textFile := speedFile(b, "text.stl", textSTL(ringMesh(speedText), "%.8e"))
	slowFile := speedFile(b, "slow.stl", textSTL(ringMesh(slowText), "%.8e"))
	library := func(path string) func() { return func() { require.NoError(b, stl.CopyFile(path, &plainLoop{})) } }

	b.Run("binary", func(b *testing.B) {
		for b.Loop() {
			t := medians(library(binaryFile), sumWords(b, binaryFile),
				measureFile(b, binaryFile, MeasureOptions{SkipClosure: true}), measureFile(b, binaryFile, MeasureOptions{}))
			for i, name := range []string{2: "sums", 3: "and-closed"} {
				if name != "" {
					b.ReportMetric(t[0]/t[i], name+"/library-x")
					b.ReportMetric(100*t[1]/t[i], name+"/read-%")
				}
			}
		}
	})
	b.Run("text", func(b *testing.B) {
		for b.Loop() {
			t := medians(library(slowFile), sumWords(b, textFile), measureFile(b, textFile, MeasureOptions{}))
			b.ReportMetric(t[0]*speedText/slowText/t[2], "and-closed/library-x")
			b.ReportMetric(100*t[1]/t[2], "and-closed/read-%")
		}
	})
	b.Run("edges", func(b *testing.B) {
		for name, file := range map[string][]byte{"ordered": binarySTL(mesh, Vec{}), "shuffled": shuffled(binarySTL(mesh, Vec{}))} {
			b.Run(name, func(b *testing.B) {
				src := binaryFacets{stlFile{in: &inMemory{file}, size: int64(len(file))}, len(mesh.Faces)}
				b.ReportAllocs()
				for b.Loop() {
					_, err := src.edges()
					require.NoError(b, err)
				}
				b.ReportMetric(float64(b.Elapsed().Nanoseconds())/float64(b.N)/float64(len(mesh.Faces))*float64(runtime.GOMAXPROCS(0)), "ns/facet/core")
			})
		}
	})
}

// inMemory is a file without a cost to open it.
type inMemory struct{ content []byte }

func (m *inMemory) ReadAt(p []byte, at int64) (int, error) { return copy(p, m.content[at:]), nil }

// BenchmarkLookOver is all that is done to a mesh before it is weighed.
func BenchmarkLookOver(b *testing.B) {
	path := speedFile(b, "mesh.stl", binarySTL(ringMesh(1_000_000), Vec{}))
	for b.Loop() {
		f, err := os.Open(path)
		require.NoError(b, err)
		mesh, info, err := ReadMesh(f, "stl", Limits{})
		require.NoError(b, err)
		require.Empty(b, info.Streamed.Against(mesh, Examine(mesh)))
		require.NoError(b, f.Close())
	}
}
