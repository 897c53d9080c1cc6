// Package samples_test holds the samples to what they are here to show: each is
// read, weighed against a calculation by hand and lifted.
package samples_test

import (
	"math"
	"os"
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"plumbhook/lift"
	"plumbhook/takeoff"
)

// samples are the load files of this folder, each with what it must come to.
var samples = []struct {
	file     string
	warnings []string // their codes
	least    float64  // degrees from horizontal that no leg may come below
	most     float64  // degrees that it may hang out of level, at the worst
}{
	{"conveyor-spreader.yaml", nil, 45, 2},
	{"gearbox-stl.yaml", []string{"no-link"}, 45, 2},
	{"motor-rack.yaml", []string{"inspection-not-checked"}, 45, 3},
	{"pipe-spool.yaml", []string{"bight-rolls", "slings"}, 60, 3},
	{"press-frame.yaml", nil, 45, 2},
	{"pump-skid-us.yaml", []string{"cg-above-pick"}, 45, 5},
	{"rinse-tank.yaml", []string{"free-liquid", "free-liquid", "rule-undersizes"}, 45, 7},
	{"roof-two-tiers.yaml", []string{"cg-above-pick"}, 45, 2},
	{"stack-section.yaml", []string{"hand-over", "slings-plumb", "slings"}, 90, 0},
	{"stair-flight.yaml", []string{"cg-above-pick"}, 45, 4},
}

// sheet takes a sample down the whole line.
func sheet(t *testing.T, file string) lift.LiftSheet {
	t.Helper()
	load, err := takeoff.Read(os.DirFS("."), file, takeoff.Options{})
	require.NoError(t, err)
	s, err := lift.Sheet(load, lift.Options{})
	require.NoError(t, err)
	require.NotNil(t, s.Slings)
	return s
}

// TestEverySampleIsHere lets no sample lie untested in the folder.
func TestEverySampleIsHere(t *testing.T) {
	found, err := filepath.Glob("*.yaml")
	require.NoError(t, err)
	var names []string
	for _, s := range samples {
		names = append(names, s.file)
	}
	assert.Equal(t, names, found)
}

// TestSamplesAreAcceptable: a newcomer's first lifts are sound ones.
func TestSamplesAreAcceptable(t *testing.T) {
	for _, sample := range samples {
		t.Run(sample.file, func(t *testing.T) {
			s := sheet(t, sample.file)
			assert.True(t, s.Verdict.Acceptable, "%v", s.Verdict.Reasons)
			assert.Empty(t, s.Verdict.Reasons)
			var codes []string
			for _, w := range s.Warnings {
				codes = append(codes, w.Code)
			}
			assert.Equal(t, sample.warnings, codes, "%v", s.Warnings)
			require.NotEmpty(t, s.Legs.Legs)
			for _, leg := range s.Legs.Legs {
				assert.GreaterOrEqual(t, leg.WorstFromHorizontalDeg, sample.least, "leg %s", leg.Pick)
				assert.Positive(t, leg.TensionKN, "leg %s", leg.Pick)
				assert.GreaterOrEqual(t, leg.WorstTensionKN, leg.TensionKN, "leg %s", leg.Pick)
			}
			if s.Legs.Posed != nil { // on two hooks it is turned as meant
				assert.LessOrEqual(t, s.Legs.TiltWorstDeg, sample.most)
			}
			assert.True(t, s.Legs.StableWorst)
			assert.NotEmpty(t, choices(s), "no sling to choose")
		})
	}
}

// choices are the families of which a size was chosen, by what is said of them.
func choices(s lift.LiftSheet) map[string][]string {
	out := map[string][]string{}
	for _, f := range s.Slings.Families {
		if f.Choice != nil {
			out[f.Use] = append(out[f.Use], f.Family)
		}
	}
	return out
}

// TestLegsCarryTheLoad: the vertical parts of the tensions make up the weight.
// Standard gravity: 3rd CGPM, 1901.
func TestLegsCarryTheLoad(t *testing.T) {
	for _, sample := range samples {
		s := sheet(t, sample.file)
		if s.Legs.TwoHooks != nil {
			continue // each sling at its own worst angle; see TestStackSectionShares
		}
		sum := 0.0
		for _, leg := range s.Legs.Legs {
			sum += leg.TensionKN * math.Sin(leg.FromHorizontalDeg*math.Pi/180)
		}
		weight := s.Weigh.Weight.PlanningKg * 9.80665 / 1000
		assert.InDelta(t, weight, sum, 1e-9*weight, "%s: kN", sample.file)
	}
}

