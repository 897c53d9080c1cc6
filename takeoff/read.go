package takeoff

import (
	"crypto/sha256"
	"encoding/hex"
	"fmt"
	"io"
	"io/fs"
	"path"
	"strings"

	"go.yaml.in/yaml/v3"

	"plumbhook/geom"
	"plumbhook/units"
)

// Options are what the command line adds to an input. The zero value adds
// nothing.
type Options struct {
	Material   string           // for a mesh, and for a load file that names none
	MeshUnits  units.LengthUnit // of a mesh given by itself, and of the lengths of a sheet that name none
	AcceptMesh bool             // weigh an unsound mesh knowingly
	// AllowOutside lets a load file name files outside its folder: by .. or by an
	// absolute path. The folder that is read from must then open such names.
	AllowOutside bool
	As           string      // yaml, csv, xlsx or stl, for an input without a name's ending
	Limits       geom.Limits // on mesh files; Bytes, if given, on all others too
	MostParts    int         // pieces of a load, copies counted, and rows of a sheet; 0: 20,000
}

// endings are what a name's ending says an input is.
var endings = map[string]string{".yaml": "yaml", ".yml": "yaml", ".json": "yaml", ".csv": "csv", ".xlsx": "xlsx", ".stl": "stl", ".obj": "obj", ".ply": "ply", ".3mf": "3mf"}

const canRead = "a load file (.yaml, .yml, .json), a take-off sheet (.csv, .xlsx) or a mesh (.stl, .obj, .ply, .3mf) can be read"

// Read reads a load file, a take-off sheet or a mesh by its name in a folder. The error is
// always Problems: what is wrong with the input, all of it at once.
func Read(fsys fs.FS, name string, opt Options) (*Load, error) {
	kind := opt.As
	if kind == "" {
		kind = endings[strings.ToLower(path.Ext(name))]
	}
	if kind == "" {
		return nil, whole(name, fmt.Sprintf("the ending %q is not that of an input", path.Ext(name)), canRead)
	}
	if !fs.ValidPath(name) {
		return nil, whole(name, "the name is not a path within the folder that is read from", "write it relative to that folder, with / between folder and file")
	}
	f, err := fsys.Open(name)
	if err != nil {
		f := cantOpen(err, "look at its name and folder")
		return nil, whole(name, f.text, f.fix)
	}
	defer f.Close()
	opt.As = kind
	return readFrom(f, name, &source{folder: fsys, dir: path.Dir(name), opt: opt, chain: []string{name}})
}

// ReadFrom reads an input that has no name's ending to tell what it is, such
// as standard input: opt.As says it. The name is used in messages; files that
// the input names are looked for in fsys, which may be nil.
func ReadFrom(r io.Reader, name string, fsys fs.FS, opt Options) (*Load, error) {
	return readFrom(r, name, &source{folder: fsys, dir: ".", opt: opt, chain: []string{""}}) // no file can name it
}

func readFrom(in io.Reader, name string, s *source) (*Load, error) {
	s.sum, s.loads = sha256.New(), map[string]*subLoad{}
	s.meshes, s.drawings = map[string]readMesh{}, map[string]readDrawing{}
	rows, err := tolerances()
	if err != nil {
		return nil, whole(name, err.Error(), "this is a fault of the program: please report it")
	}
	r := newReader(name, s, rows)
	l := &Load{File: name}
	switch s.opt.As {
	case "yaml", "json":
		r.loadFile(in, l)
	case "csv", "xlsx":
		r.sheetFile(in, s.opt.As, l)
	case "stl", "obj", "ply", "3mf":
		r.lone(in, l)
	default:
		return nil, whole(name, fmt.Sprintf("it is not said what the input is: %q", s.opt.As), "give `--as yaml`, `csv`, `xlsx` or `stl`")
	}
	if r.faults > 0 {
		return nil, r.allProblems()
	}
	r.seeOverlaps(l)
	l.Warnings = r.warnings
	l.SHA256 = hex.EncodeToString(s.sum.Sum(nil))
	return l, nil
}

// whole is a problem with an input as a whole.
func whole(file, text, fix string) Problems { return Problems{{File: file, Text: text, Fix: fix}} }

// bad0 records a problem with the input as a whole.
func (r *reader) bad0(text, fix string) { r.at(0, 0, text, fix) }

