package report

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"pgregory.net/rapid"

	"plumbhook/geom"
	"plumbhook/lift"
)

func viewOf(w lift.Weight, picks []lift.Pick) []string {
	p := newPage(Options{})
	p.planView(w, picks)
	return strings.Split(p.b.String(), "\n")
}

// A load of 2 m by 1 m, its CG a quarter along: at 50 mm a column it is 41 columns
// and 11 lines, and the CG stands in column 10, in the middle line.
func TestPlanViewIsToScale(t *testing.T) {
	w := lift.Weight{CGM: geom.Vec{0.5, 0.5, 0}}
	w.BoxM.Max = geom.Vec{2, 1, 1}
	lines := viewOf(w, []lift.Pick{{Name: "A", AtM: geom.Vec{0, 1, 1}}, {Name: "south end", AtM: geom.Vec{2, 0, 1}}})
	assert.Equal(t, "    A───────────────────────────────────────┐", lines[3])
	assert.Equal(t, "    │         +                             │", lines[8])
	assert.Equal(t, "    └───────────────────────────────────────2", lines[13])
	assert.Contains(t, strings.ReplaceAll(lines[15], glue, " "), "One column is 50 mm (1-15/16\")")
	assert.Contains(t, strings.Join(strings.Fields(strings.ReplaceAll(strings.Join(lines, " "), glue, " ")), " "), "Picks: 2 south end.")
}

// Whatever the load's size and place, the drawing stays within its room, the CG is
// on it, and each place in the region of the CG falls on a shaded character.
func TestPlanViewOfAnyLoad(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		number := func(name string, low, high float64) float64 { return rapid.Float64Range(low, high).Draw(t, name) }
		low := geom.Vec{number("x", -100, 100), number("y", -100, 100), 0}
		size := geom.Vec{number("length", 1e-3, 100), number("width", 1e-3, 100), 1}
		var w lift.Weight
		w.BoxM.Min, w.BoxM.Max = low, low.Add(size)
		cg := low.Add(geom.Vec{size[0] * number("cg x", 0, 1), size[1] * number("cg y", 0, 1), 0.5})
		w.CGM = cg
		across, up := number("region", 1e-6, 1), number("region up", 1e-6, 1)
		w.CGRegion.PlanM = [][2]float64{{cg[0] - across, cg[1]}, {cg[0], cg[1] - up}, {cg[0] + across, cg[1]}, {cg[0], cg[1] + up}}
		for _, l := range viewOf(w, nil) {
			if length(l) > leastWidth {
				t.Fatalf("%d characters: %s", length(l), l)
			}
		}
		v := newView(cg[0]-across, cg[1]-up, cg[0]+across, cg[1]+up)
		if len(v.cells) > viewLines || len(v.cells[0]) > viewColumns {
			t.Fatalf("%d lines of %d columns", len(v.cells), len(v.cells[0]))
		}
		f := number("part", -1, 1)
		x, y := cg[0]+f*across, cg[1]+(1-max(f, -f))*up*number("part up", -1, 1)
		line, column := v.cell(x, y)
		line, column = min(max(line, 0), len(v.cells)-1), min(max(column, 0), len(v.cells[0])-1)
		mx, my := v.middle(line, column)
		if !inside(w.CGRegion.PlanM, mx, my, v.column/2*(1+1e-6)) {
			t.Fatalf("%v, %v is in the region, its character is not", x, y)
		}
	})
}
