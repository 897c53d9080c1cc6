package takeoff

import (
	"archive/zip"
	"bytes"
	"errors"
	"fmt"
	"strings"
	"testing"
	"testing/fstest"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"github.com/xuri/excelize/v2"

	"plumbhook/geom"
	"plumbhook/units"
)

// top begins most of the sheets in the tests: a row of what the sheet is about
// and the header, so that the first part stands in row 3.
const top = "material,structural steel\n" +
	"mark,qty,description,size (mm),material,length (mm),along,x (mm),y (mm),z (mm),weight (kg)\n"

// readSheet reads a sheet from memory.
func readSheet(text string, opt Options) (*Load, error) {
	opt.As = "csv"
	return ReadFrom(strings.NewReader(text), "take-off.csv", nil, opt)
}

// workbook makes an .xlsx file of cells; numbers stay numbers.
func workbook(t *testing.T, edit func(f *excelize.File, sheet string), rows ...[]any) []byte {
	t.Helper()
	f := excelize.NewFile()
	defer f.Close()
	name := f.GetSheetName(0)
	for i, row := range rows {
		require.NoError(t, f.SetSheetRow(name, cell(1, i+1), &row))
	}
	if edit != nil {
		edit(f, name)
	}
	b, err := f.WriteToBuffer()
	require.NoError(t, err)
	return b.Bytes()
}

func readWorkbook(data []byte) (*Load, error) {
	return ReadFrom(bytes.NewReader(data), "take-off.xlsx", nil, Options{As: "xlsx"})
}

