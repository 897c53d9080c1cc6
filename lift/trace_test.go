package lift

import (
	"encoding/json"
	"go/ast"
	"go/parser"
	"go/token"
	"path"
	"path/filepath"
	"reflect"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"plumbhook/takeoff"
)

// resultTypes are those that --trace can be asked of.
var resultTypes = []reflect.Type{reflect.TypeFor[Weighed](), reflect.TypeFor[Picked](), reflect.TypeFor[Hung](), reflect.TypeFor[Slung](), reflect.TypeFor[LiftSheet]()}

// figuresOf lists the figures that the result types can hold, as Struct.json_key.
func figuresOf(types []reflect.Type) map[string]bool {
	figures, seen := map[string]bool{}, map[reflect.Type]bool{reflect.TypeFor[Traced](): true}
	var walk func(t reflect.Type)
	walk = func(t reflect.Type) {
		switch t.Kind() {
		case reflect.Pointer, reflect.Slice, reflect.Array, reflect.Map:
			walk(t.Elem())
			return
		case reflect.Struct:
		default:
			return
		}
		if seen[t] {
			return
		}
		seen[t] = true
		for i := range t.NumField() {
			f := t.Field(i)
			key, _, _ := strings.Cut(f.Tag.Get("json"), ",")
			if key == "-" || !f.IsExported() && !f.Anonymous {
				continue
			}
			if numeric(f.Type) {
				figures[t.Name()+"."+key] = true
				continue
			}
			walk(f.Type)
		}
	}
	for _, t := range types {
		walk(t)
	}
	return figures
}

// TestEveryFigureHasItsRow lets no figure into a result without its formula, and no
// formula stay behind for a figure that is gone.
func TestEveryFigureHasItsRow(t *testing.T) {
	table, err := traceTable()
	require.NoError(t, err)
	figures := figuresOf(resultTypes)
	require.Greater(t, len(figures), 300)
	used := map[string]bool{}
	for figure := range figures {
		holder, _, _ := strings.Cut(figure, ".")
		_, own := table[figure]
		_, all := table[holder+".*"]
		assert.True(t, own != all, "%s: want just one row of lift/trace.csv, %s or %s.*: add `%s,formula with its unit,inputs,source,basis,lift/file.go:function`", figure, figure, holder, figure)
		used[figure], used[holder+".*"] = true, true
	}
	for row := range table {
		assert.True(t, used[row], "lift/trace.csv: no result has a figure %s: take the row away, or correct its name", row)
	}
}

// loadFileKeys are the keys that a load file can have, from its schema.
func loadFileKeys(t *testing.T) map[string]bool {
	var schema any
	require.NoError(t, json.Unmarshal(takeoff.Schema(), &schema))
	keys := map[string]bool{}
	var walk func(v any)
	walk = func(v any) {
		switch v := v.(type) {
		case []any:
			for _, one := range v {
				walk(one)
			}
		case map[string]any:
			if properties, ok := v["properties"].(map[string]any); ok {
				for key := range properties {
					keys[key] = true
				}
			}
			for _, one := range v {
				walk(one)
			}
		}
	}
	walk(schema)
	require.Contains(t, keys, "parts")
	return keys
}

// TestInputsOfFormulasAreThere: an input is a figure, a key of the load file or a
// table of the program.
func TestInputsOfFormulasAreThere(t *testing.T) {
	table, err := traceTable()
	require.NoError(t, err)
	figures, keys, tables := figuresOf(resultTypes), loadFileKeys(t), Tables()
	for name, row := range table {
		for _, input := range row.inputs {
			key, ofFile := strings.CutPrefix(input, "file:")
			file, ofTable := strings.CutPrefix(input, "table:")
			switch {
			case ofFile:
				assert.True(t, keys[key], "%s: the load file has no key %q", name, key)
			case ofTable:
				assert.Contains(t, tables, file, "%s: no such table in the program", name)
			default:
				assert.True(t, figures[input], "%s: its input %q is no figure of the results: write Struct.json_key, file:key or table:path", name, input)
				assert.NotEqual(t, name, input, "%s is its own input", name)
			}
		}
	}
}

// TestFormulasSayWhereTheyStand: each row is filled in and names a function that
// there is.
func TestFormulasSayWhereTheyStand(t *testing.T) {
	table, err := traceTable()
	require.NoError(t, err)
	functions := map[string][]string{}
	for name, row := range table {
		assert.NotEmpty(t, row.formula, name)
		assert.NotEmpty(t, row.source, name)
		assert.Contains(t, traceBases, row.basis, name)
		file, function, _ := strings.Cut(row.code, ":")
		if _, read := functions[file]; !read {
			functions[file] = functionsOf(t, file)
		}
		assert.True(t, slices.Contains(functions[file], function), "%s: no function %q in %s: name the one that works it out", name, function, file)
	}
}

func functionsOf(t *testing.T, file string) []string {
	if strings.Contains(file, "..") || path.Ext(file) != ".go" {
		return nil
	}
	syntax, err := parser.ParseFile(token.NewFileSet(), filepath.Join("..", filepath.FromSlash(file)), nil, parser.SkipObjectResolution)
	if !assert.NoError(t, err) {
		return nil
	}
	var names []string
	for _, d := range syntax.Decls {
		if f, ok := d.(*ast.FuncDecl); ok {
			names = append(names, f.Name.Name)
		}
	}
	return names
}

// TestAFigureWithoutARowIsAnError: nothing is left out of a trace in silence.
func TestAFigureWithoutARowIsAnError(t *testing.T) {
	type new struct {
		MassKg float64 `json:"mass_kg"`
	}
	_, err := Trace(struct {
		New new `json:"new"`
	}{new{1}})
	require.ErrorIs(t, err, ErrProgram)
	assert.ErrorContains(t, err, "new.mass_kg")
}

// TestTraceNamesTheRow: a figure that was looked up tells the row, its source and
// its basis; other figures tell the formula's.
func TestTraceNamesTheRow(t *testing.T) {
	list, err := Trace(Sizing{Families: []Family{{Family: "wire_rope", Material: "IWRC",
		Choice: &Choice{Size: "12", RatedKg: 1500, Utilisation: 0.5, Source: "a standard", Basis: "from memory"}}}})
	require.NoError(t, err)
	found := map[string]Traced{}
	for _, one := range list {
		found[one.Figure] = one
	}
	rated := found["families[0].choice.rated_kg"]
	assert.InDelta(t, 1500, rated.Value, 0)
	assert.Equal(t, "a standard", rated.Source)
	assert.Equal(t, "from memory", rated.Basis)
	assert.Equal(t, map[string]string{"family": "wire_rope", "material": "IWRC", "size": "12", "source": "a standard", "basis": "from memory"}, rated.Row)
	used := found["families[0].choice.utilisation"]
	assert.Equal(t, "required / rated, no more than 1", used.Formula)
	assert.Equal(t, "computed", used.Basis)
}
