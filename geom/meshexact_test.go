package geom

import (
	"bytes"
	"fmt"
	"io"
	"math/big"
	"runtime"
	"testing"

	"github.com/stretchr/testify/require"
)

// exactly sums the moments of the facets of a mesh about a point in 600 bits: the
// formula of [Mesh.MomentsAbout], without a rounding that could tell.
func exactly(m Mesh, about Vec) (volume float64, central [3]float64) {
	number := func(x float64) *big.Float { return new(big.Float).SetPrec(600).SetFloat64(x) }
	mul := func(a, b *big.Float) *big.Float { return new(big.Float).SetPrec(600).Mul(a, b) }
	plus := func(list ...*big.Float) *big.Float {
		sum := number(0)
		for _, x := range list {
			sum.Add(sum, x)
		}
		return sum
	}
	minus := func(a, b *big.Float) *big.Float { return new(big.Float).SetPrec(600).Sub(a, b) }
	var v = number(0)
	var first, second [3]*big.Float
	for i := range 3 {
		first[i], second[i] = number(0), number(0)
	}
	for i := range m.Faces {
		var p [3][3]*big.Float
		a, b, c := m.Triangle(i)
		for k, corner := range []Vec{a, b, c} {
			for axis := range 3 {
				p[k][axis] = minus(number(corner[axis]), number(about[axis]))
			}
		}
		cross := func(i, j int) *big.Float { return minus(mul(p[1][i], p[2][j]), mul(p[1][j], p[2][i])) }
		d := plus(mul(p[0][0], cross(1, 2)), mul(p[0][1], cross(2, 0)), mul(p[0][2], cross(0, 1)))
		v = plus(v, d)
		for axis := range 3 {
			s := plus(p[0][axis], p[1][axis], p[2][axis])
			first[axis] = plus(first[axis], mul(d, s))
			squares := plus(mul(s, s), mul(p[0][axis], p[0][axis]), mul(p[1][axis], p[1][axis]), mul(p[2][axis], p[2][axis]))
			second[axis] = plus(second[axis], mul(d, squares))
		}
	}
	v.Quo(v, number(6))
	volume, _ = v.Float64()
	for axis := range 3 {
		f := new(big.Float).SetPrec(600).Quo(first[axis], number(24))
		s := new(big.Float).SetPrec(600).Quo(second[axis], number(120))
		central[axis], _ = minus(s, new(big.Float).SetPrec(600).Quo(mul(f, f), v)).Float64()
	}
	return volume, central
}

// A part many sizes away from its datum, against exact arithmetic on the corners
// that stand in the file: volume to 1e-14, second moments about the CG to 1e-12,
// from the bytes and from the mesh.
func TestFarFromTheDatumNothingIsLost(t *testing.T) {
	ring := ringMesh(3_000) // 8 m across
	for _, sizes := range []float64{0, 1e2, 1e4, 1e6} {
		by := Vec{8 * sizes, -5 * sizes, 3 * sizes}
		for name, file := range map[string][]byte{
			"binary": binarySTL(ring, by), "text": textSTL(ring.Posed(Still().Shifted(by)), "%.17g"),
		} {
			t.Run(fmt.Sprintf("%s, %g sizes away", name, sizes), func(t *testing.T) {
				if name == "binary" && sizes > 1e5 {
					t.Skip("float32 holds nothing of the shape there")
				}
				mesh, info, err := ReadMesh(bytes.NewReader(file), "stl", Limits{})
				require.NoError(t, err)
				volume, central := exactly(mesh, info.Streamed.Origin)
				for way, m := range map[string]Moments{"bytes": info.Streamed.About, "mesh": mesh.MomentsAbout(info.Streamed.Origin)} {
					require.InEpsilon(t, volume, m.Volume, 1e-14, way)
					for axis := range 3 {
						got := m.Second.At(axis, axis) - m.First[axis]*m.First[axis]/m.Volume
						require.InEpsilon(t, central[axis], got, 1e-12, way)
					}
				}
			})
		}
	}
}

// What is found in a mesh is the same to the last bit for any number of workers.
func TestExamineIsTheSameForAnyWorkers(t *testing.T) {
	file := binarySTL(ringMesh(60_000), Vec{1, 2, 3})
	file = append(file, file[binaryHeader:][:3*binaryTriangle]...) // three facets twice
	file[80] += 3
	look := func(processors int) (Mesh, Health) {
		defer runtime.GOMAXPROCS(runtime.GOMAXPROCS(processors))
		mesh, _, err := ReadMesh(bytes.NewReader(file), "stl", Limits{})
		require.NoError(t, err)
		return mesh, Examine(mesh)
	}
	mesh, health := look(1)
	require.Equal(t, 3, health.Duplicate)
	for _, processors := range []int{2, 3, 8} {
		again, same := look(processors)
		require.Equal(t, mesh, again)
		require.Equal(t, health, same)
	}
}

// endlessText is a text file that repeats a facet, so that its length costs nothing.
type endlessText struct {
	facets int64
	facet  string
}

const (
	textHead = "solid long\n"
	textTail = "endsolid long\n"
)

func (e endlessText) size() int64 {
	return int64(len(textHead)+len(textTail)) + e.facets*int64(len(e.facet))
}

func (e endlessText) ReadAt(p []byte, at int64) (int, error) {
	body := e.size() - int64(len(textTail))
	for i := range p {
		switch place := at + int64(i); {
		case place < int64(len(textHead)):
			p[i] = textHead[place]
		case place < body:
			p[i] = e.facet[(place-int64(len(textHead)))%int64(len(e.facet))]
		case place < e.size():
			p[i] = textTail[place-body]
		default:
			return i, io.EOF
		}
	}
	return len(p), nil
}

func TestMeasureSTLOfTextMemory(t *testing.T) {
	e := endlessText{300_000, "facet normal 0 0 1\nouter loop\nvertex 1.25 0 0\nvertex 0 1e-3 0\nvertex 0 0 -7.5\nendloop\nendfacet\n"}
	var before, after runtime.MemStats
	runtime.ReadMemStats(&before)
	m, err := MeasureSTL(io.NewSectionReader(e, 0, e.size()), MeasureOptions{Workers: 4})
	runtime.ReadMemStats(&after)
	require.NoError(t, err)
	require.EqualValues(t, e.facets, m.Triangles)
	require.False(t, m.Closed)
	require.Less(t, after.TotalAlloc-before.TotalAlloc, uint64(8<<20), "of a file of %d MB", e.size()>>20)
}