// TestSheetRows holds each form of a size against arithmetic by hand, with
// steel of 7850 kg/m³: the nominal mass basis of EN 10365.
func TestSheetRows(t *testing.T) {
	tests := []struct {
		name, row string
		kind      string
		mass      float64  // kg, all pieces
		cg        geom.Vec // m
		extent    geom.Vec // m, of one
	}{
		// 2.4 × 1.2 × 0.02 m = 0.0576 m³.
		{"box", "P1,1,base,2400 x 1200 x 20,,,,1200,600,10,", "box", 452.16, geom.Vec{1.2, 0.6, 0.01}, geom.Vec{2.4, 1.2, 0.02}},
		{"plate", "P1,1,base,Plate 2400x1200x20,,,,1200,600,10,", "plate", 452.16, geom.Vec{1.2, 0.6, 0.01}, geom.Vec{2.4, 1.2, 0.02}},
		{"plate with a length", "P1,1,base,plate 1200 x 20,,2400,,1200,600,10,", "plate", 452.16, geom.Vec{1.2, 0.6, 0.01}, geom.Vec{2.4, 1.2, 0.02}},
		{"length that is a side", "P1,1,base,2400 x 1200 x 20,,2400,,1200,600,10,", "box", 452.16, geom.Vec{1.2, 0.6, 0.01}, geom.Vec{2.4, 1.2, 0.02}},
		// 0.1 × 0.01 × 6 m = 0.006 m³.
		{"flat bar", "F1,1,flat,flat 100 x 10,,6000,x,3000,0,0,", "box", 47.1, geom.Vec{3, 0, 0}, geom.Vec{6, 0.01, 0.1}},
		{"square bar", "F1,1,bar,square bar 50,,2 m,y,0,0,0,", "box", 39.25, geom.Vec{}, geom.Vec{0.05, 2, 0.05}},
		// π/4 · 0.05² · 1 m = 0.00196350 m³.
		{"rod", "R1,1,rod,rod 50,,1000,z,0,0,500,", "rod", 15.4134, geom.Vec{0, 0, 0.5}, geom.Vec{0.05, 0.05, 1}},
		// π/4 · (0.12² − 0.104²) · 1 m = 0.00281487 m³.
		{"tube", "T1,1,tube,tube 120 x 8,,1000,z,0,0,500,", "tube", 22.0967, geom.Vec{0, 0, 0.5}, geom.Vec{0.12, 0.12, 1}},
		// π/6 · 0.3³ = 0.0141372 m³.
		{"flat by its mark", "F1,1,flat,FL 100x10,,6000,x,3000,0,0,", "box", 47.1, geom.Vec{3, 0, 0}, geom.Vec{6, 0.01, 0.1}},
		{"flat with a star", "F1,1,flat,FL100*10,,6000,x,3000,0,0,", "box", 47.1, geom.Vec{3, 0, 0}, geom.Vec{6, 0.01, 0.1}},
		// 0.02 × 0.5 × 1 m = 0.01 m³, whichever size is named first: a plate lies.
		{"plate by its mark", "P1,1,base,PL 20x500x1000,,,,0,0,0,", "plate", 78.5, geom.Vec{}, geom.Vec{0.5, 1, 0.02}},
		{"plate by its mark, thickness last", "P1,1,base,pl 1000 x 500 x 20,,,,0,0,0,", "plate", 78.5, geom.Vec{}, geom.Vec{1, 0.5, 0.02}},
		{"plate by its mark and a length", "P1,1,base,PL20*500,,1000,,0,0,0,", "plate", 78.5, geom.Vec{}, geom.Vec{1, 0.5, 0.02}},
		{"rod by its mark", "R1,1,rod,RD 50,,1000,z,0,0,500,", "rod", 15.4134, geom.Vec{0, 0, 0.5}, geom.Vec{0.05, 0.05, 1}},
		{"rod by a D", "R1,1,rod,D50,,1000,z,0,0,500,", "rod", 15.4134, geom.Vec{0, 0, 0.5}, geom.Vec{0.05, 0.05, 1}},
		{"rod by its sign", "R1,1,rod,Ø 2 in,,1000,z,0,0,500,", "rod", 15.9106, geom.Vec{0, 0, 0.5}, geom.Vec{0.0508, 0.0508, 1}},
		{"tube by its mark", "T1,1,tube,RO 120x8,,1000,z,0,0,500,", "tube", 22.0967, geom.Vec{0, 0, 0.5}, geom.Vec{0.12, 0.12, 1}},
		{"sphere", "S1,1,ball,sphere 300,,,,0,0,0,", "sphere", 110.977, geom.Vec{}, geom.Vec{0.3, 0.3, 0.3}},
		{"weight alone", "D1,1,drive,,,,,100,200,300,260", "weight", 260, geom.Vec{0.1, 0.2, 0.3}, geom.Vec{}},
		{"weight with its unit", "D1,1,drive,,,,,100,200,300,100 lb", "weight", 45.359237, geom.Vec{0.1, 0.2, 0.3}, geom.Vec{}},
		{"envelope", "D1,1,drive,envelope 800 x 600 x 900,,,,0,0,450,260", "weight", 260, geom.Vec{0, 0, 0.45}, geom.Vec{0.8, 0.6, 0.9}},
		{"several pieces", "D1,4,foot,,,,,100,200,300,2.5", "weight", 10, geom.Vec{0.1, 0.2, 0.3}, geom.Vec{}},
		{"other units", "P1,1,base,2.4 m x 1.2 m x 0.02 m,,,,4 ft,0,0,", "box", 452.16, geom.Vec{1.2192, 0, 0}, geom.Vec{2.4, 1.2, 0.02}},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			l, err := readSheet(top+tt.row+"\n", Options{})
			require.NoError(t, err)
			w, err := l.Weigh()
			require.NoError(t, err)
			require.Len(t, l.Parts, 1)
			assert.Equal(t, tt.kind, l.Parts[0].Kind)
			assert.Equal(t, 3, l.Parts[0].Line)
			assert.InEpsilon(t, tt.mass, float64(w.Best), 1e-5)
			near3(t, tt.cg, w.CG, 1e-9, "CG")
			near3(t, tt.extent, w.Extent.Size(), 1e-9, "extent")
		})
	}
}

