package geom

import (
	"archive/zip"
	"bytes"
	"fmt"
	"io"
	"path"
	"strings"
)

// Read3MF reads a 3MF package (a zip archive with a model in XML) into a mesh
// in the model's own unit, unscaled; MeshInfo.Unit says what that unit is
// (millimetres where the model names none).
//
// What the build lists is read: objects with their components, placed by
// their transforms. A transform that mirrors turns the facets over, so that
// they face outward still. Objects in other model parts of the package are
// followed. Each mesh that is placed counts as a solid. Objects of a type other
// than "model" (supports, surfaces) are left out, and MeshInfo.Notes says so.
// Colours and materials are passed over. What would change the shape and is
// not read here is refused by name: beam lattices, boolean shapes, any
// extension that the file says it needs but production and materials.
//
// Refused too: document type declarations, and so entities from outside; more
// than 16 MiB unpacked that are more than 250 times the size of the archive;
// more than a million placed objects, more than 100 levels of them; and, where
// the caller sets no limit, more than two million triangles that are placed from
// less than a twentieth as many.
//
// Every error is a *FileError, with the line in the model where there is one,
// and then the mesh is empty.
//
// Source: 3MF Core Specification 1.x and Production Extension 1.x (from memory).
func Read3MF(r io.Reader, lim Limits) (Mesh, MeshInfo, error) {
	placed := lim.Triangles // by its components, unlike those that it holds
	lim = lim.orDefault()
	archive, err := io.ReadAll(&limitedReader{r: r, left: lim.Bytes, most: lim.Bytes})
	if err != nil {
		return Mesh{}, MeshInfo{}, readFault(err)
	}
	p, err := openPackage(archive, lim)
	if err != nil {
		return Mesh{}, MeshInfo{}, err
	}
	root, err := p.rootPart()
	if err != nil {
		return Mesh{}, MeshInfo{}, err
	}
	m, err := p.model(root, true)
	if err != nil {
		return Mesh{}, MeshInfo{}, err
	}
	if placed <= 0 {
		placed = min(lim.Triangles, max(freelyPlaced, mostPlacedEach*(lim.Triangles-p.triangles)))
	}
	return m.built(placed)
}

const (
	fix3MF = "export the file again, as 3MF or binary STL, and copy it whole"

	freelyUnpacked = 16 << 20 // bytes, whatever the size of the archive
	mostPacked     = 100_000  // files in the archive: one with pictures has hundreds
	mostUnpacked   = 250      // times the size of the archive: text of numbers packs to a fifth, hardly to a fiftieth
)

// package3MF is an open archive.
type package3MF struct {
	files     map[string]*zip.File // by name in lower-case letters
	left      int64                // bytes that may still be unpacked
	byArchive bool                 // that is by the size of the archive
	vertices  int                  // the most that an object may have
	triangles int                  // that may still be defined
	models    map[string]*model3MF
}

func openPackage(archive []byte, lim Limits) (*package3MF, error) {
	if n := bytes.Count(archive, []byte("PK\x01\x02")); n > mostPacked { // before a list of them is made
		return nil, &FileError{Msg: fmt.Sprintf("the archive is packed of more than %d files", mostPacked), Fix: fix3MF}
	}
	reader, err := zip.NewReader(bytes.NewReader(archive), int64(len(archive)))
	if err != nil {
		return nil, &FileError{Msg: "not a 3MF file, which is a zip archive, or cut off: " + err.Error(), Fix: fix3MF, cause: err}
	}
	p := &package3MF{files: map[string]*zip.File{}, models: map[string]*model3MF{},
		vertices: mostVerticesEach * lim.Triangles, triangles: lim.Triangles, left: lim.Bytes}
	if most := freelyUnpacked + mostUnpacked*int64(len(archive)); most < p.left {
		p.left, p.byArchive = most, true
	}
	for _, file := range reader.File {
		name := partName(file.Name)
		if _, again := p.files[name]; again {
			return nil, &FileError{Msg: fmt.Sprintf("the archive holds %s twice", quoted([]byte(name))), Fix: fix3MF}
		}
		p.files[name] = file
	}
	if p.files["[content_types].xml"] == nil {
		return nil, &FileError{Msg: "a zip archive, but not a 3MF file: it has no part [Content_Types].xml", Fix: fix3MF}
	}
	return p, nil
}

// partName is the name of a part as it is looked up: names in a package are
// compared without regard to case.
func partName(name string) string {
	return strings.ToLower(strings.TrimPrefix(path.Clean("/"+name), "/"))
}

// rootPart finds the model that the package says it is about.
func (p *package3MF) rootPart() (string, error) {
	root := "3d/3dmodel.model"
	if p.files["_rels/.rels"] != nil {
		x, err := p.open("_rels/.rels")
		if err != nil {
			return "", err
		}
		defer x.close()
		if found, err := x.startPart(); err != nil {
			return "", err
		} else if found != "" {
			root = partName(found)
		}
	}
	if p.files[root] == nil {
		return "", &FileError{Msg: fmt.Sprintf("the package has no model: there is no part %s", quoted([]byte(root))), Fix: fix3MF}
	}
	return root, nil
}

// startPart returns the target of the relationship to the model, or "".
func (x *xmlPart) startPart() (string, error) {
	target := ""
	err := x.root("Relationships", func(list element) error {
		return x.children(func(e element) error {
			if e.Name.Local == "Relationship" && strings.HasSuffix(e.attr("Type"), "/3dmodel") && target == "" {
				target = e.attr("Target")
			}
			return x.children(x.skip)
		})
	})
	return target, err
}
