package geom

import "fmt"

// Repair mends what can be mended without a guess at the shape, and tells in
// words what it did, nil if nothing. In this order:
//
//   - points on open rims that are no further apart than 1e-6 of the box are
//     made one, if any;
//   - facets that repeat another, facing the same way, are left out, and so are
//     facets with two equal vertices;
//   - facets that face the wrong side are turned over: in each connected surface
//     the smaller area, so that neighbours agree;
//   - closed shells that face inward though no other is around them are turned
//     over, with all shells within them; and those that face inward where there
//     is no material to be hollowed.
//
// A shell that lies within another and faces outward as it does stays as it is:
// whether it is a hollow or a piece set into the other is not for the program
// to say. No facet is ever added: holes stay holes. [Examine] tells what is left.
func Repair(m Mesh) (Mesh, []string) {
	r := repair{mesh: m}
	r.weld()
	r.dropRepeats()
	r.turnFacets()
	r.turnShells()
	if len(r.told) == 0 {
		return m, nil
	}
	return compact(r.mesh), r.told
}

type repair struct {
	mesh Mesh
	told []string
}

func (r *repair) tell(format string, args ...any) {
	r.told = append(r.told, fmt.Sprintf(format, args...))
}

func (r *repair) weld() {
	r.mesh = welded(r.mesh)
	onRim := make([]bool, len(r.mesh.Vertices))
	open := false
	newEdgeTable(r.mesh).each(func(low, high int, uses []uint64) {
		if len(uses) == 1 {
			onRim[low], onRim[high], open = true, true, true
		}
	})
	if !open {
		return
	}
	tol := roundingGap * r.mesh.Extent().Diagonal()
	w, moved := weldSome(r.mesh, tol, onRim)
	if moved > 0 {
		r.mesh = w
		r.tell("%s joined to a neighbour that lay no more than %.2g away in the file's units", count(moved, "point was", "points were"), tol)
	}
}

func (r *repair) dropRepeats() {
	marked, n := newEdgeTable(r.mesh).duplicates()
	if n > 0 {
		r.tell("%s left out that repeated another", count(n, "facet was", "facets were"))
	}
	lines := 0
	for i, f := range r.mesh.Faces {
		if !distinct(f) {
			marked[i] = true
			lines++
		}
	}
	if lines > 0 {
		r.tell("%s left out that had two equal corners", count(lines, "facet was", "facets were"))
	}
	if n+lines > 0 {
		r.mesh = without(r.mesh, marked)
	}
}

// turnFacets makes the facets of each connected surface agree with each other.
func (r *repair) turnFacets() {
	table := newEdgeTable(r.mesh)
	sides := newSides(table)
	turned := 0
	faces := make([][3]int, len(r.mesh.Faces))
	for i, f := range r.mesh.Faces {
		faces[i] = f
		if sides.wrong(i) {
			faces[i] = [3]int{f[0], f[2], f[1]}
			turned++
		}
	}
	if turned > 0 {
		r.mesh.Faces = faces
		r.tell("%s turned over to face the same side as its neighbours", count(turned, "facet was", "facets were"))
	}
	if n := sides.twistedSurfaces(); n > 0 {
		r.tell("%s one side only, like a twisted band, and stays as it is", count(n, "surface has", "surfaces have"))
	}
}

// turnShells makes closed shells face the side that they must.
func (r *repair) turnShells() {
	table := newEdgeTable(r.mesh)
	repeated, _ := table.duplicates()
	box := r.mesh.Extent()
	closed := newSurvey(table, repeated).closedShells(box.Center())
	over := closed.toTurn(r.mesh, box)
	faces := make([][3]int, len(r.mesh.Faces))
	for i, f := range r.mesh.Faces {
		faces[i] = f
		if n := closed.of[i]; n >= 0 && over[n] {
			faces[i] = [3]int{f[0], f[2], f[1]}
		}
	}
	turned := 0
	for _, yes := range over {
		if yes {
			turned++
		}
	}
	if turned > 0 {
		r.mesh.Faces = faces
		r.tell("%s turned over that faced the wrong side", ofAll(turned, len(closed.list), "was", "were"))
	}
}

// compact leaves out vertices that no facet uses.
func compact(m Mesh) Mesh {
	list := vertexList{build: newMeshBuilder(), points: m.Vertices}
	for _, f := range m.Faces {
		list.build.faces = append(list.build.faces, [3]int{list.use(f[0]), list.use(f[1]), list.use(f[2])})
	}
	return list.build.mesh()
}
