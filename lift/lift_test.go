package lift_test

import (
	"math"
	"slices"
	"strings"
	"testing"
	"testing/fstest"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"plumbhook/lift"
	"plumbhook/sling"
	"plumbhook/takeoff"
	"plumbhook/testdata/published/inprint"
)

// read makes a load of YAML that must be good.
func read(t require.TestingT, yaml string) *takeoff.Load {
	l, err := takeoff.Read(fstest.MapFS{"load.yaml": {Data: []byte(yaml)}}, "load.yaml", takeoff.Options{})
	require.NoError(t, err)
	return l
}

// The plate of a textbook from its drawing to its cable tensions: Meriam and
// Kraige, Statics, square plate of 1800 kg on a ring 2.4 m above its centre,
// two cables to corners and one to the middle of the far side: T_A = T_B =
// 5.41, T_C = 9.87 kN at g = 9.81 (statement read, dimensions and answers from
// memory). 2.4 m square and 1800 kg at 7850 kg/m³ are 39.81 mm of steel.
func TestPublishedPlateFromDrawingToTension(t *testing.T) {
	l := read(t, `
load: square plate
units: m
material: {name: plate steel, density: 7850 kg/m3, tolerance: 0.001 %}
parts:
  - {name: plate, plate: 2.4 x 2.4 x 0.0398089, corner: [-1.2, -1.2, -0.0398089]}
picks:
  - {name: A, at: [1.2, 1.2, 0]}
  - {name: B, at: [1.2, -1.2, 0]}
  - {name: C, at: [-1.2, 0, 0]}
hook: {above: picks, height: 2.4}
legs: {lengths: level}
`)
	h, err := lift.Legs(l, lift.Options{})
	require.NoError(t, err)
	assert.True(t, h.Verdict.Acceptable, h.Verdict.Reasons)
	page := inprint.Of(t, "lift")
	for i, name := range []string{"A", "B", "C"} {
		page.Is("square plate", "cable "+name, h.Legs[i].TensionKN*9.81/9.80665)
	}
	assert.InDelta(t, 0, h.TiltDeg, 1e-9)
	assert.Nil(t, h.Sharing.AnyLegSlack, "three legs: statics settles it")
}

// Off-centre four legs through the whole line, against the figures worked by
// hand for a rectangle 4 × 2 with the hook 3 up and W = 100: see the rig
// package. Here W is 100 kN, so the load is 10 197.16 kg at 9.80665.
const offCentre = `
load: box
units: m
parts:
  - {name: ballast, weight: 10197.16 kg, at: [0.5, 0.2, -0.5], tolerance: 0.0001 %, box: 4 x 2 x 1}
picks:
  - {name: A, at: [2, 1, 0]}
  - {name: B, at: [-2, 1, 0]}
  - {name: C, at: [-2, -1, 0]}
  - {name: D, at: [2, -1, 0]}
hook: {above: picks, height: 3}
legs: {lengths: level}
`

func TestFourLegsShowEveryWayOfCounting(t *testing.T) {
	h, err := lift.Legs(read(t, offCentre+"rules: US\n"), lift.Options{})
	require.NoError(t, err)
	require.True(t, h.Solved)
	near := func(want float64, got float64) { t.Helper(); assert.InDelta(t, want, got, 1e-3) }
	for i, name := range []string{"A", "B", "C", "D"} {
		near([]float64{43.0764, 29.9267, 20.3960, 29.7126}[i], h.Sharing.Elastic[name])
		near([]float64{68.9638, 49.8278, 51.0667, 47.4974}[i], h.Sharing.AnyLegSlack[name])
		assert.GreaterOrEqual(t, h.Legs[i].WorstTensionKN, h.Sharing.AnyLegSlack[name]-1e-6)
		assert.NotZero(t, h.Sharing.RuleSet[name])
	}
	// Levers along the diagonal A–C with the CG dropped square onto it.
	part := (2.5*4 + 1.2*2) / (4*4 + 2*2) // of the way from C to A
	near(100*part*3.448188/3, h.Sharing.TwoOpposite["A"])
	require.Len(t, h.Diagonals, 2)
	assert.False(t, h.Diagonals[0].AnEquilibrium, "the CG is off both diagonals")
	assert.Equal(t, "A", h.Governing)
	assert.True(t, h.Verdict.Acceptable, h.Verdict.Reasons)
}

// A lower basis needs a reason, takes effect, and is named.
func TestStatedSharing(t *testing.T) {
	h, err := lift.Legs(read(t, offCentre+"sharing: {basis: elastic, because: \"equalising beam\"}\n"), lift.Options{})
	require.NoError(t, err)
	assert.InDelta(t, 43.0764, h.Legs[0].WorstTensionKN, 1e-3)
	assert.Contains(t, h.Basis, "equalising beam")
	assert.Contains(t, h.Basis, "below the governing basis")
}

