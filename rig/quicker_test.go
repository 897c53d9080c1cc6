package rig

import (
	"errors"
	"fmt"
	"math"
	"slices"
	"testing"

	"github.com/go-gl/mathgl/mgl64"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"plumbhook/geom"
)

// moved says in what one hang differs from another by more than 1e-8 of the
// rig's size or weight; "" for nothing.
func moved(r Rig, got, want Hang) string {
	far := func(what string, got, want, scale float64) string {
		if got == want || math.Abs(got-want) <= 1e-8*max(scale, math.Abs(want)) {
			return ""
		}
		return fmt.Sprintf("%s %v, was %v; ", what, got, want)
	}
	if !want.Stable && !want.Drawn {
		return "" // on a knife's edge the last digit decides which way it falls
	}
	var s string
	s += far("hook off by", got.Hook.Sub(want.Hook).Len(), 0, r.size())
	s += far("tilt", got.Tilt(), want.Tilt(), 1)
	s += far("margin", got.Margin, want.Margin, r.size())
	if r.Stiffness == nil && want.First.Shift < 100*r.size() { // that of springs is counted another way since
		s += far("shift", got.First.Shift, want.First.Shift, r.size())
	}
	for i := range r.Picks {
		s += far(fmt.Sprintf("tension %d", i+1), got.Tension[i], want.Tension[i], r.Weight)
		if max(got.Greatest[i], want.Greatest[i]) > 1e-6*r.Weight { // less is what the balance's tolerance lets through
			s += far(fmt.Sprintf("greatest %d", i+1), got.Greatest[i], want.Greatest[i], 10*r.Weight) // a corner of what the sharing leaves open
		}
		if got.Taut[i] != want.Taut[i] || got.Near[i] != want.Near[i] {
			s += fmt.Sprintf("leg %d taut %t near %t, was %t %t; ", i+1, got.Taut[i], got.Near[i], want.Taut[i], want.Near[i])
		}
	}
	if !want.Stable || math.Abs(want.Tilt()-rollover) < 1e-6 {
		return s
	}
	if got.Stable != want.Stable || got.Neutral != want.Neutral || got.Drawn != want.Drawn ||
		got.Leaned != want.Leaned || got.RollsOver != want.RollsOver {
		s += fmt.Sprintf("another verdict: %+v, was %+v; ", got, want)
	}
	return s
}

// The first form of the solver says the same of every rig, to 1e-8: both hold lengths
// to 1e-8 of the size, and legs nearly in one plane show it.
func TestQuickerMovesNothing(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		r := drawRig(t)
		want, wrong := slowRig(r).Hang()
		got, err := r.Hang()
		if errors.Is(wrong, ErrDisagree) {
			return // the first form gave up where the second may not
		}
		if fmt.Sprint(err) != fmt.Sprint(wrong) {
			t.Fatalf("%v, was %v: %+v", err, wrong, r)
		}
		if err != nil {
			return
		}
		if s := moved(r, got, want); s != "" {
			t.Fatalf("%s %+v", s, r)
		}
	})
}

func TestQuickerSpringsMoveNothing(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		r := drawRig(t)
		for _, l := range r.Lengths {
			r.Stiffness = append(r.Stiffness, r.Weight/l*rapid.Float64Range(50, 5000).Draw(t, "EA"))
		}
		want, wrong := slowRig(r).Hang()
		got, err := r.Hang()
		if errors.Is(wrong, ErrDisagree) {
			return // the first form gave up where the second may not
		}
		if fmt.Sprint(err) != fmt.Sprint(wrong) {
			t.Fatalf("%v, was %v: %+v", err, wrong, r)
		}
		if err != nil {
			return
		}
		if s := moved(r, got, want); s != "" {
			t.Fatalf("%s %+v", s, r)
		}
	})
}

// The places where the load can stand are the same, in the same order.
func TestQuickerEquilibriaMoveNothing(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		r := drawRig(t)
		near := r.above()
		got, want := r.Equilibria(near), slowRig(r).Equilibria(near)
		if len(got) != len(want) {
			t.Fatalf("%d equilibria, were %d: %+v", len(got), len(want), r)
		}
		for i := range got {
			if off := got[i].Hook.Sub(want[i].Hook).Len(); off > 1e-9*r.size() {
				t.Fatalf("equilibrium %d off by %v m: %+v", i+1, off, r)
			}
		}
	})
}