// TestPressFrameLegs. Figures worked by hand from the weight of 5758.82 kg × 1.05
// (59.30 kN) and the CG at (0.8714, 0.5024, 1.3325).
func TestPressFrameLegs(t *testing.T) {
	s := sheet(t, "press-frame.yaml")
	assert.Equal(t, 6046.76, math.Round(s.Weigh.Weight.SizingKg*100)/100, "planning weight, above the highest weight")
	assert.InDelta(t, s.Weigh.CGM[0], s.Legs.HookM[0], 1e-9, "hook plumb over the CG")
	assert.InDelta(t, s.Weigh.CGM[1], s.Legs.HookM[1], 1e-9, "hook plumb over the CG")
	assert.InDelta(t, 0, s.Legs.TiltDeg, 1e-6, "cut to hang level")
	assert.InDelta(t, 1.34, s.Legs.HeadroomM, 1e-9, "m: hook at 2.4 + 1.4, top of the lugs at 2.46")

	// With the back left leg slack the back right one carries all that the back
	// carries: (0.5024 − 0.2)/0.6 of the weight, 29.89 kN, by levers. It runs
	// √(0.6286² + 0.2976²) = 0.6955 across to a hook 1.4 up:
	// × √(0.6955² + 1.4²)/1.4.
	assert.InDelta(t, 33.37, s.Legs.Sharing.AnyLegSlack["back right"], 0.01, "kN")
	assert.Equal(t, "back right", s.Legs.Governing)
	assert.Greater(t, s.Legs.Legs[2].WorstTensionKN, 33.38, "kN: tolerances come on top")

	// EN counts four legs as 2.1 while none is more than 45° from vertical, from
	// memory of EN 818-4: 59.30 / 2.1.
	assert.InDelta(t, 28.24, s.Legs.Sharing.RuleSet["back right"], 0.01, "kN")

	use := choices(s)
	assert.ElementsMatch(t, []string{"synthetic_web", "synthetic_web", "synthetic_web", "round_sling"}, use["yes"], "all is stated and harmless to textiles")
	assert.NotEmpty(t, use["care"], "bare chain and rope mark a painted surface")
}

// TestPumpSkidLeans. Legs of one length put the hook over the middle of the four
// picks, 0.0753 m east and 0.0017 m north of the CG; the hook comes to stand
// √(3.6576² − 1.6002² − 0.7747²) = 3.1964 above the picks (legs of 12 ft, half
// of 10' 6" and of 5' 1"), which is 3.0006 above the CG. The skid leans by the
// angle whose tangent is 0.0753 / 3.0006.
func TestPumpSkidLeans(t *testing.T) {
	s := sheet(t, "pump-skid-us.yaml")
	assert.InDelta(t, 1.438, s.Legs.TiltDeg, 0.002, "degrees")
	assert.InDelta(t, 0.2921+3.1964, s.Legs.HookM[2], 0.0001, "m")
	for _, f := range s.Slings.Families {
		assert.Equal(t, "care", f.Use, "%s: nobody has stated the chemicals", f.Family)
		assert.Contains(t, f.Reasons, "not stated: chemicals", f.Family)
	}
}

// TestGearboxIsProposedPicks: it names none, so that they are found, level on
// its own top with the CG between them, and the sheet says that they were.
func TestGearboxIsProposedPicks(t *testing.T) {
	s := sheet(t, "gearbox-stl.yaml")
	require.NotEmpty(t, s.Picks.Proposals)
	best := s.Picks.Proposals[0]
	assert.False(t, best.Given)
	require.GreaterOrEqual(t, len(best.Picks), 2)
	for _, p := range best.Picks {
		assert.InDelta(t, 0.68, p.AtM[2], 1e-9, "m: the top of the housing")
	}
	assert.NotEmpty(t, s.Assumptions)
	flattest := 90.0
	for _, leg := range s.Legs.Legs {
		flattest = min(flattest, leg.FromHorizontalDeg)
	}
	assert.InDelta(t, 60, flattest, 1e-6, "degrees: taken where neither hook nor legs are given")
}

