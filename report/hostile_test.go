package report_test

import (
	"archive/zip"
	"bytes"
	"encoding/json"
	"encoding/xml"
	"errors"
	"fmt"
	"io"
	"reflect"
	"regexp"
	"slices"
	"strings"
	"sync"
	"testing"
	"testing/fstest"
	"unicode"
	"unicode/utf8"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"github.com/xuri/excelize/v2"

	"plumbhook/lift"
	"plumbhook/report"
	"plumbhook/takeoff"
)

// payloads are texts that steer what reads a file, where they are not taken for
// text: a browser, a spreadsheet, a terminal, or an eye that is led astray.
var payloads = map[string]string{
	"script":        `</script><script>window.ran=true</script>`,
	"attribute":     `" onmouseover="alert(1)" x="`,
	"one quote":     `' onfocus='alert(1)' '`,
	"image":         `<img src=x onerror=alert(1)>`,
	"style":         `</style><style>*{display:none}`,
	"remark":        `--><!--]]><![CDATA[`,
	"entity":        `&lt;script&gt;&#x3c;b&#62;&quot;&`,
	"drawing":       `</text></svg><svg onload=alert(1)>`,
	"template":      `{{.Secret}}{{template "x"}}${a}%s%d%!`,
	"formula":       `=cmd|'/C calc'!A0`,
	"plus":          `+1+cmd|' /C calc'!A0`,
	"minus":         `-2+3`,
	"at":            `@SUM(1+1)*cmd|' /C calc'!A0`,
	"quoted":        `","=1+1","`,
	"apostrophe":    `'=1+1`,
	"table":         `a|b;c,d` + "`" + `e\n\t\"`,
	"right to left": `שרשרת مرفاع`,
	"many marks":    "Z\u0301\u0302\u0303\u0304\u0305\u0306\u0307\u0308\u0309 \u0338",
	"full width":    "＝1+1",
	"beyond plane":  "😀𝕏🏗",
	"one long word": strings.Repeat("W", 450),
	"long":          strings.Repeat("long name ", 45),
}

// steering are texts with what a load file can't hold, since its reader refuses it;
// they may come by another way, such as the name of a file.
var steering = map[string]string{
	"title of a window": "\x1b]0;owned\x07",
	"colour":            "\x1b[2J\x1b[31m",
	"one byte":          "\u009b31m\u0085\u0090",
	"back":              "PASS\b\b\b\bFAIL\r\x00\x7f",
	"turned over":       "\u202egpj.exe\u202c\u2066\u2069\u200f",
	"unseen":            "a\u200b\u2060\ufeff\u00adb",
	"new lines":         "a\n\nNOT ACCEPTABLE\n=1+1\tb\u2028c\u2029",
	"no text":           "a\xff\xfe\xc3b",
}

// hostileLoad has a name wherever a planner may write one: NAMEa, NAMEb ...
const hostileLoad = `
load: 'NAMEa'
drawing: 'NAMEb'
datum: 'NAMEc'
units: mm
materials: [{name: 'NAMEd', density: 7800 kg/m3, tolerance: 1 %}]
material: 'NAMEd'
parts:
- {name: 'NAMEe', plate: 4000 x 2000 x 20, corner: [0, 0, 0], cuts: [{cylinder: {diameter: 300, height: 40}, at: [1000, 1000, -10]}]}
- {name: 'NAMEf', weight: 400 kg, box: 500 x 500 x 500, center: [2300, 1100, 300], status: catalogue, position: 30}
- {name: 'NAMEg', vessel: {inside: 600, wall: 6, heads: ellipsoidal 2:1}, from: [800, 1000, 500], to: [1900, 1000, 500], contents: {fluid: {name: 'NAMEh', density: 900 kg/m3}, fill: 40 %}}
allowances: [{name: 'NAMEi', of: all, add: 2 %}]
states: {'NAMEj': {without: ['NAMEg contents']}, 'NAMEk': {contents: {'NAMEg': {fluid: {name: 'NAMEh', density: 900 kg/m3}, fill: 90 %}}}}
weighings: [{name: 'NAMEl', accuracy: 2 %, cells: [{name: 'NAMEm', at: [100, 100, 0], reads: 500 kg}, {name: 'NAMEn', at: [3900, 100, 0], reads: 500 kg}, {name: 'NAMEo', at: [2000, 1900, 0], reads: 1050 kg}]}]
picks: [{name: 'NAMEp', at: [500, 300, 20]}, {name: 'NAMEq', at: [3500, 300, 20], lug: {normal: y}}, {name: 'NAMEr', at: [3500, 1700, 20]}, {name: 'NAMEs', at: [500, 1700, 20]}]
hook: {above: picks, height: 2500}
legs: {lengths: level, thickness: 20}
rules: EN
surroundings: {temperature: 20 C, chemicals: [none], edges: none, surface: painted, outdoors: true}
sharing: {basis: elastic, because: 'NAMEt'}
limits: {crane: {capacity: 3 t, block: 100 kg, radius: 8 m}}
sling stock: rack.csv
`

