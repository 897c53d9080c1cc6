package takeoff

import (
	"strings"

	"plumbhook/geom"
	"plumbhook/units"
)

// Weighing is what load cells under the load, or the supports of a load on
// scales, read at one time.
type Weighing struct {
	Name    string
	Cells   []Reading
	Tare    units.Mass // rigging and packing on the cells; its place is not known, it counts as standing at the CG
	Without []string   // parts and allowances that were not on
	Up      geom.Vec   // of length 1: where up was, in the load's own axes
	Line    int

	// How well the rest is known, as limits; zero: taken as exact.
	Places       float64  // m: of the place of each cell, each way, each on its own
	About        geom.Vec // the axis of the tilt, in the load's own axes
	TiltAccuracy float64  // radians, about it
}

// Reading is one cell or support.
type Reading struct {
	Name     string
	At       geom.Vec   // m, in the load's own axes, where the load stands on it
	Reads    units.Mass // may be a little below zero, within the accuracy
	Accuracy units.Mass // the reading may be off by so much each way: a limit and no sigma
}

// WeighingResult is what weighings and take-off come to together.
type WeighingResult struct {
	Shown []Shown // straight from the cells, for each set of parts that was weighed

	Weight      units.Mass // of the whole load, take-off and cells together
	WeightSigma units.Mass // standard deviation
	CG, CGSigma geom.Vec   // m
	Parts       []PartUpdate

	Cells    []CellCheck
	Apart    []Apart // take-off against cells, by weighing: weight, then CG along each axis that the cells show
	Together float64 // all readings at once, in standard deviations of one figure; below zero: nearer than chance
	Sigmas   float64 // the greatest of Apart, Cells and Together
	Conflict bool    // Sigmas is above 3: the take-off within its ranges can't be what stood on the cells
	Text     string
	Lines    []string // of a load file: the whole load as one weighed part; none where there is a conflict
}

// Shown is what the weighings of one set of parts tell without the take-off.
type Shown struct {
	Of, Without     []string // the weighings, by name; the parts that were not on
	Read, ReadSigma units.Mass
	ReadCG          geom.Vec // m, along the axes that are known; zero along the others
	ReadCGSigma     geom.Vec // m
	Known           [3]bool  // the CG along x, y, z
}

// PartUpdate is what the weighings make of the mass of a part, all copies
// together, or of an allowance.
type PartUpdate struct {
	Name                 string
	Before, After, Sigma units.Mass
	Beyond               bool // After lies outside the low to high of the take-off
}

// CellCheck tells of one cell whether its reading fits the take-off and the
// other cells.
type CellCheck struct {
	Weighing, Cell string
	Off            units.Mass // how much more it reads than fits best, if it alone is wrong
	Sigmas         float64    // Off in its own standard deviations
}

// Apart is how far a weighing and the take-off are from each other.
type Apart struct {
	Weighing, What string // weight, or CG along an axis
	By             float64
	Sigmas         float64 // of take-off and cells together, the cells reading more: above zero
}

// item is a part or an allowance as the least squares see it: what it weighs
// (kg) and where its CG is, at cg ± half along each axis (m).
type item struct {
	name            string
	cg, half        geom.Vec
	best, low, high float64
}

// AsWeighed folds the load's weighings into its take-off. w is what Weigh
// said. Without weighings there is nothing to fold in, and ok is false.
func (l *Load) AsWeighed(w Weighed) (result WeighingResult, ok bool, err error) {
	if len(l.Weighings) == 0 {
		return result, false, nil
	}
	result, err = FoldIn(l.items(w), l.Weighings)
	return result, err == nil, err
}

// items lists the parts and the allowances of a load.
func (l *Load) items(w Weighed) []item {
	var all []item
	for i, p := range w.Parts {
		one := item{name: p.Name, cg: p.CG, best: float64(p.Best), low: float64(p.Low), high: float64(p.High)}
		for _, s := range l.Parts[i].spots() { // copies may be off together
			for k := range 3 {
				one.half[k] = max(one.half[k], s.half[k])
			}
		}
		all = append(all, one)
	}
	for _, a := range w.Allowances {
		one := item{name: a.Name, cg: a.CG, best: float64(a.Best), low: float64(a.Low), high: float64(a.High)}
		for k := range 3 {
			one.half[k] = max(a.Box.Max[k]-a.CG[k], a.CG[k]-a.Box.Min[k], 0)
		}
		all = append(all, one)
	}
	return all
}

// off tells whether a part was not on when weighed: it is named, or it is of a
// sub-assembly or the contents of a vessel that is named.
func (w Weighing) off(part string) bool {
	for _, name := range w.Without {
		if part == name || part == name+contentsWord || strings.HasPrefix(part, name+" / ") || strings.HasPrefix(part, name+", copy ") || strings.HasPrefix(part, name+contentsWord+", copy ") {
			return true
		}
	}
	return false
}
