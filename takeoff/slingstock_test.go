package takeoff

import (
	"bytes"
	"crypto/sha256"
	"encoding/hex"
	"errors"
	"strings"
	"testing"
	"testing/fstest"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"github.com/xuri/excelize/v2"
)

// rackTop is the header of a list of slings; what is added starts in row 2.
const rackTop = "mark,quantity,family,material,size,length (mm),rated (t),last inspection,note\n"

const rackCSV = rackTop + "K1,1,alloy chain,grade 8,8 mm,2500,2.0,2026-02-16,hooks\n" +
	"K2,3,alloy-chain,grade 8,8 mm,2.5 m,2000 kg,2026-02-17,\n" +
	"B1,1,round sling,,2 t,6',4400 lb,,\n"

// withRack is a load file that names a list of slings; the key stands on line 8.
const withRack = head + sound + "sling stock: rack.csv\n"

func readRack(name, rack string) (*Load, error) {
	return readText(strings.ReplaceAll(withRack, "rack.csv", name), fstest.MapFS{name: file(rack)})
}

// TestSlingStock: what stands in the cells, in metres and kilograms. 6 ft is
// 1.8288 m and 4400 lb are 4400 × 0.45359237 = 1995.806428 kg (international
// foot and pound, 1959).
func TestSlingStock(t *testing.T) {
	l, err := readRack("rack.csv", rackCSV)
	require.NoError(t, err)
	stock := l.Rigging.Stock
	require.NotNil(t, stock)
	assert.Equal(t, "rack.csv", stock.File)
	require.Len(t, stock.Slings, 5)
	k1, b1 := stock.Slings[0], stock.Slings[4]
	assert.Equal(t, []string{"K1", "alloy chain", "grade 8", "8 mm"}, []string{k1.Mark, k1.Family, k1.Material, k1.Size})
	assert.InDelta(t, 2.5, k1.Length, 1e-12)
	assert.InDelta(t, 2000, float64(k1.Rated), 1e-9)
	assert.Equal(t, Date{2026, 2, 16}, k1.Inspected)
	for i, mark := range []string{"K2 (1 of 3)", "K2 (2 of 3)", "K2 (3 of 3)"} {
		assert.Equal(t, mark, stock.Slings[1+i].Mark)
		assert.InDelta(t, 2.5, stock.Slings[1+i].Length, 1e-12)
		assert.InDelta(t, 2000, float64(stock.Slings[1+i].Rated), 1e-9)
	}
	assert.InDelta(t, 1.8288, b1.Length, 1e-12)
	assert.InDelta(t, 1995.806428, float64(b1.Rated), 1e-9)
	assert.Empty(t, b1.Material)
	assert.Equal(t, Date{}, b1.Inspected)
	assert.Equal(t, "rack.csv:C4: no such\n  fix: another", b1.Problem("family", "no such", "another").String())
}

// TestSlingStockIsInTheFingerprint: the bytes of the load file, then of the list.
func TestSlingStockIsInTheFingerprint(t *testing.T) {
	l, err := readRack("rack.csv", rackCSV)
	require.NoError(t, err)
	sum := sha256.Sum256([]byte(withRack + rackCSV))
	assert.Equal(t, hex.EncodeToString(sum[:]), l.SHA256)
}

