package plumbhook_test

import (
	"go/ast"
	"go/parser"
	"go/token"
	"os"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"plumbhook/testdata/published/inprint"
)

// testFunctions are the test functions of a folder, each with whether it opens the page of
// the package's values in print.
func testFunctions(t *testing.T, folder string) map[string]bool {
	t.Helper()
	entries, err := os.ReadDir(folder)
	require.NoError(t, err, "a package of values.csv")
	opens := map[string]bool{}
	for _, e := range entries {
		if !strings.HasSuffix(e.Name(), "_test.go") {
			continue
		}
		file, err := parser.ParseFile(token.NewFileSet(), folder+"/"+e.Name(), nil, 0)
		require.NoError(t, err)
		for _, d := range file.Decls {
			if f, ok := d.(*ast.FuncDecl); ok && strings.HasPrefix(f.Name.Name, "Test") {
				opens[f.Name.Name] = opensPage(f, file, folder)
			}
		}
	}
	return opens
}

// opensPage says that a function calls inprint.Of with its package, itself or through a
// function of the same file.
func opensPage(f *ast.FuncDecl, file *ast.File, folder string) (found bool) {
	ast.Inspect(f, func(n ast.Node) bool {
		call, ok := n.(*ast.CallExpr)
		if !ok {
			return true
		}
		if s, ok := call.Fun.(*ast.SelectorExpr); ok && len(call.Args) == 2 {
			of, isOf := s.X.(*ast.Ident)
			pkg, isText := call.Args[1].(*ast.BasicLit)
			found = found || isOf && isText && of.Name == "inprint" && s.Sel.Name == "Of" && pkg.Value == `"`+folder+`"`
		}
		if name, ok := call.Fun.(*ast.Ident); ok && name.Name == "holdVolumes" {
			found = true
		}
		return true
	})
	return found
}

// TestValuesAreHeld: each row of testdata/published/values.csv names a test that is there
// and opens the page of its package; that test fails if a row of its own is off or was not
// asked about. A test that is called published reads what is in print from there.
func TestValuesAreHeld(t *testing.T) {
	all, err := inprint.All()
	require.NoError(t, err)
	require.Greater(t, len(all), 1500)
	folders, named := map[string]map[string]bool{}, map[string]bool{}
	for _, v := range all {
		if folders[v.Package] == nil {
			folders[v.Package] = testFunctions(t, v.Package)
		}
		opens, there := folders[v.Package][v.Test]
		assert.True(t, there && opens, "%s %s: %s of %s is not there, or does not open the page", v.Item, v.Quantity, v.Test, v.Package)
		assert.True(t, strings.HasPrefix(v.Test, "TestPublished"), "%s: so that go test -run Published finds it", v.Test)
		assert.Contains(t, inprint.Bases, v.Basis, "%s %s", v.Item, v.Quantity)
		assert.False(t, strings.HasSuffix(v.Source, "(from memory)") && v.Basis == "read", "%s %s: %s", v.Item, v.Quantity, v.Source)
		named[v.Package+v.Test] = true
	}
	for folder, functions := range folders {
		for name := range functions {
			if strings.Contains(name, "Published") || strings.Contains(name, "AsPrinted") {
				assert.True(t, named[folder+name], "%s of %s has no rows in values.csv", name, folder)
			}
		}
	}
}

// sourced are words by which a test file shows that it holds figures of a source.
var sourced = []string{" (read)", " (seen)", ", read)", "as reprinted", "from memory)"}

// elsewhere are the test files that name a source of a figure and yet take none from
// values.csv, and what stands in them instead.
var elsewhere = map[string]string{
	"density/section_test.go":         "names of sections that are not in the tables",
	"geom/property_test.go":           "a formula",
	"lift/bending_test.go":            "formulas of beams",
	"lift/drawlines_test.go":          "scales of drawings",
	"lift/gross_test.go":              "a limit of crane use, put in by the load file",
	"lift/hardware_test.go":           "worked by hand from ratings that sling holds to print",
	"lift/outsideforces_test.go":      "worked by hand from a wind area that the load file states",
	"lift/pins_test.go":               "a rule, without a figure",
	"lift/slingstock_test.go":         "worked by hand from ratings that sling holds to print",
	"report/fixtures_test.go":         "results made up for the printing",
	"report/fixturesbars_test.go":     "results made up for the printing",
	"report/fixtureshardware_test.go": "results made up for the printing",
	"report/htmlcontrast_test.go":     "a formula of contrast",
	"rig/clash_test.go":               "a formula",
	"rig/correctbend_test.go":         "formulas of beams",
	"rig/fourleg_test.go":             "worked by hand",
	"rig/hitch_test.go":               "a formula of belt friction",
	"rig/verify_test.go":              "a method",
	"samples/samples_test.go":         "a stretch that the load file states",
	"samples/weight_test.go":          "take-offs by hand from figures that density holds to print",
	"sling/choose_test.go":            "worked by hand from ratings and factors held to print",
	"sling/hardwarefit_test.go":       "choices among fittings whose ratings are held to print",
	"sling/stock_test.go":             "worked by hand from ratings and factors held to print",
	"sling/stretch_test.go":           "common practice of the trade",
	"sling/surroundings_test.go":      "rules of use",
	"takeoff/allowance_test.go":       "masses by hand of what the load file states",
	"takeoff/contents_test.go":        "fill levels by numerical integration, and conversions that units holds to print",
	"takeoff/forms_test.go":           "tolerances that density holds to print",
	"takeoff/kinds_test.go":           "take-offs by hand",
	"takeoff/placeline_test.go":       "a take-off by hand",
	"takeoff/statistics_test.go":      "laws of probability",
	"units/outdoors_test.go":          "conversions held to print in convert_test.go",
}

// TestNoPrintedFigureElsewhere: a test file that names the source of a figure takes it from
// values.csv, or is on the list above with what it holds instead. It can't tell a figure
// without a source.
func TestNoPrintedFigureElsewhere(t *testing.T) {
	found := map[string]bool{}
	for _, name := range files(t, ".go") {
		if !strings.HasSuffix(name, "_test.go") || !strings.Contains(name, "/") {
			continue
		}
		text, err := os.ReadFile(name)
		require.NoError(t, err)
		names := slices.ContainsFunc(sourced, func(word string) bool { return strings.Contains(string(text), word) })
		if !names || strings.Contains(string(text), "inprint.Of(") {
			continue
		}
		found[name] = true
		assert.NotEmpty(t, elsewhere[name], "%s names the source of a figure: put the figure into testdata/published/values.csv, or say here what it is", name)
	}
	for name := range elsewhere {
		assert.True(t, found[name], "%s is on the list for nothing", name)
	}
}