// The worst case takes the whole range of the weight: 10 % on it is at least
// 10 % on the worst tension, and the planning tension does not move.
func TestWeightRangeGoesIntoTheWorst(t *testing.T) {
	exact, err := lift.Legs(read(t, offCentre), lift.Options{})
	require.NoError(t, err)
	loose, err := lift.Legs(read(t, strings.Replace(offCentre, "0.0001 %", "10 %", 1)), lift.Options{})
	require.NoError(t, err)
	assert.InDelta(t, exact.Legs[0].TensionKN, loose.Legs[0].TensionKN, 1e-9)
	assert.InDelta(t, 1.1, loose.Legs[0].WorstTensionKN/exact.Legs[0].WorstTensionKN, 1e-4)
}

// What is not acceptable says so, with its figures where there are any.
func TestNotAcceptable(t *testing.T) {
	const beam = `
load: beam
units: mm
parts:
  - {name: beam, weight: 1000 kg, at: [0, 0, 500], tolerance: 1 %, box: 4000 x 400 x 400}
`
	tests := []struct{ name, yaml, reason string }{
		{"two picks below the CG", beam + "picks: [{name: A, at: [-1500, 0, 100]}, {name: B, at: [1500, 0, 100]}]\nhook: {above: picks, height: 2000}\nlegs: {lengths: level}\n",
			"unstable"},
		{"CG outside", beam + "picks: [{name: A, at: [500, 0, 700]}, {name: B, at: [1500, 0, 700]}]\nhook: {above: picks, height: 2000}\nlegs: {lengths: level}\n",
			"CG outside the picks"},
		{"legs too short", beam + "picks: [{name: A, at: [-1500, 0, 700]}, {name: B, at: [1500, 0, 700]}]\nlegs: {lengths: 1400}\n",
			"legs that cannot reach"},
		{"flat legs", beam + "picks: [{name: A, at: [-1500, 0, 700]}, {name: B, at: [1500, 0, 700]}]\nhook: {above: picks, height: 800}\nlegs: {lengths: level}\n",
			"want at least 30° from horizontal"},
		{"tilt", beam + "picks: [{name: A, at: [-1500, 0, 700]}, {name: B, at: [1000, 0, 700]}]\nlegs: {lengths: 2500}\nlimits: {tilt: 1}\n",
			"tilt of"},
		{"headroom", beam + "picks: [{name: A, at: [-1500, 0, 700]}, {name: B, at: [1500, 0, 700]}]\nhook: {above: picks, height: 2500}\nlegs: {lengths: level}\nlimits: {headroom: 2000}\n",
			"headroom of"},
		{"hook inside the load", beam + "picks: [{name: A, at: [-300, 0, 310]}, {name: B, at: [300, 0, 310]}]\nhook: {at: [0, 0, 650]}\nlegs: {lengths: level}\n",
			"below the top of the load"},
		{"crane without a rule set", beam + "picks: [{name: A, at: [-1500, 0, 700]}, {name: B, at: [1500, 0, 700]}]\nhook: {above: picks, height: 2000}\nlegs: {lengths: level}\nlimits: {crane: {capacity: 900 kg, block: 50 kg}}\n",
			"over capacity: load and block weigh 1 060 kg"},
		{"CG a millimetre below the line of two picks", beam + "picks: [{name: A, at: [-1500, 0, 501]}, {name: B, at: [1500, 0, 501]}]\nhook: {above: picks, height: 2000}\nlegs: {lengths: level}\n",
			"as good as unstable: the CG need rise only 1 mm"},
		{"high CG over narrow picks", beam + "picks: [{name: A, at: [1000, 50, 100]}, {name: B, at: [-1000, 50, 100]}, {name: C, at: [-1000, -50, 100]}, {name: D, at: [1000, -50, 100]}]\nhook: {above: picks, height: 1000}\nlegs: {lengths: level}\n",
			"unstable"},
		{"CG off the line of two picks", beam + "picks: [{name: A, at: [-1500, 150, 700]}, {name: B, at: [1500, 150, 700]}]\nhook: {above: picks, height: 2000}\nlegs: {lengths: level}\n",
			"tilt of 3"},
		{"picks in metres", beam + "picks: [{name: A, at: [-1500, 0, 700 m]}, {name: B, at: [1500, 0, 700 m]}]\nhook: {above: picks, height: 2000}\nlegs: {lengths: level}\n",
			"look at its units"},
		{"headroom with legs long", beam + "picks: [{name: A, at: [-1500, 0, 700]}, {name: B, at: [1500, 0, 700]}]\nlegs: {lengths: 2500, length tolerance: 50 mm}\nlimits: {headroom: 2010}\n",
			"headroom of 2.06"},
		{"CG on the side of the picks", beam + "picks: [{name: A, at: [0, 200, 700]}, {name: B, at: [1000, 200, 700]}, {name: C, at: [1000, -200, 700]}, {name: D, at: [0, -200, 700]}]\nhook: {above: picks, height: 2000}\nlegs: {lengths: level}\n",
			"CG outside the picks"},
		{"a level leg", beam + "picks: [{name: A, at: [1500, 0, 1700]}, {name: B, at: [-1500, 200, 700]}, {name: C, at: [-1500, -200, 700]}]\nhook: {at: [0, 0, 1700]}\nlegs: {lengths: level}\nrules: EN\n",
			"leg A at 0.0° from horizontal"},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			_, err := lift.Sheet(read(t, tt.yaml), lift.Options{})
			require.NoError(t, err, "a lift that may not be made is no fault of the program")
			h, err := lift.Legs(read(t, tt.yaml), lift.Options{})
			require.NoError(t, err)
			assert.False(t, h.Verdict.Acceptable)
			assert.Contains(t, strings.Join(h.Verdict.Reasons, "\n"), tt.reason)
			assert.Equal(t, tt.name != "legs too short", h.Solved)
		})
	}
}

