package geom

import (
	"fmt"
	"io"
	"strings"
)

// MeshInfo says what kind of file a mesh came from.
type MeshInfo struct {
	Kind      string   // "binary STL", "text STL", "OBJ", "text PLY", "binary PLY", "3MF"
	Unit      float64  // metres in one unit of the file; 0 where the format has no unit, so that it must be asked for
	Solids    int      // solids that the file itself tells apart and that hold a facet
	Name      string   // the first name in the file, without control characters
	Triangles int      // all of the file, degenerate facets included
	Notes     []string // what the planner must know of how the file was read; nil if nothing

	Streamed *Measured // of an STL file: what it comes to by another way, straight from its bytes; see [Measured.Against]
}

// meshKind is a kind of mesh file that can be read.
type meshKind struct {
	ending string
	read   func(io.Reader, Limits) (Mesh, MeshInfo, error)
}

var meshKinds = []meshKind{
	{".stl", readSTLMesh},
	{".obj", ReadOBJ},
	{".ply", ReadPLY},
	{".3mf", Read3MF},
}

// MeshEndings lists the endings of the mesh files that [ReadMesh] reads, in
// lower-case letters and with their point.
func MeshEndings() []string {
	var endings []string
	for _, kind := range meshKinds {
		endings = append(endings, kind.ending)
	}
	return endings
}

// ReadMesh reads a mesh file of the kind that its name's ending says, in any
// case of letters, with or without the point. The mesh is in the file's own
// unit, unscaled; MeshInfo.Unit says what that unit is where the file knows.
//
// Every error is a *FileError, and then the mesh is empty.
func ReadMesh(r io.Reader, ending string, lim Limits) (Mesh, MeshInfo, error) {
	want := strings.ToLower(ending)
	for _, kind := range meshKinds {
		if want == kind.ending || "."+want == kind.ending {
			return kind.read(r, lim)
		}
	}
	return Mesh{}, MeshInfo{}, &FileError{
		Msg: fmt.Sprintf("files ending in %s are not read as a mesh", quoted([]byte(ending))),
		Fix: "export the part as one of " + strings.Join(MeshEndings(), ", ")}
}

func readSTLMesh(r io.Reader, lim Limits) (Mesh, MeshInfo, error) {
	lim = lim.orDefault()
	file, err := openSTL(r, lim)
	if err != nil {
		return Mesh{}, MeshInfo{}, err
	}
	mesh, info, err := file.read(lim)
	if err != nil {
		return Mesh{}, MeshInfo{}, err
	}
	streamed, err := file.measure(lim, MeasureOptions{CountEdges: true})
	if err != nil {
		return Mesh{}, MeshInfo{}, err
	}
	kind := "text STL"
	if info.Binary {
		kind = "binary STL"
	}
	return mesh, MeshInfo{Kind: kind, Solids: info.Solids, Name: info.Name, Triangles: info.Triangles, Streamed: &streamed}, nil
}
