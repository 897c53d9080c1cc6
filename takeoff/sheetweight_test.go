package takeoff

import (
	"errors"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"plumbhook/geom"
)

// weightTop is top with the columns of how a weight is known.
const weightTop = "material,structural steel\n" +
	"mark,qty,description,size (mm),length (mm),along,x (mm),y (mm),z (mm),weight (kg),total weight,status,tolerance\n"

// plateOf is a row of a plate of 2.4 × 1.2 × 0.02 m, 452.16 kg at 7850 kg/m³.
func plateOf(rest string) string { return "P1,1,base,2400 x 1200 x 20,,,1200,600,10," + rest + "\n" }

// TestSheetTakesTheSureWeight uses a weight that was weighed, or is stated by
// the maker, over what size and material come to. Want: ratios by hand; the
// tolerances are those of tolerances.csv.
func TestSheetTakesTheSureWeight(t *testing.T) {
	const computed = 452.16 // kg
	tests := []struct {
		name, row            string
		best, low, high, off float64 // kg, all pieces; off is a tolerance of the figures
		warns                bool
		basis                string
	}{
		{"weighed", plateOf("440,,weighed,"), 440, 440 * 0.97, 440 * 1.03, 1e-9, false,
			"given as 440 kg; ±3 %: weighed in this state (DNV-OS-H102: weight inaccuracy factor 1.03 for a weighed load)"},
		{"catalogue", plateOf("440,,Catalogue,"), 440, 440 * 0.95, 440 * 1.05, 1e-9, false, "stated by its maker"},
		{"weighed, far above", plateOf("600,,weighed,"), 600, computed, 600 * 1.03, 1e-9, true, "where the weight is; its size and material comes to 452.2 kg (996.8 lb) (+32.7 %); the range reaches it"},
		{"weighed, far below", plateOf("300,,weighed,"), 300, 300 * 0.97, computed, 1e-9, true, "(-33.7 %)"},
		{"weighed, own tolerance", plateOf("440,,weighed,1 %"), 440, 440 * 0.99, 440 * 1.01, 1e-9, false, "±1 %: as written"},
		{"weighed in all", "P1,4,base,2400 x 1200 x 20,,,1200,600,10,,1760,weighed,\n", 1760, 1760 * 0.97, 1760 * 1.03, 1e-9, false, "given as 1760 kg in all for 4"},
		// The spread of the density alone, 0.5 % (materials.csv).
		{"nothing said", plateOf("600,,,"), computed, computed * 0.995, 600, 1e-9, true, "(+32.7 %); the range reaches it"},
		{"calculated", plateOf("600,,calculated,"), computed, computed * 0.9, 600, 1e-9, true, "worked out by others"},
		{"nothing said, lighter", plateOf("300,,,"), computed, 300, computed * 1.005, 1e-9, true, "the sheet gives 300 kg for one"},
		{"two weights", "D1,2,drive,,,,1,2,3,100,150,weighed,\n", 200, 150, 206, 1e-9, true, "given as 100 kg"},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			text := strings.ReplaceAll(weightTop, "total weight", "total weight (kg)")
			l, err := readSheet(text+tt.row, Options{})
			require.NoError(t, err)
			best, low, high := l.Parts[0].Mass()
			assert.InDelta(t, tt.best, float64(best), 1e-9, "best")
			assert.InDelta(t, tt.low, float64(low), tt.off, "low")
			assert.InDelta(t, tt.high, float64(high), tt.off, "high")
			if !tt.warns { // of the common centre at most
				assert.NotContains(t, codes(l.Warnings), "weight-differs")
			} else {
				assert.Contains(t, codes(l.Warnings), "weight-differs")
			}
			assert.Contains(t, l.Parts[0].Basis, tt.basis)
			if l.Parts[0].Solid != nil {
				near3(t, geom.Vec{1.2, 0.6, 0.01}, l.Parts[0].CG(), 1e-12, "the CG of the shape")
			}
		})
	}
}

