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

// crate weighs 2000 kg, 4 × 2 × 1 m, on four legs to a hook 3 m over its top. The
// CG is as good as certain, and in the middle of the box where the wind pushes.
func crate(more string) string {
	return `
load: crate
units: m
parts:
  - {name: crate, weight: 2000 kg, center: [0, 0, 0.5], tolerance: 0.0001 %, box: 4 x 2 x 1, status: weighed}
picks:
  - {name: A, at: [2, 1, 1]}
  - {name: B, at: [-2, 1, 1]}
  - {name: C, at: [-2, -1, 1]}
  - {name: D, at: [2, -1, 1]}
hook: {above: picks, height: 3}
legs: {lengths: level}
rules: EN
` + more
}

// Wind of a stated area from any side loads a leg no less than wind from just where
// that leg stands, which is none of the headings all round.
func TestWindAlongALeg(t *testing.T) {
	any, err := lift.Legs(read(t, crate("wind: {pressure: 90 N/m2, area: 3 m2}")), lift.Options{})
	require.NoError(t, err)
	for _, from := range []string{"[2, 1, 0]", "[-2, -1, 0]", "[2, -1, 0]", "[1, 2, 0]", "[7, 3.3, 0]"} {
		one, err := lift.Legs(read(t, crate("wind: {pressure: 90 N/m2, area: 3 m2, from: "+from+"}")), lift.Options{})
		require.NoError(t, err)
		for i, leg := range one.SideForces.Legs {
			assert.LessOrEqual(t, leg.MoreKN, any.SideForces.Legs[i].MoreKN*(1+1e-6), "leg %s, from %s", leg.Pick, from)
		}
	}
}

// By hand: 12 m/s is 0.5·1.25·12² = 90 N/m². The box shows the wind along x 2 m²,
// along y 4 m², and most at 1·√(4² + 2²) = √20 m² square to its diagonal. With a
// shape factor of 1.3 that is 90·1.3·√20 = 523.2 N on 19 613.3 N: 1.528° out of
// plumb, the load with it, since wind and weight both act at the CG.
func TestWindByHand(t *testing.T) {
	calm, err := lift.Legs(read(t, crate("")), lift.Options{})
	require.NoError(t, err)
	assert.Nil(t, calm.SideForces)
	assert.Contains(t, strings.Join(calm.Assumptions, "\n"), "no wind and no suction or adhesion at lift-off")
	for _, tt := range []struct {
		wind  string
		force float64 // N
	}{
		{"wind: {speed: 12 m/s, shape factor: 1.3}", 90 * 1.3 * math.Sqrt(20)},
		{"wind: {speed: 12 m/s, shape factor: 1.3, from: x}", 90 * 1.3 * 2},
		{"wind: {speed: 12 m/s, shape factor: 1.3, from: -y}", 90 * 1.3 * 4},
		{"wind: {pressure: 90 N/m2, shape factor: 1.3, area: 3 m2, from: y}", 90 * 1.3 * 3},
		{"wind: {pressure: 90 N/m2, area: 3 m2}", 90 * 2 * 3}, // the shape factor that is taken if none is stated
		{"tag line: {pull: 300 N, toward: y, at: [0, 0, 0.5]}", 300},
		{"wind: {speed: 12 m/s, shape factor: 1.3, from: -y}\ntag line: {pull: 300 N, toward: y, at: [0, 0, 0.5]}", 90*1.3*4 + 300},
	} {
		h, err := lift.Legs(read(t, crate(tt.wind)), lift.Options{})
		require.NoError(t, err)
		s := h.SideForces
		require.NotNil(t, s, h.Verdict.Reasons)
		lean := 180 / math.Pi * math.Atan(tt.force/(2000*9.80665))
		assert.InDelta(t, tt.force/1000, s.MostKN, 1e-9, tt.wind)
		assert.InDelta(t, lean, s.LeanDeg, 1e-4, tt.wind)
		assert.InDelta(t, math.Tan(lean*math.Pi/180), s.SwingPerM, 1e-5)
		assert.InDelta(t, lean, s.MoreTiltDeg, 1e-3)
		assert.InDelta(t, calm.TiltWorstDeg+lean, h.TiltWorstDeg, 1e-3)
		assert.InDelta(t, 0, s.TurnKNM, 1e-6)
		// As one: the legs carry √(1 + (F/W)²) times what they do in calm air.
		more := math.Hypot(1, tt.force/(2000*9.80665)) - 1
		for i, leg := range s.Legs {
			assert.InDelta(t, calm.Legs[i].WorstTensionKN*more, leg.MoreKN, 1e-4*calm.Legs[i].WorstTensionKN, "leg %s in %s", leg.Pick, tt.wind)
			assert.LessOrEqual(t, leg.LessAngleDeg, lean+1e-5) // what the solver leaves
			assert.InDelta(t, calm.Legs[i].WorstTensionKN+leg.MoreKN, h.Legs[i].WorstTensionKN, 1e-9)
		}
		assert.True(t, h.Verdict.Acceptable, h.Verdict.Reasons)
	}
}

