package lift

import (
	"encoding/json"
	"errors"
	"fmt"
	"math"
	"math/rand"
	"slices"
	"strings"
	"testing"
	"testing/fstest"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"plumbhook/takeoff"
	"plumbhook/units"
)

// skid is a load file with a base plate of a thickness, and so much on it.
func skid(thickness, kg float64) string {
	return fmt.Sprintf(`load: skid
units: mm
parts:
  - {name: base, plate: 3000 x 1600 x %g, center: [0, 0, 0], material: structural steel}
  - {name: pump, weight: %g kg, at: [200, 0, 400], tolerance: 5 %%}
picks: [{name: A, at: [-1300, -700, 20]}, {name: B, at: [1300, -700, 20]}, {name: C, at: [1300, 700, 20]}, {name: D, at: [-1300, 700, 20]}]
hook: {above: picks, height: 2600}
legs: {lengths: level}
rules: EN
`, thickness, kg)
}

func bidPiece(mark, text string) BidPiece {
	name := mark + ".yaml"
	files := fstest.MapFS{name: {Data: []byte(text)}}
	return BidPiece{Mark: mark, Quantity: 1, File: name, Inputs: takeoff.Inputs(files, name, takeoff.Options{}),
		Open: func() (*takeoff.Load, error) { return takeoff.Read(files, name, takeoff.Options{}) }}
}

const someRates = `currency,EUR
kind,family,material,size,rated (t),length (m),adjust from (m),buy,hire day,hire week,hire hour,minimum
sling,alloy chain,grade 8,8 mm,2,4,0.5,200,8,30,,20
sling,alloy chain,grade 8,10 mm,3.15,5,0.5,300,12,44,,20
sling,alloy chain,grade 8,13 mm,5.3,6,0.5,500,20,75,,20
shackle,,,16 mm,3.25,,,14,,,,
shackle,,,22 mm,6.5,,,29,,,,
crane,,,20 t,6,,,,900,4000,,900
crane,,,40 t,14,,,,1400,6000,,1400
rigger,,,,,,,,,,50,
`

func ratesOf(t testing.TB, text string) *takeoff.Rates {
	rates, err := takeoff.ReadRates(fstest.MapFS{"rates.csv": {Data: []byte(text)}}, "rates.csv", takeoff.Options{})
	require.NoError(t, err)
	return rates
}

func TestABadPieceHidesNoOther(t *testing.T) {
	b, err := Bid([]BidPiece{bidPiece("good", skid(20, 800)), bidPiece("bad", "load: x\nunits: mm\nparts: [{name: p, box: 1 x 2}]\n"),
		{Mark: "panics", Open: func() (*takeoff.Load, error) { panic("a fault") }}}, BidOptions{Rates: ratesOf(t, someRates)})
	require.NoError(t, err)
	require.Len(t, b.Pieces, 3)
	assert.Contains(t, b.Pieces[0].Error, "bad.yaml:3:")
	assert.Empty(t, b.Pieces[1].Error)
	assert.Positive(t, b.Pieces[1].GrossKg)
	assert.Contains(t, b.Pieces[2].Error, ErrProgram.Error())
	assert.False(t, b.Totals.Complete, "a price without two of its pieces is not whole")
	assert.False(t, b.Verdict.Acceptable)
	assert.Equal(t, 1, b.Totals.Lifts)
	input, program := b.Faulty()
	assert.True(t, input && program)
}

// The row of a piece says what its own sizing says.
func TestARowIsTheSizingOfItsPiece(t *testing.T) {
	p := bidPiece("skid", skid(20, 800))
	b, err := Bid([]BidPiece{p}, BidOptions{})
	require.NoError(t, err)
	l, err := p.Open()
	require.NoError(t, err)
	s, err := Slings(l, Options{})
	require.NoError(t, err)
	row := b.Pieces[0]
	assert.Equal(t, s.Governing.RequiredKg, row.RequiredKg)
	assert.Equal(t, s.Governing.Pick, row.Leg)
	assert.Equal(t, s.Gross.TotalKg, row.GrossKg)
	assert.InDelta(t, 3*1.6*0.020*7850+800, row.Weight.BestKg, 1e-6, "by hand")
	assert.Len(t, row.LengthsM, 4)
}

