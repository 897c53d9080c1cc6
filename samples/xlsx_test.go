package samples_test

import (
	"bytes"
	"fmt"
	"math"
	"os"
	"strconv"
	"strings"
	"testing"
	"testing/fstest"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"github.com/xuri/excelize/v2"

	"plumbhook/lift"
	"plumbhook/report"
	"plumbhook/takeoff"
)

// rigged is a plate with a post on it, whose rigging is put in.
const rigged = `load: plate with a post
units: m
parts:
  - {name: plate, plate: 2 x 1 x 0.04, corner: [0, 0, 0], material: carbon steel}
  - {name: "=1+1", weight: 200 kg, at: [1.2, 0.55, 0.3], tolerance: 10 %}
allowances:
  - {name: paint, of: all, add: 3 %}
surroundings: {temperature: 20 C, chemicals: [none], edges: none, surface: painted}
`

const (
	four = `picks: [{name: A, at: [0, 0, 0.04]}, {name: B, at: [2, 0, 0.04]}, {name: C, at: [2, 1, 0.04]}, {name: D, at: [0, 1, 0.04]}]
`
	three = `picks: [{name: A, at: [0, 0, 0.04]}, {name: B, at: [2, 0, 0.04]}, {name: C, at: [1, 1, 0.04]}]
`
)

// scenarios are rigs for the plate, by what is to be seen of them: each way in
// which the sheet of the legs comes to the tensions, and what the other sheets add.
var scenarios = map[string]struct{ rig, by string }{
	"one leg":            {"picks: [{name: A, at: [1, 0.5, 0.04]}]\nlegs: {lengths: 2}\nrules: EN\n", "One leg pulls"},
	"two in line":        {"picks: [{name: A, at: [0, 0.5, 0.04]}, {name: B, at: [2, 0.5, 0.04]}]\nlegs: {lengths: 2}\nrules: US\n", "Two legs pull"},
	"three":              {three + "legs: {lengths: 2.5}\nrules: EN\nfactors: {dynamic: 1.2}\n", "M x = W d"},
	"four of one":        {four + "legs: {lengths: 3}\nrules: US\n", ""},
	"four, one long":     {four + "legs: {lengths: {A: 3, B: 3.02, C: 3, D: 3.1}}\nrules: US\nfactors: {planning: 1.2}\n", "M x = W d"},
	"four cut level":     {four + "hook: {above: picks, height: 2}\nlegs: {lengths: level}\nrules: US\n", "M x = W d"},
	"four that stretch":  {four + "legs: {lengths: 3, stretch: {EA: 2 MN}}\nrules: EN\n", "EA"},
	"on a beam":          {four + "hook: {above: picks, height: 2}\nlegs: {lengths: level}\nsharing: {equalised: [[A, D]], because: balance beam}\nrules: EN\n", "gear between legs"},
	"suction":            {four + "hook: {above: picks, height: 2}\nlegs: {lengths: level}\nlift-off: {suction: 2 kN/m2, area: 2 m2}\nfactors: {dynamic: 1.15}\nrules: EN\nlimits: {crane: {capacity: 20 t, block: 200 kg}}\n", "M x = W d"},
	"no rules":           {three + "hook: {above: picks, height: 2}\nlegs: {lengths: level}\n", "M x = W d"},
	"in a row":           {"picks: [{name: A, at: [0, 0.5, 0.04]}, {name: B, at: [1, 0.5, 0.04]}, {name: C, at: [2, 0.5, 0.04]}]\nhook: {above: picks, height: 2}\nlegs: {lengths: level}\nrules: EN\n", "too nearly in one plane"},
	"weighed heavier":    {four + "hook: {above: picks, height: 2}\nlegs: {lengths: level}\nrules: EN\nweighings: [{name: shop, accuracy: 1 %, cells: [{name: A, at: [0, 0.5, 0], reads: 410 kg}, {name: B, at: [2, 0.5, 0], reads: 505 kg}]}]\n", "M x = W d"},
	"in a choker":        {"picks: [{name: A, at: [0.2, 0.5, 0.04]}, {name: B, at: [1.8, 0.5, 0.04]}]\nhitch: {kind: choker}\nlegs: {lengths: 2}\nrules: EN\n", "Two legs pull"},
	"three that stretch": {three + "legs: {lengths: 2.5, stretch: {EA: 500 kN}}\nrules: US\n", "M x = W d"},
	"held in the air":    {three + "hook: {above: picks, height: 2}\nlegs: {lengths: attitude, attitude: {about: y, by: 20}}\nrules: EN\n", "M x = W d"},
	"out of reach":       {three + "legs: {lengths: 0.3}\nrules: EN\n", "No pose"},
}

