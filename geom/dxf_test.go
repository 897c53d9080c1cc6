package geom_test

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"github.com/go-gl/mathgl/mgl64"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"plumbhook/geom"
)

func readDXF(in string) ([]geom.Loop, float64, error) {
	return geom.ReadDXF(strings.NewReader(in), geom.Limits{})
}

// groups writes pairs of a number and a value, each on a line.
func groups(pairs ...any) string {
	var out strings.Builder
	for i := 0; i < len(pairs); i += 2 {
		fmt.Fprintf(&out, "%3d\n%v\n", pairs[i], pairs[i+1])
	}
	return out.String()
}

// drawing is a file with the given entities, in millimetres.
func drawing(entities ...string) string {
	return groups(999, "by hand", 0, "SECTION", 2, "HEADER", 9, "$LTSCALE", 40, 1, 9, "$INSUNITS", 70, 4, 0, "ENDSEC") +
		groups(0, "SECTION", 2, "ENTITIES") + strings.Join(entities, "") + groups(0, "ENDSEC", 0, "EOF")
}

func line(x1, y1, x2, y2 float64) string {
	return groups(0, "LINE", 8, "CUT", 10, x1, 20, y1, 30, 0, 11, x2, 21, y2, 31, 0)
}

func arcAt(x, y, radius, from, to float64) string {
	return groups(0, "ARC", 8, "CUT", 10, x, 20, y, 30, 0, 40, radius, 50, from, 51, to)
}

func circleAt(x, y, radius float64) string {
	return groups(0, "CIRCLE", 8, "CUT", 10, x, 20, y, 30, 0, 40, radius)
}

// lightPolyline has points of x, y and bulge.
func lightPolyline(flags int, points ...[3]float64) string {
	text := groups(0, "LWPOLYLINE", 8, "CUT", 100, "marker", 90, len(points), 70, flags)
	for _, p := range points {
		text += groups(10, p[0], 20, p[1], 42, p[2])
	}
	return text
}

func oldPolyline(flags int, points ...[3]float64) string {
	text := groups(0, "POLYLINE", 8, "CUT", 66, 1, 10, 0, 20, 0, 30, 0, 70, flags)
	for _, p := range points {
		text += groups(0, "VERTEX", 8, "CUT", 10, p[0], 20, p[1], 30, 0, 42, p[2])
	}
	return text + groups(0, "SEQEND", 8, "CUT")
}

// roundedPlate is 400 x 250 with corners of radius 30, as lines and arcs in no
// order and run either way.
var roundedPlate = []string{
	line(30, 0, 370, 0), arcAt(370, 30, 30, 270, 360), line(0, 220, 0, 30), arcAt(30, 220, 30, 90, 180),
	line(400, 220, 400, 30), arcAt(370, 220, 30, 0, 90), arcAt(30, 30, 30, 180, 270), line(30, 250, 370, 250),
}

// A plate with rounded corners, two round holes and a slot. Area by hand:
//
//	plate 400·250 − (4 − π)·30²
//	holes 2·π·20², slot 60·24 + π·12²
func TestPlateWithHolesAndRoundedCorners(t *testing.T) {
	slot := []string{line(170, 113, 230, 113), arcAt(230, 125, 12, 270, 90), line(230, 137, 170, 137), arcAt(170, 125, 12, 90, 270)}
	entities := append(append([]string{circleAt(60, 60, 20)}, roundedPlate...), append(slot, circleAt(340, 190, 20))...)
	loops, unit, err := readDXF(drawing(entities...))
	require.NoError(t, err)
	assert.Equal(t, 0.001, unit)
	require.Len(t, loops, 4)
	areas := []float64{400*250 - (4-math.Pi)*900, math.Pi * 400, math.Pi * 400, 60*24 + math.Pi*144}
	assert.InDelta(t, areas[0], math.Abs(loops[0].Area()), 1e-9, "the outline comes first")
	assert.InDelta(t, areas[1], math.Abs(loops[1].Area()), 1e-9)
	assert.InDelta(t, areas[2], math.Abs(loops[2].Area()), 1e-9)
	assert.InDelta(t, areas[3], math.Abs(loops[3].Area()), 1e-9)

	holes := []geom.Outline{loops[1].Outline(unit), loops[2].Outline(unit), loops[3].Outline(unit)}
	plate, err := geom.NewExtrusion(loops[0].Outline(unit), holes, 0.02)
	require.NoError(t, err)
	assert.InEpsilon(t, (areas[0]-areas[1]-areas[2]-areas[3])*1e-6*0.02, plate.Moments().Volume, 1e-12)
}