func TestTheOrderOfThePiecesChangesNothing(t *testing.T) {
	var pieces []BidPiece
	for i := range 12 {
		pieces = append(pieces, bidPiece(fmt.Sprintf("P%02d", i), skid(10+float64(i%4), 400+150*float64(i))))
	}
	make := func(pieces []BidPiece, workers int) string {
		b, err := Bid(pieces, BidOptions{Rates: ratesOf(t, someRates), workers: workers})
		require.NoError(t, err)
		text, err := json.Marshal(b)
		require.NoError(t, err)
		return string(text)
	}
	want := make(pieces, 1)
	for seed := range int64(4) {
		shuffled := slices.Clone(pieces)
		rand.New(rand.NewSource(seed)).Shuffle(len(shuffled), func(i, j int) { shuffled[i], shuffled[j] = shuffled[j], shuffled[i] })
		assert.Equal(t, want, make(shuffled, 1+int(seed)))
	}
}

// What a bid adds up, added up again.
func TestThePriceIsTheSumOfItsLines(t *testing.T) {
	b, err := Bid([]BidPiece{bidPiece("a", skid(20, 800)), bidPiece("b", skid(30, 2500)), bidPiece("c", skid(12, 300))}, BidOptions{Rates: ratesOf(t, someRates)})
	require.NoError(t, err)
	sum := 0.0
	for _, g := range b.Gear {
		assert.InDelta(t, float64(g.Count)*g.Unit, g.Price, 1e-9)
		assert.NotEmpty(t, g.Serves)
		sum += g.Price
	}
	t1 := b.Totals
	assert.InDelta(t, sum, t1.Gear, 1e-9)
	assert.InDelta(t, t1.Gear+t1.Crane+t1.Riggers, t1.Total, 1e-9)
	assert.InDelta(t, t1.Total-t1.AtBest, t1.OfDoubt, 1e-9)
	assert.GreaterOrEqual(t, t1.OfDoubt, 0.0)
	assert.LessOrEqual(t, t1.GearBound, t1.Gear+1e-9)
	// 3 lifts of 1.5 h are 4.5 h, one day; three riggers at 50 an hour.
	assert.InDelta(t, 3*4.5*50, t1.Riggers, 1e-9)
	assert.True(t, t1.Complete)
	assert.LessOrEqual(t, t1.Gear, t1.Alone, "one set for all is no dearer than one for each")
	alone := 0.0
	for _, p := range b.Pieces {
		alone += *p.PriceAlone
	}
	assert.InDelta(t, t1.Alone, alone, 1e-9)
}

// What a piece needs and the list has not is listed, and not free.
func TestAMissingRateIsListed(t *testing.T) {
	b, err := Bid([]BidPiece{bidPiece("a", skid(30, 2500))}, BidOptions{Rates: ratesOf(t, "currency,EUR\nkind,family,material,size,rated (t),length (m),adjust from (m),buy\nsling,alloy chain,grade 8,7 mm,1.5,4,0.5,150\n")})
	require.NoError(t, err)
	var kinds []string
	for _, m := range b.Missing {
		kinds = append(kinds, m.Kind)
	}
	assert.ElementsMatch(t, []string{"sling", "shackle", "crane", "rigger"}, kinds)
	assert.False(t, b.Totals.Complete)
	assert.Empty(t, b.Gear)
}

