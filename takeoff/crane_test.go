package takeoff

import (
	"testing"
	"testing/fstest"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"plumbhook/units"
)

const craneLoad = `load: plate
units: mm
material: structural steel
parts: [{name: plate, box: 1000 x 1000 x 10, corner: [0, 0, 0]}]
limits: {crane: {radius: 8 m, table: crane.csv}}
`

func readCraneSheet(t *testing.T, sheet string) (*Load, error) {
	t.Helper()
	return Read(fstest.MapFS{"load.yaml": {Data: []byte(craneLoad)}, "crane.csv": {Data: []byte(sheet)}}, "load.yaml", Options{})
}

// TestCraneTableFromASheet: heads with units or cells with them, any separator,
// any order of rows, lines above the head.
func TestCraneTableFromASheet(t *testing.T) {
	want := []CraneRow{{8, 22_000}, {10, 16_500}, {12, 12_000}}
	for name, sheet := range map[string]string{
		"units in the head":    "radius m,capacity t\n8,22\n10,16.5\n12,12\n",
		"units in brackets":    "boom 24 m;outriggers full\nRadius (m);Capacity (kg)\n12;12000\n8;22000\n10;16500\n",
		"units in the cells":   "radius\tcapacity\n8 m\t22 t\n\n10 m\t16.5 t\n1200 cm\t12000 kg\n",
		"columns in between":   "boom,radius m,angle,capacity t\r\n24,8,70,22\r\n24,10,65,16.5\r\n24,12,59,12\r\n",
		"marked as UTF-8 text": "\uFEFFradius m,capacity t\n8,22\n10,16.5\n12,12\n",
	} {
		l, err := readCraneSheet(t, sheet)
		require.NoError(t, err, name)
		got := l.Rigging.Limits.Crane.Table
		require.Len(t, got, 3, name)
		for i := range want {
			assert.InDelta(t, want[i].Radius, got[i].Radius, 1e-9, name)
			assert.InDelta(t, float64(want[i].Capacity), float64(got[i].Capacity), 1e-6, name)
		}
	}
}

func TestBadCraneSheets(t *testing.T) {
	for name, tt := range map[string]struct{ sheet, text string }{
		"no head":       {"8,22\n10,16\n", "no line with the heads radius and capacity"},
		"no rows":       {"radius m,capacity t\n", "no rows under its head"},
		"no unit":       {"radius,capacity\n8,22\n", "row 2 of the crane's table: no unit"},
		"no number":     {"radius m,capacity t\n8,\n", "row 2 of the crane's table"},
		"below zero":    {"radius m,capacity t\n8,-3\n", "row 2 of the crane's table"},
		"rises":         {"radius m,capacity t\n8,22\n10,23\n", "row 3 of the crane's table: the crane would lift more"},
		"twice":         {"radius m,capacity t\n8,22\n8,21\n", "row 3 of the crane's table: the crane's table has this radius twice"},
		"empty":         {"", "no line with the heads"},
		"not a number":  {"radius m,capacity t\nNaN,22\n", "row 2"},
		"one cell only": {"radius m,capacity t\n8\n", "row 2"},
	} {
		_, err := readCraneSheet(t, tt.sheet)
		var p Problems
		require.ErrorAs(t, err, &p, name)
		require.Len(t, p, 1, name)
		assert.Contains(t, p[0].Text, tt.text, name)
		assert.Equal(t, 5, p[0].Line, name)
		assert.NotEmpty(t, p[0].Fix, name)
	}
	_, err := Read(fstest.MapFS{"load.yaml": {Data: []byte(craneLoad)}}, "load.yaml", Options{})
	assert.ErrorContains(t, err, "no such file")
}

// TestCraneTableIsNeverInterpolatedUpward: between two rows the lesser capacity,
// of the larger radius, holds; beyond the last none. Common practice, no source.
func TestCraneTableIsNeverInterpolatedUpward(t *testing.T) {
	c := Crane{Table: []CraneRow{{8, 22_000}, {10, 16_500}, {12, 12_000}}}
	for radius, want := range map[float64]units.Mass{1: 22_000, 8: 22_000, 8.001: 16_500, 9: 16_500, 10: 16_500, 11.9: 12_000, 12: 12_000} {
		row, ok := c.At(radius)
		assert.True(t, ok, "%g m", radius)
		assert.Equal(t, want, row.Capacity, "%g m", radius)
		assert.GreaterOrEqual(t, row.Radius, radius)
	}
	_, ok := c.At(12.01)
	assert.False(t, ok, "beyond the last row")
}

// TestCraneTableLaws: whatever the table, what is lifted at a radius is no more than
// any row nearer in has, and farther out is never more.
func TestCraneTableLaws(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		var c Crane
		radius, capacity := 0.0, 1e6
		for range rapid.IntRange(1, 12).Draw(t, "rows") {
			radius += rapid.Float64Range(0.1, 5).Draw(t, "further")
			capacity *= rapid.Float64Range(0.3, 1).Draw(t, "less")
			c.Table = append(c.Table, CraneRow{radius, units.Mass(capacity)})
		}
		a := rapid.Float64Range(0, radius).Draw(t, "a")
		b := rapid.Float64Range(a, radius).Draw(t, "b")
		near, ok := c.At(a)
		assert.True(t, ok)
		far, ok := c.At(b)
		assert.True(t, ok)
		assert.GreaterOrEqual(t, near.Capacity, far.Capacity)
		for _, row := range c.Table {
			if row.Radius <= a {
				assert.LessOrEqual(t, near.Capacity, row.Capacity)
			}
		}
		_, ok = c.At(radius * 1.001)
		assert.False(t, ok)
	})
}
