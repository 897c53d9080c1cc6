package lift

import (
	"cmp"
	"fmt"
	"math"
	"slices"

	"github.com/go-gl/mathgl/mgl64"

	"plumbhook/geom"
)

// grain is what places of edges are rounded to on paper, mm: a tenth of a fine
// line. Pieces whose ends fall on one place are joined.
const grain = 0.01

// mostStrokes is how many pieces of edges are put on one drawing.
const mostStrokes = 20_000

// place is a place on paper in grains.
type place [2]int32

func placeOf(q mgl64.Vec2) place {
	return place{int32(math.Round(q[0] / grain)), int32(math.Round(q[1] / grain))}
}

// on returns the place in mm.
func (p place) on() mgl64.Vec2 {
	const across = 1 / grain
	return mgl64.Vec2{float64(p[0]) / across, float64(p[1]) / across}
}

func (p place) to(q place) float64 { return q.on().Sub(p.on()).Len() }

// stroke is a piece of an edge on paper.
type stroke struct {
	a, b place
	mesh int
}

// other is the end that is not p.
func (s stroke) other(p place) place {
	if p == s.a {
		return s.b
	}
	return s.a
}

// parts puts what is seen of the parts on paper: no line twice, and pieces that
// meet as one.
func (b *board) parts(seen []geom.Seen) {
	strokes := b.strokes(seen)
	if more := len(strokes) - mostStrokes; more > 0 {
		slices.SortStableFunc(strokes, func(s, t stroke) int { return cmp.Compare(t.a.to(t.b), s.a.to(s.b)) })
		strokes = strokes[:mostStrokes]
		b.notes = append(b.notes, fmt.Sprintf("The %d shortest of its lines are left out.", more))
	}
	for start := 0; start < len(strokes); {
		end, of := start+1, b.kindOf(strokes[start].mesh)
		for end < len(strokes) && b.names[strokes[end].mesh] == b.names[strokes[start].mesh] && b.kindOf(strokes[end].mesh) == of {
			end++
		}
		for _, line := range chained(strokes[start:end]) {
			b.add(Mark{Kind: "line", Of: of, At: straightened(line), Part: b.names[strokes[start].mesh]})
		}
		start = end
	}
}

// kindOf says what the lines of a mesh are of.
func (b *board) kindOf(mesh int) string {
	if mesh >= b.solids {
		return ofHole
	}
	return ofPart
}

// strokes rounds the pieces and leaves out those that lie on others.
func (b *board) strokes(seen []geom.Seen) []stroke {
	var out []stroke
	drawn := covers{}
	for _, e := range seen {
		s := stroke{placeOf(b.on(e.From)), placeOf(b.on(e.To)), e.Mesh}
		if s.a == s.b || !drawn.add(s) {
			continue
		}
		out = append(out, s)
	}
	return out
}

// covers are the stretches that are drawn, by the line that they lie on.
type covers map[[2]int32][][2]float64

// add takes a stroke in; false where one stretch that is drawn holds all of it.
func (c covers) add(s stroke) bool {
	const near = 2 * grain
	a, b := s.a.on(), s.b.on()
	way := b.Sub(a).Normalize()
	if way[0] < 0 || way[0] == 0 && way[1] < 0 {
		way = way.Mul(-1)
	}
	// Turn and offset of the line that it lies on, in steps that a short
	// stroke's rounding stays within.
	line := [2]int32{int32(math.Round(math.Atan2(way[1], way[0]) * 200)), int32(math.Round((way[0]*a[1] - way[1]*a[0]) / (5 * grain)))}
	from, to := min(a.Dot(way), b.Dot(way)), max(a.Dot(way), b.Dot(way))
	for _, have := range c[line] {
		if from >= have[0]-near && to <= have[1]+near {
			return false
		}
	}
	c[line] = append(c[line], [2]float64{from, to})
	return true
}

// chained joins strokes that meet, from loose ends and forks first.
func chained(strokes []stroke) [][]place {
	at := map[place][]int{}
	for i, s := range strokes {
		at[s.a], at[s.b] = append(at[s.a], i), append(at[s.b], i)
	}
	used := make([]bool, len(strokes))
	var out [][]place
	follow := func(i int, from place) {
		line := []place{from}
		for i >= 0 {
			used[i] = true
			from = strokes[i].other(from)
			line = append(line, from)
			i = slices.IndexFunc(at[from], func(k int) bool { return !used[k] })
			if i >= 0 {
				i = at[from][i]
			}
		}
		out = append(out, line)
	}
	for _, ends := range []bool{true, false} {
		for i, s := range strokes {
			for _, p := range []place{s.a, s.b} {
				if !used[i] && (!ends || len(at[p]) != 2) {
					follow(i, p)
				}
			}
		}
	}
	return out
}

// straightened leaves out places that lie on the way from those before to those
// after, to within a small part of a line's width: the method of Douglas and
// Peucker, 1973 (from memory).
func straightened(line []place) []mgl64.Vec2 {
	const off = 0.02 // mm
	keep := make([]bool, len(line))
	keep[0], keep[len(line)-1] = true, true
	var split func(i, j int)
	split = func(i, j int) {
		a, b := line[i].on(), line[j].on()
		far, most := -1, off
		for k := i + 1; k < j; k++ {
			if d := awayFrom(line[k].on(), a, b); d > most {
				far, most = k, d
			}
		}
		if far >= 0 {
			keep[far] = true
			split(i, far)
			split(far, j)
		}
	}
	split(0, len(line)-1)
	var out []mgl64.Vec2
	for i, p := range line {
		if keep[i] {
			out = append(out, p.on())
		}
	}
	return out
}

// awayFrom is the distance of a place from a stretch.
func awayFrom(p, a, b mgl64.Vec2) float64 {
	along := b.Sub(a)
	t := 0.0
	if l := along.Dot(along); l > 0 {
		t = min(1, max(0, p.Sub(a).Dot(along)/l))
	}
	return p.Sub(a.Add(along.Mul(t))).Len()
}
