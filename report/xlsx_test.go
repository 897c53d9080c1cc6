package report_test

import (
	"archive/zip"
	"bytes"
	"io"
	"maps"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"github.com/xuri/excelize/v2"

	"plumbhook/lift"
	"plumbhook/report"
	"plumbhook/units"
)

// book is a sheet as a workbook, and its file.
func book(t *testing.T, s lift.LiftSheet, opt report.Options) (*excelize.File, []byte) {
	t.Helper()
	var b bytes.Buffer
	require.NoError(t, report.XLSX(&b, s, opt))
	f, err := excelize.OpenReader(bytes.NewReader(b.Bytes()))
	require.NoError(t, err)
	t.Cleanup(func() { assert.NoError(t, f.Close()) })
	return f, b.Bytes()
}

// partsOf are the files in a workbook.
func partsOf(t *testing.T, file []byte) map[string]string {
	t.Helper()
	in, err := zip.NewReader(bytes.NewReader(file), int64(len(file)))
	require.NoError(t, err)
	parts := map[string]string{}
	for _, part := range in.File {
		r, err := part.Open()
		require.NoError(t, err)
		text, err := io.ReadAll(r)
		require.NoError(t, err)
		parts[part.Name] = string(text)
		assert.True(t, part.Modified.IsZero() || part.Modified.Year() < 1981, "%s has a time: %v", part.Name, part.Modified)
	}
	return parts
}

// shown is all that a sheet of a workbook shows, cells parted by |.
func shown(t *testing.T, f *excelize.File, name string) string {
	t.Helper()
	rows, err := f.GetRows(name)
	require.NoError(t, err)
	var b strings.Builder
	for _, row := range rows {
		b.WriteString(strings.Join(row, "|") + "\n")
	}
	return b.String()
}

// TestNamesAreNoFormulas: whatever a load file calls things, a cell with a name
// holds text, and only the program's formulas are formulas.
func TestNamesAreNoFormulas(t *testing.T) {
	plain, _ := book(t, sheet(), report.Options{})
	for _, evil := range []string{"=1+1", "+1", "-1", "@SUM(A1)", "=cmd|' /C calc'!A0", "\t=1+1", `" t="str"><f>1</f>`, "<f>1</f>"} {
		s := sheet()
		s.Load, s.Datum, s.Drawing, s.Date = evil, evil, evil, evil
		s.Verdict = lift.Verdict{Reasons: []string{evil}}
		s.Weigh.Parts = slices.Clone(s.Weigh.Parts)
		s.Weigh.Parts[0].Name, s.Weigh.Parts[0].Written, s.Weigh.Parts[0].Basis = evil, evil, evil
		s.Weigh.Allowances = []lift.Allowance{{Name: evil, Of: evil, Written: evil, Basis: evil}}
		s.Legs.Legs = slices.Clone(s.Legs.Legs)
		s.Legs.Legs[0].Pick = evil
		f, _ := book(t, s, report.Options{Version: evil})
		name, err := f.GetCellValue("Take-off", "B4")
		require.NoError(t, err)
		assert.Equal(t, evil, name)
		for _, tab := range f.GetSheetList() {
			for row := 1; row < 60; row++ {
				for _, column := range strings.Split("ABCDEFGHIJKLMNOPQRST", "") {
					cell, err := excelize.JoinCellName(column, row)
					require.NoError(t, err)
					formula, err := f.GetCellFormula(tab, cell)
					require.NoError(t, err)
					kind, err := f.GetCellType(tab, cell)
					require.NoError(t, err)
					if formula != "" {
						assert.NotContains(t, formula, "cmd", "%s!%s", tab, cell)
						assert.NotEqual(t, excelize.CellTypeSharedString, kind, "%s!%s", tab, cell)
					}
				}
			}
		}
	}
	pick, err := plain.GetCellFormula("Take-off", "B4")
	require.NoError(t, err)
	assert.Empty(t, pick)
}

// TestWorkbookIsPlain: no macros, no links to elsewhere, and each formula's value
// is a number, which a program that does not recalculate shows.
func TestWorkbookIsPlain(t *testing.T) {
	_, file := book(t, sheet(), report.Options{})
	formulas := 0
	for name, text := range partsOf(t, file) {
		for _, bad := range []string{"vba", "externalLink", "activeX", "embeddings"} {
			assert.NotContains(t, name, bad)
		}
		assert.NotContains(t, text, `TargetMode="External"`, name)
		assert.NotContains(t, text, `t="str"`, name)
		formulas += strings.Count(text, "</f><v>")
		assert.Equal(t, strings.Count(text, "<f>"), strings.Count(text, "</f><v>"), "%s: a formula without a value", name)
	}
	assert.Greater(t, formulas, 100)
}