// slowWorst solves each case of Worst by itself, in the first form. Barely are the
// legs that in some case pull so little that the last digit decides whether the angle
// they stand at counts. Flat says that in some case three legs or more lie so nearly in
// one plane that their lengths, right to a hair, leave the sharing between them open.
func slowWorst(r Rig, doubt Doubt) (w Worst, barely []bool, flat bool, err error) {
	n := len(r.Picks)
	w = Worst{Tension: make([]float64, n), Elastic: make([]float64, n), FromHorizontal: make([]float64, n), Stable: true,
		MostHeadroom: math.Inf(-1), LeastHeadroom: math.Inf(1)}
	barely = make([]bool, n)
	add := func(p Pose, name string) {
		w.add(p, name, doubt.Body)
		for i, t := range p.Greatest {
			part := t / slices.Max(p.Greatest)
			barely[i] = barely[i] || part > 1e-12 && part < 1e-7
		}
		flat = flat || nearlyFlat(p)
	}
	for i := range w.FromHorizontal {
		w.FromHorizontal[i] = math.Pi / 2
	}
	for _, place := range append([]Place{{r.CG, "best CG"}}, doubt.CGs...) {
		for _, lengths := range r.lengthCases(doubt.Lengths) {
			c := slowRig(r)
			c.CG, c.Lengths = place.At, lengths.lengths
			h, err := c.Hang()
			if err != nil {
				return w, barely, flat, fmt.Errorf("%s, %s: %w", place.Name, lengths.name, err)
			}
			name := place.Name + ", " + lengths.name
			add(h.Pose, name)
			if h.Other != nil {
				add(*h.Other, name+", leaning the other way")
			}
			w.Solved++
			if w.Stable && (!h.Stable || h.RollsOver) {
				w.Stable, w.Unstable = false, name
			}
		}
	}
	return w, barely, flat, nil
}

// nearlyFlat tells whether three legs or more that are taut, or nearly, lie in one
// plane to a thousandth.
func nearlyFlat(p Pose) bool {
	var spread mgl64.Mat3
	legs := 0
	for i, u := range p.Pull {
		if p.Near[i] {
			outer(&spread, 1, u)
			legs++
		}
	}
	axes := eigen(spread)
	return legs > 2 && min(axes[0].value, axes[1].value, axes[2].value) < 1e-6
}

// movedWorst is moved for the worst of many cases.
func movedWorst(r Rig, got, want Worst, barely []bool, flat bool) string {
	s := ""
	near := func(what string, got, want, scale float64) {
		if got != want && math.Abs(got-want) > 1e-8*max(scale, math.Abs(want)) {
			s += fmt.Sprintf("%s %v, was %v; ", what, got, want)
		}
	}
	for i := range r.Picks {
		near("tension", got.Tension[i], want.Tension[i], r.Weight)
		if !flat {
			near("elastic", got.Elastic[i], want.Elastic[i], r.Weight)
		}
		if barely[i] || want.Tension[i] < 1e-7*r.Weight {
			continue
		}
		near("from horizontal", got.FromHorizontal[i], want.FromHorizontal[i], 1)
	}
	near("tilt", got.Tilt, want.Tilt, 1)
	near("most headroom", got.MostHeadroom, want.MostHeadroom, r.size())
	near("least headroom", got.LeastHeadroom, want.LeastHeadroom, r.size())
	if got.Stable != want.Stable || got.Unstable != want.Unstable || got.Solved != want.Solved {
		s += fmt.Sprintf("stable %t %q of %d, was %t %q of %d", got.Stable, got.Unstable, got.Solved, want.Stable, want.Unstable, want.Solved)
	}
	return s
}

// A pose found from the case beside it is the one found from the drawing.
func TestQuickerWorstMovesNothing(t *testing.T) {
	for _, level := range []bool{true, false} {
		for _, legs := range []int{1, 2, 3, 4, 5} {
			r := benchRig(max(legs, 2), level)
			r.Picks, r.Lengths = r.Picks[:legs], r.Lengths[:legs]
			doubt := Doubt{CGs: aroundCG(r), Lengths: []float64{0.01, 0.02, 0.01, 0.005, 0.01}[:legs], Body: r.Picks}
			want, barely, flat, err := slowWorst(r, doubt)
			require.NoError(t, err)
			got, err := r.Worst(doubt)
			require.NoError(t, err)
			assert.Empty(t, movedWorst(r, got, want, barely, flat), "%d legs", legs)
		}
	}
	rapid.Check(t, func(t *rapid.T) {
		r := drawRig(t)
		doubt := Doubt{Body: r.Picks}
		for range 3 {
			off := geom.Vec{}
			for i := range off {
				off[i] = rapid.Float64Range(-0.1, 0.1).Draw(t, "off")
			}
			doubt.CGs = append(doubt.CGs, Place{r.CG.Add(off), "off"})
		}
		if len(r.Picks) <= 5 {
			for range r.Picks {
				doubt.Lengths = append(doubt.Lengths, rapid.Float64Range(0.001, 0.05).Draw(t, "tolerance"))
			}
		}
		want, barely, flat, wrong := slowWorst(r, doubt)
		got, err := r.Worst(doubt)
		if errors.Is(wrong, ErrDisagree) {
			return // the nearer start may settle what the drawing did not
		}
		if fmt.Sprint(err) != fmt.Sprint(wrong) {
			t.Fatalf("%v, was %v: %+v", err, wrong, r)
		}
		if err != nil || !want.Stable {
			return // on a knife's edge the last digit decides which way it falls
		}
		if s := movedWorst(r, got, want, barely, flat); s != "" {
			t.Fatalf("%s: %+v %+v", s, r, doubt)
		}
	})
}