// TestSheetForms reads one take-off in the forms that programs save it in.
func TestSheetForms(t *testing.T) {
	tests := []struct{ name, text string }{
		{"units in the header", "mark,size (mm),material,x [mm],\"y, mm\",Z mm\nP1,2400 x 1200 x 20,steel,1200,600,10\n"},
		{"a row of units", "mark,size,material,x,y,z\n,mm,,mm,m,mm\nP1,2400 x 1200 x 20,steel,1200,0.6,10\n"},
		{"units above", "units,mm\nmaterial:,steel\nmark,size,x,y,z\nP1,2400 x 1200 x 20,1200,600,10\n"},
		{"other names, other order", "Units;mm\nMaterial;steel\n\n\"Z-CG\";Profile;Item No.;CG_X;y.coordinate\n10;2400 x 1200 x 20;P1;1200;600\n"},
		{"tabs and line ends", "units\tmm\r\nmark\tsize\tmaterial\tx\ty\tz\r\nP1\t2400 x 1200 x 20\tsteel\t1200\t600\t10\r\n"},
		{"text above, byte order mark", "\uFEFFTake-off of the skid\n\nunits,mm\nmark,size,material,x,y,z\nP1,2400 x 1200 x 20,steel,1200,600,10\n"},
		{"a column of notes", "units,mm\nmark,size,material,x,y,z,note cost\nP1,2400 x 1200 x 20,steel,1200,600,10,\"1,5\"\n"},
		{"headings and a total", "units,mm\nmark,size,material,x,y,z,weight kg\nMAIN FRAME\nP1,2400 x 1200 x 20,steel,1200,600,10,\nTotal,,,,,,452\n"},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			l, err := readSheet(tt.text, Options{})
			require.NoError(t, err)
			w, err := l.Weigh()
			require.NoError(t, err)
			assert.InDelta(t, 452.16, float64(w.Best), 1e-9)
			near3(t, geom.Vec{1.2, 0.6, 0.01}, w.CG, 1e-12, "CG")
			assert.Equal(t, "take-off.csv", l.Name)
		})
	}
}

// TestSheetWarns sees that what could be read in two ways is said.
func TestSheetWarns(t *testing.T) {
	tests := []struct{ name, row, code, text string }{
		{"weight differs", "P1,1,base,2400 x 1200 x 20,steel,,,1200,600,10,600", "weight-differs", "P1 base (A3): the sheet gives 600 kg for one, its size and material comes to 452.2 kg (996.8 lb) (+32.7 %): the second is used"},
		{"common centre", "P1,2,base,2400 x 1200 x 20,steel,,,1200,600,10,", "pieces-together", "common centre of all pieces of the row: P1 base"},
		{"upright", "R1,1,rod,rod 50,steel,1000,,0,0,0,", "along-default", "taken as upright, along z: R1 rod"},
		{"a heading", "P1,1,base,2400 x 1200 x 20,steel,,,1200,600,10,\nFRAME", "rows-skipped", "read as no part: 4"},
		{"status", "D1,1,drive,,,,,1,2,3,260", "status-default", "how some weights are known: taken as estimated, ±"},
		{"material", "P1,1,base,2400 x 1200 x 20,,,,1200,600,10,", "material-default", "P1 base"},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			l, err := readSheet(top+tt.row+"\n", Options{})
			require.NoError(t, err)
			require.Equal(t, []string{tt.code}, codes(l.Warnings))
			assert.Contains(t, l.Warnings[0].Text, tt.text)
		})
	}
	l, err := readSheet(top+"P1,1,base,2400 x 1200 x 20,steel,,,1200,600,10,440\n", Options{})
	require.NoError(t, err)
	assert.Empty(t, l.Warnings, "2.7 %% off: within what mills account for")
	assert.Contains(t, l.Parts[0].Basis, "the sheet gives 440 kg", "both are shown")
	assert.InDelta(t, 452.16, float64(l.Parts[0].massOfOne()), 1e-9, "the computed one is used")
}

