package geom_test

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
)

func TestBadDXFFiles(t *testing.T) {
	one := drawing(circleAt(0, 0, 10))
	tests := []struct {
		name, in string
		line     int
		want     string
	}{
		{"empty", "", 1, "the file ends without its last line, \"EOF\": it is cut off, or not a DXF file"},
		{"no DXF", "solid cube\n", 1, "expected the number of a group, found \"solid cube\": not a DXF file, or damaged"},
		{"binary", "binary drawing\r\n\x1a\x00\x00\x00", 0, "a binary drawing, not a DXF file in text"},
		{"other drawing", "AC1027\x01\x02", 0, "a binary drawing, not a DXF file in text"},
		{"cut off", one[:len(one)-30], 29, "the file ends without its last line"},
		{"no section", groups(0, "LINE"), 2, "expected a section of the drawing, found \"LINE\""},
		{"unit", strings.Replace(one, "$INSUNITS\n 70\n4", "$INSUNITS\n 70\n19", 1), 14, "the unit of the drawing ($INSUNITS) is \"19\", which is none that parts are drawn in"},
		{"nothing drawn", drawing(), 0, "the drawing has no lines, arcs or circles in its model"},
		{"only a text", drawing(groups(0, "TEXT", 1, "a")), 0, "the drawing has no lines, arcs or circles in its model"},
		{"spline", drawing(groups(0, "SPLINE", 8, "CUT", 70, 8)), 22, "SPLINE on layer \"CUT\" is a curve that is not read: only straight lines and arcs of circles are"},
		{"ellipse", drawing(groups(0, "ELLIPSE", 10, 0)), 22, "ELLIPSE is a curve that is not read"},
		{"unknown block", drawing(groups(0, "INSERT", 2, "B")), 22, "INSERT puts in the block \"B\", which is not read"},
		{"solid", drawing(groups(0, "3DSOLID", 1, "x")), 22, "3DSOLID is not read"},
		{"spline as polyline", drawing(oldPolyline(4, [3]float64{0, 0, 0}, [3]float64{1, 0, 0})), 22, "POLYLINE on layer \"CUT\" is a spline, which is not read"},
		{"surface as polyline", drawing(oldPolyline(64, [3]float64{0, 0, 0}, [3]float64{1, 0, 0})), 22, "is a surface, which is not read as an outline"},
		{"no end", drawing(groups(0, "LINE", 10, 1, 20, 2, 11, 3)), 22, "LINE has no y of its end (group 21)"},
		{"no radius", drawing(groups(0, "CIRCLE", 10, 1, 20, 2)), 22, "CIRCLE has no radius (group 40)"},
		{"radius 0", drawing(circleAt(0, 0, 0)), 22, "has the radius 0, which is not above zero"},
		{"decimal comma", drawing(groups(0, "LINE", 10, "1,5", 20, 2, 11, 3, 21, 4)), 24, "LINE has, as group 10, \"1,5\", which has a comma: the decimal sign in such a file is a point"},
		{"no number", drawing(groups(0, "LINE", 10, "", 20, 2, 11, 3, 21, 4)), 24, "LINE has, as group 10, \"\", which is not a number"},
		{"one point", drawing(lightPolyline(1, [3]float64{0, 0, 0})), 22, "has 1 point, and needs two"},
		{"no y", drawing(groups(0, "LWPOLYLINE", 70, 1, 10, 0, 10, 1, 20, 1)), 22, "has no y of its point 1 (group 20)"},
		{"bulge first", drawing(groups(0, "LWPOLYLINE", 70, 1, 42, 1, 10, 0)), 22, "has group 42 before its first point"},
		{"flags", drawing(groups(0, "LWPOLYLINE", 70, 1.5)), 22, "has flags (group 70) that are no small whole number"},
		{"no SEQEND", drawing(groups(0, "POLYLINE", 70, 1, 0, "VERTEX", 10, 0, 20, 0)), 22, "POLYLINE has no SEQEND: after its points comes \"ENDSEC\""},
		{"rising", drawing(groups(0, "LINE", 10, 0, 20, 0, 30, 0, 11, 1, 21, 0, 31, 5)), 22, "LINE rises from one end to the other: an outline is flat"},
		{"tilted", drawing(circleAt(0, 0, 10) + groups(210, 1, 220, 0, 230, 0)), 22, "is drawn in a plane that is not parallel to x and y"},
		{"two heights", drawing(circleAt(0, 0, 10), strings.Replace(circleAt(0, 0, 5), " 30\n0", " 30\n2", 1)), 34, "is drawn at the height z = 2, and what comes before at 0"},
		{"open", drawing(line(0, 0, 100, 0), line(100, 0, 100, 100), line(100, 100, 0, 100), line(0, 100, 0, 0.5)), 22,
			"the outline is not closed: 2 ends meet no other (ends up to 0.00014 apart are joined): (0, 0) of the LINE on line 22, layer \"CUT\", 0.5 from the open end (0, 0.5); (0, 0.5) of the LINE on line 70, layer \"CUT\", 0.5 from the open end (0, 0)"},
		{"a centre line", drawing(append(roundedPlate[:8:8], groups(0, "LINE", 8, "CENTRE", 10, -10, 20, 125, 11, 410, 21, 125))...), 150,
			"2 ends meet no other (ends up to 0.00049 apart are joined): (-10, 125) of the LINE on line 150, layer \"CENTRE\", 420 from the open end (410, 125)"},
		{"many open", drawing(line(0, 0, 1, 0), line(2, 0, 3, 0), line(4, 0, 5, 0), line(6, 0, 7, 0)), 22, "8 ends meet no other"},
		{"two loops at a corner", drawing(line(0, 0, 100, 0), line(100, 0, 0, 100), line(0, 100, 0, 0), line(0, 0, -50, 0), line(-50, 0, 0, -50), line(0, -50, 0, 0)), 22, "4 ends meet at (0, 0), so it is not clear how the outline goes on: of the lines and arcs on lines 22, 54, 70, 102 of the file"},
		{"a line twice", drawing(line(0, 0, 100, 0), line(100, 0, 0, 100), line(0, 100, 0, 0), line(100, 0, 0, 0)), 70, "LINE on layer \"CUT\" is drawn over another, on line 22 of the file, from (100, 0) to (0, 0)"},
		{"a circle twice", drawing(circleAt(0, 0, 10), square(-20, -20, 40), circleAt(0, 0, 10)), 0, "a loop is drawn twice: 20 x 20 from (-10, -10)"},
		{"two outlines", drawing(square(0, 0, 10), square(100, 0, 20)), 0, "the drawing holds 2 outlines, where one with its holes is read: 20 x 20 from (100, 0); 10 x 10 from (0, 0)"},
		{"an island", drawing(square(0, 0, 100), square(20, 20, 50), circleAt(40, 40, 5)), 0, "the drawing holds 2 outlines, where one with its holes is read: 100 x 100 from (0, 0); 10 x 10 from (35, 35)"},
		{"no area", drawing(square(0, 0, 100), lightPolyline(1, [3]float64{10, 10, 0}, [3]float64{20, 10, 0})), 0, "a loop encloses no area: 10 x 0 from (10, 10)"},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			loops, unit, err := readDXF(tt.in)
			fault := asFileError(t, err)
			assert.Contains(t, fault.Msg, tt.want)
			assert.Equal(t, tt.line, fault.Line)
			assert.Nil(t, loops)
			assert.Zero(t, unit)
		})
	}
}
