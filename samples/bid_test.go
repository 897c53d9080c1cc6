package samples_test

import (
	"os"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"plumbhook/lift"
	"plumbhook/takeoff"
)

// bidOf makes the bid of a sheet of pieces of this folder.
func bidOf(t *testing.T, sheet string) lift.BidResult {
	t.Helper()
	here := os.DirFS(".")
	rates, err := takeoff.ReadRates(here, "bid-rates.csv", takeoff.Options{})
	require.NoError(t, err)
	rows, err := takeoff.ReadPieces(here, sheet, takeoff.Options{})
	require.NoError(t, err)
	var pieces []lift.BidPiece
	for _, row := range rows {
		require.NoError(t, row.Err)
		pieces = append(pieces, lift.BidPiece{Mark: row.Mark, Quantity: row.Quantity, Rough: row.LoadFile == "", Inputs: row.Inputs, Open: func() (*takeoff.Load, error) {
			if row.LoadFile != "" {
				return takeoff.Read(here, row.LoadFile, takeoff.Options{})
			}
			return row.Load, nil
		}})
	}
	b, err := lift.Bid(pieces, lift.BidOptions{Rates: rates})
	require.NoError(t, err)
	return b
}

// TestTheSampleBid: weights and sums by hand.
func TestTheSampleBid(t *testing.T) {
	b := bidOf(t, "bid-pieces.csv")
	require.True(t, b.Verdict.Acceptable, b.Verdict.Reasons)
	assert.True(t, b.Totals.Complete)
	best := map[string]float64{"FH-20": 2.4 * 1.2 * 1.8 * 0.06 * 7850, "FH-30": 1850, "FH-40": 640, "FH-50": 2300}
	for _, p := range b.Pieces {
		if kg, rough := best[p.Mark]; rough {
			assert.InDelta(t, kg, p.Weight.BestKg, 0.01, p.Mark)
		}
	}
	// 9 lifts of 1.5 h are 13.5 h, two days of 8. Four 13 mm chains for two days
	// at 21, four shackles bought at 29, the 40 t class two days at 1450, three
	// riggers two days at 410.
	assert.InDelta(t, 4*2*21+4*29, b.Totals.Gear, 1e-9)
	assert.InDelta(t, 4*2*21+4*29+2*1450+3*2*410, b.Totals.Total, 1e-9)
}

// TestTheAddendum: what the second sheet of pieces changes.
func TestTheAddendum(t *testing.T) {
	c := lift.Compare(bidOf(t, "bid-pieces.csv"), bidOf(t, "bid-pieces-rev-b.csv"), "bid-pieces.csv")
	what := map[string]string{}
	for _, p := range c.Pieces {
		what[p.Mark] = p.What
	}
	assert.Equal(t, map[string]string{"FH-30": "changed", "FH-50": "changed", "FH-60": "added"}, what)
	assert.Equal(t, 3, c.Same)
}

// oneOf makes the bid of one load file with chains of any length.
func oneOf(t *testing.T, file string) lift.BidResult {
	t.Helper()
	p := func(x float64) *float64 { return &x }
	rates := &takeoff.Rates{Currency: "EUR", Rows: []takeoff.Rate{
		{Kind: "sling", Family: "alloy_chain", Size: "large", Rated: 30000, Length: 20, AdjustFrom: 0.1, Buy: p(100)},
		{Kind: "crane", Size: "large", Rated: 50000, Day: p(1000)},
	}}
	b, err := lift.Bid([]lift.BidPiece{{Mark: file, Quantity: 1, Open: func() (*takeoff.Load, error) { return takeoff.Read(os.DirFS("."), file, takeoff.Options{}) }}}, lift.BidOptions{Rates: rates})
	require.NoError(t, err)
	require.Empty(t, b.Pieces[0].Error)
	return b
}

// TestSetsInUseAtOnceAreNotShared: drops and the legs above the bars hang under one
// load at once, and each needs slings of its own: two drops each under two bars (the
// rungs of roof-two-tiers), two legs above each of the three bars.
func TestSetsInUseAtOnceAreNotShared(t *testing.T) {
	for file, want := range map[string]int{"conveyor-spreader.yaml": 4 + 2, "roof-two-tiers.yaml": 4 + 4 + 2} {
		b, slings := oneOf(t, file), 0
		for _, g := range b.Gear {
			if g.Kind == "sling" {
				slings += g.Count
			}
		}
		assert.Equal(t, want, slings, file)
	}
}

// TestTwoHooksAreNotPricedAsOne: the greater hook load counts, slings of unknown
// length and the second crane are listed as missing.
func TestTwoHooksAreNotPricedAsOne(t *testing.T) {
	b := oneOf(t, "stack-section.yaml")
	assert.Greater(t, b.Pieces[0].GrossKg, 4000.0)
	assert.Equal(t, 2, b.Pieces[0].Hooks)
	var kinds []string
	for _, m := range b.Missing {
		kinds = append(kinds, m.Kind)
	}
	assert.Contains(t, kinds, "crane")
	assert.Contains(t, kinds, "sling")
	assert.False(t, b.Totals.Complete)
}