// TestSheetDesignations reads sections and pipes. Masses by length: EN 10365
// for HEA 200 (42.3 kg/m) and UPN 200 (25.3 kg/m), ASME B36.10M for NPS 6
// schedule 40 (28.26 kg/m); all from memory.
func TestSheetDesignations(t *testing.T) {
	const head = "mark,size,material,length (m),along,up,x (mm),y (mm),z (mm)\n"
	tests := []struct {
		row    string
		mass   float64  // kg
		extent geom.Vec // m
	}{
		{"B1,HEA 200,steel,6,x,,3000,0,95", 253.8, geom.Vec{6, 0.2, 0.19}},
		{"C1,UPN 200,steel,2,x,z,0,0,100", 50.6, geom.Vec{2, 0.075, 0.2}},
		{"P1,NPS 6 sch 40,steel,2,z,,0,0,1000", 56.52, geom.Vec{0.1683, 0.1683, 2}},
		{"P1,pipe NPS 6 sch 40,steel,2,z,,0,0,1000", 56.52, geom.Vec{0.1683, 0.1683, 2}},
	}
	for _, tt := range tests {
		l, err := readSheet(head+tt.row+"\n", Options{})
		require.NoError(t, err)
		w, err := l.Weigh()
		require.NoError(t, err)
		assert.InEpsilon(t, tt.mass, float64(w.Best), 3e-4, tt.row)
		near3(t, tt.extent, w.Extent.Size(), 1e-4, tt.row)
		assert.Empty(t, l.Warnings)
	}
	_, err := readSheet(head+"B1,HEA 205,steel,6,x,,3000,0,95\n", Options{})
	assert.ErrorContains(t, err, `take-off.csv:B2: unknown section "HEA 205"`)
	_, err = readSheet(head+"C1,UPN 200,steel,2,x,,0,0,100\n", Options{})
	assert.ErrorContains(t, err, "take-off.csv:B2: this section is not symmetric about two axes")
}

// TestSheetKeepsWords shows each part as the cells say it.
func TestSheetKeepsWords(t *testing.T) {
	l, err := readSheet(top+"P1,1,a,plate 2400 x 1200 x 20,,,,1200,600,10,\nR1,1,b,rod 50,,1 m,z,0,9000,0,\nD1,1,c,,,,,0,0,0,260\n"+
		"D2,1,d,envelope 8 x 6 x 9,,,,0,0,0,10 lb\n", Options{})
	require.NoError(t, err)
	var written []string
	for _, p := range l.Parts {
		written = append(written, p.Name+": "+p.Written)
	}
	assert.Equal(t, []string{"P1 a: 2400 x 1200 x 20", "R1 b: 50, length 1 m", "D1 c: 260 kg", "D2 d: 10 lb, envelope 8 x 6 x 9"}, written)
}

// TestSheetPiecesTogether takes no part in the look for overlaps: where the
// pieces stand is not known.
func TestSheetPiecesTogether(t *testing.T) {
	l, err := readSheet(top+"P1,4,base,100 x 100 x 100,,,,0,0,0,\n", Options{})
	require.NoError(t, err)
	assert.Equal(t, 4, l.Parts[0].Count)
	assert.Empty(t, l.Overlaps)
	best, _, _ := l.Parts[0].Mass()
	assert.InDelta(t, 4*7.85, float64(best), 1e-9)
}

// TestSheetSteps places each piece of a row, and shares a total out.
func TestSheetSteps(t *testing.T) {
	l, err := readSheet("units,mm\nitem,qty,x,y,z,dx,dz,total weight,status,tolerance\n,,,,,,,kg,,%\nfoot,4,0,0,0,1000,,40,weighed,2\n", Options{})
	require.NoError(t, err)
	assert.Equal(t, units.Mass(10), l.Parts[0].Given)
	near3(t, geom.Vec{1.5, 0, 0}, l.Parts[0].CG(), 1e-12, "CG of the feet")
	assert.InDelta(t, 0.02, l.Parts[0].High, 1e-12)
	assert.Equal(t, "weighed", l.Parts[0].Status)
	assert.Empty(t, l.Warnings)
}

