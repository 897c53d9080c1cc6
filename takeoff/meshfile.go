package takeoff

import (
	"crypto/sha256"
	"encoding/hex"
	"io"
	"io/fs"
	"path"
	"strings"

	"plumbhook/density"
	"plumbhook/geom"
	"plumbhook/units"
)

// MeshFile is a mesh given by itself, looked over: sound or not, with a unit or
// without one. Lengths of Health are in the file's own unit.
type MeshFile struct {
	Name, SHA256 string
	Solids       int
	Box          geom.Extent // in the file's unit
	Health       geom.Health
	Notes        []string
	Faults       []MeshFault // what keeps it from being weighed as it is, worst first
	Remarks      []MeshFault // what does not
	Mending      []string    // what would be mended if it were accepted knowingly
	Mended       bool        // it would then be sound
	Faceted      float64     // see geom.FacetBias; 0 for an open mesh

	Unit       units.LengthUnit // as given, or the file's own; zero: not known
	Candidates []geom.Candidate // what it comes to in each unit that drawings are made in, or in its own

	Material        density.Material
	MaterialDefault bool // none was given: carbon steel stands in, to show weights
}

// MeshFault is one thing found in a mesh, and how to go on.
type MeshFault struct{ Code, Text, Fix string }

// LookOver reads a mesh file by its name in a folder and looks it over. Unlike
// Read it takes a mesh that is unsound, or has no unit: an error, always
// Problems, means that there is no mesh to look at.
func LookOver(fsys fs.FS, name string, opt Options) (*MeshFile, error) {
	if opt.As == "" {
		opt.As = strings.TrimPrefix(strings.ToLower(path.Ext(name)), ".")
	}
	f, err := fsys.Open(name)
	if err != nil {
		f := cantOpen(err, "look at its name and folder")
		return nil, whole(name, f.text, f.fix)
	}
	defer f.Close()
	return LookOverFrom(f, name, opt)
}

// LookOverFrom looks over a mesh from standard input; opt.As says its kind.
func LookOverFrom(in io.Reader, name string, opt Options) (*MeshFile, error) {
	s := &source{opt: opt, sum: sha256.New()}
	var m readMesh
	if m.fault, m.line = s.drain(in, func(in io.Reader) error { return m.decode(in, opt.As, opt.Limits) }); m.fault != nil {
		return nil, Problems{{File: name, Line: m.line, Text: m.fault.text, Fix: m.fault.fix}}
	}
	f := &MeshFile{Name: path.Base(name), SHA256: hex.EncodeToString(s.sum.Sum(nil)), Solids: m.info.Solids, Box: m.mesh.Extent(), Health: m.health, Notes: m.info.Notes}
	f.judge(m)
	if p := f.settle(m, opt); p != nil {
		return nil, whole(name, p.text, p.fix)
	}
	return f, nil
}

// judge says what is wrong with the mesh, and what could be mended.
func (f *MeshFile) judge(m readMesh) {
	if solids := m.severalSolids(); solids != nil {
		f.Faults = append(f.Faults, MeshFault{"mesh-solids", solids.text, solids.fix})
	}
	for _, one := range m.health.Faults() {
		list := &f.Faults
		if one.Harmless {
			list = &f.Remarks
		}
		*list = append(*list, MeshFault{one.Code, one.Text, one.Fix})
	}
	if len(f.Faults) > 0 {
		var after readMesh
		after, f.Mending = m.mended()
		f.Mended = f.Mending != nil && len(after.faults()) == 0
	}
	f.Faceted = m.health.FacetBias
}

// settle finds unit and material, as given or as taken to show weights with.
func (f *MeshFile) settle(m readMesh, opt Options) *fault {
	if m.info.Unit > 0 || opt.MeshUnits.Metres > 0 {
		unit, wrong := settleUnit("mesh", m.info.Unit, opt.MeshUnits)
		if wrong != nil {
			return &fault{wrong.text, "leave --units out, so that the file's own counts; or mend the file"}
		}
		f.Unit = unit
		f.Candidates = []geom.Candidate{geom.CandidateIn(m.mesh, unit.Name, unit.Metres)}
	} else {
		f.Candidates = geom.UnitCandidates(m.mesh)
	}
	name := opt.Material
	if name == "" {
		name, f.MaterialDefault = "carbon steel", true
	}
	found, wrong := newReader(f.Name, &source{}, nil).findMaterial(name)
	if wrong != nil {
		return &fault{wrong.text + " (given as --material)", wrong.fix}
	}
	f.Material = found.Material
	return nil
}
