package lift

import (
	"fmt"
	"math"

	"plumbhook/geom"
	"plumbhook/rig"
	"plumbhook/takeoff"
	"plumbhook/units"
)

// LoadBending is how a slender load bends between its picks under its own
// weight, as a beam. Its strength is not checked.
type LoadBending struct {
	Axis     string     `json:"axis"`     // of the load, along which it is long
	LengthM  float64    `json:"length_m"` // of its box
	PicksM   [2]float64 `json:"picks_m"`  // along that axis, from the datum
	Sagging  Moment     `json:"sagging"`  // belly down, the underside pulled
	Hogging  Moment     `json:"hogging"`  // back up, the top pulled
	BestM    [2]float64 `json:"best_picks_m"`
	BestEnds [2]float64 `json:"best_picks_from_ends_m"` // from the ends of the box
	BestKNm  float64    `json:"best_moment_knm"`
}

// Moment is a greatest bending moment.
type Moment struct {
	KNm float64 `json:"moment_knm"`
	AtM float64 `json:"at_m"` // along the axis, from the datum
}

const (
	slender = 6.0  // times as long as wide and as high, the least that is called slender: common practice, no source
	oneLine = 0.02 // of the length: picks that are nearer along it stand in one line
)

// bending tells how a slender load bends between two picks, or two lines of
// them: at the sizing weight, each part's weight spread over its length.
func (p *plan) bending(f *Hanging) {
	box := p.drawn.extent()
	axis, across, ok := p.longAxis(box)
	if !ok {
		return
	}
	long := box.Max[axis] - box.Min[axis]
	x1, x2, ok := twoLines(p.ownPicks(), axis, oneLine*long)
	if !ok {
		return
	}
	beam := lineOf(p.load, axis, p.weight.Weight.SizingKg*across)
	bent, err := beam.Bending(x1, x2)
	if err != nil {
		return // the CG is not between the picks: refused for that
	}
	b := LoadBending{Axis: "xyz"[axis : axis+1], LengthM: long, PicksM: [2]float64{x1, x2},
		Sagging: Moment{bent.Sagging.Moment / 1000, bent.Sagging.At}, Hogging: Moment{bent.Hogging.Moment / 1000, bent.Hogging.At}}
	one, two, least, err := beam.BestPicks(box.Min[axis], box.Max[axis])
	if err != nil {
		return
	}
	b.BestM, b.BestEnds, b.BestKNm = [2]float64{one, two}, [2]float64{one - box.Min[axis], box.Max[axis] - two}, least.Greatest/1000
	f.Bending = &b
}

// bendingReason says how a slender load bends on picks, beside the least that it
// could; empty for other loads.
func bendingReason(f Hanging) string {
	if f.Posed == nil || f.Bending == nil {
		return ""
	}
	b := *f.Bending
	return fmt.Sprintf("as a beam it bends by up to %.4g kN·m under its own weight; the least would be %.4g kN·m, on picks %s and %s from its ends",
		max(b.Sagging.KNm, b.Hogging.KNm), b.BestKNm, units.Length(b.BestEnds[0]).Format(units.Both), units.Length(b.BestEnds[1]).Format(units.Both))
}

// longAxis is the axis along which a slender load is long, and the part of its
// weight that bends it, square to that axis: all of it where the axis is level. A
// load that is to stand more than 60° from level is a column, not a beam.
func (p *plan) longAxis(box geom.Extent) (axis int, across float64, ok bool) {
	size := box.Max.Sub(box.Min)
	for i := range size {
		if size[i] > size[axis] {
			axis = i
		}
	}
	var along geom.Vec
	along[axis] = 1
	rise := p.stance.stand(along)[2]
	across = math.Sqrt(max(0, 1-rise*rise))
	wide := max(size[(axis+1)%3], size[(axis+2)%3])
	return axis, across, across >= 0.5 && size[axis] > 0 && size[axis] >= slender*wide
}

// twoLines are the places along an axis of two picks, or of two lines of them.
func twoLines(picks []Pick, axis int, apart float64) (x1, x2 float64, ok bool) {
	low, high := math.Inf(1), math.Inf(-1)
	for _, p := range picks {
		low, high = min(low, p.AtM[axis]), max(high, p.AtM[axis])
	}
	var sum, count [2]float64
	for _, p := range picks {
		switch {
		case p.AtM[axis] <= low+apart:
			sum[0], count[0] = sum[0]+p.AtM[axis], count[0]+1
		case p.AtM[axis] >= high-apart:
			sum[1], count[1] = sum[1]+p.AtM[axis], count[1]+1
		default:
			return 0, 0, false
		}
	}
	return sum[0] / count[0], sum[1] / count[1], count[0] > 0 && count[1] > 0
}

// lineOf is the load as a beam of so many kg, allowances spread as the parts are.
func lineOf(l *takeoff.Load, axis int, kg float64) rig.Beam {
	var all []takeoff.Span
	total := 0.0
	for _, p := range l.Parts {
		for _, s := range p.Along(axis) {
			all = append(all, s)
			total += float64(s.Mass)
		}
	}
	var beam rig.Beam
	for _, s := range all {
		beam = spreadOver(beam, s, float64(s.Mass.Weight())*kg/total)
	}
	if len(all) > mostStretches {
		return inCells(beam)
	}
	return beam
}

// mostStretches is how many pieces are looked at one by one.
const mostStretches = 300

// inCells is the beam in cells of equal length, each with the weight that is in
// it, evenly: no weight moves by more than the half of a cell.
func inCells(b rig.Beam) rig.Beam {
	low, high := math.Inf(1), math.Inf(-1)
	for _, l := range b.Line {
		low, high = min(low, l.From), max(high, l.To)
	}
	for _, p := range b.Point {
		low, high = min(low, p.At), max(high, p.At)
	}
	cell := (high - low) / mostStretches
	out := make([]rig.LineWeight, mostStretches)
	for i := range out {
		from, to := low+float64(i)*cell, low+float64(i+1)*cell
		out[i] = rig.LineWeight{From: from, To: to}
		for _, l := range b.Line {
			out[i].Each += l.Each * max(0, min(to, l.To)-max(from, l.From)) / cell
		}
	}
	for _, p := range b.Point {
		at := min(mostStretches-1, int((p.At-low)/cell))
		out[at].Each += p.Weight / cell
	}
	return rig.Beam{Line: out}
}

// spreadOver adds a weight in N over its length: evenly over each half, the halves
// so that its CG is right. Where it is so lopsided that no halves do that, it
// counts as a weight at its CG.
func spreadOver(b rig.Beam, s takeoff.Span, weight float64) rig.Beam {
	half := (s.To - s.From) / 2
	middle := s.From + half
	second := 0.5 + (s.At-middle)/half // part of it in the second half: CG = middle + (2·second − 1)·half/2
	switch {
	case weight <= 0:
	case !(half > 1e-6) || !(second >= 0 && second <= 1):
		b.Point = append(b.Point, rig.PointWeight{At: s.At, Weight: weight})
	default:
		b.Line = append(b.Line, rig.LineWeight{From: s.From, To: middle, Each: weight * (1 - second) / half},
			rig.LineWeight{From: middle, To: s.To, Each: weight * second / half})
	}
	return b
}
