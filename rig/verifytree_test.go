package rig

import (
	"errors"
	"math"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"plumbhook/geom"
)

// randomTree is one to three tiers of bars and frames under a hook and a load below
// them, of any size from 0.1 to 50 m, whose CG may be above its picks; every CG is off
// and every leg some parts in a hundred longer than drawn.
func randomTree(dice *rand.Rand) Tree {
	scale := math.Exp(dice.Float64()*6 - 2)
	off := func(span float64) float64 { return scale * span * (2*dice.Float64() - 1) }
	four := dice.IntN(2) == 0
	points := func(z float64) (p []geom.Vec) {
		for _, c := range corners(z / scale) {
			if !four && c[1] < 0 {
				continue
			}
			if !four {
				c[1] = 0
			}
			p = append(p, c.Mul(scale).Add(geom.Vec{off(0.3), off(0.1), off(0.1)}))
		}
		return p
	}
	tree := Tree{Hook: geom.Vec{off(0.1), off(0.1), scale * (0.5 + 3*dice.Float64())}}
	above, tiers := OnHook, 2+dice.IntN(2)
	for tier := range tiers {
		z := -1.5 * scale * float64(tier)
		b := Body{"body", math.Exp(dice.Float64()*4 + 7), geom.Vec{off(0.3), off(0.1), z - 0.4*scale}, points(z)}
		if tier == tiers-1 {
			b.CG[2] = z + off(1.5)
			b.Weight *= 10
		}
		tree.Bodies = append(tree.Bodies, b)
		tree.linkTier(above, tier, func() float64 { return 1 + 0.03*dice.Float64() })
		above = tier
	}
	return tree
}

// A tree that is called stable stays when every body of it is kicked.
func TestStableTreesStayWithAllFreedoms(t *testing.T) {
	dice := rand.New(rand.NewPCG(12, 12))
	came := 0
	for range 60 {
		tree := randomTree(dice)
		p, err := tree.Hang()
		if err != nil {
			var reach *ReachError
			require.True(t, errors.As(err, &reach), "%v: %#v", err, tree)
			continue
		}
		assert.NoError(t, tree.Verify(p), "least %v of %v: %#v", p.Least, tree.Weight()/tree.size(), tree)
		if p.Stable && (p.Least == 0 || p.Least > 1e-3*tree.Weight()/tree.size()) {
			came++
		}
	}
	assert.Greater(t, came, 50)
}

// A frame so near to its hook that the load under it rolls, and a pair of picks below
// the CG: said to be stable, they are found out. See
// [TestDropsHoldWhileTheBarIsLowEnough] for where they begin to hold.
func TestFalseClaimsOfTreesAreFoundOut(t *testing.T) {
	dice := rand.New(rand.NewPCG(13, 13))
	asked := 0
	for range 60 {
		bar, above := 40e3*dice.Float64(), 0.3+1.5*dice.Float64()
		height := above * 100e3 / (100e3 + bar) * (0.3 + 0.65*dice.Float64())
		tree := frame(bar, height, above)
		if dice.IntN(2) == 0 { // a bar with two drops
			tree = spreader(bar, 0)
			tree.Bodies[1].CG[2] = tree.Bodies[1].Points[0][2] + above
		}
		p, err := tree.Hang()
		require.NoError(t, err)
		require.False(t, p.Stable)
		if p.Least > -0.02*tree.Weight()/tree.size() {
			continue // it goes away too slowly
		}
		asked++
		require.NoError(t, tree.Verify(p))
		p.Stable, p.Least = true, -p.Least
		assert.ErrorIs(t, tree.Verify(p), ErrDisagree, "least %v of %v: %#v", p.Least, tree.Weight()/tree.size(), tree)
	}
	assert.Greater(t, asked, 40)
}

// A tension or a place that is spoilt is found by the sums.
func TestSumsOfTreesAreFoundOut(t *testing.T) {
	tree := frame(20e3, 3, -0.5)
	p, err := tree.Hang()
	require.NoError(t, err)
	require.NoError(t, tree.Verify(p))
	p.Links[3].Tension *= 1 + 1e-6
	assert.ErrorIs(t, tree.Verify(p), ErrDisagree)
	p.Links[3].Tension = math.NaN()
	assert.ErrorIs(t, tree.Verify(p), ErrDisagree)
}

func BenchmarkVerifyTree(b *testing.B) {
	for name, tree := range map[string]Tree{"spreader": spreader(5e3, 0.2), "two tiers": twoTier(geom.Vec{0.1, 0.05, -0.5}), "frame": frame(20e3, 3, -0.5)} {
		b.Run(name, func(b *testing.B) {
			p, err := tree.Hang()
			require.NoError(b, err)
			for b.Loop() {
				require.NoError(b, tree.Verify(p))
			}
		})
	}
}
