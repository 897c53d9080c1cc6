package rig

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"plumbhook/geom"
)

// deck is a flat top 4 × 2 at height 1, a place every half metre.
func deck(hole func(x, y float64) bool) Lattice {
	l := Lattice{}
	for x := -2.0; x <= 2; x += 0.5 {
		l.X = append(l.X, x)
	}
	for y := -1.0; y <= 1; y += 0.5 {
		l.Y = append(l.Y, y)
	}
	l.Top = func(i, j int) (float64, bool) { return 1, !hole(l.X[i], l.Y[j]) }
	return l
}

func TestProposeSpreadsWide(t *testing.T) {
	whole := func(x, y float64) bool { return false }
	found := Propose(geom.Vec{0, 0, 0}, deck(whole), 0)
	require.Len(t, found, 3)
	four := byNumber(t, found, 4)
	// Any rectangle as wide as the deck has the same way to its long sides and
	// the same diagonal share; the first that is best is kept.
	assert.InDelta(t, 1, four.Reach, 1e-12)
	assert.InDelta(t, 0.5, four.Share, 1e-12, "a diagonal pair may carry all")
	two := byNumber(t, found, 2)
	assert.InDelta(t, 0.5, two.Share, 1e-12)
	assert.InDelta(t, 1/0.5/2, two.Score, 1e-12, "held upright by the 1 m that the CG lies below the picks")
	three := byNumber(t, found, 3)
	assert.Greater(t, three.Reach, 0.0)
}

func TestProposeKeepsOffHolesAndWithinReach(t *testing.T) {
	hole := func(x, y float64) bool { return x > 1 && y > 0.75 }
	for _, p := range Propose(geom.Vec{0.25, 0, 0.2}, deck(hole), 1.6) {
		for _, pick := range p.Picks {
			assert.False(t, hole(pick[0], pick[1]))
			assert.LessOrEqual(t, geom.Vec{pick[0] - 0.25, pick[1], 0}.Len(), 1.6)
		}
		r := Rig{Weight: 1000, CG: geom.Vec{0.25, 0, 0.2}, Picks: p.Picks}
		r.Lengths = LevelLengths(p.Picks, HookAtAngle(r.CG, p.Picks, rad(60)))
		h, err := r.Hang()
		require.NoError(t, err)
		assert.True(t, h.Drawn && h.Stable, "%d picks hang level", len(p.Picks))
	}
}

func TestNoPairAboveWhichTheCGStands(t *testing.T) {
	for _, p := range Propose(geom.Vec{0, 0, 1.5}, deck(func(x, y float64) bool { return false }), 0) {
		assert.NotEqual(t, 2, len(p.Picks), "a pair below the CG rolls")
	}
}

func TestNothingToProposeOnABarePost(t *testing.T) {
	l := deck(func(x, y float64) bool { return x != 0 || y != 0 })
	assert.Empty(t, Propose(geom.Vec{0, 0, 0}, l, 0))
}

func byNumber(t *testing.T, found []Proposal, n int) Proposal {
	for _, p := range found {
		if len(p.Picks) == n {
			return p
		}
	}
	require.Failf(t, "no proposal", "%d picks", n)
	return Proposal{}
}
