package geom

import (
	"cmp"
	"fmt"
	"math"
	"slices"
	"strings"

	"github.com/go-gl/mathgl/mgl64"
)

// nest puts the outline first: the loop that holds all others.
func nest(loops []Loop) ([]Loop, error) {
	if len(loops) > mostLoops {
		return nil, &FileError{Msg: fmt.Sprintf("the drawing has %d closed loops, more than %d", len(loops), mostLoops), Fix: "save the outline of one part alone"}
	}
	boxes, areas := make([]Extent, len(loops)), make([]float64, len(loops))
	for i, l := range loops {
		boxes[i], areas[i] = l.box(), math.Abs(l.Area())
		if size := boxes[i].Diagonal(); !(areas[i] > joinGap*size*size) {
			return nil, &FileError{Msg: "a loop encloses no area: " + boxText(boxes[i]), Fix: "take it out, or lines that are drawn twice, and save again"}
		}
	}
	var outer []int
	for i, l := range loops {
		depth := 0
		for j := range loops {
			if j < i && math.Abs(areas[i]-areas[j]) <= joinGap*areas[i] && sameBox(boxes[i], boxes[j]) {
				return nil, &FileError{Msg: "a loop is drawn twice: " + boxText(boxes[i]), Fix: "take one of the two out, and save again"}
			}
			if i != j && holds(boxes[j], boxes[i]) && loops[j].contains(l.Points[0]) {
				depth++
			}
		}
		if depth%2 == 0 {
			outer = append(outer, i)
		}
	}
	if len(outer) != 1 {
		return nil, outlinesFault(outer, boxes)
	}
	first := outer[0]
	return append([]Loop{loops[first]}, slices.Delete(slices.Clone(loops), first, first+1)...), nil
}

// mostLoops is the most loops that a drawing may have.
const mostLoops = 5000

func outlinesFault(outer []int, boxes []Extent) error {
	slices.SortStableFunc(outer, func(i, j int) int { return cmp.Compare(boxes[j].Diagonal(), boxes[i].Diagonal()) })
	var texts []string
	for _, i := range outer[:min(len(outer), mostPlaces)] {
		texts = append(texts, boxText(boxes[i]))
	}
	if more := len(outer) - len(texts); more > 0 {
		texts = append(texts, fmt.Sprintf("and %d more", more))
	}
	if len(outer) == 0 {
		return &FileError{Msg: "no loop holds the others: loops are drawn over each other", Fix: "take out what is drawn twice, and save again"}
	}
	return &FileError{Msg: fmt.Sprintf("the drawing holds %d outlines, where one with its holes is read: %s", len(outer), strings.Join(texts, "; ")),
		Fix: "save the outline of each part in a file of its own, without frame and title block"}
}

// sameBox tells whether two boxes are the same but for the gap.
func sameBox(a, b Extent) bool {
	gap := joinGap * a.Diagonal()
	return a.Min.Sub(b.Min).Len() <= gap && a.Max.Sub(b.Max).Len() <= gap
}

// box is the loop's extent, arcs included.
func (l Loop) box() Extent {
	var e Extent
	for axis := range 2 {
		var dir mgl64.Vec2
		dir[axis] = 1
		low, high := math.Inf(1), math.Inf(-1)
		for _, s := range l.spans() {
			low, high = min(low, -s.reach(dir.Mul(-1))), max(high, s.reach(dir))
		}
		e.Min[axis], e.Max[axis] = low, high
	}
	return e
}

// holds tells whether a box along the axes has another within it.
func holds(outer, inner Extent) bool {
	return outer.Min[0] <= inner.Min[0] && outer.Min[1] <= inner.Min[1] && outer.Max[0] >= inner.Max[0] && outer.Max[1] >= inner.Max[1]
}

// boxText says where a loop is and how large.
func boxText(e Extent) string {
	size := e.Size()
	return fmt.Sprintf("%.6g x %.6g from (%.6g, %.6g)", size[0], size[1], e.Min[0], e.Min[1])
}
