package lift

import (
	"cmp"
	"fmt"
	"reflect"
	"slices"
	"strings"
)

// Traced says of one figure of a result where it comes from.
type Traced struct {
	Figure  string            `json:"figure"` // its place in the JSON, such as legs.legs[0].tension_kn
	Value   any               `json:"value"`
	Formula string            `json:"formula"`
	Inputs  []string          `json:"inputs"` // other figures by type and key; keys of the load file (file:); tables (table:)
	Source  string            `json:"source"` // of the formula
	Basis   string            `json:"basis"`
	Code    string            `json:"code"`
	Row     map[string]string `json:"row,omitempty"` // what was looked up for it: material, size, and their own source and basis
}

// Trace lists the figures of a result in the order of its JSON, each with its
// formula, inputs and source. A figure that the table of formulas does not know
// is a fault of the program, and an error.
func Trace(result any) ([]Traced, error) {
	table, err := traceTable()
	if err != nil {
		return nil, fmt.Errorf("%w: %w", ErrProgram, err)
	}
	w := tracer{table: table, list: []Traced{}}
	w.walk(reflect.ValueOf(result), "", nil)
	if len(w.unknown) > 0 {
		return nil, fmt.Errorf("%w: lift/trace.csv has no row for %s", ErrProgram, strings.Join(w.unknown, ", "))
	}
	return w.list, nil
}

// WithTrace puts the trace of a result, and the edition of the tables, on it.
func WithTrace(result interface{ Head() *Header }) error {
	list, err := Trace(result)
	if err != nil {
		return err
	}
	head := result.Head()
	head.Trace, head.Tables = list, Tables()
	return nil
}

// tracer walks a result as encoding/json does.
type tracer struct {
	table   map[string]traceRow
	list    []Traced
	unknown []string
}

// walk lists the figures in a value; row is what was looked up for what holds it.
func (w *tracer) walk(v reflect.Value, path string, row map[string]string) {
	switch v.Kind() {
	case reflect.Pointer:
		if !v.IsNil() {
			w.walk(v.Elem(), path, row)
		}
	case reflect.Slice, reflect.Array:
		for i := range v.Len() {
			w.walk(v.Index(i), fmt.Sprintf("%s[%d]", path, i), row)
		}
	case reflect.Struct:
		if v.Type() != reflect.TypeFor[Header]() {
			w.fields(v, path, rowOf(v, row))
		}
	}
}

func (w *tracer) fields(v reflect.Value, path string, row map[string]string) {
	for i := range v.NumField() {
		f, value := v.Type().Field(i), v.Field(i)
		key, options, _ := strings.Cut(f.Tag.Get("json"), ",")
		switch {
		case key == "-" || !f.IsExported() && !f.Anonymous:
		case f.Anonymous && key == "":
			w.walk(value, path, row)
		case strings.Contains(options, "omitempty") && emptyInJSON(value):
		case numeric(f.Type):
			w.figure(v.Type().Name(), key, value, strings.TrimPrefix(path+"."+key, "."), row)
		default:
			w.walk(value, strings.TrimPrefix(path+"."+key, "."), row)
		}
	}
}

// figure lists one figure; of figures by name, each by itself.
func (w *tracer) figure(holder, key string, v reflect.Value, path string, row map[string]string) {
	of, known := w.table[holder+"."+key]
	if !known {
		of, known = w.table[holder+".*"]
	}
	if !known {
		w.unknown = append(w.unknown, holder+"."+key)
		return
	}
	one := Traced{Formula: of.formula, Inputs: of.inputs, Source: of.source, Basis: of.basis, Code: of.code, Row: row}
	if of.source == sourceOfRow {
		one.Source, one.Basis = cmp.Or(row["source"], of.source), cmp.Or(row["basis"], of.basis)
	}
	for v.Kind() == reflect.Pointer {
		if v.IsNil() {
			return
		}
		v = v.Elem()
	}
	if v.Kind() != reflect.Map {
		one.Figure, one.Value = path, v.Interface()
		w.list = append(w.list, one)
		return
	}
	names := v.MapKeys()
	slices.SortFunc(names, func(a, b reflect.Value) int { return cmp.Compare(a.String(), b.String()) })
	for _, name := range names {
		one.Figure, one.Value = path+"."+name.String(), v.MapIndex(name).Interface()
		w.list = append(w.list, one)
	}
}

// numeric tells whether a field is a figure: a number, or numbers that belong
// together, such as a place.
func numeric(t reflect.Type) bool {
	switch t.Kind() {
	case reflect.Float64, reflect.Int, reflect.Uint64:
		return true
	case reflect.Pointer, reflect.Slice, reflect.Array, reflect.Map:
		return numeric(t.Elem())
	}
	return false
}

// emptyInJSON tells what omitempty leaves out.
func emptyInJSON(v reflect.Value) bool {
	switch v.Kind() {
	case reflect.Slice, reflect.Map, reflect.Array:
		return v.Len() == 0
	case reflect.Struct:
		return false
	}
	return v.IsZero()
}

// rowKeys are those that tell what was looked up.
var rowKeys = []string{"family", "material", "written", "size", "grade", "source", "basis"}

// passedOn are those that hold for what is within as well.
var passedOn = []string{"family", "material"}

// rowOf is what was looked up for the figures of a struct: what it says itself,
// and the family and material of what holds it. The basis of a pose tells how the
// load is shared, and is none of a table.
func rowOf(v reflect.Value, above map[string]string) map[string]string {
	row := map[string]string{}
	for _, key := range passedOn {
		if text := above[key]; text != "" {
			row[key] = text
		}
	}
	for i := range v.NumField() {
		key, _, _ := strings.Cut(v.Type().Field(i).Tag.Get("json"), ",")
		if text := v.Field(i); slices.Contains(rowKeys, key) && text.Kind() == reflect.String && text.String() != "" {
			row[key] = text.String()
		}
	}
	if v.Type() == reflect.TypeFor[Posed]() {
		delete(row, "basis")
	}
	if len(row) == 0 {
		return nil
	}
	return row
}
