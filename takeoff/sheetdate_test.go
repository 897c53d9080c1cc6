package takeoff

import (
	"errors"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"github.com/xuri/excelize/v2"
)

// TestWorkbookDates refuses the numbers that a spreadsheet shows as dates: a
// length typed as 1/2 becomes 2 January, day 45293 of 2024.
func TestWorkbookDates(t *testing.T) {
	custom := func(format string) *excelize.Style { return &excelize.Style{CustomNumFmt: &format} }
	tests := []struct {
		name  string
		value any
		style *excelize.Style
		says  string // empty: it is a number
	}{
		{"day and month", 45293, &excelize.Style{NumFmt: 16}, `"2024-01-02" is a date`},
		{"date", 45293, &excelize.Style{NumFmt: 14}, `"2024-01-02" is a date`},
		{"own format", 45293, custom("d/m"), `"2024-01-02" is a date`},
		{"own format with a language", 45293, custom("[$-409]d\\-mmm;@"), `"2024-01-02" is a date`},
		{"time", 0.0625, &excelize.Style{NumFmt: 20}, `"01:30" is a time`},
		{"hours", 1.5, custom("[h]:mm"), "is a date"},
		{"plain", 45293, &excelize.Style{NumFmt: 2}, ""},
		{"unit in quotes", 452, custom(`0.0 "mm"`), ""},
		{"unit after an escape", 452, custom(`#,##0\m`), ""},
		{"red", 452, custom(`[Red]0`), ""},
		{"text in a cell of dates", "452", &excelize.Style{NumFmt: 14}, ""},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			data := workbook(t, func(f *excelize.File, sheet string) {
				style, err := f.NewStyle(tt.style)
				require.NoError(t, err)
				require.NoError(t, f.SetCellStyle(sheet, "D3", "D3", style))
			}, []any{"material", "steel"}, []any{"mark", "size (mm)", "weight (kg)", "x (mm)", "y (mm)", "z (mm)"},
				[]any{"D1", nil, 5, tt.value, 0, 0})
			l, err := readWorkbook(data)
			if tt.says == "" {
				require.NoError(t, err)
				assert.InDelta(t, 5, float64(l.Parts[0].Given), 0)
				return
			}
			var p Problems
			require.True(t, errors.As(err, &p), "%v", err)
			require.Len(t, p, 1)
			assert.Equal(t, "D3", p[0].Cell)
			assert.Contains(t, p[0].Text, tt.says)
			assert.Contains(t, p[0].Fix, `1/2"`)
		})
	}
}

// TestWorkbookPercent reads a cell that shows 5 % as 5 %, though 0.05 is stored.
func TestWorkbookPercent(t *testing.T) {
	data := workbook(t, func(f *excelize.File, sheet string) {
		style, err := f.NewStyle(&excelize.Style{NumFmt: 9})
		require.NoError(t, err)
		require.NoError(t, f.SetCellStyle(sheet, "F2", "F2", style))
	}, []any{"mark", "weight (kg)", "x (mm)", "y (mm)", "z (mm)", "tolerance (%)"}, []any{"D1", 5, 0, 0, 0, 0.07})
	l, err := readWorkbook(data)
	require.NoError(t, err)
	assert.InDelta(t, 0.07, l.Parts[0].High, 1e-12)
}

// TestSheetDates refuses dates in columns of numbers, and keeps them elsewhere.
func TestSheetDates(t *testing.T) {
	for _, date := range []string{"2024-01-02", "2-Jan", "02.01.2024", "2.1.", "1/2/2024", "Jan-24", "2-Jan-2024", "2. Jan", "02-Mai", "2024-01-02 00:00", "2024-01-02T00:00:00"} {
		for row, at := range map[string]string{
			"P1,1,base,1 x 1 x 1,,,," + date + ",0,0,": "H3",
			"P1," + date + ",base,1 x 1 x 1,,,,0,0,0,": "B3",
			"P1,1,base," + date + ",,,,0,0,0,":         "D3",
			"P1,1,base,rod 20,," + date + ",,0,0,0,":   "F3",
			"P1,1,base,,,,,0,0,0," + date:              "K3",
		} {
			_, err := readSheet(top+row+"\n", Options{})
			var p Problems
			require.True(t, errors.As(err, &p), row)
			require.Len(t, p, 1, row)
			assert.Equal(t, at, p[0].Cell, row)
			assert.Contains(t, p[0].Text, "is a date", row)
		}
	}
	l, err := readSheet("drawing,2024-01-02\n"+top+"2-Jan,1,base,1 x 1 x 1,,,,1-1/2 in,-12,0.5,\n", Options{})
	require.NoError(t, err)
	assert.Equal(t, "2-Jan base", l.Parts[0].Name)
	assert.Equal(t, "2024-01-02", l.Drawing)
}