const hostileRack = "mark,family,material,size,length (mm),rated (kg),last inspection\n" +
	"NAMEu,alloy chain,grade 8,NAMEv,3500,5000,2026-01-01\nNAMEw,alloy chain,grade 8,NAMEv,3500,5000,2026-01-01\n"

// named puts a text in the place of each name, told apart by its last letter.
func named(load, text string) string {
	return regexp.MustCompile(`NAME([a-z])`).ReplaceAllStringFunc(load, func(name string) string { return text + " " + name[4:] })
}

// tame is a text of the same shape that steers nothing.
func tame(text string) string {
	return strings.Map(func(c rune) rune {
		if c == ' ' {
			return ' '
		}
		return 'x'
	}, text)
}

// sheetNamed is the whole sheet of the hostile load, every name of which is a text.
func sheetNamed(text string) (lift.LiftSheet, error) {
	load, err := takeoff.ReadFrom(strings.NewReader(named(hostileLoad, text)), text, fstest.MapFS{"rack.csv": {Data: []byte(named(hostileRack, text))}}, takeoff.Options{As: "yaml"})
	if err != nil {
		return lift.LiftSheet{}, err
	}
	s, err := lift.Sheet(load, lift.Options{Draw: true, Solids: true, Explain: true, Date: text})
	if err != nil {
		return s, err
	}
	return s, lift.WithTrace(&s)
}

// forms are all that a sheet is written to.
var forms = map[string]func(io.Writer, lift.LiftSheet, report.Options) error{
	"text": func(w io.Writer, s lift.LiftSheet, o report.Options) error { return report.Text(w, s, o) },
	"JSON": func(w io.Writer, s lift.LiftSheet, _ report.Options) error { return report.JSON(w, s) },
	"HTML": report.HTML,
	"SVG":  report.SVG,
	"XLSX": report.XLSX,
	"PDF": func(w io.Writer, s lift.LiftSheet, o report.Options) error {
		return report.PDF(w, s, report.A4, o)
	},
	"index": func(w io.Writer, s lift.LiftSheet, o report.Options) error {
		list := []report.Indexed{{Input: s.Load, File: s.Load + ".html", Sheet: s}, {Input: s.Load, Old: s.Load, Problems: []lift.Problem{{File: s.Load, Text: s.Load, Fix: s.Load}}}}
		return report.Index(w, list, s.Load, o)
	},
}

// written is a sheet in each form.
func written(t *testing.T, s lift.LiftSheet, version string) map[string][]byte {
	t.Helper()
	all := map[string][]byte{}
	for name, write := range forms {
		var b bytes.Buffer
		require.NoError(t, write(&b, s, report.Options{Version: version}), name)
		all[name] = b.Bytes()
	}
	return all
}

// token stands for the names of a load whose sheet is worked out once; what it is then
// written to is far quicker.
var token = strings.Repeat("x", 40)

var tokenSheet = sync.OnceValues(func() (lift.LiftSheet, error) { return sheetNamed(token) })

// withNames is the sheet of the hostile load with a text in the place of each name.
func withNames(t *testing.T, text string) lift.LiftSheet {
	t.Helper()
	s, err := tokenSheet()
	require.NoError(t, err)
	require.NotNil(t, s.Legs.Posed)
	require.NotNil(t, s.Slings)
	poison(reflect.ValueOf(&s).Elem(), token, text)
	require.Contains(t, s.Load, text)
	require.Contains(t, s.Legs.Legs[3].Pick, text)
	return s
}