// The same half-round plate (a square of 100 with a half circle of radius 50 on
// its right) in every way of drawing it. Area by hand: 100² + π·50²/2.
func TestOutlinesInEveryEntity(t *testing.T) {
	want := 100*100 + math.Pi*2500/2
	half := math.Sqrt2 - 1 // tan(90°/4)
	for name, entities := range map[string][]string{
		"lines and an arc":           {line(0, 0, 100, 0), line(0, 100, 0, 0), arcAt(100, 50, 50, 270, 90), line(100, 100, 0, 100)},
		"an arc across 0°":           {line(0, 0, 100, 0), line(0, 100, 0, 0), arcAt(100, 50, 50, -90, 450), line(100, 100, 0, 100)},
		"light polyline":             {lightPolyline(1, [3]float64{0, 0, 0}, [3]float64{100, 0, 1}, [3]float64{100, 100, 0}, [3]float64{0, 100, 0})},
		"closed by its last point":   {lightPolyline(0, [3]float64{0, 0, 0}, [3]float64{100, 0, 1}, [3]float64{100, 100, 0}, [3]float64{0, 100, 0}, [3]float64{0, 0, 0})},
		"closed twice":               {lightPolyline(1, [3]float64{0, 0, 0}, [3]float64{100, 0, 1}, [3]float64{100, 100, 0}, [3]float64{0, 100, 0}, [3]float64{0, 0, 0})},
		"run clockwise":              {lightPolyline(1, [3]float64{0, 0, 0}, [3]float64{0, 100, 0}, [3]float64{100, 100, -1}, [3]float64{100, 0, 0})},
		"old polyline":               {oldPolyline(1, [3]float64{0, 0, 0}, [3]float64{100, 0, half}, [3]float64{150, 50, half}, [3]float64{100, 100, 0}, [3]float64{0, 100, 0})},
		"polyline and line":          {line(0, 0, 0, 100), oldPolyline(0, [3]float64{0, 100, 0}, [3]float64{100, 100, -1}, [3]float64{100, 0, 0}, [3]float64{0, 0, 0})},
		"with what draws no outline": {groups(0, "TEXT", 8, "NOTES", 10, 5, 20, 5, 40, 3.5, 1, "0"), groups(0, "POINT", 10, 7, 20, 7), lightPolyline(1, [3]float64{0, 0, 0}, [3]float64{100, 0, 1}, [3]float64{100, 100, 0}, [3]float64{0, 100, 0}), groups(0, "DIMENSION", 2, "*D1", 10, 1, 20, 1), groups(0, "HATCH", 10, 0, 20, 0, 10, 5, 20, 5)},
		"with lines on the paper":    {groups(0, "LINE", 67, 1, 10, 0, 20, 0, 11, 9, 21, 9), lightPolyline(1, [3]float64{0, 0, 0}, [3]float64{100, 0, 1}, [3]float64{100, 100, 0}, [3]float64{0, 100, 0})},
		"ends a little apart":        {line(0, 0, 100.0001, 0), line(0, 100, 0.0001, 0), arcAt(100, 50, 50, 270, 90), line(100, 100.0001, 0, 100)},
		"a piece without length":     {line(0, 0, 100, 0), line(100, 0, 100, 0), line(0, 100, 0, 0), arcAt(100, 50, 50, 270, 90), line(100, 100, 0, 100)},
		"seen from below":            {lightPolyline(1, [3]float64{0, 0, 0}, [3]float64{-100, 0, -1}, [3]float64{-100, 100, 0}, [3]float64{0, 100, 0}) + groups(210, 0, 220, 0, 230, -1)},
		"arc from below":             {line(0, 0, 100, 0), line(0, 100, 0, 0), arcAt(-100, 50, 50, 90, 270) + groups(210, 0.0, 220, 0.0, 230, -1.0), line(100, 100, 0, 100)},
		"at a height":                {strings.Replace(lightPolyline(1, [3]float64{0, 0, 0}, [3]float64{100, 0, 1}, [3]float64{100, 100, 0}, [3]float64{0, 100, 0}), " 70\n", " 38\n12.5\n 70\n", 1)},
	} {
		loops, _, err := readDXF(drawing(entities...))
		require.NoError(t, err, name)
		require.Len(t, loops, 1, name)
		assert.InDelta(t, want, math.Abs(loops[0].Area()), 0.03, name)
		if name != "ends a little apart" {
			assert.InDelta(t, want, math.Abs(loops[0].Area()), 1e-9, name)
		}
		for _, b := range loops[0].Bulge {
			assert.LessOrEqual(t, math.Abs(b), 1.0, name)
		}
		assert.Len(t, loops[0].Bulge, len(loops[0].Points))
		plate, err := geom.NewExtrusion(loops[0].Outline(1e-3), nil, 1)
		require.NoError(t, err, name)
		assert.InDelta(t, 0.15, plate.Reach(geom.Vec{1, 0, 0}), 2e-7, name)
	}
}

