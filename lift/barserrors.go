package lift

import (
	"fmt"
	"math"

	"plumbhook/geom"
)

// legErrors is one way in which the lengths may be wrong.
type legErrors struct {
	by   []float64 // m, by leg
	name string
}

// lengthErrors are the ways in which the lengths may be wrong: each leg by
// itself long and short; all drops, and all top legs; and those on one side
// long with those on the other short, for eight sides: of the drops, of the top
// legs and of both. That tilts most. Where the file states no tolerance, and a
// leg of other length could matter, the usual one is taken.
func (p *plan) lengthErrors(b barRig, open bool, h *Header) []legErrors {
	by := make([]float64, len(b.links))
	some, usual := false, false
	for i, l := range b.links {
		by[i] = l.err.Plain + l.err.Part*b.tree.Links[i].Length
		if by[i] == 0 && (p.high() || open) {
			by[i], usual = usualError*b.tree.Links[i].Length, true
		}
		some = some || by[i] > 0
	}
	if !some {
		return nil
	}
	if usual {
		h.assume("no length tolerance of drops and top legs is stated, and it can matter here: each is taken as up to %g %% longer or shorter", usualError*100)
	}
	return b.errorCases(by)
}

// errorCases are the cases of lengthErrors for legs that are so far out.
func (b barRig) errorCases(by []float64) []legErrors {
	var all []legErrors
	seen := map[string]bool{}
	add := func(name string, sign func(int) float64) {
		e := legErrors{make([]float64, len(by)), name}
		for i := range by {
			e.by[i] = sign(i) * by[i]
		}
		if key := fmt.Sprint(e.by); !seen[key] {
			seen[key] = true
			all = append(all, e)
		}
	}
	sides := b.sides()
	for _, way := range []float64{1, -1} {
		word := map[float64]string{1: "long", -1: "short"}[way]
		for i, l := range b.links {
			add(l.words()+" "+word, func(k int) float64 { return way * is(k == i) })
		}
		for _, of := range legSets {
			add("all "+of.name+" "+word, func(k int) float64 { return way * is(of.has(b.links[k])) })
		}
	}
	for turn := range 8 {
		d := geom.Vec{math.Cos(float64(turn) * math.Pi / 4), math.Sin(float64(turn) * math.Pi / 4), 0}
		for _, of := range legSets {
			add(of.name+" toward "+compass(d)+" long, those opposite short", func(k int) float64 {
				return is(of.has(b.links[k])) * side(sides[k].Dot(d))
			})
		}
	}
	return all
}

// legSets are the legs that may be out together.
var legSets = []struct {
	name string
	has  func(barLink) bool
}{
	{"drops", func(l barLink) bool { return l.tier < 0 }},
	{"top legs", func(l barLink) bool { return l.tier >= 0 }},
	{"drops and top legs", func(barLink) bool { return true }},
}

// sides is where the lower end of each leg is in plan, from the middle of those
// of its kind.
func (b barRig) sides() []geom.Vec {
	at, mean, count := make([]geom.Vec, len(b.links)), [2]geom.Vec{}, [2]float64{}
	kind := func(l barLink) int { return int(is(l.tier >= 0)) }
	for i, l := range b.links {
		e := b.tree.Links[i].To
		at[i] = b.tree.Bodies[e.Body].Points[e.Point]
		mean[kind(l)] = mean[kind(l)].Add(at[i])
		count[kind(l)]++
	}
	for i, l := range b.links {
		at[i] = at[i].Sub(mean[kind(l)].Mul(1 / count[kind(l)]))
	}
	return at
}

func is(yes bool) float64 {
	if yes {
		return 1
	}
	return 0
}

// side is on which side of a middle a place is; 0: on it.
func side(x float64) float64 {
	if math.Abs(x) < sameSpot {
		return 0
	}
	return math.Copysign(1, x)
}

// words name a leg.
func (l barLink) words() string {
	if l.tier < 0 {
		return "drop to " + l.name
	}
	return "leg " + l.name
}
