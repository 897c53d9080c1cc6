package lift_test

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"plumbhook/lift"
)

// By hand for picks 4 × 2, hook 3 up, CG at (0.5, 0.2), W 100 kN: legs A and D on a
// balance beam pull alike where (37.5 + t)·3.448188 = (25 − t)·3.562303: t = −5.74132, V
// = 31.75868, 28.24132, 9.25868, 30.74132, T = V·L/3 with L = 3.448188, 3.986226,
// 4.085340, 3.562303.
func TestBalanceBeamFromLoadFileToTension(t *testing.T) {
	h := legsOf(t, offCentre+"sharing: {equalised: [[A, D]], because: \"balance beam, drawing R-7\"}\n")
	require.True(t, h.Solved)
	want := []float64{36.5033, 37.5254, 12.6083, 36.5033}
	assert.InDeltaSlice(t, want, tensions(h), 2e-3)
	for i, leg := range h.Legs {
		assert.InDelta(t, want[i], h.Sharing.Equalised[leg.Pick], 2e-3)
		assert.InDelta(t, want[i], leg.WorstTensionKN, 2e-3, "nothing else is in doubt")
	}
	assert.InDelta(t, 68.9638, h.Sharing.AnyLegSlack["A"], 2e-3, "beside it what it is below")
	assert.Contains(t, h.Basis, "below the governing basis")
	assert.Contains(t, h.Basis, "balance beam, drawing R-7")
	require.NotEmpty(t, h.Warnings, "on page 1")
	assert.Equal(t, "lower-basis", h.Warnings[0].Code)
	assert.Empty(t, h.Gear)
	assert.Contains(t, strings.Join(h.Assumptions, " "), "friction is not counted")
}

// Where the CG may be far to one side, gear would want a leg to push: refused, and
// the sizes stay those of any leg slack.
func TestGearThatCannotHold(t *testing.T) {
	load := strings.Replace(offCentre, "at: [0.5, 0.2, -0.5]", "at: [0, 0.9, -0.5]", 1)
	require.NotEqual(t, offCentre, load)
	h := legsOf(t, load+"sharing: {equalised: [[B, C]], because: a block}\n")
	assert.False(t, h.Verdict.Acceptable)
	assert.Contains(t, strings.Join(h.Verdict.Reasons, "; "), "legs B and C can't be made to pull alike so: leg D would have to push (best CG")
	assert.Contains(t, h.Basis, "any leg slack")
	h = legsOf(t, fourStiff+"legs: {lengths: 3.8}\nsharing: {equalised: [[A, C]], because: a block}\n")
	assert.Contains(t, strings.Join(h.Verdict.Reasons, "; "), "equalise two legs that stand side by side")
	stretch := strings.Replace(offCentre, "legs: {", "legs: {stretch: {EA: 40 MN}, ", 1)
	require.NotEqual(t, offCentre, stretch)
	h = legsOf(t, stretch+"sharing: {equalised: [[A, D]], because: a block}\n")
	assert.Contains(t, strings.Join(h.Verdict.Reasons, "; "), "not solved by this edition")
}

// Four legs are told which gear would settle them. For the centred rectangle every
// leg has 31.1805 kN at best, for W 100 and √14 m long.
func TestGearIsAdvised(t *testing.T) {
	h := legsOf(t, fourStiff+"legs: {lengths: 3.741657387}\n")
	require.Len(t, h.Gear, 2)
	assert.Equal(t, "reading", h.Gear[0].Way)
	assert.InDelta(t, 31.1805, *h.Gear[0].ReadingKN, 1e-2)
	assert.Contains(t, h.Gear[0].Text, "B 1.00 less, C 1.00 more, D 1.00 less")
	assert.Equal(t, "beam", h.Gear[1].Way)
	assert.InDelta(t, 31.1805, h.Gear[1].GreatestKN, 1e-3)
	// Following it gives what it said.
	beam := h.Gear[1].Picks
	h = legsOf(t, fourStiff+fmt.Sprintf("legs: {lengths: 3.741657387}\nsharing: {equalised: [[%s, %s]], because: a beam}\n", beam[0], beam[1]))
	assert.InDelta(t, 31.1805, h.Legs[0].TensionKN, 1e-3)
}

// With gear no leg pushes, the legs of the group pull alike, all carry the load, and
// no worst is below the best or above any leg slack by more than the lengths do.
func TestGearedLaws(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		x, y := rapid.Float64Range(-0.5, 0.5).Draw(t, "x"), rapid.Float64Range(-0.2, 0.2).Draw(t, "y")
		pair := rapid.SampledFrom([]string{"A, B", "B, C", "C, D", "D, A"}).Draw(t, "pair")
		h := legsOf(t, strings.Replace(offCentre, "at: [0.5, 0.2, -0.5]", fmt.Sprintf("at: [%.6f, %.6f, -0.5]", x, y), 1)+
			"sharing: {equalised: [["+pair+"]], because: a beam}\n")
		if h.Sharing.Equalised == nil {
			if h.Verdict.Acceptable {
				t.Fatal("no gear, and nothing against it")
			}
			return
		}
		sum := 0.0
		by := map[string]lift.Leg{}
		for _, leg := range h.Legs {
			by[leg.Pick] = leg
			sum += leg.TensionKN * math.Sin(leg.FromHorizontalDeg*math.Pi/180)
			if leg.TensionKN < 0 || leg.WorstTensionKN < leg.TensionKN-1e-9 {
				t.Fatalf("leg %s: %v kN, worst %v", leg.Pick, leg.TensionKN, leg.WorstTensionKN)
			}
		}
		a, b := by[pair[:1]], by[pair[3:]]
		if math.Abs(a.TensionKN-b.TensionKN) > 1e-9 || math.Abs(sum-100) > 1e-3 {
			t.Fatalf("%v and %v kN, the legs carry %v", a.TensionKN, b.TensionKN, sum)
		}
	})
}
