package density_test

import (
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"plumbhook/density"
)

// Masses of further families as printed, in kg/m or lb/ft: EN 10365 (HEM, UPE),
// EN 10056-1 (unequal angles), EN 10055 (tees: all sizes of the standard), AISC
// Steel Construction Manual Table 1-7 (angles). All from memory, so that they
// stand against tables that came another way.
func TestMassesOfFurtherFamilies(t *testing.T) {
	for _, family := range []struct {
		unit float64 // kg/m
		rows map[string]string
	}{
		{1, map[string]string{
			"HE 100 M": "41.8", "HE 120 M": "52.1", "HE 140 M": "63.2", "HE 160 M": "76.2", "HE 180 M": "88.9", "HE 200 M": "103",
			"HE 220 M": "117", "HE 240 M": "157", "HE 260 M": "172", "HE 280 M": "189", "HE 300 M": "238", "HE 340 M": "248",
			"HE 360 M": "250", "HE 400 M": "256", "HE 500 M": "270", "HE 600 M": "285"}},
		{1, map[string]string{
			"UPE 80": "7.9", "UPE 100": "9.8", "UPE 120": "12.1", "UPE 140": "14.5", "UPE 160": "17.0", "UPE 180": "19.7", "UPE 200": "22.8",
			"UPE 220": "26.6", "UPE 240": "30.2", "UPE 270": "35.2", "UPE 300": "44.4", "UPE 330": "53.2", "UPE 360": "61.2", "UPE 400": "72.2"}},
		{1, map[string]string{
			"L 60x40x5": "3.76", "L 65x50x5": "4.35", "L 75x50x6": "5.65", "L 80x40x6": "5.41", "L 80x60x7": "7.36",
			"L 100x50x8": "8.97", "L 100x65x7": "8.77", "L 100x75x8": "10.6", "L 100x75x10": "13.0", "L 120x80x8": "12.2", "L 120x80x10": "15.0",
			"L 150x75x10": "17.0", "L 150x90x10": "18.2", "L 150x100x10": "19.0", "L 200x100x10": "23.0", "L 200x100x12": "27.3"}},
		{1, map[string]string{
			"T 30": "1.77", "T 35": "2.33", "T 40": "2.96", "T 50": "4.44", "T 60": "6.23", "T 70": "8.32", "T 80": "10.7", "T 100": "16.4", "T 120": "23.2", "T 140": "31.3"}},
		{poundPerFoot, map[string]string{
			"L2x2x1/4": "3.19", "L2-1/2x2-1/2x1/4": "4.1", "L3x3x1/4": "4.9", "L3x3x3/8": "7.2", "L3-1/2x3-1/2x1/4": "5.8", "L4x4x1/4": "6.6", "L4x4x3/8": "9.8",
			"L5x5x1/2": "16.2", "L6x6x3/8": "14.9", "L6x6x1/2": "19.6", "L8x8x1/2": "26.4", "L8x8x1": "51.0", "L4x3x1/4": "5.8", "L6x4x1/2": "16.2"}},
	} {
		for name, printed := range family.rows {
			s, err := density.FindSection(name)
			require.NoError(t, err, name)
			assert.InDelta(t, number(t, printed), s.PerLength/family.unit, lastPlace(printed)/2+1e-9, name)
		}
	}
}

// The weight in lb/ft is part of the name of a US shape (ASTM A6), and its area
// in square inches times 3.4028 lb/ft (490 lb/ft³, the AISC Manual) is that weight
// to the rounding of both, 2.1 % at most (MC10x6.5, 1.95 in²): every row of each family, a dozen at least.
func TestUSShapesWeighWhatTheirNameSays(t *testing.T) {
	count := map[string]int{}
	for _, family := range []string{"W", "S", "C", "MC", "HP"} {
		for _, s := range density.Sections(family) {
			letters := strings.TrimRight(s.Name[:strings.IndexAny(s.Name, "0123456789")], " ")
			if letters != family || s.Standard != "ASTM A6" {
				continue
			}
			count[family]++
			weight, err := strconv.ParseFloat(s.Name[strings.LastIndex(s.Name, "x")+1:], 64)
			require.NoError(t, err, s.Name)
			assert.InDelta(t, weight, s.PerLength/poundPerFoot, 1e-9, s.Name)
			assert.InEpsilon(t, weight, s.Area/squareInch*490/144, 0.021, s.Name)
		}
	}
	for family, n := range count {
		assert.GreaterOrEqual(t, n, 12, family)
	}
	assert.Len(t, count, 5)
}