// TestNamesSteerNothing puts hostile names into every place of a result, and writes it
// in every form. Each must have the bones that it has with names that mean nothing: the
// same elements and attributes, formulas and cells.
func TestNamesSteerNothing(t *testing.T) {
	for name, text := range payloads {
		t.Run(name, func(t *testing.T) {
			holdAgainst(t, written(t, withNames(t, tame(text)), tame(text)), written(t, withNames(t, text), text))
		})
	}
}

// TestHostileLoadFile goes the whole way, from a file in which every name is an
// attempt.
func TestHostileLoadFile(t *testing.T) {
	text := payloads["script"]
	s, err := sheetNamed(text)
	require.NoError(t, err)
	require.Contains(t, s.Load, text)
	page := written(t, s, text)["HTML"]
	plain := written(t, withNames(t, token), token)["HTML"]
	for _, tag := range []string{"<script", "</script", "<style", "</style"} {
		assert.Equal(t, bytes.Count(plain, []byte(tag)), bytes.Count(page, []byte(tag)), tag)
	}
}

// TestNothingSteersATerminal puts texts into a result that no load file can hold.
func TestNothingSteersATerminal(t *testing.T) {
	for name, text := range steering {
		t.Run(name, func(t *testing.T) {
			for form, out := range written(t, withNames(t, text), text) {
				printable(t, form, out)
			}
		})
	}
}

// poison puts a text in the place of another wherever a result holds it. What is
// shared with the result that it is a copy of is copied first.
func poison(v reflect.Value, old, text string) {
	switch v.Kind() {
	case reflect.String:
		v.SetString(strings.ReplaceAll(v.String(), old, text))
	case reflect.Pointer:
		if !v.IsNil() {
			own := reflect.New(v.Type().Elem())
			own.Elem().Set(v.Elem())
			poison(own.Elem(), old, text)
			v.Set(own)
		}
	case reflect.Struct:
		for i := range v.NumField() {
			if v.Type().Field(i).IsExported() {
				poison(v.Field(i), old, text)
			}
		}
	case reflect.Slice:
		if v.IsNil() {
			return
		}
		own := reflect.MakeSlice(v.Type(), v.Len(), v.Len())
		reflect.Copy(own, v)
		for i := range own.Len() {
			poison(own.Index(i), old, text)
		}
		v.Set(own)
	case reflect.Array:
		for i := range v.Len() {
			poison(v.Index(i), old, text)
		}
	case reflect.Map:
		own := reflect.MakeMap(v.Type())
		for _, k := range v.MapKeys() {
			key, value := reflect.New(k.Type()).Elem(), reflect.New(v.Type().Elem()).Elem()
			key.Set(k)
			value.Set(v.MapIndex(k))
			poison(key, old, text)
			poison(value, old, text)
			own.SetMapIndex(key, value)
		}
		if !v.IsNil() {
			v.Set(own)
		}
	}
}

// holdAgainst holds the forms of a sheet with hostile names against those with names
// that mean nothing.
func holdAgainst(t *testing.T, tame, wild map[string][]byte) {
	t.Helper()
	for form, out := range wild {
		printable(t, form, out)
		narrow(t, form, out)
		switch form {
		case "HTML", "index":
			assert.Equal(t, bones(t, tame[form], false), bones(t, out, false), form)
		case "SVG":
			assert.Equal(t, bones(t, tame[form], true), bones(t, out, true), form)
		case "XLSX":
			assert.Equal(t, formulas(t, tame[form]), formulas(t, out), form)
		case "PDF":
			for _, never := range []string{"/JavaScript", "/JS", "/URI", "/Launch", "/OpenAction", "/AA"} {
				assert.Equal(t, bytes.Count(tame[form], []byte(never)), bytes.Count(out, []byte(never)), never)
			}
		}
	}
	if !bytes.Contains(wild["HTML"], []byte("<script>")) {
		t.Error("the page has no view, so that nothing is seen of its script")
	}
}