// TestStairFlightHangsOnItsSlope. By hand from 473.19 kg and the CG at x 2.0993, z
// 0.1572. Turned 37° with its head up a place (x, z) stands at x·cos 37° − z·sin 37°
// and x·sin 37° + z·cos 37°: the CG at 1.5820 and 1.3889, the head picks at 2.4369 and
// 2.2495, the foot picks at 0.4403 and 0.7450, the hook 1.8 above the head's at 4.0495.
// Foot legs run 1.1417 and 0.494 and rise 3.3045: 3.5309 m; head legs run 0.8549 and
// 0.494 and rise 1.8: 2.0530 m. Level: V_f·1.1417/3.3045 = V_h·0.8549/1.8 and V_f + V_h =
// 2.3202 kN: V_f = 1.3432, V_h = 0.9770, so 1.4352 and 1.1144 kN along the legs.
func TestStairFlightHangsOnItsSlope(t *testing.T) {
	s := sheet(t, "stair-flight.yaml")
	assert.InDelta(t, 0, s.Legs.TiltDeg, 1e-6, "from the slope")
	require.NotNil(t, s.Legs.Attitude)
	assert.InDelta(t, 37, s.Legs.Attitude.Deg, 1e-9)
	// Polyester stretches 3 to 7 % at its rated load (from memory), 5 % in the
	// middle. The least round sling of the EN table is of 1 t, 9.80665 kN.
	for i, want := range []struct{ length, kN float64 }{{3.5309, 1.4352}, {2.0530, 1.1144}, {2.0530, 1.1144}, {3.5309, 1.4352}} {
		leg := s.Legs.Stretch.Legs[i]
		assert.InDelta(t, want.length, leg.LoadedM, 1e-3, "m: leg %s", leg.Pick)
		assert.InDelta(t, want.kN, s.Legs.Legs[i].TensionKN, 2e-3, "kN: leg %s", leg.Pick)
		assert.InDelta(t, 0.05*want.kN/9.80665*leg.UnloadedM, leg.LongerM, 1e-4, "m: leg %s", leg.Pick)
	}
}

// TestConveyorUnderASpreader. By hand from 2149.44 kg × 1.05 at x = 3.8009: the
// head end, 4.8 m from the tail end, holds by levers (3.8009 − 0.8)/4.8 of 22.133
// kN, 13.837 kN, on two drops that rise 1.6 in √(1.6² + 0.594²) = 1.7067: 7.380
// kN each. Hook plumb over station and bar: (2256.91 × 3.8009 + 190 × 3.2)/2446.91
// = 3.7543.
func TestConveyorUnderASpreader(t *testing.T) {
	s := sheet(t, "conveyor-spreader.yaml")
	assert.InDelta(t, 0, s.Legs.TiltDeg, 1e-4, "cut to hang level")
	assert.InDelta(t, 7.380, s.Legs.Legs[1].TensionKN, 0.002, "kN")
	assert.InDelta(t, 7.380, s.Legs.Legs[2].TensionKN, 0.002, "kN")
	assert.InDelta(t, 3.7543, s.Legs.HookM[0], 0.0003, "m")
	require.Len(t, s.Slings.Sets, 2)
	// What the hook carries is the sum of what the top legs hold up.
	up := 0.0
	for _, leg := range s.Legs.UpperLegs {
		up += leg.TensionKN * math.Sin(leg.FromHorizontalDeg*math.Pi/180)
	}
	assert.InDelta(t, (s.Weigh.Weight.PlanningKg+190)*9.80665/1000, up, 1e-6, "kN")
}

// TestRoofOnTwoTiers: statics alone settles the drops. By levers from the CG at
// (4.1905, 2.0357), as the drops are plumb: the east picks hold (4.1905 − 1.5)/5
// of the weight, of that the north one (2.0357 − 0.05)/3.9.
func TestRoofOnTwoTiers(t *testing.T) {
	s := sheet(t, "roof-two-tiers.yaml")
	assert.InDelta(t, 0, s.Legs.TiltDeg, 1e-3, "cut to hang level")
	weight := s.Weigh.Weight.PlanningKg * 9.80665 / 1000
	assert.InDelta(t, weight*(4.1905-1.5)/5*(2.0357-0.05)/3.9, s.Legs.Legs[2].TensionKN, 0.003, "kN")
	assert.Nil(t, s.Legs.Sharing.AnyLegSlack)
	assert.Contains(t, s.Legs.Basis, "statics alone")
	require.Len(t, s.Legs.Bars, 3)
	require.Len(t, s.Slings.Sets, 3)
}
