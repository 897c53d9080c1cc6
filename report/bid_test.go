package report

import (
	"bytes"
	"encoding/csv"
	"strconv"
	"strings"
	"testing"
	"testing/fstest"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"github.com/xuri/excelize/v2"

	"plumbhook/lift"
	"plumbhook/takeoff"
)

// evilBid is a bid whose names are formulas to a spreadsheet and tags to a browser.
func evilBid(t *testing.T) lift.BidResult {
	files := fstest.MapFS{
		"p.csv": {Data: []byte("rules,EN\nmark,envelope (mm),weight (kg),description\n+1+1,2000 x 1000 x 500,900,x\n@cmd,2000 x 1000 x 500,1400,<b>x</b>\n")},
		"r.csv": {Data: []byte("currency,EUR\nkind,family,material,size,rated (t),length (m),adjust from (m),buy,hire day\nsling,alloy chain,grade 8,-2+3,2,4,0.5,200,8\nshackle,,,16 mm,3.25,,,14,\ncrane,,,20 t,6,,,,900\nrigger,,,,,,,,400\n")},
	}
	rows, err := takeoff.ReadPieces(files, "p.csv", takeoff.Options{})
	require.NoError(t, err)
	rates, err := takeoff.ReadRates(files, "r.csv", takeoff.Options{})
	require.NoError(t, err)
	var pieces []lift.BidPiece
	for _, row := range rows {
		require.NoError(t, row.Err)
		pieces = append(pieces, lift.BidPiece{Mark: row.Mark, Quantity: row.Quantity, Rough: true, Assumed: row.Assumed, Open: func() (*takeoff.Load, error) { return row.Load, nil }})
	}
	pieces = append(pieces, lift.BidPiece{Mark: "lost", Open: func() (*takeoff.Load, error) {
		return nil, takeoff.Problems{{File: "=x.yaml", Text: "not there", Fix: "look"}}
	}})
	b, err := lift.Bid(pieces, lift.BidOptions{Rates: rates})
	require.NoError(t, err)
	return b
}

func TestWordsAreNoFormulasInCSV(t *testing.T) {
	var out bytes.Buffer
	require.NoError(t, BidCSV(&out, evilBid(t)))
	rows, err := csv.NewReader(&out).ReadAll()
	require.NoError(t, err)
	require.Len(t, rows, 4)
	assert.Equal(t, "'+1+1", rows[1][0])
	assert.Equal(t, "'@cmd", rows[2][0])
	assert.Contains(t, rows[3][5], "not there")
	for _, row := range rows {
		assert.Len(t, row, len(rows[0]))
		for _, cell := range row {
			assert.False(t, cell != "" && strings.ContainsRune("=+-@", rune(cell[0])), "%q", cell)
		}
	}
	for in, want := range map[string]string{"=1": "'=1", " =1": "' =1", "": "", " ": " ", "a=1": "a=1", "\t=1": "' =1"} {
		assert.Equal(t, want, harmless(in))
	}
}

func TestTheBidsSpreadsheetAddsUp(t *testing.T) {
	b := evilBid(t)
	var out, again bytes.Buffer
	require.NoError(t, BidXLSX(&out, b, Options{}))
	require.NoError(t, BidXLSX(&again, b, Options{}))
	assert.Equal(t, out.Bytes(), again.Bytes(), "the same bid gives the same bytes")
	f, err := excelize.OpenReader(&out)
	require.NoError(t, err)
	defer f.Close()
	for cell, words := range map[string]string{"Pieces!A5": "+1+1", "Pieces!A6": "@cmd"} {
		tab, at, _ := strings.Cut(cell, "!")
		value, err := f.GetCellValue(tab, at)
		require.NoError(t, err)
		assert.Equal(t, words, value)
		formula, err := f.GetCellFormula(tab, at)
		require.NoError(t, err)
		assert.Empty(t, formula)
	}
	total := worked(t, f, "Bid", "B13")
	assert.InDelta(t, b.Totals.Total, total, 1e-9)
	assert.InDelta(t, b.Totals.Gear, worked(t, f, "Bid", "B10"), 1e-9)
	assert.InDelta(t, b.Totals.Riggers, worked(t, f, "Bid", "B12"), 1e-9)
	// Another number of slings is another total: the formulas are live.
	require.NoError(t, f.SetCellValue("Gear", "E5", b.Gear[0].Count+2))
	assert.InDelta(t, b.Totals.Total+2*b.Gear[0].Unit, worked(t, f, "Bid", "B13"), 1e-9)
}

func worked(t *testing.T, f *excelize.File, tab, cell string) float64 {
	t.Helper()
	formula, err := f.GetCellFormula(tab, cell)
	require.NoError(t, err)
	require.NotEmpty(t, formula, "%s %s is no formula", tab, cell)
	text, err := f.CalcCellValue(tab, cell, excelize.Options{RawCellValue: true})
	require.NoError(t, err)
	value, err := strconv.ParseFloat(text, 64)
	require.NoError(t, err)
	return value
}

func TestTheBidsPage(t *testing.T) {
	b := evilBid(t)
	b.Pieces[0].Mark, b.Pieces[0].Rough, b.Pieces[0].File = "<b>=1", false, "lifts/my frame.yaml"
	var out bytes.Buffer
	require.NoError(t, BidHTML(&out, b, "sheets", Options{}))
	page := out.String()
	assert.Contains(t, page, `href="sheets/my%20frame.html"`)
	assert.NotContains(t, page, "<b>=1")
	assert.Contains(t, page, "&lt;b&gt;=1")
	assert.Contains(t, page, "NOT ACCEPTABLE")
	assert.NotContains(t, page, "<script")
	for _, id := range []string{"price", "pieces", "gear", "risk", "assumed", "out"} {
		assert.Contains(t, page, `<section id="`+id+`"`)
	}
}

// Every line of the text is within 80 columns, whatever the marks.
func TestTheBidsTextFits(t *testing.T) {
	b := evilBid(t)
	var out bytes.Buffer
	require.NoError(t, Text(&out, b, Options{}))
	for _, line := range strings.Split(out.String(), "\n") {
		assert.LessOrEqual(t, length(line), 80, line)
	}
	assert.Contains(t, out.String(), "WITHOUT what has no rate or is not in the figures")
}