// printable sees that what is written is text that steers no terminal, or is packed.
func printable(t *testing.T, form string, out []byte) {
	t.Helper()
	switch form {
	case "XLSX", "PDF":
		return
	case "JSON":
		require.True(t, json.Valid(out))
	}
	require.True(t, utf8.Valid(out), form)
	for at, c := range string(out) {
		if c != '\n' && c != '\t' && !unicode.IsGraphic(c) {
			t.Errorf("%s holds %U: %q", form, c, out[max(0, at-40):min(len(out), at+20)])
			return
		}
	}
}

// narrow sees that a text keeps to its columns, however long a name is.
func narrow(t *testing.T, form string, out []byte) {
	t.Helper()
	if form != "text" && form != "compare" {
		return
	}
	for line := range strings.Lines(string(out)) {
		if n := utf8.RuneCountInString(strings.TrimRight(line, "\n")); n > 80 {
			t.Errorf("%d characters: %.200s", n, line)
			return
		}
	}
}

var ownText = regexp.MustCompile(`(?s)(<(script|style)[^>]*>).*?</(?:script|style)>`)

// bones are the elements of a page or a picture with the names of their attributes,
// one after the other, and the texts that are no names: of classes and ids.
func bones(t *testing.T, text []byte, strict bool) string {
	t.Helper()
	if !strict {
		text = ownText.ReplaceAll(text, []byte("$1</$2>"))
		text = bytes.Replace(text, []byte("<!DOCTYPE html>"), nil, 1)
	}
	d := xml.NewDecoder(bytes.NewReader(text))
	if d.Strict = strict; !strict {
		d.AutoClose, d.Entity = xml.HTMLAutoClose, xml.HTMLEntity
	}
	var out strings.Builder
	for {
		token, err := d.Token()
		if errors.Is(err, io.EOF) {
			return out.String()
		}
		require.NoError(t, err)
		switch token := token.(type) {
		case xml.StartElement:
			out.WriteString("<" + token.Name.Local)
			for _, a := range token.Attr {
				out.WriteString(" " + a.Name.Local)
				if a.Name.Local == "class" || a.Name.Local == "id" {
					out.WriteString("=" + a.Value)
				}
				lower := strings.ToLower(strings.TrimSpace(a.Value))
				if a.Name.Local == "href" {
					first, _, _ := strings.Cut(lower, "/")
					assert.True(t, first != "" && !strings.Contains(first, ":"), "%q leads away", a.Value)
				}
			}
			out.WriteString(">\n")
		case xml.EndElement:
			out.WriteString("</" + token.Name.Local + ">\n")
		case xml.Comment, xml.Directive, xml.ProcInst:
			fmt.Fprintf(&out, "%T\n", token)
		}
	}
}

// formulas are the cells of a workbook with the kind of each and its formula.
func formulas(t *testing.T, data []byte) []string {
	t.Helper()
	z, err := zip.NewReader(bytes.NewReader(data), int64(len(data)))
	require.NoError(t, err)
	var out []string
	for _, file := range z.File {
		r, err := file.Open()
		require.NoError(t, err)
		text, err := io.ReadAll(r)
		require.NoError(t, err)
		if strings.HasSuffix(file.Name, ".xml") {
			bones(t, text, true) // it can be read at all
		}
		assert.NotContains(t, file.Name, "external", "a book leads to no other")
	}
	f, err := excelize.OpenReader(bytes.NewReader(data))
	require.NoError(t, err)
	defer f.Close()
	for _, sheet := range f.GetSheetList() {
		rows, err := f.GetRows(sheet)
		require.NoError(t, err)
		for i, row := range rows {
			for j, value := range row {
				at, err := excelize.CoordinatesToCellName(j+1, i+1)
				require.NoError(t, err)
				formula, err := f.GetCellFormula(sheet, at)
				require.NoError(t, err)
				kind, err := f.GetCellType(sheet, at)
				require.NoError(t, err)
				if value != "" && strings.ContainsRune("=+-@", rune(value[0])) && formula == "" && len(value) > 1 && !strings.ContainsRune("0123456789.−", rune(value[1])) {
					assert.Contains(t, []excelize.CellType{excelize.CellTypeSharedString, excelize.CellTypeInlineString}, kind, "%s!%s %q is text", sheet, at, value)
				}
				out = append(out, fmt.Sprint(sheet, "!", at, kind, formula))
			}
		}
	}
	slices.Sort(out)
	return out
}
