package rig

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"plumbhook/geom"
)

const degree = math.Pi / 180

// spreader is a bar of the weight in N and 4 m, on two top legs at 60°, with
// plumb drops of 2 m to a load of 100 kN that is e metres off centre and 0.5 m
// deep below its picks.
func spreader(bar, e float64) Tree {
	h := 2 * math.Tan(60*degree) // 3.4641 m
	return Tree{Hook: geom.Vec{0, 0, h},
		Bodies: []Body{
			{"bar", bar, geom.Vec{}, []geom.Vec{{-2, 0, 0}, {2, 0, 0}}},
			{"load", 100e3, geom.Vec{e, 0, -2.5}, []geom.Vec{{-2, 0, -2}, {2, 0, -2}}}},
		Links: []Link{
			{From: End{OnHook, 0}, To: End{0, 0}, Length: 4}, {From: End{OnHook, 0}, To: End{0, 1}, Length: 4},
			{From: End{0, 0}, To: End{1, 0}, Length: 2}, {From: End{0, 1}, To: End{1, 1}, Length: 2}}}
}

// By hand, bar of 5 kN: centred, each drop carries 50 kN, each end 52.5 kN, a
// top leg 52.5/sin 60° = 60.622 kN, and the bar is pressed by 52.5/tan 60° =
// 30.311 kN.
func TestSpreaderCentred(t *testing.T) {
	tree := spreader(5e3, 0)
	p, err := tree.Hang()
	require.NoError(t, err)
	assert.True(t, p.Stable)
	for i, want := range []float64{60621.78, 60621.78, 50e3, 50e3} {
		assert.InDelta(t, want, p.Links[i].Tension, 0.01, "leg %d, N", i+1)
	}
	assert.InDelta(t, 60, p.Links[0].FromHorizontal/degree, 1e-9)
	assert.InDelta(t, 90, p.Links[2].FromHorizontal/degree, 1e-6)
	assert.InDelta(t, 0, p.Bodies[1].Tilt, 1e-9)
	assert.InDelta(t, 30310.89, p.Links[0].Squeeze(), 0.01)
	assert.InDelta(t, 30310.89, EndCompression(52.5e3, 60*degree), 0.01)
	along, err := tree.Along(p, 0, geom.Vec{1, 0, 0})
	require.NoError(t, err)
	require.Len(t, along, 3)
	assert.InDelta(t, 30310.89, along[1].Compression, 0.01)
	// Own weight of 1.25 kN/m between two supports 4 m apart: wL²/8 = 2.5 kN·m.
	assert.InDelta(t, 2500, along[1].Bending, 0.01)
	assert.InDelta(t, 0, along[0].Bending, 0.01)
}

// By hand, CG 0.3 m off, moments about the hook: tan φ = W·e/(W·(h + d) +
// W_bar·h) = 30/(100·3.964102 + 5·3.464102) = 30/413.7307, 4.14731°. The drops
// stay plumb, and share by the law of the lever with the CG d below the picks:
// the level ways from picks to CG are 2·cos φ ± (0.3·cos φ − 0.5·sin φ), which
// gives 50·(1 ± (0.3 − 0.5·tan φ)/2) = 56.59362 and 43.40638 kN. At the right
// end the triangle of legs: the leg at 60° + φ to 60° − φ, from the balance of
// the bar along and across.
func TestSpreaderOffCentre(t *testing.T) {
	p, err := spreader(5e3, 0.3).Hang()
	require.NoError(t, err)
	assert.True(t, p.Stable)
	assert.InDelta(t, 4.14731, p.Bodies[0].Tilt/degree, 1e-5)
	assert.InDelta(t, 4.14731, p.Bodies[1].Tilt/degree, 1e-5)
	assert.InDelta(t, 43406.4, p.Links[2].Tension, 0.1)
	assert.InDelta(t, 56593.6, p.Links[3].Tension, 0.1)
	assert.InDelta(t, 90, p.Links[3].FromHorizontal/degree, 1e-6)
	// The right leg leans 30° − φ from plumb, the left 30° + φ: the law of sines
	// on the hook's 105 kN gives 105·sin(30° ± φ)/sin 60°.
	phi := 4.14731 * degree
	assert.InDelta(t, 105e3*math.Sin(30*degree-phi)/math.Sin(60*degree), p.Links[0].Tension, 0.1)
	assert.InDelta(t, 105e3*math.Sin(30*degree+phi)/math.Sin(60*degree), p.Links[1].Tension, 0.1)
	closed := OnDrops{100e3, 5e3, 3.4641016151377544, 3.4641016151377544, 0.5, 0.3}
	assert.InDelta(t, closed.Tilt(), p.Bodies[0].Tilt, 1e-10)
}