// Wind on an area 1 m to the side of the hook turns the load with F·1 m, which a
// tag line at a lever of 2 m holds with F/2.
func TestWindTurnsALoadThatIsUneven(t *testing.T) {
	h, err := lift.Legs(read(t, crate("wind: {pressure: 100 N/m2, shape factor: 1, area: 4 m2, at: [1, 0, 0.5], from: y}\ntag line: {at: [-2, 0, 0]}")), lift.Options{})
	require.NoError(t, err)
	assert.InDelta(t, 0.4, h.SideForces.TurnKNM, 1e-4)
	require.NotNil(t, h.SideForces.TurnPullKN)
	assert.InDelta(t, 2, h.SideForces.TurnLeverM, 1e-5)
	assert.InDelta(t, 0.2, *h.SideForces.TurnPullKN, 1e-4)
	assert.InDelta(t, 0.4, h.SideForces.HoldPullKN, 1e-9)
}

// What side forces make of a limit: each of these is fine in calm air.
func TestSideForcesAreJudged(t *testing.T) {
	for _, tt := range []struct{ more, reason string }{
		{"wind: {speed: 12 m/s}\nlimits: {tilt: 2}", "wind and tag line in, more than the limit"},
		{"wind: {speed: 20 m/s}\nlimits: {least angle from horizontal: 53}", "wind and tag line in"},
		{"wind: {speed: 45 m/s}", "more than half of what it weighs"},
		{"wind: {speed: 20 m/s}\nlimits: {tilt: 10, crane: {capacity: 2.005 t}}", "over capacity with a side force"},
	} {
		calm := tt.more[strings.Index(tt.more+"\n", "\n"):]
		h, err := lift.Legs(read(t, crate(calm)), lift.Options{})
		require.NoError(t, err)
		require.True(t, h.Verdict.Acceptable, "%s: %v", calm, h.Verdict.Reasons)
		h, err = lift.Legs(read(t, crate(tt.more)), lift.Options{})
		require.NoError(t, err)
		assert.False(t, h.Verdict.Acceptable, tt.more)
		assert.Contains(t, strings.Join(h.Verdict.Reasons, "\n"), tt.reason)
	}
}

// EN 13000's area of 1.2 m²/t (from memory): √20 m² of factor 1.3 on 2 t are
// 2.907 m²/t, so that the crane's limit falls to √(1.2/2.907) = 0.642 of itself.
func TestSailArea(t *testing.T) {
	h, err := lift.Legs(read(t, crate("wind: {speed: 5 m/s, shape factor: 1.3}")), lift.Options{})
	require.NoError(t, err)
	require.NotNil(t, h.SideForces.CraneFactor)
	assert.InDelta(t, 0.642, *h.SideForces.CraneFactor, 1e-3)
	h, err = lift.Legs(read(t, crate("wind: {speed: 5 m/s, shape factor: 1.3, area: 1.8 m2}")), lift.Options{})
	require.NoError(t, err)
	assert.Nil(t, h.SideForces.CraneFactor, "1.17 m²/t")
}