// badRacks are lists with exactly one fault each, after rackTop from row 2 on.
// The cells were counted by hand.
var badRacks = []struct{ name, text, at, says, fix string }{
	{"empty", "SHEET", "A1", "no header row", "mark, family, material, size"},
	{"no rows", "", "A1", "no slings under the header", "a row for each sling"},
	{"no inspection column", "SHEETmark,family,size,length (mm),rated (t)\nK1,alloy chain,8 mm,2500,2\n", "A1", "no column `last inspection`", "rated (kg)"},
	{"misspelt column", "SHEETmark,famly,size,length (mm),rated (t),last inspection\nK1,alloy chain,8 mm,2500,2,2026-02-16\n", "B1", `unknown column "famly"`, "did you mean `family`?"},
	{"column of another kind", "SHEETmark,family,size,length (mm),rated (t),last inspection,colour\nK1,alloy chain,8 mm,2500,2,2026-02-16,red\n", "G1", `unknown column "colour"`, "begin the header of any other with `note`"},
	{"wrong unit of the header", "SHEETmark,family,size,length (mm),rated (mm),last inspection\nK1,alloy chain,8 mm,2500,2,2026-02-16\n", "E1", "not a unit of the column `rated`", "kg, t, lb"},
	{"tons of no kind", "SHEETmark,family,size,length (mm),rated (ton),last inspection\nK1,alloy chain,8 mm,2500,2,2026-02-16\n", "E1", "not a unit of the column `rated`", "short ton"},
	{"rated without a unit", "SHEETmark,family,size,length (mm),rated,last inspection\nK1,alloy chain,8 mm,2500,2,2026-02-16\n", "E2", "no unit on the mass", "kg"},
	{"length without a unit", "SHEETmark,family,size,length,rated (t),last inspection\nK1,alloy chain,8 mm,2500,2,2026-02-16\n", "D2", "no unit on the length", "in the header of the column"},
	{"no mark", ",1,alloy chain,grade 8,8 mm,2500,2,2026-02-16,", "A2", "the sling has no mark", "written on the sling"},
	{"no family", "K1,1,,grade 8,8 mm,2500,2,2026-02-16,", "C2", "the sling has no family", "wire_rope"},
	{"no size", "K1,1,alloy chain,grade 8,,2500,2,2026-02-16,", "E2", "the sling has no size", "as the tables write it"},
	{"no length", "K1,1,alloy chain,grade 8,8 mm,,2,2026-02-16,", "F2", "the sling has no length", "bearing to bearing"},
	{"not rated", "K1,1,alloy chain,grade 8,8 mm,2500,,2026-02-16,", "G2", "the sling has no rated load", "as its tag says"},
	{"mark twice", "K1,1,alloy chain,grade 8,8 mm,2500,2,2026-02-16,\nK1,1,alloy chain,grade 8,8 mm,2500,2,2026-02-16,", "A3", `the mark "K1" is here twice, first in A2`, "its own mark"},
	{"rated nothing", "K1,1,alloy chain,grade 8,8 mm,2500,0,2026-02-16,", "G2", "not from 1 kg to 1000 t", "the unit in the header"},
	{"rated below nothing", "K1,1,alloy chain,grade 8,8 mm,2500,-2,2026-02-16,", "G2", "a mass below zero", "without a minus"},
	{"kilograms under tonnes", "K1,1,alloy chain,grade 8,8 mm,2500,2000,2026-02-16,", "G2", "not from 1 kg to 1000 t", "the unit in the header"},
	{"rated in words", "K1,1,alloy chain,grade 8,8 mm,2500,two,2026-02-16,", "G2", `"two"`, ""},
	{"decimal comma", "K1,1,alloy chain,grade 8,8 mm,2500,\"3,15\",2026-02-16,", "G2", "decimal comma", "3.15"},
	{"length of nothing", "K1,1,alloy chain,grade 8,8 mm,0,2,2026-02-16,", "F2", "more than zero", "a length"},
	{"formula", "K1,1,alloy chain,grade 8,8 mm,2500,=2*1,2026-02-16,", "G2", "a formula", "the value"},
	{"error of a formula", "K1,1,alloy chain,grade 8,8 mm,2500,2,#REF!,", "H2", "an error of the spreadsheet", "mend the formula"},
	{"half a sling", "K1,1.5,alloy chain,grade 8,8 mm,2500,2,2026-02-16,", "B2", "a whole number from 1 to 200", "whole number"},
	{"no quantity", "K1,,alloy chain,grade 8,8 mm,2500,2,2026-02-16,", "B2", "the quantity is blank", "1 for one"},
	{"a date in two ways", "K1,1,alloy chain,grade 8,8 mm,2500,2,04/05/2026,", "H2", "not written as 2026-05-04", "read in two ways"},
	{"no day", "K1,1,alloy chain,grade 8,8 mm,2500,2,2026-02-30,", "H2", "no day of the calendar", "year, month, day"},
	{"no leap year", "K1,1,alloy chain,grade 8,8 mm,2500,2,2100-02-29,", "H2", "no day of the calendar", "year, month, day"},
	{"year of another age", "K1,1,alloy chain,grade 8,8 mm,2500,2,0026-02-16,", "H2", "not one of this or the last century", "2026-05-04"},
	{"size made a date", "W1,1,wire rope,,2-Jan,2500,2,2026-02-16,", "E2", `"2-Jan" is a date`, "format the cell as text"},
	{"mark made a date", "2024-03-01,1,wire rope,,10 mm,2500,2,2026-02-16,", "A2", "is a date", "format the cell as text"},
	{"rated made a date", "W1,1,wire rope,,10 mm,2500,2-Jan,2026-02-16,", "G2", "is a date", "format the cell as text"},
	{"more cells than columns", "K1,1,alloy chain,grade 8,8 mm,2500,2,2026-02-16,,5", "J2", "stands in a column without a name", "decimals with a point"},
}

func TestBadSlingStock(t *testing.T) {
	for _, tt := range badRacks {
		t.Run(tt.name, func(t *testing.T) {
			l, err := readRack("rack.csv", rackText(tt.text))
			require.Error(t, err)
			require.Nil(t, l)
			var p Problems
			require.True(t, errors.As(err, &p))
			require.Len(t, p, 1, "want this problem alone:\n%v", p)
			assert.True(t, strings.HasPrefix(p[0].String(), "rack.csv:"+tt.at+": "), "place of %v, want %s", p[0], tt.at)
			assert.Contains(t, p[0].Text, tt.says)
			assert.Contains(t, p[0].Fix, tt.fix)
		})
	}
}

func rackText(text string) string {
	if whole, is := strings.CutPrefix(text, "SHEET"); is {
		return whole
	}
	return rackTop + text + "\n"
}

