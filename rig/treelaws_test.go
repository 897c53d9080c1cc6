package rig

import (
	"errors"
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"plumbhook/geom"
)

// corners of a rectangle 4 × 2 m at z.
func corners(z float64) []geom.Vec {
	return []geom.Vec{{2, 1, z}, {-2, 1, z}, {-2, -1, z}, {2, -1, z}}
}

// frame is a frame of the weight bar in N, h below the hook, over four plumb
// drops of 2 m to a load of 100 kN whose CG is a above its picks.
func frame(bar, h, a float64) Tree {
	t := Tree{Hook: geom.Vec{0, 0, h},
		Bodies: []Body{{"frame", bar, geom.Vec{}, corners(0)}, {"load", 100e3, geom.Vec{0, 0, a - 2}, corners(-2)}}}
	for i := range 4 {
		t.Links = append(t.Links,
			Link{From: End{OnHook, 0}, To: End{0, i}, Length: math.Sqrt(5 + h*h)},
			Link{From: End{0, i}, To: End{1, i}, Length: 2})
	}
	return t
}

// A frame h below the hook over plumb drops, the CG a above the picks, holds
// while h·(W + W_bar) > a·W: the second derivatives of the energy change sign
// there, found by halving h.
func TestDropsHoldWhileTheBarIsLowEnough(t *testing.T) {
	for _, tt := range []struct{ bar, a, want float64 }{
		{20e3, 1.8, 1.5},  // 180/120
		{0, 1.1, 1.1},     // 110/100
		{60e3, 2, 1.25},   // 200/160
		{10e3, 0.55, 0.5}, // 55/110
	} {
		low, high := 0.2, 4.0 // m: rolls, holds
		for high-low > 1e-6 {
			h := (low + high) / 2
			p, err := frame(tt.bar, h, tt.a).Hang()
			require.NoError(t, err)
			if p.Least > 0 {
				high = h
			} else {
				low = h
			}
			if math.Abs(h-tt.want) > 1e-3 {
				require.Equal(t, h > tt.want, p.Stable, "h = %v m of %v m", h, tt.want)
			}
		}
		assert.InDelta(t, tt.want, high, 1e-5, "m")
		assert.InDelta(t, tt.want, OnDrops{Weight: 100e3, Bar: tt.bar, PicksToCG: -tt.a}.LeastHeight(), 1e-12)
	}
}

// A load that is too high rolls over, and comes to rest with its CG lower.
func TestHighLoadOnDropsRolls(t *testing.T) {
	p, err := frame(20e3, 1.2, 1.8).Hang()
	require.NoError(t, err)
	assert.False(t, p.Stable)
	assert.Negative(t, p.Least)
	require.NotNil(t, p.Rest)
	assert.Less(t, p.Rest.Bodies[0].CG[2]*20e3+p.Rest.Bodies[1].CG[2]*100e3, p.Bodies[0].CG[2]*20e3+p.Bodies[1].CG[2]*100e3)
	assert.Greater(t, p.Rest.steepest(), 0.1)
}

// A drop that is 5 mm too long hangs slack, and the diagonal beside it carries
// half the load each: 50 kN, by hand.
func TestLongDropHangsSlack(t *testing.T) {
	tree := frame(20e3, 3, -0.5)
	tree.Links[1].Length = 2.005
	p, err := tree.Hang()
	require.NoError(t, err)
	assert.False(t, p.Links[1].Taut)
	assert.Zero(t, p.Links[1].Tension)
	for leg, want := range map[int]float64{3: 50e3, 5: 0, 7: 50e3} {
		assert.InDelta(t, want, p.Links[leg].Tension, 200, "leg %d", leg+1) // it leans by some millimetres until it holds
	}
}

// Of one leg plumb below another with springs, each stretches by F/k: 10 kN on
// 1 MN/m and 8 kN on 0.5 MN/m are 10 and 16 mm.
func TestStretchingLegs(t *testing.T) {
	tree := Tree{Hook: geom.Vec{0, 0, 5}, Bodies: []Body{
		{"block", 2e3, geom.Vec{0, 0, 2.5}, []geom.Vec{{0, 0, 3}, {0, 0, 2}}},
		{"load", 8e3, geom.Vec{0, 0, -1}, []geom.Vec{{}}}},
		Links: []Link{{End{OnHook, 0}, End{0, 0}, 2, 1e6}, {End{0, 1}, End{1, 0}, 2, 0.5e6}}}
	p, err := tree.Hang()
	require.NoError(t, err)
	assert.True(t, p.Stable)
	assert.InDelta(t, 10e3, p.Links[0].Tension, 1e-4)
	assert.InDelta(t, 8e3, p.Links[1].Tension, 1e-4)
	assert.InDelta(t, -1-0.026, p.Bodies[1].CG[2], 1e-9)
}

