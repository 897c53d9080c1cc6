// Package plumbhook_test holds what is true of the whole house and belongs to
// no one room of it.
package plumbhook_test

import (
	"bytes"
	"encoding/csv"
	"go/ast"
	"go/parser"
	"go/token"
	"io/fs"
	"os"
	"path"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

const module = "plumbhook"

// rank orders the folders: a package may import only those of a lower rank.
// A new folder with Go files gets its place here first.
var rank = map[string]int{
	"testdata/published": -2, "testdata/published/inprint": -1, // for tests
	"units": 0,
	"geom":  1, "density": 1,
	"takeoff": 2, "rig": 2, "sling": 2,
	"lift":          3,
	"report":        4,
	"cmd/plumbhook": 5,
	"samples":       6, // tests only
	".":             7, // this test
}

// core are the packages that must run anywhere, a browser too: no files, no
// network, no clock. What they need is handed to them.
var core = []string{"units", "geom", "density", "takeoff", "rig", "sling", "lift"}

// source is one Go file of the module.
type source struct {
	name, folder string
	syntax       *ast.File
	lines        int
}

func (s source) test() bool { return strings.HasSuffix(s.name, "_test.go") }

// imports lists what the file imports.
func (s source) imports() []string {
	var paths []string
	for _, spec := range s.syntax.Imports {
		paths = append(paths, strings.Trim(spec.Path.Value, `"`))
	}
	return paths
}

// sources reads the imports of every Go file of the module.
func sources(t *testing.T) []source {
	var all []source
	for _, name := range files(t, ".go") {
		text, err := os.ReadFile(name)
		require.NoError(t, err)
		syntax, err := parser.ParseFile(token.NewFileSet(), name, text, parser.ImportsOnly)
		require.NoError(t, err)
		all = append(all, source{name, path.Dir(name), syntax, bytes.Count(text, []byte("\n"))})
	}
	require.NotEmpty(t, all)
	return all
}

// files lists the files with an ending, without hidden folders.
func files(t *testing.T, ending string) []string {
	var names []string
	require.NoError(t, fs.WalkDir(os.DirFS("."), ".", func(name string, d fs.DirEntry, err error) error {
		switch {
		case err != nil:
			return err
		case d.IsDir() && strings.HasPrefix(d.Name(), ".") && name != ".":
			return fs.SkipDir
		case !d.IsDir() && path.Ext(name) == ending:
			names = append(names, name)
		}
		return nil
	}))
	return names
}

// TestImportsPointDown holds the direction in which data flows. Tests keep to
// it too; a test may import the package that it tests.
func TestImportsPointDown(t *testing.T) {
	for _, s := range sources(t) {
		own, known := rank[s.folder]
		if !assert.True(t, known, "%s: the folder %s has no rank: give it one in house_test.go", s.name, s.folder) {
			continue
		}
		for _, imported := range s.imports() {
			dep, ours := strings.CutPrefix(imported, module+"/")
			if !ours || s.test() && dep == s.folder {
				continue
			}
			level, known := rank[dep]
			assert.True(t, known && level < own, "%s imports %s: %s must not know about it", s.name, dep, s.folder)
		}
	}
}

// TestCoreNeedsNoMachine keeps files, network and clock out of the core.
func TestCoreNeedsNoMachine(t *testing.T) {
	for _, s := range sources(t) {
		if s.test() || !slices.Contains(core, s.folder) {
			continue
		}
		for _, imported := range s.imports() {
			first, _, _ := strings.Cut(imported, "/")
			assert.NotContains(t, []string{"os", "net", "time", "syscall", "log", "plugin"}, first,
				"%s imports %s: the core is handed its files and dates, it asks for none", s.name, imported)
		}
	}
}

// TestFilesAreShort keeps a file to what a reader can hold in mind.
func TestFilesAreShort(t *testing.T) {
	const most = 400
	for _, s := range sources(t) {
		assert.LessOrEqual(t, s.lines, most, "%s has %d lines: split it, one idea a file", s.name, s.lines)
	}
}

// bases are the words for what a row of a table stands on.
var bases = []string{"read", "from memory", "computed", "common practice"}

// basesOfFormulas are further words for a formula: its figure is in the load file, or
// in a row of another table, which tells for itself.
var basesOfFormulas = []string{"stated", "of the row"}

// TestTablesNameTheirSources lets no row into a table that can't be checked.
func TestTablesNameTheirSources(t *testing.T) {
	found := 0
	for _, name := range files(t, ".csv") {
		if strings.Contains(name, "testdata/") || strings.HasPrefix(name, "samples/") || strings.HasPrefix(name, "docs/loads/") {
			continue
		}
		found++
		text, err := os.ReadFile(name)
		require.NoError(t, err)
		rows, err := csv.NewReader(bytes.NewReader(text)).ReadAll()
		require.NoError(t, err, name)
		require.Greater(t, len(rows), 1, "%s has no rows", name)
		source, basis := slices.Index(rows[0], "source"), slices.Index(rows[0], "basis")
		require.True(t, source >= 0 && basis >= 0, "%s has no columns source and basis", name)
		for i, row := range rows[1:] {
			assert.NotEmpty(t, strings.TrimSpace(row[source]), "%s: row %d has no source: %v", name, i+2, row)
			known := bases
			if name == "lift/trace.csv" {
				known = append(slices.Clone(bases), basesOfFormulas...)
			}
			assert.Contains(t, known, row[basis], "%s: row %d: %v", name, i+2, row)
		}
	}
	assert.NotZero(t, found, "no tables found")
}
