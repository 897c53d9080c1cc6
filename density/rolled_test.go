package density_test

import (
	"math"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"plumbhook/density"
)

const (
	squareCentimetre = 1e-4            // m²
	squareInch       = 0.0254 * 0.0254 // m²
	poundPerFoot     = 0.45359237 / 0.3048
)

// lastPlace is one unit of the last figure of a number as it is printed.
func lastPlace(printed string) float64 {
	_, decimals, _ := strings.Cut(printed, ".")
	return math.Pow10(-len(decimals))
}

func number(t *testing.T, printed string) float64 {
	x, err := strconv.ParseFloat(printed, 64)
	require.NoError(t, err)
	return x
}

// printedRow is a row of a published table, figures as printed.
type printedRow struct {
	name    string
	area    string  // cm² or in²
	mass    string  // kg/m or lb/ft
	outline float64 // the area that the printed dimensions give
}

// holds compares rows with the table in the program: the mass to half of its
// last figure, the area to one (some printed areas are cut, not rounded), and
// as a second way the area of the dimensions, which times the density must be
// the mass as well.
func holds(t *testing.T, source string, rows []printedRow, area, mass, steel, massOff float64) {
	for _, row := range rows {
		s, err := density.FindSection(row.name)
		require.NoError(t, err, row.name)
		a, m := number(t, row.area), number(t, row.mass)
		assert.InDelta(t, m, s.PerLength/mass, lastPlace(row.mass)/2+1e-9, "%s: mass (%s)", row.name, source)
		assert.InDelta(t, a, s.Area/area, lastPlace(row.area)+1e-9, "%s: area (%s)", row.name, source)
		if row.outline != 0 {
			assert.InDelta(t, row.outline, s.OutlineArea()/area, 0.0051, "%s: area of the dimensions (%s)", row.name, source)
		}
		assert.InEpsilon(t, m*mass, s.OutlineArea()*steel, massOff, "%s: mass from the dimensions", row.name)
	}
}

const openTables = "EN 10365 tables as carried in an open dataset, rounded to three figures"

func TestISectionsAsPrinted(t *testing.T) {
	holds(t, openTables, []printedRow{
		{"IPE 80", "7.6", "6.0", 7.64}, {"IPE 100", "10.3", "8.1", 10.32}, {"IPE 120", "13.2", "10.4", 13.21},
		{"IPE 140", "16.4", "12.9", 16.43}, {"IPE 160", "20.1", "15.8", 20.09}, {"IPE 180", "23.9", "18.8", 23.95},
		{"IPE 200", "28.5", "22.4", 28.48}, {"IPE 240", "39.1", "30.7", 39.12}, {"IPE 300", "53.8", "42.2", 53.81},
		{"IPE 360", "72.7", "57.1", 72.73}, {"IPE 400", "84.5", "66.3", 84.46}, {"IPE 500", "116", "90.7", 115.52},
		{"IPE 600", "156", "122", 155.98},

		{"HE 100 A", "21.2", "16.7", 21.24}, {"HE 120 A", "25.3", "19.9", 25.34}, {"HE 140 A", "31.4", "24.7", 31.42},
		{"HE 160 A", "38.8", "30.4", 38.77}, {"HE 180 A", "45.3", "35.5", 45.25}, {"HE 200 A", "53.8", "42.3", 53.83},
		{"HE 220 A", "64.3", "50.5", 64.34}, {"HE 240 A", "76.8", "60.3", 76.84}, {"HE 260 A", "86.8", "68.2", 86.82},
		{"HE 300 A", "112", "88.3", 112.53}, {"HE 400 A", "159", "125", 158.98}, {"HE 500 A", "198", "155", 197.54},
		{"HE 600 A", "226", "178", 226.46},

		{"HE 100 B", "26.0", "20.4", 26.04}, {"HE 120 B", "34.0", "26.7", 34.01}, {"HE 140 B", "43.0", "33.7", 42.96},
		{"HE 160 B", "54.3", "42.6", 54.25}, {"HE 180 B", "65.3", "51.2", 65.25}, {"HE 200 B", "78.1", "61.3", 78.08},
		{"HE 220 B", "91.0", "71.5", 91.04}, {"HE 240 B", "106", "83.2", 105.99}, {"HE 260 B", "118", "93.0", 118.44},
		{"HE 300 B", "149", "117", 149.08}, {"HE 400 B", "198", "155", 197.78}, {"HE 500 B", "239", "187", 238.64},
		{"HE 600 B", "270", "212", 269.96},

		// Not from the dataset that the table was read in, but from a second one.
		{"HEA 1000", "347", "272", 0}, {"HEA 900", "320", "252", 0}, {"HEA 800", "286", "224", 0},
		{"HEB 1000", "400", "314", 0}, {"HEB 800", "334", "262", 0},
		{"HEM 1000", "444", "349", 0}, {"HEM 800", "404", "317", 0}, {"HEM 700", "383", "301", 0},
	}, squareCentimetre, 1, 7850, 0.009)
}

