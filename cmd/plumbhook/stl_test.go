package main

import (
	"bytes"
	"math"
	"os"
	"slices"

	"github.com/hschendel/stl"
	"github.com/rogpeppe/go-internal/testscript"
)

// cube is a closed cube of a side, its lowest corner at the origin, facets
// outward: 12 triangles, written out so that they can be checked by eye.
func cube(side float32) []stl.Triangle {
	var list []stl.Triangle
	for _, f := range [][3][3]float32{
		{{0, 0, 0}, {0, 1, 0}, {1, 1, 0}}, {{0, 0, 0}, {1, 1, 0}, {1, 0, 0}}, // bottom
		{{0, 0, 1}, {1, 0, 1}, {1, 1, 1}}, {{0, 0, 1}, {1, 1, 1}, {0, 1, 1}}, // top
		{{0, 0, 0}, {1, 0, 0}, {1, 0, 1}}, {{0, 0, 0}, {1, 0, 1}, {0, 0, 1}}, // front
		{{0, 1, 0}, {0, 1, 1}, {1, 1, 1}}, {{0, 1, 0}, {1, 1, 1}, {1, 1, 0}}, // back
		{{0, 0, 0}, {0, 0, 1}, {0, 1, 1}}, {{0, 0, 0}, {0, 1, 1}, {0, 1, 0}}, // left
		{{1, 0, 0}, {1, 1, 0}, {1, 1, 1}}, {{1, 0, 0}, {1, 1, 1}, {1, 0, 1}}, // right
	} {
		var t stl.Triangle
		for i, v := range f {
			t.Vertices[i] = stl.Vec3{v[0] * side, v[1] * side, v[2] * side}
		}
		list = append(list, t)
	}
	return list
}

// writeSTL writes a mesh, a cube of 1000 with a fault or without:
// stl cube|text|two|open|inside-out|nan|truncated|solid-head FILE
func writeSTL(ts *testscript.TestScript, neg bool, args []string) {
	if neg || len(args) != 2 {
		ts.Fatalf("usage: stl KIND FILE")
	}
	s := &stl.Solid{Name: "cube", BinaryHeader: make([]byte, 80), Triangles: cube(1000)}
	short := 0
	switch args[0] {
	case "cube":
	case "text", "two":
		s.IsAscii = true
	case "open":
		s.Triangles = s.Triangles[:11]
	case "inside-out":
		for i := range s.Triangles {
			slices.Reverse(s.Triangles[i].Vertices[:])
		}
	case "nan":
		s.Triangles[3].Vertices[1][2] = float32(math.NaN())
	case "truncated":
		short = 70
	case "solid-head":
		copy(s.BinaryHeader, "solid cube, but binary")
	default:
		ts.Fatalf("no mesh %q", args[0])
	}
	var b bytes.Buffer
	ts.Check(s.WriteAll(&b))
	if args[0] == "two" {
		ts.Check(s.WriteAll(&b))
	}
	ts.Check(os.WriteFile(ts.MkAbs(args[1]), b.Bytes()[:b.Len()-short], 0o666))
}
