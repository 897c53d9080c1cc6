package rig

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"plumbhook/geom"
)

// A load of 40 kN on two legs at 45° under a ring that weighs nothing, whose
// points are all one: 20/sin 45° = 28.284 kN each, the ring's own leg all.
func TestRingUnderTheHook(t *testing.T) {
	tree := Tree{Hook: geom.Vec{0, 0, 2}, Bodies: []Body{
		{"ring", 0, geom.Vec{0, 0, 1}, []geom.Vec{{0, 0, 1}}},
		{"load", 40e3, geom.Vec{0, 0, -1}, []geom.Vec{{-1, 0, 0}, {1, 0, 0}}}},
		Links: []Link{{From: End{OnHook, 0}, To: End{0, 0}, Length: 1},
			{From: End{0, 0}, To: End{1, 0}, Length: math.Sqrt2}, {From: End{0, 0}, To: End{1, 1}, Length: math.Sqrt2}}}
	p, err := tree.Hang()
	require.NoError(t, err)
	assert.True(t, p.Stable)
	assert.True(t, p.Drawn)
	assert.InDeltaSlice(t, []float64{40e3, 28284.27, 28284.27},
		[]float64{p.Links[0].Tension, p.Links[1].Tension, p.Links[2].Tension}, 0.01)
}

// Bars drawn all at one height come down to where they hang: drawing them in
// place is no duty.
func TestBarsDrawnOutOfPlaceComeDown(t *testing.T) {
	tree := twoTier(geom.Vec{0.2, 0, -0.5})
	want, err := tree.Hang()
	require.NoError(t, err)
	for i, b := range tree.Bodies[:3] {
		lift := geom.Vec{0.1 * float64(i), -0.05, 5 - b.CG[2]}
		b.CG = b.CG.Add(lift)
		for j := range b.Points {
			b.Points[j] = b.Points[j].Add(lift)
		}
		tree.Bodies[i] = b
	}
	p, err := tree.Hang()
	require.NoError(t, err)
	for i := range want.Links {
		assert.InDelta(t, want.Links[i].Tension, p.Links[i].Tension, 1e-3, "leg %d, N", i+1)
	}
}

// With drops that lean inward at 60° each end of a level bar of no weight is
// pressed by the top leg and pulled back by the drop: 50/tan 45° − 50/tan 60° =
// 21.132 kN by hand, and the load is squeezed by 50/tan 60° = 28.868 kN.
func TestLeaningDropsSqueezeTheLoad(t *testing.T) {
	drop := math.Sqrt(3)
	tree := Tree{Hook: geom.Vec{0, 0, 2}, Bodies: []Body{
		{"bar", 0, geom.Vec{}, []geom.Vec{{-2, 0, 0}, {2, 0, 0}}},
		{"load", 100e3, geom.Vec{0, 0, -drop - 1}, []geom.Vec{{-3, 0, -drop}, {3, 0, -drop}}}},
		Links: []Link{{From: End{OnHook, 0}, To: End{0, 0}, Length: 2 * math.Sqrt2}, {From: End{OnHook, 0}, To: End{0, 1}, Length: 2 * math.Sqrt2},
			{From: End{0, 0}, To: End{1, 0}, Length: 2}, {From: End{0, 1}, To: End{1, 1}, Length: 2}}}
	p, err := tree.Hang()
	require.NoError(t, err)
	assert.InDelta(t, 28867.51, p.Links[2].Squeeze(), 0.01)
	along, err := tree.Along(p, 0, geom.Vec{1, 0, 0})
	require.NoError(t, err)
	assert.InDelta(t, 21132.49, along[1].Compression, 0.01)
}

// Where a cut is bent by a leg that takes hold beside the bar's line: 50 kN
// plumb, and the top leg at 60° whose squeeze of 28.868 kN takes hold 0.1 m
// above the line, bend a bar of no weight by 2.887 kN·m all along it.
func TestLegBesideTheLineBendsTheBar(t *testing.T) {
	tree := spreader(0, 0)
	b := &tree.Bodies[0]
	b.Points = append(b.Points, geom.Vec{-2, 0, 0.1}, geom.Vec{2, 0, 0.1})
	tree.Hook[2] += 0.1
	tree.Links[0].To, tree.Links[1].To = End{0, 2}, End{0, 3}
	p, err := tree.Hang()
	require.NoError(t, err)
	along, err := tree.Along(p, 0, geom.Vec{1, 0, 0})
	require.NoError(t, err)
	for _, s := range along {
		assert.InDelta(t, 2886.75, s.Bending, 0.01, "at %v m", s.At)
	}
	_, err = tree.Along(p, 0, geom.Vec{0, 1, 0})
	var input *InputError
	assert.ErrorAs(t, err, &input)
}

func TestTreesThatCannotReach(t *testing.T) {
	tree := spreader(5e3, 0)
	tree.Links[0].Length, tree.Links[1].Length = 1.5, 1.5 // 4 m apart
	_, err := tree.Hang()
	var reach *ReachError
	assert.ErrorAs(t, err, &reach)
}

