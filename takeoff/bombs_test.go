package takeoff

import (
	"archive/zip"
	"bytes"
	"compress/flate"
	"fmt"
	"io"
	"runtime"
	"strings"
	"testing"
	"testing/fstest"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// allocated is how many bytes a piece of work takes from the heap in all, given back
// in between or not: a figure that does not hang on the speed of a machine, nor on
// what else it does.
func allocated(work func()) int64 {
	var before, after runtime.MemStats
	runtime.GC()
	runtime.ReadMemStats(&before)
	work()
	runtime.ReadMemStats(&after)
	return int64(after.TotalAlloc - before.TotalAlloc)
}

const megabyte = 1 << 20

// TestLoadFileBombs: a load file that is made to eat the machine is refused, with
// what is wrong, a way to mend it, and no more memory than a hundred times its size.
func TestLoadFileBombs(t *testing.T) {
	full := func(begin, again, end string) string {
		return begin + strings.Repeat(again, (mostBytes-len(begin)-len(end))/len(again)) + end
	}
	aliases := "a0: &a0 [x, x, x, x, x, x, x, x, x, x]\n"
	for i := 1; i < 12; i++ {
		one := fmt.Sprintf("*a%d, ", i-1)
		aliases += fmt.Sprintf("a%d: &a%d [%s*a%d]\n", i, i, strings.Repeat(one, 9), i-1)
	}
	for name, tt := range map[string]struct{ text, says, fix string }{
		"list":                {full("load: [", "a,", "]"), "more than 201000 values", "--most-parts"},
		"list of lines":       {full("load:\n", "-\n", ""), "more than 201000 values", "--most-parts"},
		"lists in lists":      {full("load: ", "[", ""), "nested too deeply", "only a few levels"},
		"lines in lines":      {full("load:\n", "- ", ""), "nested too deeply", "only a few levels"},
		"groups in groups":    {"load: " + strings.Repeat("{a: ", 30) + strings.Repeat("}", 30), "nested too deeply", "more than 20 are never read"},
		"aliases of aliases":  {aliases, "the alias *a0 is not read here", "write the value out"},
		"an alias of itself":  {"load: &a [*a]\n", "the anchor &a is not read here", "take it away"},
		"merged into itself":  {"load: &a {<<: *a}\n", "the merge key << is not read here", "write the keys out"},
		"anchors":             {full("load: [", "&a a,", "]"), "the anchor &a is not read here", "take it away"},
		"tags":                {full("load: [", "!!str ,", "]"), "the tag !!str is not read here", "take the tag away"},
		"one key":             {full("", "k: 1\n", ""), `the key "k" is here twice`, "keep one of the two"},
		"a fault at the end":  {full("", "a: b\n", "x: [\n"), "not readable as YAML", "fix: "},
		"quotes":              {full("", `"`, ""), "not readable as YAML", "fix: "},
		"one byte too long":   {strings.Repeat("#", mostBytes+1), "more than 2097152 bytes", "--largest-file"},
		"a name without end":  {"load: " + strings.Repeat("a", 2_000_000) + "\n", "more than 500 characters", "shorten it"},
		"a unit without end":  {"load: a\nunits: " + strings.Repeat("a", 2_000_000) + "\n", "unknown unit aaaa", "fix: "},
		"a number too long":   {"load: a\nunits: mm\nparts:\n- {weight: " + strings.Repeat("9", 2_000_000) + " kg, at: [0, 0, 0]}\n", "too long", "200 characters"},
		"a million copies":    {head + "- {box: 1 x 1 x 1, corner: [0, 0, 0], count: 1e9, step: [5, 0, 0]}\n", "1e9 copies of one part; at most 1000", "--most-parts"},
		"a million turns":     {head + "- {box: 1 x 1 x 1, corner: [9, 0, 0], around: {axis: z, through: [0, 0, 0], count: 1000000}}\n", "1000000 copies of one part", "--most-parts"},
		"copies times copies": {head + "- {box: 1 x 1 x 1, corner: [9, 0, 0], count: 900, step: [0, 0, 9], around: {axis: z, through: [0, 0, 0], count: 900}}\n", "810000 copies of one part", "--most-parts"},
		"a step without end":  {head + "- {box: 1 x 1 x 1, corner: [0, 0, 0], count: 900, step: [1e300, 0, 0]}\n", "load.yaml:5:", "fix: "},
		"parts and parts":     {head + strings.Repeat("- {box: 1 x 1 x 1, corner: [0, 0, 0], count: 1000, step: [5, 0, 0]}\n", 21), "more than 20000 pieces", "--most-parts"},
	} {
		t.Run(name, func(t *testing.T) {
			var err error
			took := allocated(func() {
				_, err = ReadFrom(strings.NewReader(tt.text), "load.yaml", nil, Options{As: "yaml"})
			})
			require.ErrorContains(t, err, tt.says)
			require.ErrorContains(t, err, tt.fix)
			assert.Less(t, len(err.Error()), 100_000, "a message can be read")
			assert.Less(t, took, 500*int64(len(tt.text))+20*megabyte)
		})
	}
}

// TestChainBomb: load files that name each other many times over are read once each,
// and counted before they are copied.
func TestChainBomb(t *testing.T) {
	ten := func(name string) string {
		text := "load: a\nunits: mm\nmaterial: steel\nparts:\n"
		for i := range 10 {
			text += fmt.Sprintf("- {name: p%d, load: %s, at: [0, 0, %d m]}\n", i, name, i)
		}
		return text
	}
	files := fstest.MapFS{"load.yaml": file(ten("b0.yaml")), "b7.yaml": file("load: a\nunits: mm\nmaterial: steel\nparts: [{box: 1 x 1 x 1, corner: [0, 0, 0]}]\n")}
	for i := range 7 {
		files[fmt.Sprintf("b%d.yaml", i)] = file(ten(fmt.Sprintf("b%d.yaml", i+1)))
	}
	var err error
	took := allocated(func() { _, err = Read(files, "load.yaml", Options{}) })
	require.ErrorContains(t, err, "more than 20000 pieces")
	assert.Less(t, took, 300*int64(megabyte))
}

// packedSheet is a workbook of which nothing is given but the rows, and what else is
// packed with it. It is made by hand: a library would not make what these hold.
func packedSheet(t testing.TB, rows string, more func(*zip.Writer)) []byte {
	t.Helper()
	var b bytes.Buffer
	z := zip.NewWriter(&b)
	const head, office = `<?xml version="1.0"?>`, `http://schemas.openxmlformats.org/`
	for _, part := range [][2]string{
		{"[Content_Types].xml", `<Types xmlns="` + office + `package/2006/content-types"><Default Extension="xml" ContentType="application/xml"/><Default Extension="rels" ContentType="application/vnd.openxmlformats-package.relationships+xml"/></Types>`},
		{"_rels/.rels", `<Relationships xmlns="` + office + `package/2006/relationships"><Relationship Id="rId1" Type="` + office + `officeDocument/2006/relationships/officeDocument" Target="xl/workbook.xml"/></Relationships>`},
		{"xl/workbook.xml", `<workbook xmlns="` + office + `spreadsheetml/2006/main" xmlns:r="` + office + `officeDocument/2006/relationships"><sheets><sheet name="take-off" sheetId="1" r:id="rId1"/></sheets></workbook>`},
		{"xl/_rels/workbook.xml.rels", `<Relationships xmlns="` + office + `package/2006/relationships"><Relationship Id="rId1" Type="` + office + `officeDocument/2006/relationships/worksheet" Target="worksheets/sheet1.xml"/></Relationships>`},
		{"xl/worksheets/sheet1.xml", `<worksheet xmlns="` + office + `spreadsheetml/2006/main"><sheetData>` + rows + `</sheetData></worksheet>`},
	} {
		w, err := z.Create(part[0])
		require.NoError(t, err)
		_, err = io.WriteString(w, head+part[1])
		require.NoError(t, err)
	}
	if more != nil {
		more(z)
	}
	require.NoError(t, z.Close())
	return b.Bytes()
}

// zeros packs so many megabytes of zeros.
func zeros(t *testing.T, most int) []byte {
	t.Helper()
	var b bytes.Buffer
	w, err := flate.NewWriter(&b, flate.BestCompression)
	require.NoError(t, err)
	for range most {
		_, err := w.Write(make([]byte, megabyte))
		require.NoError(t, err)
	}
	require.NoError(t, w.Close())
	return b.Bytes()
}

// claims packs bytes under a size that is not theirs.
func claims(t *testing.T, name string, packed []byte, size uint64) func(*zip.Writer) {
	return func(z *zip.Writer) {
		w, err := z.CreateRaw(&zip.FileHeader{Name: name, Method: zip.Deflate, CompressedSize64: uint64(len(packed)), UncompressedSize64: size})
		require.NoError(t, err)
		_, err = w.Write(packed)
		require.NoError(t, err)
	}
}

// TestWorkbookBombs: a workbook of a few kilobytes that unpacks to gigabytes, or says
// that it is millions of cells, is refused before it is read.
func TestWorkbookBombs(t *testing.T) {
	rows := func(n int, cells string) string {
		var b strings.Builder
		for i := range n {
			fmt.Fprintf(&b, `<row r="%d">%s</row>`, i+1, strings.ReplaceAll(cells, "#", fmt.Sprint(i+1)))
		}
		return b.String()
	}
	gigabyte := zeros(t, 1024)
	strung := func(part string) func(*zip.Writer) {
		return func(z *zip.Writer) {
			w, err := z.Create(part)
			require.NoError(t, err)
			_, err = io.WriteString(w, "<sst>"+strings.Repeat("<si><t/></si>", 4_700_000)+"</sst>")
			require.NoError(t, err)
		}
	}
	const wide = "spreads over more cells than are read"
	for name, tt := range map[string]struct {
		data []byte
		says string
	}{
		"a gigabyte":               {packedSheet(t, "", claims(t, "xl/media/a.png", gigabyte, 1<<30)), "more than the limit of 67108864 bytes once it is unpacked"},
		"a gigabyte, said to be 9": {packedSheet(t, "", claims(t, "xl/sharedStrings.xml", gigabyte, 9)), "no header row"},
		"more than there is":       {packedSheet(t, "", claims(t, "xl/sharedStrings.xml", []byte{3, 0}, 1<<62)), "once it is unpacked"},
		"many files": {packedSheet(t, "", func(z *zip.Writer) {
			for i := range 60_000 {
				_, err := z.CreateRaw(&zip.FileHeader{Name: fmt.Sprint(i)})
				require.NoError(t, err)
			}
		}), "packed of more than 1000 files"},
		"texts":                 {packedSheet(t, "", strung("xl/sharedStrings.xml")), "more texts and formats"},
		"texts by another name": {packedSheet(t, "", strung("xl/media/a.png")), "more texts and formats"},
		"wide rows":             {packedSheet(t, rows(500, `<c r="A#"><v>1</v></c><c r="XFD#"/>`), nil), wide},
		"wide rows otherwise":   {packedSheet(t, rows(500, "<x:c\n s='"+strings.Repeat("0", 900)+"'\tr = 'XFD#'/>"), nil), wide},
		"a row beyond all":      {packedSheet(t, `<row r="2000000000"><c r="A2000000000"><v>1</v></c></row>`, nil), wide},
		"rows without a number": {packedSheet(t, strings.Repeat(`<row/>`, 2_000_000), nil), wide},
		"tags in tags":          {packedSheet(t, strings.Repeat(`<a>`, 3_000_000), nil), "has tags more than 64 deep"},
		"a long tag":            {packedSheet(t, `<row `+strings.Repeat("a='1' ", 5000)+`/>`, nil), "has a tag of more than 16384 bytes"},
		"a password":            {append([]byte{0xd0, 0xcf, 0x11, 0xe0, 0xa1, 0xb1, 0x1a, 0xe1}, make([]byte, 5000)...), "it has a password, or is of the old kind .xls"},
	} {
		t.Run(name, func(t *testing.T) {
			require.Less(t, len(tt.data), mostSheetBytes)
			var err error
			took := allocated(func() { _, err = readWorkbook(tt.data) })
			require.ErrorContains(t, err, tt.says)
			assert.Less(t, took, 40*int64(megabyte))
		})
	}
}

// TestPlainWorkbookIsRead: a workbook with a picture, a remark, and cells formatted
// out to the last column is none of those.
func TestPlainWorkbookIsRead(t *testing.T) {
	const text = `<c r="%s" t="inlineStr"><is><t>%s</t></is></c>`
	row := func(number int, cells ...string) string {
		out := fmt.Sprintf(`<row r="%d">`, number)
		for i, c := range cells {
			out += fmt.Sprintf(text, cell(i+1, number), c)
		}
		return out + "<!-- 5 > 4 --></row>"
	}
	data := packedSheet(t, row(1, "mark", "weight", "x", "y", "z")+row(2, "P1", "5 kg", "1 m", "2 m", "3 m")+`<row r="3"><c r="XFD3" s="0"/></row>`,
		func(z *zip.Writer) {
			w, err := z.Create("xl/media/a.png")
			require.NoError(t, err)
			_, err = w.Write(append([]byte("\x89PNG\r\n\x1a\n"), bytes.Repeat([]byte("<a"), 600_000)...))
			require.NoError(t, err)
		})
	l, err := readWorkbook(data)
	require.NoError(t, err)
	assert.Len(t, l.Parts, 1)
}

// TestCSVBombs: nor is a text of nothing but separators read.
func TestCSVBombs(t *testing.T) {
	for name, data := range map[string]string{
		"commas": strings.Repeat(",", mostSheetBytes), "lines": strings.Repeat("\n", mostSheetBytes), "rows": strings.Repeat("a\n", mostSheetBytes/2),
		"an open quote": "mark,x,weight\n\"" + strings.Repeat("x\n", mostSheetBytes/2-20), "quotes": strings.Repeat(`"",`, mostSheetBytes/3),
		"one cell": "mark,x,weight\n" + strings.Repeat("x", mostSheetBytes-20), "wide": strings.Repeat(strings.Repeat(",", 60)+"\n", mostSheetBytes/61),
	} {
		t.Run(name, func(t *testing.T) {
			var err error
			took := allocated(func() { _, err = readSheet(data, Options{}) })
			require.Error(t, err)
			assert.Less(t, len(err.Error()), 100_000)
			assert.Less(t, took, 400*int64(megabyte))
		})
	}
}

// TestRaisedLimits: what the command line allows is read, and no more.
func TestRaisedLimits(t *testing.T) {
	many := head + strings.Repeat("- {weight: 1 kg, at: [0, 0, 0], count: 1000, step: [5, 0, 0]}\n", 21)
	_, err := ReadFrom(strings.NewReader(many), "load.yaml", nil, Options{As: "yaml", MostParts: 21_000})
	require.NoError(t, err)
	_, err = ReadFrom(strings.NewReader(many), "load.yaml", nil, Options{As: "yaml", MostParts: 20_999})
	require.ErrorContains(t, err, "more than 20999 pieces")

	long := head + strings.Repeat("#", mostBytes) + "\n- {weight: 1 kg, at: [0, 0, 0]}\n"
	opt := Options{As: "yaml"}
	_, err = ReadFrom(strings.NewReader(long), "load.yaml", nil, opt)
	require.ErrorContains(t, err, "--largest-file")
	opt.Limits.Bytes = int64(len(long))
	_, err = ReadFrom(strings.NewReader(long), "load.yaml", nil, opt)
	require.NoError(t, err)
	opt.Limits.Bytes--
	_, err = ReadFrom(strings.NewReader(long), "load.yaml", nil, opt)
	require.ErrorContains(t, err, fmt.Sprintf("more than %d bytes", len(long)-1))
}