// A lifting beam of 6 kN and 3 m hung by one pick 0.4 m above its ends' line,
// its CG 0.1 m above that line; load 80 kN, CG 0.05 m off, 0.3 m below its
// picks. By hand: tan φ = 80·0.05/(80·(0.4 + 0.3) + 6·0.3) = 4/57.8, 3.95879°.
func TestLiftingBeam(t *testing.T) {
	tree := Tree{Hook: geom.Vec{0, 0, 1.4},
		Bodies: []Body{
			{"beam", 6e3, geom.Vec{0, 0, 0.1}, []geom.Vec{{0, 0, 0.4}, {-1.5, 0, 0}, {1.5, 0, 0}}},
			{"load", 80e3, geom.Vec{0.05, 0, -1.3}, []geom.Vec{{-1.5, 0, -1}, {1.5, 0, -1}}}},
		Links: []Link{{From: End{OnHook, 0}, To: End{0, 0}, Length: 1},
			{From: End{0, 1}, To: End{1, 0}, Length: 1}, {From: End{0, 2}, To: End{1, 1}, Length: 1}}}
	p, err := tree.Hang()
	require.NoError(t, err)
	assert.True(t, p.Stable)
	assert.InDelta(t, 86e3, p.Links[0].Tension, 1e-4)
	assert.InDelta(t, 3.95879, p.Bodies[0].Tilt/degree, 1e-5)
	assert.InDelta(t, 3.95879, p.Bodies[1].Tilt/degree, 1e-5)

	// Level: 40 kN at 1.5 m and 2 kN/m of its own over 1.5 m: 60 + 2.25 kN·m.
	tree.Bodies[1].CG[0] = 0
	p, err = tree.Hang()
	require.NoError(t, err)
	along, err := tree.Along(p, 0, geom.Vec{1, 0, 0})
	require.NoError(t, err)
	assert.InDelta(t, 62250, along[1].Bending, 0.01)
	assert.InDelta(t, 62250, HeldMoment(40e3, 1.5, 2e3, 1.5), 1e-9)
	assert.InDelta(t, 0, along[1].Compression, 0.01)
	assert.InDelta(t, 43e3, along[1].Shear, 0.01, "half of load and beam")
}

// twoTier is one bar over two, four plumb drops, bars of 3, 1 and 1 kN, a load
// of 60 kN.
func twoTier(cg geom.Vec) Tree {
	leg := func(a, p, b, q int, length float64) Link {
		return Link{From: End{a, p}, To: End{b, q}, Length: length}
	}
	return Tree{Hook: geom.Vec{0, 0, 4 + 2*math.Tan(60*degree)},
		Bodies: []Body{
			{"upper bar", 3e3, geom.Vec{0, 0, 4}, []geom.Vec{{-2, 0, 4}, {2, 0, 4}}},
			{"left bar", 1e3, geom.Vec{-2, 0, 2}, []geom.Vec{{-2, -1, 2}, {-2, 1, 2}}},
			{"right bar", 1e3, geom.Vec{2, 0, 2}, []geom.Vec{{2, -1, 2}, {2, 1, 2}}},
			{"load", 60e3, cg, []geom.Vec{{-2, -1, 0}, {-2, 1, 0}, {2, -1, 0}, {2, 1, 0}}}},
		Links: []Link{
			leg(OnHook, 0, 0, 0, 4), leg(OnHook, 0, 0, 1, 4),
			leg(0, 0, 1, 0, math.Sqrt2), leg(0, 0, 1, 1, math.Sqrt2), leg(0, 1, 2, 0, math.Sqrt2), leg(0, 1, 2, 1, math.Sqrt2),
			leg(1, 0, 3, 0, 2), leg(1, 1, 3, 1, 2), leg(2, 0, 3, 2, 2), leg(2, 1, 3, 3, 2)}}
}

// A bar over two bars: the drops are determinate, unlike four legs to one
// hook. Centred by hand, the legs between the tiers at 45° (bars 1 m lower than
// they are drawn, which they find by themselves): drops 15 kN; (15 + 0.5)/sin
// 45° = 21.920 kN; (31 + 1.5)/sin 60° = 37.528 kN.
func TestTwoTiersCentred(t *testing.T) {
	p, err := twoTier(geom.Vec{0, 0, -0.5}).Hang()
	require.NoError(t, err)
	assert.True(t, p.Stable)
	want := []float64{37527.77, 37527.77, 21920.31, 21920.31, 21920.31, 21920.31, 15e3, 15e3, 15e3, 15e3}
	for i, w := range want {
		assert.InDelta(t, w, p.Links[i].Tension, 0.01, "leg %d, N", i+1)
	}
	assert.InDelta(t, 45, p.Links[2].FromHorizontal/degree, 1e-7)
	assert.InDelta(t, 3, p.Bodies[1].CG[2], 1e-9, "1 m below the upper bar, at 4 m")
	assert.InDelta(t, 1, p.Bodies[3].CG[2]+0.5, 1e-9)
}

// CG off along the upper bar only, by 0.2 m. Each lower bar is hung from one
// point, so upper bar and load tilt as one, the lower bars hanging plumb below
// the upper bar's ends: OnDrops by hand with the lower bars' 2 kN at the drops'
// height: tan φ = 60·0.2/(60·(3.464102 + 0.5) + (2 + 3)·3.464102) = 12/255.16663,
// 2.69253°. Shares: 15·(1 ± (0.2 − 0.5·tan φ)/2) = 16.32364 and 13.67636 kN.
func TestTwoTiersOffCentre(t *testing.T) {
	p, err := twoTier(geom.Vec{0.2, 0, -0.5}).Hang()
	require.NoError(t, err)
	assert.True(t, p.Stable)
	assert.InDelta(t, 2.69253, p.Bodies[0].Tilt/degree, 1e-5)
	assert.InDelta(t, 2.69253, p.Bodies[3].Tilt/degree, 1e-5)
	for i, w := range []float64{13676.4, 13676.4, 16323.6, 16323.6} {
		assert.InDelta(t, w, p.Links[6+i].Tension, 0.1, "drop %d, N", i+1)
	}
}
