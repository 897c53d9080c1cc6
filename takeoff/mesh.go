package takeoff

import (
	"errors"
	"fmt"
	"hash"
	"io"
	"io/fs"
	"math"
	"path"
	"slices"
	"strings"

	"plumbhook/geom"
	"plumbhook/units"
)

// source is where a load is read from: a folder for what it names, and the
// fingerprint of all bytes that were used.
type source struct {
	folder fs.FS  // nil: none
	dir    string // of the load file, in folder
	opt    Options
	sum    hash.Hash
	read   map[string]readMesh // by path: a file that is named twice is read once
	loads  map[string]*subLoad // likewise
	chain  []string            // the load files being read, each named by the one before
}

// readMesh is a mesh file as it was read, in its own unit, or why it can't be.
type readMesh struct {
	mesh   geom.Mesh
	info   geom.MeshInfo
	health geom.Health
	fault  *fault
	line   int // of the fault, in a text file
}

// unreadable is a mesh that can't be read.
func unreadable(text, fix string) readMesh { return readMesh{fault: &fault{text, fix}} }

// mesh reads a mesh file named by the load file. The path is relative to the
// load file and may not leave its folder.
func (s *source) mesh(name string) readMesh {
	full, f := s.path(name, "meshes/bracket.stl")
	switch {
	case f != nil:
		return readMesh{fault: f}
	case !isMeshFile(full):
		return unreadable("its ending is not that of a mesh that can be read", "export it as "+strings.Join(geom.MeshEndings(), ", "))
	}
	m, again := s.read[full]
	if !again {
		m = s.openMesh(full)
		s.read[full] = m
	}
	return m
}

// path returns where a file that the load file names lies in the folder that
// is read from. The path is relative to the load file and may not leave its
// folder; such is an example of one.
func (s *source) path(name, such string) (string, *fault) {
	clean := path.Clean(name)
	switch {
	case s.folder == nil:
		return "", &fault{"there is no folder to read it from", "give the load file by its name instead of on standard input"}
	case strings.Contains(name, `\`):
		return "", &fault{"its path holds a backslash", "write / between folder and file"}
	case !fs.ValidPath(clean) || clean == ".":
		return "", &fault{"its path leaves the folder of the load file",
			"put the file beside the load file or in a folder below it, and write its path from there, such as " + such}
	}
	return path.Join(s.dir, clean), nil
}

func (s *source) openMesh(full string) readMesh {
	f, err := s.folder.Open(full)
	if errors.Is(err, fs.ErrNotExist) {
		return unreadable("there is no such file", fmt.Sprintf("look at its name; it was looked for as %s", full))
	}
	if err != nil {
		return unreadable(err.Error(), "see that it is a file that may be read")
	}
	defer f.Close()
	return s.decodeMesh(f, path.Ext(full))
}

// decodeMesh reads a mesh and adds its bytes to the fingerprint.
func (s *source) decodeMesh(in io.Reader, ending string) readMesh {
	var m readMesh
	var err error
	in = io.TeeReader(in, s.sum)
	if m.mesh, m.info, err = geom.ReadMesh(in, ending, s.opt.Limits); err != nil {
		out := unreadable(err.Error(), "export it again, and copy it whole")
		if f := (*geom.FileError)(nil); errors.As(err, &f) {
			out.fault.text, out.fault.fix, out.line = f.Msg, f.Fix, f.Line
			switch {
			case f.Line > 0:
				out.fault.text = fmt.Sprintf("line %d: %s", f.Line, f.Msg)
			case f.Triangle > 0:
				out.fault.text = fmt.Sprintf("triangle %d: %s", f.Triangle, f.Msg)
			}
		}
		return out
	}
	if _, err = io.Copy(io.Discard, in); err != nil { // to the end, for the fingerprint
		return unreadable(err.Error(), "see that it is a file that may be read")
	}
	m.health = geom.Examine(m.mesh)
	return m
}

func isMeshFile(name string) bool {
	return slices.Contains(geom.MeshEndings(), strings.ToLower(path.Ext(name)))
}

// unit is what a mesh was drawn in: what the planner says, or the file itself
// where it knows. Two that differ, or none, are a fault.
func (m readMesh) unit(said units.LengthUnit) (units.LengthUnit, *fault) {
	switch knows := m.info.Unit; {
	case knows == 0 && said.Metres == 0:
		return said, &fault{"the mesh has no unit: such a file has none of its own", meshUnitFix}
	case knows == 0 || math.Abs(said.Metres-knows) <= 1e-12*knows:
		return said, nil
	case said.Metres == 0:
		return units.LengthUnit{Name: fmt.Sprintf("the file's own unit of %s", metres(knows)), Metres: knows}, nil
	default:
		return said, &fault{fmt.Sprintf("the unit is given as %s, but the file says that one unit is %s", said.Name, metres(knows)),
			"leave `units` out, so that the file's own counts; or mend the file"}
	}
}

// faults lists what keeps a mesh from being weighed as it is.
func (m readMesh) faults() []fault {
	var out []fault
	if m.info.Solids > 1 {
		out = append(out, fault{fmt.Sprintf("the file holds %d solids; as one part they would be weighed as one material, and where they overlap twice", m.info.Solids),
			"save each solid in a file of its own; or, if they are one part and do not overlap, accept the mesh knowingly"})
	}
	for _, f := range m.health.Faults() {
		if !f.Harmless {
			out = append(out, fault{f.Text, f.Fix})
		}
	}
	return out
}

// body makes a solid of a mesh that may be weighed. A mesh that is wholly
// inside out, accepted knowingly, is turned over. It returns nil where there
// is no volume to weigh, accepted or not.
func (m readMesh) body(unit units.LengthUnit) geom.Solid {
	mesh := m.mesh
	if m.health.Inverted {
		mesh.Faces = make([][3]int, len(m.mesh.Faces))
		for i, f := range m.mesh.Faces {
			mesh.Faces[i] = [3]int{f[0], f[2], f[1]}
		}
	}
	b := geom.NewBody(geom.Scaled(mesh, unit.Metres))
	if m.health.Flat || !(b.Moments().Volume > 0) || math.IsInf(b.Moments().Volume, 0) {
		return nil
	}
	return b
}

// doubt widens a tolerance by what a hole or a fold can do to the volume.
func (m readMesh) doubt(s span) span {
	if part := m.health.VolumeDoubt / math.Abs(m.health.Volume); part > 0 {
		s.low = max(s.low-part, -0.95)
		s.high = min(s.high+part, 10)
	}
	return s
}

// A lifted thing is larger than a thimble and smaller than a street.
const (
	oddlySmall = 0.01 // m
	oddlyLarge = 100  // m
)

// oddSize returns a warning text where the largest side of a mesh is out of
// the ordinary, with what it would be in other units; "" where it is not.
func oddSize(s geom.Solid, unit units.LengthUnit) string {
	size := geom.ExtentOf(s, geom.Still()).Size()
	side := max(size[0], size[1], size[2])
	if side >= oddlySmall && side <= oddlyLarge {
		return ""
	}
	var others []string
	for _, name := range []string{"mm", "cm", "m", "in", "ft"} {
		u, err := units.ParseLengthUnit(name)
		if err == nil && u.Name != unit.Name {
			others = append(others, fmt.Sprintf("%s if in %s", metres(side*u.Metres/unit.Metres), name))
		}
	}
	return fmt.Sprintf("the largest side of the mesh is %s in %s, out of the ordinary for a lifted thing; it would be %s",
		metres(side), unit.Name, strings.Join(others, ", "))
}