// Hire and break-even by hand. Weeks have five working days.
func TestHireAgainstBuyByHand(t *testing.T) {
	p := func(x float64) *float64 { return &x }
	tests := []struct {
		name string
		rate takeoff.Rate
		days int
		cost float64
		even int // 0: never
	}{
		{"days alone: 9 days of 10 are 90, 10 are 100", takeoff.Rate{Buy: p(100), Day: p(10)}, 3, 30, 10},
		{"a week of 40 for 5 days beats 4 days of 12 at 48", takeoff.Rate{Buy: p(100), Day: p(12), Week: p(40)}, 4, 40, 12},
		{"a week and two days: 40 + 24; 24 weeks and 3 days are 996, the 25th week whole 1000", takeoff.Rate{Buy: p(1000), Day: p(12), Week: p(40)}, 7, 64, 124},
		{"the minimum holds for short hire", takeoff.Rate{Buy: p(100), Day: p(10), Minimum: p(50)}, 2, 50, 10},
		{"weeks alone are charged whole", takeoff.Rate{Buy: p(90), Week: p(30)}, 6, 60, 11},
		{"a minimum above the price to buy: buy from the first day", takeoff.Rate{Buy: p(40), Day: p(10), Minimum: p(50)}, 1, 50, 1},
		{"not sold", takeoff.Rate{Day: p(10)}, 3, 30, 0},
	}
	for _, tt := range tests {
		cost, ok := hire(tt.rate, tt.days)
		assert.True(t, ok, tt.name)
		assert.InDelta(t, tt.cost, cost, 1e-9, tt.name)
		day, ok := breakEven(tt.rate)
		assert.Equal(t, tt.even > 0, ok, tt.name)
		if ok {
			assert.Equal(t, tt.even, day, tt.name)
		}
	}
}

// The chance against 100 000 weights drawn from the distribution by its inverse.
func TestTheChanceIsThatOfSamples(t *testing.T) {
	const n = 100_000
	for _, w := range []WeightRange{{LowKg: 900, BestKg: 1000, HighKg: 1300}, {LowKg: 1000, BestKg: 1000, HighKg: 1500}, {LowKg: 500, BestKg: 1000, HighKg: 1000}} {
		r := rand.New(rand.NewSource(8))
		draws := make([]float64, n)
		for i := range draws {
			u, cut := r.Float64(), (w.BestKg-w.LowKg)/(w.HighKg-w.LowKg)
			if u < cut {
				draws[i] = w.LowKg + math.Sqrt(u*(w.HighKg-w.LowKg)*(w.BestKg-w.LowKg))
			} else {
				draws[i] = w.HighKg - math.Sqrt((1-u)*(w.HighKg-w.LowKg)*(w.HighKg-w.BestKg))
			}
		}
		for kg := 450.0; kg < 1600; kg += 50 {
			above := 0
			for _, d := range draws {
				if d > kg {
					above++
				}
			}
			assert.InDelta(t, float64(above)/n, chanceAbove(w, kg), 0.01, "%v above %g kg", w, kg)
		}
	}
}

func TestAKnownWeightCrossesForCertain(t *testing.T) {
	w := WeightRange{LowKg: 100, BestKg: 100, HighKg: 100}
	assert.Equal(t, 1.0, chanceAbove(w, 99))
	assert.Equal(t, 0.0, chanceAbove(w, 100))
}

// The size priced holds up to its weight: a piece of just that sizing weight needs
// that size, one a little heavier the next.
func TestTheWeightThatASizeHoldsIsSo(t *testing.T) {
	piece := func(kg float64) BidRow {
		b, err := Bid([]BidPiece{bidPiece("p", fmt.Sprintf("load: p\nunits: mm\nparts: [{name: p, weight: %.6f kg, at: [0, 0, 0], box: 1000 x 1000 x 1000, tolerance: 1 %%}]\npicks: [{name: A, at: [-400, 0, 500]}, {name: B, at: [400, 0, 500]}]\nhook: {above: picks, height: 1000}\nlegs: {lengths: level}\nrules: EN\n", kg))}, BidOptions{})
		require.NoError(t, err)
		require.Empty(t, b.Pieces[0].Error)
		return b.Pieces[0]
	}
	first := piece(1500)
	edge := first.Risk.HoldsKg / first.Weight.SizingKg * 1500
	assert.Equal(t, first.Sling.Size, piece(edge*0.9999).Sling.Size)
	assert.Equal(t, first.Risk.LargerSize, piece(edge*1.0001).Sling.Size)
}