// TestSheetOptions takes from the command line what the sheet does not say.
func TestSheetOptions(t *testing.T) {
	const bare = "mark,size,x,y,z\nP1,2400 x 1200 x 20,1200,600,10\n"
	l, err := readSheet(bare, Options{Material: "steel", MeshUnits: units.LengthUnit{Name: "mm", Metres: 0.001}})
	require.NoError(t, err)
	w, err := l.Weigh()
	require.NoError(t, err)
	assert.InDelta(t, 452.16, float64(w.Best), 1e-9)

	_, err = readSheet(bare, Options{Material: "stele"})
	assert.ErrorContains(t, err, "given as --material")
}

// TestWorkbook reads numbers and the values of formulas.
func TestWorkbook(t *testing.T) {
	data := workbook(t, func(f *excelize.File, sheet string) {
		// Saved by a spreadsheet: the formula and the value beside it.
		require.NoError(t, f.SetCellFormula(sheet, "D4", "=600*2"))
		percent, err := f.NewStyle(&excelize.Style{NumFmt: 3}) // #,##0 hides digits and adds a separator
		require.NoError(t, err)
		require.NoError(t, f.SetCellStyle(sheet, "D4", "F4", percent))
	}, []any{"load", "Skid"}, []any{"units", "mm"},
		[]any{"Mark", "Size", "Material", "X", "Y", "Z", "Weight (kg)"},
		[]any{"P1", "2400 x 1200 x 20", "steel", 1200, 600, 10},
		[]any{101, nil, nil, 1000.25, 2000, -30.5, 260.125})
	l, err := readWorkbook(data)
	require.NoError(t, err)
	assert.Equal(t, "Skid", l.Name)
	require.Len(t, l.Parts, 2)
	near3(t, geom.Vec{1.2, 0.6, 0.01}, l.Parts[0].CG(), 1e-12, "CG of the plate")
	assert.Equal(t, "101", l.Parts[1].Name)
	assert.Equal(t, units.Mass(260.125), l.Parts[1].Given)
	near3(t, geom.Vec{1.00025, 2, -0.0305}, l.Parts[1].GivenAt, 1e-12, "place of the weight")

	several := workbook(t, func(f *excelize.File, _ string) { _, _ = f.NewSheet("prices"); _, _ = f.NewSheet("costs") })
	_, err = readWorkbook(several)
	assert.ErrorContains(t, err, "the workbook has 3 sheets: Sheet1, prices, costs")

	_, err = readWorkbook([]byte("PK\x03\x04 and no more"))
	assert.ErrorContains(t, err, "not readable as .xlsx")

	half := workbook(t, nil, []any{"mark", "size", "x"})
	require.NotPanics(t, func() { _, err = readWorkbook(half[:len(half)/2]) })
	assert.Error(t, err)

	_, err = readWorkbook(workbook(t, func(f *excelize.File, s string) { require.NoError(t, f.SetCellInt(s, "XFD2", 7)) }, []any{"mark", "size", "x"}))
	assert.ErrorContains(t, err, "more than 64 columns")
	_, err = readWorkbook(workbook(t, nil, []any{"mark", "size", "x", "y", "z"}, []any{"P1", "#REF!", 1, 2, 3}))
	assert.ErrorContains(t, err, "take-off.xlsx:B2: the cell holds #REF!")
	_, err = readWorkbook(unpacksTo(t, int(Options{}.unpacked())+1))
	assert.ErrorContains(t, err, "not readable as .xlsx")
	assert.ErrorContains(t, err, "limit")
}

// unpacksTo makes a small packed file that unpacks to so many bytes.
func unpacksTo(t *testing.T, bytesOut int) []byte {
	t.Helper()
	var b bytes.Buffer
	z := zip.NewWriter(&b)
	w, err := z.Create("xl/worksheets/sheet1.xml")
	require.NoError(t, err)
	_, err = w.Write(make([]byte, bytesOut))
	require.NoError(t, err)
	require.NoError(t, z.Close())
	require.Less(t, b.Len(), mostSheetBytes)
	return b.Bytes()
}

