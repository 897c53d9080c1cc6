package density_test

import (
	"errors"
	"fmt"
	"math"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"plumbhook/density"
)

func TestFindSectionSpellings(t *testing.T) {
	for name, want := range map[string]string{
		"HEA 200": "HEA 200", "HE 200 A": "HEA 200", "he200a": "HEA 200", "HE-A-200": "HEA 200", "UNP 200": "UPN 200",
		"W12x26": "W12x26", "W 12 X 26": "W12x26", "w12×26": "W12x26", "W6x8.5": "W6x8.5", "W6 x 8.50": "W6x8.5",
		"L 100x100x10": "L 100x100x10", "L100x10": "L 100x100x10", "L4x4x1/4": "L4x4x1/4", "L 3 1/2 x 3 x 1/4": "L3-1/2x3x1/4",
		"T 50": "T 50", "T 50x50x6": "T 50", "C10x15.3": "C10x15.3", "MC 18 x 58": "MC18x58", "S24x80": "S24x80", "HP12x53": "HP12x53",
		"SHS 100x100x5": "SHS 100x100x5", "shs 100 x 5": "SHS 100x100x5", "RHS 200x100x8 cold formed": "RHS 200x100x8 EN 10219-2",
		"RHS 100x100x5 hot": "SHS 100x100x5 EN 10210-2", "CHS 168.3x5.6": "CHS 168.3x5.6", "EN 10220 168.3x5.6": "",
		"tube 168.3 x 5.6 mm": "CHS 168.3x5.6", "pipe 168.3x5.60": "CHS 168.3x5.6", "HSS 4 x 4 x .25": "HSS4x4x1/4",
		"HSS5-1/2x5-1/2x3/8": "HSS5-1/2x5-1/2x3/8", "HSS6.625x.280": "HSS6.625x0.280", "HSS 8x6x0.313": "HSS8x6x5/16",
		"flat 100x10": "flat 100x10", "FL 100x10": "flat 100x10", "FL100*10": "flat 100x10", "FLAT 100 x 10": "flat 100x10", "FB-100x10": "flat 100x10",
		"PL 20x500": "flat 20x500", "PL1/2x6": "flat 1/2x6 in", "RD 20": "round 20", "RO 168.3x5.6": "CHS 168.3x5.6", "Ø 20": "round 20", "square bar 1-1/2 in": "square 1-1/2 in",
	} {
		s, err := density.FindSection(name)
		if want == "" {
			assert.Error(t, err, name)
			continue
		}
		if assert.NoError(t, err, name) {
			assert.Equal(t, want, s.Name, name)
		}
	}
}

// A doubtful designation is never picked silently, and the error helps.
func TestFindSectionRefuses(t *testing.T) {
	tests := []struct {
		name    string
		near    []string
		several bool
	}{
		{"IPE 210", []string{"IPE 220", "IPE 200", "IPE 240"}, false},
		{"W12x27", []string{"W12x26", "W12x30", "W14x26"}, false},
		{"L 50x100x6", []string{"L 100x50x6", "L 100x50x8", "L 100x65x7"}, false},
		{"IPN 200", nil, false}, // 26.2 kg/m, not the 22.4 of IPE 200 (from memory)
		{"WT6x13", nil, false}, {"M20x60", nil, false}, {"falt 100x10", nil, false}, {"IPE 900", nil, false},
		{"W310x38.7", nil, false}, {"HP 310x79", nil, false}, {"C200x17.1", nil, false},
		{"HEM", []string{"HEM 100", "HEM 120", "HEM 140", "HEM 160", "HEM 180", "HEM 200", "HEM 220", "HEM 240"}, true},
		{"HE 200", []string{"HEA 200", "HEB 200", "HEM 200"}, true},
		{"DN 32", []string{"DN 32 sch 5", "DN 32 sch 10", "DN 32 sch 30", "DN 32 sch 40", "DN 32 sch 80", "DN 32 sch 160", "DN 32 sch XXS", "DN 32 sch 5S"}, true},
		{"unobtainium", nil, false},
		{"", nil, false},
	}
	for _, tt := range tests {
		_, err := density.FindSection(tt.name)
		var unknown *density.UnknownError
		require.ErrorAs(t, err, &unknown, tt.name)
		assert.Equal(t, tt.name, unknown.Name)
		assert.Equal(t, tt.near, unknown.Near, tt.name)
		assert.Equal(t, tt.several, unknown.Several, tt.name)
		assert.Contains(t, unknown.Error(), "section")
		assert.Contains(t, unknown.Fix(), "per length: 42.3 kg/m")
	}
}