// One thickness is changed: the one cause, and only what follows from it.
func TestARevisionOfOneThickness(t *testing.T) {
	o := BidOptions{Rates: ratesOf(t, someRates)}
	other := bidPiece("other", skid(12, 300))
	was, err := Bid([]BidPiece{bidPiece("skid", skid(20, 800)), other}, o)
	require.NoError(t, err)
	now, err := Bid([]BidPiece{bidPiece("skid", skid(25, 800)), other}, o)
	require.NoError(t, err)
	c := Compare(was, now, "rev A")
	assert.Equal(t, 1, c.Same)
	require.Len(t, c.Pieces, 1)
	piece := c.Pieces[0]
	assert.Equal(t, []InputChange{{"parts › base › plate", "3000 x 1600 x 20", "3000 x 1600 x 25"}}, piece.Inputs)
	var names []string
	for _, f := range piece.Figures {
		names = append(names, f.Name)
	}
	assert.Subset(t, names, []string{"weight at best", "CG, x", "CG, z", "rating that it needs", "gross load"})
	assert.NotContains(t, names, "CG, y")
	assert.NotContains(t, names, "quantity")
	assert.InDelta(t, 3*1.6*0.005*7850, now.Pieces[1].Weight.BestKg-was.Pieces[1].Weight.BestKg, 1e-6, "188.4 kg, by hand")
	assert.Equal(t, "cause: parts › base › plate: 3000 x 1600 x 20 is now 3000 x 1600 x 25", piece.Text[0])
	// A former bid that went through JSON compares the same.
	text, err := json.Marshal(was)
	require.NoError(t, err)
	var read BidResult
	require.NoError(t, json.Unmarshal(text, &read))
	assert.Equal(t, c, Compare(read, now, "rev A"))
	assert.Empty(t, Compare(was, was, "itself").Pieces)
}

func TestPiecesThatComeAndGo(t *testing.T) {
	was, err := Bid([]BidPiece{bidPiece("a", skid(20, 800))}, BidOptions{})
	require.NoError(t, err)
	now, err := Bid([]BidPiece{bidPiece("b", skid(20, 800))}, BidOptions{})
	require.NoError(t, err)
	c := Compare(was, now, "old")
	require.Len(t, c.Pieces, 2)
	assert.Equal(t, "added", c.Pieces[0].What)
	assert.Equal(t, "removed", c.Pieces[1].What)
}

// Two legs of a light load can ask for more than four of a heavy one.
func TestTheGoverningPieceNeedNotBeTheHeaviest(t *testing.T) {
	flat := "load: beam\nunits: mm\nparts: [{name: p, weight: 3000 kg, at: [0, 0, 0], box: 4000 x 300 x 300, tolerance: 1 %}]\npicks: [{name: A, at: [-1800, 0, 150]}, {name: B, at: [1800, 0, 150]}]\nhook: {above: picks, height: 1200}\nlegs: {lengths: level}\nrules: EN\n"
	b, err := Bid([]BidPiece{bidPiece("beam", flat), bidPiece("skid", skid(20, 2600))}, BidOptions{})
	require.NoError(t, err)
	assert.Equal(t, "beam", b.Governing.Mark)
	assert.Equal(t, "skid", b.Governing.Heaviest)
	assert.Contains(t, b.Governing.Why, "skid is the heaviest")
}

// A cheaper rate never makes the gear dearer.
func TestACheaperRateNeverCostsMore(t *testing.T) {
	pieces := []BidPiece{bidPiece("a", skid(20, 800)), bidPiece("b", skid(30, 2500))}
	rapid.Check(t, func(t *rapid.T) {
		rates := *ratesOfRapid(t)
		cheaper := rates
		cheaper.Rows = slices.Clone(rates.Rows)
		i := rapid.IntRange(0, 4).Draw(t, "row")
		price := *cheaper.Rows[i].Buy * 0.5
		cheaper.Rows[i].Buy = &price
		one, err := Bid(pieces, BidOptions{Rates: &rates})
		require.NoError(t, err)
		other, err := Bid(pieces, BidOptions{Rates: &cheaper})
		require.NoError(t, err)
		assert.LessOrEqual(t, other.Totals.Gear, one.Totals.Gear+1e-9)
	})
}

