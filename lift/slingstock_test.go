package lift_test

import (
	"errors"
	"strings"
	"testing"
	"testing/fstest"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"plumbhook/lift"
	"plumbhook/takeoff"
)

// hungFromRack is 4000 kg on two legs of 3 m that stand almost plumb, with
// a list of slings: rack.
const hungFromRack = `
load: beam
units: mm
parts: [{name: beam, weight: 4000 kg, at: [0, 0, 0], tolerance: 0.0001 %, box: 4000 x 400 x 400}]
picks: [{name: A, at: [-100, 0, 1000]}, {name: B, at: [100, 0, 1000]}]
sling stock: rack.csv
legs: {lengths: 3000}
rules: EN
surroundings: {temperature: 20 C, chemicals: [none], edges: none, surface: rough}
`

const rackHead = "mark,family,material,size,length (mm),rated (t),last inspection\n"

func fromRack(t *testing.T, yaml, rack string, o lift.Options) (lift.Slung, error) {
	t.Helper()
	l, err := takeoff.Read(fstest.MapFS{"load.yaml": {Data: []byte(yaml)}, "rack.csv": {Data: []byte(rackHead + rack)}}, "load.yaml", takeoff.Options{})
	require.NoError(t, err)
	return lift.Slings(l, o)
}

// marks are the slings of a set by leg.
func marks(s lift.StockSet) map[string]string {
	out := map[string]string{}
	for _, m := range s.Marks {
		out[m.Pick] = m.Mark
	}
	return out
}

// TestSlingsFromTheRack, by hand: two legs of 8 mm chain of 2.0 t lift 2.8 t within 45°
// from vertical, two of 10 mm and 3.15 t lift 4.25 t (EN 818-4, as reprinted), of which
// 4 t is 0.9412: as if one sling of 3.15 t carried 2964.7 kg.
func TestSlingsFromTheRack(t *testing.T) {
	rack := "K1,alloy chain,grade 8,8 mm,3000,2.0,2026-02-16\nK2,alloy chain,grade 8,8 mm,3000,2.0,2026-02-16\n" +
		"K3,alloy-chain,grade 8,10 mm,3000,3.15,2026-02-16\nK4,alloy_chain,grade 8,10 mm,3000,3.15,2025-05-04\nK5,alloy_chain,grade 8,10 mm,3000,3.15,2025-05-03\n"
	s, err := fromRack(t, hungFromRack, rack, lift.Options{Date: "2026-05-04"})
	require.NoError(t, err)
	require.NotNil(t, s.Stock)
	require.Len(t, s.Stock.Sets, 1)
	set := s.Stock.Sets[0]
	assert.True(t, set.Complete, set.Missing)
	assert.Equal(t, map[string]string{"A": "K3", "B": "K4"}, marks(set), "twelve months to the day are not more than 12 months")
	assert.InDelta(t, 3150, set.RatedKg, 1e-9)
	assert.InDelta(t, 2964.7, set.RequiredKg, 0.1)
	assert.InDelta(t, 0.9412, set.Utilisation, 1e-4)
	assert.Equal(t, []string{"K5: not chosen: last inspected 2025-05-03, more than 12 months before 2026-05-04"}, set.Reasons)
	assert.Contains(t, s.Stock.Inspection, "held against 2026-05-04")
	assert.NotEmpty(t, s.Families, "the tables' choice stays beside it")

	later, err := fromRack(t, hungFromRack, rack, lift.Options{Date: "2026-05-05"})
	require.NoError(t, err)
	assert.False(t, later.Stock.Sets[0].Complete)
	assert.Contains(t, later.Stock.Sets[0].Missing[0], "needs 2 of 10 mm, rated 3 150 kg (6 944 lb), has 1 (K3)")
	assert.True(t, warned(later.Warnings, "sling-stock"))
	assert.True(t, later.Verdict.Acceptable, "it may be lifted on others: %v", later.Verdict.Reasons)

	before, err := fromRack(t, hungFromRack, rack, lift.Options{Date: "2026-02-15"})
	require.NoError(t, err)
	assert.Contains(t, strings.Join(before.Stock.Sets[0].Reasons, "\n"), "after the day of the lift")
}

func warned(warnings []lift.Warning, code string) bool {
	for _, w := range warnings {
		if w.Code == code {
			return true
		}
	}
	return false
}

// TestInspectionNeedsADate: without one nothing is held against it, which is said;
// a sling that lists no inspection is not chosen either way.
func TestInspectionNeedsADate(t *testing.T) {
	rack := "K1,alloy chain,grade 8,10 mm,3000,3.15,2001-02-16\nK2,alloy chain,grade 8,10 mm,3000,3.15,2026-02-16\nK3,alloy chain,grade 8,10 mm,3000,3.15,\n"
	for date, says := range map[string]string{"": "no date given", "4 May 2026": `the date "4 May 2026" is not written as 2026-05-04`} {
		s, err := fromRack(t, hungFromRack, rack, lift.Options{Date: date})
		require.NoError(t, err)
		assert.Equal(t, "inspection not checked: "+says, s.Stock.Inspection)
		assert.True(t, warned(s.Warnings, "inspection-not-checked"))
		assert.Equal(t, map[string]string{"A": "K1", "B": "K2"}, marks(s.Stock.Sets[0]))
		assert.Equal(t, []string{"K3: not chosen: no last inspection is listed"}, s.Stock.Sets[0].Reasons)
	}
}