// topKeys are the keys of a load file, in the order in which they are read:
// what others depend on comes first.
func topKeys() []key[Load] {
	return []key[Load]{
		{name: "load", takes: "what is lifted", must: true, read: func(r *reader, n *yaml.Node, l *Load) { l.Name, _ = r.text(n) }},
		{name: "drawing", takes: aText, read: func(r *reader, n *yaml.Node, l *Load) { l.Drawing, _ = r.text(n) }},
		{name: "datum", takes: "where coordinates are measured from", read: func(r *reader, n *yaml.Node, l *Load) { l.Datum, _ = r.text(n) }},
		{name: "units", takes: aUnit, read: readUnits},
		{name: "materials", takes: "a list of {name, density, tolerance}", read: readMaterials},
		{name: "material", takes: aMaterial, read: readMaterial},
		{name: "parts", takes: "a list of parts", must: true, read: readParts},
		{name: "picks", takes: "a list of {name, at, hitch}", read: readPicks},
		{name: "candidates", takes: "{lugs: [{name, at}, ...]}, or {grid: 250, edge: 100}: where picks may be proposed", read: readCandidates},
		{name: "hook", takes: "{above: picks, height} or {at}", read: readHook},
		{name: "sling stock", takes: aSlingStock, read: readSlingStock},
		{name: "legs", takes: "{lengths: level}", read: readLegs},
		{name: "hitch", takes: aHitch, read: readHitch},
		{name: "rules", takes: "US or EN", read: func(r *reader, n *yaml.Node, l *Load) { l.Rigging.Rules, _ = r.word(n, "US", "EN") }},
		{name: "surroundings", takes: "{temperature, chemicals, edges, surface, outdoors} and what else is to be expected there", read: readSurroundings},
		{name: "factors", takes: "{dynamic: 1.1}", read: readFactors},
		{name: "limits", takes: "{least angle from horizontal: 45, headroom: 4000}", read: readLimits},
		{name: "sharing", takes: "{basis: elastic, because: ...}", read: readSharing},
		{name: "wind", takes: "{speed: 10 m/s} or {pressure: 100 N/m2}", read: readWind},
		{name: "tag line", takes: "{pull: 300 N, toward: y, at: [x, y, z]}", read: readTagLine},
		{name: "lift-off", takes: "{suction: 2 kN/m2, area: 3 m2}", read: readLiftOff},
		{name: "allowances", takes: "a list of {name, of, add | thickness | per area | weight, low, high}", read: readAllowances},
		{name: "states", takes: "names of states, each with {without}, {only} or {contents}", read: readStates},
		{name: "rig", takes: "{bar: ...} or {two hooks: ...}", read: readRig},
		{name: "weighings", takes: aListOfWeighings, read: readWeighings},
		{name: "name", also: []string{"title"}, refuse: "write `load:` with what is lifted"},
	}
}

// readUnits reads the unit of bare lengths. Where it is none, millimetres
// stand in for it, so that one slip is not reported at every length.
func readUnits(r *reader, n *yaml.Node, _ *Load) {
	if r.bare = r.unit(n); r.bare.Metres == 0 {
		r.bare = units.LengthUnit{Name: "mm", Metres: 0.001}
	}
}

// loadFile reads a load file.
func (r *reader) loadFile(in io.Reader, l *Load) {
	data, f := r.source.opt.all(in, mostBytes, "split the load into several files, keep geometry in a mesh file")
	if f != nil {
		r.at(1, 1, f.text, f.fix)
		return
	}
	r.source.sum.Write(data)
	root := r.parse(data)
	if root == nil {
		return
	}
	if !r.givenMaterial() {
		return
	}
	walk(r, root, "a load file", topKeys(), l)
	l.Allowances = append(l.Allowances, r.handed...)
	r.seeInsides(l.Parts)
	r.displace(l.Parts)
	r.warnDefault(l.Parts)
	r.warnReinforced(l.Parts)
}

// givenMaterial takes the material that the command line gives for parts that
// name none.
func (r *reader) givenMaterial() bool {
	name := r.source.opt.Material
	if name == "" {
		return true
	}
	m, f := r.findMaterial(name)
	if f != nil {
		r.bad0(f.text+" (given as --material)", f.fix)
		return false
	}
	r.fallback = &m
	return true
}

// warnDefault lists the parts that took the default material.
func (r *reader) warnDefault(parts []Part) {
	const most = 20
	var took []string
	for _, p := range parts {
		if p.MaterialDefault && p.From == "" { // a sub-assembly has told of its own
			took = append(took, p.Name)
		}
	}
	if len(took) == 0 {
		return
	}
	if more := len(took) - most; more > 0 {
		took = append(took[:most], fmt.Sprintf("and %d more", more))
	}
	r.note("material-default", "", fmt.Sprintf("parts that name no material took the load's, %s: %s", *r.fallback, strings.Join(took, ", ")),
		"write `material:` on parts that are made of something else")
}

// lone reads a mesh as a load of one part, at its own origin.
func (r *reader) lone(in io.Reader, l *Load) {
	opt := r.source.opt
	l.Name = path.Base(r.file)
	p := Part{Name: l.Name, Kind: "mesh", Written: l.Name, Pose: geom.Still(), Places: []geom.Pose{geom.Still()}, Count: 1}
	if opt.Material == "" {
		r.bad0("a mesh has no material", "give what it is made of, such as `--material \"structural steel\"`")
	} else if m, f := r.findMaterial(opt.Material); f != nil {
		r.bad0(f.text, f.fix)
	} else {
		r.solidTolerance(draft{}, m, &p, 0)
	}
	var m readMesh
	m.fault, m.line = r.source.drain(in, func(in io.Reader) error { return m.decode(in, opt.As, opt.Limits) })
	if m.fault != nil {
		r.at(m.line, 0, m.fault.text, m.fault.fix)
		return
	}
	unit, f := settleUnit("mesh", m.info.Unit, opt.MeshUnits)
	switch {
	case f != nil && opt.MeshUnits.Metres == 0:
		r.bad0("a mesh has no unit", "give the unit it was drawn in, such as `--units mm`")
	case f != nil:
		r.bad0(f.text, "leave --units out, so that the file's own counts; or mend the file")
	}
	if r.faults > 0 {
		return
	}
	if r.useMesh(m, unit, &p, func(f fault) { r.bad0(f.text, f.fix) }) {
		l.Parts = []Part{p}
	}
}
