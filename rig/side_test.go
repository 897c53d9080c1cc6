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

// square4 is 10 kN on four legs of 60° to a hook over the middle.
func square4() Rig {
	picks := []geom.Vec{{1, 1, 0}, {-1, 1, 0}, {-1, -1, 0}, {1, -1, 0}}
	hook := geom.Vec{0, 0, math.Sqrt2 * math.Sqrt(3)}
	return Rig{Weight: 10e3, CG: geom.Vec{0, 0, -1}, Picks: picks, Lengths: LevelLengths(picks, hook)}
}

// By hand: a force at the CG is as good as gravity turned by atan(F/W), so hook,
// legs and load lean by that as one; the legs carry what they did, times
// √(1 + (F/W)²). At a distance d below the CG it tilts the load further: the hook
// stands over the load by h, and W·h·sin φ = F·(h + d)·cos φ.
func TestSideForceByHand(t *testing.T) {
	r := square4()
	still, err := r.Hang()
	require.NoError(t, err)
	for _, f := range []float64{100, 1000, 3000} {
		s, err := r.HangAside([]SideForce{{r.CG, geom.Vec{f, 0, 0}}})
		require.NoError(t, err)
		assert.InDelta(t, math.Atan(f/r.Weight), s.Lean, 1e-12)
		assert.InDelta(t, math.Atan(f/r.Weight), s.Tilt(), 1e-12, "as one")
		for i := range still.Tension {
			assert.InEpsilon(t, still.Tension[i]*math.Hypot(1, f/r.Weight), s.Tension[i], 1e-9)
		}
		assert.InDelta(t, 0, s.Couple, 1e-6)
		h, d := still.Hook[2]+1, 0.7
		s, err = r.HangAside([]SideForce{{r.CG.Sub(geom.Vec{0, 0, d}), geom.Vec{0, f, 0}}})
		require.NoError(t, err)
		assert.InDelta(t, math.Atan(f*(h+d)/(r.Weight*h)), s.Tilt(), 1e-12)
		assert.InDelta(t, h*math.Sin(s.Tilt()), s.CGOut, 1e-9)
		assert.True(t, s.Stable)
		// Off to the side by 0.5 m it turns the load about the plumb line.
		s, err = r.HangAside([]SideForce{{r.CG.Add(geom.Vec{0.5, 0, 0}), geom.Vec{0, f, 0}}})
		require.NoError(t, err)
		assert.InDelta(t, 0.5*f, s.Couple, 1e-9*f+1e-9)
	}
	var input *InputError
	_, err = r.HangAside([]SideForce{{r.CG, geom.Vec{5001, 0, 0}}})
	require.ErrorAs(t, err, &input)
}

// On two legs the load hangs as a pendulum about the hook's line across: the
// picks are L above the CG and the hook H above the picks, in one plane. Across
// that plane nothing but the roll about the picks holds it: hook over picks leans
// by φ = atan(F/W), and with the force d below the CG the load rolls about the
// picks by ψ: W·L·sin ψ = F·(L + d)·cos ψ.
func TestSideForceRollsTwoLegs(t *testing.T) {
	picks := []geom.Vec{{1, 0, 0}, {-1, 0, 0}}
	r := Rig{Weight: 20e3, CG: geom.Vec{0, 0, -0.8}, Picks: picks, Lengths: LevelLengths(picks, geom.Vec{0, 0, 2})}
	s, err := r.HangAside([]SideForce{{geom.Vec{0, 0, -1.1}, geom.Vec{0, 500, 0}}})
	require.NoError(t, err)
	assert.InDelta(t, math.Atan(500*1.1/(20e3*0.8)), s.Tilt(), 1e-9)
	// The legs' plane goes along the resultant.
	line := level(s.Hook, s.Up)
	assert.InDelta(t, 2*math.Sin(math.Atan(500/20e3)), line.Len(), 1e-9)
}

// Forces and moments on the load come to nothing but the couple about the plumb
// line, and the forces are level.
func TestSideForcesBalance(t *testing.T) {
	solved, given := 0, 0 // given up: a leg on the edge of slack, where the two methods part; then no figure is given
	rapid.Check(t, func(t *rapid.T) {
		r := drawRig(t)
		still := hang(t, r)
		if !still.Stable || still.RollsOver || still.Leaned || still.Margin < 0.2 {
			t.Skip("hangs badly in calm air")
		}
		var sides []SideForce
		for range rapid.IntRange(1, 2).Draw(t, "forces") {
			part, way := rapid.Float64Range(0, 0.1).Draw(t, "force"), rapid.Float64Range(0, 2*math.Pi).Draw(t, "way")
			at := r.CG
			for k := range at {
				at[k] += rapid.Float64Range(-1, 1).Draw(t, "at")
			}
			sides = append(sides, SideForce{at, geom.Vec{part * r.Weight * math.Cos(way), part * r.Weight * math.Sin(way), 0}})
		}
		s, err := r.HangAside(sides)
		var reach *ReachError
		if errors.As(err, &reach) {
			t.Skip(err)
		}
		if errors.Is(err, ErrDisagree) {
			given++
			t.Skip(err)
		}
		if err != nil {
			if still.First.Shift > 0.5 && still.Margin > 1 && still.Tilt() < 0.2 {
				t.Fatalf("%v: %+v %+v", err, r, sides)
			}
			t.Skip(err)
		}
		solved++
		force, size := s.Up.Mul(-r.Weight), 2*r.size()
		moment := s.Up.Mul(-s.Couple)
		for j, f := range s.Forces {
			if math.Abs(f.Dot(s.Up)) > 1e-9*r.Weight || math.Abs(f.Len()-sides[j].Force.Len()) > 1e-9*r.Weight {
				t.Fatalf("force %v is not %v made level", f, sides[j].Force)
			}
			force = force.Add(f)
			moment = moment.Add(sides[j].At.Sub(r.CG).Cross(f))
		}
		for i, pick := range r.Picks {
			way := s.Hook.Sub(pick)
			if s.Tension[i] < 0 || way.Len() > r.Lengths[i]+2e-8*r.size() || (s.Tension[i] > 1e-6*r.Weight && way.Len() < r.Lengths[i]-2e-8*r.size()) {
				t.Fatalf("leg %d: %v N over %v m of %v m", i+1, s.Tension[i], way.Len(), r.Lengths[i])
			}
			pull := way.Mul(s.Tension[i] / way.Len())
			force = force.Add(pull)
			moment = moment.Add(pick.Sub(r.CG).Cross(pull))
		}
		if force.Len() > 1e-9*r.Weight || moment.Len() > 1e-9*r.Weight*size {
			t.Fatalf("force left over %v N, moment %v N·m of %v N: %+v %+v %+v %+v", force.Len(), moment.Len(), r.Weight, r, sides, s, still)
		}
	})
	assert.Greater(t, solved, 20)
	assert.LessOrEqual(t, given, 1+solved/500)
	t.Logf("%d solved, %d given up", solved, given)
}

func BenchmarkHangAside(b *testing.B) {
	r := square4()
	still, err := r.Hang()
	require.NoError(b, err)
	side := []SideForce{{geom.Vec{0.2, 0.1, -1.3}, geom.Vec{300, 200, 0}}}
	for b.Loop() {
		if _, err := r.asideFrom(still, side); err != nil {
			b.Fatal(err)
		}
	}
}