// TestSheetLimits refuses what is larger than any take-off.
func TestSheetLimits(t *testing.T) {
	_, err := readSheet(top+strings.Repeat(",\n", mostParts), Options{})
	assert.ErrorContains(t, err, "more than 20000 rows")
	_, err = readSheet(top+strings.Repeat(",", mostSheetColumns)+"1\n", Options{})
	assert.ErrorContains(t, err, "take-off.csv:BM3: the sheet has more than 64 columns")
	_, err = readSheet(top+strings.Repeat("D1,1000,drive,,,,,0,0,0,1\n", 21), Options{})
	assert.ErrorContains(t, err, "take-off.csv:A23: the sheet has more than 20000 pieces")
	_, err = readSheet(top+strings.Repeat(" ", mostSheetBytes), Options{})
	assert.ErrorContains(t, err, "more than 8388608 bytes")
	_, err = readWorkbook(make([]byte, mostSheetBytes+1))
	assert.ErrorContains(t, err, "more than 8388608 bytes")
}

// TestNewSheet reads the empty sheets as they are.
func TestNewSheet(t *testing.T) {
	for _, kind := range []string{"csv", "xlsx"} {
		data, err := NewSheet(kind)
		require.NoError(t, err)
		l, err := ReadFrom(bytes.NewReader(data), "new."+kind, nil, Options{As: kind})
		require.NoError(t, err)
		assert.Equal(t, "what is lifted", l.Name)
		assert.Empty(t, l.Warnings)
		w, err := l.Weigh()
		require.NoError(t, err)
		assert.InDelta(t, 452.16, float64(w.Best), 1e-9)
	}
	_, err := NewSheet("ods")
	assert.Error(t, err)
}

// FuzzReadSheet reads anything as a sheet: no panic, and figures or problems.
func FuzzReadSheet(f *testing.F) {
	f.Add([]byte(top+"P1,1,base,2400 x 1200 x 20,,,,1200,600,10,\n"), false)
	for _, tt := range badSheets {
		f.Add([]byte(tt.whole()), false)
	}
	for _, kind := range []string{"csv", "xlsx"} {
		data, err := NewSheet(kind)
		if err != nil {
			f.Fatal(err)
		}
		f.Add(data, kind == "xlsx")
	}
	f.Add(packedSheet(f, `<row r="1"><c r="A1"><v>1</v></c><c r="XFD1"/></row><row r="1048576"/>`, nil), true)
	f.Fuzz(func(t *testing.T, data []byte, xlsx bool) {
		opt := Options{As: "csv"}
		if xlsx {
			opt.As = "xlsx"
		}
		l, err := ReadFrom(bytes.NewReader(data), "take-off", nil, opt)
		if err == nil {
			checkFigures(t, l)
			return
		}
		var problems Problems
		if !errors.As(err, &problems) || len(problems) == 0 || problems.Error() == "" {
			t.Fatalf("error of another kind: %v", err)
		}
		for _, p := range problems {
			if p.Text == "" || p.Fix == "" || p.Line > 0 && p.Column < 1 || p.Line == 0 && !strings.Contains(p.Text, "sheet") && opt.As == "csv" {
				t.Fatalf("problem without a place, a text or a fix: %s", fmt.Sprintf("%+v", p))
			}
		}
	})
}

// Factors stand above the header like what else holds for the whole: without them the
// slings of a table would be sized as for a load that hangs still.
func TestFactorsAboveASheet(t *testing.T) {
	const rows = "mark,size (mm),material,x (mm),y (mm),z (mm)\nP1,2000 x 1000 x 20,structural steel,1000,500,10\n"
	for _, tt := range []struct {
		above             string
		dynamic, planning float64
	}{{"", 0, 0}, {"dynamic,1.2\n", 1.2, 0}, {"Dynamic:,1.15\nplanning,1.05\n", 1.15, 1.05}} {
		l, err := ReadFrom(strings.NewReader(tt.above+rows), "sheet.csv", fstest.MapFS{}, Options{As: "csv"})
		require.NoError(t, err)
		assert.Equal(t, tt.dynamic, l.Rigging.Dynamic, tt.above)
		assert.Equal(t, tt.planning, l.Rigging.PlanningFactor, tt.above)
	}
}
