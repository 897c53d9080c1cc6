package geom_test

import (
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"plumbhook/geom"
)

func readOBJ(in string) (geom.Mesh, geom.MeshInfo, error) {
	return geom.ReadOBJ(strings.NewReader(in), geom.Limits{})
}

// A cube of side 1 with square faces.
const (
	unitVertices = "v 0 0 0\nv 1 0 0\nv 1 1 0\nv 0 1 0\nv 0 0 1\nv 1 0 1\nv 1 1 1\nv 0 1 1\n"
	unitFaces    = "f 4 3 2 1\nf 5 6 7 8\nf 1 2 6 5\nf 3 4 8 7\nf 1 5 8 4\nf 2 3 7 6\n"
	unitCube     = unitVertices + unitFaces
)

// Every way of writing the same cube gives volume 1 and a closed surface.
func TestOBJVariants(t *testing.T) {
	edited := func(old, by string) string { return strings.ReplaceAll(unitCube, old, by) }
	one := geom.MeshInfo{Solids: 1}
	tests := []struct {
		name, in string
		want     geom.MeshInfo
	}{
		{"plain", unitCube, one},
		{"CR LF", edited("\n", "\r\n"), one},
		{"CR", edited("\n", "\r"), one},
		{"no last line end", strings.TrimSpace(unitCube), one},
		{"byte order mark, tabs and blank lines", "\xef\xbb\xbf\n\n" + edited(" ", " \t "), one},
		{"texture and normal", "vt 0 0\nvn 0 0 1\n" + unitVertices + "f 4/1/1 3/1/1 2/1/1 1/1/1\nf 5//1 6//1 7//1 8//1\nf 1/1 2/1 6/1 5/1\n" + unitFaces[30:], one},
		{"counted back", unitVertices + "f -5 -6 -7 -8\nf -4 -3 -2 -1\n" + unitFaces[20:], one},
		{"comments", "# by hand\n" + edited("\nf", " # point\nf"), one},
		{"a line that goes on", strings.Replace(edited("f 4 3", "f 4 \\\n3"), "f 5 6", "f 5\\\r\n 6", 1), one},
		{"weights", edited(" 0 1\n", " 0 1 1.0\n"), one},
		{"colours", edited(" 1 0\n", " 1 0 0.5 0.5 0.5\n"), one},
		{"old word for a face", edited("f 1", "fo 1"), one},
		{"group, material and the like", "mtllib a b.mtl\no housing \ng shell flange\nusemtl steel\ns off\n" + unitCube + "l 1 2\np 1\n", geom.MeshInfo{Solids: 1, Name: "housing"}},
		{"groups are no solids", "g one\n" + edited("f 1 2", "g two\nf 1 2"), geom.MeshInfo{Solids: 1, Name: "one"}},
		{"objects are", "o one\n" + edited("f 1 2", "o two\nf 1 2") + "o three, without a face\n", geom.MeshInfo{Solids: 2, Name: "one"}},
		{"a vertex that no face uses", unitVertices + "v 99 99 99\n" + unitFaces, one},
		{"vertices twice", unitVertices + "f 1 2 6 5\n" + unitVertices + strings.Replace(unitFaces, "f 1 2 6 5\n", "", 1), one},
		{"a corner twice, and a point on an edge", edited("f 4 3 2 1", "v 0.5 1 0\nf 4 9 3 3 2 1\nf 4 3 9"), geom.MeshInfo{Solids: 1, Triangles: 14}},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			mesh, info, err := readOBJ(tt.in)
			require.NoError(t, err)
			tt.want.Kind, tt.want.Triangles = "OBJ", max(tt.want.Triangles, 12)
			assert.Equal(t, tt.want, info)
			assert.Equal(t, geom.Extent{Max: geom.Vec{1, 1, 1}}, mesh.Extent())
			assert.Empty(t, geom.Examine(mesh).Faults())
			assert.InDelta(t, 1.0, mesh.Moments().Volume, 1e-15)
		})
	}
}

// extruded writes a plate of height 1 whose top and bottom are one face each.
func extruded(outline string) string {
	points := strings.Split(outline, ",")
	var vertices, bottom, top, sides strings.Builder
	number := map[string]int{}
	for _, p := range points {
		if number[p] == 0 {
			number[p] = len(number) + 1
			vertices.WriteString("v " + p + " 0\nv " + p + " 1\n")
		}
	}
	at := func(i, z int) string { return " " + strconv.Itoa(2*number[points[i%len(points)]]-1+z) }
	for i := range points {
		top.WriteString(at(i, 1))
		bottom.WriteString(at(len(points)-1-i, 0))
		sides.WriteString("f" + at(i, 0) + at(i+1, 0) + at(i+1, 1) + at(i, 1) + "\n")
	}
	return vertices.String() + "f" + top.String() + "\nf" + bottom.String() + "\n" + sides.String()
}