// TestSheetWeighedSection scales a section as a plate.
func TestSheetWeighedSection(t *testing.T) {
	l, err := readSheet(weightTop+"B1,1,beam,HEA 200,6000,x,0,0,0,260,,weighed,\n", Options{})
	require.NoError(t, err)
	assert.InDelta(t, 260, float64(l.Parts[0].massOfOne()), 1e-9)
	assert.InDelta(t, 0.03, l.Parts[0].High, 1e-12)
	assert.InDelta(t, 6, l.Parts[0].Extent().Size()[0], 1e-9)
}

// TestSheetWeightsThatCannotBe refuses two figures of which one is wrong.
func TestSheetWeightsThatCannotBe(t *testing.T) {
	for row, at := range map[string]string{
		plateOf("1000,,,"):                                     "J3", // pounds in the column of kilograms
		plateOf("1000,,weighed,"):                              "J3",
		plateOf("200,,catalogue,"):                             "J3",
		"P1,4,base,2400 x 1200 x 20,,,1200,600,10,,440 kg,,\n": "K3", // one piece, not all
		"D1,4,drive,,,,1,2,3,100,100 kg,weighed,\n":            "K3",
	} {
		_, err := readSheet(weightTop+row, Options{})
		var p Problems
		require.True(t, errors.As(err, &p), row)
		require.Len(t, p, 1)
		assert.Equal(t, at, p[0].Cell, row)
		assert.Contains(t, p[0].Text, "more than a factor of 2", row)
		assert.Contains(t, p[0].Text, "the sheet gives ", row)
		assert.Contains(t, p[0].Text, " comes to ", row)
		assert.Contains(t, p[0].Fix, "correct one", row)
	}
}

// TestSheetPrintsAsWritten keeps the words of a weight, and no minus before
// nothing.
func TestSheetPrintsAsWritten(t *testing.T) {
	l, err := readSheet(weightTop+"D1,1,a,,,,0,0,0,850 lb,,weighed,\nD2,1,b,,,,0,0,0,,850 lb,weighed,\nD3,3,c,,,,0,0,0,,850 lb,weighed,\n"+
		"P1,1,d,2400 x 1200 x 20,,,1200,600,10,452.1 kg,,,\nP2,1,e,2400 x 1200 x 20,,,1200,600,30,900 lb,,,\n", Options{})
	require.NoError(t, err)
	for i, want := range []string{"given as 850 lb; ", "given as 850 lb; ", "given as 850 lb in all for 3; ",
		"the sheet gives 452.1 kg for one, its size and material comes to 452.2 kg (996.8 lb) (0.0 %)", "the sheet gives 900 lb for one, "} {
		assert.Contains(t, l.Parts[i].Basis, want)
	}
	assert.InDelta(t, 850*0.45359237/3, float64(l.Parts[2].Given), 1e-9)
}

// A part of a load file that claims so is warned of: its range is computed.
func TestPartWeighedWithoutAWeight(t *testing.T) {
	w := warnedOf(t, good(t, head+"- {name: a, status: weighed, plate: 2000 x 1000 x 10, at: [0, 0, 0]}\n"), "weighed-computed")
	assert.Contains(t, w.Text, "gives no weight")
	assert.Contains(t, w.Fix, "`weight:`")
	for _, part := range []string{"status: weighed, weight: 9 kg", "status: weighed, weight: 9 kg, box: 9 x 9 x 9", "status: calculated, box: 9 x 9 x 9"} {
		assert.Empty(t, warnedOf(t, good(t, head+"- {name: a, "+part+", at: [0, 0, 0]}\n"), "weighed-computed"), part)
	}
	l, err := readSheet(weightTop+plateOf("440,,weighed,"), Options{})
	require.NoError(t, err)
	assert.NotContains(t, codes(l.Warnings), "weighed-computed")
}

// A row that claims to have been weighed and gives no weight.
func TestSheetWeighedWithoutAWeight(t *testing.T) {
	for _, status := range []string{"weighed", "Weighed"} {
		_, err := readSheet(weightTop+plateOf(",,"+status+","), Options{})
		var p Problems
		require.True(t, errors.As(err, &p), status)
		require.Len(t, p, 1)
		assert.Equal(t, "L3", p[0].Cell)
		assert.Contains(t, p[0].Text, "the row says weighed and gives no weight")
		assert.Contains(t, p[0].Fix, "`weight`")
	}
}