// An arc of 270° as a polyline writes it, a bulge of tan(67.5°): a disc of
// radius 50 without a quarter is 3/4·π·50², and with the triangle of its chord
// 50²/2 more.
func TestArcOfMoreThanHalfACircle(t *testing.T) {
	for name, entities := range map[string][]string{
		"bulge": {lightPolyline(1, [3]float64{50, 0, math.Tan(67.5 * math.Pi / 180)}, [3]float64{0, -50, 0})},
		"arc":   {arcAt(0, 0, 50, 0, 270), line(0, -50, 50, 0)},
	} {
		loops, _, err := readDXF(drawing(entities...))
		require.NoError(t, err, name)
		require.Len(t, loops[0].Points, 3, name)
		assert.InDelta(t, 0.75*math.Pi*2500+1250, loops[0].Area(), 1e-9, name)
		assert.InDelta(t, math.Tan(67.5/2*math.Pi/180), math.Max(loops[0].Bulge[0], loops[0].Bulge[1]), 1e-12, name)
	}
}

func TestUnitsOfDXF(t *testing.T) {
	for code, metres := range map[string]float64{"0": 0, "1": 0.0254, "2": 0.3048, "4": 0.001, "5": 0.01, "6": 1, "14": 0.1} {
		_, unit, err := readDXF(strings.Replace(drawing(circleAt(0, 0, 1)), "$INSUNITS\n 70\n4", "$INSUNITS\n 70\n     "+code, 1))
		require.NoError(t, err, code)
		assert.Equal(t, metres, unit, code)
	}
	_, unit, err := readDXF(groups(0, "SECTION", 2, "ENTITIES") + circleAt(0, 0, 1) + groups(0, "ENDSEC", 0, "EOF"))
	require.NoError(t, err)
	assert.Zero(t, unit, "no header, no unit")
}

// A block that holds no line may be put in, such as the texts of a frame.
func TestBlocksOfDXF(t *testing.T) {
	withBlock := func(inside string) string {
		return strings.Replace(drawing(circleAt(0, 0, 10), groups(0, "INSERT", 8, "FRAME", 2, "Title", 10, 0, 20, 0, 66, 1), groups(0, "ATTRIB", 1, "name"), groups(0, "SEQEND")),
			groups(0, "SECTION", 2, "ENTITIES"), groups(0, "SECTION", 2, "BLOCKS", 0, "BLOCK", 8, 0, 2, "TITLE", 10, 0, 20, 0)+inside+groups(0, "ENDBLK", 0, "ENDSEC", 0, "SECTION", 2, "ENTITIES"), 1)
	}
	loops, _, err := readDXF(withBlock(groups(0, "TEXT", 1, "drawn by", 0, "ATTDEF", 2, "NAME")))
	require.NoError(t, err)
	assert.Len(t, loops, 1)
	_, _, err = readDXF(withBlock(line(0, 0, 5, 5)))
	assert.Contains(t, asFileError(t, err).Msg, "INSERT on layer \"FRAME\" puts in the block \"Title\", which is not read")
}

func square(x, y, side float64) string {
	return lightPolyline(1, [3]float64{x, y, 0}, [3]float64{x + side, y, 0}, [3]float64{x + side, y + side, 0}, [3]float64{x, y + side, 0})
}

func TestLimitsOfDXF(t *testing.T) {
	in := drawing(roundedPlate...)
	_, _, err := geom.ReadDXF(strings.NewReader(in), geom.Limits{Bytes: int64(len(in)) - 1})
	assert.Contains(t, asFileError(t, err).Msg, "larger than the limit of")
	_, _, err = geom.ReadDXF(strings.NewReader(in), geom.Limits{Triangles: 10})
	assert.Contains(t, asFileError(t, err).Msg, "more than 10 lines and arcs are no outline")
}

// Whatever the order of the pieces, whichever way each runs, turned and moved:
// the same area, and every end of line is fine.
func TestOrderOfPiecesMeansNothing(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		n := rapid.IntRange(3, 12).Draw(t, "corners")
		by := mgl64.Vec2{rapid.Float64Range(-1e4, 1e4).Draw(t, "x"), rapid.Float64Range(-1e4, 1e4).Draw(t, "y")}
		corner := func(i int) mgl64.Vec2 {
			sin, cos := math.Sincos(2 * math.Pi * float64(i%n) / float64(n))
			return by.Add(mgl64.Vec2{100 * cos, 100 * sin})
		}
		pieces := make([]string, n)
		for i := range pieces {
			p, q := corner(i), corner(i+1)
			if rapid.Bool().Draw(t, "back") {
				p, q = q, p
			}
			pieces[i] = line(p[0], p[1], q[0], q[1])
		}
		pieces = rapid.Permutation(pieces).Draw(t, "order")
		end := rapid.SampledFrom([]string{"\n", "\r\n", "\r"}).Draw(t, "line end")
		loops, _, err := readDXF(strings.ReplaceAll(drawing(append(pieces, circleAt(by[0], by[1], 20))...), "\n", end))
		require.NoError(t, err)
		require.Len(t, loops, 2)
		// A regular polygon of n corners on a circle of radius r: n/2·r²·sin(2π/n).
		assert.InEpsilon(t, float64(n)/2*1e4*math.Sin(2*math.Pi/float64(n)), math.Abs(loops[0].Area()), 1e-9)
		assert.InEpsilon(t, math.Pi*400, math.Abs(loops[1].Area()), 1e-9)
	})
}
