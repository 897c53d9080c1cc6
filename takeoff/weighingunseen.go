package takeoff

import (
	"fmt"
	"math"
	"slices"
	"strconv"
	"strings"
)

// leastShare is a share of an unseen pattern that is rounding, beside one of 1.
const leastShare = 1e-6

// notSeen says, of each weighing, how its readings may differ while weight and
// CG stay as they are.
func (f *fold) notSeen() string {
	var b strings.Builder
	for _, w := range f.weighings {
		shares, ways := w.unseen()
		switch {
		case ways == 1:
			fmt.Fprintf(&b, "Not seen by the cells (%s): %s. ", w.Name, w.unseenText(shares))
		case ways > 1:
			fmt.Fprintf(&b, "Not seen by the cells (%s): %d ways in which %s can share the load otherwise, as on uneven support, and leave weight and CG as they are. ", w.Name, ways, strings.Join(w.names(), ", "))
		}
	}
	return b.String()
}

func (s onCells) names() []string {
	var names []string
	for _, c := range s.Cells {
		names = append(names, c.Name)
	}
	return names
}

// unseen returns how many independent patterns of the readings change nothing in
// the weighing's equations, and one of them where there is just one, its greatest
// share 1. A stiff load on uneven support shifts its load so: Σt = 0 and
// Σt·(p·e) = 0 for each direction e that the cells tell of, the null space of
// these equations. The rows are made square to each other (Gram and Schmidt); what
// is left of a cell without its parts along the rows is in the null space.
// Source: balance of a rigid body; linear algebra, textbook.
func (s onCells) unseen() (shares []float64, ways int) {
	n := len(s.Cells)
	even := make([]float64, n)
	for i := range even {
		even[i] = 1
	}
	rows := [][]float64{ofLength1(even)}
	for _, e := range s.directions() {
		row := make([]float64, n)
		for i, c := range s.Cells {
			row[i] = e.Dot(c.At.Sub(s.about))
		}
		rows = append(rows, ofLength1(clearOf(row, rows)))
	}
	if ways = n - len(rows); ways != 1 {
		return nil, ways
	}
	for i := range n {
		one := make([]float64, n)
		one[i] = 1
		if left := clearOf(one, rows); shares == nil || greatest(left) > greatest(shares) {
			shares = left
		}
	}
	most := greatest(shares)
	for i := range shares {
		shares[i] /= most
	}
	return shares, ways
}

// clearOf returns what is left of a list without its parts along rows of length
// 1 that are square to each other; taken twice, as rounding asks.
func clearOf(list []float64, rows [][]float64) []float64 {
	left := slices.Clone(list)
	for range 2 {
		for _, row := range rows {
			along := 0.0
			for i, x := range row {
				along += x * left[i]
			}
			for i, x := range row {
				left[i] -= along * x
			}
		}
	}
	return left
}

func ofLength1(list []float64) []float64 {
	sum := 0.0
	for _, x := range list {
		sum += x * x
	}
	for i := range list {
		list[i] /= math.Sqrt(sum)
	}
	return list
}

// greatest returns the greatest size in a list.
func greatest(list []float64) float64 {
	most := 0.0
	for _, x := range list {
		most = max(most, math.Abs(x))
	}
	return most
}

// unseenText tells a pattern in words: which cells may read more and which less.
func (s onCells) unseenText(shares []float64) string {
	least, first := math.Inf(1), 0.0
	for _, x := range shares {
		if math.Abs(x) < leastShare {
			continue
		}
		if least = min(least, math.Abs(x)); first == 0 {
			first = x
		}
	}
	var names, ratios [2][]string // of those that read more, and less
	alike := true
	for i, x := range shares {
		if math.Abs(x) < leastShare {
			continue
		}
		side := 0
		if x*first < 0 {
			side = 1
		}
		names[side] = append(names[side], s.Cells[i].Name)
		ratios[side] = append(ratios[side], three(math.Abs(x)/least))
		alike = alike && math.Abs(x)/least < 1+leastShare
	}
	by := "as " + strings.Join(ratios[0], " : ") + " to " + strings.Join(ratios[1], " : ") + " (uneven support)"
	if alike {
		by = "all by as much (uneven support)"
	}
	if alike && len(names[0]) == 2 && len(names[1]) == 2 { // a parallelogram
		by = "all by as much (uneven support: the sum along a diagonal)"
	}
	return fmt.Sprintf("%s reading more and %s less, %s, leaves weight and CG as they are, and nothing here finds it",
		strings.Join(names[0], " and "), strings.Join(names[1], " and "), by)
}

// three prints a ratio to three figures.
func three(x float64) string { return strconv.FormatFloat(x, 'g', 3, 64) }
