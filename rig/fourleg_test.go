package rig

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"plumbhook/geom"
)

// A rectangle 4 × 2 with the hook 3 above its picks, W = 100, as used below.
func rectangle(cg geom.Vec) Rig {
	r := Rig{Weight: 100, CG: cg, Picks: []geom.Vec{{2, 1, 0}, {-2, 1, 0}, {-2, -1, 0}, {2, -1, 0}}}
	r.Lengths = LevelLengths(r.Picks, geom.Vec{cg[0], cg[1], 3})
	return r
}

// No published four-leg example with an elastic answer was found, so these
// wants come from another method: the energy of a rigid body on four springs
// that only pull (EA 10⁵, six free coordinates), minimised by a general
// library, agrees with them to 0.02 %; the extremes are statics by hand.
func TestFourLegsOffCentre(t *testing.T) {
	r := rectangle(geom.Vec{0.5, 0.2, -0.5})
	assert.InDeltaSlice(t, []float64{3.448188, 3.986226, 4.085340, 3.562303}, r.Lengths, 1e-6)
	h, err := r.Hang()
	require.NoError(t, err)
	assert.True(t, h.Stable)
	assert.InDeltaSlice(t, []float64{43.0764, 29.9267, 20.3960, 29.7126}, h.Tension, 6e-5, "same EA")
	assert.InDeltaSlice(t, []float64{43.068, 29.922, 20.394, 29.709}, h.Tension, 1e-2, "six-coordinate energy, EA 10⁵")
	assert.InDeltaSlice(t, []float64{68.9638, 49.8278, 51.0667, 47.4974}, h.Greatest, 6e-5, "one leg slack")
}

func TestFourLegsCentred(t *testing.T) {
	r := rectangle(geom.Vec{0, 0, -0.5})
	h, err := r.Hang()
	require.NoError(t, err)
	for i := range 4 {
		assert.InDelta(t, 31.1805, h.Tension[i], 5e-5)
		assert.InDelta(t, 62.3610, h.Greatest[i], 5e-5, "a diagonal pair alone")
		assert.InDelta(t, 53.30, h.FromHorizontal(i)*180/math.Pi, 5e-3)
	}
	for _, d := range r.TwoOpposite(h.Pose) {
		assert.InDelta(t, 0, d.Off, 1e-12)
		assert.InDeltaSlice(t, []float64{62.3610, 62.3610}, d.Tension[:], 5e-5)
	}
}

// One leg 10 mm short of 3.74 m nearly turns a stiff four-leg bridle into a
// two-leg one: 31.18 ± k·d/4 = 57.91 and 4.45 kN by hand for EA 40 MN; the
// six-coordinate energy gives 57.90, 4.46, 57.95, 4.40.
func TestFourStretchingLegsOneShort(t *testing.T) {
	r := rectangle(geom.Vec{0, 0, -0.5})
	r.Weight = 100e3
	r.Lengths[0] -= 0.010
	r.Stiffness = make([]float64, 4)
	for i, l := range r.Lengths {
		r.Stiffness[i] = 40e6 / l
	}
	h, err := r.Hang()
	require.NoError(t, err)
	assert.InDeltaSlice(t, []float64{57.90e3, 4.46e3, 57.95e3, 4.40e3}, h.Tension, 15)
	assert.True(t, h.Stable)
}

// On legs of one length with the CG off centre the load tilts until the CG is
// plumb. Span 5, legs 4, CG 0.5 off and 0.6 below the picks, W 100; the want
// is planar statics by hand.
func TestEqualLegsTilt(t *testing.T) {
	r := Rig{Weight: 100, CG: geom.Vec{0.5, 0, -0.6}, Picks: []geom.Vec{{2.5, 0, 0}, {-2.5, 0, 0}}, Lengths: []float64{4, 4}}
	h, err := r.Hang()
	require.NoError(t, err)
	assert.InDelta(t, 7.6501, h.Tilt()*180/math.Pi, 5e-5)
	assert.InDelta(t, 3.122499, h.Hook[2], 5e-7)
	assert.InDeltaSlice(t, []float64{74.1310, 52.8313}, h.Tension, 5e-5)
	assert.True(t, h.Stable)
	assert.False(t, h.Drawn)
}

// tan(tilt) = e/h for a rigid pyramid of legs whose CG is e off the hook's
// plumb line and h below it: "Guidelines for marine lifting", 0027/ND Rev 11,
// section 5.3 gives the 2° limit (read); the angles are by hand.
func TestTiltByOffset(t *testing.T) {
	for _, tt := range []struct{ e, h, deg float64 }{
		{0.10, 2.0, 2.862}, {0.15, 2.5, 3.434}, {0.25, 2.0, 7.125}, {0.50, 3.0, 9.462},
	} {
		r := rectangle(geom.Vec{0, 0, 3 - tt.h})
		r.CG[0] = tt.e
		h, err := r.Hang()
		require.NoError(t, err)
		assert.InDelta(t, tt.deg, h.Tilt()*180/math.Pi, 6e-4)
	}
}