// bookCase is a workbook with the sheet that it is of.
type bookCase struct {
	sheet lift.LiftSheet
	file  []byte
}

var made map[string]bookCase // once for all tests

// books are the workbooks of all samples and scenarios.
func books(t *testing.T) map[string]bookCase {
	t.Helper()
	if made != nil {
		return made
	}
	all := map[string]bookCase{}
	add := func(name string, load *takeoff.Load, err error) {
		require.NoError(t, err, name)
		s, err := lift.Sheet(load, lift.Options{})
		require.NoError(t, err, name)
		var b bytes.Buffer
		require.NoError(t, report.XLSX(&b, s, report.Options{Version: "v1"}), name)
		all[name] = bookCase{s, b.Bytes()}
	}
	for _, sample := range samples {
		load, err := takeoff.Read(os.DirFS("."), sample.file, takeoff.Options{})
		add(strings.TrimSuffix(sample.file, ".yaml"), load, err)
	}
	for name, scenario := range scenarios {
		load, err := takeoff.Read(fstest.MapFS{"plate.yaml": {Data: []byte(rigged + scenario.rig)}}, "plate.yaml", takeoff.Options{})
		add(strings.ReplaceAll(name, " ", "-"), load, err)
	}
	made = all
	return all
}

// cells reads the figure of a cell.
type cells func(t *testing.T, sheet, cell string) float64

// stored are the values that stand in a file.
func stored(file *excelize.File) cells {
	return func(t *testing.T, sheet, cell string) float64 {
		text, err := file.GetCellValue(sheet, cell, excelize.Options{RawCellValue: true})
		require.NoError(t, err)
		x, err := strconv.ParseFloat(text, 64)
		require.NoError(t, err, "%s!%s", sheet, cell)
		return x
	}
}

// worked are the values that the library finds for the formulas.
func xlsxWorked(file *excelize.File) cells {
	return func(t *testing.T, sheet, cell string) float64 {
		text, err := file.CalcCellValue(sheet, cell, excelize.Options{RawCellValue: true})
		require.NoError(t, err, "%s!%s", sheet, cell)
		x, err := strconv.ParseFloat(text, 64)
		require.NoError(t, err, "%s!%s", sheet, cell)
		return x
	}
}

func opened(t *testing.T, file []byte) *excelize.File {
	t.Helper()
	f, err := excelize.OpenReader(bytes.NewReader(file))
	require.NoError(t, err)
	t.Cleanup(func() { assert.NoError(t, f.Close()) })
	return f
}

// rows are the rows of a sheet in which a column holds a text.
func rows(t *testing.T, f *excelize.File, sheet, column, text string) []int {
	t.Helper()
	n, err := excelize.ColumnNameToNumber(column)
	require.NoError(t, err)
	all, err := f.GetRows(sheet)
	require.NoError(t, err)
	var found []int
	for i, row := range all {
		if len(row) >= n && row[n-1] == text {
			found = append(found, i+1)
		}
	}
	return found
}

// checker holds cells against the figures of a sheet.
type checker struct {
	t     *testing.T
	book  *excelize.File // for what the rows are called
	cells cells
	s     lift.LiftSheet
}

// is holds one cell against a figure: to 1e-9 of it, or of size where it is small
// beside what it is the difference of.
func (c checker) is(sheet, column string, row int, want, size float64) {
	got := c.cells(c.t, sheet, fmt.Sprint(column, row))
	assert.InDelta(c.t, want, got, 1e-9*max(math.Abs(want), size), "%s!%s%d", sheet, column, row)
}