// By hand: 5 kN/m² on 8 m² are 40 kN besides 19.6133 kN, both in the middle: each
// leg carries (59.6133/19.6133) times what it does hung free, 3.0394.
func TestSuctionByHand(t *testing.T) {
	free, err := lift.Slings(read(t, crate("factors: {dynamic: 1.2}")), lift.Options{})
	require.NoError(t, err)
	hung, err := lift.Legs(read(t, crate("")), lift.Options{})
	require.NoError(t, err)
	l := read(t, crate("factors: {dynamic: 1.2}\nlift-off: {suction: 5 kN/m2, area: underside}"))
	h, err := lift.Legs(l, lift.Options{})
	require.NoError(t, err)
	require.NotNil(t, h.LiftOff)
	assert.InDelta(t, 40, h.LiftOff.PullKN, 1e-9)
	assert.InDelta(t, 2000+40000/9.80665, h.LiftOff.HookKg, 0.01)
	assert.True(t, h.LiftOff.Governs)
	for _, leg := range hung.Legs {
		assert.InDelta(t, 3.0394*leg.WorstTensionKN, h.LiftOff.Tension[leg.Pick], 2e-4*leg.WorstTensionKN)
	}
	// It is sized on once: not times the dynamic factor as well.
	s, err := lift.Slings(l, lift.Options{})
	require.NoError(t, err)
	assert.InEpsilon(t, 3.0394/1.2, s.Governing.RequiredKg/free.Governing.RequiredKg, 1e-4)
	assert.InEpsilon(t, 1.2*s.Governing.TensionKN, s.Governing.LiftOffKN, 1e-9)
	both, err := lift.Slings(read(t, crate("factors: {dynamic: 1.2}\nlift-off: {suction: 5 kN/m2, area: underside, with dynamic: true}")), lift.Options{})
	require.NoError(t, err)
	assert.InEpsilon(t, 3.0394, both.Governing.RequiredKg/free.Governing.RequiredKg, 1e-4)
	// A pull below the dynamic factor does not govern: 8 m² of 0.2 kN/m² are 1.6 kN
	// on 19.6, 8 % against 20 %.
	small, err := lift.Slings(read(t, crate("factors: {dynamic: 1.2}\nlift-off: {adhesion: 0.2 kN/m2, area: 8 m2}")), lift.Options{})
	require.NoError(t, err)
	assert.InEpsilon(t, free.Governing.RequiredKg, small.Governing.RequiredKg, 1e-9)
	assert.Zero(t, small.Governing.LiftOffKN)
}

// Off to one side the pull goes to the legs of that side by levers: with weight and
// pull as one force P at x from the middle, the legs at +2 take P·(2 + x)/4 and those
// at −2 the rest. Any leg slack: each side of the long way carries P/2 (the force is
// midway across), so A carries most, P/2, where B carries nothing; and B most where A
// carries least, P·(2 + x)/4 − P/2, so that B = P − P·(2 + x)/4 − C and C = 0 bounds it.
func TestSuctionOffTheMiddle(t *testing.T) {
	h, err := lift.Legs(read(t, strings.Replace(crate("lift-off: {suction: 5 kN/m2, area: 1 m2, at: [1.5, 0, 0]}"), "hook: {above: picks, height: 3}\nlegs: {lengths: level}", "legs: {lengths: 1000}", 1)), lift.Options{})
	require.NoError(t, err)
	total := 2000*9.80665/1000 + 5
	x := 5 * 1.5 / total
	for i, want := range []float64{total / 2, total * (2 - x) / 4, total * (2 - x) / 4, total / 2} {
		name := h.Legs[i].Pick // legs a kilometre long stand as good as plumb
		assert.InEpsilon(t, want, h.LiftOff.Tension[name], 2e-4, "leg %s; two parts in ten thousand for the legs' slant", name)
	}
}

// The crane carries load and pull together.
func TestCraneAtLiftOff(t *testing.T) {
	for _, tt := range []struct {
		capacity string
		fine     bool
	}{{"6.2 t", true}, {"6.0 t", false}} { // 2000 + 4079 kg
		h, err := lift.Legs(read(t, crate(fmt.Sprintf("lift-off: {suction: 5 kN/m2, area: underside}\nlimits: {crane: {capacity: %s}}", tt.capacity))), lift.Options{})
		require.NoError(t, err)
		assert.Equal(t, tt.fine, h.Verdict.Acceptable, h.Verdict.Reasons)
		assert.Equal(t, !tt.fine, strings.Contains(strings.Join(h.Verdict.Reasons, "\n"), "over capacity at lift-off"))
	}
	s, err := lift.Slings(read(t, crate("lift-off: {suction: 5 kN/m2, area: underside}\nlimits: {crane: {capacity: 6.08 t}}")), lift.Options{})
	require.NoError(t, err)
	assert.Contains(t, strings.Join(s.Verdict.Reasons, "\n"), "over capacity at lift-off", "with the slings, 1 kg more than the crane has")
}

// Nothing to push on is a fault of the input, with its line.
func TestWindOnAPoint(t *testing.T) {
	const point = "load: weight\nunits: m\nparts: [{name: a, weight: 10 kg, center: [0, 0, 0], tolerance: 1 %}]\npicks: [{name: A, at: [0, 0, 1]}]\nlegs: {lengths: 2}\n"
	_, err := lift.Legs(read(t, point+"wind: {speed: 5 m/s}\n"), lift.Options{})
	assert.ErrorContains(t, err, "no size for the wind")
	_, err = lift.Legs(read(t, point+"wind: {speed: 5 m/s, area: 0.1 m2, at: [0, 0, 0]}\n"), lift.Options{})
	assert.NoError(t, err)
	_, err = lift.Legs(read(t, point+"lift-off: {suction: 1 kN/m2, area: underside}\n"), lift.Options{})
	assert.ErrorContains(t, err, "no underside")
}

