package report

import (
	"fmt"
	"math"
	"strings"

	"plumbhook/lift"
)

// The most that a drawing in characters takes up: it stands between figures, and
// must stay together on a page.
const (
	viewColumns = 56
	viewLines   = 18
)

// view is a drawing in characters, from above: x to the right, y up. A line is
// as high as two columns are wide, which is what most screens and printers do.
type view struct {
	left, low float64 // m, of the lower left corner
	column    float64 // m
	cells     [][]rune
}

// newView makes room for a rectangle, at a scale of 1, 2 or 5 times a power of ten
// metres a column.
func newView(minX, minY, maxX, maxY float64) view {
	least := max((maxX-minX)/(viewColumns-1), (maxY-minY)/(2*(viewLines-1)), 1e-6)
	column := math.Pow(10, math.Floor(math.Log10(least)))
	for _, step := range []float64{2, 2.5, 2} {
		if column >= least*(1-1e-9) {
			break
		}
		column *= step
	}
	v := view{left: minX - column/2, low: minY - column, column: column}
	wide, high := int((maxX-v.left)/column)+1, int((maxY-v.low)/(2*column))+1
	v.cells = make([][]rune, high)
	for i := range v.cells {
		v.cells[i] = []rune(strings.Repeat(" ", wide))
	}
	return v
}

// cell returns the line and column of a place; they may be off the drawing.
func (v view) cell(x, y float64) (line, column int) {
	return len(v.cells) - 1 - int(math.Floor((y-v.low)/(2*v.column))), int(math.Floor((x - v.left) / v.column))
}

// middle is the place in m that the middle of a cell stands for.
func (v view) middle(line, column int) (x, y float64) {
	return v.left + (float64(column)+0.5)*v.column, v.low + (float64(len(v.cells)-1-line)+0.5)*2*v.column
}

// put sets one character, if it is on the drawing.
func (v view) put(x, y float64, c rune) {
	line, column := v.cell(x, y)
	if line >= 0 && line < len(v.cells) && column >= 0 && column < len(v.cells[line]) {
		v.cells[line][column] = c
	}
}

// frame draws a rectangle.
func (v view) frame(minX, minY, maxX, maxY float64) {
	bottom, left := v.cell(minX, minY)
	top, right := v.cell(maxX, maxY)
	top, right = max(top, 0), min(right, len(v.cells[0])-1) // the last digit may put them one off
	for c := left; c <= right; c++ {
		v.cells[top][c], v.cells[bottom][c] = '─', '─'
	}
	for l := top; l <= bottom; l++ {
		v.cells[l][left], v.cells[l][right] = '│', '│'
	}
	v.cells[top][left], v.cells[top][right] = '┌', '┐'
	v.cells[bottom][left], v.cells[bottom][right] = '└', '┘'
}

// planView draws the load's box from above with its CG and the picks, and under
// it, larger, the region in which the CG can be.
func (p *page) planView(w lift.Weight, picks []lift.Pick) {
	low, high := w.BoxM.Min, w.BoxM.Max
	minX, minY, maxX, maxY := low[0], low[1], high[0], high[1]
	for _, pick := range picks {
		minX, maxX = min(minX, pick.AtM[0]), max(maxX, pick.AtM[0])
		minY, maxY = min(minY, pick.AtM[1]), max(maxY, pick.AtM[1])
	}
	if !(maxX-minX > 0) || !(maxY-minY > 0) {
		return // bare weights in a line have no plan
	}
	v := newView(minX, minY, maxX, maxY)
	v.frame(low[0], low[1], high[0], high[1])
	var names []string
	for i, pick := range picks {
		sign, name := pickSign(i, pick.Name)
		v.put(pick.AtM[0], pick.AtM[1], sign)
		if name != "" {
			names = append(names, name)
		}
	}
	v.put(w.CGM[0], w.CGM[1], '+')
	p.drawn(v, "From above, x to the right, y up: the load's box, + its CG"+ending(len(picks) > 0, ", and the picks"), names)
	p.regionView(w)
}

// ending is a text if it is wanted.
func ending(wanted bool, text string) string {
	if wanted {
		return text
	}
	return ""
}

// pickSign is the character that stands for a pick, and what the key says of it:
// nothing for a pick whose name is that character.
func pickSign(i int, name string) (rune, string) {
	if r := []rune(name); len(r) == 1 {
		return r[0], ""
	}
	sign := rune('1' + i)
	return sign, string(sign) + " " + glued(name)
}

// regionView draws the region in which the CG can be, from above.
func (p *page) regionView(w lift.Weight) {
	plan := w.CGRegion.PlanM
	if len(plan) < 3 {
		return
	}
	minX, minY, maxX, maxY := math.Inf(1), math.Inf(1), math.Inf(-1), math.Inf(-1)
	for _, c := range plan {
		minX, maxX = min(minX, c[0]), max(maxX, c[0])
		minY, maxY = min(minY, c[1]), max(maxY, c[1])
	}
	v := newView(minX, minY, maxX, maxY)
	for l := range v.cells {
		for c := range v.cells[l] {
			if x, y := v.middle(l, c); inside(plan, x, y, v.column/2) {
				v.cells[l][c] = '░'
			}
		}
	}
	v.put(w.CGM[0], w.CGM[1], '+')
	p.drawn(v, "The same way, larger: where the CG can be, + the best CG", nil)
}

// inside says whether a place is in a convex polygon, or so near it in m that its
// character has a part in it: the region is shown no smaller than it is.
func inside(plan [][2]float64, x, y, near float64) bool {
	for i, a := range plan {
		b := plan[(i+1)%len(plan)]
		dx, dy := b[0]-a[0], b[1]-a[1]
		side := math.Hypot(dx, dy)
		if side > 0 && (dx*(y-a[1])-dy*(x-a[0]))/side < -near*(math.Abs(dy)+2*math.Abs(dx))/side {
			return false
		}
	}
	return true
}

// drawn prints a drawing with its title, scale and key.
func (p *page) drawn(v view, title string, names []string) {
	p.sub(title)
	for _, line := range v.cells {
		p.line("    " + string(line))
	}
	p.gap()
	scale := fmt.Sprintf("One column is %s, one line %s.", glued(p.length(v.column)), glued(p.length(2*v.column)))
	if len(names) > 0 {
		scale += " Picks: " + strings.Join(names, ", ") + "."
	}
	p.hang("    ", scale)
}
