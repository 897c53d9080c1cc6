package density

import (
	"io/fs"
	"math"
	"strings"
	"testing"
	"testing/fstest"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// The tables in the program have no fault that the reader refuses, and every
// name leads to one section.
func TestEmbeddedSections(t *testing.T) {
	table, err := sections()
	require.NoError(t, err)
	assert.Equal(t, len(table.sections), len(Sections("")))
	names := 0
	for i, s := range table.sections {
		for _, name := range append([]string{s.Name}, s.Synonyms...) {
			names++
			assert.Equal(t, i, table.byKey[sectionKey(name)], "%s does not lead to %s", name, s.Name)
		}
		assert.NotEmpty(t, s.Standard, s.Name)
		assert.NotEmpty(t, s.Source, s.Name)
		assert.Contains(t, bases, s.Basis, s.Name)
		for _, x := range []float64{s.Depth, s.Width, s.Area, s.PerLength} {
			assert.True(t, x > 0 && !math.IsInf(x, 0), "%s: %g", s.Name, x)
		}
	}
	assert.Equal(t, len(table.byKey), names)
}

// How many sections each family has: a row cannot get lost unseen.
func TestFamilySizes(t *testing.T) {
	for query, want := range map[string]int{"IPE": 18, "HEA": 24, "HEB": 24, "HEM": 24, "UPN": 18, "UPE": 14,
		"EN 10056-1": 124, "EN 10055": 10, "W": 289, "HP": 22, "S": 28, "C": 31, "MC": 40} {
		assert.Equal(t, want, len(Sections(query)), query)
	}
}

// The masses of one series rise with the size that its name gives.
func TestMassesRise(t *testing.T) {
	for _, series := range []string{"IPE", "HEA", "HEB", "UPN", "UPE", "T"} {
		last := 0.0
		for _, s := range Sections(series) {
			assert.Greater(t, s.PerLength, last, s.Name)
			last = s.PerLength
		}
	}
}

const (
	goodSection = "IPE 200,,200,100,5.6,8.5,12,,,28.48,22.4,,,EN 10365,read,\n"
	goodSize    = "SHS,100,100,4;5,EN 10219-2,EN 10219-2,read\n"
	goodPipe    = "6,150,40;STD,6.625,0.28,168.3,7.11,ASME B36.10M,ASME B36.10M,read,\n"
)

// tablesWith is a folder of good tables, of which one has other contents.
func tablesWith(file, text string) fs.FS {
	all := fstest.MapFS{}
	entries, err := sectionFiles.ReadDir("sections")
	if err != nil {
		panic(err)
	}
	for _, e := range entries {
		content, err := sectionFiles.ReadFile("sections/" + e.Name())
		if err != nil {
			panic(err)
		}
		all["sections/"+e.Name()] = &fstest.MapFile{Data: content}
	}
	all["sections/"+file] = &fstest.MapFile{Data: []byte(text)}
	return all
}

// A row that an engineer could not check is refused, with its place.
func TestReadSectionsRefuses(t *testing.T) {
	metric := strings.Join(metricHeader, ",") + "\n"
	size, pipe := strings.Join(sizesHeader, ",")+"\n", strings.Join(pipeHeader, ",")+"\n"
	tests := []struct{ name, file, text, want string }{
		{"empty", "ipe.csv", "", "ipe.csv: want a first line"},
		{"US columns", "ipe.csv", strings.Join(usHeader, ",") + "\n" + goodSection, "want a first line"},
		{"too few cells", "ipe.csv", metric + "IPE 200,,200\n", "wrong number of fields"},
		{"no source", "ipe.csv", metric + "IPE 200,,200,100,5.6,8.5,12,,,28.48,22.4,,, ,read,\n", "row 2 (IPE 200): no source"},
		{"no basis", "ipe.csv", metric + "IPE 200,,200,100,5.6,8.5,12,,,28.48,22.4,,,EN 10365,,\n", `basis ""`},
		{"odd basis", "ipe.csv", metric + "IPE 200,,200,100,5.6,8.5,12,,,28.48,22.4,,,EN 10365,guess,\n", `basis "guess"`},
		{"no mass", "ipe.csv", metric + "IPE 200,,200,100,5.6,8.5,12,,,28.48,,,,EN 10365,read,\n", "must all be above 0"},
		{"NaN", "ipe.csv", metric + "IPE 200,,200,100,5.6,8.5,12,,,NaN,22.4,,,EN 10365,read,\n", "area_cm2: not a finite number"},
		{"negative", "ipe.csv", metric + "IPE 200,,200,100,5.6,8.5,-12,,,28.48,22.4,,,EN 10365,read,\n", "root_mm: -12 is negative"},
		{"web wider than flange", "ipe.csv", metric + "IPE 200,,200,100,100,8.5,12,,,28.48,22.4,,,EN 10365,read,\n", "thinner than the section"},
		{"area 2 % high", "ipe.csv", metric + "IPE 200,,200,100,5.6,8.5,12,,,29.05,22.8,,,EN 10365,read,\n", "the area is 2.0 % off"},
		{"mass 2 % low", "ipe.csv", metric + "IPE 200,,200,100,5.6,8.5,12,,,28.48,21.9,,,EN 10365,read,\n", "the mass is -2.0 % off"},
		{"centroid outside", "upe.csv", metric + "UPE 80,,80,50,4,7,10,,,10.1,7.9,5.1,,EN 10365,read,\n", "the centroid is outside"},
		{"angle of two walls", "angles_equal.csv", metric + "L 50x50x5,,50,50,5,6,7,3.5,,4.8,3.77,1.4,1.4,EN 10056-1,read,\n", "legs of one thickness"},
		{"name twice", "ipe.csv", metric + goodSection + goodSection, `row 3 (IPE 200): "IPE 200" is already a name of IPE 200`},
		{"name of another table", "ipe.csv", metric + strings.Replace(goodSection, "IPE 200,", "IPE 200,hea-200", 1), `"HEA 200" is already a name of IPE 200`},
		{"empty synonym", "ipe.csv", metric + strings.Replace(goodSection, "IPE 200,", "IPE 200,a;", 1), "an empty name"},
		{"size without source", "sizes.csv", size + "SHS,100,100,4;5,EN 10219-2,,read\n", "no source"},
		{"size without basis", "sizes.csv", size + "SHS,100,100,4;5,EN 10219-2,EN 10219-2,\n", `basis ""`},
		{"unknown series", "sizes.csv", size + "XHS,100,100,4;5,EN 10219-2,EN 10219-2,read\n", `series "XHS"`},
		{"wall too thick", "sizes.csv", size + "SHS,100,100,60,EN 10219-2,EN 10219-2,read\n", "too thick"},
		{"other standard", "sizes.csv", size + "CHS,100,,5,EN 10219-2,EN 10219-2,read\n", "is to EN 10220"},
		{"pipe without schedule", "pipe.csv", pipe + strings.Replace(goodPipe, "40;STD", "", 1), "no schedule"},
		{"pipe without source", "pipe.csv", pipe + strings.Replace(goodPipe, "ASME B36.10M,read", ",read", 1), "no source"},
		{"pipe of odd basis", "pipe.csv", pipe + strings.Replace(goodPipe, "read", "seen", 1), `basis "seen"`},
		{"pipe all wall", "pipe.csv", pipe + strings.Replace(goodPipe, "0.28", "3.5", 1), "half the outside diameter"},
		{"inches and mm apart", "pipe.csv", pipe + strings.Replace(goodPipe, "7.11", "7.2", 1), "do not agree"},
		{"pipe wall in words", "pipe.csv", pipe + strings.Replace(goodPipe, "0.28", "thin", 1), "wall_in"},
	}
	for _, tt := range tests {
		_, err := readSections(tablesWith(tt.file, tt.text))
		assert.ErrorContains(t, err, tt.want, tt.name)
	}
	for file, text := range map[string]string{"ipe.csv": metric + goodSection, "sizes.csv": size + goodSize, "pipe.csv": pipe + goodPipe} {
		_, err := readSections(tablesWith(file, text))
		require.NoError(t, err, file)
	}
	_, err := readSections(fstest.MapFS{})
	assert.ErrorIs(t, err, fs.ErrNotExist)
}

func TestSectionKey(t *testing.T) {
	for name, want := range map[string]string{"W 12 X 26.0": "w12x26", "HE-200-A": "he200a", "L 100×100×10": "l100x100x10",
		"L3-1/2x3x1/4": "l31/2x3x1/4", "HSS4x4x.250": "hss4x4x0.25", "NPS 6 Schedule 40": "nps6sch40", "1.2.30": "1.2.30",
		".": "0", "": "", "C 100": "c100"} {
		assert.Equal(t, want, sectionKey(name), name)
	}
}

// Each shape's formula for the area, against figures worked by hand.
func TestOutlineAreas(t *testing.T) {
	const mm2 = 1e-6
	tests := []struct {
		name string
		s    Section
		want float64 // mm²
	}{
		{"sharp I", Section{Shape: IShape, Depth: 0.1, Width: 0.05, Web: 0.005, Flange: 0.01}, 2*500 + 80*5},
		{"sharp channel", Section{Shape: Channel, Depth: 0.1, Width: 0.05, Web: 0.005, Flange: 0.01}, 500 + 2*450},
		{"steep channel", Section{Shape: TaperedChannel, Depth: 0.1, Width: 0.05, Web: 0.01, Flange: 0.01, Slope: 0.08}, 1000 + 2*40*9.6},
		{"sharp angle", Section{Shape: Angle, Depth: 0.1, Width: 0.05, Web: 0.01, Flange: 0.01}, 1000 + 400},
		{"sharp tee", Section{Shape: Tee, Depth: 0.1, Width: 0.1, Web: 0.01, Flange: 0.01}, 1000 + 900},
		{"box", Section{Shape: RectangularHollow, Depth: 0.1, Width: 0.06, Wall: 0.01}, 6000 - 80*40},
		{"tube", Section{Shape: RoundHollow, Depth: 0.1, Wall: 0.01}, 900 * math.Pi},
		{"round", Section{Shape: Round, Depth: 0.02}, 100 * math.Pi},
		{"square", Section{Shape: Square, Depth: 0.02, Width: 0.02}, 400},
		{"flat", Section{Shape: Flat, Depth: 0.1, Width: 0.01}, 1000},
	}
	for _, tt := range tests {
		assert.InEpsilon(t, tt.want*mm2, tt.s.outlineArea(), 1e-12, tt.name)
	}
	// A fillet in a right angle is r² less a quarter circle.
	assert.InDelta(t, 1-math.Pi/4, corner(math.Pi/2), 1e-15)
	assert.Equal(t, "unknown shape", Shape(-1).String())
	assert.Equal(t, "flat bar", Flat.String())
	assert.Len(t, shapeNames, int(Flat)+1)
}