// A leg near to slack in calm air goes slack in the wind: three picks, the CG
// 0.1 m inside the side A–B of a hook 3 m over it. By hand C carries a part
// 0.1/2.1 of the plumb load; a wind F at the CG's height leans hook and load as one and
// takes nothing off it, but 1 m higher it acts as if the CG were F·1/W to the lee (moments
// about the CG): with F = 0.15·W that is 0.15 m, beyond A–B. 1 m lower it is to windward.
func TestWindTakesALegsLoad(t *testing.T) {
	const three = `
load: three
units: m
parts:
  - {name: crate, weight: 2000 kg, center: [0, 0, -1], tolerance: 0.0001 %, box: 2 x 2 x 2, status: weighed}
picks:
  - {name: A, at: [-0.1, 1, 0]}
  - {name: B, at: [-0.1, -1, 0]}
  - {name: C, at: [2, 0, 0]}
hook: {above: picks, height: 3}
legs: {lengths: level}
limits: {tilt: 45}
`
	h, err := lift.Legs(read(t, three+"wind: {pressure: 490.33 N/m2, shape factor: 1, area: 6 m2, at: [0, 0, -1], from: x}"), lift.Options{})
	require.NoError(t, err)
	require.NotNil(t, h.SideForces, h.Verdict.Reasons)
	assert.Empty(t, h.SideForces.Legs[2].Slack)
	h, err = lift.Legs(read(t, three+"wind: {pressure: 490.33 N/m2, shape factor: 1, area: 6 m2, at: [0, 0, 0], from: x}"), lift.Options{})
	require.NoError(t, err)
	require.NotNil(t, h.SideForces, h.Verdict.Reasons)
	assert.Contains(t, h.SideForces.Legs[2].Slack, "wind from +x")
	low, err := lift.Legs(read(t, three+"wind: {pressure: 490.33 N/m2, shape factor: 1, area: 6 m2, at: [0, 0, -2], from: x}"), lift.Options{})
	require.NoError(t, err)
	assert.Empty(t, low.SideForces.Legs[2].Slack)
	var codes []string
	for _, w := range h.Warnings {
		codes = append(codes, w.Code)
	}
	assert.Contains(t, codes, "slack-aside")
}

// Concrete sticks to its form: said where nothing is stated, silent where it is.
func TestConcreteIsAskedForAdhesion(t *testing.T) {
	const slab = "load: slab\nunits: m\nmaterial: plain concrete\nparts: [{name: slab, plate: 2 x 1 x 0.2, corner: [0, 0, 0]}]\n"
	h, err := lift.Legs(read(t, slab), lift.Options{})
	require.NoError(t, err)
	assert.Contains(t, strings.Join(h.Assumptions, "\n"), "1 to 3 kN/m²")
	assert.Nil(t, h.LiftOff, "a hint, never a figure that is taken")
	h, err = lift.Legs(read(t, slab+"lift-off: {adhesion: 2 kN/m2, area: underside}\n"), lift.Options{})
	require.NoError(t, err)
	assert.NotContains(t, strings.Join(h.Assumptions, "\n"), "1 to 3 kN/m²")
	assert.InDelta(t, 4, h.LiftOff.PullKN, 1e-9, "2 kN/m² on 2 m²")
}

// The dynamic factor is taken once, on tensions with what the wind adds in them.
func TestDynamicFactorOnceWithWind(t *testing.T) {
	l := read(t, crate("factors: {dynamic: 1.2}\nwind: {speed: 12 m/s}"))
	h, err := lift.Legs(l, lift.Options{})
	require.NoError(t, err)
	s, err := lift.Slings(l, lift.Options{})
	require.NoError(t, err)
	most := 0.0
	for _, leg := range h.Legs {
		most = max(most, leg.WorstTensionKN)
	}
	assert.InEpsilon(t, most, s.Governing.TensionKN, 1e-12)
	assert.InEpsilon(t, 1.2*most*1000/9.80665, s.Governing.RequiredKg, 1e-9)
	times := 0
	for _, f := range s.Factors {
		if strings.HasPrefix(f.Name, "dynamic") {
			times++
		}
	}
	assert.Equal(t, 1, times)
}