// No suggestion is of another series, nor far in size: what is taken from a list
// by a hasty reader is lifted.
func TestSuggestionsAreOfTheSeries(t *testing.T) {
	series := func(name string) string { return strings.ToLower(strings.TrimRight(name, "0123456789.x/- ")) }
	rapid.Check(t, func(t *rapid.T) {
		word := rapid.SampledFrom([]string{"IPE", "HEA", "UPN", "W", "S", "C", "HP", "WT", "M", "IPN", "UB"}).Draw(t, "series")
		depth := rapid.IntRange(1, 1200).Draw(t, "depth")
		_, err := density.FindSection(fmt.Sprintf("%s %dx12.34", word, depth))
		var unknown *density.UnknownError
		if !errors.As(err, &unknown) {
			t.Fatalf("%s %d: %v", word, depth, err)
		}
		for _, near := range unknown.Near {
			s, err := density.FindSection(near)
			if err != nil || !strings.HasPrefix(series(s.Name), strings.ToLower(word)) {
				t.Fatalf("%s %d suggests %q (%v)", word, depth, near, err)
			}
			var nominal int
			if _, err := fmt.Sscanf(strings.TrimSpace(near[len(word):]), "%d", &nominal); err != nil || 10*nominal < 8*depth || 8*nominal > 10*depth {
				t.Fatalf("%s %d suggests %q", word, depth, near)
			}
		}
	})
}

// W310x38.7 is the metric name of W12x26 (ASTM A6/A6M, from memory): 310 mm
// and 38.7 kg/m. What is not in the tables is said, not guessed.
func TestMetricNamesOfUSShapes(t *testing.T) {
	for _, name := range []string{"W310x38.7", "W 310", "HP310x79", "C200x17.1", "S75x8.5"} {
		_, err := density.FindSection(name)
		var unknown *density.UnknownError
		require.ErrorAs(t, err, &unknown, name)
		assert.Contains(t, unknown.Fix(), "metric names of US shapes are not in the tables", name)
		assert.Contains(t, unknown.Fix(), "W12x26", name)
	}
	for _, name := range []string{"W12x27", "M20x60", "HEA 205"} {
		_, err := density.FindSection(name)
		var unknown *density.UnknownError
		require.ErrorAs(t, err, &unknown, name)
		assert.NotContains(t, unknown.Fix(), "metric", name)
	}
}

// A designation that is understood, but cannot be, says why and how to mend it.
func TestFindSectionSizes(t *testing.T) {
	for name, want := range map[string][2]string{
		"SHS 20x20x6":       {"too thick for the corners", "outside size, then the wall"},
		"CHS 20x10":         {"the wall fills the diameter", "round 20"},
		"SHS 4x4x1/4":       {"a fraction of mm", "HSS4x4x1/4"},
		"SHS 4x4x0.25":      {"too small to be meant", "HSS4x4x1/4"},
		"SHS 200x100x8":     {"unequal sides", "RHS"},
		"SHS 100x100x5x3":   {"", "SHS 100x100x5"},
		"CHS 168,3x5,6":     {"", "CHS 168.3x5.6"},
		"RHS 20000x10000x8": {"more than 10 m", "mm"},
		"HSS 100x100x5":     {"in inches", "SHS"},
		"HSS 2x2x5/8":       {"too thick", "outside size"},
		"RHS 200x100":       {"the wall is missing", "RHS 200x100x8"},
		"RHS 200x30":        {"the wall is missing", "RHS 200x100x8"},
		"SHS 100x100":       {"the wall is missing", "SHS 100x5"},
		"HSS8x6":            {"the wall is missing", "HSS4x4x1/4"},
		"HSS20x8":           {"the wall is missing", "HSS4x4x1/4"},
		"HSS6x1":            {"the wall is missing", "HSS4x4x1/4"},
		"HSS":               {"", ""},
		"round 1":           {"without a unit", "round 4 mm"},
		"flat 4x2":          {"without a unit", "flat 4 x 1/2 in"},
		"round 100 m":       {"not a size of a bar", "round 20 mm"},
		"square 0 mm":       {"", ""},
		"flat 100":          {"", ""},
	} {
		_, err := density.FindSection(name)
		require.Error(t, err, name)
		assert.ErrorContains(t, err, want[0], name)
		var size *density.SizeError
		if errors.As(err, &size) {
			assert.Contains(t, size.Fix(), want[1], name)
			assert.Contains(t, size.Error(), name)
		}
	}
}

