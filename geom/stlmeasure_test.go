package geom

import (
	"bytes"
	"encoding/binary"
	"io"
	"math"
	"math/rand/v2"
	"runtime"
	"slices"
	"testing"

	"github.com/stretchr/testify/require"
)

// binarySTL writes a mesh, moved, as the float32 numbers that a file keeps.
func binarySTL(m Mesh, by Vec) []byte {
	out := binary.LittleEndian.AppendUint32(make([]byte, 80), uint32(len(m.Faces)))
	for i := range m.Faces {
		a, b, c := m.Triangle(i)
		for _, v := range []Vec{{}, a.Add(by), b.Add(by), c.Add(by)} {
			for _, x := range v {
				out = binary.LittleEndian.AppendUint32(out, math.Float32bits(float32(x)))
			}
		}
		out = append(out, 0, 0)
	}
	return out
}

func shuffled(file []byte) []byte {
	out := slices.Clone(file)
	body := out[binaryHeader:]
	rand.New(rand.NewPCG(1, 2)).Shuffle(len(body)/binaryTriangle, func(i, j int) {
		var keep [binaryTriangle]byte
		a, b := body[i*binaryTriangle:][:binaryTriangle], body[j*binaryTriangle:][:binaryTriangle]
		copy(keep[:], a)
		copy(a, b)
		copy(b, keep[:])
	})
	return out
}

func measure(t *testing.T, file []byte, opt MeasureOptions) Measured {
	t.Helper()
	m, err := MeasureSTL(bytes.NewReader(file), opt)
	require.NoError(t, err)
	return m
}

// The same bits for any number of workers; 1e-12 for any order of facets.
func TestMeasureSTLIsTheSameForAnyWorkersAndOrder(t *testing.T) {
	file := binarySTL(ringMesh(60_000), Vec{1000, -2000, 500})
	one := measure(t, file, MeasureOptions{Workers: 1})
	for _, workers := range []int{2, 3, 16} {
		require.Equal(t, one, measure(t, file, MeasureOptions{Workers: workers}))
	}
	mixed := measure(t, shuffled(file), MeasureOptions{})
	require.True(t, one.Closed && mixed.Closed)
	require.InEpsilon(t, one.About.Volume, mixed.About.Volume, 1e-12)
	inertia, other := one.About.Central(), mixed.About.Central()
	for i := range 3 {
		require.InEpsilon(t, inertia.At(i, i), other.At(i, i), 1e-12)
	}
	require.Equal(t, one.Box, mixed.Box)
}

// Held against the mesh reader, whose decoding is the library's, and its sums.
func TestMeasureSTLAgreesWithTheMesh(t *testing.T) {
	for _, by := range []Vec{{}, {300, 0, 0}, {30_000, 40_000, -50_000}} {
		file := binarySTL(ringMesh(20_000), by)
		mesh, _, err := ReadSTL(bytes.NewReader(file), Limits{})
		require.NoError(t, err)
		got := measure(t, file, MeasureOptions{})
		want := mesh.MomentsAbout(got.Origin)
		require.InEpsilon(t, want.Volume, got.About.Volume, 1e-13, "moved by %v", by)
		require.InDelta(t, 0, got.About.Centroid().Sub(want.Centroid()).Len(), 1e-12)
		for i := range 3 {
			require.InEpsilon(t, want.Central().At(i, i), got.About.Central().At(i, i), 1e-12, "moved by %v", by)
		}
		require.Equal(t, mesh.Extent(), got.Box)
		require.Equal(t, Examine(mesh).Closed(), got.Closed)
	}
}