// Two picks in line with the CG hold a load in any roll.
func TestLoadHungInLineWithItsCGIsNeutral(t *testing.T) {
	p, err := spreader(5e3, 0).onLine().Hang()
	require.NoError(t, err)
	assert.True(t, p.Neutral)
	assert.False(t, p.Stable)
}

func (t Tree) onLine() Tree {
	t.Bodies[1].CG = geom.Vec{0, 0, -2}
	return t
}

// With no bar the tree is one load on one hook, which Rig.Hang solves in other
// unknowns: the hook in the load's axes.
func TestTreeOfOneBodyIsARig(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		r := drawRig(t)
		h := hang(t, r)
		if !h.Stable || h.Margin < 1e-3*r.size() || h.RollsOver || h.Leaned || h.First.Shift < 1e-4 {
			t.Skip("on a knife's edge")
		}
		start, ok := r.drawnHook()
		if !ok {
			start = r.above()
		}
		tree := Tree{Hook: start, Bodies: []Body{{"load", r.Weight, r.CG, r.Picks}}}
		for i, l := range r.Lengths {
			tree.Links = append(tree.Links, Link{From: End{OnHook, 0}, To: End{0, i}, Length: l})
		}
		p, err := tree.Hang()
		if err != nil {
			t.Fatalf("%v: %+v", err, r)
		}
		hook := p.Bodies[0].Place.Back(start)
		d := hook.Sub(h.Hook).Len()
		if d > 1e-3*r.size() && !h.Drawn && otherRest(r, hook) {
			return // two valleys, and the ways down from the edge between them differ
		}
		if d > 1e-6*r.size() {
			t.Fatalf("hook %v m off (%v, rig says %v): %+v", d, hook, h.Hook, r)
		}
		for i := range h.Tension {
			if math.Abs(p.Links[i].Tension-h.Tension[i]) > 1e-6*r.Weight {
				t.Fatalf("leg %d: %v N, rig says %v N", i+1, p.Links[i].Tension, h.Tension[i])
			}
		}
		if !p.Stable {
			t.Fatalf("not stable (%v), rig's margin %v m", p.Least, h.Margin)
		}
	})
}

// otherRest says that the hook is at a stable equilibrium of the rig, found by
// geometry alone.
func otherRest(r Rig, hook geom.Vec) bool {
	for _, q := range r.Equilibria(hook) {
		if q.Hook.Sub(hook).Len() <= 1e-6*r.size() && r.stability(q).Stable {
			return true
		}
	}
	return false
}

// drawTree draws a frame or bar, perhaps a second under it, and a load, with
// every CG off and every length some centimetres off what is drawn.
func drawTree(t *rapid.T) Tree {
	off := func(span float64) float64 {
		return math.Round(rapid.Float64Range(-span, span).Draw(t, "off")*1e4) / 1e4
	}
	four := rapid.Bool().Draw(t, "frame")
	points := func(z float64) (p []geom.Vec) {
		for _, c := range corners(z) {
			if four || c[1] > 0 {
				if !four {
					c[1] = 0
				}
				p = append(p, c.Add(geom.Vec{off(0.3), off(0.1), off(0.1)}))
			}
		}
		return p
	}
	tree := Tree{Hook: geom.Vec{off(0.1), off(0.1), 3}}
	above := OnHook
	for tier := range rapid.IntRange(1, 3).Draw(t, "tiers") {
		z := -1.5 * float64(tier)
		b := Body{"body", rapid.Float64Range(1e3, 2e4).Draw(t, "weight"), geom.Vec{off(0.3), off(0.1), z - 0.4}, points(z)}
		tree.Bodies = append(tree.Bodies, b)
		tree.linkTier(above, tier, func() float64 { return rapid.Float64Range(1, 1.03).Draw(t, "longer") })
		above = tier
	}
	if rapid.Bool().Draw(t, "springs") {
		for i := range tree.Links {
			tree.Links[i].Stiffness = rapid.Float64Range(1e5, 1e8).Draw(t, "stiffness")
		}
	}
	return tree
}

// linkTier hangs a body from the one above it, or from the hook, point by point, on
// legs as long as it is drawn, times longer.
func (t *Tree) linkTier(above, tier int, longer func() float64) {
	for i, p := range t.Bodies[tier].Points {
		from, at := End{OnHook, 0}, t.Hook
		if above != OnHook {
			from, at = End{above, i}, t.Bodies[above].Points[i]
		}
		t.Links = append(t.Links, Link{From: from, To: End{tier, i}, Length: at.Sub(p).Len() * longer()})
	}
}