// Faces with notches, and with a hole that a double side ties to the outline.
// Wants by counting squares.
func TestOBJFacesWithNotches(t *testing.T) {
	tests := []struct {
		name, outline string
		volume, area  float64 // area of all facets
		walls         int     // double ones, of the tie
	}{
		{"L", "0 0,2 0,2 1,1 1,1 2,0 2", 3, 2*3 + 8, 0},
		{"comb", "0 0,5 0,5 2,4 2,4 1,3 1,3 2,2 2,2 1,1 1,1 2,0 2", 8, 2*8 + 18, 0},
		{"frame", "0 0,3 0,3 3,0 3,0 0,1 1,1 2,2 2,2 1,1 1", 8, 2*8 + 12 + 4, 1},
		{"points on sides", "0 0,1 0,2 0,2 1,1 1,1 1.5,1 2,0 2,0 1", 3, 2*3 + 8, 0},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			mesh, info, err := readOBJ(extruded(tt.outline))
			require.NoError(t, err)
			assert.Nil(t, info.Notes)
			h := geom.Examine(mesh)
			assert.True(t, h.Sound(), h.Faults())
			assert.InDelta(t, tt.volume, h.Volume, 1e-14)
			if tt.walls == 0 {
				assert.InDelta(t, tt.area, h.Area, 1e-14)
				assert.Equal(t, 1, h.Shells)
			} else {
				assert.InDelta(t, 2*8+12+4+2*1.4142135623730951, h.Area, 1e-14, "with both sides of the tie")
			}
		})
	}
}

// A face whose corners are in no plane can be cut in two ways. With one corner
// of a unit square lifted by 0.3 the volume below it grows by 0.3/3 if the cut
// goes through that corner, and by 0.3/6 if it goes past it.
func TestOBJFaceThatIsNotFlatIsTold(t *testing.T) {
	mesh, info, err := readOBJ(strings.Replace(unitCube, "v 1 1 1", "v 1 1 1.3", 1))
	require.NoError(t, err)
	assert.Empty(t, geom.Examine(mesh).Faults())
	assert.InDelta(t, 1.1, mesh.Moments().Volume, 1e-15, "cut from its first corner to the lifted one")
	require.Len(t, info.Notes, 1)
	assert.Contains(t, info.Notes[0], "1 face is not flat; the worst, on line 10, by ")
	assert.Contains(t, info.Notes[0], "could be different by up to 0.15 ", "it is different by 0.05")
}

func TestBadOBJFiles(t *testing.T) {
	tests := []struct {
		name, in string
		line     int
		want     string
	}{
		{"empty", "", 0, "the file has no vertices and no faces"},
		{"only comments", "# nothing\n", 0, "the file has no vertices and no faces"},
		{"only points", unitVertices + "l 1 2\n", 10, "the file ends and has no face: points and lines alone have no volume"},
		{"no OBJ", "solid cube\n", 1, "\"solid\" is not a word of an OBJ file"},
		{"binary", "\x00\x01\x02 v 1", 1, "\"\\x00\\x01\\x02\" is not a word of an OBJ file"},
		{"curve", unitVertices + "cstype bspline\ndeg 3\n", 9, "\"cstype\" belongs to free-form curves and surfaces or to a command"},
		{"command", "call other.obj\n", 1, "\"call\" belongs to free-form curves"},
		{"two numbers", "v 1 2\n", 1, "a vertex has three numbers, or four with a weight, or six or seven with a colour; here are 2"},
		{"five numbers", "v 1 2 3 4 5\n", 1, "here are 5"},
		{"nan", "v 0 0 0\nv 1 nan 3\n", 2, "y of a vertex, \"nan\", is not a finite number"},
		{"decimal comma", "v 1,5 0 0\n", 1, "x of a vertex, \"1,5\", has a comma: the decimal sign in such a file is a point"},
		{"beyond any drawing", "v 0 0 1e13\n", 1, "z of a vertex, \"1e13\", is 1e+13, beyond any drawing"},
		{"colour that is no number", "v 0 0 0 red 0 0\n", 1, "\"red\" after a vertex is not a number"},
		{"two corners", unitVertices + "f 1 2\n", 9, "a face has three corners or more; here are 2"},
		{"index 0", unitVertices + "f 0 1 2\n", 9, "vertex 0 is not there: 8 vertices come before this face, numbered from 1 or back from -1"},
		{"index too high", unitVertices + "f 1 2 9\n", 9, "vertex 9 is not there: 8 vertices come before this face"},
		{"index too low", unitVertices + "f 1 2 -9\n", 9, "vertex -9 is not there"},
		{"vertices after the face", "f 1 2 3\n" + unitVertices, 1, "vertex 1 is not there: 0 vertices come before this face"},
		{"no index", unitVertices + "f 1 2 x\n", 9, "\"x\" is not the corner of a face"},
		{"half an index", unitVertices + "f 1/ 2/ 3/\n", 9, "\"1/\" is not the corner of a face"},
		{"four parts", unitVertices + "f 1/1/1/1 2 3\n", 9, "\"1/1/1/1\" is not the corner of a face"},
		{"crossed face", unitVertices + "f 1 2 4 3\n", 9, "the sides of this face cross, so that it has no clear inside"},
		{"crossed face with an area", unitVertices + "v 3 0.5 0\nf 1 9 4 3\n", 10, "the sides of this face cross"},
		{"star", "v 0 1 0\nv -0.59 -0.81 0\nv 0.95 0.31 0\nv -0.95 0.31 0\nv 0.59 -0.81 0\nf 1 2 3 4 5\n", 6, "the sides of this face cross"},
		{"line numbers count continued lines", unitVertices + "f 1 \\\n2 \\\n3\nx\n", 12, "\"x\" is not a word"},
		{"endless word", "v " + strings.Repeat("1", 1e6), 1, "a word of more than 1024 characters"},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			mesh, info, err := readOBJ(tt.in)
			fault := asFileError(t, err)
			assert.Contains(t, fault.Msg, tt.want)
			assert.Equal(t, tt.line, fault.Line)
			assert.Zero(t, mesh)
			assert.Zero(t, info)
		})
	}
}