// named is the one row of a sheet that is called so.
func (c checker) named(sheet, column, name string) int {
	found := rows(c.t, c.book, sheet, column, name)
	require.Len(c.t, found, 1, "%s: %q", sheet, name)
	return found[0]
}

// all holds every figure that follows from a formula against the result.
func (c checker) all() {
	c.takeoff()
	w := c.s.Weigh.Weight
	for name, want := range map[string]float64{"Weight, best": w.BestKg, "Weight, low": w.LowKg, "Weight, high": w.HighKg,
		"Planning weight": w.PlanningKg, "Sizing weight: rigging is sized on it": w.SizingKg} {
		row := c.named("Sheet", "A", name)
		c.is("Sheet", "B", row, want, 0)
		c.is("Sheet", "D", row, want/0.45359237, 0) // lb: exactly 0.45359237 kg, NIST SP 811
	}
	c.is("Sheet", "B", c.named("Sheet", "A", "Cells of this workbook"), 0, 0) // shown as the words that nothing was changed
	if !c.s.Legs.Solved {
		return
	}
	if c.s.Legs.Posed == nil || len(c.s.Legs.Bars) > 0 { // on two hooks and under bars the legs are values
		top := c.named("Legs", "A", "Leg to pick")
		for i, leg := range c.s.Legs.Legs {
			c.is("Legs", "F", top+1+i, leg.TensionKN, 0)
			c.is("Legs", "G", top+1+i, leg.WorstTensionKN, 0)
		}
		return
	}
	c.legs()
	if c.s.Slings != nil {
		c.slings()
	}
}

func (c checker) takeoff() {
	w := c.s.Weigh
	for i, p := range w.Parts {
		row := 4 + i
		c.is("Take-off", "G", row, p.MassKg, 0)
		c.is("Take-off", "J", row, p.LowKg, 0)
		c.is("Take-off", "K", row, p.HighKg, 0)
		c.is("Take-off", "O", row, p.MassKg*p.CGM[0], 1e-6)
	}
	row := c.named("Take-off", "B", "CG: sum of mass × place, over sum of mass")
	for i, column := range []string{"L", "M", "N"} {
		c.is("Take-off", column, row, w.CGM[i], 1)
		c.is("Sheet", "B", c.named("Sheet", "A", "CG "+string("xyz"[i])+" from the datum"), w.CGM[i], 1)
	}
	for name, want := range map[string]float64{"Best, kg": w.Weight.BestKg, "Low, kg": w.Weight.LowKg, "High, kg": w.Weight.HighKg,
		"Planning, kg": w.Weight.PlanningKg, "Sizing, kg": w.Weight.SizingKg} {
		c.is("Take-off", "G", c.named("Take-off", "B", name), want, 0)
	}
	c.is("Take-off", "E", c.named("Take-off", "B", "Sum"), w.VolumeM3, 0)
}

func (c checker) legs() {
	weight := c.s.Weigh.Weight.PlanningKg * 9.80665 / 1000 // kN; standard gravity: 3rd CGPM, 1901
	tables := rows(c.t, c.book, "Legs", "A", "Leg to pick")
	require.Len(c.t, tables, 3)
	summary := c.named("Sheet", "A", "Leg to pick")
	for i, leg := range c.s.Legs.Legs {
		lines, pulls := tables[0]+1+i, tables[1]+1+i
		length := leg.LengthM
		if stretch := c.s.Legs.Stretch; stretch != nil {
			length = stretch.Legs[i].LoadedM
		}
		if !leg.Slack { // a loose leg is longer than the way
			c.is("Legs", "H", lines, length, 0)
		}
		c.is("Legs", "N", lines, leg.FromHorizontalDeg, 90)
		c.is("Legs", "O", lines, leg.FromVerticalDeg, 90)
		c.is("Legs", "D", pulls, leg.TensionKN, weight)
		c.is("Legs", "F", pulls, c.s.Legs.Squeeze[leg.Pick], weight)
		c.is("Sheet", "E", summary+1+i, leg.TensionKN, weight)
		c.is("Sheet", "F", summary+1+i, leg.WorstTensionKN, 0)
	}
	left := c.named("Legs", "A", "Left over: must be as good as 0")
	for _, column := range []string{"E", "G", "H", "I"} {
		c.is("Legs", column, left, 0, weight)
	}
}