// TestSameSheetSameBytes: nothing in the file depends on the clock or on chance.
func TestSameSheetSameBytes(t *testing.T) {
	for _, name := range []string{"sheet", "sheet-unsolved", "sheet-no-rules"} {
		_, once := book(t, results()[name].(lift.LiftSheet), report.Options{Version: "v1"})
		for range 5 {
			_, again := book(t, results()[name].(lift.LiftSheet), report.Options{Version: "v1"})
			assert.True(t, bytes.Equal(once, again), name)
		}
	}
}

// TestWorkbookOfNoPose: where nothing hangs there is no tension, and the first page
// and the head of every page say that the lift is refused.
func TestWorkbookOfNoPose(t *testing.T) {
	f, _ := book(t, badSheet(), report.Options{})
	first := shown(t, f, "Sheet")
	assert.True(t, strings.Index(first, "NOT ACCEPTABLE") < 200, first)
	assert.Contains(t, first, tooShort)
	assert.Contains(t, shown(t, f, "Legs"), "No pose was found")
	assert.Contains(t, shown(t, f, "Slings"), "No sling is sized")
	assert.NotContains(t, shown(t, f, "Legs"), "kN")
	for _, name := range f.GetSheetList() {
		head, err := f.GetHeaderFooter(name)
		require.NoError(t, err)
		assert.Contains(t, head.OddHeader, "&CNOT ACCEPTABLE", name)
	}
}

// TestWorkbookPages: each sheet has its print area and its paper, the take-off its
// titles on each page, and every page names load, input and program.
func TestWorkbookPages(t *testing.T) {
	s := sheet()
	s.Load, s.Date = "Pump & motor 4é"+strings.Repeat("&", 300), strings.Repeat("&", 300)
	for rules, paper := range map[string]int{"EN": 9, "US": 1} { // A4, Letter: ISO/IEC 29500-1, 18.3.1.63
		slings := *s.Slings
		slings.Rules = rules
		s.Slings = &slings
		f, _ := book(t, s, report.Options{Version: "v1.2.3"})
		areas := map[string]string{}
		for _, name := range f.GetDefinedName() {
			areas[name.Name+" "+name.Scope] = name.RefersTo
		}
		assert.Equal(t, []string{"_xlnm.Print_Area Legs", "_xlnm.Print_Area Sheet", "_xlnm.Print_Area Slings", "_xlnm.Print_Area Take-off", "_xlnm.Print_Titles Take-off"}, slices.Sorted(maps.Keys(areas)))
		for _, name := range f.GetSheetList() {
			head, err := f.GetHeaderFooter(name)
			require.NoError(t, err)
			assert.Contains(t, head.OddHeader, "&LPump && motor 4é", name)
			assert.Contains(t, head.OddFooter, "sha256 0123456789abcdef", name)
			assert.Contains(t, head.OddFooter, "plumbhook v1.2.3", name)
			assert.LessOrEqual(t, len([]rune(head.OddHeader)), 255)
			layout, err := f.GetPageLayout(name)
			require.NoError(t, err)
			require.NotNil(t, layout.Size, name)
			assert.Equal(t, paper, *layout.Size, name)
			assert.Equal(t, 1, *layout.FitToWidth, name)
		}
	}
	f, _ := book(t, s, report.Options{})
	panes, err := f.GetPanes("Take-off")
	require.NoError(t, err)
	assert.True(t, panes.Freeze)
}

// TestWorkbookOfNoFigure refuses what is no figure, as the JSON does.
func TestWorkbookOfNoFigure(t *testing.T) {
	s := sheet()
	s.Weigh.Parts = slices.Clone(s.Weigh.Parts)
	s.Weigh.Parts[0].MassKg = nan
	assert.ErrorIs(t, report.XLSX(io.Discard, s, report.Options{}), lift.ErrProgram)
	s = sheet()
	s.Weigh.Parts, s.Weigh.Allowances = nil, nil
	assert.ErrorIs(t, report.XLSX(io.Discard, s, report.Options{}), lift.ErrProgram, "a CG of nothing")
}

// TestWorkbookUnits: the second system of units stands beside the first, unless
// the metric alone is asked for.
func TestWorkbookUnits(t *testing.T) {
	both, _ := book(t, sheet(), report.Options{})
	assert.Contains(t, shown(t, both, "Sheet"), "|lb")
	assert.Contains(t, shown(t, both, "Sheet"), sheet().Legs.Stability.Text)
	assert.Contains(t, shown(t, both, "Slings"), "Rated, lb")
	metric, _ := book(t, sheet(), report.Options{Show: units.Metric})
	assert.NotContains(t, shown(t, metric, "Sheet"), "|lb")
	assert.NotContains(t, shown(t, metric, "Slings"), "Rated, lb")
}
