package geom

import (
	"fmt"
	"math"
	"slices"
)

const (
	mostPlaced     = 1_000_000 // objects
	freelyPlaced   = 2_000_000 // triangles, however few the file holds
	mostPlacedEach = 20        // times, above that
)

// builder3MF puts the objects of the build in their places.
type builder3MF struct {
	model  *model3MF
	build  *meshBuilder
	most   int // triangles
	placed int // objects, with those that only hold others
	info   MeshInfo
	left   map[string]int // by type, how many objects were left out
}

// built returns all that the build lists as one mesh of at most so many triangles.
func (m *model3MF) built(most int) (Mesh, MeshInfo, error) {
	b := builder3MF{model: m, build: newMeshBuilder(), most: most, left: map[string]int{},
		info: MeshInfo{Kind: "3MF", Unit: m.unit, Name: m.title}}
	if len(m.items) == 0 {
		return Mesh{}, MeshInfo{}, &FileError{Msg: m.name + " builds nothing: its build lists no item", Fix: "put the part on the plate in the program that wrote the file, and save it again"}
	}
	for _, item := range m.items {
		if b.info.Name == "" {
			b.info.Name = item.object.name
		}
		if fault := b.place(item.object, item.transform); fault != nil {
			fault.Line = item.line
			return Mesh{}, MeshInfo{}, fault
		}
	}
	if len(b.build.faces) == 0 {
		return Mesh{}, MeshInfo{}, &FileError{Msg: m.name + " builds no solid with facets", Fix: "export the part again as a solid"}
	}
	b.info.Triangles = len(b.build.faces)
	for _, kind := range sortedKeys(b.left) {
		b.info.Notes = append(b.info.Notes, fmt.Sprintf("left out: %s of the type %q", count(b.left[kind], "object", "objects"), kind))
	}
	return b.build.mesh(), b.info, nil
}

func sortedKeys(m map[string]int) []string {
	var keys []string
	for key := range m {
		keys = append(keys, key)
	}
	slices.Sort(keys)
	return keys
}

// place adds an object with all its components.
func (b *builder3MF) place(o *object3MF, at Pose) *FileError {
	if o.empty {
		return nil
	}
	if b.placed++; b.placed > mostPlaced {
		return &FileError{Msg: fmt.Sprintf("%s places more than %d objects", b.model.name, mostPlaced), Fix: "export the part as one mesh, without components"}
	}
	if o.kind != "" && o.kind != "model" {
		b.left[printable(o.kind)]++
		return nil
	}
	if len(o.faces) > 0 {
		if fault := b.mesh(o, at); fault != nil {
			return fault
		}
	}
	for _, c := range o.components {
		if fault := b.place(c.object, at.After(c.transform)); fault != nil {
			return fault
		}
	}
	return nil
}

func (b *builder3MF) mesh(o *object3MF, at Pose) *FileError {
	if len(b.build.faces)+len(o.faces) > b.most {
		return tooManyTriangles(b.most)
	}
	mirrored := at.Mirrored()
	placed := vertexList{build: b.build, points: make([]Vec, len(o.vertices))}
	for i, v := range o.vertices {
		placed.points[i] = at.Point(v)
	}
	for _, f := range o.faces {
		if mirrored {
			f[1], f[2] = f[2], f[1]
		}
		for i, at := range f {
			for axis, c := range placed.points[at] {
				if !(math.Abs(c) <= mostCoordinate) { // NaN fails too
					return &FileError{Msg: fmt.Sprintf("%s places a vertex of object %s where its %c %s", b.model.name, quoted([]byte(o.id)), "xyz"[axis], coordinateFault(c)), Fix: fix3MF}
				}
			}
			f[i] = placed.use(at)
		}
		b.build.faces = append(b.build.faces, f)
	}
	b.info.Solids++
	return nil
}
