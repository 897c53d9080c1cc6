package takeoff

import (
	"errors"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// badSheet is a sheet with exactly one fault. What is not a whole sheet stands
// after top, from row 3 on. The cells were counted by hand.
type badSheet struct {
	name, text string
	at         string // the cell, or line:column of a text that is no sheet
	says, fix  string // pieces of what must be said
}

func (b badSheet) whole() string {
	if text, whole := strings.CutPrefix(b.text, "SHEET"); whole {
		return text
	}
	return top + b.text + "\n"
}

var badSheets = []badSheet{
	// The sheet as a whole.
	{"empty", "SHEET", "A1", "no header row", "plumbhook new --sheet"},
	{"prose", "SHEETsome words, and others\n", "A1", "no header row", "mark, quantity, size"},
	{"not UTF-8", "SHEETmark,size\xff\n", "1:10", "byte 0xff is not UTF-8", "UTF-8"},
	{"open quote", "SHEETmark,size,x,y,z\n\"P1,2,3,4,5\n", "2:13", "not readable as CSV", "double each quote"},
	{"no rows", "SHEET" + top, "A2", "no parts under the header", "a row for each part"},

	// Columns.
	{"unknown column", "SHEETmark,size,material,x,y,z,colour\n", "G1", `unknown column "colour"`, "a sheet has: mark, quantity"},
	{"misspelt column", "SHEETmark,size,materiel,x,y,z\n", "C1", `unknown column "materiel"`, "did you mean `material`?"},
	{"column twice", "SHEETmark,size,x,y,z,cg x\n", "F1", "the column `x` is here twice, first in C1", "keep one"},
	{"unit that is none", "SHEETmark,size (furlong),x,y,z\n", "B1", `"furlong" is not a unit of the column`, "mm, cm, m, in or ft"},
	{"mass in millimetres", "SHEETmark,weight (mm),x,y,z\n", "B1", `"mm" is not a unit of the column`, "kg, t, lb"},
	{"weight per metre", "SHEETmark,unit weight (kg/m),x,y,z\n", "B1", `"kg/m" is not a unit`, "kg, t, lb"},
	{"no z", "SHEETmark,weight (kg),x (mm),y (mm)\nP1,1,2,3\n", "A1", "no column `z`", "centre of gravity is not known"},
	{"no size and no weight", "SHEETmark,x (mm),y (mm),z (mm)\nP1,1,2,3\n", "A1", "no column `size` and no `weight`", "a size and a material"},
	{"no mark", "SHEETweight (kg),x (mm),y (mm),z (mm)\n1,1,2,3\n", "A1", "no column `mark`", "what each row is"},
	{"units against the header", "SHEETmark,weight (kg),x (mm),y (mm),z (mm)\n,lb,,,\nP1,1,2,3,4\n", "B2", "the unit lb, but the header of the column says kg", "keep one"},
	{"factor above below one", "SHEETdynamic,0.9\nmark,weight (kg),x (mm),y (mm),z (mm)\nP1,1,2,3,4\n", "B1", "must be from 1 to 10", "such as 1.1"},
	{"factor above twice", "SHEETdynamic,1.1\ndynamic,1.2\nmark,weight (kg),x (mm),y (mm),z (mm)\nP1,1,2,3,4\n", "A2", "is here twice", "keep one"},
	{"units above", "SHEETunits,furlong\nmark,weight (kg),x (mm),y (mm),z (mm)\nP1,1,2,3,4\n", "B1", "furlong", "mm, cm, m"},
	{"unknown material above", "SHEETmaterial,stele\nmark,size,x,y,z\n,mm,mm,mm,mm\nP1,1 x 1 x 1,2,3,4\n", "B1", "unknown material", "did you mean"},

	// Cells.
	{"formula", "P1,1,base,=A1,,,,,0,0,1", "D3", "the cell begins with =", "the value that it comes to"},
	{"error of a spreadsheet", "P1,1,base,,,,,0,0,#REF!,1", "J3", "#REF!", "mend the formula"},
	{"more cells than columns", "P1,1,base,1 x 1 x 1,,,,0,0,0,1,5", "L3", `"5" stands in a column without a name`, "decimals with a point"},
	{"decimal comma", "P1,1,base,1 x 1 x 1,,,,\"1,5\",0,0,", "H3", "decimal comma", "1.5"},
	{"no unit anywhere", "SHEETmark,weight,x (mm),y (mm),z\nP1,5 kg,1,2,3\n", "E2", "no unit on the length", "in the header of the column"},
	{"no unit of the weight", "SHEETmark,weight,x (mm),y (mm),z (mm)\nP1,5,1,2,3\n", "B2", "no unit on the mass", "kg"},
	{"half a piece", "P1,1.5,base,1 x 1 x 1,,,,0,0,0,", "B3", "a whole number from 1 to 1000", "whole number"},
	{"no quantity", "P1,,base,1 x 1 x 1,,,,0,0,0,", "B3", "the quantity is blank", "1 for one"},
	{"no x", "P1,1,base,1 x 1 x 1,,,,,0,0,", "H3", "x is blank", "where its centre is"},
	{"no size and no weight in a row", "P1,1,base,,,,,0,0,0,", "D3", "no size and no weight", "a size and a material"},
	{"weight of nothing", "P1,1,base,,,,,0,0,0,0", "K3", "must be more than zero", "260 kg"},
	{"unknown material", "P1,1,base,1 x 1 x 1,stele,,,0,0,0,", "E3", "unknown material", "did you mean"},
	{"no material", "SHEETmark,size (mm),material,x (mm),y (mm),z (mm)\nP1,1 x 1 x 1,,0,0,0\n", "C2", "the row has no material", "above the header"},
	{"along what", "P1,1,rod,rod 50,,100,w,0,0,0,", "G3", `"w" is not one of the words`, "x, y, z"},

	// Sizes.
	{"two sizes", "P1,1,base,100 x 20,,,,0,0,0,", "D3", "a size of 2 lengths where 3 are expected", "2400 x 1200 x 20"},
	{"size of nothing", "P1,1,base,100 x 0 x 20,,,,0,0,0,", "D3", "more than zero", "sizes"},
	{"misspelt form", "P1,1,base,plte 100 x 10 x 20,,,,0,0,0,", "D3", "is not understood", "did you mean `plate`?"},
	{"form without sizes", "P1,1,rod,rod,,100,,0,0,0,", "D3", `no sizes after the word "rod"`, "`rod 50` and a length"},
	{"rod without a length", "P1,1,rod,rod 50,,,z,0,0,0,", "F3", "this size needs a length", "a length, such as"},
	{"bolt", "B1,8,bolt,M20x60,,,,0,0,0,", "D3", `unknown size "M20x60"`, "`rod 50` and a length"},
	{"bolt with a length", "B1,8,bolt,M20x60,,60,,0,0,0,", "D3", `unknown size "M20x60"`, "the weight"},
	{"metric name of a US shape", "B1,1,beam,W310x38.7,,6000,x,0,0,0,", "D3", `unknown section "W310x38.7"`, "the inch name"},
	{"hollow section without a wall", "B1,1,beam,RHS 200x100,,,x,0,0,0,", "D3", "the wall is missing", "RHS 200x100x8"},
	{"tube without a wall", "T1,1,tube,RO 120,,400,z,0,0,0,", "D3", "a size of 1 lengths where 2 are expected", "x"},
	{"length that is no side", "P1,1,base,100 x 200 x 300,,400,,0,0,0,", "F3", "none of the sizes", "correct one"},
	{"tube all wall", "P1,1,tube,tube 100 x 60,,400,z,0,0,0,", "D3", "does not fit", "50 mm"},
	{"envelope without weight", "P1,1,pump,envelope 100 x 60 x 50,,,,0,0,0,", "D3", "an envelope without a weight", "`weight`"},
}

func TestBadSheets(t *testing.T) {
	for _, tt := range badSheets {
		t.Run(tt.name, func(t *testing.T) {
			l, err := readSheet(tt.whole(), Options{})
			require.Error(t, err)
			require.Nil(t, l)
			var p Problems
			require.True(t, errors.As(err, &p))
			require.Len(t, p, 1, "want this problem alone:\n%v", p)
			assert.True(t, strings.HasPrefix(p[0].String(), "take-off.csv:"+tt.at+": "), "place of %v, want %s", p[0], tt.at)
			assert.Contains(t, p[0].Text, tt.says)
			assert.Contains(t, p[0].Fix, tt.fix)
		})
	}
}

// TestAllProblemsOfASheet sees that one reading finds them all, in the order of
// the rows, across blank lines and cells of several lines.
func TestAllProblemsOfASheet(t *testing.T) {
	_, err := readSheet(top+"P1,1,base,1 x 1,,,,0,0,0,\n\nP2,1,\"two\nlines\",1 x 1 x 1,stele,,,0,0,0,\nP3,0,base,1 x 1 x 1,,,,0,,0,\n", Options{})
	var p Problems
	require.True(t, errors.As(err, &p))
	var cells []string
	for _, one := range p {
		cells = append(cells, one.Cell)
	}
	assert.Equal(t, []string{"D3", "E5", "B6", "I6"}, cells)
}