func (c checker) slings() {
	z := c.s.Slings
	top := c.named("Slings", "A", "Leg to pick")
	for i, leg := range c.s.Legs.Legs {
		c.is("Slings", "H", top+1+i, z.Required[leg.Pick], 0)
	}
	c.is("Slings", "H", top+1+len(c.s.Legs.Legs), z.Governing.RequiredKg, 0)
	c.is("Slings", "C", c.named("Slings", "A", "Gross load, kg"), z.Gross.TotalKg, 0)
	c.is("Sheet", "B", c.named("Sheet", "A", "Gross load on the crane's hook"), z.Gross.TotalKg, 0)
	c.is("Sheet", "B", c.named("Sheet", "A", "Heaviest set of slings"), z.Gross.RiggingKg, 0)
	if z.Gross.LiftOffKg > 0 {
		c.is("Slings", "C", c.named("Slings", "A", "Gross load at lift-off, kg"), z.Gross.LiftOffKg, 0)
	}
	row := c.named("Slings", "A", "Use: family")
	for _, use := range []string{"yes", "care", "no"} {
		for _, f := range z.Families {
			if f.Use != use {
				continue
			}
			if row++; f.Choice != nil {
				c.is("Slings", "E", row, f.Choice.Utilisation, 0)
			}
		}
	}
}

// TestSpreadsheetEqualsResult: what stands in the cells, and what the library finds
// for their formulas, are the figures of the result.
func TestSpreadsheetEqualsResult(t *testing.T) {
	for name, b := range books(t) {
		t.Run(name, func(t *testing.T) {
			f := opened(t, b.file)
			checker{t, f, stored(f), b.sheet}.all()
			checker{t, f, xlsxWorked(f), b.sheet}.all()
		})
	}
}

// TestSpreadsheetSaysByWhichWay: each scenario goes the way that it is there for.
func TestSpreadsheetSaysByWhichWay(t *testing.T) {
	all := books(t)
	for name, scenario := range scenarios {
		f := opened(t, all[strings.ReplaceAll(name, " ", "-")].file)
		lines, err := f.GetRows("Legs")
		require.NoError(t, err)
		var text strings.Builder
		for _, line := range lines {
			text.WriteString(strings.Join(line, " ") + "\n")
		}
		assert.Contains(t, text.String(), scenario.by, name)
	}
	heavier := opened(t, all["weighed-heavier"].file)
	assert.Len(t, rows(t, heavier, "Take-off", "B", "By the weighing at most, kg"), 1)
	slack := false
	for _, leg := range all["four,-one-long"].sheet.Legs.Legs {
		slack = slack || leg.Slack
	}
	assert.True(t, slack, "the long leg is slack")
}

// TestSpreadsheetSaysWhenChanged: the worst tensions do not follow when a cell is
// changed, and the first page says so.
func TestSpreadsheetSaysWhenChanged(t *testing.T) {
	for _, change := range []struct {
		sheet, cell string
		to          float64
	}{{"Take-off", "F4", 7900}, {"Take-off", "G5", 201}, {"Take-off", "N5", 0.31}, {"Legs", "D9", 2.1}, {"Legs", "B16", 0.01}} {
		f := opened(t, books(t)["three"].file)
		row := rows(t, f, "Sheet", "A", "Cells of this workbook")[0]
		require.NoError(t, f.SetCellFloat(change.sheet, change.cell, change.to, -1, 64))
		assert.Positive(t, xlsxWorked(f)(t, "Sheet", fmt.Sprint("B", row)), "%s!%s", change.sheet, change.cell)
		shown, err := f.CalcCellValue("Sheet", fmt.Sprint("B", row))
		require.NoError(t, err)
		assert.Equal(t, "CHANGED", shown)
	}
}