// TestHardwareIsTakenOff: legs of 3 m with 160 mm of link and shackle take slings of
// 2840 mm; within 1 mm where no tolerance is stated, within that where one is.
func TestHardwareIsTakenOff(t *testing.T) {
	rack := "K1,alloy chain,grade 8,10 mm,2840,3.15,2026-02-16\nK2,alloy chain,grade 8,10 mm,2845,3.15,2026-02-16\nK3,alloy chain,grade 8,10 mm,3000,3.15,2026-02-16\nK4,alloy chain,grade 8,10 mm,3000,3.15,2026-02-16\n"
	for legs, want := range map[string]map[string]string{
		"{lengths: 3000}":                                        {"A": "K3", "B": "K4"},
		"{lengths: 3000, hardware: 160}":                         {"A": "K1"},
		"{lengths: 3000, hardware: 160, length tolerance: 5 mm}": {"A": "K1", "B": "K2"},
	} {
		s, err := fromRack(t, strings.Replace(hungFromRack, "{lengths: 3000}", legs, 1), rack, lift.Options{Date: "2026-05-04"})
		require.NoError(t, err)
		assert.Equal(t, want, marks(s.Stock.Sets[0]), legs)
	}
}

// TestByTagFromTheRackIsEnough, and its weight is not known, which is said.
func TestByTagFromTheRackIsEnough(t *testing.T) {
	rack := "H1,two-path round sling,,3 t,3000,3,2026-02-16\nH2,two-path round sling,,3 t,3000,3,2026-02-16\nN1,synthetic web,polyester,3 t,3000,3,2026-02-16\n"
	s, err := fromRack(t, hungFromRack, rack, lift.Options{Date: "2026-05-04", Family: "two_path_round_sling"})
	require.NoError(t, err)
	require.Len(t, s.Stock.Sets, 1, "narrowed to the family that is asked for")
	assert.Equal(t, "two_path_round_sling", s.Stock.Sets[0].Family)
	assert.True(t, s.Stock.Sets[0].Complete)
	assert.Contains(t, s.Gross.Note, "not known")
}

// TestRackIsInTheGross: 13 mm chain at 3.8 kg/m (EN 818-2, from memory), 2 × 3 m, is
// heavier than what the tables would choose, and hangs on the hook: 22.8 kg.
func TestRackIsInTheGross(t *testing.T) {
	rack := "K1,alloy chain,grade 8,13 mm,3000,5.3,2026-02-16\nK2,alloy chain,grade 8,13 mm,3000,5.3,2026-02-16\n"
	s, err := fromRack(t, hungFromRack, rack, lift.Options{Date: "2026-05-04"})
	require.NoError(t, err)
	assert.InDelta(t, 22.8, s.Stock.Sets[0].WeightKg, 1e-9)
	assert.InDelta(t, 22.8, s.Gross.RiggingKg, 1e-9)
}

// TestStockFaultsAtTheirCells: names that are known to no table.
func TestStockFaultsAtTheirCells(t *testing.T) {
	_, err := fromRack(t, hungFromRack, "K1,aloy chain,grade 8,10 mm,3000,3.15,2026-02-16\nK2,alloy chain,grade 9,10 mm,3000,3.15,2026-02-16\n"+
		"K3,alloy chain,Grade 80,3/8 in,3000,3.15,2026-02-16\n", lift.Options{})
	var p takeoff.Problems
	require.True(t, errors.As(err, &p), "%v", err)
	require.Len(t, p, 2, "grade 80 is known, if not under EN")
	assert.Contains(t, p[0].String(), `rack.csv:B2: "aloy chain" is not a family of slings that is known here`)
	assert.Contains(t, p[0].Fix, "did you mean `alloy_chain`?")
	assert.Contains(t, p[1].String(), `rack.csv:C3: "grade 9" is not a material of slings`)
	assert.Contains(t, p[1].Fix, "leave it blank")
}

// TestEveryLegTakesASling: of four legs on a stiff load some carry nothing, and
// hang all the same.
func TestEveryLegTakesASling(t *testing.T) {
	four := strings.Replace(offCentre, "legs: {lengths: level}", "legs: {lengths: level}\nrules: EN\nsling stock: rack.csv", 1)
	s, err := fromRack(t, four, "K1,alloy chain,grade 8,16 mm,3000,8,2026-02-16\n", lift.Options{})
	require.NoError(t, err)
	set := s.Stock.Sets[0]
	assert.False(t, set.Complete)
	text := strings.Join(set.Missing, "\n")
	for _, leg := range []string{"A", "B", "C", "D"} {
		assert.Contains(t, text, "leg "+leg+" takes a sling of")
	}
}