func TestChannelsAsPrinted(t *testing.T) {
	rows := []struct {
		printedRow
		back float64 // cm, from the back of the web to the centroid
	}{
		{printedRow{"UPN 80", "11.0", "8.6", 0}, 1.45}, {printedRow{"UPN 100", "13.5", "10.6", 0}, 1.55},
		{printedRow{"UPN 120", "17.0", "13.4", 0}, 1.60}, {printedRow{"UPN 140", "20.4", "16.0", 0}, 1.75},
		{printedRow{"UPN 160", "24.0", "18.8", 0}, 1.84}, {printedRow{"UPN 180", "28.0", "22.0", 0}, 1.92},
		{printedRow{"UPN 200", "32.2", "25.3", 0}, 2.01}, {printedRow{"UPN 220", "37.4", "29.4", 0}, 2.14},
		{printedRow{"UPN 240", "42.3", "33.2", 0}, 2.23}, {printedRow{"UPN 260", "48.3", "37.9", 0}, 2.36},
		{printedRow{"UPN 300", "58.8", "46.2", 0}, 2.70}, {printedRow{"UPN 400", "91.5", "71.8", 0}, 2.65},
	}
	for _, row := range rows {
		holds(t, openTables, []printedRow{row.printedRow}, squareCentimetre, 1, 7850, 0.007)
		s, err := density.FindSection(row.name)
		require.NoError(t, err)
		assert.InDelta(t, row.back, s.CentroidX*100, 1e-9, "%s: back of web to centroid in cm (EN 10365, from memory)", row.name)
		assert.Zero(t, s.CentroidY)
	}
}

func TestAnglesAsPrinted(t *testing.T) {
	const source = "EN 10056-1 as carried in an open dataset"
	rows := []struct {
		printedRow
		heel float64 // cm
	}{
		{printedRow{"L 30x30x3.0", "1.74", "1.36", 1.74}, 0.84}, {printedRow{"L 40x40x4.0", "3.08", "2.42", 3.08}, 1.12},
		{printedRow{"L 50x50x5.0", "4.8", "3.77", 4.80}, 1.40}, {printedRow{"L 60x60x6.0", "6.91", "5.42", 6.91}, 1.69},
		{printedRow{"L 70x70x7.0", "9.4", "7.38", 9.40}, 1.97}, {printedRow{"L 75x75x8.0", "11.4", "8.99", 11.45}, 2.14},
		{printedRow{"L 80x80x8.0", "12.3", "9.63", 12.27}, 2.26}, {printedRow{"L 90x90x9.0", "15.5", "12.2", 15.52}, 2.54},
		{printedRow{"L 100x100x10.0", "19.2", "15.0", 19.15}, 2.82}, {printedRow{"L 120x120x12.0", "27.5", "21.6", 27.54}, 3.40},
		{printedRow{"L 150x150x15.0", "43.0", "33.8", 43.02}, 4.25}, {printedRow{"L 180x180x18.0", "61.9", "48.6", 61.91}, 5.10},
		{printedRow{"L 200x200x20.0", "76.3", "59.9", 76.35}, 5.68},
	}
	for _, row := range rows {
		holds(t, source, []printedRow{row.printedRow}, squareCentimetre, 1, 7850, 0.005)
		s, err := density.FindSection(row.name)
		require.NoError(t, err)
		assert.InDelta(t, row.heel, s.CentroidX*100, 0.0051, "%s: heel to centroid in cm (%s)", row.name, source)
		assert.Equal(t, s.CentroidX, s.CentroidY, row.name)
	}
	// Of an unequal angle the depth is the longer leg.
	s, err := density.FindSection("L 200x100x10")
	require.NoError(t, err)
	assert.InDelta(t, 6.93, s.CentroidY*100, 1e-9, "along the longer leg (%s)", source)
	assert.InDelta(t, 2.01, s.CentroidX*100, 1e-9, "along the shorter leg (%s)", source)
}

func TestWShapesAsPrinted(t *testing.T) {
	const source = "AISC Manual Table 1-1 as carried in an open dataset"
	holds(t, source, []printedRow{
		{"W4X13", "3.83", "13", 0}, {"W6X15", "4.43", "15", 0}, {"W8X10", "2.96", "10", 0}, {"W8X31", "9.13", "31", 0},
		{"W10X33", "9.71", "33", 0}, {"W10X49", "14.4", "49", 0}, {"W12X26", "7.65", "26", 0}, {"W12X50", "14.6", "50", 0},
		{"W14X90", "26.5", "90", 0}, {"W16X31", "9.13", "31", 0}, {"W18X50", "14.7", "50", 0}, {"W21X62", "18.3", "62", 0},
		{"W24X76", "22.4", "76", 0}, {"W24X104", "30.7", "104", 0}, {"W30X99", "29.0", "99", 0}, {"W33X130", "38.3", "130", 0},
		{"W36X150", "44.3", "150", 0}, {"W44X335", "98.5", "335", 0},
	}, squareInch, poundPerFoot, 490*0.45359237/(0.3048*0.3048*0.3048), 0.015)

	s, err := density.FindSection("W12x26")
	require.NoError(t, err)
	for _, size := range [][2]float64{{12.2, s.Depth}, {6.49, s.Width}, {0.23, s.Web}, {0.38, s.Flange}} {
		assert.InDelta(t, size[0], size[1]/0.0254, 1e-9, "W12x26 in inches (%s)", source)
	}
	assert.InDelta(t, 38.7, s.PerLength, 0.05, "W12x26 in kg/m (%s)", source)
}
