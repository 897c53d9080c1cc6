package takeoff

import (
	"fmt"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// warnedOf returns the text of the one warning of a code; empty for none.
func warnedOf(t *testing.T, l *Load, code string) Warning {
	t.Helper()
	var found []Warning
	for _, w := range l.Warnings {
		if w.Code == code {
			found = append(found, w)
		}
	}
	require.LessOrEqual(t, len(found), 1, "said once: %v", found)
	if found == nil {
		return Warning{}
	}
	return found[0]
}

// A written inside that its part can't have round it. The shares by hand: of a
// space of 1000 × 1000 × 1000 moved 100 down into a floor of 100 a tenth, 0.1 m³
// or 100 kg of a liquid of 1000 kg/m³.
func TestInsideIsHeldAgainstItsPart(t *testing.T) {
	const (
		box   = "- {name: tank, weight: 500 kg, box: 1020 x 1020 x 1020, corner: [-10, -10, -10], status: weighed, contents: {fluid: {name: w, density: 1000 kg/m3, tolerance: 1 %}, volume: 100 l, inside: {"
		steel = "- {name: tank, box: 1200 x 1200 x 1100, corner: [-100, -100, -100], cuts: [{box: 1000 x 1000 x 1000, corner: [0, 0, 0]}], contents: {fluid: {name: w, density: 1000 kg/m3, tolerance: 1 %}, volume: 100 l, inside: {"
		floor = "- {name: tank, plate: 1000 x 1000 x 10, corner: [0, 0, -10], contents: {fluid: {name: w, density: 1000 kg/m3, tolerance: 1 %}, volume: 100 l, inside: {"
		walls = "- {name: ends, plate: 10 x 1000 x 1010, corner: [-10, 0, -10], count: 2, step: [1010, 0, 0]}\n- {name: sides, plate: 1020 x 10 x 1010, corner: [-10, -10, -10], count: 2, step: [0, 1010, 0]}\n"
	)
	tests := []struct{ name, part, inside, more, code, text string }{
		{"it fits", box, "box: 1000 x 1000 x 1000, corner: [0, 0, 0]", "", "", ""},
		{"as large as the part's box", box, "box: 1020 x 1020 x 1020, corner: [-10, -10, -10]", "", "", ""},
		{"out to one side", box, "box: 1000 x 1000 x 1000, corner: [500, 0, 0]", "", "contents-outside", `sticks out of the box of "tank" by 490 mm (1' 7-5/16") along +x`},
		{"out below", box, "box: 1000 x 1000 x 1000, corner: [0, 0, -100]", "", "contents-outside", "by 90 mm (3-9/16\") along -z"},
		{"larger", box, "box: 1100 x 1100 x 1100, corner: [-50, -50, -50]", "", "contents-outside", `is larger than the box of "tank", 1.331 m³ (47 ft³) in 1.061 m³`},
		{"in its pit", steel, "box: 1000 x 1000 x 1000, corner: [0, 0, 0]", "", "", ""},
		{"half a millimetre into the walls", steel, "box: 1001 x 1001 x 1000, corner: [-0.5, -0.5, 0]", "", "", ""},
		{"a tenth in the floor", steel, "box: 1000 x 1000 x 1000, corner: [0, 0, -100]", "", "contents-in-metal", "10 % of the inside that is written on line 5, 0.1 m³ (3.531 ft³), lies in the material of \"tank\""},
		{"on a floor between walls", floor, "box: 1000 x 1000 x 1000, corner: [0, 0, 0]", walls, "", ""},
		{"on a tray without its rims", floor, "box: 1000 x 1000 x 100, corner: [0, 0, 0]", "", "contents-outside", `is larger than the box of "tank", 0.1 m³ (3.531 ft³) in 0.01 m³`},
		{"over walls", floor, "box: 1000 x 1000 x 1500, corner: [0, 0, 0]", walls, "contents-outside", `sticks out of all the parts around it by 500 mm`},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			l := good(t, head+tt.part+tt.inside+"}}}\n"+tt.more)
			if tt.code == "" {
				assert.Empty(t, warnedOf(t, l, "contents-outside"))
				assert.Empty(t, warnedOf(t, l, "contents-in-metal"))
				return
			}
			w := warnedOf(t, l, tt.code)
			assert.Contains(t, w.Text, tt.text)
			assert.Contains(t, w.Fix, "`inside`")
			assert.False(t, w.Note)
		})
	}
}

// What no part can hold is an error: away from it, or of another unit.
func TestInsidesThatCannotBe(t *testing.T) {
	for _, tt := range []struct{ name, inside, text, fix string }{
		{"away from its part", "box: 900 x 900 x 900, corner: [4000, 0, 0]", `the inside lies 3.000 m (9' 10-1/8") from "tank"`, "axes of the load"},
		{"of another unit", "box: 10000 x 10000 x 10000, center: [500, 500, 500]", `the inside is 10 times as long as the box of "tank"`, "unit"},
	} {
		t.Run(tt.name, func(t *testing.T) {
			p := problemsOf(t, head+"- {name: tank, weight: 500 kg, box: 1000 x 1000 x 1000, corner: [0, 0, 0], status: weighed,\n   contents: {fluid: water, depth: 100, inside: {"+tt.inside+"}}}\n")
			require.Len(t, p, 1, "want this problem alone:\n%v", p)
			assert.Equal(t, "6:49", fmt.Sprintf("%d:%d", p[0].Line, p[0].Column))
			assert.Contains(t, p[0].Text, tt.text)
			assert.Contains(t, p[0].Fix, tt.fix)
		})
	}
}

// An inside that a state writes is looked at as well.
func TestInsideOfAStateIsHeldAgainstItsPart(t *testing.T) {
	l := good(t, head+`- {name: pit, weight: 500 kg, box: 1000 x 1000 x 500, corner: [0, 0, 0], status: weighed}
states: {full: {contents: {pit: {fluid: water, fill: 50 %, inside: {box: 1000 x 1000 x 500, corner: [0, 0, 200]}}}}}
`)
	assert.Contains(t, warnedOf(t, l, "contents-outside").Text, "by 200 mm (7-7/8\") along +z")
}

// A round inside in a drum with its cut, moved down into the floor: 9 mm of its
// height of 1000 are 0.9 %, which is not told; 30 mm, 3 %, are.
func TestRoundInsideInMetal(t *testing.T) {
	for down, told := range map[int]bool{0: false, 9: false, 30: true} {
		l := good(t, head+fmt.Sprintf("- {name: drum, cylinder: {diameter: 520, height: 1100}, at: [0, 0, 0], cuts: [{cylinder: {diameter: 500, height: 1050}, at: [0, 0, 50]}], "+
			"contents: {fluid: water, fill: 50 %%, inside: {cylinder: {diameter: 500, height: 1000}, at: [0, 0, %d]}}}\n", 50-down))
		w := warnedOf(t, l, "contents-in-metal")
		assert.Equal(t, told, w.Text != "", "%d mm", down)
		if told {
			assert.Contains(t, w.Text, "3 % of the inside")
		}
	}
}