func TestBadTreesAreRefused(t *testing.T) {
	for name, spoil := range map[string]func(*Tree){
		"no bodies":           func(t *Tree) { t.Bodies = nil },
		"no legs":             func(t *Tree) { t.Links = nil },
		"hook nowhere":        func(t *Tree) { t.Hook[0] = math.NaN() },
		"weight below 0":      func(t *Tree) { t.Bodies[0].Weight = -1 },
		"no weight at all":    func(t *Tree) { t.Bodies[0].Weight, t.Bodies[1].Weight = 0, 0 },
		"CG nowhere":          func(t *Tree) { t.Bodies[0].CG[2] = math.Inf(1) },
		"point nowhere":       func(t *Tree) { t.Bodies[1].Points[1][0] = math.NaN() },
		"no such body":        func(t *Tree) { t.Links[0].To.Body = 2 },
		"no such point":       func(t *Tree) { t.Links[0].To.Point = 2 },
		"leg on one body":     func(t *Tree) { t.Links[2].To = End{0, 1} },
		"leg of no length":    func(t *Tree) { t.Links[1].Length = 0 },
		"stiffness below 0":   func(t *Tree) { t.Links[1].Stiffness = -1 },
		"load hangs on air":   func(t *Tree) { t.Links = t.Links[:2] },
		"both ends on a hook": func(t *Tree) { t.Links[0].To = End{OnHook, 0} },
	} {
		tree := spreader(5e3, 0)
		spoil(&tree)
		_, err := tree.Hang()
		var input *InputError
		assert.ErrorAs(t, err, &input, name)
	}
}

// The gradient is the energy's slope and the second derivatives are the
// gradient's, by differences of the energy alone: along any path of moves and
// turns U(ε) = U + ε·g·s + ½ε²·s·H·s.
func TestSlopesAreThoseOfTheEnergy(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		m, s := drawTree(t).model()
		m.stiffen(10)
		for i := range m.lambda { // all legs taut, far from going slack
			m.lambda[i], m.stiffness[i] = 5, 10
		}
		step := make([]float64, 6*len(m.weight))
		for i := range step {
			step[i] = rapid.Float64Range(-1, 1).Draw(t, "step")
		}
		s = s.moved(step) // anywhere but as drawn
		for i := range step {
			step[i] = rapid.Float64Range(-1, 1).Draw(t, "step")
		}
		for i := range m.links {
			if m.tension(s, i) < 1 {
				t.Skip("slack")
			}
			if _, length := m.line(s, i); length < 0.1 {
				t.Skip("ends nearly one")
			}
		}
		at := func(way float64) float64 { return m.energy(s.nudged(way, step)) }
		gradient, hessian := m.slope(s)
		for b := range m.idle { // the stop is no part of the energy
			if m.idle[b].Trace() > 0 {
				t.Skip("idle turn")
			}
		}
		const e = 1e-4
		slope, bend := (at(e)-at(-e))/(2*e), (at(e)-2*at(0)+at(-e))/(e*e)
		scale := 1 + m.energy(s)
		if d := slope - dot(gradient, step); math.Abs(d) > 1e-4*scale {
			t.Fatalf("slope %v, gradient %v", slope, dot(gradient, step))
		}
		if want := dot(step, hessian.times(step)); math.Abs(bend-want) > 1e-3*scale+1e-4*math.Abs(want) {
			t.Fatalf("bend %v, second derivatives %v", bend, want)
		}
	})
}

// Legs that do not stretch are the limit of legs that hardly do, also where
// statics can't settle the sharing: EA of 10 GN stretches by W/EA = 10⁻⁵. The
// two go different ways: springs are solved by the energy alone.
func TestRigidLegsAreTheLimitOfStiffOnes(t *testing.T) {
	off := frame(20e3, 3, -0.5)
	off.Bodies[1].CG[0], off.Bodies[1].CG[1] = 0.3, 0.1
	for name, tree := range map[string]Tree{"frame": off, "two tiers": twoTier(geom.Vec{0.2, 0, -0.5}), "spreader": spreader(5e3, 0.3)} {
		rigid, err := tree.Hang()
		require.NoError(t, err)
		for i := range tree.Links {
			tree.Links[i].Stiffness = 1e10 / tree.Links[i].Length
		}
		stiff, err := tree.Hang()
		require.NoError(t, err)
		assert.True(t, rigid.Stable && stiff.Stable, name)
		for i := range rigid.Links {
			assert.InDelta(t, stiff.Links[i].Tension, rigid.Links[i].Tension, 1e-4*tree.Weight(), "%s: leg %d, N", name, i+1)
		}
		for i := range rigid.Bodies {
			assert.InDelta(t, stiff.Bodies[i].Tilt, rigid.Bodies[i].Tilt, 1e-4, "%s: body %d, rad", name, i+1)
		}
	}
}