// TestSlingStockIsNamedRight: the key of the load file, line 8 of it.
func TestSlingStockIsNamedRight(t *testing.T) {
	for name, says := range map[string]string{
		"other.csv": "there is no such file", "rack.ods": "its ending is not that of a list", "../rack.csv": "leaves the folder", "[rack.csv]": "expected a text",
	} {
		_, err := readText(strings.ReplaceAll(withRack, "rack.csv", name), fstest.MapFS{"rack.csv": file(rackCSV)})
		var p Problems
		require.True(t, errors.As(err, &p), name)
		require.Len(t, p, 1)
		assert.Equal(t, []int{8, 14}, []int{p[0].Line, p[0].Column}, name)
		assert.Contains(t, p[0].Text, says)
		assert.NotEmpty(t, p[0].Fix)
	}
}

// TestOneFaultIsToldOnce: a list that is not there does not make `hardware` a fault.
func TestOneFaultIsToldOnce(t *testing.T) {
	_, err := readText(withRack+"picks: [{name: A, at: [0, 0, 0]}]\nlegs: {lengths: 2660, hardware: 160}\n", nil)
	var p Problems
	require.True(t, errors.As(err, &p))
	assert.Len(t, p, 1)
}

// TestSlingStockFromAWorkbook reads a cell that a spreadsheet holds as a date:
// 46069 is 16 February 2026, days from 30 December 1899.
func TestSlingStockFromAWorkbook(t *testing.T) {
	f := excelize.NewFile()
	defer f.Close()
	style, err := f.NewStyle(&excelize.Style{NumFmt: 14})
	require.NoError(t, err)
	for at, value := range map[string]any{"A1": "mark", "B1": "family", "C1": "size", "D1": "length (m)", "E1": "rated (t)", "F1": "last inspection",
		"A2": "K1", "B2": "alloy chain", "C2": "8 mm", "D2": 2.5, "E2": 2, "F2": 46069} {
		require.NoError(t, f.SetCellValue("Sheet1", at, value))
	}
	require.NoError(t, f.SetCellStyle("Sheet1", "F2", "F2", style))
	b, err := f.WriteToBuffer()
	require.NoError(t, err)
	l, err := readRack("rack.xlsx", b.String())
	require.NoError(t, err)
	require.Len(t, l.Rigging.Stock.Slings, 1)
	assert.Equal(t, Date{2026, 2, 16}, l.Rigging.Stock.Slings[0].Inspected)
	assert.InDelta(t, 2.5, l.Rigging.Stock.Slings[0].Length, 1e-12)
}

// TestHardwareGoesWithTheList: beside a list it may stand with any lengths.
func TestHardwareGoesWithTheList(t *testing.T) {
	text := withRack + "picks: [{name: A, at: [0, 0, 0]}]\nlegs: {lengths: 2660, hardware: 160}\n"
	l, err := readText(text, fstest.MapFS{"rack.csv": file(rackCSV)})
	require.NoError(t, err)
	assert.InDelta(t, 0.16, l.Rigging.Legs.Hardware, 1e-12)
}

func TestDates(t *testing.T) {
	d, err := ParseDate("2024-02-29")
	require.NoError(t, err)
	assert.Equal(t, "2024-02-29", d.String())
	for _, text := range []string{"", "2023-02-29", "2024-13-01", "2024-00-10", "2024-04-31", "4 May 2026", "2024-2-9", "2024-02-29 "} {
		_, err := ParseDate(text)
		assert.Error(t, err, text)
	}
	assert.True(t, Date{2026, 1, 1}.After(Date{2025, 12, 31}))
	assert.True(t, Date{2026, 3, 1}.After(Date{2026, 2, 28}))
	assert.False(t, Date{2026, 3, 1}.After(Date{2026, 3, 1}))
}

// FuzzReadSlingStock reads anything as a list of slings: no panic, and slings
// with figures, or problems that say where, what and how to mend it.
func FuzzReadSlingStock(f *testing.F) {
	f.Add([]byte(rackCSV), false)
	for _, tt := range badRacks {
		f.Add([]byte(rackText(tt.text)), false)
	}
	f.Fuzz(func(t *testing.T, data []byte, xlsx bool) {
		name := "rack.csv"
		if xlsx {
			name = "rack.xlsx"
		}
		text := strings.ReplaceAll(withRack, "rack.csv", name)
		l, err := ReadFrom(strings.NewReader(text), "load.yaml", fstest.MapFS{name: {Data: bytes.Clone(data)}}, Options{As: "yaml"})
		if err == nil {
			if len(l.Rigging.Stock.Slings) == 0 {
				t.Fatal("a list without slings")
			}
			for _, s := range l.Rigging.Stock.Slings {
				if s.Mark == "" || s.Family == "" || s.Size == "" || !(s.Length > 0 && s.Length <= longest) || !(s.Rated >= 1 && s.Rated <= 1e6) {
					t.Fatalf("no sling: %+v", s)
				}
			}
			return
		}
		var problems Problems
		if !errors.As(err, &problems) || len(problems) == 0 {
			t.Fatalf("error of another kind: %v", err)
		}
		for _, p := range problems {
			if p.Text == "" || p.Fix == "" || p.Line > 0 && p.Column < 1 {
				t.Fatalf("problem without a place, a text or a fix: %+v", p)
			}
		}
	})
}