// A cube of integers, 10⁶ sizes away: V = 8, ∫x² about its middle = V·2²/12.
// From the closed form of a box. Float32 numbers there are 0.125 apart.
func TestMeasureSTLFarFromTheDatum(t *testing.T) {
	cube := made(NewBox(2, 2, 2)).Mesh(0)
	m := measure(t, binarySTL(cube, Vec{2e6, 2e6, 2e6}), MeasureOptions{})
	require.InEpsilon(t, 8, m.About.Volume, 1e-14)
	for i := range 3 {
		require.InEpsilon(t, 8*4/12.0, m.About.Central().At(i, i), 1e-12)
	}
	require.Equal(t, 0.125, m.Spacing) // 2e6 is between 2²⁰ and 2²¹: 2²⁰⁻²³
}

func TestMeasureSTLSeesAnOpenSurface(t *testing.T) {
	whole := binarySTL(ringMesh(2_000), Vec{})
	for name, harm := range map[string]func([]byte) []byte{
		"one facet less": func(f []byte) []byte {
			binary.LittleEndian.PutUint32(f[80:], binary.LittleEndian.Uint32(f[80:])-1)
			return f[:len(f)-binaryTriangle]
		},
		"one facet turned over": func(f []byte) []byte {
			p := f[binaryHeader+700*binaryTriangle:]
			a := slices.Clone(p[12:24])
			copy(p[12:24], p[24:36])
			copy(p[24:36], a)
			return f
		},
		"one bit of one corner": func(f []byte) []byte { f[binaryHeader+300*binaryTriangle+12] ^= 1; return f },
	} {
		t.Run(name, func(t *testing.T) {
			require.True(t, measure(t, whole, MeasureOptions{}).Closed)
			require.False(t, measure(t, harm(slices.Clone(whole)), MeasureOptions{}).Closed)
		})
	}
	minus := slices.Clone(whole) // −0 and +0 are one place
	for at := binaryHeader; at < len(minus); at += 3 * binaryTriangle {
		for k := range 9 {
			if p := minus[at+12+4*k:]; binary.LittleEndian.Uint32(p) == 0 {
				p[3] = 0x80
			}
		}
	}
	require.NotEqual(t, whole, minus)
	require.True(t, measure(t, minus, MeasureOptions{}).Closed)
}

func TestMeasureSTLRefuses(t *testing.T) {
	whole := binarySTL(ringMesh(20_000), Vec{})
	bad := slices.Clone(whole)
	binary.LittleEndian.PutUint32(bad[binaryHeader+12_345*binaryTriangle+28:], math.Float32bits(float32(math.NaN())))
	long := append(slices.Clone(whole), 1)
	for want, file := range map[string][]byte{
		"triangle 12346: y of vertex 2 is not a number": bad,
		"and 1 bytes more":         long,
		"it is cut off":            whole[:len(whole)-7],
		"holds 0 and 6 bytes more": whole[:90],
	} {
		_, err := MeasureSTL(bytes.NewReader(file), MeasureOptions{})
		var fault *FileError
		require.ErrorAs(t, err, &fault)
		require.ErrorContains(t, err, want)
	}
}

// endless is a file that repeats its triangles, so that its length costs no memory.
type endless struct {
	head [binaryHeader]byte
	body []byte
}

func (e endless) ReadAt(p []byte, at int64) (int, error) {
	n := 0
	if at < binaryHeader {
		n = copy(p, e.head[at:])
	}
	for n < len(p) {
		n += copy(p[n:], e.body[(at+int64(n)-binaryHeader)%int64(len(e.body)):])
	}
	return n, nil
}

func TestMeasureSTLMemory(t *testing.T) {
	const triangles = 8_000_000
	file := endless{body: binarySTL(ringMesh(2_000), Vec{})[binaryHeader:]}
	binary.LittleEndian.PutUint32(file.head[80:], triangles)
	var before, after runtime.MemStats
	runtime.ReadMemStats(&before)
	_, err := MeasureSTL(io.NewSectionReader(file, 0, binaryHeader+binaryTriangle*triangles), MeasureOptions{Workers: 16})
	runtime.ReadMemStats(&after)
	require.NoError(t, err)
	require.Less(t, after.TotalAlloc-before.TotalAlloc, uint64(8<<20), "all that was ever allocated, so the heap is smaller")
}