// Picks below the CG on two legs: drawn upright it balances on a knife's edge,
// and rolls until the CG hangs below.
func TestTwoPicksBelowTheCGRoll(t *testing.T) {
	r := Rig{Weight: 100, CG: geom.Vec{0, 0, 0.4}, Picks: []geom.Vec{{-1, 0, 0}, {1, 0, 0}}}
	r.Lengths = LevelLengths(r.Picks, geom.Vec{0, 0, 2})
	h, err := r.Hang()
	require.NoError(t, err)
	assert.True(t, h.Drawn)
	assert.False(t, h.Stable)
	assert.True(t, h.RollsOver)
	assert.InDelta(t, -0.4, h.Margin, 1e-12, "the CG is 0.4 m too high")
	require.NotNil(t, h.Rest)
	assert.InDelta(t, 180, h.Rest.Tilt()*180/math.Pi, 1e-6)
	assert.InDelta(t, 1, math.Abs(h.Toward[1]), 1e-9, "it rolls about the line of the picks")

	// A hair off the edge it is not balanced as drawn, and rolls all the same.
	r.CG[1] = 1e-4
	h, err = r.Hang()
	require.NoError(t, err)
	assert.True(t, h.RollsOver)
}

func TestCGOnTheLineOfTwoPicksIsNeutral(t *testing.T) {
	r := Rig{Weight: 100, CG: geom.Vec{0, 0, 0}, Picks: []geom.Vec{{-1, 0, 0}, {1, 0, 0}}}
	r.Lengths = LevelLengths(r.Picks, geom.Vec{0, 0, 2})
	h, err := r.Hang()
	require.NoError(t, err)
	assert.False(t, h.Stable)
	assert.True(t, h.Neutral)
}

// A high CG on four legs is stable while the legs are taut, but its offset is
// magnified by H/(H − z): with H = 3, z = 2 and picks ±1 across, 0.33 m off is
// all that it takes.
func TestHighCGLosesALegEarly(t *testing.T) {
	r := rectangle(geom.Vec{0, 0, 2})
	h, err := r.Hang()
	require.NoError(t, err)
	assert.True(t, h.Stable)
	assert.InDelta(t, 1, h.Margin, 1e-9, "1 m up to the hook")
	low, err := rectangle(geom.Vec{0, 0, -0.5}).Hang()
	require.NoError(t, err)
	assert.InDelta(t, (3-2)/(3+0.5), h.First.Shift/low.First.Shift, 1e-9)
	after, ok := r.AfterSlack(h)
	require.True(t, ok)
	assert.Greater(t, after.Tilt(), h.Tilt())
}

// Slings of one length on a load whose CG is a millimetre off its middle: rigid
// statics leaves one leg loose by less than a hair, but which one is chance, so
// any pair may have to carry all.
func TestEqualLegsNearlyCentred(t *testing.T) {
	r := rectangle(geom.Vec{0, 0, -0.5})
	r.CG[0], r.CG[1] = 0.001, 0.0007
	h, err := r.Hang()
	require.NoError(t, err)
	assert.True(t, h.Indeterminate())
	for i := range 4 {
		assert.InDelta(t, 62.36, h.Greatest[i], 0.1, "leg %d", i+1)
	}
}

func TestCGOutsideThePicks(t *testing.T) {
	// As drawn three legs would have to push: the load swings until it hangs on
	// what pulls, with the CG plumb.
	r := Rig{Weight: 100, CG: geom.Vec{2, 0, -1}, Picks: []geom.Vec{{1, 1, 0}, {-1, 1, 0}, {-1, -1, 0}, {1, -1, 0}},
		Lengths: []float64{3, 3, 3, 3}}
	h, err := r.Hang()
	require.NoError(t, err)
	assert.False(t, h.Drawn)
	assert.True(t, h.Slack(1) && h.Slack(2), "the far legs carry nothing")
	assert.InDelta(t, h.Tension[0], h.Tension[3], 1e-6)
}

func TestLegsThatCannotReach(t *testing.T) {
	r := Rig{Weight: 1, CG: geom.Vec{0, 0, -1}, Picks: []geom.Vec{{-2, 0, 0}, {2, 0, 0}}, Lengths: []float64{1.5, 1.5}}
	_, err := r.Hang()
	var reach *ReachError
	require.ErrorAs(t, err, &reach)
	assert.Equal(t, []int{0, 1}, reach.Legs)

	// Each pair meets, all three do not.
	r = Rig{Weight: 1, CG: geom.Vec{0, 0, -1}, Picks: []geom.Vec{{1, 0, 0}, {-0.5, math.Sqrt(3) / 2, 0}, {-0.5, -math.Sqrt(3) / 2, 0}},
		Lengths: []float64{0.9, 0.9, 0.9}}
	_, err = r.Hang()
	require.ErrorAs(t, err, &reach)
	assert.Empty(t, reach.Legs)
}

func TestBadRigsAreRefused(t *testing.T) {
	ok := rectangle(geom.Vec{0, 0, -1})
	for name, spoil := range map[string]func(*Rig){
		"no weight":     func(r *Rig) { r.Weight = 0 },
		"no number":     func(r *Rig) { r.CG[1] = math.NaN() },
		"no length":     func(r *Rig) { r.Lengths[2] = 0 },
		"a length off":  func(r *Rig) { r.Lengths = r.Lengths[:3] },
		"pick twice":    func(r *Rig) { r.Picks[1] = r.Picks[0] },
		"pick at CG":    func(r *Rig) { r.Picks[1] = r.CG },
		"nine legs":     func(r *Rig) { r.Picks = make([]geom.Vec, 9) },
		"no legs":       func(r *Rig) { r.Picks = nil },
		"pick nowhere":  func(r *Rig) { r.Picks[0][0] = math.Inf(1) },
		"soft as water": func(r *Rig) { r.Stiffness = make([]float64, 4) },
	} {
		r := ok
		r.Picks = append([]geom.Vec{}, ok.Picks...)
		r.Lengths = append([]float64{}, ok.Lengths...)
		spoil(&r)
		_, err := r.Hang()
		var input *InputError
		assert.ErrorAs(t, err, &input, name)
	}
}