// The CG's range counts, not only its best place: with a drive anywhere from 50
// to 1250 kg at one end the CG may leave the picks.
func TestCGRangeOutsideThePicks(t *testing.T) {
	h, err := lift.Legs(read(t, `
load: skid
units: mm
parts:
  - {name: frame, weight: 1000 kg, at: [0, 0, 0], tolerance: 1 %}
  - {name: drive, weight: 500 kg, at: [3000, 0, 0], tolerance: -90 % / +150 %}
picks: [{name: A, at: [-1300, 0, 700]}, {name: B, at: [1300, 0, 700]}]
hook: {above: picks, height: 2000}
legs: {lengths: level}
`), lift.Options{})
	require.NoError(t, err)
	assert.Contains(t, strings.Join(h.Verdict.Reasons, "\n"), "at worst over its range")
}

func TestOverCapacityOfTheCrane(t *testing.T) {
	s, err := lift.Slings(read(t, offCentre+"rules: EN\nlimits: {crane: {capacity: 10 t, radius: 8, block: 200 kg}}\n"), lift.Options{})
	require.NoError(t, err)
	assert.False(t, s.Verdict.Acceptable)
	assert.Contains(t, strings.Join(s.Verdict.Reasons, "\n"), "over capacity")
	assert.Greater(t, s.Gross.TotalKg, 10397.0)
}

// What a sling must be rated for, worked by hand: two plumb-ish legs at 60° to
// the horizontal, 2000 kg, dynamic 1.1: 2000/2/sin 60° × 1.1 = 1270.2 kg. EN
// asks of the set 2000 × 1.1/1.4 = 1571.4 kg, which is more and governs.
func TestRequiredRatingByHand(t *testing.T) {
	const two = `
load: block
units: m
parts:
  - {name: block, weight: 2000 kg, at: [0, 0, -1], tolerance: 0.0001 %}
picks: [{name: A, at: [-1, 0, 0]}, {name: B, at: [1, 0, 0]}]
hook: {above: picks, height: 1.7320508}
legs: {lengths: level}
factors: {dynamic: 1.1}
`
	us, err := lift.Slings(read(t, two+"rules: US\n"), lift.Options{})
	require.NoError(t, err)
	assert.InDelta(t, 1270.2, us.Required["A"], 0.05)
	assert.InDelta(t, us.Required["A"], us.Governing.RequiredKg, 0.05)
	en, err := lift.Slings(read(t, two+"rules: EN\n"), lift.Options{})
	require.NoError(t, err)
	assert.InDelta(t, 1571.4, en.Required["A"], 0.05)
	for _, f := range append(us.Families, en.Families...) {
		assert.NotEqual(t, "yes", f.Use, "%s: nothing was stated of the surroundings", f.Family)
		if f.ByTag {
			assert.Nil(t, f.Choice, "%s %s: no table is published", f.Family, f.Material)
			continue
		}
		require.NotNil(t, f.Choice, f.Family)
		assert.LessOrEqual(t, f.Choice.Utilisation, 1.0)
	}
}

// With everything stated and nothing against it, a family may be a plain yes.
func TestAllStatedCanBeYes(t *testing.T) {
	s, err := lift.Slings(read(t, offCentre+`
rules: EN
surroundings: {temperature: 20 C, chemicals: [none], edges: none, surface: rough, outdoors: false}
`), lift.Options{})
	require.NoError(t, err)
	yes := 0
	for _, f := range s.Families {
		if f.Family == "alloy_chain" && f.Material == "grade 8" || f.Family == "wire_rope" && !f.ByTag {
			assert.Equal(t, "yes", f.Use, "%s %s: %v", f.Family, f.Material, f.Reasons)
			yes++
		}
	}
	assert.Equal(t, 4, yes, "grade 8 chain, steel core rope with either ferrule and fibre core rope")
}

