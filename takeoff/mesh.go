package takeoff

import (
	"cmp"
	"errors"
	"fmt"
	"hash"
	"io"
	"io/fs"
	"math"
	"path"
	"slices"
	"strings"
	"sync"

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
	// By path: a file that is named twice is read once.
	meshes   map[string]readMesh
	drawings map[string]readDrawing
	loads    map[string]*subLoad
	chain    []string // the load files being read, each named by the one before
}

// readMesh is a mesh file as it was read, in its own unit, or why it can't be.
type readMesh struct {
	mesh   geom.Mesh
	info   geom.MeshInfo
	health geom.Health
	fault  *fault
	line   int // of the fault, in a text file
}

// mesh reads a mesh file named by the load file. The path is relative to the
// load file and may not leave its folder.
func (s *source) mesh(name string) readMesh {
	full, f := s.path(name, "meshes/bracket.stl")
	if f == nil && !isMeshFile(full) {
		f = &fault{"its ending is not that of a mesh that can be read", "export it as " + strings.Join(geom.MeshEndings(), ", ")}
	}
	if f != nil {
		return readMesh{fault: f}
	}
	m, again := s.meshes[full]
	if !again {
		m.fault, m.line = s.use(full, func(in io.Reader) error { return m.decode(in, path.Ext(full), s.opt.Limits) })
		s.meshes[full] = m
	}
	return m
}

// use reads a file that the load file names and adds its bytes to the
// fingerprint. What is wrong with it comes with the line in a text file.
func (s *source) use(full string, read func(io.Reader) error) (f *fault, line int) {
	file, err := s.folder.Open(full)
	if err != nil {
		return cantOpen(err, "look at its name; it was looked for as "+full), 0
	}
	defer file.Close()
	return s.drain(file, read)
}

const mayBeRead = "see that it is a file that may be read"

// drain reads an input to its end, for the fingerprint. What can be read at any
// place goes into the fingerprint while it is read, since a reader of large meshes
// begins in several places at once.
func (s *source) drain(in io.Reader, read func(io.Reader) error) (f *fault, line int) {
	var sum sync.WaitGroup
	var sumErr error
	all := geom.Anywhere(in)
	if all != nil {
		sum.Go(func() { _, sumErr = io.Copy(s.sum, all) })
	} else {
		in = io.TeeReader(in, s.sum)
	}
	err := read(in)
	sum.Wait()
	if e := (*geom.FileError)(nil); errors.As(err, &e) {
		text := e.Msg
		switch {
		case e.Line > 0:
			text = fmt.Sprintf("line %d: %s", e.Line, e.Msg)
		case e.Triangle > 0:
			text = fmt.Sprintf("triangle %d: %s", e.Triangle, e.Msg)
		}
		return &fault{text, e.Fix}, e.Line
	}
	if err == nil && all == nil {
		_, err = io.Copy(io.Discard, in)
	}
	if err = cmp.Or(err, sumErr); err != nil {
		return &fault{err.Error(), mayBeRead}, 0
	}
	return nil, 0
}

// decode reads a mesh and looks it over.
func (m *readMesh) decode(in io.Reader, ending string, lim geom.Limits) (err error) {
	if m.mesh, m.info, err = geom.ReadMesh(in, ending, lim); err != nil {
		return err
	}
	m.health = geom.Examine(m.mesh)
	m.mustAgree()
	return nil
}

// mustAgree ends the program, by way of main's recover, where the two ways to
// measure a file disagree: that is a fault of the program, which no user can mend.
func (m *readMesh) mustAgree() {
	if m.info.Streamed == nil {
		return
	}
	if text := m.info.Streamed.Against(m.mesh, m.health); text != "" {
		panic(fmt.Sprintf("two ways to measure the mesh of %d facets disagree, so no figure is given: %s", m.info.Triangles, text))
	}
}

func isMeshFile(name string) bool {
	return slices.Contains(geom.MeshEndings(), strings.ToLower(path.Ext(name)))
}

// settleUnit is what a mesh or a drawing was drawn in: what the planner says, or
// the file itself where it knows, in metres. Two that differ, or none, are a
// fault.
func settleUnit(what string, knows float64, said units.LengthUnit) (units.LengthUnit, *fault) {
	switch {
	case knows == 0 && said.Metres == 0:
		return said, &fault{fmt.Sprintf("the %s has no unit: such a file has none of its own", what), drawnUnitFix}
	case knows == 0 || math.Abs(said.Metres-knows) <= 1e-12*knows:
		return said, nil
	case said.Metres == 0:
		return units.LengthUnit{Name: fmt.Sprintf("the file's own unit of %s", metres(knows)), Metres: knows}, nil
	default:
		return said, &fault{fmt.Sprintf("the unit is given as %s, but the file says that one unit is %s", said.Name, metres(knows)),
			"leave `units` out, so that the file's own counts; or mend the file"}
	}
}

// severalSolids is the fault of a file that holds more than one.
func (m readMesh) severalSolids() *fault {
	if m.info.Solids <= 1 {
		return nil
	}
	return &fault{fmt.Sprintf("the file holds %d solids; as one part they would be weighed as one material, and where they overlap twice", m.info.Solids),
		"save each solid in a file of its own; or, if they are one part and do not overlap, accept the mesh knowingly"}
}

// faults lists what keeps a mesh from being weighed as it is.
func (m readMesh) faults() []fault {
	var out []fault
	if f := m.severalSolids(); f != nil {
		out = append(out, *f)
	}
	for _, f := range m.health.Faults() {
		if !f.Harmless {
			out = append(out, fault{f.Text, f.Fix})
		}
	}
	return out
}

// mended returns the mesh with what can be mended without a guess at the shape,
// and tells what that was; nil if nothing.
func (m readMesh) mended() (readMesh, []string) {
	mesh, told := geom.Repair(m.mesh)
	if told != nil {
		m.mesh, m.health = mesh, geom.Examine(mesh)
	}
	return m, told
}

// withMending adds to the faults of a mesh what accepting it would mend.
func (m readMesh) withMending(faults []fault) []fault {
	after, told := m.mended()
	if told == nil {
		return faults
	}
	left := "and it would then be sound"
	if n := len(after.faults()); n > 0 {
		left = "but the mesh would still not be sound"
	}
	out := slices.Clone(faults)
	out[0].fix += fmt.Sprintf("; with --accept-mesh it is mended as far as that needs no guess (%s), %s", strings.Join(told, "; "), left)
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

// oddSize returns a warning text where the largest side of a mesh or an outline
// is out of the ordinary, with what it would be in other units; "" where it is
// not.
func oddSize(what string, s geom.Solid, unit units.LengthUnit) string {
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
	return fmt.Sprintf("the largest side of the %s is %s in %s, out of the ordinary for a lifted thing; it would be %s",
		what, metres(side), unit.Name, strings.Join(others, ", "))
}