// hangTree solves a drawn tree.
func hangTree(t *rapid.T, tree Tree) TreePose {
	p, err := tree.Hang()
	var reach *ReachError
	if errors.As(err, &reach) {
		t.Skip(err)
	}
	if err != nil {
		t.Fatalf("%v: %#v", err, tree)
	}
	return p
}

func TestTreesBalance(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		tree := drawTree(t)
		p := hangTree(t, tree)
		force, moment := make([]geom.Vec, len(tree.Bodies)), make([]geom.Vec, len(tree.Bodies))
		for i, b := range tree.Bodies {
			force[i][2] = -b.Weight
		}
		var plumb geom.Vec
		for i, b := range tree.Bodies {
			plumb = plumb.Add(p.Bodies[i].CG.Sub(tree.Hook).Mul(b.Weight))
		}
		for i, l := range tree.Links {
			ends := [2]geom.Vec{tree.Hook, p.Bodies[l.To.Body].Place.Point(tree.Bodies[l.To.Body].Points[l.To.Point])}
			if l.From.Body != OnHook {
				ends[0] = p.Bodies[l.From.Body].Place.Point(tree.Bodies[l.From.Body].Points[l.From.Point])
			}
			way := ends[0].Sub(ends[1])
			switch {
			case p.Links[i].Tension < 0:
				t.Fatalf("leg %d pushes", i+1)
			case l.Stiffness == 0 && way.Len() > l.Length+2e-8*tree.size():
				t.Fatalf("leg %d is %v m but spans %v m", i+1, l.Length, way.Len())
			}
			pull := way.Mul(p.Links[i].Tension / way.Len())
			force[l.To.Body] = force[l.To.Body].Add(pull)
			moment[l.To.Body] = moment[l.To.Body].Add(ends[1].Sub(p.Bodies[l.To.Body].CG).Cross(pull))
			if l.From.Body != OnHook {
				force[l.From.Body] = force[l.From.Body].Sub(pull)
				moment[l.From.Body] = moment[l.From.Body].Sub(ends[0].Sub(p.Bodies[l.From.Body].CG).Cross(pull))
			}
		}
		w := tree.Weight()
		for i := range force {
			if !(force[i].Len() <= 1e-9*w) || !(moment[i].Len() <= 1e-9*w*tree.size()) {
				t.Fatalf("body %d: %v N, %v N·m left over of %v N", i+1, force[i].Len(), moment[i].Len(), w)
			}
		}
		if err := tree.Verify(p); err != nil {
			t.Fatalf("%v: %#v", err, tree)
		}
		if plumb[2] = 0; plumb.Len() > 1e-8*w*tree.size() {
			t.Fatalf("what hangs is not plumb below the hook: %v N·m", plumb)
		}
	})
}

// A turn about the plumb line, a mirror and a move of the frame change nothing.
func TestFramesOfTreesAgree(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		tree := drawTree(t)
		p := hangTree(t, tree)
		if !p.Stable || p.Least < 1e-4*tree.Weight()/tree.size() {
			t.Skip("on a knife's edge the last digit decides")
		}
		angle, mirror := rapid.Float64Range(0, 6).Draw(t, "turn"), rapid.Bool().Draw(t, "mirror")
		into := func(v geom.Vec) geom.Vec {
			if mirror {
				v[0] = -v[0]
			}
			s, c := math.Sincos(angle)
			return geom.Vec{c*v[0] - s*v[1] + 7, s*v[0] + c*v[1] - 11, v[2] + 3}
		}
		turned := Tree{Hook: into(tree.Hook), Links: tree.Links}
		for _, b := range tree.Bodies {
			var points []geom.Vec
			for _, q := range b.Points {
				points = append(points, into(q))
			}
			turned.Bodies = append(turned.Bodies, Body{b.Name, b.Weight, into(b.CG), points})
		}
		q := hangTree(t, turned)
		for i := range p.Bodies {
			if d := p.Bodies[i].Tilt - q.Bodies[i].Tilt; math.Abs(d) > 1e-6 {
				t.Fatalf("body %d tilts %v rad otherwise", i+1, d)
			}
		}
		for i := range p.Links {
			if d := p.Links[i].Tension - q.Links[i].Tension; math.Abs(d) > 1e-5*tree.Weight() {
				t.Fatalf("leg %d pulls %v N otherwise (%v N)", i+1, d, p.Links[i].Tension)
			}
		}
	})
}
