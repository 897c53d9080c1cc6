package lift

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"plumbhook/geom"
)

// TestCGSum: 2 kg at x 1 m and 6 kg at x 3 m balance at (2·1 + 6·3) ÷ 8 = 2.5 m
// (moments by hand).
func TestCGSum(t *testing.T) {
	w := Weight{Parts: []Part{{Name: "a", MassKg: 2, CGM: geom.Vec{1, 0, 0}}}, Allowances: []Allowance{{Name: "b", BestKg: 6, CGM: geom.Vec{3, 0, 4}}}}
	s := w.CGSum()
	assert.Equal(t, 8.0, s.MassKg)
	assert.Equal(t, geom.Vec{20, 0, 24}, s.MomentKgM)
	assert.Equal(t, geom.Vec{2.5, 0, 3}, s.CGM)
	assert.Equal(t, "allowance: b", s.Lines[1].Name)
	assert.Equal(t, CGSum{}, Weight{}.CGSum(), "nothing has no CG, and no NaN")
}

// TestForceSum: two legs 3 m up and 4 m out carry 1000 kg with 9.80665 ÷ 2 ÷ 0.6
// kN each (statics by hand). Legs that do not balance are no sum to show.
func TestForceSum(t *testing.T) {
	const tension = 9.80665 / 2 / 0.6
	s := LiftSheet{Weigh: Weight{CGM: geom.Vec{0, 0, -1}}, Legs: Hanging{Solved: true, PlanningKg: 1000, Posed: &Posed{HookM: geom.Vec{0, 0, 3}},
		Legs: []Leg{{Pick: "a", AtM: geom.Vec{-4, 0, 0}, TensionKN: tension}, {Pick: "b", AtM: geom.Vec{4, 0, 0}, TensionKN: tension}}}}
	f, ok := s.ForceSum()
	require.True(t, ok)
	assert.InDelta(t, 9.80665, f.SumKN[2], 1e-12)
	assert.InDelta(t, 0, f.SumKN[0], 1e-12)
	assert.InDelta(t, 5, f.Lines[0].DistanceM, 1e-12)
	assert.InDelta(t, 3, f.Lines[0].RiseM, 1e-12)
	high, ok := s.HookAbovePicksM()
	assert.True(t, ok)
	assert.InDelta(t, 3, high, 1e-12)

	s.Legs.Legs[0].TensionKN *= 1.01
	_, ok = s.ForceSum()
	assert.False(t, ok)
	s.Legs.Legs[0].TensionKN = math.NaN()
	_, ok = s.ForceSum()
	assert.False(t, ok)
	_, ok = LiftSheet{}.ForceSum()
	assert.False(t, ok)
}

// TestCounted: 10 kN × 1.2 ÷ 0.8 is 15 kN, 1529.57 kg at 9.80665 m/s² (by hand);
// where the set as a whole governs the factors do not give it.
func TestCounted(t *testing.T) {
	s := Sizing{Factors: []Factor{{Name: "dynamic: stated", Value: 1.2}, {Name: "hitch: choker", Value: 0.8}, {Name: "mode: two legs", Value: 1.4}},
		Governing: Governing{TensionKN: 10, RequiredKg: 15000 / 9.80665}}
	kN, ok := s.Counted()
	assert.True(t, ok)
	assert.InDelta(t, 15, kN, 1e-12)
	s.Governing.RequiredKg++
	_, ok = s.Counted()
	assert.False(t, ok)
}

// TestOfCapacity counts what is heavier: hung, or held down at lift-off.
func TestOfCapacity(t *testing.T) {
	part, ok := Gross{TotalKg: 5, LiftOffKg: 8, CapacityKg: 10}.OfCapacity()
	assert.True(t, ok)
	assert.Equal(t, 0.8, part)
	_, ok = Gross{TotalKg: 5}.OfCapacity()
	assert.False(t, ok)
}
