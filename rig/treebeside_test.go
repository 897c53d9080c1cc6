package rig

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"plumbhook/geom"
)

// Sought from a pose close by, or let go from the drawing: the rest is the same,
// and where the pose close by is of no use the drawing is taken.
func TestBesideIsTheSameRest(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		trees := []Tree{spreader(5e3, 0.2), twoTier(geom.Vec{0.1, 0.05, -0.5}), frame(20e3, 3, -0.5)}
		tree := trees[rapid.IntRange(0, 2).Draw(t, "tree")]
		before, err := tree.Hang()
		if err != nil {
			t.Fatal(err)
		}
		load := len(tree.Bodies) - 1
		for i := range 3 {
			tree.Bodies[load].CG[i] += rapid.Float64Range(-0.3, 0.3).Draw(t, "off")
		}
		for i := range tree.Links {
			tree.Links[i].Length += rapid.Float64Range(-0.02, 0.02).Draw(t, "long")
		}
		want, err := tree.Hang()
		got, err2 := tree.HangBeside(&before)
		if (err == nil) != (err2 == nil) {
			t.Fatalf("%v, %v", err, err2)
		}
		if err != nil || !want.Stable || allButTaut(tree, want) || allButTaut(tree, got) {
			return
		}
		// Where more legs than statics needs fit to a hair, which of them carry is
		// open: then neither may be over what the other has as the most.
		most, open, err := tree.Greatest(want)
		require.NoError(t, err)
		again, open2, err := tree.Greatest(got)
		require.NoError(t, err)
		hair := 1e-6 * tree.Weight()
		for i := range want.Links {
			one, other := want.Links[i].Tension, got.Links[i].Tension
			if !open && !open2 && math.Abs(one-other) > hair || open2 && one > again[i]+hair || open && other > most[i]+hair {
				t.Fatalf("leg %d: %v N, want %v N", i+1, other, one)
			}
		}
	})
}

// allButTaut tells whether a leg hangs loose by less than a micrometre, so that a hair
// decides whether it pulls.
func allButTaut(tree Tree, p TreePose) bool {
	for i, l := range p.Links {
		if loose := tree.Links[i].Length - l.Ends[1].Sub(l.Ends[0]).Len(); !l.Taut && loose < 1e-6 {
			return true
		}
	}
	return false
}

// Of four plumb drops under a frame two opposite ones can carry all, and so can
// two opposite top legs: by statics 100/2 = 50 kN and 120/2/sin of the leg. Where
// a spreader leaves nothing open the most is the tension.
func TestGreatestUnderAFrame(t *testing.T) {
	tree := frame(20e3, 3, -0.5)
	p, err := tree.Hang()
	require.NoError(t, err)
	most, open, err := tree.Greatest(p)
	require.NoError(t, err)
	assert.True(t, open)
	sin := 3 / math.Sqrt(5+9)
	for i := range 4 {
		assert.InDelta(t, 60e3/sin, most[2*i], 0.01, "top leg, N")
		assert.InDelta(t, 50e3, most[2*i+1], 0.01, "drop, N")
	}
	tree = spreader(5e3, 0.3)
	p, err = tree.Hang()
	require.NoError(t, err)
	most, open, err = tree.Greatest(p)
	require.NoError(t, err)
	assert.False(t, open)
	for i, l := range p.Links {
		assert.InDelta(t, l.Tension, most[i], 1e-9)
	}
}

// CG off the middle: the most of drop i is what it carries with its two
// neighbours' share moved to it until one of them is slack, by hand for the CG
// 0.4 m towards +x of a frame 4 × 2 m: by levers the right side holds 60 kN and
// the left 40, front and back 50 each. A drop on the right carries at most min(60,
// 50) = 50, one on the left min(40, 50) = 40 kN.
func TestGreatestOffCentre(t *testing.T) {
	tree := frame(0, 50, -0.5) // so far below the hook that it hardly tilts
	tree.Bodies[1].CG[0] = 0.4
	p, err := tree.Hang()
	require.NoError(t, err)
	most, _, err := tree.Greatest(p)
	require.NoError(t, err)
	for i, want := range []float64{50e3, 40e3, 40e3, 50e3} {
		assert.InDelta(t, want, most[2*i+1], 150, "drop %d, N: the frame tilts by 0.45°", i+1)
	}
}
