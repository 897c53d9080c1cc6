package plumbhook_test

import (
	"go/ast"
	"go/parser"
	"go/token"
	"os"
	"path"
	"regexp"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// reader is the name of a function that is handed what a user wrote.
var reader = regexp.MustCompile(`^(Read|Parse|LookOver|Measure|Inputs$|ListKind$|Examine$|Repair$)`)

// fuzzing is what the files of a folder with fuzz targets say, in one text; targets
// are the names of these.
func fuzzing(t *testing.T) (text map[string]string, targets []string) {
	text = map[string]string{}
	for _, name := range files(t, ".go") {
		if !strings.HasSuffix(name, "_test.go") {
			continue
		}
		data, err := os.ReadFile(name)
		require.NoError(t, err)
		found := regexp.MustCompile(`(?m)^func (Fuzz\w+)\(`).FindAllStringSubmatch(string(data), -1)
		for _, one := range found {
			targets = append(targets, path.Dir(name)+"/testdata/fuzz/"+one[1])
		}
		if len(found) > 0 {
			text[path.Dir(name)] += string(data)
		}
	}
	return text, targets
}

// TestEveryReaderIsFuzzed lets in no reader of a user's text or file that no fuzz target
// of its package calls.
func TestEveryReaderIsFuzzed(t *testing.T) {
	text, _ := fuzzing(t)
	found := 0
	for _, name := range files(t, ".go") {
		folder := path.Dir(name)
		if strings.HasSuffix(name, "_test.go") || !slices.Contains(core, folder) {
			continue
		}
		syntax, err := parser.ParseFile(token.NewFileSet(), name, nil, parser.SkipObjectResolution)
		require.NoError(t, err)
		for _, d := range syntax.Decls {
			f, ok := d.(*ast.FuncDecl)
			if !ok || f.Recv != nil || !f.Name.IsExported() || !reader.MatchString(f.Name.Name) {
				continue
			}
			found++
			called := regexp.MustCompile(`func Fuzz` + f.Name.Name + `\(|\b` + f.Name.Name + `\b[(),]`)
			assert.True(t, called.MatchString(text[folder]), "%s: no fuzz target of %s calls %s: write one", name, folder, f.Name.Name)
		}
	}
	assert.Greater(t, found, 30, "the readers are not found any more")
}

// TestCorporaAreSmall keeps what fuzzing has found to what a clone can carry, and under
// the name of a target that there is.
func TestCorporaAreSmall(t *testing.T) {
	const mostEach, mostTogether = 8 << 10, 300 << 10
	_, targets := fuzzing(t)
	together := int64(0)
	for _, name := range files(t, "") {
		if !strings.Contains(name, "/testdata/fuzz/") {
			continue
		}
		info, err := os.Stat(name)
		require.NoError(t, err)
		assert.Less(t, info.Size(), int64(mostEach), name)
		assert.Contains(t, targets, path.Dir(name), "%s is of no target", name)
		together += info.Size()
	}
	assert.Less(t, together, int64(mostTogether))
	assert.Positive(t, together, "the corpora are not found any more")
}