func TestSectionsSearch(t *testing.T) {
	names := func(query string) []string {
		var all []string
		for _, s := range density.Sections(query) {
			all = append(all, s.Name)
		}
		return all
	}
	assert.Equal(t, []string{"HEA 200", "HEB 200", "HEM 200"}, names("HE 200"))
	assert.Equal(t, []string{"NPS 1/8 sch 10", "NPS 1/8 sch 30", "NPS 1/8 sch 40", "NPS 1/8 sch 80", "NPS 1/8 sch 10S",
		"NPS 1/8 sch 40S", "NPS 1/8 sch 80S"}, names("nps 1/8"))
	assert.Equal(t, []string{"UPN 200"}, names("tapered channel upn200"))
	assert.Len(t, names("EN 10055"), 10)
	assert.Empty(t, names("no such thing"))
}

// Case, spaces and hyphens never change what is found.
func TestFindSectionIsBlindToWriting(t *testing.T) {
	all := density.Sections("")
	rapid.Check(t, func(t *rapid.T) {
		s := rapid.SampledFrom(all).Draw(t, "section")
		gap := rapid.SampledFrom([]string{"", " ", "  ", "-", "_", "\t"}).Draw(t, "gap")
		name := strings.ReplaceAll(s.Name, " ", gap)
		if rapid.Bool().Draw(t, "upper") {
			name = strings.ToUpper(name)
		}
		if got, err := density.FindSection(name); err != nil || got.Name != s.Name {
			t.Fatalf("%q found %q (%v), want %q", name, got.Name, err, s.Name)
		}
	})
}

// A caller cannot change the tables.
func TestSectionsAreCopies(t *testing.T) {
	density.Sections("HEA 200")[0].Synonyms[0] = "spoilt"
	s, err := density.FindSection("HEA 200")
	require.NoError(t, err)
	assert.Equal(t, []string{"HE 200 A"}, s.Synonyms)
	s.Synonyms[0] = "spoilt"
	assert.NotContains(t, density.Sections("HEA 200")[0].Synonyms, "spoilt")
}

// No text breaks FindSection, and what it finds can be weighed.
func FuzzFindSection(f *testing.F) {
	for _, seed := range []string{"HEA 200", "W12x26", "SHS 100x100x5 hot", "HSS3-1/2x3-1/2x1/4", `6" XS`, "DN 150 sch 40",
		"flat 4 x 1/2 in", "round", "ø", "x", "1/0", "HSS1/0x1/0x1/0", "CHS 1e9x1", "NPS -", "SHS 9999999999x1x0.00001", "."} {
		f.Add(seed)
	}
	f.Fuzz(func(t *testing.T, name string) {
		s, err := density.FindSection(name)
		if err != nil {
			var unknown *density.UnknownError
			var size *density.SizeError
			if !errors.As(err, &unknown) && !errors.As(err, &size) || err.Error() == "" {
				t.Fatalf("%q: %v", name, err)
			}
			return
		}
		if s.Name == "" || s.Standard == "" || s.Source == "" {
			t.Fatalf("%q found a section without a name, standard or source: %+v", name, s)
		}
		for _, x := range []float64{s.Depth, s.Width, s.Area, s.PerLength} {
			if !(x > 0) || math.IsInf(x, 0) {
				t.Fatalf("%q: %+v", name, s)
			}
		}
		density.Sections(name)
	})
}
