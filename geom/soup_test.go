package geom_test

import (
	"bytes"
	"fmt"
	"math"
	"strings"

	"github.com/hschendel/stl"
	"github.com/stretchr/testify/require"

	"plumbhook/geom"
)

// soup is a surface as a mesh file holds it: facets that share no vertices.
type soup [][3]geom.Vec

// brick is a box of 12 facets that face outward.
func brick(low, high geom.Vec) soup {
	corner := func(n int) geom.Vec {
		v := low
		for axis := range v {
			if n&(1<<axis) != 0 {
				v[axis] = high[axis]
			}
		}
		return v
	}
	var s soup
	for _, quad := range [][4]int{{0, 2, 3, 1}, {4, 5, 7, 6}, {0, 1, 5, 4}, {2, 6, 7, 3}, {0, 4, 6, 2}, {1, 3, 7, 5}} {
		a, b, c, d := corner(quad[0]), corner(quad[1]), corner(quad[2]), corner(quad[3])
		s = append(s, [3]geom.Vec{a, b, c}, [3]geom.Vec{a, c, d})
	}
	return s
}

// Facets of a brick by the side that they are on.
var (
	bottomOf = []int{0, 1}
	topOf    = []int{2, 3}
)

func cube(side float64) soup { return brick(geom.Vec{}, geom.Vec{side, side, side}) }

// icosphere is a regular icosahedron in the unit sphere whose facets are cut in
// four at the middles of their edges, those lifted to the sphere, `levels` times.
func icosphere(levels int) soup {
	g := (1 + math.Sqrt(5)) / 2
	v := []geom.Vec{{-1, g, 0}, {1, g, 0}, {-1, -g, 0}, {1, -g, 0}, {0, -1, g}, {0, 1, g},
		{0, -1, -g}, {0, 1, -g}, {g, 0, -1}, {g, 0, 1}, {-g, 0, -1}, {-g, 0, 1}}
	var s soup
	for _, f := range [][3]int{{0, 11, 5}, {0, 5, 1}, {0, 1, 7}, {0, 7, 10}, {0, 10, 11},
		{1, 5, 9}, {5, 11, 4}, {11, 10, 2}, {10, 7, 6}, {7, 1, 8},
		{3, 9, 4}, {3, 4, 2}, {3, 2, 6}, {3, 6, 8}, {3, 8, 9},
		{4, 9, 5}, {2, 4, 11}, {6, 2, 10}, {8, 6, 7}, {9, 8, 1}} {
		s = append(s, [3]geom.Vec{v[f[0]].Normalize(), v[f[1]].Normalize(), v[f[2]].Normalize()})
	}
	for range levels {
		var finer soup
		for _, f := range s {
			ab, bc, ca := f[0].Add(f[1]).Normalize(), f[1].Add(f[2]).Normalize(), f[2].Add(f[0]).Normalize()
			finer = append(finer, [3]geom.Vec{f[0], ab, ca}, [3]geom.Vec{f[1], bc, ab}, [3]geom.Vec{f[2], ca, bc}, [3]geom.Vec{ab, bc, ca})
		}
		s = finer
	}
	return s
}

// torus has n facets around its axis and m around its section, each cut in two.
func torus(ring, tube float64, n, m int) soup {
	at := func(i, j int) geom.Vec {
		su, cu := math.Sincos(2 * math.Pi * float64(i%n) / float64(n))
		sv, cv := math.Sincos(2 * math.Pi * float64(j%m) / float64(m))
		return geom.Vec{(ring + tube*cv) * cu, (ring + tube*cv) * su, tube * sv}
	}
	var s soup
	for i := range n {
		for j := range m {
			a, b, c, d := at(i, j), at(i+1, j), at(i+1, j+1), at(i, j+1)
			s = append(s, [3]geom.Vec{a, b, c}, [3]geom.Vec{a, c, d})
		}
	}
	return s
}

func (s soup) and(others ...soup) soup {
	all := append(soup(nil), s...)
	for _, o := range others {
		all = append(all, o...)
	}
	return all
}

func (s soup) without(facets ...int) soup {
	var left soup
	for i, f := range s {
		keep := true
		for _, gone := range facets {
			keep = keep && i != gone
		}
		if keep {
			left = append(left, f)
		}
	}
	return left
}

func (s soup) only(facets ...int) soup {
	var picked soup
	for _, i := range facets {
		picked = append(picked, s[i])
	}
	return picked
}

// turned has the given facets facing the other way; all when none are given.
func (s soup) turned(facets ...int) soup {
	t := append(soup(nil), s...)
	if len(facets) == 0 {
		for i := range t {
			facets = append(facets, i)
		}
	}
	for _, i := range facets {
		t[i][1], t[i][2] = t[i][2], t[i][1]
	}
	return t
}

func (s soup) shifted(by geom.Vec) soup {
	t := append(soup(nil), s...)
	for i := range t {
		for corner := range t[i] {
			t[i][corner] = t[i][corner].Add(by)
		}
	}
	return t
}

func (s soup) mesh() geom.Mesh {
	var m geom.Mesh
	for i, f := range s {
		m.Vertices = append(m.Vertices, f[:]...)
		m.Faces = append(m.Faces, [3]int{3 * i, 3*i + 1, 3*i + 2})
	}
	return m
}

// file encodes the soup with the reference library; coordinates become float32.
func (s soup) file(t require.TestingT, name string, text bool) []byte {
	solid := stl.Solid{Name: name, IsAscii: text}
	for _, f := range s {
		var triangle stl.Triangle
		for i, v := range f {
			triangle.Vertices[i] = stl.Vec3{float32(v[0]), float32(v[1]), float32(v[2])}
		}
		solid.AppendTriangle(triangle)
	}
	solid.RecalculateNormals()
	var out bytes.Buffer
	require.NoError(t, solid.WriteAll(&out))
	return out.Bytes()
}

// text writes the soup with all digits of float64.
func (s soup) text() []byte {
	var out strings.Builder
	out.WriteString("solid soup\n")
	for _, f := range s {
		out.WriteString("facet normal 0 0 0\nouter loop\n")
		for _, v := range f {
			fmt.Fprintf(&out, "vertex %.17g %.17g %.17g\n", v[0], v[1], v[2])
		}
		out.WriteString("endloop\nendfacet\n")
	}
	out.WriteString("endsolid soup\n")
	return []byte(out.String())
}