// Conditions of the place reach the slings by the names of the load file, and
// those that nobody stated stand in one line of what is assumed.
func TestConditionsOfThePlace(t *testing.T) {
	told := func(more string) lift.Slung {
		s, err := lift.Slings(read(t, offCentre+"rules: EN\nsurroundings: {temperature: 20 C, chemicals: [none], edges: {radius: 0, protection: corner pads}"+more+"}\n"), lift.Options{})
		require.NoError(t, err)
		return s
	}
	open := func(s lift.Slung) (lines []string) {
		for _, a := range s.Assumptions {
			if strings.Contains(a, "not stated under `surroundings`") {
				lines = append(lines, a)
			}
		}
		return lines
	}
	assert.Equal(t, []string{"not stated under `surroundings`, and so not judged for any sling: " + strings.Join(sling.Conditions(), ", ")}, open(told("")))
	assert.Contains(t, open(told(", shock: no"))[0], ": people near, repeated use,")
	all := ""
	for _, c := range sling.Conditions() {
		all += ", " + c + ": yes"
	}
	s := told(all)
	assert.True(t, slices.ContainsFunc(s.Warnings, func(w lift.Warning) bool { return w.Code == "shock-without-allowance" }), "a shock without a dynamic factor")
	assert.Empty(t, open(s), "the load file has a key for each")
	for _, f := range s.Families {
		against := strings.Join(f.Against, "\n")
		assert.Contains(t, against, "no sling is rated for a shock", f.Family)
		assert.Contains(t, against, "corner pads on the edge: the protection must cover the whole contact", f.Family)
		assert.NotEqual(t, "yes", f.Use, f.Family)
		assert.Equal(t, strings.Contains("synthetic_web round_sling two_path_round_sling synthetic_rope", f.Family), f.Use == "no", "weld spatter: %s", f.Family)
	}
}

func TestSlingsNeedARuleSet(t *testing.T) {
	_, err := lift.Slings(read(t, offCentre), lift.Options{})
	var problems takeoff.Problems
	require.ErrorAs(t, err, &problems)
	assert.Contains(t, problems[0].Fix, "--rules")
	s, err := lift.Slings(read(t, offCentre), lift.Options{Rules: "US"})
	require.NoError(t, err)
	assert.Equal(t, "US", s.Rules)
}

// Without picks they are proposed on the metal: not in the hole, not on the
// bought-in motor, level, the CG between them.
func TestProposedPicksSitOnTheMetal(t *testing.T) {
	p, err := lift.Picks(read(t, `
load: bedplate
units: mm
material: structural steel
parts:
  - name: plate
    plate: 3000 x 1500 x 60
    corner: [0, 0, 0]
    cuts:
      - {box: 800 x 1500 x 60, corner: [2200, 0, 0]}
  - {name: motor, weight: 200 kg, center: [400, 750, 260], box: 600 x 1500 x 400, tolerance: 5 %}
`), lift.Options{})
	require.NoError(t, err)
	require.NotEmpty(t, p.Proposals)
	for _, q := range p.Proposals {
		assert.True(t, q.Legs.Solved)
		assert.InDelta(t, 0, q.Legs.TiltDeg, 1e-6)
		for _, pick := range q.Picks {
			assert.InDelta(t, 0.06, pick.AtM[2], 1e-9)
			assert.True(t, pick.AtM[0] > 0.7 && pick.AtM[0] < 2.2, "pick %v", pick)
		}
		for _, leg := range q.Legs.Legs {
			assert.GreaterOrEqual(t, leg.FromHorizontalDeg, 60-1e-6)
		}
	}
	assert.False(t, math.IsNaN(p.Proposals[0].Score))
}

func TestSheetGathersAll(t *testing.T) {
	s, err := lift.Sheet(read(t, offCentre+"rules: EN\n"), lift.Options{Date: "2026-11-25"})
	require.NoError(t, err)
	assert.Equal(t, "2026-11-25", s.Date)
	require.NotNil(t, s.Slings)
	assert.NotEmpty(t, s.Cautions)
	assert.Len(t, s.Picks.Proposals, 1)
	assert.True(t, s.Picks.Proposals[0].Given)
	bare, err := lift.Sheet(read(t, offCentre), lift.Options{})
	require.NoError(t, err)
	assert.Nil(t, bare.Slings)
	assert.Equal(t, "no-rules", bare.Warnings[len(bare.Warnings)-1].Code)
}