func ratesOfRapid(t *rapid.T) *takeoff.Rates {
	rates, err := takeoff.ReadRates(fstest.MapFS{"r.csv": {Data: []byte(someRates)}}, "r.csv", takeoff.Options{})
	require.NoError(t, err)
	for i := range rates.Rows {
		if rates.Rows[i].Buy != nil {
			price := float64(rapid.IntRange(5, 500).Draw(t, "price"))
			rates.Rows[i].Buy = &price
		}
	}
	return rates
}

func TestAnUnknownFamilyOfTheRates(t *testing.T) {
	rates := ratesOf(t, "currency,EUR\nkind,family,material,size,rated (t),buy\nsling,aloy chain,grade 8,8 mm,2,100\n")
	_, err := Bid([]BidPiece{bidPiece("a", skid(20, 800))}, BidOptions{Rates: rates})
	var problems takeoff.Problems
	require.True(t, errors.As(err, &problems))
	assert.Equal(t, "B3", problems[0].Cell)
	assert.True(t, strings.Contains(problems[0].Fix, "alloy_chain"), problems[0].Fix)
}

// What a candidate may serve: enough legs, rating and reach, and a material that may
// be used; of a rate that names none, the worst of its family.
func TestWhatGearServes(t *testing.T) {
	d := gearDemand{kind: "sling", count: 2, lengths: []float64{2, 3}, needs: map[string]float64{"synthetic_web|polyester": 1000, "synthetic_web|polyamide": 1500}}
	web := func(material string, rated units.Mass) takeoff.Rate {
		return takeoff.Rate{Kind: "sling", Family: "synthetic_web", Material: material, Rated: rated, Length: 4, AdjustFrom: 1}
	}
	barred := d
	barred.barred = []string{"synthetic_web"}
	other := d
	other.slot = 1
	short := d
	short.lengths = []float64{0.5, 3}
	unknown := d
	unknown.lengths = []float64{0, 3}
	for _, tt := range []struct {
		name string
		c    candidate
		d    gearDemand
		want bool
	}{
		{"enough", candidate{rate: web("polyester", 1000), count: 2}, d, true},
		{"more legs than asked", candidate{rate: web("polyester", 1000), count: 4}, d, true},
		{"too few legs", candidate{rate: web("polyester", 1000), count: 1}, d, false},
		{"rated too low for its material", candidate{rate: web("polyamide", 1200), count: 2}, d, false},
		{"no material: enough for one of the family, not for the worst", candidate{rate: web("", 1200), count: 2}, d, false},
		{"no material: enough for the worst", candidate{rate: web("", 1500), count: 2}, d, true},
		{"no material, and one of the family may not be used", candidate{rate: web("", 1500), count: 2}, barred, false},
		{"its material is named: another one barred does not matter", candidate{rate: web("polyester", 1000), count: 2}, barred, true},
		{"it hangs under the load beside another set", candidate{rate: web("polyester", 1000), count: 2}, other, false},
		{"a leg shorter than it adjusts to", candidate{rate: web("polyester", 1000), count: 2}, short, false},
		{"a length that is not known", candidate{rate: web("polyester", 1000), count: 2}, unknown, false},
	} {
		assert.Equal(t, tt.want, tt.c.serves(tt.d, 1), tt.name)
	}
}

// BenchmarkBid prices invented pieces: the time of one should not depend on how
// many there are.
func BenchmarkBid(b *testing.B) {
	for _, n := range []int{10, 100, 1000} {
		b.Run(fmt.Sprintf("pieces=%d", n), func(b *testing.B) {
			var pieces []BidPiece
			for i := range n {
				pieces = append(pieces, bidPiece(fmt.Sprintf("P%04d", i), skid(8+float64(i%17), 300+7*float64(i%331))))
			}
			rates := ratesOf(b, someRates)
			b.ReportAllocs()
			for b.Loop() {
				if _, err := Bid(pieces, BidOptions{Rates: rates}); err != nil {
					b.Fatal(err)
				}
			}
			b.ReportMetric(float64(n)*float64(b.N)/b.Elapsed().Seconds(), "pieces/s")
		})
	}
}
