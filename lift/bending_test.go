package lift_test

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"plumbhook/lift"
)

// Standard beam formulas of textbooks of the strength of materials (from memory),
// on a beam of 1200 kg, 12 m long: supported at its ends w·L²/8, with a weight
// in the middle P·L/4 besides; picks a in from both ends w·a²/2 over them and
// w·L²/8 − w·L·a/2 between. g = 9.80665 m/s².
func TestBendingOfABeam(t *testing.T) {
	const long, kg = 12.0, 1200.0
	w := kg * 9.80665 / 1000 / long // kN/m
	beam := "- {name: beam, weight: 1200 kg, box: 12000 x 300 x 400, corner: [0, -150, 0], tolerance: 0.0001 %}\n"
	for _, tt := range []struct {
		name, parts string
		in          float64 // m, of the picks from the ends
		sag, hog    float64 // kN·m
	}{
		{"on its ends", beam, 0, w * long * long / 8, 0},
		{"with a weight in the middle", beam + "- {name: gear, weight: 500 kg, at: [6000, 0, 400], tolerance: 0.0001 %}\n", 0, w*long*long/8 + 0.5*9.80665*long/4, 0},
		{"2 m in", beam, 2, w*long*long/8 - w*long*2/2, w * 2 * 2 / 2},
		{"0.2071 in", beam, 0.2071068 * long, w * long * long * 0.0214466, w * long * long * 0.0214466},
		{"in two halves", "- {name: one, weight: 600 kg, box: 6000 x 300 x 400, corner: [0, -150, 0], count: 2, step: [6000, 0, 0], tolerance: 0.0001 %}\n", 2, w*long*long/8 - w*long*2/2, w * 2 * 2 / 2},
		{"in 600 pieces", "- {name: one, weight: 2 kg, box: 20 x 300 x 400, corner: [0, -150, 0], count: 600, step: [20, 0, 0], tolerance: 0.0001 %}\n", 2, w*long*long/8 - w*long*2/2, w * 2 * 2 / 2},
	} {
		t.Run(tt.name, func(t *testing.T) {
			h := hangs(t, tt.parts, fmt.Sprintf("picks: [{name: A, at: [%.4f, 0, 500]}, {name: B, at: [%.4f, 0, 500]}]\nhook: {above: picks, height: 5000}\nlegs: {lengths: level}\n",
				tt.in*1000, (long-tt.in)*1000))
			require.NotNil(t, h.Bending)
			b := *h.Bending
			assert.Equal(t, "x", b.Axis)
			assert.InDelta(t, tt.sag, b.Sagging.KNm, 2e-5*max(tt.sag, w*long*long/8), "sagging")
			assert.InDelta(t, tt.hog, b.Hogging.KNm, 2e-5*max(tt.sag, w*long*long/8), "hogging")
			assert.InDelta(t, long/2, b.Sagging.AtM, 1e-6)
			if tt.name != "with a weight in the middle" {
				assert.InDelta(t, long*(math.Sqrt2-1)/2, b.BestEnds[0], 1e-4)
				assert.InDelta(t, long*(math.Sqrt2-1)/2, b.BestEnds[1], 1e-4)
				assert.InDelta(t, w*long*long*(3-2*math.Sqrt2)/8, b.BestKNm, 1e-4)
			}
			assert.LessOrEqual(t, b.BestKNm, max(b.Sagging.KNm, b.Hogging.KNm)*(1+1e-5))
		})
	}
}

// Four picks in two lines across a load along y are two; a stocky load, a third
// line of picks and a single line are not told.
func TestBendingIsOfSlenderLoadsOnTwoLines(t *testing.T) {
	long := func(x, y float64) string {
		return fmt.Sprintf("- {name: raft, box: %g x %g x 200, corner: [0, 0, 0]}", x, y)
	}
	four := "picks: [{name: A, at: [100, 2000, 300]}, {name: B, at: [900, 2000, 300]}, {name: C, at: [900, 8000, 300]}, {name: D, at: [100, 8000, 300]}]\nhook: {above: picks, height: 5000}\nlegs: {lengths: level}\n"
	h := hangs(t, long(1000, 10000), four)
	require.NotNil(t, h.Bending)
	assert.Equal(t, "y", h.Bending.Axis)
	assert.Equal(t, [2]float64{2, 8}, h.Bending.PicksM)
	weight := 2.0 * 7850 * 9.80665 / 1000 // kN, over 10 m
	scale := h.SizingKg / (2.0 * 7850)
	assert.InDelta(t, weight/10*2*2/2*scale, h.Bending.Hogging.KNm, 0.02*weight)

	assert.Nil(t, hangs(t, long(2000, 10000), four).Bending, "5 times as long as wide")
	assert.Nil(t, hangs(t, long(1000, 10000), "picks: [{name: A, at: [100, 2000, 300]}, {name: B, at: [900, 2000, 300]}, {name: C, at: [500, 5000, 300]}, {name: D, at: [500, 8000, 300]}]\nhook: {above: picks, height: 5000}\nlegs: {lengths: level}\n").Bending)
}

// A part that is heavier at one end has its CG where it is. A wedge hung by its
// ends has a sixth of its weight evenly over the thin half and five sixths over
// the thick one, for a CG at two thirds. By hand: the thick end pulls 2/3·W, the
// shear is nothing 0.4·L from it, where the moment is 2/3·0.4 − 5/3·0.4²/2 = 0.1333
// of W·L. The weight that grows evenly, which it is, makes 0.1283·W·L (handbooks
// of beams, from memory): the halves are on the safe side by 4 %.
func TestBendingOfALopsidedPart(t *testing.T) {
	h := hangs(t, "- {name: wedge, prism: {base: 12000, top: 0, height: 400, length: 300}, turn: [x 90], corner: [0, -150, 0]}",
		"picks: [{name: A, at: [0, 0, 500]}, {name: B, at: [12000, 0, 500]}]\nhook: {above: picks, height: 6000}\nlegs: {lengths: level}\n")
	require.NotNil(t, h.Bending)
	w := h.SizingKg * 9.80665 / 1000 * 12 // kN·m
	assert.InDelta(t, 0.8/6*w, h.Bending.Sagging.KNm, 1e-6*w)
	assert.Greater(t, h.Bending.Sagging.KNm, 0.1283*w)
}

// Proposed picks on a slender load say how it bends on them.
func TestProposedPicksTellTheBending(t *testing.T) {
	l := read(t, "load: girder\nunits: mm\nmaterial: structural steel\nparts:\n  - {name: girder, box: 12000 x 200 x 300, corner: [0, 0, 0]}\n")
	p, err := lift.Picks(l, lift.Options{})
	require.NoError(t, err)
	require.NotEmpty(t, p.Proposals)
	require.NotNil(t, p.Proposals[0].Legs.Bending)
	for _, one := range p.Proposals {
		if one.Legs.Bending == nil {
			continue // three picks stand in three lines
		}
		assert.Contains(t, strings.Join(one.Reasons, "\n"), "on picks 2.485 m")
	}
}
